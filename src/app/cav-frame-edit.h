/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <gio/gio.h>

#include "app/cav-document.h"

G_BEGIN_DECLS

/* One step of the history under this name; none where nothing is different. */
void cav_frame_edit_apply (CavProject *project, const CavFrameSettings *settings, const char *name);
/* (nullable) file: the picture of the frame, or none. Named by itself where it lies in the
 * project's folder, so that both can move together. FALSE where file has no path here. */
gboolean cav_frame_edit_set_picture (CavDocument *document, GFile *file);

G_END_DECLS
