/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/cav-board-map.h"

#include "drawing/cav-drawing.h"
#include "drawing/cav-sheet-pages.h"
#include "drawing/cav-sheets.h"

#include "layout-checker.h"

#include <math.h>
#include <string.h>

static CavBoardLayout *
create_layout (CavGrainOrder order, int frames, int boards)
{
  g_autoptr (CavLumber) lumber = cav_lumber_new ();
  g_autoptr (GPtrArray) jobs = g_ptr_array_new_with_free_func ((GDestroyNotify)cav_board_job_free);
  const CavBoardPin pin = { .rail = 3, .strip = 1, .from = 200.0 };
  CavBoard *board = cav_board_new ();
  CavBoardLayout *layout;
  CavBoardJob *job;

  board->count = boards;
  board->thickness = order == CAV_GRAIN_BOOK ? 54.0 : 27.0;
  board->basis = CAV_PRICE_BOARD;
  board->price = 12.5;
  g_free (board->name);
  board->name = g_strdup ("Ash");
  cav_board_add_span (board, (CavBoardSpan){ .from = 2000, .to = 2060, .low = 0, .high = 60 });
  cav_board_add_span (board, (CavBoardSpan){ .from = 2300, .to = 2400 });
  g_ptr_array_add (lumber->boards, board);
  lumber->order = order;
  lumber->frames = frames;
  lumber->spare = 350.0;
  job = cav_board_job_new (lumber, "Ferns", 44.0, 22.0, 40.0);
  cav_board_job_set_rectangle (job, 310.0, 420.0);
  g_ptr_array_add (jobs, job);
  if (order == CAV_GRAIN_RUNNING)
    g_array_append_val (job->pins, pin);
  layout = cav_board_layout_new (&(CavLayoutRequest){ .lumber = lumber, .jobs = jobs, .effort = 1 },
                                 NULL);
  assert_layout (lumber, layout);
  return layout;
}

/* Every number finds its piece; what keeps together begins with its first piece and is as long as
 * all of them; from strip to strip one comes past all strips of all boards. */
static void
test_find (void)
{
  g_autoptr (CavBoardLayout) layout = create_layout (CAV_GRAIN_RUNNING, 2, 4);
  CavBoardHit hit;
  CavBoardHit rail;
  guint strips = 0;

  for (int number = 1; number <= layout->totals.pieces; number++)
    {
      const CavPlacedPiece *piece = cav_board_find_number (layout, number, &hit);
      double before = -1.0;
      double length = 0.0;

      g_assert_nonnull (piece);
      g_assert_true (hit.piece == piece);
      cav_board_get_reach (layout, &hit, &before, &length);
      g_assert_cmpfloat (before, >=, 0.0);
      g_assert_cmpfloat (before + piece->length, <=, length + 1e-9);
      if (piece->kind != CAV_PIECE_RAIL)
        continue;
      g_assert_true (cav_board_find_rail (layout, piece->job, piece->frame, piece->rail, &rail)
                     == piece);
      /* A run of four rails, each with a mitre at either end and a kerf between. */
      g_assert_cmpfloat (length, >, 2.0 * (310.0 + 420.0));
    }
  g_assert_null (cav_board_find_number (layout, layout->totals.pieces + 1, &hit));
  g_assert_null (cav_board_find_rail (layout, 0, 2, 0, &hit));
  hit = (CavBoardHit){ .board = (int)cav_board_layout_get_board_count (layout) - 1, .strip = -1 };
  while (cav_board_step_across (layout, &hit, 1))
    strips++;
  for (guint b = 0; b < cav_board_layout_get_board_count (layout); b++)
    strips -= cav_board_layout_get_board (layout, b)->strips->len;
  g_assert_cmpuint (strips, ==, 0);
  g_assert_cmpint (hit.board, ==, -1);
}

