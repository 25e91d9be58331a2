/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "milling/cav-greedy-private.h"

#include <math.h>
#include <string.h>

/* A placement or pair that takes something, before it has a rank. */
typedef struct
{
  double rate; /* minutes by a minute of hand work that it saves */
  int candidate;
  float minutes; /* that it would take */
} Offer;

/* All of a round: first those that save more than they cost, cheapest first. */
typedef struct
{
  Offer *offers;
  guint n;
  guint n_paying;
} Offers;

static const guint64 *
get_bits (const CavPrices *prices, int choice)
{
  return choice < 0 ? g_array_index (prices->pairs, CavPair, -1 - choice).bits
                    : cav_task_candidate (prices->task, choice)->bits;
}

static const CavBitExtent *
get_extent (const CavPrices *prices, int choice)
{
  return choice < 0 ? &g_array_index (prices->pairs, CavPair, -1 - choice).extent
                    : &cav_task_candidate (prices->task, choice)->extent;
}

static int
compare_choices (const void *a, const void *b)
{
  const CavChoice *p = a, *q = b;

  if (p->rank > q->rank || p->rank < q->rank)
    return p->rank < q->rank ? 1 : -1;
  return (p->candidate > q->candidate) - (p->candidate < q->candidate);
}

static inline gboolean
is_cheaper (const Offer *a, const Offer *b)
{
  return a->rate < b->rate || (a->rate <= b->rate && a->candidate < b->candidate);
}

/* Cheapest first. By insertion over ever shorter gaps: some hundreds are sorted in every round, and
 * a call for each comparison would take most of the time. */
