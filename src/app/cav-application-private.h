/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "app/cav-application.h"

G_BEGIN_DECLS

/* cav-application-actions.c: the actions of the program, and the keys of all actions. */
void cav_application_add_actions (CavApplication *self);

/* cav-application-recovery.c: offers what a crash left behind, in a dialog over the active window.
 */
void cav_application_look_for_lost_work (CavApplication *self);

G_END_DECLS
