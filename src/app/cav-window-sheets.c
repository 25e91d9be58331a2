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

/* The sheets, by the names that their actions have after the verb. The last is all of them. */

typedef struct
{
  const char *id;
  const char *file_word;
  const char *question;
  gboolean needs_plan; /* the others tell what is known without one */
} SheetInfo;

#define ALL_SHEETS CAV_N_SHEETS

static const SheetInfo SHEETS[CAV_N_SHEETS + 1] = {
  [CAV_SHEET_JOB] = { "job-sheet", N_ ("job sheet"), N_ ("Save the job sheet"), FALSE },
  [CAV_SHEET_LIST] = { "cutting-list", N_ ("cutting list"), N_ ("Save the cutting list"), FALSE },
  [CAV_SHEET_PASSES] = { "pass-sheet", N_ ("passes"), N_ ("Save the pass sheet"), TRUE },
  [CAV_SHEET_TEMPLATE] = { "template", N_ ("template"), N_ ("Save the template"), FALSE },
  [CAV_SHEET_DRAWING] = { "drawing", N_ ("drawing"), N_ ("Save the drawing"), FALSE },
  [ALL_SHEETS] = { "all-sheets", N_ ("sheets"), N_ ("Save all sheets"), TRUE },
};

static int
find_sheet (const char *id)
{
  int sheet = 0;

  while (sheet < ALL_SHEETS && !g_str_equal (SHEETS[sheet].id, id))
    sheet++;
  g_return_val_if_fail (g_str_equal (SHEETS[sheet].id, id), sheet);
  return sheet;
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

static void
write_sheet (const Errand *errand, CavPlan *plan)
{
  CavProject *project = cav_document_get_project (errand->window->document);
  CavSheetOptions options = get_options ();
  g_autoptr (GError) error = NULL;
  GBytes *bytes
      = errand->sheet == ALL_SHEETS
            ? cav_sheets_create_pdf (project, plan, &options, &error)
            : cav_sheet_create_pdf ((CavSheet)errand->sheet, project, plan, &options, &error);

  write_file (errand->window, errand->file, bytes, error);
}

static void
print_sheet (const Errand *errand, CavPlan *plan)
{
  CavProject *project = cav_document_get_project (errand->window->document);
  CavSheetOptions options = get_options ();
  GPtrArray *pages
      = errand->sheet == ALL_SHEETS
            ? cav_sheets_create_scenes (project, plan, &options)
            : cav_sheet_create_scenes ((CavSheet)errand->sheet, project, plan, &options);

  cav_print_pages (GTK_WINDOW (errand->window), pages, cav_project_get_title (project),
                   options.paper);
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
  Errand *errand
      = errand_new (self, file, SHEETS[sheet].needs_plan, file != NULL ? write_sheet : print_sheet);

  errand->sheet = sheet;
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
  run_sheet_errand (self, find_sheet (id), NULL);
}

void
cav_window_save_sheet (CavWindow *self, const char *id)
{
  int sheet = find_sheet (id);
  g_autofree char *name = cav_document_dup_name (self->document);
  g_autofree char *file_name = g_strdup_printf ("%s %s", name, _ (SHEETS[sheet].file_word));

  self->sheet_to_save = sheet;
  cav_choose_file_to_save (GTK_WINDOW (self), _ (SHEETS[sheet].question), CAV_FILE_PDF, file_name,
                           sheet_chosen_cb, self);
}

void
cav_window_save_plan (CavWindow *self)
{
  g_autofree char *name = cav_document_dup_name (self->document);
  g_autofree char *file_name = g_strdup_printf ("%s %s", name, _ ("plan"));

  cav_choose_file_to_save (GTK_WINDOW (self), _ ("Save the plan file"), CAV_FILE_PLAN, file_name,
                           plan_chosen_cb, self);
}
