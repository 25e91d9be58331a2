/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "milling/cav-chips.h"

#include "milling/cav-placement.h"
#include "milling/cav-rising.h"

#include <math.h>

/* Chips narrower than this are rounding, mm. */
#define FIN 1e-4

/* A line of an outline in the machine's coordinates, from left to right. */
typedef struct
{
  CavPoint from;
  CavPoint to;
  double slope;
  gboolean is_swept;
} Edge;

/* Where an edge crosses the two sides of an upright strip. */
typedef struct
{
  double left;
  double right;
  gboolean is_swept;
} Crossing;

/* All that the chips are measured from: between two neighbouring cuts no edge begins, ends or
 * crosses an edge of the other outline. */
typedef struct
{
  GArray *edges; /* Edge, by where they begin */
  GArray *cuts;  /* double, rising */
} Strips;

static CavBox
get_box (const CavRegion *region, CavTransform map)
{
  CavBox box = cav_region_get_bounds (region);
  CavPoint p = cav_transform_point (map, CAV_POINT (box.x0, box.y0));
  CavPoint q = cav_transform_point (map, CAV_POINT (box.x1, box.y1));

  return (CavBox){ fmin (p.x, q.x), fmin (p.y, q.y), fmax (p.x, q.x), fmax (p.y, q.y) };
}

static void
add_cut (Strips *strips, double u, CavBox box)
{
  if (u > box.x0 && u < box.x1)
    g_array_append_val (strips->cuts, u);
}

/* The edges that lie over or under a box or in it; what lies higher bounds nothing in it. */
static void
add_edges (Strips *strips, const CavRegion *region, CavTransform map, CavBox box, gboolean is_swept)
{
  for (guint ring = 0; ring < cav_region_get_ring_count (region); ring++)
    {
      guint n;
      const CavPoint *points = cav_region_get_ring_points (region, ring, &n);
      CavPoint p = cav_transform_point (map, points[n - 1]);

      for (guint i = 0; i < n; i++)
        {
          CavPoint q = cav_transform_point (map, points[i]);
          Edge edge = { p, q, 0, is_swept };

          p = q;
          if (edge.from.x > edge.to.x)
            {
              edge.to = edge.from;
              edge.from = q;
            }
          if (edge.to.x <= box.x0 || edge.from.x >= box.x1 || edge.to.x <= edge.from.x
              || MIN (edge.from.y, edge.to.y) > box.y1)
            continue;
          edge.slope = (edge.to.y - edge.from.y) / (edge.to.x - edge.from.x);
          g_array_append_val (strips->edges, edge);
          add_cut (strips, edge.from.x, box);
          add_cut (strips, edge.to.x, box);
        }
    }
}

static int
compare_edges (const void *a, const void *b)
{
  const Edge *p = a, *q = b;

  return cav_compare_rising (&p->from.x, &q->from.x);
}

/* Within an edge's ends, whatever the rounding of a steep one. */
static double
get_height (const Edge *edge, double u)
{
  double v = edge->from.y + (u - edge->from.x) * edge->slope;

  return CLAMP (v, MIN (edge->from.y, edge->to.y), MAX (edge->from.y, edge->to.y));
}

static void
cut_at_crossings (Strips *strips, CavBox box)
{
  const Edge *edges = (const Edge *)(gpointer)strips->edges->data;
  guint n = strips->edges->len;

  for (guint i = 0; i < n; i++)
    for (guint j = i + 1; j < n && edges[j].from.x < edges[i].to.x; j++)
      {
        double left = edges[j].from.x, right = MIN (edges[i].to.x, edges[j].to.x), at_left,
               at_right;

        if (edges[i].is_swept == edges[j].is_swept)
          continue;
        at_left = get_height (&edges[i], left) - get_height (&edges[j], left);
        at_right = get_height (&edges[i], right) - get_height (&edges[j], right);
        if ((at_left < 0) != (at_right < 0))
          add_cut (strips, left + (right - left) * at_left / (at_left - at_right), box);
      }
}

