/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-document.h"

struct _CavDocument
{
  GObject parent_instance;

  /* Owned */
  CavProject *project;
  CavSelection *selection;
  CavPlanRunner *runner;
  GFile *file;
};

G_DEFINE_FINAL_TYPE (CavDocument, cav_document, G_TYPE_OBJECT)

static void
project_changed_cb (CavDocument *self)
{
  cav_selection_limit_cuts (self->selection, cav_project_get_cut_count (self->project));
}

static void
cav_document_dispose (GObject *object)
{
  CavDocument *self = CAV_DOCUMENT (object);

  g_clear_object (&self->runner);
  g_clear_object (&self->selection);
  g_clear_object (&self->project);
  g_clear_object (&self->file);
  G_OBJECT_CLASS (cav_document_parent_class)->dispose (object);
}

static void
cav_document_class_init (CavDocumentClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = cav_document_dispose;
}

static void
cav_document_init (CavDocument *self)
{
  self->selection = cav_selection_new ();
}

CavDocument *
cav_document_new (void)
{
  g_autoptr (CavProject) project = cav_project_new ();

  return cav_document_new_for_project (project, NULL);
}

CavDocument *
cav_document_new_for_project (CavProject *project, GFile *file)
{
  CavDocument *self;

  g_return_val_if_fail (CAV_IS_PROJECT (project), NULL);
  g_return_val_if_fail (file == NULL || G_IS_FILE (file), NULL);

  self = g_object_new (CAV_TYPE_DOCUMENT, NULL);
  self->project = g_object_ref (project);
  self->runner = cav_plan_runner_new (project);
  g_set_object (&self->file, file);
  /* Before anybody else hears of the change, so that no selected cut is one that is gone. */
  g_signal_connect_object (project, "changed", G_CALLBACK (project_changed_cb), self,
                           G_CONNECT_SWAPPED);
  return self;
}

CavProject *
cav_document_get_project (CavDocument *self)
{
  g_return_val_if_fail (CAV_IS_DOCUMENT (self), NULL);
  return self->project;
}

CavSelection *
cav_document_get_selection (CavDocument *self)
{
  g_return_val_if_fail (CAV_IS_DOCUMENT (self), NULL);
  return self->selection;
}

CavPlanRunner *
cav_document_get_runner (CavDocument *self)
{
  g_return_val_if_fail (CAV_IS_DOCUMENT (self), NULL);
  return self->runner;
}

GFile *
cav_document_get_file (CavDocument *self)
{
  g_return_val_if_fail (CAV_IS_DOCUMENT (self), NULL);
  return self->file;
}
