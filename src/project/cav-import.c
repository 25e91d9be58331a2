/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "project/cav-import.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#include "project/cav-length.h"

/* clang-format off */
G_DEFINE_QUARK (cav-import-error, cav_import_error)
/* clang-format on */

/* How far the outline may stand out of the blank: what a drawing program rounds away. */
#define OUTSIDE_MAX 0.01
/* Waste smaller than this is rounding along an edge of the blank, mm². */
#define NO_WASTE 1e-3
/* What the imported profile may differ from the outline, as an area per mm of its edge: 0.001 mm.
 */
#define DEVIATION_MAX 1e-3

/* A drawn cut is one closed path and cannot say that something stands inside it. A piece of waste
 * with an island is therefore taken as two that overlap over the middle of the island: neither goes
 * all around it. Recursion ends because each part has at least one island less around its middle.
 */
static gboolean add_piece (GPtrArray *cuts, const CavRegion *piece, GError **error);

static gboolean
add_part (GPtrArray *cuts, const CavRegion *region, double x0, double x1, GError **error)
{
  CavBox box = cav_region_get_bounds (region);
  g_autoptr (CavRegion) strip = cav_region_new_box (x0, box.y0 - 1.0, x1, box.y1 + 1.0);
  g_autoptr (CavRegion) part = cav_region_intersection (region, strip, error);

  if (part == NULL)
    return FALSE;
  for (guint i = 0; i < cav_region_get_piece_count (part); i++)
    {
      g_autoptr (CavRegion) piece = cav_region_dup_piece (part, i);

      if (!add_piece (cuts, piece, error))
        return FALSE;
    }
  return TRUE;
}

static gboolean
add_piece (GPtrArray *cuts, const CavRegion *piece, GError **error)
{
  CavBox box, island;
  double middle, overlap;

  if (cav_region_get_area (piece) < NO_WASTE)
    return TRUE;
  if (cav_region_get_ring_count (piece) == 1)
    {
      g_ptr_array_add (cuts, cav_cut_new_drawn (cav_region_get_ring (piece, 0)));
      return TRUE;
    }
  box = cav_region_get_bounds (piece);
  island = cav_path_get_bounds (cav_region_get_ring (piece, 1));
  middle = (island.x0 + island.x1) / 2.0;
  overlap = (island.x1 - island.x0) / 8.0;
  return add_part (cuts, piece, box.x0 - 1.0, middle + overlap, error)
         && add_part (cuts, piece, middle - overlap, box.x1 + 1.0, error);
}

/* (transfer full) "12.4, 8": from the inside and from the back. */
static char *
format_place (double x, double y)
{
  g_autofree char *from_inside = cav_length_format_bare (x, CAV_UNIT_MM, 1);
  g_autofree char *from_back = cav_length_format_bare (y, CAV_UNIT_MM, 1);

  return g_strdup_printf ("%s, %s", from_inside, from_back);
}

static gboolean
check_inside (const CavRegion *region, const CavBlank *blank, GError **error)
{
  CavBox box = cav_region_get_bounds (region);
  g_autofree char *low = NULL;
  g_autofree char *high = NULL;
  g_autofree char *width = NULL;
  g_autofree char *thickness = NULL;

  if (box.x0 >= -OUTSIDE_MAX && box.y0 >= -OUTSIDE_MAX && box.x1 <= blank->width + OUTSIDE_MAX
      && box.y1 <= blank->thickness + OUTSIDE_MAX)
    return TRUE;
  low = format_place (box.x0, box.y0);
  high = format_place (box.x1, box.y1);
  width = cav_length_format_bare (blank->width, CAV_UNIT_MM, 1);
  thickness = cav_length_format_bare (blank->thickness, CAV_UNIT_MM, 1);
  g_set_error (
      error, CAV_IMPORT_ERROR, CAV_IMPORT_ERROR_OUTSIDE,
      _ ("the outline reaches from %s to %s (from inside and back), out of the blank of %s x "
         "%s mm; move it inside or take a larger blank"),
      low, high, width, thickness);
  return FALSE;
}

/* The proof that cutting gives back what was drawn. */
static gboolean
check_profile (const CavProfile *profile, const CavRegion *drawn, GError **error)
{
  g_autoptr (CavRegion) missing = cav_region_difference (drawn, profile->region, error);
  g_autoptr (CavRegion) extra
      = missing != NULL ? cav_region_difference (profile->region, drawn, error) : NULL;

  if (extra == NULL)
    return FALSE;
  if (cav_region_get_area (missing) + cav_region_get_area (extra)
      <= DEVIATION_MAX * cav_region_get_perimeter (drawn))
    return TRUE;
  g_set_error_literal (
      error, CAV_IMPORT_ERROR, CAV_IMPORT_ERROR_FINE,
      _ ("the outline is too fine to be cut out of the blank: it has parts that are "
         "thinner than 0.01 mm; redraw it without them"));
  return FALSE;
}

