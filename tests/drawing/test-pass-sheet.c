/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <string.h>

#include "drawing/cav-pass-words.h"
#include "drawing/cav-sheet-private.h"
#include "drawing-samples.h"
#include "drawing-tools.h"

#define DOTS_PER_INCH 200

static GBytes *
create_pdf (CavProject *project, const CavPlan *plan, const CavSheetOptions *options)
{
  g_autoptr (GError) error = NULL;
  GBytes *pdf = cav_pass_sheet_create_pdf (project, plan, options, &error);

  g_assert_no_error (error);
  g_assert_nonnull (pdf);
  return pdf;
}

static guint
count_pages (GBytes *pdf)
{
  const char *const arguments[] = { "pdfinfo", "@", NULL };
  g_autofree char *info = tool_run_text (pdf, arguments);
  const char *at = strstr (info, "Pages:");

  g_assert_nonnull (at);
  return (guint)g_ascii_strtoull (at + strlen ("Pages:"), NULL, 10);
}

static void
test_file (void)
{
  static const struct
  {
    CavPaper paper;
    const char *size;
  } rows[] = { { CAV_PAPER_A4, "841.89 x 595.276 pts (A4)" },
               { CAV_PAPER_LETTER, "792 x 612 pts (letter)" } };
  const char *const info_arguments[] = { "pdfinfo", "@", NULL };
  const char *const font_arguments[] = { "pdffonts", "@", NULL };
  g_autoptr (CavProject) project = sample_project_new ();
  g_autoptr (CavPlan) plan = sample_plan_new (project);

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      CavSheetOptions options = sample_options (CAV_UNIT_MM, rows[i].paper);
      g_autoptr (GBytes) pdf = create_pdf (project, plan, &options);
      g_autofree char *info = tool_run_text (pdf, info_arguments);
      g_autofree char *fonts = tool_run_text (pdf, font_arguments);
      g_auto (GStrv) lines = g_strsplit (g_strchomp (fonts), "\n", -1);

      g_assert_nonnull (strstr (info, "Fern frame"));
      g_assert_nonnull (strstr (info, "Pass sheet"));
      g_assert_nonnull (strstr (info, rows[i].size));
      g_assert_cmpuint (g_strv_length (lines), >, 2);
      /* emb, sub, uni: embedded, and text can be searched. */
      for (guint j = 2; lines[j] != NULL; j++)
        g_assert_nonnull (strstr (lines[j], "yes yes yes"));
    }
}

static void
test_same_bytes (void)
{
  g_autoptr (CavProject) project = sample_project_new ();
  g_autoptr (CavPlan) plan = sample_plan_new (project);
  CavSheetOptions options = sample_options (CAV_UNIT_MM, CAV_PAPER_A4);
  g_autoptr (GBytes) one = create_pdf (project, plan, &options);
  g_autoptr (GBytes) two = create_pdf (project, plan, &options);
  g_autoptr (GBytes) other = NULL;

  options.date = "2025-03-02";
  other = create_pdf (project, plan, &options);
  g_assert_true (g_bytes_equal (one, two));
  g_assert_false (g_bytes_equal (one, other));
}

