/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "frame/cav-frame-settings.h"

#include <math.h>
#include <string.h>

#include "frame/cav-material.h"

static void
test_usual (void)
{
  g_auto (CavFrameSettings) settings;
  g_autoptr (GError) error = NULL;

  cav_frame_settings_init_usual (&settings);
  g_assert_true (cav_frame_settings_check (&settings, &error));
  g_assert_no_error (error);
  g_assert_cmpint (settings.sides, ==, 4);
  g_assert_null (settings.picture_file);
  /* ISO 216: A4. */
  g_assert_cmpfloat_with_epsilon (settings.picture_width, 210, 1e-9);
  g_assert_cmpfloat_with_epsilon (settings.picture_height, 297, 1e-9);
}

static void
test_copy (void)
{
  g_autoptr (CavFrameSettings) settings = cav_frame_settings_new ();
  g_autoptr (CavFrameSettings) copy = NULL;

  cav_frame_settings_set_picture_file (settings, "fern.png");
  cav_frame_settings_set_picture_file (settings, settings->picture_file);
  g_assert_cmpstr (settings->picture_file, ==, "fern.png");
  copy = cav_frame_settings_copy (settings);
  g_assert_true (copy->picture_file != settings->picture_file);
  g_assert_true (cav_frame_settings_equal (settings, copy));
  cav_frame_settings_set_picture_file (copy, NULL);
  g_assert_false (cav_frame_settings_equal (settings, copy));
}

/* Every number counts when two are compared, and its range when they are checked. */
static void
test_numbers (void)
{
  guint n_numbers = 0;
  const CavFrameNumberInfo *numbers = cav_frame_settings_get_numbers (&n_numbers);
  g_autoptr (CavFrameSettings) usual = cav_frame_settings_new ();

  g_assert_cmpuint (n_numbers, >, 40);
  for (guint i = 0; i < n_numbers; i++)
    {
      g_autoptr (CavFrameSettings) other = cav_frame_settings_copy (usual);
      const double bad[]
          = { numbers[i].minimum - 0.01, numbers[i].maximum + 0.01, NAN, INFINITY, -INFINITY };

      g_test_message ("%s", numbers[i].name);
      cav_frame_settings_set_number (other, &numbers[i], numbers[i].usual + 0x1p-30);
      g_assert_false (cav_frame_settings_equal (usual, other));
      for (guint k = 0; k < G_N_ELEMENTS (bad); k++)
        {
          g_autoptr (GError) error = NULL;

          cav_frame_settings_set_number (other, &numbers[i], bad[k]);
          g_assert_false (cav_frame_settings_check (other, &error));
          g_assert_error (error, CAV_FRAME_ERROR, CAV_FRAME_ERROR_RANGE);
          g_assert_nonnull (strstr (error->message, numbers[i].label));
        }
      for (guint k = 0; k < i; k++)
        {
          g_assert_cmpstr (numbers[i].name, !=, numbers[k].name);
          g_assert_cmpuint (numbers[i].offset, !=, numbers[k].offset);
        }
    }
}

/* No double of the struct is missing from the table: all of them set, none stays. */
static void
test_table_is_whole (void)
{
  guint n_numbers = 0;
  const CavFrameNumberInfo *numbers = cav_frame_settings_get_numbers (&n_numbers);
  CavFrameSettings settings;
  guint n_groups = 0;

  memset (&settings, 0, sizeof settings);
  for (guint i = 0; i < n_numbers; i++)
    cav_frame_settings_set_number (&settings, &numbers[i], -1.0);
  n_groups += settings.picture_width < 0 && settings.height < 0 && settings.allowance < 0;
  for (guint i = 0; i < CAV_MATS_MAX; i++)
    n_groups += settings.mats[i].reveal < 0 && settings.mats[i].thickness < 0;
  n_groups += settings.border_left < 0 && settings.border_right < 0 && settings.border_top < 0
              && settings.border_bottom < 0 && settings.overlap < 0 && settings.float_margin < 0;
  n_groups += settings.glazing_thickness < 0 && settings.glazing_density < 0 && settings.spacer < 0
              && settings.picture_thickness < 0 && settings.backing_thickness < 0
              && settings.backing_density < 0 && settings.point_room < 0;
  n_groups += settings.shop.temperature < 0 && settings.shop.humidity < 0
              && settings.dry.temperature < 0 && settings.dry.humidity < 0
              && settings.damp.temperature < 0 && settings.damp.humidity < 0;
  n_groups += settings.saw_error < 0 && settings.pair_error < 0 && settings.safe_length < 0
              && settings.wire_angle < 0 && settings.light_angle < 0 && settings.light_height < 0;
  n_groups += settings.dry_fit.gap_left < 0 && settings.dry_fit.gap_right < 0
              && settings.dry_fit.gap_top < 0 && settings.dry_fit.gap_bottom < 0
              && settings.dry_fit.diagonal_falling < 0 && settings.dry_fit.diagonal_rising < 0
              && settings.dry_fit.open_heel < 0 && settings.dry_fit.open_toe < 0;
  g_assert_cmpuint (n_groups, ==, 9);
}

