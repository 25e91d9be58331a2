/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "storage/cav-shop-xml.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

#include "storage/cav-shop-tables.h"

/* Far more than any drawer holds; keeps the search for ids that stand twice short. */
#define MOST_TOOLS 1000
#define MOST_POINTS 10000

/* Sizes of tools, mm; wide enough for anything that fits a small shop. */
#define LEAST_SIZE 0.01
#define LARGEST_BLADE 1000.0
#define LARGEST_CUTTER 500.0
#define MOST_CHIPS 1e5
#define MOST_SPEED 1e5
/* How far a silhouette's last point may be from the length that the cutter states. */
#define LENGTH_SLACK 0.01

typedef struct
{
  CavShop *shop;
  gboolean states_saw;
  gboolean states_router;
} ShopReader;

static gboolean
check_id (const CavXml *xml, const xmlNode *node, const char *id, GError **error)
{
  gboolean good = *id != '\0' && strlen (id) <= 64;

  for (const char *at = id; good && *at != '\0'; at++)
    good = g_ascii_isalnum (*at) || strchr ("-._", *at) != NULL;
  if (good)
    return TRUE;
  g_autofree char *shown = cav_xml_dup_printable_value (id);
  return cav_xml_fail (
      xml, node, CAV_STORAGE_ERROR_CONTENT, error,
      _ ("id=\"%s\" of <%s> is not a short word; use letters, digits, \"-\", \".\" "
         "and \"_\""),
      shown, (const char *)node->name);
}

static char *
require_id (const CavXml *xml, const xmlNode *node, GError **error)
{
  g_autofree char *id = cav_xml_require_text (xml, node, "id", error);

  if (id == NULL || !check_id (xml, node, id, error))
    return NULL;
  return g_steal_pointer (&id);
}

static gboolean
read_blade_numbers (const CavXml *xml, const xmlNode *node, CavBlade *blade, GError **error)
{
  g_autofree char *grind = NULL;

  if (!cav_xml_require_number (xml, node, "height", LEAST_SIZE, blade->diameter / 2, &blade->height,
                               error)
      || !cav_xml_require_number (xml, node, "tilt", 0, 60, &blade->tilt, error)
      || !cav_xml_require_number (xml, node, "bite", LEAST_SIZE, MOST_CHIPS, &blade->bite, error))
    return FALSE;

  grind = cav_xml_require_text (xml, node, "grind", error);
  if (grind == NULL)
    return FALSE;
  if (!cav_grind_from_string (grind, &blade->grind))
    {
      g_autofree char *shown = cav_xml_dup_printable_value (grind);
      return cav_xml_fail (xml, node, CAV_STORAGE_ERROR_CONTENT, error,
                           _ ("grind=\"%s\" of <blade> is not known; write \"%s\" or \"%s\""),
                           shown, cav_grind_to_string (CAV_GRIND_FLAT),
                           cav_grind_to_string (CAV_GRIND_ALTERNATE));
    }
  return TRUE;
}

static gboolean
read_blade (const CavXml *xml, const xmlNode *node, CavShop *shop, GError **error)
{
  static const char *const names[]
      = { "id", "name", "diameter", "kerf", "height", "tilt", "bite", "grind", NULL };
  double diameter, kerf;
  GError *cause = NULL;
  g_autofree char *id = NULL;

  if (!cav_xml_check_attributes (xml, node, names, error)
      || !cav_xml_foreach_child (xml, node, NULL, NULL, error)
      || (id = require_id (xml, node, error)) == NULL
      || !cav_xml_require_number (xml, node, "diameter", 10, LARGEST_BLADE, &diameter, error)
      || !cav_xml_require_number (xml, node, "kerf", LEAST_SIZE, 100, &kerf, error))
    return FALSE;

  g_autoptr (CavBlade) blade = cav_blade_new (id, diameter, kerf);
  cav_xml_take_attribute (node, "name", &blade->name);
  if (!read_blade_numbers (xml, node, blade, error))
    return FALSE;
  if (!cav_shop_add_blade (shop, g_steal_pointer (&blade), &cause))
    return cav_xml_fail_with (xml, node, cause, error);
  return TRUE;
}

static gboolean
point_cb (const CavXml *xml, xmlNode *child, gpointer data, GError **error)
{
  static const char *const names[] = { "r", "z", NULL };
  GArray *points = data;
  CavSilhouettePoint point;

  if (!cav_xml_is (child, "point"))
    return cav_xml_fail_unknown_child (xml, child, error);
  if (points->len == MOST_POINTS)
    return cav_xml_fail (xml, child, CAV_STORAGE_ERROR_TOO_LARGE, error,
                         _ ("a silhouette of more than %d points; draw it with fewer"),
                         MOST_POINTS);
  if (!cav_xml_check_attributes (xml, child, names, error)
      || !cav_xml_foreach_child (xml, child, NULL, NULL, error)
      || !cav_xml_require_number (xml, child, "r", 0, LARGEST_CUTTER, &point.r, error)
      || !cav_xml_require_number (xml, child, "z", 0, LARGEST_CUTTER, &point.z, error))
    return FALSE;
  g_array_append_val (points, point);
  return TRUE;
}

