/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "project/cav-snap.h"

#include <math.h>

#include "project/cav-handle-private.h"
#include "project/cav-path-edit.h"
#include "project/cav-place-private.h"
#include "project/cav-snap-private.h"

static void
clean (CavCut *cut, const CavHandle *handle)
{
  for (guint i = 0; i < handle->n_numbers; i++)
    {
      double *number = &cut->numbers[handle->numbers[i]];

      *number = round (*number * CAV_SNAP_DECIMALS) / CAV_SNAP_DECIMALS;
    }
}

static void
hold_at_cutter (CavSnap *snap, const CavCutter *cutter, double value)
{
  snap->size = (CavSnapHold){ .kind = CAV_SNAP_CUTTER, .value = value };
  snap->tool = cutter;
  cav_snap_hold_set_label (&snap->size, cutter->name != NULL && *cutter->name != '\0'
                                            ? cav_shop_translate_name (cutter->name)
                                            : cutter->id);
}

static void
hold_at_blade (CavSnap *snap, const CavBlade *blade)
{
  snap->size = (CavSnapHold){ .kind = CAV_SNAP_CUTTER, .value = blade->kerf };
  cav_snap_hold_set_label (&snap->size, blade->name != NULL && *blade->name != '\0'
                                            ? cav_shop_translate_name (blade->name)
                                            : blade->id);
}

/* A flat groove as wide as a blade's kerf or a grooving head that leaves a flat bottom. */
static const CavBlade *
find_blade (const CavSnapper *self, const CavCut *cut, double reach)
{
  const CavShop *shop = cav_project_get_shop (self->project);
  const CavBlade *found = NULL;

  if (cut->kind != CAV_CUT_GROOVE || cut->form != CAV_FORM_FLAT || !shop->has_saw)
    return NULL;
  for (guint i = 0; i < shop->blades->len; i++)
    {
      const CavBlade *blade = g_ptr_array_index (shop->blades, i);
      double distance = fabs (blade->kerf - cut->numbers[CAV_CUT_WIDTH]);

      if (blade->grind != CAV_GRIND_FLAT || blade->height < cut->numbers[CAV_CUT_DEPTH]
          || distance > reach || (found != NULL && distance >= reach))
        continue;
      reach = distance;
      found = blade;
    }
  return found;
}

/* Where the moving edge of a number lies along the axis in which it moves; FALSE where the handle
 * moves along neither. */
static gboolean
get_axis (const CavHandle *handle, gboolean *out_is_x)
{
  *out_is_x = fabs (handle->direction.x) > 0.5;
  return fabs (fabs (handle->direction.x) - fabs (handle->direction.y)) > 1.0 - 1e-9;
}

/* The number that the nearest tool of the shop makes, where one is within reach. */
static gboolean
settle_at_tool (const CavSnapper *self,
                const CavCut *raw,
                CavCutNumber number,
                double reach,
                double *inout_value,
                CavSnap *snap)
{
  double at_cutter;
  const CavCutter *cutter = cav_cutter_find_size (self->cutters, raw, number, reach, &at_cutter);
  const CavBlade *blade = number == CAV_CUT_WIDTH ? find_blade (self, raw, reach) : NULL;

  if (cutter != NULL
      && (blade == NULL || fabs (at_cutter - *inout_value) <= fabs (blade->kerf - *inout_value)))
    {
      hold_at_cutter (snap, cutter, at_cutter);
      *inout_value = at_cutter;
      return TRUE;
    }
  if (blade == NULL)
    return FALSE;
  hold_at_blade (snap, blade);
  *inout_value = blade->kerf;
  return TRUE;
}

/* The number whose edge lies at something that is worth it, or else on the grid, where that is
 * within reach. before: the number where the handle stands. */
static gboolean
settle_at_place (const CavSnapper *self,
                 const CavHandle *handle,
                 gboolean is_x,
                 double before,
                 double tolerance,
                 double *inout_value,
                 CavSnap *snap)
{
  /* The edge in the blank, from where the handle was and how far its number has gone. */
  double rate = handle->rate[0];
  double sign = is_x ? handle->direction.x : handle->direction.y;
  double start = is_x ? handle->point.x : handle->point.y;
  double edge = start + sign * (*inout_value - before) / rate;
  double even = cav_snapper_round (*inout_value, self->grid);
  CavSnapHold *hold = is_x ? &snap->x : &snap->y;
  const CavSnapTarget *target = cav_snapper_find_target (is_x ? self->x : self->y, edge, tolerance);
  CavSnapTarget line;

  if (target != NULL)
    {
      cav_snapper_set_hold (self, is_x, target, hold);
      *inout_value = before + (target->value - start) * sign * rate;
      return TRUE;
    }
  if (!(self->grid > 0.0) || fabs (even - *inout_value) > tolerance * fabs (rate))
    return FALSE;
  line = (CavSnapTarget){ start + sign * (even - before) / rate, CAV_SNAP_GRID, 0 };
  cav_snapper_set_hold (self, is_x, &line, hold);
  *inout_value = even;
  return TRUE;
}

