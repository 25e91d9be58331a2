/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "project/cav-project.h"

#include <math.h>
#include <stdio.h>

typedef struct
{
  guint changed;
  guint history;
  guint parts; /* of the last change */
} Watch;

static void
changed_cb (CavProject *project, guint parts, Watch *watch)
{
  watch->changed++;
  watch->parts = parts;
}

static void
history_cb (CavProject *project, Watch *watch)
{
  watch->history++;
}

static CavProject *
create_watched (Watch *watch)
{
  CavProject *project = cav_project_new ();

  *watch = (Watch){ 0 };
  g_signal_connect (project, "changed", G_CALLBACK (changed_cb), watch);
  g_signal_connect (project, "history", G_CALLBACK (history_cb), watch);
  return project;
}

static void
add_groove (CavProject *project, double position)
{
  g_autoptr (CavCut) groove = cav_cut_new_on_side (CAV_CUT_GROOVE, CAV_SIDE_FACE);

  groove->numbers[CAV_CUT_POSITION] = position;
  cav_project_add_cut (project, groove);
}

static double
get_position (CavProject *project, guint index)
{
  return cav_project_get_cut (project, index)->numbers[CAV_CUT_POSITION];
}

static void
set_position (CavProject *project, guint index, double position)
{
  g_autoptr (CavCut) cut = cav_cut_copy (cav_project_get_cut (project, index));

  cut->numbers[CAV_CUT_POSITION] = position;
  cav_project_set_cut (project, index, cut);
}

static void
test_starts_without (void)
{
  g_autoptr (CavProject) project = cav_project_new ();

  g_assert_null (cav_project_get_undo_name (project));
  g_assert_null (cav_project_get_redo_name (project));
  g_assert_false (cav_project_undo (project));
  g_assert_false (cav_project_redo (project));
  g_assert_false (cav_project_is_modified (project));
  g_assert_false (cav_project_is_in_step (project));
}

static void
test_every_setter_is_a_step (void)
{
  static const char *const names[]
      = { "edit title",  "edit notes", "resize blank", "choose wood",  "set rails",
          "change shop", "add groove", "edit groove",  "remove groove" };
  g_autoptr (CavProject) project = cav_project_new ();
  g_autoptr (CavShop) shop = cav_shop_new ();

  cav_project_set_title (project, "Fern");
  cav_project_set_notes (project, "for the reading room");
  cav_project_set_blank (project, (CavBlank){ .width = 30.0, .thickness = 20.0 });
  cav_project_set_wood (project, cav_wood_get (0));
  cav_project_set_rails (project, 3, 1000.0);
  cav_project_set_shop (project, shop);
  add_groove (project, 10.0);
  set_position (project, 0, 12.0);
  cav_project_remove_cut (project, 0);

  for (guint i = G_N_ELEMENTS (names); i-- > 0;)
    {
      g_assert_cmpstr (cav_project_get_undo_name (project), ==, names[i]);
      g_assert_true (cav_project_undo (project));
      g_assert_cmpstr (cav_project_get_redo_name (project), ==, names[i]);
    }
  g_assert_false (cav_project_undo (project));
  g_assert_cmpstr (cav_project_get_title (project), ==, "");
  g_assert_null (cav_project_get_wood (project));
  g_assert_cmpuint (cav_project_get_shop (project)->cutters->len, >, 0);

  for (guint i = 0; i < G_N_ELEMENTS (names); i++)
    {
      g_assert_cmpstr (cav_project_get_redo_name (project), ==, names[i]);
      g_assert_true (cav_project_redo (project));
    }
  g_assert_cmpstr (cav_project_get_title (project), ==, "Fern");
  g_assert_cmpint (cav_project_get_rails (project), ==, 3);
  g_assert_cmpuint (cav_project_get_shop (project)->cutters->len, ==, 0);
  g_assert_cmpuint (cav_project_get_cut_count (project), ==, 0);
}

static void
test_same_again_is_no_step (void)
{
  Watch watch;
  g_autoptr (CavProject) project = create_watched (&watch);

  cav_project_set_title (project, "");
  cav_project_set_blank (project, cav_project_get_blank (project));
  cav_project_set_shop (project, cav_project_get_shop (project));
  cav_project_set_rails (project, cav_project_get_rails (project),
                         cav_project_get_length (project));
  g_assert_null (cav_project_get_undo_name (project));
  g_assert_cmpuint (watch.changed, ==, 0);
  g_assert_cmpuint (watch.history, ==, 0);
}

