/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-lumber-page.h"

#include <glib/gi18n.h>

#include "app/cav-board-canvas.h"
#include "app/cav-boards-panel.h"
#include "app/cav-joined-panel.h"
#include "app/cav-lumber-edit.h"
#include "app/cav-lumber-results.h"
#include "app/cav-sawing-panel.h"

/* A layout that is there sooner shows no bar: it would only flicker. ms. */
#define PATIENCE 500

struct _CavLumberPage
{
  GtkWidget parent_instance;

  /* Owned */
  CavDocument *document;
  GSignalGroup *project_signals;
  GSignalGroup *runner_signals;

  /* Template widgets */
  GtkWidget *content;
  CavBoardCanvas *canvas;
  GtkRevealer *wait;
  GtkProgressBar *progress;
  GtkWidget *calm;
  GtkWidget *first_board;
  CavLumberResults *results;
  CavSawingPanel *sawing;
  CavBoardsPanel *boards;
  CavBoardsPanel *stock;
  CavJoinedPanel *joined;

  /* State */
  gboolean is_watching;
  guint patience; /* source, while a layout is young */
};

G_DEFINE_FINAL_TYPE (CavLumberPage, cav_lumber_page, GTK_TYPE_WIDGET)

enum
{
  PROP_DOCUMENT = 1,
  N_PROPERTIES,
};

static GParamSpec *properties[N_PROPERTIES];

/* (nullable) */
static CavProject *
get_project (CavLumberPage *self)
{
  return self->document != NULL ? cav_document_get_project (self->document) : NULL;
}

/* (nullable) */
static CavBoardRunner *
get_runner (CavLumberPage *self)
{
  return self->document != NULL ? cav_document_get_board_runner (self->document) : NULL;
}

/* Commands */

static void
add_board (GtkWidget *widget, const char *name, GVariant *parameter)
{
  cav_boards_panel_add (CAV_LUMBER_PAGE (widget)->boards);
}

static void
add_stock (GtkWidget *widget, const char *name, GVariant *parameter)
{
  cav_boards_panel_add (CAV_LUMBER_PAGE (widget)->stock);
}

static void
free_all (GtkWidget *widget, const char *name, GVariant *parameter)
{
  CavProject *project = get_project (CAV_LUMBER_PAGE (widget));
  CavLumber *lumber;

  if (project == NULL)
    return;
  lumber = cav_lumber_edit_begin (project);
  cav_lumber_edit_remove_all_pins (lumber);
  cav_lumber_edit_end (project, lumber, C_ ("step", "setting free of all rails"));
}

static void
toggle_column (GtkWidget *widget, const char *name, GVariant *parameter)
{
  AdwFlap *flap = ADW_FLAP (CAV_LUMBER_PAGE (widget)->content);

  adw_flap_set_reveal_flap (flap, !adw_flap_get_reveal_flap (flap));
}

static void
zoom (GtkWidget *widget, const char *name, GVariant *parameter)
{
  CavBoardCanvas *canvas = CAV_LUMBER_PAGE (widget)->canvas;
  const double factor = g_variant_get_double (parameter);

  cav_board_canvas_set_zoom (canvas,
                             factor > 0.0 ? factor * cav_board_canvas_get_zoom (canvas) : 1.0);
}

/* Where the thing stands that a finding speaks of. A molding without a size is a matter of its
 * own page, and rails without a length of the frame's. */
static void
show_finding (GtkWidget *widget, const char *name, GVariant *parameter)
{
  CavLumberPage *self = CAV_LUMBER_PAGE (widget);
  const char *code;
  int item;

  g_variant_get (parameter, "(&si)", &code, &item);
  adw_flap_set_reveal_flap (ADW_FLAP (self->content), TRUE);
  if (g_str_equal (code, "lumber-job") && cav_joined_panel_show_row (self->joined, item - 1))
    return;
  if (g_str_equal (code, "lumber-job") || g_str_equal (code, "lumber-narrower"))
    gtk_widget_activate_action (widget, "win.show-page", "s",
                                g_str_equal (code, "lumber-job") ? "frame" : "molding");
  else if (g_str_equal (code, "lumber-pin"))
    gtk_widget_grab_focus (GTK_WIDGET (self->canvas));
  else if (g_str_has_prefix (code, "lumber-buy"))
    cav_boards_panel_show_row (self->stock, item);
  else if (!cav_sawing_panel_show_finding (self->sawing, code))
    cav_boards_panel_show_row (self->boards, item);
}

/* Rails that are put somewhere */

