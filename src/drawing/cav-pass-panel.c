/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <string.h>

#include "drawing/cav-machine-view.h"
#include "drawing/cav-pass-sheet-private.h"

/* Within a panel, mm. */
#define PAD 2.0
#define HEADER 12.5
#define BADGE 9.5
#define TICK 4.4
#define TICK_STEP 5.6
#define N_TICKS 8
#define CHANGE 1.6 /* over the lines that say what changes */
#define CHANGE_LINES 2
#define LINE (CAV_LETTER_SMALL * CAV_LETTER_LEADING)
#define LARGE_LINE (CAV_LETTER_LARGE * CAV_LETTER_LEADING)
#define TOOL_LINE (CAV_LETTER_TOOL * CAV_LETTER_LEADING)
/* From the top of a label to the baseline of its figure, and from there to the next label's. */
#define FIGURE_DOWN 11.6
#define LABEL_DOWN 7.2
#define LEAST_FIGURE_WIDTH 34.0
#define CAUTION_SIGN 4.6
#define ABOUT "≈ "

static const CavTextStyle small = { .height = CAV_LETTER_SMALL, .ink = CAV_INK_BLACK };
static const CavTextStyle small_grey = { .height = CAV_LETTER_SMALL, .ink = CAV_INK_GREY };
static const CavTextStyle large = { .height = CAV_LETTER_LARGE, .ink = CAV_INK_BLACK };
static const CavTextStyle large_bold
    = { .height = CAV_LETTER_LARGE, .bold = TRUE, .ink = CAV_INK_BLACK };
static const CavTextStyle tool_bold
    = { .height = CAV_LETTER_TOOL, .bold = TRUE, .ink = CAV_INK_BLACK };
static const CavTextStyle tool = { .height = CAV_LETTER_TOOL, .ink = CAV_INK_BLACK };
static const CavTextStyle figure_bold
    = { .height = CAV_LETTER_FIGURE, .bold = TRUE, .ink = CAV_INK_BLACK };

/* A figure, and the sign that something was rounded away, which goes to the label. */
static char *
format_figure (const CavPassSheet *sheet, double mm, gboolean *out_about)
{
  g_autofree char *text
      = cav_length_format_bare (mm, sheet->options->unit, sheet->options->denominator);

  *out_about = g_str_has_prefix (text, ABOUT);
  return g_strdup (*out_about ? text + strlen (ABOUT) : text);
}

static double
get_figure_width (const CavPassSheet *sheet, double mm)
{
  gboolean about;
  g_autofree char *text = format_figure (sheet, mm, &about);

  return cav_lettering_get_width (sheet->lettering, text, CAV_LETTER_FIGURE, TRUE);
}

double
cav_pass_panel_measure_figures (const CavPassSheet *sheet)
{
  double width = LEAST_FIGURE_WIDTH;

  for (guint i = 0; i < sheet->plan->setups->len; i++)
    {
      const CavSetup *setup = g_ptr_array_index (sheet->plan->setups, i);

      for (guint j = 0; j < setup->passes->len; j++)
        {
          const CavPass *pass = g_ptr_array_index (setup->passes, j);
          double fence;

          cav_pass_get_measure (sheet->plan, setup, pass, &fence);
          width = fmax (width, get_figure_width (sheet, fence));
          width = fmax (width, get_figure_width (sheet, pass->height));
        }
    }
  return width;
}

static const CavSetup *
get_setup (const CavPassSheet *sheet, const CavPanelRow *row)
{
  return g_ptr_array_index (sheet->plan->setups, row->setup);
}

static guint
count_cautions (const CavPass *pass)
{
  guint count = 0;

  for (guint i = 0; i < CAV_N_CAUTIONS; i++)
    count += (pass->cautions >> i) & 1u;
  return count;
}

