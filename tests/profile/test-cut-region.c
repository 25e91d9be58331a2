/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "profile/cav-cut.h"

#include <math.h>
#include <string.h>

static const CavBlank blank = { 60.0, 25.0 };

#define N(...)                                                                                     \
  {                                                                                                \
    __VA_ARGS__                                                                                    \
  }
#define WIDTH CAV_CUT_WIDTH
#define DEPTH CAV_CUT_DEPTH
#define POSITION CAV_CUT_POSITION
#define QUIRK CAV_CUT_QUIRK_WIDTH
#define QUIRK_DEPTH CAV_CUT_QUIRK_DEPTH
#define SHARE CAV_CUT_SHARE
#define CORNER CAV_ANCHOR_CORNER
#define SIDE CAV_ANCHOR_SIDE

typedef struct
{
  const char *desc;
  CavCutKind kind;
  CavAnchorKind anchor;
  CavCutForm form;
  double numbers[CAV_N_CUT_NUMBERS];
  double area;
} Shape;

/* Area of the segment of a circle of radius r that is d deep. */
#define SEGMENT(r, d)                                                                              \
  ((r) * (r)*acos (1.0 - (d) / (r)) - ((r) - (d)) * sqrt (2.0 * (r) * (d) - (d) * (d)))
#define HOLE (1.0 - G_PI / 4.0)

