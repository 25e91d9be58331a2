/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <glib/gi18n-lib.h>
#include <math.h>

#include "drawing/cav-frame-figures.h"
#include "drawing/cav-job-sheet-private.h"
#include "drawing/cav-mat-words.h"
#include "drawing/cav-piece-words.h"
#include "drawing/cav-words-private.h"
#include "geometry/cav-number-text.h"
#include "geometry/cav-unit.h"

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
      return C_ ("rails", "top and bottom");
    case CAV_RAILS_LEFT_RIGHT:
      return C_ ("rails", "left and right");
    case CAV_RAILS_ALL:
      return C_ ("rails", "all alike");
    }
  g_return_val_if_reached ("");
}

static void
add_without_frame (CavJob *job)
{
  cav_job_step (job,
                _ ("No frame is set in this project, so its lengths are not known here: measure "
                   "the glass, add the play, and cut to the rabbet."));
}

static void
add_lengths (CavJob *job)
{
  static const CavTextColumn columns[] = { { NC_ ("column", "Rails"), 36, FALSE },
                                           { NC_ ("column", "No."), 10, TRUE },
                                           { NC_ ("column", "Long point"), 30, TRUE },
                                           { NC_ ("column", "At the rabbet"), 30, TRUE },
                                           { NC_ ("column", "Short point"), 30, TRUE } };
  const CavFrameRails *rails = &job->frame->rails;

  /* The table stays together. */
  cav_text_sheet_keep (job->sheet, 2 * (guint)(rails->n_groups + 1));
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
  const CavFrameRails *rails = &job->frame->rails;
  g_autoptr (GString) text = g_string_new (NULL);
  gboolean several = cav_words_has_several (job->pieces);

  if (job->is_numbered)
    {
      cav_job_step (job, several ? _ ("Cut the rails off in the order of their numbers, as they "
                                      "lie on the boards.")
                                 : _ ("Mitre both ends of every rail; its number says where it "
                                      "belongs."));
      return;
    }
  for (int i = 0; i < rails->n_places; i++)
    {
      const CavRailPlace *place = &rails->places[i];
      g_autofree char *number = g_strdup_printf ("%d", place->rail + 1);
      const char *word = cav_words_get_rail (place->rail, rails->n_places);
      gboolean begins = i == 0 || place->strip != rails->places[i - 1].strip;

      if (i > 0)
        g_string_append (text, begins ? "; " : ", ");
      g_string_append (text, word != NULL ? word : number);
    }
  /* Translators: %s is a list: top, right, bottom, left. */
  cav_job_step (
      job,
      several ? _ ("Cut in this order, so that the grain runs on around the corners: %s.")
              : _ ("Mitre both ends of every rail, and keep them around the frame as they lay in "
                   "the board, so that the grain runs on around the corners: %s."),
      text->str);
}

/* Where the strips are cut apart that hold several rails. */
static void
add_strips (CavJob *job)
{
  g_autoptr (GPtrArray) lines = cav_frame_figures_list_strips (job->frame, job->options);

  if (job->is_numbered || !cav_words_has_several (job->pieces))
    return;
  for (guint i = 0; i < lines->len; i++)
    cav_job_step (job, "%s", (const char *)g_ptr_array_index (lines, i));
}

/* Two pieces of other frames than those of four sides make no corner that a square could check. */
static void
add_angle (CavJob *job)
{
  const int sides = job->frame->settings.sides;
  g_autofree char *angle = cav_words_format_degrees (job->frame->rails.mitre);

  if (sides == 4)
    cav_job_step (job,
                  _ ("Saw at %s°, counted from a cut square across the rail; try it on scrap, fold "
                     "two pieces together and check the corner with a square."),
                  angle);
  else
    cav_job_step (job,
                  _ ("Saw at %s°, counted from a cut square across the rail; try it on scrap: %d "
                     "short pieces, cut alike at both ends and laid in a ring, must close."),
                  angle, sides);
}

static void
add_stops (CavJob *job)
{
  if (job->frame->rails.n_groups > 1)
    cav_job_step (job,
                  _ ("Face up, the inside (sight edge) toward the short point. Clamp one stop for "
                     "each pair and leave it where it is: both rails of a pair are cut against the "
                     "same stop, as a difference between them opens corners."));
  else
    cav_job_step (job,
                  _ ("Face up, the inside (sight edge) toward the short point. Clamp one stop and "
                     "leave it where it is: all rails are cut against it, as a difference between "
                     "them opens corners."));
}

