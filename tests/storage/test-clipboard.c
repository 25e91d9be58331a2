/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "storage/cav-clipboard.h"

#include <string.h>

#include "storage-test.h"

static GPtrArray *
create_cuts (void)
{
  GPtrArray *cuts = g_ptr_array_new_with_free_func ((GDestroyNotify)cav_cut_free);
  g_autoptr (CavPath) path = cav_path_new ();

  for (int kind = 0; kind < CAV_CUT_DRAWN; kind++)
    {
      CavCut *cut = cav_cut_new ((CavCutKind)kind);

      if (kind != CAV_CUT_STEPS)
        cut->numbers[CAV_CUT_WIDTH] += cut->numbers[CAV_CUT_WIDTH] > 0.0 ? 1.0 / 3.0 : 0.0;
      g_ptr_array_add (cuts, cut);
    }
  cav_path_move_to (path, CAV_POINT (1.0 / 3.0, 2.0));
  cav_path_line_to (path, CAV_POINT (20.0, 2.0));
  cav_path_arc (path, CAV_POINT (20.0, 5.0), 3.0, 3.0, -90.0, 180.0);
  cav_path_close (path);
  g_ptr_array_add (cuts, cav_cut_new_drawn (path));
  return cuts;
}

static void
test_round_trip (void)
{
  GError *error = NULL;
  g_autoptr (GPtrArray) cuts = create_cuts ();
  g_autofree char *text = cav_clipboard_cuts_to_text (cuts);
  g_autoptr (GPtrArray) back = cav_clipboard_cuts_from_text (text, &error);

  g_assert_no_error (error);
  g_assert_cmpuint (back->len, ==, cuts->len);
  for (guint i = 0; i < cuts->len; i++)
    g_assert_true (cav_cut_equal (g_ptr_array_index (cuts, i), g_ptr_array_index (back, i)));
  g_autofree char *again = cav_clipboard_cuts_to_text (back);
  g_assert_cmpstr (again, ==, text);
}

/* Anything may be on a clipboard. */
static void
test_other_texts (void)
{
  static const struct
  {
    const char *text;
    CavStorageError code;
    const char *part;
  } rows[] = {
    { "", CAV_STORAGE_ERROR_NOT_XML, "clipboard" },
    { "a shopping list", CAV_STORAGE_ERROR_NOT_XML, "clipboard" },
    { "<svg/>", CAV_STORAGE_ERROR_WRONG_KIND, "not a copy of cuts" },
    { "<cavetto version='1' unit='mm'/>", CAV_STORAGE_ERROR_WRONG_KIND, "not a copy of cuts" },
    { "<cuts version='2' unit='mm'/>", CAV_STORAGE_ERROR_NEWER, "newer version" },
    { "<cuts version='1' unit='in'/>", CAV_STORAGE_ERROR_CONTENT, "millimetres" },
    { "<cuts version='1' unit='mm'/>", CAV_STORAGE_ERROR_CONTENT, "no cut in it" },
    { "<cuts version='1' unit='mm' x=''/>", CAV_STORAGE_ERROR_CONTENT, "unknown attribute" },
    { "<cuts version='1' unit='mm'><nail/></cuts>", CAV_STORAGE_ERROR_CONTENT, "nail" },
    { "<cuts version='1' unit='mm'><round corner='face-inside' width='INF' depth='1'/></cuts>",
      CAV_STORAGE_ERROR_CONTENT, "not a number" },
    { "<!DOCTYPE a [<!ENTITY b 'c'>]><cuts version='1' unit='mm'>&b;</cuts>",
      CAV_STORAGE_ERROR_NOT_XML, "clipboard" },
    { "<cuts version='1' unit='mm'><round corner='face-inside' width='1' depth='1'/>",
      CAV_STORAGE_ERROR_NOT_XML, "clipboard:1" },
    { "\xff\xfe", CAV_STORAGE_ERROR_NOT_XML, "clipboard" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (GError) error = NULL;

      g_test_message ("row %u", i);
      g_assert_null (cav_clipboard_cuts_from_text (rows[i].text, &error));
      storage_test_assert_error (error, rows[i].code, rows[i].part);
    }
}

static void
test_too_many (void)
{
  g_autoptr (GPtrArray) cuts = g_ptr_array_new_with_free_func ((GDestroyNotify)cav_cut_free);
  g_autoptr (GError) error = NULL;

  for (int i = 0; i <= CAV_CLIPBOARD_MOST_CUTS; i++)
    g_ptr_array_add (cuts, cav_cut_new (CAV_CUT_RABBET));
  g_autofree char *text = cav_clipboard_cuts_to_text (cuts);
  g_assert_null (cav_clipboard_cuts_from_text (text, &error));
  storage_test_assert_error (error, CAV_STORAGE_ERROR_TOO_LARGE, "more than 1000 cuts");
}

int
main (int argc, char *argv[])
{
  storage_test_init (&argc, &argv);
  g_test_add_func ("/storage/clipboard/round-trip", test_round_trip);
  g_test_add_func ("/storage/clipboard/other-texts", test_other_texts);
  g_test_add_func ("/storage/clipboard/too-many", test_too_many);
  return g_test_run ();
}