/* A number along one axis: a tool of the shop goes before a place. raw is the cut as the pointer
 * alone would have it, which is taken. (transfer full) */
static CavCut *
drag_number (const CavSnapper *self,
             const CavCut *cut,
             const CavHandle *handle,
             CavCut *raw,
             double tolerance,
             CavSnap *snap)
{
  CavCutNumber number = handle->numbers[0];
  double reach = tolerance * fabs (handle->rate[0]);
  double value = cav_handle_get_value (raw, number);
  gboolean is_x;
  CavCut *result;

  if (number == CAV_CUT_COUNT || number == CAV_CUT_SHARE || !get_axis (handle, &is_x))
    return raw;
  if (!settle_at_tool (self, raw, number, reach, &value, snap))
    {
      if (!settle_at_place (self, handle, is_x, cav_handle_get_value (cut, number), tolerance,
                            &value, snap))
        return raw;
      value = round (value * CAV_SNAP_DECIMALS) / CAV_SNAP_DECIMALS;
    }
  cav_cut_free (raw);
  result = cav_handle_type (cut, handle, &self->blank, value);
  clean (result, handle);
  return result;
}

/* One of two numbers that are dragged at a corner: its edge stands so far from the corner. */
static double
settle_size (const CavSnapper *self,
             gboolean is_x,
             double origin,
             double sign,
             double value,
             double tolerance,
             CavSnapHold *hold)
{
  const CavSnapTarget *target
      = cav_snapper_find_target (is_x ? self->x : self->y, origin + sign * value, tolerance);

  /* What ends at the corner itself would be no cut. */
  if (target != NULL && (target->value - origin) * sign >= 0.1)
    {
      cav_snapper_set_hold (self, is_x, target, hold);
      return (target->value - origin) * sign;
    }
  if (self->grid > 0.0 && fabs (cav_snapper_round (value, self->grid) - value) <= tolerance
      && cav_snapper_round (value, self->grid) >= 0.1)
    {
      CavSnapTarget line
          = { origin + sign * cav_snapper_round (value, self->grid), CAV_SNAP_GRID, 0 };

      cav_snapper_set_hold (self, is_x, &line, hold);
      return cav_snapper_round (value, self->grid);
    }
  return value;
}

/* Two numbers at once; raw is changed. */
static void
drag_size (
    const CavSnapper *self, const CavHandle *handle, CavCut *raw, double tolerance, CavSnap *snap)
{
  CavTransform frame = cav_cut_get_frame (raw, &self->blank);
  double reach = tolerance * fmin (fabs (handle->rate[0]), fabs (handle->rate[1]));
  double *width = &raw->numbers[handle->numbers[0]];
  double *depth = &raw->numbers[handle->numbers[1]];
  double both[2];
  const CavCutter *cutter = cav_cutter_find_both (self->cutters, raw, reach, &both[0], &both[1]);

  if (cutter != NULL)
    {
      hold_at_cutter (snap, cutter, both[0]);
      *width = both[0];
      *depth = both[1];
      return;
    }
  *width = settle_size (self, TRUE, frame.x0, frame.xx, *width, tolerance, &snap->x);
  *depth = settle_size (self, FALSE, frame.y0, frame.yy, *depth, tolerance, &snap->y);
  clean (raw, handle);
}

/* The whole cut, by its edges and middle. (transfer full) */
static CavCut *
drag_whole (const CavSnapper *self,
            const CavCut *cut,
            const CavHandle *handle,
            CavPoint point,
            double tolerance,
            CavSnap *snap)
{
  g_autoptr (CavRegion) region = cav_cut_create_region (cut, &self->blank, NULL);
  CavPoint delta = CAV_POINT (point.x - handle->point.x, point.y - handle->point.y);
  CavCut *result;

  if (region != NULL && cut->kind != CAV_CUT_BEVEL)
    {
      CavPoint settled
          = cav_snapper_move (self, cav_region_get_bounds (region), delta, tolerance, snap);

      /* Along a side nothing holds across it. */
      if (cut->anchor == CAV_ANCHOR_SIDE)
        {
          gboolean level = cav_side_is_level (cut->side);

          *(level ? &snap->y : &snap->x) = (CavSnapHold){ .kind = CAV_SNAP_NONE };
          settled = level ? CAV_POINT (settled.x, delta.y) : CAV_POINT (delta.x, settled.y);
        }
      delta = settled;
    }
  snap->point = CAV_POINT (handle->point.x + delta.x, handle->point.y + delta.y);
  result = cav_handle_drag (cut, handle, &self->blank, snap->point);
  clean (result, handle);
  return result;
}

