/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-window-private.h"

#include "app/cav-application.h"
#include "app/cav-frame-page.h"
#include "app/cav-letters.h"
#include "app/cav-lumber-page.h"
#include "app/cav-molding-page.h"
#include "app/cav-settings.h"
#include "app/cav-toast.h"

#include <glib/gi18n.h>

/* Where a window is wider, the names of the pages have room beside their icons in every language,
 * with letters as large as usual. Pixels. */
#define ROOMY 1100

G_DEFINE_FINAL_TYPE (CavWindow, cav_window, ADW_TYPE_APPLICATION_WINDOW)

enum
{
  PROP_DOCUMENT = 1,
  N_PROPERTIES,
};

static GParamSpec *properties[N_PROPERTIES];

/* The pages, in order; each is a widget with a property "document". */
typedef struct
{
  const char *name;
  const char *title;
  const char *icon;
  GType (*get_type) (void);
} PageInfo;

static const PageInfo PAGES[] = {
  { "molding", N_ ("Molding"), "cavetto-molding-symbolic", cav_molding_page_get_type },
  { "frame", N_ ("Frame"), "cavetto-frame-symbolic", cav_frame_page_get_type },
  { "lumber", N_ ("Lumber"), "cavetto-lumber-symbolic", cav_lumber_page_get_type },
};

static void
add_pages (CavWindow *self)
{
  for (guint i = 0; i < G_N_ELEMENTS (PAGES); i++)
    adw_view_stack_add_titled_with_icon (self->stack, adw_bin_new (), PAGES[i].name,
                                         _ (PAGES[i].title), PAGES[i].icon);
}

/* A page is made when it is first looked at: it is hundreds of widgets. TRUE: just now. */
static gboolean
fill_page (CavWindow *self)
{
  GtkWidget *bin = adw_view_stack_get_visible_child (self->stack);
  const char *name = adw_view_stack_get_visible_child_name (self->stack);

  if (bin == NULL || adw_bin_get_child (ADW_BIN (bin)) != NULL)
    return FALSE;
  for (guint i = 0; i < G_N_ELEMENTS (PAGES); i++)
    if (g_strcmp0 (PAGES[i].name, name) == 0)
      {
        GtkWidget *page = g_object_new (PAGES[i].get_type (), NULL);

        g_object_bind_property (self, "document", page, "document", G_BINDING_SYNC_CREATE);
        adw_bin_set_child (ADW_BIN (bin), page);
      }
  return TRUE;
}

static void
page_chosen_cb (CavWindow *self)
{
  /* A window that is being taken apart shows one page after the other. */
  if (self->document == NULL)
    return;
  /* The stack has looked for a place for the focus where there was nothing yet. */
  if (fill_page (self))
    gtk_widget_child_focus (adw_view_stack_get_visible_child (self->stack), GTK_DIR_TAB_FORWARD);
  cav_window_update_actions (self);
}

/* In a narrow window the names stand below their icons: a switcher of its own, made when a window
 * may be narrow. */
static void
prepare_narrow (CavWindow *self)
{
  GtkWidget *switcher;

  if (adw_bin_get_child (self->narrow) != NULL)
    return;
  switcher = adw_view_switcher_new ();
  adw_view_switcher_set_policy (ADW_VIEW_SWITCHER (switcher), ADW_VIEW_SWITCHER_POLICY_NARROW);
  adw_view_switcher_set_stack (ADW_VIEW_SWITCHER (switcher), self->stack);
  adw_bin_set_child (self->narrow, switcher);
}

static void
width_changed_cb (CavWindow *self)
{
  int width, height;

  gtk_window_get_default_size (GTK_WINDOW (self), &width, &height);
  if (width < ROOMY * cav_letters_get_size (GTK_WIDGET (self)))
    prepare_narrow (self);
}

/* Large letters leave no room for the names of the pages above: they go below. */
static void
move_names_cb (gpointer user_data)
{
  CavWindow *self = CAV_WINDOW (user_data);
  gboolean no_room = adw_squeezer_get_visible_child (self->squeezer) == self->no_room;

  self->bar_idle = 0;
  if (adw_squeezer_get_visible_child (self->squeezer) != GTK_WIDGET (self->switcher))
    prepare_narrow (self);
  if (no_room && self->bar == NULL)
    {
      self->bar = ADW_VIEW_SWITCHER_BAR (adw_view_switcher_bar_new ());
      adw_view_switcher_bar_set_stack (self->bar, self->stack);
      gtk_box_append (self->content, GTK_WIDGET (self->bar));
    }
  if (self->bar != NULL)
    adw_view_switcher_bar_set_reveal (self->bar, no_room);
}

