/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <adwaita.h>

#include "profile/cav-finding.h"

G_BEGIN_DECLS

/* A line of what is worth a look: how grave it is as a picture and in a word, its sentence with
 * lengths in the unit of the settings. leads: it takes whoever activates it to its place. */
GtkWidget *cav_finding_row_new (const CavFinding *finding,
                                gboolean leads) G_GNUC_WARN_UNUSED_RESULT;
/* Whether it would look the same, made for this finding now. */
gboolean cav_finding_row_shows (GtkWidget *row, const CavFinding *finding);

G_END_DECLS