/* The middle of every piece as it is drawn leads back to that piece. */
static void
test_hit (void)
{
  for (int order = 0; order < CAV_N_GRAIN_ORDERS; order++)
    {
      g_autoptr (CavBoardLayout) layout = create_layout ((CavGrainOrder)order, 2, 4);
      g_autoptr (CavBoardMap) map = cav_board_map_new (layout, 270.0, FALSE);
      CavBoardHit hit;
      int found = 0;

      for (guint f = 0; f < map->faces->len; f++)
        {
          const CavBoardFace *face = &g_array_index (map->faces, CavBoardFace, f);
          const CavLaidBoard *board = g_ptr_array_index (layout->boards, face->board);

          for (guint s = 0; s < board->strips->len; s++)
            {
              const CavLaidStrip *strip = g_ptr_array_index (board->strips, s);
              const CavLane *lane;

              if (face->layer >= (int)strip->lanes->len)
                continue;
              lane = g_ptr_array_index (strip->lanes, face->layer);
              for (guint i = 0; i < lane->pieces->len; i++)
                {
                  const CavPlacedPiece *piece = &g_array_index (lane->pieces, CavPlacedPiece, i);
                  const CavBox box = cav_board_map_get_piece_box (map, layout, f, (int)s,
                                                                  piece->from, piece->length);

                  g_assert_true (cav_board_map_hit (
                      map, layout, CAV_POINT ((box.x0 + box.x1) / 2, (box.y0 + box.y1) / 2), &hit));
                  g_assert_true (hit.piece == piece);
                  g_assert_cmpint (hit.strip, ==, s);
                  g_assert_cmpint (hit.layer, ==, face->layer);
                  g_assert_cmpfloat_with_epsilon (hit.at, piece->from + piece->length / 2, 1e-6);
                  found++;
                }
            }
        }
      g_assert_cmpint (found, ==, 10);
      g_assert_cmpint (layout->totals.pieces, ==, 10);
      g_assert_false (cav_board_map_hit (map, layout, CAV_POINT (-5, -5), &hit));
      /* Behind the last piece there is a strip, and nothing on it. */
      g_assert_true (map->height > 0.0);
    }
}

/* All to one scale, none beyond the page, none over another. */
static void
test_faces (void)
{
  g_autoptr (CavBoardLayout) layout = create_layout (CAV_GRAIN_BOOK, 6, 9);
  g_autoptr (CavBoardMap) map = cav_board_map_new (layout, 200.0, FALSE);
  double end = 0.0;

  g_assert_cmpuint (map->faces->len, ==, 2 * layout->boards->len);
  for (guint f = 0; f < map->faces->len; f++)
    {
      const CavBoardFace *face = &g_array_index (map->faces, CavBoardFace, f);

      g_assert_cmpfloat (face->box.y0, >, end);
      g_assert_cmpfloat (face->caption, >, end);
      g_assert_cmpfloat (face->caption, <, face->box.y0);
      g_assert_cmpfloat (face->box.x1, <=, 200.0 + 1e-9);
      g_assert_cmpfloat_with_epsilon ((face->box.x1 - face->box.x0) / (face->box.y1 - face->box.y0),
                                      2400.0 / 150.0, 1e-9);
      end = face->box.y1;
    }
  g_assert_cmpfloat_with_epsilon (cav_board_map_get_height (map, 0, map->faces->len), map->height,
                                  1e-9);
  g_assert_cmpfloat_with_epsilon (cav_board_map_get_height (map, 1, 1), 0.0, 1e-9);
}

/* In a small window whose letters are large, name and size stand below each other, and whole. */
static void
test_narrow (void)
{
  const double widths[] = { 52.0, 105.0, 233.0 };

  for (guint w = 0; w < G_N_ELEMENTS (widths); w++)
    {
      g_autoptr (CavBoardLayout) layout = create_layout (CAV_GRAIN_BOOK, 1, 3);
      g_autoptr (CavBoardMap) map = cav_board_map_new (layout, widths[w], TRUE);
      CavScene *scene = cav_scene_new (map->width, map->height);
      gboolean has_idle = FALSE;

      cav_board_map_draw (map, layout, scene, 0, map->faces->len, 0.0, CAV_UNIT_MM, -1);
      for (guint i = 0; i < cav_scene_get_text_count (scene); i++)
        {
          const CavTextStyle *style;
          const char *text;
          CavBox box = cav_scene_get_text (scene, i, &text, &style);

          has_idle = has_idle || strstr (text, "used") != NULL;
          g_assert_null (strstr (text, "…"));
          for (guint j = 0; j < i; j++)
            {
              CavBox other = cav_scene_get_text (scene, j, &text, &style);

              g_assert_false (cav_box_overlaps (box, other));
            }
        }
      g_assert_true (has_idle);
      cav_scene_free (scene);
    }
}

