/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <glib/gi18n-lib.h>
#include <math.h>

#include "drawing/cav-drawing.h"
#include "drawing/cav-machine-view.h"
#include "drawing/cav-pass-sheet-private.h"
#include "drawing/cav-piece-words.h"

/* mm */
#define LINE (CAV_LETTER_SMALL * CAV_LETTER_LEADING)
#define SETUP_GAP 4.0 /* between setups, with the rule in it */
#define FOOT_GAP 3.0
#define LEAST_PANEL 80.0

typedef struct
{
  GArray *rows; /* CavPanelRow */
  guint first_note;
  guint n_notes;
  gboolean has_picture; /* of what is left by hand, at the right of the notes */
  double scale;         /* of what is on it; cards are enlarged */
  double used;
} Page;

typedef struct
{
  CavPassSheet sheet;
  GPtrArray *pages; /* Page */
  gboolean cards;   /* a setup a page */
  double scale;     /* of pages that are added */
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
  CavPassNote *note = data;

  g_free (note->label);
  g_free (note->text);
  g_free (note);
}

/* Beginning and end of any layout */

static int
count_pieces (CavProject *project, const CavPlan *plan, const CavSheetOptions *options)
{
  g_autoptr (GArray) pieces = cav_words_list_pieces (project, plan, options);

  return MAX (cav_words_count_pieces (pieces), 1);
}

void
cav_pass_sheet_init (CavPassSheet *sheet,
                     CavProject *project,
                     const CavPlan *plan,
                     const CavSheetOptions *options,
                     double panel_width)
{
  sheet->project = project;
  sheet->plan = plan;
  sheet->options = options;
  sheet->lettering = cav_lettering_new ();
  sheet->mark = cav_end_mark_find (plan->profile, cav_machine_view_get_mark_size (plan));
  sheet->groups = cav_pass_group_collect (plan);
  sheet->n_pieces = count_pieces (project, plan, options);
  sheet->panel_width = panel_width;
  sheet->notes = g_ptr_array_new_with_free_func (note_free);
  cav_pass_panel_fit_figures (sheet);
}

void
cav_pass_sheet_clear (CavPassSheet *sheet)
{
  g_clear_pointer (&sheet->lettering, cav_lettering_free);
  g_clear_pointer (&sheet->groups, g_array_unref);
  g_clear_pointer (&sheet->foot, g_ptr_array_unref);
  g_clear_pointer (&sheet->notes, g_ptr_array_unref);
}

const CavPassGroup *
cav_pass_sheet_get_group (const CavPassSheet *sheet, guint index)
{
  return &g_array_index (sheet->groups, CavPassGroup, index);
}

const CavSetup *
cav_pass_sheet_get_setup (const CavPassSheet *sheet, const CavPassGroup *group)
{
  return g_ptr_array_index (sheet->plan->setups, group->setup);
}

/* Pages */

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
  page->scale = layout->scale;
  g_ptr_array_add (layout->pages, page);
  return page;
}

/* Rows */

/* Room before a row: a setup begins with a rule. */
static double
get_gap (const Page *page, const CavPanelRow *row)
{
  return row->begins || page->rows->len == 0 ? SETUP_GAP : CAV_PASS_ROW_GAP;
}

/* Makes everything so much larger, which is to lay it out on paper so much smaller. */
static void
set_scale (Layout *layout, double scale)
{
  CavPassSheet *sheet = &layout->sheet;

  cav_paper_get_size (sheet->options->paper, &sheet->width, &sheet->height);
  sheet->width /= scale;
  sheet->height /= scale;
  layout->scale = scale;
  sheet->columns = CAV_PASS_SHEET_COLUMNS;
  sheet->panel_width
      = (cav_pass_rows_get_width (sheet) - CAV_PASS_SHEET_GUTTER * (sheet->columns - 1))
        / sheet->columns;
  if (sheet->panel_width < LEAST_PANEL)
    {
      sheet->columns = 1;
      sheet->panel_width = cav_pass_rows_get_width (sheet);
    }
  cav_pass_panel_fit_figures (sheet);
  cav_pass_sheet_measure (sheet);
  sheet->room = get_room (layout, FALSE) - SETUP_GAP;
}

