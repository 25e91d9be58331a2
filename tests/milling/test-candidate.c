/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "milling-rig.h"

#include "milling/cav-placement.h"

/* What the search takes a placement for, against the exact sweep. */

/* A small profile in a corner, so that nothing stands in the way; a pilot may. */
static Rig *
create_rig (CavBlank blank)
{
  CavShop *shop = cav_shop_new_default ();
  const double dovetail[CAV_N_CUTTER_NUMBERS]
      = { [CAV_CUTTER_ANGLE] = 14, [CAV_CUTTER_DIAMETER] = 12.7, [CAV_CUTTER_CUTTING_LENGTH] = 16 };

  cav_shop_add_cutter (shop, cav_cutter_new ("dovetail", CAV_CUTTER_DOVETAIL, dovetail, NULL),
                       NULL);
  return rig_new (blank, cav_region_new_box (0, 0, 1, 1), shop, CAV_EFFORT_QUICK);
}

/* A sweep as rows, cut off at the blank's sides. */
static CavRows *
create_rows (const CavTask *task, const CavSweepRows *sweep)
{
  CavRows *rows = g_new0 (CavRows, 1);
  gint32 width = (gint32)lround (task->blank.width * CAV_MICRONS);
  int n = 0;

  rows->n_rows = task->n_rows;
  rows->first = g_new0 (gint32, task->n_rows + 1);
  rows->spans = g_new (CavSpan, 2 * task->n_rows + 1);
  for (int row = 0; row < task->n_rows; row++)
    {
      rows->first[row] = n;
      for (int i = 0; i < sweep->n_layers && row >= sweep->r0 && row < sweep->r1; i++)
        {
          CavSpan span = cav_sweep_rows_get (sweep, row)[i];

          span.a = MAX (span.a, 0);
          span.b = MIN (span.b, width);
          if (span.b > span.a)
            rows->spans[n++] = span;
        }
    }
  rows->first[task->n_rows] = n;
  return rows;
}

/* Within half a row all across, and the hair that sweeps are grown by. */
static void
assert_as_exact (const Rig *rig, const CavCandidate *c, CavFence fence)
{
  CavSweepSetting setting = rig_get_setting (rig, c, fence);
  g_autoptr (GError) error = NULL;
  g_autoptr (CavRegion) swept = cav_sweep_create_region (&setting, &rig->blank, 0, &error);
  g_autoptr (CavRegion) blank = cav_blank_create_region (&rig->blank);
  g_autoptr (CavRegion) inside = NULL;
  g_autoptr (CavRows) taken = create_rows (rig->task, &c->sweep);
  g_autoptr (CavRows) exact = NULL;
  double tolerance = CAV_ROW_HEIGHT / 2 * rig->blank.width + 0.01 * rig->blank.thickness;

  g_assert_no_error (error);
  inside = cav_region_intersection (swept, blank, NULL);
  exact = cav_rows_new_from_region (inside, rig->task->n_rows);
  g_assert_cmpfloat_with_epsilon (c->area, cav_region_get_area (inside), tolerance);
  g_assert_cmpfloat_with_epsilon (cav_rows_get_area (taken), c->area, 1e-6);
  /* Not just as much, but the same wood. */
  g_assert_cmpfloat_with_epsilon (cav_rows_get_common_area (taken, exact),
                                  cav_rows_get_area (exact), tolerance / 2);
  g_assert_cmpfloat_with_epsilon (c->edge[fence],
                                  setting.machine == CAV_MACHINE_ROUTER
                                      ? setting.fence
                                            - cav_cutter_get_greatest_radius (setting.cutter)
                                      : cav_sweep_get_near_edge (&setting),
                                  1e-9);
}