/* What changes in a pass, in lines. */
static GPtrArray *
wrap_change (const CavPassSheet *sheet, const CavSetup *setup, guint index)
{
  const CavPass *pass = g_ptr_array_index (setup->passes, index);
  const CavPass *before = index > 0 ? g_ptr_array_index (setup->passes, index - 1) : NULL;
  g_autofree char *change
      = cav_words_describe_change (sheet->plan, setup, before, pass, sheet->options);

  return cav_lettering_wrap (sheet->lettering, change, CAV_LETTER_LARGE, TRUE,
                             sheet->panel_width - 2 * PAD, CHANGE_LINES);
}

void
cav_pass_panel_measure_row (const CavPassSheet *sheet, CavPanelRow *row)
{
  const CavSetup *setup = get_setup (sheet, row);
  double below = 0;

  for (guint i = 0; i < row->count; i++)
    {
      guint n = count_cautions (g_ptr_array_index (setup->passes, row->first + i));
      g_autoptr (GPtrArray) change = wrap_change (sheet, setup, row->first + i);

      below = fmax (below, change->len * LARGE_LINE + n * LINE);
    }
  row->height = HEADER + CAV_PASS_SHEET_PICTURE + CHANGE + below + PAD;
}

static void
draw_badge (const CavPassSheet *sheet, CavScene *scene, guint number, CavPoint corner)
{
  g_autofree char *text = g_strdup_printf ("%u", number);
  const CavTextStyle style = { .height = number < 10    ? CAV_LETTER_TOOL
                                         : number < 100 ? CAV_LETTER_LARGE
                                                        : CAV_LETTER_SMALL,
                               .bold = TRUE,
                               .ink = CAV_INK_WHITE,
                               .align = CAV_ALIGN_MIDDLE };

  cav_scene_add_box (scene, cav_box (corner.x, corner.y, corner.x + BADGE, corner.y + BADGE),
                     CAV_STYLE_BADGE);
  cav_scene_add_text (
      scene, text, CAV_POINT (corner.x + BADGE / 2, corner.y + (BADGE + style.height) / 2), &style);
}

/* A box to tick for each rail, from the right; one for all of them where they are many. Returns the
 * width that is used. */
static double
draw_ticks (const CavPassSheet *sheet, CavScene *scene, double right, double top)
{
  int rails = sheet->plan->rails;
  int shown = rails <= N_TICKS ? rails : 1;
  int columns = MIN (shown, 4);
  g_autofree char *words = g_strdup_printf ("all %d", rails);
  double width = columns * TICK_STEP;

  for (int i = 0; i < shown; i++)
    {
      double x = right - (columns - i % 4) * TICK_STEP + TICK_STEP - TICK;
      double y = top + (i / 4) * TICK_STEP;

      cav_scene_add_box (scene, cav_box (x, y, x + TICK, y + TICK), CAV_STYLE_TICK_BOX);
    }
  if (rails > N_TICKS)
    {
      CavTextStyle style = small;

      style.align = CAV_ALIGN_END;
      cav_scene_add_text (scene, words, CAV_POINT (right - width - 1, top + 4), &style);
      width += cav_lettering_get_width (sheet->lettering, words, small.height, FALSE) + 1;
    }
  return width;
}

static void
draw_header (
    const CavPassSheet *sheet, CavScene *scene, const CavPass *pass, guint number, CavBox box)
{
  double ticks = draw_ticks (sheet, scene, box.x1 - PAD, box.y0 + PAD);
  double x = box.x0 + BADGE + PAD;
  double room = box.x1 - PAD - ticks - 1 - x;

  draw_badge (sheet, scene, number, CAV_POINT (box.x0, box.y0));
  cav_scene_add_text_within (scene, cav_words_get_down (pass->down),
                             CAV_POINT (x, box.y0 + 1.6 + large.height), &large_bold, room);
  cav_scene_add_text_within (scene, cav_words_get_against (pass->against),
                             CAV_POINT (x, box.y0 + 1.6 + large.height + LARGE_LINE), &large, room);
}

