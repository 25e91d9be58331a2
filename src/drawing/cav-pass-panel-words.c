/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/cav-pass-panel-private.h"

#include <glib/gi18n-lib.h>

#include "drawing/cav-pass-hints.h"

/* What a panel says below or beside its figures. */

#define LINE CAV_PANEL_LINE
#define MOST_CAUTIONS 5u /* and no further one after so many lines: */
#define CAUTION_LINES 5u

static void
add_caution (
    const CavPassSheet *sheet, GPtrArray *lines, GArray *starts, const char *text, double width)
{
  g_autoptr (GPtrArray) more = cav_lettering_wrap (sheet->lettering, text, CAV_LETTER_SMALL, FALSE,
                                                   width - CAV_PANEL_SIGN - 0.6, 0);

  if (starts != NULL)
    g_array_append_val (starts, lines->len);
  g_ptr_array_extend_and_steal (lines, g_steal_pointer (&more));
}

/* More than these stand in full among the notes, where all of them do. */
GPtrArray *
cav_panel_wrap_cautions (const CavPassSheet *sheet,
                         const CavPassGroup *group,
                         double width,
                         GArray *starts)
{
  guint cautions = cav_pass_group_get_cautions (sheet->plan, group);
  g_autofree char *wall = (cautions & CAV_CAUTION_THIN_WALL) != 0
                              ? cav_words_describe_wall (sheet->plan, group, sheet->options)
                              : NULL;
  GPtrArray *lines = g_ptr_array_new_with_free_func (g_free);
  guint n_shown = 0;

  for (guint i = 0; i < CAV_N_CAUTIONS; i++)
    {
      if ((cautions & (1u << i)) == 0)
        continue;
      if (++n_shown > MOST_CAUTIONS || lines->len >= (sheet->terse ? 1 : CAUTION_LINES))
        {
          add_caution (sheet, lines, starts, _ ("More cautions stand in the notes"), width);
          break;
        }
      add_caution (sheet, lines, starts,
                   (1u << i) == CAV_CAUTION_THIN_WALL && wall != NULL
                       ? wall
                       : cav_words_get_caution ((CavCaution)(1u << i)),
                   width);
    }
  return lines;
}

/* (transfer full) (element-type utf8) What holds together by no-break spaces stays together where
 * there is room, and is broken rather than cut where there is none. */
static GPtrArray *
wrap_change (const CavPassSheet *sheet, const char *text, double width)
{
  g_auto (GStrv) parts = g_strsplit (text, "\302\240", -1);
  g_auto (GStrv) chunks = g_strsplit (text, " ", -1);
  g_autofree char *loose = g_strjoinv (" ", parts);
  gboolean fits = TRUE;

  for (guint i = 0; chunks[i] != NULL; i++)
    fits = fits
           && cav_lettering_get_width (sheet->lettering, chunks[i], CAV_PANEL_SIDE, TRUE) <= width;
  return cav_lettering_wrap (sheet->lettering, fits ? text : loose, CAV_PANEL_SIDE, TRUE, width, 0);
}

/* (transfer full) What changes: the sacrificial fence, the settings, the steps of a ladder. */
static GPtrArray *
list_changes (const CavPassSheet *sheet, const CavPassGroup *group)
{
  const CavSetup *setup = cav_pass_sheet_get_setup (sheet, group);
  const CavPass *pass = cav_pass_group_get_pass (sheet->plan, group, 0);
  const char *board
      = cav_words_get_board (cav_pass_find_board (sheet->plan, group->setup, group->first));
  const char *release = cav_words_get_release (pass);
  GPtrArray *texts = g_ptr_array_new_with_free_func (g_free);

  if (board != NULL)
    g_ptr_array_add (texts, g_strdup (board));
  g_ptr_array_add (texts, cav_words_describe_change (sheet->plan, setup,
                                                     cav_pass_group_get_before (sheet->plan, group),
                                                     pass, sheet->options));
  if (group->ladder != CAV_LADDER_NONE)
    g_ptr_array_add (texts, cav_words_describe_ladder (sheet->plan, group, sheet->options));
  if (release != NULL)
    g_ptr_array_add (texts, g_strdup (release));
  return texts;
}

