/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "milling/cav-rail.h"

#include "milling/cav-placement.h"

#include <math.h>
#include <string.h>

#define N_RAILS 1500
#define STEP_BITS 17
/* A rail that was asked for within the last so many requests is not thrown out. */
#define RECENT 400
#define MAX_ROW_SPANS 16
/* Pieces nowhere thicker than this are dust (micrometres, rows). */
#define DUST_SPAN 300
#define DUST_ROWS 6
/* Lands count from a little over 1 mm on. */
#define LAND_LEAST 1.005
/* Leftover is looked for this far over the finished surface. */
#define HAND_DEPTH 0.3
/* Price of leftover beyond the limit, minutes: heavy, so that it is avoided wherever it can be. */
#define OVER_PRICE 25.0
#define OVER_AREA_PRICE 5.0
#define COLUMN 250

struct _CavRailStore
{
  CavTask *task;
  CavRail *rails;
  int n_rails;
  int hand; /* of the clock */
  guint clock;
  GHashTable *by_key;    /* key -> CavRail */
  CavStep *steps;        /* direct mapped */
  GHashTable *forbidden; /* of step keys mixed with fence */
  guint n_computed;
  gint32 width;
  double *shares; /* of rows */
  double profile_area;
  int seed_row;
  gint32 seed_x;
  int *sample_rows;
  gint32 *sample_xs;
  /* Scratch of one step. */
  CavSpan *spans;
  gint32 *first;
  int *parent;
  int *columns;
};

/* A middle of the widest span of the profile: wood that always stays. */
static void
find_seed (CavRailStore *store)
{
  const CavRows *rows = store->task->profile_rows;
  gint32 widest = 0;

  for (int row = 0; row < rows->n_rows; row++)
    for (int i = rows->first[row]; i < rows->first[row + 1]; i++)
      if (rows->spans[i].b - rows->spans[i].a > widest)
        {
          widest = rows->spans[i].b - rows->spans[i].a;
          store->seed_row = row;
          store->seed_x = (rows->spans[i].a + rows->spans[i].b) / 2;
        }
}

static double
get_weighted_area (const CavRailStore *store, const CavRows *rows)
{
  double area = 0;

  for (int row = 0; row < rows->n_rows; row++)
    {
      gint64 microns = 0;

      for (int i = rows->first[row]; i < rows->first[row + 1]; i++)
        microns += rows->spans[i].b - rows->spans[i].a;
      area += (double)microns * store->shares[row];
    }
  return area / CAV_MICRONS * CAV_ROW_HEIGHT;
}

CavRailStore *
cav_rail_store_new (CavTask *task)
{
  CavRailStore *store = g_new0 (CavRailStore, 1);
  int n = task->n_rows;

  store->task = task;
  store->width = (gint32)lround (task->blank.width * CAV_MICRONS);
  store->rails = g_new0 (CavRail, N_RAILS);
  store->by_key = g_hash_table_new (g_int64_hash, g_int64_equal);
  store->forbidden = g_hash_table_new_full (g_int64_hash, g_int64_equal, g_free, NULL);
  store->steps = g_new0 (CavStep, 1 << STEP_BITS);
  store->shares = g_new (double, n);
  for (int row = 0; row < n; row++)
    store->shares[row] = cav_rows_get_share (task->blank.thickness, row);
  store->spans = g_new (CavSpan, (gsize)n * MAX_ROW_SPANS);
  store->first = g_new (gint32, n + 1);
  store->parent = g_new (int, (gsize)n *MAX_ROW_SPANS);
  store->columns = g_new (int, store->width / COLUMN + 4);
  store->profile_area = get_weighted_area (store, task->profile_rows);
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
  find_seed (store);
  return store;
}

void
cav_rail_store_free (CavRailStore *store)
{
  if (store == NULL)
    return;
  for (int i = 0; i < store->n_rails; i++)
    {
      g_free (store->rails[i].rows.first);
      g_free (store->rails[i].rows.spans);
      g_free (store->rails[i].bits);
    }
  g_free (store->rails);
  g_hash_table_unref (store->by_key);
  g_hash_table_unref (store->forbidden);
  g_free (store->steps);
  g_free (store->shares);
  g_free (store->spans);
  g_free (store->first);
  g_free (store->parent);
  g_free (store->columns);
  g_free (store->sample_rows);
  g_free (store->sample_xs);
  g_free (store);
}

