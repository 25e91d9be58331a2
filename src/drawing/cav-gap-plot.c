/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/cav-mitre-view.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#include "geometry/cav-number-text.h"

/* On the page, mm. */
#define LEFT 22.0
#define BELOW 9.0
#define ABOVE 6.0
#define LINE (CAV_LETTER_NOTE * CAV_LETTER_LEADING)
#define TICK 1.2
#define DOT 1.1
/* The table stands below the plot where there is room for both. */
#define PLOT_LEAST 26.0
#define ROW (LINE + 0.8)
#define TABLE (3.0 * ROW + 3.0)
#define NAMES 46.0

typedef struct
{
  CavScene *scene;
  const CavFrame *frame;
  CavBox plot;
  double low; /* gap at the foot and the head of the plot, mm */
  double high;
} Plot;

static CavPoint
place (const Plot *self, double humidity, double gap)
{
  const CavGapPoint *points = self->frame->mitres.points;
  double from = points[0].humidity;
  double to = points[CAV_GAP_POINTS - 1].humidity;

  return CAV_POINT (
      self->plot.x0 + (self->plot.x1 - self->plot.x0) * (humidity - from) / (to - from),
      self->plot.y1
          - (self->plot.y1 - self->plot.y0) * (gap - self->low) / (self->high - self->low));
}

static void
write_at (const Plot *self, const char *text, CavPoint point, CavAlign align, CavInk ink)
{
  const CavTextStyle style = { .height = CAV_LETTER_NOTE, .ink = ink, .align = align };

  cav_scene_add_text (self->scene, text, point, &style);
}

/* The smallest round step whose lines leave room for their figures. */
static double
choose_step (double span, double room)
{
  static const double STEPS[] = { 0.05, 0.1, 0.2, 0.25, 0.5, 1, 2, 5, 10 };

  for (guint i = 0; i < G_N_ELEMENTS (STEPS); i++)
    if (STEPS[i] / span * room >= LINE)
      return STEPS[i];
  return span;
}

static void
draw_axes (const Plot *self, CavUnit unit)
{
  const CavGapPoint *points = self->frame->mitres.points;
  double step = choose_step (self->high - self->low, self->plot.y1 - self->plot.y0);
  double last = points[CAV_GAP_POINTS - 1].humidity;

  for (double gap = ceil (self->low / step) * step; gap <= self->high + step * 1e-6; gap += step)
    {
      CavPoint at = place (self, points[0].humidity, gap);
      gboolean zero = fabs (gap) < step * 1e-6;
      g_autofree char *figure = zero ? g_strdup (C_ ("gap", "closed")) : cav_gap_format (gap, unit);

      cav_scene_add_line (self->scene, at, place (self, last, gap),
                          zero ? CAV_STYLE_OUTLINE : CAV_STYLE_TAB);
      write_at (self, figure, CAV_POINT (at.x - 2.0, at.y + CAV_LETTER_NOTE / 2.0), CAV_ALIGN_END,
                CAV_INK_GREY);
    }
  for (double humidity = points[0].humidity; humidity <= last; humidity += 10.0)
    {
      CavPoint at = place (self, humidity, self->low);
      g_autofree char *figure = g_strdup_printf ("%.0f %%", humidity);

      cav_scene_add_line (self->scene, at, CAV_POINT (at.x, at.y + TICK), CAV_STYLE_DIMENSION);
      write_at (self, figure, CAV_POINT (at.x, at.y + TICK + CAV_LETTER_NOTE + 1.0),
                CAV_ALIGN_MIDDLE, CAV_INK_GREY);
    }
}

static void
draw_curve (const Plot *self)
{
  const CavGapPoint *points = self->frame->mitres.points;

  for (int i = 1; i < CAV_GAP_POINTS; i++)
    cav_scene_add_line (self->scene, place (self, points[i - 1].humidity, points[i - 1].gap),
                        place (self, points[i].humidity, points[i].gap), CAV_STYLE_TABLE);
}

/* A dot on the curve; its word stands above it, or below where it would leave the plot. */
static void
draw_mark (const Plot *self, double humidity, const char *word, gboolean above)
{
  CavPoint at = place (self, humidity, cav_frame_mitres_get_gap (&self->frame->mitres, humidity));
  CavBox dot = cav_box_grow (cav_box (at.x, at.y, at.x, at.y), DOT);

  cav_scene_add_box (self->scene, dot, CAV_STYLE_BADGE);
  write_at (self, word, CAV_POINT (at.x, above ? dot.y0 - 1.2 : dot.y1 + 1.2 + CAV_LETTER_NOTE),
            CAV_ALIGN_MIDDLE, CAV_INK_BLACK);
}

