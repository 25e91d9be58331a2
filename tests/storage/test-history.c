/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <string.h>

#include "storage-test.h"

/*
 * Edits of all sorts in any order: undone one by one, each moment is stored as the same bytes that
 * it had before; redone, the same again. Seeds are printed by the framework.
 */

static CavCut *
create_cut (void)
{
  CavCutKind kind = (CavCutKind)g_test_rand_int_range (0, CAV_CUT_DRAWN + 1);
  CavCut *cut;

  if (kind == CAV_CUT_DRAWN)
    {
      g_autoptr (CavPath) path = cav_path_new ();

      cav_path_move_to (path, CAV_POINT (g_test_rand_double_range (0, 20), 3.0));
      cav_path_line_to (path, CAV_POINT (30.0, g_test_rand_double_range (0, 2)));
      cav_path_line_to (path, CAV_POINT (30.0, 20.0));
      cav_path_close (path);
      return cav_cut_new_drawn (path);
    }
  cut = cav_cut_new (kind);
  if (cut->anchor == CAV_ANCHOR_CORNER)
    cut->corner = (CavCorner)g_test_rand_int_range (0, CAV_N_CORNERS);
  else
    cut->side = (CavSide)g_test_rand_int_range (0, CAV_N_SIDES);
  return cut;
}

static GPtrArray *
create_cuts (guint n)
{
  GPtrArray *cuts = g_ptr_array_new_with_free_func ((GDestroyNotify)cav_cut_free);

  for (guint i = 0; i < n; i++)
    g_ptr_array_add (cuts, create_cut ());
  return cuts;
}

static void
edit_cuts (CavProject *project)
{
  guint n = cav_project_get_cut_count (project);
  guint at = n > 0 ? (guint)g_test_rand_int_range (0, (gint32)n) : 0;
  guint other = n > 0 ? (guint)g_test_rand_int_range (0, (gint32)n) : 0;
  const guint both[] = { at, other };
  g_autoptr (CavCut) cut = create_cut ();
  g_autoptr (GPtrArray) two = create_cuts (2);

  switch (n == 0 ? 0 : g_test_rand_int_range (0, 7))
    {
    case 0:
      cav_project_add_cut (project, cut);
      break;
    case 1:
      cav_project_insert_cut (project, at, cut);
      break;
    case 2:
      cav_project_set_cut (project, at, cut);
      break;
    case 3:
      cav_project_remove_cut (project, at);
      break;
    case 4:
      cav_project_add_cuts (project, two);
      break;
    case 5:
      cav_project_set_cuts (project, both, two);
      break;
    case 6:
      cav_project_remove_cuts (project, both, 2);
      break;
    }
}

static void
edit_frame (CavProject *project)
{
  g_autoptr (CavFrameSettings) settings
      = cav_frame_settings_copy (cav_project_get_frame_settings (project));

  settings->border_left = g_test_rand_double_range (10, 90);
  cav_frame_settings_set_picture_file (settings, g_test_rand_bit () ? "fern.png" : NULL);
  cav_project_set_frame_settings (project, g_test_rand_int_range (0, 5) == 0 ? NULL : settings);
}

static void
edit_lumber (CavProject *project)
{
  g_autoptr (CavLumber) lumber = cav_lumber_copy (cav_project_get_lumber (project));

  lumber->frames = g_test_rand_int_range (1, 5);
  g_ptr_array_add (lumber->boards, cav_board_new ());
  cav_project_set_lumber (project, lumber);
}

static void
edit_shop (CavProject *project)
{
  g_autoptr (CavShop) shop = cav_shop_copy (cav_project_get_shop (project));

  shop->rates.turn = g_test_rand_double_range (0, 5);
  if (shop->cutters->len > 0 && g_test_rand_bit ())
    g_ptr_array_remove_index (shop->cutters, shop->cutters->len - 1);
  cav_project_set_shop (project, shop);
}