/* A point of a path is also held level with its neighbours. */
static void
settle_with_neighbours (const CavSnapper *self,
                        const CavCut *cut,
                        guint index,
                        CavPoint pointer,
                        double tolerance,
                        CavSnap *snap)
{
  guint n = cav_path_get_segment_count (cut->path);
  const CavPoint neighbours[] = { cav_path_edit_get_point (cut->path, (index + n - 1) % n),
                                  cav_path_edit_get_point (cut->path, (index + 1) % n) };

  for (guint i = 0; i < G_N_ELEMENTS (neighbours); i++)
    {
      CavSnapTarget x = { neighbours[i].x, CAV_SNAP_CUT_EDGE, CAV_CUT_DRAWN };
      CavSnapTarget y = { neighbours[i].y, CAV_SNAP_CUT_EDGE, CAV_CUT_DRAWN };

      if (snap->x.kind <= CAV_SNAP_GRID && fabs (x.value - pointer.x) <= tolerance)
        {
          cav_snapper_set_hold (self, TRUE, &x, &snap->x);
          snap->point.x = x.value;
        }
      if (snap->y.kind <= CAV_SNAP_GRID && fabs (y.value - pointer.y) <= tolerance)
        {
          cav_snapper_set_hold (self, FALSE, &y, &snap->y);
          snap->point.y = y.value;
        }
    }
}

/* (transfer full) */
static CavCut *
drag_bulge (const CavSnapper *self,
            const CavCut *cut,
            const CavHandle *handle,
            CavCut *raw,
            double tolerance,
            CavSnap *snap)
{
  const CavSegment *segment = cav_path_get_segment (cut->path, handle->index);
  double chord = cav_point_distance (segment->from, segment->to);
  double bulge = cav_path_edit_get_bulge (raw->path, handle->index);
  const CavCutter *cutter = cav_cutter_find_bulge (self->cutters, chord, bulge, tolerance, &bulge);

  /* A pointer near the chord means a line, not a cutter as large as a wheel. */
  if (fabs (bulge) <= tolerance)
    bulge = 0.0;
  else if (cutter != NULL)
    hold_at_cutter (snap, cutter, (chord * chord / 4.0 + bulge * bulge) / (2.0 * fabs (bulge)));
  else
    return raw;
  g_autoptr (CavPath) path = cav_path_edit_set_bulge (cut->path, handle->index, bulge);
  cav_cut_free (raw);
  return cav_cut_new_drawn (path);
}

static gboolean
has_path_part (const CavCut *cut, const CavHandle *handle)
{
  return cut->path != NULL && handle->index < cav_path_get_segment_count (cut->path);
}

CavCut *
cav_snapper_drag (const CavSnapper *snapper,
                  const CavCut *cut,
                  const CavHandle *handle,
                  CavPoint point,
                  double tolerance,
                  CavSnap *out_snap)
{
  CavSnap snap = { .point = point };
  CavCut *result;

  g_return_val_if_fail (snapper != NULL, NULL);
  g_return_val_if_fail (cut != NULL, NULL);
  g_return_val_if_fail (handle != NULL, NULL);

  result = cav_handle_drag (cut, handle, &snapper->blank, point);
  if (cav_snap_is_on (tolerance))
    switch (handle->kind)
      {
      case CAV_HANDLE_NUMBER:
        result = drag_number (snapper, cut, handle, result, tolerance, &snap);
        break;
      case CAV_HANDLE_SIZE:
        drag_size (snapper, handle, result, tolerance, &snap);
        break;
      case CAV_HANDLE_MOVE:
        cav_cut_free (result);
        result = drag_whole (snapper, cut, handle, point, tolerance, &snap);
        break;
      case CAV_HANDLE_POINT:
        if (!has_path_part (cut, handle))
          break;
        cav_snapper_point (snapper, point, tolerance, &snap);
        settle_with_neighbours (snapper, cut, handle->index, point, tolerance, &snap);
        cav_cut_free (result);
        result = cav_handle_drag (cut, handle, &snapper->blank, snap.point);
        break;
      case CAV_HANDLE_BULGE:
        if (has_path_part (cut, handle))
          result = drag_bulge (snapper, cut, handle, result, tolerance, &snap);
        break;
      }
  if (snap.size.kind == CAV_SNAP_CUTTER && snap.tool != NULL
      && cav_cutter_makes_cut (snap.tool, result, &snap.place))
    snap.place = cav_transform_compose (snap.place, cav_cut_get_frame (result, &snapper->blank));
  else
    snap.tool = NULL;
  if (out_snap != NULL)
    *out_snap = snap;
  return result;
}
