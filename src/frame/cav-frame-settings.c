/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "frame/cav-frame-settings.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

#include "frame/cav-frame-private.h"
#include "frame/cav-material.h"
#include "geometry/cav-number-text.h"

/* clang-format off */
G_DEFINE_QUARK (cav-frame-error, cav_frame_error)
/* clang-format on */

/* No side of a frame is longer, and no part of it, than ten metres. */
#define LENGTH_MAX 10000.0
/* Sheets of a package are thinner than this. */
#define SHEET_MAX 100.0

#define LENGTH(name, label, field, minimum, maximum, usual)                                        \
  {                                                                                                \
    name, label, G_STRUCT_OFFSET (CavFrameSettings, field), TRUE, minimum, maximum, usual          \
  }
#define PLAIN(name, label, field, minimum, maximum, usual)                                         \
  {                                                                                                \
    name, label, G_STRUCT_OFFSET (CavFrameSettings, field), FALSE, minimum, maximum, usual         \
  }

/*
 * Usual values: an A4 sheet; 3 mm of allowance, 5 mm of overlap, 60 mm of border with the bottom
 * heavier, 4-ply board, 2 mm of room for points: common practice, no source. Air: 9 % moisture in
 * the shop, and 6 to 11 % over a year indoors (the span that the Wood Handbook, FPL-GTR-190, table
 * 13-2, gives for most of a continent is 6 to 11 from dry to damp coast). 300 mm as the shortest
 * strip: common practice, between the 10 and 12 in of the trade's magazines.
 */
static const CavFrameNumberInfo numbers[] = {
  LENGTH ("picture-width", N_ ("Picture width"), picture_width, 5, LENGTH_MAX, 210),
  LENGTH ("picture-height", N_ ("Picture height"), picture_height, 5, LENGTH_MAX, 297),
  LENGTH ("width", N_ ("Width"), width, 5, LENGTH_MAX, 300),
  LENGTH ("height", N_ ("Height"), height, 5, LENGTH_MAX, 400),
  LENGTH ("allowance", N_ ("Allowance"), allowance, 0, 50, 3),
  LENGTH ("reveal-1", N_ ("Front mat's reveal"), mats[0].reveal, 0, 500, 0),
  LENGTH ("thickness-1", N_ ("Front mat's thickness"), mats[0].thickness, 0.1, SHEET_MAX, 1.5),
  LENGTH ("reveal-2", N_ ("Second mat's reveal"), mats[1].reveal, 0, 500, 6),
  LENGTH ("thickness-2", N_ ("Second mat's thickness"), mats[1].thickness, 0.1, SHEET_MAX, 1.5),
  LENGTH ("reveal-3", N_ ("Third mat's reveal"), mats[2].reveal, 0, 500, 6),
  LENGTH ("thickness-3", N_ ("Third mat's thickness"), mats[2].thickness, 0.1, SHEET_MAX, 1.5),
  LENGTH ("border-left", N_ ("Border left"), border_left, 0, 2000, 60),
  LENGTH ("border-right", N_ ("Border right"), border_right, 0, 2000, 60),
  LENGTH ("border-top", N_ ("Border top"), border_top, 0, 2000, 60),
  LENGTH ("border-bottom", N_ ("Border bottom"), border_bottom, 0, 2000, 68),
  LENGTH ("overlap", N_ ("Overlap"), overlap, 0, 100, 5),
  LENGTH ("float-margin", N_ ("Margin of board"), float_margin, 0, 1000, 15),
  LENGTH ("glazing-thickness", N_ ("Glazing thickness"), glazing_thickness, 0.1, SHEET_MAX, 2),
  PLAIN ("glazing-density", N_ ("Glazing density"), glazing_density, 1, 20000, CAV_DENSITY_GLASS),
  LENGTH ("spacer", N_ ("Spacer"), spacer, 0, SHEET_MAX, 0),
  LENGTH ("picture-thickness", N_ ("Picture thickness"), picture_thickness, 0, SHEET_MAX, 0.3),
  LENGTH ("backing-thickness", N_ ("Backing thickness"), backing_thickness, 0.1, SHEET_MAX, 2.5),
  PLAIN (
      "backing-density", N_ ("Backing density"), backing_density, 1, 20000, CAV_DENSITY_HARDBOARD),
  LENGTH ("point-room", N_ ("Room for points"), point_room, 0, SHEET_MAX, 2),
  PLAIN ("shop-temperature", N_ ("Temperature in the shop"), shop.temperature, -30, 60, 18),
  PLAIN ("shop-humidity", N_ ("Humidity in the shop"), shop.humidity, 0, 100, 50),
  PLAIN ("dry-temperature", N_ ("Temperature, driest season"), dry.temperature, -30, 60, 21),
  PLAIN ("dry-humidity", N_ ("Humidity, driest season"), dry.humidity, 0, 100, 30),
  PLAIN ("damp-temperature", N_ ("Temperature, dampest season"), damp.temperature, -30, 60, 22),
  PLAIN ("damp-humidity", N_ ("Humidity, dampest season"), damp.humidity, 0, 100, 62),
  PLAIN ("saw-error", N_ ("Error of each mitre cut"), saw_error, 0, 10, 0.1),
  LENGTH ("pair-error", N_ ("Difference of opposite rails"), pair_error, 0, 100, 0.3),
  LENGTH ("safe-length", N_ ("Shortest strip to mill"), safe_length, 0, 2000, 300),
  PLAIN ("wire-angle", N_ ("Angle of the wire"), wire_angle, 0, 90, 30),
  PLAIN ("light-angle", N_ ("Direction of the light"), light_angle, -360, 360, -45),
  PLAIN ("light-height", N_ ("Height of the light"), light_height, 5, 90, 40),
  LENGTH ("gap-left", N_ ("Gap left"), dry_fit.gap_left, -100, 100, 1.5),
  LENGTH ("gap-right", N_ ("Gap right"), dry_fit.gap_right, -100, 100, 1.5),
  LENGTH ("gap-top", N_ ("Gap at the top"), dry_fit.gap_top, -100, 100, 1.5),
  LENGTH ("gap-bottom", N_ ("Gap at the bottom"), dry_fit.gap_bottom, -100, 100, 1.5),
  LENGTH ("diagonal-falling",
          N_ ("Diagonal from top left"),
          dry_fit.diagonal_falling,
          0,
          2 * LENGTH_MAX,
          0),
  LENGTH ("diagonal-rising",
          N_ ("Diagonal from bottom left"),
          dry_fit.diagonal_rising,
          0,
          2 * LENGTH_MAX,
          0),
  LENGTH ("open-heel", N_ ("Open at the heel"), dry_fit.open_heel, 0, 100, 0),
  LENGTH ("open-toe", N_ ("Open at the toe"), dry_fit.open_toe, 0, 100, 0),
};

