/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "milling-rig.h"

#include "milling/cav-planner.h"
#include "sections.h"

#include <string.h>

static CavPlanRequest
create_request (CavBlank blank, const CavRegion *profile, const CavShop *shop)
{
  return (CavPlanRequest){ .blank = blank,
                           .profile = profile,
                           .shop = shop,
                           .rails = 4,
                           .length = 3200,
                           .effort = CAV_EFFORT_QUICK };
}

/* Each bad request has its sentence: what is wrong, and between which bounds it has to be. */
static void
test_bad_requests (void)
{
  const CavBox through = { 20, -1, 25, 31 };
  g_autoptr (CavRegion) good = cav_region_new_box (0, 0, 40, 30);
  g_autoptr (CavRegion) pieces = rig_box_less ((CavBlank){ 40, 30 }, &through, 1);
  g_autoptr (CavRegion) empty = cav_region_new_empty ();
  g_autoptr (CavRegion) shifted = cav_region_new_box (-0.5, 0, 30, 20);
  g_autoptr (CavRegion) high = cav_region_new_box (0, 0, 30, 30.5);
  g_autoptr (CavShop) shop = cav_shop_new_saw_only ();
  const struct
  {
    CavBlank blank;
    const CavRegion *profile;
    int rails;
    double length;
    const char *words;
  } rows[] = {
    { { 500.1, 30 }, good, 4, 3200, "width and thickness" },
    { { 40, 0.05 }, good, 4, 3200, "width and thickness" },
    { { NAN, 30 }, good, 4, 3200, "width and thickness" },
    { { 40, INFINITY }, good, 4, 3200, "width and thickness" },
    { { 40, 30 }, good, 0, 3200, "number of rails" },
    { { 40, 30 }, good, -3, 3200, "number of rails" },
    { { 40, 30 }, good, 10001, 3200, "number of rails" },
    { { 40, 30 }, good, 4, 0, "length" },
    { { 40, 30 }, good, 4, -1, "length" },
    { { 40, 30 }, good, 4, 2e7, "length" },
    { { 40, 30 }, good, 4, NAN, "length" },
    { { 40, 30 }, empty, 4, 3200, "empty" },
    { { 40, 30 }, pieces, 4, 3200, "in pieces" },
    { { 40, 30 }, shifted, 4, 3200, "stands out" },
    { { 40, 30 }, high, 4, 3200, "stands out" },
    { { 39, 30 }, good, 4, 3200, "stands out" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      CavPlanRequest request = create_request (rows[i].blank, rows[i].profile, shop);
      g_autoptr (GError) error = NULL;
      g_autoptr (CavPlan) plan = NULL;

      request.rails = rows[i].rails;
      request.length = rows[i].length;
      plan = cav_planner_plan (&request, &error);
      g_test_message ("row %u: %s", i, error != NULL ? error->message : "a plan");
      g_assert_null (plan);
      g_assert_error (error, CAV_MILLING_ERROR, CAV_MILLING_ERROR_INPUT);
      g_assert_nonnull (strstr (error->message, rows[i].words));
    }
}

/* Nothing to mill is a plan too. */
static void
test_nothing_to_do (void)
{
  const CavBlank blank = { 40, 30 };
  g_autoptr (CavRegion) whole = cav_blank_create_region (&blank);
  g_autoptr (CavShop) shop = cav_shop_new_saw_only ();
  CavPlanRequest request = create_request (blank, whole, shop);
  g_autoptr (GError) error = NULL;
  g_autoptr (CavPlan) plan = cav_planner_plan (&request, &error);

  g_assert_no_error (error);
  g_assert_true (plan->usable);
  g_assert_cmpuint (cav_plan_get_pass_count (plan), ==, 0);
  g_assert_cmpfloat_with_epsilon (plan->minutes, 0, 1e-9);
  g_assert_cmpfloat_with_epsilon (plan->leftover_area, 0, 1e-9);
  g_assert_cmpuint (plan->findings->len, ==, 0);
}

static gboolean
has_finding (const CavPlan *plan, const char *code, CavFindingSeverity severity)
{
  for (guint i = 0; i < plan->findings->len; i++)
    {
      const CavFinding *finding = g_ptr_array_index (plan->findings, i);

      if (g_str_equal (finding->code, code) && finding->severity == severity)
        return TRUE;
    }
  return FALSE;
}

static void
test_no_tools (void)
{
  g_autoptr (CavProfile) profile = section_create_profile (section_find ("rabbet"));
  g_autoptr (CavShop) none = cav_shop_new ();
  g_autoptr (CavShop) saw = cav_shop_new_saw_only ();
  g_autoptr (CavPlan) without = section_plan (profile, none, CAV_EFFORT_QUICK, NULL);
  g_autoptr (CavPlan) with = section_plan (profile, saw, CAV_EFFORT_QUICK, NULL);

  g_assert_true (has_finding (without, "no-tools", CAV_FINDING_WRONG));
  g_assert_true (has_finding (without, "leftover", CAV_FINDING_CAUTION));
  g_assert_false (has_finding (with, "no-tools", CAV_FINDING_WRONG));
  g_assert_false (has_finding (with, "leftover", CAV_FINDING_CAUTION));
}

static const CavPass *
get_last_pass (const CavPlan *plan)
{
  const CavSetup *last = g_ptr_array_index (plan->setups, plan->setups->len - 1);

  return g_ptr_array_index (last->passes, last->passes->len - 1);
}

/* A strip too slender to be milled by itself; findings speak of the blank as drawn. */
static void
test_carrier (void)
{
  g_autoptr (CavProfile) profile = section_create_profile (section_find ("sight-strip"));
  g_autoptr (CavShop) shop = cav_shop_new_default ();
  g_autoptr (CavPlan) wide = section_plan (profile, shop, CAV_EFFORT_QUICK, NULL);
  g_autoptr (CavPlan) bound = NULL;
  g_autofree char *text = section_check (wide);
  double added = wide->carrier_inside + wide->carrier_outside;

  g_assert_cmpstr (text, ==, "");
  g_assert_cmpfloat (added, >=, 20);
  g_assert_cmpfloat (added, <=, shop->limits.carrier);
  g_assert_cmpfloat (fmin (wide->carrier_inside, wide->carrier_outside), <=, 0);
  g_assert_true (get_last_pass (wide)->severs);
  g_assert_cmpuint (wide->places->len, ==, 0);

  shop->limits.carrier = 0;
  bound = section_plan (profile, shop, CAV_EFFORT_QUICK, NULL);
  g_assert_cmpfloat_with_epsilon (bound->carrier_inside + bound->carrier_outside, 0, 1e-12);
  g_assert_cmpfloat_with_epsilon (bound->blank.width, profile->blank.width, 1e-12);
  g_assert_cmpuint (bound->places->len, >, 0);
  g_assert_true (has_finding (bound, "leftover", CAV_FINDING_CAUTION));
  /* Less than a kerf and a push block's way is no carrier. */
  shop->limits.carrier = 20;
  g_autoptr (CavPlan) narrow = section_plan (profile, shop, CAV_EFFORT_QUICK, NULL);

  g_assert_cmpfloat_with_epsilon (narrow->blank.width, profile->blank.width, 1e-12);
}

/* A rail on firm ground gets none. */
static void
test_no_carrier (void)
{
  g_autoptr (CavProfile) profile = section_create_profile (section_find ("rabbet"));
  g_autoptr (CavShop) shop = cav_shop_new_default ();
  g_autoptr (CavPlan) plan = section_plan (profile, shop, CAV_EFFORT_QUICK, NULL);

  g_assert_cmpfloat_with_epsilon (plan->carrier_inside + plan->carrier_outside, 0, 1e-12);
}

/* Minutes add up, by the table. */
static void
test_minutes (void)
{
  static const char *const names[] = { "rabbet", "rabbet-cove", "eight" };

  for (guint i = 0; i < G_N_ELEMENTS (names); i++)
    {
      g_autoptr (CavProfile) profile = section_create_profile (section_find (names[i]));
      g_autoptr (CavShop) shop = cav_shop_new_default ();
      g_autoptr (CavPlan) plan = section_plan (profile, shop, CAV_EFFORT_QUICK, NULL);
      g_autoptr (CheckPlan) check = check_plan_from_plan (plan);
      g_autoptr (CheckReport) report = check_plan_run (check);

      g_assert_cmpfloat_with_epsilon (
          plan->minutes, plan->minutes_setups + plan->minutes_passes + plan->minutes_hand, 1e-9);
      g_assert_cmpfloat_with_epsilon (plan->minutes_setups, report->minutes_setups, 1e-6);
      g_assert_cmpfloat_with_epsilon (plan->minutes_passes, report->minutes_passes, 1e-6);
      g_assert_cmpfloat_with_epsilon (plan->minutes_hand, report->minutes_hand, 0.3);
    }
}

/* More time for looking never makes a dearer plan: it begins with the quick one. */
static void
test_thorough (void)
{
  const struct
  {
    const char *section;
    SectionShop shop;
  } rows[] = { { "rabbet", SECTION_SHOP_SAW },
               { "steps", SECTION_SHOP_SAW },
               { "chamfers", SECTION_SHOP_GROOVING },
               { "rabbet-cove", SECTION_SHOP_ROUTER },
               { "sight-strip", SECTION_SHOP_SAW } };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (CavProfile) profile = section_create_profile (section_find (rows[i].section));
      g_autoptr (CavShop) shop = section_shop_create (rows[i].shop);
      g_autoptr (CavPlan) quick = section_plan (profile, shop, CAV_EFFORT_QUICK, NULL);
      g_autoptr (CavPlan) thorough = section_plan (profile, shop, CAV_EFFORT_THOROUGH, NULL);

      g_test_message ("%s: quick %.2f minutes and %u places, thorough %.2f and %u", rows[i].section,
                      quick->minutes, quick->places->len, thorough->minutes, thorough->places->len);
      g_assert_cmpuint (thorough->places->len, <=, quick->places->len);
      if (thorough->places->len == quick->places->len)
        g_assert_cmpfloat (thorough->minutes, <=, quick->minutes + 1e-9);
    }
}

