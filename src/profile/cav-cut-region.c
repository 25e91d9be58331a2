/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "profile/cav-cut.h"

#include "geometry/cav-number-text.h"
#include "geometry/cav-tolerance.h"
#include "profile/cav-profile-private.h"

#include <glib/gi18n-lib.h>
#include <math.h>

/*
 * The shapes of the cuts. Each is drawn in a frame of its own and then laid on the blank:
 *
 *   at a corner  the corner is (0, 0), x runs into the wood along the back or face, y into it
 *                along the inside or outside; all four corners are mirror images of each other
 *   on a side    x runs along the side from its low end, y into the wood
 *
 * A shift moves the finished shape. A shifted cut takes no more than its own shape: what stands
 * between the blank's edge and a ledge is for the cut that leaves the ledge.
 */

CavTransform
cav_cut_get_frame (const CavCut *cut, const CavBlank *blank)
{
  g_return_val_if_fail (cut != NULL, cav_transform_identity ());
  g_return_val_if_fail (blank != NULL, cav_transform_identity ());

  if (cut->anchor == CAV_ANCHOR_FREE)
    return cav_transform_identity ();
  double shift_x = cut->numbers[CAV_CUT_SHIFT_X];
  double shift_y = cut->numbers[CAV_CUT_SHIFT_Y];
  double width = blank->width;
  double thickness = blank->thickness;

  if (cut->anchor == CAV_ANCHOR_SIDE)
    switch (cut->side)
      {
      case CAV_SIDE_BACK:
        return (CavTransform){ 1.0, 0.0, shift_x, 0.0, 1.0, shift_y };
      case CAV_SIDE_FACE:
        return (CavTransform){ 1.0, 0.0, shift_x, 0.0, -1.0, thickness - shift_y };
      case CAV_SIDE_INSIDE:
        return (CavTransform){ 0.0, 1.0, shift_x, 1.0, 0.0, shift_y };
      case CAV_SIDE_OUTSIDE:
        return (CavTransform){ 0.0, -1.0, width - shift_x, 1.0, 0.0, shift_y };
      }

  gboolean outside
      = cut->corner == CAV_CORNER_BACK_OUTSIDE || cut->corner == CAV_CORNER_FACE_OUTSIDE;
  gboolean face = cut->corner == CAV_CORNER_FACE_INSIDE || cut->corner == CAV_CORNER_FACE_OUTSIDE;
  return (CavTransform){
    outside ? -1.0 : 1.0,
    0.0,
    outside ? width - shift_x : shift_x,
    0.0,
    face ? -1.0 : 1.0,
    face ? thickness - shift_y : shift_y,
  };
}

double
cav_cut_get_run (const CavCut *cut, const CavBlank *blank)
{
  g_return_val_if_fail (cut != NULL, 0.0);
  g_return_val_if_fail (blank != NULL, 0.0);

  if (cut->anchor == CAV_ANCHOR_SIDE
      && (cut->side == CAV_SIDE_INSIDE || cut->side == CAV_SIDE_OUTSIDE))
    return blank->thickness - cut->numbers[CAV_CUT_SHIFT_Y];
  return blank->width - cut->numbers[CAV_CUT_SHIFT_X];
}

/* How far the side reaches before the shifted frame. */
static double
get_lead (const CavCut *cut)
{
  if (cut->side == CAV_SIDE_INSIDE || cut->side == CAV_SIDE_OUTSIDE)
    return cut->numbers[CAV_CUT_SHIFT_Y];
  return cut->numbers[CAV_CUT_SHIFT_X];
}

/* (transfer full) The points as a closed path. */
static CavPath *
new_polygon_path (const CavPoint *points, guint n_points)
{
  CavPath *path = cav_path_new ();

  cav_path_move_to (path, points[0]);
  for (guint i = 1; i < n_points; i++)
    cav_path_line_to (path, points[i]);
  cav_path_close (path);
  return path;
}

/* The box x0 <= x <= x1, 0 <= y <= depth. Area: its sides' product. */
static CavPath *
draw_box (double x0, double x1, double depth)
{
  const CavPoint points[] = { { x0, 0.0 }, { x1, 0.0 }, { x1, depth }, { x0, depth } };
  return new_polygon_path (points, G_N_ELEMENTS (points));
}

