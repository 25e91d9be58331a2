/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "tool/cav-pass-text.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

#include "drawing/cav-pass-hints.h"
#include "drawing/cav-hand-words.h"
#include "drawing/cav-pass-words.h"
#include "geometry/cav-number-text.h"
#include "tool/cav-pass-text-private.h"
#include "tool/cav-text.h"

/* Where the texts beside the headings begin, at least. */
#define INDENT 11

char *
cav_pass_text_format_minutes (double minutes)
{
  return cav_number_create (minutes, 1);
}

/* Where the texts begin, as wide as the widest heading of the language asks for. */
static int
get_indent (const CavPassText *self)
{
  const char *const heads[] = {
    C_ ("head of the pass sheet", "Prepare"),   C_ ("head of the pass table", "Wood"),
    C_ ("head of the pass table", "Shop"),      C_ ("head of the pass sheet", "Lay out"),
    C_ ("head of the pass sheet", "At hand"),   C_ ("head of the pass table", "Figures"),
    C_ ("head of the pass sheet", "Feed"),      C_ ("head of the pass sheet", "Fence"),
    C_ ("head of the pass table", "Totals"),    C_ ("head of the pass table", "Proof"),
    C_ ("head of the pass table", "Last pass"), _ ("By hand"),
  };
  g_autofree char *setup = g_strdup_printf (_ ("Setup %u"), self->plan->setups->len);
  int indent = MAX (INDENT, cav_text_get_width (setup) + 2);

  for (guint i = 0; i < G_N_ELEMENTS (heads); i++)
    indent = MAX (indent, cav_text_get_width (heads[i]) + 2);
  return indent;
}

static void
append_padded_head (const CavPassText *self, GString *out, const char *head)
{
  cav_text_append_cell (out, head, get_indent (self), FALSE);
}

void
cav_pass_text_append_head (CavPassText *self, const char *head, const char *format, ...)
{
  g_autoptr (GString) padded = g_string_new (NULL);
  g_autofree char *text = NULL;
  va_list arguments;

  va_start (arguments, format);
  text = g_strdup_vprintf (format, arguments);
  va_end (arguments);
  append_padded_head (self, padded, head);
  cav_text_append_wrapped (self->out, padded->str, cav_text_get_width (padded->str), text);
}

/* The head */

static void
append_title (CavPassText *self)
{
  g_autofree char *title = cav_text_clean (cav_project_get_title (self->project));

  g_string_append_printf (self->out, "%s\n\n", title[0] != '\0' ? title : _ ("Untitled project"));
}

static gboolean
is_same_tool (const CavSetup *a, const CavSetup *b)
{
  return (a->machine == CAV_MACHINE_ROUTER) == (b->machine == CAV_MACHINE_ROUTER)
         && strcmp (a->tool, b->tool) == 0;
}

static gboolean
is_first_use (const CavPlan *plan, guint index)
{
  for (guint i = 0; i < index; i++)
    if (is_same_tool (g_ptr_array_index (plan->setups, i), g_ptr_array_index (plan->setups, index)))
      return FALSE;
  return TRUE;
}

static void
append_tools (CavPassText *self)
{
  const CavPlan *plan = self->plan;
  const char *head = C_ ("head of the pass sheet", "Lay out");
  g_autofree char *helpers = cav_words_list_helpers (plan);

  for (guint i = 0; i < plan->setups->len; i++)
    {
      const CavSetup *setup = g_ptr_array_index (plan->setups, i);
      g_autofree char *name = NULL;
      g_autofree char *clean = NULL;
      g_autofree char *figures = NULL;

      if (!is_first_use (plan, i))
        continue;
      name = cav_words_dup_tool (plan, setup);
      clean = cav_text_clean (name);
      figures = cav_words_describe_tool (plan, setup, &self->options);
      cav_pass_text_append_head (self, head, "%s%s%s", clean, *figures != '\0' ? ": " : "",
                                 figures);
      head = "";
    }
  cav_pass_text_append_head (self, C_ ("head of the pass sheet", "At hand"), "%s", helpers);
}

static void
append_rails (CavPassText *self)
{
  const CavPlan *plan = self->plan;
  const CavWood *wood = cav_project_get_wood (self->project);
  const char *assumed = cav_words_get_assumed (plan);
  g_autofree char *blank = cav_words_describe_blank (self->project, plan, &self->options);

  cav_pass_text_append_head (self, C_ ("head of the pass sheet", "Prepare"), "%s", blank);
  if (wood != NULL)
    cav_pass_text_append_head (self, C_ ("head of the pass table", "Wood"), "%s",
                               cav_wood_get_name (wood));
  if (plan->shop->name != NULL && plan->shop->name[0] != '\0')
    {
      g_autofree char *name = cav_text_clean (cav_shop_translate_name (plan->shop->name));

      cav_pass_text_append_head (self, C_ ("head of the pass table", "Shop"), "%s", name);
      if (assumed != NULL)
        cav_pass_text_append_head (self, "", "%s", assumed);
    }
}

static void
append_figures (CavPassText *self)
{
  cav_pass_text_append_head (
      self, C_ ("head of the pass table", "Figures"),
      self->options.unit == CAV_UNIT_MM
          ? _ ("in mm, chips in mm²; the layer is the thickest that a pass takes, upward")
          : _ ("in inches, chips in square inches; the layer is the thickest that a pass "
               "takes, upward"));
  cav_pass_text_append_head (self, C_ ("head of the pass sheet", "Feed"), "%s",
                             cav_words_get_feed ());
  cav_pass_text_append_head (self, C_ ("head of the pass sheet", "Fence"), "%s",
                             cav_words_get_fence (self->plan));
}

