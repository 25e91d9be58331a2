/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/cav-cutting-list.h"

#include <math.h>
#include <string.h>

#include "drawing-samples.h"

static const CavListItem *
find (const CavCuttingList *list, CavListKind kind, guint nth)
{
  for (guint i = 0; i < list->items->len; i++)
    {
      const CavListItem *item = g_ptr_array_index (list->items, i);

      if (item->kind == kind && nth-- == 0)
        return item;
    }
  return NULL;
}

/* The same where it must be there. */
static const CavListItem *
get (const CavCuttingList *list, CavListKind kind, guint nth)
{
  const CavListItem *item = find (list, kind, nth);

  if (item == NULL)
    g_error ("an item of kind %d is missing", kind);
  return item;
}

/* A frame of four sides for a sheet of 210 x 297 without mat. */
static void
set_frame (CavProject *project)
{
  g_autoptr (CavFrameSettings) settings = cav_frame_settings_new ();

  settings->start = CAV_FRAME_START_GLASS;
  settings->width = 210;
  settings->height = 297;
  settings->n_mats = 0;
  settings->allowance = 3;
  settings->glazing_thickness = 2;
  settings->picture_width = 210;
  settings->picture_height = 297;
  cav_project_set_frame_settings (project, settings);
}

/* By the sum of woodshop tip sheet 65 (2003): outside = rabbet + 2 (width - lip); here the glass
 * and 3 mm, molding 60 and lip 6.35. Glass weighs 2.5 kg for a square metre and millimetre. */
static void
test_frame (void)
{
  g_autoptr (CavProject) project = sample_project_new ();
  CavSheetOptions options = sample_options (CAV_UNIT_MM, CAV_PAPER_A4);
  g_autoptr (CavCuttingList) list = NULL;
  const CavListItem *top;
  const CavListItem *left;
  const CavListItem *glass;

  set_frame (project);
  list = cav_cutting_list_new (project, NULL, &options);
  top = get (list, CAV_LIST_RAILS, 0);
  left = get (list, CAV_LIST_RAILS, 1);
  glass = get (list, CAV_LIST_GLAZING, 0);
  g_assert_cmpint (top->count, ==, 2);
  g_assert_cmpfloat_with_epsilon (top->length, 213 + 2 * (60 - 6.35), 1e-6);
  g_assert_cmpfloat_with_epsilon (left->length, 300 + 2 * (60 - 6.35), 1e-6);
  g_assert_nonnull (strstr (top->note, "213 mm"));
  g_assert_cmpfloat_with_epsilon (glass->length, 210, 1e-6);
  g_assert_cmpfloat_with_epsilon (glass->width, 297, 1e-6);
  g_assert_cmpfloat_with_epsilon (glass->weight, 0.210 * 0.297 * 2 * 2.5, 1e-6);
  g_assert_nonnull (find (list, CAV_LIST_SPARE, 0));
  g_assert_nonnull (find (list, CAV_LIST_POINTS, 0));
  g_assert_nonnull (find (list, CAV_LIST_HANGERS, 0));
  g_assert_null (find (list, CAV_LIST_MAT, 0));
}

/* Sheets of a frame of six sides are hexagons: mats weigh together what the frame says they do,
 * each by what is left of it, and the spacer runs along six sides. */
