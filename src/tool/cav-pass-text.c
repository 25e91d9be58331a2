/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "tool/cav-pass-text.h"
#include "tool/cav-text.h"

#include <math.h>
#include <string.h>

/* Settings nearer than this are the same setting: far below the finest step of a machine. */
#define SAME_SETTING 1e-6
/* Where the texts beside the headings begin. */
#define INDENT 11

/* Widths of the columns; measured is the widest label that the plan needs. */
enum
{
  WIDTH_NUMBER = 4,
  WIDTH_SIDE = 8,
  WIDTH_CHIPS = 7,
};

typedef struct
{
  GString *out;
  CavProject *project;
  const CavPlan *plan;
  CavUnit unit;
  int width_length;   /* of a column of lengths */
  int width_measured; /* of the column that says how the fence is measured */
  guint n_cautions;
  CavCaution cautions[CAV_N_CAUTIONS]; /* in the order in which they are first met */
} PassText;

/* Figures */

/* A length for a column: fractions right-aligned, decimals with their marks one below the other. */
static void
append_length_cell (PassText *self, double mm)
{
  g_autofree char *text = cav_length_format_bare (mm, self->unit, CAV_TEXT_DENOMINATOR);
  g_autofree char *cell = NULL;
  const char *mark = strchr (text, '.');

  if (self->unit == CAV_UNIT_MM)
    cell = g_strdup_printf ("%s%*s", text, mark != NULL ? 3 - (int)strlen (mark) : 3, "");
  cav_text_append_cell (self->out, cell != NULL ? cell : text, self->width_length, TRUE);
}

static char *
format_length (const PassText *self, double mm)
{
  return cav_length_format (mm, self->unit, CAV_TEXT_DENOMINATOR);
}

static char *
format_bare (const PassText *self, double mm)
{
  return cav_length_format_bare (mm, self->unit, CAV_TEXT_DENOMINATOR);
}

static char *
format_minutes (double minutes)
{
  return cav_text_format_number (minutes, 1);
}

static void G_GNUC_PRINTF (3, 4)
    append_head (PassText *self, const char *head, const char *format, ...)
{
  g_autofree char *padded = g_strdup_printf ("%-*s", INDENT, head);
  g_autofree char *text = NULL;
  va_list arguments;

  va_start (arguments, format);
  text = g_strdup_vprintf (format, arguments);
  va_end (arguments);
  cav_text_append_wrapped (self->out, padded, INDENT, text);
}

/* Tools by their names, or by their ids where they have none. */

static char *
format_tool_name (const CavShop *shop, const CavSetup *setup)
{
  const char *name = NULL;

  if (setup->machine == CAV_MACHINE_ROUTER)
    {
      const CavCutter *cutter = cav_shop_find_cutter (shop, setup->tool);

      name = cutter != NULL ? cutter->name : NULL;
    }
  else
    {
      const CavBlade *blade = cav_shop_find_blade (shop, setup->tool);

      name = blade != NULL ? blade->name : NULL;
    }
  return cav_text_clean (name != NULL && name[0] != '\0' ? name : setup->tool);
}

