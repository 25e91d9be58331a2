/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-start-window.h"

#include "app/cav-application.h"
#include "app/cav-file-choice.h"
#include "app/cav-frame-rows.h"
#include "app/cav-length-entry.h"
#include "app/cav-length-text.h"
#include "app/cav-own-shop.h"
#include "app/cav-plan-job.h"
#include "app/cav-settings.h"
#include "app/cav-starter-tile.h"
#include "app/cav-window.h"
#include "frame/cav-stock-size.h"

#include <glib/gi18n.h>

/* Milliseconds that a size of the picture has to stay before the moldings are planned for it. */
#define PATIENCE 300

struct _CavStartWindow
{
  AdwWindow parent_instance;

  /* Children */
  GtkFlowBox *moldings;
  GtkListBox *others;
  AdwPreferencesGroup *picture;
  AdwPreferencesGroup *around;
  AdwPreferencesGroup *something_else;
  AdwComboRow *size;
  AdwComboRow *mats;
  CavFigureRow *width;
  CavFigureRow *height;
  CavFigureRow *border;

  /* Owned */
  CavFrameSettings *settings;
  CavShop *shop;
  CavPlanJob *job; /* nullable: that of the tile planned_tile */

  /* State */
  int planned_tile;
  guint patience; /* source */
  gulong first_frame;
  gboolean is_refreshing;
};

G_DEFINE_FINAL_TYPE (CavStartWindow, cav_start_window, ADW_TYPE_WINDOW)

/* Plans, one molding after the other */

static void plan_next (CavStartWindow *self);

static CavStarterTile *
get_tile (CavStartWindow *self, int index)
{
  GtkFlowBoxChild *child = gtk_flow_box_get_child_at_index (self->moldings, index);

  return child != NULL ? CAV_STARTER_TILE (child) : NULL;
}

static void planned_cb (CavPlanJob *job, CavPlan *plan, const GError *error, gpointer user_data);

static gboolean
plan_tile (CavStartWindow *self, CavEffort effort)
{
  CavStarterTile *tile = get_tile (self, self->planned_tile);
  g_autoptr (GError) error = NULL;

  self->job = cav_plan_job_start (cav_starter_tile_get_project (tile), effort, NULL, planned_cb,
                                  self, &error);
  if (self->job == NULL)
    cav_starter_tile_set_plan (tile, NULL, error->message);
  return self->job != NULL;
}

static void
planned_cb (CavPlanJob *job, CavPlan *plan, const GError *error, gpointer user_data)
{
  CavStartWindow *self = user_data;
  gboolean was_quick = cav_plan_job_get_effort (job) == CAV_EFFORT_QUICK;
  g_autoptr (CavPlan) owned = plan;

  self->job = NULL;
  /* A quick plan may leave what a thorough one does not; only that may say so. */
  if (was_quick && plan != NULL && plan->places->len > 0 && plan_tile (self, CAV_EFFORT_THOROUGH))
    return;
  cav_starter_tile_set_plan (get_tile (self, self->planned_tile), plan,
                             error != NULL ? error->message : NULL);
  self->planned_tile++;
  plan_next (self);
}

static void
plan_next (CavStartWindow *self)
{
  while (get_tile (self, self->planned_tile) != NULL && !plan_tile (self, CAV_EFFORT_QUICK))
    self->planned_tile++;
}

static void
give_up_plans (CavStartWindow *self)
{
  g_clear_handle_id (&self->patience, g_source_remove);
  g_clear_pointer (&self->job, cav_plan_job_abandon);
}

static gboolean
plan_all_cb (gpointer user_data)
{
  CavStartWindow *self = user_data;
  CavStarterTile *tile;

  self->patience = 0;
  self->planned_tile = 0;
  for (int i = 0; (tile = get_tile (self, i)) != NULL; i++)
    {
      g_autoptr (CavProject) project = cav_starter_create_molding (
          cav_starter_tile_get_starter (tile), self->settings, self->shop);

      cav_starter_tile_set_project (tile, project);
    }
  plan_next (self);
  return G_SOURCE_REMOVE;
}

