/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "sheet-checks.h"

#include <libintl.h>
#include <locale.h>
#include <string.h>

#include "drawing/cav-lettering.h"
#include "drawing/cav-pass-words.h"

/* No smaller letters than these on what is read in the shop. The drawing lies on a desk: 2.5 mm is
 * one of the heights of ISO 3098-1 (recalled, not looked up). */
#define LEAST 3.0
#define LEAST_OF_DRAWING 2.5
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

static double
get_least (CavSheet sheet)
{
  return sheet == CAV_SHEET_DRAWING ? LEAST_OF_DRAWING : LEAST;
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
      g_assert_cmpfloat (style->height, >=, get_least (sheet));
      check_apart (scene, sheet, page, i, text, box);
    }
}

/* Nothing is cut short but a title that is too long for any sheet. */
static void
check_whole (CavScene *scene, CavSheet sheet, guint page, const char *title)
{
  for (guint i = 0; i < cav_scene_get_text_count (scene); i++)
    {
      const char *text;
      const CavTextStyle *style;
      gboolean cut;

      cav_scene_get_text (scene, i, &text, &style);
      cut = g_str_has_suffix (text, "…") && strncmp (text, title, MIN (strlen (title), 10)) != 0;
      if (cut)
        g_test_message ("%s, page %u: \"%s\" is cut", cav_sheet_get_id (sheet), page, text);
      g_assert_false (cut);
    }
}

/* (transfer full) All texts of a page behind each other, as one line. */
static char *
join_texts (CavScene *scene)
{
  GString *all = g_string_new (NULL);

  for (guint i = 0; i < cav_scene_get_text_count (scene); i++)
    {
      const char *text;
      const CavTextStyle *style;

      cav_scene_get_text (scene, i, &text, &style);
      g_string_append_printf (all, "%s%s", all->len > 0 ? " " : "", text);
    }
  return g_string_free (all, FALSE);
}

/* (transfer full) As it comes out of the wrapping. */
static char *
dup_plain (const char *sentence)
{
  g_autofree char *clean = cav_lettering_clean (sentence);
  g_auto (GStrv) parts = g_strsplit (clean, "\302\240", -1);

  return g_strjoinv (" ", parts);
}

/* On one page, or with its end at the next one. */
static gboolean
stands_on (GPtrArray *pages, const char *sentence)
{
  g_autofree char *plain = dup_plain (sentence);

  for (guint i = 0; i < pages->len; i++)
    if (strstr (g_ptr_array_index (pages, i), plain) != NULL)
      return TRUE;
  for (char *space = strchr (plain, ' '); space != NULL; space = strchr (space + 1, ' '))
    {
      gboolean found = FALSE;

      *space = '\0';
      for (guint i = 0; i + 1 < pages->len && !found; i++)
        found = strstr (g_ptr_array_index (pages, i), plain) != NULL
                && strstr (g_ptr_array_index (pages, i + 1), space + 1) != NULL;
      *space = ' ';
      if (found)
        return TRUE;
    }
  return FALSE;
}

static guint
collect_cautions (const CavPlan *plan)
{
  guint cautions = 0;

  for (guint i = 0; i < plan->setups->len; i++)
    {
      const CavSetup *setup = g_ptr_array_index (plan->setups, i);

      for (guint j = 0; j < setup->passes->len; j++)
        cautions |= ((const CavPass *)g_ptr_array_index (setup->passes, j))->cautions;
    }
  return cautions;
}

void
sheet_check_cautions (CavProject *project, const CavPlan *plan, const CavSheetOptions *options)
{
  g_autoptr (GPtrArray) scenes = cav_sheet_create_scenes (CAV_SHEET_PASSES, project, plan, options);
  g_autoptr (GPtrArray) pages = g_ptr_array_new_with_free_func (g_free);
  g_autofree char *foot = dup_plain (cav_words_get_foot ());
  guint cautions = collect_cautions (plan);

  for (guint i = 0; i < scenes->len; i++)
    {
      char *page = join_texts (g_ptr_array_index (scenes, i));

      g_ptr_array_add (pages, page);
      /* What always holds is at the foot of every page. */
      if (strstr (page, foot) == NULL)
        g_test_message ("page %u: no whole foot in \"%s\"", i + 1, page);
      g_assert_nonnull (strstr (page, foot));
    }
  for (guint i = 0; i < CAV_N_CAUTIONS; i++)
    {
      const char *sentence = cav_caution_get_sentence ((CavCaution)(1u << i));

      if ((cautions & (1u << i)) == 0)
        continue;
      if (!stands_on (pages, sentence))
        g_test_message ("missing: \"%s\"", sentence);
      g_assert_true (stands_on (pages, sentence));
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
    {
      sheet_check_page (g_ptr_array_index (scenes, i), sheet, i + 1);
      check_whole (g_ptr_array_index (scenes, i), sheet, i + 1, cav_project_get_title (project));
    }
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
