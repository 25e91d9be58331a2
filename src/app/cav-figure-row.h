/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <adwaita.h>

G_BEGIN_DECLS

/*
 * A row with one number: its name, an entry, its unit, and below them a sentence while the text
 * cannot be taken. What is typed is looked at with every key and takes effect with Return or when
 * the entry is left; Escape goes back to the value. Up and Down, and the wheel while the entry has
 * the focus, step; with Shift by a tenth. What a number looks like is the subclass's.
 *
 * Emits
 *   "applied" (double value)  when somebody has entered another value, after it is the property
 *   "typed" (double value)    while a value is being typed, whenever it could be taken
 * Neither comes from cav_figure_row_set_value().
 */
#define CAV_TYPE_FIGURE_ROW (cav_figure_row_get_type ())
G_DECLARE_DERIVABLE_TYPE (CavFigureRow, cav_figure_row, CAV, FIGURE_ROW, AdwPreferencesRow)

struct _CavFigureRowClass
{
  AdwPreferencesRowClass parent_class;

  /* A sentence in error where the text is not a number of this kind. */
  gboolean (*parse) (CavFigureRow *self, const char *text, double *out_value, GError **error);
  /* (transfer full) As it stands in the entry. */
  char *(*format) (CavFigureRow *self, double value);
  /* (transfer full) As it stands in a sentence, with its unit. */
  char *(*format_with_unit) (CavFigureRow *self, double value);
  /* Behind the entry; "" where there is nothing to say. */
  const char *(*get_unit) (CavFigureRow *self);
  /* What Up and Down add; fine: with Shift. */
  double (*get_step) (CavFigureRow *self, gboolean fine);
};

double cav_figure_row_get_value (CavFigureRow *self);
/* What is being typed, where it can be taken; else the value. */
double cav_figure_row_get_typed (CavFigureRow *self);
/* Clears what was being typed where the value is another one than before. */
void cav_figure_row_set_value (CavFigureRow *self, double value);
/* What may be entered, both ends included. */
void cav_figure_row_set_range (CavFigureRow *self, double minimum, double maximum);
/* Stands for several values that differ: shows a word instead of a figure, until one is entered
 * for all. cav_figure_row_set_value() ends it. */
void cav_figure_row_set_mixed (CavFigureRow *self);
gboolean cav_figure_row_is_mixed (CavFigureRow *self);
/* FALSE while what is typed cannot be taken. */
gboolean cav_figure_row_is_valid (CavFigureRow *self);
/* Takes what is typed, as Return does; FALSE where it cannot be taken. */
gboolean cav_figure_row_apply (CavFigureRow *self);
/* Shows a sentence from elsewhere below the row until something else is typed; NULL takes it off.
 */
void cav_figure_row_set_message (CavFigureRow *self, const char *message);
/* (nullable) The sentence that is shown. */
const char *cav_figure_row_get_message (CavFigureRow *self);
/* For tests: the editable. (transfer none) */
GtkEditable *cav_figure_row_get_editable (CavFigureRow *self);

/* For subclasses: the way to show values has changed. */
void cav_figure_row_refresh (CavFigureRow *self);

G_END_DECLS
