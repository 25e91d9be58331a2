/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "profile/cav-profile.h"

#include "profile/cav-profile-private.h"

#include <glib/gi18n-lib.h>

/* Less than this is dust: what rounding leaves where two curves touch, mm². */
#define DUST_AREA 0.01

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

/* (transfer full) Everything that the cuts but one take from the blank. */
static CavRegion *
unite_cuts (const CavBlank *blank,
            const CavRegion *whole,
            const GPtrArray *cuts,
            guint but,
            GPtrArray *findings)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) taken = g_ptr_array_new_with_free_func ((GDestroyNotify)cav_region_unref);

  for (guint i = 0; cuts != NULL && i < cuts->len; i++)
    {
      CavRegion *region
          = i != but ? clip_cut (g_ptr_array_index (cuts, i), i, blank, whole, findings) : NULL;
      if (region != NULL)
        g_ptr_array_add (taken, region);
    }
  if (taken->len == 0)
    return cav_region_new_empty ();

  CavRegion *all = cav_region_union_all ((CavRegion *const *)taken->pdata, taken->len, &error);
  if (all != NULL)
    return all;
  add_overlay_finding (findings, error);
  return cav_region_new_empty ();
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

static void
check_section (const CavProfile *profile)
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
  cav_profile_check_walls (profile->region, profile->findings);
  if (cav_profile_get_rabbet (profile, NULL, NULL))
    return;
  CavFinding *finding
      = cav_finding_new (CAV_FINDING_NOTE, "profile-no-rabbet",
                         _ ("There is no rabbet at the back and inside (0, 0) to hold glass and "
                            "picture: add one where the frame is to hold a package."));
  cav_finding_set_place (finding, CAV_POINT (0.0, 0.0));
  g_ptr_array_add (profile->findings, finding);
}

/* Fills in what is left of whole by cuts that take taken, and checks it. */
static void
finish (CavProfile *profile, CavRegion *whole, CavRegion *taken, CavRegion *left)
{
  profile->region = keep_largest (left, profile->findings);
  /* Where nothing fell off, waste is what was taken. */
  if (cav_region_get_piece_count (left) == 1 && !cav_region_is_empty (profile->region))
    profile->waste = cav_region_ref (taken);
  else
    profile->waste = subtract (whole, profile->region, profile->findings);
  check_section (profile);
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
  g_autoptr (CavRegion) taken
      = unite_cuts (blank, whole, cuts, cuts != NULL ? cuts->len : 0, profile->findings);
  g_autoptr (CavRegion) left = subtract (whole, taken, profile->findings);
  finish (profile, whole, taken, left);
  return profile;
}

/* All cuts but one */

struct _CavProfileRest
{
  CavBlank blank;
  guint index;
  CavRegion *whole;
  CavRegion *taken; /* by the others */
  CavRegion *left;  /* by the others */
  GPtrArray *findings;
};

CavProfileRest *
cav_profile_rest_new (const CavBlank *blank, const GPtrArray *cuts, guint index)
{
  g_return_val_if_fail (blank != NULL && cuts != NULL, NULL);
  g_return_val_if_fail (index < cuts->len, NULL);

  if (!cav_blank_check (blank, NULL))
    return NULL;
  CavProfileRest *rest = g_new0 (CavProfileRest, 1);
  rest->blank = *blank;
  rest->index = index;
  rest->findings = cav_finding_list_new ();
  rest->whole = cav_blank_create_region (blank);
  rest->taken = unite_cuts (blank, rest->whole, cuts, index, rest->findings);
  rest->left = subtract (rest->whole, rest->taken, rest->findings);
  return rest;
}

void
cav_profile_rest_free (CavProfileRest *rest)
{
  if (rest == NULL)
    return;
  cav_region_unref (rest->whole);
  cav_region_unref (rest->taken);
  cav_region_unref (rest->left);
  g_ptr_array_unref (rest->findings);
  g_free (rest);
}

/* Findings of cuts before the one, or else of all that come after. */
static void
add_rest_findings (const CavProfileRest *rest, gboolean before, GPtrArray *findings)
{
  for (guint i = 0; i < rest->findings->len; i++)
    {
      const CavFinding *finding = g_ptr_array_index (rest->findings, i);
      gboolean is_before = finding->cut >= 0 && (guint)finding->cut < rest->index;

      if (is_before == before)
        g_ptr_array_add (findings, cav_finding_copy (finding));
    }
}

CavProfile *
cav_profile_rest_complete (const CavProfileRest *rest, const CavCut *cut)
{
  g_return_val_if_fail (rest != NULL && cut != NULL, NULL);

  CavProfile *profile = g_new0 (CavProfile, 1);
  g_autoptr (GError) error = NULL;
  profile->blank = rest->blank;
  profile->findings = cav_finding_list_new ();
  add_rest_findings (rest, TRUE, profile->findings);

  g_autoptr (CavRegion) own
      = clip_cut (cut, rest->index, &rest->blank, rest->whole, profile->findings);
  add_rest_findings (rest, FALSE, profile->findings);
  if (own == NULL)
    own = cav_region_new_empty ();
  g_autoptr (CavRegion) left = subtract (rest->left, own, profile->findings);
  g_autoptr (CavRegion) taken = cav_region_union (rest->taken, own, &error);
  if (taken == NULL)
    {
      add_overlay_finding (profile->findings, error);
      taken = cav_region_ref (rest->taken);
    }
  finish (profile, rest->whole, taken, left);
  return profile;
}

void
cav_profile_free (CavProfile *profile)
{
  if (profile == NULL)
    return;
  cav_region_unref (profile->region);
  cav_region_unref (profile->waste);
  g_ptr_array_unref (profile->findings);
  g_free (profile);
}

gboolean
cav_profile_is_sound (const CavProfile *profile)
{
  g_return_val_if_fail (profile != NULL, FALSE);
  return !cav_region_is_empty (profile->region) && !cav_finding_list_has_wrong (profile->findings);
}
