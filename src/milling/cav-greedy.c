/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "milling/cav-price.h"

#include "milling/cav-greedy-private.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

/* Rounds in which a sequence is extended, twice as many as it can hold placements. */
#define ROUNDS_MOST (2 * CAV_SEQUENCE_MAX)
/* How many of the best ranked placements are looked at in each round. */
#define WIDTH 25
#define WIDTH_QUICK 10
/* Gain per minute below which nothing more is added; pruning takes the rest back. */
#define LEAST_SCORE 0.55
/* Share of a bite that two placements have in common before it is likely to save a feed. */
#define SHARED_LEAST 0.1
/* Share of the hand work that cells promise which is sure to come back. */
#define LOST_SHARE 0.8
/* In a sequence this short every place is tried. */
#define SHORT_SEQUENCE 10

typedef struct
{
  CavPrices *prices;
  const CavSequence *sequence;
  const CavOutcome *before;
  const guint64 *standing; /* owned copy of the bits before */
  const guint64 *planes;   /* prices, see cav_greedy_rank */
  const guint64 *heads;    /* n + 1 rows of words, see gather_sweeps */
  const guint64 *tails;
} Round;

/* One way to add a choice: where, from which fences, in which order. */
typedef struct
{
  int n_items;
  int at;
  CavItem items[2];
  double score; /* gain per minute if it is legal there */
  guint number;
} Option;

static int
compare_options (const void *a, const void *b)
{
  const Option *p = a, *q = b;

  if (p->score > q->score || p->score < q->score)
    return p->score < q->score ? 1 : -1;
  return (p->number > q->number) - (p->number < q->number);
}

static double
get_score (double gain, double extra)
{
  return extra > 1e-6 ? gain / extra : gain * 1e3;
}

/* What it is worth that a rail came of the one before. */
static double
get_gain (const Round *round, const CavRail *after)
{
  CavPrices *prices = round->prices;
  const guint64 *left = cav_prices_get_rail_bits (prices, after);
  g_autofree guint64 *taken = g_new (guint64, MAX (prices->n_words, 1));
  double back = 0;

  for (int w = 0; w < prices->n_words; w++)
    {
      taken[w] = round->standing[w] & ~left[w];
      for (guint64 rest = left[w] & ~round->standing[w]; rest != 0; rest &= rest - 1)
        back += prices->worth[w * 64 + __builtin_ctzll (rest)];
    }
  return cav_greedy_sum_prices (prices, round->planes, taken, &prices->all, taken) - back;
}

static gboolean
insert_option (const Round *round, const Option *option, CavSequence *out_sequence)
{
  *out_sequence = *round->sequence;
  for (int i = 0; i < option->n_items; i++)
    if (!cav_sequence_insert (out_sequence, option->at + i, option->items[i]))
      return FALSE;
  return TRUE;
}

