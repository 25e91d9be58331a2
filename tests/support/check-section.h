/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "plan-checker.h"

G_BEGIN_DECLS

/*
 * Sections as rows. A ruling cuts the blank into rows at every corner of every outline that the
 * plan knows, and no row is higher than 0.01 mm; a section holds what the middle line of each row
 * crosses. Inside a row all edges are straight, so areas are exact but where two slanted edges
 * cross within one row.
 */

/* Spans shorter than this are rounding, not wood. */
#define CHECK_SPAN_LEAST 0.002

typedef struct
{
  GArray *lines; /* double, rising, from 0 to the blank's thickness */
} CheckRuling;

typedef struct
{
  double a;
  double b;
} CheckSpan;

typedef struct
{
  const CheckRuling *ruling;
  GArray *first; /* guint, rows + 1: where each row's spans begin */
  GArray *spans; /* CheckSpan, rising in a row */
} CheckSection;

typedef struct
{
  double area;
  double x; /* centroid */
  double y;
  double x0, y0, x1, y1; /* bounds; x1 < x0 where empty */
} CheckMeasure;

typedef struct
{
  CheckSection *section;
  double area;
} CheckPiece;

/* corners: GArray of double, the y of every corner; changed. */
CheckRuling *check_ruling_new (double thickness, GArray *corners) G_GNUC_WARN_UNUSED_RESULT;
void check_ruling_free (CheckRuling *ruling);
guint check_ruling_count (const CheckRuling *ruling);
double check_ruling_middle (const CheckRuling *ruling, guint row);
double check_ruling_height (const CheckRuling *ruling, guint row);
/* The row that holds y. */
guint check_ruling_find (const CheckRuling *ruling, double y);

/* The inside of rings (GArray of CheckPoint) by the even-odd rule, cut to 0 <= x <= width. */
CheckSection *check_section_from_rings (const CheckRuling *ruling,
                                        const GPtrArray *rings,
                                        double width) G_GNUC_WARN_UNUSED_RESULT;
CheckSection *check_section_minus (const CheckSection *a,
                                   const CheckSection *b) G_GNUC_WARN_UNUSED_RESULT;
CheckSection *check_section_common (const CheckSection *a,
                                    const CheckSection *b) G_GNUC_WARN_UNUSED_RESULT;
void check_section_free (CheckSection *section);
guint check_section_count (const CheckSection *section, guint row);
CheckSpan check_section_get (const CheckSection *section, guint row, guint index);
gboolean check_section_contains (const CheckSection *section, double x, double y);
CheckMeasure check_section_measure (const CheckSection *section);
/* (transfer full) CheckPiece array: what hangs together. */
GPtrArray *check_section_split (const CheckSection *section) G_GNUC_WARN_UNUSED_RESULT;

/* A bitmap of a box, each pixel by its middle. */
typedef struct
{
  int nx;
  int ny;
  double x0;
  double y0;
  double pixel;
  guint8 *set;
} CheckGrid;

CheckGrid *
check_grid_new (double x0, double y0, double x1, double y1, double pixel) G_GNUC_WARN_UNUSED_RESULT;
void check_grid_free (CheckGrid *grid);
void check_grid_draw (CheckGrid *grid, const CheckSection *section);
/* Distance from each pixel's middle to the middle of the nearest pixel whose set is value, mm;
 * 1e9 where there is none. (transfer full) */
float *check_grid_get_distance (const CheckGrid *grid, guint8 value) G_GNUC_WARN_UNUSED_RESULT;
/* Numbers the parts of what is set that hang together, corners too, from 1; 0 is not set.
 * (transfer full) */
int *check_grid_label (const CheckGrid *grid, int *out_count) G_GNUC_WARN_UNUSED_RESULT;
/* The section without what is set in grid. */
CheckSection *check_section_minus_grid (const CheckSection *section,
                                        const CheckGrid *grid) G_GNUC_WARN_UNUSED_RESULT;
/* Diameter of the greatest circle that fits inside a section, within about a pixel. */
double check_section_get_thickness (const CheckSection *section);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CheckRuling, check_ruling_free)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (CheckSection, check_section_free)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (CheckGrid, check_grid_free)

G_END_DECLS
