/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-print.h"

#include "app/cav-file-choice.h"
#include "drawing/cav-sheet-pages.h"

#include <glib/gi18n.h>

static void
draw_page_cb (GtkPrintOperation *operation, GtkPrintContext *context, int page, gpointer user_data)
{
  GPtrArray *pages = user_data;

  cav_scene_render (g_ptr_array_index (pages, (guint)page),
                    gtk_print_context_get_cairo_context (context));
}

/* The sheets lie on their long side and have margins of their own. */
static GtkPageSetup *
create_page_setup (CavPaper paper)
{
  GtkPageSetup *setup = gtk_page_setup_new ();
  g_autoptr (GtkPaperSize) size
      = gtk_paper_size_new (paper == CAV_PAPER_LETTER ? GTK_PAPER_NAME_LETTER : GTK_PAPER_NAME_A4);

  gtk_page_setup_set_paper_size (setup, size);
  gtk_page_setup_set_orientation (setup, GTK_PAGE_ORIENTATION_LANDSCAPE);
  gtk_page_setup_set_top_margin (setup, 0, GTK_UNIT_MM);
  gtk_page_setup_set_bottom_margin (setup, 0, GTK_UNIT_MM);
  gtk_page_setup_set_left_margin (setup, 0, GTK_UNIT_MM);
  gtk_page_setup_set_right_margin (setup, 0, GTK_UNIT_MM);
  return setup;
}

GtkPrintOperation *
cav_print_operation_new (GPtrArray *pages, const char *name, CavPaper paper)
{
  GtkPrintOperation *operation = gtk_print_operation_new ();
  g_autoptr (GtkPageSetup) setup = create_page_setup (paper);

  gtk_print_operation_set_job_name (operation, name);
  gtk_print_operation_set_default_page_setup (operation, setup);
  gtk_print_operation_set_unit (operation, GTK_UNIT_MM);
  gtk_print_operation_set_use_full_page (operation, TRUE);
  gtk_print_operation_set_n_pages (operation, (int)pages->len);
  gtk_print_operation_set_embed_page_setup (operation, TRUE);
  g_signal_connect_data (operation, "draw-page", G_CALLBACK (draw_page_cb), pages,
                         (GClosureNotify)(void (*) (void))g_ptr_array_unref, 0);
  return operation;
}

static void
done_cb (GtkPrintOperation *operation, GtkPrintOperationResult result, gpointer user_data)
{
  g_autoptr (GError) error = NULL;

  if (result != GTK_PRINT_OPERATION_RESULT_ERROR)
    return;
  gtk_print_operation_get_error (operation, &error);
  cav_tell_failure (GTK_WINDOW (user_data), _ ("The sheet could not be printed"), error->message);
}

void
cav_print_pass_sheet (GtkWindow *parent,
                      CavProject *project,
                      const CavPlan *plan,
                      const CavSheetOptions *options)
{
  g_autoptr (GtkPrintOperation) operation
      = cav_print_operation_new (cav_pass_sheet_create_scenes (project, plan, options),
                                 cav_project_get_title (project), options->paper);
  g_autoptr (GError) error = NULL;
  GtkPrintOperationResult result;

  gtk_print_operation_set_allow_async (operation, TRUE);
  g_signal_connect_object (operation, "done", G_CALLBACK (done_cb), parent, 0);
  result = gtk_print_operation_run (operation, GTK_PRINT_OPERATION_ACTION_PRINT_DIALOG, parent,
                                    &error);
  if (result == GTK_PRINT_OPERATION_RESULT_ERROR && error != NULL)
    cav_tell_failure (parent, _ ("The sheet could not be printed"), error->message);
}
