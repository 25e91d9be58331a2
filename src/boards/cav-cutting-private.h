/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "boards/cav-cutting.h"

G_BEGIN_DECLS

#define CUT_ITEM(problem, i) (&g_array_index ((problem)->items, CavCutItem, i))
#define CUT_PLACE(problem, i) (&g_array_index ((problem)->places, CavCutPlace, i))
#define CUT_STOCK(problem, i) (&g_array_index ((problem)->stocks, CavCutStock, i))
#define CUT_WAY(problem, i) (&g_array_index ((problem)->ways, CavCutWay, i))

typedef enum
{
  CAV_CUT_NO,
  CAV_CUT_YES,
  CAV_CUT_UNKNOWN,
} CavCutAnswer;

/* Steps that are left, and whether somebody wants to stop. */
typedef struct
{
  gint64 steps;
  const int *cancelled;
} CavCutBudget;

gboolean cav_cut_budget_spend (CavCutBudget *budget, gint64 steps);

/* TRUE where an item may lie in a place, by family and width. */
static inline gboolean
cav_cut_suits (const CavCutItem *item, const CavCutPlace *place)
{
  return item->family == place->family && (!item->wide || place->wide);
}

CavCutFill *cav_cut_fill_new (int place, int board);
void cav_cut_fill_free (CavCutFill *fill);
GPtrArray *cav_cut_fills_new (void) G_GNUC_WARN_UNUSED_RESULT;
int cav_cut_fill_get_length (const CavCutProblem *problem, const CavCutFill *fill);

/*
 * The most valuable choice of items for one place. lengths above 0, at most counts[i] of each;
 * out_take[i] tells how many. FALSE where more than limit steps would be needed: the choice is
 * good, but perhaps not best.
 */
gboolean cav_cut_knapsack (int capacity,
                           guint n,
                           const int *lengths,
                           const double *values,
                           const int *counts,
                           int limit,
                           int *out_take,
                           double *out_value);

/* Whether demand[item] pieces fit into room[place] places; (nullable) fills are added where they
 * do. The second one only looks for a yes. */
CavCutAnswer cav_cut_pack (const CavCutProblem *problem,
                           const int *room,
                           const int *demand,
                           int effort,
                           CavCutBudget *budget,
                           GPtrArray *fills);
gboolean cav_cut_pack_quickly (const CavCutProblem *problem,
                               const int *room,
                               const int *demand,
                               int tries,
                               CavCutBudget *budget,
                               GPtrArray *fills);
/* Complete search in one family. */
CavCutAnswer cav_cut_pack_exactly (const CavCutProblem *problem,
                                   int family,
                                   const int *room,
                                   const int *demand,
                                   CavCutBudget *budget,
                                   GPtrArray *fills);
/* As much as fits: demand is left holding what does not. */
void cav_cut_pack_some (
    const CavCutProblem *problem, const int *room, int *demand, double power, GPtrArray *fills);

/* The linear relaxation, by columns. */
typedef struct _CavCutMaster CavCutMaster;
CavCutMaster *cav_cut_master_new (const CavCutProblem *problem) G_GNUC_WARN_UNUSED_RESULT;
void cav_cut_master_free (CavCutMaster *master);
/* Solves for what is left to place on places open so far; FALSE where it could not be solved to the
 * end. price: board = 1 + price * cost. *out_missing, pieces that are left out, is said in either
 * case. */
gboolean cav_cut_master_solve (CavCutMaster *master,
                               const int *demand,
                               const int *open,
                               const int *limits,
                               double price,
                               CavCutBudget *budget,
                               double *out_bound,
                               double *out_missing);
guint cav_cut_master_get_n_columns (const CavCutMaster *master);
double cav_cut_master_get_column (const CavCutMaster *master,
                                  guint column,
                                  int *out_place,
                                  const int **out_take);
double cav_cut_master_get_way (const CavCutMaster *master, guint way);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (CavCutMaster, cav_cut_master_free)

/* Rounds the relaxation, column by column. boards and fills are added to; FALSE where something
 * found no place. */
gboolean cav_cut_dive (const CavCutProblem *problem,
                       CavCutMaster *master,
                       double price,
                       int variant,
                       CavCutBudget *budget,
                       GArray *boards,
                       GPtrArray *fills);

