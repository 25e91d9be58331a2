/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-cut-panel.h"

#include <glib/gi18n.h>
#include <math.h>

#include "app/cav-cut-edit.h"
#include "app/cav-cut-place.h"
#include "app/cav-cut-words.h"
#include "app/cav-length-entry.h"
#include "app/cav-number-entry.h"
#include "geometry/cav-tolerance.h"

struct _CavCutPanel
{
  GtkWidget parent_instance;

  /* Owned */
  CavDocument *document;
  GSignalGroup *project_signals;
  GSignalGroup *selection_signals;
  GPtrArray *cuts; /* CavCut, the chosen ones as they are shown */
  GArray *indices; /* guint, theirs in the project */
  char *structure; /* what decides which rows there are */
  GArray *places;  /* CavCutPlace, in the order of the choice */

  /* Template widgets */
  GtkWidget *content;
  GtkLabel *heading;
  GtkLabel *kinds;
  GtkWidget *place_group;
  AdwComboRow *place;
  AdwComboRow *form;
  AdwPreferencesGroup *number_group;
  AdwPreferencesGroup *shift_group;
  GtkLabel *note;
  GtkWidget *align_group;

  /* Borrowed from the groups; NULL where there is none */
  CavFigureRow *rows[CAV_N_CUT_NUMBERS];

  /* State */
  int choices_of; /* the kind whose places and forms can be chosen, or -1 */
  gboolean is_refreshing;
};

G_DEFINE_FINAL_TYPE (CavCutPanel, cav_cut_panel, GTK_TYPE_WIDGET)

enum
{
  PROP_DOCUMENT = 1,
  N_PROPERTIES,
};

static GParamSpec *properties[N_PROPERTIES];

static const CavCut *
get_cut (CavCutPanel *self, guint nth)
{
  return g_ptr_array_index (self->cuts, nth);
}

static const CavCutInfo *
get_info (CavCutPanel *self, guint nth)
{
  return cav_cut_kind_get_info (get_cut (self, nth)->kind);
}

/* Reading the rows back into the cuts */

static void
number_applied_cb (CavCutPanel *self, double value, CavFigureRow *row)
{
  int number = 0;

  if (self->document == NULL)
    return;
  while (number < CAV_N_CUT_NUMBERS && self->rows[number] != row)
    number++;
  g_return_if_fail (number < CAV_N_CUT_NUMBERS);
  cav_cut_edit_set_number (self->document, self->indices, self->cuts, (CavCutNumber)number, value);
}

static void
place_selected_cb (CavCutPanel *self)
{
  guint selected = adw_combo_row_get_selected (self->place);

  if (self->is_refreshing || self->document == NULL || selected >= self->places->len
      || self->cuts->len != 1)
    return;
  cav_cut_edit_set_place (self->document, &g_array_index (self->places, CavCutPlace, selected));
}

static void
form_selected_cb (CavCutPanel *self)
{
  guint selected = adw_combo_row_get_selected (self->form);

  if (self->is_refreshing || self->document == NULL || self->cuts->len != 1
      || selected >= get_info (self, 0)->n_forms)
    return;
  cav_cut_edit_set_form (self->document, get_info (self, 0)->forms[selected]);
}

/* Making rows */

static void
make_places (CavCutPanel *self)
{
  g_autoptr (GtkStringList) names = gtk_string_list_new (NULL);

  g_array_unref (self->places);
  self->places = cav_cut_place_list (get_cut (self, 0)->kind);
  for (guint i = 0; i < self->places->len; i++)
    gtk_string_list_append (names,
                            cav_cut_place_get_name (&g_array_index (self->places, CavCutPlace, i)));
  adw_combo_row_set_model (self->place, G_LIST_MODEL (names));
}

static void
make_forms (CavCutPanel *self)
{
  const CavCutInfo *info = get_info (self, 0);
  g_autoptr (GtkStringList) names = gtk_string_list_new (NULL);

  for (guint i = 0; i < info->n_forms; i++)
    gtk_string_list_append (names, cav_cut_words_get_form (info->forms[i]));
  adw_combo_row_set_model (self->form, G_LIST_MODEL (names));
}

