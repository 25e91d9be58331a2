/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "app/cav-application.h"

G_BEGIN_DECLS

/* cav-application-actions.c: the actions of the program, and the keys of all actions. */
void cav_application_add_actions (CavApplication *self);

G_END_DECLS
