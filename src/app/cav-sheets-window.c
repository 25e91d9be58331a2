/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-sheets-window.h"

#include "app/cav-file-choice.h"
#include "app/cav-print.h"
#include "app/cav-settings.h"
#include "app/cav-letters.h"
#include "app/cav-sheet-choice.h"
#include "app/cav-sheet-desk.h"
#include "app/cav-toast.h"
#include "app/cav-write-file.h"
#include "drawing/cav-scene.h"

#include <glib/gi18n.h>

#define ZOOM_STEP 1.25
/* What changes while somebody types is drawn when they pause, ms. */
#define PAUSE 200

struct _CavSheetsWindow
{
  AdwWindow parent_instance;

  /* Owned */
  CavDocument *document;
  GPtrArray *pages; /* CavScene */
  GCancellable *waiting;

  /* Template widgets */
  GtkListBox *list;
  AdwComboRow *layout;
  AdwComboRow *paper;
  AdwComboRow *unit;
  GtkEditable *note;
  AdwToastOverlay *toasts;
  GtkStack *views;
  AdwStatusPage *nothing;
  CavSheetDesk *desk;
  GtkLabel *page_label;
  GtkWidget *busy;

  /* State */
  guint pause;
  int drawn_sheet;
  gboolean filling; /* the rows by the settings, and not the other way round */
};

G_DEFINE_FINAL_TYPE (CavSheetsWindow, cav_sheets_window, ADW_TYPE_WINDOW)

static int
get_sheet (CavSheetsWindow *self)
{
  g_autofree char *id = g_settings_get_string (cav_settings_get (), CAV_SETTING_SHEET);

  return cav_sheet_choice_find (id);
}

static CavProject *
get_project (CavSheetsWindow *self)
{
  return cav_document_get_project (self->document);
}

/* (transfer full) What stands at the head: the note, else the day. */
static char *
dup_note (void)
{
  g_autofree char *note = g_settings_get_string (cav_settings_get (), CAV_SETTING_SHEET_NOTE);
  g_autofree char *clean = cav_lettering_clean (note);
  g_autoptr (GDateTime) now = NULL;

  if (*clean != '\0')
    return g_steal_pointer (&clean);
  now = g_date_time_new_now_local ();
  return g_date_time_format (now, "%Y-%m-%d");
}

guint
cav_sheets_window_get_page (CavSheetsWindow *self)
{
  g_return_val_if_fail (CAV_IS_SHEETS_WINDOW (self), 0);

  return cav_sheet_desk_get_page (self->desk);
}

static void
update_page_label (CavSheetsWindow *self)
{
  guint page = cav_sheets_window_get_page (self);
  g_autofree char *text = NULL;

  if (self->pages->len > 0)
    text = g_strdup_printf (_ ("Page %u of %u"), page + 1, self->pages->len);
  gtk_label_set_text (self->page_label, text != NULL ? text : "");
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "sheets.previous-page", page > 0);
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "sheets.next-page",
                                 page + 1 < self->pages->len);
}

/* Making pages */

static void
set_pages (CavSheetsWindow *self, GPtrArray *pages, const char *trouble)
{
  gboolean any = pages->len > 0;

  g_clear_pointer (&self->pages, g_ptr_array_unref);
  self->pages = pages;
  cav_sheet_desk_set_pages (self->desk, pages);
  if (!any)
    adw_status_page_set_description (
        self->nothing, trouble != NULL ? trouble : _ ("The section is not sound as it stands."));
  gtk_stack_set_visible_child_name (self->views, any ? "pages" : "nothing");
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "sheets.print", any);
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "sheets.save", any);
  update_page_label (self);
}

static void
draw_pages (CavSheetsWindow *self, const CavPlan *plan, const char *trouble)
{
  g_autofree char *note = dup_note ();
  CavSheetOptions options = cav_sheet_choice_get_options ();
  int sheet = get_sheet (self);

  options.date = note;
  options.boards
      = cav_board_runner_get_layout_for (cav_document_get_board_runner (self->document), plan);
  if (plan == NULL && cav_sheet_choice_get (sheet)->needs_plan)
    set_pages (self, g_ptr_array_new (), trouble);
  else
    set_pages (self, cav_sheet_choice_create_pages (sheet, get_project (self), plan, &options),
               NULL);
}

