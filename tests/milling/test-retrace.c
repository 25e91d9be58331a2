/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "milling/cav-retrace.h"

#include <math.h>
#include <string.h>

#include "sections.h"

/* The shop's default tools and a section of each kind: what is proved again is what was proved. */
#define N_SECTIONS 10

static CavPlanRequest
create_request (const CavProfile *profile, const CavShop *shop)
{
  return (CavPlanRequest){ .blank = profile->blank,
                           .profile = profile->region,
                           .shop = shop,
                           .rails = 4,
                           .length = 1000,
                           .effort = CAV_EFFORT_QUICK };
}

static CavPlan *
create_plan (const CavPlanRequest *request)
{
  g_autoptr (GError) error = NULL;
  CavPlan *plan = cav_planner_plan (request, &error);

  g_assert_no_error (error);
  return plan;
}

static void
assert_same (double a, double b)
{
  g_assert_cmpmem (&a, sizeof a, &b, sizeof b);
}

static void
assert_same_region (const CavRegion *a, const CavRegion *b)
{
  guint n = cav_region_get_ring_count (a);

  g_assert_cmpuint (n, ==, cav_region_get_ring_count (b));
  for (guint i = 0; i < n; i++)
    {
      guint n_a, n_b;
      const CavPoint *points_a = cav_region_get_ring_points (a, i, &n_a);
      const CavPoint *points_b = cav_region_get_ring_points (b, i, &n_b);

      g_assert_cmpmem (points_a, n_a * sizeof *points_a, points_b, n_b * sizeof *points_b);
    }
}

static void
assert_same_pass (const CavPass *a, const CavPass *b)
{
  g_assert_cmpint (a->down, ==, b->down);
  g_assert_cmpint (a->against, ==, b->against);
  assert_same (a->fence, b->fence);
  assert_same (a->height, b->height);
  assert_same (a->removes, b->removes);
  assert_same (a->bite, b->bite);
  g_assert_cmpint (a->sacrificial, ==, b->sacrificial);
  g_assert_cmpint (a->severs, ==, b->severs);
  g_assert_cmpint (a->frees_rail, ==, b->frees_rail);
  g_assert_cmpuint (a->cautions, ==, b->cautions);
  assert_same_region (a->before, b->before);
  assert_same_region (a->after, b->after);
  assert_same_region (a->swept, b->swept);
}

static void
assert_same_setup (const CavSetup *a, const CavSetup *b)
{
  g_assert_cmpint (a->machine, ==, b->machine);
  g_assert_cmpstr (a->tool, ==, b->tool);
  assert_same (a->tilt, b->tilt);
  assert_same (a->angle, b->angle);
  assert_same (a->minutes, b->minutes);
  g_assert_cmpint (a->tool_stays, ==, b->tool_stays);
  g_assert_cmpuint (a->passes->len, ==, b->passes->len);
  for (guint i = 0; i < a->passes->len; i++)
    assert_same_pass (g_ptr_array_index (a->passes, i), g_ptr_array_index (b->passes, i));
}

static void
assert_same_words (const CavPlan *a, const CavPlan *b)
{
  g_assert_cmpuint (a->places->len, ==, b->places->len);
  for (guint i = 0; i < a->places->len; i++)
    {
      const CavLeftoverPlace *one = g_ptr_array_index (a->places, i);
      const CavLeftoverPlace *other = g_ptr_array_index (b->places, i);

      g_assert_cmpstr (one->reason, ==, other->reason);
      g_assert_cmpstr (one->advice, ==, other->advice);
    }
  g_assert_cmpuint (a->findings->len, ==, b->findings->len);
  for (guint i = 0; i < a->findings->len; i++)
    g_assert_cmpstr (((const CavFinding *)g_ptr_array_index (a->findings, i))->message, ==,
                     ((const CavFinding *)g_ptr_array_index (b->findings, i))->message);
}

static void
assert_same_plan (const CavPlan *a, const CavPlan *b)
{
  g_assert_true (b->usable);
  assert_same (a->blank.width, b->blank.width);
  assert_same (a->blank.thickness, b->blank.thickness);
  assert_same (a->carrier_inside, b->carrier_inside);
  assert_same (a->carrier_outside, b->carrier_outside);
  assert_same_region (a->profile, b->profile);
  g_assert_true (cav_shop_equal (a->shop, b->shop));
  g_assert_cmpuint (a->setups->len, ==, b->setups->len);
  for (guint i = 0; i < a->setups->len; i++)
    assert_same_setup (g_ptr_array_index (a->setups, i), g_ptr_array_index (b->setups, i));
  assert_same (a->leftover_area, b->leftover_area);
  assert_same (a->leftover_thickness, b->leftover_thickness);
  assert_same_region (a->leftover, b->leftover);
  assert_same (a->minutes, b->minutes);
  assert_same (a->minutes_setups, b->minutes_setups);
  assert_same (a->minutes_passes, b->minutes_passes);
  assert_same (a->minutes_hand, b->minutes_hand);
  assert_same (a->gouge, b->gouge);
  assert_same_words (a, b);
}

