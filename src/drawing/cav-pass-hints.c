/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/cav-pass-hints.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

#include "drawing/cav-words-private.h"
#include "geometry/cav-unit.h"
#include "milling/cav-placement.h"
#include "milling/cav-wall.h"

/* A cut is looked at this far above the table, and wood beside it this far from its edge, mm. */
#define ABOVE_TABLE 0.05
#define BESIDE_CUT 0.3
/* Nearer to the fence than this a cut begins at the rail's side. */
#define AT_SIDE 0.05
#define SAME CAV_SETTING_SAME
/* Rows are measured to a few micrometres: a wall of 1.8 mm may come out as 1.799. */
#define WALL_SAME 0.005
/* The longer leg of the setting triangle, mm. */
#define LEG_MM 200.0
#define LEG_INCH (8 * CAV_INCH)

const char *
cav_words_get_board (CavFenceBoard board)
{
  switch (board)
    {
    case CAV_FENCE_BOARD_ON:
      return _ ("Screw the sacrificial fence on: measure from its face");
    case CAV_FENCE_BOARD_OFF:
      return _ ("Blade below the table, sacrificial fence off: measure from the fence");
    case CAV_FENCE_BOARD_STAYS:
      return NULL;
    }
  g_return_val_if_reached (NULL);
}

static const char *
get_move_in_fence (void)
{
  return _ (
      "Stop the saw and lower the blade below the table before the fence moves; clamp it, then "
      "raise the running blade slowly into the board again; nobody reaches over it");
}

/* The order in which blade and board meet is common practice, no source. */
char *
cav_words_describe_order (const CavPlan *plan,
                          const CavSetup *setup,
                          const CavPass *before,
                          const CavPass *pass,
                          const CavSheetOptions *options)
{
  double figure;

  if (setup->machine == CAV_MACHINE_ROUTER)
    return before == NULL
                   && cav_pass_get_measure (plan, setup, pass, &figure) == CAV_MEASURE_CUTTER_SHOWS
               ? g_strdup (_ ("Machine off: set both, then turn the cutter by hand: it must run "
                              "free of the fence"))
               : NULL;
  if (setup->machine != CAV_MACHINE_SAW || !pass->sacrificial)
    return NULL;
  if (before == NULL || !before->sacrificial)
    {
      g_autofree char *over = cav_words_format (-pass->fence, options);

      return g_strdup_printf (
          /* Translators: how far the fence covers the blade. */
          _ ("Saw off: bring the board up to the near teeth of the raised blade; lower the blade "
             "wholly below the table; move the fence\302\240%s farther, over the blade, and clamp "
             "it; then start the saw and raise the running blade slowly into the board, up to the "
             "height; nobody reaches over it"),
          over);
    }
  if (fabs (pass->fence - before->fence) > SAME)
    return g_strdup (get_move_in_fence ());
  if (pass->height > before->height + SAME)
    return g_strdup (_ ("Raise the running blade slowly into the board; nobody reaches over it"));
  return NULL;
}

const char *
cav_words_get_ladder_order (const CavPlan *plan, const CavPassGroup *group)
{
  const CavSetup *setup = g_ptr_array_index (plan->setups, group->setup);
  const CavPass *last = cav_pass_group_get_last (plan, group);

  if (group->ladder != CAV_LADDER_FENCE || group->count < 2)
    return NULL;
  if (setup->machine == CAV_MACHINE_SAW && last->sacrificial)
    return get_move_in_fence ();
  return cav_words_get_parallel (setup, cav_pass_group_get_pass (plan, group, 0), last);
}

const char *
cav_words_get_middle (const CavSetup *setup)
{
  if (setup->machine != CAV_MACHINE_COVE)
    return NULL;
  return _ ("Fence to middle: square to the fence, from its face to the middle of the blade at the "
            "table, halfway between where the teeth come up and where they go down");
}

const char *
cav_words_get_parallel (const CavSetup *setup, const CavPass *before, const CavPass *pass)
{
  if (setup->machine != CAV_MACHINE_COVE || before == NULL
      || fabs (pass->fence - before->fence) <= SAME)
    return NULL;
  return _ (
      "Keep the fence parallel: a mark or a stop block at both of its ends, both ends moved by "
      "the same, square to the fence");
}

const char *
cav_words_get_release (const CavPass *pass)
{
  return pass->frees_rail ? _ ("the rail comes free of its carrier") : NULL;
}

