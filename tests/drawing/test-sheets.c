/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/cav-sheets.h"

#include <math.h>
#include <string.h>

#include "drawing-samples.h"
#include "drawing-tools.h"
#include "drawing/cav-sheet-private.h"
#include "sheet-checks.h"

static gboolean generate;

static GPtrArray *
create_scenes (CavSheet sheet,
               CavProject *project,
               const CavPlan *plan,
               const CavSheetOptions *options)
{
  GPtrArray *scenes = cav_sheet_create_scenes (sheet, project, plan, options);

  g_assert_nonnull (scenes);
  return scenes;
}

static double
pick (GRand *random, const CavFrameNumberInfo *number)
{
  double usual = number->usual;

  return CLAMP (usual * g_rand_double_range (random, 0.6, 2.5), number->minimum, number->maximum);
}

static CavFrameSettings *
create_random_settings (GRand *random)
{
  CavFrameSettings *settings = cav_frame_settings_new ();
  guint n_numbers;
  const CavFrameNumberInfo *numbers = cav_frame_settings_get_numbers (&n_numbers);

  for (guint i = 0; i < n_numbers; i++)
    if (g_rand_int_range (random, 0, 3) == 0)
      cav_frame_settings_set_number (settings, &numbers[i], pick (random, &numbers[i]));
  settings->n_mats = g_rand_int_range (random, 0, CAV_MATS_MAX + 1);
  settings->coats = g_rand_int_range (random, 0, 5);
  settings->finish = (CavFinish)g_rand_int_range (random, 0, CAV_FINISH_GILT + 1);
  settings->wire = g_rand_boolean (random);
  settings->floated = g_rand_int_range (random, 0, 6) == 0;
  settings->sides = g_rand_boolean (random) ? 4 : g_rand_int_range (random, 3, 9);
  return settings;
}

/* Frames that nobody would make as well; where they are not possible the sheets say so. Settings
 * that a project would not take are drawn again. */
static void
set_random_frame (CavProject *project, GRand *random)
{
  for (int attempt = 0; attempt < 100; attempt++)
    {
      g_autoptr (CavFrameSettings) settings = create_random_settings (random);

      if (!cav_frame_settings_check (settings, NULL))
        continue;
      cav_project_set_frame_settings (project, settings);
      return;
    }
  g_error ("no random frame is one that a project takes");
}

static void
add_random_setup (CavPlan *plan, GRand *random)
{
  CavMachine machine = (CavMachine)g_rand_int_range (random, 0, 3);
  CavSide down = g_rand_boolean (random) ? CAV_SIDE_BACK : CAV_SIDE_FACE;
  CavSide against = g_rand_boolean (random) ? CAV_SIDE_INSIDE : CAV_SIDE_OUTSIDE;
  gboolean climbs = g_rand_boolean (random);
  int n = g_rand_int_range (random, 1, 8);

  sample_plan_add_setup (plan, machine, machine == CAV_MACHINE_ROUTER ? "round-over-6.35" : "rip",
                         machine == CAV_MACHINE_COVE ? g_rand_double_range (random, 8, 40)
                                                     : g_rand_double_range (random, -45, 45));
  for (int i = 0; i < n; i++)
    sample_plan_add_pass (plan, down, against, climbs ? 26 : g_rand_double_range (random, 10, 55),
                          climbs ? 3 + i * 0.85 : g_rand_double_range (random, 3, 9),
                          (guint)g_rand_int (random) % (1u << CAV_N_CAUTIONS));
}

static void
test_random_projects (void)
{
  guint32 seed = g_test_rand_int_range (0, G_MAXINT32);
  g_autoptr (GRand) random = g_rand_new_with_seed (seed);
  g_auto (GStrv) languages = sheet_check_list_languages ();

  g_test_message ("seed %u", seed);
  for (guint round = 0; round < 50; round++)
    {
      const char *language = languages[round % g_strv_length (languages)];
      g_autoptr (CavProject) project = sample_project_new ();
      g_autoptr (CavPlan) plan = sample_plan_new_empty (project);

      set_random_frame (project, random);
      plan->rails = g_rand_int_range (random, 1, 14);
      for (int i = g_rand_int_range (random, 0, 5); i > 0; i--)
        add_random_setup (plan, random);
      for (int unit = CAV_UNIT_MM; unit <= CAV_UNIT_INCH; unit++)
        {
          CavSheetOptions options = sample_options (
              (CavUnit)unit, g_rand_boolean (random) ? CAV_PAPER_A4 : CAV_PAPER_LETTER);

          options.layout = (CavSheetLayout)g_rand_int_range (random, 0, 3);
          sheet_check_use_language (language);
          sheet_check_cautions (project, plan, &options);
          for (int sheet = 0; sheet < CAV_N_SHEETS; sheet++)
            {
              /* The drawing, which takes longest, in one of the units. */
              if (sheet == CAV_SHEET_DRAWING && unit != (int)(round % 2))
                continue;
              sheet_check_use_language ("");
              sheet_check ((CavSheet)sheet, project, plan, &options);
              if (*language == '\0')
                continue;
              sheet_check_use_language (language);
              sheet_check ((CavSheet)sheet, project, plan, &options);
            }
        }
    }
  sheet_check_use_language ("");
}

