/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "milling/cav-price.h"

G_BEGIN_DECLS

/* A single placement, or a pair of kerfs, and its rank. */
typedef struct
{
  int candidate; /* or -1 - index of the pair */
  double rank;
} CavChoice;

/* The best of all that would take something of what stands (bits), at most width, best first: what
 * they would take, by the price of each bit, per minute. out_price has the prices, minutes of hand
 * work. */
GArray *cav_greedy_rank (const CavPrices *prices,
                         const CavSequence *sequence,
                         const guint64 *standing,
                         guint width,
                         double *out_price) G_GNUC_WARN_UNUSED_RESULT;
/* Sum of the prices of the bits of a that are in b. */
double cav_greedy_sum_prices (const CavPrices *prices,
                              const double *price,
                              const guint64 *a,
                              const guint64 *b);

G_END_DECLS
