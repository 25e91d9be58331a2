/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <math.h>

#include "app/cav-section-canvas.h"
#include "app/cav-settings.h"
#include "project/cav-handle.h"
#include "ui-test.h"

/* A canvas in a window, with hands that draw on it: places are millimetres of the blank. */

#define WIDTH 1000
#define HEIGHT 640

typedef struct
{
  CavDocument *document;
  CavProject *project;
  CavSelection *selection;
  CavSectionCanvas *canvas;
  GtkWindow *window;
  GtkEventController *draw;
} Rig;

static inline GtkEventController *
find_controller (GtkWidget *widget, const char *name)
{
  g_autoptr (GListModel) controllers = gtk_widget_observe_controllers (widget);

  for (guint i = 0; i < g_list_model_get_n_items (controllers); i++)
    {
      g_autoptr (GtkEventController) controller = g_list_model_get_item (controllers, i);

      if (g_strcmp0 (gtk_event_controller_get_name (controller), name) == 0)
        return controller;
    }
  g_error ("There is no controller “%s”.", name);
}

/* A blank of 50 by 26 without cuts, or an example. */
static inline void
set_up (Rig *rig, gconstpointer example)
{
  if (example != NULL)
    rig->document = ui_test_open_example (example);
  else
    {
      rig->document = cav_document_new ();
      cav_project_set_blank (cav_document_get_project (rig->document), (CavBlank){ 50, 26 });
    }
  rig->project = cav_document_get_project (rig->document);
  rig->selection = cav_document_get_selection (rig->document);
  rig->canvas = CAV_SECTION_CANVAS (cav_section_canvas_new (rig->document));
  g_object_add_weak_pointer (G_OBJECT (rig->canvas), (gpointer *)&rig->canvas);
  rig->window = ui_test_show (GTK_WIDGET (rig->canvas), WIDTH, HEIGHT);
  rig->draw = find_controller (GTK_WIDGET (rig->canvas), "draw");
  g_settings_set_string (cav_settings_get (), CAV_SETTING_UNIT, "mm");
  g_settings_set_boolean (cav_settings_get (), CAV_SETTING_SNAP, FALSE);
}

static inline void
tear_down (Rig *rig, gconstpointer example)
{
  gtk_window_destroy (rig->window);
  ui_test_settle ();
  g_assert_null (rig->canvas);
  ui_test_finalize (rig->document);
}

static inline CavPoint
to_pixel (Rig *rig, double x, double y)
{
  CavView view = cav_section_canvas_get_view (rig->canvas);

  return cav_view_to_pixel (&view, CAV_POINT (x, y));
}

/* Millimetres of the blank. */
static inline void
press (Rig *rig, double x, double y)
{
  CavPoint pixel = to_pixel (rig, x, y);

  g_signal_emit_by_name (rig->draw, "drag-begin", pixel.x, pixel.y);
}

static inline void
move (Rig *rig, double dx, double dy)
{
  CavView view = cav_section_canvas_get_view (rig->canvas);

  g_signal_emit_by_name (rig->draw, "drag-update", dx * view.scale, -dy * view.scale);
}

static inline void
release (Rig *rig)
{
  g_signal_emit_by_name (rig->draw, "drag-end", 0.0, 0.0);
}

static inline void
drag (Rig *rig, double x0, double y0, double x1, double y1)
{
  press (rig, x0, y0);
  for (int i = 1; i <= 5; i++)
    {
      move (rig, (x1 - x0) * i / 5, (y1 - y0) * i / 5);
      ui_test_settle ();
    }
  release (rig);
}

static inline void
hover (Rig *rig, double x, double y)
{
  CavPoint pixel = to_pixel (rig, x, y);

  g_signal_emit_by_name (
      ui_test_get_controller (GTK_WIDGET (rig->canvas), GTK_TYPE_EVENT_CONTROLLER_MOTION), "motion",
      pixel.x, pixel.y);
}

static inline gboolean
type_key (Rig *rig, guint keyval, GdkModifierType state)
{
  gboolean handled = FALSE;

  g_signal_emit_by_name (
      ui_test_get_controller (GTK_WIDGET (rig->canvas), GTK_TYPE_EVENT_CONTROLLER_KEY),
      "key-pressed", keyval, 0, state, &handled);
  return handled;
}

static inline void
take_picture (Rig *rig, const char *name)
{
  g_autofree char *path = g_test_build_filename (G_TEST_BUILT, name, NULL);

  ui_test_settle ();
  ui_test_take_picture (GTK_WIDGET (rig->canvas), path);
}

static inline const CavCut *
get_cut (Rig *rig, guint index)
{
  g_assert_cmpuint (index, <, cav_project_get_cut_count (rig->project));
  return cav_project_get_cut (rig->project, index);
}

static inline gboolean
activate (Rig *rig, const char *action)
{
  return gtk_widget_activate_action (GTK_WIDGET (rig->canvas), action, NULL);
}

static inline void
add_rabbet (Rig *rig, CavCorner corner, double width, double depth)
{
  g_autoptr (CavCut) cut = cav_cut_new_at_corner (CAV_CUT_RABBET, corner);

  cut->numbers[CAV_CUT_WIDTH] = width;
  cut->numbers[CAV_CUT_DEPTH] = depth;
  cav_project_add_cut (rig->project, cut);
}

/* (transfer none) The handle that changes a number. */
static inline CavHandle
find_handle (Rig *rig, CavCutNumber number)
{
  CavBlank blank = cav_project_get_blank (rig->project);
  g_autoptr (GArray) handles = cav_handle_list_new (get_cut (rig, 0), &blank);

  for (guint i = 0; i < handles->len; i++)
    {
      CavHandle handle = g_array_index (handles, CavHandle, i);

      if (handle.kind == CAV_HANDLE_NUMBER && handle.n_numbers > 0 && handle.numbers[0] == number)
        return handle;
    }
  g_assert_not_reached ();
}

#define ADD(name, data, test)                                                                      \
  g_test_add ("/ui/section-canvas/" name, Rig, data, set_up, test, tear_down)