/* Steps, deepest at the corner: over the i-th run the depth is (n + 1 - i) rises.
 * Area: run x rise x n (n + 1) / 2. */
static CavPath *
draw_steps (const double *n)
{
  int count = (int)lround (n[CAV_CUT_COUNT]);
  double run = n[CAV_CUT_RUN];
  double rise = n[CAV_CUT_RISE];
  CavPath *path = cav_path_new ();

  cav_path_move_to (path, CAV_POINT (0.0, 0.0));
  for (int i = count; i >= 1; i--)
    {
      double depth = (count - i) * rise;
      cav_path_line_to (path, CAV_POINT (i * run, depth));
      cav_path_line_to (path, CAV_POINT (i * run, depth + rise));
    }
  cav_path_line_to (path, CAV_POINT (0.0, count * rise));
  cav_path_close (path);
  return path;
}

/* A hollow in a side, w wide and d deep: where d < w/2 the segment of a circle through the ends of
 * its width, of radius (w²/4 + d²) / 2d; else half an ellipse with the half-axes w/2 and d. */
static CavPath *
draw_hollow (double position, double width, double depth)
{
  double half = width / 2.0;
  CavPath *path = cav_path_new ();

  cav_path_move_to (path, CAV_POINT (position + half, 0.0));
  if (depth >= half)
    cav_path_arc (path, CAV_POINT (position, 0.0), half, depth, 0.0, 180.0);
  else
    {
      double radius = (half * half + depth * depth) / (2.0 * depth);
      double angle = atan2 (half, radius - depth) * (180.0 / G_PI);
      cav_path_arc (path, CAV_POINT (position, depth - radius), radius, radius, 90.0 - angle,
                    2.0 * angle);
    }
  cav_path_close (path);
  return path;
}

/* A groove with a round bottom, a half circle of the groove's width: w (d - w/2) + pi w²/8. One
 * that is less deep than that is a hollow. */
static CavPath *
draw_round_groove (double position, double width, double depth)
{
  double half = width / 2.0;

  if (depth <= half)
    return draw_hollow (position, width, depth);

  CavPath *path = cav_path_new ();
  cav_path_move_to (path, CAV_POINT (position + half, 0.0));
  cav_path_line_to (path, CAV_POINT (position + half, depth - half));
  cav_path_arc (path, CAV_POINT (position, depth - half), half, half, 0.0, 180.0);
  cav_path_line_to (path, CAV_POINT (position - half, 0.0));
  cav_path_close (path);
  return path;
}

/* A quarter of an ellipse about the corner. Area: pi w d / 4. */
static CavPath *
draw_corner_cove (double width, double depth)
{
  CavPath *path = cav_path_new ();

  cav_path_move_to (path, CAV_POINT (0.0, 0.0));
  cav_path_line_to (path, CAV_POINT (width, 0.0));
  cav_path_arc (path, CAV_POINT (0.0, 0.0), width, depth, 0.0, 90.0);
  cav_path_close (path);
  return path;
}

/* What lies outside a quarter of an ellipse about (w, d). Area: w d (1 - pi/4). */
static CavPath *
draw_round (double width, double depth)
{
  CavPath *path = cav_path_new ();

  cav_path_move_to (path, CAV_POINT (0.0, 0.0));
  cav_path_line_to (path, CAV_POINT (width, 0.0));
  cav_path_arc (path, CAV_POINT (width, depth), width, depth, -90.0, -90.0);
  cav_path_close (path);
  return path;
}

/* A triangle with the legs w and d. */
static CavPath *
draw_chamfer (double width, double depth)
{
  const CavPoint points[] = { { 0.0, 0.0 }, { width, 0.0 }, { 0.0, depth } };
  return new_polygon_path (points, G_N_ELEMENTS (points));
}

/* A wedge over the whole side. Area: run x (start + end) / 2. */
static CavPath *
draw_bevel (double run, double start, double end)
{
  const CavPoint points[] = { { 0.0, 0.0 }, { run, 0.0 }, { run, end }, { 0.0, start } };
  return new_polygon_path (points, G_N_ELEMENTS (points));
}

