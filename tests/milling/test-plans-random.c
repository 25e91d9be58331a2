/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "sections.h"

#include <math.h>
#include <stdlib.h>

/*
 * Random blanks, cuts and shops. No plan may break a rule. The seed is printed by the framework
 * (run again with --seed) and each case prints its own number; CAV_RANDOM_PLANS sets how many.
 */

#define USUAL_COUNT 60

static double
random_step (double low, double high, double step)
{
  return low + step * floor (g_test_rand_double () * ((high - low) / step + 1));
}

static gboolean
one_in (int n)
{
  return g_test_rand_int_range (0, n) == 0;
}

/* Sizes on the step of settings, in sixteenths of an inch, or on nothing at all. */
static double
random_size (double low, double high)
{
  switch (g_test_rand_int_range (0, 6))
    {
    case 0:
      return random_step (ceil (low / 1.5875) * 1.5875, high, 1.5875);
    case 1:
      return g_test_rand_double_range (low, high);
    default:
      return random_step (low, high, 0.5);
    }
}

static void
fill_corner (SectionCut *cut, double width, double thickness)
{
  static const CavCutKind kinds[] = { CAV_CUT_RABBET,  CAV_CUT_COVE,  CAV_CUT_ROUND,
                                      CAV_CUT_CHAMFER, CAV_CUT_STEPS, CAV_CUT_OGEE };

  cut->kind = kinds[g_test_rand_int_range (0, G_N_ELEMENTS (kinds))];
  cut->anchor = CAV_ANCHOR_CORNER;
  cut->place = g_test_rand_int_range (0, CAV_N_CORNERS);
  cut->numbers[CAV_CUT_WIDTH] = random_size (2, 0.45 * width);
  cut->numbers[CAV_CUT_DEPTH] = random_size (2, 0.6 * thickness);
  cut->numbers[CAV_CUT_SHARE] = 0.5;
  cut->numbers[CAV_CUT_COUNT] = g_test_rand_int_range (2, 4);
  cut->numbers[CAV_CUT_RUN] = random_size (2, 0.15 * width + 2);
  cut->numbers[CAV_CUT_RISE] = random_size (1.5, 0.15 * thickness + 1.5);
  if (cut->kind == CAV_CUT_OGEE)
    cut->form = one_in (2) ? CAV_FORM_RECTA : CAV_FORM_REVERSA;
  if (cut->kind != CAV_CUT_RABBET && one_in (4))
    cut->numbers[CAV_CUT_SHIFT_Y] = random_size (1, 4);
}

static void
fill_side (SectionCut *cut, double width, double thickness)
{
  static const CavCutKind kinds[] = { CAV_CUT_GROOVE, CAV_CUT_COVE, CAV_CUT_BEAD, CAV_CUT_BEVEL };
  double along;

  cut->kind = kinds[g_test_rand_int_range (0, G_N_ELEMENTS (kinds))];
  cut->anchor = CAV_ANCHOR_SIDE;
  cut->place = one_in (3) ? g_test_rand_int_range (0, CAV_N_SIDES) : CAV_SIDE_FACE;
  along = cut->place == CAV_SIDE_BACK || cut->place == CAV_SIDE_FACE ? width : thickness;
  cut->numbers[CAV_CUT_POSITION] = random_size (0.2 * along, 0.8 * along);
  cut->numbers[CAV_CUT_WIDTH] = random_size (3, 0.5 * along);
  cut->numbers[CAV_CUT_DEPTH] = random_size (1.5, 0.35 * cut->numbers[CAV_CUT_WIDTH] + 1.5);
  if (cut->kind == CAV_CUT_GROOVE)
    cut->form = one_in (2) ? CAV_FORM_FLAT : CAV_FORM_ROUND;
  if (cut->kind == CAV_CUT_BEAD)
    {
      cut->form = CAV_FORM_FLUSH;
      cut->numbers[CAV_CUT_WIDTH] = random_size (4, 8);
      cut->numbers[CAV_CUT_QUIRK_WIDTH] = random_size (1, 4);
    }
  if (cut->kind == CAV_CUT_BEVEL)
    cut->numbers[one_in (2) ? CAV_CUT_START_HEIGHT : CAV_CUT_END_HEIGHT]
        = random_size (1, 0.3 * thickness);
}

