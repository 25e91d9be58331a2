/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/cav-preview.h"
#include "project/cav-project-boards.h"
#include "tool/cav-tool.h"

#include <glib/gi18n-lib.h>

static const char *const ENDINGS[] = { ".png", ".svg", ".pdf", NULL };

/* Where there are boards, rails show the figure of the place that they come from. */
static void
fill_grain (CavProject *project, CavFrameGrain *grain)
{
  g_autoptr (CavPlan) plan = NULL;
  g_autoptr (CavBoardLayout) layout = NULL;

  cav_frame_grain_init (grain, cav_project_get_frame (project));
  if (cav_project_get_lumber (project)->boards->len == 0)
    return;
  plan = cav_project_plan (project, CAV_EFFORT_QUICK, NULL);
  layout = cav_project_lay_out_boards (project, plan != NULL && plan->usable ? plan : NULL, NULL,
                                       NULL);
  cav_frame_grain_place (grain, layout, 0);
}

static GBytes *
create_bytes (const CavArguments *arguments,
              CavProject *project,
              cairo_surface_t *picture,
              int kind,
              GError **error)
{
  const CavFrame *frame = cav_project_get_frame (project);
  const CavProfile *profile = cav_project_get_profile (project);
  const char *title = cav_project_get_title (project);
  CavFrameGrain grain;

  fill_grain (project, &grain);
  if (kind == 0)
    return cav_preview_create_png (frame, profile, &grain, picture, arguments->pixels_across,
                                   arguments->pixels_down, error);

  CavScene *scene = cav_preview_create_scene (frame, profile, &grain, picture, title);
  if (scene == NULL)
    {
      g_set_error (
          error, CAV_TOOL_ERROR, 0,
          _ ("the frame has no size that could be drawn; `cavetto look` says what is wrong"));
      return NULL;
    }
  g_autoptr (GPtrArray) pages = g_ptr_array_new_with_free_func ((GDestroyNotify)cav_scene_free);
  g_ptr_array_add (pages, scene);
  if (kind == 1)
    return cav_scene_create_svg (scene, error);
  return cav_scene_create_pdf (pages, title, _ ("Preview of a picture frame"),
                               cav_tool_get_sheet_options (arguments).date, error);
}

static CavExit
run (const CavArguments *arguments, GError **error)
{
  int kind = cav_tool_find_ending (arguments->output, ENDINGS, error);
  g_autoptr (CavProject) project = kind >= 0 ? cav_tool_load_project (arguments, error) : NULL;

  if (project == NULL)
    return CAV_EXIT_FAILED;
  cairo_surface_t *picture = NULL;
  if (!cav_tool_load_picture (arguments, project, &picture, error))
    return CAV_EXIT_FAILED;
  g_autoptr (GBytes) bytes = create_bytes (arguments, project, picture, kind, error);
  g_clear_pointer (&picture, cairo_surface_destroy);
  return cav_tool_write (arguments, bytes, error);
}

const CavCommand cav_command_preview = {
  .name = "preview",
  .operand = "FILE",
  .summary = N_ ("show the frame as it would hang: .png, .svg or .pdf"),
  .description
  = N_ ("Shows the frame of the project FILE with its wood, mats and picture, in its light. The\n"
        "ending of OUT says what is written: .png in the pixels of --size, .svg or .pdf at full\n"
        "size, rails as gradients. Without a picture a pressed fern stands in."),
  .options = CAV_OPTION_OUTPUT | CAV_OPTION_SIZE,
  .required = CAV_OPTION_OUTPUT,
  .run = run,
};