/* A plan that is being made does not hold the window: a window must not outlive the one that it
 * stands before. */
static GWeakRef *
weak_window_new (CavSheetsWindow *self)
{
  GWeakRef *window = g_new0 (GWeakRef, 1);

  g_weak_ref_init (window, self);
  return window;
}

/* (transfer full) (nullable) Frees the reference. */
static CavSheetsWindow *
weak_window_take (GWeakRef *window)
{
  CavSheetsWindow *self = g_weak_ref_get (window);

  g_weak_ref_clear (window);
  g_free (window);
  return self;
}

static void
thorough_cb (GObject *source, GAsyncResult *result, gpointer user_data)
{
  g_autoptr (CavSheetsWindow) self = weak_window_take (user_data);
  g_autoptr (GError) error = NULL;
  g_autoptr (CavPlan) plan
      = cav_plan_runner_get_thorough_finish (CAV_PLAN_RUNNER (source), result, &error);

  /* The window is gone, or something newer is on its way. */
  if (self == NULL || g_error_matches (error, G_IO_ERROR, G_IO_ERROR_CANCELLED)
      || self->document == NULL)
    return;
  gtk_widget_set_visible (self->busy, FALSE);
  if (plan != NULL && plan->usable)
    draw_pages (self, plan, NULL);
  else
    draw_pages (self, NULL,
                error != NULL ? error->message
                              : _ ("No sequence of passes could be proved. The list of findings "
                                   "says what is in the way."));
  if (self->drawn_sheet != get_sheet (self))
    cav_sheet_desk_show_page (self->desk, 0);
  self->drawn_sheet = get_sheet (self);
}

static void
refresh (CavSheetsWindow *self)
{
  g_cancellable_cancel (self->waiting);
  g_set_object (&self->waiting, NULL);
  self->waiting = g_cancellable_new ();
  gtk_widget_set_visible (self->busy, TRUE);
  cav_plan_runner_get_thorough_async (cav_document_get_runner (self->document), self->waiting,
                                      thorough_cb, weak_window_new (self));
}

static gboolean
pause_over_cb (gpointer user_data)
{
  CavSheetsWindow *self = user_data;

  self->pause = 0;
  refresh (self);
  return G_SOURCE_REMOVE;
}

static void
queue_refresh (CavSheetsWindow *self)
{
  if (self->pause > 0)
    g_source_remove (self->pause);
  self->pause = g_timeout_add (PAUSE, pause_over_cb, self);
}

/* What is chosen */

static void
fill_rows (CavSheetsWindow *self)
{
  GSettings *settings = cav_settings_get ();
  int sheet = get_sheet (self);
  gboolean has_passes = sheet == CAV_SHEET_PASSES || sheet == CAV_ALL_SHEETS;
  g_autofree char *note = g_settings_get_string (settings, CAV_SETTING_SHEET_NOTE);

  self->filling = TRUE;
  gtk_list_box_select_row (self->list, gtk_list_box_get_row_at_index (self->list, sheet));
  adw_combo_row_set_selected (self->layout,
                              (guint)g_settings_get_enum (settings, CAV_SETTING_SHEET_LAYOUT));
  adw_combo_row_set_selected (self->paper,
                              (guint)g_settings_get_enum (settings, CAV_SETTING_PAPER));
  adw_combo_row_set_selected (self->unit, (guint)g_settings_get_enum (settings, CAV_SETTING_UNIT));
  if (!g_str_equal (gtk_editable_get_text (self->note), note))
    gtk_editable_set_text (self->note, note);
  gtk_widget_set_sensitive (GTK_WIDGET (self->layout), has_passes);
  self->filling = FALSE;
}

static void
setting_changed_cb (CavSheetsWindow *self)
{
  fill_rows (self);
  queue_refresh (self);
}

