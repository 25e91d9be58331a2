/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-sheet-choice.h"

#include "app/cav-settings.h"

#include <glib/gi18n.h>

static const CavSheetChoice choices[CAV_N_SHEET_CHOICES] = {
  [CAV_SHEET_JOB]
  = { "job-sheet", N_ ("Job sheet"), N_ ("job sheet"), N_ ("Save the job sheet"), FALSE },
  [CAV_SHEET_LIST] = { "cutting-list", N_ ("Cutting list"), N_ ("cutting list"),
                       N_ ("Save the cutting list"), FALSE },
  [CAV_SHEET_PASSES]
  = { "pass-sheet", N_ ("Pass sheet"), N_ ("passes"), N_ ("Save the pass sheet"), TRUE },
  [CAV_SHEET_TEMPLATE]
  = { "template", N_ ("Template"), N_ ("template"), N_ ("Save the template"), FALSE },
  [CAV_SHEET_DRAWING]
  = { "drawing", N_ ("Drawing"), N_ ("drawing"), N_ ("Save the drawing"), FALSE },
  [CAV_ALL_SHEETS]
  = { "all-sheets", N_ ("All sheets"), N_ ("sheets"), N_ ("Save all sheets"), TRUE },
};

const CavSheetChoice *
cav_sheet_choice_get (int sheet)
{
  g_return_val_if_fail (sheet >= 0 && sheet < CAV_N_SHEET_CHOICES, &choices[CAV_SHEET_PASSES]);

  return &choices[sheet];
}

int
cav_sheet_choice_find (const char *id)
{
  for (int i = 0; i < CAV_N_SHEET_CHOICES; i++)
    if (g_str_equal (choices[i].id, id))
      return i;
  return CAV_SHEET_PASSES;
}

char *
cav_sheet_choice_create_file_name (int sheet, const char *name)
{
  g_return_val_if_fail (name != NULL, NULL);

  return g_strdup_printf ("%s %s", name, _ (cav_sheet_choice_get (sheet)->file_word));
}

CavSheetOptions
cav_sheet_choice_get_options (void)
{
  CavLengthStyle style = cav_settings_get_length_style ();

  return (CavSheetOptions){ .unit = style.unit,
                            .denominator = style.denominator,
                            .paper = cav_settings_get_paper (),
                            .layout = (CavSheetLayout)g_settings_get_enum (
                                cav_settings_get (), CAV_SETTING_SHEET_LAYOUT) };
}

GPtrArray *
cav_sheet_choice_create_pages (int sheet,
                               CavProject *project,
                               const CavPlan *plan,
                               const CavSheetOptions *options)
{
  if (sheet == CAV_ALL_SHEETS)
    return cav_sheets_create_scenes (project, plan, options);
  return cav_sheet_create_scenes ((CavSheet)sheet, project, plan, options);
}
