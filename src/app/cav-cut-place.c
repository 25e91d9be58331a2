/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-cut-place.h"

#include "app/cav-cut-words.h"

GArray *
cav_cut_place_list (CavCutKind kind)
{
  guint anchors = cav_cut_kind_get_info (kind)->anchors;
  GArray *places = g_array_new (FALSE, FALSE, sizeof (CavCutPlace));

  for (int i = 0; i < CAV_N_CORNERS && (anchors & (1u << CAV_ANCHOR_CORNER)) != 0; i++)
    {
      CavCutPlace place = { .anchor = CAV_ANCHOR_CORNER, .corner = (CavCorner)i };

      g_array_append_val (places, place);
    }
  for (int i = 0; i < CAV_N_SIDES && (anchors & (1u << CAV_ANCHOR_SIDE)) != 0; i++)
    {
      CavCutPlace place = { .anchor = CAV_ANCHOR_SIDE, .side = (CavSide)i };

      g_array_append_val (places, place);
    }
  return places;
}

const char *
cav_cut_place_get_name (const CavCutPlace *place)
{
  g_return_val_if_fail (place != NULL, "");

  return place->anchor == CAV_ANCHOR_SIDE ? cav_cut_words_get_side (place->side)
                                          : cav_cut_words_get_corner (place->corner);
}

gboolean
cav_cut_place_is_of (const CavCutPlace *place, const CavCut *cut)
{
  g_return_val_if_fail (place != NULL && cut != NULL, FALSE);

  return place->anchor == cut->anchor
         && (cut->anchor == CAV_ANCHOR_SIDE ? place->side == cut->side
                                            : place->corner == cut->corner);
}

void
cav_cut_place_move (const CavCutPlace *place, CavCut *cut, const CavBlank *blank)
{
  gboolean level;
  double room;
  double *position;

  g_return_if_fail (place != NULL && cut != NULL && blank != NULL);

  level = place->side == CAV_SIDE_BACK || place->side == CAV_SIDE_FACE;
  room = level ? blank->width : blank->thickness;
  position = &cut->numbers[CAV_CUT_POSITION];
  cut->anchor = place->anchor;
  cut->corner = place->corner;
  cut->side = place->side;
  if (cav_cut_words_find_number (cut, CAV_CUT_POSITION) != NULL
      && !(*position > 0 && *position < room))
    *position = room / 2;
}
