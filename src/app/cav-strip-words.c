/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-strip-words.h"

#include "app/cav-length-text.h"
#include "app/cav-settings.h"
#include "drawing/cav-pass-words.h"
#include "geometry/cav-number-text.h"
#include "geometry/cav-unit.h"

#include <glib/gi18n.h>
#include <math.h>

/* Less than this stands for nothing at all, mm². */
#define LEFTOVER_NOTHING 0.05
#define LEFTOVER_THIN 0.05

static const char *
get_machine (CavMachine machine)
{
  switch (machine)
    {
    case CAV_MACHINE_SAW:
      return _ ("table saw");
    case CAV_MACHINE_COVE:
      return _ ("coving on the table saw");
    case CAV_MACHINE_ROUTER:
      return _ ("router table");
    }
  g_return_val_if_reached ("");
}

char *
cav_strip_words_new_lie (const CavPass *pass)
{
  switch (pass->down)
    {
    case CAV_SIDE_BACK:
      return g_strdup (_ ("back down"));
    case CAV_SIDE_FACE:
      return g_strdup (_ ("face down"));
    case CAV_SIDE_INSIDE:
      return g_strdup (_ ("inside down"));
    case CAV_SIDE_OUTSIDE:
      return g_strdup (_ ("outside down"));
    }
  g_return_val_if_reached (NULL);
}

/* What the fence's figure is, with %s for the figure. */
static const char *
get_fence_form (CavMeasure measure)
{
  switch (measure)
    {
    case CAV_MEASURE_FENCE_TO_TOOTH:
    case CAV_MEASURE_FENCE_TO_CUTTER:
      return _ ("fence %s");
    case CAV_MEASURE_BLADE_IN_FENCE:
      return _ ("blade shows %s");
    case CAV_MEASURE_FENCE_TO_MIDDLE:
      return _ ("fence to middle %s");
    case CAV_MEASURE_CUTTER_SHOWS:
      return _ ("cutter shows %s");
    }
  g_return_val_if_reached ("%s");
}

/* Both with the unit and in a line, or neither and one below the other. */
static char *
create_figures (const CavPlan *plan, const CavSetup *setup, const CavPass *pass, gboolean unit)
{
  double fence;
  CavMeasure measure = cav_pass_get_measure (plan, setup, pass, &fence);
  g_autofree char *figure = unit ? cav_length_text_new (fence) : cav_length_text_new_bare (fence);
  g_autofree char *height
      = unit ? cav_length_text_new (pass->height) : cav_length_text_new_bare (pass->height);
  g_autoptr (GString) text = g_string_new (get_fence_form (measure));

  g_string_replace (text, "%s", figure, 1);
  g_string_append (text, unit ? ", " : "\n");
  g_string_append (text, _ ("height %s"));
  g_string_replace (text, "%s", height, 1);
  return g_string_free (g_steal_pointer (&text), FALSE);
}

char *
cav_strip_words_new_figures (const CavPlan *plan, const CavSetup *setup, const CavPass *pass)
{
  return create_figures (plan, setup, pass, FALSE);
}

char *
cav_strip_words_new_name (const CavPlan *plan, guint setup_index, guint pass_index)
{
  const CavSetup *setup = g_ptr_array_index (plan->setups, setup_index);
  const CavPass *pass = g_ptr_array_index (setup->passes, pass_index);
  g_autofree char *lie = cav_strip_words_new_lie (pass);
  g_autofree char *figures = create_figures (plan, setup, pass, TRUE);

  return g_strdup_printf (_ ("Setup %u, pass %u: %s, %s, %s"), setup_index + 1, pass_index + 1,
                          get_machine (setup->machine), lie, figures);
}

char *
cav_strip_words_new_setup (const CavPlan *plan, guint setup_index)
{
  const CavSetup *setup = g_ptr_array_index (plan->setups, setup_index);
  g_autofree char *tool = cav_words_dup_tool (plan, setup);
  g_autofree char *setting = cav_words_describe_setting (setup, TRUE);

  if (setting != NULL)
    return g_strdup_printf (_ ("Setup %u: %s, %s, %s"), setup_index + 1,
                            get_machine (setup->machine), tool, setting);
  return g_strdup_printf (_ ("Setup %u: %s, %s"), setup_index + 1, get_machine (setup->machine),
                          tool);
}

char *
cav_strip_words_new_setup_heading (const CavPlan *plan, guint setup_index)
{
  const CavSetup *setup = g_ptr_array_index (plan->setups, setup_index);

  /* Translators: a heading, as in "Setup 2: router table". */
  return g_strdup_printf (_ ("Setup %u: %s"), setup_index + 1, get_machine (setup->machine));
}

char *
cav_strip_words_new_setup_tool (const CavPlan *plan, guint setup_index)
{
  const CavSetup *setup = g_ptr_array_index (plan->setups, setup_index);
  g_autofree char *tool = cav_words_dup_tool (plan, setup);
  g_autofree char *setting = cav_words_describe_setting (setup, TRUE);

  return setting != NULL ? g_strdup_printf ("%s, %s", tool, setting) : g_steal_pointer (&tool);
}

/* What no ruler shows goes with the marks of the tools, here as on the sheets. */
static gboolean
has_leftover (const CavPlan *plan)
{
  return plan->leftover_area >= LEFTOVER_NOTHING && plan->leftover_thickness >= LEFTOVER_THIN;
}

char *
cav_strip_words_new_totals (const CavPlan *plan)
{
  guint n_setups = plan->setups->len;
  guint n_passes = cav_plan_get_pass_count (plan);
  guint minutes = (guint)lround (fmax (plan->minutes, 0));
  g_autofree char *setups
      = g_strdup_printf (ngettext ("%u setup", "%u setups", n_setups), n_setups);
  g_autofree char *passes = g_strdup_printf (ngettext ("%u pass", "%u passes", n_passes), n_passes);
  g_autofree char *time = g_strdup_printf (ngettext ("%u minute", "%u minutes", minutes), minutes);

  if (n_passes == 0 && has_leftover (plan))
    return g_strdup (_ ("No pass can be made"));
  if (n_passes == 0)
    return g_strdup (_ ("Nothing to mill yet"));
  return g_strdup_printf (_ ("%s, %s, %s"), setups, passes, time);
}

/* "10.1 mm²" or "0.016 in²". */
static char *
create_area (double mm2)
{
  char figure[G_ASCII_DTOSTR_BUF_SIZE];
  gboolean metric = cav_settings_get_length_style ().unit == CAV_UNIT_MM;

  cav_number_format (figure, sizeof figure, metric ? "%.1f" : "%.3f",
                     metric ? mm2 : mm2 / (CAV_INCH * CAV_INCH));
  return g_strconcat (figure, metric ? " mm²" : " in²", NULL);
}

char *
cav_strip_words_new_leftover (const CavPlan *plan)
{
  g_autofree char *area = create_area (plan->leftover_area);
  g_autofree char *thickness = cav_length_text_new (plan->leftover_thickness);

  if (!has_leftover (plan))
    return g_strdup (cav_plan_get_pass_count (plan) > 0
                         ? _ ("nothing is left for hand work")
                         : _ ("choose a shape on the left, then click where it is to be cut"));
  return g_strdup_printf (_ ("%s are left for hand work, at most %s thick"), area, thickness);
}
