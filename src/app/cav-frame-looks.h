/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <adwaita.h>

#include "app/cav-document-panel.h"

G_BEGIN_DECLS

/*
 * The picture that is framed and the colours around it: chosen by buttons, each choice one step.
 * Property "document".
 */
#define CAV_TYPE_FRAME_LOOKS (cav_frame_looks_get_type ())
G_DECLARE_FINAL_TYPE (CavFrameLooks, cav_frame_looks, CAV, FRAME_LOOKS, CavDocumentPanel)

G_END_DECLS
