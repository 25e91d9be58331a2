/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "shop/cav-cutter.h"

#include <math.h>
#include <string.h>

#define N(...)                                                                                     \
  {                                                                                                \
    __VA_ARGS__                                                                                    \
  }
#define D CAV_CUTTER_DIAMETER
#define R CAV_CUTTER_RADIUS
#define L CAV_CUTTER_CUTTING_LENGTH
#define A CAV_CUTTER_ANGLE
#define T CAV_CUTTER_TIP_DIAMETER
#define W CAV_CUTTER_WIDTH
#define P CAV_CUTTER_DEPTH

/* The radius that each family's formula asks for at depth z, written apart from the room's own
 * drawing of it. */
static double
straight_at (const double *n, double z)
{
  return n[D] / 2.0;
}

static double
round_nose_at (const double *n, double z)
{
  double r = n[D] / 2.0;
  return z < r ? sqrt (r * r - (r - z) * (r - z)) : r;
}

static double
cove_at (const double *n, double z)
{
  double c = n[R];
  return n[T] / 2.0 + (z < c ? sqrt (c * c - (c - z) * (c - z)) : c);
}

static double
round_over_at (const double *n, double z)
{
  double c = n[R];
  return n[T] / 2.0 + (z < c ? c - sqrt (c * c - z * z) : c);
}

static double
bead_at (const double *n, double z)
{
  double from_middle = z - n[L] / 2.0;
  double inside = n[R] * n[R] - from_middle * from_middle;
  return n[D] / 2.0 - (inside > 0.0 ? sqrt (inside) : 0.0);
}

static double
ogee_at (const double *n, double z)
{
  double c = n[R];
  if (z < c)
    return n[T] / 2.0 + sqrt (c * c - (c - z) * (c - z));
  if (z < 2.0 * c)
    return n[T] / 2.0 + 2.0 * c - sqrt (c * c - (z - c) * (z - c));
  return n[T] / 2.0 + 2.0 * c;
}

static double
chamfer_at (const double *n, double z)
{
  return fmin (n[T] / 2.0 + z * tan (n[A] * G_PI / 180.0), n[D] / 2.0);
}

static double
vee_at (const double *n, double z)
{
  return fmin (z * tan (n[A] * G_PI / 360.0), n[D] / 2.0);
}

static double
dovetail_at (const double *n, double z)
{
  return n[D] / 2.0 - z * tan (n[A] * G_PI / 180.0);
}

static double
large_cove_at (const double *n, double z)
{
  double half = n[W] / 2.0;
  double depth = n[P];
  double r = n[D] / 2.0;
  if (depth >= half)
    return r - depth + depth * sqrt (fmax (0.0, 1.0 - pow ((z - half) / half, 2.0)));
  double radius = (half * half + depth * depth) / (2.0 * depth);
  return r - radius + sqrt (radius * radius - (z - half) * (z - half));
}

typedef struct
{
  const char *desc;
  CavCutterFamily family;
  double numbers[CAV_N_CUTTER_NUMBERS];
  double (*radius_at) (const double *numbers, double z);
  double greatest;
  guint n_arcs;
  gboolean widens;
} Shape;

static const Shape shapes[] = {
  { "straight", CAV_CUTTER_STRAIGHT, N ([D] = 12.7, [L] = 32), straight_at, 6.35, 0, TRUE },
  { "round nose", CAV_CUTTER_ROUND_NOSE, N ([D] = 12.7, [L] = 20), round_nose_at, 6.35, 1, TRUE },
  { "round nose, just the round", CAV_CUTTER_ROUND_NOSE, N ([D] = 12.7, [L] = 6.35), round_nose_at,
    6.35, 1, TRUE },
  { "cove", CAV_CUTTER_COVE, N ([R] = 9.5, [T] = 6.4, [L] = 12.5), cove_at, 12.7, 1, TRUE },
  { "cove without a tip", CAV_CUTTER_COVE, N ([R] = 9.5, [L] = 12.5), cove_at, 9.5, 1, TRUE },
  { "round-over", CAV_CUTTER_ROUND_OVER, N ([R] = 9.5, [T] = 6.4, [L] = 12.5), round_over_at, 12.7,
    1, TRUE },
  { "bead", CAV_CUTTER_BEAD, N ([R] = 3.2, [D] = 16, [L] = 9.6), bead_at, 8.0, 1, FALSE },
  { "bead without lips", CAV_CUTTER_BEAD, N ([R] = 3.2, [D] = 16, [L] = 6.4), bead_at, 8.0, 1,
    FALSE },
  { "ogee", CAV_CUTTER_OGEE, N ([R] = 4, [T] = 6.4, [L] = 10), ogee_at, 11.2, 2, TRUE },
  { "chamfer 45", CAV_CUTTER_CHAMFER, N ([A] = 45, [T] = 4, [D] = 28, [L] = 14), chamfer_at, 14.0,
    0, TRUE },
  { "chamfer 30", CAV_CUTTER_CHAMFER, N ([A] = 30, [T] = 4, [D] = 14, [L] = 14), chamfer_at, 7.0, 0,
    TRUE },
  { "vee 90", CAV_CUTTER_VEE, N ([A] = 90, [D] = 19, [L] = 12), vee_at, 9.5, 0, TRUE },
  { "vee 60, just the point", CAV_CUTTER_VEE, N ([A] = 60, [D] = 10, [L] = 8.6602541), vee_at, 5.0,
    0, TRUE },
  { "dovetail", CAV_CUTTER_DOVETAIL, N ([A] = 14, [D] = 12.7, [L] = 12.7), dovetail_at, 6.35, 0,
    FALSE },
  { "large cove, an arc", CAV_CUTTER_LARGE_COVE, N ([D] = 38, [W] = 38, [P] = 5.0910347),
    large_cove_at, 19.0, 1, FALSE },
  { "large cove, half an ellipse", CAV_CUTTER_LARGE_COVE, N ([D] = 50, [W] = 30, [P] = 20),
    large_cove_at, 25.0, 1, FALSE },
};

