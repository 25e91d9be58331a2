/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/*
 * Mitres of a frame of n equal angles, for a rail of some width across. Angles in degrees. An error
 * is positive where the corner opens at the outside (the toe), negative where it opens at the sight
 * edge (the heel).
 */

/* From a square cut: 180 / n. */
double cav_mitre_get_angle (int sides);
/* Along the cut: width / cos of the angle. */
double cav_mitre_get_length (double width, int sides);
/* Along the rail: width × tan of the angle, by which an end is longer outside than inside. */
double cav_mitre_get_run (double width, int sides);
/* What opens, mm, where the two faces of a mitre miss each other by some degrees: the angle in
 * radians times the length of the cut. */
double cav_mitre_get_gap (double width, int sides, double degrees);
/* How far a corner opens when the wood's width changes by a fraction: tan of each cut's angle
 * becomes tan / (1 + fraction), the length along the grain stays. Wood that swells opens the toe,
 * wood that shrinks the heel (Old House Journal, 2018, on casings says so too). */
double cav_mitre_get_season_error (int sides, double fraction);
/* How far every corner of a rectangle opens (two at the heel, two at the toe) when two opposite
 * rails differ and the joints share it: the other pair leans by asin (difference / 2 / other). */
double cav_mitre_get_pair_error (double difference, double other);

G_END_DECLS