CavPoint
cav_rail_store_get_seed (const CavRailStore *store)
{
  return CAV_POINT (store->seed_x / CAV_MICRONS, (store->seed_row + 0.5) * CAV_ROW_HEIGHT);
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
    rail = &store->rails[store->n_rails++];
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
  rail->stamp = ++store->clock;
  g_hash_table_insert (store->by_key, &rail->key, rail);
  return rail;
}

/* Adds a stretch of wood on a side to its lands. */
static void
add_land (CavLands *lands, double from, double to)
{
  if (to - from < LAND_LEAST)
    return;
  if (lands->total <= 0)
    lands->first = from;
  lands->last = to;
  lands->total += to - from;
}

/* Which rows of spans belong to one piece; parent NULL: all of them. */
typedef struct
{
  const CavSpan *spans;
  const gint32 *first;
  const int *parent;
  int piece;
} Piece;

static gboolean
is_of_piece (const Piece *piece, int span)
{
  return piece->parent == NULL || piece->parent[span] == piece->piece;
}

static void
measure_upright_lands (
    const CavRailStore *store, const Piece *piece, CavStanding *standing, int row, double runs[2])
{
  gboolean touches[2] = { FALSE, FALSE };

  if (row < store->task->n_rows)
    for (int i = piece->first[row]; i < piece->first[row + 1]; i++)
      if (is_of_piece (piece, i))
        {
          touches[0] |= piece->spans[i].a <= CAV_SPAN_LEAST;
          touches[1] |= piece->spans[i].b >= store->width - CAV_SPAN_LEAST;
        }
  for (int side = 0; side < 2; side++)
    {
      if (touches[side] && runs[side] < 0)
        runs[side] = row * CAV_ROW_HEIGHT;
      if (!touches[side] && runs[side] >= 0)
        {
          add_land (&standing->lands[side == 0 ? CAV_SIDE_INSIDE : CAV_SIDE_OUTSIDE], runs[side],
                    MIN (row * CAV_ROW_HEIGHT, store->task->blank.thickness));
          runs[side] = -1;
        }
    }
}

/* Area, centroid, box and lands of one piece. */
static void
measure_piece (const CavRailStore *store, const Piece *piece, CavStanding *standing)
{
  int n = store->task->n_rows;
  double area = 0, mx = 0, my = 0, runs[2] = { -1, -1 };

  memset (standing, 0, sizeof *standing);
  standing->box = (CavBox){ 1e9, 1e9, -1e9, -1e9 };
  for (int row = 0; row < n; row++)
    {
      gint64 length = 0, moment = 0;

      for (int i = piece->first[row]; i < piece->first[row + 1]; i++)
        {
          CavSpan span = piece->spans[i];

          if (!is_of_piece (piece, i))
            continue;
          length += span.b - span.a;
          moment += (gint64)(span.b - span.a) * (span.a + span.b);
          standing->box.x0 = MIN (standing->box.x0, span.a / CAV_MICRONS);
          standing->box.x1 = MAX (standing->box.x1, span.b / CAV_MICRONS);
          if (row == 0)
            add_land (&standing->lands[CAV_SIDE_BACK], span.a / CAV_MICRONS, span.b / CAV_MICRONS);
          if (row == n - 1)
            add_land (&standing->lands[CAV_SIDE_FACE], span.a / CAV_MICRONS, span.b / CAV_MICRONS);
        }
      measure_upright_lands (store, piece, standing, row, runs);
      if (length == 0)
        continue;
      standing->box.y0 = MIN (standing->box.y0, row * CAV_ROW_HEIGHT);
      standing->box.y1 = (row + 1) * CAV_ROW_HEIGHT;
      area += (double)length * store->shares[row];
      mx += (double)moment / 2 * store->shares[row];
      my += (double)length * store->shares[row] * (row + 0.5) * CAV_ROW_HEIGHT;
    }
  measure_upright_lands (store, piece, standing, n, runs);
  standing->box.y1 = MIN (standing->box.y1, store->task->blank.thickness);
  if (area > 0)
    standing->centroid = (CavPoint){ mx / area / CAV_MICRONS, my / area };
  standing->area = area / CAV_MICRONS * CAV_ROW_HEIGHT;
}

