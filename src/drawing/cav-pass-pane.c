/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/cav-pass-pane.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

#include "drawing/cav-drawing.h"
#include "drawing/cav-pass-words.h"
#include "drawing/cav-pen-private.h"

/* Pixels to a millimetre of the scene that the machine is drawn in: that of a usual screen. */
#define PER_MM 3.78
/* Pixels. */
#define MARGIN 22.0
#define HEAD 128.0 /* figures and words over the picture */
#define FIGURE 34.0
#define LINE 19.0
#define COLUMN_GAP 34.0
#define PICTURE_LETTERS 4.6 /* mm in the scene */
#define LARGEST_SCALE 12.0
#define BAR 6.0
/* That a picture with words of the usual size needs. */
#define LEAST_WIDTH 640.0
#define LEAST_HEIGHT 300.0

enum
{
  WORDS_MACHINE,
  WORDS_SIDES,
  WORDS_CHANGE,
  N_WORDS,
};

typedef struct
{
  CavPen pen;
  const CavPane *pane;
  const CavPassContent *content;
  const CavSetup *setup;
  const CavPass *pass;
  const CavPass *before; /* in the same setup; nullable */
  CavSheetOptions options;

  /* Owned: the words over the picture, what comes before the others first */
  char *title;
  char *words[N_WORDS];
  char *cautions; /* nullable */
  /* Beside the figures there is no room for them: they are below. */
  gboolean is_narrow;
  double head;
} PassPane;

gboolean
cav_plan_find_pass (const CavPlan *plan, int number, guint *out_setup, guint *out_pass)
{
  for (guint i = 0; plan != NULL && number >= 0 && i < plan->setups->len; i++)
    {
      const CavSetup *setup = g_ptr_array_index (plan->setups, i);

      if (number < (int)setup->passes->len)
        {
          *out_setup = i;
          *out_pass = (guint)number;
          return TRUE;
        }
      number -= (int)setup->passes->len;
    }
  return FALSE;
}

static double
get_line (const PassPane *self)
{
  return LINE * self->pen.letters;
}

/* Returns where it ends. */
static double
put_line (PassPane *self,
          const char *text,
          CavPoint at,
          double size,
          CavTone tone,
          gboolean bold,
          gboolean draws)
{
  const CavPenText style = { .size = size, .tone = tone, .bold = bold, .y = CAV_PEN_END };

  if (draws)
    cav_pen_draw_text (&self->pen, text, at, &style);
  return cav_pen_get_text_box (&self->pen, text, at, &style).x1;
}

/* The words over the picture */

static char *
dup_machine (const PassPane *self)
{
  g_autofree char *tool = cav_words_dup_tool (self->content->plan, self->setup);
  g_autofree char *setting = cav_words_describe_setting (self->setup, FALSE);
  const char *machine = cav_words_get_machine (self->setup->machine);

  return setting != NULL ? g_strdup_printf ("%s, %s. %s", machine, tool, setting)
                         : g_strdup_printf ("%s, %s", machine, tool);
}

/* (nullable) */
static char *
dup_cautions (const PassPane *self)
{
  GString *text = g_string_new (NULL);

  for (int i = 0; i < CAV_N_CAUTIONS; i++)
    if (self->pass->cautions & (1u << i))
      g_string_append_printf (text, "%s%s", text->len > 0 ? "   ▲ " : "▲ ",
                              cav_words_get_caution ((CavCaution)(1u << i)));
  return g_string_free (text, text->len == 0);
}

static void
find_words (PassPane *self)
{
  self->title
      = g_strdup_printf (/* Translators: pass 3 of 12. */ _ ("%d of %u"), self->content->pass + 1,
                         cav_plan_get_pass_count (self->content->plan));
  self->words[WORDS_MACHINE] = dup_machine (self);
  self->words[WORDS_SIDES] = g_strdup_printf ("%s, %s", cav_words_get_down (self->pass->down),
                                              cav_words_get_against (self->pass->against));
  self->words[WORDS_CHANGE] = cav_words_describe_change (self->content->plan, self->setup,
                                                         self->before, self->pass, &self->options);
  self->cautions = dup_cautions (self);
}

static void
clear_words (PassPane *self)
{
  g_clear_pointer (&self->title, g_free);
  for (guint i = 0; i < N_WORDS; i++)
    g_clear_pointer (&self->words[i], g_free);
  g_clear_pointer (&self->cautions, g_free);
}

static CavPenText
get_style (guint words)
{
  return (CavPenText){ .size = CAV_PEN_FIGURE,
                       .tone = words == WORDS_CHANGE ? CAV_TONE_PENCIL : CAV_TONE_TEXT,
                       .bold = words != WORDS_SIDES,
                       .y = CAV_PEN_END };
}