/* Closed formulas, written apart from the room's drawing of the cuts. */
static GArray *
collect_shapes (void)
{
  const Shape shapes[] = {
    { "rabbet", CAV_CUT_RABBET, CORNER, CAV_FORM_PLAIN, N ([WIDTH] = 6, [DEPTH] = 10), 60 },
    { "three steps", CAV_CUT_STEPS, CORNER, CAV_FORM_PLAIN,
      N ([CAV_CUT_COUNT] = 3, [CAV_CUT_RUN] = 5, [CAV_CUT_RISE] = 3), 90 },
    { "one step", CAV_CUT_STEPS, CORNER, CAV_FORM_PLAIN,
      N ([CAV_CUT_COUNT] = 1, [CAV_CUT_RUN] = 5, [CAV_CUT_RISE] = 3), 15 },
    { "flat groove", CAV_CUT_GROOVE, SIDE, CAV_FORM_FLAT,
      N ([POSITION] = 12, [WIDTH] = 4, [DEPTH] = 3), 12 },
    { "round groove", CAV_CUT_GROOVE, SIDE, CAV_FORM_ROUND,
      N ([POSITION] = 12, [WIDTH] = 4, [DEPTH] = 3), 4 * 1 + G_PI * 2 },
    { "flute of a half circle", CAV_CUT_GROOVE, SIDE, CAV_FORM_ROUND,
      N ([POSITION] = 12, [WIDTH] = 6, [DEPTH] = 3), G_PI * 4.5 },
    { "shallow flute", CAV_CUT_GROOVE, SIDE, CAV_FORM_ROUND,
      N ([POSITION] = 12, [WIDTH] = 8, [DEPTH] = 2), SEGMENT (5.0, 2.0) },
    { "cavetto", CAV_CUT_COVE, CORNER, CAV_FORM_PLAIN, N ([WIDTH] = 9.5, [DEPTH] = 9.5),
      G_PI * 9.5 * 9.5 / 4 },
    { "elliptic cavetto", CAV_CUT_COVE, CORNER, CAV_FORM_PLAIN, N ([WIDTH] = 12, [DEPTH] = 7),
      G_PI * 12 * 7 / 4 },
    { "shallow hollow", CAV_CUT_COVE, SIDE, CAV_FORM_PLAIN,
      N ([POSITION] = 12, [WIDTH] = 16, [DEPTH] = 4), SEGMENT (10.0, 4.0) },
    { "half round hollow", CAV_CUT_COVE, SIDE, CAV_FORM_PLAIN,
      N ([POSITION] = 12, [WIDTH] = 10, [DEPTH] = 5), G_PI * 12.5 },
    { "deep hollow", CAV_CUT_COVE, SIDE, CAV_FORM_PLAIN,
      N ([POSITION] = 12, [WIDTH] = 8, [DEPTH] = 9), G_PI * 4 * 9 / 2 },
    { "ovolo", CAV_CUT_ROUND, CORNER, CAV_FORM_PLAIN, N ([WIDTH] = 6, [DEPTH] = 6), 36 * HOLE },
    { "elliptic ovolo", CAV_CUT_ROUND, CORNER, CAV_FORM_PLAIN, N ([WIDTH] = 9, [DEPTH] = 4),
      36 * HOLE },
    { "chamfer", CAV_CUT_CHAMFER, CORNER, CAV_FORM_PLAIN, N ([WIDTH] = 4, [DEPTH] = 3), 6 },
    { "flush bead", CAV_CUT_BEAD, SIDE, CAV_FORM_FLUSH,
      N ([POSITION] = 12, [WIDTH] = 6, [QUIRK] = 1.5), 2 * (9 * HOLE + 1.5 * 3) },
    { "flush bead, deep quirk", CAV_CUT_BEAD, SIDE, CAV_FORM_FLUSH,
      N ([POSITION] = 12, [WIDTH] = 6, [QUIRK] = 1.5, [QUIRK_DEPTH] = 5),
      2 * (9 * HOLE + 1.5 * 5) },
    /* The quirk stops at 1 of the bead's radius of 3, where the bead is sqrt 5 wide to a side. */
    { "flush bead, shallow quirk", CAV_CUT_BEAD, SIDE, CAV_FORM_FLUSH,
      N ([POSITION] = 12, [WIDTH] = 6, [QUIRK] = 1.5, [QUIRK_DEPTH] = 1),
      2 * (4.5 * 1) - SEGMENT (3.0, 1.0) },
    { "flush bead without quirk", CAV_CUT_BEAD, SIDE, CAV_FORM_FLUSH,
      N ([POSITION] = 12, [WIDTH] = 6, [QUIRK_DEPTH] = 5), 2 * 9 * HOLE },
    { "edge bead", CAV_CUT_BEAD, CORNER, CAV_FORM_FLUSH, N ([WIDTH] = 6, [QUIRK] = 1.5),
      2 * 9 * HOLE + 1.5 * 3 },
    { "edge bead, deep quirk", CAV_CUT_BEAD, CORNER, CAV_FORM_FLUSH,
      N ([WIDTH] = 6, [QUIRK] = 1.5, [QUIRK_DEPTH] = 5), 2 * 9 * HOLE + 1.5 * 5 },
    { "proud edge bead", CAV_CUT_BEAD, CORNER, CAV_FORM_PROUD, N ([WIDTH] = 6, [QUIRK] = 1.5),
      60 * 3 - G_PI * 4.5 },
    { "cyma recta", CAV_CUT_OGEE, CORNER, CAV_FORM_RECTA,
      N ([WIDTH] = 10, [DEPTH] = 10, [SHARE] = 0.5), 50 },
    { "cyma reversa", CAV_CUT_OGEE, CORNER, CAV_FORM_REVERSA,
      N ([WIDTH] = 10, [DEPTH] = 10, [SHARE] = 0.5), 50 },
    /* Hollow of 9 x 3, a box of 3 x 3 beside it, and what lies outside the round of 3 x 1. */
    { "uneven recta", CAV_CUT_OGEE, CORNER, CAV_FORM_RECTA,
      N ([WIDTH] = 12, [DEPTH] = 4, [SHARE] = 0.75), G_PI / 4 * 27 + 9 + 3 * HOLE },
    { "uneven reversa", CAV_CUT_OGEE, CORNER, CAV_FORM_REVERSA,
      N ([WIDTH] = 12, [DEPTH] = 4, [SHARE] = 0.75), 27 * HOLE + 9 + G_PI / 4 * 3 },
  };
  GArray *array = g_array_new (FALSE, FALSE, sizeof (Shape));

  g_array_append_vals (array, shapes, G_N_ELEMENTS (shapes));
  return array;
}

