/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <adwaita.h>

#include "app/cav-document-panel.h"

G_BEGIN_DECLS

/*
 * What was measured on the frame put together without glue, and below it what to do about it.
 * Folded until somebody wants it. Property "document".
 */
#define CAV_TYPE_DRY_FIT_PANEL (cav_dry_fit_panel_get_type ())
G_DECLARE_FINAL_TYPE (CavDryFitPanel, cav_dry_fit_panel, CAV, DRY_FIT_PANEL, CavDocumentPanel)

G_END_DECLS
