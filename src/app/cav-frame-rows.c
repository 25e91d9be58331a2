/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-frame-rows.h"

#include <glib/gi18n.h>
#include <math.h>
#include <string.h>

#include "frame/cav-material.h"
#include "frame/cav-stock-size.h"
#include "geometry/cav-tolerance.h"

/* The column from top to bottom. It has as many rows as the settings have numbers, so that a table
 * says it better than forty pieces of interface would. */
static const CavFrameRow ROWS[] = {
  { N_ ("Size"), CAV_FRAME_ROW_START, NULL, N_ ("Work from") },
  { NULL, CAV_FRAME_ROW_STOCK, NULL, N_ ("Common size") },
  { NULL, CAV_FRAME_ROW_LANDSCAPE, NULL, N_ ("Landscape") },
  { NULL, CAV_FRAME_ROW_NUMBER, "picture-width", N_ ("Picture width") },
  { NULL, CAV_FRAME_ROW_NUMBER, "picture-height", N_ ("Picture height") },
  { NULL, CAV_FRAME_ROW_NUMBER, "width", N_ ("Width at hand") },
  { NULL, CAV_FRAME_ROW_NUMBER, "height", N_ ("Height at hand") },
  { NULL, CAV_FRAME_ROW_NUMBER, "allowance", N_ ("Allowance") },
  { NULL, CAV_FRAME_ROW_SIDES, NULL, N_ ("Sides") },
  { N_ ("Mats"), CAV_FRAME_ROW_MATS, NULL, N_ ("Number of mats") },
  { NULL, CAV_FRAME_ROW_FLOATED, NULL, N_ ("Float without a mat") },
  { NULL, CAV_FRAME_ROW_NUMBER, "float-margin", N_ ("Board around it") },
  { NULL, CAV_FRAME_ROW_PLY, "thickness-1", N_ ("Board of the first") },
  { NULL, CAV_FRAME_ROW_NUMBER, "thickness-1", N_ ("Thickness of the first") },
  { NULL, CAV_FRAME_ROW_BORDERS, NULL, N_ ("Borders") },
  { NULL, CAV_FRAME_ROW_NUMBER, "border-left", N_ ("Border left") },
  { NULL, CAV_FRAME_ROW_NUMBER, "border-right", N_ ("Border right") },
  { NULL, CAV_FRAME_ROW_NUMBER, "border-top", N_ ("Border top") },
  { NULL, CAV_FRAME_ROW_NUMBER, "border-bottom", N_ ("Border bottom") },
  { NULL, CAV_FRAME_ROW_NUMBER, "overlap", N_ ("Overlap on the picture") },
  { NULL, CAV_FRAME_ROW_NUMBER, "reveal-2", N_ ("Reveal of the second") },
  { NULL, CAV_FRAME_ROW_PLY, "thickness-2", N_ ("Board of the second") },
  { NULL, CAV_FRAME_ROW_NUMBER, "thickness-2", N_ ("Thickness of the second") },
  { NULL, CAV_FRAME_ROW_NUMBER, "reveal-3", N_ ("Reveal of the third") },
  { NULL, CAV_FRAME_ROW_PLY, "thickness-3", N_ ("Board of the third") },
  { NULL, CAV_FRAME_ROW_NUMBER, "thickness-3", N_ ("Thickness of the third") },
  { NULL, CAV_FRAME_ROW_BEVELLED, NULL, N_ ("Bevelled windows") },
  { N_ ("Package"), CAV_FRAME_ROW_GLAZING, NULL, N_ ("Glazing") },
  { NULL, CAV_FRAME_ROW_NUMBER, "glazing-thickness", N_ ("Its thickness") },
  { NULL, CAV_FRAME_ROW_NUMBER, "glazing-density", N_ ("Its density") },
  { NULL, CAV_FRAME_ROW_NUMBER, "spacer", N_ ("Spacer") },
  { NULL, CAV_FRAME_ROW_NUMBER, "picture-thickness", N_ ("Picture thickness") },
  { NULL, CAV_FRAME_ROW_BACKING, NULL, N_ ("Backing") },
  { NULL, CAV_FRAME_ROW_NUMBER, "backing-thickness", N_ ("Its thickness") },
  { NULL, CAV_FRAME_ROW_NUMBER, "backing-density", N_ ("Its density") },
  { NULL, CAV_FRAME_ROW_NUMBER, "point-room", N_ ("Room for points") },
  { NULL, CAV_FRAME_ROW_STANDS_OUT, NULL, N_ ("May stand out of the back") },
  { N_ ("Wood and finish"), CAV_FRAME_ROW_SAWN, NULL, N_ ("Sawn") },
  { NULL, CAV_FRAME_ROW_FINISH, NULL, N_ ("Finish") },
  { NULL, CAV_FRAME_ROW_COATS, NULL, N_ ("Coats") },
  { N_ ("Air over the year"), CAV_FRAME_ROW_NUMBER, "shop-humidity", N_ ("Humidity in the shop") },
  { NULL, CAV_FRAME_ROW_NUMBER, "shop-temperature", N_ ("Temperature in the shop") },
  { NULL, CAV_FRAME_ROW_NUMBER, "dry-humidity", N_ ("Driest season") },
  { NULL, CAV_FRAME_ROW_NUMBER, "dry-temperature", N_ ("Its temperature") },
  { NULL, CAV_FRAME_ROW_NUMBER, "damp-humidity", N_ ("Dampest season") },
  { NULL, CAV_FRAME_ROW_NUMBER, "damp-temperature", N_ ("Its temperature") },
  { N_ ("Errors to expect"), CAV_FRAME_ROW_NUMBER, "saw-error", N_ ("Each mitre cut") },
  { NULL, CAV_FRAME_ROW_NUMBER, "pair-error", N_ ("Opposite rails") },
  { NULL, CAV_FRAME_ROW_NUMBER, "safe-length", N_ ("Shortest strip to mill") },
  { N_ ("Hanging"), CAV_FRAME_ROW_HANGERS, NULL, N_ ("Hangers") },
  { NULL, CAV_FRAME_ROW_WIRE, NULL, N_ ("Wire between them") },
  { NULL, CAV_FRAME_ROW_NUMBER, "wire-angle", N_ ("Wire above level") },
  { NULL, CAV_FRAME_ROW_REFLECTION, NULL, N_ ("Show glass") },
};

