/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "shop/cav-cutter-private.h"

#include "geometry/cav-number-text.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

/* Sizes beyond these are no cutters of a hobbyist's table. */
#define DIAMETER_MAX 100.0
#define LENGTH_MAX 120.0

#define DIAMETER(usual)                                                                            \
  {                                                                                                \
    CAV_CUTTER_DIAMETER, "diameter", NC_ ("number of a cutter", "Diameter"), 1.0, DIAMETER_MAX,    \
        (usual)                                                                                    \
  }
#define RADIUS(usual)                                                                              \
  {                                                                                                \
    CAV_CUTTER_RADIUS, "radius", NC_ ("number of a cutter", "Radius"), 0.5, DIAMETER_MAX / 2.0,    \
        (usual)                                                                                    \
  }
#define CUTTING_LENGTH(usual)                                                                      \
  {                                                                                                \
    CAV_CUTTER_CUTTING_LENGTH, "cutting-length", NC_ ("number of a cutter", "Cutting length"),     \
        0.5, LENGTH_MAX, (usual)                                                                   \
  }
#define TIP_DIAMETER(usual)                                                                        \
  {                                                                                                \
    CAV_CUTTER_TIP_DIAMETER, "tip-diameter", NC_ ("number of a cutter", "Tip diameter"), 0.0,      \
        DIAMETER_MAX, (usual)                                                                      \
  }
#define ANGLE(minimum, maximum, usual)                                                             \
  {                                                                                                \
    CAV_CUTTER_ANGLE, "angle", NC_ ("number of a cutter", "Angle"), (minimum), (maximum), (usual)  \
  }

static const CavCutterNumberInfo straight_numbers[] = { DIAMETER (12.7), CUTTING_LENGTH (32.0) };
static const CavCutterNumberInfo round_nose_numbers[] = { DIAMETER (12.7), CUTTING_LENGTH (20.0) };
static const CavCutterNumberInfo cove_numbers[]
    = { RADIUS (6.35), TIP_DIAMETER (6.4), CUTTING_LENGTH (9.35) };
static const CavCutterNumberInfo round_over_numbers[]
    = { RADIUS (6.35), TIP_DIAMETER (6.4), CUTTING_LENGTH (9.35) };
static const CavCutterNumberInfo bead_numbers[]
    = { RADIUS (3.2), DIAMETER (16.0), CUTTING_LENGTH (9.6) };
static const CavCutterNumberInfo ogee_numbers[]
    = { RADIUS (4.0), TIP_DIAMETER (6.4), CUTTING_LENGTH (10.0) };
static const CavCutterNumberInfo chamfer_numbers[]
    = { ANGLE (5.0, 85.0, 45.0), TIP_DIAMETER (4.0), DIAMETER (28.0), CUTTING_LENGTH (14.0) };
static const CavCutterNumberInfo vee_numbers[]
    = { ANGLE (10.0, 170.0, 90.0), DIAMETER (19.0), CUTTING_LENGTH (12.0) };
static const CavCutterNumberInfo dovetail_numbers[]
    = { ANGLE (1.0, 45.0, 14.0), DIAMETER (12.7), CUTTING_LENGTH (12.7) };
static const CavCutterNumberInfo large_cove_numbers[] = {
  DIAMETER (38.0),
  { CAV_CUTTER_WIDTH, "width", NC_ ("number of a cutter", "Width of the hollow"), 1.0, LENGTH_MAX,
    38.0 },
  { CAV_CUTTER_DEPTH, "depth", NC_ ("number of a cutter", "Depth of the hollow"), 0.2,
    DIAMETER_MAX / 2.0, 5.091 },
};

#define FAMILY(family, name, label, numbers)                                                       \
  [family] = { family, name, label, numbers, G_N_ELEMENTS (numbers) }

