/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Letters twice as large, in the language of the locale: no word of a window is cut, and what does
 * not fit is scrolled. */
#include "app/cav-column.h"
#include "app/cav-frame-detail.h"
#include "app/cav-frame-page.h"
#include "app/cav-letters.h"
#include "app/cav-lumber-page.h"
#include "app/cav-sheets-window.h"
#include "app/cav-shop-window.h"
#include "app/cav-start-window.h"
#include "app/cav-window.h"
#include "ui-test.h"

#include <glib/gi18n.h>

#define LARGE (2 * 96 * 1024)

/* Rows may come a frame late, with what they say; in the end nothing is cut. */
static void
assert_whole (GtkWidget *window, const char *what)
{
  gint64 end = ui_test_get_deadline ();
  g_autoptr (GPtrArray) cut = NULL;

  gtk_test_widget_wait_for_draw (window);
  cut = ui_test_find_cut_words (window);
  while (cut->len > 0 && g_get_monotonic_time () < end)
    {
      if (!g_main_context_iteration (NULL, FALSE))
        g_usleep (1000);
      g_ptr_array_unref (cut);
      cut = ui_test_find_cut_words (window);
    }
  for (guint i = 0; i < cut->len; i++)
    g_test_message ("%s: “%s” is cut off", what, (char *)g_ptr_array_index (cut, i));
  g_assert_cmpuint (cut->len, ==, 0);
}

static void
destroy (GtkWidget *window)
{
  gtk_window_destroy (GTK_WINDOW (window));
  ui_test_settle ();
}

static GtkWidget *
show (CavDocument *document)
{
  CavPlanRunner *runner = cav_document_get_runner (document);
  CavWindow *window = cav_window_new (ui_test_get_application (), document);

  gtk_window_set_default_size (GTK_WINDOW (window), 1200, 800);
  gtk_window_present (GTK_WINDOW (window));
  ui_test_wait_for (cav_plan_runner_get_state (runner) == CAV_PLAN_STATE_CURRENT
                    && ui_test_find (GTK_WIDGET (window), CAV_TYPE_COLUMN) != NULL);
  return GTK_WIDGET (window);
}

/* Everything below would hold of English and of usual letters, too. */
static void
test_is_asked_for (void)
{
  GtkWidget *label = g_object_ref_sink (gtk_label_new (NULL));

  g_assert_cmpfloat_with_epsilon (cav_letters_get_size (label), 2.0, 1e-6);
  g_assert_cmpstr (_ ("Boards at hand"), !=, "Boards at hand");
  g_object_unref (label);
}

static void
test_molding (void)
{
  g_autoptr (CavDocument) document = ui_test_open_example ("plain-steps.cavetto");
  CavSelection *selection = cav_document_get_selection (document);
  GtkWidget *window = show (document);

  assert_whole (window, "molding");
  cav_selection_choose_cut (selection, 0);
  assert_whole (window, "cut");
  cav_selection_set_pass (selection, 0);
  assert_whole (window, "pass");
  destroy (window);
}

/* (nullable) The drawing of the corner, once its view is shown. */
static CavScene *
find_corner (GtkWidget *widget)
{
  gboolean is_corner = FALSE;

  if (!gtk_widget_get_mapped (widget))
    return NULL;
  if (CAV_IS_FRAME_DETAIL (widget))
    g_object_get (widget, "is-corner", &is_corner, NULL);
  if (is_corner)
    return cav_frame_detail_get_scene (CAV_FRAME_DETAIL (widget));
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    {
      CavScene *scene = find_corner (child);

      if (scene != NULL)
        return scene;
    }
  return NULL;
}

/* Buttons that lie on the picture of a page stay on it, and beside each other. */
static void
assert_beside (GtkWidget *page)
{
  GtkWidget *overlay = ui_test_find (page, GTK_TYPE_OVERLAY);
  GtkWidget *picture = gtk_overlay_get_child (GTK_OVERLAY (overlay));
  const float width = (float)gtk_widget_get_width (overlay);

  for (GtkWidget *a = gtk_widget_get_first_child (overlay); a != NULL;
       a = gtk_widget_get_next_sibling (a))
    {
      graphene_rect_t bounds;

      if (a == picture || !gtk_widget_get_mapped (a))
        continue;
      g_assert_true (gtk_widget_compute_bounds (a, overlay, &bounds));
      g_assert_cmpfloat (bounds.origin.x, >=, 0);
      g_assert_cmpfloat (bounds.origin.x + bounds.size.width, <=, width);
      for (GtkWidget *b = gtk_widget_get_next_sibling (a); b != NULL;
           b = gtk_widget_get_next_sibling (b))
        {
          graphene_rect_t other;

          if (b == picture || !gtk_widget_get_mapped (b))
            continue;
          g_assert_true (gtk_widget_compute_bounds (b, overlay, &other));
          g_assert_false (graphene_rect_intersection (&bounds, &other, NULL));
        }
    }
}

