/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/cav-pass-words.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

#include "drawing/cav-pass-group.h"
#include "drawing/cav-piece-words.h"
#include "drawing/cav-sheet-private.h"
#include "drawing/cav-words-private.h"
#include "geometry/cav-unit.h"

#define SAME CAV_SETTING_SAME
#define STAY CAV_STAY
/* Before what was rounded to a fraction; and where no line may break. */
#define ABOUT "≈ "
#define ABOUT_STAYING "≈" STAY
/* Of inches on a tape. */
#define TAPE_DENOMINATOR 16
/* Less than this stands for no leftover at all, mm² and mm. */
#define LEFTOVER_NOTHING 0.05
#define LEFTOVER_THIN 0.05

const char *
cav_words_get_machine (CavMachine machine)
{
  switch (machine)
    {
    case CAV_MACHINE_SAW:
      return _ ("Table saw");
    case CAV_MACHINE_COVE:
      return _ ("Table saw, coving");
    case CAV_MACHINE_ROUTER:
      return _ ("Router table");
    }
  g_return_val_if_reached ("");
}

const char *
cav_words_get_down (CavSide side)
{
  static const char *const words[CAV_N_SIDES]
      = { N_ ("back down"), N_ ("face down"), N_ ("inside down"), N_ ("outside down") };

  return _ (words[side]);
}

const char *
cav_words_get_against (CavSide side)
{
  static const char *const words[CAV_N_SIDES] = { N_ ("back to fence"), N_ ("face to fence"),
                                                  N_ ("inside to fence"), N_ ("outside to fence") };

  return _ (words[side]);
}

const char *
cav_words_get_measure (CavMeasure measure)
{
  switch (measure)
    {
    case CAV_MEASURE_FENCE_TO_TOOTH:
      return C_ ("short label of a figure", "Fence to tooth");
    case CAV_MEASURE_BLADE_IN_FENCE:
      return C_ ("short label of a figure", "Blade shows");
    case CAV_MEASURE_FENCE_TO_MIDDLE:
      return C_ ("short label of a figure", "Fence to middle");
    case CAV_MEASURE_CUTTER_SHOWS:
      return C_ ("short label of a figure", "Cutter shows");
    case CAV_MEASURE_FENCE_TO_CUTTER:
      return C_ ("short label of a figure", "Fence to cutter");
    }
  g_return_val_if_reached ("");
}

const char *
cav_words_get_caution (CavCaution caution)
{
  switch (caution)
    {
    case CAV_CAUTION_THIN_WALL:
      return C_ ("short caution", "Thin wall: feed slowly");
    case CAV_CAUTION_SMALL_RAIL:
      return C_ ("short caution", "Small rail: hold-down, push block");
    case CAV_CAUTION_SHORT_RAIL:
      return C_ ("short caution", "Short rail: mill in pairs, part later");
    case CAV_CAUTION_LARGE_CUTTER:
      return C_ ("short caution", "Large cutter: turn the speed down");
    case CAV_CAUTION_COVING:
      return C_ ("short caution", "No guard fits: push blocks, feed slowly");
    case CAV_CAUTION_HIDDEN_BLADE:
      return C_ ("short caution", "Tool is hidden: mind where it comes out");
    case CAV_CAUTION_ALTERNATE:
      return C_ ("short caution", "Teeth leave ridges: scrape them");
    case CAV_CAUTION_FEATHERBOARD:
      return C_ ("short caution", "Featherboard against the fence");
    case CAV_CAUTION_SACRIFICIAL:
      return C_ ("short caution", "Sacrificial fence on");
    case CAV_CAUTION_SEVERS:
      return C_ ("short caution", "A piece comes off: stand aside");
    default:
      return "";
    }
}

/* A length that no line breaks in. */
static char *
keep_together (char *length)
{
  g_auto (GStrv) parts = g_strsplit (length, " ", -1);

  g_free (length);
  return g_strjoinv (STAY, parts);
}

char *
cav_words_format (double mm, const CavSheetOptions *options)
{
  return keep_together (cav_length_format_bare (mm, options->unit, options->denominator));
}

char *
cav_words_format_unit (double mm, const CavSheetOptions *options)
{
  return keep_together (cav_length_format (mm, options->unit, options->denominator));
}

/* What a tape is read by, mm. */
static double
get_mark (CavUnit unit)
{
  return unit == CAV_UNIT_INCH ? CAV_INCH / TAPE_DENOMINATOR : 1.0;
}

double
cav_words_round_up (double mm, CavUnit unit)
{
  const double mark = get_mark (unit);

  return ceil (mm / mark - SAME) * mark;
}

