/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "sections.h"

#include <math.h>

/* Plans of many sections in several shops, each simulated again by the checker. */

typedef struct
{
  const Section *section;
  SectionShop shop;
  CavEffort effort;
} Case;

/* What the default shop makes within the limit. */
static gboolean
is_makeable (const Section *section)
{
  return !g_str_equal (section->name, "t-slot");
}

static void
assert_places (const CavPlan *plan)
{
  for (guint i = 0; i < plan->places->len; i++)
    {
      const CavLeftoverPlace *place = g_ptr_array_index (plan->places, i);

      g_assert_nonnull (place->reason);
      g_assert_cmpstr (place->reason, !=, "");
      g_assert_cmpfloat (place->thickness, >, 0);
    }
  if (plan->places->len > 0)
    g_assert_cmpuint (plan->findings->len, >, 0);
}

static void
test_case (gconstpointer data)
{
  const Case *row = data;
  g_autoptr (GError) error = NULL;
  g_autoptr (CavProfile) profile = section_create_profile (row->section);
  g_autoptr (CavShop) shop = section_shop_create (row->shop);
  g_autoptr (CavPlan) plan = section_plan (profile, shop, row->effort, &error);

  g_assert_no_error (error);
  g_assert_nonnull (plan);
  g_autofree char *text = section_check (plan);

  g_test_message ("%.2f minutes, %u setups, %u passes, leftover %.2f mm² up to %.2f thick, blank "
                  "%.2f x %.2f",
                  plan->minutes, plan->setups->len, cav_plan_get_pass_count (plan),
                  plan->leftover_area, plan->leftover_thickness, plan->blank.width,
                  plan->blank.thickness);
  g_assert_cmpstr (text, ==, "");
  g_assert_true (plan->usable);
  assert_places (plan);
  if (row->shop == SECTION_SHOP_DEFAULT && is_makeable (row->section))
    g_assert_cmpuint (plan->places->len, ==, 0);
  if (row->shop == SECTION_SHOP_DEFAULT && !is_makeable (row->section))
    g_assert_cmpuint (plan->places->len, >, 0);
}

static void
add_cases (void)
{
  for (guint i = 0; i < section_get_count (); i++)
    for (SectionShop shop = 0; shop < SECTION_N_SHOPS; shop++)
      for (CavEffort effort = CAV_EFFORT_QUICK; effort <= CAV_EFFORT_THOROUGH; effort++)
        {
          g_autofree char *path = NULL;
          Case *row = g_new (Case, 1);

          /* A few thorough ones are enough here; the bench has more. */
          if (effort == CAV_EFFORT_THOROUGH && (shop != SECTION_SHOP_DEFAULT || i % 5 != 1))
            {
              g_free (row);
              continue;
            }
          *row = (Case){ section_get (i), shop, effort };
          path = g_strdup_printf ("/milling/plans/%s/%s/%s", row->section->name,
                                  section_shop_get_name (shop),
                                  effort == CAV_EFFORT_QUICK ? "quick" : "thorough");
          g_test_add_data_func_full (path, row, test_case, g_free);
        }
}

static void
assert_same_pass (const CavPass *a, const CavPass *b)
{
  g_assert_cmpint (a->down, ==, b->down);
  g_assert_cmpint (a->against, ==, b->against);
  g_assert_cmpmem (&a->fence, sizeof (double), &b->fence, sizeof (double));
  g_assert_cmpmem (&a->height, sizeof (double), &b->height, sizeof (double));
  g_assert_cmpmem (&a->removes, sizeof (double), &b->removes, sizeof (double));
  g_assert_cmpuint (a->cautions, ==, b->cautions);
}

static void
assert_same_plan (const CavPlan *a, const CavPlan *b)
{
  g_assert_cmpuint (a->setups->len, ==, b->setups->len);
  for (guint s = 0; s < a->setups->len; s++)
    {
      const CavSetup *of_a = g_ptr_array_index (a->setups, s);
      const CavSetup *of_b = g_ptr_array_index (b->setups, s);

      g_assert_cmpint (of_a->machine, ==, of_b->machine);
      g_assert_cmpstr (of_a->tool, ==, of_b->tool);
      g_assert_cmpmem (&of_a->tilt, sizeof (double), &of_b->tilt, sizeof (double));
      g_assert_cmpmem (&of_a->angle, sizeof (double), &of_b->angle, sizeof (double));
      g_assert_cmpuint (of_a->passes->len, ==, of_b->passes->len);
      for (guint p = 0; p < of_a->passes->len; p++)
        assert_same_pass (g_ptr_array_index (of_a->passes, p), g_ptr_array_index (of_b->passes, p));
    }
  g_assert_cmpmem (&a->minutes, sizeof (double), &b->minutes, sizeof (double));
  g_assert_cmpmem (&a->leftover_area, sizeof (double), &b->leftover_area, sizeof (double));
  g_assert_cmpuint (a->findings->len, ==, b->findings->len);
}

