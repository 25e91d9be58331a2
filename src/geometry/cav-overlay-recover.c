/* SPDX-License-Identifier: GPL-3.0-or-later */
/* From the chords of an overlay's result back to the lines and arcs that were drawn. */
#include <math.h>

#include "geometry/cav-angle-private.h"
#include "geometry/cav-overlay-private.h"
#include "geometry/cav-segment-private.h"
#include "geometry/cav-tolerance.h"

/* A vertex of the result this near to an end of a segment is that end. */
#define AT_END (3.0 * CAV_TOLERANCE_OVERLAY)

/* An edge of the result may belong to a chord where both its ends are this near: they are much
 * nearer, but for an edge that has lost a fin at its end. */
#define ON_CHORD (1.5 * CAV_TOLERANCE_SLIVER)

/* An intersection may lie this far from where the chords cross (lines that graze an arc). */
#define MOVE_MAX 0.5
#define NEWTON_STEPS 12
#define NEWTON_EPSILON 1e-10
/* Least sine of the angle at which two curves have a crossing rather than a touch. */
#define CROSSING_SINE 1e-4

/* How far the outline that was found may differ from its chords, as a mean distance, and as a
 * share of the area where that is less: a crumb smaller than that is left as it is. */
#define RECOVERY_MAX (2.0 * CAV_TOLERANCE_CHORD + CAV_TOLERANCE_SLIVER)
#define RECOVERY_SHARE 0.2

typedef struct
{
  CavPoint point;
  const CavSegment *segment; /* carrier of the edge to the next vertex; NULL where none is known */
} Vertex;

/* A run of edges on one line or arc. */
typedef struct
{
  guint first; /* vertex at which it begins */
  guint n;     /* number of edges */
  double length;
  const CavSegment *carrier;
  CavPoint from;
} Run;

static const CavNode *
get_node (const CavOverlay *overlay, int node)
{
  return &g_array_index (overlay->nodes, CavNode, node);
}

static const CavChord *
get_chord (const CavOverlay *overlay, int chord)
{
  return &g_array_index (overlay->chords, CavChord, chord);
}

/* Whether two segments are parts of one line or one ellipse. */
static gboolean
same_carrier (const CavSegment *a, const CavSegment *b)
{
  CavPoint from, to;
  double length;

  if (a == b)
    return a != NULL;
  if (a == NULL || b == NULL || a->kind != b->kind)
    return FALSE;
  if (a->kind == CAV_SEGMENT_ARC)
    return cav_arc_same_ellipse (a, b);

  /* Both ends of the shorter one stand on the line of the longer one. */
  if (cav_segment_length (a) < cav_segment_length (b))
    {
      const CavSegment *swap = a;

      a = b;
      b = swap;
    }
  from = a->from;
  to = a->to;
  length = cav_point_distance (from, to);
  return fabs ((to.x - from.x) * (b->from.y - from.y) - (to.y - from.y) * (b->from.x - from.x))
             <= 2.0 * CAV_TOLERANCE_POINT * length
         && fabs ((to.x - from.x) * (b->to.y - from.y) - (to.y - from.y) * (b->to.x - from.x))
                <= 2.0 * CAV_TOLERANCE_POINT * length;
}

static double
edge_to_chord (const CavOverlay *overlay, const CavChord *chord, CavPoint p, CavPoint q)
{
  CavPoint a = get_node (overlay, chord->from)->point;
  CavPoint b = get_node (overlay, chord->to)->point;

  return fmax (cav_line_distance (a, b, p), cav_line_distance (a, b, q));
}

/* Whether a chord that fits is a better carrier than the best so far: first the one that goes
 * on with the carrier before, then arcs. */
static gboolean
better (const CavSegment *candidate, const CavSegment *best, const CavSegment *before)
{
  if (best == NULL)
    return TRUE;
  if (best == before || same_carrier (best, before))
    return FALSE;
  return same_carrier (candidate, before)
         || (candidate->kind == CAV_SEGMENT_ARC && best->kind == CAV_SEGMENT_LINE);
}

