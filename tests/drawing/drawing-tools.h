/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <cairo.h>
#include <glib.h>

#include "geometry/cav-point.h"

G_BEGIN_DECLS

/* Looking at finished files with programs that know nothing of ours (poppler-utils, librsvg). A
 * program that is missing or complains fails the test. */

/* (transfer full) standard output of a program that gets the bytes as a file; "@" in arguments
 * stands for that file, "%" for the name of a file that it writes, which is then returned
 * instead. */
GBytes *tool_run (GBytes *bytes, const char *const *arguments) G_GNUC_WARN_UNUSED_RESULT;
char *tool_run_text (GBytes *bytes, const char *const *arguments) G_GNUC_WARN_UNUSED_RESULT;

/* A word of a PDF, box in millimetres from the top left of its page. */
typedef struct
{
  guint page; /* from 0 */
  CavBox box;
  char *text;
} Word;

/* (transfer full) Word array, in reading order. */
GPtrArray *tool_read_words (GBytes *pdf) G_GNUC_WARN_UNUSED_RESULT;
/* (transfer full) all words of a page with single spaces between. */
char *tool_join_words (const GPtrArray *words, guint page) G_GNUC_WARN_UNUSED_RESULT;
/* Words of different places must not lie on each other. */
void tool_assert_apart (const GPtrArray *words);

/* (transfer full) pictures as 8 bits of grey, read with tool_get_grey(). */
cairo_surface_t *tool_load_png (GBytes *png) G_GNUC_WARN_UNUSED_RESULT;
cairo_surface_t *
tool_render_pdf (GBytes *pdf, guint page, int dots_per_inch) G_GNUC_WARN_UNUSED_RESULT;
cairo_surface_t *tool_render_svg (GBytes *svg, int dots_per_inch) G_GNUC_WARN_UNUSED_RESULT;
/* 0 black to 255 white. */
int tool_get_grey (cairo_surface_t *surface, int x, int y);
/* Red, green and blue as 0xrrggbb. */
guint32 tool_get_colour (cairo_surface_t *surface, int x, int y);

G_END_DECLS
