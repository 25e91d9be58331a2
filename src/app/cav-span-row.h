/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <adwaita.h>

#include "boards/cav-board.h"

G_BEGIN_DECLS

/*
 * One stretch of a board that folds out: a defect that must not get into a rail, or a clear stretch
 * that may. Emits "edited" when somebody has changed it and "removed" when it is to go.
 */
#define CAV_TYPE_SPAN_ROW (cav_span_row_get_type ())
G_DECLARE_FINAL_TYPE (CavSpanRow, cav_span_row, CAV, SPAN_ROW, AdwExpanderRow)

CavSpanRow *cav_span_row_new (void) G_GNUC_WARN_UNUSED_RESULT;
/* width: of the board. */
void cav_span_row_show (CavSpanRow *self, const CavBoardSpan *span, double width);
/* Ends that were entered the wrong way round are exchanged; one of no length is 1 mm long, and one
 * that has a lower edge alone reaches to the upper edge of the board. */
CavBoardSpan cav_span_row_get (CavSpanRow *self);

G_END_DECLS
