/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "milling/cav-proof.h"

#include "milling/cav-caution.h"
#include "milling/cav-chips.h"
#include "milling/cav-placement.h"
#include "milling/cav-thin.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#define GOUGE 0.02
#define GOUGE_PROBE 0.5
/* A corner of the profile deeper than this in the chips is one that is cut off. */
#define CORNER_DEPTH 0.002
/* Sweeps are grown by this where they are subtracted: enough to close the films that rounding
 * leaves between cuts that share a wall, too little to show in an area. */
#define GROWTH 0.0005
/* Areas below this are rounding, mm². */
#define AREA_LEAST 2e-4
#define LAND_LEAST 1.0
/* A web thinner than this holds nothing in practice. */
#define WEB 0.5
/* A wall thinner than this over more than this height is worth a caution. */
#define THIN_WALL 2.0
#define THIN_WALL_HEIGHT 1.0
/* Pieces nowhere thicker than twice this are dust. */
#define HALF_DUST 0.15
/* A lump that hangs on by a thin web matters from this area on, mm². */
#define LUMP_LEAST 0.5
#define ON_SIDE 0.012

/* Rows along x, or along y where turned. */
static CavRows *
create_rows (const CavProof *proof, const CavRegion *region, gboolean turned)
{
  CavTransform swap = { 0, 1, 0, 1, 0, 0 };
  g_autoptr (CavRegion) other = turned ? cav_region_transformed (region, swap) : NULL;

  return cav_rows_new_from_region (
      turned ? other : region,
      cav_rows_count_for (turned ? proof->blank.width : proof->blank.thickness));
}

void
cav_proof_init (CavProof *proof,
                const CavBlank *blank,
                const CavRegion *profile,
                const CavShop *shop,
                CavPoint seed)
{
  memset (proof, 0, sizeof *proof);
  proof->blank = *blank;
  proof->profile = profile;
  proof->rail_length = G_MAXDOUBLE;
  proof->shop = shop;
  proof->seed = seed;
  proof->rail = cav_blank_create_region (blank);
  cav_standing_init_region (&proof->standing, proof->rail, blank);
  for (int turned = 0; turned < 2; turned++)
    proof->profile_rows[turned] = create_rows (proof, profile, turned);
}

void
cav_proof_clear (CavProof *proof)
{
  for (int turned = 0; turned < 2; turned++)
    g_clear_pointer (&proof->profile_rows[turned], cav_rows_free);
  g_clear_pointer (&proof->rail, cav_region_unref);
}

/* A stretch of wood along a side. */
typedef struct
{
  double from;
  double to;
} Stretch;

static int
compare_stretches (const void *a, const void *b)
{
  const Stretch *p = a, *q = b;

  return (p->from > q->from) - (p->from < q->from);
}

static void
join_stretches (GArray *stretches, CavLands *lands)
{
  g_array_sort (stretches, compare_stretches);
  for (guint i = 0; i < stretches->len;)
    {
      Stretch one = g_array_index (stretches, Stretch, i);

      for (i++; i < stretches->len && g_array_index (stretches, Stretch, i).from < one.to + 0.01;
           i++)
        one.to = fmax (one.to, g_array_index (stretches, Stretch, i).to);
      if (one.to - one.from < LAND_LEAST)
        continue;
      if (lands->total <= 0)
        lands->first = one.from;
      lands->last = one.to;
      lands->total += one.to - one.from;
    }
}

