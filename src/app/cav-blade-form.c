/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-blade-form.h"

#include <glib/gi18n.h>

#include "app/cav-length-entry.h"
#include "app/cav-number-entry.h"
#include "app/cav-shop-edit.h"
#include "app/cav-tool-picture.h"

/* What a new blade begins as: the usual size of a cabinet or jobsite saw (common practice). */
#define NEW_DIAMETER 254.0
#define NEW_KERF 3.2

struct _CavBladeForm
{
  GtkWidget parent_instance;

  /* Owned */
  CavProject *project;
  char *id; /* of the blade that is being changed, or NULL */

  /* Template widgets */
  GtkWidget *content;
  CavToolPicture *picture;
  GtkWidget *trouble;
  GtkLabel *message;
  GtkEditable *name;
  CavFigureRow *diameter;
  CavFigureRow *kerf;
  AdwComboRow *grind;
  CavFigureRow *height;
  CavFigureRow *tilt;
  CavFigureRow *bite;

  /* State */
  gboolean is_filling;
};

G_DEFINE_FINAL_TYPE (CavBladeForm, cav_blade_form, GTK_TYPE_WIDGET)

static void
set_message (CavBladeForm *self, const char *message)
{
  gtk_label_set_text (self->message, message != NULL ? message : "");
  gtk_widget_set_visible (self->trouble, message != NULL);
}

/* (transfer full) The blade as it stands in the form, under some id. */
static CavBlade *
create_blade (CavBladeForm *self, const char *id)
{
  const char *name = gtk_editable_get_text (self->name);
  CavBlade *blade = cav_blade_new (id, cav_figure_row_get_typed (self->diameter),
                                   cav_figure_row_get_typed (self->kerf));

  g_free (blade->name);
  blade->name = g_strdup (*name != '\0' ? name : _ ("Blade"));
  blade->grind
      = adw_combo_row_get_selected (self->grind) == 1 ? CAV_GRIND_ALTERNATE : CAV_GRIND_FLAT;
  blade->height = cav_figure_row_get_typed (self->height);
  /* A grooving head comes without any, and gets none. */
  if (blade->tilt > 0)
    blade->tilt = cav_figure_row_get_typed (self->tilt);
  blade->bite = cav_figure_row_get_typed (self->bite);
  return blade;
}

static gboolean
is_grooving (const CavBlade *blade)
{
  g_autoptr (CavBlade) usual = cav_blade_new ("blade", blade->diameter, blade->kerf);

  return !(usual->tilt > 0);
}

static void
refresh (CavBladeForm *self)
{
  g_autoptr (CavBlade) blade = NULL;

  if (self->is_filling || self->project == NULL)
    return;
  blade = create_blade (self, "blade");
  cav_tool_picture_set_blade (self->picture, blade);
  gtk_widget_set_sensitive (GTK_WIDGET (self->tilt), !is_grooving (blade));
  set_message (self, NULL);
}

static void
fill (CavBladeForm *self, const CavBlade *blade)
{
  self->is_filling = TRUE;
  gtk_editable_set_text (self->name, blade->name);
  cav_figure_row_set_value (self->diameter, blade->diameter);
  cav_figure_row_set_value (self->kerf, blade->kerf);
  adw_combo_row_set_selected (self->grind, blade->grind == CAV_GRIND_ALTERNATE ? 1 : 0);
  cav_figure_row_set_value (self->height, blade->height);
  cav_figure_row_set_value (self->tilt, blade->tilt);
  cav_figure_row_set_value (self->bite, blade->bite);
  self->is_filling = FALSE;
}

void
cav_blade_form_open (CavBladeForm *self, CavProject *project, const char *id)
{
  g_autoptr (CavBlade) blade = NULL;
  const CavBlade *original;

  g_return_if_fail (CAV_IS_BLADE_FORM (self));
  g_return_if_fail (CAV_IS_PROJECT (project));

  g_set_object (&self->project, project);
  original = id != NULL ? cav_shop_find_blade (cav_project_get_shop (project), id) : NULL;
  g_clear_pointer (&self->id, g_free);
  if (original != NULL)
    {
      self->id = g_strdup (id);
      blade = cav_blade_copy (original);
    }
  else
    {
      blade = cav_blade_new ("blade", NEW_DIAMETER, NEW_KERF);
      g_free (blade->name);
      blade->name = g_strdup ("");
    }
  fill (self, blade);
  refresh (self);
}

