/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-lumber-edit.h"

CavLumber *
cav_lumber_edit_begin (CavProject *project)
{
  g_return_val_if_fail (CAV_IS_PROJECT (project), NULL);

  return cav_lumber_copy (cav_project_get_lumber (project));
}

static gboolean
is_sound (const GPtrArray *items, char *(*explain) (gconstpointer item))
{
  for (guint i = 0; i < items->len; i++)
    {
      g_autofree char *reason = explain (g_ptr_array_index (items, i));

      if (reason != NULL)
        return FALSE;
    }
  return TRUE;
}

static char *
explain_board (gconstpointer board)
{
  return cav_board_explain (board);
}

static char *
explain_job (gconstpointer job)
{
  return cav_board_job_explain (job);
}

void
cav_lumber_edit_end (CavProject *project, CavLumber *lumber, const char *name)
{
  g_autoptr (CavLumber) owned = lumber;

  g_return_if_fail (CAV_IS_PROJECT (project) && lumber != NULL && name != NULL);

  if (!is_sound (lumber->boards, explain_board) || !is_sound (lumber->stock, explain_board)
      || !is_sound (lumber->joined, explain_job)
      || cav_lumber_equal (lumber, cav_project_get_lumber (project)))
    return;
  cav_project_begin (project, name);
  cav_project_set_lumber (project, lumber);
  cav_project_end (project);
}

static GArray *
get_pins (const CavLumber *lumber, int job)
{
  if (job <= 0 || job > (int)lumber->joined->len)
    return lumber->pins;
  return ((CavBoardJob *)g_ptr_array_index (lumber->joined, job - 1))->pins;
}

/* Wishes speak of boards by their rows. */
static void
forget_row (GArray *pins, int row)
{
  for (guint i = pins->len; i-- > 0;)
    {
      CavBoardPin *pin = &g_array_index (pins, CavBoardPin, i);

      if (pin->board == row)
        g_array_remove_index (pins, i);
      else if (pin->board > row)
        pin->board--;
    }
}

void
cav_lumber_edit_remove_board (CavLumber *lumber, guint row)
{
  g_return_if_fail (lumber != NULL && row < lumber->boards->len);

  g_ptr_array_remove_index (lumber->boards, row);
  for (int job = 0; job <= (int)lumber->joined->len; job++)
    forget_row (get_pins (lumber, job), (int)row);
}

void
cav_lumber_edit_remove_pins (CavLumber *lumber, int job, int frame, int rail)
{
  g_return_if_fail (lumber != NULL);

  GArray *pins = get_pins (lumber, job);
  const gboolean is_own = pins == lumber->pins;
  const CavGrainOrder order
      = is_own ? lumber->order
               : ((const CavBoardJob *)g_ptr_array_index (lumber->joined, job - 1))->order;
  const gboolean all = order == CAV_GRAIN_RUNNING || order == CAV_GRAIN_BOOK;

  for (guint i = pins->len; i-- > 0;)
    {
      const CavBoardPin *pin = &g_array_index (pins, CavBoardPin, i);

      if (pin->frame == frame && (pin->rail == rail || all))
        g_array_remove_index (pins, i);
    }
}

void
cav_lumber_edit_add_pin (CavLumber *lumber, int job, const CavBoardPin *pin)
{
  g_return_if_fail (lumber != NULL && pin != NULL);

  cav_lumber_edit_remove_pins (lumber, job, pin->frame, pin->rail);
  g_array_append_vals (get_pins (lumber, job), pin, 1);
}

void
cav_lumber_edit_remove_all_pins (CavLumber *lumber)
{
  g_return_if_fail (lumber != NULL);

  for (int job = 0; job <= (int)lumber->joined->len; job++)
    g_array_set_size (get_pins (lumber, job), 0);
}

gboolean
cav_lumber_edit_has_pins (const CavLumber *lumber)
{
  g_return_val_if_fail (lumber != NULL, FALSE);

  for (int job = 0; job <= (int)lumber->joined->len; job++)
    if (get_pins (lumber, job)->len > 0)
      return TRUE;
  return FALSE;
}
