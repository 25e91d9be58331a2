/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-number-entry.h"

#include "geometry/cav-number-text.h"

#include <glib/gi18n.h>
#include <math.h>
#include <string.h>

/* Longest text that is looked at, bytes. */
#define TEXT_MAX 30

struct _CavNumberEntry
{
  CavFigureRow parent_instance;

  /* Owned */
  char *unit;

  /* State */
  int decimals;
  double step;
};

G_DEFINE_FINAL_TYPE (CavNumberEntry, cav_number_entry, CAV_TYPE_FIGURE_ROW)

enum
{
  PROP_0,
  PROP_DECIMALS,
  PROP_UNIT,
  PROP_STEP,
  N_PROPS,
};

static GParamSpec *properties[N_PROPS];

static gboolean
set_error (CavNumberEntry *self, GError **error)
{
  g_set_error_literal (error, G_IO_ERROR, G_IO_ERROR_INVALID_ARGUMENT,
                       self->decimals == 0 ? _ ("Write a whole number like 3.")
                                           : _ ("Write a number like 2 or 0.5."));
  return FALSE;
}

/* Digits with at most one decimal mark and a sign, and nothing else. */
static gboolean
is_number (const char *text, gboolean may_have_mark)
{
  gboolean has_digit = FALSE;
  int marks = 0;

  if (*text == '-' || *text == '+')
    text++;
  for (; *text != '\0'; text++)
    {
      if (*text == '.')
        marks++;
      else if (!g_ascii_isdigit (*text))
        return FALSE;
      else
        has_digit = TRUE;
    }
  return has_digit && marks <= (may_have_mark ? 1 : 0);
}

static gboolean
cav_number_entry_parse (CavFigureRow *row, const char *text, double *out_value, GError **error)
{
  CavNumberEntry *self = CAV_NUMBER_ENTRY (row);
  g_autofree char *copy = g_strstrip (g_strdup (text));

  if (strlen (copy) > TEXT_MAX)
    return set_error (self, error);
  if (*self->unit != '\0' && g_str_has_suffix (copy, self->unit))
    {
      copy[strlen (copy) - strlen (self->unit)] = '\0';
      g_strchomp (copy);
    }
  g_strdelimit (copy, ",", '.');
  if (!is_number (copy, self->decimals > 0))
    return set_error (self, error);
  *out_value = g_ascii_strtod (copy, NULL);
  return TRUE;
}

static char *
cav_number_entry_format (CavFigureRow *row, double value)
{
  return cav_number_create (value, CAV_NUMBER_ENTRY (row)->decimals);
}

static char *
cav_number_entry_format_with_unit (CavFigureRow *row, double value)
{
  CavNumberEntry *self = CAV_NUMBER_ENTRY (row);
  g_autofree char *bare = cav_number_entry_format (row, value);

  return g_strdup_printf ("%s%s%s", bare, *self->unit != '\0' && *self->unit != '%' ? " " : "",
                          self->unit);
}

static const char *
cav_number_entry_get_unit (CavFigureRow *row)
{
  return CAV_NUMBER_ENTRY (row)->unit;
}

static double
cav_number_entry_get_step (CavFigureRow *row, gboolean fine)
{
  CavNumberEntry *self = CAV_NUMBER_ENTRY (row);

  /* Of whole numbers there is no tenth. */
  return self->step * (fine && self->decimals > 0 ? 0.1 : 1.0);
}

static void
cav_number_entry_set_property (GObject *object, guint id, const GValue *value, GParamSpec *pspec)
{
  CavNumberEntry *self = CAV_NUMBER_ENTRY (object);

  switch (id)
    {
    case PROP_DECIMALS:
      self->decimals = g_value_get_int (value);
      break;
    case PROP_UNIT:
      g_free (self->unit);
      self->unit = g_value_dup_string (value);
      if (self->unit == NULL)
        self->unit = g_strdup ("");
      break;
    case PROP_STEP:
      self->step = g_value_get_double (value);
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
    }
}

static void
cav_number_entry_finalize (GObject *object)
{
  g_free (CAV_NUMBER_ENTRY (object)->unit);
  G_OBJECT_CLASS (cav_number_entry_parent_class)->finalize (object);
}

static void
cav_number_entry_class_init (CavNumberEntryClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  CavFigureRowClass *row_class = CAV_FIGURE_ROW_CLASS (klass);
  const GParamFlags flags = G_PARAM_WRITABLE | G_PARAM_CONSTRUCT_ONLY | G_PARAM_STATIC_STRINGS;

  object_class->set_property = cav_number_entry_set_property;
  object_class->finalize = cav_number_entry_finalize;
  row_class->parse = cav_number_entry_parse;
  row_class->format = cav_number_entry_format;
  row_class->format_with_unit = cav_number_entry_format_with_unit;
  row_class->get_unit = cav_number_entry_get_unit;
  row_class->get_step = cav_number_entry_get_step;

  properties[PROP_DECIMALS] = g_param_spec_int ("decimals", NULL, NULL, 0, 6, 0, flags);
  properties[PROP_UNIT] = g_param_spec_string ("unit", NULL, NULL, "", flags);
  properties[PROP_STEP] = g_param_spec_double ("step", NULL, NULL, 0.0, 1e6, 1.0, flags);
  g_object_class_install_properties (object_class, N_PROPS, properties);
}

static void
cav_number_entry_init (CavNumberEntry *self)
{
}

CavNumberEntry *
cav_number_entry_new (const char *title, int decimals, const char *unit, double step)
{
  g_return_val_if_fail (title != NULL && unit != NULL, NULL);

  return g_object_new (CAV_TYPE_NUMBER_ENTRY, "title", title, "decimals", decimals, "unit", unit,
                       "step", step, NULL);
}
