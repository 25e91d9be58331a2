/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "check-rig.h"

/* The checker itself: every rule broken once and kept once, by plans small enough to check by
 * hand. Blanks are 60 x 25 but where a row says otherwise. */

#define LEGAL CHECK_N_RULES

/* What must stay: a box, or with a rabbet the whole blank but for the rabbet. */
typedef struct
{
  const char *desc;
  CheckRule broken; /* this rule alone, in this pass; -1: in the first, and others follow */
  int pass;
  double width;     /* 0: 60 */
  double thickness; /* 0: 25 */
  double core[4];   /* x0, y0, x1, y1 */
  double rabbet[2]; /* width and depth of a rabbet at back and inside; 0: none */
  RigPass passes[RIG_PASSES];
} Case;

/* clang-format off */
static const Case cases[] = {
  /* Rule 4 and the two ways to saw a rabbet of 6 x 10. */
  { "rabbet, narrow cut on edge first", LEGAL, 0, 0, 0, { 0 }, { 6, 10 },
    { { "rip", SAW, 0, INSIDE, FACE, 15, 6 }, { "rip", SAW, 0, BACK, OUTSIDE, 54, 10 } } },
  { "rabbet, narrow cut on edge last", CHECK_RULE_SEVERED, 2, 0, 0, { 0 }, { 6, 10 },
    { { "rip", SAW, 0, BACK, OUTSIDE, 54, 10 }, { "rip", SAW, 0, INSIDE, FACE, 15, 6 } } },
  { "rabbet, strip trapped at the fence", CHECK_RULE_SEVERED, 2, 0, 0, { 0 }, { 6, 10 },
    { { "rip", SAW, 0, INSIDE, FACE, 15, 6 }, { "rip", SAW, 0, BACK, INSIDE, 2.8, 10 } } },
  { "rabbet, nibbled at a sacrificial fence", LEGAL, 0, 0, 0, { 0 }, { 6, 10 },
    { { "rip", SAW, 0, BACK, INSIDE, 2.8, 10 }, { "rip", SAW, 0, BACK, INSIDE, -0.4, 10 } } },
  /* Rule 1. */
  { "0.05 too high", CHECK_RULE_GOUGE, 1, 0, 0, { 0 }, { 6, 10 },
    { { "rip", SAW, 0, INSIDE, FACE, 15, 6.05 } } },
  { "0.05 too near", CHECK_RULE_GOUGE, 1, 0, 0, { 0 }, { 6, 10 },
    { { "rip", SAW, 0, INSIDE, FACE, 14.95, 6 } } },
  { "0.015 into the profile", LEGAL, 0, 0, 0, { 0 }, { 6, 9.985 },
    { { "rip", SAW, 0, INSIDE, FACE, 15, 6 } } },
  /* Rule 2. The centroid of an L of 30 x 40 with a foot of 12 lies 0.43 beyond the foot; the
   * fence is touched over 40. */
  { "overhang held by a tall fence land", LEGAL, 0, 30, 40, { 14, 22, 28, 38 }, { 0 },
    { { "dado", SAW, 0, BACK, OUTSIDE, 12, 20 } } },
  { "overhang and fence lands of 24", CHECK_RULE_TABLE, 1, 30, 24, { 14, 14, 28, 22 }, { 0 },
    { { "dado", SAW, 0, BACK, OUTSIDE, 12, 12 } } },
  { "4 mm of table left", CHECK_RULE_TABLE, 3, 60, 25, { 5, 15, 50, 24 }, { 0 },
    { { "dado", SAW, 0, BACK, OUTSIDE, 41, 10 }, { "dado", SAW, 0, BACK, OUTSIDE, 22, 10 },
      { "dado", SAW, 0, BACK, OUTSIDE, 4, 10 } } },
  { "centroid inside the lands, fence touched above it", LEGAL, 0, 0, 0, { 2, 11, 50, 24 }, { 0 },
    { { "dado", SAW, 0, BACK, OUTSIDE, 21, 10 }, { "dado", SAW, 0, BACK, OUTSIDE, 2, 10 },
      { "dado", SAW, 0, BACK, OUTSIDE, 0, 10 } } },
  { "the same with the fence touched below it", CHECK_RULE_TABLE, 4, 0, 0, { 2, 11, 50, 24 }, { 0 },
    { { "dado", SAW, 0, FACE, INSIDE, 55, 11 }, { "dado", SAW, 0, BACK, OUTSIDE, 21, 10 },
      { "dado", SAW, 0, BACK, OUTSIDE, 2, 10 }, { "dado", SAW, 0, BACK, OUTSIDE, 0, 10 } } },
  /* Lands narrower than 1 mm do not count: feet of 0.9 between kerfs. */
  { "feet of 0.9", CHECK_RULE_TABLE, 4, 20, 25, { 2, 15, 18, 24 }, { 0 },
    { { "rip", SAW, 0, BACK, OUTSIDE, 15.9, 5 }, { "rip", SAW, 0, BACK, OUTSIDE, 11.8, 5 },
      { "rip", SAW, 0, BACK, OUTSIDE, 7.7, 5 }, { "rip", SAW, 0, BACK, OUTSIDE, 3.6, 5 } } },
  { "feet of 1.0", LEGAL, 0, 20, 25, { 2, 15, 18, 24 }, { 0 },
    { { "rip", SAW, 0, BACK, OUTSIDE, 15.8, 5 }, { "rip", SAW, 0, BACK, OUTSIDE, 11.6, 5 },
      { "rip", SAW, 0, BACK, OUTSIDE, 7.4, 5 }, { "rip", SAW, 0, BACK, OUTSIDE, 3.2, 5 } } },
  /* Rule 3. */
  { "2 mm of fence left", CHECK_RULE_FENCE, 2, 0, 0, { 5, 2, 50, 24 }, { 0 },
    { { "dado", SAW, 0, FACE, INSIDE, 55, 13 }, { "dado", SAW, 0, BACK, OUTSIDE, -14, 10 } } },
  { "3 mm of fence left", LEGAL, 0, 0, 0, { 5, 2, 50, 24 }, { 0 },
    { { "dado", SAW, 0, FACE, INSIDE, 55, 12 }, { "dado", SAW, 0, BACK, OUTSIDE, -14, 10 } } },
  { "on edge, fence touched below the centroid", CHECK_RULE_FENCE, 3, 0, 0, { 5, 8, 50, 18 }, { 0 },
    { { "dado", SAW, 0, FACE, OUTSIDE, 41, 5 }, { "dado", SAW, 0, FACE, OUTSIDE, 25, 5 },
      { "rip", SAW, 0, OUTSIDE, FACE, 10, 5 } } },
  { "on edge, fence touched above the centroid", LEGAL, 0, 0, 0, { 5, 8, 50, 18 }, { 0 },
    { { "dado", SAW, 0, FACE, OUTSIDE, 41, 5 }, { "dado", SAW, 0, FACE, OUTSIDE, 25, 5 },
      { "rip", SAW, 0, OUTSIDE, BACK, 10, 5 } } },
  /* Rule 4. */
  { "offcut beyond the blade", LEGAL, 0, 0, 0, { 2, 2, 18, 23 }, { 0 },
    { { "rip", SAW, 0, BACK, INSIDE, 20, 25.5 } } },
  { "offcut, 19.95 at the fence", CHECK_RULE_SEVERED, 1, 0, 0, { 2, 2, 18, 23 }, { 0 },
    { { "rip", SAW, 0, BACK, INSIDE, 19.95, 25.5 } } },
  { "offcut of a blade leaning away", LEGAL, 0, 0, 0, { 2, 2, 18, 23 }, { 0 },
    { { "rip", SAW, 10, BACK, INSIDE, 30, 26 } } },
  { "offcut of a blade leaning to the fence", CHECK_RULE_SEVERED, 1, 0, 0, { 2, 2, 18, 23 }, { 0 },
    { { "rip", SAW, -10, BACK, INSIDE, 30, 26 } } },
  { "rail freed from its carrier, last", LEGAL, 0, 0, 0, { 30, 2, 55, 23 }, { 0 },
    { { "rip", SAW, 0, BACK, INSIDE, 20, 25.5 } } },
  { "rail freed before the last pass", CHECK_RULE_SEVERED, 2, 0, 0, { 30, 2, 55, 23 }, { 0 },
    { { "rip", SAW, 0, BACK, INSIDE, 20, 25.5 }, { "rip", SAW, 0, BACK, OUTSIDE, 1, 2 } } },
  { "carrier left on 3.5 mm of table", CHECK_RULE_TABLE, 2, 0, 0, { 30, 6, 55, 23 }, { 0 },
    { { "dado", SAW, 0, BACK, INSIDE, -2.5, 5 }, { "rip", SAW, 0, BACK, INSIDE, 20, 25.5 } } },
  { "cutter frees the rail", CHECK_RULE_SEVERED, -1, 60, 12, { 40, 2, 55, 10 }, { 0 },
    { { "strong", ROUTER, 0, BACK, INSIDE, 30, 12.05 } } },
  { "cutter drops an offcut near the fence", LEGAL, 0, 60, 12, { 1, 2, 8, 10 }, { 0 },
    { { "strong", ROUTER, 0, BACK, INSIDE, 15, 12.05 } } },
  { "dust of 0.25 at the fence", LEGAL, 0, 0, 0, { 8, 2, 58, 23 }, { 0 },
    { { "rip", SAW, 0, BACK, OUTSIDE, 54, 10 }, { "rip", SAW, 0, INSIDE, BACK, 0.25, 2.8 } } },
  { "a sliver of 0.5 at the fence", CHECK_RULE_SEVERED, 2, 0, 0, { 8, 2, 58, 23 }, { 0 },
    { { "rip", SAW, 0, BACK, OUTSIDE, 54, 10 }, { "rip", SAW, 0, INSIDE, BACK, 0.5, 2.8 } } },
  /* Rule 5. */
  { "groove by a cutter", LEGAL, 0, 0, 0, { 5, 10, 55, 23 }, { 0 },
    { { "straight", ROUTER, 0, BACK, INSIDE, 30, 3 } } },
  { "far edge by a cutter", CHECK_RULE_FEED, 1, 0, 0, { 5, 10, 55, 23 }, { 0 },
    { { "straight", ROUTER, 0, BACK, INSIDE, 58, 3 } } },
  { "near edge by a cutter in the fence", LEGAL, 0, 0, 0, { 5, 10, 55, 23 }, { 0 },
    { { "straight", ROUTER, 0, BACK, OUTSIDE, 2, 3 } } },
  { "far edge by a cutter, on edge", CHECK_RULE_FEED, 1, 0, 0, { 5, 2, 55, 15 }, { 0 },
    { { "straight", ROUTER, 0, INSIDE, BACK, 23, 3 } } },
  /* Rule 6. */
  { "kerf of just the bite", LEGAL, 0, 0, 0, { 5, 12, 55, 23 }, { 0 },
    { { "weak", SAW, 0, BACK, INSIDE, 30, 10 } } },
  { "kerf beyond the bite", CHECK_RULE_BITE, 1, 0, 0, { 5, 12, 55, 23 }, { 0 },
    { { "weak", SAW, 0, BACK, INSIDE, 30, 10.05 } } },
  { "as deep as the cutter is wide", LEGAL, 0, 0, 0, { 5, 12, 55, 23 }, { 0 },
    { { "slim", ROUTER, 0, BACK, INSIDE, 30, 6 } } },
  { "deeper than the cutter is wide", CHECK_RULE_BITE, 1, 0, 0, { 5, 12, 55, 23 }, { 0 },
    { { "slim", ROUTER, 0, BACK, INSIDE, 30, 6.05 } } },
  { "deeper than the cutter is wide, on edge", CHECK_RULE_BITE, 1, 0, 0, { 12, 2, 55, 23 }, { 0 },
    { { "slim", ROUTER, 0, INSIDE, BACK, 12, 6.05 } } },
  { "deep in two passes", LEGAL, 0, 0, 0, { 5, 14, 55, 23 }, { 0 },
    { { "slim", ROUTER, 0, BACK, INSIDE, 30, 6 }, { "slim", ROUTER, 0, BACK, INSIDE, 30, 12 } } },
  { "cove layer of 1.6", LEGAL, 0, 0, 0, { 5, 12, 55, 23 }, { 0 },
    { { "rip", COVE, 30, BACK, INSIDE, 30, 1.6 } } },
  { "cove layer of 1.65", CHECK_RULE_BITE, 1, 0, 0, { 5, 12, 55, 23 }, { 0 },
    { { "rip", COVE, 30, BACK, INSIDE, 30, 1.65 } } },
  /* Rule 7. */
  { "30 mm at 20,000", CHECK_RULE_SPEED, 1, 0, 0, { 5, 12, 55, 23 }, { 0 },
    { { "fast", ROUTER, 0, BACK, INSIDE, 30, 1 } } },
  { "30 mm at 18,000", LEGAL, 0, 0, 0, { 5, 12, 55, 23 }, { 0 },
    { { "slow", ROUTER, 0, BACK, INSIDE, 30, 1 } } },
  /* Settings. */
  { "fence between steps", CHECK_RULE_SETTING, 1, 0, 0, { 5, 12, 55, 23 }, { 0 },
    { { "rip", SAW, 0, BACK, INSIDE, 30.03, 5 } } },
  { "height between steps", CHECK_RULE_SETTING, 1, 0, 0, { 5, 12, 55, 23 }, { 0 },
    { { "rip", SAW, 0, BACK, INSIDE, 30, 5.02 } } },
  { "tilt of 45", LEGAL, 0, 60, 60, { 2, 20, 20, 58 }, { 0 },
    { { "rip", SAW, 45, BACK, INSIDE, 25, 53 } } },
  { "tilt of 45, blade too high", CHECK_RULE_SETTING, 1, 60, 60, { 2, 20, 20, 58 }, { 0 },
    { { "rip", SAW, 45, BACK, INSIDE, 25, 53.05 } } },
  { "tilt of 46", CHECK_RULE_SETTING, 1, 0, 0, { 5, 14, 25, 23 }, { 0 },
    { { "rip", SAW, 46, BACK, INSIDE, 30, 5 } } },
  { "tilt between steps", CHECK_RULE_SETTING, 1, 0, 0, { 5, 14, 25, 23 }, { 0 },
    { { "rip", SAW, 12.34, BACK, INSIDE, 30, 5 } } },
  { "a grooving head tilted", CHECK_RULE_SETTING, 1, 0, 0, { 5, 14, 25, 23 }, { 0 },
    { { "dado", SAW, 5, BACK, INSIDE, 30, 5 } } },
  { "leaning into the fence", CHECK_RULE_SETTING, 1, 0, 0, { 15, 14, 55, 23 }, { 0 },
    { { "rip", SAW, -20, BACK, INSIDE, 0.3, 5 } } },
  { "leaning beside the fence", LEGAL, 0, 0, 0, { 15, 14, 55, 23 }, { 0 },
    { { "rip", SAW, -20, BACK, INSIDE, 5, 10 } } },
  { "half a kerf in the fence", LEGAL, 0, 0, 0, { 5, 12, 55, 23 }, { 0 },
    { { "rip", SAW, 0, BACK, INSIDE, -1.6, 10 } } },
  { "more than a kerf in the fence", CHECK_RULE_SETTING, 1, 0, 0, { 5, 12, 55, 23 }, { 0 },
    { { "rip", SAW, 0, BACK, INSIDE, -3.25, 10 } } },
  { "cove angle of 60", LEGAL, 0, 0, 0, { 5, 12, 55, 23 }, { 0 },
    { { "rip", COVE, 60, BACK, INSIDE, 30, 1 } } },
  { "cove angle of 61", CHECK_RULE_SETTING, 1, 0, 0, { 5, 12, 55, 23 }, { 0 },
    { { "rip", COVE, 61, BACK, INSIDE, 30, 1 } } },
  { "cove angle of 7", CHECK_RULE_SETTING, 1, 0, 0, { 5, 12, 55, 23 }, { 0 },
    { { "rip", COVE, 7, BACK, INSIDE, 30, 1 } } },
  /* Half the width at the table: sin 30 sqrt (1.6 x 252.4) + 1.6 cos 30 = 11.433. */
  { "cove up to the fence", LEGAL, 0, 0, 0, { 5, 12, 55, 23 }, { 0 },
    { { "rip", COVE, 30, BACK, INSIDE, 11.45, 1.6 } } },
  { "cove into the fence", CHECK_RULE_SETTING, 1, 0, 0, { 5, 12, 55, 23 }, { 0 },
    { { "rip", COVE, 30, BACK, INSIDE, 11.4, 1.6 } } },
  { "cutter out to its length", LEGAL, 0, 0, 0, { 5, 12, 55, 23 }, { 0 },
    { { "stub", ROUTER, 0, BACK, INSIDE, 30, 5 } } },
  { "cutter out beyond its length", CHECK_RULE_SETTING, 1, 0, 0, { 5, 12, 55, 23 }, { 0 },
    { { "stub", ROUTER, 0, BACK, INSIDE, 30, 5.05 } } },
  /* The bearing. */
  { "bearing along the side", LEGAL, 0, 0, 0, { 12, 12, 55, 23 }, { 0 },
    { { "chamfer", ROUTER, 0, BACK, INSIDE, -6, 8 } } },
  { "bearing in the wood", CHECK_RULE_PILOT, 1, 0, 0, { 12, 12, 55, 23 }, { 0 },
    { { "chamfer", ROUTER, 0, BACK, INSIDE, -5.5, 8 } } },
};
/* clang-format on */