/* Choices stay while the kind does: they must not be exchanged while somebody chooses. */
static void
make_choices (CavCutPanel *self)
{
  int kind = (int)get_cut (self, 0)->kind;

  if (self->choices_of == kind)
    return;
  self->choices_of = kind;
  make_places (self);
  make_forms (self);
}

static CavFigureRow *
create_row (const CavCut *cut, const CavCutNumberInfo *info)
{
  const char *title = cav_cut_words_get_number (cut, info);

  if (info->is_length)
    return CAV_FIGURE_ROW (cav_length_entry_new (title));
  if (info->number == CAV_CUT_COUNT)
    return CAV_FIGURE_ROW (cav_number_entry_new (title, 0, "", 1));
  return CAV_FIGURE_ROW (cav_number_entry_new (title, 2, "", 0.1));
}

static gboolean
is_shift (CavCutNumber number)
{
  return number == CAV_CUT_SHIFT_X || number == CAV_CUT_SHIFT_Y;
}

/* Numbers that every one of the cuts has. */
static void
make_number_rows (CavCutPanel *self)
{
  const CavCutInfo *info = get_info (self, 0);

  for (guint i = 0; i < info->n_numbers; i++)
    {
      CavCutNumber number = info->numbers[i].number;
      gboolean is_common = TRUE;
      CavFigureRow *row;

      for (guint j = 0; j < self->cuts->len && is_common; j++)
        is_common = cav_cut_words_find_number (get_cut (self, j), number) != NULL;
      if (!is_common)
        continue;
      row = create_row (get_cut (self, 0), &info->numbers[i]);
      g_signal_connect_object (row, "applied", G_CALLBACK (number_applied_cb), self,
                               G_CONNECT_SWAPPED);
      adw_preferences_group_add (is_shift (number) ? self->shift_group : self->number_group,
                                 GTK_WIDGET (row));
      self->rows[number] = row;
    }
}

static void
remove_rows (CavCutPanel *self)
{
  for (int i = 0; i < CAV_N_CUT_NUMBERS; i++)
    {
      CavFigureRow *row = self->rows[i];

      if (row == NULL)
        continue;
      /* What was being typed in it was for other cuts. */
      self->rows[i] = NULL;
      g_signal_handlers_disconnect_by_data (row, self);
      adw_preferences_group_remove (
          is_shift ((CavCutNumber)i) ? self->shift_group : self->number_group, GTK_WIDGET (row));
    }
}

/* "3 cuts: cove, 2 rounds" would need plurals of every kind, so kinds stand alone. */
static char *
describe_kinds (CavCutPanel *self)
{
  GString *text = g_string_new (NULL);
  gboolean seen[CAV_N_CUT_KINDS] = { FALSE };

  for (guint i = 0; i < self->cuts->len; i++)
    {
      CavCutKind kind = get_cut (self, i)->kind;

      if (seen[kind])
        continue;
      seen[kind] = TRUE;
      g_string_append_printf (text, "%s%s", text->len > 0 ? ", " : "",
                              cav_cut_words_get_kind (kind));
    }
  return g_string_free (text, FALSE);
}

static void
make_heading (CavCutPanel *self)
{
  g_autofree char *title = NULL;
  g_autofree char *kinds = NULL;
  gboolean single = self->cuts->len == 1;

  if (single)
    title = g_strdup (cav_cut_words_get_kind (get_cut (self, 0)->kind));
  else
    title = g_strdup_printf (g_dngettext (NULL, "%u cut", "%u cuts", self->cuts->len),
                             self->cuts->len);
  if (!single)
    kinds = describe_kinds (self);
  gtk_label_set_text (self->heading, title);
  gtk_label_set_text (self->kinds, kinds != NULL ? kinds : "");
  gtk_widget_set_visible (GTK_WIDGET (self->kinds), kinds != NULL);
}

