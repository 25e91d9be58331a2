/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <glib/gi18n-lib.h>
#include <string.h>

#include "drawing/cav-pass-hints.h"
#include "drawing/cav-pass-words.h"
#include "geometry/cav-number-text.h"
#include "geometry/cav-unit.h"
#include "tool/cav-pass-text-private.h"
#include "tool/cav-text.h"

/* Widths of the columns; that of lengths and that of measures depend on unit and plan. */
enum
{
  WIDTH_NUMBER = 4,
  WIDTH_CHIPS = 7,
};

/* The heads of the columns of lengths are of any language. */
static int
get_length_width (const CavPassText *self)
{
  int width = self->options.unit == CAV_UNIT_MM ? 7 : 10;

  width = MAX (width, cav_text_get_width (C_ ("column", "Fence")));
  width = MAX (width, cav_text_get_width (C_ ("column", "Height")));
  return MAX (width, cav_text_get_width (C_ ("column", "Layer")));
}

/* The columns of sides are as wide as the words of the language ask for. */
static int
find_side_width (void)
{
  int width = MAX (cav_text_get_width (C_ ("column", "Down")),
                   cav_text_get_width (C_ ("column", "At fence")));

  for (int side = 0; side < CAV_N_SIDES; side++)
    width = MAX (width, cav_text_get_width (cav_side_get_word ((CavSide)side)));
  return width;
}

/* The measuring column is as wide as the labels of this plan ask for. */
static int
find_measured_width (const CavPlan *plan)
{
  int width = cav_text_get_width (C_ ("column", "measured"));

  for (guint i = 0; i < plan->setups->len; i++)
    {
      const CavSetup *setup = g_ptr_array_index (plan->setups, i);

      for (guint j = 0; j < setup->passes->len; j++)
        {
          double figure;
          CavMeasure measure
              = cav_pass_get_measure (plan, setup, g_ptr_array_index (setup->passes, j), &figure);

          width = MAX (width, cav_text_get_width (cav_words_get_measure (measure)));
        }
    }
  return width;
}

/* A length for a column: fractions right-aligned, decimals with their marks one below the other. */
static void
append_length_cell (CavPassText *self, double mm)
{
  g_autofree char *text = cav_length_format_bare (mm, self->options.unit, CAV_TEXT_DENOMINATOR);
  g_autofree char *cell = NULL;
  const char *mark = strchr (text, cav_number_get_mark ());

  if (self->options.unit == CAV_UNIT_MM)
    cell = g_strdup_printf ("%s%*s", text, mark != NULL ? 3 - (int)strlen (mark) : 3, "");
  cav_text_append_cell (self->out, cell != NULL ? cell : text, get_length_width (self), TRUE);
}

/* What is set beside the tool; empty where there is nothing to say. (transfer full) */
static char *
format_position (const CavSetup *setup)
{
  char *position = cav_words_describe_setting (setup, TRUE);

  if (position == NULL)
    return g_strdup (setup->tool_stays ? C_ ("tool", "still in") : "");
  return position;
}

static void
append_setup (CavPassText *self, const CavSetup *setup, guint number)
{
  g_autofree char *name = cav_words_dup_tool (self->plan, setup);
  g_autofree char *clean = cav_text_clean (name);
  g_autofree char *position = format_position (setup);
  g_autofree char *minutes = cav_pass_text_format_minutes (setup->minutes);
  g_autofree char *head = g_strdup_printf (_ ("Setup %u"), number);

  g_string_append_c (self->out, '\n');
  if (position[0] != '\0')
    /* Translators: machine, tool, what is set there, and the minutes of the setup. */
    cav_pass_text_append_head (self, head, _ ("%s: %s, %s (%s min)"),
                               cav_words_get_machine (setup->machine), clean, position, minutes);
  else
    cav_pass_text_append_head (self, head, _ ("%s: %s (%s min)"),
                               cav_words_get_machine (setup->machine), clean, minutes);
  if (setup->machine == CAV_MACHINE_COVE)
    {
      g_autofree char *legs = cav_words_describe_legs (setup->angle, &self->options);

      cav_pass_text_append_head (self, "", "%s", legs);
      cav_pass_text_append_head (self, "", "%s", cav_words_get_middle (setup));
    }
}

static void
append_column_heads (CavPassText *self)
{
  GString *out = self->out;

  g_string_append_c (out, '\n');
  cav_text_append_cell (out, C_ ("column", "Pass"), WIDTH_NUMBER, TRUE);
  g_string_append (out, "  ");
  cav_text_append_cell (out, C_ ("column", "Down"), find_side_width (), FALSE);
  g_string_append (out, "  ");
  cav_text_append_cell (out, C_ ("column", "At fence"), find_side_width (), FALSE);
  cav_text_append_cell (out, C_ ("column", "Fence"), get_length_width (self) + 1, TRUE);
  g_string_append (out, "  ");
  cav_text_append_cell (out, C_ ("column", "measured"), find_measured_width (self->plan), FALSE);
  cav_text_append_cell (out, C_ ("column", "Height"), get_length_width (self) + 1, TRUE);
  cav_text_append_cell (out, C_ ("column", "Chips"), WIDTH_CHIPS + 1, TRUE);
  cav_text_append_cell (out, C_ ("column", "Layer"), get_length_width (self) + 1, TRUE);
  g_string_append_c (out, '\n');
}