static int
place_random (const Rig *rig, GRand *rand, CavMachine machine, CavSide down, CavFence fence)
{
  CavTask *task = rig->task;
  int tool, config;
  double reach = cav_placement_get_reach (&rig->blank, down), turn = 0, limit;
  double distance = cav_snap (g_rand_double_range (rand, -2, reach - 2), 0.05);

  do
    tool = g_rand_int_range (rand, 0, (gint32)task->tools->len);
  while ((cav_task_tool (task, tool)->blade != NULL) != (machine != CAV_MACHINE_ROUTER));
  if (machine == CAV_MACHINE_COVE)
    turn = g_rand_double_range (rand, 8, 60);
  else if (machine == CAV_MACHINE_SAW && g_rand_int_range (rand, 0, 3) > 0)
    turn = g_rand_double_range (rand, -45, 45);
  config = cav_task_add_config (task, machine, tool, turn);
  limit = fmin (cav_task_config (task, config)->limit, 15);
  return cav_task_place (task, config, down, fence, distance,
                         cav_snap_down (g_rand_double_range (rand, 0.05, limit), 0.05));
}

static void
test_sweep (void)
{
  static const CavBlank blanks[] = { { 60, 24 }, { 33.35, 18.2 } };
  g_autoptr (GRand) rand = rig_rand_new (42);

  for (guint b = 0; b < G_N_ELEMENTS (blanks); b++)
    {
      g_autoptr (Rig) rig = create_rig (blanks[b]);

      for (int machine = 0; machine < 3; machine++)
        for (int down = 0; down < CAV_N_SIDES; down++)
          for (int fence = 0; fence < 2; fence++)
            {
              int n_placed = 0;

              for (int trial = 0; trial < 40; trial++)
                {
                  int index = place_random (rig, rand, (CavMachine)machine, (CavSide)down, fence);
                  const CavCandidate *c;

                  if (index < 0)
                    continue;
                  n_placed++;
                  c = cav_task_candidate (rig->task, index);
                  g_assert_cmpuint (c->fences, !=, 0);
                  for (int seen = 0; seen < 2; seen++)
                    if (c->fences & (1u << seen))
                      assert_as_exact (rig, c, (CavFence)seen);
                }
              g_test_message ("%s, %s down, fence %d: %d placed",
                              cav_machine_to_string ((CavMachine)machine),
                              cav_side_to_string ((CavSide)down), fence, n_placed);
              /* Wide coves find no room beside the fence where the rail stands on edge. */
              if (machine != CAV_MACHINE_COVE)
                g_assert_cmpint (n_placed, >, 12);
            }
    }
}

/* Crossed blades that do fit. */
static void
test_coves (void)
{
  g_autoptr (Rig) rig = create_rig ((CavBlank){ 90, 80 });
  int n_placed = 0;

  for (int down = 0; down < CAV_N_SIDES; down++)
    for (int fence = 0; fence < 2; fence++)
      for (double angle = 8; angle <= 60; angle += 13)
        for (double height = 0.5; height < 10; height += 3)
          {
            int config = cav_task_add_config (rig->task, CAV_MACHINE_COVE,
                                              rig_find_tool (rig, "rip"), angle);
            int index
                = cav_task_place (rig->task, config, (CavSide)down, (CavFence)fence, 44.4, height);
            const CavCandidate *c = index < 0 ? NULL : cav_task_candidate (rig->task, index);

            for (int seen = 0; seen < 2 && c != NULL; seen++)
              if (c->fences & (1u << seen))
                {
                  assert_as_exact (rig, c, (CavFence)seen);
                  n_placed++;
                }
          }
  g_assert_cmpint (n_placed, >, 150);
}

