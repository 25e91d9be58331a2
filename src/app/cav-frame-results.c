/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-frame-results.h"

#include <glib/gi18n.h>
#include <math.h>

#include "app/cav-finding-row.h"
#include "app/cav-settings.h"
#include "drawing/cav-frame-figures.h"
#include "drawing/cav-hand-words.h"
#include "drawing/cav-mitre-view.h"
#include "geometry/cav-number-text.h"

typedef enum
{
  RESULT_OUTSIDE,
  RESULT_SIGHT,
  RESULT_RABBET,
  RESULT_GLASS,
  RESULT_RAILS,
  RESULT_MOLDING,
  RESULT_PACKAGE,
  RESULT_WEIGHT,
  RESULT_SAW,
  RESULT_SEASON,
  N_RESULTS,
} Result;

static const char *const TITLES[N_RESULTS] = { N_ ("Outside"),
                                               N_ ("Sight opening"),
                                               N_ ("Rabbet opening"),
                                               N_ ("Glass and sheets"),
                                               N_ ("Rails, long point"),
                                               N_ ("Molding in all"),
                                               N_ ("Package in the rabbet"),
                                               N_ ("Weight"),
                                               N_ ("Mitre gap by the saw"),
                                               N_ ("Mitre gap by the seasons") };

/* Sentences behind headings, from top to bottom. */
typedef enum
{
  NOTES_RAILS,
  NOTES_PACKAGE,
  NOTES_WEIGHT,
  NOTES_MITRES,
  NOTES_HAND_WORK,
  N_NOTES,
} Notes;

static const char *const HEADINGS[N_NOTES]
    = { N_ ("Rails and molding"), N_ ("Mats and package"), N_ ("Weight, hanging, finish"),
        N_ ("Mitres over the year"), N_ ("Scrape and sand") };

struct _CavFrameResults
{
  CavDocumentPanel parent_instance;

  /* Owned */
  GSignalGroup *runner_signals;

  /* Children */
  GtkLabel *values[N_RESULTS];
  AdwPreferencesGroup *findings;
  GPtrArray *rows; /* of the findings, in their order; the array is owned */
  GtkExpander *expanders[N_NOTES];
  GtkLabel *notes[N_NOTES];
};

G_DEFINE_FINAL_TYPE (CavFrameResults, cav_frame_results, CAV_TYPE_DOCUMENT_PANEL)

/* Lines do not break within a length. (transfer full) takes text. */
static char *
hold_together (char *text)
{
  g_auto (GStrv) parts = g_strsplit (text, " ", -1);

  g_free (text);
  return g_strjoinv ("\302\240", parts);
}

/* No finer than a hundredth. */
static char *
format (double mm)
{
  CavLengthStyle style = cav_settings_get_length_style ();

  return hold_together (
      cav_length_format (round (mm * 100.0) / 100.0, style.unit, style.denominator));
}

static char *
format_bare (double mm)
{
  CavLengthStyle style = cav_settings_get_length_style ();

  return hold_together (
      cav_length_format_bare (round (mm * 100.0) / 100.0, style.unit, style.denominator));
}

static char *
format_gap (double mm)
{
  return cav_gap_format (mm, cav_settings_get_length_style ().unit);
}

static char *
format_size (const CavFrame *frame, CavSize size)
{
  g_autofree char *width = format_bare (size.width);
  g_autofree char *height = format (size.height);

  if (frame->settings.sides != 4)
    /* Translators: the circle that touches all sides of a frame of equal sides */
    return g_strdup_printf (_ ("%s across"), height);
  return g_strdup_printf ("%s × %s", width, height);
}

static char *
format_rails (const CavFrame *frame)
{
  const CavFrameRails *rails = &frame->rails;
  g_autofree char *first = format (rails->groups[0].long_point);
  g_autofree char *second = rails->n_groups == 2 ? format (rails->groups[1].long_point) : NULL;

  if (second == NULL)
    return g_strdup_printf ("%d × %s", rails->groups[0].count, first);
  return g_strdup_printf ("2 × %s\n2 × %s", first, second);
}

static char *
format_package (const CavFrame *frame)
{
  g_autofree char *depth = format (frame->package.depth);
  g_autofree char *rabbet = format (frame->sizes.rabbet_depth);

  /* Translators: depths of the package and of the rabbet */
  return g_strdup_printf (_ ("%s of %s"), depth, rabbet);
}

static char *
format_mass (double kilograms)
{
  char text[G_ASCII_DTOSTR_BUF_SIZE];

  cav_number_format (text, sizeof text, "%.2f", kilograms);
  return g_strdup_printf (_ ("%s kg"), text);
}

static char *
format_saw (const CavFrame *frame)
{
  g_autofree char *each = format_gap (frame->mitres.joint_gap);
  g_autofree char *last = format_gap (frame->mitres.last_gap);

  /* Translators: gaps of a mitre */
  return g_strdup_printf (_ ("%s each,\n%s at the last"), each, last);
}