/* What items and places are worth, such that no place takes items of more worth than its own: a set
 * of boards whose places are worth less than the items cannot take them. */
typedef struct
{
  double *items;  /* by item */
  double *places; /* by place */
} CavCutWorth;

CavCutWorth *cav_cut_worth_new (const CavCutProblem *problem) G_GNUC_WARN_UNUSED_RESULT;
void cav_cut_worth_free (CavCutWorth *worth);
/* By length: a place is worth the longest fill that it can have. */
CavCutWorth *cav_cut_worth_new_by_length (const CavCutProblem *problem,
                                          const int *demand) G_GNUC_WARN_UNUSED_RESULT;
/* What is asked for beyond the open places; what one board of a way is worth. */
double cav_cut_worth_get_wanted (const CavCutWorth *worth,
                                 const CavCutProblem *problem,
                                 const int *demand);
double cav_cut_worth_get_way (const CavCutWorth *worth,
                              const CavCutProblem *problem,
                              const CavCutWay *way);

/* (transfer full) The shadow prices of the relaxation that was solved last. */
CavCutWorth *cav_cut_master_create_worth (const CavCutMaster *master) G_GNUC_WARN_UNUSED_RESULT;

/* Sets of boards in order of their cost. */
typedef struct
{
  double cost;
  int *counts; /* by way */
} CavCutSet;

/* (transfer full) All sets of n boards that are worth enough, by every one of these measures
 * (CavCutWorth, at least one), cheapest first; out_all FALSE where there are too many to look at.
 */
GPtrArray *cav_cut_sets_new (const CavCutProblem *problem,
                             const GPtrArray *worths,
                             const int *demand,
                             int n,
                             gboolean *out_all) G_GNUC_WARN_UNUSED_RESULT;

/* Costs closer than this are the same. */
#define CAV_CUT_SAME_COST 1e-6
/* Amounts of the relaxation closer than this are the same: pieces, boards, parts of columns. */
#define CAV_CUT_NEARLY 1e-6

/* A search under way. */
typedef struct
{
  const CavCutProblem *problem;
  const CavCutOptions *options;
  CavCutSolution *solution;
  int *demand; /* by item: what can be placed at all */
  int *left;   /* by item: what the best greedy layout leaves */
  CavCutBudget budget;
  int effort;
  int dives;
  int tests;          /* sets of boards to look at closely */
  gint64 rest_steps;  /* left for lengthening the rest */
  GPtrArray *worths;  /* CavCutWorth, by length first */
  double price;       /* weight of cost beside the number of boards */
  double cheapest;    /* board */
  gboolean one_price; /* all boards cost the same */
  gboolean found;     /* solution takes everything */
  gboolean impossible;
} CavCutSearch;

double cav_cut_get_cost (const CavCutProblem *problem, const GArray *boards);
int *cav_cut_get_room (const CavCutProblem *problem,
                       const GArray *boards) G_GNUC_WARN_UNUSED_RESULT;
/* What opening a board of a way offers. */
typedef struct
{
  int way;
  double length; /* that its places can be filled with */
  double cost;
} CavCutOffer;

/* (transfer full) CavCutOffer of every way: longest in sum first, cheaper first among equals. */
GArray *cav_cut_list_offers (const CavCutSearch *search) G_GNUC_WARN_UNUSED_RESULT;
/* Whether a layout has fewer boards than the one that was found, or as many for less. */
gboolean cav_cut_is_better (const CavCutSearch *search, const GArray *boards);
/* Makes it the one that was found; takes the fills out of their array. */
void cav_cut_keep (CavCutSearch *search, GArray *boards, GPtrArray *fills, gboolean assign);
/* Greedy layouts by three ways of valuing long items; where none takes everything, the best one and
 * what it leaves is kept as missing. */
void cav_cut_begin_greedily (CavCutSearch *search);
void cav_cut_assign (const CavCutProblem *problem, const GArray *boards, GPtrArray *fills);

/* Moves items about on the boards that were chosen until one place keeps as long a rest as can be.
 */
void cav_cut_lengthen_rest (CavCutSearch *search);

G_END_DECLS
