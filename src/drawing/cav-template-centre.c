/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/cav-template-private.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#include "drawing/cav-pass-words.h"
#include "drawing/cav-words-private.h"
#include "milling/cav-placement.h"

#define OUTSIDE 5.0 /* how far a line begins before the blank */
#define BEYOND 2.0  /* and how far it goes on behind the tool's end */
#define SAME 0.005  /* lines nearer to each other are one, mm */

static void
centre_free (gpointer data)
{
  CavTemplateCentre *centre = data;

  g_free (centre->tool);
  g_free (centre);
}

static gboolean
is_near (const CavTemplateCentre *a, const CavTemplateCentre *b)
{
  return a->side == b->side && fabs (a->along - b->along) < SAME && g_str_equal (a->tool, b->tool);
}

/* A line that is there already only becomes longer. */
static void
take_centre (GPtrArray *centres, CavTemplateCentre *centre)
{
  for (guint i = 0; i < centres->len; i++)
    {
      CavTemplateCentre *known = g_ptr_array_index (centres, i);

      if (!is_near (known, centre))
        continue;
      if (cav_point_distance (centre->from, centre->to)
          > cav_point_distance (known->from, known->to))
        known->to = centre->to;
      centre_free (centre);
      return;
    }
  g_ptr_array_add (centres, centre);
}

static void
add_pass (GPtrArray *centres, const CavPlan *plan, const CavSetup *setup, const CavPass *pass)
{
  CavTransform back = cav_placement_get_inverse (&plan->blank, pass->down, pass->against);
  double reach = cav_placement_get_reach (&plan->blank, pass->down);
  CavTemplateCentre *centre;

  /* Beside the wood there is nothing to mark on its end. */
  if (pass->fence < -SAME || pass->fence > reach + SAME)
    return;
  centre = g_new0 (CavTemplateCentre, 1);
  centre->from = cav_transform_point (back, CAV_POINT (pass->fence, -OUTSIDE));
  centre->to = cav_transform_point (back, CAV_POINT (pass->fence, pass->height + BEYOND));
  centre->side = pass->down;
  centre->along = cav_side_is_flat (pass->down) ? centre->from.x : centre->from.y;
  centre->tool = cav_words_dup_tool (plan, setup);
  take_centre (centres, centre);
}

GPtrArray *
cav_template_find_centres (const CavPlan *plan)
{
  GPtrArray *centres = g_ptr_array_new_with_free_func (centre_free);

  if (plan == NULL || !plan->usable)
    return centres;
  for (guint i = 0; i < plan->setups->len; i++)
    {
      const CavSetup *setup = g_ptr_array_index (plan->setups, i);

      for (guint j = 0; setup->machine != CAV_MACHINE_SAW && j < setup->passes->len; j++)
        add_pass (centres, plan, setup, g_ptr_array_index (setup->passes, j));
    }
  return centres;
}

char *
cav_template_describe_centre (const CavTemplateCentre *centre, const CavSheetOptions *options)
{
  g_autofree char *along = cav_words_format (centre->along, options);

  return g_strdup_printf (
      /* Translators: a side of the blank, a place along it, and a tool. */
      cav_side_is_flat (centre->side) ? _ ("%s, %s from the inside: %s")
                                      : _ ("%s, %s from the back: %s"),
      cav_side_get_word (centre->side), along, centre->tool);
}
