/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "geometry/cav-point.h"

G_BEGIN_DECLS

typedef enum
{
  CAV_GRIND_FLAT,      /* leaves a flat bottom */
  CAV_GRIND_ALTERNATE, /* alternate bevels: ridges in the bottom of a kerf */
} CavGrind;

/* A saw blade, or a grooving head set to one width. */
typedef struct
{
  char *id; /* unique in the shop, letters, digits, '-', '.', '_' */
  char *name;
  double diameter;
  double kerf;
  double height; /* greatest above the table, upright */
  double tilt;   /* greatest, degrees; 0 for a grooving head */
  double bite;   /* most chips of one pass, mm² */
  CavGrind grind;
} CavBlade;

CavBlade *cav_blade_new (const char *id, double diameter, double kerf) G_GNUC_WARN_UNUSED_RESULT;
CavBlade *cav_blade_copy (const CavBlade *blade) G_GNUC_WARN_UNUSED_RESULT;
void cav_blade_free (CavBlade *blade);
const char *cav_grind_to_string (CavGrind grind);
gboolean cav_grind_from_string (const char *string, CavGrind *out_grind);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CavBlade, cav_blade_free)

G_END_DECLS