/* Whether there is a row that is not a shift. */
static gboolean
has_numbers (CavCutPanel *self)
{
  for (int i = 0; i < CAV_N_CUT_NUMBERS; i++)
    if (self->rows[i] != NULL && !is_shift ((CavCutNumber)i))
      return TRUE;
  return FALSE;
}

static void
make_rows (CavCutPanel *self)
{
  gboolean single = self->cuts->len == 1;
  gboolean drawn = single && get_cut (self, 0)->kind == CAV_CUT_DRAWN;
  gboolean has_places;
  gboolean has_forms;

  make_heading (self);
  make_choices (self);
  make_number_rows (self);
  has_places = single && self->places->len > 1;
  has_forms = single && get_info (self, 0)->n_forms > 1;
  gtk_widget_set_visible (GTK_WIDGET (self->place), has_places);
  gtk_widget_set_visible (GTK_WIDGET (self->form), has_forms);
  gtk_widget_set_visible (self->place_group, has_places || has_forms);
  gtk_widget_set_visible (GTK_WIDGET (self->number_group), has_numbers (self));
  gtk_widget_set_visible (GTK_WIDGET (self->shift_group), self->rows[CAV_CUT_SHIFT_X] != NULL);
  gtk_widget_set_visible (self->align_group, !single);
  gtk_widget_set_visible (GTK_WIDGET (self->note), drawn);
}

/* Showing */

/* What decides which rows there are: cuts, their kinds and how they are anchored. */
static char *
describe_structure (CavCutPanel *self)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < self->cuts->len; i++)
    {
      const CavCut *cut = get_cut (self, i);

      g_string_append_printf (text, "%u %d %d %d;", g_array_index (self->indices, guint, i),
                              (int)cut->kind, (int)cut->anchor, (int)cut->side);
    }
  return g_string_free (text, FALSE);
}

static void
refresh_number (CavCutPanel *self, CavCutNumber number)
{
  CavFigureRow *row = self->rows[number];
  double value = get_cut (self, 0)->numbers[number];
  double minimum = -CAV_BLANK_MAX;
  double maximum = G_MAXDOUBLE;
  gboolean is_mixed = FALSE;

  for (guint i = 0; i < self->cuts->len; i++)
    {
      const CavCutNumberInfo *info = cav_cut_words_find_number (get_cut (self, i), number);

      minimum = fmax (minimum, info->minimum);
      maximum = fmin (maximum, info->maximum);
      if (fabs (get_cut (self, i)->numbers[number] - value) > CAV_TOLERANCE_POINT)
        is_mixed = TRUE;
    }
  cav_figure_row_set_range (row, minimum, maximum);
  if (is_mixed)
    cav_figure_row_set_mixed (row);
  else
    cav_figure_row_set_value (row, value);
}

static void
refresh_place (CavCutPanel *self)
{
  const CavCut *cut = get_cut (self, 0);

  for (guint i = 0; i < self->places->len; i++)
    if (cav_cut_place_is_of (&g_array_index (self->places, CavCutPlace, i), cut))
      adw_combo_row_set_selected (self->place, i);
  for (guint i = 0; i < get_info (self, 0)->n_forms; i++)
    if (get_info (self, 0)->forms[i] == cut->form)
      adw_combo_row_set_selected (self->form, i);
}

static void
refresh_note (CavCutPanel *self)
{
  const CavCut *cut = get_cut (self, 0);
  guint count = cut->path != NULL ? cav_path_get_segment_count (cut->path) : 0;
  g_autofree char *text = NULL;

  if (cut->kind != CAV_CUT_DRAWN)
    return;
  text = g_strdup_printf (g_dngettext (NULL, "Drawn with %u piece. Move its points in the section.",
                                       "Drawn with %u pieces. Move its points in the section.",
                                       count),
                          count);
  gtk_label_set_text (self->note, text);
}

/* What the project and the selection say now. */
static void
take_cuts (CavCutPanel *self)
{
  g_ptr_array_unref (self->cuts);
  g_array_unref (self->indices);
  self->cuts = cav_cut_edit_copy_chosen (self->document);
  self->indices = cav_cut_edit_get_chosen (self->document);
}