static CavProfile *
create_random_profile (GString *description)
{
  g_autoptr (GPtrArray) cuts = g_ptr_array_new_with_free_func ((GDestroyNotify)cav_cut_free);
  CavBlank blank = { random_size (18, 90), random_size (12, 40) };
  int n_cuts = g_test_rand_int_range (1, 6);

  g_string_append_printf (description, "blank %.4f x %.4f", blank.width, blank.thickness);
  for (int i = 0; i < n_cuts; i++)
    {
      SectionCut cut = { .form = CAV_FORM_PLAIN };

      if (i == 0 && !one_in (5))
        {
          cut.kind = CAV_CUT_RABBET;
          cut.anchor = CAV_ANCHOR_CORNER;
          cut.place = CAV_CORNER_BACK_INSIDE;
          cut.numbers[CAV_CUT_WIDTH] = random_size (4, 8);
          cut.numbers[CAV_CUT_DEPTH] = random_size (4, 0.6 * blank.thickness);
        }
      else if (one_in (2))
        fill_corner (&cut, blank.width, blank.thickness);
      else
        fill_side (&cut, blank.width, blank.thickness);
      g_string_append_printf (description, "; %s at %d", cav_cut_kind_get_info (cut.kind)->name,
                              cut.place);
      for (guint n = 0; n < CAV_N_CUT_NUMBERS; n++)
        g_string_append_printf (description, " %.4g", cut.numbers[n]);
      g_ptr_array_add (cuts, section_cut_create (&cut));
    }
  return cav_profile_new (&blank, cuts);
}

/* One of the stock shops, with some tools gone, other kerfs and bites, bearings put on. */
static CavShop *
create_random_shop (GString *description)
{
  SectionShop kind = (SectionShop)g_test_rand_int_range (0, SECTION_N_SHOPS);
  CavShop *shop = section_shop_create (kind);

  g_string_append_printf (description, "; shop %s", section_shop_get_name (kind));
  for (guint i = shop->cutters->len; i > 0; i--)
    if (one_in (3))
      g_ptr_array_remove_index (shop->cutters, i - 1);
  for (guint i = 0; i < shop->cutters->len; i++)
    {
      CavCutter *cutter = g_ptr_array_index (shop->cutters, i);

      if (one_in (4))
        cutter->bite *= g_test_rand_double_range (0.5, 2);
      if (one_in (4) && cav_cutter_get_radius_at (cutter, 0) > 2)
        {
          cav_cutter_set_pilot (cutter, cav_cutter_get_radius_at (cutter, 0), 5);
          g_string_append_printf (description, ", bearing on %s", cutter->id);
        }
    }
  for (guint i = 0; i < shop->blades->len; i++)
    {
      CavBlade *blade = g_ptr_array_index (shop->blades, i);

      if (blade->kerf < 4 && one_in (3))
        blade->kerf = random_step (2.2, 3.5, one_in (2) ? 0.1 : 0.025);
      if (one_in (3))
        blade->bite = random_step (20, 120, 5);
      g_string_append_printf (description, ", kerf %.3f bite %.1f", blade->kerf, blade->bite);
    }
  if (one_in (4))
    shop->coving = FALSE;
  return shop;
}

static void
assert_same_figures (const CavPlan *plan, const CavPlan *again)
{
  g_assert_nonnull (again);
  g_assert_cmpuint (plan->setups->len, ==, again->setups->len);
  g_assert_cmpuint (cav_plan_get_pass_count (plan), ==, cav_plan_get_pass_count (again));
  g_assert_cmpmem (&plan->minutes, sizeof (double), &again->minutes, sizeof (double));
  g_assert_cmpmem (&plan->leftover_area, sizeof (double), &again->leftover_area, sizeof (double));
}

static void
test_random (void)
{
  const char *count_text = g_getenv ("CAV_RANDOM_PLANS");
  int count = count_text != NULL ? atoi (count_text) : USUAL_COUNT;
  int sound = 0;
  int wrong = 0;

  for (int i = 0; i < count; i++)
    {
      g_autoptr (GString) description = g_string_new (NULL);
      g_autoptr (CavProfile) profile = create_random_profile (description);
      g_autoptr (CavShop) shop = create_random_shop (description);
      g_autoptr (GError) error = NULL;

      if (!cav_profile_is_sound (profile))
        continue;
      sound++;
      g_autoptr (CavPlan) plan = section_plan (profile, shop, CAV_EFFORT_QUICK, &error);

      if (plan == NULL)
        g_test_message ("case %d: %s: %s", i, description->str, error->message);
      g_assert_no_error (error);
      g_autofree char *text = section_check (plan);

      if (text[0] != '\0')
        {
          g_test_message ("case %d: %s\n%s", i, description->str, text);
          wrong++;
        }
      if (sound % 6 == 0)
        {
          g_autoptr (CavPlan) again = section_plan (profile, shop, CAV_EFFORT_QUICK, NULL);

          assert_same_figures (plan, again);
        }
    }
  g_test_message ("%d of %d sections were sound, %d plans broke a rule", sound, count, wrong);
  g_assert_cmpint (wrong, ==, 0);
  g_assert_cmpint (sound, >=, count / 3);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/milling/plans/random", test_random);
  return g_test_run ();
}
