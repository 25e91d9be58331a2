/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "storage/cav-storage.h"

#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include <glib/gstdio.h>

#include "storage-test.h"

/*
 * Every call to the system that a save makes fails once in turn. Whatever fails, the file is the
 * old one or the new one, what the program says agrees with which, and nothing lies about beside
 * it. The linker puts the functions below in place of the system's (--wrap).
 */

typedef enum
{
  CALL_NONE,
  CALL_CREATE,
  CALL_WRITE,
  CALL_CHOWN,
  CALL_CHMOD,
  CALL_SYNC,
  CALL_CLOSE,
  CALL_RENAME,
} Call;

static struct
{
  Call call;    /* which one fails */
  guint turn;   /* the first, second ... of its kind */
  int code;     /* with which errno; 0: a write that writes one byte only */
  guint passed; /* of its kind since the fault was set */
  gboolean hit;
} fault;

static void
set_fault (Call call, guint turn, int code)
{
  fault.call = call;
  fault.turn = turn;
  fault.code = code;
  fault.passed = 0;
  fault.hit = FALSE;
}

static gboolean
is_faulty (Call call)
{
  if (fault.call != call || fault.passed++ != fault.turn)
    return FALSE;
  fault.hit = TRUE;
  errno = fault.code;
  return TRUE;
}

int __real_g_mkstemp_full (char *name, int flags, int mode);
int __wrap_g_mkstemp_full (char *name, int flags, int mode);
ssize_t __real_write (int fd, const void *data, size_t length);
ssize_t __wrap_write (int fd, const void *data, size_t length);
int __real_fchown (int fd, uid_t user, gid_t group);
int __wrap_fchown (int fd, uid_t user, gid_t group);
int __real_fchmod (int fd, mode_t mode);
int __wrap_fchmod (int fd, mode_t mode);
int __real_fsync (int fd);
int __wrap_fsync (int fd);
int __real_close (int fd);
int __wrap_close (int fd);
int __real_rename (const char *from, const char *to);
int __wrap_rename (const char *from, const char *to);

int
__wrap_g_mkstemp_full (char *name, int flags, int mode)
{
  return is_faulty (CALL_CREATE) ? -1 : __real_g_mkstemp_full (name, flags, mode);
}

ssize_t
__wrap_write (int fd, const void *data, size_t length)
{
  if (!is_faulty (CALL_WRITE))
    return __real_write (fd, data, length);
  return fault.code == 0 ? __real_write (fd, data, MIN (length, 1)) : -1;
}

int
__wrap_fchown (int fd, uid_t user, gid_t group)
{
  return is_faulty (CALL_CHOWN) ? -1 : __real_fchown (fd, user, group);
}

int
__wrap_fchmod (int fd, mode_t mode)
{
  return is_faulty (CALL_CHMOD) ? -1 : __real_fchmod (fd, mode);
}

int
__wrap_fsync (int fd)
{
  return is_faulty (CALL_SYNC) ? -1 : __real_fsync (fd);
}

/* A descriptor is gone after close, whatever it says. */
int
__wrap_close (int fd)
{
  gboolean faulty = is_faulty (CALL_CLOSE);
  int result = __real_close (fd);

  if (!faulty)
    return result;
  errno = fault.code;
  return -1;
}

int
__wrap_rename (const char *from, const char *to)
{
  return is_faulty (CALL_RENAME) ? -1 : __real_rename (from, to);
}

typedef enum
{
  REFUSED, /* the old file stays, with an error */
  DONE,    /* the new file is there, without one */
} Outcome;

typedef struct
{
  const char *desc;
  Call call;
  guint turn;
  int code;
  Outcome outcome;
} FaultCase;

