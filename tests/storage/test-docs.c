/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <string.h>

#include "storage-test.h"

/* The files that the documents show are files: valid, and readable where we read them. */

/* (transfer full) What stands between ```xml and ```. */
static GPtrArray *
get_listings (const char *document)
{
  GError *error = NULL;
  g_autofree char *file = g_build_filename (CAV_DOCS, document, NULL);
  g_autofree char *text = NULL;
  GPtrArray *listings = g_ptr_array_new_with_free_func (g_free);

  g_assert_true (g_file_get_contents (file, &text, NULL, &error));
  for (const char *at = strstr (text, "```xml\n"); at != NULL; at = strstr (at, "```xml\n"))
    {
      const char *end = strstr (at + 7, "```");

      g_assert_nonnull (end);
      g_ptr_array_add (listings, g_strndup (at + 7, (gsize)(end - at - 7)));
      at = end + 3;
    }
  return listings;
}

static void
assert_project (const char *text)
{
  GError *error = NULL;
  g_autoptr (GBytes) bytes = storage_test_bytes (text);
  g_autoptr (CavProject) project = cav_storage_project_from_bytes (bytes, "listing", &error);

  g_assert_no_error (error);
  storage_test_assert_valid (bytes, "project.rng");
}

static void
test_project (void)
{
  g_autoptr (GPtrArray) listings = get_listings ("project-file.md");

  g_assert_cmpuint (listings->len, ==, 4);
  assert_project (g_ptr_array_index (listings, 0));
  g_autofree char *drawn
      = g_strdup_printf ("<cavetto version='1' unit='mm'><blank width='50' thickness='25'/>"
                         "<rails count='4' length='3200'/><cuts>%s</cuts></cavetto>",
                         (char *)g_ptr_array_index (listings, 1));
  assert_project (drawn);

  g_autofree char *lumber
      = g_strdup_printf ("<cavetto version='3' unit='mm'><blank width='50' thickness='25'/>"
                         "<rails count='4' length='3200'/>%s</cavetto>",
                         (char *)g_ptr_array_index (listings, 2));
  assert_project (lumber);

  GError *error = NULL;
  g_autoptr (GBytes) bytes = storage_test_bytes (g_ptr_array_index (listings, 3));
  g_autoptr (CavShop) shop = cav_storage_shop_from_bytes (bytes, "listing", &error);
  g_assert_no_error (error);
  storage_test_assert_valid (bytes, "shop.rng");
  g_assert_false (shop->coving);
}

static void
test_plan (void)
{
  g_autoptr (GPtrArray) listings = get_listings ("plan-file.md");

  g_assert_cmpuint (listings->len, ==, 1);
  g_autoptr (GBytes) bytes = storage_test_bytes (g_ptr_array_index (listings, 0));
  storage_test_assert_valid (bytes, "plan.rng");
}

/* Every cut, family, rate and limit that there is has its row. */
static void
test_words (void)
{
  GError *error = NULL;
  g_autofree char *file = g_build_filename (CAV_DOCS, "project-file.md", NULL);
  g_autofree char *text = NULL;

  g_assert_true (g_file_get_contents (file, &text, NULL, &error));
  for (int i = 0; i < CAV_N_CUT_KINDS; i++)
    {
      const CavCutInfo *info = cav_cut_kind_get_info ((CavCutKind)i);
      g_autofree char *row = g_strdup_printf ("\n| `%s` |", info->name);

      g_assert_nonnull (strstr (text, row));
      for (guint k = 0; k < info->n_numbers; k++)
        {
          g_autofree char *word = g_strdup_printf ("`%s`", info->numbers[k].name);
          g_assert_nonnull (strstr (text, word));
        }
    }
  guint n_numbers;
  const CavFrameNumberInfo *numbers = cav_frame_settings_get_numbers (&n_numbers);
  for (guint i = 0; i < n_numbers; i++)
    {
      g_autofree char *row = g_strdup_printf ("\n| `%s` | ", numbers[i].name);
      char least[G_ASCII_DTOSTR_BUF_SIZE], most[G_ASCII_DTOSTR_BUF_SIZE];
      char usual[G_ASCII_DTOSTR_BUF_SIZE];
      g_ascii_formatd (least, sizeof least, "%g", numbers[i].minimum);
      g_ascii_formatd (most, sizeof most, "%g", numbers[i].maximum);
      g_ascii_formatd (usual, sizeof usual, "%g", numbers[i].usual);
      g_autofree char *range = g_strdup_printf (" | %s to %s | %s |\n", least, most, usual);
      const char *at = strstr (text, row);

      g_assert_nonnull (at);
      g_assert_true (g_str_has_prefix (strchr (at + strlen (row), '|') - 1, range));
    }
  for (int i = 0; i < CAV_N_CUTTER_FAMILIES; i++)
    {
      const CavCutterFamilyInfo *info = cav_cutter_family_get_info ((CavCutterFamily)i);
      g_autofree char *word = g_strdup_printf ("`%s`", info->name);

      g_assert_nonnull (strstr (text, word));
    }
}

int
main (int argc, char *argv[])
{
  storage_test_init (&argc, &argv);
  g_test_add_func ("/storage/docs/project", test_project);
  g_test_add_func ("/storage/docs/plan", test_plan);
  g_test_add_func ("/storage/docs/words", test_words);
  return g_test_run ();
}
