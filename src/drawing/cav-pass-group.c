/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/cav-pass-group.h"

#include <math.h>

#define SAME CAV_SETTING_SAME

static const CavSetup *
get_setup (const CavPlan *plan, guint index)
{
  return g_ptr_array_index (plan->setups, index);
}

const CavPass *
cav_pass_group_get_pass (const CavPlan *plan, const CavPassGroup *group, guint index)
{
  return g_ptr_array_index (get_setup (plan, group->setup)->passes, group->first + index);
}

const CavPass *
cav_pass_group_get_last (const CavPlan *plan, const CavPassGroup *group)
{
  return cav_pass_group_get_pass (plan, group, group->count - 1);
}

const CavPass *
cav_pass_group_get_before (const CavPlan *plan, const CavPassGroup *group)
{
  if (group->first == 0)
    return NULL;
  return g_ptr_array_index (get_setup (plan, group->setup)->passes, group->first - 1);
}

static double
get_setting (const CavPass *pass, CavLadder ladder)
{
  return ladder == CAV_LADDER_FENCE ? pass->fence : pass->height;
}

/* Which setting alone moves from one pass to the next, and which way. */
static CavLadder
find_move (const CavPlan *plan,
           const CavSetup *setup,
           const CavPass *from,
           const CavPass *to,
           double *out_by)
{
  double by_fence = to->fence - from->fence;
  double by_height = to->height - from->height;
  double figure;

  if (from->down != to->down || from->against != to->against
      || cav_pass_has_board (setup, from) != cav_pass_has_board (setup, to) || to->frees_rail
      || from->frees_rail
      || cav_pass_get_measure (plan, setup, from, &figure)
             != cav_pass_get_measure (plan, setup, to, &figure))
    return CAV_LADDER_NONE;
  if ((fabs (by_fence) > SAME) == (fabs (by_height) > SAME))
    return CAV_LADDER_NONE;
  *out_by = fabs (by_fence) > SAME ? by_fence : by_height;
  return fabs (by_fence) > SAME ? CAV_LADDER_FENCE : CAV_LADDER_HEIGHT;
}

/* How many passes from first on make one ladder. */
static guint
measure_run (const CavPlan *plan, const CavSetup *setup, guint first, CavLadder *out_ladder)
{
  guint count = 1;
  double way = 0;

  *out_ladder = CAV_LADDER_NONE;
  while (first + count < setup->passes->len && count < CAV_LADDER_MOST)
    {
      double by = 0;
      CavLadder move = find_move (plan, setup, g_ptr_array_index (setup->passes, first + count - 1),
                                  g_ptr_array_index (setup->passes, first + count), &by);

      if (move == CAV_LADDER_NONE || (count > 1 && (move != *out_ladder || by * way < 0)))
        break;
      *out_ladder = move;
      way = by;
      count++;
    }
  if (count >= CAV_LADDER_LEAST)
    return count;
  *out_ladder = CAV_LADDER_NONE;
  return 1;
}

GArray *
cav_pass_group_collect (const CavPlan *plan)
{
  GArray *groups = g_array_new (FALSE, FALSE, sizeof (CavPassGroup));
  guint number = 1;

  g_return_val_if_fail (plan != NULL, groups);

  for (guint i = 0; i < plan->setups->len; i++)
    {
      const CavSetup *setup = get_setup (plan, i);

      for (guint first = 0; first < setup->passes->len;)
        {
          CavPassGroup group = { .setup = i, .first = first, .number = number };

          group.count = measure_run (plan, setup, first, &group.ladder);
          g_array_append_val (groups, group);
          first += group.count;
          number += group.count;
        }
    }
  return groups;
}

gboolean
cav_pass_group_get_step (const CavPlan *plan, const CavPassGroup *group, double *out_step)
{
  double first = get_setting (cav_pass_group_get_pass (plan, group, 0), group->ladder);

  *out_step = get_setting (cav_pass_group_get_pass (plan, group, 1), group->ladder) - first;
  for (guint i = 2; i < group->count; i++)
    {
      double by = get_setting (cav_pass_group_get_pass (plan, group, i), group->ladder)
                  - get_setting (cav_pass_group_get_pass (plan, group, i - 1), group->ladder);

      if (fabs (by - *out_step) > SAME && i + 1 < group->count)
        return FALSE;
    }
  return TRUE;
}

gboolean
cav_pass_group_get_turned (const CavPlan *plan,
                           const CavPassGroup *group,
                           double *out_first,
                           double *out_last)
{
  const CavSetup *setup = get_setup (plan, group->setup);

  if (group->ladder != CAV_LADDER_HEIGHT)
    return FALSE;
  cav_pass_get_measure (plan, setup, cav_pass_group_get_pass (plan, group, 0), out_first);
  cav_pass_get_measure (plan, setup, cav_pass_group_get_last (plan, group), out_last);
  return fabs (*out_first - *out_last) > SAME;
}

guint
cav_pass_group_get_cautions (const CavPlan *plan, const CavPassGroup *group)
{
  guint cautions = 0;

  for (guint i = 0; i < group->count; i++)
    cautions |= cav_pass_group_get_pass (plan, group, i)->cautions;
  return cautions;
}

guint
cav_plan_collect_cautions (const CavPlan *plan)
{
  guint cautions = 0;

  g_return_val_if_fail (plan != NULL, 0);

  for (guint i = 0; i < plan->setups->len; i++)
    {
      const CavSetup *setup = get_setup (plan, i);

      for (guint j = 0; j < setup->passes->len; j++)
        cautions |= ((const CavPass *)g_ptr_array_index (setup->passes, j))->cautions;
    }
  return cautions;
}

double
cav_pass_group_get_bite (const CavPlan *plan, const CavPassGroup *group)
{
  double bite = 0;

  for (guint i = 0; i < group->count; i++)
    bite = fmax (bite, cav_pass_group_get_pass (plan, group, i)->bite);
  return bite;
}

gboolean
cav_pass_has_board (const CavSetup *setup, const CavPass *pass)
{
  return setup->machine == CAV_MACHINE_SAW
         && (pass->sacrificial || (pass->cautions & CAV_CAUTION_SACRIFICIAL) != 0);
}

CavFenceBoard
cav_pass_find_board (const CavPlan *plan, guint setup_index, guint pass_index)
{
  const CavPass *pass = g_ptr_array_index (get_setup (plan, setup_index)->passes, pass_index);
  gboolean is_on = cav_pass_has_board (get_setup (plan, setup_index), pass);
  gboolean was_on = FALSE;

  if (get_setup (plan, setup_index)->machine == CAV_MACHINE_ROUTER)
    return CAV_FENCE_BOARD_STAYS;
  for (guint i = 0; i <= setup_index; i++)
    {
      const CavSetup *setup = get_setup (plan, i);
      guint n = i == setup_index ? pass_index : setup->passes->len;

      if (setup->machine != CAV_MACHINE_ROUTER && n > 0)
        was_on = cav_pass_has_board (setup, g_ptr_array_index (setup->passes, n - 1));
    }
  if (is_on == was_on)
    return CAV_FENCE_BOARD_STAYS;
  return is_on ? CAV_FENCE_BOARD_ON : CAV_FENCE_BOARD_OFF;
}
