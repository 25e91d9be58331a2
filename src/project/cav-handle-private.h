/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "project/cav-handle.h"

G_BEGIN_DECLS

/* A number as a handle shows it: a quirk of depth 0 goes down to the bead's middle. */
double cav_handle_get_value (const CavCut *cut, CavCutNumber number);

G_END_DECLS