void
cav_standing_init_region (CavStanding *standing, const CavRegion *region, const CavBlank *blank)
{
  GArray *stretches[CAV_N_SIDES];

  memset (standing, 0, sizeof *standing);
  standing->area = cav_region_get_area (region);
  standing->box = cav_region_get_bounds (region);
  cav_region_get_centroid (region, &standing->centroid);
  for (int side = 0; side < CAV_N_SIDES; side++)
    stretches[side] = g_array_new (FALSE, FALSE, sizeof (Stretch));
  for (guint ring = 0; ring < cav_region_get_ring_count (region); ring++)
    {
      guint n;
      const CavPoint *points = cav_region_get_ring_points (region, ring, &n);

      for (guint i = 0; i < n; i++)
        {
          CavPoint p = points[i], q = points[(i + 1) % n];
          Stretch along_x = { fmin (p.x, q.x), fmax (p.x, q.x) };
          Stretch along_y = { fmin (p.y, q.y), fmax (p.y, q.y) };

          if (fmax (p.y, q.y) < ON_SIDE)
            g_array_append_val (stretches[CAV_SIDE_BACK], along_x);
          if (fmin (p.y, q.y) > blank->thickness - ON_SIDE)
            g_array_append_val (stretches[CAV_SIDE_FACE], along_x);
          if (fmax (p.x, q.x) < ON_SIDE)
            g_array_append_val (stretches[CAV_SIDE_INSIDE], along_y);
          if (fmin (p.x, q.x) > blank->width - ON_SIDE)
            g_array_append_val (stretches[CAV_SIDE_OUTSIDE], along_y);
        }
    }
  for (int side = 0; side < CAV_N_SIDES; side++)
    {
      join_stretches (stretches[side], &standing->lands[side]);
      g_array_unref (stretches[side]);
    }
}

/* Deepest of the points along the outlines of a region, of those that lie inside the profile. */
static double
probe_outline (const CavProof *proof, const CavRegion *region)
{
  double deepest = 0;

  for (guint ring = 0; ring < cav_region_get_ring_count (region); ring++)
    {
      guint n;
      const CavPoint *points = cav_region_get_ring_points (region, ring, &n);

      for (guint i = 0; i < n; i++)
        {
          CavPoint p = points[i], q = points[(i + 1) % n];
          int n_probes = 1 + (int)(cav_point_distance (p, q) / GOUGE_PROBE);

          for (int probe = 0; probe <= n_probes; probe++)
            {
              double t = (double)probe / (n_probes + 1);
              CavPoint at = { p.x + t * (q.x - p.x), p.y + t * (q.y - p.y) };

              if (cav_region_contains (proof->profile, at))
                deepest = fmax (deepest, cav_region_get_distance (proof->profile, at));
            }
        }
    }
  return deepest;
}

/* TRUE where a corner of the profile stands in what is taken. */
static gboolean
takes_corner (const CavProof *proof, const CavRegion *chips)
{
  CavBox box = cav_region_get_bounds (chips);

  for (guint ring = 0; ring < cav_region_get_ring_count (proof->profile); ring++)
    {
      guint n;
      const CavPoint *points = cav_region_get_ring_points (proof->profile, ring, &n);

      for (guint i = 0; i < n; i++)
        if (points[i].x > box.x0 && points[i].x < box.x1 && points[i].y > box.y0
            && points[i].y < box.y1 && cav_region_contains (chips, points[i])
            && cav_region_get_distance (chips, points[i]) > CORNER_DEPTH)
          return TRUE;
    }
  return FALSE;
}

/* What two spans share, where that is more than a pass may enter from both sides; else empty. */
static CavSpan
get_deep_span (CavSpan a, CavSpan b)
{
  CavSpan common = { MAX (a.a, b.a), MIN (a.b, b.b) };

  return common.b - common.a > 2 * GOUGE * CAV_MICRONS ? common : (CavSpan){ 0, 0 };
}

/* TRUE where chips and profile share more than a film: a deep span that the next row has as well.
 * Films of 0.02 never do, whichever way they run. */
static gboolean
share_more_than_film (const CavRows *chips, const CavRows *profile, int row, CavSpan within)
{
  for (int i = chips->first[row]; i < chips->first[row + 1]; i++)
    for (int j = profile->first[row]; j < profile->first[row + 1]; j++)
      {
        CavSpan deep = get_deep_span (within, get_deep_span (chips->spans[i], profile->spans[j]));

        if (deep.b <= deep.a)
          continue;
        if (within.a > G_MININT32
            || (row + 1 < chips->n_rows && share_more_than_film (chips, profile, row + 1, deep)))
          return TRUE;
      }
  return FALSE;
}

