/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "milling/cav-rail-private.h"

#include "milling/cav-placement.h"

#include <math.h>
#include <string.h>

/* Pieces nowhere thicker than this are dust (micrometres, rows). */
#define DUST_SPAN 300
#define DUST_ROWS 6
/* Rounding of rows where equal amounts on both sides of an axis are compared, mm². */
#define FEED_MARGIN 0.004
#define FEEDS_MOST 60

/* A sweep while it is taken from a rail. */
typedef struct
{
  CavRailStore *store;
  const CavCandidate *candidate;
  const CavConfig *config;
  const CavTool *tool;
  gboolean flat;
  gboolean columns; /* count what is taken from each column */
  gboolean sides;   /* count what lies on either side of the axis */
  gint32 axis;      /* micrometres, or row where the rail stands on its edge */
  CavSums gone;     /* with films that are dropped */
  gint64 films;     /* of that: micrometres by rows, and so the next one */
  gint64 low;       /* on the low fence's side of the axis */
  double missing;   /* of both where the last row is not a full one */
  double low_missing;
  gint32 longest; /* span that was taken from one row */
} Taking;

/* Notes what is taken from the rows r0 to r1. */
static inline void
take (Taking *t, int r0, int r1, gint32 a, gint32 b)
{
  gint64 length = b - a, low = 0;

  cav_sums_add (&t->gone, r0, r1, a, b);
  t->longest = MAX (t->longest, b - a);
  if (t->sides)
    {
      if (t->flat)
        low = (gint64)MAX (MIN (b, t->axis) - a, 0) * (r1 - r0);
      else
        low = length * CLAMP (t->axis - r0, 0, r1 - r0);
      t->low += low;
    }
  if (r1 == t->store->task->n_rows)
    {
      double lacks = 1 - t->store->last_share;

      t->missing += (double)length * lacks;
      t->low_missing += (double)low / (r1 - r0) * lacks;
    }
  if (t->columns)
    {
      t->store->columns[a / CAV_COLUMN + 1] += r1 - r0;
      t->store->columns[(b + CAV_COLUMN - 1) / CAV_COLUMN + 1] -= r1 - r0;
    }
}

static void
drop_film (Taking *t, int r0, int r1, gint32 a, gint32 b)
{
  cav_sums_add (&t->gone, r0, r1, a, b);
  t->films += (gint64)(b - a) * (r1 - r0);
}

/* Closes the band that was just written: an equal neighbour takes it in. */
static void
end_band (CavScratch *s, int end, int n_spans)
{
  int begin = s->first[s->n_bands];

  if (s->n_bands > 0 && n_spans == begin - s->first[s->n_bands - 1]
      && cav_spans_equal (&s->spans[begin - n_spans], &s->spans[begin], n_spans))
    n_spans = 0;
  else
    s->n_bands++;
  s->ends[s->n_bands - 1] = end;
  s->first[s->n_bands] = begin + n_spans;
}

/* The spans of a band, less one run of the sweep. Returns how many are left. */
static inline int
subtract_spans (Taking *t,
                const CavSpan *spans,
                int n_spans,
                const CavSpan *cuts,
                int n_layers,
                int r0,
                int r1,
                CavSpan *out_spans)
{
  int n = 0;

  for (int i = 0; i < n_spans; i++)
    {
      CavSpan rest = spans[i];

      for (int layer = 0; layer < n_layers; layer++)
        {
          gint32 a = MAX (cuts[layer].a, rest.a), b = MIN (cuts[layer].b, rest.b);

          if (b <= a)
            continue;
          take (t, r0, r1, a, b);
          if (a - rest.a >= CAV_SPAN_LEAST)
            out_spans[n++] = (CavSpan){ rest.a, a };
          else if (a > rest.a)
            drop_film (t, r0, r1, rest.a, a);
          rest.a = b;
        }
      if (rest.b - rest.a >= CAV_SPAN_LEAST)
        out_spans[n++] = rest;
      else if (rest.b > rest.a)
        drop_film (t, r0, r1, rest.a, rest.b);
    }
  return n;
}

static void
copy_band (CavScratch *s, const CavBands *bands, int band, int end)
{
  int n = bands->first[band + 1] - bands->first[band];

  memcpy (&s->spans[s->first[s->n_bands]], &bands->spans[bands->first[band]],
          sizeof (CavSpan) * (gsize)n);
  end_band (s, end, n);
}

/* Bands that end at or before a row stay as they are. Returns how many. */
static int
copy_before (CavScratch *s, const CavBands *bands, int row)
{
  int n = 0;

  while (n < bands->n_bands && bands->ends[n] <= row)
    n++;
  memcpy (s->ends, bands->ends, sizeof (gint32) * (gsize)n);
  memcpy (s->first, bands->first, sizeof (gint32) * (gsize)(n + 1));
  memcpy (s->spans, bands->spans, sizeof (CavSpan) * (gsize)bands->first[n]);
  s->n_bands = n;
  return n;
}

