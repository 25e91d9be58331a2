/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-file-choice.h"
#include "app/cav-print.h"
#include "app/cav-settings.h"
#include "app/cav-window-private.h"

#include "drawing/cav-drawing.h"
#include "drawing/cav-sheets.h"
#include "storage/cav-storage.h"

#include <glib/gi18n.h>

static CavSheetOptions
get_options (void)
{
  CavLengthStyle style = cav_settings_get_length_style ();

  return (CavSheetOptions){
    .unit = style.unit,
    .denominator = style.denominator,
    .paper = cav_settings_get_paper (),
  };
}

/* Writing what was drawn, off the main thread */

typedef struct
{
  GFile *file;
  GBytes *bytes;
} Writing;

static void
writing_free (gpointer data)
{
  Writing *writing = data;

  g_object_unref (writing->file);
  g_bytes_unref (writing->bytes);
  g_free (writing);
}

static void
write_in_thread (GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
  Writing *writing = data;
  gsize length;
  const void *bytes = g_bytes_get_data (writing->bytes, &length);
  const char *path = g_file_peek_path (writing->file);
  GError *error = NULL;
  gboolean done;

  if (path != NULL)
    done = cav_storage_write (path, bytes, length, &error);
  else
    done = g_file_replace_contents (writing->file, bytes, length, NULL, FALSE, G_FILE_CREATE_NONE,
                                    NULL, cancellable, &error);
  if (done)
    g_task_return_boolean (task, TRUE);
  else
    g_task_return_error (task, error);
}

static void
written_cb (GObject *source, GAsyncResult *result, gpointer user_data)
{
  CavWindow *self = CAV_WINDOW (source);
  const Writing *writing = g_task_get_task_data (G_TASK (result));
  g_autoptr (GError) error = NULL;

  if (g_task_propagate_boolean (G_TASK (result), &error))
    {
      g_autofree char *base = g_file_get_basename (writing->file);
      g_autofree char *name = g_filename_display_name (base);
      g_autofree char *text = g_strdup_printf (_ ("“%s” is written"), name);

      cav_window_say (self, text);
    }
  else
    cav_tell_failure (GTK_WINDOW (self), _ ("The file could not be written"), error->message);
}

/* bytes (nullable, transfer full); error (nullable) where they are NULL. */
static void
write_file (CavWindow *self, GFile *file, GBytes *bytes, const GError *error)
{
  g_autoptr (GTask) task = NULL;
  Writing *writing;

  if (bytes == NULL)
    {
      cav_tell_failure (GTK_WINDOW (self), _ ("The sheet could not be drawn"),
                        error != NULL ? error->message : "");
      return;
    }
  writing = g_new0 (Writing, 1);
  writing->file = g_object_ref (file);
  writing->bytes = bytes;
  task = g_task_new (self, NULL, written_cb, NULL);
  g_task_set_task_data (task, writing, writing_free);
  g_task_run_in_thread (task, write_in_thread);
}

/* The section */

static void
section_to_svg_cb (GFile *file, gpointer user_data)
{
  CavWindow *self = CAV_WINDOW (user_data);
  CavSheetOptions options = get_options ();
  g_autoptr (GError) error = NULL;
  GBytes *bytes = cav_section_drawing_create_svg (cav_document_get_project (self->document),
                                                  &options, &error);

  write_file (self, file, bytes, error);
}

static void
section_to_pdf_cb (GFile *file, gpointer user_data)
{
  CavWindow *self = CAV_WINDOW (user_data);
  CavSheetOptions options = get_options ();
  g_autoptr (GError) error = NULL;
  GBytes *bytes = cav_section_drawing_create_pdf (cav_document_get_project (self->document),
                                                  &options, &error);

  write_file (self, file, bytes, error);
}

