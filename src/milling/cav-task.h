/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "milling/cav-lower-line.h"
#include "milling/cav-places.h"
#include "milling/cav-planner.h"
#include "milling/cav-room.h"
#include "milling/cav-rows.h"
#include "milling/cav-scan.h"

G_BEGIN_DECLS

/* How far candidates may enter the profile: sideways the tool's outermost part is ignored, upward
 * the tip is let in; together they stay below the 0.02 mm that a pass may enter. */
#define CAV_SLACK_ASIDE 0.012
#define CAV_SLACK_UP 0.010
/* A through cut stands this much above the rail. */
#define CAV_THROUGH 0.6

/* One blade or cutter that this shop can use. */
typedef struct
{
  const CavBlade *blade; /* one of the two */
  const CavCutter *cutter;
  double bite;
  double diameter; /* greatest */
  gboolean widens; /* a cutter whose radius never falls with depth */
} CavTool;

/* One way to set up a machine. */
typedef struct
{
  CavMachine machine;
  int tool;
  double tilt;
  double angle;
  double limit;   /* greatest height */
  CavToolTop top; /* coves and cutters, narrowed by the slack */
  double minutes;
  /* Samples of the top, and of a waisted cutter's radius as it comes from the side: see
   * cav_config_get_scan. */
  CavScanTool *scan;
  CavScanTool *side_scan;
  gsize has_scan;
  gsize has_side_scan;
  /* Tables of cutters and coves at the middles of rows, micrometres: half of what the tool is wide
   * so far below its tip, and between which depths below its tip it is so wide, once or, where it
   * narrows, up to twice. They are made where they are first asked for. */
  gsize has_tables;
  gint32 *halves;
  CavSpan *depths;
  int n_halves;
  int n_depths;
  int n_layers; /* of the depths */
  int n_alike;  /* halves from the tip on that are equal */
  int n_level;  /* depths from the axis on that are equal where all others are empty, else 0 */
} CavConfig;

/* Both fences of a side that lies down: the low one is the side where its coordinate is 0. */
typedef enum
{
  CAV_FENCE_LOW,
  CAV_FENCE_HIGH,
} CavFence;

/* Where bits are set at all, in words, for each kind of bits. */
#define CAV_BIT_KINDS 4
typedef struct
{
  gint16 from[CAV_BIT_KINDS];
  gint16 to[CAV_BIT_KINDS];
} CavBitExtent;

/* One placement of one configuration: what it sweeps does not depend on the side at the fence,
 * the fence distance does. */
typedef struct
{
  int config;
  CavSide down;
  guint fences; /* bits 1 << CavFence that can be set on the grid */
  double fence[2];
  double height;
  double middle;         /* of the tool, on the axis of the low fence, at the table */
  double lean;           /* how the middle moves with height */
  double edge[2];        /* near edge at the table as seen from either fence */
  gboolean severs;       /* may free a piece */
  gboolean banned;       /* the proof has refused it wherever it stands */
  gboolean is_dominated; /* another of its configuration takes all that it takes */
  gboolean has_pilot;
  double pilot[4]; /* x0, x1 in micrometres, first and last row + 1 */
  CavSweepRows sweep;
  guint64 key;   /* of the swept rows */
  double area;   /* of waste in the full blank */
  guint64 *bits; /* cells and outline samples that it takes, or NULL; the prices' */
  CavBitExtent extent;
} CavCandidate;

/* A place on the finished outline: the surface and what lies just over it. */
typedef struct
{
  CavPoint point;
  CavPoint normal; /* out of the profile, length 1 */
  double length;   /* of outline that it stands for */
  int over_row;    /* a place right over the surface, in rows and micrometres */
  gint32 over_x;
} CavOutlineSample;

#define CAV_ARC_PLACES 24

/* At most a quarter of a circle of the outline, as places right over it, in rows and micrometres.
 */
typedef struct
{
  int n;
  int rows[CAV_ARC_PLACES];
  gint32 xs[CAV_ARC_PLACES];
  gboolean mated; /* some placement of a cutter makes all of it */
} CavOutlineArc;

