/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "milling/cav-price.h"

G_BEGIN_DECLS

/* One blank that the search works on, with the best sequence found for it so far. */
typedef struct
{
  CavTask *task;
  CavRailStore *store;
  CavPrices *prices;
  CavSequence sequence;
  CavRegion *profile; /* in this blank's coordinates */
  CavBlank blank;
  double inside; /* width of a carrier */
  double outside;
} CavSearch;

/* The request's blank, wider by a carrier where inside or outside is above 0. */
CavSearch *cav_search_new (const CavPlanRequest *request,
                           double inside,
                           double outside) G_GNUC_WARN_UNUSED_RESULT;
void cav_search_free (CavSearch *search);
/* The best search for a request, as far as its effort goes; a wider blank where that is cheaper or
 * the only way. known: nullable, what a quick search for the same request found, to begin with. */
CavSearch *cav_search_run (const CavPlanRequest *request,
                           const CavSearch *known) G_GNUC_WARN_UNUSED_RESULT;
/* Looks for another sequence after placements were forbidden; number makes each time different. */
void cav_search_repair (CavSearch *search, guint32 number);
/* Minutes of the sequence, with the search's prices, and those prices alone. */
double cav_search_get_minutes (CavSearch *search);
double cav_search_get_penalty (CavSearch *search);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CavSearch, cav_search_free)

G_END_DECLS