static void
strips_init (
    Strips *strips, const CavRegion *rail, const CavRegion *swept, CavTransform map, double axis)
{
  CavBox box = get_box (swept, map);

  strips->edges = g_array_sized_new (FALSE, FALSE, sizeof (Edge), 128);
  strips->cuts = g_array_sized_new (FALSE, FALSE, sizeof (double), 256);
  g_array_append_val (strips->cuts, box.x0);
  g_array_append_val (strips->cuts, box.x1);
  add_cut (strips, axis, box);
  add_edges (strips, rail, map, box, FALSE);
  add_edges (strips, swept, map, box, TRUE);
  g_array_sort (strips->edges, compare_edges);
  cut_at_crossings (strips, box);
  g_array_sort (strips->cuts, cav_compare_rising);
}

static void
strips_clear (Strips *strips)
{
  g_array_unref (strips->edges);
  g_array_unref (strips->cuts);
}

/* The edges that cross a strip, from below. active: those that begin before its right side and may
 * still reach it; those that do not are dropped. */
static guint
cross_strip (Edge **active, guint *n_active, double left, double right, Crossing *crossings)
{
  guint n = 0;

  for (guint i = 0; i < *n_active; i++)
    {
      const Edge *edge = active[i];
      guint at = n;
      Crossing crossing;

      if (edge->to.x < right)
        continue;
      active[n] = active[i];
      crossing = (Crossing){ get_height (edge, left), get_height (edge, right), edge->is_swept };
      for (; at > 0
             && crossings[at - 1].left + crossings[at - 1].right > crossing.left + crossing.right;
           at--)
        crossings[at] = crossings[at - 1];
      crossings[at] = crossing;
      n++;
    }
  *n_active = n;
  return n;
}

/* How much of either side of a strip lies in both outlines. */
static void
measure_strip (const Crossing *crossings, guint n, double *out_left, double *out_right)
{
  gboolean in_rail = FALSE, in_swept = FALSE;

  *out_left = *out_right = 0;
  for (guint i = 0; i + 1 < n; i++)
    {
      if (crossings[i].is_swept)
        in_swept = !in_swept;
      else
        in_rail = !in_rail;
      if (!in_rail || !in_swept)
        continue;
      *out_left += MAX (crossings[i + 1].left - crossings[i].left, 0);
      *out_right += MAX (crossings[i + 1].right - crossings[i].right, 0);
    }
}

void
cav_chips_measure (CavChips *chips,
                   const CavSweepSetting *setting,
                   const CavBlank *blank,
                   const CavRegion *rail,
                   const CavRegion *swept)
{
  double axis = setting->cutter != NULL ? setting->fence : -G_MAXDOUBLE;
  Strips strips;
  g_autofree Edge **active = NULL;
  g_autofree Crossing *crossings = NULL;
  guint n_active = 0, next = 0;

  *chips = (CavChips){ 0 };
  strips_init (&strips, rail, swept,
               cav_placement_get_transform (blank, setting->down, setting->against), axis);
  active = g_new (Edge *, strips.edges->len + 1);
  crossings = g_new (Crossing, strips.edges->len + 1);
  for (guint i = 0; i + 1 < strips.cuts->len; i++)
    {
      double left = g_array_index (strips.cuts, double, i);
      double right = g_array_index (strips.cuts, double, i + 1), at_left, at_right, area;

      if (right <= left)
        continue;
      for (; next < strips.edges->len && g_array_index (strips.edges, Edge, next).from.x <= left;
           next++)
        active[n_active++] = &g_array_index (strips.edges, Edge, next);
      measure_strip (crossings, cross_strip (active, &n_active, left, right, crossings), &at_left,
                     &at_right);
      /* Edges are straight: a strip of chips is a trapezoid, or some over each other. */
      area = (at_left + at_right) / 2 * (right - left);
      chips->area += area;
      chips->sides[left >= axis] += area;
      if (right - left >= FIN)
        chips->layer = fmax (chips->layer, fmax (at_left, at_right));
    }
  strips_clear (&strips);
}