static CavCut *
new_shape (const Shape *shape, int place)
{
  CavCut *cut = shape->anchor == CORNER ? cav_cut_new_at_corner (shape->kind, (CavCorner)place)
                                        : cav_cut_new_on_side (shape->kind, (CavSide)place);
  memcpy (cut->numbers, shape->numbers, sizeof cut->numbers);
  cut->form = shape->form;
  return cut;
}

static CavRegion *
create (const CavCut *cut)
{
  g_autoptr (GError) error = NULL;
  CavRegion *region = cav_cut_create_region (cut, &blank, &error);
  g_assert_no_error (error);
  return region;
}

/* At each corner and on each side a cut takes what its formula says. */
static void
test_areas (void)
{
  g_autoptr (GArray) shapes = collect_shapes ();

  for (guint i = 0; i < shapes->len; i++)
    for (int place = 0; place < 4; place++)
      {
        const Shape *shape = &g_array_index (shapes, Shape, i);
        g_autoptr (CavCut) cut = new_shape (shape, place);
        g_test_message ("%s at place %d", shape->desc, place);
        g_autoptr (CavRegion) region = create (cut);
        g_assert_cmpfloat_with_epsilon (cav_region_get_area (region), shape->area, 1e-4);
      }
}

/* Where a point of the back-inside corner, or of the back, lies for another place. */
static CavPoint
mirror (CavPoint point, CavAnchorKind anchor, int place)
{
  if (anchor == CORNER)
    return CAV_POINT (place & 1 ? blank.width - point.x : point.x,
                      place & 2 ? blank.thickness - point.y : point.y);
  switch ((CavSide)place)
    {
    case CAV_SIDE_BACK:
      return point;
    case CAV_SIDE_FACE:
      return CAV_POINT (point.x, blank.thickness - point.y);
    case CAV_SIDE_INSIDE:
      return CAV_POINT (point.y, point.x);
    case CAV_SIDE_OUTSIDE:
      return CAV_POINT (blank.width - point.y, point.x);
    }
  g_assert_not_reached ();
}

/* The same cut elsewhere is the mirror image, arcs and all: every point of its outline lies on the
 * mirrored outline, and the numbers of arcs agree. */
static void
test_mirrored (void)
{
  g_autoptr (GArray) shapes = collect_shapes ();

  for (guint i = 0; i < shapes->len; i++)
    {
      const Shape *shape = &g_array_index (shapes, Shape, i);
      g_autoptr (CavCut) first = new_shape (shape, 0);
      g_autoptr (CavRegion) region = create (first);
      g_test_message ("%s", shape->desc);
      for (int place = 1; place < 4; place++)
        {
          g_autoptr (CavCut) cut = new_shape (shape, place);
          g_autoptr (CavRegion) mirrored = create (cut);
          g_assert_cmpuint (cav_region_get_ring_count (mirrored), ==,
                            cav_region_get_ring_count (region));
          for (guint ring = 0; ring < cav_region_get_ring_count (region); ring++)
            {
              const CavPath *path = cav_region_get_ring (region, ring);
              for (guint s = 0; s < cav_path_get_segment_count (path); s++)
                for (int k = 0; k <= 8; k++)
                  {
                    CavPoint point = cav_segment_point_at (cav_path_get_segment (path, s), k / 8.0);
                    CavPoint there = mirror (point, shape->anchor, place);
                    g_assert_cmpfloat (cav_region_get_distance (mirrored, there), <, 1e-4);
                  }
            }
        }
    }
}

