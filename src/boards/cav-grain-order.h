/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* How the grain goes from rail to rail of one frame. */
typedef enum
{
  CAV_GRAIN_FREE,    /* rails wherever they fit: least waste */
  CAV_GRAIN_PAIRS,   /* opposite rails side by side in neighbouring strips: equal colour */
  CAV_GRAIN_RUNNING, /* all rails of a frame in one run, in the order around it */
  CAV_GRAIN_BOOK,    /* two halves of a frame in a strip resawn and opened like a book */
} CavGrainOrder;
#define CAV_N_GRAIN_ORDERS 4

/* The words that stand in files: "free", "pairs", "running", "book". */
const char *cav_grain_order_to_string (CavGrainOrder order);
gboolean cav_grain_order_from_string (const char *string, CavGrainOrder *out_order);

G_END_DECLS
