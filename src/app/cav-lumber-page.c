/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-lumber-page.h"

#include <glib/gi18n.h>

#include "app/cav-board-canvas.h"
#include "app/cav-board-row.h"
#include "app/cav-board-runner.h"
#include "app/cav-length-entry.h"
#include "app/cav-number-entry.h"
#include "drawing/cav-board-map.h"

struct _CavLumberPage
{
  GtkWidget parent_instance;

  /* Owned */
  CavDocument *document;
  CavBoardRunner *runner;
  GSignalGroup *project_signals;

  /* Template widgets */
  GtkWidget *content;
  CavBoardCanvas *canvas;
  GtkProgressBar *progress;
  GtkLabel *totals;
  GtkBox *findings;
  AdwPreferencesGroup *boards;
  AdwComboRow *order;
  CavFigureRow *frames;
  CavFigureRow *kerf;
  CavFigureRow *jointing;
  CavFigureRow *planing;
  CavFigureRow *test;
  CavFigureRow *spare;

  /* State */
  GPtrArray *rows; /* CavBoardRow, borrowed from boards */
  gboolean is_refreshing;
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

/* Editing: a copy of what the project has, changed and set as one step. */

static CavLumber *
begin_edit (CavLumberPage *self)
{
  return cav_lumber_copy (cav_project_get_lumber (get_project (self)));
}

static void
end_edit (CavLumberPage *self, CavLumber *lumber, const char *name)
{
  CavProject *project = get_project (self);

  cav_project_begin (project, name);
  cav_project_set_lumber (project, lumber);
  cav_project_end (project);
  cav_lumber_free (lumber);
}

static void
figure_applied_cb (CavLumberPage *self)
{
  CavLumber *lumber;

  if (self->is_refreshing || get_project (self) == NULL)
    return;
  lumber = begin_edit (self);
  lumber->frames = (int)cav_figure_row_get_value (self->frames);
  lumber->kerf = cav_figure_row_get_value (self->kerf);
  lumber->jointing = cav_figure_row_get_value (self->jointing);
  lumber->planing = cav_figure_row_get_value (self->planing);
  lumber->test = cav_figure_row_get_value (self->test);
  lumber->spare = cav_figure_row_get_value (self->spare);
  end_edit (self, lumber, C_ ("step", "change of lumber"));
}

static void
order_selected_cb (CavLumberPage *self)
{
  CavLumber *lumber;

  if (self->is_refreshing || get_project (self) == NULL)
    return;
  lumber = begin_edit (self);
  lumber->order = (CavGrainOrder)adw_combo_row_get_selected (self->order);
  /* Wishes were for runs or rails of the order before. */
  g_array_set_size (lumber->pins, 0);
  end_edit (self, lumber, C_ ("step", "order of the grain"));
}

static guint
find_row (CavLumberPage *self, CavBoardRow *row)
{
  guint index = 0;

  g_ptr_array_find (self->rows, row, &index);
  return index;
}

static void
board_edited_cb (CavBoardRow *row, CavLumberPage *self)
{
  CavLumber *lumber = begin_edit (self);

  cav_board_row_apply (row, g_ptr_array_index (lumber->boards, find_row (self, row)));
  end_edit (self, lumber, C_ ("step", "change of a board"));
}

/* Wishes speak of boards by their rows. */
static void
forget_row (CavLumber *lumber, int row)
{
  for (guint i = lumber->pins->len; i-- > 0;)
    {
      CavBoardPin *pin = &g_array_index (lumber->pins, CavBoardPin, i);

      if (pin->board == row)
        g_array_remove_index (lumber->pins, i);
      else if (pin->board > row)
        pin->board--;
    }
}

static void
board_removed_cb (CavBoardRow *row, CavLumberPage *self)
{
  CavLumber *lumber = begin_edit (self);
  const guint index = find_row (self, row);

  g_ptr_array_remove_index (lumber->boards, index);
  forget_row (lumber, (int)index);
  end_edit (self, lumber, C_ ("step", "removal of a board"));
}

static void
add_board (GtkWidget *widget, const char *name, GVariant *parameter)
{
  CavLumberPage *self = CAV_LUMBER_PAGE (widget);
  CavLumber *lumber;
  CavBoard *board;

  if (get_project (self) == NULL)
    return;
  lumber = begin_edit (self);
  /* Another one like the last: boards come in lots. */
  board = lumber->boards->len > 0
              ? cav_board_copy (g_ptr_array_index (lumber->boards, lumber->boards->len - 1))
              : cav_board_new ();
  g_ptr_array_add (lumber->boards, board);
  end_edit (self, lumber, C_ ("step", "another board"));
}

static void
remove_pins (CavLumber *lumber, int frame, int rail)
{
  for (guint i = lumber->pins->len; i-- > 0;)
    {
      const CavBoardPin *pin = &g_array_index (lumber->pins, CavBoardPin, i);

      /* A run is one: whatever rail of it was pinned. */
      if (pin->frame == frame
          && (pin->rail == rail || lumber->order == CAV_GRAIN_RUNNING
              || lumber->order == CAV_GRAIN_BOOK))
        g_array_remove_index (lumber->pins, i);
    }
}

static void
wished_cb (CavBoardCanvas *canvas, CavBoardPin *pin, CavLumberPage *self)
{
  CavLumber *lumber = begin_edit (self);

  remove_pins (lumber, pin->frame, pin->rail);
  g_array_append_val (lumber->pins, *pin);
  end_edit (self, lumber, C_ ("step", "move of a rail"));
}

static void
freed_cb (CavBoardCanvas *canvas, int frame, int rail, CavLumberPage *self)
{
  CavLumber *lumber = begin_edit (self);

  remove_pins (lumber, frame, rail);
  end_edit (self, lumber, C_ ("step", "setting free of a rail"));
}

static void
free_all (GtkWidget *widget, const char *name, GVariant *parameter)
{
  CavLumberPage *self = CAV_LUMBER_PAGE (widget);
  CavLumber *lumber;

  if (get_project (self) == NULL)
    return;
  lumber = begin_edit (self);
  g_array_set_size (lumber->pins, 0);
  end_edit (self, lumber, C_ ("step", "setting free of all rails"));
}

/* Showing */

static void
refresh_rows (CavLumberPage *self, const CavLumber *lumber)
{
  while (self->rows->len > lumber->boards->len)
    {
      adw_preferences_group_remove (self->boards,
                                    g_ptr_array_index (self->rows, self->rows->len - 1));
      g_ptr_array_remove_index (self->rows, self->rows->len - 1);
    }
  while (self->rows->len < lumber->boards->len)
    {
      CavBoardRow *row = cav_board_row_new ();

      g_signal_connect_object (row, "edited", G_CALLBACK (board_edited_cb), self, 0);
      g_signal_connect_object (row, "removed", G_CALLBACK (board_removed_cb), self, 0);
      adw_preferences_group_add (self->boards, GTK_WIDGET (row));
      g_ptr_array_add (self->rows, row);
    }
  for (guint i = 0; i < self->rows->len; i++)
    cav_board_row_show (g_ptr_array_index (self->rows, i), g_ptr_array_index (lumber->boards, i),
                        i + 1);
}

static void
refresh (CavLumberPage *self)
{
  const CavLumber *lumber;

  if (get_project (self) == NULL)
    return;
  lumber = cav_project_get_lumber (get_project (self));
  self->is_refreshing = TRUE;
  adw_combo_row_set_selected (self->order, lumber->order);
  cav_figure_row_set_value (self->frames, lumber->frames);
  cav_figure_row_set_value (self->kerf, lumber->kerf);
  cav_figure_row_set_value (self->jointing, lumber->jointing);
  cav_figure_row_set_value (self->planing, lumber->planing);
  cav_figure_row_set_value (self->test, lumber->test);
  cav_figure_row_set_value (self->spare, lumber->spare);
  refresh_rows (self, lumber);
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "lumber.free-all", lumber->pins->len > 0);
  self->is_refreshing = FALSE;
}

