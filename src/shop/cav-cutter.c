/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "shop/cav-cutter.h"

#include "shop/cav-cutter-private.h"
#include "shop/cav-shop.h"

#include <glib/gi18n-lib.h>
#include <math.h>

/* clang-format off */
G_DEFINE_QUARK (cav-shop-error, cav_shop_error)
/* clang-format on */

/* A silhouette stands in for its outline within 0.005 mm; what is left of that is for rounding. */
#define SILHOUETTE_CHORD 0.004

/* Radii that a drawn silhouette may have, and its greatest length. */
#define DRAWN_RADIUS_MAX 50.0
#define DRAWN_LENGTH_MAX 120.0
#define DRAWN_POINTS_MAX 10000

typedef struct
{
  double size;
  double value;
} SizeRow;

/* Most chips of one pass, mm²: common practice, no source. A straight cutter has its full width
 * in the wood, a curved one is judged by its radius, the others by their greatest diameter. */
static const SizeRow straight_bites[] = { { 1.0, 2.0 },   { 3.0, 8.0 },    { 6.35, 20.0 },
                                          { 12.7, 40.0 }, { 19.05, 50.0 }, { 25.4, 60.0 } };
static const SizeRow curve_bites[] = { { 0.5, 2.0 },  { 3.2, 15.0 },  { 6.35, 30.0 },
                                       { 9.5, 40.0 }, { 12.7, 50.0 }, { 19.0, 60.0 } };
static const SizeRow other_bites[]
    = { { 1.0, 2.0 },   { 6.35, 10.0 }, { 16.0, 25.0 }, { 19.0, 30.0 },
        { 22.4, 40.0 }, { 28.0, 40.0 }, { 38.0, 60.0 } };

/* Straight between rows, level beyond them. */
static double
interpolate (const SizeRow *rows, guint n_rows, double size)
{
  if (size <= rows[0].size)
    return rows[0].value;
  for (guint i = 1; i < n_rows; i++)
    if (size <= rows[i].size)
      {
        double share = (size - rows[i - 1].size) / (rows[i].size - rows[i - 1].size);
        return rows[i - 1].value + share * (rows[i].value - rows[i - 1].value);
      }
  return rows[n_rows - 1].value;
}

static double
get_usual_bite (const CavCutter *cutter)
{
  double diameter = 2.0 * cav_cutter_get_greatest_radius (cutter);

  switch (cutter->family)
    {
    case CAV_CUTTER_STRAIGHT:
    case CAV_CUTTER_DOVETAIL:
      return round (interpolate (straight_bites, G_N_ELEMENTS (straight_bites), diameter));

    case CAV_CUTTER_ROUND_NOSE:
      return round (interpolate (curve_bites, G_N_ELEMENTS (curve_bites), diameter / 2.0));

    case CAV_CUTTER_COVE:
    case CAV_CUTTER_ROUND_OVER:
      return round (interpolate (curve_bites, G_N_ELEMENTS (curve_bites),
                                 cutter->numbers[CAV_CUTTER_RADIUS]));

    case CAV_CUTTER_BEAD:
    case CAV_CUTTER_OGEE:
    case CAV_CUTTER_CHAMFER:
    case CAV_CUTTER_VEE:
    case CAV_CUTTER_LARGE_COVE:
    case CAV_CUTTER_DRAWN:
      break;
    }
  return round (interpolate (other_bites, G_N_ELEMENTS (other_bites), diameter));
}

/* Common practice, no source: somewhat under the table's limit, and never above it. */
static double
get_usual_speed (const CavCutter *cutter)
{
  double diameter = 2.0 * cav_cutter_get_greatest_radius (cutter);
  double usual = diameter <= 16.0 ? 22000.0 : 18000.0;

  if (cutter->family == CAV_CUTTER_ROUND_NOSE && diameter <= 19.05)
    usual = 22000.0;
  if (cutter->family == CAV_CUTTER_LARGE_COVE)
    usual = 12000.0;
  return MIN (usual, cav_shop_get_greatest_speed (diameter));
}

/* Chords of the outline as radii over depths; rounding must not let z run back or r below 0. */
static GArray *
create_silhouette (const CavPath *outline, double length)
{
  g_autoptr (GArray) points = cav_path_linearise (outline, SILHOUETTE_CHORD);
  GArray *silhouette = g_array_sized_new (FALSE, FALSE, sizeof (CavSilhouettePoint), points->len);
  double z = 0.0;

  for (guint i = 0; i < points->len; i++)
    {
      CavPoint point = g_array_index (points, CavPoint, i);
      z = CLAMP (0.0 - point.y, z, length);
      if (i + 1 == points->len)
        z = length;
      CavSilhouettePoint row = { .r = MAX (point.x, 0.0), .z = z };
      g_array_append_val (silhouette, row);
    }
  return silhouette;
}

