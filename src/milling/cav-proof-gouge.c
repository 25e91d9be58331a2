/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "milling/cav-proof-private.h"

#include <math.h>

/* Spacing of probes along an outline, mm. */
#define GOUGE_PROBE 0.5
/* A corner of the profile deeper than this in the chips is one that is cut off. */
#define CORNER_DEPTH 0.002

/* Deepest of the points along the outlines of a region, of those that lie inside the profile. */
static double
probe_outline (const CavProof *proof, const CavRegion *region)
{
  double deepest = 0;

  for (guint ring = 0; ring < cav_region_get_ring_count (region); ring++)
    {
      guint n;
      const CavPoint *points = cav_region_get_ring_points (region, ring, &n);

      for (guint i = 0; i < n; i++)
        {
          CavPoint p = points[i], q = points[(i + 1) % n];
          int n_probes = 1 + (int)(cav_point_distance (p, q) / GOUGE_PROBE);

          for (int probe = 0; probe <= n_probes; probe++)
            {
              double t = (double)probe / (n_probes + 1);
              CavPoint at = { p.x + t * (q.x - p.x), p.y + t * (q.y - p.y) };

              if (cav_region_contains (proof->profile, at))
                deepest = fmax (deepest, cav_region_get_distance (proof->profile, at));
            }
        }
    }
  return deepest;
}

/* TRUE where a corner of the profile stands in what is taken. */
static gboolean
takes_corner (const CavProof *proof, const CavRegion *chips)
{
  CavBox box = cav_region_get_bounds (chips);

  for (guint ring = 0; ring < cav_region_get_ring_count (proof->profile); ring++)
    {
      guint n;
      const CavPoint *points = cav_region_get_ring_points (proof->profile, ring, &n);

      for (guint i = 0; i < n; i++)
        if (points[i].x > box.x0 && points[i].x < box.x1 && points[i].y > box.y0
            && points[i].y < box.y1 && cav_region_contains (chips, points[i])
            && cav_region_get_distance (chips, points[i]) > CORNER_DEPTH)
          return TRUE;
    }
  return FALSE;
}

/* What two spans share, where that is more than a pass may enter from both sides; else empty. */
static CavSpan
get_deep_span (CavSpan a, CavSpan b)
{
  CavSpan common = { MAX (a.a, b.a), MIN (a.b, b.b) };

  return common.b - common.a > 2 * CAV_GOUGE_MOST * CAV_MICRONS ? common : (CavSpan){ 0, 0 };
}

/* TRUE where chips and profile share more than a film: a deep span that the next row has as well.
 * Films of 0.02 never do, whichever way they run. */
static gboolean
share_more_than_film (const CavRows *chips, const CavRows *profile, int row, CavSpan within)
{
  for (int i = chips->first[row]; i < chips->first[row + 1]; i++)
    for (int j = profile->first[row]; j < profile->first[row + 1]; j++)
      {
        CavSpan deep = get_deep_span (within, get_deep_span (chips->spans[i], profile->spans[j]));

        if (deep.b <= deep.a)
          continue;
        if (within.a > G_MININT32
            || (row + 1 < chips->n_rows && share_more_than_film (chips, profile, row + 1, deep)))
          return TRUE;
      }
  return FALSE;
}

/* TRUE where a pass may go right through a wall of the profile that no probe meets. */
static gboolean
takes_wall (const CavProof *proof, const CavRegion *chips)
{
  const CavSpan all = { G_MININT32, G_MAXINT32 };
  CavBox box = cav_region_get_bounds (chips);

  for (int turned = 0; turned < 2; turned++)
    {
      g_autoptr (CavRows) rows = cav_proof_create_rows (proof, chips, turned, box);

      for (int row = 0; row < rows->n_rows; row++)
        if (share_more_than_film (rows, proof->profile_rows[turned], row, all))
          return TRUE;
    }
  return FALSE;
}

/* How deep a pass enters the profile. The rail holds all of the profile, so what enters it is among
 * the chips: its edge is a part of theirs, unless it cuts off a corner or a thin wall between two
 * probes, and then the exact common region is probed. */
double
cav_proof_get_gouge (const CavProof *proof, const CavRegion *chips)
{
  double deepest = probe_outline (proof, chips);

  if (deepest <= CAV_GOUGE_MOST && (takes_corner (proof, chips) || takes_wall (proof, chips)))
    {
      g_autoptr (CavRegion) common = cav_region_intersection (proof->profile, chips, NULL);

      if (common == NULL)
        return G_MAXDOUBLE;
      deepest = fmax (deepest, probe_outline (proof, common));
    }
  return deepest;
}
