/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "profile/cav-profile-private.h"

#include "geometry/cav-number-text.h"
#include "geometry/cav-tolerance.h"

#include <glib/gi18n-lib.h>
#include <math.h>

/*
 * Thin wood is looked for with rays: from places along the outline one goes into the wood, square
 * to the outline. Where it comes out within CAV_WALL_THIN, through an outline that lies nearly the
 * other way, there is a wall (or a feather edge of less than 30 degrees) and no corner. Rays are
 * cheap enough to be cast at every change of a number; shrinking the section is not.
 */

/* Distance of rays along the outline, mm; a wall shorter than TRACE_MIN is a nick. */
#define TRACE_STEP 0.25
#define TRACE_MIN 0.7

/* Cosine between the two outlines: 30 degrees. */
#define WALL_COSINE 0.866

/* A chord of the outline with the wood on its left. */
typedef struct
{
  CavPoint from;
  CavPoint along; /* unit vector */
  double length;
  CavBox box; /* round it, a little larger */
} Chord;

/* Chords by the columns, CAV_WALL_THIN wide, that they reach into: a ray needs to look at two or
 * three columns. */
typedef struct
{
  double x0;
  int n_columns;
  GArray *chords;   /* Chord, ring after ring */
  GArray *rings;    /* guint, index of the first chord of each ring, and the end */
  GArray **columns; /* guint, indices of chords */
} ChordTable;

/* The longest run of thin wood. */
typedef struct
{
  double length;
  CavPoint place;
} ThinRun;

static int
get_column (const ChordTable *table, double x)
{
  int column = (int)floor ((x - table->x0) / CAV_WALL_THIN);
  return CLAMP (column, 0, table->n_columns - 1);
}

static void
add_ring (ChordTable *table, const CavPoint *points, guint n_points)
{
  for (guint i = 0; i < n_points; i++)
    {
      CavPoint a = points[i];
      CavPoint b = points[(i + 1) % n_points];
      double length = cav_point_distance (a, b);
      if (length < CAV_TOLERANCE_POINT)
        continue;
      Chord chord
          = { a,
              { (b.x - a.x) / length, (b.y - a.y) / length },
              length,
              { MIN (a.x, b.x) - CAV_TOLERANCE_POINT, MIN (a.y, b.y) - CAV_TOLERANCE_POINT,
                MAX (a.x, b.x) + CAV_TOLERANCE_POINT, MAX (a.y, b.y) + CAV_TOLERANCE_POINT } };
      guint index = table->chords->len;
      g_array_append_val (table->chords, chord);
      for (int k = get_column (table, MIN (a.x, b.x)); k <= get_column (table, MAX (a.x, b.x)); k++)
        g_array_append_val (table->columns[k], index);
    }
  guint end = table->chords->len;
  g_array_append_val (table->rings, end);
}

static void
init_table (ChordTable *table, const CavRegion *region)
{
  CavBox bounds = cav_region_get_bounds (region);
  guint first = 0;

  table->x0 = bounds.x0;
  table->n_columns = (int)ceil ((bounds.x1 - bounds.x0) / CAV_WALL_THIN) + 1;
  table->chords = g_array_new (FALSE, FALSE, sizeof (Chord));
  table->rings = g_array_new (FALSE, FALSE, sizeof (guint));
  table->columns = g_new (GArray *, table->n_columns);
  for (int i = 0; i < table->n_columns; i++)
    table->columns[i] = g_array_new (FALSE, FALSE, sizeof (guint));
  g_array_append_val (table->rings, first);
  for (guint ring = 0; ring < cav_region_get_ring_count (region); ring++)
    {
      guint n_points = 0;
      const CavPoint *points = cav_region_get_ring_points (region, ring, &n_points);
      add_ring (table, points, n_points);
    }
}

static void
clear_table (ChordTable *table)
{
  for (int i = 0; i < table->n_columns; i++)
    g_array_unref (table->columns[i]);
  g_free (table->columns);
  g_array_unref (table->rings);
  g_array_unref (table->chords);
}

/* How far along the ray from start the chord is crossed from inside, or more than any wall. */
static double
cross_chord (const Chord *chord, CavPoint start, CavPoint ray)
{
  double across = chord->along.x * ray.y - chord->along.y * ray.x;
  if (across > -CAV_TOLERANCE_POINT)
    return G_MAXDOUBLE; /* along it, or from outside */
  double dx = chord->from.x - start.x;
  double dy = chord->from.y - start.y;
  double at = (chord->along.x * dy - chord->along.y * dx) / across;
  double on = (ray.x * dy - ray.y * dx) / across;
  if (at < CAV_TOLERANCE_POINT || on < 0.0 || on > chord->length)
    return G_MAXDOUBLE;
  return at;
}

