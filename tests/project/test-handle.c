/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "project/cav-handle.h"

#include "geometry/cav-tolerance.h"
#include "project/cav-path-edit.h"

#include <math.h>

static const CavBlank blank = { .width = 60.0, .thickness = 40.0 };

/* One of each kind, anchor and form, in the middle of its range. */
static GPtrArray *
create_all (void)
{
  GPtrArray *cuts = g_ptr_array_new_with_free_func ((GDestroyNotify)cav_cut_free);
  CavPath *path = cav_path_new ();

  for (int kind = 0; kind < CAV_N_CUT_KINDS; kind++)
    {
      const CavCutInfo *info = cav_cut_kind_get_info ((CavCutKind)kind);

      for (guint form = 0; form < info->n_forms; form++)
        for (int i = 0; i < 4; i++)
          {
            if (info->anchors & (1u << CAV_ANCHOR_CORNER))
              {
                CavCut *cut = cav_cut_new_at_corner ((CavCutKind)kind, (CavCorner)i);

                cut->form = info->forms[form];
                cut->numbers[CAV_CUT_SHIFT_X] = 2.0;
                cut->numbers[CAV_CUT_SHIFT_Y] = 1.0;
                g_ptr_array_add (cuts, cut);
              }
            if (info->anchors & (1u << CAV_ANCHOR_SIDE))
              {
                CavCut *cut = cav_cut_new_on_side ((CavCutKind)kind, (CavSide)i);

                cut->form = info->forms[form];
                if (kind != CAV_CUT_BEVEL)
                  cut->numbers[CAV_CUT_POSITION] = 18.0;
                g_ptr_array_add (cuts, cut);
              }
          }
    }
  cav_path_move_to (path, CAV_POINT (10.0, 10.0));
  cav_path_line_to (path, CAV_POINT (20.0, 10.0));
  cav_path_line_to (path, CAV_POINT (20.0, 20.0));
  cav_path_arc (path, CAV_POINT (15.0, 20.0), 5.0, 5.0, 0.0, 180.0);
  cav_path_close (path);
  g_ptr_array_add (cuts, cav_cut_new_drawn (path));
  cav_path_free (path);
  return cuts;
}

static gboolean
changes (const CavHandle *handle, CavCutNumber number)
{
  for (guint i = 0; i < handle->n_numbers; i++)
    if (handle->numbers[i] == number)
      return TRUE;
  return FALSE;
}

/* Every number of every kind can be taken hold of; what a shift along a side says is said by the
 * position already. */
static void
test_all_numbers_have_handles (void)
{
  g_autoptr (GPtrArray) cuts = create_all ();

  for (guint i = 0; i < cuts->len; i++)
    {
      const CavCut *cut = g_ptr_array_index (cuts, i);
      const CavCutInfo *info = cav_cut_kind_get_info (cut->kind);
      g_autoptr (GArray) handles = cav_handle_list_new (cut, &blank);
      const CavHandle *last = &g_array_index (handles, CavHandle, handles->len - 1);
      guint moves = 0;

      g_assert_cmpint (last->kind, ==, CAV_HANDLE_MOVE);
      for (guint k = 0; k < handles->len; k++)
        moves += g_array_index (handles, CavHandle, k).kind == CAV_HANDLE_MOVE;
      g_assert_cmpuint (moves, ==, 1);
      for (guint n = 0; n < info->n_numbers; n++)
        {
          CavCutNumber number = info->numbers[n].number;
          gboolean found = FALSE;

          for (guint k = 0; k < handles->len; k++)
            found = found || changes (&g_array_index (handles, CavHandle, k), number);
          if (cut->anchor == CAV_ANCHOR_SIDE
              && number
                     == (cut->side == CAV_SIDE_BACK || cut->side == CAV_SIDE_FACE
                             ? CAV_CUT_SHIFT_X
                             : CAV_CUT_SHIFT_Y))
            continue;
          if (cut->anchor == CAV_ANCHOR_CORNER && number == CAV_CUT_POSITION)
            continue;
          if (!found)
            g_test_message ("%s %s", info->name, info->numbers[n].name);
          g_assert_true (found);
        }
    }
}

