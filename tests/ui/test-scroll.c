/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-scroll.h"

#include <glib.h>

/* A row of movements from one device, 16 ms from each other, and what they are. */
typedef struct
{
  const char *name;
  double clicks[3][2];
  gboolean is_pixels;
  gboolean is_touchpad;
  gboolean by_fingers[3];
} Row;

static const Row ROWS[] = {
  { "wheel", { { 0, 1 }, { 0, -1 }, { 0, 2 } }, FALSE, FALSE, { FALSE, FALSE, FALSE } },
  { "tilted-wheel", { { 1, 0 }, { 1, 0 }, { -1, 0 } }, FALSE, FALSE, { FALSE, FALSE, FALSE } },
  { "fine-wheel",
    { { 0, 0.125 }, { 0, 0.25 }, { 0, -0.375 } },
    FALSE,
    FALSE,
    { FALSE, FALSE, FALSE } },
  /* Whole clicks happen to fingers, too, and are theirs while they move on. */
  { "fingers-by-steps",
    { { 0.07, 0.4 }, { 0, 1 }, { 0, 0.3 } },
    FALSE,
    FALSE,
    { TRUE, TRUE, TRUE } },
  { "fingers-by-pixels", { { 0, 12 }, { 3, 8 }, { 0, 1 } }, TRUE, FALSE, { TRUE, TRUE, TRUE } },
  { "touchpad", { { 0, 1 }, { 0, 1 }, { 0, 1 } }, FALSE, TRUE, { TRUE, TRUE, TRUE } },
};

static void
test_row (gconstpointer data)
{
  const Row *row = data;
  CavScrollHabit habit = { FALSE, 0 };

  for (guint i = 0; i < 3; i++)
    {
      const CavScroll scroll = { .dx = row->clicks[i][0],
                                 .dy = row->clicks[i][1],
                                 .is_pixels = row->is_pixels,
                                 .is_touchpad = row->is_touchpad,
                                 .time = 5000 + 16 * i };

      g_assert_cmpint (cav_scroll_is_by_fingers (&habit, &scroll), ==, row->by_fingers[i]);
    }
}

/* After a pause the other hand may have taken the wheel. */
static void
test_pause (void)
{
  CavScrollHabit habit = { FALSE, 0 };
  const CavScroll fingers = { .dy = 0.31, .time = 1000 };
  const CavScroll soon = { .dy = 1, .time = 1390 };
  const CavScroll later = { .dy = 1, .time = 1800 };

  g_assert_true (cav_scroll_is_by_fingers (&habit, &fingers));
  g_assert_true (cav_scroll_is_by_fingers (&habit, &soon));
  g_assert_false (cav_scroll_is_by_fingers (&habit, &later));
}

/* What is told in pixels goes with the fingers, and is not taken for clicks. */
static void
test_pixels (void)
{
  const CavScroll clicks = { .dx = 0.5, .dy = -1 };
  const CavScroll pixels = { .dx = 7, .dy = -11, .is_pixels = TRUE };
  CavPoint by_clicks = cav_scroll_get_pixels (&clicks);
  CavPoint by_pixels = cav_scroll_get_pixels (&pixels);

  g_assert_cmpfloat_with_epsilon (by_clicks.x, -15, 1e-9);
  g_assert_cmpfloat_with_epsilon (by_clicks.y, 30, 1e-9);
  g_assert_cmpfloat_with_epsilon (by_pixels.x, -7, 1e-9);
  g_assert_cmpfloat_with_epsilon (by_pixels.y, 11, 1e-9);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (ROWS); i++)
    {
      g_autofree char *path = g_strconcat ("/ui/scroll/", ROWS[i].name, NULL);

      g_test_add_data_func (path, &ROWS[i], test_row);
    }
  g_test_add_func ("/ui/scroll/pause", test_pause);
  g_test_add_func ("/ui/scroll/pixels", test_pixels);
  return g_test_run ();
}
