/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <errno.h>
#include <glib/gi18n-lib.h>
#include <string.h>

#include <glib/gstdio.h>

#include "drawing/cav-cutting-list.h"
#include "drawing/cav-sheets.h"
#include "storage/cav-storage.h"
#include "tool/cav-tool.h"

/* Begins the name of the folder in which sheets wait until all of them are written. */
#define ASIDE ".sheets-"
#define PLACEHOLDERS "XXXXXX"
/* Writing takes a few seconds; a folder that is older was left behind. */
#define LEFT_SECONDS 3600

/* A file of the folder, before it is written. */
typedef struct
{
  char *name;
  GBytes *bytes;
} SheetFile;

static void
file_free (gpointer data)
{
  SheetFile *file = data;

  g_free (file->name);
  g_bytes_unref (file->bytes);
  g_free (file);
}

static void
take_file (GPtrArray *files, const char *base, const char *ending, GBytes *bytes)
{
  SheetFile *file = g_new0 (SheetFile, 1);

  file->name = g_strconcat (base, ending, NULL);
  file->bytes = bytes;
  g_ptr_array_add (files, file);
}

/* (transfer full) The cutting list, with the boards where there are any. */
static char *
create_csv (CavProject *project, const CavPlan *plan, const CavSheetOptions *options)
{
  g_autoptr (CavCuttingList) list = cav_cutting_list_new (project, plan, options);

  if (options->boards != NULL)
    cav_cutting_list_add_boards (list, options->boards);
  return cav_cutting_list_create_csv (list, options);
}

/* Everything is made before anything is written. NULL with an error where one sheet fails. */
static GPtrArray *
create_files (CavProject *project,
              const CavPlan *plan,
              const CavSheetOptions *options,
              GError **error)
{
  g_autoptr (GPtrArray) files = g_ptr_array_new_with_free_func (file_free);
  char *csv = create_csv (project, plan, options);

  take_file (files, cav_sheet_get_id (CAV_SHEET_LIST), ".csv",
             g_bytes_new_take (csv, strlen (csv)));
  for (int i = 0; i < CAV_N_SHEETS; i++)
    {
      GBytes *bytes;

      if (!cav_sheet_is_possible ((CavSheet)i, project, plan))
        continue;
      bytes = cav_sheet_create_pdf ((CavSheet)i, project, plan, options, error);
      if (bytes == NULL)
        return NULL;
      take_file (files, cav_sheet_get_id ((CavSheet)i), ".pdf", bytes);
    }
  if (cav_sheet_is_possible (CAV_SHEET_TEMPLATE, project, plan))
    {
      GBytes *bytes = cav_template_create_svg (project, plan, options, error);

      if (bytes == NULL)
        return NULL;
      take_file (files, cav_sheet_get_id (CAV_SHEET_TEMPLATE), ".svg", bytes);
    }
  return g_steal_pointer (&files);
}

static gboolean
fail (GError **error, const char *path, const char *what)
{
  g_set_error (error, CAV_TOOL_ERROR, 0, "%s: %s: %s", path, what, g_strerror (errno));
  return FALSE;
}

/* All files go to a folder beside their places first, so that a full disk leaves nothing behind. */
static gboolean
write_aside (const GPtrArray *files, const char *aside, GError **error)
{
  for (guint i = 0; i < files->len; i++)
    {
      const SheetFile *file = g_ptr_array_index (files, i);
      g_autofree char *path = g_build_filename (aside, file->name, NULL);
      gsize length;
      const void *data = g_bytes_get_data (file->bytes, &length);

      if (!cav_storage_write (path, data, length, error))
        return FALSE;
    }
  return TRUE;
}

static gboolean
move_in (const GPtrArray *files, const char *aside, const char *folder, GError **error)
{
  for (guint i = 0; i < files->len; i++)
    {
      const SheetFile *file = g_ptr_array_index (files, i);
      g_autofree char *from = g_build_filename (aside, file->name, NULL);
      g_autofree char *to = g_build_filename (folder, file->name, NULL);

      if (g_rename (from, to) != 0)
        return fail (error, to, _ ("the sheet could not be put there"));
    }
  return TRUE;
}

static void
clear_aside (const GPtrArray *files, const char *aside)
{
  for (guint i = 0; i < files->len; i++)
    {
      const SheetFile *file = g_ptr_array_index (files, i);
      g_autofree char *path = g_build_filename (aside, file->name, NULL);

      g_unlink (path);
    }
  g_rmdir (aside);
}

