/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "project/cav-handle.h"

#include <math.h>

#include "project/cav-handle-private.h"
#include "project/cav-path-edit.h"
#include "project/cav-place-private.h"

/* Least depth of a quirk that is set by hand: 0 would mean something else. */
#define LEAST_QUIRK 0.1

/* The range of a number under a hand. A cut is not pulled out over the edge that it stands on,
 * unless it stands there already. */
static void
get_range (const CavCut *cut, CavCutNumber number, double *out_least, double *out_most)
{
  const CavCutInfo *info = cav_cut_kind_get_info (cut->kind);

  *out_least = *out_most = cut->numbers[number];
  for (guint i = 0; i < info->n_numbers; i++)
    if (info->numbers[i].number == number)
      {
        *out_least = info->numbers[i].minimum;
        *out_most = info->numbers[i].maximum;
      }
  if (number == CAV_CUT_SHIFT_X || number == CAV_CUT_SHIFT_Y)
    *out_least = fmin (0.0, cut->numbers[number]);
  if (number == CAV_CUT_QUIRK_DEPTH)
    *out_least = LEAST_QUIRK;
}

static void
set_number (CavCut *cut, const CavCut *before, CavCutNumber number, double value)
{
  double least, most;

  get_range (before, number, &least, &most);
  value = CLAMP (value, least, most);
  cut->numbers[number] = number == CAV_CUT_COUNT ? round (value) : value;
}

/* A bevel that takes nothing off is none: the end that was moved keeps a little. */
static void
keep_bevel (CavCut *cut, CavCutNumber moved)
{
  double *n = cut->numbers;

  if (cut->kind == CAV_CUT_BEVEL
      && n[CAV_CUT_START_HEIGHT] + n[CAV_CUT_END_HEIGHT] < CAV_LEAST_BEVEL)
    n[moved] = CAV_LEAST_BEVEL;
}

/* So far the handle can go along its direction without a number leaving its range. */
static double
limit_way (const CavCut *cut, const CavHandle *handle, double way)
{
  for (guint i = 0; i < handle->n_numbers; i++)
    {
      double value = cav_handle_get_value (cut, handle->numbers[i]);
      double least, most;

      get_range (cut, handle->numbers[i], &least, &most);
      double low = (fmin (least, value) - value) / handle->rate[i];
      double high = (fmax (most, value) - value) / handle->rate[i];
      way = CLAMP (way, fmin (low, high), fmax (low, high));
    }
  return way;
}

static void
drag_along (CavCut *result, const CavCut *cut, const CavHandle *handle, double way)
{
  way = limit_way (cut, handle, way);
  for (guint i = 0; i < handle->n_numbers; i++)
    set_number (result, cut, handle->numbers[i],
                cav_handle_get_value (cut, handle->numbers[i]) + handle->rate[i] * way);
  if (handle->n_numbers > 0)
    keep_bevel (result, handle->numbers[0]);
}

static void
drag_freely (CavCut *result, const CavCut *cut, const CavHandle *handle, double dx, double dy)
{
  if (handle->n_numbers != 2)
    return;
  set_number (result, cut, handle->numbers[0],
              cav_handle_get_value (cut, handle->numbers[0]) + handle->rate[0] * dx);
  set_number (result, cut, handle->numbers[1],
              cav_handle_get_value (cut, handle->numbers[1]) + handle->rate[1] * dy);
}

/* How far a cut at a corner reaches from it. */
static CavPoint
get_extent (const CavCut *cut)
{
  const double *n = cut->numbers;

  switch (cut->kind)
    {
    case CAV_CUT_STEPS:
      return CAV_POINT (n[CAV_CUT_COUNT] * n[CAV_CUT_RUN], n[CAV_CUT_COUNT] * n[CAV_CUT_RISE]);
    case CAV_CUT_BEAD:
      return CAV_POINT (n[CAV_CUT_WIDTH], n[CAV_CUT_WIDTH] / 2.0);
    case CAV_CUT_RABBET:
    case CAV_CUT_COVE:
    case CAV_CUT_ROUND:
    case CAV_CUT_CHAMFER:
    case CAV_CUT_OGEE:
    case CAV_CUT_GROOVE:
    case CAV_CUT_BEVEL:
    case CAV_CUT_DRAWN:
      break;
    }
  return CAV_POINT (n[CAV_CUT_WIDTH], n[CAV_CUT_DEPTH]);
}

/* Once its middle is past the blank's middle, a cut belongs to the corner over there. Its box
 * stays where it is. */
static void
change_corner (CavCut *cut, const CavBlank *blank)
{
  CavPoint extent = get_extent (cut);
  double *x = &cut->numbers[CAV_CUT_SHIFT_X];
  double *y = &cut->numbers[CAV_CUT_SHIFT_Y];
  gboolean outside = cav_corner_is_outside (cut->corner);
  gboolean face = cav_corner_is_face (cut->corner);

  if (*x + extent.x / 2.0 > blank->width / 2.0)
    {
      outside = !outside;
      *x = fmax (blank->width - *x - extent.x, 0.0);
    }
  if (*y + extent.y / 2.0 > blank->thickness / 2.0)
    {
      face = !face;
      *y = fmax (blank->thickness - *y - extent.y, 0.0);
    }
  cut->corner = cav_corner_from_ends (outside, face);
}

