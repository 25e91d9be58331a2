/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <adwaita.h>

#include "app/cav-document.h"

G_BEGIN_DECLS

/*
 * What is wrong or worth a look in a document, section and plan together, the gravest first.
 * Choosing a line chooses the cut that it speaks of. Property "document".
 *
 * Emits "show-finding" (const CavFinding *), good while the handler runs, so that somebody shows
 * its place.
 */
#define CAV_TYPE_FINDINGS (cav_findings_get_type ())
G_DECLARE_FINAL_TYPE (CavFindings, cav_findings, CAV, FINDINGS, GtkWidget)

guint cav_findings_get_count (CavFindings *self);
/* As a click on the nth line does. */
void cav_findings_activate (CavFindings *self, guint nth);

G_END_DECLS