static const CavPenText CAUTIONS
    = { .size = CAV_PEN_USUAL, .tone = CAV_TONE_MARK, .bold = TRUE, .y = CAV_PEN_END };

static double
get_width (PassPane *self, const char *text, CavPenText style)
{
  CavBox box = cav_pen_get_text_box (&self->pen, text, CAV_POINT (0, 0), &style);

  return box.x1 - box.x0;
}

static double
get_words_width (PassPane *self, guint words)
{
  return get_width (self, self->words[words], get_style (words));
}

/* Where the words below the figures begin. */
static double
get_below (const PassPane *self)
{
  return MARGIN + get_line (self) + FIGURE * self->pen.letters + 10;
}

/* A text with its top at y, broken where it is wider than the pane; returns its foot. */
static double
put_text (PassPane *self, const char *text, double x, double y, CavPenText style, gboolean draws)
{
  CavPoint at = CAV_POINT (x, y);

  style.y = CAV_PEN_START;
  style.broken = self->pane->width - x - MARGIN / 2;
  if (draws)
    cav_pen_draw_text (&self->pen, text, at, &style);
  return cav_pen_get_text_box (&self->pen, text, at, &style).y1;
}

/* The words below the figures; returns their foot. The change stands beside the sides if it can. */
static double
put_below (PassPane *self, gboolean draws)
{
  double beside = MARGIN + get_words_width (self, WORDS_SIDES) + COLUMN_GAP / 2;
  gboolean fits = beside + get_words_width (self, WORDS_CHANGE) + MARGIN / 2 <= self->pane->width;
  double y = put_text (self, self->words[WORDS_MACHINE], MARGIN, get_below (self),
                       get_style (WORDS_MACHINE), draws);
  double foot
      = put_text (self, self->words[WORDS_SIDES], MARGIN, y, get_style (WORDS_SIDES), draws);

  if (fits)
    put_text (self, self->words[WORDS_CHANGE], beside, y, get_style (WORDS_CHANGE), draws);
  else
    foot
        = put_text (self, self->words[WORDS_CHANGE], MARGIN, foot, get_style (WORDS_CHANGE), draws);
  if (self->cautions != NULL)
    foot = put_text (self, self->cautions, MARGIN, foot + 2, CAUTIONS, draws);
  return foot;
}

/* A large figure with its word above; returns where it ends. */
static double
put_figure (PassPane *self, const char *word, double mm, double x, gboolean draws)
{
  g_autofree char *figure
      = cav_length_format_bare (mm, self->content->unit, self->content->denominator);
  CavPoint at = CAV_POINT (x, MARGIN + get_line (self) + FIGURE * self->pen.letters + 6);
  double right = put_line (self, figure, at, FIGURE, CAV_TONE_TEXT, TRUE, draws);

  return fmax (right, put_line (self, word, CAV_POINT (x, MARGIN + get_line (self) - 2),
                                CAV_PEN_USUAL, CAV_TONE_QUIET, FALSE, draws));
}

/* Both figures; returns where what stands beside them begins. */
static double
put_figures (PassPane *self, gboolean draws)
{
  double figure;
  CavMeasure measure = cav_pass_get_measure (self->content->plan, self->setup, self->pass, &figure);
  double x = put_figure (self, cav_words_get_measure (measure), figure, MARGIN, draws) + COLUMN_GAP;

  return put_figure (self,
                     self->content->unit == CAV_UNIT_INCH ? _ ("Height, in") : _ ("Height, mm"),
                     self->pass->height, x, draws)
         + COLUMN_GAP;
}

static void
lay_out_head (PassPane *self)
{
  double room = self->pane->width - MARGIN / 2 - put_figures (self, FALSE);

  self->is_narrow
      = self->cautions != NULL
        && MARGIN + get_width (self, self->cautions, CAUTIONS) + MARGIN / 2 > self->pane->width;
  for (guint i = 0; i < N_WORDS; i++)
    self->is_narrow = self->is_narrow || get_words_width (self, i) > room;
  self->head = HEAD * self->pen.letters;
  if (self->is_narrow)
    self->head = fmax (self->head, put_below (self, FALSE) + MARGIN / 2);
}

