/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-pass-strip.h"

#include "app/cav-pass-tile.h"
#include "app/cav-settings.h"
#include "app/cav-strip-words.h"

#include <glib/gi18n.h>

/* Characters of a tool that stand in full over a setup. */
#define LONGEST_TOOL 36

struct _CavPassStrip
{
  GtkWidget parent_instance;

  /* Owned */
  CavDocument *document; /* nullable */
  GSignalGroup *runner_signals;
  GSignalGroup *selection_signals;

  /* Template widgets */
  GtkWidget *content;
  GtkBox *setups_box;
  GtkLabel *leftover_label;
  GtkLabel *state_label;
  GtkLabel *totals_label;
  GtkButton *play_button;
  GtkScrolledWindow *scroller;
  GtkWidget *state_box;
  GtkSpinner *spinner;

  /* Borrowed from the boxes */
  GPtrArray *setups; /* SetupBox */
  GPtrArray *tiles;  /* CavPassTile, all that are shown */
};

G_DEFINE_FINAL_TYPE (CavPassStrip, cav_pass_strip, GTK_TYPE_WIDGET)

enum
{
  PROP_DOCUMENT = 1,
  N_PROPERTIES,
};

static GParamSpec *properties[N_PROPERTIES];

/* A setup in the strip. */
typedef struct
{
  GtkWidget *box;
  GtkWidget *label;
  GtkWidget *tool;
  GtkWidget *row;
  GPtrArray *tiles;
} SetupBox;

static void
setup_box_free (gpointer data)
{
  SetupBox *setup = data;

  g_ptr_array_unref (setup->tiles);
  g_free (setup);
}

/* What is there is kept and filled again: while a cut is dragged the plan changes with every
 * frame, its form seldom. */

static void
chosen_cb (CavPassTile *tile, gpointer user_data)
{
  CavPassStrip *self = CAV_PASS_STRIP (user_data);
  CavSelection *selection = cav_document_get_selection (self->document);
  int number = (int)cav_pass_tile_get_number (tile);

  cav_selection_set_pass (selection,
                          cav_selection_get_pass (selection) == number ? CAV_NO_PASS : number);
}

static void
set_tile_count (CavPassStrip *self, SetupBox *setup, guint count)
{
  while (setup->tiles->len > count)
    {
      GtkWidget *tile = g_ptr_array_steal_index (setup->tiles, setup->tiles->len - 1);

      gtk_box_remove (GTK_BOX (setup->row), tile);
    }
  while (setup->tiles->len < count)
    {
      GtkWidget *tile = cav_pass_tile_new ();

      g_signal_connect_object (tile, "chosen", G_CALLBACK (chosen_cb), self, 0);
      gtk_box_append (GTK_BOX (setup->row), tile);
      g_ptr_array_add (setup->tiles, tile);
    }
}

static SetupBox *
add_setup (CavPassStrip *self)
{
  SetupBox *setup = g_new0 (SetupBox, 1);

  setup->tiles = g_ptr_array_new ();
  setup->box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 3);
  setup->label
      = g_object_new (GTK_TYPE_LABEL, "xalign", 0.0, "margin-start", 6, "margin-end", 6, NULL);
  gtk_widget_add_css_class (setup->label, "caption-heading");
  setup->tool = g_object_new (GTK_TYPE_LABEL, "xalign", 0.0, "width-chars", 1, "margin-start", 6,
                              "margin-end", 6, NULL);
  gtk_widget_add_css_class (setup->tool, "caption");
  setup->row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 0);
  gtk_box_append (GTK_BOX (setup->box), setup->label);
  gtk_box_append (GTK_BOX (setup->box), setup->tool);
  gtk_box_append (GTK_BOX (setup->box), setup->row);
  gtk_widget_add_css_class (setup->box, "setup");
  gtk_box_append (self->setups_box, setup->box);
  g_ptr_array_add (self->setups, setup);
  return setup;
}

static void
set_setup_count (CavPassStrip *self, guint count)
{
  while (self->setups->len > count)
    {
      SetupBox *setup = g_ptr_array_index (self->setups, self->setups->len - 1);

      gtk_box_remove (self->setups_box, setup->box);
      g_ptr_array_set_size (self->setups, (int)self->setups->len - 1);
    }
  while (self->setups->len < count)
    add_setup (self);
}

