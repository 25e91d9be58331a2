/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "profile/cav-cut.h"

G_BEGIN_DECLS

/*
 * What a cut can be taken hold of by. Pure geometry: a cut and a handle go in with the point to
 * which the handle is dragged, and the cut comes out as it would then be.
 */
typedef enum
{
  CAV_HANDLE_MOVE,   /* the whole cut */
  CAV_HANDLE_NUMBER, /* one number, or a side of the cut while the other side stays */
  CAV_HANDLE_SIZE,   /* two numbers at once, freely */
  CAV_HANDLE_POINT,  /* a point of a drawn path */
  CAV_HANDLE_BULGE,  /* the middle of a segment of a drawn path */
} CavHandleKind;

typedef struct
{
  CavHandleKind kind;
  CavPoint point;     /* where it lies, in the blank's coordinates */
  CavPoint direction; /* of length 1: moves along this and back; (0, 0): freely */
  guint n_numbers;    /* how many numbers it changes; the first is the one to show and type */
  CavCutNumber numbers[2];
  double rate[2]; /* change of each number for each mm along direction; for a handle that moves
                     freely: of the first along x, of the second along y */
  guint index;    /* of a path's point or segment */
} CavHandle;

/* (transfer full) CavHandle, the one that moves the whole cut last: what lies nearer to a pointer
 * and comes first is meant. */
GArray *cav_handle_list_new (const CavCut *cut, const CavBlank *blank) G_GNUC_WARN_UNUSED_RESULT;
/* The index of the handle that a pointer means: the nearest within tolerance (mm), the earlier one
 * where two are equally near; -1 where there is none. */
int cav_handle_find (const GArray *handles, CavPoint point, double tolerance);
/*
 * (transfer full) The cut with the handle dragged to point; cut and handle as they were before.
 * Numbers are kept in the range of their kind. A cut at a corner that is moved over the middle of
 * the blank stands at another corner; one on a side jumps to the side over which the pointer left
 * the blank. Neither is moved out over the edge that it stands on.
 */
CavCut *cav_handle_drag (const CavCut *cut,
                         const CavHandle *handle,
                         const CavBlank *blank,
                         CavPoint point) G_GNUC_WARN_UNUSED_RESULT;
/* Sets a number as typed while a handle is dragged: the handle's other number follows, so that the
 * far edge stays. The value is kept in range. (transfer full) */
CavCut *cav_handle_type (const CavCut *cut,
                         const CavHandle *handle,
                         const CavBlank *blank,
                         double value) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
