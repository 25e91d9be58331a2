/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <glib/gi18n-lib.h>
#include <math.h>

#include "drawing/cav-cove-view.h"
#include "drawing/cav-pass-hints.h"
#include "drawing/cav-pass-sheet-private.h"

#define LINE (CAV_LETTER_SMALL * CAV_LETTER_LEADING)
#define SETTING_LINE (SETTING * 1.6)
#define TOOL_LINE (CAV_LETTER_TOOL * CAV_LETTER_LEADING)
#define SETTING 4.0
#define PAD 2.0
#define VIEW 42.0      /* height of the view from above */
#define VIEW_WIDE 49.0 /* its width beside the words of a wide card */
#define WIDE 120.0      /* cards from this width on have it there */

static const CavTextStyle heading = { .height = CAV_LETTER_LARGE, .ink = CAV_INK_BLACK };
static const CavTextStyle small = { .height = CAV_LETTER_SMALL, .ink = CAV_INK_BLACK };
static const CavTextStyle setting_style = { .height = SETTING, .bold = TRUE, .ink = CAV_INK_BLACK };
static const CavTextStyle tool_bold
    = { .height = CAV_LETTER_TOOL, .bold = TRUE, .ink = CAV_INK_BLACK };
static const CavTextStyle tool = { .height = CAV_LETTER_TOOL, .ink = CAV_INK_BLACK };

double
cav_pass_sheet_write (const CavPassSheet *sheet,
                      CavScene *scene,
                      const char *text,
                      CavPoint point,
                      const CavTextStyle *style,
                      double width,
                      guint max_lines)
{
  g_autofree char *clean = cav_lettering_clean (text);
  g_autoptr (GPtrArray) lines
      = cav_lettering_wrap (sheet->lettering, clean, style->height, style->bold, width, max_lines);

  for (guint i = 0; i < lines->len; i++)
    {
      if (scene != NULL)
        cav_scene_add_text (scene, g_ptr_array_index (lines, i), point, style);
      if (i + 1 < lines->len)
        point.y += style->height * CAV_LETTER_LEADING;
    }
  return point.y;
}

static const CavSetup *
get_setup (const CavPassSheet *sheet, guint index)
{
  return g_ptr_array_index (sheet->plan->setups, index);
}

static char *
dup_heading (const CavPassSheet *sheet, guint setup, gboolean continued)
{
  if (continued)
    return g_strdup_printf (_ ("Setup %u, continued"), setup + 1);
  return g_strdup_printf (_ ("Setup %u of %u"), setup + 1, sheet->plan->setups->len);
}

/* Tilt or angle, and for a crossed blade the legs of the triangle that sets it. */
static double
write_setting (
    const CavPassSheet *sheet, CavScene *scene, const CavSetup *setup, CavPoint point, double width)
{
  g_autofree char *setting = cav_words_describe_setting (setup, FALSE);
  g_autofree char *legs = NULL;

  if (setting == NULL)
    return point.y;
  point.y = cav_pass_sheet_write (sheet, scene, setting,
                                  CAV_POINT (point.x, point.y + SETTING_LINE + 1.2), &setting_style,
                                  width, 0);
  if (setup->machine != CAV_MACHINE_COVE)
    return point.y;
  legs = cav_words_describe_legs (setup->angle, sheet->options);
  return cav_pass_sheet_write (sheet, scene, legs, CAV_POINT (point.x, point.y + LINE + 1), &small,
                               width, 0);
}

/* Returns the baseline of the last line. */
static double
write_words (const CavPassSheet *sheet,
             CavScene *scene,
             guint index,
             CavPoint corner,
             double width,
             gboolean continued)
{
  const CavSetup *setup = get_setup (sheet, index);
  g_autofree char *head = dup_heading (sheet, index, continued);
  g_autofree char *name = cav_words_dup_tool (sheet->plan, setup);
  g_autofree char *about = cav_words_describe_tool (sheet->plan, setup, sheet->options);
  double x = corner.x;
  double y = corner.y + CAV_LETTER_LARGE + 1.2;

  y = cav_pass_sheet_write (sheet, scene, head, CAV_POINT (x, y), &heading, width, 0);
  y = cav_pass_sheet_write (sheet, scene, cav_words_get_machine (setup->machine),
                            CAV_POINT (x, y + TOOL_LINE + 1.2), &tool_bold, width, 0);
  y = cav_pass_sheet_write (sheet, scene, name, CAV_POINT (x, y + TOOL_LINE), &tool, width, 0);
  if (*about != '\0')
    y = cav_pass_sheet_write (sheet, scene, about, CAV_POINT (x, y + LINE + 0.8), &small, width, 0);
  y = write_setting (sheet, scene, setup, CAV_POINT (x, y), width);
  if (!continued && setup->tool_stays)
    y = cav_pass_sheet_write (sheet, scene, _ ("Still in from before"),
                              CAV_POINT (x, y + LINE + 1.2), &small, width, 0);
  return y;
}

static gboolean
has_view (const CavPassSheet *sheet, guint index, gboolean continued)
{
  return !continued && get_setup (sheet, index)->machine == CAV_MACHINE_COVE
         && get_setup (sheet, index)->passes->len > 0;
}

double
cav_pass_card_measure (const CavPassSheet *sheet, guint setup, double width, gboolean continued)
{
  gboolean view = has_view (sheet, setup, continued);
  double room = width - PAD - (view && width >= WIDE ? VIEW_WIDE + PAD : 0);
  double words = write_words (sheet, NULL, setup, CAV_POINT (0, 0), room, continued) + PAD;

  if (!view)
    return words;
  return width >= WIDE ? fmax (words, VIEW) : words + 1 + VIEW;
}

void
cav_pass_card_draw (
    const CavPassSheet *sheet, CavScene *scene, guint setup, CavBox box, gboolean continued)
{
  double width = box.x1 - box.x0;
  gboolean view = has_view (sheet, setup, continued);
  gboolean beside = view && width >= WIDE;
  double room = width - PAD - (beside ? VIEW_WIDE + PAD : 0);
  double y = write_words (sheet, scene, setup, CAV_POINT (box.x0, box.y0), room, continued);

  if (!view)
    return;
  if (beside)
    box = cav_box (box.x1 - VIEW_WIDE, box.y0, box.x1, box.y0 + VIEW);
  else
    box = cav_box (box.x0, y + PAD + 1, box.x1 - PAD, fmin (y + PAD + 1 + VIEW + 20, box.y1));
  cav_cove_view_draw (scene, sheet->plan, get_setup (sheet, setup), box, sheet->options->unit,
                      sheet->options->denominator);
}
