/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "frame/cav-stock-size.h"

#include "frame-rig.h"

/* ISO 216, tables of the main series A and B as they are printed everywhere. */
static void
test_iso (void)
{
  static const struct
  {
    const char *name;
    double width, height;
  } rows[] = {
    { "A0", 841, 1189 },  { "A1", 594, 841 }, { "A2", 420, 594 },   { "A3", 297, 420 },
    { "A4", 210, 297 },   { "A5", 148, 210 }, { "A6", 105, 148 },   { "A7", 74, 105 },
    { "A8", 52, 74 },     { "A9", 37, 52 },   { "A10", 26, 37 },    { "B0", 1000, 1414 },
    { "B1", 707, 1000 },  { "B2", 500, 707 }, { "B3", 353, 500 },   { "B4", 250, 353 },
    { "B5", 176, 250 },   { "B6", 125, 176 }, { "B7", 88, 125 },    { "B8", 62, 88 },
    { "B9", 44, 62 },     { "B10", 31, 44 },  { "RA0", 860, 1220 }, { "SRA3", 320, 450 },
    { "SRA2", 450, 640 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      const CavStockSize *size = cav_stock_size_find (rows[i].name);

      g_test_message ("%s", rows[i].name);
      g_assert_nonnull (size);
      assert_near (size->width, rows[i].width, 1e-9);
      assert_near (size->height, rows[i].height, 1e-9);
      g_assert_true (cav_stock_size_match (rows[i].height, rows[i].width) == size);
    }
  g_assert_null (cav_stock_size_find ("A11"));
  g_assert_null (cav_stock_size_find (NULL));
}

/* The rule of ISO 216 on every size: half of the one before, sides as 1 to the root of 2 within
 * rounding, A0 a square metre, B0 a metre wide. */
static void
test_rule (void)
{
  for (guint i = 0; i < cav_stock_size_get_count (); i++)
    {
      const CavStockSize *size = cav_stock_size_get (i);

      g_assert_cmpfloat (size->width, <=, size->height);
      g_assert_true (cav_stock_size_find (size->name) != NULL);
      if (size->series != CAV_STOCK_ISO_A && size->series != CAV_STOCK_ISO_B)
        continue;
      assert_near (size->height / size->width, G_SQRT2, 0.04);
      if (size->name[1] == '0')
        continue;
      assert_near (size->height, cav_stock_size_get (i - 1)->width, 1e-9);
      g_assert_cmpfloat (size->width, <=, cav_stock_size_get (i - 1)->height / 2);
      g_assert_cmpfloat (size->width, >=, cav_stock_size_get (i - 1)->height / 2 - 0.5);
    }
  assert_near (cav_stock_size_find ("A0")->width * cav_stock_size_find ("A0")->height, 1e6, 100);
}

/* CCI Notes 11/5, Canadian Conservation Institute, has these mats in both units. */
static void
test_mats (void)
{
  const double cm[][2] = { { 20.3, 25.4 }, { 25.4, 30.5 }, { 35.6, 45.7 },
                           { 40.6, 55.9 }, { 55.9, 71.1 }, { 71.1, 91.4 } };
  guint n_mats = 0;

  for (guint i = 0; i < cav_stock_size_get_count (); i++)
    {
      const CavStockSize *size = cav_stock_size_get (i);

      if (size->series != CAV_STOCK_MAT)
        continue;
      g_assert_cmpuint (n_mats, <, G_N_ELEMENTS (cm));
      assert_near (size->width / 10, cm[n_mats][0], 0.06);
      assert_near (size->height / 10, cm[n_mats][1], 0.06);
      n_mats++;
    }
  g_assert_cmpuint (n_mats, ==, G_N_ELEMENTS (cm));
  g_assert_cmpstr (cav_stock_size_find ("8 × 10 in")->name, ==, "8 × 10 in");
  g_assert_cmpstr (cav_stock_size_match (254, 203.2)->name, ==, "8 × 10 in");
  g_assert_null (cav_stock_size_match (254, 210));
}

static void
test_sheets (void)
{
  g_assert_cmpstr (cav_stock_size_find_sheet (CAV_STOCK_BOARD, 1000, 800)->name, ==, "32 × 40 in");
  g_assert_cmpstr (cav_stock_size_find_sheet (CAV_STOCK_BOARD, 300, 1100)->name, ==, "40 × 60 in");
  g_assert_null (cav_stock_size_find_sheet (CAV_STOCK_BOARD, 1300, 1300));
  g_assert_cmpstr (cav_stock_size_find_sheet (CAV_STOCK_ISO_A, 200, 280)->name, ==, "A4");
  g_assert_cmpstr (cav_stock_size_find_sheet (CAV_STOCK_MAT, 390, 500)->name, ==, "16 × 22 in");
}

/* Photographs among the first screens of the list, sizes that nobody frames not at all, and no two
 * lines that mean the same. */
static void
test_pictures (void)
{
  g_autoptr (GPtrArray) list = cav_stock_sizes_list_for_pictures ();

  g_assert_true (g_ptr_array_find (list, cav_stock_size_find ("A4"), NULL));
  g_assert_true (g_ptr_array_find (list, cav_stock_size_find ("13 × 18 cm"), NULL));
  g_assert_true (g_ptr_array_find (list, cav_stock_size_find ("5 × 7 in"), NULL));
  g_assert_false (g_ptr_array_find (list, cav_stock_size_find ("A10"), NULL));
  g_assert_false (g_ptr_array_find (list, cav_stock_size_find ("SRA2"), NULL));
  for (guint i = 0; i < list->len; i++)
    {
      const CavStockSize *size = g_ptr_array_index (list, i);

      /* Who chooses it and looks again finds the same line. */
      g_assert_true (cav_stock_size_match (size->width, size->height) == size);
      if (size->series != CAV_STOCK_CM)
        continue;
      {
        g_auto (GStrv) words = g_strsplit (size->name, " ", -1);

        assert_near (size->width, g_ascii_strtod (words[0], NULL) * 10, 1e-9);
        assert_near (size->height, g_ascii_strtod (words[2], NULL) * 10, 1e-9);
      }
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/frame/stock-size/iso", test_iso);
  g_test_add_func ("/frame/stock-size/rule", test_rule);
  g_test_add_func ("/frame/stock-size/mats", test_mats);
  g_test_add_func ("/frame/stock-size/sheets", test_sheets);
  g_test_add_func ("/frame/stock-size/pictures", test_pictures);
  return g_test_run ();
}
