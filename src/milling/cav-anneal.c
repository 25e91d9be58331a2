/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "milling/cav-price.h"

#include "milling/cav-placement.h"

#include <math.h>
#include <string.h>

/* Simulated passes that one run may cost: a bound on its time that is the same on every machine. */
#define STEPS_MOST 90000
/* Temperature at the last trial, minutes. */
#define COLD 0.04
/* How far a placement is shifted at most in one trial, in steps of the grid. */
#define SHIFT 24
/* Polishing tries every shift up to this, and a few lower heights. */
#define POLISH_SHIFT 24
#define POLISH_LOWER 3
#define POLISH_ROUNDS 3

typedef struct
{
  CavPrices *prices;
  CavTask *task;
  guint64 state; /* of the random numbers */
  GHashTable *tilted_lines;
  guint64 *standing; /* what the current sequence leaves, owned: rails come and go */
} Annealer;

/* Random numbers of our own, so that a plan is the same everywhere (splitmix64). */
static guint64
draw (Annealer *self)
{
  guint64 z = (self->state += 0x9e3779b97f4a7c15u);

  z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9u;
  z = (z ^ (z >> 27)) * 0x94d049bb133111ebu;
  return z ^ (z >> 31);
}

static int
draw_below (Annealer *self, int n)
{
  return n > 0 ? (int)(draw (self) % (guint64)n) : 0;
}

static double
draw_share (Annealer *self)
{
  return (double)(draw (self) >> 11) / 9007199254740992.0;
}

static const CavCandidate *
get_candidate (const Annealer *self, const CavSequence *sequence, int at)
{
  return cav_task_candidate (self->task, sequence->items[at].candidate);
}

/* The lower line in a tilted blade's frame, kept. */
static const CavLowerLine *
get_line (Annealer *self, int config_index, CavSide down, CavFence fence)
{
  const CavConfig *config = cav_task_config (self->task, config_index);
  gpointer key = GINT_TO_POINTER ((config_index * 4 + (int)down) * 2 + (int)fence + 1);
  CavLowerLine *line;
  double t = config->tilt * G_PI / 180;

  if (fabs (config->tilt) < 1e-9)
    return self->task->lines[down];
  line = g_hash_table_lookup (self->tilted_lines, key);
  if (line == NULL)
    {
      CavTransform turn = { cos (t), -sin (t), 0, sin (t), cos (t), 0 };
      CavTransform map = cav_placement_get_transform (&self->task->blank, down,
                                                      cav_fence_get_side (down, fence));

      line = cav_lower_line_new (self->task->profile, cav_transform_compose (map, turn));
      g_hash_table_insert (self->tilted_lines, key, line);
    }
  return line;
}

/* A placement of the same configuration by so much beside and below the highest there, or -1. */
static int
place_beside (Annealer *self, int candidate, CavFence fence, double shift, double lower)
{
  const CavCandidate *c = cav_task_candidate (self->task, candidate);
  const CavConfig *config = cav_task_config (self->task, c->config);
  const CavTool *tool = cav_task_tool (self->task, config->tool);
  double step = self->task->shop->limits.step;
  double distance = cav_snap (c->fence[fence] + shift, step), height;

  if (config->machine == CAV_MACHINE_SAW
      && distance < (fabs (config->tilt) > 1e-9 ? 0 : -tool->blade->kerf))
    return -1;
  height = cav_reach_get_height (self->task, config, get_line (self, c->config, c->down, fence),
                                 c->down, fence, distance);
  height = cav_snap (height - lower, step);
  if (height < step / 2)
    return -1;
  return cav_task_place (self->task, c->config, c->down, fence, distance, height);
}

/* A placement of the same configuration a little beside or lower, or -1. */
static int
shift_candidate (Annealer *self, int candidate, CavFence fence)
{
  const CavCandidate *c = cav_task_candidate (self->task, candidate);
  const CavConfig *config = cav_task_config (self->task, c->config);
  double step = self->task->shop->limits.step;
  int span = draw_below (self, 3) == 0 ? SHIFT : 4;
  int shift = draw_below (self, 2 * span + 1) - span;
  int lower = draw_below (self, 8) == 0 ? draw_below (self, span) : 0;

  if (config->machine == CAV_MACHINE_ROUTER && !cav_task_tool (self->task, config->tool)->widens)
    return -1;
  return place_beside (self, candidate, fence, shift * step, lower * step);
}

