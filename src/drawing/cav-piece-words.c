/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <glib/gi18n-lib.h>
#include <math.h>

#include "drawing/cav-pass-words.h"
#include "drawing/cav-words-private.h"

/* Rails of one frame that are milled in strips of several, so that no strip is too short.
 * (transfer full) */
static char *
describe_strips (const CavFrame *frame, int frames, const CavSheetOptions *options)
{
  const CavFrameRails *rails = &frame->rails;
  int strips = frame->settings.sides / MAX (rails->together, 1) * frames;
  g_autofree char *length = cav_words_format_unit (ceil (rails->strip), options);
  g_autofree char *words = g_strdup_printf (
      g_dngettext (GETTEXT_PACKAGE, "%d strip of %s", "%d strips of %s", (gulong)strips), strips,
      length);

  if (rails->together <= 1)
    return g_steal_pointer (&words);
  /* Translators: “2 strips of 800 mm”, and how many rails come out of each. */
  return g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%s, %d rail in each",
                                       "%s, %d rails in each", (gulong)rails->together),
                          words, rails->together);
}

/* The rails' own lengths, each with a kerf and something to cut off at both ends. (transfer full)
 */
static char *
list_rails (const CavFrame *frame, int frames, const CavSheetOptions *options)
{
  const CavFrameRails *rails = &frame->rails;
  GString *text = g_string_new (NULL);

  for (int i = 0; i < rails->n_groups; i++)
    {
      g_autofree char *length = cav_words_format_unit (rails->groups[i].long_point, options);

      if (i > 0)
        g_string_append (text, ", ");
      /* Translators: “2 for long points of 360 mm”. */
      g_string_append_printf (text, _ ("%d for long points of %s"), rails->groups[i].count * frames,
                              length);
    }
  return g_string_free (text, FALSE);
}

static void
append_spare (GString *text, const CavLumber *lumber, const CavSheetOptions *options)
{
  g_autofree char *trial = cav_words_format_unit (lumber->test, options);
  g_autofree char *spare = cav_words_format_unit (lumber->spare, options);

  if (lumber->test > 0)
    g_string_append_printf (text, _ ("; %s more for trial cuts"), trial);
  if (lumber->spare > 0)
    g_string_append_printf (text, _ ("; %s spare"), spare);
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
      g_autofree char *strips = describe_strips (frame, frames, options);
      g_autofree char *list = list_rails (frame, frames, options);

      g_string_append_printf (text, "%s (%s)", strips, list);
    }
  else
    {
      int rails;
      double length;
      g_autofree char *together = NULL;

      cav_project_get_milled_rails (project, &rails, &length);
      together = cav_words_format_unit (length, options);
      g_string_append_printf (text,
                              g_dngettext (GETTEXT_PACKAGE, "%d rail, together %s",
                                           "%d rails, together %s", (gulong)rails),
                              rails, together);
    }
  append_spare (text, lumber, options);
  return g_string_free (g_string_append_c (text, '.'), FALSE);
}
