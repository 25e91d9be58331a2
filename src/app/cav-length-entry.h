/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "app/cav-figure-row.h"

G_BEGIN_DECLS

/* A row with one length, as people write them (project/cav-length.h): the value is millimetres,
 * the text is in the unit of the settings and follows when that is changed anywhere. */
#define CAV_TYPE_LENGTH_ENTRY (cav_length_entry_get_type ())
G_DECLARE_FINAL_TYPE (CavLengthEntry, cav_length_entry, CAV, LENGTH_ENTRY, CavFigureRow)

CavLengthEntry *cav_length_entry_new (const char *title) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
