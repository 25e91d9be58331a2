/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "geometry/cav-envelope.h"

#include <math.h>

#include "geometry/cav-segment-private.h"
#include "geometry/cav-tolerance.h"

/* Far beyond any profile: 4 million columns are 80 m at the usual step. */
#define COLUMNS_MAX (1 << 22)

/* Boundaries that erosion handles at a time: short enough for the registers and the nearest
 * cache, a constant so that the compiler turns the loop into vectors. */
#define BLOCK 64

/* The nearest float that is not above a height. */
static float
round_down (double height)
{
  float rounded = (float)height;

  return rounded > height ? nextafterf (rounded, -INFINITY) : rounded;
}

static void
lower_to (CavEnvelope *envelope, int column, double height)
{
  float rounded = round_down (height);

  if (rounded < envelope->heights[column])
    envelope->heights[column] = rounded;
}

static double
line_y_at (const CavMonotone *piece, double x)
{
  return piece->from.y
         + (x - piece->from.x) / (piece->to.x - piece->from.x) * (piece->to.y - piece->from.y);
}

/* An ellipse at one x, seen along its conjugate axes: y = centre + slope dx ± reach w, where w
 * is the height of the unit circle over dx / width. */
typedef struct
{
  CavPoint centre;
  double width;
  double slope;
  double reach;
} ArcFunction;

static ArcFunction
arc_function (const CavSegment *arc, const CavMonotone *piece)
{
  CavArcFrame frame = cav_arc_frame (arc);
  ArcFunction f = { .centre = frame.centre, .width = hypot (frame.xx, frame.xy) };
  double along = (frame.xx * frame.yx + frame.xy * frame.yy) / f.width;
  double across = (frame.xx * frame.yy - frame.xy * frame.yx) / f.width;
  double middle = 0.5 * (piece->t0 + piece->t1) * (G_PI / 180.0);
  /* Height of the piece's middle in the turned frame: which half of the ellipse it is. */
  double side = frame.xx * sin (middle) - frame.xy * cos (middle);

  f.slope = along / f.width;
  f.reach = side < 0.0 ? -across : across;
  return f;
}

static double
arc_y_at (const ArcFunction *f, double x)
{
  double dx = x - f->centre.x;
  double share = CLAMP (dx / f->width, -1.0, 1.0);

  return f->centre.y + f->slope * dx + f->reach * sqrt ((1.0 - share) * (1.0 + share));
}

/* The ends of an arc may stand a little off its curve; a piece then reaches over both, and as far
 * down as the lower of them. */
static void
widen_to_curve (const CavSegment *segment, CavMonotone *piece)
{
  CavArcFrame frame = cav_arc_frame (segment);
  CavPoint from = cav_arc_frame_point (&frame, piece->t0);
  CavPoint to = cav_arc_frame_point (&frame, piece->t1);

  piece->from = CAV_POINT (fmin (piece->from.x, from.x), fmin (piece->from.y, from.y));
  piece->to = CAV_POINT (fmax (piece->to.x, to.x), fmin (piece->to.y, to.y));
}

/* A monotone piece takes its least height over a column at one end of what it has of it. */
static void
take_piece (CavEnvelope *envelope, const CavSegment *segment, const CavMonotone *piece)
{
  gboolean arc = segment->kind == CAV_SEGMENT_ARC;
  double low = fmin (piece->from.y, piece->to.y);
  double y0 = piece->from.y;
  ArcFunction f = { 0 };
  int first, last;

  /* A column that is only touched at its boundary has no part of the region. */
  double begin = (piece->from.x + CAV_TOLERANCE_POINT - envelope->origin) / envelope->step;
  double end = (piece->to.x - CAV_TOLERANCE_POINT - envelope->origin) / envelope->step;

  if (begin >= envelope->n_columns || end < 0.0)
    return;
  first = begin > 0.0 ? (int)begin : 0;
  last = end < envelope->n_columns - 1 ? (int)end : envelope->n_columns - 1;

  if (arc)
    f = arc_function (segment, piece);
  for (int column = first; column <= last; column++)
    {
      double left = envelope->origin + column * envelope->step;
      double right = left + envelope->step;
      double y1 = piece->to.y;

      if (column == first && left > piece->from.x)
        y0 = arc ? arc_y_at (&f, left) : line_y_at (piece, left);
      if (right < piece->to.x)
        y1 = arc ? arc_y_at (&f, right) : line_y_at (piece, right);
      lower_to (envelope, column, fmax (fmin (y0, y1), low));
      y0 = y1;
    }
}

