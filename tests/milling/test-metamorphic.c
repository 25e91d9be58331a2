/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "milling/cav-retrace.h"
#include "sections.h"

#include <math.h>

/*
 * What must follow from a plan where its question is turned into another one: figures are not known
 * beforehand here, only how they belong together. The plans are the planner's, the verdicts those
 * of the tests' own checker.
 *
 * Three questions are put twice: to a plan that is turned over with its section, and to the
 * planner, which has to come upon the same passes for the section turned over or a ten millionth
 * aside. With a tool more, the planner is told what it found without: its search is bounded and
 * does not always find the best plan, but it never throws a better one away.
 */

#define SCALE 1.25
#define SHIFT 1e-7
/* Curves are chords within a hundredth of a millimetre, whatever their size: what lies between them
 * and the curve does not grow with the wood, mm². */
#define CHORDS 0.05

static CavPlan *
plan_section (const CavProfile *profile, const CavShop *shop)
{
  g_autoptr (GError) error = NULL;
  CavPlan *plan = section_plan (profile, shop, CAV_EFFORT_QUICK, &error);

  g_assert_no_error (error);
  return plan;
}

/* The planner's answer for the outline of a profile, or for another one in its blank. (nullable)
 * known: what it found before. */
static CavPlan *
plan_outline (const CavProfile *profile,
              const CavRegion *outline,
              const CavShop *shop,
              GVariant *known)
{
  g_autoptr (GError) error = NULL;
  CavPlanRequest request = {
    .blank = profile->blank,
    .profile = outline,
    .shop = shop,
    .rails = 4,
    .length = 3200,
    .effort = CAV_EFFORT_QUICK,
    .known = known,
  };
  CavPlan *plan = cav_planner_plan (&request, &error);

  g_assert_no_error (error);
  return plan;
}

/* The planner's answer for a section that was moved by a transform. */
static CavPlan *
plan_moved (const CavProfile *profile, const CavShop *shop, CavTransform move)
{
  g_autoptr (CavRegion) moved = cav_region_transformed (profile->region, move);

  return plan_outline (profile, moved, shop, NULL);
}

static CavSide
turn_side (CavSide side, gboolean mirrored)
{
  if (mirrored && side == CAV_SIDE_INSIDE)
    return CAV_SIDE_OUTSIDE;
  if (mirrored && side == CAV_SIDE_OUTSIDE)
    return CAV_SIDE_INSIDE;
  return side;
}

/* The same passes in the same order; where the section is mirrored, on the other sides. */
static void
assert_same_passes (const CavPlan *plan, const CavPlan *other, gboolean mirrored)
{
  g_assert_cmpuint (plan->setups->len, ==, other->setups->len);
  for (guint i = 0; i < plan->setups->len; i++)
    {
      const CavSetup *setup = g_ptr_array_index (plan->setups, i);
      const CavSetup *same = g_ptr_array_index (other->setups, i);

      g_assert_cmpstr (setup->tool, ==, same->tool);
      g_assert_cmpfloat_with_epsilon (setup->tilt, same->tilt, 1e-9);
      g_assert_cmpfloat_with_epsilon (setup->angle, same->angle, 1e-9);
      g_assert_cmpuint (setup->passes->len, ==, same->passes->len);
      for (guint j = 0; j < setup->passes->len; j++)
        {
          const CavPass *pass = g_ptr_array_index (setup->passes, j);
          const CavPass *like = g_ptr_array_index (same->passes, j);

          g_assert_cmpint (turn_side (pass->down, mirrored), ==, like->down);
          g_assert_cmpint (turn_side (pass->against, mirrored), ==, like->against);
          g_assert_cmpfloat_with_epsilon (pass->fence, like->fence, 1e-9);
          g_assert_cmpfloat_with_epsilon (pass->height, like->height, 1e-9);
        }
    }
  g_assert_cmpfloat_with_epsilon (plan->minutes, other->minutes, 1e-3);
  g_assert_cmpfloat_with_epsilon (plan->leftover_area, other->leftover_area, 1e-3);
}

/* For each section: its plan as the checker reads it, and what it finds. */
static void
for_each_section (void (*test) (const Section *, const CavPlan *, CheckPlan *, CheckReport *))
{
  g_autoptr (CavShop) shop = section_shop_create (SECTION_SHOP_DEFAULT);

  for (guint i = 0; i < section_get_count (); i++)
    {
      const Section *section = section_get (i);
      g_autoptr (CavProfile) profile = section_create_profile (section);
      g_autoptr (CavPlan) plan = plan_section (profile, shop);
      g_autoptr (CheckPlan) read = check_plan_from_plan (plan);
      g_autoptr (CheckReport) before = check_plan_run (read);

      g_test_message ("%s: %.2f minutes", section->name, before->minutes);
      g_assert_cmpuint (before->violations->len, ==, 0);
      test (section, plan, read, before);
    }
}

