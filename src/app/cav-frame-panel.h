/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <adwaita.h>

#include "app/cav-document-panel.h"

G_BEGIN_DECLS

/* The settings of the frame as rows, each change a step that can be undone. Property "document". */
#define CAV_TYPE_FRAME_PANEL (cav_frame_panel_get_type ())
G_DECLARE_FINAL_TYPE (CavFramePanel, cav_frame_panel, CAV, FRAME_PANEL, CavDocumentPanel)

/* Puts the focus on the row in which that can be changed which a finding of this code speaks of;
 * FALSE where the panel has none. */
gboolean cav_frame_panel_show_finding (CavFramePanel *self, const char *code);

G_END_DECLS
