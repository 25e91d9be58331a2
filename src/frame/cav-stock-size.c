/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "frame/cav-stock-size.h"

#include "geometry/cav-unit.h"

#include <math.h>
#include <string.h>

#define ISO_LAST 10
/* Measures that differ by less are the same size. */
#define SAME 0.5

/* ISO 217, as printers know it. */
static const struct
{
  const char *name;
  double width, height;
} raw[] = {
  { "RA0", 860, 1220 }, { "RA1", 610, 860 },  { "RA2", 430, 610 },  { "SRA0", 900, 1280 },
  { "SRA1", 640, 900 }, { "SRA2", 450, 640 }, { "SRA3", 320, 450 },
};

/* What prints and ready frames are sold in where one measures in centimetres: customary, no source.
 */
static const struct
{
  int width, height;
} centimetres[] = {
  { 9, 13 },  { 10, 15 }, { 13, 18 }, { 15, 20 }, { 18, 24 }, { 20, 25 }, { 20, 30 },
  { 24, 30 }, { 30, 40 }, { 40, 50 }, { 40, 60 }, { 50, 70 }, { 60, 80 }, { 70, 100 },
};

/* Sizes in whole inches, each series small to large. Photographs: customary, no source. Boards:
 * 32 × 40 in is the sheet that framing guides name; 40 × 60 in and 48 × 96 in from memory. */
static const struct
{
  CavStockSeries series;
  int width, height;
} inches[] = {
  { CAV_STOCK_INCH, 4, 6 },    { CAV_STOCK_INCH, 5, 7 },    { CAV_STOCK_INCH, 8, 10 },
  { CAV_STOCK_INCH, 8, 12 },   { CAV_STOCK_INCH, 11, 14 },  { CAV_STOCK_INCH, 12, 16 },
  { CAV_STOCK_INCH, 12, 18 },  { CAV_STOCK_INCH, 16, 20 },  { CAV_STOCK_INCH, 18, 24 },
  { CAV_STOCK_INCH, 20, 24 },  { CAV_STOCK_INCH, 20, 30 },  { CAV_STOCK_INCH, 24, 30 },
  { CAV_STOCK_INCH, 24, 36 },  { CAV_STOCK_MAT, 8, 10 },    { CAV_STOCK_MAT, 10, 12 },
  { CAV_STOCK_MAT, 14, 18 },   { CAV_STOCK_MAT, 16, 22 },   { CAV_STOCK_MAT, 22, 28 },
  { CAV_STOCK_MAT, 28, 36 },   { CAV_STOCK_BOARD, 32, 40 }, { CAV_STOCK_BOARD, 40, 60 },
  { CAV_STOCK_BOARD, 48, 96 },
};

#define N_SIZES                                                                                    \
  (2 * (ISO_LAST + 1) + G_N_ELEMENTS (raw) + G_N_ELEMENTS (inches) + G_N_ELEMENTS (centimetres))
static CavStockSize sizes[N_SIZES];

/* Each size of a series is the one before it, cut across its long side; a half millimetre is
 * dropped (ISO 216). */
static guint
fill_iso (guint at, CavStockSeries series, char letter, int width, int height)
{
  for (int i = 0; i <= ISO_LAST; i++)
    {
      CavStockSize *size = &sizes[at++];
      int half = height / 2;

      g_snprintf (size->name, sizeof size->name, "%c%d", letter, i);
      size->series = series;
      size->width = width;
      size->height = height;
      height = width;
      width = half;
    }
  return at;
}

static void
fill_sizes (void)
{
  guint at = fill_iso (0, CAV_STOCK_ISO_A, 'A', 841, 1189);

  at = fill_iso (at, CAV_STOCK_ISO_B, 'B', 1000, 1414);
  for (guint i = 0; i < G_N_ELEMENTS (raw); i++, at++)
    {
      g_strlcpy (sizes[at].name, raw[i].name, sizeof sizes[at].name);
      sizes[at].series = CAV_STOCK_ISO_RAW;
      sizes[at].width = raw[i].width;
      sizes[at].height = raw[i].height;
    }
  for (guint i = 0; i < G_N_ELEMENTS (inches); i++, at++)
    {
      g_snprintf (sizes[at].name, sizeof sizes[at].name, "%d × %d in", inches[i].width,
                  inches[i].height);
      sizes[at].series = inches[i].series;
      sizes[at].width = inches[i].width * CAV_INCH;
      sizes[at].height = inches[i].height * CAV_INCH;
    }
  for (guint i = 0; i < G_N_ELEMENTS (centimetres); i++, at++)
    {
      g_snprintf (sizes[at].name, sizeof sizes[at].name, "%d × %d cm", centimetres[i].width,
                  centimetres[i].height);
      sizes[at].series = CAV_STOCK_CM;
      sizes[at].width = centimetres[i].width * 10;
      sizes[at].height = centimetres[i].height * 10;
    }
}

static const CavStockSize *
get_sizes (void)
{
  static gsize filled = 0;

  if (g_once_init_enter (&filled))
    {
      fill_sizes ();
      g_once_init_leave (&filled, 1);
    }
  return sizes;
}

guint
cav_stock_size_get_count (void)
{
  return N_SIZES;
}

const CavStockSize *
cav_stock_size_get (guint index)
{
  g_return_val_if_fail (index < N_SIZES, NULL);
  return &get_sizes ()[index];
}

const CavStockSize *
cav_stock_size_find (const char *name)
{
  for (guint i = 0; name != NULL && i < N_SIZES; i++)
    if (strcmp (get_sizes ()[i].name, name) == 0)
      return &get_sizes ()[i];
  return NULL;
}

const CavStockSize *
cav_stock_size_match (double width, double height)
{
  double narrow = fmin (width, height);
  double wide = fmax (width, height);

  for (guint i = 0; i < N_SIZES; i++)
    if (fabs (get_sizes ()[i].width - narrow) <= SAME
        && fabs (get_sizes ()[i].height - wide) <= SAME)
      return &get_sizes ()[i];
  return NULL;
}

/* Series of pictures, as one looks for them, and the least of ISO's that anybody frames. */
static const struct
{
  CavStockSeries series;
  double least; /* width, mm */
} picture_series[] = {
  { CAV_STOCK_ISO_A, 105 }, { CAV_STOCK_CM, 0 }, { CAV_STOCK_INCH, 0 }, { CAV_STOCK_ISO_B, 176 }
};

GPtrArray *
cav_stock_sizes_list_for_pictures (void)
{
  GPtrArray *list = g_ptr_array_new ();

  for (guint k = 0; k < G_N_ELEMENTS (picture_series); k++)
    for (guint i = 0; i < N_SIZES; i++)
      if (get_sizes ()[i].series == picture_series[k].series
          && get_sizes ()[i].width >= picture_series[k].least)
        g_ptr_array_add (list, (gpointer)&get_sizes ()[i]);
  return list;
}

const CavStockSize *
cav_stock_size_find_sheet (CavStockSeries series, double width, double height)
{
  const CavStockSize *best = NULL;
  double narrow = fmin (width, height);
  double wide = fmax (width, height);

  for (guint i = 0; i < N_SIZES; i++)
    {
      const CavStockSize *size = &get_sizes ()[i];

      if (size->series != series || size->width < narrow || size->height < wide)
        continue;
      if (best == NULL || size->width * size->height < best->width * best->height)
        best = size;
    }
  return best;
}
