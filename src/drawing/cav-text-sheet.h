/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "drawing/cav-drawing.h"
#include "drawing/cav-scene.h"

G_BEGIN_DECLS

/* An upright sheet of headings, sentences with boxes to tick and tables, which goes on over as many
 * pages as it takes. */
typedef struct _CavTextSheet CavTextSheet;

CavTextSheet *cav_text_sheet_new (const char *title,
                                  const char *kind,
                                  const CavSheetOptions *options) G_GNUC_WARN_UNUSED_RESULT;
void cav_text_sheet_free (CavTextSheet *self);

/* Goes to a new page where less than this many lines would fit below. */
void cav_text_sheet_keep (CavTextSheet *self, guint n_lines);
void cav_text_sheet_add_heading (CavTextSheet *self, const char *text);
/* A step with a box to tick, and a sentence without. */
void cav_text_sheet_add_step (CavTextSheet *self, const char *text);
void cav_text_sheet_add_text (CavTextSheet *self, const char *text);

/* How wide a picture below a step is, and room for one of that height: the page that it is on and
 * its upper left corner there. */
double cav_text_sheet_get_picture_width (const CavTextSheet *self);
CavScene *cav_text_sheet_add_picture (CavTextSheet *self, double height, CavPoint *out_corner);

/* One column of a table; shares are of the width. */
typedef struct
{
  const char *heading; /* untranslated, of the context "column" */
  double share;
  gboolean right; /* aligned at its right edge */
} CavTextColumn;

/* A table's row of cells is an array of n_columns texts; NULL: the headings. (nullable) remark goes
 * below the cells. */
void cav_text_sheet_add_row (CavTextSheet *self,
                             const CavTextColumn *columns,
                             guint n_columns,
                             const char *const *cells,
                             const char *remark);
/* A row to write in. */
void cav_text_sheet_add_blank_row (CavTextSheet *self,
                                   const CavTextColumn *columns,
                                   guint n_columns,
                                   const char *first);

/* (transfer full) CavScene, one a page, numbered. */
GPtrArray *cav_text_sheet_finish (CavTextSheet *self) G_GNUC_WARN_UNUSED_RESULT;

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CavTextSheet, cav_text_sheet_free)

G_END_DECLS
