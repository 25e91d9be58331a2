/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <gtk/gtk.h>

#include "frame/cav-frame-settings.h"

G_BEGIN_DECLS

/* What a row sets. Numbers by their name in the settings, the others one by one. */
typedef enum
{
  CAV_FRAME_ROW_NUMBER,
  CAV_FRAME_ROW_START,
  CAV_FRAME_ROW_STOCK,
  CAV_FRAME_ROW_LANDSCAPE,
  CAV_FRAME_ROW_SIDES,
  CAV_FRAME_ROW_MATS,
  CAV_FRAME_ROW_PLY, /* of the mat whose thickness the row's number is */
  CAV_FRAME_ROW_BORDERS,
  CAV_FRAME_ROW_GLAZING,
  CAV_FRAME_ROW_BACKING,
  CAV_FRAME_ROW_SAWN,
  CAV_FRAME_ROW_FINISH,
  CAV_FRAME_ROW_COATS,
  CAV_FRAME_ROW_HANGERS,
  CAV_FRAME_ROW_FLOATED,
  CAV_FRAME_ROW_BEVELLED,
  CAV_FRAME_ROW_STANDS_OUT,
  CAV_FRAME_ROW_WIRE,
  CAV_FRAME_ROW_REFLECTION,
} CavFrameRowKind;

/* The rows that number and choose, from top to bottom. */
typedef struct
{
  const char *group; /* NULL: goes on with the group before */
  CavFrameRowKind kind;
  const char *number; /* of CAV_FRAME_ROW_NUMBER and CAV_FRAME_ROW_PLY */
  const char *title;  /* untranslated, as group is */
} CavFrameRow;

/* How the mat's borders hang together. */
typedef enum
{
  CAV_BORDERS_EQUAL,
  CAV_BORDERS_WEIGHTED, /* the lower one is wider */
  CAV_BORDERS_EACH,
} CavBorderKind;

const CavFrameRow *cav_frame_rows_get (guint *out_n_rows);
/* The number of the settings that is called so; there has to be one. */
const CavFrameNumberInfo *cav_frame_rows_find_number (const char *name);

/* What the borders are by their numbers. */
CavBorderKind cav_frame_rows_get_borders (const CavFrameSettings *settings);
/* The left border, and with it those that go with it; the lower one no further than it may be. */
void cav_frame_rows_set_border (CavFrameSettings *settings, CavBorderKind borders, double border);
/* Rows that mean nothing now are not shown; borders: as they are edited. */
gboolean cav_frame_row_is_shown (const CavFrameSettings *settings,
                                 CavBorderKind borders,
                                 const CavFrameRow *row);
/* (transfer none) translated; that of the left border says which borders it stands for. */
const char *cav_frame_row_get_title (const CavFrameRow *row, CavBorderKind borders);
/* The row in which that can be put right which a finding of this code speaks of; -1 where no row
 * that is shown does it. */
int cav_frame_rows_find_for (const CavFrameSettings *settings, const char *code);

/* By the row's kind; of a kind that is none the last one's is given. */
int cav_frame_row_get_count (const CavFrameSettings *settings, CavFrameRowKind kind);
void cav_frame_row_set_count (CavFrameSettings *settings, CavFrameRowKind kind, int value);
gboolean cav_frame_row_get_switch (const CavFrameSettings *settings, CavFrameRowKind kind);
void cav_frame_row_set_switch (CavFrameSettings *settings, CavFrameRowKind kind, gboolean value);
guint cav_frame_row_get_choice (const CavFrameSettings *settings, const CavFrameRow *row);
/* Another sheet brings its own weight, and a board its usual thickness. */
void cav_frame_row_set_choice (CavFrameSettings *settings, const CavFrameRow *row, guint choice);
/* (transfer full) What can be chosen, in the order of the choices. */
GtkStringList *cav_frame_row_create_names (CavFrameRowKind kind) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
