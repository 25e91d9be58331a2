/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/* text says what was written. */
typedef void (*CavFileWritten) (GtkWindow *parent, const char *text);

/* Writes what was drawn, off the main thread, whole or not at all, and says so; a failure is told
 * in a dialog. bytes (nullable) (transfer full); (nullable) error where they are NULL. */
void cav_write_file (
    GtkWindow *parent, GFile *file, GBytes *bytes, const GError *error, CavFileWritten written);

/* What is told of a file that was written: its name and its folder's. */
char *cav_written_words_new (GFile *file) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
