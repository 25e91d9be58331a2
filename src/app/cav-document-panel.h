/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <adwaita.h>

#include "app/cav-document.h"

G_BEGIN_DECLS

/*
 * A part of a side column that shows a document's project and follows it. What is common to all of
 * them: the property "document", and when to show the project again. Children stand below each
 * other.
 */
#define CAV_TYPE_DOCUMENT_PANEL (cav_document_panel_get_type ())
G_DECLARE_DERIVABLE_TYPE (CavDocumentPanel, cav_document_panel, CAV, DOCUMENT_PANEL, GtkBox)

struct _CavDocumentPanelClass
{
  GtkBoxClass parent_class;

  /* What of the project the panel shows: CAV_PART_… */
  guint parts;
  /* Shows the project, which is not NULL: called after another document came, after a change of
   * those parts, and when lengths are to be shown in another unit. */
  void (*show_project) (CavDocumentPanel *self, CavProject *project);
};

/* (nullable) (transfer none) */
CavDocument *cav_document_panel_get_document (CavDocumentPanel *self);
CavProject *cav_document_panel_get_project (CavDocumentPanel *self);
/* Shows the project now, where there is one. */
void cav_document_panel_refresh (CavDocumentPanel *self);

G_END_DECLS
