/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "boards/cav-board-job.h"

#include "boards/cav-lumber.h"
#include "geometry/cav-same.h"
#include "geometry/cav-tolerance.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

CavBoardJob *
cav_board_job_new (
    const CavLumber *lumber, const char *name, double width, double thickness, double face)
{
  g_return_val_if_fail (lumber != NULL, NULL);

  CavBoardJob *job = g_new0 (CavBoardJob, 1);

  job->name = g_strdup (name != NULL ? name : "");
  job->file = g_strdup ("");
  job->wood = g_strdup ("");
  job->width = width;
  job->thickness = thickness;
  job->face = face;
  job->mitre = 45.0;
  job->frames = lumber->frames;
  job->order = lumber->order;
  job->run_start = lumber->run_start;
  job->square_first = lumber->square_first;
  job->square_extra = lumber->square_extra;
  job->spare = lumber->spare;
  job->test = lumber->test;
  job->pins = g_array_copy (lumber->pins);
  return job;
}

void
cav_board_job_set_rectangle (CavBoardJob *job, double width, double height)
{
  g_return_if_fail (job != NULL);

  job->mitre = 45.0;
  job->n_rails = 4;
  for (int i = 0; i < 4; i++)
    job->long_points[i] = i % 2 == 0 ? width : height;
}

CavBoardJob *
cav_board_job_copy (const CavBoardJob *job)
{
  g_return_val_if_fail (job != NULL, NULL);

  CavBoardJob *copy = g_memdup2 (job, sizeof *job);

  copy->name = g_strdup (job->name);
  copy->file = g_strdup (job->file);
  copy->wood = g_strdup (job->wood);
  copy->pins = g_array_copy (job->pins);
  return copy;
}

void
cav_board_job_free (CavBoardJob *job)
{
  if (job == NULL)
    return;
  g_free (job->name);
  g_free (job->file);
  g_free (job->wood);
  g_array_unref (job->pins);
  g_free (job);
}

gboolean
cav_board_pins_equal (const GArray *a, const GArray *b)
{
  g_return_val_if_fail (a != NULL && b != NULL, FALSE);

  if (a->len != b->len)
    return FALSE;
  for (guint i = 0; i < a->len; i++)
    {
      const CavBoardPin *one = &g_array_index (a, CavBoardPin, i);
      const CavBoardPin *other = &g_array_index (b, CavBoardPin, i);

      if (one->frame != other->frame || one->rail != other->rail || one->board != other->board
          || one->copy != other->copy || one->strip != other->strip || one->layer != other->layer
          || !cav_same (one->from, other->from))
        return FALSE;
    }
  return TRUE;
}

static gboolean
rails_equal (const CavBoardJob *a, const CavBoardJob *b)
{
  for (int i = 0; a->n_rails == b->n_rails && i < MIN (a->n_rails, CAV_JOB_MAX_RAILS); i++)
    if (!cav_same (a->long_points[i], b->long_points[i]))
      return FALSE;
  return a->n_rails == b->n_rails && cav_same (a->width, b->width)
         && cav_same (a->thickness, b->thickness) && cav_same (a->face, b->face)
         && cav_same (a->mitre, b->mitre);
}

gboolean
cav_board_job_equal (const CavBoardJob *a, const CavBoardJob *b)
{
  g_return_val_if_fail (a != NULL && b != NULL, FALSE);

  return strcmp (a->name, b->name) == 0 && strcmp (a->file, b->file) == 0
         && strcmp (a->wood, b->wood) == 0 && rails_equal (a, b) && a->frames == b->frames
         && a->order == b->order && a->run_start == b->run_start
         && !a->square_first == !b->square_first && cav_same (a->square_extra, b->square_extra)
         && cav_same (a->spare, b->spare) && cav_same (a->test, b->test)
         && cav_board_pins_equal (a->pins, b->pins);
}

