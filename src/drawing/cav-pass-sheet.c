/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>

#include "drawing/cav-drawing.h"
#include "drawing/cav-machine-view.h"
#include "drawing/cav-pass-sheet-private.h"

/* mm */
#define LINE (CAV_LETTER_SMALL * CAV_LETTER_LEADING)
#define ROW_GAP 2.5
#define SETUP_GAP 4.0 /* between setups, with the rule in it */
#define FOOT_GAP 3.0
#define NOTE_LABEL 41.0

/* A line of the notes at the end: words of a label in bold, or text beside it. */
typedef struct
{
  char *label; /* (nullable) */
  char *text;
} NoteLine;

typedef struct
{
  GArray *rows; /* CavPanelRow */
  guint first_note;
  guint n_notes;
  double used;
} Page;

typedef struct
{
  CavPassSheet sheet;
  GPtrArray *pages; /* Page */
  GPtrArray *notes; /* NoteLine */
} Layout;

static void
page_free (gpointer data)
{
  Page *page = data;

  g_array_unref (page->rows);
  g_free (page);
}

static void
note_free (gpointer data)
{
  NoteLine *note = data;

  g_free (note->label);
  g_free (note->text);
  g_free (note);
}

static double
get_room (const Layout *layout, gboolean first)
{
  const CavPassSheet *sheet = &layout->sheet;

  return sheet->height - 2 * CAV_PASS_SHEET_MARGIN - cav_pass_sheet_get_head_height (sheet, first)
         - sheet->foot_height - FOOT_GAP;
}

static Page *
get_last_page (const Layout *layout)
{
  return g_ptr_array_index (layout->pages, layout->pages->len - 1);
}

static double
get_free (const Layout *layout)
{
  return get_room (layout, layout->pages->len == 1) - get_last_page (layout)->used;
}

static Page *
add_page (Layout *layout)
{
  Page *page = g_new0 (Page, 1);

  page->rows = g_array_new (FALSE, FALSE, sizeof (CavPanelRow));
  g_ptr_array_add (layout->pages, page);
  return page;
}

/* Room before a row: a setup begins with a rule. */
static double
get_gap (const Page *page, const CavPanelRow *row)
{
  return row->first == 0 || page->rows->len == 0 ? SETUP_GAP : ROW_GAP;
}

static CavPanelRow
make_row (const CavPassSheet *sheet, guint setup_index, guint first, guint number)
{
  const CavSetup *setup = g_ptr_array_index (sheet->plan->setups, setup_index);
  CavPanelRow row = { .setup = setup_index,
                      .first = first,
                      .count = MIN (setup->passes->len - first, CAV_PASS_SHEET_COLUMNS),
                      .number = number + first };

  cav_pass_panel_measure_row (sheet, &row);
  return row;
}

static double
get_setup_height (const Layout *layout, guint setup_index)
{
  const CavSetup *setup = g_ptr_array_index (layout->sheet.plan->setups, setup_index);
  double height = SETUP_GAP - ROW_GAP;

  for (guint first = 0; first < setup->passes->len; first += CAV_PASS_SHEET_COLUMNS)
    {
      CavPanelRow row = make_row (&layout->sheet, setup_index, first, 1);

      height += ROW_GAP + row.height;
    }
  return height;
}

/* A setup stays on one page, unless it is longer than any or the page would stay empty for it. */
static void
lay_out_setup (Layout *layout, guint setup_index, guint number)
{
  const CavSetup *setup = g_ptr_array_index (layout->sheet.plan->setups, setup_index);
  double whole = get_setup_height (layout, setup_index);

  if (whole > get_free (layout) && whole <= get_room (layout, FALSE)
      && get_last_page (layout)->rows->len > 0)
    add_page (layout);
  for (guint first = 0; first < setup->passes->len; first += CAV_PASS_SHEET_COLUMNS)
    {
      CavPanelRow row = make_row (&layout->sheet, setup_index, first, number);
      double height = row.height;
      Page *page = get_last_page (layout);

      if (get_gap (page, &row) + height > get_free (layout)
          && (page->rows->len > 0 || layout->pages->len == 1))
        page = add_page (layout);
      page->used += get_gap (page, &row) + height;
      g_array_append_val (page->rows, row);
    }
}

static void
add_note (Layout *layout, const char *label, const char *text)
{
  const CavPassSheet *sheet = &layout->sheet;
  double width = sheet->width - 2 * CAV_PASS_SHEET_MARGIN - NOTE_LABEL;
  g_autofree char *clean = cav_lettering_clean (text);
  g_autoptr (GPtrArray) lines
      = cav_lettering_wrap (sheet->lettering, clean, CAV_LETTER_SMALL, FALSE, width, 4);

  for (guint i = 0; i < lines->len; i++)
    {
      NoteLine *note = g_new0 (NoteLine, 1);

      note->label = i == 0 ? g_strdup (label) : NULL;
      note->text = g_strdup (g_ptr_array_index (lines, i));
      g_ptr_array_add (layout->notes, note);
    }
}