static void
sort_offers (Offer *offers, guint n)
{
  static const guint gaps[] = { 701, 301, 132, 57, 23, 10, 4, 1 };

  for (guint k = 0; k < G_N_ELEMENTS (gaps); k++)
    for (guint i = gaps[k]; i < n; i++)
      {
        Offer offer = offers[i];
        guint at = i;

        for (; at >= gaps[k] && is_cheaper (&offer, &offers[at - gaps[k]]); at -= gaps[k])
          offers[at] = offers[at - gaps[k]];
        offers[at] = offer;
      }
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

/* Minutes of opening setups, each worked out once a round. */
typedef struct
{
  const CavTask *task;
  const CavSequence *sequence;
  double *known; /* by configuration and side, below 0 where not yet */
} Openings;

static double
look_up_opening (const Openings *openings, const CavCandidate *c)
{
  double *known = &openings->known[c->config * CAV_N_SIDES + (int)c->down];

  if (*known < 0)
    *known = get_opening (openings->task, openings->sequence, c);
  return *known;
}

/* Those that pay go to the front. */
static void
sort_paying (Offers *offers)
{
  offers->n_paying = 0;
  for (guint i = 0; i < offers->n; i++)
    if (offers->offers[i].rate < 1)
      {
        Offer offer = offers->offers[i];

        offers->offers[i] = offers->offers[offers->n_paying];
        offers->offers[offers->n_paying++] = offer;
      }
  sort_offers (offers->offers, offers->n_paying);
}

/* All that takes something. */
static Offers
collect_offers (const CavPrices *prices, const CavSequence *sequence, const guint64 *standing)
{
  const CavTask *task = prices->task;
  guint n = task->configs->len * CAV_N_SIDES;
  g_autofree double *known = g_new (double, n);
  Openings openings = { task, sequence, known };
  Offers offers = { g_new (Offer, MAX ((guint)prices->n_priced + prices->pairs->len, 1)), 0, 0 };

  for (guint i = 0; i < n; i++)
    known[i] = -1;
  for (int i = 0; i < prices->n_priced; i++)
    {
      const CavCandidate *c = cav_task_candidate (task, i);
      double worth
          = c->is_dominated ? 0 : cav_prices_get_worth (prices, c->bits, &c->extent, standing),
          minutes;
      Offer offer = { 0, i, 0 };

      if (worth < 1e-6)
        continue;
      minutes
          = estimate_minutes (
                prices, c, worth - cav_prices_get_arc_worth (prices, c->bits, &c->extent, standing))
            + look_up_opening (&openings, c);
      offer.minutes = (float)minutes;
      offer.rate = minutes / worth;
      offers.offers[offers.n++] = offer;
    }
  for (guint i = 0; i < prices->pairs->len; i++)
    {
      const CavPair *pair = &g_array_index (prices->pairs, CavPair, i);
      double worth = cav_prices_get_worth (prices, pair->bits, &pair->extent, standing);
      double opening = look_up_opening (&openings, cav_task_candidate (task, pair->first));
      Offer offer = { 0, -1 - (int)i, (float)(pair->minutes + opening + task->shop->rates.turn) };

      if (worth < 1e-6)
        continue;
      /* As if its setup were open: severed waste is cheap wherever a pair reaches it. */
      offer.rate = pair->minutes / worth;
      offers.offers[offers.n++] = offer;
    }
  sort_paying (&offers);
  return offers;
}

/* Prices: a bit is as dear as the cheapest placement that takes it makes it. */
static void
set_prices (const CavPrices *prices,
            const Offers *offers,
            const guint64 *standing,
            guint64 *out_planes)
{
  g_autofree guint64 *open
      = g_memdup2 (standing, sizeof (guint64) * (gsize)MAX (prices->n_words, 1));

  memset (out_planes, 0, sizeof (guint64) * CAV_PRICE_PLANES * (gsize)prices->n_words);
  for (guint i = 0; i < offers->n_paying; i++)
    {
      const Offer *offer = &offers->offers[i];
      const guint64 *bits = get_bits (prices, offer->candidate);
      const CavBitExtent *extent = get_extent (prices, offer->candidate);
      int price = MAX (1, (int)(offer->rate * CAV_PRICE_WHOLE + 0.5));

      for (int kind = 0; kind < CAV_BIT_KINDS; kind++)
        for (int w = extent->from[kind]; w < extent->to[kind]; w++)
          {
            guint64 taken = bits[w] & open[w];

            if (taken == 0)
              continue;
            open[w] &= ~taken;
            for (int k = 0; k < CAV_PRICE_PLANES; k++)
              out_planes[w * CAV_PRICE_PLANES + k] |= taken & -(guint64)(price >> k & 1);
          }
    }
  for (int w = 0; w < prices->n_words; w++)
    for (int k = 0; k < CAV_PRICE_PLANES; k++)
      out_planes[w * CAV_PRICE_PLANES + k] |= open[w];
}

CAV_COUNTING double
cav_greedy_sum_prices (const CavPrices *prices,
                       const guint64 *planes,
                       const guint64 *a,
                       const CavBitExtent *extent,
                       const guint64 *b)
{
  double sum = 0;

  for (int kind = 0; kind < CAV_BIT_KINDS; kind++)
    {
      gint64 count = 0;

      for (int w = extent->from[kind]; w < extent->to[kind]; w++)
        {
          const guint64 *plane = &planes[w * CAV_PRICE_PLANES];
          guint64 common = a[w] & b[w];

          gint64 here = 0;

          if (common == 0)
            continue;
          for (int k = CAV_PRICE_PLANES - 1; k >= 0; k--)
            here = 2 * here + __builtin_popcountll (common & plane[k]);
          count += here;
        }
      sum += (double)count * prices->kind_worth[kind];
    }
  return sum / CAV_PRICE_WHOLE;
}

/* Keeps the best of the choices, best first. */
static void
enter_choice (GArray *choices, guint width, CavChoice choice)
{
  guint at = choices->len;

  if (at == width && compare_choices (&choice, &g_array_index (choices, CavChoice, at - 1)) > 0)
    return;
  if (at == width)
    at--;
  else
    g_array_set_size (choices, at + 1);
  for (; at > 0 && compare_choices (&choice, &g_array_index (choices, CavChoice, at - 1)) < 0; at--)
    g_array_index (choices, CavChoice, at) = g_array_index (choices, CavChoice, at - 1);
  g_array_index (choices, CavChoice, at) = choice;
}

GArray *
cav_greedy_rank (const CavPrices *prices,
                 const CavSequence *sequence,
                 const guint64 *standing,
                 guint width,
                 guint64 *out_planes)
{
  GArray *choices = g_array_new (FALSE, FALSE, sizeof (CavChoice));
  Offers offers = collect_offers (prices, sequence, standing);

  set_prices (prices, &offers, standing, out_planes);
  for (guint i = 0; i < offers.n; i++)
    {
      const Offer *offer = &offers.offers[i];
      CavChoice choice = { offer->candidate, 0 };

      /* No bit is dearer than the hand work that it saves. */
      if (choices->len == width
          && offer->rate * g_array_index (choices, CavChoice, width - 1).rank > 1 + 1e-2)
        continue;
      choice.rank = cav_greedy_sum_prices (prices, out_planes, get_bits (prices, offer->candidate),
                                           get_extent (prices, offer->candidate), standing)
                    / (double)offer->minutes;
      enter_choice (choices, width, choice);
    }
  g_free (offers.offers);
  return choices;
}
