/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "drawing/cav-end-grain.h"
#include "drawing/cav-pass-group.h"
#include "drawing/cav-pass-words.h"
#include "drawing/cav-scene.h"
#include "drawing/cav-sheet-private.h"

G_BEGIN_DECLS

/* The pass sheet: setups down the page, each a card at the left and its panels in rows beside it.
 * Millimetres. */
#define CAV_PASS_SHEET_MARGIN 8.0
#define CAV_PASS_SHEET_CARD 54.0
#define CAV_PASS_SHEET_GUTTER 3.0
#define CAV_PASS_SHEET_COLUMNS 2u
#define CAV_PASS_ROW_GAP 2.5
#define CAV_PASS_SHEET_PICTURE 44.0 /* height of a picture and its figures, at least */
#define CAV_PASS_SHEET_STRETCH 24.0 /* how much higher it may become where there is room */

/* What all layouts of the pass sheet share. */
typedef struct
{
  CavProject *project;
  const CavPlan *plan;
  const CavSheetOptions *options;
  CavLettering *lettering;
  CavEndMark mark;
  GArray *groups; /* CavPassGroup, of the whole plan */
  int n_pieces;   /* that go past the tools, with a box to tick for each */
  double width;   /* of the paper */
  double height;
  double room;   /* height that a page has for rows; 0 where there is no end of it */
  guint columns; /* of panels beside each other, at most */
  double panel_width;
  gboolean roomy;      /* height costs nothing */
  gboolean terse;      /* panels would be higher than a page: cautions stand among the notes */
  double figure;       /* height of the large figures */
  double figure_width; /* of the widest of them */
  double head_height;  /* of the first page */
  double foot_height;
  GPtrArray *foot;  /* its lines */
  GPtrArray *notes; /* CavPassNote */
} CavPassSheet;

/* A line of the notes at the end: words of a label in bold, or text beside it. */
typedef struct
{
  char *label; /* (nullable) */
  char *text;
} CavPassNote;

/* Groups beside each other; one alone is as wide as the row. */
typedef struct
{
  guint first; /* of the groups */
  guint count;
  gboolean begins; /* a setup */
  double height;   /* with pictures of the least height */
  double width;    /* of each panel */
  double below;    /* height of the most words under figures */
} CavPanelRow;

/* Begins a sheet for panels of a width; what belongs to pages is left to their layout. */
void cav_pass_sheet_init (CavPassSheet *sheet,
                          CavProject *project,
                          const CavPlan *plan,
                          const CavSheetOptions *options,
                          double panel_width);
void cav_pass_sheet_clear (CavPassSheet *sheet);
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (CavPassSheet, cav_pass_sheet_clear)
const CavPassGroup *cav_pass_sheet_get_group (const CavPassSheet *sheet, guint index);
const CavSetup *cav_pass_sheet_get_setup (const CavPassSheet *sheet, const CavPassGroup *group);

/* First group behind those of the setup that a group belongs to. */
guint cav_pass_sheet_find_setup_end (const CavPassSheet *sheet, guint first);

/* Rows of panels: their width, and (transfer full) CavPanelRow of the setup that begins with a
 * group, together as low as they can be. */
double cav_pass_rows_get_width (const CavPassSheet *sheet);
GArray *cav_pass_rows_create (const CavPassSheet *sheet, guint first) G_GNUC_WARN_UNUSED_RESULT;
/* Height of the card of the setup that begins with a group. */
double cav_pass_rows_get_card_height (const CavPassSheet *sheet, guint first, gboolean continued);
/* The card stands beside all rows of its setup, which are stretched where it is higher. Returns the
 * height of the whole. */
double cav_pass_rows_fit_card (const CavPassSheet *sheet, GArray *rows);

/* A panel: height that it needs at a width, and its drawing, with the words of a narrow one at
 * least so high (below) where there is room. */