static void
test_parts (void)
{
  Watch watch;
  g_autoptr (CavProject) project = create_watched (&watch);
  g_autoptr (CavShop) shop = cav_shop_new ();

  cav_project_set_title (project, "a");
  g_assert_cmphex (watch.parts, ==, CAV_PART_TEXTS);
  cav_project_set_notes (project, "b");
  g_assert_cmphex (watch.parts, ==, CAV_PART_TEXTS);
  add_groove (project, 5.0);
  g_assert_cmphex (watch.parts, ==, CAV_PART_SECTION);
  cav_project_set_wood (project, cav_wood_get (0));
  g_assert_cmphex (watch.parts, ==, CAV_PART_WOOD);
  cav_project_set_rails (project, 2, 500.0);
  g_assert_cmphex (watch.parts, ==, CAV_PART_RAILS);
  cav_project_set_shop (project, shop);
  g_assert_cmphex (watch.parts, ==, CAV_PART_SHOP);
  cav_project_undo (project);
  g_assert_cmphex (watch.parts, ==, CAV_PART_SHOP);
  cav_project_undo (project);
  g_assert_cmphex (watch.parts, ==, CAV_PART_RAILS);
  g_assert_cmpuint (watch.changed, ==, 8);
}

static void
test_a_gesture_is_one_step (void)
{
  Watch watch;
  g_autoptr (CavProject) project = create_watched (&watch);

  add_groove (project, 5.0);
  watch = (Watch){ 0 };
  cav_project_begin (project, "move groove");
  for (int i = 6; i <= 20; i++)
    set_position (project, 0, i);
  g_assert_cmpuint (watch.changed, ==, 15);
  g_assert_true (cav_project_is_in_step (project));
  g_assert_false (cav_project_undo (project));
  cav_project_end (project);
  g_assert_cmpuint (watch.history, ==, 1);
  g_assert_cmpstr (cav_project_get_undo_name (project), ==, "move groove");
  cav_project_undo (project);
  g_assert_true (fabs (get_position (project, 0) - 5.0) < 1e-12);
  g_assert_cmpstr (cav_project_get_undo_name (project), ==, "add groove");
  cav_project_redo (project);
  g_assert_true (fabs (get_position (project, 0) - 20.0) < 1e-12);
}

static void
test_nested (void)
{
  g_autoptr (CavProject) project = cav_project_new ();

  cav_project_begin (project, "outer");
  add_groove (project, 5.0);
  cav_project_begin (project, "inner");
  add_groove (project, 15.0);
  cav_project_end (project);
  g_assert_true (cav_project_is_in_step (project));
  g_assert_null (cav_project_get_undo_name (project));
  cav_project_end (project);
  g_assert_cmpstr (cav_project_get_undo_name (project), ==, "outer");
  cav_project_undo (project);
  g_assert_cmpuint (cav_project_get_cut_count (project), ==, 0);
  g_assert_null (cav_project_get_undo_name (project));
}

static void
test_nothing_done_is_no_step (void)
{
  Watch watch;
  g_autoptr (CavProject) project = create_watched (&watch);

  add_groove (project, 5.0);
  cav_project_undo (project);
  cav_project_begin (project, "move groove");
  cav_project_end (project);
  /* Nor is there and back again, and what could be redone is still there. */
  cav_project_begin (project, "move groove");
  cav_project_set_title (project, "away");
  cav_project_set_title (project, "");
  cav_project_end (project);
  g_assert_null (cav_project_get_undo_name (project));
  g_assert_cmpstr (cav_project_get_redo_name (project), ==, "add groove");
  g_assert_true (cav_project_redo (project));
  g_assert_cmpuint (cav_project_get_cut_count (project), ==, 1);
}