static void
append_chips (CavPassText *self, double area)
{
  char buffer[64];

  if (self->options.unit == CAV_UNIT_MM)
    cav_number_format (buffer, sizeof buffer, "%.1f", area);
  else
    cav_number_format (buffer, sizeof buffer, "%.3f", area / (CAV_INCH * CAV_INCH));
  cav_text_append_cell (self->out, buffer, WIDTH_CHIPS + 1, TRUE);
}

static void
append_row (CavPassText *self, const CavSetup *setup, const CavPass *pass, guint number)
{
  GString *out = self->out;
  double figure;
  CavMeasure measure = cav_pass_get_measure (self->plan, setup, pass, &figure);

  g_string_append_printf (out, "%*u  ", WIDTH_NUMBER, number);
  cav_text_append_cell (out, cav_side_get_word (pass->down), find_side_width (), FALSE);
  g_string_append (out, "  ");
  cav_text_append_cell (out, cav_side_get_word (pass->against), find_side_width (), FALSE);
  g_string_append_c (out, ' ');
  append_length_cell (self, figure);
  g_string_append (out, "  ");
  cav_text_append_cell (out, cav_words_get_measure (measure), find_measured_width (self->plan),
                        FALSE);
  g_string_append_c (out, ' ');
  append_length_cell (self, pass->height);
  append_chips (self, pass->removes);
  g_string_append_c (out, ' ');
  append_length_cell (self, pass->bite);
  while (out->str[out->len - 1] == ' ')
    g_string_truncate (out, out->len - 1);
  g_string_append_c (out, '\n');
}

static void
append_item (GString *list, const char *separator, const char *item)
{
  if (list->len > 0)
    g_string_append (list, separator);
  g_string_append (list, item);
}

/* The number under which a caution stands at the foot. */
static guint
number_caution (CavPassText *self, CavCaution caution)
{
  for (guint i = 0; i < self->n_cautions; i++)
    if (self->cautions[i] == caution)
      return i + 1;
  self->cautions[self->n_cautions++] = caution;
  return self->n_cautions;
}

static void
append_caution_numbers (CavPassText *self, GString *list, guint cautions)
{
  g_autoptr (GString) numbers = g_string_new (NULL);
  guint n_numbers = 0;

  for (guint bit = 0; bit < CAV_N_CAUTIONS; bit++)
    if (cautions & (1u << bit))
      {
        g_autofree char *number
            = g_strdup_printf ("%u", number_caution (self, (CavCaution)(1u << bit)));

        append_item (numbers, ", ", number);
        n_numbers++;
      }
  if (numbers->len > 0)
    /* Translators: the numbers of cautions at the foot: “; see cautions 1, 3”. */
    g_string_append_printf (
        list, g_dngettext (GETTEXT_PACKAGE, "; see caution %s", "; see cautions %s", n_numbers),
        numbers->str);
}

/* What the hands do before a pass, and what it should then have cut. */
static void
append_changes (const CavPassText *self, GString *notes, guint setup_index, guint index)
{
  const CavSetup *setup = g_ptr_array_index (self->plan->setups, setup_index);
  const CavPass *pass = g_ptr_array_index (setup->passes, index);
  const CavPass *before = index > 0 ? g_ptr_array_index (setup->passes, index - 1) : NULL;
  const char *board = cav_words_get_board (cav_pass_find_board (self->plan, setup_index, index));
  g_autofree char *change
      = cav_words_describe_change (self->plan, setup, before, pass, &self->options);
  const char *parallel = cav_words_get_parallel (setup, before, pass);
  g_autofree char *order
      = cav_words_describe_order (self->plan, setup, before, pass, &self->options);
  g_autofree char *trial
      = before == NULL ? cav_words_describe_trial (self->plan, setup, pass, &self->options) : NULL;

  if (board != NULL)
    append_item (notes, "; ", board);
  append_item (notes, "; ", change);
  if (order != NULL)
    append_item (notes, "; ", order);
  if (parallel != NULL)
    append_item (notes, "; ", parallel);
  if (trial != NULL)
    append_item (notes, "; ", trial);
}

static void
append_pass (CavPassText *self, guint setup_index, guint index, guint number)
{
  const CavSetup *setup = g_ptr_array_index (self->plan->setups, setup_index);
  const CavPass *pass = g_ptr_array_index (setup->passes, index);
  g_autoptr (GString) notes = g_string_new (NULL);

  append_row (self, setup, pass, number);
  append_changes (self, notes, setup_index, index);
  if (pass->frees_rail)
    append_item (notes, "; ", cav_words_get_release (pass));
  else if (pass->severs)
    append_item (notes, "; ", _ ("a piece comes off"));
  append_caution_numbers (self, notes, pass->cautions);
  cav_text_append_wrapped (self->out, "      ", 6, notes->str);
}

void
cav_pass_table_append (CavPassText *self)
{
  const CavPlan *plan = self->plan;
  guint number = 0;

  for (guint i = 0; i < plan->setups->len; i++)
    {
      const CavSetup *setup = g_ptr_array_index (plan->setups, i);

      append_setup (self, setup, i + 1);
      append_column_heads (self);
      for (guint j = 0; j < setup->passes->len; j++)
        append_pass (self, i, j, ++number);
    }
}
