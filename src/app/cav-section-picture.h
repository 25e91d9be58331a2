/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <gtk/gtk.h>

#include "project/cav-project.h"

G_BEGIN_DECLS

/* A section as end grain, bare, as large as it fits. */
#define CAV_TYPE_SECTION_PICTURE (cav_section_picture_get_type ())
G_DECLARE_FINAL_TYPE (CavSectionPicture, cav_section_picture, CAV, SECTION_PICTURE, GtkWidget)

GtkWidget *cav_section_picture_new (void) G_GNUC_WARN_UNUSED_RESULT;

/* (transfer none) (nullable) */
void cav_section_picture_set_project (CavSectionPicture *self, CavProject *project);

G_END_DECLS