/*
 * An S of two quarter ellipses from (w, 0) on the back or face to (0, d) on the inside or outside.
 * They meet at the share s of the way, at (w (1 - s), d s), with a common tangent; the first has
 * the half-axes s w and s d, the second the rest.
 *
 *   recta    hollow, then round: centres (w (1 - s), 0) and (w (1 - s), d); the curve leaves the
 *            face square to it and lies along x where the arcs meet.
 *            Area: w d (pi/4 s² + s (1 - s) + (1 - pi/4) (1 - s)²)
 *   reversa  round, then hollow: centres (w, d s) and (0, d s); the curve leaves the face along it
 *            and lies along y where the arcs meet.
 *            Area: w d ((1 - pi/4) s² + s (1 - s) + pi/4 (1 - s)²)
 *
 * With w = d and s = 1/2 these are the cyma recta and reversa of two quarter circles.
 */
static CavPath *
draw_ogee (const double *n, CavCutForm form)
{
  double width = n[CAV_CUT_WIDTH];
  double depth = n[CAV_CUT_DEPTH];
  double share = n[CAV_CUT_SHARE];
  double x = width * (1.0 - share);
  double y = depth * share;
  CavPath *path = cav_path_new ();

  cav_path_move_to (path, CAV_POINT (0.0, 0.0));
  cav_path_line_to (path, CAV_POINT (width, 0.0));
  if (form == CAV_FORM_RECTA)
    {
      cav_path_arc (path, CAV_POINT (x, 0.0), width - x, y, 0.0, 90.0);
      cav_path_arc (path, CAV_POINT (x, depth), x, depth - y, -90.0, -90.0);
    }
  else
    {
      cav_path_arc (path, CAV_POINT (width, y), width - x, y, -90.0, -90.0);
      cav_path_arc (path, CAV_POINT (0.0, y), x, depth - y, 0.0, 90.0);
    }
  cav_path_close (path);
  return path;
}

/* What surrounds one half of a bead, as seen from its top. */
typedef struct
{
  double middle; /* of the bead, along x */
  double radius;
  double quirk; /* width of the quirk */
  double depth; /* of the quirk */
  double ledge; /* how far from the middle the side is lowered to the bead's middle; 0: not */
  double sign;  /* 1: the half toward +x, -1: toward -x */
} BeadHalf;

/*
 * From the top out along the side, down, and back under the bead. The quirk goes down to its depth
 * beside the bead; where it is less deep than the bead's middle, it ends where it meets the round.
 * Area of a flush half with quirk q and depth k >= r: r² (1 - pi/4) + q k.
 */
static CavPath *
draw_bead_half (const BeadHalf *half)
{
  double r = half->radius;
  double out = r + half->quirk;
  gboolean deep = half->depth > r && half->quirk > CAV_TOLERANCE_POINT;
  double depth = half->depth < r && half->ledge <= 0.0 ? half->depth : (deep ? half->depth : r);
  double at_depth = depth < r ? sqrt (depth * (2.0 * r - depth)) : r;
  CavPath *path = cav_path_new ();

#define AT(x_, y_) CAV_POINT (half->middle + half->sign * (x_), (y_))
  cav_path_move_to (path, AT (0.0, 0.0));
  if (half->ledge > 0.0)
    {
      double ledge = MAX (half->ledge, out);
      cav_path_line_to (path, AT (ledge, 0.0));
      cav_path_line_to (path, AT (ledge, r));
      cav_path_line_to (path, AT (out, r));
    }
  else
    cav_path_line_to (path, AT (out, 0.0));
  if (half->ledge <= 0.0 || deep)
    cav_path_line_to (path, AT (out, depth));
  cav_path_line_to (path, AT (at_depth, depth));
  if (deep)
    cav_path_line_to (path, AT (r, r));
#undef AT

  double angle = depth < r ? asin ((depth - r) / r) * (180.0 / G_PI) : 0.0;
  double start = half->sign > 0.0 ? angle : 180.0 - angle;
  cav_path_arc (path, CAV_POINT (half->middle, r), r, r, start, -half->sign * (90.0 + angle));
  cav_path_close (path);
  return path;
}

/*
 * A bead stands with its top level with the side. Flush, its quirks are cut beside it. Proud, the
 * whole side beside it is lowered to the bead's middle, and the quirks go on from there.
 *
 * At a corner the bead runs along the edge, from x = 0 to its width: it rounds the edge over and
 * has its quirk (and ledge) on the far side only.
 */
