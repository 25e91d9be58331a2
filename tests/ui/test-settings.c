/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the locale says about paper and measures, as long as the user says nothing. The locales are
 * made by with-locales.sh. */
#include "app/cav-settings.h"

#include <locale.h>

static const struct
{
  const char *locale;
  CavUnit unit;
  CavPaper paper;
} rows[] = {
  { "C", CAV_UNIT_MM, CAV_PAPER_A4 },
  { "de_DE.UTF-8", CAV_UNIT_MM, CAV_PAPER_A4 },
  { "en_GB.UTF-8", CAV_UNIT_MM, CAV_PAPER_A4 },
  { "en_US.UTF-8", CAV_UNIT_INCH, CAV_PAPER_LETTER },
  /* Metric, with the paper of its neighbour. */
  { "fr_CA.UTF-8", CAV_UNIT_MM, CAV_PAPER_LETTER },
};

static void
test_defaults (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_test_message ("%s", rows[i].locale);
      g_assert_nonnull (setlocale (LC_ALL, rows[i].locale));
      g_assert_cmpint (cav_settings_get_length_style ().unit, ==, rows[i].unit);
      g_assert_cmpint (cav_settings_get_paper (), ==, rows[i].paper);
    }
}

/* What the user says counts for more than the locale. */
static void
test_chosen (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_assert_nonnull (setlocale (LC_ALL, rows[i].locale));
      g_settings_set_string (cav_settings_get (), CAV_SETTING_UNIT, "inch-64");
      g_settings_set_string (cav_settings_get (), CAV_SETTING_PAPER, "letter");
      g_assert_cmpint (cav_settings_get_length_style ().unit, ==, CAV_UNIT_INCH);
      g_assert_cmpint (cav_settings_get_length_style ().denominator, ==, 64);
      g_assert_cmpint (cav_settings_get_paper (), ==, CAV_PAPER_LETTER);
      g_settings_set_string (cav_settings_get (), CAV_SETTING_UNIT, "mm");
      g_settings_set_string (cav_settings_get (), CAV_SETTING_PAPER, "a4");
      g_assert_cmpint (cav_settings_get_length_style ().unit, ==, CAV_UNIT_MM);
      g_assert_cmpint (cav_settings_get_paper (), ==, CAV_PAPER_A4);
    }
  g_settings_reset (cav_settings_get (), CAV_SETTING_UNIT);
  g_settings_reset (cav_settings_get (), CAV_SETTING_PAPER);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/app/settings/locale-decides", test_defaults);
  g_test_add_func ("/app/settings/user-decides", test_chosen);
  return g_test_run ();
}
