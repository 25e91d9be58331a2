/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <cairo.h>
#include <glib.h>

G_BEGIN_DECLS

/* Largest image that is opened: pixels on a side, and in all. */
#define CAV_PICTURE_SIDE_MAX 20000
#define CAV_PICTURE_PIXELS_MAX 150e6
/* An image is kept no larger than this on its longer side, which is more than a screen shows. */
#define CAV_PICTURE_KEPT 2400

/*
 * Reads an image file by the loaders that the system has (PNG, JPEG, TIFF, WebP ...), turned as its
 * camera meant it, on white where it is clear. (transfer full) (nullable) NULL with CAV_TOOL_ERROR
 * and a sentence that names the file. May be called in any thread.
 */
cairo_surface_t *cav_picture_load (const char *path, GError **error) G_GNUC_WARN_UNUSED_RESULT;
/* (transfer full) Where a picture that a project points to is: beside the project, where its path
 * is not a whole one. */
char *cav_picture_find (const char *picture_file,
                        const char *project_file) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
