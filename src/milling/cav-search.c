/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "milling/cav-search.h"

#include <math.h>

/* Annealing: runs side by side, from hot first, then once more from the best of them. */
#define TRIALS 24000
#define HOT_RUNS 8
#define WARM_RUNS 4
#define HOT 1.6
#define WARM 0.6
#define REPAIR_TRIALS 6000
/* A carrier has to save this much, minutes. */
#define CARRIER_GAIN 1.0
/* Room that a carrier needs at the fence beside the kerf. */
#define CARRIER_ROOM 22.0

void
cav_search_free (CavSearch *search)
{
  if (search == NULL)
    return;
  cav_prices_free (search->prices);
  cav_rail_store_free (search->store);
  cav_task_free (search->task);
  g_clear_pointer (&search->profile, cav_region_unref);
  g_free (search);
}

static CavSearch *
create_search (const CavPlanRequest *request, double inside, double outside, gboolean with_arcs)
{
  CavSearch *search = g_new0 (CavSearch, 1);

  search->inside = inside;
  search->outside = outside;
  search->blank = request->blank;
  search->blank.width += inside + outside;
  search->profile
      = cav_region_transformed (request->profile, cav_transform_translation (inside, 0));
  search->task = cav_task_new (request, &search->blank, search->profile);
  search->task->carrier_inside = inside;
  search->task->carrier_outside = outside;
  cav_reach_collect (search->task);
  if (!with_arcs)
    g_array_set_size (search->task->arcs, 0);
  search->store = cav_rail_store_new (search->task);
  search->prices = cav_prices_new (search->task, search->store);
  return search;
}

CavSearch *
cav_search_new (const CavPlanRequest *request, double inside, double outside)
{
  return create_search (request, inside, outside, TRUE);
}

double
cav_search_get_minutes (CavSearch *search)
{
  CavOutcome outcome;

  cav_sequence_evaluate (search->store, search->task, &search->sequence, &outcome);
  return outcome.minutes;
}

double
cav_search_get_penalty (CavSearch *search)
{
  CavOutcome outcome;

  cav_sequence_evaluate (search->store, search->task, &search->sequence, &outcome);
  return outcome.over + outcome.arcs + outcome.order;
}

static gboolean
leaves_too_much (CavSearch *search)
{
  CavOutcome outcome;

  cav_sequence_evaluate (search->store, search->task, &search->sequence, &outcome);
  return outcome.over > 0;
}

static void
build_sequence (CavSearch *search)
{
  cav_greedy_extend (search->prices, &search->sequence);
  cav_greedy_prune (search->prices, &search->sequence);
}

/* A placement that stands for itself, whatever the indices of an search. */
typedef struct
{
  CavMachine machine;
  int tool;
  double turn;
  CavSide down;
  CavFence fence;
  double distance;
  double height;
} Placement;

static void
export_sequence (const CavSearch *search, Placement *out_placements)
{
  for (int i = 0; i < search->sequence.n; i++)
    {
      const CavItem *item = &search->sequence.items[i];
      const CavCandidate *c = cav_task_candidate (search->task, item->candidate);
      const CavConfig *config = cav_task_config (search->task, c->config);

      out_placements[i] = (Placement){ config->machine, config->tool, config->tilt + config->angle,
                                       c->down,         item->fence,  c->fence[item->fence],
                                       c->height };
    }
}

static void
import_sequence (CavSearch *search, const Placement *placements, int n)
{
  search->sequence.n = 0;
  for (int i = 0; i < n; i++)
    {
      const Placement *p = &placements[i];
      int config = cav_task_add_config (search->task, p->machine, p->tool, p->turn);
      int candidate
          = cav_task_place (search->task, config, p->down, p->fence, p->distance, p->height);

      if (candidate >= 0)
        cav_sequence_insert (&search->sequence, search->sequence.n,
                             (CavItem){ candidate, p->fence });
    }
}

