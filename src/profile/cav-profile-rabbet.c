/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "profile/cav-profile.h"

#include "geometry/cav-tolerance.h"

/* Less room than this is no rabbet but a rounded arris, mm. */
#define RABBET_MIN 0.1

/* A chord of the section's outline, from left to right. */
typedef struct
{
  CavPoint left;
  CavPoint right;
} Chord;

static int
compare_chords_cb (gconstpointer a, gconstpointer b)
{
  const Chord *first = a;
  const Chord *second = b;
  return (first->left.x > second->left.x) - (first->left.x < second->left.x);
}

static int
compare_doubles_cb (gconstpointer a, gconstpointer b)
{
  double first = *(const double *)a;
  double second = *(const double *)b;
  return (first > second) - (first < second);
}

/* (transfer full) Chord array, in order of their left ends. */
static GArray *
collect_chords (const CavRegion *region)
{
  GArray *chords = g_array_new (FALSE, FALSE, sizeof (Chord));

  for (guint ring = 0; ring < cav_region_get_ring_count (region); ring++)
    {
      guint n_points = 0;
      const CavPoint *points = cav_region_get_ring_points (region, ring, &n_points);
      for (guint i = 0; i < n_points; i++)
        {
          CavPoint a = points[i];
          CavPoint b = points[(i + 1) % n_points];
          Chord chord = { a.x <= b.x ? a : b, a.x <= b.x ? b : a };
          g_array_append_val (chords, chord);
        }
    }
  g_array_sort (chords, compare_chords_cb);
  return chords;
}

/* (transfer full) Widths at which the largest rectangle can end, in order: where a chord ends, and
 * where x (a + b x), the area under a chord that falls, is greatest: at -a / 2b. */
static GArray *
collect_widths (const GArray *chords, double width)
{
  GArray *widths = g_array_new (FALSE, FALSE, sizeof (double));

  for (guint i = 0; i < chords->len; i++)
    {
      const Chord *chord = &g_array_index (chords, Chord, i);
      double run = chord->right.x - chord->left.x;
      double candidates[3] = { chord->left.x, chord->right.x, 0.0 };
      if (run > CAV_TOLERANCE_POINT && chord->right.y < chord->left.y)
        {
          double slope = (chord->right.y - chord->left.y) / run;
          double at_zero = chord->left.y - slope * chord->left.x;
          double best = -at_zero / (2.0 * slope);
          if (best > chord->left.x && best < chord->right.x)
            candidates[2] = best;
        }
      for (guint k = 0; k < G_N_ELEMENTS (candidates); k++)
        if (candidates[k] >= RABBET_MIN && candidates[k] < width - CAV_TOLERANCE_POINT)
          g_array_append_val (widths, candidates[k]);
    }
  g_array_sort (widths, compare_doubles_cb);
  return widths;
}

/* Height of a chord at x between its ends. */
static double
get_height_at (const Chord *chord, double x)
{
  double run = chord->right.x - chord->left.x;
  return chord->left.y + (chord->right.y - chord->left.y) * (x - chord->left.x) / run;
}

/*
 * Widths are tried from narrow to wide. lowest is the least height of all chords that end before
 * the width; active are those that reach over it, few at any time. A rectangle that goes through
 * to the outside has no wall to hold the package and is not tried: there the whole back is lower.
 */
gboolean
cav_profile_get_rabbet (const CavProfile *profile, double *out_width, double *out_depth)
{
  g_return_val_if_fail (profile != NULL, FALSE);

  g_autoptr (GArray) chords = collect_chords (profile->region);
  g_autoptr (GArray) widths = collect_widths (chords, profile->blank.width);
  g_autoptr (GArray) active = g_array_new (FALSE, FALSE, sizeof (Chord));
  double lowest = profile->blank.thickness;
  double best_width = 0.0;
  double best_depth = 0.0;
  guint next = 0;

  for (guint i = 0; i < widths->len; i++)
    {
      double width = g_array_index (widths, double, i);
      for (; next < chords->len
             && g_array_index (chords, Chord, next).left.x < width - CAV_TOLERANCE_POINT;
           next++)
        g_array_append_val (active, g_array_index (chords, Chord, next));

      double depth = lowest;
      for (guint k = active->len; k > 0; k--)
        {
          const Chord *chord = &g_array_index (active, Chord, k - 1);
          gboolean done = chord->right.x <= width + CAV_TOLERANCE_POINT;
          double end = done ? chord->right.y : get_height_at (chord, width);
          depth = MIN (depth, MIN (chord->left.y, end));
          if (!done)
            continue;
          lowest = MIN (lowest, MIN (chord->left.y, chord->right.y));
          g_array_remove_index_fast (active, k - 1);
        }
      if (depth >= RABBET_MIN && width * depth > best_width * best_depth)
        {
          best_width = width;
          best_depth = depth;
        }
    }

  if (out_width != NULL)
    *out_width = best_width;
  if (out_depth != NULL)
    *out_depth = best_depth;
  return best_width > 0.0;
}
