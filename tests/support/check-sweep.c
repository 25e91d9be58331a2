/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "check-sweep.h"

#include <math.h>

#define RADIANS(degrees_) ((degrees_)*G_PI / 180.0)
#define CHORD 0.001

CheckPoint
check_to_machine (const CheckPlan *plan, const CheckPass *pass, CheckPoint point)
{
  const double across[] = { point.y, plan->thickness - point.y, point.x, plan->width - point.x };

  return (CheckPoint){ across[pass->against], across[pass->down] };
}

/* The map is its own kind of mirror: a side gives either x or y, so the two never clash. */
CheckPoint
check_from_machine (const CheckPlan *plan, const CheckPass *pass, CheckPoint point)
{
  CheckPoint out = { 0, 0 };
  const CheckSide sides[] = { pass->against, pass->down };
  const double values[] = { point.x, point.y };

  for (guint i = 0; i < 2; i++)
    switch (sides[i])
      {
      case CHECK_SIDE_BACK:
        out.y = values[i];
        break;
      case CHECK_SIDE_FACE:
        out.y = plan->thickness - values[i];
        break;
      case CHECK_SIDE_INSIDE:
        out.x = values[i];
        break;
      case CHECK_SIDE_OUTSIDE:
        out.x = plan->width - values[i];
        break;
      case CHECK_N_SIDES:
      default:
        g_assert_not_reached ();
      }
  return out;
}

static void
add (GArray *outline, double u, double v)
{
  CheckPoint point = { u, v };

  g_array_append_val (outline, point);
}

/* A slot of the kerf's width whose near face goes through (fence, 0) and leans by the tilt; the
 * end is square to the faces and its highest corner stands at the height: the near corner where
 * the blade leans away from the fence, the far one where it leans toward it. */
static void
outline_blade (GArray *outline,
               const CheckSetup *setup,
               const CheckPass *pass,
               const CheckTool *tool)
{
  double t = RADIANS (setup->tilt);
  CheckPoint up = { sin (t), cos (t) };
  CheckPoint aside = { tool->kerf * cos (t), -tool->kerf * sin (t) };
  double length = (pass->height - fmax (aside.y, 0)) / cos (t);
  double below = -2.0 * tool->kerf - 1.0 - fabs (length); /* along the blade, under the table */
  CheckPoint base = { pass->fence, 0 };

  if (fabs (setup->tilt) < 1e-9)
    below = 0;
  add (outline, base.x + below * up.x, base.y + below * up.y);
  add (outline, base.x + below * up.x + aside.x, base.y + below * up.y + aside.y);
  add (outline, base.x + length * up.x + aside.x, base.y + length * up.y + aside.y);
  add (outline, base.x + length * up.x, base.y + length * up.y);
}

/* The disk seen along the feed: an ellipse, widened by the flat of the blade's thickness. */
static void
outline_cove (GArray *outline,
              const CheckSetup *setup,
              const CheckPass *pass,
              const CheckTool *tool)
{
  double radius = 0.5 * tool->diameter;
  double a = RADIANS (setup->angle);
  double across = radius * sin (a);
  double flat = 0.5 * tool->kerf * cos (a);
  double middle = pass->height - radius;
  double end = acos (CLAMP (-middle / radius, -1, 1)); /* angle from the crown down to the table */
  int parts = MAX (8, (int)ceil (end / sqrt (8.0 * CHORD / radius)));

  for (int side = -1; side <= 1; side += 2)
    for (int i = 0; i <= parts; i++)
      {
        double phi = end * (side < 0 ? parts - i : i) / parts;

        add (outline, pass->fence + side * (flat + across * sin (phi)),
             middle + radius * cos (phi));
      }
}

static void
outline_cutter (GArray *outline, const CheckPass *pass, const CheckTool *tool)
{
  guint n = tool->silhouette->len;

  for (guint i = 0; i < n; i++)
    {
      CheckPoint point = g_array_index (tool->silhouette, CheckPoint, n - 1 - i);

      add (outline, pass->fence - point.x, pass->height - point.y);
    }
  for (guint i = 0; i < n; i++)
    {
      CheckPoint point = g_array_index (tool->silhouette, CheckPoint, i);

      add (outline, pass->fence + point.x, pass->height - point.y);
    }
}