static void
test_abandon (void)
{
  Watch watch;
  g_autoptr (CavProject) project = create_watched (&watch);

  add_groove (project, 5.0);
  cav_project_begin (project, "outer");
  set_position (project, 0, 7.0);
  cav_project_begin (project, "inner");
  set_position (project, 0, 9.0);
  watch = (Watch){ 0 };
  cav_project_abandon (project);
  g_assert_cmpuint (watch.changed, ==, 1);
  g_assert_cmphex (watch.parts, ==, CAV_PART_SECTION);
  g_assert_true (fabs (get_position (project, 0) - 7.0) < 1e-12);
  cav_project_abandon (project);
  g_assert_true (fabs (get_position (project, 0) - 5.0) < 1e-12);
  g_assert_cmpstr (cav_project_get_undo_name (project), ==, "add groove");
  g_assert_null (cav_project_get_redo_name (project));
  g_assert_false (cav_project_is_in_step (project));
}

static void
test_an_edit_forgets_what_was_undone (void)
{
  g_autoptr (CavProject) project = cav_project_new ();

  add_groove (project, 5.0);
  cav_project_undo (project);
  cav_project_set_title (project, "other way");
  g_assert_null (cav_project_get_redo_name (project));
  g_assert_false (cav_project_redo (project));
  g_assert_cmpstr (cav_project_get_undo_name (project), ==, "edit title");
}

static void
test_modified (void)
{
  Watch watch;
  g_autoptr (CavProject) project = create_watched (&watch);

  add_groove (project, 5.0);
  g_assert_true (cav_project_is_modified (project));
  g_assert_cmpuint (watch.history, ==, 1);
  cav_project_mark_saved (project);
  g_assert_false (cav_project_is_modified (project));
  g_assert_cmpuint (watch.history, ==, 2);
  cav_project_undo (project);
  g_assert_true (cav_project_is_modified (project));
  cav_project_redo (project);
  g_assert_false (cav_project_is_modified (project));
  /* In the middle of a gesture there is already something to save. */
  cav_project_begin (project, "move groove");
  set_position (project, 0, 8.0);
  g_assert_true (cav_project_is_modified (project));
  cav_project_abandon (project);
  g_assert_false (cav_project_is_modified (project));
}

/* What was written in the background is the moment of its snapshot, not the one when it is done. */
static void
test_saved_from_a_snapshot (void)
{
  g_autoptr (CavProject) project = cav_project_new ();
  g_autoptr (CavProject) snapshot = NULL;

  add_groove (project, 5.0);
  snapshot = cav_project_copy_snapshot (project);
  set_position (project, 0, 8.0);
  cav_project_mark_saved_as (project, snapshot);
  g_assert_true (cav_project_is_modified (project));
  cav_project_undo (project);
  g_assert_false (cav_project_is_modified (project));
}

static void
test_snapshot_stands_alone (void)
{
  Watch watch;
  g_autoptr (CavProject) project = create_watched (&watch);
  g_autoptr (CavProject) snapshot = NULL;

  cav_project_set_title (project, "Fern");
  add_groove (project, 5.0);
  snapshot = cav_project_copy_snapshot (project);
  g_assert_null (cav_project_get_undo_name (snapshot));
  g_assert_false (cav_project_is_modified (snapshot));
  /* The parts are the same pieces of memory. */
  g_assert_true (cav_project_get_shop (snapshot) == cav_project_get_shop (project));
  g_assert_true (cav_project_get_cut (snapshot, 0) == cav_project_get_cut (project, 0));
  set_position (project, 0, 9.0);
  cav_project_set_title (snapshot, "Moss");
  g_assert_true (fabs (get_position (snapshot, 0) - 5.0) < 1e-12);
  g_assert_true (fabs (get_position (project, 0) - 9.0) < 1e-12);
  g_assert_cmpstr (cav_project_get_title (project), ==, "Fern");
  g_clear_object (&project);
  g_assert_true (fabs (get_position (snapshot, 0) - 5.0) < 1e-12);
  g_assert_cmpuint (cav_project_get_shop (snapshot)->cutters->len, >, 0);
}

static void
test_load_and_replace (void)
{
  Watch watch;
  g_autoptr (CavProject) project = create_watched (&watch);
  g_autoptr (CavProject) other = cav_project_new ();

  add_groove (project, 5.0);
  cav_project_set_title (other, "other");
  watch = (Watch){ 0 };
  cav_project_replace (project, other, "import outline");
  g_assert_cmphex (watch.parts, ==, CAV_PART_TEXTS | CAV_PART_SECTION);
  g_assert_cmpstr (cav_project_get_undo_name (project), ==, "import outline");
  g_assert_true (cav_project_is_modified (project));
  cav_project_undo (project);
  g_assert_cmpuint (cav_project_get_cut_count (project), ==, 1);

  cav_project_begin (project, "half done");
  cav_project_load (project, other);
  g_assert_false (cav_project_is_in_step (project));
  g_assert_false (cav_project_is_modified (project));
  g_assert_null (cav_project_get_undo_name (project));
  g_assert_null (cav_project_get_redo_name (project));
  g_assert_cmpstr (cav_project_get_title (project), ==, "other");
  g_assert_cmpuint (cav_project_get_cut_count (project), ==, 0);
}