/* Rings keep the region on their left, so what is seen from below runs toward +x. */
static void
take_segment (CavEnvelope *envelope, const CavSegment *segment)
{
  CavMonotone pieces[CAV_MONOTONE_MAX];
  guint n = cav_segment_split_monotone (segment, pieces);

  for (guint i = 0; i < n; i++)
    {
      if (pieces[i].to.x <= pieces[i].from.x)
        continue;
      if (segment->kind == CAV_SEGMENT_ARC)
        widen_to_curve (segment, &pieces[i]);
      take_piece (envelope, segment, &pieces[i]);
    }
}

CavEnvelope *
cav_envelope_new (const CavRegion *region, double x0, double x1, double step)
{
  CavEnvelope *envelope;
  double columns = ceil ((x1 - x0) / step - CAV_TOLERANCE_POINT);

  g_return_val_if_fail (region != NULL && isfinite (x0) && step > 0.0, NULL);
  g_return_val_if_fail (columns < COLUMNS_MAX, NULL);

  envelope = g_new (CavEnvelope, 1);
  envelope->origin = x0;
  envelope->step = step;
  envelope->n_columns = columns > 0.0 ? (int)columns : 0;
  envelope->heights = g_new (float, envelope->n_columns + 1);
  for (int i = 0; i < envelope->n_columns; i++)
    envelope->heights[i] = CAV_ENVELOPE_OPEN;

  for (guint ring = 0; ring < cav_region_get_ring_count (region); ring++)
    {
      const CavPath *path = cav_region_get_ring (region, ring);

      for (guint i = 0; i < cav_path_get_segment_count (path); i++)
        take_segment (envelope, cav_path_get_segment (path, i));
    }
  return envelope;
}

void
cav_envelope_free (CavEnvelope *envelope)
{
  if (envelope == NULL)
    return;
  g_free (envelope->heights);
  g_free (envelope);
}

/* The heights with n open columns before and after them. */
static float *
pad (const CavEnvelope *envelope, int n, int n_after)
{
  int n_padded = n + envelope->n_columns + n_after;
  float *padded = g_new (float, n_padded);

  for (int i = 0; i < n_padded; i++)
    padded[i] = CAV_ENVELOPE_OPEN;
  for (int i = 0; i < envelope->n_columns; i++)
    padded[n + i] = envelope->heights[i];
  return padded;
}

/* One block of boundaries; right and left point at the columns after and before the first. */
static void
erode_block (const float *restrict right,
             const float *restrict left,
             const float *restrict depths,
             int n_depths,
             float *restrict out)
{
  for (int i = 0; i < BLOCK; i++)
    out[i] = CAV_ENVELOPE_OPEN;
  for (int d = 0; d < n_depths; d++)
    {
      const float *r = right + d;
      const float *l = left - d;
      float depth = depths[d];

      for (int i = 0; i < BLOCK; i++)
        {
          float low = r[i] < l[i] ? r[i] : l[i];

          low += depth;
          out[i] = low < out[i] ? low : out[i];
        }
    }
}

/* An open place stays CAV_ENVELOPE_OPEN, however deep the tool. */
void
cav_envelope_erode (const CavEnvelope *envelope,
                    const float *depths,
                    int n_depths,
                    float *out_heights)
{
  g_autofree float *padded = NULL;
  float block[BLOCK];
  int before = n_depths + 1;

  g_return_if_fail (envelope != NULL && out_heights != NULL);
  g_return_if_fail (n_depths >= 0 && (depths != NULL || n_depths == 0));

  padded = pad (envelope, before, n_depths + BLOCK);
  for (int i = 0; i <= envelope->n_columns; i += BLOCK)
    {
      int n = MIN (BLOCK, envelope->n_columns + 1 - i);

      erode_block (padded + before + i, padded + before + i - 1, depths, n_depths, block);
      for (int k = 0; k < n; k++)
        out_heights[i + k] = block[k];
    }
}

/* The least of any window of width is the lesser of two running minima: backward from the
 * window's start to the end of a stretch of width, forward from there (van Herk, 1992; Gil and
 * Werman, 1993; from memory). */
void
cav_envelope_erode_flat (const CavEnvelope *envelope, int width, float *out_heights)
{
  g_autofree float *forward = NULL;
  g_autofree float *backward = NULL;
  int n;

  g_return_if_fail (envelope != NULL && out_heights != NULL && width > 0);

  width = MIN (width, envelope->n_columns + 1);
  n = envelope->n_columns + width + 1;
  forward = pad (envelope, 0, width + 1);
  backward = pad (envelope, 0, width + 1);
  for (int i = 1; i < n; i++)
    if (i % width != 0 && forward[i - 1] < forward[i])
      forward[i] = forward[i - 1];
  for (int i = n - 2; i >= 0; i--)
    if ((i + 1) % width != 0 && backward[i + 1] < backward[i])
      backward[i] = backward[i + 1];
  for (int i = 0; i <= envelope->n_columns; i++)
    out_heights[i] = fminf (backward[i], forward[i + width - 1]);
}