/* In every shop: plans with carriers, with waste that no tool reaches, and with none of that. */
static void
test_same_plan (void)
{
  guint n_carriers = 0, n_places = 0, n_plans = 0;

  for (guint i = 0; i < section_get_count (); i += MAX (1, section_get_count () / N_SECTIONS))
    for (int kind = 0; kind < SECTION_N_SHOPS; kind++)
      {
        g_autoptr (CavProfile) profile = section_create_profile (section_get (i));
        g_autoptr (CavShop) shop = section_shop_create ((SectionShop)kind);
        CavPlanRequest request = create_request (profile, shop);
        g_autoptr (CavPlan) plan = create_plan (&request);
        g_autoptr (GVariant) trace = NULL;
        g_autoptr (CavPlan) again = NULL;

        g_test_message ("%s, %s", section_get (i)->name, section_shop_get_name ((SectionShop)kind));
        if (!plan->usable)
          continue;
        trace = cav_plan_create_trace (plan);
        again = cav_planner_retrace (&request, trace);
        g_assert_nonnull (again);
        assert_same_plan (plan, again);
        n_plans++;
        n_carriers += plan->carrier_inside + plan->carrier_outside > 0;
        n_places += plan->places->len > 0;
      }
  g_test_message ("%u plans, %u with a carrier, %u with places", n_plans, n_carriers, n_places);
  g_assert_cmpuint (n_plans, >=, N_SECTIONS);
  g_assert_cmpuint (n_places, >, 0);
}

/* A trace of one pass. */
static CavPlan *
retrace (const CavPlanRequest *request, const char *text)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GVariant) trace
      = g_variant_parse (G_VARIANT_TYPE (CAV_TRACE_TYPE), text, NULL, NULL, &error);

  g_assert_no_error (error);
  return cav_planner_retrace (request, trace);
}

/* 6 by 10 mm in a blank of 45 by 22. */
static CavProfile *
create_rabbet (void)
{
  const CavBlank blank = { 45, 22 };
  g_autoptr (GPtrArray) cuts = g_ptr_array_new_with_free_func ((GDestroyNotify)cav_cut_free);
  CavCut *cut = cav_cut_new_at_corner (CAV_CUT_RABBET, CAV_CORNER_BACK_INSIDE);

  cut->numbers[0] = 6;
  cut->numbers[1] = 10;
  g_ptr_array_add (cuts, cut);
  return cav_profile_new (&blank, cuts);
}

/* Nothing that breaks a rule, or cannot be set, comes back as a plan. */
static void
test_refused (void)
{
  static const char *const rows[] = {
    /* into the profile; too high for the blade; beside the rail, below the table, nowhere */
    "(0.0, 0.0, [(0, 'rip', 0.0, 0.0, [(0, 2, 5.0, 20.0)])], [])",
    "(0.0, 0.0, [(0, 'rip', 0.0, 0.0, [(0, 2, 0.0, 700.0)])], [])",
    "(0.0, 0.0, [(0, 'rip', 0.0, 0.0, [(0, 2, 0.0, -1.0)])], [])",
    "(0.0, 0.0, [(0, 'rip', 0.0, 0.0, [(0, 2, 1e300, 6.0)])], [])",
    "(0.0, 0.0, [(0, 'rip', 0.0, 0.0, [(0, 2, nan, 6.0)])], [])",
    /* sides that are none, or the same one twice, or opposite each other */
    "(0.0, 0.0, [(0, 'rip', 0.0, 0.0, [(9, 2, 0.0, 6.0)])], [])",
    "(0.0, 0.0, [(0, 'rip', 0.0, 0.0, [(0, -1, 0.0, 6.0)])], [])",
    "(0.0, 0.0, [(0, 'rip', 0.0, 0.0, [(0, 0, 0.0, 6.0)])], [])",
    "(0.0, 0.0, [(0, 'rip', 0.0, 0.0, [(0, 1, 0.0, 6.0)])], [])",
    /* machine and tool */
    "(0.0, 0.0, [(7, 'rip', 0.0, 0.0, [(0, 2, 0.0, 6.0)])], [])",
    "(0.0, 0.0, [(0, 'axe', 0.0, 0.0, [(0, 2, 0.0, 6.0)])], [])",
    "(0.0, 0.0, [(2, 'rip', 0.0, 0.0, [(0, 2, 0.0, 6.0)])], [])",
    "(0.0, 0.0, [(0, 'rip', 80.0, 0.0, [(0, 2, 0.0, 6.0)])], [])",
    "(0.0, 0.0, [(1, 'rip', 0.0, 0.0, [(0, 2, 0.0, 6.0)])], [])",
    "(0.0, 0.0, [(0, 'rip', 0.0, 0.0, [])], [])",
    /* a tilted blade in the fence, one that hardly comes out, a crossed one in the fence */
    "(0.0, 0.0, [(0, 'rip', -30.0, 0.0, [(0, 2, 0.0, 6.0)])], [])",
    "(0.0, 0.0, [(0, 'rip', 30.0, 0.0, [(0, 2, 0.0, 0.1)])], [])",
    "(0.0, 0.0, [(1, 'rip', 0.0, 20.0, [(0, 2, 5.0, 1.0)])], [])",
    "(0.0, 0.0, [(0, 'rip', 0.0, 0.0, [(0, 2, -4.0, 6.0)])], [])",
    /* a carrier that the shop does not want, or of nothing */
    "(500.0, 0.0, [], [])",
    "(-1.0, 0.0, [], [])",
    "(nan, 0.0, [], [])",
  };
  g_autoptr (CavProfile) profile = create_rabbet ();
  g_autoptr (CavShop) shop = cav_shop_new_default ();
  CavPlanRequest request;
  g_autoptr (GVariant) other = g_variant_ref_sink (g_variant_new_string ("no trace"));

  request = create_request (profile, shop);
  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (CavPlan) plan = retrace (&request, rows[i]);

      g_test_message ("%s", rows[i]);
      g_assert_null (plan);
    }
  g_assert_null (cav_planner_retrace (&request, other));
  /* The same with nothing to hold against it. */
  {
    g_autoptr (CavPlan) plan = retrace (&request, "(0.0, 0.0, [], [])");

    g_assert_nonnull (plan);
    g_assert_cmpuint (cav_plan_get_pass_count (plan), ==, 0);
    g_assert_cmpuint (plan->places->len, >, 0);
  }
}

