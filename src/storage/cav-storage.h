/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "project/cav-project.h"

G_BEGIN_DECLS

typedef enum
{
  CAV_STORAGE_ERROR_READ = 1, /* missing, not readable */
  CAV_STORAGE_ERROR_TOO_LARGE,
  CAV_STORAGE_ERROR_NOT_XML,
  CAV_STORAGE_ERROR_WRONG_KIND, /* XML of something else */
  CAV_STORAGE_ERROR_NEWER,      /* a version that this program does not know yet */
  CAV_STORAGE_ERROR_CONTENT,    /* unknown element, missing attribute, bad number */
  CAV_STORAGE_ERROR_WRITE,
} CavStorageError;
#define CAV_STORAGE_ERROR (cav_storage_error_quark ())
GQuark cav_storage_error_quark (void);

/* The most of a file that is read: projects, shops and pictures. */
#define CAV_STORAGE_MAX_MEGABYTES 10
#define CAV_STORAGE_MAX_BYTES (CAV_STORAGE_MAX_MEGABYTES * 1000000)

/* Messages are one line: file name, line where there is one, what, and what to do. */
CavProject *cav_storage_load_project (const char *file_name,
                                      GError **error) G_GNUC_WARN_UNUSED_RESULT;
gboolean cav_storage_save_project (CavProject *project,
                                   const char *file_name,
                                   GError **error) G_GNUC_WARN_UNUSED_RESULT;
CavShop *cav_storage_load_shop (const char *file_name, GError **error) G_GNUC_WARN_UNUSED_RESULT;
gboolean cav_storage_save_shop (const CavShop *shop,
                                const char *file_name,
                                GError **error) G_GNUC_WARN_UNUSED_RESULT;
/* The plan file (docs/plan-file.md); "-" is standard output. */
gboolean cav_storage_save_plan (const CavPlan *plan,
                                const char *file_name,
                                GError **error) G_GNUC_WARN_UNUSED_RESULT;
/* Reads the one closed outline of an SVG picture: millimetres by width, height and viewBox; y down.
 * *out_width and *out_height are the picture's size. (transfer full) */
CavPath *cav_storage_load_outline (const char *file_name,
                                   double *out_width,
                                   double *out_height,
                                   GError **error) G_GNUC_WARN_UNUSED_RESULT;
/* The same from and to memory; name is what messages call the bytes. Pure: they read and write
 * nothing but their arguments. (transfer full) */
CavProject *cav_storage_project_from_bytes (GBytes *bytes,
                                            const char *name,
                                            GError **error) G_GNUC_WARN_UNUSED_RESULT;
GBytes *cav_storage_project_to_bytes (CavProject *project) G_GNUC_WARN_UNUSED_RESULT;
CavShop *cav_storage_shop_from_bytes (GBytes *bytes,
                                      const char *name,
                                      GError **error) G_GNUC_WARN_UNUSED_RESULT;
GBytes *cav_storage_shop_to_bytes (const CavShop *shop) G_GNUC_WARN_UNUSED_RESULT;
/* Errors: CONTENT where the plan has not been proved or its profile has a hole, which the format
 * cannot say. */
GBytes *cav_storage_plan_to_bytes (const CavPlan *plan, GError **error) G_GNUC_WARN_UNUSED_RESULT;
CavPath *cav_storage_outline_from_bytes (GBytes *bytes,
                                         const char *name,
                                         double *out_width,
                                         double *out_height,
                                         GError **error) G_GNUC_WARN_UNUSED_RESULT;

/* Writes all of data or leaves the old file as it was; "-" is standard output. */
gboolean cav_storage_write (const char *file_name, const void *data, gsize length, GError **error)
    G_GNUC_WARN_UNUSED_RESULT;
/* Takes a file away that a broken-off write has left, where nobody can be writing it any more. TRUE
 * where the name, in folder, is one of such a file, whether it is old enough or not. */
gboolean cav_storage_clear_temporary (const char *folder, const char *name);

G_END_DECLS
