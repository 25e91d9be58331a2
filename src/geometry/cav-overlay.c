/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "geometry/cav-overlay-private.h"

#include <math.h>
#include <stdlib.h>

#include "geometry/cav-segment-private.h"
#include "geometry/cav-tolerance.h"

/* Vertices within this many steps of the grid, in x and y, become one. */
#define SNAP_STEPS 2

/* A vertex nearer than this to a line or arc of another region lies on it. */
#define SNAP_DISTANCE (SNAP_STEPS * CAV_TOLERANCE_OVERLAY)

/* Steps of the grid along a side of a cell of the hash, as a shift. */
#define CELL_SHIFT 3

typedef struct
{
  double x, y;
  int node;
} SortedNode;

/* A node that lies on a chord, at the square of its distance from the chord's beginning. */
typedef struct
{
  double along;
  int node;
} Stop;

static guint
hash_cell (gint64 x, gint64 y)
{
  guint64 mixed = (guint64)x * 0x9E3779B97F4A7C15u ^ (guint64)y * 0xC2B2AE3D27D4EB4Fu;

  return (guint)(mixed >> 32);
}

static CavNode *
get_node (const CavOverlay *overlay, int node)
{
  return &g_array_index (overlay->nodes, CavNode, node);
}

/* A node in the cell within reach of a place, or -1. */
static int
find_in_cell (
    const CavOverlay *overlay, gint64 cell_x, gint64 cell_y, gint64 x, gint64 y, int reach)
{
  int node = overlay->cells[hash_cell (cell_x, cell_y) & overlay->cell_mask];

  while (node >= 0)
    {
      const CavNode *found = get_node (overlay, node);

      if (llabs (found->x - x) <= reach && llabs (found->y - y) <= reach)
        return node;
      node = found->next_in_cell;
    }
  return -1;
}

static int
find_node (const CavOverlay *overlay, gint64 x, gint64 y, int reach)
{
  for (gint64 cx = (x - reach) >> CELL_SHIFT; cx <= (x + reach) >> CELL_SHIFT; cx++)
    for (gint64 cy = (y - reach) >> CELL_SHIFT; cy <= (y + reach) >> CELL_SHIFT; cy++)
      {
        int node = find_in_cell (overlay, cx, cy, x, y, reach);

        if (node >= 0)
          return node;
      }
  return -1;
}

int
cav_overlay_find (const CavOverlay *overlay, CavPoint point)
{
  return find_node (overlay, llrint (point.x / CAV_TOLERANCE_OVERLAY),
                    llrint (point.y / CAV_TOLERANCE_OVERLAY), 0);
}

static int
add_node (CavOverlay *overlay, CavPoint exact)
{
  gint64 x = llrint (exact.x / CAV_TOLERANCE_OVERLAY);
  gint64 y = llrint (exact.y / CAV_TOLERANCE_OVERLAY);
  int found = find_node (overlay, x, y, SNAP_STEPS);
  CavNode node = { .x = x, .y = y, .exact = exact, .first_chord = -1 };
  int *cell;

  if (found >= 0)
    return found;
  node.point = CAV_POINT ((double)x * CAV_TOLERANCE_OVERLAY, (double)y * CAV_TOLERANCE_OVERLAY);
  cell = &overlay->cells[hash_cell (x >> CELL_SHIFT, y >> CELL_SHIFT) & overlay->cell_mask];
  node.next_in_cell = *cell;
  *cell = (int)overlay->nodes->len;
  g_array_append_val (overlay->nodes, node);
  return *cell;
}

static int
compare_sorted (gconstpointer a, gconstpointer b)
{
  const SortedNode *one = a;
  const SortedNode *other = b;

  return (one->x > other->x) - (one->x < other->x);
}

static SortedNode *
sort_nodes (const CavOverlay *overlay)
{
  guint n = overlay->nodes->len;
  SortedNode *sorted = g_new (SortedNode, n + 1);

  for (guint i = 0; i < n; i++)
    {
      CavPoint point = get_node (overlay, (int)i)->point;

      sorted[i] = (SortedNode){ point.x, point.y, (int)i };
    }
  qsort (sorted, n, sizeof *sorted, compare_sorted);
  return sorted;
}

static guint
first_from (const SortedNode *sorted, guint n, double x)
{
  guint low = 0;

  while (n > 0)
    {
      guint half = n / 2;

      if (sorted[low + half].x < x)
        {
          low += half + 1;
          n -= half + 1;
        }
      else
        n = half;
    }
  return low;
}

