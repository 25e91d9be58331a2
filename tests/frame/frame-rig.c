/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "frame-rig.h"

#include <string.h>

CavProfile *
rig_profile_new (double width, double thickness, double rabbet_width, double rabbet_depth)
{
  CavBlank blank = { width, thickness };
  g_autoptr (GPtrArray) cuts = g_ptr_array_new_with_free_func ((GDestroyNotify)cav_cut_free);

  if (rabbet_width > 0.0)
    {
      CavCut *cut = cav_cut_new_at_corner (CAV_CUT_RABBET, CAV_CORNER_BACK_INSIDE);

      cut->numbers[CAV_CUT_WIDTH] = rabbet_width;
      cut->numbers[CAV_CUT_DEPTH] = rabbet_depth;
      g_ptr_array_add (cuts, cut);
    }
  return cav_profile_new (&blank, cuts);
}

CavFrameSettings *
rig_settings_new (double width, double height, double allowance)
{
  CavFrameSettings *settings = cav_frame_settings_new ();

  settings->picture_width = width;
  settings->picture_height = height;
  settings->allowance = allowance;
  settings->n_mats = 0;
  return settings;
}

static const CavFinding *
find (const CavFrame *frame, const char *code, guint *out_count)
{
  const CavFinding *found = NULL;

  *out_count = 0;
  for (guint i = 0; i < frame->findings->len; i++)
    {
      const CavFinding *finding = g_ptr_array_index (frame->findings, i);

      if (strcmp (finding->code, code) != 0)
        continue;
      found = finding;
      ++*out_count;
    }
  return found;
}

guint
rig_count_findings (const CavFrame *frame, const char *code)
{
  guint count;

  find (frame, code, &count);
  return count;
}

CavFindingSeverity
rig_get_severity (const CavFrame *frame, const char *code)
{
  guint count;
  const CavFinding *finding = find (frame, code, &count);

  g_test_message ("looking for %s", code);
  g_assert_nonnull (finding);
  return finding->severity;
}