/* Keeps the spans of one piece in a rail. */
static void
store_rows (CavRailStore *store, CavRail *rail, const Piece *piece)
{
  int n_rows = store->task->n_rows, n = 0, total = piece->first[n_rows];

  if (rail->rows.first == NULL)
    rail->rows.first = g_new (gint32, n_rows + 1);
  if (rail->n_spans_room < total)
    {
      rail->n_spans_room = total + total / 4 + 16;
      rail->rows.spans = g_renew (CavSpan, rail->rows.spans, rail->n_spans_room);
    }
  rail->rows.n_rows = n_rows;
  for (int row = 0; row < n_rows; row++)
    {
      rail->rows.first[row] = n;
      for (int i = piece->first[row]; i < piece->first[row + 1]; i++)
        if (is_of_piece (piece, i))
          rail->rows.spans[n++] = piece->spans[i];
    }
  rail->rows.first[n_rows] = n;
  measure_piece (store, &(Piece){ rail->rows.spans, rail->rows.first, NULL, 0 }, &rail->standing);
}

const CavRail *
cav_rail_store_get_blank (CavRailStore *store)
{
  CavRail *rail = lookup_rail (store, 0);
  int n = store->task->n_rows;

  if (rail != NULL)
    return rail;
  rail = claim_rail (store, 0);
  for (int row = 0; row < n; row++)
    {
      store->first[row] = row;
      store->spans[row] = (CavSpan){ 0, store->width };
    }
  store->first[n] = n;
  store_rows (store, rail, &(Piece){ store->spans, store->first, NULL, 0 });
  return rail;
}

/* What a sweep took, gathered while it is subtracted. */
typedef struct
{
  double removed;
  double low; /* on the low fence's side of the axis */
  double high;
  gint32 longest; /* span that was taken from one row */
  gboolean overflow;
} Taken;

typedef struct
{
  CavRailStore *store;
  const CavCandidate *candidate;
  gboolean flat;
  gboolean columns; /* count what is taken from each column */
  Taken taken;
} Subtraction;

static void
take (Subtraction *s, int row, gint32 a, gint32 b)
{
  double share = s->store->shares[row], length = (b - a) * share;
  gint32 axis = (gint32)lround (s->candidate->middle * CAV_MICRONS);

  s->taken.removed += length;
  s->taken.longest = MAX (s->taken.longest, b - a);
  if (s->flat)
    {
      s->taken.low += MAX (MIN (b, axis) - a, 0) * share;
      s->taken.high += MAX (b - MAX (a, axis), 0) * share;
    }
  else if ((row + 0.5) * CAV_ROW_HEIGHT < s->candidate->middle)
    s->taken.low += length;
  else
    s->taken.high += length;
  if (s->columns)
    {
      s->store->columns[a / COLUMN + 1]++;
      s->store->columns[(b + COLUMN - 1) / COLUMN + 1]--;
    }
}

/* Row by row; what is left goes to the store's scratch. */
static void
subtract (Subtraction *s, const CavRows *rows)
{
  const CavSweepRows *sweep = &s->candidate->sweep;
  CavRailStore *store = s->store;
  int n = 0;

  for (int row = 0; row < rows->n_rows; row++)
    {
      int begin = rows->first[row], end = rows->first[row + 1];

      store->first[row] = n;
      if (row < sweep->r0 || row >= sweep->r1)
        {
          memcpy (&store->spans[n], &rows->spans[begin], sizeof (CavSpan) * (gsize)(end - begin));
          n += end - begin;
          continue;
        }
      for (int i = begin; i < end; i++)
        {
          CavSpan rest = rows->spans[i];

          for (int layer = 0; layer < sweep->n_layers; layer++)
            {
              CavSpan cut = sweep->spans[(row - sweep->r0) * sweep->n_layers + layer];
              gint32 a = MAX (cut.a, rest.a), b = MIN (cut.b, rest.b);

              if (b <= a)
                continue;
              take (s, row, a, b);
              if (a - rest.a >= CAV_SPAN_LEAST)
                store->spans[n++] = (CavSpan){ rest.a, a };
              rest.a = b;
            }
          if (rest.b - rest.a >= CAV_SPAN_LEAST)
            store->spans[n++] = rest;
          if (n - store->first[row] > MAX_ROW_SPANS - 3)
            {
              s->taken.overflow = TRUE;
              n = store->first[row];
              break;
            }
        }
    }
  store->first[rows->n_rows] = n;
  s->taken.removed *= CAV_ROW_HEIGHT / CAV_MICRONS;
  s->taken.low *= CAV_ROW_HEIGHT / CAV_MICRONS;
  s->taken.high *= CAV_ROW_HEIGHT / CAV_MICRONS;
}

