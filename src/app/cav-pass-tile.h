/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <gtk/gtk.h>

#include "milling/cav-plan.h"

G_BEGIN_DECLS

/* One pass in the strip: its picture, how the rail lies, what is set. A button that stays down
 * while its pass is the chosen one. Emits "chosen" when it is pressed. */
#define CAV_TYPE_PASS_TILE (cav_pass_tile_get_type ())
G_DECLARE_FINAL_TYPE (CavPassTile, cav_pass_tile, CAV, PASS_TILE, GtkWidget)

GtkWidget *cav_pass_tile_new (void) G_GNUC_WARN_UNUSED_RESULT;

/* number counts through the whole plan from 0. */
void
cav_pass_tile_set_pass (CavPassTile *self, CavPlan *plan, guint setup, guint pass, guint number);
guint cav_pass_tile_get_number (CavPassTile *self);
void cav_pass_tile_set_chosen (CavPassTile *self, gboolean chosen);
/* Writes the figures again, in another unit. */
void cav_pass_tile_update_words (CavPassTile *self);

G_END_DECLS
