/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "fuzz-target.h"

#include <math.h>

#include "drawing/cav-drawing.h"
#include "storage/cav-storage.h"

/*
 * Bytes become a project: blank, cuts, shop, rails. It is evaluated, written and read back, drawn
 * and planned; whatever plan comes out has been proved and leads to a sheet.
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
check_drawn (CavProject *project, const CavPlan *plan)
{
  CavSheetOptions options = { .unit = CAV_UNIT_MM, .denominator = CAV_SHEET_DENOMINATOR };
  g_autoptr (GError) error = NULL;
  g_autoptr (GBytes) section = cav_section_drawing_create_svg (project, &options, &error);
  g_autoptr (GBytes) sheet = NULL;

  g_assert_no_error (error);
  g_assert_nonnull (section);
  if (plan == NULL)
    return;
  options.unit = CAV_UNIT_INCH;
  sheet = cav_pass_sheet_create_pdf (project, plan, &options, &error);
  g_assert_no_error (error);
  g_assert_nonnull (sheet);
}

int
LLVMFuzzerTestOneInput (const guint8 *data, gsize size)
{
  Bytes bytes = { data, size };
  g_autoptr (CavProject) project = take_project (&bytes);
  const CavProfile *profile = cav_project_get_profile (project);
  g_autoptr (GPtrArray) findings = NULL;
  g_autoptr (CavPlan) plan = NULL;
  g_autoptr (GError) error = NULL;
  double area = cav_region_get_area (profile->region);
  double waste = cav_region_get_area (profile->waste);

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
  check_drawn (project, plan);
  return 0;
}
