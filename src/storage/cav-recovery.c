/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "storage/cav-recovery.h"

#include <errno.h>
#include <fcntl.h>
#include <glib/gi18n-lib.h>
#include <string.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#include "storage/cav-xml.h"

#define LOCK_ENDING ".lock"
#define FILE_ENDING ".cavetto"
#define COMMENT_BEGIN "<!-- cavetto-recovery "
/* Only the beginning of a file is looked at for the comment. */
#define HEAD_BYTES 16384
/* How often a lock is tried anew that somebody else has just cleared away. */
#define MOST_TRIES 20

/* Where the file is from and when it was written, as its comment has it. */
typedef struct
{
  char *uri; /* nullable */
  gint64 time;
} Origin;

struct _CavRecovery
{
  /* Owned */
  char *path;
  char *lock_path;

  /* State, under the mutex */
  GMutex mutex;
  int lock; /* descriptor, or -1 */
  gboolean ended;
  Origin origin;
};

char *
cav_recovery_dup_folder (void)
{
  return g_build_filename (g_get_user_state_dir (), "cavetto", "unsaved", NULL);
}

/* (transfer full) */
static char *
get_folder (const char *folder)
{
  return folder != NULL ? g_strdup (folder) : cav_recovery_dup_folder ();
}

/* (transfer full) "…/NAME.lock" for "…/NAME.cavetto" and the other way round. */
static char *
replace_ending (const char *name, const char *from, const char *to)
{
  g_autofree char *stem = g_strndup (name, strlen (name) - strlen (from));

  return g_strconcat (stem, to, NULL);
}

static CavRecovery *
recovery_new_at (const char *path)
{
  CavRecovery *self = g_atomic_rc_box_new0 (CavRecovery);

  self->path = g_strdup (path);
  self->lock_path = replace_ending (path, FILE_ENDING, LOCK_ENDING);
  self->lock = -1;
  g_mutex_init (&self->mutex);
  return self;
}

CavRecovery *
cav_recovery_new (const char *folder)
{
  g_autofree char *place = get_folder (folder);
  g_autofree char *name = g_uuid_string_random ();
  g_autofree char *path = g_strdup_printf ("%s/%s" FILE_ENDING, place, name);

  return recovery_new_at (path);
}

CavRecovery *
cav_recovery_ref (CavRecovery *self)
{
  return g_atomic_rc_box_acquire (self);
}

static void
clear_cb (gpointer data)
{
  CavRecovery *self = data;

  if (self->lock >= 0)
    close (self->lock);
  g_mutex_clear (&self->mutex);
  g_free (self->path);
  g_free (self->lock_path);
  g_free (self->origin.uri);
}

void
cav_recovery_unref (CavRecovery *self)
{
  if (self != NULL)
    g_atomic_rc_box_release_full (self, clear_cb);
}

/* Locks */

/* A lock counts only while its file is the one that has the name: another program may have
 * cleared it away between our opening and locking it. */
static gboolean
is_named (int fd, const char *lock_file)
{
  struct stat held, named;

  return fstat (fd, &held) == 0 && stat (lock_file, &named) == 0 && held.st_dev == named.st_dev
         && held.st_ino == named.st_ino;
}

/* Takes fd, which it closes where the lock cannot be had. Returns it or -1. */
static int
lock_or_close (int fd, const char *lock_file)
{
  if (fd >= 0 && flock (fd, LOCK_EX | LOCK_NB) == 0 && is_named (fd, lock_file))
    return fd;
  if (fd >= 0)
    close (fd);
  return -1;
}

/* The lock, or -1 where somebody else holds it. */
static int
try_lock (const char *lock_file)
{
  return lock_or_close (open (lock_file, O_RDWR | O_CREAT | O_CLOEXEC, 0600), lock_file);
}

/* The lock of a place of our own: only who clears away can be in its way, and not for long. */
static gboolean
take_lock (CavRecovery *self)
{
  for (int i = 0; i < MOST_TRIES && self->lock < 0; i++)
    {
      errno = 0;
      self->lock = try_lock (self->lock_path);
      if (self->lock < 0 && errno != EWOULDBLOCK && errno != ENOENT && errno != 0)
        break;
    }
  return self->lock >= 0;
}

