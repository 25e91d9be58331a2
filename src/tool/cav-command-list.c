/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <glib/gi18n-lib.h>
#include <string.h>

#include "drawing/cav-cutting-list.h"
#include "drawing/cav-sheets.h"
#include "project/cav-project-boards.h"
#include "storage/cav-storage.h"
#include "tool/cav-list-text.h"
#include "tool/cav-tool.h"

static const char *const ENDINGS[] = { ".txt", ".csv", ".pdf", NULL };

enum
{
  TEXT,
  CSV,
  SHEET,
};

static gboolean
write_text (const char *output, char *text, GError **error)
{
  g_autofree char *owned = text;

  return cav_storage_write (output, owned, strlen (owned), error);
}

/* Where there are boards, the rails on them follow the table. */
static char *
create_text (const CavCuttingList *list,
             const CavBoardLayout *layout,
             const CavSheetOptions *options)
{
  g_autofree char *table = cav_cutting_list_create_text (list, options);
  g_autofree char *boards
      = layout != NULL ? cav_list_text_create (layout, options->unit) : g_strdup ("");

  return g_strconcat (table, boards[0] != '\0' ? "\n" : "", boards, NULL);
}

static gboolean
write_sheet (const char *output,
             CavProject *project,
             const CavPlan *plan,
             const CavSheetOptions *options,
             GError **error)
{
  g_autoptr (GBytes) pdf = cav_sheet_create_pdf (CAV_SHEET_LIST, project, plan, options, error);
  gsize length;
  const void *data;

  if (pdf == NULL)
    return FALSE;
  data = g_bytes_get_data (pdf, &length);
  return cav_storage_write (output, data, length, error);
}

/* (transfer full) What another project asks of boards. */
static CavBoardJob *
load_job (const CavArguments *arguments, const char *file, GError **error)
{
  CavArguments other = *arguments;
  g_autoptr (CavProject) project = NULL;
  g_autoptr (CavPlan) plan = NULL;
  g_autoptr (CavBoardJob) job = NULL;
  g_autofree char *reason = NULL;

  other.file = (char *)file;
  project = cav_tool_load_project (&other, error);
  if (project == NULL)
    return NULL;
  plan = cav_tool_plan_if_possible (&other, project);
  job = cav_project_create_board_job (project, plan);
  reason = cav_board_job_explain (job);
  if (reason != NULL)
    {
      g_set_error (error, CAV_TOOL_ERROR, 0, "%s: %s", file, reason);
      return NULL;
    }
  if (job->name[0] == '\0')
    {
      g_free (job->name);
      job->name = g_path_get_basename (file);
    }
  /* Wishes were for other boards. */
  g_array_set_size (job->pins, 0);
  return g_steal_pointer (&job);
}

/* Their rails come from the first one's boards. */
static gboolean
join_others (const CavArguments *arguments, CavProject *project, GError **error)
{
  g_autoptr (CavLumber) lumber = cav_lumber_copy (cav_project_get_lumber (project));

  for (char **file = arguments->more; file != NULL && *file != NULL; file++)
    {
      CavBoardJob *job = load_job (arguments, *file, error);

      if (job == NULL)
        return FALSE;
      g_ptr_array_add (lumber->joined, job);
    }
  cav_project_set_lumber (project, lumber);
  return TRUE;
}

static CavExit
run (const CavArguments *arguments, GError **error)
{
  const char *output = arguments->output != NULL ? arguments->output : "-";
  int kind = cav_tool_find_ending (output, ENDINGS, error);
  g_autoptr (CavProject) project = kind >= 0 ? cav_tool_load_project (arguments, error) : NULL;
  CavSheetOptions options = cav_tool_get_sheet_options (arguments);
  g_autoptr (CavPlan) plan = NULL;
  g_autoptr (CavCuttingList) list = NULL;
  g_autoptr (CavBoardLayout) layout = NULL;
  gboolean success;

  if (project == NULL || !join_others (arguments, project, error))
    return CAV_EXIT_FAILED;
  plan = cav_tool_plan_if_possible (arguments, project);
  list = cav_cutting_list_new (project, plan, &options);
  layout = cav_sheets_lay_out_boards (project, plan, &options);
  options.boards = layout;
  if (layout != NULL)
    cav_cutting_list_add_boards (list, layout);
  if (kind == SHEET)
    success = write_sheet (output, project, plan, &options, error);
  else if (kind == CSV)
    success = write_text (output, cav_cutting_list_create_csv (list, &options), error);
  else
    success = write_text (output, create_text (list, layout, &options), error);
  if (!success)
    return CAV_EXIT_FAILED;
  return layout != NULL
                 && (layout->missing->len > 0 || cav_finding_list_has_wrong (layout->findings))
             ? CAV_EXIT_WRONG
             : CAV_EXIT_FINE;
}

const CavCommand cav_command_list = {
  .name = "list",
  .operand = "FILE",
  .summary = N_ ("list what to cut and to get: a table, .csv or .pdf"),
  .description = N_ (
      "Lists the rails of the project FILE with all that goes into the frame: trial and spare\n"
      "pieces, glass, mats with their windows, backing, points and hangers, with weights; where\n"
      "the project has boards, also those, and the rails laid out on them. Without -o, and with\n"
      "OUT ending in .txt, it writes a table to read; .csv writes a table for a spreadsheet, .pdf\n"
      "sheets with the boards drawn to scale. The rails of further FILEs come from the boards of\n"
      "the first one, too. Exit status 1 where the boards are not enough."),
  .takes_more = TRUE,
  .options = CAV_OPTION_OUTPUT | CAV_OPTION_SHOP | CAV_OPTION_UNIT | CAV_OPTION_PAPER,
  .run = run,
};