/* While places are given out nothing may ask for another. */
static void
squeezed_cb (CavWindow *self)
{
  if (self->bar_idle == 0)
    self->bar_idle = g_idle_add_once (move_names_cb, self);
}

/* Title, marks and bars */

static void
update_title (CavWindow *self)
{
  g_autofree char *name = cav_document_dup_name (self->document);
  gboolean unsaved = cav_document_is_unsaved (self->document);
  GFile *file = cav_document_get_file (self->document);
  g_autofree char *marked = g_strconcat (unsaved ? "• " : "", name, NULL);
  g_autofree char *title = g_strdup_printf ("%s – Cavetto", marked);
  g_autofree char *path = file != NULL ? g_file_get_parse_name (file) : NULL;
  g_autofree char *tip = g_strdup_printf ("%s\n%s", path != NULL ? path : _ ("In no file yet"),
                                          unsaved ? _ ("There are changes that are not saved")
                                                  : _ ("All changes are saved"));

  gtk_window_set_title (GTK_WINDOW (self), title);
  gtk_label_set_label (self->name_label, marked);
  gtk_widget_set_tooltip_text (GTK_WIDGET (self->name_label), tip);
}

static void
update_file_bar (CavWindow *self)
{
  CavFileState state = cav_document_get_file_state (self->document);
  g_autofree char *name = cav_document_dup_name (self->document);
  g_autofree char *text = NULL;

  if (state == CAV_FILE_CHANGED)
    text = g_strdup_printf (_ ("“%s” has been changed by another program."), name);
  else if (state == CAV_FILE_GONE)
    text = g_strdup_printf (_ ("The file of “%s” has been deleted or moved away. What you see is "
                               "in this window alone."),
                            name);
  if (text != NULL)
    gtk_label_set_label (self->file_bar_label, text);
  gtk_widget_set_visible (self->file_bar_reload, state == CAV_FILE_CHANGED);
  gtk_widget_set_visible (self->file_bar_keep, state == CAV_FILE_CHANGED);
  gtk_widget_set_visible (self->file_bar_save, state == CAV_FILE_GONE);
  gtk_info_bar_set_revealed (self->file_bar, text != NULL);
}

static void
status_cb (CavWindow *self)
{
  gboolean saving = cav_document_is_saving (self->document);

  gtk_widget_set_visible (self->saving_spinner, saving);
  update_title (self);
  update_file_bar (self);
  cav_window_update_actions (self);
  if (self->close_when_saved && !saving)
    {
      self->close_when_saved = FALSE;
      if (!cav_document_is_unsaved (self->document))
        gtk_window_close (GTK_WINDOW (self));
    }
}

static void
file_bar_response_cb (GtkInfoBar *bar, int response, gpointer user_data)
{
  gtk_info_bar_set_revealed (bar, FALSE);
}

/* The document */

