/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Regions from outlines, and what outlines have to keep to. */
#include <glib/gi18n-lib.h>
#include <math.h>

#include "geometry/cav-number-text.h"
#include "geometry/cav-overlay-private.h"
#include "geometry/cav-tolerance.h"

#define NUMBER(value) CAV_NUMBER_TEXT ("%g", value)
#define PLACE(value) CAV_NUMBER_TEXT ("%.3f", value)

/* A box without width or height is the empty region. */
CavRegion *
cav_region_new_box (double x0, double y0, double x1, double y1)
{
  GArray *rings;
  CavPath *path;

  g_return_val_if_fail (isfinite (x0) && isfinite (y0) && isfinite (x1) && isfinite (y1), NULL);

  rings = cav_rings_new ();
  path = cav_path_new ();
  if (x1 > x0 && y1 > y0)
    {
      cav_path_move_to (path, CAV_POINT (x0, y0));
      cav_path_line_to (path, CAV_POINT (x1, y0));
      cav_path_line_to (path, CAV_POINT (x1, y1));
      cav_path_line_to (path, CAV_POINT (x0, y1));
      cav_path_close (path);
    }
  cav_rings_append (rings, path, FALSE);
  return cav_region_new_take_rings (rings);
}

static gboolean
check_input (const CavPath *path, GError **error)
{
  CavBox box = cav_path_get_bounds (path);

  if (!cav_path_is_finite (path))
    {
      g_set_error (error, CAV_GEOMETRY_ERROR, CAV_GEOMETRY_ERROR_NOT_FINITE,
                   _ ("An outline has a coordinate that is not a finite number; give every "
                      "coordinate as a number"));
      return FALSE;
    }
  if (fmin (box.x0, box.y0) < -CAV_COORDINATE_MAX || fmax (box.x1, box.y1) > CAV_COORDINATE_MAX)
    {
      g_set_error (error, CAV_GEOMETRY_ERROR, CAV_GEOMETRY_ERROR_NOT_FINITE,
                   _ ("An outline reaches from (%s, %s) to (%s, %s) mm, beyond the largest "
                      "coordinate of %s mm; make it smaller or check its unit"),
                   NUMBER (box.x0), NUMBER (box.y0), NUMBER (box.x1), NUMBER (box.y1),
                   NUMBER (CAV_COORDINATE_MAX));
      return FALSE;
    }
  if (cav_path_get_segment_count (path) > 0 && !cav_path_is_closed (path))
    {
      CavPoint start = cav_path_get_start (path);

      g_set_error (error, CAV_GEOMETRY_ERROR, CAV_GEOMETRY_ERROR_NOT_CLOSED,
                   _ ("The outline that begins at (%s, %s) does not close; end it where it began"),
                   PLACE (start.x), PLACE (start.y));
      return FALSE;
    }
  return TRUE;
}

static void
set_degenerate (const CavPath *path, GError **error)
{
  CavPoint start = cav_path_get_start (path);

  g_set_error (error, CAV_GEOMETRY_ERROR, CAV_GEOMETRY_ERROR_DEGENERATE,
               _ ("The outline that begins at (%s, %s) encloses no area; give it at least three "
                  "corners that do not lie on one line"),
               PLACE (start.x), PLACE (start.y));
}

/* How often the chords of a ring run around a point, counter-clockwise. */
static int
winding_number (const CavRing *ring, CavPoint point)
{
  int winding = 0;

  for (guint i = 0; i < ring->n_points; i++)
    {
      CavPoint a = ring->points[i];
      CavPoint b = ring->points[(i + 1) % ring->n_points];
      double side = (b.x - a.x) * (point.y - a.y) - (b.y - a.y) * (point.x - a.x);

      if (a.y <= point.y && b.y > point.y && side > 0.0)
        winding++;
      else if (a.y > point.y && b.y <= point.y && side < 0.0)
        winding--;
    }
  return winding;
}

/* Whether every polygon of a geometry is run around just once by the ring it was made from. */
static gboolean
winds_once (const CavRing *ring, GEOSContextHandle_t geos, const GEOSGeometry *geometry)
{
  int n = GEOSGetNumGeometries_r (geos, geometry);

  for (int i = 0; i < n; i++)
    {
      const GEOSGeometry *polygon = GEOSGetGeometryN_r (geos, geometry, i);
      GEOSGeometry *inside = GEOSPointOnSurface_r (geos, polygon);
      CavPoint point;
      gboolean found = inside != NULL && GEOSGeomGetX_r (geos, inside, &point.x) == 1
                       && GEOSGeomGetY_r (geos, inside, &point.y) == 1;
      gboolean polygonal = GEOSGeomTypeId_r (geos, polygon) == GEOS_POLYGON;

      GEOSGeom_destroy_r (geos, inside);
      if (polygonal && found && winding_number (ring, point) != 1)
        return FALSE;
    }
  return TRUE;
}

static void
set_crosses_itself (GEOSContextHandle_t geos, const GEOSGeometry *place, GError **error)
{
  double x = 0.0, y = 0.0;

  if (place != NULL)
    {
      GEOSGeomGetX_r (geos, place, &x);
      GEOSGeomGetY_r (geos, place, &y);
    }
  g_set_error (error, CAV_GEOMETRY_ERROR, CAV_GEOMETRY_ERROR_CROSSES_ITSELF,
               _ ("The outline crosses itself at (%s, %s); move its corners there so that it runs "
                  "around the area once"),
               PLACE (x), PLACE (y));
}