double
cav_line_distance (CavPoint from, CavPoint to, CavPoint point)
{
  CavSegment line = cav_segment_line (from, to);

  return cav_segment_distance (&line, point);
}

static int
compare_stops (gconstpointer a, gconstpointer b)
{
  const Stop *one = a;
  const Stop *other = b;

  return (one->along > other->along) - (one->along < other->along);
}

/* Collects the nodes that lie on a chord, or on the arc above it, between its ends. A curve
 * that passes through such a node has to pass through it in chords as well, or two regions
 * that share the curve would part there. */
static void
collect_stops (const CavOverlay *overlay,
               const SortedNode *sorted,
               const CavChord *chord,
               GArray *stops)
{
  guint n = overlay->nodes->len;
  CavPoint a = get_node (overlay, chord->from)->point;
  CavPoint b = get_node (overlay, chord->to)->point;
  gboolean arc = chord->segment->kind == CAV_SEGMENT_ARC;
  double gap = SNAP_DISTANCE + (arc ? CAV_TOLERANCE_CHORD : 0.0);
  double y0 = fmin (a.y, b.y) - gap;
  double y1 = fmax (a.y, b.y) + gap;
  double x1 = fmax (a.x, b.x) + gap;
  double length = cav_point_distance (a, b);

  g_array_set_size (stops, 0);
  for (guint i = first_from (sorted, n, fmin (a.x, b.x) - gap); i < n && sorted[i].x <= x1; i++)
    {
      CavPoint point = CAV_POINT (sorted[i].x, sorted[i].y);
      Stop stop = { .node = sorted[i].node };
      double across;

      if (point.y < y0 || point.y > y1 || stop.node == chord->from || stop.node == chord->to)
        continue;
      stop.along = ((point.x - a.x) * (b.x - a.x) + (point.y - a.y) * (b.y - a.y)) / length;
      across = fabs ((b.x - a.x) * (point.y - a.y) - (b.y - a.y) * (point.x - a.x)) / length;
      if (stop.along <= 0.0 || stop.along >= length || across > gap)
        continue;
      if (across <= SNAP_DISTANCE
          || cav_segment_distance (chord->segment, get_node (overlay, stop.node)->exact)
                 <= SNAP_DISTANCE)
        g_array_append_val (stops, stop);
    }
  g_array_sort (stops, compare_stops);
}

/* Nodes of a ring with, for each, the segment toward the next. */
static void
add_ring_nodes (CavOverlay *overlay, const CavRing *ring)
{
  for (guint i = 0; i < ring->n_points; i++)
    {
      CavChord chord = { .from = add_node (overlay, ring->points[i]),
                         .segment = cav_path_get_segment (ring->path, ring->owners[i]) };

      g_array_append_val (overlay->chords, chord);
    }
}

/* Drops chords whose ends have become one node. */
static void
close_ring (CavOverlay *overlay, guint start)
{
  guint n = overlay->chords->len - start;
  CavChord *chords = &g_array_index (overlay->chords, CavChord, start);
  guint kept = 0;

  for (guint i = 0; i < n; i++)
    {
      CavChord chord = chords[i];

      /* Where the first chords are gone, the one now at their place begins at the same node. */
      chord.to = chords[(i + 1) % n].from;
      if (chord.from != chord.to)
        chords[kept++] = chord;
    }
  g_array_set_size (overlay->chords, start + kept);
}

static void
link_chord (CavOverlay *overlay, CavChord chord)
{
  int end = 2 * (int)overlay->chords->len;
  CavNode *from = get_node (overlay, chord.from);
  CavNode *to = get_node (overlay, chord.to);

  chord.next_at[0] = from->first_chord;
  from->first_chord = end;
  chord.next_at[1] = to->first_chord;
  to->first_chord = end + 1;
  g_array_append_val (overlay->chords, chord);
}

/* Splits every chord at the nodes that lie on it, and links all chords to their nodes. */
static void
split_chords (CavOverlay *overlay)
{
  g_autofree SortedNode *sorted = sort_nodes (overlay);
  g_autoptr (GArray) stops = g_array_new (FALSE, FALSE, sizeof (Stop));
  g_autoptr (GArray) old = overlay->chords;
  guint start = 0;

  overlay->chords = g_array_sized_new (FALSE, FALSE, sizeof (CavChord), old->len * 5 / 4);
  for (guint ring = 0; ring < overlay->ring_ends->len; ring++)
    {
      guint *ring_end = &g_array_index (overlay->ring_ends, guint, ring);

      for (guint i = start; i < *ring_end; i++)
        {
          CavChord chord = g_array_index (old, CavChord, i);
          int end = chord.to;

          collect_stops (overlay, sorted, &chord, stops);
          for (guint k = 0; k < stops->len; k++)
            {
              chord.to = g_array_index (stops, Stop, k).node;
              link_chord (overlay, chord);
              chord.from = chord.to;
            }
          chord.to = end;
          link_chord (overlay, chord);
        }
      start = *ring_end;
      *ring_end = overlay->chords->len;
    }
}

