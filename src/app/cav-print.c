/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-print.h"

#include "app/cav-file-choice.h"
#include "app/cav-settings.h"
#include "app/cav-write-file.h"
#include "drawing/cav-scene.h"

#include <glib/gi18n.h>
#include <gtk/gtkunixprint.h>
#include <math.h>

/* Papers whose sizes differ by less are one, mm. */
#define NEAR 1.0

typedef struct
{
  CavPrintTold told;
  gboolean failed; /* and it has been told */
} Teller;

/* What the system says of printers, which is asked once. */
static struct
{
  gboolean asked;
  gboolean has_usual; /* the user's own, which the dialog finds by itself */
  char *to_file;      /* (nullable) name of the one that writes files */
} printers;

static gboolean
printer_cb (GtkPrinter *printer, gpointer data)
{
  if (gtk_printer_is_default (printer))
    printers.has_usual = TRUE;
  else if (printers.to_file == NULL && gtk_printer_is_virtual (printer)
           && gtk_printer_accepts_pdf (printer))
    printers.to_file = g_strdup (gtk_printer_get_name (printer));
  return printers.has_usual;
}

void
cav_print_look_around (void)
{
  if (printers.asked)
    return;
  printers.asked = TRUE;
  gtk_enumerate_printers (printer_cb, NULL, NULL, FALSE);
}

static void
draw_page_cb (GtkPrintOperation *operation, GtkPrintContext *context, int page, gpointer user_data)
{
  GPtrArray *pages = user_data;

  cav_scene_render (g_ptr_array_index (pages, (guint)page),
                    gtk_print_context_get_cairo_context (context));
}

/* The sheets have margins of their own. */
static void
clear_margins (GtkPageSetup *setup)
{
  gtk_page_setup_set_top_margin (setup, 0, GTK_UNIT_MM);
  gtk_page_setup_set_bottom_margin (setup, 0, GTK_UNIT_MM);
  gtk_page_setup_set_left_margin (setup, 0, GTK_UNIT_MM);
  gtk_page_setup_set_right_margin (setup, 0, GTK_UNIT_MM);
}

/* What was kept of the last time, or NULL: where nothing was, or it cannot be read any more. */
static GtkPageSetup *
recall_page_setup (void)
{
  g_autoptr (GVariant) kept = g_settings_get_value (cav_settings_get (), CAV_SETTING_PAGE);

  return g_variant_n_children (kept) > 0 ? gtk_page_setup_new_from_gvariant (kept) : NULL;
}

static GtkPrintSettings *
recall_print_settings (void)
{
  g_autoptr (GVariant) kept = g_settings_get_value (cav_settings_get (), CAV_SETTING_PRINT);

  return g_variant_n_children (kept) > 0 ? gtk_print_settings_new_from_gvariant (kept) : NULL;
}

/* A file that was printed to is not written over next time: only its folder is remembered. */
static void
forget_file (GtkPrintSettings *settings)
{
  const char *uri = gtk_print_settings_get (settings, GTK_PRINT_SETTINGS_OUTPUT_URI);
  g_autofree char *path = uri != NULL ? g_filename_from_uri (uri, NULL, NULL) : NULL;

  if (path != NULL)
    {
      g_autofree char *folder = g_path_get_dirname (path);

      gtk_print_settings_set (settings, GTK_PRINT_SETTINGS_OUTPUT_DIR, folder);
    }
  gtk_print_settings_unset (settings, GTK_PRINT_SETTINGS_OUTPUT_URI);
  gtk_print_settings_unset (settings, GTK_PRINT_SETTINGS_OUTPUT_BASENAME);
}

