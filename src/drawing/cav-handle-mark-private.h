/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "drawing/cav-pen-private.h"
#include "project/cav-handle.h"

G_BEGIN_DECLS

typedef enum
{
  CAV_HANDLE_MARK_HOVERED = 1 << 0, /* filled with the pencil */
  CAV_HANDLE_MARK_HELD = 1 << 1,    /* filled, larger */
  CAV_HANDLE_MARK_FOCUSED = 1 << 2, /* ringed */
} CavHandleMarkState;

/*
 * The shape of a handle says what it does: two arrowheads along the way it goes for one number, a
 * diamond for two, four arrowheads for the whole cut, a square for a point of a path, a disc with
 * a bow for the bulge of a segment.
 */
void cav_handle_mark_draw (CavPen *pen, const CavHandle *handle, CavPoint at, guint state);

G_END_DECLS
