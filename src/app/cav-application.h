/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <adwaita.h>

G_BEGIN_DECLS

#define CAV_APPLICATION_ID "org.cavetto.Cavetto"

/* The program with its windows. */
#define CAV_TYPE_APPLICATION (cav_application_get_type ())
G_DECLARE_FINAL_TYPE (CavApplication, cav_application, CAV, APPLICATION, AdwApplication)

/* flags on top of those that it needs. */
CavApplication *cav_application_new (GApplicationFlags flags) G_GNUC_WARN_UNUSED_RESULT;

/* Makes templates and style known to GTK; once, before the first widget. Tests call it too. */
void cav_application_register_resources (void);

/* (transfer none) A window with a new document. */
GtkWindow *cav_application_open_new (CavApplication *self);
/* Shows what one can begin with. */
void cav_application_show_start (CavApplication *self);
/* Shows the file: in the window that shows it already, in near (nullable) where that is fresh, or
 * in a new one. What cannot be read is said in a dialog. */
void cav_application_open_file (CavApplication *self, GFile *file, GtkWindow *near);
/* A window has something to show: what can wait until then begins, once. */
void cav_application_has_shown (CavApplication *self);
/* Puts it among the recent files of this desktop. */
void cav_application_remember_file (GFile *file);

G_END_DECLS
