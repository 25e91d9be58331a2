/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "plan-checker.h"

G_BEGIN_DECLS

CheckReport *check_report_new (void) G_GNUC_WARN_UNUSED_RESULT;
void check_report_add (CheckReport *report, CheckRule rule, int pass, const char *format, ...)
    G_GNUC_PRINTF (4, 5);
void check_report_warn (CheckReport *report, CheckRule rule, int pass, const char *format, ...)
    G_GNUC_PRINTF (4, 5);
/* FALSE, with violations, where a plan cannot be simulated: no blank, unknown tools ... */
gboolean check_plan_is_readable (const CheckPlan *plan, CheckReport *report);
/* Chips, leftover, and minutes as the plan claims them against those of report. */
void check_claims (const CheckPlan *plan, CheckReport *report);

G_END_DECLS
