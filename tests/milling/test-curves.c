/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "sections.h"

#include "storage/cav-storage.h"

#include <math.h>

/* A curve is made with the cutter of its shape where the shop has one, whatever the minutes; where
 * it has none, the plan names what is left to the hand. */

/* Waste that may stay over such a curve, mm. */
#define OVER_MOST 0.1
/* Looks along each arc; its ends belong to what comes next. */
#define LOOKS 100
#define END_SHARE 0.04
/* Arcs that turn by less (degrees) are not asked for. */
#define LEAST_TURN 20

/* Looks along all arcs of a radius at which waste thicker than the limit stands over them. */
static int
count_left (const CavPlan *plan, double radius, int *out_arcs)
{
  int n = 0;

  *out_arcs = 0;
  for (guint i = 0; i < cav_region_get_ring_count (plan->profile); i++)
    {
      const CavPath *ring = cav_region_get_ring (plan->profile, i);

      for (guint j = 0; j < cav_path_get_segment_count (ring); j++)
        {
          const CavSegment *segment = cav_path_get_segment (ring, j);
          double out = segment->sweep > 0 ? OVER_MOST : -OVER_MOST;

          if (segment->kind != CAV_SEGMENT_ARC || fabs (segment->rx - radius) > 0.01
              || fabs (segment->ry - radius) > 0.01 || fabs (segment->sweep) < LEAST_TURN)
            continue;
          (*out_arcs)++;
          for (int k = 0; k <= LOOKS; k++)
            {
              CavPoint at
                  = cav_segment_point_at (segment, END_SHARE + (1 - 2 * END_SHARE) * k / LOOKS);
              double share = out / radius;

              n += cav_region_contains (plan->leftover,
                                        CAV_POINT (at.x + share * (at.x - segment->centre.x),
                                                   at.y + share * (at.y - segment->centre.y)));
            }
        }
    }
  return n;
}

static gboolean
uses (const CavPlan *plan, const char *tool)
{
  for (guint i = 0; i < plan->setups->len; i++)
    if (g_str_equal (((const CavSetup *)g_ptr_array_index (plan->setups, i))->tool, tool))
      return TRUE;
  return FALSE;
}

static gboolean
uses_one_of (const CavPlan *plan, const char *tools)
{
  g_auto (GStrv) names = g_strsplit (tools, " ", -1);

  for (char **name = names; *name != NULL; name++)
    if (uses (plan, *name))
      return TRUE;
  return FALSE;
}

static void
check_sound (const CavPlan *plan)
{
  g_autofree char *complaints = section_check (plan);

  g_assert_true (plan->usable);
  g_assert_cmpfloat (plan->gouge, <=, 0.02);
  g_assert_cmpstr (complaints, ==, "");
}

static void
check_made (const CavPlan *plan, const char *tools, double radius)
{
  int n_arcs;

  check_sound (plan);
  g_test_message ("%s: %.2f minutes, %.2f by hand", tools, plan->minutes, plan->minutes_hand);
  g_assert_true (uses_one_of (plan, tools));
  g_assert_cmpint (count_left (plan, radius, &n_arcs), ==, 0);
  g_assert_cmpint (n_arcs, >, 0);
}

/* The curves of the demos that the default shop has a cutter for. */
typedef struct
{
  const char *name;
  const char *tools; /* any of them */
  double radius;
} DemoCurve;

static const DemoCurve demo_curves[] = {
  { "cove-and-bead", "round-over-6.35", 6.35 },
  { "cove-and-bead", "bead-3.2", 3.2 },
  { "cove-and-bead", "cove-9.5 round-nose-9.5", 9.5 },
  { "wide-scoop", "round-over-6.35", 6.35 },
};

static void
check_demo (const char *name, CavEffort effort)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *base = g_strconcat (name, ".cavetto", NULL);
  g_autofree char *file
      = g_test_build_filename (G_TEST_DIST, "..", "..", "docs", "examples", base, NULL);
  g_autoptr (CavProject) project = cav_storage_load_project (file, &error);
  g_autoptr (CavShop) shop = cav_shop_new_default ();
  g_autoptr (CavPlan) plan = NULL;
  int n_curves = 0;

  g_assert_no_error (error);
  cav_project_set_shop (project, shop);
  plan = cav_project_plan (project, effort, &error);
  g_assert_no_error (error);
  for (guint i = 0; i < G_N_ELEMENTS (demo_curves); i++)
    if (g_str_equal (demo_curves[i].name, name))
      {
        check_made (plan, demo_curves[i].tools, demo_curves[i].radius);
        n_curves++;
      }
  /* The demo without a curve has no use for the router. */
  for (guint i = 0; i < plan->setups->len && n_curves == 0; i++)
    g_assert_cmpint (((const CavSetup *)g_ptr_array_index (plan->setups, i))->machine, ==,
                     CAV_MACHINE_SAW);
}

