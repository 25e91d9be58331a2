/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "milling/cav-scan.h"
#include "milling/cav-task.h"

G_BEGIN_DECLS

/* How many placements of best contact are kept for one configuration and side. */
#define CAV_REACH_CONTACTS 14
#define CAV_REACH_CONTACTS_QUICK 4
/* Spacing of the first look along a side, in samples of the grid. */
#define CAV_REACH_LOOK 5
/* So near counts as contact, and so much of it is worth a placement of its own, mm. */
#define CAV_REACH_SLACK 0.03
#define CAV_REACH_LEAST_CONTACT 0.3

typedef struct _CavReachNear CavReachNear;

/* What the collectors of one side share. */
typedef struct
{
  CavTask *task;
  CavSide down;
  double reach;
  CavScanLine *scan;
  double *walls; /* where corners stand */
  int n_walls;
  CavReachNear *near[2]; /* the profile as seen from either fence, made when it is asked for */
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

/* Greatest height of a configuration over one side, on the grid. */
double cav_reach_get_top_limit (const CavTask *task, const CavConfig *config, CavSide down);

/* cav-reach-waisted.c */
/* Placements of a cutter that narrows below, from both fences. */
void cav_reach_collect_waisted (CavReachSide *side, int config);
void cav_reach_near_free (CavReachNear *near);

/* cav-reach-saw.c */
/* Configurations that a blade may be used in; there are no others while sides are collected. */
void cav_reach_add_tilts (CavTask *task, int tool);
void cav_reach_add_coves (CavTask *task, int tool);
void cav_reach_collect_tilts (CavTask *task, int tool, CavSide down);
void cav_reach_collect_coves (const CavReachSide *side, int tool);

G_END_DECLS
