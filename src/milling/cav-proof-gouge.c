/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "milling/cav-proof-private.h"

#include "milling/cav-rising.h"

#include <math.h>

/* Spacing of probes along an edge, mm. */
#define GOUGE_PROBE 0.5
/* Chords of an outline that are looked at together. */
#define STRETCH_CHORDS 16

/* A stretch of the profile's outline, in chords. */
typedef struct
{
  CavBox box;
  const CavPoint *points; /* of its ring, borrowed */
  guint n_points;
  guint begin; /* its chords: the points that they begin at */
  guint end;
} Stretch;

static CavPoint
get_chord_end (const Stretch *stretch, guint chord)
{
  return stretch->points[chord + 1 < stretch->n_points ? chord + 1 : 0];
}

GArray *
cav_proof_create_stretches (const CavRegion *profile)
{
  GArray *stretches = g_array_new (FALSE, FALSE, sizeof (Stretch));

  for (guint ring = 0; ring < cav_region_get_ring_count (profile); ring++)
    {
      guint n;
      const CavPoint *points = cav_region_get_ring_points (profile, ring, &n);

      for (guint begin = 0; begin < n; begin += STRETCH_CHORDS)
        {
          Stretch stretch
              = { { points[begin].x, points[begin].y, points[begin].x, points[begin].y },
                  points,
                  n,
                  begin,
                  MIN (begin + STRETCH_CHORDS, n) };

          for (guint i = begin; i < stretch.end; i++)
            {
              CavPoint q = get_chord_end (&stretch, i);

              stretch.box = (CavBox){ MIN (stretch.box.x0, q.x), MIN (stretch.box.y0, q.y),
                                      MAX (stretch.box.x1, q.x), MAX (stretch.box.y1, q.y) };
            }
          g_array_append_val (stretches, stretch);
        }
    }
  return stretches;
}

/* Where the way from p to q crosses a stretch, as shares of it. */
static void
add_crossings (const Stretch *stretch, CavPoint p, CavPoint q, GArray *crossings)
{
  double dx = q.x - p.x, dy = q.y - p.y;
  CavPoint a = stretch->points[stretch->begin];
  double side = dx * (a.y - p.y) - dy * (a.x - p.x);

  for (guint i = stretch->begin; i < stretch->end; i++)
    {
      CavPoint b = get_chord_end (stretch, i);
      double other = dx * (b.y - p.y) - dy * (b.x - p.x);

      if ((side < 0) != (other < 0))
        {
          double along = side / (side - other);
          CavPoint at = { a.x + along * (b.x - a.x), a.y + along * (b.y - a.y) };
          double share = ((at.x - p.x) * dx + (at.y - p.y) * dy) / (dx * dx + dy * dy);

          if (share > 0 && share < 1)
            g_array_append_val (crossings, share);
        }
      a = b;
      side = other;
    }
}

/* How many chords of a stretch a ray from a point toward +x crosses, odd or even. */
static gboolean
is_crossed_oddly (const Stretch *stretch, CavPoint point)
{
  gboolean odd = FALSE;
  CavPoint a;

  if (point.y < stretch->box.y0 || point.y > stretch->box.y1 || point.x > stretch->box.x1)
    return FALSE;
  a = stretch->points[stretch->begin];
  if (point.x < stretch->box.x0)
    return (a.y <= point.y) != (get_chord_end (stretch, stretch->end - 1).y <= point.y);
  for (guint i = stretch->begin; i < stretch->end; i++)
    {
      CavPoint b = get_chord_end (stretch, i);

      if ((a.y <= point.y) != (b.y <= point.y)
          && a.x + (point.y - a.y) / (b.y - a.y) * (b.x - a.x) > point.x)
        odd = !odd;
      a = b;
    }
  return odd;
}

static gboolean
is_within_chords (const CavProof *proof, CavPoint point)
{
  gboolean within = FALSE;

  for (guint i = 0; i < proof->stretches->len; i++)
    within ^= is_crossed_oddly (&g_array_index (proof->stretches, Stretch, i), point);
  return within;
}

/* Deepest of the points of an edge's part that lies in the profile. */
static double
probe_part (const CavProof *proof, CavPoint p, CavPoint q)
{
  int n_probes = 1 + (int)(cav_point_distance (p, q) / GOUGE_PROBE);
  double deepest = 0;

  for (int probe = 0; probe <= n_probes; probe++)
    {
      double t = (double)probe / (n_probes + 1);
      CavPoint at = { p.x + t * (q.x - p.x), p.y + t * (q.y - p.y) };

      if (cav_region_contains (proof->profile, at))
        deepest = fmax (deepest, cav_region_get_distance (proof->profile, at));
    }
  return deepest;
}

/* An edge falls into parts where it crosses the profile's outline. */
static double
probe_edge (const CavProof *proof, CavPoint p, CavPoint q, GArray *crossings)
{
  double from = 0, deepest = 0, end = 1;

  g_array_set_size (crossings, 0);
  for (guint i = 0; i < proof->stretches->len; i++)
    {
      const Stretch *stretch = &g_array_index (proof->stretches, Stretch, i);

      if (MAX (p.x, q.x) >= stretch->box.x0 && MIN (p.x, q.x) <= stretch->box.x1
          && MAX (p.y, q.y) >= stretch->box.y0 && MIN (p.y, q.y) <= stretch->box.y1)
        add_crossings (stretch, p, q, crossings);
    }
  g_array_sort (crossings, cav_compare_rising);
  g_array_append_val (crossings, end);
  for (guint i = 0; i < crossings->len; i++)
    {
      double to = g_array_index (crossings, double, i), middle = (from + to) / 2;
      CavPoint a = { p.x + from * (q.x - p.x), p.y + from * (q.y - p.y) };
      CavPoint b = { p.x + to * (q.x - p.x), p.y + to * (q.y - p.y) };

      if (is_within_chords (proof,
                            CAV_POINT (p.x + middle * (q.x - p.x), p.y + middle * (q.y - p.y))))
        deepest = fmax (deepest, probe_part (proof, a, b));
      from = to;
    }
  return deepest;
}

/* What of the sweep's outline lies in the profile bounds what they share, with the profile's own
 * outline. That the rail may have lost some of it before, which was no more than a film, makes no
 * difference. */
double
cav_proof_get_gouge (const CavProof *proof, const CavRegion *swept)
{
  CavBox box = cav_region_get_bounds (proof->profile);
  g_autoptr (GArray) crossings = g_array_new (FALSE, FALSE, sizeof (double));
  double deepest = 0;

  for (guint ring = 0; ring < cav_region_get_ring_count (swept); ring++)
    {
      guint n;
      const CavPoint *points = cav_region_get_ring_points (swept, ring, &n);

      for (guint i = 0; i < n; i++)
        {
          CavPoint p = points[i], q = points[i + 1 < n ? i + 1 : 0];

          if (MAX (p.x, q.x) > box.x0 && MIN (p.x, q.x) < box.x1 && MAX (p.y, q.y) > box.y0
              && MIN (p.y, q.y) < box.y1)
            deepest = fmax (deepest, probe_edge (proof, p, q, crossings));
        }
    }
  return deepest;
}
