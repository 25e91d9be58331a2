/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "milling/cav-plan.h"

G_BEGIN_DECLS

CavPlan *cav_plan_new (void) G_GNUC_WARN_UNUSED_RESULT;
CavSetup *cav_setup_new (CavMachine machine, const char *tool) G_GNUC_WARN_UNUSED_RESULT;
void cav_setup_free (CavSetup *setup);
CavPass *cav_pass_new (void) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
