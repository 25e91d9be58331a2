/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "geometry/cav-number-text.h"
#include "geometry/cav-tolerance.h"
#include "shop/cav-cutter.h"

G_BEGIN_DECLS

/* TRUE where the numbers of a family (not drawn) are in range and fit each other. */
gboolean cav_cutter_check_numbers (const char *id,
                                   CavCutterFamily family,
                                   const double *numbers,
                                   GError **error);
/* The outline of a family (not drawn) from checked numbers. */
CavPath *cav_cutter_create_outline (CavCutterFamily family,
                                    const double *numbers) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
