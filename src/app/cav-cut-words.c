/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-cut-words.h"

#include <glib/gi18n.h>

const char *
cav_cut_words_get_kind (CavCutKind kind)
{
  return g_dpgettext2 (NULL, "cut", cav_cut_kind_get_info (kind)->label);
}

const char *
cav_cut_words_get_corner (CavCorner corner)
{
  switch (corner)
    {
    case CAV_CORNER_BACK_INSIDE:
      return _ ("Back and inside");
    case CAV_CORNER_BACK_OUTSIDE:
      return _ ("Back and outside");
    case CAV_CORNER_FACE_INSIDE:
      return _ ("Face and inside");
    case CAV_CORNER_FACE_OUTSIDE:
      return _ ("Face and outside");
    }
  g_return_val_if_reached ("");
}

const char *
cav_cut_words_get_side (CavSide side)
{
  switch (side)
    {
    case CAV_SIDE_BACK:
      return C_ ("side", "Back");
    case CAV_SIDE_FACE:
      return C_ ("side", "Face");
    case CAV_SIDE_INSIDE:
      return C_ ("side", "Inside");
    case CAV_SIDE_OUTSIDE:
      return C_ ("side", "Outside");
    }
  g_return_val_if_reached ("");
}

const char *
cav_cut_words_get_form (CavCutForm form)
{
  switch (form)
    {
    case CAV_FORM_PLAIN:
      return C_ ("form of a cut", "Plain");
    case CAV_FORM_FLAT:
      return C_ ("form of a cut", "Flat bottom");
    case CAV_FORM_ROUND:
      return C_ ("form of a cut", "Round bottom");
    case CAV_FORM_FLUSH:
      return C_ ("form of a cut", "Flush");
    case CAV_FORM_PROUD:
      return C_ ("form of a cut", "Standing proud");
    case CAV_FORM_RECTA:
      return C_ ("form of a cut", "Hollow above");
    case CAV_FORM_REVERSA:
      return C_ ("form of a cut", "Round above");
    }
  g_return_val_if_reached ("");
}

static gboolean
is_level (CavSide side)
{
  return side == CAV_SIDE_BACK || side == CAV_SIDE_FACE;
}

const char *
cav_cut_words_get_number (const CavCut *cut, const CavCutNumberInfo *number)
{
  gboolean level;

  g_return_val_if_fail (cut != NULL && number != NULL, "");

  level = is_level (cut->side);
  switch (number->number)
    {
    case CAV_CUT_POSITION:
      return level ? _ ("Middle from inside") : _ ("Middle from back");
    case CAV_CUT_START_HEIGHT:
      return level ? _ ("Off at the inside") : _ ("Off at the back");
    case CAV_CUT_END_HEIGHT:
      return level ? _ ("Off at the outside") : _ ("Off at the face");
    case CAV_CUT_SHIFT_X:
      return _ ("Shift across the width");
    case CAV_CUT_SHIFT_Y:
      return _ ("Shift in thickness");
    case CAV_CUT_WIDTH:
    case CAV_CUT_DEPTH:
    case CAV_CUT_COUNT:
    case CAV_CUT_RUN:
    case CAV_CUT_RISE:
    case CAV_CUT_QUIRK_WIDTH:
    case CAV_CUT_QUIRK_DEPTH:
    case CAV_CUT_SHARE:
      break;
    }
  return g_dpgettext2 (NULL, "number of a cut", number->label);
}

gboolean
cav_cut_words_has_number (const CavCut *cut, CavCutNumber number)
{
  g_return_val_if_fail (cut != NULL, FALSE);

  return number != CAV_CUT_POSITION || cut->anchor == CAV_ANCHOR_SIDE;
}

const CavCutNumberInfo *
cav_cut_words_find_number (const CavCut *cut, CavCutNumber number)
{
  const CavCutInfo *info;

  g_return_val_if_fail (cut != NULL, NULL);

  info = cav_cut_kind_get_info (cut->kind);
  if (!cav_cut_words_has_number (cut, number))
    return NULL;
  for (guint i = 0; i < info->n_numbers; i++)
    if (info->numbers[i].number == number)
      return &info->numbers[i];
  return NULL;
}
