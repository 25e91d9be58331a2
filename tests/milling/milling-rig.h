/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* What several tests of this room's inside need: random shapes, and a task with its request. */

#include <math.h>

#include "milling/cav-sweep.h"
#include "milling/cav-task.h"

#define RADIANS(degrees) ((degrees)*G_PI / 180.0)

/* Fixed, so that a failure comes again; another seed can be given in the environment. */
static inline GRand *
rig_rand_new (guint32 usual)
{
  const char *given = g_getenv ("CAV_TEST_SEED");
  guint32 seed = given != NULL ? (guint32)g_ascii_strtoull (given, NULL, 10) : usual;

  g_test_message ("seed %u", seed);
  return g_rand_new_with_seed (seed);
}

static inline CavRegion *
rig_polygon (const CavPoint *points, guint n)
{
  g_autoptr (GError) error = NULL;
  CavRegion *region = cav_region_new_polygon (points, n, &error);

  g_assert_no_error (error);
  return region;
}

/* A star-shaped outline in the box 0 <= x <= width, 0 <= y <= thickness. */
static inline void
rig_random_outline (GRand *rand, double width, double thickness, CavPoint *out_points, guint n)
{
  for (guint i = 0; i < n; i++)
    {
      double angle = (i + g_rand_double_range (rand, 0.1, 0.9)) / n * 2 * G_PI;
      double share = g_rand_double_range (rand, 0.25, 0.98);

      out_points[i] = CAV_POINT (width / 2 * (1 + share * cos (angle)),
                                 thickness / 2 * (1 + share * sin (angle)));
    }
}

/* The blank less boxes. */
static inline CavRegion *
rig_box_less (CavBlank blank, const CavBox *boxes, guint n)
{
  CavRegion *region = cav_region_new_box (0, 0, blank.width, blank.thickness);

  for (guint i = 0; i < n; i++)
    {
      g_autoptr (CavRegion) box
          = cav_region_new_box (boxes[i].x0, boxes[i].y0, boxes[i].x1, boxes[i].y1);
      CavRegion *rest = cav_region_difference (region, box, NULL);

      g_assert_nonnull (rest);
      cav_region_unref (region);
      region = rest;
    }
  return region;
}

/* A task and what it borrows. */
typedef struct
{
  CavBlank blank;
  CavRegion *profile;
  CavShop *shop;
  CavTask *task;
} Rig;

/* Takes profile and shop. */
static inline Rig *
rig_new (CavBlank blank, CavRegion *profile, CavShop *shop, CavEffort effort)
{
  Rig *rig = g_new0 (Rig, 1);
  CavPlanRequest request = {
    .blank = blank, .profile = profile, .shop = shop, .rails = 4, .length = 3200, .effort = effort
  };

  rig->blank = blank;
  rig->profile = profile;
  rig->shop = shop;
  rig->task = cav_task_new (&request, &rig->blank, profile);
  return rig;
}

static inline void
rig_free (Rig *rig)
{
  cav_task_free (rig->task);
  cav_region_unref (rig->profile);
  cav_shop_free (rig->shop);
  g_free (rig);
}

G_DEFINE_AUTOPTR_CLEANUP_FUNC (Rig, rig_free)

static inline int
rig_find_tool (const Rig *rig, const char *id)
{
  for (guint i = 0; i < rig->task->tools->len; i++)
    {
      const CavTool *tool = cav_task_tool (rig->task, i);

      if (g_str_equal (tool->blade != NULL ? tool->blade->id : tool->cutter->id, id))
        return (int)i;
    }
  g_assert_not_reached ();
}

/* A candidate as the simulation sets it. */
static inline CavSweepSetting
rig_get_setting (const Rig *rig, const CavCandidate *c, CavFence fence)
{
  const CavConfig *config = cav_task_config (rig->task, c->config);
  const CavTool *tool = cav_task_tool (rig->task, config->tool);

  return (CavSweepSetting){ .machine = config->machine,
                            .blade = tool->blade,
                            .cutter = tool->cutter,
                            .tilt = config->tilt,
                            .angle = config->angle,
                            .down = c->down,
                            .against = cav_fence_get_side (c->down, fence),
                            .fence = c->fence[fence],
                            .height = c->height };
}