/* A shift moves the shape and does not change it. */
static void
test_shifted (void)
{
  g_autoptr (GArray) shapes = collect_shapes ();

  for (guint i = 0; i < shapes->len; i++)
    for (int place = 0; place < 4; place++)
      {
        const Shape *shape = &g_array_index (shapes, Shape, i);
        if (shape->form == CAV_FORM_PROUD)
          continue; /* its ledge ends at the blank's edge: test_proud */
        g_autoptr (CavCut) cut = new_shape (shape, place);
        g_autoptr (CavRegion) region = create (cut);
        cut->numbers[CAV_CUT_SHIFT_X] = 2.5;
        cut->numbers[CAV_CUT_SHIFT_Y] = 1.25;
        g_autoptr (CavRegion) shifted = create (cut);
        g_assert_cmpfloat_with_epsilon (cav_region_get_area (shifted), shape->area, 1e-4);

        gboolean from_outside = shape->anchor == CORNER ? (place & 1) : place == CAV_SIDE_OUTSIDE;
        gboolean from_face = shape->anchor == CORNER ? (place & 2) : place == CAV_SIDE_FACE;
        CavBox a = cav_region_get_bounds (region);
        CavBox b = cav_region_get_bounds (shifted);
        g_test_message ("%s at place %d", shape->desc, place);
        g_assert_cmpfloat_with_epsilon (b.x0 - a.x0, from_outside ? -2.5 : 2.5, 1e-4);
        g_assert_cmpfloat_with_epsilon (b.y1 - a.y1, from_face ? -1.25 : 1.25, 1e-4);
      }
}

/* A bevel takes a wedge from its whole side: height at the low end, height at the high end. */
static void
test_bevel (void)
{
  static const struct
  {
    CavSide side;
    double run;
    CavPoint inside, outside;
  } rows[] = {
    { CAV_SIDE_BACK, 60, { 5, 4 }, { 55, 4 } },
    { CAV_SIDE_FACE, 60, { 5, 21 }, { 55, 21 } },
    { CAV_SIDE_INSIDE, 25, { 4, 2 }, { 4, 23 } },
    { CAV_SIDE_OUTSIDE, 25, { 56, 2 }, { 56, 23 } },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (CavCut) cut = cav_cut_new_on_side (CAV_CUT_BEVEL, rows[i].side);
      cut->numbers[CAV_CUT_START_HEIGHT] = 6.0;
      cut->numbers[CAV_CUT_END_HEIGHT] = 2.0;
      g_autoptr (CavRegion) region = create (cut);
      g_assert_cmpfloat_with_epsilon (cav_region_get_area (region), rows[i].run * 4.0, 1e-4);
      g_assert_true (cav_region_contains (region, rows[i].inside));
      g_assert_false (cav_region_contains (region, rows[i].outside));

      cut->numbers[CAV_CUT_END_HEIGHT] = 0.0;
      g_autoptr (CavRegion) wedge = create (cut);
      g_assert_cmpfloat_with_epsilon (cav_region_get_area (wedge), rows[i].run * 3.0, 1e-4);
    }
}

/* A proud bead stands as a half round on a ledge at its middle that runs over the whole side. */
static void
test_proud (void)
{
  g_autoptr (CavCut) cut = cav_cut_new_on_side (CAV_CUT_BEAD, CAV_SIDE_FACE);
  cut->form = CAV_FORM_PROUD;
  cut->numbers[POSITION] = 20.0;
  cut->numbers[WIDTH] = 6.0;
  cut->numbers[QUIRK] = 0.0;
  g_autoptr (CavRegion) plain = create (cut);
  g_assert_cmpfloat_with_epsilon (cav_region_get_area (plain), 60.0 * 3.0 - G_PI * 4.5, 1e-4);
  g_assert_true (cav_region_contains (plain, CAV_POINT (0.1, 22.1)));
  g_assert_true (cav_region_contains (plain, CAV_POINT (59.9, 22.1)));
  g_assert_false (cav_region_contains (plain, CAV_POINT (20.0, 24.9)));

  /* Quirks go on from the ledge down. */
  cut->numbers[QUIRK] = 1.5;
  cut->numbers[QUIRK_DEPTH] = 5.0;
  g_autoptr (CavRegion) quirked = create (cut);
  g_assert_cmpfloat_with_epsilon (cav_region_get_area (quirked),
                                  60.0 * 3.0 - G_PI * 4.5 + 2.0 * 1.5 * 2.0, 1e-4);
  g_assert_true (cav_region_contains (quirked, CAV_POINT (24.0, 20.5)));
  g_assert_false (cav_region_contains (quirked, CAV_POINT (25.0, 20.5)));

  /* On a ledge 2 deep and shifted along the side it still reaches both ends and no further. */
  cut->numbers[CAV_CUT_SHIFT_X] = 7.0;
  cut->numbers[CAV_CUT_SHIFT_Y] = 2.0;
  g_autoptr (CavRegion) shifted = create (cut);
  CavBox bounds = cav_region_get_bounds (shifted);
  g_assert_cmpfloat_with_epsilon (cav_region_get_area (shifted), cav_region_get_area (quirked),
                                  1e-4);
  g_assert_cmpfloat_with_epsilon (bounds.x0, 0.0, 1e-4);
  g_assert_cmpfloat_with_epsilon (bounds.x1, 60.0, 1e-4);
  g_assert_cmpfloat_with_epsilon (bounds.y1, 23.0, 1e-4);

  cut->side = CAV_SIDE_INSIDE;
  cut->numbers[POSITION] = 10.0;
  cut->numbers[CAV_CUT_SHIFT_X] = 0.0;
  g_autoptr (CavRegion) upright = create (cut);
  bounds = cav_region_get_bounds (upright);
  g_assert_cmpfloat_with_epsilon (bounds.y0, 0.0, 1e-4);
  g_assert_cmpfloat_with_epsilon (bounds.y1, 25.0, 1e-4);
}