char *
cav_words_format_up (double mm, const CavSheetOptions *options)
{
  return cav_words_format_unit (cav_words_round_up (mm, options->unit), options);
}

double
cav_words_round_place (double mm, CavUnit unit)
{
  const double mark = get_mark (unit);

  return round (mm / mark) * mark;
}

const char *
cav_words_skip_about (const char *length)
{
  return g_str_has_prefix (length, ABOUT_STAYING) ? length + strlen (ABOUT_STAYING) : length;
}

char *
cav_words_format_figure (double mm, CavUnit unit, int denominator, gboolean *out_about)
{
  g_autofree char *text = cav_length_format_bare (mm, unit, denominator);

  *out_about = g_str_has_prefix (text, ABOUT);
  return g_strdup (*out_about ? text + strlen (ABOUT) : text);
}

char *
cav_words_format_degrees (double degrees)
{
  return cav_length_format_bare (degrees, CAV_UNIT_MM, 1);
}

char *
cav_words_dup_tool (const CavPlan *plan, const CavSetup *setup)
{
  const CavCutter *cutter = cav_shop_find_cutter (plan->shop, setup->tool);
  const CavBlade *blade = cav_shop_find_blade (plan->shop, setup->tool);
  const char *name = setup->machine == CAV_MACHINE_ROUTER ? (cutter != NULL ? cutter->name : NULL)
                     : blade != NULL                      ? blade->name
                                                          : NULL;

  return g_strdup (name != NULL && *name != '\0' ? cav_shop_translate_name (name) : setup->tool);
}

char *
cav_words_describe_tool (const CavPlan *plan, const CavSetup *setup, const CavSheetOptions *options)
{
  const CavCutter *cutter = cav_shop_find_cutter (plan->shop, setup->tool);
  const CavBlade *blade = cav_shop_find_blade (plan->shop, setup->tool);
  g_autofree char *diameter = NULL;

  if (setup->machine == CAV_MACHINE_ROUTER && cutter != NULL)
    {
      double greatest = 2 * cav_cutter_get_greatest_radius (cutter);
      double speed = cav_shop_get_greatest_speed (greatest);

      if (cutter->speed > 0)
        speed = fmin (speed, cutter->speed);
      diameter = cav_words_format_unit (greatest, options);
      return g_strdup_printf (cutter->family == CAV_CUTTER_STRAIGHT && !cutter->has_pilot
                                  ? _ ("%s, cutter without bearing, at most %.0f turns a minute")
                                  : _ ("%s, at most %.0f turns a minute"),
                              diameter, speed);
    }
  if (setup->machine != CAV_MACHINE_ROUTER && blade != NULL)
    {
      g_autofree char *kerf = cav_words_format (blade->kerf, options);

      diameter = cav_words_format_unit (blade->diameter, options);
      return g_strdup_printf (_ ("%s, kerf %s"), diameter, kerf);
    }
  return g_strdup ("");
}

char *
cav_words_describe_setting (const CavSetup *setup, gboolean in_line)
{
  g_autofree char *degrees = NULL;

  if (setup->machine == CAV_MACHINE_ROUTER)
    return NULL;
  if (setup->machine == CAV_MACHINE_COVE)
    {
      degrees = cav_words_format_degrees (setup->angle);
      return g_strdup_printf (in_line ? C_ ("within a line", "fence at %s° to the blade")
                                      : _ ("Fence at %s° to the blade"),
                              degrees);
    }
  if (fabs (setup->tilt) < SAME)
    return g_strdup (in_line ? C_ ("within a line", "blade upright") : _ ("Blade upright"));
  degrees = cav_words_format_degrees (fabs (setup->tilt));
  if (setup->tilt > 0)
    return g_strdup_printf (in_line ? C_ ("within a line", "tilt %s° away from the fence")
                                    : _ ("Tilt %s° away from the fence"),
                            degrees);
  return g_strdup_printf (in_line ? C_ ("within a line", "tilt %s° toward the fence")
                                  : _ ("Tilt %s° toward the fence"),
                          degrees);
}

static void
add_part (GString *text, const char *part)
{
  g_string_append_printf (text, "%s%s", text->len > 0 ? ", " : "", part);
}

