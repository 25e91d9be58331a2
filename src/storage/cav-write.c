/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <errno.h>
#include <fcntl.h>
#include <glib/gi18n-lib.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>
#include <time.h>
#include <unistd.h>

#include "storage/cav-storage.h"
#include "storage/cav-xml.h"

#define MOST_LINKS 40
/* Begins the names of files that are being written. */
#define TEMPORARY ".cavetto-"
/* Writing takes less than a second; what is older was broken off. */
#define TEMPORARY_SECONDS 3600

static const char *
get_remedy (int code)
{
  switch (code)
    {
    case ENOSPC:
    case EDQUOT:
    case EFBIG:
      return _ ("make room or choose another place");
    case EACCES:
    case EPERM:
    case EROFS:
      return _ ("choose a file and folder that you may write to");
    case ENOENT:
      return _ ("make the folder first");
    case ENOTDIR:
      return _ ("a part of the name is a file, not a folder; choose another name");
    case EISDIR:
      return _ ("this is a folder; name a file in it");
    case ENAMETOOLONG:
      return _ ("choose a shorter name");
    default:
      return _ ("choose another place");
    }
}

static gboolean
fail (const char *file_name, int code, GError **error)
{
  g_autofree char *shown = cav_xml_dup_printable_name (file_name);

  g_set_error (error, CAV_STORAGE_ERROR, CAV_STORAGE_ERROR_WRITE,
               _ ("%s: cannot be written (%s); %s"),
               strcmp (file_name, "-") == 0 ? _ ("standard output") : shown, g_strerror (code),
               get_remedy (code));
  return FALSE;
}

/* Returns 0 or what errno says. */
static int
write_all (int fd, const char *data, gsize length)
{
  while (length > 0)
    {
      ssize_t n = write (fd, data, length);

      if (n < 0 && errno == EINTR)
        continue;
      if (n < 0)
        return errno;
      data += n;
      length -= (gsize)n;
    }
  return 0;
}

/* Closing may be what reports that the disk is full. */
static int
close_after (int fd, int code)
{
  int closed = close (fd) == 0 || errno == EINTR ? 0 : errno;

  return code != 0 ? code : closed;
}

/* Where there is nothing to replace: devices, pipes, what the shell opened. */
static int
write_through (const char *file_name, const char *data, gsize length)
{
  int fd = open (file_name, O_WRONLY | O_CLOEXEC | O_NOCTTY);

  if (fd < 0)
    return errno;
  return close_after (fd, write_all (fd, data, length));
}

/* A link is followed, so that the file it points to is replaced and the link stays.
 * (transfer full) NULL with errno set where the links run in a circle. */
static char *
resolve_links (const char *file_name)
{
  g_autofree char *target = g_strdup (file_name);

  for (int i = 0; i < MOST_LINKS; i++)
    {
      g_autofree char *link = g_file_read_link (target, NULL);

      if (link == NULL)
        return g_steal_pointer (&target);
      g_autofree char *folder = g_path_get_dirname (target);
      char *next
          = g_path_is_absolute (link) ? g_strdup (link) : g_build_filename (folder, link, NULL);
      g_free (target);
      target = next;
    }
  errno = ELOOP;
  return NULL;
}

static void
sync_folder (const char *folder)
{
  int fd = open (folder, O_RDONLY | O_DIRECTORY | O_CLOEXEC);

  if (fd < 0)
    return;
  /* Some file systems cannot; the data itself is safe by then. */
  (void)fsync (fd);
  close (fd);
}

/* Writes to a new file beside the target. old is what the target is now, or NULL. */
static int
fill_temporary (int fd, const struct stat *old, const char *data, gsize length)
{
  int code = write_all (fd, data, length);

  if (code == 0 && old != NULL)
    {
      /* Others' files keep their owner where we may give it; that fails for most of us. */
      if (fchown (fd, old->st_uid, old->st_gid) != 0)
        errno = 0;
      if (fchmod (fd, old->st_mode & 07777) != 0)
        code = errno;
    }
  if (code == 0 && fsync (fd) != 0 && errno != EINVAL && errno != EROFS)
    code = errno;
  return close_after (fd, code);
}

static int
replace (const char *target, const struct stat *old, const char *data, gsize length)
{
  g_autofree char *folder = g_path_get_dirname (target);
  g_autofree char *temporary = g_build_filename (folder, TEMPORARY "XXXXXX", NULL);

  if (old != NULL && access (target, W_OK) != 0)
    return errno;
  int fd = g_mkstemp_full (temporary, O_WRONLY | O_CLOEXEC, 0666);
  if (fd < 0)
    return errno;

  int code = fill_temporary (fd, old, data, length);
  if (code == 0 && rename (temporary, target) != 0)
    code = errno;
  if (code != 0)
    (void)unlink (temporary);
  else
    sync_folder (folder);
  return code;
}

/* What the shell has opened for us is written to at the place where it stands, and never replaced
 * or opened anew, even where it is a file: else ">>" would write over what is there. Returns -1
 * for other names. */
static int
get_open_file (const char *file_name)
{
  static const char *const folders[] = { "/dev/fd/", "/proc/self/fd/" };
  guint64 number;

  if (strcmp (file_name, "-") == 0 || strcmp (file_name, "/dev/stdout") == 0)
    return STDOUT_FILENO;
  if (strcmp (file_name, "/dev/stderr") == 0)
    return STDERR_FILENO;
  for (guint i = 0; i < G_N_ELEMENTS (folders); i++)
    if (g_str_has_prefix (file_name, folders[i])
        && g_ascii_string_to_unsigned (file_name + strlen (folders[i]), 10, 0, G_MAXINT, &number,
                                       NULL))
      return (int)number;
  return -1;
}

static int
write_file (const char *file_name, const char *data, gsize length)
{
  struct stat old;

  if (*file_name == '\0' || g_str_has_suffix (file_name, "/"))
    return *file_name == '\0' ? ENOENT : EISDIR;

  g_autofree char *target = resolve_links (file_name);
  if (target == NULL)
    return errno;
  if (stat (target, &old) != 0)
    return errno == ENOENT ? replace (target, NULL, data, length) : errno;
  if (S_ISDIR (old.st_mode))
    return EISDIR;
  if (!S_ISREG (old.st_mode))
    return write_through (target, data, length);
  return replace (target, &old, data, length);
}

gboolean
cav_storage_write (const char *file_name, const void *data, gsize length, GError **error)
{
  g_return_val_if_fail (file_name != NULL, FALSE);
  g_return_val_if_fail (data != NULL || length == 0, FALSE);

  int fd = get_open_file (file_name);
  int code = 0;
  if (fd < 0)
    code = write_file (file_name, data, length);
  /* What was printed before comes before. */
  else if (fd == STDOUT_FILENO && fflush (stdout) != 0)
    code = errno;
  else
    code = write_all (fd, data, length);
  return code == 0 || fail (file_name, code, error);
}

gboolean
cav_storage_clear_temporary (const char *folder, const char *name)
{
  g_return_val_if_fail (folder != NULL && name != NULL, FALSE);

  g_autofree char *path = g_build_filename (folder, name, NULL);
  struct stat seen;

  if (!g_str_has_prefix (name, TEMPORARY))
    return FALSE;
  if (lstat (path, &seen) == 0 && S_ISREG (seen.st_mode)
      && time (NULL) - seen.st_mtim.tv_sec > TEMPORARY_SECONDS)
    (void)unlink (path);
  return TRUE;
}
