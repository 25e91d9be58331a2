/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-cut-palette.h"

#include "app/cav-cut-words.h"

#include <glib/gi18n.h>

#define COLUMNS 2

struct _CavCutPalette
{
  GtkWidget parent_instance;

  /* Owned */
  CavDocument *document; /* nullable */
  GSignalGroup *selection_signals;

  /* Template widgets */
  GtkWidget *content;
  GtkGrid *grid;

  /* Borrowed from the grid; the last is the pointer */
  GtkToggleButton *buttons[CAV_N_CUT_KINDS + 1];
};

G_DEFINE_FINAL_TYPE (CavCutPalette, cav_cut_palette, GTK_TYPE_WIDGET)

enum
{
  PROP_DOCUMENT = 1,
  N_PROPERTIES,
};

static GParamSpec *properties[N_PROPERTIES];

static const guint KEYS[CAV_N_CUT_KINDS] = {
  [CAV_CUT_RABBET] = GDK_KEY_r, [CAV_CUT_STEPS] = GDK_KEY_s, [CAV_CUT_GROOVE] = GDK_KEY_g,
  [CAV_CUT_COVE] = GDK_KEY_c,   [CAV_CUT_ROUND] = GDK_KEY_o, [CAV_CUT_CHAMFER] = GDK_KEY_h,
  [CAV_CUT_BEVEL] = GDK_KEY_v,  [CAV_CUT_BEAD] = GDK_KEY_b,  [CAV_CUT_OGEE] = GDK_KEY_e,
  [CAV_CUT_DRAWN] = GDK_KEY_d,
};

static void
update_buttons (CavCutPalette *self)
{
  int kind = CAV_NO_KIND;

  if (self->document != NULL)
    kind = cav_selection_get_kind (cav_document_get_selection (self->document));
  for (int i = 0; i < CAV_N_CUT_KINDS; i++)
    gtk_toggle_button_set_active (self->buttons[i], i == kind);
  gtk_toggle_button_set_active (self->buttons[CAV_N_CUT_KINDS], kind == CAV_NO_KIND);
}

/* A second press lets go of the cut. */
static void
clicked_cb (GtkButton *button, gpointer user_data)
{
  CavCutPalette *self = CAV_CUT_PALETTE (user_data);
  CavSelection *selection = cav_document_get_selection (self->document);
  int kind = GPOINTER_TO_INT (g_object_get_data (G_OBJECT (button), "kind"));

  cav_selection_set_kind (selection,
                          cav_selection_get_kind (selection) == kind ? CAV_NO_KIND : kind);
  update_buttons (self);
}

static GtkToggleButton *
create_button (CavCutPalette *self, int kind, const char *name, const char *icon, const char *key)
{
  GtkWidget *button = gtk_toggle_button_new ();
  g_autofree char *tip = g_strdup_printf ("%s (%s)", name, key);

  gtk_button_set_icon_name (GTK_BUTTON (button), icon);
  gtk_widget_add_css_class (button, "flat");
  gtk_widget_set_tooltip_text (button, tip);
  gtk_widget_set_focus_on_click (button, FALSE);
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL, name,
                                  GTK_ACCESSIBLE_PROPERTY_KEY_SHORTCUTS, key, -1);
  g_object_set_data (G_OBJECT (button), "kind", GINT_TO_POINTER (kind));
  g_signal_connect_object (button, "clicked", G_CALLBACK (clicked_cb), self, 0);
  return GTK_TOGGLE_BUTTON (button);
}

static void
add_buttons (CavCutPalette *self)
{
  GtkToggleButton *pointer = create_button (self, CAV_NO_KIND, _ ("Choose and move"),
                                            "cavetto-choose-symbolic", _ ("Escape"));

  self->buttons[CAV_N_CUT_KINDS] = pointer;
  gtk_grid_attach (self->grid, GTK_WIDGET (pointer), 0, 0, COLUMNS, 1);
  for (int i = 0; i < CAV_N_CUT_KINDS; i++)
    {
      const CavCutInfo *info = cav_cut_kind_get_info ((CavCutKind)i);
      g_autofree char *icon = g_strdup_printf ("cavetto-cut-%s-symbolic", info->name);
      char key[] = { (char)g_ascii_toupper ((char)KEYS[i]), '\0' };

      self->buttons[i] = create_button (self, i, cav_cut_words_get_kind ((CavCutKind)i), icon, key);
      gtk_grid_attach (self->grid, GTK_WIDGET (self->buttons[i]), i % COLUMNS, 1 + i / COLUMNS, 1,
                       1);
    }
}

static void
set_document (CavCutPalette *self, CavDocument *document)
{
  if (!g_set_object (&self->document, document))
    return;
  g_signal_group_set_target (self->selection_signals,
                             document != NULL ? cav_document_get_selection (document) : NULL);
  update_buttons (self);
}

static void
cav_cut_palette_get_property (GObject *object, guint id, GValue *value, GParamSpec *spec)
{
  CavCutPalette *self = CAV_CUT_PALETTE (object);

  if (id == PROP_DOCUMENT)
    g_value_set_object (value, self->document);
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, spec);
}

static void
cav_cut_palette_set_property (GObject *object, guint id, const GValue *value, GParamSpec *spec)
{
  CavCutPalette *self = CAV_CUT_PALETTE (object);

  if (id == PROP_DOCUMENT)
    set_document (self, g_value_get_object (value));
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, spec);
}

static void
cav_cut_palette_dispose (GObject *object)
{
  CavCutPalette *self = CAV_CUT_PALETTE (object);

  g_clear_object (&self->selection_signals);
  g_clear_pointer (&self->content, gtk_widget_unparent);
  g_clear_object (&self->document);
  G_OBJECT_CLASS (cav_cut_palette_parent_class)->dispose (object);
}

static void
cav_cut_palette_class_init (CavCutPaletteClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->get_property = cav_cut_palette_get_property;
  object_class->set_property = cav_cut_palette_set_property;
  object_class->dispose = cav_cut_palette_dispose;
  properties[PROP_DOCUMENT] = g_param_spec_object ("document", NULL, NULL, CAV_TYPE_DOCUMENT,
                                                   G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPERTIES, properties);

  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_TOOLBAR);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/org/cavetto/Cavetto/cav-cut-palette.ui");
  gtk_widget_class_bind_template_child (widget_class, CavCutPalette, content);
  gtk_widget_class_bind_template_child (widget_class, CavCutPalette, grid);
}

static void
cav_cut_palette_init (CavCutPalette *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  add_buttons (self);
  self->selection_signals = g_signal_group_new (CAV_TYPE_SELECTION);
  g_signal_group_connect_swapped (self->selection_signals, "notify::kind",
                                  G_CALLBACK (update_buttons), self);
}

guint
cav_cut_palette_get_key (CavCutKind kind)
{
  g_return_val_if_fail ((guint)kind < CAV_N_CUT_KINDS, 0);
  return KEYS[kind];
}
