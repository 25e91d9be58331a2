/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "boards/cav-stick.h"

#include "geometry/cav-tolerance.h"
#include "geometry/cav-unit.h"

#include <math.h>
#include <string.h>

/* Lengths closer than this are the same. */
#define SAME CAV_TOLERANCE_POINT

typedef struct
{
  const CavLumber *lumber;
  const CavBoardJob *job;
  int index;
  int family;
  CavDemand *demand;
} Cutting;

static void
stick_free (gpointer data)
{
  CavStick *stick = data;

  g_array_unref (stick->pieces);
  g_free (stick);
}

void
cav_demand_free (CavDemand *demand)
{
  if (demand == NULL)
    return;
  g_array_unref (demand->families);
  g_ptr_array_unref (demand->sticks);
  g_free (demand);
}

double
cav_stick_get_kerf (const CavLumber *lumber, const CavBoardJob *job)
{
  g_return_val_if_fail (lumber != NULL && job != NULL, 0.0);

  return job->square_first ? lumber->kerf : lumber->kerf / cos (CAV_RADIANS (job->mitre));
}

CavGrainOrder
cav_stick_get_order (const CavBoardJob *job)
{
  g_return_val_if_fail (job != NULL, CAV_GRAIN_FREE);

  if (job->n_rails % 2 == 0 || job->order == CAV_GRAIN_FREE)
    return job->order;
  return job->order == CAV_GRAIN_BOOK    ? CAV_GRAIN_RUNNING
         : job->order == CAV_GRAIN_PAIRS ? CAV_GRAIN_FREE
                                         : job->order;
}

static CavStick *
add_stick (Cutting *cutting, gboolean wide)
{
  CavStick *stick = g_new0 (CavStick, 1);

  stick->job = cutting->index;
  stick->family = cutting->family;
  stick->wide = wide;
  stick->kerf = cav_stick_get_kerf (cutting->lumber, cutting->job);
  stick->pieces = g_array_new (FALSE, FALSE, sizeof (CavStickPiece));
  g_ptr_array_add (cutting->demand->sticks, stick);
  return stick;
}

/* Appends a piece to what lies in a lane so far. */
static void
add_piece (CavStick *stick, CavStickPiece piece)
{
  piece.from = 0.0;
  for (guint i = 0; i < stick->pieces->len; i++)
    {
      const CavStickPiece *before = &g_array_index (stick->pieces, CavStickPiece, i);

      if (before->lane == piece.lane)
        piece.from = MAX (piece.from, before->from + before->length + stick->kerf);
    }
  stick->length = MAX (stick->length, piece.from + piece.length);
  g_array_append_val (stick->pieces, piece);
}

/* Cut square first, a piece is milled alone and must not be too short for that; else the whole
 * strip is milled in one length. */
static void
lengthen (const Cutting *cutting, CavStick *stick)
{
  if (cutting->job->square_first)
    stick->length = MAX (stick->length, cutting->lumber->shortest);
}

static CavStickPiece
get_rail (const Cutting *cutting, int frame, int rail)
{
  const CavBoardJob *job = cutting->job;

  return (CavStickPiece){ .kind = CAV_PIECE_RAIL,
                          .frame = frame,
                          .rail = rail,
                          .length = job->long_points[rail]
                                    + (job->square_first ? job->square_extra : 0.0) };
}

/* Every rail alone, but short ones that are cut square first together. */
static void
add_free (Cutting *cutting)
{
  const CavBoardJob *job = cutting->job;
  CavStick *together = NULL;

  for (int frame = 0; frame < job->frames; frame++)
    for (int rail = 0; rail < job->n_rails; rail++)
      {
        const CavStickPiece piece = get_rail (cutting, frame, rail);
        const gboolean is_short
            = job->square_first && piece.length < cutting->lumber->shortest - SAME;

        if (!is_short)
          {
            add_piece (add_stick (cutting, FALSE), piece);
            continue;
          }
        if (together == NULL)
          together = add_stick (cutting, FALSE);
        add_piece (together, piece);
        if (together->length >= cutting->lumber->shortest - SAME)
          together = NULL;
      }
  if (together != NULL)
    lengthen (cutting, together);
}

static void
add_pairs (Cutting *cutting)
{
  const CavBoardJob *job = cutting->job;
  const int half = job->n_rails / 2;

  for (int frame = 0; frame < job->frames; frame++)
    for (int rail = 0; rail < half; rail++)
      {
        CavStick *stick = add_stick (cutting, TRUE);
        CavStickPiece opposite = get_rail (cutting, frame, rail + half);

        opposite.lane = 1;
        add_piece (stick, get_rail (cutting, frame, rail));
        add_piece (stick, opposite);
        lengthen (cutting, stick);
      }
}