static int
find_root (int *parent, int i)
{
  while (parent[i] != i)
    i = parent[i] = parent[parent[i]];
  return i;
}

/* Joins spans that touch in neighbouring rows; afterwards parent holds the root of every span.
 * Returns the number of pieces. */
static int
find_pieces (CavRailStore *store)
{
  int n_rows = store->task->n_rows, n = store->first[n_rows], n_pieces = n;

  for (int i = 0; i < n; i++)
    store->parent[i] = i;
  for (int row = 1; row < n_rows; row++)
    {
      int i = store->first[row - 1], j = store->first[row];

      while (i < store->first[row] && j < store->first[row + 1])
        {
          CavSpan p = store->spans[i], q = store->spans[j];

          if (MIN (p.b, q.b) - MAX (p.a, q.a) >= CAV_SPAN_LEAST)
            {
              int a = find_root (store->parent, i), b = find_root (store->parent, j);

              if (a != b)
                {
                  store->parent[MAX (a, b)] = MIN (a, b);
                  n_pieces--;
                }
            }
          if (p.b < q.b)
            i++;
          else
            j++;
        }
    }
  if (n_pieces > 1)
    for (int i = 0; i < n; i++)
      store->parent[i] = find_root (store->parent, i);
  return n_pieces;
}

static int
find_rail_piece (const CavRailStore *store)
{
  for (int i = store->first[store->seed_row]; i < store->first[store->seed_row + 1]; i++)
    if (store->seed_x >= store->spans[i].a && store->seed_x < store->spans[i].b)
      return store->parent[i];
  return -1;
}

/* How one piece lies to the tool, in the low fence's coordinates. */
typedef struct
{
  int root;
  gint32 longest;
  int r0, r1;
  double area;
  double beyond[2]; /* how far it keeps behind the tool's middle as seen from either fence */
} PieceNote;

static void
note_span (const Subtraction *s, PieceNote *note, int row, CavSpan span)
{
  const CavCandidate *c = s->candidate;
  const CavBlank *blank = &s->store->task->blank;
  double x0 = span.a / CAV_MICRONS, x1 = span.b / CAV_MICRONS, y = (row + 0.5) * CAV_ROW_HEIGHT;
  double u0, u1, v0, v1;

  if (s->flat)
    {
      u0 = x0, u1 = x1;
      v0 = v1 = c->down == CAV_SIDE_BACK ? y : blank->thickness - y;
    }
  else
    {
      u0 = u1 = y;
      v0 = c->down == CAV_SIDE_INSIDE ? x0 : blank->width - x1;
      v1 = c->down == CAV_SIDE_INSIDE ? x1 : blank->width - x0;
    }
  note->beyond[CAV_FENCE_LOW]
      = MIN (note->beyond[CAV_FENCE_LOW], u0 - c->middle - c->lean * (c->lean > 0 ? v1 : v0));
  note->beyond[CAV_FENCE_HIGH]
      = MIN (note->beyond[CAV_FENCE_HIGH], c->middle + c->lean * (c->lean > 0 ? v0 : v1) - u1);
  note->longest = MAX (note->longest, span.b - span.a);
  note->r0 = MIN (note->r0, row);
  note->r1 = MAX (note->r1, row + 1);
  note->area += (x1 - x0) * CAV_ROW_HEIGHT;
}

static GArray *
note_pieces (const Subtraction *s)
{
  CavRailStore *store = s->store;
  GArray *notes = g_array_new (FALSE, FALSE, sizeof (PieceNote));

  for (int row = 0; row < store->task->n_rows; row++)
    for (int i = store->first[row]; i < store->first[row + 1]; i++)
      {
        PieceNote *note = NULL;

        for (guint j = 0; j < notes->len && note == NULL; j++)
          if (g_array_index (notes, PieceNote, j).root == store->parent[i])
            note = &g_array_index (notes, PieceNote, j);
        if (note == NULL)
          {
            PieceNote fresh = { store->parent[i], 0, row, row, 0, { 1e9, 1e9 } };

            g_array_append_val (notes, fresh);
            note = &g_array_index (notes, PieceNote, notes->len - 1);
          }
        note_span (s, note, row, store->spans[i]);
      }
  return notes;
}

