/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "storage/cav-storage.h"
#include "tool/cav-pass-text.h"
#include "tool/cav-text.h"
#include "tool/cav-tool.h"

#include <glib/gi18n-lib.h>
#include <string.h>

static const char *const ENDINGS[] = { ".txt", ".xml", ".pdf", NULL };

enum
{
  TEXT,
  PLAN_FILE,
  PASS_SHEET,
};

static gboolean
write_text (
    const char *output, CavProject *project, const CavPlan *plan, CavUnit unit, GError **error)
{
  g_autofree char *text = cav_pass_text_create (project, plan, unit);

  return cav_storage_write (output, text, strlen (text), error);
}

static gboolean
write_sheet (const CavArguments *arguments,
             CavProject *project,
             const CavPlan *plan,
             GError **error)
{
  CavSheetOptions options = cav_tool_get_sheet_options (arguments);
  g_autoptr (GBytes) pdf = cav_pass_sheet_create_pdf (project, plan, &options, error);
  gsize length;
  const void *data;

  if (pdf == NULL)
    return FALSE;
  data = g_bytes_get_data (pdf, &length);
  return cav_storage_write (arguments->output, data, length, error);
}

static CavExit
run (const CavArguments *arguments, GError **error)
{
  const char *output = arguments->output != NULL ? arguments->output : "-";
  int kind = cav_tool_find_ending (output, ENDINGS, error);
  g_autoptr (CavProject) project = kind >= 0 ? cav_tool_load_project (arguments, error) : NULL;
  g_autoptr (CavPlan) plan = NULL;
  gboolean success;

  if (project == NULL)
    return CAV_EXIT_FAILED;
  plan = cav_tool_plan (arguments, project, error);
  if (plan == NULL)
    return CAV_EXIT_WRONG;
  if (kind == PLAN_FILE)
    success = cav_storage_save_plan (plan, output, error);
  else if (kind == PASS_SHEET)
    success = write_sheet (arguments, project, plan, error);
  else
    success = write_text (output, project, plan, arguments->unit, error);
  return success ? CAV_EXIT_FINE : CAV_EXIT_FAILED;
}

const CavCommand cav_command_passes = {
  .name = "passes",
  .operand = "FILE",
  .summary = N_ ("plan the passes of a project: a table, a plan file or a pass sheet"),
  .description
  = N_ ("Plans how the rails of the project FILE are milled and proves the plan by simulation.\n"
        "Without -o, and with OUT ending in .txt, it writes a table to read; .xml writes a plan\n"
        "file that other programs can check, .pdf a pass sheet to tape up beside the saw."),
  .options
  = CAV_OPTION_OUTPUT | CAV_OPTION_SHOP | CAV_OPTION_UNIT | CAV_OPTION_PAPER | CAV_OPTION_LAYOUT,
  .run = run,
};