static void
test_same (void)
{
  static const char *const names[] = { "rabbet-cove", "eight", "sight-strip" };

  for (guint i = 0; i < G_N_ELEMENTS (names); i++)
    for (CavEffort effort = CAV_EFFORT_QUICK;
         effort <= (i == 0 ? CAV_EFFORT_THOROUGH : CAV_EFFORT_QUICK); effort++)
      {
        g_autoptr (CavProfile) profile = section_create_profile (section_find (names[i]));
        g_autoptr (CavShop) shop = cav_shop_new_default ();
        g_autoptr (CavPlan) first = section_plan (profile, shop, effort, NULL);
        g_autoptr (CavPlan) second = section_plan (profile, shop, effort, NULL);

        g_assert_nonnull (first);
        g_assert_nonnull (second);
        assert_same_plan (first, second);
      }
}

/* What is left under the stairs of this section is thickest on the round edge that a bead cutter
 * left, near which climbs from many places come together: random-plans.sh came upon it. */
static void
test_round_edge (void)
{
  static const Section section = {
    "round-edge",
    70.5,
    18,
    5,
    { { CAV_CUT_BEVEL,
        CAV_ANCHOR_SIDE,
        CAV_SIDE_OUTSIDE,
        CAV_FORM_PLAIN,
        { 3, 2, 6.1, 0, 0, 0, 2.86 } },
      { CAV_CUT_COVE, CAV_ANCHOR_SIDE, CAV_SIDE_OUTSIDE, CAV_FORM_PLAIN, { 9, 1.647, 7.094 } },
      { CAV_CUT_STEPS,
        CAV_ANCHOR_CORNER,
        CAV_CORNER_BACK_OUTSIDE,
        CAV_FORM_PLAIN,
        { 27, 8.013, 0, 2, 3.175, 4.5, 0, 0, 0, 0, 0.5 } },
      { CAV_CUT_STEPS,
        CAV_ANCHOR_CORNER,
        CAV_CORNER_FACE_OUTSIDE,
        CAV_FORM_PLAIN,
        { 9.215, 8.992, 0, 3, 12.7, 2, 0, 0, 0, 0, 0.5, 0, 3 } },
      { CAV_CUT_BEAD,
        CAV_ANCHOR_SIDE,
        CAV_SIDE_FACE,
        CAV_FORM_FLUSH,
        { 6.5, 4, 21.49, 0, 0, 0, 0, 0, 1.5 } } }
  };
  static const char *const piloted[] = { "straight-19.05", "bead-3.2" };
  g_autoptr (CavProfile) profile = section_create_profile (&section);
  g_autoptr (CavShop) shop = section_shop_create (SECTION_SHOP_ROUTER);

  for (guint i = 0; i < G_N_ELEMENTS (piloted); i++)
    {
      CavCutter *cutter = cav_shop_find_cutter (shop, piloted[i]);

      cav_cutter_set_pilot (cutter, cav_cutter_get_radius_at (cutter, 0), 5);
    }
  g_autoptr (CavPlan) plan = section_plan (profile, shop, CAV_EFFORT_QUICK, NULL);

  g_assert_nonnull (plan);
  g_autofree char *text = section_check (plan);

  g_test_message ("%.4f thick", plan->leftover_thickness);
  g_assert_cmpstr (text, ==, "");
}

/* Wood added on a side is never dearer than none, for none is what may be chosen too. */
static void
test_carrier (void)
{
  g_autoptr (CavProfile) profile = section_create_profile (section_find ("sight-strip"));
  g_autoptr (CavShop) shop = cav_shop_new_default ();
  g_autoptr (CavPlan) free = section_plan (profile, shop, CAV_EFFORT_QUICK, NULL);

  shop->limits.carrier = 0;
  g_autoptr (CavPlan) bound = section_plan (profile, shop, CAV_EFFORT_QUICK, NULL);

  g_assert_nonnull (free);
  g_assert_nonnull (bound);
  g_assert_cmpfloat_with_epsilon (bound->blank.width, profile->blank.width, 1e-9);
  g_assert_cmpfloat_with_epsilon (bound->carrier_inside + bound->carrier_outside, 0, 1e-9);
  g_assert_cmpfloat_with_epsilon (
      free->blank.width, profile->blank.width + free->carrier_inside + free->carrier_outside, 1e-9);
  g_assert_cmpuint (free->places->len, ==, 0);
  if (bound->places->len == 0)
    g_assert_cmpfloat (free->minutes, <=, bound->minutes + 1e-6);
  g_autofree char *text = section_check (bound);

  g_assert_cmpstr (text, ==, "");
}

