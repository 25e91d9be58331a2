/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "profile/cav-blank.h"
#include "profile/cav-cut.h"

#include <locale.h>
#include <math.h>
#include <string.h>

static void
test_words (void)
{
  static const char *const sides[] = { "back", "face", "inside", "outside" };
  static const char *const corners[]
      = { "back-inside", "back-outside", "face-inside", "face-outside" };

  for (int i = 0; i < CAV_N_SIDES; i++)
    {
      CavSide side = CAV_SIDE_BACK;
      g_assert_cmpstr (cav_side_to_string ((CavSide)i), ==, sides[i]);
      g_assert_true (cav_side_from_string (sides[i], &side));
      g_assert_cmpint (side, ==, i);
    }
  for (int i = 0; i < CAV_N_CORNERS; i++)
    {
      CavCorner corner = CAV_CORNER_BACK_INSIDE;
      g_assert_cmpstr (cav_corner_to_string ((CavCorner)i), ==, corners[i]);
      g_assert_true (cav_corner_from_string (corners[i], &corner));
      g_assert_cmpint (corner, ==, i);
    }
}

static void
test_wrong_words (void)
{
  static const char *const words[] = { "", "Back", "front", "inside-face", " back", NULL };
  CavSide side = CAV_SIDE_OUTSIDE;
  CavCorner corner = CAV_CORNER_FACE_OUTSIDE;

  for (guint i = 0; i < G_N_ELEMENTS (words); i++)
    {
      g_assert_false (cav_side_from_string (words[i], &side));
      g_assert_false (cav_corner_from_string (words[i], &corner));
    }
  g_assert_cmpint (side, ==, CAV_SIDE_OUTSIDE);
  g_assert_cmpint (corner, ==, CAV_CORNER_FACE_OUTSIDE);
}

static void
test_region (void)
{
  const CavBlank blank = { 60.0, 22.0 };
  g_autoptr (CavRegion) region = cav_blank_create_region (&blank);
  CavBox bounds = cav_region_get_bounds (region);

  g_assert_cmpfloat_with_epsilon (cav_region_get_area (region), 1320.0, 1e-9);
  g_assert_cmpfloat_with_epsilon (bounds.x0, 0.0, 1e-12);
  g_assert_cmpfloat_with_epsilon (bounds.y0, 0.0, 1e-12);
  g_assert_cmpfloat_with_epsilon (bounds.x1, 60.0, 1e-12);
  g_assert_cmpfloat_with_epsilon (bounds.y1, 22.0, 1e-12);
}

static void
test_sizes (void)
{
  static const struct
  {
    const char *desc;
    CavBlank blank;
    const char *names; /* NULL: fine */
  } rows[] = {
    { "usual", { 60, 22 }, NULL },
    { "least", { CAV_BLANK_MIN, CAV_BLANK_MIN }, NULL },
    { "greatest", { CAV_BLANK_MAX, CAV_BLANK_MAX }, NULL },
    { "no width", { 0, 22 }, "width" },
    { "no thickness", { 60, 0 }, "thickness" },
    { "negative", { -60, 22 }, "width" },
    { "too wide", { 500.1, 22 }, "width" },
    { "too thick", { 60, 1e9 }, "thickness" },
    { "no number", { NAN, 22 }, "width" },
    { "infinite", { 60, INFINITY }, "thickness" },
    { "a hair", { 1e-9, 22 }, "width" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (GError) error = NULL;
      g_test_message ("%s", rows[i].desc);
      g_autoptr (CavRegion) region = cav_blank_create_region (&rows[i].blank);
      gboolean fine = rows[i].names == NULL;
      g_assert_cmpint (cav_blank_check (&rows[i].blank, &error), ==, fine);
      g_assert_cmpint (cav_region_is_empty (region), ==, !fine);
      if (fine)
        {
          g_assert_no_error (error);
          continue;
        }
      g_assert_error (error, CAV_PROFILE_ERROR, CAV_PROFILE_ERROR_RANGE);
      g_assert_nonnull (strstr (error->message, rows[i].names));
    }
}

/* Sentences are English, and so are their numbers; test-locale.sh runs this where a comma is. */
static void
test_decimal_point (void)
{
  const CavBlank blank = { 512.25, 22 };
  g_autoptr (GError) error = NULL;

  setlocale (LC_NUMERIC, "");
  if (g_getenv ("CAV_TEST_COMMA") != NULL)
    g_assert_cmpstr (localeconv ()->decimal_point, ==, ",");
  g_assert_false (cav_blank_check (&blank, &error));
  setlocale (LC_NUMERIC, "C");
  g_assert_error (error, CAV_PROFILE_ERROR, CAV_PROFILE_ERROR_RANGE);
  g_assert_nonnull (strstr (error->message, "is 512.25 mm: enter a value from 1 mm to 500 mm"));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/profile/blank/words", test_words);
  g_test_add_func ("/profile/blank/wrong-words", test_wrong_words);
  g_test_add_func ("/profile/blank/region", test_region);
  g_test_add_func ("/profile/blank/sizes", test_sizes);
  g_test_add_func ("/profile/blank/decimal-point", test_decimal_point);
  return g_test_run ();
}
