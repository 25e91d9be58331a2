/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The window in the states that the user guide shows: guide-pictures FOLDER. Not a test. */
#include "app/cav-frame-page.h"
#include "app/cav-shop-window.h"
#include "app/cav-start-window.h"
#include "app/cav-window.h"
#include "ui-test.h"

#define WIDTH 1200
#define HEIGHT 800

static const char *folder;

/* Long enough for whatever moves to come to rest. */
static void
let_rest (void)
{
  gint64 end = g_get_monotonic_time () + G_USEC_PER_SEC;

  while (g_get_monotonic_time () < end)
    if (!g_main_context_iteration (NULL, FALSE))
      g_usleep (1000);
}

static CavWindow *
show (CavDocument *document)
{
  CavPlanRunner *runner = cav_document_get_runner (document);
  CavWindow *window = cav_window_new (ui_test_get_application (), document);

  gtk_window_set_default_size (GTK_WINDOW (window), WIDTH, HEIGHT);
  gtk_window_present (GTK_WINDOW (window));
  gtk_test_widget_wait_for_draw (GTK_WIDGET (window));
  ui_test_wait_for (cav_plan_runner_get_state (runner) != CAV_PLAN_STATE_STALE);
  return window;
}

/* Takes the picture and closes the window. */
static void
take (GtkWindow *window, const char *name)
{
  g_autofree char *base = g_strconcat (name, ".png", NULL);
  g_autofree char *file_name = g_build_filename (folder, base, NULL);

  let_rest ();
  ui_test_take_picture (GTK_WIDGET (window), file_name);
  gtk_window_destroy (window);
  ui_test_settle ();
}

static void
take_molding (CavDocument *document)
{
  CavWindow *window = show (document);

  cav_selection_choose_cut (cav_document_get_selection (document), 1);
  take (GTK_WINDOW (window), "window-molding");
}

static void
take_pass (CavDocument *document)
{
  CavWindow *window = show (document);

  cav_selection_set_pass (cav_document_get_selection (document), 1);
  take (GTK_WINDOW (window), "window-pass");
  cav_selection_set_pass (cav_document_get_selection (document), -1);
}

static void
take_page (CavDocument *document, const char *page, const char *view, const char *name)
{
  CavWindow *window = show (document);

  gtk_widget_activate_action (GTK_WIDGET (window), "win.show-page", "s", page);
  ui_test_settle ();
  if (view != NULL)
    g_object_set (ui_test_find (GTK_WIDGET (window), CAV_TYPE_FRAME_PAGE), "view", view, NULL);
  /* Frames and boards are worked out in a thread, on a machine that may have much else to do. */
  for (int i = 0; i < 5; i++)
    let_rest ();
  take (GTK_WINDOW (window), name);
}

static void
take_shop (CavDocument *document)
{
  CavShopWindow *window = cav_shop_window_new (document, NULL);

  gtk_window_present (GTK_WINDOW (window));
  gtk_test_widget_wait_for_draw (GTK_WIDGET (window));
  take (GTK_WINDOW (window), "window-shop");
}

/* Each molding has its plan made one after the other. */
static void
take_start (void)
{
  GtkWindow *window = cav_start_window_new (ui_test_get_application ());

  gtk_window_present (window);
  gtk_test_widget_wait_for_draw (GTK_WIDGET (window));
  for (int i = 0; i < 10; i++)
    let_rest ();
  take (window, "window-start");
}

int
main (int argc, char *argv[])
{
  ui_test_init (&argc, &argv);
  /* A picture is of what stays, not of one page fading into the next. */
  g_object_set (gtk_settings_get_default (), "gtk-enable-animations", FALSE, NULL);
  g_assert_cmpint (argc, ==, 2);
  folder = argv[1];

  g_autoptr (CavDocument) document = ui_test_open_example ("cove-and-bead.cavetto");
  take_start ();
  take_molding (document);
  take_pass (document);
  take_page (document, "frame", "wall", "window-frame");
  take_page (document, "frame", "through", "window-through");
  take_page (document, "frame", "mitre", "window-mitre");
  take_page (document, "lumber", NULL, "window-lumber");
  take_shop (document);
  return 0;
}
