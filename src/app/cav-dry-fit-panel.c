/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-dry-fit-panel.h"

#include <glib/gi18n.h>
#include <math.h>

#include "app/cav-frame-edit.h"
#include "app/cav-length-entry.h"

/* A line either says whether a kind of measure was taken, or takes one. */
typedef struct
{
  const char *title;
  gsize answer;       /* offset of the gboolean; of a number, of the one that it hangs on */
  const char *number; /* (nullable) in the settings */
  gboolean is_detail; /* a gboolean that hangs on has_corner */
} Line;

#define IN(field) G_STRUCT_OFFSET (CavFrameSettings, dry_fit.field)

static const Line LINES[] = {
  { N_ ("Gaps around the glass"), IN (has_gaps), NULL, FALSE },
  { N_ ("Gap left"), IN (has_gaps), "gap-left", FALSE },
  { N_ ("Gap right"), IN (has_gaps), "gap-right", FALSE },
  { N_ ("Gap at the top"), IN (has_gaps), "gap-top", FALSE },
  { N_ ("Gap at the bottom"), IN (has_gaps), "gap-bottom", FALSE },
  { N_ ("Diagonals of the outside"), IN (has_diagonals), NULL, FALSE },
  { N_ ("From top left"), IN (has_diagonals), "diagonal-falling", FALSE },
  { N_ ("From bottom left"), IN (has_diagonals), "diagonal-rising", FALSE },
  { N_ ("Open corner"), IN (has_corner), NULL, FALSE },
  { N_ ("All others are closed"), IN (last_corner), NULL, TRUE },
  { N_ ("Open at the sight edge"), IN (has_corner), "open-heel", FALSE },
  { N_ ("Open at the outside"), IN (has_corner), "open-toe", FALSE },
};

struct _CavDryFitPanel
{
  GtkBox parent_instance;

  /* Owned */
  CavDocument *document;
  GSignalGroup *project_signals;

  /* Children */
  GtkWidget *expander;
  GtkWidget *rows[G_N_ELEMENTS (LINES)];
  GtkWidget *switches[G_N_ELEMENTS (LINES)]; /* NULL where the row takes a number */
  GtkLabel *corrections;

  /* State */
  gboolean is_refreshing;
};

G_DEFINE_FINAL_TYPE (CavDryFitPanel, cav_dry_fit_panel, GTK_TYPE_BOX)

enum
{
  PROP_DOCUMENT = 1,
  N_PROPERTIES,
};

static GParamSpec *properties[N_PROPERTIES];

/* (nullable) */
static CavProject *
get_project (CavDryFitPanel *self)
{
  return self->document != NULL ? cav_document_get_project (self->document) : NULL;
}

static gboolean *
find_answer (CavFrameSettings *settings, const Line *line)
{
  return (gboolean *)(gpointer)((char *)settings + line->answer);
}

static const CavFrameNumberInfo *
find_number (const char *name)
{
  guint n_numbers = 0;
  const CavFrameNumberInfo *numbers = cav_frame_settings_get_numbers (&n_numbers);

  for (guint i = 0; i < n_numbers; i++)
    if (g_str_equal (numbers[i].name, name))
      return &numbers[i];
  g_assert_not_reached ();
}

/* Showing */

static gboolean
is_shown (CavFrameSettings *settings, const Line *line)
{
  if (line->is_detail)
    return settings->dry_fit.has_corner;
  if (line->number != NULL)
    return *find_answer (settings, line);
  return settings->sides == 4 || line->answer != IN (has_diagonals);
}

static void
show_corrections (CavDryFitPanel *self, const CavFrame *frame)
{
  const CavDryFit *fit = &frame->settings.dry_fit;
  gboolean measured = fit->has_gaps || fit->has_diagonals || fit->has_corner;
  GString *text = g_string_new (NULL);
  g_autofree char *summary = NULL;

  for (guint i = 0; i < frame->corrections->len; i++)
    g_string_append_printf (text, "%s%s", i > 0 ? "\n\n" : "",
                            g_array_index (frame->corrections, CavCorrection, i).sentence);
  if (!measured)
    summary = g_strdup (_ ("Nothing measured yet"));
  else if (frame->corrections->len == 0)
    summary = g_strdup (_ ("Nothing to correct"));
  else
    summary = g_strdup_printf (
        ngettext ("%u thing to correct", "%u things to correct", frame->corrections->len),
        frame->corrections->len);
  if (text->len == 0)
    g_string_append (text, measured ? _ ("What was measured fits.")
                                    : _ ("Put the frame together without glue, measure, and say "
                                         "here what you found."));
  gtk_label_set_text (self->corrections, text->str);
  adw_expander_row_set_subtitle (ADW_EXPANDER_ROW (self->expander), summary);
  g_string_free (text, TRUE);
}

