/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "storage/cav-shop-xml.h"

#include <string.h>

#include "storage-test.h"
#include "storage/cav-shop-tables.h"

#define SHOP(content) "<shop version='1' unit='mm'>\n" content "</shop>"
#define BLADE                                                                                      \
  "<blade id='rip' diameter='254' kerf='3.2' height='75' tilt='45' bite='80' grind='flat'/>"
#define CUTTER                                                                                     \
  "<cutter id='s' length='20' bite='20' speed='22000'><point r='3' z='0'/><point r='3' z='20'/>"   \
  "</cutter>"

static CavShop *
load (const char *text, GError **error)
{
  g_autoptr (GBytes) bytes = storage_test_bytes (text);

  return cav_storage_shop_from_bytes (bytes, "a.xml", error);
}

static CavShop *
load_good (const char *text)
{
  GError *error = NULL;
  CavShop *shop = load (text, &error);

  g_assert_no_error (error);
  return shop;
}

static void
assert_same_numbers (const CavShopNumber *table, guint n, gconstpointer a, gconstpointer b)
{
  for (guint i = 0; i < n; i++)
    {
      const double *x = (const double *)((const char *)a + table[i].offset);
      const double *y = (const double *)((const char *)b + table[i].offset);

      g_assert_true (storage_test_same_bits (*x, *y));
    }
}

static void
assert_same_blade (const CavBlade *a, const CavBlade *b)
{
  g_assert_cmpstr (a->id, ==, b->id);
  g_assert_cmpstr (a->name, ==, b->name);
  g_assert_true (storage_test_same_bits (a->diameter, b->diameter));
  g_assert_true (storage_test_same_bits (a->kerf, b->kerf));
  g_assert_true (storage_test_same_bits (a->height, b->height));
  g_assert_true (storage_test_same_bits (a->tilt, b->tilt));
  g_assert_true (storage_test_same_bits (a->bite, b->bite));
  g_assert_cmpint (a->grind, ==, b->grind);
}

static void
assert_same_cutter (const CavCutter *a, const CavCutter *b)
{
  g_assert_cmpstr (a->id, ==, b->id);
  g_assert_cmpstr (a->name, ==, b->name);
  g_assert_cmpint (a->family, ==, b->family);
  for (guint i = 0; i < CAV_N_CUTTER_NUMBERS; i++)
    g_assert_true (storage_test_same_bits (a->numbers[i], b->numbers[i]));
  g_assert_true (storage_test_same_bits (a->length, b->length));
  g_assert_true (storage_test_same_bits (a->shank, b->shank));
  g_assert_true (storage_test_same_bits (a->bite, b->bite));
  g_assert_true (storage_test_same_bits (a->speed, b->speed));
  g_assert_true (a->has_pilot == b->has_pilot);
  g_assert_true (storage_test_same_bits (a->pilot_radius, b->pilot_radius));
  g_assert_true (storage_test_same_bits (a->pilot_length, b->pilot_length));
  storage_test_assert_same_path (a->outline, b->outline);
  g_assert_cmpmem (a->silhouette->data, a->silhouette->len * sizeof (CavSilhouettePoint),
                   b->silhouette->data, b->silhouette->len * sizeof (CavSilhouettePoint));
}

static void
assert_same_shop (const CavShop *a, const CavShop *b)
{
  g_assert_cmpstr (a->name, ==, b->name);
  g_assert_true (a->has_saw == b->has_saw && a->coving == b->coving);
  g_assert_true (a->has_router == b->has_router);
  g_assert_true (a->light_finish == b->light_finish);
  g_assert_true (storage_test_same_bits (a->collet, b->collet));
  g_assert_true (storage_test_same_bits (a->opening, b->opening));
  assert_same_numbers (cav_shop_tables_rates, CAV_N_RATES, &a->rates, &b->rates);
  assert_same_numbers (cav_shop_tables_limits, CAV_N_LIMITS, &a->limits, &b->limits);
  g_assert_cmpuint (a->blades->len, ==, b->blades->len);
  g_assert_cmpuint (a->cutters->len, ==, b->cutters->len);
  for (guint i = 0; i < a->blades->len; i++)
    assert_same_blade (g_ptr_array_index (a->blades, i), g_ptr_array_index (b->blades, i));
  for (guint i = 0; i < a->cutters->len; i++)
    assert_same_cutter (g_ptr_array_index (a->cutters, i), g_ptr_array_index (b->cutters, i));
}