/* TRUE where a pass may go right through a wall of the profile that no probe meets. */
static gboolean
takes_wall (const CavProof *proof, const CavRegion *chips)
{
  const CavSpan all = { G_MININT32, G_MAXINT32 };

  for (int turned = 0; turned < 2; turned++)
    {
      g_autoptr (CavRows) rows = create_rows (proof, chips, turned);

      for (int row = 0; row < rows->n_rows; row++)
        if (share_more_than_film (rows, proof->profile_rows[turned], row, all))
          return TRUE;
    }
  return FALSE;
}

/* How deep a pass enters the profile. The rail holds all of the profile, so what enters it is among
 * the chips: its edge is a part of theirs, unless it cuts off a corner or a thin wall between two
 * probes, and then the exact common region is probed. */
static double
get_gouge (const CavProof *proof, const CavRegion *chips)
{
  double deepest = probe_outline (proof, chips);

  if (deepest <= GOUGE && (takes_corner (proof, chips) || takes_wall (proof, chips)))
    {
      g_autoptr (CavRegion) common = cav_region_intersection (proof->profile, chips, NULL);

      if (common == NULL)
        return G_MAXDOUBLE;
      deepest = fmax (deepest, probe_outline (proof, common));
    }
  return deepest;
}

static gboolean
has_area (const CavRegion *a, const CavRegion *b)
{
  g_autoptr (CavRegion) common = cav_region_intersection (a, b, NULL);

  return common == NULL || cav_region_get_area (common) > AREA_LEAST;
}

static gboolean
is_dust (const CavRegion *piece)
{
  g_autoptr (CavRegion) shrunk = NULL;

  if (cav_region_get_area (piece) < AREA_LEAST)
    return TRUE;
  shrunk = cav_region_offset (piece, -HALF_DUST, NULL);
  return shrunk == NULL || cav_region_is_empty (shrunk);
}

/* How far a piece keeps beyond the tool's middle, seen from the fence. */
static double
get_beyond (const CavSweepSetting *setting, const CavBlank *blank, const CavRegion *piece)
{
  CavTransform map = cav_placement_get_transform (blank, setting->down, setting->against);
  double middle = cav_sweep_get_middle (setting), lean = tan (setting->tilt * G_PI / 180);
  double beyond = G_MAXDOUBLE;

  for (guint ring = 0; ring < cav_region_get_ring_count (piece); ring++)
    {
      guint n;
      const CavPoint *points = cav_region_get_ring_points (piece, ring, &n);

      for (guint i = 0; i < n; i++)
        {
          CavPoint p = cav_transform_point (map, points[i]);

          beyond = fmin (beyond, p.x - middle - lean * p.y);
        }
    }
  return beyond;
}

static CavFence
get_fence (CavSide against)
{
  return against == CAV_SIDE_INSIDE || against == CAV_SIDE_BACK ? CAV_FENCE_LOW : CAV_FENCE_HIGH;
}

