/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The film of the milling. */
#include "window-rig.h"

/* (nullable) */
static GtkWidget *
find_play_button (GtkWidget *root)
{
  GtkWidget *found
      = GTK_IS_BUTTON (root)
                && g_strcmp0 (gtk_actionable_get_action_name (GTK_ACTIONABLE (root)), "win.play")
                       == 0
            ? root
            : NULL;

  for (GtkWidget *child = gtk_widget_get_first_child (root); child != NULL && found == NULL;
       child = gtk_widget_get_next_sibling (child))
    found = find_play_button (child);
  return found;
}

/* What the button does next is what it says, by picture, tip and name. */
static void
assert_button (WindowRig *rig, const char *icon, const char *tip, const char *name)
{
  GtkWidget *button = find_play_button (GTK_WIDGET (rig->window));

  g_assert_nonnull (button);
  g_assert_cmpstr (gtk_button_get_icon_name (GTK_BUTTON (button)), ==, icon);
  g_assert_cmpstr (gtk_widget_get_tooltip_text (button), ==, tip);
  gtk_test_accessible_assert_property (button, GTK_ACCESSIBLE_PROPERTY_LABEL, name);
}

static void
assert_plays (WindowRig *rig)
{
  g_assert_true (cav_selection_is_playing (rig->selection));
  assert_button (rig, "media-playback-stop-symbolic", "Stop playing (F5)", "Stop playing");
}

static void
assert_rests (WindowRig *rig)
{
  g_assert_false (cav_selection_is_playing (rig->selection));
  assert_button (rig, "media-playback-start-symbolic", "Play the milling (F5)", "Play the milling");
}

static void
test_button (WindowRig *rig, gconstpointer data)
{
  assert_rests (rig);
  window_rig_act (rig, "win.play");
  assert_plays (rig);
  window_rig_act (rig, "win.play");
  assert_rests (rig);
  window_rig_act (rig, "win.play");
  assert_plays (rig);
  window_rig_act (rig, "win.leave-pass");
  assert_rests (rig);
  window_rig_act (rig, "win.play");
  assert_plays (rig);
  /* Another pass than the one that is played. */
  cav_selection_set_pass (rig->selection, CAV_NO_PASS);
  ui_test_wait_for (!cav_selection_is_playing (rig->selection));
  assert_rests (rig);
}

/* The film runs from the first pass to the end of the last, and stops. */
static void
test_film (WindowRig *rig, gconstpointer data)
{
  int count = (int)cav_plan_get_pass_count (
      cav_plan_runner_get_plan (cav_document_get_runner (rig->document)));

  window_rig_act (rig, "win.play");
  g_assert_cmpint (cav_selection_get_pass (rig->selection), ==, 0);
  g_assert_cmpfloat (cav_selection_get_progress (rig->selection), <, 0.01);
  ui_test_wait_for (cav_selection_get_progress (rig->selection) > 0.2);
  ui_test_wait_for (cav_selection_get_pass (rig->selection) == count - 1);
  ui_test_wait_for (cav_selection_get_progress (rig->selection) > 0.99);
  ui_test_wait_for (!cav_selection_is_playing (rig->selection));
  assert_rests (rig);
  window_rig_act (rig, "win.leave-pass");
  g_assert_cmpfloat (cav_selection_get_progress (rig->selection), >, 0.99);
}

static void
count_between_cb (CavSelection *selection, GParamSpec *pspec, gpointer user_data)
{
  double progress = cav_selection_get_progress (selection);

  if (progress > 0.0 && progress < 1.0)
    ++*(guint *)user_data;
}

/* Who has asked the desktop for less motion sees each pass as it begins and as it ends. */
static void
test_without_motion (WindowRig *rig, gconstpointer data)
{
  GtkSettings *settings = gtk_settings_get_default ();
  guint n_between = 0;
  gulong id = g_signal_connect (rig->selection, "notify::progress", G_CALLBACK (count_between_cb),
                                &n_between);

  g_object_set (settings, "gtk-enable-animations", FALSE, NULL);
  window_rig_act (rig, "win.play");
  ui_test_wait_for (cav_selection_get_pass (rig->selection) == 1);
  g_assert_cmpuint (n_between, ==, 0);
  gtk_settings_reset_property (settings, "gtk-enable-animations");
  /* The same film moves where nobody minds. */
  ui_test_wait_for (n_between > 0);
  window_rig_act (rig, "win.leave-pass");
  g_signal_handler_disconnect (rig->selection, id);
}

#define ADD(path_, test_)                                                                          \
  g_test_add ("/ui/playing/" path_, WindowRig, "a cut", window_rig_set_up, test_,                  \
              window_rig_tear_down)

int
main (int argc, char *argv[])
{
  ui_test_init (&argc, &argv);
  ADD ("film", test_film);
  ADD ("button", test_button);
  ADD ("without-motion", test_without_motion);
  return g_test_run ();
}
