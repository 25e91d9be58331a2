/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>

#include "drawing/cav-pass-words.h"
#include "drawing/cav-words-private.h"

/* Rails of one frame that are milled in strips of several, so that no strip is too short. */
static void
append_strips (GString *text, const CavFrame *frame, int frames, const CavSheetOptions *options)
{
  const CavFrameRails *rails = &frame->rails;
  int strips = frame->settings.sides / MAX (rails->together, 1) * frames;
  g_autofree char *length = cav_words_format_unit (ceil (rails->strip), options);

  g_string_append_printf (text, "%d %s of %s", strips, strips == 1 ? "strip" : "strips", length);
  if (rails->together > 1)
    g_string_append_printf (text, ", %d rails in each", rails->together);
}

/* The rails' own lengths, each with a kerf and something to cut off at both ends. */
static void
append_rails (GString *text, const CavFrame *frame, int frames, const CavSheetOptions *options)
{
  const CavFrameRails *rails = &frame->rails;

  for (int i = 0; i < rails->n_groups; i++)
    {
      g_autofree char *length = cav_words_format_unit (rails->groups[i].long_point, options);

      g_string_append_printf (text, "%s%d for long points of %s", i > 0 ? ", " : " (",
                              rails->groups[i].count * frames, length);
    }
  g_string_append_c (text, ')');
}

static void
append_spare (GString *text, const CavLumber *lumber, const CavSheetOptions *options)
{
  g_autofree char *trial = cav_words_format_unit (lumber->test, options);
  g_autofree char *spare = cav_words_format_unit (lumber->spare, options);

  if (lumber->test > 0)
    g_string_append_printf (text, "; %s more for trial cuts", trial);
  if (lumber->spare > 0)
    g_string_append_printf (text, "; %s spare", spare);
}

char *
cav_words_describe_pieces (CavProject *project, const CavSheetOptions *options)
{
  const CavFrame *frame = cav_project_get_frame (project);
  const CavLumber *lumber = cav_project_get_lumber (project);
  GString *text = g_string_new (NULL);
  int frames = MAX (lumber->frames, 1);

  g_return_val_if_fail (CAV_IS_PROJECT (project), g_string_free (text, FALSE));

  if (cav_project_has_frame (project) && frame->possible)
    {
      append_strips (text, frame, frames, options);
      append_rails (text, frame, frames, options);
    }
  else
    {
      int rails;
      double length;
      g_autofree char *together = NULL;

      cav_project_get_milled_rails (project, &rails, &length);
      together = cav_words_format_unit (length, options);
      g_string_append_printf (text, "%d %s, together %s", rails, rails == 1 ? "rail" : "rails",
                              together);
    }
  append_spare (text, lumber, options);
  return g_string_free (g_string_append_c (text, '.'), FALSE);
}