static void
test_words (void)
{
  static const char *const first_page[] = {
    "Fern frame",
    "4 pieces of 800 mm",
    "1 spare piece of 300 mm for trial cuts",
    "each squared to 60 × 22 mm.",
    "cut it off square before milling",
    "The shop is assumed",
    "Rip blade; Cove, radius 9.5.",
    "Setup 1 of 5",
    "Table saw",
    "Blade upright",
    "back down",
    "outside to fence",
    "inside down",
    "face to fence",
    "Fence to tooth",
    "50.45",
    "9.5",
    "6.35",
    "Bite 9.5 deep",
    "All figures in millimetres",
    "9 passes in 5 setups",
    "from right to left",
    "Page 1 of",
    "manuals, local rules and trained practice come first",
    "Guards",
    "eye and ear protection",
    "push block",
    "Unplug",
    "2025-03-01",
  };
  static const char *const anywhere[] = { "Tilt 45° away from the fence",
                                          "Table saw, coving",
                                          "Fence at 12° to the blade",
                                          "Router table",
                                          "at most 18000 turns a minute",
                                          "Blade shows",
                                          "Cutter shows",
                                          "Fence to middle",
                                          "fence + 3.2",
                                          "height + 1.3",
                                          "Setup 5 of 5" };
  g_autoptr (CavProject) project = sample_project_new ();
  g_autoptr (CavPlan) plan = sample_plan_new (project);
  CavSheetOptions options = sample_options (CAV_UNIT_MM, CAV_PAPER_A4);
  g_autoptr (GBytes) pdf = create_pdf (project, plan, &options);
  const char *const arguments[] = { "pdftotext", "-raw", "@", "-", NULL };
  g_autofree char *raw = tool_run_text (pdf, arguments);
  g_auto (GStrv) pieces = g_strsplit_set (raw, "\n\f", -1);
  g_autofree char *text = g_strjoinv (" ", pieces);
  g_auto (GStrv) pages = g_strsplit (raw, "\f", -1);
  g_auto (GStrv) first_pieces = g_strsplit (pages[0], "\n", -1);
  g_autofree char *first = g_strjoinv (" ", first_pieces);

  for (guint i = 0; i < G_N_ELEMENTS (first_page); i++)
    {
      g_test_message ("%s", first_page[i]);
      g_assert_nonnull (strstr (first, first_page[i]));
    }
  for (guint i = 0; i < G_N_ELEMENTS (anywhere); i++)
    {
      g_test_message ("%s", anywhere[i]);
      g_assert_nonnull (strstr (text, anywhere[i]));
    }
  /* Every caution of the plan, in short at its pass and in full once. */
  for (guint i = 0; i < CAV_N_CAUTIONS; i++)
    {
      g_assert_nonnull (strstr (text, cav_words_get_caution ((CavCaution)(1u << i))));
      g_assert_nonnull (strstr (text, cav_caution_get_sentence ((CavCaution)(1u << i))));
    }
}

/* Rows of a picture in which a box has ink. */
static double
measure_ink_height (cairo_surface_t *picture, CavBox box)
{
  double scale = DOTS_PER_INCH / 25.4;
  int first = G_MAXINT;
  int last = -1;

  for (int y = (int)floor (box.y0 * scale); y < (int)ceil (box.y1 * scale); y++)
    for (int x = (int)floor (box.x0 * scale); x < (int)ceil (box.x1 * scale); x++)
      if (tool_get_grey (picture, x, y) < 128)
        {
          first = MIN (first, y);
          last = MAX (last, y);
        }
  return (last - first + 1) / scale;
}

static void
check_figures (CavUnit unit, CavPaper paper, CavSheetLayout layout)
{
  g_autoptr (CavProject) project = sample_project_new ();
  g_autoptr (CavPlan) plan = sample_plan_new (project);
  CavSheetOptions options = sample_options (unit, paper);
  g_autoptr (GBytes) pdf = NULL;
  g_autoptr (GPtrArray) words = NULL;
  guint n_large = 0;

  options.layout = layout;
  pdf = create_pdf (project, plan, &options);
  words = tool_read_words (pdf);
  for (guint page = 0; page < count_pages (pdf); page++)
    {
      cairo_surface_t *picture = tool_render_pdf (pdf, page, DOTS_PER_INCH);

      for (guint i = 0; i < words->len; i++)
        {
          const Word *word = g_ptr_array_index (words, i);

          /* Boxes of the font are half as high again as its figures. */
          if (word->page != page || word->box.y1 - word->box.y0 < 11.5
              || !g_ascii_isdigit (word->text[0]) || word->box.x1 - word->box.x0 < 5)
            continue;
          n_large++;
          g_test_message ("%s", word->text);
          g_assert_cmpfloat (measure_ink_height (picture, word->box), >=, 8);
        }
      cairo_surface_destroy (picture);
    }
  /* A fence and a height for each of nine passes; whole inches stand apart from their fraction,
   * and on enlarged cards other numbers are as high. */
  if (unit == CAV_UNIT_MM && layout != CAV_SHEET_LAYOUT_CARDS)
    g_assert_cmpuint (n_large, ==, 18);
  else
    g_assert_cmpuint (n_large, >=, 18);
}

