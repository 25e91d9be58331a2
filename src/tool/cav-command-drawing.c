/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "storage/cav-storage.h"
#include "tool/cav-text.h"
#include "tool/cav-tool.h"

typedef GBytes *(*CreateFunction) (CavProject *, const CavSheetOptions *, GError **);

static const char *const ENDINGS[] = { ".svg", ".pdf", ".png", NULL };
static const CreateFunction CREATE[] = {
  cav_section_drawing_create_svg,
  cav_section_drawing_create_pdf,
  cav_section_drawing_create_png,
};

static CavExit
run (const CavArguments *arguments, GError **error)
{
  int kind = cav_tool_find_ending (arguments->output, ENDINGS, error);
  g_autoptr (CavProject) project = kind >= 0 ? cav_tool_load_project (arguments, error) : NULL;
  CavSheetOptions options = {
    .unit = arguments->unit,
    .denominator = CAV_TEXT_DENOMINATOR,
    .paper = arguments->paper,
  };
  g_autoptr (GBytes) drawing = NULL;
  gsize length;
  const void *data;

  if (project == NULL)
    return CAV_EXIT_FAILED;
  drawing = CREATE[kind](project, &options, error);
  if (drawing == NULL)
    {
      g_prefix_error (error, "%s: ", arguments->file);
      return CAV_EXIT_WRONG;
    }
  data = g_bytes_get_data (drawing, &length);
  return cav_storage_write (arguments->output, data, length, error) ? CAV_EXIT_FINE
                                                                    : CAV_EXIT_FAILED;
}

const CavCommand cav_command_drawing = {
  .name = "drawing",
  .operand = "FILE",
  .summary = "draw the section of the rail: .svg, .pdf or .png",
  .description
  = "Draws the section of the project FILE with its dimensions. The ending of OUT says\n"
    "what is written: .svg (millimetres, true arcs), .pdf or .png.",
  .options = CAV_OPTION_SECTION | CAV_OPTION_OUTPUT | CAV_OPTION_UNIT | CAV_OPTION_PAPER,
  .required = CAV_OPTION_SECTION | CAV_OPTION_OUTPUT,
  .run = run,
};
