/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "geometry/cav-unit.h"
#include "project/cav-snap-private.h"

#include <math.h>

/* Sizes nearer than this are one: far below what a grinder or a machine can do. */
#define SAME 1e-4

static gboolean
same (double a, double b)
{
  return fabs (a - b) < SAME;
}

/* A cutter that comes in along y of the cut's frame, its axis at x and its tip at the depth y. */
static CavTransform
stand_across (double x, double y)
{
  return (CavTransform){ 1.0, 0.0, x, 0.0, 1.0, y };
}

/* A cutter that comes in along x of the frame, its axis at y and its tip at x. */
static CavTransform
stand_along (double x, double y)
{
  return (CavTransform){ 0.0, 1.0, x, 1.0, 0.0, y };
}

static gboolean
makes_groove (const CavCutter *cutter, const CavCut *cut, CavTransform *out_place)
{
  const double *n = cut->numbers;
  CavCutterFamily family
      = cut->form == CAV_FORM_ROUND ? CAV_CUTTER_ROUND_NOSE : CAV_CUTTER_STRAIGHT;

  if (cutter->family != family || !same (cutter->numbers[CAV_CUTTER_DIAMETER], n[CAV_CUT_WIDTH])
      || cutter->length < n[CAV_CUT_DEPTH] - SAME)
    return FALSE;
  if (family == CAV_CUTTER_ROUND_NOSE && n[CAV_CUT_DEPTH] < n[CAV_CUT_WIDTH] / 2.0 - SAME)
    return FALSE;
  *out_place = stand_across (n[CAV_CUT_POSITION], n[CAV_CUT_DEPTH]);
  return TRUE;
}

/* The radius of a hollow in a side; 0 where it is no part of a circle. */
static double
get_hollow_radius (double width, double depth)
{
  double half = width / 2.0;

  if (depth > half + SAME)
    return 0.0;
  return (half * half + depth * depth) / (2.0 * depth);
}

static gboolean
makes_hollow (const CavCutter *cutter, const CavCut *cut, CavTransform *out_place)
{
  const double *n = cut->numbers;
  const double *c = cutter->numbers;
  double width = n[CAV_CUT_WIDTH];
  double depth = n[CAV_CUT_DEPTH];

  switch ((guint)cutter->family)
    {
    case CAV_CUTTER_ROUND_NOSE:
      if (!same (get_hollow_radius (width, depth), c[CAV_CUTTER_DIAMETER] / 2.0))
        return FALSE;
      *out_place = stand_across (n[CAV_CUT_POSITION], depth);
      return TRUE;
    case CAV_CUTTER_LARGE_COVE:
      if (!same (width, c[CAV_CUTTER_WIDTH]) || !same (depth, c[CAV_CUTTER_DEPTH]))
        return FALSE;
      *out_place
          = stand_along (n[CAV_CUT_POSITION] + width / 2.0, depth - c[CAV_CUTTER_DIAMETER] / 2.0);
      return TRUE;
    default:
      return FALSE;
    }
}

/* A quarter circle about the corner: the ball of a round nose there, or a cove cutter whose tip
 * runs along the side. */
static gboolean
makes_corner_cove (const CavCutter *cutter, const CavCut *cut, CavTransform *out_place)
{
  const double *c = cutter->numbers;
  double radius = cut->numbers[CAV_CUT_WIDTH];

  if (!same (radius, cut->numbers[CAV_CUT_DEPTH]))
    return FALSE;
  if (cutter->family == CAV_CUTTER_ROUND_NOSE && same (c[CAV_CUTTER_DIAMETER] / 2.0, radius))
    {
      *out_place = stand_across (0.0, radius);
      return TRUE;
    }
  if (cutter->family == CAV_CUTTER_COVE && same (c[CAV_CUTTER_RADIUS], radius))
    {
      *out_place = stand_across (-c[CAV_CUTTER_TIP_DIAMETER] / 2.0, radius);
      return TRUE;
    }
  return FALSE;
}

