/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "geometry/cav-path.h"
#include "storage/cav-storage.h"

G_BEGIN_DECLS

/*
 * Gathers the outlines of a picture, each as it is drawn: commands come in the picture's user
 * units, segments go out in millimetres. Curves become lines and arcs.
 */

/* Most segments that one outline may have; also of a drawn cut in a project. */
#define CAV_OUTLINE_MAX_SEGMENTS 20000
/* How far apart the ends of a closed outline may be, mm: rounding of a drawing program. */
#define CAV_OUTLINE_CLOSE 0.01

typedef struct
{
  GArray *segments; /* CavSegment, each from where the one before ends */
  gboolean closed;
  int line; /* of the file */
} CavOutline;

typedef struct
{
  /* State */
  CavTransform transform; /* user units to millimetres */
  CavPoint start;         /* of the outline that is being drawn, user units */
  CavPoint point;         /* where the pen is */
  int line;               /* of the file */
  /* Owned */
  GPtrArray *outlines; /* CavOutline, finished ones */
  CavOutline *current; /* nullable */
} CavOutlineBuilder;

void cav_outline_builder_init (CavOutlineBuilder *builder);
void cav_outline_builder_clear (CavOutlineBuilder *builder);

/* Each ends the outline before it; one of which nothing but the start was given is dropped. */
void cav_outline_builder_move_to (CavOutlineBuilder *builder, CavPoint point);
void cav_outline_builder_finish (CavOutlineBuilder *builder);

/* FALSE with an error, without a place, where the outline has too many segments or leaves the
 * range of coordinates. */
gboolean cav_outline_builder_line_to (CavOutlineBuilder *builder, CavPoint point, GError **error);
gboolean cav_outline_builder_curve_to (CavOutlineBuilder *builder,
                                       CavPoint control1,
                                       CavPoint control2,
                                       CavPoint point,
                                       GError **error);
gboolean cav_outline_builder_arc_to (CavOutlineBuilder *builder,
                                     double rx,
                                     double ry,
                                     double rotation,
                                     gboolean large,
                                     gboolean sweep,
                                     CavPoint point,
                                     GError **error);
gboolean cav_outline_builder_close (CavOutlineBuilder *builder, GError **error);

/* How far the end is from the start, mm; out_end says where the outline ends. */
double cav_outline_get_gap (const CavOutline *outline, CavPoint *out_end);
/* (transfer full) The outline as a closed path. */
CavPath *cav_outline_create_path (const CavOutline *outline) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