/* The foot */

static void
append_totals (CavPassText *self)
{
  const CavPlan *plan = self->plan;
  g_autofree char *total = cav_pass_text_format_minutes (plan->minutes);
  g_autofree char *setups = cav_pass_text_format_minutes (plan->minutes_setups);
  g_autofree char *passes = cav_pass_text_format_minutes (plan->minutes_passes);
  g_autofree char *hand = cav_pass_text_format_minutes (plan->minutes_hand);
  g_autofree char *gouge = cav_number_create (fmax (plan->gouge, 0.0), 3);
  guint n_setups = plan->setups->len;
  guint n_passes = cav_plan_get_pass_count (plan);
  g_autofree char *setup_words = g_strdup_printf (
      g_dngettext (GETTEXT_PACKAGE, "%u setup", "%u setups", n_setups), n_setups);
  g_autofree char *pass_words
      = g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%u pass", "%u passes", n_passes), n_passes);

  g_string_append_c (self->out, '\n');
  /* Translators: “5 setups”, “12 passes”, and the minutes of each. */
  cav_pass_text_append_head (self, C_ ("head of the pass table", "Totals"),
                             _ ("%s, %s, %s minutes: setups %s, passes %s, hand work %s"),
                             setup_words, pass_words, total, setups, passes, hand);
  cav_pass_text_append_head (
      self, C_ ("head of the pass table", "Proof"),
      _ ("simulated pass by pass; the deepest that any pass enters the profile is %s mm"), gouge);
  if (plan->shop->light_finish)
    cav_pass_text_append_head (self, C_ ("head of the pass table", "Last pass"), "%s",
                               _ ("a light one on every surface that shows"));
}

static void
append_leftover (CavPassText *self)
{
  const CavPlan *plan = self->plan;
  g_autofree char *leftover = cav_words_describe_leftover (plan, &self->options);

  cav_pass_text_append_head (self, _ ("By hand"), "%s", leftover);
  for (guint i = 0; i < plan->places->len; i++)
    {
      g_autofree char *place = cav_hand_words_describe_place (
          self->project, plan, g_ptr_array_index (plan->places, i), &self->options);
      g_autofree char *clean = cav_text_clean (place);

      cav_pass_text_append_head (self, "", "%s", clean);
    }
}

static void
append_findings (CavPassText *self)
{
  g_autoptr (GPtrArray) findings = cav_project_create_findings (self->project, self->plan);

  if (findings->len > 0)
    g_string_append_printf (self->out, "\n%s\n", _ ("Worth a look"));
  for (guint i = 0; i < findings->len; i++)
    {
      const CavFinding *finding = g_ptr_array_index (findings, i);
      g_autofree char *text = cav_finding_text_create (finding, self->options.unit);
      g_autofree char *word = g_strconcat ("  ", cav_finding_text_get_word (finding), NULL);
      g_autoptr (GString) head = g_string_new (NULL);

      append_padded_head (self, head, word);
      cav_text_append_wrapped (self->out, head->str, cav_text_get_width (head->str), text);
    }
}

static void
append_cautions (CavPassText *self)
{
  if (self->n_cautions > 0)
    g_string_append_printf (self->out, "\n%s\n", _ ("Cautions"));
  for (guint i = 0; i < self->n_cautions; i++)
    {
      g_autofree char *head = g_strdup_printf ("%3u  ", i + 1);

      cav_text_append_wrapped (self->out, head, 5, cav_caution_get_sentence (self->cautions[i]));
    }
}

static void
append_foot (CavPassText *self)
{
  g_string_append_c (self->out, '\n');
  if (self->options.unit == CAV_UNIT_INCH)
    cav_text_append_wrapped (
        self->out, "", 0,
        _ ("A figure with ≈ is rounded to the nearest 1/64 inch; what was proved is "
           "the figure in millimetres, and cuts that must meet are set by those."));
  cav_text_append_wrapped (self->out, "", 0, cav_words_get_foot ());
}

char *
cav_pass_text_create (CavProject *project, const CavPlan *plan, CavUnit unit)
{
  CavPassText self = {
    .out = g_string_new (NULL),
    .project = project,
    .plan = plan,
    .options = { .unit = unit, .denominator = CAV_TEXT_DENOMINATOR },
  };

  append_title (&self);
  append_rails (&self);
  append_tools (&self);
  append_figures (&self);
  cav_pass_table_append (&self);
  append_totals (&self);
  append_leftover (&self);
  append_findings (&self);
  append_cautions (&self);
  append_foot (&self);
  return g_string_free (self.out, FALSE);
}

const char *
cav_finding_text_get_word (const CavFinding *finding)
{
  switch (finding->severity)
    {
    case CAV_FINDING_NOTE:
      return C_ ("how grave", "note");
    case CAV_FINDING_CAUTION:
      return C_ ("how grave", "caution");
    case CAV_FINDING_WRONG:
      return C_ ("how grave", "wrong");
    }
  g_return_val_if_reached (NULL);
}

char *
cav_finding_text_create (const CavFinding *finding, CavUnit unit)
{
  g_autofree char *restyled
      = cav_length_restyle (finding->message, (CavLengthStyle){ unit, CAV_TEXT_DENOMINATOR });
  g_autofree char *message = cav_text_clean (restyled);
  g_autofree char *place = NULL;

  if (!finding->has_place)
    return g_steal_pointer (&message);
  place = cav_text_format_place (finding->place.x, finding->place.y, unit);
  return g_strdup_printf (/* Translators: a place, and what is wrong there. */ _ ("at %s: %s"),
                          place, message);
}
