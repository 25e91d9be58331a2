/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "milling/cav-rail.h"

#include "milling/cav-arc.h"
#include "milling/cav-rail-private.h"

#include <math.h>
#include <string.h>

#define N_RAILS 1500
/* Steps that are kept: enough for a long search, or for a quick one without the cost of clearing
 * them. */
#define STEP_BITS 17
#define STEP_BITS_QUICK 12
/* A rail that was asked for within the last so many requests is not thrown out. */
#define RECENT 400
/* Leftover is looked for this far over the finished surface: a hair less than the 0.3 that counts,
 * so that the search does not end on strips of just that thickness. */
#define HAND_DEPTH 0.29
/* Price of leftover beyond the limit, minutes: heavy, so that it is avoided wherever it can be. */
#define OVER_LEAST 0.01
#define OVER_PRICE 25.0
#define OVER_AREA_PRICE 5.0

static void
place_samples (CavRailStore *store)
{
  const CavTask *task = store->task;

  store->sample_rows = g_new (int, MAX (task->samples->len, 1));
  store->sample_xs = g_new (gint32, MAX (task->samples->len, 1));
  for (guint i = 0; i < task->samples->len; i++)
    {
      const CavOutlineSample *sample = &g_array_index (task->samples, CavOutlineSample, i);
      double y = sample->point.y + HAND_DEPTH * sample->normal.y;

      store->sample_rows[i] = (int)floor (y / CAV_ROW_HEIGHT);
      store->sample_xs[i]
          = (gint32)lround ((sample->point.x + HAND_DEPTH * sample->normal.x) * CAV_MICRONS);
    }
}

CavRailStore *
cav_rail_store_new (CavTask *task)
{
  CavRailStore *store = g_new0 (CavRailStore, 1);
  gsize room = (gsize)task->n_rows * CAV_ROW_SPANS_MAX;

  store->task = task;
  store->width = (gint32)lround (task->blank.width * CAV_MICRONS);
  store->last_share = cav_rows_get_share (task->blank.thickness, task->n_rows - 1);
  store->rails = g_new (CavRail, N_RAILS);
  store->by_key = g_hash_table_new (g_int64_hash, g_int64_equal);
  store->forbidden = g_hash_table_new_full (g_int64_hash, g_int64_equal, g_free, NULL);
  store->step_bits = task->thorough ? STEP_BITS : STEP_BITS_QUICK;
  store->steps = g_new0 (CavStep, 1 << store->step_bits);
  store->beyond = cav_bands_new_from_rows (task->beyond_rows);
  /* A sweep can split each band of a rail in three; there are never more bands than rows. */
  store->scratch.ends = g_new (gint32, task->n_rows + 1);
  store->scratch.first = g_new (gint32, task->n_rows + 2);
  store->scratch.spans = g_new (CavSpan, room);
  store->scratch.parent = g_new (int, room);
  store->columns = g_new (int, store->width / CAV_COLUMN + 4);
  store->profile = cav_bands_new_from_rows (task->profile_rows);
  place_samples (store);
  cav_rows_find_middle (task->profile_rows, &store->seed_row, &store->seed_x);
  return store;
}

static void
clear_rail (CavRail *rail)
{
  g_free (rail->room);
  g_free (rail->bits);
}

void
cav_rail_store_free (CavRailStore *store)
{
  if (store == NULL)
    return;
  for (int i = 0; i < store->n_rails; i++)
    clear_rail (&store->rails[i]);
  g_free (store->rails);
  g_hash_table_unref (store->by_key);
  g_hash_table_unref (store->forbidden);
  g_free (store->steps);
  cav_bands_free (store->beyond);
  cav_bands_free (store->profile);
  g_free (store->scratch.ends);
  g_free (store->scratch.first);
  g_free (store->scratch.spans);
  g_free (store->scratch.parent);
  g_free (store->columns);
  g_free (store->sample_rows);
  g_free (store->sample_xs);
  g_free (store);
}

CavPoint
cav_rail_store_get_seed (const CavRailStore *store)
{
  return cav_rows_get_place (store->seed_row, store->seed_x);
}

guint
cav_rail_store_count_steps (const CavRailStore *store)
{
  return store->n_computed;
}

static CavRail *
lookup_rail (CavRailStore *store, guint64 key)
{
  CavRail *rail = g_hash_table_lookup (store->by_key, &key);

  if (rail != NULL)
    rail->stamp = ++store->clock;
  return rail;
}

/* A slot for a new rail: unused, or one that nobody asked for lately. */
static CavRail *
claim_rail (CavRailStore *store, guint64 key)
{
  CavRail *rail = NULL;

  if (store->n_rails < N_RAILS)
    {
      rail = &store->rails[store->n_rails++];
      *rail = (CavRail){ .key = key };
    }
  while (rail == NULL)
    {
      CavRail *victim = &store->rails[store->hand];

      store->hand = (store->hand + 1) % N_RAILS;
      /* The blank stays for good. */
      if (victim->key != 0 && store->clock - victim->stamp > RECENT)
        {
          g_hash_table_remove (store->by_key, &victim->key);
          g_clear_pointer (&victim->bits, g_free);
          rail = victim;
        }
    }
  rail->key = key;
  rail->has_hand = FALSE;
  rail->arcs = -1;
  rail->stamp = ++store->clock;
  g_hash_table_insert (store->by_key, &rail->key, rail);
  return rail;
}