CavOverlay *
cav_overlay_new (const CavRegion *const *regions, guint n_regions)
{
  CavOverlay *overlay = g_new0 (CavOverlay, 1);
  guint n_points = 0;
  guint n_cells = 16;

  for (guint i = 0; i < n_regions; i++)
    for (guint k = 0; k < regions[i]->n_rings; k++)
      n_points += regions[i]->rings[k].n_points;
  while (n_cells < 2 * n_points)
    n_cells *= 2;

  overlay->cells = g_new (int, n_cells);
  overlay->cell_mask = n_cells - 1;
  for (guint i = 0; i < n_cells; i++)
    overlay->cells[i] = -1;
  overlay->nodes = g_array_sized_new (FALSE, FALSE, sizeof (CavNode), n_points);
  overlay->chords = g_array_sized_new (FALSE, FALSE, sizeof (CavChord), n_points);
  overlay->ring_ends = g_array_new (FALSE, FALSE, sizeof (guint));
  overlay->region_ends = g_array_new (FALSE, FALSE, sizeof (guint));
  overlay->rings = g_array_new (FALSE, FALSE, sizeof (CavRing *));

  for (guint i = 0; i < n_regions; i++)
    {
      for (guint k = 0; k < regions[i]->n_rings; k++)
        {
          const CavRing *ring = &regions[i]->rings[k];
          guint start = overlay->chords->len;

          add_ring_nodes (overlay, ring);
          close_ring (overlay, start);
          g_array_append_val (overlay->ring_ends, overlay->chords->len);
          g_array_append_val (overlay->rings, ring);
        }
      g_array_append_val (overlay->region_ends, overlay->rings->len);
    }
  split_chords (overlay);
  return overlay;
}

void
cav_overlay_free (CavOverlay *overlay)
{
  if (overlay == NULL)
    return;
  g_array_unref (overlay->nodes);
  g_array_unref (overlay->chords);
  g_array_unref (overlay->ring_ends);
  g_array_unref (overlay->region_ends);
  g_array_unref (overlay->rings);
  g_free (overlay->cells);
  g_free (overlay);
}

/* (nullable) NULL where less than a triangle is left of the ring. */
static GEOSGeometry *
dup_ring (const CavOverlay *overlay, GEOSContextHandle_t geos, guint ring)
{
  guint start = ring == 0 ? 0 : g_array_index (overlay->ring_ends, guint, ring - 1);
  guint n = g_array_index (overlay->ring_ends, guint, ring) - start;
  g_autofree CavPoint *points = g_new (CavPoint, n + 1);

  if (n < 3)
    return NULL;
  for (guint i = 0; i < n; i++)
    points[i]
        = get_node (overlay, g_array_index (overlay->chords, CavChord, start + i).from)->point;
  return cav_geos_ring (geos, points, n);
}

GEOSGeometry *
cav_overlay_dup_geometry (const CavOverlay *overlay, GEOSContextHandle_t geos, guint first, guint n)
{
  guint ring = first == 0 ? 0 : g_array_index (overlay->region_ends, guint, first - 1);
  guint end = g_array_index (overlay->region_ends, guint, first + n - 1);
  g_autoptr (GPtrArray) polygons = g_ptr_array_new ();
  g_autoptr (GPtrArray) holes = g_ptr_array_new ();

  while (ring < end)
    {
      GEOSGeometry *outer = dup_ring (overlay, geos, ring++);

      g_ptr_array_set_size (holes, 0);
      while (ring < end && g_array_index (overlay->rings, const CavRing *, ring)->hole)
        {
          GEOSGeometry *hole = outer == NULL ? NULL : dup_ring (overlay, geos, ring);

          if (hole != NULL)
            g_ptr_array_add (holes, hole);
          ring++;
        }
      if (outer != NULL)
        g_ptr_array_add (polygons, GEOSGeom_createPolygon_r (
                                       geos, outer, (GEOSGeometry **)holes->pdata, holes->len));
    }
  return GEOSGeom_createCollection_r (geos, GEOS_MULTIPOLYGON, (GEOSGeometry **)polygons->pdata,
                                      polygons->len);
}
