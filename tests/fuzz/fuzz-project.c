/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "fuzz-target.h"
#include "storage/cav-storage.h"

/* Whatever is read as a project is written, read again and written again: the same bytes. */
int
LLVMFuzzerTestOneInput (const guint8 *data, gsize size)
{
  g_autoptr (GBytes) bytes = g_bytes_new_static (data, size);
  g_autoptr (GError) error = NULL;
  g_autoptr (CavProject) project = cav_storage_project_from_bytes (bytes, "fuzz", &error);
  g_autoptr (CavProject) again = NULL;
  g_autoptr (GBytes) written = NULL;
  g_autoptr (GBytes) rewritten = NULL;

  cav_fuzz_check_outcome (project != NULL, error);
  if (project == NULL)
    return 0;
  written = cav_storage_project_to_bytes (project);
  again = cav_storage_project_from_bytes (written, "again", &error);
  g_assert_no_error (error);
  rewritten = cav_storage_project_to_bytes (again);
  g_assert_true (g_bytes_equal (written, rewritten));
  return 0;
}