/* Rule 4: what a severed piece and the rail may do on either side of the tool. */
static void
judge_pieces (const Subtraction *s, int rail_piece, CavStep *step)
{
  CavRailStore *store = s->store;
  const CavCandidate *c = s->candidate;
  double gap = store->task->shop->limits.push_gap;
  g_autoptr (GArray) notes = note_pieces (s);
  guint8 legal = 0;

  for (int fence = 0; fence < 2; fence++)
    {
      const PieceNote *carrier = NULL;
      gboolean pieces = FALSE, rail_beyond = FALSE, held = TRUE;

      for (guint i = 0; i < notes->len; i++)
        {
          const PieceNote *note = &g_array_index (notes, PieceNote, i);

          if (note->root == rail_piece)
            {
              rail_beyond = note->beyond[fence] > -1e-3;
              continue;
            }
          if (note->longest <= DUST_SPAN || note->r1 - note->r0 <= DUST_ROWS)
            continue;
          pieces = TRUE;
          if (note->beyond[fence] > -1e-3)
            continue;
          held &= carrier == NULL;
          carrier = note;
        }
      if (!pieces)
        legal |= 1u << fence;
      else if (!c->severs || c->edge[fence] < gap - 1e-6 || !held)
        continue;
      else if (carrier == NULL)
        legal |= 1u << fence;
      else if (rail_beyond)
        {
          CavStanding standing;

          measure_piece (store,
                         &(Piece){ store->spans, store->first, store->parent, carrier->root },
                         &standing);
          if (cav_standing_is_supported (&standing, &store->task->blank, c->down, (CavFence)fence))
            {
              legal |= 1u << fence;
              step->frees |= 1u << fence;
            }
        }
    }
  step->fences &= legal;
}

/* Greatest thickness upward that was taken. */
static double
get_layer (const Subtraction *s)
{
  int n = s->store->width / COLUMN + 4, run = 0, most = 0;

  if (!s->flat)
    return s->taken.longest / CAV_MICRONS;
  for (int i = 0; i < n; i++)
    {
      run += s->store->columns[i];
      most = MAX (most, run);
    }
  return most * CAV_ROW_HEIGHT;
}

/* How many feeds it takes to keep to the bite, counting what the grid of heights costs. */
static int
count_passes (const Subtraction *s)
{
  const CavTask *task = s->store->task;
  const CavConfig *config = cav_task_config (task, s->candidate->config);
  const CavTool *tool = cav_task_tool (task, config->tool);
  double step = task->shop->limits.step, removed = s->taken.removed, width, layer;
  int n = MAX (1, (int)ceil (removed / tool->bite - 1e-4));

  width = MIN (config->machine == CAV_MACHINE_SAW ? tool->blade->kerf : tool->diameter,
               removed / fmax (s->candidate->height, step) * 2);
  while (n > 1 && removed > n * tool->bite - (n - 1) * step * width)
    n++;
  if (config->machine == CAV_MACHINE_COVE)
    {
      layer = task->shop->limits.cove_layer;
      n = MAX (n, (int)ceil (get_layer (s) / layer - 1e-6));
    }
  else if (s->columns)
    n = MAX (n, (int)ceil (get_layer (s) / tool->diameter - 1e-6));
  return MIN (n, 60);
}

static gboolean
hits_pilot (const CavRailStore *store, const CavCandidate *c)
{
  if (!c->has_pilot)
    return FALSE;
  for (int row = (int)c->pilot[2]; row < (int)c->pilot[3]; row++)
    for (int i = store->first[row]; i < store->first[row + 1]; i++)
      if (store->spans[i].b > c->pilot[0] && store->spans[i].a < c->pilot[1])
        return TRUE;
  return FALSE;
}

static guint64
mix (guint64 rail, guint64 sweep)
{
  guint64 hash = (rail ^ (sweep * 0x9e3779b97f4a7c15u)) * 0xff51afd7ed558ccdu;

  return hash ^ (hash >> 29);
}

static gint64
get_forbidden_key (guint64 rail, const CavCandidate *candidate, int fence)
{
  return (gint64)mix (rail + (guint64)fence * 77 + (guint64)candidate->config * 1009,
                      candidate->key);
}