const CavFrameNumberInfo *
cav_frame_settings_get_numbers (guint *out_n_numbers)
{
  g_return_val_if_fail (out_n_numbers != NULL, NULL);
  *out_n_numbers = G_N_ELEMENTS (numbers);
  return numbers;
}

double
cav_frame_settings_get_number (const CavFrameSettings *settings, const CavFrameNumberInfo *number)
{
  g_return_val_if_fail (settings != NULL && number != NULL, 0.0);
  return G_STRUCT_MEMBER (double, settings, number->offset);
}

void
cav_frame_settings_set_number (CavFrameSettings *settings,
                               const CavFrameNumberInfo *number,
                               double value)
{
  g_return_if_fail (settings != NULL && number != NULL);
  G_STRUCT_MEMBER (double, settings, number->offset) = value;
}

void
cav_frame_settings_init_usual (CavFrameSettings *settings)
{
  g_return_if_fail (settings != NULL);

  *settings = (CavFrameSettings){
    .start = CAV_FRAME_START_PICTURE,
    .sides = 4,
    .n_mats = 1,
    .mats = { { .colour = 0xf2eee3 }, { .colour = 0x6f7f6a }, { .colour = 0x3c4a40 } },
    .bevelled = TRUE,
    .float_colour = 0xf4f1e8,
    .glazing = CAV_GLAZING_GLASS,
    .backing = CAV_BACKING_HARDBOARD,
    .sawn = CAV_SAWN_FLAT,
    .finish = CAV_FINISH_OIL,
    .coats = 2,
    .hangers = 2,
    .wire = TRUE,
    .wall_colour = 0xd9d6cc,
  };
  for (guint i = 0; i < G_N_ELEMENTS (numbers); i++)
    cav_frame_settings_set_number (settings, &numbers[i], numbers[i].usual);
}

CavFrameSettings *
cav_frame_settings_new (void)
{
  CavFrameSettings *settings = g_new0 (CavFrameSettings, 1);

  cav_frame_settings_init_usual (settings);
  return settings;
}

CavFrameSettings *
cav_frame_settings_copy (const CavFrameSettings *settings)
{
  g_return_val_if_fail (settings != NULL, NULL);

  CavFrameSettings *copy = g_memdup2 (settings, sizeof *settings);
  copy->picture_file = g_strdup (settings->picture_file);
  return copy;
}

void
cav_frame_settings_clear (CavFrameSettings *settings)
{
  if (settings != NULL)
    g_clear_pointer (&settings->picture_file, g_free);
}

void
cav_frame_settings_free (CavFrameSettings *settings)
{
  cav_frame_settings_clear (settings);
  g_free (settings);
}

void
cav_frame_settings_set_picture_file (CavFrameSettings *settings, const char *path)
{
  g_return_if_fail (settings != NULL);

  char *copy = g_strdup (path);
  g_free (settings->picture_file);
  settings->picture_file = copy;
}

