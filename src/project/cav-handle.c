/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "project/cav-handle.h"

#include "project/cav-handle-private.h"

#include <math.h>

#include "project/cav-path-edit.h"
#include "project/cav-place-private.h"

/* Cosine of 45 degrees: where a handle sits on a quarter of an ellipse. */
#define COS_45 0.70710678118654752

/* Handles are thought of in the frame that the cut's shape is drawn in. */
typedef struct
{
  const CavCut *cut;
  CavTransform frame;
  double run;
  GArray *handles;
} Builder;

/* A vector of the frame, in the blank. */
static CavPoint
turn (const CavTransform *frame, double x, double y)
{
  return CAV_POINT (frame->xx * x + frame->xy * y, frame->yx * x + frame->yy * y);
}

static void
add (Builder *self, double x, double y, CavHandle handle)
{
  handle.point = cav_transform_point (self->frame, CAV_POINT (x, y));
  g_array_append_val (self->handles, handle);
}

/* Along the frame's vector (dx, dy), of length 1, number changes by rate. */
static void
add_number (
    Builder *self, double x, double y, double dx, double dy, CavCutNumber number, double rate)
{
  add (self, x, y,
       (CavHandle){
           .kind = CAV_HANDLE_NUMBER,
           .direction = turn (&self->frame, dx, dy),
           .n_numbers = 1,
           .numbers = { number },
           .rate = { rate },
       });
}

/* An edge of what stands in the middle of a width; the other edge stays. */
static void
add_edge (Builder *self, double x, double y, double width_rate)
{
  add (self, x, y,
       (CavHandle){
           .kind = CAV_HANDLE_NUMBER,
           .direction = turn (&self->frame, 1.0, 0.0),
           .n_numbers = 2,
           .numbers = { CAV_CUT_WIDTH, CAV_CUT_POSITION },
           .rate = { width_rate, 0.5 },
       });
}

/* Two numbers at a corner, the first by x and the second by y of the frame. */
static void
add_size (Builder *self,
          double x,
          double y,
          CavCutNumber first,
          double rate_x,
          CavCutNumber second,
          double rate_y)
{
  add (self, x, y,
       (CavHandle){
           .kind = CAV_HANDLE_SIZE,
           .n_numbers = 2,
           .numbers = { first, second },
           .rate = { rate_x * self->frame.xx, rate_y * self->frame.yy },
       });
}

static void
add_corner_move (Builder *self, double x, double y)
{
  add (self, x, y,
       (CavHandle){
           .kind = CAV_HANDLE_MOVE,
           .n_numbers = 2,
           .numbers = { CAV_CUT_SHIFT_X, CAV_CUT_SHIFT_Y },
           .rate = { self->frame.xx, self->frame.yy },
       });
}

/* Along the side by its position, and into the wood from where it stands now. */
static void
add_side_moves (Builder *self, double x, double y)
{
  add_number (self, x, 0.0, 0.0, 1.0, cav_cut_get_sink_number (self->cut), 1.0);
  add (self, x, y,
       (CavHandle){
           .kind = CAV_HANDLE_MOVE,
           .direction = turn (&self->frame, 1.0, 0.0),
           .n_numbers = 1,
           .numbers = { CAV_CUT_POSITION },
           .rate = { 1.0 },
       });
}

static void
add_rabbet (Builder *self, double width, double depth)
{
  add_size (self, width, depth, CAV_CUT_WIDTH, 1.0, CAV_CUT_DEPTH, 1.0);
  add_number (self, width, depth / 2.0, 1.0, 0.0, CAV_CUT_WIDTH, 1.0);
  add_number (self, width / 2.0, depth, 0.0, 1.0, CAV_CUT_DEPTH, 1.0);
  add_corner_move (self, width / 2.0, depth / 2.0);
}

static void
add_steps (Builder *self)
{
  const double *n = self->cut->numbers;
  double count = n[CAV_CUT_COUNT];
  double run = n[CAV_CUT_RUN];
  double rise = n[CAV_CUT_RISE];

  add_number (self, count * run, rise / 2.0, 1.0, 0.0, CAV_CUT_RUN, 1.0 / count);
  add_number (self, run / 2.0, count * rise, 0.0, 1.0, CAV_CUT_RISE, 1.0 / count);
  add_number (self, 0.0, count * rise, 0.0, 1.0, CAV_CUT_COUNT, 1.0 / rise);
  add_corner_move (self, count * run * 0.3, count * rise * 0.3);
}

