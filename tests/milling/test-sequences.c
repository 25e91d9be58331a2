/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "sections.h"

#include <math.h>

/*
 * Milling sequences that people published, as cases: the section (where the source leaves a size
 * out it is completed, and the comment says so), a shop with the tools that are named, the number
 * of setups that the source needs, and those rules of order that bear on it and on which the
 * sources agree:
 *
 * - a rail always rides on sides that still stand: the checker asks that of every plan;
 * - deep square grooves come before the cove, while the blank is full;
 * - the cove comes before the bevels that take the flat back or the square edges away;
 * - of bevels at one tilt those with the rail on edge come first, while its edges are square;
 * - the saw hogs first, the router finishes;
 * - the last pass of a coved hollow is a light one.
 *
 * Inches are turned into millimetres exactly.
 */

#define INCH 25.4
#define MAX_TOOLS 4
#define MAX_ORDERS 3
#define LIGHT 0.8
/* Less than this taken from a zone is the neighbour's kerf. */
#define TAKES 0.5

typedef enum
{
  ANY_PASS,
  SAW_PASS,
  COVE_PASS,
  ROUTER_PASS,
  TILTED_ON_EDGE,
  TILTED_FLAT,
} PassKind;

typedef struct
{
  PassKind kind;
  double zone[4]; /* x0, y0, x1, y1; all 0: anywhere */
} Match;

/* All passes of the one kind stand before all of the other. */
typedef struct
{
  const char *desc; /* NULL ends the list */
  Match first;
  Match then;
} Order;

typedef struct
{
  const char *name;
  guint setups; /* that the source needs */
  Section section;
  double kerfs[MAX_TOOLS]; /* the blade, then grooving heads */
  const char *cutters[MAX_TOOLS];
  Order orders[MAX_ORDERS];
} Sequence;

#define CORNER_CUT(kind_, corner_, w_, d_)                                                         \
  {                                                                                                \
    .kind = CAV_CUT_##kind_, .anchor = CAV_ANCHOR_CORNER, .place = CAV_CORNER_##corner_,           \
    .numbers                                                                                       \
        = { [CAV_CUT_WIDTH] = (w_),                                                                \
            [CAV_CUT_DEPTH] = (d_) }                                                               \
  }
#define FACE_CUT(kind_, form_, position_, w_, d_)                                                  \
  {                                                                                                \
    .kind = CAV_CUT_##kind_, .anchor = CAV_ANCHOR_SIDE, .place = CAV_SIDE_FACE,                    \
    .form = CAV_FORM_##form_,                                                                      \
    .numbers                                                                                       \
        = { [CAV_CUT_POSITION] = (position_),                                                      \
            [CAV_CUT_WIDTH] = (w_),                                                                \
            [CAV_CUT_DEPTH] = (d_) }                                                               \
  }

