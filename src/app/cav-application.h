/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <adwaita.h>

G_BEGIN_DECLS

#define CAV_APPLICATION_ID "org.cavetto.Cavetto"

/* The program with its windows. */
#define CAV_TYPE_APPLICATION (cav_application_get_type ())
G_DECLARE_FINAL_TYPE (CavApplication, cav_application, CAV, APPLICATION, AdwApplication)

CavApplication *cav_application_new (void) G_GNUC_WARN_UNUSED_RESULT;

/* Makes templates and style known to GTK; once, before the first widget. Tests call it too. */
void cav_application_register_resources (void);

G_END_DECLS
