/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <adwaita.h>

#include "app/cav-document.h"

G_BEGIN_DECLS

/* The page on which rails are laid out on boards: the boards with their rails, and beside them what
 * they come to, the order of the grain and the list of boards at hand. Property "document". */
#define CAV_TYPE_LUMBER_PAGE (cav_lumber_page_get_type ())
G_DECLARE_FINAL_TYPE (CavLumberPage, cav_lumber_page, CAV, LUMBER_PAGE, GtkWidget)

G_END_DECLS
