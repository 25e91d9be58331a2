/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <glib-object.h>

G_BEGIN_DECLS

/*
 * What is chosen in a window: some cuts of the project, by index, at most one pass of the plan, and
 * the kind of cut that the next stroke on the canvas makes. Palette, canvas, side column and strip
 * share one. Choosing a pass leaves the cuts as they are.
 *
 * Emits "cuts-changed" when the set of cuts is another than before, and notifies of "pass",
 * "progress", "playing" and "kind".
 */
#define CAV_TYPE_SELECTION (cav_selection_get_type ())
G_DECLARE_FINAL_TYPE (CavSelection, cav_selection, CAV, SELECTION, GObject)

/* No pass is chosen. */
#define CAV_NO_PASS (-1)
/* No cut is being drawn: the pointer chooses and moves. */
#define CAV_NO_KIND (-1)

CavSelection *cav_selection_new (void) G_GNUC_WARN_UNUSED_RESULT;

guint cav_selection_get_cut_count (CavSelection *self);
/* The nth chosen cut's index in the project, in rising order. */
guint cav_selection_get_cut (CavSelection *self, guint nth);
gboolean cav_selection_has_cut (CavSelection *self, guint index);
/* Whether exactly one cut is chosen, and which. */
gboolean cav_selection_get_single_cut (CavSelection *self, guint *out_index);

/* In any order, without repetition. */
void cav_selection_set_cuts (CavSelection *self, const guint *indices, guint n_indices);
/* This cut alone. */
void cav_selection_choose_cut (CavSelection *self, guint index);
void cav_selection_toggle_cut (CavSelection *self, guint index);
void cav_selection_clear_cuts (CavSelection *self);
/* Forgets cuts from count on, which the project no longer has. */
void cav_selection_limit_cuts (CavSelection *self, guint count);

/* Counted through the plan's setups from 0; CAV_NO_PASS is none. */
int cav_selection_get_pass (CavSelection *self);
void cav_selection_set_pass (CavSelection *self, int pass);
/* How much of the chosen pass is milled, 0 to 1; 1 unless the milling is being played. */
double cav_selection_get_progress (CavSelection *self);
void cav_selection_set_progress (CavSelection *self, double progress);
/* Whether the milling is being played, pass after pass. */
gboolean cav_selection_is_playing (CavSelection *self);
void cav_selection_set_playing (CavSelection *self, gboolean is_playing);

/* A CavCutKind, or CAV_NO_KIND. A kind that is chosen ends the look at a pass. */
int cav_selection_get_kind (CavSelection *self);
void cav_selection_set_kind (CavSelection *self, int kind);

G_END_DECLS
