/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "storage/cav-file-stamp.h"

#include <sys/stat.h>

CavFileStamp
cav_file_stamp_take (const char *file_name)
{
  struct stat seen;

  g_return_val_if_fail (file_name != NULL, (CavFileStamp){ 0 });

  if (stat (file_name, &seen) != 0)
    return (CavFileStamp){ .exists = FALSE };
  return (CavFileStamp){
    .exists = TRUE,
    .device = (guint64)seen.st_dev,
    .inode = (guint64)seen.st_ino,
    .size = (gint64)seen.st_size,
    .mtime_ns = (gint64)seen.st_mtim.tv_sec * 1000000000 + seen.st_mtim.tv_nsec,
  };
}

CavFileChange
cav_file_stamp_compare (const CavFileStamp *before, const char *file_name)
{
  CavFileStamp now;

  g_return_val_if_fail (before != NULL, CAV_FILE_SAME);
  g_return_val_if_fail (file_name != NULL, CAV_FILE_SAME);

  now = cav_file_stamp_take (file_name);
  if (!now.exists)
    return before->exists ? CAV_FILE_GONE : CAV_FILE_SAME;
  if (before->exists && now.device == before->device && now.inode == before->inode
      && now.size == before->size && now.mtime_ns == before->mtime_ns)
    return CAV_FILE_SAME;
  return CAV_FILE_CHANGED;
}
