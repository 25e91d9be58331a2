/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "profile/cav-profile.h"

#include "geometry/cav-number-text.h"
#include "profile/cav-profile-private.h"

#include <glib/gi18n-lib.h>

/* Less than this is dust: what rounding leaves where two curves touch, mm². */
#define DUST_AREA 0.01
/* What is thinner is no lip and no wall, mm. */
#define EDGE_LEAST 0.1

/* What can only fail where the overlay gives up; the profile then says so. */
static void
add_overlay_finding (GPtrArray *findings, const GError *error)
{
  g_ptr_array_add (
      findings, cav_finding_new (CAV_FINDING_WRONG, "profile-failed",
                                 _ ("The section could not be worked out (%s): change the cut that "
                                    "was changed last a little."),
                                 error->message));
}

static void
add_cut_finding (GPtrArray *findings,
                 CavFindingSeverity severity,
                 const char *code,
                 guint index,
                 const char *message)
{
  CavFinding *finding = cav_finding_new (severity, code, _ ("Cut %u: %s"), index + 1, message);

  finding->cut = (int)index;
  g_ptr_array_add (findings, finding);
}

static const char *
get_error_code (const GError *error)
{
  if (g_error_matches (error, CAV_PROFILE_ERROR, CAV_PROFILE_ERROR_ANCHOR))
    return "cut-anchor";
  if (g_error_matches (error, CAV_PROFILE_ERROR, CAV_PROFILE_ERROR_PATH))
    return "cut-path";
  return "cut-range";
}

/* (transfer full) (nullable) What cut number index takes from the blank; NULL with a finding where
 * it takes nothing. */
static CavRegion *
clip_cut (const CavCut *cut,
          guint index,
          const CavBlank *blank,
          const CavRegion *whole,
          GPtrArray *findings)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (CavRegion) region = cav_cut_create_region (cut, blank, &error);
  const char *name = cav_cut_kind_get_word (cut->kind);

  if (region == NULL)
    {
      add_cut_finding (findings, CAV_FINDING_WRONG, get_error_code (error), index, error->message);
      return NULL;
    }

  g_autoptr (CavRegion) clipped = cav_region_intersection (region, whole, &error);
  if (clipped == NULL)
    {
      add_overlay_finding (findings, error);
      return NULL;
    }
  double inside = cav_region_get_area (clipped);
  double area = cav_region_get_area (region);
  if (inside < MIN (DUST_AREA, area / 2.0))
    {
      g_autofree char *message = g_strdup_printf (
          _ ("the %s lies outside the blank and takes nothing; move it to "
             "0 to %s mm across and 0 to %s mm up, or remove it."),
          name, CAV_NUMBER_TEXT ("%.4g", blank->width), CAV_NUMBER_TEXT ("%.4g", blank->thickness));
      add_cut_finding (findings, CAV_FINDING_WRONG, "cut-outside", index, message);
      return NULL;
    }
  if (inside < area - MIN (DUST_AREA, area / 2.0))
    {
      g_autofree char *message = g_strdup_printf (
          _ ("the %s reaches beyond the blank; what is outside is left out."), name);
      add_cut_finding (findings, CAV_FINDING_NOTE, "cut-partly-outside", index, message);
    }
  return g_steal_pointer (&clipped);
}

/* (transfer full) What all regions take. */
static CavRegion *
unite (const GPtrArray *regions, GPtrArray *findings)
{
  g_autoptr (GError) error = NULL;
  CavRegion *all;

  if (regions->len == 0)
    return cav_region_new_empty ();
  all = cav_region_union_all ((CavRegion *const *)regions->pdata, regions->len, &error);
  if (all != NULL)
    return all;
  add_overlay_finding (findings, error);
  return cav_region_new_empty ();
}

