/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/cav-palette.h"

#include <math.h>

/* WCAG 2.2, success criteria 1.4.3 and 1.4.11 (level AA): 4.5 for text, 3 for lines that carry
 * meaning. In the strong lights text has the 7 of 1.4.6 (level AAA); for lines it names no more
 * than 3, and 4.5 is our own. */
typedef enum
{
  TEXT,
  LINE,
} Need;

static double
get_least (Need need, CavLight light)
{
  gboolean is_strong = light == CAV_LIGHT_DAY_STRONG || light == CAV_LIGHT_NIGHT_STRONG;

  if (need == TEXT)
    return is_strong ? 7.0 : 4.5;
  return is_strong ? 4.5 : 3.0;
}

typedef struct
{
  const char *desc;
  CavTone tone;
  CavTone ground;
  Need need;
} Pair;

static const Pair pairs[] = {
  { "text on the ground", CAV_TONE_TEXT, CAV_TONE_GROUND, TEXT },
  { "text on a plate", CAV_TONE_TEXT, CAV_TONE_PLATE, TEXT },
  { "text on rulers", CAV_TONE_TEXT, CAV_TONE_RULER, TEXT },
  { "quiet text on the ground", CAV_TONE_QUIET, CAV_TONE_GROUND, TEXT },
  { "quiet text on a plate", CAV_TONE_QUIET, CAV_TONE_PLATE, TEXT },
  { "quiet text on rulers", CAV_TONE_QUIET, CAV_TONE_RULER, TEXT },
  { "quiet text on waste", CAV_TONE_QUIET, CAV_TONE_WASTE, TEXT },
  { "quiet text on grid lines", CAV_TONE_QUIET, CAV_TONE_GRID_MAIN, TEXT },
  { "quiet text on fine grid lines", CAV_TONE_QUIET, CAV_TONE_GRID, TEXT },
  { "pencil text on the ground", CAV_TONE_PENCIL, CAV_TONE_GROUND, TEXT },
  { "pencil text on a plate", CAV_TONE_PENCIL, CAV_TONE_PLATE, TEXT },
  { "marked text on a plate", CAV_TONE_MARK, CAV_TONE_PLATE, TEXT },
  { "marked text on the ground", CAV_TONE_MARK, CAV_TONE_GROUND, TEXT },
  { "words on wood", CAV_TONE_OUTLINE, CAV_TONE_WOOD, TEXT },
  { "words on waste", CAV_TONE_OUTLINE, CAV_TONE_WASTE, TEXT },
  { "words on a tool", CAV_TONE_OUTLINE, CAV_TONE_TOOL, TEXT },
  { "words on a board", CAV_TONE_OUTLINE, CAV_TONE_BOARD, TEXT },
  { "words cut out of the outline", CAV_TONE_GROUND, CAV_TONE_OUTLINE, TEXT },
  { "outline on the ground", CAV_TONE_OUTLINE, CAV_TONE_GROUND, LINE },
  { "outline on pale rings", CAV_TONE_OUTLINE, CAV_TONE_PALE, LINE },
  { "outline on dark rings", CAV_TONE_OUTLINE, CAV_TONE_RING, LINE },
  { "blank on the ground", CAV_TONE_EDGE, CAV_TONE_GROUND, LINE },
  { "blank on waste", CAV_TONE_EDGE, CAV_TONE_WASTE, LINE },
  { "ticks on rulers", CAV_TONE_EDGE, CAV_TONE_RULER, LINE },
  { "pencil on wood", CAV_TONE_PENCIL, CAV_TONE_WOOD, LINE },
  { "pencil on waste", CAV_TONE_PENCIL, CAV_TONE_WASTE, LINE },
  { "mark on wood", CAV_TONE_MARK, CAV_TONE_WOOD, LINE },
  { "mark on waste", CAV_TONE_MARK, CAV_TONE_WASTE, LINE },
  { "handles inside their line", CAV_TONE_PENCIL, CAV_TONE_HANDLE, LINE },
  { "chips on wood", CAV_TONE_CHIPS, CAV_TONE_WOOD, LINE },
  { "chips on a tool", CAV_TONE_CHIPS, CAV_TONE_TOOL, LINE },
  { "chips on a board", CAV_TONE_CHIPS, CAV_TONE_BOARD, LINE },
  { "chips on the ground", CAV_TONE_CHIPS, CAV_TONE_GROUND, LINE },
};

static void
check_contrast (const char *desc, CavColour colour, CavColour ground, Need need, CavLight light)
{
  double contrast = cav_colour_get_contrast (colour, ground);
  double least = get_least (need, light);

  g_test_message ("%s: %.2f", desc, contrast);
  if (contrast < least)
    {
      g_test_message ("%s, light %d: %.2f is less than %.1f", desc, light, contrast, least);
      g_test_fail ();
    }
}

