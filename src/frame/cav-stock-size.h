/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* Sizes that pictures, mats and boards are sold in. */
typedef enum
{
  CAV_STOCK_ISO_A,   /* ISO 216 */
  CAV_STOCK_ISO_B,   /* ISO 216 */
  CAV_STOCK_ISO_RAW, /* ISO 217, untrimmed printing paper */
  CAV_STOCK_INCH,    /* customary sizes of photographs and frames */
  CAV_STOCK_MAT,     /* standard mats of CCI Notes 11/5, Canadian Conservation Institute */
  CAV_STOCK_BOARD,   /* whole sheets of mat board */
  CAV_STOCK_CM,      /* customary sizes of photographs and frames */
} CavStockSeries;

/* Upright: width <= height; mm. */
typedef struct
{
  char name[16]; /* "A4", "8 × 10 in" */
  CavStockSeries series;
  double width;
  double height;
} CavStockSize;

/* By series, large to small in ISO's, small to large in the others. */
guint cav_stock_size_get_count (void);
const CavStockSize *cav_stock_size_get (guint index);
/* (transfer container) Those that a picture is likely to have, each once: CavStockSize. */
GPtrArray *cav_stock_sizes_list_for_pictures (void) G_GNUC_WARN_UNUSED_RESULT;
/* (nullable) The size of a name, or of these measures either way up, within half a millimetre. */
const CavStockSize *cav_stock_size_find (const char *name);
const CavStockSize *cav_stock_size_match (double width, double height);
/* (nullable) The least sheet of a series that a piece can be cut from, turned where that helps. */
const CavStockSize *cav_stock_size_find_sheet (CavStockSeries series, double width, double height);

G_END_DECLS