/* Keeping */

static gboolean
fail (const char *folder, int code, GError **error)
{
  g_autofree char *shown = cav_xml_dup_printable_name (folder);

  g_set_error (error, CAV_STORAGE_ERROR, CAV_STORAGE_ERROR_WRITE,
               _ ("%s: unsaved work cannot be kept there (%s); check who may write to it"), shown,
               g_strerror (code));
  return FALSE;
}

/* (transfer full) An address as it may stand in a comment, where two hyphens may not. */
static char *
escape (const char *uri)
{
  g_autofree char *escaped = g_uri_escape_string (uri, "/:", FALSE);
  g_auto (GStrv) parts = g_strsplit (escaped, "-", -1);

  return g_strjoinv ("%2D", parts);
}

/* (transfer full) The bytes of a project file with the comment after the first line. */
static GString *
add_comment (GBytes *bytes, const Origin *origin)
{
  gsize length;
  const char *data = g_bytes_get_data (bytes, &length);
  const char *end = length > 0 ? memchr (data, '\n', length) : NULL;
  gsize head = end != NULL ? (gsize)(end - data) + 1 : 0;
  g_autofree char *uri = origin->uri != NULL ? escape (origin->uri) : NULL;
  GString *text = g_string_new_len (data, (gssize)head);

  g_string_append_printf (text, COMMENT_BEGIN "time=%" G_GINT64_FORMAT " original=%s -->\n",
                          origin->time, uri != NULL ? uri : "");
  g_string_append_len (text, data + head, (gssize)(length - head));
  return text;
}

static gboolean
keep_locked (CavRecovery *self, GBytes *bytes, const char *uri, GError **error)
{
  g_autofree char *folder = g_path_get_dirname (self->path);

  if (self->ended)
    return TRUE;
  if (g_mkdir_with_parents (folder, 0700) != 0 || !take_lock (self))
    return fail (folder, errno, error);
  g_free (self->origin.uri);
  self->origin = (Origin){ g_strdup (uri), g_get_real_time () };

  GString *text = add_comment (bytes, &self->origin);
  gboolean written = cav_storage_write (self->path, text->str, text->len, error);
  g_string_free (text, TRUE);
  return written;
}

gboolean
cav_recovery_keep (CavRecovery *self, GBytes *bytes, const char *uri, GError **error)
{
  gboolean kept;

  g_return_val_if_fail (self != NULL, FALSE);
  g_return_val_if_fail (bytes != NULL, FALSE);

  g_mutex_lock (&self->mutex);
  kept = keep_locked (self, bytes, uri, error);
  g_mutex_unlock (&self->mutex);
  return kept;
}

static void
drop_locked (CavRecovery *self)
{
  if (self->lock < 0)
    return;
  /* Content first: a lock without content is nothing, content without a lock would be found. */
  (void)unlink (self->path);
  (void)unlink (self->lock_path);
  close (self->lock);
  self->lock = -1;
  g_clear_pointer (&self->origin.uri, g_free);
  self->origin.time = 0;
}

void
cav_recovery_drop (CavRecovery *self)
{
  g_return_if_fail (self != NULL);

  g_mutex_lock (&self->mutex);
  drop_locked (self);
  g_mutex_unlock (&self->mutex);
}

void
cav_recovery_end (CavRecovery *self)
{
  g_return_if_fail (self != NULL);

  g_mutex_lock (&self->mutex);
  self->ended = TRUE;
  drop_locked (self);
  g_mutex_unlock (&self->mutex);
}

/* What was left behind */

