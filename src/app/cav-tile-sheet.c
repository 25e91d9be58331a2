/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-tile-sheet.h"

#include <math.h>

/* Side of a square, pixels. */
#define SIDE 128

typedef struct
{
  GskRenderNode *ground; /* nullable: below the node, where the area does not fill the square */
  GskRenderNode *node;   /* nullable: to be drawn */
  /* What the node paints. Kept, for cairo copies a surface that is let go of before its node is. */
  cairo_surface_t *surface;
} Tile;

struct _CavTileSheet
{
  double width;
  double height;
  double device;
  int columns;
  int rows;
  Tile *tiles; /* row by row */
  CavBox area; /* pixels, whole ones: what pixels are kept of */
};

static void
clear_tile (Tile *tile)
{
  g_clear_pointer (&tile->node, gsk_render_node_unref);
  g_clear_pointer (&tile->surface, cairo_surface_destroy);
}

static void
clear_all (CavTileSheet *sheet)
{
  for (int i = 0; i < sheet->columns * sheet->rows; i++)
    {
      clear_tile (&sheet->tiles[i]);
      g_clear_pointer (&sheet->tiles[i].ground, gsk_render_node_unref);
    }
}

static void
clear_tiles (CavTileSheet *sheet)
{
  clear_all (sheet);
  g_clear_pointer (&sheet->tiles, g_free);
  sheet->columns = 0;
  sheet->rows = 0;
}

CavTileSheet *
cav_tile_sheet_new (void)
{
  return g_new0 (CavTileSheet, 1);
}

void
cav_tile_sheet_free (CavTileSheet *sheet)
{
  if (sheet == NULL)
    return;
  clear_tiles (sheet);
  g_free (sheet);
}

void
cav_tile_sheet_set_size (CavTileSheet *sheet, double width, double height, double device)
{
  g_return_if_fail (sheet != NULL);

  if (fabs (width - sheet->width) < 1e-6 && fabs (height - sheet->height) < 1e-6
      && fabs (device - sheet->device) < 1e-6)
    return;
  clear_tiles (sheet);
  sheet->width = width;
  sheet->height = height;
  sheet->device = device;
  sheet->columns = (int)ceil (width / SIDE);
  sheet->rows = (int)ceil (height / SIDE);
  sheet->tiles = g_new0 (Tile, (gsize)(sheet->columns * sheet->rows));
  sheet->area = (CavBox){ 0, 0, width, height };
}

static Tile *
get_tile (CavTileSheet *sheet, int column, int row)
{
  return &sheet->tiles[row * sheet->columns + column];
}

static CavBox
get_common (CavBox a, CavBox b)
{
  return (CavBox){ fmax (a.x0, b.x0), fmax (a.y0, b.y0), fmin (a.x1, b.x1), fmin (a.y1, b.y1) };
}

static gboolean
is_empty (CavBox box)
{
  return box.x1 <= box.x0 || box.y1 <= box.y0;
}

/* What the area has of these squares; the last column and row are not among them. */
static CavBox
get_squares (const CavTileSheet *sheet, CavBox area, int x0, int y0, int x1, int y1)
{
  return get_common (area, (CavBox){ x0 * SIDE, y0 * SIDE, fmin (x1 * SIDE, sheet->width),
                                     fmin (y1 * SIDE, sheet->height) });
}

static CavBox
get_square (const CavTileSheet *sheet, CavBox area, int column, int row)
{
  return get_squares (sheet, area, column, row, column + 1, row + 1);
}

static gboolean
boxes_equal (CavBox a, CavBox b)
{
  if (is_empty (a) || is_empty (b))
    return is_empty (a) && is_empty (b);
  return fabs (a.x0 - b.x0) < 0.5 && fabs (a.y0 - b.y0) < 0.5 && fabs (a.x1 - b.x1) < 0.5
         && fabs (a.y1 - b.y1) < 0.5;
}

void
cav_tile_sheet_set_area (CavTileSheet *sheet, CavBox area)
{
  g_return_if_fail (sheet != NULL);

  area = get_common ((CavBox){ 0, 0, sheet->width, sheet->height },
                     (CavBox){ floor (area.x0), floor (area.y0), ceil (area.x1), ceil (area.y1) });
  if (is_empty (area))
    area = (CavBox){ 0, 0, 0, 0 };
  if (boxes_equal (area, sheet->area))
    return;
  for (int row = 0; row < sheet->rows; row++)
    for (int column = 0; column < sheet->columns; column++)
      if (!boxes_equal (get_square (sheet, area, column, row),
                        get_square (sheet, sheet->area, column, row)))
        clear_tile (get_tile (sheet, column, row));
  sheet->area = area;
}

void
cav_tile_sheet_queue_box (CavTileSheet *sheet, CavBox box)
{
  int first_column, last_column, first_row, last_row;

  g_return_if_fail (sheet != NULL);

  first_column = (int)floor (fmax (box.x0, 0) / SIDE);
  last_column = (int)floor (fmin (box.x1, sheet->width - 1) / SIDE);
  first_row = (int)floor (fmax (box.y0, 0) / SIDE);
  last_row = (int)floor (fmin (box.y1, sheet->height - 1) / SIDE);
  for (int row = first_row; row <= last_row; row++)
    for (int column = first_column; column <= last_column; column++)
      clear_tile (get_tile (sheet, column, row));
}