/* Brings the points to the stated cutting length: a cutter whose last point lies higher goes
 * straight down from there. */
static gboolean
fit_to_length (
    const CavXml *xml, const xmlNode *node, GArray *points, double length, GError **error)
{
  if (points->len == 0)
    return cav_xml_fail (
        xml, node, CAV_STORAGE_ERROR_CONTENT, error,
        _ ("<cutter> has no points; add <point r=\"\" z=\"\"/> from the tip down"));

  CavSilhouettePoint *last = &g_array_index (points, CavSilhouettePoint, points->len - 1);
  if (last->z > length + LENGTH_SLACK)
    return cav_xml_fail (xml, node, CAV_STORAGE_ERROR_CONTENT, error,
                         _ ("the last point of <cutter> lies below its length; make the length "
                            "greater or end the points there"));
  if (last->z < length - LENGTH_SLACK)
    {
      CavSilhouettePoint end = { last->r, length };
      g_array_append_val (points, end);
    }
  return TRUE;
}

static CavCutter *
read_drawn_cutter (const CavXml *xml, const xmlNode *node, const char *id, GError **error)
{
  double length;
  GError *cause = NULL;
  g_autoptr (GArray) points = g_array_new (FALSE, FALSE, sizeof (CavSilhouettePoint));

  if (!cav_xml_require_number (xml, node, "length", LEAST_SIZE, LARGEST_CUTTER, &length, error)
      || !cav_xml_foreach_child (xml, node, point_cb, points, error)
      || !fit_to_length (xml, node, points, length, error))
    return NULL;

  CavCutter *cutter
      = cav_cutter_new_drawn (id, (CavSilhouettePoint *)points->data, points->len, &cause);
  if (cutter == NULL)
    cav_xml_fail_with (xml, node, cause, error);
  return cutter;
}

static CavCutter *
read_family_cutter (const CavXml *xml,
                    const xmlNode *node,
                    const char *id,
                    const CavCutterFamilyInfo *info,
                    GError **error)
{
  double numbers[CAV_N_CUTTER_NUMBERS] = { 0 };
  GError *cause = NULL;

  if (!cav_xml_foreach_child (xml, node, NULL, NULL, error))
    return NULL;
  for (guint i = 0; i < info->n_numbers; i++)
    {
      const CavCutterNumberInfo *number = &info->numbers[i];

      if (!cav_xml_require_number (xml, node, number->name, number->minimum, number->maximum,
                                   &numbers[number->number], error))
        return NULL;
    }

  CavCutter *cutter = cav_cutter_new (id, info->family, numbers, &cause);
  if (cutter == NULL)
    cav_xml_fail_with (xml, node, cause, error);
  return cutter;
}

/* What every cutter has, whatever makes its silhouette. */
static gboolean
read_cutter_numbers (const CavXml *xml, const xmlNode *node, CavCutter *cutter, GError **error)
{
  if (!cav_xml_require_number (xml, node, "bite", LEAST_SIZE, MOST_CHIPS, &cutter->bite, error)
      || !cav_xml_require_number (xml, node, "speed", 1, MOST_SPEED, &cutter->speed, error)
      || !cav_xml_optional_number (xml, node, "shank", 0, 100, &cutter->shank, error))
    return FALSE;

  cutter->has_pilot = cav_xml_has (node, "pilot-radius") || cav_xml_has (node, "pilot-length");
  cutter->pilot_radius = cutter->pilot_length = 0;
  return !cutter->has_pilot
         || (cav_xml_require_number (xml, node, "pilot-radius", LEAST_SIZE, LARGEST_CUTTER,
                                     &cutter->pilot_radius, error)
             && cav_xml_require_number (xml, node, "pilot-length", LEAST_SIZE, LARGEST_CUTTER,
                                        &cutter->pilot_length, error));
}

static gboolean
read_family (const CavXml *xml, const xmlNode *node, CavCutterFamily *out_family, GError **error)
{
  g_autofree char *word = cav_xml_dup_attribute (node, "family");

  *out_family = CAV_CUTTER_DRAWN;
  if (word == NULL || cav_cutter_family_from_string (word, out_family))
    return TRUE;
  g_autofree char *shown = cav_xml_dup_printable_value (word);
  return cav_xml_fail (xml, node, CAV_STORAGE_ERROR_CONTENT, error,
                       _ ("family=\"%s\" of <cutter> is not known; give its points instead"),
                       shown);
}

static gboolean
read_cutter (const CavXml *xml, const xmlNode *node, CavShop *shop, GError **error)
{
  CavCutterFamily family;
  GError *cause = NULL;
  g_autofree char *id = NULL;
  g_autoptr (CavCutter) cutter = NULL;
  g_autofree const char **names = NULL;

  if (!read_family (xml, node, &family, error))
    return FALSE;
  const CavCutterFamilyInfo *info = cav_cutter_family_get_info (family);
  names = cav_shop_tables_create_cutter_names (info);
  if (!cav_xml_check_attributes (xml, node, names, error)
      || (id = require_id (xml, node, error)) == NULL)
    return FALSE;

  cutter = family == CAV_CUTTER_DRAWN ? read_drawn_cutter (xml, node, id, error)
                                      : read_family_cutter (xml, node, id, info, error);
  if (cutter == NULL || !read_cutter_numbers (xml, node, cutter, error))
    return FALSE;
  cav_xml_take_attribute (node, "name", &cutter->name);
  if (!cav_shop_add_cutter (shop, g_steal_pointer (&cutter), &cause))
    return cav_xml_fail_with (xml, node, cause, error);
  return TRUE;
}

