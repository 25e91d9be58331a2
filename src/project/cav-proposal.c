/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "project/cav-proposal.h"

#include <math.h>
#include <string.h>

#include "geometry/cav-tolerance.h"
#include "geometry/cav-unit.h"
#include "project/cav-place-private.h"

/* Directions nearer to an axis than this run along it: a sixtieth of a degree and less. */
#define LEVEL 1e-4
/* Shorter edges are no place for a cut, mm. */
#define SHORT_EDGE 0.5
/* A fresh cut takes no more than this share of what it stands on. */
#define MOST_SHARE 0.5
/* Drawn out less than this, mm, a number keeps its usual value. */
#define LEAST_DRAWN 0.25

/* A convex right-angled corner of the wood. */
typedef struct
{
  CavPoint point;
  CavCorner corner; /* the corner of the blank that looks the same way */
  double room_x;    /* how far the wood goes on level from here */
  double room_y;
} WoodCorner;

/* A level or upright edge of the wood. */
typedef struct
{
  CavSide side; /* the side of the blank that looks the same way */
  double low;   /* from here to there along the side */
  double high;
  double at; /* its y where level, its x where upright */
} WoodEdge;

/* The way a segment runs at its start or end, of length 1. */
static CavPoint
get_tangent (const CavSegment *segment, gboolean at_end)
{
  double dx = segment->to.x - segment->from.x;
  double dy = segment->to.y - segment->from.y;

  if (segment->kind == CAV_SEGMENT_ARC)
    {
      double t = CAV_RADIANS (segment->start + (at_end ? segment->sweep : 0.0));
      double turn = CAV_RADIANS (segment->rotation);
      double u = copysign (1.0, segment->sweep) * -segment->rx * sin (t);
      double v = copysign (1.0, segment->sweep) * segment->ry * cos (t);

      dx = u * cos (turn) - v * sin (turn);
      dy = u * sin (turn) + v * cos (turn);
    }
  double length = hypot (dx, dy);
  return length > 0.0 ? CAV_POINT (dx / length, dy / length) : CAV_POINT (0.0, 0.0);
}

static gboolean
is_level (CavPoint direction)
{
  return fabs (direction.y) < LEVEL;
}

static gboolean
is_upright (CavPoint direction)
{
  return fabs (direction.x) < LEVEL;
}

/* How far a straight segment goes; a curve gives no room to measure by. */
static double
get_room (const CavSegment *segment)
{
  return segment->kind == CAV_SEGMENT_LINE ? cav_point_distance (segment->from, segment->to)
                                           : INFINITY;
}

/* Outlines run with the wood to their left: a convex corner is a turn to the left, and the wood
 * lies on from it the way that it goes on and back the way that it came. */
static gboolean
read_corner (const CavSegment *before, const CavSegment *after, WoodCorner *out_corner)
{
  CavPoint in = get_tangent (before, TRUE);
  CavPoint out = get_tangent (after, FALSE);
  gboolean square = (is_level (in) && is_upright (out)) || (is_upright (in) && is_level (out));

  if (!square || in.x * out.y - in.y * out.x <= 0.0)
    return FALSE;
  out_corner->point = after->from;
  out_corner->corner = cav_corner_from_ends (out.x - in.x < 0.0, out.y - in.y < 0.0);
  out_corner->room_x = get_room (is_level (in) ? before : after);
  out_corner->room_y = get_room (is_level (in) ? after : before);
  return TRUE;
}

static gboolean
read_edge (const CavSegment *segment, WoodEdge *out_edge)
{
  CavPoint way = get_tangent (segment, FALSE);
  gboolean level = is_level (way);

  if (segment->kind != CAV_SEGMENT_LINE || (!level && !is_upright (way))
      || cav_point_distance (segment->from, segment->to) < SHORT_EDGE)
    return FALSE;
  if (level)
    *out_edge = (WoodEdge){ way.x > 0.0 ? CAV_SIDE_BACK : CAV_SIDE_FACE,
                            fmin (segment->from.x, segment->to.x),
                            fmax (segment->from.x, segment->to.x), segment->from.y };
  else
    *out_edge = (WoodEdge){ way.y > 0.0 ? CAV_SIDE_OUTSIDE : CAV_SIDE_INSIDE,
                            fmin (segment->from.y, segment->to.y),
                            fmax (segment->from.y, segment->to.y), segment->from.x };
  return TRUE;
}

static double
get_edge_distance (const WoodEdge *edge, CavPoint point)
{
  double along = cav_side_is_level (edge->side) ? point.x : point.y;
  double across = cav_side_is_level (edge->side) ? point.y : point.x;

  return hypot (along - CLAMP (along, edge->low, edge->high), across - edge->at);
}

