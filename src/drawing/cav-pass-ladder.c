/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/cav-pass-sheet-private.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

#define BOX 5.6
#define BOX_GAP 2.2    /* between a figure and its box */
#define COLUMN_GAP 5.0 /* between a box and the next column */
#define FIGURE CAV_LETTER_FIGURE
#define ROW (FIGURE * 1.62) /* fonts have room for accents and descenders */
#define LABEL (CAV_LETTER_SMALL + 1.5 + 0.28 * FIGURE)
#define SHORT 4u
#define ABOUT "≈ "

char *
cav_pass_sheet_format_figure (const CavPassSheet *sheet, double mm, gboolean *out_about)
{
  g_autofree char *text
      = cav_length_format_bare (mm, sheet->options->unit, sheet->options->denominator);

  *out_about = g_str_has_prefix (text, ABOUT);
  return g_strdup (*out_about ? text + strlen (ABOUT) : text);
}

static double
get_figure (const CavPassSheet *sheet, const CavPassGroup *group, guint index)
{
  const CavPass *pass = cav_pass_group_get_pass (sheet->plan, group, index);
  double fence;

  cav_pass_get_measure (sheet->plan, cav_pass_sheet_get_setup (sheet, group), pass, &fence);
  return group->ladder == CAV_LADDER_FENCE ? fence : pass->height;
}

/* Of its widest figure. */
static double
measure_figures (const CavPassSheet *sheet, const CavPassGroup *group)
{
  double width = 0;

  for (guint i = 0; i < group->count; i++)
    {
      gboolean about;
      g_autofree char *figure
          = cav_pass_sheet_format_figure (sheet, get_figure (sheet, group, i), &about);

      width = fmax (width, cav_lettering_get_width (sheet->lettering, figure, FIGURE, TRUE));
    }
  return width;
}

double
cav_pass_ladder_get_width (const CavPassSheet *sheet, const CavPassGroup *group, guint columns)
{
  return columns * (measure_figures (sheet, group) + BOX_GAP + BOX + COLUMN_GAP) - COLUMN_GAP;
}

gboolean
cav_pass_ladder_is_long (const CavPassGroup *group)
{
  return group->count > SHORT;
}

gboolean
cav_pass_ladder_turns (const CavPassSheet *sheet, const CavPassGroup *group)
{
  double first;
  double last;

  return cav_pass_group_get_turned (sheet->plan, group, &first, &last);
}

static guint
get_rows (const CavPassGroup *group, guint columns)
{
  return (group->count + columns - 1) / columns;
}

double
cav_pass_ladder_measure (const CavPassSheet *sheet, const CavPassGroup *group, guint columns)
{
  return LABEL + get_rows (group, columns) * ROW;
}

static void
draw_setting (const CavPassSheet *sheet,
              CavScene *scene,
              const CavPassGroup *group,
              guint index,
              double width,
              CavPoint foot)
{
  const CavTextStyle style
      = { .height = FIGURE, .bold = TRUE, .ink = CAV_INK_BLACK, .align = CAV_ALIGN_END };
  gboolean about;
  g_autofree char *figure
      = cav_pass_sheet_format_figure (sheet, get_figure (sheet, group, index), &about);
  double right = foot.x + width;
  double box = right + BOX_GAP;
  double top = foot.y - (FIGURE + BOX) / 2;

  cav_scene_add_text (scene, figure, CAV_POINT (right, foot.y), &style);
  cav_scene_add_box (scene, cav_box (box, top, box + BOX, top + BOX), CAV_STYLE_TICK_BOX);
}

static const char *
get_label (const CavPassSheet *sheet, const CavPassGroup *group)
{
  double fence;

  if (group->ladder == CAV_LADDER_HEIGHT)
    return _ ("Height");
  return cav_words_get_measure (
      cav_pass_get_measure (sheet->plan, cav_pass_sheet_get_setup (sheet, group),
                            cav_pass_group_get_pass (sheet->plan, group, 0), &fence));
}

static gboolean
is_about (const CavPassSheet *sheet, const CavPassGroup *group)
{
  gboolean any = FALSE;

  for (guint i = 0; i < group->count && !any; i++)
    {
      g_autofree char *figure
          = cav_pass_sheet_format_figure (sheet, get_figure (sheet, group, i), &any);
    }
  return any;
}

void
cav_pass_ladder_draw (const CavPassSheet *sheet,
                      CavScene *scene,
                      const CavPassGroup *group,
                      CavPoint corner,
                      guint columns)
{
  const CavTextStyle label = { .height = CAV_LETTER_SMALL, .ink = CAV_INK_GREY };
  guint rows = get_rows (group, columns);
  double width = measure_figures (sheet, group);
  double step = width + BOX_GAP + BOX + COLUMN_GAP;
  g_autofree char *text
      = g_strconcat (get_label (sheet, group), is_about (sheet, group) ? " ≈" : "", NULL);

  cav_scene_add_text_within (scene, text, CAV_POINT (corner.x, corner.y + CAV_LETTER_SMALL + 0.4),
                             &label, fmax (cav_pass_ladder_get_width (sheet, group, columns), 36));
  for (guint i = 0; i < group->count; i++)
    draw_setting (
        sheet, scene, group, i, width,
        CAV_POINT (corner.x + i / rows * step, corner.y + LABEL + FIGURE + i % rows * ROW));
}
