/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>

#include "drawing/cav-pass-sheet-private.h"

/* mm */
#define LINE (CAV_LETTER_SMALL * CAV_LETTER_LEADING)
#define LABEL_WIDTH 24.0
#define SECTION_WIDTH 58.0
#define SECTION_HEIGHT 34.0
#define AFTER_TITLE 4.0
#define HEAD_GAP 3.0 /* between the head and what follows */
#define LATER_HEAD 7.5
#define KIND_WIDTH 30.0 /* of the words for this kind of sheet */
#define PAGE_WIDTH 34.0 /* of "Page 1 of 2" */
#define NAME_ROOM 5.2   /* for the names of the sides around the little section */
#define RING_SPACING 2.6

#define FEED                                                                                       \
  "Table saw from the front against the teeth; router table, fence at the back, from right to "    \
  "left. All rails go through a pass before anything is moved."
#define PICTURES                                                                                   \
  "Seen from the outfeed side, fence at the left. Pencil the black triangle on every rail's end; " \
  "its square corner points to face and inside."
#define FENCE "Set it after the height. + is away from the blade, or back: more cutter shows."
#define FOOT                                                                                       \
  "The machine's manual and local rules come first. Unplug to change a tool. Guards on wherever "  \
  "they fit; eye and ear protection; push block. Try each setting on the spare piece. Stop when "  \
  "in doubt."

typedef struct
{
  const char *label;
  char *text; /* owned */
} HeadItem;

#define N_HEAD_ITEMS 6

static const CavTextStyle title_style
    = { .height = CAV_LETTER_TITLE, .bold = TRUE, .ink = CAV_INK_BLACK };
static const CavTextStyle label_style
    = { .height = CAV_LETTER_SMALL, .bold = TRUE, .ink = CAV_INK_BLACK };
static const CavTextStyle text_style = { .height = CAV_LETTER_SMALL, .ink = CAV_INK_BLACK };

static void
fill_head_items (const CavPassSheet *sheet, HeadItem *items)
{
  items[0] = (HeadItem){ "Prepare", cav_words_describe_blank (sheet->plan, sheet->options) };
  items[1] = (HeadItem){ "Lay out", cav_words_list_tools (sheet->plan, sheet->options) };
  items[2] = (HeadItem){ "Feed", g_strdup (FEED) };
  items[3] = (HeadItem){ "Fence", g_strdup (FENCE) };
  items[4] = (HeadItem){ "Pictures", g_strdup (PICTURES) };
  items[5] = (HeadItem){ "Plan", cav_words_describe_amount (sheet->plan, sheet->options) };
}

static void
clear_head_items (HeadItem *items)
{
  for (guint i = 0; i < N_HEAD_ITEMS; i++)
    g_free (items[i].text);
}

static double
get_head_text_width (const CavPassSheet *sheet)
{
  return sheet->width - 2 * CAV_PASS_SHEET_MARGIN - SECTION_WIDTH - 6 - LABEL_WIDTH;
}

static GPtrArray *
wrap_item (const CavPassSheet *sheet, const HeadItem *item)
{
  g_autofree char *clean = cav_lettering_clean (item->text);

  return cav_lettering_wrap (sheet->lettering, clean, CAV_LETTER_SMALL, FALSE,
                             get_head_text_width (sheet), 3);
}

static double
measure_head (const CavPassSheet *sheet)
{
  HeadItem items[N_HEAD_ITEMS];
  double height = CAV_LETTER_TITLE + AFTER_TITLE;

  fill_head_items (sheet, items);
  for (guint i = 0; i < N_HEAD_ITEMS; i++)
    {
      g_autoptr (GPtrArray) lines = wrap_item (sheet, &items[i]);

      height += lines->len * LINE;
    }
  clear_head_items (items);
  return fmax (height, SECTION_HEIGHT) + HEAD_GAP;
}

void
cav_pass_sheet_measure (CavPassSheet *sheet)
{
  double foot_width = sheet->width - 2 * CAV_PASS_SHEET_MARGIN - PAGE_WIDTH - 4;

  sheet->head_height = measure_head (sheet);
  sheet->foot = cav_lettering_wrap (sheet->lettering, FOOT, CAV_LETTER_SMALL, FALSE, foot_width, 0);
  sheet->foot_height = sheet->foot->len * LINE + 2.2;
}

