/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "milling-rig.h"

#include "milling/cav-plan-private.h"
#include "milling/cav-proof.h"

/*
 * Each rule of the milling model broken, with the word that the proof has for it, beside a twin
 * that differs in one figure and is legal. A case is a few passes; all but the last must be legal.
 */

#define MOST_CUTS 3
#define MOST_PASSES 3

typedef struct
{
  CavMachine machine;
  const char *tool; /* NULL ends the list */
  double turn;
  CavSide down;
  CavSide against;
  double fence;
  double height;
} Pass;

typedef struct
{
  const char *desc;
  const char *rule; /* NULL: legal */
  CavBlank blank;
  CavBox cuts[MOST_CUTS]; /* out of the blank, to the profile */
  CavPoint seed;
  Pass passes[MOST_PASSES];
} Case;

#define SAW(down, against, fence, height)                                                          \
  {                                                                                                \
    CAV_MACHINE_SAW, "rip", 0, CAV_SIDE_##down, CAV_SIDE_##against, fence, height                  \
  }
#define TILTED(tilt, down, against, fence, height)                                                 \
  {                                                                                                \
    CAV_MACHINE_SAW, "rip", tilt, CAV_SIDE_##down, CAV_SIDE_##against, fence, height               \
  }
#define COVE(angle, down, against, fence, height)                                                  \
  {                                                                                                \
    CAV_MACHINE_COVE, "rip", angle, CAV_SIDE_##down, CAV_SIDE_##against, fence, height             \
  }
#define ROUTER(tool, down, against, fence, height)                                                 \
  {                                                                                                \
    CAV_MACHINE_ROUTER, tool, 0, CAV_SIDE_##down, CAV_SIDE_##against, fence, height                \
  }

