/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/cav-text-sheet.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#include "drawing/cav-pass-words.h"
#include "drawing/cav-sheet-private.h"

#define MARGIN 12.0
#define FOOT 16.0
#define TEXT CAV_LETTER_SMALL
#define LINE (TEXT * CAV_LETTER_LEADING)
#define BOX 3.2
#define INDENT 6.0
#define CELL_PAD 1.2
#define CELL_LINES 3
#define CELL_GAP 2.4 /* before a cell that begins at its left edge */
#define ROW_GAP 2.0  /* between a table and what follows */
#define WRITING 7.0  /* height of a row to write in */

struct _CavTextSheet
{
  char *title;
  char *kind;
  const CavSheetOptions *options;
  GPtrArray *scenes;
  CavScene *scene; /* the last of them */
  double width;
  double height;
  double y;           /* where the next line begins */
  gboolean after_row; /* the last thing was a table's rule */
};

static const CavTextStyle text_style = { .height = TEXT, .ink = CAV_INK_BLACK };
static const CavTextStyle bold_style = { .height = TEXT, .bold = TRUE, .ink = CAV_INK_BLACK };

static double
get_inner (const CavTextSheet *self)
{
  return self->width - 2 * MARGIN;
}

static void
draw_title (CavTextSheet *self, double height)
{
  const CavTextStyle style = { .height = height, .bold = TRUE, .ink = CAV_INK_BLACK };
  CavTextStyle kind = { .height = TEXT, .ink = CAV_INK_GREY, .align = CAV_ALIGN_END };
  const char *date = self->options->date;
  g_autofree char *right = g_strconcat (self->kind, date != NULL ? ", " : "", date, NULL);
  double baseline = self->y + height;
  double room = cav_lettering_get_width (cav_scene_get_lettering (self->scene), right, TEXT, FALSE);

  cav_scene_add_text_within (self->scene, self->title, CAV_POINT (MARGIN, baseline), &style,
                             get_inner (self) - fmin (room, 80) - 6);
  cav_scene_add_text_within (self->scene, right, CAV_POINT (self->width - MARGIN, baseline), &kind,
                             80);
  self->y = baseline + 3;
  cav_scene_add_line (self->scene, CAV_POINT (MARGIN, self->y),
                      CAV_POINT (self->width - MARGIN, self->y), CAV_STYLE_RULE);
  self->y += 2;
}

static void
add_page (CavTextSheet *self)
{
  gboolean first = self->scenes->len == 0;

  self->scene = cav_scene_new (self->width, self->height);
  g_ptr_array_add (self->scenes, self->scene);
  self->y = MARGIN;
  draw_title (self, first ? CAV_LETTER_TITLE : CAV_LETTER_LARGE);
}

CavTextSheet *
cav_text_sheet_new (const char *title, const char *kind, const CavSheetOptions *options)
{
  CavTextSheet *self = g_new0 (CavTextSheet, 1);

  self->title = cav_lettering_clean (title);
  self->kind = g_strdup (kind);
  self->options = options;
  self->scenes = g_ptr_array_new_with_free_func ((GDestroyNotify)cav_scene_free);
  cav_paper_get_size (options->paper, &self->height, &self->width);
  add_page (self);
  return self;
}

void
cav_text_sheet_free (CavTextSheet *self)
{
  if (self == NULL)
    return;
  g_clear_pointer (&self->scenes, g_ptr_array_unref);
  g_free (self->title);
  g_free (self->kind);
  g_free (self);
}

static void
need (CavTextSheet *self, double height)
{
  if (self->y + height > self->height - MARGIN - FOOT)
    add_page (self);
}

void
cav_text_sheet_keep (CavTextSheet *self, guint n_lines)
{
  need (self, n_lines * LINE);
}

static void
leave_table (CavTextSheet *self)
{
  if (self->after_row)
    self->y += ROW_GAP;
  self->after_row = FALSE;
}

void
cav_text_sheet_add_heading (CavTextSheet *self, const char *text)
{
  const CavTextStyle style = { .height = CAV_LETTER_HEADING, .bold = TRUE, .ink = CAV_INK_BLACK };

  leave_table (self);
  need (self, 2.4 + CAV_LETTER_HEADING * CAV_LETTER_LEADING + 2 * LINE);
  self->y += 2.4;
  cav_scene_add_text_within (self->scene, text, CAV_POINT (MARGIN, self->y + CAV_LETTER_HEADING),
                             &style, get_inner (self));
  self->y += CAV_LETTER_HEADING * CAV_LETTER_LEADING;
}

