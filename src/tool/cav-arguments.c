/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/cav-preview.h"
#include "drawing/cav-thumbnail.h"
#include "geometry/cav-number-text.h"
#include "project/cav-import.h"
#include "tool/cav-text.h"
#include "tool/cav-tool.h"

#include <glib/gi18n-lib.h>
#include <string.h>

/* More rails than anybody mills in one go. */
#define RAILS_MAX 1000
/* Least length of the rails, mm; project files keep to it, too. */
#define RAILS_LENGTH_MIN 1.0

/* clang-format off */
G_DEFINE_QUARK (cav-tool-error, cav_tool_error)
/* clang-format on */

/* An option that takes a value, and what its help says. Only --section is a plain flag. */
static const struct
{
  CavOption option;
  const char *long_name;
  char short_name;
  const char *value; /* NULL: a flag */
  const char *help;
} OPTIONS[] = {
  { CAV_OPTION_OUTPUT, "output", 'o', "OUT", N_ ("file to write; - is standard output") },
  { CAV_OPTION_SECTION, "section", 0, NULL, N_ ("draw the section of the rail alone") },
  { CAV_OPTION_SHOP, "shop", 0, "SHOP.xml", N_ ("machines and tools to plan for") },
  { CAV_OPTION_UNIT, "unit", 0, "mm|in", N_ ("unit of figures; inches as fractions (mm)") },
  { CAV_OPTION_PAPER, "paper", 0, "a4|letter", N_ ("paper of a PDF (a4)") },
  { CAV_OPTION_LAYOUT, "layout", 0, "page|strip|cards",
    N_ ("pass sheet as pages, a strip, or a setup a page (page)") },
  { CAV_OPTION_SIZE, "size", 0, "WxH", N_ ("width and height of a PNG in pixels (1600x1200)") },
  { CAV_OPTION_SIDE, "side", 0, "N", N_ ("width and height of the picture in pixels (256)") },
  { CAV_OPTION_BLANK, "blank", 0, "WxT",
    N_ ("width and thickness of the blank (the picture's size)") },
  { CAV_OPTION_RAILS, "rails", 0, "N", N_ ("number of rails (4)") },
  { CAV_OPTION_LENGTH, "length", 0, "MM", N_ ("length of all rails together (3200)") },
};

/* Values as they stand on the command line. */
typedef struct
{
  char *values[G_N_ELEMENTS (OPTIONS)];
  gboolean flags[G_N_ELEMENTS (OPTIONS)];
  gboolean help;
} RawValues;

/* "-o OUT", "--unit mm|in", "--section". */
static char *
format_name (guint i)
{
  const char *value = OPTIONS[i].value;

  if (value == NULL)
    return g_strconcat ("--", OPTIONS[i].long_name, NULL);
  if (OPTIONS[i].short_name != 0)
    return g_strdup_printf ("-%c %s", OPTIONS[i].short_name, value);
  return g_strdup_printf ("--%s %s", OPTIONS[i].long_name, value);
}

static gboolean
fail (GError **error, const CavCommand *command, const char *message)
{
  g_set_error (error, CAV_TOOL_ERROR,
               0, /* Translators: a command, what is wrong, and the command again. */
               _ ("%s: %s; `cavetto %s --help` shows how it is used"), command->name, message,
               command->name);
  return FALSE;
}

/* Values are taken as bytes (FILENAME), whatever the locale says about its characters. */
static gboolean
parse_options (const CavCommand *command, char ***argv, RawValues *raw, GError **error)
{
  g_autoptr (GOptionContext) context = g_option_context_new (NULL);
  g_autoptr (GError) local_error = NULL;
  GOptionEntry entries[G_N_ELEMENTS (OPTIONS) + 2] = { 0 };
  guint n = 0;

  for (guint i = 0; i < G_N_ELEMENTS (OPTIONS); i++)
    if (command->options & OPTIONS[i].option)
      entries[n++] = (GOptionEntry){
        .long_name = OPTIONS[i].long_name,
        .short_name = OPTIONS[i].short_name,
        .arg = OPTIONS[i].value != NULL ? G_OPTION_ARG_FILENAME : G_OPTION_ARG_NONE,
        .arg_data = OPTIONS[i].value != NULL ? (gpointer)&raw->values[i] : &raw->flags[i],
      };
  entries[n] = (GOptionEntry){
    .long_name = "help",
    .short_name = 'h',
    .arg = G_OPTION_ARG_NONE,
    .arg_data = &raw->help,
  };
  g_option_context_set_help_enabled (context, FALSE);
  g_option_context_add_main_entries (context, entries, NULL);
  if (g_option_context_parse_strv (context, argv, &local_error))
    return TRUE;
  return fail (error, command, local_error->message);
}

