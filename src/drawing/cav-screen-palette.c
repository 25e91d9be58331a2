/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/cav-screen-palette.h"

#include <math.h>

static const CavColour day[CAV_N_TONES] = {
  [CAV_TONE_GROUND] = { 249, 247, 243 },    [CAV_TONE_RULER] = { 240, 236, 229 },
  [CAV_TONE_PLATE] = { 253, 252, 250 },     [CAV_TONE_GRID] = { 238, 234, 227 },
  [CAV_TONE_GRID_MAIN] = { 225, 219, 209 }, [CAV_TONE_TEXT] = { 38, 33, 28 },
  [CAV_TONE_QUIET] = { 103, 94, 84 },       [CAV_TONE_OUTLINE] = { 46, 36, 27 },
  [CAV_TONE_EDGE] = { 128, 118, 106 },      [CAV_TONE_WASTE] = { 241, 235, 225 },
  [CAV_TONE_WOOD] = { 229, 203, 163 },      [CAV_TONE_RING] = { 176, 134, 84 },
  [CAV_TONE_PALE] = { 243, 225, 194 },      [CAV_TONE_PENCIL] = { 22, 84, 138 },
  [CAV_TONE_MARK] = { 170, 44, 20 },        [CAV_TONE_HANDLE] = { 255, 255, 255 },
  [CAV_TONE_TOOL] = { 205, 208, 212 },      [CAV_TONE_CHIPS] = { 83, 84, 88 },
  [CAV_TONE_BOARD] = { 228, 221, 208 },
};

static const CavColour night[CAV_N_TONES] = {
  [CAV_TONE_GROUND] = { 32, 30, 28 },    [CAV_TONE_RULER] = { 40, 37, 34 },
  [CAV_TONE_PLATE] = { 44, 41, 38 },     [CAV_TONE_GRID] = { 40, 38, 35 },
  [CAV_TONE_GRID_MAIN] = { 53, 49, 45 }, [CAV_TONE_TEXT] = { 240, 234, 225 },
  [CAV_TONE_QUIET] = { 178, 168, 154 },  [CAV_TONE_OUTLINE] = { 244, 228, 203 },
  [CAV_TONE_EDGE] = { 134, 125, 113 },   [CAV_TONE_WASTE] = { 44, 41, 37 },
  [CAV_TONE_WOOD] = { 122, 91, 59 },     [CAV_TONE_RING] = { 78, 54, 32 },
  [CAV_TONE_PALE] = { 145, 111, 74 },    [CAV_TONE_PENCIL] = { 134, 195, 243 },
  [CAV_TONE_MARK] = { 255, 162, 124 },   [CAV_TONE_HANDLE] = { 26, 24, 22 },
  [CAV_TONE_TOOL] = { 92, 96, 102 },     [CAV_TONE_CHIPS] = { 196, 199, 204 },
  [CAV_TONE_BOARD] = { 74, 67, 58 },
};

/* What plays the part of a sheet's ink on a screen. */
static const CavTone parts[CAV_N_INKS] = {
  [CAV_INK_NONE] = CAV_TONE_GROUND,     [CAV_INK_BLACK] = CAV_TONE_OUTLINE,
  [CAV_INK_GREY] = CAV_TONE_QUIET,      [CAV_INK_FAINT] = CAV_TONE_EDGE,
  [CAV_INK_WHITE] = CAV_TONE_GROUND,    [CAV_INK_WOOD] = CAV_TONE_WOOD,
  [CAV_INK_RING] = CAV_TONE_RING,       [CAV_INK_GHOST] = CAV_TONE_WASTE,
  [CAV_INK_GHOST_LINE] = CAV_TONE_EDGE, [CAV_INK_TOOL] = CAV_TONE_TOOL,
  [CAV_INK_CHIPS] = CAV_TONE_CHIPS,     [CAV_INK_BOARD] = CAV_TONE_BOARD,
};

CavColour
cav_tone_get_colour (CavTone tone, CavLight light)
{
  return light == CAV_LIGHT_NIGHT ? night[tone] : day[tone];
}

CavColour
cav_light_get_ink (CavLight light, CavInk ink)
{
  return light == CAV_LIGHT_PAPER ? cav_ink_get_colour (ink)
                                  : cav_tone_get_colour (parts[ink], light);
}

/* A channel's share of light, WCAG 2.1, "relative luminance". */
static double
get_linear (guint8 channel)
{
  double share = channel / 255.0;

  return share <= 0.03928 ? share / 12.92 : pow ((share + 0.055) / 1.055, 2.4);
}

static double
get_luminance (CavColour colour)
{
  return 0.2126 * get_linear (colour.red) + 0.7152 * get_linear (colour.green)
         + 0.0722 * get_linear (colour.blue);
}

double
cav_colour_get_contrast (CavColour a, CavColour b)
{
  double one = get_luminance (a) + 0.05;
  double other = get_luminance (b) + 0.05;

  return fmax (one, other) / fmin (one, other);
}
