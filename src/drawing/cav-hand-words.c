/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/cav-hand-words.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#include "frame/cav-sanding.h"
#include "milling/cav-hand-work.h"
#include "project/cav-length.h"

/* No list is read that is longer. */
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

/* (nullable) The cut that made room for a piece of leftover: the one that shares most with it, and
 * of those that share as much the smallest. */
static const CavCut *
find_cut (CavProject *project, const CavPlan *plan, guint piece)
{
  const GPtrArray *cuts = cav_project_get_cuts (project);
  const CavBlank blank = cav_project_get_blank (project);
  g_autoptr (CavRegion) whole = cav_region_dup_piece (plan->leftover, piece);
  g_autoptr (CavRegion) waste
      = cav_region_transformed (whole, cav_transform_translation (-plan->carrier_inside, 0.0));
  const CavCut *best = NULL;
  double most = 0.0;
  double least = G_MAXDOUBLE;

  for (guint i = 0; i < cuts->len; i++)
    {
      const CavCut *cut = g_ptr_array_index (cuts, i);
      g_autoptr (CavRegion) region = cav_cut_create_region (cut, &blank, NULL);
      g_autoptr (CavRegion) shared
          = region != NULL ? cav_region_intersection (region, waste, NULL) : NULL;
      double area = shared != NULL ? cav_region_get_area (shared) : 0.0;
      double size = region != NULL ? cav_region_get_area (region) : 0.0;

      if (area > most * 1.02 || (area > most * 0.98 && area > 0.0 && size < least))
        {
          best = cut;
          most = fmax (most, area);
          least = size;
        }
    }
  return best;
}

static const char *
get_corner_words (CavCorner corner)
{
  switch (corner)
    {
    case CAV_CORNER_BACK_INSIDE:
      return C_ ("place of a cut", "inner edge of the back");
    case CAV_CORNER_BACK_OUTSIDE:
      return C_ ("place of a cut", "outer edge of the back");
    case CAV_CORNER_FACE_INSIDE:
      return C_ ("place of a cut", "inner edge of the face");
    case CAV_CORNER_FACE_OUTSIDE:
      return C_ ("place of a cut", "outer edge of the face");
    }
  g_return_val_if_reached ("");
}

static const char *
get_side_words (CavSide side)
{
  switch (side)
    {
    case CAV_SIDE_BACK:
      return C_ ("place of a cut", "on the back");
    case CAV_SIDE_FACE:
      return C_ ("place of a cut", "on the face");
    case CAV_SIDE_INSIDE:
      return C_ ("place of a cut", "on the inside");
    case CAV_SIDE_OUTSIDE:
      return C_ ("place of a cut", "on the outside");
    }
  g_return_val_if_reached ("");
}

/* The two numbers by which one tells a cut from another of its kind. */
static void
get_size (const CavCut *cut, double *out_first, double *out_second)
{
  static const CavCutNumber usual[] = { CAV_CUT_WIDTH, CAV_CUT_DEPTH };
  static const CavCutNumber steps[] = { CAV_CUT_RUN, CAV_CUT_RISE };
  static const CavCutNumber bevel[] = { CAV_CUT_START_HEIGHT, CAV_CUT_END_HEIGHT };
  const CavCutNumber *numbers = cut->kind == CAV_CUT_STEPS   ? steps
                                : cut->kind == CAV_CUT_BEVEL ? bevel
                                                             : usual;

  *out_first = cut->numbers[numbers[0]];
  *out_second = cut->numbers[numbers[1]];
}

static char *
describe_cut (const CavCut *cut, const CavSheetOptions *options)
{
  const char *word = cav_cut_kind_get_word (cut->kind);
  const char *place = cut->anchor == CAV_ANCHOR_CORNER ? get_corner_words (cut->corner)
                                                       : get_side_words (cut->side);
  g_autofree char *size = NULL;
  g_autofree char *other = NULL;
  double first;
  double second;

  get_size (cut, &first, &second);
  if (second <= 0.0)
    {
      size = format (first, options);
      /* Translators: a cut, its width, and where it is: “bead 6 mm, on the face”. */
      return g_strdup_printf (_ ("%s %s, %s"), word, size, place);
    }
  size = cav_length_format_bare (first, options->unit, options->denominator);
  other = format (second, options);
  /* Translators: a cut, its two sizes, and where it is: “chamfer 2 × 2 mm, outer edge of the
   * face”. */
  return g_strdup_printf (_ ("%s %s × %s, %s"), word, size, other, place);
}

/* Where no cut has a place of its own. */
static char *
describe_point (CavProject *project, CavPoint place, const CavSheetOptions *options)
{
  double sight = cav_region_get_bounds (cav_project_get_profile (project)->region).x0;
  g_autofree char *x = format_about (place.x - sight, 1.0, options);
  g_autofree char *y = format_about (place.y, 1.0, options);

  return g_strdup_printf (_ ("drawn shape, %s from the sight edge, %s from the back"), x, y);
}