/* Lines with their left edge at x; a box before the first where step. */
static void
add_lines (CavTextSheet *self, const char *text, double indent, gboolean step)
{
  g_autofree char *clean = cav_lettering_clean (text);
  g_autoptr (GPtrArray) lines = cav_lettering_wrap (cav_scene_get_lettering (self->scene), clean,
                                                    TEXT, FALSE, get_inner (self) - indent, 0);

  leave_table (self);
  /* A sentence stays together, unless it is a long one. */
  need (self, MIN (lines->len, 4) * LINE);
  for (guint i = 0; i < lines->len; i++)
    {
      need (self, LINE);
      if (i == 0 && step)
        cav_scene_add_box (self->scene, cav_box (MARGIN, self->y, MARGIN + BOX, self->y + BOX),
                           CAV_STYLE_TICK_BOX);
      cav_scene_add_text (self->scene, g_ptr_array_index (lines, i),
                          CAV_POINT (MARGIN + indent, self->y + TEXT), &text_style);
      self->y += LINE;
    }
}

void
cav_text_sheet_add_step (CavTextSheet *self, const char *text)
{
  add_lines (self, text, INDENT, TRUE);
}

void
cav_text_sheet_add_text (CavTextSheet *self, const char *text)
{
  add_lines (self, text, INDENT, FALSE);
}

double
cav_text_sheet_get_picture_width (const CavTextSheet *self)
{
  return get_inner (self) - INDENT;
}

CavScene *
cav_text_sheet_add_picture (CavTextSheet *self, double height, CavPoint *out_corner)
{
  leave_table (self);
  need (self, height);
  *out_corner = CAV_POINT (MARGIN + INDENT, self->y);
  self->y += height;
  return self->scene;
}

/* (transfer full) What a cell says in as many lines as it takes, at most CELL_LINES. */
static GPtrArray *
wrap_cell (CavTextSheet *self,
           const CavTextColumn *column,
           const char *text,
           double width,
           const CavTextStyle *style)
{
  CavLettering *lettering = cav_scene_get_lettering (self->scene);
  g_autofree char *clean = cav_lettering_clean (text);
  double room = width - CELL_PAD - (column->right ? 0 : CELL_GAP);
  g_auto (GStrv) words = g_strsplit (clean, " ", -1);
  g_autofree char *held = g_strjoinv ("\302\240", words);

  /* Whole inches are not torn from their fraction while there is room. */
  if (column->right
      && cav_lettering_get_width (lettering, held, style->height, style->bold) <= room)
    return cav_lettering_wrap (lettering, held, style->height, style->bold, room, CELL_LINES);
  return cav_lettering_wrap (lettering, clean, style->height, style->bold, room, CELL_LINES);
}

static void
draw_cell (CavTextSheet *self,
           const CavTextColumn *column,
           const char *text,
           double x,
           double width,
           const CavTextStyle *base)
{
  g_autoptr (GPtrArray) lines = wrap_cell (self, column, text, width, base);
  CavTextStyle style = *base;

  if (column->right)
    style.align = CAV_ALIGN_END;
  for (guint i = 0; i < lines->len; i++)
    cav_scene_add_text (self->scene, g_ptr_array_index (lines, i),
                        CAV_POINT (column->right ? x + width - CELL_PAD : x + CELL_GAP,
                                   self->y + 1 + TEXT + i * LINE),
                        &style);
}

static double
sum_shares (const CavTextColumn *columns, guint n_columns)
{
  double sum = 0;

  for (guint i = 0; i < n_columns; i++)
    sum += columns[i].share;
  return sum;
}

static void
end_row (CavTextSheet *self)
{
  cav_scene_add_line (self->scene, CAV_POINT (MARGIN + INDENT, self->y),
                      CAV_POINT (self->width - MARGIN, self->y), CAV_STYLE_THIN_RULE);
  self->after_row = TRUE;
}

/* The headings where there are no cells. */
static const char *
get_cell (const CavTextColumn *columns, const char *const *cells, guint index)
{
  return cells != NULL ? cells[index]
                       : g_dpgettext2 (GETTEXT_PACKAGE, "column", columns[index].heading);
}