static void
test_fences (void)
{
  g_autoptr (Rig) even = create_rig ((CavBlank){ 60, 24 });
  g_autoptr (Rig) odd = create_rig ((CavBlank){ 60.02, 24 });
  int rip = rig_find_tool (even, "rip"), nose = rig_find_tool (even, "round-nose-6.35");
  const CavCandidate *c;
  int index;

  /* On the grid from both sides: 60 - 12 - 3.2. */
  index = cav_task_place (even->task, cav_task_add_config (even->task, CAV_MACHINE_SAW, rip, 0),
                          CAV_SIDE_BACK, CAV_FENCE_LOW, 12, 7);
  c = cav_task_candidate (even->task, index);
  g_assert_cmpuint (c->fences, ==, 3);
  g_assert_cmpfloat_with_epsilon (c->fence[CAV_FENCE_HIGH], 44.8, 1e-9);
  g_assert_cmpfloat_with_epsilon (c->middle, 13.6, 1e-9);
  g_assert_true (c->severs);
  /* The same blade set from the other fence is the same placement. */
  g_assert_cmpint (cav_task_place (even->task, c->config, CAV_SIDE_BACK, CAV_FENCE_HIGH, 44.8, 7),
                   ==, index);
  g_assert_cmpint (cav_task_place (even->task, c->config, CAV_SIDE_BACK, CAV_FENCE_LOW, 12, 7), ==,
                   index);
  /* Off the other fence's grid it can be set from one alone. */
  index = cav_task_place (odd->task, cav_task_add_config (odd->task, CAV_MACHINE_SAW, rip, 0),
                          CAV_SIDE_BACK, CAV_FENCE_LOW, 12, 7);
  g_assert_cmpuint (cav_task_candidate (odd->task, index)->fences, ==, 1u << CAV_FENCE_LOW);
  index = cav_task_place (odd->task, cav_task_add_config (odd->task, CAV_MACHINE_SAW, rip, 0),
                          CAV_SIDE_BACK, CAV_FENCE_HIGH, 12, 7);
  g_assert_cmpuint (cav_task_candidate (odd->task, index)->fences, ==, 1u << CAV_FENCE_HIGH);
  /* A blade that leans is seen from the fence that it leans by. */
  index = cav_task_place (even->task, cav_task_add_config (even->task, CAV_MACHINE_SAW, rip, 30),
                          CAV_SIDE_BACK, CAV_FENCE_HIGH, 12, 7);
  c = cav_task_candidate (even->task, index);
  g_assert_cmpuint (c->fences, ==, 1u << CAV_FENCE_HIGH);
  g_assert_cmpfloat_with_epsilon (c->middle, 60 - 12 - 1.6 / cos (RADIANS (30)), 1e-9);
  g_assert_cmpfloat_with_epsilon (c->lean, -tan (RADIANS (30)), 1e-9);
  g_assert_true (c->severs);
  index = cav_task_place (even->task, cav_task_add_config (even->task, CAV_MACHINE_SAW, rip, -30),
                          CAV_SIDE_BACK, CAV_FENCE_LOW, 12, 7);
  g_assert_false (cav_task_candidate (even->task, index)->severs);
  /* A cutter may stand half in the fence and severs nothing. */
  index = cav_task_place (even->task, cav_task_add_config (even->task, CAV_MACHINE_ROUTER, nose, 0),
                          CAV_SIDE_BACK, CAV_FENCE_LOW, 0, 5);
  c = cav_task_candidate (even->task, index);
  g_assert_cmpuint (c->fences, ==, 3);
  g_assert_false (c->severs);
}

