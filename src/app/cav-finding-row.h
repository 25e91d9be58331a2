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

typedef GtkWidget *(*CavFindingRowCreate) (const CavFinding *finding);

/* Fills a group with a row for each finding, and rows (borrowed from the group) with these in their
 * order. Where all of them say what they said they stay, and keep their focus. A group without
 * findings is not shown. */
void cav_finding_rows_list (AdwPreferencesGroup *group,
                            GPtrArray *rows,
                            const GPtrArray *findings,
                            CavFindingRowCreate create);

G_END_DECLS