typedef struct
{
  CavPoint pointer;
  double corner_distance; /* INFINITY: none found */
  WoodCorner corner;
  double edge_distance;
  WoodEdge edge;
} Search;

static void
search_ring (Search *search, const CavPath *ring)
{
  guint n = cav_path_get_segment_count (ring);

  for (guint i = 0; i < n; i++)
    {
      const CavSegment *before = cav_path_get_segment (ring, (i + n - 1) % n);
      const CavSegment *after = cav_path_get_segment (ring, i);
      WoodCorner corner;
      WoodEdge edge;

      if (read_corner (before, after, &corner)
          && cav_point_distance (corner.point, search->pointer) < search->corner_distance)
        {
          search->corner = corner;
          search->corner_distance = cav_point_distance (corner.point, search->pointer);
        }
      if (read_edge (after, &edge)
          && get_edge_distance (&edge, search->pointer) < search->edge_distance)
        {
          search->edge = edge;
          search->edge_distance = get_edge_distance (&edge, search->pointer);
        }
    }
}

/* Among the outlines of the section as it stands; in the blank where that has no such place. */
static Search
search_wood (CavProject *project, CavPoint pointer)
{
  Search search = { .pointer = pointer, .corner_distance = INFINITY, .edge_distance = INFINITY };
  const CavRegion *region = cav_project_get_profile (project)->region;

  for (guint i = 0; i < cav_region_get_ring_count (region); i++)
    search_ring (&search, cav_region_get_ring (region, i));
  if (isinf (search.corner_distance) || isinf (search.edge_distance))
    {
      CavBlank blank = cav_project_get_blank (project);
      g_autoptr (CavRegion) whole = cav_region_new_box (0.0, 0.0, blank.width, blank.thickness);
      Search plain = { .pointer = pointer,
                       .corner_distance = search.corner_distance,
                       .edge_distance = search.edge_distance,
                       .corner = search.corner,
                       .edge = search.edge };

      search_ring (&plain, cav_region_get_ring (whole, 0));
      search = plain;
    }
  return search;
}

/* Sizes that are not drawn out are whole halves of a millimetre where they must be less than
 * usual. */
static double
limit_size (double usual, double room)
{
  double most = room * MOST_SHARE;

  if (usual <= most)
    return usual;
  return most >= 0.5 ? floor (most * 2.0) / 2.0 : fmax (most, 0.1);
}

static const CavCutNumberInfo *
find_info (const CavCut *cut, CavCutNumber number)
{
  const CavCutInfo *info = cav_cut_kind_get_info (cut->kind);

  for (guint i = 0; i < info->n_numbers; i++)
    if (info->numbers[i].number == number)
      return &info->numbers[i];
  return NULL;
}

static void
set_in_range (CavCut *cut, CavCutNumber number, double value)
{
  const CavCutNumberInfo *info = find_info (cut, number);

  if (info != NULL)
    cut->numbers[number] = CLAMP (value, info->minimum, info->maximum);
}

/* Width and depth of a cut at a corner by whatever numbers its kind has. */
static void
set_corner_size (CavCut *cut, double width, double depth)
{
  double count = cut->numbers[CAV_CUT_COUNT];

  if (cut->kind == CAV_CUT_STEPS)
    {
      set_in_range (cut, CAV_CUT_RUN, width / count);
      set_in_range (cut, CAV_CUT_RISE, depth / count);
      return;
    }
  /* A bead is as deep as half its width. */
  set_in_range (cut, CAV_CUT_WIDTH, cut->kind == CAV_CUT_BEAD ? fmax (width, 2.0 * depth) : width);
  set_in_range (cut, CAV_CUT_DEPTH, depth);
}

static void
get_corner_size (const CavCut *cut, double *out_width, double *out_depth)
{
  const double *n = cut->numbers;

  *out_width = n[CAV_CUT_WIDTH];
  *out_depth = cut->kind == CAV_CUT_BEAD ? n[CAV_CUT_WIDTH] / 2.0 : n[CAV_CUT_DEPTH];
  if (cut->kind == CAV_CUT_STEPS)
    {
      *out_width = n[CAV_CUT_COUNT] * n[CAV_CUT_RUN];
      *out_depth = n[CAV_CUT_COUNT] * n[CAV_CUT_RISE];
    }
}

