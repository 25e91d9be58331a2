/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-frame-edit.h"

#include <glib/gi18n.h>

void
cav_frame_edit_apply (CavProject *project, const CavFrameSettings *settings, const char *name)
{
  g_return_if_fail (CAV_IS_PROJECT (project) && settings != NULL);

  if (cav_frame_settings_equal (settings, cav_project_get_frame_settings (project)))
    return;
  cav_project_begin (project, name);
  cav_project_set_frame_settings (project, settings);
  cav_project_end (project);
}

gboolean
cav_frame_edit_set_picture (CavDocument *document, GFile *file)
{
  CavProject *project;
  GFile *own;
  g_autofree char *path = NULL;
  g_autoptr (GFile) folder = NULL;
  g_autoptr (CavFrameSettings) settings = NULL;

  g_return_val_if_fail (CAV_IS_DOCUMENT (document), FALSE);

  project = cav_document_get_project (document);
  own = cav_document_get_file (document);
  folder = own != NULL ? g_file_get_parent (own) : NULL;
  if (file != NULL && folder != NULL)
    path = g_file_get_relative_path (folder, file);
  if (file != NULL && path == NULL)
    path = g_file_get_path (file);
  if (file != NULL && path == NULL)
    return FALSE;
  settings = cav_frame_settings_copy (cav_project_get_frame_settings (project));
  cav_frame_settings_set_picture_file (settings, path);
  cav_frame_edit_apply (project, settings,
                        file != NULL ? C_ ("step", "choose picture")
                                     : C_ ("step", "remove picture"));
  return TRUE;
}
