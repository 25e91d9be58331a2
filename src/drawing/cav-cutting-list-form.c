/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/cav-cutting-list.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

#include "drawing/cav-sheet-private.h"
#include "drawing/cav-text-sheet.h"
#include "geometry/cav-number-text.h"
#include "geometry/cav-unit.h"

/* The cells of the list, in the order of its columns. */
enum
{
  COUNT,
  WHAT,
  LENGTH,
  WIDTH,
  THICKNESS,
  MATERIAL,
  WEIGHT,
  COST,
  NOTE,
  N_CELLS,
};

static void
clear_cells (char **cells)
{
  for (guint i = 0; i < N_CELLS; i++)
    g_free (cells[i]);
}

/* Empty for what is not known. A table for spreadsheets has a point in every language, for the
 * comma parts its cells. */
static char *
format_number (double value, int decimals, gboolean for_csv)
{
  char format[8];
  char buffer[64];

  if (value <= 0)
    return g_strdup ("");
  g_snprintf (format, sizeof format, "%%.%df", decimals);
  return g_strdup (for_csv ? g_ascii_formatd (buffer, sizeof buffer, format, value)
                           : cav_number_format (buffer, sizeof buffer, format, value));
}

static char *
format_length (double mm, const CavSheetOptions *options, gboolean for_csv)
{
  if (mm <= 0)
    return g_strdup ("");
  if (!for_csv)
    return cav_length_format_bare (mm, options->unit, options->denominator);
  if (options->unit == CAV_UNIT_INCH)
    return format_number (mm / CAV_INCH, 4, TRUE);
  return g_strdelimit (cav_length_format_bare (mm, CAV_UNIT_MM, 1), ",", '.');
}

static void
fill_cells (const CavListItem *item, const CavSheetOptions *options, gboolean for_csv, char **cells)
{
  cells[COUNT] = item->count > 0 ? g_strdup_printf ("%d", item->count) : g_strdup ("");
  cells[WHAT] = cav_lettering_clean (item->what);
  cells[LENGTH] = format_length (item->length, options, for_csv);
  cells[WIDTH] = format_length (item->width, options, for_csv);
  cells[THICKNESS] = format_length (item->thickness, options, for_csv);
  cells[MATERIAL] = cav_lettering_clean (item->material);
  cells[WEIGHT] = format_number (item->weight, 2, for_csv);
  cells[COST] = format_number (item->cost, 2, for_csv);
  cells[NOTE] = cav_lettering_clean (item->note);
}

/* CSV */

/* A spreadsheet takes a cell that begins like this for a formula and would work it out. */
static gboolean
looks_like_formula (const char *text)
{
  return *text != '\0' && strchr ("=+-@\t\r", *text) != NULL;
}

static void
append_csv_cell (GString *out, const char *text)
{
  g_autofree char *safe
      = looks_like_formula (text) ? g_strconcat ("'", text, NULL) : g_strdup (text);
  gboolean quoted = strpbrk (safe, ",\"\r\n") != NULL;
  g_auto (GStrv) parts = g_strsplit (safe, "\"", -1);
  g_autofree char *doubled = g_strjoinv ("\"\"", parts);

  g_string_append_printf (out, quoted ? "\"%s\"" : "%s", doubled);
}

static void
append_csv_row (GString *out, char *const *cells)
{
  for (guint i = 0; i < N_CELLS; i++)
    {
      if (i > 0)
        g_string_append_c (out, ',');
      append_csv_cell (out, cells[i]);
    }
  g_string_append (out, "\r\n");
}

char *
cav_cutting_list_create_csv (const CavCuttingList *list, const CavSheetOptions *options)
{
  GString *out = g_string_new (NULL);
  const char *unit = options->unit == CAV_UNIT_INCH ? "in" : "mm";

  g_string_append_printf (
      out,
      /* Translators: heads of a table with nine columns; keep the eight commas, and %s for
       * the unit of length. */
      _ ("count,what,length %s,width %s,thickness %s,material,weight kg,cost,note"), unit, unit,
      unit);
  g_string_append (out, "\r\n");
  for (guint i = 0; i < list->items->len; i++)
    {
      char *cells[N_CELLS];

      fill_cells (g_ptr_array_index (list->items, i), options, TRUE, cells);
      append_csv_row (out, cells);
      clear_cells (cells);
    }
  return g_string_free (out, FALSE);
}

/* Text */

static int
get_columns (const char *text)
{
  return (int)g_utf8_strlen (text, -1);
}

static void
append_text_cell (GString *out, const char *text, int width, gboolean right)
{
  int missing = MAX (width - get_columns (text), 0);

  if (right)
    g_string_append_printf (out, "%*s%s", missing, "", text);
  else
    g_string_append_printf (out, "%s%*s", text, missing, "");
}

static gboolean
is_right (guint cell)
{
  return cell == COUNT || cell == LENGTH || cell == WIDTH || cell == THICKNESS || cell == WEIGHT
         || cell == COST;
}

static const char *const headings[N_CELLS]
    = { NC_ ("column", "No."),   NC_ ("column", "What"),  NC_ ("column", "Length"),
        NC_ ("column", "Width"), NC_ ("column", "Thick"), NC_ ("column", "Material"),
        NC_ ("column", "kg"),    NC_ ("column", "Cost"),  "" };

static const char *
get_heading (guint cell)
{
  return cell == NOTE ? "" : g_dpgettext2 (GETTEXT_PACKAGE, "column", headings[cell]);
}

/* Lines of text end without blanks. */
static void
end_line (GString *out)
{
  while (out->len > 0 && out->str[out->len - 1] == ' ')
    g_string_truncate (out, out->len - 1);
  g_string_append_c (out, '\n');
}