/* An edge bead is the bead on the side, right at its end. */
static void
test_edge_bead_is_side_bead (void)
{
  g_autoptr (CavCut) edge = cav_cut_new_at_corner (CAV_CUT_BEAD, CAV_CORNER_FACE_INSIDE);
  edge->numbers[WIDTH] = 6.0;
  g_autoptr (CavCut) side = cav_cut_new_on_side (CAV_CUT_BEAD, CAV_SIDE_FACE);
  memcpy (side->numbers, edge->numbers, sizeof edge->numbers);
  side->numbers[POSITION] = 3.0;

  g_autoptr (CavRegion) whole = cav_blank_create_region (&blank);
  g_autoptr (CavRegion) a = create (edge);
  g_autoptr (CavRegion) b = create (side);
  g_autoptr (CavRegion) clipped = cav_region_intersection (b, whole, NULL);
  g_autoptr (CavRegion) more = cav_region_difference (a, clipped, NULL);
  g_assert_cmpfloat_with_epsilon (cav_region_get_area (a), cav_region_get_area (clipped), 1e-4);
  g_assert_cmpfloat (cav_region_get_area (more), <, 1e-4);
}

static const CavSegment *
find_arc (const CavRegion *region, CavPoint centre, double rx, double ry)
{
  for (guint ring = 0; ring < cav_region_get_ring_count (region); ring++)
    {
      const CavPath *path = cav_region_get_ring (region, ring);
      for (guint i = 0; i < cav_path_get_segment_count (path); i++)
        {
          const CavSegment *segment = cav_path_get_segment (path, i);
          if (segment->kind == CAV_SEGMENT_ARC && cav_point_near (segment->centre, centre, 1e-6)
              && fabs (segment->rx - rx) < 1e-6 && fabs (segment->ry - ry) < 1e-6)
            return segment;
        }
    }
  return NULL;
}

/*
 * The cyma recta of two quarter circles, as the Building Trades Pocketbook (fig. 5) and Nicholson
 * (fig. 10) draw it: height = projection = 2 r, the curves tangent at the middle of the line
 * between the ends, centres on the sides of the square. Here with the curve square to the face,
 * and the reversa as the same S turned.
 */
