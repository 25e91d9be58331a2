/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "check-rules.h"
#include "check-leftover.h"
#include "check-report.h"
#include "check-sweep.h"

#include <math.h>

/* Points of the sweep inside the profile are looked at this close to each other. */
#define GOUGE_SPACING 0.02
/* Layers are measured in columns this far apart. */
#define COLUMN 0.05
/* Shorter edges of the profile are chords, not faces. */
#define FACE_LEAST 1.0

double
check_gouge (const CheckPlan *plan,
             CheckReport *report,
             int number,
             const CheckSection *profile,
             const CheckSection *sweep)
{
  g_autoptr (CheckSection) common = check_section_common (profile, sweep);
  double deepest = 0;
  CheckPoint place = { 0, 0 };
  /* Where a sweep goes through the whole profile a coarser look tells as much. */
  double spacing = fmax (GOUGE_SPACING, sqrt (check_section_measure (common).area / 4e4));
  double last_y = -1e9;

  for (guint row = 0; row < check_ruling_count (common->ruling); row++)
    {
      CheckPoint point = { 0, check_ruling_middle (common->ruling, row) };

      if (point.y - last_y < 0.5 * spacing || check_section_count (common, row) == 0)
        continue;
      last_y = point.y;
      for (guint i = 0; i < check_section_count (common, row); i++)
        {
          CheckSpan span = check_section_get (common, row, i);
          int parts = (int)ceil ((span.b - span.a) / spacing) + 1;

          for (int part = 0; part <= parts; part++)
            {
              point.x = span.a + (span.b - span.a) * part / parts;
              double depth = check_profile_distance (plan, point);

              if (depth <= deepest)
                continue;
              deepest = depth;
              place = point;
            }
        }
    }
  if (deepest > CHECK_GOUGE + CHECK_GOUGE_SLACK)
    check_report_add (report, CHECK_RULE_GOUGE, number,
                      "enters the profile by %.3f mm at (%.2f, %.2f)", deepest, place.x, place.y);
  return deepest;
}

static gboolean
is_on_grid (double value, double step)
{
  return fabs (value - step * round (value / step)) <= 1e-4;
}

/* TRUE where a straight edge of the profile stands at that angle to the back or to the sides. */
static gboolean
profile_has_angle (const CheckPlan *plan, double degrees)
{
  for (guint r = 0; r < plan->profile->len; r++)
    {
      const GArray *ring = g_ptr_array_index (plan->profile, r);

      for (guint i = 0; i < ring->len; i++)
        {
          CheckPoint p = g_array_index (ring, CheckPoint, i);
          CheckPoint q = g_array_index (ring, CheckPoint, (i + 1) % ring->len);
          double angle = atan2 (fabs (q.y - p.y), fabs (q.x - p.x)) * 180.0 / G_PI;

          /* A chord of a curve is no drawn face. */
          if (hypot (q.x - p.x, q.y - p.y) < FACE_LEAST)
            continue;

          if (fabs (angle - degrees) < 0.01 || fabs (90.0 - angle - degrees) < 0.01)
            return TRUE;
        }
    }
  return FALSE;
}

static void
check_saw_settings (const CheckPlan *plan,
                    CheckReport *report,
                    const CheckSetup *setup,
                    const CheckTool *tool,
                    const CheckPass *pass,
                    int number)
{
  double tilt = fabs (setup->tilt);
  double highest = tool->height * cos (tilt * G_PI / 180.0);

  if (tilt > tool->tilt + 1e-6)
    check_report_add (report, CHECK_RULE_SETTING, number, "tilt %.3f, and the blade goes to %.3f",
                      setup->tilt, tool->tilt);
  /* A figure between two tenths of a degree needs a drawn face of that very angle. */
  if (!is_on_grid (tilt, 0.1) && !profile_has_angle (plan, tilt))
    check_report_add (report, CHECK_RULE_SETTING, number,
                      "tilt %.4f is between steps of 0.1 and no drawn face asks for it",
                      setup->tilt);
  if (pass->height > highest + CHECK_LENGTH_SLACK)
    check_report_add (report, CHECK_RULE_SETTING, number,
                      "height %.3f, and the blade reaches %.3f at that tilt", pass->height,
                      highest);
  if (tilt < 1e-9)
    {
      if (pass->fence < -tool->kerf - 1e-4)
        check_report_add (report, CHECK_RULE_SETTING, number,
                          "fence %.3f, beyond the whole kerf of %.3f", pass->fence, tool->kerf);
      return;
    }
  double least = check_blade_least (setup, pass, tool);

  if (least < -CHECK_LENGTH_SLACK)
    check_report_add (report, CHECK_RULE_SETTING, number,
                      "the tilted blade stands %.3f mm inside the fence", -least);
}

