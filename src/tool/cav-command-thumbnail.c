/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/cav-thumbnail.h"
#include "storage/cav-storage.h"
#include "tool/cav-tool.h"

#include <glib/gi18n-lib.h>
#include <string.h>
#include <sys/resource.h>

/* Seconds of the processor that a picture for a list of files may cost. */
#define SECONDS_MAX 10

/* File managers ask for thumbnails of whatever carries the name. What would keep the machine busy
 * is ended by the system, and leaves no file. */
static void
limit_time (void)
{
  static const struct rlimit no_core = { 0, 0 };
  struct rlimit limit;

  if (getrlimit (RLIMIT_CPU, &limit) != 0 || limit.rlim_cur <= SECONDS_MAX)
    return;
  limit.rlim_cur = SECONDS_MAX;
  setrlimit (RLIMIT_CPU, &limit);
  setrlimit (RLIMIT_CORE, &no_core);
}

/* (transfer full) The path of a file that may be given as a URI. Only what is a plain file is
 * opened: a pipe would have us wait for ever. */
static char *
find_path (const char *file, GError **error)
{
  g_autofree char *path = g_str_has_prefix (file, "file:") ? g_filename_from_uri (file, NULL, error)
                                                           : g_strdup (file);

  if (path == NULL)
    return NULL;
  if (g_file_test (path, G_FILE_TEST_IS_REGULAR))
    return g_steal_pointer (&path);
  g_set_error (
      error, CAV_TOOL_ERROR, 0,
      _ ("%s: there is no such file on this computer; give a project's file or file: address"),
      file);
  return NULL;
}

static CavExit
run (const CavArguments *arguments, GError **error)
{
  g_autofree char *path = find_path (arguments->file, error);
  g_autoptr (CavProject) project = NULL;
  g_autoptr (GBytes) png = NULL;

  if (path == NULL)
    return CAV_EXIT_FAILED;
  limit_time ();
  project = cav_storage_load_project (path, error);
  if (project == NULL)
    return CAV_EXIT_FAILED;
  png = cav_thumbnail_create_png (project, arguments->side, error);
  return cav_tool_write (arguments, png, error);
}

const CavCommand cav_command_thumbnail = {
  .name = "thumbnail",
  .operand = "FILE",
  .summary = N_ ("draw the bare section small, for a file manager (PNG)"),
  .description
  = N_ ("Draws the section of the project FILE, which may be a file: address, without words in a\n"
        "square of --side pixels. OUT becomes a PNG file whatever its ending: file managers have\n"
        "names of their own. It gives up after ten seconds of work."),
  .options = CAV_OPTION_OUTPUT | CAV_OPTION_SIDE,
  .required = CAV_OPTION_OUTPUT,
  .run = run,
};
