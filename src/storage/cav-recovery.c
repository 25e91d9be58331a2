/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "storage/cav-recovery.h"

#include <errno.h>
#include <fcntl.h>
#include <string.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <time.h>
#include <unistd.h>

#include "storage/cav-xml.h"

#define LOCK_ENDING ".lock"
#define FILE_ENDING ".cavetto"
/* Begins the names of files that are being written; see cav-write.c. */
#define TEMPORARY_BEGIN ".cavetto-"
/* Writing takes less than a second; what is older was broken off. */
#define TEMPORARY_SECONDS 3600
#define COMMENT_BEGIN "<!-- cavetto-recovery "
/* Only the beginning of a file is looked at for the comment. */
#define HEAD_BYTES 16384
/* How often the name of a lock is tried anew that somebody else has cleared away. */
#define MOST_TRIES 20

struct _CavRecovery
{
  char *file;
  char *lock_file;
  int lock;
  gboolean has_file;
};

char *
cav_recovery_dup_folder (void)
{
  return g_build_filename (g_get_user_state_dir (), "cavetto", "recovery", NULL);
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

/* The lock of a file that may have been left behind, or -1 where its owner is alive. */
static int
try_lock (const char *lock_file)
{
  return lock_or_close (open (lock_file, O_RDWR | O_CREAT | O_CLOEXEC, 0600), lock_file);
}

/* (transfer full) "…/NAME.lock" for "…/NAME.cavetto" and the other way round. */
static char *
replace_ending (const char *name, const char *from, const char *to)
{
  g_autofree char *stem = g_strndup (name, strlen (name) - strlen (from));

  return g_strconcat (stem, to, NULL);
}

/* The document's own place */

static gboolean
fail (const char *folder, int code, GError **error)
{
  g_autofree char *shown = cav_xml_dup_printable_name (folder);

  g_set_error (error, CAV_STORAGE_ERROR, CAV_STORAGE_ERROR_WRITE,
               "%s: unsaved work cannot be kept there (%s); check who may write to it", shown,
               g_strerror (code));
  return FALSE;
}

CavRecovery *
cav_recovery_new (const char *folder, GError **error)
{
  int code = 0;

  g_return_val_if_fail (folder != NULL, NULL);

  if (g_mkdir_with_parents (folder, 0700) != 0)
    {
      fail (folder, errno, error);
      return NULL;
    }
  for (int i = 0; i < MOST_TRIES; i++)
    {
      g_autofree char *lock_file = g_build_filename (folder, "XXXXXX" LOCK_ENDING, NULL);
      int fd = g_mkstemp_full (lock_file, O_RDWR | O_CLOEXEC, 0600);

      if (fd < 0)
        {
          code = errno;
          break;
        }
      fd = lock_or_close (fd, lock_file);
      if (fd < 0)
        continue;
      CavRecovery *recovery = g_new0 (CavRecovery, 1);
      recovery->file = replace_ending (lock_file, LOCK_ENDING, FILE_ENDING);
      recovery->lock_file = g_steal_pointer (&lock_file);
      recovery->lock = fd;
      return recovery;
    }
  fail (folder, code != 0 ? code : EBUSY, error);
  return NULL;
}

void
cav_recovery_leave (CavRecovery *recovery)
{
  if (recovery == NULL)
    return;
  if (!recovery->has_file)
    (void)unlink (recovery->lock_file);
  close (recovery->lock);
  g_free (recovery->file);
  g_free (recovery->lock_file);
  g_free (recovery);
}

void
cav_recovery_free (CavRecovery *recovery)
{
  if (recovery == NULL)
    return;
  cav_recovery_forget (recovery);
  cav_recovery_leave (recovery);
}

void
cav_recovery_forget (CavRecovery *recovery)
{
  g_return_if_fail (recovery != NULL);

  (void)unlink (recovery->file);
  recovery->has_file = FALSE;
}

gboolean
cav_recovery_has_file (const CavRecovery *recovery)
{
  g_return_val_if_fail (recovery != NULL, FALSE);

  return recovery->has_file;
}

/* (transfer full) A file name as it may stand in a comment, where two hyphens may not. */
static char *
escape_name (const char *name)
{
  g_autofree char *escaped = g_uri_escape_string (name, "/", FALSE);
  g_auto (GStrv) parts = g_strsplit (escaped, "-", -1);

  return g_strjoinv ("%2D", parts);
}

/* (transfer full) The project's bytes with the comment after the declaration, which is a line. */
static GBytes *
create_bytes (CavProject *project, const char *original)
{
  g_autoptr (GBytes) plain = cav_storage_project_to_bytes (project);
  gsize length;
  const char *data = g_bytes_get_data (plain, &length);
  const char *end = memchr (data, '\n', length);
  gsize head = end != NULL ? (gsize)(end - data) + 1 : 0;
  g_autofree char *absolute = original != NULL ? g_canonicalize_filename (original, NULL) : NULL;
  g_autofree char *name = absolute != NULL ? escape_name (absolute) : NULL;
  GString *text = g_string_new_len (data, (gssize)head);

  g_string_append_printf (text, COMMENT_BEGIN "time=%" G_GINT64_FORMAT " original=%s -->\n",
                          g_get_real_time (), name != NULL ? name : "");
  g_string_append_len (text, data + head, (gssize)(length - head));
  return g_string_free_to_bytes (text);
}

gboolean
cav_recovery_save (CavRecovery *recovery, CavProject *project, const char *original, GError **error)
{
  gsize length;
  const void *data;

  g_return_val_if_fail (recovery != NULL, FALSE);
  g_return_val_if_fail (CAV_IS_PROJECT (project), FALSE);

  g_autoptr (GBytes) bytes = create_bytes (project, original);
  data = g_bytes_get_data (bytes, &length);
  if (!cav_storage_write (recovery->file, data, length, error))
    return FALSE;
  recovery->has_file = TRUE;
  return TRUE;
}

/* What was left behind */

/* Takes "time=… original=…" apart. */
static void
read_comment (const char *text, CavRecoveryEntry *entry)
{
  const char *comment = strstr (text, COMMENT_BEGIN);
  const char *name;
  gint64 time;
  char *end;

  if (comment == NULL || !g_str_has_prefix (comment + strlen (COMMENT_BEGIN), "time="))
    return;
  time = g_ascii_strtoll (comment + strlen (COMMENT_BEGIN "time="), &end, 10);
  if (!g_str_has_prefix (end, " original="))
    return;
  entry->time = time;
  name = end + strlen (" original=");
  if (*name != ' ' && strchr (name, ' ') != NULL)
    entry->original = g_uri_unescape_segment (name, strchr (name, ' '), NULL);
}

/* A file without a readable comment is offered all the same, as of when it was written. */
static void
read_head (CavRecoveryEntry *entry)
{
  char head[HEAD_BYTES + 1];
  struct stat seen;
  int fd = open (entry->file, O_RDONLY | O_CLOEXEC);

  if (fd < 0)
    return;
  if (fstat (fd, &seen) == 0)
    entry->time = (gint64)seen.st_mtim.tv_sec * G_USEC_PER_SEC + seen.st_mtim.tv_nsec / 1000;
  ssize_t n = read (fd, head, HEAD_BYTES);
  close (fd);
  if (n <= 0)
    return;
  head[n] = '\0';
  read_comment (head, entry);
}

/* (transfer full) (nullable) NULL where the owner lives. */
static CavRecoveryEntry *
entry_new (const char *file)
{
  g_autofree char *lock_file = replace_ending (file, FILE_ENDING, LOCK_ENDING);
  int lock = try_lock (lock_file);

  if (lock < 0)
    return NULL;
  /* Its owner may have closed it, file and all, while we waited for the lock. */
  if (access (file, F_OK) != 0)
    {
      (void)unlink (lock_file);
      close (lock);
      return NULL;
    }
  CavRecoveryEntry *entry = g_new0 (CavRecoveryEntry, 1);
  entry->file = g_strdup (file);
  entry->lock = lock;
  read_head (entry);
  return entry;
}

/* A lock without a file belongs to a document that had nothing to keep, or to nobody. */
static void
clear_lock (const char *lock_file)
{
  g_autofree char *file = replace_ending (lock_file, LOCK_ENDING, FILE_ENDING);
  int lock;

  if (access (file, F_OK) == 0)
    return;
  lock = try_lock (lock_file);
  if (lock < 0)
    return;
  if (access (file, F_OK) != 0)
    (void)unlink (lock_file);
  close (lock);
}

static void
clear_temporary (const char *file)
{
  struct stat seen;

  if (lstat (file, &seen) == 0 && S_ISREG (seen.st_mode)
      && time (NULL) - seen.st_mtim.tv_sec > TEMPORARY_SECONDS)
    (void)unlink (file);
}

static int
compare_times_cb (gconstpointer a, gconstpointer b)
{
  const CavRecoveryEntry *const *one = a;
  const CavRecoveryEntry *const *other = b;

  if ((*one)->time != (*other)->time)
    return (*one)->time > (*other)->time ? -1 : 1;
  return strcmp ((*one)->file, (*other)->file);
}

GPtrArray *
cav_recovery_list (const char *folder)
{
  GPtrArray *entries;
  g_autoptr (GDir) dir = NULL;
  const char *name;

  g_return_val_if_fail (folder != NULL, NULL);

  entries = g_ptr_array_new_with_free_func ((GDestroyNotify)cav_recovery_entry_free);
  dir = g_dir_open (folder, 0, NULL);
  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *path = g_build_filename (folder, name, NULL);
      CavRecoveryEntry *entry;

      if (g_str_has_prefix (name, TEMPORARY_BEGIN))
        clear_temporary (path);
      else if (g_str_has_suffix (name, LOCK_ENDING))
        clear_lock (path);
      else if (g_str_has_suffix (name, FILE_ENDING) && (entry = entry_new (path)) != NULL)
        g_ptr_array_add (entries, entry);
    }
  g_ptr_array_sort (entries, compare_times_cb);
  return entries;
}

