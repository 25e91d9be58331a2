/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "milling/cav-price.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

/* How many of the best ranked placements are tried for real in each round. */
#define WIDTH 25
#define WIDTH_QUICK 14
/* Gain per minute below which nothing more is added; pruning takes the rest back. */
#define LEAST_SCORE 0.55
/* In a sequence this short every place is tried. */
#define SHORT_SEQUENCE 10

/* A single placement, or a pair of kerfs, and its rank. */
typedef struct
{
  int candidate; /* or -1 - index of the pair */
  double rank;
} Choice;

static int
compare_choices (const void *a, const void *b)
{
  const Choice *p = a, *q = b;

  if (p->rank > q->rank || p->rank < q->rank)
    return p->rank < q->rank ? 1 : -1;
  return (p->candidate > q->candidate) - (p->candidate < q->candidate);
}

/* What a setup of this configuration would cost next to those that are there. */
static double
get_opening (const CavTask *task, const CavSequence *sequence, const CavCandidate *c)
{
  const CavConfig *config = cav_task_config (task, c->config);
  double best = config->minutes;
  gboolean other_blade = FALSE;

  if (config->machine == CAV_MACHINE_COVE)
    best += task->shop->rates.scrape_metre * task->metres;
  for (int i = 0; i < sequence->n; i++)
    {
      const CavCandidate *other = cav_task_candidate (task, sequence->items[i].candidate);
      const CavConfig *there = cav_task_config (task, other->config);

      if (other->config == c->config)
        best = MIN (best, other->down == c->down ? 0 : task->shop->rates.turn);
      else if (config->machine != CAV_MACHINE_ROUTER && there->machine != CAV_MACHINE_ROUTER)
        other_blade |= there->tool != config->tool;
    }
  return best + (other_blade && best >= config->minutes ? task->shop->rates.blade_change : 0);
}

/* Feeds that a placement would take on the rail as it stands, by area. */
static double
estimate_minutes (const CavPrices *prices, const CavCandidate *c, double worth)
{
  const CavTask *task = prices->task;
  const CavConfig *config = cav_task_config (task, c->config);
  double bite = cav_task_tool (task, config->tool)->bite;
  double area = worth / fmax (task->shop->rates.hand_volume * task->metres, 1e-9);
  double feeds = fmax (1, ceil (fmin (area, c->area) / bite));
  double feed = config->machine == CAV_MACHINE_COVE ? task->cove_minutes : task->pass_minutes;

  if (config->machine == CAV_MACHINE_COVE)
    feeds = fmax (feeds, ceil (c->height / task->shop->limits.cove_layer));
  return feeds * (feed + task->shop->rates.move);
}

/* Prices: a bit is as dear as the cheapest placement that takes it makes it. */
static void
set_prices (const CavPrices *prices,
            const CavSequence *sequence,
            const guint64 *standing,
            double *minutes,
            double *out_price)
{
  g_autofree double *rate = g_new (double, prices->n_words * 64);

  for (int i = 0; i < prices->n_words * 64; i++)
    rate[i] = 1;
  for (int i = 0; i < prices->n_priced; i++)
    {
      const CavCandidate *c = cav_task_candidate (prices->task, i);
      double worth = cav_prices_get_worth (prices, c->bits, standing), q;

      minutes[i] = 0;
      if (worth < 1e-6)
        continue;
      minutes[i] = estimate_minutes (prices, c, worth) + get_opening (prices->task, sequence, c);
      q = minutes[i] / worth;
      if (q >= 1)
        continue;
      for (int w = 0; w < prices->n_words; w++)
        for (guint64 rest = c->bits[w] & standing[w]; rest != 0; rest &= rest - 1)
          {
            double *one = &rate[w * 64 + __builtin_ctzll (rest)];

            *one = fmin (*one, q);
          }
    }
  for (guint i = 0; i < prices->pairs->len; i++)
    {
      const CavPair *pair = &g_array_index (prices->pairs, CavPair, i);
      double worth = cav_prices_get_worth (prices, pair->bits, standing);
      double q = worth > 1e-6 ? pair->minutes / worth : 1;

      for (int w = 0; w < prices->n_words && q < 1; w++)
        for (guint64 rest = pair->bits[w] & standing[w]; rest != 0; rest &= rest - 1)
          {
            double *one = &rate[w * 64 + __builtin_ctzll (rest)];

            *one = fmin (*one, q);
          }
    }
  for (int i = 0; i < prices->n_bits; i++)
    out_price[i] = rate[i] * prices->worth[i];
}