static CavRegion *
create_bead (const CavCut *cut, double run, CavTransform frame, GError **error)
{
  const double *n = cut->numbers;
  gboolean corner = cut->anchor == CAV_ANCHOR_CORNER;
  double r = n[CAV_CUT_WIDTH] / 2.0;
  double middle = corner ? r : n[CAV_CUT_POSITION];
  double depth = n[CAV_CUT_QUIRK_DEPTH] > 0.0 ? n[CAV_CUT_QUIRK_DEPTH] : r;
  gboolean proud = cut->form == CAV_FORM_PROUD;
  CavRegion *regions[2] = { NULL, NULL };

  for (int i = 0; i < 2; i++)
    {
      gboolean edge = corner && i == 0;
      double to_end = i == 0 ? get_lead (cut) + middle : run - middle;
      BeadHalf half = {
        .middle = middle,
        .radius = r,
        .quirk = edge ? 0.0 : n[CAV_CUT_QUIRK_WIDTH],
        .depth = edge ? r : depth,
        .ledge = proud && !edge ? MAX (to_end, r) : 0.0,
        .sign = i == 0 ? -1.0 : 1.0,
      };
      g_autoptr (CavPath) path = draw_bead_half (&half);
      g_autoptr (CavPath) placed = cav_path_transformed (path, frame);
      regions[i] = cav_region_new_from_path (placed, error);
      if (regions[i] == NULL)
        break;
    }

  CavRegion *bead = regions[0] != NULL && regions[1] != NULL
                        ? cav_region_union (regions[0], regions[1], error)
                        : NULL;
  g_clear_pointer (&regions[0], cav_region_unref);
  g_clear_pointer (&regions[1], cav_region_unref);
  return bead;
}

static gboolean
check_anchor (const CavCut *cut, const CavCutInfo *info, GError **error)
{
  gboolean known = (guint)cut->anchor <= CAV_ANCHOR_FREE && (guint)cut->corner < CAV_N_CORNERS
                   && (guint)cut->side < CAV_N_SIDES && (info->anchors & (1u << cut->anchor)) != 0;
  if (!known)
    {
      g_set_error (error, CAV_PROFILE_ERROR, CAV_PROFILE_ERROR_ANCHOR,
                   /* Translators: %s is a kind of cut: rabbet, groove, cove ... */
                   info->anchors & (1u << CAV_ANCHOR_FREE)
                       ? _ ("A %s cannot stand there: put it free on the section.")
                   : info->anchors == (1u << CAV_ANCHOR_SIDE)
                       ? _ ("A %s cannot stand there: put it on a side.")
                   : info->anchors & (1u << CAV_ANCHOR_SIDE)
                       ? _ ("A %s cannot stand there: put it at a corner or on a side.")
                       : _ ("A %s cannot stand there: put it at a corner."),
                   cav_cut_kind_get_word (cut->kind));
      return FALSE;
    }
  for (guint i = 0; i < info->n_forms; i++)
    if (info->forms[i] == cut->form)
      return TRUE;
  if (info->n_forms > 1)
    g_set_error (error, CAV_PROFILE_ERROR, CAV_PROFILE_ERROR_RANGE,
                 _ ("A %s has no such form: choose “%s” or another of its forms, like “%s”."),
                 cav_cut_kind_get_word (cut->kind), cav_cut_form_to_string (info->forms[0]),
                 cav_cut_form_to_string (info->forms[1]));
  else
    g_set_error (error, CAV_PROFILE_ERROR, CAV_PROFILE_ERROR_RANGE,
                 _ ("A %s has no such form: choose “%s”."), cav_cut_kind_get_word (cut->kind),
                 cav_cut_form_to_string (info->forms[0]));
  return FALSE;
}

