/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <adwaita.h>

#include "app/cav-document-panel.h"

G_BEGIN_DECLS

/* How a document's rails are sawn: frames, order of the grain, allowances, thick and thin boards.
 * Every change is a step of the history. Property "document". */
#define CAV_TYPE_SAWING_PANEL (cav_sawing_panel_get_type ())
G_DECLARE_FINAL_TYPE (CavSawingPanel, cav_sawing_panel, CAV, SAWING_PANEL, CavDocumentPanel)

/* Gives the focus to the row in which that can be put right which a finding of this code speaks
 * of; FALSE where there is none. */
gboolean cav_sawing_panel_show_finding (CavSawingPanel *self, const char *code);

G_END_DECLS
