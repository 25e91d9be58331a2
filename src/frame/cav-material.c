/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "frame/cav-material.h"

double
cav_glazing_get_density (CavGlazing glazing)
{
  switch (glazing)
    {
    case CAV_GLAZING_GLASS:
      return CAV_DENSITY_GLASS;
    case CAV_GLAZING_ACRYLIC:
      return CAV_DENSITY_ACRYLIC;
    case CAV_GLAZING_NONE:
      break;
    }
  return 0.0;
}

typedef struct
{
  double density;
  double thickness;
} Board;

static const Board boards[] = {
  [CAV_BACKING_NONE] = { 0.0, 0.0 },
  [CAV_BACKING_CARD] = { CAV_DENSITY_CARD, 1.5 },
  [CAV_BACKING_FOAM] = { CAV_DENSITY_FOAM, 5.0 },
  [CAV_BACKING_HARDBOARD] = { CAV_DENSITY_HARDBOARD, 2.5 },
  [CAV_BACKING_PLYWOOD] = { CAV_DENSITY_PLYWOOD, 4.0 },
};

double
cav_backing_get_density (CavBacking backing)
{
  return backing < G_N_ELEMENTS (boards) ? boards[backing].density : 0.0;
}

double
cav_backing_get_thickness (CavBacking backing)
{
  return backing < G_N_ELEMENTS (boards) ? boards[backing].thickness : 0.0;
}

double
cav_mat_get_thickness (int ply)
{
  switch (ply)
    {
    case 2:
      return 0.8;
    case 4:
      return 1.5;
    case 6:
      return 2.3;
    case 8:
      return 3.0;
    default:
      return 0.0;
    }
}