double cav_pass_panel_measure (const CavPassSheet *sheet, const CavPassGroup *group, double width);
void cav_pass_panel_draw (const CavPassSheet *sheet,
                          CavScene *scene,
                          const CavPassGroup *group,
                          CavBox box,
                          double below);
/* Height of the words below a narrow one. */
double
cav_pass_panel_measure_below (const CavPassSheet *sheet, const CavPassGroup *group, double width);
/* Height for figures whose widest still fits in half a panel. */
void cav_pass_panel_fit_figures (CavPassSheet *sheet);

/* The settings of a ladder, each behind the number of its pass, row by row. */
double
cav_pass_ladder_measure (const CavPassSheet *sheet, const CavPassGroup *group, guint columns);
double
cav_pass_ladder_get_width (const CavPassSheet *sheet, const CavPassGroup *group, guint columns);
/* (transfer full) (nullable) That a box stands for all pieces, where they are many. */
char *cav_pass_ladder_dup_boxes (const CavPassSheet *sheet,
                                 const CavPassGroup *group) G_GNUC_WARN_UNUSED_RESULT;
/* TRUE where a ladder is so long that its panel takes a row to itself. */
gboolean cav_pass_ladder_is_long (const CavPassGroup *group);
/* TRUE where the fence stays and its figure does not. */
gboolean cav_pass_ladder_turns (const CavPassSheet *sheet, const CavPassGroup *group);
void cav_pass_ladder_draw (const CavPassSheet *sheet,
                           CavScene *scene,
                           const CavPassGroup *group,
                           CavPoint corner,
                           guint columns);
/* A figure, and whether something was rounded away, which goes to its label. */
char *cav_pass_sheet_format_figure (const CavPassSheet *sheet, double mm, gboolean *out_about);

/* The card of a setup; continued: not its beginning. wide: words at the left, plan view beside. */
double
cav_pass_card_measure (const CavPassSheet *sheet, guint setup, double width, gboolean continued);
void cav_pass_card_draw (
    const CavPassSheet *sheet, CavScene *scene, guint setup, CavBox box, gboolean continued);

/* What the head says. */
typedef struct
{
  const char *label;
  char *text; /* owned */
} CavHeadItem;
#define CAV_HEAD_ITEMS 6
void cav_pass_sheet_fill_head (const CavPassSheet *sheet, CavHeadItem *items);
void cav_pass_sheet_clear_head (CavHeadItem *items);

/* Head and foot of a page; the first page's head holds what to prepare. */
void cav_pass_sheet_measure (CavPassSheet *sheet);
double cav_pass_sheet_get_head_height (const CavPassSheet *sheet, gboolean first);
void cav_pass_sheet_draw_head (const CavPassSheet *sheet, CavScene *scene, gboolean first);
void
cav_pass_sheet_draw_foot (const CavPassSheet *sheet, CavScene *scene, guint page, guint n_pages);

/* Notes: what is left by hand, what is worth a look, cautions in full. */
#define CAV_PASS_NOTE_LABEL 40.0
#define CAV_PASS_NOTE_PICTURE 62.0 /* width of the picture of what is left by hand */
#define CAV_PASS_NOTE_PICTURE_HEIGHT 40.0
gboolean cav_pass_notes_has_picture (const CavPassSheet *sheet);
void cav_pass_notes_collect (CavPassSheet *sheet, double width, gboolean label_above);
void cav_pass_notes_draw_picture (const CavPassSheet *sheet, CavScene *scene, CavBox box);

/* Text wrapped into lines under each other, the first with its baseline at point; returns the
 * baseline of the last. Without a scene it only measures. */
double cav_pass_sheet_write (const CavPassSheet *sheet,
                             CavScene *scene,
                             const char *text,
                             CavPoint point,
                             const CavTextStyle *style,
                             double width,
                             guint max_lines);

/* (transfer full) CavScene, one a page. */
GPtrArray *cav_pass_strip_create_scenes (CavProject *project,
                                         const CavPlan *plan,
                                         const CavSheetOptions *options) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
