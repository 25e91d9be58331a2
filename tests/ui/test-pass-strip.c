/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-pass-strip.h"
#include "app/cav-pass-tile.h"
#include "app/cav-settings.h"
#include "app/cav-strip-words.h"
#include "ui-test.h"

typedef struct
{
  CavDocument *document;
  GtkWindow *window;
  GtkWidget *strip;
} Fixture;

static void
set_up (Fixture *fixture, gconstpointer data)
{
  fixture->document = ui_test_open_example ("plain-steps.cavetto");
  fixture->strip = g_object_new (CAV_TYPE_PASS_STRIP, "document", fixture->document, NULL);
  fixture->window = ui_test_show (fixture->strip, 900, 260);
  cav_plan_runner_start (cav_document_get_runner (fixture->document));
  ui_test_wait_for (cav_plan_runner_get_state (cav_document_get_runner (fixture->document))
                    == CAV_PLAN_STATE_CURRENT);
}

static void
tear_down (Fixture *fixture, gconstpointer data)
{
  g_object_ref (fixture->strip);
  gtk_window_destroy (fixture->window);
  ui_test_settle ();
  ui_test_finalize (fixture->strip);
  ui_test_finalize (fixture->document);
  g_settings_reset (cav_settings_get (), CAV_SETTING_UNIT);
}

static const CavPlan *
get_plan (Fixture *fixture)
{
  return cav_plan_runner_get_plan (cav_document_get_runner (fixture->document));
}

