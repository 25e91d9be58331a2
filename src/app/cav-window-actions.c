/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-window-private.h"

#include <glib/gi18n.h>
#include <string.h>

#include "app/cav-molding-page.h"
#include "app/cav-shop-window.h"

/* Undo, redo and their names */

static void
update_step (
    CavWindow *self, const char *label, const char *step, const char *action, GtkWidget *button)
{
  g_menu_append (self->edit_section, label, action);
  gtk_widget_set_tooltip_text (button, label);
  gtk_widget_action_set_enabled (GTK_WIDGET (self), action, step != NULL);
}

static void
update_steps (CavWindow *self)
{
  CavProject *project = cav_document_get_project (self->document);
  const char *back = cav_project_get_undo_name (project);
  const char *forth = cav_project_get_redo_name (project);
  /* Translators: %s is a step, like “add cove”. */
  g_autofree char *undo
      = back != NULL ? g_strdup_printf (_ ("Undo %s"), back) : g_strdup (_ ("Undo"));
  g_autofree char *redo
      = forth != NULL ? g_strdup_printf (_ ("Redo %s"), forth) : g_strdup (_ ("Redo"));

  g_menu_remove_all (self->edit_section);
  update_step (self, undo, back, "win.undo", self->undo_button);
  update_step (self, redo, forth, "win.redo", self->redo_button);
}

/* The main menu stands outside of the canvas, where the canvas's own actions are not known. */

static const char *const OF_CHOSEN_CUTS[]
    = { "win.canvas-copy",       "win.canvas-cut",           "win.canvas-delete",
        "win.canvas-duplicate",  "win.canvas-mirror-across", "win.canvas-mirror-through",
        "win.canvas-choose-none" };
static const char *const OF_SECTION[]
    = { "win.canvas-choose-all", "win.canvas-paste", "win.canvas-zoom-fit", "win.canvas-zoom-in",
        "win.canvas-zoom-out" };

static void
set_all_enabled (CavWindow *self, const char *const *names, gsize n_names, gboolean enabled)
{
  for (gsize i = 0; i < n_names; i++)
    gtk_widget_action_set_enabled (GTK_WIDGET (self), names[i], enabled);
}

static void
update_canvas_actions (CavWindow *self)
{
  CavSelection *selection = cav_document_get_selection (self->document);
  gboolean drawable
      = g_strcmp0 (adw_view_stack_get_visible_child_name (self->stack), "molding") == 0
        && cav_selection_get_pass (selection) == CAV_NO_PASS;

  set_all_enabled (self, OF_SECTION, G_N_ELEMENTS (OF_SECTION), drawable);
  set_all_enabled (self, OF_CHOSEN_CUTS, G_N_ELEMENTS (OF_CHOSEN_CUTS),
                   drawable && cav_selection_get_cut_count (selection) > 0);
}

static void
run_in_canvas (GtkWidget *widget, const char *name, GVariant *parameter)
{
  CavWindow *self = CAV_WINDOW (widget);
  GtkWidget *bin = adw_view_stack_get_child_by_name (self->stack, "molding");
  g_autofree char *action = g_strconcat ("canvas.", name + strlen ("win.canvas-"), NULL);

  cav_molding_page_run_in_canvas (CAV_MOLDING_PAGE (adw_bin_get_child (ADW_BIN (bin))), action);
}

