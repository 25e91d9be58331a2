/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "app/cav-window.h"

#include "ui-test.h"

G_BEGIN_DECLS

/* A window with a document of its own; with a rabbet and its plan where data is set. */
typedef struct
{
  CavDocument *document;
  CavProject *project;
  CavSelection *selection;
  CavWindow *window;
} WindowRig;

void window_rig_set_up (WindowRig *rig, gconstpointer data);
/* A closed window leaves nothing behind: neither itself nor its document. */
void window_rig_tear_down (WindowRig *rig, gconstpointer data);
/* Does an action of the window; FALSE where it is not to be done. */
gboolean window_rig_act (WindowRig *rig, const char *action);

G_END_DECLS
