/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <glib/gi18n-lib.h>
#include <math.h>

#include "drawing/cav-pass-hints.h"
#include "drawing/cav-pass-sheet-private.h"
#include "drawing/cav-plan-section.h"

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

  items[0]
      = (CavHeadItem){ C_ ("head of the pass sheet", "Prepare"),
                       cav_words_describe_blank (sheet->project, sheet->plan, sheet->options) };
  const char *assumed = cav_words_get_assumed (sheet->plan);
  /* Translators: tools, each with a stop; things. */
  g_autofree char *lay_out = g_strdup_printf (_ ("%s At hand: %s."), tools, helpers);

  items[1] = (CavHeadItem){ C_ ("head of the pass sheet", "Lay out"),
                            assumed != NULL ? g_strconcat (lay_out, " ", assumed, NULL)
                                            : g_steal_pointer (&lay_out) };
  items[2] = (CavHeadItem){ C_ ("head of the pass sheet", "Plan"),
                            cav_words_describe_amount (sheet->plan, sheet->options) };
  items[3]
      = (CavHeadItem){ C_ ("head of the pass sheet", "Feed"), g_strdup (cav_words_get_feed ()) };
  items[4] = (CavHeadItem){ C_ ("head of the pass sheet", "Fence"),
                            g_strdup (cav_words_get_fence (sheet->plan)) };
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
  cav_plan_section_draw (scene, sheet->plan, &sheet->mark,
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
  cav_scene_add_page_number (scene, page, n_pages, FALSE,
                             CAV_POINT (right, top + 2.2 + CAV_LETTER_SMALL), &style);
}
