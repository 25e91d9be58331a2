/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/cav-thumbnail.h"

#include <math.h>

#include "drawing/cav-drawing.h"
#include "drawing/cav-section-view.h"
#include "geometry/cav-unit.h"

/* Lines and growth rings are laid out in millimetres of paper. A sheet of this many for each root
 * of the pixels gives them weight in small pictures, and does not make them coarse in large ones.
 */
#define SHEET_PER_ROOT 4.0
/* Of the sheet's side, left free on each side of the wood. */
#define AIR 0.06

GBytes *
cav_thumbnail_create_png (CavProject *project, int side, GError **error)
{
  double sheet = SHEET_PER_ROOT * sqrt (side);

  g_return_val_if_fail (CAV_IS_PROJECT (project), NULL);
  g_return_val_if_fail (side >= CAV_THUMBNAIL_MIN && side <= CAV_THUMBNAIL_MAX, NULL);

  CavBlank blank = cav_project_get_blank (project);
  double scale = sheet * (1.0 - 2.0 * AIR) / fmax (blank.width, blank.thickness);
  g_autoptr (CavScene) scene = cav_scene_new (sheet, sheet);
  g_autoptr (CavSectionView) view
      = cav_section_view_new (scene, project, scale, TRUE, CAV_UNIT_MM, CAV_SHEET_DENOMINATOR);

  cav_section_view_draw (
      view,
      CAV_POINT ((sheet - blank.width * scale) / 2.0, (sheet - blank.thickness * scale) / 2.0),
      CAV_UNIT_MM, CAV_SHEET_DENOMINATOR);
  return cav_scene_create_png (scene, side * CAV_INCH / sheet, error);
}
