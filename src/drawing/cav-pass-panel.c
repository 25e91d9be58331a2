/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/cav-pass-panel-private.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#include "drawing/cav-machine-view.h"

#define PAD CAV_PANEL_PAD
#define LINE CAV_PANEL_LINE
#define BADGE CAV_PANEL_BADGE
#define TICK CAV_PANEL_TICK
/* Panels narrower than this have their boxes in two rows. */
#define NARROW 95.0

static const CavTextStyle small = { .height = CAV_LETTER_SMALL, .ink = CAV_INK_BLACK };
static const CavTextStyle small_grey = { .height = CAV_LETTER_SMALL, .ink = CAV_INK_GREY };
static const CavTextStyle side = { .height = CAV_PANEL_SIDE, .ink = CAV_INK_BLACK };
static const CavTextStyle side_bold
    = { .height = CAV_PANEL_SIDE, .bold = TRUE, .ink = CAV_INK_BLACK };

static double
draw_badge (CavScene *scene, const CavPassGroup *group, CavPoint corner)
{
  guint last = group->number + group->count - 1;
  g_autofree char *text = group->count > 1 ? g_strdup_printf ("%u–%u", group->number, last)
                                           : g_strdup_printf ("%u", group->number);
  double width = cav_panel_get_badge_width (group);
  const CavTextStyle style
      = { .height = group->count > 1 || last >= 10 ? CAV_LETTER_LARGE : CAV_LETTER_TOOL,
          .bold = TRUE,
          .ink = CAV_INK_WHITE,
          .align = CAV_ALIGN_MIDDLE };
  CavTextStyle fitting = style;

  if (last >= 100)
    fitting.height = CAV_LETTER_SMALL;
  cav_scene_add_box (scene, cav_box (corner.x, corner.y, corner.x + width, corner.y + BADGE),
                     CAV_STYLE_BADGE);
  cav_scene_add_text (scene, text,
                      CAV_POINT (corner.x + width / 2, corner.y + (BADGE + fitting.height) / 2),
                      &fitting);
  return width;
}

/* A box to tick for each piece, from the right; one for all of them where they are many. Returns
 * the width that is used. */
static double
draw_ticks (const CavPassSheet *sheet, CavScene *scene, double right, double top, int most)
{
  int pieces = sheet->n_pieces;
  int shown = pieces <= 2 * most ? pieces : 1;
  int columns = MIN (shown, most);
  g_autofree char *words
      = g_strdup_printf (/* Translators: all 4 pieces. */ g_dngettext (GETTEXT_PACKAGE, "all %d",
                                                                       "all %d", (gulong)pieces),
                         pieces);
  double width = columns * CAV_PANEL_TICK_STEP;

  for (int i = 0; i < shown; i++)
    {
      double x = right - (columns - i % most) * CAV_PANEL_TICK_STEP + CAV_PANEL_TICK_STEP - TICK;
      double y = top + (i / most) * CAV_PANEL_TICK_STEP;

      cav_scene_add_box (scene, cav_box (x, y, x + TICK, y + TICK), CAV_STYLE_TICK_BOX);
    }
  if (pieces > 2 * most)
    {
      CavTextStyle style = small;

      style.align = CAV_ALIGN_END;
      cav_scene_add_text (scene, words, CAV_POINT (right - width - 1, top + 4), &style);
      width += cav_lettering_get_width (sheet->lettering, words, small.height, FALSE) + 1;
    }
  return width;
}

/* Which side lies where is never cut: long words stand in smaller letters. */
static void
add_side (const CavPassSheet *sheet,
          CavScene *scene,
          const char *text,
          CavPoint point,
          const CavTextStyle *style,
          double room)
{
  CavTextStyle fitting = *style;
  double width = cav_lettering_get_width (sheet->lettering, text, style->height, style->bold);

  if (width > room)
    fitting.height = fmax (CAV_LETTER_SMALL, style->height * room / width - 0.01);
  cav_scene_add_text_within (scene, text, point, &fitting, room);
}

