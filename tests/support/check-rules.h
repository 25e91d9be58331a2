/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "check-section.h"

G_BEGIN_DECLS

/* The rules of a pass. Slacks are those of the raster, not of the model: half a row, the span
 * that counts as nothing, and rounding of figures to four decimals. */

#define CHECK_GOUGE 0.02
#define CHECK_GOUGE_SLACK 0.005
#define CHECK_LENGTH_SLACK 0.01 /* lands, heights and gaps: one row */
#define CHECK_PLACE_SLACK 0.02  /* a piece against the tool's middle: a slanted edge in a row */
#define CHECK_DUST 0.3
#define CHECK_DUST_SLACK 0.02 /* a pixel */
#define CHECK_AREA_SLACK 0.1  /* mm²: half a row of a wide face */
#define CHECK_PILOT_ASIDE 0.025

/* Deepest that the sweep enters the profile. */
double check_gouge (const CheckPlan *plan,
                    CheckReport *report,
                    int number,
                    const CheckSection *profile,
                    const CheckSection *sweep);
/* Steps, tilt, angle, heights, what may stand at u < 0, speed. */
void check_settings (const CheckPlan *plan,
                     CheckReport *report,
                     const CheckSetup *setup,
                     const CheckTool *tool,
                     const CheckPass *pass,
                     int number);
/* Rules 2 and 3 of one section; warn where it is only what stands without thin webs. */
void check_support (const CheckPlan *plan,
                    CheckReport *report,
                    const CheckPass *pass,
                    int number,
                    const char *when,
                    const CheckSection *section,
                    gboolean warn);
/* How far the piece lies beyond the tool's middle; negative where part of it does not. */
double check_piece_beyond (const CheckPlan *plan,
                           const CheckSetup *setup,
                           const CheckTool *tool,
                           const CheckPass *pass,
                           const CheckSection *piece);
/* The gap at the fence and the lean. */
void check_blade_may_sever (const CheckPlan *plan,
                            CheckReport *report,
                            const CheckSetup *setup,
                            const CheckTool *tool,
                            const CheckPass *pass,
                            int number);
void check_feed (const CheckPlan *plan,
                 CheckReport *report,
                 const CheckPass *pass,
                 int number,
                 const CheckSection *taken);
/* Thickest layer, measured upward. */
double check_layer (const CheckPlan *plan, const CheckPass *pass, const CheckSection *taken);
void check_bite (CheckReport *report,
                 const CheckSetup *setup,
                 const CheckTool *tool,
                 const CheckPass *pass,
                 int number,
                 double chips,
                 double layer,
                 double cove_layer);
void check_pilot (const CheckPlan *plan,
                  CheckReport *report,
                  const CheckTool *tool,
                  const CheckPass *pass,
                  int number,
                  const CheckSection *rest);
/* What of the rail is held without counting on webs thinner than 0.5, that is all where the
 * profile itself has none of them; warns where waste hangs on such a web. */
CheckSection *check_strong_part (const CheckPlan *plan,
                                 CheckReport *report,
                                 int number,
                                 const CheckSection *rail,
                                 const CheckSection *profile) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