static void
check_cove_settings (const CheckPlan *plan,
                     CheckReport *report,
                     const CheckSetup *setup,
                     const CheckTool *tool,
                     const CheckPass *pass,
                     int number)
{
  double near = check_tool_near (setup, pass, tool);

  if (setup->angle < 8.0 - 1e-6 || setup->angle > 60.0 + 1e-6)
    check_report_add (report, CHECK_RULE_SETTING, number, "angle %.3f is not between 8 and 60",
                      setup->angle);
  if (!is_on_grid (setup->angle, 0.1) && !profile_has_angle (plan, setup->angle))
    check_report_add (report, CHECK_RULE_SETTING, number, "angle %.4f is between steps of 0.1",
                      setup->angle);
  /* The model names no limit of its own for the crown: the blade stands upright. */
  if (pass->height > tool->height + CHECK_LENGTH_SLACK)
    check_report_add (report, CHECK_RULE_SETTING, number, "height %.3f, and the blade reaches %.3f",
                      pass->height, tool->height);
  if (near < -CHECK_LENGTH_SLACK)
    check_report_add (report, CHECK_RULE_SETTING, number,
                      "the cove's near edge stands %.3f mm inside the fence", -near);
}

static void
check_cutter_settings (CheckReport *report,
                       const CheckTool *tool,
                       const CheckPass *pass,
                       int number)
{
  static const double limits[][2]
      = { { 25.4, 24000 }, { 50.8, 18000 }, { 63.5, 16000 }, { 89.0, 12000 }, { 1e9, 10000 } };
  double diameter = 2.0 * check_cutter_radius (tool);
  guint row = 0;

  if (pass->height > tool->length + 1e-4)
    check_report_add (report, CHECK_RULE_SETTING, number,
                      "height %.3f, and the cutter is %.3f long", pass->height, tool->length);
  while (diameter > limits[row][0] + 1e-6)
    row++;
  if (tool->speed > limits[row][1])
    check_report_add (report, CHECK_RULE_SPEED, number,
                      "cutter %s of %.2f mm at %.0f a minute, at most %.0f", tool->id, diameter,
                      tool->speed, limits[row][1]);
}

void
check_settings (const CheckPlan *plan,
                CheckReport *report,
                const CheckSetup *setup,
                const CheckTool *tool,
                const CheckPass *pass,
                int number)
{
  if (!is_on_grid (pass->fence, plan->step) || !is_on_grid (pass->height, plan->step))
    check_report_add (report, CHECK_RULE_SETTING, number,
                      "fence %.4f and height %.4f, not both on steps of %.4f", pass->fence,
                      pass->height, plan->step);
  if (pass->height <= 0)
    check_report_add (report, CHECK_RULE_SETTING, number, "height %.4f", pass->height);

  switch (setup->machine)
    {
    case CHECK_MACHINE_SAW:
      check_saw_settings (plan, report, setup, tool, pass, number);
      break;
    case CHECK_MACHINE_COVE:
      check_cove_settings (plan, report, setup, tool, pass, number);
      break;
    case CHECK_MACHINE_ROUTER:
      check_cutter_settings (report, tool, pass, number);
      break;
    case CHECK_N_MACHINES:
    default:
      g_assert_not_reached ();
    }
}

double
check_piece_beyond (const CheckPlan *plan,
                    const CheckSetup *setup,
                    const CheckTool *tool,
                    const CheckPass *pass,
                    const CheckSection *piece)
{
  double least = 1e9;

  for (guint row = 0; row < check_ruling_count (piece->ruling); row++)
    for (guint i = 0; i < check_section_count (piece, row); i++)
      {
        CheckSpan span = check_section_get (piece, row, i);
        double y = check_ruling_middle (piece->ruling, row);

        for (int end = 0; end < 2; end++)
          {
            CheckPoint at = check_to_machine (plan, pass, (CheckPoint){ end ? span.b : span.a, y });

            least = fmin (least, at.x - check_tool_middle (setup, pass, tool, at.y));
          }
      }
  return least;
}

void
check_blade_may_sever (const CheckPlan *plan,
                       CheckReport *report,
                       const CheckSetup *setup,
                       const CheckTool *tool,
                       const CheckPass *pass,
                       int number)
{
  double gap = check_tool_near (setup, pass, tool);

  if (setup->machine == CHECK_MACHINE_ROUTER)
    return;
  if (setup->machine == CHECK_MACHINE_SAW && setup->tilt < 0)
    check_report_add (report, CHECK_RULE_SEVERED, number,
                      "a blade that leans toward the fence severs a piece");
  if (gap < plan->push_gap - CHECK_LENGTH_SLACK)
    check_report_add (report, CHECK_RULE_SEVERED, number,
                      "severs a piece with %.2f mm between fence and blade, %.2f are needed", gap,
                      plan->push_gap);
}