/* Written, valid by the schema, and read as the same shop. */
static void
assert_round_trip (const CavShop *shop)
{
  GError *error = NULL;
  g_autoptr (GBytes) bytes = cav_storage_shop_to_bytes (shop);

  storage_test_assert_valid (bytes, "shop.rng");
  g_autoptr (CavShop) again = cav_storage_shop_from_bytes (bytes, "again.xml", &error);
  g_assert_no_error (error);
  assert_same_shop (shop, again);
}

static void
test_default (void)
{
  g_autoptr (CavShop) shop = cav_shop_new_default ();

  g_assert_cmpuint (shop->cutters->len, >, 5);
  assert_round_trip (shop);
}

static void
test_empty (void)
{
  g_autoptr (CavShop) shop = cav_shop_new ();

  assert_round_trip (shop);
}

/* Every family with awkward numbers, a drawn cutter, names full of markup, all tables changed. */
static void
test_everything (void)
{
  GError *error = NULL;
  g_autoptr (CavShop) shop = cav_shop_new ();
  const CavSilhouettePoint points[] = { { 0, 0 }, { 1.0 / 3, 0 }, { 2.2, 1.1 }, { 2, 9.3 } };

  g_free (shop->name);
  shop->name = g_strdup ("Shed \"<&>\"\n\tno. 1 \xc3\xa4");
  shop->coving = FALSE;
  shop->light_finish = TRUE;
  shop->collet = 12.7;
  shop->opening = 1.0 / 3 + 80;
  for (guint i = 0; i < CAV_N_RATES; i++)
    *(double *)((char *)&shop->rates + cav_shop_tables_rates[i].offset) = 1.0 / (i + 3);
  for (guint i = 0; i < CAV_N_LIMITS; i++)
    *(double *)((char *)&shop->limits + cav_shop_tables_limits[i].offset) = 1 + 1.0 / (i + 3);

  CavBlade *blade = cav_blade_new ("Rip-1._x", 254.1, 3.3);
  g_free (blade->name);
  blade->name = g_strdup ("Rip 'n' tear");
  blade->grind = CAV_GRIND_ALTERNATE;
  blade->bite = 70.1;
  g_assert_true (cav_shop_add_blade (shop, blade, &error));
  for (int i = 0; i < CAV_N_CUTTER_FAMILIES; i++)
    {
      const CavCutterFamilyInfo *info = cav_cutter_family_get_info ((CavCutterFamily)i);
      double numbers[CAV_N_CUTTER_NUMBERS] = { 0 };

      if (info->family == CAV_CUTTER_DRAWN)
        continue;
      for (guint k = 0; k < info->n_numbers; k++)
        numbers[info->numbers[k].number] = info->numbers[k].usual;
      CavCutter *cutter = cav_cutter_new (info->name, info->family, numbers, &error);
      g_assert_no_error (error);
      cutter->shank = i % 2 == 0 ? 6.35 : 0;
      g_assert_true (cav_shop_add_cutter (shop, cutter, &error));
    }
  CavCutter *drawn = cav_cutter_new_drawn ("drawn", points, G_N_ELEMENTS (points), &error);
  g_assert_no_error (error);
  g_free (drawn->name);
  drawn->name = g_strdup ("Grandmother's");
  drawn->has_pilot = TRUE;
  drawn->pilot_radius = 3.2;
  drawn->pilot_length = 5.1;
  drawn->bite = 12.3;
  g_assert_true (cav_shop_add_cutter (shop, drawn, &error));

  assert_round_trip (shop);
}

/* Who has not chosen has no light finish, as in older files; yes and no are read. */
static void
test_light_finish (void)
{
  static const struct
  {
    const char *content;
    gboolean light_finish;
  } rows[] = { { "", FALSE },
               { "<limits light-layer='0.5'/>", FALSE },
               { "<limits light-finish='no'/>", FALSE },
               { "<limits light-finish='yes' light-layer='0.5'/>", TRUE } };
  g_autoptr (CavShop) usual = cav_shop_new_default ();
  g_autoptr (GBytes) bytes = cav_storage_shop_to_bytes (usual);
  g_autofree char *written = g_strndup (g_bytes_get_data (bytes, NULL), g_bytes_get_size (bytes));

  g_assert_null (strstr (written, "light-finish"));
  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      GError *error = NULL;
      g_autofree char *text
          = g_strdup_printf ("<shop version='1' unit='mm'>%s</shop>", rows[i].content);
      g_autoptr (GBytes) input = g_bytes_new (text, strlen (text));
      g_autoptr (CavShop) shop = cav_storage_shop_from_bytes (input, "shop.xml", &error);

      g_assert_no_error (error);
      g_assert_cmpint (shop->light_finish, ==, rows[i].light_finish);
    }
}