static gboolean
makes_round (const CavCutter *cutter, const CavCut *cut, CavTransform *out_place)
{
  const double *c = cutter->numbers;
  double radius = cut->numbers[CAV_CUT_WIDTH];

  if (cutter->family != CAV_CUTTER_ROUND_OVER || !same (radius, cut->numbers[CAV_CUT_DEPTH])
      || !same (c[CAV_CUTTER_RADIUS], radius))
    return FALSE;
  *out_place = stand_across (-c[CAV_CUTTER_TIP_DIAMETER] / 2.0, radius);
  return TRUE;
}

/* The slope of a cutter as radius for each mm of depth, with the tip's radius and how far out it
 * goes; FALSE where it has none. */
static gboolean
get_slope (const CavCutter *cutter, double *out_slope, double *out_tip, double *out_reach)
{
  const double *c = cutter->numbers;
  double angle = c[CAV_CUTTER_ANGLE];

  if (cutter->family != CAV_CUTTER_CHAMFER && cutter->family != CAV_CUTTER_VEE)
    return FALSE;
  if (cutter->family == CAV_CUTTER_VEE)
    angle /= 2.0;
  *out_slope = tan (CAV_RADIANS (angle));
  *out_tip = cutter->family == CAV_CUTTER_VEE ? 0.0 : c[CAV_CUTTER_TIP_DIAMETER] / 2.0;
  *out_reach = c[CAV_CUTTER_DIAMETER] / 2.0 - *out_tip;
  return TRUE;
}

/* With the tip at the end of one leg, which lies on the side that the cutter runs along. */
static gboolean
makes_chamfer (const CavCutter *cutter, const CavCut *cut, CavTransform *out_place)
{
  double width = cut->numbers[CAV_CUT_WIDTH];
  double depth = cut->numbers[CAV_CUT_DEPTH];
  double slope, tip, reach;

  if (!get_slope (cutter, &slope, &tip, &reach))
    return FALSE;
  if (same (width, depth * slope) && width <= reach + SAME)
    {
      *out_place = stand_across (-tip, depth);
      return TRUE;
    }
  if (same (depth, width * slope) && depth <= reach + SAME)
    {
      *out_place = stand_along (width, -tip);
      return TRUE;
    }
  return FALSE;
}

/* An edge bead cutter lies beside the wood: its lips go down to the bead's middle, and the one
 * toward its tip is the quirk. On a side both lips are quirks. */
static gboolean
makes_bead (const CavCutter *cutter, const CavCut *cut, CavTransform *out_place)
{
  const double *n = cut->numbers;
  const double *c = cutter->numbers;
  double radius = c[CAV_CUTTER_RADIUS];
  double lip = c[CAV_CUTTER_CUTTING_LENGTH] / 2.0 - radius;
  double depth = n[CAV_CUT_QUIRK_DEPTH];
  double middle = cut->anchor == CAV_ANCHOR_CORNER ? radius : n[CAV_CUT_POSITION];

  if (cutter->family != CAV_CUTTER_BEAD || cut->form != CAV_FORM_FLUSH
      || !same (n[CAV_CUT_WIDTH], 2.0 * radius) || !same (n[CAV_CUT_QUIRK_WIDTH], lip)
      || (depth > 0.0 && !same (depth, radius)))
    return FALSE;
  *out_place = stand_along (middle + radius + lip, radius - c[CAV_CUTTER_DIAMETER] / 2.0);
  return TRUE;
}

/* Two equal quarter circles. Across the back or face the cutter leaves the round at that side. */
static gboolean
makes_ogee (const CavCutter *cutter, const CavCut *cut, CavTransform *out_place)
{
  const double *n = cut->numbers;
  double size = 2.0 * cutter->numbers[CAV_CUTTER_RADIUS];
  double tip = cutter->numbers[CAV_CUTTER_TIP_DIAMETER] / 2.0;

  if (cutter->family != CAV_CUTTER_OGEE || !same (n[CAV_CUT_WIDTH], size)
      || !same (n[CAV_CUT_DEPTH], size) || !same (n[CAV_CUT_SHARE], 0.5))
    return FALSE;
  *out_place = cut->form == CAV_FORM_REVERSA ? stand_across (-tip, size) : stand_along (size, -tip);
  return TRUE;
}

