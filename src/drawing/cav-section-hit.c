/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/cav-section-hit.h"

#include <math.h>

typedef struct
{
  guint index;
  gboolean on_edge;
  double area;
} Candidate;

static gboolean
is_near_box (CavBox box, CavPoint point, double by)
{
  return point.x >= box.x0 - by && point.x <= box.x1 + by && point.y >= box.y0 - by
         && point.y <= box.y1 + by;
}

/* Edges before areas, small before large, what came last before what came first. */
static int
compare_candidates (gconstpointer a, gconstpointer b)
{
  const Candidate *one = a;
  const Candidate *other = b;

  if (one->on_edge != other->on_edge)
    return one->on_edge ? -1 : 1;
  if (fabs (one->area - other->area) > 1e-9)
    return one->area < other->area ? -1 : 1;
  return one->index > other->index ? -1 : 1;
}

static GArray *
find_candidates (const GPtrArray *cuts, CavPoint point, double tolerance)
{
  GArray *found = g_array_new (FALSE, FALSE, sizeof (Candidate));

  for (guint i = 0; i < cuts->len; i++)
    {
      const CavRegion *cut = g_ptr_array_index (cuts, i);
      Candidate candidate = { .index = i };

      if (cut == NULL || !is_near_box (cav_region_get_bounds (cut), point, tolerance))
        continue;
      candidate.area = cav_region_get_area (cut);
      candidate.on_edge = cav_region_get_distance (cut, point) <= tolerance;
      if (candidate.on_edge || cav_region_contains (cut, point))
        g_array_append_val (found, candidate);
    }
  g_array_sort (found, compare_candidates);
  return found;
}

static gboolean
hit_blank (const CavBlank *blank, CavPoint point, double tolerance, CavHit *hit)
{
  gboolean inside = fabs (point.x) <= tolerance;
  gboolean outside = fabs (point.x - blank->width) <= tolerance;
  gboolean back = fabs (point.y) <= tolerance;
  gboolean face = fabs (point.y - blank->thickness) <= tolerance;

  if (!is_near_box ((CavBox){ 0, 0, blank->width, blank->thickness }, point, tolerance))
    return FALSE;
  hit->kind = CAV_HIT_BLANK;
  if ((inside || outside) && (back || face))
    {
      hit->kind = CAV_HIT_CORNER;
      hit->corner = back ? (inside ? CAV_CORNER_BACK_INSIDE : CAV_CORNER_BACK_OUTSIDE)
                         : (inside ? CAV_CORNER_FACE_INSIDE : CAV_CORNER_FACE_OUTSIDE);
    }
  else if (inside || outside || back || face)
    {
      hit->kind = CAV_HIT_SIDE;
      hit->side = back     ? CAV_SIDE_BACK
                  : face   ? CAV_SIDE_FACE
                  : inside ? CAV_SIDE_INSIDE
                           : CAV_SIDE_OUTSIDE;
    }
  return TRUE;
}

CavHit
cav_section_hit (const CavBlank *blank,
                 const GPtrArray *cuts,
                 const GArray *handles,
                 const CavView *view,
                 CavPoint pixel,
                 double tolerance)
{
  CavHit hit = { .kind = CAV_HIT_NOTHING };
  CavPoint point = cav_view_to_wood (view, pixel);
  double reach = tolerance / view->scale;
  int handle = handles != NULL ? cav_handle_find (handles, point, reach * 1.3) : -1;
  g_autoptr (GArray) found = NULL;

  if (handle >= 0)
    {
      hit.kind = CAV_HIT_HANDLE;
      hit.index = (guint)handle;
      return hit;
    }
  found = find_candidates (cuts, point, reach);
  if (found->len > 0)
    {
      hit.kind = CAV_HIT_CUT;
      hit.index = g_array_index (found, Candidate, 0).index;
      hit.on_edge = g_array_index (found, Candidate, 0).on_edge;
      return hit;
    }
  hit_blank (blank, point, reach, &hit);
  return hit;
}

GArray *
cav_section_hit_cuts (const GPtrArray *cuts, const CavView *view, CavPoint pixel, double tolerance)
{
  g_autoptr (GArray) found
      = find_candidates (cuts, cav_view_to_wood (view, pixel), tolerance / view->scale);
  GArray *indices = g_array_new (FALSE, FALSE, sizeof (guint));

  for (guint i = 0; i < found->len; i++)
    g_array_append_val (indices, g_array_index (found, Candidate, i).index);
  return indices;
}

static gboolean
touches (const CavRegion *cut, CavBox box)
{
  CavBox bounds = cav_region_get_bounds (cut);
  g_autoptr (CavRegion) band = NULL;
  g_autoptr (CavRegion) common = NULL;

  if (bounds.x0 > box.x1 || bounds.x1 < box.x0 || bounds.y0 > box.y1 || bounds.y1 < box.y0)
    return FALSE;
  if (bounds.x0 >= box.x0 && bounds.x1 <= box.x1 && bounds.y0 >= box.y0 && bounds.y1 <= box.y1)
    return TRUE;
  band = cav_region_new_box (box.x0, box.y0, box.x1, box.y1);
  common = cav_region_intersection (cut, band, NULL);
  return common != NULL && !cav_region_is_empty (common);
}

GArray *
cav_section_hit_band (const GPtrArray *cuts, const CavView *view, CavBox box)
{
  GArray *indices = g_array_new (FALSE, FALSE, sizeof (guint));
  CavBox pixels = { fmin (box.x0, box.x1), fmin (box.y0, box.y1), fmax (box.x0, box.x1),
                    fmax (box.y0, box.y1) };
  CavBox wood = cav_view_box_to_wood (view, pixels);

  for (guint i = 0; i < cuts->len; i++)
    {
      const CavRegion *cut = g_ptr_array_index (cuts, i);

      if (cut != NULL && touches (cut, wood))
        g_array_append_val (indices, i);
    }
  return indices;
}