static void
test_figures_are_8_mm_high (void)
{
  for (int layout = 0; layout <= CAV_SHEET_LAYOUT_CARDS; layout++)
    {
      check_figures (CAV_UNIT_MM, CAV_PAPER_A4, (CavSheetLayout)layout);
      check_figures (CAV_UNIT_INCH, CAV_PAPER_LETTER, (CavSheetLayout)layout);
    }
}

/* Boxes in the file as a reader of it sees them, and on the pages as they were laid out. */
static void
check_layout (CavProject *project, const CavPlan *plan, const CavSheetOptions *options)
{
  g_autoptr (GPtrArray) pages = cav_pass_sheet_create_scenes (project, plan, options);

  for (guint page = 0; page < pages->len; page++)
    {
      CavScene *scene = g_ptr_array_index (pages, page);

      for (guint i = 0; i < cav_scene_get_text_count (scene); i++)
        {
          const char *text;
          const char *other;
          const CavTextStyle *style;
          const CavTextStyle *other_style;
          CavBox box = cav_scene_get_text (scene, i, &text, &style);

          g_assert_cmpfloat (style->height, >=, 3);
          if (box.x0 < 7 || box.y0 < 7 || box.x1 > cav_scene_get_width (scene) - 7
              || box.y1 > cav_scene_get_height (scene) - 7)
            g_test_message ("page %u: \"%s\" leaves the page", page + 1, text);
          g_assert_cmpfloat (box.x0, >=, 7);
          g_assert_cmpfloat (box.y0, >=, 7);
          g_assert_cmpfloat (box.x1, <=, cav_scene_get_width (scene) - 7);
          g_assert_cmpfloat (box.y1, <=, cav_scene_get_height (scene) - 7);
          for (guint j = 0; j < i; j++)
            {
              gboolean overlap
                  = cav_box_overlaps (box, cav_scene_get_text (scene, j, &other, &other_style));

              if (overlap)
                g_test_message ("page %u: \"%s\" lies on \"%s\"", page + 1, text, other);
              g_assert_false (overlap);
            }
        }
    }
}

static void
test_nothing_overlaps (void)
{
  g_autoptr (CavProject) project = sample_project_new ();
  g_autoptr (CavPlan) plan = sample_plan_new (project);
  static const char *const titles[] = {
    "Fern frame",
    "",
    "A title with <b>markup</b> & \"quotes\" that is far longer than any head of any sheet can be, "
    "for it goes on and on without an end, as titles are wont to do when nobody stops those who "
    "write them, and it has three hundred characters, more or less, which is more than anybody "
    "would want to read at a saw bench",
    "\u05de\u05e1\u05d2\u05e8\u05ea \u05e9\u05e8\u05da <&\" \u202e\u0645\u0631\u062d\u0628\u0627",
    "line\nbreaks\tand\001control",
  };

  for (guint i = 0; i < G_N_ELEMENTS (titles); i++)
    for (int unit = CAV_UNIT_MM; unit <= CAV_UNIT_INCH; unit++)
      for (int paper = CAV_PAPER_A4; paper <= CAV_PAPER_LETTER; paper++)
        {
          CavSheetOptions options = sample_options ((CavUnit)unit, (CavPaper)paper);
          g_autoptr (GBytes) pdf = NULL;
          g_autoptr (GPtrArray) words = NULL;

          /* Everything with the plain title, the others where room is least. */
          if (i > 0 && (unit != CAV_UNIT_INCH || paper != CAV_PAPER_LETTER))
            continue;
          cav_project_set_title (project, titles[i]);
          check_layout (project, plan, &options);
          pdf = create_pdf (project, plan, &options);
          words = tool_read_words (pdf);
          g_assert_cmpuint (words->len, >, 100);
          tool_assert_apart (words);
        }
}

