/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "milling-rig.h"

#include "milling/cav-proof.h"
#include "milling/cav-rail.h"
#include "sections.h"

/* Rails of the search, kept as rows, against exact regions after the same sweeps. */

static Rig *
create_rig (const char *section, SectionShop shop)
{
  g_autoptr (CavProfile) profile = section_create_profile (section_find (section));
  Rig *rig = rig_new (profile->blank, cav_region_ref (profile->region), section_shop_create (shop),
                      CAV_EFFORT_QUICK);

  cav_reach_collect (rig->task);
  return rig;
}

static CavRegion *
create_sweep (const Rig *rig, const CavCandidate *c, double growth)
{
  CavSweepSetting setting = rig_get_setting (
      rig, c, c->fences & (1u << CAV_FENCE_LOW) ? CAV_FENCE_LOW : CAV_FENCE_HIGH);
  CavRegion *region = cav_sweep_create_region (&setting, &rig->blank, growth, NULL);

  g_assert_nonnull (region);
  return region;
}

/* The piece that the seed stands in. */
static CavRegion *
dup_rail_piece (const CavRegion *region, CavPoint seed)
{
  for (guint i = 0; i < cav_region_get_piece_count (region); i++)
    {
      g_autoptr (CavRegion) piece = cav_region_dup_piece (region, i);

      if (cav_region_contains (piece, seed))
        return g_steal_pointer (&piece);
    }
  g_assert_not_reached ();
}

static void
assert_same_lands (const CavLands *rows, const CavLands *exact)
{
  /* Lands just at 1 mm are the one's and not the other's; where a curve runs out along the side,
   * the middle of a row meets it sooner. */
  g_assert_cmpfloat_with_epsilon (rows->total, exact->total, 1.3);
  if (fabs (rows->total - exact->total) > 0.5 || exact->total <= 0)
    return;
  g_assert_cmpfloat_with_epsilon (rows->first, exact->first, 0.8);
  g_assert_cmpfloat_with_epsilon (rows->last, exact->last, 0.8);
}

/* What was taken off sums is what adding up comes to, to the last bit. */
static void
assert_adds_up (const CavRailStore *store, const CavRail *rail)
{
  const CavStanding *standing = cav_rail_get_standing (store, rail), *again;
  CavRail anew = *rail;

  anew.has_sums = FALSE;
  anew.has_standing = FALSE;
  again = cav_rail_get_standing (store, &anew);
  g_assert_cmpint (anew.sums.area, ==, rail->sums.area);
  g_assert_cmpint (anew.sums.moment_x, ==, rail->sums.moment_x);
  g_assert_cmpint (anew.sums.moment_y, ==, rail->sums.moment_y);
  g_assert_cmpmem (again, sizeof *again, standing, sizeof *standing);
}

static void
test_random (void)
{
  static const char *const names[] = { "rabbet", "eight", "t-slot" };
  g_autoptr (GRand) rand = rig_rand_new (1234);
  int n_steps = 0, n_severed = 0, n_weighed = 0;

  for (int trial = 0; trial < 75; trial++)
    {
      g_autoptr (Rig) rig
          = create_rig (names[trial % 3], trial % 2 ? SECTION_SHOP_SAW : SECTION_SHOP_DEFAULT);
      CavRailStore *store = cav_rail_store_new (rig->task);
      const CavRail *rail = cav_rail_store_get_blank (store), *next;
      CavPoint seed = cav_rail_store_get_seed (store);
      g_autoptr (CavRegion) exact = cav_blank_create_region (&rig->blank);

      g_assert_true (cav_region_contains (rig->profile, seed));
      for (int i = 0; i < 14; i++)
        {
          int index = g_rand_int_range (rand, 0, (gint32)rig->task->candidates->len);
          const CavCandidate *c = cav_task_candidate (rig->task, index);
          double weighed = -1;
          gboolean is_weighed = cav_rail_store_weigh (store, rail, c, &weighed);
          gboolean drops = cav_rail_store_drops (store, rail, c);
          const CavStep *step = cav_rail_store_step (store, rail, c, &next);
          g_autoptr (CavRegion) swept = create_sweep (rig, c, 0);
          g_autoptr (CavRegion) wide = create_sweep (rig, c, 0.003);
          g_autoptr (CavRegion) chips = cav_region_intersection (exact, swept, NULL);
          g_autoptr (CavRegion) rest = NULL;
          double taken = cav_region_get_area (chips), dropped;
          const CavStanding *fast;
          CavStanding standing;

          if (step->n_passes > 0)
            g_assert_cmpfloat_with_epsilon ((double)step->removed, taken, 0.6);
          else
            g_assert_cmpfloat (taken, <, 0.6);
          if (is_weighed)
            g_assert_cmpfloat_with_epsilon (weighed, step->n_passes > 0 ? (double)step->removed : 0,
                                            1e-12);
          n_weighed += is_weighed;
          if (next == NULL)
            continue;
          rest = cav_region_difference (exact, wide, NULL);
          cav_region_unref (exact);
          exact = dup_rail_piece (rest, seed);
          dropped = cav_region_get_area (rest) - cav_region_get_area (exact);
          g_assert_true (drops ? dropped > 0 : dropped < 0.5);
          n_severed += dropped > 5;
          rail = next;
          n_steps++;
          cav_standing_init_region (&standing, exact, &rig->blank);
          fast = cav_rail_get_standing (store, rail);
          assert_adds_up (store, rail);
          g_assert_cmpfloat_with_epsilon (fast->area, standing.area, 1.5);
          g_assert_cmpfloat_with_epsilon (fast->centroid.x, standing.centroid.x, 0.05);
          g_assert_cmpfloat_with_epsilon (fast->centroid.y, standing.centroid.y, 0.05);
          for (int side = 0; side < CAV_N_SIDES; side++)
            assert_same_lands (&fast->lands[side], &standing.lands[side]);
        }
      cav_rail_store_free (store);
    }
  g_test_message ("%d steps, %d of them severed", n_steps, n_severed);
  g_assert_cmpint (n_steps, >, 200);
  g_assert_cmpint (n_severed, >, 3);
  g_assert_cmpint (n_weighed, >, 400);
}

