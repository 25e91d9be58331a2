/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "drawing/cav-end-grain.h"
#include "drawing/cav-pass-words.h"
#include "drawing/cav-scene.h"
#include "drawing/cav-sheet-private.h"

G_BEGIN_DECLS

/* The pass sheet: setups down the page, each a card at the left and its passes in rows of panels
 * beside it. Millimetres. */
#define CAV_PASS_SHEET_MARGIN 8.0
#define CAV_PASS_SHEET_CARD 54.0
#define CAV_PASS_SHEET_GUTTER 3.0
#define CAV_PASS_SHEET_COLUMNS 2u
#define CAV_PASS_SHEET_PICTURE 44.0 /* height of a picture, at least */
#define CAV_PASS_SHEET_STRETCH 24.0 /* how much higher it may become where there is room */

typedef struct
{
  CavProject *project;
  const CavPlan *plan;
  const CavSheetOptions *options;
  CavLettering *lettering;
  CavEndMark mark;
  double width; /* of the paper */
  double height;
  double panel_width;
  double figure_width; /* of the column of large figures in a panel */
  double head_height;  /* of the first page */
  double foot_height;
  GPtrArray *foot; /* its lines */
} CavPassSheet;

/* Setup and its first pass in a row of panels. */
typedef struct
{
  guint setup;
  guint first;   /* pass within the setup */
  guint count;   /* of panels */
  guint number;  /* of the first pass on the whole sheet, from 1 */
  double height; /* with pictures of the least height */
} CavPanelRow;

/* Widest large figure of the plan. */
double cav_pass_panel_measure_figures (const CavPassSheet *sheet);
/* Works out the height of a row. */
void cav_pass_panel_measure_row (const CavPassSheet *sheet, CavPanelRow *row);
/* Draws the panels of a row with its upper left corner at a point. */
void cav_pass_panel_draw_row (const CavPassSheet *sheet,
                              CavScene *scene,
                              const CavPanelRow *row,
                              CavPoint corner,
                              double height);
/* The card of a setup, in the same row. */
void cav_pass_panel_draw_card (const CavPassSheet *sheet,
                               CavScene *scene,
                               const CavPanelRow *row,
                               CavPoint corner,
                               double height);

/* Head and foot of a page; the first page's head holds what to prepare. */
void cav_pass_sheet_measure (CavPassSheet *sheet);
double cav_pass_sheet_get_head_height (const CavPassSheet *sheet, gboolean first);
void cav_pass_sheet_draw_head (const CavPassSheet *sheet, CavScene *scene, gboolean first);
void
cav_pass_sheet_draw_foot (const CavPassSheet *sheet, CavScene *scene, guint page, guint n_pages);

G_END_DECLS