static void
test_random_plans (void)
{
  g_autoptr (CavProject) project = sample_project_new ();
  guint32 seed = g_test_rand_int_range (0, G_MAXINT32);
  g_autoptr (GRand) random = g_rand_new_with_seed (seed);

  g_test_message ("seed %u", seed);
  for (int round = 0; round < 20; round++)
    {
      g_autoptr (CavPlan) plan = sample_plan_new_empty (project);
      CavSheetOptions options
          = sample_options (g_rand_boolean (random) ? CAV_UNIT_MM : CAV_UNIT_INCH,
                            g_rand_boolean (random) ? CAV_PAPER_A4 : CAV_PAPER_LETTER);

      plan->rails = g_rand_int_range (random, 1, 14);
      for (int i = g_rand_int_range (random, 1, 6); i > 0; i--)
        {
          CavMachine machine = (CavMachine)g_rand_int_range (random, 0, 3);

          sample_plan_add_setup (
              plan, machine, machine == CAV_MACHINE_ROUTER ? "round-over-6.35" : "rip",
              machine == CAV_MACHINE_COVE ? g_rand_double_range (random, 8, 40)
                                          : g_rand_double_range (random, -45, 45));
          for (int j = g_rand_int_range (random, 1, 5); j > 0; j--)
            sample_plan_add_pass (plan, g_rand_boolean (random) ? CAV_SIDE_BACK : CAV_SIDE_FACE,
                                  g_rand_boolean (random) ? CAV_SIDE_INSIDE : CAV_SIDE_OUTSIDE,
                                  g_rand_double_range (random, 10, 55),
                                  g_rand_double_range (random, 3, 9),
                                  (guint)g_rand_int (random) % (1u << CAV_N_CAUTIONS));
        }
      check_layout (project, plan, &options);
    }
}

static void
test_setups_stay_together (void)
{
  g_autoptr (CavProject) project = sample_project_new ();
  g_autoptr (CavPlan) plan = sample_plan_new_long (project, 48, 3);
  CavSheetOptions options = sample_options (CAV_UNIT_MM, CAV_PAPER_A4);
  g_autoptr (GBytes) pdf = create_pdf (project, plan, &options);
  const char *const arguments[] = { "pdftotext", "-raw", "@", "-", NULL };
  g_autofree char *text = tool_run_text (pdf, arguments);

  /* Three passes are two rows, which a page holds, though not the first one below its head. */
  for (guint i = 1; i <= 16; i++)
    {
      g_autofree char *continued = g_strdup_printf ("Setup %u, continued", i);

      g_assert_null (strstr (text, continued));
    }
  g_assert_nonnull (strstr (text, "Setup 16 of 16"));
}

static void
test_two_hundred_passes (void)
{
  g_autoptr (CavProject) project = sample_project_new ();
  g_autoptr (CavPlan) plan = sample_plan_new_long (project, 200, 200);
  CavSheetOptions options = sample_options (CAV_UNIT_MM, CAV_PAPER_A4);
  g_autoptr (GBytes) pdf = create_pdf (project, plan, &options);
  g_autoptr (GPtrArray) words = tool_read_words (pdf);
  gboolean seen[201] = { FALSE };
  guint n_pages = count_pages (pdf);
  g_autofree char *last = tool_join_words (words, n_pages - 1);
  g_autofree char *page = g_strdup_printf ("Page %u of %u", n_pages, n_pages);

  check_layout (project, plan, &options);
  g_assert_nonnull (strstr (last, page));
  g_assert_nonnull (strstr (last, "Setup 1, continued"));
  /* Badges stand at the left of panels. */
  for (guint i = 0; i < words->len; i++)
    {
      const Word *word = g_ptr_array_index (words, i);
      guint64 number = g_ascii_strtoull (word->text, NULL, 10);

      if (number >= 1 && number <= 200 && strspn (word->text, "0123456789") == strlen (word->text))
        seen[number] = TRUE;
    }
  for (guint i = 1; i <= 200; i++)
    g_assert_true (seen[i]);
}