/* Short rails are worth a word in every pass. */
static void
test_short_rails (void)
{
  g_autoptr (CavProfile) profile = section_create_profile (section_find ("rabbet"));
  g_autoptr (CavShop) shop = cav_shop_new_saw_only ();
  CavPlanRequest request = create_request (profile->blank, profile->region, shop);

  for (int is_short = 0; is_short < 2; is_short++)
    {
      g_autoptr (CavPlan) plan = NULL;

      request.length = is_short ? 1196 : 1204;
      plan = cav_planner_plan (&request, NULL);
      g_assert_cmpuint (cav_plan_get_pass_count (plan), >, 0);
      for (guint s = 0; s < plan->setups->len; s++)
        {
          const CavSetup *setup = g_ptr_array_index (plan->setups, s);

          for (guint p = 0; p < setup->passes->len; p++)
            {
              const CavPass *pass = g_ptr_array_index (setup->passes, p);

              g_assert_cmpint ((pass->cautions & CAV_CAUTION_SHORT_RAIL) != 0, ==, is_short);
            }
        }
    }
}

static void
assert_same (const CavPlan *a, const CavPlan *b)
{
  g_assert_cmpuint (a->setups->len, ==, b->setups->len);
  g_assert_cmpmem (&a->minutes, sizeof (double), &b->minutes, sizeof (double));
  for (guint s = 0; s < a->setups->len; s++)
    {
      const CavSetup *p = g_ptr_array_index (a->setups, s), *q = g_ptr_array_index (b->setups, s);

      g_assert_cmpstr (p->tool, ==, q->tool);
      g_assert_cmpuint (p->passes->len, ==, q->passes->len);
      for (guint k = 0; k < p->passes->len; k++)
        {
          const CavPass *one = g_ptr_array_index (p->passes, k);
          const CavPass *other = g_ptr_array_index (q->passes, k);

          g_assert_cmpint (one->down, ==, other->down);
          g_assert_cmpmem (&one->fence, sizeof (double), &other->fence, sizeof (double));
          g_assert_cmpmem (&one->height, sizeof (double), &other->height, sizeof (double));
        }
    }
}