static CavFence
choose_fence (Annealer *self, const CavCandidate *c)
{
  CavFence fence = (CavFence)draw_below (self, 2);

  return c->fences & (1u << fence) ? fence : (CavFence)!fence;
}

/* A place for a configuration: mostly beside its like. */
static int
choose_place (Annealer *self, const CavSequence *sequence, int config)
{
  int places[CAV_SEQUENCE_MAX + 1], n = 0;

  for (int i = 0; i < sequence->n; i++)
    if (get_candidate (self, sequence, i)->config == config)
      {
        places[n++] = i;
        if (i + 1 == sequence->n || get_candidate (self, sequence, i + 1)->config != config)
          places[n++] = i + 1;
        if (n >= CAV_SEQUENCE_MAX)
          break;
      }
  if (n > 0 && draw_below (self, 8) != 0)
    return places[draw_below (self, n)];
  return draw_below (self, sequence->n + 1);
}

/* Adds a placement that takes something which still stands, or any. */
static void
add (Annealer *self, CavSequence *trial)
{
  CavPrices *prices = self->prices;
  int candidate = draw_below (self, prices->n_priced);
  const CavCandidate *c;
  CavItem item;

  if (draw_below (self, 6) != 0)
    for (int attempt = 0; attempt < 40; attempt++)
      {
        int bit = draw_below (self, prices->n_bits), n;

        if (!(self->standing[bit / 64] >> (bit % 64) & 1))
          continue;
        n = prices->taker_start[bit + 1] - prices->taker_start[bit];
        if (n == 0)
          continue;
        candidate = prices->takers[prices->taker_start[bit] + draw_below (self, n)];
        break;
      }
  /* A configuration that is set up anyway is worth more tries. */
  if (trial->n > 0 && draw_below (self, 2) == 0)
    {
      int config = get_candidate (self, trial, draw_below (self, trial->n))->config;

      for (int attempt = 0; attempt < 30; attempt++)
        {
          int other = draw_below (self, prices->n_priced);

          if (cav_task_candidate (self->task, other)->config == config)
            {
              candidate = other;
              break;
            }
        }
    }
  c = cav_task_candidate (self->task, candidate);
  item = (CavItem){ candidate, choose_fence (self, c) };
  cav_sequence_insert (trial, choose_place (self, trial, c->config), item);
}

static void
add_pair (Annealer *self, CavSequence *trial)
{
  const GArray *pairs = self->prices->pairs;
  const CavPair *pair;
  const CavCandidate *a, *b;
  int at, swapped = draw_below (self, 2);

  if (pairs->len == 0)
    return;
  pair = &g_array_index (pairs, CavPair, draw_below (self, (int)pairs->len));
  a = cav_task_candidate (self->task, pair->first);
  b = cav_task_candidate (self->task, pair->second);
  at = choose_place (self, trial, a->config);
  if (cav_sequence_insert (trial, at, (CavItem){ pair->first, choose_fence (self, a) }))
    cav_sequence_insert (trial, at + swapped, (CavItem){ pair->second, choose_fence (self, b) });
}

/* First and last index + 1 of the run of one configuration around an item. */
static void
get_run (const Annealer *self, const CavSequence *sequence, int at, int *out_from, int *out_to)
{
  int config = get_candidate (self, sequence, at)->config;

  for (*out_from = at; *out_from > 0; (*out_from)--)
    if (get_candidate (self, sequence, *out_from - 1)->config != config)
      break;
  for (*out_to = at + 1; *out_to < sequence->n; (*out_to)++)
    if (get_candidate (self, sequence, *out_to)->config != config)
      break;
}

static void
move_run (Annealer *self, CavSequence *trial)
{
  int from, to, target, length;
  CavItem run[CAV_SEQUENCE_MAX];

  get_run (self, trial, draw_below (self, trial->n), &from, &to);
  /* Sometimes only a part of it, which splits the setup. */
  if (to - from > 1 && draw_below (self, 3) == 0)
    {
      from += draw_below (self, to - from);
      to = from + 1 + draw_below (self, to - from);
    }
  length = to - from;
  memcpy (run, &trial->items[from], sizeof (CavItem) * (gsize)length);
  for (int i = 0; i < length; i++)
    cav_sequence_remove (trial, from);
  target = draw_below (self, trial->n + 1);
  for (int i = 0; i < length; i++)
    cav_sequence_insert (trial, target + i, run[i]);
}