static void
wished_cb (CavBoardCanvas *canvas, int job, CavBoardPin *pin, CavLumberPage *self)
{
  CavLumber *lumber = cav_lumber_edit_begin (get_project (self));

  cav_lumber_edit_add_pin (lumber, job, pin);
  cav_lumber_edit_end (get_project (self), lumber, C_ ("step", "move of a rail"));
}

static void
freed_cb (CavBoardCanvas *canvas, int job, int frame, int rail, CavLumberPage *self)
{
  CavLumber *lumber = cav_lumber_edit_begin (get_project (self));

  cav_lumber_edit_remove_pins (lumber, job, frame, rail);
  cav_lumber_edit_end (get_project (self), lumber, C_ ("step", "setting free of a rail"));
}

/* Showing */

static void
refresh (CavLumberPage *self)
{
  const CavLumber *lumber;

  if (get_project (self) == NULL)
    return;
  lumber = cav_project_get_lumber (get_project (self));
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "lumber.free-all",
                                 cav_lumber_edit_has_pins (lumber));
  gtk_widget_set_visible (self->first_board, lumber->boards->len == 0 && lumber->stock->len == 0);
}

static void
project_changed_cb (CavLumberPage *self, guint parts)
{
  if ((parts & CAV_PART_BOARDS) != 0)
    refresh (self);
}

static void
show_layout (CavLumberPage *self)
{
  CavBoardLayout *layout
      = get_runner (self) != NULL ? cav_board_runner_get_layout (get_runner (self)) : NULL;

  cav_lumber_results_show (self->results, layout);
  cav_board_canvas_set_layout (self->canvas, layout);
  gtk_widget_set_visible (self->calm,
                          layout != NULL && cav_board_layout_get_board_count (layout) == 0);
}

static gboolean
waited_cb (gpointer user_data)
{
  CavLumberPage *self = user_data;

  self->patience = 0;
  gtk_revealer_set_reveal_child (self->wait, TRUE);
  return G_SOURCE_REMOVE;
}

static void
progress_cb (CavLumberPage *self)
{
  const double progress = cav_board_runner_get_progress (get_runner (self));

  gtk_progress_bar_set_fraction (self->progress, progress);
  if (progress >= 1.0)
    {
      g_clear_handle_id (&self->patience, g_source_remove);
      gtk_revealer_set_reveal_child (self->wait, FALSE);
    }
  else if (self->patience == 0 && !gtk_revealer_get_reveal_child (self->wait))
    self->patience = g_timeout_add (PATIENCE, waited_cb, self);
}

static void
stop (GtkWidget *widget, const char *name, GVariant *parameter)
{
  CavLumberPage *self = CAV_LUMBER_PAGE (widget);

  if (get_runner (self) == NULL)
    return;
  cav_board_runner_cancel (get_runner (self));
  /* Where nothing was laid before, the page is not left without a word. */
  if (cav_board_runner_get_layout (get_runner (self)) == NULL)
    gtk_widget_set_visible (self->calm, TRUE);
}

/* Nobody waits for a layout that is not looked at. */
static void
watch (CavLumberPage *self, gboolean is_watching)
{
  if (get_runner (self) == NULL || self->is_watching == is_watching)
    return;
  self->is_watching = is_watching;
  if (is_watching)
    cav_board_runner_watch (get_runner (self));
  else
    cav_board_runner_unwatch (get_runner (self));
}

static void
set_document (CavLumberPage *self, CavDocument *document)
{
  if (self->document == document)
    return;
  watch (self, FALSE);
  g_set_object (&self->document, document);
  g_signal_group_set_target (self->project_signals, get_project (self));
  g_signal_group_set_target (self->runner_signals, get_runner (self));
  refresh (self);
  show_layout (self);
  if (gtk_widget_get_mapped (GTK_WIDGET (self)))
    watch (self, TRUE);
  g_object_notify_by_pspec (G_OBJECT (self), properties[PROP_DOCUMENT]);
}

static void
cav_lumber_page_map (GtkWidget *widget)
{
  GTK_WIDGET_CLASS (cav_lumber_page_parent_class)->map (widget);
  watch (CAV_LUMBER_PAGE (widget), TRUE);
}

static void
cav_lumber_page_unmap (GtkWidget *widget)
{
  watch (CAV_LUMBER_PAGE (widget), FALSE);
  GTK_WIDGET_CLASS (cav_lumber_page_parent_class)->unmap (widget);
}

static void
cav_lumber_page_get_property (GObject *object, guint id, GValue *value, GParamSpec *spec)
{
  if (id == PROP_DOCUMENT)
    g_value_set_object (value, CAV_LUMBER_PAGE (object)->document);
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, spec);
}

static void
cav_lumber_page_set_property (GObject *object, guint id, const GValue *value, GParamSpec *spec)
{
  if (id == PROP_DOCUMENT)
    set_document (CAV_LUMBER_PAGE (object), g_value_get_object (value));
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, spec);
}