static double
sum_prices (const CavPrices *prices, const double *price, const guint64 *a, const guint64 *b)
{
  double sum = 0;

  for (int w = 0; w < prices->n_words; w++)
    for (guint64 rest = a[w] & b[w]; rest != 0; rest &= rest - 1)
      sum += price[w * 64 + __builtin_ctzll (rest)];
  return sum;
}

static GArray *
rank_choices (const CavPrices *prices,
              const CavSequence *sequence,
              const guint64 *standing,
              double *price)
{
  GArray *choices = g_array_new (FALSE, FALSE, sizeof (Choice));
  g_autofree double *minutes = g_new0 (double, MAX (prices->n_priced, 1));

  set_prices (prices, sequence, standing, minutes, price);
  for (int i = 0; i < prices->n_priced; i++)
    if (minutes[i] > 0)
      {
        Choice choice
            = { i, sum_prices (prices, price, cav_task_candidate (prices->task, i)->bits, standing)
                       / minutes[i] };

        g_array_append_val (choices, choice);
      }
  for (guint i = 0; i < prices->pairs->len; i++)
    {
      const CavPair *pair = &g_array_index (prices->pairs, CavPair, i);
      double opening
          = get_opening (prices->task, sequence, cav_task_candidate (prices->task, pair->first));
      Choice choice
          = { -1 - (int)i, sum_prices (prices, price, pair->bits, standing)
                               / (pair->minutes + opening + prices->task->shop->rates.turn) };

      g_array_append_val (choices, choice);
    }
  g_array_sort (choices, compare_choices);
  return choices;
}

/* The best way to add something that was found so far. */
typedef struct
{
  CavSequence sequence;
  double score;
} Best;

typedef struct
{
  CavPrices *prices;
  const CavSequence *sequence;
  const CavOutcome *before;
  const guint64 *standing; /* owned copy of the bits before */
  const double *price;
  Best *best;
} Round;

static void
try_sequence (const Round *round, const CavSequence *trial)
{
  CavPrices *prices = round->prices;
  CavOutcome after;
  const guint64 *left;
  double gain = 0, back = 0, extra, score;

  cav_sequence_evaluate (prices->store, prices->task, trial, &after);
  if (after.rail == round->before->rail)
    return;
  left = cav_prices_get_rail_bits (prices, after.rail);
  for (int w = 0; w < prices->n_words; w++)
    {
      for (guint64 rest = round->standing[w] & ~left[w]; rest != 0; rest &= rest - 1)
        gain += round->price[w * 64 + __builtin_ctzll (rest)];
      for (guint64 rest = left[w] & ~round->standing[w]; rest != 0; rest &= rest - 1)
        back += prices->worth[w * 64 + __builtin_ctzll (rest)];
    }
  extra = after.setups + after.passes - round->before->setups - round->before->passes;
  score = extra > 1e-6 ? (gain - back) / extra : (gain - back) * 1e3;
  if (score > round->best->score)
    {
      round->best->score = score;
      round->best->sequence = *trial;
    }
}

/* TRUE where a placement of this configuration may sensibly go in before index at. */
static gboolean
is_place (const CavTask *task, const CavSequence *sequence, int at, int config)
{
  int left = at > 0 ? cav_task_candidate (task, sequence->items[at - 1].candidate)->config : -1;
  int right
      = at < sequence->n ? cav_task_candidate (task, sequence->items[at].candidate)->config : -1;

  return at == 0 || at == sequence->n || (task->thorough && sequence->n <= SHORT_SEQUENCE)
         || left == config || right == config || left != right;
}

