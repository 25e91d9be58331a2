/* SPDX-License-Identifier: GPL-3.0-or-later */

/*
 * How smoothly a cut is dragged: the page Molding in a window of 1600 by 1000, one movement of the
 * pointer a frame. Prints how long a frame takes to be worked out and drawn (clock to after-paint),
 * how far frames and new plans are apart, and how long after a movement the strip of passes is
 * that of the section, median and worst, with an example and with three hundred cuts.
 */
#include <adwaita.h>
#include <math.h>
#include <time.h>

#include "app/cav-application.h"
#include "app/cav-molding-page.h"
#include "app/cav-section-canvas.h"
#include "project/cav-handle.h"
#include "storage/cav-storage.h"

#define WIDTH 1600
#define HEIGHT 1000
#define N_FRAMES 150
#define N_MOVES 15

typedef struct
{
  CavSectionCanvas *canvas;
  GtkEventController *draw;
  GtkWindow *window;
  CavPoint begin;
  int frame;
  gint64 before;
  gint64 last;
  gint64 planned;   /* when the plan before came */
  GArray *plans;    /* double, ms from one to the next */
  GArray *strips;   /* double, ms from a movement to the strip */
  GArray *work;     /* double, ms */
  GArray *interval; /* double, ms */
  GArray *cpu;      /* double, ms of the main thread, whatever else the machine does */
  double cpu_before;
  GMainLoop *loop;
} Run;

static double
get_cpu (void)
{
  struct timespec time;

  clock_gettime (CLOCK_THREAD_CPUTIME_ID, &time);
  return (double)time.tv_sec * 1e3 + (double)time.tv_nsec / 1e6;
}

static GtkEventController *
find_draw (GtkWidget *widget)
{
  g_autoptr (GListModel) controllers = gtk_widget_observe_controllers (widget);

  for (guint i = 0; i < g_list_model_get_n_items (controllers); i++)
    {
      g_autoptr (GtkEventController) controller = g_list_model_get_item (controllers, i);

      if (g_strcmp0 (gtk_event_controller_get_name (controller), "draw") == 0)
        return controller;
    }
  g_error ("The canvas has no gesture to draw with.");
}

static gboolean
set_done_cb (gpointer data)
{
  *(gboolean *)data = TRUE;
  return G_SOURCE_REMOVE;
}

/* The first frame is plain; what comes when there is time has come. */
static void
settle (void)
{
  gboolean is_done = FALSE;

  g_idle_add_full (G_PRIORITY_LOW, G_SOURCE_FUNC (set_done_cb), &is_done, NULL);
  while (!is_done)
    g_main_context_iteration (NULL, TRUE);
}

static int
compare_doubles (gconstpointer a, gconstpointer b)
{
  double one = *(const double *)a;
  double other = *(const double *)b;

  return one < other ? -1 : one > other;
}

static void
print_times (const char *what, GArray *times)
{
  g_array_sort (times, compare_doubles);
  g_print ("  %-34s median %6.2f ms   95 %% %6.2f   worst %6.2f\n", what,
           g_array_index (times, double, times->len / 2),
           g_array_index (times, double, times->len * 95 / 100),
           g_array_index (times, double, times->len - 1));
}

static gboolean
tick_cb (GtkWidget *widget, GdkFrameClock *clock, gpointer data)
{
  Run *run = data;
  gint64 now = g_get_monotonic_time ();
  double interval = (double)(now - run->last) / 1000;

  if (run->frame > 1)
    g_array_append_val (run->interval, interval);
  run->last = now;
  run->before = now;
  run->cpu_before = get_cpu ();
  run->frame++;
  if (run->frame >= N_FRAMES)
    {
      g_main_loop_quit (run->loop);
      return G_SOURCE_REMOVE;
    }
  g_signal_emit_by_name (run->draw, "drag-update", 60.0 * sin (run->frame * 0.11),
                         40.0 * sin (run->frame * 0.07));
  return G_SOURCE_CONTINUE;
}

static void
after_paint_cb (GdkFrameClock *clock, Run *run)
{
  double work = (double)(g_get_monotonic_time () - run->before) / 1000;

  double cpu = get_cpu () - run->cpu_before;

  if (run->frame > 1 && run->before > 0)
    {
      g_array_append_val (run->work, work);
      g_array_append_val (run->cpu, cpu);
    }
  run->before = 0;
}

static void
planned_cb (CavPlanRunner *runner, Run *run)
{
  gint64 now = g_get_monotonic_time ();
  double interval = (double)(now - run->planned) / 1000;

  if (run->planned > 0)
    g_array_append_val (run->plans, interval);
  run->planned = now;
}

