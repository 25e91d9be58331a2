/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "drawing/cav-palette.h"

G_BEGIN_DECLS

/* What a picture is looked at on: paper, or a screen by day or by night. */
typedef enum
{
  CAV_LIGHT_PAPER,
  CAV_LIGHT_DAY,
  CAV_LIGHT_NIGHT,
} CavLight;
#define CAV_N_LIGHTS (CAV_LIGHT_NIGHT + 1)

/*
 * Every colour of the canvas in one place: paper and wood, one ink, one pencil that marks what one
 * works on, and one warm mark for what is wrong. None of them is the only sign of anything.
 */
typedef enum
{
  CAV_TONE_GROUND,    /* the bench that the drawing lies on */
  CAV_TONE_RULER,     /* strips at the window's edge */
  CAV_TONE_PLATE,     /* behind words that lie over something else */
  CAV_TONE_GRID,      /* decoration: no meaning hangs on these two */
  CAV_TONE_GRID_MAIN, /* */
  CAV_TONE_TEXT,
  CAV_TONE_QUIET,   /* words of second rank */
  CAV_TONE_OUTLINE, /* edge of the profile, ticks, tools */
  CAV_TONE_EDGE,    /* thin outline of the blank, of what was there before */
  CAV_TONE_WASTE,   /* wood that goes */
  CAV_TONE_WOOD,    /* end grain, and the dark and pale of its years */
  CAV_TONE_RING,
  CAV_TONE_PALE,
  CAV_TONE_PENCIL, /* chosen, hovered, being drawn */
  CAV_TONE_MARK,   /* leftover, findings */
  CAV_TONE_HANDLE, /* inside of handles */
  CAV_TONE_TOOL,
  CAV_TONE_CHIPS,
  CAV_TONE_BOARD, /* sacrificial fence */
} CavTone;
#define CAV_N_TONES (CAV_TONE_BOARD + 1)

/* light is one of a screen. */
CavColour cav_tone_get_colour (CavTone tone, CavLight light);
/* The ink of a sheet, by any light. */
CavColour cav_light_get_ink (CavLight light, CavInk ink);
/* Contrast of two colours, 1 to 21, by the formula of WCAG 2.1 (relative luminance). */
double cav_colour_get_contrast (CavColour a, CavColour b);

G_END_DECLS