static void
try_choice (const Round *round, int candidate)
{
  const CavTask *task = round->prices->task;
  const CavPair *pair
      = candidate < 0 ? &g_array_index (round->prices->pairs, CavPair, -1 - candidate) : NULL;
  int first = pair != NULL ? pair->first : candidate;
  const CavCandidate *a = cav_task_candidate (task, first);
  const CavCandidate *b = pair != NULL ? cav_task_candidate (task, pair->second) : NULL;

  for (int at = 0; at <= round->sequence->n; at++)
    {
      if (!is_place (task, round->sequence, at, a->config))
        continue;
      for (int fences = 0; fences < (b != NULL ? 4 : 2); fences++)
        for (int swapped = 0; swapped < (b != NULL ? 2 : 1); swapped++)
          {
            CavSequence trial = *round->sequence;
            CavItem one = { first, (CavFence)(fences & 1) };
            CavItem two = { pair != NULL ? pair->second : 0, (CavFence)(fences >> 1) };

            if (!(a->fences & (1u << one.fence)) || (b != NULL && !(b->fences & (1u << two.fence))))
              continue;
            if (!cav_sequence_insert (&trial, at, one))
              continue;
            if (b != NULL && !cav_sequence_insert (&trial, at + swapped, two))
              continue;
            try_sequence (round, &trial);
          }
    }
}

void
cav_greedy_extend (CavPrices *prices, CavSequence *sequence)
{
  g_autofree double *price = g_new0 (double, prices->n_words * 64);
  g_autofree Best *best = g_new (Best, 1);

  while (sequence->n < CAV_SEQUENCE_MAX - 2 && !cav_task_is_cancelled (prices->task))
    {
      CavOutcome before;
      g_autofree guint64 *standing = NULL;
      g_autoptr (GArray) choices = NULL;

      cav_sequence_evaluate (prices->store, prices->task, sequence, &before);
      cav_sequence_settle (sequence, &before);
      cav_sequence_evaluate (prices->store, prices->task, sequence, &before);
      standing = g_memdup2 (cav_prices_get_rail_bits (prices, before.rail),
                            sizeof (guint64) * (gsize)prices->n_words);
      choices = rank_choices (prices, sequence, standing, price);
      best->score = LEAST_SCORE;
      for (guint i = 0;
           i < MIN (choices->len, (guint)(prices->task->thorough ? WIDTH : WIDTH_QUICK)); i++)
        {
          Round round = { prices, sequence, &before, standing, price, best };

          try_choice (&round, g_array_index (choices, Choice, i).candidate);
        }
      if (best->score <= LEAST_SCORE)
        break;
      *sequence = best->sequence;
    }
}

/* Takes the trial where it is cheaper. */
static gboolean
keep_if_cheaper (CavPrices *prices,
                 CavSequence *sequence,
                 const CavSequence *trial,
                 double *minutes)
{
  CavOutcome outcome;

  cav_sequence_evaluate (prices->store, prices->task, trial, &outcome);
  if (outcome.minutes >= *minutes - 1e-9)
    return FALSE;
  *sequence = *trial;
  cav_sequence_settle (sequence, &outcome);
  *minutes = outcome.minutes;
  return TRUE;
}

/* Drops the run of one configuration that item at is in. */
static void
drop_run (const CavTask *task, CavSequence *trial, int at)
{
  int config = cav_task_candidate (task, trial->items[at].candidate)->config;

  while (at < trial->n && cav_task_candidate (task, trial->items[at].candidate)->config == config)
    cav_sequence_remove (trial, at);
}

static gboolean
prune_once (CavPrices *prices, CavSequence *sequence, double *minutes)
{
  for (int i = 0; i < sequence->n; i++)
    {
      CavSequence trial = *sequence;

      cav_sequence_remove (&trial, i);
      if (keep_if_cheaper (prices, sequence, &trial, minutes))
        return TRUE;
      trial = *sequence;
      drop_run (prices->task, &trial, i);
      if (keep_if_cheaper (prices, sequence, &trial, minutes))
        return TRUE;
    }
  return FALSE;
}