static void
test_cyma (void)
{
  static const struct
  {
    CavCutForm form;
    CavPoint first, second;
  } rows[] = {
    { CAV_FORM_RECTA, { 6, 25 }, { 6, 13 } },
    { CAV_FORM_REVERSA, { 12, 19 }, { 0, 19 } },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (CavCut) cut = cav_cut_new_at_corner (CAV_CUT_OGEE, CAV_CORNER_FACE_INSIDE);
      cut->form = rows[i].form;
      cut->numbers[WIDTH] = 12.0;
      cut->numbers[DEPTH] = 12.0;
      g_autoptr (CavRegion) region = create (cut);
      const CavSegment *first = find_arc (region, rows[i].first, 6.0, 6.0);
      const CavSegment *second = find_arc (region, rows[i].second, 6.0, 6.0);
      g_assert_nonnull (first);
      g_assert_nonnull (second);
      g_assert_cmpfloat_with_epsilon (fabs (first->sweep), 90.0, 1e-6);
      g_assert_cmpfloat_with_epsilon (fabs (second->sweep), 90.0, 1e-6);

      /* Tangent in the middle: the meeting point lies on the line of the centres. */
      CavPoint middle = CAV_POINT (6.0, 19.0);
      g_assert_true (cav_point_near (first->from, middle, 1e-6)
                     || cav_point_near (first->to, middle, 1e-6));
      g_assert_true (cav_point_near (second->from, middle, 1e-6)
                     || cav_point_near (second->to, middle, 1e-6));
      g_assert_cmpfloat_with_epsilon (cav_point_distance (first->centre, second->centre), 12.0,
                                      1e-6);

      /* Recta is hollow by the face: the point a little under the face, off the middle, is gone. */
      gboolean hollow = rows[i].form == CAV_FORM_RECTA;
      g_assert_cmpint (cav_region_contains (region, CAV_POINT (11.0, 24.0)), ==, hollow);
      g_assert_cmpint (cav_region_contains (region, CAV_POINT (1.0, 14.0)), ==, !hollow);
    }
}

/* The scotia by numbers after Nicholson: the height in three parts, the upper quadrant with a
 * radius of one, the lower of two, tangent to each other. Drawn, hollow in the inside: both curves
 * meet three parts in, two parts up, where the line through their centres ends. */
static void
test_scotia (void)
{
  const double part = 4.0;
  g_autoptr (CavPath) path = cav_path_new ();

  cav_path_move_to (path, CAV_POINT (0.0, 0.0));
  cav_path_line_to (path, CAV_POINT (part, 0.0));
  cav_path_arc (path, CAV_POINT (part, 2.0 * part), 2.0 * part, 2.0 * part, -90.0, 90.0);
  cav_path_arc (path, CAV_POINT (2.0 * part, 2.0 * part), part, part, 0.0, 90.0);
  cav_path_line_to (path, CAV_POINT (0.0, 3.0 * part));
  cav_path_close (path);
  g_autoptr (CavCut) cut = cav_cut_new_drawn (path);
  g_autoptr (CavRegion) region = create (cut);

  const CavSegment *lower = find_arc (region, CAV_POINT (part, 2.0 * part), 8.0, 8.0);
  const CavSegment *upper = find_arc (region, CAV_POINT (2.0 * part, 2.0 * part), 4.0, 4.0);
  CavPoint meet = CAV_POINT (3.0 * part, 2.0 * part);
  g_assert_nonnull (lower);
  g_assert_nonnull (upper);
  g_assert_true (cav_point_near (lower->to, meet, 1e-6)
                 || cav_point_near (lower->from, meet, 1e-6));
  g_assert_true (cav_point_near (upper->to, meet, 1e-6)
                 || cav_point_near (upper->from, meet, 1e-6));
  /* A quarter disc of two parts and one of one, with the boxes beside them. */
  g_assert_cmpfloat_with_epsilon (cav_region_get_area (region),
                                  part * part * (2.0 + G_PI + G_PI / 4.0 + 2.0), 1e-4);
}

/* A cavetto is the hollow that the ovolo of the same size leaves: together they are its box. */
static void
test_cavetto_and_ovolo (void)
{
  g_autoptr (CavCut) cove = cav_cut_new_at_corner (CAV_CUT_COVE, CAV_CORNER_FACE_INSIDE);
  g_autoptr (CavCut) round = cav_cut_new_at_corner (CAV_CUT_ROUND, CAV_CORNER_FACE_INSIDE);
  cove->numbers[WIDTH] = round->numbers[WIDTH] = 8.0;
  cove->numbers[DEPTH] = round->numbers[DEPTH] = 5.0;
  g_autoptr (CavRegion) a = create (cove);
  g_autoptr (CavRegion) b = create (round);

  g_assert_cmpfloat_with_epsilon (cav_region_get_area (a) / 40.0, G_PI / 4.0, 1e-5);
  g_assert_cmpfloat_with_epsilon (cav_region_get_area (b) / 40.0, HOLE, 1e-5);
  g_assert_nonnull (find_arc (a, CAV_POINT (0.0, 25.0), 8.0, 5.0));
  g_assert_nonnull (find_arc (b, CAV_POINT (8.0, 20.0), 8.0, 5.0));
}