static void
test_frame (void)
{
  g_autoptr (CavDocument) document = ui_test_open_example ("plain-steps.cavetto");
  GtkWidget *window = show (document);
  CavScene *scene;

  gtk_widget_activate_action (window, "win.show-page", "s", "frame");
  assert_whole (window, "frame");
  assert_beside (ui_test_find (window, CAV_TYPE_FRAME_PAGE));
  g_object_set (ui_test_find (window, CAV_TYPE_FRAME_PAGE), "view", "mitre", NULL);
  ui_test_wait_for (find_corner (window) != NULL);
  scene = find_corner (window);
  g_assert_cmpuint (cav_scene_get_text_count (scene), >, 0);
  for (guint i = 0; i < cav_scene_get_text_count (scene); i++)
    {
      const CavTextStyle *style;
      const char *text;

      cav_scene_get_text (scene, i, &text, &style);
      g_test_message ("%s", text);
      g_assert_null (strstr (text, "…"));
    }
  destroy (window);
}

/* (nullable) of those that are shown. */
static GtkWidget *
find_popover (GtkWidget *widget)
{
  GtkWidget *found = NULL;

  if (!gtk_widget_get_mapped (widget) || GTK_IS_POPOVER (widget))
    return gtk_widget_get_mapped (widget) ? widget : NULL;
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL && found == NULL;
       child = gtk_widget_get_next_sibling (child))
    found = find_popover (child);
  return found;
}

/* What there is to choose from, in the first list of a page. */
static void
assert_list_whole (GtkWidget *window)
{
  GtkWidget *page = ui_test_find (window, CAV_TYPE_LUMBER_PAGE);
  GtkWidget *row = ui_test_find (page, ADW_TYPE_COMBO_ROW);

  adw_action_row_activate (ADW_ACTION_ROW (row));
  ui_test_wait_for (find_popover (row) != NULL);
  assert_whole (window, "list");
  gtk_popover_popdown (GTK_POPOVER (find_popover (row)));
}

static void
test_lumber (void)
{
  g_autoptr (CavDocument) document = ui_test_open_example ("plain-steps.cavetto");
  GtkWidget *window = show (document);

  gtk_widget_activate_action (window, "win.show-page", "s", "lumber");
  ui_test_wait_for (gtk_widget_get_mapped (ui_test_find (window, CAV_TYPE_LUMBER_PAGE))
                    && cav_board_runner_get_layout (cav_document_get_board_runner (document))
                           != NULL);
  assert_whole (window, "lumber");
  assert_list_whole (window);
  destroy (window);
}

/* (nullable) The dialog that stands before a window. */
static GtkWidget *
find_dialog (void)
{
  g_autoptr (GList) windows = gtk_window_list_toplevels ();

  for (GList *link = windows; link != NULL; link = link->next)
    if (ADW_IS_MESSAGE_DIALOG (link->data) && gtk_widget_get_mapped (link->data))
      return link->data;
  return NULL;
}

/* Whether to keep what was changed. */
static void
test_question (void)
{
  g_autoptr (CavDocument) document = ui_test_open_example ("plain-steps.cavetto");
  GtkWidget *window = show (document);
  GtkWidget *dialog;

  cav_project_set_title (cav_document_get_project (document), "Changed");
  gtk_window_close (GTK_WINDOW (window));
  ui_test_wait_for (find_dialog () != NULL);
  dialog = find_dialog ();
  assert_whole (dialog, "question");
  adw_message_dialog_response (ADW_MESSAGE_DIALOG (dialog), "cancel");
  gtk_window_destroy (GTK_WINDOW (dialog));
  destroy (window);
}

static void
test_start (void)
{
  GtkWidget *window = GTK_WIDGET (cav_start_window_new (ui_test_get_application ()));

  gtk_window_present (GTK_WINDOW (window));
  assert_whole (window, "greeting");
  destroy (window);
}

static void
test_shop (void)
{
  g_autoptr (CavDocument) document = ui_test_open_example ("plain-steps.cavetto");
  GtkWidget *window = GTK_WIDGET (cav_shop_window_new (document, NULL));
  GtkWidget *pages;

  gtk_window_present (GTK_WINDOW (window));
  assert_whole (window, "tools");
  pages = ui_test_find (window, ADW_TYPE_VIEW_STACK);
  adw_view_stack_set_visible_child_name (ADW_VIEW_STACK (pages), "machines");
  assert_whole (window, "machines");
  destroy (window);
}

static void
test_sheets (void)
{
  g_autoptr (CavDocument) document = ui_test_open_example ("plain-steps.cavetto");
  GtkWidget *window = GTK_WIDGET (cav_sheets_window_new (document, NULL));

  gtk_window_present (GTK_WINDOW (window));
  assert_whole (window, "sheets");
  destroy (window);
}

int
main (int argc, char *argv[])
{
  ui_test_init (&argc, &argv);
  g_object_set (gtk_settings_get_default (), "gtk-xft-dpi", LARGE, "gtk-enable-animations", FALSE,
                NULL);
  g_test_add_func ("/ui/large-letters/are-asked-for", test_is_asked_for);
  g_test_add_func ("/ui/large-letters/molding", test_molding);
  g_test_add_func ("/ui/large-letters/frame", test_frame);
  g_test_add_func ("/ui/large-letters/lumber", test_lumber);
  g_test_add_func ("/ui/large-letters/question", test_question);
  g_test_add_func ("/ui/large-letters/start", test_start);
  g_test_add_func ("/ui/large-letters/shop", test_shop);
  g_test_add_func ("/ui/large-letters/sheets", test_sheets);
  return g_test_run ();
}