/* Rule 4. The pieces of after: the rail is kept, the others fall. */
static const char *
judge_pieces (CavProof *proof,
              const CavSweepSetting *setting,
              const CavRegion *after,
              CavPass *pass,
              CavRegion **out_rail,
              CavStanding *out_standing)
{
  guint n = cav_region_get_piece_count (after);
  g_autoptr (CavRegion) rail = NULL, carrier = NULL;
  gboolean severs = FALSE;

  for (guint i = 0; i < n; i++)
    {
      g_autoptr (CavRegion) piece = cav_region_dup_piece (after, i);

      if (rail == NULL && cav_region_contains (piece, proof->seed))
        {
          rail = g_steal_pointer (&piece);
          continue;
        }
      if (is_dust (piece))
        continue;
      severs = TRUE;
      if (get_beyond (setting, &proof->blank, piece) > -1e-3)
        continue;
      if (carrier != NULL)
        return "severed piece";
      carrier = g_steal_pointer (&piece);
    }
  if (rail == NULL)
    return "profile";
  pass->severs = severs;
  pass->frees_rail = carrier != NULL;
  if (severs
      && (setting->machine == CAV_MACHINE_ROUTER || setting->tilt < 0
          || cav_sweep_get_near_edge (setting) < proof->shop->limits.push_gap - 1e-6))
    return "severed piece";
  if (carrier != NULL && get_beyond (setting, &proof->blank, rail) < -1e-3)
    return "severed piece";
  cav_standing_init_region (out_standing, carrier != NULL ? carrier : rail, &proof->blank);
  *out_rail = g_steal_pointer (&rail);
  return NULL;
}

static const char *
judge_machine (const CavProof *proof,
               const CavSweepSetting *setting,
               CavPass *pass,
               const double sides[2])
{
  const CavCutter *cutter = setting->cutter;

  if (pass->removes > (cutter != NULL ? cutter->bite : setting->blade->bite) + 1e-3)
    return "bite";
  if (setting->machine == CAV_MACHINE_COVE)
    return pass->bite > proof->shop->limits.cove_layer + 2e-3 ? "layer" : NULL;
  if (setting->machine == CAV_MACHINE_SAW)
    return NULL;
  if (pass->bite > 2 * cav_cutter_get_greatest_radius (cutter) + 1e-3)
    return "layer";
  return sides[0] > sides[1] + 5e-3 ? "feed" : NULL;
}

/* TRUE where the rail's weight lies beyond the stretch on which it rests. */
static gboolean
would_tip (const CavProof *proof, const CavSweepSetting *setting)
{
  double reach = cav_placement_get_reach (&proof->blank, setting->down);
  double first = proof->standing.lands[setting->down].first;
  double last = proof->standing.lands[setting->down].last;
  double u
      = cav_side_is_flat (setting->down) ? proof->standing.centroid.x : proof->standing.centroid.y;

  if (get_fence (setting->against) == CAV_FENCE_HIGH)
    {
      double swap = first;

      u = reach - u;
      first = reach - last;
      last = reach - swap;
    }
  return u > last || u < first;
}

/* From the rail as it stood before the pass. */
static CavCautionFacts
get_caution_facts (const CavProof *proof, const CavSweepSetting *setting, const CavPass *pass)
{
  CavBox box = proof->standing.box;
  gboolean inside
      = setting->height < cav_placement_get_height (&proof->blank, setting->down) - 1e-9;

  return (CavCautionFacts){
    .machine = setting->machine,
    .sacrificial = pass->sacrificial,
    .severs = pass->severs,
    .hidden = inside,
    .tips = would_tip (proof, setting),
    .ridged = setting->blade != NULL && setting->blade->grind == CAV_GRIND_ALTERNATE && inside,
    .cutter_diameter
    = setting->cutter != NULL ? 2 * cav_cutter_get_greatest_radius (setting->cutter) : 0.0,
    .section_width = box.x1 - box.x0,
    .section_thickness = box.y1 - box.y0,
    .rail_length = proof->rail_length,
  };
}

/* A wall thinner than 2 mm beside the fresh cut that the profile does not ask for. */
static gboolean
leaves_thin_wall (const CavProof *proof, const CavRegion *rail, const CavRegion *swept)
{
  for (int turned = 0; turned < 2; turned++)
    {
      g_autoptr (CavRows) rows = create_rows (proof, rail, turned);
      g_autoptr (CavRows) cut = create_rows (proof, swept, turned);

      if (cav_rows_get_thin_wall (rows, proof->profile_rows[turned], cut, THIN_WALL)
          > THIN_WALL_HEIGHT)
        return TRUE;
    }
  return FALSE;
}

