/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* Every tolerance of the geometry, in millimetres, with the reason for its size. */

/* Greatest distance between a curve and the chords that stand for it in boolean
 * operations; below half of what the finest setting of a machine (0.05) can show. */
#define CAV_TOLERANCE_CHORD 0.002

/* Two points nearer than this are one point: far below wood, far above rounding. */
#define CAV_TOLERANCE_POINT 1e-6

/* Grid on which overlays are noded, so that copies shifted by rounding leave no slivers; a power
 * of two (7.6e-6), so that points of the grid are exact. */
#define CAV_TOLERANCE_OVERLAY 0x1p-17

/* What is thinner than this after an overlay is no wood: ten times what noding may move. */
#define CAV_TOLERANCE_SLIVER 1e-4

/* Largest coordinate that is taken in: a hundred metres. */
#define CAV_COORDINATE_MAX 1e5
