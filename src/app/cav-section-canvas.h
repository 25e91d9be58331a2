/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <gtk/gtk.h>

#include "app/cav-document.h"
#include "drawing/cav-view.h"

G_BEGIN_DECLS

/*
 * The section of a document's molding at many times its size, to draw on. What the selection has as
 * its kind of cut is drawn; without one the pointer chooses and moves. While the selection has a
 * pass the canvas shows that pass at its machine.
 *
 * Properties: "document". Its commands are the actions "canvas.…".
 */
#define CAV_TYPE_SECTION_CANVAS (cav_section_canvas_get_type ())
G_DECLARE_FINAL_TYPE (CavSectionCanvas, cav_section_canvas, CAV, SECTION_CANVAS, GtkWidget)

GtkWidget *cav_section_canvas_new (CavDocument *document) G_GNUC_WARN_UNUSED_RESULT;

void cav_section_canvas_set_document (CavSectionCanvas *self, CavDocument *document);

/* Where the wood stands, in the widget's pixels. */
CavView cav_section_canvas_get_view (CavSectionCanvas *self);
/* Brings a place of the blank into view, for lists that lead there. */
void cav_section_canvas_show_place (CavSectionCanvas *self, CavPoint place);
/* What the pointer's plate says: the numbers of what is being drawn, or why it cannot be; NULL
 * where there is none. (transfer none) */
const char *cav_section_canvas_get_figure (CavSectionCanvas *self);

G_END_DECLS
