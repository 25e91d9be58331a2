/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <glib/gi18n-lib.h>
#include <math.h>

#include "drawing/cav-pass-hints.h"
#include "drawing/cav-pass-sheet-private.h"

/* mm */
#define LINE (CAV_LETTER_SMALL * CAV_LETTER_LEADING)
#define LABEL_GAP 4.0 /* between the widest label and what stands beside */
#define SECTION_WIDTH 58.0
#define SECTION_HEIGHT 30.0
#define AFTER_TITLE 4.0
#define HEAD_GAP 3.0 /* between the head and what follows */
#define LATER_HEAD 7.5
#define KIND_WIDTH 56.0 /* of the words for this kind of sheet */
#define PAGE_WIDTH 34.0 /* of "Page 1 of 2" */
#define NAME_ROOM 5.2   /* for the names of the sides around the little section */
#define RING_SPACING 2.6

static const CavTextStyle title_style
    = { .height = CAV_LETTER_TITLE, .bold = TRUE, .ink = CAV_INK_BLACK };
static const CavTextStyle label_style
    = { .height = CAV_LETTER_SMALL, .bold = TRUE, .ink = CAV_INK_BLACK };
static const CavTextStyle text_style = { .height = CAV_LETTER_SMALL, .ink = CAV_INK_BLACK };

void
cav_pass_sheet_fill_head (const CavPassSheet *sheet, CavHeadItem *items)
{
  g_autofree char *tools = cav_words_list_tools (sheet->plan, sheet->options);
  g_autofree char *helpers = cav_words_list_helpers (sheet->plan);

  items[0] = (CavHeadItem){ C_ ("head of the pass sheet", "Prepare"),
                            cav_words_describe_blank (sheet->plan, sheet->options) };
  items[1] = (CavHeadItem){ C_ ("head of the pass sheet", "Lay out"),
                            g_strdup_printf (/* Translators: tools, each with a stop; things. */ _ (
                                                 "%s At hand: %s."),
                                             tools, helpers) };
  items[2] = (CavHeadItem){ C_ ("head of the pass sheet", "Plan"),
                            cav_words_describe_amount (sheet->plan, sheet->options) };
  items[3]
      = (CavHeadItem){ C_ ("head of the pass sheet", "Feed"), g_strdup (cav_words_get_feed ()) };
  items[4]
      = (CavHeadItem){ C_ ("head of the pass sheet", "Fence"), g_strdup (cav_words_get_fence ()) };
  items[5] = (CavHeadItem){ C_ ("head of the pass sheet", "Pictures"),
                            g_strdup (cav_words_get_pictures ()) };
}

void
cav_pass_sheet_clear_head (CavHeadItem *items)
{
  for (guint i = 0; i < CAV_HEAD_ITEMS; i++)
    g_free (items[i].text);
}

/* With the gap to what stands beside the labels. */
static double
measure_labels (const CavPassSheet *sheet, const CavHeadItem *items)
{
  double width = 0;

  for (guint i = 0; i < CAV_HEAD_ITEMS; i++)
    width = fmax (width, cav_lettering_get_width (sheet->lettering, items[i].label,
                                                  label_style.height, TRUE));
  return width + LABEL_GAP;
}

/* Lines beside the section are shorter than those below it. */
static GPtrArray *
wrap_item (const CavPassSheet *sheet, const CavHeadItem *item, double labels, double y)
{
  g_autofree char *clean = cav_lettering_clean (item->text);
  double width = sheet->width - 2 * CAV_PASS_SHEET_MARGIN - labels
                 - (y < SECTION_HEIGHT ? SECTION_WIDTH + 6 : 0);

  return cav_lettering_wrap (sheet->lettering, clean, CAV_LETTER_SMALL, FALSE, width, 0);
}

/* Where the first line of the head begins, below the margin. */
#define HEAD_TEXT (CAV_LETTER_TITLE + AFTER_TITLE)

