/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-application.h"
#include "app/cav-settings.h"
#include "tool/cav-run.h"

#include <glib/gi18n.h>
#include <locale.h>

/* What the session bus starts the program with; GApplication knows it. */
#define SERVICE "--gapplication-service"

/* An operand is a file for the window unless it can be neither: then it was meant as a command. */
static gboolean
is_for_window (int argc, char *argv[])
{
  if (argc == 2 && g_str_equal (argv[1], SERVICE))
    return TRUE;
  if (cav_tool_takes (argc, argv))
    return FALSE;
  for (int i = 1; i < argc; i++)
    {
      g_autoptr (GFile) file = g_file_new_for_commandline_arg (argv[i]);

      if (!g_str_has_suffix (argv[i], ".cavetto") && !g_file_query_exists (file, NULL))
        return FALSE;
    }
  return TRUE;
}

/* Where the program is run from its build folder, CAVETTO_LOCALE_DIR names the catalogues there. */
static void
bind_words (void)
{
  const char *folder = g_getenv ("CAVETTO_LOCALE_DIR");

  setlocale (LC_ALL, "");
  bindtextdomain (GETTEXT_PACKAGE, folder != NULL && *folder != '\0' ? folder : CAV_LOCALE_DIR);
  bind_textdomain_codeset (GETTEXT_PACKAGE, "UTF-8");
  textdomain (GETTEXT_PACKAGE);
}

int
main (int argc, char *argv[])
{
  bind_words ();
  /* Opening the display is left out for commands: they run where there is none, and sooner. */
  if (!is_for_window (argc, argv) || !gtk_init_check ())
    return cav_tool_run (argc, argv);

  if (!cav_settings_exist ())
    {
      g_printerr ("cavetto: ");
      g_printerr (_ ("its settings schema %s is not installed; install the program, or run it "
                     "where it was built"),
                  CAV_APPLICATION_ID);
      g_printerr ("\n");
      return 2;
    }

  g_autoptr (CavApplication) application = cav_application_new (G_APPLICATION_DEFAULT_FLAGS);

  return g_application_run (G_APPLICATION (application), argc, argv);
}
