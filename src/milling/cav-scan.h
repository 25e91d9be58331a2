/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "milling/cav-lower-line.h"

G_BEGIN_DECLS

/*
 * Fast scanning for good placements: the lower line of a side and the top of a tool, both sampled
 * on the grid of settings, in whole micrometres, so that a whole tool is compared by vector
 * instructions. What is found here is a proposal; heights are then taken from the exact line.
 */
#define CAV_SCAN_STEP 0.05

typedef struct
{
  int n;         /* samples 0 .. n - 1, at i times the step */
  int margin;    /* open samples on both ends */
  int wood_from; /* of all samples, margins and all, those outside of these are open */
  int wood_to;
  gint32 *heights; /* margin + n + margin */
  gint32 *mirrored;
  gint32 *n_grounded; /* how many samples before each, and in all, lie on the table */
} CavScanLine;

typedef struct
{
  int n;          /* samples from the axis outward (or from the tip down) */
  int n_flat;     /* of them less than a step below the tip */
  gint32 *depths; /* of tools that come from the side */
  gint32 *across; /* of tools that come from below: 2 n - 1 from rim to rim */
} CavScanTool;

/* margin: the widest tool that will be used, in samples. */
CavScanLine *
cav_scan_line_new (const CavLowerLine *line, double reach, int margin) G_GNUC_WARN_UNUSED_RESULT;
void cav_scan_line_free (CavScanLine *line);
/* Room for the depths of n samples. */
gint32 *cav_scan_depths_new (guint n) G_GNUC_WARN_UNUSED_RESULT;
/* Depth of the top over distance from the axis. */
CavScanTool *cav_scan_tool_new (const CavToolTop *top) G_GNUC_WARN_UNUSED_RESULT;
void cav_scan_tool_free (CavScanTool *tool);

/* How high the tip may stand with its axis on sample i, mm; CAV_LOWER_LINE_OPEN where nothing is
 * in the way. i may lie outside of the line by up to its margin. */
double cav_scan_get_tip (const CavScanLine *line, const CavScanTool *tool, int i);
/* TRUE where wood on the table keeps the tip from rising by a whole step. */
gboolean cav_scan_is_blocked (const CavScanLine *line, const CavScanTool *tool, int i);
/* Width over which the line lies within slack of the tool that stands there, mm. */
double cav_scan_get_contact (
    const CavScanLine *line, const CavScanTool *tool, int i, double tip, double slack);
/* The same for a tool that comes from the side, its samples running down from sample i: depths then
 * hold its radius below the tip, with a minus. */
double cav_scan_get_side (const CavScanLine *line, const CavScanTool *tool, int i);
double cav_scan_get_side_contact (
    const CavScanLine *line, const CavScanTool *tool, int i, double distance, double slack);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CavScanLine, cav_scan_line_free)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (CavScanTool, cav_scan_tool_free)

G_END_DECLS