static void
add_groove (Builder *self, double width, double depth)
{
  double middle = self->cut->numbers[CAV_CUT_POSITION];

  add_edge (self, middle - width / 2.0, depth / 2.0, -1.0);
  add_edge (self, middle + width / 2.0, depth / 2.0, 1.0);
  add_number (self, middle, depth, 0.0, 1.0, CAV_CUT_DEPTH, 1.0);
  add_side_moves (self, middle, depth / 2.0);
}

/* A hollow ends on the side, so that its edges lie there. */
static void
add_cove (Builder *self, double width, double depth)
{
  double middle = self->cut->numbers[CAV_CUT_POSITION];

  if (self->cut->anchor == CAV_ANCHOR_SIDE)
    {
      add_edge (self, middle - width / 2.0, 0.0, -1.0);
      add_edge (self, middle + width / 2.0, 0.0, 1.0);
      add_number (self, middle, depth, 0.0, 1.0, CAV_CUT_DEPTH, 1.0);
      add_side_moves (self, middle, depth / 2.0);
      return;
    }
  add_size (self, width * COS_45, depth * COS_45, CAV_CUT_WIDTH, 1.0 / COS_45, CAV_CUT_DEPTH,
            1.0 / COS_45);
  add_number (self, width, 0.0, 1.0, 0.0, CAV_CUT_WIDTH, 1.0);
  add_number (self, 0.0, depth, 0.0, 1.0, CAV_CUT_DEPTH, 1.0);
  add_corner_move (self, width * 0.35, depth * 0.35);
}

/* What a round takes is a sliver at the corner; both radii are held at their centre. */
static void
add_round (Builder *self, double width, double depth)
{
  add_size (self, width, depth, CAV_CUT_WIDTH, 1.0, CAV_CUT_DEPTH, 1.0);
  add_number (self, width, 0.0, 1.0, 0.0, CAV_CUT_WIDTH, 1.0);
  add_number (self, 0.0, depth, 0.0, 1.0, CAV_CUT_DEPTH, 1.0);
  add_corner_move (self, width * 0.12, depth * 0.12);
}

static void
add_chamfer (Builder *self, double width, double depth)
{
  add_size (self, width / 2.0, depth / 2.0, CAV_CUT_WIDTH, 2.0, CAV_CUT_DEPTH, 2.0);
  add_number (self, width, 0.0, 1.0, 0.0, CAV_CUT_WIDTH, 1.0);
  add_number (self, 0.0, depth, 0.0, 1.0, CAV_CUT_DEPTH, 1.0);
  add_corner_move (self, width * 0.2, depth * 0.2);
}

/* The arcs' meeting point runs along the straight line between the curve's ends. */
static void
add_ogee (Builder *self, double width, double depth)
{
  double share = self->cut->numbers[CAV_CUT_SHARE];
  double length = hypot (width, depth);

  add_number (self, width * (1.0 - share), depth * share, -width / length, depth / length,
              CAV_CUT_SHARE, 1.0 / length);
  add_number (self, width, 0.0, 1.0, 0.0, CAV_CUT_WIDTH, 1.0);
  add_number (self, 0.0, depth, 0.0, 1.0, CAV_CUT_DEPTH, 1.0);
  add_corner_move (self, width * 0.15, depth * 0.15);
}

static void
add_bevel (Builder *self)
{
  double start = self->cut->numbers[CAV_CUT_START_HEIGHT];
  double end = self->cut->numbers[CAV_CUT_END_HEIGHT];

  add_number (self, 0.0, start, 0.0, 1.0, CAV_CUT_START_HEIGHT, 1.0);
  add_number (self, self->run, end, 0.0, 1.0, CAV_CUT_END_HEIGHT, 1.0);
  add (self, self->run / 2.0, (start + end) / 2.0,
       (CavHandle){
           .kind = CAV_HANDLE_MOVE,
           .direction = turn (&self->frame, 0.0, 1.0),
           .n_numbers = 2,
           .numbers = { CAV_CUT_START_HEIGHT, CAV_CUT_END_HEIGHT },
           .rate = { 1.0, 1.0 },
       });
}

double
cav_handle_get_value (const CavCut *cut, CavCutNumber number)
{
  double depth = cut->numbers[CAV_CUT_QUIRK_DEPTH];

  if (number == CAV_CUT_QUIRK_DEPTH)
    return depth > 0.0 ? depth : cut->numbers[CAV_CUT_WIDTH] / 2.0;
  return cut->numbers[number];
}