static void
append_text_row (GString *out, const char *const *cells, const int *widths)
{
  for (guint i = 0; i < NOTE; i++)
    if (widths[i] > 0)
      {
        append_text_cell (out, cells[i], widths[i], is_right (i));
        g_string_append (out, "  ");
      }
  end_line (out);
  if (*cells[NOTE] != '\0')
    g_string_append_printf (out, "%*s%s\n", widths[COUNT] + 4, "", cells[NOTE]);
}

/* A column is as wide as its widest cell; one without any is left out. */
static void
measure_columns (GPtrArray *rows, int *widths)
{
  for (guint i = 0; i < N_CELLS; i++)
    {
      widths[i] = 0;
      for (guint j = 0; j < rows->len; j++)
        widths[i] = MAX (widths[i], get_columns (((char **)g_ptr_array_index (rows, j))[i]));
      if (widths[i] > 0)
        widths[i] = MAX (widths[i], get_columns (get_heading (i)));
    }
}

static GPtrArray *
create_rows (const CavCuttingList *list, const CavSheetOptions *options)
{
  GPtrArray *rows = g_ptr_array_new_with_free_func ((GDestroyNotify)g_strfreev);

  for (guint i = 0; i < list->items->len; i++)
    {
      char **cells = g_new0 (char *, N_CELLS + 1);

      fill_cells (g_ptr_array_index (list->items, i), options, FALSE, cells);
      g_ptr_array_add (rows, cells);
    }
  return rows;
}

static char *
describe_totals (const CavCuttingList *list)
{
  g_autofree char *weight = format_number (list->weight, 2, FALSE);
  g_autofree char *cost = format_number (list->cost, 2, FALSE);
  GString *text = g_string_new (NULL);

  if (*weight != '\0')
    g_string_append_printf (text, _ ("Together %s kg."), weight);
  if (*cost != '\0')
    {
      if (text->len > 0)
        g_string_append_c (text, ' ');
      g_string_append_printf (text, _ ("Cost %s."), cost);
    }
  return g_string_free (text, FALSE);
}

char *
cav_cutting_list_create_text (const CavCuttingList *list, const CavSheetOptions *options)
{
  GString *out = g_string_new (NULL);
  g_autoptr (GPtrArray) rows = create_rows (list, options);
  g_autofree char *totals = describe_totals (list);
  const char *heads[N_CELLS];
  int widths[N_CELLS];

  measure_columns (rows, widths);
  g_string_append (out, options->unit == CAV_UNIT_INCH
                            ? _ ("Cutting list, lengths in inches")
                            : _ ("Cutting list, lengths in millimetres"));
  g_string_append (out, "\n\n");
  for (guint i = 0; i < N_CELLS; i++)
    heads[i] = get_heading (i);
  append_text_row (out, heads, widths);
  for (guint i = 0; i < rows->len; i++)
    append_text_row (out, g_ptr_array_index (rows, i), widths);
  if (*totals != '\0')
    g_string_append_printf (out, "\n%s\n", totals);
  return g_string_free (out, FALSE);
}

/* The sheet */

/* Inches with their fractions are wider than millimetres. */
static const CavTextColumn *
choose_columns (CavUnit unit)
{
  static const CavTextColumn millimetres[]
      = { { NC_ ("column", "No."), 10.5, TRUE },   { NC_ ("column", "What"), 47.5, FALSE },
          { NC_ ("column", "Length"), 27, TRUE },  { NC_ ("column", "Width"), 24, TRUE },
          { NC_ ("column", "Thick"), 20.5, TRUE }, { NC_ ("column", "Material"), 39, FALSE },
          { NC_ ("column", "kg"), 15, TRUE },      { NC_ ("column", "Cost"), 17, TRUE } };
  static const CavTextColumn inches[]
      = { { NC_ ("column", "No."), 10.2, TRUE },    { NC_ ("column", "What"), 37, FALSE },
          { NC_ ("column", "Length"), 30.7, TRUE }, { NC_ ("column", "Width"), 27.6, TRUE },
          { NC_ ("column", "Thick"), 25, TRUE },    { NC_ ("column", "Material"), 38.5, FALSE },
          { NC_ ("column", "kg"), 13.5, TRUE },     { NC_ ("column", "Cost"), 18, TRUE } };

  G_STATIC_ASSERT (G_N_ELEMENTS (millimetres) == NOTE && G_N_ELEMENTS (inches) == NOTE);
  return unit == CAV_UNIT_INCH ? inches : millimetres;
}

GPtrArray *
cav_cutting_list_create_scenes (const CavCuttingList *list,
                                CavProject *project,
                                const CavSheetOptions *options)
{
  const CavTextColumn *columns = choose_columns (options->unit);
  guint n_columns = NOTE - (list->cost > 0 ? 0 : 1);
  g_autofree char *title = cav_sheet_dup_title (project);
  g_autofree char *totals = describe_totals (list);
  g_autofree char *unit = g_strdup (options->unit == CAV_UNIT_INCH ? _ ("Lengths in inches.")
                                                                   : _ ("Lengths in millimetres."));
  g_autoptr (CavTextSheet) sheet = cav_text_sheet_new (title, _ ("Cutting list"), options);

  cav_text_sheet_add_text (sheet, unit);
  cav_text_sheet_add_row (sheet, columns, n_columns, NULL, NULL);
  for (guint i = 0; i < list->items->len; i++)
    {
      char *cells[N_CELLS];

      fill_cells (g_ptr_array_index (list->items, i), options, FALSE, cells);
      cav_text_sheet_add_row (sheet, columns, n_columns, (const char *const *)cells, cells[NOTE]);
      clear_cells (cells);
    }
  if (*totals != '\0')
    cav_text_sheet_add_text (sheet, totals);
  return cav_text_sheet_finish (sheet);
}