/* What is not allowed anywhere, or takes nothing. */
static void
refuse_in (double width)
{
  g_autoptr (Rig) rig = create_rig ((CavBlank){ width, 24 });
  CavTask *task = rig->task;
  int rip = rig_find_tool (rig, "rip");
  const struct
  {
    const char *desc;
    CavMachine machine;
    double turn;
    double distance;
    double height;
    gboolean allowed; /* from the low fence */
  } rows[] = {
    { "no height", CAV_MACHINE_SAW, 0, 12, 0, FALSE },
    { "less than half a step", CAV_MACHINE_SAW, 0, 12, 0.02, FALSE },
    { "one step", CAV_MACHINE_SAW, 0, 12, 0.05, TRUE },
    { "all of the kerf in the fence", CAV_MACHINE_SAW, 0, -3.2, 5, FALSE },
    { "most of it in the fence", CAV_MACHINE_SAW, 0, -3.15, 5, TRUE },
    { "beyond the rail", CAV_MACHINE_SAW, 0, 60.05, 5, FALSE },
    { "half beyond the rail", CAV_MACHINE_SAW, 0, 58, 5, TRUE },
    { "leaning away, in the fence", CAV_MACHINE_SAW, 30, -0.05, 5, FALSE },
    { "leaning away, at the fence", CAV_MACHINE_SAW, 30, 0, 5, TRUE },
    /* The near face runs toward the fence by (h - k sin t) tan t. */
    { "leaning in, end in the fence", CAV_MACHINE_SAW, -30, 1.95, 5, FALSE },
    { "leaning in, end at the fence", CAV_MACHINE_SAW, -30, 2, 5, TRUE },
    { "leaning in, its near face below the table", CAV_MACHINE_SAW, -30, 12, 1.6, FALSE },
    /* Near edge: f less sin a sqrt(h (D - h)) and half the flat: 16.63 at 30 degrees, 4 high. */
    { "cove over the fence", CAV_MACHINE_COVE, 30, 17.1, 4, FALSE },
    { "cove at the fence", CAV_MACHINE_COVE, 30, 17.25, 4, TRUE },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      int config = cav_task_add_config (task, rows[i].machine, rip, rows[i].turn);
      guint before = task->candidates->len;
      int index = cav_task_place (task, config, CAV_SIDE_BACK, CAV_FENCE_LOW, rows[i].distance,
                                  rows[i].height);
      gboolean allowed
          = index >= 0 && (cav_task_candidate (task, index)->fences & (1u << CAV_FENCE_LOW)) != 0;

      g_test_message ("%s", rows[i].desc);
      g_assert_cmpint (allowed, ==, rows[i].allowed);
      /* Asking again gives the same answer and no second candidate. */
      g_assert_cmpint (cav_task_place (task, config, CAV_SIDE_BACK, CAV_FENCE_LOW, rows[i].distance,
                                       rows[i].height),
                       ==, index);
      g_assert_cmpuint (task->candidates->len, ==, before + (index >= 0));
    }
}

/* From one fence alone, too, where the distance from the other is not on the grid. */
static void
test_refused (void)
{
  refuse_in (60);
  refuse_in (60.013);
}