static void
collect_tiles (GtkWidget *root, GPtrArray *tiles)
{
  if (CAV_IS_PASS_TILE (root))
    g_ptr_array_add (tiles, root);
  for (GtkWidget *child = gtk_widget_get_first_child (root); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    collect_tiles (child, tiles);
}

static GPtrArray *
get_tiles (Fixture *fixture)
{
  GPtrArray *tiles = g_ptr_array_new ();

  collect_tiles (fixture->strip, tiles);
  return tiles;
}

static GtkToggleButton *
get_button (gpointer tile)
{
  return GTK_TOGGLE_BUTTON (ui_test_find (tile, GTK_TYPE_TOGGLE_BUTTON));
}

static gboolean
has_text (GtkWidget *root, const char *text)
{
  if (GTK_IS_LABEL (root) && gtk_widget_get_mapped (root)
      && strstr (gtk_label_get_label (GTK_LABEL (root)), text) != NULL)
    return TRUE;
  for (GtkWidget *child = gtk_widget_get_first_child (root); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    if (has_text (child, text))
      return TRUE;
  return FALSE;
}

/* As many tiles as passes, each named in words for who cannot see the picture. */
static void
test_tiles (Fixture *fixture, gconstpointer data)
{
  g_autoptr (GPtrArray) tiles = get_tiles (fixture);
  g_autofree char *totals = cav_strip_words_new_totals (get_plan (fixture));

  g_assert_cmpuint (tiles->len, ==, cav_plan_get_pass_count (get_plan (fixture)));
  g_assert_cmpuint (tiles->len, >, 1);
  for (guint i = 0; i < tiles->len; i++)
    {
      g_autofree char *name = cav_strip_words_new_name (get_plan (fixture), 0, i);

      if (i < ((CavSetup *)g_ptr_array_index (get_plan (fixture)->setups, 0))->passes->len)
        gtk_test_accessible_assert_property (get_button (tiles->pdata[i]),
                                             GTK_ACCESSIBLE_PROPERTY_LABEL, name);
    }
  g_assert_true (has_text (fixture->strip, totals));
}

static void
test_words (Fixture *fixture, gconstpointer data)
{
  g_autofree char *metric = NULL;
  g_autofree char *inches = NULL;
  double figure;
  const CavSetup *setup = g_ptr_array_index (get_plan (fixture)->setups, 0);
  const CavPass *pass = g_ptr_array_index (setup->passes, 0);

  g_settings_set_string (cav_settings_get (), CAV_SETTING_UNIT, "mm");
  metric = cav_strip_words_new_name (get_plan (fixture), 0, 0);
  g_assert_true (g_str_has_prefix (metric, "Setup 1, pass 1: "));
  g_assert_true (g_str_has_suffix (metric, " mm"));
  cav_pass_get_measure (get_plan (fixture), setup, pass, &figure);
  g_assert_cmpfloat (figure, >=, 0);

  g_settings_set_string (cav_settings_get (), CAV_SETTING_UNIT, "inch-32");
  inches = cav_strip_words_new_name (get_plan (fixture), 0, 0);
  g_assert_true (g_str_has_suffix (inches, " in"));
  g_settings_set_string (cav_settings_get (), CAV_SETTING_UNIT, "mm");
}

/* Pressing a tile chooses its pass, pressing it again leaves it. */
static void
test_choose (Fixture *fixture, gconstpointer data)
{
  g_autoptr (GPtrArray) tiles = get_tiles (fixture);
  CavSelection *selection = cav_document_get_selection (fixture->document);

  gtk_widget_activate (GTK_WIDGET (get_button (tiles->pdata[1])));
  ui_test_wait_for (cav_selection_get_pass (selection) == 1);
  g_assert_true (gtk_toggle_button_get_active (get_button (tiles->pdata[1])));
  g_assert_false (gtk_toggle_button_get_active (get_button (tiles->pdata[0])));

  cav_selection_set_pass (selection, 0);
  g_assert_true (gtk_toggle_button_get_active (get_button (tiles->pdata[0])));
  g_assert_false (gtk_toggle_button_get_active (get_button (tiles->pdata[1])));
  gtk_widget_activate (GTK_WIDGET (get_button (tiles->pdata[0])));
  ui_test_wait_for (cav_selection_get_pass (selection) == CAV_NO_PASS);
  g_assert_false (gtk_toggle_button_get_active (get_button (tiles->pdata[0])));
}

static gboolean
is_stale (GtkWidget *root)
{
  if (gtk_widget_has_css_class (root, "stale"))
    return TRUE;
  for (GtkWidget *child = gtk_widget_get_first_child (root); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    if (is_stale (child))
      return TRUE;
  return FALSE;
}

/* From the moment of a change on the plan is no longer shown as the plan. */
static void
test_stale (Fixture *fixture, gconstpointer data)
{
  CavProject *project = cav_document_get_project (fixture->document);
  g_autoptr (CavLumber) lumber = cav_lumber_copy (cav_project_get_lumber (project));

  g_assert_false (is_stale (fixture->strip));
  g_assert_false (has_text (fixture->strip, "Planning again"));
  lumber->frames = 2;
  cav_project_set_lumber (project, lumber);
  g_assert_true (is_stale (fixture->strip));
  ui_test_wait_for (!is_stale (fixture->strip));
  g_assert_cmpint (get_plan (fixture)->rails, ==, 8);
}

static void
test_nothing_to_mill (void)
{
  CavDocument *document = cav_document_new ();
  CavProject *project = cav_document_get_project (document);
  CavPlanRunner *runner = cav_document_get_runner (document);
  g_autoptr (CavCut) bead = cav_cut_new_on_side (CAV_CUT_BEAD, CAV_SIDE_FACE);
  GtkWidget *strip = g_object_new (CAV_TYPE_PASS_STRIP, "document", document, NULL);
  GtkWindow *window = ui_test_show (strip, 700, 260);

  bead->numbers[CAV_CUT_POSITION] = 33;
  bead->numbers[CAV_CUT_WIDTH] = 4;
  bead->numbers[CAV_CUT_QUIRK_WIDTH] = 1.6;
  bead->numbers[CAV_CUT_QUIRK_DEPTH] = 0;
  cav_plan_runner_start (runner);
  ui_test_wait_for (cav_plan_runner_get_state (runner) == CAV_PLAN_STATE_CURRENT);
  ui_test_wait_for (has_text (strip, "Nothing to mill yet"));
  g_assert_false (has_text (strip, "hand work"));

  /* Too thin for any tool of the shop, and thin enough for hands. */
  cav_project_add_cut (project, bead);
  ui_test_wait_for (has_text (strip, "No pass can be made"));
  g_assert_true (has_text (strip, "are left for hand work"));
  gtk_window_destroy (window);
  ui_test_finalize (document);
}

#define ADD(path_, test_)                                                                          \
  g_test_add ("/ui/pass-strip/" path_, Fixture, NULL, set_up, test_, tear_down)

int
main (int argc, char *argv[])
{
  ui_test_init (&argc, &argv);
  ADD ("tiles", test_tiles);
  ADD ("words", test_words);
  ADD ("choose", test_choose);
  ADD ("stale", test_stale);
  g_test_add_func ("/ui/pass-strip/nothing-to-mill", test_nothing_to_mill);
  return g_test_run ();
}
