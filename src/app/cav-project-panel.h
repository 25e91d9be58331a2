/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <adwaita.h>

#include "app/cav-document.h"

G_BEGIN_DECLS

/* The rows of a project: title and notes, blank and wood, rails. Property "document". */
#define CAV_TYPE_PROJECT_PANEL (cav_project_panel_get_type ())
G_DECLARE_FINAL_TYPE (CavProjectPanel, cav_project_panel, CAV, PROJECT_PANEL, GtkWidget)

G_END_DECLS
