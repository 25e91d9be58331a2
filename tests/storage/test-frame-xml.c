/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "storage/cav-frame-xml.h"

#include <string.h>

#include "storage-test.h"

#define PROJECT(content)                                                                           \
  "<cavetto version='2' unit='mm'><blank width='50' thickness='25'/>"                              \
  "<rails count='4' length='3200'/>\n" content "</cavetto>"

static CavProject *
load (const char *text, GError **error)
{
  g_autoptr (GBytes) bytes = storage_test_bytes (text);

  return cav_storage_project_from_bytes (bytes, "a.cavetto", error);
}

/* Written, valid, read as the same settings, written as the same bytes. */
static void
assert_round_trip (const CavFrameSettings *settings)
{
  GError *error = NULL;
  g_autoptr (CavProject) project = cav_project_new ();

  cav_project_set_frame_settings (project, settings);
  g_assert_true (cav_project_has_frame (project));
  g_autoptr (GBytes) bytes = cav_storage_project_to_bytes (project);
  storage_test_assert_valid (bytes, "project.rng");
  g_autoptr (CavProject) again = cav_storage_project_from_bytes (bytes, "a", &error);
  g_assert_no_error (error);
  g_assert_true (cav_project_has_frame (again));
  g_assert_true (cav_frame_settings_equal (settings, cav_project_get_frame_settings (again)));
  g_autoptr (GBytes) once_more = cav_storage_project_to_bytes (again);
  g_assert_true (g_bytes_equal (bytes, once_more));
}

static void
test_usual (void)
{
  g_autoptr (CavFrameSettings) settings = cav_frame_settings_new ();

  assert_round_trip (settings);
}

static void
randomise (CavFrameSettings *settings)
{
  guint n_numbers;
  const CavFrameNumberInfo *numbers = cav_frame_settings_get_numbers (&n_numbers);
  guint32 bits = g_test_rand_bit () ? 0xffffff : 0;

  for (guint i = 0; i < n_numbers; i++)
    cav_frame_settings_set_number (
        settings, &numbers[i], g_test_rand_double_range (numbers[i].minimum, numbers[i].maximum));
  settings->start = (CavFrameStart)g_test_rand_int_range (0, CAV_FRAME_START_OUTSIDE + 1);
  settings->glazing = (CavGlazing)g_test_rand_int_range (0, CAV_GLAZING_ACRYLIC + 1);
  settings->backing = (CavBacking)g_test_rand_int_range (0, CAV_BACKING_PLYWOOD + 1);
  settings->sawn = (CavSawn)g_test_rand_int_range (0, CAV_SAWN_QUARTER + 1);
  settings->finish = (CavFinish)g_test_rand_int_range (0, CAV_FINISH_GILT + 1);
  settings->sides = g_test_rand_int_range (CAV_FRAME_SIDES_MIN, CAV_FRAME_SIDES_MAX + 1);
  settings->n_mats = g_test_rand_int_range (0, CAV_MATS_MAX + 1);
  settings->coats = g_test_rand_int_range (0, CAV_COATS_MAX + 1);
  settings->hangers = g_test_rand_int_range (1, CAV_HANGERS_MAX + 1);
  settings->bevelled = g_test_rand_bit ();
  settings->floated = g_test_rand_bit ();
  settings->stands_out = g_test_rand_bit ();
  settings->wire = g_test_rand_bit ();
  settings->reflection = g_test_rand_bit ();
  settings->dry_fit.has_gaps = g_test_rand_bit ();
  settings->dry_fit.has_diagonals = g_test_rand_bit ();
  settings->dry_fit.has_corner = g_test_rand_bit ();
  settings->dry_fit.last_corner = g_test_rand_bit ();
  for (int i = 0; i < CAV_MATS_MAX; i++)
    settings->mats[i].colour = ((guint32)g_test_rand_int () & 0xffffff) ^ bits;
  settings->wall_colour = (guint32)g_test_rand_int () & 0xffffff;
  settings->float_colour = bits;
  cav_frame_settings_set_picture_file (settings, g_test_rand_bit () ? "a & \"b\" <ä>.png" : NULL);
}

static void
test_random (void)
{
  for (int i = 0; i < 60; i++)
    {
      g_autoptr (CavFrameSettings) settings = cav_frame_settings_new ();

      randomise (settings);
      assert_round_trip (settings);
    }
}

