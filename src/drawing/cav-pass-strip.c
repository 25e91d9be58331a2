/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <glib/gi18n-lib.h>
#include <math.h>

#include "drawing/cav-pass-sheet-private.h"
#include "drawing/cav-plan-section.h"

/*
 * The pass sheet on continuous paper: one panel below the other, 100 mm wide, as long as it takes.
 * PDF pages end at 200 inches, so that a longer strip goes on in a second one.
 */

#define WIDTH 100.0
#define MARGIN 4.0
#define GAP 3.0
#define LONGEST 4900.0
#define SECTION_HEIGHT 46.0

typedef struct
{
  CavPassSheet sheet;
  CavScene *scene; /* (nullable) while only measured */
  double y;
} Strip;

static const CavTextStyle label
    = { .height = CAV_LETTER_SMALL, .bold = TRUE, .ink = CAV_INK_BLACK };
static const CavTextStyle text_style = { .height = CAV_LETTER_SMALL, .ink = CAV_INK_BLACK };

static void
put_rule (Strip *strip)
{
  if (strip->scene != NULL)
    cav_scene_add_line (strip->scene, CAV_POINT (MARGIN, strip->y + 1),
                        CAV_POINT (WIDTH - MARGIN, strip->y + 1), CAV_STYLE_RULE);
  strip->y += GAP;
}

static void
put_text (Strip *strip, const char *text, const CavTextStyle *style, guint max_lines)
{
  strip->y = cav_pass_sheet_write (&strip->sheet, strip->scene, text,
                                   CAV_POINT (MARGIN, strip->y + style->height), style,
                                   WIDTH - 2 * MARGIN, max_lines)
             + style->height * 0.65;
}

static void
put_head (Strip *strip)
{
  const CavTextStyle title = { .height = CAV_LETTER_TOOL, .bold = TRUE, .ink = CAV_INK_BLACK };
  g_autofree char *name = cav_sheet_dup_title (strip->sheet.project);
  CavHeadItem items[CAV_HEAD_ITEMS];

  put_text (strip, name, &title, 3);
  if (strip->sheet.options->date != NULL)
    put_text (strip, strip->sheet.options->date, &text_style, 1);
  cav_pass_sheet_fill_head (&strip->sheet, items);
  for (guint i = 0; i < CAV_HEAD_ITEMS; i++)
    {
      strip->y += 1;
      put_text (strip, items[i].label, &label, 1);
      put_text (strip, items[i].text, &text_style, 0);
    }
  cav_pass_sheet_clear_head (items);
  if (strip->scene != NULL)
    cav_plan_section_draw (
        strip->scene, strip->sheet.plan, &strip->sheet.mark,
        cav_box (MARGIN, strip->y + GAP, WIDTH - MARGIN, strip->y + GAP + SECTION_HEIGHT));
  strip->y += SECTION_HEIGHT + 2 * GAP;
}

static void
put_card (Strip *strip, guint setup)
{
  double width = WIDTH - 2 * MARGIN;
  double height = cav_pass_card_measure (&strip->sheet, setup, width, FALSE);

  put_rule (strip);
  if (strip->scene != NULL)
    cav_pass_card_draw (&strip->sheet, strip->scene, setup,
                        cav_box (MARGIN, strip->y, MARGIN + width, strip->y + height), FALSE);
  strip->y += height + GAP;
}

static void
put_panel (Strip *strip, const CavPassGroup *group)
{
  double width = WIDTH - 2 * MARGIN;
  double height = cav_pass_panel_measure (&strip->sheet, group, width);

  if (strip->scene != NULL)
    cav_pass_panel_draw (&strip->sheet, strip->scene, group,
                         cav_box (MARGIN, strip->y, MARGIN + width, strip->y + height), 0);
  strip->y += height + GAP;
}