static gboolean
has_text (const GPtrArray *pages, const char *wanted)
{
  for (guint p = 0; p < pages->len; p++)
    {
      const CavScene *scene = g_ptr_array_index (pages, p);

      for (guint i = 0; i < cav_scene_get_text_count (scene); i++)
        {
          const CavTextStyle *style;
          const char *text;

          cav_scene_get_text (scene, i, &text, &style);
          if (strstr (text, wanted) != NULL)
            return TRUE;
        }
    }
  return FALSE;
}

static void
test_sheet (void)
{
  for (int order = 0; order < CAV_N_GRAIN_ORDERS; order++)
    for (int paper = CAV_PAPER_A4; paper <= CAV_PAPER_LETTER; paper++)
      {
        g_autoptr (CavProject) project = cav_project_new ();
        g_autoptr (CavBoardLayout) layout = create_layout ((CavGrainOrder)order, 12, 30);
        const CavSheetOptions options
            = { .unit = CAV_UNIT_MM, .denominator = 64, .paper = (CavPaper)paper, .date = "today" };
        g_autoptr (GPtrArray) pages = cav_board_sheet_create_scenes (project, layout, &options);

        g_assert_cmpuint (layout->missing->len, ==, 0);
        g_assert_cmpuint (pages->len, >, 1);
        for (int number = 1; number <= layout->totals.pieces; number++)
          {
            g_autofree char *text = g_strdup_printf ("%d", number);

            g_assert_true (has_text (pages, text));
          }
        g_assert_true (has_text (pages, "left, frame 12"));
        g_assert_true (has_text (pages, "board feet"));
        g_assert_true (has_text (pages, "Rip strips of 45 mm"));
        /* Everything stays on its page. */
        for (guint p = 0; p < pages->len; p++)
          {
            const CavScene *scene = g_ptr_array_index (pages, p);

            for (guint i = 0; i < cav_scene_get_text_count (scene); i++)
              {
                const CavTextStyle *style;
                const char *text;
                const CavBox box = cav_scene_get_text (scene, i, &text, &style);

                g_test_message ("%s", text);
                g_assert_cmpfloat (box.x0, >=, 0.0);
                g_assert_cmpfloat (box.x1, <=, cav_scene_get_width (scene));
                g_assert_cmpfloat (box.y1, <=, cav_scene_get_height (scene) - 9.0);
              }
          }
      }
}

/* Numbers and names of pieces never lie over one another on the drawing. */
static void
test_labels (void)
{
  g_autoptr (CavBoardLayout) layout = create_layout (CAV_GRAIN_FREE, 12, 30);
  g_autoptr (CavBoardMap) map = cav_board_map_new (layout, 273.0, FALSE);
  g_autoptr (CavScene) scene = cav_scene_new (273.0, map->height);
  guint n;

  cav_board_map_draw (map, layout, scene, 0, map->faces->len, 0.0, CAV_UNIT_INCH, 3);
  n = cav_scene_get_text_count (scene);
  g_assert_cmpuint (n, >, 48);
  for (guint i = 0; i < n; i++)
    for (guint k = 0; k < i; k++)
      {
        const CavTextStyle *style;
        const char *one;
        const char *other;
        const CavBox a = cav_scene_get_text (scene, i, &one, &style);
        const CavBox b = cav_scene_get_text (scene, k, &other, &style);

        g_test_message ("%s / %s", one, other);
        g_assert_false (cav_box_overlaps (a, b));
      }
}

/* On boards that are drawn small every number is still there, beside the board. */
static void
test_small (void)
{
  for (int order = 0; order < CAV_N_GRAIN_ORDERS; order++)
    {
      g_autoptr (CavBoardLayout) layout = create_layout ((CavGrainOrder)order, 6, 30);
      g_autoptr (CavBoardMap) map = cav_board_map_new (layout, 130.0, TRUE);
      g_autoptr (CavScene) scene = cav_scene_new (130.0, map->height);
      guint numbers = 0;

      cav_board_map_draw (map, layout, scene, 0, map->faces->len, 0.0, CAV_UNIT_MM, -1);
      for (guint i = 0; i < cav_scene_get_text_count (scene); i++)
        {
          const CavTextStyle *style;
          const char *text;
          const CavBox box = cav_scene_get_text (scene, i, &text, &style);

          numbers += style->bold && g_ascii_isdigit (text[0]);
          g_assert_cmpfloat (box.y1, <=, map->height + 1e-6);
          g_assert_cmpfloat (style->height, >=, 2.5);
          for (guint k = 0; k < i && style->bold; k++)
            {
              const CavTextStyle *other_style;
              const char *other;
              const CavBox other_box = cav_scene_get_text (scene, k, &other, &other_style);

              g_test_message ("%s / %s", text, other);
              g_assert_false (other_style->bold && cav_box_overlaps (box, other_box));
            }
        }
      g_assert_cmpuint (numbers, ==, (guint)layout->totals.pieces);
    }
}