/* Most handles lie on the outline of what is taken, and where they do and are dragged a little,
 * the outline comes along: after the drag the handle of the same place is where the pointer is. */
static void
test_follow_the_pointer (void)
{
  g_autoptr (GPtrArray) cuts = create_all ();
  guint checked = 0;

  for (guint i = 0; i < cuts->len; i++)
    {
      const CavCut *cut = g_ptr_array_index (cuts, i);
      g_autoptr (GArray) handles = cav_handle_list_new (cut, &blank);

      for (guint k = 0; k < handles->len; k++)
        {
          const CavHandle *handle = &g_array_index (handles, CavHandle, k);
          gboolean free = fabs (handle->direction.x) + fabs (handle->direction.y) < 0.5;
          CavPoint way = free ? CAV_POINT (0.3, 0.2)
                              : CAV_POINT (handle->direction.x * 0.3, handle->direction.y * 0.3);
          CavPoint point = CAV_POINT (handle->point.x + way.x, handle->point.y + way.y);
          g_autoptr (CavCut) dragged = cav_handle_drag (cut, handle, &blank, point);
          g_autoptr (GArray) after = cav_handle_list_new (dragged, &blank);
          const CavHandle *moved = &g_array_index (after, CavHandle, k);

          g_assert_cmpuint (after->len, ==, handles->len);
          if (handle->n_numbers > 0 && handle->numbers[0] == CAV_CUT_COUNT)
            continue;
          /* A quirk's middle follows its width, and edges keep to the middle of what changed. */
          double error = fabs ((moved->point.x - point.x) * (free ? 1.0 : handle->direction.x))
                         + fabs ((moved->point.y - point.y) * (free ? 1.0 : handle->direction.y));
          if (error > 1e-9)
            g_test_message ("%s, handle %u", cav_cut_kind_get_info (cut->kind)->name, k);
          g_assert_cmpfloat (error, <, 1e-9);
          checked++;
        }
    }
  g_assert_cmpuint (checked, >, 200);
}

/* Far out and in any direction: numbers stay in the range of their kind, and no more is asked of
 * a file that is read. */
static void
test_keep_in_range (void)
{
  g_autoptr (GPtrArray) cuts = create_all ();

  for (guint i = 0; i < cuts->len; i++)
    {
      const CavCut *cut = g_ptr_array_index (cuts, i);
      const CavCutInfo *info = cav_cut_kind_get_info (cut->kind);
      g_autoptr (GArray) handles = cav_handle_list_new (cut, &blank);

      for (guint k = 0; k < handles->len; k++)
        for (int turn = 0; turn < 60; turn++)
          {
            double far = turn < 30 ? 1e4 : 15.0;
            double angle = g_test_rand_double_range (0.0, 2.0 * G_PI);
            CavPoint point = CAV_POINT (30.0 + far * cos (angle), 20.0 + far * sin (angle));
            g_autoptr (CavCut) dragged
                = cav_handle_drag (cut, &g_array_index (handles, CavHandle, k), &blank, point);

            for (guint n = 0; n < info->n_numbers; n++)
              {
                double value = dragged->numbers[info->numbers[n].number];

                g_assert_cmpfloat (value, >=, info->numbers[n].minimum);
                g_assert_cmpfloat (value, <=, info->numbers[n].maximum);
              }
            if (cut->kind == CAV_CUT_DRAWN)
              continue;
            g_autoptr (GError) error = NULL;
            g_autoptr (CavRegion) region = cav_cut_create_region (dragged, &blank, &error);
            if (region == NULL)
              g_test_message ("%s, handle %u: %s", info->name, k, error->message);
            g_assert_nonnull (region);
          }
    }
}

/* The index of the handle of that kind that changes number first. */
static guint
find_for (GArray *handles, CavHandleKind kind, CavCutNumber number)
{
  for (guint i = 0; i < handles->len; i++)
    {
      const CavHandle *handle = &g_array_index (handles, CavHandle, i);

      if (handle->kind == kind && handle->n_numbers > 0 && handle->numbers[0] == number)
        return i;
    }
  g_assert_not_reached ();
}