static void
draw_header (const CavPassSheet *sheet,
             CavScene *scene,
             const CavPassGroup *group,
             const CavPanelShape *shape,
             CavBox box)
{
  const CavPass *pass = cav_pass_group_get_pass (sheet->plan, group, 0);
  /* The boxes of a ladder stand beside its settings. */
  double ticks = group->ladder == CAV_LADDER_NONE ? draw_ticks (
                     sheet, scene, box.x1 - PAD, box.y0 + PAD,
                     box.x1 - box.x0 < NARROW ? CAV_PANEL_TICKS_IN_ROW / 2 : CAV_PANEL_TICKS_IN_ROW)
                                                  : 0;
  double badge = draw_badge (scene, group, CAV_POINT (box.x0, box.y0));
  double x = box.x0 + badge + PAD;
  double room = shape->wide ? box.x0 + PAD + shape->zone_width - x : box.x1 - PAD - ticks - 1 - x;

  add_side (sheet, scene, cav_words_get_down (pass->down),
            CAV_POINT (x, box.y0 + 1.4 + side.height), &side_bold, room);
  add_side (sheet, scene, cav_words_get_against (pass->against),
            CAV_POINT (x, box.y0 + 1.4 + side.height + CAV_PANEL_SIDE_LINE), &side, room);
}

/* The sign of what was rounded away stands with the label: the figure is to be set as it is. */
static void
draw_figure (const CavPassSheet *sheet,
             CavScene *scene,
             const char *label,
             double mm,
             CavPoint corner,
             double width)
{
  const CavTextStyle figure = { .height = sheet->figure, .bold = TRUE, .ink = CAV_INK_BLACK };
  gboolean about;
  g_autofree char *text = cav_pass_sheet_format_figure (sheet, mm, &about);
  g_autofree char *whole = cav_panel_dup_label (sheet, label, mm);

  cav_scene_add_text_within (scene, whole, CAV_POINT (corner.x, corner.y + small_grey.height + 0.4),
                             &small_grey, width);
  cav_scene_add_text (
      scene, text, CAV_POINT (corner.x, corner.y + CAV_PANEL_LABEL (figure.height) + figure.height),
      &figure);
}

static void
draw_bite (const CavPassSheet *sheet,
           CavScene *scene,
           const CavPassGroup *group,
           CavPoint corner,
           double width)
{
  g_autofree char *text = cav_panel_dup_bite (sheet, group);

  cav_scene_add_text_within (scene, text, CAV_POINT (corner.x, corner.y + small_grey.height + 0.4),
                             &small_grey, width);
}

/* Fence, height and bite under each other, or in a row with the bite below. */
static void
draw_figures (const CavPassSheet *sheet,
              CavScene *scene,
              const CavPassGroup *group,
              CavPoint corner,
              double width,
              gboolean in_row)
{
  const CavSetup *setup = cav_pass_sheet_get_setup (sheet, group);
  const CavPass *pass = cav_pass_group_get_pass (sheet->plan, group, 0);
  double block = cav_panel_get_block_height (sheet);
  CavPoint height = in_row ? CAV_POINT (corner.x + width / 2 + 1, corner.y)
                           : CAV_POINT (corner.x, corner.y + block);
  double fence;
  CavMeasure measure = cav_pass_get_measure (sheet->plan, setup, pass, &fence);

  draw_figure (sheet, scene, cav_words_get_measure (measure), fence, corner,
               in_row ? width / 2 - 1 : width);
  draw_figure (sheet, scene, _ ("Height"), pass->height, height, in_row ? width / 2 - 1 : width);
  if (in_row)
    cav_scene_add_line (scene, CAV_POINT (height.x - 4, corner.y + 1),
                        CAV_POINT (height.x - 4, corner.y + block - 1), CAV_STYLE_THIN_RULE);
  draw_bite (sheet, scene, group, CAV_POINT (corner.x, corner.y + (in_row ? block : 2 * block)),
             width);
}

/* What a cutter shows beside a fence that stays is more at some heights than at others: the figure
 * is that of the first one, when the fence is set. */
static void
draw_at (const CavPassSheet *sheet,
         CavScene *scene,
         const CavPassGroup *group,
         CavPoint corner,
         double width)
{
  g_autofree char *text = cav_panel_dup_at (sheet, group);

  cav_scene_add_text_within (scene, text, CAV_POINT (corner.x, corner.y + small.height + 0.4),
                             &small, width);
}

