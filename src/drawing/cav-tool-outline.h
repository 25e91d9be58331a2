/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <cairo.h>

#include "geometry/cav-path.h"
#include "shop/cav-blade.h"
#include "shop/cav-cutter.h"

G_BEGIN_DECLS

/*
 * A tool as a picture for lists and forms: a cutter tip up as it stands in the table, with its
 * bearing and the beginning of its shank; of a blade the crown, seen along the kerf. It is painted
 * in tones of one colour, so that it stands on a light ground as well as on a dark one.
 */
typedef struct
{
  double red; /* 0 to 1 */
  double green;
  double blue;
  double scale; /* units of the context for a millimetre */
} CavToolLook;

/* Room that the picture takes, mm: the axis is x = 0, tip and crown are y = 0, y runs down. */
CavBox cav_cutter_get_picture_box (const CavCutter *cutter);
CavBox cav_blade_get_picture_box (const CavBlade *blade);

/* (transfer full) the whole outline of the cutting part, closed, in the coordinates of the box. */
CavPath *cav_cutter_create_picture_path (const CavCutter *cutter) G_GNUC_WARN_UNUSED_RESULT;
CavPath *cav_blade_create_picture_path (const CavBlade *blade) G_GNUC_WARN_UNUSED_RESULT;

/* Draws with tip or crown at the origin of cr. */
void cav_cutter_draw_picture (cairo_t *cr, const CavCutter *cutter, const CavToolLook *look);
void cav_blade_draw_picture (cairo_t *cr, const CavBlade *blade, const CavToolLook *look);

G_END_DECLS
