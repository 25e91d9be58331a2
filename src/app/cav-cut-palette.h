/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <gtk/gtk.h>

#include "app/cav-document.h"
#include "profile/cav-cut.h"

G_BEGIN_DECLS

/* The ten cuts to draw with, and the pointer that chooses. Property "document": the selection's
 * kind of cut is the button that is down. */
#define CAV_TYPE_CUT_PALETTE (cav_cut_palette_get_type ())
G_DECLARE_FINAL_TYPE (CavCutPalette, cav_cut_palette, CAV, CUT_PALETTE, GtkWidget)

/* The letter that chooses a kind of cut on the molding page. */
guint cav_cut_palette_get_key (CavCutKind kind);

G_END_DECLS
