/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "storage/cav-frame-xml.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

#include "storage/cav-xml-write.h"

/* Counts, colours and yes-or-no values by their names in files; numbers stand in a table of the
 * frame's own. */

typedef struct
{
  const char *name;
  gsize offset;
  int minimum;
  int maximum;
} Count;

#define AT(field) G_STRUCT_OFFSET (CavFrameSettings, field)

static const Count counts[] = {
  { "sides", AT (sides), CAV_FRAME_SIDES_MIN, CAV_FRAME_SIDES_MAX },
  { "mats", AT (n_mats), 0, CAV_MATS_MAX },
  { "coats", AT (coats), 0, CAV_COATS_MAX },
  { "hangers", AT (hangers), 1, CAV_HANGERS_MAX },
};

typedef struct
{
  const char *name;
  gsize offset;
} Field;

static const Field colours[] = {
  { "mat-1", AT (mats[0].colour) }, { "mat-2", AT (mats[1].colour) },
  { "mat-3", AT (mats[2].colour) }, { "float", AT (float_colour) },
  { "wall", AT (wall_colour) },
};

static const Field booleans[] = {
  { "bevelled", AT (bevelled) },     { "floated", AT (floated) },
  { "stands-out", AT (stands_out) }, { "wire", AT (wire) },
  { "reflection", AT (reflection) },
};

/* What was measured stands in an element of its own. */
static const Field dry_booleans[] = {
  { "gaps", AT (dry_fit.has_gaps) },
  { "diagonals", AT (dry_fit.has_diagonals) },
  { "corner", AT (dry_fit.has_corner) },
  { "last-corner", AT (dry_fit.last_corner) },
};

static const char *const word_names[] = { "start", "glazing", "backing", "sawn", "finish" };

static gboolean
is_dry (const CavFrameNumberInfo *number)
{
  return number->offset >= AT (dry_fit);
}

static void
add_fields (GPtrArray *names, const Field *fields, guint n_fields)
{
  for (guint i = 0; i < n_fields; i++)
    g_ptr_array_add (names, (gpointer)fields[i].name);
}

static void
add_numbers (GPtrArray *names, gboolean dry)
{
  guint n_numbers;
  const CavFrameNumberInfo *numbers = cav_frame_settings_get_numbers (&n_numbers);

  for (guint i = 0; i < n_numbers; i++)
    if (is_dry (&numbers[i]) == dry)
      g_ptr_array_add (names, (gpointer)numbers[i].name);
}

static gboolean
check_names (const CavXml *xml, const xmlNode *node, GPtrArray *names, GError **error)
{
  g_ptr_array_add (names, NULL);
  return cav_xml_check_attributes (xml, node, (const char *const *)names->pdata, error);
}

static gboolean
read_numbers (const CavXml *xml,
              const xmlNode *node,
              gboolean dry,
              CavFrameSettings *settings,
              GError **error)
{
  guint n_numbers;
  const CavFrameNumberInfo *numbers = cav_frame_settings_get_numbers (&n_numbers);

  for (guint i = 0; i < n_numbers; i++)
    {
      double value = cav_frame_settings_get_number (settings, &numbers[i]);

      if (is_dry (&numbers[i]) != dry)
        continue;
      if (!cav_xml_optional_number (xml, node, numbers[i].name, numbers[i].minimum,
                                    numbers[i].maximum, &value, error))
        return FALSE;
      cav_frame_settings_set_number (settings, &numbers[i], value);
    }
  return TRUE;
}

static gboolean
read_booleans (const CavXml *xml,
               const xmlNode *node,
               const Field *fields,
               guint n_fields,
               CavFrameSettings *settings,
               GError **error)
{
  for (guint i = 0; i < n_fields; i++)
    if (!cav_xml_optional_boolean (xml, node, fields[i].name,
                                   &G_STRUCT_MEMBER (gboolean, settings, fields[i].offset), error))
      return FALSE;
  return TRUE;
}

static gboolean
read_counts (const CavXml *xml, const xmlNode *node, CavFrameSettings *settings, GError **error)
{
  for (guint i = 0; i < G_N_ELEMENTS (counts); i++)
    if (!cav_xml_optional_integer (xml, node, counts[i].name, counts[i].minimum, counts[i].maximum,
                                   &G_STRUCT_MEMBER (int, settings, counts[i].offset), error))
      return FALSE;
  return TRUE;
}