int
cav_stick_get_start (const CavBoardJob *job)
{
  g_return_val_if_fail (job != NULL && job->n_rails > 0, 0);
  return ((job->run_start % job->n_rails) + job->n_rails) % job->n_rails;
}

static void
add_runs (Cutting *cutting)
{
  const CavBoardJob *job = cutting->job;

  for (int frame = 0; frame < job->frames; frame++)
    {
      CavStick *stick = add_stick (cutting, FALSE);

      for (int k = 0; k < job->n_rails; k++)
        add_piece (stick,
                   get_rail (cutting, frame, (cav_stick_get_start (job) + k) % job->n_rails));
      lengthen (cutting, stick);
    }
}

/* The first half of the frame in one leaf; in the other, which opens the other way round, the
 * second half from its end: so that the run's first and last rail, and the two in its middle, begin
 * and end at the same place of the tree. */
static void
add_books (Cutting *cutting)
{
  const CavBoardJob *job = cutting->job;
  const int half = job->n_rails / 2;

  for (int frame = 0; frame < job->frames; frame++)
    {
      CavStick *stick = add_stick (cutting, TRUE);

      for (int k = 0; k < half; k++)
        add_piece (stick,
                   get_rail (cutting, frame, (cav_stick_get_start (job) + k) % job->n_rails));
      for (int k = job->n_rails - 1; k >= half; k--)
        {
          CavStickPiece piece
              = get_rail (cutting, frame, (cav_stick_get_start (job) + k) % job->n_rails);

          piece.lane = 1;
          piece.reversed = TRUE;
          add_piece (stick, piece);
        }
      lengthen (cutting, stick);
    }
}

static void
add_length (Cutting *cutting, CavPieceKind kind, double length)
{
  CavStick *stick;

  if (length <= SAME)
    return;
  stick = add_stick (cutting, FALSE);
  add_piece (stick, (CavStickPiece){ .kind = kind, .frame = -1, .rail = -1, .length = length });
  lengthen (cutting, stick);
}

static int
find_family (GArray *families, CavStripFamily family)
{
  for (guint i = 0; i < families->len; i++)
    {
      CavStripFamily *other = &g_array_index (families, CavStripFamily, i);

      if (fabs (other->width - family.width) < SAME
          && fabs (other->thickness - family.thickness) < SAME && other->abreast == family.abreast
          && strcmp (other->wood, family.wood) == 0)
        {
          other->least_kerf = MIN (other->least_kerf, family.least_kerf);
          return (int)i;
        }
    }
  g_array_append_val (families, family);
  return (int)families->len - 1;
}

static CavAbreast
get_abreast (CavGrainOrder order)
{
  switch (order)
    {
    case CAV_GRAIN_PAIRS:
      return CAV_ABREAST_STRIPS;
    case CAV_GRAIN_BOOK:
      return CAV_ABREAST_LAYERS;
    case CAV_GRAIN_FREE:
    case CAV_GRAIN_RUNNING:
      return CAV_ABREAST_NONE;
    }
  return CAV_ABREAST_NONE;
}

static void
add_job (Cutting *cutting)
{
  const CavBoardJob *job = cutting->job;
  const CavGrainOrder order = cav_stick_get_order (job);

  cutting->family
      = find_family (cutting->demand->families,
                     (CavStripFamily){ .width = job->width + cutting->lumber->strip_extra,
                                       .thickness = job->thickness,
                                       .wood = job->wood,
                                       .abreast = get_abreast (order),
                                       .least_kerf = cav_stick_get_kerf (cutting->lumber, job) });
  switch (order)
    {
    case CAV_GRAIN_FREE:
      add_free (cutting);
      break;
    case CAV_GRAIN_PAIRS:
      add_pairs (cutting);
      break;
    case CAV_GRAIN_RUNNING:
      add_runs (cutting);
      break;
    case CAV_GRAIN_BOOK:
      add_books (cutting);
      break;
    }
  add_length (cutting, CAV_PIECE_SPARE, job->spare);
  add_length (cutting, CAV_PIECE_TEST, job->test);
}

CavDemand *
cav_demand_new (const CavLumber *lumber, const GPtrArray *jobs)
{
  g_return_val_if_fail (lumber != NULL && jobs != NULL, NULL);

  CavDemand *demand = g_new0 (CavDemand, 1);

  demand->families = g_array_new (FALSE, FALSE, sizeof (CavStripFamily));
  demand->sticks = g_ptr_array_new_with_free_func (stick_free);
  for (guint i = 0; i < jobs->len; i++)
    {
      Cutting cutting = { lumber, g_ptr_array_index (jobs, i), (int)i, 0, demand };

      g_autofree char *reason = cav_board_job_explain (cutting.job);

      if (reason == NULL)
        add_job (&cutting);
    }
  return demand;
}
