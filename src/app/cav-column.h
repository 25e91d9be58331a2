/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <adwaita.h>

#include "app/cav-document.h"

G_BEGIN_DECLS

/*
 * The narrow column beside the section: the chosen pass, else the chosen cuts, else the project,
 * as rows; below them what is worth a look. Holds nothing that is worth saving. Property
 * "document".
 *
 * Emits "show-finding" (const CavFinding *), good while the handler runs.
 */
#define CAV_TYPE_COLUMN (cav_column_get_type ())
G_DECLARE_FINAL_TYPE (CavColumn, cav_column, CAV, COLUMN, GtkWidget)

CavColumn *cav_column_new (void) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