/* The common case: both ends are nodes, and a chord runs between them. */
static const CavSegment *
find_whole_chord (const CavOverlay *overlay, int p, int q, const CavSegment *before)
{
  const CavSegment *best = NULL;
  int end = get_node (overlay, p)->first_chord;

  while (end >= 0)
    {
      const CavChord *chord = get_chord (overlay, end / 2);

      if ((end % 2 == 0 ? chord->to : chord->from) == q && better (chord->segment, best, before))
        best = chord->segment;
      end = chord->next_at[end % 2];
    }
  return best;
}

/* An edge that is part of a chord. */
static const CavSegment *
find_split_chord (const CavOverlay *overlay, CavPoint p, CavPoint q)
{
  const CavSegment *best = NULL;
  double best_distance = ON_CHORD;
  double x0 = MIN (p.x, q.x) + ON_CHORD, x1 = MAX (p.x, q.x) - ON_CHORD;
  double y0 = MIN (p.y, q.y) + ON_CHORD, y1 = MAX (p.y, q.y) - ON_CHORD;

  for (guint i = 0; i < overlay->chords->len; i++)
    {
      const CavChord *chord = get_chord (overlay, (int)i);
      CavPoint a = get_node (overlay, chord->from)->point;
      CavPoint b = get_node (overlay, chord->to)->point;
      double distance;

      if (MIN (a.x, b.x) > x0 || MAX (a.x, b.x) < x1 || MIN (a.y, b.y) > y0 || MAX (a.y, b.y) < y1)
        continue;
      distance = edge_to_chord (overlay, chord, p, q);
      if (distance < best_distance)
        {
          best_distance = distance;
          best = chord->segment;
        }
    }
  return best;
}

static void
find_carriers (const CavOverlay *overlay, GArray *vertices)
{
  const CavSegment *before = NULL;
  guint n = vertices->len;
  int first = cav_overlay_find (overlay, g_array_index (vertices, Vertex, 0).point);
  int p = first;

  for (guint i = 0; i < n; i++)
    {
      Vertex *vertex = &g_array_index (vertices, Vertex, i);
      const Vertex *next = &g_array_index (vertices, Vertex, (i + 1) % n);
      int q = i + 1 == n ? first : cav_overlay_find (overlay, next->point);

      vertex->segment = NULL;
      if (p >= 0 && q >= 0)
        vertex->segment = find_whole_chord (overlay, p, q, before);
      if (vertex->segment == NULL)
        vertex->segment = find_split_chord (overlay, vertex->point, next->point);
      before = vertex->segment;
      p = q;
    }
}

/* Whether b is the tip of a fin too thin to be wood: the way goes to b and back again. Legs as
 * short as a fin is thick say nothing; a corner with such a leg is left as it is. */
static gboolean
is_spike (CavPoint a, CavPoint b, CavPoint c)
{
  if (cav_point_near (a, b, CAV_TOLERANCE_POINT))
    return TRUE;
  if ((b.x - a.x) * (c.x - b.x) + (b.y - a.y) * (c.y - b.y) >= 0.0
      || cav_point_near (a, b, CAV_TOLERANCE_SLIVER) || cav_point_near (b, c, CAV_TOLERANCE_SLIVER))
    return FALSE;
  return cav_line_distance (a, b, c) <= CAV_TOLERANCE_SLIVER
         || cav_line_distance (b, c, a) <= CAV_TOLERANCE_SLIVER;
}

static CavPoint
vertex_point (const GArray *vertices, guint i)
{
  return g_array_index (vertices, Vertex, i % vertices->len).point;
}

/* Takes off fins, from their tips to their roots. A fin with a blunt tip has two vertices
 * there, nearer to each other than a fin is thick. */
static void
remove_fins (GArray *vertices)
{
  guint checked = 0;
  guint i = 0;

  while (vertices->len >= 3 && checked < vertices->len)
    {
      CavPoint a, b, c;
      gboolean spike;

      i %= vertices->len;
      a = vertex_point (vertices, i + vertices->len - 1);
      b = vertex_point (vertices, i);
      c = vertex_point (vertices, i + 1);
      spike = is_spike (a, b, c);
      if (!spike && vertices->len > 3 && cav_point_near (b, c, CAV_TOLERANCE_SLIVER))
        spike = is_spike (a, b, vertex_point (vertices, i + 2));
      if (spike)
        {
          g_array_remove_index (vertices, i);
          i = i > 1 ? i - 2 : 0;
          checked = 0;
        }
      else
        {
          i++;
          checked++;
        }
    }
}