GArray *
check_sweep_outline (const CheckSetup *setup, const CheckPass *pass, const CheckTool *tool)
{
  GArray *outline = g_array_new (FALSE, FALSE, sizeof (CheckPoint));

  switch (setup->machine)
    {
    case CHECK_MACHINE_SAW:
      outline_blade (outline, setup, pass, tool);
      break;
    case CHECK_MACHINE_COVE:
      outline_cove (outline, setup, pass, tool);
      break;
    case CHECK_MACHINE_ROUTER:
      outline_cutter (outline, pass, tool);
      break;
    case CHECK_N_MACHINES:
    default:
      g_assert_not_reached ();
    }
  return outline;
}

GArray *
check_sweep_pilot (const CheckPass *pass, const CheckTool *tool, double aside)
{
  GArray *outline;
  double radius = tool->pilot_radius - aside;
  double low = pass->height + aside;
  double high = pass->height + tool->pilot_length - aside;

  if (tool->pilot_radius <= 0 || radius <= 0 || high <= low)
    return NULL;
  outline = g_array_new (FALSE, FALSE, sizeof (CheckPoint));
  add (outline, pass->fence - radius, low);
  add (outline, pass->fence + radius, low);
  add (outline, pass->fence + radius, high);
  add (outline, pass->fence - radius, high);
  return outline;
}

static void
free_ring (gpointer data)
{
  g_array_unref (data);
}

GPtrArray *
check_sweep_to_blank (const CheckPlan *plan, const CheckPass *pass, const GArray *outline)
{
  GPtrArray *rings = g_ptr_array_new_with_free_func (free_ring);
  GArray *ring = g_array_new (FALSE, FALSE, sizeof (CheckPoint));

  for (guint i = 0; i < outline->len; i++)
    {
      CheckPoint point = check_from_machine (plan, pass, g_array_index (outline, CheckPoint, i));

      g_array_append_val (ring, point);
    }
  g_ptr_array_add (rings, ring);
  return rings;
}

double
check_tool_middle (const CheckSetup *setup, const CheckPass *pass, const CheckTool *tool, double v)
{
  double t = RADIANS (setup->tilt);

  if (setup->machine != CHECK_MACHINE_SAW)
    return pass->fence;
  return pass->fence + 0.5 * tool->kerf / cos (t) + v * tan (t);
}

double
check_tool_near (const CheckSetup *setup, const CheckPass *pass, const CheckTool *tool)
{
  double a = RADIANS (setup->angle);

  if (setup->machine != CHECK_MACHINE_COVE)
    return pass->fence;
  double chord = sqrt (fmax (pass->height * (tool->diameter - pass->height), 0));

  return pass->fence - sin (a) * chord - 0.5 * tool->kerf * cos (a);
}

double
check_blade_least (const CheckSetup *setup, const CheckPass *pass, const CheckTool *tool)
{
  g_autoptr (GArray) outline = check_sweep_outline (setup, pass, tool);
  double least = 1e9;

  /* Corners above the table, and where edges cross it. */
  for (guint i = 0; i < outline->len; i++)
    {
      CheckPoint p = g_array_index (outline, CheckPoint, i);
      CheckPoint q = g_array_index (outline, CheckPoint, (i + 1) % outline->len);

      if (p.y >= 0)
        least = fmin (least, p.x);
      if ((p.y < 0) != (q.y < 0))
        least = fmin (least, p.x + (q.x - p.x) * (0 - p.y) / (q.y - p.y));
    }
  return least;
}

double
check_cutter_radius (const CheckTool *tool)
{
  double radius = 0;

  for (guint i = 0; i < tool->silhouette->len; i++)
    radius = fmax (radius, g_array_index (tool->silhouette, CheckPoint, i).x);
  return radius;
}
