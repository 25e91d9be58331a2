/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "drawing/cav-grain.h"
#include "milling/cav-plan.h"
#include "project/cav-length.h"

G_BEGIN_DECLS

/*
 * A pass as the canvas shows it: at its machine, fence and height as large figures, what changes
 * from the pass before, which side is down and which at the fence.
 */
typedef struct
{
  const CavPlan *plan; /* (nullable) */
  int pass;            /* counted through the setups from 0 */
  double progress;     /* how much of it is milled, 0 to 1 */
  gboolean is_stale;   /* the plan is not that of the section as it stands */
  CavUnit unit;
  int denominator;
  const char *stale_words; /* said then */
  const char *none_words;  /* where the plan has no such pass */
} CavPassContent;

/* The setup and the pass that a number means; FALSE where there is none. */
gboolean cav_plan_find_pass (const CavPlan *plan, int number, guint *out_setup, guint *out_pass);

/* Draws the whole pane, ground too. */
void cav_pass_pane_draw (cairo_t *cr, const CavPane *pane, const CavPassContent *content);

G_END_DECLS