/* How far to move, to the nearest fraction: the figure to set is the one that says exactly. */
static void
add_difference (GString *text, gboolean is_fence, double difference, const CavSheetOptions *options)
{
  g_autofree char *figure = cav_words_format (fabs (difference), options);
  const char *bare = cav_words_skip_about (figure);
  const char *sign = difference > 0 ? "+" : "−";
  g_autofree char *amount = NULL;
  g_autofree char *part = NULL;

  if (fabs (difference) <= SAME)
    return;
  if (!g_str_equal (bare, "0"))
    amount = g_strdup (bare);
  else if (options->denominator == CAV_LENGTH_DECIMAL)
    amount = g_strdup (_ ("less than 0.001"));
  else
    amount = g_strdup_printf (_ ("less than 1/%d"), options->denominator);
  /* Translators: by how far to move it: “fence + 3.2”. The blanks are of the kind that does not
   * break. */
  part = g_strdup_printf (
      is_fence ? _ ("fence\302\240%s\302\240%s") : _ ("height\302\240%s\302\240%s"), sign, amount);
  add_part (text, part);
}

/* Where the blade stands in a sacrificial fence, the fence only ever moves with the blade below the
 * table. */
static gboolean
is_raised_into_fence (const CavSetup *setup, const CavPass *before, const CavPass *pass)
{
  return setup->machine == CAV_MACHINE_SAW && pass->sacrificial
         && (before == NULL || !before->sacrificial || fabs (pass->fence - before->fence) > SAME);
}

char *
cav_words_describe_change (const CavPlan *plan,
                           const CavSetup *setup,
                           const CavPass *before,
                           const CavPass *pass,
                           const CavSheetOptions *options)
{
  double figure;
  double last;
  CavMeasure measure = cav_pass_get_measure (plan, setup, pass, &figure);

  gboolean raised = is_raised_into_fence (setup, before, pass);

  if (before == NULL)
    return g_strdup (
        raised ? C_ ("before a pass", "blade below the table, set fence, then raise blade")
               : C_ ("before a pass", "set height, then fence"));

  GString *text = g_string_new (NULL);

  if (before->down != pass->down || before->against != pass->against)
    add_part (text, C_ ("before a pass", "turn the rails"));
  if (raised)
    add_part (text, C_ ("before a pass", "blade below the table"));
  /* By what the fence itself moves: the figure of a cutter also changes with its height. */
  if (cav_pass_get_measure (plan, setup, before, &last) != measure)
    add_part (text, C_ ("before a pass", "fence to its new figure"));
  else if (text->len == 0 && fabs (pass->fence - before->fence) <= SAME
           && fabs (figure - last) > SAME)
    add_part (text, C_ ("before a pass", "fence stays"));
  else
    add_difference (text, TRUE, pass->fence - before->fence, options);
  if (raised)
    add_part (text, C_ ("before a pass", "then raise the blade"));
  else
    add_difference (text, FALSE, pass->height - before->height, options);
  if (text->len == 0)
    g_string_append (text, C_ ("before a pass", "as before"));
  return g_string_free (text, FALSE);
}

/* (transfer full) (nullable) */
static char *
describe_carrier (const CavPlan *plan, const CavSheetOptions *options)
{
  g_autofree char *inside = cav_words_format_unit (plan->carrier_inside, options);
  g_autofree char *outside = cav_words_format_unit (plan->carrier_outside, options);
  gboolean has_inside = plan->carrier_inside > SAME;
  gboolean has_outside = plan->carrier_outside > SAME;

  if (has_inside && has_outside)
    return g_strdup_printf (_ ("In this width, carriers of %s at the inside and %s at the outside "
                               "steady the rail and are sawn off last."),
                            inside, outside);
  if (has_inside)
    return g_strdup_printf (_ ("In this width, a carrier of %s at the inside steadies the rail and "
                               "is sawn off last."),
                            inside);
  if (has_outside)
    return g_strdup_printf (_ ("In this width, a carrier of %s at the outside steadies the rail "
                               "and is sawn off last."),
                            outside);
  return NULL;
}

char *
cav_words_describe_blank (CavProject *project, const CavPlan *plan, const CavSheetOptions *options)
{
  g_autoptr (GArray) pieces = cav_words_list_pieces (project, plan, options);
  g_autofree char *list = cav_words_describe_pieces (pieces, project, options);
  g_autofree char *width = cav_words_format (plan->blank.width, options);
  g_autofree char *thickness = cav_words_format_unit (plan->blank.thickness, options);
  g_autofree char *carrier = describe_carrier (plan, options);
  /* Translators: a list of pieces, width and thickness of each, and a sentence. */
  g_autofree char *text = g_strdup_printf (_ ("%s; each squared to %s\302\240×\302\240%s. %s"),
                                           list, width, thickness, cav_words_get_parting (pieces));

  return carrier != NULL ? g_strconcat (text, " ", carrier, NULL) : g_steal_pointer (&text);
}