/* Boards on which nothing lies come last, and take a rail at the strip that is pointed at. */
static void
test_idle (void)
{
  g_autoptr (CavBoardLayout) layout = create_layout (CAV_GRAIN_FREE, 1, 4);
  g_autoptr (CavBoardMap) map = cav_board_map_new (layout, 270.0, TRUE);
  const CavBoardFace *last = &g_array_index (map->faces, CavBoardFace, map->faces->len - 1);
  CavBoardHit hit;

  g_assert_cmpuint (layout->idle->len, >, 0);
  g_assert_true (last->is_idle);
  g_assert_true (
      cav_board_map_hit (map, layout, CAV_POINT (30.0, last->box.y1 - 20.0 * map->scale), &hit));
  g_assert_cmpint (hit.board, ==, (int)cav_board_layout_get_board_count (layout) - 1);
  g_assert_cmpint (hit.strip, ==, 0);
  g_assert_null (hit.piece);
}

/* The cutting list has a line for the boards, and pages with the rails on them. */
static void
test_list (void)
{
  g_autoptr (CavProject) project = cav_project_new ();
  g_autoptr (CavLumber) lumber = cav_lumber_new ();
  const CavSheetOptions options = { .unit = CAV_UNIT_INCH, .denominator = 64 };
  g_autoptr (GError) error = NULL;
  g_autoptr (GBytes) once = NULL;
  g_autoptr (GBytes) again = NULL;
  g_autoptr (GPtrArray) without = NULL;
  g_autoptr (GPtrArray) with = NULL;
  CavBoard *board = cav_board_new ();

  board->thickness = 32.0;
  board->count = 4;
  board->name = (g_free (board->name), g_strdup ("Ash from the loft"));
  without = cav_sheet_create_scenes (CAV_SHEET_LIST, project, NULL, &options);
  g_ptr_array_add (lumber->boards, board);
  lumber->order = CAV_GRAIN_FREE;
  cav_project_set_lumber (project, lumber);
  with = cav_sheet_create_scenes (CAV_SHEET_LIST, project, NULL, &options);
  g_assert_cmpuint (with->len, >, without->len);
  g_assert_true (has_text (with, "Ash from the loft"));
  g_assert_false (has_text (without, "Ash from the loft"));
  once = cav_sheet_create_pdf (CAV_SHEET_LIST, project, NULL, &options, &error);
  again = cav_sheet_create_pdf (CAV_SHEET_LIST, project, NULL, &options, &error);
  g_assert_no_error (error);
  g_assert_true (g_bytes_equal (once, again));
}

/* Nothing on the boards: a page that says what is wrong. */
static void
test_empty (void)
{
  g_autoptr (CavProject) project = cav_project_new ();
  g_autoptr (CavBoardLayout) layout = create_layout (CAV_GRAIN_RUNNING, 2, 0);
  const CavSheetOptions options = { .unit = CAV_UNIT_MM, .denominator = 64 };
  g_autoptr (GPtrArray) pages = cav_board_sheet_create_scenes (project, layout, &options);
  g_autoptr (CavBoardMap) map = cav_board_map_new (layout, 100.0, FALSE);

  g_assert_cmpuint (map->faces->len, ==, 0);
  g_assert_cmpuint (pages->len, ==, 1);
  g_assert_true (has_text (pages, "8 rails"));
}

