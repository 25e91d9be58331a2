/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "project/cav-snap.h"

#include <stdio.h>
#include <stdlib.h>

/*
 * bench-document: what a motion of the pointer costs while one cut among many is dragged: snapping,
 * the edit, and the profile. Not a test.
 */

#define MOTIONS 60

static const CavBlank blank = { .width = 400.0, .thickness = 40.0 };

/* Narrow grooves side by side, every other one round. */
static CavProject *
create_project (guint n)
{
  CavProject *project = cav_project_new ();
  g_autoptr (GPtrArray) cuts = g_ptr_array_new_with_free_func ((GDestroyNotify)cav_cut_free);

  for (guint i = 0; i < n; i++)
    {
      CavCut *groove = cav_cut_new_on_side (CAV_CUT_GROOVE, CAV_SIDE_FACE);

      groove->form = i % 2 == 0 ? CAV_FORM_FLAT : CAV_FORM_ROUND;
      groove->numbers[CAV_CUT_WIDTH] = 200.0 / n;
      groove->numbers[CAV_CUT_POSITION] = 5.0 + 390.0 * i / n;
      g_ptr_array_add (cuts, groove);
    }
  cav_project_set_blank (project, blank);
  cav_project_add_cuts (project, cuts);
  return project;
}

static int
compare_double_cb (const void *a, const void *b)
{
  double x = *(const double *)a;
  double y = *(const double *)b;

  return (x > y) - (x < y);
}

static double
get_median (double *times)
{
  qsort (times, MOTIONS, sizeof *times, compare_double_cb);
  return times[MOTIONS / 2];
}

static double
get_ms_since (gint64 begin)
{
  return (double)(g_get_monotonic_time () - begin) / 1e3;
}

static void
measure (guint n)
{
  g_autoptr (CavProject) project = create_project (n);
  const guint index = n / 2;
  g_autoptr (CavCut) before = cav_cut_copy (cav_project_get_cut (project, index));
  g_autoptr (GArray) handles = cav_handle_list_new (before, &blank);
  const CavHandle *move = &g_array_index (handles, CavHandle, handles->len - 1);
  double snap[MOTIONS], edit[MOTIONS], profile[MOTIONS];
  gint64 begin = g_get_monotonic_time ();
  double whole, stock;

  cav_project_get_profile (project);
  whole = get_ms_since (begin);
  begin = g_get_monotonic_time ();
  g_autoptr (CavSnapper) snapper = cav_snapper_new (project, &index, 1, 1.0);
  stock = get_ms_since (begin);
  cav_project_begin (project, "move groove");
  for (int i = 0; i < MOTIONS; i++)
    {
      CavPoint point = CAV_POINT (move->point.x + 0.37 * (i + 1), move->point.y);

      begin = g_get_monotonic_time ();
      g_autoptr (CavCut) cut = cav_snapper_drag (snapper, before, move, point, 0.3, NULL);
      snap[i] = get_ms_since (begin);
      begin = g_get_monotonic_time ();
      cav_project_set_cut (project, index, cut);
      edit[i] = get_ms_since (begin);
      begin = g_get_monotonic_time ();
      cav_project_get_profile (project);
      profile[i] = get_ms_since (begin);
    }
  cav_project_end (project);
  printf ("%5u %10.2f %10.2f %10.3f %10.3f %10.2f\n", n, whole, stock, get_median (snap),
          get_median (edit), get_median (profile));
}

int
main (void)
{
  static const guint counts[] = { 1, 8, 30, 100, 300 };

  printf ("ms: profile at once, stock for snapping; each motion: snapping, edit, profile\n");
  printf ("%5s %10s %10s %10s %10s %10s\n", "cuts", "at once", "stock", "snap", "edit", "profile");
  for (guint i = 0; i < G_N_ELEMENTS (counts); i++)
    measure (counts[i]);
  return 0;
}