void
cav_tile_sheet_queue_all (CavTileSheet *sheet)
{
  g_return_if_fail (sheet != NULL);

  clear_all (sheet);
}

/* The least box of whole squares that has all to be drawn; FALSE where there is none. */
static gboolean
find_stale (CavTileSheet *sheet, cairo_rectangle_int_t *out_squares)
{
  int x0 = sheet->columns, y0 = sheet->rows, x1 = -1, y1 = -1;

  for (int row = 0; row < sheet->rows; row++)
    for (int column = 0; column < sheet->columns; column++)
      if (get_tile (sheet, column, row)->node == NULL
          && !is_empty (get_square (sheet, sheet->area, column, row)))
        {
          x0 = MIN (x0, column);
          y0 = MIN (y0, row);
          x1 = MAX (x1, column);
          y1 = MAX (y1, row);
        }
  *out_squares = (cairo_rectangle_int_t){ x0, y0, x1 - x0 + 1, y1 - y0 + 1 };
  return x1 >= 0;
}

static void
draw_stale (CavTileSheet *sheet, CavTileSheetDraw draw, gpointer user_data)
{
  cairo_rectangle_int_t squares;
  cairo_surface_t *surface;
  cairo_t *cr;
  CavBox part;

  if (!find_stale (sheet, &squares))
    return;
  part = get_squares (sheet, sheet->area, squares.x, squares.y, squares.x + squares.width,
                      squares.y + squares.height);
  surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24,
                                        (int)ceil ((part.x1 - part.x0) * sheet->device),
                                        (int)ceil ((part.y1 - part.y0) * sheet->device));
  cairo_surface_set_device_scale (surface, sheet->device, sheet->device);
  cr = cairo_create (surface);
  cairo_translate (cr, -part.x0, -part.y0);
  draw (cr, part, user_data);
  cairo_destroy (cr);
  for (int row = squares.y; row < squares.y + squares.height; row++)
    for (int column = squares.x; column < squares.x + squares.width; column++)
      {
        Tile *tile = get_tile (sheet, column, row);

        clear_tile (tile);
        tile->surface = cairo_surface_reference (surface);
        tile->node = cav_tile_sheet_create_node (surface, part.x0, part.y0,
                                                 get_square (sheet, sheet->area, column, row));
      }
  cairo_surface_destroy (surface);
}

/* (transfer full) Not drawn but written down: it is much paper with little on it. */
static GskRenderNode *
create_ground (CavBox box, CavTileSheetDraw draw, gpointer user_data)
{
  GskRenderNode *node = gsk_cairo_node_new (&GRAPHENE_RECT_INIT (
      (float)box.x0, (float)box.y0, (float)(box.x1 - box.x0), (float)(box.y1 - box.y0)));
  cairo_t *cr = gsk_cairo_node_get_draw_context (node);

  draw (cr, box, user_data);
  cairo_destroy (cr);
  return node;
}

static void
write_ground (CavTileSheet *sheet, CavTileSheetDraw draw, gpointer user_data)
{
  const CavBox all = { 0, 0, sheet->width, sheet->height };

  for (int row = 0; row < sheet->rows; row++)
    for (int column = 0; column < sheet->columns; column++)
      {
        Tile *tile = get_tile (sheet, column, row);
        CavBox box = get_square (sheet, all, column, row);

        if (boxes_equal (box, get_square (sheet, sheet->area, column, row)))
          g_clear_pointer (&tile->ground, gsk_render_node_unref);
        else if (tile->ground == NULL)
          tile->ground = create_ground (box, draw, user_data);
      }
}

void
cav_tile_sheet_snapshot (CavTileSheet *sheet,
                         GtkSnapshot *snapshot,
                         CavTileSheetDraw draw_ground,
                         CavTileSheetDraw draw,
                         gpointer user_data)
{
  g_return_if_fail (sheet != NULL && draw_ground != NULL && draw != NULL);

  write_ground (sheet, draw_ground, user_data);
  draw_stale (sheet, draw, user_data);
  for (int i = 0; i < sheet->columns * sheet->rows; i++)
    {
      const Tile *tile = &sheet->tiles[i];

      if (tile->ground != NULL)
        gtk_snapshot_append_node (snapshot, tile->ground);
      if (tile->node != NULL)
        gtk_snapshot_append_node (snapshot, tile->node);
    }
}

GskRenderNode *
cav_tile_sheet_create_node (cairo_surface_t *surface, double x, double y, CavBox box)
{
  graphene_rect_t bounds = GRAPHENE_RECT_INIT ((float)box.x0, (float)box.y0,
                                               (float)(box.x1 - box.x0), (float)(box.y1 - box.y0));
  GskRenderNode *node = gsk_cairo_node_new (&bounds);
  cairo_t *cr = gsk_cairo_node_get_draw_context (node);

  cairo_set_operator (cr, CAIRO_OPERATOR_SOURCE);
  cairo_set_source_surface (cr, surface, x, y);
  cairo_pattern_set_filter (cairo_get_source (cr), CAIRO_FILTER_NEAREST);
  cairo_paint (cr);
  cairo_destroy (cr);
  return node;
}
