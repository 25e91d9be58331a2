/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "geometry/cav-region.h"

G_BEGIN_DECLS

/*
 * The lower edge of a region as the table sees it, exact: between neighbouring break points the
 * height is linear. Where nothing stands above, the height is CAV_LOWER_LINE_OPEN.
 */
#define CAV_LOWER_LINE_OPEN 1e9

typedef struct
{
  int n_breaks;
  double *u;     /* n_breaks, rising */
  double *left;  /* n_breaks - 1: height right after break i */
  double *right; /* n_breaks - 1: height right before break i + 1 */
  double *at;    /* n_breaks: the lower of the two at break i */
  double lowest; /* of all */
} CavLowerLine;

/* What a tool leaves above it: depth z below its tip where the tool reaches radius r, both rising;
 * a step is two points with equal z or equal r. */
typedef struct
{
  int n_points;
  double *r;
  double *z;
} CavToolTop;

/* Of the outline of a region, mapped by transform. */
CavLowerLine *cav_lower_line_new (const CavRegion *region,
                                  CavTransform transform) G_GNUC_WARN_UNUSED_RESULT;
void cav_lower_line_free (CavLowerLine *line);
/* Lowest height on both sides of u. */
double cav_lower_line_at (const CavLowerLine *line, double u);
/* The same for one place after another that lies near it: interval is -1 before the first. */
double cav_lower_line_at_next (const CavLowerLine *line, double u, int *interval);
/* The same at n places from 0 on, so far apart each. */
void cav_lower_line_sample (const CavLowerLine *line, double spacing, int n, double *out_heights);
/* Lowest height over the open interval (u0, u1). */
double cav_lower_line_minimum (const CavLowerLine *line, double u0, double u1);

/* How high the tip of a tool with its axis at u may stand without entering the region: exact, for
 * both are linear between their break points. CAV_LOWER_LINE_OPEN where nothing is in the way. */
double cav_lower_line_get_tip (const CavLowerLine *line, const CavToolTop *top, double u);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CavLowerLine, cav_lower_line_free)

G_END_DECLS