gboolean
cav_cutter_makes_cut (const CavCutter *cutter, const CavCut *cut, CavTransform *out_place)
{
  switch (cut->kind)
    {
    case CAV_CUT_GROOVE:
      return makes_groove (cutter, cut, out_place);
    case CAV_CUT_COVE:
      return cut->anchor == CAV_ANCHOR_SIDE ? makes_hollow (cutter, cut, out_place)
                                            : makes_corner_cove (cutter, cut, out_place);
    case CAV_CUT_ROUND:
      return makes_round (cutter, cut, out_place);
    case CAV_CUT_CHAMFER:
      return makes_chamfer (cutter, cut, out_place);
    case CAV_CUT_BEAD:
      return makes_bead (cutter, cut, out_place);
    case CAV_CUT_OGEE:
      return makes_ogee (cutter, cut, out_place);
    case CAV_CUT_RABBET:
    case CAV_CUT_STEPS:
    case CAV_CUT_BEVEL:
    case CAV_CUT_DRAWN:
      return FALSE;
    }
  return FALSE;
}

/* The most values of one number that a cutter proposes. */
#define MOST_VALUES 4

/* The radii and widths of a cutter that could be a number of some cut, given the cut's other
 * numbers. Whether they are is tried with cav_cutter_makes_cut(). Returns how many. */
static guint
list_values (const CavCutter *cutter, const CavCut *cut, CavCutNumber number, double *values)
{
  const double *c = cutter->numbers;
  const double *n = cut->numbers;
  double radius
      = c[cutter->family == CAV_CUTTER_ROUND_NOSE ? CAV_CUTTER_DIAMETER : CAV_CUTTER_RADIUS];
  double other = number == CAV_CUT_WIDTH ? n[CAV_CUT_DEPTH] : n[CAV_CUT_WIDTH];
  double slope, tip, reach;
  guint count = 0;

  if (cutter->family == CAV_CUTTER_ROUND_NOSE)
    radius /= 2.0;
  switch ((guint)cutter->family)
    {
    case CAV_CUTTER_STRAIGHT:
      values[count++] = c[CAV_CUTTER_DIAMETER];
      break;
    case CAV_CUTTER_ROUND_NOSE:
      values[count++] = radius;
      values[count++] = 2.0 * radius;
      /* A hollow that is a part of the circle only. */
      if (number == CAV_CUT_WIDTH && other < radius)
        values[count++] = 2.0 * sqrt (other * (2.0 * radius - other));
      else if (number == CAV_CUT_DEPTH && other < 2.0 * radius)
        values[count++] = radius - sqrt (radius * radius - other * other / 4.0);
      break;
    case CAV_CUTTER_COVE:
    case CAV_CUTTER_ROUND_OVER:
      values[count++] = radius;
      break;
    case CAV_CUTTER_OGEE:
      values[count++] = 2.0 * radius;
      break;
    case CAV_CUTTER_BEAD:
      values[count++] = number == CAV_CUT_QUIRK_WIDTH
                            ? c[CAV_CUTTER_CUTTING_LENGTH] / 2.0 - radius
                            : (number == CAV_CUT_QUIRK_DEPTH ? radius : 2.0 * radius);
      break;
    case CAV_CUTTER_LARGE_COVE:
      values[count++] = c[number == CAV_CUT_WIDTH ? CAV_CUTTER_WIDTH : CAV_CUTTER_DEPTH];
      break;
    case CAV_CUTTER_CHAMFER:
    case CAV_CUTTER_VEE:
      if (get_slope (cutter, &slope, &tip, &reach))
        {
          values[count++] = other * slope;
          values[count++] = other / slope;
        }
      break;
    default:
      break;
    }
  return count;
}

const CavCutter *
cav_cutter_find_size (const GPtrArray *cutters,
                      const CavCut *cut,
                      CavCutNumber number,
                      double reach,
                      double *out_value)
{
  const CavCutter *found = NULL;
  CavCut trial = *cut;
  double values[MOST_VALUES];
  CavTransform place;

  for (guint i = 0; i < cutters->len; i++)
    {
      const CavCutter *cutter = g_ptr_array_index (cutters, i);
      guint count = list_values (cutter, cut, number, values);

      for (guint k = 0; k < count; k++)
        {
          double distance = fabs (values[k] - cut->numbers[number]);

          trial.numbers[number] = values[k];
          if (distance > reach || (found != NULL && distance >= reach)
              || !cav_cutter_makes_cut (cutter, &trial, &place))
            continue;
          reach = distance;
          found = cutter;
          *out_value = values[k];
        }
    }
  return found;
}