void
cav_window_update_actions (CavWindow *self)
{
  GtkWidget *widget = GTK_WIDGET (self);
  static const char *const OF_SOUND_PROFILES[]
      = { "win.print-all-sheets", "win.print-drawing",   "win.print-pass-sheet",
          "win.print-template",   "win.save-all-sheets", "win.save-drawing",
          "win.save-pass-sheet",  "win.save-plan",       "win.save-template" };
  CavPlanRunner *runner;
  const CavPlan *plan;
  gboolean saving, sound, passes;

  if (self->document == NULL)
    return;
  runner = cav_document_get_runner (self->document);
  plan = cav_plan_runner_get_plan (runner);
  saving = cav_document_is_saving (self->document);
  sound = cav_plan_runner_get_state (runner) != CAV_PLAN_STATE_FAILED;
  passes = plan != NULL && cav_plan_get_pass_count (plan) > 0;

  update_steps (self);
  update_canvas_actions (self);
  gtk_widget_action_set_enabled (widget, "win.save", !saving);
  gtk_widget_action_set_enabled (widget, "win.save-as", !saving);
  gtk_widget_action_set_enabled (widget, "win.load-again",
                                 cav_document_get_file (self->document) != NULL && !saving);
  set_all_enabled (self, OF_SOUND_PROFILES, G_N_ELEMENTS (OF_SOUND_PROFILES), sound);
  gtk_widget_action_set_enabled (widget, "win.next-pass", passes);
  gtk_widget_action_set_enabled (widget, "win.previous-pass", passes);
  gtk_widget_action_set_enabled (widget, "win.play", passes);
  gtk_widget_action_set_enabled (
      widget, "win.leave-pass",
      cav_selection_get_pass (cav_document_get_selection (self->document)) != CAV_NO_PASS);
}

void
cav_window_enter_typed (CavWindow *self)
{
  GtkWindow *window = GTK_WINDOW (self);
  GtkWidget *focus = gtk_window_get_focus (window);

  if (focus == NULL)
    return;
  g_object_ref (focus);
  gtk_window_set_focus (window, NULL);
  /* What was entered may have taken the row away. */
  if (gtk_widget_get_root (focus) == GTK_ROOT (self) && gtk_widget_get_mapped (focus))
    gtk_window_set_focus (window, focus);
  g_object_unref (focus);
}

/* Each calls what does the work, and no more. */

static void
undo (GtkWidget *widget, const char *name, GVariant *parameter)
{
  cav_project_undo (cav_document_get_project (CAV_WINDOW (widget)->document));
}

static void
redo (GtkWidget *widget, const char *name, GVariant *parameter)
{
  cav_project_redo (cav_document_get_project (CAV_WINDOW (widget)->document));
}

static void
open (GtkWidget *widget, const char *name, GVariant *parameter)
{
  cav_window_ask_to_open (CAV_WINDOW (widget));
}

static void
open_recent (GtkWidget *widget, const char *name, GVariant *parameter)
{
  cav_window_open_uri (CAV_WINDOW (widget), g_variant_get_string (parameter, NULL));
}

static void
save (GtkWidget *widget, const char *name, GVariant *parameter)
{
  cav_window_enter_typed (CAV_WINDOW (widget));
  cav_window_save (CAV_WINDOW (widget));
}

static void
save_as (GtkWidget *widget, const char *name, GVariant *parameter)
{
  cav_window_enter_typed (CAV_WINDOW (widget));
  cav_window_ask_where_to_save (CAV_WINDOW (widget));
}

static void
load_again (GtkWidget *widget, const char *name, GVariant *parameter)
{
  cav_window_load_again (CAV_WINDOW (widget));
}

static void
keep_mine (GtkWidget *widget, const char *name, GVariant *parameter)
{
  cav_document_keep_mine (CAV_WINDOW (widget)->document);
}

static void
close_window (GtkWidget *widget, const char *name, GVariant *parameter)
{
  gtk_window_close (GTK_WINDOW (widget));
}

static void
export_section (GtkWidget *widget, const char *name, GVariant *parameter)
{
  cav_window_enter_typed (CAV_WINDOW (widget));
  cav_window_export_section (CAV_WINDOW (widget), g_variant_get_string (parameter, NULL));
}

static void
import_outline (GtkWidget *widget, const char *name, GVariant *parameter)
{
  cav_window_import_outline (CAV_WINDOW (widget),
                             g_str_equal (g_variant_get_string (parameter, NULL), "whole"));
}

/* Of each sheet the same two; the sheet is the rest of the name. */
static void
print_sheet (GtkWidget *widget, const char *name, GVariant *parameter)
{
  cav_window_enter_typed (CAV_WINDOW (widget));
  cav_window_print_sheet (CAV_WINDOW (widget), name + strlen ("win.print-"));
}

