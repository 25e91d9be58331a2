/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "fuzz-target.h"

#include <math.h>

#include "drawing/cav-cutting-list.h"
#include "drawing/cav-preview.h"
#include "drawing/cav-sheets.h"
#include "project/cav-project-boards.h"
#include "storage/cav-storage.h"

/*
 * Bytes become a project: blank, cuts, shop, rails, frame, boards. It is evaluated, written and
 * read back, planned, laid out on its boards and drawn; whatever plan comes out has been proved,
 * and every sheet that is possible comes out whole.
 */

typedef struct
{
  const guint8 *data;
  gsize left;
} Bytes;

static guint
take (Bytes *bytes)
{
  if (bytes->left == 0)
    return 0;
  bytes->left--;
  return *bytes->data++;
}

/* Mostly sizes as people draw them, in steps of half a millimetre; now and then anything within
 * the range, or its very ends. */
static double
take_number (Bytes *bytes, double least, double greatest)
{
  guint way = take (bytes);
  guint value = take (bytes);
  double number;

  if (way < 200)
    number = value * 0.25;
  else if (way < 230)
    number = least + (greatest - least) * value / 255.0;
  else if (way < 240)
    number = value * 0.25 + 1e-7;
  else
    number = value % 2 == 0 ? least : greatest;
  return CLAMP (number, least, greatest);
}

static CavCut *
take_cut (Bytes *bytes)
{
  CavCutKind kind = (CavCutKind)(take (bytes) % CAV_N_CUT_KINDS);
  const CavCutInfo *info = cav_cut_kind_get_info (kind);
  guint place = take (bytes) % 4;
  CavCut *cut;

  if (kind == CAV_CUT_DRAWN)
    {
      g_autoptr (CavPath) path = cav_path_new ();

      for (guint i = 0; i < 3 + place; i++)
        {
          CavPoint point = { take_number (bytes, -50.0, 150.0), take_number (bytes, -50.0, 150.0) };

          if (i == 0)
            cav_path_move_to (path, point);
          else
            cav_path_line_to (path, point);
        }
      cav_path_close (path);
      return cav_cut_new_drawn (path);
    }
  if ((info->anchors & (1u << CAV_ANCHOR_SIDE)) != 0
      && ((info->anchors & (1u << CAV_ANCHOR_CORNER)) == 0 || take (bytes) % 2 == 0))
    cut = cav_cut_new_on_side (kind, (CavSide)place);
  else
    cut = cav_cut_new_at_corner (kind, (CavCorner)place);
  cut->form = info->forms[take (bytes) % info->n_forms];
  for (guint i = 0; i < info->n_numbers; i++)
    {
      const CavCutNumberInfo *number = &info->numbers[i];
      double value = take_number (bytes, number->minimum, number->maximum);

      /* Shifts are 0 as a rule. */
      if (number->minimum < 0 && take (bytes) < 200)
        value = 0.0;
      cut->numbers[number->number] = number->number == CAV_CUT_COUNT ? floor (value) : value;
    }
  return cut;
}

static CavShop *
take_shop (Bytes *bytes)
{
  switch (take (bytes) % 4)
    {
    case 0:
      return cav_shop_new_saw_only ();
    case 1:
      return cav_shop_new_router_only ();
    case 2:
      return cav_shop_new_grooving ();
    default:
      return cav_shop_new_default ();
    }
}

static void
take_mats (Bytes *bytes, CavFrameSettings *settings)
{
  settings->n_mats = (int)(take (bytes) % (CAV_MATS_MAX + 1));
  for (int i = 0; i < CAV_MATS_MAX; i++)
    {
      settings->mats[i].reveal = take (bytes) * 0.1;
      settings->mats[i].thickness = 0.5 + take (bytes) * 0.02;
      settings->mats[i].colour = take (bytes) * 0x10305u;
    }
}

static void
take_dry_fit (Bytes *bytes, CavDryFit *fit)
{
  fit->has_gaps = take (bytes) % 2 == 0;
  fit->has_diagonals = take (bytes) % 2 == 0;
  fit->has_corner = take (bytes) % 2 == 0;
  fit->last_corner = take (bytes) % 2 == 0;
}

