/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <glib-object.h>

#include "drawing/cav-palette.h"

G_BEGIN_DECLS

/* That of the desktop: by day or by night, strong where it asks for high contrast. */
CavLight cav_light_get_current (void);
/* Calls back with object, as long as it lives, when that changes. */
void cav_light_watch (GCallback callback, gpointer object);

G_END_DECLS