void
cav_rail_store_forbid (CavRailStore *store,
                       guint64 rail,
                       const CavCandidate *candidate,
                       CavFence fence)
{
  gint64 key = get_forbidden_key (rail, candidate, (int)fence);

  g_hash_table_add (store->forbidden, g_memdup2 (&key, sizeof key));
  store->steps[mix (rail, candidate->key ^ (guint64)candidate->config) >> (64 - STEP_BITS)].sweep
      = 0;
}

static void
compute_step (CavRailStore *store, const CavRail *rail, const CavCandidate *c, CavStep *step)
{
  const CavConfig *config = cav_task_config (store->task, c->config);
  Subtraction s = { .store = store, .candidate = c, .flat = cav_side_is_flat (c->down) };
  int rail_piece, n_pieces;

  store->n_computed++;
  *step = (CavStep){ .rail = rail->key, .sweep = c->key ^ (guint64)c->config };
  s.columns = config->machine == CAV_MACHINE_COVE
              || (config->machine == CAV_MACHINE_ROUTER
                  && c->height > cav_task_tool (store->task, config->tool)->diameter);
  if (s.columns)
    memset (store->columns, 0, sizeof (int) * (gsize)(store->width / COLUMN + 4));
  subtract (&s, &rail->rows);
  if (s.taken.removed < 0.02 || s.taken.overflow || hits_pilot (store, c))
    return;
  step->removed = (float)s.taken.removed;
  step->fences = (guint8)c->fences;
  if (config->machine == CAV_MACHINE_ROUTER)
    {
      if (s.taken.low > s.taken.high + 0.004)
        step->fences &= (guint8) ~(1u << CAV_FENCE_LOW);
      if (s.taken.high > s.taken.low + 0.004)
        step->fences &= (guint8) ~(1u << CAV_FENCE_HIGH);
    }
  n_pieces = find_pieces (store);
  rail_piece = n_pieces > 1 ? find_rail_piece (store) : 0;
  if (rail_piece < 0)
    return;
  if (n_pieces > 1)
    judge_pieces (&s, rail_piece, step);
  for (int fence = 0; fence < 2 && g_hash_table_size (store->forbidden) > 0; fence++)
    {
      gint64 key = get_forbidden_key (rail->key, c, fence);

      if (g_hash_table_contains (store->forbidden, &key))
        step->fences &= (guint8) ~(1u << fence);
    }
  step->n_passes = (guint8)count_passes (&s);
  if (step->fences == 0)
    return;
  step->next = rail->key ^ c->key;
  if (step->next == 0)
    step->next = 1;
  if (lookup_rail (store, step->next) == NULL)
    store_rows (
        store, claim_rail (store, step->next),
        &(Piece){ store->spans, store->first, n_pieces > 1 ? store->parent : NULL, rail_piece });
}

const CavStep *
cav_rail_store_step (CavRailStore *store,
                     const CavRail *rail,
                     const CavCandidate *candidate,
                     const CavRail **out_next)
{
  guint64 sweep = candidate->key ^ (guint64)candidate->config;
  CavStep *step = &store->steps[mix (rail->key, sweep) >> (64 - STEP_BITS)];

  *out_next = NULL;
  if (step->rail != rail->key || step->sweep != sweep)
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

void
cav_rail_get_hand (CavRailStore *store, const CavRail *rail, double *out_minutes, double *out_over)
{
  CavRail *self = (CavRail *)rail;
  const CavRates *rates = &store->task->shop->rates;

  if (!self->has_hand)
    {
      double outline = 0;

      for (guint i = 0; i < store->task->samples->len; i++)
        if (cav_rows_contains (&rail->rows, store->sample_rows[i], store->sample_xs[i]))
          outline += g_array_index (store->task->samples, CavOutlineSample, i).length;
      self->hand = store->task->metres
                   * (rates->hand_volume * fmax (rail->standing.area - store->profile_area, 0)
                      + rates->hand_surface * outline);
      self->over = cav_rows_get_common_area (&rail->rows, store->task->beyond_rows);
      self->has_hand = TRUE;
    }
  *out_minutes = self->hand;
  *out_over = self->over > 0.05 ? OVER_PRICE + OVER_AREA_PRICE * self->over : 0;
}
