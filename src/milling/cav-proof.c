/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "milling/cav-proof-private.h"

#include "milling/cav-caution.h"
#include "milling/cav-chips.h"
#include "milling/cav-placement.h"
#include "milling/cav-thin.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

/* Sweeps are grown by this where they are subtracted: enough to close the films that rounding
 * leaves between cuts that share a wall, too little to show in an area. */
#define GROWTH 0.0005
/* Areas below this are rounding, mm². */
#define AREA_LEAST 2e-4
#define LAND_LEAST 1.0
/* A web thinner than this holds nothing in practice. */
#define WEB 0.5
/* How far beside a pass rows are filled to look for one. */
#define WEB_BESIDE (WEB + 3 * CAV_ROW_HEIGHT)
/* A wall thinner than this over more than this height is worth a caution. */
#define THIN_WALL 2.0
#define THIN_WALL_HEIGHT 1.0
/* A blade nearer to the fence than this may touch it, mm; common practice, no source. */
#define RUBS_FENCE 0.5
/* Pieces nowhere thicker than twice this are dust. */
#define HALF_DUST 0.15
/* A lump that hangs on by a thin web matters from this area on, mm². */
#define LUMP_LEAST 0.5
#define ON_SIDE 0.012

CavRows *
cav_proof_create_rows (const CavProof *proof,
                       const CavRegion *region,
                       gboolean turned,
                       CavBox within)
{
  return cav_rows_new_from_region_part (
      region, cav_rows_count_for (turned ? proof->blank.width : proof->blank.thickness), turned,
      turned ? within.x0 : within.y0, turned ? within.x1 : within.y1);
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
    proof->profile_rows[turned]
        = cav_proof_create_rows (proof, profile, turned, cav_region_get_bounds (profile));
  proof->stretches = cav_proof_create_stretches (profile);
}

