/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "geometry/cav-region.h"

#include <math.h>

#include "geometry/cav-region-private.h"
#include "geometry/cav-segment-private.h"
#include "geometry/cav-tolerance.h"

/* clang-format off */
G_DEFINE_QUARK (cav-geometry-error, cav_geometry_error)
/* clang-format on */

static void
ring_clear (gpointer data)
{
  CavRing *ring = data;

  cav_path_free (ring->path);
  g_free (ring->points);
  g_free (ring->owners);
}

GArray *
cav_rings_new (void)
{
  GArray *rings = g_array_new (FALSE, FALSE, sizeof (CavRing));

  g_array_set_clear_func (rings, ring_clear);
  return rings;
}

gboolean
cav_is_sliver (double area, double perimeter, double thickness)
{
  return 2.0 * fabs (area) <= thickness * perimeter;
}

static void
ring_linearise (CavRing *ring)
{
  guint n_segments = cav_path_get_segment_count (ring->path);
  GArray *points = g_array_sized_new (FALSE, FALSE, sizeof (CavPoint), 2 * n_segments);
  GArray *owners = g_array_sized_new (FALSE, FALSE, sizeof (guint), 2 * n_segments);
  CavPoint start = cav_path_get_start (ring->path);

  g_array_append_val (points, start);
  for (guint i = 0; i < n_segments; i++)
    {
      cav_segment_linearise (cav_path_get_segment (ring->path, i), CAV_TOLERANCE_CHORD, points);
      while (owners->len + 1 < points->len)
        g_array_append_val (owners, i);
    }
  /* The last point is the first one again. */
  ring->n_points = points->len - 1;
  ring->points = (CavPoint *)(gpointer)g_array_free (points, FALSE);
  ring->owners = (guint *)(gpointer)g_array_free (owners, FALSE);
}

gboolean
cav_rings_append (GArray *rings, CavPath *path, gboolean hole)
{
  CavRing ring = { .path = path, .hole = hole };
  double area = cav_path_is_closed (path) ? cav_path_get_signed_area (path) : 0.0;

  if (cav_is_sliver (area, cav_path_get_length (path), CAV_TOLERANCE_POINT))
    {
      cav_path_free (path);
      return FALSE;
    }
  if ((area < 0.0) != (hole != FALSE))
    {
      ring.path = cav_path_reversed (path);
      cav_path_free (path);
    }
  ring_linearise (&ring);
  ring.bounds = cav_path_get_bounds (ring.path);
  g_array_append_val (rings, ring);
  return TRUE;
}

void
cav_rings_append_copy (GArray *rings, const CavRing *ring)
{
  CavRing copy = *ring;

  copy.path = cav_path_copy (ring->path);
  copy.points = g_memdup2 (ring->points, ring->n_points * sizeof (CavPoint));
  copy.owners = g_memdup2 (ring->owners, ring->n_points * sizeof (guint));
  g_array_append_val (rings, copy);
}

CavRegion *
cav_region_new_take_rings (GArray *rings)
{
  CavRegion *region = g_new0 (CavRegion, 1);
  guint n = 0;

  region->ref_count = 1;
  region->bounds = (CavBox){ 0.0, 0.0, -1.0, -1.0 };
  region->n_rings = rings->len;
  region->piece_starts = g_new (guint, rings->len + 1);
  g_array_set_clear_func (rings, NULL);
  region->rings = (CavRing *)(gpointer)g_array_free (rings, FALSE);

  for (guint i = 0; i < region->n_rings; i++)
    {
      const CavRing *ring = &region->rings[i];

      region->area += cav_path_get_signed_area (ring->path);
      if (ring->hole)
        continue;
      region->piece_starts[n++] = i;
      if (n == 1)
        region->bounds = ring->bounds;
      region->bounds.x0 = fmin (region->bounds.x0, ring->bounds.x0);
      region->bounds.y0 = fmin (region->bounds.y0, ring->bounds.y0);
      region->bounds.x1 = fmax (region->bounds.x1, ring->bounds.x1);
      region->bounds.y1 = fmax (region->bounds.y1, ring->bounds.y1);
    }
  region->n_pieces = n;
  region->piece_starts[n] = region->n_rings;
  return region;
}

CavRegion *
cav_region_new_empty (void)
{
  return cav_region_new_take_rings (cav_rings_new ());
}