static void
plan_soon (CavStartWindow *self)
{
  give_up_plans (self);
  self->patience = g_timeout_add (PATIENCE, plan_all_cb, self);
}

/* The picture */

static const CavFrameRow STOCK_ROW = { .kind = CAV_FRAME_ROW_STOCK };

/* What the choice of mats means for the frame. */
static void
refresh_mats (CavStartWindow *self)
{
  const CavFrameSettings *settings = self->settings;
  g_autofree char *foot = cav_length_text_new (settings->border_bottom);
  g_autofree char *words = settings->n_mats == 0
                               ? g_strdup (_ ("The molding lies on the picture’s edge"))
                               : g_strdup_printf (/* Translators: the lower border of a mat. */
                                                  _ ("At the bottom %s"), foot);

  cav_figure_row_set_value (self->border, settings->border_left);
  gtk_widget_set_visible (GTK_WIDGET (self->border), settings->n_mats > 0);
  adw_combo_row_set_selected (self->mats, (guint)settings->n_mats);
  adw_action_row_set_subtitle (ADW_ACTION_ROW (self->mats), words);
}

static void
refresh_picture (CavStartWindow *self)
{
  self->is_refreshing = TRUE;
  cav_figure_row_set_value (self->width, self->settings->picture_width);
  cav_figure_row_set_value (self->height, self->settings->picture_height);
  adw_combo_row_set_selected (self->size, cav_frame_row_get_choice (self->settings, &STOCK_ROW));
  refresh_mats (self);
  self->is_refreshing = FALSE;
}

static void
size_chosen_cb (CavStartWindow *self)
{
  if (self->is_refreshing)
    return;
  cav_frame_row_set_choice (self->settings, &STOCK_ROW, adw_combo_row_get_selected (self->size));
  refresh_picture (self);
  plan_soon (self);
}

static void
mats_chosen_cb (CavStartWindow *self)
{
  if (self->is_refreshing)
    return;
  cav_frame_row_set_count (self->settings, CAV_FRAME_ROW_MATS,
                           (int)adw_combo_row_get_selected (self->mats));
  refresh_picture (self);
  plan_soon (self);
}

static void
size_applied_cb (CavStartWindow *self)
{
  /* A number that is left because the window closes. */
  if (self->settings == NULL)
    return;
  self->settings->picture_width = cav_figure_row_get_value (self->width);
  self->settings->picture_height = cav_figure_row_get_value (self->height);
  cav_frame_rows_set_border (self->settings, CAV_BORDERS_WEIGHTED,
                             cav_figure_row_get_value (self->border));
  refresh_picture (self);
  plan_soon (self);
}

static CavFigureRow *
add_length_row (CavStartWindow *self,
                AdwPreferencesGroup *group,
                const char *title,
                const char *number)
{
  CavFigureRow *row = CAV_FIGURE_ROW (cav_length_entry_new (title));
  const CavFrameNumberInfo *info = cav_frame_rows_find_number (number);

  cav_figure_row_set_range (row, info->minimum, info->maximum);
  g_signal_connect_swapped (row, "applied", G_CALLBACK (size_applied_cb), self);
  adw_preferences_group_add (group, GTK_WIDGET (row));
  return row;
}

static void
add_picture_rows (CavStartWindow *self)
{
  g_autoptr (GtkStringList) names = cav_frame_row_create_names (CAV_FRAME_ROW_STOCK);

  self->is_refreshing = TRUE;
  adw_combo_row_set_model (self->size, G_LIST_MODEL (names));
  self->is_refreshing = FALSE;
  self->width = add_length_row (self, self->picture, _ ("Width"), "picture-width");
  self->height = add_length_row (self, self->picture, _ ("Height"), "picture-height");
  self->border = add_length_row (self, self->around, _ ("Border"), "border-left");
}

/* The usual border where one measures in inches: 2 1/2, and 2 3/4 below; common practice, no
 * source. */
#define BORDER_INCH 63.5
#define BOTTOM_INCH 69.85