/* clang-format off */
static const Case cases[] = {
  /* Rule 1: a groove of 3.2 x 6, entered by 0.02 at most. */
  { "kerf in its groove", NULL, { 60, 30 }, { { 20, 24, 23.2, 31 } }, { 40, 10 },
    { SAW (FACE, INSIDE, 20, 6) } },
  { "0.02 too high", NULL, { 60, 30 }, { { 20, 24, 23.2, 31 } }, { 40, 10 },
    { SAW (FACE, INSIDE, 20, 6.0199) } },
  { "0.03 too high", "gouge", { 60, 30 }, { { 20, 24, 23.2, 31 } }, { 40, 10 },
    { SAW (FACE, INSIDE, 20, 6.03) } },
  { "0.03 aside", "gouge", { 60, 30 }, { { 20, 24, 23.2, 31 } }, { 40, 10 },
    { SAW (FACE, INSIDE, 20.03, 6) } },
  { "corner cut off", "gouge", { 60, 30 }, { { 40, 20, 61, 31 } }, { 20, 10 },
    { TILTED (45, FACE, INSIDE, 25, 15) } },
  /* Rule 2. */
  { "5.3 mm of table left", NULL, { 8.5, 30 }, { { -1, -1, 3.2, 10 } }, { 6, 20 },
    { SAW (BACK, INSIDE, 0, 10) } },
  { "4.8 mm of table left", "support after", { 8, 30 }, { { -1, -1, 3.2, 10 } }, { 6, 20 },
    { SAW (BACK, INSIDE, 0, 10) } },
  { "stands on 5.5", NULL, { 5.5, 12 }, { { -1, -1, 0.4, 1 } }, { 3, 5 },
    { SAW (BACK, INSIDE, -2.8, 1) } },
  { "stands on 4.5", "support before", { 4.5, 12 }, { { -1, -1, 0.4, 1 } }, { 3, 5 },
    { SAW (BACK, INSIDE, -2.8, 1) } },
  /* Rule 3: a tall rail on a narrow foot that has lost what touched the fence up there. */
  { "fence below the centroid on a narrow foot", "support before", { 12, 40 },
    { { -1, -1, 3.2, 32 }, { 6, 38, 9.2, 41 } }, { 9, 20 },
    { SAW (BACK, INSIDE, 0, 20), SAW (BACK, INSIDE, 0, 32), SAW (FACE, INSIDE, 6, 2) } },
  { "the same on a wide foot", NULL, { 24, 40 },
    { { -1, -1, 3.2, 32 }, { 6, 38, 9.2, 41 } }, { 9, 20 },
    { SAW (BACK, INSIDE, 0, 20), SAW (BACK, INSIDE, 0, 32), SAW (FACE, INSIDE, 6, 2) } },
  /* Rule 4. */
  { "strip falls beyond the blade", NULL, { 60, 30 }, { { 40, -1, 61, 31 } }, { 20, 15 },
    { SAW (FACE, INSIDE, 40, 20), SAW (BACK, INSIDE, 40, 20) } },
  { "strip between blade and fence", "severed piece", { 60, 30 }, { { 40, -1, 61, 31 } },
    { 20, 15 }, { SAW (FACE, OUTSIDE, 16.8, 20), SAW (BACK, OUTSIDE, 16.8, 20) } },
  { "less than 20 mm to the fence", "severed piece", { 60, 30 }, { { 19.5, -1, 61, 31 } },
    { 10, 15 }, { SAW (FACE, INSIDE, 19.5, 20), SAW (BACK, INSIDE, 19.5, 20) } },
  { "20 mm to the fence", NULL, { 60, 30 }, { { 20, -1, 61, 31 } },
    { 10, 15 }, { SAW (FACE, INSIDE, 20, 20), SAW (BACK, INSIDE, 20, 20) } },
  { "a cutter severs", "severed piece", { 60, 30 }, { { 40, -1, 61, 31 } }, { 20, 15 },
    { SAW (FACE, INSIDE, 40, 25), ROUTER ("straight-6.35", BACK, INSIDE, 43.175, 5) } },
  { "a blade leaning toward the fence severs", "severed piece", { 60, 20 },
    { { 30, -1, 61, 21 } }, { 10, 10 }, { TILTED (-10, BACK, INSIDE, 45, 21) } },
  { "a blade leaning away severs", NULL, { 60, 20 },
    { { 44, -1, 61, 21 } }, { 10, 10 }, { TILTED (10, BACK, INSIDE, 45, 21) } },
  /* Freed from a carrier of 25 on the inside; then it was the last pass. */
  { "rail falls free of its carrier", NULL, { 90, 22 }, { { -1, -1, 28.2, 23 } }, { 60, 10 },
    { SAW (BACK, INSIDE, 25, 22.6) } },
  { "carrier too narrow", "severed piece", { 85, 22 }, { { -1, -1, 22.2, 23 } }, { 60, 10 },
    { SAW (BACK, INSIDE, 19, 22.6) } },
  { "a pass after the rail was freed", "freed", { 90, 22 }, { { -1, -1, 28.2, 23 } }, { 60, 10 },
    { SAW (BACK, INSIDE, 25, 22.6), SAW (BACK, OUTSIDE, 61.8, 2) } },
  { "the profile itself comes off", "profile", { 60, 30 }, { { 40, -1, 61, 31 } }, { 41, 15 },
    { SAW (FACE, INSIDE, 40, 20) } },
  /* Rule 5. */
  { "more beyond the axis", NULL, { 60, 30 }, { { -1, 24, 10, 31 } }, { 30, 10 },
    { ROUTER ("straight-12.7", FACE, INSIDE, 3, 4) } },
  { "more on the fence's side", "feed", { 60, 30 }, { { -1, 24, 10, 31 } }, { 30, 10 },
    { ROUTER ("straight-12.7", FACE, OUTSIDE, 57, 4) } },
  { "as much on both sides", NULL, { 60, 30 }, { { 20, 24, 33, 31 } }, { 30, 10 },
    { ROUTER ("straight-12.7", FACE, OUTSIDE, 33.4, 2) } },
  /* Rule 6: 80 mm² for the blade. */
  { "79.9 mm² of chips", NULL, { 60, 30 }, { { 20, 4, 23.2, 31 } }, { 40, 10 },
    { SAW (FACE, INSIDE, 20, 24.95) } },
  { "80.2 mm² of chips", "bite", { 60, 30 }, { { 20, 4, 23.2, 31 } }, { 40, 10 },
    { SAW (FACE, INSIDE, 20, 25.05) } },
  { "cutter as deep as it is wide", NULL, { 60, 30 }, { { 20, 4, 30, 31 } }, { 40, 10 },
    { ROUTER ("straight-6.35", FACE, INSIDE, 25, 6.35) } },
  { "cutter deeper than it is wide", "layer", { 60, 30 }, { { 20, 4, 30, 31 } }, { 40, 10 },
    { ROUTER ("straight-6.35", FACE, INSIDE, 25, 6.5) } },
  { "cutter past its bite", "bite", { 60, 30 }, { { 20, 4, 40, 31 } }, { 50, 10 },
    { ROUTER ("straight-19.05", FACE, INSIDE, 30, 19) } },
  { "layer of 1.6 across the blade", NULL, { 90, 30 }, { { 10, 20, 80, 31 } }, { 40, 10 },
    { COVE (30, FACE, INSIDE, 45, 1.6) } },
  { "layer of 1.65 across the blade", "layer", { 90, 30 }, { { 10, 20, 80, 31 } }, { 40, 10 },
    { COVE (30, FACE, INSIDE, 45, 1.65) } },
  { "second layer of 1.6", NULL, { 90, 30 }, { { 10, 20, 80, 31 } }, { 40, 10 },
    { COVE (30, FACE, INSIDE, 45, 1.6), COVE (30, FACE, INSIDE, 45, 3.2) } },
  /* A bearing of radius 6 and length 5 over the tip: it may touch the rail's edge. */
  { "bearing beside the rail", NULL, { 60, 30 }, { { -1, 20, 8, 31 } }, { 30, 10 },
    { ROUTER ("piloted", FACE, INSIDE, -6, 4) } },
  { "bearing 0.02 in the rail", NULL, { 60, 30 }, { { -1, 20, 8, 31 } }, { 30, 10 },
    { ROUTER ("piloted", FACE, INSIDE, -5.98, 4) } },
  { "bearing 0.1 in the rail", "pilot", { 60, 30 }, { { -1, 20, 8, 31 } }, { 30, 10 },
    { ROUTER ("piloted", FACE, INSIDE, -5.9, 4) } },
  /* A lump of waste that hangs on by a web. */
  { "web of 0.4 mm", "weak web", { 60, 30 }, { { 38, -1, 61, 31 } }, { 20, 15 },
    { SAW (FACE, INSIDE, 40, 15), SAW (BACK, INSIDE, 40, 14.6) } },
  { "web of 0.6 mm", NULL, { 60, 30 }, { { 38, -1, 61, 31 } }, { 20, 15 },
    { SAW (FACE, INSIDE, 40, 15), SAW (BACK, INSIDE, 40, 14.4) } },
  { "no height at all", "setting", { 60, 30 }, { { 38, -1, 61, 31 } }, { 20, 15 },
    { SAW (FACE, INSIDE, 40, 0) } },
};
/* clang-format on */

