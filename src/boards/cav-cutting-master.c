/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "boards/cav-cutting-private.h"

#include <glpk.h>
#include <math.h>
#include <setjmp.h>
#include <string.h>

/*
 * Least boards such that every item is in a fill of some place, no more places of a kind are filled
 * than the boards give, and no more boards are opened than there are; all numbers may be broken.
 * Fills come in as columns when they pay: the items' shadow prices make a knapsack of every place
 * (column generation after Gilmore and Gomory, Operations Research 9, 1961, 849-859). A piece that
 * is left out costs so much that it happens only where it must.
 *
 * GLPK ends the process where it is called wrongly; here it jumps back instead, and the relaxation
 * counts as not solved.
 */
/* What a piece that is left out costs, in boards: more than any number of boards that is asked for
 * at once. */
#define LEFT_OUT 1e4
/* A column that pays by less than this pays by rounding. */
#define PAYS 1e-7
/* Rounds of new columns, iterations of the simplex in one round, and steps of one knapsack: far
 * more than the benches need, so that what turns in a circle ends. */
#define ROUNDS_LIMIT 600
#define ITERATIONS_LIMIT 20000
#define STEPS_LIMIT 30000

typedef struct
{
  int place;
  int column;
  int *take; /* by item */
} Fill;

struct _CavCutMaster
{
  const CavCutProblem *problem;
  glp_prob *lp;
  GPtrArray *fills; /* Fill */
  guint n_items;
  guint n_places;
  jmp_buf escape;
  gboolean broken;

  /* Room to work in */
  int *rows;
  double *entries;
  int *lengths;
  int *counts;
  int *take;
  int *who;
  double *worth;
};

static void
fill_free (gpointer data)
{
  Fill *fill = data;

  g_free (fill->take);
  g_free (fill);
}

static void
escape_from_glpk (void *data)
{
  CavCutMaster *master = data;

  longjmp (master->escape, 1);
}

/* Rows: items from 1, then places, then stocks. Columns: left out pieces by item, then ways, then
 * fills. */
static int
item_row (guint item)
{
  return (int)item + 1;
}

static int
place_row (const CavCutMaster *master, guint place)
{
  return (int)(master->n_items + place) + 1;
}

static int
stock_row (const CavCutMaster *master, guint stock)
{
  return (int)(master->n_items + master->n_places + stock) + 1;
}

static int
left_out_column (guint item)
{
  return (int)item + 1;
}

static int
way_column (const CavCutMaster *master, guint way)
{
  return (int)(master->n_items + way) + 1;
}

static void
add_way_columns (CavCutMaster *master)
{
  for (guint w = 0; w < master->problem->ways->len; w++)
    {
      const CavCutWay *way = CUT_WAY (master->problem, w);
      const int column = way_column (master, w);
      int n = 0;

      for (guint p = 0; p < master->n_places; p++)
        if (way->gives[p] > 0)
          {
            master->rows[++n] = place_row (master, p);
            master->entries[n] = way->gives[p];
          }
      master->rows[++n] = stock_row (master, (guint)way->stock);
      master->entries[n] = 1.0;
      glp_set_col_bnds (master->lp, column, GLP_LO, 0.0, 0.0);
      glp_set_mat_col (master->lp, column, n, master->rows, master->entries);
    }
}

static void
build (CavCutMaster *master)
{
  const CavCutProblem *problem = master->problem;

  glp_term_out (GLP_OFF);
  master->lp = glp_create_prob ();
  glp_set_obj_dir (master->lp, GLP_MIN);
  glp_add_rows (master->lp, (int)(master->n_items + master->n_places + problem->stocks->len));
  glp_add_cols (master->lp, (int)(master->n_items + problem->ways->len));
  for (guint i = 0; i < master->n_items; i++)
    {
      master->rows[1] = item_row (i);
      master->entries[1] = 1.0;
      glp_set_col_bnds (master->lp, left_out_column (i), GLP_LO, 0.0, 0.0);
      glp_set_mat_col (master->lp, left_out_column (i), 1, master->rows, master->entries);
    }
  add_way_columns (master);
}