/* clang-format off */
static const Sequence sequences[] = {
  /* Cove and dentil frame, Woodworker's Journal 33-6 (2009), pp. 24-25: groove of 3/4 x 3/4 along
   * the face, cove, bevel of 35.5 degrees beside the groove, rabbet of 1/4 x 1/2 by a grooving
   * head. 1-1/4 thick; width, place and size of the cove completed. */
  { "cove-and-dentil", 4,
    { "", 3.5 * INCH, 1.25 * INCH, 4,
      { FACE_CUT (GROOVE, FLAT, 24.025, 0.75 * INCH, 0.75 * INCH),
        FACE_CUT (COVE, PLAIN, 58, 1.5 * INCH, 0.375 * INCH),
        CORNER_CUT (CHAMFER, FACE_INSIDE, 9, 12.6176),
        CORNER_CUT (RABBET, BACK_INSIDE, 0.25 * INCH, 0.5 * INCH) } },
    { 0.125 * INCH, 0.75 * INCH }, { NULL },
    { { "groove before cove", { SAW_PASS, { 16, 14, 32, 32 } }, { COVE_PASS, { 0 } } } } },
  /* Cove molding of four bevels, ShopNotes 83, pp. 42-45: cove, then four bevels at one tilt, two
   * of them upright. Sizes completed. */
  { "four-bevels", 2,
    { "", 4 * INCH, 1 * INCH, 5,
      { FACE_CUT (COVE, PLAIN, 2 * INCH, 2.5 * INCH, 0.5 * INCH),
        CORNER_CUT (CHAMFER, FACE_INSIDE, 6, 6), CORNER_CUT (CHAMFER, FACE_OUTSIDE, 6, 6),
        CORNER_CUT (CHAMFER, BACK_INSIDE, 12, 12), CORNER_CUT (CHAMFER, BACK_OUTSIDE, 12, 12) } },
    { 3.2 }, { NULL },
    { { "cove before bevels", { COVE_PASS, { 0 } }, { TILTED_FLAT, { 0 } } },
      { "upright bevels first", { TILTED_ON_EDGE, { 0 } }, { TILTED_FLAT, { 0 } } } } },
  /* Cabinet crown, American Woodworker 132 (2007), J. English: cove fed at 30 degrees, four cuts
   * at a tilt of 30. The cove's depth and the bevels' sizes completed: 1/2 deep it is 58.13 wide
   * with a blade of 10 in and 3.2. */
  { "cabinet-crown", 2,
    { "", 3.75 * INCH, 1 * INCH, 5,
      { FACE_CUT (COVE, PLAIN, 47.6, 58.1, 0.5 * INCH),
        CORNER_CUT (CHAMFER, FACE_INSIDE, 5, 2.88675),
        CORNER_CUT (CHAMFER, FACE_OUTSIDE, 5, 2.88675),
        CORNER_CUT (CHAMFER, BACK_INSIDE, 8, 13.8564),
        CORNER_CUT (CHAMFER, BACK_OUTSIDE, 8, 13.8564) } },
    { 3.2 }, { NULL },
    { { "cove before bevels", { COVE_PASS, { 0 } }, { TILTED_FLAT, { 0 } } } } },
  /* Cove molding, Popular Woodworking 117 (2000), pp. 36-38: stock of 1 x 4-1/4, cove, two front
   * bevels of about 45 degrees, two back bevels of 45. Sizes of cove and bevels completed. */
  { "shop-cove", 3,
    { "", 4.25 * INCH, 1 * INCH, 5,
      { FACE_CUT (COVE, PLAIN, 2.125 * INCH, 3 * INCH, 0.625 * INCH),
        CORNER_CUT (CHAMFER, FACE_INSIDE, 5, 5), CORNER_CUT (CHAMFER, FACE_OUTSIDE, 5, 5),
        CORNER_CUT (CHAMFER, BACK_INSIDE, 14, 14), CORNER_CUT (CHAMFER, BACK_OUTSIDE, 14, 14) } },
    { 3.2 }, { NULL },
    { { "cove before bevels", { COVE_PASS, { 0 } }, { TILTED_FLAT, { 0 } } } } },
  /* Window molding, a hobby wiki: 3/4 poplar; a sawn rabbet of 3/16 to spare the cutter, a cove of
   * 1/4 with an upright of 1/16, a round-over of 1/8, one of 1/4. Width and the corners of the
   * round-overs completed. */
  { "window-molding", 4,
    { "", 2.5 * INCH, 0.75 * INCH, 4,
      { CORNER_CUT (RABBET, FACE_OUTSIDE, 0.25 * INCH, 0.0625 * INCH),
        { .kind = CAV_CUT_COVE, .anchor = CAV_ANCHOR_CORNER, .place = CAV_CORNER_FACE_OUTSIDE,
          .numbers = { [CAV_CUT_WIDTH] = 0.25 * INCH, [CAV_CUT_DEPTH] = 0.25 * INCH,
                       [CAV_CUT_SHIFT_Y] = 0.0625 * INCH } },
        CORNER_CUT (ROUND, BACK_OUTSIDE, 3.2, 3.2), CORNER_CUT (ROUND, FACE_INSIDE, 6.35, 6.35) } },
    { 3.2 }, { "cove-6.35", "round-over-3.2", "round-over-6.35" },
    { { "saw hogs first", { SAW_PASS, { 55, 10, 63.5, 19.05 } },
        { ROUTER_PASS, { 55, 10, 63.5, 19.05 } } } } },
  /* Pine frame, a forum's showcase: 3/4 stock about 4 in wide, a channel of 3/4 x 1/4, a round-over
   * of 1/4 at the edge, a rabbet of 1/4 x 1/4 by the straight cutter of 3/4. */
  { "pine-frame", 3,
    { "", 4 * INCH, 0.75 * INCH, 3,
      { FACE_CUT (GROOVE, FLAT, 40, 0.75 * INCH, 0.25 * INCH),
        CORNER_CUT (ROUND, FACE_OUTSIDE, 6.35, 6.35),
        CORNER_CUT (RABBET, BACK_INSIDE, 0.25 * INCH, 0.25 * INCH) } },
    { 0 }, { "straight-19.05", "round-over-6.35" }, { { NULL, { 0 }, { 0 } } } },
  /* Walnut frame, J. Eugster (2014): 4/4 stock 2-5/8 wide; both edges shaped on the router table,
   * one side cut at an angle, the middle coved on the saw. The edges are taken as round-overs of
   * 3.2, the other sizes completed. The source bevels before it coves, so no order is asked. */
  { "walnut-frame", 3,
    { "", 2.625 * INCH, 1 * INCH, 4,
      { CORNER_CUT (ROUND, FACE_INSIDE, 3.2, 3.2), CORNER_CUT (ROUND, FACE_OUTSIDE, 3.2, 3.2),
        CORNER_CUT (CHAMFER, BACK_OUTSIDE, 10, 10),
        FACE_CUT (COVE, PLAIN, 1.3125 * INCH, 45, 7) } },
    { 3.2 }, { "round-over-3.2" },
    { { NULL, { 0 }, { 0 } } } },
  /* Frame as a school exercise: 3/4 x 2-1/2, one rabbet of 1/4 x 1/4 by a grooving head at a
   * sacrificial fence. */
  { "school-frame", 1,
    { "", 2.5 * INCH, 0.75 * INCH, 1,
      { CORNER_CUT (RABBET, BACK_INSIDE, 0.25 * INCH, 0.25 * INCH) } },
    { 0.125 * INCH, 0.5 * INCH }, { NULL }, { { NULL, { 0 }, { 0 } } } },
};
/* clang-format on */