/* A card is as large as lets its setup stay on one page. (transfer full) its rows. */
static GArray *
begin_card (Layout *layout, guint first, double *out_height)
{
  static const double scales[] = { 1.5, 1.4, 1.3, 1.2, 1.1, 1 };
  GArray *rows = NULL;

  for (guint i = 0; i < G_N_ELEMENTS (scales); i++)
    {
      g_clear_pointer (&rows, g_array_unref);
      set_scale (layout, scales[i]);
      rows = cav_pass_rows_create (&layout->sheet, first);
      *out_height = cav_pass_rows_fit_card (&layout->sheet, rows);
      if (*out_height + SETUP_GAP <= get_room (layout, FALSE))
        break;
    }
  add_page (layout);
  return rows;
}

static void
put_row (Page *page, const CavPanelRow *row)
{
  page->used += get_gap (page, row) + row->height;
  g_array_append_val (page->rows, *row);
}

/* Row by row over as many pages as it takes; on each the first is as high as the card beside it. */
static void
tear_setup (Layout *layout, GArray *rows)
{
  for (guint i = 0; i < rows->len; i++)
    {
      CavPanelRow *row = &g_array_index (rows, CavPanelRow, i);
      Page *page = get_last_page (layout);

      if (i == 0)
        row->height
            = fmax (row->height, cav_pass_rows_get_card_height (&layout->sheet, row->first, FALSE));
      if (get_gap (page, row) + row->height > get_free (layout)
          && (page->rows->len > 0 || layout->pages->len == 1))
        page = add_page (layout);
      if (page->rows->len == 0)
        row->height
            = fmax (row->height, cav_pass_rows_get_card_height (&layout->sheet, row->first, i > 0));
      put_row (page, row);
    }
}

/* A setup stays on one page, unless it is longer than any. */
static guint
lay_out_setup (Layout *layout, guint first)
{
  double whole;
  g_autoptr (GArray) rows = NULL;

  if (layout->cards)
    rows = begin_card (layout, first, &whole);
  else
    {
      rows = cav_pass_rows_create (&layout->sheet, first);
      whole = cav_pass_rows_fit_card (&layout->sheet, rows);
    }
  whole += SETUP_GAP;
  if (whole > get_room (layout, FALSE))
    tear_setup (layout, rows);
  else
    {
      if (whole > get_free (layout))
        add_page (layout);
      for (guint i = 0; i < rows->len; i++)
        put_row (get_last_page (layout), &g_array_index (rows, CavPanelRow, i));
    }
  return cav_pass_sheet_find_setup_end (&layout->sheet, first);
}

/* Notes */

static double
get_note_width (const CavPassSheet *sheet)
{
  double width = sheet->width - 2 * CAV_PASS_SHEET_MARGIN - CAV_PASS_NOTE_LABEL;

  return cav_pass_notes_has_picture (sheet) ? width - CAV_PASS_NOTE_PICTURE - 4 : width;
}

/* Height of some notes on a page, with the picture where they begin. */
static double
measure_notes (gboolean has_picture, guint n_notes)
{
  double lines = n_notes * LINE;

  return SETUP_GAP + (has_picture ? fmax (lines, CAV_PASS_NOTE_PICTURE_HEIGHT) : lines);
}

static void
put_note (const CavPassSheet *sheet, Page *page, guint index)
{
  if (page->n_notes == 0)
    {
      page->first_note = index;
      page->has_picture = index == 0 && cav_pass_notes_has_picture (sheet);
    }
  else
    page->used -= measure_notes (page->has_picture, page->n_notes);
  page->n_notes++;
  page->used += measure_notes (page->has_picture, page->n_notes);
}

/* (nullable) The first page that has room for notes of that height under its panels. */
static Page *
find_room (const Layout *layout, double height)
{
  for (guint i = 0; i < layout->pages->len; i++)
    {
      Page *page = g_ptr_array_index (layout->pages, i);

      if (page->scale <= 1 && page->used + height <= get_room (layout, i == 0))
        return page;
    }
  return NULL;
}

/* The notes stand together where there is room, on the first page if they can, for there they are
 * read first; else at the end, on as many pages as they take. */
