/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "shop/cav-cutter.h"
#include "shop/cav-shop.h"

#include <math.h>
#include <string.h>

static CavCutter *
new_cove (void)
{
  const double numbers[CAV_N_CUTTER_NUMBERS] = {
    [CAV_CUTTER_RADIUS] = 6.35,
    [CAV_CUTTER_TIP_DIAMETER] = 6.4,
    [CAV_CUTTER_CUTTING_LENGTH] = 9.35,
    [CAV_CUTTER_WIDTH] = 77.0, /* a cove has none: must be forgotten */
  };
  return cav_cutter_new ("cove", CAV_CUTTER_COVE, numbers, NULL);
}

static void
test_new (void)
{
  g_autoptr (CavCutter) cutter = new_cove ();

  g_assert_cmpstr (cutter->id, ==, "cove");
  g_assert_cmpstr (cutter->name, ==, "cove");
  g_assert_cmpfloat_with_epsilon (cutter->length, 9.35, 1e-12);
  g_assert_cmpfloat_with_epsilon (cutter->numbers[CAV_CUTTER_RADIUS], 6.35, 1e-12);
  g_assert_cmpfloat_with_epsilon (cutter->numbers[CAV_CUTTER_WIDTH], 0.0, 1e-12);
  g_assert_cmpfloat_with_epsilon (cutter->shank, 0.0, 1e-12);
  g_assert_false (cutter->has_pilot);
}

static void
test_copy (void)
{
  g_autoptr (CavCutter) cutter = new_cove ();
  cav_cutter_set_pilot (cutter, 3.2, 5.0);
  CavCutter *copy = cav_cutter_copy (cutter);

  g_assert_true (copy->id != cutter->id && copy->name != cutter->name);
  g_assert_true (copy->outline != cutter->outline && copy->silhouette != cutter->silhouette);
  g_assert_cmpuint (copy->silhouette->len, ==, cutter->silhouette->len);
  g_assert_true (copy->has_pilot);
  g_array_index (copy->silhouette, CavSilhouettePoint, 0).r = 99.0;
  g_assert_cmpfloat_with_epsilon (cav_cutter_get_greatest_radius (cutter), 9.55, 1e-6);
  cav_cutter_free (copy);
  cav_cutter_free (NULL);
}

static void
test_pilot (void)
{
  g_autoptr (CavCutter) cutter = new_cove ();

  cav_cutter_set_pilot (cutter, 3.2, 5.0);
  g_assert_true (cutter->has_pilot);
  g_assert_cmpfloat_with_epsilon (cutter->pilot_radius, 3.2, 1e-12);
  g_assert_cmpfloat_with_epsilon (cutter->pilot_length, 5.0, 1e-12);
  cav_cutter_set_pilot (cutter, 0.0, 5.0);
  g_assert_false (cutter->has_pilot);
  g_assert_cmpfloat_with_epsilon (cutter->pilot_length, 0.0, 1e-12);
}

/* A silhouette with a step: narrow tip, wide body, waist. */
static void
test_drawn (void)
{
  const CavSilhouettePoint points[]
      = { { 3.0, 0.0 }, { 3.0, 4.0 }, { 8.0, 4.0 }, { 8.0, 6.0 }, { 5.0, 10.0 } };
  g_autoptr (GError) error = NULL;
  g_autoptr (CavCutter) cutter
      = cav_cutter_new_drawn ("own", points, G_N_ELEMENTS (points), &error);

  g_assert_no_error (error);
  g_assert_cmpint (cutter->family, ==, CAV_CUTTER_DRAWN);
  g_assert_cmpfloat_with_epsilon (cutter->length, 10.0, 1e-12);
  g_assert_cmpuint (cutter->silhouette->len, ==, 5);
  g_assert_cmpuint (cav_path_get_segment_count (cutter->outline), ==, 4);
  g_assert_cmpfloat_with_epsilon (cav_path_get_length (cutter->outline), 4.0 + 5.0 + 2.0 + 5.0,
                                  1e-9);
  g_assert_cmpfloat_with_epsilon (cav_cutter_get_greatest_radius (cutter), 8.0, 1e-12);
  g_assert_false (cav_cutter_widens (cutter));
  g_assert_cmpfloat_with_epsilon (cav_cutter_get_radius_at (cutter, 0.0), 3.0, 1e-12);
  g_assert_cmpfloat_with_epsilon (cav_cutter_get_radius_at (cutter, 3.999), 3.0, 1e-12);
  g_assert_cmpfloat_with_epsilon (cav_cutter_get_radius_at (cutter, 4.0), 8.0, 1e-12);
  g_assert_cmpfloat_with_epsilon (cav_cutter_get_radius_at (cutter, 8.0), 6.5, 1e-12);
  g_assert_cmpfloat_with_epsilon (cav_cutter_get_radius_at (cutter, -1.0), 3.0, 1e-12);
  g_assert_cmpfloat_with_epsilon (cav_cutter_get_radius_at (cutter, 99.0), 5.0, 1e-12);

  /* One after another they are the same to the last bit, on the step and past the end too. */
  double radii[60];

  cav_cutter_sample_radii (cutter, 0.5, 0.25, 60, radii);
  for (int i = 0; i < 60; i++)
    g_assert_false (radii[i] < cav_cutter_get_radius_at (cutter, (i + 0.5) * 0.25)
                    || radii[i] > cav_cutter_get_radius_at (cutter, (i + 0.5) * 0.25));
  cav_cutter_sample_radii (cutter, 0.0, 0.5, 60, radii);
  for (int i = 0; i < 60; i++)
    g_assert_false (radii[i] < cav_cutter_get_radius_at (cutter, i * 0.5)
                    || radii[i] > cav_cutter_get_radius_at (cutter, i * 0.5));
}