static void
put_notes (Strip *strip)
{
  const CavPassSheet *sheet = &strip->sheet;

  put_rule (strip);
  for (guint i = 0; i < sheet->notes->len; i++)
    {
      const CavPassNote *note = g_ptr_array_index (sheet->notes, i);

      if (note->label != NULL)
        put_text (strip, note->label, &label, 1);
      else
        put_text (strip, note->text, &text_style, 1);
    }
  if (!cav_pass_notes_has_picture (sheet))
    return;
  if (strip->scene != NULL)
    cav_pass_notes_draw_picture (
        sheet, strip->scene,
        cav_box (MARGIN, strip->y + 1, WIDTH - MARGIN, strip->y + 1 + SECTION_HEIGHT));
  strip->y += SECTION_HEIGHT + GAP;
}

static void
put_foot (Strip *strip, guint page, guint n_pages)
{
  put_rule (strip);
  put_text (strip, cav_words_get_foot (), &text_style, 0);
  strip->y += label.height;
  if (strip->scene != NULL)
    cav_scene_add_page_number (strip->scene, page, n_pages, FALSE, CAV_POINT (MARGIN, strip->y),
                               &label);
  strip->y += label.height * 0.65 + MARGIN;
}

/* Groups that one strip holds, beginning with first: whole setups, where they fit at all. */
static guint
find_end (Strip *strip, guint first)
{
  const CavPassSheet *sheet = &strip->sheet;
  double y = 400; /* head, notes and foot */
  guint setup_start = first;

  for (guint i = first; i < sheet->groups->len; i++)
    {
      const CavPassGroup *group = cav_pass_sheet_get_group (sheet, i);

      if (group->first == 0)
        {
          y += cav_pass_card_measure (sheet, group->setup, WIDTH - 2 * MARGIN, FALSE) + 2 * GAP;
          setup_start = i;
        }
      y += cav_pass_panel_measure (sheet, group, WIDTH - 2 * MARGIN) + GAP;
      if (y > LONGEST)
        return setup_start > first ? setup_start : MAX (i, first + 1);
    }
  return sheet->groups->len;
}

static void
put_strip (Strip *strip, guint first, guint end, guint page, guint n_pages)
{
  const CavPassSheet *sheet = &strip->sheet;

  strip->y = MARGIN;
  if (page == 1)
    put_head (strip);
  for (guint i = first; i < end; i++)
    {
      const CavPassGroup *group = cav_pass_sheet_get_group (sheet, i);

      if (group->first == 0)
        put_card (strip, group->setup);
      put_panel (strip, group);
    }
  if (page == n_pages)
    put_notes (strip);
  put_foot (strip, page, n_pages);
}

GPtrArray *
cav_pass_strip_create_scenes (CavProject *project,
                              const CavPlan *plan,
                              const CavSheetOptions *options)
{
  GPtrArray *scenes = g_ptr_array_new_with_free_func ((GDestroyNotify)cav_scene_free);
  g_autoptr (GArray) ends = g_array_new (FALSE, FALSE, sizeof (guint));
  Strip strip = { 0 };
  guint first = 0;

  strip.sheet.roomy = TRUE;
  cav_pass_sheet_init (&strip.sheet, project, plan, options, WIDTH - 2 * MARGIN);
  cav_pass_notes_collect (&strip.sheet, WIDTH - 2 * MARGIN, TRUE);
  do
    {
      /* What was not proved is not shown as something to be done. */
      guint end = plan->usable ? find_end (&strip, first) : strip.sheet.groups->len;

      g_array_append_val (ends, end);
      first = end;
    }
  while (first < strip.sheet.groups->len);
  first = 0;
  for (guint i = 0; i < ends->len; i++)
    {
      guint end = g_array_index (ends, guint, i);
      guint from = plan->usable ? first : end;

      strip.scene = NULL;
      put_strip (&strip, from, end, i + 1, ends->len);
      strip.scene = cav_scene_new (WIDTH, strip.y);
      put_strip (&strip, from, end, i + 1, ends->len);
      g_ptr_array_add (scenes, strip.scene);
      first = end;
    }
  cav_pass_sheet_clear (&strip.sheet);
  return scenes;
}
