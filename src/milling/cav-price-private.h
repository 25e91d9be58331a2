/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "milling/cav-price.h"

G_BEGIN_DECLS

/* Where bits are set, kind by kind. */
void
cav_prices_measure_extent (const CavPrices *prices, const guint64 *bits, CavBitExtent *out_extent);
/* Finds the pairs of kerfs that drop a lump together; the bits of candidates are there. */
void cav_prices_collect_pairs (CavPrices *prices);

G_END_DECLS
