/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "profile/cav-profile-private.h"

/* A disc is rolled about inside the section; what it does not reach is a corner or thin wood. This
 * much of it, mm², is more than a disc of 1 mm leaves in any corner of 30 degrees or more:
 * 1 / tan 15 degrees - 75 degrees in radians = 2.42. */
#define CORNER_AREA 2.5

/* Grown back by a little more than it was shrunk, so that rounding leaves no skins. */
#define GROW_MORE 0.02

/* (transfer full) (nullable) What a disc of some radius inside region does not reach; n_pieces
 * becomes how many pieces region has for it. */
static CavRegion *
create_unreached (const CavRegion *region, double radius, guint *out_n_pieces)
{
  g_autoptr (CavRegion) shrunk = cav_region_offset (region, -radius, NULL);
  if (shrunk == NULL)
    return NULL;
  *out_n_pieces = cav_region_get_piece_count (shrunk);
  if (cav_region_is_empty (shrunk))
    return cav_region_transformed (region, cav_transform_identity ());
  g_autoptr (CavRegion) grown = cav_region_offset (shrunk, radius + GROW_MORE, NULL);
  return grown != NULL ? cav_region_difference (region, grown, NULL) : NULL;
}

/* (transfer full) (nullable) */
static CavRegion *
dup_largest_piece (const CavRegion *region)
{
  CavRegion *largest = NULL;
  double largest_area = 0.0;

  for (guint i = 0; i < cav_region_get_piece_count (region); i++)
    {
      CavRegion *piece = cav_region_dup_piece (region, i);
      double area = cav_region_get_area (piece);
      if (area > largest_area)
        {
          g_clear_pointer (&largest, cav_region_unref);
          largest = cav_region_ref (piece);
          largest_area = area;
        }
      cav_region_unref (piece);
    }
  return largest;
}

/* Where an offset cannot be worked out there is no caution: this is advice, not proof. */
void
cav_profile_check_walls (const CavRegion *region, GPtrArray *findings)
{
  guint n_pieces = 0;
  g_autoptr (CavRegion) unreached = create_unreached (region, CAV_WALL_THIN / 2.0, &n_pieces);
  if (unreached == NULL)
    return;
  g_autoptr (CavRegion) thin = dup_largest_piece (unreached);
  CavPoint place;
  if (thin == NULL || !cav_region_get_centroid (thin, &place))
    return;
  if (n_pieces == cav_region_get_piece_count (region) && cav_region_get_area (thin) < CORNER_AREA)
    return;

  CavFinding *finding = cav_finding_new (CAV_FINDING_CAUTION, "profile-thin",
                                         "The wood is thinner than %g mm near %.4g, %.4g and may "
                                         "break in milling: leave more there.",
                                         CAV_WALL_THIN, place.x, place.y);
  cav_finding_set_place (finding, place);
  g_ptr_array_add (findings, finding);
}
