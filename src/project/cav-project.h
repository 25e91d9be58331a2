/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <glib-object.h>

#include "milling/cav-planner.h"
#include "shop/cav-wood.h"

G_BEGIN_DECLS

/*
 * The document: blank, cuts, wood, rails, the shop it is planned for, notes. Derived things
 * (profile, plan, findings) are made when asked for and kept until something changes. Emits
 * "changed" after every edit.
 */
#define CAV_TYPE_PROJECT (cav_project_get_type ())
G_DECLARE_FINAL_TYPE (CavProject, cav_project, CAV, PROJECT, GObject)

CavProject *cav_project_new (void) G_GNUC_WARN_UNUSED_RESULT;

const char *cav_project_get_title (CavProject *self);
void cav_project_set_title (CavProject *self, const char *title);
const char *cav_project_get_notes (CavProject *self);
void cav_project_set_notes (CavProject *self, const char *notes);
CavBlank cav_project_get_blank (CavProject *self);
void cav_project_set_blank (CavProject *self, CavBlank blank);
/* (nullable) NULL: no wood chosen yet. */
const CavWood *cav_project_get_wood (CavProject *self);
void cav_project_set_wood (CavProject *self, const CavWood *wood);
int cav_project_get_rails (CavProject *self);
double cav_project_get_length (CavProject *self);
/* Number of rails and their total length, mm. */
void cav_project_set_rails (CavProject *self, int rails, double length);
const CavShop *cav_project_get_shop (CavProject *self);
/* (transfer none) copied. */
void cav_project_set_shop (CavProject *self, const CavShop *shop);

guint cav_project_get_cut_count (CavProject *self);
const CavCut *cav_project_get_cut (CavProject *self, guint index);
/* (transfer none) copied. */
void cav_project_add_cut (CavProject *self, const CavCut *cut);
void cav_project_set_cut (CavProject *self, guint index, const CavCut *cut);
void cav_project_remove_cut (CavProject *self, guint index);

/* (transfer none) evaluated when something changed. */
const CavProfile *cav_project_get_profile (CavProject *self);
/* (transfer full) plans; error also where the profile is not sound. */
CavPlan *
cav_project_plan (CavProject *self, CavEffort effort, GError **error) G_GNUC_WARN_UNUSED_RESULT;
/* (transfer full) all that is wrong or worth a look, profile and (nullable) plan together. */
GPtrArray *cav_project_create_findings (CavProject *self,
                                        const CavPlan *plan) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
