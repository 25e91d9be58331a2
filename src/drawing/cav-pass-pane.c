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

typedef struct
{
  CavPen pen;
  const CavPane *pane;
  const CavPassContent *content;
  const CavSetup *setup;
  const CavPass *pass;
  const CavPass *before; /* in the same setup; nullable */
  CavSheetOptions options;
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

static double
get_head (const PassPane *self)
{
  return HEAD * self->pen.letters;
}

static double
draw_line (PassPane *self, const char *text, CavPoint at, double size, CavTone tone, gboolean bold)
{
  const CavPenText style = { .size = size, .tone = tone, .bold = bold, .y = CAV_PEN_END };
  CavBox box = cav_pen_get_text_box (&self->pen, text, at, &style);

  cav_pen_draw_text (&self->pen, text, at, &style);
  return box.x1;
}

/* A large figure with its word above; returns where it ends. */
static double
draw_figure (PassPane *self, const char *word, double mm, double x)
{
  g_autofree char *figure
      = cav_length_format_bare (mm, self->content->unit, self->content->denominator);
  double right = draw_line (
      self, figure, CAV_POINT (x, MARGIN + get_line (self) + FIGURE * self->pen.letters + 6),
      FIGURE, CAV_TONE_TEXT, TRUE);

  return fmax (right, draw_line (self, word, CAV_POINT (x, MARGIN + get_line (self) - 2),
                                 CAV_PEN_USUAL, CAV_TONE_QUIET, FALSE));
}

static void
draw_head (PassPane *self)
{
  g_autofree char *tool = cav_words_dup_tool (self->content->plan, self->setup);
  g_autofree char *setting = cav_words_describe_setting (self->setup, FALSE);
  g_autofree char *change = cav_words_describe_change (self->content->plan, self->setup,
                                                       self->before, self->pass, &self->options);
  g_autofree char *title
      = g_strdup_printf (/* Translators: pass 3 of 12. */ _ ("%d of %u"), self->content->pass + 1,
                         cav_plan_get_pass_count (self->content->plan));
  g_autofree char *machine
      = setting != NULL
            ? g_strdup_printf ("%s, %s. %s", cav_words_get_machine (self->setup->machine), tool,
                               setting)
            : g_strdup_printf ("%s, %s", cav_words_get_machine (self->setup->machine), tool);
  g_autofree char *sides = g_strdup_printf ("%s, %s", cav_words_get_down (self->pass->down),
                                            cav_words_get_against (self->pass->against));
  double figure;
  CavMeasure measure = cav_pass_get_measure (self->content->plan, self->setup, self->pass, &figure);
  double x = MARGIN;
  double y = MARGIN + get_line (self) - 2;

  x = draw_figure (self, cav_words_get_measure (measure), figure, x) + COLUMN_GAP;
  x = draw_figure (self, self->content->unit == CAV_UNIT_INCH ? _ ("Height, in") : _ ("Height, mm"),
                   self->pass->height, x)
      + COLUMN_GAP;
  draw_line (self, title, CAV_POINT (x, y), CAV_PEN_USUAL, CAV_TONE_QUIET, FALSE);
  draw_line (self, machine, CAV_POINT (x, y + get_line (self)), CAV_PEN_FIGURE, CAV_TONE_TEXT,
             TRUE);
  draw_line (self, sides, CAV_POINT (x, y + 2 * get_line (self)), CAV_PEN_FIGURE, CAV_TONE_TEXT,
             FALSE);
  draw_line (self, change, CAV_POINT (x, y + 3 * get_line (self)), CAV_PEN_FIGURE, CAV_TONE_PENCIL,
             TRUE);
}

static void
draw_cautions (PassPane *self)
{
  GString *text = g_string_new (NULL);

  for (int i = 0; i < CAV_N_CAUTIONS; i++)
    if (self->pass->cautions & (1u << i))
      g_string_append_printf (text, "%s%s", text->len > 0 ? "   ▲ " : "▲ ",
                              cav_words_get_caution ((CavCaution)(1u << i)));
  if (text->len > 0)
    draw_line (self, text->str, CAV_POINT (MARGIN, MARGIN + 4 * get_line (self) + 10),
               CAV_PEN_USUAL, CAV_TONE_MARK, TRUE);
  g_string_free (text, TRUE);
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
  CavFrameBox box = { .x = MARGIN,
                      .y = get_head (self),
                      .width = self->pane->width - 2 * MARGIN,
                      .height = self->pane->height - get_head (self) - MARGIN,
                      .per_mm = PER_MM };
  const CavMachineLook look = { .unit = self->content->unit,
                                .denominator = self->content->denominator,
                                .letters = PICTURE_LETTERS * self->pen.letters,
                                .scale = LARGEST_SCALE,
                                .progress = self->content->progress,
                                .centred = TRUE };

  if (box.width > 0 && box.height > 0)
    cav_draw_pass_as (self->pen.cr, self->content->plan, setup, pass, box, self->pane->light,
                      &look);
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
  cairo_rectangle (self->pen.cr, 0, get_head (self), self->pane->width,
                   self->pane->height - get_head (self));
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
      draw_machine (&self, setup, pass);
      draw_head (&self);
      draw_cautions (&self);
      draw_progress (&self);
      if (content->is_stale)
        draw_stale (&self);
    }
  else
    draw_none (&self);
  cav_pen_end (&self.pen);
}