void
cav_proof_clear (CavProof *proof)
{
  for (int turned = 0; turned < 2; turned++)
    g_clear_pointer (&proof->profile_rows[turned], cav_rows_free);
  g_clear_pointer (&proof->stretches, g_array_unref);
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
  double area = cav_region_get_area (piece);

  if (area < AREA_LEAST)
    return TRUE;
  /* Nothing without holes has more area than its outline times the farthest that it reaches in. */
  if (cav_region_get_ring_count (piece) == 1
      && area > 1.01 * HALF_DUST * cav_region_get_perimeter (piece))
    return FALSE;
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
judge_pieces (const CavProof *proof, CavProofStep *step)
{
  const CavSweepSetting *setting = &step->setting;
  const CavRegion *after = step->left;
  CavPass *pass = step->pass;
  guint n = cav_region_get_piece_count (after);
  g_autoptr (CavRegion) rail = NULL, carrier = NULL;
  gboolean severs = FALSE;

  for (guint i = 0; i < n; i++)
    {
      g_autoptr (CavRegion) piece
          = n > 1 ? cav_region_dup_piece (after, i) : cav_region_ref ((CavRegion *)after);

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
  cav_standing_init_region (&step->standing, rail, &proof->blank);
  if (carrier != NULL)
    cav_standing_init_region (&step->carrier, carrier, &proof->blank);
  step->rail = g_steal_pointer (&rail);
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
would_tip (const CavProof *proof, const CavSweepSetting *setting, const CavStanding *standing)
{
  double reach = cav_placement_get_reach (&proof->blank, setting->down);
  double first = standing->lands[setting->down].first;
  double last = standing->lands[setting->down].last;
  double u = cav_side_is_flat (setting->down) ? standing->centroid.x : standing->centroid.y;

  if (get_fence (setting->against) == CAV_FENCE_HIGH)
    {
      double swap = first;

      u = reach - u;
      first = reach - last;
      last = reach - swap;
    }
  return u > last || u < first;
}

/* A blade that just clears the fence on paper does not in the shop. */
static gboolean
rubs_fence (const CavSweepSetting *setting)
{
  return setting->machine == CAV_MACHINE_SAW && setting->fence < RUBS_FENCE;
}

/* From the rail as it stood before the pass. */
static CavCautionFacts
get_caution_facts (const CavProof *proof, const CavProofStep *step)
{
  const CavSweepSetting *setting = &step->setting;
  const CavPass *pass = step->pass;
  CavBox box = step->before.box;
  gboolean inside
      = setting->height < cav_placement_get_height (&proof->blank, setting->down) - 1e-9;

  return (CavCautionFacts){
    .machine = setting->machine,
    .sacrificial = pass->sacrificial || rubs_fence (setting),
    .severs = pass->severs,
    .hidden = inside,
    .tips = would_tip (proof, setting, &step->before),
    .ridged = setting->blade != NULL && setting->blade->grind == CAV_GRIND_ALTERNATE && inside,
    .cutter_diameter
    = setting->cutter != NULL ? 2 * cav_cutter_get_greatest_radius (setting->cutter) : 0.0,
    .section_width = box.x1 - box.x0,
    .section_thickness = box.y1 - box.y0,
    .rail_length = proof->rail_length,
  };
}

/* A wall thinner than 2 mm beside the fresh cut that the profile does not ask for. rows: the
 * rail's, along x, where the pass was. */
static gboolean
leaves_thin_wall (const CavProof *proof, const CavProofStep *step, const CavRows *rows)
{
  CavBox box = cav_region_get_bounds (step->swept);

  for (int turned = 0; turned < 2; turned++)
    {
      const CavRows *profile = proof->profile_rows[turned];
      g_autoptr (CavRows) across
          = turned ? cav_proof_create_rows (proof, step->rail, TRUE, box) : NULL;
      const CavRows *rail = turned ? across : rows;
      g_autoptr (CavRows) cut = NULL;

      /* Most rails have no thin walls at all there. */
      if (cav_rows_get_thin_wall (rail, profile, NULL, THIN_WALL) <= THIN_WALL_HEIGHT)
        continue;
      cut = cav_proof_create_rows (proof, step->swept, turned, box);
      if (cav_rows_get_thin_wall (rail, profile, cut, THIN_WALL) > THIN_WALL_HEIGHT)
        return TRUE;
    }
  return FALSE;
}

/* A crossed blade keeps out of the fence; an upright one may stand in a sacrificial one, and no
 * farther than its kerf. */
static gboolean
stands_in_fence (const CavSweepSetting *setting)
{
  double most = setting->machine == CAV_MACHINE_SAW ? setting->blade->kerf : 0;

  return setting->blade != NULL && cav_sweep_get_near_edge (setting) < -most - 1e-6;
}

void
cav_proof_step_clear (CavProofStep *step)
{
  g_clear_pointer (&step->whole, cav_region_unref);
  g_clear_pointer (&step->swept, cav_region_unref);
  g_clear_pointer (&step->left, cav_region_unref);
  g_clear_pointer (&step->rail, cav_region_unref);
}

gboolean
cav_proof_start_pass (const CavProof *proof,
                      const CavSetup *setup,
                      CavPass *pass,
                      CavProofStep *step)
{
  gboolean router = setup->machine == CAV_MACHINE_ROUTER;
  CavFence fence = get_fence (pass->against);
  g_autoptr (CavRegion) wide = NULL;

  *step = (CavProofStep){ .pass = pass, .before = proof->standing };
  step->setting
      = (CavSweepSetting){ setup->machine,
                           router ? NULL : cav_shop_find_blade (proof->shop, setup->tool),
                           router ? cav_shop_find_cutter (proof->shop, setup->tool) : NULL,
                           setup->tilt,
                           setup->angle,
                           pass->down,
                           pass->against,
                           pass->fence,
                           pass->height };
  step->whole = cav_region_ref (proof->rail);
  step->swept = cav_sweep_create_region (&step->setting, &proof->blank, 0, NULL);
  wide = cav_sweep_create_region (&step->setting, &proof->blank, GROWTH, NULL);
  if (step->swept == NULL || wide == NULL || stands_in_fence (&step->setting))
    step->first_rule = "setting";
  else if (proof->freed)
    step->first_rule = "freed";
  else if (!cav_standing_is_supported (&proof->standing, &proof->blank, pass->down, fence))
    step->first_rule = "support before";
  else if ((step->left = cav_region_difference (proof->rail, wide, NULL)) == NULL)
    step->first_rule = "region";
  else
    step->last_rule = judge_pieces (proof, step);
  if (step->first_rule != NULL || step->last_rule != NULL)
    return FALSE;
  if (!cav_standing_is_supported (pass->frees_rail ? &step->carrier : &step->standing,
                                  &proof->blank, pass->down, fence))
    step->last_rule = "support after";
  return step->last_rule == NULL;
}

/* Gouge, bite, layer, feed and pilot. */
static const char *
judge_chips (const CavProof *proof, CavProofStep *step)
{
  const CavSweepSetting *setting = &step->setting;
  CavPass *pass = step->pass;
  g_autoptr (CavRegion) pilot = NULL;
  CavChips chips;
  const char *rule;

  step->gouge = cav_proof_get_gouge (proof, step->swept);
  if (step->gouge > CAV_GOUGE_MOST)
    return "gouge";
  cav_chips_measure (&chips, setting, &proof->blank, step->whole, step->swept);
  pass->removes = chips.area;
  pass->bite = chips.layer;
  rule = judge_machine (proof, setting, pass, chips.sides);
  if (rule != NULL)
    return rule;
  pilot = cav_sweep_create_pilot (setting, &proof->blank, CAV_GOUGE_MOST);
  return pilot != NULL && has_area (step->left, pilot) ? "pilot" : NULL;
}

/* A lump of waste that hangs on by less than half a millimetre would break off under the tool. The
 * pass made it, or there is none. rows: the rail's along x, filled beside the pass. */
static gboolean
leaves_weak_lump (const CavProof *proof, const CavProofStep *step, const CavRows *rows)
{
  const CavRows *profile = proof->profile_rows[0];
  CavBox box = cav_region_get_bounds (step->swept);
  int from = MAX ((int)floor (box.y0 / CAV_ROW_HEIGHT) - 1, 0);
  int to = MIN ((int)ceil (box.y1 / CAV_ROW_HEIGHT) + 1, rows->n_rows);
  CavLump lump = CAV_LUMP_UNSURE;
  g_autoptr (CavRows) all = NULL;

  /* What has fallen off may have lain anywhere. */
  if (cav_region_get_piece_count (step->left) == 1 && from < to)
    lump = cav_rows_find_weak_lump (rows, profile, WEB, LUMP_LEAST, from, to);
  if (lump != CAV_LUMP_UNSURE)
    return lump == CAV_LUMP_WEAK;
  all = cav_proof_create_rows (proof, step->rail, FALSE, cav_region_get_bounds (step->rail));
  return cav_rows_have_weak_lump (all, profile, WEB, LUMP_LEAST);
}

const char *
cav_proof_judge_pass (const CavProof *proof, CavProofStep *step)
{
  CavPass *pass = step->pass;
  CavCautionFacts facts;
  const char *rule = step->first_rule;
  g_autoptr (CavRows) rows = NULL;
  CavBox near;

  if (rule == NULL)
    rule = judge_chips (proof, step);
  if (rule == NULL)
    rule = step->last_rule;
  if (rule != NULL)
    return rule;
  near = cav_region_get_bounds (step->swept);
  near.y0 -= WEB_BESIDE;
  near.y1 += WEB_BESIDE;
  rows = cav_proof_create_rows (proof, step->rail, FALSE, near);
  if (leaves_weak_lump (proof, step, rows))
    return "weak web";
  pass->sacrificial = step->setting.machine == CAV_MACHINE_SAW && step->setting.fence < -1e-9;
  facts = get_caution_facts (proof, step);
  facts.thin_wall = leaves_thin_wall (proof, step, rows);
  pass->cautions |= cav_caution_find (&facts);
  return NULL;
}

void
cav_proof_finish_pass (CavProof *proof, CavProofStep *step)
{
  CavPass *pass = step->pass;

  pass->before = g_steal_pointer (&proof->rail);
  pass->after = cav_region_ref (step->rail);
  pass->swept = cav_region_ref (step->swept);
  proof->rail = cav_region_ref (step->rail);
  proof->freed = pass->frees_rail;
  proof->standing = step->standing;
}

gboolean
cav_proof_do_pass (CavProof *proof, const CavSetup *setup, CavPass *pass, const char **out_rule)
{
  CavProofStep step;

  cav_proof_start_pass (proof, setup, pass, &step);
  *out_rule = cav_proof_judge_pass (proof, &step);
  if (*out_rule == NULL)
    {
      proof->gouge = fmax (proof->gouge, step.gouge);
      cav_proof_finish_pass (proof, &step);
    }
  cav_proof_step_clear (&step);
  return *out_rule == NULL;
}