static void
fill_setup (CavPassStrip *self, CavPlan *plan, guint index, guint *number)
{
  const CavSetup *setup = g_ptr_array_index (plan->setups, index);
  SetupBox *box = g_ptr_array_index (self->setups, index);
  g_autofree char *words = cav_strip_words_new_setup (plan, index);
  g_autofree char *heading = cav_strip_words_new_setup_heading (plan, index);
  g_autofree char *tool = cav_strip_words_new_setup_tool (plan, index);

  gtk_label_set_label (GTK_LABEL (box->label), heading);
  gtk_label_set_label (GTK_LABEL (box->tool), tool);
  /* A name that somebody gave may be long, and would pull the tiles of a short setup apart. */
  gtk_label_set_ellipsize (GTK_LABEL (box->tool), g_utf8_strlen (tool, -1) > LONGEST_TOOL
                                                      ? PANGO_ELLIPSIZE_MIDDLE
                                                      : PANGO_ELLIPSIZE_NONE);
  gtk_widget_set_tooltip_text (box->box, words);
  gtk_accessible_update_property (GTK_ACCESSIBLE (box->label), GTK_ACCESSIBLE_PROPERTY_LABEL, words,
                                  -1);
  set_tile_count (self, box, setup->passes->len);
  for (guint i = 0; i < setup->passes->len; i++)
    {
      cav_pass_tile_set_pass (g_ptr_array_index (box->tiles, i), plan, index, i, (*number)++);
      g_ptr_array_add (self->tiles, g_ptr_array_index (box->tiles, i));
    }
}

/* The chosen one */

/* Scrolls as little as shows the tile. */
static void
show_tile (CavPassStrip *self, GtkWidget *tile)
{
  GtkAdjustment *adjustment = gtk_scrolled_window_get_hadjustment (self->scroller);
  graphene_rect_t bounds;

  if (gtk_widget_get_width (tile) > 0
      && gtk_widget_compute_bounds (tile, GTK_WIDGET (self->setups_box), &bounds))
    gtk_adjustment_clamp_page (adjustment, (double)bounds.origin.x,
                               (double)(bounds.origin.x + bounds.size.width));
}

static void
update_chosen (CavPassStrip *self)
{
  int pass = cav_selection_get_pass (cav_document_get_selection (self->document));

  for (guint i = 0; i < self->tiles->len; i++)
    {
      CavPassTile *tile = g_ptr_array_index (self->tiles, i);

      cav_pass_tile_set_chosen (tile, (int)i == pass);
      if ((int)i == pass)
        show_tile (self, GTK_WIDGET (tile));
    }
}

/* The same button plays and stops. */
static void
update_playing (CavPassStrip *self)
{
  gboolean is_playing = cav_selection_is_playing (cav_document_get_selection (self->document));

  gtk_button_set_icon_name (self->play_button, is_playing ? "media-playback-stop-symbolic"
                                                          : "media-playback-start-symbolic");
  gtk_widget_set_tooltip_text (GTK_WIDGET (self->play_button),
                               is_playing ? _ ("Stop playing (F5)") : _ ("Play the milling (F5)"));
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->play_button), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  is_playing ? _ ("Stop playing") : _ ("Play the milling"), -1);
}

/* Totals and state */

static void
update_totals (CavPassStrip *self)
{
  const CavPlan *plan = cav_plan_runner_get_plan (cav_document_get_runner (self->document));
  g_autofree char *totals = plan != NULL ? cav_strip_words_new_totals (plan) : g_strdup ("");
  g_autofree char *leftover = plan != NULL ? cav_strip_words_new_leftover (plan) : g_strdup ("");

  gtk_label_set_label (self->totals_label, totals);
  gtk_label_set_label (self->leftover_label, leftover);
  gtk_widget_set_tooltip_text (GTK_WIDGET (self->leftover_label), leftover);
}

static void
set_dimmed (CavPassStrip *self, gboolean dimmed)
{
  GtkWidget *parts[] = { GTK_WIDGET (self->setups_box), GTK_WIDGET (self->totals_label),
                         GTK_WIDGET (self->leftover_label) };

  for (guint i = 0; i < G_N_ELEMENTS (parts); i++)
    if (dimmed)
      gtk_widget_add_css_class (parts[i], "stale");
    else
      gtk_widget_remove_css_class (parts[i], "stale");
}

static void
update_state (CavPassStrip *self)
{
  CavPlanRunner *runner = cav_document_get_runner (self->document);
  CavPlanState state = cav_plan_runner_get_state (runner);
  const char *text = "";

  switch (state)
    {
    case CAV_PLAN_STATE_CURRENT:
      break;
    case CAV_PLAN_STATE_STALE:
      text = cav_plan_runner_get_plan (runner) != NULL ? _ ("Planning again…") : _ ("Planning…");
      break;
    case CAV_PLAN_STATE_FAILED:
      text = cav_plan_runner_get_message (runner);
      break;
    }
  gtk_label_set_label (self->state_label, text);
  gtk_widget_set_tooltip_text (GTK_WIDGET (self->state_label), text);
  gtk_widget_set_visible (self->state_box, state != CAV_PLAN_STATE_CURRENT);
  gtk_widget_set_visible (GTK_WIDGET (self->spinner), state == CAV_PLAN_STATE_STALE);
  gtk_spinner_set_spinning (self->spinner, state == CAV_PLAN_STATE_STALE);
  set_dimmed (self, state != CAV_PLAN_STATE_CURRENT);
}

