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
  /* While a cut is dragged: the others, and the cuts that the profile was made for last */
  CavProfileRest *rest; /* nullable */
  GArray *rest_indices; /* nullable; with rest, guint: the cuts that it is without */
  GPtrArray *rest_cuts; /* nullable; with rest, what it was made from */
  CavBlank rest_blank;
  GPtrArray *last_cuts; /* nullable */
  gboolean is_quick;    /* the profile is good but for rounding */

  /* What was told by "history" last */
  GRefString *told_undo; /* nullable */
  GRefString *told_redo; /* nullable */
  gboolean told_modified;
};

/* The one door of all edits: what is next comes after what is now, as a step of its own unless one
 * is open. (transfer full) next. */
void cav_project_commit (CavProject *self, CavContent *next, const char *name);

/* Forgets what was worked out for the sake of a drag. */
void cav_project_clear_rest (CavProject *self);

G_END_DECLS
