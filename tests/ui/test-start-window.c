/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-start-window.h"

#include "app/cav-application.h"
#include "app/cav-figure-row.h"
#include "app/cav-settings.h"
#include "app/cav-starter-tile.h"
#include "app/cav-window.h"
#include "ui-test.h"

#define N_MOLDINGS 9

typedef struct
{
  GtkWindow *window;
} Fixture;

static void
set_up (Fixture *self, gconstpointer data)
{
  g_settings_set_string (cav_settings_get (), CAV_SETTING_UNIT, "mm");
  self->window = cav_start_window_new (ui_test_get_application ());
  g_object_add_weak_pointer (G_OBJECT (self->window), (gpointer *)&self->window);
  gtk_window_present (self->window);
  gtk_test_widget_wait_for_draw (GTK_WIDGET (self->window));
}

static CavWindow *
get_document_window (Fixture *self)
{
  for (GList *link = gtk_application_get_windows (ui_test_get_application ()); link != NULL;
       link = link->next)
    if (CAV_IS_WINDOW (link->data))
      return link->data;
  return NULL;
}

static void
tear_down (Fixture *self, gconstpointer data)
{
  CavWindow *window = get_document_window (self);

  if (window != NULL)
    gtk_window_destroy (GTK_WINDOW (window));
  if (self->window != NULL)
    gtk_window_destroy (self->window);
  ui_test_settle ();
  g_assert_null (self->window);
}

static GtkFlowBox *
get_moldings (Fixture *self)
{
  return GTK_FLOW_BOX (ui_test_find (GTK_WIDGET (self->window), GTK_TYPE_FLOW_BOX));
}

static CavStarterTile *
get_tile (Fixture *self, int index)
{
  return CAV_STARTER_TILE (gtk_flow_box_get_child_at_index (get_moldings (self), index));
}