/* Distance of a point (r, z) from the silhouette's chords. */
static double
get_chord_distance (const CavCutter *cutter, CavPoint point)
{
  double nearest = G_MAXDOUBLE;

  for (guint i = 1; i < cutter->silhouette->len; i++)
    {
      CavSilhouettePoint a = g_array_index (cutter->silhouette, CavSilhouettePoint, i - 1);
      CavSilhouettePoint b = g_array_index (cutter->silhouette, CavSilhouettePoint, i);
      CavSegment chord = cav_segment_line (CAV_POINT (a.r, -a.z), CAV_POINT (b.r, -b.z));
      nearest = fmin (nearest, cav_segment_distance (&chord, point));
    }
  return nearest;
}

/* The outline lies on the formula, the chords within 0.005 of it, and z never runs back. */
static void
test_shapes (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (shapes); i++)
    {
      const Shape *shape = &shapes[i];
      g_autoptr (GError) error = NULL;
      g_test_message ("%s", shape->desc);
      g_autoptr (CavCutter) cutter = cav_cutter_new ("c", shape->family, shape->numbers, &error);
      g_assert_no_error (error);

      g_assert_cmpfloat_with_epsilon (cav_cutter_get_greatest_radius (cutter), shape->greatest,
                                      1e-6);
      g_assert_cmpint (cav_cutter_widens (cutter), ==, shape->widens);

      guint n_arcs = 0;
      for (guint s = 0; s < cav_path_get_segment_count (cutter->outline); s++)
        {
          const CavSegment *segment = cav_path_get_segment (cutter->outline, s);
          n_arcs += segment->kind == CAV_SEGMENT_ARC;
          for (int k = 0; k <= 50; k++)
            {
              CavPoint point = cav_segment_point_at (segment, k / 50.0);
              g_assert_cmpfloat_with_epsilon (point.x, shape->radius_at (shape->numbers, -point.y),
                                              1e-4);
              g_assert_cmpfloat (get_chord_distance (cutter, point), <=, 0.005);
            }
        }
      g_assert_cmpuint (n_arcs, ==, shape->n_arcs);

      double z = 0.0;
      for (guint k = 0; k < cutter->silhouette->len; k++)
        {
          CavSilhouettePoint p = g_array_index (cutter->silhouette, CavSilhouettePoint, k);
          g_assert_cmpfloat (p.z, >=, z);
          g_assert_cmpfloat (p.r, >=, 0.0);
          z = p.z;
          g_assert_cmpfloat (cav_path_get_distance (cutter->outline, CAV_POINT (p.r, -p.z)), <,
                             1e-6);
        }
      g_assert_cmpfloat_with_epsilon (g_array_index (cutter->silhouette, CavSilhouettePoint, 0).z,
                                      0.0, 1e-12);
      g_assert_cmpfloat_with_epsilon (z, cutter->length, 1e-12);
    }
}

/* The radius between two chord ends comes from the chord: as near to the formula as the chord,
 * measured across, can be. */
static void
test_radius_at (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (shapes); i++)
    {
      const Shape *shape = &shapes[i];
      g_autoptr (CavCutter) cutter = cav_cutter_new ("c", shape->family, shape->numbers, NULL);
      for (int k = 0; k <= 200; k++)
        {
          double z = cutter->length * k / 200.0;
          double r = cav_cutter_get_radius_at (cutter, z);
          double step = 0.006;
          double low = fmin (shape->radius_at (shape->numbers, fmax (z - step, 0.0)),
                             shape->radius_at (shape->numbers, fmin (z + step, cutter->length)));
          double high = fmax (shape->radius_at (shape->numbers, fmax (z - step, 0.0)),
                              shape->radius_at (shape->numbers, fmin (z + step, cutter->length)));
          g_assert_cmpfloat (r, >=, low - step);
          g_assert_cmpfloat (r, <=, high + step);
        }
    }
}