/* Rounds that are made early can take the rail's support away. Where too much is left, a list is
 * built as if arcs had no price, and goes on from there. */
static void
search_quickly (const CavPlanRequest *request, CavSearch *search)
{
  g_autoptr (CavSearch) other = NULL;
  Placement placements[CAV_SEQUENCE_MAX];
  CavSequence own;
  double minutes;

  build_sequence (search);
  if (search->task->thorough || search->task->arcs->len == 0 || !leaves_too_much (search))
    return;
  own = search->sequence;
  minutes = cav_search_get_minutes (search);
  other = create_search (request, search->inside, search->outside, FALSE);
  build_sequence (other);
  export_sequence (other, placements);
  import_sequence (search, placements, other->sequence.n);
  build_sequence (search);
  if (cav_search_get_minutes (search) >= minutes)
    search->sequence = own;
}

/* One run of annealing, in a thread and with an search of its own: what it finds depends on its
 * number alone. */
typedef struct
{
  const CavPlanRequest *request;
  double inside;
  double outside;
  guint32 number;
  double hot;
  int n;
  Placement placements[CAV_SEQUENCE_MAX];
  double minutes;
} Run;

static gpointer
run_annealing (gpointer data)
{
  Run *run = data;
  g_autoptr (CavSearch) search = cav_search_new (run->request, run->inside, run->outside);

  import_sequence (search, run->placements, run->n);
  cav_anneal (search->prices, &search->sequence, TRIALS, run->hot, run->number);
  cav_greedy_prune (search->prices, &search->sequence);
  cav_polish (search->prices, &search->sequence);
  run->n = search->sequence.n;
  export_sequence (search, run->placements);
  run->minutes = cav_search_get_minutes (search);
  return NULL;
}

static gboolean
is_same_blank (const CavSearch *search, const CavSearch *other)
{
  return fabs (search->inside - other->inside) < 1e-9
         && fabs (search->outside - other->outside) < 1e-9;
}

/* What a quick search of the same blank finds, the one that is known where it is of this blank: it
 * proposes fewer placements, and so may come upon a list that the rich choice hides. */
static void
import_quick_sequence (const CavPlanRequest *request, CavSearch *search, const CavSearch *known)
{
  CavPlanRequest quick = *request;
  g_autoptr (CavSearch) other = NULL;
  Placement placements[CAV_SEQUENCE_MAX];

  if (known == NULL || !is_same_blank (search, known))
    {
      quick.effort = CAV_EFFORT_QUICK;
      other = cav_search_new (&quick, search->inside, search->outside);
      build_sequence (other);
      known = other;
    }
  export_sequence (known, placements);
  import_sequence (search, placements, known->sequence.n);
}

/* Several runs of annealing, from either of two beginnings in turn; the best one stays. */
static void
anneal_side_by_side (const CavPlanRequest *request,
                     CavSearch *search,
                     const CavSequence *other,
                     double hot,
                     guint32 first,
                     guint32 n)
{
  g_autofree Run *runs = g_new0 (Run, n);
  GThread *threads[HOT_RUNS];
  CavSequence begin = search->sequence;
  double best;

  for (guint32 i = 0; i < n; i++)
    {
      search->sequence = i % 2 == 0 ? begin : *other;
      runs[i].request = request;
      runs[i].inside = search->inside;
      runs[i].outside = search->outside;
      runs[i].number = first + i;
      runs[i].hot = hot;
      runs[i].n = search->sequence.n;
      export_sequence (search, runs[i].placements);
      threads[i] = g_thread_new ("planner", run_annealing, &runs[i]);
    }
  search->sequence = begin;
  best = cav_search_get_minutes (search);
  for (guint32 i = 0; i < n; i++)
    {
      g_thread_join (threads[i]);
      if (runs[i].minutes < best - 1e-9)
        {
          best = runs[i].minutes;
          import_sequence (search, runs[i].placements, runs[i].n);
        }
    }
}