static void
test_rule (gconstpointer data)
{
  const Case *row = data;
  g_autoptr (CheckPlan) plan = rig_create_plan (row->width > 0 ? row->width : 60,
                                                row->thickness > 0 ? row->thickness : 25);

  plan->leftover_limit = 1000; /* these cases are about passes */
  if (row->rabbet[0] > 0)
    rig_add_rabbet (plan, row->rabbet[0], row->rabbet[1]);
  else
    rig_add_box (plan, row->core[0], row->core[1], row->core[2], row->core[3]);
  rig_add_passes (plan, row->passes);

  g_autoptr (CheckReport) report = rig_run_honest (plan);
  g_autofree char *text = check_report_to_string (report);

  g_test_message ("%s", text);
  if (row->broken == LEGAL)
    {
      g_assert_cmpstr (text, ==, "");
      return;
    }
  g_assert_true (check_report_breaks (report, row->broken, ABS (row->pass)));
  if (row->pass < 0)
    return;
  for (guint i = 0; i < report->violations->len; i++)
    {
      const CheckViolation *violation = g_ptr_array_index (report->violations, i);

      g_assert_cmpint (violation->rule, ==, row->broken);
      g_assert_cmpint (violation->pass, ==, row->pass);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *path = g_strdup_printf ("/milling/checker/rule/%s", cases[i].desc);

      g_test_add_data_func (path, &cases[i], test_rule);
    }
  return g_test_run ();
}