/* The score of an option, simulated; below 0 where it comes to nothing. */
static double
try_option (const Round *round, const Option *option, CavSequence *out_sequence)
{
  CavPrices *prices = round->prices;
  CavOutcome after;

  if (!insert_option (round, option, out_sequence))
    return -1;
  cav_sequence_simulate (prices->store, prices->task, out_sequence, &after);
  if (after.rail == round->before->rail)
    return -1;
  return get_score (get_gain (round, after.rail),
                    after.setups + after.passes - round->before->setups - round->before->passes);
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

/* A choice, and what it comes to where it is done last: the same rail is left wherever in the
 * sequence it stands, as long as all of it stays legal. */
typedef struct
{
  int n_items;
  int candidates[2];
  guint8 feeds[2];
  double removed[2];
  const guint64 *bits; /* that it takes from the blank */
  double gain;
} Look;

static gboolean
look_ahead (const Round *round, int choice, Look *out_look)
{
  CavPrices *prices = round->prices;
  const CavPair *pair = choice < 0 ? &g_array_index (prices->pairs, CavPair, -1 - choice) : NULL;
  const CavRail *rail = round->before->rail, *next;

  *out_look
      = (Look){ .n_items = pair != NULL ? 2 : 1,
                .bits = pair != NULL ? pair->bits : cav_task_candidate (prices->task, choice)->bits,
                .candidates
                = { pair != NULL ? pair->first : choice, pair != NULL ? pair->second : -1 } };
  for (int i = 0; i < out_look->n_items; i++)
    {
      const CavCandidate *c = cav_task_candidate (prices->task, out_look->candidates[i]);
      const CavStep *step = cav_rail_store_look (prices->store, rail, c, &next);

      out_look->feeds[i] = step->n_passes;
      out_look->removed[i] = (double)step->removed;
      if (next != NULL)
        rail = next;
    }
  out_look->gain = get_gain (round, rail);
  return out_look->gain > 0;
}

/* Fewest feeds that an item is likely to need behind a choice: less is left for it where both take
 * the same wood, and nothing where the choice takes all of it. */
CAV_COUNTING static guint8
get_least_feeds (const Round *round, const Look *look, int index)
{
  const CavPrices *prices = round->prices;
  const CavTask *task = prices->task;
  const CavCandidate *c = cav_task_candidate (task, round->sequence->items[index].candidate);
  double bite = cav_task_tool (task, cav_task_config (task, c->config)->tool)->bite;
  gboolean all = c->bits != NULL;
  int feeds = round->before->feeds[index], shared = 0;

  for (int kind = 0; kind < CAV_BIT_KINDS && c->bits != NULL; kind++)
    for (int w = c->extent.from[kind]; w < c->extent.to[kind]; w++)
      {
        if (w < prices->kinds[2])
          shared += __builtin_popcountll (c->bits[w] & look->bits[w]);
        all &= (c->bits[w] & ~look->bits[w]) == 0;
      }
  if (all)
    return 0;
  return (guint8)MAX (
      MIN (feeds, 1),
      feeds - (int)ceil (shared * prices->cell_size * prices->cell_size / bite - SHARED_LEAST));
}

/* Fewest feeds that a choice is likely to need itself before an index: what later items take at
 * present, and no earlier one, then falls to it. */
CAV_COUNTING static guint8
get_own_feeds (const Round *round, const Look *look, int item, int at)
{
  const CavPrices *prices = round->prices;
  const CavTask *task = prices->task;
  const CavCandidate *c = cav_task_candidate (task, look->candidates[item]);
  const guint64 *head = &round->heads[at * prices->n_words];
  const guint64 *tail = &round->tails[at * prices->n_words];
  double bite = cav_task_tool (task, cav_task_config (task, c->config)->tool)->bite;
  int inherited = 0;

  if (c->bits == NULL || look->feeds[item] == 0)
    return look->feeds[item];
  for (int kind = 0; kind < 2; kind++)
    for (int w = c->extent.from[kind]; w < c->extent.to[kind]; w++)
      inherited += __builtin_popcountll (c->bits[w] & tail[w] & ~head[w]);
  return (guint8)MAX (
      look->feeds[item],
      (int)ceil ((look->removed[item] + inherited * prices->cell_size * prices->cell_size) / bite
                 - SHARED_LEAST));
}

/* Adds an option with the score that it would have with so many feeds. */
static void
add_option (
    const Round *round, const Look *look, Option option, const guint8 *feeds, GArray *options)
{
  const CavTask *task = round->prices->task;
  CavSequence sequence;

  for (int i = 0; i < option.n_items; i++)
    if (!(cav_task_candidate (task, option.items[i].candidate)->fences
          & (1u << option.items[i].fence)))
      return;
  if (!insert_option (round, &option, &sequence))
    return;
  option.score = get_score (look->gain, cav_sequence_estimate (task, &sequence, feeds)
                                            - round->before->setups - round->before->passes);
  option.number = options->len;
  if (option.score > LEAST_SCORE)
    g_array_append_val (options, option);
}

/* All places and fences for one choice. */
static void
add_options (const Round *round, const Look *look, GArray *options)
{
  const CavTask *task = round->prices->task;
  int config = cav_task_candidate (task, look->candidates[0])->config, n = round->sequence->n;
  guint8 behind[CAV_SEQUENCE_MAX], feeds[CAV_SEQUENCE_MAX + 2];

  for (int i = 0; i < n; i++)
    behind[i] = get_least_feeds (round, look, i);
  for (int at = 0; at <= n; at++)
    if (is_place (task, round->sequence, at, config))
      for (int swapped = 0; swapped < look->n_items; swapped++)
        {
          Option option = { .n_items = look->n_items, .at = at };

          memcpy (feeds, round->before->feeds, (gsize)at);
          for (int i = 0; i < look->n_items; i++)
            feeds[at + (swapped ? 1 - i : i)] = get_own_feeds (round, look, i, at);
          memcpy (&feeds[at + look->n_items], &behind[at], (gsize)(n - at));
          for (int fences = 0; fences < 1 << look->n_items; fences++)
            {
              for (int i = 0; i < look->n_items; i++)
                option.items[swapped ? 1 - i : i]
                    = (CavItem){ look->candidates[i], (CavFence)(fences >> i & 1) };
              add_option (round, look, option, feeds, options);
            }
        }
}

/* What the items before each index sweep, and those from it on: for each index a row of bits. */
static void
gather_sweeps (const Round *round, guint64 *out_heads, guint64 *out_tails)
{
  const CavTask *task = round->prices->task;
  int n = round->sequence->n, n_words = round->prices->n_words;

  /* Nothing is left over: there are no rows to fill, and no room for them. */
  if (n_words == 0)
    return;
  memset (out_heads, 0, sizeof (guint64) * (gsize)n_words);
  memset (&out_tails[n * n_words], 0, sizeof (guint64) * (gsize)n_words);
  for (int i = 0; i < n; i++)
    {
      const guint64 *head = cav_task_candidate (task, round->sequence->items[i].candidate)->bits;
      const guint64 *tail
          = cav_task_candidate (task, round->sequence->items[n - 1 - i].candidate)->bits;

      for (int w = 0; w < n_words; w++)
        {
          out_heads[(i + 1) * n_words + w]
              = out_heads[i * n_words + w] | (head != NULL ? head[w] : 0);
          out_tails[(n - 1 - i) * n_words + w]
              = out_tails[(n - i) * n_words + w] | (tail != NULL ? tail[w] : 0);
        }
    }
}

/* The best of the options. Simulation only ever lowers what they promise, so they are tried from
 * the most promising one down until none can beat the best. FALSE where none pays. */
static gboolean
take_best_option (const Round *round, GArray *options, CavSequence *out_sequence)
{
  double best = LEAST_SCORE;
  CavSequence trial;

  g_array_sort (options, compare_options);
  for (guint i = 0; i < options->len; i++)
    {
      const Option *option = &g_array_index (options, Option, i);
      double score;

      if (option->score <= best)
        break;
      score = try_option (round, option, &trial);
      if (score > best)
        {
          best = score;
          *out_sequence = trial;
        }
    }
  return best > LEAST_SCORE;
}

void
cav_greedy_extend (CavPrices *prices, CavSequence *sequence)
{
  g_autofree guint64 *planes = g_new (guint64, MAX (prices->n_words, 1) * CAV_PRICE_PLANES);
  g_autofree CavSequence *next = g_new (CavSequence, 1);
  g_autoptr (GArray) options = g_array_new (FALSE, FALSE, sizeof (Option));

  /* What settles may be dropped again: a placement that promises much and takes nothing would come
   * back for ever. */
  for (int round_no = 0; round_no < ROUNDS_MOST && sequence->n < CAV_SEQUENCE_MAX - 2
                         && !cav_task_is_cancelled (prices->task);
       round_no++)
    {
      CavOutcome before;
      g_autofree guint64 *standing = NULL;
      g_autoptr (GArray) choices = NULL;
      gsize n_bits = (gsize)(sequence->n + 1) * (gsize)prices->n_words;
      g_autofree guint64 *heads = g_new (guint64, n_bits), *tails = g_new (guint64, n_bits);
      Round round = { prices, sequence, &before, NULL, planes, heads, tails };
      Look look;

      cav_sequence_simulate (prices->store, prices->task, sequence, &before);
      cav_sequence_settle (sequence, &before);
      standing = g_memdup2 (cav_prices_get_rail_bits (prices, before.rail),
                            sizeof (guint64) * (gsize)prices->n_words);
      round.standing = standing;
      gather_sweeps (&round, heads, tails);
      choices = cav_greedy_rank (prices, sequence, standing,
                                 prices->task->thorough ? WIDTH : WIDTH_QUICK, planes);
      g_array_set_size (options, 0);
      for (guint i = 0; i < choices->len; i++)
        if (look_ahead (&round, g_array_index (choices, CavChoice, i).candidate, &look))
          add_options (&round, &look, options);
      if (!take_best_option (&round, options, next))
        break;
      *sequence = *next;
    }
}

/* TRUE where a list may be cheaper after the placement of one index went to another: what is left
 * is the same, and as a rule so is the number of feeds. */
static gboolean
may_be_cheaper (
    const CavTask *task, const CavSequence *trial, const CavOutcome *best, int from, int to)
{
  guint8 feeds[CAV_SEQUENCE_MAX];

  memcpy (feeds, best->feeds, sizeof feeds);
  memmove (&feeds[from], &feeds[from + 1], (gsize)(trial->n - 1 - from));
  memmove (&feeds[to + 1], &feeds[to], (gsize)(trial->n - 1 - to));
  feeds[to] = best->feeds[from];
  return cav_sequence_estimate (task, trial, feeds) + best->hand + best->over + best->arcs
         < best->minutes - 1e-9;
}

/* Takes the trial where it is cheaper. */
static gboolean
keep_if_cheaper (CavPrices *prices,
                 CavSequence *sequence,
                 const CavSequence *trial,
                 CavOutcome *best)
{
  CavOutcome outcome;

  cav_sequence_evaluate (prices->store, prices->task, trial, &outcome);
  if (outcome.minutes >= best->minutes - 1e-9)
    return FALSE;
  *sequence = *trial;
  cav_sequence_settle (sequence, &outcome);
  *best = outcome;
  return TRUE;
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

/* Hand work that comes back at least where items from one index to another are dropped: what none
 * of the others sweeps. */
static double
get_lost_worth (CavPrices *prices, const CavSequence *sequence, int from, int to)
{
  const CavRail *blank = cav_rail_store_get_blank (prices->store);
  gsize size = sizeof (guint64) * (gsize)MAX (prices->n_words, 1);
  g_autofree guint64 *lost = g_malloc0 (size);

  for (int i = 0; i < sequence->n; i++)
    {
      const guint64 *bits = cav_task_candidate (prices->task, sequence->items[i].candidate)->bits;

      for (int w = 0; w < prices->n_words && bits != NULL && i >= from && i < to; w++)
        lost[w] |= bits[w];
    }
  for (int i = 0; i < sequence->n; i++)
    {
      const guint64 *bits = cav_task_candidate (prices->task, sequence->items[i].candidate)->bits;

      for (int w = 0; w < prices->n_words && bits != NULL && (i < from || i >= to); w++)
        lost[w] &= ~bits[w];
    }
  return cav_prices_get_worth (prices, lost, &prices->all,
                               cav_prices_get_rail_bits (prices, blank));
}

/* TRUE where a list may be cheaper without the items from one index to another: those that are left
 * need no fewer feeds. */
static gboolean
may_be_dropped (CavPrices *prices,
                const CavSequence *sequence,
                const CavSequence *trial,
                const CavOutcome *best,
                int from,
                int to)
{
  guint8 feeds[CAV_SEQUENCE_MAX];
  double saved;

  memcpy (feeds, best->feeds, sizeof feeds);
  memmove (&feeds[from], &feeds[to], (gsize)(sequence->n - to));
  saved = best->setups + best->passes - cav_sequence_estimate (prices->task, trial, feeds);
  return get_lost_worth (prices, sequence, from, to) * LOST_SHARE < saved;
}

/* Without the items from one index to another, where that is cheaper. */
static gboolean
drop_if_cheaper (CavPrices *prices, CavSequence *sequence, CavOutcome *best, int from, int to)
{
  CavSequence trial = *sequence;

  for (int i = from; i < to; i++)
    cav_sequence_remove (&trial, from);
  return may_be_dropped (prices, sequence, &trial, best, from, to)
         && keep_if_cheaper (prices, sequence, &trial, best);
}

static gboolean
prune_once (CavPrices *prices, CavSequence *sequence, CavOutcome *best)
{
  for (int i = 0; i < sequence->n; i++)
    if (drop_if_cheaper (prices, sequence, best, i, i + 1)
        || drop_if_cheaper (prices, sequence, best, i, find_run_end (prices->task, sequence, i)))
      return TRUE;
  return FALSE;
}

/* Moves one item, or turns it to the other fence. */
static gboolean
tidy_once (CavPrices *prices, CavSequence *sequence, CavOutcome *best)
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
            if (may_be_cheaper (prices->task, &trial, best, i, to)
                && keep_if_cheaper (prices, sequence, &trial, best))
              return TRUE;
          }
    }
  return FALSE;
}

void
cav_greedy_prune (CavPrices *prices, CavSequence *sequence)
{
  CavOutcome outcome;

  cav_sequence_evaluate (prices->store, prices->task, sequence, &outcome);
  cav_sequence_settle (sequence, &outcome);
  while (!cav_task_is_cancelled (prices->task)
         && (prune_once (prices, sequence, &outcome) || tidy_once (prices, sequence, &outcome)))
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
