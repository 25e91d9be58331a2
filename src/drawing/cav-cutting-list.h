/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "boards/cav-board-layout.h"
#include "drawing/cav-drawing.h"

G_BEGIN_DECLS

/* What an item of the cutting list is for. */
typedef enum
{
  CAV_LIST_BLANKS, /* that rails are milled in */
  CAV_LIST_RAILS,
  CAV_LIST_SPARE,
  CAV_LIST_GLAZING,
  CAV_LIST_MAT,
  CAV_LIST_SPACER,
  CAV_LIST_BACKING,
  CAV_LIST_POINTS,
  CAV_LIST_HANGERS,
  CAV_LIST_BOARDS, /* to saw from, or to buy */
} CavListKind;

/* One line of the list. What is not known, or not measured, is 0. */
typedef struct
{
  CavListKind kind;
  char *what;
  char *material;
  int count;
  double length; /* mm */
  double width;
  double thickness;
  double weight; /* kg, of all of them */
  double cost;   /* of all of them, in the currency of whoever gave a price */
  char *note;
} CavListItem;

typedef struct
{
  GPtrArray *items; /* CavListItem */
  double weight;    /* of all that is known, kg */
  double cost;
} CavCuttingList;

/* (transfer full) From a project and its (nullable) plan: rails, spare piece, and where a frame was
 * set and is possible, all of its package. options say in which unit notes are. */
CavCuttingList *cav_cutting_list_new (CavProject *project,
                                      const CavPlan *plan,
                                      const CavSheetOptions *options) G_GNUC_WARN_UNUSED_RESULT;
void cav_cutting_list_free (CavCuttingList *list);
/* (transfer none) item is copied and its weight and cost added up. */
void cav_cutting_list_add (CavCuttingList *list, const CavListItem *item);

/* The boards that a layout opens, one line for each row of the list of boards. */
void cav_cutting_list_add_boards (CavCuttingList *list, const CavBoardLayout *layout);

/* (transfer full) As a table of text; as CSV by RFC 4180, figures with a point in the unit, no cell
 * that a spreadsheet would take for a formula. */
char *cav_cutting_list_create_text (const CavCuttingList *list,
                                    const CavSheetOptions *options) G_GNUC_WARN_UNUSED_RESULT;
char *cav_cutting_list_create_csv (const CavCuttingList *list,
                                   const CavSheetOptions *options) G_GNUC_WARN_UNUSED_RESULT;
/* (transfer full) CavScene, one a page. */
GPtrArray *
cav_cutting_list_create_scenes (const CavCuttingList *list,
                                CavProject *project,
                                const CavSheetOptions *options) G_GNUC_WARN_UNUSED_RESULT;

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CavCuttingList, cav_cutting_list_free)

G_END_DECLS