static void
test_demo_quick (gconstpointer name)
{
  check_demo (name, CAV_EFFORT_QUICK);
}

static void
test_demo_thorough (gconstpointer name)
{
  check_demo (name, CAV_EFFORT_THOROUGH);
}

/* Sections with one curve, and the cutters of its radius. */
typedef struct
{
  Section section;
  const char *tools;
  double radius;
} Curve;

static const Curve curves[] = {
  { { "round",
      40,
      22,
      1,
      { { .kind = CAV_CUT_ROUND,
          .anchor = CAV_ANCHOR_CORNER,
          .place = CAV_CORNER_FACE_OUTSIDE,
          .numbers = { [CAV_CUT_WIDTH] = 9.5, [CAV_CUT_DEPTH] = 9.5 } } } },
    "round-over-9.5",
    9.5 },
  { { "cove",
      40,
      22,
      1,
      { { .kind = CAV_CUT_COVE,
          .anchor = CAV_ANCHOR_CORNER,
          .place = CAV_CORNER_FACE_INSIDE,
          .numbers = { [CAV_CUT_WIDTH] = 6.35, [CAV_CUT_DEPTH] = 6.35 } } } },
    "cove-6.35 round-nose-6.35",
    6.35 },
  { { "flute",
      40,
      22,
      1,
      { { .kind = CAV_CUT_GROOVE,
          .anchor = CAV_ANCHOR_SIDE,
          .place = CAV_SIDE_FACE,
          .form = CAV_FORM_ROUND,
          .numbers
          = { [CAV_CUT_POSITION] = 20, [CAV_CUT_WIDTH] = 6.4, [CAV_CUT_DEPTH] = 3.2 } } } },
    "round-nose-3.2",
    3.2 },
};

static void
test_with_cutter (gconstpointer data)
{
  const Curve *curve = data;
  g_autoptr (CavProfile) profile = section_create_profile (&curve->section);
  g_autoptr (CavShop) shop = cav_shop_new_default ();

  for (CavEffort effort = CAV_EFFORT_QUICK; effort <= CAV_EFFORT_THOROUGH; effort++)
    {
      g_autoptr (GError) error = NULL;
      g_autoptr (CavPlan) plan = section_plan (profile, shop, effort, &error);

      g_assert_no_error (error);
      check_made (plan, curve->tools, curve->radius);
    }
}

/* The same with a shop that has the saw and straight cutters alone. */
static void
test_without_cutter (gconstpointer data)
{
  const Curve *curve = data;
  g_autoptr (CavProfile) profile = section_create_profile (&curve->section);
  g_autoptr (CavShop) shop = cav_shop_new_default ();

  shop->coving = FALSE;
  for (guint i = shop->cutters->len; i > 0; i--)
    if (((const CavCutter *)g_ptr_array_index (shop->cutters, i - 1))->family
        != CAV_CUTTER_STRAIGHT)
      g_ptr_array_remove_index (shop->cutters, i - 1);
  for (CavEffort effort = CAV_EFFORT_QUICK; effort <= CAV_EFFORT_THOROUGH; effort++)
    {
      g_autoptr (GError) error = NULL;
      g_autoptr (CavPlan) plan = section_plan (profile, shop, effort, &error);
      int n_arcs;

      g_assert_no_error (error);
      check_sound (plan);
      g_assert_cmpint (count_left (plan, curve->radius, &n_arcs), >, 0);
      g_assert_cmpfloat (plan->leftover_thickness, >, OVER_MOST);
      g_assert_cmpfloat (plan->minutes_hand, >, 0);
    }
}

int
main (int argc, char **argv)
{
  static const char *const demos[] = { "plain-steps", "cove-and-bead", "wide-scoop" };

  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (demos); i++)
    {
      g_autofree char *quick = g_strdup_printf ("/milling/curves/%s/quick", demos[i]);
      g_autofree char *thorough = g_strdup_printf ("/milling/curves/%s/thorough", demos[i]);

      g_test_add_data_func (quick, demos[i], test_demo_quick);
      g_test_add_data_func (thorough, demos[i], test_demo_thorough);
    }
  for (guint i = 0; i < G_N_ELEMENTS (curves); i++)
    {
      g_autofree char *with
          = g_strdup_printf ("/milling/curves/%s/with-cutter", curves[i].section.name);
      g_autofree char *without
          = g_strdup_printf ("/milling/curves/%s/without-cutter", curves[i].section.name);

      g_test_add_data_func (with, &curves[i], test_with_cutter);
      g_test_add_data_func (without, &curves[i], test_without_cutter);
    }
  return g_test_run ();
}