CavCutMaster *
cav_cut_master_new (const CavCutProblem *problem)
{
  CavCutMaster *master = g_new0 (CavCutMaster, 1);
  const guint size = problem->items->len + problem->places->len + 4;

  master->problem = problem;
  master->fills = g_ptr_array_new_with_free_func (fill_free);
  master->n_items = problem->items->len;
  master->n_places = problem->places->len;
  master->rows = g_new (int, size);
  master->entries = g_new (double, size);
  master->lengths = g_new (int, size);
  master->counts = g_new (int, size);
  master->take = g_new (int, size);
  master->who = g_new (int, size);
  master->worth = g_new (double, size);
  glp_error_hook (escape_from_glpk, master);
  if (setjmp (master->escape) == 0)
    build (master);
  else
    master->broken = TRUE;
  glp_error_hook (NULL, NULL);
  return master;
}

void
cav_cut_master_free (CavCutMaster *master)
{
  if (master == NULL)
    return;
  /* After an escape GLPK's memory is in disorder, and only its environment as a whole can go. It
   * goes in any case: each thread has one of its own, and threads end. */
  if (!master->broken)
    glp_delete_prob (master->lp);
  glp_free_env ();
  g_ptr_array_unref (master->fills);
  g_free (master->rows);
  g_free (master->entries);
  g_free (master->lengths);
  g_free (master->counts);
  g_free (master->take);
  g_free (master->who);
  g_free (master->worth);
  g_free (master);
}

static void
add_fill_column (CavCutMaster *master, guint place, guint n)
{
  Fill *fill = g_new0 (Fill, 1);
  int entries = 0;

  fill->place = (int)place;
  fill->take = g_new0 (int, master->n_items);
  fill->column = glp_add_cols (master->lp, 1);
  for (guint i = 0; i < n; i++)
    if (master->take[i] > 0)
      {
        fill->take[master->who[i]] = master->take[i];
        master->rows[++entries] = item_row ((guint)master->who[i]);
        master->entries[entries] = master->take[i];
      }
  master->rows[++entries] = place_row (master, place);
  master->entries[entries] = -1.0;
  glp_set_col_bnds (master->lp, fill->column, GLP_LO, 0.0, 0.0);
  glp_set_obj_coef (master->lp, fill->column, 0.0);
  glp_set_mat_col (master->lp, fill->column, entries, master->rows, master->entries);
  g_ptr_array_add (master->fills, fill);
}

/* Looks for the fill of a place that pays best; FALSE where the knapsack gave up. */
static gboolean
price_place (CavCutMaster *master, guint place_index, const int *demand, gboolean *out_added)
{
  const CavCutProblem *problem = master->problem;
  const CavCutPlace *place = CUT_PLACE (problem, place_index);
  const double rent = glp_get_row_dual (master->lp, place_row (master, place_index));
  guint n = 0;
  double value;
  gboolean sure;

  for (guint i = 0; i < master->n_items; i++)
    {
      const CavCutItem *item = CUT_ITEM (problem, i);
      const double worth = glp_get_row_dual (master->lp, item_row (i));

      if (demand[i] <= 0 || worth <= PAYS || item->length > place->length
          || !cav_cut_suits (item, place))
        continue;
      master->lengths[n] = item->length;
      master->counts[n] = demand[i];
      master->worth[n] = worth;
      master->who[n++] = (int)i;
    }
  sure = cav_cut_knapsack (place->length, n, master->lengths, master->worth, master->counts,
                           STEPS_LIMIT, master->take, &value);
  if (value > rent + PAYS * MAX (1.0, fabs (rent)))
    {
      add_fill_column (master, place_index, n);
      *out_added = TRUE;
    }
  return sure;
}

static void
set_bounds (
    CavCutMaster *master, const int *demand, const int *open, const int *limits, double price)
{
  const CavCutProblem *problem = master->problem;

  for (guint i = 0; i < master->n_items; i++)
    {
      glp_set_row_bnds (master->lp, item_row (i), GLP_LO, demand[i], 0.0);
      glp_set_obj_coef (master->lp, left_out_column (i), LEFT_OUT);
    }
  for (guint p = 0; p < master->n_places; p++)
    glp_set_row_bnds (master->lp, place_row (master, p), GLP_LO, -open[p], 0.0);
  for (guint s = 0; s < problem->stocks->len; s++)
    glp_set_row_bnds (master->lp, stock_row (master, s), GLP_UP, 0.0, limits[s]);
  for (guint w = 0; w < problem->ways->len; w++)
    glp_set_obj_coef (master->lp, way_column (master, w),
                      1.0 + price * CUT_STOCK (problem, CUT_WAY (problem, w)->stock)->cost);
}