static void
test_contrast (gconstpointer data)
{
  CavLight light = (CavLight)GPOINTER_TO_INT (data);

  for (guint i = 0; i < G_N_ELEMENTS (pairs); i++)
    check_contrast (pairs[i].desc, cav_tone_get_colour (pairs[i].tone, light),
                    cav_tone_get_colour (pairs[i].ground, light), pairs[i].need, light);
}

static CavColour
mix (CavColour over, double share, CavColour under)
{
  return (CavColour){
    (guint8)lround (share * over.red + (1 - share) * under.red),
    (guint8)lround (share * over.green + (1 - share) * under.green),
    (guint8)lround (share * over.blue + (1 - share) * under.blue),
  };
}

/* What is not opaque lies over the worst that can be below it: plates over an outline, rings half
 * strong on wood under the pencil and the mark. */
static void
test_through (gconstpointer data)
{
  CavLight light = (CavLight)GPOINTER_TO_INT (data);
  CavColour wood = cav_tone_get_colour (CAV_TONE_WOOD, light);
  CavColour plate = mix (cav_tone_get_colour (CAV_TONE_PLATE, light), 0.94,
                         cav_tone_get_colour (CAV_TONE_OUTLINE, light));
  CavColour pale = mix (cav_tone_get_colour (CAV_TONE_PALE, light), 0.5, wood);
  CavColour ring = mix (cav_tone_get_colour (CAV_TONE_RING, light), 0.42, wood);
  const CavTone on_plates[] = { CAV_TONE_TEXT, CAV_TONE_QUIET, CAV_TONE_PENCIL, CAV_TONE_MARK };
  const CavTone on_rings[] = { CAV_TONE_PENCIL, CAV_TONE_MARK };

  for (guint i = 0; i < G_N_ELEMENTS (on_plates); i++)
    check_contrast ("text on a plate over an outline", cav_tone_get_colour (on_plates[i], light),
                    plate, TEXT, light);
  for (guint i = 0; i < G_N_ELEMENTS (on_rings); i++)
    {
      CavColour colour = cav_tone_get_colour (on_rings[i], light);

      check_contrast ("line on a pale year", colour, pale, LINE, light);
      check_contrast ("line on a dark year", colour, ring, LINE, light);
    }
}

/* A new tone has to say what it is seen on. */
static void
test_every_tone (void)
{
  for (int tone = 0; tone < CAV_N_TONES; tone++)
    {
      gboolean is_known = FALSE;

      for (guint i = 0; i < G_N_ELEMENTS (pairs) && !is_known; i++)
        is_known = (int)pairs[i].tone == tone || (int)pairs[i].ground == tone;
      if (!is_known)
        g_test_message ("tone %d is in no pair", tone);
      g_assert_true (is_known);
    }
}

/* Growth rings are texture, and so is the line between two layers of chips, which the figures
 * beside them tell, too. */
static gboolean
is_decoration (CavStyleName style)
{
  return style == CAV_STYLE_RING || style == CAV_STYLE_LAYER;
}

/* Lines of sheets stand out from the paper and from what they enclose, in print and on screens. */
static void
test_styles (gconstpointer data)
{
  CavLight light = (CavLight)GPOINTER_TO_INT (data);
  CavColour paper = cav_light_get_ink (light, CAV_INK_WHITE);

  for (int i = 0; i < CAV_N_STYLES; i++)
    {
      const CavStyle *style = cav_style_get ((CavStyleName)i);
      CavColour line = cav_light_get_ink (light, style->line);
      CavColour fill = cav_light_get_ink (light, style->fill);
      g_autofree char *desc = g_strdup_printf ("line of style %d", i);

      if (style->line == CAV_INK_NONE || is_decoration ((CavStyleName)i))
        continue;
      if (style->fill != CAV_INK_NONE)
        check_contrast (desc, line, fill, LINE, light);
      /* A mark is an area with a light rim. */
      if (style->line != CAV_INK_WHITE)
        check_contrast (desc, line, paper, LINE, light);
    }
}

/* Words of sheets are black or grey on paper and wood, or paper on black. */
static void
test_words (gconstpointer data)
{
  CavLight light = (CavLight)GPOINTER_TO_INT (data);
  const CavInk grounds[]
      = { CAV_INK_WHITE, CAV_INK_WOOD, CAV_INK_TOOL, CAV_INK_BOARD, CAV_INK_GHOST };
  CavColour black = cav_light_get_ink (light, CAV_INK_BLACK);
  CavColour white = cav_light_get_ink (light, CAV_INK_WHITE);

  for (guint i = 0; i < G_N_ELEMENTS (grounds); i++)
    check_contrast ("black words", black, cav_light_get_ink (light, grounds[i]), TEXT, light);
  check_contrast ("white words", white, black, TEXT, light);
  check_contrast ("grey words", cav_light_get_ink (light, CAV_INK_GREY), white, TEXT, light);
}

