/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "project/cav-arrange.h"

#include <math.h>

#include "milling/cav-placement.h"
#include "project/cav-place-private.h"

gboolean
cav_arrange_get_bounds (const GPtrArray *cuts, const CavBlank *blank, CavBox *out_bounds)
{
  gboolean found = FALSE;

  g_return_val_if_fail (cuts != NULL, FALSE);
  g_return_val_if_fail (blank != NULL, FALSE);
  g_return_val_if_fail (out_bounds != NULL, FALSE);

  for (guint i = 0; i < cuts->len; i++)
    {
      g_autoptr (CavRegion) region
          = cav_cut_create_region (g_ptr_array_index (cuts, i), blank, NULL);

      if (region == NULL || cav_region_is_empty (region))
        continue;
      CavBox box = cav_region_get_bounds (region);
      if (found)
        box = (CavBox){
          fmin (box.x0, out_bounds->x0),
          fmin (box.y0, out_bounds->y0),
          fmax (box.x1, out_bounds->x1),
          fmax (box.y1, out_bounds->y1),
        };
      *out_bounds = box;
      found = TRUE;
    }
  return found;
}

static GPtrArray *
new_cuts (guint n)
{
  return g_ptr_array_new_full (n, (GDestroyNotify)cav_cut_free);
}

/* The heights go up or down together; neither below 0 nor the bevel away. */
static void
sink_bevel (CavCut *cut, double into)
{
  double *start = &cut->numbers[CAV_CUT_START_HEIGHT];
  double *end = &cut->numbers[CAV_CUT_END_HEIGHT];
  double least = fmin (*start, *end);
  double most = fmax (*start, *end);

  into = CLAMP (into, -least, fmax (CAV_BLANK_MAX - most, 0.0));
  /* A level bevel that comes up to its side keeps a little. */
  if (*start + *end + 2.0 * into < CAV_LEAST_BEVEL)
    return;
  *start += into;
  *end += into;
}

static void
add_to_number (CavCut *cut, CavCutNumber number, double change)
{
  cut->numbers[number] = CLAMP (cut->numbers[number] + change, -CAV_BLANK_MAX, CAV_BLANK_MAX);
}

static void
move_on_side (CavCut *cut, double dx, double dy)
{
  double along = cav_side_is_level (cut->side) ? dx : dy;
  double across = cav_side_is_level (cut->side) ? dy : dx;
  double into = cut->side == CAV_SIDE_FACE || cut->side == CAV_SIDE_OUTSIDE ? -across : across;

  if (cut->kind == CAV_CUT_BEVEL)
    {
      sink_bevel (cut, into);
      return;
    }
  if (fabs (along) > 0.0)
    cav_cut_set_along (cut, CLAMP (cav_cut_get_along (cut) + along, -CAV_BLANK_MAX, CAV_BLANK_MAX));
  add_to_number (cut, cav_cut_get_sink_number (cut), into);
}

/* (transfer full) */
static CavCut *
new_moved (const CavCut *cut, double dx, double dy)
{
  CavCut *moved = cav_cut_copy (cut);

  switch (cut->anchor)
    {
    case CAV_ANCHOR_CORNER:
      add_to_number (moved, CAV_CUT_SHIFT_X, cav_corner_is_outside (cut->corner) ? -dx : dx);
      add_to_number (moved, CAV_CUT_SHIFT_Y, cav_corner_is_face (cut->corner) ? -dy : dy);
      break;
    case CAV_ANCHOR_SIDE:
      move_on_side (moved, dx, dy);
      break;
    case CAV_ANCHOR_FREE:
      cav_cut_transform_path (moved, cav_transform_translation (dx, dy));
      break;
    }
  return moved;
}

GPtrArray *
cav_arrange_move (const GPtrArray *cuts, const CavBlank *blank, double dx, double dy)
{
  GPtrArray *moved;

  g_return_val_if_fail (cuts != NULL, NULL);
  g_return_val_if_fail (blank != NULL, NULL);
  g_return_val_if_fail (isfinite (dx) && isfinite (dy), NULL);

  moved = new_cuts (cuts->len);
  for (guint i = 0; i < cuts->len; i++)
    g_ptr_array_add (moved, new_moved (g_ptr_array_index (cuts, i), dx, dy));
  return moved;
}

static void
swap (double *a, double *b)
{
  double kept = *a;

  *a = *b;
  *b = kept;
}

/* Runs along the side that is mirrored: what was so far from the low end is so far from the high
 * end now. */
static void
mirror_along (CavCut *cut, double length)
{
  if (cut->kind == CAV_CUT_BEVEL)
    swap (&cut->numbers[CAV_CUT_START_HEIGHT], &cut->numbers[CAV_CUT_END_HEIGHT]);
  else
    cav_cut_set_along (cut, length - cav_cut_get_along (cut));
}