/* (transfer full) Everything that the cuts but a few take from the blank. */
static CavRegion *
unite_cuts (const CavBlank *blank,
            const CavRegion *whole,
            const GPtrArray *cuts,
            const GArray *but,
            GPtrArray *findings)
{
  g_autoptr (GPtrArray) taken = g_ptr_array_new_with_free_func ((GDestroyNotify)cav_region_unref);
  guint next = 0;

  for (guint i = 0; cuts != NULL && i < cuts->len; i++)
    {
      CavRegion *region;

      if (but != NULL && next < but->len && g_array_index (but, guint, next) == i)
        {
          next++;
          continue;
        }
      region = clip_cut (g_ptr_array_index (cuts, i), i, blank, whole, findings);
      if (region != NULL)
        g_ptr_array_add (taken, region);
    }
  return unite (taken, findings);
}

/* (transfer full) a minus b; a copy of a, with a finding, where that cannot be worked out. */
static CavRegion *
subtract (CavRegion *a, const CavRegion *b, GPtrArray *findings)
{
  g_autoptr (GError) error = NULL;

  if (cav_region_is_empty (b))
    return cav_region_ref (a);
  CavRegion *rest = cav_region_difference (a, b, &error);
  if (rest != NULL)
    return rest;
  add_overlay_finding (findings, error);
  return cav_region_ref (a);
}

static void
add_piece_finding (GPtrArray *findings, const CavRegion *piece, guint n_pieces)
{
  CavPoint place = { 0.0, 0.0 };
  gboolean placed = cav_region_get_centroid (piece, &place);
  CavFinding *finding
      = cav_finding_new (CAV_FINDING_WRONG, "profile-in-pieces",
                         _ ("The cuts leave %u pieces; one of %s mm² lies at %s, "
                            "%s. Make a cut smaller or move it, "
                            "so that wood joins them."),
                         n_pieces, CAV_NUMBER_TEXT ("%.4g", cav_region_get_area (piece)),
                         CAV_NUMBER_TEXT ("%.4g", place.x), CAV_NUMBER_TEXT ("%.4g", place.y));

  if (placed)
    cav_finding_set_place (finding, place);
  g_ptr_array_add (findings, finding);
}

/* (transfer full) The largest piece of what is left. The others, dust aside, are findings. */
static CavRegion *
keep_largest (CavRegion *left, GPtrArray *findings)
{
  guint n_pieces = cav_region_get_piece_count (left);
  g_autoptr (GPtrArray) pieces = g_ptr_array_new_with_free_func ((GDestroyNotify)cav_region_unref);
  double largest_area = DUST_AREA;
  CavRegion *largest = NULL;

  for (guint i = 0; i < n_pieces; i++)
    {
      CavRegion *piece = cav_region_dup_piece (left, i);
      double area = cav_region_get_area (piece);
      if (area < DUST_AREA)
        {
          cav_region_unref (piece);
          continue;
        }
      g_ptr_array_add (pieces, piece);
      if (area > largest_area)
        {
          largest_area = area;
          largest = piece;
        }
    }
  if (largest == NULL)
    return cav_region_new_empty ();
  for (guint i = 0; i < pieces->len; i++)
    if (g_ptr_array_index (pieces, i) != largest)
      add_piece_finding (findings, g_ptr_array_index (pieces, i), pieces->len);
  return cav_region_ref (largest);
}

/* What a rabbet needs to hold a package: wood over it, and a wall beside it. */
static void
check_rabbet (const CavProfile *profile)
{
  CavBox box = cav_region_get_bounds (profile->region);
  double thickness = profile->blank.thickness, width, depth;
  CavFinding *finding;

  if (cav_profile_get_rabbet (profile, &width, &depth))
    {
      if (depth < thickness - EDGE_LEAST)
        return;
      finding = cav_finding_new (CAV_FINDING_CAUTION, "profile-no-lip",
                                 _ ("The cuts take the inside edge away from back to face, %s mm "
                                    "wide: no lip is left to hold the glass. Make the rabbet less "
                                    "deep, or the cut over it smaller."),
                                 CAV_NUMBER_TEXT ("%.4g", width));
      cav_finding_set_place (finding, CAV_POINT (width, thickness / 2));
    }
  else if (box.y0 > EDGE_LEAST)
    {
      finding
          = cav_finding_new (CAV_FINDING_CAUTION, "profile-no-wall",
                             _ ("The cuts take the whole back away, %s mm deep: no wall is left "
                                "beside the package. Make the rabbet narrower than the blank."),
                             CAV_NUMBER_TEXT ("%.4g", box.y0));
      cav_finding_set_place (finding, CAV_POINT (profile->blank.width / 2, box.y0));
    }
  else
    {
      finding
          = cav_finding_new (CAV_FINDING_NOTE, "profile-no-rabbet",
                             _ ("There is no rabbet at the back and inside (0, 0) to hold glass "
                                "and picture: add one where the frame is to hold a package."));
      cav_finding_set_place (finding, CAV_POINT (0.0, 0.0));
    }
  g_ptr_array_add (profile->findings, finding);
}

