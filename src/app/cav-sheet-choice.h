/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "drawing/cav-sheets.h"

G_BEGIN_DECLS

/* The sheets as they are chosen in menus: a CavSheet, or all of them together. */
#define CAV_ALL_SHEETS CAV_N_SHEETS
#define CAV_N_SHEET_CHOICES (CAV_N_SHEETS + 1)

typedef struct
{
  const char *id; /* what its actions and settings call it */
  /* Untranslated: */
  const char *title;
  const char *file_word; /* at the end of a proposed file name */
  const char *question;  /* over the choice of a file */
  gboolean needs_plan;   /* the others tell what is known without one */
} CavSheetChoice;

const CavSheetChoice *cav_sheet_choice_get (int sheet);
/* The one with that id; the pass sheet for an unknown one. */
int cav_sheet_choice_find (const char *id);

/* (transfer full) What a file with that sheet is called, without its ending; name is the project's.
 */
char *cav_sheet_choice_create_file_name (int sheet, const char *name) G_GNUC_WARN_UNUSED_RESULT;

/* How sheets are drawn by the settings: unit, paper, layout. */
CavSheetOptions cav_sheet_choice_get_options (void);
/* (transfer full) CavScene, one a page; empty where the sheet is not possible. (nullable) plan. */
GPtrArray *cav_sheet_choice_create_pages (int sheet,
                                          CavProject *project,
                                          const CavPlan *plan,
                                          const CavSheetOptions *options) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