static void
lay_out_notes (Layout *layout)
{
  const CavPassSheet *sheet = &layout->sheet;
  double whole = measure_notes (cav_pass_notes_has_picture (sheet), sheet->notes->len);
  double least = measure_notes (cav_pass_notes_has_picture (sheet), 1);
  Page *whole_page = find_room (layout, whole);

  if (whole_page == NULL
      && (layout->cards || whole <= get_room (layout, FALSE) || least > get_free (layout)))
    add_page (layout);
  for (guint i = 0; i < sheet->notes->len; i++)
    {
      Page *page = whole_page != NULL ? whole_page : get_last_page (layout);

      if (whole_page == NULL
          && get_free (layout) < measure_notes (i == 0 && cav_pass_notes_has_picture (sheet), 1)
                                     - SETUP_GAP + (page->n_notes == 0 ? SETUP_GAP : 0))
        page = add_page (layout);
      put_note (sheet, page, i);
    }
}

static void
lay_out (Layout *layout)
{
  const CavPassSheet *sheet = &layout->sheet;

  g_ptr_array_set_size (layout->pages, 0);
  g_ptr_array_set_size (sheet->notes, 0);
  set_scale (layout, 1);
  add_page (layout);
  /* What was not proved is not shown as something to be done. */
  for (guint i = 0; sheet->plan->usable && i < sheet->groups->len;)
    i = lay_out_setup (layout, i);
  set_scale (layout, 1);
  cav_pass_notes_collect (&layout->sheet, get_note_width (sheet), FALSE);
  lay_out_notes (layout);
}

/* Drawing */

static void
draw_row (
    const Layout *layout, CavScene *scene, const CavPanelRow *row, CavPoint corner, double height)
{
  const CavPassSheet *sheet = &layout->sheet;
  double x = corner.x + CAV_PASS_SHEET_CARD + CAV_PASS_SHEET_GUTTER;

  for (guint i = 0; i < row->count; i++)
    {
      cav_pass_panel_draw (sheet, scene, cav_pass_sheet_get_group (sheet, row->first + i),
                           cav_box (x, corner.y, x + row->width, corner.y + height), row->below);
      x += row->width + CAV_PASS_SHEET_GUTTER;
    }
}

/* Of the rows of one setup that stand on a page, from one of them on. */
static double
get_block_height (const Page *page, guint from, double stretch)
{
  double height = 0;

  for (guint i = from; i < page->rows->len; i++)
    {
      const CavPanelRow *row = &g_array_index (page->rows, CavPanelRow, i);

      if (i > from && row->begins)
        break;
      height += row->height + stretch + (i > from ? CAV_PASS_ROW_GAP : 0);
    }
  return height;
}

static double
draw_rows (const Layout *layout, CavScene *scene, const Page *page, double y, double stretch)
{
  const CavPassSheet *sheet = &layout->sheet;
  double left = CAV_PASS_SHEET_MARGIN;
  double right = sheet->width - CAV_PASS_SHEET_MARGIN;

  for (guint i = 0; i < page->rows->len; i++)
    {
      const CavPanelRow *row = &g_array_index (page->rows, CavPanelRow, i);
      guint setup = cav_pass_sheet_get_group (sheet, row->first)->setup;
      gboolean begins = row->begins || i == 0;
      double height = row->height + stretch;

      y += begins ? SETUP_GAP : CAV_PASS_ROW_GAP;
      if (begins)
        {
          cav_scene_add_line (scene, CAV_POINT (left, y - 2.4), CAV_POINT (right, y - 2.4),
                              CAV_STYLE_RULE);
          cav_pass_card_draw (sheet, scene, setup,
                              cav_box (left, y, left + CAV_PASS_SHEET_CARD,
                                       y + get_block_height (page, i, stretch)),
                              !row->begins);
        }
      draw_row (layout, scene, row, CAV_POINT (left, y), height);
      y += height;
    }
  return y;
}

