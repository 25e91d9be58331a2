/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "milling/cav-leftover.h"

#include "geometry/cav-number-text.h"

#include "milling/cav-parallel.h"
#include "milling/cav-placement.h"
#include "milling/cav-thickness.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <stdlib.h>

#define SAMPLE_SPACING 0.1
#define HAND_DEPTH 0.3
/* A stretch beyond the limit is named from this area on, mm². */
#define PLACE_LEAST 1e-3
/* Less leftover than this is rounding, mm². */
#define AREA_LEAST 0.005

/* An edge of the finished outline, and what lies over it. */
typedef struct
{
  const CavRegion *leftover;
  CavPoint from;
  CavPoint along; /* length 1 */
  double length;
} Edge;

static gboolean
is_covered (const Edge *edge, double at)
{
  /* The wood is on the left of an outline, so its normal points to the right. */
  CavPoint over = { edge->from.x + at * edge->along.x + HAND_DEPTH * edge->along.y,
                    edge->from.y + at * edge->along.y - HAND_DEPTH * edge->along.x };

  return cav_region_contains (edge->leftover, over);
}

/* Where an edge that is covered at one place and not at the other changes. */
static double
find_change (const Edge *edge, double covered, double open)
{
  for (int i = 0; i < 6; i++)
    {
      double middle = (covered + open) / 2;

      if (is_covered (edge, middle))
        covered = middle;
      else
        open = middle;
    }
  return (covered + open) / 2;
}

static double
get_covered_length (const Edge *edge)
{
  int n = MAX (1, (int)ceil (edge->length / SAMPLE_SPACING - 1e-9));
  double before = 0, covered = 0;
  gboolean was = is_covered (edge, 1e-6);

  for (int i = 1; i <= n; i++)
    {
      double at = i < n ? edge->length * i / n : edge->length - 1e-6;
      gboolean is = is_covered (edge, at);

      if (was && is)
        covered += at - before;
      else if (was)
        covered += find_change (edge, before, at) - before;
      else if (is)
        covered += at - find_change (edge, at, before);
      was = is;
      before = at;
    }
  return covered;
}

/* Length of finished outline that has leftover right over it. */
static double
get_covered_outline (const CavRegion *profile, const CavRegion *leftover)
{
  double covered = 0;

  if (cav_region_is_empty (leftover))
    return 0;
  for (guint ring = 0; ring < cav_region_get_ring_count (profile); ring++)
    {
      guint n_points;
      const CavPoint *points = cav_region_get_ring_points (profile, ring, &n_points);

      for (guint i = 0; i < n_points; i++)
        {
          CavPoint p = points[i], q = points[(i + 1) % n_points];
          double length = cav_point_distance (p, q);
          Edge edge = { leftover, p, { (q.x - p.x) / length, (q.y - p.y) / length }, length };

          if (length > 1e-5)
            covered += get_covered_length (&edge);
        }
    }
  return covered;
}

/* The leftover without its films as a region. NULL: there is none. */
static CavRegion *
create_solid (const CavRegion *leftover)
{
  g_autoptr (CavRegion) shrunk = cav_region_offset (leftover, -CAV_HALF_FILM, NULL);

  return shrunk != NULL && !cav_region_is_empty (shrunk)
             ? cav_region_offset (shrunk, CAV_HALF_FILM, NULL)
             : NULL;
}

/* Point of a small region that lies farthest from the profile, on a fine grid. */
static double
find_farthest (const CavRegion *region, const CavRegion *profile, CavPoint *out_place)
{
  CavBox box = cav_region_get_bounds (region);
  double step = fmax (0.05, fmax (box.x1 - box.x0, box.y1 - box.y0) / 80), farthest = -1;
  guint n;
  const CavPoint *points = cav_region_get_ring_points (region, 0, &n);

  for (double y = box.y0 + step / 2; y < box.y1; y += step)
    for (double x = box.x0 + step / 2; x < box.x1; x += step)
      {
        CavPoint at = { x, y };
        double distance;

        if (!cav_region_contains (region, at))
          continue;
        distance = cav_region_get_distance (profile, at);
        if (distance > farthest)
          {
            farthest = distance;
            *out_place = at;
          }
      }
  /* Finer than the grid: a corner will do. */
  for (guint i = 0; i < n && farthest < 0; i++)
    {
      *out_place = points[i];
      farthest = cav_region_get_distance (profile, points[i]);
    }
  return farthest;
}

static int
compare_places (const void *a, const void *b)
{
  const CavLeftoverPlace *p = *(CavLeftoverPlace *const *)a, *q = *(CavLeftoverPlace *const *)b;

  if (p->place.x > q->place.x || p->place.x < q->place.x)
    return p->place.x > q->place.x ? 1 : -1;
  return (p->place.y > q->place.y) - (p->place.y < q->place.y);
}

/* TRUE where a straight tool could come to the place from that side without touching the profile.
 */
static gboolean
is_open_to (const CavPlan *plan, CavPoint place, CavSide side)
{
  double dx = side == CAV_SIDE_INSIDE ? -1 : side == CAV_SIDE_OUTSIDE ? 1 : 0;
  double dy = side == CAV_SIDE_BACK ? -1 : side == CAV_SIDE_FACE ? 1 : 0;

  for (double way = 0.05; way < plan->blank.width + plan->blank.thickness; way += 0.1)
    {
      CavPoint at = { place.x + way * dx, place.y + way * dy };

      if (at.x < 0 || at.x > plan->blank.width || at.y < 0 || at.y > plan->blank.thickness)
        return TRUE;
      if (cav_region_contains (plan->profile, at))
        return FALSE;
    }
  return TRUE;
}

