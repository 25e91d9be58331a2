/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "storage/cav-storage.h"
#include "project/cav-import.h"
#include "tool/cav-tool.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

/* The name of the picture without folder and ending. */
static char *
create_title (const char *file)
{
  g_autofree char *base = g_path_get_basename (file);
  char *title = g_filename_display_name (base);
  char *dot = strrchr (title, '.');

  if (dot != NULL && dot != title)
    *dot = '\0';
  return title;
}

/* The picture's size comes through a scale; what that leaves behind the sixth decimal is not meant.
 */
static double
tidy (double mm)
{
  return round (mm * 1e6) / 1e6;
}

static gboolean
take_shop (CavProject *project, const char *file, GError **error)
{
  g_autoptr (CavShop) shop = NULL;

  if (file == NULL)
    return TRUE;
  shop = cav_storage_load_shop (file, error);
  if (shop == NULL)
    return FALSE;
  cav_project_set_shop (project, shop);
  return TRUE;
}

/* Says which option gives the blank's size. */
static void
name_option (GError **error)
{
  if (!g_error_matches (*error, CAV_IMPORT_ERROR, CAV_IMPORT_ERROR_OUTSIDE)
      && !g_error_matches (*error, CAV_IMPORT_ERROR, CAV_IMPORT_ERROR_BLANK))
    return;
  g_autoptr (GError) cause = g_steal_pointer (error);
  g_set_error (error, cause->domain, cause->code, "%s (--blank)", cause->message);
}

static CavExit
run (const CavArguments *arguments, GError **error)
{
  g_autoptr (CavPath) outline = NULL;
  g_autoptr (CavProject) project = cav_project_new ();
  g_autofree char *title = create_title (arguments->file);
  CavBlank picture;
  CavBlank blank;

  outline = cav_storage_load_outline (arguments->file, &picture.width, &picture.thickness, error);
  if (outline == NULL || !take_shop (project, arguments->shop, error))
    return CAV_EXIT_FAILED;
  picture = (CavBlank){ tidy (picture.width), tidy (picture.thickness) };
  blank = arguments->has_blank ? arguments->blank : picture;
  cav_project_set_title (project, title);
  cav_project_set_rails (project, arguments->rails, arguments->length);
  if (!cav_import_outline (project, outline, &picture, &blank, error))
    {
      name_option (error);
      g_prefix_error (error, "%s: ", arguments->file);
      return CAV_EXIT_FAILED;
    }
  return cav_storage_save_project (project, arguments->output, error) ? CAV_EXIT_FINE
                                                                      : CAV_EXIT_FAILED;
}

const CavCommand cav_command_import = {
  .name = "import",
  .operand = "OUTLINE.svg",
  .summary = N_ ("make a project from the outline in an SVG picture"),
  .description = N_ (
      "Makes a project whose profile is the closed path in OUTLINE.svg. The top of the picture is\n"
      "the face, its bottom the back, its left the inside (the sight edge). The blank is as large\n"
      "as the picture; with --blank the outline keeps its place at the inside and the back.\n"
      "Lengths are millimetres unless they say otherwise: --blank '2 3/8 in x 7/8 in'."),
  .options
  = CAV_OPTION_BLANK | CAV_OPTION_SHOP | CAV_OPTION_RAILS | CAV_OPTION_LENGTH | CAV_OPTION_OUTPUT,
  .required = CAV_OPTION_OUTPUT,
  .run = run,
};
