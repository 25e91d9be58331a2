/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <adwaita.h>

#include "app/cav-document.h"

G_BEGIN_DECLS

/* The settings of the chosen pass as text: machine and tool, how the rail lies, fence and height as
 * they are measured, what changes from the pass before, cautions. Property "document". */
#define CAV_TYPE_PASS_SETTINGS (cav_pass_settings_get_type ())
G_DECLARE_FINAL_TYPE (CavPassSettings, cav_pass_settings, CAV, PASS_SETTINGS, GtkWidget)

G_END_DECLS