static guint
collect_cautions (const CavPlan *plan)
{
  guint cautions = 0;

  for (guint i = 0; i < plan->setups->len; i++)
    {
      const CavSetup *setup = g_ptr_array_index (plan->setups, i);

      for (guint j = 0; j < setup->passes->len; j++)
        cautions |= ((const CavPass *)g_ptr_array_index (setup->passes, j))->cautions;
    }
  return cautions;
}

static void
collect_findings (Layout *layout)
{
  const CavPlan *plan = layout->sheet.plan;
  const char *label = "Worth a look";

  for (guint i = 0; i < plan->findings->len; i++)
    {
      const CavFinding *finding = g_ptr_array_index (plan->findings, i);

      add_note (layout, label, finding->message);
      label = NULL;
    }
}

static void
collect_notes (Layout *layout)
{
  const CavPassSheet *sheet = &layout->sheet;
  const CavPlan *plan = sheet->plan;
  g_autofree char *leftover = cav_words_describe_leftover (plan, sheet->options);
  guint cautions = collect_cautions (plan);
  const char *label = "Cautions";

  if (!plan->usable)
    add_note (layout, "Do not mill",
              "No order of passes could be proved for this section in this shop. What stands "
              "below says why.");
  else if (cav_plan_get_pass_count (plan) == 0)
    add_note (layout, "Nothing to mill", "No tool has to touch the blank for this section.");
  if (plan->usable)
    add_note (layout, "By hand", leftover);
  for (guint i = 0; i < plan->places->len; i++)
    {
      g_autofree char *place
          = cav_words_describe_place (g_ptr_array_index (plan->places, i), sheet->options);

      add_note (layout, NULL, place);
    }
  collect_findings (layout);
  for (guint i = 0; i < CAV_N_CAUTIONS; i++)
    if ((cautions & (1u << i)) != 0)
      {
        add_note (layout, label, cav_caution_get_sentence ((CavCaution)(1u << i)));
        label = NULL;
      }
}

static void
put_note (Page *page, guint index)
{
  if (page->n_notes == 0)
    {
      page->first_note = index;
      page->used += SETUP_GAP;
    }
  page->n_notes++;
  page->used += LINE;
}

/* The notes stand under the panels of the first page where they fit, for there they are read first;
 * else at the end. */
static void
lay_out_notes (Layout *layout)
{
  Page *first = g_ptr_array_index (layout->pages, 0);
  double whole = SETUP_GAP + layout->notes->len * LINE;
  gboolean at_front = whole <= get_room (layout, TRUE) - first->used;

  if (!at_front && whole > get_free (layout) && whole <= get_room (layout, FALSE))
    add_page (layout);
  for (guint i = 0; i < layout->notes->len; i++)
    {
      Page *page = at_front ? first : get_last_page (layout);

      if (!at_front && get_free (layout) < LINE + (page->n_notes == 0 ? SETUP_GAP : 0))
        page = add_page (layout);
      put_note (page, i);
    }
}

static void
lay_out (Layout *layout)
{
  const CavPlan *plan = layout->sheet.plan;
  guint number = 1;

  add_page (layout);
  /* What was not proved is not shown as something to be done. */
  for (guint i = 0; plan->usable && i < plan->setups->len; i++)
    {
      lay_out_setup (layout, i, number);
      number += ((const CavSetup *)g_ptr_array_index (plan->setups, i))->passes->len;
    }
  collect_notes (layout);
  lay_out_notes (layout);
}

static double
draw_rows (const Layout *layout, CavScene *scene, const Page *page, double y, double stretch)
{
  const CavPassSheet *sheet = &layout->sheet;
  double right = sheet->width - CAV_PASS_SHEET_MARGIN;

  for (guint i = 0; i < page->rows->len; i++)
    {
      const CavPanelRow *row = &g_array_index (page->rows, CavPanelRow, i);
      gboolean begins = row->first == 0 || i == 0;
      double height = row->height + stretch;

      y += begins ? SETUP_GAP : ROW_GAP;
      if (begins)
        {
          cav_scene_add_line (scene, CAV_POINT (CAV_PASS_SHEET_MARGIN, y - 2.4),
                              CAV_POINT (right, y - 2.4), CAV_STYLE_RULE);
          cav_pass_panel_draw_card (sheet, scene, row, CAV_POINT (CAV_PASS_SHEET_MARGIN, y),
                                    height);
        }
      cav_pass_panel_draw_row (sheet, scene, row, CAV_POINT (CAV_PASS_SHEET_MARGIN, y), height);
      y += height;
    }
  return y;
}

