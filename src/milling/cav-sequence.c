/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "milling/cav-sequence.h"

#include <math.h>
#include <string.h>

gboolean
cav_sequence_insert (CavSequence *sequence, int at, CavItem item)
{
  if (sequence->n >= CAV_SEQUENCE_MAX)
    return FALSE;
  memmove (&sequence->items[at + 1], &sequence->items[at],
           sizeof (CavItem) * (gsize)(sequence->n - at));
  sequence->items[at] = item;
  sequence->n++;
  return TRUE;
}

void
cav_sequence_remove (CavSequence *sequence, int at)
{
  memmove (&sequence->items[at], &sequence->items[at + 1],
           sizeof (CavItem) * (gsize)(sequence->n - at - 1));
  sequence->n--;
}

/* Most published sequences feed a hollow across the blade while the blank still has all its
 * square sides, before bevels (five of six; one bevels first), so it is a preference and no rule: a
 * plan that turns it round has to save more than this (minutes).
 */
#define ORDER_PRICE 6.0
/* A carrier steadies the rail until it is sawn off, which is why it is there: every pass after that
 * has to save more than this (minutes). */
#define CARRIER_PRICE 6.0

void
cav_sequence_settle (CavSequence *sequence, const CavOutcome *outcome)
{
  CavSequence settled = { .n = outcome->n_done };

  for (int i = 0; i < outcome->n_done; i++)
    settled.items[i] = sequence->items[outcome->done[i]];
  *sequence = settled;
}

/* The machines as the work left them. */
typedef struct
{
  int config; /* of the setup at hand, -1 before the first */
  int blade;  /* tool in the saw */
  int cutter; /* tool in the router */
  const CavCandidate *last;
  CavFence fence;
  gboolean bevelled; /* a tilted blade has taken something */
  gboolean hollowed; /* a blade across has, after that */
} Machines;

/* Minutes of what comes before a pass: setup, or turn and move. */
static double
get_preparation (const CavTask *task, Machines *m, const CavCandidate *c, CavFence fence)
{
  const CavRates *rates = &task->shop->rates;
  const CavConfig *config = cav_task_config (task, c->config);
  double minutes = 0;

  if (m->config != c->config)
    {
      minutes = config->minutes;
      if (config->machine == CAV_MACHINE_ROUTER)
        {
          if (m->cutter == config->tool)
            minutes = rates->router_return;
          m->cutter = config->tool;
        }
      else
        {
          if (m->blade >= 0 && m->blade != config->tool)
            minutes += rates->blade_change;
          m->blade = config->tool;
        }
      if (config->machine == CAV_MACHINE_COVE)
        minutes += rates->scrape_metre * task->metres;
    }
  else
    {
      if (m->last->down != c->down || m->fence != fence)
        minutes += rates->turn;
      if (ABS (m->last->fence[m->fence] - c->fence[fence]) > 1e-6
          || ABS (m->last->height - c->height) > 1e-6)
        minutes += rates->move;
    }
  m->config = c->config;
  m->last = c;
  m->fence = fence;
  return minutes;
}

static void
do_item (const CavTask *task,
         Machines *m,
         const CavSequence *sequence,
         int index,
         const CavStep *step,
         CavOutcome *outcome)
{
  const CavItem *item = &sequence->items[index];
  const CavCandidate *c = cav_task_candidate (task, item->candidate);
  const CavConfig *config = cav_task_config (task, c->config);
  double minutes = config->machine == CAV_MACHINE_COVE ? task->cove_minutes : task->pass_minutes;

  if (config->machine == CAV_MACHINE_COVE && m->bevelled && !m->hollowed)
    {
      outcome->order += ORDER_PRICE;
      m->hollowed = TRUE;
    }
  m->bevelled |= fabs (config->tilt) > 1e-9;
  outcome->setups
      += get_preparation (task, m, c, item->fence) + (step->n_passes - 1) * task->shop->rates.move;
  outcome->passes += step->n_passes * minutes;
  outcome->feeds[outcome->n_done] = step->n_passes;
  outcome->done[outcome->n_done++] = index;
}

