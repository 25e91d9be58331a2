/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "boards/cav-cutting-private.h"

#include <string.h>

/*
 * Place by place: the longest item that is left goes somewhere; for each kind of place where it can
 * lie, every way to fill that place up around it is tried, fullest first. A way that leaves room
 * for another item that is left need not be looked at, because any layout can be changed into one
 * where places that are filled earlier are full. Together the places may lose no more than their
 * length exceeds that of the items. States from which nothing led on are remembered.
 */

/* More ways to fill one place than this are not written down, and nothing is proved then. */
#define WAYS_LIMIT 4000
/* Steps that one question may cost. */
#define STEPS_LIMIT 400000
#define MEMORY_LIMIT 100000

typedef struct
{
  int length;
  gboolean wide;
  int item;
} Kind;

typedef struct
{
  int length;
  gboolean wide;
  int place;
} Slot;

typedef struct
{
  guint64 a;
  guint64 b;
} State;

typedef struct
{
  CavCutBudget *budget;
  gint64 steps;
  guint n_kinds;
  Kind *kinds; /* wide before narrow, long before short */
  int *left;   /* of each kind */
  guint n_slots;
  Slot *slots; /* short before long */
  int *free;   /* of each slot */
  gint64 slack;
  gboolean complete; /* nothing has been passed over */
  GHashTable *dead;  /* State */
  GPtrArray *fills;
} Exact;

/* The ways to fill one place. */
typedef struct
{
  Exact *exact;
  const Slot *slot;
  GArray *rests;   /* int, by way */
  GArray *choices; /* int, n_kinds a way */
  int *take;
} Ways;

static guint
state_hash (gconstpointer key)
{
  return (guint)((const State *)key)->a;
}

static gboolean
state_equal (gconstpointer a, gconstpointer b)
{
  const State *one = a;
  const State *other = b;

  return one->a == other->a && one->b == other->b;
}

static guint64
mix (guint64 seed, guint64 value)
{
  guint64 x = seed ^ (value + 0x9e3779b97f4a7c15u + (seed << 6) + (seed >> 2));

  x = (x ^ (x >> 30)) * 0xbf58476d1ce4e5b9u;
  x = (x ^ (x >> 27)) * 0x94d049bb133111ebu;
  return x ^ (x >> 31);
}

/* 128 bits: two states that look alike by chance are not to be expected. */
static State
get_state (const Exact *exact)
{
  State state = { 1, 2 };

  for (guint i = 0; i < exact->n_kinds; i++)
    {
      state.a = mix (state.a, (guint64)exact->left[i]);
      state.b = mix (state.b + 7, (guint64)exact->left[i]);
    }
  for (guint i = 0; i < exact->n_slots; i++)
    {
      state.a = mix (state.a, (guint64)exact->free[i]);
      state.b = mix (state.b + 7, (guint64)exact->free[i]);
    }
  return state;
}

static gboolean
suits (const Kind *kind, const Slot *slot)
{
  return kind->length <= slot->length && (!kind->wide || slot->wide);
}

static void
write_down (Ways *ways, int rest)
{
  Exact *exact = ways->exact;

  if (rest > exact->slack)
    return;
  for (guint i = 0; i < exact->n_kinds; i++)
    if (exact->left[i] > ways->take[i] && exact->kinds[i].length <= rest
        && (!exact->kinds[i].wide || ways->slot->wide))
      return;
  if (ways->rests->len >= WAYS_LIMIT)
    {
      exact->complete = FALSE;
      return;
    }
  g_array_append_val (ways->rests, rest);
  g_array_append_vals (ways->choices, ways->take, exact->n_kinds);
}

static gboolean
spend (Exact *exact)
{
  if (++exact->steps > STEPS_LIMIT || !cav_cut_budget_spend (exact->budget, 1))
    exact->complete = FALSE;
  return exact->complete;
}

static void
find_ways (Ways *ways, guint kind, int rest)
{
  Exact *exact = ways->exact;
  const Kind *self;
  int most;

  while (kind < exact->n_kinds
         && (exact->left[kind] - ways->take[kind] <= 0 || exact->kinds[kind].length > rest
             || (exact->kinds[kind].wide && !ways->slot->wide)))
    kind++;
  if (kind == exact->n_kinds || ways->rests->len >= WAYS_LIMIT)
    {
      write_down (ways, rest);
      return;
    }
  if (!spend (exact))
    return;
  self = &exact->kinds[kind];
  most = MIN (exact->left[kind] - ways->take[kind], rest / self->length);
  for (int k = most; k >= 0; k--)
    {
      ways->take[kind] += k;
      find_ways (ways, kind + 1, rest - k * self->length);
      ways->take[kind] -= k;
    }
}

typedef struct
{
  int rest;
  guint way;
} Order;

static int
compare_orders (gconstpointer a, gconstpointer b)
{
  const Order *one = a;
  const Order *other = b;

  if (one->rest != other->rest)
    return one->rest < other->rest ? -1 : 1;
  return one->way < other->way ? -1 : 1;
}

static void
apply (Exact *exact, guint slot, const int *take, int rest, int sign)
{
  for (guint i = 0; i < exact->n_kinds; i++)
    exact->left[i] -= sign * take[i];
  exact->free[slot] -= sign;
  exact->slack -= sign * rest;
}

