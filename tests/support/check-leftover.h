/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "check-section.h"

G_BEGIN_DECLS

/* Measures what is left beside the profile and asks the rules about it. */
void check_leftover (const CheckPlan *plan,
                     CheckReport *report,
                     const CheckSection *rail,
                     const CheckSection *profile);
/* Distance from a point to the nearest edge of the profile. */
double check_profile_distance (const CheckPlan *plan, CheckPoint point);

G_END_DECLS