static void
test_no_passes (void)
{
  g_autoptr (CavProject) project = sample_project_new_plain (40, 20);
  g_autoptr (CavPlan) plan = sample_plan_new_empty (project);
  CavSheetOptions options = sample_options (CAV_UNIT_MM, CAV_PAPER_A4);
  g_autoptr (GBytes) pdf = create_pdf (project, plan, &options);
  g_autoptr (GPtrArray) words = tool_read_words (pdf);
  g_autofree char *text = tool_join_words (words, 0);

  g_assert_cmpuint (count_pages (pdf), ==, 1);
  g_assert_nonnull (strstr (text, "Nothing to mill"));
  g_assert_nonnull (strstr (text, "Page 1 of 1"));
  tool_assert_apart (words);
}

/* What was not proved must not be milled by anybody. */
static void
test_unusable_plan (void)
{
  g_autoptr (CavProject) project = sample_project_new ();
  g_autoptr (CavPlan) plan = sample_plan_new (project);
  CavSheetOptions options = sample_options (CAV_UNIT_MM, CAV_PAPER_A4);
  g_autoptr (GBytes) pdf = NULL;
  g_autoptr (GPtrArray) words = NULL;
  g_autofree char *text = NULL;

  plan->usable = FALSE;
  g_ptr_array_add (plan->findings,
                   cav_finding_new (CAV_FINDING_WRONG, "test", "The rail falls over."));
  pdf = create_pdf (project, plan, &options);
  words = tool_read_words (pdf);
  text = tool_join_words (words, 0);
  g_assert_nonnull (strstr (text, "Do not mill"));
  g_assert_nonnull (strstr (text, "The rail falls over."));
  g_assert_null (strstr (text, "set height"));
  g_assert_null (strstr (text, "50.45"));
}

static void
test_many_rails_have_one_box (void)
{
  g_autoptr (CavProject) project = sample_project_new ();
  g_autoptr (CavPlan) plan = sample_plan_new (project);
  CavSheetOptions options = sample_options (CAV_UNIT_MM, CAV_PAPER_LETTER);
  g_autoptr (GBytes) pdf = NULL;
  g_autoptr (GPtrArray) words = NULL;
  g_autofree char *text = NULL;

  cav_project_set_rails (project, 24, 9600);
  plan->rails = 24;
  check_layout (project, plan, &options);
  pdf = create_pdf (project, plan, &options);
  words = tool_read_words (pdf);
  text = tool_join_words (words, 0);
  g_assert_nonnull (strstr (text, "all 24"));
}

/* The text of an ink that begins nearest to the right of a point on its line; NULL if none. */
static const char *
find_right_of (CavScene *scene, CavBox from, CavInk ink, CavBox *out_box)
{
  const double middle = (from.y0 + from.y1) / 2;
  const char *found = NULL;

  for (guint i = 0; i < cav_scene_get_text_count (scene); i++)
    {
      const char *text;
      const CavTextStyle *style;
      CavBox box = cav_scene_get_text (scene, i, &text, &style);

      if (style->ink != ink || box.x0 < from.x1 || box.y0 > middle || box.y1 < middle
          || (found != NULL && box.x0 > out_box->x0))
        continue;
      found = text;
      *out_box = box;
    }
  return found;
}

/* Nobody may read a ladder across and take the second setting for another one: every setting stands
 * right of the number of its pass, and the numbers follow each other row by row. */