static const char *const STARTS[]
    = { N_ ("The picture"), N_ ("Glass at hand"), N_ ("Rabbet opening"), N_ ("Outside wanted") };
static const char *const BORDERS[]
    = { N_ ("Equal all round"), N_ ("Wider below"), N_ ("Each by itself") };
/* Mat board: the one at place n has 2 n plies. */
static const char *const BOARDS[]
    = { N_ ("Another"), N_ ("2-ply"), N_ ("4-ply"), N_ ("6-ply"), N_ ("8-ply") };
static const char *const GLAZINGS[] = { N_ ("None"), N_ ("Glass"), N_ ("Acrylic") };
static const char *const BACKINGS[]
    = { N_ ("None"), N_ ("Card"), N_ ("Foam board"), N_ ("Hardboard"), N_ ("Plywood") };
static const char *const SAWN[] = { NC_ ("sawn", "Flat"), NC_ ("sawn", "Quarter") };
static const char *const FINISHES[] = { N_ ("Bare"),  N_ ("Oil"),   N_ ("Wax"), N_ ("Varnish"),
                                        N_ ("Black"), N_ ("White"), N_ ("Gilt") };

int
cav_frame_row_get_count (const CavFrameSettings *settings, CavFrameRowKind kind)
{
  switch ((int)kind)
    {
    case CAV_FRAME_ROW_SIDES:
      return settings->sides;
    case CAV_FRAME_ROW_MATS:
      return settings->n_mats;
    case CAV_FRAME_ROW_COATS:
      return settings->coats;
    default:
      return settings->hangers;
    }
}