/* All bands from one on that lie behind the sweep: only the first can equal what is before it. */
static void
copy_behind (CavScratch *s, const CavBands *bands, int band)
{
  int n = bands->n_bands - band - 1, shift;

  copy_band (s, bands, band, bands->ends[band]);
  shift = s->first[s->n_bands] - bands->first[band + 1];
  for (int i = 1; i <= n; i++)
    s->first[s->n_bands + i] = bands->first[band + 1 + i] + shift;
  memcpy (&s->ends[s->n_bands], &bands->ends[band + 1], sizeof (gint32) * (gsize)n);
  memcpy (&s->spans[s->first[s->n_bands]], &bands->spans[bands->first[band + 1]],
          sizeof (CavSpan) * (gsize)(bands->first[bands->n_bands] - bands->first[band + 1]));
  s->n_bands += n;
}

/* The bands that the sweep goes through, from one on, run by run. Returns the first band that is
 * not gone through to its end, or -1 where there are too many spans. */
static int
subtract_runs (Taking *t, const CavBands *bands, int band)
{
  const CavSweepRows *sweep = &t->candidate->sweep;
  CavScratch *s = &t->store->scratch;
  gint32 *end_at = &s->ends[s->n_bands], *first_at = &s->first[s->n_bands];
  CavSpan *left = &s->spans[*first_at];
  int n_before = s->n_bands > 0 ? first_at[0] - first_at[-1] : -1;
  const gint32 *run = sweep->runs;

  for (int row = sweep->r0; band < bands->n_bands && row < sweep->r1; band++)
    {
      const CavSpan *spans = &bands->spans[bands->first[band]];
      int n_spans = bands->first[band + 1] - bands->first[band];

      for (int last = MIN (bands->ends[band], sweep->r1), end, n; row < last; row = end)
        {
          const CavSpan *cuts = cav_sweep_rows_get (sweep, row);

          end = MIN (last, *run);
          run += *run == end;
          if (sweep->n_layers == 1)
            n = subtract_spans (t, spans, n_spans, cuts, 1, row, end, left);
          else
            n = subtract_spans (t, spans, n_spans, cuts, sweep->n_layers, row, end, left);
          if (n > CAV_RAIL_SPANS_MOST)
            return -1;
          /* An equal band before takes this one in. */
          if (n == n_before && cav_spans_equal (left - n, left, n))
            end_at[-1] = end;
          else
            {
              *end_at++ = end;
              left += n;
              *++first_at = (gint32)(left - s->spans);
              n_before = n;
            }
        }
      if (row < bands->ends[band])
        break;
    }
  s->n_bands = (int)(end_at - s->ends);
  return band;
}

/* Band by band; what is left goes to the scratch. FALSE where there are too many spans. */
static gboolean
subtract (Taking *t, const CavBands *bands)
{
  const CavSweepRows *sweep = &t->candidate->sweep;
  CavScratch *s = &t->store->scratch;
  int band = copy_before (s, bands, sweep->r0);

  if (band < bands->n_bands && cav_bands_get_start (bands, band) < sweep->r0)
    copy_band (s, bands, band, sweep->r0);
  s->from = MAX (s->n_bands - 1, 0);
  band = subtract_runs (t, bands, band);
  if (band < 0)
    return FALSE;
  s->to = s->n_bands;
  if (band < bands->n_bands && cav_bands_get_start (bands, band) < sweep->r1)
    {
      copy_band (s, bands, band, bands->ends[band]);
      band++;
    }
  if (band < bands->n_bands)
    copy_behind (s, bands, band);
  return TRUE;
}

static double
get_removed (const Taking *t)
{
  return ((double)(t->gone.area - t->films) - t->missing) * CAV_ROW_HEIGHT / CAV_MICRONS;
}

/* The piece that the seed is in, -1 where it is gone. */
static int
find_rail_piece (const CavRailStore *store)
{
  const CavScratch *s = &store->scratch;
  int band = 0;

  while (band < s->n_bands - 1 && s->ends[band] <= store->seed_row)
    band++;
  for (int i = s->first[band]; i < s->first[band + 1]; i++)
    if (store->seed_x >= s->spans[i].a && store->seed_x < s->spans[i].b)
      return s->parent[i];
  return -1;
}

/* How one piece lies to the tool, in the low fence's coordinates. */
typedef struct
{
  int root;
  gint32 longest;
  int r0, r1;
  double beyond[2]; /* how far it keeps behind the tool's middle as seen from either fence */
} PieceNote;

