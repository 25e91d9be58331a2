/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-frame-results.h"

#include <glib/gi18n.h>
#include <math.h>

#include "app/cav-settings.h"
#include "drawing/cav-hand-words.h"

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

struct _CavFrameResults
{
  GtkBox parent_instance;

  /* Owned */
  CavDocument *document;
  GSignalGroup *project_signals;
  GSignalGroup *runner_signals;

  /* Children */
  GtkLabel *values[N_RESULTS];
  AdwPreferencesGroup *findings;
  GPtrArray *rows; /* of the findings, in their order; the array is owned */
  GtkLabel *advice_label;
  GtkExpander *hand_work;
  GtkLabel *hand_work_label;
};

G_DEFINE_FINAL_TYPE (CavFrameResults, cav_frame_results, GTK_TYPE_BOX)

enum
{
  PROP_DOCUMENT = 1,
  N_PROPERTIES,
};

static GParamSpec *properties[N_PROPERTIES];

static char *
format (double mm)
{
  CavLengthStyle style = cav_settings_get_length_style ();

  return cav_length_format (round (mm * 100.0) / 100.0, style.unit, style.denominator);
}

static char *
format_size (const CavFrame *frame, CavSize size)
{
  CavLengthStyle style = cav_settings_get_length_style ();
  g_autofree char *width = cav_length_format_bare (size.width, style.unit, style.denominator);
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

  g_ascii_formatd (text, sizeof text, "%.2f", kilograms);
  return g_strdup_printf (_ ("%s kg"), text);
}

static char *
format_saw (const CavFrame *frame)
{
  g_autofree char *each = format (frame->mitres.joint_gap);
  g_autofree char *last = format (frame->mitres.last_gap);

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
      return frame->mitres.has_seasons ? format (frame->mitres.season_gap)
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
  const char *const words[] = { N_ ("Note"), N_ ("Caution"), N_ ("Wrong") };
  GtkWidget *row
      = g_object_new (ADW_TYPE_ACTION_ROW, "use-markup", FALSE, "title", finding->message,
                      "subtitle", _ (words[finding->severity]), "activatable", TRUE, NULL);

  adw_action_row_add_suffix (ADW_ACTION_ROW (row),
                             gtk_image_new_from_icon_name ("go-next-symbolic"));
  gtk_widget_add_css_class (row, "finding");
  gtk_actionable_set_action_name (GTK_ACTIONABLE (row), "frame.show-finding");
  gtk_actionable_set_action_target (GTK_ACTIONABLE (row), "s", finding->code);
  return row;
}

static gboolean
is_listed (CavFrameResults *self, const GPtrArray *findings)
{
  if (findings->len != self->rows->len)
    return FALSE;
  for (guint i = 0; i < findings->len; i++)
    {
      const CavFinding *finding = g_ptr_array_index (findings, i);
      AdwPreferencesRow *row = g_ptr_array_index (self->rows, i);

      if (g_strcmp0 (adw_preferences_row_get_title (row), finding->message) != 0)
        return FALSE;
    }
  return TRUE;
}