static void
test_edge_keeps_the_other (void)
{
  g_autoptr (CavCut) groove = cav_cut_new_on_side (CAV_CUT_GROOVE, CAV_SIDE_FACE);
  g_autoptr (GArray) handles = NULL;
  g_autoptr (CavCut) wider = NULL;
  g_autoptr (CavCut) typed = NULL;

  groove->numbers[CAV_CUT_POSITION] = 20.0;
  groove->numbers[CAV_CUT_WIDTH] = 6.0;
  handles = cav_handle_list_new (groove, &blank);
  /* The low edge, at 17, goes to 13; the other stays at 23. */
  wider = cav_handle_drag (groove, &g_array_index (handles, CavHandle, 0), &blank,
                           CAV_POINT (13.0, 5.0));
  g_assert_cmpfloat_with_epsilon (wider->numbers[CAV_CUT_WIDTH], 10.0, 1e-9);
  g_assert_cmpfloat_with_epsilon (wider->numbers[CAV_CUT_POSITION], 18.0, 1e-9);
  /* The high edge, by typing a width of 8: it is at 25 then. */
  typed = cav_handle_type (groove, &g_array_index (handles, CavHandle, 1), &blank, 8.0);
  g_assert_true (typed->numbers[CAV_CUT_WIDTH] >= 8.0 && typed->numbers[CAV_CUT_WIDTH] <= 8.0);
  g_assert_cmpfloat_with_epsilon (typed->numbers[CAV_CUT_POSITION], 21.0, 1e-9);
}

static void
test_corner_jumps (void)
{
  g_autoptr (CavCut) rabbet = cav_cut_new_at_corner (CAV_CUT_RABBET, CAV_CORNER_BACK_INSIDE);
  g_autoptr (GArray) handles = cav_handle_list_new (rabbet, &blank);
  const CavHandle *move = &g_array_index (handles, CavHandle, handles->len - 1);
  g_autoptr (CavCut) near = NULL;
  g_autoptr (CavCut) over = NULL;

  /* 6 wide and 10 deep; the handle at (3, 5). */
  near = cav_handle_drag (rabbet, move, &blank, CAV_POINT (5.0, 6.0));
  g_assert_cmpint (near->corner, ==, CAV_CORNER_BACK_INSIDE);
  g_assert_cmpfloat_with_epsilon (near->numbers[CAV_CUT_SHIFT_X], 2.0, 1e-9);
  g_assert_cmpfloat_with_epsilon (near->numbers[CAV_CUT_SHIFT_Y], 1.0, 1e-9);
  over = cav_handle_drag (rabbet, move, &blank, CAV_POINT (57.0, 35.0));
  g_assert_cmpint (over->corner, ==, CAV_CORNER_FACE_OUTSIDE);
  g_assert_cmpfloat_with_epsilon (over->numbers[CAV_CUT_SHIFT_X], 0.0, 1e-9);
  g_assert_cmpfloat_with_epsilon (over->numbers[CAV_CUT_SHIFT_Y], 0.0, 1e-9);
  /* Not out over the edge. */
  g_clear_pointer (&over, cav_cut_free);
  over = cav_handle_drag (rabbet, move, &blank, CAV_POINT (-30.0, 300.0));
  g_assert_cmpint (over->corner, ==, CAV_CORNER_FACE_INSIDE);
  g_assert_cmpfloat_with_epsilon (over->numbers[CAV_CUT_SHIFT_X], 0.0, 1e-9);
  g_assert_cmpfloat_with_epsilon (over->numbers[CAV_CUT_SHIFT_Y], 0.0, 1e-9);
}