static char *
format_result (const CavFrame *frame, Result result)
{
  switch (result)
    {
    case RESULT_OUTSIDE:
      return format_size (frame, frame->sizes.outside);
    case RESULT_SIGHT:
      return format_size (frame, frame->sizes.sight);
    case RESULT_RABBET:
      return format_size (frame, frame->sizes.rabbet);
    case RESULT_GLASS:
      return format_size (frame, frame->sizes.glass);
    case RESULT_RAILS:
      return format_rails (frame);
    case RESULT_MOLDING:
      return format (frame->rails.molding_cut);
    case RESULT_PACKAGE:
      return format_package (frame);
    case RESULT_WEIGHT:
      return format_mass (frame->weights.total);
    case RESULT_SAW:
      return format_saw (frame);
    case RESULT_SEASON:
      return frame->mitres.has_seasons ? format_gap (frame->mitres.season_gap)
                                       : g_strdup (_ ("choose a wood"));
    case N_RESULTS:
      break;
    }
  return NULL;
}

/* A line says how grave it is in words and leads to where it is put right. */
static GtkWidget *
create_finding (const CavFinding *finding)
{
  GtkWidget *row = cav_finding_row_new (finding, TRUE);

  gtk_actionable_set_action_name (GTK_ACTIONABLE (row), "frame.show-finding");
  gtk_actionable_set_action_target (GTK_ACTIONABLE (row), "s", finding->code);
  return row;
}

static char *
join_lines (const GPtrArray *lines)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < lines->len; i++)
    g_string_append_printf (text, "%s%s", i > 0 ? "\n" : "",
                            (const char *)g_ptr_array_index (lines, i));
  return g_string_free (text, FALSE);
}

/* (transfer full) */
static GPtrArray *
list_hand_work (CavFrameResults *self, const CavSheetOptions *options)
{
  CavDocument *document = cav_document_panel_get_document (CAV_DOCUMENT_PANEL (self));

  return cav_hand_words_list (cav_document_get_project (document),
                              cav_plan_runner_get_plan (cav_document_get_runner (document)),
                              options);
}

/* (transfer full) (nullable) */
static GPtrArray *
list_notes (CavFrameResults *self, Notes notes, const CavFrame *frame)
{
  CavLengthStyle style = cav_settings_get_length_style ();
  CavSheetOptions options = { .unit = style.unit, .denominator = style.denominator };

  if (notes == NOTES_HAND_WORK)
    return list_hand_work (self, &options);
  if (!frame->possible)
    return NULL;
  switch (notes)
    {
    case NOTES_RAILS:
      return cav_frame_figures_list_rails (frame, &options);
    case NOTES_PACKAGE:
      return cav_frame_figures_list_package (frame, &options);
    case NOTES_WEIGHT:
      return cav_frame_figures_list_weight (frame, &options);
    case NOTES_MITRES:
      return g_ptr_array_ref (frame->advice);
    case NOTES_HAND_WORK:
    case N_NOTES:
      break;
    }
  return NULL;
}

/* Looked up only while somebody can read it: a plan follows every drag. */
static void
show_notes (CavFrameResults *self, Notes notes)
{
  CavProject *project = cav_document_panel_get_project (CAV_DOCUMENT_PANEL (self));
  g_autoptr (GPtrArray) lines = NULL;
  g_autofree char *joined = NULL;
  g_autofree char *text = NULL;

  if (project == NULL || !gtk_expander_get_expanded (self->expanders[notes]))
    return;
  lines = list_notes (self, notes, cav_project_get_frame (project));
  joined = lines != NULL ? join_lines (lines) : g_strdup ("–");
  text = cav_length_restyle (joined, cav_settings_get_length_style ());
  gtk_label_set_text (self->notes[notes], text);
}

static void
unfolded_cb (GtkExpander *expander, GParamSpec *spec, CavFrameResults *self)
{
  for (int i = 0; i < N_NOTES; i++)
    if (self->expanders[i] == expander)
      show_notes (self, (Notes)i);
}

static void
planned_cb (CavFrameResults *self)
{
  show_notes (self, NOTES_HAND_WORK);
}

static void
cav_frame_results_show_project (CavDocumentPanel *panel, CavProject *project)
{
  CavFrameResults *self = CAV_FRAME_RESULTS (panel);
  const CavFrame *frame = cav_project_get_frame (project);

  g_signal_group_set_target (self->runner_signals,
                             cav_document_get_runner (cav_document_panel_get_document (panel)));
  for (int i = 0; i < N_RESULTS; i++)
    {
      g_autofree char *text = frame->possible ? format_result (frame, (Result)i) : g_strdup ("–");

      gtk_label_set_text (self->values[i], text);
    }
  cav_finding_rows_list (self->findings, self->rows, frame->findings, create_finding);
  for (int i = 0; i < N_NOTES; i++)
    show_notes (self, (Notes)i);
}

/* Words that ask for no more width than the column has. */
static GtkLabel *
create_label (const char *text)
{
  GtkLabel *label = GTK_LABEL (gtk_label_new (text));

  gtk_label_set_wrap (label, TRUE);
  gtk_label_set_xalign (label, 0);
  gtk_label_set_max_width_chars (label, 30);
  return label;
}