static void
project_changed_cb (CavLumberPage *self, guint parts)
{
  if ((parts & CAV_PART_BOARDS) != 0)
    refresh (self);
}

static const char *
get_icon (CavFindingSeverity severity)
{
  switch (severity)
    {
    case CAV_FINDING_WRONG:
      return "dialog-error-symbolic";
    case CAV_FINDING_CAUTION:
      return "dialog-warning-symbolic";
    case CAV_FINDING_NOTE:
      return "dialog-information-symbolic";
    }
  return "dialog-information-symbolic";
}

static void
add_finding (CavLumberPage *self, const CavFinding *finding)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8);
  GtkWidget *icon = gtk_image_new_from_icon_name (get_icon (finding->severity));
  GtkWidget *label = gtk_label_new (finding->message);

  gtk_widget_set_valign (icon, GTK_ALIGN_START);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_xalign (GTK_LABEL (label), 0.0f);
  gtk_label_set_max_width_chars (GTK_LABEL (label), 34);
  gtk_box_append (GTK_BOX (box), icon);
  gtk_box_append (GTK_BOX (box), label);
  gtk_box_append (self->findings, box);
}

static void
laid_cb (CavLumberPage *self)
{
  CavBoardLayout *layout = cav_board_runner_get_layout (self->runner);
  g_autofree char *totals = cav_layout_dup_totals (layout);
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self->findings))) != NULL)
    gtk_box_remove (self->findings, child);
  for (guint i = 0; i < layout->findings->len; i++)
    add_finding (self, g_ptr_array_index (layout->findings, i));
  gtk_label_set_label (self->totals, layout->boards->len > 0 ? totals : "");
  cav_board_canvas_set_layout (self->canvas, layout);
}