static void
test_labels_of_pieces (void)
{
  g_autoptr (CavBoardLayout) layout = create_layout (CAV_GRAIN_FREE, 1, 2);
  CavBoardJob *job = g_ptr_array_index (layout->jobs, 0);
  static const struct
  {
    CavPlacedPiece piece;
    int rails;
    int frames;
    const char *label;
  } rows[] = {
    { { .kind = CAV_PIECE_TEST }, 4, 1, "test" },
    { { .kind = CAV_PIECE_SPARE }, 4, 1, "spare" },
    { { .rail = 0 }, 4, 1, "top" },
    { { .rail = 3, .frame = 1 }, 4, 2, "left, frame 2" },
    { { .rail = 2 }, 3, 1, "rail 3" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *label = NULL;

      job->n_rails = rows[i].rails;
      job->frames = rows[i].frames;
      label = cav_piece_dup_label (layout, &rows[i].piece);
      g_assert_cmpstr (label, ==, rows[i].label);
    }
}

/* What is more than strips of one width from the jointed edge up is told strip by strip. */
static void
test_ripping (void)
{
  static const struct
  {
    const char *desc;
    double thickness;
    double knot; /* high, along the whole lower edge */
    gboolean glue_up;
    gboolean resaw;
    double narrow; /* face of a second job, for which nothing else is left */
    const char *words;
  } rows[] = {
    { "plain", 27, 0, FALSE, FALSE, 0, NULL },
    { "above a split", 27, 40, FALSE, FALSE, 0,
      "edge: 1 from 37 mm to 82 mm; 2 from 85.2 mm to 130.2 mm." },
    { "thin boards", 15, 0, TRUE, FALSE, 0,
      "edge: 1 from 0 mm to 93.2 mm, ripped into 2 of 45 mm and glued face to face." },
    { "thick boards", 60, 0, FALSE, TRUE, 0, "edge: 1 from 0 mm to 45 mm, resawn into 2 layers." },
    { "two widths", 27, 0, FALSE, FALSE, 30, "; 3 from 96.4 mm to 127.4 mm." },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (CavLumber) lumber = cav_lumber_new ();
      g_autoptr (GPtrArray) jobs
          = g_ptr_array_new_with_free_func ((GDestroyNotify)cav_board_job_free);
      const CavLayoutRequest request = { .lumber = lumber, .jobs = jobs, .effort = 1 };
      g_autoptr (CavBoardLayout) layout = NULL;
      g_autofree char *words = NULL;
      CavBoard *board = cav_board_new ();

      g_test_message ("%s", rows[i].desc);
      board->thickness = rows[i].thickness;
      board->width = 135.0;
      if (rows[i].knot > 0.0)
        cav_board_add_span (board, (CavBoardSpan){ .to = 2400, .high = rows[i].knot });
      g_ptr_array_add (lumber->boards, board);
      lumber->glue_up = rows[i].glue_up;
      lumber->resaw = rows[i].resaw;
      lumber->test = 0.0;
      for (int j = 0; j < (rows[i].narrow > 0.0 ? 2 : 1); j++)
        {
          const double width = j == 0 ? 44.0 : rows[i].narrow;
          CavBoardJob *job = cav_board_job_new (lumber, "Ferns", width, 22.0, width);

          job->frames = j == 0 && (rows[i].narrow > 0.0 || rows[i].knot > 0.0) ? 2 : 1;
          cav_board_job_set_rectangle (job, 500.0, 500.0);
          g_ptr_array_add (jobs, job);
        }
      layout = cav_board_layout_new (&request, NULL);
      g_assert_cmpuint (layout->boards->len, ==, 1);
      words = cav_laid_board_dup_ripping (layout, g_ptr_array_index (layout->boards, 0),
                                          CAV_UNIT_MM, 64);
      g_test_message ("%s", words);
      if (rows[i].words == NULL)
        g_assert_null (words);
      else
        g_assert_nonnull (words);
      if (words != NULL)
        g_assert_true (g_str_has_suffix (words, rows[i].words));
    }
}

static guint
count_numbers (const GPtrArray *pages)
{
  guint numbers = 0;

  for (guint p = 0; p < pages->len; p++)
    for (guint i = 0; i < cav_scene_get_text_count (g_ptr_array_index (pages, p)); i++)
      {
        const CavTextStyle *style;
        const char *text;

        cav_scene_get_text (g_ptr_array_index (pages, p), i, &text, &style);
        numbers += style->bold && text[0] != '\0' && strspn (text, "0123456789") == strlen (text);
      }
  return numbers;
}

/* The job sheet shows every board with the numbers of its pieces, and cuts in their order. */
static void
test_job_sheet (void)
{
  g_autoptr (CavProject) project = cav_project_new ();
  g_autoptr (CavLumber) lumber = cav_lumber_new ();
  g_autoptr (CavFrameSettings) settings = cav_frame_settings_new ();
  const CavSheetOptions options = { .unit = CAV_UNIT_MM, .denominator = 64 };
  g_autoptr (GPtrArray) without = NULL;
  g_autoptr (GPtrArray) with = NULL;
  CavBoard *board = cav_board_new ();

  board->thickness = 32.0;
  board->count = 4;
  board->length = 1500.0;
  board->name = (g_free (board->name), g_strdup ("Ash from the loft"));
  cav_project_set_frame_settings (project, settings);
  without = cav_sheet_create_scenes (CAV_SHEET_JOB, project, NULL, &options);
  g_assert_cmpuint (count_numbers (without), ==, 0);
  g_assert_true (has_text (without, "keep them around the frame"));
  g_ptr_array_add (lumber->boards, board);
  lumber->order = CAV_GRAIN_FREE;
  cav_project_set_lumber (project, lumber);
  with = cav_sheet_create_scenes (CAV_SHEET_JOB, project, NULL, &options);
  g_assert_true (has_text (with, "Ash from the loft"));
  /* Four rails and a piece for trials. */
  g_assert_cmpuint (count_numbers (with), ==, 5);
  g_assert_true (has_text (with, "in the order of their numbers"));
  g_assert_false (has_text (with, "keep them around the frame"));
}

/* The totals claim what is proved and no more. */
static void
test_proof (void)
{
  g_autoptr (CavBoardLayout) layout = create_layout (CAV_GRAIN_FREE, 1, 4);
  g_autoptr (CavBoardLayout) held = create_layout (CAV_GRAIN_RUNNING, 1, 4);
  const CavLengthStyle style = { CAV_UNIT_MM, 1 };
  g_autofree char *cheapest = NULL, *fewest = NULL, *under_wish = NULL, *nothing = NULL;

  g_assert_true (layout->boards_proved && layout->cost_proved && held->boards_proved);
  cheapest = cav_layout_dup_totals (layout, style);
  g_assert_true (g_str_has_suffix (cheapest, ". No fewer boards will do, and no others cost less: "
                                             "that is proved."));
  layout->cost_proved = FALSE;
  fewest = cav_layout_dup_totals (layout, style);
  g_assert_true (g_str_has_suffix (fewest, ". No fewer boards will do: that is proved."));
  under_wish = cav_layout_dup_totals (held, style);
  g_assert_true (g_str_has_suffix (under_wish, ". With the rails held where they are, no fewer "
                                               "boards will do: that is proved."));
  layout->boards_proved = FALSE;
  nothing = cav_layout_dup_totals (layout, style);
  g_assert_null (strstr (nothing, "proved"));
}

/* A board that is wider than long is drawn small enough for a page. */
static void
test_wide (void)
{
  g_autoptr (CavBoardLayout) layout = create_layout (CAV_GRAIN_FREE, 1, 1);
  g_autoptr (CavBoardMap) map = NULL;

  ((CavLaidBoard *)g_ptr_array_index (layout->boards, 0))->board->width = 20000.0;
  map = cav_board_map_new (layout, 186.0, FALSE);
  g_assert_cmpfloat (map->height, <, 200.0);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/drawing/board-map/small", test_small);
  g_test_add_func ("/drawing/board-map/idle", test_idle);
  g_test_add_func ("/drawing/board-map/find", test_find);
  g_test_add_func ("/drawing/board-map/hit", test_hit);
  g_test_add_func ("/drawing/board-map/faces", test_faces);
  g_test_add_func ("/drawing/board-map/narrow", test_narrow);
  g_test_add_func ("/drawing/board-map/sheet", test_sheet);
  g_test_add_func ("/drawing/board-map/labels", test_labels);
  g_test_add_func ("/drawing/board-map/list", test_list);
  g_test_add_func ("/drawing/board-map/empty", test_empty);
  g_test_add_func ("/drawing/board-map/labels-of-pieces", test_labels_of_pieces);
  g_test_add_func ("/drawing/board-map/ripping", test_ripping);
  g_test_add_func ("/drawing/board-map/job-sheet", test_job_sheet);
  g_test_add_func ("/drawing/board-map/proof", test_proof);
  g_test_add_func ("/drawing/board-map/wide", test_wide);
  return g_test_run ();
}
