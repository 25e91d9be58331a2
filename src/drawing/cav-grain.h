/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <cairo.h>

#include "drawing/cav-palette.h"
#include "drawing/cav-view.h"

G_BEGIN_DECLS

/* A window onto a section: where the wood stands in it, its size in pixels, how many device pixels
 * one of these has, how large its letters are (1, or 0, is usual), and the light. */
typedef struct
{
  CavView view;
  double width;
  double height;
  double device;
  double letters;
  CavLight light;
} CavPane;

gboolean cav_pane_equal (const CavPane *a, const CavPane *b);
/* How many times as large as usual its letters are. */
double cav_pane_get_letters (const CavPane *pane);
/* (transfer full) An empty picture of the pane's size whose unit is its pixel. */
cairo_surface_t *cav_pane_create_surface (const CavPane *pane) G_GNUC_WARN_UNUSED_RESULT;

/*
 * (transfer full) The end grain of the whole blank as far as the pane shows it, to paint sections
 * with. Years are closer here and wider there, each with its dark late wood; they belong to the
 * wood, so they grow with it when one looks closer, and then pores and rays come out. The same
 * blank always has the same grain.
 */
cairo_surface_t *cav_grain_create_surface (const CavBlank *blank,
                                           const CavPane *pane) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