static gboolean
overlap (const CavBox *a, const CavBox *b)
{
  return a->x0 <= b->x1 && a->x1 >= b->x0 && a->y0 <= b->y1 && a->y1 >= b->y0;
}

/* Those that a ray from somewhere on a chord can meet: few, and looked for once for all its rays.
 */
static void
find_candidates (const ChordTable *table, const Chord *chord, GPtrArray *candidates)
{
  double x = -CAV_WALL_THIN * chord->along.y;
  double y = CAV_WALL_THIN * chord->along.x;
  CavBox reach = { chord->box.x0 + MIN (x, 0), chord->box.y0 + MIN (y, 0),
                   chord->box.x1 + MAX (x, 0), chord->box.y1 + MAX (y, 0) };

  g_ptr_array_set_size (candidates, 0);
  for (int column = get_column (table, reach.x0); column <= get_column (table, reach.x1); column++)
    for (guint i = 0; i < table->columns[column]->len; i++)
      {
        guint index = g_array_index (table->columns[column], guint, i);
        Chord *other = &g_array_index (table->chords, Chord, index);
        if (other != chord && overlap (&other->box, &reach))
          g_ptr_array_add (candidates, other);
      }
}

/* TRUE where the wood behind a place on a chord is a thin wall; its thickness is then known. */
static gboolean
is_thin_at (const Chord *chord, CavPoint start, GPtrArray *candidates, double *out_thickness)
{
  CavPoint ray = { -chord->along.y, chord->along.x };
  double nearest = CAV_WALL_THIN;
  const Chord *hit = NULL;

  for (guint i = 0; i < candidates->len; i++)
    {
      const Chord *other = g_ptr_array_index (candidates, i);
      double at = cross_chord (other, start, ray);
      if (at < nearest - CAV_TOLERANCE_POINT)
        {
          nearest = at;
          hit = other;
        }
    }
  if (hit == NULL)
    return FALSE;
  *out_thickness = nearest;
  return chord->along.x * hit->along.x + chord->along.y * hit->along.y < -WALL_COSINE;
}

/* Follows one ring where it runs through around; longest is replaced where a longer run of thin
 * wood is found. */
static void
trace_ring (const ChordTable *table, guint first, guint end, CavBox around, ThinRun *longest)
{
  g_autoptr (GPtrArray) candidates = g_ptr_array_new ();
  double run = 0.0;

  for (guint index = first; index < end; index++)
    {
      const Chord *chord = &g_array_index (table->chords, Chord, index);
      int n_rays = MAX (1, (int)ceil (chord->length / TRACE_STEP));
      if (!overlap (&chord->box, &around))
        {
          run = 0.0;
          continue;
        }
      find_candidates (table, chord, candidates);
      for (int i = 0; i < n_rays; i++)
        {
          double on = chord->length * (i + 0.5) / n_rays;
          double thickness = 0.0;
          CavPoint start
              = { chord->from.x + on * chord->along.x, chord->from.y + on * chord->along.y };
          run = is_thin_at (chord, start, candidates, &thickness) ? run + chord->length / n_rays
                                                                  : 0.0;
          if (run <= longest->length)
            continue;
          longest->length = run;
          longest->place = CAV_POINT (start.x - chord->along.y * thickness / 2.0,
                                      start.y + chord->along.x * thickness / 2.0);
        }
    }
}

void
cav_profile_check_walls_in (const CavRegion *region, CavBox around, GPtrArray *findings)
{
  ChordTable table;
  ThinRun longest = { TRACE_MIN, { 0.0, 0.0 } };

  init_table (&table, region);
  for (guint ring = 0; ring + 1 < table.rings->len; ring++)
    trace_ring (&table, g_array_index (table.rings, guint, ring),
                g_array_index (table.rings, guint, ring + 1), around, &longest);
  clear_table (&table);
  if (longest.length <= TRACE_MIN)
    return;

  CavFinding *finding = cav_finding_new (
      CAV_FINDING_CAUTION, "profile-thin",
      _ ("The wood is thinner than %s mm near %s mm, %s mm and may "
         "break in milling: leave more there."),
      CAV_NUMBER_TEXT ("%g", CAV_WALL_THIN), CAV_NUMBER_TEXT ("%.4g", longest.place.x),
      CAV_NUMBER_TEXT ("%.4g", longest.place.y));
  cav_finding_set_place (finding, longest.place);
  g_ptr_array_add (findings, finding);
}

void
cav_profile_check_walls (const CavRegion *region, GPtrArray *findings)
{
  cav_profile_check_walls_in (region, cav_region_get_bounds (region), findings);
}