static void
row_selected_cb (CavSheetsWindow *self, GtkListBoxRow *row)
{
  if (self->filling || row == NULL)
    return;
  g_settings_set_string (cav_settings_get (), CAV_SETTING_SHEET,
                         cav_sheet_choice_get (gtk_list_box_row_get_index (row))->id);
}

/* One setting alone: a row that is not filled yet must not be taken for a choice. */
static void
choice_changed_cb (CavSheetsWindow *self, GParamSpec *spec, AdwComboRow *row)
{
  const char *key = row == self->layout  ? CAV_SETTING_SHEET_LAYOUT
                    : row == self->paper ? CAV_SETTING_PAPER
                                         : CAV_SETTING_UNIT;

  if (!self->filling)
    g_settings_set_enum (cav_settings_get (), key, (int)adw_combo_row_get_selected (row));
}

static void
note_changed_cb (CavSheetsWindow *self)
{
  if (!self->filling)
    g_settings_set_string (cav_settings_get (), CAV_SETTING_SHEET_NOTE,
                           gtk_editable_get_text (self->note));
}

static void
fill_list (CavSheetsWindow *self)
{
  for (int i = 0; i < CAV_N_SHEET_CHOICES; i++)
    {
      GtkWidget *row = adw_action_row_new ();

      adw_preferences_row_set_title (ADW_PREFERENCES_ROW (row),
                                     _ (cav_sheet_choice_get (i)->title));
      gtk_list_box_append (self->list, row);
    }
}

/* Deeds */

static void
say (GtkWindow *window, const char *text)
{
  adw_toast_overlay_add_toast (CAV_SHEETS_WINDOW (window)->toasts, cav_toast_new (text));
}

static char *
dup_file_name (CavSheetsWindow *self)
{
  g_autofree char *name = cav_document_dup_name (self->document);

  return cav_sheet_choice_create_file_name (get_sheet (self), name);
}

static void
print_cb (GtkWidget *widget, const char *action, GVariant *parameter)
{
  CavSheetsWindow *self = CAV_SHEETS_WINDOW (widget);
  g_autofree char *name = dup_file_name (self);

  if (self->pages->len > 0)
    cav_print_pages (GTK_WINDOW (self), g_ptr_array_ref (self->pages), name,
                     cav_settings_get_paper (), say);
}

static void
file_chosen_cb (GFile *file, gpointer user_data)
{
  CavSheetsWindow *self = CAV_SHEETS_WINDOW (user_data);
  const CavSheetChoice *choice = cav_sheet_choice_get (get_sheet (self));
  g_autofree char *note = dup_note ();
  g_autoptr (GError) error = NULL;
  GBytes *bytes = cav_scene_create_pdf (self->pages, cav_project_get_title (get_project (self)),
                                        _ (choice->title), note, &error);

  cav_write_file (GTK_WINDOW (self), file, bytes, error, say);
}

static void
save_cb (GtkWidget *widget, const char *action, GVariant *parameter)
{
  CavSheetsWindow *self = CAV_SHEETS_WINDOW (widget);
  const CavSheetChoice *choice = cav_sheet_choice_get (get_sheet (self));
  g_autofree char *file_name = dup_file_name (self);

  cav_choose_file_to_save (GTK_WINDOW (self), _ (choice->question), CAV_FILE_PDF, file_name,
                           file_chosen_cb, self);
}

static CavSheetDesk *
get_desk (GtkWidget *widget)
{
  return CAV_SHEETS_WINDOW (widget)->desk;
}

static void
previous_page_cb (GtkWidget *widget, const char *action, GVariant *parameter)
{
  guint page = cav_sheet_desk_get_page (get_desk (widget));

  cav_sheet_desk_show_page (get_desk (widget), page > 0 ? page - 1 : 0);
}

static void
next_page_cb (GtkWidget *widget, const char *action, GVariant *parameter)
{
  cav_sheet_desk_show_page (get_desk (widget), cav_sheet_desk_get_page (get_desk (widget)) + 1);
}

static void
first_page_cb (GtkWidget *widget, const char *action, GVariant *parameter)
{
  cav_sheet_desk_show_page (get_desk (widget), 0);
}