static CheckSide
mirror_side (CheckSide side)
{
  return side == CHECK_SIDE_INSIDE    ? CHECK_SIDE_OUTSIDE
         : side == CHECK_SIDE_OUTSIDE ? CHECK_SIDE_INSIDE
                                      : side;
}

static void
move_points (CheckPlan *plan, double (*move) (const CheckPlan *, double))
{
  for (guint r = 0; r < plan->profile->len; r++)
    {
      GArray *ring = g_ptr_array_index (plan->profile, r);

      for (guint i = 0; i < ring->len; i++)
        g_array_index (ring, CheckPoint, i).x = move (plan, g_array_index (ring, CheckPoint, i).x);
    }
  for (guint i = 0; i < plan->places->len; i++)
    g_array_index (plan->places, CheckPlace, i).x
        = move (plan, g_array_index (plan->places, CheckPlace, i).x);
}

static double
flip (const CheckPlan *plan, double x)
{
  return plan->width - x;
}

static double
shift (const CheckPlan *plan, double x)
{
  return x + SHIFT;
}

static void
assert_same_minutes (const CheckReport *before, const CheckReport *after, double slack)
{
  g_assert_cmpfloat_with_epsilon (after->minutes_setups, before->minutes_setups, 1e-9);
  g_assert_cmpfloat_with_epsilon (after->minutes_passes, before->minutes_passes, 1e-9);
  g_assert_cmpfloat_with_epsilon (after->minutes_hand, before->minutes_hand, slack);
}

/* Inside becomes outside, in the section and under the hands: every figure stays. */
static void
mirror (const Section *section, const CavPlan *plan, CheckPlan *read, CheckReport *before)
{
  move_points (read, flip);
  for (guint s = 0; s < read->setups->len; s++)
    {
      CheckSetup *setup = g_ptr_array_index (read->setups, s);

      for (guint p = 0; p < setup->passes->len; p++)
        {
          CheckPass *pass = &g_array_index (setup->passes, CheckPass, p);

          pass->down = mirror_side (pass->down);
          pass->against = mirror_side (pass->against);
        }
    }
  g_autoptr (CheckReport) after = check_plan_run (read);
  g_autofree char *text = check_report_to_string (after);

  g_assert_cmpstr (text, ==, "");
  g_assert_cmpuint (after->passes->len, ==, before->passes->len);
  for (guint i = 0; i < after->passes->len; i++)
    {
      const CheckPassFigures *a = &g_array_index (before->passes, CheckPassFigures, i);
      const CheckPassFigures *b = &g_array_index (after->passes, CheckPassFigures, i);

      g_assert_cmpfloat_with_epsilon (b->chips, a->chips, 1e-6);
      g_assert_cmpfloat_with_epsilon (b->gouge, a->gouge, 1e-3);
      g_assert_cmpint (b->severs, ==, a->severs);
    }
  g_assert_cmpfloat_with_epsilon (after->leftover_area, before->leftover_area, 1e-6);
  assert_same_minutes (before, after, 0.02);
}

static void
test_mirror (void)
{
  for_each_section (mirror);
}

static void
scale_tool (CheckTool *tool)
{
  double *const lengths[] = { &tool->diameter, &tool->kerf,         &tool->height,
                              &tool->length,   &tool->pilot_radius, &tool->pilot_length };

  for (guint i = 0; i < G_N_ELEMENTS (lengths); i++)
    *lengths[i] *= SCALE;
  tool->bite *= SCALE * SCALE;
  for (guint i = 0; tool->silhouette != NULL && i < tool->silhouette->len; i++)
    {
      g_array_index (tool->silhouette, CheckPoint, i).x *= SCALE;
      g_array_index (tool->silhouette, CheckPoint, i).y *= SCALE;
    }
}

static void
scale_plan (CheckPlan *plan)
{
  double *const lengths[] = { &plan->width,
                              &plan->thickness,
                              &plan->step,
                              &plan->push_gap,
                              &plan->cove_layer,
                              &plan->leftover_limit,
                              &plan->leftover_thickness };

  for (guint i = 0; i < G_N_ELEMENTS (lengths); i++)
    *lengths[i] *= SCALE;
  plan->leftover_area *= SCALE * SCALE;
  for (guint r = 0; r < plan->profile->len; r++)
    {
      GArray *ring = g_ptr_array_index (plan->profile, r);

      for (guint i = 0; i < ring->len; i++)
        {
          g_array_index (ring, CheckPoint, i).x *= SCALE;
          g_array_index (ring, CheckPoint, i).y *= SCALE;
        }
    }
  for (guint i = 0; i < plan->tools->len; i++)
    scale_tool (g_ptr_array_index (plan->tools, i));
  for (guint s = 0; s < plan->setups->len; s++)
    {
      CheckSetup *setup = g_ptr_array_index (plan->setups, s);

      for (guint p = 0; p < setup->passes->len; p++)
        {
          CheckPass *pass = &g_array_index (setup->passes, CheckPass, p);

          pass->fence *= SCALE;
          pass->height *= SCALE;
          pass->removes *= SCALE * SCALE;
        }
    }
}