/* The default shop with a cutter of radius 12 that carries a bearing. */
static CavShop *
create_shop (void)
{
  CavShop *shop = cav_shop_new_default ();
  const double straight[CAV_N_CUTTER_NUMBERS]
      = { [CAV_CUTTER_DIAMETER] = 24, [CAV_CUTTER_CUTTING_LENGTH] = 20 };
  CavCutter *cutter = cav_cutter_new ("piloted", CAV_CUTTER_STRAIGHT, straight, NULL);

  g_assert_nonnull (cutter);
  cav_cutter_set_pilot (cutter, 6, 5);
  g_assert_true (cav_shop_add_cutter (shop, cutter, NULL));
  /* Layers are to be tried, not bites. */
  cav_shop_find_cutter (shop, "straight-6.35")->bite = 60;
  return shop;
}

static const char *
do_pass (CavProof *proof, const Pass *settings, CavPass *pass)
{
  CavSetup *setup = cav_setup_new (settings->machine, settings->tool);
  const char *rule = NULL;
  gboolean done;

  setup->tilt = settings->machine == CAV_MACHINE_SAW ? settings->turn : 0;
  setup->angle = settings->machine == CAV_MACHINE_COVE ? settings->turn : 0;
  pass->down = settings->down;
  pass->against = settings->against;
  pass->fence = settings->fence;
  pass->height = settings->height;
  done = cav_proof_do_pass (proof, setup, pass, &rule);
  g_assert_cmpint (done, ==, rule == NULL);
  cav_setup_free (setup);
  return rule;
}

