/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/*
 * Every colour, line width and letter size of the drawings, on paper and on the screen, in one
 * place; only what a picture shows of the world (wood, walls, a print) has its colours elsewhere.
 * Sheets have to survive a black and white printer, so colour is only ever a second sign beside
 * line, hatch or tone.
 * Line widths are of the ISO 128-2 series, wide to narrow about 2:1; letter sizes are heights of
 * capitals and figures as ISO 3098 has them. All millimetres on paper.
 */

typedef enum
{
  CAV_INK_NONE,
  CAV_INK_BLACK,
  CAV_INK_GREY,  /* words of second rank; dark enough for a tired printer */
  CAV_INK_FAINT, /* frames of panels */
  CAV_INK_WHITE,
  CAV_INK_WOOD,  /* end grain */
  CAV_INK_RING,  /* growth rings on it */
  CAV_INK_GHOST, /* wood that is not there any more, or not for long */
  CAV_INK_GHOST_LINE,
  CAV_INK_TOOL,  /* blade or cutter where it stands in air */
  CAV_INK_CHIPS, /* what it turns into chips now */
  CAV_INK_BOARD, /* sacrificial fence */
} CavInk;
#define CAV_N_INKS (CAV_INK_BOARD + 1)

typedef enum
{
  CAV_DASH_NONE,
  CAV_DASH_DASHED,
  CAV_DASH_CHAIN, /* long and short, for centre lines */
} CavDash;

typedef struct
{
  CavInk fill;
  CavInk line;
  double width;
  CavDash dash;
} CavStyle;

typedef enum
{
  CAV_STYLE_PAPER,
  CAV_STYLE_SHEET_FRAME,
  CAV_STYLE_RULE, /* heavy rule over a setup or under a head */
  CAV_STYLE_THIN_RULE,
  CAV_STYLE_PANEL,
  CAV_STYLE_BADGE, /* filled box behind a number */
  CAV_STYLE_TICK_BOX,
  CAV_STYLE_BLANK, /* outline of the blank */
  CAV_STYLE_WASTE,
  CAV_STYLE_WOOD, /* end grain, without its outline */
  CAV_STYLE_RING,
  CAV_STYLE_OUTLINE,   /* visible edge */
  CAV_STYLE_DIMENSION, /* dimension and extension lines */
  CAV_STYLE_ARROW,
  CAV_STYLE_BEFORE, /* rail before a pass */
  CAV_STYLE_TOOL,
  CAV_STYLE_CHIPS,
  CAV_STYLE_LAYER, /* between the passes of a ladder, on chips */
  CAV_STYLE_TOOL_OUTLINE,
  CAV_STYLE_TABLE,
  CAV_STYLE_FENCE,
  CAV_STYLE_SACRIFICIAL,
  CAV_STYLE_HATCH,
  CAV_STYLE_MARK,   /* triangle on the rail's end */
  CAV_STYLE_HIDDEN, /* edge behind something else */
  CAV_STYLE_GLASS,
  CAV_STYLE_SHEET, /* of a package: mat, picture, backing */
  CAV_STYLE_CAUTION,
  CAV_STYLE_CENTRE, /* centre line of a cutter */
  CAV_STYLE_TAB,    /* to be glued, folded or cut off */
  CAV_STYLE_BAR,    /* to be measured on paper */
  CAV_STYLE_SHAPE,  /* to be cut out */
} CavStyleName;
#define CAV_N_STYLES (CAV_STYLE_SHAPE + 1)

/* Heights of capitals and figures. */
#define CAV_LETTER_FIGURE 8.2 /* fence and height on the pass sheet; never under 8 in print */
#define CAV_LETTER_TITLE 6.0
#define CAV_LETTER_TOOL 5.0
#define CAV_LETTER_HEADING 4.2 /* of a step on sheets that are read */
#define CAV_LETTER_LARGE 3.6
#define CAV_LETTER_SMALL 3.05 /* smallest on the pass sheet; never under 3 in print */
#define CAV_LETTER_VALUE 3.5  /* dimensions of a drawing */
#define CAV_LETTER_NOTE 2.5   /* smallest of a drawing */

/* From one line of text to the next, as a multiple of the letters' height. */
#define CAV_LETTER_LEADING 1.65

/* Red, green and blue, 0 to 255. */
typedef struct
{
  guint8 red;
  guint8 green;
  guint8 blue;
} CavColour;

/* What a picture is looked at on: paper, or a screen by day or by night; the strong ones are for
 * who asks the desktop for high contrast. */
typedef enum
{
  CAV_LIGHT_PAPER,
  CAV_LIGHT_DAY,
  CAV_LIGHT_NIGHT,
  CAV_LIGHT_DAY_STRONG,
  CAV_LIGHT_NIGHT_STRONG,
} CavLight;
#define CAV_N_LIGHTS (CAV_LIGHT_NIGHT_STRONG + 1)

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

CavColour cav_ink_get_colour (CavInk ink);
const CavStyle *cav_style_get (CavStyleName name);
/* On and off lengths of a dash; 0 where the line runs through. */
guint cav_dash_get_pattern (CavDash dash, const double **out_lengths);
/* light is one of a screen. */
CavColour cav_tone_get_colour (CavTone tone, CavLight light);
/* The ink of a sheet, by any light. */
CavColour cav_light_get_ink (CavLight light, CavInk ink);
/* Contrast of two colours, 1 to 21, by the formula of WCAG 2.2 (relative luminance). */
double cav_colour_get_contrast (CavColour a, CavColour b);

G_END_DECLS
