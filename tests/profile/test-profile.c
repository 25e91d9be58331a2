/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "profile/cav-profile.h"

#include <math.h>
#include <string.h>

#include "profile-rig.h"

static const CavBlank blank = { 60.0, 25.0 };

static GPtrArray *
new_cuts (void)
{
  return g_ptr_array_new_with_free_func ((GDestroyNotify)cav_cut_free);
}

static CavCut *
add_side_cut (
    GPtrArray *cuts, CavCutKind kind, CavSide side, double position, double width, double depth)
{
  CavCut *cut = cav_cut_new_on_side (kind, side);
  cut->numbers[CAV_CUT_POSITION] = position;
  cut->numbers[CAV_CUT_WIDTH] = width;
  cut->numbers[CAV_CUT_DEPTH] = depth;
  g_ptr_array_add (cuts, cut);
  return cut;
}

static void
assert_balanced (const CavProfile *profile)
{
  double whole = profile->blank.width * profile->blank.thickness;
  double sum = cav_region_get_area (profile->region)
               + cav_region_get_area (cav_profile_get_waste (profile));
  g_assert_cmpfloat_with_epsilon (sum, whole, 1e-3);
}

static guint
count_arcs (const CavRegion *region)
{
  guint n_arcs = 0;
  for (guint ring = 0; ring < cav_region_get_ring_count (region); ring++)
    {
      const CavPath *path = cav_region_get_ring (region, ring);
      for (guint i = 0; i < cav_path_get_segment_count (path); i++)
        n_arcs += cav_path_get_segment (path, i)->kind == CAV_SEGMENT_ARC;
    }
  return n_arcs;
}

static gboolean
has_arc (const CavRegion *region, CavPoint centre, double rx, double ry)
{
  for (guint ring = 0; ring < cav_region_get_ring_count (region); ring++)
    {
      const CavPath *path = cav_region_get_ring (region, ring);
      for (guint i = 0; i < cav_path_get_segment_count (path); i++)
        {
          const CavSegment *segment = cav_path_get_segment (path, i);
          if (segment->kind == CAV_SEGMENT_ARC && cav_point_near (segment->centre, centre, 1e-6)
              && fabs (segment->rx - rx) < 1e-6 && fabs (segment->ry - ry) < 1e-6)
            return TRUE;
        }
    }
  return FALSE;
}

static void
test_bare_blank (void)
{
  g_autoptr (GPtrArray) none = new_cuts ();
  const GPtrArray *const lists[] = { NULL, none };

  for (guint i = 0; i < G_N_ELEMENTS (lists); i++)
    {
      g_autoptr (CavProfile) profile = cav_profile_new (&blank, lists[i]);
      g_assert_true (cav_profile_is_sound (profile));
      g_assert_cmpfloat_with_epsilon (cav_region_get_area (profile->region), 1500.0, 1e-9);
      g_assert_true (cav_region_is_empty (cav_profile_get_waste (profile)));
      g_assert_cmpuint (profile->findings->len, ==, 1);
      const CavFinding *finding = rig_expect (profile, "profile-no-rabbet");
      g_assert_cmpint (finding->severity, ==, CAV_FINDING_NOTE);
    }
  cav_profile_free (NULL);
}

/* A molding of six cuts: each curve that was drawn is a curve of the outline, with its centre and
 * radii. */