static void
cav_lumber_page_dispose (GObject *object)
{
  CavLumberPage *self = CAV_LUMBER_PAGE (object);

  watch (self, FALSE);
  g_clear_handle_id (&self->patience, g_source_remove);
  g_clear_object (&self->runner_signals);
  g_clear_object (&self->project_signals);
  g_clear_pointer (&self->content, gtk_widget_unparent);
  g_clear_object (&self->document);
  G_OBJECT_CLASS (cav_lumber_page_parent_class)->dispose (object);
}

static void
install_actions (GtkWidgetClass *widget_class)
{
  gtk_widget_class_install_action (widget_class, "lumber.add-board", NULL, add_board);
  gtk_widget_class_install_action (widget_class, "lumber.add-stock", NULL, add_stock);
  gtk_widget_class_install_action (widget_class, "lumber.free-all", NULL, free_all);
  gtk_widget_class_install_action (widget_class, "lumber.show-finding", "(si)", show_finding);
  gtk_widget_class_install_action (widget_class, "lumber.stop", NULL, stop);
  gtk_widget_class_install_action (widget_class, "lumber.toggle-column", NULL, toggle_column);
  gtk_widget_class_install_action (widget_class, "lumber.zoom", "d", zoom);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_F9, 0, "lumber.toggle-column", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_plus, GDK_CONTROL_MASK, "lumber.zoom",
                                       "d", 1.25);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_equal, GDK_CONTROL_MASK, "lumber.zoom",
                                       "d", 1.25);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_minus, GDK_CONTROL_MASK, "lumber.zoom",
                                       "d", 0.8);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_0, GDK_CONTROL_MASK, "lumber.zoom",
                                       "d", 0.0);
}

static void
cav_lumber_page_class_init (CavLumberPageClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->get_property = cav_lumber_page_get_property;
  object_class->set_property = cav_lumber_page_set_property;
  object_class->dispose = cav_lumber_page_dispose;
  widget_class->map = cav_lumber_page_map;
  widget_class->unmap = cav_lumber_page_unmap;

  properties[PROP_DOCUMENT]
      = g_param_spec_object ("document", NULL, NULL, CAV_TYPE_DOCUMENT,
                             G_PARAM_READWRITE | G_PARAM_EXPLICIT_NOTIFY | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPERTIES, properties);

  g_type_ensure (CAV_TYPE_BOARD_CANVAS);
  g_type_ensure (CAV_TYPE_BOARDS_PANEL);
  g_type_ensure (CAV_TYPE_JOINED_PANEL);
  g_type_ensure (CAV_TYPE_LUMBER_RESULTS);
  g_type_ensure (CAV_TYPE_SAWING_PANEL);
  install_actions (widget_class);
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/org/cavetto/Cavetto/cav-lumber-page.ui");
  gtk_widget_class_bind_template_child (widget_class, CavLumberPage, content);
  gtk_widget_class_bind_template_child (widget_class, CavLumberPage, canvas);
  gtk_widget_class_bind_template_child (widget_class, CavLumberPage, wait);
  gtk_widget_class_bind_template_child (widget_class, CavLumberPage, progress);
  gtk_widget_class_bind_template_child (widget_class, CavLumberPage, calm);
  gtk_widget_class_bind_template_child (widget_class, CavLumberPage, first_board);
  gtk_widget_class_bind_template_child (widget_class, CavLumberPage, results);
  gtk_widget_class_bind_template_child (widget_class, CavLumberPage, sawing);
  gtk_widget_class_bind_template_child (widget_class, CavLumberPage, boards);
  gtk_widget_class_bind_template_child (widget_class, CavLumberPage, stock);
  gtk_widget_class_bind_template_child (widget_class, CavLumberPage, joined);
  gtk_widget_class_bind_template_callback (widget_class, wished_cb);
  gtk_widget_class_bind_template_callback (widget_class, freed_cb);
}

static void
cav_lumber_page_init (CavLumberPage *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  self->project_signals = g_signal_group_new (CAV_TYPE_PROJECT);
  g_signal_group_connect_object (self->project_signals, "changed", G_CALLBACK (project_changed_cb),
                                 self, G_CONNECT_SWAPPED);
  self->runner_signals = g_signal_group_new (CAV_TYPE_BOARD_RUNNER);
  g_signal_group_connect_object (self->runner_signals, "laid", G_CALLBACK (show_layout), self,
                                 G_CONNECT_SWAPPED);
  g_signal_group_connect_object (self->runner_signals, "notify::progress", G_CALLBACK (progress_cb),
                                 self, G_CONNECT_SWAPPED);
}