static CavCutter *
new_from_outline (const char *id, CavCutterFamily family, CavPath *outline, double length)
{
  CavCutter *cutter = g_new0 (CavCutter, 1);

  cutter->id = g_strdup (id);
  cutter->name = g_strdup (id);
  cutter->family = family;
  cutter->length = length;
  cutter->outline = outline;
  return cutter;
}

CavCutter *
cav_cutter_new (const char *id, CavCutterFamily family, const double *numbers, GError **error)
{
  g_return_val_if_fail (id != NULL, NULL);
  g_return_val_if_fail ((guint)family < CAV_N_CUTTER_FAMILIES, NULL);
  g_return_val_if_fail (numbers != NULL, NULL);

  if (family == CAV_CUTTER_DRAWN)
    {
      g_set_error (error, CAV_SHOP_ERROR, CAV_SHOP_ERROR_SILHOUETTE,
                   _ ("Cutter “%s” is to be made by its silhouette, but has none: add its points."),
                   id);
      return NULL;
    }

  /* Numbers that the family does not have must not reach its shape. */
  const CavCutterFamilyInfo *info = cav_cutter_family_get_info (family);
  double own[CAV_N_CUTTER_NUMBERS] = { 0.0 };
  for (guint i = 0; i < info->n_numbers; i++)
    own[info->numbers[i].number] = numbers[info->numbers[i].number];
  if (!cav_cutter_check_numbers (id, family, own, error))
    return NULL;

  double length
      = family == CAV_CUTTER_LARGE_COVE ? own[CAV_CUTTER_WIDTH] : own[CAV_CUTTER_CUTTING_LENGTH];
  CavCutter *cutter
      = new_from_outline (id, family, cav_cutter_create_outline (family, own), length);
  memcpy (cutter->numbers, own, sizeof own);
  cutter->silhouette = create_silhouette (cutter->outline, length);
  cutter->bite = get_usual_bite (cutter);
  cutter->speed = get_usual_speed (cutter);
  return cutter;
}

static gboolean
check_silhouette (const char *id, const CavSilhouettePoint *points, guint n_points, GError **error)
{
  /* Each ends the sentence below: “Point 3 of the silhouette of cutter “x”: ...”. */
  const char *fault = NULL;
  guint at = 0;
  double widest = 0.0;

  if (n_points < 2)
    fault = _ ("it is the last; a silhouette needs two or more");
  else if (n_points > DRAWN_POINTS_MAX)
    fault = _ ("it follows many others; leave out points, 10000 are the most");
  for (guint i = 0; i < n_points && fault == NULL; i++)
    {
      at = i;
      widest = MAX (widest, points[i].r);
      if (!isfinite (points[i].r) || points[i].r < 0.0 || points[i].r > DRAWN_RADIUS_MAX)
        fault = _ ("its radius is not from 0 to 50 mm; correct r");
      else if (!isfinite (points[i].z) || points[i].z < 0.0 || points[i].z > DRAWN_LENGTH_MAX)
        fault = _ ("its depth is not from 0 to 120 mm; correct z");
      else if (i == 0 && points[i].z > CAV_TOLERANCE_POINT)
        fault = _ ("it does not lie at the tip; begin with z = 0");
      else if (i > 0 && points[i].z < points[i - 1].z)
        fault = _ ("it goes back toward the tip; put the points in order of z");
    }
  if (fault == NULL && points[n_points - 1].z < 0.5)
    fault = _ ("it ends the cutter less than 0.5 mm below its tip; add points further down");
  else if (fault == NULL && widest < 0.5)
    fault = _ (
        "it ends a cutter that is nowhere 1 mm wide; enter radii, not diameters in other units");
  if (fault == NULL)
    return TRUE;
  g_set_error (error, CAV_SHOP_ERROR, CAV_SHOP_ERROR_SILHOUETTE,
               _ ("Point %u of the silhouette of cutter “%s”: %s."), at + 1, id, fault);
  return FALSE;
}

