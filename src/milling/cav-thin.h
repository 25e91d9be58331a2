/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "milling/cav-rows.h"

G_BEGIN_DECLS

/* The section drawn in by half a web on all sides (a square one, in micrometres and rows). */
CavRows *
cav_rows_eroded (const CavRows *rows, gint32 aside, int n_rows_up) G_GNUC_WARN_UNUSED_RESULT;

/* TRUE where a lump of waste larger than least (mm²) hangs on to the rest of the rail by a web
 * thinner than web (mm), so that it would break off under the tool. */
gboolean
cav_rows_have_weak_lump (const CavRows *rail, const CavRows *profile, double web, double least);

typedef enum
{
  CAV_LUMP_NONE,
  CAV_LUMP_WEAK,
  CAV_LUMP_UNSURE, /* something goes on to where nobody looked */
} CavLump;

/* The same after a pass, where before it there was none: only rows from one to another (exclusive)
 * have changed. They and those up to a web and a row beside them have to be filled. */
CavLump cav_rows_find_weak_lump (
    const CavRows *rail, const CavRows *profile, double web, double least, int from, int to);

/* A thin wall: the rows that it stands over and its thinnest span there. */
typedef struct
{
  int row;
  int n_rows;
  CavSpan span;
} CavRowsWall;

/* The highest wall of that kind that the next function measures; FALSE where there is none. */
gboolean cav_rows_find_thin_wall (const CavRows *rail,
                                  const CavRows *profile,
                                  const CavRows *swept,
                                  double wall,
                                  CavRowsWall *out_wall);
/* Height (mm) over which a wall thinner than wall (mm) that the profile does not ask for stands
 * beside a sweep, counted along rows; where swept is NULL, anywhere. */
double cav_rows_get_thin_wall (const CavRows *rail,
                               const CavRows *profile,
                               const CavRows *swept,
                               double wall);

G_END_DECLS
