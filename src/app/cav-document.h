/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <gio/gio.h>

#include "app/cav-plan-runner.h"
#include "app/cav-selection.h"

G_BEGIN_DECLS

/*
 * What a window shows: a project with the file that it lives in, what is selected in it, and its
 * plan. The three it holds are the same objects for its whole life.
 */
#define CAV_TYPE_DOCUMENT (cav_document_get_type ())
G_DECLARE_FINAL_TYPE (CavDocument, cav_document, CAV, DOCUMENT, GObject)

/* A new, empty one. */
CavDocument *cav_document_new (void) G_GNUC_WARN_UNUSED_RESULT;
/* (transfer none) project; file nullable. */
CavDocument *cav_document_new_for_project (CavProject *project,
                                           GFile *file) G_GNUC_WARN_UNUSED_RESULT;

/* (transfer none) */
CavProject *cav_document_get_project (CavDocument *self);
CavSelection *cav_document_get_selection (CavDocument *self);
CavPlanRunner *cav_document_get_runner (CavDocument *self);
/* (transfer none) (nullable) NULL: not saved yet. */
GFile *cav_document_get_file (CavDocument *self);

G_END_DECLS