/* Sweeps commute: a rail is what was taken, in whatever order. */
static void
test_order (void)
{
  g_autoptr (Rig) rig = rig_new ((CavBlank){ 60, 24 }, cav_region_new_box (0, 20, 60, 24),
                                 cav_shop_new_default (), CAV_EFFORT_QUICK);
  int saw = cav_task_add_config (rig->task, CAV_MACHINE_SAW, rig_find_tool (rig, "rip"), 0);
  int a = cav_task_place (rig->task, saw, CAV_SIDE_BACK, CAV_FENCE_LOW, 10, 8);
  int b = cav_task_place (rig->task, saw, CAV_SIDE_BACK, CAV_FENCE_LOW, 30, 12);
  CavRailStore *store = cav_rail_store_new (rig->task);
  const CavRail *blank = cav_rail_store_get_blank (store), *one, *two, *other, *same;

  cav_rail_store_step (store, blank, cav_task_candidate (rig->task, a), &one);
  cav_rail_store_step (store, one, cav_task_candidate (rig->task, b), &two);
  cav_rail_store_step (store, blank, cav_task_candidate (rig->task, b), &other);
  cav_rail_store_step (store, other, cav_task_candidate (rig->task, a), &same);
  g_assert_true (two == same);
  g_assert_true (one != other);
  g_assert_cmpfloat_with_epsilon (cav_rail_get_standing (store, two)->area, 60 * 24 - 3.2 * 20,
                                  0.3);
  g_assert_cmpuint (cav_rail_store_count_steps (store), ==, 4);
  /* What is there already is not worked out again. */
  cav_rail_store_step (store, blank, cav_task_candidate (rig->task, a), &one);
  g_assert_cmpuint (cav_rail_store_count_steps (store), ==, 4);
  /* The same once more takes nothing. */
  cav_rail_store_step (store, two, cav_task_candidate (rig->task, a), &one);
  g_assert_null (one);
  /* Where no fence is legal, a look still tells what would be left. */
  for (int fence = 0; fence < 2; fence++)
    cav_rail_store_forbid (store, other->key, cav_task_candidate (rig->task, a), (CavFence)fence);
  cav_rail_store_step (store, other, cav_task_candidate (rig->task, a), &one);
  g_assert_null (one);
  cav_rail_store_look (store, other, cav_task_candidate (rig->task, a), &one);
  g_assert_true (one == two);
  cav_rail_store_free (store);
}

/* What the proof refused is not done again from that fence, on that rail. */
static void
test_forbid (void)
{
  g_autoptr (Rig) rig = rig_new ((CavBlank){ 60, 24 }, cav_region_new_box (0, 20, 60, 24),
                                 cav_shop_new_default (), CAV_EFFORT_QUICK);
  int saw = cav_task_add_config (rig->task, CAV_MACHINE_SAW, rig_find_tool (rig, "rip"), 0);
  int a = cav_task_place (rig->task, saw, CAV_SIDE_BACK, CAV_FENCE_LOW, 10, 8);
  int b = cav_task_place (rig->task, saw, CAV_SIDE_BACK, CAV_FENCE_LOW, 30, 12);
  const CavCandidate *c = cav_task_candidate (rig->task, a);
  CavRailStore *store = cav_rail_store_new (rig->task);
  const CavRail *blank = cav_rail_store_get_blank (store), *next, *other;

  g_assert_cmpint (cav_rail_store_step (store, blank, c, &next)->fences, ==, 3);
  cav_rail_store_forbid (store, blank->key, c, CAV_FENCE_LOW);
  g_assert_cmpint (cav_rail_store_step (store, blank, c, &next)->fences, ==, 1 << CAV_FENCE_HIGH);
  g_assert_nonnull (next);
  cav_rail_store_forbid (store, blank->key, c, CAV_FENCE_HIGH);
  cav_rail_store_step (store, blank, c, &next);
  g_assert_null (next);
  cav_rail_store_step (store, blank, cav_task_candidate (rig->task, b), &other);
  g_assert_cmpint (cav_rail_store_step (store, other, c, &next)->fences, ==, 3);
  cav_rail_store_free (store);
}