/* A frame whose numbers are usual ones but for a few. */
static void
take_frame (Bytes *bytes, CavProject *project)
{
  g_autoptr (CavFrameSettings) settings = cav_frame_settings_new ();
  g_autoptr (GError) error = NULL;
  guint n_numbers;
  const CavFrameNumberInfo *numbers = cav_frame_settings_get_numbers (&n_numbers);
  guint changes = take (bytes) % 12;

  settings->start = (CavFrameStart)(take (bytes) % 4);
  settings->sides = CAV_FRAME_SIDES_MIN + (int)(take (bytes) % 10);
  settings->glazing = (CavGlazing)(take (bytes) % 3);
  settings->backing = (CavBacking)(take (bytes) % 5);
  settings->sawn = (CavSawn)(take (bytes) % 2);
  settings->finish = (CavFinish)(take (bytes) % 7);
  settings->floated = take (bytes) % 4 == 0;
  settings->stands_out = take (bytes) % 4 == 0;
  settings->wire = take (bytes) % 2 == 0;
  take_mats (bytes, settings);
  take_dry_fit (bytes, &settings->dry_fit);
  for (guint i = 0; i < changes; i++)
    {
      const CavFrameNumberInfo *number = &numbers[take (bytes) % n_numbers];

      cav_frame_settings_set_number (settings, number,
                                     take_number (bytes, number->minimum, number->maximum));
    }
  if (cav_frame_settings_check (settings, &error))
    cav_project_set_frame_settings (project, settings);
}

static CavBoard *
take_board (Bytes *bytes)
{
  CavBoard *board = cav_board_new ();

  board->count = 1 + (int)(take (bytes) % 5);
  board->length = take_number (bytes, CAV_BOARD_MIN, CAV_BOARD_MAX) + take (bytes) * 12.0;
  board->width = take_number (bytes, CAV_BOARD_MIN, 600.0);
  board->thickness = take_number (bytes, CAV_BOARD_MIN, 120.0);
  board->planed = take (bytes) % 2 == 0;
  board->basis = (CavPriceBasis)(take (bytes) % CAV_N_PRICE_BASES);
  board->price = take (bytes);
  board->end_trim = take (bytes) % 60;
  for (guint i = take (bytes) % 4; i > 0; i--)
    {
      CavBoardSpan span = { .clear = take (bytes) % 4 == 0 };

      span.from = take (bytes) * 10.0;
      span.to = span.from + take (bytes) * 5.0;
      span.low = take (bytes);
      span.high = span.low + take (bytes);
      cav_board_add_span (board, span);
    }
  return board;
}

static void
take_lumber (Bytes *bytes, CavProject *project)
{
  g_autoptr (CavLumber) lumber = cav_lumber_new ();
  guint n_boards = take (bytes) % 4;
  guint n_stock = take (bytes) % 3;

  lumber->frames = 1 + (int)(take (bytes) % 4);
  lumber->order = (CavGrainOrder)(take (bytes) % CAV_N_GRAIN_ORDERS);
  lumber->run_start = (int)(take (bytes) % 4);
  lumber->resaw = take (bytes) % 2 == 0;
  lumber->glue_up = take (bytes) % 2 == 0;
  lumber->square_first = take (bytes) % 2 == 0;
  for (guint i = 0; i < n_boards + n_stock; i++)
    {
      CavBoard *board = take_board (bytes);
      g_autofree char *wrong = cav_board_explain (board);

      if (wrong != NULL)
        cav_board_free (board);
      else
        g_ptr_array_add (i < n_boards ? lumber->boards : lumber->stock, board);
    }
  cav_project_set_lumber (project, lumber);
}

static CavProject *
take_project (Bytes *bytes)
{
  CavProject *project = cav_project_new ();
  g_autoptr (CavShop) shop = take_shop (bytes);
  guint n_cuts = take (bytes) % 10;
  CavBlank blank;

  blank.width = take_number (bytes, CAV_BLANK_MIN, CAV_BLANK_MAX);
  blank.thickness = take_number (bytes, CAV_BLANK_MIN, CAV_BLANK_MAX);
  cav_project_set_blank (project, blank);
  cav_project_set_shop (project, shop);
  cav_project_set_rails (project, 1 + (int)(take (bytes) % 12), 1.0 + take (bytes) * 40.0);
  for (guint i = 0; i < n_cuts && bytes->left > 0; i++)
    {
      g_autoptr (CavCut) cut = take_cut (bytes);

      cav_project_add_cut (project, cut);
    }
  if (take (bytes) % 2 == 1)
    take_frame (bytes, project);
  if (take (bytes) % 2 == 1)
    take_lumber (bytes, project);
  return project;
}