static gboolean
read_machines (const CavXml *xml, const xmlNode *node, ShopReader *reader, GError **error)
{
  static const char *const names[] = { "saw", "coving", "router", "collet", "opening", NULL };
  CavShop *shop = reader->shop;

  reader->states_saw = cav_xml_has (node, "saw");
  reader->states_router = cav_xml_has (node, "router");
  return cav_xml_check_attributes (xml, node, names, error)
         && cav_xml_foreach_child (xml, node, NULL, NULL, error)
         && cav_xml_optional_boolean (xml, node, "saw", &shop->has_saw, error)
         && cav_xml_optional_boolean (xml, node, "coving", &shop->coving, error)
         && cav_xml_optional_boolean (xml, node, "router", &shop->has_router, error)
         && cav_xml_optional_number (xml, node, "collet", 0, 100, &shop->collet, error)
         && cav_xml_optional_number (xml, node, "opening", 0, 1000, &shop->opening, error);
}

/* choice: name of a further attribute that says yes or no, or NULL. */
static gboolean
read_numbers (const CavXml *xml,
              const xmlNode *node,
              const CavShopNumber *table,
              guint n_numbers,
              gpointer values,
              const char *choice,
              GError **error)
{
  g_autofree const char **names = g_new0 (const char *, n_numbers + 2);

  for (guint i = 0; i < n_numbers; i++)
    names[i] = table[i].name;
  names[n_numbers] = choice;
  if (!cav_xml_check_attributes (xml, node, names, error)
      || !cav_xml_foreach_child (xml, node, NULL, NULL, error))
    return FALSE;
  for (guint i = 0; i < n_numbers; i++)
    if (!cav_xml_optional_number (xml, node, table[i].name, table[i].minimum, table[i].maximum,
                                  G_STRUCT_MEMBER_P (values, table[i].offset), error))
      return FALSE;
  return TRUE;
}

static gboolean
check_tool_count (const CavXml *xml, const xmlNode *node, const CavShop *shop, GError **error)
{
  if (shop->blades->len + shop->cutters->len < MOST_TOOLS)
    return TRUE;
  return cav_xml_fail (xml, node, CAV_STORAGE_ERROR_TOO_LARGE, error,
                       _ ("a shop of more than %d tools; leave out those that are not used"),
                       MOST_TOOLS);
}

static gboolean
shop_child_cb (const CavXml *xml, xmlNode *child, gpointer data, GError **error)
{
  ShopReader *reader = data;
  CavShop *shop = reader->shop;

  if (cav_xml_is (child, "blade"))
    return check_tool_count (xml, child, shop, error) && read_blade (xml, child, shop, error);
  if (cav_xml_is (child, "cutter"))
    return check_tool_count (xml, child, shop, error) && read_cutter (xml, child, shop, error);
  if (cav_xml_is (child, "machines"))
    return cav_xml_check_first (xml, child, error) && read_machines (xml, child, reader, error);
  if (cav_xml_is (child, "rates"))
    return cav_xml_check_first (xml, child, error)
           && read_numbers (xml, child, cav_shop_tables_rates, CAV_N_RATES, &shop->rates, NULL,
                            error);
  if (cav_xml_is (child, "limits"))
    return cav_xml_check_first (xml, child, error)
           && read_numbers (xml, child, cav_shop_tables_limits, CAV_N_LIMITS, &shop->limits,
                            CAV_SHOP_LIGHT_FINISH, error)
           && cav_xml_optional_boolean (xml, child, CAV_SHOP_LIGHT_FINISH, &shop->light_finish,
                                        error);
  return cav_xml_fail_unknown_child (xml, child, error);
}

CavShop *
cav_shop_xml_read (const CavXml *xml, const xmlNode *node, gboolean is_root, GError **error)
{
  static const char *const root_names[] = { "version", "unit", "name", NULL };
  static const char *const names[] = { "name", NULL };
  g_autoptr (CavShop) shop = cav_shop_new ();
  ShopReader reader = { .shop = shop };

  if (!cav_xml_check_attributes (xml, node, is_root ? root_names : names, error)
      || !cav_xml_foreach_child (xml, node, shop_child_cb, &reader, error))
    return NULL;

  cav_xml_take_attribute (node, "name", &shop->name);
  /* A list of tools alone tells which machines there are. */
  if (!reader.states_saw)
    shop->has_saw = shop->blades->len > 0;
  if (!reader.states_router)
    shop->has_router = shop->cutters->len > 0;
  return g_steal_pointer (&shop);
}
