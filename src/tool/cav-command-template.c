/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "tool/cav-tool.h"

#include <glib/gi18n-lib.h>

typedef GBytes *(*CreateFunction) (CavProject *,
                                   const CavPlan *,
                                   const CavSheetOptions *,
                                   GError **);

static const char *const ENDINGS[] = { ".svg", ".pdf", NULL };
static const CreateFunction CREATE[] = { cav_template_create_svg, cav_template_create_pdf };

static CavExit
run (const CavArguments *arguments, GError **error)
{
  int kind = cav_tool_find_ending (arguments->output, ENDINGS, error);
  g_autoptr (CavProject) project = kind >= 0 ? cav_tool_load_project (arguments, error) : NULL;
  CavSheetOptions options = cav_tool_get_sheet_options (arguments);
  g_autoptr (CavPlan) plan = NULL;
  g_autoptr (GBytes) bytes = NULL;

  if (project == NULL)
    return CAV_EXIT_FAILED;
  if (!cav_profile_is_sound (cav_project_get_profile (project)))
    {
      g_set_error (error, CAV_TOOL_ERROR, 0,
                   _ ("%s: the section is not one sound piece; `cavetto look` says what is wrong"),
                   arguments->file);
      return CAV_EXIT_WRONG;
    }
  /* Without a plan the template has no centre lines, but still the shape. */
  plan = cav_tool_plan_if_possible (arguments, project);
  bytes = CREATE[kind](project, plan, &options, error);
  return cav_tool_write (arguments, bytes, error);
}

const CavCommand cav_command_template = {
  .name = "template",
  .operand = "FILE",
  .summary = N_ ("draw the section at full size to glue on the rail's ends: .svg or .pdf"),
  .description = N_ (
      "Draws the section of the project FILE at exactly full size: both ends of a rail with flaps\n"
      "to glue on, the shape of a sanding block, the centre lines of cutters, and bars of 100 mm\n"
      "and 4 in to check the print by. The ending of OUT says what is written: .svg for cutting\n"
      "on a machine (millimetres, true arcs) or .pdf."),
  .options = CAV_OPTION_OUTPUT | CAV_OPTION_SHOP | CAV_OPTION_UNIT | CAV_OPTION_PAPER,
  .required = CAV_OPTION_OUTPUT,
  .run = run,
};
