/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "boards/cav-sawing.h"

#include "geometry/cav-tolerance.h"

#include <math.h>
#include <string.h>

/* Lengths closer than this are the same. */
#define SAME CAV_TOLERANCE_POINT
/* More strips of one board, or more ways to rip it, are not looked at. */
#define MAX_STRIPS 200
#define MAX_WAYS 40
#define MAX_PLIES 8
#define MAX_LAYERS 16

void
cav_sawing_free (CavSawing *sawing)
{
  if (sawing == NULL)
    return;
  g_array_unref (sawing->strips);
  g_array_unref (sawing->places);
  g_free (sawing);
}

double
cav_sawing_get_net_thickness (const CavLumber *lumber, const CavBoard *board)
{
  g_return_val_if_fail (lumber != NULL && board != NULL, 0.0);

  return board->planed ? board->thickness : board->thickness - lumber->planing;
}

/* Strips that are glued to the thickness of one blank; 0 where that cannot be. */
static int
count_plies (const CavLumber *lumber, const CavBoard *board, double thickness)
{
  const double net = cav_sawing_get_net_thickness (lumber, board);

  if (net >= thickness - SAME)
    return 1;
  if (!lumber->glue_up || net <= 1.0 || thickness / net > MAX_PLIES)
    return 0;
  return (int)ceil (thickness / net - SAME);
}

/* Blanks out of the thickness of one board. */
static int
count_layers (const CavLumber *lumber, const CavBoard *board, double thickness)
{
  const double net = cav_sawing_get_net_thickness (lumber, board);
  const double loss = lumber->resaw_kerf + 2.0 * lumber->resaw_planing;

  if (!lumber->resaw || net < thickness - SAME)
    return 1;
  return CLAMP ((int)floor ((net + loss + SAME) / (thickness + loss)), 1, MAX_LAYERS);
}

static double
get_strip_width (const CavLumber *lumber, const CavStripFamily *family, int plies)
{
  return plies * family->width + (plies - 1) * lumber->kerf;
}

static gboolean
touches (const CavBoardSpan *span, double low, double high)
{
  if (span->low <= SAME && span->high <= SAME)
    return TRUE;
  return span->low < high - SAME && span->high > low + SAME;
}

void
cav_stretches_cut (GArray *stretches, double from, double to)
{
  g_return_if_fail (stretches != NULL);

  for (guint i = 0; i < stretches->len;)
    {
      const CavStretch whole = g_array_index (stretches, CavStretch, i);
      const CavStretch after = { MAX (whole.from, to), whole.to };

      if (to <= whole.from || from >= whole.to)
        {
          i++;
          continue;
        }
      g_array_remove_index (stretches, i);
      if (from > whole.from)
        {
          const CavStretch before = { whole.from, from };

          g_array_insert_val (stretches, i, before);
          i++;
        }
      if (after.to > after.from)
        {
          g_array_insert_val (stretches, i, after);
          i++;
        }
    }
}

static int
compare_stretches (gconstpointer a, gconstpointer b)
{
  const CavStretch *one = a;
  const CavStretch *other = b;

  return one->from < other->from ? -1 : one->from > other->from;
}

/* Where between the trimmed ends a clear stretch covers the whole strip. */
static void
keep_clear_only (const CavBoard *board, GArray *stretches, double low, double high)
{
  g_autoptr (GArray) clear = g_array_new (FALSE, FALSE, sizeof (CavStretch));
  double at = 0.0;

  for (guint i = 0; i < board->spans->len; i++)
    {
      const CavBoardSpan *span = &g_array_index (board->spans, CavBoardSpan, i);
      const gboolean whole = span->low <= SAME && span->high <= SAME;
      const CavStretch stretch = { span->from, span->to };

      if (span->clear && (whole || (span->low <= low + SAME && span->high >= high - SAME)))
        g_array_append_val (clear, stretch);
    }
  g_array_sort (clear, compare_stretches);
  for (guint i = 0; i < clear->len; i++)
    {
      const CavStretch *stretch = &g_array_index (clear, CavStretch, i);

      if (stretch->from > at)
        cav_stretches_cut (stretches, at, stretch->from);
      at = MAX (at, stretch->to);
    }
  cav_stretches_cut (stretches, at, G_MAXDOUBLE);
}

