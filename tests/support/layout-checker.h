/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "boards/cav-board-layout.h"

/* A second opinion on a layout, from the lumber and the jobs alone: sizes, kerfs, defects, order of
 * the grain, that every rail is there once. It knows the layout's structures and no code that makes
 * one. Returns NULL, or in words the first thing that is wrong. (transfer full) */
char *check_layout (const CavLumber *lumber, const GPtrArray *jobs, const CavBoardLayout *layout);
/* Ends the test where the checker is not content with a layout of its own jobs. */
void assert_layout (const CavLumber *lumber, const CavBoardLayout *layout);
