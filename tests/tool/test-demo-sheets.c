/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <locale.h>

#include "../drawing/sheet-checks.h"
#include "storage/cav-storage.h"

/* Every sheet of every demo, in both units, on both papers, in all layouts and languages. */
static void
test_demo (gconstpointer data)
{
  g_autofree char *file = g_build_filename (g_getenv ("CAV_EXAMPLES"), data, NULL);
  g_autoptr (GError) error = NULL;
  g_autoptr (CavProject) project = cav_storage_load_project (file, &error);
  g_autoptr (CavPlan) plan = NULL;
  g_auto (GStrv) languages = sheet_check_list_languages ();

  g_assert_no_error (error);
  plan = cav_project_plan (project, CAV_EFFORT_QUICK, &error);
  g_assert_no_error (error);
  for (guint i = 0; languages[i] != NULL; i++)
    {
      sheet_check_use_language (languages[i]);
      g_test_message ("language \"%s\"", languages[i]);
      for (int unit = CAV_UNIT_MM; unit <= CAV_UNIT_INCH; unit++)
        for (int sheet = 0; sheet < CAV_N_SHEETS; sheet++)
          for (int layout = 0; layout <= CAV_SHEET_LAYOUT_CARDS; layout++)
            {
              const CavSheetOptions options
                  = { .unit = (CavUnit)unit,
                      .denominator = CAV_SHEET_DENOMINATOR,
                      .paper = unit == CAV_UNIT_MM ? CAV_PAPER_A4 : CAV_PAPER_LETTER,
                      .layout = (CavSheetLayout)layout,
                      .date = "2026-01-31" };

              /* The layout is that of the pass sheet. */
              if (layout == CAV_SHEET_LAYOUT_PAGES || sheet == CAV_SHEET_PASSES)
                sheet_check ((CavSheet)sheet, project, plan, &options);
              if (sheet == CAV_SHEET_PASSES)
                sheet_check_cautions (project, plan, &options);
            }
    }
  sheet_check_use_language ("");
}

int
main (int argc, char **argv)
{
  setlocale (LC_ALL, "");
  g_test_init (&argc, &argv, NULL);
  g_test_add_data_func ("/tool/demo-sheets/plain-steps", "plain-steps.cavetto", test_demo);
  g_test_add_data_func ("/tool/demo-sheets/cove-and-bead", "cove-and-bead.cavetto", test_demo);
  g_test_add_data_func ("/tool/demo-sheets/wide-scoop", "wide-scoop.cavetto", test_demo);
  return g_test_run ();
}