static gboolean
check_blank (const CavBlank *blank, GError **error)
{
  if (blank->width >= CAV_IMPORT_BLANK_MIN && blank->thickness >= CAV_IMPORT_BLANK_MIN
      && blank->width <= CAV_BLANK_MAX && blank->thickness <= CAV_BLANK_MAX)
    return TRUE;
  g_autofree char *width = cav_length_format_bare (blank->width, CAV_UNIT_MM, 1);
  g_autofree char *thickness = cav_length_format (blank->thickness, CAV_UNIT_MM, 1);
  g_autofree char *least = cav_length_format_bare (CAV_IMPORT_BLANK_MIN, CAV_UNIT_MM, 1);

  g_set_error (
      error, CAV_IMPORT_ERROR, CAV_IMPORT_ERROR_BLANK,
      _ ("the picture is %s x %s large, and a blank from %s to %.0f mm; correct its width and "
         "height, or say how large the blank is"),
      width, thickness, least, CAV_BLANK_MAX);
  return FALSE;
}

/* (transfer full) The outline with y up, from the picture's lower left corner. */
static CavPath *
turn_upright (const CavPath *outline, const CavBlank *picture)
{
  CavTransform upright = { .xx = 1.0, .yy = -1.0, .y0 = picture->thickness };

  return cav_path_transformed (outline, upright);
}

GPtrArray *
cav_import_create_cuts (const CavPath *outline,
                        const CavBlank *picture,
                        const CavBlank *blank,
                        GError **error)
{
  g_return_val_if_fail (outline != NULL, NULL);
  g_return_val_if_fail (picture != NULL && blank != NULL, NULL);

  g_autoptr (CavPath) path = turn_upright (outline, picture);
  g_autoptr (GPtrArray) cuts = g_ptr_array_new_with_free_func ((GDestroyNotify)cav_cut_free);
  g_autoptr (CavRegion) drawn = cav_region_new_from_path (path, error);
  g_autoptr (CavRegion) whole = NULL;
  g_autoptr (CavRegion) waste = NULL;
  g_autoptr (CavProfile) profile = NULL;

  if (drawn == NULL || !check_blank (blank, error) || !check_inside (drawn, blank, error))
    return NULL;
  whole = cav_blank_create_region (blank);
  waste = cav_region_difference (whole, drawn, error);
  if (waste == NULL || !add_part (cuts, waste, -1.0, blank->width + 1.0, error))
    return NULL;
  profile = cav_profile_new (blank, cuts);
  return check_profile (profile, drawn, error) ? g_steal_pointer (&cuts) : NULL;
}

gboolean
cav_import_outline (CavProject *project,
                    const CavPath *outline,
                    const CavBlank *picture,
                    const CavBlank *blank,
                    GError **error)
{
  g_return_val_if_fail (CAV_IS_PROJECT (project), FALSE);

  g_autoptr (GPtrArray) cuts = cav_import_create_cuts (outline, picture, blank, error);
  if (cuts == NULL)
    return FALSE;
  cav_project_begin (project, C_ ("step", "import profile"));
  cav_project_set_blank (project, *blank);
  cav_project_replace_cuts (project, cuts);
  cav_project_end (project);
  return TRUE;
}

CavCut *
cav_import_create_drawn (const CavPath *outline,
                         const CavBlank *picture,
                         const CavBlank *blank,
                         GError **error)
{
  g_return_val_if_fail (outline != NULL, NULL);
  g_return_val_if_fail (picture != NULL && blank != NULL, NULL);

  g_autoptr (CavPath) path = turn_upright (outline, picture);
  g_autoptr (CavRegion) drawn = cav_region_new_from_path (path, error);
  if (drawn == NULL)
    return NULL;

  CavBox box = cav_region_get_bounds (drawn);
  /* One that takes nothing where it was drawn stands in the middle, where it can be found. */
  if (box.x1 <= 0.0 || box.y1 <= 0.0 || box.x0 >= blank->width || box.y0 >= blank->thickness)
    {
      CavTransform middle = cav_transform_translation ((blank->width - box.x0 - box.x1) / 2.0,
                                                       (blank->thickness - box.y0 - box.y1) / 2.0);
      g_autoptr (CavPath) moved = cav_path_transformed (path, middle);

      return cav_cut_new_drawn (moved);
    }
  return cav_cut_new_drawn (path);
}
