/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/cav-palette.h"

#include <math.h>

static const CavColour inks[CAV_N_INKS] = {
  [CAV_INK_NONE] = { 255, 255, 255 },       [CAV_INK_BLACK] = { 26, 24, 22 },
  [CAV_INK_GREY] = { 84, 80, 76 },          [CAV_INK_FAINT] = { 146, 142, 136 },
  [CAV_INK_WHITE] = { 255, 255, 255 },      [CAV_INK_WOOD] = { 245, 233, 214 },
  [CAV_INK_RING] = { 205, 178, 142 },       [CAV_INK_GHOST] = { 243, 242, 240 },
  [CAV_INK_GHOST_LINE] = { 138, 134, 128 }, [CAV_INK_TOOL] = { 203, 206, 210 },
  [CAV_INK_CHIPS] = { 70, 74, 80 },         [CAV_INK_BOARD] = { 226, 221, 212 },
};

static const CavStyle styles[CAV_N_STYLES] = {
  [CAV_STYLE_PAPER] = { CAV_INK_WHITE, CAV_INK_NONE, 0, CAV_DASH_NONE },
  [CAV_STYLE_SHEET_FRAME] = { CAV_INK_NONE, CAV_INK_BLACK, 0.7, CAV_DASH_NONE },
  [CAV_STYLE_RULE] = { CAV_INK_NONE, CAV_INK_BLACK, 0.7, CAV_DASH_NONE },
  [CAV_STYLE_THIN_RULE] = { CAV_INK_NONE, CAV_INK_BLACK, 0.25, CAV_DASH_NONE },
  [CAV_STYLE_PANEL] = { CAV_INK_NONE, CAV_INK_FAINT, 0.35, CAV_DASH_NONE },
  [CAV_STYLE_BADGE] = { CAV_INK_BLACK, CAV_INK_NONE, 0, CAV_DASH_NONE },
  [CAV_STYLE_TICK_BOX] = { CAV_INK_WHITE, CAV_INK_BLACK, 0.5, CAV_DASH_NONE },
  [CAV_STYLE_BLANK] = { CAV_INK_NONE, CAV_INK_BLACK, 0.25, CAV_DASH_NONE },
  [CAV_STYLE_WASTE] = { CAV_INK_GHOST, CAV_INK_NONE, 0, CAV_DASH_NONE },
  [CAV_STYLE_WOOD] = { CAV_INK_WOOD, CAV_INK_NONE, 0, CAV_DASH_NONE },
  [CAV_STYLE_RING] = { CAV_INK_NONE, CAV_INK_RING, 0.18, CAV_DASH_NONE },
  [CAV_STYLE_OUTLINE] = { CAV_INK_NONE, CAV_INK_BLACK, 0.5, CAV_DASH_NONE },
  [CAV_STYLE_DIMENSION] = { CAV_INK_NONE, CAV_INK_BLACK, 0.25, CAV_DASH_NONE },
  [CAV_STYLE_ARROW] = { CAV_INK_BLACK, CAV_INK_NONE, 0, CAV_DASH_NONE },
  [CAV_STYLE_BEFORE] = { CAV_INK_GHOST, CAV_INK_GHOST_LINE, 0.25, CAV_DASH_DASHED },
  [CAV_STYLE_TOOL] = { CAV_INK_TOOL, CAV_INK_NONE, 0, CAV_DASH_NONE },
  [CAV_STYLE_CHIPS] = { CAV_INK_CHIPS, CAV_INK_NONE, 0, CAV_DASH_NONE },
  [CAV_STYLE_LAYER] = { CAV_INK_NONE, CAV_INK_WHITE, 0.25, CAV_DASH_NONE },
  [CAV_STYLE_TOOL_OUTLINE] = { CAV_INK_NONE, CAV_INK_BLACK, 0.35, CAV_DASH_NONE },
  [CAV_STYLE_TABLE] = { CAV_INK_NONE, CAV_INK_BLACK, 0.7, CAV_DASH_NONE },
  [CAV_STYLE_FENCE] = { CAV_INK_WHITE, CAV_INK_BLACK, 0.5, CAV_DASH_NONE },
  [CAV_STYLE_SACRIFICIAL] = { CAV_INK_BOARD, CAV_INK_BLACK, 0.35, CAV_DASH_NONE },
  [CAV_STYLE_HATCH] = { CAV_INK_NONE, CAV_INK_BLACK, 0.18, CAV_DASH_NONE },
  [CAV_STYLE_MARK] = { CAV_INK_BLACK, CAV_INK_WHITE, 0.25, CAV_DASH_NONE },
  [CAV_STYLE_HIDDEN] = { CAV_INK_NONE, CAV_INK_BLACK, 0.25, CAV_DASH_DASHED },
  [CAV_STYLE_GLASS] = { CAV_INK_TOOL, CAV_INK_BLACK, 0.25, CAV_DASH_NONE },
  [CAV_STYLE_SHEET] = { CAV_INK_WHITE, CAV_INK_BLACK, 0.25, CAV_DASH_NONE },
  [CAV_STYLE_CAUTION] = { CAV_INK_NONE, CAV_INK_BLACK, 0.5, CAV_DASH_NONE },
  [CAV_STYLE_CENTRE] = { CAV_INK_NONE, CAV_INK_BLACK, 0.18, CAV_DASH_CHAIN },
  [CAV_STYLE_TAB] = { CAV_INK_NONE, CAV_INK_GREY, 0.18, CAV_DASH_DASHED },
  [CAV_STYLE_BAR] = { CAV_INK_BLACK, CAV_INK_NONE, 0, CAV_DASH_NONE },
  [CAV_STYLE_SHAPE] = { CAV_INK_NONE, CAV_INK_BLACK, 0.25, CAV_DASH_NONE },
};