static void
test_six_sides (void)
{
  g_autoptr (CavProject) project = sample_project_new ();
  g_autoptr (CavFrameSettings) settings = cav_frame_settings_new ();
  CavSheetOptions options = sample_options (CAV_UNIT_MM, CAV_PAPER_A4);
  g_autoptr (CavCuttingList) list = NULL;
  const CavFrame *frame;

  settings->sides = 6;
  settings->n_mats = 2;
  settings->spacer = 3;
  cav_project_set_frame_settings (project, settings);
  frame = cav_project_get_frame (project);
  g_assert_true (frame->possible);
  list = cav_cutting_list_new (project, NULL, &options);
  g_assert_cmpfloat_with_epsilon (get (list, CAV_LIST_MAT, 0)->weight
                                      + get (list, CAV_LIST_MAT, 1)->weight,
                                  frame->weights.mats, 1e-9);
  /* The rear mat has the smaller window. */
  g_assert_cmpfloat (get (list, CAV_LIST_MAT, 1)->weight, >, get (list, CAV_LIST_MAT, 0)->weight);
  g_assert_cmpfloat_with_epsilon (get (list, CAV_LIST_SPACER, 0)->length,
                                  6 * frame->sizes.glass.width / sqrt (3.0), 1e-6);
}

static void
test_without_frame (void)
{
  g_autoptr (CavProject) project = sample_project_new ();
  CavSheetOptions options = sample_options (CAV_UNIT_MM, CAV_PAPER_A4);
  g_autoptr (CavCuttingList) list = cav_cutting_list_new (project, NULL, &options);
  const CavListItem *rails = get (list, CAV_LIST_RAILS, 0);

  g_assert_cmpint (rails->count, ==, 4);
  g_assert_cmpfloat_with_epsilon (rails->length, 800, 1e-9);
  g_assert_null (find (list, CAV_LIST_GLAZING, 0));
}

static void
test_csv (void)
{
  static const struct
  {
    const char *text;
    const char *cell;
  } rows[] = {
    { "plain", ",plain," },
    { "with, comma", ",\"with, comma\"," },
    { "with \"quotes\"", ",\"with \"\"quotes\"\"\"," },
    { "=SUM(A1)", ",'=SUM(A1)," },
    { "+1", ",'+1," },
    { "-1,5", ",\"'-1,5\"," },
    { "@cell", ",'@cell," },
    { "line\nbreak", ",line break," },
  };
  g_autoptr (CavProject) project = sample_project_new ();
  CavSheetOptions options = sample_options (CAV_UNIT_INCH, CAV_PAPER_A4);

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (CavCuttingList) list = cav_cutting_list_new (project, NULL, &options);
      const CavListItem item
          = { .kind = CAV_LIST_BOARDS, .what = (char *)rows[i].text, .count = 1, .length = 25.4 };
      g_autofree char *csv = NULL;

      cav_cutting_list_add (list, &item);
      csv = cav_cutting_list_create_csv (list, &options);
      g_test_message ("%s", rows[i].text);
      g_assert_nonnull (strstr (csv, rows[i].cell));
      g_assert_nonnull (strstr (csv, ",1.0000,"));
      g_assert_true (g_str_has_suffix (csv, "\r\n"));
    }
}

static void
test_sums (void)
{
  g_autoptr (CavProject) project = sample_project_new ();
  CavSheetOptions options = sample_options (CAV_UNIT_MM, CAV_PAPER_A4);
  g_autoptr (CavCuttingList) list = cav_cutting_list_new (project, NULL, &options);
  const CavListItem item = { .kind = CAV_LIST_BOARDS, .count = 2, .weight = 1.5, .cost = 12.25 };
  double weight = list->weight;
  g_autofree char *text = NULL;

  cav_cutting_list_add (list, &item);
  cav_cutting_list_add (list, &item);
  g_assert_cmpfloat_with_epsilon (list->weight - weight, 3, 1e-9);
  g_assert_cmpfloat_with_epsilon (list->cost, 24.5, 1e-9);
  text = cav_cutting_list_create_text (list, &options);
  g_assert_nonnull (strstr (text, "Cost 24.50."));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/drawing/cutting-list/frame", test_frame);
  g_test_add_func ("/drawing/cutting-list/six-sides", test_six_sides);
  g_test_add_func ("/drawing/cutting-list/without-frame", test_without_frame);
  g_test_add_func ("/drawing/cutting-list/csv", test_csv);
  g_test_add_func ("/drawing/cutting-list/sums", test_sums);
  return g_test_run ();
}
