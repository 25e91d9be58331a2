/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/cav-mat-words.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#include "drawing/cav-words-private.h"

/* Borders that differ by less are cut alike, mm. */
#define ALIKE 0.05

static gboolean
is_alike (double a, double b)
{
  return fabs (a - b) < ALIKE;
}

char *
cav_words_describe_mat_borders (const CavFrame *frame, int mat, const CavSheetOptions *options)
{
  g_return_val_if_fail (frame != NULL && options != NULL, NULL);

  const CavBorders borders = cav_frame_get_mat_borders (frame, mat);
  g_autofree char *left = cav_words_format_unit (borders.left, options);
  g_autofree char *right = cav_words_format_unit (borders.right, options);
  g_autofree char *top = cav_words_format_unit (borders.top, options);
  g_autofree char *bottom = cav_words_format_unit (borders.bottom, options);

  if (!is_alike (borders.left, borders.right))
    /* Translators: borders of a mat, lengths. */
    return g_strdup_printf (_ ("borders: %s left, %s right, %s at the top, %s at the bottom"), left,
                            right, top, bottom);
  if (is_alike (borders.left, borders.top) && is_alike (borders.left, borders.bottom))
    return g_strdup_printf (_ ("a border of %s all around"), left);
  return g_strdup_printf (_ ("borders: %s left and right, %s at the top, %s at the bottom"), left,
                          top, bottom);
}
