/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/cav-pass-panel-private.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#include "drawing/cav-words-private.h"

#define BOX 5.6
#define BOX_GAP 2.2    /* between a figure and its box */
#define COLUMN_GAP 5.0 /* between a box and the next column */
/* Several boxes of a setting stand in two rows. */
#define TICK CAV_PANEL_TICK
#define TICK_STEP CAV_PANEL_TICK_STEP
#define MOST_TICKS 6
/* The number of the pass before its setting, white on black as those of the panels. */
#define BADGE (CAV_LETTER_SMALL + 2.6)
#define BADGE_PAD 1.4 /* on both sides of the number */
#define BADGE_GAP 2.6
#define FIGURE CAV_LETTER_FIGURE
#define ROW (FIGURE * 1.62) /* fonts have room for accents and descenders */
#define LABEL CAV_PANEL_LABEL (FIGURE)
#define SHORT 4u

char *
cav_pass_sheet_format_figure (const CavPassSheet *sheet, double mm, gboolean *out_about)
{
  return cav_words_format_figure (mm, sheet->options->unit, sheet->options->denominator, out_about);
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

static char *
dup_number (const CavPassGroup *group, guint index)
{
  return g_strdup_printf ("%u", group->number + index);
}

/* Of the last number, which is the widest. */
static double
measure_badge (const CavPassSheet *sheet, const CavPassGroup *group)
{
  g_autofree char *number = dup_number (group, group->count - 1);

  return fmax (cav_lettering_get_width (sheet->lettering, number, CAV_LETTER_SMALL, TRUE)
                   + 2 * BADGE_PAD,
               BADGE);
}

/* A box for each piece; one for all of them where they are many. */
static int
count_ticks (const CavPassSheet *sheet)
{
  return sheet->n_pieces > MOST_TICKS ? 1 : MAX (sheet->n_pieces, 1);
}

static double
measure_ticks (const CavPassSheet *sheet)
{
  int ticks = count_ticks (sheet);

  return ticks > 1 ? ((ticks + 1) / 2 - 1) * TICK_STEP + TICK : BOX;
}

char *
cav_pass_ladder_dup_boxes (const CavPassSheet *sheet, const CavPassGroup *group)
{
  if (group->ladder == CAV_LADDER_NONE || sheet->n_pieces <= MOST_TICKS)
    return NULL;
  return g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "Each box is for all %d piece",
                                       "Each box is for all %d pieces", (gulong)sheet->n_pieces),
                          sheet->n_pieces);
}

/* From the left end of a setting's number to the right end of its boxes. */
static double
measure_setting (const CavPassSheet *sheet, const CavPassGroup *group)
{
  return measure_badge (sheet, group) + BADGE_GAP + measure_figures (sheet, group) + BOX_GAP
         + measure_ticks (sheet);
}

double
cav_pass_ladder_get_width (const CavPassSheet *sheet, const CavPassGroup *group, guint columns)
{
  return columns * (measure_setting (sheet, group) + COLUMN_GAP) - COLUMN_GAP;
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
draw_number (const CavPassSheet *sheet,
             CavScene *scene,
             const CavPassGroup *group,
             guint index,
             CavPoint foot)
{
  const CavTextStyle style = {
    .height = CAV_LETTER_SMALL, .bold = TRUE, .ink = CAV_INK_WHITE, .align = CAV_ALIGN_MIDDLE
  };
  g_autofree char *number = dup_number (group, index);
  double width = measure_badge (sheet, group);
  double middle = foot.y - FIGURE / 2;

  cav_scene_add_box (scene,
                     cav_box (foot.x, middle - BADGE / 2, foot.x + width, middle + BADGE / 2),
                     CAV_STYLE_BADGE);
  cav_scene_add_text (scene, number, CAV_POINT (foot.x + width / 2, middle + CAV_LETTER_SMALL / 2),
                      &style);
}

/* middle: of their left end. */
static void
draw_ticks (const CavPassSheet *sheet, CavScene *scene, CavPoint middle)
{
  int ticks = count_ticks (sheet);
  double size = ticks > 1 ? TICK : BOX;
  double top = middle.y - (ticks > 1 ? TICK_STEP + TICK : BOX) / 2;
  int columns = (ticks + 1) / 2;

  for (int i = 0; i < ticks; i++)
    {
      double x = middle.x + i % columns * TICK_STEP;
      double y = top + i / columns * TICK_STEP;

      cav_scene_add_box (scene, cav_box (x, y, x + size, y + size), CAV_STYLE_TICK_BOX);
    }
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
  double right = foot.x + measure_badge (sheet, group) + BADGE_GAP + width;

  cav_scene_add_text (scene, figure, CAV_POINT (right, foot.y), &style);
  draw_number (sheet, scene, group, index, foot);
  draw_ticks (sheet, scene, CAV_POINT (right + BOX_GAP, foot.y - FIGURE / 2));
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
  double width = measure_figures (sheet, group);
  double step = measure_setting (sheet, group) + COLUMN_GAP;
  g_autofree char *text
      = g_strconcat (get_label (sheet, group), is_about (sheet, group) ? " ≈" : "", NULL);

  cav_scene_add_text_within (scene, text, CAV_POINT (corner.x, corner.y + CAV_LETTER_SMALL + 0.4),
                             &label, fmax (cav_pass_ladder_get_width (sheet, group, columns), 36));
  for (guint i = 0; i < group->count; i++)
    draw_setting (
        sheet, scene, group, i, width,
        CAV_POINT (corner.x + i % columns * step, corner.y + LABEL + FIGURE + i / columns * ROW));
}
