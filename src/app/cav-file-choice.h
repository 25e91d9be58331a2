/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/* The kinds of file that people choose. */
typedef enum
{
  CAV_FILE_PROJECT, /* .cavetto */
  CAV_FILE_SHOP,    /* .xml */
  CAV_FILE_PLAN,    /* .xml */
  CAV_FILE_SVG,
  CAV_FILE_PDF,
  CAV_FILE_PNG,
  CAV_FILE_PICTURE, /* any that can be read; to open only */
} CavFileKind;

#define CAV_PROJECT_MIME_TYPE "application/x-cavetto+xml"

/* file (transfer none) is never NULL: where nothing was chosen the function is not called. */
typedef void (*CavFileChosen) (GFile *file, gpointer user_data);

/* Asks for a file to read. Nothing happens any more once parent is gone. */
void cav_choose_file_to_open (
    GtkWindow *parent, const char *title, CavFileKind kind, CavFileChosen chosen, gpointer data);
/* Asks for a file to write; name is proposed, with the ending of the kind, and the ending is added
 * where it was left out. */
void cav_choose_file_to_save (GtkWindow *parent,
                              const char *title,
                              CavFileKind kind,
                              const char *name,
                              CavFileChosen chosen,
                              gpointer data);

/** The file to write where the ending was left out: "frame" becomes "frame.cavetto". */
GFile *cav_file_add_ending (GFile *file, CavFileKind kind) G_GNUC_WARN_UNUSED_RESULT;

/* Says in a dialog what went wrong; body is a sentence. */
void cav_tell_failure (GtkWindow *parent, const char *heading, const char *body);

G_END_DECLS