GArray *
cav_sawing_list_clear (const CavBoard *board, double low, double high, double least)
{
  g_return_val_if_fail (board != NULL, NULL);

  GArray *stretches = g_array_new (FALSE, FALSE, sizeof (CavStretch));
  const CavStretch whole = { board->end_trim, board->length - board->end_trim };
  gboolean has_clear = FALSE;

  if (whole.to > whole.from)
    g_array_append_val (stretches, whole);
  for (guint i = 0; i < board->spans->len; i++)
    {
      const CavBoardSpan *span = &g_array_index (board->spans, CavBoardSpan, i);

      has_clear = has_clear || span->clear;
      if (!span->clear && touches (span, low, high))
        cav_stretches_cut (stretches, span->from, span->to);
    }
  if (has_clear)
    keep_clear_only (board, stretches, low, high);
  for (guint i = stretches->len; i-- > 0;)
    {
      const CavStretch *stretch = &g_array_index (stretches, CavStretch, i);

      if (stretch->to - stretch->from < least - SAME)
        g_array_remove_index (stretches, i);
    }
  return stretches;
}

/* Adds the places of one lane, or of two that lie beside each other. */
static void
add_places (const CavLumber *lumber, const CavBoard *board, CavSawing *sawing, CavClearPlace place)
{
  const CavSawnStrip *strip = &g_array_index (sawing->strips, CavSawnStrip, place.strip);
  const CavSawnStrip *other
      = place.wide ? &g_array_index (sawing->strips, CavSawnStrip, place.second_strip) : strip;
  g_autoptr (GArray) stretches = cav_sawing_list_clear (
      board, strip->low, other->low + other->width, MAX (lumber->shortest, 1.0));

  for (guint i = 0; i < stretches->len; i++)
    {
      place.from = g_array_index (stretches, CavStretch, i).from;
      place.to = g_array_index (stretches, CavStretch, i).to;
      g_array_append_val (sawing->places, place);
    }
}

/* Which lanes of the strip from index on go together; returns how many strips that took. */
static guint
add_strip_places (const CavLumber *lumber,
                  const CavBoard *board,
                  const CavStripFamily *families,
                  CavSawing *sawing,
                  guint index)
{
  const CavSawnStrip *strip = &g_array_index (sawing->strips, CavSawnStrip, index);
  const CavAbreast abreast = families[strip->family].abreast;
  const gboolean paired
      = abreast == CAV_ABREAST_STRIPS && index + 1 < sawing->strips->len
        && g_array_index (sawing->strips, CavSawnStrip, index + 1).family == strip->family;
  const int layers = strip->layers;
  const int family = strip->family;

  for (int layer = 0; layer < layers; layer++)
    {
      CavClearPlace place
          = { .family = family, .strip = (int)index, .layer = layer, .second_strip = (int)index };

      if (abreast == CAV_ABREAST_LAYERS && layer + 1 < layers)
        {
          place.wide = TRUE;
          place.second_layer = ++layer;
        }
      else if (paired)
        {
          place.wide = TRUE;
          place.second_strip++;
          place.second_layer = layer;
        }
      add_places (lumber, board, sawing, place);
    }
  return paired ? 2 : 1;
}

/* How many strips of each family lie on the board, and what they take. */
typedef struct
{
  const CavLumber *lumber;
  const CavBoard *board;
  const CavStripFamily *families;
  int n_families;
  int *plies;
  int *layers;
  int *counts;
  GPtrArray *sawings;
} Ripping;