/* (transfer full) A cut of usual size, or less where there is little room. */
static CavCut *
new_at_corner (CavCutKind kind, const WoodCorner *place, const CavBlank *blank)
{
  CavCut *cut = cav_cut_new_at_corner (kind, place->corner);
  gboolean outside = cav_corner_is_outside (place->corner);
  gboolean face = cav_corner_is_face (place->corner);
  double width, depth, room_x, room_y;

  cut->numbers[CAV_CUT_SHIFT_X] = outside ? blank->width - place->point.x : place->point.x;
  cut->numbers[CAV_CUT_SHIFT_Y] = face ? blank->thickness - place->point.y : place->point.y;
  room_x = fmin (place->room_x, blank->width - cut->numbers[CAV_CUT_SHIFT_X]);
  room_y = fmin (place->room_y, blank->thickness - cut->numbers[CAV_CUT_SHIFT_Y]);
  get_corner_size (cut, &width, &depth);
  width = limit_size (width, room_x);
  depth = limit_size (depth, room_y);
  /* Round things stay round. */
  if (kind == CAV_CUT_COVE || kind == CAV_CUT_ROUND || kind == CAV_CUT_OGEE
      || kind == CAV_CUT_CHAMFER)
    width = depth = fmin (width, depth);
  if (kind == CAV_CUT_BEAD)
    width = fmin (width, 2.0 * depth), depth = 0.0;
  set_corner_size (cut, width, depth);
  return cut;
}

/* The edge's distance from the side of the blank that looks the same way. */
static double
get_sink (const WoodEdge *edge, const CavBlank *blank)
{
  switch (edge->side)
    {
    case CAV_SIDE_BACK:
    case CAV_SIDE_INSIDE:
      return edge->at;
    case CAV_SIDE_FACE:
      return blank->thickness - edge->at;
    case CAV_SIDE_OUTSIDE:
      return blank->width - edge->at;
    }
  g_return_val_if_reached (0.0);
}

/* (transfer full) */
static CavCut *
new_bevel (const WoodEdge *edge, const CavBlank *blank, CavPoint pointer)
{
  CavCut *cut = cav_cut_new_on_side (CAV_CUT_BEVEL, edge->side);
  gboolean level = cav_side_is_level (edge->side);
  double length = level ? blank->width : blank->thickness;
  double room = level ? blank->thickness : blank->width;
  double along = level ? pointer.x : pointer.y;
  double usual = limit_size (cut->numbers[CAV_CUT_START_HEIGHT], room);

  /* It falls toward the end that is pointed at. */
  cut->numbers[CAV_CUT_START_HEIGHT] = along < length / 2.0 ? usual : 0.0;
  cut->numbers[CAV_CUT_END_HEIGHT] = along < length / 2.0 ? 0.0 : usual;
  return cut;
}

/* (transfer full) */
static CavCut *
new_on_edge (CavCutKind kind, const WoodEdge *edge, const CavBlank *blank, CavPoint pointer)
{
  if (kind == CAV_CUT_BEVEL)
    return new_bevel (edge, blank, pointer);

  CavCut *cut = cav_cut_new_on_side (kind, edge->side);
  gboolean level = cav_side_is_level (edge->side);
  double along = level ? pointer.x : pointer.y;
  double room = (level ? blank->thickness : blank->width) - get_sink (edge, blank);
  double width = limit_size (cut->numbers[CAV_CUT_WIDTH], (edge->high - edge->low) / MOST_SHARE);
  double half = width / 2.0;

  /* A hollow of usual size is as deep as wide: half of that is a half circle. */
  double usual = kind == CAV_CUT_COVE ? half : cut->numbers[CAV_CUT_DEPTH];
  set_in_range (cut, CAV_CUT_WIDTH, width);
  set_in_range (cut, CAV_CUT_DEPTH, limit_size (usual, room));
  cut->numbers[cav_cut_get_sink_number (cut)] = get_sink (edge, blank);
  cav_cut_set_along (cut, CLAMP (along, edge->low + half, edge->high - half));
  return cut;
}

/* A cove or bead that could stand at a corner stands there when the pointer is as near to the
 * corner as the cut is wide, and not farther than a quarter of the edge. */
static gboolean
prefers_corner (CavCutKind kind, const Search *search)
{
  guint anchors = cav_cut_kind_get_info (kind)->anchors;
  g_autoptr (CavCut) usual = cav_cut_new (kind);

  if (!(anchors & (1u << CAV_ANCHOR_SIDE)))
    return TRUE;
  if (!(anchors & (1u << CAV_ANCHOR_CORNER)))
    return FALSE;
  return search->corner_distance
         <= fmin (usual->numbers[CAV_CUT_WIDTH], (search->edge.high - search->edge.low) / 4.0);
}

