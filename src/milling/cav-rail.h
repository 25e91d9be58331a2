/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "milling/cav-bands.h"
#include "milling/cav-task.h"

G_BEGIN_DECLS

/* Where a section touches on one side of the blank: lands only, along the side's axis. */
typedef struct
{
  double first;
  double last;
  double total;
} CavLands;

/* What stands of a rail, and what support it offers. */
typedef struct
{
  double area;
  CavPoint centroid;
  CavBox box;
  CavLands lands[CAV_N_SIDES];
} CavStanding;

/* Sums over the rows of a section, the last one as if it were a full one: micrometres, rows, and
 * twice the moments. They are whole numbers, so that what goes can be taken off them. */
typedef struct
{
  gint64 area;
  gint64 moment_x;
  gint64 moment_y;
} CavSums;

/* A rail after a set of passes; its shape does not depend on their order, so the set is its key. */
typedef struct
{
  guint64 key;
  CavBands bands;
  gint32 *room; /* that the bands lie in */
  int n_room;
  gboolean is_whole; /* one piece, as all but those are that have lost the seed */
  gboolean has_sums;
  CavSums sums;
  gboolean has_standing;
  CavStanding standing; /* see cav_rail_get_standing */
  gboolean has_hand;
  double hand;           /* minutes of hand work that are left */
  double over;           /* area of leftover beyond the limit, mm² */
  double arcs;           /* price of mated arcs that are left, below 0 where not counted yet */
  guint64 *bits;         /* cells and samples still standing, or NULL */
  gboolean has_arc_bits; /* those of arcs too */
  guint stamp;           /* when it was last used */
} CavRail;

/* What one placement does to one rail. */
typedef struct
{
  guint64 rail;  /* key of the rail before; 0: free */
  guint64 sweep; /* key of the sweep */
  guint64 next;  /* key of the rail after */
  float removed;
  float layer;     /* thickest taken upward; 0 where nothing asks for it */
  guint8 n_passes; /* 0: takes nothing, or hits its pilot */
  guint8 fences;   /* bits 1 << CavFence: legal but for support of the rail */
  guint8 frees;    /* bits 1 << CavFence: the rail itself falls free there */
} CavStep;

typedef struct _CavRailStore CavRailStore;

CavRailStore *cav_rail_store_new (CavTask *task) G_GNUC_WARN_UNUSED_RESULT;
void cav_rail_store_free (CavRailStore *store);
/* How many words the bits of rails and placements have. */
void cav_rail_store_set_bits (CavRailStore *store, int n_words);
/* The blank. Rails stay valid until a few hundred others were asked for. */
const CavRail *cav_rail_store_get_blank (CavRailStore *store);
/* What candidate does to rail; out_next is NULL where it does nothing. */
const CavStep *cav_rail_store_step (CavRailStore *store,
                                    const CavRail *rail,
                                    const CavCandidate *candidate,
                                    const CavRail **out_next);
/* The same, but out_next is what would be left even where no fence is legal: with the same
 * placements in another order it may be. */
const CavStep *cav_rail_store_look (CavRailStore *store,
                                    const CavRail *rail,
                                    const CavCandidate *candidate,
                                    const CavRail **out_next);
/* TRUE where candidate drops a piece of rail; nothing else is found out or kept. */
gboolean
cav_rail_store_drops (CavRailStore *store, const CavRail *rail, const CavCandidate *candidate);
/* What a step would say is removed, without taking it; 0 where it does nothing. FALSE where that is
 * not told so simply, as where a layer is asked for: the step has to be taken. */
gboolean cav_rail_store_weigh (const CavRailStore *store,
                               const CavRail *rail,
                               const CavCandidate *candidate,
                               double *out_removed);
/* Never to be done again, the proof has refused it. */
void cav_rail_store_forbid (CavRailStore *store,
                            guint64 rail,
                            const CavCandidate *candidate,
                            CavFence fence);
/* What support a rail offers; worked out where somebody asks. */
const CavStanding *cav_rail_get_standing (const CavRailStore *store, const CavRail *rail);
/* Hand work that a rail leaves, with the heavy price of leftover beyond the limit. */
void
cav_rail_get_hand (CavRailStore *store, const CavRail *rail, double *out_minutes, double *out_over);
/* What the search pays for mated arcs that a rail leaves, minutes. */
double cav_rail_get_arcs (CavRailStore *store, const CavRail *rail);
/* Wood that always stays. */
CavPoint cav_rail_store_get_seed (const CavRailStore *store);
guint cav_rail_store_count_steps (const CavRailStore *store);

/* Feeds that a layer of that thickness takes in coving. */
int cav_count_cove_feeds (const CavLimits *limits, double layer);

/* Rules of support, on table and at the fence. */
gboolean cav_standing_is_supported (const CavStanding *standing,
                                    const CavBlank *blank,
                                    CavSide down,
                                    CavFence fence);

G_END_DECLS