static void
draw_notes (const Layout *layout, CavScene *scene, const Page *page, double y)
{
  const CavTextStyle label = { .height = CAV_LETTER_SMALL, .bold = TRUE, .ink = CAV_INK_BLACK };
  const CavTextStyle text = { .height = CAV_LETTER_SMALL, .ink = CAV_INK_BLACK };
  const CavPassSheet *sheet = &layout->sheet;
  double right = sheet->width - CAV_PASS_SHEET_MARGIN;

  if (page->n_notes == 0)
    return;
  cav_scene_add_line (scene, CAV_POINT (CAV_PASS_SHEET_MARGIN, y + 1.6), CAV_POINT (right, y + 1.6),
                      CAV_STYLE_RULE);
  if (page->has_picture)
    cav_pass_notes_draw_picture (sheet, scene,
                                 cav_box (right - CAV_PASS_NOTE_PICTURE, y + SETUP_GAP - 1, right,
                                          y + SETUP_GAP - 1 + CAV_PASS_NOTE_PICTURE_HEIGHT));
  y += SETUP_GAP - LINE + CAV_LETTER_SMALL + 0.8;
  for (guint i = 0; i < page->n_notes; i++)
    {
      const CavPassNote *note = g_ptr_array_index (sheet->notes, page->first_note + i);

      y += LINE;
      if (note->label != NULL)
        cav_scene_add_text (scene, note->label, CAV_POINT (CAV_PASS_SHEET_MARGIN, y), &label);
      cav_scene_add_text (scene, note->text,
                          CAV_POINT (CAV_PASS_SHEET_MARGIN + CAV_PASS_NOTE_LABEL, y), &text);
    }
}

static CavScene *
create_page (Layout *layout, guint index)
{
  const CavPassSheet *sheet = &layout->sheet;
  const Page *page = g_ptr_array_index (layout->pages, index);
  CavScene *scene;
  double left;
  double stretch;
  double y;

  if (layout->cards)
    set_scale (layout, page->scale);
  scene = cav_scene_new (sheet->width, sheet->height);
  left = get_room (layout, index == 0) - page->used;
  stretch = page->rows->len > 0 ? left / page->rows->len : 0;
  y = CAV_PASS_SHEET_MARGIN + cav_pass_sheet_get_head_height (sheet, index == 0);
  cav_pass_sheet_draw_head (sheet, scene, index == 0);
  y = draw_rows (layout, scene, page, y, CLAMP (stretch, 0, CAV_PASS_SHEET_STRETCH));
  draw_notes (layout, scene, page, y);
  cav_pass_sheet_draw_foot (sheet, scene, index + 1, layout->pages->len);
  if (layout->cards)
    cav_scene_enlarge (scene, page->scale);
  return scene;
}

static void
layout_init (Layout *layout,
             CavProject *project,
             const CavPlan *plan,
             const CavSheetOptions *options)
{
  cav_pass_sheet_init (&layout->sheet, project, plan, options, LEAST_PANEL);
  layout->pages = g_ptr_array_new_with_free_func (page_free);
  layout->cards = options->layout == CAV_SHEET_LAYOUT_CARDS;
  set_scale (layout, 1);
}

/* Whether a row is higher than a page. */
static gboolean
overflows (const Layout *layout)
{
  for (guint i = 0; i < layout->pages->len; i++)
    if (((const Page *)g_ptr_array_index (layout->pages, i))->used > get_room (layout, i == 0))
      return TRUE;
  return FALSE;
}

/* Large pictures of rails that lie flat are worth the height, not a page. */
static void
lay_out_best (Layout *layout)
{
  guint n_pages;

  lay_out (layout);
  n_pages = layout->pages->len;
  layout->sheet.roomy = TRUE;
  lay_out (layout);
  if (layout->pages->len <= n_pages && !overflows (layout))
    return;
  layout->sheet.roomy = FALSE;
  lay_out (layout);
  layout->sheet.terse = overflows (layout);
  if (layout->sheet.terse)
    lay_out (layout);
}

static GPtrArray *
create_pages (CavProject *project, const CavPlan *plan, const CavSheetOptions *options)
{
  GPtrArray *scenes = g_ptr_array_new_with_free_func ((GDestroyNotify)cav_scene_free);
  Layout layout = { 0 };

  layout_init (&layout, project, plan, options);
  lay_out_best (&layout);
  for (guint i = 0; i < layout.pages->len; i++)
    g_ptr_array_add (scenes, create_page (&layout, i));
  g_ptr_array_unref (layout.pages);
  cav_pass_sheet_clear (&layout.sheet);
  return scenes;
}

GPtrArray *
cav_pass_sheet_create_scenes (CavProject *project,
                              const CavPlan *plan,
                              const CavSheetOptions *options)
{
  g_return_val_if_fail (CAV_IS_PROJECT (project) && plan != NULL && options != NULL, NULL);

  if (options->layout == CAV_SHEET_LAYOUT_STRIP)
    return cav_pass_strip_create_scenes (project, plan, options);
  return create_pages (project, plan, options);
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
  return cav_scene_create_pdf (scenes, title, _ ("Pass sheet"), options->date, error);
}
