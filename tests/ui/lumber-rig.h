/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "app/cav-board-canvas.h"
#include "app/cav-board-row.h"
#include "app/cav-lumber-page.h"
#include "layout-checker.h"
#include "ui-test.h"

/* The page of the boards in a window, and what finds its way about it by what it reads. */

typedef struct
{
  CavDocument *document;
  GtkWindow *window;
  GtkWidget *page;
  GtkWidget *canvas;
} Fixture;

/* Three equal boards, two frames whose rails are laid in no order. */
static inline void
set_lumber (CavProject *project)
{
  g_autoptr (CavLumber) lumber = cav_lumber_new ();
  g_autoptr (CavFrameSettings) settings = cav_frame_settings_new ();
  CavBoard *board = cav_board_new ();

  board->count = 3;
  g_ptr_array_add (lumber->boards, board);
  lumber->frames = 2;
  lumber->order = CAV_GRAIN_FREE;
  cav_project_set_lumber (project, lumber);
  cav_project_set_frame_settings (project, settings);
}

static inline const CavLumber *
get_lumber (Fixture *fixture)
{
  return cav_project_get_lumber (cav_document_get_project (fixture->document));
}

static inline CavBoardLayout *
get_layout (Fixture *fixture)
{
  return cav_board_runner_get_layout (cav_document_get_board_runner (fixture->document));
}

static inline void
set_up (Fixture *fixture, gconstpointer data)
{
  fixture->document = ui_test_open_example ("plain-steps.cavetto");
  set_lumber (cav_document_get_project (fixture->document));
  fixture->page = g_object_new (CAV_TYPE_LUMBER_PAGE, "document", fixture->document, NULL);
  fixture->window = ui_test_show (fixture->page, 1100, 700);
  fixture->canvas = ui_test_find (fixture->page, CAV_TYPE_BOARD_CANVAS);
  g_assert_nonnull (fixture->canvas);
  /* Its height is that of the boards as soon as they are laid out. */
  ui_test_wait_for (
      gtk_widget_get_height (fixture->canvas) > 75
      && cav_board_runner_get_layout (cav_document_get_board_runner (fixture->document)) != NULL);
}

static inline void
tear_down (Fixture *fixture, gconstpointer data)
{
  CavBoardRunner *runner = cav_document_get_board_runner (fixture->document);

  /* Whatever the page was used for: what it shows in the end is a layout. */
  if (cav_board_runner_get_progress (runner) >= 1.0 && cav_board_runner_get_layout (runner) != NULL)
    assert_layout (get_lumber (fixture), cav_board_runner_get_layout (runner));
  g_object_ref (fixture->page);
  gtk_window_destroy (fixture->window);
  ui_test_settle ();
  ui_test_finalize (fixture->page);
  g_object_unref (fixture->document);
}

static inline guint
count_rows (GtkWidget *root)
{
  guint n = CAV_IS_BOARD_ROW (root) ? 1 : 0;

  for (GtkWidget *child = gtk_widget_get_first_child (root); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    n += count_rows (child);
  return n;
}

/* (transfer none) The first widget below root of which is_wanted says so. */
static inline GtkWidget *
find_where (GtkWidget *root, gboolean (*is_wanted) (GtkWidget *, const char *), const char *text)
{
  GtkWidget *found = is_wanted (root, text) ? root : NULL;

  for (GtkWidget *child = gtk_widget_get_first_child (root); found == NULL && child != NULL;
       child = gtk_widget_get_next_sibling (child))
    found = find_where (child, is_wanted, text);
  return found;
}

static inline gboolean
is_row_called (GtkWidget *widget, const char *title)
{
  return ADW_IS_PREFERENCES_ROW (widget) && gtk_widget_get_visible (widget)
         && g_strcmp0 (adw_preferences_row_get_title (ADW_PREFERENCES_ROW (widget)), title) == 0;
}

static inline gboolean
is_button_called (GtkWidget *widget, const char *label)
{
  return GTK_IS_BUTTON (widget)
         && (g_strcmp0 (gtk_button_get_label (GTK_BUTTON (widget)), label) == 0
             || g_strcmp0 (gtk_widget_get_tooltip_text (widget), label) == 0);
}

static inline GtkWidget *
find_row (GtkWidget *root, const char *title)
{
  GtkWidget *row = find_where (root, is_row_called, title);

  g_test_message ("row “%s”", title);
  g_assert_nonnull (row);
  return row;
}

static inline void
click (GtkWidget *root, const char *label)
{
  GtkWidget *button = find_where (root, is_button_called, label);

  g_test_message ("button “%s”", label);
  g_assert_nonnull (button);
  g_signal_emit_by_name (button, "clicked");
}
