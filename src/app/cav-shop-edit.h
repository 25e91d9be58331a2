/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "project/cav-project.h"

G_BEGIN_DECLS

/* Edits of the shop that a project is planned for, each one step that can be undone. Tools are
 * known by their ids; what cannot be leaves the shop as it was and an error of the shop's. */

/* (transfer full) An id for a tool of that name that no tool of the shop has. */
char *cav_shop_edit_create_id (const CavShop *shop, const char *name) G_GNUC_WARN_UNUSED_RESULT;

/* (transfer full) tool; its id is that of the tool it takes the place of, or is new to the shop. */
gboolean cav_shop_edit_put_blade (CavProject *project,
                                  CavBlade *blade,
                                  GError **error) G_GNUC_WARN_UNUSED_RESULT;
gboolean cav_shop_edit_put_cutter (CavProject *project,
                                   CavCutter *cutter,
                                   GError **error) G_GNUC_WARN_UNUSED_RESULT;
/* FALSE where there is no such tool. */
gboolean cav_shop_edit_remove (CavProject *project, const char *id);
/* (transfer full) (nullable) the id of the copy, which stands behind its original. */
char *cav_shop_edit_duplicate (CavProject *project, const char *id) G_GNUC_WARN_UNUSED_RESULT;
/* Another shop altogether, or the same with other machines, limits or rates. */
void cav_shop_edit_replace (CavProject *project, const CavShop *shop, const char *name);

G_END_DECLS
