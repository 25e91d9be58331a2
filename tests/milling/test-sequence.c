/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "milling-rig.h"

#include "milling/cav-sequence.h"

/* What sequences come to, by the cost table of the milling model: 4 rails, 3.2 m in all. */

#define PASS (3.2 / 3 + 4 * 0.25)
#define COVE_PASS (3.2 + 4 * 0.25)

/* A blank of 90 x 24, profile far from what is cut, so that only the machine's rules count. */
static Rig *
create_rig (void)
{
  CavShop *shop = cav_shop_new_default ();

  cav_shop_add_blade (shop, cav_blade_new ("other", 254, 2.4), NULL);
  return rig_new ((CavBlank){ 90, 24 }, cav_region_new_box (60, 10, 80, 14), shop,
                  CAV_EFFORT_QUICK);
}

static int
place (Rig *rig,
       CavMachine machine,
       const char *tool,
       double turn,
       CavSide down,
       double distance,
       double height)
{
  int config = cav_task_add_config (rig->task, machine, rig_find_tool (rig, tool), turn);
  int index = cav_task_place (rig->task, config, down, CAV_FENCE_LOW, distance, height);

  g_assert_cmpint (index, >=, 0);
  return index;
}

static void
append (CavSequence *sequence, int candidate)
{
  g_assert_true (
      cav_sequence_insert (sequence, sequence->n, (CavItem){ candidate, CAV_FENCE_LOW }));
}

static void
assert_minutes (
    CavRailStore *store, const Rig *rig, const CavSequence *sequence, double setups, double passes)
{
  CavOutcome outcome;

  cav_sequence_evaluate (store, rig->task, sequence, &outcome);
  g_assert_cmpint (outcome.n_done, ==, sequence->n);
  g_assert_cmpfloat_with_epsilon (outcome.setups, setups, 1e-9);
  g_assert_cmpfloat_with_epsilon (outcome.passes, passes, 1e-9);
  g_assert_cmpfloat_with_epsilon (outcome.minutes,
                                  outcome.setups + outcome.passes + outcome.hand + outcome.over
                                      + outcome.arcs + outcome.order,
                                  1e-9);
  /* Without simulating, from the feeds alone. */
  g_assert_cmpfloat_with_epsilon (cav_sequence_estimate (rig->task, sequence, outcome.feeds),
                                  setups + passes, 1e-9);
}

static void
test_saw (void)
{
  g_autoptr (Rig) rig = create_rig ();
  CavRailStore *store = cav_rail_store_new (rig->task);
  CavSequence sequence = { .n = 0 };

  append (&sequence, place (rig, CAV_MACHINE_SAW, "rip", 0, CAV_SIDE_BACK, 10, 5));
  assert_minutes (store, rig, &sequence, 3, PASS);
  /* The fence is moved. */
  append (&sequence, place (rig, CAV_MACHINE_SAW, "rip", 0, CAV_SIDE_BACK, 20, 5));
  assert_minutes (store, rig, &sequence, 3.5, 2 * PASS);
  /* Other side down, fence and height as they were. */
  append (&sequence, place (rig, CAV_MACHINE_SAW, "rip", 0, CAV_SIDE_FACE, 20, 5));
  assert_minutes (store, rig, &sequence, 4.5, 3 * PASS);
  /* Turned and moved. */
  append (&sequence, place (rig, CAV_MACHINE_SAW, "rip", 0, CAV_SIDE_BACK, 30, 6));
  assert_minutes (store, rig, &sequence, 6, 4 * PASS);
  /* Tilted: another setup with the same blade. */
  append (&sequence, place (rig, CAV_MACHINE_SAW, "rip", 30, CAV_SIDE_BACK, 40, 5));
  assert_minutes (store, rig, &sequence, 12, 5 * PASS);
  /* Another blade. */
  append (&sequence, place (rig, CAV_MACHINE_SAW, "other", 0, CAV_SIDE_BACK, 50, 5));
  assert_minutes (store, rig, &sequence, 12 + 3 + 4, 6 * PASS);
  cav_rail_store_free (store);
}

