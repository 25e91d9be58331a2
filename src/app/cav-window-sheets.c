/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-file-choice.h"
#include "app/cav-print.h"
#include "app/cav-sheet-choice.h"
#include "app/cav-sheets-window.h"
#include "app/cav-window-private.h"
#include "app/cav-write-file.h"

#include "drawing/cav-drawing.h"
#include "drawing/cav-scene.h"
#include "storage/cav-storage.h"

#include <glib/gi18n.h>

static void
say (GtkWindow *window, const char *text)
{
  cav_window_say (CAV_WINDOW (window), text);
}

/* bytes (nullable, transfer full); error (nullable) where they are NULL. */
static void
write_file (CavWindow *self, GFile *file, GBytes *bytes, const GError *error)
{
  cav_write_file (GTK_WINDOW (self), file, bytes, error, say);
}

/* The section */

static void
section_to_svg_cb (GFile *file, gpointer user_data)
{
  CavWindow *self = CAV_WINDOW (user_data);
  CavSheetOptions options = cav_sheet_choice_get_options ();
  g_autoptr (GError) error = NULL;
  GBytes *bytes = cav_section_drawing_create_svg (cav_document_get_project (self->document),
                                                  &options, &error);

  write_file (self, file, bytes, error);
}

static void
section_to_pdf_cb (GFile *file, gpointer user_data)
{
  CavWindow *self = CAV_WINDOW (user_data);
  CavSheetOptions options = cav_sheet_choice_get_options ();
  g_autoptr (GError) error = NULL;
  GBytes *bytes = cav_section_drawing_create_pdf (cav_document_get_project (self->document),
                                                  &options, &error);

  write_file (self, file, bytes, error);
}

static void
section_to_png_cb (GFile *file, gpointer user_data)
{
  CavWindow *self = CAV_WINDOW (user_data);
  CavSheetOptions options = cav_sheet_choice_get_options ();
  g_autoptr (GError) error = NULL;
  GBytes *bytes = cav_section_drawing_create_png (cav_document_get_project (self->document),
                                                  &options, &error);

  write_file (self, file, bytes, error);
}

void
cav_window_export_section (CavWindow *self, const char *ending)
{
  g_autofree char *name = cav_document_dup_name (self->document);
  g_autofree char *file_name = g_strdup_printf ("%s %s", name, _ ("section"));

  if (g_str_equal (ending, "svg"))
    cav_choose_file_to_save (GTK_WINDOW (self), _ ("Save the section as SVG"), CAV_FILE_SVG,
                             file_name, section_to_svg_cb, self);
  else if (g_str_equal (ending, "png"))
    cav_choose_file_to_save (GTK_WINDOW (self), _ ("Save the section as PNG"), CAV_FILE_PNG,
                             file_name, section_to_png_cb, self);
  else
    cav_choose_file_to_save (GTK_WINDOW (self), _ ("Save the section as PDF"), CAV_FILE_PDF,
                             file_name, section_to_pdf_cb, self);
}

/* What needs the thorough plan: it is waited for, and may be there at once. */

typedef struct Errand Errand;
typedef void (*PlanUser) (const Errand *errand, CavPlan *plan);

struct Errand
{
  CavWindow *window; /* owned */
  GFile *file;       /* owned, NULL for the printer */
  gboolean needs_plan;
  int sheet;
  PlanUser use; /* plan is NULL where there is none that is proved and none is needed */
};

static Errand *
errand_new (CavWindow *self, GFile *file, gboolean needs_plan, PlanUser use)
{
  Errand *errand = g_new0 (Errand, 1);

  errand->window = g_object_ref (self);
  g_set_object (&errand->file, file);
  errand->needs_plan = needs_plan;
  errand->use = use;
  return errand;
}

static void
errand_free (Errand *errand)
{
  g_object_unref (errand->window);
  g_clear_object (&errand->file);
  g_free (errand);
}

G_DEFINE_AUTOPTR_CLEANUP_FUNC (Errand, errand_free)

