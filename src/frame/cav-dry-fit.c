/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "frame/cav-dry-fit.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#include "frame/cav-mitre.h"
#include "geometry/cav-number-text.h"
#include "geometry/cav-unit.h"

/* Rails to shorten, by how the words of a language bend. The numbers are those of correct_play().
 */
static char *
describe_taking_off (
    CavRailPair rails, const char *play, const char *allowance, const char *over, const char *mitre)
{
  switch (rails)
    {
    case CAV_RAILS_TOP_BOTTOM:
      return g_strdup_printf (_ ("The glass has %s mm of play instead of %s mm: take %s mm off the "
                                 "length of the top and "
                                 "the bottom rail, at one end, at %s degrees."),
                              play, allowance, over, mitre);
    case CAV_RAILS_LEFT_RIGHT:
      return g_strdup_printf (_ ("The glass has %s mm of play instead of %s mm: take %s mm off the "
                                 "length of the left and "
                                 "the right rail, at one end, at %s degrees."),
                              play, allowance, over, mitre);
    case CAV_RAILS_ALL:
      return g_strdup_printf (_ ("The glass has %s mm of play instead of %s mm: take %s mm off the "
                                 "length of every rail, at one end, at %s degrees."),
                              play, allowance, over, mitre);
    }
  g_return_val_if_reached (NULL);
}

static char *
describe_missing (CavRailPair rails,
                  const char *play,
                  const char *allowance,
                  const char *missing,
                  const char *less)
{
  switch (rails)
    {
    case CAV_RAILS_TOP_BOTTOM:
      return g_strdup_printf (_ ("The glass has %s mm of play instead of %s mm, so the top and the "
                                 "bottom rail are each %s mm short: cut the glass smaller by %s "
                                 "mm, or the rabbet wider by half of that on both sides."),
                              play, allowance, missing, less);
    case CAV_RAILS_LEFT_RIGHT:
      return g_strdup_printf (
          _ ("The glass has %s mm of play instead of %s mm, so the left and the "
             "right rail are each %s mm short: cut the glass smaller by %s mm, "
             "or the rabbet wider by half of that on both sides."),
          play, allowance, missing, less);
    case CAV_RAILS_ALL:
      return g_strdup_printf (
          _ ("The glass has %s mm of play instead of %s mm, so every rail is %s mm short: cut the "
             "glass smaller by %s mm, or the rabbet wider by half of that on both sides."),
          play, allowance, missing, less);
    }
  g_return_val_if_reached (NULL);
}

static void
take_sentence (CavCorrection *correction, char *sentence)
{
  g_utf8_strncpy (correction->sentence, sentence,
                  MIN ((glong)sizeof correction->sentence / 4 - 1, g_utf8_strlen (sentence, -1)));
  g_free (sentence);
}

/* play: how much wider than the glass the rabbet opening is. share: how much a rail's length gives
 * of it (1 for a rectangle). */
static void
correct_play (
    GArray *corrections, const CavDryFitFrame *frame, CavRailPair rails, double play, double share)
{
  double mitre = cav_mitre_get_angle (frame->sides);
  double over = (play - frame->allowance) * share;
  CavCorrection correction = { .rails = rails, .setting = mitre };

  if (fabs (over) < CAV_DRY_FIT_LENGTH)
    return;
  if (over > 0.0)
    {
      correction.take_off = over;
      take_sentence (&correction, describe_taking_off (rails, CAV_NUMBER_TEXT ("%.1f", play),
                                                       CAV_NUMBER_TEXT ("%.4g", frame->allowance),
                                                       CAV_NUMBER_TEXT ("%.1f", over),
                                                       CAV_NUMBER_TEXT ("%.4g", mitre)));
    }
  else
    {
      correction.missing = -over;
      take_sentence (&correction,
                     describe_missing (rails, CAV_NUMBER_TEXT ("%.1f", play),
                                       CAV_NUMBER_TEXT ("%.4g", frame->allowance),
                                       CAV_NUMBER_TEXT ("%.1f", -over),
                                       CAV_NUMBER_TEXT ("%.1f", frame->allowance - play)));
    }
  g_array_append_val (corrections, correction);
}

static void
correct_gaps (GArray *corrections, const CavDryFit *dry_fit, const CavDryFitFrame *frame)
{
  double across = dry_fit->gap_left + dry_fit->gap_right;
  double along = dry_fit->gap_top + dry_fit->gap_bottom;

  if (frame->sides == 4)
    {
      correct_play (corrections, frame, CAV_RAILS_TOP_BOTTOM, across, 1.0);
      correct_play (corrections, frame, CAV_RAILS_LEFT_RIGHT, along, 1.0);
      return;
    }
  correct_play (corrections, frame, CAV_RAILS_ALL, (across + along) / 2.0,
                cav_mitre_get_run (1.0, frame->sides));
}