CavColour
cav_ink_get_colour (CavInk ink)
{
  return inks[ink];
}

const CavStyle *
cav_style_get (CavStyleName name)
{
  return &styles[name];
}

guint
cav_dash_get_pattern (CavDash dash, const double **out_lengths)
{
  static const double dashed[] = { 2.0, 1.0 };
  static const double chain[] = { 6.0, 1.0, 1.0, 1.0 };

  *out_lengths = dash == CAV_DASH_CHAIN ? chain : dashed;
  return dash == CAV_DASH_DASHED  ? G_N_ELEMENTS (dashed)
         : dash == CAV_DASH_CHAIN ? G_N_ELEMENTS (chain)
                                  : 0;
}

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
  [CAV_TONE_PALE] = { 128, 96, 62 },    [CAV_TONE_PENCIL] = { 134, 195, 243 },
  [CAV_TONE_MARK] = { 255, 166, 130 },   [CAV_TONE_HANDLE] = { 26, 24, 22 },
  [CAV_TONE_TOOL] = { 92, 96, 102 },     [CAV_TONE_CHIPS] = { 196, 199, 204 },
  [CAV_TONE_BOARD] = { 74, 67, 58 },
};

static const CavColour day_strong[CAV_N_TONES] = {
  [CAV_TONE_GROUND] = { 255, 255, 255 },    [CAV_TONE_RULER] = { 245, 243, 240 },
  [CAV_TONE_PLATE] = { 255, 255, 255 },     [CAV_TONE_GRID] = { 228, 224, 218 },
  [CAV_TONE_GRID_MAIN] = { 204, 198, 189 }, [CAV_TONE_TEXT] = { 0, 0, 0 },
  [CAV_TONE_QUIET] = { 45, 40, 36 },        [CAV_TONE_OUTLINE] = { 0, 0, 0 },
  [CAV_TONE_EDGE] = { 84, 78, 70 },         [CAV_TONE_WASTE] = { 242, 238, 232 },
  [CAV_TONE_WOOD] = { 240, 219, 186 },      [CAV_TONE_RING] = { 190, 152, 108 },
  [CAV_TONE_PALE] = { 247, 232, 207 },      [CAV_TONE_PENCIL] = { 0, 56, 112 },
  [CAV_TONE_MARK] = { 132, 22, 0 },         [CAV_TONE_HANDLE] = { 255, 255, 255 },
  [CAV_TONE_TOOL] = { 215, 218, 222 },      [CAV_TONE_CHIPS] = { 48, 49, 52 },
  [CAV_TONE_BOARD] = { 232, 227, 217 },
};

static const CavColour night_strong[CAV_N_TONES] = {
  [CAV_TONE_GROUND] = { 0, 0, 0 },       [CAV_TONE_RULER] = { 14, 13, 12 },
  [CAV_TONE_PLATE] = { 0, 0, 0 },        [CAV_TONE_GRID] = { 36, 34, 32 },
  [CAV_TONE_GRID_MAIN] = { 66, 62, 57 }, [CAV_TONE_TEXT] = { 255, 255, 255 },
  [CAV_TONE_QUIET] = { 222, 216, 206 },  [CAV_TONE_OUTLINE] = { 255, 255, 255 },
  [CAV_TONE_EDGE] = { 170, 163, 152 },   [CAV_TONE_WASTE] = { 26, 24, 22 },
  [CAV_TONE_WOOD] = { 88, 62, 36 },      [CAV_TONE_RING] = { 52, 34, 18 },
  [CAV_TONE_PALE] = { 104, 76, 46 },     [CAV_TONE_PENCIL] = { 150, 208, 255 },
  [CAV_TONE_MARK] = { 255, 184, 152 },   [CAV_TONE_HANDLE] = { 0, 0, 0 },
  [CAV_TONE_TOOL] = { 66, 70, 76 },      [CAV_TONE_CHIPS] = { 222, 224, 228 },
  [CAV_TONE_BOARD] = { 52, 46, 39 },
};

static const CavColour *const tones[CAV_N_LIGHTS] = {
  [CAV_LIGHT_PAPER] = day, /* a sheet has inks; whoever asks for a tone all the same gets one */
  [CAV_LIGHT_DAY] = day,
  [CAV_LIGHT_NIGHT] = night,
  [CAV_LIGHT_DAY_STRONG] = day_strong,
  [CAV_LIGHT_NIGHT_STRONG] = night_strong,
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
  return tones[light][tone];
}

CavColour
cav_light_get_ink (CavLight light, CavInk ink)
{
  return light == CAV_LIGHT_PAPER ? cav_ink_get_colour (ink)
                                  : cav_tone_get_colour (parts[ink], light);
}

/* A channel's share of light, WCAG 2.2, "relative luminance". */
static double
get_linear (guint8 channel)
{
  double share = channel / 255.0;

  return share <= 0.04045 ? share / 12.92 : pow ((share + 0.055) / 1.055, 2.4);
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