static CavShop *
create_shop (const Sequence *sequence)
{
  g_autoptr (CavShop) stock = cav_shop_new_default ();
  g_autoptr (GError) error = NULL;
  CavShop *shop = cav_shop_new ();

  shop->has_saw = sequence->kerfs[0] > 0;
  shop->has_router = sequence->cutters[0] != NULL;
  for (guint i = 0; i < MAX_TOOLS && sequence->kerfs[i] > 0; i++)
    {
      g_autofree char *id = g_strdup_printf (i == 0 ? "blade" : "groove-%u", i);

      cav_shop_add_blade (shop, cav_blade_new (id, i == 0 ? 254.0 : 203.2, sequence->kerfs[i]),
                          &error);
      g_assert_no_error (error);
    }
  for (guint i = 0; i < MAX_TOOLS && sequence->cutters[i] != NULL; i++)
    {
      const CavCutter *cutter = cav_shop_find_cutter (stock, sequence->cutters[i]);

      g_assert_nonnull (cutter);
      cav_shop_add_cutter (shop, cav_cutter_copy (cutter), &error);
      g_assert_no_error (error);
    }
  return shop;
}

static gboolean
is_kind (const CavSetup *setup, const CavPass *pass, PassKind kind)
{
  gboolean tilted = setup->machine == CAV_MACHINE_SAW && fabs (setup->tilt) > 0.01;
  gboolean on_edge = pass->down == CAV_SIDE_INSIDE || pass->down == CAV_SIDE_OUTSIDE;

  switch (kind)
    {
    case SAW_PASS:
      return setup->machine == CAV_MACHINE_SAW;
    case COVE_PASS:
      return setup->machine == CAV_MACHINE_COVE;
    case ROUTER_PASS:
      return setup->machine == CAV_MACHINE_ROUTER;
    case TILTED_ON_EDGE:
      return tilted && on_edge;
    case TILTED_FLAT:
      return tilted && !on_edge;
    case ANY_PASS:
    default:
      return TRUE;
    }
}

