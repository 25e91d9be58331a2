/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "storage/cav-storage.h"

G_BEGIN_DECLS

/* Appends the <plan> element of docs/plan-file.md. FALSE where the format cannot say it. */
gboolean cav_plan_xml_write (GString *text, const CavPlan *plan, GError **error);

G_END_DECLS
