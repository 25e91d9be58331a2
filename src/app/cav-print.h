/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <gtk/gtk.h>

#include "drawing/cav-drawing.h"

G_BEGIN_DECLS

/* Asks for a printer and prints the pass sheet on it, the same pages as in the PDF. */
void cav_print_pass_sheet (GtkWindow *parent,
                           CavProject *project,
                           const CavPlan *plan,
                           const CavSheetOptions *options);

/* (transfer full) The print job itself; pages (transfer full) CavScene. */
GtkPrintOperation *cav_print_operation_new (GPtrArray *pages,
                                            const char *name,
                                            CavPaper paper) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