static void
test_cancelled (void)
{
  g_autoptr (CavProfile) profile = section_create_profile (section_find ("eight"));
  g_autoptr (CavShop) shop = cav_shop_new_default ();
  g_autoptr (GError) error = NULL;
  const int cancelled = 1;
  CavPlanRequest request = {
    .blank = profile->blank,
    .profile = profile->region,
    .shop = shop,
    .rails = 4,
    .length = 3200,
    .effort = CAV_EFFORT_THOROUGH,
    .cancelled = &cancelled,
  };

  g_assert_null (cav_planner_plan (&request, &error));
  g_assert_error (error, CAV_MILLING_ERROR, CAV_MILLING_ERROR_CANCELLED);
}

static gpointer
cancel_later_cb (gpointer data)
{
  g_usleep (3000);
  g_atomic_int_set ((int *)data, 1);
  return NULL;
}

/* Given up on the way: no plan and the error, or a whole plan where it was ready before. */
static void
test_cancelled_later (void)
{
  g_autoptr (CavProfile) profile = section_create_profile (section_find ("eight"));
  g_autoptr (CavShop) shop = cav_shop_new_default ();
  g_autoptr (GError) error = NULL;
  int cancelled = 0;
  CavPlanRequest request = {
    .blank = profile->blank,
    .profile = profile->region,
    .shop = shop,
    .rails = 4,
    .length = 3200,
    .effort = CAV_EFFORT_THOROUGH,
    .cancelled = &cancelled,
  };
  GThread *thread = g_thread_new ("cancel", cancel_later_cb, &cancelled);
  g_autoptr (CavPlan) plan = cav_planner_plan (&request, &error);

  g_thread_join (thread);
  if (plan == NULL)
    {
      g_assert_error (error, CAV_MILLING_ERROR, CAV_MILLING_ERROR_CANCELLED);
      return;
    }
  g_assert_no_error (error);
  g_autofree char *text = section_check (plan);

  g_assert_cmpstr (text, ==, "");
}

static void
test_input (void)
{
  g_autoptr (CavProfile) profile = section_create_profile (section_find ("rabbet"));
  g_autoptr (CavRegion) empty = cav_region_new_empty ();
  g_autoptr (CavRegion) large = cav_region_new_box (0, 0, 400, 20);
  g_autoptr (CavShop) shop = cav_shop_new_default ();
  const struct
  {
    const char *desc;
    CavBlank blank;
    const CavRegion *profile;
    int rails;
    double length;
  } rows[] = {
    { "no rails", { 45, 20 }, profile->region, 0, 3200 },
    { "no length", { 45, 20 }, profile->region, 4, 0 },
    { "length is no number", { 45, 20 }, profile->region, 4, NAN },
    { "length without end", { 45, 20 }, profile->region, 4, INFINITY },
    { "no blank", { 0, 0 }, profile->region, 4, 3200 },
    { "blank below nothing", { -45, 20 }, profile->region, 4, 3200 },
    { "blank is no number", { 45, NAN }, profile->region, 4, 3200 },
    { "empty profile", { 45, 20 }, empty, 4, 3200 },
    { "profile larger than the blank", { 45, 20 }, large, 4, 3200 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (GError) error = NULL;
      CavPlanRequest request = { .blank = rows[i].blank,
                                 .profile = rows[i].profile,
                                 .shop = shop,
                                 .rails = rows[i].rails,
                                 .length = rows[i].length,
                                 .effort = CAV_EFFORT_QUICK };
      g_autoptr (CavPlan) plan = cav_planner_plan (&request, &error);

      g_test_message ("%s", rows[i].desc);
      g_assert_null (plan);
      g_assert_error (error, CAV_MILLING_ERROR, CAV_MILLING_ERROR_INPUT);
    }
}

/* A shop without tools makes nothing: a plan without passes that says where wood is left. */
static void
test_no_tools (void)
{
  g_autoptr (CavProfile) profile = section_create_profile (section_find ("rabbet"));
  g_autoptr (CavShop) shop = cav_shop_new ();
  g_autoptr (GError) error = NULL;
  g_autoptr (CavPlan) plan = section_plan (profile, shop, CAV_EFFORT_QUICK, &error);

  g_assert_no_error (error);
  g_assert_cmpuint (cav_plan_get_pass_count (plan), ==, 0);
  g_assert_cmpuint (plan->places->len, >, 0);
  g_assert_cmpfloat_with_epsilon (plan->leftover_area, 60.0, 0.05);
  g_autofree char *text = section_check (plan);

  g_assert_cmpstr (text, ==, "");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  add_cases ();
  g_test_add_func ("/milling/plans/same", test_same);
  g_test_add_func ("/milling/plans/round-edge", test_round_edge);
  g_test_add_func ("/milling/plans/carrier", test_carrier);
  g_test_add_func ("/milling/plans/cancelled", test_cancelled);
  g_test_add_func ("/milling/plans/cancelled-later", test_cancelled_later);
  g_test_add_func ("/milling/plans/input", test_input);
  g_test_add_func ("/milling/plans/no-tools", test_no_tools);
  return g_test_run ();
}