/* Every number of every kind is refused out of its range, by name. */
static void
test_ranges (void)
{
  for (int kind = 0; kind < CAV_N_CUT_KINDS; kind++)
    {
      const CavCutInfo *info = cav_cut_kind_get_info ((CavCutKind)kind);
      for (guint i = 0; i < info->n_numbers; i++)
        {
          const CavCutNumberInfo *number = &info->numbers[i];
          const double bad[]
              = { number->minimum - 0.01, number->maximum + 0.01, NAN, INFINITY, -INFINITY };
          for (guint k = 0; k < G_N_ELEMENTS (bad); k++)
            {
              g_autoptr (GError) error = NULL;
              g_autoptr (CavCut) cut = cav_cut_new ((CavCutKind)kind);
              cut->numbers[number->number] = bad[k];
              g_autoptr (CavRegion) region = cav_cut_create_region (cut, &blank, &error);
              g_assert_null (region);
              g_assert_error (error, CAV_PROFILE_ERROR, CAV_PROFILE_ERROR_RANGE);
              g_assert_nonnull (strstr (error->message, number->name));
              g_assert_nonnull (strstr (error->message, info->name));
            }
        }
    }
}

/* At the ends of every number's range a cut is still made, or refused with a message. */
static void
test_range_ends (void)
{
  for (int kind = 0; kind < CAV_N_CUT_KINDS; kind++)
    {
      const CavCutInfo *info = cav_cut_kind_get_info ((CavCutKind)kind);
      for (guint form = 0; form < info->n_forms; form++)
        for (guint i = 0; i < 2 * info->n_numbers; i++)
          {
            const CavCutNumberInfo *number = &info->numbers[i / 2];
            g_autoptr (GError) error = NULL;
            g_autoptr (CavCut) cut = cav_cut_new ((CavCutKind)kind);
            cut->form = info->forms[form];
            cut->numbers[number->number] = i % 2 ? number->maximum : number->minimum;
            g_test_message ("%s %s %g", info->name, number->name, cut->numbers[number->number]);
            g_autoptr (CavRegion) region = cav_cut_create_region (cut, &blank, &error);
            if (kind == CAV_CUT_BEVEL && number->number == CAV_CUT_START_HEIGHT && i % 2 == 0)
              {
                g_assert_null (region); /* both heights are 0 */
                g_assert_error (error, CAV_PROFILE_ERROR, CAV_PROFILE_ERROR_RANGE);
                continue;
              }
            g_assert_no_error (error);
            g_assert_cmpfloat (cav_region_get_area (region), >, 0.0);
          }
    }
}

