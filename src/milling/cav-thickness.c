/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "milling/cav-thickness.h"

#include "milling/cav-rows.h"

#include <math.h>
#include <stdlib.h>

/*
 * A coarse look over all of the leftover, then climbs away from the profile from the deepest
 * places that are not neighbours.
 */

#define THICKNESS_STEP 0.01
/* Places looked at for thickness, and how many of the deepest are followed. */
#define N_LOOKS 150
#define N_CLIMBS 12
/* How far from a sharp corner a disc is still looked for, and looks around the disc. */
#define CORNER_FARTHEST 3.0
#define DISC_LOOKS 16
/* How much deeper than a step a climb may still get that no longer gains by two of them. */
#define STEPS_TO_GO 4
/* Two climbs are one where they come together within this share of a step: a whole step is as far
 * as from one hill to the next. */
#define SAME_SHARE 0.25
/* Ways that a climb tries, and how often the gap between two of them is halved. */
#define N_WAYS 8
#define N_SLIDES 4

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
  return keeps_away (leftover, at, CAV_HALF_FILM) && cav_region_contains (leftover->region, at);
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

/* What is known of the deepest places so far. */
typedef struct
{
  double thickness;
  int n_climbs;
  CavPoint begun[N_CLIMBS];
  CavPoint ended[N_CLIMBS];
} Climbs;

static gboolean
is_near_any (const CavPoint *places, int n, CavPoint place, double distance)
{
  for (int i = 0; i < n; i++)
    if (cav_point_near (places[i], place, distance))
      return TRUE;
  return FALSE;
}

/* Climbs away from the profile, a disc in the leftover all the way, in ever smaller steps, until
 * it is where another climb went or will not get deeper than one. */
static Deep
climb (Outline *leftover, Outline *profile, const Climbs *climbs, Deep deep, double step)
{
  while (step > THICKNESS_STEP / 2
         && deep.distance + CAV_HALF_FILM + STEPS_TO_GO * step > climbs->thickness
         && !is_near_any (climbs->ended, climbs->n_climbs, deep.place, step * SAME_SHARE))
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

      farthest = fmax (
          farthest, get_distance (profile, CAV_POINT (deep.place.x + CAV_HALF_FILM * cos (angle),
                                                      deep.place.y + CAV_HALF_FILM * sin (angle))));
    }
  return farthest;
}

static int
compare_deep (const void *a, const void *b)
{
  const Deep *p = a, *q = b;

  return (p->distance < q->distance) - (p->distance > q->distance);
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
  double run = CAV_HALF_FILM * 1.001 * tan (fabs (atan2 (sine, cosine)) / 2);

  if (a < 1e-6 || b < 1e-6 || sine < 1e-3 || run > CORNER_FARTHEST)
    return;
  add_look (looks, profile,
            CAV_POINT (q.x - run * along.x - CAV_HALF_FILM * 1.001 * along.y,
                       q.y - run * along.y + CAV_HALF_FILM * 1.001 * along.x));
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

double
cav_leftover_get_thickness (const CavPlan *plan)
{
  double spacing = fmax (CAV_ROW_HEIGHT, sqrt (plan->leftover_area / N_LOOKS));
  g_auto (Outline) profile = { plan->profile, { 0, 0 }, NULL };
  g_auto (Outline) leftover = { plan->leftover, { 0, 0 }, NULL };
  g_autoptr (GArray) looks = look_over (plan, &profile, spacing);
  Climbs climbs = { 0 };

  g_array_sort (looks, compare_deep);
  for (guint i = 0; i < looks->len && climbs.n_climbs < N_CLIMBS; i++)
    {
      Deep deep = g_array_index (looks, Deep, i);

      /* No place gets deeper than this by what lies between two looks. */
      if (deep.distance + 2 * spacing + CAV_HALF_FILM < climbs.thickness)
        break;
      if (is_near_any (climbs.begun, climbs.n_climbs, deep.place, 2 * spacing)
          || !holds_disc (&leftover, deep.place))
        continue;
      climbs.begun[climbs.n_climbs] = deep.place;
      deep = climb (&leftover, &profile, &climbs, deep, spacing);
      climbs.ended[climbs.n_climbs++] = deep.place;
      if (deep.distance + CAV_HALF_FILM > climbs.thickness)
        climbs.thickness = fmax (climbs.thickness, get_reach_of_disc (&profile, deep));
    }
  return climbs.thickness;
}
