/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "fuzz-target.h"

/*
 * Runs a fuzz target without a fuzzing engine: every file of some folders, then a number of changed
 * copies of them, the same ones each time. Usage: fuzz-NAME COUNT FOLDER... Prints TAP. A crash, a
 * sanitizer's complaint or a critical warning is the failure.
 */

#define LARGEST 20000u /* bytes of a changed copy */

static int
compare_names (gconstpointer a, gconstpointer b)
{
  return strcmp (*(const char *const *)a, *(const char *const *)b);
}

static void
read_folder (const char *folder, GPtrArray *files)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GDir) dir = g_dir_open (folder, 0, &error);
  g_autoptr (GPtrArray) names = g_ptr_array_new_with_free_func (g_free);
  const char *name;

  g_assert_no_error (error);
  while ((name = g_dir_read_name (dir)) != NULL)
    g_ptr_array_add (names, g_build_filename (folder, name, NULL));
  /* The order of a folder is not the same on every disk. */
  g_ptr_array_sort (names, compare_names);
  for (guint i = 0; i < names->len; i++)
    {
      char *contents = NULL;
      gsize length = 0;

      g_assert_true (g_file_get_contents (g_ptr_array_index (names, i), &contents, &length, NULL));
      g_ptr_array_add (files, g_bytes_new_take (contents, length));
    }
}

/* A stretch of bytes doubled, dropped, overwritten or taken from another file. */
static void
change_once (GByteArray *bytes, const GPtrArray *files, GRand *rand)
{
  static const char *const words[]
      = { "NaN", "-1", "1e308", "1e-320", "0", "\"", "<", "&#0;", "99999999999", "/", "]]>" };
  guint at = (guint)g_rand_int_range (rand, 0, (gint32)bytes->len + 1);
  guint wanted = (guint)g_rand_int_range (rand, 1, 40);
  guint length = MIN (wanted, bytes->len - at);

  switch (g_rand_int_range (rand, 0, 5))
    {
    case 0:
      if (at < bytes->len)
        bytes->data[at] = (guint8)g_rand_int_range (rand, 0, 256);
      break;
    case 1:
      g_byte_array_remove_range (bytes, at, length);
      break;
    case 2:
      {
        g_autofree guint8 *copy = g_memdup2 (bytes->data + at, length);

        g_byte_array_append (bytes, copy, length);
      }
      break;
    case 3:
      {
        const char *word = words[g_rand_int_range (rand, 0, G_N_ELEMENTS (words))];
        guint room = MIN ((guint)strlen (word), bytes->len - at);

        memcpy (bytes->data + at, word, room);
      }
      break;
    default:
      {
        GBytes *other
            = g_ptr_array_index (files, (guint)g_rand_int_range (rand, 0, (gint32)files->len));
        gsize size;
        const guint8 *data = g_bytes_get_data (other, &size);
        gsize from = size > 0 ? (gsize)g_rand_int_range (rand, 0, (gint32)size) : 0;

        if (size > 0)
          g_byte_array_append (bytes, data + from, (guint)MIN (size - from, 200));
      }
      break;
    }
}

static void
run_changed (const GPtrArray *files, guint32 seed)
{
  GRand *rand = g_rand_new_with_seed (seed);
  GBytes *from = g_ptr_array_index (files, (guint)g_rand_int_range (rand, 0, (gint32)files->len));
  g_autoptr (GByteArray) bytes = g_byte_array_new ();
  int changes = g_rand_int_range (rand, 1, 6);

  g_byte_array_append (bytes, g_bytes_get_data (from, NULL), (guint)g_bytes_get_size (from));
  for (int i = 0; i < changes && bytes->len < LARGEST; i++)
    change_once (bytes, files, rand);
  LLVMFuzzerTestOneInput (bytes->data, bytes->len);
  g_rand_free (rand);
}

int
main (int argc, char **argv)
{
  g_autoptr (GPtrArray) files = g_ptr_array_new_with_free_func ((GDestroyNotify)g_bytes_unref);
  guint64 count = 0;

  if (argc < 3 || !g_ascii_string_to_unsigned (argv[1], 10, 0, G_MAXUINT32, &count, NULL))
    {
      g_printerr ("Usage: %s COUNT FOLDER...\n", argv[0]);
      return 2;
    }
  for (int i = 2; i < argc; i++)
    read_folder (argv[i], files);
  g_print ("1..2\n");
  for (guint i = 0; i < files->len; i++)
    {
      GBytes *bytes = g_ptr_array_index (files, i);

      LLVMFuzzerTestOneInput (g_bytes_get_data (bytes, NULL), g_bytes_get_size (bytes));
    }
  g_print ("%sok 1 %u files\n", files->len > 0 ? "" : "not ", files->len);
  for (guint64 i = 0; files->len > 0 && i < count; i++)
    run_changed (files, (guint32)i);
  g_print ("ok 2 %" G_GUINT64_FORMAT " changed copies\n", count);
  return files->len > 0 ? 0 : 1;
}
