/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <adwaita.h>

#include "app/cav-document-panel.h"

G_BEGIN_DECLS

/* The other projects whose rails come from a document's boards: copies, which are read again from
 * their files only when that is asked for. Every change is a step of the history. Property
 * "document". */
#define CAV_TYPE_JOINED_PANEL (cav_joined_panel_get_type ())
G_DECLARE_FINAL_TYPE (CavJoinedPanel, cav_joined_panel, CAV, JOINED_PANEL, CavDocumentPanel)

/* Reads a project's file and adds what it asks of boards. */
void cav_joined_panel_join (CavJoinedPanel *self, GFile *file);
/* Reads the file of one of them again. */
void cav_joined_panel_refresh (CavJoinedPanel *self, guint index);
/* Opens a row and gives it the focus; FALSE where there is none. */
gboolean cav_joined_panel_show_row (CavJoinedPanel *self, int row);

G_END_DECLS
