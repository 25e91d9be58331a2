/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* A number between 0 and 1 that looks like chance and always is the same for the same place. */
float cav_noise_hash (gint32 x, gint32 y, gint32 z);
/* Smooth chance in space: hashes of the whole numbers around, blended; 0 to 1, about as coarse as
 * the unit. */
float cav_noise_get (float x, float y, float z);

G_END_DECLS