static void
turn_items (Annealer *self, CavSequence *trial, gboolean all)
{
  int at = draw_below (self, trial->n), from, to;
  const CavCandidate *c = get_candidate (self, trial, at);
  CavFence fence = trial->items[at].fence;

  get_run (self, trial, at, &from, &to);
  if (!all)
    from = at, to = at + 1;
  for (int i = from; i < to; i++)
    {
      const CavCandidate *other = get_candidate (self, trial, i);

      if (other->down == c->down && trial->items[i].fence == fence
          && (other->fences & (1u << !fence)))
        trial->items[i].fence = (CavFence)!fence;
    }
}

static void
move_item (Annealer *self, CavSequence *trial)
{
  int at = draw_below (self, trial->n);
  CavItem item = trial->items[at];
  int config = get_candidate (self, trial, at)->config;

  cav_sequence_remove (trial, at);
  cav_sequence_insert (trial, choose_place (self, trial, config), item);
}

static void
ruin (Annealer *self, CavSequence *trial)
{
  int kind = draw_below (self, 3), at = draw_below (self, trial->n), from, to;

  get_run (self, trial, at, &from, &to);
  if (kind == 0)
    for (int i = from; i < to; i++)
      cav_sequence_remove (trial, from);
  else
    for (int i = trial->n - 1; i >= 0; i--)
      if (kind == 1 ? draw_below (self, 4) == 0
                    : i >= from && i < to
                          && get_candidate (self, trial, i)->down
                                 == get_candidate (self, trial, MIN (at, trial->n - 1))->down
                          && draw_below (self, 2) == 0)
        cav_sequence_remove (trial, i);
}

static void
mutate (Annealer *self, CavSequence *trial)
{
  int kind = draw_below (self, 100);

  if (trial->n == 0 || kind < 22)
    add (self, trial);
  else if (kind < 34)
    cav_sequence_remove (trial, draw_below (self, trial->n));
  else if (kind < 54)
    {
      int at = draw_below (self, trial->n);
      CavItem item = trial->items[at];
      int shifted = shift_candidate (self, item.candidate, item.fence);

      if (shifted >= 0 && (cav_task_candidate (self->task, shifted)->fences & (1u << item.fence)))
        trial->items[at].candidate = shifted;
    }
  else if (kind < 66)
    move_item (self, trial);
  else if (kind < 72)
    turn_items (self, trial, FALSE);
  else if (kind < 76)
    turn_items (self, trial, TRUE);
  else if (kind < 82)
    move_run (self, trial);
  else if (kind < 90)
    {
      cav_sequence_remove (trial, draw_below (self, trial->n));
      add (self, trial);
    }
  else if (kind < 95)
    add_pair (self, trial);
  else
    {
      ruin (self, trial);
      for (int i = draw_below (self, 4); i > 0; i--)
        add (self, trial);
    }
}

static gboolean
keep_if_cheaper (Annealer *self, CavSequence *sequence, const CavSequence *trial, double *minutes)
{
  CavOutcome outcome;

  cav_sequence_evaluate (self->prices->store, self->task, trial, &outcome);
  if (outcome.minutes >= *minutes - 1e-9)
    return FALSE;
  *minutes = outcome.minutes;
  *sequence = *trial;
  cav_sequence_settle (sequence, &outcome);
  return TRUE;
}

/* Tries every shift of one item within reach. */
static gboolean
polish_item (Annealer *self, CavSequence *sequence, int at, double *minutes)
{
  CavItem item = sequence->items[at];
  const CavCandidate *c = get_candidate (self, sequence, at);
  const CavConfig *config = cav_task_config (self->task, c->config);
  double step = self->task->shop->limits.step;
  gboolean better = FALSE;
  CavSequence begin = *sequence, trial;

  if (config->machine == CAV_MACHINE_ROUTER && !cav_task_tool (self->task, config->tool)->widens)
    return FALSE;
  for (int shift = -POLISH_SHIFT; shift <= POLISH_SHIFT; shift++)
    for (int lower = 0; lower < POLISH_LOWER; lower++)
      {
        int candidate
            = place_beside (self, item.candidate, item.fence, shift * step, lower * lower * step);

        if (candidate < 0 || candidate == item.candidate
            || !(cav_task_candidate (self->task, candidate)->fences & (1u << item.fence)))
          continue;
        trial = begin;
        trial.items[at].candidate = candidate;
        better |= keep_if_cheaper (self, sequence, &trial, minutes);
      }
  return better;
}

