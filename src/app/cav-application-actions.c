/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-application-private.h"

#include "app/cav-guide.h"
#include "app/cav-settings.h"
#include "app/cav-start-window.h"
#include "app/cav-window.h"

#include <glib/gi18n.h>

static void
new_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  cav_application_open_new (CAV_APPLICATION (user_data));
}

static void
begin_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  cav_application_show_start (CAV_APPLICATION (user_data));
}

static gpointer
ref_window (gconstpointer window, gpointer user_data)
{
  return g_object_ref ((gpointer)window);
}

/* Each document's window asks for itself, and takes with it what was opened from it; the program
 * ends with the last of them. */
static void
close_all_cb (gpointer user_data)
{
  GList *windows = g_list_copy_deep (gtk_application_get_windows (user_data), ref_window, NULL);

  for (GList *link = windows; link != NULL; link = link->next)
    if (CAV_IS_WINDOW (link->data) || CAV_IS_START_WINDOW (link->data))
      gtk_window_close (link->data);
  g_list_free_full (windows, g_object_unref);
  g_object_unref (user_data);
}

/* Not before the key has been dealt with, for which its window has to be there. */
static void
quit_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  g_idle_add_once (close_all_cb, g_object_ref (user_data));
}

static void
about_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  GtkWidget *about = adw_about_window_new ();

  g_object_set (about, "application-name", "Cavetto", "application-icon", CAV_APPLICATION_ID,
                "version", CAV_VERSION, "license-type", GTK_LICENSE_GPL_3_0, "developer-name",
                _ ("The Cavetto project"), "comments",
                _ ("Draw a picture frame molding, and mill it.\n\nA plan is arithmetic. It knows "
                   "nothing of your machine’s condition, the knot in the board, or your hands. "
                   "The manuals of machines and cutters, the rules that hold where you work and "
                   "proper training come first. Try every setting on scrap, and leave out a pass "
                   "that does not feel safe."),
                NULL);
  gtk_window_set_transient_for (GTK_WINDOW (about), gtk_application_get_active_window (user_data));
  gtk_window_set_modal (GTK_WINDOW (about), TRUE);
  gtk_window_set_destroy_with_parent (GTK_WINDOW (about), TRUE);
  gtk_window_present (GTK_WINDOW (about));
}

static void
show_guide_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  cav_guide_open (gtk_application_get_active_window (user_data));
}

static const GActionEntry ENTRIES[] = {
  { .name = "about", .activate = about_cb },
  { .name = "begin", .activate = begin_cb },
  { .name = "new", .activate = new_cb },
  { .name = "quit", .activate = quit_cb },
  { .name = "show-guide", .activate = show_guide_cb },
};

/* Settings that are chosen in a menu, under their own names. */
static const char *const SETTINGS[] = {
  CAV_SETTING_PAPER,
  CAV_SETTING_SNAP,
  CAV_SETTING_UNIT,
};

/* Keys that hold everywhere. Single letters do not stand here: they would be taken from whoever
 * types a number. */
static const struct
{
  const char *action;
  const char *keys[3];
} KEYS[] = {
  { "app.begin", { "<Control><Shift>n" } },
  { "app.new", { "<Control>n" } },
  { "app.quit", { "<Control>q" } },
  { "app.show-guide", { "F1" } },
  { "win.close", { "<Control>w" } },
  { "win.next-pass", { "<Alt>Page_Down" } },
  { "win.open", { "<Control>o" } },
  { "win.play", { "F5" } },
  { "win.previous-pass", { "<Alt>Page_Up" } },
  { "win.print-pass-sheet", { "<Control>p" } },
  { "win.redo", { "<Control><Shift>z", "<Control>y" } },
  { "win.save", { "<Control>s" } },
  { "win.save-as", { "<Control><Shift>s" } },
  { "win.show-keys", { "<Control>question" } },
  { "win.show-page('molding')", { "<Alt>1" } },
  { "win.show-page('frame')", { "<Alt>2" } },
  { "win.show-page('lumber')", { "<Alt>3" } },
  { "win.show-sheets", { "<Control><Shift>p" } },
  { "win.show-shop", { "<Control>t" } },
  { "win.undo", { "<Control>z" } },
};

void
cav_application_add_actions (CavApplication *self)
{
  g_action_map_add_action_entries (G_ACTION_MAP (self), ENTRIES, G_N_ELEMENTS (ENTRIES), self);
  for (guint i = 0; i < G_N_ELEMENTS (SETTINGS); i++)
    {
      g_autoptr (GAction) action = g_settings_create_action (cav_settings_get (), SETTINGS[i]);

      g_action_map_add_action (G_ACTION_MAP (self), action);
    }
  for (guint i = 0; i < G_N_ELEMENTS (KEYS); i++)
    gtk_application_set_accels_for_action (GTK_APPLICATION (self), KEYS[i].action, KEYS[i].keys);
}
