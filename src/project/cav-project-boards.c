/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "project/cav-project-boards.h"

#include <string.h>

static void
set_frame_rails (CavBoardJob *job, const CavFrame *frame)
{
  const int sides = frame->settings.sides;

  if (sides == 4)
    {
      cav_board_job_set_rectangle (job, frame->sizes.outside.width, frame->sizes.outside.height);
      return;
    }
  job->n_rails = MIN (sides, CAV_JOB_MAX_RAILS);
  job->mitre = frame->rails.mitre;
  for (int i = 0; i < job->n_rails; i++)
    job->long_points[i] = frame->rails.groups[0].long_point;
}

/* Without a frame: pieces of one length, cut square. */
static void
set_plain_rails (CavBoardJob *job, int rails, double length)
{
  job->mitre = 0.0;
  job->n_rails = MIN (rails, CAV_JOB_MAX_RAILS);
  for (int i = 0; i < job->n_rails; i++)
    job->long_points[i] = length / rails;
}

CavBoardJob *
cav_project_create_board_job (CavProject *self, const CavPlan *plan)
{
  g_return_val_if_fail (CAV_IS_PROJECT (self), NULL);

  const CavBlank drawn = cav_project_get_blank (self);
  const CavBlank blank = plan != NULL ? plan->blank : drawn;
  const CavFrame *frame = cav_project_get_frame (self);
  const CavWood *wood = cav_project_get_wood (self);
  CavBoardJob *job
      = cav_board_job_new (cav_project_get_lumber (self), cav_project_get_title (self), blank.width,
                           blank.thickness, MIN (drawn.width, blank.width));

  if (cav_project_has_frame (self) && frame->possible)
    set_frame_rails (job, frame);
  else
    set_plain_rails (job, cav_project_get_rails (self), cav_project_get_length (self));
  if (wood != NULL)
    {
      g_free (job->wood);
      job->wood = g_strdup (wood->id);
    }
  return job;
}

GPtrArray *
cav_project_create_board_jobs (CavProject *self, const CavPlan *plan)
{
  g_return_val_if_fail (CAV_IS_PROJECT (self), NULL);

  const GPtrArray *joined = cav_project_get_lumber (self)->joined;
  GPtrArray *jobs = g_ptr_array_new_with_free_func ((GDestroyNotify)cav_board_job_free);

  g_ptr_array_add (jobs, cav_project_create_board_job (self, plan));
  for (guint i = 0; i < joined->len; i++)
    g_ptr_array_add (jobs, cav_board_job_copy (g_ptr_array_index (joined, i)));
  return jobs;
}

CavBoardLayout *
cav_project_lay_out_boards (CavProject *self,
                            const CavPlan *plan,
                            const int *cancelled,
                            GError **error)
{
  g_return_val_if_fail (CAV_IS_PROJECT (self), NULL);

  g_autoptr (GPtrArray) jobs = cav_project_create_board_jobs (self, plan);
  const CavLayoutRequest request = {
    .lumber = cav_project_get_lumber (self), .jobs = jobs, .effort = 1, .cancelled = cancelled
  };

  return cav_board_layout_new (&request, error);
}

gboolean
cav_project_has_lumber (CavProject *self)
{
  g_return_val_if_fail (CAV_IS_PROJECT (self), FALSE);

  const CavLumber *lumber = cav_project_get_lumber (self);

  return lumber->boards->len + lumber->stock->len + lumber->joined->len > 0;
}

static gboolean
only_tells (const CavFinding *finding)
{
  return strcmp (finding->code, "lumber-corner") == 0 || strcmp (finding->code, "lumber-gap") == 0;
}

/* Behind all that are as grave. */
static guint
find_place (const GPtrArray *findings, CavFindingSeverity severity)
{
  guint place = 0;

  while (place < findings->len
         && ((const CavFinding *)g_ptr_array_index (findings, place))->severity >= severity)
    place++;
  return place;
}

void
cav_project_join_layout_findings (GPtrArray *findings, const CavBoardLayout *layout)
{
  g_return_if_fail (findings != NULL);

  for (guint i = 0; layout != NULL && i < layout->findings->len; i++)
    {
      const CavFinding *finding = g_ptr_array_index (layout->findings, i);

      if (!only_tells (finding))
        g_ptr_array_insert (findings, (int)find_place (findings, finding->severity),
                            cav_finding_copy (finding));
    }
}