/* A bevel takes the blank's whole side; ledges do not count. */
static void
search_blank_side (Search *search, const CavBlank *blank)
{
  g_autoptr (CavRegion) whole = cav_region_new_box (0.0, 0.0, blank->width, blank->thickness);
  CavPoint pointer = search->pointer;

  *search = (Search){ .pointer = pointer, .corner_distance = INFINITY, .edge_distance = INFINITY };
  search_ring (search, cav_region_get_ring (whole, 0));
}

/* (transfer full) */
static CavCut *
propose (CavProject *project, CavCutKind kind, CavPoint pointer)
{
  CavBlank blank = cav_project_get_blank (project);
  Search search = search_wood (project, pointer);

  if (kind == CAV_CUT_BEVEL)
    search_blank_side (&search, &blank);
  if (prefers_corner (kind, &search))
    return new_at_corner (kind, &search.corner, &blank);
  return new_on_edge (kind, &search.edge, &blank, pointer);
}

/* How far a point is from the blank; 0 inside. */
static double
get_blank_distance (const CavBlank *blank, CavPoint point)
{
  return hypot (point.x - CLAMP (point.x, 0.0, blank->width),
                point.y - CLAMP (point.y, 0.0, blank->thickness));
}

CavCut *
cav_proposal_at (CavProject *project, CavCutKind kind, CavPoint point, double reach)
{
  CavBlank blank;

  g_return_val_if_fail (CAV_IS_PROJECT (project), NULL);
  g_return_val_if_fail ((guint)kind < CAV_N_CUT_KINDS, NULL);
  g_return_val_if_fail (cav_point_is_finite (point), NULL);

  blank = cav_project_get_blank (project);
  if (kind == CAV_CUT_DRAWN || !cav_blank_check (&blank, NULL)
      || get_blank_distance (&blank, point) > reach)
    return NULL;
  return propose (project, kind, point);
}

/* A point as a cut's frame has it. */
static CavPoint
to_frame (const CavTransform *frame, CavPoint point)
{
  double dx = point.x - frame->x0;
  double dy = point.y - frame->y0;

  /* The frame only turns and mirrors: its inverse is its transpose. */
  return CAV_POINT (frame->xx * dx + frame->yx * dy, frame->xy * dx + frame->yy * dy);
}

static void
draw_out_corner (CavCut *cut, CavPoint to)
{
  double width, depth;

  get_corner_size (cut, &width, &depth);
  if (cut->kind == CAV_CUT_BEAD)
    depth = 0.0;
  set_corner_size (cut, to.x > LEAST_DRAWN ? to.x : fmin (width, 1.0),
                   to.y > LEAST_DRAWN ? to.y
                                      : (cut->kind == CAV_CUT_BEAD ? 0.0 : fmin (depth, 1.0)));
}

static void
draw_out_side (CavCut *cut, CavPoint from, CavPoint to, double run)
{
  double width = fabs (to.x - from.x);
  CavCutNumber far_end = to.x < run / 2.0 ? CAV_CUT_START_HEIGHT : CAV_CUT_END_HEIGHT;

  if (cut->kind == CAV_CUT_BEVEL)
    {
      cut->numbers[CAV_CUT_START_HEIGHT] = cut->numbers[CAV_CUT_END_HEIGHT] = 0.0;
      set_in_range (cut, far_end, fmax (to.y, CAV_LEAST_BEVEL));
      return;
    }
  if (width > LEAST_DRAWN)
    {
      set_in_range (cut, CAV_CUT_WIDTH, width);
      set_in_range (cut, CAV_CUT_POSITION, (from.x + to.x) / 2.0);
    }
  if (to.y > LEAST_DRAWN)
    set_in_range (cut, CAV_CUT_DEPTH, to.y);
}

CavCut *
cav_proposal_from_drag (CavProject *project, CavCutKind kind, CavPoint from, CavPoint to)
{
  CavBlank blank;
  CavTransform frame;
  CavCut *cut;

  g_return_val_if_fail (CAV_IS_PROJECT (project), NULL);
  g_return_val_if_fail ((guint)kind < CAV_N_CUT_KINDS, NULL);
  g_return_val_if_fail (cav_point_is_finite (from) && cav_point_is_finite (to), NULL);

  blank = cav_project_get_blank (project);
  if (kind == CAV_CUT_DRAWN || !cav_blank_check (&blank, NULL)
      || cav_point_near (from, to, LEAST_DRAWN))
    return NULL;
  cut = propose (project, kind, from);
  frame = cav_cut_get_frame (cut, &blank);
  if (cut->anchor == CAV_ANCHOR_CORNER)
    draw_out_corner (cut, to_frame (&frame, to));
  else
    draw_out_side (cut, to_frame (&frame, from), to_frame (&frame, to),
                   cav_cut_get_run (cut, &blank));
  return cut;
}