static GtkWidget *
find_canvas (GtkWidget *root)
{
  if (CAV_IS_SECTION_CANVAS (root))
    return root;
  for (GtkWidget *child = gtk_widget_get_first_child (root); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    {
      GtkWidget *found = find_canvas (child);

      if (found != NULL)
        return found;
    }
  return NULL;
}

/* From a movement to the frame with the strip of the section as it then is. */
static void
measure_strips (Run *run, CavPlanRunner *runner)
{
  for (int i = 0; i < N_MOVES; i++)
    {
      gint64 before = g_get_monotonic_time ();
      double took;

      g_signal_emit_by_name (run->draw, "drag-update", 20.0 + i, 10.0 - i);
      while (cav_plan_runner_get_state (runner) == CAV_PLAN_STATE_STALE)
        g_main_context_iteration (NULL, TRUE);
      gtk_test_widget_wait_for_draw (GTK_WIDGET (run->canvas));
      took = (double)(g_get_monotonic_time () - before) / 1000;
      g_array_append_val (run->strips, took);
    }
}

static void
measure (const char *name, CavProject *project, guint cut)
{
  g_autoptr (CavDocument) document = cav_document_new_for_project (project, NULL);
  CavPlanRunner *runner = cav_document_get_runner (document);
  GtkWidget *page = g_object_new (CAV_TYPE_MOLDING_PAGE, "document", document, NULL);
  Run run = { .plans = g_array_new (FALSE, FALSE, sizeof (double)),
              .strips = g_array_new (FALSE, FALSE, sizeof (double)),
              .work = g_array_new (FALSE, FALSE, sizeof (double)),
              .interval = g_array_new (FALSE, FALSE, sizeof (double)),
              .cpu = g_array_new (FALSE, FALSE, sizeof (double)),
              .loop = g_main_loop_new (NULL, FALSE) };
  CavBlank blank = cav_project_get_blank (project);
  g_autoptr (GArray) handles = cav_handle_list_new (cav_project_get_cut (project, cut), &blank);
  CavView view;
  GdkFrameClock *clock;

  run.canvas = CAV_SECTION_CANVAS (find_canvas (page));
  run.window = GTK_WINDOW (adw_window_new ());
  gtk_window_set_default_size (run.window, WIDTH, HEIGHT);
  adw_window_set_content (ADW_WINDOW (run.window), page);
  gtk_window_present (run.window);
  gtk_test_widget_wait_for_draw (GTK_WIDGET (run.window));
  cav_plan_runner_start (runner);
  while (cav_plan_runner_get_state (runner) == CAV_PLAN_STATE_STALE)
    g_main_context_iteration (NULL, TRUE);
  settle ();
  gtk_test_widget_wait_for_draw (GTK_WIDGET (run.window));
  cav_selection_choose_cut (cav_document_get_selection (document), cut);
  view = cav_section_canvas_get_view (run.canvas);
  run.begin = cav_view_to_pixel (&view, g_array_index (handles, CavHandle, handles->len - 1).point);
  run.draw = find_draw (GTK_WIDGET (run.canvas));
  clock = gtk_widget_get_frame_clock (GTK_WIDGET (run.canvas));
  g_signal_connect (clock, "after-paint", G_CALLBACK (after_paint_cb), &run);
  g_signal_emit_by_name (run.draw, "drag-begin", run.begin.x, run.begin.y);
  g_signal_connect (runner, "planned", G_CALLBACK (planned_cb), &run);
  gtk_widget_add_tick_callback (GTK_WIDGET (run.canvas), tick_cb, &run, NULL);
  g_main_loop_run (run.loop);
  g_signal_handlers_disconnect_by_data (runner, &run);
  measure_strips (&run, runner);
  g_signal_emit_by_name (run.draw, "drag-end", 0.0, 0.0);
  g_print ("%s, %u cuts, page of %d by %d, canvas of %d by %d\n", name,
           cav_project_get_cut_count (project), gtk_widget_get_width (page),
           gtk_widget_get_height (page), gtk_widget_get_width (GTK_WIDGET (run.canvas)),
           gtk_widget_get_height (GTK_WIDGET (run.canvas)));
  print_times ("a frame, pointer to painted", run.work);
  print_times ("of that, processor time", run.cpu);
  print_times ("from frame to frame", run.interval);
  if (run.plans->len > 0)
    print_times ("meanwhile from plan to plan", run.plans);
  print_times ("from a movement to its strip", run.strips);
  g_signal_handlers_disconnect_by_data (clock, &run);
  gtk_window_destroy (run.window);
  g_array_unref (run.plans);
  g_array_unref (run.strips);
  g_array_unref (run.work);
  g_array_unref (run.interval);
  g_array_unref (run.cpu);
  g_main_loop_unref (run.loop);
}

/* Grooves side by side over a wide blank. */
static CavProject *
create_many (guint n_cuts)
{
  CavProject *project = cav_project_new ();
  g_autoptr (GPtrArray) cuts = g_ptr_array_new_with_free_func ((GDestroyNotify)cav_cut_free);

  cav_project_set_blank (project, (CavBlank){ 400, 60 });
  for (guint i = 0; i < n_cuts; i++)
    {
      CavCut *cut = cav_cut_new_on_side (CAV_CUT_GROOVE, i % 2 ? CAV_SIDE_FACE : CAV_SIDE_BACK);

      if (i % 4 > 1)
        cut->form = CAV_FORM_ROUND;
      cut->numbers[CAV_CUT_POSITION] = 4 + (i / 2) * 392.0 / (n_cuts / 2.0);
      cut->numbers[CAV_CUT_WIDTH] = 1.6;
      cut->numbers[CAV_CUT_DEPTH] = 3 + i % 7;
      g_ptr_array_add (cuts, cut);
    }
  cav_project_replace_cuts (project, cuts);
  return project;
}

int
main (int argc, char *argv[])
{
  adw_init ();
  cav_application_register_resources ();
  for (int i = 1; i < argc; i++)
    {
      g_autoptr (GError) error = NULL;
      g_autoptr (CavProject) project = cav_storage_load_project (argv[i], &error);
      g_autofree char *name = g_path_get_basename (argv[i]);

      if (project == NULL)
        {
          g_printerr ("%s\n", error->message);
          return 1;
        }
      measure (name, project, cav_project_get_cut_count (project) - 1);
    }
  {
    g_autoptr (CavProject) many = create_many (300);

    measure ("grooves", many, 151);
  }
  return 0;
}