static gboolean
run_rounds (CavCutMaster *master, const int *demand, CavCutBudget *budget)
{
  glp_smcp simplex;

  glp_init_smcp (&simplex);
  simplex.msg_lev = GLP_MSG_OFF;
  simplex.it_lim = ITERATIONS_LIMIT;
  for (int round = 0; round < ROUNDS_LIMIT; round++)
    {
      const int before = glp_get_it_cnt (master->lp);
      gboolean added = FALSE;
      int unsure = 0;

      if (glp_simplex (master->lp, &simplex) != 0 || glp_get_status (master->lp) != GLP_OPT)
        return FALSE;
      /* What was added paid by less than the simplex can tell; more of it would not end. */
      if (round > 0 && glp_get_it_cnt (master->lp) == before)
        return FALSE;
      for (guint p = 0; p < master->n_places; p++)
        unsure += !price_place (master, p, demand, &added);
      if (!added)
        return unsure == 0;
      if (!cav_cut_budget_spend (budget, 50 + master->n_items * master->n_places / 4
                                             + unsure * STEPS_LIMIT / 8
                                             + (glp_get_it_cnt (master->lp) - before)
                                                   * glp_get_num_rows (master->lp) / 4))
        return FALSE;
    }
  return FALSE;
}

static double
sum_left_out (CavCutMaster *master)
{
  double sum = 0.0;

  for (guint i = 0; i < master->n_items; i++)
    sum += glp_get_col_prim (master->lp, left_out_column (i));
  return sum;
}

gboolean
cav_cut_master_solve (CavCutMaster *master,
                      const int *demand,
                      const int *open,
                      const int *limits,
                      double price,
                      CavCutBudget *budget,
                      double *out_bound,
                      double *out_missing)
{
  volatile gboolean solved = FALSE;

  /* Where GLPK escapes nothing is known: no bound, and all of it may be missing. */
  *out_bound = 0.0;
  *out_missing = G_MAXDOUBLE;
  if (master->broken)
    return FALSE;
  glp_error_hook (escape_from_glpk, master);
  if (setjmp (master->escape) == 0)
    {
      set_bounds (master, demand, open, limits, price);
      solved = run_rounds (master, demand, budget);
      *out_missing = sum_left_out (master);
      *out_bound = glp_get_obj_val (master->lp) - LEFT_OUT * *out_missing;
    }
  else
    {
      master->broken = TRUE;
      solved = FALSE;
    }
  glp_error_hook (NULL, NULL);
  return solved;
}

guint
cav_cut_master_get_n_columns (const CavCutMaster *master)
{
  return master->fills->len;
}

double
cav_cut_master_get_column (const CavCutMaster *master,
                           guint column,
                           int *out_place,
                           const int **out_take)
{
  const Fill *fill = g_ptr_array_index (master->fills, column);

  *out_place = fill->place;
  *out_take = fill->take;
  return glp_get_col_prim (master->lp, fill->column);
}

double
cav_cut_master_get_way (const CavCutMaster *master, guint way)
{
  return glp_get_col_prim (master->lp, way_column (master, way));
}

CavCutWorth *
cav_cut_master_create_worth (const CavCutMaster *master)
{
  CavCutWorth *worth = cav_cut_worth_new (master->problem);

  for (guint i = 0; i < master->n_items; i++)
    worth->items[i] = MAX (glp_get_row_dual (master->lp, item_row (i)), 0.0);
  /* A fill may still pay by a hair. */
  for (guint p = 0; p < master->n_places; p++)
    worth->places[p] = MAX (glp_get_row_dual (master->lp, place_row (master, p)), 0.0) + PAYS;
  return worth;
}