/* "#rrggbb" */
static gboolean
parse_colour (const char *text, guint32 *out_colour)
{
  guint32 colour = 0;

  if (strlen (text) != 7 || text[0] != '#')
    return FALSE;
  for (int i = 1; i < 7; i++)
    {
      int digit = g_ascii_xdigit_value (text[i]);

      if (digit < 0)
        return FALSE;
      colour = colour * 16 + (guint32)digit;
    }
  *out_colour = colour;
  return TRUE;
}

static gboolean
read_colours (const CavXml *xml, const xmlNode *node, CavFrameSettings *settings, GError **error)
{
  for (guint i = 0; i < G_N_ELEMENTS (colours); i++)
    {
      g_autofree char *text = cav_xml_dup_attribute (node, colours[i].name);

      if (text != NULL
          && !parse_colour (text, &G_STRUCT_MEMBER (guint32, settings, colours[i].offset)))
        {
          g_autofree char *shown = cav_xml_dup_printable_value (text);

          return cav_xml_fail (xml, node, CAV_STORAGE_ERROR_CONTENT, error,
                               _ ("%s=\"%s\" of <%s> is not a colour; write it like #f2eee3"),
                               colours[i].name, shown, (const char *)node->name);
        }
    }
  return TRUE;
}

static gboolean
take_word (const char *name, const char *word, CavFrameSettings *settings)
{
  if (strcmp (name, "start") == 0)
    return cav_frame_start_from_string (word, &settings->start);
  if (strcmp (name, "glazing") == 0)
    return cav_glazing_from_string (word, &settings->glazing);
  if (strcmp (name, "backing") == 0)
    return cav_backing_from_string (word, &settings->backing);
  if (strcmp (name, "sawn") == 0)
    return cav_sawn_from_string (word, &settings->sawn);
  return cav_finish_from_string (word, &settings->finish);
}

static gboolean
read_words (const CavXml *xml, const xmlNode *node, CavFrameSettings *settings, GError **error)
{
  for (guint i = 0; i < G_N_ELEMENTS (word_names); i++)
    {
      g_autofree char *word = cav_xml_dup_attribute (node, word_names[i]);

      if (word != NULL && !take_word (word_names[i], word, settings))
        return cav_xml_fail_word (xml, node, word_names[i], error);
    }
  return TRUE;
}

static gboolean
read_measures (const CavXml *xml, const xmlNode *node, CavFrameSettings *settings, GError **error)
{
  g_autoptr (GPtrArray) names = g_ptr_array_new ();

  add_numbers (names, FALSE);
  return check_names (xml, node, names, error) && read_numbers (xml, node, FALSE, settings, error);
}

static gboolean
read_options (const CavXml *xml, const xmlNode *node, CavFrameSettings *settings, GError **error)
{
  g_autoptr (GPtrArray) names = g_ptr_array_new ();

  add_fields (names, booleans, G_N_ELEMENTS (booleans));
  return check_names (xml, node, names, error)
         && read_booleans (xml, node, booleans, G_N_ELEMENTS (booleans), settings, error);
}

static gboolean
read_all_colours (const CavXml *xml,
                  const xmlNode *node,
                  CavFrameSettings *settings,
                  GError **error)
{
  g_autoptr (GPtrArray) names = g_ptr_array_new ();

  add_fields (names, colours, G_N_ELEMENTS (colours));
  return check_names (xml, node, names, error) && read_colours (xml, node, settings, error);
}

static gboolean
read_dry_fit (const CavXml *xml, const xmlNode *node, CavFrameSettings *settings, GError **error)
{
  g_autoptr (GPtrArray) names = g_ptr_array_new ();

  add_numbers (names, TRUE);
  add_fields (names, dry_booleans, G_N_ELEMENTS (dry_booleans));
  return check_names (xml, node, names, error) && read_numbers (xml, node, TRUE, settings, error)
         && read_booleans (xml, node, dry_booleans, G_N_ELEMENTS (dry_booleans), settings, error);
}

static gboolean
child_cb (const CavXml *xml, xmlNode *child, gpointer data, GError **error)
{
  static const struct
  {
    const char *name;
    gboolean (*read) (const CavXml *, const xmlNode *, CavFrameSettings *, GError **);
  } parts[] = {
    { "measures", read_measures },
    { "options", read_options },
    { "colours", read_all_colours },
    { "dry-fit", read_dry_fit },
  };

  for (guint i = 0; i < G_N_ELEMENTS (parts); i++)
    if (cav_xml_is (child, parts[i].name))
      return cav_xml_check_first (xml, child, error)
             && cav_xml_foreach_child (xml, child, NULL, NULL, error)
             && parts[i].read (xml, child, data, error);
  return cav_xml_fail_unknown_child (xml, child, error);
}