static void
pass_clear (CavPass *pass)
{
  g_clear_pointer (&pass->before, cav_region_unref);
  g_clear_pointer (&pass->after, cav_region_unref);
  g_clear_pointer (&pass->swept, cav_region_unref);
}

static guint
count_boxes (const CavBox *boxes, guint most)
{
  guint n = 0;

  while (n < most && boxes[n].x1 > boxes[n].x0)
    n++;
  return n;
}

static void
test_rules (void)
{
  g_autoptr (CavShop) shop = create_shop ();
  guint n_wrong = 0;

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      const Case *row = &cases[i];
      g_autoptr (CavRegion) profile
          = rig_box_less (row->blank, row->cuts, count_boxes (row->cuts, MOST_CUTS));
      CavProof proof;

      cav_proof_init (&proof, &row->blank, profile, shop, row->seed);
      for (guint k = 0; k < MOST_PASSES && row->passes[k].tool != NULL; k++)
        {
          CavPass pass = { 0 };
          gboolean last = k + 1 == MOST_PASSES || row->passes[k + 1].tool == NULL;
          double area = cav_region_get_area (proof.rail);
          const char *rule = do_pass (&proof, &row->passes[k], &pass);

          if (g_strcmp0 (rule, last ? row->rule : NULL) != 0)
            {
              g_test_message ("%s: pass %u: %s", row->desc, k + 1, rule != NULL ? rule : "legal");
              n_wrong++;
            }
          /* What is refused leaves the rail as it was; what is done says what it did. */
          if (rule != NULL)
            g_assert_cmpfloat_with_epsilon (cav_region_get_area (proof.rail), area, 1e-12);
          else
            {
              g_assert_cmpfloat (pass.removes, >, 0);
              g_assert_cmpfloat_with_epsilon (cav_region_get_area (pass.before), area, 1e-12);
              g_assert_cmpfloat (cav_region_get_area (pass.after), <=, area - pass.removes + 1e-3);
              g_assert_cmpfloat (proof.gouge, <=, 0.02);
            }
          pass_clear (&pass);
        }
      cav_proof_clear (&proof);
    }
  g_assert_cmpuint (n_wrong, ==, 0);
}

/* A kerf right through a thin wall of the profile, at any place and of any thickness: of a wall of
 * 0.1 mm no more than 0.05 is entered by depth, and that is a gouge all the same. */
static void
test_through_wall (void)
{
  const CavBlank blank = { 60, 30 };
  g_autoptr (CavShop) shop = create_shop ();
  guint n_wrong = 0;

  for (double wall = 0.06; wall < 2; wall *= 1.5)
    for (double at = 20.1; at < 23; at += 0.37)
      for (double height = 2; height < 24; height += 9)
        {
          const CavBox cuts[] = { { -1, 5, at, 31 }, { at + wall, 5, 61, 31 } };
          g_autoptr (CavRegion) profile = rig_box_less (blank, cuts, 2);
          const Pass kerf = SAW (FACE, INSIDE, 20, height);
          CavPass pass = { 0 };
          CavProof proof;
          const char *rule;

          if (at + wall > 23.1)
            continue;
          cav_proof_init (&proof, &blank, profile, shop, CAV_POINT (30, 2));
          rule = do_pass (&proof, &kerf, &pass);
          if (g_strcmp0 (rule, "gouge") != 0)
            {
              g_test_message ("wall of %.3f at %.2f, height %.1f: %s", wall, at, height,
                              rule != NULL ? rule : "legal");
              n_wrong++;
            }
          pass_clear (&pass);
          cav_proof_clear (&proof);
        }
  g_assert_cmpuint (n_wrong, ==, 0);
}