/* The side over which a point lies outside the blank, the farthest; FALSE where it is inside. */
static gboolean
find_side_left (const CavBlank *blank, CavPoint point, CavSide *out_side)
{
  const double out[CAV_N_SIDES] = {
    [CAV_SIDE_BACK] = -point.y,
    [CAV_SIDE_FACE] = point.y - blank->thickness,
    [CAV_SIDE_INSIDE] = -point.x,
    [CAV_SIDE_OUTSIDE] = point.x - blank->width,
  };
  double farthest = 0.0;
  gboolean found = FALSE;

  for (int i = 0; i < CAV_N_SIDES; i++)
    if (out[i] > farthest)
      {
        farthest = out[i];
        *out_side = (CavSide)i;
        found = TRUE;
      }
  return found;
}

/* Puts a cut onto another side, next to the point. What it was shifted by was for the old one. */
static void
change_side (CavCut *cut, CavSide side, const CavBlank *blank, CavPoint point)
{
  gboolean level = cav_side_is_level (side);
  double along
      = level ? CLAMP (point.x, 0.0, blank->width) : CLAMP (point.y, 0.0, blank->thickness);

  cut->side = side;
  cut->numbers[CAV_CUT_SHIFT_X] = 0.0;
  cut->numbers[CAV_CUT_SHIFT_Y] = 0.0;
  if (cut->kind != CAV_CUT_BEVEL)
    cut->numbers[CAV_CUT_POSITION] = along;
}

static void
move (CavCut *result,
      const CavCut *cut,
      const CavHandle *handle,
      const CavBlank *blank,
      CavPoint point,
      double way)
{
  double dx = point.x - handle->point.x;
  double dy = point.y - handle->point.y;
  CavSide side;

  switch (cut->anchor)
    {
    case CAV_ANCHOR_FREE:
      cav_cut_transform_path (result, cav_transform_translation (dx, dy));
      return;
    case CAV_ANCHOR_CORNER:
      drag_freely (result, cut, handle, dx, dy);
      change_corner (result, blank);
      return;
    case CAV_ANCHOR_SIDE:
      if (find_side_left (blank, point, &side) && side != cut->side)
        change_side (result, side, blank, point);
      else
        drag_along (result, cut, handle, way);
      return;
    }
}

/* (transfer full) path, or NULL where the edit cannot be done and the cut stays. */
static void
take_path (CavCut *cut, CavPath *path)
{
  if (path == NULL)
    return;
  cav_path_free (cut->path);
  cut->path = path;
}

CavCut *
cav_handle_drag (const CavCut *cut, const CavHandle *handle, const CavBlank *blank, CavPoint point)
{
  CavCut *result;
  double way;

  g_return_val_if_fail (cut != NULL, NULL);
  g_return_val_if_fail (handle != NULL, NULL);
  g_return_val_if_fail (blank != NULL, NULL);
  g_return_val_if_fail (cav_point_is_finite (point), NULL);

  result = cav_cut_copy (cut);
  way = (point.x - handle->point.x) * handle->direction.x
        + (point.y - handle->point.y) * handle->direction.y;
  switch (handle->kind)
    {
    case CAV_HANDLE_MOVE:
      move (result, cut, handle, blank, point, way);
      break;
    case CAV_HANDLE_NUMBER:
      drag_along (result, cut, handle, way);
      break;
    case CAV_HANDLE_SIZE:
      drag_freely (result, cut, handle, point.x - handle->point.x, point.y - handle->point.y);
      break;
    case CAV_HANDLE_POINT:
      if (cut->path != NULL && handle->index < cav_path_get_segment_count (cut->path))
        take_path (result, cav_path_edit_move_point (cut->path, handle->index, point));
      break;
    case CAV_HANDLE_BULGE:
      if (cut->path != NULL && handle->index < cav_path_get_segment_count (cut->path))
        take_path (result, cav_path_edit_set_bulge (
                               cut->path, handle->index,
                               cav_path_edit_get_bulge (cut->path, handle->index) + way));
      break;
    }
  return result;
}

CavCut *
cav_handle_type (const CavCut *cut, const CavHandle *handle, const CavBlank *blank, double value)
{
  CavCut *result;

  g_return_val_if_fail (cut != NULL, NULL);
  g_return_val_if_fail (handle != NULL, NULL);
  g_return_val_if_fail (blank != NULL, NULL);
  g_return_val_if_fail (isfinite (value), NULL);

  result = cav_cut_copy (cut);
  if (handle->n_numbers == 0)
    return result;
  if (handle->kind == CAV_HANDLE_NUMBER)
    drag_along (result, cut, handle,
                (value - cav_handle_get_value (cut, handle->numbers[0])) / handle->rate[0]);
  /* As it was typed, to the last bit. */
  set_number (result, cut, handle->numbers[0], value);
  keep_bevel (result, handle->numbers[0]);
  return result;
}
