/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "picture-compare.h"

#include <string.h>

/* Pixels at the right and below that a page fills only in part. */
#define MARGIN 2

static guint32
get_pixel (cairo_surface_t *picture, int x, int y)
{
  guint32 pixel;

  memcpy (&pixel,
          cairo_image_surface_get_data (picture)
              + (gsize)y * (gsize)cairo_image_surface_get_stride (picture) + (gsize)x * 4,
          4);
  return pixel;
}

/* How far one picture's channel lies outside what the other has within one pixel. */
static int
get_reach (cairo_surface_t *a, cairo_surface_t *b, int x, int y, int width, int height, int shift)
{
  int value = (int)(get_pixel (a, x, y) >> shift & 255);
  int low = 255;
  int high = 0;

  for (int next_y = MAX (y - 1, 0); next_y <= MIN (y + 1, height - 1); next_y++)
    for (int next_x = MAX (x - 1, 0); next_x <= MIN (x + 1, width - 1); next_x++)
      {
        int near = (int)(get_pixel (b, next_x, next_y) >> shift & 255);

        low = MIN (low, near);
        high = MAX (high, near);
      }
  return MAX (MAX (value - high, low - value), 0);
}

static gboolean
is_marked (cairo_surface_t *a, cairo_surface_t *b, int x, int y, Comparison *result, int limit)
{
  guint32 first = get_pixel (a, x, y);
  guint32 second = get_pixel (b, x, y);
  gboolean differs = FALSE;

  for (int shift = 0; shift <= 16; shift += 8)
    {
      int difference = ABS ((int)(first >> shift & 255) - (int)(second >> shift & 255));

      result->mean += difference;
      differs = differs
                || (difference > limit
                    && MAX (get_reach (a, b, x, y, result->width, result->height, shift),
                            get_reach (b, a, x, y, result->width, result->height, shift))
                           > limit);
    }
  return differs;
}

/* Counts a patch and wipes it out. */
static int
count_patch (guint8 *marks, int width, int height, int x, int y)
{
  g_autoptr (GArray) open = g_array_new (FALSE, FALSE, sizeof (int));
  int at = y * width + x;
  int count = 0;

  marks[at] = 0;
  g_array_append_val (open, at);
  while (open->len > 0)
    {
      at = g_array_index (open, int, open->len - 1);
      g_array_set_size (open, open->len - 1);
      count++;
      for (int dy = -1; dy <= 1; dy++)
        for (int dx = -1; dx <= 1; dx++)
          {
            int next_x = at % width + dx;
            int next_y = at / width + dy;
            int next = next_y * width + next_x;

            if (next_x < 0 || next_y < 0 || next_x >= width || next_y >= height || marks[next] == 0)
              continue;
            marks[next] = 0;
            g_array_append_val (open, next);
          }
    }
  return count;
}

Comparison
compare_pictures (cairo_surface_t *a, cairo_surface_t *b, int limit)
{
  Comparison result = {
    .width = MIN (cairo_image_surface_get_width (a), cairo_image_surface_get_width (b)) - MARGIN,
    .height = MIN (cairo_image_surface_get_height (a), cairo_image_surface_get_height (b)) - MARGIN,
  };
  g_autofree guint8 *marks = g_new0 (guint8, (gsize)result.width * (gsize)result.height);

  cairo_surface_flush (a);
  cairo_surface_flush (b);
  for (int y = 0; y < result.height; y++)
    for (int x = 0; x < result.width; x++)
      if (is_marked (a, b, x, y, &result, limit))
        marks[y * result.width + x] = 1;
  for (int y = 0; y < result.height; y++)
    for (int x = 0; x < result.width; x++)
      {
        int count = marks[y * result.width + x] != 0
                        ? count_patch (marks, result.width, result.height, x, y)
                        : 0;

        if (count <= result.patch)
          continue;
        result.patch = count;
        result.patch_x = x;
        result.patch_y = y;
      }
  result.mean /= 3.0 * result.width * result.height;
  return result;
}

int
picture_get_grey (cairo_surface_t *picture, int x, int y)
{
  guint32 pixel;

  if (x < 0 || y < 0 || x >= cairo_image_surface_get_width (picture)
      || y >= cairo_image_surface_get_height (picture))
    return 255;
  pixel = get_pixel (picture, x, y);
  return (int)((pixel >> 16 & 255) + (pixel >> 8 & 255) + (pixel & 255)) / 3;
}

static int
get_at (cairo_surface_t *picture, gboolean upright, int line, int place)
{
  return upright ? picture_get_grey (picture, line, place)
                 : picture_get_grey (picture, place, line);
}

Run
find_longest_run (
    cairo_surface_t *picture, gboolean upright, int first, int last, int start, int end)
{
  Run best = { 0 };

  cairo_surface_flush (picture);
  for (int line = first; line < last; line++)
    for (int place = start; place < end; place++)
      {
        int from = place;

        while (place < end && get_at (picture, upright, line, place) < 128)
          place++;
        if (place - from <= best.to - best.from || from == start || place == end)
          continue;
        best = (Run){ .from = from - (255 - get_at (picture, upright, line, from - 1)) / 255.0,
                      .to = place + (255 - get_at (picture, upright, line, place)) / 255.0,
                      .line = line };
      }
  return best;
}