/* Where paper is Letter pictures are measured in inches, and the usual A4 would be nobody's. */
static void
choose_usual_picture (CavFrameSettings *settings)
{
  const CavStockSize *size = cav_stock_size_find ("8 × 10 in");

  if (cav_settings_get_paper () != CAV_PAPER_LETTER || size == NULL)
    return;
  settings->picture_width = size->width;
  settings->picture_height = size->height;
  if (cav_settings_get_length_style ().unit != CAV_UNIT_INCH)
    return;
  settings->border_left = settings->border_right = settings->border_top = BORDER_INCH;
  settings->border_bottom = BOTTOM_INCH;
}

/* Choosing */

static void
show_project (CavStartWindow *self, CavProject *project)
{
  GtkApplication *application = gtk_window_get_application (GTK_WINDOW (self));
  g_autoptr (CavDocument) document = cav_document_new_for_project (project, NULL);

  gtk_window_present (GTK_WINDOW (cav_window_new (application, document)));
  gtk_window_close (GTK_WINDOW (self));
}

/* A size that is still being typed is the picture's, too. */
static void
take_typed_sizes (CavStartWindow *self)
{
  cav_figure_row_apply (self->width);
  cav_figure_row_apply (self->height);
  cav_figure_row_apply (self->border);
}

static void
molding_activated_cb (CavStartWindow *self, GtkFlowBoxChild *child)
{
  take_typed_sizes (self);
  g_autoptr (CavProject) project = cav_starter_create_molding (
      cav_starter_tile_get_starter (CAV_STARTER_TILE (child)), self->settings, self->shop);

  show_project (self, project);
}

static void
blank_activated_cb (CavStartWindow *self)
{
  take_typed_sizes (self);
  g_autoptr (CavProject) project = cav_starter_create_blank (self->settings, self->shop);

  show_project (self, project);
}

static void
file_chosen_cb (GFile *file, gpointer user_data)
{
  CavStartWindow *self = user_data;

  cav_application_open_file (CAV_APPLICATION (gtk_window_get_application (GTK_WINDOW (self))), file,
                             NULL);
  gtk_window_close (GTK_WINDOW (self));
}

static void
open_activated_cb (CavStartWindow *self)
{
  cav_choose_file_to_open (GTK_WINDOW (self), _ ("Open project"), CAV_FILE_PROJECT, file_chosen_cb,
                           self);
}

static void
example_activated_cb (GtkWidget *row, gpointer user_data)
{
  CavStartWindow *self = CAV_START_WINDOW (gtk_widget_get_root (row));
  g_autoptr (CavProject) project = cav_starter_create_example (user_data);

  show_project (self, project);
}

static void
add_examples (CavStartWindow *self)
{
  guint n_examples;
  const CavStarter *examples = cav_starters_get_examples (&n_examples);

  for (guint i = 0; i < n_examples; i++)
    {
      GtkWidget *row = adw_action_row_new ();
      g_autofree char *title
          = g_strdup_printf (_ ("Example: %s"), cav_starter_get_name (&examples[i]));

      adw_preferences_row_set_title (ADW_PREFERENCES_ROW (row), title);
      adw_action_row_set_subtitle (ADW_ACTION_ROW (row), _ (examples[i].words));
      gtk_list_box_row_set_activatable (GTK_LIST_BOX_ROW (row), TRUE);
      g_signal_connect (row, "activated", G_CALLBACK (example_activated_cb),
                        (gpointer)&examples[i]);
      gtk_list_box_append (self->others, row);
    }
}

static void
add_moldings (CavStartWindow *self)
{
  guint n_moldings;
  const CavStarter *moldings = cav_starters_get_moldings (&n_moldings);

  for (guint i = 0; i < n_moldings; i++)
    gtk_flow_box_append (self->moldings, cav_starter_tile_new (&moldings[i]));
}

/* The class */

static GtkWidget *
get_station (CavStartWindow *self, guint index)
{
  GtkWidget *stations[] = { GTK_WIDGET (self->picture), GTK_WIDGET (self->around),
                            GTK_WIDGET (self->moldings), GTK_WIDGET (self->something_else) };

  return stations[index % G_N_ELEMENTS (stations)];
}

/* Tab goes the way of the work, from the picture to the moldings, and by the other things after
 * that; GTK would go down the left column first. */