static void
draw_figure (
    const CavPassSheet *sheet, CavScene *scene, const char *label, double mm, CavPoint point)
{
  gboolean about;
  g_autofree char *figure = format_figure (sheet, mm, &about);
  g_autofree char *text = g_strconcat (label, about ? ", about" : "", NULL);

  cav_scene_add_text_within (scene, text, point, &small_grey, sheet->figure_width + PAD);
  cav_scene_add_text (scene, figure, CAV_POINT (point.x, point.y + FIGURE_DOWN), &figure_bold);
}

static void
draw_figures (const CavPassSheet *sheet,
              CavScene *scene,
              const CavSetup *setup,
              const CavPass *pass,
              CavPoint corner)
{
  double fence;
  CavMeasure measure = cav_pass_get_measure (sheet->plan, setup, pass, &fence);
  CavPoint point = CAV_POINT (corner.x, corner.y + CAV_LETTER_SMALL + 0.4);
  g_autofree char *bite
      = cav_length_format_bare (pass->bite, sheet->options->unit, sheet->options->denominator);
  g_autofree char *takes = g_strdup_printf ("Bite %s deep", bite);

  draw_figure (sheet, scene, cav_words_get_measure (measure), fence, point);
  point.y += FIGURE_DOWN + LABEL_DOWN;
  draw_figure (sheet, scene, "Height", pass->height, point);
  point.y += FIGURE_DOWN + LABEL_DOWN;
  cav_scene_add_text_within (scene, takes, point, &small_grey, sheet->figure_width + PAD);
}

static void
draw_caution_sign (CavScene *scene, CavPoint foot)
{
  const CavPoint corners[]
      = { { foot.x + 1.9, foot.y - 3.3 }, { foot.x + 3.8, foot.y }, { foot.x, foot.y } };

  cav_scene_add_polygon (scene, corners, G_N_ELEMENTS (corners), CAV_STYLE_CAUTION);
  cav_scene_add_line (scene, CAV_POINT (foot.x + 1.9, foot.y - 2.3),
                      CAV_POINT (foot.x + 1.9, foot.y - 1.2), CAV_STYLE_CAUTION);
  cav_scene_add_line (scene, CAV_POINT (foot.x + 1.9, foot.y - 0.85),
                      CAV_POINT (foot.x + 1.9, foot.y - 0.45), CAV_STYLE_CAUTION);
}

static void
draw_cautions (CavScene *scene, const CavPass *pass, CavPoint point, double width)
{
  for (guint i = 0; i < CAV_N_CAUTIONS; i++)
    if ((pass->cautions & (1u << i)) != 0)
      {
        point.y += LINE;
        draw_caution_sign (scene, point);
        cav_scene_add_text_within (scene, cav_words_get_caution ((CavCaution)(1u << i)),
                                   CAV_POINT (point.x + CAUTION_SIGN + 0.6, point.y), &small,
                                   width - CAUTION_SIGN - 0.6);
      }
}

static void
draw_panel (const CavPassSheet *sheet,
            CavScene *scene,
            const CavPanelRow *row,
            guint index,
            CavBox box,
            double picture_height)
{
  const CavSetup *setup = get_setup (sheet, row);
  guint pass_index = row->first + index;
  const CavPass *pass = g_ptr_array_index (setup->passes, pass_index);
  g_autoptr (GPtrArray) change = wrap_change (sheet, setup, pass_index);
  double figures = box.x1 - PAD - sheet->figure_width;
  double y = box.y0 + HEADER;

  cav_scene_add_box (scene, box, CAV_STYLE_PANEL);
  draw_header (sheet, scene, pass, row->number + index, box);
  cav_machine_view_draw (scene, sheet->plan, setup, pass, sheet->mark,
                         cav_box (box.x0 + PAD, y, figures - PAD, y + picture_height),
                         sheet->options->unit, sheet->options->denominator);
  draw_figures (sheet, scene, setup, pass, CAV_POINT (figures, y));
  y += picture_height + CHANGE + CAV_LETTER_LARGE - LARGE_LINE;
  for (guint i = 0; i < change->len; i++)
    {
      y += LARGE_LINE;
      cav_scene_add_text (scene, g_ptr_array_index (change, i), CAV_POINT (box.x0 + PAD, y),
                          &large_bold);
    }
  draw_cautions (scene, pass, CAV_POINT (box.x0 + PAD, y + 0.6), box.x1 - box.x0 - 2 * PAD);
}