static void
test_exact_curves (void)
{
  g_autoptr (GPtrArray) cuts = new_cuts ();
  rig_add_corner_cut (cuts, CAV_CUT_RABBET, CAV_CORNER_BACK_INSIDE, 6, 10);
  rig_add_corner_cut (cuts, CAV_CUT_COVE, CAV_CORNER_FACE_INSIDE, 9.5, 9.5);
  add_side_cut (cuts, CAV_CUT_COVE, CAV_SIDE_FACE, 30, 24, 5);
  add_side_cut (cuts, CAV_CUT_BEAD, CAV_SIDE_FACE, 14, 4, 0)->numbers[CAV_CUT_QUIRK_WIDTH] = 1.0;
  rig_add_corner_cut (cuts, CAV_CUT_ROUND, CAV_CORNER_FACE_OUTSIDE, 8, 5);
  rig_add_corner_cut (cuts, CAV_CUT_CHAMFER, CAV_CORNER_BACK_OUTSIDE, 2, 2);
  g_autoptr (CavProfile) profile = cav_profile_new (&blank, cuts);

  g_assert_true (cav_profile_is_sound (profile));
  g_assert_true (has_arc (profile->region, CAV_POINT (0, 25), 9.5, 9.5));
  double radius = (12.0 * 12.0 + 5.0 * 5.0) / 10.0;
  g_assert_true (has_arc (profile->region, CAV_POINT (30, 20 + radius), radius, radius));
  g_assert_true (has_arc (profile->region, CAV_POINT (14, 23), 2, 2));
  g_assert_true (has_arc (profile->region, CAV_POINT (52, 20), 8, 5));
  g_assert_cmpuint (count_arcs (profile->region), ==, 4);
  /* The waste touches the side at the bead's top, and so has the bead in two. */
  g_assert_cmpuint (count_arcs (cav_profile_get_waste (profile)), ==, 5);
  assert_balanced (profile);
  g_assert_null (rig_find (profile, "profile-no-rabbet"));
}

/* A rabbet wants a lip over it and a wall beside it; which of them is gone, and where, is said. */
static void
test_rabbet_edges (void)
{
  static const struct
  {
    double width;
    double depth;
    double cove; /* over it, at the face; 0: none */
    const char *code;
    CavPoint place;
  } rows[] = {
    { 6, 10, 0, NULL, { 0, 0 } },
    { 6, 25, 0, "profile-no-lip", { 6, 12.5 } },
    { 6, 20, 8, "profile-no-lip", { 6, 12.5 } },
    { 6, 16.8, 8, NULL, { 0, 0 } },
    { 60, 10, 0, "profile-no-wall", { 30, 10 } },
    { 59, 10, 0, NULL, { 0, 0 } },
  };
  static const char *const codes[] = { "profile-no-lip", "profile-no-wall", "profile-no-rabbet" };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (GPtrArray) cuts = new_cuts ();

      rig_add_corner_cut (cuts, CAV_CUT_RABBET, CAV_CORNER_BACK_INSIDE, rows[i].width,
                          rows[i].depth);
      if (rows[i].cove > 0)
        rig_add_corner_cut (cuts, CAV_CUT_COVE, CAV_CORNER_FACE_INSIDE, rows[i].cove, rows[i].cove);
      g_autoptr (CavProfile) profile = cav_profile_new (&blank, cuts);

      for (guint k = 0; k < G_N_ELEMENTS (codes); k++)
        if (g_strcmp0 (codes[k], rows[i].code) != 0)
          g_assert_null (rig_find (profile, codes[k]));
      if (rows[i].code == NULL)
        continue;
      const CavFinding *finding = rig_expect (profile, rows[i].code);
      g_assert_cmpint (finding->severity, ==, CAV_FINDING_CAUTION);
      g_assert_true (finding->has_place);
      g_assert_true (cav_point_near (finding->place, rows[i].place, 0.6));
    }
}

/* Two coves that overlap keep what is left of either, not chords. */
static void
test_overlapping_curves (void)
{
  g_autoptr (GPtrArray) cuts = new_cuts ();
  add_side_cut (cuts, CAV_CUT_COVE, CAV_SIDE_FACE, 20, 16, 8);
  add_side_cut (cuts, CAV_CUT_COVE, CAV_SIDE_FACE, 30, 16, 8);
  g_autoptr (CavProfile) profile = cav_profile_new (&blank, cuts);

  g_assert_true (has_arc (profile->region, CAV_POINT (20, 25), 8, 8));
  g_assert_true (has_arc (profile->region, CAV_POINT (30, 25), 8, 8));
  g_assert_cmpuint (count_arcs (profile->region), ==, 2);
  /* Two half discs of 8 less the lens that they share over a distance of 10. */
  double half_lens = 64.0 * acos (5.0 / 8.0) - 5.0 * sqrt (64.0 - 25.0);
  g_assert_cmpfloat_with_epsilon (cav_region_get_area (cav_profile_get_waste (profile)),
                                  G_PI * 64.0 - half_lens, 1e-3);
}