CavCutter *
cav_cutter_new_drawn (const char *id,
                      const CavSilhouettePoint *points,
                      guint n_points,
                      GError **error)
{
  g_return_val_if_fail (id != NULL, NULL);
  g_return_val_if_fail (points != NULL || n_points == 0, NULL);

  if (!check_silhouette (id, points, n_points, error))
    return NULL;

  CavPath *outline = cav_path_new ();
  cav_path_move_to (outline, CAV_POINT (points[0].r, 0.0));
  for (guint i = 1; i < n_points; i++)
    cav_path_line_to (outline, CAV_POINT (points[i].r, -points[i].z));

  CavCutter *cutter = new_from_outline (id, CAV_CUTTER_DRAWN, outline, points[n_points - 1].z);
  cutter->silhouette = g_array_sized_new (FALSE, FALSE, sizeof (CavSilhouettePoint), n_points);
  g_array_append_vals (cutter->silhouette, points, n_points);
  g_array_index (cutter->silhouette, CavSilhouettePoint, 0).z = 0.0;
  cutter->bite = get_usual_bite (cutter);
  cutter->speed = get_usual_speed (cutter);
  return cutter;
}

CavCutter *
cav_cutter_copy (const CavCutter *cutter)
{
  g_return_val_if_fail (cutter != NULL, NULL);

  CavCutter *copy = g_memdup2 (cutter, sizeof *cutter);
  copy->id = g_strdup (cutter->id);
  copy->name = g_strdup (cutter->name);
  copy->outline = cav_path_copy (cutter->outline);
  copy->silhouette = g_array_copy (cutter->silhouette);
  return copy;
}

void
cav_cutter_free (CavCutter *cutter)
{
  if (cutter == NULL)
    return;
  g_free (cutter->id);
  g_free (cutter->name);
  cav_path_free (cutter->outline);
  g_array_unref (cutter->silhouette);
  g_free (cutter);
}

void
cav_cutter_set_pilot (CavCutter *cutter, double radius, double length)
{
  g_return_if_fail (cutter != NULL);

  cutter->has_pilot = radius > 0.0 && length > 0.0;
  cutter->pilot_radius = cutter->has_pilot ? radius : 0.0;
  cutter->pilot_length = cutter->has_pilot ? length : 0.0;
}

static const CavSilhouettePoint *
get_point (const CavCutter *cutter, guint index)
{
  return &g_array_index (cutter->silhouette, CavSilhouettePoint, index);
}

double
cav_cutter_get_greatest_radius (const CavCutter *cutter)
{
  g_return_val_if_fail (cutter != NULL, 0.0);

  double greatest = 0.0;
  for (guint i = 0; i < cutter->silhouette->len; i++)
    greatest = MAX (greatest, get_point (cutter, i)->r);
  return greatest;
}

/* Greatest radius at a depth which the stretch before a point is the first to reach; a step has
 * several that begin there. */
static double
get_radius_from (const CavCutter *cutter, guint first, double at)
{
  double greatest = 0.0;

  for (guint i = first; i < cutter->silhouette->len && get_point (cutter, i - 1)->z <= at; i++)
    {
      const CavSilhouettePoint *a = get_point (cutter, i - 1);
      const CavSilhouettePoint *b = get_point (cutter, i);
      double height = b->z - a->z;

      if (height < CAV_TOLERANCE_POINT)
        greatest = MAX (greatest, MAX (a->r, b->r));
      else
        greatest = MAX (greatest, a->r + (b->r - a->r) * (at - a->z) / height);
    }
  return greatest;
}

double
cav_cutter_get_radius_at (const CavCutter *cutter, double z)
{
  g_return_val_if_fail (cutter != NULL, 0.0);
  g_return_val_if_fail (isfinite (z), 0.0);

  double at = CLAMP (z, 0.0, cutter->length);
  guint low = 1, high = cutter->silhouette->len;

  while (low < high)
    {
      guint middle = (low + high) / 2;

      if (get_point (cutter, middle)->z >= at)
        high = middle;
      else
        low = middle + 1;
    }
  return get_radius_from (cutter, low, at);
}

void
cav_cutter_sample_radii (
    const CavCutter *cutter, double share, double spacing, int n, double *out_radii)
{
  g_return_if_fail (cutter != NULL);

  guint first = 1;

  for (int i = 0; i < n; i++)
    {
      double at = CLAMP ((i + share) * spacing, 0.0, cutter->length);

      while (first < cutter->silhouette->len && get_point (cutter, first)->z < at)
        first++;
      out_radii[i] = get_radius_from (cutter, first, at);
    }
}

gboolean
cav_cutter_widens (const CavCutter *cutter)
{
  g_return_val_if_fail (cutter != NULL, FALSE);

  for (guint i = 1; i < cutter->silhouette->len; i++)
    if (get_point (cutter, i)->r < get_point (cutter, i - 1)->r - CAV_TOLERANCE_POINT)
      return FALSE;
  return TRUE;
}