/* The next edge above at where a strip of that width meets no defect that has sound wood beside it.
 */
static double
skip_defects (const CavBoard *board, double at, double width)
{
  gboolean moved = TRUE;

  while (moved)
    {
      moved = FALSE;
      for (guint i = 0; i < board->spans->len; i++)
        {
          const CavBoardSpan *span = &g_array_index (board->spans, CavBoardSpan, i);

          if (!span->clear && span->high > SAME && touches (span, at, at + width)
              && span->high > at + SAME)
            {
              at = span->high;
              moved = TRUE;
            }
        }
    }
  return at;
}

/* Strips from start up; around defects where that is asked for. NULL where they do not all fit, but
 * around defects as many as do. */
static CavSawing *
rip (const Ripping *ripping, double start, gboolean around)
{
  CavSawing *sawing = g_new0 (CavSawing, 1);
  double at = start;

  sawing->strips = g_array_new (FALSE, FALSE, sizeof (CavSawnStrip));
  sawing->places = g_array_new (FALSE, FALSE, sizeof (CavClearPlace));
  for (int f = 0; f < ripping->n_families; f++)
    for (int k = 0; k < ripping->counts[f]; k++)
      {
        CavSawnStrip strip = { .family = f,
                               .plies = ripping->plies[f],
                               .layers = ripping->layers[f],
                               .width = get_strip_width (ripping->lumber, &ripping->families[f],
                                                         ripping->plies[f]),
                               .ply = ripping->families[f].width };

        strip.low = around ? skip_defects (ripping->board, at, strip.width) : at;
        if (strip.low + strip.width > ripping->board->width + SAME)
          break;
        g_array_append_val (sawing->strips, strip);
        at = strip.low + strip.width + ripping->lumber->kerf;
      }
  for (guint i = 0; i < sawing->strips->len;)
    i += add_strip_places (ripping->lumber, ripping->board, ripping->families, sawing, i);
  if (sawing->places->len > 0)
    return sawing;
  cav_sawing_free (sawing);
  return NULL;
}

static gboolean
is_same_sawing (const CavSawing *a, const CavSawing *b)
{
  if (a->places->len != b->places->len)
    return FALSE;
  for (guint i = 0; i < a->places->len; i++)
    {
      const CavClearPlace *one = &g_array_index (a->places, CavClearPlace, i);
      const CavClearPlace *other = &g_array_index (b->places, CavClearPlace, i);

      if (one->family != other->family || one->wide != other->wide
          || fabs (one->from - other->from) > SAME || fabs (one->to - other->to) > SAME)
        return FALSE;
    }
  return TRUE;
}

static void
add_sawing (Ripping *ripping, CavSawing *sawing)
{
  if (sawing == NULL)
    return;
  for (guint i = 0; i < ripping->sawings->len; i++)
    if (is_same_sawing (g_ptr_array_index (ripping->sawings, i), sawing))
      {
        cav_sawing_free (sawing);
        return;
      }
  g_ptr_array_add (ripping->sawings, sawing);
}

static double
get_total_width (const Ripping *ripping)
{
  double width = -ripping->lumber->kerf;

  for (int f = 0; f < ripping->n_families; f++)
    width += ripping->counts[f]
             * (get_strip_width (ripping->lumber, &ripping->families[f], MAX (ripping->plies[f], 1))
                + ripping->lumber->kerf);
  return width;
}

static gboolean
has_local_defects (const CavBoard *board)
{
  for (guint i = 0; i < board->spans->len; i++)
    if (g_array_index (board->spans, CavBoardSpan, i).high > SAME)
      return TRUE;
  return FALSE;
}

/* Where defects do not go through the whole width it matters where the strips lie: from either
 * edge, from above a defect, and around all of them. */
