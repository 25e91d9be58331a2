/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "plan-checker.h"
#include "check-leftover.h"
#include "check-report.h"
#include "check-rules.h"
#include "check-section.h"
#include "check-sweep.h"

#include <math.h>

/* Simulates a plan pass by pass and asks every rule. */

typedef struct
{
  const CheckPlan *plan;
  CheckReport *report;
  CheckRuling *ruling;
  CheckSection *profile;
  CheckSection *rail;
  CheckSection *strong; /* the rail without what hangs on thin webs */
  gboolean freed;
} Run;

static void
add_corners (GArray *corners, const GPtrArray *rings)
{
  for (guint r = 0; r < rings->len; r++)
    {
      const GArray *ring = g_ptr_array_index (rings, r);

      for (guint i = 0; i < ring->len; i++)
        {
          double y = g_array_index (ring, CheckPoint, i).y;

          if (y > 0)
            g_array_append_val (corners, y);
        }
    }
}

/* One ruling for all: every corner of the profile, of every sweep and of every bearing. */
static CheckRuling *
create_ruling (const CheckPlan *plan)
{
  g_autoptr (GArray) corners = g_array_new (FALSE, FALSE, sizeof (double));

  add_corners (corners, plan->profile);
  for (guint s = 0; s < plan->setups->len; s++)
    {
      const CheckSetup *setup = g_ptr_array_index (plan->setups, s);
      const CheckTool *tool = check_plan_find_tool (plan, setup->tool);

      for (guint p = 0; p < setup->passes->len; p++)
        {
          const CheckPass *pass = &g_array_index (setup->passes, CheckPass, p);
          g_autoptr (GArray) outline = check_sweep_outline (setup, pass, tool);
          g_autoptr (GPtrArray) rings = check_sweep_to_blank (plan, pass, outline);
          g_autoptr (GArray) pilot = check_sweep_pilot (pass, tool, CHECK_PILOT_ASIDE);

          add_corners (corners, rings);
          if (pilot == NULL)
            continue;
          g_autoptr (GPtrArray) pilot_rings = check_sweep_to_blank (plan, pass, pilot);

          add_corners (corners, pilot_rings);
        }
    }
  return check_ruling_new (plan->thickness, corners);
}

static CheckSection *
create_blank (const CheckPlan *plan, const CheckRuling *ruling)
{
  g_autoptr (GPtrArray) rings = g_ptr_array_new ();
  g_autoptr (GArray) ring = g_array_new (FALSE, FALSE, sizeof (CheckPoint));
  CheckPoint corners[]
      = { { 0, 0 }, { plan->width, 0 }, { plan->width, plan->thickness }, { 0, plan->thickness } };

  g_array_append_vals (ring, corners, G_N_ELEMENTS (corners));
  g_ptr_array_add (rings, ring);
  return check_section_from_rings (ruling, rings, plan->width);
}

/* The rail is the piece that contains the profile: of several the one that holds most of it. */
static CheckPiece *
find_rail (GPtrArray *pieces, const CheckSection *profile)
{
  CheckPiece *rail = NULL;
  double most = 0;

  for (guint i = 0; i < pieces->len; i++)
    {
      CheckPiece *piece = g_ptr_array_index (pieces, i);
      g_autoptr (CheckSection) common = check_section_common (piece->section, profile);
      double area = check_section_measure (common).area;

      if (area > most)
        {
          most = area;
          rail = piece;
        }
    }
  return rail;
}

static void
check_severing (Run *run,
                const CheckSetup *setup,
                const CheckTool *tool,
                const CheckPass *pass,
                int number,
                GPtrArray *pieces,
                CheckPiece *rail,
                CheckPassFigures *figures)
{
  const CheckPlan *plan = run->plan;
  CheckPiece *carrier = NULL;
  gboolean severs = FALSE;
  gboolean frees
      = check_piece_beyond (plan, setup, tool, pass, rail->section) >= -CHECK_PLACE_SLACK;
  g_autoptr (GPtrArray) near = g_ptr_array_new ();

  for (guint i = 0; i < pieces->len; i++)
    {
      CheckPiece *piece = g_ptr_array_index (pieces, i);

      if (piece == rail)
        continue;
      figures->severed += piece->area;
      if (check_section_get_thickness (piece->section) <= CHECK_DUST + CHECK_DUST_SLACK)
        continue;
      severs = TRUE;
      if (check_piece_beyond (plan, setup, tool, pass, piece->section) < -CHECK_PLACE_SLACK)
        g_ptr_array_add (near, piece);
    }
  figures->severs = severs;
  if (!severs)
    return;

  check_blade_may_sever (plan, run->report, setup, tool, pass, number);
  /* The rail falls free where it lies wholly beyond the tool's middle and one piece, the carrier,
   * stays at the fence. */
  if (frees && near->len == 1 && setup->machine != CHECK_MACHINE_ROUTER)
    carrier = near->pdata[0];
  if (carrier != NULL)
    {
      figures->frees_rail = TRUE;
      run->freed = TRUE;
      check_support (plan, run->report, pass, number, "after it, the carrier", carrier->section,
                     FALSE);
      return;
    }
  for (guint i = 0; i < near->len; i++)
    {
      CheckPiece *piece = near->pdata[i];
      CheckMeasure at = check_section_measure (piece->section);

      check_report_add (run->report, CHECK_RULE_SEVERED, number,
                        "a piece of %.2f mm² around (%.2f, %.2f) comes off and does not lie wholly "
                        "beyond the tool's middle",
                        piece->area, at.x, at.y);
    }
}