static gboolean
cav_start_window_focus (GtkWidget *widget, GtkDirectionType direction)
{
  CavStartWindow *self = CAV_START_WINDOW (widget);
  GtkWidget *focus = gtk_window_get_focus (GTK_WINDOW (self));
  const guint n = 4;
  guint from = 0;

  if (direction != GTK_DIR_TAB_FORWARD && direction != GTK_DIR_TAB_BACKWARD)
    return GTK_WIDGET_CLASS (cav_start_window_parent_class)->focus (widget, direction);
  while (from < n && (focus == NULL || !gtk_widget_is_ancestor (focus, get_station (self, from))))
    from++;
  if (from == n)
    return GTK_WIDGET_CLASS (cav_start_window_parent_class)->focus (widget, direction);
  for (guint i = 0; i < n; i++)
    {
      guint at = direction == GTK_DIR_TAB_FORWARD ? from + i : from + n - i;

      if (gtk_widget_child_focus (get_station (self, at), direction))
        return TRUE;
    }
  return FALSE;
}

static void
first_frame_cb (GdkFrameClock *clock, gpointer user_data)
{
  CavStartWindow *self = CAV_START_WINDOW (user_data);

  g_clear_signal_handler (&self->first_frame, clock);
  cav_application_has_shown (CAV_APPLICATION (gtk_window_get_application (GTK_WINDOW (self))));
}

static void
cav_start_window_realize (GtkWidget *widget)
{
  GTK_WIDGET_CLASS (cav_start_window_parent_class)->realize (widget);
  CAV_START_WINDOW (widget)->first_frame = g_signal_connect_object (
      gtk_widget_get_frame_clock (widget), "after-paint", G_CALLBACK (first_frame_cb), widget, 0);
}

static void
cav_start_window_dispose (GObject *object)
{
  CavStartWindow *self = CAV_START_WINDOW (object);

  give_up_plans (self);
  g_clear_pointer (&self->settings, cav_frame_settings_free);
  g_clear_pointer (&self->shop, cav_shop_free);
  G_OBJECT_CLASS (cav_start_window_parent_class)->dispose (object);
}

static void
cav_start_window_class_init (CavStartWindowClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = cav_start_window_dispose;
  widget_class->focus = cav_start_window_focus;
  widget_class->realize = cav_start_window_realize;

  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/org/cavetto/Cavetto/cav-start-window.ui");
  gtk_widget_class_bind_template_child (widget_class, CavStartWindow, around);
  gtk_widget_class_bind_template_child (widget_class, CavStartWindow, mats);
  gtk_widget_class_bind_template_child (widget_class, CavStartWindow, moldings);
  gtk_widget_class_bind_template_child (widget_class, CavStartWindow, others);
  gtk_widget_class_bind_template_child (widget_class, CavStartWindow, picture);
  gtk_widget_class_bind_template_child (widget_class, CavStartWindow, size);
  gtk_widget_class_bind_template_child (widget_class, CavStartWindow, something_else);
  gtk_widget_class_bind_template_callback (widget_class, blank_activated_cb);
  gtk_widget_class_bind_template_callback (widget_class, mats_chosen_cb);
  gtk_widget_class_bind_template_callback (widget_class, molding_activated_cb);
  gtk_widget_class_bind_template_callback (widget_class, open_activated_cb);
  gtk_widget_class_bind_template_callback (widget_class, size_chosen_cb);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Escape, 0, "window.close", NULL);
}

static void
cav_start_window_init (CavStartWindow *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  self->settings = cav_frame_settings_new ();
  choose_usual_picture (self->settings);
  /* A shop file that cannot be read is told where the shop is edited. */
  self->shop = cav_own_shop_load (NULL);
  if (self->shop == NULL)
    self->shop = cav_shop_new_default ();
  add_picture_rows (self);
  add_examples (self);
  add_moldings (self);
  refresh_picture (self);
  plan_all_cb (self);
}

GtkWindow *
cav_start_window_new (GtkApplication *application)
{
  g_return_val_if_fail (GTK_IS_APPLICATION (application), NULL);
  return g_object_new (CAV_TYPE_START_WINDOW, "application", application, NULL);
}
