/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/cav-section-hit.h"

#include "profile/cav-cut.h"

/* Ten pixels a millimetre; the blank's corner at back and inside at (100, 400). */
static const CavView view = { 10, 100, 400 };
static const CavBlank blank = { 50, 26 };
#define TOLERANCE 6.0

static CavPoint
at (double x, double y)
{
  return cav_view_to_pixel (&view, CAV_POINT (x, y));
}

static void
unref_region (gpointer region)
{
  if (region != NULL)
    cav_region_unref (region);
}

/* 0: a large box, 1: a small one within it, 2: nothing that can be made, 3: a half disc. */
static GPtrArray *
make_cuts (void)
{
  GPtrArray *cuts = g_ptr_array_new_with_free_func (unref_region);
  g_autoptr (CavCut) cove = cav_cut_new_on_side (CAV_CUT_COVE, CAV_SIDE_FACE);

  cove->numbers[CAV_CUT_POSITION] = 40;
  cove->numbers[CAV_CUT_WIDTH] = 10;
  cove->numbers[CAV_CUT_DEPTH] = 5;
  g_ptr_array_add (cuts, cav_region_new_box (0, 10, 20, 26));
  g_ptr_array_add (cuts, cav_region_new_box (4, 14, 8, 18));
  g_ptr_array_add (cuts, NULL);
  g_ptr_array_add (cuts, cav_cut_create_region (cove, &blank, NULL));
  return cuts;
}

static void
test_what_is_meant (void)
{
  static const struct
  {
    const char *desc;
    double x, y;
    CavHitKind kind;
    guint index;
    gboolean on_edge;
  } rows[] = {
    { "far away", -20, 60, CAV_HIT_NOTHING, 0, FALSE },
    { "area of the large one", 15, 20, CAV_HIT_CUT, 0, FALSE },
    { "area of both: the small one", 6, 16, CAV_HIT_CUT, 1, FALSE },
    { "edge of the small one, from outside", 8.5, 16, CAV_HIT_CUT, 1, TRUE },
    { "just too far from it", 8.7, 16, CAV_HIT_CUT, 0, FALSE },
    { "edge of the large one", 20.4, 20, CAV_HIT_CUT, 0, TRUE },
    { "round bottom of the cove", 40, 21.2, CAV_HIT_CUT, 3, TRUE },
    { "beside the cove's round, within its box", 44.9, 21.2, CAV_HIT_BLANK, 0, FALSE },
    { "corner at back and inside", 0.3, -0.3, CAV_HIT_CORNER, CAV_CORNER_BACK_INSIDE, FALSE },
    { "corner at face and outside", 50.3, 26.4, CAV_HIT_CORNER, CAV_CORNER_FACE_OUTSIDE, FALSE },
    { "back", 25, 0.5, CAV_HIT_SIDE, CAV_SIDE_BACK, FALSE },
    { "face", 30, 26.5, CAV_HIT_SIDE, CAV_SIDE_FACE, FALSE },
    { "inside", -0.5, 5, CAV_HIT_SIDE, CAV_SIDE_INSIDE, FALSE },
    { "outside", 50.2, 12, CAV_HIT_SIDE, CAV_SIDE_OUTSIDE, FALSE },
    { "wood", 30, 10, CAV_HIT_BLANK, 0, FALSE },
  };
  g_autoptr (GPtrArray) cuts = make_cuts ();

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      CavHit hit
          = cav_section_hit (&blank, cuts, NULL, &view, at (rows[i].x, rows[i].y), TOLERANCE);

      g_test_message ("%s", rows[i].desc);
      g_assert_cmpint (hit.kind, ==, rows[i].kind);
      if (hit.kind == CAV_HIT_CUT)
        {
          g_assert_cmpuint (hit.index, ==, rows[i].index);
          g_assert_cmpint (hit.on_edge, ==, rows[i].on_edge);
        }
      if (hit.kind == CAV_HIT_CORNER)
        g_assert_cmpuint (hit.corner, ==, rows[i].index);
      if (hit.kind == CAV_HIT_SIDE)
        g_assert_cmpuint (hit.side, ==, rows[i].index);
    }
}

