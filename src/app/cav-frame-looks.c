/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-frame-looks.h"

#include <glib/gi18n.h>
#include <math.h>

#include "app/cav-file-choice.h"
#include "app/cav-frame-edit.h"
#include "tool/cav-picture.h"

typedef struct
{
  const char *title;
  gsize offset; /* of the colour in CavFrameSettings */
} Colour;

static const Colour COLOURS[] = {
  { N_ ("Wall"), G_STRUCT_OFFSET (CavFrameSettings, wall_colour) },
  { N_ ("First mat"), G_STRUCT_OFFSET (CavFrameSettings, mats[0].colour) },
  { N_ ("Second mat"), G_STRUCT_OFFSET (CavFrameSettings, mats[1].colour) },
  { N_ ("Third mat"), G_STRUCT_OFFSET (CavFrameSettings, mats[2].colour) },
  { N_ ("Board of the float"), G_STRUCT_OFFSET (CavFrameSettings, float_colour) },
};
#define FIRST_MAT 1
#define FLOAT_BOARD 4

struct _CavFrameLooks
{
  CavDocumentPanel parent_instance;

  /* Children */
  GtkWidget *picture;
  GtkWidget *remove;
  GtkWidget *colours[G_N_ELEMENTS (COLOURS)];
  GtkWidget *buttons[G_N_ELEMENTS (COLOURS)];
};

G_DEFINE_FINAL_TYPE (CavFrameLooks, cav_frame_looks, CAV_TYPE_DOCUMENT_PANEL)

/* (nullable) */
static CavProject *
get_project (CavFrameLooks *self)
{
  return cav_document_panel_get_project (CAV_DOCUMENT_PANEL (self));
}

static guint32 *
find_colour (CavFrameSettings *settings, guint index)
{
  return (guint32 *)(gpointer)((char *)settings + COLOURS[index].offset);
}

static gboolean
is_shown (const CavFrameSettings *settings, guint index)
{
  if (index == FLOAT_BOARD)
    return settings->floated;
  return index < FIRST_MAT || (!settings->floated && (int)(index - FIRST_MAT) < settings->n_mats);
}

/* Showing */

static GdkRGBA
to_rgba (guint32 colour)
{
  return (GdkRGBA){ .red = (float)(colour >> 16 & 0xff) / 255.0F,
                    .green = (float)(colour >> 8 & 0xff) / 255.0F,
                    .blue = (float)(colour & 0xff) / 255.0F,
                    .alpha = 1.0F };
}

static guint32
from_rgba (const GdkRGBA *rgba)
{
  return (guint32)lround (rgba->red * 255.0) << 16 | (guint32)lround (rgba->green * 255.0) << 8
         | (guint32)lround (rgba->blue * 255.0);
}

/* Name of the file, or what is shown where there is none. */
static void
show_picture (CavFrameLooks *self, const char *file)
{
  CavDocument *document = cav_document_panel_get_document (CAV_DOCUMENT_PANEL (self));
  GFile *own = cav_document_get_file (document);
  g_autofree char *own_path = own != NULL ? g_file_get_path (own) : NULL;
  g_autofree char *path = NULL;
  g_autofree char *name = NULL;
  g_autofree char *text = NULL;

  gtk_widget_set_visible (self->remove, file != NULL && *file != '\0');
  if (file == NULL || *file == '\0')
    {
      adw_action_row_set_subtitle (ADW_ACTION_ROW (self->picture),
                                   _ ("None yet: a fern stands in its place"));
      return;
    }
  path = cav_picture_find (file, own_path);
  name = g_path_get_basename (file);
  text = g_file_test (path, G_FILE_TEST_EXISTS)
             ? g_filename_display_name (name)
             : g_strdup_printf (_ ("Missing: %s. Its place is kept."), name);
  adw_action_row_set_subtitle (ADW_ACTION_ROW (self->picture), text);
}

static void
show_colour (CavFrameLooks *self, CavFrameSettings *settings, guint index)
{
  guint32 colour = *find_colour (settings, index);
  GdkRGBA rgba = to_rgba (colour);
  g_autofree char *text = g_strdup_printf ("#%06x", colour & 0xffffff);

  gtk_widget_set_visible (self->colours[index], is_shown (settings, index));
  gtk_color_chooser_set_rgba (GTK_COLOR_CHOOSER (self->buttons[index]), &rgba);
  adw_action_row_set_subtitle (ADW_ACTION_ROW (self->colours[index]), text);
}

static void
cav_frame_looks_show_project (CavDocumentPanel *panel, CavProject *project)
{
  CavFrameLooks *self = CAV_FRAME_LOOKS (panel);
  g_autoptr (CavFrameSettings) settings
      = cav_frame_settings_copy (cav_project_get_frame_settings (project));

  show_picture (self, settings->picture_file);
  for (guint i = 0; i < G_N_ELEMENTS (COLOURS); i++)
    show_colour (self, settings, i);
}

/* Editing */

