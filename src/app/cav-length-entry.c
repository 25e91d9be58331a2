/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-length-entry.h"

#include <math.h>

#include "app/cav-length-text.h"
#include "app/cav-settings.h"
#include "geometry/cav-tolerance.h"
#include "geometry/cav-unit.h"

struct _CavLengthEntry
{
  CavFigureRow parent_instance;
};

G_DEFINE_FINAL_TYPE (CavLengthEntry, cav_length_entry, CAV_TYPE_FIGURE_ROW)

static gboolean
cav_length_entry_parse (CavFigureRow *row, const char *text, double *out_value, GError **error)
{
  return cav_length_parse (text, cav_settings_get_length_style ().unit, out_value, error);
}

/* A length that the fractions would show as nothing is shown in decimals: somebody sets a machine
 * by it. */
static CavLengthStyle
choose_style (double value)
{
  CavLengthStyle style = cav_settings_get_length_style ();

  if (style.unit == CAV_UNIT_INCH && style.denominator != CAV_LENGTH_DECIMAL
      && fabs (value) > CAV_TOLERANCE_POINT && fabs (value) < CAV_INCH / style.denominator / 2)
    style.denominator = CAV_LENGTH_DECIMAL;
  return style;
}

static char *
cav_length_entry_format (CavFigureRow *row, double value)
{
  CavLengthStyle style = choose_style (value);

  return cav_length_format_bare (value, style.unit, style.denominator);
}

static char *
cav_length_entry_format_with_unit (CavFigureRow *row, double value)
{
  CavLengthStyle style = choose_style (value);

  return cav_length_format (value, style.unit, style.denominator);
}

static const char *
cav_length_entry_get_unit (CavFigureRow *row)
{
  return cav_length_text_get_unit ();
}

static double
cav_length_entry_get_step (CavFigureRow *row, gboolean fine)
{
  return cav_length_text_get_step () * (fine ? 0.1 : 1.0);
}

static void
cav_length_entry_constructed (GObject *object)
{
  G_OBJECT_CLASS (cav_length_entry_parent_class)->constructed (object);
  g_signal_connect_object (cav_settings_get (), "changed::" CAV_SETTING_UNIT,
                           G_CALLBACK (cav_figure_row_refresh), object, G_CONNECT_SWAPPED);
}

static void
cav_length_entry_class_init (CavLengthEntryClass *klass)
{
  CavFigureRowClass *row_class = CAV_FIGURE_ROW_CLASS (klass);

  G_OBJECT_CLASS (klass)->constructed = cav_length_entry_constructed;
  row_class->parse = cav_length_entry_parse;
  row_class->format = cav_length_entry_format;
  row_class->format_with_unit = cav_length_entry_format_with_unit;
  row_class->get_unit = cav_length_entry_get_unit;
  row_class->get_step = cav_length_entry_get_step;
}

static void
cav_length_entry_init (CavLengthEntry *self)
{
}

CavLengthEntry *
cav_length_entry_new (const char *title)
{
  g_return_val_if_fail (title != NULL, NULL);

  return g_object_new (CAV_TYPE_LENGTH_ENTRY, "title", title, NULL);
}