/* Rules that know lengths of their own, which do not grow with the wood: how deep a gouge may be,
 * speeds by diameter, how far a rail may hang over, which leftover counts as hand work. */
static gboolean
has_length_of_its_own (CheckRule rule)
{
  return rule == CHECK_RULE_GOUGE || rule == CHECK_RULE_SPEED || rule == CHECK_RULE_LEFTOVER
         || rule == CHECK_RULE_MINUTES;
}

/* Wood, tools and settings all a quarter larger: chips grow by the square, gouges by the length,
 * and rules that only compare lengths with each other hold as before. */
static void
scale (const Section *section, const CavPlan *plan, CheckPlan *read, CheckReport *before)
{
  double area = SCALE * SCALE;

  scale_plan (read);
  g_autoptr (CheckReport) after = check_plan_run (read);
  for (guint i = 0; i < after->violations->len; i++)
    {
      const CheckViolation *violation = g_ptr_array_index (after->violations, i);

      g_test_message ("%s", violation->message);
      g_assert_true (has_length_of_its_own (violation->rule));
    }
  g_assert_cmpuint (after->passes->len, ==, before->passes->len);
  for (guint i = 0; i < after->passes->len; i++)
    {
      const CheckPassFigures *a = &g_array_index (before->passes, CheckPassFigures, i);
      const CheckPassFigures *b = &g_array_index (after->passes, CheckPassFigures, i);

      g_assert_cmpfloat_with_epsilon (b->chips, a->chips * area, CHORDS);
      /* Measured upward, so that a chord of a steep curve makes much of it. */
      g_assert_cmpfloat_with_epsilon (b->layer, a->layer * SCALE, 0.02 + 0.02 * b->layer);
    }
  g_assert_cmpfloat_with_epsilon (after->leftover_area, before->leftover_area * area, CHORDS);
  g_assert_cmpfloat_with_epsilon (after->profile_area, before->profile_area * area, CHORDS);
  g_assert_cmpfloat_with_epsilon (after->minutes_setups, before->minutes_setups, 1e-9);
  g_assert_cmpfloat_with_epsilon (after->minutes_passes, before->minutes_passes, 1e-9);
}

static void
test_scale (void)
{
  for_each_section (scale);
}

/* The section a ten millionth aside under the same passes: nothing jumps. */
static void
nudge (const Section *section, const CavPlan *plan, CheckPlan *read, CheckReport *before)
{
  move_points (read, shift);
  g_autoptr (CheckReport) after = check_plan_run (read);
  g_autofree char *text = check_report_to_string (after);

  g_assert_cmpstr (text, ==, "");
  g_assert_cmpfloat_with_epsilon (after->leftover_area, before->leftover_area, 1e-4);
  g_assert_cmpfloat_with_epsilon (after->chips, before->chips, 1e-4);
  g_assert_cmpfloat_with_epsilon (after->gouge, before->gouge, 1e-3);
  assert_same_minutes (before, after, 0.02);
}

static void
test_shift (void)
{
  for_each_section (nudge);
}

/* Each section in each shop, asked again after a move. */
static void
ask_again (CavTransform (*get_move) (const Section *), gboolean mirrored)
{
  for (int i = 0; i < SECTION_N_SHOPS; i++)
    for (guint j = 0; j < section_get_count (); j++)
      {
        const Section *section = section_get (j);
        g_autoptr (CavShop) shop = section_shop_create ((SectionShop)i);
        g_autoptr (CavProfile) profile = section_create_profile (section);
        g_autoptr (CavPlan) plan = plan_section (profile, shop);
        g_autoptr (CavPlan) again = plan_moved (profile, shop, get_move (section));
        g_autofree char *text = mirrored ? section_check (again) : g_strdup ("");

        g_test_message ("%s with the shop \"%s\": %.2f minutes", section->name,
                        section_shop_get_name ((SectionShop)i), plan->minutes);
        g_assert_cmpstr (text, ==, "");
        assert_same_passes (plan, again, mirrored);
      }
}

static CavTransform
get_mirror (const Section *section)
{
  return cav_transform_compose (cav_transform_scale (-1, 1),
                                cav_transform_translation (section->width, 0));
}

