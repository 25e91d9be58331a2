/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <gtk/gtk.h>

#include "drawing/cav-drawing.h"

G_BEGIN_DECLS

/* Begins to ask which printers there are, so that the dialog can begin with one: the user's own, or
 * the one that writes files where there is none. */
void cav_print_look_around (void);

/* text says what became of it. */
typedef void (*CavPrintTold) (GtkWindow *parent, const char *text);

/* Asks for a printer and prints pages on it, the same as in the PDF; told is called when they are
 * there. A file that is printed to is called by the name. pages (transfer full) CavScene. */
void cav_print_pages (
    GtkWindow *parent, GPtrArray *pages, const char *name, CavPaper paper, CavPrintTold told);

/* (transfer full) The print job itself, each page on paper of its own size and way; pages (transfer
 * full) CavScene. */
GtkPrintOperation *cav_print_operation_new (GPtrArray *pages,
                                            const char *name,
                                            CavPaper paper) G_GNUC_WARN_UNUSED_RESULT;

/* (transfer full) One sentence for the window: where the pages have gone. */
char *cav_print_create_words (GtkPrintOperation *operation) G_GNUC_WARN_UNUSED_RESULT;

/* Remembers printer, quality and paper of an operation for the next one. */
void cav_print_keep (GtkPrintOperation *operation);

G_END_DECLS