static void
test_ladder_is_numbered (void)
{
  static const double heights[] = { 1.6, 3.1, 4.55, 5.85, 7.05, 7.85 };
  static const char *const figures[] = { "1.6", "3.1", "4.55", "5.85", "7.05", "7.85" };

  for (int layout = 0; layout <= CAV_SHEET_LAYOUT_CARDS; layout++)
    {
      g_autoptr (CavProject) project = sample_project_new ();
      g_autoptr (CavPlan) plan = sample_plan_new_empty (project);
      CavSheetOptions options = sample_options (CAV_UNIT_MM, CAV_PAPER_A4);
      g_autoptr (GPtrArray) pages = NULL;
      CavBox last = { 0 };
      guint n = 0;

      options.layout = (CavSheetLayout)layout;
      sample_plan_add_setup (plan, CAV_MACHINE_COVE, "rip", 30);
      for (guint i = 0; i < G_N_ELEMENTS (heights); i++)
        sample_plan_add_pass (plan, CAV_SIDE_FACE, CAV_SIDE_INSIDE, 26, heights[i], 0);
      pages = cav_pass_sheet_create_scenes (project, plan, &options);
      for (guint page = 0; page < pages->len; page++)
        {
          CavScene *scene = g_ptr_array_index (pages, page);

          for (guint i = 0; i < cav_scene_get_text_count (scene); i++)
            {
              g_autofree char *number = g_strdup_printf ("%u", n + 1);
              const char *text;
              const CavTextStyle *style;
              CavBox box = cav_scene_get_text (scene, i, &text, &style);
              CavBox figure = { 0 };

              if (style->ink != CAV_INK_WHITE || !g_str_equal (text, number))
                continue;
              g_assert_cmpuint (n, <, G_N_ELEMENTS (figures));
              g_assert_cmpstr (find_right_of (scene, box, CAV_INK_BLACK, &figure), ==, figures[n]);
              g_assert_true (n == 0 || box.y0 > last.y1 || box.x0 > last.x1);
              g_assert_true (n == 0 || box.y0 >= last.y0 - 0.01);
              last = box;
              n++;
            }
        }
      g_assert_cmpuint (n, ==, G_N_ELEMENTS (figures));
    }
}

/* A ladder has a box for each piece at each setting, or says that one is for all. */
static void
test_ladder_says_what_boxes_are_for (void)
{
  static const guint rails[] = { 4, 24 };

  for (guint i = 0; i < G_N_ELEMENTS (rails); i++)
    {
      g_autoptr (CavProject) project = sample_project_new ();
      g_autoptr (CavPlan) plan = sample_plan_new_empty (project);
      CavSheetOptions options = sample_options (CAV_UNIT_MM, CAV_PAPER_A4);
      g_autoptr (GBytes) pdf = NULL;
      g_autoptr (GPtrArray) words = NULL;
      g_autofree char *text = NULL;

      sample_plan_add_setup (plan, CAV_MACHINE_COVE, "rip", 30);
      for (guint j = 0; j < 5; j++)
        sample_plan_add_pass (plan, CAV_SIDE_FACE, CAV_SIDE_INSIDE, 26, 1.6 + j, 0);
      cav_project_set_rails (project, rails[i], 400 * rails[i]);
      plan->rails = rails[i];
      check_layout (project, plan, &options);
      pdf = create_pdf (project, plan, &options);
      words = tool_read_words (pdf);
      text = tool_join_words (words, 0);
      g_assert_cmpint (strstr (text, "Each box is for all 24 pieces") != NULL, ==, rails[i] == 24);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/drawing/pass-sheet/file", test_file);
  g_test_add_func ("/drawing/pass-sheet/same-bytes", test_same_bytes);
  g_test_add_func ("/drawing/pass-sheet/words", test_words);
  g_test_add_func ("/drawing/pass-sheet/figures-are-8-mm-high", test_figures_are_8_mm_high);
  g_test_add_func ("/drawing/pass-sheet/nothing-overlaps", test_nothing_overlaps);
  g_test_add_func ("/drawing/pass-sheet/random-plans", test_random_plans);
  g_test_add_func ("/drawing/pass-sheet/setups-stay-together", test_setups_stay_together);
  g_test_add_func ("/drawing/pass-sheet/two-hundred-passes", test_two_hundred_passes);
  g_test_add_func ("/drawing/pass-sheet/no-passes", test_no_passes);
  g_test_add_func ("/drawing/pass-sheet/unusable-plan", test_unusable_plan);
  g_test_add_func ("/drawing/pass-sheet/ladder-is-numbered", test_ladder_is_numbered);
  g_test_add_func ("/drawing/pass-sheet/ladder-says-what-boxes-are-for",
                   test_ladder_says_what_boxes_are_for);
  g_test_add_func ("/drawing/pass-sheet/many-rails-have-one-box", test_many_rails_have_one_box);
  return g_test_run ();
}
