/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "drawing/cav-scene.h"
#include "project/cav-project.h"

G_BEGIN_DECLS

/* Pixels on a side. */
#define CAV_THUMBNAIL_MIN 16
#define CAV_THUMBNAIL_MAX 2048

/* The bare section of a project, in the middle of a square of paper: a PNG file of side × side
 * pixels, for file managers. Works for sections that cannot be milled, too. (transfer full) Errors:
 * CAV_DRAWING_ERROR. */
GBytes *
cav_thumbnail_create_png (CavProject *project, int side, GError **error) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