static void
set_document (CavWindow *self, CavDocument *document)
{
  g_assert (self->document == NULL);
  if (document == NULL)
    return;
  self->document = g_object_ref (document);
  g_signal_connect_object (document, "status", G_CALLBACK (status_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (cav_document_get_selection (document), "notify",
                           G_CALLBACK (cav_window_update_actions), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (cav_document_get_selection (document), "cuts-changed",
                           G_CALLBACK (cav_window_update_actions), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (cav_document_get_runner (document), "notify::state",
                           G_CALLBACK (cav_window_update_actions), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (cav_document_get_runner (document), "planned",
                           G_CALLBACK (cav_window_update_actions), self, G_CONNECT_SWAPPED);
  status_cb (self);
}

/* Menus. They are made of as many widgets as all the rest, so each is made when it is opened. */

static void
open_main_menu_cb (GtkMenuButton *button, gpointer user_data)
{
  CavWindow *self = CAV_WINDOW (gtk_widget_get_root (GTK_WIDGET (button)));

  cav_window_update_recent (self);
  if (gtk_menu_button_get_menu_model (button) == NULL)
    gtk_menu_button_set_menu_model (button, self->main_menu);
}

static void
open_sheets_menu_cb (GtkMenuButton *button, gpointer user_data)
{
  CavWindow *self = CAV_WINDOW (gtk_widget_get_root (GTK_WIDGET (button)));

  if (gtk_menu_button_get_menu_model (button) == NULL)
    gtk_menu_button_set_menu_model (button, self->sheets_menu);
}

static void
prepare_menus (CavWindow *self)
{
  gtk_menu_button_set_create_popup_func (self->main_menu_button, open_main_menu_cb, NULL, NULL);
  gtk_menu_button_set_create_popup_func (self->sheets_menu_button, open_sheets_menu_cb, NULL, NULL);
}

/* Planning and lost work wait until there is something to see. */
static void
after_first_frame_cb (gpointer user_data)
{
  CavWindow *self = CAV_WINDOW (user_data);
  GtkApplication *application = gtk_window_get_application (GTK_WINDOW (self));

  self->first_idle = 0;
  if (self->document != NULL)
    cav_plan_runner_start (cav_document_get_runner (self->document));
  if (application != NULL)
    cav_application_has_shown (CAV_APPLICATION (application));
}

/* The frame is on its way to the screen before anything else is done. */
static void
first_frame_cb (GdkFrameClock *clock, gpointer user_data)
{
  CavWindow *self = CAV_WINDOW (user_data);

  g_clear_signal_handler (&self->first_frame, clock);
  self->first_idle = g_idle_add_once (after_first_frame_cb, self);
}

static void
cav_window_realize (GtkWidget *widget)
{
  GTK_WIDGET_CLASS (cav_window_parent_class)->realize (widget);
  CAV_WINDOW (widget)->first_frame = g_signal_connect_object (
      gtk_widget_get_frame_clock (widget), "after-paint", G_CALLBACK (first_frame_cb), widget, 0);
}

/* Files that are dropped */

static gboolean
drop_cb (GtkDropTarget *target, const GValue *value, double x, double y, gpointer user_data)
{
  CavWindow *self = CAV_WINDOW (gtk_event_controller_get_widget (GTK_EVENT_CONTROLLER (target)));
  g_autofree char *uri = NULL;

  if (!G_VALUE_HOLDS (value, G_TYPE_FILE))
    return FALSE;
  uri = g_file_get_uri (g_value_get_object (value));
  cav_window_open_uri (self, uri);
  return TRUE;
}

/* Closing */

static void
remember_size (CavWindow *self)
{
  int width, height;

  g_settings_set_boolean (cav_settings_get (), "window-maximized",
                          gtk_window_is_maximized (GTK_WINDOW (self)));
  gtk_window_get_default_size (GTK_WINDOW (self), &width, &height);
  if (width > 0 && height > 0)
    g_settings_set (cav_settings_get (), "window-size", "(ii)", width, height);
}

static void
restore_size (CavWindow *self)
{
  int width, height;

  g_settings_get (cav_settings_get (), "window-size", "(ii)", &width, &height);
  gtk_window_set_default_size (GTK_WINDOW (self), MAX (width, 400), MAX (height, 300));
  if (g_settings_get_boolean (cav_settings_get (), "window-maximized"))
    gtk_window_maximize (GTK_WINDOW (self));
}

static gboolean
cav_window_close_request (GtkWindow *window)
{
  CavWindow *self = CAV_WINDOW (window);

  cav_window_enter_typed (self);
  if (!self->close_for_good && cav_document_is_saving (self->document))
    {
      self->close_when_saved = TRUE;
      return TRUE;
    }
  if (!self->close_for_good && cav_document_is_unsaved (self->document))
    {
      cav_window_ask_before_closing (self);
      return TRUE;
    }
  remember_size (self);
  return GTK_WINDOW_CLASS (cav_window_parent_class)->close_request (window);
}

/* The class */

static void
cav_window_get_property (GObject *object, guint id, GValue *value, GParamSpec *spec)
{
  CavWindow *self = CAV_WINDOW (object);

  if (id == PROP_DOCUMENT)
    g_value_set_object (value, self->document);
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, spec);
}

static void
cav_window_set_property (GObject *object, guint id, const GValue *value, GParamSpec *spec)
{
  CavWindow *self = CAV_WINDOW (object);

  if (id == PROP_DOCUMENT)
    set_document (self, g_value_get_object (value));
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, spec);
}

static void
cav_window_dispose (GObject *object)
{
  CavWindow *self = CAV_WINDOW (object);

  g_clear_handle_id (&self->first_idle, g_source_remove);
  g_clear_handle_id (&self->bar_idle, g_source_remove);
  g_clear_handle_id (&self->play_source, g_source_remove);
  g_clear_object (&self->document);
  G_OBJECT_CLASS (cav_window_parent_class)->dispose (object);
}

static void
cav_window_class_init (CavWindowClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->get_property = cav_window_get_property;
  object_class->set_property = cav_window_set_property;
  object_class->dispose = cav_window_dispose;
  widget_class->realize = cav_window_realize;
  GTK_WINDOW_CLASS (klass)->close_request = cav_window_close_request;

  properties[PROP_DOCUMENT]
      = g_param_spec_object ("document", NULL, NULL, CAV_TYPE_DOCUMENT,
                             G_PARAM_READWRITE | G_PARAM_CONSTRUCT_ONLY | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPERTIES, properties);

  gtk_widget_class_set_template_from_resource (widget_class, "/org/cavetto/Cavetto/cav-window.ui");
  gtk_widget_class_bind_template_child (widget_class, CavWindow, content);
  gtk_widget_class_bind_template_child (widget_class, CavWindow, edit_section);
  gtk_widget_class_bind_template_child (widget_class, CavWindow, file_bar);
  gtk_widget_class_bind_template_child (widget_class, CavWindow, file_bar_keep);
  gtk_widget_class_bind_template_child (widget_class, CavWindow, file_bar_label);
  gtk_widget_class_bind_template_child (widget_class, CavWindow, file_bar_reload);
  gtk_widget_class_bind_template_child (widget_class, CavWindow, file_bar_save);
  gtk_widget_class_bind_template_child (widget_class, CavWindow, main_menu);
  gtk_widget_class_bind_template_child (widget_class, CavWindow, main_menu_button);
  gtk_widget_class_bind_template_child (widget_class, CavWindow, sheets_menu);
  gtk_widget_class_bind_template_child (widget_class, CavWindow, sheets_menu_button);
  gtk_widget_class_bind_template_child (widget_class, CavWindow, name_label);
  gtk_widget_class_bind_template_child (widget_class, CavWindow, narrow);
  gtk_widget_class_bind_template_child (widget_class, CavWindow, no_room);
  gtk_widget_class_bind_template_child (widget_class, CavWindow, recent_section);
  gtk_widget_class_bind_template_child (widget_class, CavWindow, redo_button);
  gtk_widget_class_bind_template_child (widget_class, CavWindow, saving_spinner);
  gtk_widget_class_bind_template_child (widget_class, CavWindow, squeezer);
  gtk_widget_class_bind_template_child (widget_class, CavWindow, stack);
  gtk_widget_class_bind_template_child (widget_class, CavWindow, switcher);
  gtk_widget_class_bind_template_child (widget_class, CavWindow, toasts);
  gtk_widget_class_bind_template_child (widget_class, CavWindow, undo_button);
  gtk_widget_class_bind_template_callback (widget_class, drop_cb);
  gtk_widget_class_bind_template_callback (widget_class, file_bar_response_cb);
  gtk_widget_class_bind_template_callback (widget_class, squeezed_cb);
  cav_window_class_install_actions (widget_class);
}

static void
cav_window_init (CavWindow *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  g_signal_connect (self, "notify::default-width", G_CALLBACK (width_changed_cb), NULL);
  cav_letters_watch (G_CALLBACK (width_changed_cb), GTK_WIDGET (self));
  restore_size (self);
  prepare_menus (self);
  add_pages (self);
  fill_page (self);
  g_signal_connect_object (self->stack, "notify::visible-child", G_CALLBACK (page_chosen_cb), self,
                           G_CONNECT_SWAPPED);
}

CavWindow *
cav_window_new (GtkApplication *application, CavDocument *document)
{
  g_return_val_if_fail (GTK_IS_APPLICATION (application), NULL);
  g_return_val_if_fail (CAV_IS_DOCUMENT (document), NULL);
  return g_object_new (CAV_TYPE_WINDOW, "application", application, "document", document, NULL);
}

CavDocument *
cav_window_get_document (CavWindow *self)
{
  g_return_val_if_fail (CAV_IS_WINDOW (self), NULL);
  return self->document;
}

void
cav_window_say (CavWindow *self, const char *text)
{
  g_return_if_fail (CAV_IS_WINDOW (self));
  adw_toast_overlay_add_toast (self->toasts, cav_toast_new (text));
}