static gboolean
read_root (const CavXml *xml, const xmlNode *node, CavFrameSettings *settings, GError **error)
{
  g_autoptr (GPtrArray) names = g_ptr_array_new ();

  for (guint i = 0; i < G_N_ELEMENTS (counts); i++)
    g_ptr_array_add (names, (gpointer)counts[i].name);
  for (guint i = 0; i < G_N_ELEMENTS (word_names); i++)
    g_ptr_array_add (names, (gpointer)word_names[i]);
  g_ptr_array_add (names, (gpointer) "picture-file");
  return check_names (xml, node, names, error) && read_counts (xml, node, settings, error)
         && read_words (xml, node, settings, error);
}

CavFrameSettings *
cav_frame_xml_read (const CavXml *xml, xmlNode *node, GError **error)
{
  g_autoptr (CavFrameSettings) settings = cav_frame_settings_new ();
  GError *cause = NULL;

  if (!read_root (xml, node, settings, error)
      || !cav_xml_foreach_child (xml, node, child_cb, settings, error))
    return NULL;

  g_autofree char *picture = cav_xml_dup_attribute (node, "picture-file");
  if (picture != NULL)
    cav_frame_settings_set_picture_file (settings, picture);
  if (!cav_frame_settings_check (settings, &cause))
    {
      cav_xml_fail_with (xml, node, cause, error);
      return NULL;
    }
  return g_steal_pointer (&settings);
}

static void
write_numbers (GString *text, gboolean dry, const CavFrameSettings *settings)
{
  guint n_numbers;
  const CavFrameNumberInfo *numbers = cav_frame_settings_get_numbers (&n_numbers);

  for (guint i = 0; i < n_numbers; i++)
    if (is_dry (&numbers[i]) == dry)
      cav_xml_write_number (text, numbers[i].name,
                            cav_frame_settings_get_number (settings, &numbers[i]));
}

static void
write_booleans (GString *text,
                const Field *fields,
                guint n_fields,
                const CavFrameSettings *settings)
{
  for (guint i = 0; i < n_fields; i++)
    cav_xml_write_boolean (text, fields[i].name,
                           G_STRUCT_MEMBER (gboolean, settings, fields[i].offset));
}

static void
write_words (GString *text, const CavFrameSettings *settings)
{
  cav_xml_write_attribute (text, "start", cav_frame_start_to_string (settings->start));
  cav_xml_write_attribute (text, "glazing", cav_glazing_to_string (settings->glazing));
  cav_xml_write_attribute (text, "backing", cav_backing_to_string (settings->backing));
  cav_xml_write_attribute (text, "sawn", cav_sawn_to_string (settings->sawn));
  cav_xml_write_attribute (text, "finish", cav_finish_to_string (settings->finish));
}

static void
write_colours (GString *text, const CavFrameSettings *settings)
{
  for (guint i = 0; i < G_N_ELEMENTS (colours); i++)
    {
      char colour[8];

      g_snprintf (colour, sizeof colour, "#%06x",
                  G_STRUCT_MEMBER (guint32, settings, colours[i].offset) & 0xffffff);
      cav_xml_write_attribute (text, colours[i].name, colour);
    }
}

void
cav_frame_xml_write (GString *text, int depth, const CavFrameSettings *settings)
{
  cav_xml_write_begin (text, depth, "frame");
  write_words (text, settings);
  for (guint i = 0; i < G_N_ELEMENTS (counts); i++)
    cav_xml_write_number (text, counts[i].name, G_STRUCT_MEMBER (int, settings, counts[i].offset));
  if (settings->picture_file != NULL)
    cav_xml_write_attribute (text, "picture-file", settings->picture_file);
  cav_xml_write_open (text);

  cav_xml_write_begin (text, depth + 1, "measures");
  write_numbers (text, FALSE, settings);
  cav_xml_write_end (text);
  cav_xml_write_begin (text, depth + 1, "options");
  write_booleans (text, booleans, G_N_ELEMENTS (booleans), settings);
  cav_xml_write_end (text);
  cav_xml_write_begin (text, depth + 1, "colours");
  write_colours (text, settings);
  cav_xml_write_end (text);
  cav_xml_write_begin (text, depth + 1, "dry-fit");
  write_booleans (text, dry_booleans, G_N_ELEMENTS (dry_booleans), settings);
  write_numbers (text, TRUE, settings);
  cav_xml_write_end (text);
  cav_xml_write_close (text, depth, "frame");
}
