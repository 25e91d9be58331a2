/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "boards/cav-layout-private.h"

#include "boards/cav-board-measure.h"

#include <math.h>
#include <string.h>

/* The solver is shown as many kinds of boards as it can compare with the kinds of sticks, but at
 * least so many. */
#define LEAST_KINDS 100
#define COMPARISONS 12000
/* Nobody looks at more boards that are not used. */
#define IDLE_LIMIT 20

static void
kind_free (gpointer data)
{
  CavPileKind *kind = data;

  g_array_unref (kind->rows);
  g_array_unref (kind->copies);
  g_ptr_array_unref (kind->sawings);
  g_free (kind);
}

static guint
hash_double (guint hash, double value)
{
  guint64 bits;

  memcpy (&bits, &value, sizeof bits);
  return hash * 31u + (guint)(bits ^ (bits >> 32));
}

static guint
board_hash (gconstpointer key)
{
  const CavBoard *board = key;
  guint hash = hash_double (7, board->length);

  hash = hash_double (hash, board->width);
  hash = hash_double (hash, board->thickness);
  return hash_double (hash, board->price) + board->spans->len;
}

/* But for name and number. */
static gboolean
boards_alike (gconstpointer a, gconstpointer b)
{
  CavBoard one = *(const CavBoard *)a;
  CavBoard other = *(const CavBoard *)b;

  one.name = other.name = (char *)"";
  one.count = other.count = 1;
  return cav_board_equal (&one, &other);
}

static CavPileKind *
add_kind (CavLaying *laying, const CavBoard *board, gboolean bought)
{
  const GArray *families = laying->demand->families;
  CavPileKind *kind = g_new0 (CavPileKind, 1);

  kind->board = board;
  kind->bought = bought;
  kind->rows = g_array_new (FALSE, FALSE, sizeof (int));
  kind->copies = g_array_new (FALSE, FALSE, sizeof (int));
  kind->sawings = cav_sawing_list (
      laying->lumber, board, &g_array_index (families, CavStripFamily, 0), (int)families->len);
  g_ptr_array_add (laying->pile, kind);
  return kind;
}

/* One row into the kind of boards that it is like. */
static void
add_row (CavLaying *laying, GHashTable *kinds, const CavBoard *board, int row, gboolean bought)
{
  /* No board is opened for nothing, so there are never more of them than pieces; but of those at
   * hand a pin may mean any. */
  const int most = (int)laying->demand->sticks->len;
  const int count = bought && board->count == 0 ? most : board->count;
  g_autofree char *reason = cav_board_explain (board);
  CavPileKind *kind = g_hash_table_lookup (kinds, board);

  if (reason != NULL)
    return;
  if (kind == NULL)
    {
      kind = add_kind (laying, board, bought);
      g_hash_table_insert (kinds, (gpointer)board, kind);
    }
  for (int copy = 0; copy < count && (!bought || copy < most); copy++)
    {
      g_array_append_val (kind->rows, row);
      g_array_append_val (kind->copies, copy);
    }
}

void
cav_laying_add_boards (CavLaying *laying)
{
  const GPtrArray *rows = laying->lumber->boards;
  g_autoptr (GHashTable) kinds = g_hash_table_new (board_hash, boards_alike);

  laying->pile = g_ptr_array_new_with_free_func (kind_free);
  for (guint i = 0; i < rows->len; i++)
    add_row (laying, kinds, g_ptr_array_index (rows, i), (int)i, FALSE);
}

void
cav_laying_add_stock (CavLaying *laying, int only, gboolean priced)
{
  const GPtrArray *rows = laying->lumber->stock;
  g_autoptr (GHashTable) kinds = g_hash_table_new (board_hash, boards_alike);

  laying->pile = g_ptr_array_new_with_free_func (kind_free);
  for (guint i = 0; i < rows->len; i++)
    {
      const CavBoard *board = g_ptr_array_index (rows, i);

      if ((only < 0 || only == (int)i) && (!priced || board->basis != CAV_PRICE_UNKNOWN))
        add_row (laying, kinds, board, (int)i, TRUE);
    }
}

/* The most that one board of the kind can take, mm. */
static double
get_capacity (const CavPileKind *kind)
{
  double most = 0.0;

  for (guint s = 0; s < kind->sawings->len; s++)
    {
      const CavSawing *sawing = g_ptr_array_index (kind->sawings, s);
      double length = 0.0;

      for (guint p = 0; p < sawing->places->len; p++)
        length += g_array_index (sawing->places, CavClearPlace, p).to
                  - g_array_index (sawing->places, CavClearPlace, p).from;
      most = MAX (most, length);
    }
  return most;
}

static int
compare_capacity (gconstpointer a, gconstpointer b)
{
  const CavPileKind *one = *(CavPileKind *const *)a;
  const CavPileKind *other = *(CavPileKind *const *)b;
  const double capacity = get_capacity (one);
  const double other_capacity = get_capacity (other);

  if (capacity > other_capacity || capacity < other_capacity)
    return capacity > other_capacity ? -1 : 1;
  return g_array_index (one->rows, int, 0) - g_array_index (other->rows, int, 0);
}

static gboolean
is_useless (const CavPileKind *kind)
{
  return kind->sawings->len == 0 || kind->rows->len == 0;
}