static void
test_anchors (void)
{
  static const struct
  {
    const char *desc;
    CavCutKind kind;
    CavAnchorKind anchor;
    const char *says;
  } rows[] = {
    { "rabbet on a side", CAV_CUT_RABBET, CAV_ANCHOR_SIDE, "at a corner" },
    { "groove at a corner", CAV_CUT_GROOVE, CAV_ANCHOR_CORNER, "on a side" },
    { "cove free", CAV_CUT_COVE, CAV_ANCHOR_FREE, "at a corner or on a side" },
    { "drawn at a corner", CAV_CUT_DRAWN, CAV_ANCHOR_CORNER, "free" },
    { "nowhere", CAV_CUT_ROUND, (CavAnchorKind)99, "at a corner" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (GError) error = NULL;
      g_autoptr (CavCut) cut = cav_cut_new (rows[i].kind);
      cut->anchor = rows[i].anchor;
      g_autoptr (CavRegion) region = cav_cut_create_region (cut, &blank, &error);
      g_test_message ("%s", rows[i].desc);
      g_assert_null (region);
      g_assert_error (error, CAV_PROFILE_ERROR, CAV_PROFILE_ERROR_ANCHOR);
      g_assert_nonnull (strstr (error->message, rows[i].says));
    }
}

static void
test_forms (void)
{
  for (int kind = 0; kind < CAV_N_CUT_KINDS; kind++)
    {
      g_autoptr (GError) error = NULL;
      g_autoptr (CavCut) cut = cav_cut_new ((CavCutKind)kind);
      cut->form = kind == CAV_CUT_OGEE ? CAV_FORM_FLAT : CAV_FORM_RECTA;
      g_autoptr (CavRegion) region = cav_cut_create_region (cut, &blank, &error);
      g_assert_null (region);
      g_assert_error (error, CAV_PROFILE_ERROR, CAV_PROFILE_ERROR_RANGE);
      g_assert_nonnull (strstr (error->message, "form"));
    }
}

static void
test_bad_blank (void)
{
  const CavBlank bad = { NAN, 25.0 };
  g_autoptr (GError) error = NULL;
  g_autoptr (CavCut) cut = cav_cut_new (CAV_CUT_BEVEL);
  g_autoptr (CavRegion) region = cav_cut_create_region (cut, &bad, &error);

  g_assert_null (region);
  g_assert_error (error, CAV_PROFILE_ERROR, CAV_PROFILE_ERROR_RANGE);
}

/* Paths that enclose nothing: none, open, crossing itself, flat. */
static void
test_bad_paths (void)
{
  g_autoptr (CavPath) open = cav_path_new ();
  cav_path_move_to (open, CAV_POINT (0.0, 0.0));
  cav_path_line_to (open, CAV_POINT (5.0, 0.0));
  cav_path_line_to (open, CAV_POINT (5.0, 5.0));
  g_autoptr (CavPath) crossing = cav_path_copy (open);
  cav_path_line_to (crossing, CAV_POINT (1.0, -3.0));
  cav_path_close (crossing);
  g_autoptr (CavPath) flat = cav_path_new ();
  cav_path_move_to (flat, CAV_POINT (0.0, 0.0));
  cav_path_line_to (flat, CAV_POINT (5.0, 0.0));
  cav_path_close (flat);
  const CavPath *const paths[] = { NULL, open, crossing, flat };

  for (guint i = 0; i < G_N_ELEMENTS (paths); i++)
    {
      g_autoptr (GError) error = NULL;
      g_autoptr (CavCut) cut
          = paths[i] != NULL ? cav_cut_new_drawn (paths[i]) : cav_cut_new (CAV_CUT_DRAWN);
      g_autoptr (CavRegion) region = cav_cut_create_region (cut, &blank, &error);
      g_test_message ("path %u: %s", i, error != NULL ? error->message : "taken");
      g_assert_null (region);
      g_assert_error (error, CAV_PROFILE_ERROR, CAV_PROFILE_ERROR_PATH);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/profile/cut-region/areas", test_areas);
  g_test_add_func ("/profile/cut-region/mirrored", test_mirrored);
  g_test_add_func ("/profile/cut-region/shifted", test_shifted);
  g_test_add_func ("/profile/cut-region/bevel", test_bevel);
  g_test_add_func ("/profile/cut-region/proud", test_proud);
  g_test_add_func ("/profile/cut-region/edge-bead-is-side-bead", test_edge_bead_is_side_bead);
  g_test_add_func ("/profile/cut-region/cyma", test_cyma);
  g_test_add_func ("/profile/cut-region/scotia", test_scotia);
  g_test_add_func ("/profile/cut-region/cavetto-and-ovolo", test_cavetto_and_ovolo);
  g_test_add_func ("/profile/cut-region/ranges", test_ranges);
  g_test_add_func ("/profile/cut-region/range-ends", test_range_ends);
  g_test_add_func ("/profile/cut-region/anchors", test_anchors);
  g_test_add_func ("/profile/cut-region/forms", test_forms);
  g_test_add_func ("/profile/cut-region/bad-blank", test_bad_blank);
  g_test_add_func ("/profile/cut-region/bad-paths", test_bad_paths);
  return g_test_run ();
}