/* Signed distance from a carrier, near enough to it, and its gradient. */
static double
carrier_distance (const CavSegment *carrier, CavPoint point, CavPoint *out_gradient)
{
  if (carrier->kind == CAV_SEGMENT_LINE)
    {
      double length = cav_point_distance (carrier->from, carrier->to);
      CavPoint n = CAV_POINT ((carrier->from.y - carrier->to.y) / length,
                              (carrier->to.x - carrier->from.x) / length);

      *out_gradient = n;
      return n.x * (point.x - carrier->from.x) + n.y * (point.y - carrier->from.y);
    }
  else
    {
      CavPoint unit = cav_arc_to_unit (carrier, point);
      double r = hypot (unit.x, unit.y);
      double s, c, gx, gy, steepness;

      cav_angle_sincos (carrier->rotation, &s, &c);
      gx = unit.x / carrier->rx;
      gy = unit.y / carrier->ry;
      steepness = hypot (gx, gy);
      if (r <= 0.0 || steepness <= 0.0)
        {
          /* The centre has no nearest point; without a gradient the search ends here. */
          *out_gradient = CAV_POINT (0.0, 0.0);
          return -fmin (carrier->rx, carrier->ry);
        }
      *out_gradient = CAV_POINT ((c * gx - s * gy) / steepness, (s * gx + c * gy) / steepness);
      return (r - 1.0) * r / steepness;
    }
}

/* The crossing of two carriers next to a point, by Newton's method; FALSE where they touch or
 * run along each other, or where the crossing is farther than reach. */
static gboolean
intersect_carriers (
    const CavSegment *p, const CavSegment *q, CavPoint near, double reach, CavPoint *out_point)
{
  CavPoint point = near;

  for (int i = 0; i < NEWTON_STEPS; i++)
    {
      CavPoint gp, gq;
      double fp = carrier_distance (p, point, &gp);
      double fq = carrier_distance (q, point, &gq);
      double determinant = gp.x * gq.y - gp.y * gq.x;

      if (fabs (fp) <= NEWTON_EPSILON && fabs (fq) <= NEWTON_EPSILON)
        {
          *out_point = point;
          return TRUE;
        }
      if (fabs (determinant) < CROSSING_SINE)
        return FALSE;
      point.x += (fq * gp.y - fp * gq.y) / determinant;
      point.y += (fp * gq.x - fq * gp.x) / determinant;
      if (!cav_point_near (point, near, reach))
        return FALSE;
    }
  return FALSE;
}

/* An end of segment at most a few steps of the grid from a point. */
static gboolean
end_near (const CavSegment *segment, CavPoint point, CavPoint *out_end)
{
  *out_end = cav_point_distance (segment->from, point) <= cav_point_distance (segment->to, point)
                 ? segment->from
                 : segment->to;
  return cav_point_near (*out_end, point, AT_END);
}

/* Where two carriers meet: at a corner that was drawn, where the curves themselves cross, at a
 * vertex that was drawn, or where the chords crossed; the first of these that there is. */
static CavPoint
place_vertex (const CavOverlay *overlay,
              const CavSegment *p,
              const CavSegment *q,
              CavPoint point,
              double reach)
{
  CavPoint end, other;
  int node;

  if (p != NULL && q != NULL)
    {
      if (end_near (p, point, &end) && end_near (q, point, &other)
          && cav_point_near (end, other, CAV_TOLERANCE_POINT))
        return end;
      if (intersect_carriers (p, q, point, reach, &end))
        return end;
    }
  node = cav_overlay_find (overlay, point);
  return node >= 0 ? get_node (overlay, node)->exact : point;
}

/* First vertex at which the carrier changes; where none does, one at which a segment ended in
 * the drawing. */
static guint
find_seam (const GArray *vertices)
{
  guint n = vertices->len;
  guint seam = 0;

  for (guint i = 0; i < n; i++)
    {
      const Vertex *before = &g_array_index (vertices, Vertex, (i + n - 1) % n);
      const Vertex *vertex = &g_array_index (vertices, Vertex, i);
      CavPoint end;

      if (!same_carrier (before->segment, vertex->segment))
        return i;
      if (seam == 0 && end_near (vertex->segment, vertex->point, &end))
        seam = i;
    }
  return seam;
}