static gboolean
check_numbers (const CavCut *cut, const CavCutInfo *info, GError **error)
{
  for (guint i = 0; i < info->n_numbers; i++)
    {
      const CavCutNumberInfo *number = &info->numbers[i];
      double value = cut->numbers[number->number];
      if (isfinite (value) && value >= number->minimum && value <= number->maximum)
        continue;
      g_set_error (
          error, CAV_PROFILE_ERROR, CAV_PROFILE_ERROR_RANGE,
          /* Translators: “width” of the rabbet; the word in quotes is as it stands in the file. */
          number->is_length
              ? _ ("The number “%s” of the %s is %s mm: enter a value from %s mm to %s mm.")
              : _ ("The number “%s” of the %s is %s: enter a value from %s to %s."),
          number->name, cav_cut_kind_get_word (cut->kind), CAV_NUMBER_TEXT ("%g", value),
          CAV_NUMBER_TEXT ("%g", number->minimum), CAV_NUMBER_TEXT ("%g", number->maximum));
      return FALSE;
    }
  if (cut->kind == CAV_CUT_BEVEL
      && cut->numbers[CAV_CUT_START_HEIGHT] + cut->numbers[CAV_CUT_END_HEIGHT] < 0.1)
    {
      g_set_error (error, CAV_PROFILE_ERROR, CAV_PROFILE_ERROR_RANGE,
                   _ ("Both heights of the bevel are 0: enter what it takes off at one end."));
      return FALSE;
    }
  return TRUE;
}

/* The cut's outline in its frame; beads and drawn cuts are made apart. */
static CavPath *
draw_cut (const CavCut *cut, double run)
{
  const double *n = cut->numbers;
  double width = n[CAV_CUT_WIDTH];
  double depth = n[CAV_CUT_DEPTH];
  double position = n[CAV_CUT_POSITION];

  switch (cut->kind)
    {
    case CAV_CUT_RABBET:
      return draw_box (0.0, width, depth);

    case CAV_CUT_STEPS:
      return draw_steps (n);

    case CAV_CUT_GROOVE:
      if (cut->form == CAV_FORM_ROUND)
        return draw_round_groove (position, width, depth);
      return draw_box (position - width / 2.0, position + width / 2.0, depth);

    case CAV_CUT_COVE:
      if (cut->anchor == CAV_ANCHOR_SIDE)
        return draw_hollow (position, width, depth);
      return draw_corner_cove (width, depth);

    case CAV_CUT_ROUND:
      return draw_round (width, depth);

    case CAV_CUT_CHAMFER:
      return draw_chamfer (width, depth);

    case CAV_CUT_BEVEL:
      return draw_bevel (run, n[CAV_CUT_START_HEIGHT], n[CAV_CUT_END_HEIGHT]);

    case CAV_CUT_OGEE:
      return draw_ogee (n, cut->form);

    case CAV_CUT_BEAD:
    case CAV_CUT_DRAWN:
      break;
    }
  g_return_val_if_reached (NULL);
}

static CavRegion *
create_drawn (const CavCut *cut, GError **error)
{
  if (cut->path == NULL)
    {
      g_set_error (error, CAV_PROFILE_ERROR, CAV_PROFILE_ERROR_PATH,
                   _ ("The drawn cut has no path: draw or import one."));
      return NULL;
    }

  g_autoptr (GError) reason = NULL;
  CavRegion *region = cav_region_new_from_path (cut->path, &reason);
  if (region == NULL)
    g_set_error (error, CAV_PROFILE_ERROR, CAV_PROFILE_ERROR_PATH,
                 _ ("The path of the drawn cut encloses nothing that can be taken away: %s"),
                 reason->message);
  return region;
}

CavRegion *
cav_cut_create_region (const CavCut *cut, const CavBlank *blank, GError **error)
{
  g_return_val_if_fail (cut != NULL, NULL);
  g_return_val_if_fail ((guint)cut->kind < CAV_N_CUT_KINDS, NULL);
  g_return_val_if_fail (blank != NULL, NULL);

  const CavCutInfo *info = cav_cut_kind_get_info (cut->kind);
  if (!cav_blank_check (blank, error) || !check_anchor (cut, info, error)
      || !check_numbers (cut, info, error))
    return NULL;

  if (cut->kind == CAV_CUT_DRAWN)
    return create_drawn (cut, error);
  double run = cav_cut_get_run (cut, blank);
  CavTransform frame = cav_cut_get_frame (cut, blank);
  if (cut->kind == CAV_CUT_BEAD)
    return create_bead (cut, run, frame, error);

  g_autoptr (CavPath) path = draw_cut (cut, run);
  g_autoptr (CavPath) placed = cav_path_transformed (path, frame);
  return cav_region_new_from_path (placed, error);
}
