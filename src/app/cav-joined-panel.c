/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-joined-panel.h"

#include <glib/gi18n.h>

#include "app/cav-file-choice.h"
#include "app/cav-join.h"
#include "app/cav-length-text.h"
#include "app/cav-lumber-edit.h"
#include "app/cav-number-entry.h"
#include "app/cav-settings.h"

/* One of them, with its rows. */
typedef struct
{
  CavJoinedPanel *panel;
  AdwExpanderRow *row;
  CavFigureRow *frames;
  AdwComboRow *order;
  GtkWidget *again;
} Joined;

struct _CavJoinedPanel
{
  CavDocumentPanel parent_instance;

  /* Owned */
  GCancellable *cancellable;
  GPtrArray *joined; /* Joined */

  /* Children */
  AdwPreferencesGroup *group;
  GtkWidget *add;

  /* State */
  gboolean is_refreshing;
};

G_DEFINE_FINAL_TYPE (CavJoinedPanel, cav_joined_panel, CAV_TYPE_DOCUMENT_PANEL)

/* (nullable) */
static CavProject *
get_project (CavJoinedPanel *self)
{
  return cav_document_panel_get_project (CAV_DOCUMENT_PANEL (self));
}

static void
tell (CavJoinedPanel *self, const GError *error)
{
  GtkRoot *root = gtk_widget_get_root (GTK_WIDGET (self));

  if (GTK_IS_WINDOW (root))
    cav_tell_failure (GTK_WINDOW (root), _ ("The project could not be joined"), error->message);
}

/* Reading; index: which one is read again, -1 for a new one. */
typedef struct
{
  CavJoinedPanel *panel; /* owned */
  int index;
  char *file; /* as the project names it, where it is read again */
} Wanted;

static void
wanted_free (Wanted *wanted)
{
  g_object_unref (wanted->panel);
  g_free (wanted->file);
  g_free (wanted);
}

/* The list may have changed while the file was read. */
static CavBoardJob *
find_wanted (const Wanted *wanted, CavLumber *lumber)
{
  CavBoardJob *job;

  if (wanted->index < 0 || wanted->index >= (int)lumber->joined->len)
    return NULL;
  job = g_ptr_array_index (lumber->joined, wanted->index);
  return g_strcmp0 (job->file, wanted->file) == 0 ? job : NULL;
}

static void
take (const Wanted *wanted, CavBoardJob *read)
{
  CavProject *project = get_project (wanted->panel);
  CavLumber *lumber = cav_lumber_edit_begin (project);
  CavBoardJob *job = find_wanted (wanted, lumber);

  if (job != NULL)
    cav_board_job_refresh (job, read);
  if (wanted->index < 0)
    g_ptr_array_add (lumber->joined, cav_board_job_copy (read));
  cav_lumber_edit_end (project, lumber,
                       wanted->index < 0 ? C_ ("step", "joining of a project")
                                         : C_ ("step", "refresh of a joined project"));
}

static void
read_cb (GObject *source, GAsyncResult *result, gpointer user_data)
{
  Wanted *wanted = user_data;
  g_autoptr (GError) error = NULL;
  g_autoptr (CavBoardJob) read = cav_join_read_finish (result, &error);

  /* Without a document the panel has been closed. */
  if (get_project (wanted->panel) != NULL)
    {
      gtk_widget_set_sensitive (wanted->panel->add, TRUE);
      if (read != NULL)
        take (wanted, read);
      else
        tell (wanted->panel, error);
    }
  wanted_free (wanted);
}

static void
start_reading (CavJoinedPanel *self, GFile *file, int index, const char *name)
{
  Wanted *wanted = g_new0 (Wanted, 1);

  wanted->panel = g_object_ref (self);
  wanted->index = index;
  wanted->file = g_strdup (name);
  gtk_widget_set_sensitive (self->add, FALSE);
  cav_join_read_async (
      file, cav_document_get_file (cav_document_panel_get_document (CAV_DOCUMENT_PANEL (self))),
      self->cancellable, read_cb, wanted);
}

static void
chosen_cb (GFile *file, gpointer user_data)
{
  cav_joined_panel_join (CAV_JOINED_PANEL (user_data), file);
}

static void
add_clicked_cb (CavJoinedPanel *self)
{
  GtkRoot *root = gtk_widget_get_root (GTK_WIDGET (self));

  if (GTK_IS_WINDOW (root))
    cav_choose_file_to_open (GTK_WINDOW (root), _ ("Join a project"), CAV_FILE_PROJECT, chosen_cb,
                             self);
}

/* Editing */