/* Which fences a cut that severs can be set from, in a blank of 80 x 20. */
static void
test_sever (void)
{
  const struct
  {
    const char *desc;
    double tilt;
    double distance;
    CavBox profile;
    guint fences;
    guint frees;
  } rows[] = {
    { "strip on the far side", 0, 60, { 0, 0, 40, 20 }, 1u << CAV_FENCE_LOW, 0 },
    { "rail on the far side", 0, 25, { 40, 0, 80, 20 }, 3, 1u << CAV_FENCE_LOW },
    { "carrier of less than 20", 0, 19.95, { 40, 0, 80, 20 }, 1u << CAV_FENCE_HIGH, 0 },
    { "dust", 0, 76.6, { 0, 0, 40, 20 }, 3, 0 },
    { "leaning away", 10, 60, { 0, 0, 40, 20 }, 1u << CAV_FENCE_LOW, 0 },
    { "leaning in", -10, 60, { 0, 0, 40, 20 }, 0, 0 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      CavBox box = rows[i].profile;
      g_autoptr (Rig) rig
          = rig_new ((CavBlank){ 80, 20 }, cav_region_new_box (box.x0, box.y0, box.x1, box.y1),
                     cav_shop_new_default (), CAV_EFFORT_QUICK);
      int saw = cav_task_add_config (rig->task, CAV_MACHINE_SAW, rig_find_tool (rig, "rip"),
                                     rows[i].tilt);
      int index
          = cav_task_place (rig->task, saw, CAV_SIDE_BACK, CAV_FENCE_LOW, rows[i].distance, 20.6);
      CavRailStore *store = cav_rail_store_new (rig->task);
      const CavRail *next;
      const CavStep *step = cav_rail_store_step (store, cav_rail_store_get_blank (store),
                                                 cav_task_candidate (rig->task, index), &next);

      g_test_message ("%s", rows[i].desc);
      g_assert_cmpuint (step->fences, ==, rows[i].fences);
      g_assert_cmpuint (step->frees, ==, rows[i].frees);
      cav_rail_store_free (store);
    }
}

/* Feeds that a pass takes: by bite, by layer, across the blade with a light one last. */
static void
test_feeds (void)
{
  CavLimits limits;

  cav_limits_init_usual (&limits);
  g_assert_cmpint (cav_count_cove_feeds (&limits, 0.4), ==, 1);
  g_assert_cmpint (cav_count_cove_feeds (&limits, 0.8), ==, 1);
  g_assert_cmpint (cav_count_cove_feeds (&limits, 0.85), ==, 2);
  g_assert_cmpint (cav_count_cove_feeds (&limits, 2.4), ==, 2);
  g_assert_cmpint (cav_count_cove_feeds (&limits, 2.45), ==, 3);
  g_assert_cmpint (cav_count_cove_feeds (&limits, 10.4), ==, 7);
}

/* Hand work of the blank as it is: all of the waste, all of the outline that is not the blank's;
 * and the heavy price of what stands beyond the limit. */
static void
test_hand (void)
{
  const CavBlank blank = { 60, 24 };
  const CavBox cut = { 40, 14, 61, 25 };
  g_autoptr (Rig) rig
      = rig_new (blank, rig_box_less (blank, &cut, 1), cav_shop_new_default (), CAV_EFFORT_QUICK);
  const CavRates *rates = &rig->shop->rates;
  CavRailStore *store = cav_rail_store_new (rig->task);
  double hand, over;

  cav_rail_get_hand (store, cav_rail_store_get_blank (store), &hand, &over);
  g_assert_cmpfloat_with_epsilon (hand, 3.2 * (rates->hand_volume * 200 + rates->hand_surface * 30),
                                  0.3);
  g_assert_cmpfloat (over, >, 25);
  cav_rail_store_free (store);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/milling/rail/random", test_random);
  g_test_add_func ("/milling/rail/order", test_order);
  g_test_add_func ("/milling/rail/forbid", test_forbid);
  g_test_add_func ("/milling/rail/sever", test_sever);
  g_test_add_func ("/milling/rail/feeds", test_feeds);
  g_test_add_func ("/milling/rail/hand", test_hand);
  return g_test_run ();
}