/* Thin walls are looked for in around; where that is NULL, everywhere. */
static void
check_section (const CavProfile *profile, const CavBox *around)
{
  if (cav_region_is_empty (profile->region))
    {
      g_ptr_array_add (
          profile->findings,
          cav_finding_new (CAV_FINDING_WRONG, "profile-empty",
                           _ ("The cuts leave no wood: make them smaller, remove one or "
                              "take a larger blank.")));
      return;
    }
  if (around == NULL)
    cav_profile_check_walls (profile->region, profile->findings);
  else
    cav_profile_check_walls_in (profile->region, *around, profile->findings);
  check_rabbet (profile);
}

CavProfile *
cav_profile_new (const CavBlank *blank, const GPtrArray *cuts)
{
  g_return_val_if_fail (blank != NULL, NULL);

  CavProfile *profile = g_new0 (CavProfile, 1);
  g_autoptr (GError) error = NULL;
  profile->blank = *blank;
  profile->findings = cav_finding_list_new ();
  if (!cav_blank_check (blank, &error))
    {
      profile->region = cav_region_new_empty ();
      profile->waste = cav_region_new_empty ();
      g_ptr_array_add (profile->findings,
                       cav_finding_new (CAV_FINDING_WRONG, "blank-range", "%s", error->message));
      return profile;
    }

  g_autoptr (CavRegion) whole = cav_blank_create_region (blank);
  g_autoptr (CavRegion) taken = unite_cuts (blank, whole, cuts, NULL, profile->findings);
  g_autoptr (CavRegion) left = subtract (whole, taken, profile->findings);
  profile->region = keep_largest (left, profile->findings);
  /* Where nothing fell off, waste is what was taken. */
  if (cav_region_get_piece_count (left) == 1 && !cav_region_is_empty (profile->region))
    profile->waste = cav_region_ref (taken);
  check_section (profile, NULL);
  return profile;
}

/* All cuts but a few */

/* Where the others leave no thin wall, one that a cut makes is within its reach of the cut, mm; and
 * at its end a bit of thin wood may go on that was too short by itself. */
#define AROUND (2.0 * CAV_WALL_THIN)

struct _CavProfileRest
{
  CavBlank blank;
  GArray *indices; /* guint */
  CavRegion *whole;
  CavRegion *left; /* by the others */
  GPtrArray *findings;
  gboolean is_thin; /* left has thin walls of its own */
};

CavProfileRest *
cav_profile_rest_new (const CavBlank *blank,
                      const GPtrArray *cuts,
                      const guint *indices,
                      guint n_indices)
{
  g_return_val_if_fail (blank != NULL && cuts != NULL, NULL);
  g_return_val_if_fail (indices != NULL && n_indices > 0, NULL);
  g_return_val_if_fail (indices[n_indices - 1] < cuts->len, NULL);

  if (!cav_blank_check (blank, NULL))
    return NULL;
  CavProfileRest *rest = g_new0 (CavProfileRest, 1);
  g_autoptr (GPtrArray) thin = cav_finding_list_new ();
  g_autoptr (CavRegion) taken = NULL;

  rest->blank = *blank;
  rest->indices = g_array_new (FALSE, FALSE, sizeof (guint));
  g_array_append_vals (rest->indices, indices, n_indices);
  rest->findings = cav_finding_list_new ();
  rest->whole = cav_blank_create_region (blank);
  taken = unite_cuts (blank, rest->whole, cuts, rest->indices, rest->findings);
  rest->left = subtract (rest->whole, taken, rest->findings);
  cav_profile_check_walls (rest->left, thin);
  rest->is_thin = thin->len > 0;
  return rest;
}