CavRegion *
cav_region_ref (CavRegion *region)
{
  g_return_val_if_fail (region != NULL, NULL);

  g_atomic_int_inc (&region->ref_count);
  return region;
}

void
cav_region_unref (CavRegion *region)
{
  if (region == NULL || !g_atomic_int_dec_and_test (&region->ref_count))
    return;
  for (guint i = 0; i < region->n_rings; i++)
    ring_clear (&region->rings[i]);
  g_free (region->rings);
  g_free (region->piece_starts);
  g_free (region);
}

gboolean
cav_region_is_empty (const CavRegion *region)
{
  g_return_val_if_fail (region != NULL, TRUE);

  return region->n_rings == 0;
}

guint
cav_region_get_piece_count (const CavRegion *region)
{
  g_return_val_if_fail (region != NULL, 0);

  return region->n_pieces;
}

static void
append_piece (const CavRegion *region, guint piece, GArray *rings)
{
  for (guint i = region->piece_starts[piece]; i < region->piece_starts[piece + 1]; i++)
    cav_rings_append_copy (rings, &region->rings[i]);
}

CavRegion *
cav_region_dup_piece (const CavRegion *region, guint piece)
{
  GArray *rings;

  g_return_val_if_fail (region != NULL && piece < region->n_pieces, NULL);

  rings = cav_rings_new ();
  append_piece (region, piece, rings);
  return cav_region_new_take_rings (rings);
}

static gboolean
is_thick (const CavRegion *region, guint piece, double thickness)
{
  double area = 0.0, perimeter = 0.0;

  for (guint i = region->piece_starts[piece]; i < region->piece_starts[piece + 1]; i++)
    {
      area += cav_path_get_signed_area (region->rings[i].path);
      perimeter += cav_path_get_length (region->rings[i].path);
    }
  return !cav_is_sliver (area, perimeter, thickness);
}

CavRegion *
cav_region_dup_thick (const CavRegion *region, double thickness)
{
  GArray *rings;

  g_return_val_if_fail (region != NULL, NULL);

  rings = cav_rings_new ();
  for (guint piece = 0; piece < region->n_pieces; piece++)
    if (is_thick (region, piece, thickness))
      append_piece (region, piece, rings);
  return cav_region_new_take_rings (rings);
}

guint
cav_region_get_ring_count (const CavRegion *region)
{
  g_return_val_if_fail (region != NULL, 0);

  return region->n_rings;
}

const CavPath *
cav_region_get_ring (const CavRegion *region, guint ring)
{
  g_return_val_if_fail (region != NULL && ring < region->n_rings, NULL);

  return region->rings[ring].path;
}

gboolean
cav_region_ring_is_hole (const CavRegion *region, guint ring)
{
  g_return_val_if_fail (region != NULL && ring < region->n_rings, FALSE);

  return region->rings[ring].hole;
}

const CavPoint *
cav_region_get_ring_points (const CavRegion *region, guint ring, guint *out_n_points)
{
  g_return_val_if_fail (region != NULL && ring < region->n_rings, NULL);

  *out_n_points = region->rings[ring].n_points;
  return region->rings[ring].points;
}

CavRegion *
cav_region_map_rings (const CavRegion *region,
                      CavPath *(*map) (const CavPath *ring, gconstpointer data),
                      gconstpointer data)
{
  GArray *rings = cav_rings_new ();
  gboolean kept = FALSE;

  for (guint i = 0; i < region->n_rings; i++)
    {
      const CavRing *ring = &region->rings[i];

      /* Holes of a piece that is gone go with it. */
      if (ring->hole && !kept)
        continue;
      if (cav_rings_append (rings, map (ring->path, data), ring->hole))
        kept = TRUE;
      else if (!ring->hole)
        kept = FALSE;
    }
  return cav_region_new_take_rings (rings);
}

static CavPath *
transform_ring (const CavPath *ring, gconstpointer transform)
{
  return cav_path_transformed (ring, *(const CavTransform *)transform);
}

/* A map that flattens the plane leaves the empty region. */
CavRegion *
cav_region_transformed (const CavRegion *region, CavTransform transform)
{
  g_return_val_if_fail (region != NULL, NULL);
  g_return_val_if_fail (isfinite (transform.xx * transform.yy - transform.xy * transform.yx)
                            && isfinite (transform.x0) && isfinite (transform.y0),
                        NULL);

  return cav_region_map_rings (region, transform_ring, &transform);
}
