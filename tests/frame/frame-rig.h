/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "frame/cav-frame.h"

G_BEGIN_DECLS

#define INCH 25.4

/* A rectangle of wood with a rabbet, width and depth 0 for none; mm. */
CavProfile *rig_profile_new (double width,
                             double thickness,
                             double rabbet_width,
                             double rabbet_depth) G_GNUC_WARN_UNUSED_RESULT;
/* The usual settings, without mat, for a picture of this size and allowance. */
CavFrameSettings *
rig_settings_new (double width, double height, double allowance) G_GNUC_WARN_UNUSED_RESULT;
/* How many findings have this code. */
guint rig_count_findings (const CavFrame *frame, const char *code);
/* Their severity; the test fails where there is none. */
CavFindingSeverity rig_get_severity (const CavFrame *frame, const char *code);

#define assert_near(value, wanted, tolerance)                                                      \
  g_assert_cmpfloat_with_epsilon (value, wanted, tolerance)

G_END_DECLS
