/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "fuzz-target.h"

#include "storage/cav-svg-path.h"
#include "storage/cav-svg-transform.h"

/* Path data alone, without the XML around it, so that an engine gets at its inside. */
int
LLVMFuzzerTestOneInput (const guint8 *data, gsize size)
{
  g_autofree char *text = g_strndup ((const char *)data, size);
  g_autoptr (GError) error = NULL;
  CavOutlineBuilder builder;
  CavTransform transform;
  gboolean drawn;

  cav_outline_builder_init (&builder);
  drawn = cav_svg_path_draw (text, &builder, &error);
  g_assert_true (drawn == (error == NULL));
  cav_outline_builder_clear (&builder);
  /* The same letters as a list of transforms: yes or no, and no crash. */
  (void)cav_svg_transform_parse (text, &transform);
  return 0;
}
