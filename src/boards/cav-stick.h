/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "boards/cav-sawing.h"

G_BEGIN_DECLS

typedef enum
{
  CAV_PIECE_RAIL,
  CAV_PIECE_SPARE, /* molding to spare */
  CAV_PIECE_TEST,  /* blank to try settings on */
} CavPieceKind;

/* A piece in a stick, from the stick's left end. */
typedef struct
{
  CavPieceKind kind;
  int frame;
  int rail; /* -1 for what is no rail */
  int lane; /* 0, or 1 in the second lane of a wide stick */
  double from;
  double length;
  gboolean reversed; /* the way around the frame runs from right to left: the opened leaf */
} CavStickPiece;

/* Pieces that keep together: a rail, a run, a pair, short rails that are milled in one length. */
typedef struct
{
  int job;
  int family;
  gboolean wide;
  double length;
  double kerf;    /* along the strip, to whatever comes next */
  GArray *pieces; /* CavStickPiece */
} CavStick;

/* What jobs ask of the boards. */
typedef struct
{
  GArray *families;  /* CavStripFamily */
  GPtrArray *sticks; /* CavStick */
} CavDemand;

/* Along the strip: a mitre's kerf is longer than the blade is wide. */
double cav_stick_get_kerf (const CavLumber *lumber, const CavBoardJob *job);
/* What comes of the order that was asked for: a book needs an even number of rails, and so do
 * pairs. */
CavGrainOrder cav_stick_get_order (const CavBoardJob *job);

/* The rail that a run begins with: run_start, brought to one that there is. */
int cav_stick_get_start (const CavBoardJob *job);
/* jobs: CavBoardJob; those that are not sound ask for nothing. */
CavDemand *cav_demand_new (const CavLumber *lumber,
                           const GPtrArray *jobs) G_GNUC_WARN_UNUSED_RESULT;
void cav_demand_free (CavDemand *demand);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CavDemand, cav_demand_free)

G_END_DECLS
