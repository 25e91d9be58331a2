/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <cairo.h>

#include "drawing/cav-frame-face.h"
#include "drawing/cav-frame-grain.h"
#include "drawing/cav-scene.h"

G_BEGIN_DECLS

/*
 * The frame as it would hang: wall, frame, mat, picture. Figure, wall and picture are painted once
 * for a size and kept; cav_preview_shade() lets the light fall on them, fast enough to follow a
 * hand that drags it. Not to be shared by threads, but may be made in one and used in another.
 */
typedef struct _CavPreview CavPreview;

/* Widest and highest picture, pixels. */
#define CAV_PREVIEW_MAX 16384

/* (nullable) NULL where the frame is not possible or the size is none. frame and profile are not
 * kept. (nullable) picture is not kept either; NULL: a neutral drawing. (nullable) grain: where the
 * rails grew; NULL: one after another. */
CavPreview *cav_preview_new (const CavFrame *frame,
                             const CavProfile *profile,
                             const CavFrameGrain *grain,
                             cairo_surface_t *picture,
                             int width,
                             int height) G_GNUC_WARN_UNUSED_RESULT;
void cav_preview_free (CavPreview *self);
/* (transfer none) An image surface, lit from a direction: degrees clockwise from the top, and above
 * the wall. The next call paints into the same surface. */
cairo_surface_t *cav_preview_shade (CavPreview *self, double light_angle, double light_height);
/* Pixels for each mm; the frame's middle is the picture's. */
double cav_preview_get_scale (const CavPreview *self);

/* (transfer full) The same as a file; light comes from where the settings say. */
GBytes *cav_preview_create_png (const CavFrame *frame,
                                const CavProfile *profile,
                                const CavFrameGrain *grain,
                                cairo_surface_t *picture,
                                int width,
                                int height,
                                GError **error) G_GNUC_WARN_UNUSED_RESULT;

/*
 * The same as lines and areas, at full size with wall around it, mm: each rail a gradient of its
 * own under the light of the settings, the picture as an image. (nullable) NULL where the frame is
 * not possible. title: what the drawing is called.
 */
CavScene *cav_preview_create_scene (const CavFrame *frame,
                                    const CavProfile *profile,
                                    const CavFrameGrain *grain,
                                    cairo_surface_t *picture,
                                    const char *title) G_GNUC_WARN_UNUSED_RESULT;
/* Puts the frame's picture, without wall, into a box of another scene, as a layer of its own; the
 * shape is kept and the rest of the box left free. FALSE where the frame is not possible. */
gboolean cav_preview_add_to_scene (CavScene *scene,
                                   const char *id,
                                   const CavFrame *frame,
                                   const CavProfile *profile,
                                   const CavFrameGrain *grain,
                                   cairo_surface_t *picture,
                                   CavBox box);

/* Paints a neutral picture, a pressed fern on paper, into a box of this size at the origin. */
void cav_draw_fern (cairo_t *cr, double width, double height);
/* Paints what keeps the place of a picture that is not there: an empty sheet, crossed out thinly.
 */
void cav_draw_missing_picture (cairo_t *cr, double width, double height);
/* Paints the user's picture so that it fills the box and keeps its shape, or the fern. */
void cav_draw_picture (cairo_t *cr, cairo_surface_t *picture, double width, double height);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CavPreview, cav_preview_free)

G_END_DECLS