/* A cut on the ledge of another one: nothing is left between them, nothing more is taken. */
static void
test_on_ledge (void)
{
  g_autoptr (GPtrArray) cuts = new_cuts ();
  rig_add_corner_cut (cuts, CAV_CUT_RABBET, CAV_CORNER_FACE_INSIDE, 20, 7.35);
  CavCut *cove = rig_add_corner_cut (cuts, CAV_CUT_COVE, CAV_CORNER_FACE_INSIDE, 6, 6);
  cove->numbers[CAV_CUT_SHIFT_Y] = 7.35;
  g_autoptr (CavProfile) profile = cav_profile_new (&blank, cuts);

  g_assert_true (cav_profile_is_sound (profile));
  g_assert_cmpuint (cav_region_get_piece_count (cav_profile_get_waste (profile)), ==, 1);
  g_assert_cmpfloat_with_epsilon (cav_region_get_area (cav_profile_get_waste (profile)),
                                  20.0 * 7.35 + G_PI * 9.0, 1e-3);
  g_assert_true (has_arc (profile->region, CAV_POINT (0, 25 - 7.35), 6, 6));
}

static void
test_pieces (void)
{
  g_autoptr (GPtrArray) cuts = new_cuts ();
  add_side_cut (cuts, CAV_CUT_GROOVE, CAV_SIDE_FACE, 20, 4, 25);
  add_side_cut (cuts, CAV_CUT_GROOVE, CAV_SIDE_FACE, 50, 4, 25);
  g_autoptr (CavProfile) profile = cav_profile_new (&blank, cuts);

  g_assert_false (cav_profile_is_sound (profile));
  g_assert_cmpfloat_with_epsilon (cav_region_get_area (profile->region), 26.0 * 25.0, 1e-3);
  assert_balanced (profile);

  guint n_found = 0;
  for (guint i = 0; i < profile->findings->len; i++)
    {
      const CavFinding *finding = g_ptr_array_index (profile->findings, i);
      if (g_strcmp0 (finding->code, "profile-in-pieces") != 0)
        continue;
      g_assert_cmpint (finding->severity, ==, CAV_FINDING_WRONG);
      g_assert_true (finding->has_place);
      g_assert_cmpfloat_with_epsilon (finding->place.y, 12.5, 1e-3);
      g_assert_true (fabs (finding->place.x - 9.0) < 1e-3 || fabs (finding->place.x - 56.0) < 1e-3);
      g_assert_nonnull (strstr (finding->message, "3 pieces"));
      n_found++;
    }
  g_assert_cmpuint (n_found, ==, 2);
}

static void
test_empty (void)
{
  g_autoptr (GPtrArray) cuts = new_cuts ();
  rig_add_corner_cut (cuts, CAV_CUT_RABBET, CAV_CORNER_BACK_INSIDE, 60, 25);
  g_autoptr (CavProfile) profile = cav_profile_new (&blank, cuts);

  g_assert_false (cav_profile_is_sound (profile));
  g_assert_true (cav_region_is_empty (profile->region));
  g_assert_cmpfloat_with_epsilon (cav_region_get_area (cav_profile_get_waste (profile)), 1500.0,
                                  1e-3);
  g_assert_nonnull (rig_find (profile, "profile-empty"));
  g_assert_false (cav_profile_get_rabbet (profile, NULL, NULL));
}

