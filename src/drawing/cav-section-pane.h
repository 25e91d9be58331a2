/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "drawing/cav-grain.h"
#include "project/cav-length.h"
#include "project/cav-project.h"

G_BEGIN_DECLS

/*
 * The section as the canvas shows it, the part that changes slowly: ground and grid, the blank as a
 * thin outline, waste as a pale ghost, the profile as end grain, what is wrong with it, rulers.
 */
typedef struct
{
  CavBlank blank;
  const CavRegion *profile;  /* (nullable) */
  const CavRegion *leftover; /* (nullable) what no tool reaches, in the blank's coordinates */
  const GPtrArray *findings; /* (nullable) CavFinding; those with a place are marked */
  CavUnit unit;
} CavSectionContent;

/* Breadth of the rulers at the pane's top and left, pixels, with letters as large as usual. */
#define CAV_PANE_RULER 22.0
/* Radius of the mark of a finding, pixels. */
#define CAV_PANE_MARK 8.0

/* Beyond what only ground and grid are drawn, rulers aside, pixels. */
CavBox cav_section_pane_get_area (const CavPane *pane, const CavSectionContent *content);
/* cr's unit is the pane's pixel. Ground, grid and waste. */
void
cav_section_pane_draw_ground (cairo_t *cr, const CavPane *pane, const CavSectionContent *content);
/* The profile, painted with grain (of cav_grain_create_surface(), for the same pane; NULL for plain
 * wood), and what is wrong with it. */
void cav_section_pane_draw_wood (cairo_t *cr,
                                 const CavPane *pane,
                                 const CavSectionContent *content,
                                 cairo_surface_t *grain);
/* Rulers, over everything else. */
void cav_section_pane_draw_rulers (cairo_t *cr, const CavPane *pane, CavUnit unit);
/* Breadth of the rulers of that pane, pixels. */
double cav_pane_get_ruler (const CavPane *pane);
/* Where the mark of a finding stands, pixels; FALSE where it has no place. */
gboolean
cav_section_pane_get_mark (const CavPane *pane, const CavFinding *finding, CavPoint *out_pixel);

G_END_DECLS