static void
test_mirror_asked (void)
{
  ask_again (get_mirror, TRUE);
}

static CavTransform
get_shift (const Section *section)
{
  return cav_transform_translation (SHIFT, -SHIFT);
}

static CavTransform
get_shift_back (const Section *section)
{
  return cav_transform_translation (-SHIFT, SHIFT);
}

static void
test_shift_asked (void)
{
  ask_again (get_shift, FALSE);
  ask_again (get_shift_back, FALSE);
}

/* A shop with one cutter more can do all that it could before: the plan of the poorer shop stands
 * in the richer one as it is, at the same minutes, so that the best plan never gets longer. */
static void
test_more_tools (void)
{
  g_autoptr (CavShop) rich = section_shop_create (SECTION_SHOP_DEFAULT);

  for (guint i = 0; i < section_get_count (); i++)
    {
      const Section *section = section_get (i);
      g_autoptr (CavProfile) profile = section_create_profile (section);
      g_autoptr (CavShop) poor = section_shop_create (SECTION_SHOP_DEFAULT);
      CavPlan *plan;

      g_ptr_array_remove_index (poor->cutters, i % poor->cutters->len);
      plan = plan_section (profile, poor);
      g_autofree char *in_poor = section_check (plan);
      double minutes = plan->minutes;
      g_assert_cmpstr (in_poor, ==, "");
      cav_shop_free (plan->shop);
      plan->shop = cav_shop_copy (rich);
      g_autofree char *in_rich = section_check (plan);
      g_assert_cmpstr (in_rich, ==, "");
      g_assert_cmpfloat_with_epsilon (plan->minutes, minutes, 1e-12);
      cav_plan_unref (plan);
    }
}

/* The default shop without one of its tools, blades first; NULL after the last. */
static CavShop *
create_poorer_shop (guint without)
{
  g_autoptr (CavShop) shop = section_shop_create (SECTION_SHOP_DEFAULT);

  if (without < shop->blades->len)
    g_ptr_array_remove_index (shop->blades, without);
  else if (without - shop->blades->len < shop->cutters->len)
    g_ptr_array_remove_index (shop->cutters, without - shop->blades->len);
  else
    return NULL;
  return g_steal_pointer (&shop);
}

/* With the plan of the poorer shop at hand, the answer for the richer one takes no more minutes,
 * whatever the search comes upon. A poorer shop's plan that leaves more than the limit is none to
 * compare with. */
static void
test_more_tools_asked (void)
{
  g_autoptr (CavShop) rich = section_shop_create (SECTION_SHOP_DEFAULT);
  int n_compared = 0, n_rescued = 0;

  for (guint i = 0; i < section_get_count (); i++)
    {
      g_autoptr (CavProfile) profile = section_create_profile (section_get (i));
      g_autoptr (CavPlan) alone = plan_outline (profile, profile->region, rich, NULL);

      for (guint tool = 0;; tool++)
        {
          g_autoptr (CavShop) poor = create_poorer_shop (tool);
          g_autoptr (CavPlan) before = NULL, after = NULL;
          g_autoptr (GVariant) known = NULL;

          if (poor == NULL)
            break;
          before = plan_outline (profile, profile->region, poor, NULL);
          if (!before->usable || before->leftover_thickness > poor->limits.leftover)
            continue;
          known = cav_plan_create_trace (before);
          after = plan_outline (profile, profile->region, rich, known);
          n_compared++;
          g_assert_cmpfloat (after->minutes, <=, before->minutes + 1e-9);
          g_assert_cmpfloat (after->minutes, <=, alone->minutes + 1e-9);
          if (after->minutes < alone->minutes - 1e-9)
            {
              g_autofree char *faults = section_check (after);

              g_assert_cmpstr (faults, ==, "");
              n_rescued++;
            }
        }
    }
  g_test_message ("%d shops with a tool more, %d plans of the poorer one kept", n_compared,
                  n_rescued);
  g_assert_cmpint (n_compared, >, 100);
  /* Else nothing of this was tried. */
  g_assert_cmpint (n_rescued, >, 0);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/milling/metamorphic/mirror", test_mirror);
  g_test_add_func ("/milling/metamorphic/mirror-asked", test_mirror_asked);
  g_test_add_func ("/milling/metamorphic/scale", test_scale);
  g_test_add_func ("/milling/metamorphic/shift", test_shift);
  g_test_add_func ("/milling/metamorphic/shift-asked", test_shift_asked);
  g_test_add_func ("/milling/metamorphic/more-tools", test_more_tools);
  g_test_add_func ("/milling/metamorphic/more-tools-asked", test_more_tools_asked);
  return g_test_run ();
}
