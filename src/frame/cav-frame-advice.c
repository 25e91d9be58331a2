/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "frame/cav-frame-private.h"

#include "geometry/cav-number-text.h"

#include <glib/gi18n-lib.h>
#include <math.h>

/* A gap that nobody sees, one that glue holds in small work, and one that asks for another design;
 * common practice, no source. */
#define GAP_SMALL 0.15
#define GAP_LARGE 0.4
/* A gap that two decimals would write as nought, mm. */
#define GAP_NONE 0.005
/* Wider than 4 in, trim is said to fail sooner (M. Poster, Journal of Light Construction). */
#define WIDE 100.0
/* Moisture that shop and room should not differ by, percent. */
#define MOISTURE_APART 2.0
/* Glue alone holds the end grain of mitres badly in frames heavier than this; common practice, no
 * source. kg */
#define HEAVY 4.0

#define TEXT(format, value) CAV_NUMBER_TEXT (format, value)

static void
add (CavFrame *frame, char *sentence)
{
  g_ptr_array_add (frame->advice, sentence);
}

/* What the mitres do in one of the seasons. (transfer full) */
static char *
describe_season (gboolean is_dry, const CavSeason *season)
{
  const char *moisture = TEXT ("%.1f", season->moisture);
  const char *gap = TEXT ("%.2f", fabs (season->gap));

  if (fabs (season->gap) < GAP_NONE)
    return g_strdup (is_dry ? _ ("In the dry season the mitres stay closed.")
                            : _ ("In the damp season the mitres stay closed."));
  if (season->gap > 0.0)
    return g_strdup_printf (
        is_dry ? _ ("In the dry season wood comes to %s %% moisture, and each mitre opens by %s mm "
                    "at the outside where glue does not hold it.")
               : _ ("In the damp season wood comes to %s %% moisture, and each mitre opens by %s "
                    "mm at the outside where glue does not hold it."),
        moisture, gap);
  return g_strdup_printf (
      is_dry ? _ ("In the dry season wood comes to %s %% moisture, and each mitre opens by %s mm "
                  "at the sight edge where glue does not hold it.")
             : _ ("In the damp season wood comes to %s %% moisture, and each mitre opens by %s mm "
                  "at the sight edge where glue does not hold it."),
      moisture, gap);
}

/* What the other cut of the same wood would do, in the worse season. */
static void
add_quarter_sawn (CavFrame *frame)
{
  const CavWood *wood = frame->wood;

  if (frame->settings.sawn == CAV_SAWN_QUARTER || wood->tangential <= 0.0)
    return;
  add (frame,
       g_strdup_printf (_ ("Quarter sawn, this wood would open them by %s mm."),
                        TEXT ("%.2f", frame->mitres.season_gap * wood->radial / wood->tangential)));
}

static void
add_rest (CavFrame *frame)
{
  double shop = cav_moisture_get (frame->settings.shop);
  double middle = (frame->mitres.dry.moisture + frame->mitres.damp.moisture) / 2.0;

  if (fabs (shop - middle) < MOISTURE_APART)
    return;
  add (frame,
       g_strdup_printf (_ ("Wood in the shop comes to %s %%, where the frame hangs to %s %% on the "
                           "average: let it rest where it will hang for some weeks before you cut "
                           "the mitres."),
                        TEXT ("%.1f", shop), TEXT ("%.1f", middle)));
}

static void
add_remedies (CavFrame *frame)
{
  double gap = frame->mitres.season_gap;

  if (gap < GAP_SMALL)
    {
      add (frame, g_strdup (_ ("That is little; glue holds it.")));
      return;
    }
  add_quarter_sawn (frame);
  add (frame, g_strdup_printf (_ ("A molding of %s mm instead of %s mm would halve it."),
                               TEXT ("%.4g", frame->sizes.molding / 2.0),
                               TEXT ("%.4g", frame->sizes.molding)));
  add (frame, g_strdup (_ ("A spline or a key across each corner holds the joint together; it does "
                           "not stop the wood.")));
  if (gap >= GAP_LARGE || frame->sizes.molding > WIDE)
    add (frame,
         g_strdup (_ ("Wide rails are better built up from narrow ones, mitred one after the "
                      "other.")));
}

static void
add_saw (CavFrame *frame)
{
  const CavFrameMitres *mitres = &frame->mitres;

  if (!(frame->settings.saw_error > 0.0))
    return;
  add (frame, g_strdup_printf (
                  _ ("A saw that is %s degrees off opens every corner by %s mm, or the last one "
                     "by %s mm when the others are pressed shut: cut a test frame of scrap."),
                  TEXT ("%.4g", frame->settings.saw_error), TEXT ("%.2f", mitres->joint_gap),
                  TEXT ("%.2f", mitres->last_gap)));
}

static void
add_pairs (CavFrame *frame)
{
  const CavFrameMitres *mitres = &frame->mitres;

  if (!(mitres->pair_step > 0.0))
    return;
  add (frame, g_strdup_printf (
                  _ ("Opposite rails that differ by %s mm open two corners at the heel and two "
                     "at the toe by %s mm; the diagonals do not show it. Cut both of a pair "
                     "against one stop."),
                  TEXT ("%.4g", mitres->pair_step), TEXT ("%.2f", mitres->pair_gap)));
}

static void
add_weight (CavFrame *frame)
{
  double total = frame->weights.total;

  if (total <= HEAVY)
    return;
  add (frame, g_strdup_printf (_ ("At %s kg, reinforce the mitres with splines or keys, and take "
                                  "hangers rated for three to four times the weight."),
                               TEXT ("%.1f", total)));
}

void
cav_frame_fill_advice (CavFrame *frame)
{
  if (frame->mitres.has_seasons)
    {
      add (frame, describe_season (TRUE, &frame->mitres.dry));
      add (frame, describe_season (FALSE, &frame->mitres.damp));
      add_remedies (frame);
      add_rest (frame);
    }
  add_saw (frame);
  add_pairs (frame);
  add_weight (frame);
}
