/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <gtk/gtk.h>

#include "milling/cav-plan.h"

G_BEGIN_DECLS

/* A pass as it is seen at its machine, small. Drawn once into a texture for as long as pass, size,
 * scale and light are the same, so that scrolling costs nothing. Says nothing to assistive
 * technology: whoever holds it does. */
#define CAV_TYPE_PASS_PICTURE (cav_pass_picture_get_type ())
G_DECLARE_FINAL_TYPE (CavPassPicture, cav_pass_picture, CAV, PASS_PICTURE, GtkWidget)


/* plan (transfer none, nullable) is kept; setup and pass count from 0. */
void cav_pass_picture_set_pass (CavPassPicture *self, CavPlan *plan, guint setup, guint pass);

G_END_DECLS