char *
cav_words_describe_wall (const CavPlan *plan,
                         const CavPassGroup *group,
                         const CavSheetOptions *options)
{
  CavThinWall found = { 0 };

  for (guint i = 0; i < group->count; i++)
    {
      const CavPass *pass = cav_pass_group_get_pass (plan, group, i);
      CavThinWall wall;

      if ((pass->cautions & CAV_CAUTION_THIN_WALL) != 0
          && cav_pass_find_thin_wall (plan, pass, &wall) && wall.height > found.height)
        found = wall;
    }
  if (found.height <= 0)
    return NULL;

  g_autofree char *thickness
      = cav_words_format (floor ((found.thickness + WALL_SAME) * 10) / 10, options);
  g_autofree char *height = cav_words_format (round (found.height * 10) / 10, options);
  g_autofree char *from = cav_words_format (round (found.from), options);
  const char *side = cav_side_get_word (found.near);

  if (found.from < found.thickness)
    /* Translators: thickness and height of a wall, the side (face, back ...) that it stands at. */
    return g_strdup_printf (_ ("Thin wall %s thick, %s high, at the %s: do not press on it. Push "
                               "from behind, no featherboard on the wall, feed slowly."),
                            thickness, height, side);
  /* Translators: thickness and height of a wall, how far from which side (face, back ...) of the
   * blank it stands. */
  return g_strdup_printf (_ ("Thin wall %s thick, %s high, %s from the %s: do not press on it. "
                             "Push from behind, no featherboard on the wall, feed slowly."),
                          thickness, height, from, side);
}

/* Where the cut opens at the table, as a stretch of u. */
static gboolean
find_opening (const CavPlan *plan, const CavPass *pass, double *out_from, double *out_to)
{
  CavTransform placed = cav_placement_get_transform (&plan->blank, pass->down, pass->against);
  g_autoptr (CavRegion) chips = cav_region_intersection (pass->before, pass->swept, NULL);
  g_autoptr (CavRegion) seen = chips != NULL ? cav_region_transformed (chips, placed) : NULL;
  g_autoptr (CavRegion) strip = cav_region_new_box (-1000, 0, 1000, ABOVE_TABLE);
  g_autoptr (CavRegion) opening = seen != NULL ? cav_region_intersection (seen, strip, NULL) : NULL;
  CavBox box;

  if (opening == NULL || cav_region_is_empty (opening))
    return FALSE;
  box = cav_region_get_bounds (opening);
  *out_from = box.x0;
  *out_to = box.x1;
  return box.y0 < ABOVE_TABLE / 2;
}

static gboolean
has_wood (const CavPlan *plan, const CavPass *pass, double u)
{
  CavTransform back = cav_placement_get_inverse (&plan->blank, pass->down, pass->against);

  return cav_region_contains (pass->after,
                              cav_transform_point (back, CAV_POINT (u, ABOVE_TABLE / 2)));
}

char *
cav_words_describe_trial (const CavPlan *plan,
                          const CavSetup *setup,
                          const CavPass *pass,
                          const CavSheetOptions *options)
{
  g_autofree char *depth = cav_words_format (pass->height, options);
  g_autofree char *place = NULL;
  const char *side = cav_side_get_word (pass->against);
  double from;
  double to;

  if (pass->frees_rail || pass->before == NULL || !find_opening (plan, pass, &from, &to))
    return NULL;
  if (setup->machine == CAV_MACHINE_COVE)
    {
      place = cav_words_format (pass->fence, options);
      return g_strdup_printf (
          _ ("Trial on the spare: deepest at\302\240%s from the %s, %s\302\240deep"), place, side,
          depth);
    }
  else if (from > AT_SIDE && has_wood (plan, pass, from - BESIDE_CUT))
    {
      place = cav_words_format (from, options);
      /* Translators: a place, a side of the blank (face, back ...), a depth. */
      return g_strdup_printf (
          _ ("Trial on the spare: cut begins\302\240%s from the %s, %s\302\240deep"), place, side,
          depth);
    }
  else if (has_wood (plan, pass, to + BESIDE_CUT))
    {
      place = cav_words_format (to, options);
      return g_strdup_printf (
          _ ("Trial on the spare: cut ends\302\240%s from the %s, %s\302\240deep"), place, side,
          depth);
    }
  return NULL;
}