static void
test_router_and_cove (void)
{
  g_autoptr (Rig) rig = create_rig ();
  CavRailStore *store = cav_rail_store_new (rig->task);
  CavSequence sequence = { .n = 0 };

  append (&sequence, place (rig, CAV_MACHINE_ROUTER, "straight-6.35", 0, CAV_SIDE_BACK, 10, 3));
  assert_minutes (store, rig, &sequence, 5, PASS);
  append (&sequence, place (rig, CAV_MACHINE_SAW, "rip", 0, CAV_SIDE_BACK, 20, 5));
  assert_minutes (store, rig, &sequence, 8, 2 * PASS);
  /* The cutter is still in. */
  append (&sequence, place (rig, CAV_MACHINE_ROUTER, "straight-6.35", 0, CAV_SIDE_BACK, 30, 3));
  assert_minutes (store, rig, &sequence, 10, 3 * PASS);
  append (&sequence, place (rig, CAV_MACHINE_ROUTER, "straight-12.7", 0, CAV_SIDE_BACK, 45, 2));
  assert_minutes (store, rig, &sequence, 15, 4 * PASS);
  /* Across the blade: the setup, scraping, slow feed; no light feed where 0.8 is all. */
  append (&sequence, place (rig, CAV_MACHINE_COVE, "rip", 30, CAV_SIDE_FACE, 45, 0.8));
  assert_minutes (store, rig, &sequence, 15 + 12 + 3.2, 4 * PASS + COVE_PASS);
  /* 3.8 thick: 0.8 last, 3.0 before in two; each is a move. */
  append (&sequence, place (rig, CAV_MACHINE_COVE, "rip", 30, CAV_SIDE_FACE, 45, 4.6));
  assert_minutes (store, rig, &sequence, 30.2 + 0.5 + 2 * 0.5, 4 * PASS + 4 * COVE_PASS);
  cav_rail_store_free (store);
}

/* Bevels before a hollow are priced, not forbidden. */
static void
test_order_price (void)
{
  g_autoptr (Rig) rig = create_rig ();
  CavRailStore *store = cav_rail_store_new (rig->task);
  int cove = place (rig, CAV_MACHINE_COVE, "rip", 30, CAV_SIDE_FACE, 45, 0.8);
  int bevel = place (rig, CAV_MACHINE_SAW, "rip", 30, CAV_SIDE_BACK, 10, 5);
  CavSequence good = { .n = 0 }, bad = { .n = 0 };
  CavOutcome of_good, of_bad;

  append (&good, cove);
  append (&good, bevel);
  append (&bad, bevel);
  append (&bad, cove);
  cav_sequence_evaluate (store, rig->task, &good, &of_good);
  cav_sequence_evaluate (store, rig->task, &bad, &of_bad);
  g_assert_cmpfloat_with_epsilon (of_good.order, 0, 1e-12);
  g_assert_cmpfloat (of_bad.order, >, 0);
  g_assert_true (of_good.rail == of_bad.rail);
  g_assert_cmpfloat_with_epsilon (of_bad.minutes - of_good.minutes, of_bad.order, 1e-9);
  cav_rail_store_free (store);
}

/* What is not legal where it stands is passed over, and settling drops it. */
static void
test_passed_over (void)
{
  g_autoptr (Rig) rig = create_rig ();
  CavRailStore *store = cav_rail_store_new (rig->task);
  int first = place (rig, CAV_MACHINE_SAW, "rip", 0, CAV_SIDE_BACK, 10, 5);
  int banned = place (rig, CAV_MACHINE_SAW, "rip", 0, CAV_SIDE_BACK, 20, 5);
  int last = place (rig, CAV_MACHINE_SAW, "rip", 0, CAV_SIDE_BACK, 30, 5);
  /* Severs a strip of 12 between blade and fence. */
  int trap = place (rig, CAV_MACHINE_SAW, "rip", 0, CAV_SIDE_BACK, 12, 24.6);
  CavSequence sequence = { .n = 0 };
  CavOutcome outcome;

  append (&sequence, first);
  append (&sequence, first);
  append (&sequence, trap);
  append (&sequence, banned);
  append (&sequence, last);
  cav_task_candidate (rig->task, banned)->banned = TRUE;
  cav_sequence_evaluate (store, rig->task, &sequence, &outcome);
  g_assert_cmpint (outcome.n_done, ==, 2);
  g_assert_cmpint (outcome.done[0], ==, 0);
  g_assert_cmpint (outcome.done[1], ==, 4);
  g_assert_cmpint (outcome.feeds[0], ==, 1);
  cav_sequence_settle (&sequence, &outcome);
  g_assert_cmpint (sequence.n, ==, 2);
  g_assert_cmpint (sequence.items[0].candidate, ==, first);
  g_assert_cmpint (sequence.items[1].candidate, ==, last);
  cav_rail_store_free (store);
}