static void
note_span (const Taking *t, PieceNote *note, int r0, int r1, CavSpan span)
{
  const CavCandidate *c = t->candidate;
  const CavBlank *blank = &t->store->task->blank;
  double x0 = span.a / CAV_MICRONS, x1 = span.b / CAV_MICRONS;
  double y0 = (r0 + 0.5) * CAV_ROW_HEIGHT, y1 = (r1 - 0.5) * CAV_ROW_HEIGHT;
  double u0 = t->flat ? x0 : y0, u1 = t->flat ? x1 : y1;
  double v0 = t->flat ? y0 : x0, v1 = t->flat ? y1 : x1;

  if (c->down == CAV_SIDE_FACE || c->down == CAV_SIDE_OUTSIDE)
    {
      double height = cav_placement_get_height (blank, c->down), swap = v0;

      v0 = height - v1;
      v1 = height - swap;
    }
  note->beyond[CAV_FENCE_LOW]
      = MIN (note->beyond[CAV_FENCE_LOW], u0 - c->middle - c->lean * (c->lean > 0 ? v1 : v0));
  note->beyond[CAV_FENCE_HIGH]
      = MIN (note->beyond[CAV_FENCE_HIGH], c->middle + c->lean * (c->lean > 0 ? v0 : v1) - u1);
  note->longest = MAX (note->longest, span.b - span.a);
  note->r0 = MIN (note->r0, r0);
  note->r1 = MAX (note->r1, r1);
}

static GArray *
note_pieces (const Taking *t)
{
  const CavScratch *s = &t->store->scratch;
  GArray *notes = g_array_new (FALSE, FALSE, sizeof (PieceNote));

  for (int band = 0; band < s->n_bands; band++)
    for (int i = s->first[band]; i < s->first[band + 1]; i++)
      {
        int r0 = band > 0 ? s->ends[band - 1] : 0;
        PieceNote *note = NULL;

        for (guint j = 0; j < notes->len && note == NULL; j++)
          if (g_array_index (notes, PieceNote, j).root == s->parent[i])
            note = &g_array_index (notes, PieceNote, j);
        if (note == NULL)
          {
            PieceNote fresh = { s->parent[i], 0, r0, r0, { 1e9, 1e9 } };

            g_array_append_val (notes, fresh);
            note = &g_array_index (notes, PieceNote, notes->len - 1);
          }
        note_span (t, note, r0, s->ends[band], s->spans[i]);
      }
  return notes;
}

/* Rule 4 as seen from one fence: what a severed piece and the rail may do on either side of the
 * tool. out_frees: it is the rail that falls free of its carrier. */
static gboolean
may_sever (
    const Taking *t, const GArray *notes, int rail_piece, CavFence fence, gboolean *out_frees)
{
  CavRailStore *store = t->store;
  const CavCandidate *c = t->candidate;
  const PieceNote *carrier = NULL;
  gboolean pieces = FALSE, rail_beyond = FALSE;
  CavStanding standing;

  *out_frees = FALSE;
  for (guint i = 0; i < notes->len; i++)
    {
      const PieceNote *note = &g_array_index (notes, PieceNote, i);
      gboolean beyond = note->beyond[fence] > -1e-3;

      if (note->root == rail_piece)
        rail_beyond = beyond;
      else if (note->longest > DUST_SPAN && note->r1 - note->r0 > DUST_ROWS)
        {
          pieces = TRUE;
          if (!beyond && carrier != NULL)
            return FALSE;
          if (!beyond)
            carrier = note;
        }
    }
  if (!pieces)
    return TRUE;
  if (!c->severs || c->edge[fence] < store->task->shop->limits.push_gap - 1e-6)
    return FALSE;
  if (carrier == NULL)
    return TRUE;
  cav_rail_store_measure (store, carrier->root, &standing);
  *out_frees = TRUE;
  return rail_beyond && cav_standing_is_supported (&standing, &store->task->blank, c->down, fence);
}

static void
judge_pieces (const Taking *t, int rail_piece, CavStep *step)
{
  g_autoptr (GArray) notes = note_pieces (t);

  for (int fence = 0; fence < 2; fence++)
    {
      gboolean frees;

      if (!may_sever (t, notes, rail_piece, (CavFence)fence, &frees))
        step->fences &= (guint8) ~(1u << fence);
      else if (frees)
        step->frees |= (guint8)(1u << fence);
    }
}

/* Greatest thickness upward that was taken. */
static double
get_layer (const Taking *t)
{
  int n = t->store->width / CAV_COLUMN + 4, run = 0, most = 0;

  if (!t->flat)
    return t->longest / CAV_MICRONS;
  for (int i = 0; i < n; i++)
    {
      run += t->store->columns[i];
      most = MAX (most, run);
    }
  return most * CAV_ROW_HEIGHT;
}

