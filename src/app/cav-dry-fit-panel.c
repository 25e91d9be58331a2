/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-dry-fit-panel.h"

#include <glib/gi18n.h>
#include <math.h>

#include "app/cav-frame-edit.h"
#include "app/cav-frame-rows.h"
#include "app/cav-length-entry.h"
#include "app/cav-settings.h"
#include "geometry/cav-tolerance.h"

/* A line either says whether a kind of measure was taken, or takes one. */
typedef struct
{
  const char *title;
  gsize answer;       /* offset of the gboolean; of a number, of the one that it hangs on */
  const char *number; /* (nullable) in the settings */
  gboolean is_detail; /* a gboolean that hangs on has_corner */
} Line;

#define IN(field) G_STRUCT_OFFSET (CavFrameSettings, dry_fit.field)

/* Stands for all of them. */
#define ALL_GAPS "gap-all"
static const char *const GAPS[] = { "gap-left", "gap-right", "gap-top", "gap-bottom" };

static const Line LINES[] = {
  { N_ ("Gaps around the glass"), IN (has_gaps), NULL, FALSE },
  { N_ ("The same all round"), IN (has_gaps), ALL_GAPS, FALSE },
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
  CavDocumentPanel parent_instance;

  /* Children */
  GtkWidget *expander;
  GtkWidget *rows[G_N_ELEMENTS (LINES)];
  GtkWidget *switches[G_N_ELEMENTS (LINES)]; /* NULL where the row takes a number */
  GtkLabel *corrections;

  /* State */
  gboolean is_refreshing;
};

G_DEFINE_FINAL_TYPE (CavDryFitPanel, cav_dry_fit_panel, CAV_TYPE_DOCUMENT_PANEL)

/* (nullable) */
static CavProject *
get_project (CavDryFitPanel *self)
{
  return cav_document_panel_get_project (CAV_DOCUMENT_PANEL (self));
}

static gboolean *
find_answer (CavFrameSettings *settings, const Line *line)
{
  return (gboolean *)(gpointer)((char *)settings + line->answer);
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

static gboolean
is_all_gaps (const Line *line)
{
  return g_strcmp0 (line->number, ALL_GAPS) == 0;
}

static double
get_gap (const CavFrameSettings *settings, guint index)
{
  return cav_frame_settings_get_number (settings, cav_frame_rows_find_number (GAPS[index]));
}

static void
show_number (GtkWidget *row, const CavFrameSettings *settings, const Line *line)
{
  CavFigureRow *figure = CAV_FIGURE_ROW (row);
  gboolean differ = FALSE;

  if (!is_all_gaps (line))
    {
      cav_figure_row_set_value (figure, cav_frame_settings_get_number (
                                            settings, cav_frame_rows_find_number (line->number)));
      return;
    }
  for (guint i = 1; i < G_N_ELEMENTS (GAPS); i++)
    differ |= fabs (get_gap (settings, i) - get_gap (settings, 0)) > CAV_TOLERANCE_POINT;
  if (differ)
    cav_figure_row_set_mixed (figure);
  else
    cav_figure_row_set_value (figure, get_gap (settings, 0));
}

static void
take_number (CavFrameSettings *settings, const Line *line, double value)
{
  if (!is_all_gaps (line))
    {
      cav_frame_settings_set_number (settings, cav_frame_rows_find_number (line->number), value);
      return;
    }
  for (guint i = 0; i < G_N_ELEMENTS (GAPS); i++)
    cav_frame_settings_set_number (settings, cav_frame_rows_find_number (GAPS[i]), value);
}

static void
show_corrections (CavDryFitPanel *self, const CavFrame *frame)
{
  const CavDryFit *fit = &frame->settings.dry_fit;
  gboolean measured = fit->has_gaps || fit->has_diagonals || fit->has_corner;
  GString *text = g_string_new (NULL);
  g_autofree char *summary = NULL;
  g_autofree char *restyled = NULL;

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
  restyled = cav_length_restyle (text->str, cav_settings_get_length_style ());
  gtk_label_set_text (self->corrections, restyled);
  adw_expander_row_set_subtitle (ADW_EXPANDER_ROW (self->expander), summary);
  g_string_free (text, TRUE);
}

static void
cav_dry_fit_panel_show_project (CavDocumentPanel *panel, CavProject *project)
{
  CavDryFitPanel *self = CAV_DRY_FIT_PANEL (panel);
  g_autoptr (CavFrameSettings) settings
      = cav_frame_settings_copy (cav_project_get_frame_settings (project));

  self->is_refreshing = TRUE;
  for (guint i = 0; i < G_N_ELEMENTS (LINES); i++)
    {
      gtk_widget_set_visible (self->rows[i], is_shown (settings, &LINES[i]));
      if (self->switches[i] != NULL)
        gtk_switch_set_active (GTK_SWITCH (self->switches[i]), *find_answer (settings, &LINES[i]));
      else
        show_number (self->rows[i], settings, &LINES[i]);
    }
  self->is_refreshing = FALSE;
  show_corrections (self, cav_project_get_frame (project));
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
    take_number (settings, line, cav_figure_row_get_value (CAV_FIGURE_ROW (self->rows[index])));
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
  const CavFrameNumberInfo *number
      = cav_frame_rows_find_number (is_all_gaps (line) ? GAPS[0] : line->number);
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
cav_dry_fit_panel_class_init (CavDryFitPanelClass *klass)
{
  CavDocumentPanelClass *panel_class = CAV_DOCUMENT_PANEL_CLASS (klass);

  panel_class->parts = CAV_PART_SECTION | CAV_PART_FRAME;
  panel_class->show_project = cav_dry_fit_panel_show_project;
}

static void
cav_dry_fit_panel_init (CavDryFitPanel *self)
{
  GtkWidget *group = adw_preferences_group_new ();

  self->expander = adw_expander_row_new ();
  adw_preferences_row_set_title (ADW_PREFERENCES_ROW (self->expander), _ ("Dry fit"));
  adw_preferences_group_add (ADW_PREFERENCES_GROUP (group), self->expander);
  gtk_box_append (GTK_BOX (self), group);
  add_lines (self);
}
