/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "app/cav-figure-row.h"

G_BEGIN_DECLS

/* A row with one plain number: a count, a share, an angle, minutes. The decimal mark is a point or
 * a comma, whatever the locale. */
#define CAV_TYPE_NUMBER_ENTRY (cav_number_entry_get_type ())
G_DECLARE_FINAL_TYPE (CavNumberEntry, cav_number_entry, CAV, NUMBER_ENTRY, CavFigureRow)

/* decimals: how many are shown and may be entered; 0 is whole numbers. unit stands behind it, "" is
 * none. step is what the arrow keys add. */
CavNumberEntry *cav_number_entry_new (const char *title,
                                      int decimals,
                                      const char *unit,
                                      double step) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
