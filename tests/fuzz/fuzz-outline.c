/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "fuzz-target.h"

#include <math.h>

#include "storage/cav-storage.h"

/* An outline that is read is closed and finite, and so is the picture around it. */
int
LLVMFuzzerTestOneInput (const guint8 *data, gsize size)
{
  g_autoptr (GBytes) bytes = g_bytes_new_static (data, size);
  g_autoptr (GError) error = NULL;
  double width = 0.0;
  double height = 0.0;
  g_autoptr (CavPath) path
      = cav_storage_outline_from_bytes (bytes, "fuzz", &width, &height, &error);

  cav_fuzz_check_outcome (path != NULL, error);
  if (path == NULL)
    return 0;
  g_assert_true (isfinite (width) && isfinite (height) && width > 0.0 && height > 0.0);
  g_assert_true (cav_path_is_closed (path));
  g_assert_true (cav_point_is_finite (cav_path_get_start (path)));
  return 0;
}
