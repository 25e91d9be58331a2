/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <adwaita.h>

#include "app/cav-document.h"

G_BEGIN_DECLS

/* The machines of the shop of a document, what passes keep to, and the minutes that a plan is
 * reckoned with; each edit is one step. Property "document". */
#define CAV_TYPE_MACHINE_PANEL (cav_machine_panel_get_type ())
G_DECLARE_FINAL_TYPE (CavMachinePanel, cav_machine_panel, CAV, MACHINE_PANEL, GtkWidget)

G_END_DECLS
