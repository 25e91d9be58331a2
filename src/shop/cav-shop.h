/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "shop/cav-blade.h"
#include "shop/cav-cutter.h"

G_BEGIN_DECLS

/* Minutes of the plan's cost, all common practice without a source and the user's to change. */
typedef struct
{
  double saw_setup;     /* blade upright: 3 */
  double tilt_setup;    /* blade tilted: 6 */
  double cove_setup;    /* blade crossed at an angle: 12 */
  double blade_change;  /* 4 */
  double router_setup;  /* another cutter: 5 */
  double router_return; /* the cutter still in from the last router setup: 2 */
  double turn;          /* rails to other sides inside a setup: 1 */
  double move;          /* fence, height or both before a pass: 0.5 */
  double metre;         /* feed on saw and router, per metre: 1 / 3 */
  double cove_metre;    /* feed in coving, per metre: 1 */
  double rail;          /* each rail of a pass: 0.25 */
  double scrape_metre;  /* a coved hollow, per metre, once a setup: 1 */
  double hand_volume;   /* leftover by hand, per cm³: 0.25 */
  double hand_surface;  /* per metre and mm of outline under more than 0.3 mm: 0.1 */
} CavRates;

/* What a pass keeps to; the user's to change. */
typedef struct
{
  double step;        /* of fence and height: 0.05 */
  double leftover;    /* thickest left to hand work, square to the surface: 1.5 */
  double push_gap;    /* least room between fence and blade where something is severed: 20 */
  double cove_layer;  /* most taken upward in one coving pass: 1.6 */
  double light_layer; /* most of a last light pass on a surface that shows: 0.8 */
  double carrier;     /* widest carrier that the planner may add; 0: none */
} CavLimits;

/* Somebody's machines and tools. */
typedef struct
{
  char *name;
  gboolean has_saw;
  gboolean coving; /* crossing the blade at an angle is allowed */
  gboolean has_router;
  double collet;      /* largest shank, mm; 0: any */
  double opening;     /* widest cutter that passes the table, diameter; 0: any */
  GPtrArray *blades;  /* CavBlade */
  GPtrArray *cutters; /* CavCutter */
  CavRates rates;
  CavLimits limits;
  gboolean light_finish; /* every surface that shows ends with a light pass, even where that costs a
                            feed */
} CavShop;

void cav_rates_init_usual (CavRates *rates);
void cav_limits_init_usual (CavLimits *limits);

/* Without machines or tools, usual rates and limits; has_saw, coving and has_router TRUE,
 * light_finish FALSE. */
CavShop *cav_shop_new (void) G_GNUC_WARN_UNUSED_RESULT;
/* A hobby shop with a table saw, a router table and a drawer of cutters. */
CavShop *cav_shop_new_default (void) G_GNUC_WARN_UNUSED_RESULT;

/* Poorer and other shops: a saw with one blade alone; a router table with the default cutters
 * alone; a saw with one blade and three grooving heads. */
CavShop *cav_shop_new_saw_only (void) G_GNUC_WARN_UNUSED_RESULT;
CavShop *cav_shop_new_router_only (void) G_GNUC_WARN_UNUSED_RESULT;
CavShop *cav_shop_new_grooving (void) G_GNUC_WARN_UNUSED_RESULT;
/* The name of a shop or a tool for people: those above in their language, others as they are. */
const char *cav_shop_translate_name (const char *name);
CavShop *cav_shop_copy (const CavShop *shop) G_GNUC_WARN_UNUSED_RESULT;
void cav_shop_free (CavShop *shop);
/* The same machines, tools in the same order, rates and limits, to the last bit. */
gboolean cav_shop_equal (const CavShop *a, const CavShop *b);

/* (transfer full) tools. Errors: DUPLICATE where the id is taken, RANGE where the id or a number
 * of the tool cannot be (the tool is freed). */
gboolean cav_shop_add_blade (CavShop *shop, CavBlade *blade, GError **error);
gboolean cav_shop_add_cutter (CavShop *shop, CavCutter *cutter, GError **error);
CavBlade *cav_shop_find_blade (const CavShop *shop, const char *id);
CavCutter *cav_shop_find_cutter (const CavShop *shop, const char *id);

/* Highest speed of the router table for a cutter of this diameter, 1/min. */
double cav_shop_get_greatest_speed (double diameter);

/* In words why a tool cannot be used in this shop (machine missing, too large for the table,
 * marked speed... ), or NULL where it can. (transfer full) */
char *cav_shop_explain_cutter (const CavShop *shop, const CavCutter *cutter);
char *cav_shop_explain_blade (const CavShop *shop, const CavBlade *blade);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CavShop, cav_shop_free)

G_END_DECLS
