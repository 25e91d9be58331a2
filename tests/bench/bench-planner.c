/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "sections.h"

#include "storage/cav-storage.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>

/*
 * bench-planner [RUNS [PROJECT...]]: time of a quick plan of a profile of eight cuts with the
 * default shop (median of RUNS, 21 where not given), then how it grows with the number of cuts and
 * of tools, then quick and thorough plans of the projects named. Not a test.
 */

#define USUAL_RUNS 21
#define GROWTH_RUNS 5

static int
compare_double_cb (const void *a, const void *b)
{
  double x = *(const double *)a;
  double y = *(const double *)b;

  return (x > y) - (x < y);
}

typedef struct
{
  double median; /* ms */
  double least;
  double most;
  guint passes;
  double minutes;
} Timing;

static Timing
measure (const CavProfile *profile, const CavShop *shop, CavEffort effort, int runs)
{
  g_autofree double *times = g_new (double, runs);
  Timing timing = { 0 };

  for (int i = 0; i < runs; i++)
    {
      g_autoptr (GError) error = NULL;
      gint64 start = g_get_monotonic_time ();
      g_autoptr (CavPlan) plan = section_plan (profile, shop, effort, &error);

      times[i] = (double)(g_get_monotonic_time () - start) / 1000.0;
      if (plan == NULL)
        g_error ("%s", error->message);
      timing.passes = cav_plan_get_pass_count (plan);
      timing.minutes = plan->minutes;
    }
  qsort (times, (size_t)runs, sizeof (double), compare_double_cb);
  timing.median = times[runs / 2];
  timing.least = times[0];
  timing.most = times[runs - 1];
  return timing;
}

static void
print_row (const char *what, int n, Timing timing)
{
  printf ("%-28s %5d %10.2f %10.2f %10.2f %8u %10.2f\n", what, n, timing.median, timing.least,
          timing.most, timing.passes, timing.minutes);
  fflush (stdout);
}

static void
add_cut (GPtrArray *cuts, SectionCut cut)
{
  g_ptr_array_add (cuts, section_cut_create (&cut));
}

/* A wide molding with a rabbet and n - 1 grooves, flutes, coves and steps side by side on its
 * face; no two touch. */
static CavProfile *
create_wide (int n)
{
  g_autoptr (GPtrArray) cuts = g_ptr_array_new_with_free_func ((GDestroyNotify)cav_cut_free);
  double pitch = fmin (14.0, 380.0 / n);
  CavBlank blank = { fmin (30.0 + pitch * n, 480.0), 28.0 };

  add_cut (cuts, (SectionCut){ .kind = CAV_CUT_RABBET,
                               .anchor = CAV_ANCHOR_CORNER,
                               .place = CAV_CORNER_BACK_INSIDE,
                               .numbers = { [CAV_CUT_WIDTH] = 6, [CAV_CUT_DEPTH] = 12 } });
  for (int i = 1; i < n; i++)
    {
      SectionCut cut = { .kind = i % 3 == 2 ? CAV_CUT_COVE : CAV_CUT_GROOVE,
                         .anchor = CAV_ANCHOR_SIDE,
                         .place = CAV_SIDE_FACE };

      if (cut.kind == CAV_CUT_GROOVE)
        cut.form = i % 3 == 0 ? CAV_FORM_ROUND : CAV_FORM_FLAT;
      cut.numbers[CAV_CUT_POSITION] = 15.0 + pitch * i;
      cut.numbers[CAV_CUT_WIDTH] = fmin (0.5 * pitch, 3.2 + 0.5 * (i % 7));
      cut.numbers[CAV_CUT_DEPTH] = fmin (0.5 * cut.numbers[CAV_CUT_WIDTH], 1.0 + 0.4 * (i % 5));
      add_cut (cuts, cut);
    }
  CavProfile *profile = cav_profile_new (&blank, cuts);

  if (!cav_profile_is_sound (profile))
    g_error ("The profile of %d cuts is not sound.", n);
  return profile;
}

/* n tools: the default shop's first ones, then straight cutters of other sizes. */
static CavShop *
create_shop (int n)
{
  CavShop *shop = cav_shop_new_default ();
  int room = n - (int)shop->blades->len;

  while ((int)shop->cutters->len > MAX (room, 0))
    g_ptr_array_remove_index (shop->cutters, shop->cutters->len - 1);
  for (int i = (int)shop->cutters->len; i < room; i++)
    {
      g_autofree char *id = g_strdup_printf ("extra-%d", i);
      g_autoptr (GError) error = NULL;
      CavCutterFamily family = i % 2 == 0 ? CAV_CUTTER_STRAIGHT : CAV_CUTTER_ROUND_NOSE;
      const double numbers[CAV_N_CUTTER_NUMBERS]
          = { [CAV_CUTTER_DIAMETER] = 3.0 + 0.3 * i, [CAV_CUTTER_CUTTING_LENGTH] = 25.0 };
      CavCutter *cutter = cav_cutter_new (id, family, numbers, &error);

      if (cutter == NULL || !cav_shop_add_cutter (shop, cutter, &error))
        g_error ("%s", error->message);
    }
  return shop;
}

static void
measure_project (const char *file_name, int runs)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (CavProject) project = cav_storage_load_project (file_name, &error);
  g_autofree char *name = g_path_get_basename (file_name);

  if (project == NULL)
    g_error ("%s", error->message);
  print_row (name, runs,
             measure (cav_project_get_profile (project), cav_project_get_shop (project),
                      CAV_EFFORT_QUICK, runs));
  print_row ("the same, thorough", 1,
             measure (cav_project_get_profile (project), cav_project_get_shop (project),
                      CAV_EFFORT_THOROUGH, 1));
}

int
main (int argc, char **argv)
{
  static const int cuts[] = { 2, 4, 8, 16, 32, 64 };
  static const int tools[] = { 5, 10, 20, 40, 80 };
  int runs = argc > 1 ? MAX (atoi (argv[1]), 1) : USUAL_RUNS;
  g_autoptr (CavProfile) eight = section_create_profile (section_find ("eight"));
  g_autoptr (CavShop) shop = cav_shop_new_default ();

  printf ("%-28s %5s %10s %10s %10s %8s %10s\n", "what", "n", "median ms", "least", "most",
          "passes", "minutes");
  print_row ("eight cuts, default shop", runs, measure (eight, shop, CAV_EFFORT_QUICK, runs));
  print_row ("the same, thorough", 1, measure (eight, shop, CAV_EFFORT_THOROUGH, 1));
  for (guint i = 0; i < G_N_ELEMENTS (cuts); i++)
    {
      g_autoptr (CavProfile) profile = create_wide (cuts[i]);

      print_row ("cuts, default shop", cuts[i],
                 measure (profile, shop, CAV_EFFORT_QUICK, MIN (runs, GROWTH_RUNS)));
    }
  for (guint i = 0; i < G_N_ELEMENTS (tools); i++)
    {
      g_autoptr (CavShop) other = create_shop (tools[i]);

      print_row ("tools, eight cuts", tools[i],
                 measure (eight, other, CAV_EFFORT_QUICK, MIN (runs, GROWTH_RUNS)));
    }
  for (int i = 2; i < argc; i++)
    measure_project (argv[i], MIN (runs, GROWTH_RUNS));
  return 0;
}
