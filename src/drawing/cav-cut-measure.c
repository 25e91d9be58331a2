/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/cav-cut-measure.h"

#include <math.h>

/* Distances shorter than this are none. */
#define NOTHING 0.005

typedef struct
{
  GArray *measures;
  CavBox box; /* of what the cut takes away, within the blank */
  const CavBlank *blank;
  CavUnit unit;
  int denominator;
  gboolean face; /* the cut lies nearer to the face; the outside */
  gboolean outside;
} Sheet;

static void
add (Sheet *sheet, gboolean upright, double from, double to, int lane, gboolean live)
{
  CavOverlayMeasure measure
      = { .upright = upright, .from = from, .to = to, .lane = lane, .live = live };
  /* What boolean operations move by a rounding is not to show. */
  g_autofree char *text
      = cav_length_format_bare (round ((to - from) * 1e4) / 1e4, sheet->unit, sheet->denominator);

  if (to - from < NOTHING)
    return;
  measure.high = upright ? sheet->outside : sheet->face;
  measure.part_from = upright ? (sheet->outside ? sheet->box.x1 : sheet->box.x0)
                              : (sheet->face ? sheet->box.y1 : sheet->box.y0);
  measure.part_to = measure.part_from;
  g_strlcpy (measure.text, text, sizeof measure.text);
  g_array_append_val (sheet->measures, measure);
}

static gboolean
is_any (int live, CavCutNumber a, CavCutNumber b)
{
  return live == (int)a || live == (int)b;
}

GArray *
cav_section_measure_cut (const CavCut *cut,
                         const CavRegion *region,
                         const CavBlank *blank,
                         CavUnit unit,
                         int denominator,
                         int live)
{
  CavBox box = cav_region_get_bounds (region);
  Sheet sheet = { .measures = g_array_new (FALSE, FALSE, sizeof (CavOverlayMeasure)),
                  .blank = blank,
                  .unit = unit,
                  .denominator = denominator };
  gboolean along_y = cut->anchor == CAV_ANCHOR_SIDE
                     && (cut->side == CAV_SIDE_INSIDE || cut->side == CAV_SIDE_OUTSIDE);
  gboolean x_live = is_any (live, along_y ? CAV_CUT_DEPTH : CAV_CUT_WIDTH, CAV_CUT_RUN);
  gboolean y_live = is_any (live, along_y ? CAV_CUT_WIDTH : CAV_CUT_DEPTH, CAV_CUT_RISE)
                    || is_any (live, CAV_CUT_START_HEIGHT, CAV_CUT_END_HEIGHT);
  gboolean low_x;
  gboolean low_y;

  if (cav_region_is_empty (region))
    return sheet.measures;
  sheet.box = box;
  sheet.face = (box.y0 + box.y1) / 2 > blank->thickness / 2;
  sheet.outside = (box.x0 + box.x1) / 2 > blank->width / 2;
  add (&sheet, FALSE, box.x0, box.x1, 0, x_live);
  add (&sheet, TRUE, box.y0, box.y1, 0, y_live);
  /* From the nearer edge of the blank, where it does not begin there. */
  low_x = !sheet.outside;
  low_y = !sheet.face;
  if (low_x && box.x0 > NOTHING)
    add (&sheet, FALSE, 0, box.x0, 1,
         live == CAV_CUT_SHIFT_X || (!along_y && live == CAV_CUT_POSITION));
  if (!low_x && box.x1 < blank->width - NOTHING)
    add (&sheet, FALSE, box.x1, blank->width, 1,
         live == CAV_CUT_SHIFT_X || (!along_y && live == CAV_CUT_POSITION));
  if (low_y && box.y0 > NOTHING)
    add (&sheet, TRUE, 0, box.y0, 1,
         live == CAV_CUT_SHIFT_Y || (along_y && live == CAV_CUT_POSITION));
  if (!low_y && box.y1 < blank->thickness - NOTHING)
    add (&sheet, TRUE, box.y1, blank->thickness, 1,
         live == CAV_CUT_SHIFT_Y || (along_y && live == CAV_CUT_POSITION));
  return sheet.measures;
}
