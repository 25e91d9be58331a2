/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <adwaita.h>

#include "project/cav-project.h"

G_BEGIN_DECLS

/* The numbers of one saw blade or grooving head, with its picture as they are being typed. Nothing
 * reaches the project before it is committed. */
#define CAV_TYPE_BLADE_FORM (cav_blade_form_get_type ())
G_DECLARE_FINAL_TYPE (CavBladeForm, cav_blade_form, CAV, BLADE_FORM, GtkWidget)

/* id of the blade of the project's shop to change, or NULL for a new one. */
void cav_blade_form_open (CavBladeForm *self, CavProject *project, const char *id);
/* Puts the blade into the shop; FALSE with a sentence in the form where it cannot be. */
gboolean cav_blade_form_commit (CavBladeForm *self);
/* (nullable) The sentence that is shown. */
const char *cav_blade_form_get_message (CavBladeForm *self);

G_END_DECLS