static GArray *
find_runs (const GArray *vertices)
{
  GArray *runs = g_array_new (FALSE, FALSE, sizeof (Run));
  guint n = vertices->len;
  guint seam = find_seam (vertices);

  for (guint k = 0; k < n; k++)
    {
      guint i = (seam + k) % n;
      const Vertex *vertex = &g_array_index (vertices, Vertex, i);
      double length = cav_point_distance (vertex->point, vertex_point (vertices, i + 1));
      Run *last = runs->len > 0 ? &g_array_index (runs, Run, runs->len - 1) : NULL;

      if (last != NULL && same_carrier (last->carrier, vertex->segment))
        {
          last->n++;
          last->length += length;
          /* The longest line tells best where the others should lie. */
          if (vertex->segment->kind == CAV_SEGMENT_LINE
              && cav_segment_length (vertex->segment) > cav_segment_length (last->carrier))
            last->carrier = vertex->segment;
        }
      else
        {
          Run run = { .first = i, .n = 1, .length = length, .carrier = vertex->segment };

          g_array_append_val (runs, run);
        }
    }
  return runs;
}

static void
place_runs (const CavOverlay *overlay, const GArray *vertices, GArray *runs)
{
  for (guint k = 0; k < runs->len; k++)
    {
      const Run *before = &g_array_index (runs, Run, (k + runs->len - 1) % runs->len);
      Run *run = &g_array_index (runs, Run, k);
      guint i = run->first;
      double reach = fmin (MOVE_MAX, 0.45 * fmin (before->length, run->length));

      run->from = place_vertex (
          overlay,
          g_array_index (vertices, Vertex, (i + vertices->len - 1) % vertices->len).segment,
          g_array_index (vertices, Vertex, i).segment, vertex_point (vertices, i), reach);
    }
}

/* The arc of a run. How far it goes is added up from its chords; its ends only refine that. */
static CavSegment
run_arc (const GArray *vertices, const Run *run, CavPoint to)
{
  CavSegment arc = *run->carrier;
  double sweep = 0.0;
  double t = cav_arc_parameter (&arc, vertex_point (vertices, run->first));
  double refined;

  for (guint i = 1; i <= run->n; i++)
    {
      double next = cav_arc_parameter (&arc, vertex_point (vertices, run->first + i));

      sweep += cav_angle_wrap_signed (next - t);
      t = next;
    }
  arc.from = run->from;
  arc.to = to;
  arc.start = cav_angle_wrap (cav_arc_parameter (&arc, arc.from));
  refined = cav_arc_parameter (&arc, to) - arc.start;
  arc.sweep = sweep + cav_angle_wrap_signed (refined - sweep);
  if (run->n == vertices->len)
    arc.sweep = sweep < 0.0 ? -360.0 : 360.0;
  if (arc.sweep * sweep <= 0.0 || fabs (arc.sweep) > 360.0)
    return cav_segment_line (arc.from, arc.to);
  return arc;
}

static CavPath *
path_of_runs (const GArray *vertices, const GArray *runs)
{
  CavPath *path = cav_path_new ();

  cav_path_move_to (path, g_array_index (runs, Run, 0).from);
  for (guint k = 0; k < runs->len; k++)
    {
      const Run *run = &g_array_index (runs, Run, k);
      CavPoint to = g_array_index (runs, Run, (k + 1) % runs->len).from;

      if (run->carrier != NULL && run->carrier->kind == CAV_SEGMENT_ARC)
        {
          CavSegment arc = run_arc (vertices, run, to);

          cav_path_append (path, &arc);
        }
      else
        cav_path_line_to (path, to);
    }
  cav_path_close (path);
  return path;
}

static void
measure_chords (const GArray *vertices, double *out_area, double *out_length)
{
  CavPoint origin = vertex_point (vertices, 0);

  *out_area = 0.0;
  *out_length = 0.0;
  for (guint i = 0; i < vertices->len; i++)
    {
      CavPoint a = vertex_point (vertices, i);
      CavPoint b = vertex_point (vertices, i + 1);

      *out_area
          += 0.5 * ((a.x - origin.x) * (b.y - origin.y) - (a.y - origin.y) * (b.x - origin.x));
      *out_length += cav_point_distance (a, b);
    }
}

