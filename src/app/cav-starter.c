/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-starter.h"

#include "app/cav-application.h"
#include "storage/cav-storage.h"

#include <glib/gi18n.h>

static const CavStarter MOLDINGS[] = {
  { "moldings/flat", NC_ ("molding", "Flat"), N_ ("For quiet pictures, and for inlay or paint") },
  { "moldings/stepped", NC_ ("molding", "Stepped"), N_ ("Steps that lead down to the picture") },
  { "moldings/slope", NC_ ("molding", "Slope to the picture"),
    N_ ("Falls towards the sight edge") },
  { "moldings/reverse", NC_ ("molding", "Slope to the wall"), N_ ("Holds the picture forward") },
  { "moldings/cushion", NC_ ("molding", "Cushion"), N_ ("Both edges of the face rounded") },
  { "moldings/cove", NC_ ("molding", "Cove"), N_ ("A quarter hollow behind a fillet") },
  { "moldings/scoop", NC_ ("molding", "Scoop"), N_ ("A wide shallow hollow in the face") },
  { "moldings/ogee", NC_ ("molding", "Ogee"), N_ ("An S at the sight edge") },
  { "moldings/box", NC_ ("molding", "Box"), N_ ("Narrow and deep, for thick packages") },
};

static const CavStarter EXAMPLES[] = {
  { "examples/plain-steps", NC_ ("molding", "Plain steps"), N_ ("A4 print, white ash") },
  { "examples/cove-and-bead", NC_ ("molding", "Cove and bead"), N_ ("A3 print, black walnut") },
  { "examples/wide-scoop", NC_ ("molding", "Wide scoop"), N_ ("A3 print, cherry, blade crossed") },
};

const CavStarter *
cav_starters_get_moldings (guint *out_n)
{
  *out_n = G_N_ELEMENTS (MOLDINGS);
  return MOLDINGS;
}

const CavStarter *
cav_starters_get_examples (guint *out_n)
{
  *out_n = G_N_ELEMENTS (EXAMPLES);
  return EXAMPLES;
}

const char *
cav_starter_get_name (const CavStarter *starter)
{
  g_return_val_if_fail (starter != NULL, "");
  return g_dpgettext2 (NULL, "molding", starter->name);
}

gboolean
cav_starter_is_name (const char *title)
{
  for (guint i = 0; i < G_N_ELEMENTS (MOLDINGS); i++)
    if (g_strcmp0 (title, cav_starter_get_name (&MOLDINGS[i])) == 0)
      return TRUE;
  return FALSE;
}

/* They are part of the program, and a test reads each of them. */
static CavProject *
read_project (const CavStarter *starter)
{
  g_autofree char *path = g_strdup_printf ("/org/cavetto/Cavetto/%s.cavetto", starter->id);
  g_autoptr (GError) error = NULL;
  g_autoptr (GBytes) bytes = NULL;
  CavProject *project = NULL;

  cav_application_register_resources ();
  bytes = g_resources_lookup_data (path, G_RESOURCE_LOOKUP_FLAGS_NONE, &error);
  if (bytes != NULL)
    project = cav_storage_project_from_bytes (bytes, starter->id, &error);
  if (project == NULL)
    g_error ("%s", error->message);
  return project;
}

/* Nothing of how it came about is left to be undone. */
static CavProject *
without_history (CavProject *project)
{
  CavProject *fresh = cav_project_new ();

  cav_project_load (fresh, project);
  return fresh;
}

CavProject *
cav_starter_create_molding (const CavStarter *starter,
                            const CavFrameSettings *settings,
                            const CavShop *shop)
{
  g_autoptr (CavProject) project = NULL;

  g_return_val_if_fail (starter != NULL, NULL);
  g_return_val_if_fail (settings != NULL, NULL);
  g_return_val_if_fail (shop != NULL, NULL);

  project = read_project (starter);
  cav_project_set_title (project, cav_starter_get_name (starter));
  cav_project_set_frame_settings (project, settings);
  cav_project_set_shop (project, shop);
  return without_history (project);
}

CavProject *
cav_starter_create_blank (const CavFrameSettings *settings, const CavShop *shop)
{
  g_autoptr (CavProject) project = NULL;

  g_return_val_if_fail (settings != NULL, NULL);
  g_return_val_if_fail (shop != NULL, NULL);

  project = cav_project_new ();
  cav_project_set_frame_settings (project, settings);
  cav_project_set_shop (project, shop);
  return without_history (project);
}

CavProject *
cav_starter_create_example (const CavStarter *starter)
{
  g_return_val_if_fail (starter != NULL, NULL);
  return read_project (starter);
}
