/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "profile/cav-cut.h"

static void
test_kinds (void)
{
  static const char *const names[] = { "rabbet",  "steps", "groove", "cove", "round",
                                       "chamfer", "bevel", "bead",   "ogee", "drawn" };

  for (int i = 0; i < CAV_N_CUT_KINDS; i++)
    {
      const CavCutInfo *info = cav_cut_kind_get_info ((CavCutKind)i);
      CavCutKind kind = CAV_CUT_DRAWN;
      g_test_message ("%s", info->name);
      g_assert_cmpint (info->kind, ==, i);
      g_assert_cmpstr (info->name, ==, names[i]);
      g_assert_cmpstr (info->label, !=, "");
      g_assert_true (cav_cut_kind_from_string (names[i], &kind));
      g_assert_cmpint (kind, ==, i);
      g_assert_cmpuint (info->anchors, !=, 0);
      g_assert_cmpuint (info->n_forms, >=, 1);
    }
}

/* Numbers are in range where they are usual, and no kind has one twice. */
static void
test_numbers (void)
{
  for (int i = 0; i < CAV_N_CUT_KINDS; i++)
    {
      const CavCutInfo *info = cav_cut_kind_get_info ((CavCutKind)i);
      guint seen = 0;
      for (guint k = 0; k < info->n_numbers; k++)
        {
          const CavCutNumberInfo *number = &info->numbers[k];
          g_test_message ("%s %s", info->name, number->name);
          g_assert_cmpfloat (number->minimum, <=, number->usual);
          g_assert_cmpfloat (number->usual, <=, number->maximum);
          g_assert_false (seen & (1u << number->number));
          g_assert_cmpint (number->is_length, ==,
                           number->number != CAV_CUT_COUNT && number->number != CAV_CUT_SHARE);
          seen |= 1u << number->number;
        }
    }
}

static void
test_forms (void)
{
  for (int i = 0; i < CAV_N_CUT_FORMS; i++)
    {
      CavCutForm form = CAV_FORM_PLAIN;
      g_assert_true (cav_cut_form_from_string (cav_cut_form_to_string ((CavCutForm)i), &form));
      g_assert_cmpint (form, ==, i);
    }
}

static void
test_wrong_words (void)
{
  CavCutKind kind = CAV_CUT_OGEE;
  CavCutForm form = CAV_FORM_PROUD;

  g_assert_false (cav_cut_kind_from_string ("cyma", &kind));
  g_assert_false (cav_cut_kind_from_string (NULL, &kind));
  g_assert_cmpint (kind, ==, CAV_CUT_OGEE);
  g_assert_false (cav_cut_form_from_string ("", &form));
  g_assert_false (cav_cut_form_from_string (NULL, &form));
  g_assert_cmpint (form, ==, CAV_FORM_PROUD);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/profile/cut-info/kinds", test_kinds);
  g_test_add_func ("/profile/cut-info/numbers", test_numbers);
  g_test_add_func ("/profile/cut-info/forms", test_forms);
  g_test_add_func ("/profile/cut-info/wrong-words", test_wrong_words);
  return g_test_run ();
}
