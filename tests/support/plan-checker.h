/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <glib.h>

#include "milling/cav-plan.h"

G_BEGIN_DECLS

/*
 * The second simulator: a plain reading of the milling model that shares no code with the
 * planner. Sections are rows of exact spans on a ruling that has a line at every corner of every
 * outline; sweeps are polygons made from the formulas of the model. A plan is given by a struct of
 * its own, filled from a CavPlan or from a plan file.
 *
 * Units: mm, degrees, mm², minutes. Where the model can be read in two ways, the reading that is
 * taken stands beside the check.
 */

typedef struct
{
  double x;
  double y;
} CheckPoint;

typedef enum
{
  CHECK_SIDE_BACK,
  CHECK_SIDE_FACE,
  CHECK_SIDE_INSIDE,
  CHECK_SIDE_OUTSIDE,
  CHECK_N_SIDES,
} CheckSide;

typedef enum
{
  CHECK_MACHINE_SAW,
  CHECK_MACHINE_COVE,
  CHECK_MACHINE_ROUTER,
  CHECK_N_MACHINES,
} CheckMachine;

typedef struct
{
  char *id;
  gboolean is_cutter;
  double bite;
  /* blade */
  double diameter;
  double kerf;
  double height;
  double tilt;
  /* cutter */
  double length;
  double speed;
  double pilot_radius; /* 0: no pilot */
  double pilot_length;
  GArray *silhouette; /* CheckPoint: x is r, y is z */
} CheckTool;

typedef struct
{
  CheckSide down;
  CheckSide against;
  double fence;
  double height;
  double removes;
} CheckPass;

typedef struct
{
  CheckMachine machine;
  char *tool;
  double tilt;
  double angle;
  GArray *passes; /* CheckPass */
} CheckSetup;

typedef struct
{
  double x;
  double y;
  double thickness;
} CheckPlace;

typedef struct
{
  double saw_setup;
  double tilt_setup;
  double cove_setup;
  double blade_change;
  double router_setup;
  double router_return;
  double turn;
  double move;
  double metre;
  double cove_metre;
  double rail;
  double scrape_metre;
  double hand_volume;
  double hand_surface;
} CheckRates;

/* What a plan file holds; rates and limits start as the model has them. */
typedef struct
{
  double width;
  double thickness;
  int rails;
  double length;
  double step;
  double push_gap;
  double cove_layer;
  CheckRates rates;
  GPtrArray *profile; /* rings, each a GArray of CheckPoint; even-odd */
  GPtrArray *tools;   /* CheckTool */
  GPtrArray *setups;  /* CheckSetup */
  double leftover_area;
  double leftover_thickness;
  double leftover_limit;
  GArray *places; /* CheckPlace */
  double minutes;
  double minutes_setups;
  double minutes_passes;
  double minutes_hand;
} CheckPlan;

typedef enum
{
  CHECK_RULE_PLAN, /* something that cannot be read as a plan at all */
  CHECK_RULE_SETTING,
  CHECK_RULE_GOUGE,
  CHECK_RULE_TABLE,
  CHECK_RULE_FENCE,
  CHECK_RULE_SEVERED,
  CHECK_RULE_FEED,
  CHECK_RULE_BITE,
  CHECK_RULE_SPEED,
  CHECK_RULE_PILOT,
  CHECK_RULE_CHIPS,
  CHECK_RULE_LEFTOVER,
  CHECK_RULE_MINUTES,
  CHECK_RULE_WEB, /* warnings only */
  CHECK_N_RULES,
} CheckRule;

typedef struct
{
  CheckRule rule;
  int pass;      /* counted through the plan from 1; 0: the plan as a whole */
  char *message; /* a sentence with figures */
} CheckViolation;

/* What the checker found a pass to do. */
typedef struct
{
  double chips;
  double layer; /* thickest, measured upward */
  double gouge;
  double severed;  /* area of what came off, dust too */
  gboolean severs; /* more than dust came off */
  gboolean frees_rail;
} CheckPassFigures;

typedef struct
{
  GPtrArray *violations; /* CheckViolation */
  GPtrArray *warnings;   /* CheckViolation: legal as written, but on uncertain ground */
  GArray *passes;        /* CheckPassFigures */
  double gouge;          /* deepest */
  double blank_area;
  double profile_area;
  double chips;
  double severed; /* without the carrier that a freed rail leaves, which is counted too */
  double leftover_area;
  double leftover_thickness;
  double hand_outline;       /* mm of outline under more than 0.3 mm of leftover */
  double hand_outline_least; /* the same under a little more, */
  double hand_outline_most;  /* and under a little less */
  double minutes;
  double minutes_setups;
  double minutes_passes;
  double minutes_hand;
} CheckReport;

CheckPlan *check_plan_new (void) G_GNUC_WARN_UNUSED_RESULT;
void check_plan_free (CheckPlan *plan);
/* Tools and setups are owned by the plan and may be filled further. */
CheckTool *check_plan_add_blade (CheckPlan *plan, const char *id, double diameter, double kerf);
/* r and z of the silhouette one after the other. */
CheckTool *
check_plan_add_cutter (CheckPlan *plan, const char *id, const double *silhouette, guint n_points);
CheckSetup *check_plan_add_setup (CheckPlan *plan, CheckMachine machine, const char *tool);
void check_setup_add_pass (
    CheckSetup *setup, CheckSide down, CheckSide against, double fence, double height);
void check_plan_add_ring (CheckPlan *plan, const double *xy, guint n_points);
const CheckTool *check_plan_find_tool (const CheckPlan *plan, const char *id);

CheckPlan *check_plan_from_plan (const CavPlan *source) G_GNUC_WARN_UNUSED_RESULT;
CheckPlan *check_plan_from_file (const char *file_name, GError **error) G_GNUC_WARN_UNUSED_RESULT;

CheckReport *check_plan_run (const CheckPlan *plan) G_GNUC_WARN_UNUSED_RESULT;
void check_report_free (CheckReport *report);
/* TRUE where that rule is broken; pass 0: anywhere. */
gboolean check_report_breaks (const CheckReport *report, CheckRule rule, int pass);
/* All violations, one a line. (transfer full) */
char *check_report_to_string (const CheckReport *report);
/* Overwrites what the plan claims (chips, leftover, minutes) with what a run found. */
void check_plan_claim (CheckPlan *plan, const CheckReport *report);
/* Minutes by the cost table; hand work from the figures in report. */
void check_minutes (const CheckPlan *plan, CheckReport *report);

const char *check_rule_to_string (CheckRule rule);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CheckPlan, check_plan_free)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (CheckReport, check_report_free)

G_END_DECLS