/* A lump of waste that hangs on by less than half a millimetre would break off under the tool. */
static gboolean
leaves_weak_lump (const CavProof *proof, const CavRegion *rail)
{
  g_autoptr (CavRows) rows = create_rows (proof, rail, FALSE);

  return cav_rows_have_weak_lump (rows, proof->profile_rows[0], WEB, LUMP_LEAST);
}

gboolean
cav_proof_do_pass (CavProof *proof, const CavSetup *setup, CavPass *pass, const char **out_rule)
{
  CavSweepSetting setting = {
    setup->machine,
    setup->machine != CAV_MACHINE_ROUTER ? cav_shop_find_blade (proof->shop, setup->tool) : NULL,
    setup->machine == CAV_MACHINE_ROUTER ? cav_shop_find_cutter (proof->shop, setup->tool) : NULL,
    setup->tilt,
    setup->angle,
    pass->down,
    pass->against,
    pass->fence,
    pass->height
  };
  CavFence fence = get_fence (pass->against);
  g_autoptr (CavRegion) swept = cav_sweep_create_region (&setting, &proof->blank, 0, NULL);
  g_autoptr (CavRegion) wide = cav_sweep_create_region (&setting, &proof->blank, GROWTH, NULL);
  g_autoptr (CavRegion) chips = NULL, after = NULL, rail = NULL, pilot = NULL;
  CavStanding standing;
  CavCautionFacts facts;
  double sides[2], gouge = 0;

  *out_rule = NULL;
  if (swept == NULL || wide == NULL)
    *out_rule = "setting";
  else if (proof->freed)
    *out_rule = "freed";
  else if (!cav_standing_is_supported (&proof->standing, &proof->blank, pass->down, fence))
    *out_rule = "support before";
  if (*out_rule != NULL)
    return FALSE;
  chips = cav_region_intersection (proof->rail, swept, NULL);
  after = cav_region_difference (proof->rail, wide, NULL);
  if (chips == NULL || after == NULL)
    {
      *out_rule = "region";
      return FALSE;
    }
  gouge = get_gouge (proof, chips);
  if (gouge > GOUGE)
    {
      *out_rule = "gouge";
      return FALSE;
    }
  pass->removes = cav_region_get_area (chips);
  pass->bite = cav_chips_get_layer (&setting, &proof->blank, chips);
  cav_chips_get_sides (&setting, &proof->blank, chips, sides);
  *out_rule = judge_machine (proof, &setting, pass, sides);
  pilot = cav_sweep_create_pilot (&setting, &proof->blank, GOUGE);
  if (*out_rule == NULL && pilot != NULL && has_area (after, pilot))
    *out_rule = "pilot";
  if (*out_rule == NULL)
    *out_rule = judge_pieces (proof, &setting, after, pass, &rail, &standing);
  if (*out_rule == NULL && !cav_standing_is_supported (&standing, &proof->blank, pass->down, fence))
    *out_rule = "support after";
  if (*out_rule == NULL && leaves_weak_lump (proof, rail))
    *out_rule = "weak web";
  if (*out_rule != NULL)
    return FALSE;

  pass->sacrificial = setting.machine == CAV_MACHINE_SAW && setting.fence < -1e-9;
  facts = get_caution_facts (proof, &setting, pass);
  facts.thin_wall = leaves_thin_wall (proof, rail, swept);
  pass->cautions |= cav_caution_find (&facts);
  proof->gouge = fmax (proof->gouge, gouge);
  pass->before = g_steal_pointer (&proof->rail);
  pass->after = cav_region_ref (rail);
  pass->swept = g_steal_pointer (&swept);
  proof->rail = g_steal_pointer (&rail);
  proof->freed = pass->frees_rail;
  cav_standing_init_region (&proof->standing, proof->rail, &proof->blank);
  return TRUE;
}