/* Numbers that cannot be, and what the message must name. */
static void
test_refused (void)
{
  static const struct
  {
    const char *desc;
    CavCutterFamily family;
    double numbers[CAV_N_CUTTER_NUMBERS];
    const char *names;
  } rows[] = {
    { "zero", CAV_CUTTER_STRAIGHT, N ([D] = 0, [L] = 20), "Diameter" },
    { "negative", CAV_CUTTER_STRAIGHT, N ([D] = -5, [L] = 20), "Diameter" },
    { "infinite", CAV_CUTTER_STRAIGHT, N ([D] = 12, [L] = INFINITY), "Cutting length" },
    { "no number", CAV_CUTTER_STRAIGHT, N ([D] = NAN, [L] = 20), "Diameter" },
    { "huge", CAV_CUTTER_COVE, N ([R] = 1e6, [L] = 20), "Radius" },
    { "angle", CAV_CUTTER_VEE, N ([A] = 180, [D] = 10, [L] = 20), "Angle" },
    { "nose longer than its length", CAV_CUTTER_ROUND_NOSE, N ([D] = 20, [L] = 9),
      "10 mm or more" },
    { "cove", CAV_CUTTER_COVE, N ([R] = 12, [L] = 9), "12 mm or more" },
    { "round-over", CAV_CUTTER_ROUND_OVER, N ([R] = 12, [L] = 9), "12 mm or more" },
    { "ogee", CAV_CUTTER_OGEE, N ([R] = 5, [L] = 9), "10 mm or more" },
    { "bead too short", CAV_CUTTER_BEAD, N ([R] = 5, [D] = 20, [L] = 9), "10 mm or more" },
    { "bead without core", CAV_CUTTER_BEAD, N ([R] = 5, [D] = 10, [L] = 12), "11 mm or more" },
    { "chamfer no wider than its tip", CAV_CUTTER_CHAMFER,
      N ([A] = 45, [T] = 10, [D] = 10, [L] = 9), "10.2 mm or more" },
    { "chamfer too short", CAV_CUTTER_CHAMFER, N ([A] = 45, [T] = 4, [D] = 28, [L] = 11),
      "12 mm or more" },
    { "vee too short", CAV_CUTTER_VEE, N ([A] = 90, [D] = 19, [L] = 9), "9.5 mm or more" },
    { "dovetail without neck", CAV_CUTTER_DOVETAIL, N ([A] = 45, [D] = 20, [L] = 10),
      "21 mm or more" },
    { "large cove deeper than it is wide", CAV_CUTTER_LARGE_COVE, N ([D] = 30, [W] = 38, [P] = 20),
      "41 mm or more" },
    { "drawn, but without points", CAV_CUTTER_DRAWN, N (0), "silhouette" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (GError) error = NULL;
      g_test_message ("%s", rows[i].desc);
      g_autoptr (CavCutter) cutter
          = cav_cutter_new ("odd-one", rows[i].family, rows[i].numbers, &error);
      g_assert_null (cutter);
      g_assert_true (error->domain == CAV_SHOP_ERROR);
      g_assert_cmpint (error->code, ==,
                       rows[i].family == CAV_CUTTER_DRAWN ? CAV_SHOP_ERROR_SILHOUETTE
                                                          : CAV_SHOP_ERROR_RANGE);
      g_assert_nonnull (strstr (error->message, "odd-one"));
      g_assert_nonnull (strstr (error->message, rows[i].names));
    }
}

/* Every family has a name of its own and usual numbers that make a cutter. */
static void
test_info (void)
{
  for (int i = 0; i < CAV_N_CUTTER_FAMILIES; i++)
    {
      const CavCutterFamilyInfo *info = cav_cutter_family_get_info ((CavCutterFamily)i);
      CavCutterFamily family = CAV_CUTTER_DRAWN;
      g_assert_cmpint (info->family, ==, i);
      g_assert_true (cav_cutter_family_from_string (info->name, &family));
      g_assert_cmpint (family, ==, i);
      g_assert_cmpstr (info->label, !=, "");

      double numbers[CAV_N_CUTTER_NUMBERS] = { 0.0 };
      for (guint k = 0; k < info->n_numbers; k++)
        {
          g_assert_cmpfloat (info->numbers[k].minimum, <=, info->numbers[k].usual);
          g_assert_cmpfloat (info->numbers[k].usual, <=, info->numbers[k].maximum);
          numbers[info->numbers[k].number] = info->numbers[k].usual;
        }
      if (family == CAV_CUTTER_DRAWN)
        continue;
      g_autoptr (GError) error = NULL;
      g_autoptr (CavCutter) cutter = cav_cutter_new ("usual", family, numbers, &error);
      g_assert_no_error (error);
      g_assert_cmpint (cutter->family, ==, i);
    }

  CavCutterFamily family = CAV_CUTTER_VEE;
  g_assert_false (cav_cutter_family_from_string ("spoon", &family));
  g_assert_false (cav_cutter_family_from_string (NULL, &family));
  g_assert_cmpint (family, ==, CAV_CUTTER_VEE);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/shop/cutter-family/shapes", test_shapes);
  g_test_add_func ("/shop/cutter-family/radius-at", test_radius_at);
  g_test_add_func ("/shop/cutter-family/refused", test_refused);
  g_test_add_func ("/shop/cutter-family/info", test_info);
  return g_test_run ();
}