/* Lines of the highest of a row's cells. */
static guint
count_lines (CavTextSheet *self,
             const CavTextColumn *columns,
             guint n_columns,
             const char *const *cells,
             double unit)
{
  guint most = 1;

  for (guint i = 0; i < n_columns; i++)
    {
      g_autoptr (GPtrArray) lines
          = wrap_cell (self, &columns[i], get_cell (columns, cells, i), columns[i].share * unit,
                       cells != NULL ? &text_style : &bold_style);

      most = MAX (most, lines->len);
    }
  return most;
}

void
cav_text_sheet_add_row (CavTextSheet *self,
                        const CavTextColumn *columns,
                        guint n_columns,
                        const char *const *cells,
                        const char *remark)
{
  double unit = (get_inner (self) - INDENT) / sum_shares (columns, n_columns);
  double x = MARGIN + INDENT;
  gboolean has_remark = remark != NULL && *remark != '\0';
  guint n_lines = count_lines (self, columns, n_columns, cells, unit);

  /* Headings do not stay alone at the foot of a page. */
  need (self, (n_lines + (cells == NULL || has_remark ? 1 : 0)) * (LINE + 1));
  for (guint i = 0; i < n_columns; i++)
    {
      double width = columns[i].share * unit;

      draw_cell (self, &columns[i], get_cell (columns, cells, i), x, width,
                 cells != NULL ? &text_style : &bold_style);
      x += width;
    }
  self->y += n_lines * LINE + 1;
  if (has_remark)
    {
      double left = MARGIN + INDENT + columns[0].share * unit + CELL_GAP;
      g_autofree char *clean = cav_lettering_clean (remark);
      g_autoptr (GPtrArray) lines
          = cav_lettering_wrap (cav_scene_get_lettering (self->scene), clean, TEXT, FALSE,
                                self->width - MARGIN - left, 2);

      for (guint i = 0; i < lines->len; i++)
        {
          cav_scene_add_text (self->scene, g_ptr_array_index (lines, i),
                              CAV_POINT (left, self->y + TEXT - 0.4), &text_style);
          self->y += LINE;
        }
    }
  end_row (self);
}

void
cav_text_sheet_add_blank_row (CavTextSheet *self,
                              const CavTextColumn *columns,
                              guint n_columns,
                              const char *first)
{
  double unit = (get_inner (self) - INDENT) / sum_shares (columns, n_columns);
  double x = MARGIN + INDENT;
  double top;

  need (self, WRITING);
  top = self->y;
  self->y += WRITING - LINE - 1;
  draw_cell (self, &columns[0], first, x, columns[0].share * unit, &text_style);
  self->y = top + WRITING;
  for (guint i = 1; i < n_columns; i++)
    {
      x += columns[i - 1].share * unit;
      cav_scene_add_line (self->scene, CAV_POINT (x, top), CAV_POINT (x, self->y),
                          CAV_STYLE_THIN_RULE);
    }
  end_row (self);
}

static void
draw_foot (CavTextSheet *self, CavScene *scene, guint number)
{
  CavTextStyle right = bold_style;
  double y = self->height - MARGIN - FOOT + 4;
  g_autoptr (GPtrArray) lines
      = cav_lettering_wrap (cav_scene_get_lettering (scene), cav_words_get_foot (), TEXT, FALSE,
                            get_inner (self) - 32, 3);

  right.align = CAV_ALIGN_END;
  cav_scene_add_line (scene, CAV_POINT (MARGIN, y), CAV_POINT (self->width - MARGIN, y),
                      CAV_STYLE_THIN_RULE);
  cav_scene_add_page_number (scene, number, self->scenes->len, FALSE,
                             CAV_POINT (self->width - MARGIN, y + 1.6 + TEXT), &right);
  for (guint i = 0; i < lines->len; i++)
    cav_scene_add_text (scene, g_ptr_array_index (lines, i),
                        CAV_POINT (MARGIN, y + 1.6 + TEXT + i * LINE), &text_style);
}

GPtrArray *
cav_text_sheet_finish (CavTextSheet *self)
{
  g_return_val_if_fail (self != NULL && self->scenes != NULL, NULL);

  for (guint i = 0; i < self->scenes->len; i++)
    draw_foot (self, g_ptr_array_index (self->scenes, i), i + 1);
  return g_steal_pointer (&self->scenes);
}