typedef struct
{
  const char *desc;
  CavCaution caution;
  gboolean expected;
  CavBlank blank;
  CavBox cuts[MOST_CUTS];
  CavPoint seed;
  Pass passes[MOST_PASSES];
} CautionCase;

/* clang-format off */
static const CautionCase caution_cases[] = {
  { "wall of 1.9", CAV_CAUTION_THIN_WALL, TRUE, { 60, 30 }, { { 10, 15, 50, 31 } }, { 5, 5 },
    { SAW (FACE, INSIDE, 20, 10), SAW (FACE, INSIDE, 25.1, 10) } },
  { "wall of 2.1", CAV_CAUTION_THIN_WALL, FALSE, { 60, 30 }, { { 10, 15, 50, 31 } }, { 5, 5 },
    { SAW (FACE, INSIDE, 20, 10), SAW (FACE, INSIDE, 25.3, 10) } },
  { "wall of 1.9 that is the profile's", CAV_CAUTION_THIN_WALL, FALSE, { 60, 30 },
    { { 10, 15, 23.2, 31 }, { 25.1, 15, 50, 31 } }, { 5, 5 },
    { SAW (FACE, INSIDE, 20, 10), SAW (FACE, INSIDE, 25.1, 10) } },
  { "wall of 1.9 lying flat", CAV_CAUTION_THIN_WALL, TRUE, { 60, 30 }, { { 40, -1, 61, 31 } },
    { 5, 5 }, { SAW (OUTSIDE, BACK, 10, 10), SAW (OUTSIDE, BACK, 15.1, 10) } },
  { "rail of 19 x 18", CAV_CAUTION_SMALL_RAIL, TRUE, { 19, 18 }, { { -1, 12, 5, 19 } }, { 10, 5 },
    { ROUTER ("straight-6.35", FACE, INSIDE, 1, 2) } },
  { "rail of 30 x 25", CAV_CAUTION_SMALL_RAIL, FALSE, { 30, 25 }, { { -1, 12, 5, 26 } }, { 10, 5 },
    { ROUTER ("straight-6.35", FACE, INSIDE, 1, 2) } },
  { "rail of 19 x 18 on the saw", CAV_CAUTION_SMALL_RAIL, FALSE, { 19, 18 }, { { -1, 12, 5, 19 } },
    { 10, 5 }, { SAW (FACE, INSIDE, 1, 2) } },
  { "cutter of 25.4", CAV_CAUTION_LARGE_CUTTER, TRUE, { 60, 30 }, { { -1, 20, 20, 31 } }, { 40, 5 },
    { ROUTER ("round-over-9.5", FACE, INSIDE, 0, 2) } },
  { "cutter of 12.7", CAV_CAUTION_LARGE_CUTTER, FALSE, { 60, 30 }, { { -1, 20, 20, 31 } },
    { 40, 5 }, { ROUTER ("straight-12.7", FACE, INSIDE, 0, 2) } },
  { "across the blade", CAV_CAUTION_COVING, TRUE, { 90, 30 }, { { 10, 20, 80, 31 } }, { 40, 10 },
    { COVE (30, FACE, INSIDE, 45, 1.6) } },
  { "along the blade", CAV_CAUTION_COVING, FALSE, { 90, 30 }, { { 10, 20, 80, 31 } }, { 40, 10 },
    { SAW (FACE, INSIDE, 45, 1.6) } },
  { "blade in the wood", CAV_CAUTION_HIDDEN_BLADE, TRUE, { 60, 30 }, { { 20, 20, 50, 31 } },
    { 5, 5 }, { SAW (FACE, INSIDE, 20, 10) } },
  { "blade through the wood", CAV_CAUTION_HIDDEN_BLADE, FALSE, { 60, 20 }, { { 40, -1, 61, 21 } },
    { 5, 5 }, { SAW (FACE, INSIDE, 40, 20.6) } },
  { "alternate bevels", CAV_CAUTION_ALTERNATE, TRUE, { 60, 30 }, { { 20, 20, 50, 31 } },
    { 5, 5 }, { { CAV_MACHINE_SAW, "alternate", 0, CAV_SIDE_FACE, CAV_SIDE_INSIDE, 20, 10 } } },
  { "alternate bevels through the wood", CAV_CAUTION_ALTERNATE, FALSE, { 60, 20 },
    { { 40, -1, 61, 21 } }, { 5, 5 },
    { { CAV_MACHINE_SAW, "alternate", 0, CAV_SIDE_FACE, CAV_SIDE_INSIDE, 40, 20.6 } } },
  { "flat teeth", CAV_CAUTION_ALTERNATE, FALSE, { 60, 30 }, { { 20, 20, 50, 31 } },
    { 5, 5 }, { SAW (FACE, INSIDE, 20, 10) } },
  { "on firm ground", CAV_CAUTION_FEATHERBOARD, FALSE, { 60, 30 }, { { 20, 20, 50, 31 } },
    { 5, 5 }, { SAW (FACE, INSIDE, 20, 10) } },
  { "partly in the fence", CAV_CAUTION_SACRIFICIAL, TRUE, { 60, 30 }, { { -1, 20, 5, 31 } },
    { 30, 5 }, { SAW (FACE, INSIDE, -1, 10) } },
  { "against the fence", CAV_CAUTION_SACRIFICIAL, TRUE, { 60, 30 }, { { -1, 20, 5, 31 } },
    { 30, 5 }, { SAW (FACE, INSIDE, 0.4, 10) } },
  { "clear of the fence", CAV_CAUTION_SACRIFICIAL, FALSE, { 60, 30 }, { { -1, 20, 5, 31 } },
    { 30, 5 }, { SAW (FACE, INSIDE, 0.6, 10) } },
  { "a strip comes off", CAV_CAUTION_SEVERS, TRUE, { 60, 20 }, { { 40, -1, 61, 21 } },
    { 5, 5 }, { SAW (FACE, INSIDE, 40, 20.6) } },
  { "nothing comes off", CAV_CAUTION_SEVERS, FALSE, { 60, 20 }, { { 40, -1, 61, 21 } },
    { 5, 5 }, { SAW (FACE, INSIDE, 40, 18) } },
  /* What is left beyond the edge is 0.2 thick: dust. */
  { "dust comes off", CAV_CAUTION_SEVERS, FALSE, { 43.4, 20 }, { { 40, -1, 61, 21 } },
    { 5, 5 }, { SAW (FACE, INSIDE, 40, 20.6) } },
};
/* clang-format on */