void
cav_proposal_get_place (const CavCut *cut,
                        const CavBlank *blank,
                        CavPoint *out_from,
                        CavPoint *out_to)
{
  CavTransform frame;
  double run;

  g_return_if_fail (cut != NULL);
  g_return_if_fail (blank != NULL);
  g_return_if_fail (out_from != NULL && out_to != NULL);

  frame = cav_cut_get_frame (cut, blank);
  run = cut->anchor == CAV_ANCHOR_SIDE ? cav_cut_get_run (cut, blank) : 0.0;
  *out_from = cav_transform_point (frame, CAV_POINT (0.0, 0.0));
  *out_to = cav_transform_point (frame, CAV_POINT (run, 0.0));
}

/* A cut that sits on the ledge of another is not one at the blank's own corner or side. */
static gboolean
is_at_blank (const CavCut *cut, CavAnchorKind anchor)
{
  return cut->anchor == anchor && fabs (cut->numbers[CAV_CUT_SHIFT_X]) < CAV_TOLERANCE_POINT
         && fabs (cut->numbers[CAV_CUT_SHIFT_Y]) < CAV_TOLERANCE_POINT;
}

static gboolean
is_same_place (const CavCut *a, const CavCut *b)
{
  if (a->anchor != b->anchor)
    return FALSE;
  return a->anchor == CAV_ANCHOR_CORNER ? a->corner == b->corner : a->side == b->side;
}

static gboolean
is_place_taken (CavProject *project, const CavCut *proposal)
{
  for (guint i = 0; i < cav_project_get_cut_count (project); i++)
    if (is_same_place (proposal, cav_project_get_cut (project, i)))
      return TRUE;
  return FALSE;
}

/* Places in the order in which they are tried: N_PLACES of them, corners before the middles of
 * sides. */
#define N_PLACES 6

static void
swap_places (CavPoint *a, CavPoint *b)
{
  CavPoint first = *a;

  *a = *b;
  *b = first;
}

/* Nearest first, the others in the order that they have. Few enough to be sorted by hand. */
static void
sort_by_distance (CavPoint *places, guint n_places, CavPoint near)
{
  for (guint i = 1; i < n_places; i++)
    for (guint j = i; j > 0
                      && cav_point_distance (places[j], near) + CAV_TOLERANCE_POINT
                             < cav_point_distance (places[j - 1], near);
         j--)
      swap_places (&places[j], &places[j - 1]);
}

static void
list_places (const CavBlank *blank, CavCutKind kind, const CavPoint *near, CavPoint *out_places)
{
  const double width = blank->width;
  const double thickness = blank->thickness;
  const CavPoint places[N_PLACES] = {
    CAV_POINT (0, thickness),         CAV_POINT (0, 0),
    CAV_POINT (width, thickness),     CAV_POINT (width, 0),
    CAV_POINT (width / 2, thickness), CAV_POINT (width / 2, 0),
  };

  memcpy (out_places, places, sizeof places);
  if (near != NULL)
    {
      sort_by_distance (out_places, CAV_N_CORNERS, *near);
      sort_by_distance (out_places + CAV_N_CORNERS, N_PLACES - CAV_N_CORNERS, *near);
    }
  /* The back of the sight edge, before all others. */
  for (guint i = CAV_N_CORNERS - 1; kind == CAV_CUT_RABBET && i > 0; i--)
    if (cav_point_near (out_places[i], CAV_POINT (0, 0), CAV_TOLERANCE_POINT))
      swap_places (&out_places[i], &out_places[i - 1]);
}

CavCut *
cav_proposal_at_free_place (CavProject *project, CavCutKind kind, const CavPoint *near)
{
  g_return_val_if_fail (CAV_IS_PROJECT (project), NULL);
  g_return_val_if_fail (near == NULL || cav_point_is_finite (*near), NULL);

  CavPoint places[N_PLACES];
  g_autoptr (CavCut) first = NULL;

  list_places (&cav_project_get_profile (project)->blank, kind, near, places);
  for (guint i = 0; i < N_PLACES; i++)
    {
      g_autoptr (CavCut) cut = cav_proposal_at (project, kind, places[i], 1);

      if (cut == NULL)
        continue;
      if (is_at_blank (cut, i < CAV_N_CORNERS ? CAV_ANCHOR_CORNER : CAV_ANCHOR_SIDE)
          && !is_place_taken (project, cut))
        return g_steal_pointer (&cut);
      if (first == NULL)
        first = g_steal_pointer (&cut);
    }
  return g_steal_pointer (&first);
}