static void
edited_cb (Joined *joined)
{
  CavJoinedPanel *self = joined->panel;
  CavLumber *lumber;
  CavBoardJob *job;
  CavGrainOrder order;
  guint index;

  if (self->is_refreshing || !g_ptr_array_find (self->joined, joined, &index))
    return;
  lumber = cav_lumber_edit_begin (get_project (self));
  job = g_ptr_array_index (lumber->joined, index);
  order = (CavGrainOrder)adw_combo_row_get_selected (joined->order);
  job->frames = (int)cav_figure_row_get_value (joined->frames);
  /* Wishes were for runs or rails of the order before. */
  if (order != job->order)
    g_array_set_size (job->pins, 0);
  job->order = order;
  cav_lumber_edit_end (get_project (self), lumber, C_ ("step", "change of a joined project"));
}

static void
removed_cb (Joined *joined)
{
  CavJoinedPanel *self = joined->panel;
  CavLumber *lumber;
  guint index;

  if (!g_ptr_array_find (self->joined, joined, &index))
    return;
  lumber = cav_lumber_edit_begin (get_project (self));
  g_ptr_array_remove_index (lumber->joined, index);
  gtk_widget_grab_focus (self->add);
  cav_lumber_edit_end (get_project (self), lumber, C_ ("step", "removal of a joined project"));
}

static void
again_cb (Joined *joined)
{
  guint index;

  if (g_ptr_array_find (joined->panel->joined, joined, &index))
    cav_joined_panel_refresh (joined->panel, index);
}

/* Building */

static void
add_button (Joined *joined, const char *icon, const char *label, GCallback clicked, GtkWidget **out)
{
  GtkWidget *button = gtk_button_new_from_icon_name (icon);

  gtk_widget_set_valign (button, GTK_ALIGN_CENTER);
  gtk_widget_add_css_class (button, "flat");
  gtk_widget_set_tooltip_text (button, label);
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL, label,
                                  -1);
  g_signal_connect_swapped (button, "clicked", clicked, joined);
  adw_expander_row_add_action (joined->row, button);
  if (out != NULL)
    *out = button;
}

static void
add_order (Joined *joined)
{
  const char *const names[] = { _ ("In no order"), _ ("Opposite rails side by side"),
                                _ ("Around three corners"), _ ("All corners, resawn"), NULL };
  g_autoptr (GtkStringList) list = gtk_string_list_new (names);

  joined->order = ADW_COMBO_ROW (adw_combo_row_new ());
  adw_preferences_row_set_title (ADW_PREFERENCES_ROW (joined->order), _ ("Grain"));
  adw_combo_row_set_model (joined->order, G_LIST_MODEL (list));
  g_signal_connect_swapped (joined->order, "notify::selected", G_CALLBACK (edited_cb), joined);
  adw_expander_row_add_row (joined->row, GTK_WIDGET (joined->order));
}

static Joined *
joined_new (CavJoinedPanel *self)
{
  Joined *joined = g_new0 (Joined, 1);

  joined->panel = self;
  joined->row = ADW_EXPANDER_ROW (adw_expander_row_new ());
  adw_preferences_row_set_use_markup (ADW_PREFERENCES_ROW (joined->row), FALSE);
  joined->frames = CAV_FIGURE_ROW (cav_number_entry_new (_ ("Equal frames"), 0, "", 1.0));
  cav_figure_row_set_range (joined->frames, 1.0, CAV_JOB_MAX_FRAMES);
  g_signal_connect_swapped (joined->frames, "applied", G_CALLBACK (edited_cb), joined);
  adw_expander_row_add_row (joined->row, GTK_WIDGET (joined->frames));
  add_order (joined);
  add_button (joined, "view-refresh-symbolic", _ ("Read its file again"), G_CALLBACK (again_cb),
              &joined->again);
  add_button (joined, "user-trash-symbolic", _ ("Take off the boards"), G_CALLBACK (removed_cb),
              NULL);
  adw_preferences_group_add (self->group, GTK_WIDGET (joined->row));
  return joined;
}

/* The row goes with its signals, so that none of them reaches what is freed. */
static void
joined_free (gpointer data)
{
  Joined *joined = data;

  g_signal_handlers_disconnect_by_data (joined->frames, joined);
  g_signal_handlers_disconnect_by_data (joined->order, joined);
  adw_preferences_group_remove (joined->panel->group, GTK_WIDGET (joined->row));
  g_free (joined);
}