/* Every tenth percent of humidity as a column: air, wood, gap. */
static void
draw_table (const Plot *self, CavBox box, CavUnit unit)
{
  const CavGapPoint *points = self->frame->mitres.points;
  const char *names[] = { _ ("Humidity, %"), _ ("Moisture of the wood, %"),
                          unit == CAV_UNIT_MM ? _ ("Gap in mm, \342\210\222 inside")
                                              : _ ("Gap in inches, \342\210\222 inside") };
  double y[3];
  double column = (box.x1 - box.x0 - NAMES) / ((CAV_GAP_POINTS + 1) / 2);

  for (int row = 0; row < 3; row++)
    {
      y[row] = box.y1 - (2 - row) * ROW - 1.2;
      cav_scene_add_text_within (
          self->scene, names[row], CAV_POINT (box.x0, y[row]),
          &(const CavTextStyle){ .height = CAV_LETTER_NOTE, .ink = CAV_INK_GREY }, NAMES - 1.0);
      cav_scene_add_line (self->scene, CAV_POINT (box.x0, y[row] + 1.2),
                          CAV_POINT (box.x1, y[row] + 1.2), CAV_STYLE_TAB);
    }
  for (int i = 0; i < CAV_GAP_POINTS; i += 2)
    {
      double x = box.x0 + NAMES + (i / 2 + 1) * column - 1.0;
      g_autofree char *humidity = g_strdup_printf ("%.0f", points[i].humidity);
      g_autofree char *moisture = g_strdup (CAV_NUMBER_TEXT ("%.1f", points[i].moisture));
      g_autofree char *gap = cav_gap_format_signed (points[i].gap, unit);

      write_at (self, humidity, CAV_POINT (x, y[0]), CAV_ALIGN_END, CAV_INK_BLACK);
      write_at (self, moisture, CAV_POINT (x, y[1]), CAV_ALIGN_END, CAV_INK_BLACK);
      write_at (self, gap, CAV_POINT (x, y[2]), CAV_ALIGN_END, CAV_INK_BLACK);
    }
}

/* Whether the words at two marks would touch, side by side. */
static gboolean
touch (const Plot *self, double humidity, const char *word, double other, const char *other_word)
{
  CavLettering *lettering = cav_scene_get_lettering (self->scene);
  double room = cav_lettering_get_width (lettering, word, CAV_LETTER_NOTE, FALSE)
                + cav_lettering_get_width (lettering, other_word, CAV_LETTER_NOTE, FALSE);

  return fabs (place (self, humidity, 0).x - place (self, other, 0).x) < room / 2.0 + 1.0;
}

/* Where the curve is on the side of dry air its words stand below it, on the other above; in the
 * shop there is room on either. */
static void
draw_marks (const Plot *self)
{
  const CavFrameSettings *settings = &self->frame->settings;
  double damp = settings->damp.humidity;
  double shop = settings->shop.humidity;
  gboolean is_damp_above = cav_frame_mitres_get_gap (&self->frame->mitres, damp) > 0.0;
  gboolean is_shop_above
      = !(is_damp_above && touch (self, shop, C_ ("air", "shop"), damp, C_ ("air", "dampest")));

  draw_mark (self, settings->dry.humidity, C_ ("air", "driest"), FALSE);
  draw_mark (self, shop, C_ ("air", "shop"), is_shop_above);
  draw_mark (self, damp, C_ ("air", "dampest"), is_damp_above);
}

void
cav_gap_plot_draw (
    CavScene *scene, const CavFrame *frame, CavBox box, double humidity, CavUnit unit)
{
  const CavFrameMitres *mitres = &frame->mitres;
  const CavTextStyle heading = { .height = CAV_LETTER_NOTE, .bold = TRUE, .ink = CAV_INK_BLACK };
  double first = mitres->points[0].gap;
  double last = mitres->points[CAV_GAP_POINTS - 1].gap;
  double room = fmax (fabs (last - first) * 0.1, 0.02);
  gboolean has_table = box.y1 - box.y0 - ABOVE - BELOW - TABLE >= PLOT_LEAST;
  Plot self = { .scene = scene,
                .frame = frame,
                .plot = cav_box (box.x0 + LEFT, box.y0 + ABOVE, box.x1 - 6.0,
                                 box.y1 - BELOW - (has_table ? TABLE : 0.0)),
                .low = fmin (first, last) - room,
                .high = fmax (first, last) + room };
  CavPoint from;

  g_return_if_fail (mitres->has_seasons);

  cav_scene_begin_titled_layer (scene, "gap-plot", _ ("Gap against humidity"),
                                _ ("Above the line the mitre opens at the outside, below it at the "
                                   "sight edge."));
  cav_scene_add_text_within (
      scene, _ ("Gap against humidity: above the line at the outside, below it at the sight edge"),
      CAV_POINT (box.x0, box.y0 + CAV_LETTER_NOTE), &heading, box.x1 - box.x0);
  draw_axes (&self, unit);
  draw_curve (&self);
  from = place (&self, humidity, self.low);
  cav_scene_add_line (scene, from, place (&self, humidity, self.high), CAV_STYLE_CENTRE);
  draw_marks (&self);
  if (has_table)
    draw_table (&self, box, unit);
  cav_scene_end_layer (scene);
}
