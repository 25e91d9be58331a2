/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "storage/cav-kept-plan.h"
#include "storage/cav-storage.h"
#include "tool/cav-picture.h"
#include "tool/cav-text.h"
#include "tool/cav-tool.h"

#include <glib/gi18n-lib.h>
#include <string.h>

CavProject *
cav_tool_load_project (const CavArguments *arguments, GError **error)
{
  g_autoptr (CavProject) project = cav_storage_load_project (arguments->file, error);

  if (project != NULL && arguments->shop != NULL)
    {
      g_autoptr (CavShop) shop = cav_storage_load_shop (arguments->shop, error);

      if (shop == NULL)
        return NULL;
      cav_project_set_shop (project, shop);
    }
  return g_steal_pointer (&project);
}

static gboolean
check_tools (const CavArguments *arguments, const CavShop *shop, GError **error)
{
  if (shop->blades->len + shop->cutters->len > 0)
    return TRUE;
  g_set_error (error, CAV_TOOL_ERROR, 0,
               _ ("%s: the shop has no tools; add a blade or a cutter to it"),
               arguments->shop != NULL ? arguments->shop : arguments->file);
  return FALSE;
}

static char *
format_today (void)
{
  const char *epoch = g_getenv ("SOURCE_DATE_EPOCH");
  gint64 seconds;
  g_autoptr (GDateTime) time
      = epoch != NULL && g_ascii_string_to_signed (epoch, 10, 0, G_MAXUINT32, &seconds, NULL)
            ? g_date_time_new_from_unix_utc (seconds)
            : g_date_time_new_now_local ();

  return time != NULL ? g_date_time_format (time, "%Y-%m-%d") : NULL;
}

CavSheetOptions
cav_tool_get_sheet_options (const CavArguments *arguments)
{
  static char *today = NULL;

  if (today == NULL)
    today = format_today ();
  return (CavSheetOptions){
    .unit = arguments->unit,
    .denominator = CAV_TEXT_DENOMINATOR,
    .paper = arguments->paper,
    .date = today,
    .layout = arguments->layout,
  };
}

CavPlan *
cav_tool_plan (const CavArguments *arguments, CavProject *project, GError **error)
{
  g_autoptr (CavPlan) plan = NULL;
  CavPlanRequest request;

  if (!check_tools (arguments, cav_project_get_shop (project), error))
    return NULL;
  if (cav_project_get_plan_request (project, CAV_EFFORT_THOROUGH, &request, error))
    plan = cav_kept_plan_make (&request, NULL, error);
  if (plan == NULL)
    {
      g_prefix_error (error, "%s: ", arguments->file);
      return NULL;
    }
  if (!plan->usable)
    {
      g_set_error (
          error, CAV_TOOL_ERROR, 0,
          _ ("%s: no sequence of passes could be proved; `cavetto look` says what is wrong"),
          arguments->file);
      return NULL;
    }
  return g_steal_pointer (&plan);
}

CavPlan *
cav_tool_plan_if_possible (const CavArguments *arguments, CavProject *project)
{
  const CavShop *shop = cav_project_get_shop (project);

  if (shop->blades->len + shop->cutters->len == 0
      || !cav_profile_is_sound (cav_project_get_profile (project)))
    return NULL;
  return cav_tool_plan (arguments, project, NULL);
}

gboolean
cav_tool_load_picture (const CavArguments *arguments,
                       CavProject *project,
                       cairo_surface_t **out_picture,
                       GError **error)
{
  const char *file = cav_project_get_frame_settings (project)->picture_file;
  g_autofree char *path = NULL;

  *out_picture = NULL;
  if (file == NULL || *file == '\0')
    return TRUE;
  path = cav_picture_find (file, arguments->file);
  *out_picture = cav_picture_load (path, error);
  return *out_picture != NULL;
}