static void
refresh (CavCutPanel *self)
{
  g_autofree char *structure = NULL;

  if (self->document == NULL)
    return;
  take_cuts (self);
  structure = describe_structure (self);
  self->is_refreshing = TRUE;
  if (g_strcmp0 (structure, self->structure) != 0)
    {
      g_free (self->structure);
      self->structure = g_steal_pointer (&structure);
      remove_rows (self);
      if (self->cuts->len > 0)
        make_rows (self);
    }
  if (self->cuts->len > 0)
    {
      refresh_place (self);
      refresh_note (self);
      for (int i = 0; i < CAV_N_CUT_NUMBERS; i++)
        if (self->rows[i] != NULL)
          refresh_number (self, (CavCutNumber)i);
    }
  self->is_refreshing = FALSE;
}

/* What is being typed was meant for the cuts that are still shown. */
static void
cuts_changed_cb (CavCutPanel *self)
{
  for (int i = 0; i < CAV_N_CUT_NUMBERS; i++)
    if (self->rows[i] != NULL)
      cav_figure_row_apply (self->rows[i]);
  refresh (self);
}

static void
project_changed_cb (CavCutPanel *self, guint parts)
{
  if ((parts & CAV_PART_SECTION) != 0)
    refresh (self);
}

/* Class */

static void
delete_cb (GtkWidget *widget, const char *action, GVariant *parameter)
{
  cav_cut_edit_delete (CAV_CUT_PANEL (widget)->document);
}

static void
mirror_cb (GtkWidget *widget, const char *action, GVariant *parameter)
{
  cav_cut_edit_mirror (CAV_CUT_PANEL (widget)->document, g_str_equal (action, "cuts.mirror-across")
                                                             ? CAV_MIRROR_ACROSS
                                                             : CAV_MIRROR_THROUGH);
}

static const struct
{
  const char *action;
  CavAlignment align;
} ALIGNMENTS[] = {
  { "cuts.align-inside", CAV_ALIGN_INSIDE },     { "cuts.align-outside", CAV_ALIGN_OUTSIDE },
  { "cuts.align-back", CAV_ALIGN_BACK },         { "cuts.align-face", CAV_ALIGN_FACE },
  { "cuts.align-middle-x", CAV_ALIGN_MIDDLE_X }, { "cuts.align-middle-y", CAV_ALIGN_MIDDLE_Y },
};

static void
align_cb (GtkWidget *widget, const char *action, GVariant *parameter)
{
  for (guint i = 0; i < G_N_ELEMENTS (ALIGNMENTS); i++)
    if (g_str_equal (ALIGNMENTS[i].action, action))
      cav_cut_edit_align (CAV_CUT_PANEL (widget)->document, ALIGNMENTS[i].align);
}

static void
set_document (CavCutPanel *self, CavDocument *document)
{
  if (!g_set_object (&self->document, document))
    return;
  g_signal_group_set_target (self->project_signals,
                             document != NULL ? cav_document_get_project (document) : NULL);
  g_signal_group_set_target (self->selection_signals,
                             document != NULL ? cav_document_get_selection (document) : NULL);
  refresh (self);
}

static void
cav_cut_panel_get_property (GObject *object, guint id, GValue *value, GParamSpec *spec)
{
  CavCutPanel *self = CAV_CUT_PANEL (object);

  if (id == PROP_DOCUMENT)
    g_value_set_object (value, self->document);
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, spec);
}

static void
cav_cut_panel_set_property (GObject *object, guint id, const GValue *value, GParamSpec *spec)
{
  if (id == PROP_DOCUMENT)
    set_document (CAV_CUT_PANEL (object), g_value_get_object (value));
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, spec);
}

static void
cav_cut_panel_dispose (GObject *object)
{
  CavCutPanel *self = CAV_CUT_PANEL (object);

  g_clear_object (&self->project_signals);
  g_clear_object (&self->selection_signals);
  g_clear_object (&self->document);
  g_clear_pointer (&self->content, gtk_widget_unparent);
  G_OBJECT_CLASS (cav_cut_panel_parent_class)->dispose (object);
}