/* The last feed across the blade is a light one. */
int
cav_count_cove_feeds (const CavLimits *limits, double layer)
{
  double light = MIN (limits->light_layer, limits->cove_layer);

  return layer <= light ? 1 : 1 + (int)ceil ((layer - light) / limits->cove_layer - 1e-6);
}

/* How many feeds it takes to keep to the bite, counting what the grid of heights costs. */
static int
count_feeds (const Taking *t, double removed, double layer)
{
  const CavTask *task = t->store->task;
  double step = task->shop->limits.step, bite = t->tool->bite;
  double width
      = MIN (t->config->machine == CAV_MACHINE_SAW ? t->tool->blade->kerf : t->tool->diameter,
             removed / fmax (t->candidate->height, step) * 2);
  int n = MAX (1, (int)ceil (removed / bite - 1e-4));

  while (n > 1 && n < FEEDS_MOST && removed > n * bite - (n - 1) * step * width)
    n++;
  if (t->config->machine == CAV_MACHINE_COVE)
    n = MAX (n, cav_count_cove_feeds (&task->shop->limits, layer));
  else if (t->config->machine == CAV_MACHINE_ROUTER && t->columns)
    n = MAX (n, (int)ceil (layer / t->tool->diameter - 1e-6));
  return MIN (n, FEEDS_MOST);
}

static gboolean
hits_pilot (const CavScratch *s, const CavCandidate *c)
{
  int row = 0;

  for (int band = 0; c->has_pilot && band < s->n_bands; row = s->ends[band++])
    if (row < (int)c->pilot[3] && s->ends[band] > (int)c->pilot[2])
      for (int i = s->first[band]; i < s->first[band + 1]; i++)
        if (s->spans[i].b > c->pilot[0] && s->spans[i].a < c->pilot[1])
          return TRUE;
  return FALSE;
}

/* Rule 5: of what a cutter takes, no more may lie on the fence's side of its axis. */
static void
judge_feed (const Taking *t, CavStep *step)
{
  /* Where the rail stands on its edge, a slot's walls may fall within a row: the proof is exact. */
  double margin
      = t->flat ? FEED_MARGIN : FEED_MARGIN + 1.2 * CAV_ROW_HEIGHT * t->longest / CAV_MICRONS;
  double low, high;

  if (t->config->machine != CAV_MACHINE_ROUTER)
    return;
  low = ((double)t->low - t->low_missing) * CAV_ROW_HEIGHT / CAV_MICRONS;
  high = get_removed (t) - low;
  if (low > high + margin)
    step->fences &= (guint8) ~(1u << CAV_FENCE_LOW);
  if (high > low + margin)
    step->fences &= (guint8) ~(1u << CAV_FENCE_HIGH);
}

gboolean
cav_rail_store_take (CavRailStore *store,
                     const CavRail *rail,
                     const CavCandidate *candidate,
                     CavStep *step,
                     int *out_piece)
{
  const CavConfig *config = cav_task_config (store->task, candidate->config);
  Taking t = { .store = store,
               .candidate = candidate,
               .config = config,
               .tool = cav_task_tool (store->task, config->tool),
               .flat = cav_side_is_flat (candidate->down),
               .sides = config->machine == CAV_MACHINE_ROUTER };
  double removed;

  *out_piece = -1;
  t.axis = t.flat ? (gint32)lround (candidate->middle * CAV_MICRONS)
                  : (gint32)ceil (candidate->middle / CAV_ROW_HEIGHT - 0.5);
  t.columns = cav_rail_store_needs_layer (store, candidate);
  if (t.columns)
    memset (store->columns, 0, sizeof (int) * (gsize)(store->width / CAV_COLUMN + 4));
  if (!subtract (&t, &rail->bands))
    return FALSE;
  removed = get_removed (&t);
  if (removed < CAV_REMOVED_LEAST || hits_pilot (&store->scratch, candidate))
    return FALSE;
  step->removed = (float)removed;
  step->fences = (guint8)candidate->fences;
  step->layer = t.columns ? (float)get_layer (&t) : 0;
  step->n_passes = (guint8)count_feeds (&t, removed, (double)step->layer);
  judge_feed (&t, step);
  store->scratch.is_whole = cav_scratch_find_pieces (&store->scratch, rail->is_whole) == 1;
  store->scratch.has_sums = rail->has_sums;
  store->scratch.sums
      = (CavSums){ rail->sums.area - t.gone.area, rail->sums.moment_x - t.gone.moment_x,
                   rail->sums.moment_y - t.gone.moment_y };
  if (!store->scratch.is_whole)
    {
      *out_piece = find_rail_piece (store);
      if (*out_piece < 0)
        step->fences = 0;
      else
        judge_pieces (&t, *out_piece, step);
    }
  return TRUE;
}