const CavFrameNumberInfo *
cav_frame_rows_find_number (const char *name)
{
  guint n_numbers = 0;
  const CavFrameNumberInfo *numbers = cav_frame_settings_get_numbers (&n_numbers);

  for (guint i = 0; i < n_numbers; i++)
    if (g_str_equal (numbers[i].name, name))
      return &numbers[i];
  g_assert_not_reached ();
}

/* Borders */

/* By how much the lower border is wider than the others, where it is asked to be: common practice
 * is a tenth to a seventh, no source. */
#define BOTTOM_WEIGHT (17.0 / 15.0)

static gboolean
is_same (double a, double b)
{
  return fabs (a - b) < CAV_TOLERANCE_POINT;
}

CavBorderKind
cav_frame_rows_get_borders (const CavFrameSettings *settings)
{
  const double border = settings->border_left;

  if (!is_same (settings->border_right, border) || !is_same (settings->border_top, border)
      || settings->border_bottom < border - CAV_TOLERANCE_POINT)
    return CAV_BORDERS_EACH;
  return is_same (settings->border_bottom, border) ? CAV_BORDERS_EQUAL : CAV_BORDERS_WEIGHTED;
}

static void
set_bottom (CavFrameSettings *settings, double border)
{
  settings->border_bottom = fmin (border, cav_frame_rows_find_number ("border-bottom")->maximum);
}

void
cav_frame_rows_set_border (CavFrameSettings *settings, CavBorderKind borders, double border)
{
  const double more = border - settings->border_left;

  settings->border_left = border;
  if (borders == CAV_BORDERS_EACH)
    return;
  settings->border_right = border;
  settings->border_top = border;
  if (borders == CAV_BORDERS_EQUAL)
    settings->border_bottom = border;
  else
    set_bottom (settings, settings->border_bottom + more);
}

static void
set_borders (CavFrameSettings *settings, CavBorderKind borders)
{
  cav_frame_rows_set_border (settings, borders, settings->border_left);
  if (borders == CAV_BORDERS_WEIGHTED && settings->border_bottom <= settings->border_left)
    set_bottom (settings, round (settings->border_left * BOTTOM_WEIGHT));
}

/* Boards by their plies */

static int
get_mat (const CavFrameRow *row)
{
  return row->number[strlen (row->number) - 1] - '1';
}

static guint
find_board (double thickness)
{
  for (guint i = 1; i < G_N_ELEMENTS (BOARDS); i++)
    if (is_same (cav_mat_get_thickness (2 * (int)i), thickness))
      return i;
  return 0;
}

static void
set_board (CavFrameSettings *settings, int mat, guint choice)
{
  if (choice > 0)
    settings->mats[mat].thickness = cav_mat_get_thickness (2 * (int)choice);
}

/* Switches */

static void
set_landscape (CavFrameSettings *settings, gboolean landscape)
{
  const double width = settings->picture_width;

  if ((width > settings->picture_height) == landscape)
    return;
  settings->picture_width = settings->picture_height;
  settings->picture_height = width;
}

gboolean
cav_frame_row_get_switch (const CavFrameSettings *settings, CavFrameRowKind kind)
{
  switch ((int)kind)
    {
    case CAV_FRAME_ROW_LANDSCAPE:
      return settings->picture_width > settings->picture_height;
    case CAV_FRAME_ROW_FLOATED:
      return settings->floated;
    case CAV_FRAME_ROW_BEVELLED:
      return settings->bevelled;
    case CAV_FRAME_ROW_STANDS_OUT:
      return settings->stands_out;
    case CAV_FRAME_ROW_WIRE:
      return settings->wire;
    default:
      return settings->reflection;
    }
}

/* The first line of the list of sizes is "another". */
static guint
find_stock (const CavFrameSettings *settings)
{
  const CavStockSize *size
      = cav_stock_size_match (settings->picture_width, settings->picture_height);
  g_autoptr (GPtrArray) sizes = cav_stock_sizes_list_for_pictures ();
  guint index;

  return g_ptr_array_find (sizes, size, &index) ? index + 1 : 0;
}

