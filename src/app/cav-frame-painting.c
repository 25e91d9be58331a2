/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-frame-painting.h"

#include <math.h>

#include "tool/cav-picture.h"

/* Longer side of what stands for a picture that could not be read. */
#define MISSING_PIXELS 900.0

/* Everything that the thread needs, none of it shared. */
typedef struct
{
  CavProject *project;    /* a snapshot */
  CavBoardLayout *layout; /* (nullable) */
  char *picture_path;     /* (nullable) */
  int width;
  int height;
} Job;

static void
job_free (gpointer data)
{
  Job *job = data;

  g_object_unref (job->project);
  g_clear_pointer (&job->layout, cav_board_layout_unref);
  g_free (job->picture_path);
  g_free (job);
}

void
cav_frame_painting_free (CavFramePainting *painting)
{
  if (painting == NULL)
    return;
  cav_preview_free (painting->preview);
  g_free (painting->message);
  g_free (painting);
}

/* (transfer full) What keeps the frame from being shown. */
static char *
explain (const CavFrame *frame)
{
  for (guint i = 0; i < frame->findings->len; i++)
    {
      const CavFinding *finding = g_ptr_array_index (frame->findings, i);

      if (finding->severity == CAV_FINDING_WRONG)
        return g_strdup (finding->message);
    }
  return NULL;
}

/* (transfer full) A sheet in the shape of the picture that could not be read. */
static cairo_surface_t *
create_missing (const CavFrame *frame)
{
  CavSize size = frame->sizes.picture;
  double scale = MISSING_PIXELS / fmax (fmax (size.width, size.height), 1.0);
  int width = MAX ((int)(size.width * scale), 1);
  int height = MAX ((int)(size.height * scale), 1);
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, width, height);
  cairo_t *cr = cairo_create (surface);

  cav_draw_missing_picture (cr, width, height);
  cairo_destroy (cr);
  return surface;
}

/* (transfer full) (nullable) NULL where none is set; one that cannot be read leaves a message. */
static cairo_surface_t *
load_picture (const Job *job, const CavFrame *frame, char **out_message)
{
  g_autoptr (GError) error = NULL;
  cairo_surface_t *picture = NULL;

  if (job->picture_path == NULL)
    return NULL;
  picture = cav_picture_load (job->picture_path, &error);
  if (picture != NULL)
    return picture;
  *out_message = g_strdup (error->message);
  return create_missing (frame);
}

static void
paint (GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
  Job *job = data;
  const CavFrame *frame = cav_project_get_frame (job->project);
  CavFramePainting *painting = g_new0 (CavFramePainting, 1);
  cairo_surface_t *picture = load_picture (job, frame, &painting->message);

  painting->width = job->width;
  painting->height = job->height;
  cav_frame_grain_init (&painting->grain, frame);
  cav_frame_grain_place (&painting->grain, job->layout, 0);
  painting->preview = cav_preview_new (frame, cav_project_get_profile (job->project),
                                       &painting->grain, picture, job->width, job->height);
  if (painting->preview == NULL && painting->message == NULL)
    painting->message = explain (frame);
  g_clear_pointer (&picture, cairo_surface_destroy);
  g_task_return_pointer (task, painting, (GDestroyNotify)cav_frame_painting_free);
}

static char *
dup_picture_path (CavDocument *document)
{
  const char *file
      = cav_project_get_frame_settings (cav_document_get_project (document))->picture_file;
  GFile *own = cav_document_get_file (document);
  g_autofree char *own_path = own != NULL ? g_file_get_path (own) : NULL;

  return file != NULL && *file != '\0' ? cav_picture_find (file, own_path) : NULL;
}

/* (transfer full) (nullable) The layout of boards, where there are any. */
static CavBoardLayout *
dup_layout (CavDocument *document)
{
  CavBoardLayout *layout = cav_board_runner_get_layout (cav_document_get_board_runner (document));

  return layout != NULL ? cav_board_layout_ref (layout) : NULL;
}

void
cav_frame_painting_start (
    GObject *source, CavDocument *document, int width, int height, GAsyncReadyCallback callback)
{
  g_return_if_fail (CAV_IS_DOCUMENT (document) && width > 0 && height > 0);

  g_autoptr (GTask) task = g_task_new (source, NULL, callback, NULL);
  Job *job = g_new0 (Job, 1);
  job->project = cav_project_copy_snapshot (cav_document_get_project (document));
  job->layout = dup_layout (document);
  job->picture_path = dup_picture_path (document);
  job->width = width;
  job->height = height;
  g_task_set_task_data (task, job, job_free);
  g_task_run_in_thread (task, paint);
}

CavFramePainting *
cav_frame_painting_finish (GAsyncResult *result)
{
  g_return_val_if_fail (G_IS_TASK (result), NULL);

  return g_task_propagate_pointer (G_TASK (result), NULL);
}

void
cav_frame_painting_find_grain (CavDocument *document, CavFrameGrain *out_grain)
{
  g_return_if_fail (CAV_IS_DOCUMENT (document) && out_grain != NULL);

  g_autoptr (CavBoardLayout) layout = dup_layout (document);
  cav_frame_grain_init (out_grain, cav_project_get_frame (cav_document_get_project (document)));
  cav_frame_grain_place (out_grain, layout, 0);
}