static void
cav_cut_panel_finalize (GObject *object)
{
  CavCutPanel *self = CAV_CUT_PANEL (object);

  g_ptr_array_unref (self->cuts);
  g_array_unref (self->indices);
  g_array_unref (self->places);
  g_free (self->structure);
  G_OBJECT_CLASS (cav_cut_panel_parent_class)->finalize (object);
}

static void
bind_children (GtkWidgetClass *widget_class)
{
  gtk_widget_class_bind_template_child (widget_class, CavCutPanel, content);
  gtk_widget_class_bind_template_child (widget_class, CavCutPanel, heading);
  gtk_widget_class_bind_template_child (widget_class, CavCutPanel, kinds);
  gtk_widget_class_bind_template_child (widget_class, CavCutPanel, place_group);
  gtk_widget_class_bind_template_child (widget_class, CavCutPanel, place);
  gtk_widget_class_bind_template_child (widget_class, CavCutPanel, form);
  gtk_widget_class_bind_template_child (widget_class, CavCutPanel, number_group);
  gtk_widget_class_bind_template_child (widget_class, CavCutPanel, shift_group);
  gtk_widget_class_bind_template_child (widget_class, CavCutPanel, note);
  gtk_widget_class_bind_template_child (widget_class, CavCutPanel, align_group);
  gtk_widget_class_bind_template_callback (widget_class, place_selected_cb);
  gtk_widget_class_bind_template_callback (widget_class, form_selected_cb);
}

static void
cav_cut_panel_class_init (CavCutPanelClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->get_property = cav_cut_panel_get_property;
  object_class->set_property = cav_cut_panel_set_property;
  object_class->dispose = cav_cut_panel_dispose;
  object_class->finalize = cav_cut_panel_finalize;

  properties[PROP_DOCUMENT] = g_param_spec_object ("document", NULL, NULL, CAV_TYPE_DOCUMENT,
                                                   G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPERTIES, properties);

  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/org/cavetto/Cavetto/cav-cut-panel.ui");
  bind_children (widget_class);
  gtk_widget_class_install_action (widget_class, "cuts.delete", NULL, delete_cb);
  gtk_widget_class_install_action (widget_class, "cuts.mirror-across", NULL, mirror_cb);
  gtk_widget_class_install_action (widget_class, "cuts.mirror-through", NULL, mirror_cb);
  for (guint i = 0; i < G_N_ELEMENTS (ALIGNMENTS); i++)
    gtk_widget_class_install_action (widget_class, ALIGNMENTS[i].action, NULL, align_cb);
}

static void
cav_cut_panel_init (CavCutPanel *self)
{
  self->cuts = g_ptr_array_new_with_free_func ((GDestroyNotify)cav_cut_free);
  self->choices_of = -1;
  self->indices = g_array_new (FALSE, FALSE, sizeof (guint));
  self->places = g_array_new (FALSE, FALSE, sizeof (CavCutPlace));
  gtk_widget_init_template (GTK_WIDGET (self));
  self->project_signals = g_signal_group_new (CAV_TYPE_PROJECT);
  g_signal_group_connect_object (self->project_signals, "changed", G_CALLBACK (project_changed_cb),
                                 self, G_CONNECT_SWAPPED);
  self->selection_signals = g_signal_group_new (CAV_TYPE_SELECTION);
  g_signal_group_connect_object (self->selection_signals, "cuts-changed",
                                 G_CALLBACK (cuts_changed_cb), self, G_CONNECT_SWAPPED);
}

GtkWidget *
cav_cut_panel_get_number_row (CavCutPanel *self, CavCutNumber number)
{
  g_return_val_if_fail (CAV_IS_CUT_PANEL (self), NULL);
  g_return_val_if_fail ((guint)number < CAV_N_CUT_NUMBERS, NULL);

  return GTK_WIDGET (self->rows[number]);
}
