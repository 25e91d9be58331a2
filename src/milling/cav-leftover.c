/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "milling/cav-leftover.h"

#include "geometry/cav-number-text.h"

#include "milling/cav-parallel.h"
#include "milling/cav-placement.h"
#include "milling/cav-rows.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <stdlib.h>

/* Films thinner than twice this do not count for thickness. */
#define HALF_FILM 0.05
#define SAMPLE_SPACING 0.1
#define HAND_DEPTH 0.3
/* A stretch beyond the limit is named from this area on, mm². */
#define PLACE_LEAST 1e-3
#define THICKNESS_STEP 0.01
/* Less leftover than this is rounding, mm². */
#define AREA_LEAST 0.005
/* Places looked at for thickness, and how many of the deepest are followed. */
#define N_LOOKS 150
#define N_CLIMBS 12
/* How far from a sharp corner a disc is still looked for, and looks around the disc. */
#define CORNER_FARTHEST 3.0
#define DISC_LOOKS 16
/* How much deeper than a step a climb may still get that no longer gains by two of them. */
#define STEPS_TO_GO 4
/* Ways that a climb tries, and how often the gap between two of them is halved. */
#define N_WAYS 8
#define N_SLIDES 4

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

/* How far a look moves before the list of what is near is made again, mm. */
#define NEAR_REACH 1.0

/* Distances from the profile for places that are neighbours: only those of its lines and arcs that
 * can be the nearest are looked at. */
typedef struct
{
  const CavRegion *region;
  CavPoint middle;
  GPtrArray *segments; /* const CavSegment, NULL before the first look */
} Outline;

static void
list_near (Outline *outline, CavPoint middle)
{
  double reach = cav_region_get_distance (outline->region, middle) + 2 * NEAR_REACH;

  outline->middle = middle;
  if (outline->segments == NULL)
    outline->segments = g_ptr_array_new ();
  g_ptr_array_set_size (outline->segments, 0);
  for (guint ring = 0; ring < cav_region_get_ring_count (outline->region); ring++)
    {
      const CavPath *path = cav_region_get_ring (outline->region, ring);

      for (guint i = 0; i < cav_path_get_segment_count (path); i++)
        if (cav_segment_distance_bound (cav_path_get_segment (path, i), middle) <= reach)
          g_ptr_array_add (outline->segments, (gpointer)cav_path_get_segment (path, i));
    }
}

static double
get_distance (Outline *outline, CavPoint place)
{
  double distance = G_MAXDOUBLE;

  if (outline->segments == NULL || !cav_point_near (outline->middle, place, NEAR_REACH))
    list_near (outline, place);
  for (guint i = 0; i < outline->segments->len; i++)
    {
      const CavSegment *segment = g_ptr_array_index (outline->segments, i);

      if (cav_segment_distance_bound (segment, place) < distance)
        distance = MIN (distance, cav_segment_distance (segment, place));
    }
  return distance;
}

static void
outline_clear (Outline *outline)
{
  g_clear_pointer (&outline->segments, g_ptr_array_unref);
}
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Outline, outline_clear)

/* TRUE where no line or arc comes nearer to a place than a distance. */
static gboolean
keeps_away (Outline *outline, CavPoint place, double distance)
{
  if (outline->segments == NULL || !cav_point_near (outline->middle, place, NEAR_REACH))
    list_near (outline, place);
  for (guint i = 0; i < outline->segments->len; i++)
    {
      const CavSegment *segment = g_ptr_array_index (outline->segments, i);

      if (cav_segment_distance_bound (segment, place) < distance
          && cav_segment_distance (segment, place) < distance)
        return FALSE;
    }
  return TRUE;
}

/* The leftover without its films is what a disc as thick as a film can roll over: a place is the
 * middle of such a disc where it keeps that far from every edge. */
static gboolean
holds_disc (Outline *leftover, CavPoint at)
{
  return keeps_away (leftover, at, HALF_FILM) && cav_region_contains (leftover->region, at);
}

