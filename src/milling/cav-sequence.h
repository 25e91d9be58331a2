/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "milling/cav-rail.h"

G_BEGIN_DECLS

#define CAV_SEQUENCE_MAX 96

/* One placement in a sequence, and the fence that it is set from. */
typedef struct
{
  int candidate;
  CavFence fence;
} CavItem;

/*
 * A sequence as the search sees it: placements in the order of the work. A run of placements of
 * one configuration is a setup. Any list reads as a legal sequence, because what is not legal
 * where it stands is passed over; so every change of a list is allowed.
 */
typedef struct
{
  int n;
  CavItem items[CAV_SEQUENCE_MAX];
} CavSequence;

/* What a sequence comes to. */
typedef struct
{
  double minutes; /* with the prices of what is beyond the limit, of arcs and an unusual order */
  double setups;
  double passes;
  double hand;
  double over;
  double arcs; /* price of arcs that are left though a cutter would make them */
  double order;
  int n_done;
  int done[CAV_SEQUENCE_MAX];     /* indices of the items in the order they are done */
  guint8 feeds[CAV_SEQUENCE_MAX]; /* of each of those */
  gboolean frees;                 /* the last one frees the rail from its carrier */
  const CavRail *rail;
} CavOutcome;

/* Goes through a sequence: all but the hand work, the prices of what is left, and the minutes. */
void cav_sequence_simulate (CavRailStore *store,
                            const CavTask *task,
                            const CavSequence *sequence,
                            CavOutcome *out_outcome);
void cav_sequence_evaluate (CavRailStore *store,
                            const CavTask *task,
                            const CavSequence *sequence,
                            CavOutcome *out_outcome);
/* Minutes of setups and passes if all of it is done as it stands, in so many feeds for each item.
 */
double
cav_sequence_estimate (const CavTask *task, const CavSequence *sequence, const guint8 *feeds);
/* FALSE where the sequence is full. */
gboolean cav_sequence_insert (CavSequence *sequence, int at, CavItem item);
void cav_sequence_remove (CavSequence *sequence, int at);
/* Drops what the outcome passed over and puts the rest in the order of the work. */
void cav_sequence_settle (CavSequence *sequence, const CavOutcome *outcome);

G_END_DECLS