guint
cav_frame_row_get_choice (const CavFrameSettings *settings, const CavFrameRow *row)
{
  switch ((int)row->kind)
    {
    case CAV_FRAME_ROW_PLY:
      return find_board (settings->mats[get_mat (row)].thickness);
    case CAV_FRAME_ROW_BORDERS:
      return cav_frame_rows_get_borders (settings);
    case CAV_FRAME_ROW_START:
      return settings->start;
    case CAV_FRAME_ROW_STOCK:
      return find_stock (settings);
    case CAV_FRAME_ROW_GLAZING:
      return settings->glazing;
    case CAV_FRAME_ROW_BACKING:
      return settings->backing;
    case CAV_FRAME_ROW_SAWN:
      return settings->sawn;
    default:
      return settings->finish;
    }
}

gboolean
cav_frame_row_is_shown (const CavFrameSettings *settings,
                        CavBorderKind borders,
                        const CavFrameRow *row)
{
  const char *name = row->number != NULL ? row->number : "";
  gboolean matted = settings->n_mats > 0 && !settings->floated;

  if (g_str_equal (name, "width"))
    return settings->start != CAV_FRAME_START_PICTURE;
  if (g_str_equal (name, "height"))
    return settings->start != CAV_FRAME_START_PICTURE && settings->sides == 4;
  if (g_str_equal (name, "picture-height"))
    return settings->sides == 4;
  if (g_str_equal (name, "float-margin"))
    return settings->floated;
  if (g_str_equal (name, "border-left"))
    return matted;
  if (g_str_equal (name, "border-bottom"))
    return matted && settings->sides == 4 && borders != CAV_BORDERS_EQUAL;
  if (g_str_has_prefix (name, "border-"))
    return matted && settings->sides == 4 && borders == CAV_BORDERS_EACH;
  if (row->kind == CAV_FRAME_ROW_BORDERS)
    return matted && settings->sides == 4;
  if (row->kind == CAV_FRAME_ROW_LANDSCAPE)
    return settings->sides == 4;
  if (g_str_equal (name, "overlap") || g_str_equal (name, "thickness-1")
      || row->kind == CAV_FRAME_ROW_BEVELLED)
    return matted;
  if (g_str_equal (name, "reveal-2") || g_str_equal (name, "thickness-2"))
    return matted && settings->n_mats > 1;
  if (g_str_equal (name, "reveal-3") || g_str_equal (name, "thickness-3"))
    return matted && settings->n_mats > 2;
  if (g_str_equal (name, "glazing-thickness") || g_str_equal (name, "glazing-density"))
    return settings->glazing != CAV_GLAZING_NONE;
  if (g_str_equal (name, "backing-thickness") || g_str_equal (name, "backing-density"))
    return settings->backing != CAV_BACKING_NONE;
  if (g_str_equal (name, "wire-angle"))
    return settings->wire;
  if (row->kind == CAV_FRAME_ROW_COATS)
    return settings->finish != CAV_FINISH_BARE;
  return TRUE;
}

const char *
cav_frame_row_get_title (const CavFrameRow *row, CavBorderKind borders)
{
  if (g_strcmp0 (row->number, "border-left") == 0 && borders == CAV_BORDERS_EQUAL)
    return _ ("All borders");
  if (g_strcmp0 (row->number, "border-left") == 0 && borders == CAV_BORDERS_WEIGHTED)
    return _ ("Left, right and top");
  return _ (row->title);
}

void
cav_frame_row_set_count (CavFrameSettings *settings, CavFrameRowKind kind, int value)
{
  switch ((int)kind)
    {
    case CAV_FRAME_ROW_SIDES:
      settings->sides = value;
      break;
    case CAV_FRAME_ROW_MATS:
      settings->n_mats = value;
      break;
    case CAV_FRAME_ROW_COATS:
      settings->coats = value;
      break;
    default:
      settings->hangers = value;
    }
}