static void
update_plan (CavPassStrip *self)
{
  CavPlan *plan = cav_plan_runner_get_plan (cav_document_get_runner (self->document));
  guint number = 0;

  g_ptr_array_set_size (self->tiles, 0);
  set_setup_count (self, plan != NULL ? plan->setups->len : 0);
  for (guint i = 0; i < self->setups->len; i++)
    fill_setup (self, plan, i, &number);
  update_chosen (self);
  update_totals (self);
}

static void
unit_changed_cb (CavPassStrip *self)
{
  for (guint i = 0; i < self->tiles->len; i++)
    cav_pass_tile_update_words (g_ptr_array_index (self->tiles, i));
  if (self->document != NULL)
    update_totals (self);
}

/* The class */

static void
set_document (CavPassStrip *self, CavDocument *document)
{
  if (!g_set_object (&self->document, document))
    return;
  g_signal_group_set_target (self->runner_signals,
                             document != NULL ? cav_document_get_runner (document) : NULL);
  g_signal_group_set_target (self->selection_signals,
                             document != NULL ? cav_document_get_selection (document) : NULL);
  if (document == NULL)
    return;
  update_plan (self);
  update_state (self);
}

static void
cav_pass_strip_get_property (GObject *object, guint id, GValue *value, GParamSpec *spec)
{
  CavPassStrip *self = CAV_PASS_STRIP (object);

  if (id == PROP_DOCUMENT)
    g_value_set_object (value, self->document);
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, spec);
}

static void
cav_pass_strip_set_property (GObject *object, guint id, const GValue *value, GParamSpec *spec)
{
  CavPassStrip *self = CAV_PASS_STRIP (object);

  if (id == PROP_DOCUMENT)
    set_document (self, g_value_get_object (value));
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, spec);
}

static void
cav_pass_strip_dispose (GObject *object)
{
  CavPassStrip *self = CAV_PASS_STRIP (object);

  g_clear_object (&self->runner_signals);
  g_clear_object (&self->selection_signals);
  g_clear_pointer (&self->tiles, g_ptr_array_unref);
  g_clear_pointer (&self->setups, g_ptr_array_unref);
  g_clear_pointer (&self->content, gtk_widget_unparent);
  g_clear_object (&self->document);
  G_OBJECT_CLASS (cav_pass_strip_parent_class)->dispose (object);
}

static void
bind_template (GtkWidgetClass *widget_class)
{
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/org/cavetto/Cavetto/cav-pass-strip.ui");
  gtk_widget_class_bind_template_child (widget_class, CavPassStrip, content);
  gtk_widget_class_bind_template_child (widget_class, CavPassStrip, leftover_label);
  gtk_widget_class_bind_template_child (widget_class, CavPassStrip, play_button);
  gtk_widget_class_bind_template_child (widget_class, CavPassStrip, scroller);
  gtk_widget_class_bind_template_child (widget_class, CavPassStrip, setups_box);
  gtk_widget_class_bind_template_child (widget_class, CavPassStrip, spinner);
  gtk_widget_class_bind_template_child (widget_class, CavPassStrip, state_box);
  gtk_widget_class_bind_template_child (widget_class, CavPassStrip, state_label);
  gtk_widget_class_bind_template_child (widget_class, CavPassStrip, totals_label);
}

static void
cav_pass_strip_class_init (CavPassStripClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->get_property = cav_pass_strip_get_property;
  object_class->set_property = cav_pass_strip_set_property;
  object_class->dispose = cav_pass_strip_dispose;
  properties[PROP_DOCUMENT] = g_param_spec_object ("document", NULL, NULL, CAV_TYPE_DOCUMENT,
                                                   G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPERTIES, properties);
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  bind_template (widget_class);
}

static void
cav_pass_strip_init (CavPassStrip *self)
{
  self->setups = g_ptr_array_new_with_free_func (setup_box_free);
  self->tiles = g_ptr_array_new ();
  gtk_widget_init_template (GTK_WIDGET (self));

  self->runner_signals = g_signal_group_new (CAV_TYPE_PLAN_RUNNER);
  g_signal_group_connect_swapped (self->runner_signals, "planned", G_CALLBACK (update_plan), self);
  g_signal_group_connect_swapped (self->runner_signals, "notify::state", G_CALLBACK (update_state),
                                  self);
  self->selection_signals = g_signal_group_new (CAV_TYPE_SELECTION);
  g_signal_group_connect_swapped (self->selection_signals, "notify::pass",
                                  G_CALLBACK (update_chosen), self);
  g_signal_group_connect_swapped (self->selection_signals, "notify::playing",
                                  G_CALLBACK (update_playing), self);
  g_signal_connect_object (cav_settings_get (), "changed::" CAV_SETTING_UNIT,
                           G_CALLBACK (unit_changed_cb), self, G_CONNECT_SWAPPED);
}