/* The chords as they are: for a ring so small or so twisted that its curves do not fit. */
static CavPath *
path_of_chords (const GArray *vertices)
{
  CavPath *path = cav_path_new ();

  cav_path_move_to (path, vertex_point (vertices, 0));
  for (guint i = 1; i < vertices->len; i++)
    cav_path_line_to (path, vertex_point (vertices, i));
  cav_path_close (path);
  return path;
}

/* (transfer full) (nullable) NULL where the ring holds no wood. */
static CavPath *
recover_path (const CavOverlay *overlay, GArray *vertices)
{
  g_autoptr (GArray) runs = NULL;
  CavPath *path;
  double area, length;

  remove_fins (vertices);
  if (vertices->len < 3)
    return NULL;
  measure_chords (vertices, &area, &length);
  if (cav_is_sliver (area, length, CAV_TOLERANCE_SLIVER))
    return NULL;
  /* A crumb between the chords of two curves that are nearly one: it has no curves to find. */
  if (cav_is_sliver (area, length, CAV_TOLERANCE_CHORD))
    return path_of_chords (vertices);

  find_carriers (overlay, vertices);
  runs = find_runs (vertices);
  place_runs (overlay, vertices, runs);
  path = path_of_runs (vertices, runs);
  if (cav_path_is_closed (path)
      && fabs (cav_path_get_signed_area (path) - area)
             <= fmin (RECOVERY_MAX * length, RECOVERY_SHARE * fabs (area)))
    return path;
  cav_path_free (path);
  return path_of_chords (vertices);
}

/* Backwards, for GEOS turns outlines and holes the other way round than regions do. */
static GArray *
read_vertices (GEOSContextHandle_t geos, const GEOSGeometry *ring)
{
  const GEOSCoordSequence *sequence = GEOSGeom_getCoordSeq_r (geos, ring);
  GArray *vertices;
  unsigned int n = 0;

  GEOSCoordSeq_getSize_r (geos, sequence, &n);
  vertices = g_array_sized_new (FALSE, TRUE, sizeof (Vertex), n);
  for (unsigned int i = n; i-- > 1;)
    {
      Vertex vertex = { 0 };

      GEOSCoordSeq_getXY_r (geos, sequence, i, &vertex.point.x, &vertex.point.y);
      g_array_append_val (vertices, vertex);
    }
  return vertices;
}

static gboolean
recover_ring (const CavOverlay *overlay,
              GEOSContextHandle_t geos,
              const GEOSGeometry *ring,
              gboolean hole,
              GArray *rings)
{
  g_autoptr (GArray) vertices = read_vertices (geos, ring);
  CavPath *path = recover_path (overlay, vertices);

  return path != NULL && cav_rings_append (rings, path, hole);
}

static void
recover_polygons (const CavOverlay *overlay,
                  GEOSContextHandle_t geos,
                  const GEOSGeometry *geometry,
                  GArray *rings)
{
  int type = GEOSGeomTypeId_r (geos, geometry);

  if (type == GEOS_POLYGON)
    {
      if (GEOSisEmpty_r (geos, geometry)
          || !recover_ring (overlay, geos, GEOSGetExteriorRing_r (geos, geometry), FALSE, rings))
        return;
      for (int i = 0; i < GEOSGetNumInteriorRings_r (geos, geometry); i++)
        recover_ring (overlay, geos, GEOSGetInteriorRingN_r (geos, geometry, i), TRUE, rings);
    }
  else if (type == GEOS_MULTIPOLYGON || type == GEOS_GEOMETRYCOLLECTION)
    for (int i = 0; i < GEOSGetNumGeometries_r (geos, geometry); i++)
      recover_polygons (overlay, geos, GEOSGetGeometryN_r (geos, geometry, i), rings);
}

CavRegion *
cav_overlay_recover (const CavOverlay *overlay,
                     GEOSContextHandle_t geos,
                     const GEOSGeometry *geometry)
{
  GArray *rings = cav_rings_new ();

  recover_polygons (overlay, geos, geometry, rings);
  return cav_region_new_take_rings (rings);
}
