/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <gtk/gtk.h>

#include "app/cav-starter.h"
#include "milling/cav-plan.h"

G_BEGIN_DECLS

/* A molding to begin with: its section, what it is called, and what it takes in a shop. */
#define CAV_TYPE_STARTER_TILE (cav_starter_tile_get_type ())
G_DECLARE_FINAL_TYPE (CavStarterTile, cav_starter_tile, CAV, STARTER_TILE, GtkFlowBoxChild)

/* starter lives for ever. */
GtkWidget *cav_starter_tile_new (const CavStarter *starter) G_GNUC_WARN_UNUSED_RESULT;

const CavStarter *cav_starter_tile_get_starter (CavStarterTile *self);
/* (transfer none) What the tile shows and what it is planned from; the plan is forgotten. */
void cav_starter_tile_set_project (CavStarterTile *self, CavProject *project);
/* (transfer none) (nullable) */
CavProject *cav_starter_tile_get_project (CavStarterTile *self);
/* What it takes; (nullable) plan: message says why there is none. */
void cav_starter_tile_set_plan (CavStarterTile *self, const CavPlan *plan, const char *message);

G_END_DECLS