static void
refresh (CavDryFitPanel *self)
{
  CavProject *project = get_project (self);
  g_autoptr (CavFrameSettings) settings = NULL;

  if (project == NULL)
    return;
  settings = cav_frame_settings_copy (cav_project_get_frame_settings (project));
  self->is_refreshing = TRUE;
  for (guint i = 0; i < G_N_ELEMENTS (LINES); i++)
    {
      gtk_widget_set_visible (self->rows[i], is_shown (settings, &LINES[i]));
      if (self->switches[i] != NULL)
        gtk_switch_set_active (GTK_SWITCH (self->switches[i]), *find_answer (settings, &LINES[i]));
      else
        cav_figure_row_set_value (
            CAV_FIGURE_ROW (self->rows[i]),
            cav_frame_settings_get_number (settings, find_number (LINES[i].number)));
    }
  self->is_refreshing = FALSE;
  show_corrections (self, cav_project_get_frame (project));
}

static void
project_changed_cb (CavDryFitPanel *self, guint parts)
{
  if ((parts & (CAV_PART_SECTION | CAV_PART_FRAME)) != 0)
    refresh (self);
}

/* Editing */

/* Diagonals that nobody has measured yet start from what they should be. */
static void
propose_diagonals (CavFrameSettings *settings, const CavFrame *frame)
{
  CavDryFit *fit = &settings->dry_fit;
  double meant = hypot (frame->sizes.outside.width, frame->sizes.outside.height);

  if (!fit->has_diagonals || fit->diagonal_falling > 0.0 || fit->diagonal_rising > 0.0
      || !frame->possible)
    return;
  fit->diagonal_falling = round (meant * 10.0) / 10.0;
  fit->diagonal_rising = fit->diagonal_falling;
}

static void
apply_line (CavDryFitPanel *self, guint index)
{
  CavProject *project = get_project (self);
  const Line *line = &LINES[index];
  g_autoptr (CavFrameSettings) settings = NULL;

  if (self->is_refreshing || project == NULL)
    return;
  settings = cav_frame_settings_copy (cav_project_get_frame_settings (project));
  if (line->number != NULL)
    cav_frame_settings_set_number (settings, find_number (line->number),
                                   cav_figure_row_get_value (CAV_FIGURE_ROW (self->rows[index])));
  else
    *find_answer (settings, line) = gtk_switch_get_active (GTK_SWITCH (self->switches[index]));
  propose_diagonals (settings, cav_project_get_frame (project));
  cav_frame_edit_apply (project, settings, C_ ("step", "measure dry fit"));
}

static void
applied_cb (GtkWidget *row, double value, CavDryFitPanel *self)
{
  for (guint i = 0; i < G_N_ELEMENTS (LINES); i++)
    if (self->rows[i] == row)
      apply_line (self, i);
}

static void
switched_cb (GtkWidget *widget, GParamSpec *spec, CavDryFitPanel *self)
{
  for (guint i = 0; i < G_N_ELEMENTS (LINES); i++)
    if (self->switches[i] == widget)
      apply_line (self, i);
}

/* Building */

static GtkWidget *
create_number (CavDryFitPanel *self, const Line *line)
{
  const CavFrameNumberInfo *number = find_number (line->number);
  GtkWidget *row = GTK_WIDGET (cav_length_entry_new (_ (line->title)));

  cav_figure_row_set_range (CAV_FIGURE_ROW (row), number->minimum, number->maximum);
  g_signal_connect (row, "applied", G_CALLBACK (applied_cb), self);
  return row;
}

