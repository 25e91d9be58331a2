/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "frame/cav-frame-settings.h"
#include "project/cav-project.h"

G_BEGIN_DECLS

/* A molding, or a whole project, that comes with the program to begin with. */
typedef struct
{
  const char *id;    /* of the project file among the program's resources */
  const char *name;  /* the shape, untranslated */
  const char *words; /* a line about it, untranslated */
} CavStarter;

/* Moldings by shape, the simple ones first. */
const CavStarter *cav_starters_get_moldings (guint *out_n);
/* Whole projects of the scenario that the program is shown with. */
const CavStarter *cav_starters_get_examples (guint *out_n);
/* Translated. */
const char *cav_starter_get_name (const CavStarter *starter);
/* Whether a title is no more than the name of a molding that a project began with. */
gboolean cav_starter_is_name (const char *title);

/* (transfer full) A new project with that molding, for a frame of these settings, to be made in
 * this shop. */
CavProject *cav_starter_create_molding (const CavStarter *starter,
                                        const CavFrameSettings *settings,
                                        const CavShop *shop) G_GNUC_WARN_UNUSED_RESULT;
/* (transfer full) A new project without a cut, for the same. */
CavProject *cav_starter_create_blank (const CavFrameSettings *settings,
                                      const CavShop *shop) G_GNUC_WARN_UNUSED_RESULT;
/* (transfer full) The example as it is. */
CavProject *cav_starter_create_example (const CavStarter *starter) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
