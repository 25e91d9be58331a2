/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "project/cav-project-boards.h"
#include "storage/cav-kept-plan.h"
#include "storage/cav-storage.h"
#include "tool/cav-pass-text.h"
#include "tool/cav-text.h"
#include "tool/cav-tool.h"

#include <glib/gi18n-lib.h>
#include <string.h>

/* A plan only where there is something to plan with; without one the other findings say why. */
static CavPlan *
plan_if_possible (CavProject *project, GPtrArray *more)
{
  const CavShop *shop = cav_project_get_shop (project);
  g_autoptr (GError) error = NULL;
  g_autoptr (CavPlan) plan = NULL;
  CavPlanRequest request;

  if (!cav_profile_is_sound (cav_project_get_profile (project))
      || shop->blades->len + shop->cutters->len == 0)
    return NULL;
  if (cav_project_get_plan_request (project, CAV_EFFORT_THOROUGH, &request, &error))
    plan = cav_kept_plan_make (&request, NULL, &error);
  if (plan == NULL)
    g_ptr_array_add (more, cav_finding_new (CAV_FINDING_WRONG, "no-plan", "%s", error->message));
  else if (!plan->usable && !cav_finding_list_has_wrong (plan->findings))
    g_ptr_array_add (more,
                     cav_finding_new (CAV_FINDING_WRONG, "no-plan",
                                      _ ("No sequence of passes could be proved for this shop: add "
                                         "tools, or make the profile simpler.")));
  return g_steal_pointer (&plan);
}

static void
append_finding (GString *out, const CavFinding *finding, CavUnit unit)
{
  g_autofree char *text = cav_finding_text_create (finding, unit);

  cav_text_append_cell (out, cav_finding_text_get_word (finding), 7, FALSE);
  g_string_append_printf (out, "  %s\n", text);
}

static CavExit
run (const CavArguments *arguments, GError **error)
{
  g_autoptr (CavProject) project = cav_tool_load_project (arguments, error);
  g_autoptr (GPtrArray) more = cav_finding_list_new ();
  g_autoptr (GPtrArray) findings = NULL;
  g_autoptr (CavPlan) plan = NULL;
  g_autoptr (GString) out = g_string_new (NULL);

  if (project == NULL)
    return CAV_EXIT_FAILED;
  plan = plan_if_possible (project, more);
  findings = cav_project_create_findings (project, plan);
  if (cav_project_has_lumber (project))
    {
      g_autoptr (CavBoardLayout) layout = cav_project_lay_out_boards (
          project, plan != NULL && plan->usable ? plan : NULL, NULL, NULL);

      cav_project_join_layout_findings (findings, layout);
    }
  for (guint i = 0; i < more->len; i++)
    append_finding (out, g_ptr_array_index (more, i), arguments->unit);
  for (guint i = 0; i < findings->len; i++)
    append_finding (out, g_ptr_array_index (findings, i), arguments->unit);
  if (out->len == 0)
    g_string_append_printf (out, "%s\n", _ ("Nothing is wrong, and nothing needs a look."));
  if (!cav_storage_write ("-", out->str, out->len, error))
    return CAV_EXIT_FAILED;
  return cav_finding_list_has_wrong (findings) || more->len > 0 ? CAV_EXIT_WRONG : CAV_EXIT_FINE;
}

const CavCommand cav_command_look = {
  .name = "look",
  .operand = "FILE",
  .summary = N_ ("list what is wrong with a project or worth a look"),
  .description
  = N_ ("Lists what is wrong with the project FILE and what is worth a look, worst first: how\n"
        "grave it is, where (from the inside and from the back of the blank), and what to\n"
        "do. Exit status 1 where something is wrong."),
  .options = CAV_OPTION_SHOP | CAV_OPTION_UNIT,
  .run = run,
};