/* An outline that only touches itself, or goes out and back on one line, still bounds an area
 * once: its pieces and holes are sorted out. What it encloses by even and odd crossings then is
 * what it runs around; where it crosses itself the two differ. */
static CavRegion *
untangle (CavRegion *tangled,
          const CavPath *path,
          GEOSContextHandle_t geos,
          const GEOSGeometry *polygon,
          const GEOSGeometry *place,
          GError **error)
{
  const CavRegion *regions[1] = { tangled };
  g_autoptr (CavOverlay) overlay = cav_overlay_new (regions, 1);
  const CavRing *ring = &tangled->rings[0];
  GEOSGeometry *valid = GEOSMakeValid_r (geos, polygon);
  CavRegion *region = NULL;
  double enclosed = 0.0, run_around = 0.0;
  double length = cav_path_get_length (ring->path);
  CavPoint origin = ring->points[0];

  for (guint i = 0; i < ring->n_points; i++)
    {
      CavPoint a = ring->points[i];
      CavPoint b = ring->points[(i + 1) % ring->n_points];

      run_around += 0.5 * ((a.x - origin.x) * (b.y - a.y) - (a.y - origin.y) * (b.x - a.x));
    }
  if (valid != NULL)
    GEOSArea_r (geos, valid, &enclosed);

  if (valid == NULL || fabs (enclosed - run_around) > CAV_TOLERANCE_POINT * length
      || !winds_once (ring, geos, valid))
    set_crosses_itself (geos, place, error);
  else
    region = cav_overlay_recover (overlay, geos, valid);
  if (region != NULL && cav_region_is_empty (region))
    {
      set_degenerate (path, error);
      g_clear_pointer (&region, cav_region_unref);
    }
  GEOSGeom_destroy_r (geos, valid);
  return region;
}

/* Takes the region of a single ring that may cross itself. */
static CavRegion *
check_crossings (CavRegion *region, const CavPath *path, GError **error)
{
  GEOSContextHandle_t geos = cav_geos_context ();
  const CavRing *ring = &region->rings[0];
  GEOSGeometry *outer = cav_geos_ring (geos, ring->points, ring->n_points);
  GEOSGeometry *polygon = outer == NULL ? NULL : GEOSGeom_createPolygon_r (geos, outer, NULL, 0);
  GEOSGeometry *place = NULL;
  CavRegion *result = region;

  if (polygon == NULL || GEOSisValidDetail_r (geos, polygon, 0, NULL, &place) != 1)
    {
      result = untangle (region, path, geos, polygon, place, error);
      cav_region_unref (region);
    }
  GEOSGeom_destroy_r (geos, place);
  GEOSGeom_destroy_r (geos, polygon);
  return result;
}

/* Says what is wrong with a path that encloses nothing: a path of two loops that run against
 * each other may have no area either. */
static void
explain_empty (const CavPath *path, GError **error)
{
  g_autoptr (GArray) points = cav_path_linearise (path, CAV_TOLERANCE_CHORD);
  GEOSContextHandle_t geos = cav_geos_context ();
  GEOSGeometry *ring = NULL, *polygon = NULL, *place = NULL, *valid = NULL;
  double area = 0.0;

  if (points->len >= 3)
    ring = cav_geos_ring (geos, (const CavPoint *)(gpointer)points->data, points->len);
  if (ring != NULL)
    polygon = GEOSGeom_createPolygon_r (geos, ring, NULL, 0);
  if (polygon != NULL && GEOSisValidDetail_r (geos, polygon, 0, NULL, &place) != 1)
    valid = GEOSMakeValid_r (geos, polygon);
  if (valid != NULL)
    GEOSArea_r (geos, valid, &area);

  if (cav_is_sliver (area, cav_path_get_length (path), CAV_TOLERANCE_POINT))
    set_degenerate (path, error);
  else
    set_crosses_itself (geos, place, error);
  GEOSGeom_destroy_r (geos, valid);
  GEOSGeom_destroy_r (geos, place);
  GEOSGeom_destroy_r (geos, polygon);
}

CavRegion *
cav_region_new_from_path (const CavPath *path, GError **error)
{
  GArray *rings;

  g_return_val_if_fail (path != NULL, NULL);
  g_return_val_if_fail (error == NULL || *error == NULL, NULL);

  if (!check_input (path, error))
    return NULL;
  rings = cav_rings_new ();
  if (cav_path_get_segment_count (path) > 0
      && cav_rings_append (rings, cav_path_copy (path), FALSE))
    return check_crossings (cav_region_new_take_rings (rings), path, error);
  g_array_unref (rings);
  explain_empty (path, error);
  return NULL;
}

CavRegion *
cav_region_new_polygon (const CavPoint *points, guint n_points, GError **error)
{
  g_autoptr (CavPath) path = cav_path_new ();

  g_return_val_if_fail (points != NULL || n_points == 0, NULL);

  if (n_points > 0)
    cav_path_move_to (path, points[0]);
  for (guint i = 1; i < n_points; i++)
    cav_path_line_to (path, points[i]);
  cav_path_close (path);
  return cav_region_new_from_path (path, error);
}