static gboolean
take_operand (CavArguments *arguments, const CavCommand *command, char **argv, GError **error)
{
  char **operands = argv + 1;

  if (operands[0] != NULL && strcmp (operands[0], "--") == 0)
    operands++;
  if (operands[0] == NULL || operands[0][0] == '\0')
    {
      g_autofree char *message = g_strdup_printf (_ ("%s is missing"), command->operand);

      return fail (error, command, message);
    }
  if (operands[1] != NULL && !command->takes_more)
    {
      g_autofree char *message = g_strdup_printf (
          _ ("only one %s can be given, “%s” is one too many"), command->operand, operands[1]);

      return fail (error, command, message);
    }
  arguments->file = g_strdup (operands[0]);
  arguments->more = g_strdupv (operands + 1);
  return TRUE;
}

static gboolean
parse_unit (CavArguments *arguments, const char *value, char **out_message)
{
  if (cav_unit_from_string (value, &arguments->unit))
    return TRUE;
  *out_message = g_strdup_printf (_ ("--unit is mm or in, not “%s”"), value);
  return FALSE;
}

static gboolean
parse_paper (CavArguments *arguments, const char *value, char **out_message)
{
  if (g_ascii_strcasecmp (value, "a4") == 0)
    arguments->paper = CAV_PAPER_A4;
  else if (g_ascii_strcasecmp (value, "letter") == 0)
    arguments->paper = CAV_PAPER_LETTER;
  else
    {
      *out_message = g_strdup_printf (_ ("--paper is a4 or letter, not “%s”"), value);
      return FALSE;
    }
  return TRUE;
}

static gboolean
parse_layout (CavArguments *arguments, const char *value, char **out_message)
{
  static const char *const names[] = { "page", "strip", "cards" };

  for (guint i = 0; i < G_N_ELEMENTS (names); i++)
    if (g_ascii_strcasecmp (value, names[i]) == 0)
      {
        arguments->layout = (CavSheetLayout)i;
        return TRUE;
      }
  *out_message = g_strdup_printf (_ ("--layout is page, strip or cards, not “%s”"), value);
  return FALSE;
}

static gboolean
parse_length (
    const char *option, const char *value, double least, double *out_mm, char **out_message)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *least_text = cav_number_create (least, 1);

  if (!cav_length_parse (value, CAV_UNIT_MM, out_mm, &error))
    *out_message = g_strdup_printf ("%s: %s", option, error->message);
  else if (*out_mm < least)
    *out_message = g_strdup_printf (_ ("%s: “%s” is less than %s mm"), option, value, least_text);
  return *out_message == NULL;
}

static gboolean
parse_blank (CavArguments *arguments, const char *value, char **out_message)
{
  g_auto (GStrv) parts = g_strsplit_set (value, "xX", -1);
  CavBlank *blank = &arguments->blank;

  if (g_strv_length (parts) != 2)
    {
      *out_message
          = g_strdup_printf (_ ("--blank is width x thickness, like 60x22, not “%s”"), value);
      return FALSE;
    }
  if (!parse_length ("--blank", parts[0], CAV_IMPORT_BLANK_MIN, &blank->width, out_message)
      || !parse_length ("--blank", parts[1], CAV_IMPORT_BLANK_MIN, &blank->thickness, out_message))
    return FALSE;
  if (blank->width > CAV_BLANK_MAX || blank->thickness > CAV_BLANK_MAX)
    {
      *out_message
          = g_strdup_printf (_ ("--blank: “%s” is larger than %.0f mm"), value, CAV_BLANK_MAX);
      return FALSE;
    }
  arguments->has_blank = TRUE;
  return TRUE;
}