/* A bearing may not stand where the finished rail will be. */
static void
test_pilot (void)
{
  const CavBlank blank = { 60, 24 };
  const struct
  {
    CavSide down;
    CavFence fence;
    CavBox box; /* of the bearing, 6 off its axis on both sides, 8 to 13 above the table */
  } rows[] = {
    { CAV_SIDE_BACK, CAV_FENCE_LOW, { 14, 8, 26, 13 } },
    { CAV_SIDE_FACE, CAV_FENCE_LOW, { 14, 11, 26, 16 } },
    { CAV_SIDE_INSIDE, CAV_FENCE_LOW, { 8, 14, 13, 26 } },
    { CAV_SIDE_OUTSIDE, CAV_FENCE_LOW, { 47, 14, 52, 26 } },
    { CAV_SIDE_BACK, CAV_FENCE_HIGH, { 34, 8, 46, 13 } },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    for (int in_the_way = 0; in_the_way < 2; in_the_way++)
      {
        CavShop *shop = cav_shop_new_default ();
        double y = fmin (rows[i].box.y1, 24);
        /* A patch of profile in the bearing's far corner, or just past it. */
        double off = in_the_way ? -0.3 : 0.1;
        CavRegion *patch
            = cav_region_new_box (rows[i].box.x1 + off, y - 2, rows[i].box.x1 + off + 1, y);

        cav_cutter_set_pilot (cav_shop_find_cutter (shop, "straight-12.7"), 6, 5);
        g_autoptr (Rig) rig = rig_new (blank, patch, shop, CAV_EFFORT_QUICK);
        int config = cav_task_add_config (rig->task, CAV_MACHINE_ROUTER,
                                          rig_find_tool (rig, "straight-12.7"), 0);
        int index = cav_task_place (rig->task, config, rows[i].down, rows[i].fence, 20, 8);

        g_test_message ("%s down, fence %d, in the way: %d", cav_side_to_string (rows[i].down),
                        rows[i].fence, in_the_way);
        g_assert_cmpint (index >= 0, ==, !in_the_way);
        if (index >= 0)
          {
            const CavCandidate *c = cav_task_candidate (rig->task, index);

            g_assert_true (c->has_pilot);
            g_assert_cmpfloat_with_epsilon (c->pilot[0], rows[i].box.x0 * 1000 + 20, 1e-6);
            g_assert_cmpfloat_with_epsilon (c->pilot[1], rows[i].box.x1 * 1000 - 20, 1e-6);
            g_assert_cmpfloat_with_epsilon (c->pilot[2], rows[i].box.y0 / CAV_ROW_HEIGHT, 1.1);
            g_assert_cmpfloat_with_epsilon (c->pilot[3], fmin (rows[i].box.y1, 24) / CAV_ROW_HEIGHT,
                                            1.1);
          }
      }
}

static void
test_fresh (void)
{
  g_autoptr (Rig) rig = create_rig ((CavBlank){ 60, 24 });
  CavTask *task = rig->task;
  int config = cav_task_add_config (task, CAV_MACHINE_SAW, rig_find_tool (rig, "rip"), 0);
  int index;

  g_assert_true (cav_task_is_fresh (task, config, CAV_SIDE_BACK, CAV_FENCE_LOW, 12));
  g_assert_false (cav_task_is_fresh (task, config, CAV_SIDE_BACK, CAV_FENCE_LOW, 12));
  g_assert_true (cav_task_is_fresh (task, config, CAV_SIDE_BACK, CAV_FENCE_LOW, 12.05));
  g_assert_true (cav_task_is_fresh (task, config, CAV_SIDE_BACK, CAV_FENCE_HIGH, 12));
  g_assert_true (cav_task_is_fresh (task, config, CAV_SIDE_FACE, CAV_FENCE_LOW, 12));
  index = cav_task_place (task, config, CAV_SIDE_BACK, CAV_FENCE_LOW, 12, 7);
  g_assert_cmpint (index, ==, (int)task->candidates->len - 1);
  g_assert_cmpint (cav_task_place (task, config, CAV_SIDE_BACK, CAV_FENCE_LOW, 12, 7), ==, index);
  g_assert_cmpint (index, ==, (int)task->candidates->len - 1);
}

/* Names of which many would stand in the same place, through several enlargements. */
static void
test_places (void)
{
  CavPlaces places = { NULL };
  int number = 77;

  g_assert_false (cav_places_find (&places, 5, &number));
  for (int i = 0; i < 3000; i++)
    {
      guint64 name = (guint64)(i % 3 + 1) << 40 | (guint64)(i / 3);

      g_assert_false (cav_places_find (&places, name, &number));
      g_assert_true (cav_places_add (&places, name, i - 1));
      g_assert_false (cav_places_add (&places, name, 9999));
    }
  for (int i = 0; i < 3000; i++)
    {
      g_assert_true (
          cav_places_find (&places, (guint64)(i % 3 + 1) << 40 | (guint64)(i / 3), &number));
      g_assert_cmpint (number, ==, i - 1);
    }
  g_assert_cmpuint (places.n, ==, 3000);
  cav_places_clear (&places);
  g_assert_false (cav_places_find (&places, G_GUINT64_CONSTANT (1) << 40, &number));
}

/* Pieces lie apart and hold what is written there, small or large, before and after rooms join. */
static void
test_room (void)
{
  CavRoom rooms[2] = { { NULL }, { NULL } };
  guint8 *pieces[2][200];

  for (int i = 0; i < 200; i++)
    for (int which = 0; which < 2; which++)
      {
        gsize size = i == 100 ? 100000 : (gsize)(1 + 13 * i);

        pieces[which][i] = cav_room_take (&rooms[which], size);
        g_assert_cmpuint ((gsize)pieces[which][i] % 16, ==, 0);
        memset (pieces[which][i], 2 * i + which, size);
      }
  cav_room_join (&rooms[0], &rooms[1]);
  g_assert_null (rooms[1].blocks);
  for (int i = 0; i < 200; i++)
    memset (cav_room_take (&rooms[0], 300), 0, 300);
  for (int i = 0; i < 200; i++)
    for (int which = 0; which < 2; which++)
      {
        gsize size = i == 100 ? 100000 : (gsize)(1 + 13 * i);

        g_assert_cmpint (pieces[which][i][0], ==, (2 * i + which) & 0xff);
        g_assert_cmpint (pieces[which][i][size - 1], ==, (2 * i + which) & 0xff);
      }
  cav_room_clear (&rooms[0]);
  cav_room_clear (&rooms[1]);
  g_assert_null (rooms[0].blocks);
}

/* One configuration for one way to set up. */
static void
test_configs (void)
{
  g_autoptr (Rig) rig = create_rig ((CavBlank){ 60, 24 });
  CavTask *task = rig->task;
  int rip = rig_find_tool (rig, "rip"), vee = rig_find_tool (rig, "vee-90");
  int upright = cav_task_add_config (task, CAV_MACHINE_SAW, rip, 0);
  int tilted = cav_task_add_config (task, CAV_MACHINE_SAW, rip, 45);
  int cove = cav_task_add_config (task, CAV_MACHINE_COVE, rip, 45);
  int router = cav_task_add_config (task, CAV_MACHINE_ROUTER, vee, 0);

  g_assert_cmpint (cav_task_add_config (task, CAV_MACHINE_SAW, rip, 45), ==, tilted);
  g_assert_cmpint (cav_task_add_config (task, CAV_MACHINE_COVE, rip, 45), ==, cove);
  g_assert_cmpuint (task->configs->len, ==, 4);
  g_assert_cmpfloat_with_epsilon (cav_task_config (task, upright)->limit, 75, 1e-9);
  g_assert_cmpfloat_with_epsilon (cav_task_config (task, tilted)->limit, 75 * M_SQRT1_2, 1e-9);
  g_assert_cmpfloat_with_epsilon (cav_task_config (task, cove)->limit, 75, 1e-9);
  g_assert_cmpfloat_with_epsilon (cav_task_config (task, router)->limit, 12, 1e-9);
  g_assert_cmpfloat_with_epsilon (cav_task_config (task, upright)->minutes, 3, 1e-9);
  g_assert_cmpfloat_with_epsilon (cav_task_config (task, tilted)->minutes, 6, 1e-9);
  g_assert_cmpfloat_with_epsilon (cav_task_config (task, cove)->minutes, 12, 1e-9);
  g_assert_cmpfloat_with_epsilon (cav_task_config (task, router)->minutes, 5, 1e-9);
}

static void
test_snap (void)
{
  g_assert_cmpfloat_with_epsilon (cav_snap_down (0.1499, 0.05), 0.1, 1e-12);
  g_assert_cmpfloat_with_epsilon (cav_snap_down (0.15, 0.05), 0.15, 1e-12);
  g_assert_cmpfloat_with_epsilon (cav_snap_down (-0.01, 0.05), -0.05, 1e-12);
  g_assert_cmpfloat_with_epsilon (cav_snap (0.124, 0.05), 0.1, 1e-12);
  g_assert_cmpfloat_with_epsilon (cav_snap (0.126, 0.05), 0.15, 1e-12);
  g_assert_cmpint (cav_fence_get_side (CAV_SIDE_BACK, CAV_FENCE_LOW), ==, CAV_SIDE_INSIDE);
  g_assert_cmpint (cav_fence_get_side (CAV_SIDE_FACE, CAV_FENCE_HIGH), ==, CAV_SIDE_OUTSIDE);
  g_assert_cmpint (cav_fence_get_side (CAV_SIDE_INSIDE, CAV_FENCE_LOW), ==, CAV_SIDE_BACK);
  g_assert_cmpint (cav_fence_get_side (CAV_SIDE_OUTSIDE, CAV_FENCE_HIGH), ==, CAV_SIDE_FACE);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/milling/candidate/sweep", test_sweep);
  g_test_add_func ("/milling/candidate/coves", test_coves);
  g_test_add_func ("/milling/candidate/fences", test_fences);
  g_test_add_func ("/milling/candidate/refused", test_refused);
  g_test_add_func ("/milling/candidate/pilot", test_pilot);
  g_test_add_func ("/milling/candidate/fresh", test_fresh);
  g_test_add_func ("/milling/candidate/places", test_places);
  g_test_add_func ("/milling/candidate/room", test_room);
  g_test_add_func ("/milling/candidate/configs", test_configs);
  g_test_add_func ("/milling/candidate/snap", test_snap);
  return g_test_run ();
}