static void
test_machines (void)
{
  static const struct
  {
    const char *content;
    gboolean saw, router, coving;
  } rows[] = {
    { "", FALSE, FALSE, TRUE },
    { BLADE, TRUE, FALSE, TRUE },
    { CUTTER, FALSE, TRUE, TRUE },
    { BLADE CUTTER, TRUE, TRUE, TRUE },
    { BLADE "<machines coving='no'/>", TRUE, FALSE, FALSE },
    { "<machines saw='yes' router='yes'/>", TRUE, TRUE, TRUE },
    { CUTTER BLADE "<machines saw='no' router='no'/>", FALSE, FALSE, TRUE },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *text = g_strdup_printf (SHOP ("%s"), rows[i].content);
      g_autoptr (CavShop) shop = load_good (text);
      g_autoptr (GBytes) bytes = storage_test_bytes (text);

      g_test_message ("%s", rows[i].content);
      g_assert_true (shop->has_saw == rows[i].saw);
      g_assert_true (shop->has_router == rows[i].router);
      g_assert_true (shop->coving == rows[i].coving);
      storage_test_assert_valid (bytes, "shop.rng");
    }
}

/* A list as plan files have it: no names, no machines, cutters by their points. */
static void
test_plain_tools (void)
{
  g_autoptr (CavShop) shop = load_good (
      SHOP (BLADE "<cutter id='cove' length='20' bite='40' speed='22000' pilot-radius='6' "
                  "pilot-length='5'><point r='6' z='0'/><point r='12.5' z='6.5'/></cutter>"
                  "<limits step='0.1'/><rates turn='2'/>"));
  const CavBlade *blade = cav_shop_find_blade (shop, "rip");
  const CavCutter *cutter = cav_shop_find_cutter (shop, "cove");
  CavLimits limits;

  g_assert_true (storage_test_same_bits (blade->kerf, 3.2));
  g_assert_true (storage_test_same_bits (blade->height, 75));
  g_assert_true (storage_test_same_bits (blade->tilt, 45));
  g_assert_cmpint (blade->grind, ==, CAV_GRIND_FLAT);
  g_assert_cmpint (cutter->family, ==, CAV_CUTTER_DRAWN);
  g_assert_true (storage_test_same_bits (cutter->bite, 40));
  g_assert_true (storage_test_same_bits (cutter->speed, 22000));
  g_assert_true (cutter->has_pilot);
  g_assert_true (storage_test_same_bits (cutter->pilot_radius, 6));
  g_assert_true (storage_test_same_bits (cutter->pilot_length, 5));
  /* The silhouette goes straight down to the length that is stated. */
  g_assert_true (storage_test_same_bits (cutter->length, 20));
  g_assert_true (storage_test_same_bits (cav_cutter_get_radius_at (cutter, 19), 12.5));
  g_assert_true (storage_test_same_bits (shop->limits.step, 0.1));
  g_assert_true (storage_test_same_bits (shop->rates.turn, 2));
  cav_limits_init_usual (&limits);
  g_assert_true (storage_test_same_bits (shop->limits.push_gap, limits.push_gap));
}