/* How often and which pages is asked anew each time, lest half a sheet be printed. */
void
cav_print_keep (GtkPrintOperation *operation)
{
  GtkPrintSettings *used = gtk_print_operation_get_print_settings (operation);
  GtkPageSetup *setup = gtk_print_operation_get_default_page_setup (operation);
  GSettings *settings = cav_settings_get ();

  if (used != NULL)
    {
      g_autoptr (GtkPrintSettings) lasting = gtk_print_settings_copy (used);

      forget_file (lasting);
      gtk_print_settings_unset (lasting, GTK_PRINT_SETTINGS_N_COPIES);
      gtk_print_settings_unset (lasting, GTK_PRINT_SETTINGS_PRINT_PAGES);
      gtk_print_settings_unset (lasting, GTK_PRINT_SETTINGS_PAGE_RANGES);
      gtk_print_settings_unset (lasting, GTK_PRINT_SETTINGS_PAGE_SET);
      g_settings_set_value (settings, CAV_SETTING_PRINT, gtk_print_settings_to_gvariant (lasting));
    }
  if (setup != NULL)
    g_settings_set_value (settings, CAV_SETTING_PAGE, gtk_page_setup_to_gvariant (setup));
}

static GtkPageSetup *
create_page_setup (CavPaper paper)
{
  GtkPageSetup *kept = recall_page_setup ();
  GtkPageSetup *setup = kept != NULL ? kept : gtk_page_setup_new ();
  g_autoptr (GtkPaperSize) size
      = gtk_paper_size_new (paper == CAV_PAPER_LETTER ? GTK_PAPER_NAME_LETTER : GTK_PAPER_NAME_A4);

  if (kept == NULL || !gtk_paper_size_is_equal (gtk_page_setup_get_paper_size (setup), size))
    gtk_page_setup_set_paper_size (setup, size);
  gtk_page_setup_set_orientation (setup, GTK_PAGE_ORIENTATION_LANDSCAPE);
  clear_margins (setup);
  return setup;
}

/* Whether a page is a sheet of that paper, whichever way it lies. */
static gboolean
is_on_paper (const CavScene *scene, GtkPaperSize *size)
{
  double across = MIN (cav_scene_get_width (scene), cav_scene_get_height (scene));
  double along = MAX (cav_scene_get_width (scene), cav_scene_get_height (scene));

  return fabs (across - gtk_paper_size_get_width (size, GTK_UNIT_MM)) < NEAR
         && fabs (along - gtk_paper_size_get_height (size, GTK_UNIT_MM)) < NEAR;
}

/* Sheets that are read stand upright, those at the machines lie; a strip, and a template larger
 * than the paper, have a size of their own. */
static void
request_page_setup_cb (GtkPrintOperation *operation,
                       GtkPrintContext *context,
                       int page,
                       GtkPageSetup *setup,
                       gpointer user_data)
{
  const CavScene *scene = g_ptr_array_index ((GPtrArray *)user_data, (guint)page);
  double width = cav_scene_get_width (scene);
  double height = cav_scene_get_height (scene);
  gboolean lies = width > height;

  gtk_page_setup_set_orientation (setup, lies ? GTK_PAGE_ORIENTATION_LANDSCAPE
                                              : GTK_PAGE_ORIENTATION_PORTRAIT);
  if (!is_on_paper (scene, gtk_page_setup_get_paper_size (setup)))
    {
      g_autoptr (GtkPaperSize) size = gtk_paper_size_new_custom (
          "cavetto-sheet", "Cavetto", MIN (width, height), MAX (width, height), GTK_UNIT_MM);

      gtk_page_setup_set_paper_size (setup, size);
    }
  clear_margins (setup);
}

