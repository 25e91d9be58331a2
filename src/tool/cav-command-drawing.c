/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "tool/cav-text.h"
#include "tool/cav-tool.h"

#include <glib/gi18n-lib.h>

typedef GBytes *(*CreateFunction) (CavProject *, const CavSheetOptions *, GError **);
typedef GBytes *(*CreateFrameFunction) (CavProject *,
                                        cairo_surface_t *,
                                        const CavSheetOptions *,
                                        GError **);

static const char *const ENDINGS[] = { ".svg", ".pdf", ".png", NULL };
static const CreateFunction CREATE[] = {
  cav_section_drawing_create_svg,
  cav_section_drawing_create_pdf,
  cav_section_drawing_create_png,
};
static const CreateFrameFunction CREATE_FRAME[] = {
  cav_frame_drawing_create_svg,
  cav_frame_drawing_create_pdf,
  cav_frame_drawing_create_png,
};

static CavExit
run (const CavArguments *arguments, GError **error)
{
  int kind = cav_tool_find_ending (arguments->output, ENDINGS, error);
  g_autoptr (CavProject) project = kind >= 0 ? cav_tool_load_project (arguments, error) : NULL;
  CavSheetOptions options = cav_tool_get_sheet_options (arguments);
  cairo_surface_t *picture = NULL;
  g_autoptr (GBytes) drawing = NULL;

  if (project == NULL)
    return CAV_EXIT_FAILED;
  if (arguments->section)
    options.date = NULL;
  else if (!cav_tool_load_picture (arguments, project, &picture, error))
    return CAV_EXIT_FAILED;
  drawing = arguments->section ? CREATE[kind](project, &options, error)
                               : CREATE_FRAME[kind](project, picture, &options, error);
  g_clear_pointer (&picture, cairo_surface_destroy);
  return cav_tool_write (arguments, drawing, error);
}

const CavCommand cav_command_drawing = {
  .name = "drawing",
  .operand = "FILE",
  .summary = N_ ("draw the frame for whom it is for: .svg, .pdf or .png"),
  .description
  = N_ ("Draws the frame of the project FILE: its front to a standard scale, the section through\n"
        "rail and package, a preview, the materials. With --section the rail's section alone. The\n"
        "ending of OUT says what is written: .svg (millimetres, true arcs), .pdf or .png."),
  .options = CAV_OPTION_SECTION | CAV_OPTION_OUTPUT | CAV_OPTION_UNIT | CAV_OPTION_PAPER,
  .required = CAV_OPTION_OUTPUT,
  .run = run,
};