static void
check_written (CavProject *project)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GBytes) written = cav_storage_project_to_bytes (project);
  g_autoptr (CavProject) again = cav_storage_project_from_bytes (written, "again", &error);
  g_autoptr (GBytes) rewritten = NULL;

  g_assert_no_error (error);
  rewritten = cav_storage_project_to_bytes (again);
  g_assert_true (g_bytes_equal (written, rewritten));
}

static void
check_sheets (CavProject *project, const CavPlan *plan, const CavSheetOptions *options)
{
  for (CavSheet sheet = 0; sheet < CAV_N_SHEETS; sheet++)
    {
      g_autoptr (GError) error = NULL;
      g_autoptr (GBytes) pdf = NULL;

      if (!cav_sheet_is_possible (sheet, project, plan))
        continue;
      pdf = cav_sheet_create_pdf (sheet, project, plan, options, &error);
      g_assert_no_error (error);
      g_assert_nonnull (pdf);
    }
}

static void
check_preview (CavProject *project)
{
  g_autoptr (CavPreview) preview = cav_preview_new (
      cav_project_get_frame (project), cav_project_get_profile (project), NULL, NULL, 160, 120);

  if (preview != NULL)
    g_assert_nonnull (cav_preview_shade (preview, 300.0, 40.0));
}

static void
check_drawn (CavProject *project, const CavPlan *plan, guint choice)
{
  CavSheetOptions options = {
    .unit = choice % 2 == 0 ? CAV_UNIT_MM : CAV_UNIT_INCH,
    .denominator = CAV_SHEET_DENOMINATOR,
    .paper = choice / 2 % 2 == 0 ? CAV_PAPER_A4 : CAV_PAPER_LETTER,
    .layout = (CavSheetLayout)(choice / 4 % 3),
  };
  g_autoptr (GError) error = NULL;
  g_autoptr (GBytes) section = cav_section_drawing_create_svg (project, &options, &error);
  g_autoptr (CavCuttingList) list = cav_cutting_list_new (project, plan, &options);
  g_autofree char *text = cav_cutting_list_create_text (list, &options);
  g_autofree char *csv = cav_cutting_list_create_csv (list, &options);

  g_assert_no_error (error);
  g_assert_nonnull (section);
  g_assert_true (g_utf8_validate (text, -1, NULL));
  g_assert_true (g_utf8_validate (csv, -1, NULL));
  check_sheets (project, plan, &options);
  check_preview (project);
}

static void
check_layout (CavProject *project, const CavPlan *plan)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (CavBoardLayout) layout = cav_project_lay_out_boards (project, plan, NULL, &error);

  g_assert_no_error (error);
  g_assert_true (isfinite (layout->totals.yield) && isfinite (layout->totals.cost));
  g_assert_cmpfloat (layout->totals.yield, <=, 1.0 + 1e-9);
}

int
LLVMFuzzerTestOneInput (const guint8 *data, gsize size)
{
  Bytes bytes = { data, size };
  guint choice = take (&bytes);
  g_autoptr (CavProject) project = take_project (&bytes);
  const CavProfile *profile = cav_project_get_profile (project);
  g_autoptr (GPtrArray) findings = NULL;
  g_autoptr (CavPlan) plan = NULL;
  g_autoptr (GError) error = NULL;
  double area = cav_region_get_area (profile->region);
  double waste = cav_region_get_area (cav_profile_get_waste (profile));

  g_assert_true (isfinite (area) && isfinite (waste) && area >= 0 && waste >= 0);
  check_written (project);
  if (cav_profile_is_sound (profile))
    {
      plan = cav_project_plan (project, CAV_EFFORT_QUICK, &error);
      cav_fuzz_check_outcome (plan != NULL, error);
      if (plan != NULL)
        {
          g_assert_cmpfloat (plan->gouge, <=, 0.02);
          g_assert_true (isfinite (plan->minutes) && isfinite (plan->leftover_area));
        }
    }
  findings = cav_project_create_findings (project, plan);
  g_assert_true (findings->len < 1000);
  check_layout (project, plan);
  check_drawn (project, plan, choice);
  return 0;
}
