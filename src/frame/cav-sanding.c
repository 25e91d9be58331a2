/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "frame/cav-sanding.h"

#include "geometry/cav-unit.h"

#include <glib/gi18n-lib.h>
#include <math.h>

/* Radii that differ by less take the same block, mm. */
#define SAME 0.1
/* Smaller curves are broken arrises, larger ones are flat to a sanding block. */
#define RADIUS_MIN 1.0
#define RADIUS_MAX 150.0
/* A thing that differs by more than this share from what would fit is no use. */
#define NEAR_ENOUGH 0.8

typedef struct
{
  const char *name;
  double diameter;
} Thing;

/* Round things of shop and kitchen by their diameters. Dowels and tubes are sold by these sizes;
 * cells by IEC 60086 (AAA 10.5, AA 14.5, D 34.2), balls by the rules of their games (40, 42.7 and
 * about 66 mm); cans and jars from memory. */
static const Thing things[] = {
  { NC_ ("round thing", "nail"), 3 },
  { NC_ ("round thing", "skewer"), 4 },
  { NC_ ("round thing", "dowel"), 5 },
  { NC_ ("round thing", "dowel"), 6 },
  { NC_ ("round thing", "pencil"), 7 },
  { NC_ ("round thing", "dowel"), 8 },
  { NC_ ("round thing", "dowel, 3/8 in"), 9.5 },
  { NC_ ("round thing", "dowel"), 10 },
  { NC_ ("round thing", "dowel"), 12 },
  { NC_ ("round thing", "dowel, 1/2 in"), 12.7 },
  { NC_ ("round thing", "AA cell"), 14.5 },
  { NC_ ("round thing", "dowel"), 16 },
  { NC_ ("round thing", "dowel"), 18 },
  { NC_ ("round thing", "dowel, 3/4 in"), 19.1 },
  { NC_ ("round thing", "dowel"), 20 },
  { NC_ ("round thing", "copper tube"), 22 },
  { NC_ ("round thing", "broom handle"), 24 },
  { NC_ ("round thing", "dowel, 1 in"), 25.4 },
  { NC_ ("round thing", "copper tube"), 28 },
  { NC_ ("round thing", "dowel"), 30 },
  { NC_ ("round thing", "waste pipe"), 32 },
  { NC_ ("round thing", "D cell"), 34.2 },
  { NC_ ("round thing", "copper tube"), 35 },
  { NC_ ("round thing", "waste pipe"), 40 },
  { NC_ ("round thing", "golf ball"), 42.7 },
  { NC_ ("round thing", "rolling pin"), 45 },
  { NC_ ("round thing", "waste pipe"), 50 },
  { NC_ ("round thing", "copper tube"), 54 },
  { NC_ ("round thing", "small jar"), 60 },
  { NC_ ("round thing", "tennis ball"), 66 },
  { NC_ ("round thing", "food can"), 73 },
  { NC_ ("round thing", "drain pipe"), 82 },
  { NC_ ("round thing", "food can"), 99 },
  { NC_ ("round thing", "drain pipe"), 110 },
  { NC_ ("round thing", "drain pipe"), 125 },
  { NC_ ("round thing", "paint tin"), 160 },
  { NC_ ("round thing", "dinner plate"), 260 },
};

/* What a hollow takes, with paper around it: it must not bear on its edges. */
static const Thing *
find_largest_within (double diameter)
{
  const Thing *best = NULL;

  for (guint i = 0; i < G_N_ELEMENTS (things); i++)
    if (things[i].diameter <= diameter && things[i].diameter >= NEAR_ENOUGH * diameter)
      best = &things[i];
  return best;
}

/* What a block for a round is rubbed hollow on. The paper around it makes the hollow wider, the
 * paper that then lines the block makes it narrower by as much: a block of less than the round
 * would bear on the round's edges. */
static const Thing *
find_smallest_beyond (double diameter)
{
  for (guint i = 0; i < G_N_ELEMENTS (things); i++)
    if (things[i].diameter >= diameter - SAME && things[i].diameter * NEAR_ENOUGH <= diameter)
      return &things[i];
  return NULL;
}

/* Radius of curvature of an ellipse at parameter t:
 * ((a sin t)² + (b cos t)²)^(3/2) / (a b). */
static double
get_radius (const CavSegment *arc)
{
  double t = CAV_RADIANS (arc->start + arc->sweep / 2.0);
  double along = hypot (arc->rx * sin (t), arc->ry * cos (t));

  return along * along * along / (arc->rx * arc->ry);
}

static void
add_arc (GArray *blocks, const CavSegment *arc)
{
  double radius = get_radius (arc);
  /* Wood lies left of the outline, so an arc that turns left bulges out of it. */
  CavSandingBlock block = { .hollow = arc->sweep < 0.0,
                            .circular = fabs (arc->rx - arc->ry) < SAME,
                            .radius = radius,
                            .place = cav_segment_point_at (arc, 0.5),
                            .count = 1 };

  if (!(radius >= RADIUS_MIN && radius <= RADIUS_MAX))
    return;
  for (guint i = 0; i < blocks->len; i++)
    {
      CavSandingBlock *other = &g_array_index (blocks, CavSandingBlock, i);

      if (other->hollow == block.hollow && fabs (other->radius - radius) < SAME)
        {
          other->count++;
          return;
        }
    }
  const Thing *thing = block.hollow ? find_largest_within (2.0 * (radius - CAV_SANDPAPER))
                                    : find_smallest_beyond (2.0 * radius);
  block.thing = thing != NULL ? thing->name : NULL;
  block.diameter = thing != NULL ? thing->diameter : 0.0;
  g_array_append_val (blocks, block);
}

static int
compare_blocks_cb (gconstpointer a, gconstpointer b)
{
  const CavSandingBlock *first = a;
  const CavSandingBlock *second = b;

  return (first->radius > second->radius) - (first->radius < second->radius);
}

GArray *
cav_sanding_find (const CavProfile *profile)
{
  g_return_val_if_fail (profile != NULL, NULL);

  GArray *blocks = g_array_new (FALSE, FALSE, sizeof (CavSandingBlock));
  for (guint ring = 0; ring < cav_region_get_ring_count (profile->region); ring++)
    {
      const CavPath *path = cav_region_get_ring (profile->region, ring);

      for (guint i = 0; i < cav_path_get_segment_count (path); i++)
        {
          const CavSegment *segment = cav_path_get_segment (path, i);

          if (segment->kind == CAV_SEGMENT_ARC)
            add_arc (blocks, segment);
        }
    }
  g_array_sort (blocks, compare_blocks_cb);
  return blocks;
}
