/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "storage/cav-plan-xml.h"

#include <glib/gi18n-lib.h>
#include <string.h>

#include "storage/cav-number.h"
#include "storage/cav-shop-xml.h"
#include "storage/cav-xml-write.h"

/* Decimals of figures that are set at a machine, of coordinates, of angles, of the rest. */
#define SETTING_DECIMALS 4
#define POINT_DECIMALS 6
#define ANGLE_DECIMALS 6
#define AMOUNT_DECIMALS 4
/* In English in every file, like the reasons that the planner gives. */
#define USUAL_REASON "no tool reaches"

static void
write_blank (GString *text, const CavPlan *plan)
{
  cav_xml_write_begin (text, 1, "blank");
  cav_xml_write_number (text, "width", plan->blank.width);
  cav_xml_write_number (text, "thickness", plan->blank.thickness);
  cav_xml_write_end (text);
}

/* Neighbours that rounding makes one point are written once. */
static void
write_profile (GString *text, const CavPlan *plan)
{
  guint n_points;
  const CavPoint *points = cav_region_get_ring_points (plan->profile, 0, &n_points);
  g_autoptr (GString) first = g_string_new (NULL);
  g_autoptr (GString) before = g_string_new (NULL);

  cav_xml_write_begin (text, 1, "profile");
  cav_xml_write_open (text);
  for (guint i = 0; i < n_points; i++)
    {
      g_autoptr (GString) line = g_string_new (NULL);

      cav_xml_write_begin (line, 2, "point");
      cav_xml_write_rounded (line, "x", points[i].x, POINT_DECIMALS);
      cav_xml_write_rounded (line, "y", points[i].y, POINT_DECIMALS);
      cav_xml_write_end (line);
      if (g_string_equal (line, before) || (i == n_points - 1 && g_string_equal (line, first)))
        continue;
      g_string_append (text, line->str);
      g_string_assign (before, line->str);
      if (i == 0)
        g_string_assign (first, line->str);
    }
  cav_xml_write_close (text, 1, "profile");
}

static gboolean
uses (const CavPlan *plan, const char *id)
{
  for (guint i = 0; i < plan->setups->len; i++)
    {
      const CavSetup *setup = g_ptr_array_index (plan->setups, i);

      if (strcmp (setup->tool, id) == 0)
        return TRUE;
    }
  return FALSE;
}

static void
write_tools (GString *text, const CavPlan *plan)
{
  cav_xml_write_begin (text, 1, "tools");
  cav_xml_write_open (text);
  for (guint i = 0; i < plan->shop->blades->len; i++)
    {
      const CavBlade *blade = g_ptr_array_index (plan->shop->blades, i);

      if (uses (plan, blade->id))
        cav_shop_xml_write_plan_blade (text, 2, blade);
    }
  for (guint i = 0; i < plan->shop->cutters->len; i++)
    {
      const CavCutter *cutter = g_ptr_array_index (plan->shop->cutters, i);

      if (uses (plan, cutter->id))
        cav_shop_xml_write_plan_cutter (text, 2, cutter);
    }
  cav_xml_write_close (text, 1, "tools");
}

static void
write_pass (GString *text, const CavPass *pass)
{
  cav_xml_write_begin (text, 2, "pass");
  cav_xml_write_attribute (text, "down", cav_side_to_string (pass->down));
  cav_xml_write_attribute (text, "against", cav_side_to_string (pass->against));
  cav_xml_write_rounded (text, "fence", pass->fence, SETTING_DECIMALS);
  cav_xml_write_rounded (text, "height", pass->height, SETTING_DECIMALS);
  cav_xml_write_rounded (text, "removes", pass->removes, AMOUNT_DECIMALS);
  cav_xml_write_end (text);
}

