/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "milling/cav-caution.h"

#include <glib/gi18n-lib.h>

/* Both sides of a rail under this are too small to be held at the router table by hand alone. */
#define SMALL_SECTION 20.0
/* A foot, as schools and machine manuals have it, rounded down. */
#define SHORT_RAIL 300.0
/* An inch, rounded down. */
#define LARGE_CUTTER 25.0

static gboolean
has_thin_wall (const CavCautionFacts *facts)
{
  return facts->thin_wall;
}

static gboolean
is_small_rail (const CavCautionFacts *facts)
{
  return facts->machine == CAV_MACHINE_ROUTER && facts->section_width < SMALL_SECTION
         && facts->section_thickness < SMALL_SECTION;
}

static gboolean
is_short_rail (const CavCautionFacts *facts)
{
  return facts->rail_length < SHORT_RAIL;
}

static gboolean
is_large_cutter (const CavCautionFacts *facts)
{
  return facts->cutter_diameter > LARGE_CUTTER;
}

static gboolean
is_coving (const CavCautionFacts *facts)
{
  return facts->machine == CAV_MACHINE_COVE;
}

/* Across the blade the sentence on coving says it already. */
static gboolean
is_hidden_blade (const CavCautionFacts *facts)
{
  return facts->machine == CAV_MACHINE_SAW && facts->hidden && !facts->severs;
}

static gboolean
leaves_ridges (const CavCautionFacts *facts)
{
  return facts->ridged;
}

static gboolean
would_tip (const CavCautionFacts *facts)
{
  return facts->tips;
}

static gboolean
is_sacrificial (const CavCautionFacts *facts)
{
  return facts->sacrificial;
}

static gboolean
severs_piece (const CavCautionFacts *facts)
{
  return facts->severs;
}

#define PRACTICE "common practice, no source"

static const CavCautionRule rules[CAV_N_CAUTIONS] = {
  { CAV_CAUTION_THIN_WALL, "thin-wall", has_thin_wall,
    NC_ ("caution",
         "A wall thinner than 2 mm stands beside this cut: feed slowly, it can break out."),
    PRACTICE },
  { CAV_CAUTION_SMALL_RAIL, "small-rail", is_small_rail,
    NC_ ("caution",
         "The rail is under 20 mm both ways: use a hold-down and a push block, or mill it on a "
         "wider "
         "piece."),
    "29 CFR 1910.213(s)(9), push blocks to suit the work; the size is " PRACTICE },
  { CAV_CAUTION_SHORT_RAIL, "short-rail", is_short_rail,
    NC_ ("caution",
         "A rail is shorter than 300 mm: mill two or more in one length and cut them apart "
         "afterwards."),
    "school shop rules: nothing under 12 in is shaped or ripped by hand" },
  { CAV_CAUTION_LARGE_CUTTER, "large-cutter", is_large_cutter,
    NC_ ("caution", "The cutter is wider than 25 mm: table only, turn the speed down."),
    "general tables of router speeds by diameter; cutters over 1 in belong in a table" },
  { CAV_CAUTION_COVING, "coving", is_coving,
    NC_ ("caution",
         "No guard or riving knife can be used across the blade: clamp the angled fence where the "
         "turning blade presses the rail to it, use push blocks, shallow passes and a slow feed; "
         "put "
         "the guard back afterwards."),
    "29 CFR 1910.213(c)(2), spreader off for grooving alone and back at once; magazine articles "
    "on coving" },
  { CAV_CAUTION_HIDDEN_BLADE, "hidden-blade", is_hidden_blade,
    NC_ ("caution",
         "The tool does not come out of the wood: keep hands away from where it runs and comes out "
         "at "
         "the end; put guard and riving knife back afterwards."),
    "29 CFR 1910.213(c)(2), spreader back at once after grooving and rabbeting" },
  { CAV_CAUTION_ALTERNATE, "alternate", leaves_ridges,
    NC_ ("caution",
         "This blade's teeth leave ridges in the bottom of a kerf: scrape them, or use a "
         "flat-toothed "
         "blade."),
    PRACTICE },
  { CAV_CAUTION_FEATHERBOARD, "featherboard", would_tip,
    NC_ ("caution",
         "The rail would tip away from the fence: set a featherboard ahead of the tool to hold it "
         "there."),
    "California Code of Regulations, Title 8, section 4296(a), combs where the guard is off" },
  { CAV_CAUTION_SACRIFICIAL, "sacrificial", is_sacrificial,
    NC_ ("caution",
         "The tool stands in the fence or against it: screw a sacrificial wooden fence on first."),
    "saw manuals in general words: a wooden facing of 3/4 in, the blade raised into it" },
  { CAV_CAUTION_SEVERS, "severs", severs_piece,
    NC_ ("caution",
         "A piece comes off: keep it free beyond the tool, never between tool and fence; stand "
         "aside, "
         "use a push block."),
    "saw manuals in general words: waste on the side away from the fence; 29 CFR 1910.213(s)(9)" },
};

const CavCautionRule *
cav_caution_get_rules (guint *out_n_rules)
{
  g_return_val_if_fail (out_n_rules != NULL, NULL);

  *out_n_rules = G_N_ELEMENTS (rules);
  return rules;
}

guint
cav_caution_find (const CavCautionFacts *facts)
{
  guint found = 0;

  g_return_val_if_fail (facts != NULL, 0);

  for (guint i = 0; i < G_N_ELEMENTS (rules); i++)
    if (rules[i].applies (facts))
      found |= (guint)rules[i].caution;
  return found;
}

const char *
cav_caution_get_sentence (CavCaution caution)
{
  for (guint i = 0; i < G_N_ELEMENTS (rules); i++)
    if (rules[i].caution == caution)
      return g_dpgettext2 (GETTEXT_PACKAGE, "caution", rules[i].sentence);
  return "";
}

const char *
cav_measure_get_label (CavMeasure measure)
{
  switch (measure)
    {
    case CAV_MEASURE_FENCE_TO_TOOTH:
      return C_ ("what the fence figure means", "fence to near tooth");
    case CAV_MEASURE_BLADE_IN_FENCE:
      return C_ ("what the fence figure means", "blade shows beyond fence");
    case CAV_MEASURE_FENCE_TO_MIDDLE:
      return C_ ("what the fence figure means", "fence to middle of cove");
    case CAV_MEASURE_CUTTER_SHOWS:
      return C_ ("what the fence figure means", "cutter shows beyond fence");
    case CAV_MEASURE_FENCE_TO_CUTTER:
      return C_ ("what the fence figure means", "fence to cutter");
    default:
      return "";
    }
}