static void
test_outside (void)
{
  g_autoptr (GPtrArray) cuts = new_cuts ();
  rig_add_corner_cut (cuts, CAV_CUT_RABBET, CAV_CORNER_BACK_INSIDE, 6, 10);
  add_side_cut (cuts, CAV_CUT_GROOVE, CAV_SIDE_FACE, 80, 4, 5);
  g_autoptr (CavProfile) profile = cav_profile_new (&blank, cuts);
  const CavFinding *finding = rig_expect (profile, "cut-outside");

  g_assert_false (cav_profile_is_sound (profile));
  g_assert_cmpint (finding->severity, ==, CAV_FINDING_WRONG);
  g_assert_cmpint (finding->cut, ==, 1);
  g_assert_nonnull (strstr (finding->message, "Cut 2"));
  g_assert_nonnull (strstr (finding->message, "groove"));
  g_assert_cmpfloat_with_epsilon (cav_region_get_area (cav_profile_get_waste (profile)), 60.0,
                                  1e-3);
}

static void
test_partly_outside (void)
{
  g_autoptr (GPtrArray) cuts = new_cuts ();
  add_side_cut (cuts, CAV_CUT_GROOVE, CAV_SIDE_FACE, 59, 4, 5);
  g_autoptr (CavProfile) profile = cav_profile_new (&blank, cuts);
  const CavFinding *finding = rig_expect (profile, "cut-partly-outside");

  g_assert_true (cav_profile_is_sound (profile));
  g_assert_cmpint (finding->severity, ==, CAV_FINDING_NOTE);
  g_assert_cmpint (finding->cut, ==, 0);
  g_assert_cmpfloat_with_epsilon (cav_region_get_area (cav_profile_get_waste (profile)), 15.0,
                                  1e-3);
}

/* The smallest cuts there are lie inside for all that. */
static void
test_smallest (void)
{
  g_autoptr (GPtrArray) cuts = new_cuts ();
  rig_add_corner_cut (cuts, CAV_CUT_CHAMFER, CAV_CORNER_FACE_INSIDE, 0.1, 0.1);
  rig_add_corner_cut (cuts, CAV_CUT_ROUND, CAV_CORNER_FACE_OUTSIDE, 0.1, 0.1);
  g_autoptr (CavProfile) profile = cav_profile_new (&blank, cuts);

  g_assert_true (cav_profile_is_sound (profile));
  g_assert_null (rig_find (profile, "cut-partly-outside"));
  g_assert_cmpfloat_with_epsilon (cav_region_get_area (cav_profile_get_waste (profile)),
                                  0.005 + 0.01 * (1.0 - G_PI / 4.0), 1e-4);
}

/* A wrong cut is a finding that names it; the others still count. */
static void
test_wrong_cuts (void)
{
  g_autoptr (GPtrArray) cuts = new_cuts ();
  rig_add_corner_cut (cuts, CAV_CUT_RABBET, CAV_CORNER_BACK_INSIDE, 6, 10);
  rig_add_corner_cut (cuts, CAV_CUT_COVE, CAV_CORNER_FACE_INSIDE, NAN, 10);
  g_ptr_array_add (cuts, cav_cut_new_on_side (CAV_CUT_RABBET, CAV_SIDE_FACE));
  g_ptr_array_add (cuts, cav_cut_new (CAV_CUT_DRAWN));
  g_autoptr (CavProfile) profile = cav_profile_new (&blank, cuts);
  static const struct
  {
    const char *code, *number;
    int cut;
  } rows[]
      = { { "cut-range", "width", 1 }, { "cut-anchor", "corner", 2 }, { "cut-path", "path", 3 } };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      const CavFinding *finding = rig_expect (profile, rows[i].code);
      g_autofree char *number = g_strdup_printf ("Cut %d:", rows[i].cut + 1);
      g_assert_cmpint (finding->severity, ==, CAV_FINDING_WRONG);
      g_assert_cmpint (finding->cut, ==, rows[i].cut);
      g_assert_true (g_str_has_prefix (finding->message, number));
      g_assert_nonnull (strstr (finding->message, rows[i].number));
    }
  g_assert_false (cav_profile_is_sound (profile));
  g_assert_cmpfloat_with_epsilon (cav_region_get_area (cav_profile_get_waste (profile)), 60.0,
                                  1e-3);
}

