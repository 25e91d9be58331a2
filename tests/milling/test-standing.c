/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "milling/cav-rail.h"

/*
 * Rules 2 and 3 of the milling model on standings made by hand. Each row is a rail with its back
 * down and its inside at the fence, in a blank of 60 x 40; every row is tried in all eight
 * placements, for a rule does not depend on how the rail is turned.
 */

typedef struct
{
  const char *desc;
  gboolean legal;
  double u; /* of the centroid */
  double v;
  CavLands table;
  CavLands fence;
  double height; /* of the rail */
} Row;

static const Row rows[] = {
  { "whole blank", TRUE, 30, 20, { 0, 60, 60 }, { 0, 40, 40 }, 40 },
  /* Rule 2: at least 5 mm on the table. */
  { "5.1 on the table", TRUE, 30, 20, { 2, 58, 5.1 }, { 0, 40, 40 }, 40 },
  { "4.9 on the table", FALSE, 30, 20, { 2, 58, 4.9 }, { 0, 40, 40 }, 40 },
  { "nothing on the table", FALSE, 30, 20, { 0, 0, 0 }, { 0, 40, 40 }, 40 },
  /* Rule 2: the centroid between first and last. */
  { "centroid short of the first, fence above it",
    TRUE,
    10,
    20,
    { 12, 60, 48 },
    { 0, 40, 40 },
    40 },
  { "centroid short of the first, fence below it",
    FALSE,
    10,
    20,
    { 12, 60, 48 },
    { 0, 19, 19 },
    40 },
  { "centroid past the first, fence below it", TRUE, 13, 20, { 12, 60, 48 }, { 0, 19, 19 }, 40 },
  { "4.9 past the last, fence spans 26", TRUE, 44.9, 20, { 0, 40, 40 }, { 2, 28, 6 }, 40 },
  { "5.1 past the last, fence spans 26", FALSE, 45.1, 20, { 0, 40, 40 }, { 2, 28, 6 }, 40 },
  { "4.9 past the last, fence spans 24", FALSE, 44.9, 20, { 0, 40, 40 }, { 2, 26, 24 }, 40 },
  { "just short of the last, fence spans 24", TRUE, 39.9, 20, { 0, 40, 40 }, { 2, 26, 24 }, 40 },
  /* Rule 3: at least 3 mm at the fence. */
  { "3.1 at the fence", TRUE, 30, 20, { 0, 60, 60 }, { 0, 3.1, 3.1 }, 40 },
  { "2.9 at the fence", FALSE, 30, 20, { 0, 60, 60 }, { 0, 30, 2.9 }, 40 },
  { "nothing at the fence", FALSE, 30, 20, { 0, 60, 60 }, { 0, 0, 0 }, 40 },
  /* Rule 3: a narrow foot asks for the fence above the centroid. */
  { "foot of 20.1 under 40, fence low", TRUE, 15, 20, { 5, 25.1, 10 }, { 0, 10, 10 }, 40 },
  { "foot of 19.9 under 40, fence low", FALSE, 15, 20, { 5, 24.9, 10 }, { 0, 10, 10 }, 40 },
  { "foot of 19.9 under 40, fence to 20.1", TRUE, 15, 20, { 5, 24.9, 10 }, { 15, 20.1, 5.1 }, 40 },
  { "foot of 19.9 under 40, fence to 19.9", FALSE, 15, 20, { 5, 24.9, 10 }, { 14, 19.9, 5.9 }, 40 },
  { "foot of 19.9 under 39", TRUE, 15, 19, { 5, 24.9, 10 }, { 0, 10, 10 }, 39 },
};

static CavLands
mirror (CavLands lands, double extent)
{
  if (lands.total <= 0)
    return lands;
  return (CavLands){ extent - lands.last, extent - lands.first, lands.total };
}

/* The row in a blank that is as wide and high as the placement wants it. */
static void
lay (const Row *row, CavSide down, CavFence fence, CavStanding *standing, CavBlank *out_blank)
{
  gboolean flat = down == CAV_SIDE_BACK || down == CAV_SIDE_FACE;
  gboolean upside = down == CAV_SIDE_FACE || down == CAV_SIDE_OUTSIDE;
  gboolean high = fence == CAV_FENCE_HIGH;
  double reach = 60, height = 40, u = high ? reach - row->u : row->u;
  double v = upside ? height - row->v : row->v;
  double v0 = upside ? height - row->height : 0, v1 = upside ? height : row->height;
  CavSide against = cav_fence_get_side (down, fence);

  *out_blank = flat ? (CavBlank){ reach, height } : (CavBlank){ height, reach };
  *standing = (CavStanding){ .area = 100 };
  standing->centroid = flat ? CAV_POINT (u, v) : CAV_POINT (v, u);
  standing->box = flat ? (CavBox){ 0, v0, reach, v1 } : (CavBox){ v0, 0, v1, reach };
  standing->lands[down] = high ? mirror (row->table, reach) : row->table;
  standing->lands[against] = upside ? mirror (row->fence, height) : row->fence;
}

static void
test_rules (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    for (int down = 0; down < CAV_N_SIDES; down++)
      for (int fence = 0; fence < 2; fence++)
        {
          CavStanding standing;
          CavBlank blank;

          lay (&rows[i], (CavSide)down, (CavFence)fence, &standing, &blank);
          g_test_message ("%s: %s down, fence %d", rows[i].desc, cav_side_to_string ((CavSide)down),
                          fence);
          g_assert_cmpint (
              cav_standing_is_supported (&standing, &blank, (CavSide)down, (CavFence)fence), ==,
              rows[i].legal);
        }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/milling/standing/rules", test_rules);
  return g_test_run ();
}