static void
search_thoroughly (const CavPlanRequest *request, CavSearch *search, const CavSearch *known)
{
  CavSequence own = search->sequence, quick;
  double minutes = cav_search_get_minutes (search);

  import_quick_sequence (request, search, known);
  quick = search->sequence;
  if (minutes <= cav_search_get_minutes (search))
    {
      search->sequence = own;
      anneal_side_by_side (request, search, &quick, HOT, 1, HOT_RUNS);
    }
  else
    anneal_side_by_side (request, search, &own, HOT, 1, HOT_RUNS);
  own = search->sequence;
  anneal_side_by_side (request, search, &own, WARM, 1 + HOT_RUNS, WARM_RUNS);
  cav_greedy_order (search->prices, &search->sequence);
  cav_polish (search->prices, &search->sequence);
  cav_greedy_prune (search->prices, &search->sequence);
}

static double
get_widest_kerf (const CavShop *shop)
{
  double kerf = 0;

  for (guint i = 0; i < shop->blades->len; i++)
    kerf = fmax (kerf, ((const CavBlade *)g_ptr_array_index (shop->blades, i))->kerf);
  return kerf;
}

/* A wider blank, where that is cheaper or the only way. */
static CavSearch *
find_carrier (const CavPlanRequest *request, double minutes)
{
  double kerf = get_widest_kerf (request->shop), width;
  CavSearch *best = NULL;

  width = cav_snap (kerf + CARRIER_ROOM, request->shop->limits.step);
  if (kerf <= 0 || !request->shop->has_saw || width > request->shop->limits.carrier + 1e-9
      || request->blank.width + width > CAV_BLANK_MAX)
    return NULL;
  for (int side = 0; side < 2; side++)
    {
      g_autoptr (CavSearch) search
          = cav_search_new (request, side == 0 ? 0 : width, side == 0 ? width : 0);
      double cost;

      search_quickly (request, search);
      cost = cav_search_get_minutes (search);
      if (cost > minutes - CARRIER_GAIN || cav_task_is_cancelled (search->task))
        continue;
      minutes = cost + CARRIER_GAIN;
      cav_search_free (best);
      best = g_steal_pointer (&search);
    }
  return best;
}

/* A quick search that leaves more than the limit tries again with all placements to choose from. */
static CavSearch *
search_richly (const CavPlanRequest *request, CavSearch *search)
{
  CavPlanRequest rich = *request;
  CavSearch *other;

  rich.effort = CAV_EFFORT_THOROUGH;
  other = cav_search_new (&rich, search->inside, search->outside);
  search_quickly (&rich, other);
  if (cav_search_get_minutes (other) < cav_search_get_minutes (search))
    {
      cav_search_free (search);
      return other;
    }
  cav_search_free (other);
  return search;
}

CavSearch *
cav_search_run (const CavPlanRequest *request, const CavSearch *known)
{
  CavSearch *search = cav_search_new (request, 0, 0), *wider = NULL;

  search_quickly (request, search);
  if (request->effort == CAV_EFFORT_QUICK && leaves_too_much (search))
    search = search_richly (request, search);
  if (request->effort == CAV_EFFORT_THOROUGH)
    search_thoroughly (request, search, known);
  /* A wider blank is worth a try where there is time, else only where this one leaves too much. */
  if (request->effort == CAV_EFFORT_THOROUGH || leaves_too_much (search))
    wider = find_carrier (request, cav_search_get_minutes (search));
  if (wider == NULL)
    return search;
  cav_search_free (search);
  if (request->effort == CAV_EFFORT_THOROUGH)
    search_thoroughly (request, wider, known);
  return wider;
}

void
cav_search_repair (CavSearch *search, guint32 number)
{
  cav_greedy_extend (search->prices, &search->sequence);
  if (search->task->thorough)
    cav_anneal (search->prices, &search->sequence, REPAIR_TRIALS, WARM, 100 + number);
  cav_greedy_prune (search->prices, &search->sequence);
}