static void
add_bead (Builder *self)
{
  const double *n = self->cut->numbers;
  double r = n[CAV_CUT_WIDTH] / 2.0;
  double quirk = n[CAV_CUT_QUIRK_WIDTH];
  double depth = cav_handle_get_value (self->cut, CAV_CUT_QUIRK_DEPTH);
  gboolean corner = self->cut->anchor == CAV_ANCHOR_CORNER;
  double middle = corner ? r : n[CAV_CUT_POSITION];
  double out = middle + r + quirk;

  if (corner)
    add_number (self, 2.0 * r, r, 1.0, 0.0, CAV_CUT_WIDTH, 1.0);
  else
    {
      add_edge (self, middle - r, r, -1.0);
      add_edge (self, middle + r, r, 1.0);
    }
  add_number (self, out, depth / 2.0, 1.0, 0.0, CAV_CUT_QUIRK_WIDTH, 1.0);
  add_number (self, out - quirk / 2.0, depth, 0.0, 1.0, CAV_CUT_QUIRK_DEPTH, 1.0);
  if (corner)
    add_corner_move (self, r, r);
  else
    add_side_moves (self, middle, r);
}

static void
add_drawn (Builder *self)
{
  const CavPath *path = self->cut->path;
  CavBox box;

  if (path == NULL || cav_path_get_segment_count (path) == 0)
    return;
  for (guint i = 0; i < cav_path_get_segment_count (path); i++)
    {
      CavPoint point = cav_path_edit_get_point (path, i);

      add (self, point.x, point.y, (CavHandle){ .kind = CAV_HANDLE_POINT, .index = i });
    }
  for (guint i = 0; i < cav_path_get_segment_count (path); i++)
    {
      const CavSegment *segment = cav_path_get_segment (path, i);
      CavPoint middle = cav_segment_point_at (segment, 0.5);
      double dx = segment->to.x - segment->from.x;
      double dy = segment->to.y - segment->from.y;
      double chord = hypot (dx, dy);
      CavHandle handle = { .kind = CAV_HANDLE_BULGE, .index = i };

      if (chord > 0.0)
        handle.direction = CAV_POINT (dy / chord, -dx / chord);
      add (self, middle.x, middle.y, handle);
    }
  box = cav_path_get_bounds (path);
  add (self, (box.x0 + box.x1) / 2.0, (box.y0 + box.y1) / 2.0,
       (CavHandle){ .kind = CAV_HANDLE_MOVE });
}

GArray *
cav_handle_list_new (const CavCut *cut, const CavBlank *blank)
{
  Builder builder;
  double width, depth;

  g_return_val_if_fail (cut != NULL, NULL);
  g_return_val_if_fail (blank != NULL, NULL);

  builder = (Builder){
    .cut = cut,
    .frame = cav_cut_get_frame (cut, blank),
    .run = cav_cut_get_run (cut, blank),
    .handles = g_array_new (FALSE, TRUE, sizeof (CavHandle)),
  };
  width = cut->numbers[CAV_CUT_WIDTH];
  depth = cut->numbers[CAV_CUT_DEPTH];
  switch (cut->kind)
    {
    case CAV_CUT_RABBET:
      add_rabbet (&builder, width, depth);
      break;
    case CAV_CUT_STEPS:
      add_steps (&builder);
      break;
    case CAV_CUT_GROOVE:
      add_groove (&builder, width, depth);
      break;
    case CAV_CUT_COVE:
      add_cove (&builder, width, depth);
      break;
    case CAV_CUT_ROUND:
      add_round (&builder, width, depth);
      break;
    case CAV_CUT_CHAMFER:
      add_chamfer (&builder, width, depth);
      break;
    case CAV_CUT_BEVEL:
      add_bevel (&builder);
      break;
    case CAV_CUT_BEAD:
      add_bead (&builder);
      break;
    case CAV_CUT_OGEE:
      add_ogee (&builder, width, depth);
      break;
    case CAV_CUT_DRAWN:
      add_drawn (&builder);
      break;
    }
  return builder.handles;
}

int
cav_handle_find (const GArray *handles, CavPoint point, double tolerance)
{
  double least = tolerance;
  int found = -1;

  g_return_val_if_fail (handles != NULL, -1);

  for (guint i = 0; i < handles->len; i++)
    {
      double distance = cav_point_distance (g_array_index (handles, CavHandle, i).point, point);

      if (distance > least || (found >= 0 && distance >= least))
        continue;
      least = distance;
      found = (int)i;
    }
  return found;
}