/* Zones are given in the blank as drawn; the plan's has the carrier too. */
static gboolean
takes_from (const CavPlan *plan, const CavPass *pass, const double *zone)
{
  double shift = plan->carrier_inside;
  g_autoptr (CavRegion) box
      = cav_region_new_box (zone[0] + shift, zone[1], zone[2] + shift, zone[3]);
  g_autoptr (CavRegion) before = cav_region_intersection (pass->before, box, NULL);
  g_autoptr (CavRegion) after = cav_region_intersection (pass->after, box, NULL);

  g_assert_nonnull (before);
  g_assert_nonnull (after);
  return cav_region_get_area (before) - cav_region_get_area (after) > TAKES;
}

/* Places of the first and the last pass that match, counted from 1; 0 where there is none. */
static void
find_passes (const CavPlan *plan, const Match *match, guint *out_first, guint *out_last)
{
  gboolean anywhere = match->zone[2] <= 0;
  guint number = 0;

  *out_first = 0;
  *out_last = 0;
  for (guint s = 0; s < plan->setups->len; s++)
    {
      const CavSetup *setup = g_ptr_array_index (plan->setups, s);

      for (guint p = 0; p < setup->passes->len; p++)
        {
          const CavPass *pass = g_ptr_array_index (setup->passes, p);

          number++;
          if (!is_kind (setup, pass, match->kind)
              || !(anywhere || takes_from (plan, pass, match->zone)))
            continue;
          if (*out_first == 0)
            *out_first = number;
          *out_last = number;
        }
    }
}

static void
assert_orders (const Sequence *sequence, const CavPlan *plan)
{
  for (guint i = 0; i < MAX_ORDERS && sequence->orders[i].desc != NULL; i++)
    {
      const Order *order = &sequence->orders[i];
      guint first;
      guint last;
      guint then_first;
      guint then_last;

      find_passes (plan, &order->first, &first, &last);
      find_passes (plan, &order->then, &then_first, &then_last);
      g_test_message ("%s: passes %u to %u, then %u to %u", order->desc, first, last, then_first,
                      then_last);
      if (last > 0 && then_first > 0)
        g_assert_cmpuint (last, <, then_first);
    }
}

/* The last pass in each coving setup takes a layer of 0.8 at most. */
static void
assert_light (const CavPlan *plan)
{
  g_autoptr (CheckPlan) check = check_plan_from_plan (plan);
  g_autoptr (CheckReport) report = check_plan_run (check);
  guint number = 0;

  for (guint s = 0; s < plan->setups->len; s++)
    {
      const CavSetup *setup = g_ptr_array_index (plan->setups, s);

      number += setup->passes->len;
      if (setup->machine != CAV_MACHINE_COVE)
        continue;
      g_assert_cmpuint (report->passes->len, >=, number);
      g_assert_cmpfloat (g_array_index (report->passes, CheckPassFigures, number - 1).layer, <=,
                         LIGHT + 0.02);
    }
}

static void
test_sequence (gconstpointer data)
{
  const Sequence *sequence = data;
  g_autoptr (GError) error = NULL;
  g_autoptr (CavProfile) profile = section_create_profile (&sequence->section);
  g_autoptr (CavShop) shop = create_shop (sequence);
  g_autoptr (CavPlan) plan = section_plan (profile, shop, CAV_EFFORT_THOROUGH, &error);

  g_assert_no_error (error);
  g_autofree char *text = section_check (plan);

  g_test_message ("%.2f minutes, %u setups where the source has %u, %u passes, leftover %.2f mm²",
                  plan->minutes, plan->setups->len, sequence->setups,
                  cav_plan_get_pass_count (plan), plan->leftover_area);
  g_assert_cmpstr (text, ==, "");
  g_assert_cmpuint (plan->places->len, ==, 0);
  g_assert_cmpuint (plan->setups->len, <=, sequence->setups);
  assert_orders (sequence, plan);
  assert_light (plan);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (sequences); i++)
    {
      g_autofree char *path = g_strdup_printf ("/milling/sequences/%s", sequences[i].name);

      g_test_add_data_func (path, &sequences[i], test_sequence);
    }
  return g_test_run ();
}
