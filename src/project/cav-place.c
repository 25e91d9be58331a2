/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "project/cav-place-private.h"

gboolean
cav_corner_is_outside (CavCorner corner)
{
  return corner == CAV_CORNER_BACK_OUTSIDE || corner == CAV_CORNER_FACE_OUTSIDE;
}

gboolean
cav_corner_is_face (CavCorner corner)
{
  return corner == CAV_CORNER_FACE_INSIDE || corner == CAV_CORNER_FACE_OUTSIDE;
}

CavCorner
cav_corner_from_ends (gboolean outside, gboolean face)
{
  if (face)
    return outside ? CAV_CORNER_FACE_OUTSIDE : CAV_CORNER_FACE_INSIDE;
  return outside ? CAV_CORNER_BACK_OUTSIDE : CAV_CORNER_BACK_INSIDE;
}

gboolean
cav_side_is_level (CavSide side)
{
  return side == CAV_SIDE_BACK || side == CAV_SIDE_FACE;
}

CavCutNumber
cav_cut_get_sink_number (const CavCut *cut)
{
  return cav_side_is_level (cut->side) ? CAV_CUT_SHIFT_Y : CAV_CUT_SHIFT_X;
}

static CavCutNumber
get_along_shift (const CavCut *cut)
{
  return cav_side_is_level (cut->side) ? CAV_CUT_SHIFT_X : CAV_CUT_SHIFT_Y;
}

double
cav_cut_get_along (const CavCut *cut)
{
  return cut->numbers[CAV_CUT_POSITION] + cut->numbers[get_along_shift (cut)];
}

/* A position is never less than 0; what is before the low end is a shift. */
void
cav_cut_set_along (CavCut *cut, double along)
{
  double *shift = &cut->numbers[get_along_shift (cut)];

  if (along < *shift)
    *shift = MIN (along, 0.0);
  cut->numbers[CAV_CUT_POSITION] = along - *shift;
}

void
cav_cut_transform_path (CavCut *cut, CavTransform transform)
{
  if (cut->path == NULL)
    return;
  CavPath *path = cav_path_transformed (cut->path, transform);
  cav_path_free (cut->path);
  cut->path = path;
}