static guint
count_kinds_of_sticks (const CavLaying *laying)
{
  g_autoptr (GHashTable) lengths
      = g_hash_table_new_full (g_double_hash, g_double_equal, NULL, NULL);

  for (guint i = 0; i < laying->demand->sticks->len; i++)
    {
      CavStick *stick = g_ptr_array_index (laying->demand->sticks, i);

      g_hash_table_add (lengths, &stick->length);
    }
  return MAX (g_hash_table_size (lengths), 1);
}

void
cav_laying_thin_pile (CavLaying *laying)
{
  const guint most = MAX (COMPARISONS / count_kinds_of_sticks (laying), LEAST_KINDS);
  double wanted = 0.0;

  for (guint i = laying->pile->len; i-- > 0;)
    if (is_useless (g_ptr_array_index (laying->pile, i)))
      g_ptr_array_remove_index (laying->pile, i);
  if (laying->pile->len <= most)
    return;
  g_ptr_array_sort (laying->pile, compare_capacity);
  for (guint i = 0; i < laying->demand->sticks->len; i++)
    wanted += ((const CavStick *)g_ptr_array_index (laying->demand->sticks, i))->length;
  for (guint i = 0; i < laying->pile->len && wanted > 0.0; i++)
    {
      const CavPileKind *kind = g_ptr_array_index (laying->pile, i);
      const int boards = (int)MIN ((double)kind->rows->len, ceil (wanted / get_capacity (kind)));

      laying->least_by_length += boards;
      wanted -= boards * get_capacity (kind);
    }
  g_ptr_array_set_size (laying->pile, (int)most);
  laying->thinned = TRUE;
}

static void
lane_free (gpointer data)
{
  CavLane *lane = data;

  g_array_unref (lane->pieces);
  g_array_unref (lane->offcuts);
  g_free (lane);
}

static void
strip_free (gpointer data)
{
  CavLaidStrip *strip = data;

  g_ptr_array_unref (strip->lanes);
  g_free (strip);
}

static CavLaidStrip *
strip_new (const CavSawnStrip *sawn)
{
  CavLaidStrip *strip = g_new0 (CavLaidStrip, 1);

  strip->sawn = *sawn;
  strip->lanes = g_ptr_array_new_with_free_func (lane_free);
  for (int i = 0; i < sawn->layers; i++)
    {
      CavLane *lane = g_new0 (CavLane, 1);

      lane->pieces = g_array_new (FALSE, FALSE, sizeof (CavPlacedPiece));
      lane->offcuts = g_array_new (FALSE, FALSE, sizeof (CavStretch));
      g_ptr_array_add (strip->lanes, lane);
    }
  return strip;
}

CavLaidBoard *
cav_laid_board_new (const CavPileKind *kind, int row, int copy, const CavSawing *sawing)
{
  CavLaidBoard *laid = g_new0 (CavLaidBoard, 1);

  laid->board = cav_board_copy (kind->board);
  laid->bought = kind->bought;
  laid->row = row;
  laid->copy = copy;
  laid->has_cost = cav_board_get_cost (kind->board, &laid->cost);
  laid->strips = g_ptr_array_new_with_free_func (strip_free);
  for (guint i = 0; i < sawing->strips->len; i++)
    g_ptr_array_add (laid->strips, strip_new (&g_array_index (sawing->strips, CavSawnStrip, i)));
  return laid;
}

/* Its own name, which may differ from that of the board that stands for its kind. */
static void
take_name (CavLaying *laying, CavLaidBoard *laid)
{
  const GPtrArray *rows = laid->bought ? laying->lumber->stock : laying->lumber->boards;
  const CavBoard *board = g_ptr_array_index (rows, laid->row);

  g_free (laid->board->name);
  laid->board->name = g_strdup (board->name);
  laid->board->count = 1;
}

CavLaidBoard *
cav_laying_open_board (CavLaying *laying, guint kind_index, guint sawing)
{
  CavPileKind *kind = g_ptr_array_index (laying->pile, kind_index);
  CavLaidBoard *laid;

  g_assert (kind->next < kind->rows->len);
  laid = cav_laid_board_new (kind, g_array_index (kind->rows, int, kind->next),
                             g_array_index (kind->copies, int, kind->next),
                             g_ptr_array_index (kind->sawings, sawing));
  kind->next++;
  take_name (laying, laid);
  return laid;
}

static int
compare_laid (gconstpointer a, gconstpointer b)
{
  const CavLaidBoard *one = *(CavLaidBoard *const *)a;
  const CavLaidBoard *other = *(CavLaidBoard *const *)b;

  return one->row != other->row ? one->row - other->row : one->copy - other->copy;
}

void
cav_laying_list_idle (CavLaying *laying)
{
  GPtrArray *idle = laying->layout->idle;

  for (guint k = 0; k < laying->pile->len; k++)
    {
      CavPileKind *kind = g_ptr_array_index (laying->pile, k);

      while (!kind->bought && kind->sawings->len > 0 && kind->next < kind->rows->len
             && idle->len < IDLE_LIMIT)
        g_ptr_array_add (idle, cav_laying_open_board (laying, k, 0));
    }
  g_ptr_array_sort (idle, compare_laid);
}