static void
run_pass (
    Run *run, const CheckSetup *setup, const CheckTool *tool, const CheckPass *pass, int number)
{
  const CheckPlan *plan = run->plan;
  CheckReport *report = run->report;
  CheckPassFigures figures = { 0 };
  g_autoptr (GArray) outline = check_sweep_outline (setup, pass, tool);
  g_autoptr (GPtrArray) rings = check_sweep_to_blank (plan, pass, outline);
  g_autoptr (CheckSection) sweep = check_section_from_rings (run->ruling, rings, plan->width);
  g_autoptr (CheckSection) taken = check_section_common (run->rail, sweep);
  g_autoptr (CheckSection) rest = check_section_minus (run->rail, sweep);
  g_autoptr (GPtrArray) pieces = check_section_split (rest);
  CheckPiece *rail = find_rail (pieces, run->profile);

  if (run->freed)
    check_report_add (report, CHECK_RULE_SEVERED, number,
                      "the rail has already fallen free of its carrier");
  figures.chips = check_section_measure (taken).area;
  figures.layer = check_layer (plan, pass, taken);
  figures.gouge = check_gouge (plan, report, number, run->profile, sweep);
  check_settings (plan, report, setup, tool, pass, number);
  check_support (plan, report, pass, number, "before it", run->rail, FALSE);
  check_support (plan, report, pass, number, "before it", run->strong, TRUE);
  check_bite (report, setup, tool, pass, number, figures.chips, figures.layer, plan->cove_layer);
  if (setup->machine == CHECK_MACHINE_ROUTER)
    {
      check_feed (plan, report, pass, number, taken);
      check_pilot (plan, report, tool, pass, number, rest);
    }
  if (rail != NULL)
    {
      check_severing (run, setup, tool, pass, number, pieces, rail, &figures);
      check_section_free (run->strong);
      run->strong = check_strong_part (plan, report, number, rail->section, run->profile);
      if (!figures.frees_rail)
        {
          check_support (plan, report, pass, number, "after it", rail->section, FALSE);
          check_support (plan, report, pass, number, "after it", run->strong, TRUE);
        }
      check_section_free (run->rail);
      run->rail = g_steal_pointer (&rail->section);
    }
  else
    check_report_add (report, CHECK_RULE_GOUGE, number, "nothing of the profile is left");
  g_array_append_val (report->passes, figures);
  report->chips += figures.chips;
  report->severed += figures.severed;
  report->gouge = fmax (report->gouge, figures.gouge);
}

CheckReport *
check_plan_run (const CheckPlan *plan)
{
  CheckReport *report = check_report_new ();
  Run run = { .plan = plan, .report = report };
  int number = 0;

  if (!check_plan_is_readable (plan, report))
    return report;
  run.ruling = create_ruling (plan);
  run.profile = check_section_from_rings (run.ruling, plan->profile, plan->width);
  run.rail = create_blank (plan, run.ruling);
  run.strong = create_blank (plan, run.ruling);
  report->blank_area = plan->width * plan->thickness;
  report->profile_area = check_section_measure (run.profile).area;
  if (report->profile_area <= 0)
    check_report_add (report, CHECK_RULE_PLAN, 0, "the profile has no area");

  for (guint s = 0; s < plan->setups->len; s++)
    {
      const CheckSetup *setup = g_ptr_array_index (plan->setups, s);
      const CheckTool *tool = check_plan_find_tool (plan, setup->tool);

      for (guint p = 0; p < setup->passes->len; p++)
        run_pass (&run, setup, tool, &g_array_index (setup->passes, CheckPass, p), ++number);
    }
  check_leftover (plan, report, run.rail, run.profile);
  check_minutes (plan, report);
  check_claims (plan, report);

  check_section_free (run.rail);
  check_section_free (run.strong);
  check_section_free (run.profile);
  check_ruling_free (run.ruling);
  return report;
}
