/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-guide.h"

#include "app/cav-file-choice.h"

#include <glib/gi18n.h>

#define FIRST_PAGE "index.html"
/* Documents and translations are installed side by side. */
#define INSTALLED CAV_LOCALE_DIR "/../doc/cavetto/guide"

char *
cav_guide_find (void)
{
  g_autofree char *program = g_file_read_link ("/proc/self/exe", NULL);
  g_autofree char *folder = program != NULL ? g_path_get_dirname (program) : g_strdup ("/");
  /* BUILD/src/app/cavetto; PREFIX/bin/cavetto, also where the prefix was moved; as configured. */
  char *places[] = {
    g_build_filename (folder, "..", "..", "docs", "guide", FIRST_PAGE, NULL),
    g_build_filename (folder, "..", "share", "doc", "cavetto", "guide", FIRST_PAGE, NULL),
    g_build_filename (INSTALLED, FIRST_PAGE, NULL),
  };
  char *found = NULL;

  for (guint i = 0; i < G_N_ELEMENTS (places); i++)
    {
      if (found == NULL && g_file_test (places[i], G_FILE_TEST_IS_REGULAR))
        found = g_canonicalize_filename (places[i], NULL);
      g_free (places[i]);
    }
  return found;
}

static void
tell (GtkWindow *near, const char *body)
{
  cav_tell_failure (near, _ ("The guide could not be opened"), body);
}

typedef struct
{
  GtkWindow *near; /* weak, nullable */
  char *path;
} Opening;

static void
opening_free (Opening *opening)
{
  g_clear_weak_pointer (&opening->near);
  g_free (opening->path);
  g_free (opening);
}

G_DEFINE_AUTOPTR_CLEANUP_FUNC (Opening, opening_free)

static void
shown_cb (GObject *source, GAsyncResult *result, gpointer user_data)
{
  g_autoptr (Opening) opening = user_data;
  g_autoptr (GError) error = NULL;

  if (gtk_show_uri_full_finish ((GtkWindow *)source, result, &error)
      || g_error_matches (error, G_IO_ERROR, G_IO_ERROR_CANCELLED))
    return;
  /* Translators: the first %s is the system's message, the second a file name. */
  g_autofree char *body
      = g_strdup_printf (_ ("No program that shows web pages could be started (%s). Install a web "
                            "browser, or open this file on another computer: %s"),
                         error->message, opening->path);
  tell (opening->near, body);
}

void
cav_guide_open (GtkWindow *near)
{
  g_autofree char *path = cav_guide_find ();
  g_autofree char *uri = path != NULL ? g_filename_to_uri (path, NULL, NULL) : NULL;
  Opening *opening;

  if (uri == NULL)
    {
      tell (near, _ ("The guide is not installed with the program. Install the program anew, or "
                     "read docs/guide where its source is."));
      return;
    }
  opening = g_new0 (Opening, 1);
  g_set_weak_pointer (&opening->near, near);
  opening->path = g_steal_pointer (&path);
  gtk_show_uri_full (near, uri, GDK_CURRENT_TIME, NULL, shown_cb, opening);
}