static GtkWidget *
create_switch (CavDryFitPanel *self, const Line *line, GtkWidget **out_switch)
{
  GtkWidget *row = adw_action_row_new ();
  GtkWidget *button = gtk_switch_new ();

  adw_preferences_row_set_title (ADW_PREFERENCES_ROW (row), _ (line->title));
  gtk_widget_set_valign (button, GTK_ALIGN_CENTER);
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ (line->title), -1);
  adw_action_row_add_suffix (ADW_ACTION_ROW (row), button);
  adw_action_row_set_activatable_widget (ADW_ACTION_ROW (row), button);
  g_signal_connect (button, "notify::active", G_CALLBACK (switched_cb), self);
  *out_switch = button;
  return row;
}

static GtkWidget *
create_corrections (CavDryFitPanel *self)
{
  GtkWidget *row = adw_preferences_row_new ();
  GtkWidget *label = gtk_label_new (NULL);

  self->corrections = GTK_LABEL (label);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_max_width_chars (GTK_LABEL (label), 30);
  gtk_widget_add_css_class (label, "notes-row");
  adw_preferences_row_set_title (ADW_PREFERENCES_ROW (row), _ ("What to correct"));
  gtk_list_box_row_set_activatable (GTK_LIST_BOX_ROW (row), FALSE);
  gtk_list_box_row_set_child (GTK_LIST_BOX_ROW (row), label);
  return row;
}

static void
add_lines (CavDryFitPanel *self)
{
  AdwExpanderRow *expander = ADW_EXPANDER_ROW (self->expander);

  self->is_refreshing = TRUE;
  for (guint i = 0; i < G_N_ELEMENTS (LINES); i++)
    {
      self->rows[i] = LINES[i].number != NULL ? create_number (self, &LINES[i])
                                              : create_switch (self, &LINES[i], &self->switches[i]);
      adw_expander_row_add_row (expander, self->rows[i]);
    }
  adw_expander_row_add_row (expander, create_corrections (self));
  self->is_refreshing = FALSE;
}

static void
cav_dry_fit_panel_get_property (GObject *object, guint id, GValue *value, GParamSpec *spec)
{
  CavDryFitPanel *self = CAV_DRY_FIT_PANEL (object);

  if (id == PROP_DOCUMENT)
    g_value_set_object (value, self->document);
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, spec);
}

static void
cav_dry_fit_panel_set_property (GObject *object, guint id, const GValue *value, GParamSpec *spec)
{
  CavDryFitPanel *self = CAV_DRY_FIT_PANEL (object);

  if (id != PROP_DOCUMENT)
    {
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, spec);
      return;
    }
  if (!g_set_object (&self->document, g_value_get_object (value)))
    return;
  g_signal_group_set_target (self->project_signals, get_project (self));
  refresh (self);
}

static void
cav_dry_fit_panel_dispose (GObject *object)
{
  CavDryFitPanel *self = CAV_DRY_FIT_PANEL (object);

  g_clear_object (&self->project_signals);
  g_clear_object (&self->document);
  G_OBJECT_CLASS (cav_dry_fit_panel_parent_class)->dispose (object);
}

static void
cav_dry_fit_panel_class_init (CavDryFitPanelClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);

  object_class->get_property = cav_dry_fit_panel_get_property;
  object_class->set_property = cav_dry_fit_panel_set_property;
  object_class->dispose = cav_dry_fit_panel_dispose;

  properties[PROP_DOCUMENT] = g_param_spec_object ("document", NULL, NULL, CAV_TYPE_DOCUMENT,
                                                   G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPERTIES, properties);
}

static void
cav_dry_fit_panel_init (CavDryFitPanel *self)
{
  GtkWidget *group = adw_preferences_group_new ();

  gtk_orientable_set_orientation (GTK_ORIENTABLE (self), GTK_ORIENTATION_VERTICAL);
  self->expander = adw_expander_row_new ();
  adw_preferences_row_set_title (ADW_PREFERENCES_ROW (self->expander), _ ("Dry fit"));
  adw_preferences_group_add (ADW_PREFERENCES_GROUP (group), self->expander);
  gtk_box_append (GTK_BOX (self), group);
  add_lines (self);
  self->project_signals = g_signal_group_new (CAV_TYPE_PROJECT);
  g_signal_group_connect_object (self->project_signals, "changed", G_CALLBACK (project_changed_cb),
                                 self, G_CONNECT_SWAPPED);
}