void
check_feed (const CheckPlan *plan,
            CheckReport *report,
            const CheckPass *pass,
            int number,
            const CheckSection *taken)
{
  double near = 0;
  double far = 0;

  for (guint row = 0; row < check_ruling_count (taken->ruling); row++)
    for (guint i = 0; i < check_section_count (taken, row); i++)
      {
        CheckSpan span = check_section_get (taken, row, i);
        double y = check_ruling_middle (taken->ruling, row);
        double height = check_ruling_height (taken->ruling, row);
        double a = check_to_machine (plan, pass, (CheckPoint){ span.a, y }).x;
        double b = check_to_machine (plan, pass, (CheckPoint){ span.b, y }).x;
        double low = fmin (a, b);
        double high = fmax (a, b);

        /* With inside or outside down the whole span stands at one u. */
        if (high - low < 1e-9)
          *(low < pass->fence ? &near : &far) += (span.b - span.a) * height;
        else
          {
            near += fmax (fmin (high, pass->fence) - low, 0) * height;
            far += fmax (high - fmax (low, pass->fence), 0) * height;
          }
      }
  if (near > far + CHECK_AREA_SLACK)
    check_report_add (report, CHECK_RULE_FEED, number,
                      "takes %.2f mm² on the fence side of the cutter's axis and %.2f beyond it",
                      near, far);
}

/* Everything that one upward line meets is one layer, gaps left out: the careful reading. */
double
check_layer (const CheckPlan *plan, const CheckPass *pass, const CheckSection *taken)
{
  double thickest = 0;
  int n = (int)(plan->width / COLUMN) + 1;
  g_autofree double *columns = g_new0 (double, n);
  const CheckRuling *ruling = taken->ruling;

  for (guint row = 0; row < check_ruling_count (ruling); row++)
    {
      double along = 0;

      for (guint i = 0; i < check_section_count (taken, row); i++)
        {
          CheckSpan span = check_section_get (taken, row, i);

          along += span.b - span.a;
          for (int c = MAX ((int)ceil (span.a / COLUMN - 0.5), 0);
               c < n && (c + 0.5) * COLUMN <= span.b; c++)
            columns[c] += check_ruling_height (ruling, row);
        }
      if (pass->down == CHECK_SIDE_INSIDE || pass->down == CHECK_SIDE_OUTSIDE)
        thickest = fmax (thickest, along);
    }
  if (pass->down == CHECK_SIDE_BACK || pass->down == CHECK_SIDE_FACE)
    for (int c = 0; c < n; c++)
      thickest = fmax (thickest, columns[c]);
  return thickest;
}

void
check_bite (CheckReport *report,
            const CheckSetup *setup,
            const CheckTool *tool,
            const CheckPass *pass,
            int number,
            double chips,
            double layer,
            double cove_layer)
{
  if (chips > tool->bite + CHECK_AREA_SLACK)
    check_report_add (report, CHECK_RULE_BITE, number, "takes %.2f mm², the bite of %s is %.2f",
                      chips, tool->id, tool->bite);
  if (chips < 0.01)
    check_report_warn (report, CHECK_RULE_BITE, number, "takes nothing");
  if (setup->machine == CHECK_MACHINE_ROUTER)
    {
      double diameter = 2.0 * check_cutter_radius (tool);

      if (layer > diameter + 2.0 * CHECK_LENGTH_SLACK)
        check_report_add (report, CHECK_RULE_BITE, number,
                          "takes a layer of %.2f mm, the cutter is %.2f across", layer, diameter);
    }
  if (setup->machine == CHECK_MACHINE_COVE && layer > cove_layer + 2.0 * CHECK_LENGTH_SLACK)
    check_report_add (report, CHECK_RULE_BITE, number,
                      "takes a layer of %.2f mm over the blade, at most %.2f", layer, cove_layer);
  /* What a plan's own figure may be off: 2 % or 0.2 mm². */
  if (fabs (chips - pass->removes) > fmax (0.2, 0.02 * chips))
    check_report_add (report, CHECK_RULE_CHIPS, number, "takes %.3f mm², the plan says %.3f", chips,
                      pass->removes);
}

/* No wood where the bearing stands, pieces that come off no more than the rail, dust no less. */
void
check_pilot (const CheckPlan *plan,
             CheckReport *report,
             const CheckTool *tool,
             const CheckPass *pass,
             int number,
             const CheckSection *rest)
{
  g_autoptr (GArray) outline = check_sweep_pilot (pass, tool, CHECK_PILOT_ASIDE);

  if (outline == NULL)
    return;
  g_autoptr (GPtrArray) rings = check_sweep_to_blank (plan, pass, outline);
  g_autoptr (CheckSection) bearing = check_section_from_rings (rest->ruling, rings, plan->width);
  g_autoptr (CheckSection) common = check_section_common (bearing, rest);
  double area = check_section_measure (common).area;

  if (area > 1e-4)
    check_report_add (report, CHECK_RULE_PILOT, number,
                      "leaves %.4f mm² of wood where the bearing stands", area);
}
