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

/*
 * Prices of bits as shares of what hand work on them costs, as whole numbers: bit k of the numbers
 * of word w is in planes[w * CAV_PRICE_PLANES + k], so that many are added at once.
 */
#define CAV_PRICE_PLANES 10
#define CAV_PRICE_WHOLE ((1 << CAV_PRICE_PLANES) - 1)

/* The best of all that would take something of what stands (bits), at most width, best first: what
 * they would take, by the price of each bit, per minute. out_planes has the prices. */
GArray *cav_greedy_rank (const CavPrices *prices,
                         const CavSequence *sequence,
                         const guint64 *standing,
                         guint width,
                         guint64 *out_planes) G_GNUC_WARN_UNUSED_RESULT;
/* Sum of the prices of the bits of a, which lie within an extent, that are in b, minutes of hand
 * work. */
double cav_greedy_sum_prices (const CavPrices *prices,
                              const guint64 *planes,
                              const guint64 *a,
                              const CavBitExtent *extent,
                              const guint64 *b);

G_END_DECLS