static double
measure_head (const CavPassSheet *sheet)
{
  CavHeadItem items[CAV_HEAD_ITEMS];
  double height = HEAD_TEXT;
  double labels;

  cav_pass_sheet_fill_head (sheet, items);
  labels = measure_labels (sheet, items);
  for (guint i = 0; i < CAV_HEAD_ITEMS; i++)
    {
      g_autoptr (GPtrArray) lines = wrap_item (sheet, &items[i], labels, height);

      height += lines->len * LINE;
    }
  cav_pass_sheet_clear_head (items);
  return fmax (height, SECTION_HEIGHT) + HEAD_GAP;
}

void
cav_pass_sheet_measure (CavPassSheet *sheet)
{
  double foot_width = sheet->width - 2 * CAV_PASS_SHEET_MARGIN - PAGE_WIDTH - 4;

  sheet->head_height = measure_head (sheet);
  g_clear_pointer (&sheet->foot, g_ptr_array_unref);
  sheet->foot = cav_lettering_wrap (sheet->lettering, cav_words_get_foot (), CAV_LETTER_SMALL,
                                    FALSE, foot_width, 0);
  sheet->foot_height = sheet->foot->len * LINE + 2.2;
}

double
cav_pass_sheet_get_head_height (const CavPassSheet *sheet, gboolean first)
{
  return first ? sheet->head_height : LATER_HEAD;
}

static void
name_sides (CavScene *scene, CavBox box)
{
  CavTextStyle style = text_style;
  double x = (box.x0 + box.x1) / 2;
  double y = (box.y0 + box.y1) / 2;

  style.align = CAV_ALIGN_MIDDLE;
  cav_scene_add_text (scene, C_ ("side in a sentence", "face"), CAV_POINT (x, box.y0 - 1.4),
                      &style);
  cav_scene_add_text (scene, C_ ("side in a sentence", "back"),
                      CAV_POINT (x, box.y1 + 1 + style.height), &style);
  style.turned = TRUE;
  cav_scene_add_text (scene, C_ ("side in a sentence", "inside"), CAV_POINT (box.x0 - 1.4, y),
                      &style);
  cav_scene_add_text (scene, C_ ("side in a sentence", "outside"),
                      CAV_POINT (box.x1 + 1 + style.height, y), &style);
}

void
cav_pass_sheet_draw_section (const CavPassSheet *sheet,
                             CavScene *scene,
                             const CavRegion *leftover,
                             CavBox box)
{
  const CavBlank *blank = &sheet->plan->blank;
  double scale = fmin ((box.x1 - box.x0 - 2 * NAME_ROOM) / blank->width,
                       (box.y1 - box.y0 - 2 * NAME_ROOM) / blank->thickness);
  double x = (box.x0 + box.x1 - blank->width * scale) / 2;
  double y = (box.y0 + box.y1 - blank->thickness * scale) / 2;
  CavTransform map = { scale, 0, x, 0, -scale, y + blank->thickness * scale };
  g_autoptr (CavRegion) whole = cav_blank_create_region (blank);

  cav_scene_add_region (scene, whole, map, CAV_STYLE_WASTE);
  cav_scene_add_region (scene, whole, map, CAV_STYLE_BLANK);
  cav_end_grain_draw (scene, sheet->plan->profile, blank, map, RING_SPACING);
  if (leftover != NULL)
    cav_scene_add_region (scene, leftover, map, CAV_STYLE_BADGE);
  cav_scene_add_region (scene, sheet->plan->profile, map, CAV_STYLE_OUTLINE);
  cav_end_mark_draw (scene, sheet->mark, map);
  name_sides (scene, cav_box (x, y, x + blank->width * scale, y + blank->thickness * scale));
}

/* What kind of sheet this is and of what day, at the right end of the title's line. */
static void
draw_kind (const CavPassSheet *sheet, CavScene *scene, double right, double y)
{
  const CavTextStyle style
      = { .height = CAV_LETTER_SMALL, .ink = CAV_INK_GREY, .align = CAV_ALIGN_END };
  const char *date = sheet->options->date;
  g_autofree char *text = g_strconcat (_ ("Pass sheet"), date != NULL ? ", " : "", date, NULL);

  cav_scene_add_text_within (scene, text, CAV_POINT (right, y), &style, KIND_WIDTH - 4);
}