static void
test_bad_blanks (void)
{
  static const CavBlank blanks[] = { { 0, 25 },   { 60, 0 },        { -60, 25 },   { 60, -25 },
                                     { NAN, 25 }, { 60, INFINITY }, { 1e300, 25 }, { 60, 501 } };
  g_autoptr (GPtrArray) cuts = new_cuts ();
  rig_add_corner_cut (cuts, CAV_CUT_RABBET, CAV_CORNER_BACK_INSIDE, 6, 10);

  for (guint i = 0; i < G_N_ELEMENTS (blanks); i++)
    {
      g_autoptr (CavProfile) profile = cav_profile_new (&blanks[i], cuts);
      g_assert_false (cav_profile_is_sound (profile));
      g_assert_true (cav_region_is_empty (profile->region));
      g_assert_true (cav_region_is_empty (cav_profile_get_waste (profile)));
      g_assert_nonnull (rig_find (profile, "blank-range"));
      g_assert_false (cav_profile_get_rabbet (profile, NULL, NULL));
    }
}

/* A drawn hole in the middle of the blank. */
static void
test_hole (void)
{
  g_autoptr (GPtrArray) cuts = new_cuts ();
  g_autoptr (CavPath) path = cav_path_new ();
  cav_path_move_to (path, CAV_POINT (35.0, 12.0));
  cav_path_arc (path, CAV_POINT (30.0, 12.0), 5.0, 5.0, 0.0, 180.0);
  cav_path_arc (path, CAV_POINT (30.0, 12.0), 5.0, 5.0, 180.0, 180.0);
  cav_path_close (path);
  g_ptr_array_add (cuts, cav_cut_new_drawn (path));
  g_autoptr (CavProfile) profile = cav_profile_new (&blank, cuts);

  g_assert_cmpuint (cav_region_get_ring_count (profile->region), ==, 2);
  g_assert_cmpfloat_with_epsilon (cav_region_get_area (profile->region), 1500.0 - G_PI * 25.0,
                                  1e-3);
  assert_balanced (profile);
}

/* A cut somewhere, of any kind and size that is at home in a molding. */
static CavCut *
new_random_cut (void)
{
  CavCutKind kind = (CavCutKind)g_test_rand_int_range (0, CAV_CUT_DRAWN);
  const CavCutInfo *info = cav_cut_kind_get_info (kind);
  gboolean corner = info->anchors & (1u << CAV_ANCHOR_CORNER);
  gboolean side = info->anchors & (1u << CAV_ANCHOR_SIDE);
  if (corner && side)
    corner = g_test_rand_bit ();
  CavCut *cut = corner ? cav_cut_new_at_corner (kind, (CavCorner)g_test_rand_int_range (0, 4))
                       : cav_cut_new_on_side (kind, (CavSide)g_test_rand_int_range (0, 4));

  cut->form = info->forms[g_test_rand_int_range (0, (int)info->n_forms)];
  for (guint i = 0; i < info->n_numbers; i++)
    {
      const CavCutNumberInfo *number = &info->numbers[i];
      double maximum = number->is_length ? 14.0 : number->maximum;
      if (number->number == CAV_CUT_POSITION)
        maximum = corner ? 1.0 : 60.0;
      if (number->number == CAV_CUT_COUNT)
        maximum = 4.0;
      if (number->number == CAV_CUT_RUN || number->number == CAV_CUT_RISE)
        maximum = 4.0;
      double minimum = MAX (number->minimum, -2.0);
      double value = g_test_rand_double_range (minimum, maximum);
      /* Half of them on a grid of 0.5, so that edges of cuts fall together. */
      if (g_test_rand_bit () && number->is_length)
        value = MAX (minimum, round (value * 2.0) / 2.0);
      cut->numbers[number->number] = value;
    }
  return cut;
}

/* Whatever the cuts, profile and waste are the blank, nothing overlaps, nothing is lost, and the
 * order of the cuts does not matter. The seed is printed by the test framework. */