static void
show_job (Joined *joined, const CavBoardJob *job)
{
  g_autofree char *width = cav_length_text_new_bare (job->width);
  g_autofree char *thickness = cav_length_text_new (job->thickness);
  g_autofree char *subtitle
      /* Translators: width and thickness of a blank, then a number of rails */
      = g_strdup_printf (ngettext ("blank %s × %s, %d rail", "blank %s × %s, %d rails",
                                   (gulong)(job->n_rails * job->frames)),
                         width, thickness, job->n_rails * job->frames);

  adw_preferences_row_set_title (ADW_PREFERENCES_ROW (joined->row), job->name);
  adw_expander_row_set_subtitle (joined->row, subtitle);
  gtk_widget_set_tooltip_text (GTK_WIDGET (joined->row), job->file);
  gtk_widget_set_sensitive (joined->again, job->file[0] != '\0');
  cav_figure_row_set_value (joined->frames, job->frames);
  adw_combo_row_set_selected (joined->order, job->order);
}

static void
cav_joined_panel_show_project (CavDocumentPanel *panel, CavProject *project)
{
  CavJoinedPanel *self = CAV_JOINED_PANEL (panel);
  const GPtrArray *jobs = cav_project_get_lumber (project)->joined;

  self->is_refreshing = TRUE;
  if (self->joined->len > jobs->len)
    g_ptr_array_set_size (self->joined, (int)jobs->len);
  while (self->joined->len < jobs->len)
    g_ptr_array_add (self->joined, joined_new (self));
  for (guint i = 0; i < jobs->len; i++)
    show_job (g_ptr_array_index (self->joined, i), g_ptr_array_index (jobs, i));
  self->is_refreshing = FALSE;
}

static void
cav_joined_panel_dispose (GObject *object)
{
  CavJoinedPanel *self = CAV_JOINED_PANEL (object);

  g_cancellable_cancel (self->cancellable);
  g_clear_pointer (&self->joined, g_ptr_array_unref);
  g_clear_object (&self->cancellable);
  G_OBJECT_CLASS (cav_joined_panel_parent_class)->dispose (object);
}

static void
cav_joined_panel_class_init (CavJoinedPanelClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  CavDocumentPanelClass *panel_class = CAV_DOCUMENT_PANEL_CLASS (klass);

  panel_class->parts = CAV_PART_BOARDS;
  panel_class->show_project = cav_joined_panel_show_project;
  object_class->dispose = cav_joined_panel_dispose;
}

static void
cav_joined_panel_init (CavJoinedPanel *self)
{
  const char *label = _ ("Join another project");

  self->joined = g_ptr_array_new_with_free_func (joined_free);
  self->cancellable = g_cancellable_new ();
  self->add = gtk_button_new_from_icon_name ("list-add-symbolic");
  gtk_widget_set_valign (self->add, GTK_ALIGN_CENTER);
  gtk_widget_add_css_class (self->add, "flat");
  gtk_widget_set_tooltip_text (self->add, label);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->add), GTK_ACCESSIBLE_PROPERTY_LABEL, label,
                                  -1);
  g_signal_connect_swapped (self->add, "clicked", G_CALLBACK (add_clicked_cb), self);
  self->group = ADW_PREFERENCES_GROUP (adw_preferences_group_new ());
  adw_preferences_group_set_title (self->group, _ ("Also from these boards"));
  adw_preferences_group_set_header_suffix (self->group, self->add);
  gtk_box_append (GTK_BOX (self), GTK_WIDGET (self->group));
}

void
cav_joined_panel_join (CavJoinedPanel *self, GFile *file)
{
  g_return_if_fail (CAV_IS_JOINED_PANEL (self) && G_IS_FILE (file));

  if (get_project (self) != NULL)
    start_reading (self, file, -1, NULL);
}

void
cav_joined_panel_refresh (CavJoinedPanel *self, guint index)
{
  const CavBoardJob *job;
  g_autoptr (GFile) file = NULL;

  g_return_if_fail (CAV_IS_JOINED_PANEL (self) && index < self->joined->len);

  job = g_ptr_array_index (cav_project_get_lumber (get_project (self))->joined, index);
  if (job->file[0] == '\0')
    return;
  file = cav_join_get_file (
      job, cav_document_get_file (cav_document_panel_get_document (CAV_DOCUMENT_PANEL (self))));
  start_reading (self, file, (int)index, job->file);
}

gboolean
cav_joined_panel_show_row (CavJoinedPanel *self, int row)
{
  g_return_val_if_fail (CAV_IS_JOINED_PANEL (self), FALSE);

  if (row < 0 || row >= (int)self->joined->len)
    return FALSE;
  AdwExpanderRow *expander = ((Joined *)g_ptr_array_index (self->joined, row))->row;
  adw_expander_row_set_expanded (expander, TRUE);
  return gtk_widget_child_focus (GTK_WIDGET (expander), GTK_DIR_TAB_FORWARD);
}
