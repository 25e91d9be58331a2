/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>

#include "drawing/cav-job-sheet-private.h"
#include "drawing/cav-words-private.h"

/* Corners of heavier frames are keyed: end grain alone holds badly. Common practice, no source. */
#define HEAVY 4.0
/* Gap of a season that glue holds in small work, mm; common practice, no source. */
#define GAP_SMALL 0.15
/* Hangers are taken for this many times the weight; common practice, no source. */
#define HANGER_FACTOR 4

static const char *
get_pair_word (CavRailPair which)
{
  switch (which)
    {
    case CAV_RAILS_TOP_BOTTOM:
      return "top and bottom";
    case CAV_RAILS_LEFT_RIGHT:
      return "left and right";
    case CAV_RAILS_ALL:
      return "all alike";
    }
  g_return_val_if_reached ("");
}

static void
add_without_frame (CavJob *job)
{
  cav_job_step (job, "No frame is set in this project, so its lengths are not known here: measure "
                     "the glass, add the play, and cut to the rabbet.");
}

static void
add_lengths (CavJob *job)
{
  static const CavTextColumn columns[] = { { "Rails", 36, FALSE },
                                           { "No.", 10, TRUE },
                                           { "Long point", 30, TRUE },
                                           { "At the rabbet", 30, TRUE },
                                           { "Short point", 30, TRUE } };
  const CavFrameRails *rails = &job->frame->rails;

  cav_text_sheet_add_row (job->sheet, columns, G_N_ELEMENTS (columns), NULL, NULL);
  for (int i = 0; i < rails->n_groups; i++)
    {
      const CavRailGroup *group = &rails->groups[i];
      g_autofree char *count = g_strdup_printf ("%d", group->count);
      g_autofree char *outer = cav_job_format (job, group->long_point);
      g_autofree char *line = cav_job_format (job, group->rabbet_line);
      g_autofree char *inner = cav_job_format (job, group->short_point);
      const char *const cells[] = { get_pair_word (group->which), count, outer, line, inner };

      cav_text_sheet_add_row (job->sheet, columns, G_N_ELEMENTS (columns), cells, NULL);
    }
}

/* The rails of a strip in the order in which they are cut from it. */
static void
add_order (CavJob *job)
{
  static const char *const names[] = { "top", "right", "bottom", "left" };
  const CavFrameRails *rails = &job->frame->rails;
  g_autoptr (GString) text = g_string_new ("Cut in this order, so that the grain runs on around "
                                           "the corners:");

  for (int i = 0; i < rails->n_places; i++)
    {
      const CavRailPlace *place = &rails->places[i];
      g_autofree char *number = g_strdup_printf ("%d", place->rail + 1);
      gboolean begins = i == 0 || place->strip != rails->places[i - 1].strip;

      g_string_append_printf (text, "%s %s",
                              i == 0   ? ""
                              : begins ? ";"
                                       : ",",
                              rails->n_places == 4 && place->rail < 4 ? names[place->rail]
                                                                      : number);
    }
  g_string_append_c (text, '.');
  cav_job_step (job, "%s", text->str);
}

void
cav_job_add_mitres (CavJob *job)
{
  g_autofree char *angle = NULL;
  g_autofree char *gap = NULL;

  cav_job_heading (job, "Mitre");
  if (job->frame == NULL)
    {
      add_without_frame (job);
      return;
    }
  angle = cav_words_format_degrees (job->frame->rails.mitre);
  cav_job_step (job,
                "Saw at %s° from a square cut; try it on scrap, fold two pieces together and "
                "check the corner with a square.",
                angle);
  add_lengths (job);
  cav_job_step (job,
                "Face up, the inside (sight edge) toward the short point. Clamp a stop and cut "
                "both rails of a pair against it: a difference between them opens corners.");
  add_order (job);
  if (job->frame->mitres.last_gap <= 0)
    return;
  gap = cav_job_format (job, job->frame->mitres.last_gap);
  cav_job_step (job,
                "With the saw's error as it is set here, the last corner would stand %s open "
                "when the others are pressed shut.",
                gap);
}