static void
test_random_cuts (void)
{
  guint n_sound = 0;
  guint n_pieces = 0;

  for (int round = 0; round < 150; round++)
    {
      g_autoptr (GPtrArray) cuts = new_cuts ();
      int n_cuts = g_test_rand_int_range (1, 9);
      for (int i = 0; i < n_cuts; i++)
        g_ptr_array_add (cuts, new_random_cut ());
      g_autoptr (GPtrArray) turned = g_ptr_array_new ();
      for (int i = n_cuts; i > 0; i--)
        g_ptr_array_add (turned, g_ptr_array_index (cuts, i - 1));

      g_autoptr (CavProfile) profile = cav_profile_new (&blank, cuts);
      g_autoptr (CavProfile) again = cav_profile_new (&blank, turned);
      g_assert_null (rig_find (profile, "profile-failed"));
      assert_balanced (profile);
      g_autoptr (CavRegion) both
          = cav_region_intersection (profile->region, cav_profile_get_waste (profile), NULL);
      g_assert_cmpfloat (cav_region_get_area (both), <, 1e-3);
      g_assert_cmpint (cav_profile_is_sound (profile), ==, cav_profile_is_sound (again));
      g_assert_cmpuint (profile->findings->len, ==, again->findings->len);
      g_assert_cmpfloat (rig_get_difference (profile->region, again->region), <, 1e-2);
      n_sound += cav_profile_is_sound (profile);
      n_pieces += rig_find (profile, "profile-in-pieces") != NULL;
    }
  /* The mix must try both, or it proves little. */
  g_assert_cmpuint (n_sound, >, 30);
  g_assert_cmpuint (n_pieces, >, 1);
}

/* What the profile says of a point agrees with asking each cut in turn. */
static void
test_random_points (void)
{
  for (int round = 0; round < 30; round++)
    {
      g_autoptr (GPtrArray) cuts = new_cuts ();
      g_autoptr (GPtrArray) regions
          = g_ptr_array_new_with_free_func ((GDestroyNotify)cav_region_unref);
      int n_cuts = g_test_rand_int_range (1, 6);
      for (int i = 0; i < n_cuts; i++)
        {
          CavCut *cut = new_random_cut ();
          CavRegion *region = cav_cut_create_region (cut, &blank, NULL);
          g_ptr_array_add (cuts, cut);
          if (region != NULL)
            g_ptr_array_add (regions, region);
        }
      g_autoptr (CavProfile) profile = cav_profile_new (&blank, cuts);
      if (rig_find (profile, "profile-in-pieces") != NULL)
        continue; /* lesser pieces are left out of the profile */
      for (int k = 0; k < 100; k++)
        {
          CavPoint point = CAV_POINT (g_test_rand_double_range (0.0, 60.0),
                                      g_test_rand_double_range (0.0, 25.0));
          gboolean taken = FALSE;
          gboolean close = FALSE;
          for (guint i = 0; i < regions->len; i++)
            {
              const CavRegion *region = g_ptr_array_index (regions, i);
              taken = taken || cav_region_contains (region, point);
              close = close || cav_region_get_distance (region, point) < 0.05;
            }
          if (!close)
            g_assert_cmpint (cav_region_contains (profile->region, point), ==, !taken);
        }
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/profile/profile/bare-blank", test_bare_blank);
  g_test_add_func ("/profile/profile/exact-curves", test_exact_curves);
  g_test_add_func ("/profile/profile/rabbet-edges", test_rabbet_edges);
  g_test_add_func ("/profile/profile/overlapping-curves", test_overlapping_curves);
  g_test_add_func ("/profile/profile/on-ledge", test_on_ledge);
  g_test_add_func ("/profile/profile/pieces", test_pieces);
  g_test_add_func ("/profile/profile/empty", test_empty);
  g_test_add_func ("/profile/profile/outside", test_outside);
  g_test_add_func ("/profile/profile/partly-outside", test_partly_outside);
  g_test_add_func ("/profile/profile/smallest", test_smallest);
  g_test_add_func ("/profile/profile/wrong-cuts", test_wrong_cuts);
  g_test_add_func ("/profile/profile/bad-blanks", test_bad_blanks);
  g_test_add_func ("/profile/profile/hole", test_hole);
  g_test_add_func ("/profile/profile/random-cuts", test_random_cuts);
  g_test_add_func ("/profile/profile/random-points", test_random_points);
  return g_test_run ();
}