/* The cut that frees the rail of its carrier is put off to the end, wherever it stands. */
static void
test_frees (void)
{
  g_autoptr (Rig) rig = create_rig ();
  CavRailStore *store = cav_rail_store_new (rig->task);
  int carrier = place (rig, CAV_MACHINE_SAW, "rip", 0, CAV_SIDE_BACK, 25, 24.6);
  int groove = place (rig, CAV_MACHINE_SAW, "rip", 0, CAV_SIDE_BACK, 50, 5);
  CavSequence sequence = { .n = 0 };
  CavOutcome outcome;

  append (&sequence, carrier);
  append (&sequence, groove);
  cav_sequence_evaluate (store, rig->task, &sequence, &outcome);
  g_assert_true (outcome.frees);
  g_assert_cmpint (outcome.n_done, ==, 2);
  g_assert_cmpint (outcome.done[0], ==, 1);
  g_assert_cmpint (outcome.done[1], ==, 0);
  g_assert_cmpfloat_with_epsilon (cav_rail_get_standing (store, outcome.rail)->area,
                                  (90 - 28.2) * 24 - 16, 0.3);
  cav_sequence_settle (&sequence, &outcome);
  g_assert_cmpint (sequence.items[1].candidate, ==, carrier);
  cav_rail_store_free (store);
}

/* What falls off beyond the blade may go at any time, but a carrier is there to steady the rail:
 * passes after it is sawn off are dear. */
static void
test_carrier_last (void)
{
  g_autoptr (Rig) rig = create_rig ();
  CavRailStore *store = cav_rail_store_new (rig->task);
  int off = place (rig, CAV_MACHINE_SAW, "rip", 0, CAV_SIDE_BACK, 81, 24.6);
  int groove = place (rig, CAV_MACHINE_SAW, "rip", 0, CAV_SIDE_BACK, 20, 5);
  const struct
  {
    int first, second;
    double carrier, order;
  } rows[] = { { groove, off, 9, 0 }, { off, groove, 9, 6 }, { off, groove, 0, 0 } };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      CavSequence sequence = { .n = 0 };
      CavOutcome outcome;

      rig->task->carrier_outside = rows[i].carrier;
      append (&sequence, rows[i].first);
      append (&sequence, rows[i].second);
      cav_sequence_evaluate (store, rig->task, &sequence, &outcome);
      g_assert_cmpint (outcome.n_done, ==, 2);
      g_assert_cmpfloat_with_epsilon (outcome.order, rows[i].order, 1e-9);
    }
  cav_rail_store_free (store);
}

static void
test_list (void)
{
  CavSequence sequence = { .n = 0 };

  for (int i = 0; i < CAV_SEQUENCE_MAX; i++)
    g_assert_true (cav_sequence_insert (&sequence, 0, (CavItem){ i, CAV_FENCE_LOW }));
  g_assert_false (cav_sequence_insert (&sequence, 0, (CavItem){ 99, CAV_FENCE_LOW }));
  g_assert_cmpint (sequence.items[0].candidate, ==, CAV_SEQUENCE_MAX - 1);
  cav_sequence_remove (&sequence, 1);
  g_assert_cmpint (sequence.n, ==, CAV_SEQUENCE_MAX - 1);
  g_assert_cmpint (sequence.items[0].candidate, ==, CAV_SEQUENCE_MAX - 1);
  g_assert_cmpint (sequence.items[1].candidate, ==, CAV_SEQUENCE_MAX - 3);
  cav_sequence_remove (&sequence, sequence.n - 1);
  g_assert_cmpint (sequence.items[sequence.n - 1].candidate, ==, 1);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/milling/sequence/saw", test_saw);
  g_test_add_func ("/milling/sequence/router-and-cove", test_router_and_cove);
  g_test_add_func ("/milling/sequence/order-price", test_order_price);
  g_test_add_func ("/milling/sequence/passed-over", test_passed_over);
  g_test_add_func ("/milling/sequence/frees", test_frees);
  g_test_add_func ("/milling/sequence/carrier-last", test_carrier_last);
  g_test_add_func ("/milling/sequence/list", test_list);
  return g_test_run ();
}
