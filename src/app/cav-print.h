/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <gtk/gtk.h>

#include "drawing/cav-drawing.h"

G_BEGIN_DECLS

/* Asks for a printer and prints pages on it, the same as in the PDF. pages (transfer full)
 * CavScene. */
void cav_print_pages (GtkWindow *parent, GPtrArray *pages, const char *name, CavPaper paper);

/* (transfer full) The print job itself, each page on paper of its own size and way; pages (transfer
 * full) CavScene. */
GtkPrintOperation *cav_print_operation_new (GPtrArray *pages,
                                            const char *name,
                                            CavPaper paper) G_GNUC_WARN_UNUSED_RESULT;

/* Remembers printer, quality and paper of an operation for the next one. */
void cav_print_keep (GtkPrintOperation *operation);

G_END_DECLS