double
cav_panel_get_longest_word (const CavPassSheet *sheet, const CavPassGroup *group)
{
  g_autoptr (GPtrArray) texts = list_changes (sheet, group);
  double width = 0;

  for (guint i = 0; i < texts->len; i++)
    {
      g_auto (GStrv) words = g_strsplit (g_ptr_array_index (texts, i), " ", -1);

      for (guint j = 0; words[j] != NULL; j++)
        {
          g_auto (GStrv) parts = g_strsplit (words[j], "\302\240", -1);

          for (guint k = 0; parts[k] != NULL; k++)
            width = MAX (
                width, cav_lettering_get_width (sheet->lettering, parts[k], CAV_PANEL_SIDE, TRUE));
        }
    }
  return width;
}

GPtrArray *
cav_panel_wrap_changes (const CavPassSheet *sheet, const CavPassGroup *group, double width)
{
  g_autoptr (GPtrArray) texts = list_changes (sheet, group);
  GPtrArray *lines = g_ptr_array_new_with_free_func (g_free);

  for (guint i = 0; i < texts->len; i++)
    {
      g_autoptr (GPtrArray) more = wrap_change (sheet, g_ptr_array_index (texts, i), width);

      g_ptr_array_extend_and_steal (lines, g_steal_pointer (&more));
    }
  return lines;
}

static void
add_wrapped (const CavPassSheet *sheet, GPtrArray *lines, const char *text, double width)
{
  g_autoptr (GPtrArray) more = NULL;

  if (text == NULL)
    return;
  more = cav_lettering_wrap (sheet->lettering, text, CAV_LETTER_SMALL, FALSE, width, 0);
  g_ptr_array_extend_and_steal (lines, g_steal_pointer (&more));
}

/* A trial is asked for where a setup begins: its first pass sets what the others are moved from. */
GPtrArray *
cav_panel_wrap_hint (const CavPassSheet *sheet, const CavPassGroup *group, double width)
{
  g_autofree char *trial = group->first > 0
                               ? NULL
                               : cav_words_describe_trial (
                                   sheet->plan, cav_pass_sheet_get_setup (sheet, group),
                                   cav_pass_group_get_pass (sheet->plan, group, 0), sheet->options);
  const CavSetup *setup = cav_pass_sheet_get_setup (sheet, group);
  const CavPass *before = cav_pass_group_get_before (sheet->plan, group);
  const CavPass *pass = cav_pass_group_get_pass (sheet->plan, group, 0);
  g_autofree char *order
      = cav_words_describe_order (sheet->plan, setup, before, pass, sheet->options);
  g_autofree char *shown = cav_words_describe_shown (sheet->plan, group, sheet->options);
  g_autofree char *boxes = cav_pass_ladder_dup_boxes (sheet, group);
  GPtrArray *lines = g_ptr_array_new_with_free_func (g_free);

  add_wrapped (sheet, lines, order, width);
  if (before == NULL)
    add_wrapped (sheet, lines, cav_words_get_middle (setup), width);
  add_wrapped (sheet, lines, cav_words_get_parallel (setup, before, pass), width);
  add_wrapped (sheet, lines, cav_words_get_ladder_order (sheet->plan, group), width);
  add_wrapped (sheet, lines, boxes, width);
  add_wrapped (sheet, lines, cav_words_get_stays (sheet->plan, group), width);
  add_wrapped (sheet, lines, shown, width);
  add_wrapped (sheet, lines, trial, width);
  return lines;
}

double
cav_panel_measure_words (const CavPassSheet *sheet, const CavPassGroup *group, double width)
{
  g_autoptr (GPtrArray) changes = cav_panel_wrap_changes (sheet, group, width);
  g_autoptr (GPtrArray) hint = cav_panel_wrap_hint (sheet, group, width);
  g_autoptr (GPtrArray) cautions = cav_panel_wrap_cautions (sheet, group, width, NULL);

  return CAV_PANEL_CHANGE + changes->len * CAV_PANEL_SIDE_LINE + (hint->len + cautions->len) * LINE;
}
