/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "drawing/cav-drawing.h"
#include "drawing/cav-scene.h"

G_BEGIN_DECLS

/* The sheets of a project, in the order in which they are printed together. */
typedef enum
{
  CAV_SHEET_JOB,      /* the whole job in order */
  CAV_SHEET_LIST,     /* cutting list */
  CAV_SHEET_PASSES,   /* pass sheet */
  CAV_SHEET_TEMPLATE, /* at full size */
  CAV_SHEET_DRAWING,  /* for the person it is for */
} CavSheet;
#define CAV_N_SHEETS 5

/* "pass-sheet" and so on, for names of files. */
const char *cav_sheet_get_id (CavSheet sheet);
/* FALSE where that sheet needs something that is missing: a pass sheet a plan, a drawing or a
 * template a sound section. */
gboolean cav_sheet_is_possible (CavSheet sheet, CavProject *project, const CavPlan *plan);

/* (transfer full) (nullable) How rails are cut from the project's boards: that of options, or a new
 * one. NULL where there are no boards. (nullable) plan. */
CavBoardLayout *
cav_sheets_lay_out_boards (CavProject *project,
                           const CavPlan *plan,
                           const CavSheetOptions *options) G_GNUC_WARN_UNUSED_RESULT;

/* (transfer full) CavScene, one a page, each with its own size (mm); what is shown in a window,
 * printed or written is the same. (nullable) plan. Empty where the sheet is not possible. */
GPtrArray *cav_sheet_create_scenes (CavSheet sheet,
                                    CavProject *project,
                                    const CavPlan *plan,
                                    const CavSheetOptions *options) G_GNUC_WARN_UNUSED_RESULT;
/* The same for all possible sheets behind each other, numbered through. */
GPtrArray *cav_sheets_create_scenes (CavProject *project,
                                     const CavPlan *plan,
                                     const CavSheetOptions *options) G_GNUC_WARN_UNUSED_RESULT;
/* All possible sheets behind each other, as one file. */
GBytes *cav_sheets_create_pdf (CavProject *project,
                               const CavPlan *plan,
                               const CavSheetOptions *options,
                               GError **error) G_GNUC_WARN_UNUSED_RESULT;
/* One sheet as a file. */
GBytes *cav_sheet_create_pdf (CavSheet sheet,
                              CavProject *project,
                              const CavPlan *plan,
                              const CavSheetOptions *options,
                              GError **error) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