/* Angles stay as they are: which of them are allowed is the search's business. */
static gboolean
is_angle (const CavPlan *plan, double number)
{
  for (guint i = 0; i < plan->setups->len; i++)
    {
      const CavSetup *setup = g_ptr_array_index (plan->setups, i);

      if (fabs (setup->tilt - number) < 1e-12 || fabs (setup->angle - number) < 1e-12)
        return TRUE;
    }
  return FALSE;
}

/* Somewhere else by a little: what still comes back is held to the rules by the tests' own checker,
 * which knows nothing of the planner. */
static GVariant *
disturb (const CavPlan *plan, GVariant *trace, GRand *random)
{
  gsize size = g_variant_get_size (trace);
  guint8 *bytes = g_memdup2 (g_variant_get_data (trace), size);
  gsize n_numbers = size / sizeof (double);
  gsize at = (gsize)g_rand_int_range (random, 0, (gint32)n_numbers) * sizeof (double);
  double number;

  memcpy (&number, bytes + at, sizeof number);
  if (!is_angle (plan, number))
    number += 0.05 * g_rand_int_range (random, -40, 41);
  memcpy (bytes + at, &number, sizeof number);
  return g_variant_ref_sink (
      g_variant_new_from_data (G_VARIANT_TYPE (CAV_TRACE_TYPE), bytes, size, FALSE, g_free, bytes));
}

static void
test_disturbed (void)
{
  guint32 seed = g_test_rand_int_range (0, G_MAXINT32);
  g_autoptr (GRand) random = g_rand_new_with_seed (seed);
  guint n_refused = 0;

  g_test_message ("seed %u", seed);
  for (guint i = 0; i < section_get_count (); i += MAX (1, section_get_count () / N_SECTIONS))
    {
      g_autoptr (CavProfile) profile = section_create_profile (section_get (i));
      g_autoptr (CavShop) shop = cav_shop_new_default ();
      CavPlanRequest request = create_request (profile, shop);
      g_autoptr (CavPlan) plan = create_plan (&request);
      g_autoptr (GVariant) trace = NULL;

      if (!plan->usable)
        continue;
      trace = cav_plan_create_trace (plan);
      for (int round = 0; round < 12; round++)
        {
          g_autoptr (GVariant) other = disturb (plan, trace, random);
          g_autoptr (CavPlan) again = cav_planner_retrace (&request, other);

          if (again == NULL)
            {
              n_refused++;
              continue;
            }
          g_autofree char *complaints = section_check (again);

          g_test_message ("%s, round %d", section_get (i)->name, round);
          g_assert_cmpstr (complaints, ==, "");
        }
    }
  g_assert_cmpuint (n_refused, >, 0);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/milling/retrace/same-plan", test_same_plan);
  g_test_add_func ("/milling/retrace/refused", test_refused);
  g_test_add_func ("/milling/retrace/disturbed", test_disturbed);
  return g_test_run ();
}
