/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "profile/cav-cut.h"

#include "geometry/cav-same.h"

/* clang-format off */
G_DEFINE_QUARK (cav-profile-error, cav_profile_error)
/* clang-format on */

static CavCut *
new_usual (CavCutKind kind, CavAnchorKind anchor)
{
  const CavCutInfo *info = cav_cut_kind_get_info (kind);
  CavCut *cut = g_new0 (CavCut, 1);

  cut->kind = kind;
  cut->anchor = anchor;
  cut->form = info->forms[0];
  for (guint i = 0; i < info->n_numbers; i++)
    cut->numbers[info->numbers[i].number] = info->numbers[i].usual;
  return cut;
}

CavCut *
cav_cut_new (CavCutKind kind)
{
  g_return_val_if_fail ((guint)kind < CAV_N_CUT_KINDS, NULL);

  guint anchors = cav_cut_kind_get_info (kind)->anchors;
  if (anchors & (1u << CAV_ANCHOR_CORNER))
    return cav_cut_new_at_corner (kind, CAV_CORNER_BACK_INSIDE);
  if (anchors & (1u << CAV_ANCHOR_SIDE))
    return cav_cut_new_on_side (kind, CAV_SIDE_FACE);
  return new_usual (kind, CAV_ANCHOR_FREE);
}

CavCut *
cav_cut_new_at_corner (CavCutKind kind, CavCorner corner)
{
  g_return_val_if_fail ((guint)kind < CAV_N_CUT_KINDS, NULL);
  g_return_val_if_fail ((guint)corner < CAV_N_CORNERS, NULL);

  CavCut *cut = new_usual (kind, CAV_ANCHOR_CORNER);
  cut->corner = corner;
  return cut;
}

CavCut *
cav_cut_new_on_side (CavCutKind kind, CavSide side)
{
  g_return_val_if_fail ((guint)kind < CAV_N_CUT_KINDS, NULL);
  g_return_val_if_fail ((guint)side < CAV_N_SIDES, NULL);

  CavCut *cut = new_usual (kind, CAV_ANCHOR_SIDE);
  cut->side = side;
  return cut;
}

CavCut *
cav_cut_new_drawn (const CavPath *path)
{
  g_return_val_if_fail (path != NULL, NULL);

  CavCut *cut = new_usual (CAV_CUT_DRAWN, CAV_ANCHOR_FREE);
  cut->path = cav_path_copy (path);
  return cut;
}

CavCut *
cav_cut_copy (const CavCut *cut)
{
  g_return_val_if_fail (cut != NULL, NULL);

  CavCut *copy = g_memdup2 (cut, sizeof *cut);
  if (cut->path != NULL)
    copy->path = cav_path_copy (cut->path);
  return copy;
}

void
cav_cut_free (CavCut *cut)
{
  if (cut == NULL)
    return;
  g_clear_pointer (&cut->path, cav_path_free);
  g_free (cut);
}

static gboolean
segments_equal (const CavSegment *a, const CavSegment *b)
{
  if (a->kind != b->kind || !cav_same (a->from.x, b->from.x) || !cav_same (a->from.y, b->from.y)
      || !cav_same (a->to.x, b->to.x) || !cav_same (a->to.y, b->to.y))
    return FALSE;
  if (a->kind == CAV_SEGMENT_LINE)
    return TRUE;
  return cav_same (a->centre.x, b->centre.x) && cav_same (a->centre.y, b->centre.y)
         && cav_same (a->rx, b->rx) && cav_same (a->ry, b->ry)
         && cav_same (a->rotation, b->rotation) && cav_same (a->start, b->start)
         && cav_same (a->sweep, b->sweep);
}

static gboolean
paths_equal (const CavPath *a, const CavPath *b)
{
  if (a == NULL || b == NULL)
    return a == b;
  guint n = cav_path_get_segment_count (a);
  if (n != cav_path_get_segment_count (b) || cav_path_is_closed (a) != cav_path_is_closed (b))
    return FALSE;
  for (guint i = 0; i < n; i++)
    if (!segments_equal (cav_path_get_segment (a, i), cav_path_get_segment (b, i)))
      return FALSE;
  return TRUE;
}

/* The corner counts only at a corner, the side only on a side. */
gboolean
cav_cut_equal (const CavCut *a, const CavCut *b)
{
  g_return_val_if_fail (a != NULL, FALSE);
  g_return_val_if_fail (b != NULL, FALSE);

  if (a->kind != b->kind || a->anchor != b->anchor || a->form != b->form)
    return FALSE;
  if (a->anchor == CAV_ANCHOR_CORNER && a->corner != b->corner)
    return FALSE;
  if (a->anchor == CAV_ANCHOR_SIDE && a->side != b->side)
    return FALSE;
  for (int i = 0; i < CAV_N_CUT_NUMBERS; i++)
    if (!cav_same (a->numbers[i], b->numbers[i]))
      return FALSE;
  return paths_equal (a->path, b->path);
}
