/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <adwaita.h>

#include "app/cav-document-panel.h"

G_BEGIN_DECLS

/* What follows from the frame's settings, as rows to read: sizes, rails, package, weight, mitres,
 * then advice and findings. Property "document". */
#define CAV_TYPE_FRAME_RESULTS (cav_frame_results_get_type ())
G_DECLARE_FINAL_TYPE (CavFrameResults, cav_frame_results, CAV, FRAME_RESULTS, CavDocumentPanel)

G_END_DECLS