static void
test_frame_and_lumber (void)
{
  Watch watch;
  g_autoptr (CavProject) project = create_watched (&watch);
  g_autoptr (CavFrameSettings) settings = cav_frame_settings_new ();
  g_autoptr (CavLumber) lumber = cav_lumber_new ();
  const CavFrame *frame;
  double length;
  int rails;

  g_assert_false (cav_project_has_frame (project));
  cav_project_get_milled_rails (project, &rails, &length);
  g_assert_cmpint (rails, ==, 4);
  g_assert_cmpfloat_with_epsilon (length, 3200.0, 1e-12);
  cav_project_set_lumber (project, lumber);
  g_assert_cmpuint (watch.changed, ==, 0);

  cav_project_set_frame_settings (project, settings);
  g_assert_cmphex (watch.parts, ==, CAV_PART_FRAME);
  g_assert_true (cav_project_has_frame (project));
  g_assert_cmpstr (cav_project_get_undo_name (project), ==, "change frame");
  lumber->frames = 3;
  cav_project_set_lumber (project, lumber);
  g_assert_cmphex (watch.parts, ==, CAV_PART_BOARDS);
  g_assert_cmpstr (cav_project_get_undo_name (project), ==, "change lumber");
  g_assert_cmpint (cav_project_get_lumber (project)->frames, ==, 3);

  /* A frame without a rabbet is none; with one, its rails are milled. */
  g_autoptr (CavCut) rabbet = cav_cut_new (CAV_CUT_RABBET);
  cav_project_add_cut (project, rabbet);
  frame = cav_project_get_frame (project);
  g_assert_true (frame->possible);
  cav_project_get_milled_rails (project, &rails, &length);
  g_assert_cmpint (rails, ==, 12);
  g_assert_cmpfloat_with_epsilon (length, 3.0 * frame->rails.molding, 1e-9);
  g_assert_true (cav_project_get_frame (project) == frame);

  cav_project_undo (project);
  cav_project_undo (project);
  g_assert_cmphex (watch.parts, ==, CAV_PART_BOARDS);
  cav_project_undo (project);
  g_assert_cmphex (watch.parts, ==, CAV_PART_FRAME);
  g_assert_false (cav_project_has_frame (project));
  g_assert_false (cav_project_is_modified (project));
  cav_project_redo (project);
  cav_project_set_frame_settings (project, NULL);
  g_assert_false (cav_project_has_frame (project));
}

static GPtrArray *
create_grooves (guint n)
{
  GPtrArray *cuts = g_ptr_array_new_with_free_func ((GDestroyNotify)cav_cut_free);

  for (guint i = 0; i < n; i++)
    {
      CavCut *groove = cav_cut_new_on_side (CAV_CUT_GROOVE, CAV_SIDE_FACE);

      groove->numbers[CAV_CUT_POSITION] = i;
      g_ptr_array_add (cuts, groove);
    }
  return cuts;
}

