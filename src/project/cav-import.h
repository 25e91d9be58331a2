/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "project/cav-project.h"

G_BEGIN_DECLS

/* Least width and thickness of a blank, mm; project files keep to it, too. */
#define CAV_IMPORT_BLANK_MIN 0.1

/*
 * What an outline in a picture becomes. Outlines are in millimetres with y running down, pictures
 * of that size; the picture's left edge is x = 0, its lower edge y = 0. Errors are
 * CAV_IMPORT_ERROR, or CAV_GEOMETRY_ERROR where the outline is not one closed shape.
 */

/* Makes outline the profile of the project, as one step: sets the blank, and one drawn cut for each
 * piece of waste. The project stays as it is where that cannot be. */
gboolean cav_import_outline (CavProject *project,
                             const CavPath *outline,
                             const CavBlank *picture,
                             const CavBlank *blank,
                             GError **error) G_GNUC_WARN_UNUSED_RESULT;
/* (transfer full) The drawn cuts (CavCut) that leave outline of the blank. */
GPtrArray *cav_import_create_cuts (const CavPath *outline,
                                   const CavBlank *picture,
                                   const CavBlank *blank,
                                   GError **error) G_GNUC_WARN_UNUSED_RESULT;
/* (transfer full) The drawn cut that takes the outline's inside away. Where that misses the blank
 * it comes to its middle. */
CavCut *cav_import_create_drawn (const CavPath *outline,
                                 const CavBlank *picture,
                                 const CavBlank *blank,
                                 GError **error) G_GNUC_WARN_UNUSED_RESULT;

typedef enum
{
  CAV_IMPORT_ERROR_OUTSIDE = 1, /* out of the blank */
  CAV_IMPORT_ERROR_BLANK,       /* no size for a blank */
  CAV_IMPORT_ERROR_FINE,        /* parts too thin to be cut */
} CavImportError;
#define CAV_IMPORT_ERROR (cav_import_error_quark ())
GQuark cav_import_error_quark (void);

G_END_DECLS
