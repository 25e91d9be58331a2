/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/cav-hand-words.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#include "frame/cav-sanding.h"
#include "milling/cav-hand-work.h"
#include "project/cav-length.h"

/* No list is read that is longer. */
#define SURFACES_MAX 6
#define BLOCKS_MAX 6

static char *
format (double mm, const CavSheetOptions *options)
{
  return cav_length_format (mm, options->unit, options->denominator);
}

/* No finer than it is found with a rule. */
static char *
format_about (double mm, double step, const CavSheetOptions *options)
{
  return format (round (mm / step) * step, options);
}

static void
add_surface (GPtrArray *lines,
             const CavHandSurface *surface,
             double sight,
             const CavSheetOptions *options)
{
  g_autofree char *x = format_about (surface->place.x - sight, 1.0, options);
  g_autofree char *y = format_about (surface->place.y, 1.0, options);
  g_autofree char *thickness = format_about (surface->thickness, 0.1, options);
  g_autofree char *length = format_about (surface->length, 0.5, options);

  g_ptr_array_add (
      lines, g_strdup_printf (
                 /* Translators: two distances, then how thick wood stands, and how wide. */
                 _ ("%s from the sight edge, %s from the back: up to %s to take off, %s wide."), x,
                 y, thickness, length));
}

static void
add_surfaces (GPtrArray *lines,
              const CavProfile *profile,
              const CavPlan *plan,
              const CavSheetOptions *options)
{
  g_autoptr (GArray) surfaces = cav_hand_work_find (plan);
  double sight = cav_region_get_bounds (profile->region).x0;

  for (guint i = 0; i < MIN (surfaces->len, SURFACES_MAX); i++)
    add_surface (lines, &g_array_index (surfaces, CavHandSurface, i), sight, options);
  if (surfaces->len > SURFACES_MAX)
    g_ptr_array_add (
        lines, g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "And %u place more.",
                                             "And %u places more.", surfaces->len - SURFACES_MAX),
                                surfaces->len - SURFACES_MAX));
  if (surfaces->len == 0)
    g_ptr_array_add (lines, g_strdup (_ ("The passes leave the finished section: only the marks "
                                         "of the tools are to come off.")));
  if (cav_hand_work_has_ridges (plan))
    g_ptr_array_add (lines, g_strdup (_ ("The coved hollow has ridges from the blade: scrape it "
                                         "along its length.")));
}

static char *
describe_block (const CavSandingBlock *block, const CavSheetOptions *options)
{
  g_autofree char *radius = format (block->radius, options);
  g_autofree char *thing = block->thing != NULL ? format (block->diameter, options) : NULL;
  const char *name
      = block->thing != NULL ? g_dpgettext2 (GETTEXT_PACKAGE, "round thing", block->thing) : NULL;

  if (thing == NULL)
    return g_strdup_printf (block->hollow
                                ? _ ("Hollow of radius %s: a block cut to the template's shape.")
                                : _ ("Round of radius %s: a block cut to the template's shape."),
                            radius);
  if (!block->hollow)
    return g_strdup_printf (
        /* Translators: a radius, then a round thing and its diameter. */
        _ ("Round of radius %s: a block rubbed hollow on paper around a %s of %s."), radius, name,
        thing);
  if (!block->circular)
    return g_strdup_printf (
        _ ("Elliptic hollow of radius %s in its middle: paper around a %s of %s."), radius, name,
        thing);
  return g_strdup_printf (_ ("Hollow of radius %s: paper around a %s of %s."), radius, name, thing);
}

GPtrArray *
cav_hand_words_list (const CavProfile *profile, const CavPlan *plan, const CavSheetOptions *options)
{
  GPtrArray *lines = g_ptr_array_new_with_free_func (g_free);

  g_return_val_if_fail (profile != NULL && options != NULL, lines);

  if (plan != NULL && plan->usable)
    add_surfaces (lines, profile, plan, options);
  g_autoptr (GArray) blocks = cav_sanding_find (profile);
  for (guint i = 0; i < MIN (blocks->len, BLOCKS_MAX); i++)
    g_ptr_array_add (lines, describe_block (&g_array_index (blocks, CavSandingBlock, i), options));
  return lines;
}
