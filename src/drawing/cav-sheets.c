/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/cav-sheets.h"

#include "drawing/cav-cutting-list.h"
#include "drawing/cav-sheet-private.h"
#include "project/cav-project-boards.h"

#include <glib/gi18n-lib.h>

static const struct
{
  const char *id;
  const char *name;
} infos[CAV_N_SHEETS] = {
  [CAV_SHEET_JOB] = { "job-sheet", N_ ("Job sheet") },
  [CAV_SHEET_LIST] = { "cutting-list", N_ ("Cutting list") },
  [CAV_SHEET_PASSES] = { "pass-sheet", N_ ("Pass sheet") },
  [CAV_SHEET_TEMPLATE] = { "template", N_ ("Template") },
  [CAV_SHEET_DRAWING] = { "drawing", N_ ("Drawing") },
};

const char *
cav_sheet_get_id (CavSheet sheet)
{
  return infos[sheet].id;
}

gboolean
cav_sheet_is_possible (CavSheet sheet, CavProject *project, const CavPlan *plan)
{
  g_return_val_if_fail (CAV_IS_PROJECT (project), FALSE);

  switch (sheet)
    {
    case CAV_SHEET_JOB:
    case CAV_SHEET_LIST:
      return TRUE;
    case CAV_SHEET_PASSES:
      return plan != NULL;
    case CAV_SHEET_TEMPLATE:
    case CAV_SHEET_DRAWING:
      return cav_profile_is_sound (cav_project_get_profile (project));
    }
  g_return_val_if_reached (FALSE);
}

CavBoardLayout *
cav_sheets_lay_out_boards (CavProject *project, const CavPlan *plan, const CavSheetOptions *options)
{
  g_return_val_if_fail (CAV_IS_PROJECT (project) && options != NULL, NULL);

  if (!cav_project_has_lumber (project))
    return NULL;
  if (options->boards != NULL)
    return cav_board_layout_ref (options->boards);
  return cav_project_lay_out_boards (project, plan != NULL && plan->usable ? plan : NULL, NULL,
                                     NULL);
}

static GPtrArray *
create_one (CavScene *scene)
{
  GPtrArray *scenes = g_ptr_array_new_with_free_func ((GDestroyNotify)cav_scene_free);

  g_ptr_array_add (scenes, scene);
  return scenes;
}

/* Of the frame, where one was set and can be; else of the rail's section. */
static CavScene *
create_drawing (CavProject *project, const CavSheetOptions *options)
{
  CavScene *scene = NULL;

  if (cav_project_has_frame (project) && cav_project_get_frame (project)->possible)
    scene = cav_frame_drawing_create_scene (project, NULL, options, NULL);
  return scene != NULL ? scene : cav_section_drawing_create_scene (project, options);
}

static GPtrArray *
create_list (CavProject *project, const CavPlan *plan, const CavSheetOptions *options)
{
  g_autoptr (CavCuttingList) list = cav_cutting_list_new (project, plan, options);
  g_autoptr (CavBoardLayout) layout = cav_sheets_lay_out_boards (project, plan, options);
  GPtrArray *scenes;

  if (layout != NULL)
    cav_cutting_list_add_boards (list, layout);
  scenes = cav_cutting_list_create_scenes (list, project, options);
  if (layout != NULL)
    g_ptr_array_extend_and_steal (scenes, cav_board_sheet_create_scenes (project, layout, options));
  return scenes;
}

GPtrArray *
cav_sheet_create_scenes (CavSheet sheet,
                         CavProject *project,
                         const CavPlan *plan,
                         const CavSheetOptions *options)
{
  g_return_val_if_fail (CAV_IS_PROJECT (project) && options != NULL, NULL);

  if (!cav_sheet_is_possible (sheet, project, plan))
    return g_ptr_array_new_with_free_func ((GDestroyNotify)cav_scene_free);
  switch (sheet)
    {
    case CAV_SHEET_JOB:
      return cav_job_sheet_create_scenes (project, plan, options);
    case CAV_SHEET_LIST:
      return create_list (project, plan, options);
    case CAV_SHEET_PASSES:
      return cav_pass_sheet_create_scenes (project, plan, options);
    case CAV_SHEET_TEMPLATE:
      return cav_template_create_scenes (project, plan, options, FALSE);
    case CAV_SHEET_DRAWING:
      return create_one (create_drawing (project, options));
    }
  g_return_val_if_reached (NULL);
}

GBytes *
cav_sheet_create_pdf (CavSheet sheet,
                      CavProject *project,
                      const CavPlan *plan,
                      const CavSheetOptions *options,
                      GError **error)
{
  g_autoptr (GPtrArray) scenes = cav_sheet_create_scenes (sheet, project, plan, options);
  g_autofree char *title = cav_sheet_dup_title (project);

  return cav_scene_create_pdf (scenes, title, _ (infos[sheet].name), options->date, error);
}

GPtrArray *
cav_sheets_create_scenes (CavProject *project, const CavPlan *plan, const CavSheetOptions *options)
{
  GPtrArray *all = g_ptr_array_new_with_free_func ((GDestroyNotify)cav_scene_free);
  g_autoptr (CavBoardLayout) boards = NULL;
  CavSheetOptions shared;

  g_return_val_if_fail (CAV_IS_PROJECT (project) && options != NULL, all);

  boards = cav_sheets_lay_out_boards (project, plan, options);
  shared = *options;
  shared.boards = boards;
  for (int i = 0; i < CAV_N_SHEETS; i++)
    {
      g_autoptr (GPtrArray) scenes = cav_sheet_create_scenes ((CavSheet)i, project, plan, &shared);

      g_ptr_array_extend_and_steal (all, g_steal_pointer (&scenes));
    }
  for (guint i = 0; i < all->len; i++)
    cav_scene_number_page (g_ptr_array_index (all, i), i + 1, all->len);
  return all;
}

GBytes *
cav_sheets_create_pdf (CavProject *project,
                       const CavPlan *plan,
                       const CavSheetOptions *options,
                       GError **error)
{
  g_autoptr (GPtrArray) all = cav_sheets_create_scenes (project, plan, options);
  g_autofree char *title = cav_sheet_dup_title (project);

  return cav_scene_create_pdf (all, title, _ ("Sheets for the shop"), options->date, error);
}