/* Moves one item, or turns it to the other fence. */
static gboolean
tidy_once (CavPrices *prices, CavSequence *sequence, double *minutes)
{
  for (int i = 0; i < sequence->n; i++)
    {
      CavItem item = sequence->items[i];
      const CavCandidate *c = cav_task_candidate (prices->task, item.candidate);

      for (int turned = 0; turned < 2; turned++)
        for (int to = 0; to < sequence->n; to++)
          {
            CavSequence trial = *sequence;
            CavItem moved = { item.candidate, turned ? !item.fence : item.fence };

            if ((to == i && !turned) || !(c->fences & (1u << moved.fence)))
              continue;
            cav_sequence_remove (&trial, i);
            if (!cav_sequence_insert (&trial, to, moved))
              continue;
            if (keep_if_cheaper (prices, sequence, &trial, minutes))
              return TRUE;
          }
    }
  return FALSE;
}

void
cav_greedy_prune (CavPrices *prices, CavSequence *sequence)
{
  CavOutcome outcome;
  double minutes;

  cav_sequence_evaluate (prices->store, prices->task, sequence, &outcome);
  cav_sequence_settle (sequence, &outcome);
  minutes = outcome.minutes;
  while (!cav_task_is_cancelled (prices->task)
         && (prune_once (prices, sequence, &minutes) || tidy_once (prices, sequence, &minutes)))
    ;
}

/* The order that published sequences agree on: square cuts while the blank is whole, hollows across
 * the blade before anything that takes their sides away, the router after the saw, bevels last. */
static int
get_rank (const CavTask *task, const CavCandidate *c)
{
  const CavConfig *config = cav_task_config (task, c->config);

  switch (config->machine)
    {
    case CAV_MACHINE_COVE:
      return 1;
    case CAV_MACHINE_ROUTER:
      return 2;
    case CAV_MACHINE_SAW:
    default:
      return fabs (config->tilt) > 1e-9 ? 3 : 0;
    }
}

/* Begin of the run of one configuration that ends before an index. */
static int
find_run_start (const CavTask *task, const CavSequence *sequence, int end)
{
  int config = cav_task_candidate (task, sequence->items[end - 1].candidate)->config, at = end - 1;

  while (at > 0 && cav_task_candidate (task, sequence->items[at - 1].candidate)->config == config)
    at--;
  return at;
}

static int
find_run_end (const CavTask *task, const CavSequence *sequence, int start)
{
  int config = cav_task_candidate (task, sequence->items[start].candidate)->config, at = start + 1;

  while (at < sequence->n
         && cav_task_candidate (task, sequence->items[at].candidate)->config == config)
    at++;
  return at;
}

/* Swaps the two runs that meet at an index where that costs nothing. */
static gboolean
swap_runs (CavPrices *prices, CavSequence *sequence, int at)
{
  int from = find_run_start (prices->task, sequence, at);
  int to = find_run_end (prices->task, sequence, at), left = at - from, right = to - at;
  CavSequence trial = *sequence;
  CavOutcome before, after;

  memcpy (&trial.items[from], &sequence->items[at], sizeof (CavItem) * (gsize)right);
  memcpy (&trial.items[from + right], &sequence->items[from], sizeof (CavItem) * (gsize)left);
  cav_sequence_evaluate (prices->store, prices->task, sequence, &before);
  cav_sequence_evaluate (prices->store, prices->task, &trial, &after);
  if (after.n_done != before.n_done || after.minutes > before.minutes + 1e-9)
    return FALSE;
  *sequence = trial;
  return TRUE;
}

void
cav_greedy_order (CavPrices *prices, CavSequence *sequence)
{
  gboolean swapped = TRUE;

  for (int round = 0; swapped && round < CAV_SEQUENCE_MAX; round++)
    {
      swapped = FALSE;
      for (int at = 1; at < sequence->n && !swapped; at++)
        {
          const CavCandidate *left
              = cav_task_candidate (prices->task, sequence->items[at - 1].candidate);
          const CavCandidate *right
              = cav_task_candidate (prices->task, sequence->items[at].candidate);

          swapped = left->config != right->config
                    && get_rank (prices->task, left) > get_rank (prices->task, right)
                    && swap_runs (prices, sequence, at);
        }
    }
}