static void
take_text (char **field, const char *text)
{
  char *copy = g_strdup (text);

  g_free (*field);
  *field = copy;
}

void
cav_board_job_refresh (CavBoardJob *job, const CavBoardJob *newer)
{
  g_return_if_fail (job != NULL && newer != NULL);

  take_text (&job->name, newer->name);
  take_text (&job->wood, newer->wood);
  job->width = newer->width;
  job->thickness = newer->thickness;
  job->face = newer->face;
  job->mitre = newer->mitre;
  job->n_rails = newer->n_rails;
  memcpy (job->long_points, newer->long_points, sizeof job->long_points);
}

static gboolean
is_size (double value)
{
  return isfinite (value) && value >= CAV_BOARD_MIN && value <= CAV_BOARD_MAX;
}

static gboolean
is_allowance (double value)
{
  return isfinite (value) && value >= 0.0 && value <= CAV_BOARD_MAX;
}

char *
cav_board_job_explain (const CavBoardJob *job)
{
  g_return_val_if_fail (job != NULL, NULL);

  if (!is_size (job->width) || !is_size (job->thickness))
    return g_strdup (_ ("The blank has no size yet: draw the molding first."));
  if (!isfinite (job->face) || job->face < 0.0 || job->face > job->width + CAV_TOLERANCE_POINT)
    return g_strdup (_ ("The molding is wider than its blank."));
  if (job->n_rails < 1 || job->n_rails > CAV_JOB_MAX_RAILS)
    return g_strdup_printf (_ ("A frame has between 1 and %d rails."), CAV_JOB_MAX_RAILS);
  if (job->frames < 1 || job->frames > CAV_JOB_MAX_FRAMES)
    return g_strdup_printf (_ ("The number of frames must be between 1 and %d."),
                            CAV_JOB_MAX_FRAMES);
  if (!isfinite (job->mitre) || job->mitre < 0.0 || job->mitre > CAV_JOB_MAX_MITRE)
    return g_strdup_printf (_ ("Mitres must be between 0 and %d degrees."), CAV_JOB_MAX_MITRE);
  for (int i = 0; i < job->n_rails; i++)
    if (!is_size (job->long_points[i]))
      return g_strdup_printf (_ ("Rail %d has no length: set the size of the frame."), i + 1);
  if (!is_allowance (job->square_extra) || !is_allowance (job->spare) || !is_allowance (job->test))
    return g_strdup (_ ("Spare, test and extra lengths must not be below nought."));
  return NULL;
}

char *
cav_board_job_dup_rail_name (const CavBoardJob *job, int rail)
{
  static const char *const NAMES[]
      = { NC_ ("rail of a frame", "top rail"), NC_ ("rail of a frame", "right rail"),
          NC_ ("rail of a frame", "bottom rail"), NC_ ("rail of a frame", "left rail") };

  g_return_val_if_fail (job != NULL, NULL);

  if (job->n_rails == 4 && rail >= 0 && rail < 4)
    return g_strdup (g_dpgettext2 (GETTEXT_PACKAGE, "rail of a frame", NAMES[rail]));
  return g_strdup_printf (C_ ("rail of a frame", "rail %d"), rail + 1);
}

char *
cav_board_job_dup_corner_name (const CavBoardJob *job, int rail)
{
  static const char *const NAMES[]
      = { NC_ ("corner of a frame", "upper left"), NC_ ("corner of a frame", "upper right"),
          NC_ ("corner of a frame", "lower right"), NC_ ("corner of a frame", "lower left") };

  g_return_val_if_fail (job != NULL, NULL);

  if (job->n_rails == 4 && rail >= 0 && rail < 4)
    return g_strdup (g_dpgettext2 (GETTEXT_PACKAGE, "corner of a frame", NAMES[rail]));
  return g_strdup_printf (C_ ("corner of a frame", "between rails %d and %d"),
                          (rail + job->n_rails - 1) % MAX (job->n_rails, 1) + 1, rail + 1);
}