/* Width and depth that the cutter would like best for a cut that has others now. */
static gboolean
get_both (const CavCutter *cutter, const CavCut *cut, double *out_width, double *out_depth)
{
  const double *c = cutter->numbers;
  double width = cut->numbers[CAV_CUT_WIDTH];
  double depth = cut->numbers[CAV_CUT_DEPTH];
  double slope, tip, reach;

  switch ((guint)cutter->family)
    {
    case CAV_CUTTER_ROUND_NOSE:
      *out_width = *out_depth = c[CAV_CUTTER_DIAMETER] / 2.0;
      return TRUE;
    case CAV_CUTTER_COVE:
    case CAV_CUTTER_ROUND_OVER:
      *out_width = *out_depth = c[CAV_CUTTER_RADIUS];
      return TRUE;
    case CAV_CUTTER_OGEE:
      *out_width = *out_depth = 2.0 * c[CAV_CUTTER_RADIUS];
      return TRUE;
    case CAV_CUTTER_CHAMFER:
    case CAV_CUTTER_VEE:
      if (!get_slope (cutter, &slope, &tip, &reach))
        return FALSE;
      /* Turned over where the legs ask for it. */
      if ((width > depth) != (slope > 1.0))
        slope = 1.0 / slope;
      *out_depth = (depth + slope * width) / (1.0 + slope * slope);
      *out_width = slope * *out_depth;
      return TRUE;
    default:
      return FALSE;
    }
}

const CavCutter *
cav_cutter_find_both (
    const GPtrArray *cutters, const CavCut *cut, double reach, double *out_width, double *out_depth)
{
  const CavCutter *found = NULL;
  CavCut trial = *cut;
  CavTransform place;

  for (guint i = 0; i < cutters->len; i++)
    {
      const CavCutter *cutter = g_ptr_array_index (cutters, i);
      double width, depth;

      if (!get_both (cutter, cut, &width, &depth))
        continue;
      double distance
          = hypot (width - cut->numbers[CAV_CUT_WIDTH], depth - cut->numbers[CAV_CUT_DEPTH]);
      trial.numbers[CAV_CUT_WIDTH] = width;
      trial.numbers[CAV_CUT_DEPTH] = depth;
      if (distance > reach || (found != NULL && distance >= reach)
          || !cav_cutter_makes_cut (cutter, &trial, &place))
        continue;
      reach = distance;
      found = cutter;
      *out_width = width;
      *out_depth = depth;
    }
  return found;
}

/* The radius that a cutter leaves, or 0. */
static double
get_curve_radius (const CavCutter *cutter)
{
  switch ((guint)cutter->family)
    {
    case CAV_CUTTER_ROUND_NOSE:
      return cutter->numbers[CAV_CUTTER_DIAMETER] / 2.0;
    case CAV_CUTTER_COVE:
    case CAV_CUTTER_ROUND_OVER:
    case CAV_CUTTER_OGEE:
    case CAV_CUTTER_BEAD:
      return cutter->numbers[CAV_CUTTER_RADIUS];
    default:
      return 0.0;
    }
}

const CavCutter *
cav_cutter_find_bulge (
    const GPtrArray *cutters, double chord, double bulge, double reach, double *out_bulge)
{
  const CavCutter *found = NULL;

  for (guint i = 0; i < cutters->len; i++)
    {
      const CavCutter *cutter = g_ptr_array_index (cutters, i);
      double radius = get_curve_radius (cutter);

      if (radius < chord / 2.0)
        continue;
      double rise = sqrt (radius * radius - chord * chord / 4.0);
      const double values[] = { radius - rise, radius + rise };
      for (guint k = 0; k < G_N_ELEMENTS (values); k++)
        {
          double distance = fabs (values[k] - fabs (bulge));

          if (distance > reach || (found != NULL && distance >= reach))
            continue;
          reach = distance;
          found = cutter;
          *out_bulge = copysign (values[k], bulge);
        }
    }
  return found;
}