static void
section_to_png_cb (GFile *file, gpointer user_data)
{
  CavWindow *self = CAV_WINDOW (user_data);
  CavSheetOptions options = get_options ();
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

typedef void (*PlanUser) (CavWindow *self, CavPlan *plan, GFile *file);

typedef struct
{
  CavWindow *window; /* owned */
  GFile *file;       /* owned, nullable */
  PlanUser use;
} Errand;

static Errand *
errand_new (CavWindow *self, GFile *file, PlanUser use)
{
  Errand *errand = g_new0 (Errand, 1);

  errand->window = g_object_ref (self);
  g_set_object (&errand->file, file);
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

  if (plan == NULL)
    cav_tell_failure (GTK_WINDOW (errand->window), _ ("There are no passes to print"),
                      error->message);
  else if (!plan->usable)
    cav_tell_failure (GTK_WINDOW (errand->window), _ ("There are no passes to print"),
                      _ ("No sequence of passes could be proved. The list of findings says what "
                         "is in the way."));
  else
    errand->use (errand->window, plan, errand->file);
}

static void
run_errand (CavWindow *self, GFile *file, PlanUser use)
{
  CavPlanRunner *runner = cav_document_get_runner (self->document);

  cav_plan_runner_get_thorough_async (runner, NULL, thorough_cb, errand_new (self, file, use));
}

static void
write_pass_sheet (CavWindow *self, CavPlan *plan, GFile *file)
{
  CavSheetOptions options = get_options ();
  g_autoptr (GError) error = NULL;
  GBytes *bytes = cav_pass_sheet_create_pdf (cav_document_get_project (self->document), plan,
                                             &options, &error);

  write_file (self, file, bytes, error);
}

static void
write_plan (CavWindow *self, CavPlan *plan, GFile *file)
{
  g_autoptr (GError) error = NULL;
  GBytes *bytes = cav_storage_plan_to_bytes (plan, &error);

  write_file (self, file, bytes, error);
}

static void
print_plan (CavWindow *self, CavPlan *plan, GFile *file)
{
  CavSheetOptions options = get_options ();
  CavProject *project = cav_document_get_project (self->document);

  cav_print_pages (GTK_WINDOW (self),
                   cav_sheet_create_scenes (CAV_SHEET_PASSES, project, plan, &options),
                   cav_project_get_title (project), options.paper);
}

static void
print_all (CavWindow *self, CavPlan *plan, GFile *file)
{
  CavSheetOptions options = get_options ();
  CavProject *project = cav_document_get_project (self->document);

  cav_print_pages (GTK_WINDOW (self), cav_sheets_create_scenes (project, plan, &options),
                   cav_project_get_title (project), options.paper);
}

static void
write_all (CavWindow *self, CavPlan *plan, GFile *file)
{
  CavSheetOptions options = get_options ();
  g_autoptr (GError) error = NULL;
  GBytes *bytes
      = cav_sheets_create_pdf (cav_document_get_project (self->document), plan, &options, &error);

  write_file (self, file, bytes, error);
}

static void
all_sheets_chosen_cb (GFile *file, gpointer user_data)
{
  run_errand (CAV_WINDOW (user_data), file, write_all);
}

static void
pass_sheet_chosen_cb (GFile *file, gpointer user_data)
{
  run_errand (CAV_WINDOW (user_data), file, write_pass_sheet);
}

static void
plan_chosen_cb (GFile *file, gpointer user_data)
{
  run_errand (CAV_WINDOW (user_data), file, write_plan);
}

void
cav_window_save_pass_sheet (CavWindow *self)
{
  g_autofree char *name = cav_document_dup_name (self->document);
  g_autofree char *file_name = g_strdup_printf ("%s %s", name, _ ("passes"));

  cav_choose_file_to_save (GTK_WINDOW (self), _ ("Save the pass sheet"), CAV_FILE_PDF, file_name,
                           pass_sheet_chosen_cb, self);
}

void
cav_window_save_plan (CavWindow *self)
{
  g_autofree char *name = cav_document_dup_name (self->document);
  g_autofree char *file_name = g_strdup_printf ("%s %s", name, _ ("plan"));

  cav_choose_file_to_save (GTK_WINDOW (self), _ ("Save the plan file"), CAV_FILE_PLAN, file_name,
                           plan_chosen_cb, self);
}

void
cav_window_print_pass_sheet (CavWindow *self)
{
  run_errand (self, NULL, print_plan);
}

void
cav_window_print_all_sheets (CavWindow *self)
{
  run_errand (self, NULL, print_all);
}

void
cav_window_save_all_sheets (CavWindow *self)
{
  g_autofree char *name = cav_document_dup_name (self->document);
  g_autofree char *file_name = g_strdup_printf ("%s %s", name, _ ("sheets"));

  cav_choose_file_to_save (GTK_WINDOW (self), _ ("Save all sheets"), CAV_FILE_PDF, file_name,
                           all_sheets_chosen_cb, self);
}