void
cav_frame_row_set_switch (CavFrameSettings *settings, CavFrameRowKind kind, gboolean value)
{
  switch ((int)kind)
    {
    case CAV_FRAME_ROW_LANDSCAPE:
      set_landscape (settings, value);
      break;
    case CAV_FRAME_ROW_FLOATED:
      settings->floated = value;
      break;
    case CAV_FRAME_ROW_BEVELLED:
      settings->bevelled = value;
      break;
    case CAV_FRAME_ROW_STANDS_OUT:
      settings->stands_out = value;
      break;
    case CAV_FRAME_ROW_WIRE:
      settings->wire = value;
      break;
    default:
      settings->reflection = value;
    }
}

/* A sheet size keeps the way up that the picture has. */
static void
set_stock (CavFrameSettings *settings, guint choice)
{
  g_autoptr (GPtrArray) sizes = cav_stock_sizes_list_for_pictures ();
  const CavStockSize *size
      = choice > 0 && choice <= sizes->len ? g_ptr_array_index (sizes, choice - 1) : NULL;
  gboolean lying = settings->picture_width > settings->picture_height;

  if (size == NULL)
    return;
  settings->picture_width = lying ? size->height : size->width;
  settings->picture_height = lying ? size->width : size->height;
}

void
cav_frame_row_set_choice (CavFrameSettings *settings, const CavFrameRow *row, guint choice)
{
  switch ((int)row->kind)
    {
    case CAV_FRAME_ROW_PLY:
      set_board (settings, get_mat (row), choice);
      break;
    case CAV_FRAME_ROW_BORDERS:
      set_borders (settings, (CavBorderKind)choice);
      break;
    case CAV_FRAME_ROW_START:
      settings->start = (CavFrameStart)choice;
      break;
    case CAV_FRAME_ROW_STOCK:
      set_stock (settings, choice);
      break;
    case CAV_FRAME_ROW_GLAZING:
      settings->glazing = (CavGlazing)choice;
      if (settings->glazing != CAV_GLAZING_NONE)
        settings->glazing_density = cav_glazing_get_density (settings->glazing);
      break;
    case CAV_FRAME_ROW_BACKING:
      settings->backing = (CavBacking)choice;
      if (settings->backing != CAV_BACKING_NONE)
        {
          settings->backing_density = cav_backing_get_density (settings->backing);
          settings->backing_thickness = cav_backing_get_thickness (settings->backing);
        }
      break;
    case CAV_FRAME_ROW_SAWN:
      settings->sawn = (CavSawn)choice;
      break;
    default:
      settings->finish = (CavFinish)choice;
    }
}

GtkStringList *
cav_frame_row_create_names (CavFrameRowKind kind)
{
  GtkStringList *list = gtk_string_list_new (NULL);
  const char *const *words = FINISHES;
  guint n_words = G_N_ELEMENTS (FINISHES);

  if (kind == CAV_FRAME_ROW_STOCK)
    {
      g_autoptr (GPtrArray) sizes = cav_stock_sizes_list_for_pictures ();

      gtk_string_list_append (list, _ ("Own size"));
      for (guint i = 0; i < sizes->len; i++)
        gtk_string_list_append (list, ((const CavStockSize *)g_ptr_array_index (sizes, i))->name);
      return list;
    }
  if (kind == CAV_FRAME_ROW_PLY)
    words = BOARDS, n_words = G_N_ELEMENTS (BOARDS);
  else if (kind == CAV_FRAME_ROW_BORDERS)
    words = BORDERS, n_words = G_N_ELEMENTS (BORDERS);
  else if (kind == CAV_FRAME_ROW_START)
    words = STARTS, n_words = G_N_ELEMENTS (STARTS);
  else if (kind == CAV_FRAME_ROW_GLAZING)
    words = GLAZINGS, n_words = G_N_ELEMENTS (GLAZINGS);
  else if (kind == CAV_FRAME_ROW_BACKING)
    words = BACKINGS, n_words = G_N_ELEMENTS (BACKINGS);
  else if (kind == CAV_FRAME_ROW_SAWN)
    words = SAWN, n_words = G_N_ELEMENTS (SAWN);
  for (guint i = 0; i < n_words; i++)
    gtk_string_list_append (list, kind == CAV_FRAME_ROW_SAWN ? g_dpgettext2 (NULL, "sawn", words[i])
                                                             : _ (words[i]));
  return list;
}