/* A bar that comes and goes with every key would only flicker: it stands still, empty. */
static void
progress_cb (CavLumberPage *self)
{
  const double progress = cav_board_runner_get_progress (self->runner);

  gtk_progress_bar_set_fraction (self->progress, progress < 1.0 ? progress : 0.0);
}

static void
set_document (CavLumberPage *self, CavDocument *document)
{
  if (!g_set_object (&self->document, document))
    return;
  g_clear_object (&self->runner);
  g_signal_group_set_target (self->project_signals, get_project (self));
  if (document == NULL)
    return;
  self->runner = cav_board_runner_new (document);
  g_signal_connect_object (self->runner, "laid", G_CALLBACK (laid_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (self->runner, "notify::progress", G_CALLBACK (progress_cb), self,
                           G_CONNECT_SWAPPED);
  refresh (self);
  if (gtk_widget_get_mapped (GTK_WIDGET (self)))
    cav_board_runner_start (self->runner);
}

/* Nobody waits for a layout that is not looked at. */
static void
cav_lumber_page_map (GtkWidget *widget)
{
  CavLumberPage *self = CAV_LUMBER_PAGE (widget);

  GTK_WIDGET_CLASS (cav_lumber_page_parent_class)->map (widget);
  if (self->runner != NULL)
    cav_board_runner_start (self->runner);
}

static void
cav_lumber_page_unmap (GtkWidget *widget)
{
  CavLumberPage *self = CAV_LUMBER_PAGE (widget);

  if (self->runner != NULL)
    cav_board_runner_stop (self->runner);
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

  g_clear_object (&self->project_signals);
  g_clear_object (&self->runner);
  g_clear_object (&self->document);
  g_clear_pointer (&self->rows, g_ptr_array_unref);
  g_clear_pointer (&self->content, gtk_widget_unparent);
  G_OBJECT_CLASS (cav_lumber_page_parent_class)->dispose (object);
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

  properties[PROP_DOCUMENT] = g_param_spec_object ("document", NULL, NULL, CAV_TYPE_DOCUMENT,
                                                   G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPERTIES, properties);

  g_type_ensure (CAV_TYPE_BOARD_CANVAS);
  g_type_ensure (CAV_TYPE_LENGTH_ENTRY);
  g_type_ensure (CAV_TYPE_NUMBER_ENTRY);
  gtk_widget_class_install_action (widget_class, "lumber.add-board", NULL, add_board);
  gtk_widget_class_install_action (widget_class, "lumber.free-all", NULL, free_all);
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/org/cavetto/Cavetto/cav-lumber-page.ui");
  gtk_widget_class_bind_template_child (widget_class, CavLumberPage, content);
  gtk_widget_class_bind_template_child (widget_class, CavLumberPage, canvas);
  gtk_widget_class_bind_template_child (widget_class, CavLumberPage, progress);
  gtk_widget_class_bind_template_child (widget_class, CavLumberPage, totals);
  gtk_widget_class_bind_template_child (widget_class, CavLumberPage, findings);
  gtk_widget_class_bind_template_child (widget_class, CavLumberPage, boards);
  gtk_widget_class_bind_template_child (widget_class, CavLumberPage, order);
  gtk_widget_class_bind_template_child (widget_class, CavLumberPage, frames);
  gtk_widget_class_bind_template_child (widget_class, CavLumberPage, kerf);
  gtk_widget_class_bind_template_child (widget_class, CavLumberPage, jointing);
  gtk_widget_class_bind_template_child (widget_class, CavLumberPage, planing);
  gtk_widget_class_bind_template_child (widget_class, CavLumberPage, test);
  gtk_widget_class_bind_template_child (widget_class, CavLumberPage, spare);
  gtk_widget_class_bind_template_callback (widget_class, figure_applied_cb);
  gtk_widget_class_bind_template_callback (widget_class, order_selected_cb);
  gtk_widget_class_bind_template_callback (widget_class, wished_cb);
  gtk_widget_class_bind_template_callback (widget_class, freed_cb);
}

static void
cav_lumber_page_init (CavLumberPage *self)
{
  self->is_refreshing = TRUE;
  self->rows = g_ptr_array_new ();
  gtk_widget_init_template (GTK_WIDGET (self));
  self->project_signals = g_signal_group_new (CAV_TYPE_PROJECT);
  g_signal_group_connect_swapped (self->project_signals, "changed", G_CALLBACK (project_changed_cb),
                                  self);
  self->is_refreshing = FALSE;
}