static void
colour_set_cb (GtkColorButton *button, CavFrameLooks *self)
{
  CavProject *project = get_project (self);
  g_autoptr (CavFrameSettings) settings = NULL;
  GdkRGBA rgba;

  if (project == NULL)
    return;
  settings = cav_frame_settings_copy (cav_project_get_frame_settings (project));
  gtk_color_chooser_get_rgba (GTK_COLOR_CHOOSER (button), &rgba);
  for (guint i = 0; i < G_N_ELEMENTS (COLOURS); i++)
    if (self->buttons[i] == GTK_WIDGET (button))
      *find_colour (settings, i) = from_rgba (&rgba);
  cav_frame_edit_apply (project, settings, C_ ("step", "change colour"));
}

static void
chosen_cb (GFile *file, gpointer user_data)
{
  CavDocument *document = cav_document_panel_get_document (CAV_DOCUMENT_PANEL (user_data));

  if (document != NULL)
    cav_frame_edit_set_picture (document, file);
}

static void
choose_picture (GtkWidget *widget, const char *name, GVariant *parameter)
{
  GtkRoot *root = gtk_widget_get_root (widget);

  if (GTK_IS_WINDOW (root))
    cav_choose_file_to_open (GTK_WINDOW (root), _ ("Choose the picture"), CAV_FILE_PICTURE,
                             chosen_cb, widget);
}

static void
remove_picture (GtkWidget *widget, const char *name, GVariant *parameter)
{
  CavDocument *document = cav_document_panel_get_document (CAV_DOCUMENT_PANEL (widget));

  if (document != NULL)
    cav_frame_edit_set_picture (document, NULL);
}

/* Building */

static GtkWidget *
create_button (const char *icon, const char *words, const char *action)
{
  GtkWidget *button = gtk_button_new_from_icon_name (icon);

  gtk_widget_set_valign (button, GTK_ALIGN_CENTER);
  gtk_widget_set_tooltip_text (button, words);
  gtk_widget_add_css_class (button, "flat");
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL, words,
                                  -1);
  gtk_actionable_set_action_name (GTK_ACTIONABLE (button), action);
  return button;
}

static GtkWidget *
create_row (const char *title)
{
  GtkWidget *row = adw_action_row_new ();

  adw_preferences_row_set_use_markup (ADW_PREFERENCES_ROW (row), FALSE);
  adw_preferences_row_set_title (ADW_PREFERENCES_ROW (row), title);
  return row;
}

static void
add_picture (CavFrameLooks *self, AdwPreferencesGroup *group)
{
  GtkWidget *choose
      = create_button ("document-open-symbolic", _ ("Choose the picture"), "looks.choose-picture");

  self->picture = create_row (_ ("Picture"));
  self->remove
      = create_button ("edit-delete-symbolic", _ ("Remove the picture"), "looks.remove-picture");
  adw_action_row_add_suffix (ADW_ACTION_ROW (self->picture), self->remove);
  adw_action_row_add_suffix (ADW_ACTION_ROW (self->picture), choose);
  adw_action_row_set_activatable_widget (ADW_ACTION_ROW (self->picture), choose);
  adw_preferences_group_add (group, self->picture);
}

static void
add_colour (CavFrameLooks *self, AdwPreferencesGroup *group, guint index)
{
  const char *title = _ (COLOURS[index].title);
  GtkWidget *button = gtk_color_button_new ();

  self->colours[index] = create_row (title);
  self->buttons[index] = button;
  gtk_color_button_set_title (GTK_COLOR_BUTTON (button), title);
  gtk_widget_set_valign (button, GTK_ALIGN_CENTER);
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL, title,
                                  -1);
  g_signal_connect (button, "color-set", G_CALLBACK (colour_set_cb), self);
  adw_action_row_add_suffix (ADW_ACTION_ROW (self->colours[index]), button);
  adw_action_row_set_activatable_widget (ADW_ACTION_ROW (self->colours[index]), button);
  adw_preferences_group_add (group, self->colours[index]);
}

static void
cav_frame_looks_class_init (CavFrameLooksClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  CavDocumentPanelClass *panel_class = CAV_DOCUMENT_PANEL_CLASS (klass);

  panel_class->parts = CAV_PART_FRAME;
  panel_class->show_project = cav_frame_looks_show_project;
  gtk_widget_class_install_action (widget_class, "looks.choose-picture", NULL, choose_picture);
  gtk_widget_class_install_action (widget_class, "looks.remove-picture", NULL, remove_picture);
}

static void
cav_frame_looks_init (CavFrameLooks *self)
{
  GtkWidget *group = adw_preferences_group_new ();

  adw_preferences_group_set_title (ADW_PREFERENCES_GROUP (group), _ ("Picture and colours"));
  gtk_box_append (GTK_BOX (self), group);
  add_picture (self, ADW_PREFERENCES_GROUP (group));
  for (guint i = 0; i < G_N_ELEMENTS (COLOURS); i++)
    add_colour (self, ADW_PREFERENCES_GROUP (group), i);
}
