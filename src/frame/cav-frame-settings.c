/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "frame/cav-frame-settings.h"

#include <math.h>
#include <string.h>

#include "frame/cav-frame-private.h"
#include "frame/cav-material.h"

G_DEFINE_QUARK (cav - frame - error - quark, cav_frame_error)

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
  LENGTH ("picture-width", "Picture width", picture_width, 5, LENGTH_MAX, 210),
  LENGTH ("picture-height", "Picture height", picture_height, 5, LENGTH_MAX, 297),
  LENGTH ("width", "Width", width, 5, LENGTH_MAX, 300),
  LENGTH ("height", "Height", height, 5, LENGTH_MAX, 400),
  LENGTH ("allowance", "Allowance", allowance, 0, 50, 3),
  LENGTH ("reveal-1", "Front mat's reveal", mats[0].reveal, 0, 500, 0),
  LENGTH ("thickness-1", "Front mat's thickness", mats[0].thickness, 0.1, SHEET_MAX, 1.5),
  LENGTH ("reveal-2", "Second mat's reveal", mats[1].reveal, 0, 500, 6),
  LENGTH ("thickness-2", "Second mat's thickness", mats[1].thickness, 0.1, SHEET_MAX, 1.5),
  LENGTH ("reveal-3", "Third mat's reveal", mats[2].reveal, 0, 500, 6),
  LENGTH ("thickness-3", "Third mat's thickness", mats[2].thickness, 0.1, SHEET_MAX, 1.5),
  LENGTH ("border-left", "Border left", border_left, 0, 2000, 60),
  LENGTH ("border-right", "Border right", border_right, 0, 2000, 60),
  LENGTH ("border-top", "Border top", border_top, 0, 2000, 60),
  LENGTH ("border-bottom", "Border bottom", border_bottom, 0, 2000, 68),
  LENGTH ("overlap", "Overlap", overlap, 0, 100, 5),
  LENGTH ("float-margin", "Margin of board", float_margin, 0, 1000, 15),
  LENGTH ("glazing-thickness", "Glazing thickness", glazing_thickness, 0.1, SHEET_MAX, 2),
  PLAIN ("glazing-density", "Glazing density", glazing_density, 1, 20000, CAV_DENSITY_GLASS),
  LENGTH ("spacer", "Spacer", spacer, 0, SHEET_MAX, 0),
  LENGTH ("picture-thickness", "Picture thickness", picture_thickness, 0, SHEET_MAX, 0.3),
  LENGTH ("backing-thickness", "Backing thickness", backing_thickness, 0.1, SHEET_MAX, 2.5),
  PLAIN ("backing-density", "Backing density", backing_density, 1, 20000, CAV_DENSITY_HARDBOARD),
  LENGTH ("point-room", "Room for points", point_room, 0, SHEET_MAX, 2),
  PLAIN ("shop-temperature", "Temperature in the shop", shop.temperature, -30, 60, 18),
  PLAIN ("shop-humidity", "Humidity in the shop", shop.humidity, 0, 100, 50),
  PLAIN ("dry-temperature", "Temperature, driest season", dry.temperature, -30, 60, 21),
  PLAIN ("dry-humidity", "Humidity, driest season", dry.humidity, 0, 100, 30),
  PLAIN ("damp-temperature", "Temperature, dampest season", damp.temperature, -30, 60, 22),
  PLAIN ("damp-humidity", "Humidity, dampest season", damp.humidity, 0, 100, 62),
  PLAIN ("saw-error", "Error of each mitre cut", saw_error, 0, 10, 0.1),
  LENGTH ("pair-error", "Difference of opposite rails", pair_error, 0, 100, 0.3),
  LENGTH ("safe-length", "Shortest strip to mill", safe_length, 0, 2000, 300),
  PLAIN ("wire-angle", "Angle of the wire", wire_angle, 0, 90, 30),
  PLAIN ("light-angle", "Direction of the light", light_angle, -360, 360, -45),
  PLAIN ("light-height", "Height of the light", light_height, 5, 90, 40),
  LENGTH ("gap-left", "Gap left", dry_fit.gap_left, -100, 100, 1.5),
  LENGTH ("gap-right", "Gap right", dry_fit.gap_right, -100, 100, 1.5),
  LENGTH ("gap-top", "Gap at the top", dry_fit.gap_top, -100, 100, 1.5),
  LENGTH ("gap-bottom", "Gap at the bottom", dry_fit.gap_bottom, -100, 100, 1.5),
  LENGTH (
      "diagonal-falling", "Diagonal from top left", dry_fit.diagonal_falling, 0, 2 * LENGTH_MAX, 0),
  LENGTH ("diagonal-rising",
          "Diagonal from bottom left",
          dry_fit.diagonal_rising,
          0,
          2 * LENGTH_MAX,
          0),
  LENGTH ("open-heel", "Open at the heel", dry_fit.open_heel, 0, 100, 0),
  LENGTH ("open-toe", "Open at the toe", dry_fit.open_toe, 0, 100, 0),
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
               "%s of the frame is %s; it has to be from %s to %s.", number->name,
               CAV_NUMBER_TEXT ("%g", value), CAV_NUMBER_TEXT ("%g", number->minimum),
               CAV_NUMBER_TEXT ("%g", number->maximum));
  return FALSE;
}

static gboolean
check_count (const char *name, int value, int minimum, int maximum, GError **error)
{
  if (value >= minimum && value <= maximum)
    return TRUE;
  g_set_error (error, CAV_FRAME_ERROR, CAV_FRAME_ERROR_RANGE,
               "The frame's number of %s is %d; it has to be from %d to %d.", name, value, minimum,
               maximum);
  return FALSE;
}

static gboolean
check_word (const char *name, const char *word, GError **error)
{
  if (word != NULL)
    return TRUE;
  g_set_error (error, CAV_FRAME_ERROR, CAV_FRAME_ERROR_RANGE,
               "The frame's %s is none that there is.", name);
  return FALSE;
}

gboolean
cav_frame_settings_check (const CavFrameSettings *settings, GError **error)
{
  g_return_val_if_fail (settings != NULL, FALSE);

  for (guint i = 0; i < G_N_ELEMENTS (numbers); i++)
    if (!check_number (settings, &numbers[i], error))
      return FALSE;
  return check_count ("sides", settings->sides, CAV_FRAME_SIDES_MIN, CAV_FRAME_SIDES_MAX, error)
         && check_count ("mats", settings->n_mats, 0, CAV_MATS_MAX, error)
         && check_count ("coats", settings->coats, 0, CAV_COATS_MAX, error)
         && check_count ("hangers", settings->hangers, 1, CAV_HANGERS_MAX, error)
         && check_word ("starting point", cav_frame_start_to_string (settings->start), error)
         && check_word ("glazing", cav_glazing_to_string (settings->glazing), error)
         && check_word ("backing", cav_backing_to_string (settings->backing), error)
         && check_word ("way of sawing", cav_sawn_to_string (settings->sawn), error)
         && check_word ("finish", cav_finish_to_string (settings->finish), error);
}