void
cav_profile_rest_free (CavProfileRest *rest)
{
  if (rest == NULL)
    return;
  g_array_unref (rest->indices);
  cav_region_unref (rest->whole);
  cav_region_unref (rest->left);
  g_ptr_array_unref (rest->findings);
  g_free (rest);
}

/* Copies the findings of others from number next on, as long as they belong to a cut before index.
 * The next number. */
static guint
add_rest_findings (const CavProfileRest *rest, guint next, guint index, GPtrArray *findings)
{
  for (; next < rest->findings->len; next++)
    {
      const CavFinding *finding = g_ptr_array_index (rest->findings, next);

      if (finding->cut < 0 || (guint)finding->cut >= index)
        break;
      g_ptr_array_add (findings, cav_finding_copy (finding));
    }
  return next;
}

/* (transfer full) What the few take; the findings of all cuts come in order. */
static CavRegion *
unite_few (const CavProfileRest *rest, const GPtrArray *cuts, GPtrArray *findings)
{
  g_autoptr (GPtrArray) taken = g_ptr_array_new_with_free_func ((GDestroyNotify)cav_region_unref);
  guint next = 0;

  for (guint i = 0; i < rest->indices->len; i++)
    {
      guint index = g_array_index (rest->indices, guint, i);
      CavRegion *region;

      next = add_rest_findings (rest, next, index, findings);
      region
          = clip_cut (g_ptr_array_index (cuts, index), index, &rest->blank, rest->whole, findings);
      if (region != NULL)
        g_ptr_array_add (taken, region);
    }
  for (; next < rest->findings->len; next++)
    g_ptr_array_add (findings, cav_finding_copy (g_ptr_array_index (rest->findings, next)));
  return unite (taken, findings);
}

CavProfile *
cav_profile_rest_complete (const CavProfileRest *rest, const GPtrArray *cuts)
{
  g_return_val_if_fail (rest != NULL && cuts != NULL, NULL);
  g_return_val_if_fail (g_array_index (rest->indices, guint, rest->indices->len - 1) < cuts->len,
                        NULL);

  CavProfile *profile = g_new0 (CavProfile, 1);
  profile->blank = rest->blank;
  profile->findings = cav_finding_list_new ();

  g_autoptr (CavRegion) own = unite_few (rest, cuts, profile->findings);
  g_autoptr (CavRegion) left = subtract (rest->left, own, profile->findings);
  CavBox around = cav_region_get_bounds (own);
  around
      = (CavBox){ around.x0 - AROUND, around.y0 - AROUND, around.x1 + AROUND, around.y1 + AROUND };
  profile->region = keep_largest (left, profile->findings);
  check_section (profile, rest->is_thin ? NULL : &around);
  return profile;
}

const CavRegion *
cav_profile_get_waste (const CavProfile *profile)
{
  g_return_val_if_fail (profile != NULL, NULL);
  if (profile->waste == NULL)
    {
      g_autoptr (CavRegion) whole = cav_blank_create_region (&profile->blank);

      /* Worked out late, and not changed. */
      ((CavProfile *)profile)->waste = subtract (whole, profile->region, profile->findings);
    }
  return profile->waste;
}

void
cav_profile_free (CavProfile *profile)
{
  if (profile == NULL)
    return;
  cav_region_unref (profile->region);
  g_clear_pointer (&profile->waste, cav_region_unref);
  g_ptr_array_unref (profile->findings);
  g_free (profile);
}

gboolean
cav_profile_is_sound (const CavProfile *profile)
{
  g_return_val_if_fail (profile != NULL, FALSE);
  return !cav_region_is_empty (profile->region) && !cav_finding_list_has_wrong (profile->findings);
}
