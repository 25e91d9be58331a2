/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/*
 * Cutting lengths from lengths, without a word about wood: items go into stretches ("places"), and
 * places come in sets when a board is opened. Lengths are whole numbers in whatever unit; who asks
 * adds a kerf to every item and to every place, so that n items cost n - 1 kerfs.
 */

/* Equal items. Families never share a place; a wide item needs a wide place. */
typedef struct
{
  int length;
  int count;
  int family;
  gboolean wide;
} CavCutItem;

/* Equal places. open of them are there already and cost nothing. */
typedef struct
{
  int length;
  int family;
  gboolean wide;
  int open;
} CavCutPlace;

/* Equal boards; limit of them can be had. */
typedef struct
{
  int limit;
  double cost;
} CavCutStock;

/* One way of sawing a board of that stock: how many of each place it gives. */
typedef struct
{
  int stock;
  int *gives; /* by place */
} CavCutWay;

typedef struct
{
  GArray *items;  /* CavCutItem */
  GArray *places; /* CavCutPlace */
  GArray *stocks; /* CavCutStock */
  GArray *ways;   /* CavCutWay; added when all places are there */
} CavCutProblem;

CavCutProblem *cav_cut_problem_new (void) G_GNUC_WARN_UNUSED_RESULT;
void cav_cut_problem_free (CavCutProblem *problem);
/* Each returns the index of what was added. */
int cav_cut_problem_add_item (CavCutProblem *problem, CavCutItem item);
int cav_cut_problem_add_place (CavCutProblem *problem, CavCutPlace place);
int cav_cut_problem_add_stock (CavCutProblem *problem, CavCutStock stock);
/* A way that gives nothing yet. Returns its numbers, by place, for the caller to set. */
int *cav_cut_problem_add_way (CavCutProblem *problem, int stock);

/* What one place is cut into. */
typedef struct
{
  int place;
  int board;     /* index into the solution's boards, or -1 for an open place */
  GArray *items; /* int, index of CavCutItem, one entry a piece */
} CavCutFill;

/* How much work may be done. The search counts steps, not seconds: the same problem gives the same
 * answer on any machine. */
typedef struct
{
  int effort;                                     /* 1: usual; 0: first good answer; more: longer */
  const int *cancelled;                           /* nullable; read atomically */
  void (*progress) (double share, gpointer data); /* nullable; called from this thread */
  gpointer progress_data;
  gboolean cost_first; /* least cost, then fewest boards; nothing is proved about several prices */
} CavCutOptions;

typedef struct
{
  GArray *boards;   /* int: the way that each opened board is sawn */
  GPtrArray *fills; /* CavCutFill */
  int *missing;     /* by item: how many found no place */
  int n_missing;
  double cost;
  int least_boards;  /* nobody needs fewer, proved */
  double least_cost; /* of that many boards, proved; what is found where cost_proved */
  gboolean boards_proved;
  gboolean cost_proved;
  gboolean rest_proved;    /* on these boards no rest is longer by over a 200th of its place */
  gboolean missing_proved; /* with n_missing above 0: it is certain that not all can be placed */
  gboolean cancelled;
} CavCutSolution;

/* Fewest boards, then least cost, then the longest rest of one place. Where not everything can be
 * placed, as much length as was found to fit. */
CavCutSolution *cav_cut_solve (const CavCutProblem *problem,
                               const CavCutOptions *options) G_GNUC_WARN_UNUSED_RESULT;
void cav_cut_solution_free (CavCutSolution *solution);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CavCutProblem, cav_cut_problem_free)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (CavCutSolution, cav_cut_solution_free)

G_END_DECLS
