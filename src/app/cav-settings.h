/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <gio/gio.h>

#include "drawing/cav-drawing.h"
#include "project/cav-length.h"

G_BEGIN_DECLS

#define CAV_SETTING_UNIT "unit"
#define CAV_SETTING_PAPER "paper"
#define CAV_SETTING_SNAP "snap"
#define CAV_SETTING_GREETED "greeted"
#define CAV_SETTING_SHEET "sheet"
#define CAV_SETTING_SHEET_LAYOUT "sheet-layout"
#define CAV_SETTING_SHEET_NOTE "sheet-note"
#define CAV_SETTING_PRINT "print-settings"
#define CAV_SETTING_PAGE "page-setup"
#define CAV_SETTING_RECENT_SHOP "recent-shop"

/* FALSE where the program is neither installed nor beside its build, and cannot know its settings.
 */
gboolean cav_settings_exist (void);
/* (transfer none) The program's one settings object, made at the first call. */
GSettings *cav_settings_get (void);

/* What "automatic" comes to is decided by the locale's country. Listen to "changed::unit". */
CavLengthStyle cav_settings_get_length_style (void);
CavPaper cav_settings_get_paper (void);

G_END_DECLS
