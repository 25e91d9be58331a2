/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <gtk/gtk.h>

#include "app/cav-document.h"

G_BEGIN_DECLS

/* The passes of the plan in the order of the work, grouped by setup, under a line with what they
 * come to. Dimmed, with a word, while the plan is not that of the section. Property "document". */
#define CAV_TYPE_PASS_STRIP (cav_pass_strip_get_type ())
G_DECLARE_FINAL_TYPE (CavPassStrip, cav_pass_strip, CAV, PASS_STRIP, GtkWidget)

G_END_DECLS
