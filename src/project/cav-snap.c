/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "project/cav-snap.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

#include "project/cav-snap-private.h"

static void
add_target (GArray *targets, double value, CavSnapKind kind, CavCutKind cut)
{
  CavSnapTarget target = { value, kind, cut };

  g_array_append_val (targets, target);
}

static void
add_blank (GArray *targets, double length)
{
  add_target (targets, 0.0, CAV_SNAP_BLANK_EDGE, 0);
  add_target (targets, length, CAV_SNAP_BLANK_EDGE, 0);
  add_target (targets, length / 2.0, CAV_SNAP_BLANK_MIDDLE, 0);
  add_target (targets, length / 3.0, CAV_SNAP_BLANK_THIRD, 0);
  add_target (targets, length * 2.0 / 3.0, CAV_SNAP_BLANK_THIRD, 0);
}

/* Where its lines and arcs meet, which is also where it ends unless an arc goes farther. */
static void
add_cut (CavSnapper *self, const CavCut *cut)
{
  g_autoptr (CavRegion) region = cav_cut_create_region (cut, &self->blank, NULL);

  if (region == NULL)
    return;
  for (guint ring = 0; ring < cav_region_get_ring_count (region); ring++)
    {
      const CavPath *path = cav_region_get_ring (region, ring);

      for (guint i = 0; i < cav_path_get_segment_count (path); i++)
        {
          CavPoint point = cav_path_get_segment (path, i)->from;

          add_target (self->x, point.x, CAV_SNAP_CUT_EDGE, cut->kind);
          add_target (self->y, point.y, CAV_SNAP_CUT_EDGE, cut->kind);
        }
    }
  CavBox box = cav_region_get_bounds (region);
  add_target (self->x, box.x0, CAV_SNAP_CUT_EDGE, cut->kind);
  add_target (self->x, box.x1, CAV_SNAP_CUT_EDGE, cut->kind);
  add_target (self->y, box.y0, CAV_SNAP_CUT_EDGE, cut->kind);
  add_target (self->y, box.y1, CAV_SNAP_CUT_EDGE, cut->kind);
  add_target (self->x, (box.x0 + box.x1) / 2.0, CAV_SNAP_CUT_CENTRE, cut->kind);
  add_target (self->y, (box.y0 + box.y1) / 2.0, CAV_SNAP_CUT_CENTRE, cut->kind);
}

/* By value; of equal ones that with the plainer kind first. */
static int
compare_targets_cb (gconstpointer a, gconstpointer b)
{
  const CavSnapTarget *one = a;
  const CavSnapTarget *other = b;

  if (one->value < other->value)
    return -1;
  if (one->value > other->value)
    return 1;
  return (int)one->kind - (int)other->kind;
}

static gboolean
is_among (guint index, const guint *indices, guint n_indices)
{
  for (guint i = 0; i < n_indices; i++)
    if (indices[i] == index)
      return TRUE;
  return FALSE;
}

static void
add_cutters (CavSnapper *self)
{
  const CavShop *shop = cav_project_get_shop (self->project);

  for (guint i = 0; i < shop->cutters->len; i++)
    {
      CavCutter *cutter = g_ptr_array_index (shop->cutters, i);
      g_autofree char *hindrance = cav_shop_explain_cutter (shop, cutter);

      if (hindrance == NULL)
        g_ptr_array_add (self->cutters, cutter);
    }
}

CavSnapper *
cav_snapper_new (CavProject *project, const guint *skip, guint n_skip, double grid)
{
  CavSnapper *self;

  g_return_val_if_fail (CAV_IS_PROJECT (project), NULL);
  g_return_val_if_fail (isfinite (grid), NULL);

  self = g_new0 (CavSnapper, 1);
  self->project = cav_project_copy_snapshot (project);
  self->x = g_array_new (FALSE, FALSE, sizeof (CavSnapTarget));
  self->y = g_array_new (FALSE, FALSE, sizeof (CavSnapTarget));
  self->cutters = g_ptr_array_new ();
  self->blank = cav_project_get_blank (project);
  self->grid = grid;
  add_blank (self->x, self->blank.width);
  add_blank (self->y, self->blank.thickness);
  for (guint i = 0; i < cav_project_get_cut_count (project); i++)
    if (!is_among (i, skip, n_skip))
      add_cut (self, cav_project_get_cut (project, i));
  g_array_sort (self->x, compare_targets_cb);
  g_array_sort (self->y, compare_targets_cb);
  add_cutters (self);
  return self;
}

void
cav_snapper_free (CavSnapper *snapper)
{
  if (snapper == NULL)
    return;
  g_array_unref (snapper->x);
  g_array_unref (snapper->y);
  g_ptr_array_unref (snapper->cutters);
  g_object_unref (snapper->project);
  g_free (snapper);
}

/* One axis */

/* The index of the first target that is not below value. */
static guint
find_first (const GArray *targets, double value)
{
  guint low = 0;
  guint high = targets->len;

  while (low < high)
    {
      guint middle = (low + high) / 2;

      if (g_array_index (targets, CavSnapTarget, middle).value < value)
        low = middle + 1;
      else
        high = middle;
    }
  return low;
}

const CavSnapTarget *
cav_snapper_find_target (const GArray *targets, double value, double tolerance)
{
  const CavSnapTarget *best = NULL;

  for (guint i = find_first (targets, value - tolerance); i < targets->len; i++)
    {
      const CavSnapTarget *target = &g_array_index (targets, CavSnapTarget, i);

      if (target->value > value + tolerance)
        break;
      if (best == NULL || fabs (target->value - value) < fabs (best->value - value))
        best = target;
    }
  return best;
}