static void
test_handles_come_first (void)
{
  g_autoptr (GPtrArray) cuts = make_cuts ();
  g_autoptr (CavCut) cut = cav_cut_new_at_corner (CAV_CUT_RABBET, CAV_CORNER_FACE_INSIDE);
  g_autoptr (GArray) handles = NULL;

  cut->numbers[CAV_CUT_WIDTH] = 20;
  cut->numbers[CAV_CUT_DEPTH] = 16;
  handles = cav_handle_list_new (cut, &blank);
  g_assert_cmpuint (handles->len, >, 2);
  for (guint i = 0; i < handles->len; i++)
    {
      const CavHandle *handle = &g_array_index (handles, CavHandle, i);
      CavPoint pixel = cav_view_to_pixel (&view, handle->point);
      CavHit hit = cav_section_hit (&blank, cuts, handles, &view, pixel, TOLERANCE);

      g_assert_cmpint (hit.kind, ==, CAV_HIT_HANDLE);
      g_assert_cmpuint (hit.index, ==, i);
    }
}

/* As large on the screen however near one looks. */
static void
test_tolerance_is_of_the_screen (void)
{
  g_autoptr (GPtrArray) cuts = make_cuts ();

  for (double scale = 2; scale < 300; scale *= 2)
    {
      const CavView near = { scale, 31, 77 };
      CavPoint edge = cav_view_to_pixel (&near, CAV_POINT (20, 20));
      CavHit within = cav_section_hit (&blank, cuts, NULL, &near, CAV_POINT (edge.x + 5.9, edge.y),
                                       TOLERANCE);
      CavHit beyond = cav_section_hit (&blank, cuts, NULL, &near, CAV_POINT (edge.x + 6.1, edge.y),
                                       TOLERANCE);

      g_assert_cmpint (within.kind, ==, CAV_HIT_CUT);
      g_assert_cmpint (beyond.kind, ==, CAV_HIT_BLANK);
    }
}

static void
test_all_under_the_pointer (void)
{
  g_autoptr (GPtrArray) cuts = make_cuts ();
  g_autoptr (GArray) both = cav_section_hit_cuts (cuts, &view, at (6, 16), TOLERANCE);
  g_autoptr (GArray) none = cav_section_hit_cuts (cuts, &view, at (30, 5), TOLERANCE);

  g_assert_cmpuint (both->len, ==, 2);
  g_assert_cmpuint (g_array_index (both, guint, 0), ==, 1);
  g_assert_cmpuint (g_array_index (both, guint, 1), ==, 0);
  g_assert_cmpuint (none->len, ==, 0);
}

static void
test_band (void)
{
  static const struct
  {
    const char *desc;
    CavBox box; /* mm, corners as they were dragged */
    guint n;
    guint first;
  } rows[] = {
    { "nothing in it", { 25, 2, 30, 8 }, 0, 0 },
    { "around the small one, in the large one", { 3, 13, 9, 19 }, 2, 0 },
    { "drawn from the far corner", { 9, 19, 3, 13 }, 2, 0 },
    { "beside the cove's round, within its box", { 44.5, 21, 46, 22 }, 0, 0 },
    { "touches the cove", { 40, 20, 46, 22 }, 1, 3 },
    { "around all", { -5, -5, 60, 40 }, 3, 0 },
  };
  g_autoptr (GPtrArray) cuts = make_cuts ();

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      CavPoint a = at (rows[i].box.x0, rows[i].box.y0);
      CavPoint b = at (rows[i].box.x1, rows[i].box.y1);
      g_autoptr (GArray) hit = cav_section_hit_band (cuts, &view, (CavBox){ a.x, a.y, b.x, b.y });

      g_test_message ("%s", rows[i].desc);
      g_assert_cmpuint (hit->len, ==, rows[i].n);
      if (rows[i].n > 0)
        g_assert_cmpuint (g_array_index (hit, guint, 0), ==, rows[i].first);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/drawing/section-hit/what-is-meant", test_what_is_meant);
  g_test_add_func ("/drawing/section-hit/handles-come-first", test_handles_come_first);
  g_test_add_func ("/drawing/section-hit/tolerance-is-of-the-screen",
                   test_tolerance_is_of_the_screen);
  g_test_add_func ("/drawing/section-hit/all-under-the-pointer", test_all_under_the_pointer);
  g_test_add_func ("/drawing/section-hit/band", test_band);
  return g_test_run ();
}
