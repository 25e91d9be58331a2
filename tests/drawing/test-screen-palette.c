/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/cav-screen-palette.h"

/* WCAG 2.1, success criteria 1.4.3 and 1.4.11: 4.5 for text, 3 for lines that carry meaning. */
#define TEXT 4.5
#define LINE 3.0

typedef struct
{
  const char *desc;
  CavTone tone;
  CavTone ground;
  double least;
} Pair;

static const Pair pairs[] = {
  { "text on the ground", CAV_TONE_TEXT, CAV_TONE_GROUND, TEXT },
  { "text on a plate", CAV_TONE_TEXT, CAV_TONE_PLATE, TEXT },
  { "text on rulers", CAV_TONE_TEXT, CAV_TONE_RULER, TEXT },
  { "quiet text on the ground", CAV_TONE_QUIET, CAV_TONE_GROUND, TEXT },
  { "quiet text on rulers", CAV_TONE_QUIET, CAV_TONE_RULER, TEXT },
  { "quiet text on waste", CAV_TONE_QUIET, CAV_TONE_WASTE, TEXT },
  { "quiet text on grid lines", CAV_TONE_QUIET, CAV_TONE_GRID_MAIN, LINE },
  { "pencil text on the ground", CAV_TONE_PENCIL, CAV_TONE_GROUND, TEXT },
  { "pencil text on a plate", CAV_TONE_PENCIL, CAV_TONE_PLATE, TEXT },
  { "marked text on a plate", CAV_TONE_MARK, CAV_TONE_PLATE, TEXT },
  { "marked text on the ground", CAV_TONE_MARK, CAV_TONE_GROUND, TEXT },
  { "outline on the ground", CAV_TONE_OUTLINE, CAV_TONE_GROUND, LINE },
  { "outline on wood", CAV_TONE_OUTLINE, CAV_TONE_WOOD, LINE },
  { "outline on a tool", CAV_TONE_OUTLINE, CAV_TONE_TOOL, LINE },
  { "outline on a board", CAV_TONE_OUTLINE, CAV_TONE_BOARD, LINE },
  { "blank on the ground", CAV_TONE_EDGE, CAV_TONE_GROUND, LINE },
  { "blank on waste", CAV_TONE_EDGE, CAV_TONE_WASTE, LINE },
  { "pencil on wood", CAV_TONE_PENCIL, CAV_TONE_WOOD, LINE },
  { "pencil on waste", CAV_TONE_PENCIL, CAV_TONE_WASTE, LINE },
  { "mark on wood", CAV_TONE_MARK, CAV_TONE_WOOD, LINE },
  { "mark on waste", CAV_TONE_MARK, CAV_TONE_WASTE, LINE },
  { "handles inside their line", CAV_TONE_PENCIL, CAV_TONE_HANDLE, LINE },
  { "chips on wood", CAV_TONE_CHIPS, CAV_TONE_WOOD, LINE },
  { "chips on a tool", CAV_TONE_CHIPS, CAV_TONE_TOOL, LINE },
};

static void
test_contrast (gconstpointer data)
{
  CavLight light = (CavLight)GPOINTER_TO_INT (data);

  for (guint i = 0; i < G_N_ELEMENTS (pairs); i++)
    {
      double contrast = cav_colour_get_contrast (cav_tone_get_colour (pairs[i].tone, light),
                                                 cav_tone_get_colour (pairs[i].ground, light));

      g_test_message ("%s: %.2f", pairs[i].desc, contrast);
      if (contrast < pairs[i].least)
        {
          g_test_message ("%s: %.2f is less than %.1f", pairs[i].desc, contrast, pairs[i].least);
          g_test_fail ();
        }
    }
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

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_data_func ("/drawing/screen-palette/contrast/day", GINT_TO_POINTER (CAV_LIGHT_DAY),
                        test_contrast);
  g_test_add_data_func ("/drawing/screen-palette/contrast/night", GINT_TO_POINTER (CAV_LIGHT_NIGHT),
                        test_contrast);
  g_test_add_func ("/drawing/screen-palette/formula", test_formula);
  g_test_add_func ("/drawing/screen-palette/inks", test_inks);
  return g_test_run ();
}