static void
test_refused (void)
{
#define WITH(attributes) SHOP ("<cutter bite='20' speed='9000' " attributes)
#define POINTS "<point r='3' z='0'/><point r='3' z='20'/></cutter>"
  static const struct
  {
    const char *text;
    const char *part;
  } rows[] = {
    { "<shop unit='mm'/>", "a.xml:1: <shop> lacks the attribute \"version\"; add it" },
    { "<shop version='1'/>", "lacks the attribute \"unit\"" },
    { "<shop version='1' unit='in'/>", "the unit is \"in\"; files are in millimetres" },
    { "<shop version='x' unit='mm'/>", "the version is \"x\"" },
    { "<shop version='0' unit='mm'/>", "the version is \"0\"" },
    { "<shop version='1' unit='mm' colour='red'/>", "unknown attribute \"colour\"; take it out" },
    { "<shop version='1' unit='mm' xmlns:a='urn:a' a:name='red'/>", "unknown attribute \"name\"" },
    { SHOP ("text"), "a.xml:1: text in <shop>, where none belongs" },
    { SHOP ("<hammer/>"), "a.xml:2: unknown element <hammer> in <shop>; take it out" },
    { SHOP ("<a:blade xmlns:a='urn:a'/>"), "unknown element <blade> in <shop>" },
    { SHOP ("<blade/>"), "a.xml:2: <blade> lacks the attribute \"id\"" },
    { SHOP ("<blade id='a b'/>"), "id=\"a b\" of <blade> is not a short word" },
    { SHOP ("<blade id=''/>"), "id=\"\" of <blade> is not a short word" },
    { SHOP ("<blade id='a' kerf='3'/>"), "lacks the attribute \"diameter\"" },
    { SHOP ("<blade id='a' diameter='254'/>"), "lacks the attribute \"kerf\"" },
    { SHOP ("<blade id='a' diameter='254' kerf='3'/>"), "lacks the attribute \"height\"" },
    { SHOP ("<blade id='a' diameter='254' kerf='3' height='9'/>"), "\"tilt\"" },
    { SHOP ("<blade id='a' diameter='254' kerf='3' height='9' tilt='0'/>"), "\"bite\"" },
    { SHOP ("<blade id='a' diameter='254' kerf='3' height='9' tilt='0' bite='9'/>"), "\"grind\"" },
    { SHOP ("<blade id='a' diameter='254' kerf='3' height='9' tilt='0' bite='9' grind='x'/>"),
      "grind=\"x\" of <blade> is not known; write \"flat\" or \"alternate\"" },
    { SHOP ("<blade id='a' diameter='254' kerf='3' height='200'/>"),
      "height=\"200\" of <blade> is out of range; choose a number from 0.01 to 127" },
    { SHOP ("<blade id='a' diameter='-254' kerf='3'/>"), "diameter=\"-254\" of <blade> is out" },
    { SHOP ("<blade id='a' diameter='NaN' kerf='3'/>"), "diameter=\"NaN\" of <blade> is not a n" },
    { SHOP ("<blade id='a' diameter='INF' kerf='3'/>"), "diameter=\"INF\" of <blade> is not a n" },
    { SHOP ("<blade id='a' diameter='254' kerf='0,5'/>"), "kerf=\"0,5\" of <blade> is not a num" },
    { SHOP ("<blade id='a' diameter='20' kerf='3' height='9' tilt='0' bite='9' grind='flat'/>"),
      "a.xml:2: The diameter of blade" },
    { SHOP ("<blade id='a' teeth='40'/>"), "unknown attribute \"teeth\"" },
    { SHOP ("<blade id='a'><b/></blade>"), "unknown element <b> in <blade>" },
    { SHOP (BLADE "\n" BLADE), "a.xml:3: The shop already has a tool" },
    { SHOP (CUTTER "\n" CUTTER), "a.xml:3: The shop already has a tool" },
    { SHOP ("<cutter id='s'/>"), "lacks the attribute \"length\"" },
    { SHOP ("<cutter length='9'/>"), "lacks the attribute \"id\"" },
    { SHOP ("<cutter id='s' length='9'/>"), "<cutter> has no points; add <point" },
    { SHOP ("<cutter id='s' length='9'><dot/></cutter>"), "unknown element <dot> in <cutter>" },
    { SHOP ("<cutter id='s' length='9'><point r='1'/></cutter>"), "lacks the attribute \"z\"" },
    { SHOP ("<cutter id='s' length='9'><point z='1'/></cutter>"), "lacks the attribute \"r\"" },
    { SHOP ("<cutter id='s' length='9'><point r='1' z='2' q='3'/></cutter>"), "\"q\"" },
    { SHOP ("<cutter id='s' length='9'><point r='1' z='2'>x</point></cutter>"), "text in <point>" },
    { SHOP ("<cutter id='s' length='9'><point r='1' z='2'/></cutter>"), "does not lie at the tip" },
    { SHOP ("<cutter id='s' length='19' bite='20' speed='22000'>" POINTS),
      "the last point of <cutter> lies below its length" },
    { SHOP ("<cutter id='s' length='20'>" POINTS), "lacks the attribute \"bite\"" },
    { SHOP ("<cutter id='s' length='20' bite='20'>" POINTS), "lacks the attribute \"speed\"" },
    { WITH ("id='s' length='20' shank='-1'>" POINTS), "shank=\"-1\" of <cutter> is out of range" },
    { WITH ("id='s' length='20' pilot-radius='3'>" POINTS),
      "lacks the attribute \"pilot-length\"" },
    { WITH ("id='s' length='20' pilot-length='3'>" POINTS),
      "lacks the attribute \"pilot-radius\"" },
    { WITH ("id='s' length='20' radius='3'>" POINTS), "unknown attribute \"radius\"" },
    { WITH ("id='s' family='x'/>"), "family=\"x\" of <cutter> is not known; give its points" },
    { WITH ("id='s' family='straight' cutting-length='20'/>"), "attribute \"diameter\"" },
    { WITH ("id='s' family='straight' diameter='6' length='20'/>"),
      "unknown attribute \"length\"" },
    { WITH ("id='s' family='straight' diameter='6' cutting-length='20'>" POINTS),
      "unknown element <point> in <cutter>" },
    { WITH ("id='s' family='round-nose' diameter='40' cutting-length='5'/>"), "cutting length of" },
    { SHOP ("<machines saw='maybe'/>"), "saw=\"maybe\" of <machines> says neither" },
    { SHOP ("<machines collet='-1'/>"), "collet=\"-1\" of <machines> is out of range" },
    { SHOP ("<machines lathe='yes'/>"), "unknown attribute \"lathe\"" },
    { SHOP ("<machines/>\n<machines/>"), "a.xml:3: <machines> stands twice; keep one" },
    { SHOP ("<rates/><rates/>"), "<rates> stands twice" },
    { SHOP ("<limits/><limits/>"), "<limits> stands twice" },
    { SHOP ("<rates turn='-1'/>"), "turn=\"-1\" of <rates> is out of range" },
    { SHOP ("<rates turns='1'/>"), "unknown attribute \"turns\"" },
    { SHOP ("<limits step='0'/>"), "step=\"0\" of <limits> is out of range" },
    { SHOP ("<limits><step/></limits>"), "unknown element <step> in <limits>" },
  };
#undef WITH
#undef POINTS

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (GError) error = NULL;

      g_test_message ("%s", rows[i].text);
      g_assert_null (load (rows[i].text, &error));
      storage_test_assert_error (error, CAV_STORAGE_ERROR_CONTENT, rows[i].part);
    }
}