/* A pass alone, and two panels beside each other, with so many words that a narrow panel would be
 * higher than a page. */
static void
check_many_words (CavProject *project, const CavSheetOptions *options)
{
  const guint all = (1u << CAV_N_CAUTIONS) - 1;
  g_autoptr (CavPlan) plan = sample_plan_new_empty (project);

  sample_plan_add_setup (plan, CAV_MACHINE_SAW, "rip", 17.22);
  for (int i = 0; i < 3; i++)
    sample_plan_add_pass (plan, CAV_SIDE_FACE, CAV_SIDE_OUTSIDE, 26, 4 + i * 0.85, all);
  sample_plan_add_pass (plan, CAV_SIDE_FACE, CAV_SIDE_OUTSIDE, 26, 3,
                        all & ~(guint)CAV_CAUTION_SACRIFICIAL);
  sample_plan_add_setup (plan, CAV_MACHINE_SAW, "rip", -33.42);
  sample_plan_add_pass (plan, CAV_SIDE_BACK, CAV_SIDE_OUTSIDE, 34, 7, all);
  sheet_check (CAV_SHEET_PASSES, project, plan, options);
  sheet_check_cautions (project, plan, options);
}

static void
test_many_words (void)
{
  g_autoptr (CavProject) project = sample_project_new ();
  g_auto (GStrv) languages = sheet_check_list_languages ();

  for (guint i = 0; languages[i] != NULL; i++)
    for (int paper = CAV_PAPER_A4; paper <= CAV_PAPER_LETTER; paper++)
      for (int unit = CAV_UNIT_MM; unit <= CAV_UNIT_INCH; unit++)
        {
          CavSheetOptions options = sample_options ((CavUnit)unit, (CavPaper)paper);

          sheet_check_use_language (languages[i]);
          check_many_words (project, &options);
        }
  sheet_check_use_language ("");
}

/* (transfer full) All texts of the job sheet, each wrapped sentence as one line. */
static char *
create_job_text (CavProject *project, const CavPlan *plan)
{
  const CavSheetOptions options = sample_options (CAV_UNIT_MM, CAV_PAPER_A4);
  g_autoptr (GPtrArray) scenes = cav_sheet_create_scenes (CAV_SHEET_JOB, project, plan, &options);
  GString *all = g_string_new (NULL);

  for (guint i = 0; i < scenes->len; i++)
    for (guint j = 0; j < cav_scene_get_text_count (g_ptr_array_index (scenes, i)); j++)
      {
        const char *text;
        const CavTextStyle *style;

        cav_scene_get_text (g_ptr_array_index (scenes, i), j, &text, &style);
        g_string_append_printf (all, "%s ", text);
      }
  return g_string_free (all, FALSE);
}

static void
assert_says (const char *text, const char *sentence, gboolean expected)
{
  g_test_message ("%s: %s", expected ? "says" : "does not say", sentence);
  g_assert_true ((strstr (text, sentence) != NULL) == expected);
}

/* A frame of equal sides has no diagonals to compare, no pairs of rails and no square corners. A
 * regular pentagon is sqrt (5 + 2 sqrt (5)) / 2 times as high as its side is long, a hexagon
 * sqrt (3) times as wide from side to side (recalled, not looked up). */