/* Takes "time=… original=…" apart. */
static void
read_comment (const char *text, Origin *origin)
{
  const char *comment = strstr (text, COMMENT_BEGIN "time=");
  const char *address;
  gint64 time;
  char *end;

  if (comment == NULL)
    return;
  time = g_ascii_strtoll (comment + strlen (COMMENT_BEGIN "time="), &end, 10);
  if (!g_str_has_prefix (end, " original="))
    return;
  origin->time = time;
  address = end + strlen (" original=");
  end = strchr (address, ' ');
  if (end == NULL || end == address)
    return;
  g_autofree char *uri = g_uri_unescape_segment (address, end, NULL);
  if (uri != NULL && g_utf8_validate (uri, -1, NULL))
    origin->uri = g_steal_pointer (&uri);
}

/* A file without a readable comment is found all the same, as of when it was written. */
static void
read_head (const char *path, Origin *origin)
{
  char head[HEAD_BYTES + 1];
  struct stat seen;
  int fd = open (path, O_RDONLY | O_CLOEXEC);

  if (fd < 0)
    return;
  if (fstat (fd, &seen) == 0)
    origin->time = (gint64)seen.st_mtim.tv_sec * G_USEC_PER_SEC + seen.st_mtim.tv_nsec / 1000;
  ssize_t n = read (fd, head, HEAD_BYTES);
  close (fd);
  if (n <= 0)
    return;
  head[n] = '\0';
  read_comment (head, origin);
}

/* (transfer full) (nullable) NULL where the owner lives. */
static CavRecovery *
find_at (const char *path)
{
  g_autoptr (CavRecovery) self = recovery_new_at (path);

  self->lock = try_lock (self->lock_path);
  if (self->lock < 0)
    return NULL;
  /* Its owner may have closed it, file and all, before we had the lock. */
  if (access (path, F_OK) != 0)
    {
      drop_locked (self);
      return NULL;
    }
  read_head (path, &self->origin);
  return g_steal_pointer (&self);
}

/* A lock without a file is left by who was stopped before the first file was whole. */
static void
clear_lock (const char *lock_file)
{
  g_autofree char *path = replace_ending (lock_file, LOCK_ENDING, FILE_ENDING);
  int lock;

  if (access (path, F_OK) == 0)
    return;
  lock = try_lock (lock_file);
  if (lock < 0)
    return;
  if (access (path, F_OK) != 0)
    (void)unlink (lock_file);
  close (lock);
}

static int
compare_times_cb (gconstpointer a, gconstpointer b)
{
  const CavRecovery *one = *(CavRecovery *const *)a;
  const CavRecovery *other = *(CavRecovery *const *)b;

  if (one->origin.time != other->origin.time)
    return one->origin.time > other->origin.time ? -1 : 1;
  return strcmp (one->path, other->path);
}

GPtrArray *
cav_recovery_find_lost (const char *folder)
{
  GPtrArray *lost = g_ptr_array_new_with_free_func ((GDestroyNotify)cav_recovery_unref);
  g_autofree char *place = get_folder (folder);
  g_autoptr (GDir) dir = g_dir_open (place, 0, NULL);
  const char *name;

  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *path = g_build_filename (place, name, NULL);
      CavRecovery *found;

      if (cav_storage_clear_temporary (place, name))
        continue;
      if (g_str_has_suffix (name, LOCK_ENDING))
        clear_lock (path);
      else if (g_str_has_suffix (name, FILE_ENDING) && (found = find_at (path)) != NULL)
        g_ptr_array_add (lost, found);
    }
  g_ptr_array_sort (lost, compare_times_cb);
  return lost;
}

const char *
cav_recovery_get_path (CavRecovery *self)
{
  g_return_val_if_fail (self != NULL, NULL);

  return self->path;
}

char *
cav_recovery_dup_uri (CavRecovery *self)
{
  char *uri;

  g_return_val_if_fail (self != NULL, NULL);

  g_mutex_lock (&self->mutex);
  uri = g_strdup (self->origin.uri);
  g_mutex_unlock (&self->mutex);
  return uri;
}

gint64
cav_recovery_get_time (CavRecovery *self)
{
  gint64 time;

  g_return_val_if_fail (self != NULL, 0);

  g_mutex_lock (&self->mutex);
  time = self->origin.time;
  g_mutex_unlock (&self->mutex);
  return time;
}
