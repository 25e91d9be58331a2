/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "milling-rig.h"

#include "milling/cav-thin.h"

#include <math.h>

static const CavBlank blank = { 40, 20 };

static CavRows *
create_rows (const CavRegion *region)
{
  return cav_rows_new_from_region (region, cav_rows_count_for (blank.thickness));
}

static CavRows *
create_box_rows (double x0, double y0, double x1, double y1)
{
  g_autoptr (CavRegion) box = cav_region_new_box (x0, y0, x1, y1);

  return create_rows (box);
}

static CavRows *
create_blank_less (const CavBox *boxes, guint n)
{
  g_autoptr (CavRegion) region = rig_box_less (blank, boxes, n);

  return create_rows (region);
}

/* A box loses half a web on all sides; what is thinner is gone. */
static void
test_eroded (void)
{
  g_autoptr (CavRows) box = create_box_rows (5, 5, 15, 9);
  g_autoptr (CavRows) eroded = cav_rows_eroded (box, 500, 10);
  g_autoptr (CavRows) thin = create_box_rows (5, 5, 15, 6);
  g_autoptr (CavRows) nothing = cav_rows_eroded (thin, 500, 10);
  g_autoptr (CavRows) narrow = create_box_rows (5, 5, 5.9, 15);
  g_autoptr (CavRows) gone = cav_rows_eroded (narrow, 500, 10);
  g_autoptr (CavRows) same = cav_rows_eroded (box, 0, 0);

  /* 80 rows less 10 above and 10 below, 10 mm less 1. */
  g_assert_cmpfloat_with_epsilon (cav_rows_get_area (eroded), 9 * 60 * CAV_ROW_HEIGHT, 1e-9);
  g_assert_cmpfloat_with_epsilon (cav_rows_get_area (nothing), 0, 1e-9);
  g_assert_cmpfloat_with_epsilon (cav_rows_get_area (gone), 0, 1e-9);
  g_assert_cmpfloat_with_epsilon (cav_rows_get_area (same), 40, 1e-9);
}

/* Any window, against its plain meaning: a place stays where all rows of the window have it. */
static void
test_eroded_random (void)
{
  g_autoptr (GRand) rand = rig_rand_new (99);

  for (int trial = 0; trial < 40; trial++)
    {
      CavPoint points[9];
      int up = g_rand_int_range (rand, 0, 20), aside = g_rand_int_range (rand, 0, 900);

      rig_random_outline (rand, blank.width, blank.thickness, points, 9);
      g_autoptr (CavRows) rows
          = cav_rows_new_from_polygon (points, 9, cav_rows_count_for (blank.thickness));
      g_autoptr (CavRows) eroded = cav_rows_eroded (rows, aside, up);

      for (int i = 0; i < 150; i++)
        {
          int row = g_rand_int_range (rand, 0, rows->n_rows);
          gint32 x = g_rand_int_range (rand, 0, 40000);
          gboolean inside = row + 2 * up < rows->n_rows;

          for (int k = row; k <= row + 2 * up && inside; k++)
            {
              inside = FALSE;
              for (int s = rows->first[k]; s < rows->first[k + 1]; s++)
                inside |= x >= rows->spans[s].a + aside && x < rows->spans[s].b - aside;
            }
          g_assert_cmpint (cav_rows_contains (eroded, row, x), ==, inside);
        }
    }
}

/* Waste on the right hangs on the profile on the left by a web. */
static void
test_weak_lump (void)
{
  const struct
  {
    const char *desc;
    gboolean weak;
    CavBox cuts[2];
    CavBox profile;
  } rows[] = {
    { "flat web of 0.3", TRUE, { { 15, -1, 25, 9 }, { 15, 9.3, 25, 21 } }, { 0, 0, 15, 20 } },
    { "flat web of 0.7", FALSE, { { 15, -1, 25, 9 }, { 15, 9.7, 25, 21 } }, { 0, 0, 15, 20 } },
    { "upright web of 0.3", TRUE, { { -1, 8, 20, 12 }, { 20.3, 8, 41, 12 } }, { 0, 0, 40, 8 } },
    { "upright web of 0.7", FALSE, { { -1, 8, 20, 12 }, { 20.7, 8, 41, 12 } }, { 0, 0, 40, 8 } },
    { "both lumps hold profile",
      FALSE,
      { { 15, -1, 25, 9 }, { 15, 9.3, 25, 21 } },
      { 0, 0, 40, 20 } },
    { "the lump is small", FALSE, { { 15, -1, 38.9, 9 }, { 15, 9.3, 41, 21 } }, { 0, 0, 15, 20 } },
    { "no lump at all", FALSE, { { 15, -1, 41, 9 }, { 15, 9, 41, 21 } }, { 0, 0, 15, 20 } },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      CavBox box = rows[i].profile;
      g_autoptr (CavRows) rail = create_blank_less (rows[i].cuts, 2);
      g_autoptr (CavRows) profile = create_box_rows (box.x0, box.y0, box.x1, box.y1);
      double least = g_str_equal (rows[i].desc, "the lump is small") ? 12 : 0.5;

      g_test_message ("%s", rows[i].desc);
      g_assert_cmpint (cav_rows_have_weak_lump (rail, profile, 0.5, least), ==, rows[i].weak);
    }
}