static const FaultCase FAULTS[] = {
  { "no new file can be made", CALL_CREATE, 0, EACCES, REFUSED },
  { "too many open files", CALL_CREATE, 0, EMFILE, REFUSED },
  { "disk full at the first write", CALL_WRITE, 0, ENOSPC, REFUSED },
  { "quota used up", CALL_WRITE, 0, EDQUOT, REFUSED },
  { "disk broken", CALL_WRITE, 0, EIO, REFUSED },
  { "a write that was interrupted goes on", CALL_WRITE, 0, EINTR, DONE },
  { "a short write goes on", CALL_WRITE, 0, 0, DONE },
  { "somebody else's file", CALL_CHOWN, 0, EPERM, DONE },
  { "rights cannot be given", CALL_CHMOD, 0, EPERM, REFUSED },
  { "disk full when written through", CALL_SYNC, 0, ENOSPC, REFUSED },
  { "disk broken when written through", CALL_SYNC, 0, EIO, REFUSED },
  { "a pipe cannot be written through", CALL_SYNC, 0, EINVAL, DONE },
  { "the folder cannot be written through", CALL_SYNC, 1, EIO, DONE },
  { "disk full at close", CALL_CLOSE, 0, ENOSPC, REFUSED },
  { "close interrupted", CALL_CLOSE, 0, EINTR, DONE },
  { "the folder's close fails", CALL_CLOSE, 1, EIO, DONE },
  { "no rename", CALL_RENAME, 0, EACCES, REFUSED },
  { "rename on a full disk", CALL_RENAME, 0, ENOSPC, REFUSED },
};

static void
assert_content (const char *file, const char *expected)
{
  g_autofree char *content = NULL;

  g_assert_true (g_file_get_contents (file, &content, NULL, NULL));
  g_assert_cmpstr (content, ==, expected);
}

/* old NULL: there was no file before. */
static void
check_fault (const FaultCase *c, const char *old)
{
  g_autofree char *folder = storage_test_make_folder ();
  g_autofree char *file = g_build_filename (folder, "out.xml", NULL);
  g_autoptr (GError) error = NULL;
  gboolean written;

  g_test_message ("%s, %s", c->desc, old != NULL ? "over an old file" : "a new file");
  if (old != NULL)
    g_assert_true (g_file_set_contents (file, old, -1, NULL));
  set_fault (c->call, c->turn, c->code);
  written = cav_storage_write (file, "the new one", 11, &error);
  fault.call = CALL_NONE;
  /* Rights and owner are only taken over where there was a file. */
  g_assert_true (fault.hit || (old == NULL && (c->call == CALL_CHOWN || c->call == CALL_CHMOD)));
  if (!fault.hit || c->outcome == DONE)
    {
      g_assert_no_error (error);
      g_assert_true (written);
      assert_content (file, "the new one");
    }
  else
    {
      g_assert_false (written);
      storage_test_assert_error (error, CAV_STORAGE_ERROR_WRITE, "cannot be written");
      if (old != NULL)
        assert_content (file, old);
      else
        g_assert_false (g_file_test (file, G_FILE_TEST_EXISTS));
    }
  if (g_file_test (file, G_FILE_TEST_EXISTS))
    g_assert_cmpint (g_unlink (file), ==, 0);
  /* Fails where anything else is left behind. */
  g_assert_cmpint (g_rmdir (folder), ==, 0);
}

static void
test_faults (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (FAULTS); i++)
    {
      check_fault (&FAULTS[i], "the old one");
      check_fault (&FAULTS[i], NULL);
    }
}

/* A long file needs several writes where the system takes it in pieces; each fails in turn. */
static void
test_every_write (void)
{
  g_autofree char *folder = storage_test_make_folder ();
  g_autofree char *file = g_build_filename (folder, "out.xml", NULL);
  g_autofree char *text = g_strnfill (200000, 'x');
  guint turn = 0;

  g_assert_true (g_file_set_contents (file, "the old one", -1, NULL));
  for (;; turn++)
    {
      g_autoptr (GError) error = NULL;
      gboolean written;

      set_fault (CALL_WRITE, turn, ENOSPC);
      written = cav_storage_write (file, text, 200000, &error);
      fault.call = CALL_NONE;
      g_assert_true (written == !fault.hit);
      if (!fault.hit)
        break;
      assert_content (file, "the old one");
    }
  g_assert_cmpuint (turn, >=, 1);
  assert_content (file, text);
  g_assert_cmpint (g_unlink (file), ==, 0);
  g_assert_cmpint (g_rmdir (folder), ==, 0);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/storage/write-faults/each-call", test_faults);
  g_test_add_func ("/storage/write-faults/every-write", test_every_write);
  return g_test_run ();
}
