/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "milling/cav-caution.h"

#include <string.h>

/* A long and stout rail on the table saw, cut right through its top: nothing to say. */
#define CALM                                                                                       \
  {                                                                                                \
    .machine = CAV_MACHINE_SAW, .section_width = 50, .section_thickness = 25, .rail_length = 800   \
  }

/* Each caution's condition just met and just missed, everything else being calm. */
typedef struct
{
  const char *desc;
  guint expected;
  CavCautionFacts facts;
} CautionCase;

#define FACTS(...)                                                                                 \
  {                                                                                                \
    .section_width = 50, .section_thickness = 25, .rail_length = 800, __VA_ARGS__                  \
  }

static const CautionCase CASES[] = {
  { "calm on the saw", 0, CALM },
  { "calm at the router table", 0, FACTS (.machine = CAV_MACHINE_ROUTER, .cutter_diameter = 12.7) },
  { "thin wall", CAV_CAUTION_THIN_WALL, FACTS (.thin_wall = TRUE) },
  { "small both ways",
    CAV_CAUTION_SMALL_RAIL,
    { .machine = CAV_MACHINE_ROUTER,
      .section_width = 19.9,
      .section_thickness = 19.9,
      .rail_length = 800 } },
  { "20 wide",
    0,
    { .machine = CAV_MACHINE_ROUTER,
      .section_width = 20,
      .section_thickness = 19.9,
      .rail_length = 800 } },
  { "20 thick",
    0,
    { .machine = CAV_MACHINE_ROUTER,
      .section_width = 19.9,
      .section_thickness = 20,
      .rail_length = 800 } },
  { "small, on the saw",
    0,
    { .machine = CAV_MACHINE_SAW,
      .section_width = 10,
      .section_thickness = 10,
      .rail_length = 800 } },
  { "299.9 long",
    CAV_CAUTION_SHORT_RAIL,
    { .section_width = 50, .section_thickness = 25, .rail_length = 299.9 } },
  { "300 long", 0, { .section_width = 50, .section_thickness = 25, .rail_length = 300 } },
  { "cutter of 25.1", CAV_CAUTION_LARGE_CUTTER,
    FACTS (.machine = CAV_MACHINE_ROUTER, .cutter_diameter = 25.1) },
  { "cutter of 25", 0, FACTS (.machine = CAV_MACHINE_ROUTER, .cutter_diameter = 25) },
  { "coving says it all", CAV_CAUTION_COVING, FACTS (.machine = CAV_MACHINE_COVE, .hidden = TRUE) },
  { "blade stays inside", CAV_CAUTION_HIDDEN_BLADE, FACTS (.hidden = TRUE) },
  { "blade stays inside, a piece comes off", CAV_CAUTION_SEVERS,
    FACTS (.hidden = TRUE, .severs = TRUE) },
  { "cutter stays inside", 0, FACTS (.machine = CAV_MACHINE_ROUTER, .hidden = TRUE) },
  { "ridges", CAV_CAUTION_ALTERNATE, FACTS (.ridged = TRUE) },
  { "tips", CAV_CAUTION_FEATHERBOARD, FACTS (.tips = TRUE) },
  { "in the fence", CAV_CAUTION_SACRIFICIAL, FACTS (.sacrificial = TRUE) },
  { "a piece comes off", CAV_CAUTION_SEVERS, FACTS (.severs = TRUE) },
};

static void
test_find (void)
{
  guint seen = 0;

  for (guint i = 0; i < G_N_ELEMENTS (CASES); i++)
    {
      g_test_message ("%s", CASES[i].desc);
      g_assert_cmphex (cav_caution_find (&CASES[i].facts), ==, CASES[i].expected);
      seen |= CASES[i].expected;
    }
  /* No caution goes without a case. */
  g_assert_cmphex (seen, ==, (1u << CAV_N_CAUTIONS) - 1);
}

static void
test_rules (void)
{
  guint n_rules = 0;
  const CavCautionRule *rules = cav_caution_get_rules (&n_rules);

  g_assert_cmpuint (n_rules, ==, CAV_N_CAUTIONS);
  for (guint i = 0; i < n_rules; i++)
    {
      g_assert_cmphex ((guint)rules[i].caution, ==, 1u << i);
      g_assert_true (g_str_has_suffix (rules[i].sentence, "."));
      g_assert_cmpstr (cav_caution_get_sentence (rules[i].caution), ==, rules[i].sentence);
      g_assert_cmpuint (strlen (rules[i].source), >, 10);
      for (guint j = 0; j < i; j++)
        g_assert_cmpstr (rules[i].name, !=, rules[j].name);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/milling/caution/find", test_find);
  g_test_add_func ("/milling/caution/rules", test_rules);
  return g_test_run ();
}