static AdwPreferencesGroup *
add_group (CavFrameResults *self, const char *title)
{
  AdwPreferencesGroup *group = ADW_PREFERENCES_GROUP (adw_preferences_group_new ());

  adw_preferences_group_set_title (group, title);
  gtk_box_append (GTK_BOX (self), GTK_WIDGET (group));
  return group;
}

/* Names at the left, what they come to at the right: read, not changed. */
static GtkWidget *
create_table (CavFrameResults *self)
{
  GtkGrid *grid = GTK_GRID (gtk_grid_new ());

  gtk_grid_set_column_spacing (grid, 12);
  gtk_grid_set_row_spacing (grid, 6);
  for (int i = 0; i < N_RESULTS; i++)
    {
      GtkLabel *name = create_label (_ (TITLES[i]));

      self->values[i] = create_label (NULL);
      gtk_label_set_selectable (self->values[i], TRUE);
      gtk_label_set_xalign (self->values[i], 1);
      gtk_label_set_justify (self->values[i], GTK_JUSTIFY_RIGHT);
      gtk_label_set_max_width_chars (name, 14);
      gtk_label_set_max_width_chars (self->values[i], 22);
      gtk_widget_set_hexpand (GTK_WIDGET (name), TRUE);
      gtk_widget_add_css_class (GTK_WIDGET (name), "dim-label");
      gtk_widget_add_css_class (GTK_WIDGET (self->values[i]), "numeric");
      gtk_accessible_update_relation (GTK_ACCESSIBLE (self->values[i]),
                                      GTK_ACCESSIBLE_RELATION_LABELLED_BY, name, NULL, -1);
      gtk_grid_attach (grid, GTK_WIDGET (name), 0, i, 1, 1);
      gtk_grid_attach (grid, GTK_WIDGET (self->values[i]), 1, i, 1, 1);
    }
  return GTK_WIDGET (grid);
}

static void
add_notes (CavFrameResults *self, Notes notes)
{
  GtkWidget *expander = gtk_expander_new (_ (HEADINGS[notes]));
  GtkLabel *label = create_label (NULL);

  gtk_widget_set_margin_top (GTK_WIDGET (label), 6);
  gtk_label_set_selectable (label, TRUE);
  gtk_expander_set_child (GTK_EXPANDER (expander), GTK_WIDGET (label));
  gtk_box_append (GTK_BOX (self), expander);
  g_signal_connect (expander, "notify::expanded", G_CALLBACK (unfolded_cb), self);
  self->expanders[notes] = GTK_EXPANDER (expander);
  self->notes[notes] = label;
}

/* What all this comes of stands farther below, where a finding on the opening leads, too. */
static GtkWidget *
create_size_button (void)
{
  GtkWidget *button = gtk_button_new_from_icon_name ("document-edit-symbolic");
  const char *words = _ ("Change the size of the picture");

  gtk_widget_set_valign (button, GTK_ALIGN_CENTER);
  gtk_widget_add_css_class (button, "flat");
  gtk_widget_set_tooltip_text (button, words);
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL, words,
                                  -1);
  gtk_actionable_set_action_name (GTK_ACTIONABLE (button), "frame.show-finding");
  gtk_actionable_set_action_target (GTK_ACTIONABLE (button), "s", "frame-no-opening");
  return button;
}

static void
add_children (CavFrameResults *self)
{
  AdwPreferencesGroup *group;

  self->findings = add_group (self, _ ("Worth a look"));
  self->rows = g_ptr_array_new ();
  group = add_group (self, _ ("What comes of it"));
  adw_preferences_group_set_header_suffix (group, create_size_button ());
  adw_preferences_group_add (group, create_table (self));
  for (int i = 0; i < N_NOTES; i++)
    add_notes (self, (Notes)i);
}

static void
cav_frame_results_dispose (GObject *object)
{
  g_clear_object (&CAV_FRAME_RESULTS (object)->runner_signals);
  G_OBJECT_CLASS (cav_frame_results_parent_class)->dispose (object);
}

static void
cav_frame_results_finalize (GObject *object)
{
  g_ptr_array_unref (CAV_FRAME_RESULTS (object)->rows);
  G_OBJECT_CLASS (cav_frame_results_parent_class)->finalize (object);
}

static void
cav_frame_results_class_init (CavFrameResultsClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  CavDocumentPanelClass *panel_class = CAV_DOCUMENT_PANEL_CLASS (klass);

  panel_class->parts = CAV_PART_SECTION | CAV_PART_WOOD | CAV_PART_FRAME;
  panel_class->show_project = cav_frame_results_show_project;
  object_class->dispose = cav_frame_results_dispose;
  object_class->finalize = cav_frame_results_finalize;
}

static void
cav_frame_results_init (CavFrameResults *self)
{
  add_children (self);
  self->runner_signals = g_signal_group_new (CAV_TYPE_PLAN_RUNNER);
  g_signal_group_connect_object (self->runner_signals, "planned", G_CALLBACK (planned_cb), self,
                                 G_CONNECT_SWAPPED);
}