static gpointer
plan_cb (gpointer data)
{
  return cav_planner_plan (data, NULL);
}

/* Two at once do not touch each other; nothing but the request counts. */
static void
test_side_by_side (void)
{
  g_autoptr (CavProfile) a = section_create_profile (section_find ("eight"));
  g_autoptr (CavProfile) b = section_create_profile (section_find ("t-slot"));
  g_autoptr (CavShop) shop = cav_shop_new_default ();
  CavPlanRequest of_a = create_request (a->blank, a->region, shop);
  CavPlanRequest of_b = create_request (b->blank, b->region, shop);
  GThread *thread = g_thread_new ("planner", plan_cb, &of_a);
  g_autoptr (CavPlan) second = cav_planner_plan (&of_b, NULL);
  g_autoptr (CavPlan) first = g_thread_join (thread);
  g_autoptr (CavPlan) first_again = cav_planner_plan (&of_a, NULL);
  g_autoptr (CavPlan) second_again = cav_planner_plan (&of_b, NULL);

  assert_same (first, first_again);
  assert_same (second, second_again);
}

static void
test_cancelled (void)
{
  g_autoptr (CavProfile) profile = section_create_profile (section_find ("eight"));
  g_autoptr (CavShop) shop = cav_shop_new_default ();
  const int yes = 1, no = 0;

  for (CavEffort effort = CAV_EFFORT_QUICK; effort <= CAV_EFFORT_THOROUGH; effort++)
    {
      CavPlanRequest request = create_request (profile->blank, profile->region, shop);
      g_autoptr (GError) error = NULL;

      request.effort = effort;
      request.cancelled = &yes;
      g_assert_null (cav_planner_plan (&request, &error));
      g_assert_error (error, CAV_MILLING_ERROR, CAV_MILLING_ERROR_CANCELLED);
    }
  CavPlanRequest request = create_request (profile->blank, profile->region, shop);
  g_autoptr (CavPlan) plan = NULL;

  request.cancelled = &no;
  plan = cav_planner_plan (&request, NULL);
  g_assert_nonnull (plan);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/milling/planner/bad-requests", test_bad_requests);
  g_test_add_func ("/milling/planner/nothing-to-do", test_nothing_to_do);
  g_test_add_func ("/milling/planner/no-tools", test_no_tools);
  g_test_add_func ("/milling/planner/carrier", test_carrier);
  g_test_add_func ("/milling/planner/no-carrier", test_no_carrier);
  g_test_add_func ("/milling/planner/minutes", test_minutes);
  g_test_add_func ("/milling/planner/thorough", test_thorough);
  g_test_add_func ("/milling/planner/short-rails", test_short_rails);
  g_test_add_func ("/milling/planner/side-by-side", test_side_by_side);
  g_test_add_func ("/milling/planner/cancelled", test_cancelled);
  return g_test_run ();
}