/* The setting that stays, and beside or below it those that climb. */
static void
draw_ladder (const CavPassSheet *sheet,
             CavScene *scene,
             const CavPassGroup *group,
             CavPoint corner,
             const CavPanelShape *shape)
{
  const CavSetup *setup = cav_pass_sheet_get_setup (sheet, group);
  const CavPass *pass = cav_pass_group_get_pass (sheet->plan, group, 0);
  double block = cav_panel_get_block_height (sheet);
  CavPoint ladder = shape->ladder_below
                        ? CAV_POINT (corner.x, corner.y + cav_panel_get_fixed_height (sheet, group))
                        : CAV_POINT (corner.x + shape->fixed_width, corner.y);
  double room = shape->ladder_below ? shape->figures_width : shape->fixed_width - PAD;
  double fence;
  CavMeasure measure = cav_pass_get_measure (sheet->plan, setup, pass, &fence);

  if (group->ladder == CAV_LADDER_HEIGHT)
    draw_figure (sheet, scene, cav_words_get_measure (measure), fence, corner, room);
  else
    draw_figure (sheet, scene, _ ("Height"), pass->height, corner, room);
  if (cav_pass_ladder_turns (sheet, group))
    {
      draw_at (sheet, scene, group, CAV_POINT (corner.x, corner.y + block), room);
      block += LINE;
    }
  draw_bite (sheet, scene, group, CAV_POINT (corner.x, corner.y + block), room);
  cav_pass_ladder_draw (sheet, scene, group, ladder, shape->columns);
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
draw_words (const CavPassSheet *sheet,
            CavScene *scene,
            const CavPassGroup *group,
            CavPoint corner,
            double width)
{
  g_autoptr (GPtrArray) changes = cav_panel_wrap_changes (sheet, group, width);
  g_autoptr (GPtrArray) hint = cav_panel_wrap_hint (sheet, group, width);
  g_autoptr (GArray) starts = g_array_new (FALSE, FALSE, sizeof (guint));
  g_autoptr (GPtrArray) cautions = cav_panel_wrap_cautions (sheet, group, width, starts);
  CavPoint foot
      = CAV_POINT (corner.x, corner.y + CAV_PANEL_CHANGE + side.height - CAV_PANEL_SIDE_LINE);

  for (guint i = 0; i < changes->len; i++)
    {
      foot.y += CAV_PANEL_SIDE_LINE;
      cav_scene_add_text (scene, g_ptr_array_index (changes, i), foot, &side_bold);
    }
  foot.y += 0.4;
  for (guint i = 0; i < hint->len; i++)
    {
      foot.y += LINE;
      cav_scene_add_text (scene, g_ptr_array_index (hint, i), foot, &small);
    }
  for (guint i = 0, next = 0; i < cautions->len; i++)
    {
      foot.y += LINE;
      while (next < starts->len && g_array_index (starts, guint, next) < i)
        next++;
      if (next < starts->len && g_array_index (starts, guint, next) == i)
        draw_caution_sign (scene, foot);
      cav_scene_add_text (scene, g_ptr_array_index (cautions, i),
                          CAV_POINT (foot.x + CAV_PANEL_SIGN + 0.6, foot.y), &small);
    }
}

void
cav_pass_panel_draw (
    const CavPassSheet *sheet, CavScene *scene, const CavPassGroup *group, CavBox box, double below)
{
  CavPanelShape shape
      = cav_panel_shape_find (sheet, group, box.x1 - box.x0, box.y1 - box.y0, below);
  g_autoptr (GPtrArray) passes = cav_panel_create_passes (sheet, group);
  CavBox picture = cav_box (box.x0 + PAD, box.y0 + shape.header, box.x1 - PAD,
                            box.y0 + shape.header + shape.body);
  CavPoint figures = CAV_POINT (box.x1 - PAD - shape.figures_width, picture.y0);
  CavPoint words = CAV_POINT (picture.x0, picture.y1);
  double room = shape.figures_width;
  const CavMachineLook look = { .unit = sheet->options->unit,
                                .denominator = sheet->options->denominator,
                                .letters = CAV_LETTER_SMALL,
                                .progress = 1 };

  if (shape.figures_below)
    {
      picture.y1 -= shape.figures_height;
      figures = CAV_POINT (picture.x0, picture.y1);
      room = shape.words_width;
    }
  else if (shape.wide)
    {
      picture.x1 = picture.x0 + shape.picture_width;
      figures = CAV_POINT (picture.x0 + shape.zone_width + PAD, box.y0 + CAV_PANEL_TOP);
      if (shape.words_beside)
        words = CAV_POINT (figures.x + shape.figures_width + PAD, box.y0 + shape.words_top);
    }
  else
    picture.x1 = figures.x - PAD;
  cav_scene_add_box (scene, box, CAV_STYLE_PANEL);
  draw_header (sheet, scene, group, &shape, box);
  cav_machine_view_draw_passes (scene, sheet->plan, cav_pass_sheet_get_setup (sheet, group),
                                (const CavPass *const *)passes->pdata, passes->len, sheet->mark,
                                picture, &look);
  if (group->ladder != CAV_LADDER_NONE)
    draw_ladder (sheet, scene, group, figures, &shape);
  else
    draw_figures (sheet, scene, group, figures, room, shape.figures_below && shape.in_row);
  draw_words (sheet, scene, group, words, shape.words_width);
}
