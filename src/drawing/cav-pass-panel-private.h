/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "drawing/cav-pass-sheet-private.h"

G_BEGIN_DECLS

/* Within a panel of the pass sheet, mm. */
#define CAV_PANEL_PAD 2.0
#define CAV_PANEL_HEADER 13.8
#define CAV_PANEL_TOP 1.8   /* over figures and words of a wide panel */
#define CAV_PANEL_BADGE 9.5 /* height of the number, and its width where it is short */
#define CAV_PANEL_TICKS 8.0 /* down to below the boxes to tick */
#define CAV_PANEL_TICK 4.4  /* a box */
#define CAV_PANEL_TICK_STEP 5.6
#define CAV_PANEL_TICKS_IN_ROW 4
#define CAV_PANEL_CHANGE 1.4 /* over the lines that say what changes */
#define CAV_PANEL_SIDE 4.0   /* height of the words for the sides and for what changes */
#define CAV_PANEL_SIDE_LINE (CAV_PANEL_SIDE * 1.6)
#define CAV_PANEL_LINE (CAV_LETTER_SMALL * CAV_LETTER_LEADING)
#define CAV_PANEL_SIGN 4.6 /* width of the sign before a caution */
/* Of a large figure: its label above, in which fonts have room for accents. */
#define CAV_PANEL_LABEL(figure) (CAV_LETTER_SMALL + 1.5 + 0.28 * (figure))

/* How a panel is divided. A narrow one has its words under picture and figures, a wide one has
 * picture, figures and words beside each other where that is lower. */
typedef struct
{
  double header;        /* height */
  double body;          /* height of picture and figures */
  double below;         /* height of the words under them, or the margin there */
  double picture_width; /* of a wide panel */
  double zone_width;    /* there: of the picture with the header over it */
  double words_top;     /* there: below the panel's top */
  double figures_width;
  double fixed_width; /* there: of the setting that stays, beside a ladder */
  double figures_height;
  double words_width;
  gboolean wide;
  gboolean words_beside;  /* in a wide panel */
  gboolean figures_below; /* the picture, not beside it */
  gboolean in_row;        /* there: fence and height beside each other */
  gboolean ladder_below;  /* the setting that stays */
  guint columns;          /* of a ladder */
} CavPanelShape;

double cav_panel_get_badge_width (const CavPassGroup *group);
/* height 0: as low as it can be; below: of the words of a narrow one, at least, where there is
 * room. */
CavPanelShape cav_panel_shape_find (const CavPassSheet *sheet,
                                    const CavPassGroup *group,
                                    double width,
                                    double height,
                                    double below);
/* Height of a large figure with its label. */
double cav_panel_get_block_height (const CavPassSheet *sheet);
/* Of the setting that stays while a ladder climbs, with the lines below it. */
double cav_panel_get_fixed_height (const CavPassSheet *sheet, const CavPassGroup *group);
/* (transfer full) What stands over a large figure, with a sign where that was rounded; and under
 * it: how deep, and at which height it holds. */
char *cav_panel_dup_label (const CavPassSheet *sheet,
                           const char *label,
                           double mm) G_GNUC_WARN_UNUSED_RESULT;
char *cav_panel_dup_bite (const CavPassSheet *sheet,
                          const CavPassGroup *group) G_GNUC_WARN_UNUSED_RESULT;
char *cav_panel_dup_at (const CavPassSheet *sheet,
                        const CavPassGroup *group) G_GNUC_WARN_UNUSED_RESULT;
/* (transfer container) CavPass of a group. */
GPtrArray *cav_panel_create_passes (const CavPassSheet *sheet, const CavPassGroup *group);

/* (transfer full) The words of a panel in lines: what changes, what a trial cut measures, and the
 * cautions, of which the lines that begin one are noted in (nullable) starts. */
GPtrArray *
cav_panel_wrap_changes (const CavPassSheet *sheet, const CavPassGroup *group, double width);
GPtrArray *cav_panel_wrap_hint (const CavPassSheet *sheet, const CavPassGroup *group, double width);
GPtrArray *cav_panel_wrap_cautions (const CavPassSheet *sheet,
                                    const CavPassGroup *group,
                                    double width,
                                    GArray *starts);
/* Width that what changes needs, so that no word of it is cut. */
double cav_panel_get_longest_word (const CavPassSheet *sheet, const CavPassGroup *group);
/* Height of all these words. */
double cav_panel_measure_words (const CavPassSheet *sheet, const CavPassGroup *group, double width);

G_END_DECLS