double
cav_pass_sheet_get_head_height (const CavPassSheet *sheet, gboolean first)
{
  return first ? sheet->head_height : LATER_HEAD;
}

/* The finished section as it stands in the blank, with its sides and the mark. */
static void
draw_section (const CavPassSheet *sheet, CavScene *scene, CavBox box)
{
  const CavBlank *blank = &sheet->plan->blank;
  double scale = fmin ((box.x1 - box.x0 - 2 * NAME_ROOM) / blank->width,
                       (box.y1 - box.y0 - 2 * NAME_ROOM) / blank->thickness);
  double x = (box.x0 + box.x1 - blank->width * scale) / 2;
  double y = (box.y0 + box.y1 - blank->thickness * scale) / 2;
  CavTransform map = { scale, 0, x, 0, -scale, y + blank->thickness * scale };
  g_autoptr (CavRegion) whole = cav_blank_create_region (blank);
  CavTextStyle style = text_style;

  cav_scene_add_region (scene, whole, map, CAV_STYLE_WASTE);
  cav_scene_add_region (scene, whole, map, CAV_STYLE_BLANK);
  cav_end_grain_draw (scene, sheet->plan->profile, blank, map, RING_SPACING);
  cav_scene_add_region (scene, sheet->plan->profile, map, CAV_STYLE_OUTLINE);
  cav_end_mark_draw (scene, sheet->mark, map);
  style.align = CAV_ALIGN_MIDDLE;
  cav_scene_add_text (scene, "face", CAV_POINT (x + blank->width * scale / 2, y - 1.4), &style);
  cav_scene_add_text (
      scene, "back",
      CAV_POINT (x + blank->width * scale / 2, y + blank->thickness * scale + 1 + style.height),
      &style);
  style.turned = TRUE;
  cav_scene_add_text (scene, "inside", CAV_POINT (x - 1.4, y + blank->thickness * scale / 2),
                      &style);
  cav_scene_add_text (
      scene, "outside",
      CAV_POINT (x + blank->width * scale + 1 + style.height, y + blank->thickness * scale / 2),
      &style);
}

/* What kind of sheet this is, at the right end of the title's line. */
static void
draw_kind (CavScene *scene, double right, double y)
{
  const CavTextStyle style
      = { .height = CAV_LETTER_SMALL, .ink = CAV_INK_GREY, .align = CAV_ALIGN_END };

  cav_scene_add_text (scene, "Pass sheet", CAV_POINT (right, y), &style);
}

static void
draw_first_head (const CavPassSheet *sheet, CavScene *scene)
{
  HeadItem items[N_HEAD_ITEMS];
  double x = CAV_PASS_SHEET_MARGIN;
  double y = CAV_PASS_SHEET_MARGIN + CAV_LETTER_TITLE;
  double right = sheet->width - CAV_PASS_SHEET_MARGIN;
  g_autofree char *title = cav_sheet_dup_title (sheet->project);

  cav_scene_add_text_within (scene, title, CAV_POINT (x, y), &title_style,
                             right - SECTION_WIDTH - 6 - KIND_WIDTH - x);
  draw_kind (scene, right - SECTION_WIDTH - 6, y);
  y += AFTER_TITLE - LINE + CAV_LETTER_SMALL + 1.8;
  fill_head_items (sheet, items);
  for (guint i = 0; i < N_HEAD_ITEMS; i++)
    {
      g_autoptr (GPtrArray) lines = wrap_item (sheet, &items[i]);

      for (guint j = 0; j < lines->len; j++)
        {
          y += LINE;
          if (j == 0)
            cav_scene_add_text (scene, items[i].label, CAV_POINT (x, y), &label_style);
          cav_scene_add_text (scene, g_ptr_array_index (lines, j), CAV_POINT (x + LABEL_WIDTH, y),
                              &text_style);
        }
    }
  clear_head_items (items);
  draw_section (sheet, scene,
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
  draw_kind (scene, sheet->width - CAV_PASS_SHEET_MARGIN, y);
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
  g_autofree char *number = g_strdup_printf ("Page %u of %u", page, n_pages);
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
  style = text_style;
  style.align = CAV_ALIGN_END;
  if (sheet->options->date != NULL)
    cav_scene_add_text_within (scene, sheet->options->date,
                               CAV_POINT (right, top + 2.2 + CAV_LETTER_SMALL + LINE), &style,
                               PAGE_WIDTH);
}