/* A family's chords make a drawn cutter that is the same. */
static void
test_drawn_from_chords (void)
{
  g_autoptr (CavCutter) cove = new_cove ();
  g_autoptr (GError) error = NULL;
  g_autoptr (CavCutter) drawn
      = cav_cutter_new_drawn ("again", (const CavSilhouettePoint *)(gpointer)cove->silhouette->data,
                              cove->silhouette->len, &error);

  g_assert_no_error (error);
  for (double z = 0.0; z <= 9.35; z += 0.11)
    g_assert_cmpfloat_with_epsilon (cav_cutter_get_radius_at (drawn, z),
                                    cav_cutter_get_radius_at (cove, z), 1e-12);
}

static void
test_drawn_refused (void)
{
  static const struct
  {
    const char *desc;
    CavSilhouettePoint points[3];
    guint n_points;
    const char *names;
  } rows[] = {
    { "no points", { { 0, 0 } }, 0, "two or more" },
    { "one point", { { 3, 0 } }, 1, "two or more" },
    { "negative radius", { { 3, 0 }, { -1, 5 } }, 2, "Point 2" },
    { "no number", { { 3, 0 }, { NAN, 5 } }, 2, "Point 2" },
    { "infinite depth", { { 3, 0 }, { 3, INFINITY } }, 2, "correct z" },
    { "huge radius", { { 3, 0 }, { 400, 5 } }, 2, "correct r" },
    { "does not begin at the tip", { { 3, 1 }, { 3, 5 } }, 2, "z = 0" },
    { "runs back", { { 3, 0 }, { 3, 5 }, { 4, 4 } }, 3, "Point 3" },
    { "flat", { { 3, 0 }, { 4, 0 } }, 2, "further down" },
    { "a needle", { { 0, 0 }, { 0.1, 10 } }, 2, "1 mm wide" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (GError) error = NULL;
      g_test_message ("%s", rows[i].desc);
      g_autoptr (CavCutter) cutter
          = cav_cutter_new_drawn ("bad", rows[i].points, rows[i].n_points, &error);
      g_assert_null (cutter);
      g_assert_error (error, CAV_SHOP_ERROR, CAV_SHOP_ERROR_SILHOUETTE);
      g_assert_nonnull (strstr (error->message, "bad"));
      g_assert_nonnull (strstr (error->message, rows[i].names));
    }

  g_autofree CavSilhouettePoint *many = g_new0 (CavSilhouettePoint, 10001);
  g_autoptr (GError) error = NULL;
  for (int i = 0; i < 10001; i++)
    many[i] = (CavSilhouettePoint){ 3.0, i / 1000.0 };
  g_autoptr (CavCutter) cutter = cav_cutter_new_drawn ("many", many, 10001, &error);
  g_assert_null (cutter);
  g_assert_error (error, CAV_SHOP_ERROR, CAV_SHOP_ERROR_SILHOUETTE);
}

/* Usual bites of cutters as hobbyists have them: common practice, no source. Between the sizes they
 * grow with the size, and never stop being a bite. */
static void
test_usual_bite (void)
{
  static const struct
  {
    CavCutterFamily family;
    CavCutterNumber number;
    double size, bite;
  } rows[] = {
    { CAV_CUTTER_STRAIGHT, CAV_CUTTER_DIAMETER, 6.35, 20 },
    { CAV_CUTTER_STRAIGHT, CAV_CUTTER_DIAMETER, 12.7, 40 },
    { CAV_CUTTER_STRAIGHT, CAV_CUTTER_DIAMETER, 19.05, 50 },
    { CAV_CUTTER_STRAIGHT, CAV_CUTTER_DIAMETER, 1.0, 2 },
    { CAV_CUTTER_STRAIGHT, CAV_CUTTER_DIAMETER, 60.0, 60 },
    { CAV_CUTTER_ROUND_NOSE, CAV_CUTTER_DIAMETER, 19.0, 40 },
    { CAV_CUTTER_COVE, CAV_CUTTER_RADIUS, 12.7, 50 },
    { CAV_CUTTER_ROUND_OVER, CAV_CUTTER_RADIUS, 3.2, 15 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      double numbers[CAV_N_CUTTER_NUMBERS] = { [CAV_CUTTER_CUTTING_LENGTH] = 40.0 };
      numbers[rows[i].number] = rows[i].size;
      g_autoptr (CavCutter) cutter = cav_cutter_new ("c", rows[i].family, numbers, NULL);
      g_assert_cmpfloat_with_epsilon (cutter->bite, rows[i].bite, 1e-9);
    }

  double last = 0.0;
  for (double d = 1.0; d < 60.0; d += 0.5)
    {
      const double numbers[CAV_N_CUTTER_NUMBERS]
          = { [CAV_CUTTER_DIAMETER] = d, [CAV_CUTTER_CUTTING_LENGTH] = 40.0 };
      g_autoptr (CavCutter) cutter = cav_cutter_new ("c", CAV_CUTTER_STRAIGHT, numbers, NULL);
      g_assert_cmpfloat (cutter->bite, >=, last);
      g_assert_cmpfloat (cutter->speed, <=, cav_shop_get_greatest_speed (d));
      last = cutter->bite;
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/shop/cutter/new", test_new);
  g_test_add_func ("/shop/cutter/copy", test_copy);
  g_test_add_func ("/shop/cutter/pilot", test_pilot);
  g_test_add_func ("/shop/cutter/drawn", test_drawn);
  g_test_add_func ("/shop/cutter/drawn-from-chords", test_drawn_from_chords);
  g_test_add_func ("/shop/cutter/drawn-refused", test_drawn_refused);
  g_test_add_func ("/shop/cutter/usual-bite", test_usual_bite);
  return g_test_run ();
}
