/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How long a layout takes, and how good it is: a dozen frames on twenty boards, and many frames on
 * many boards. */
#include "boards/cav-board-layout.h"

#include <stdio.h>
#include <time.h>

/* Numbers that look like chance and are the same every time. */
static int
draw (guint *state, int from, int to)
{
  *state = *state * 1664525u + 1013904223u;
  return from + (int)((*state >> 8) % (guint)(to - from));
}

static void
add_boards (CavLumber *lumber, guint *state, int boards, gboolean defects)
{
  for (int b = 0; b < boards; b++)
    {
      CavBoard *board = cav_board_new ();

      board->length = draw (state, 1600, 3400);
      board->width = draw (state, 90, 240);
      board->basis = CAV_PRICE_BOARD_FOOT;
      board->price = 9.0;
      for (int k = defects ? draw (state, 0, 3) : 0; k > 0; k--)
        {
          const double from = draw (state, 100, 1500);
          const double low = draw (state, 0, 80);

          cav_board_add_span (board, (CavBoardSpan){ .from = from,
                                                     .to = from + draw (state, 20, 90),
                                                     .low = low,
                                                     .high = low + draw (state, 10, 60) });
        }
      g_ptr_array_add (lumber->boards, board);
    }
}

static void
run (const char *title,
     int boards,
     int sizes,
     int frames,
     CavGrainOrder order,
     gboolean defects,
     guint state)
{
  g_autoptr (CavLumber) lumber = cav_lumber_new ();
  g_autoptr (GPtrArray) jobs = g_ptr_array_new_with_free_func ((GDestroyNotify)cav_board_job_free);
  const CavLayoutRequest request = { .lumber = lumber, .jobs = jobs, .effort = 1 };
  g_autoptr (CavBoardLayout) layout = NULL;
  clock_t start;

  lumber->order = order;
  lumber->frames = frames;
  lumber->resaw = order == CAV_GRAIN_BOOK;
  add_boards (lumber, &state, boards, defects);
  for (guint b = 0; order == CAV_GRAIN_BOOK && b < lumber->boards->len; b++)
    ((CavBoard *)g_ptr_array_index (lumber->boards, b))->thickness = 54.0;
  for (int j = 0; j < sizes; j++)
    {
      CavBoardJob *job = cav_board_job_new (lumber, "", 44.0, 22.0, 40.0);

      job->test = j == 0 ? 300.0 : 0.0;
      cav_board_job_set_rectangle (job, draw (&state, 220, 520), draw (&state, 220, 620));
      g_ptr_array_add (jobs, job);
    }
  start = clock ();
  layout = cav_board_layout_new (&request, NULL);
  printf ("%-34s %-8s %4d rails %3u boards (%3d needed%s%s%s) %4u missing %7.1f ms of processor\n",
          title, cav_grain_order_to_string (order), layout->totals.rails, layout->boards->len,
          layout->least_boards, layout->boards_proved ? ", proved" : "",
          layout->cost_proved ? ", cost too" : "", layout->rest_proved ? ", rest too" : "",
          layout->missing->len, 1e3 * (double)(clock () - start) / CLOCKS_PER_SEC);
}

int
main (void)
{
  for (int order = 0; order < CAV_N_GRAIN_ORDERS; order++)
    for (guint k = 1; k <= 3; k++)
      {
        run ("12 equal frames on 20 boards", 20, 1, 12, (CavGrainOrder)order, FALSE, k);
        run ("12 equal frames, defects", 20, 1, 12, (CavGrainOrder)order, TRUE, k);
        run ("12 frames of 12 sizes", 20, 12, 1, (CavGrainOrder)order, FALSE, k);
        run ("12 frames of 12 sizes, defects", 20, 12, 1, (CavGrainOrder)order, TRUE, k);
      }
  for (int order = 0; order < CAV_N_GRAIN_ORDERS; order++)
    {
      run ("200 equal frames on 300 boards", 300, 1, 200, (CavGrainOrder)order, FALSE, 5);
      run ("200 frames of 10 sizes", 300, 10, 20, (CavGrainOrder)order, FALSE, 38);
      run ("200 frames of 20 sizes", 300, 20, 10, (CavGrainOrder)order, FALSE, 6);
      run ("200 frames of 200 sizes", 300, 200, 1, (CavGrainOrder)order, FALSE, 7);
      run ("200 frames of 200 sizes, defects", 300, 200, 1, (CavGrainOrder)order, TRUE, 8);
    }
  return 0;
}