/* Moving over the middle changes the corner, and not what is taken from the wood. */
static void
test_corner_change_is_smooth (void)
{
  g_autoptr (CavCut) rabbet = cav_cut_new_at_corner (CAV_CUT_RABBET, CAV_CORNER_BACK_INSIDE);
  g_autoptr (GArray) handles = cav_handle_list_new (rabbet, &blank);
  const CavHandle *move = &g_array_index (handles, CavHandle, handles->len - 1);

  for (double x = 3.0; x <= 57.0; x += 0.5)
    {
      g_autoptr (CavCut) moved = cav_handle_drag (rabbet, move, &blank, CAV_POINT (x, 5.0));
      g_autoptr (CavRegion) region = cav_cut_create_region (moved, &blank, NULL);
      CavBox box = cav_region_get_bounds (region);

      g_assert_cmpfloat_with_epsilon (box.x0, x - 3.0, 1e-9);
      g_assert_cmpfloat_with_epsilon (box.x1, x + 3.0, 1e-9);
    }
}

static void
test_side_jumps (void)
{
  g_autoptr (CavCut) groove = cav_cut_new_on_side (CAV_CUT_GROOVE, CAV_SIDE_FACE);
  g_autoptr (GArray) handles = cav_handle_list_new (groove, &blank);
  const CavHandle *move = &g_array_index (handles, CavHandle, handles->len - 1);
  g_autoptr (CavCut) along = cav_handle_drag (groove, move, &blank, CAV_POINT (40.0, 10.0));
  g_autoptr (CavCut) other = cav_handle_drag (groove, move, &blank, CAV_POINT (-3.0, 12.0));

  g_assert_cmpint (along->side, ==, CAV_SIDE_FACE);
  g_assert_cmpfloat_with_epsilon (along->numbers[CAV_CUT_POSITION], 40.0, 1e-9);
  g_assert_cmpint (other->side, ==, CAV_SIDE_INSIDE);
  g_assert_cmpfloat_with_epsilon (other->numbers[CAV_CUT_POSITION], 12.0, 1e-9);
}

static void
test_bevel_keeps_something (void)
{
  g_autoptr (CavCut) bevel = cav_cut_new_on_side (CAV_CUT_BEVEL, CAV_SIDE_FACE);
  g_autoptr (GArray) handles = cav_handle_list_new (bevel, &blank);
  g_autoptr (CavCut) none = NULL;
  g_autoptr (CavCut) lower = NULL;

  none = cav_handle_drag (
      bevel,
      &g_array_index (handles, CavHandle,
                      find_for (handles, CAV_HANDLE_NUMBER, CAV_CUT_START_HEIGHT)),
      &blank, CAV_POINT (0.0, 90.0));
  g_assert_cmpfloat_with_epsilon (none->numbers[CAV_CUT_START_HEIGHT], 0.1, 1e-9);
  /* 6 at one end, 0 at the other: 4 lower. */
  lower = cav_handle_drag (bevel, &g_array_index (handles, CavHandle, handles->len - 1), &blank,
                           CAV_POINT (30.0, 33.0));
  g_assert_cmpfloat_with_epsilon (lower->numbers[CAV_CUT_START_HEIGHT], 10.0, 1e-9);
  g_assert_cmpfloat_with_epsilon (lower->numbers[CAV_CUT_END_HEIGHT], 4.0, 1e-9);
}

static void
test_steps_count (void)
{
  g_autoptr (CavCut) steps = cav_cut_new_at_corner (CAV_CUT_STEPS, CAV_CORNER_BACK_INSIDE);
  g_autoptr (GArray) handles = cav_handle_list_new (steps, &blank);
  const CavHandle *handle
      = &g_array_index (handles, CavHandle, find_for (handles, CAV_HANDLE_NUMBER, CAV_CUT_COUNT));
  g_autoptr (CavCut) more = cav_handle_drag (steps, handle, &blank, CAV_POINT (0.0, 15.2));

  /* Three of 3 mm; five at 15. */
  g_assert_cmpfloat_with_epsilon (more->numbers[CAV_CUT_COUNT], 5.0, 1e-12);
}