static void
test_cautions (void)
{
  g_autoptr (CavShop) shop = create_shop ();
  CavBlade *blade = cav_blade_new ("alternate", 254, 3.2);
  guint n_wrong = 0;

  blade->grind = CAV_GRIND_ALTERNATE;
  g_assert_true (cav_shop_add_blade (shop, blade, NULL));
  for (guint i = 0; i < G_N_ELEMENTS (caution_cases); i++)
    {
      const CautionCase *row = &caution_cases[i];
      g_autoptr (CavRegion) profile
          = rig_box_less (row->blank, row->cuts, count_boxes (row->cuts, MOST_CUTS));
      CavProof proof;
      guint cautions = 0;

      cav_proof_init (&proof, &row->blank, profile, shop, row->seed);
      for (guint k = 0; k < MOST_PASSES && row->passes[k].tool != NULL; k++)
        {
          CavPass pass = { 0 };

          const char *rule = do_pass (&proof, &row->passes[k], &pass);

          if (rule != NULL)
            {
              g_test_message ("%s: pass %u: %s", row->desc, k + 1, rule);
              n_wrong++;
            }
          cautions = pass.cautions;
          pass_clear (&pass);
        }
      if (((cautions & row->caution) != 0) != row->expected)
        {
          g_test_message ("%s: cautions %x", row->desc, cautions);
          n_wrong++;
        }
      cav_proof_clear (&proof);
    }
  g_assert_cmpuint (n_wrong, ==, 0);
}

