/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-cutter-form.h"

#include <glib/gi18n.h>
#include <string.h>

#include "app/cav-length-entry.h"
#include "app/cav-number-entry.h"
#include "app/cav-shop-edit.h"
#include "app/cav-tool-picture.h"

struct _CavCutterForm
{
  GtkWidget parent_instance;

  /* Owned */
  CavProject *project;
  CavCutter *original; /* that is being changed, or NULL */

  /* Template widgets */
  GtkWidget *content;
  CavToolPicture *picture;
  GtkWidget *trouble;
  GtkLabel *message;
  GtkEditable *name;
  AdwComboRow *family;
  AdwPreferencesGroup *numbers;
  CavFigureRow *shank;
  CavFigureRow *pilot_diameter;
  CavFigureRow *pilot_length;
  CavFigureRow *bite;
  CavFigureRow *speed;

  /* Borrowed from numbers; NULL where the family has none */
  CavFigureRow *rows[CAV_N_CUTTER_NUMBERS];

  /* State: what is being typed, millimetres and degrees */
  CavCutterFamily of;
  double values[CAV_N_CUTTER_NUMBERS];
  gboolean has_own_bite; /* else it follows the size */
  gboolean has_own_speed;
  gboolean is_filling;
};

G_DEFINE_FINAL_TYPE (CavCutterForm, cav_cutter_form, GTK_TYPE_WIDGET)

static void refresh (CavCutterForm *self);

static void
set_message (CavCutterForm *self, const char *message)
{
  gtk_label_set_text (self->message, message != NULL ? message : "");
  gtk_widget_set_visible (self->trouble, message != NULL);
}

static const char *
get_family_name (CavCutterFamily family)
{
  return g_dpgettext2 (NULL, "cutter", cav_cutter_family_get_info (family)->label);
}

/* (transfer full) (nullable) The cutter as it stands in the form; its id is how messages call it.
 */
static CavCutter *
create_cutter (CavCutterForm *self, GError **error)
{
  const char *name = gtk_editable_get_text (self->name);
  const char *called = *name != '\0' ? name : get_family_name (self->of);
  CavCutter *cutter;

  if (self->of == CAV_CUTTER_DRAWN)
    cutter = cav_cutter_copy (self->original);
  else
    cutter = cav_cutter_new (called, self->of, self->values, error);
  if (cutter == NULL)
    return NULL;
  g_free (cutter->name);
  cutter->name = g_strdup (called);
  cutter->shank = cav_figure_row_get_typed (self->shank);
  cav_cutter_set_pilot (cutter, cav_figure_row_get_typed (self->pilot_diameter) / 2,
                        cav_figure_row_get_typed (self->pilot_length));
  if (self->has_own_bite)
    cutter->bite = cav_figure_row_get_typed (self->bite);
  if (self->has_own_speed)
    cutter->speed = cav_figure_row_get_typed (self->speed);
  return cutter;
}

static void
refresh (CavCutterForm *self)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (CavCutter) cutter = NULL;

  if (self->is_filling || self->project == NULL)
    return;
  cutter = create_cutter (self, &error);
  set_message (self, error != NULL ? error->message : NULL);
  if (cutter == NULL)
    return;
  cav_tool_picture_set_cutter (self->picture, cutter);
  self->is_filling = TRUE;
  if (!self->has_own_bite)
    cav_figure_row_set_value (self->bite, cutter->bite);
  if (!self->has_own_speed)
    cav_figure_row_set_value (self->speed, cutter->speed);
  self->is_filling = FALSE;
}

static void
number_typed_cb (CavCutterForm *self, double value, CavFigureRow *row)
{
  for (int i = 0; i < CAV_N_CUTTER_NUMBERS; i++)
    if (self->rows[i] == row)
      self->values[i] = value;
  refresh (self);
}

static void
bite_typed_cb (CavCutterForm *self)
{
  self->has_own_bite = TRUE;
  refresh (self);
}

static void
speed_typed_cb (CavCutterForm *self)
{
  self->has_own_speed = TRUE;
  refresh (self);
}

/* Rows of a family */

static void
remove_rows (CavCutterForm *self)
{
  for (int i = 0; i < CAV_N_CUTTER_NUMBERS; i++)
    {
      CavFigureRow *row = self->rows[i];

      self->rows[i] = NULL;
      if (row == NULL)
        continue;
      g_signal_handlers_disconnect_by_data (row, self);
      adw_preferences_group_remove (self->numbers, GTK_WIDGET (row));
    }
}

