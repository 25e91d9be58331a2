/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <glib.h>

/* Everything inside is in millimetres and degrees; these are the ways out of and into that. */

/* An inch, mm: exactly, by the agreement of 1959 on yard and pound. */
#define CAV_INCH 25.4

/* For the functions of the C library, and from them. */
#define CAV_RADIANS(degrees) ((degrees)*G_PI / 180.0)
#define CAV_DEGREES(radians) ((radians)*180.0 / G_PI)

/* Volumes are mm³ until they are weighed or sold. */
#define CAV_CUBIC_METRES(cubic_millimetres) ((cubic_millimetres)*1e-9)
