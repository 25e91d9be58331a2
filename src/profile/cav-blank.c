/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "profile/cav-blank.h"

#include "geometry/cav-number-text.h"
#include "profile/cav-cut.h"
#include "profile/cav-profile-private.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

static const char *const side_names[CAV_N_SIDES]
    = { NC_ ("side in a sentence", "back"), NC_ ("side in a sentence", "face"),
        NC_ ("side in a sentence", "inside"), NC_ ("side in a sentence", "outside") };
static const char *const corner_names[CAV_N_CORNERS]
    = { "back-inside", "back-outside", "face-inside", "face-outside" };

/* Index of string among names, or -1. */
static int
find_name (const char *const *names, int n_names, const char *string)
{
  for (int i = 0; string != NULL && i < n_names; i++)
    if (strcmp (names[i], string) == 0)
      return i;
  return -1;
}

const char *
cav_side_to_string (CavSide side)
{
  g_return_val_if_fail ((guint)side < CAV_N_SIDES, NULL);
  return side_names[side];
}

const char *
cav_side_get_word (CavSide side)
{
  g_return_val_if_fail ((guint)side < CAV_N_SIDES, NULL);
  return g_dpgettext2 (GETTEXT_PACKAGE, "side in a sentence", side_names[side]);
}

gboolean
cav_side_from_string (const char *string, CavSide *out_side)
{
  g_return_val_if_fail (out_side != NULL, FALSE);

  int found = find_name (side_names, CAV_N_SIDES, string);
  if (found >= 0)
    *out_side = (CavSide)found;
  return found >= 0;
}

const char *
cav_corner_to_string (CavCorner corner)
{
  g_return_val_if_fail ((guint)corner < CAV_N_CORNERS, NULL);
  return corner_names[corner];
}

const char *
cav_corner_get_word (CavCorner corner)
{
  switch (corner)
    {
    case CAV_CORNER_BACK_INSIDE:
      return C_ ("corner in a sentence", "back inside");
    case CAV_CORNER_BACK_OUTSIDE:
      return C_ ("corner in a sentence", "back outside");
    case CAV_CORNER_FACE_INSIDE:
      return C_ ("corner in a sentence", "face inside");
    case CAV_CORNER_FACE_OUTSIDE:
      return C_ ("corner in a sentence", "face outside");
    }
  g_return_val_if_reached (NULL);
}

gboolean
cav_corner_from_string (const char *string, CavCorner *out_corner)
{
  g_return_val_if_fail (out_corner != NULL, FALSE);

  int found = find_name (corner_names, CAV_N_CORNERS, string);
  if (found >= 0)
    *out_corner = (CavCorner)found;
  return found >= 0;
}

static gboolean
check_size (gboolean is_width, double size, GError **error)
{
  if (isfinite (size) && size >= CAV_BLANK_MIN && size <= CAV_BLANK_MAX)
    return TRUE;
  g_set_error (error, CAV_PROFILE_ERROR, CAV_PROFILE_ERROR_RANGE,
               is_width
                   ? _ ("The width of the blank is %s mm: enter a value from %s mm to %s mm.")
                   : _ ("The thickness of the blank is %s mm: enter a value from %s mm to %s mm."),
               CAV_NUMBER_TEXT ("%g", size), CAV_NUMBER_TEXT ("%g", CAV_BLANK_MIN),
               CAV_NUMBER_TEXT ("%g", CAV_BLANK_MAX));
  return FALSE;
}

gboolean
cav_blank_check (const CavBlank *blank, GError **error)
{
  g_return_val_if_fail (blank != NULL, FALSE);
  return check_size (TRUE, blank->width, error) && check_size (FALSE, blank->thickness, error);
}

CavRegion *
cav_blank_create_region (const CavBlank *blank)
{
  g_return_val_if_fail (blank != NULL, NULL);

  if (!cav_blank_check (blank, NULL))
    return cav_region_new_empty ();
  return cav_region_new_box (0.0, 0.0, blank->width, blank->thickness);
}