static void
add_fit_table (CavJob *job)
{
  static const CavTextColumn columns[] = { { "Play of the glass", 40, FALSE },
                                           { "Gap measured", 34, FALSE },
                                           { "Take off", 34, FALSE } };
  static const char *const rows[] = { "left + right", "top + bottom" };

  cav_text_sheet_add_row (job->sheet, columns, G_N_ELEMENTS (columns), NULL, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    cav_text_sheet_add_blank_row (job->sheet, columns, G_N_ELEMENTS (columns), rows[i]);
}

static void
add_corrections (CavJob *job)
{
  for (guint i = 0; i < job->frame->corrections->len; i++)
    cav_job_step (job, "%s", g_array_index (job->frame->corrections, CavCorrection, i).sentence);
}

void
cav_job_add_dry_fit (CavJob *job)
{
  g_autofree char *width = NULL;
  g_autofree char *height = NULL;
  g_autofree char *allowance = NULL;
  g_autofree char *diagonal = NULL;

  cav_job_heading (job, "Fit it dry");
  if (job->frame == NULL)
    {
      add_without_frame (job);
      return;
    }
  width = cav_job_format (job, job->frame->sizes.outside.width);
  height = cav_job_format (job, job->frame->sizes.outside.height);
  allowance = cav_job_format (job, job->frame->settings.allowance);
  diagonal = cav_job_format (
      job, hypot (job->frame->sizes.outside.width, job->frame->sizes.outside.height));
  if (job->frame->settings.sides == 4)
    cav_job_step (job, "Band it together without glue: outside %s × %s, both diagonals %s.", width,
                  height, diagonal);
  else
    cav_job_step (job,
                  "Band it together without glue: %s across from the inner touching circle's "
                  "outside.",
                  width);
  cav_job_step (job, "Lay the glass in: %s play in each direction, left and right together.",
                allowance);
  add_fit_table (job);
  cav_job_step (job,
                "More play across than that comes off the top and bottom rails, each by all of "
                "it; more play upright off the left and right ones. Less cannot be cut away: "
                "those rails are too short.");
  add_corrections (job);
}

void
cav_job_add_glue (CavJob *job)
{
  const CavFrame *frame = job->frame;

  cav_job_heading (job, "Glue up");
  cav_job_step (job,
                "Size the mitres with thinned glue, let it draw in, glue again. Band clamp with "
                "a block at each corner, on a flat board; compare the diagonals before the "
                "glue takes.");
  if (frame == NULL)
    return;
  if (frame->mitres.has_seasons && frame->mitres.season_gap >= GAP_SMALL)
    {
      g_autofree char *gap = cav_job_format (job, frame->mitres.season_gap);

      cav_job_step (job,
                    "Through the seasons this wood would open each mitre by up to %s where "
                    "nothing holds it: put a spline or a key across every corner.",
                    gap);
    }
  else if (frame->weights.total > HEAVY)
    cav_job_step (job, "The frame is heavy: put a spline or a key across every corner.");
  else
    cav_job_step (job, "Glue alone holds these corners; a key across each does no harm.");
}

static const char *
get_finish_word (CavFinish finish)
{
  static const char *const words[]
      = { "no finish", "oil", "wax", "varnish", "black paint", "white paint", "gilding" };

  return (guint)finish < G_N_ELEMENTS (words) ? words[finish] : words[0];
}

void
cav_job_add_finish (CavJob *job)
{
  const CavFrame *frame = job->frame;
  char area[G_ASCII_DTOSTR_BUF_SIZE];
  char amount[G_ASCII_DTOSTR_BUF_SIZE];

  cav_job_heading (job, "Finish");
  if (frame == NULL)
    {
      add_without_frame (job);
      return;
    }
  if (frame->settings.finish == CAV_FINISH_BARE || frame->settings.coats <= 0)
    {
      cav_job_step (job, "The wood stays bare: dust it off.");
      return;
    }
  g_ascii_formatd (area, sizeof area, "%.2f", frame->weights.finish_area * 1e-6);
  g_ascii_formatd (amount, sizeof amount, "%.0f", frame->weights.finish_amount);
  cav_job_step (job,
                "%d %s of %s on %s m², about %s ml each, the back too; rags with oil go flat "
                "on a line or into water, they can catch fire.",
                frame->settings.coats, frame->settings.coats == 1 ? "coat" : "coats",
                get_finish_word (frame->settings.finish), area, amount);
}

static void
add_layers (CavJob *job)
{
  const CavPackage *package = &job->frame->package;
  g_autoptr (GString) text = g_string_new ("Front to back:");
  g_autofree char *depth = cav_job_format (job, package->depth);

  for (int i = 0; i < package->n_layers; i++)
    {
      g_autofree char *thickness = cav_job_format (job, package->layers[i].thickness);

      g_string_append_printf (text, "%s %s %s", i == 0 ? "" : ",", package->layers[i].name,
                              thickness);
    }
  cav_job_step (job, "%s; together %s.", text->str, depth);
}

static void
add_mat_sizes (CavJob *job)
{
  const CavFrame *frame = job->frame;

  for (int i = 0; i < frame->settings.n_mats && !frame->settings.floated; i++)
    {
      g_autofree char *width = cav_job_format (job, frame->sizes.windows[i].width);
      g_autofree char *height = cav_job_format (job, frame->sizes.windows[i].height);

      cav_job_step (job, "Mat %d: window %s × %s.", i + 1, width, height);
    }
}

void
cav_job_add_fit_up (CavJob *job)
{
  const CavFrame *frame = job->frame;
  g_autofree char *width = NULL;
  g_autofree char *height = NULL;
  g_autofree char *spacing = NULL;

  cav_job_heading (job, "Fit up");
  if (frame == NULL)
    {
      add_without_frame (job);
      return;
    }
  width = cav_job_format (job, frame->sizes.glass.width);
  height = cav_job_format (job, frame->sizes.glass.height);
  spacing = cav_job_format (job, round (frame->weights.point_spacing));
  cav_job_step (job, "Glass, mats and backing %s × %s. Clean the glass on both sides; gloves.",
                width, height);
  add_mat_sizes (job);
  add_layers (job);
  if (frame->package.stands_out > 0)
    {
      g_autofree char *out = cav_job_format (job, frame->package.stands_out);

      cav_job_step (job, "It stands out %s behind the frame: hold it with offset clips.", out);
    }
  else
    cav_job_step (job, "%d points, about %s apart, one near each corner.", frame->weights.points,
                  spacing);
}

void
cav_job_add_hang (CavJob *job)
{
  const CavFrame *frame = job->frame;
  char total[G_ASCII_DTOSTR_BUF_SIZE];
  char load[G_ASCII_DTOSTR_BUF_SIZE];
  char wire[G_ASCII_DTOSTR_BUF_SIZE];

  cav_job_heading (job, "Hang it");
  if (frame == NULL)
    {
      add_without_frame (job);
      return;
    }
  cav_job_percent (frame->weights.total, total);
  cav_job_percent (frame->weights.hanger_load / CAV_GRAVITY, load);
  cav_job_percent (frame->weights.wire_tension / CAV_GRAVITY, wire);
  cav_job_step (job,
                "It weighs about %s kg%s. %d %s, each carries %s kg: take them, and the hooks "
                "in the wall, for %d times that.",
                total, frame->wood == NULL || frame->wood->density <= 0 ? " without its wood" : "",
                frame->settings.hangers, frame->settings.hangers == 1 ? "hanger" : "hangers", load,
                HANGER_FACTOR);
  if (frame->settings.wire)
    cav_job_step (job, "The wire pulls with %s kg; the flatter it hangs, the more.", wire);
  cav_job_step (job, "Two bumpers at the lower corners; two hooks in the wall keep it level.");
}