static void
last_page_cb (GtkWidget *widget, const char *action, GVariant *parameter)
{
  cav_sheet_desk_show_page (get_desk (widget), G_MAXUINT);
}

static void
zoom_in_cb (GtkWidget *widget, const char *action, GVariant *parameter)
{
  cav_sheet_desk_zoom (get_desk (widget), ZOOM_STEP);
}

static void
zoom_out_cb (GtkWidget *widget, const char *action, GVariant *parameter)
{
  cav_sheet_desk_zoom (get_desk (widget), 1 / ZOOM_STEP);
}

static void
zoom_fit_cb (GtkWidget *widget, const char *action, GVariant *parameter)
{
  cav_sheet_desk_zoom (get_desk (widget), 0);
}

/* Class */

static void
cav_sheets_window_dispose (GObject *object)
{
  CavSheetsWindow *self = CAV_SHEETS_WINDOW (object);

  g_clear_handle_id (&self->pause, g_source_remove);
  g_cancellable_cancel (self->waiting);
  g_clear_object (&self->waiting);
  g_clear_object (&self->document);
  G_OBJECT_CLASS (cav_sheets_window_parent_class)->dispose (object);
}

static void
cav_sheets_window_finalize (GObject *object)
{
  CavSheetsWindow *self = CAV_SHEETS_WINDOW (object);

  g_ptr_array_unref (self->pages);
  G_OBJECT_CLASS (cav_sheets_window_parent_class)->finalize (object);
}

static const struct
{
  const char *action;
  GtkWidgetActionActivateFunc activate;
  guint key;
  GdkModifierType modifiers;
} ACTIONS[] = {
  { "sheets.first-page", first_page_cb, GDK_KEY_Home, GDK_CONTROL_MASK },
  { "sheets.last-page", last_page_cb, GDK_KEY_End, GDK_CONTROL_MASK },
  { "sheets.next-page", next_page_cb, GDK_KEY_Page_Down, 0 },
  { "sheets.previous-page", previous_page_cb, GDK_KEY_Page_Up, 0 },
  { "sheets.print", print_cb, GDK_KEY_p, GDK_CONTROL_MASK },
  { "sheets.save", save_cb, GDK_KEY_s, GDK_CONTROL_MASK },
  { "sheets.zoom-fit", zoom_fit_cb, GDK_KEY_0, GDK_CONTROL_MASK },
  { "sheets.zoom-in", zoom_in_cb, GDK_KEY_plus, GDK_CONTROL_MASK },
  { "sheets.zoom-out", zoom_out_cb, GDK_KEY_minus, GDK_CONTROL_MASK },
};

static void
cav_sheets_window_class_init (CavSheetsWindowClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = cav_sheets_window_dispose;
  G_OBJECT_CLASS (klass)->finalize = cav_sheets_window_finalize;

  g_type_ensure (CAV_TYPE_SHEET_DESK);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/org/cavetto/Cavetto/cav-sheets-window.ui");
  gtk_widget_class_bind_template_child (widget_class, CavSheetsWindow, list);
  gtk_widget_class_bind_template_child (widget_class, CavSheetsWindow, layout);
  gtk_widget_class_bind_template_child (widget_class, CavSheetsWindow, paper);
  gtk_widget_class_bind_template_child (widget_class, CavSheetsWindow, unit);
  gtk_widget_class_bind_template_child (widget_class, CavSheetsWindow, note);
  gtk_widget_class_bind_template_child (widget_class, CavSheetsWindow, toasts);
  gtk_widget_class_bind_template_child (widget_class, CavSheetsWindow, views);
  gtk_widget_class_bind_template_child (widget_class, CavSheetsWindow, nothing);
  gtk_widget_class_bind_template_child (widget_class, CavSheetsWindow, desk);
  gtk_widget_class_bind_template_child (widget_class, CavSheetsWindow, page_label);
  gtk_widget_class_bind_template_child (widget_class, CavSheetsWindow, busy);
  gtk_widget_class_bind_template_callback (widget_class, row_selected_cb);
  gtk_widget_class_bind_template_callback (widget_class, choice_changed_cb);
  gtk_widget_class_bind_template_callback (widget_class, note_changed_cb);
  for (guint i = 0; i < G_N_ELEMENTS (ACTIONS); i++)
    {
      gtk_widget_class_install_action (widget_class, ACTIONS[i].action, NULL, ACTIONS[i].activate);
      gtk_widget_class_add_binding_action (widget_class, ACTIONS[i].key, ACTIONS[i].modifiers,
                                           ACTIONS[i].action, NULL);
    }
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Escape, 0, "window.close", NULL);
}

