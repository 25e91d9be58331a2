/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-settings.h"

#include "app/cav-application.h"

#include <langinfo.h>

/* As in the schema. */
enum
{
  UNIT_AUTOMATIC,
  UNIT_MM,
  UNIT_INCH_16,
  UNIT_INCH_32,
  UNIT_INCH_64,
  UNIT_INCH_DECIMAL,
};

enum
{
  PAPER_AUTOMATIC,
  PAPER_A4,
  PAPER_LETTER,
};

/* Height of ISO A4 in mm; what the locale says about paper is that or US Letter's 279. */
#define A4_HEIGHT 297

/* Beside a program that was built and not installed: BUILD/src/app/cavetto, BUILD/ui. */
static GSettingsSchema *
find_schema_in_build (void)
{
  g_autofree char *program = g_file_read_link ("/proc/self/exe", NULL);
  g_autoptr (GSettingsSchemaSource) source = NULL;
  g_autofree char *folder = NULL;
  g_autofree char *schemas = NULL;

  if (program == NULL)
    return NULL;
  folder = g_path_get_dirname (program);
  schemas = g_build_filename (folder, "..", "..", "ui", NULL);
  source = g_settings_schema_source_new_from_directory (
      schemas, g_settings_schema_source_get_default (), TRUE, NULL);
  return source != NULL ? g_settings_schema_source_lookup (source, CAV_APPLICATION_ID, FALSE)
                        : NULL;
}

static GSettingsSchema *
find_schema (void)
{
  GSettingsSchemaSource *source = g_settings_schema_source_get_default ();
  GSettingsSchema *schema = NULL;

  if (source != NULL)
    schema = g_settings_schema_source_lookup (source, CAV_APPLICATION_ID, TRUE);
  return schema != NULL ? schema : find_schema_in_build ();
}

gboolean
cav_settings_exist (void)
{
  g_autoptr (GSettingsSchema) schema = find_schema ();

  return schema != NULL;
}

GSettings *
cav_settings_get (void)
{
  static GSettings *settings;

  if (settings == NULL)
    {
      g_autoptr (GSettingsSchema) schema = find_schema ();

      if (schema == NULL)
        g_error ("The settings schema " CAV_APPLICATION_ID " is not installed");
      settings = g_settings_new_full (schema, NULL, NULL);
    }
  return settings;
}

/* glibc: 1 is the metric system, 2 the one of the United States. */
static gboolean
is_locale_metric (void)
{
  return nl_langinfo (_NL_MEASUREMENT_MEASUREMENT)[0] != 2;
}

static gboolean
is_locale_a4 (void)
{
  /* The locale's data hold a number where others hold a text. */
  return GPOINTER_TO_INT (nl_langinfo (_NL_PAPER_HEIGHT)) == A4_HEIGHT;
}

CavLengthStyle
cav_settings_get_length_style (void)
{
  switch (g_settings_get_enum (cav_settings_get (), CAV_SETTING_UNIT))
    {
    case UNIT_MM:
      return (CavLengthStyle){ CAV_UNIT_MM, CAV_SHEET_DENOMINATOR };
    case UNIT_INCH_16:
      return (CavLengthStyle){ CAV_UNIT_INCH, 16 };
    case UNIT_INCH_32:
      return (CavLengthStyle){ CAV_UNIT_INCH, 32 };
    case UNIT_INCH_64:
      return (CavLengthStyle){ CAV_UNIT_INCH, 64 };
    case UNIT_INCH_DECIMAL:
      return (CavLengthStyle){ CAV_UNIT_INCH, CAV_LENGTH_DECIMAL };
    default:
      return is_locale_metric () ? (CavLengthStyle){ CAV_UNIT_MM, CAV_SHEET_DENOMINATOR }
                                 : (CavLengthStyle){ CAV_UNIT_INCH, 32 };
    }
}

CavPaper
cav_settings_get_paper (void)
{
  switch (g_settings_get_enum (cav_settings_get (), CAV_SETTING_PAPER))
    {
    case PAPER_A4:
      return CAV_PAPER_A4;
    case PAPER_LETTER:
      return CAV_PAPER_LETTER;
    default:
      return is_locale_a4 () ? CAV_PAPER_A4 : CAV_PAPER_LETTER;
    }
}