/* A slot or a step somewhere, so that thin webs come about often. */
static CavBox
random_cut (GRand *rand)
{
  double x = g_rand_int_range (rand, -2, 19) * 2 + g_rand_int_range (rand, 0, 3) * 0.3;
  double y = g_rand_int_range (rand, -2, 9) * 2 + g_rand_int_range (rand, 0, 3) * 0.3;

  return (CavBox){ x, y, x + g_rand_int_range (rand, 1, 10) * 2,
                   y + g_rand_int_range (rand, 1, 5) * 2 };
}

/* One cut after the other: looking beside the last one alone says the same as looking everywhere,
 * or nothing. */
static void
test_weak_lump_of_pass (void)
{
  g_autoptr (GRand) rand = rig_rand_new (7);
  g_autoptr (CavRows) profile = create_box_rows (12, 0, 28, 20);
  int n_rows = cav_rows_count_for (blank.thickness), counts[3] = { 0 };

  for (int trial = 0; trial < 300; trial++)
    {
      CavBox cuts[5];
      gboolean weak = FALSE;

      for (guint n = 0; n < G_N_ELEMENTS (cuts) && !weak; n++)
        {
          int from, to;
          CavLump lump;

          cuts[n] = random_cut (rand);
          from = CLAMP ((int)floor (cuts[n].y0 / CAV_ROW_HEIGHT) - 1, 0, n_rows);
          to = CLAMP ((int)ceil (cuts[n].y1 / CAV_ROW_HEIGHT) + 1, 0, n_rows);

          g_autoptr (CavRegion) region = rig_box_less (blank, cuts, n + 1);
          g_autoptr (CavRows) all = create_rows (region);
          g_autoptr (CavRows) near = cav_rows_new_from_region_part (
              region, n_rows, FALSE, (from - 12) * CAV_ROW_HEIGHT, (to + 12) * CAV_ROW_HEIGHT);

          weak = cav_rows_have_weak_lump (all, profile, 0.5, 0.5);
          lump = cav_rows_find_weak_lump (near, profile, 0.5, 0.5, from, to);
          counts[lump]++;
          if (lump != CAV_LUMP_UNSURE)
            g_assert_cmpint (lump == CAV_LUMP_WEAK, ==, weak);
        }
    }
  g_assert_cmpint (counts[CAV_LUMP_NONE], >, 100);
  g_assert_cmpint (counts[CAV_LUMP_WEAK], >, 10);
  g_assert_cmpint (counts[CAV_LUMP_UNSURE], >, 10);
}

/* A wall between a fresh kerf from 22 on and what was taken before up to x. */
static double
get_wall (double from, const CavRows *profile, const CavRows *swept)
{
  const CavBox cuts[] = { { -1, 6, from, 21 }, { 22, 6, 25.2, 21 } };
  g_autoptr (CavRows) rail = create_blank_less (cuts, 2);

  return cav_rows_get_thin_wall (rail, profile, swept, 2.0);
}

static void
test_thin_wall (void)
{
  g_autoptr (CavRows) profile = create_box_rows (0, 0, 40, 6);
  g_autoptr (CavRows) with_wall
      = create_blank_less ((const CavBox[]){ { -1, 6, 20.1, 21 }, { 22, 6, 41, 21 } }, 2);
  g_autoptr (CavRows) swept = create_box_rows (22, 6, 25.2, 20);
  g_autoptr (CavRows) elsewhere = create_box_rows (30, 6, 33.2, 20);
  g_autoptr (CavRows) from_left = create_box_rows (16.9, 10, 20.1, 20);

  g_assert_cmpfloat_with_epsilon (get_wall (20.1, profile, swept), 14, 1e-9);
  g_assert_cmpfloat_with_epsilon (get_wall (19.9, profile, swept), 0, 1e-9);
  /* The profile's own wall, and one that this pass has not made. */
  g_assert_cmpfloat_with_epsilon (get_wall (20.1, with_wall, swept), 0, 1e-9);
  g_assert_cmpfloat_with_epsilon (get_wall (20.1, profile, elsewhere), 0, 1e-9);
  /* Its other face counts too, as high as it is fresh. */
  g_assert_cmpfloat_with_epsilon (get_wall (20.1, profile, from_left), 10, 1e-9);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/milling/thin/eroded", test_eroded);
  g_test_add_func ("/milling/thin/eroded-random", test_eroded_random);
  g_test_add_func ("/milling/thin/weak-lump", test_weak_lump);
  g_test_add_func ("/milling/thin/weak-lump-of-pass", test_weak_lump_of_pass);
  g_test_add_func ("/milling/thin/thin-wall", test_thin_wall);
  return g_test_run ();
}
