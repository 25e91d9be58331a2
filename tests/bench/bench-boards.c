/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Cutting data of the open collections: bench-boards FOLDER prints instance, lengths found, best
 * known, seconds and lower bound. The folder holds t60.txt, u250.txt and sw1.txt. */
#include "boards/cav-cutting.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

typedef struct
{
  int instances;
  int reached;
  int proved;
  double slowest;
} Score;

/* Lengths of t60 have one decimal. */
static int
read_length (const char *text)
{
  return (int)lround (g_ascii_strtod (text, NULL) * 10.0);
}

static gboolean
check (const CavCutProblem *problem, const CavCutSolution *solution)
{
  const int capacity = g_array_index (problem->places, CavCutPlace, 0).length;
  g_autofree int *left = g_new0 (int, problem->items->len + 1);

  for (guint i = 0; i < problem->items->len; i++)
    left[i] = g_array_index (problem->items, CavCutItem, i).count;
  for (guint f = 0; f < solution->fills->len; f++)
    {
      const CavCutFill *fill = g_ptr_array_index (solution->fills, f);
      int length = 0;

      for (guint k = 0; k < fill->items->len; k++)
        {
          const int item = g_array_index (fill->items, int, k);

          left[item]--;
          length += g_array_index (problem->items, CavCutItem, item).length;
        }
      if (length > capacity || fill->board < 0 || fill->board >= (int)solution->boards->len)
        return FALSE;
    }
  for (guint i = 0; i < problem->items->len; i++)
    if (left[i] != 0)
      return FALSE;
  return solution->fills->len <= solution->boards->len + 1;
}

static void
run (const char *name, int capacity, GArray *lengths, GArray *counts, int best, Score *score)
{
  g_autoptr (CavCutProblem) problem = cav_cut_problem_new ();
  g_autoptr (CavCutSolution) solution = NULL;
  const CavCutOptions options = { .effort = 1 };
  gint64 start;
  double seconds;

  for (guint i = 0; i < lengths->len; i++)
    cav_cut_problem_add_item (problem, (CavCutItem){ .length = g_array_index (lengths, int, i),
                                                     .count = g_array_index (counts, int, i) });
  cav_cut_problem_add_place (problem, (CavCutPlace){ .length = capacity });
  cav_cut_problem_add_stock (problem, (CavCutStock){ .limit = 1000, .cost = 1.0 });
  cav_cut_problem_add_way (problem, 0)[0] = 1;
  start = g_get_monotonic_time ();
  solution = cav_cut_solve (problem, &options);
  seconds = 1e-6 * (double)(g_get_monotonic_time () - start);
  printf ("%-12s found %3u  best %3d  %6.3f s  bound %3d%s%s\n", name, solution->boards->len, best,
          seconds, solution->least_boards, solution->boards_proved ? "  proved" : "",
          check (problem, solution) ? "" : "  WRONG");
  score->instances++;
  score->reached += (int)solution->boards->len <= best;
  score->proved += solution->boards_proved;
  score->slowest = MAX (score->slowest, seconds);
}

/* Equal lengths are one item. */
static void
add_length (GArray *lengths, GArray *counts, int length, int count)
{
  for (guint i = 0; i < lengths->len; i++)
    if (g_array_index (lengths, int, i) == length)
      {
        g_array_index (counts, int, i) += count;
        return;
      }
  g_array_append_val (lengths, length);
  g_array_append_val (counts, count);
}

static gboolean
run_file (const char *folder, const char *file, gboolean pairs, int known)
{
  g_autofree char *path = g_build_filename (folder, file, NULL);
  g_autofree char *text = NULL;
  g_autoptr (GError) error = NULL;
  g_auto (GStrv) words = NULL;
  Score score = { 0 };
  guint n = 0;

  if (!g_file_get_contents (path, &text, NULL, &error))
    {
      fprintf (stderr, "%s\n", error->message);
      return FALSE;
    }
  g_strdelimit (text, "\r\n\t", ' ');
  words = g_strsplit (text, " ", -1);
  /* Blanks in a row leave empty words behind. */
  for (guint i = 0; words[i] != NULL; i++)
    if (words[i][0] != '\0')
      words[n++] = words[i];
    else
      g_free (words[i]);
  words[n] = NULL;
  for (guint at = pairs ? 0 : 1; at < n;)
    {
      g_autoptr (GArray) lengths = g_array_new (FALSE, FALSE, sizeof (int));
      g_autoptr (GArray) counts = g_array_new (FALSE, FALSE, sizeof (int));
      const char *name = words[at++];
      int items;
      int capacity;
      int best = known;

      if (pairs)
        {
          /* The name has a blank and ends in a quote. */
          while (at < n && strchr (words[at], '\'') != NULL)
            name = words[at++];
          items = atoi (words[at++]);
          capacity = read_length (words[at++]);
        }
      else
        {
          capacity = read_length (words[at++]);
          items = atoi (words[at++]);
          best = atoi (words[at++]);
        }
      for (int i = 0; i < items && at < n; i++)
        {
          const int length = read_length (words[at++]);

          add_length (lengths, counts, length, pairs ? atoi (words[at++]) : 1);
        }
      run (name, capacity, lengths, counts, best, &score);
    }
  printf ("%s: %d instances, %d reach the best known, %d proved, slowest %.3f s\n\n", file,
          score.instances, score.reached, score.proved, score.slowest);
  return TRUE;
}

int
main (int argc, char *argv[])
{
  if (argc != 2)
    {
      fprintf (stderr, "bench-boards FOLDER\n");
      return 2;
    }
  return run_file (argv[1], "t60.txt", FALSE, 0) && run_file (argv[1], "u250.txt", FALSE, 0)
                 && run_file (argv[1], "sw1.txt", TRUE, 18)
             ? 0
             : 1;
}