/* (transfer full) */
static CavCut *
new_mirrored (const CavCut *cut, const CavBlank *blank, CavMirror mirror)
{
  CavCut *mirrored = cav_cut_copy (cut);
  gboolean across = mirror == CAV_MIRROR_ACROSS;

  switch (cut->anchor)
    {
    case CAV_ANCHOR_CORNER:
      mirrored->corner = cav_corner_from_ends (cav_corner_is_outside (cut->corner) != across,
                                               cav_corner_is_face (cut->corner) == across);
      break;
    case CAV_ANCHOR_SIDE:
      if (cav_side_is_level (cut->side) == across)
        mirror_along (mirrored, across ? blank->width : blank->thickness);
      else
        mirrored->side = cav_side_get_opposite (cut->side);
      break;
    case CAV_ANCHOR_FREE:
      cav_cut_transform_path (
          mirrored, across ? (CavTransform){ -1.0, 0.0, blank->width, 0.0, 1.0, 0.0 }
                           : (CavTransform){ 1.0, 0.0, 0.0, 0.0, -1.0, blank->thickness });
      break;
    }
  return mirrored;
}

GPtrArray *
cav_arrange_mirror (const GPtrArray *cuts, const CavBlank *blank, CavMirror mirror)
{
  GPtrArray *mirrored;

  g_return_val_if_fail (cuts != NULL, NULL);
  g_return_val_if_fail (blank != NULL, NULL);

  mirrored = new_cuts (cuts->len);
  for (guint i = 0; i < cuts->len; i++)
    g_ptr_array_add (mirrored, new_mirrored (g_ptr_array_index (cuts, i), blank, mirror));
  return mirrored;
}

/* A bevel goes over its whole side, so that it has no place beside it. */
GPtrArray *
cav_arrange_duplicate (const GPtrArray *cuts, const CavBlank *blank, double step)
{
  CavBox box;
  double dx = step;
  double dy = step;

  g_return_val_if_fail (cuts != NULL, NULL);
  g_return_val_if_fail (blank != NULL, NULL);
  g_return_val_if_fail (isfinite (step), NULL);

  if (cav_arrange_get_bounds (cuts, blank, &box))
    {
      if (box.x0 + box.x1 > blank->width)
        dx = -step;
      if (box.y0 + box.y1 > blank->thickness)
        dy = -step;
    }
  /* What stands on a side goes along it, and not under the wood. */
  for (guint i = 0; i < cuts->len; i++)
    {
      const CavCut *cut = g_ptr_array_index (cuts, i);

      if (cut->anchor != CAV_ANCHOR_SIDE || cut->kind == CAV_CUT_BEVEL)
        continue;
      if (cav_side_is_level (cut->side))
        dy = 0.0;
      else
        dx = 0.0;
    }
  return cav_arrange_move (cuts, blank, dx, dy);
}

static CavPoint
get_way (CavBox from, CavBox to, CavAlignment align)
{
  switch (align)
    {
    case CAV_ALIGN_INSIDE:
      return CAV_POINT (to.x0 - from.x0, 0.0);
    case CAV_ALIGN_OUTSIDE:
      return CAV_POINT (to.x1 - from.x1, 0.0);
    case CAV_ALIGN_BACK:
      return CAV_POINT (0.0, to.y0 - from.y0);
    case CAV_ALIGN_FACE:
      return CAV_POINT (0.0, to.y1 - from.y1);
    case CAV_ALIGN_MIDDLE_X:
      return CAV_POINT ((to.x0 + to.x1 - from.x0 - from.x1) / 2.0, 0.0);
    case CAV_ALIGN_MIDDLE_Y:
      return CAV_POINT (0.0, (to.y0 + to.y1 - from.y0 - from.y1) / 2.0);
    }
  g_return_val_if_reached (CAV_POINT (0.0, 0.0));
}

/* (transfer full) */
static CavCut *
new_aligned (const CavCut *cut, const CavBlank *blank, CavBox to, CavAlignment align)
{
  g_autoptr (CavRegion) region = cav_cut_create_region (cut, blank, NULL);

  if (region == NULL || cav_region_is_empty (region))
    return cav_cut_copy (cut);
  CavPoint way = get_way (cav_region_get_bounds (region), to, align);
  return new_moved (cut, way.x, way.y);
}

GPtrArray *
cav_arrange_align (const GPtrArray *cuts, const CavBlank *blank, CavAlignment align)
{
  GPtrArray *aligned;
  CavBox to;

  g_return_val_if_fail (cuts != NULL, NULL);
  g_return_val_if_fail (blank != NULL, NULL);

  if (cuts->len < 2 || !cav_arrange_get_bounds (cuts, blank, &to))
    to = (CavBox){ 0.0, 0.0, blank->width, blank->thickness };
  aligned = new_cuts (cuts->len);
  for (guint i = 0; i < cuts->len; i++)
    g_ptr_array_add (aligned, new_aligned (g_ptr_array_index (cuts, i), blank, to, align));
  return aligned;
}