/* What is no double counts too. */
static void
test_choices (void)
{
  g_autoptr (CavFrameSettings) usual = cav_frame_settings_new ();

#define DIFFERS(field, value)                                                                      \
  G_STMT_START                                                                                     \
  {                                                                                                \
    g_autoptr (CavFrameSettings) other = cav_frame_settings_copy (usual);                          \
    other->field = value;                                                                          \
    g_assert_false (cav_frame_settings_equal (usual, other));                                      \
    g_assert_false (cav_frame_settings_equal (other, usual));                                      \
  }                                                                                                \
  G_STMT_END
  DIFFERS (start, CAV_FRAME_START_GLASS);
  DIFFERS (sides, 6);
  DIFFERS (n_mats, 2);
  DIFFERS (mats[2].colour, 1);
  DIFFERS (bevelled, FALSE);
  DIFFERS (floated, TRUE);
  DIFFERS (float_colour, 1);
  DIFFERS (glazing, CAV_GLAZING_ACRYLIC);
  DIFFERS (backing, CAV_BACKING_FOAM);
  DIFFERS (stands_out, TRUE);
  DIFFERS (sawn, CAV_SAWN_QUARTER);
  DIFFERS (finish, CAV_FINISH_GILT);
  DIFFERS (coats, 3);
  DIFFERS (hangers, 3);
  DIFFERS (wire, FALSE);
  DIFFERS (wall_colour, 1);
  DIFFERS (reflection, TRUE);
  DIFFERS (dry_fit.has_gaps, TRUE);
  DIFFERS (dry_fit.has_diagonals, TRUE);
  DIFFERS (dry_fit.has_corner, TRUE);
  DIFFERS (dry_fit.last_corner, TRUE);

#define REFUSED(field, value, word)                                                                \
  G_STMT_START                                                                                     \
  {                                                                                                \
    g_autoptr (CavFrameSettings) other = cav_frame_settings_copy (usual);                          \
    g_autoptr (GError) error = NULL;                                                               \
    other->field = value;                                                                          \
    g_assert_false (cav_frame_settings_check (other, &error));                                     \
    g_assert_error (error, CAV_FRAME_ERROR, CAV_FRAME_ERROR_RANGE);                                \
    g_assert_nonnull (strstr (error->message, word));                                              \
  }                                                                                                \
  G_STMT_END
  REFUSED (sides, 2, "sides");
  REFUSED (sides, 13, "sides");
  REFUSED (n_mats, -1, "mats");
  REFUSED (n_mats, 4, "mats");
  REFUSED (coats, 13, "coats");
  REFUSED (hangers, 0, "hangers");
  REFUSED (start, (CavFrameStart)4, "starting point");
  REFUSED (glazing, (CavGlazing)3, "glazing");
  REFUSED (backing, (CavBacking)5, "backing");
  REFUSED (sawn, (CavSawn)2, "sawing");
  REFUSED (finish, (CavFinish)7, "finish");
}

/* Every word leads back to its value; another is refused and changes nothing. */
#define CHECK_WORDS(Type, name, n_values)                                                          \
  G_STMT_START                                                                                     \
  {                                                                                                \
    Type value = (Type)0;                                                                          \
    for (int i = 0; i < n_values; i++)                                                             \
      {                                                                                            \
        g_assert_true (cav_##name##_from_string (cav_##name##_to_string ((Type)i), &value));       \
        g_assert_cmpint (value, ==, i);                                                            \
      }                                                                                            \
    g_assert_null (cav_##name##_to_string ((Type)n_values));                                       \
    g_assert_false (cav_##name##_from_string ("Glass", &value));                                   \
    g_assert_false (cav_##name##_from_string (NULL, &value));                                      \
    g_assert_cmpint (value, ==, n_values - 1);                                                     \
  }                                                                                                \
  G_STMT_END

static void
test_words (void)
{
  CHECK_WORDS (CavFrameStart, frame_start, 4);
  CHECK_WORDS (CavGlazing, glazing, 3);
  CHECK_WORDS (CavBacking, backing, 5);
  CHECK_WORDS (CavSawn, sawn, 2);
  CHECK_WORDS (CavFinish, finish, 7);
}

static void
test_materials (void)
{
  /* 2.5 kg/m² for each mm of glass: soda-lime glass by EN 572-1, from memory. */
  g_assert_cmpfloat_with_epsilon (cav_glazing_get_density (CAV_GLAZING_GLASS) / 1000, 2.5, 1e-9);
  g_assert_cmpfloat_with_epsilon (cav_glazing_get_density (CAV_GLAZING_ACRYLIC), 1190, 1e-9);
  g_assert_cmpfloat_with_epsilon (cav_glazing_get_density (CAV_GLAZING_NONE), 0, 1e-9);
  for (int i = 1; i < 5; i++)
    {
      g_assert_cmpfloat (cav_backing_get_density ((CavBacking)i), >, 100);
      g_assert_cmpfloat (cav_backing_get_thickness ((CavBacking)i), >, 1);
    }
  /* A 3/16 in foam board weighs 0.6 to 0.7 kg/m²; recalled from memory. */
  g_assert_cmpfloat_with_epsilon (cav_backing_get_density (CAV_BACKING_FOAM) * 0.00476, 0.65, 0.05);
  g_assert_cmpfloat_with_epsilon (cav_backing_get_density ((CavBacking)5), 0, 1e-9);
  g_assert_cmpfloat_with_epsilon (cav_backing_get_thickness ((CavBacking)5), 0, 1e-9);
  /* The trade's 1/32, 1/16, 3/32 and 1/8 in, to a quarter of a millimetre. */
  for (int ply = 2; ply <= 8; ply += 2)
    g_assert_cmpfloat_with_epsilon (cav_mat_get_thickness (ply), 25.4 / 64 * ply, 0.25);
  g_assert_cmpfloat_with_epsilon (cav_mat_get_thickness (5), 0, 1e-9);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/frame/settings/usual", test_usual);
  g_test_add_func ("/frame/settings/copy", test_copy);
  g_test_add_func ("/frame/settings/numbers", test_numbers);
  g_test_add_func ("/frame/settings/table-is-whole", test_table_is_whole);
  g_test_add_func ("/frame/settings/choices", test_choices);
  g_test_add_func ("/frame/settings/words", test_words);
  g_test_add_func ("/frame/settings/materials", test_materials);
  return g_test_run ();
}
