/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <gio/gio.h>

G_BEGIN_DECLS

typedef enum
{
  CAV_FILE_SAME,    /* as it was read or written last, or there is no file yet */
  CAV_FILE_CHANGED, /* somebody else has written it */
  CAV_FILE_GONE,    /* deleted, or moved away */
} CavFileState;

/* Notices when another program changes or deletes a file. Notifies of "state". */
#define CAV_TYPE_FILE_WATCH (cav_file_watch_get_type ())
G_DECLARE_FINAL_TYPE (CavFileWatch, cav_file_watch, CAV, FILE_WATCH, GObject)

CavFileWatch *cav_file_watch_new (void) G_GNUC_WARN_UNUSED_RESULT;

/* From now on this file (nullable), which is taken as it was when it had the stamp (nullable: as it
 * is found). */
void cav_file_watch_set_file (CavFileWatch *self, GFile *file, const char *stamp);
CavFileState cav_file_watch_get_state (CavFileWatch *self);
/* (nullable) */
const char *cav_file_watch_get_stamp (CavFileWatch *self);
/* Between these nothing is noticed: the writing is our own. They nest. */
void cav_file_watch_pause (CavFileWatch *self);
void cav_file_watch_resume (CavFileWatch *self);
/* Takes the file as it is now for known: nothing is said until the next change. */
void cav_file_watch_accept (CavFileWatch *self);

/* (nullable) (transfer full) Something that is another after every writing of the file; NULL where
 * there is no such file. Blocks. */
char *cav_file_stamp (GFile *file) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