double
cav_sequence_estimate (const CavTask *task, const CavSequence *sequence, const guint8 *feeds)
{
  Machines machines = { .config = -1, .blade = -1, .cutter = -1, .fence = CAV_FENCE_LOW };
  double minutes = 0;

  for (int i = 0; i < sequence->n; i++)
    {
      const CavItem *item = &sequence->items[i];
      const CavCandidate *c = cav_task_candidate (task, item->candidate);
      gboolean across = cav_task_config (task, c->config)->machine == CAV_MACHINE_COVE;

      if (feeds[i] == 0)
        continue;
      minutes += get_preparation (task, &machines, c, item->fence)
                 + (feeds[i] - 1) * task->shop->rates.move
                 + feeds[i] * (across ? task->cove_minutes : task->pass_minutes);
    }
  return minutes;
}

static gboolean
is_supported (const CavRailStore *store,
              const CavTask *task,
              const CavRail *rail,
              const CavCandidate *c,
              CavFence fence)
{
  return cav_standing_is_supported (cav_rail_get_standing (store, rail), &task->blank, c->down,
                                    fence);
}

/* TRUE where more than half of a carrier's width is gone. */
static gboolean
has_lost_carrier (const CavRailStore *store, const CavTask *task, const CavRail *rail)
{
  CavBox box;

  if (task->carrier_inside <= 0 && task->carrier_outside <= 0)
    return FALSE;
  box = cav_rail_get_standing (store, rail)->box;
  return (task->carrier_inside > 0 && box.x0 > task->carrier_inside / 2)
         || (task->carrier_outside > 0 && box.x1 < task->blank.width - task->carrier_outside / 2);
}

void
cav_sequence_simulate (CavRailStore *store,
                       const CavTask *task,
                       const CavSequence *sequence,
                       CavOutcome *out_outcome)
{
  const CavRail *rail = cav_rail_store_get_blank (store), *next;
  Machines machines = { .config = -1, .blade = -1, .cutter = -1, .fence = CAV_FENCE_LOW };
  int last_cut = -1;

  memset (out_outcome, 0, G_STRUCT_OFFSET (CavOutcome, done));
  out_outcome->frees = FALSE;
  for (int i = 0; i < sequence->n; i++)
    {
      const CavItem *item = &sequence->items[i];
      const CavCandidate *c = cav_task_candidate (task, item->candidate);
      const CavStep *step;

      if (c->banned || !is_supported (store, task, rail, c, item->fence))
        continue;
      step = cav_rail_store_step (store, rail, c, &next);
      if (next == NULL || !(step->fences & (1u << item->fence)))
        continue;
      /* The cut that frees the rail from its carrier is put off to the end. */
      if (step->frees & (1u << item->fence))
        {
          if (last_cut < 0)
            last_cut = i;
          continue;
        }
      if (!is_supported (store, task, next, c, item->fence))
        continue;
      if (has_lost_carrier (store, task, rail))
        out_outcome->order += CARRIER_PRICE;
      do_item (task, &machines, sequence, i, step, out_outcome);
      rail = next;
    }
  if (last_cut >= 0)
    {
      const CavItem *item = &sequence->items[last_cut];
      const CavCandidate *c = cav_task_candidate (task, item->candidate);
      const CavStep *step = cav_rail_store_step (store, rail, c, &next);

      if (next != NULL && (step->fences & step->frees & (1u << item->fence))
          && is_supported (store, task, rail, c, item->fence))
        {
          do_item (task, &machines, sequence, last_cut, step, out_outcome);
          out_outcome->frees = TRUE;
          rail = next;
        }
    }
  out_outcome->rail = rail;
}

void
cav_sequence_evaluate (CavRailStore *store,
                       const CavTask *task,
                       const CavSequence *sequence,
                       CavOutcome *out_outcome)
{
  cav_sequence_simulate (store, task, sequence, out_outcome);
  cav_rail_get_hand (store, out_outcome->rail, &out_outcome->hand, &out_outcome->over);
  out_outcome->arcs = cav_rail_get_arcs (store, out_outcome->rail);
  out_outcome->minutes = out_outcome->setups + out_outcome->passes + out_outcome->hand
                         + out_outcome->over + out_outcome->arcs + out_outcome->order;
}
