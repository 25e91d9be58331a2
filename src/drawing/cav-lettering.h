/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <pango/pangocairo.h>

G_BEGIN_DECLS

/*
 * Letters by the height of their capitals and figures, in millimetres, whatever font answers to
 * the generic family. Measures are taken without hinting, so that they hold at any scale. Not to
 * be shared by threads.
 */
typedef struct _CavLettering CavLettering;

#define CAV_LETTERING_FAMILY "sans-serif"

CavLettering *cav_lettering_new (void) G_GNUC_WARN_UNUSED_RESULT;
void cav_lettering_free (CavLettering *self);

/* Size of the font (its em) whose capitals and figures are at least that high. */
double cav_lettering_get_font_size (CavLettering *self, double height);
double cav_lettering_get_width (CavLettering *self, const char *text, double height, gboolean bold);
/* (transfer full) text as one line fit for any sheet: valid UTF-8, no control characters, no line
 * breaks, no marks that turn the direction of what follows. */
char *cav_lettering_clean (const char *text) G_GNUC_WARN_UNUSED_RESULT;
/* (transfer full) text, shortened with … where it is wider than width; may be empty. */
char *cav_lettering_ellipsize (CavLettering *self,
                               const char *text,
                               double height,
                               gboolean bold,
                               double width) G_GNUC_WARN_UNUSED_RESULT;
/* (transfer full) text broken at spaces (no-break spaces hold, and become plain ones) into lines no
 * wider than width, at most max_lines (0: any number) of them; the last one is shortened where
 * more would follow. */
GPtrArray *cav_lettering_wrap (CavLettering *self,
                               const char *text,
                               double height,
                               gboolean bold,
                               double width,
                               guint max_lines) G_GNUC_WARN_UNUSED_RESULT;
/* (transfer full) what cav_lettering_show() draws with, for a whole drawing on cr, whose unit is
 * 1 mm. */
PangoLayout *cav_lettering_create_layout (CavLettering *self,
                                          cairo_t *cr) G_GNUC_WARN_UNUSED_RESULT;
/* Draws text with its baseline's left end at the current point of cr. */
void cav_lettering_show (CavLettering *self,
                         PangoLayout *layout,
                         cairo_t *cr,
                         const char *text,
                         double height,
                         gboolean bold);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CavLettering, cav_lettering_free)

G_END_DECLS