/* Where findings lead: the first of these rows that is shown. */
typedef struct
{
  const char *code;
  CavFrameRowKind kind;
  const char *number;
} Lead;

static const Lead LEADS[] = {
  { "frame-no-opening", CAV_FRAME_ROW_NUMBER, "width" },
  { "frame-no-opening", CAV_FRAME_ROW_NUMBER, "picture-width" },
  { "frame-no-cover", CAV_FRAME_ROW_NUMBER, "allowance" },
  { "frame-little-cover", CAV_FRAME_ROW_NUMBER, "allowance" },
  { "frame-no-window", CAV_FRAME_ROW_NUMBER, "border-left" },
  { "frame-window-too-large", CAV_FRAME_ROW_NUMBER, "overlap" },
  { "frame-window-covered", CAV_FRAME_ROW_NUMBER, "border-left" },
  { "frame-picture-too-large", CAV_FRAME_ROW_NUMBER, "picture-width" },
  { "frame-picture-small", CAV_FRAME_ROW_NUMBER, "picture-width" },
  { "frame-mat-not-sold", CAV_FRAME_ROW_NUMBER, "border-left" },
  { "frame-mat-not-sold", CAV_FRAME_ROW_NUMBER, "float-margin" },
  { "frame-glass-large", CAV_FRAME_ROW_GLAZING, NULL },
  { "frame-package-deep", CAV_FRAME_ROW_STANDS_OUT, NULL },
  { "frame-no-room-for-points", CAV_FRAME_ROW_NUMBER, "point-room" },
  { "frame-package-shallow", CAV_FRAME_ROW_NUMBER, "spacer" },
  { "frame-no-package", CAV_FRAME_ROW_GLAZING, NULL },
  { "frame-glass-touches", CAV_FRAME_ROW_NUMBER, "spacer" },
  { "frame-short-rail", CAV_FRAME_ROW_NUMBER, "safe-length" },
  { "frame-short-strip", CAV_FRAME_ROW_NUMBER, "safe-length" },
  { "frame-air-beyond-table", CAV_FRAME_ROW_NUMBER, "shop-humidity" },
  { "frame-season-gap", CAV_FRAME_ROW_SAWN, NULL },
  { "frame-wire-hangers", CAV_FRAME_ROW_HANGERS, NULL },
  { "frame-wire-level", CAV_FRAME_ROW_NUMBER, "wire-angle" },
  { "frame-wire-flat", CAV_FRAME_ROW_NUMBER, "wire-angle" },
};

const CavFrameRow *
cav_frame_rows_get (guint *out_n_rows)
{
  *out_n_rows = G_N_ELEMENTS (ROWS);
  return ROWS;
}

static int
find_shown (const CavFrameSettings *settings, const Lead *lead)
{
  for (guint i = 0; i < G_N_ELEMENTS (ROWS); i++)
    if (ROWS[i].kind == lead->kind && g_strcmp0 (ROWS[i].number, lead->number) == 0
        && cav_frame_row_is_shown (settings, cav_frame_rows_get_borders (settings), &ROWS[i]))
      return (int)i;
  return -1;
}

int
cav_frame_rows_find_for (const CavFrameSettings *settings, const char *code)
{
  for (guint i = 0; i < G_N_ELEMENTS (LEADS); i++)
    if (g_str_equal (LEADS[i].code, code))
      {
        int row = find_shown (settings, &LEADS[i]);

        if (row >= 0)
          return row;
      }
  return -1;
}