static gboolean
parse_size (CavArguments *arguments, const char *value, char **out_message)
{
  g_auto (GStrv) parts = g_strsplit_set (value, "xX", -1);
  gint64 across;
  gint64 down;

  if (g_strv_length (parts) == 2
      && g_ascii_string_to_signed (parts[0], 10, 1, CAV_PREVIEW_MAX, &across, NULL)
      && g_ascii_string_to_signed (parts[1], 10, 1, CAV_PREVIEW_MAX, &down, NULL))
    {
      arguments->pixels_across = (int)across;
      arguments->pixels_down = (int)down;
      return TRUE;
    }
  *out_message = g_strdup_printf (
      _ ("--size is width x height in pixels, each from 1 to %d, like 1600x1200, not “%s”"),
      CAV_PREVIEW_MAX, value);
  return FALSE;
}

static gboolean
parse_side (CavArguments *arguments, const char *value, char **out_message)
{
  gint64 side;

  if (g_ascii_string_to_signed (value, 10, CAV_THUMBNAIL_MIN, CAV_THUMBNAIL_MAX, &side, NULL))
    {
      arguments->side = (int)side;
      return TRUE;
    }
  *out_message = g_strdup_printf (_ ("--side is a whole number of pixels from %d to %d, not “%s”"),
                                  CAV_THUMBNAIL_MIN, CAV_THUMBNAIL_MAX, value);
  return FALSE;
}

static gboolean
parse_rails (CavArguments *arguments, const char *value, char **out_message)
{
  gint64 rails;

  if (g_ascii_string_to_signed (value, 10, 1, RAILS_MAX, &rails, NULL))
    {
      arguments->rails = (int)rails;
      return TRUE;
    }
  *out_message
      = g_strdup_printf (_ ("--rails is a whole number from 1 to %d, not “%s”"), RAILS_MAX, value);
  return FALSE;
}

static gboolean
take_value (CavArguments *arguments, CavOption option, const char *value, char **out_message)
{
  switch (option)
    {
    case CAV_OPTION_OUTPUT:
      arguments->output = g_strdup (value);
      if (value[0] == '\0')
        *out_message = g_strdup (_ ("-o needs the name of a file"));
      return value[0] != '\0';
    case CAV_OPTION_SHOP:
      arguments->shop = g_strdup (value);
      return TRUE;
    case CAV_OPTION_UNIT:
      return parse_unit (arguments, value, out_message);
    case CAV_OPTION_PAPER:
      return parse_paper (arguments, value, out_message);
    case CAV_OPTION_LAYOUT:
      return parse_layout (arguments, value, out_message);
    case CAV_OPTION_BLANK:
      return parse_blank (arguments, value, out_message);
    case CAV_OPTION_SIZE:
      return parse_size (arguments, value, out_message);
    case CAV_OPTION_SIDE:
      return parse_side (arguments, value, out_message);
    case CAV_OPTION_RAILS:
      return parse_rails (arguments, value, out_message);
    case CAV_OPTION_LENGTH:
      return parse_length ("--length", value, RAILS_LENGTH_MIN, &arguments->length, out_message);
    case CAV_OPTION_SECTION:
      break;
    }
  g_assert_not_reached ();
}

static gboolean
take_values (CavArguments *arguments,
             const CavCommand *command,
             const RawValues *raw,
             GError **error)
{
  for (guint i = 0; i < G_N_ELEMENTS (OPTIONS); i++)
    {
      g_autofree char *message = NULL;
      gboolean is_given = raw->flags[i] || raw->values[i] != NULL;

      if (!is_given && (command->required & OPTIONS[i].option))
        {
          g_autofree char *name = format_name (i);

          message = g_strdup_printf (_ ("%s is missing"), name);
          return fail (error, command, message);
        }
      if (raw->values[i] != NULL
          && !take_value (arguments, OPTIONS[i].option, raw->values[i], &message))
        return fail (error, command, message);
      if (raw->flags[i])
        arguments->section = TRUE;
    }
  return TRUE;
}

