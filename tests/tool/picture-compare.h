/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <cairo.h>
#include <glib.h>

/* What two pictures of the same thing differ by, where they overlap. */
typedef struct
{
  int width; /* of what was compared */
  int height;
  double mean; /* of all differences, over all channels, 0 to 255 */
  int patch;   /* pixels in the largest patch that differs */
  int patch_x; /* where that patch begins */
  int patch_y;
} Comparison;

/*
 * limit: of a channel, 0 to 255. A pixel differs where its channel lies farther than that from all
 * that the other picture has within one pixel, either way round: programs smooth the edges of lines
 * and letters by rules of their own, and place them on their own grid. Patches hang together by
 * sides and corners.
 */
Comparison compare_pictures (cairo_surface_t *a, cairo_surface_t *b, int limit);
/* Channel sum of a pixel, 0 black to 255 white; white outside. */
int picture_get_grey (cairo_surface_t *picture, int x, int y);

/* A dark run along a row or a column: its ends as fractions of pixels, by how dark the pixels at
 * both ends are. */
typedef struct
{
  double from;
  double to;
  int line; /* the row or column it was found in */
} Run;

/* The longest dark run that lies in rows (columns where upright) first to last - 1, and begins
 * beyond pixel start and ends before pixel end. */
Run find_longest_run (
    cairo_surface_t *picture, gboolean upright, int first, int last, int start, int end);