static gboolean
is_same_tool (const CavSetup *a, const CavSetup *b)
{
  return (a->machine == CAV_MACHINE_ROUTER) == (b->machine == CAV_MACHINE_ROUTER)
         && g_str_equal (a->tool, b->tool);
}

char *
cav_words_list_tools (const CavPlan *plan, const CavSheetOptions *options)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < plan->setups->len; i++)
    {
      const CavSetup *setup = g_ptr_array_index (plan->setups, i);
      g_autofree char *tool = cav_words_dup_tool (plan, setup);
      gboolean known = FALSE;

      for (guint j = 0; j < i && !known; j++)
        known = is_same_tool (g_ptr_array_index (plan->setups, j), setup);
      if (!known)
        g_string_append_printf (text, "%s%s", text->len > 0 ? "; " : "", tool);
    }
  return g_string_free (g_string_append (text, text->len > 0 ? "." : C_ ("tools", "none.")), FALSE);
}

char *
cav_words_describe_amount (const CavPlan *plan, const CavSheetOptions *options)
{
  guint n_passes = cav_plan_get_pass_count (plan);
  guint n_setups = plan->setups->len;
  g_autofree char *passes
      = g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%u pass", "%u passes", n_passes), n_passes);
  g_autofree char *setups = g_strdup_printf (
      g_dngettext (GETTEXT_PACKAGE, "%u setup", "%u setups", n_setups), n_setups);

  if (plan->minutes_hand < 0.5)
    return g_strdup_printf (
        options->unit == CAV_UNIT_INCH
            ? _ ("%s in %s, about %.0f minutes. All figures but tool names in inches.")
            : _ ("%s in %s, about %.0f minutes. All figures in millimetres."),
        passes, setups, plan->minutes);
  /* Translators: “12 passes” in “5 setups”. */
  return g_strdup_printf (
      options->unit == CAV_UNIT_INCH
          ? _ ("%s in %s, about %.0f minutes with %.0f by hand. All figures but tool names in "
               "inches.")
          : _ ("%s in %s, about %.0f minutes with %.0f by hand. All figures in millimetres."),
      passes, setups, plan->minutes, plan->minutes_hand);
}

char *
cav_words_describe_leftover (const CavPlan *plan, const CavSheetOptions *options)
{
  g_autofree char *thickness = cav_words_format_unit (plan->leftover_thickness, options);

  /* What no ruler shows goes with the marks of the tools. */
  if (plan->leftover_area < LEFTOVER_NOTHING || plan->leftover_thickness < LEFTOVER_THIN)
    return g_strdup (_ ("The tools leave the finished section; scrape and sand the surfaces that "
                        "show."));
  return g_strdup_printf (
      _ ("The tools leave up to %s over the finished section: plane, scrape and "
         "sand it down to the drawing."),
      thickness);
}

const char *
cav_words_get_assumed (const CavPlan *plan)
{
  g_autoptr (CavShop) built_in = cav_shop_new_default ();

  if (!cav_shop_equal (plan->shop, built_in))
    return NULL;
  return _ ("The shop is assumed, it came with the program: compare its tools with yours.");
}

const char *
cav_words_get_feed (void)
{
  return _ ("Table saw from the front, against the teeth; router table from right to left.");
}

/* Whether the blade does so in any pass. */
static gboolean
stands_in_fence (const CavPlan *plan)
{
  for (guint i = 0; i < plan->setups->len; i++)
    {
      const CavSetup *setup = g_ptr_array_index (plan->setups, i);

      for (guint j = 0; j < setup->passes->len; j++)
        if (((const CavPass *)g_ptr_array_index (setup->passes, j))->sacrificial)
          return TRUE;
    }
  return FALSE;
}

const char *
cav_words_get_fence (const CavPlan *plan)
{
  if (stands_in_fence (plan))
    return _ (
        "Machine off: height first, then fence; a blade in a sacrificial fence is raised last, "
        "as its pass says. + is away from the blade, or back: more cutter shows. All pieces go "
        "through a pass before anything is moved.");
  return _ ("Machine off: height first, then fence; + is away from the blade, or back: more cutter "
            "shows. All "
            "pieces go through a pass before anything is moved.");
}

const char *
cav_words_get_pictures (void)
{
  return _ ("From the outfeed side. Pencil the black triangle on every rail's end; its square "
            "corner points to face and inside.");
}

const char *
cav_words_get_foot (void)
{
  return _ (
      "Machine manuals, local rules and trained practice come first. Unplug to change a "
      "tool. Guards on wherever they fit; eye and ear protection; push block. Try each setting "
      "on the spare piece. Stop when in doubt.");
}