/* Bits, not values: 0 and -0 differ in a file, and what is no number equals itself. */
static gboolean
numbers_equal (const CavFrameSettings *a, const CavFrameSettings *b)
{
  for (guint i = 0; i < G_N_ELEMENTS (numbers); i++)
    {
      double first = cav_frame_settings_get_number (a, &numbers[i]);
      double second = cav_frame_settings_get_number (b, &numbers[i]);

      if (memcmp (&first, &second, sizeof first) != 0)
        return FALSE;
    }
  return TRUE;
}

static gboolean
looks_equal (const CavFrameSettings *a, const CavFrameSettings *b)
{
  for (guint i = 0; i < CAV_MATS_MAX; i++)
    if (a->mats[i].colour != b->mats[i].colour)
      return FALSE;
  return a->float_colour == b->float_colour && a->wall_colour == b->wall_colour
         && !a->reflection == !b->reflection && a->finish == b->finish && a->coats == b->coats
         && g_strcmp0 (a->picture_file, b->picture_file) == 0;
}

static gboolean
dry_fits_equal (const CavDryFit *a, const CavDryFit *b)
{
  return !a->has_gaps == !b->has_gaps && !a->has_diagonals == !b->has_diagonals
         && !a->has_corner == !b->has_corner && !a->last_corner == !b->last_corner;
}

gboolean
cav_frame_settings_equal (const CavFrameSettings *a, const CavFrameSettings *b)
{
  g_return_val_if_fail (a != NULL && b != NULL, FALSE);

  return a->start == b->start && a->sides == b->sides && a->n_mats == b->n_mats
         && !a->bevelled == !b->bevelled && !a->floated == !b->floated && a->glazing == b->glazing
         && a->backing == b->backing && !a->stands_out == !b->stands_out && a->sawn == b->sawn
         && a->hangers == b->hangers && !a->wire == !b->wire && looks_equal (a, b)
         && dry_fits_equal (&a->dry_fit, &b->dry_fit) && numbers_equal (a, b);
}

static gboolean
check_number (const CavFrameSettings *settings, const CavFrameNumberInfo *number, GError **error)
{
  double value = cav_frame_settings_get_number (settings, number);

  if (isfinite (value) && value >= number->minimum && value <= number->maximum)
    return TRUE;
  g_set_error (error, CAV_FRAME_ERROR, CAV_FRAME_ERROR_RANGE,
               _ ("“%s” of the frame is %s; it has to be from %s to %s."), _ (number->label),
               CAV_NUMBER_TEXT ("%g", value), CAV_NUMBER_TEXT ("%g", number->minimum),
               CAV_NUMBER_TEXT ("%g", number->maximum));
  return FALSE;
}

static gboolean G_GNUC_PRINTF (2, 3) fail (GError **error, const char *sentence, ...)
{
  va_list arguments;

  va_start (arguments, sentence);
  g_propagate_error (
      error, g_error_new_valist (CAV_FRAME_ERROR, CAV_FRAME_ERROR_RANGE, sentence, arguments));
  va_end (arguments);
  return FALSE;
}

/* A sentence with the count and its limits. */
#define CHECK_COUNT(value, minimum, maximum, sentence)                                             \
  (((value) >= (minimum) && (value) <= (maximum))                                                  \
   || fail (error, sentence, value, minimum, maximum))
#define CHECK_WORD(word, sentence) ((word) != NULL || fail (error, "%s", sentence))

gboolean
cav_frame_settings_check (const CavFrameSettings *settings, GError **error)
{
  g_return_val_if_fail (settings != NULL, FALSE);

  for (guint i = 0; i < G_N_ELEMENTS (numbers); i++)
    if (!check_number (settings, &numbers[i], error))
      return FALSE;
  return CHECK_COUNT (settings->sides, CAV_FRAME_SIDES_MIN, CAV_FRAME_SIDES_MAX,
                      _ ("The frame's number of sides is %d; it has to be from %d to %d."))
         && CHECK_COUNT (settings->n_mats, 0, CAV_MATS_MAX,
                         _ ("The frame's number of mats is %d; it has to be from %d to %d."))
         && CHECK_COUNT (settings->coats, 0, CAV_COATS_MAX,
                         _ ("The frame's number of coats is %d; it has to be from %d to %d."))
         && CHECK_COUNT (settings->hangers, 1, CAV_HANGERS_MAX,
                         _ ("The frame's number of hangers is %d; it has to be from %d to %d."))
         && CHECK_WORD (cav_frame_start_to_string (settings->start),
                        _ ("The frame's starting point is none that there is."))
         && CHECK_WORD (cav_glazing_to_string (settings->glazing),
                        _ ("The frame's glazing is none that there is."))
         && CHECK_WORD (cav_backing_to_string (settings->backing),
                        _ ("The frame's backing is none that there is."))
         && CHECK_WORD (cav_sawn_to_string (settings->sawn),
                        _ ("The frame's way of sawing is none that there is."))
         && CHECK_WORD (cav_finish_to_string (settings->finish),
                        _ ("The frame's finish is none that there is."));
}