/* A straight edge of the outline. */
typedef struct
{
  CavPoint from;
  CavPoint to;
} CavOutlineEdge;

/* A request in the form that the search works on. */
typedef struct
{
  CavBlank blank;
  double carrier_inside; /* of the blank's width, mm */
  double carrier_outside;
  const CavRegion *profile;
  const CavShop *shop;
  int rails;
  double metres;
  const int *cancelled;
  double pass_minutes;
  double cove_minutes;
  int n_rows;
  CavRows *profile_rows;
  CavRows *beyond_rows; /* waste farther from the profile than the limit of leftover */
  GArray *samples;      /* CavOutlineSample, where the outline is not the blank's */
  GArray *corners;      /* CavPoint: where the outline turns sharply, and its extremes */
  GArray *edges;        /* CavOutlineEdge */
  GArray *arcs;         /* CavOutlineArc */
  gboolean curved;      /* some of the outline is */
  GArray *tools;        /* CavTool */
  GArray *configs;      /* CavConfig */
  CavLowerLine *lines[CAV_N_SIDES];
  GPtrArray *candidates; /* CavCandidate */
  CavRoom room;          /* of candidates and what they sweep */
  CavPlaces places;      /* of candidates by what they are; -1 where there can be none */
  CavPlaces fresh;       /* distances that were asked for while sides are looked at */
  gboolean thorough;
} CavTask;

CavTask *cav_task_new (const CavPlanRequest *request,
                       const CavBlank *blank,
                       const CavRegion *profile) G_GNUC_WARN_UNUSED_RESULT;
void cav_task_free (CavTask *task);
gboolean cav_task_is_cancelled (const CavTask *task);
#define cav_task_config(task, i) (&g_array_index ((task)->configs, CavConfig, i))
#define cav_task_tool(task, i) (&g_array_index ((task)->tools, CavTool, i))
#define cav_task_candidate(task, i) ((CavCandidate *)g_ptr_array_index ((task)->candidates, i))

/* Index of a configuration, made where there is none yet. */
int cav_task_add_config (CavTask *task, CavMachine machine, int tool, double turn);

/* A crossed blade's ellipse with its flat, down to the blade's greatest height. */
void cav_tool_top_init_cove (CavToolTop *top, const CavBlade *blade, double degrees);

/* cav-stand.c */
/* Fills the tables of a configuration where they are not there yet; threads may share one. */

/* cav-candidate.c */
CavSide cav_fence_get_side (CavSide down, CavFence fence);
/* fence measured from that fence, both on the grid. Returns the index of the candidate, or -1 where
 * it takes nothing or is not allowed there. The same placement gives the same index. */
int cav_task_place (
    CavTask *task, int config, CavSide down, CavFence fence, double distance, double height);
/* TRUE the first time that a distance is asked for; saves looking up its height again. */
gboolean
cav_task_is_fresh (CavTask *task, int config, CavSide down, CavFence fence, double distance);

/* cav-reach.c */
/* Greatest height on the grid at which a configuration may stand at a fence distance without
 * entering the profile, 0 where it may not at all. line is the lower line for that configuration
 * and side (for tilted blades in the blade's own frame). */
double cav_reach_get_height (const CavTask *task,
                             const CavConfig *config,
                             const CavLowerLine *line,
                             CavSide down,
                             CavFence fence,
                             double distance);
/* The samples of a configuration, made where they are not there yet; threads may share one. */
const CavScanTool *cav_config_get_scan (const CavConfig *config);
/* Fills task->candidates. */
void cav_reach_collect (CavTask *task);

/* cav-outline.c */
void cav_outline_collect (CavTask *task);
/* TRUE where the sweep leaves outline that is seen from the face. */
gboolean cav_candidate_shows (const CavTask *task, const CavCandidate *candidate);

double cav_snap_down (double value, double step);
double cav_snap (double value, double step);

G_END_DECLS