static void
add_positions (Ripping *ripping)
{
  const double first = ripping->lumber->jointing;
  const double last = ripping->board->width - get_total_width (ripping);

  add_sawing (ripping, rip (ripping, first, FALSE));
  if (!has_local_defects (ripping->board))
    return;
  add_sawing (ripping, rip (ripping, first, TRUE));
  add_sawing (ripping, rip (ripping, MAX (first, last), FALSE));
  for (guint i = 0; i < ripping->board->spans->len && ripping->sawings->len < MAX_WAYS; i++)
    {
      const double high = g_array_index (ripping->board->spans, CavBoardSpan, i).high;

      if (high > first && high <= last + SAME)
        add_sawing (ripping, rip (ripping, high, FALSE));
    }
}

/* Every number of strips of each family that fills the board. */
static void
choose_counts (Ripping *ripping, int family)
{
  const double room = ripping->board->width - ripping->lumber->jointing;
  const double kerf = ripping->lumber->kerf;
  double step;
  int most;

  if (ripping->sawings->len >= MAX_WAYS)
    return;
  if (family == ripping->n_families)
    {
      add_positions (ripping);
      return;
    }
  step = get_strip_width (ripping->lumber, &ripping->families[family],
                          MAX (ripping->plies[family], 1))
         + kerf;
  most = (int)floor ((room - get_total_width (ripping) + SAME) / step);
  most = ripping->plies[family] == 0 ? 0 : CLAMP (most, 0, MAX_STRIPS);
  /* The last family takes what is left. */
  for (int k = most; k >= (family == ripping->n_families - 1 ? most : 0); k--)
    {
      ripping->counts[family] = k;
      choose_counts (ripping, family + 1);
    }
  ripping->counts[family] = 0;
}

static gboolean
suits_wood (const CavBoard *board, const CavStripFamily *family)
{
  return family->wood[0] == '\0' || board->wood[0] == '\0'
         || strcmp (family->wood, board->wood) == 0;
}

GPtrArray *
cav_sawing_list (const CavLumber *lumber,
                 const CavBoard *board,
                 const CavStripFamily *families,
                 int n_families)
{
  g_return_val_if_fail (lumber != NULL && board != NULL, NULL);

  g_autofree int *numbers = g_new0 (int, 3 * MAX (n_families, 1));
  Ripping ripping = { .lumber = lumber,
                      .board = board,
                      .families = families,
                      .n_families = n_families,
                      .plies = numbers,
                      .layers = numbers + n_families,
                      .counts = numbers + 2 * n_families };

  ripping.sawings = g_ptr_array_new_with_free_func ((GDestroyNotify)cav_sawing_free);
  for (int f = 0; f < n_families; f++)
    {
      ripping.plies[f] = suits_wood (board, &families[f])
                             ? count_plies (lumber, board, families[f].thickness)
                             : 0;
      ripping.layers[f] = count_layers (lumber, board, families[f].thickness);
    }
  choose_counts (&ripping, 0);
  return ripping.sawings;
}

CavUnfit
cav_sawing_judge (const CavLumber *lumber, const CavBoard *board, const CavStripFamily *family)
{
  g_return_val_if_fail (lumber != NULL && board != NULL && family != NULL, CAV_UNFIT_NOT);

  const int plies = count_plies (lumber, board, family->thickness);
  g_autoptr (GPtrArray) sawings = NULL;

  if (!suits_wood (board, family))
    return CAV_UNFIT_WOOD;
  if (plies == 0)
    return CAV_UNFIT_THIN;
  if (get_strip_width (lumber, family, plies) > board->width - lumber->jointing + SAME)
    return CAV_UNFIT_NARROW;
  if (family->abreast == CAV_ABREAST_LAYERS && count_layers (lumber, board, family->thickness) < 2)
    return CAV_UNFIT_LAYERS;
  sawings = cav_sawing_list (lumber, board, family, 1);
  return sawings->len == 0 ? CAV_UNFIT_DEFECTS : CAV_UNFIT_NOT;
}
