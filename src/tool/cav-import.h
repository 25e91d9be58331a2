/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "project/cav-project.h"

G_BEGIN_DECLS

/* Least width and thickness of a blank, mm; project files keep to it, too. */
#define CAV_IMPORT_BLANK_MIN 0.1

/* Makes outline, in a picture of that size with y running down, the profile of the project: sets
 * the blank and one drawn cut for each piece of waste. The picture's left edge is x = 0, its lower
 * edge y = 0. Errors (CAV_TOOL_ERROR, CAV_GEOMETRY_ERROR) where the outline is not one closed
 * shape inside the blank. */
gboolean cav_import_outline (CavProject *project,
                             const CavPath *outline,
                             const CavBlank *picture,
                             const CavBlank *blank,
                             GError **error) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