/* What a run that was killed has left: a folder of that name, and in it sheets and halves of them.
 * One that holds anything else stays, and so does one that another run may be filling. */
static void
clear_leftovers (const GPtrArray *files, const char *folder)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *name;

  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *aside = g_build_filename (folder, name, NULL);
      g_autoptr (GDir) inside = NULL;
      const char *half;
      GStatBuf about;

      if (!g_str_has_prefix (name, ASIDE) || strlen (name) != strlen (ASIDE PLACEHOLDERS)
          || g_lstat (aside, &about) != 0 || !S_ISDIR (about.st_mode)
          || g_get_real_time () / G_USEC_PER_SEC - about.st_mtime < LEFT_SECONDS)
        continue;
      inside = g_dir_open (aside, 0, NULL);
      while (inside != NULL && (half = g_dir_read_name (inside)) != NULL)
        cav_storage_clear_temporary (aside, half);
      clear_aside (files, aside);
    }
}

static gboolean
write_folder (const GPtrArray *files, const char *folder, GError **error)
{
  g_autofree char *aside = g_build_filename (folder, ASIDE PLACEHOLDERS, NULL);
  gboolean is_new = !g_file_test (folder, G_FILE_TEST_EXISTS);
  gboolean success;

  if (is_new && g_mkdir (folder, 0777) != 0)
    return fail (error, folder, _ ("the folder could not be made"));
  clear_leftovers (files, folder);
  if (g_mkdtemp_full (aside, 0777) == NULL)
    {
      fail (error, folder, _ ("nothing can be written in this folder"));
      if (is_new)
        g_rmdir (folder);
      return FALSE;
    }
  success = write_aside (files, aside, error) && move_in (files, aside, folder, error);
  clear_aside (files, aside);
  if (!success && is_new)
    g_rmdir (folder);
  return success;
}

static gboolean
is_one_file (const char *output)
{
  g_autofree char *lower = g_ascii_strdown (output, -1);

  return strcmp (output, "-") == 0 || g_str_has_suffix (lower, ".pdf");
}

static CavExit
write_file (const CavArguments *arguments,
            CavProject *project,
            const CavPlan *plan,
            const CavSheetOptions *options,
            GError **error)
{
  g_autoptr (GBytes) pdf = cav_sheets_create_pdf (project, plan, options, error);

  return cav_tool_write (arguments, pdf, error);
}

static CavExit
run (const CavArguments *arguments, GError **error)
{
  g_autoptr (CavProject) project = cav_tool_load_project (arguments, error);
  CavSheetOptions options = cav_tool_get_sheet_options (arguments);
  g_autoptr (CavPlan) plan = NULL;
  g_autoptr (CavBoardLayout) boards = NULL;
  g_autoptr (GPtrArray) files = NULL;

  if (project == NULL)
    return CAV_EXIT_FAILED;
  plan = cav_tool_plan (arguments, project, error);
  if (plan == NULL)
    return CAV_EXIT_WRONG;
  if (is_one_file (arguments->output))
    return write_file (arguments, project, plan, &options, error);
  boards = cav_sheets_lay_out_boards (project, plan, &options);
  options.boards = boards;
  files = create_files (project, plan, &options, error);
  if (files == NULL)
    {
      g_prefix_error (error, "%s: ", arguments->file);
      return CAV_EXIT_WRONG;
    }
  return write_folder (files, arguments->output, error) ? CAV_EXIT_FINE : CAV_EXIT_FAILED;
}

const CavCommand cav_command_sheets = {
  .name = "sheets",
  .operand = "FILE",
  .summary = N_ ("write every sheet for the shop: one .pdf, or a folder"),
  .description
  = N_ ("Writes all sheets of the project FILE: job sheet, cutting list, pass sheet, template and\n"
        "drawing. OUT ending in .pdf is one file with all pages; any other OUT is a folder, made\n"
        "where it is not there, with a file for each sheet, the list as .csv and the template as\n"
        ".svg too.\n"
        "The first plan of a molding takes seconds. It is kept in the user's cache, proved anew "
        "each\n"
        "time it is used, and is the plan that the window shows."),
  .options
  = CAV_OPTION_OUTPUT | CAV_OPTION_SHOP | CAV_OPTION_UNIT | CAV_OPTION_PAPER | CAV_OPTION_LAYOUT,
  .required = CAV_OPTION_OUTPUT,
  .run = run,
};
