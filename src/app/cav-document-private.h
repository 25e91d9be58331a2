/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "app/cav-document.h"

G_BEGIN_DECLS

struct _CavDocument
{
  GObject parent_instance;

  /* Owned */
  CavProject *project;
  CavSelection *selection;
  CavPlanRunner *runner;
  CavBoardRunner *board_runner;
  GFile *file; /* nullable */
  CavFileWatch *watch;
  CavRecovery *recovery;

  /* State */
  guint keep_source;
  guint saving;     /* how many writings are under way */
  gboolean unsaved; /* whatever the project itself thinks */
};

/* For what was read from or written to file when it had that stamp. */
void cav_document_settle (CavDocument *self, GFile *file, const char *stamp);
void cav_document_tell_status (CavDocument *self);
/* cav-document-keep.c: after every change of what is saved. */
void cav_document_update_keeping (CavDocument *self);
void cav_document_end_keeping (CavDocument *self);

G_END_DECLS