static void
save_sheet (GtkWidget *widget, const char *name, GVariant *parameter)
{
  cav_window_enter_typed (CAV_WINDOW (widget));
  cav_window_save_sheet (CAV_WINDOW (widget), name + strlen ("win.save-"));
}

static void
save_plan (GtkWidget *widget, const char *name, GVariant *parameter)
{
  cav_window_enter_typed (CAV_WINDOW (widget));
  cav_window_save_plan (CAV_WINDOW (widget));
}

static void
next_pass (GtkWidget *widget, const char *name, GVariant *parameter)
{
  cav_window_step_pass (CAV_WINDOW (widget), 1);
}

static void
previous_pass (GtkWidget *widget, const char *name, GVariant *parameter)
{
  cav_window_step_pass (CAV_WINDOW (widget), -1);
}

static void
leave_pass (GtkWidget *widget, const char *name, GVariant *parameter)
{
  CavWindow *self = CAV_WINDOW (widget);

  cav_window_stop_play (self);
  cav_selection_set_pass (cav_document_get_selection (self->document), CAV_NO_PASS);
}

static void
play (GtkWidget *widget, const char *name, GVariant *parameter)
{
  cav_window_toggle_play (CAV_WINDOW (widget));
}

static void
show_page (GtkWidget *widget, const char *name, GVariant *parameter)
{
  AdwViewStack *stack = CAV_WINDOW (widget)->stack;
  const char *page = g_variant_get_string (parameter, NULL);

  if (adw_view_stack_get_child_by_name (stack, page) != NULL)
    adw_view_stack_set_visible_child_name (stack, page);
}

/* The page of the boards, and there the place of a finding. */
static void
show_lumber (GtkWidget *widget, const char *name, GVariant *parameter)
{
  AdwViewStack *stack = CAV_WINDOW (widget)->stack;

  adw_view_stack_set_visible_child_name (stack, "lumber");
  gtk_widget_activate_action_variant (
      adw_bin_get_child (ADW_BIN (adw_view_stack_get_visible_child (stack))), "lumber.show-finding",
      parameter);
}

/* The same on the page of the frame. */
static void
show_frame (GtkWidget *widget, const char *name, GVariant *parameter)
{
  AdwViewStack *stack = CAV_WINDOW (widget)->stack;

  adw_view_stack_set_visible_child_name (stack, "frame");
  gtk_widget_activate_action_variant (
      adw_bin_get_child (ADW_BIN (adw_view_stack_get_visible_child (stack))), "frame.show-finding",
      parameter);
}

static void
show_sheets (GtkWidget *widget, const char *name, GVariant *parameter)
{
  cav_window_enter_typed (CAV_WINDOW (widget));
  cav_window_show_sheets (CAV_WINDOW (widget));
}

static void
show_shop (GtkWidget *widget, const char *name, GVariant *parameter)
{
  cav_shop_window_show (CAV_WINDOW (widget)->document, GTK_WINDOW (widget));
}

/* Made when it is asked for: GTK would make it with every window, long before its first frame. As
 * the window's own help it knows the keys of the actions that it names. */
static void
show_keys (GtkWidget *widget, const char *name, GVariant *parameter)
{
  GtkApplicationWindow *window = GTK_APPLICATION_WINDOW (widget);

  if (gtk_application_window_get_help_overlay (window) == NULL)
    {
      g_autoptr (GtkBuilder) builder
          = gtk_builder_new_from_resource ("/org/cavetto/Cavetto/keys.ui");

      gtk_application_window_set_help_overlay (
          window, GTK_SHORTCUTS_WINDOW (gtk_builder_get_object (builder, "keys")));
    }
  gtk_window_present (GTK_WINDOW (gtk_application_window_get_help_overlay (window)));
}

typedef struct
{
  const char *name;
  const char *parameter; /* GVariant type, or NULL */
  GtkWidgetActionActivateFunc activate;
} Action;

