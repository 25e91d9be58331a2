/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-pass-settings.h"

#include <glib/gi18n.h>

#include "app/cav-length-text.h"
#include "app/cav-settings.h"
#include "drawing/cav-pass-words.h"

struct _CavPassSettings
{
  GtkWidget parent_instance;

  /* Owned */
  CavDocument *document;
  GSignalGroup *runner_signals;
  GSignalGroup *selection_signals;

  /* Template widgets */
  GtkWidget *content;
  AdwPreferencesGroup *group;
  AdwPreferencesGroup *cautions;

  /* Borrowed from the groups */
  GPtrArray *rows;
  GPtrArray *caution_rows;
};

G_DEFINE_FINAL_TYPE (CavPassSettings, cav_pass_settings, GTK_TYPE_WIDGET)

enum
{
  PROP_DOCUMENT = 1,
  N_PROPERTIES,
};

static GParamSpec *properties[N_PROPERTIES];

static void
remove_rows (AdwPreferencesGroup *group, GPtrArray *rows)
{
  for (guint i = 0; i < rows->len; i++)
    adw_preferences_group_remove (group, g_ptr_array_index (rows, i));
  g_ptr_array_set_size (rows, 0);
}

static GtkWidget *
create_row (const char *title, const char *subtitle)
{
  GtkWidget *row = g_object_new (ADW_TYPE_ACTION_ROW, "use-markup", FALSE, "title", title,
                                 "focusable", TRUE, NULL);

  if (subtitle != NULL)
    adw_action_row_set_subtitle (ADW_ACTION_ROW (row), subtitle);
  return row;
}

/* The name small, what it is set to large. */
static GtkWidget *
add_setting (CavPassSettings *self, const char *name, const char *value)
{
  GtkWidget *row = create_row (name, value);

  gtk_widget_add_css_class (row, "setting");
  adw_preferences_group_add (self->group, row);
  g_ptr_array_add (self->rows, row);
  return row;
}

/* A figure that is set at the machine stands out. */
static void
add_measured (CavPassSettings *self, const char *name, const char *value)
{
  gtk_widget_add_css_class (add_setting (self, name, value), "measured");
}

static void
add_caution (CavPassSettings *self, const char *sentence)
{
  GtkWidget *row = create_row (sentence, NULL);
  GtkWidget *icon = gtk_image_new_from_icon_name ("dialog-warning-symbolic");

  adw_action_row_add_prefix (ADW_ACTION_ROW (row), icon);
  adw_preferences_group_add (self->cautions, row);
  g_ptr_array_add (self->caution_rows, row);
}

/* What a pass is shown with. */
typedef struct
{
  const CavPlan *plan;
  const CavSetup *setup;
  const CavPass *pass;
  const CavPass *before; /* in the same setup; NULL: it is the first */
} Place;

static gboolean
find_pass (const CavPlan *plan, int number, Place *out_place)
{
  int left = number;

  for (guint i = 0; plan != NULL && number >= 0 && i < plan->setups->len; i++)
    {
      const CavSetup *setup = g_ptr_array_index (plan->setups, i);

      if (left >= (int)setup->passes->len)
        {
          left -= (int)setup->passes->len;
          continue;
        }
      *out_place
          = (Place){ .plan = plan,
                     .setup = setup,
                     .pass = g_ptr_array_index (setup->passes, left),
                     .before = left > 0 ? g_ptr_array_index (setup->passes, left - 1) : NULL };
      return TRUE;
    }
  return FALSE;
}

static void
add_tool (CavPassSettings *self, const Place *place, const CavSheetOptions *options)
{
  g_autofree char *tool = cav_words_dup_tool (place->plan, place->setup);
  g_autofree char *sizes = cav_words_describe_tool (place->plan, place->setup, options);
  g_autofree char *setting = cav_words_describe_setting (place->setup, FALSE);
  g_autofree char *both
      = *sizes != '\0' ? g_strdup_printf ("%s\n%s", tool, sizes) : g_strdup (tool);

  add_setting (self, _ ("Machine"), cav_words_get_machine (place->setup->machine));
  add_setting (self, place->setup->machine == CAV_MACHINE_ROUTER ? _ ("Cutter") : _ ("Blade"),
               both);
  if (setting != NULL)
    add_setting (self, _ ("Angle"), setting);
}

static void
add_figures (CavPassSettings *self, const Place *place, const CavSheetOptions *options)
{
  double figure;
  CavMeasure measure = cav_pass_get_measure (place->plan, place->setup, place->pass, &figure);
  g_autofree char *fence = cav_length_text_new (figure);
  g_autofree char *height = cav_length_text_new (place->pass->height);
  g_autofree char *bite = cav_length_text_new (place->pass->bite);
  g_autofree char *change
      = cav_words_describe_change (place->plan, place->setup, place->before, place->pass, options);

  add_setting (self, _ ("On the table"), cav_words_get_down (place->pass->down));
  add_setting (self, _ ("At the fence"), cav_words_get_against (place->pass->against));
  add_measured (self, cav_words_get_measure (measure), fence);
  add_measured (self, _ ("Height"), height);
  add_setting (self, _ ("Takes up to"), bite);
  add_setting (self, _ ("Since the pass before"), change);
}

