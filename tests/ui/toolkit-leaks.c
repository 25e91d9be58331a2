/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <dlfcn.h>
#include <string.h>

#include <gio/gio.h>
#include <sanitizer/lsan_interface.h>

/*
 * Linked into the program where a sanitizer looks for leaks, for errands that go through the
 * toolkit's dialog for files. Its bar of folders (gtk_path_bar_get_info_callback in GTK 4.8) keeps
 * two things for ever, neither of which a line of lsan.supp could tell from ours.
 *
 * For every folder on the way an object that tells of it: threads of GIO make it in functions
 * without public names. But who takes it can be told, and what the toolkit takes is not looked for.
 *
 * The list of its buttons, when it gets others. Nothing in src/ puts anything in front of a list.
 */

const char *
__lsan_default_suppressions (void)
{
  return "leak:g_list_prepend\n";
}

typedef GFileInfo *(*Finish) (GFile *file, GAsyncResult *result, GError **error);

static gboolean
is_toolkit (void *place)
{
  Dl_info library;

  return dladdr (place, &library) != 0 && strstr (library.dli_fname, "/libgtk-4.so") != NULL;
}

GFileInfo *
g_file_query_info_finish (GFile *file, GAsyncResult *result, GError **error)
{
  Finish finish = NULL;
  GFileInfo *info;

  *(void **)&finish = dlsym (RTLD_NEXT, "g_file_query_info_finish");
  info = finish (file, result, error);
  if (info != NULL && is_toolkit (__builtin_return_address (0)))
    __lsan_ignore_object (info);
  return info;
}