char *
cav_words_describe_ladder (const CavPlan *plan,
                           const CavPassGroup *group,
                           const CavSheetOptions *options)
{
  gboolean is_fence = group->ladder == CAV_LADDER_FENCE;
  double step;
  gboolean even = cav_pass_group_get_step (plan, group, &step);
  g_autofree char *figure = cav_words_format (fabs (step), options);
  const char *by = cav_words_skip_about (figure);
  const char *sign = step > 0 ? "+" : "−";

  /* Translators: %u is how many settings, the other two a sign and by how far to move. */
  if (even && !g_str_equal (by, "0"))
    return is_fence
               ? g_strdup_printf (
                   g_dngettext (GETTEXT_PACKAGE,
                                "%u setting, fence\302\240%s\302\240%s each; all pieces at each",
                                "%u settings, fence\302\240%s\302\240%s each; all pieces at each",
                                group->count),
                   group->count, sign, by)
               : g_strdup_printf (
                   g_dngettext (GETTEXT_PACKAGE,
                                "%u setting, height\302\240%s\302\240%s each; all pieces at each",
                                "%u settings, height\302\240%s\302\240%s each; all pieces at each",
                                group->count),
                   group->count, sign, by);
  if (is_fence)
    return g_strdup_printf (
        step > 0 ? g_dngettext (GETTEXT_PACKAGE, "%u setting, fence farther; all pieces at each",
                                "%u settings, fence farther; all pieces at each", group->count)
                 : g_dngettext (GETTEXT_PACKAGE, "%u setting, fence closer; all pieces at each",
                                "%u settings, fence closer; all pieces at each", group->count),
        group->count);
  return g_strdup_printf (
      step > 0 ? g_dngettext (GETTEXT_PACKAGE, "%u setting, height up; all pieces at each",
                              "%u settings, height up; all pieces at each", group->count)
               : g_dngettext (GETTEXT_PACKAGE, "%u setting, height down; all pieces at each",
                              "%u settings, height down; all pieces at each", group->count),
      group->count);
}

char *
cav_words_describe_shown (const CavPlan *plan,
                          const CavPassGroup *group,
                          const CavSheetOptions *options)
{
  double first;
  double last;

  if (group->ladder == CAV_LADDER_NONE)
    return NULL;
  if (cav_pass_group_get_turned (plan, group, &first, &last))
    {
      const CavSetup *setup = g_ptr_array_index (plan->setups, group->setup);
      const CavPass *pass = cav_pass_group_get_last (plan, group);
      const char *what = cav_words_get_measure (cav_pass_get_measure (plan, setup, pass, &last));
      g_autofree char *figure = cav_words_format (last, options);
      g_autofree char *height = cav_words_format (pass->height, options);

      return g_strdup_printf (
          /* Translators: a label like “Cutter shows”, its figure, and the height. */
          _ ("%s: %s at height %s, as pictured"), what, figure, height);
    }
  return g_strdup (_ ("Pictured at the last setting"));
}

const char *
cav_words_get_stays (const CavPlan *plan, const CavPassGroup *group)
{
  const CavSetup *setup = g_ptr_array_index (plan->setups, group->setup);
  const CavPass *before = cav_pass_group_get_before (plan, group);
  const CavPass *pass = cav_pass_group_get_pass (plan, group, 0);
  double first;
  double last;
  gboolean stays = cav_pass_group_get_turned (plan, group, &first, &last);

  if (!stays && before != NULL && before->down == pass->down && before->against == pass->against
      && fabs (pass->fence - before->fence) <= SAME)
    stays = cav_pass_get_measure (plan, setup, before, &first)
                == cav_pass_get_measure (plan, setup, pass, &last)
            && fabs (first - last) > SAME;
  return stays ? _ ("Leave the fence where it is: what shows changes with the height alone.")
               : NULL;
}

void
cav_cove_get_legs (double angle, CavUnit unit, double *out_along, double *out_across)
{
  double leg = unit == CAV_UNIT_INCH ? LEG_INCH : LEG_MM;
  double slope = tan (CAV_RADIANS (angle));

  *out_along = slope <= 1 ? leg : leg / slope;
  *out_across = slope <= 1 ? leg * slope : leg;
}

char *
cav_words_describe_legs (double angle, const CavSheetOptions *options)
{
  g_autofree char *along_text = NULL;
  g_autofree char *across_text = NULL;
  double along;
  double across;

  cav_cove_get_legs (angle, options->unit, &along, &across);
  along_text = cav_words_format (round (10 * along) / 10, options);
  across_text = cav_words_format (round (10 * across) / 10, options);
  return g_strdup_printf (_ ("%s\302\240along the blade, %s\302\240across"), along_text,
                          across_text);
}

char *
cav_words_list_helpers (const CavPlan *plan)
{
  static const struct
  {
    guint cautions;
    const char *thing;
  } helpers[] = {
    { CAV_CAUTION_SACRIFICIAL, NC_ ("to have at hand", "sacrificial fence") },
    { CAV_CAUTION_FEATHERBOARD, NC_ ("to have at hand", "featherboard") },
    { CAV_CAUTION_COVING, NC_ ("to have at hand", "angled fence with clamps") },
    { CAV_CAUTION_SMALL_RAIL, NC_ ("to have at hand", "hold-down") },
  };
  GString *text = g_string_new (C_ ("to have at hand", "push blocks"));
  guint cautions = cav_plan_collect_cautions (plan);

  for (guint i = 0; i < G_N_ELEMENTS (helpers); i++)
    if (cautions & helpers[i].cautions)
      g_string_append_printf (text, ", %s",
                              g_dpgettext2 (GETTEXT_PACKAGE, "to have at hand", helpers[i].thing));
  return g_string_free (text, FALSE);
}