/* Room for all that the scratch holds, in one block. */
static void
make_room (const CavScratch *s, CavRail *rail)
{
  int n_spans = s->first[s->n_bands], n = 2 * s->n_bands + 1 + 2 * n_spans;

  if (rail->n_room < n)
    {
      g_free (rail->room);
      rail->n_room = n + n / 4;
      rail->room = g_new (gint32, rail->n_room);
    }
  rail->bands.ends = rail->room;
  rail->bands.first = rail->bands.ends + s->n_bands;
  rail->bands.spans = (CavSpan *)(rail->bands.first + s->n_bands + 1);
}

/* The spans of one piece of the scratch alone. */
static void
copy_piece (const CavScratch *s, int piece, CavBands *bands)
{
  int n = 0;

  bands->n_bands = 0;
  for (int band = 0; band < s->n_bands; band++)
    {
      int begin = n, before = bands->n_bands > 0 ? bands->first[bands->n_bands - 1] : 0;

      for (int i = s->first[band]; i < s->first[band + 1]; i++)
        if (s->parent[i] == piece)
          bands->spans[n++] = s->spans[i];
      /* What has become equal is one band. */
      if (bands->n_bands > 0 && n - begin == begin - before
          && cav_spans_equal (&bands->spans[before], &bands->spans[begin], n - begin))
        n = begin;
      else
        bands->first[bands->n_bands++] = begin;
      bands->ends[bands->n_bands - 1] = s->ends[band];
    }
  bands->first[bands->n_bands] = n;
}

void
cav_rail_store_keep (CavRailStore *store, int piece, CavRail *rail)
{
  const CavScratch *s = &store->scratch;
  CavBands *bands = &rail->bands;

  rail->has_standing = FALSE;
  rail->has_sums = piece < 0 && s->has_sums;
  rail->sums = s->sums;
  rail->is_whole = piece >= 0 || s->is_whole;
  make_room (s, rail);
  bands->n_rows = store->task->n_rows;
  if (piece >= 0)
    copy_piece (s, piece, bands);
  else
    {
      bands->n_bands = s->n_bands;
      memcpy (bands->ends, s->ends, sizeof (gint32) * (gsize)s->n_bands);
      memcpy (bands->first, s->first, sizeof (gint32) * (gsize)(s->n_bands + 1));
      memcpy (bands->spans, s->spans, sizeof (CavSpan) * (gsize)s->first[s->n_bands]);
    }
}

const CavRail *
cav_rail_store_get_blank (CavRailStore *store)
{
  CavRail *rail = lookup_rail (store, 0);
  CavScratch *s = &store->scratch;

  if (rail != NULL)
    return rail;
  rail = claim_rail (store, 0);
  s->n_bands = 1;
  s->ends[0] = store->task->n_rows;
  s->first[0] = 0;
  s->first[1] = 1;
  s->spans[0] = (CavSpan){ 0, store->width };
  s->is_whole = TRUE;
  s->has_sums = FALSE;
  cav_rail_store_keep (store, -1, rail);
  return rail;
}

static guint64
mix (guint64 rail, guint64 sweep)
{
  guint64 hash = (rail ^ (sweep * 0x9e3779b97f4a7c15u)) * 0xff51afd7ed558ccdu;

  return hash ^ (hash >> 29);
}

/* Placements of different setups may sweep the same; their steps differ in bite and fences. */
static guint64
get_step_key (const CavCandidate *candidate)
{
  return candidate->key ^ (guint64)candidate->config;
}

static gint64
get_forbidden_key (guint64 rail, const CavCandidate *candidate, int fence)
{
  return (gint64)mix (rail + (guint64)fence * 77, get_step_key (candidate));
}

static CavStep *
get_step (const CavRailStore *store, guint64 rail, const CavCandidate *candidate)
{
  return &store->steps[mix (rail, get_step_key (candidate)) >> (64 - store->step_bits)];
}

void
cav_rail_store_forbid (CavRailStore *store,
                       guint64 rail,
                       const CavCandidate *candidate,
                       CavFence fence)
{
  gint64 key = get_forbidden_key (rail, candidate, (int)fence);

  g_hash_table_add (store->forbidden, g_memdup2 (&key, sizeof key));
  get_step (store, rail, candidate)->sweep = 0;
}

void
cav_rail_store_set_bits (CavRailStore *store, int n_words)
{
  store->n_words = n_words;
}