static const Action ACTIONS[] = {
  { "win.canvas-choose-all", NULL, run_in_canvas },
  { "win.canvas-choose-none", NULL, run_in_canvas },
  { "win.canvas-copy", NULL, run_in_canvas },
  { "win.canvas-cut", NULL, run_in_canvas },
  { "win.canvas-delete", NULL, run_in_canvas },
  { "win.canvas-duplicate", NULL, run_in_canvas },
  { "win.canvas-mirror-across", NULL, run_in_canvas },
  { "win.canvas-mirror-through", NULL, run_in_canvas },
  { "win.canvas-paste", NULL, run_in_canvas },
  { "win.canvas-zoom-fit", NULL, run_in_canvas },
  { "win.canvas-zoom-in", NULL, run_in_canvas },
  { "win.canvas-zoom-out", NULL, run_in_canvas },
  { "win.close", NULL, close_window },
  { "win.export-section", "s", export_section },
  { "win.import-outline", "s", import_outline },
  { "win.keep-mine", NULL, keep_mine },
  { "win.leave-pass", NULL, leave_pass },
  { "win.load-again", NULL, load_again },
  { "win.next-pass", NULL, next_pass },
  { "win.open", NULL, open },
  { "win.open-recent", "s", open_recent },
  { "win.play", NULL, play },
  { "win.previous-pass", NULL, previous_pass },
  { "win.print-all-sheets", NULL, print_sheet },
  { "win.print-cutting-list", NULL, print_sheet },
  { "win.print-drawing", NULL, print_sheet },
  { "win.print-job-sheet", NULL, print_sheet },
  { "win.print-pass-sheet", NULL, print_sheet },
  { "win.print-template", NULL, print_sheet },
  { "win.redo", NULL, redo },
  { "win.save", NULL, save },
  { "win.save-all-sheets", NULL, save_sheet },
  { "win.save-as", NULL, save_as },
  { "win.save-cutting-list", NULL, save_sheet },
  { "win.save-drawing", NULL, save_sheet },
  { "win.save-job-sheet", NULL, save_sheet },
  { "win.save-pass-sheet", NULL, save_sheet },
  { "win.save-plan", NULL, save_plan },
  { "win.save-template", NULL, save_sheet },
  { "win.show-frame", "s", show_frame },
  { "win.show-keys", NULL, show_keys },
  { "win.show-lumber", "(si)", show_lumber },
  { "win.show-page", "s", show_page },
  { "win.show-sheets", NULL, show_sheets },
  { "win.show-shop", NULL, show_shop },
  { "win.undo", NULL, undo },
};

/* The canvas has these keys, too; here they hold wherever in the window the focus is, but not in an
 * entry, which copies its own text. */
static const struct
{
  guint key;
  GdkModifierType state;
  const char *action;
} CANVAS_KEYS[] = {
  { GDK_KEY_a, GDK_CONTROL_MASK, "win.canvas-choose-all" },
  { GDK_KEY_a, GDK_CONTROL_MASK | GDK_SHIFT_MASK, "win.canvas-choose-none" },
  { GDK_KEY_c, GDK_CONTROL_MASK, "win.canvas-copy" },
  { GDK_KEY_d, GDK_CONTROL_MASK, "win.canvas-duplicate" },
  { GDK_KEY_m, GDK_CONTROL_MASK, "win.canvas-mirror-across" },
  { GDK_KEY_m, GDK_CONTROL_MASK | GDK_SHIFT_MASK, "win.canvas-mirror-through" },
  { GDK_KEY_v, GDK_CONTROL_MASK, "win.canvas-paste" },
  { GDK_KEY_x, GDK_CONTROL_MASK, "win.canvas-cut" },
};

void
cav_window_class_install_actions (GtkWidgetClass *widget_class)
{
  for (guint i = 0; i < G_N_ELEMENTS (ACTIONS); i++)
    gtk_widget_class_install_action (widget_class, ACTIONS[i].name, ACTIONS[i].parameter,
                                     ACTIONS[i].activate);
  for (guint i = 0; i < G_N_ELEMENTS (CANVAS_KEYS); i++)
    gtk_widget_class_add_binding_action (widget_class, CANVAS_KEYS[i].key, CANVAS_KEYS[i].state,
                                         CANVAS_KEYS[i].action, NULL);
}