/* (transfer full) By the cut that it belongs to, and its side. */
static char *
name_surface (CavProject *project,
              const CavPlan *plan,
              const CavHandSurface *surface,
              const CavSheetOptions *options)
{
  const CavCut *cut = find_cut (project, plan, surface->piece);

  if (cut == NULL || cut->anchor == CAV_ANCHOR_FREE)
    return describe_point (project, surface->place, options);
  return describe_cut (cut, options);
}

gboolean
cav_hand_words_has_places (const CavPlan *plan)
{
  g_autoptr (GArray) surfaces = cav_hand_work_find (plan);

  return surfaces->len > 0;
}

GPtrArray *
cav_hand_words_list_places (CavProject *project,
                            const CavPlan *plan,
                            const CavSheetOptions *options)
{
  GPtrArray *lines = g_ptr_array_new_with_free_func (g_free);

  g_return_val_if_fail (CAV_IS_PROJECT (project) && options != NULL, lines);

  if (plan == NULL || !plan->usable)
    return lines;
  g_autoptr (GArray) surfaces = cav_hand_work_find (plan);
  for (guint i = 0; i < MIN (surfaces->len, CAV_HAND_PLACES_MAX); i++)
    {
      const CavHandSurface *surface = &g_array_index (surfaces, CavHandSurface, i);
      g_autofree char *name = name_surface (project, plan, surface, options);
      g_autofree char *thickness = format_about (surface->thickness, 0.1, options);
      g_autofree char *length = format_about (surface->length, 0.5, options);

      g_ptr_array_add (lines, g_strdup_printf (
                                  /* Translators: a number in a picture, a cut and where it is; then
                                     how thick wood stands, and how wide. */
                                  _ ("(%u) %s: up to %s to take off, %s wide."), i + 1, name,
                                  thickness, length));
    }
  if (surfaces->len > CAV_HAND_PLACES_MAX)
    g_ptr_array_add (lines, g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "And %u place more.",
                                                          "And %u places more.",
                                                          surfaces->len - CAV_HAND_PLACES_MAX),
                                             surfaces->len - CAV_HAND_PLACES_MAX));
  return lines;
}

char *
cav_hand_words_describe_place (CavProject *project,
                               const CavPlan *plan,
                               const CavLeftoverPlace *place,
                               const CavSheetOptions *options)
{
  g_autoptr (GArray) surfaces = cav_hand_work_find (plan);
  CavPoint own = CAV_POINT (place->place.x - plan->carrier_inside, place->place.y);
  g_autofree char *thickness = format (place->thickness, options);
  g_autofree char *name = NULL;
  double nearest = G_MAXDOUBLE;
  guint best = 0;

  for (guint i = 0; i < surfaces->len; i++)
    {
      g_autoptr (CavRegion) piece = cav_region_dup_piece (
          plan->leftover, g_array_index (surfaces, CavHandSurface, i).piece);
      double distance = cav_region_get_distance (piece, place->place);

      if (distance < nearest)
        {
          nearest = distance;
          best = i;
        }
    }
  name = surfaces->len > 0 ? name_surface (project, plan,
                                           &g_array_index (surfaces, CavHandSurface, best), options)
                           : describe_point (project, own, options);
  return g_strdup_printf (/* Translators: a cut and where it is, a thickness, why it stays (“no tool
                             reaches”), and advice. */
                          _ ("%s: %s stand, %s. %s"), name, thickness,
                          g_dpgettext2 (GETTEXT_PACKAGE, "why waste stays",
                                        place->reason != NULL ? place->reason : "no tool reaches"),
                          place->advice != NULL ? place->advice : "");
}

static void
add_surfaces (GPtrArray *lines,
              CavProject *project,
              const CavPlan *plan,
              const CavSheetOptions *options)
{
  g_autoptr (GPtrArray) places = cav_hand_words_list_places (project, plan, options);

  if (places->len == 0)
    g_ptr_array_add (lines, g_strdup (_ ("The passes leave the finished section: only the marks "
                                         "of the tools are to come off.")));
  g_ptr_array_extend_and_steal (lines, g_steal_pointer (&places));
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
cav_hand_words_list (CavProject *project, const CavPlan *plan, const CavSheetOptions *options)
{
  GPtrArray *lines = g_ptr_array_new_with_free_func (g_free);

  g_return_val_if_fail (CAV_IS_PROJECT (project) && options != NULL, lines);

  if (plan != NULL && plan->usable)
    add_surfaces (lines, project, plan, options);
  g_autoptr (GArray) blocks = cav_sanding_find (cav_project_get_profile (project));
  for (guint i = 0; i < MIN (blocks->len, BLOCKS_MAX); i++)
    g_ptr_array_add (lines, describe_block (&g_array_index (blocks, CavSandingBlock, i), options));
  return lines;
}
