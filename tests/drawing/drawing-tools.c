/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing-tools.h"

#include <glib/gstdio.h>
#include <string.h>

#define MM_PER_POINT (25.4 / 72.0)

GBytes *
tool_run (GBytes *bytes, const char *const *arguments)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) line = g_ptr_array_new_with_free_func (g_free);
  g_autofree char *folder = g_dir_make_tmp ("cavetto-test-XXXXXX", &error);
  g_autofree char *input = NULL;
  g_autofree char *output = NULL;
  char *text = NULL;
  gsize length = 0;
  int status = -1;
  gsize size;
  const char *data = g_bytes_get_data (bytes, &size);
  gboolean writes_file = FALSE;

  g_assert_no_error (error);
  input = g_build_filename (folder, "input", NULL);
  output = g_build_filename (folder, "output", NULL);
  g_assert_true (g_file_set_contents (input, data, (gssize)size, &error));
  for (guint i = 0; arguments[i] != NULL; i++)
    {
      writes_file = writes_file || strcmp (arguments[i], "%") == 0;
      g_ptr_array_add (line, g_strdup (strcmp (arguments[i], "@") == 0   ? input
                                       : strcmp (arguments[i], "%") == 0 ? output
                                                                         : arguments[i]));
    }
  g_ptr_array_add (line, NULL);
  g_spawn_sync (NULL, (char **)line->pdata, NULL, G_SPAWN_SEARCH_PATH, NULL, NULL, &text, NULL,
                &status, &error);
  g_assert_no_error (error);
  g_spawn_check_wait_status (status, &error);
  g_assert_no_error (error);
  if (writes_file)
    {
      g_free (text);
      g_file_get_contents (output, &text, &length, &error);
      g_assert_no_error (error);
      g_unlink (output);
    }
  else
    length = strlen (text);
  g_unlink (input);
  g_rmdir (folder);
  return g_bytes_new_take (text, length);
}

char *
tool_run_text (GBytes *bytes, const char *const *arguments)
{
  g_autoptr (GBytes) output = tool_run (bytes, arguments);
  gsize length;
  const char *data = g_bytes_get_data (output, &length);

  return g_strndup (data, length);
}

static void
word_free (gpointer data)
{
  Word *word = data;

  g_free (word->text);
  g_free (word);
}

static double
read_attribute (const char *line, const char *name)
{
  const char *at = strstr (line, name);

  g_assert_true (at != NULL);
  return g_ascii_strtod (at + strlen (name) + 2, NULL) * MM_PER_POINT;
}

static char *
dup_unescaped (const char *from, gsize length)
{
  static const struct
  {
    const char *entity;
    const char *text;
  } entities[] = {
    { "&lt;", "<" }, { "&gt;", ">" }, { "&quot;", "\"" }, { "&apos;", "'" }, { "&amp;", "&" }
  };
  g_autoptr (GString) text = g_string_new_len (from, (gssize)length);

  for (guint i = 0; i < G_N_ELEMENTS (entities); i++)
    g_string_replace (text, entities[i].entity, entities[i].text, 0);
  return g_strdup (text->str);
}

GPtrArray *
tool_read_words (GBytes *pdf)
{
  const char *const arguments[] = { "pdftotext", "-bbox", "@", "-", NULL };
  g_autofree char *html = tool_run_text (pdf, arguments);
  g_auto (GStrv) lines = g_strsplit (html, "\n", -1);
  GPtrArray *words = g_ptr_array_new_with_free_func (word_free);
  guint n_pages = 0;

  for (guint i = 0; lines[i] != NULL; i++)
    {
      const char *begin = strchr (lines[i], '>');
      const char *end = strstr (lines[i], "</word>");
      Word *word;

      if (strstr (lines[i], "<page ") != NULL)
        n_pages++;
      if (strstr (lines[i], "<word ") == NULL)
        continue;
      g_assert_true (begin != NULL && end != NULL && n_pages > 0);
      word = g_new0 (Word, 1);
      word->page = n_pages - 1;
      word->box.x0 = read_attribute (lines[i], "xMin");
      word->box.y0 = read_attribute (lines[i], "yMin");
      word->box.x1 = read_attribute (lines[i], "xMax");
      word->box.y1 = read_attribute (lines[i], "yMax");
      word->text = dup_unescaped (begin + 1, (gsize)(end - begin - 1));
      g_ptr_array_add (words, word);
    }
  return words;
}