/* What is left out is usual; where there is no frame, none was set. */
static void
test_least (void)
{
  GError *error = NULL;
  g_autoptr (CavFrameSettings) usual = cav_frame_settings_new ();
  g_autoptr (CavProject) without = load (PROJECT (""), &error);
  g_autoptr (CavProject) with = load (PROJECT ("<frame/>"), &error);
  g_autoptr (CavProject) some = load (
      PROJECT ("<frame sides='6'><colours mat-1='#0a0B0c'/><dry-fit gaps='yes' gap-top='-0.5'/>"
               "</frame>"),
      &error);

  g_assert_no_error (error);
  g_assert_false (cav_project_has_frame (without));
  g_assert_true (cav_project_has_frame (with));
  g_assert_true (cav_frame_settings_equal (usual, cav_project_get_frame_settings (with)));
  usual->sides = 6;
  usual->mats[0].colour = 0x0a0b0c;
  usual->dry_fit.has_gaps = TRUE;
  usual->dry_fit.gap_top = -0.5;
  g_assert_true (cav_frame_settings_equal (usual, cav_project_get_frame_settings (some)));
}

/* Without a frame and with usual lumber the file is one that the first version could read. */
static void
test_oldest_version_that_can (void)
{
  g_autoptr (CavProject) project = cav_project_new ();
  g_autoptr (CavFrameSettings) settings = cav_frame_settings_new ();
  g_autoptr (GBytes) old = cav_storage_project_to_bytes (project);

  g_assert_nonnull (strstr (g_bytes_get_data (old, NULL), "<cavetto version=\"1\""));
  cav_project_set_frame_settings (project, settings);
  g_autoptr (GBytes) new = cav_storage_project_to_bytes (project);
  g_assert_nonnull (strstr (g_bytes_get_data (new, NULL), "<cavetto version=\"2\""));
  cav_project_undo (project);
  g_autoptr (GBytes) again = cav_storage_project_to_bytes (project);
  g_assert_true (g_bytes_equal (old, again));
}

static void
test_errors (void)
{
  static const struct
  {
    const char *text;
    const char *part;
  } rows[] = {
    { PROJECT ("<frame sides='2'/>"), "a.cavetto:2: sides=\"2\" of <frame> is out of range" },
    { PROJECT ("<frame sides='4.5'/>"), "sides of <frame> is not a whole number" },
    { PROJECT ("<frame sides='many'/>"), "sides=\"many\" of <frame> is not a number" },
    { PROJECT ("<frame><measures allowance='NaN'/></frame>"),
      "allowance=\"NaN\" of <measures> is not a number" },
    { PROJECT ("<frame><measures allowance='51'/></frame>"),
      "allowance=\"51\" of <measures> is out of range" },
    { PROJECT ("<frame start='sight'/>"), "start=\"sight\" of <frame> is not known" },
    { PROJECT ("<frame finish='tar'/>"), "finish=\"tar\" of <frame> is not known" },
    { PROJECT ("<frame><colours mat-2='red'/></frame>"),
      "mat-2=\"red\" of <colours> is not a colour; write it like #f2eee3" },
    { PROJECT ("<frame><colours mat-2='#12345'/></frame>"), "mat-2=\"#12345\"" },
    { PROJECT ("<frame><colours mat-2='#12345g'/></frame>"), "mat-2=\"#12345g\"" },
    { PROJECT ("<frame><options wire='maybe'/></frame>"), "neither \"yes\" nor \"no\"" },
    { PROJECT ("<frame><options wier='yes'/></frame>"), "unknown attribute \"wier\"" },
    { PROJECT ("<frame gap-top='1'/>"), "unknown attribute \"gap-top\"" },
    { PROJECT ("<frame><dry-fit sides='4'/></frame>"), "unknown attribute \"sides\"" },
    { PROJECT ("<frame><wet-fit/></frame>"), "unknown element <wet-fit> in <frame>" },
    { PROJECT ("<frame><dry-fit><x/></dry-fit></frame>"), "unknown element <x> in <dry-fit>" },
    { PROJECT ("<frame>text</frame>"), "text in <frame>" },
    { PROJECT ("<frame><options/><options/></frame>"), "<options> stands twice" },
    { PROJECT ("<frame/><frame/>"), "<frame> stands twice" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (GError) error = NULL;
      g_autoptr (CavProject) project = load (rows[i].text, &error);

      g_test_message ("%s", rows[i].text);
      g_assert_null (project);
      storage_test_assert_error (error, CAV_STORAGE_ERROR_CONTENT, rows[i].part);
    }
}

int
main (int argc, char *argv[])
{
  storage_test_init (&argc, &argv);
  g_test_add_func ("/storage/frame-xml/usual", test_usual);
  g_test_add_func ("/storage/frame-xml/random", test_random);
  g_test_add_func ("/storage/frame-xml/least", test_least);
  g_test_add_func ("/storage/frame-xml/oldest-version-that-can", test_oldest_version_that_can);
  g_test_add_func ("/storage/frame-xml/errors", test_errors);
  return g_test_run ();
}