static void
draw_first_head (const CavPassSheet *sheet, CavScene *scene)
{
  CavHeadItem items[CAV_HEAD_ITEMS];
  double labels;
  double x = CAV_PASS_SHEET_MARGIN;
  double y = CAV_PASS_SHEET_MARGIN + CAV_LETTER_TITLE;
  double right = sheet->width - CAV_PASS_SHEET_MARGIN;
  g_autofree char *title = cav_sheet_dup_title (sheet->project);

  cav_scene_add_text_within (scene, title, CAV_POINT (x, y), &title_style,
                             right - SECTION_WIDTH - 6 - KIND_WIDTH - x);
  draw_kind (sheet, scene, right - SECTION_WIDTH - 6, y);
  y = HEAD_TEXT;
  cav_pass_sheet_fill_head (sheet, items);
  labels = measure_labels (sheet, items);
  for (guint i = 0; i < CAV_HEAD_ITEMS; i++)
    {
      g_autoptr (GPtrArray) lines = wrap_item (sheet, &items[i], labels, y);

      for (guint j = 0; j < lines->len; j++)
        {
          double foot = CAV_PASS_SHEET_MARGIN + y + CAV_LETTER_SMALL + 1.8;

          if (j == 0)
            cav_scene_add_text (scene, items[i].label, CAV_POINT (x, foot), &label_style);
          cav_scene_add_text (scene, g_ptr_array_index (lines, j), CAV_POINT (x + labels, foot),
                              &text_style);
          y += LINE;
        }
    }
  cav_pass_sheet_clear_head (items);
  cav_pass_sheet_draw_section (sheet, scene, NULL,
                               cav_box (right - SECTION_WIDTH, CAV_PASS_SHEET_MARGIN, right,
                                        CAV_PASS_SHEET_MARGIN + SECTION_HEIGHT));
}

static void
draw_later_head (const CavPassSheet *sheet, CavScene *scene)
{
  const CavTextStyle style = { .height = CAV_LETTER_LARGE, .bold = TRUE, .ink = CAV_INK_BLACK };
  double y = CAV_PASS_SHEET_MARGIN + CAV_LETTER_LARGE;
  g_autofree char *title = cav_sheet_dup_title (sheet->project);

  cav_scene_add_text_within (scene, title, CAV_POINT (CAV_PASS_SHEET_MARGIN, y), &style,
                             sheet->width - 2 * CAV_PASS_SHEET_MARGIN - KIND_WIDTH);
  draw_kind (sheet, scene, sheet->width - CAV_PASS_SHEET_MARGIN, y);
}

void
cav_pass_sheet_draw_head (const CavPassSheet *sheet, CavScene *scene, gboolean first)
{
  if (first)
    draw_first_head (sheet, scene);
  else
    draw_later_head (sheet, scene);
}

void
cav_pass_sheet_draw_foot (const CavPassSheet *sheet, CavScene *scene, guint page, guint n_pages)
{
  const GPtrArray *lines = sheet->foot;
  g_autofree char *number = g_strdup_printf (_ ("Page %u of %u"), page, n_pages);
  double top = sheet->height - CAV_PASS_SHEET_MARGIN - sheet->foot_height;
  double right = sheet->width - CAV_PASS_SHEET_MARGIN;
  double y = top + 1.6;
  CavTextStyle style = label_style;

  cav_scene_add_line (scene, CAV_POINT (CAV_PASS_SHEET_MARGIN, top), CAV_POINT (right, top),
                      CAV_STYLE_THIN_RULE);
  for (guint i = 0; i < lines->len; i++)
    {
      y += i == 0 ? CAV_LETTER_SMALL + 0.6 : LINE;
      cav_scene_add_text (scene, g_ptr_array_index (lines, i), CAV_POINT (CAV_PASS_SHEET_MARGIN, y),
                          &text_style);
    }
  style.align = CAV_ALIGN_END;
  cav_scene_add_text (scene, number, CAV_POINT (right, top + 2.2 + CAV_LETTER_SMALL), &style);
}
