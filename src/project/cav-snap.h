/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "project/cav-handle.h"
#include "project/cav-project.h"

G_BEGIN_DECLS

typedef enum
{
  CAV_SNAP_NONE,
  CAV_SNAP_GRID,
  CAV_SNAP_BLANK_EDGE,
  CAV_SNAP_BLANK_MIDDLE,
  CAV_SNAP_BLANK_THIRD,
  CAV_SNAP_CUT_EDGE,
  CAV_SNAP_CUT_CENTRE,
  CAV_SNAP_CUTTER, /* a size that a cutter of the shop makes exactly */
} CavSnapKind;

/* What held a point, along one axis. */
typedef struct
{
  CavSnapKind kind;
  double value;  /* the x or y that holds; of a cutter: the number */
  CavPoint from; /* a line to show, in the blank's coordinates; not for a cutter */
  CavPoint to;
  char label[64]; /* short, for people: "grid", "edge of cove", a cutter's name */
} CavSnapHold;

typedef struct
{
  CavPoint point; /* where what was dragged has come to lie */
  CavSnapHold x;  /* what held it along x; NONE: nothing */
  CavSnapHold y;
  CavSnapHold size;      /* CUTTER, or NONE */
  const CavCutter *tool; /* (nullable) of the snapper's shop, while the snapper lives */
  CavTransform place;    /* from the tool's outline (x its radius, y up) to the blank: where the
                            cutter stands when it makes the cut */
} CavSnap;

/* Takes stock of a project once, at the begin of a drag; later changes do not reach it. */
typedef struct _CavSnapper CavSnapper;

/* (transfer full) skip: indices of the cuts that are being dragged. grid in mm, 0: none. */
CavSnapper *cav_snapper_new (CavProject *project, const guint *skip, guint n_skip, double grid)
    G_GNUC_WARN_UNUSED_RESULT;
void cav_snapper_free (CavSnapper *snapper);

/* Tolerances are mm, from pixels by the caller; 0 turns snapping off. Special places come before
 * the grid. */

/* A point that moves freely. */
CavPoint
cav_snapper_point (const CavSnapper *snapper, CavPoint point, double tolerance, CavSnap *out_snap);
/* (transfer full) Drags a handle as cav_handle_drag() does, settling where something holds: sizes
 * at cutters, edges, middles and the grid; a cut that is moved by any of its edges or its middle.
 */
CavCut *cav_snapper_drag (const CavSnapper *snapper,
                          const CavCut *cut,
                          const CavHandle *handle,
                          CavPoint point,
                          double tolerance,
                          CavSnap *out_snap) G_GNUC_WARN_UNUSED_RESULT;
/* How far several cuts together move: bounds is theirs before, delta what the pointer asks for. */
CavPoint cav_snapper_move (
    const CavSnapper *snapper, CavBox bounds, CavPoint delta, double tolerance, CavSnap *out_snap);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CavSnapper, cav_snapper_free)

G_END_DECLS
