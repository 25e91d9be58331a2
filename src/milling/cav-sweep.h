/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "milling/cav-plan.h"

G_BEGIN_DECLS

/*
 * All that a tool passes through, exact but for chords within CAV_TOLERANCE_CHORD, in the blank's
 * coordinates. growth widens it on all sides: a hair for subtraction, so that cuts that share a
 * wall leave no film. What would stand below the table is left out where growth is 0, and goes 1 mm
 * down otherwise. NULL without error where the setting names no tool.
 */
typedef struct
{
  CavMachine machine;
  const CavBlade *blade;
  const CavCutter *cutter;
  double tilt;
  double angle;
  CavSide down;
  CavSide against;
  double fence;
  double height;
} CavSweepSetting;

CavRegion *cav_sweep_create_region (const CavSweepSetting *setting,
                                    const CavBlank *blank,
                                    double growth,
                                    GError **error) G_GNUC_WARN_UNUSED_RESULT;
/* The pilot bearing, drawn in by inset on all sides; NULL where there is none. */
CavRegion *cav_sweep_create_pilot (const CavSweepSetting *setting,
                                   const CavBlank *blank,
                                   double inset) G_GNUC_WARN_UNUSED_RESULT;
/* Middle of the tool at the table and its lean, near edge at the table, all from the fence. */
double cav_sweep_get_middle (const CavSweepSetting *setting);
double cav_sweep_get_near_edge (const CavSweepSetting *setting);

G_END_DECLS
