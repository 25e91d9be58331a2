/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <adwaita.h>

G_BEGIN_DECLS

/* (transfer full) A toast that says text as it stands: what toasts show is markup, and names of
 * files and tools may hold "&" or "<". */
AdwToast *cav_toast_new (const char *text) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