static void
correct_diagonals (GArray *corrections, const CavDryFit *dry_fit, const CavDryFitFrame *frame)
{
  double falling = dry_fit->diagonal_falling;
  double rising = dry_fit->diagonal_rising;
  double sine = (falling * falling - rising * rising)
                / (4.0 * frame->outside_width * frame->outside_height);

  if (frame->sides != 4 || !(falling > 0.0) || !(rising > 0.0)
      || fabs (falling - rising) < CAV_DRY_FIT_LENGTH)
    return;

  double lean = CAV_DEGREES (asin (CLAMP (fabs (sine), 0.0, 1.0)));
  CavCorrection correction
      = { .rails = CAV_RAILS_ALL, .turn = -lean / 2.0, .setting = 45.0 - lean / 2.0 };
  take_sentence (
      &correction,
      g_strdup_printf (
          falling > rising
              ? _ ("The frame leans by %s degrees: press it together along the diagonal from top "
                   "left to bottom right, which is %s mm longer. Where joints open then, the cuts "
                   "at its ends are %s degrees too far from square.")
              : _ ("The frame leans by %s degrees: press it together along the diagonal from "
                   "bottom left to top right, which is %s mm longer. Where joints open then, the "
                   "cuts at its ends are %s degrees too far from square."),
          CAV_NUMBER_TEXT ("%.2f", lean), CAV_NUMBER_TEXT ("%.1f", fabs (falling - rising)),
          CAV_NUMBER_TEXT ("%.2f", lean / 2.0)));
  g_array_append_val (corrections, correction);
}

static void
correct_corner (GArray *corrections, const CavDryFit *dry_fit, const CavDryFitFrame *frame)
{
  double gap = dry_fit->open_toe - dry_fit->open_heel;
  int n_cuts = dry_fit->last_corner ? 2 * frame->sides : 2;
  double turn = CAV_DEGREES (gap / cav_mitre_get_length (frame->molding, frame->sides)) / n_cuts;
  double setting = cav_mitre_get_angle (frame->sides) + turn;

  if (!isfinite (turn) || fabs (turn) < CAV_DRY_FIT_DEGREES)
    return;

  CavCorrection correction = { .rails = CAV_RAILS_ALL, .turn = turn, .setting = setting };
  take_sentence (
      &correction,
      g_strdup_printf (
          gap > 0.0 ? (dry_fit->last_corner
                           ? _ ("The last corner is open by %s mm at the toe (outside): every cut "
                                "is %s degrees too near to square. Set the saw %s degrees "
                                "further from square, and trim both ends of every rail.")
                           : _ ("The corner is open by %s mm at the toe (outside): every cut is "
                                "%s degrees too near to square. Set the saw %s degrees further "
                                "from square, and trim both ends of every rail."))
                    : (dry_fit->last_corner
                           ? _ ("The last corner is open by %s mm at the heel (sight edge): every "
                                "cut is %s degrees too far from square. Set the saw %s degrees "
                                "nearer to square, and trim both ends of every rail.")
                           : _ ("The corner is open by %s mm at the heel (sight edge): every cut "
                                "is %s degrees too far from square. Set the saw %s degrees "
                                "nearer to square, and trim both ends of every rail.")),
          CAV_NUMBER_TEXT ("%.2f", fabs (gap)), CAV_NUMBER_TEXT ("%.2f", fabs (turn)),
          CAV_NUMBER_TEXT ("%.2f", fabs (turn))));
  g_array_append_val (corrections, correction);
}

GArray *
cav_dry_fit_create_corrections (const CavDryFit *dry_fit, const CavDryFitFrame *frame)
{
  g_return_val_if_fail (dry_fit != NULL && frame != NULL, NULL);

  GArray *corrections = g_array_new (FALSE, FALSE, sizeof (CavCorrection));
  if (frame->sides < CAV_FRAME_SIDES_MIN || !(frame->outside_width > 0.0)
      || !(frame->outside_height > 0.0) || !(frame->molding > 0.0))
    return corrections;
  if (dry_fit->has_gaps)
    correct_gaps (corrections, dry_fit, frame);
  if (dry_fit->has_diagonals)
    correct_diagonals (corrections, dry_fit, frame);
  if (dry_fit->has_corner)
    correct_corner (corrections, dry_fit, frame);
  return corrections;
}
