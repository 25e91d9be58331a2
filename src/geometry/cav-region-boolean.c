/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Boolean operations: chords overlaid by GEOS, lines and arcs found again afterwards. */
#include "geometry/cav-overlay-private.h"
#include "geometry/cav-tolerance.h"

#include <glib/gi18n-lib.h>

typedef GEOSGeometry *(*OverlayFunc) (GEOSContextHandle_t,
                                      const GEOSGeometry *,
                                      const GEOSGeometry *);
typedef GEOSGeometry *(*OverlayPrecFunc) (GEOSContextHandle_t,
                                          const GEOSGeometry *,
                                          const GEOSGeometry *,
                                          double);

static CavRegion *
finish (const CavOverlay *overlay, GEOSContextHandle_t geos, GEOSGeometry *result, GError **error)
{
  CavRegion *region;

  if (result == NULL)
    {
      g_set_error (error, CAV_GEOMETRY_ERROR, CAV_GEOMETRY_ERROR_OVERLAY,
                   _ ("Outlines could not be overlaid (%s); move one of them a little"),
                   cav_geos_get_message ());
      return NULL;
    }
  region = cav_overlay_recover (overlay, geos, result);
  GEOSGeom_destroy_r (geos, result);
  return region;
}

/* Where chords of a narrow neck cross each other, or pieces overlap by less than a curve differs
 * from its chords, GEOS refuses an operand. What remains is what any of its rings encloses. */
static void
make_valid (GEOSContextHandle_t geos, GEOSGeometry **geometry)
{
  GEOSMakeValidParams *params = GEOSMakeValidParams_create_r (geos);
  GEOSGeometry *valid;

  GEOSMakeValidParams_setMethod_r (geos, params, GEOS_MAKE_VALID_STRUCTURE);
  GEOSMakeValidParams_setKeepCollapsed_r (geos, params, 0);
  valid = GEOSMakeValidWithParams_r (geos, *geometry, params);
  GEOSMakeValidParams_destroy_r (geos, params);
  if (valid == NULL)
    return;
  GEOSGeom_destroy_r (geos, *geometry);
  *geometry = valid;
}

/* The operands have been brought together on the grid already, so that GEOS meets no walls that
 * nearly coincide, and noding on the grid, eight times slower, is left for where it gives up. */
static CavRegion *
overlay_two (OverlayFunc operation,
             OverlayPrecFunc on_grid,
             const CavRegion *a,
             const CavRegion *b,
             GError **error)
{
  const CavRegion *regions[2] = { a, b };
  GEOSContextHandle_t geos = cav_geos_context ();
  g_autoptr (CavOverlay) overlay = cav_overlay_new (regions, 2);
  GEOSGeometry *one = cav_overlay_dup_geometry (overlay, geos, 0, 1);
  GEOSGeometry *other = cav_overlay_dup_geometry (overlay, geos, 1, 1);
  GEOSGeometry *result = NULL;

  if (one != NULL && other != NULL)
    {
      result = operation (geos, one, other);
      if (result == NULL)
        {
          make_valid (geos, &one);
          make_valid (geos, &other);
          result = on_grid (geos, one, other, CAV_TOLERANCE_OVERLAY);
        }
    }
  GEOSGeom_destroy_r (geos, one);
  GEOSGeom_destroy_r (geos, other);
  return finish (overlay, geos, result, error);
}

/* A region is immutable: where nothing changes it stands for the result itself. */
static CavRegion *
share (const CavRegion *region)
{
  return cav_region_ref ((CavRegion *)region);
}

static gboolean
apart (const CavRegion *a, const CavRegion *b)
{
  return cav_region_is_empty (a) || cav_region_is_empty (b)
         || !cav_box_meets (a->bounds, b->bounds, CAV_TOLERANCE_SLIVER);
}

CavRegion *
cav_region_union_all (CavRegion *const *regions, guint n_regions, GError **error)
{
  GEOSContextHandle_t geos = cav_geos_context ();
  g_autofree const CavRegion **used = g_new (const CavRegion *, n_regions + 1);
  g_autoptr (CavOverlay) overlay = NULL;
  GEOSGeometry *all;
  GEOSGeometry *result = NULL;
  guint n = 0;

  g_return_val_if_fail (regions != NULL || n_regions == 0, NULL);
  g_return_val_if_fail (error == NULL || *error == NULL, NULL);

  for (guint i = 0; i < n_regions; i++)
    if (!cav_region_is_empty (regions[i]))
      used[n++] = regions[i];
  if (n == 0)
    return cav_region_new_empty ();
  if (n == 1)
    return share (used[0]);

  overlay = cav_overlay_new (used, n);
  all = cav_overlay_dup_geometry (overlay, geos, 0, n);
  if (all != NULL)
    {
      result = GEOSUnaryUnion_r (geos, all);
      if (result == NULL)
        {
          make_valid (geos, &all);
          result = GEOSUnaryUnionPrec_r (geos, all, CAV_TOLERANCE_OVERLAY);
        }
    }
  GEOSGeom_destroy_r (geos, all);
  return finish (overlay, geos, result, error);
}

CavRegion *
cav_region_union (const CavRegion *a, const CavRegion *b, GError **error)
{
  g_return_val_if_fail (a != NULL && b != NULL, NULL);
  g_return_val_if_fail (error == NULL || *error == NULL, NULL);

  if (cav_region_is_empty (b) || a == b)
    return share (a);
  if (cav_region_is_empty (a))
    return share (b);
  if (apart (a, b))
    {
      GArray *rings = cav_rings_new ();

      for (guint i = 0; i < a->n_rings; i++)
        cav_rings_append_copy (rings, &a->rings[i]);
      for (guint i = 0; i < b->n_rings; i++)
        cav_rings_append_copy (rings, &b->rings[i]);
      return cav_region_new_take_rings (rings);
    }
  return overlay_two (GEOSUnion_r, GEOSUnionPrec_r, a, b, error);
}

CavRegion *
cav_region_difference (const CavRegion *a, const CavRegion *b, GError **error)
{
  g_return_val_if_fail (a != NULL && b != NULL, NULL);
  g_return_val_if_fail (error == NULL || *error == NULL, NULL);

  if (a == b)
    return cav_region_new_empty ();
  if (apart (a, b))
    return share (a);
  return overlay_two (GEOSDifference_r, GEOSDifferencePrec_r, a, b, error);
}

CavRegion *
cav_region_intersection (const CavRegion *a, const CavRegion *b, GError **error)
{
  g_return_val_if_fail (a != NULL && b != NULL, NULL);
  g_return_val_if_fail (error == NULL || *error == NULL, NULL);

  if (a == b)
    return share (a);
  if (apart (a, b))
    return cav_region_new_empty ();
  return overlay_two (GEOSIntersection_r, GEOSIntersectionPrec_r, a, b, error);
}