static void
test_equal_sides (void)
{
  static const struct
  {
    int sides;
    const char *words;
    double ratio;
    const char *share;
  } rows[] = {
    { 5, " mm from the outside of each rail, at its middle, to the corner opposite.", 1.5388417686,
      "each by 0.73 times as much" },
    { 6, " mm from the outside of each rail to the outside of the one opposite.", 1.7320508076,
      "each by 0.58 times as much" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (CavProject) project = sample_project_new ();
      g_autoptr (CavPlan) plan = sample_plan_new (project);
      g_autoptr (CavFrameSettings) settings = cav_frame_settings_new ();
      g_autofree char *text = NULL;
      g_autofree char *figure = NULL;
      g_autofree char *fit = NULL;
      double length;

      settings->sides = rows[i].sides;
      cav_project_set_frame_settings (project, settings);
      text = create_job_text (project, plan);
      length = cav_project_get_frame (project)->rails.groups[0].long_point * rows[i].ratio;
      figure = cav_length_format_bare (round (10 * length) / 10, CAV_UNIT_MM, 1);
      fit = g_strconcat (figure, rows[i].words, NULL);
      assert_says (text, fit, TRUE);
      assert_says (text, rows[i].share, TRUE);
      assert_says (text, "laid in a ring, must close", TRUE);
      assert_says (text, "mm across. Clean the glass", TRUE);
      assert_says (text, "diagonals", FALSE);
      assert_says (text, "with a square", FALSE);
      assert_says (text, "each pair", FALSE);
      assert_says (text, "top and bottom rails", FALSE);
    }
}

static void
test_titles (void)
{
  g_autofree char *long_title = g_strnfill (300, 'w');
  const char *const titles[] = {
    "",
    long_title,
    "\u05de\u05e1\u05d2\u05e8\u05ea \u05e9\u05e8\u05da <&\" \u202e\u0645\u0631\u062d\u0628\u0627",
    "line\nbreaks\tand\001control",
  };
  g_autoptr (CavProject) project = sample_project_new ();
  g_autoptr (CavPlan) plan = sample_plan_new (project);

  for (guint i = 0; i < G_N_ELEMENTS (titles); i++)
    for (int sheet = 0; sheet < CAV_SHEET_DRAWING; sheet++)
      for (int layout = 0; layout <= CAV_SHEET_LAYOUT_CARDS; layout++)
        {
          CavSheetOptions options = sample_options (CAV_UNIT_INCH, CAV_PAPER_LETTER);

          options.layout = (CavSheetLayout)layout;
          cav_project_set_title (project, titles[i]);
          sheet_check ((CavSheet)sheet, project, plan, &options);
        }
}

/* One file with all pages: as many as the sheets have, fonts in it, and each sheet's words. */
static void
test_file (void)
{
  static const char *const words[] = { "Choose and rest the wood", "Cutting list",   "Setup 1 of 5",
                                       "Right-hand end",           "100 mm exactly", "Hang it" };
  const char *const info_arguments[] = { "pdfinfo", "@", NULL };
  const char *const font_arguments[] = { "pdffonts", "@", NULL };
  const char *const text_arguments[] = { "pdftotext", "-layout", "@", "-", NULL };
  g_autoptr (CavProject) project = sample_project_new ();
  g_autoptr (CavPlan) plan = sample_plan_new (project);
  CavSheetOptions options = sample_options (CAV_UNIT_MM, CAV_PAPER_A4);
  g_autoptr (GError) error = NULL;
  g_autoptr (GBytes) pdf = cav_sheets_create_pdf (project, plan, &options, &error);
  g_autofree char *info = tool_run_text (pdf, info_arguments);
  g_autofree char *fonts = tool_run_text (pdf, font_arguments);
  g_autofree char *text = tool_run_text (pdf, text_arguments);
  g_auto (GStrv) lines = g_strsplit (g_strchomp (fonts), "\n", -1);
  guint n_pages = 0;

  g_assert_no_error (error);
  for (int sheet = 0; sheet < CAV_N_SHEETS; sheet++)
    {
      g_autoptr (GPtrArray) scenes = create_scenes ((CavSheet)sheet, project, plan, &options);

      g_assert_cmpuint (scenes->len, >=, 1);
      n_pages += scenes->len;
    }
  g_assert_cmpuint (g_ascii_strtoull (strstr (info, "Pages:") + 6, NULL, 10), ==, n_pages);
  for (guint j = 2; lines[j] != NULL; j++)
    g_assert_nonnull (strstr (lines[j], "yes yes yes"));
  for (guint i = 0; i < G_N_ELEMENTS (words); i++)
    {
      g_test_message ("%s", words[i]);
      g_assert_nonnull (strstr (text, words[i]));
    }
}

static void
check_sizes (GBytes *pdf, const GPtrArray *scenes)
{
  const char *const arguments[] = { "pdfinfo", "-f", "1", "-l", "999", "@", NULL };
  g_autofree char *info = tool_run_text (pdf, arguments);
  const char *at = info;

  g_assert_cmpuint (g_ascii_strtoull (strstr (info, "Pages:") + 6, NULL, 10), ==, scenes->len);
  for (guint i = 0; i < scenes->len; i++)
    {
      CavScene *scene = g_ptr_array_index (scenes, i);
      char *end;
      double width;
      double height;

      at = strstr (at, " size:");
      g_assert_nonnull (at);
      width = g_ascii_strtod (at + strlen (" size:"), &end);
      at = strchr (end, 'x');
      g_assert_nonnull (at);
      height = g_ascii_strtod (at + 1, NULL);
      g_assert_cmpfloat_with_epsilon (width, cav_scene_get_width (scene) * 72 / 25.4, 0.01);
      g_assert_cmpfloat_with_epsilon (height, cav_scene_get_height (scene) * 72 / 25.4, 0.01);
    }
}

/* Every word of the pages is in the file, in their order, letter by letter. */
static void
check_text (GBytes *pdf, const GPtrArray *scenes)
{
  const char *const arguments[] = { "pdftotext", "-raw", "@", "-", NULL };
  g_autofree char *text = tool_run_text (pdf, arguments);
  g_auto (GStrv) pages = g_strsplit (text, "\f", -1);

  g_assert_cmpuint (g_strv_length (pages), >=, scenes->len);
  for (guint i = 0; i < scenes->len; i++)
    {
      CavScene *scene = g_ptr_array_index (scenes, i);

      g_assert_cmpuint (cav_scene_get_text_count (scene), >, 5);
      for (guint j = 0; j < cav_scene_get_text_count (scene); j++)
        {
          const char *shown;
          const CavTextStyle *style;

          cav_scene_get_text (scene, j, &shown, &style);
          g_auto (GStrv) words = g_strsplit (shown, " ", -1);
          for (guint k = 0; words[k] != NULL; k++)
            {
              if (strstr (pages[i], words[k]) == NULL)
                g_test_message ("page %u: no \"%s\" of \"%s\"", i + 1, words[k], shown);
              g_assert_nonnull (strstr (pages[i], words[k]));
            }
        }
    }
}

/* Each sheet as a file of its own, on both papers and in each layout: pages and their sizes, fonts
 * that are in the file, and words that can be searched. */
static void
test_every_file (void)
{
  const char *const font_arguments[] = { "pdffonts", "@", NULL };
  g_autoptr (CavProject) project = sample_project_new ();
  g_autoptr (CavPlan) plan = sample_plan_new (project);

  cav_project_set_frame_settings (project, cav_project_get_frame_settings (project));
  for (int sheet = 0; sheet < CAV_N_SHEETS; sheet++)
    for (int layout = 0; layout <= CAV_SHEET_LAYOUT_CARDS; layout++)
      {
        CavSheetOptions options = sample_options (
            CAV_UNIT_MM, layout == CAV_SHEET_LAYOUT_PAGES ? CAV_PAPER_A4 : CAV_PAPER_LETTER);
        g_autoptr (GPtrArray) scenes = NULL;
        g_autoptr (GBytes) pdf = NULL;
        g_autofree char *fonts = NULL;
        g_auto (GStrv) lines = NULL;

        options.layout = (CavSheetLayout)layout;
        g_test_message ("%s, layout %d", cav_sheet_get_id ((CavSheet)sheet), layout);
        scenes = create_scenes ((CavSheet)sheet, project, plan, &options);
        pdf = cav_sheet_create_pdf ((CavSheet)sheet, project, plan, &options, NULL);
        check_sizes (pdf, scenes);
        check_text (pdf, scenes);
        fonts = tool_run_text (pdf, font_arguments);
        lines = g_strsplit (g_strchomp (fonts), "\n", -1);
        g_assert_cmpuint (g_strv_length (lines), >, 2);
        for (guint i = 2; lines[i] != NULL; i++)
          g_assert_nonnull (strstr (lines[i], "yes yes yes"));
      }
}

/* A reader of the file meets the parts of the job in their order. */
static void
test_reading_order (void)
{
  static const char *const order[]
      = { "1  Choose",     "2  Square",  "3  Mill",   "4  Scrape", "5  Mitre",
          "6  Fit it dry", "7  Glue up", "8  Finish", "9  Fit up", "10  Hang it" };
  const char *const arguments[] = { "pdftotext", "-raw", "@", "-", NULL };
  g_autoptr (CavProject) project = sample_project_new ();
  g_autoptr (CavPlan) plan = sample_plan_new (project);
  CavSheetOptions options = sample_options (CAV_UNIT_MM, CAV_PAPER_A4);
  g_autoptr (GBytes) pdf = NULL;
  g_autofree char *text = NULL;
  const char *at;

  cav_project_set_frame_settings (project, cav_project_get_frame_settings (project));
  pdf = cav_sheet_create_pdf (CAV_SHEET_JOB, project, plan, &options, NULL);
  text = tool_run_text (pdf, arguments);
  at = text;
  for (guint i = 0; i < G_N_ELEMENTS (order); i++)
    {
      g_auto (GStrv) parts = g_strsplit (order[i], "  ", 2);

      g_test_message ("%s", order[i]);
      at = strstr (at, parts[1]);
      g_assert_nonnull (at);
    }
}

/* Setups and passes follow one another in what a reader of the file hears. */
static void
test_reading_order_of_passes (void)
{
  const char *const arguments[] = { "pdftotext", "-raw", "@", "-", NULL };
  g_autoptr (CavProject) project = sample_project_new ();
  g_autoptr (CavPlan) plan = sample_plan_new (project);
  CavSheetOptions options = sample_options (CAV_UNIT_MM, CAV_PAPER_A4);
  g_autoptr (GBytes) pdf = cav_sheet_create_pdf (CAV_SHEET_PASSES, project, plan, &options, NULL);
  g_autofree char *text = tool_run_text (pdf, arguments);
  const char *at = strstr (text, "Prepare");

  for (guint i = 0; i < plan->setups->len; i++)
    {
      g_autofree char *setup = g_strdup_printf ("Setup %u of %u", i + 1, plan->setups->len);

      g_assert_nonnull (at);
      at = strstr (at, setup);
      g_assert_nonnull (at);
      /* The third begins with a blade in a sacrificial fence, which is raised last. */
      at = strstr (at, i == 2 ? "blade below the table" : "set height, then");
    }
  g_assert_nonnull (at);
  at = strstr (at, "By hand");
  g_assert_nonnull (at);
}

static char *
collect_text (CavSheet sheet, CavProject *project, const CavPlan *plan, CavUnit unit)
{
  CavSheetOptions options = sample_options (unit, CAV_PAPER_A4);
  g_autoptr (GPtrArray) scenes = create_scenes (sheet, project, plan, &options);
  GString *out = g_string_new (NULL);

  for (guint i = 0; i < scenes->len; i++)
    {
      CavScene *scene = g_ptr_array_index (scenes, i);

      g_string_append_printf (out, "-- page %u\n", i + 1);
      for (guint j = 0; j < cav_scene_get_text_count (scene); j++)
        {
          const char *text;
          const CavTextStyle *style;

          cav_scene_get_text (scene, j, &text, &style);
          g_string_append_printf (out, "%s\n", text);
        }
    }
  return g_string_free (out, FALSE);
}

/* Words and figures of every sheet, as they were looked at and found good. */
static void
test_golden (void)
{
  g_autoptr (CavProject) project = sample_project_new ();
  g_autoptr (CavPlan) plan = sample_plan_new (project);

  cav_project_set_frame_settings (project, cav_project_get_frame_settings (project));
  for (int sheet = 0; sheet < CAV_N_SHEETS; sheet++)
    for (int unit = CAV_UNIT_MM; unit <= CAV_UNIT_INCH; unit++)
      {
        g_autofree char *text = collect_text ((CavSheet)sheet, project, plan, (CavUnit)unit);
        g_autofree char *name = g_strdup_printf ("%s-%s.txt", cav_sheet_get_id ((CavSheet)sheet),
                                                 unit == CAV_UNIT_MM ? "mm" : "in");
        g_autofree char *file = g_test_build_filename (G_TEST_DIST, "golden", name, NULL);
        g_autofree char *expected = NULL;
        g_autoptr (GError) error = NULL;

        if (generate)
          g_assert_true (g_file_set_contents (file, text, -1, &error));
        g_assert_true (g_file_get_contents (file, &expected, NULL, &error));
        g_assert_no_error (error);
        g_assert_cmpstr (text, ==, expected);
      }
}

/* Without a plan and without a frame there is still something to print. */
static void
test_little (void)
{
  g_autoptr (CavProject) project = cav_project_new ();
  CavSheetOptions options = sample_options (CAV_UNIT_MM, CAV_PAPER_A4);
  g_autoptr (GError) error = NULL;
  g_autoptr (GBytes) pdf = cav_sheets_create_pdf (project, NULL, &options, &error);

  g_assert_no_error (error);
  g_assert_cmpuint (g_bytes_get_size (pdf), >, 1000);
  g_assert_false (cav_sheet_is_possible (CAV_SHEET_PASSES, project, NULL));
  for (int sheet = 0; sheet < CAV_N_SHEETS; sheet++)
    {
      g_autoptr (GPtrArray) scenes = create_scenes ((CavSheet)sheet, project, NULL, &options);

      if (!cav_sheet_is_possible ((CavSheet)sheet, project, NULL))
        g_assert_cmpuint (scenes->len, ==, 0);
    }
}

static void
test_two_hundred_passes (void)
{
  g_autoptr (CavProject) project = sample_project_new ();
  g_autoptr (CavPlan) plan = sample_plan_new_long (project, 200, 200);
  CavSheetOptions options = sample_options (CAV_UNIT_MM, CAV_PAPER_A4);

  for (int layout = 0; layout <= CAV_SHEET_LAYOUT_CARDS; layout++)
    {
      g_autoptr (GPtrArray) scenes = NULL;

      options.layout = (CavSheetLayout)layout;
      scenes = create_scenes (CAV_SHEET_PASSES, project, plan, &options);
      for (guint i = 0; i < scenes->len; i++)
        /* What PDF readers take is 200 inches. */
        g_assert_cmpfloat (cav_scene_get_height (g_ptr_array_index (scenes, i)), <=, 5080);
    }
}

/* The strip is 100 mm wide; cards have a setup each, and figures no smaller than the sheet's. */
static void
test_layouts (void)
{
  g_autoptr (CavProject) project = sample_project_new ();
  g_autoptr (CavPlan) plan = sample_plan_new (project);
  CavSheetOptions options = sample_options (CAV_UNIT_MM, CAV_PAPER_A4);
  g_autoptr (GPtrArray) strip = NULL;
  g_autoptr (GPtrArray) cards = NULL;
  guint n_headings = 0;

  options.layout = CAV_SHEET_LAYOUT_STRIP;
  strip = create_scenes (CAV_SHEET_PASSES, project, plan, &options);
  g_assert_cmpuint (strip->len, ==, 1);
  g_assert_cmpfloat_with_epsilon (cav_scene_get_width (g_ptr_array_index (strip, 0)), 100, 1e-9);
  options.layout = CAV_SHEET_LAYOUT_CARDS;
  cards = create_scenes (CAV_SHEET_PASSES, project, plan, &options);
  for (guint i = 0; i < cards->len; i++)
    {
      CavScene *scene = g_ptr_array_index (cards, i);
      guint on_page = 0;

      g_assert_cmpfloat_with_epsilon (cav_scene_get_width (scene), 297, 1e-6);
      g_assert_cmpfloat_with_epsilon (cav_scene_get_height (scene), 210, 1e-6);
      for (guint j = 0; j < cav_scene_get_text_count (scene); j++)
        {
          const char *text;
          const CavTextStyle *style;

          cav_scene_get_text (scene, j, &text, &style);
          if (g_str_has_prefix (text, "Setup "))
            on_page++;
        }
      g_assert_cmpuint (on_page, <=, 1);
      n_headings += on_page;
    }
  g_assert_cmpuint (n_headings, >=, plan->setups->len);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  generate = argc > 1 && strcmp (argv[1], "--generate") == 0;
  g_test_add_func ("/drawing/sheets/golden", test_golden);
  g_test_add_func ("/drawing/sheets/random-projects", test_random_projects);
  g_test_add_func ("/drawing/sheets/many-words", test_many_words);
  g_test_add_func ("/drawing/sheets/equal-sides", test_equal_sides);
  g_test_add_func ("/drawing/sheets/titles", test_titles);
  g_test_add_func ("/drawing/sheets/file", test_file);
  g_test_add_func ("/drawing/sheets/every-file", test_every_file);
  g_test_add_func ("/drawing/sheets/reading-order", test_reading_order);
  g_test_add_func ("/drawing/sheets/reading-order-of-passes", test_reading_order_of_passes);
  g_test_add_func ("/drawing/sheets/little", test_little);
  g_test_add_func ("/drawing/sheets/two-hundred-passes", test_two_hundred_passes);
  g_test_add_func ("/drawing/sheets/layouts", test_layouts);
  return g_test_run ();
}