/* Past the last land, held at a high fence: allowed, with a caution. */
static void
test_featherboard (void)
{
  const CavBlank blank = { 60, 40 };
  g_autoptr (CavShop) shop = create_shop ();

  for (int high = 0; high < 2; high++)
    {
      const Pass pass_settings = {
        CAV_MACHINE_SAW, "rip", 0, CAV_SIDE_BACK, high ? CAV_SIDE_OUTSIDE : CAV_SIDE_INSIDE, 10, 5
      };
      /* Table lands near the fence alone. */
      const CavBox foot = high ? (CavBox){ -1, -1, 36, 12 } : (CavBox){ 24, -1, 61, 12 };
      g_autoptr (CavRegion) profile = cav_region_new_box (30, 20, 31, 21);
      g_autoptr (CavRegion) rail = rig_box_less (blank, &foot, 1);
      CavPass pass = { 0 };
      CavProof proof;

      cav_proof_init (&proof, &blank, profile, shop, CAV_POINT (30.5, 20.5));
      cav_region_unref (proof.rail);
      proof.rail = cav_region_ref (rail);
      cav_standing_init_region (&proof.standing, proof.rail, &blank);
      g_assert_cmpstr (do_pass (&proof, &pass_settings, &pass), ==, NULL);
      g_assert_true ((pass.cautions & CAV_CAUTION_FEATHERBOARD) != 0);
      pass_clear (&pass);
      cav_proof_clear (&proof);
    }
}

/* Lands, area and centroid of an exact rail: a rabbet, a foot under 1 mm, a land in two parts. */
static void
test_standing (void)
{
  const CavBlank blank = { 60, 40 };
  const CavBox cuts[]
      = { { -1, -1, 6, 9 }, { 20, -1, 30, 5 }, { 30.9, -1, 40, 5 }, { 59, 10, 61, 41 } };
  g_autoptr (CavRegion) rail = rig_box_less (blank, cuts, 4);
  CavStanding standing;
  double area = 2400 - 54 - 50 - 45.5 - 30;

  cav_standing_init_region (&standing, rail, &blank);
  g_assert_cmpfloat_with_epsilon (standing.area, area, 1e-6);
  g_assert_cmpfloat_with_epsilon (
      standing.centroid.x, (2400 * 30 - 54 * 3 - 50 * 25 - 45.5 * 35.45 - 30 * 59.5) / area, 1e-6);
  g_assert_cmpfloat_with_epsilon (
      standing.centroid.y, (2400 * 20 - 54 * 4.5 - 50 * 2.5 - 45.5 * 2.5 - 30 * 25) / area, 1e-6);
  /* 6 to 20 and 40 to 60; the foot from 30 to 30.9 does not count. */
  g_assert_cmpfloat_with_epsilon (standing.lands[CAV_SIDE_BACK].first, 6, 1e-6);
  g_assert_cmpfloat_with_epsilon (standing.lands[CAV_SIDE_BACK].last, 60, 1e-6);
  g_assert_cmpfloat_with_epsilon (standing.lands[CAV_SIDE_BACK].total, 34, 1e-6);
  g_assert_cmpfloat_with_epsilon (standing.lands[CAV_SIDE_INSIDE].total, 31, 1e-6);
  g_assert_cmpfloat_with_epsilon (standing.lands[CAV_SIDE_INSIDE].first, 9, 1e-6);
  g_assert_cmpfloat_with_epsilon (standing.lands[CAV_SIDE_OUTSIDE].total, 10, 1e-6);
  g_assert_cmpfloat_with_epsilon (standing.lands[CAV_SIDE_OUTSIDE].last, 10, 1e-6);
  g_assert_cmpfloat_with_epsilon (standing.lands[CAV_SIDE_FACE].total, 59, 1e-6);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/milling/proof/rules", test_rules);
  g_test_add_func ("/milling/proof/through-wall", test_through_wall);
  g_test_add_func ("/milling/proof/cautions", test_cautions);
  g_test_add_func ("/milling/proof/featherboard", test_featherboard);
  g_test_add_func ("/milling/proof/standing", test_standing);
  return g_test_run ();
}