static void
add_row (CavCutterForm *self, const CavCutterNumberInfo *info)
{
  const char *label = g_dpgettext2 (NULL, "number of a cutter", info->label);
  CavFigureRow *row = info->number == CAV_CUTTER_ANGLE
                          ? CAV_FIGURE_ROW (cav_number_entry_new (label, 2, "°", 1))
                          : CAV_FIGURE_ROW (cav_length_entry_new (label));

  cav_figure_row_set_range (row, info->minimum, info->maximum);
  cav_figure_row_set_value (row, self->values[info->number]);
  g_signal_connect_object (row, "typed", G_CALLBACK (number_typed_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (row, "applied", G_CALLBACK (number_typed_cb), self, G_CONNECT_SWAPPED);
  adw_preferences_group_add (self->numbers, GTK_WIDGET (row));
  self->rows[info->number] = row;
}

static void
make_rows (CavCutterForm *self)
{
  const CavCutterFamilyInfo *info = cav_cutter_family_get_info (self->of);

  remove_rows (self);
  for (guint i = 0; i < info->n_numbers; i++)
    add_row (self, &info->numbers[i]);
  gtk_widget_set_visible (GTK_WIDGET (self->numbers), info->n_numbers > 0);
}

static void
take_family (CavCutterForm *self, CavCutterFamily family)
{
  const CavCutterFamilyInfo *info = cav_cutter_family_get_info (family);

  self->of = family;
  memset (self->values, 0, sizeof self->values);
  for (guint i = 0; i < info->n_numbers; i++)
    self->values[info->numbers[i].number] = info->numbers[i].usual;
  make_rows (self);
}

static void
family_selected_cb (CavCutterForm *self)
{
  guint selected = adw_combo_row_get_selected (self->family);

  if (self->is_filling || selected >= CAV_CUTTER_DRAWN || selected == (guint)self->of)
    return;
  take_family (self, (CavCutterFamily)selected);
  refresh (self);
}

/* Opening and committing */

static void
fill (CavCutterForm *self, const CavCutter *cutter)
{
  gboolean is_drawn = cutter->family == CAV_CUTTER_DRAWN;

  self->of = cutter->family;
  memcpy (self->values, cutter->numbers, sizeof self->values);
  gtk_editable_set_text (self->name, cutter->name);
  /* A drawn cutter comes from a file; nobody chooses it here, and it stays what it is. */
  adw_combo_row_set_selected (self->family,
                              is_drawn ? GTK_INVALID_LIST_POSITION : (guint)cutter->family);
  gtk_widget_set_sensitive (GTK_WIDGET (self->family), !is_drawn);
  cav_figure_row_set_value (self->shank, cutter->shank);
  cav_figure_row_set_value (self->pilot_diameter, 2 * cutter->pilot_radius);
  cav_figure_row_set_value (self->pilot_length, cutter->pilot_length);
  cav_figure_row_set_value (self->bite, cutter->bite);
  cav_figure_row_set_value (self->speed, cutter->speed);
  self->has_own_bite = TRUE;
  self->has_own_speed = TRUE;
  make_rows (self);
}

static void
fill_new (CavCutterForm *self)
{
  gtk_editable_set_text (self->name, "");
  adw_combo_row_set_selected (self->family, CAV_CUTTER_STRAIGHT);
  gtk_widget_set_sensitive (GTK_WIDGET (self->family), TRUE);
  cav_figure_row_set_value (self->shank, 0);
  cav_figure_row_set_value (self->pilot_diameter, 0);
  cav_figure_row_set_value (self->pilot_length, 0);
  self->has_own_bite = FALSE;
  self->has_own_speed = FALSE;
  take_family (self, CAV_CUTTER_STRAIGHT);
}

void
cav_cutter_form_open (CavCutterForm *self, CavProject *project, const char *id)
{
  const CavCutter *cutter;

  g_return_if_fail (CAV_IS_CUTTER_FORM (self));
  g_return_if_fail (CAV_IS_PROJECT (project));

  g_set_object (&self->project, project);
  cutter = id != NULL ? cav_shop_find_cutter (cav_project_get_shop (project), id) : NULL;
  g_clear_pointer (&self->original, cav_cutter_free);
  self->original = cutter != NULL ? cav_cutter_copy (cutter) : NULL;
  self->is_filling = TRUE;
  if (cutter != NULL)
    fill (self, cutter);
  else
    fill_new (self);
  self->is_filling = FALSE;
  refresh (self);
}

void
cav_cutter_form_set_family (CavCutterForm *self, CavCutterFamily family)
{
  g_return_if_fail (CAV_IS_CUTTER_FORM (self));
  g_return_if_fail ((guint)family < CAV_CUTTER_DRAWN);

  adw_combo_row_set_selected (self->family, (guint)family);
}

/* FALSE where a row holds what it cannot take; its own sentence says so. */
static gboolean
apply_rows (CavCutterForm *self)
{
  CavFigureRow *const fixed[]
      = { self->shank, self->pilot_diameter, self->pilot_length, self->bite, self->speed };
  gboolean all = TRUE;

  for (int i = 0; i < CAV_N_CUTTER_NUMBERS; i++)
    if (self->rows[i] != NULL && !cav_figure_row_apply (self->rows[i]))
      all = FALSE;
  for (guint i = 0; i < G_N_ELEMENTS (fixed); i++)
    if (!cav_figure_row_apply (fixed[i]))
      all = FALSE;
  return all;
}

gboolean
cav_cutter_form_commit (CavCutterForm *self)
{
  g_autoptr (GError) error = NULL;
  CavCutter *cutter;

  g_return_val_if_fail (CAV_IS_CUTTER_FORM (self) && self->project != NULL, FALSE);

  if (!apply_rows (self))
    return FALSE;
  cutter = create_cutter (self, &error);
  if (cutter != NULL)
    {
      g_free (cutter->id);
      cutter->id
          = self->original != NULL
                ? g_strdup (self->original->id)
                : cav_shop_edit_create_id (cav_project_get_shop (self->project), cutter->name);
    }
  if (cutter == NULL || !cav_shop_edit_put_cutter (self->project, cutter, &error))
    {
      set_message (self, error->message);
      return FALSE;
    }
  set_message (self, NULL);
  return TRUE;
}

const char *
cav_cutter_form_get_message (CavCutterForm *self)
{
  g_return_val_if_fail (CAV_IS_CUTTER_FORM (self), NULL);

  return gtk_widget_get_visible (self->trouble) ? gtk_label_get_text (self->message) : NULL;
}

GtkWidget *
cav_cutter_form_get_number_row (CavCutterForm *self, CavCutterNumber number)
{
  g_return_val_if_fail (CAV_IS_CUTTER_FORM (self), NULL);
  g_return_val_if_fail ((guint)number < CAV_N_CUTTER_NUMBERS, NULL);

  return GTK_WIDGET (self->rows[number]);
}

/* Class */

static void
cav_cutter_form_dispose (GObject *object)
{
  CavCutterForm *self = CAV_CUTTER_FORM (object);

  self->is_filling = TRUE;
  remove_rows (self);
  g_clear_pointer (&self->content, gtk_widget_unparent);
  g_clear_object (&self->project);
  G_OBJECT_CLASS (cav_cutter_form_parent_class)->dispose (object);
}

static void
cav_cutter_form_finalize (GObject *object)
{
  cav_cutter_free (CAV_CUTTER_FORM (object)->original);
  G_OBJECT_CLASS (cav_cutter_form_parent_class)->finalize (object);
}

static void
cav_cutter_form_class_init (CavCutterFormClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->dispose = cav_cutter_form_dispose;
  object_class->finalize = cav_cutter_form_finalize;

  g_type_ensure (CAV_TYPE_LENGTH_ENTRY);
  g_type_ensure (CAV_TYPE_NUMBER_ENTRY);
  g_type_ensure (CAV_TYPE_TOOL_PICTURE);
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/org/cavetto/Cavetto/cav-cutter-form.ui");
  gtk_widget_class_bind_template_child (widget_class, CavCutterForm, content);
  gtk_widget_class_bind_template_child (widget_class, CavCutterForm, picture);
  gtk_widget_class_bind_template_child (widget_class, CavCutterForm, trouble);
  gtk_widget_class_bind_template_child (widget_class, CavCutterForm, message);
  gtk_widget_class_bind_template_child (widget_class, CavCutterForm, name);
  gtk_widget_class_bind_template_child (widget_class, CavCutterForm, family);
  gtk_widget_class_bind_template_child (widget_class, CavCutterForm, numbers);
  gtk_widget_class_bind_template_child (widget_class, CavCutterForm, shank);
  gtk_widget_class_bind_template_child (widget_class, CavCutterForm, pilot_diameter);
  gtk_widget_class_bind_template_child (widget_class, CavCutterForm, pilot_length);
  gtk_widget_class_bind_template_child (widget_class, CavCutterForm, bite);
  gtk_widget_class_bind_template_child (widget_class, CavCutterForm, speed);
  gtk_widget_class_bind_template_callback (widget_class, refresh);
  gtk_widget_class_bind_template_callback (widget_class, family_selected_cb);
  gtk_widget_class_bind_template_callback (widget_class, bite_typed_cb);
  gtk_widget_class_bind_template_callback (widget_class, speed_typed_cb);
}

static void
cav_cutter_form_init (CavCutterForm *self)
{
  g_autoptr (GtkStringList) names = gtk_string_list_new (NULL);

  self->is_filling = TRUE;
  gtk_widget_init_template (GTK_WIDGET (self));
  for (int i = 0; i < CAV_CUTTER_DRAWN; i++)
    gtk_string_list_append (names, get_family_name ((CavCutterFamily)i));
  adw_combo_row_set_model (self->family, G_LIST_MODEL (names));
  self->is_filling = FALSE;
}