static const CavCutterFamilyInfo families[CAV_N_CUTTER_FAMILIES] = {
  FAMILY (CAV_CUTTER_STRAIGHT, "straight", NC_ ("cutter", "Straight"), straight_numbers),
  FAMILY (CAV_CUTTER_ROUND_NOSE, "round-nose", NC_ ("cutter", "Round nose"), round_nose_numbers),
  FAMILY (CAV_CUTTER_COVE, "cove", NC_ ("cutter", "Cove"), cove_numbers),
  FAMILY (CAV_CUTTER_ROUND_OVER, "round-over", NC_ ("cutter", "Round-over"), round_over_numbers),
  FAMILY (CAV_CUTTER_BEAD, "bead", NC_ ("cutter", "Edge bead"), bead_numbers),
  FAMILY (CAV_CUTTER_OGEE, "ogee", NC_ ("cutter", "Ogee"), ogee_numbers),
  FAMILY (CAV_CUTTER_CHAMFER, "chamfer", NC_ ("cutter", "Chamfer"), chamfer_numbers),
  FAMILY (CAV_CUTTER_VEE, "vee", NC_ ("cutter", "V"), vee_numbers),
  FAMILY (CAV_CUTTER_DOVETAIL, "dovetail", NC_ ("cutter", "Dovetail"), dovetail_numbers),
  FAMILY (CAV_CUTTER_LARGE_COVE, "large-cove", NC_ ("cutter", "Large cove"), large_cove_numbers),
  [CAV_CUTTER_DRAWN] = { CAV_CUTTER_DRAWN, "drawn", NC_ ("cutter", "By its silhouette"), NULL, 0 },
};

const CavCutterFamilyInfo *
cav_cutter_family_get_info (CavCutterFamily family)
{
  g_return_val_if_fail ((guint)family < CAV_N_CUTTER_FAMILIES, NULL);
  return &families[family];
}

gboolean
cav_cutter_family_from_string (const char *string, CavCutterFamily *out_family)
{
  g_return_val_if_fail (out_family != NULL, FALSE);

  for (int i = 0; string != NULL && i < CAV_N_CUTTER_FAMILIES; i++)
    if (strcmp (string, families[i].name) == 0)
      {
        *out_family = (CavCutterFamily)i;
        return TRUE;
      }
  return FALSE;
}

static double
radians (double degrees)
{
  return degrees * (G_PI / 180.0);
}

/* What must also hold between the numbers, once each is in its own range: a length that is too
 * short for the shape, or a shape that is too wide for the diameter. */
#define CHECK_LEAST(id, value, least, sentence, error)                                             \
  ((value) >= (least)-CAV_TOLERANCE_POINT                                                          \
   || fail (error, sentence, id, CAV_NUMBER_TEXT ("%.4g", value),                                  \
            CAV_NUMBER_TEXT ("%.4g", least)))

static gboolean G_GNUC_PRINTF (2, 3) fail (GError **error, const char *sentence, ...)
{
  va_list arguments;

  va_start (arguments, sentence);
  g_propagate_error (
      error, g_error_new_valist (CAV_SHOP_ERROR, CAV_SHOP_ERROR_RANGE, sentence, arguments));
  va_end (arguments);
  return FALSE;
}

/* The depth at which a slope of some degrees from the axis has come out by some radius. */
static double
get_slope_depth (double out, double degrees)
{
  return out / tan (radians (degrees));
}

static gboolean
check_curved (const char *id, CavCutterFamily family, const double *n, GError **error)
{
  double length = n[CAV_CUTTER_CUTTING_LENGTH];
  double radius
      = family == CAV_CUTTER_ROUND_NOSE ? n[CAV_CUTTER_DIAMETER] / 2.0 : n[CAV_CUTTER_RADIUS];
  double curve = family == CAV_CUTTER_OGEE || family == CAV_CUTTER_BEAD ? 2.0 * radius : radius;

  if (!CHECK_LEAST (id, length, curve,
                    _ ("The cutting length of cutter “%s” is %s mm, shorter than its curve: enter "
                       "%s mm or more."),
                    error))
    return FALSE;
  if (family != CAV_CUTTER_BEAD)
    return TRUE;
  return CHECK_LEAST (id, n[CAV_CUTTER_DIAMETER], 2.0 * radius + 1.0,
                      _ ("The diameter of cutter “%s” is %s mm, so that no core is left at its "
                         "waist: enter %s mm or more."),
                      error);
}

