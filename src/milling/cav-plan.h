/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "profile/cav-finding.h"
#include "profile/cav-profile.h"
#include "shop/cav-shop.h"

G_BEGIN_DECLS

typedef enum
{
  CAV_MACHINE_SAW,    /* blade upright or tilted */
  CAV_MACHINE_COVE,   /* blade crossed at an angle */
  CAV_MACHINE_ROUTER, /* router table */
} CavMachine;

/* Cautions of a pass: shown, not forbidden. One bit each; the rules stand in cav-caution.c. */
typedef enum
{
  CAV_CAUTION_THIN_WALL = 1 << 0,    /* under 2 mm between a fresh cut and air that the profile
                                        does not ask for */
  CAV_CAUTION_SMALL_RAIL = 1 << 1,   /* under 20 mm both ways, at the router table */
  CAV_CAUTION_SHORT_RAIL = 1 << 2,   /* a rail under 300 mm */
  CAV_CAUTION_LARGE_CUTTER = 1 << 3, /* over 25 mm in diameter */
  CAV_CAUTION_COVING = 1 << 4,       /* no guard, no riving knife */
  CAV_CAUTION_HIDDEN_BLADE = 1 << 5, /* blade or cutter does not come out of the wood */
  CAV_CAUTION_ALTERNATE = 1 << 6,    /* ridges in a kerf's bottom */
  CAV_CAUTION_FEATHERBOARD = 1 << 7, /* held at the fence against tipping */
  CAV_CAUTION_SACRIFICIAL = 1 << 8,  /* the tool stands in the fence, or may touch it */
  CAV_CAUTION_SEVERS = 1 << 9,       /* a piece comes off: push block, stand aside */
} CavCaution;
#define CAV_N_CAUTIONS 10

/* One feed of every rail past the tool. fence and height as milling-model coordinates have them:
 * u from the fence, v above the table; fence to the near face of a blade, to the axis of a cutter,
 * to the middle of a cove; height of the highest tooth, of the crown, of the cutter's tip. */
typedef struct
{
  CavSide down;
  CavSide against;
  double fence;
  double height;
  double removes; /* chips, mm² */
  double bite;    /* thickest layer taken, measured upward, mm */
  gboolean sacrificial;
  gboolean severs;     /* a piece comes off the rail */
  gboolean frees_rail; /* the rail itself falls free of its carrier */
  guint cautions;      /* CavCaution bits */
  CavRegion *before;   /* the rail in the prepared blank's coordinates */
  CavRegion *after;
  CavRegion *swept; /* all that the tool passes through, clipped to nothing */
} CavPass;

/* Passes that share machine, tool and tilt or angle. */
typedef struct
{
  CavMachine machine;
  char *tool;          /* id of a blade or cutter in the plan's shop */
  double tilt;         /* saw; positive leans away from the fence */
  double angle;        /* cove */
  double minutes;      /* of the setup itself, without passes, moves and turns */
  gboolean tool_stays; /* blade or cutter is still in from before */
  GPtrArray *passes;   /* CavPass */
} CavSetup;

/* A stretch of leftover thicker than the limit. */
typedef struct
{
  CavPoint place;
  double thickness;
  char *reason; /* in the plan file, in English, e.g. "no tool reaches" */
  char *advice; /* a sentence for people: what would reach it */
} CavLeftoverPlace;

/* An ordered sequence of passes, proved by simulation. Immutable once made; reference counted. */
typedef struct
{
  int ref_count;
  CavBlank blank;        /* to prepare, with carrier */
  double carrier_inside; /* width that was added on that side */
  double carrier_outside;
  CavRegion *profile; /* in the prepared blank's coordinates */
  CavShop *shop;      /* copy of the shop that it was planned for */
  int rails;
  double length;     /* of all rails together, mm */
  GPtrArray *setups; /* CavSetup */
  double leftover_area;
  double leftover_thickness;
  GPtrArray *places;   /* CavLeftoverPlace */
  CavRegion *leftover; /* the final rail minus the profile */
  double minutes;      /* total */
  double minutes_setups;
  double minutes_passes;
  double minutes_hand;
  double gouge;        /* deepest, at most 0.02 */
  gboolean usable;     /* proved; FALSE only where nothing could be proved at all */
  GPtrArray *findings; /* CavFinding */
} CavPlan;

CavPlan *cav_plan_ref (CavPlan *plan);
void cav_plan_unref (CavPlan *plan);
guint cav_plan_get_pass_count (const CavPlan *plan);

const char *cav_machine_to_string (CavMachine machine);

/* How people measure the fence at that machine. */
typedef enum
{
  CAV_MEASURE_FENCE_TO_TOOTH,  /* saw: fence to the blade's near tooth, at the table */
  CAV_MEASURE_BLADE_IN_FENCE,  /* saw: how much of the kerf shows beyond a sacrificial fence */
  CAV_MEASURE_FENCE_TO_MIDDLE, /* coving: fence to the middle of the cove, square to the fence */
  CAV_MEASURE_CUTTER_SHOWS,    /* router: what shows of the cutter beyond the fence */
  CAV_MEASURE_FENCE_TO_CUTTER, /* router: gap from fence to cutter */
} CavMeasure;

/* The figure to set at the machine, mm, never negative. The cutter is measured at its widest
 * part above the table. */
CavMeasure cav_pass_get_measure (const CavPlan *plan,
                                 const CavSetup *setup,
                                 const CavPass *pass,
                                 double *out_figure);

/* Words and sentences for people. */
const char *cav_caution_get_sentence (CavCaution caution);
const char *cav_measure_get_label (CavMeasure measure);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CavPlan, cav_plan_unref)

G_END_DECLS