static void
draw_head (PassPane *self)
{
  double x = put_figures (self, TRUE);
  double y = MARGIN + get_line (self) - 2;

  put_line (self, self->title, CAV_POINT (x, y), CAV_PEN_USUAL, CAV_TONE_QUIET, FALSE, TRUE);
  if (self->is_narrow)
    {
      put_below (self, TRUE);
      return;
    }
  for (guint i = 0; i < N_WORDS; i++)
    {
      const CavPenText style = get_style (i);

      y += get_line (self);
      cav_pen_draw_text (&self->pen, self->words[i], CAV_POINT (x, y), &style);
    }
  if (self->cautions != NULL)
    cav_pen_draw_text (&self->pen, self->cautions,
                       CAV_POINT (MARGIN, MARGIN + 4 * get_line (self) + 10), &CAUTIONS);
}

/* While the milling is played: how far the rail has gone past the tool. */
static void
draw_progress (PassPane *self)
{
  cairo_t *cr = self->pen.cr;
  double width = self->pane->width - 2 * MARGIN;
  double y = self->pane->height - MARGIN / 2 - BAR;

  if (self->content->progress >= 1 || width <= 0)
    return;
  cav_pen_set_tone (&self->pen, CAV_TONE_GRID_MAIN, 1);
  cairo_rectangle (cr, MARGIN, y, width, BAR);
  cairo_fill (cr);
  cav_pen_set_tone (&self->pen, CAV_TONE_PENCIL, 1);
  cairo_rectangle (cr, MARGIN, y, width * CLAMP (self->content->progress, 0, 1), BAR);
  cairo_fill (cr);
}

static void
draw_machine (PassPane *self, guint setup, guint pass)
{
  CavDrawBox box = { .x = MARGIN,
                     .y = self->head,
                     .width = self->pane->width - 2 * MARGIN,
                     .height = self->pane->height - self->head - MARGIN,
                     .per_mm = PER_MM };
  const CavMachineLook look = { .unit = self->content->unit,
                                .denominator = self->content->denominator,
                                .letters = PICTURE_LETTERS * self->pen.letters,
                                .scale = LARGEST_SCALE,
                                .progress = self->content->progress,
                                .centred = TRUE };

  if (box.width > 0 && box.height > 0)
    cav_draw_pass (self->pen.cr, self->content->plan, setup, pass, box, self->pane->light, &look);
}

static void
draw_stale (PassPane *self)
{
  const CavPenText style = { .size = CAV_PEN_FIGURE,
                             .tone = CAV_TONE_MARK,
                             .x = CAV_PEN_MIDDLE,
                             .y = CAV_PEN_MIDDLE,
                             .plated = TRUE };

  cav_pen_set_tone (&self->pen, CAV_TONE_GROUND, 0.6);
  cairo_rectangle (self->pen.cr, 0, self->head, self->pane->width, self->pane->height - self->head);
  cairo_fill (self->pen.cr);
  cav_pen_draw_text (&self->pen, self->content->stale_words,
                     CAV_POINT (self->pane->width / 2, self->pane->height / 2), &style);
}

static void
draw_none (PassPane *self)
{
  const CavPenText style = {
    .size = CAV_PEN_FIGURE, .tone = CAV_TONE_QUIET, .x = CAV_PEN_MIDDLE, .y = CAV_PEN_MIDDLE
  };

  cav_pen_draw_text (&self->pen, self->content->none_words,
                     CAV_POINT (self->pane->width / 2, self->pane->height / 2), &style);
}

/* Larger letters as far as the picture keeps its room; the side column says the same, as large as
 * it is wanted. */
static double
get_letters (const CavPane *pane)
{
  double room = fmin (pane->width / LEAST_WIDTH, pane->height / LEAST_HEIGHT);

  return fmax (fmin (cav_pane_get_letters (pane), room), 1.0);
}

void
cav_pass_pane_draw (cairo_t *cr, const CavPane *pane, const CavPassContent *content)
{
  PassPane self = { .pane = pane,
                    .content = content,
                    .options = { .unit = content->unit, .denominator = content->denominator } };
  guint setup;
  guint pass;

  cav_pen_begin (&self.pen, cr, pane);
  self.pen.letters = get_letters (pane);
  cav_pen_set_tone (&self.pen, CAV_TONE_GROUND, 1);
  cairo_paint (cr);
  if (cav_plan_find_pass (content->plan, content->pass, &setup, &pass))
    {
      self.setup = g_ptr_array_index (content->plan->setups, setup);
      self.pass = g_ptr_array_index (self.setup->passes, pass);
      self.before = pass > 0 ? g_ptr_array_index (self.setup->passes, pass - 1) : NULL;
      find_words (&self);
      lay_out_head (&self);
      draw_machine (&self, setup, pass);
      draw_head (&self);
      draw_progress (&self);
      if (content->is_stale)
        draw_stale (&self);
      clear_words (&self);
    }
  else
    draw_none (&self);
  cav_pen_end (&self.pen);
}