static gboolean
check_sloped (const char *id, CavCutterFamily family, const double *n, GError **error)
{
  double length = n[CAV_CUTTER_CUTTING_LENGTH];
  double r = n[CAV_CUTTER_DIAMETER] / 2.0;
  double tip = n[CAV_CUTTER_TIP_DIAMETER] / 2.0;
  double angle = n[CAV_CUTTER_ANGLE];

  if (family == CAV_CUTTER_DOVETAIL)
    return CHECK_LEAST (id, 2.0 * r, 2.0 * length * tan (radians (angle)) + 1.0,
                        _ ("The diameter of cutter “%s” is %s mm, so that no neck is left at the "
                           "end of its cutting length: enter %s mm or more."),
                        error);
  if (family == CAV_CUTTER_VEE)
    angle /= 2.0;
  else if (!CHECK_LEAST (id, 2.0 * r, 2.0 * tip + 0.2,
                         _ ("The diameter of cutter “%s” is %s mm, not wider than its tip: enter "
                            "%s mm or more."),
                         error))
    return FALSE;
  return CHECK_LEAST (id, length, get_slope_depth (r - tip, angle),
                      _ ("The cutting length of cutter “%s” is %s mm, shorter than its slope: "
                         "enter %s mm or more."),
                      error);
}

static gboolean
check_together (const char *id, CavCutterFamily family, const double *n, GError **error)
{
  switch (family)
    {
    case CAV_CUTTER_ROUND_NOSE:
    case CAV_CUTTER_COVE:
    case CAV_CUTTER_ROUND_OVER:
    case CAV_CUTTER_BEAD:
    case CAV_CUTTER_OGEE:
      return check_curved (id, family, n, error);

    case CAV_CUTTER_CHAMFER:
    case CAV_CUTTER_VEE:
    case CAV_CUTTER_DOVETAIL:
      return check_sloped (id, family, n, error);

    case CAV_CUTTER_LARGE_COVE:
      return CHECK_LEAST (id, n[CAV_CUTTER_DIAMETER], 2.0 * n[CAV_CUTTER_DEPTH] + 1.0,
                          _ ("The diameter of cutter “%s” is %s mm, less than its hollow is deep "
                             "on both sides: enter %s mm or more."),
                          error);

    case CAV_CUTTER_STRAIGHT:
    case CAV_CUTTER_DRAWN:
      return TRUE;
    }
  return TRUE;
}

gboolean
cav_cutter_check_numbers (const char *id,
                          CavCutterFamily family,
                          const double *numbers,
                          GError **error)
{
  const CavCutterFamilyInfo *info = &families[family];

  for (guint i = 0; i < info->n_numbers; i++)
    {
      const CavCutterNumberInfo *number = &info->numbers[i];
      double value = numbers[number->number];
      if (isfinite (value) && value >= number->minimum && value <= number->maximum)
        continue;
      g_set_error (
          error, CAV_SHOP_ERROR, CAV_SHOP_ERROR_RANGE,
          /* Translators: “Cutting length” of cutter “x”; the first is a number's label. */
          number->number == CAV_CUTTER_ANGLE
              ? _ ("“%s” of cutter “%s” is %s degrees: enter a value from %s to %s degrees.")
              : _ ("“%s” of cutter “%s” is %s mm: enter a value from %s to %s mm."),
          g_dpgettext2 (GETTEXT_PACKAGE, "number of a cutter", number->label), id,
          CAV_NUMBER_TEXT ("%g", value), CAV_NUMBER_TEXT ("%g", number->minimum),
          CAV_NUMBER_TEXT ("%g", number->maximum));
      return FALSE;
    }
  return check_together (id, family, numbers, error);
}

/* A hollow of a width and a depth at greatest radius r: an arc of a circle through the chord's
 * ends, of radius (w²/4 + d²) / 2d; half an ellipse where it is deeper than half its width. */
static void
append_large_cove (CavPath *path, double r, double width, double depth)
{
  double half = width / 2.0;

  cav_path_move_to (path, CAV_POINT (r - depth, 0.0));
  if (depth >= half)
    {
      cav_path_arc (path, CAV_POINT (r - depth, -half), depth, half, 90.0, -180.0);
      return;
    }
  double radius = (half * half + depth * depth) / (2.0 * depth);
  double angle = atan2 (half, radius - depth) * (180.0 / G_PI);
  cav_path_arc (path, CAV_POINT (r - radius, -half), radius, radius, angle, -2.0 * angle);
}

