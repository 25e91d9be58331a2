/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/cav-job-sheet-private.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#include "drawing/cav-hand-words.h"
#include "drawing/cav-pass-words.h"
#include "drawing/cav-piece-words.h"
#include "drawing/cav-plan-section.h"
#include "drawing/cav-sheet-private.h"
#include "drawing/cav-words-private.h"
#include "geometry/cav-number-text.h"

/* Wood is at rest when two weighings or readings a few days apart agree; common practice. */
#define REST_DAYS 7

/* Of the section with what is left by hand, mm. */
#define HAND_PICTURE 32.0
#define HAND_WIDTH 70.0

char *
cav_job_format (const CavJob *job, double mm)
{
  return cav_words_format_unit (mm, job->options);
}

void
cav_job_step (CavJob *job, const char *format, ...)
{
  g_autofree char *text = NULL;
  va_list arguments;

  va_start (arguments, format);
  text = g_strdup_vprintf (format, arguments);
  va_end (arguments);
  cav_text_sheet_add_step (job->sheet, text);
}

void
cav_job_heading (CavJob *job, const char *text)
{
  g_autofree char *numbered = g_strdup_printf ("%u  %s", ++job->number, text);

  cav_text_sheet_add_heading (job->sheet, numbered);
}

const char *
cav_job_format_tenth (double value, char *buffer)
{
  return cav_number_format (buffer, G_ASCII_DTOSTR_BUF_SIZE, "%.1f", value);
}

static void
add_rest (CavJob *job)
{
  const CavFrame *frame = job->frame;
  char now[G_ASCII_DTOSTR_BUF_SIZE];
  char low[G_ASCII_DTOSTR_BUF_SIZE];
  char high[G_ASCII_DTOSTR_BUF_SIZE];

  if (frame == NULL)
    {
      cav_job_step (job,
                    _ ("Let the wood lie in the air of the workshop until two readings of a "
                       "moisture meter, %d days apart, agree."),
                    REST_DAYS);
      return;
    }
  cav_job_format_tenth (cav_moisture_get (frame->settings.shop), now);
  cav_job_format_tenth (cav_moisture_get (frame->settings.dry), low);
  cav_job_format_tenth (cav_moisture_get (frame->settings.damp), high);
  cav_job_step (
      job,
      _ ("Let it lie until a meter reads about %s %% (the workshop's air); where the frame "
         "hangs it will be %s to %s %%. Two readings, %d days apart, should agree."),
      now, low, high, REST_DAYS);
}

static void
add_wood (CavJob *job)
{
  const CavWood *wood = cav_project_get_wood (job->project);
  const char *name
      = wood != NULL ? cav_wood_get_name (wood) : _ ("Wood of one kind, not chosen yet");

  cav_job_heading (job, _ ("Choose and rest the wood"));
  if (job->frame == NULL)
    cav_job_step (job, _ ("%s, straight in the grain and without knots."), name);
  else if (job->frame->settings.sawn == CAV_SAWN_QUARTER)
    cav_job_step (job, _ ("%s, straight in the grain and without knots, quarter sawn."), name);
  else
    /* Translators: %s is a wood. */
    cav_job_step (job, _ ("%s, straight in the grain and without knots, flat sawn."), name);
  add_rest (job);
}

static void
add_square (CavJob *job)
{
  g_autofree char *pieces = cav_words_describe_pieces (job->pieces, job->project, job->options);
  g_autofree char *width = cav_job_format (job, job->blank.width);
  g_autofree char *thickness = cav_job_format (job, job->blank.thickness);

  cav_job_heading (job, _ ("Square it"));
  /* Translators: a list of pieces. */
  cav_job_step (job, _ ("Prepare %s."), pieces);
  cav_job_step (job, "%s", cav_words_get_parting (job->pieces));
  if (cav_words_has_several (job->pieces))
    {
      g_autofree char *trim = cav_job_format (job, CAV_PIECE_TRIM);

      cav_job_step (job,
                    _ ("A piece with several rails keeps what wood there is before the first and "
                       "after the last of them, up to %s: the mitres take it off."),
                    trim);
    }
  cav_job_step (
      job,
      _ ("Flatten and square every piece to %s × %s, all alike; mark the ends in the order "
         "in which the pieces lay in the board."),
      width, thickness);
}

static void
add_mill (CavJob *job)
{
  g_autofree char *amount = NULL;
  g_autofree char *leftover = NULL;

  cav_job_heading (job, _ ("Mill"));
  if (job->plan == NULL || !job->plan->usable)
    {
      cav_job_step (job,
                    _ ("No order of passes could be proved for this section in this shop: do not "
                       "mill before that is settled."));
      return;
    }
  amount = cav_words_describe_amount (job->plan, job->options);
  leftover = cav_words_describe_leftover (job->plan, job->options);
  cav_job_step (job, _ ("By the pass sheet: %s"), amount);
  cav_job_step (job, "%s", leftover);
}

static void
add_sand (CavJob *job)
{
  g_autoptr (GPtrArray) lines = cav_hand_words_list (job->project, job->plan, job->options);

  cav_job_heading (job, _ ("Scrape and sand, before mitring"));
  cav_job_step (job,
                _ ("Scrape what the tools left, then 120 and 180 along the grain; leave the back "
                   "and the ends alone."));
  for (guint i = 0; i < lines->len; i++)
    cav_job_step (job, "%s", (const char *)g_ptr_array_index (lines, i));
  if (job->plan != NULL && job->plan->usable && cav_hand_words_has_places (job->plan))
    {
      CavPoint corner;
      CavScene *scene = cav_text_sheet_add_picture (job->sheet, HAND_PICTURE, &corner);

      cav_plan_section_draw (
          scene, job->plan, NULL,
          cav_box (corner.x, corner.y, corner.x + HAND_WIDTH, corner.y + HAND_PICTURE));
    }
}

CavJob
cav_job_begin (CavProject *project, const CavPlan *plan, const CavSheetOptions *options)
{
  g_autofree char *title = cav_sheet_dup_title (project);
  CavJob job = { .project = project, .plan = plan, .options = options };

  job.frame = cav_project_has_frame (project) ? cav_project_get_frame (project) : NULL;
  if (job.frame != NULL && !job.frame->possible)
    job.frame = NULL;
  job.blank = plan != NULL && plan->usable ? plan->blank : cav_project_get_blank (project);
  job.pieces = cav_words_list_pieces (project, plan, options);
  job.sheet = cav_text_sheet_new (title, _ ("Job sheet"), options);
  return job;
}

GPtrArray *
cav_job_sheet_create_scenes (CavProject *project,
                             const CavPlan *plan,
                             const CavSheetOptions *options)
{
  CavJob job;
  GPtrArray *scenes;

  g_return_val_if_fail (CAV_IS_PROJECT (project) && options != NULL, NULL);

  job = cav_job_begin (project, plan, options);
  add_wood (&job);
  cav_job_add_boards (&job);
  add_square (&job);
  add_mill (&job);
  add_sand (&job);
  cav_job_add_mitres (&job);
  cav_job_add_dry_fit (&job);
  cav_job_add_glue (&job);
  cav_job_add_finish (&job);
  cav_job_add_fit_up (&job);
  cav_job_add_hang (&job);
  scenes = cav_text_sheet_finish (job.sheet);
  cav_text_sheet_free (job.sheet);
  g_array_unref (job.pieces);
  return scenes;
}