/* A place in the leftover and how far it lies from the profile. */
typedef struct
{
  CavPoint place;
  double distance;
} Deep;

/* What a step from a place leads to. */
typedef struct
{
  CavPoint place;
  double distance;
  gboolean gains;
  gboolean holds; /* a disc; not looked at where nothing is gained */
} Step;

static Step
take_step (Outline *leftover, Outline *profile, const Deep *from, double step, double way)
{
  double angle = way * 2 * G_PI / N_WAYS;
  Step to;

  to.place = CAV_POINT (from->place.x + step * cos (angle), from->place.y + step * sin (angle));
  to.distance = get_distance (profile, to.place);
  to.gains = to.distance > from->distance + 1e-6;
  to.holds = to.gains && holds_disc (leftover, to.place);
  return to;
}

/* Along an edge of the leftover: one way gains but leads out of it, the way beside it stays inside
 * but gains nothing; what does both lies between. */
static gboolean
slide (Outline *leftover, Outline *profile, double step, double out, double in, Deep *deep)
{
  for (int i = 0; i < N_SLIDES; i++)
    {
      double way = (out + in) / 2;
      Step to = take_step (leftover, profile, deep, step, way);

      if (to.holds)
        {
          *deep = (Deep){ to.place, to.distance };
          return TRUE;
        }
      if (to.gains)
        out = way;
      else
        in = way;
    }
  return FALSE;
}

/* Climbs away from the profile, a disc in the leftover all the way, in ever smaller steps, unless
 * it will not get deeper than what is known. */
static Deep
climb (Outline *leftover, Outline *profile, Deep deep, double step, double known)
{
  while (step > THICKNESS_STEP / 2 && deep.distance + STEPS_TO_GO * step > known)
    {
      Step steps[N_WAYS];
      const Step *best = NULL;
      gboolean slid = FALSE;

      for (int way = 0; way < N_WAYS; way++)
        {
          steps[way] = take_step (leftover, profile, &deep, step, way);
          if (steps[way].holds && (best == NULL || steps[way].distance > best->distance))
            best = &steps[way];
        }
      if (best != NULL)
        deep = (Deep){ best->place, best->distance };
      for (int way = 0; way < N_WAYS && best == NULL && !slid; way++)
        for (int side = -1; side <= 1 && steps[way].gains && !slid; side += 2)
          slid = !steps[(way + N_WAYS + side) % N_WAYS].gains
                 && slide (leftover, profile, step, way, way + side, &deep);
      if (best == NULL && !slid)
        step /= 2;
    }
  return deep;
}

/* Farthest that the disc at a place reaches from the profile. */
static double
get_reach_of_disc (Outline *profile, Deep deep)
{
  double farthest = deep.distance;

  for (int way = 0; way < DISC_LOOKS; way++)
    {
      double angle = way * 2 * G_PI / DISC_LOOKS;

      farthest = fmax (farthest,
                       get_distance (profile, CAV_POINT (deep.place.x + HALF_FILM * cos (angle),
                                                         deep.place.y + HALF_FILM * sin (angle))));
    }
  return farthest;
}

static int
compare_deep (const void *a, const void *b)
{
  const Deep *p = a, *q = b;

  return (p->distance < q->distance) - (p->distance > q->distance);
}

/* The leftover without its films as a region. NULL: there is none. */
static CavRegion *
create_solid (const CavRegion *leftover)
{
  g_autoptr (CavRegion) shrunk = cav_region_offset (leftover, -HALF_FILM, NULL);

  return shrunk != NULL && !cav_region_is_empty (shrunk)
             ? cav_region_offset (shrunk, HALF_FILM, NULL)
             : NULL;
}

static void
add_look (GArray *looks, Outline *profile, CavPoint place)
{
  Deep deep = { place, get_distance (profile, place) };

  g_array_append_val (looks, deep);
}