/* Keys turn pages also where a list or what scrolls would take them first. */
static void
add_page_keys (CavSheetsWindow *self)
{
  GtkEventController *keys = gtk_shortcut_controller_new ();

  gtk_event_controller_set_propagation_phase (keys, GTK_PHASE_CAPTURE);
  for (guint i = 0; i < G_N_ELEMENTS (ACTIONS); i++)
    if (g_str_has_suffix (ACTIONS[i].action, "-page"))
      gtk_shortcut_controller_add_shortcut (
          GTK_SHORTCUT_CONTROLLER (keys),
          gtk_shortcut_new (gtk_keyval_trigger_new (ACTIONS[i].key, ACTIONS[i].modifiers),
                            gtk_named_action_new (ACTIONS[i].action)));
  gtk_widget_add_controller (GTK_WIDGET (self), keys);
}

static void
cav_sheets_window_init (CavSheetsWindow *self)
{
  self->pages = g_ptr_array_new ();
  gtk_widget_init_template (GTK_WIDGET (self));
  cav_letters_set_width (GTK_WIDGET (self->list), 226);
  fill_list (self);
  fill_rows (self);
  add_page_keys (self);
  cav_print_look_around ();
}

static void
listen (CavSheetsWindow *self)
{
  static const char *const settings[]
      = { "changed::" CAV_SETTING_SHEET, "changed::" CAV_SETTING_SHEET_LAYOUT,
          "changed::" CAV_SETTING_SHEET_NOTE, "changed::" CAV_SETTING_PAPER,
          "changed::" CAV_SETTING_UNIT };

  for (guint i = 0; i < G_N_ELEMENTS (settings); i++)
    g_signal_connect_object (cav_settings_get (), settings[i], G_CALLBACK (setting_changed_cb),
                             self, G_CONNECT_SWAPPED);
  g_signal_connect_object (get_project (self), "changed", G_CALLBACK (queue_refresh), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (self->desk, "turned", G_CALLBACK (update_page_label), self,
                           G_CONNECT_SWAPPED);
}

CavSheetsWindow *
cav_sheets_window_new (CavDocument *document, GtkWindow *parent)
{
  CavSheetsWindow *self;

  g_return_val_if_fail (CAV_IS_DOCUMENT (document), NULL);
  g_return_val_if_fail (parent == NULL || GTK_IS_WINDOW (parent), NULL);

  self = g_object_new (CAV_TYPE_SHEETS_WINDOW, "transient-for", parent, "destroy-with-parent", TRUE,
                       NULL);
  self->document = g_object_ref (document);
  listen (self);
  update_page_label (self);
  refresh (self);
  return self;
}

void
cav_sheets_window_show (CavDocument *document, GtkWindow *parent)
{
  GListModel *windows = gtk_window_get_toplevels ();

  g_return_if_fail (CAV_IS_DOCUMENT (document));

  for (guint i = 0; i < g_list_model_get_n_items (windows); i++)
    {
      g_autoptr (GtkWindow) window = g_list_model_get_item (windows, i);

      if (CAV_IS_SHEETS_WINDOW (window) && CAV_SHEETS_WINDOW (window)->document == document)
        {
          gtk_window_present (window);
          return;
        }
    }
  gtk_window_present (GTK_WINDOW (cav_sheets_window_new (document, parent)));
}

GPtrArray *
cav_sheets_window_get_pages (CavSheetsWindow *self)
{
  g_return_val_if_fail (CAV_IS_SHEETS_WINDOW (self), NULL);

  return self->pages;
}
