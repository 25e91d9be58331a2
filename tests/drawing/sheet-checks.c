/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "sheet-checks.h"

#include <libintl.h>
#include <locale.h>

/* No smaller letters than these on what is read in the shop; drawings, also of boards, have rules
 * of their own. */
#define LEAST 3.0
#define LEAST_OF_DRAWINGS 2.5
#define EDGE 3.0

static void
check_apart (CavScene *scene, CavSheet sheet, guint page, guint index, const char *text, CavBox box)
{
  for (guint j = 0; j < index; j++)
    {
      const char *other;
      const CavTextStyle *style;
      gboolean overlap = cav_box_overlaps (box, cav_scene_get_text (scene, j, &other, &style));

      if (overlap)
        g_test_message ("%s, page %u: \"%s\" lies on \"%s\"", cav_sheet_get_id (sheet), page, text,
                        other);
      g_assert_false (overlap);
    }
}

void
sheet_check_page (CavScene *scene, CavSheet sheet, guint page)
{
  for (guint i = 0; i < cav_scene_get_text_count (scene); i++)
    {
      const char *text;
      const CavTextStyle *style;
      CavBox box = cav_scene_get_text (scene, i, &text, &style);
      gboolean outside = box.x0 < EDGE || box.y0 < EDGE
                         || box.x1 > cav_scene_get_width (scene) - EDGE
                         || box.y1 > cav_scene_get_height (scene) - EDGE;

      if (outside)
        g_test_message ("%s, page %u: \"%s\" leaves the page", cav_sheet_get_id (sheet), page,
                        text);
      g_assert_false (outside);
      g_assert_cmpfloat (style->height, >=,
                         sheet == CAV_SHEET_DRAWING || sheet == CAV_SHEET_LIST ? LEAST_OF_DRAWINGS
                                                                               : LEAST);
      check_apart (scene, sheet, page, i, text, box);
    }
}

void
sheet_check (CavSheet sheet,
             CavProject *project,
             const CavPlan *plan,
             const CavSheetOptions *options)
{
  g_autoptr (GPtrArray) scenes = cav_sheet_create_scenes (sheet, project, plan, options);

  g_assert_nonnull (scenes);
  for (guint i = 0; i < scenes->len; i++)
    sheet_check_page (g_ptr_array_index (scenes, i), sheet, i + 1);
}

GStrv
sheet_check_list_languages (void)
{
  const char *names = g_getenv ("CAV_LANGUAGES");
  g_auto (GStrv) listed = g_strsplit_set (names != NULL ? names : "", " \n", -1);
  g_autoptr (GStrvBuilder) languages = g_strv_builder_new ();

  g_strv_builder_add (languages, "");
  for (guint i = 0; listed[i] != NULL; i++)
    if (*listed[i] != '\0')
      g_strv_builder_add (languages, listed[i]);
  return g_strv_builder_end (languages);
}

void
sheet_check_use_language (const char *language)
{
  extern int _nl_msg_cat_cntr;
  const char *folder = g_getenv ("CAV_CATALOGUES");

  setlocale (LC_ALL, "C.UTF-8");
  if (folder != NULL)
    bindtextdomain (GETTEXT_PACKAGE, folder);
  bind_textdomain_codeset (GETTEXT_PACKAGE, "UTF-8");
  textdomain (GETTEXT_PACKAGE);
  g_setenv ("LANGUAGE", *language != '\0' ? language : "C", TRUE);
  /* glibc keeps what it has looked up until this number changes. */
  _nl_msg_cat_cntr++;
}