void
cav_snap_hold_set_label (CavSnapHold *hold, const char *text)
{
  const char *end = text + MIN (strlen (text), sizeof hold->label - 1);

  /* Not through the middle of a character. */
  while (end > text && *end != '\0' && ((guchar)*end & 0xC0) == 0x80)
    end--;
  memcpy (hold->label, text, (gsize)(end - text));
  hold->label[end - text] = '\0';
}

void
cav_snapper_set_hold (const CavSnapper *self,
                      gboolean is_x,
                      const CavSnapTarget *target,
                      CavSnapHold *hold)
{
  g_autofree char *label = NULL;

  *hold = (CavSnapHold){ .kind = target->kind, .value = target->value };
  if (is_x)
    {
      hold->from = CAV_POINT (target->value, 0.0);
      hold->to = CAV_POINT (target->value, self->blank.thickness);
    }
  else
    {
      hold->from = CAV_POINT (0.0, target->value);
      hold->to = CAV_POINT (self->blank.width, target->value);
    }
  switch (target->kind)
    {
    case CAV_SNAP_GRID:
      label = g_strdup (C_ ("snap", "grid"));
      break;
    case CAV_SNAP_BLANK_EDGE:
      label = g_strdup (C_ ("snap", "edge of blank"));
      break;
    case CAV_SNAP_BLANK_MIDDLE:
      label = g_strdup (C_ ("snap", "middle of blank"));
      break;
    case CAV_SNAP_BLANK_THIRD:
      label = g_strdup (C_ ("snap", "third of blank"));
      break;
    case CAV_SNAP_CUT_EDGE:
      /* Translators: %s is a kind of cut. */
      label = g_strdup_printf (C_ ("snap", "edge of %s"), cav_cut_kind_get_word (target->cut));
      break;
    case CAV_SNAP_CUT_CENTRE:
      label = g_strdup_printf (C_ ("snap", "middle of %s"), cav_cut_kind_get_word (target->cut));
      break;
    case CAV_SNAP_NONE:
    case CAV_SNAP_CUTTER:
      break;
    }
  if (label != NULL)
    cav_snap_hold_set_label (hold, label);
}

double
cav_snapper_round (double value, double grid)
{
  return round (round (value / grid) * grid * CAV_SNAP_DECIMALS) / CAV_SNAP_DECIMALS;
}

/* Where value settles along one axis: at a target, else on the grid, else where it is. */
static double
settle (const CavSnapper *self, gboolean is_x, double value, double tolerance, CavSnapHold *hold)
{
  const CavSnapTarget *target
      = cav_snapper_find_target (is_x ? self->x : self->y, value, tolerance);

  *hold = (CavSnapHold){ .kind = CAV_SNAP_NONE };
  if (target != NULL)
    {
      cav_snapper_set_hold (self, is_x, target, hold);
      return target->value;
    }
  if (self->grid > 0.0 && fabs (cav_snapper_round (value, self->grid) - value) <= tolerance)
    {
      CavSnapTarget line = { cav_snapper_round (value, self->grid), CAV_SNAP_GRID, 0 };

      cav_snapper_set_hold (self, is_x, &line, hold);
      return line.value;
    }
  return value;
}

gboolean
cav_snap_is_on (double tolerance)
{
  return isfinite (tolerance) && tolerance > 0.0;
}

CavPoint
cav_snapper_point (const CavSnapper *snapper, CavPoint point, double tolerance, CavSnap *out_snap)
{
  CavSnap snap = { .point = point };

  g_return_val_if_fail (snapper != NULL, point);

  if (cav_snap_is_on (tolerance))
    {
      snap.point.x = settle (snapper, TRUE, point.x, tolerance, &snap.x);
      snap.point.y = settle (snapper, FALSE, point.y, tolerance, &snap.y);
    }
  if (out_snap != NULL)
    *out_snap = snap;
  return snap.point;
}

/* How far a box that is to be moved by delta moves along one axis: by whichever of its edges or
 * its middle is nearest to a target; else the low edge goes onto the grid. */
static double
settle_box (const CavSnapper *self,
            gboolean is_x,
            double low,
            double high,
            double delta,
            double tolerance,
            CavSnapHold *hold)
{
  const double places[] = { low, high, (low + high) / 2.0 };
  const GArray *targets = is_x ? self->x : self->y;
  double least = INFINITY;
  double result = delta;

  *hold = (CavSnapHold){ .kind = CAV_SNAP_NONE };
  for (guint i = 0; i < G_N_ELEMENTS (places); i++)
    {
      const CavSnapTarget *target = cav_snapper_find_target (targets, places[i] + delta, tolerance);

      if (target == NULL || fabs (target->value - places[i] - delta) >= least)
        continue;
      least = fabs (target->value - places[i] - delta);
      result = target->value - places[i];
      cav_snapper_set_hold (self, is_x, target, hold);
    }
  if (hold->kind != CAV_SNAP_NONE)
    return result;
  return settle (self, is_x, low + delta, tolerance, hold) - low;
}

CavPoint
cav_snapper_move (
    const CavSnapper *snapper, CavBox bounds, CavPoint delta, double tolerance, CavSnap *out_snap)
{
  CavSnap snap = { .point = delta };

  g_return_val_if_fail (snapper != NULL, delta);

  if (cav_snap_is_on (tolerance))
    {
      snap.point.x = settle_box (snapper, TRUE, bounds.x0, bounds.x1, delta.x, tolerance, &snap.x);
      snap.point.y = settle_box (snapper, FALSE, bounds.y0, bounds.y1, delta.y, tolerance, &snap.y);
    }
  if (out_snap != NULL)
    *out_snap = snap;
  return snap.point;
}
