/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "boards/cav-layout-private.h"

#include <math.h>

/* A molding is not advised to become narrower than this share of what was drawn, or than 8 mm. */
#define LEAST_SHARE 0.4
#define LEAST_WIDTH 8.0
/* Rows of boards whose widths are looked at, and rows of stock that are tried alone. */
#define ROWS_LIMIT 60

typedef struct
{
  const CavLayoutRequest *request;
  CavBoardLayout *layout;
  CavLayoutRequest trial; /* the same without progress and in no hurry */
  double share;           /* of the way */
} Advice;

/* Nobody knows how many trials there will be: each goes a part of the way that is left. */
static void
report (Advice *advice)
{
  advice->share += 0.05 * (1.0 - advice->share);
  if (advice->request->progress != NULL)
    advice->request->progress (advice->share, advice->request->progress_data);
}

/* By stick: which of them are missing. */
static gboolean *
list_wanted (const Advice *advice)
{
  const GArray *missing = advice->layout->missing;
  g_autoptr (CavDemand) demand = cav_demand_new (advice->request->lumber, advice->request->jobs);
  gboolean *wanted = g_new0 (gboolean, demand->sticks->len + 1);

  for (guint i = 0; i < missing->len; i++)
    wanted[g_array_index (missing, CavPlacedPiece, i).stick] = TRUE;
  return wanted;
}

static void
add_purchase (GArray *purchases, int row)
{
  for (guint i = 0; i < purchases->len; i++)
    if (g_array_index (purchases, CavPurchase, i).row == row)
      {
        g_array_index (purchases, CavPurchase, i).count++;
        return;
      }
  const CavPurchase purchase = { row, 1 };

  g_array_append_val (purchases, purchase);
}

/* Keeps a purchase that is cheaper than the one before; without prices, one of less wood. */
static void
compare_purchase (Advice *advice, const CavBoardLayout *bought, double *best)
{
  CavBoardLayout *layout = advice->layout;
  const gboolean priced = bought->totals.without_price == 0;
  const double cost = priced ? bought->totals.cost : bought->totals.volume;

  if (bought->missing->len > 0 || cost >= *best)
    return;
  *best = cost;
  layout->has_purchase_cost = priced;
  layout->purchase_cost = priced ? cost : 0.0;
  g_array_set_size (layout->purchases, 0);
  for (guint i = 0; i < bought->boards->len; i++)
    add_purchase (layout->purchases,
                  ((const CavLaidBoard *)g_ptr_array_index (bought->boards, i))->row);
}

/* Of every row alone and of all together; first those that have a price. */
static void
find_purchase (Advice *advice)
{
  const CavLumber *lumber = advice->request->lumber;
  const int rows = (int)MIN (lumber->stock->len, ROWS_LIMIT);
  g_autofree gboolean *wanted = list_wanted (advice);

  for (int priced = 1; priced >= 0 && advice->layout->purchases->len == 0; priced--)
    {
      double best = G_MAXDOUBLE;

      for (int row = rows > 1 ? -1 : 0; row < rows; row++)
        {
          g_autoptr (CavBoardLayout) bought
              = cav_board_layout_try_stock (&advice->trial, wanted, row, priced);

          compare_purchase (advice, bought, &best);
          report (advice);
        }
    }
}

/* TRUE where everything fits with the one job exchanged. */
static gboolean
fits_with (Advice *advice, int job_index, CavBoardJob *job)
{
  g_autoptr (GPtrArray) jobs = g_ptr_array_new ();
  g_autoptr (CavBoardLayout) layout = NULL;
  CavLayoutRequest request = advice->trial;

  for (guint i = 0; i < advice->request->jobs->len; i++)
    g_ptr_array_add (jobs,
                     (int)i == job_index ? job : g_ptr_array_index (advice->request->jobs, i));
  request.jobs = jobs;
  layout = cav_board_layout_try (&request);
  report (advice);
  return layout->missing->len == 0;
}

static int
compare_widths (gconstpointer a, gconstpointer b)
{
  const double one = *(const double *)a;
  const double other = *(const double *)b;

  return one > other ? -1 : one < other;
}

/* Widths of the blank at which some board gives a strip more. */
static GArray *
list_widths (const CavLumber *lumber, const CavBoardJob *job)
{
  GArray *widths = g_array_new (FALSE, FALSE, sizeof (double));
  const double least = MAX (LEAST_WIDTH, LEAST_SHARE * job->width);

  for (guint i = 0; i < MIN (lumber->boards->len, ROWS_LIMIT); i++)
    {
      const CavBoard *board = g_ptr_array_index (lumber->boards, i);
      g_autofree char *reason = cav_board_explain (board);
      const double room = board->width - lumber->jointing + lumber->kerf;

      for (int n = 1; reason == NULL && n < 200; n++)
        {
          /* Whole tenths of a millimetre, downward. */
          const double width
              = floor (10.0 * (room / n - lumber->kerf - lumber->strip_extra) + 1e-6) / 10.0;

          if (width < least)
            break;
          if (width < job->width - 0.05)
            g_array_append_val (widths, width);
        }
    }
  g_array_sort (widths, compare_widths);
  return widths;
}

/* What fits with a strip fits with a narrower one, so that halving finds the widest. */
static void
find_narrower (Advice *advice, int job_index)
{
  const CavBoardJob *job = g_ptr_array_index (advice->request->jobs, job_index);
  g_autoptr (GArray) widths = list_widths (advice->request->lumber, job);
  guint low = 0;
  guint high = widths->len;

  while (low < high)
    {
      const guint middle = (low + high) / 2;
      g_autoptr (CavBoardJob) narrow = cav_board_job_copy (job);

      narrow->width = g_array_index (widths, double, middle);
      narrow->face = MIN (narrow->face, narrow->width);
      if (fits_with (advice, job_index, narrow))
        high = middle;
      else
        low = middle + 1;
    }
  if (high < widths->len)
    advice->layout->narrower = g_array_index (widths, double, high);
}

static void
find_easier_order (Advice *advice, int job_index)
{
  /* From the most demanding to the least. */
  static const CavGrainOrder ORDERS[]
      = { CAV_GRAIN_BOOK, CAV_GRAIN_RUNNING, CAV_GRAIN_PAIRS, CAV_GRAIN_FREE };
  const CavBoardJob *job = g_ptr_array_index (advice->request->jobs, job_index);
  gboolean easier = FALSE;

  for (guint i = 0; i < G_N_ELEMENTS (ORDERS); i++)
    {
      g_autoptr (CavBoardJob) other = cav_board_job_copy (job);

      if (!easier)
        {
          easier = ORDERS[i] == cav_stick_get_order (job);
          continue;
        }
      other->order = ORDERS[i];
      if (cav_stick_get_order (other) == ORDERS[i] && fits_with (advice, job_index, other))
        {
          advice->layout->has_easier = TRUE;
          advice->layout->easier = ORDERS[i];
          return;
        }
    }
}

void
cav_layout_advise (CavBoardLayout *layout, const CavLayoutRequest *request)
{
  Advice advice = { .request = request, .layout = layout, .trial = *request };
  const int job = g_array_index (layout->missing, CavPlacedPiece, 0).job;

  advice.trial.progress = NULL;
  advice.trial.effort = 0;
  find_purchase (&advice);
  find_easier_order (&advice, job);
  find_narrower (&advice, job);
}