static void
thorough_cb (GObject *source, GAsyncResult *result, gpointer user_data)
{
  g_autoptr (Errand) errand = user_data;
  g_autoptr (GError) error = NULL;
  g_autoptr (CavPlan) plan
      = cav_plan_runner_get_thorough_finish (CAV_PLAN_RUNNER (source), result, &error);

  /* The window may have been closed meanwhile. */
  if (errand->window->document == NULL)
    return;
  if (plan != NULL && plan->usable)
    errand->use (errand, plan);
  else if (!errand->needs_plan)
    errand->use (errand, NULL);
  else
    cav_tell_failure (GTK_WINDOW (errand->window), _ ("There are no passes to print"),
                      plan == NULL ? error->message
                                   : _ ("No sequence of passes could be proved. The list of "
                                        "findings says what is in the way."));
}

/* errand (transfer full) */
static void
run_errand (Errand *errand)
{
  cav_plan_runner_get_thorough_async (cav_document_get_runner (errand->window->document), NULL,
                                      thorough_cb, errand);
}

static CavSheetOptions
get_options (const Errand *errand, const CavPlan *plan)
{
  CavSheetOptions options = cav_sheet_choice_get_options ();

  options.boards = cav_board_runner_get_layout_for (
      cav_document_get_board_runner (errand->window->document), plan);
  return options;
}

static char *
dup_sheet_name (CavWindow *self, int sheet)
{
  g_autofree char *name = cav_document_dup_name (self->document);

  return cav_sheet_choice_create_file_name (sheet, name);
}

static void
write_sheet (const Errand *errand, CavPlan *plan)
{
  CavProject *project = cav_document_get_project (errand->window->document);
  CavSheetOptions options = get_options (errand, plan);
  g_autoptr (GPtrArray) pages
      = cav_sheet_choice_create_pages (errand->sheet, project, plan, &options);
  g_autoptr (GError) error = NULL;
  GBytes *bytes
      = cav_scene_create_pdf (pages, cav_project_get_title (project),
                              _ (cav_sheet_choice_get (errand->sheet)->title), NULL, &error);

  write_file (errand->window, errand->file, bytes, error);
}

static void
print_sheet (const Errand *errand, CavPlan *plan)
{
  CavProject *project = cav_document_get_project (errand->window->document);
  CavSheetOptions options = get_options (errand, plan);
  GPtrArray *pages = cav_sheet_choice_create_pages (errand->sheet, project, plan, &options);
  g_autofree char *name = dup_sheet_name (errand->window, errand->sheet);

  cav_print_pages (GTK_WINDOW (errand->window), pages, name, options.paper, say);
}

static void
write_plan (const Errand *errand, CavPlan *plan)
{
  g_autoptr (GError) error = NULL;
  GBytes *bytes = cav_storage_plan_to_bytes (plan, &error);

  write_file (errand->window, errand->file, bytes, error);
}

static void
run_sheet_errand (CavWindow *self, int sheet, GFile *file)
{
  Errand *errand = errand_new (self, file, cav_sheet_choice_get (sheet)->needs_plan,
                               file != NULL ? write_sheet : print_sheet);

  errand->sheet = sheet;
  if (file == NULL)
    cav_print_look_around ();
  run_errand (errand);
}

static void
sheet_chosen_cb (GFile *file, gpointer user_data)
{
  CavWindow *self = CAV_WINDOW (user_data);

  run_sheet_errand (self, self->sheet_to_save, file);
}

static void
plan_chosen_cb (GFile *file, gpointer user_data)
{
  run_errand (errand_new (CAV_WINDOW (user_data), file, TRUE, write_plan));
}

void
cav_window_print_sheet (CavWindow *self, const char *id)
{
  run_sheet_errand (self, cav_sheet_choice_find (id), NULL);
}

void
cav_window_save_sheet (CavWindow *self, const char *id)
{
  int sheet = cav_sheet_choice_find (id);
  g_autofree char *file_name = dup_sheet_name (self, sheet);

  self->sheet_to_save = sheet;
  cav_choose_file_to_save (GTK_WINDOW (self), _ (cav_sheet_choice_get (sheet)->question),
                           CAV_FILE_PDF, file_name, sheet_chosen_cb, self);
}

void
cav_window_show_sheets (CavWindow *self)
{
  cav_sheets_window_show (self->document, GTK_WINDOW (self));
}

void
cav_window_save_plan (CavWindow *self)
{
  g_autofree char *name = cav_document_dup_name (self->document);
  g_autofree char *file_name = g_strdup_printf ("%s %s", name, _ ("plan"));

  cav_choose_file_to_save (GTK_WINDOW (self), _ ("Save the plan file"), CAV_FILE_PLAN, file_name,
                           plan_chosen_cb, self);
}