gboolean
cav_arguments_parse (CavArguments *arguments,
                     const CavCommand *command,
                     char **argv,
                     GError **error)
{
  g_auto (GStrv) rest = g_strdupv (argv);
  RawValues raw = { 0 };
  gboolean success;

  *arguments = (CavArguments){ .unit = CAV_UNIT_MM,
                               .paper = CAV_PAPER_A4,
                               .rails = 4,
                               .length = 3200.0,
                               .pixels_across = 1600,
                               .pixels_down = 1200,
                               .side = 256 };
  success = parse_options (command, &rest, &raw, error);
  arguments->help = success && raw.help;
  if (success && !raw.help)
    success = take_operand (arguments, command, rest, error)
              && take_values (arguments, command, &raw, error);
  for (guint i = 0; i < G_N_ELEMENTS (OPTIONS); i++)
    g_free (raw.values[i]);
  return success;
}

void
cav_arguments_clear (CavArguments *arguments)
{
  g_clear_pointer (&arguments->file, g_free);
  g_clear_pointer (&arguments->more, g_strfreev);
  g_clear_pointer (&arguments->output, g_free);
  g_clear_pointer (&arguments->shop, g_free);
}

/* Help */

static void
append_option (GString *out, guint i)
{
  g_autofree char *name = format_name (i);

  g_string_append_printf (out, "  %-18s  %s\n", name, _ (OPTIONS[i].help));
}

/* Options that do not fit in the line go below the first one. */
static void
append_usage (GString *out, const CavCommand *command)
{
  g_autofree char *head = g_strdup_printf (_ ("Usage: cavetto %s"), command->name);
  int indent = cav_text_get_width (head);
  g_autofree char *operands
      = command->takes_more ? g_strdup_printf ("%s [%s...]", command->operand, command->operand)
                            : g_strdup (command->operand);
  int column = indent + 1 + (int)strlen (operands);

  g_string_append_printf (out, "%s %s", head, operands);
  for (guint i = 0; i < G_N_ELEMENTS (OPTIONS); i++)
    {
      gboolean is_required = (command->required & OPTIONS[i].option) != 0;
      g_autofree char *name = format_name (i);
      g_autofree char *item = g_strdup_printf (is_required ? " %s" : " [%s]", name);

      if (!(command->options & OPTIONS[i].option))
        continue;
      if (column + (int)strlen (item) > CAV_TEXT_WIDTH)
        {
          g_string_append_printf (out, "\n%*s", indent, "");
          column = indent;
        }
      g_string_append (out, item);
      column += (int)strlen (item);
    }
  g_string_append_c (out, '\n');
}

char *
cav_command_create_help (const CavCommand *command)
{
  GString *out = g_string_new (NULL);

  append_usage (out, command);
  g_string_append_printf (out, "\n%s\n\n%s\n", _ (command->description), _ ("Options:"));
  for (guint i = 0; i < G_N_ELEMENTS (OPTIONS); i++)
    if (command->options & OPTIONS[i].option)
      append_option (out, i);
  g_string_append_printf (out, "  %-18s  %s\n", "--help", _ ("this text"));
  return g_string_free (out, FALSE);
}

char *
cav_tool_create_help (const CavCommand *const *commands)
{
  GString *out = g_string_new (NULL);

  g_string_append_printf (
      out, "%s\n\n%s\n\n%s\n", _ ("Usage: cavetto COMMAND FILE [OPTION...]"),
      /* Translators: lines of at most 80 letters, here and in the other helps. */
      _ ("Cavetto turns the section of a picture-frame molding into an ordered, proved\nsequence "
         "of passes at the table saw and the router table."),
      _ ("Commands:"));
  for (; *commands != NULL; commands++)
    g_string_append_printf (out, "  %-10s  %s\n", (*commands)->name, _ ((*commands)->summary));
  g_string_append_printf (out, "\n%s\n  --help      %s\n  --version   %s\n\n%s\n", _ ("Options:"),
                          _ ("this text; after a command, the command's own"),
                          _ ("the version of the program"),
                          _ ("Exit status: 0 all is well, 1 the molding cannot be made like this, "
                             "2 a file\ncannot be read or written, or the command line is wrong."));
  return g_string_free (out, FALSE);
}