/* Tries every candidate of the same configuration in the place of one item. */
static gboolean
exchange_item (Annealer *self, CavSequence *sequence, int at, double *minutes)
{
  CavSequence begin = *sequence, trial;
  int config = get_candidate (self, sequence, at)->config;
  gboolean better = FALSE;

  for (int i = 0; i < self->prices->n_priced; i++)
    {
      const CavCandidate *c = cav_task_candidate (self->task, i);

      if (c->config != config)
        continue;
      for (int fence = 0; fence < 2; fence++)
        {
          if (!(c->fences & (1u << fence)))
            continue;
          trial = begin;
          trial.items[at] = (CavItem){ i, (CavFence)fence };
          better |= keep_if_cheaper (self, sequence, &trial, minutes);
        }
    }
  return better;
}

void
cav_polish (CavPrices *prices, CavSequence *sequence)
{
  Annealer self = { prices, prices->task, 0, NULL, NULL };
  CavOutcome outcome;
  gboolean better = TRUE;
  double minutes;

  self.tilted_lines = g_hash_table_new_full (NULL, NULL, NULL, (GDestroyNotify)cav_lower_line_free);
  cav_sequence_evaluate (prices->store, prices->task, sequence, &outcome);
  cav_sequence_settle (sequence, &outcome);
  minutes = outcome.minutes;
  for (int round = 0; round < POLISH_ROUNDS && better; round++)
    {
      better = FALSE;
      for (int at = 0; at < sequence->n && !cav_task_is_cancelled (prices->task); at++)
        {
          better |= polish_item (&self, sequence, at, &minutes);
          if (at < sequence->n)
            better |= exchange_item (&self, sequence, at, &minutes);
        }
    }
  g_hash_table_unref (self.tilted_lines);
}

/* Candidates that were made on the way are only kept while a sequence uses them. */
void
cav_anneal (CavPrices *prices, CavSequence *sequence, int n_trials, double hot, guint32 seed)
{
  Annealer self = { prices, prices->task, (guint64)seed * 0x2545f4914f6cdd1du + 1, NULL, NULL };
  gsize size = sizeof (guint64) * (gsize)prices->n_words;
  g_autofree CavSequence *trial = g_new (CavSequence, 1);
  CavSequence current = *sequence;
  CavOutcome now, after;
  guint first_step = cav_rail_store_count_steps (prices->store);
  double best;

  /* Nothing takes anything, or nothing is there to be taken. */
  if (prices->n_priced == 0 || prices->n_bits == 0)
    return;
  cav_prices_index_takers (prices);
  self.tilted_lines = g_hash_table_new_full (NULL, NULL, NULL, (GDestroyNotify)cav_lower_line_free);
  cav_sequence_evaluate (prices->store, prices->task, &current, &now);
  cav_sequence_settle (&current, &now);
  best = now.minutes;
  *sequence = current;
  self.standing = g_memdup2 (cav_prices_get_rail_bits (prices, now.rail), size);
  for (int i = 0; i < n_trials; i++)
    {
      double spent = (double)(cav_rail_store_count_steps (prices->store) - first_step) / STEPS_MOST;
      double progress = fmax ((double)i / n_trials, spent);
      double temperature = hot * pow (COLD / hot, progress);

      if (progress >= 1)
        break;

      if (i % 64 == 0 && cav_task_is_cancelled (prices->task))
        break;
      *trial = current;
      mutate (&self, trial);
      if (draw_below (&self, 4) == 0)
        mutate (&self, trial);
      cav_sequence_evaluate (prices->store, prices->task, trial, &after);
      if (after.minutes > now.minutes
          && draw_share (&self) >= exp ((now.minutes - after.minutes) / temperature))
        continue;
      cav_sequence_settle (trial, &after);
      current = *trial;
      now = after;
      memcpy (self.standing, cav_prices_get_rail_bits (prices, now.rail), size);
      if (now.minutes < best - 1e-9)
        {
          best = now.minutes;
          *sequence = current;
        }
    }
  g_hash_table_unref (self.tilted_lines);
  g_free (self.standing);
}