void
cav_pass_panel_draw_row (const CavPassSheet *sheet,
                         CavScene *scene,
                         const CavPanelRow *row,
                         CavPoint corner,
                         double height)
{
  double x = corner.x + CAV_PASS_SHEET_CARD + CAV_PASS_SHEET_GUTTER;

  for (guint i = 0; i < row->count; i++)
    {
      CavBox box = cav_box (x, corner.y, x + sheet->panel_width, corner.y + height);

      draw_panel (sheet, scene, row, i, box, CAV_PASS_SHEET_PICTURE + height - row->height);
      x += sheet->panel_width + CAV_PASS_SHEET_GUTTER;
    }
}

/* Lines of wrapped text under each other; returns the baseline of the last. */
static double
draw_lines (const CavPassSheet *sheet,
            CavScene *scene,
            const char *text,
            CavPoint point,
            const CavTextStyle *style,
            double width,
            guint max_lines)
{
  g_autofree char *clean = cav_lettering_clean (text);
  g_autoptr (GPtrArray) lines
      = cav_lettering_wrap (sheet->lettering, clean, style->height, style->bold, width, max_lines);

  for (guint i = 0; i < lines->len; i++)
    {
      cav_scene_add_text (scene, g_ptr_array_index (lines, i), point, style);
      if (i + 1 < lines->len)
        point.y += style->height * CAV_LETTER_LEADING;
    }
  return point.y;
}

void
cav_pass_panel_draw_card (const CavPassSheet *sheet,
                          CavScene *scene,
                          const CavPanelRow *row,
                          CavPoint corner,
                          double height)
{
  const CavSetup *setup = get_setup (sheet, row);
  double width = CAV_PASS_SHEET_CARD - PAD;
  double y = corner.y + CAV_LETTER_LARGE + 1.2;
  g_autofree char *heading
      = row->first > 0
            ? g_strdup_printf ("Setup %u, continued", row->setup + 1)
            : g_strdup_printf ("Setup %u of %u", row->setup + 1, sheet->plan->setups->len);
  g_autofree char *name = cav_words_dup_tool (sheet->plan, setup);
  g_autofree char *about = cav_words_describe_tool (sheet->plan, setup, sheet->options);
  g_autofree char *setting = cav_words_describe_setting (setup);

  cav_scene_add_text_within (scene, heading, CAV_POINT (corner.x, y), &large, width);
  y += TOOL_LINE + 1.2;
  y = draw_lines (sheet, scene, cav_words_get_machine (setup->machine), CAV_POINT (corner.x, y),
                  &tool_bold, width, 2);
  y = draw_lines (sheet, scene, name, CAV_POINT (corner.x, y + TOOL_LINE), &tool, width, 3);
  if (*about != '\0')
    y = draw_lines (sheet, scene, about, CAV_POINT (corner.x, y + LINE + 0.8), &small, width, 2);
  if (setting != NULL)
    y = draw_lines (sheet, scene, setting, CAV_POINT (corner.x, y + LARGE_LINE + 1.4), &large_bold,
                    width, 2);
  if (row->first == 0 && setup->tool_stays)
    draw_lines (sheet, scene, "Still in from before", CAV_POINT (corner.x, y + LINE + 1.2), &small,
                width, 1);
}