static void
edit (CavProject *project)
{
  g_autofree char *text = g_strdup_printf ("text %d", g_test_rand_int_range (0, 3));

  switch (g_test_rand_int_range (0, 12))
    {
    case 0:
      cav_project_set_title (project, text);
      break;
    case 1:
      cav_project_set_notes (project, text);
      break;
    case 2:
      cav_project_set_blank (project, (CavBlank){ g_test_rand_double_range (20, 90), 25.0 });
      break;
    case 3:
      cav_project_set_wood (project, g_test_rand_bit () ? cav_wood_get (1) : NULL);
      break;
    case 4:
      cav_project_set_rails (project, g_test_rand_int_range (1, 9), 1234.5);
      break;
    case 5:
      edit_shop (project);
      break;
    case 6:
      edit_frame (project);
      break;
    case 7:
      edit_lumber (project);
      break;
    default:
      edit_cuts (project);
      break;
    }
}

/* One edit, several as one, or several and then none of them. */
static void
make_step (CavProject *project)
{
  int way = g_test_rand_int_range (0, 4);

  if (way < 2)
    {
      edit (project);
      return;
    }
  cav_project_begin (project, "gesture");
  for (int i = g_test_rand_int_range (0, 5); i > 0; i--)
    edit (project);
  if (way == 2)
    cav_project_end (project);
  else
    cav_project_abandon (project);
}

static void
assert_stored_as (CavProject *project, GBytes *expected)
{
  g_autoptr (GBytes) bytes = cav_storage_project_to_bytes (project);

  g_assert_cmpmem (g_bytes_get_data (bytes, NULL), g_bytes_get_size (bytes),
                   g_bytes_get_data (expected, NULL), g_bytes_get_size (expected));
}

static void
test_undo_all_redo_all (void)
{
  for (int round = 0; round < 5; round++)
    {
      g_autoptr (CavProject) project = cav_project_new ();
      g_autoptr (GPtrArray) moments
          = g_ptr_array_new_with_free_func ((GDestroyNotify)g_bytes_unref);
      guint n;

      g_ptr_array_add (moments, cav_storage_project_to_bytes (project));
      for (int i = 0; i < 80; i++)
        {
          GBytes *bytes;

          make_step (project);
          bytes = cav_storage_project_to_bytes (project);
          /* What changed nothing left no step. */
          if (g_bytes_equal (bytes, g_ptr_array_index (moments, moments->len - 1)))
            g_bytes_unref (bytes);
          else
            g_ptr_array_add (moments, bytes);
        }
      n = moments->len;
      g_assert_cmpuint (n, >, 30);
      for (guint i = n - 1; i > 0; i--)
        {
          g_assert_true (cav_project_undo (project));
          assert_stored_as (project, g_ptr_array_index (moments, i - 1));
          g_assert_true (cav_project_is_modified (project) == (i - 1 > 0)
                         || g_bytes_equal (g_ptr_array_index (moments, i - 1),
                                           g_ptr_array_index (moments, 0)));
        }
      g_assert_false (cav_project_undo (project));
      g_assert_false (cav_project_is_modified (project));
      for (guint i = 1; i < n; i++)
        {
          g_assert_true (cav_project_redo (project));
          assert_stored_as (project, g_ptr_array_index (moments, i));
        }
      g_assert_false (cav_project_redo (project));
    }
}

/* A worker stores a snapshot while editing goes on: it is what it was when it was taken. */
static gpointer
store_cb (gpointer data)
{
  return cav_storage_project_to_bytes (data);
}

static void
test_snapshots_in_threads (void)
{
  g_autoptr (CavProject) project = cav_project_new ();

  for (int i = 0; i < 60; i++)
    {
      g_autoptr (GBytes) now = NULL;
      g_autoptr (GBytes) stored = NULL;
      g_autoptr (CavProject) snapshot = NULL;
      GThread *thread;

      make_step (project);
      now = cav_storage_project_to_bytes (project);
      snapshot = cav_project_copy_snapshot (project);
      thread = g_thread_new ("store", store_cb, snapshot);
      for (int k = 0; k < 5; k++)
        make_step (project);
      while (g_test_rand_int_range (0, 3) > 0 && cav_project_undo (project))
        ;
      stored = g_thread_join (thread);
      g_assert_true (g_bytes_equal (now, stored));
    }
}

int
main (int argc, char *argv[])
{
  storage_test_init (&argc, &argv);
  g_test_add_func ("/storage/history/undo-all-redo-all", test_undo_all_redo_all);
  g_test_add_func ("/storage/history/snapshots-in-threads", test_snapshots_in_threads);
  return g_test_run ();
}
