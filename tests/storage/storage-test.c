/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "storage-test.h"

#include <libxml/parser.h>
#include <libxml/relaxng.h>
#include <locale.h>
#include <string.h>

#include <glib/gstdio.h>

void
storage_test_init (int *argc, char ***argv)
{
  const char *locale = setlocale (LC_ALL, "");

  g_assert_true (locale != NULL);
  if (g_getenv ("CAV_TEST_COMMA") != NULL)
    g_assert_cmpstr (localeconv ()->decimal_point, ==, ",");
  g_test_init (argc, argv, NULL);
}

GBytes *
storage_test_bytes (const char *text)
{
  return g_bytes_new (text, strlen (text));
}

/* Whether a document is valid is an answer, not a message. */
static void
quiet_cb (void *data, xmlErrorPtr complaint)
{
}

gboolean
storage_test_is_valid (GBytes *bytes, const char *schema)
{
  g_autofree char *file = g_build_filename (CAV_DOCS, schema, NULL);
  gsize length;
  const char *data = g_bytes_get_data (bytes, &length);

  xmlRelaxNGParserCtxt *parser = xmlRelaxNGNewParserCtxt (file);
  g_assert_true (parser != NULL);
  xmlRelaxNG *grammar = xmlRelaxNGParse (parser);
  g_assert_true (grammar != NULL);
  xmlRelaxNGFreeParserCtxt (parser);

  xmlDoc *doc = xmlReadMemory (data, (int)length, NULL, NULL, XML_PARSE_NONET);
  g_assert_true (doc != NULL);
  xmlRelaxNGValidCtxt *validator = xmlRelaxNGNewValidCtxt (grammar);
  xmlRelaxNGSetValidStructuredErrors (validator, quiet_cb, NULL);
  /* libxml2 takes numbers apart by the locale's decimal mark. */
  g_autofree char *numeric = g_strdup (setlocale (LC_NUMERIC, NULL));
  setlocale (LC_NUMERIC, "C");
  int result = xmlRelaxNGValidateDoc (validator, doc);
  setlocale (LC_NUMERIC, numeric);
  xmlRelaxNGFreeValidCtxt (validator);
  xmlFreeDoc (doc);
  xmlRelaxNGFree (grammar);
  return result == 0;
}

void
storage_test_assert_valid (GBytes *bytes, const char *schema)
{
  gboolean valid = storage_test_is_valid (bytes, schema);

  if (!valid)
    g_test_message ("%.*s", (int)g_bytes_get_size (bytes),
                    (const char *)g_bytes_get_data (bytes, NULL));
  g_assert_true (valid);
}

void
storage_test_assert_error (const GError *error, CavStorageError code, const char *part)
{
  g_assert_error (error, CAV_STORAGE_ERROR, (int)code);
  g_assert_null (strchr (error->message, '\n'));
  if (strstr (error->message, part) == NULL)
    g_assert_cmpstr (error->message, ==, part);
}

gboolean
storage_test_same_bits (double a, double b)
{
  return memcmp (&a, &b, sizeof a) == 0;
}

static gboolean
same_point (CavPoint a, CavPoint b)
{
  return storage_test_same_bits (a.x, b.x) && storage_test_same_bits (a.y, b.y);
}

void
storage_test_assert_same_path (const CavPath *a, const CavPath *b)
{
  g_assert_cmpuint (cav_path_get_segment_count (a), ==, cav_path_get_segment_count (b));
  g_assert_true (cav_path_is_closed (a) == cav_path_is_closed (b));
  for (guint i = 0; i < cav_path_get_segment_count (a); i++)
    {
      const CavSegment *s = cav_path_get_segment (a, i);
      const CavSegment *t = cav_path_get_segment (b, i);

      g_assert_cmpint (s->kind, ==, t->kind);
      g_assert_true (same_point (s->from, t->from) && same_point (s->to, t->to));
      g_assert_true (same_point (s->centre, t->centre));
      g_assert_true (storage_test_same_bits (s->rx, t->rx));
      g_assert_true (storage_test_same_bits (s->ry, t->ry));
      g_assert_true (storage_test_same_bits (s->rotation, t->rotation));
      g_assert_true (storage_test_same_bits (s->start, t->start));
      g_assert_true (storage_test_same_bits (s->sweep, t->sweep));
    }
}

char *
storage_test_make_folder (void)
{
  GError *error = NULL;
  char *folder = g_dir_make_tmp ("cavetto-test-XXXXXX", &error);

  g_assert_no_error (error);
  return folder;
}

void
storage_test_remove_folder (const char *folder)
{
  GDir *dir = g_dir_open (folder, 0, NULL);
  const char *name;

  g_assert_true (dir != NULL);
  while ((name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *file = g_build_filename (folder, name, NULL);
      g_assert_cmpint (g_remove (file), ==, 0);
    }
  g_dir_close (dir);
  g_assert_cmpint (g_rmdir (folder), ==, 0);
}
