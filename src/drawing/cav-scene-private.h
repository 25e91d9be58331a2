/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "drawing/cav-scene.h"

G_BEGIN_DECLS

typedef enum
{
  CAV_ITEM_PATH,
  CAV_ITEM_GRADIENT,
  CAV_ITEM_IMAGE,
  CAV_ITEM_TEXT,
  CAV_ITEM_LAYER,
  CAV_ITEM_END_LAYER,
  CAV_ITEM_CLIP,
  CAV_ITEM_END_CLIP,
} CavItemKind;

typedef struct
{
  CavItemKind kind;
  GPtrArray *paths; /* CavPath, of a path or a clip */
  CavStyleName style;
  char *text;  /* of a text; of a layer its id */
  char *title; /* (nullable) of a layer */
  char *description;
  CavPoint point;           /* of a text; where a gradient begins */
  CavPoint end;             /* where it ends */
  GArray *stops;            /* CavStop, of a gradient */
  cairo_surface_t *surface; /* of an image */
  CavTextStyle text_style;
  CavBox box; /* of a text or an image */
} CavItem;

struct _CavScene
{
  double width;
  double height;
  char *title;
  char *description;
  CavLettering *lettering;
  GPtrArray *items; /* CavItem */
  GPtrArray *texts; /* those of them that are texts (borrowed) */
  CavItem *number;  /* (nullable) that of them which is the page's number (borrowed) */
  gboolean short_number;
};

G_END_DECLS
