/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "layout-bench.h"

#include "layout-checker.h"

#include <string.h>

Bench
bench_new (void)
{
  Bench bench = { cav_lumber_new (), NULL };

  bench.jobs = g_ptr_array_new_with_free_func ((GDestroyNotify)cav_board_job_free);
  bench.lumber->test = 0.0;
  return bench;
}

void
bench_clear (Bench *bench)
{
  cav_lumber_free (bench->lumber);
  g_ptr_array_unref (bench->jobs);
}

CavBoard *
add_board (Bench *bench, double length, double width, double thickness, int number)
{
  CavBoard *board = cav_board_new ();

  board->length = length;
  board->width = width;
  board->thickness = thickness;
  board->count = number;
  board->end_trim = 0.0;
  g_ptr_array_add (bench->lumber->boards, board);
  return board;
}

CavBoardJob *
add_job (Bench *bench, double width, double height)
{
  CavBoardJob *job = cav_board_job_new (bench->lumber, "Frame", 40.0, 20.0, 40.0);

  cav_board_job_set_rectangle (job, width, height);
  g_ptr_array_add (bench->jobs, job);
  return job;
}

CavBoardLayout *
lay (const Bench *bench)
{
  const CavLayoutRequest request = { .lumber = bench->lumber, .jobs = bench->jobs, .effort = 1 };
  g_autoptr (GError) error = NULL;
  CavBoardLayout *layout = cav_board_layout_new (&request, &error);
  g_autofree char *wrong = NULL;

  g_assert_no_error (error);
  wrong = check_layout (bench->lumber, bench->jobs, layout);
  g_assert_cmpstr (wrong, ==, NULL);
  return layout;
}

const CavFinding *
find_finding (const CavBoardLayout *layout, const char *code)
{
  for (guint i = 0; i < layout->findings->len; i++)
    {
      const CavFinding *finding = g_ptr_array_index (layout->findings, i);

      if (strcmp (finding->code, code) == 0)
        return finding;
    }
  return NULL;
}

const char *
get_message (const CavBoardLayout *layout, const char *code)
{
  const CavFinding *finding = find_finding (layout, code);

  return finding != NULL ? finding->message : "";
}
