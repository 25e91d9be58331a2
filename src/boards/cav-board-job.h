/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "boards/cav-grain-order.h"
#include "profile/cav-finding.h"

G_BEGIN_DECLS

/* Defined in boards/cav-lumber.h. */
typedef struct _CavLumber CavLumber;

/* A place that the user wishes for: the rail (with the run or pair that it belongs to) begins
 * there, and the rest is laid out around it. All counts from 0. */
typedef struct
{
  int frame;
  int rail;    /* place in the order around the frame */
  int board;   /* row of CavLumber.boards */
  int copy;    /* which of the row's boards */
  int strip;   /* counted from the board's lower edge */
  int layer;   /* of a resawn strip, from the upper face */
  double from; /* mm from the board's left end */
} CavBoardPin;

/* More sides than this nobody mitres. */
#define CAV_JOB_MAX_RAILS 24
#define CAV_JOB_MAX_FRAMES 1000
/* Degrees from square; a frame of three rails has 60. */
#define CAV_JOB_MAX_MITRE 75

/*
 * What one project wants from the boards, in plain numbers. Rails are counted in the order around
 * the frame: the top one is 0, then clockwise as the frame hangs. mm and degrees.
 */
typedef struct
{
  char *name;
  char *file;       /* that it was copied from; empty: of the project itself */
  char *wood;       /* id of a CavWood; empty: any */
  double width;     /* of the prepared blank, with carrier */
  double thickness; /* of it */
  double face;      /* width of the finished molding, over which mitres run */
  double mitre;     /* of each end, from square */
  int n_rails;
  double long_points[CAV_JOB_MAX_RAILS];

  int frames;
  CavGrainOrder order;
  int run_start;
  gboolean square_first;
  double square_extra;
  double spare;
  double test;
  GArray *pins; /* CavBoardPin */
} CavBoardJob;

/* Takes what lumber says about the job, and copies it. A rectangular frame without rails yet: set
 * n_rails and long_points. */
CavBoardJob *cav_board_job_new (const CavLumber *lumber,
                                const char *name,
                                double width,
                                double thickness,
                                double face) G_GNUC_WARN_UNUSED_RESULT;
/* Four rails of a rectangle, by their long points. */
void cav_board_job_set_rectangle (CavBoardJob *job, double width, double height);
CavBoardJob *cav_board_job_copy (const CavBoardJob *job) G_GNUC_WARN_UNUSED_RESULT;
void cav_board_job_free (CavBoardJob *job);
/* Every word and every number the same. */
gboolean cav_board_job_equal (const CavBoardJob *a, const CavBoardJob *b);
/* What another state of the same project changes: all but how many frames, their order and the
 * places that were wished for, which were decided where it was joined. */
void cav_board_job_refresh (CavBoardJob *job, const CavBoardJob *newer);
gboolean cav_board_pins_equal (const GArray *a, const GArray *b);
/* (transfer full) In words what cannot be about it, or NULL. */
char *cav_board_job_explain (const CavBoardJob *job) G_GNUC_WARN_UNUSED_RESULT;
/* (transfer full) "top rail", "right rail" ... of four, else "rail 3". */
char *cav_board_job_dup_rail_name (const CavBoardJob *job, int rail) G_GNUC_WARN_UNUSED_RESULT;
/* (transfer full) The corner between a rail and the one before it: "lower left" ... */
char *cav_board_job_dup_corner_name (const CavBoardJob *job, int rail) G_GNUC_WARN_UNUSED_RESULT;

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CavBoardJob, cav_board_job_free)

G_END_DECLS
