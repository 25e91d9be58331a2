/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "tool/cav-run.h"

#include "storage/cav-storage.h"
#include "tool/cav-text.h"
#include "tool/cav-tool.h"

#include <glib/gi18n-lib.h>
#include <stdio.h>
#include <string.h>

static const CavCommand *const COMMANDS[] = {
  &cav_command_passes,    &cav_command_drawing,
  &cav_command_preview,   &cav_command_template,
  &cav_command_list,      &cav_command_sheets,
  &cav_command_look,      &cav_command_import,
  &cav_command_thumbnail, NULL,
};

/* One line, whatever is in the names that the message speaks of. */
static void
report (const char *message)
{
  g_autofree char *clean = cav_text_clean (message);

  fprintf (stderr, "cavetto: %s\n", clean);
}

static CavExit
print_text (const char *text)
{
  g_autoptr (GError) error = NULL;

  if (cav_storage_write ("-", text, strlen (text), &error))
    return CAV_EXIT_FINE;
  report (error->message);
  return CAV_EXIT_FAILED;
}

static const CavCommand *
find_command (const char *name)
{
  for (guint i = 0; COMMANDS[i] != NULL; i++)
    if (strcmp (COMMANDS[i]->name, name) == 0)
      return COMMANDS[i];
  return NULL;
}

static CavExit
run_command (const CavCommand *command, char **argv)
{
  g_auto (CavArguments) arguments = { 0 };
  g_autoptr (GError) error = NULL;
  CavExit result = CAV_EXIT_FAILED;

  if (cav_arguments_parse (&arguments, command, argv, &error))
    {
      if (arguments.help)
        {
          g_autofree char *help = cav_command_create_help (command);

          return print_text (help);
        }
      result = command->run (&arguments, &error);
    }
  if (error != NULL)
    report (error->message);
  return result;
}

gboolean
cav_tool_takes (int argc, char *argv[])
{
  return argc > 1 && (argv[1][0] == '-' || find_command (argv[1]) != NULL);
}

int
cav_tool_run (int argc, char *argv[])
{
  const char *first = argc > 1 ? argv[1] : "";
  const CavCommand *command = find_command (first);
  g_autofree char *message = NULL;

  if (command != NULL)
    return run_command (command, argv + 1);
  if (strcmp (first, "--help") == 0 || strcmp (first, "-h") == 0)
    {
      g_autofree char *help = cav_tool_create_help (COMMANDS);

      return print_text (help);
    }
  if (strcmp (first, "--version") == 0)
    return print_text ("cavetto " CAV_VERSION "\n");
  if (first[0] == '\0')
    message = g_strdup (_ ("a command is missing, and there is no display to open a window on; "
                           "`cavetto --help` lists the commands"));
  else if (first[0] != '-' && g_file_test (first, G_FILE_TEST_EXISTS))
    message = g_strdup_printf (_ ("%s: there is no display to open a window on; `cavetto --help` "
                                  "lists the commands that need none"),
                               first);
  else
    message = g_strdup_printf (_ ("there is no command “%s”; `cavetto --help` lists them"), first);
  report (message);
  return CAV_EXIT_FAILED;
}