static void
test_quirk_of_usual_depth (void)
{
  g_autoptr (CavCut) bead = cav_cut_new_on_side (CAV_CUT_BEAD, CAV_SIDE_BACK);
  g_autoptr (GArray) handles = cav_handle_list_new (bead, &blank);
  const CavHandle *handle = &g_array_index (
      handles, CavHandle, find_for (handles, CAV_HANDLE_NUMBER, CAV_CUT_QUIRK_DEPTH));
  g_autoptr (CavCut) deeper = NULL;

  g_assert_cmpfloat_with_epsilon (handle->point.y, 3.2, 1e-9);
  deeper = cav_handle_drag (bead, handle, &blank, CAV_POINT (handle->point.x, 4.2));
  g_assert_cmpfloat_with_epsilon (deeper->numbers[CAV_CUT_QUIRK_DEPTH], 4.2, 1e-9);
}

static void
test_path_handles (void)
{
  g_autoptr (GPtrArray) cuts = create_all ();
  const CavCut *drawn = g_ptr_array_index (cuts, cuts->len - 1);
  g_autoptr (GArray) handles = cav_handle_list_new (drawn, &blank);
  g_autoptr (CavCut) point = NULL;
  g_autoptr (CavCut) bulge = NULL;
  g_autoptr (CavCut) moved = NULL;
  CavPoint start;

  g_assert_cmpuint (handles->len, ==, 9);
  point = cav_handle_drag (drawn, &g_array_index (handles, CavHandle, 1), &blank,
                           CAV_POINT (24.0, 8.0));
  start = cav_path_edit_get_point (point->path, 1);
  g_assert_cmpfloat_with_epsilon (start.x, 24.0, 1e-9);
  g_assert_cmpfloat_with_epsilon (start.y, 8.0, 1e-9);
  /* The lower line pulled down by 2. */
  bulge = cav_handle_drag (drawn, &g_array_index (handles, CavHandle, 4), &blank,
                           CAV_POINT (15.0, 8.0));
  g_assert_cmpfloat_with_epsilon (cav_path_edit_get_bulge (bulge->path, 0), 2.0, 1e-9);
  moved = cav_handle_drag (drawn, &g_array_index (handles, CavHandle, 8), &blank,
                           CAV_POINT (16.0, 19.5));
  start = cav_path_get_start (moved->path);
  g_assert_cmpfloat_with_epsilon (start.x, 11.0, 1e-9);
  g_assert_cmpfloat_with_epsilon (start.y, 12.0, 1e-9);
}

static void
test_find (void)
{
  g_autoptr (CavCut) rabbet = cav_cut_new_at_corner (CAV_CUT_RABBET, CAV_CORNER_BACK_INSIDE);
  g_autoptr (GArray) handles = cav_handle_list_new (rabbet, &blank);

  g_assert_cmpint (cav_handle_find (handles, CAV_POINT (6.2, 9.9), 1.0), ==, 0);
  g_assert_cmpint (cav_handle_find (handles, CAV_POINT (6.2, 5.2), 1.0), ==, 1);
  g_assert_cmpint (cav_handle_find (handles, CAV_POINT (3.0, 9.5), 1.0), ==, 2);
  g_assert_cmpint (cav_handle_find (handles, CAV_POINT (3.0, 5.0), 1.0), ==, 3);
  g_assert_cmpint (cav_handle_find (handles, CAV_POINT (30.0, 5.0), 1.0), ==, -1);
  /* Between two that are equally far, the earlier. */
  g_assert_cmpint (cav_handle_find (handles, CAV_POINT (4.5, 5.0), 2.0), ==, 1);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
#define ADD(name, function) g_test_add_func ("/project/handle/" name, function)
  ADD ("all-numbers-have-handles", test_all_numbers_have_handles);
  ADD ("follow-the-pointer", test_follow_the_pointer);
  ADD ("keep-in-range", test_keep_in_range);
  ADD ("edge-keeps-the-other", test_edge_keeps_the_other);
  ADD ("corner-jumps", test_corner_jumps);
  ADD ("corner-change-is-smooth", test_corner_change_is_smooth);
  ADD ("side-jumps", test_side_jumps);
  ADD ("bevel-keeps-something", test_bevel_keeps_something);
  ADD ("steps-count", test_steps_count);
  ADD ("quirk-of-usual-depth", test_quirk_of_usual_depth);
  ADD ("path-handles", test_path_handles);
  ADD ("find", test_find);
#undef ADD
  return g_test_run ();
}