/* Free width around a place, square to the way in. */
static double
get_room (const CavPlan *plan, CavPoint place, CavSide side)
{
  gboolean flat = cav_side_is_flat (side);
  double room = 0;

  for (int sense = -1; sense <= 1; sense += 2)
    for (double way = 0.05; way < 60; way += 0.05)
      {
        CavPoint at = { place.x + (flat ? sense * way : 0), place.y + (flat ? 0 : sense * way) };

        if (cav_region_contains (plan->profile, at))
          break;
        room += 0.05;
      }
  return room;
}

#define TENTHS(value) CAV_NUMBER_TEXT ("%.1f", value)

#define REASON_REACHED NC_ ("why waste stays", "no legal pass found")

gboolean
cav_leftover_place_is_reached (const CavLeftoverPlace *place)
{
  return g_strcmp0 (place->reason, REASON_REACHED) == 0;
}

/* The reason goes into plan files, so that it stays in English; the advice is for people. */
static void
explain_place (const CavPlan *plan, CavLeftoverPlace *place, gboolean reached)
{
  double thickness = place->thickness, x = place->place.x, y = place->place.y;

  if (reached)
    {
      place->reason = g_strdup (REASON_REACHED);
      place->advice = g_strdup_printf (
          _ ("Waste %s mm thick stays at %s, %s: a tool reaches the place, but no pass was found "
             "that takes it and keeps to the rules; a wider blank or a carrier may help."),
          TENTHS (thickness), TENTHS (x), TENTHS (y));
      return;
    }
  for (int side = 0; side < CAV_N_SIDES; side++)
    if (is_open_to (plan, place->place, (CavSide)side))
      {
        double depth = side == CAV_SIDE_BACK     ? y
                       : side == CAV_SIDE_FACE   ? plan->blank.thickness - y
                       : side == CAV_SIDE_INSIDE ? x
                                                 : plan->blank.width - x;
        double room = get_room (plan, place->place, (CavSide)side);

        place->reason = g_strdup (NC_ ("why waste stays", "no tool reaches"));
        place->advice = g_strdup_printf (
            /* Translators: the last %s is a side of the blank: back, face, inside, outside. */
            _ ("Waste %s mm thick stays at %s, %s: no tool in the shop reaches it; a cutter at "
               "most %s mm wide that cuts %s mm deep from the %s would."),
            TENTHS (thickness), TENTHS (x), TENTHS (y), TENTHS (room), TENTHS (depth),
            cav_side_get_word ((CavSide)side));
        return;
      }
  place->reason = g_strdup (NC_ ("why waste stays", "undercut: no tool reaches"));
  place->advice = g_strdup_printf (
      _ ("Undercut at %s, %s, %s mm thick: no tool in the shop reaches it; a dovetail or slot "
         "cutter, wider at its tip than above, would if its neck passes the opening."),
      TENTHS (x), TENTHS (y), TENTHS (thickness));
}

static void
add_places (CavPlan *plan, CavReachedFunc reached, gpointer data)
{
  double limit = plan->shop->limits.leftover;
  g_autoptr (CavRegion) solid = create_solid (plan->leftover);
  g_autoptr (CavRegion) near = cav_region_offset (plan->profile, limit, NULL);
  g_autoptr (CavRegion) beyond
      = near != NULL && solid != NULL ? cav_region_difference (solid, near, NULL) : NULL;
  guint n = beyond != NULL ? cav_region_get_piece_count (beyond) : 0;

  for (guint i = 0; i < n; i++)
    {
      g_autoptr (CavRegion) piece = cav_region_dup_piece (beyond, i);
      CavLeftoverPlace *place;

      if (cav_region_get_area (piece) < PLACE_LEAST)
        continue;
      place = g_new0 (CavLeftoverPlace, 1);
      place->thickness = find_farthest (piece, plan->profile, &place->place);
      explain_place (plan, place, reached != NULL && reached (data, place->place));
      g_ptr_array_add (plan->places, place);
    }
  g_ptr_array_sort (plan->places, compare_places);
}

/* The two long measurements. */
typedef struct
{
  const CavPlan *plan;
  double thickness;
  double covered;
} Measuring;

static void
measure_job (gpointer data, int job)
{
  Measuring *measuring = data;
  const CavPlan *plan = measuring->plan;

  if (job == 0)
    measuring->thickness = plan->leftover_area > AREA_LEAST ? cav_leftover_get_thickness (plan) : 0;
  else
    measuring->covered = get_covered_outline (plan->profile, plan->leftover);
}

void
cav_leftover_measure (CavPlan *plan, CavReachedFunc reached, gpointer data)
{
  const CavRates *rates = &plan->shop->rates;
  double metres = plan->length / 1000;
  Measuring measuring = { plan, 0, 0 };

  g_return_if_fail (plan->leftover != NULL);

  plan->leftover_area = cav_region_get_area (plan->leftover);
  cav_parallel_run (2, measure_job, &measuring);
  plan->leftover_thickness = measuring.thickness;
  if (plan->leftover_thickness > plan->shop->limits.leftover)
    add_places (plan, reached, data);
  plan->minutes_hand
      = metres
        * (rates->hand_volume * plan->leftover_area + rates->hand_surface * measuring.covered);
}
