/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "app/cav-figure-row.h"

G_BEGIN_DECLS

/* What the files of the class share: text and value in cav-figure-row.c, the hands' other ways in
 * cav-figure-row-input.c. */
typedef struct
{
  /* Template widgets */
  GtkEntry *entry;
  GtkLabel *unit;
  GtkWidget *trouble;
  GtkLabel *message;

  /* Owned */
  char *shown; /* the text that stands for the value */

  /* State */
  double value;
  double minimum;
  double maximum;
  double pending; /* what is typed, where it is valid */
  gboolean mixed;
  gboolean valid;
  gboolean is_filling; /* the text is ours, nobody types */
  gboolean is_entered; /* by a press of the pointer that is not let go of yet */
} CavFigureRowPrivate;

CavFigureRowPrivate *cav_figure_row_get_private (CavFigureRow *self);
/* TRUE where the text is another one than that of the value. */
gboolean cav_figure_row_is_pending (CavFigureRow *self);
/* Enters a value so many steps away from what is typed, or from the value; fine: small ones. */
void cav_figure_row_step (CavFigureRow *self, double steps, gboolean fine);
/* Goes back to the value; FALSE where nothing had been typed. */
gboolean cav_figure_row_give_up (CavFigureRow *self);

/* Binds the callbacks of keys, wheel and pointer by the names that the template has for them. */
void cav_figure_row_bind_input (GtkWidgetClass *widget_class);

G_END_DECLS
