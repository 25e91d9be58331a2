/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "geometry/cav-path.h"

G_BEGIN_DECLS

typedef enum
{
  CAV_CUTTER_STRAIGHT,
  CAV_CUTTER_ROUND_NOSE,
  CAV_CUTTER_COVE,
  CAV_CUTTER_ROUND_OVER,
  CAV_CUTTER_BEAD,
  CAV_CUTTER_OGEE,
  CAV_CUTTER_CHAMFER,
  CAV_CUTTER_VEE,
  CAV_CUTTER_DOVETAIL,
  CAV_CUTTER_LARGE_COVE, /* cuts a wide hollow beside its axis */
  CAV_CUTTER_DRAWN,      /* by its silhouette alone */
} CavCutterFamily;
#define CAV_N_CUTTER_FAMILIES 11

/* The numbers that families are made from. */
typedef enum
{
  CAV_CUTTER_DIAMETER,       /* of a dovetail at its tip, else the greatest */
  CAV_CUTTER_RADIUS,         /* of the curve */
  CAV_CUTTER_CUTTING_LENGTH, /* from the tip down */
  CAV_CUTTER_ANGLE, /* degrees: chamfer from the axis, vee included, dovetail from the axis */
  CAV_CUTTER_TIP_DIAMETER, /* of the flat or of the pilot's seat at the tip */
  CAV_CUTTER_WIDTH,        /* of the hollow of a large cove cutter, along the axis */
  CAV_CUTTER_DEPTH,        /* of the same, across */
} CavCutterNumber;
#define CAV_N_CUTTER_NUMBERS 7

/* Radius r of the cutter at depth z below its tip. */
typedef struct
{
  double r;
  double z;
} CavSilhouettePoint;

/*
 * A router cutter, tip up as it stands in the table. The outline runs from the tip (z = 0) to the
 * end of the cutting length, z never decreasing (two points with equal z are a step); it is exact
 * (lines and arcs) in outline, a path whose x is r and whose y is -z, and as chords within 0.005
 * in silhouette. A pilot bearing stands above the tip.
 */
typedef struct
{
  char *id; /* unique in the shop, letters, digits, '-', '.', '_' */
  char *name;
  CavCutterFamily family;
  double numbers[CAV_N_CUTTER_NUMBERS]; /* those a family does not have are 0 */
  double length;                        /* cutting length, the silhouette's last z */
  double shank;                         /* diameter of the shank; 0: not known, taken to fit */
  double bite;                          /* most chips of one pass, mm² */
  double speed;                         /* marked greatest speed, 1/min */
  gboolean has_pilot;
  double pilot_radius;
  double pilot_length;
  CavPath *outline;
  GArray *silhouette; /* CavSilhouettePoint */
} CavCutter;

typedef struct
{
  CavCutterNumber number;
  const char *name;
  const char *label;
  double minimum;
  double maximum;
  double usual;
} CavCutterNumberInfo;

typedef struct
{
  CavCutterFamily family;
  const char *name;  /* in files */
  const char *label; /* for people, untranslated */
  const CavCutterNumberInfo *numbers;
  guint n_numbers;
} CavCutterFamilyInfo;

const CavCutterFamilyInfo *cav_cutter_family_get_info (CavCutterFamily family);
gboolean cav_cutter_family_from_string (const char *string, CavCutterFamily *out_family);

/* A cutter of a family from its numbers (array of CAV_N_CUTTER_NUMBERS); bite and speed get usual
 * values for its size. Errors: CAV_SHOP_ERROR. */
CavCutter *cav_cutter_new (const char *id,
                           CavCutterFamily family,
                           const double *numbers,
                           GError **error) G_GNUC_WARN_UNUSED_RESULT;
/* A cutter by its silhouette. */
CavCutter *cav_cutter_new_drawn (const char *id,
                                 const CavSilhouettePoint *points,
                                 guint n_points,
                                 GError **error) G_GNUC_WARN_UNUSED_RESULT;
CavCutter *cav_cutter_copy (const CavCutter *cutter) G_GNUC_WARN_UNUSED_RESULT;
void cav_cutter_free (CavCutter *cutter);
/* Puts a bearing above the tip; 0 for either takes it off. */
void cav_cutter_set_pilot (CavCutter *cutter, double radius, double length);
double cav_cutter_get_greatest_radius (const CavCutter *cutter);
/* Greatest radius at depth z (the wider one at a step); 0 <= z <= length. */
double cav_cutter_get_radius_at (const CavCutter *cutter, double z);
/* The same at n depths, (share + i) times spacing. */
void cav_cutter_sample_radii (
    const CavCutter *cutter, double share, double spacing, int n, double *out_radii);
/* TRUE where r never falls with z. */
gboolean cav_cutter_widens (const CavCutter *cutter);

typedef enum
{
  CAV_SHOP_ERROR_RANGE = 1,
  CAV_SHOP_ERROR_SILHOUETTE,
  CAV_SHOP_ERROR_DUPLICATE,
  CAV_SHOP_ERROR_UNKNOWN,
} CavShopError;
#define CAV_SHOP_ERROR (cav_shop_error_quark ())
GQuark cav_shop_error_quark (void);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CavCutter, cav_cutter_free)

G_END_DECLS
