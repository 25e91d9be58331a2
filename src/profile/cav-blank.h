/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "geometry/cav-region.h"

G_BEGIN_DECLS

/*
 * The squared strip that a rail is milled from. Its section stands in 0 <= x <= width,
 * 0 <= y <= thickness; x runs from the inside (sight edge) to the outside, y from the back
 * (toward the wall) to the face.
 */
typedef struct
{
  double width;
  double thickness;
} CavBlank;

typedef enum
{
  CAV_SIDE_BACK,
  CAV_SIDE_FACE,
  CAV_SIDE_INSIDE,
  CAV_SIDE_OUTSIDE,
} CavSide;
#define CAV_N_SIDES 4

typedef enum
{
  CAV_CORNER_BACK_INSIDE,
  CAV_CORNER_BACK_OUTSIDE,
  CAV_CORNER_FACE_INSIDE,
  CAV_CORNER_FACE_OUTSIDE,
} CavCorner;
#define CAV_N_CORNERS 4

/* Least and greatest width and thickness that a blank may have. */
#define CAV_BLANK_MIN 1.0
#define CAV_BLANK_MAX 500.0

/* The words that stand in files: "back", "face", "inside", "outside"; corners "back-inside" ... */
const char *cav_side_to_string (CavSide side);
gboolean cav_side_from_string (const char *string, CavSide *out_side);
const char *cav_corner_to_string (CavCorner corner);
gboolean cav_corner_from_string (const char *string, CavCorner *out_corner);

/* The same for people, as they stand within a sentence, in their language. */
const char *cav_side_get_word (CavSide side);
const char *cav_corner_get_word (CavCorner corner);

/* FALSE with CAV_PROFILE_ERROR_RANGE (cav-cut.h) where a size is not one. */
gboolean cav_blank_check (const CavBlank *blank, GError **error);

/* The blank as a region; empty where a size is not one. */
CavRegion *cav_blank_create_region (const CavBlank *blank) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