static void
add_fill (Exact *exact, guint slot, const int *take)
{
  CavCutFill *fill = cav_cut_fill_new (exact->slots[slot].place, -1);

  for (guint i = 0; i < exact->n_kinds; i++)
    for (int k = 0; k < take[i]; k++)
      g_array_append_val (fill->items, exact->kinds[i].item);
  g_ptr_array_add (exact->fills, fill);
}

static gboolean search (Exact *exact);

static gboolean
search_slot (Exact *exact, guint slot, guint first)
{
  g_autoptr (GArray) rests = g_array_new (FALSE, FALSE, sizeof (int));
  g_autoptr (GArray) choices = g_array_new (FALSE, FALSE, sizeof (int));
  g_autofree int *take = g_new0 (int, exact->n_kinds);
  g_autofree Order *orders = NULL;
  Ways ways = { exact, &exact->slots[slot], rests, choices, take };

  take[first] = 1;
  find_ways (&ways, first, ways.slot->length - exact->kinds[first].length);
  orders = g_new (Order, rests->len + 1);
  for (guint i = 0; i < rests->len; i++)
    orders[i] = (Order){ g_array_index (rests, int, i), i };
  qsort (orders, rests->len, sizeof *orders, compare_orders);
  for (guint i = 0; i < rests->len; i++)
    {
      const int *choice = &g_array_index (choices, int, orders[i].way * exact->n_kinds);
      gboolean found;

      apply (exact, slot, choice, orders[i].rest, 1);
      found = search (exact);
      apply (exact, slot, choice, orders[i].rest, -1);
      if (found)
        {
          add_fill (exact, slot, choice);
          return TRUE;
        }
      if (exact->steps > STEPS_LIMIT || exact->budget->steps <= 0)
        return FALSE;
    }
  return FALSE;
}

static gboolean
search (Exact *exact)
{
  guint first = 0;
  State state;

  while (first < exact->n_kinds && exact->left[first] == 0)
    first++;
  if (first == exact->n_kinds)
    return TRUE;
  if (exact->slack < 0 || !spend (exact))
    return FALSE;
  state = get_state (exact);
  if (g_hash_table_contains (exact->dead, &state))
    return FALSE;
  for (guint i = 0; i < exact->n_slots; i++)
    if (exact->free[i] > 0 && suits (&exact->kinds[first], &exact->slots[i])
        && search_slot (exact, i, first))
      return TRUE;
  /* While nothing has been passed over anywhere, what failed has failed for good. */
  if (exact->complete && g_hash_table_size (exact->dead) < MEMORY_LIMIT)
    g_hash_table_add (exact->dead, g_memdup2 (&state, sizeof state));
  return FALSE;
}

static int
compare_kinds (gconstpointer a, gconstpointer b)
{
  const Kind *one = a;
  const Kind *other = b;

  if (!one->wide != !other->wide)
    return one->wide ? -1 : 1;
  if (one->length != other->length)
    return one->length > other->length ? -1 : 1;
  return one->item - other->item;
}

static int
compare_slots (gconstpointer a, gconstpointer b)
{
  const Slot *one = a;
  const Slot *other = b;

  if (one->length != other->length)
    return one->length < other->length ? -1 : 1;
  if (!one->wide != !other->wide)
    return one->wide ? 1 : -1;
  return one->place - other->place;
}

static void
collect (Exact *exact, const CavCutProblem *problem, int family, const int *room, const int *demand)
{
  for (guint i = 0; i < problem->items->len; i++)
    {
      const CavCutItem *item = CUT_ITEM (problem, i);

      if (item->family == family && demand[i] > 0)
        exact->kinds[exact->n_kinds++] = (Kind){ item->length, item->wide, (int)i };
    }
  for (guint i = 0; i < problem->places->len; i++)
    {
      const CavCutPlace *place = CUT_PLACE (problem, i);

      if (place->family == family && room[i] > 0)
        exact->slots[exact->n_slots++] = (Slot){ place->length, place->wide, (int)i };
    }
  qsort (exact->kinds, exact->n_kinds, sizeof (Kind), compare_kinds);
  qsort (exact->slots, exact->n_slots, sizeof (Slot), compare_slots);
  for (guint i = 0; i < exact->n_kinds; i++)
    {
      exact->left[i] = demand[exact->kinds[i].item];
      exact->slack -= (gint64)exact->left[i] * exact->kinds[i].length;
    }
  for (guint i = 0; i < exact->n_slots; i++)
    {
      exact->free[i] = room[exact->slots[i].place];
      exact->slack += (gint64)exact->free[i] * exact->slots[i].length;
    }
}

CavCutAnswer
cav_cut_pack_exactly (const CavCutProblem *problem,
                      int family,
                      const int *room,
                      const int *demand,
                      CavCutBudget *budget,
                      GPtrArray *fills)
{
  g_autoptr (GHashTable) dead = g_hash_table_new_full (state_hash, state_equal, g_free, NULL);
  g_autofree Kind *kinds = g_new0 (Kind, problem->items->len + 1);
  g_autofree Slot *slots = g_new0 (Slot, problem->places->len + 1);
  g_autofree int *left = g_new0 (int, problem->items->len + 1);
  g_autofree int *available = g_new0 (int, problem->places->len + 1);
  Exact exact = { .budget = budget,
                  .kinds = kinds,
                  .left = left,
                  .slots = slots,
                  .free = available,
                  .complete = TRUE,
                  .dead = dead,
                  .fills = fills };

  collect (&exact, problem, family, room, demand);
  if (search (&exact))
    return CAV_CUT_YES;
  return exact.complete ? CAV_CUT_NO : CAV_CUT_UNKNOWN;
}
