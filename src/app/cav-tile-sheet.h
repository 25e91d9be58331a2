/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <gtk/gtk.h>

#include "geometry/cav-region.h"

G_BEGIN_DECLS

/*
 * A picture that is kept in squares, each a render node of its own. When something of it changes,
 * the squares that it touches are drawn anew, and GTK paints no others on the screen. Beyond an
 * area the picture is ground, of which no pixels are kept.
 */
typedef struct _CavTileSheet CavTileSheet;

/* Draws the picture; cr's unit is the sheet's pixel, and only part of it is wanted. */
typedef void (*CavTileSheetDraw) (cairo_t *cr, CavBox part, gpointer user_data);

CavTileSheet *cav_tile_sheet_new (void) G_GNUC_WARN_UNUSED_RESULT;
void cav_tile_sheet_free (CavTileSheet *sheet);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (CavTileSheet, cav_tile_sheet_free)

/* Pixels, and how many device pixels one of them has. Another size is another picture. */
void cav_tile_sheet_set_size (CavTileSheet *sheet, double width, double height, double device);
/* Beyond what there is only ground, pixels; all of the sheet is within when it has got its size. */
void cav_tile_sheet_set_area (CavTileSheet *sheet, CavBox area);
/* What has changed within the area, pixels; all: the ground too. */
void cav_tile_sheet_queue_box (CavTileSheet *sheet, CavBox box);
void cav_tile_sheet_queue_all (CavTileSheet *sheet);
/* Draws what has changed, in one piece, and shows all. */
void cav_tile_sheet_snapshot (CavTileSheet *sheet,
                              GtkSnapshot *snapshot,
                              CavTileSheetDraw draw_ground,
                              CavTileSheetDraw draw,
                              gpointer user_data);

/* (transfer full) A node that paints surface, whose unit is the pixel, with its corner at x, y: as
 * much of it as box has. The software renderer copies a texture as a whole before it draws any of
 * it; a surface it draws from as it is. */
GskRenderNode *cav_tile_sheet_create_node (cairo_surface_t *surface, double x, double y, CavBox box)
    G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