/* What tells the tool from others in the drawer. */
static char *
format_tool_figures (const PassText *self, const CavSetup *setup)
{
  const CavShop *shop = self->plan->shop;
  const CavCutter *cutter;
  const CavBlade *blade;
  g_autofree char *diameter = NULL;

  if (setup->machine == CAV_MACHINE_ROUTER)
    {
      cutter = cav_shop_find_cutter (shop, setup->tool);
      if (cutter == NULL)
        return g_strdup ("router table");
      double greatest = 2.0 * cav_cutter_get_greatest_radius (cutter);
      double speed = cav_shop_get_greatest_speed (greatest);

      if (cutter->speed > 0.0)
        speed = fmin (speed, cutter->speed);
      diameter = format_length (self, greatest);
      return g_strdup_printf ("router table: diameter %s, at most %.0f turns a minute", diameter,
                              speed);
    }
  blade = cav_shop_find_blade (shop, setup->tool);
  if (blade == NULL)
    return g_strdup ("table saw");
  g_autofree char *kerf = format_length (self, blade->kerf);

  diameter = format_length (self, blade->diameter);
  return g_strdup_printf ("table saw: diameter %s, kerf %s", diameter, kerf);
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

/* The head */

static void
append_title (PassText *self)
{
  g_autofree char *title = cav_text_clean (cav_project_get_title (self->project));

  g_string_append_printf (self->out, "%s\n\n", title[0] != '\0' ? title : "Untitled project");
}

static void
append_blank (PassText *self)
{
  const CavPlan *plan = self->plan;
  g_autofree char *width = format_bare (self, plan->blank.width);
  g_autofree char *thickness = format_length (self, plan->blank.thickness);
  g_autofree char *inside = format_length (self, plan->carrier_inside);
  g_autofree char *outside = format_length (self, plan->carrier_outside);
  g_autoptr (GString) carrier = g_string_new (NULL);

  if (plan->carrier_inside > SAME_SETTING)
    g_string_append_printf (carrier, "%s at the inside", inside);
  if (plan->carrier_outside > SAME_SETTING)
    g_string_append_printf (carrier, "%s%s at the outside", carrier->len > 0 ? ", " : "", outside);
  if (carrier->len > 0)
    {
      g_string_prepend (carrier, ", which includes a carrier (");
      g_string_append (carrier, "): it steadies the rail and is sawn off last");
    }
  append_head (self, "Prepare", "blanks %s x %s%s", width, thickness, carrier->str);
}

static void
append_tools (PassText *self)
{
  const CavPlan *plan = self->plan;
  const char *head = "Lay out";

  for (guint i = 0; i < plan->setups->len; i++)
    {
      const CavSetup *setup = g_ptr_array_index (plan->setups, i);

      if (is_first_use (plan, i))
        {
          g_autofree char *name = format_tool_name (plan->shop, setup);
          g_autofree char *figures = format_tool_figures (self, setup);

          append_head (self, head, "%s (%s)", name, figures);
          head = "";
        }
    }
}

static void
append_rails (PassText *self)
{
  const CavPlan *plan = self->plan;
  const CavWood *wood = cav_project_get_wood (self->project);
  g_autofree char *length = cav_length_format (plan->length, self->unit, 4);

  append_head (self, "Rails", "%d, together %s, with length to spare on each for trial cuts",
               plan->rails, length);
  if (wood != NULL)
    append_head (self, "Wood", "%s", wood->name);
  if (plan->shop->name != NULL && plan->shop->name[0] != '\0')
    {
      g_autofree char *name = cav_text_clean (plan->shop->name);

      append_head (self, "Shop", "%s", name);
    }
}

static void
append_figures (PassText *self)
{
  append_head (self, "Figures",
               self->unit == CAV_UNIT_MM
                   ? "in mm, chips in mm²; the layer is the thickest that a pass takes, upward"
                   : "in inches, chips in square inches; the layer is the thickest that a pass "
                     "takes, upward");
  append_head (
      self, "Fence",
      "set it after the height, for what shows of a cutter changes with that; + moves it "
      "away from the blade, at the router table back (more cutter shows), - the other way");
}

/* Setups and passes */

static char *
format_position (const CavSetup *setup)
{
  g_autofree char *degrees = NULL;

  switch (setup->machine)
    {
    case CAV_MACHINE_SAW:
      if (fabs (setup->tilt) < SAME_SETTING)
        return g_strdup ("blade upright");
      degrees = cav_text_format_number (fabs (setup->tilt), 2);
      return g_strdup_printf ("blade tilted %s° %s the fence", degrees,
                              setup->tilt > 0.0 ? "away from" : "toward");
    case CAV_MACHINE_COVE:
      degrees = cav_text_format_number (setup->angle, 2);
      return g_strdup_printf ("fence at %s° to the blade", degrees);
    case CAV_MACHINE_ROUTER:
      return g_strdup (setup->tool_stays ? "still in" : "");
    }
  g_return_val_if_reached (NULL);
}

static void
append_setup (PassText *self, const CavSetup *setup, guint number)
{
  g_autofree char *name = format_tool_name (self->plan->shop, setup);
  g_autofree char *position = format_position (setup);
  g_autofree char *minutes = format_minutes (setup->minutes);
  g_autofree char *head = g_strdup_printf ("Setup %u", number);

  g_string_append_c (self->out, '\n');
  append_head (self, head, "%s: %s%s%s (%s min)",
               setup->machine == CAV_MACHINE_ROUTER ? "router table" : "table saw", name,
               position[0] != '\0' ? ", " : "", position, minutes);
}

static void
append_column_heads (PassText *self)
{
  GString *out = self->out;

  g_string_append_c (out, '\n');
  cav_text_append_cell (out, "Pass", WIDTH_NUMBER, TRUE);
  g_string_append (out, "  ");
  cav_text_append_cell (out, "Down", WIDTH_SIDE, FALSE);
  g_string_append (out, "  ");
  cav_text_append_cell (out, "At fence", WIDTH_SIDE, FALSE);
  cav_text_append_cell (out, "Fence", self->width_length + 1, TRUE);
  g_string_append (out, "  ");
  cav_text_append_cell (out, "measured", self->width_measured, FALSE);
  cav_text_append_cell (out, "Height", self->width_length + 1, TRUE);
  cav_text_append_cell (out, "Chips", WIDTH_CHIPS + 1, TRUE);
  cav_text_append_cell (out, "Layer", self->width_length + 1, TRUE);
  g_string_append_c (out, '\n');
}

static void
append_chips (PassText *self, double area)
{
  char buffer[64];

  if (self->unit == CAV_UNIT_MM)
    g_ascii_formatd (buffer, sizeof buffer, "%.1f", area);
  else
    g_ascii_formatd (buffer, sizeof buffer, "%.3f", area / (25.4 * 25.4));
  cav_text_append_cell (self->out, buffer, WIDTH_CHIPS + 1, TRUE);
}

static void
append_row (PassText *self, const CavSetup *setup, const CavPass *pass, guint number)
{
  GString *out = self->out;
  double figure;
  CavMeasure measure = cav_pass_get_measure (self->plan, setup, pass, &figure);

  g_string_append_printf (out, "%*u  ", WIDTH_NUMBER, number);
  cav_text_append_cell (out, cav_side_to_string (pass->down), WIDTH_SIDE, FALSE);
  g_string_append (out, "  ");
  cav_text_append_cell (out, cav_side_to_string (pass->against), WIDTH_SIDE, FALSE);
  g_string_append_c (out, ' ');
  append_length_cell (self, figure);
  g_string_append (out, "  ");
  cav_text_append_cell (out, cav_measure_get_label (measure), self->width_measured, FALSE);
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

static void
append_move (const PassText *self, GString *list, const char *what, double by)
{
  g_autofree char *length = NULL;
  g_autofree char *item = NULL;

  if (fabs (by) < SAME_SETTING)
    return;
  length = format_bare (self, fabs (by));
  item = g_strdup_printf ("%s %c %s", what, by > 0.0 ? '+' : '-', length);
  append_item (list, ", ", item);
}

/* What the hands do between the pass before and this one. The fence is moved by what its distance
 * to blade or cutter changes; where that is measured in another way, or a wooden fence comes on,
 * the figure is set anew. */
static void
append_changes (const PassText *self,
                GString *list,
                const CavSetup *setup,
                const CavPass *before,
                const CavPass *pass)
{
  double figure;

  if (before == NULL)
    {
      append_item (list, ", ", "set fence and height");
      return;
    }
  if (before->down != pass->down || before->against != pass->against)
    {
      g_autofree char *turn
          = g_strdup_printf ("turn: %s down, %s at the fence", cav_side_to_string (pass->down),
                             cav_side_to_string (pass->against));

      append_item (list, ", ", turn);
    }
  if (cav_pass_get_measure (self->plan, setup, before, &figure)
          != cav_pass_get_measure (self->plan, setup, pass, &figure)
      || before->sacrificial != pass->sacrificial)
    append_item (list, ", ", "set the fence anew");
  else
    append_move (self, list, "fence", pass->fence - before->fence);
  append_move (self, list, "height", pass->height - before->height);
  if (list->len == 0)
    append_item (list, ", ", "nothing is moved");
}

/* The number under which a caution stands at the foot. */
static guint
number_caution (PassText *self, CavCaution caution)
{
  for (guint i = 0; i < self->n_cautions; i++)
    if (self->cautions[i] == caution)
      return i + 1;
  self->cautions[self->n_cautions++] = caution;
  return self->n_cautions;
}

static void
append_caution_numbers (PassText *self, GString *list, guint cautions)
{
  g_autoptr (GString) numbers = g_string_new (NULL);

  for (guint bit = 0; bit < CAV_N_CAUTIONS; bit++)
    if (cautions & (1u << bit))
      {
        g_autofree char *number
            = g_strdup_printf ("%u", number_caution (self, (CavCaution)(1u << bit)));

        append_item (numbers, ", ", number);
      }
  if (numbers->len > 0)
    g_string_append_printf (list, "; see caution%s %s", strchr (numbers->str, ',') ? "s" : "",
                            numbers->str);
}

static void
append_pass (
    PassText *self, const CavSetup *setup, const CavPass *before, const CavPass *pass, guint number)
{
  g_autoptr (GString) notes = g_string_new (NULL);

  append_row (self, setup, pass, number);
  append_changes (self, notes, setup, before, pass);
  if (pass->frees_rail)
    append_item (notes, "; ", "the rail comes free of its carrier");
  else if (pass->severs)
    append_item (notes, "; ", "a piece comes off");
  if (pass->sacrificial)
    append_item (notes, "; ", "sacrificial fence");
  append_caution_numbers (self, notes, pass->cautions);
  cav_text_append_wrapped (self->out, "      ", 6, notes->str);
}

static void
append_passes (PassText *self)
{
  const CavPlan *plan = self->plan;
  guint number = 0;

  for (guint i = 0; i < plan->setups->len; i++)
    {
      const CavSetup *setup = g_ptr_array_index (plan->setups, i);
      const CavPass *before = NULL;

      append_setup (self, setup, i + 1);
      append_column_heads (self);
      for (guint j = 0; j < setup->passes->len; j++)
        {
          const CavPass *pass = g_ptr_array_index (setup->passes, j);

          append_pass (self, setup, before, pass, ++number);
          before = pass;
        }
    }
}

/* The foot */

static void
append_totals (PassText *self)
{
  const CavPlan *plan = self->plan;
  g_autofree char *total = format_minutes (plan->minutes);
  g_autofree char *setups = format_minutes (plan->minutes_setups);
  g_autofree char *passes = format_minutes (plan->minutes_passes);
  g_autofree char *hand = format_minutes (plan->minutes_hand);
  g_autofree char *gouge = cav_text_format_number (fmax (plan->gouge, 0.0), 3);
  guint n_setups = plan->setups->len;
  guint n_passes = cav_plan_get_pass_count (plan);

  g_string_append_c (self->out, '\n');
  append_head (self, "Totals", "%u %s, %u %s, %s minutes: setups %s, passes %s, hand work %s",
               n_setups, n_setups == 1 ? "setup" : "setups", n_passes,
               n_passes == 1 ? "pass" : "passes", total, setups, passes, hand);
  append_head (self, "Proof",
               "simulated pass by pass; the deepest that any pass enters the profile is %s mm",
               gouge);
}

static void
append_place (PassText *self, const CavLeftoverPlace *place)
{
  g_autofree char *where = cav_text_format_place (place->place.x, place->place.y, self->unit);
  g_autofree char *thickness = format_length (self, place->thickness);
  g_autofree char *advice = cav_text_clean (place->advice != NULL   ? place->advice
                                            : place->reason != NULL ? place->reason
                                                                    : "");

  append_head (self, "", "at %s (%s thick): %s", where, thickness, advice);
}

static void
append_leftover (PassText *self)
{
  const CavPlan *plan = self->plan;
  g_autofree char *area = cav_text_format_area (plan->leftover_area, self->unit);
  g_autofree char *thickness = format_length (self, plan->leftover_thickness);

  if (plan->leftover_area < 0.05)
    append_head (self, "Leftover", "none");
  else
    append_head (self, "Leftover",
                 "%s of the section, at most %s thick, is left for plane, scraper and sandpaper",
                 area, thickness);
  if (plan->places->len > 0)
    append_head (self, "",
                 "thicker than the limit (places from the inside and the back of the blank):");
  for (guint i = 0; i < plan->places->len; i++)
    append_place (self, g_ptr_array_index (plan->places, i));
}

static void
append_findings (PassText *self)
{
  g_autoptr (GPtrArray) findings = cav_project_create_findings (self->project, self->plan);

  if (findings->len > 0)
    g_string_append (self->out, "\nWorth a look\n");
  for (guint i = 0; i < findings->len; i++)
    {
      const CavFinding *finding = g_ptr_array_index (findings, i);
      g_autofree char *text = cav_finding_text_create (finding, self->unit);
      g_autofree char *head = g_strdup_printf ("  %-9s", cav_finding_text_get_word (finding));

      cav_text_append_wrapped (self->out, head, INDENT, text);
    }
}

static void
append_cautions (PassText *self)
{
  if (self->n_cautions > 0)
    g_string_append (self->out, "\nCautions\n");
  for (guint i = 0; i < self->n_cautions; i++)
    {
      g_autofree char *head = g_strdup_printf ("%3u  ", i + 1);

      cav_text_append_wrapped (self->out, head, 5, cav_caution_get_sentence (self->cautions[i]));
    }
}

static void
append_foot (PassText *self)
{
  g_string_append_c (self->out, '\n');
  if (self->unit == CAV_UNIT_INCH)
    cav_text_append_wrapped (
        self->out, "", 0,
        "A figure with ≈ is rounded to the nearest 1/64 inch; what was proved is "
        "the figure in millimetres, and cuts that must meet are set by those.");
  cav_text_append_wrapped (
      self->out, "", 0,
      "All rails go through a pass before anything is moved. Try every setting on "
      "scrap. The manuals of the machines, local rules and trained practice come "
      "before anything that is printed here.");
}

/* The measuring column is as wide as the labels of this plan ask for. */
static int
find_measured_width (const CavPlan *plan)
{
  int width = cav_text_get_width ("measured");

  for (guint i = 0; i < plan->setups->len; i++)
    {
      const CavSetup *setup = g_ptr_array_index (plan->setups, i);

      for (guint j = 0; j < setup->passes->len; j++)
        {
          double figure;
          CavMeasure measure
              = cav_pass_get_measure (plan, setup, g_ptr_array_index (setup->passes, j), &figure);

          width = MAX (width, cav_text_get_width (cav_measure_get_label (measure)));
        }
    }
  return width;
}

char *
cav_pass_text_create (CavProject *project, const CavPlan *plan, CavUnit unit)
{
  PassText self = {
    .out = g_string_new (NULL),
    .project = project,
    .plan = plan,
    .unit = unit,
    .width_length = unit == CAV_UNIT_MM ? 7 : 10,
    .width_measured = find_measured_width (plan),
  };

  append_title (&self);
  append_blank (&self);
  append_rails (&self);
  append_tools (&self);
  append_figures (&self);
  append_passes (&self);
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
      return "note";
    case CAV_FINDING_CAUTION:
      return "caution";
    case CAV_FINDING_WRONG:
      return "wrong";
    }
  g_return_val_if_reached (NULL);
}

char *
cav_finding_text_create (const CavFinding *finding, CavUnit unit)
{
  g_autofree char *message = cav_text_clean (finding->message);
  g_autofree char *place = NULL;

  if (!finding->has_place)
    return g_steal_pointer (&message);
  place = cav_text_format_place (finding->place.x, finding->place.y, unit);
  return g_strdup_printf ("at %s: %s", place, message);
}