char *
tool_join_words (const GPtrArray *words, guint page)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < words->len; i++)
    {
      const Word *word = g_ptr_array_index (words, i);

      if (word->page == page)
        g_string_append_printf (text, "%s%s", text->len > 0 ? " " : "", word->text);
    }
  return g_string_free (text, FALSE);
}

void
tool_assert_apart (const GPtrArray *words)
{
  /* Boxes are those of the font, taller than its letters; neighbours may touch. */
  const double touch = 0.12;

  for (guint i = 0; i < words->len; i++)
    for (guint j = i + 1; j < words->len; j++)
      {
        const Word *a = g_ptr_array_index (words, i);
        const Word *b = g_ptr_array_index (words, j);

        if (a->page == b->page && a->box.x0 + touch < b->box.x1 && b->box.x0 + touch < a->box.x1
            && a->box.y0 + touch < b->box.y1 && b->box.y0 + touch < a->box.y1)
          {
            g_test_message ("page %u: \"%s\" at %.2f, %.2f lies on \"%s\" at %.2f, %.2f",
                            a->page + 1, a->text, a->box.x0, a->box.y0, b->text, b->box.x0,
                            b->box.y0);
            g_test_fail ();
          }
      }
}

typedef struct
{
  const guchar *data;
  gsize left;
} Reader;

static cairo_status_t
read_cb (void *closure, unsigned char *data, unsigned int length)
{
  Reader *reader = closure;

  if (length > reader->left)
    return CAIRO_STATUS_READ_ERROR;
  memcpy (data, reader->data, length);
  reader->data += length;
  reader->left -= length;
  return CAIRO_STATUS_SUCCESS;
}

cairo_surface_t *
tool_load_png (GBytes *png)
{
  Reader reader;
  cairo_surface_t *surface;

  reader.data = g_bytes_get_data (png, &reader.left);
  surface = cairo_image_surface_create_from_png_stream (read_cb, &reader);
  g_assert_cmpint (cairo_surface_status (surface), ==, CAIRO_STATUS_SUCCESS);
  cairo_surface_flush (surface);
  return surface;
}

cairo_surface_t *
tool_render_pdf (GBytes *pdf, guint page, int dots_per_inch)
{
  g_autofree char *number = g_strdup_printf ("%u", page + 1);
  g_autofree char *dots = g_strdup_printf ("%d", dots_per_inch);
  g_autofree char *script = NULL;
  g_autoptr (GBytes) png = NULL;
  const char *const shell[] = { "sh", "-c", NULL, "sh", "@", "%", NULL };
  const char *line[G_N_ELEMENTS (shell)];

  /* Standard output holds zero bytes, so it goes through a file. */
  script = g_strdup_printf ("exec pdftocairo -png -singlefile -f %s -l %s -r %s \"$1\" - > \"$2\"",
                            number, number, dots);
  memcpy (line, shell, sizeof shell);
  line[2] = script;
  png = tool_run (pdf, line);
  return tool_load_png (png);
}

cairo_surface_t *
tool_render_svg (GBytes *svg, int dots_per_inch)
{
  g_autofree char *dots = g_strdup_printf ("%d", dots_per_inch);
  const char *const arguments[]
      = { "rsvg-convert", "-d", dots, "-p", dots, "-b", "white", "-o", "%", "@", NULL };
  g_autoptr (GBytes) png = tool_run (svg, arguments);

  return tool_load_png (png);
}

guint32
tool_get_colour (cairo_surface_t *surface, int x, int y)
{
  const guchar *data = cairo_image_surface_get_data (surface);
  guint32 pixel;

  g_assert_cmpint (x, >=, 0);
  g_assert_cmpint (y, >=, 0);
  g_assert_cmpint (x, <, cairo_image_surface_get_width (surface));
  g_assert_cmpint (y, <, cairo_image_surface_get_height (surface));
  memcpy (&pixel, data + (gsize)y * (gsize)cairo_image_surface_get_stride (surface) + 4 * (gsize)x,
          4);
  return pixel & 0xffffffu;
}

int
tool_get_grey (cairo_surface_t *surface, int x, int y)
{
  guint32 colour = tool_get_colour (surface, x, y);

  return (int)(((colour >> 16) * 30 + ((colour >> 8) & 0xffu) * 59 + (colour & 0xffu) * 11) / 100);
}
