/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "milling/cav-hand-work.h"

#include <math.h>

/* An edge of what is left lies on the surface where its middle is this near to it, mm. */
#define ON_SURFACE 0.02

static void
measure_surface (const CavPlan *plan, const CavRegion *piece, CavHandSurface *surface)
{
  for (guint ring = 0; ring < cav_region_get_ring_count (piece); ring++)
    {
      guint n_points = 0;
      const CavPoint *points = cav_region_get_ring_points (piece, ring, &n_points);

      for (guint i = 0; i < n_points; i++)
        {
          CavPoint p = points[i];
          CavPoint q = points[(i + 1) % n_points];
          CavPoint middle = CAV_POINT ((p.x + q.x) / 2.0, (p.y + q.y) / 2.0);

          surface->thickness
              = fmax (surface->thickness, cav_region_get_distance (plan->profile, p));
          if (cav_region_get_distance (plan->profile, middle) < ON_SURFACE)
            surface->length += cav_point_distance (p, q);
        }
    }
}

static int
compare_surfaces_cb (gconstpointer a, gconstpointer b)
{
  const CavHandSurface *first = a;
  const CavHandSurface *second = b;

  if (first->place.x < second->place.x || first->place.x > second->place.x)
    return first->place.x < second->place.x ? -1 : 1;
  return (first->place.y > second->place.y) - (first->place.y < second->place.y);
}

GArray *
cav_hand_work_find (const CavPlan *plan)
{
  GArray *surfaces = g_array_new (FALSE, FALSE, sizeof (CavHandSurface));

  g_return_val_if_fail (plan != NULL, surfaces);

  for (guint i = 0; plan->leftover != NULL && i < cav_region_get_piece_count (plan->leftover); i++)
    {
      g_autoptr (CavRegion) piece = cav_region_dup_piece (plan->leftover, i);
      CavHandSurface surface = { .piece = i };

      measure_surface (plan, piece, &surface);
      if (surface.thickness < CAV_HAND_FILM || !cav_region_get_centroid (piece, &surface.place))
        continue;
      surface.place.x -= plan->carrier_inside;
      g_array_append_val (surfaces, surface);
    }
  g_array_sort (surfaces, compare_surfaces_cb);
  return surfaces;
}

gboolean
cav_hand_work_has_ridges (const CavPlan *plan)
{
  g_return_val_if_fail (plan != NULL, FALSE);

  for (guint i = 0; i < plan->setups->len; i++)
    if (((const CavSetup *)g_ptr_array_index (plan->setups, i))->machine == CAV_MACHINE_COVE)
      return TRUE;
  return FALSE;
}
