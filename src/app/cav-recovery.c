/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-recovery.h"

#include "storage/cav-storage.h"

#include <errno.h>
#include <fcntl.h>
#include <glib/gstdio.h>
#include <string.h>
#include <sys/file.h>
#include <unistd.h>

#define ENDING ".cavetto"
#define LOCK_ENDING ".lock"
/* Longer addresses are not remembered. */
#define URI_MAX 4096

struct _CavRecovery
{
  /* Owned */
  char *path;
  char *lock_path;

  /* State, under the mutex */
  GMutex mutex;
  int lock; /* descriptor, or -1 */
  gboolean ended;
};

static char *
create_folder_name (void)
{
  return g_build_filename (g_get_user_state_dir (), "cavetto", "unsaved", NULL);
}

static CavRecovery *
recovery_new_named (const char *folder, const char *name)
{
  CavRecovery *self = g_atomic_rc_box_new0 (CavRecovery);

  self->path = g_strdup_printf ("%s/%s" ENDING, folder, name);
  self->lock_path = g_strdup_printf ("%s/%s" LOCK_ENDING, folder, name);
  self->lock = -1;
  g_mutex_init (&self->mutex);
  return self;
}

CavRecovery *
cav_recovery_new (void)
{
  g_autofree char *folder = create_folder_name ();
  g_autofree char *name = g_uuid_string_random ();

  return recovery_new_named (folder, name);
}

CavRecovery *
cav_recovery_ref (CavRecovery *self)
{
  return g_atomic_rc_box_acquire (self);
}

static void
recovery_clear (gpointer data)
{
  CavRecovery *self = data;

  if (self->lock >= 0)
    close (self->lock);
  g_mutex_clear (&self->mutex);
  g_free (self->path);
  g_free (self->lock_path);
}

void
cav_recovery_unref (CavRecovery *self)
{
  if (self != NULL)
    g_atomic_rc_box_release_full (self, recovery_clear);
}

/* The lock is gone with the program, however it ends. */
static gboolean
take_lock (CavRecovery *self, int flags)
{
  if (self->lock >= 0)
    return TRUE;
  self->lock = g_open (self->lock_path, flags | O_RDWR | O_CLOEXEC, 0600);
  if (self->lock >= 0 && flock (self->lock, LOCK_EX | LOCK_NB) == 0)
    return TRUE;
  if (self->lock >= 0)
    close (self->lock);
  self->lock = -1;
  return FALSE;
}

static gboolean
write_uri (CavRecovery *self, const char *uri)
{
  gsize length = uri != NULL ? strlen (uri) : 0;

  return ftruncate (self->lock, 0) == 0
         && (length == 0 || pwrite (self->lock, uri, length, 0) == (gssize)length);
}

static gboolean
keep_locked (CavRecovery *self, GBytes *bytes, const char *uri, GError **error)
{
  g_autofree char *folder = g_path_get_dirname (self->path);
  gsize length;
  const void *data = g_bytes_get_data (bytes, &length);

  if (self->ended)
    return TRUE;
  if (g_mkdir_with_parents (folder, 0700) != 0 || !take_lock (self, O_CREAT)
      || !write_uri (self, uri))
    {
      int saved = errno;

      g_set_error (error, G_IO_ERROR, (int)g_io_error_from_errno (saved),
                   "%s: unsaved work cannot be kept there: %s", folder, g_strerror (saved));
      return FALSE;
    }
  return cav_storage_write (self->path, data, length, error);
}

gboolean
cav_recovery_keep (CavRecovery *self, GBytes *bytes, const char *uri, GError **error)
{
  gboolean done;

  g_mutex_lock (&self->mutex);
  done = keep_locked (self, bytes, uri, error);
  g_mutex_unlock (&self->mutex);
  return done;
}

static void
drop_locked (CavRecovery *self)
{
  if (self->lock < 0)
    return;
  /* Content first: a lock without content is nothing, content without a lock would be found. */
  g_remove (self->path);
  g_remove (self->lock_path);
  close (self->lock);
  self->lock = -1;
}

void
cav_recovery_drop (CavRecovery *self)
{
  g_mutex_lock (&self->mutex);
  drop_locked (self);
  g_mutex_unlock (&self->mutex);
}

void
cav_recovery_end (CavRecovery *self)
{
  g_mutex_lock (&self->mutex);
  self->ended = TRUE;
  drop_locked (self);
  g_mutex_unlock (&self->mutex);
}

/* Newest first. */
static int
compare_times (gconstpointer a, gconstpointer b)
{
  const CavRecovery *first = *(CavRecovery *const *)a;
  const CavRecovery *second = *(CavRecovery *const *)b;
  GStatBuf one = { 0 };
  GStatBuf two = { 0 };

  g_stat (first->path, &one);
  g_stat (second->path, &two);
  return one.st_mtime > two.st_mtime ? -1 : one.st_mtime < two.st_mtime;
}

GPtrArray *
cav_recovery_find_lost (void)
{
  GPtrArray *lost = g_ptr_array_new_with_free_func ((GDestroyNotify)cav_recovery_unref);
  g_autofree char *folder = create_folder_name ();
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *name;

  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *stem = NULL;
      g_autoptr (CavRecovery) place = NULL;

      if (!g_str_has_suffix (name, ENDING))
        continue;
      stem = g_strndup (name, strlen (name) - strlen (ENDING));
      place = recovery_new_named (folder, stem);
      if (take_lock (place, O_CREAT))
        g_ptr_array_add (lost, g_steal_pointer (&place));
    }
  g_ptr_array_sort (lost, compare_times);
  return lost;
}

const char *
cav_recovery_get_path (CavRecovery *self)
{
  return self->path;
}

char *
cav_recovery_dup_uri (CavRecovery *self)
{
  char uri[URI_MAX + 1];
  gssize length = self->lock >= 0 ? pread (self->lock, uri, URI_MAX, 0) : 0;

  if (length <= 0)
    return NULL;
  uri[length] = '\0';
  return g_utf8_validate (uri, -1, NULL) ? g_strdup (uri) : NULL;
}