/* Where a disc fits into a corner that turns left from p by q to r. */
static void
look_into_corner (GArray *looks, Outline *profile, CavPoint p, CavPoint q, CavPoint r)
{
  double a = cav_point_distance (p, q), b = cav_point_distance (q, r);
  CavPoint along = { (q.x - p.x) / a, (q.y - p.y) / a },
           away = { (r.x - q.x) / b, (r.y - q.y) / b };
  double sine = along.x * away.y - along.y * away.x, cosine = along.x * away.x + along.y * away.y;
  /* Along the way from the corner at which a disc touches both edges. */
  double run = HALF_FILM * 1.001 * tan (fabs (atan2 (sine, cosine)) / 2);

  if (a < 1e-6 || b < 1e-6 || sine < 1e-3 || run > CORNER_FARTHEST)
    return;
  add_look (looks, profile,
            CAV_POINT (q.x - run * along.x - HALF_FILM * 1.001 * along.y,
                       q.y - run * along.y + HALF_FILM * 1.001 * along.x));
}

/* Distances of places spread over the leftover, and of its corners. */
static GArray *
look_over (const CavPlan *plan, Outline *profile, double spacing)
{
  const CavRegion *leftover = plan->leftover;
  g_autoptr (CavRows) rows
      = cav_rows_new_from_region (leftover, cav_rows_count_for (plan->blank.thickness));
  GArray *looks = g_array_new (FALSE, FALSE, sizeof (Deep));
  int skip = MAX (1, (int)(spacing / CAV_ROW_HEIGHT));

  for (int row = 0; row < rows->n_rows; row += skip)
    for (int i = rows->first[row]; i < rows->first[row + 1]; i++)
      {
        double x0 = rows->spans[i].a / CAV_MICRONS, x1 = rows->spans[i].b / CAV_MICRONS;
        int n = 1 + (int)((x1 - x0) / spacing);

        for (int k = 0; k < n; k++)
          add_look (looks, profile,
                    CAV_POINT (x0 + (k + 0.5) / n * (x1 - x0), (row + 0.5) * CAV_ROW_HEIGHT));
      }
  for (guint ring = 0; ring < cav_region_get_ring_count (leftover); ring++)
    {
      guint n;
      const CavPoint *points = cav_region_get_ring_points (leftover, ring, &n);

      for (guint i = 0; i < n; i++)
        look_into_corner (looks, profile, points[(i + n - 1) % n], points[i], points[(i + 1) % n]);
    }
  return looks;
}

/* Greatest distance of the leftover's points from the profile, films aside: a coarse look over all
 * of it, then climbs from the deepest places that are not neighbours. */
static double
get_thickness (const CavPlan *plan)
{
  double spacing = fmax (CAV_ROW_HEIGHT, sqrt (plan->leftover_area / N_LOOKS));
  double thickness = 0;
  g_auto (Outline) profile = { plan->profile, { 0, 0 }, NULL };
  g_auto (Outline) leftover = { plan->leftover, { 0, 0 }, NULL };
  g_autoptr (GArray) looks = look_over (plan, &profile, spacing);
  int n_climbs = 0;
  CavPoint begun[N_CLIMBS];

  g_array_sort (looks, compare_deep);
  for (guint i = 0; i < looks->len && n_climbs < N_CLIMBS; i++)
    {
      Deep deep = g_array_index (looks, Deep, i);
      gboolean known = FALSE;

      /* No place gets deeper than this by what lies between two looks. */
      if (deep.distance + 2 * spacing + HALF_FILM < thickness)
        break;
      for (int k = 0; k < n_climbs; k++)
        known |= cav_point_near (begun[k], deep.place, 2 * spacing);
      if (known || !holds_disc (&leftover, deep.place))
        continue;
      begun[n_climbs++] = deep.place;
      deep = climb (&leftover, &profile, deep, spacing, thickness - HALF_FILM);
      if (deep.distance + HALF_FILM > thickness)
        thickness = fmax (thickness, get_reach_of_disc (&profile, deep));
    }
  return thickness;
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
    measuring->thickness = plan->leftover_area > AREA_LEAST ? get_thickness (plan) : 0;
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