/* Black on white is 21, a colour on itself 1; grey #767676 on white is the one that WCAG's
 * techniques name as just above 4.5. */
static void
test_formula (void)
{
  const CavColour black = { 0, 0, 0 };
  const CavColour white = { 255, 255, 255 };
  const CavColour grey = { 0x76, 0x76, 0x76 };

  g_assert_cmpfloat_with_epsilon (cav_colour_get_contrast (black, white), 21, 1e-9);
  g_assert_cmpfloat_with_epsilon (cav_colour_get_contrast (white, black), 21, 1e-9);
  g_assert_cmpfloat_with_epsilon (cav_colour_get_contrast (grey, grey), 1, 1e-9);
  g_assert_cmpfloat_with_epsilon (cav_colour_get_contrast (grey, white), 4.54, 0.01);
}

/* On paper inks are what they always were; each light has its own. */
static void
test_inks (void)
{
  for (int ink = 0; ink < CAV_N_INKS; ink++)
    {
      CavColour paper = cav_light_get_ink (CAV_LIGHT_PAPER, (CavInk)ink);
      CavColour known = cav_ink_get_colour ((CavInk)ink);
      CavColour day = cav_light_get_ink (CAV_LIGHT_DAY, (CavInk)ink);
      CavColour night = cav_light_get_ink (CAV_LIGHT_NIGHT, (CavInk)ink);

      g_assert_cmpmem (&paper, sizeof paper, &known, sizeof known);
      g_assert_cmpfloat (cav_colour_get_contrast (day, night), >, 1.05);
    }
}

/* Who asks for more contrast gets more, for words and for the outline. */
static void
test_strong (void)
{
  const CavTone tones[] = { CAV_TONE_TEXT, CAV_TONE_QUIET,  CAV_TONE_OUTLINE,
                            CAV_TONE_EDGE, CAV_TONE_PENCIL, CAV_TONE_MARK };
  const CavLight lights[][2]
      = { { CAV_LIGHT_DAY, CAV_LIGHT_DAY_STRONG }, { CAV_LIGHT_NIGHT, CAV_LIGHT_NIGHT_STRONG } };

  for (guint i = 0; i < G_N_ELEMENTS (lights); i++)
    for (guint j = 0; j < G_N_ELEMENTS (tones); j++)
      {
        double contrasts[2];

        for (int k = 0; k < 2; k++)
          contrasts[k]
              = cav_colour_get_contrast (cav_tone_get_colour (tones[j], lights[i][k]),
                                         cav_tone_get_colour (CAV_TONE_GROUND, lights[i][k]));
        g_assert_cmpfloat (contrasts[1], >, contrasts[0]);
      }
}

int
main (int argc, char **argv)
{
  static const char *const names[CAV_N_LIGHTS] = {
    [CAV_LIGHT_PAPER] = "paper",
    [CAV_LIGHT_DAY] = "day",
    [CAV_LIGHT_NIGHT] = "night",
    [CAV_LIGHT_DAY_STRONG] = "day-strong",
    [CAV_LIGHT_NIGHT_STRONG] = "night-strong",
  };
  static const struct
  {
    const char *name;
    GTestDataFunc test;
    gboolean on_paper;
  } checks[] = {
    { "contrast", test_contrast, FALSE },
    { "through", test_through, FALSE },
    { "styles", test_styles, TRUE },
    { "words", test_words, TRUE },
  };

  g_test_init (&argc, &argv, NULL);
  for (int light = 0; light < CAV_N_LIGHTS; light++)
    for (guint i = 0; i < G_N_ELEMENTS (checks); i++)
      {
        g_autofree char *path
            = g_strdup_printf ("/drawing/palette/%s/%s", checks[i].name, names[light]);

        if (light != CAV_LIGHT_PAPER || checks[i].on_paper)
          g_test_add_data_func (path, GINT_TO_POINTER (light), checks[i].test);
      }
  g_test_add_func ("/drawing/palette/every-tone", test_every_tone);
  g_test_add_func ("/drawing/palette/formula", test_formula);
  g_test_add_func ("/drawing/palette/inks", test_inks);
  g_test_add_func ("/drawing/palette/strong", test_strong);
  return g_test_run ();
}
