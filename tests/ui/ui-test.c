/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "ui-test.h"

#include <glib/gi18n.h>
#include <locale.h>

#include "storage/cav-storage.h"

static GtkApplication *application;

void
ui_test_init (int *argc, char ***argv)
{
  gtk_test_init (argc, argv, NULL);
  /* GTK's tests run in the C locale; ours in the one that they are given, for its decimal mark. */
  setlocale (LC_ALL, "");
  /* Pictures are taken in every language; tests compare English words. */
  if (g_getenv ("CAVETTO_LOCALE_DIR") != NULL)
    {
      bindtextdomain (GETTEXT_PACKAGE, g_getenv ("CAVETTO_LOCALE_DIR"));
      bind_textdomain_codeset (GETTEXT_PACKAGE, "UTF-8");
      textdomain (GETTEXT_PACKAGE);
    }
  cav_application_register_resources ();
  adw_init ();
  application = GTK_APPLICATION (cav_application_new (G_APPLICATION_NON_UNIQUE));
  g_assert_true (g_application_register (G_APPLICATION (application), NULL, NULL));
}

GtkApplication *
ui_test_get_application (void)
{
  return application;
}

CavDocument *
ui_test_open_example (const char *name)
{
  g_autofree char *file_name = g_build_filename (g_getenv ("CAV_EXAMPLES"), name, NULL);
  g_autoptr (GFile) file = g_file_new_for_path (file_name);
  g_autoptr (GError) error = NULL;
  g_autoptr (CavProject) project = cav_storage_load_project (file_name, &error);

  g_assert_no_error (error);
  return cav_document_new_for_project (project, file);
}

void
ui_test_settle (void)
{
  while (g_main_context_iteration (NULL, FALSE))
    ;
}

GtkWindow *
ui_test_show (GtkWidget *widget, int width, int height)
{
  GtkWindow *window = GTK_WINDOW (adw_window_new ());

  gtk_window_set_default_size (window, width, height);
  adw_window_set_content (ADW_WINDOW (window), widget);
  gtk_window_present (window);
  gtk_test_widget_wait_for_draw (GTK_WIDGET (window));
  return window;
}

GtkEventController *
ui_test_get_controller (GtkWidget *widget, GType type)
{
  g_autoptr (GListModel) list = gtk_widget_observe_controllers (widget);

  for (guint i = 0; i < g_list_model_get_n_items (list); i++)
    {
      g_autoptr (GtkEventController) controller = g_list_model_get_item (list, i);

      if (G_TYPE_CHECK_INSTANCE_TYPE (controller, type))
        return controller;
    }
  g_test_message ("%s has no %s", G_OBJECT_TYPE_NAME (widget), g_type_name (type));
  g_assert_not_reached ();
}

GtkWidget *
ui_test_find (GtkWidget *root, GType type)
{
  if (G_TYPE_CHECK_INSTANCE_TYPE (root, type))
    return root;
  for (GtkWidget *child = gtk_widget_get_first_child (root); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    {
      GtkWidget *found = ui_test_find (child, type);

      if (found != NULL)
        return found;
    }
  return NULL;
}

gint64
ui_test_get_deadline (void)
{
  const char *seconds = g_getenv ("CAV_SECONDS");

  return g_get_monotonic_time ()
         + (seconds != NULL ? g_ascii_strtoll (seconds, NULL, 10) : 40) * G_USEC_PER_SEC;
}

void
ui_test_finalize_ (GObject *object, const char *place)
{
  g_autofree char *type = g_strdup (G_OBJECT_TYPE_NAME (object));
  gint64 end = ui_test_get_deadline ();

  g_object_add_weak_pointer (object, (gpointer *)&object);
  g_object_unref (object);
  while (object != NULL && g_get_monotonic_time () < end)
    if (!g_main_context_iteration (NULL, FALSE))
      g_usleep (1000);
  if (object != NULL)
    g_error ("%s: a %s lives on, %u references are left", place, type, object->ref_count);
}

/* A text that goes on with dots, or reaches out of its label. What is shortened in its middle is a
 * name that somebody gave, of any length. */
static gboolean
is_cut (GtkLabel *label)
{
  PangoLayout *layout = gtk_label_get_layout (label);
  PangoRectangle place;

  if (gtk_label_get_ellipsize (label) == PANGO_ELLIPSIZE_MIDDLE)
    return FALSE;
  pango_layout_get_pixel_extents (layout, NULL, &place);
  return pango_layout_is_ellipsized (layout)
         || place.width > gtk_widget_get_width (GTK_WIDGET (label)) + 1
         || place.height > gtk_widget_get_height (GTK_WIDGET (label)) + 1;
}

static void
find_cut_words (GtkWidget *widget, GPtrArray *found)
{
  if (!gtk_widget_get_mapped (widget))
    return;
  if (GTK_IS_LABEL (widget) && is_cut (GTK_LABEL (widget)))
    g_ptr_array_add (found, g_strdup (gtk_label_get_text (GTK_LABEL (widget))));
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    find_cut_words (child, found);
}

GPtrArray *
ui_test_find_cut_words (GtkWidget *root)
{
  GPtrArray *found = g_ptr_array_new_with_free_func (g_free);

  find_cut_words (root, found);
  return found;
}

void
ui_test_take_picture (GtkWidget *widget, const char *file_name)
{
  GtkWidget *root = GTK_WIDGET (gtk_widget_get_root (widget));
  g_autoptr (GdkPaintable) paintable = gtk_widget_paintable_new (root);
  g_autoptr (GskRenderNode) node = NULL;
  g_autoptr (GdkTexture) texture = NULL;
  int scale = gtk_widget_get_scale_factor (root);

  /* What has changed since the last frame has no node. */
  for (int i = 0; i < 100 && node == NULL; i++)
    {
      GtkSnapshot *snapshot = gtk_snapshot_new ();

      gtk_test_widget_wait_for_draw (root);
      /* As many pixels as the screen would have. */
      gtk_snapshot_scale (snapshot, (float)scale, (float)scale);
      /* The size with the shadow's border, which the widget's own size leaves out. */
      gdk_paintable_snapshot (paintable, snapshot, gdk_paintable_get_intrinsic_width (paintable),
                              gdk_paintable_get_intrinsic_height (paintable));
      node = gtk_snapshot_free_to_node (snapshot);
    }
  g_assert_nonnull (node);
  texture = gsk_renderer_render_texture (gtk_native_get_renderer (GTK_NATIVE (root)), node, NULL);
  g_assert_true (gdk_texture_save_to_png (texture, file_name));
}
