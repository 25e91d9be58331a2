/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* What is seen of a file from outside, to notice when somebody else has replaced, changed or
 * deleted it. Links are followed. */
typedef struct
{
  gboolean exists;
  guint64 device;
  guint64 inode;
  gint64 size;
  gint64 mtime_ns; /* when its content last changed, nanoseconds since 1970 */
} CavFileStamp;

typedef enum
{
  CAV_FILE_SAME,
  CAV_FILE_CHANGED, /* another file stands there, its content changed, or there was none before */
  CAV_FILE_GONE,
} CavFileChange;

/* Taken before a file is read, or after it was written, a change can be noticed late but not
 * missed. What cannot be looked at counts as not there. */
CavFileStamp cav_file_stamp_take (const char *file_name);
CavFileChange cav_file_stamp_compare (const CavFileStamp *before, const char *file_name);

G_END_DECLS