/* The words on the tile, as they are read out. */
static const char *
get_cost (CavStarterTile *tile)
{
  const char *cost = NULL;
  GtkWidget *box = gtk_flow_box_child_get_child (GTK_FLOW_BOX_CHILD (tile));

  for (GtkWidget *child = gtk_widget_get_first_child (box); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    if (GTK_IS_LABEL (child))
      cost = gtk_label_get_label (GTK_LABEL (child));
  return cost;
}

static gboolean
all_planned (Fixture *self)
{
  for (int i = 0; i < N_MOLDINGS; i++)
    if (g_str_equal (get_cost (get_tile (self, i)), "…"))
      return FALSE;
  return TRUE;
}

/* The usual shop makes each of them, and says so. */
static void
test_moldings (Fixture *self, gconstpointer data)
{
  guint n_moldings;

  cav_starters_get_moldings (&n_moldings);
  g_assert_cmpuint (n_moldings, ==, N_MOLDINGS);
  g_assert_null (gtk_flow_box_get_child_at_index (get_moldings (self), N_MOLDINGS));
  ui_test_wait_for (all_planned (self));
  for (int i = 0; i < N_MOLDINGS; i++)
    {
      CavProject *project = cav_starter_tile_get_project (get_tile (self, i));
      g_autoptr (GPtrArray) findings = cav_project_create_findings (project, NULL);

      g_test_message ("%s: %s", cav_starter_tile_get_starter (get_tile (self, i))->name,
                      get_cost (get_tile (self, i)));
      g_assert_true (g_str_has_suffix (get_cost (get_tile (self, i)), " minutes"));
      for (guint j = 0; j < findings->len; j++)
        {
          const CavFinding *finding = g_ptr_array_index (findings, j);

          g_test_message ("  %s", finding->message);
          g_assert_cmpint (finding->severity, !=, CAV_FINDING_WRONG);
        }
      g_assert_true (cav_project_has_frame (project));
    }
}

static gboolean
has_window (Fixture *self)
{
  return self->window == NULL && get_document_window (self) != NULL;
}

/* A size that was typed is that of the frame which is begun. */
static void
test_choose (Fixture *self, gconstpointer data)
{
  CavFigureRow *width
      = CAV_FIGURE_ROW (ui_test_find (GTK_WIDGET (self->window), CAV_TYPE_FIGURE_ROW));
  CavDocument *document;
  const CavFrameSettings *settings;

  gtk_editable_set_text (cav_figure_row_get_editable (width), "200 + 5");
  g_signal_emit_by_name (get_moldings (self), "child-activated", get_tile (self, 5));
  ui_test_wait_for (has_window (self));
  document = cav_window_get_document (get_document_window (self));
  settings = cav_project_get_frame_settings (cav_document_get_project (document));
  g_assert_cmpfloat_with_epsilon (settings->picture_width, 205.0, 1e-9);
  g_assert_cmpfloat_with_epsilon (settings->picture_height, 297.0, 1e-9);
  g_assert_cmpstr (cav_project_get_title (cav_document_get_project (document)), ==, "Cove");
  /* Nothing was done yet that could be lost. */
  g_assert_false (cav_document_is_unsaved (document));
  g_assert_true (cav_document_is_fresh (document));
}

/* (nullable) The row of a list that says so. */
static GtkWidget *
find_row (GtkWidget *widget, const char *title)
{
  if (ADW_IS_ACTION_ROW (widget)
      && g_str_equal (adw_preferences_row_get_title (ADW_PREFERENCES_ROW (widget)), title))
    return widget;
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    {
      GtkWidget *found = find_row (child, title);

      if (found != NULL)
        return found;
    }
  return NULL;
}

/* So it is where every cut is drawn by hand. */
static void
test_blank (Fixture *self, gconstpointer data)
{
  CavFigureRow *width
      = CAV_FIGURE_ROW (ui_test_find (GTK_WIDGET (self->window), CAV_TYPE_FIGURE_ROW));
  CavDocument *document;
  CavProject *project;

  gtk_editable_set_text (cav_figure_row_get_editable (width), "130");
  adw_action_row_activate (ADW_ACTION_ROW (find_row (GTK_WIDGET (self->window), "An empty blank")));
  ui_test_wait_for (has_window (self));
  document = cav_window_get_document (get_document_window (self));
  project = cav_document_get_project (document);
  g_assert_cmpuint (cav_project_get_cut_count (project), ==, 0);
  g_assert_true (cav_project_has_frame (project));
  g_assert_cmpfloat_with_epsilon (cav_project_get_frame_settings (project)->picture_width, 130.0,
                                  1e-9);
  g_assert_true (cav_document_is_fresh (document));
}

static CavFigureRow *
get_figure (GtkWidget *widget, const char *title)
{
  if (CAV_IS_FIGURE_ROW (widget)
      && g_str_equal (adw_preferences_row_get_title (ADW_PREFERENCES_ROW (widget)), title))
    return CAV_FIGURE_ROW (widget);
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    {
      CavFigureRow *found = get_figure (child, title);

      if (found != NULL)
        return found;
    }
  return NULL;
}

/* The mat's border is asked for with the mat; the lower one stays wider by as much. */
static void
test_border (Fixture *self, gconstpointer data)
{
  CavFigureRow *border = get_figure (GTK_WIDGET (self->window), "Border");
  AdwComboRow *mats = NULL;
  const CavFrameSettings *settings;

  g_assert_nonnull (border);
  for (GtkWidget *widget = GTK_WIDGET (border); mats == NULL;
       widget = gtk_widget_get_prev_sibling (widget))
    mats = ADW_IS_COMBO_ROW (widget) ? ADW_COMBO_ROW (widget) : NULL;
  adw_combo_row_set_selected (mats, 0);
  g_assert_false (gtk_widget_get_visible (GTK_WIDGET (border)));
  adw_combo_row_set_selected (mats, 1);
  g_assert_true (gtk_widget_get_visible (GTK_WIDGET (border)));
  gtk_editable_set_text (cav_figure_row_get_editable (border), "50");
  g_signal_emit_by_name (get_moldings (self), "child-activated", get_tile (self, 1));
  ui_test_wait_for (has_window (self));
  settings = cav_project_get_frame_settings (
      cav_document_get_project (cav_window_get_document (get_document_window (self))));
  g_assert_cmpint (settings->n_mats, ==, 1);
  g_assert_cmpfloat_with_epsilon (settings->border_left, 50.0, 1e-9);
  g_assert_cmpfloat_with_epsilon (settings->border_right, 50.0, 1e-9);
  g_assert_cmpfloat_with_epsilon (settings->border_top, 50.0, 1e-9);
  g_assert_cmpfloat_with_epsilon (settings->border_bottom, 58.0, 1e-9);
}

/* Who measures in inches begins with round ones. */
static void
test_inches (Fixture *self, gconstpointer data)
{
  GtkWindow *window;

  g_settings_set_string (cav_settings_get (), CAV_SETTING_PAPER, "letter");
  g_settings_set_string (cav_settings_get (), CAV_SETTING_UNIT, "inch-16");
  window = cav_start_window_new (ui_test_get_application ());
  g_assert_cmpfloat_with_epsilon (
      cav_figure_row_get_value (get_figure (GTK_WIDGET (window), "Width")), 8 * 25.4, 1e-9);
  g_assert_cmpfloat_with_epsilon (
      cav_figure_row_get_value (get_figure (GTK_WIDGET (window), "Border")), 2.5 * 25.4, 1e-9);
  gtk_window_destroy (window);
  g_settings_reset (cav_settings_get (), CAV_SETTING_PAPER);
  g_settings_set_string (cav_settings_get (), CAV_SETTING_UNIT, "mm");
}

/* A size that was typed and not entered when the window closes. */
static void
test_close_while_typing (Fixture *self, gconstpointer data)
{
  GtkEditable *height
      = cav_figure_row_get_editable (get_figure (GTK_WIDGET (self->window), "Height"));

  gtk_widget_grab_focus (GTK_WIDGET (gtk_editable_get_delegate (height)));
  gtk_editable_set_text (height, "320");
  gtk_window_destroy (self->window);
  ui_test_wait_for (self->window == NULL);
}

static void
test_examples (Fixture *self, gconstpointer data)
{
  guint n_examples;
  const CavStarter *examples = cav_starters_get_examples (&n_examples);

  g_assert_cmpuint (n_examples, ==, 3);
  for (guint i = 0; i < n_examples; i++)
    {
      g_autoptr (CavProject) project = cav_starter_create_example (&examples[i]);

      g_assert_cmpuint (cav_project_get_cut_count (project), >, 0);
      g_assert_null (cav_project_get_undo_name (project));
    }
}

/* The first start greets; the next one does not. */
static void
test_greeting (Fixture *self, gconstpointer data)
{
  GApplication *application = G_APPLICATION (ui_test_get_application ());

  gtk_window_destroy (self->window);
  ui_test_settle ();
  g_settings_set_boolean (cav_settings_get (), CAV_SETTING_GREETED, FALSE);
  g_application_activate (application);
  g_assert_true (
      CAV_IS_START_WINDOW (gtk_application_get_windows (ui_test_get_application ())->data));
  g_assert_true (g_settings_get_boolean (cav_settings_get (), CAV_SETTING_GREETED));
  gtk_window_destroy (gtk_application_get_windows (ui_test_get_application ())->data);
  ui_test_settle ();
  g_application_activate (application);
  g_assert_nonnull (get_document_window (self));
}

int
main (int argc, char *argv[])
{
  ui_test_init (&argc, &argv);
  g_test_add ("/start-window/moldings", Fixture, NULL, set_up, test_moldings, tear_down);
  g_test_add ("/start-window/choose", Fixture, NULL, set_up, test_choose, tear_down);
  g_test_add ("/start-window/blank", Fixture, NULL, set_up, test_blank, tear_down);
  g_test_add ("/start-window/border", Fixture, NULL, set_up, test_border, tear_down);
  g_test_add ("/start-window/close-while-typing", Fixture, NULL, set_up, test_close_while_typing,
              tear_down);
  g_test_add ("/start-window/inches", Fixture, NULL, set_up, test_inches, tear_down);
  g_test_add ("/start-window/examples", Fixture, NULL, set_up, test_examples, tear_down);
  g_test_add ("/start-window/greeting", Fixture, NULL, set_up, test_greeting, tear_down);
  return g_test_run ();
}