/* Lines that say what they said stay, and keep their focus. */
static void
list_findings (CavFrameResults *self, const GPtrArray *findings)
{
  gtk_widget_set_visible (GTK_WIDGET (self->findings), findings->len > 0);
  if (is_listed (self, findings))
    return;
  for (guint i = 0; i < self->rows->len; i++)
    adw_preferences_group_remove (self->findings, g_ptr_array_index (self->rows, i));
  g_ptr_array_set_size (self->rows, 0);
  for (guint i = 0; i < findings->len; i++)
    {
      GtkWidget *row = create_finding (g_ptr_array_index (findings, i));

      g_ptr_array_add (self->rows, row);
      adw_preferences_group_add (self->findings, row);
    }
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

/* Looked up only while somebody can read it: the plan follows every drag. */
static void
refresh_hand_work (CavFrameResults *self)
{
  g_autoptr (GPtrArray) lines = NULL;
  g_autofree char *text = NULL;

  if (self->document == NULL || !gtk_expander_get_expanded (self->hand_work))
    return;

  CavLengthStyle style = cav_settings_get_length_style ();
  CavSheetOptions options = { .unit = style.unit, .denominator = style.denominator };
  lines = cav_hand_words_list (cav_project_get_profile (cav_document_get_project (self->document)),
                               cav_plan_runner_get_plan (cav_document_get_runner (self->document)),
                               &options);
  text = join_lines (lines);
  gtk_label_set_text (self->hand_work_label, text);
}

static void
refresh (CavFrameResults *self)
{
  if (self->document == NULL)
    return;

  const CavFrame *frame = cav_project_get_frame (cav_document_get_project (self->document));
  g_autofree char *advice = join_lines (frame->advice);
  for (int i = 0; i < N_RESULTS; i++)
    {
      g_autofree char *text = frame->possible ? format_result (frame, (Result)i) : g_strdup ("–");

      gtk_label_set_text (self->values[i], text);
    }
  list_findings (self, frame->findings);
  gtk_label_set_text (self->advice_label, advice);
  refresh_hand_work (self);
}

static void
project_changed_cb (CavFrameResults *self, guint parts)
{
  if ((parts & (CAV_PART_SECTION | CAV_PART_WOOD | CAV_PART_FRAME)) != 0)
    refresh (self);
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
      gtk_label_set_max_width_chars (self->values[i], 16);
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

/* Sentences behind a heading. */
static GtkExpander *
add_expander (CavFrameResults *self, const char *title, GtkLabel **out_label)
{
  GtkWidget *expander = gtk_expander_new (title);

  *out_label = create_label (NULL);
  gtk_widget_set_margin_top (GTK_WIDGET (*out_label), 6);
  gtk_expander_set_child (GTK_EXPANDER (expander), GTK_WIDGET (*out_label));
  gtk_box_append (GTK_BOX (self), expander);
  return GTK_EXPANDER (expander);
}

static void
add_children (CavFrameResults *self)
{
  AdwPreferencesGroup *group;

  self->findings = add_group (self, _ ("Worth a look"));
  self->rows = g_ptr_array_new ();
  group = add_group (self, _ ("What comes of it"));
  adw_preferences_group_add (group, create_table (self));
  add_expander (self, _ ("Mitres over the year"), &self->advice_label);
  self->hand_work = add_expander (self, _ ("Scrape and sand"), &self->hand_work_label);
  g_signal_connect_object (self->hand_work, "notify::expanded", G_CALLBACK (refresh_hand_work),
                           self, G_CONNECT_SWAPPED);
}

static void
cav_frame_results_get_property (GObject *object, guint id, GValue *value, GParamSpec *spec)
{
  CavFrameResults *self = CAV_FRAME_RESULTS (object);

  if (id == PROP_DOCUMENT)
    g_value_set_object (value, self->document);
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, spec);
}

static void
cav_frame_results_set_property (GObject *object, guint id, const GValue *value, GParamSpec *spec)
{
  CavFrameResults *self = CAV_FRAME_RESULTS (object);

  if (id != PROP_DOCUMENT)
    {
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, spec);
      return;
    }
  if (!g_set_object (&self->document, g_value_get_object (value)))
    return;
  g_signal_group_set_target (self->project_signals, self->document != NULL
                                                        ? cav_document_get_project (self->document)
                                                        : NULL);
  g_signal_group_set_target (self->runner_signals, self->document != NULL
                                                       ? cav_document_get_runner (self->document)
                                                       : NULL);
  refresh (self);
}

static void
cav_frame_results_dispose (GObject *object)
{
  CavFrameResults *self = CAV_FRAME_RESULTS (object);

  g_clear_object (&self->project_signals);
  g_clear_object (&self->runner_signals);
  g_clear_object (&self->document);
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

  object_class->get_property = cav_frame_results_get_property;
  object_class->set_property = cav_frame_results_set_property;
  object_class->dispose = cav_frame_results_dispose;
  object_class->finalize = cav_frame_results_finalize;

  properties[PROP_DOCUMENT] = g_param_spec_object ("document", NULL, NULL, CAV_TYPE_DOCUMENT,
                                                   G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPERTIES, properties);
}

static void
cav_frame_results_init (CavFrameResults *self)
{
  gtk_orientable_set_orientation (GTK_ORIENTABLE (self), GTK_ORIENTATION_VERTICAL);
  gtk_box_set_spacing (GTK_BOX (self), 18);
  add_children (self);
  self->project_signals = g_signal_group_new (CAV_TYPE_PROJECT);
  g_signal_group_connect_object (self->project_signals, "changed", G_CALLBACK (project_changed_cb),
                                 self, G_CONNECT_SWAPPED);
  self->runner_signals = g_signal_group_new (CAV_TYPE_PLAN_RUNNER);
  g_signal_group_connect_object (self->runner_signals, "planned", G_CALLBACK (refresh_hand_work),
                                 self, G_CONNECT_SWAPPED);
  g_signal_connect_object (cav_settings_get (), "changed::" CAV_SETTING_UNIT, G_CALLBACK (refresh),
                           self, G_CONNECT_SWAPPED);
}
