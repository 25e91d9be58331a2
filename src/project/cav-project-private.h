/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "project/cav-history-private.h"

G_BEGIN_DECLS

struct _CavProject
{
  GObject parent_instance;

  /* Owned */
  CavContent *content; /* now */
  CavContent *saved;   /* what the file holds */
  CavHistory *history;
  GArray *open; /* OpenStep, the outermost first */

  /* Derived, made when asked for */
  CavProfile *profile;
  CavFrame *frame;

  /* What was told by "history" last */
  GRefString *told_undo; /* nullable */
  GRefString *told_redo; /* nullable */
  gboolean told_modified;
};

/* The one door of all edits: what is next comes after what is now, as a step of its own unless one
 * is open. (transfer full) next. */
void cav_project_commit (CavProject *self, CavContent *next, const char *name);

G_END_DECLS