GtkPrintOperation *
cav_print_operation_new (GPtrArray *pages, const char *name, CavPaper paper)
{
  GtkPrintOperation *operation = gtk_print_operation_new ();
  g_autoptr (GtkPageSetup) setup = create_page_setup (paper);
  g_autoptr (GtkPrintSettings) kept = recall_print_settings ();
  g_autoptr (GtkPrintSettings) settings
      = kept != NULL ? g_steal_pointer (&kept) : gtk_print_settings_new ();
  g_autofree char *file_name = g_strdelimit (g_strdup (name), "/", '-');

  if (gtk_print_settings_get_printer (settings) == NULL && !printers.has_usual
      && printers.to_file != NULL)
    gtk_print_settings_set_printer (settings, printers.to_file);
  gtk_print_settings_set (settings, GTK_PRINT_SETTINGS_OUTPUT_BASENAME, file_name);
  gtk_print_operation_set_print_settings (operation, settings);
  gtk_print_operation_set_job_name (operation, name);
  gtk_print_operation_set_default_page_setup (operation, setup);
  gtk_print_operation_set_unit (operation, GTK_UNIT_MM);
  gtk_print_operation_set_use_full_page (operation, TRUE);
  gtk_print_operation_set_n_pages (operation, (int)pages->len);
  gtk_print_operation_set_embed_page_setup (operation, TRUE);
  g_signal_connect (operation, "request-page-setup", G_CALLBACK (request_page_setup_cb), pages);
  g_signal_connect_data (operation, "draw-page", G_CALLBACK (draw_page_cb), pages,
                         (GClosureNotify)(void (*) (void))g_ptr_array_unref, 0);
  return operation;
}

/* What is told of pages that were printed, to paper or to a file. */
char *
cav_print_create_words (GtkPrintOperation *operation)
{
  GtkPrintSettings *settings = gtk_print_operation_get_print_settings (operation);
  const char *printer = settings != NULL ? gtk_print_settings_get_printer (settings) : NULL;
  const char *uri
      = settings != NULL ? gtk_print_settings_get (settings, GTK_PRINT_SETTINGS_OUTPUT_URI) : NULL;
  g_autoptr (GFile) file = uri != NULL ? g_file_new_for_uri (uri) : NULL;

  if (file != NULL)
    return cav_written_words_new (file);
  if (printer != NULL)
    return g_strdup_printf (_ ("Sent to the printer “%s”"), printer);
  return g_strdup (_ ("Sent to the printer"));
}

static void
done_cb (GtkPrintOperation *operation, GtkPrintOperationResult result, gpointer user_data)
{
  Teller *teller = g_object_get_data (G_OBJECT (operation), "teller");
  g_autoptr (GError) error = NULL;

  if (result == GTK_PRINT_OPERATION_RESULT_APPLY)
    {
      g_autofree char *words = cav_print_create_words (operation);

      cav_print_keep (operation);
      teller->told (GTK_WINDOW (user_data), words);
    }
  if (result != GTK_PRINT_OPERATION_RESULT_ERROR)
    return;
  gtk_print_operation_get_error (operation, &error);
  teller->failed = TRUE;
  cav_tell_failure (GTK_WINDOW (user_data), _ ("The sheet could not be printed"), error->message);
}

void
cav_print_pages (
    GtkWindow *parent, GPtrArray *pages, const char *name, CavPaper paper, CavPrintTold told)
{
  g_autoptr (GtkPrintOperation) operation = NULL;
  g_autoptr (GError) error = NULL;
  GtkPrintOperationResult result;
  Teller *teller;

  g_return_if_fail (GTK_IS_WINDOW (parent) && told != NULL);

  cav_print_look_around ();
  operation = cav_print_operation_new (pages, name, paper);
  teller = g_new0 (Teller, 1);
  teller->told = told;
  g_object_set_data_full (G_OBJECT (operation), "teller", teller, g_free);
  gtk_print_operation_set_allow_async (operation, TRUE);
  g_signal_connect_object (operation, "done", G_CALLBACK (done_cb), parent, 0);
  result = gtk_print_operation_run (operation, GTK_PRINT_OPERATION_ACTION_PRINT_DIALOG, parent,
                                    &error);
  /* What fails at once may be "done" before the run comes back with it. */
  if (result == GTK_PRINT_OPERATION_RESULT_ERROR && error != NULL && !teller->failed)
    cav_tell_failure (parent, _ ("The sheet could not be printed"), error->message);
}