static void
test_many_at_once (void)
{
  static const guint odd[] = { 3, 1, 3 };
  Watch watch;
  g_autoptr (CavProject) project = create_watched (&watch);
  g_autoptr (GPtrArray) five = create_grooves (5);
  g_autoptr (GPtrArray) two = create_grooves (2);
  g_autoptr (CavCut) rabbet = cav_cut_new (CAV_CUT_RABBET);

  cav_project_add_cuts (project, five);
  g_assert_cmpuint (watch.changed, ==, 1);
  g_assert_cmpstr (cav_project_get_undo_name (project), ==, "add cuts");
  cav_project_insert_cut (project, 2, rabbet);
  g_assert_cmpint (cav_project_get_cut (project, 2)->kind, ==, CAV_CUT_RABBET);
  g_assert_true (fabs (get_position (project, 3) - 2.0) < 1e-12);
  cav_project_undo (project);

  cav_project_set_cuts (project, odd, two);
  g_assert_true (fabs (get_position (project, 3) - 0.0) < 1e-12);
  g_assert_true (fabs (get_position (project, 1) - 1.0) < 1e-12);
  cav_project_undo (project);
  cav_project_remove_cuts (project, odd, G_N_ELEMENTS (odd));
  g_assert_cmpuint (cav_project_get_cut_count (project), ==, 3);
  g_assert_true (fabs (get_position (project, 1) - 2.0) < 1e-12);
  g_assert_cmpstr (cav_project_get_undo_name (project), ==, "remove cuts");
  cav_project_undo (project);
  cav_project_replace_cuts (project, two);
  g_assert_cmpuint (cav_project_get_cuts (project)->len, ==, 2);
  cav_project_undo (project);
  cav_project_undo (project);
  g_assert_cmpuint (cav_project_get_cut_count (project), ==, 0);
  g_assert_false (cav_project_is_modified (project));
}

/* An edit that answers an edit: both can be undone, in their order. */
static void
answer_cb (CavProject *project, guint parts, gpointer data)
{
  if (parts & CAV_PART_SECTION)
    cav_project_set_title (project, "answered");
}

static void
test_edits_from_a_handler (void)
{
  g_autoptr (CavProject) project = cav_project_new ();
  gulong handler;

  handler = g_signal_connect (project, "changed", G_CALLBACK (answer_cb), NULL);
  add_groove (project, 5.0);
  g_assert_cmpstr (cav_project_get_title (project), ==, "answered");
  g_assert_cmpstr (cav_project_get_undo_name (project), ==, "edit title");
  g_signal_handler_disconnect (project, handler);
  cav_project_undo (project);
  g_assert_cmpuint (cav_project_get_cut_count (project), ==, 1);
  cav_project_undo (project);
  g_assert_cmpuint (cav_project_get_cut_count (project), ==, 0);
}

/* Resident memory, bytes. */
static gsize
get_resident (void)
{
  g_autofree char *text = NULL;
  unsigned long size, resident;

  g_assert_true (g_file_get_contents ("/proc/self/statm", &text, NULL, NULL));
  g_assert_cmpint (sscanf (text, "%lu %lu", &size, &resident), ==, 2);
  return resident * 4096;
}

/* A cut is about 200 bytes and the list of 300 another 2.4 kB: 2000 steps are some 6 MB where
 * they share what they did not change, and 130 MB where they do not. */
static void
test_stays_small (void)
{
  g_autoptr (CavProject) project = cav_project_new ();
  g_autoptr (GPtrArray) cuts = create_grooves (300);
  gsize before, after;

  cav_project_add_cuts (project, cuts);
  before = get_resident ();
  for (guint i = 0; i < 2000; i++)
    set_position (project, i % 300, 0.001 * i);
  after = get_resident ();
  g_test_message ("2000 edits of 300 cuts: %.1f MB", (double)(after - before) / 1e6);
  g_assert_cmpuint (after - before, <, 25000000);
  while (cav_project_undo (project))
    ;
  g_assert_cmpuint (cav_project_get_cut_count (project), ==, 0);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
#define ADD(name, function) g_test_add_func ("/project/history/" name, function)
  ADD ("starts-without", test_starts_without);
  ADD ("every-setter-is-a-step", test_every_setter_is_a_step);
  ADD ("same-again-is-no-step", test_same_again_is_no_step);
  ADD ("parts", test_parts);
  ADD ("a-gesture-is-one-step", test_a_gesture_is_one_step);
  ADD ("nested", test_nested);
  ADD ("nothing-done-is-no-step", test_nothing_done_is_no_step);
  ADD ("abandon", test_abandon);
  ADD ("an-edit-forgets-what-was-undone", test_an_edit_forgets_what_was_undone);
  ADD ("modified", test_modified);
  ADD ("saved-from-a-snapshot", test_saved_from_a_snapshot);
  ADD ("snapshot-stands-alone", test_snapshot_stands_alone);
  ADD ("load-and-replace", test_load_and_replace);
  ADD ("frame-and-lumber", test_frame_and_lumber);
  ADD ("many-at-once", test_many_at_once);
  ADD ("edits-from-a-handler", test_edits_from_a_handler);
  ADD ("stays-small", test_stays_small);
#undef ADD
  return g_test_run ();
}