/* Where nothing falls off, what stands is what stood less what was swept. */
static void
derive_bits (const CavRailStore *store, const CavRail *rail, const CavCandidate *c, CavRail *next)
{
  if (rail->bits == NULL || c->bits == NULL)
    return;
  next->bits = g_new (guint64, MAX (store->n_words, 1));
  next->has_arc_bits = FALSE;
  for (int w = 0; w < store->n_words; w++)
    next->bits[w] = rail->bits[w] & ~c->bits[w];
}

/* Keeps what the scratch holds as the rail after a step. */
static void
keep_next (
    CavRailStore *store, const CavRail *rail, const CavCandidate *c, int piece, CavStep *step)
{
  step->next = rail->key ^ c->key;
  if (step->next == 0)
    step->next = 1;
  if (lookup_rail (store, step->next) == NULL)
    {
      CavRail *next = claim_rail (store, step->next);

      cav_rail_store_keep (store, piece, next);
      if (piece < 0)
        derive_bits (store, rail, c, next);
    }
}

static void
compute_step (CavRailStore *store, const CavRail *rail, const CavCandidate *c, CavStep *step)
{
  int piece;

  store->n_computed++;
  *step = (CavStep){ .rail = rail->key, .sweep = get_step_key (c) };
  if (!cav_rail_store_take (store, rail, c, step, &piece))
    return;
  for (int fence = 0; fence < 2 && g_hash_table_size (store->forbidden) > 0; fence++)
    {
      gint64 key = get_forbidden_key (rail->key, c, fence);

      if (g_hash_table_contains (store->forbidden, &key))
        step->fences &= (guint8) ~(1u << fence);
    }
  if (step->fences != 0)
    keep_next (store, rail, c, piece, step);
}

const CavStep *
cav_rail_store_step (CavRailStore *store,
                     const CavRail *rail,
                     const CavCandidate *candidate,
                     const CavRail **out_next)
{
  CavStep *step = get_step (store, rail->key, candidate);

  *out_next = NULL;
  if (step->rail != rail->key || step->sweep != get_step_key (candidate))
    compute_step (store, rail, candidate, step);
  if (step->n_passes == 0 || step->fences == 0)
    return step;
  *out_next = lookup_rail (store, step->next);
  if (*out_next == NULL)
    {
      compute_step (store, rail, candidate, step);
      *out_next = lookup_rail (store, step->next);
    }
  return step;
}

const CavStep *
cav_rail_store_look (CavRailStore *store,
                     const CavRail *rail,
                     const CavCandidate *candidate,
                     const CavRail **out_next)
{
  const CavStep *step = cav_rail_store_step (store, rail, candidate, out_next);
  CavStep again = *step;
  int piece;

  if (step->n_passes == 0 || *out_next != NULL)
    return step;
  *out_next = lookup_rail (store, rail->key ^ candidate->key);
  if (*out_next == NULL && cav_rail_store_take (store, rail, candidate, &again, &piece))
    {
      keep_next (store, rail, candidate, piece, &again);
      *out_next = lookup_rail (store, again.next);
    }
  return step;
}

gboolean
cav_rail_store_drops (CavRailStore *store, const CavRail *rail, const CavCandidate *candidate)
{
  CavStep step = { 0 };
  int piece;

  return cav_rail_store_take (store, rail, candidate, &step, &piece) && piece >= 0;
}

void
cav_rail_get_hand (CavRailStore *store, const CavRail *rail, double *out_minutes, double *out_over)
{
  CavRail *self = (CavRail *)rail;
  const CavRates *rates = &store->task->shop->rates;

  if (!self->has_hand)
    {
      double outline = 0, leftover;
      int band = 0;

      for (guint i = 0; i < store->task->samples->len; i++)
        if (cav_bands_contain (&rail->bands, store->sample_rows[i], store->sample_xs[i], &band))
          outline += g_array_index (store->task->samples, CavOutlineSample, i).length;
      /* Sweeps are a hair wide, so the whole areas' difference would hide thin leftover. */
      leftover = cav_bands_get_area (&rail->bands)
                 - cav_bands_get_common_area (&rail->bands, store->profile);
      self->hand
          = store->task->metres * (rates->hand_volume * leftover + rates->hand_surface * outline);
      self->over = cav_bands_get_common_area (&rail->bands, store->beyond);
      self->has_hand = TRUE;
    }
  *out_minutes = self->hand;
  *out_over = self->over > OVER_LEAST ? OVER_PRICE + OVER_AREA_PRICE * self->over : 0;
}

double
cav_rail_get_arcs (CavRailStore *store, const CavRail *rail)
{
  CavRail *self = (CavRail *)rail;
  const CavTask *task = store->task;
  int n = 0;

  if (self->arcs >= 0)
    return self->arcs;
  for (guint i = 0; i < task->arcs->len; i++)
    {
      const CavOutlineArc *arc = &g_array_index (task->arcs, CavOutlineArc, i);

      n += arc->mated && cav_arc_is_left (arc, &rail->bands);
    }
  self->arcs = n * cav_arc_get_price (task);
  return self->arcs;
}