void
cav_job_add_mitres (CavJob *job)
{
  g_autofree char *gap = NULL;
  g_autofree char *error = NULL;

  cav_job_heading (job, _ ("Mitre"));
  if (job->frame == NULL)
    {
      add_without_frame (job);
      return;
    }
  add_angle (job);
  add_lengths (job);
  add_stops (job);
  add_order (job);
  add_strips (job);
  if (job->frame->mitres.last_gap <= 0)
    return;
  gap = cav_job_format (job, job->frame->mitres.last_gap);
  error = cav_words_format_degrees (job->frame->settings.saw_error);
  cav_job_step (job,
                _ ("Were every cut off by %s°, the last corner would stand %s open when the others "
                   "are pressed shut."),
                error, gap);
}

static void
add_fit_table (CavJob *job)
{
  static const CavTextColumn columns[] = { { NC_ ("column", "Play of the glass"), 40, FALSE },
                                           { NC_ ("column", "Gap measured"), 34, FALSE },
                                           { NC_ ("column", "Take off"), 34, FALSE } };
  static const char *const rows[]
      = { NC_ ("rails", "left + right"), NC_ ("rails", "top + bottom") };

  cav_text_sheet_add_row (job->sheet, columns, G_N_ELEMENTS (columns), NULL, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    cav_text_sheet_add_blank_row (job->sheet, columns, G_N_ELEMENTS (columns),
                                  g_dpgettext2 (GETTEXT_PACKAGE, "rails", rows[i]));
}

static void
add_corrections (CavJob *job)
{
  for (guint i = 0; i < job->frame->corrections->len; i++)
    {
      g_autofree char *sentence
          = cav_length_restyle (g_array_index (job->frame->corrections, CavCorrection, i).sentence,
                                (CavLengthStyle){ job->options->unit, job->options->denominator });

      cav_job_step (job, "%s", sentence);
    }
}

static void
add_rectangle_fit (CavJob *job)
{
  const CavSize outside = job->frame->sizes.outside;
  g_autofree char *size = cav_words_format_size (job->frame, outside, job->options);
  /* No finer than a rule along it shows. */
  g_autofree char *diagonal
      = cav_job_format (job, round (10 * hypot (outside.width, outside.height)) / 10);
  g_autofree char *allowance = cav_job_format (job, job->frame->settings.allowance);

  cav_job_step (job, _ ("Band it together without glue: outside %s, both diagonals %s."), size,
                diagonal);
  cav_job_step (job, _ ("Lay the glass in: %s play in each direction, left and right together."),
                allowance);
  add_fit_table (job);
  cav_job_step (job,
                _ ("More play across than that comes off the top and bottom rails, each by all of "
                   "it; more play upright off the left and right ones. Less cannot be cut away: "
                   "those rails are too short."));
}

/* Rails of equal sides are shortened alike: a side is as long as the frame is across, times
 * tan (180 / n). */
static void
add_polygon_fit (CavJob *job)
{
  const int sides = job->frame->settings.sides;
  const double across = job->frame->sizes.outside.width;
  const double half_angle = CAV_RADIANS (180.0 / sides);
  const double measured = sides % 2 == 0 ? across : (across + across / cos (half_angle)) / 2.0;
  g_autofree char *length = cav_job_format (job, round (10 * measured) / 10);
  g_autofree char *allowance = cav_job_format (job, job->frame->settings.allowance);
  char share[G_ASCII_DTOSTR_BUF_SIZE];

  cav_job_step (job,
                sides % 2 == 0
                    ? _ ("Band it together without glue: %s from the outside of each rail to the "
                         "outside of the one opposite.")
                    : _ ("Band it together without glue: %s from the outside of each rail, at its "
                         "middle, to the corner opposite."),
                length);
  cav_job_step (job, _ ("Lay the glass in: %s play across, both sides together."), allowance);
  cav_job_step (job,
                _ ("More play than that comes off all rails, each by %s times as much. Less cannot "
                   "be cut away: the rails are too short."),
                cav_number_format (share, sizeof share, "%.2f", tan (half_angle)));
}

void
cav_job_add_dry_fit (CavJob *job)
{
  cav_job_heading (job, _ ("Fit it dry"));
  if (job->frame == NULL)
    {
      add_without_frame (job);
      return;
    }
  if (job->frame->settings.sides == 4)
    add_rectangle_fit (job);
  else
    add_polygon_fit (job);
  add_corrections (job);
}

void
cav_job_add_glue (CavJob *job)
{
  const CavFrame *frame = job->frame;

  cav_job_heading (job, _ ("Glue up"));
  if (frame == NULL || frame->settings.sides == 4)
    cav_job_step (job,
                  _ ("Size the mitres with thinned glue, let it draw in, glue again. Band clamp "
                     "with a block at each corner, on a flat board; compare the diagonals before "
                     "the glue takes."));
  else
    cav_job_step (job,
                  _ ("Size the mitres with thinned glue, let it draw in, glue again. Band clamp "
                     "with a block at each corner, on a flat board; measure across as before, at "
                     "every rail, before the glue takes."));
  if (frame == NULL)
    return;
  if (frame->mitres.has_seasons && frame->mitres.season_gap >= GAP_SMALL)
    {
      g_autofree char *gap = cav_job_format (job, frame->mitres.season_gap);

      cav_job_step (job,
                    _ ("Through the seasons this wood would open each mitre by up to %s where "
                       "nothing holds it: put a spline or a key across every corner."),
                    gap);
    }
  else if (frame->weights.total > HEAVY)
    cav_job_step (job, _ ("The frame is heavy: put a spline or a key across every corner."));
  else
    cav_job_step (job, _ ("Glue alone holds these corners; a key across each does no harm."));
}

static const char *
get_finish_word (CavFinish finish)
{
  static const char *const words[]
      = { NC_ ("finish in a sentence", "no finish"),   NC_ ("finish in a sentence", "oil"),
          NC_ ("finish in a sentence", "wax"),         NC_ ("finish in a sentence", "varnish"),
          NC_ ("finish in a sentence", "black paint"), NC_ ("finish in a sentence", "white paint"),
          NC_ ("finish in a sentence", "gilding") };

  return g_dpgettext2 (GETTEXT_PACKAGE, "finish in a sentence",
                       words[(guint)finish < G_N_ELEMENTS (words) ? finish : 0]);
}

void
cav_job_add_finish (CavJob *job)
{
  const CavFrame *frame = job->frame;
  char area[G_ASCII_DTOSTR_BUF_SIZE];
  char amount[G_ASCII_DTOSTR_BUF_SIZE];

  /* Translators: a heading: to finish the wood, after gluing up. */
  cav_job_heading (job, C_ ("step of the job", "Finish"));
  if (frame == NULL)
    {
      add_without_frame (job);
      return;
    }
  if (frame->settings.finish == CAV_FINISH_BARE || frame->settings.coats <= 0)
    {
      cav_job_step (job, _ ("The wood stays bare: dust it off."));
      return;
    }
  cav_number_format (area, sizeof area, "%.2f", frame->weights.finish_area * 1e-6);
  cav_number_format (amount, sizeof amount, "%.0f", frame->weights.finish_amount);
  cav_job_step (job,
                g_dngettext (GETTEXT_PACKAGE,
                             "%d coat of %s on %s m², about %s ml each, the back too; rags with "
                             "oil go flat on a line or into water, they can catch fire.",
                             "%d coats of %s on %s m², about %s ml each, the back too; rags with "
                             "oil go flat on a line or into water, they can catch fire.",
                             (gulong)frame->settings.coats),
                frame->settings.coats, get_finish_word (frame->settings.finish), area, amount);
}

static void
add_layers (CavJob *job)
{
  const CavPackage *package = &job->frame->package;
  g_autoptr (GString) text = g_string_new (NULL);
  g_autofree char *depth = cav_job_format (job, package->depth);

  for (int i = 0; i < package->n_layers; i++)
    {
      g_autofree char *thickness = cav_job_format (job, package->layers[i].thickness);

      g_string_append_printf (
          text, "%s%s %s", i == 0 ? "" : ", ",
          g_dpgettext2 (GETTEXT_PACKAGE, "layer of the package", package->layers[i].name),
          thickness);
    }
  /* Translators: a list like “glass 2 mm, mat 1.5 mm”, and how deep they are. */
  cav_job_step (job, _ ("Front to back: %s; together %s."), text->str, depth);
}

static void
add_mat_sizes (CavJob *job)
{
  const CavFrame *frame = job->frame;

  for (int i = 0; i < frame->settings.n_mats && !frame->settings.floated; i++)
    {
      g_autofree char *size = cav_words_format_size (frame, frame->sizes.windows[i], job->options);
      g_autofree char *borders = cav_words_describe_mat_borders (frame, i, job->options);

      /* Translators: a size, and where the window lies: “60 all around”. */
      cav_job_step (job, _ ("Mat %d: window %s; %s."), i + 1, size, borders);
    }
}

void
cav_job_add_fit_up (CavJob *job)
{
  const CavFrame *frame = job->frame;
  g_autofree char *size = NULL;
  g_autofree char *spacing = NULL;

  cav_job_heading (job, _ ("Fit up"));
  if (frame == NULL)
    {
      add_without_frame (job);
      return;
    }
  size = cav_words_format_size (frame, frame->sizes.glass, job->options);
  spacing = cav_job_format (job, round (frame->weights.point_spacing));
  cav_job_step (job, _ ("Glass, mats and backing %s. Clean the glass on both sides; gloves."),
                size);
  add_mat_sizes (job);
  add_layers (job);
  if (frame->package.stands_out > 0)
    {
      g_autofree char *out = cav_job_format (job, frame->package.stands_out);

      cav_job_step (job, _ ("It stands out %s behind the frame: hold it with offset clips."), out);
    }
  else
    cav_job_step (job,
                  g_dngettext (GETTEXT_PACKAGE, "%d point, about %s apart, one near each corner.",
                               "%d points, about %s apart, one near each corner.",
                               (gulong)frame->weights.points),
                  frame->weights.points, spacing);
}

/* (transfer full) What each hanger carries, and why that may be more than its share of the weight.
 */
static char *
describe_load (const CavJob *job)
{
  const CavFrame *frame = job->frame;
  const int hangers = frame->settings.hangers;
  char load[G_ASCII_DTOSTR_BUF_SIZE];
  g_autofree char *angle = cav_words_format_degrees (frame->settings.wire_angle);

  cav_job_format_tenth (frame->weights.hanger_load / CAV_GRAVITY, load);
  if (frame->weights.wire_tension > 0)
    return g_strdup_printf (
        g_dngettext (GETTEXT_PACKAGE,
                     "%d hanger, which carries %s kg because of the wire's angle, %s° above level: "
                     "the flatter it hangs, the more it pulls. Take hanger, wire and hooks for %d "
                     "times that.",
                     "%d hangers, each of which carries %s kg because of the wire's angle, %s° "
                     "above level: the flatter it hangs, the more it pulls. Take hangers, wire and "
                     "hooks for %d times that.",
                     (gulong)hangers),
        hangers, load, angle, HANGER_FACTOR);
  return g_strdup_printf (
      g_dngettext (GETTEXT_PACKAGE,
                   "%d hanger, which carries %s kg: take it, and the hook in the wall, "
                   "for %d times that.",
                   "%d hangers, each of which carries %s kg: take them, and the hooks "
                   "in the wall, for %d times that.",
                   (gulong)hangers),
      hangers, load, HANGER_FACTOR);
}

void
cav_job_add_hang (CavJob *job)
{
  const CavFrame *frame = job->frame;
  char total[G_ASCII_DTOSTR_BUF_SIZE];
  gboolean is_without_wood;
  g_autofree char *weight = NULL;
  g_autofree char *load = NULL;

  cav_job_heading (job, _ ("Hang it"));
  if (frame == NULL)
    {
      add_without_frame (job);
      return;
    }
  is_without_wood = frame->wood == NULL || frame->wood->density <= 0;
  cav_job_format_tenth (frame->weights.total, total);
  weight = g_strdup_printf (is_without_wood ? _ ("It weighs about %s kg without its wood.")
                                            : _ ("It weighs about %s kg."),
                            total);
  load = describe_load (job);
  cav_job_step (job, "%s %s", weight, load);
  cav_job_step (job, _ ("Two bumpers at the lower corners; two hooks in the wall keep it level."));
}