void
cav_recovery_entry_free (CavRecoveryEntry *entry)
{
  if (entry == NULL)
    return;
  if (entry->lock >= 0)
    close (entry->lock);
  g_free (entry->file);
  g_free (entry->original);
  g_free (entry);
}

CavProject *
cav_recovery_entry_load (const CavRecoveryEntry *entry, GError **error)
{
  g_return_val_if_fail (entry != NULL, NULL);

  g_autoptr (CavProject) kept = cav_storage_load_project (entry->file, error);
  if (kept == NULL)
    return NULL;

  g_autoptr (CavProject) project = cav_project_new ();
  g_autoptr (CavProject) empty = cav_project_new ();
  cav_project_load (project, kept);
  /* What was kept is in no file of its own. A fresh document differs from it in some part, unless
   * there was nothing worth keeping. */
  cav_project_mark_saved_as (project, empty);
  return g_steal_pointer (&project);
}

CavRecovery *
cav_recovery_adopt (CavRecoveryEntry *entry)
{
  CavRecovery *recovery;

  g_return_val_if_fail (entry != NULL && entry->lock >= 0, NULL);

  recovery = g_new0 (CavRecovery, 1);
  recovery->file = g_strdup (entry->file);
  recovery->lock_file = replace_ending (entry->file, FILE_ENDING, LOCK_ENDING);
  recovery->lock = entry->lock;
  recovery->has_file = TRUE;
  entry->lock = -1;
  return recovery;
}

void
cav_recovery_entry_discard (CavRecoveryEntry *entry)
{
  g_return_if_fail (entry != NULL && entry->lock >= 0);

  cav_recovery_free (cav_recovery_adopt (entry));
}