static void
test_other_kinds (void)
{
  g_autoptr (GError) kind = NULL, newer = NULL, broken = NULL;

  g_assert_null (load ("<cavetto version='1' unit='mm'/>", &kind));
  storage_test_assert_error (kind, CAV_STORAGE_ERROR_WRONG_KIND, "a.xml:1: not a shop file");
  g_assert_null (load ("<shop version='2' unit='mm'/>", &newer));
  storage_test_assert_error (newer, CAV_STORAGE_ERROR_NEWER, "made by a newer version of Cavetto");
  g_assert_null (load ("<shop", &broken));
  storage_test_assert_error (broken, CAV_STORAGE_ERROR_NOT_XML, "a.xml:1:");
}

static void
test_too_many (void)
{
  g_autoptr (GString) tools = g_string_new ("<shop version='1' unit='mm'>");
  g_autoptr (GString) points = g_string_new (
      "<shop version='1' unit='mm'><cutter id='s' length='20' bite='20' speed='22000'>");
  g_autoptr (GError) tools_error = NULL, points_error = NULL;

  for (int i = 0; i < 1001; i++)
    g_string_append_printf (tools,
                            "<blade id='b%d' diameter='254' kerf='3.2' height='75' tilt='45' "
                            "bite='80' grind='flat'/>",
                            i);
  g_string_append (tools, "</shop>");
  g_assert_null (load (tools->str, &tools_error));
  storage_test_assert_error (tools_error, CAV_STORAGE_ERROR_TOO_LARGE, "more than 1000 tools");

  for (int i = 0; i < 10001; i++)
    g_string_append (points, "<point r='1' z='0'/>");
  g_string_append (points, "</cutter></shop>");
  g_assert_null (load (points->str, &points_error));
  storage_test_assert_error (points_error, CAV_STORAGE_ERROR_TOO_LARGE, "more than 10000 points");
}

int
main (int argc, char *argv[])
{
  storage_test_init (&argc, &argv);
  g_test_add_func ("/storage/shop-xml/default", test_default);
  g_test_add_func ("/storage/shop-xml/empty", test_empty);
  g_test_add_func ("/storage/shop-xml/everything", test_everything);
  g_test_add_func ("/storage/shop/light-finish", test_light_finish);
  g_test_add_func ("/storage/shop-xml/machines", test_machines);
  g_test_add_func ("/storage/shop-xml/plain-tools", test_plain_tools);
  g_test_add_func ("/storage/shop-xml/refused", test_refused);
  g_test_add_func ("/storage/shop-xml/other-kinds", test_other_kinds);
  g_test_add_func ("/storage/shop-xml/too-many", test_too_many);
  return g_test_run ();
}
