/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "sections.h"
#include "storage/cav-storage.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

/*
 * bench-milling-cases FOLDER [OUT]: plans the cases of a folder (cases.json, NAME.svg,
 * NAME-shop.xml), quick and thorough, and prints them beside the reference minutes. OUT: a folder
 * for the plan files. Not a test; exit status 1 where a plan breaks a rule.
 */

typedef struct
{
  char *name;
  double minutes;
  double rails;
  double length;
  double limit;
} Case;

/* The figure that follows "key": in text, up to end; a file of our own kind needs no more. */
static double
scan_number (const char *text, const char *end, const char *key)
{
  g_autofree char *quoted = g_strdup_printf ("\"%s\":", key);
  const char *at = g_strstr_len (text, end - text, quoted);

  return at != NULL ? g_ascii_strtod (at + strlen (quoted), NULL) : NAN;
}

static gboolean
find_case (const char *json, const char *name, Case *out)
{
  g_autofree char *quoted = g_strdup_printf ("\"%s\":", name);
  const char *at = strstr (json, quoted);
  const char *end = json + strlen (json);
  const char *brace;
  int depth = 0;

  if (at == NULL)
    return FALSE;
  for (brace = strchr (at, '{'); brace != NULL && *brace != '\0'; brace++)
    {
      depth += (*brace == '{') - (*brace == '}');
      if (depth == 0)
        {
          end = brace;
          break;
        }
    }
  *out = (Case){ NULL, scan_number (at, end, "minutes"), scan_number (at, end, "rails"),
                 scan_number (at, end, "length"), scan_number (at, end, "limit") };
  return isfinite (out->minutes) && isfinite (out->rails) && isfinite (out->length);
}

/* The picture's y runs down from the face. */
static CavRegion *
load_profile (const char *file, CavBlank *out_blank, GError **error)
{
  g_autoptr (CavPath) drawn
      = cav_storage_load_outline (file, &out_blank->width, &out_blank->thickness, error);

  if (drawn == NULL)
    return NULL;
  CavTransform turn = { 1, 0, 0, 0, -1, out_blank->thickness };
  g_autoptr (CavPath) path = cav_path_transformed (drawn, turn);

  return cav_region_new_from_path (path, error);
}

static const char *
judge (const CavPlan *plan, gboolean *broken)
{
  g_autofree char *text = section_check (plan);

  if (text[0] == '\0')
    return "keeps every rule";
  *broken = TRUE;
  printf ("%s", text);
  return "BREAKS RULES";
}

static void
print_plan (
    const Case *row, const CavPlan *plan, const char *effort, double seconds, gboolean *broken)
{
  const char *verdict = judge (plan, broken);

  printf ("%-18s %-8s %8.2f %8.2f %+7.2f %7u %7u %9.2f %8.2f %7u %10.1f  %s\n", row->name, effort,
          row->minutes, plan->minutes, plan->minutes - row->minutes, plan->setups->len,
          cav_plan_get_pass_count (plan), plan->leftover_area, plan->leftover_thickness,
          plan->places->len, 1000.0 * seconds, verdict);
}

static gboolean
save_plan (
    const CavPlan *plan, const char *out, const char *name, const char *effort, GError **error)
{
  g_autofree char *base = g_strdup_printf ("%s-%s.xml", name, effort);
  g_autofree char *file = g_build_filename (out, base, NULL);

  return cav_storage_save_plan (plan, file, error);
}

static gboolean
run_case (const char *folder, const char *out, const Case *row, gboolean *broken, GError **error)
{
  static const char *const efforts[] = { "quick", "thorough" };
  g_autofree char *svg_base = g_strconcat (row->name, ".svg", NULL);
  g_autofree char *shop_base = g_strconcat (row->name, "-shop.xml", NULL);
  g_autofree char *svg = g_build_filename (folder, svg_base, NULL);
  g_autofree char *shop_file = g_build_filename (folder, shop_base, NULL);
  CavBlank blank;
  g_autoptr (CavRegion) profile = load_profile (svg, &blank, error);

  if (profile == NULL)
    return FALSE;
  g_autoptr (CavShop) shop = cav_storage_load_shop (shop_file, error);

  if (shop == NULL)
    return FALSE;
  if (isfinite (row->limit))
    shop->limits.leftover = row->limit;
  for (CavEffort effort = CAV_EFFORT_QUICK; effort <= CAV_EFFORT_THOROUGH; effort++)
    {
      CavPlanRequest request = { .blank = blank,
                                 .profile = profile,
                                 .shop = shop,
                                 .rails = (int)row->rails,
                                 .length = row->length,
                                 .effort = effort };
      gint64 start = g_get_monotonic_time ();
      g_autoptr (CavPlan) plan = cav_planner_plan (&request, error);

      if (plan == NULL)
        return FALSE;
      print_plan (row, plan, efforts[effort], (double)(g_get_monotonic_time () - start) / 1e6,
                  broken);
      if (out != NULL && !save_plan (plan, out, row->name, efforts[effort], error))
        return FALSE;
    }
  return TRUE;
}

static int
compare_name_cb (gconstpointer a, gconstpointer b)
{
  return strcmp (*(const char *const *)a, *(const char *const *)b);
}

/* Names of cases: what stands before -shop.xml. */
static GPtrArray *
list_names (const char *folder, GError **error)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, error);
  GPtrArray *names = g_ptr_array_new_with_free_func (g_free);
  const char *name;

  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL)
    if (g_str_has_suffix (name, "-shop.xml"))
      g_ptr_array_add (names, g_strndup (name, strlen (name) - strlen ("-shop.xml")));
  g_ptr_array_sort (names, compare_name_cb);
  return names;
}

int
main (int argc, char **argv)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *json_name = NULL;
  g_autofree char *json = NULL;
  gboolean broken = FALSE;

  if (argc < 2 || argc > 3)
    {
      g_printerr ("Usage: bench-milling-cases FOLDER [OUT]\n");
      return 2;
    }
  json_name = g_build_filename (argv[1], "cases.json", NULL);
  g_autoptr (GPtrArray) names = list_names (argv[1], &error);

  if (error != NULL || !g_file_get_contents (json_name, &json, NULL, &error))
    {
      g_printerr ("%s\n", error->message);
      return 2;
    }
  printf ("%-18s %-8s %8s %8s %7s %7s %7s %9s %8s %7s %10s  %s\n", "case", "effort", "ref min",
          "minutes", "diff", "setups", "passes", "leftover", "thick", "places", "time ms",
          "checker");
  for (guint i = 0; i < names->len; i++)
    {
      Case row;

      if (!find_case (json, g_ptr_array_index (names, i), &row))
        {
          g_printerr ("%s: no figures for %s\n", json_name, (char *)g_ptr_array_index (names, i));
          return 2;
        }
      row.name = g_ptr_array_index (names, i);
      if (!run_case (argv[1], argc > 2 ? argv[2] : NULL, &row, &broken, &error))
        {
          g_printerr ("%s: %s\n", row.name, error->message);
          return 2;
        }
      fflush (stdout);
    }
  return broken ? 1 : 0;
}
