/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <glib/gi18n.h>
#include <math.h>

#include "app/cav-canvas-private.h"
#include "app/cav-cut-words.h"
#include "app/cav-length-text.h"
#include "app/cav-settings.h"
#include "geometry/cav-tolerance.h"

static char *
format_number (const CavCut *cut, const CavCutNumberInfo *number, gboolean with_unit)
{
  double value = cut->numbers[number->number];

  if (!number->is_length)
    return cav_length_format_bare (value, CAV_UNIT_MM, 1);
  return with_unit ? cav_length_text_new (value) : cav_length_text_new_bare (value);
}

/* Shifts of a cut that stands at its place are not worth a word. */
static gboolean
is_worth_a_word (const CavCut *cut, CavCutNumber number)
{
  if (!cav_cut_words_has_number (cut, number))
    return FALSE;
  return (number != CAV_CUT_SHIFT_X && number != CAV_CUT_SHIFT_Y)
         || fabs (cut->numbers[number]) > CAV_TOLERANCE_POINT;
}

static void
append_numbers (GString *text, const CavCut *cut, const char *format, gboolean with_unit)
{
  const CavCutInfo *info = cav_cut_kind_get_info (cut->kind);

  for (guint i = 0; i < info->n_numbers; i++)
    {
      const CavCutNumberInfo *number = &info->numbers[i];
      g_autofree char *value = NULL;

      if (!is_worth_a_word (cut, number->number))
        continue;
      value = format_number (cut, number, with_unit);
      if (text->len > 0)
        g_string_append (text, format);
      g_string_append_printf (text, "%s %s", cav_cut_words_get_number (cut, number), value);
    }
}

char *
cav_canvas_describe_cut (const CavCut *cut)
{
  GString *text = g_string_new (cav_cut_words_get_kind (cut->kind));

  if (cut->anchor == CAV_ANCHOR_CORNER)
    g_string_append_printf (text, ", %s", cav_cut_words_get_corner (cut->corner));
  else if (cut->anchor == CAV_ANCHOR_SIDE)
    g_string_append_printf (text, ", %s", cav_cut_words_get_side (cut->side));
  append_numbers (text, cut, ", ", TRUE);
  return g_string_free (text, FALSE);
}

char *
cav_canvas_figure_cut (const CavCut *cut)
{
  GString *text = g_string_new (NULL);

  append_numbers (text, cut, "\n", FALSE);
  if (text->len == 0)
    g_string_append (text, cav_cut_words_get_kind (cut->kind));
  return g_string_free (text, FALSE);
}

/* The number that the focused handle changes. */
static void
append_handle (CavSectionCanvas *self, GString *text, const CavCut *cut)
{
  const GArray *handles = cav_canvas_get_handles (self);
  const CavCutInfo *info = cav_cut_kind_get_info (cut->kind);
  const CavHandle *handle;

  if (handles == NULL || self->focused_handle < 0 || self->focused_handle >= (int)handles->len)
    return;
  handle = &g_array_index (handles, CavHandle, self->focused_handle);
  switch (handle->kind)
    {
    case CAV_HANDLE_MOVE:
      g_string_append_printf (text, ". %s", _ ("Handle: move the cut"));
      break;
    case CAV_HANDLE_POINT:
      g_string_append_printf (text, ". %s %u", _ ("Handle: point"), handle->index + 1);
      break;
    case CAV_HANDLE_BULGE:
      g_string_append_printf (text, ". %s %u", _ ("Handle: bulge of segment"), handle->index + 1);
      break;
    case CAV_HANDLE_NUMBER:
    case CAV_HANDLE_SIZE:
      for (guint i = 0; i < info->n_numbers; i++)
        if (info->numbers[i].number == handle->numbers[0] && handle->n_numbers > 0)
          g_string_append_printf (text, ". %s %s", _ ("Handle:"),
                                  cav_cut_words_get_number (cut, &info->numbers[i]));
      break;
    }
}

static char *
describe (CavSectionCanvas *self)
{
  CavSelection *selection = cav_canvas_get_selection (self);
  guint count = cav_selection_get_cut_count (selection);
  int kind = cav_selection_get_kind (selection);
  g_autofree char *width = cav_length_text_new (self->drawn_blank.width);
  g_autofree char *thickness = cav_length_text_new (self->drawn_blank.thickness);
  g_autofree char *cut_words = NULL;
  GString *text;
  guint index;

  if (kind != CAV_NO_KIND)
    return g_strdup_printf (_ ("Drawing: %s"), cav_cut_words_get_kind ((CavCutKind)kind));
  if (count == 0)
    return g_strdup_printf (ngettext ("Blank %s by %s, %u cut, none chosen",
                                      "Blank %s by %s, %u cuts, none chosen", self->cuts->len),
                            width, thickness, self->cuts->len);
  if (!cav_selection_get_single_cut (selection, &index) || index >= self->cuts->len)
    return g_strdup_printf (ngettext ("%u cut chosen", "%u cuts chosen", count), count);
  cut_words = cav_canvas_describe_cut (g_ptr_array_index (self->cuts, index));
  text = g_string_new (cut_words);
  append_handle (self, text, g_ptr_array_index (self->cuts, index));
  return g_string_free (text, FALSE);
}

void
cav_canvas_update_words (CavSectionCanvas *self)
{
  g_autofree char *description = NULL;

  if (self->document == NULL || self->cuts == NULL)
    return;
  if (cav_canvas_is_drawable (self))
    description = describe (self);
  else
    description = g_strdup_printf (_ ("Pass %d at its machine"),
                                   cav_selection_get_pass (cav_canvas_get_selection (self)) + 1);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("Section of the molding"), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION,
                                  description, -1);
}
