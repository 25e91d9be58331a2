/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/cav-frame-face.h"

#include "geometry/cav-unit.h"

#include <math.h>

void
cav_frame_face_init (CavFrameFace *face, int sides, CavSize size)
{
  g_return_if_fail (face != NULL && sides >= CAV_FRAME_SIDES_MIN && sides <= CAV_FRAME_SIDES_MAX);

  *face = (CavFrameFace){ .sides = sides };
  for (int i = 0; i < sides; i++)
    {
      double angle = (i * 360.0 / sides - 90.0 + (sides % 2 == 1 ? 180.0 / sides : 0.0));

      face->across[i] = CAV_POINT (cos (CAV_RADIANS (angle)), sin (CAV_RADIANS (angle)));
      face->reach[i] = (sides == 4 && i % 2 == 0 ? size.height : size.width) / 2.0;
    }
}

void
cav_frame_face_shift (CavFrameFace *face, double x, double y)
{
  for (int i = 0; i < face->sides; i++)
    face->reach[i] += face->across[i].x * x + face->across[i].y * y;
}

/* Where two sides meet: the solution of two equations by Cramer's rule. */
CavPoint
cav_frame_face_get_corner (const CavFrameFace *face, int side, double inset)
{
  int next = (side + 1) % face->sides;
  CavPoint a = face->across[side];
  CavPoint b = face->across[next];
  double first = face->reach[side] - inset;
  double second = face->reach[next] - inset;
  double cross = a.x * b.y - a.y * b.x;

  return CAV_POINT ((first * b.y - second * a.y) / cross, (a.x * second - b.x * first) / cross);
}

CavBox
cav_frame_face_get_bounds (const CavFrameFace *face)
{
  CavPoint corner = cav_frame_face_get_corner (face, 0, 0.0);
  CavBox box = { corner.x, corner.y, corner.x, corner.y };

  for (int i = 1; i < face->sides; i++)
    {
      corner = cav_frame_face_get_corner (face, i, 0.0);
      box.x0 = fmin (box.x0, corner.x);
      box.y0 = fmin (box.y0, corner.y);
      box.x1 = fmax (box.x1, corner.x);
      box.y1 = fmax (box.y1, corner.y);
    }
  return box;
}

double
cav_frame_face_get_depth (const CavFrameFace *face,
                          CavPoint point,
                          int *out_side,
                          double *out_second)
{
  double least = INFINITY;
  double second = INFINITY;
  int side = 0;

  for (int i = 0; i < face->sides; i++)
    {
      double depth = face->reach[i] - face->across[i].x * point.x - face->across[i].y * point.y;

      if (depth < least)
        {
          second = least;
          least = depth;
          side = i;
        }
      else if (depth < second)
        second = depth;
    }
  if (out_side != NULL)
    *out_side = side;
  if (out_second != NULL)
    *out_second = second - least;
  return least;
}

double
cav_frame_face_get_distance (const CavFrameFace *face, CavPoint point)
{
  double most = 0.0;
  double second = 0.0;

  for (int i = 0; i < face->sides; i++)
    {
      double out = face->across[i].x * point.x + face->across[i].y * point.y - face->reach[i];

      if (out > most)
        {
          second = most;
          most = out;
        }
      else if (out > second)
        second = out;
    }
  return face->sides == 4 ? hypot (most, second) : most;
}
