/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "milling/cav-rail.h"

G_BEGIN_DECLS

#define CAV_ROW_SPANS_MAX 16
/* A row of a rail has no more; where a sweep would leave more it does nothing. */
#define CAV_RAIL_SPANS_MOST (CAV_ROW_SPANS_MAX - 4)
/* Below this a pass takes nothing, mm². */
#define CAV_REMOVED_LEAST 0.02

/* A section in the making, in bands. */
typedef struct
{
  int n_bands;
  gint32 *ends;
  gint32 *first;
  CavSpan *spans;
  int *parent; /* of each span: the first span of its piece */
  int from;    /* bands below and above what was swept last */
  int to;
  gboolean is_whole; /* one piece */
  gboolean has_sums; /* of all of it */
  CavSums sums;
} CavScratch;

struct _CavRailStore
{
  CavTask *task;
  CavRail *rails;
  int n_rails;
  int hand; /* of the clock */
  guint clock;
  GHashTable *by_key; /* key -> CavRail */
  CavStep *steps;     /* direct mapped, 1 << step_bits */
  int step_bits;
  GHashTable *forbidden; /* of step keys mixed with fence */
  guint n_computed;
  gint32 width;
  double last_share; /* of the last row, where the thickness is off the grid */
  CavBands *beyond;
  CavBands *profile;
  int seed_row;
  gint32 seed_x;
  int *sample_rows;
  gint32 *sample_xs;
  CavScratch scratch;
  int *columns; /* rows taken from each column */
  int n_words;  /* of bits */
};

/* Width of a column, micrometres. */
#define CAV_COLUMN 250

/* Adds the rows from r0 to r1 of a span. */
static inline void
cav_sums_add (CavSums *sums, int r0, int r1, gint32 a, gint32 b)
{
  gint64 area = (gint64)(b - a) * (r1 - r0);

  sums->area += area;
  sums->moment_x += area * (a + b);
  sums->moment_y += area * (r0 + r1);
}

/* TRUE where a step says how thick the layer is that it takes: a light last feed is known by it,
 * and machines have their limits. */
static inline gboolean
cav_rail_store_needs_layer (const CavRailStore *store, const CavCandidate *candidate)
{
  const CavConfig *config = cav_task_config (store->task, candidate->config);

  return store->task->shop->light_finish || config->machine == CAV_MACHINE_COVE
         || (config->machine == CAV_MACHINE_ROUTER
             && candidate->height > cav_task_tool (store->task, config->tool)->diameter);
}

/* Joins spans that touch in neighbouring bands. Returns the number of pieces; parent then holds the
 * first span of every span's piece where there are several. What was one piece still is where all
 * that was swept, and what is right below and above it, hangs together: everything else hangs on
 * that. So bands are joined from there on up and then down, until they do. */
int cav_scratch_find_pieces (CavScratch *s, gboolean was_whole);
/* Area, centroid, box and lands of one piece of the scratch. */
void cav_rail_store_measure (const CavRailStore *store, int piece, CavStanding *standing);
/* Keeps one piece of the scratch as a rail; piece -1: all of it. */
void cav_rail_store_keep (CavRailStore *store, int piece, CavRail *rail);

/*
 * Takes a sweep from a rail: the scratch then holds what is left, in pieces. FALSE where it takes
 * nothing or stands in the way of its own pilot. out_piece is the piece that is the rail, or -1
 * where there is only one; step gets what was removed, feeds and fences.
 */
gboolean cav_rail_store_take (CavRailStore *store,
                              const CavRail *rail,
                              const CavCandidate *candidate,
                              CavStep *step,
                              int *out_piece);

G_END_DECLS