static void
write_setup (GString *text, const CavSetup *setup)
{
  cav_xml_write_begin (text, 1, "setup");
  cav_xml_write_attribute (text, "machine", cav_machine_to_string (setup->machine));
  cav_xml_write_attribute (text, "tool", setup->tool);
  if (setup->machine == CAV_MACHINE_SAW)
    cav_xml_write_rounded (text, "tilt", setup->tilt, ANGLE_DECIMALS);
  if (setup->machine == CAV_MACHINE_COVE)
    cav_xml_write_rounded (text, "angle", setup->angle, ANGLE_DECIMALS);
  cav_xml_write_open (text);
  for (guint i = 0; i < setup->passes->len; i++)
    write_pass (text, g_ptr_array_index (setup->passes, i));
  cav_xml_write_close (text, 1, "setup");
}

static void
write_leftover (GString *text, const CavPlan *plan)
{
  cav_xml_write_begin (text, 1, "leftover");
  cav_xml_write_rounded (text, "area", plan->leftover_area, AMOUNT_DECIMALS);
  cav_xml_write_rounded (text, "thickness", plan->leftover_thickness, AMOUNT_DECIMALS);
  cav_xml_write_number (text, "limit", plan->shop->limits.leftover);
  if (plan->places->len == 0)
    {
      cav_xml_write_end (text);
      return;
    }
  cav_xml_write_open (text);
  for (guint i = 0; i < plan->places->len; i++)
    {
      const CavLeftoverPlace *place = g_ptr_array_index (plan->places, i);

      cav_xml_write_begin (text, 2, "place");
      cav_xml_write_rounded (text, "x", place->place.x, AMOUNT_DECIMALS);
      cav_xml_write_rounded (text, "y", place->place.y, AMOUNT_DECIMALS);
      cav_xml_write_rounded (text, "thickness", place->thickness, AMOUNT_DECIMALS);
      cav_xml_write_attribute (text, "reason",
                               place->reason != NULL ? place->reason : USUAL_REASON);
      cav_xml_write_end (text);
    }
  cav_xml_write_close (text, 1, "leftover");
}

static void
write_minutes (GString *text, const CavPlan *plan)
{
  cav_xml_write_begin (text, 1, "minutes");
  cav_xml_write_rounded (text, "total", plan->minutes, AMOUNT_DECIMALS);
  cav_xml_write_rounded (text, "setups", plan->minutes_setups, AMOUNT_DECIMALS);
  cav_xml_write_rounded (text, "passes", plan->minutes_passes, AMOUNT_DECIMALS);
  cav_xml_write_rounded (text, "hand", plan->minutes_hand, AMOUNT_DECIMALS);
  cav_xml_write_end (text);
}

static gboolean
check_plan (const CavPlan *plan, GError **error)
{
  const char *wrong = NULL;

  if (!plan->usable)
    wrong = _ ("the plan has not been proved; change the profile or the shop and plan again");
  else if (cav_region_get_ring_count (plan->profile) != 1)
    wrong = _ ("a plan file holds one outline, and this profile has a hole or is in pieces; "
               "change its cuts");
  if (wrong == NULL)
    return TRUE;
  g_set_error_literal (error, CAV_STORAGE_ERROR, CAV_STORAGE_ERROR_CONTENT, wrong);
  return FALSE;
}

gboolean
cav_plan_xml_write (GString *text, const CavPlan *plan, GError **error)
{
  if (!check_plan (plan, error))
    return FALSE;

  cav_xml_write_begin (text, 0, "plan");
  cav_xml_write_attribute (text, "version", "1");
  cav_xml_write_attribute (text, "unit", "mm");
  cav_xml_write_number (text, "rails", plan->rails);
  cav_xml_write_number (text, "length", plan->length);
  cav_xml_write_number (text, "step", plan->shop->limits.step);
  cav_xml_write_open (text);

  write_blank (text, plan);
  write_profile (text, plan);
  write_tools (text, plan);
  for (guint i = 0; i < plan->setups->len; i++)
    write_setup (text, g_ptr_array_index (plan->setups, i));
  write_leftover (text, plan);
  write_minutes (text, plan);

  cav_xml_write_close (text, 0, "plan");
  return TRUE;
}
