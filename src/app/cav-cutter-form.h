/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <adwaita.h>

#include "project/cav-project.h"

G_BEGIN_DECLS

/* The numbers of one cutter, with its outline as they are being typed. Nothing reaches the project
 * before it is committed. */
#define CAV_TYPE_CUTTER_FORM (cav_cutter_form_get_type ())
G_DECLARE_FINAL_TYPE (CavCutterForm, cav_cutter_form, CAV, CUTTER_FORM, GtkWidget)

/* id of the cutter of the project's shop to change, or NULL for a new one. */
void cav_cutter_form_open (CavCutterForm *self, CavProject *project, const char *id);
/* Another trade family, for a new cutter, with its usual numbers. */
void cav_cutter_form_set_family (CavCutterForm *self, CavCutterFamily family);
/* Puts the cutter into the shop; FALSE with a sentence in the form where it cannot be. */
gboolean cav_cutter_form_commit (CavCutterForm *self);
/* (nullable) The sentence that is shown. */
const char *cav_cutter_form_get_message (CavCutterForm *self);
/* (nullable) (transfer none) The row of a number, where the family has it. */
GtkWidget *cav_cutter_form_get_number_row (CavCutterForm *self, CavCutterNumber number);

G_END_DECLS
