/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "drawing/cav-drawing.h"
#include "drawing/cav-scene.h"
#include "drawing/cav-sheet-pages.h"

G_BEGIN_DECLS

/* Size of the paper lying on its long side, mm. */
void cav_paper_get_size (CavPaper paper, double *out_width, double *out_height);
/* (transfer full) the project's title, cleaned; a word for it where there is none. */
char *cav_sheet_dup_title (CavProject *project) G_GNUC_WARN_UNUSED_RESULT;
/* "millimetres" or "inches". */
const char *cav_unit_get_word (CavUnit unit);

/* The sheets before they become files. (transfer full) */
CavScene *cav_section_drawing_create_scene (CavProject *project, const CavSheetOptions *options)
    G_GNUC_WARN_UNUSED_RESULT;

/* (transfer full) CavScene, one a page; endless: one scene as high as it takes. (nullable) plan. */
GPtrArray *cav_template_create_scenes (CavProject *project,
                                       const CavPlan *plan,
                                       const CavSheetOptions *options,
                                       gboolean endless) G_GNUC_WARN_UNUSED_RESULT;

/* (transfer full) CavScene, one a page: the whole job in order. (nullable) plan. */
GPtrArray *cav_job_sheet_create_scenes (CavProject *project,
                                        const CavPlan *plan,
                                        const CavSheetOptions *options) G_GNUC_WARN_UNUSED_RESULT;

/* (transfer full) (nullable) with an error where the frame is not possible; (nullable) picture. */
CavScene *cav_frame_drawing_create_scene (CavProject *project,
                                          cairo_surface_t *picture,
                                          const CavSheetOptions *options,
                                          GError **error) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