static void
draw_notes (const Layout *layout, CavScene *scene, const Page *page, double y)
{
  const CavTextStyle label = { .height = CAV_LETTER_SMALL, .bold = TRUE, .ink = CAV_INK_BLACK };
  const CavTextStyle text = { .height = CAV_LETTER_SMALL, .ink = CAV_INK_BLACK };

  if (page->n_notes == 0)
    return;
  cav_scene_add_line (scene, CAV_POINT (CAV_PASS_SHEET_MARGIN, y + 1.6),
                      CAV_POINT (layout->sheet.width - CAV_PASS_SHEET_MARGIN, y + 1.6),
                      CAV_STYLE_RULE);
  y += SETUP_GAP - LINE + CAV_LETTER_SMALL + 0.8;
  for (guint i = 0; i < page->n_notes; i++)
    {
      const NoteLine *note = g_ptr_array_index (layout->notes, page->first_note + i);

      y += LINE;
      if (note->label != NULL)
        cav_scene_add_text (scene, note->label, CAV_POINT (CAV_PASS_SHEET_MARGIN, y), &label);
      cav_scene_add_text (scene, note->text, CAV_POINT (CAV_PASS_SHEET_MARGIN + NOTE_LABEL, y),
                          &text);
    }
}

static CavScene *
create_page (const Layout *layout, guint index)
{
  const CavPassSheet *sheet = &layout->sheet;
  const Page *page = g_ptr_array_index (layout->pages, index);
  CavScene *scene = cav_scene_new (sheet->width, sheet->height);
  double left = get_room (layout, index == 0) - page->used;
  double stretch = page->rows->len > 0 ? left / page->rows->len : 0;
  double y = CAV_PASS_SHEET_MARGIN + cav_pass_sheet_get_head_height (sheet, index == 0);

  cav_pass_sheet_draw_head (sheet, scene, index == 0);
  y = draw_rows (layout, scene, page, y, CLAMP (stretch, 0, CAV_PASS_SHEET_STRETCH));
  draw_notes (layout, scene, page, y);
  cav_pass_sheet_draw_foot (sheet, scene, index + 1, layout->pages->len);
  return scene;
}

static void
init_sheet (CavPassSheet *sheet,
            CavProject *project,
            const CavPlan *plan,
            const CavSheetOptions *options)
{
  double columns = CAV_PASS_SHEET_COLUMNS;

  sheet->project = project;
  sheet->plan = plan;
  sheet->options = options;
  sheet->lettering = cav_lettering_new ();
  sheet->mark = cav_end_mark_find (plan->profile, cav_machine_view_get_mark_size (plan));
  cav_paper_get_size (options->paper, &sheet->width, &sheet->height);
  sheet->panel_width = (sheet->width - 2 * CAV_PASS_SHEET_MARGIN - CAV_PASS_SHEET_CARD
                        - columns * CAV_PASS_SHEET_GUTTER)
                       / columns;
  sheet->figure_width = cav_pass_panel_measure_figures (sheet);
  cav_pass_sheet_measure (sheet);
}

GPtrArray *
cav_pass_sheet_create_scenes (CavProject *project,
                              const CavPlan *plan,
                              const CavSheetOptions *options)
{
  GPtrArray *scenes = g_ptr_array_new_with_free_func ((GDestroyNotify)cav_scene_free);
  Layout layout = { 0 };

  init_sheet (&layout.sheet, project, plan, options);
  layout.pages = g_ptr_array_new_with_free_func (page_free);
  layout.notes = g_ptr_array_new_with_free_func (note_free);
  lay_out (&layout);
  for (guint i = 0; i < layout.pages->len; i++)
    g_ptr_array_add (scenes, create_page (&layout, i));
  g_ptr_array_unref (layout.pages);
  g_ptr_array_unref (layout.notes);
  g_ptr_array_unref (layout.sheet.foot);
  cav_lettering_free (layout.sheet.lettering);
  return scenes;
}

GBytes *
cav_pass_sheet_create_pdf (CavProject *project,
                           const CavPlan *plan,
                           const CavSheetOptions *options,
                           GError **error)
{
  g_autoptr (GPtrArray) scenes = NULL;
  g_autofree char *title = NULL;

  g_return_val_if_fail (CAV_IS_PROJECT (project) && plan != NULL && options != NULL, NULL);

  scenes = cav_pass_sheet_create_scenes (project, plan, options);
  title = cav_sheet_dup_title (project);
  return cav_scene_create_pdf (scenes, title, "Pass sheet", options->date, error);
}
