/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "app/cav-cut-place.h"
#include "app/cav-document.h"
#include "project/cav-arrange.h"

G_BEGIN_DECLS

/* What can be done to the chosen cuts of a document together; each is one step, and does nothing
 * where no cut is chosen. */

/* (transfer full) guint, indices of the chosen cuts, rising. */
GArray *cav_cut_edit_get_chosen (CavDocument *document) G_GNUC_WARN_UNUSED_RESULT;
/* (transfer full) Copies of the chosen cuts, CavCut, in the order of their indices. */
GPtrArray *cav_cut_edit_copy_chosen (CavDocument *document) G_GNUC_WARN_UNUSED_RESULT;
/* In place of the chosen ones, as many and in the same order. name is the step's. */
void cav_cut_edit_replace_chosen (CavDocument *document, const GPtrArray *cuts, const char *name);
/* One number of the cuts with these indices. Nothing is done where the project has others there by
 * now than cuts: whoever typed the number meant those. */
void cav_cut_edit_set_number (CavDocument *document,
                              const GArray *indices,
                              const GPtrArray *cuts,
                              CavCutNumber number,
                              double value);
/* Where the one chosen cut is anchored, and its form; its kind has to know them. */
void cav_cut_edit_set_place (CavDocument *document, const CavCutPlace *place);
void cav_cut_edit_set_form (CavDocument *document, CavCutForm form);
void cav_cut_edit_delete (CavDocument *document);
void cav_cut_edit_mirror (CavDocument *document, CavMirror mirror);
void cav_cut_edit_align (CavDocument *document, CavAlignment align);

G_END_DECLS