static gboolean
apply_rows (CavBladeForm *self)
{
  CavFigureRow *const rows[] = { self->diameter, self->kerf, self->height, self->tilt, self->bite };
  gboolean all = TRUE;

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    if (!cav_figure_row_apply (rows[i]))
      all = FALSE;
  return all;
}

gboolean
cav_blade_form_commit (CavBladeForm *self)
{
  const char *name;
  g_autoptr (GError) error = NULL;
  g_autofree char *id = NULL;

  g_return_val_if_fail (CAV_IS_BLADE_FORM (self) && self->project != NULL, FALSE);

  if (!apply_rows (self))
    return FALSE;
  name = gtk_editable_get_text (self->name);
  id = self->id != NULL ? g_strdup (self->id)
                        : cav_shop_edit_create_id (cav_project_get_shop (self->project),
                                                   *name != '\0' ? name : "blade");
  if (!cav_shop_edit_put_blade (self->project, create_blade (self, id), &error))
    {
      set_message (self, error->message);
      return FALSE;
    }
  set_message (self, NULL);
  return TRUE;
}

const char *
cav_blade_form_get_message (CavBladeForm *self)
{
  g_return_val_if_fail (CAV_IS_BLADE_FORM (self), NULL);

  return gtk_widget_get_visible (self->trouble) ? gtk_label_get_text (self->message) : NULL;
}

/* Class */

static void
cav_blade_form_dispose (GObject *object)
{
  CavBladeForm *self = CAV_BLADE_FORM (object);

  self->is_filling = TRUE;
  g_clear_pointer (&self->content, gtk_widget_unparent);
  g_clear_object (&self->project);
  G_OBJECT_CLASS (cav_blade_form_parent_class)->dispose (object);
}

static void
cav_blade_form_finalize (GObject *object)
{
  g_free (CAV_BLADE_FORM (object)->id);
  G_OBJECT_CLASS (cav_blade_form_parent_class)->finalize (object);
}

static void
cav_blade_form_class_init (CavBladeFormClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->dispose = cav_blade_form_dispose;
  object_class->finalize = cav_blade_form_finalize;

  g_type_ensure (CAV_TYPE_LENGTH_ENTRY);
  g_type_ensure (CAV_TYPE_NUMBER_ENTRY);
  g_type_ensure (CAV_TYPE_TOOL_PICTURE);
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/org/cavetto/Cavetto/cav-blade-form.ui");
  gtk_widget_class_bind_template_child (widget_class, CavBladeForm, content);
  gtk_widget_class_bind_template_child (widget_class, CavBladeForm, picture);
  gtk_widget_class_bind_template_child (widget_class, CavBladeForm, trouble);
  gtk_widget_class_bind_template_child (widget_class, CavBladeForm, message);
  gtk_widget_class_bind_template_child (widget_class, CavBladeForm, name);
  gtk_widget_class_bind_template_child (widget_class, CavBladeForm, diameter);
  gtk_widget_class_bind_template_child (widget_class, CavBladeForm, kerf);
  gtk_widget_class_bind_template_child (widget_class, CavBladeForm, grind);
  gtk_widget_class_bind_template_child (widget_class, CavBladeForm, height);
  gtk_widget_class_bind_template_child (widget_class, CavBladeForm, tilt);
  gtk_widget_class_bind_template_child (widget_class, CavBladeForm, bite);
  gtk_widget_class_bind_template_callback (widget_class, refresh);
}

static void
cav_blade_form_init (CavBladeForm *self)
{
  self->is_filling = TRUE;
  gtk_widget_init_template (GTK_WIDGET (self));
  self->is_filling = FALSE;
}