static void
add_cautions (CavPassSettings *self, const CavPass *pass)
{
  for (int i = 0; i < CAV_N_CAUTIONS; i++)
    if ((pass->cautions & (1u << i)) != 0)
      add_caution (self, cav_caution_get_sentence ((CavCaution)(1u << i)));
}

static void
refresh (CavPassSettings *self)
{
  CavLengthStyle style = cav_settings_get_length_style ();
  const CavSheetOptions options = { .unit = style.unit, .denominator = style.denominator };
  CavPlan *plan;
  int number;
  Place place;
  g_autofree char *title = NULL;

  remove_rows (self->group, self->rows);
  remove_rows (self->cautions, self->caution_rows);
  if (self->document == NULL)
    return;
  plan = cav_plan_runner_get_plan (cav_document_get_runner (self->document));
  number = cav_selection_get_pass (cav_document_get_selection (self->document));
  gtk_widget_set_visible (self->content, find_pass (plan, number, &place));
  if (!find_pass (plan, number, &place))
    return;
  /* Translators: number of a pass, and how many there are */
  title = g_strdup_printf (_ ("Pass %d of %u"), number + 1, cav_plan_get_pass_count (plan));
  adw_preferences_group_set_title (self->group, title);
  add_tool (self, &place, &options);
  add_figures (self, &place, &options);
  add_cautions (self, place.pass);
}

/* A plan that is being made again is said to be old, in a word under the title. */
static void
refresh_state (CavPassSettings *self)
{
  CavPlanState state;

  if (self->document == NULL)
    return;
  state = cav_plan_runner_get_state (cav_document_get_runner (self->document));
  adw_preferences_group_set_description (
      self->group,
      state == CAV_PLAN_STATE_CURRENT ? NULL : _ ("Not of the section as it stands now."));
}

static void
set_document (CavPassSettings *self, CavDocument *document)
{
  if (!g_set_object (&self->document, document))
    return;
  g_signal_group_set_target (self->runner_signals,
                             document != NULL ? cav_document_get_runner (document) : NULL);
  g_signal_group_set_target (self->selection_signals,
                             document != NULL ? cav_document_get_selection (document) : NULL);
  refresh (self);
  refresh_state (self);
}

static void
cav_pass_settings_get_property (GObject *object, guint id, GValue *value, GParamSpec *spec)
{
  CavPassSettings *self = CAV_PASS_SETTINGS (object);

  if (id == PROP_DOCUMENT)
    g_value_set_object (value, self->document);
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, spec);
}

static void
cav_pass_settings_set_property (GObject *object, guint id, const GValue *value, GParamSpec *spec)
{
  if (id == PROP_DOCUMENT)
    set_document (CAV_PASS_SETTINGS (object), g_value_get_object (value));
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, spec);
}

static void
cav_pass_settings_dispose (GObject *object)
{
  CavPassSettings *self = CAV_PASS_SETTINGS (object);

  g_clear_object (&self->runner_signals);
  g_clear_object (&self->selection_signals);
  g_clear_object (&self->document);
  g_clear_pointer (&self->content, gtk_widget_unparent);
  G_OBJECT_CLASS (cav_pass_settings_parent_class)->dispose (object);
}

static void
cav_pass_settings_finalize (GObject *object)
{
  CavPassSettings *self = CAV_PASS_SETTINGS (object);

  g_ptr_array_unref (self->rows);
  g_ptr_array_unref (self->caution_rows);
  G_OBJECT_CLASS (cav_pass_settings_parent_class)->finalize (object);
}

static void
cav_pass_settings_class_init (CavPassSettingsClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->get_property = cav_pass_settings_get_property;
  object_class->set_property = cav_pass_settings_set_property;
  object_class->dispose = cav_pass_settings_dispose;
  object_class->finalize = cav_pass_settings_finalize;

  properties[PROP_DOCUMENT] = g_param_spec_object ("document", NULL, NULL, CAV_TYPE_DOCUMENT,
                                                   G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPERTIES, properties);

  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/org/cavetto/Cavetto/cav-pass-settings.ui");
  gtk_widget_class_bind_template_child (widget_class, CavPassSettings, content);
  gtk_widget_class_bind_template_child (widget_class, CavPassSettings, group);
  gtk_widget_class_bind_template_child (widget_class, CavPassSettings, cautions);
}

static void
cav_pass_settings_init (CavPassSettings *self)
{
  self->rows = g_ptr_array_new ();
  self->caution_rows = g_ptr_array_new ();
  gtk_widget_init_template (GTK_WIDGET (self));
  self->runner_signals = g_signal_group_new (CAV_TYPE_PLAN_RUNNER);
  g_signal_group_connect_object (self->runner_signals, "planned", G_CALLBACK (refresh), self,
                                 G_CONNECT_SWAPPED);
  g_signal_group_connect_object (self->runner_signals, "notify::state", G_CALLBACK (refresh_state),
                                 self, G_CONNECT_SWAPPED);
  self->selection_signals = g_signal_group_new (CAV_TYPE_SELECTION);
  g_signal_group_connect_object (self->selection_signals, "notify::pass", G_CALLBACK (refresh),
                                 self, G_CONNECT_SWAPPED);
  g_signal_connect_object (cav_settings_get (), "changed::" CAV_SETTING_UNIT, G_CALLBACK (refresh),
                           self, G_CONNECT_SWAPPED);
}