/*
 * The shapes, with t the tip's radius, r the greatest, R the curve's radius, z down:
 *
 *   straight     r = d/2
 *   round nose   r² + (R - z)² = R², then straight down
 *   cove         (r - t)² + (R - z)² = R², then straight down: convex, leaves a hollow
 *   round-over   (t + R - r)² + z² = R², then straight down: concave, leaves a round
 *   bead         a half circle of R bitten out of a straight cutter, in the middle of its length
 *   ogee         a cove to (t + R, R), then a round-over to (t + 2R, 2R): tangent, vertical
 *   chamfer      r = t + z tan a, then straight down
 *   V            r = z tan (a/2), then straight down
 *   dovetail     r = d/2 - z tan a
 */
CavPath *
cav_cutter_create_outline (CavCutterFamily family, const double *n)
{
  CavPath *path = cav_path_new ();
  double length = n[CAV_CUTTER_CUTTING_LENGTH];
  double curve = n[CAV_CUTTER_RADIUS];
  double r = n[CAV_CUTTER_DIAMETER] / 2.0;
  double tip = n[CAV_CUTTER_TIP_DIAMETER] / 2.0;
  double angle = n[CAV_CUTTER_ANGLE];
  double lip = (length - 2.0 * curve) / 2.0;

  switch (family)
    {
    case CAV_CUTTER_STRAIGHT:
      cav_path_move_to (path, CAV_POINT (r, 0.0));
      break;

    case CAV_CUTTER_ROUND_NOSE:
      cav_path_move_to (path, CAV_POINT (0.0, 0.0));
      cav_path_arc (path, CAV_POINT (0.0, -r), r, r, 90.0, -90.0);
      break;

    case CAV_CUTTER_COVE:
      cav_path_move_to (path, CAV_POINT (tip, 0.0));
      cav_path_arc (path, CAV_POINT (tip, -curve), curve, curve, 90.0, -90.0);
      r = tip + curve;
      break;

    case CAV_CUTTER_ROUND_OVER:
      cav_path_move_to (path, CAV_POINT (tip, 0.0));
      cav_path_arc (path, CAV_POINT (tip + curve, 0.0), curve, curve, 180.0, 90.0);
      r = tip + curve;
      break;

    case CAV_CUTTER_BEAD:
      cav_path_move_to (path, CAV_POINT (r, 0.0));
      cav_path_arc (path, CAV_POINT (r, -lip - curve), curve, curve, 90.0, 180.0);
      break;

    case CAV_CUTTER_OGEE:
      cav_path_move_to (path, CAV_POINT (tip, 0.0));
      cav_path_arc (path, CAV_POINT (tip, -curve), curve, curve, 90.0, -90.0);
      cav_path_arc (path, CAV_POINT (tip + 2.0 * curve, -curve), curve, curve, 180.0, 90.0);
      r = tip + 2.0 * curve;
      break;

    case CAV_CUTTER_CHAMFER:
      cav_path_move_to (path, CAV_POINT (tip, 0.0));
      cav_path_line_to (path, CAV_POINT (r, -get_slope_depth (r - tip, angle)));
      break;

    case CAV_CUTTER_VEE:
      cav_path_move_to (path, CAV_POINT (0.0, 0.0));
      cav_path_line_to (path, CAV_POINT (r, -get_slope_depth (r, angle / 2.0)));
      break;

    case CAV_CUTTER_DOVETAIL:
      cav_path_move_to (path, CAV_POINT (r, 0.0));
      r -= length * tan (radians (angle));
      break;

    case CAV_CUTTER_LARGE_COVE:
      append_large_cove (path, r, n[CAV_CUTTER_WIDTH], n[CAV_CUTTER_DEPTH]);
      return path;

    case CAV_CUTTER_DRAWN:
      g_assert_not_reached ();
    }
  cav_path_line_to (path, CAV_POINT (r, -length));
  return path;
}
