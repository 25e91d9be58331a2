/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "frame/cav-frame-settings.h"

G_BEGIN_DECLS

/*
 * Sheets that packages are made of. Densities in kg/m³: soda-lime glass 2500 by EN 572-1 and cast
 * acrylic 1190 (ISO 7823-1 describes the sheet), both recalled from memory; the others are middle
 * values of common practice, no source.
 */
#define CAV_DENSITY_GLASS 2500.0
#define CAV_DENSITY_ACRYLIC 1190.0
#define CAV_DENSITY_CARD 700.0
#define CAV_DENSITY_FOAM 130.0
#define CAV_DENSITY_HARDBOARD 900.0
#define CAV_DENSITY_PLYWOOD 600.0
/* A 4-ply board of 1.5 mm weighs about 1 kg/m². */
#define CAV_DENSITY_MAT 667.0

/* 0 where there is none. */
double cav_glazing_get_density (CavGlazing glazing);
double cav_backing_get_density (CavBacking backing);
/* Usual thickness, mm; 0 where there is none. */
double cav_backing_get_thickness (CavBacking backing);
/* Thickness of mat board of 2, 4, 6 or 8 plies: 0.8, 1.5, 2.3, 3.0 mm (the trade says 1/32, 1/16,
 * 3/32 and 1/8 in; metric figures are common practice, no source). 0 for another number. */
double cav_mat_get_thickness (int ply);

G_END_DECLS
