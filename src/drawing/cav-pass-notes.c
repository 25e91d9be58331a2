/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/cav-pass-sheet-private.h"

#include <glib/gi18n-lib.h>

#include "drawing/cav-hand-words.h"
#include "drawing/cav-plan-section.h"

/* Leftover thinner than this is film that nobody sees in a picture, mm. */
#define FILM 0.1

gboolean
cav_pass_notes_has_picture (const CavPassSheet *sheet)
{
  const CavPlan *plan = sheet->plan;

  return plan->usable && plan->leftover != NULL && !cav_region_is_empty (plan->leftover)
         && plan->leftover_thickness > FILM;
}

static void
add_line (CavPassSheet *sheet, const char *label, const char *text)
{
  CavPassNote *note = g_new0 (CavPassNote, 1);

  note->label = g_strdup (label);
  note->text = g_strdup (text);
  g_ptr_array_add (sheet->notes, note);
}

typedef struct
{
  CavPassSheet *sheet;
  double width;
  gboolean label_above;
} Collector;

static void
add_note (const Collector *self, const char *label, const char *text)
{
  g_autofree char *clean = cav_lettering_clean (text);
  g_autoptr (GPtrArray) lines
      = cav_lettering_wrap (self->sheet->lettering, clean, CAV_LETTER_SMALL, FALSE, self->width, 0);

  if (self->label_above && label != NULL)
    {
      add_line (self->sheet, label, "");
      label = NULL;
    }
  for (guint i = 0; i < lines->len; i++)
    add_line (self->sheet, i == 0 ? label : NULL, g_ptr_array_index (lines, i));
}

/* What stays on which cut, by the numbers in the picture; then why more than is allowed does. */
static void
collect_places (const Collector *self)
{
  const CavPassSheet *sheet = self->sheet;
  const CavPlan *plan = sheet->plan;
  g_autoptr (GPtrArray) legend = cav_hand_words_list_places (sheet->project, plan, sheet->options);

  for (guint i = 0; i < legend->len; i++)
    add_note (self, NULL, g_ptr_array_index (legend, i));
  for (guint i = 0; i < plan->places->len; i++)
    {
      g_autofree char *place = cav_hand_words_describe_place (
          sheet->project, plan, g_ptr_array_index (plan->places, i), sheet->options);

      add_note (self, NULL, place);
    }
}

static void
collect_findings (const Collector *self)
{
  const CavPlan *plan = self->sheet->plan;
  const char *label = _ ("Worth a look");

  for (guint i = 0; i < plan->findings->len; i++)
    {
      const CavFinding *finding = g_ptr_array_index (plan->findings, i);
      g_autofree char *message = cav_length_restyle (
          finding->message,
          (CavLengthStyle){ self->sheet->options->unit, self->sheet->options->denominator });

      add_note (self, label, message);
      label = NULL;
    }
}

static void
collect_sentences (const Collector *self)
{
  guint cautions = cav_plan_collect_cautions (self->sheet->plan);
  const char *label = _ ("Cautions");

  for (guint i = 0; i < CAV_N_CAUTIONS; i++)
    if ((cautions & (1u << i)) != 0)
      {
        add_note (self, label, cav_caution_get_sentence ((CavCaution)(1u << i)));
        label = NULL;
      }
}

void
cav_pass_notes_collect (CavPassSheet *sheet, double width, gboolean label_above)
{
  const Collector self = { sheet, width, label_above };
  const CavPlan *plan = sheet->plan;
  g_autofree char *leftover = cav_words_describe_leftover (plan, sheet->options);

  if (!plan->usable)
    add_note (&self, _ ("Do not mill"),
              _ ("No order of passes could be proved for this section in this shop. What stands "
                 "below says why."));
  else if (cav_plan_get_pass_count (plan) == 0)
    add_note (&self, _ ("Nothing to mill"), _ ("No tool has to touch the blank for this section."));
  if (plan->usable)
    add_note (&self, _ ("By hand"), leftover);
  collect_places (&self);
  collect_findings (&self);
  collect_sentences (&self);
}

void
cav_pass_notes_draw_picture (const CavPassSheet *sheet, CavScene *scene, CavBox box)
{
  cav_plan_section_draw (scene, sheet->plan, NULL, box);
}
