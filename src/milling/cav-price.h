/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "milling/cav-sequence.h"

G_BEGIN_DECLS

/* Counts bits by an instruction of its own where the processor has one. */
#if defined(__x86_64__) && defined(__GNUC__) && !defined(__clang__)
#define CAV_COUNTING __attribute__ ((target_clones ("popcnt", "default")))
#else
#define CAV_COUNTING
#endif

/* Two kerfs that meet and drop a lump between them. */
typedef struct
{
  int first;
  int second;
  double minutes;
  guint64 *bits;
  CavBitExtent extent;
} CavPair;

/* Cells of one row, rising in x. */
typedef struct
{
  int row;
  int first; /* bit */
  int n;
  gint16 *before; /* cells of the row before each place of the grid, and all of them */
} CavCellRow;

/* A place over the outline that stands for some of its samples. */
typedef struct
{
  int row;
  gint32 x;
  int bit;
} CavSampleBit;

/*
 * The waste as cells and the outline as samples, one bit each: near cells first, then cells beyond
 * the limit of leftover, then samples. Every bit has a price in minutes of hand work. At the end a
 * bit for each arc: placements that make it have the bit, rails that leave it.
 */
typedef struct
{
  CavTask *task;
  CavRailStore *store;
  int n_bits;
  int n_words;
  CavBitExtent all;
  double *worth;     /* minutes of hand work that a bit stands for */
  GArray *cell_rows; /* CavCellRow, those of near cells first */
  /* Of near cells and of those beyond: for each row the first cell_rows at or above it, and the
   * end. */
  gint16 *cells_from[2];
  guint64 *sweep_bits; /* of the priced candidates, n_words each */
  GArray *samples;     /* CavSampleBit, rows rising */
  int first_arc;       /* bit */
  int kinds[CAV_BIT_KINDS
            + 1]; /* first word of near cells, of cells beyond, of samples, of arcs, and the end */
  double cell_size;      /* mm */
  double columns_micron; /* columns of cells a micrometre */
  int n_grid;
  gint32 *grid;                     /* places of cells along a row, micrometres */
  double kind_worth[CAV_BIT_KINDS]; /* of one bit of each kind, samples on the average */
  GArray *pairs;                    /* CavPair */
  int n_priced;                     /* candidates that have bits */
  int *takers;                      /* indices of candidates, by bit */
  int *taker_start;                 /* n_bits + 1 */
} CavPrices;

CavPrices *cav_prices_new (CavTask *task, CavRailStore *store) G_GNUC_WARN_UNUSED_RESULT;
void cav_prices_free (CavPrices *prices);
/* Bits that still stand in a rail; kept with the rail. */
const guint64 *cav_prices_get_rail_bits (CavPrices *prices, const CavRail *rail);
/* Sum of worth over the bits of a, which lie within an extent, that are in b. */
double cav_prices_get_worth (const CavPrices *prices,
                             const guint64 *a,
                             const CavBitExtent *extent,
                             const guint64 *b);
/* The part of it that is no wood: arcs that would be made. */
double cav_prices_get_arc_worth (const CavPrices *prices,
                                 const guint64 *a,
                                 const CavBitExtent *extent,
                                 const guint64 *b);

/* Fills takers: for each bit the candidates that take it. */
void cav_prices_index_takers (CavPrices *prices);

/* Adds the placements that pay best, one after the other, until none pays. */
void cav_greedy_extend (CavPrices *prices, CavSequence *sequence);
/* Drops placements and setups that do not pay; joins and orders what is left. */
void cav_greedy_prune (CavPrices *prices, CavSequence *sequence);
/* Brings setups into the order that the trade agrees on, where that costs nothing. */
void cav_greedy_order (CavPrices *prices, CavSequence *sequence);
/* Anneals the list for a number of trials, from a temperature in minutes down. */
void cav_anneal (CavPrices *prices, CavSequence *sequence, int n_trials, double hot, guint32 seed);
/* Shifts and exchanges placements one by one until none gets better. */
void cav_polish (CavPrices *prices, CavSequence *sequence);

G_END_DECLS
