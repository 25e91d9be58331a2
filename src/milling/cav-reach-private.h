/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "milling/cav-scan.h"
#include "milling/cav-task.h"

G_BEGIN_DECLS

/* What the collectors of one side share. */
typedef struct
{
  CavTask *task;
  CavSide down;
  double reach;
  CavScanLine *scan;
} CavReachSide;

/* A placement that a scan found: axis, height and the contact that it has. */
typedef struct
{
  double u;
  double height;
  double contact;
} CavReachFound;

int cav_reach_compare_contacts (const void *a, const void *b);
/* Both neighbours on the grid of an axis, at the greatest height there; from the high fence too
 * where the blank puts its settings off the low one's grid. */
void cav_reach_place_near (CavTask *task, int config, CavSide down, double axis);

/* cav-reach-saw.c */
/* Configurations that a blade may be used in; there are no others while sides are collected. */
void cav_reach_add_tilts (CavTask *task, int tool);
void cav_reach_add_coves (CavTask *task, int tool);
void cav_reach_collect_tilts (CavTask *task, int tool, CavSide down);
void cav_reach_collect_coves (const CavReachSide *side, int tool);

G_END_DECLS
