/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-findings.h"

#include <glib/gi18n.h>

#include "app/cav-finding-row.h"
#include "app/cav-frame-rows.h"
#include "app/cav-settings.h"
#include "project/cav-project-boards.h"

/* Pixels that the column has at least, within its air. */
#define COLUMN_WIDTH 256

struct _CavFindings
{
  GtkWidget parent_instance;

  /* Owned */
  CavDocument *document;
  GSignalGroup *project_signals;
  GSignalGroup *runner_signals;
  GSignalGroup *board_signals;
  GPtrArray *findings; /* CavFinding, as they are listed */

  /* Template widgets */
  GtkWidget *group;
  GtkStack *stack;
  GtkListBox *list;
  GtkLabel *age;
};

G_DEFINE_FINAL_TYPE (CavFindings, cav_findings, GTK_TYPE_WIDGET)

enum
{
  PROP_DOCUMENT = 1,
  N_PROPERTIES,
};

enum
{
  SHOW_FINDING,
  N_SIGNALS,
};

static GParamSpec *properties[N_PROPERTIES];
static guint signals[N_SIGNALS];

static gboolean
is_of_lumber (const CavFinding *finding)
{
  return g_str_has_prefix (finding->code, "lumber-");
}

/* What a row beside the frame puts right. */
static gboolean
is_of_frame (CavFindings *self, const CavFinding *finding)
{
  const CavFrameSettings *settings
      = cav_project_get_frame_settings (cav_document_get_project (self->document));

  return cav_frame_rows_find_for (settings, finding->code) >= 0;
}

static gboolean
leads_somewhere (CavFindings *self, const CavFinding *finding)
{
  return finding->has_place || finding->cut >= 0 || is_of_lumber (finding)
         || is_of_frame (self, finding);
}

static gboolean
is_same_finding (const CavFinding *a, const CavFinding *b)
{
  return a->severity == b->severity && a->cut == b->cut && a->has_place == b->has_place
         && a->item == b->item && g_str_equal (a->message, b->message);
}

static gboolean
is_same_list (const GPtrArray *a, const GPtrArray *b)
{
  if (a->len != b->len)
    return FALSE;
  for (guint i = 0; i < a->len; i++)
    if (!is_same_finding (g_ptr_array_index (a, i), g_ptr_array_index (b, i)))
      return FALSE;
  return TRUE;
}

static void
fill_list (CavFindings *self)
{
  GtkWidget *row;

  while ((row = gtk_widget_get_first_child (GTK_WIDGET (self->list))) != NULL)
    gtk_list_box_remove (self->list, row);
  for (guint i = 0; i < self->findings->len; i++)
    {
      const CavFinding *finding = g_ptr_array_index (self->findings, i);

      gtk_list_box_append (self->list,
                           cav_finding_row_new (finding, leads_somewhere (self, finding)));
    }
}

static void
take_findings (CavFindings *self, GPtrArray *findings)
{
  /* Rows that say what they said keep their focus. Places may have moved all the same. */
  gboolean same = is_same_list (self->findings, findings);

  g_ptr_array_unref (self->findings);
  self->findings = findings;
  if (!same)
    fill_list (self);
  gtk_stack_set_visible_child_name (self->stack, findings->len > 0 ? "list" : "calm");
}

/* A list that is about to be replaced says so, as the strip of passes does. */
static void
show_age (CavFindings *self, CavPlanState state, const CavPlan *plan)
{
  gboolean is_old = state == CAV_PLAN_STATE_STALE;

  if (is_old)
    gtk_widget_add_css_class (GTK_WIDGET (self->stack), "stale");
  else
    gtk_widget_remove_css_class (GTK_WIDGET (self->stack), "stale");
  gtk_label_set_label (self->age, !is_old        ? ""
                                  : plan != NULL ? _ ("of the last plan")
                                                 : _ ("Planning…"));
  gtk_accessible_update_state (GTK_ACCESSIBLE (self->list), GTK_ACCESSIBLE_STATE_BUSY, is_old, -1);
}

static void
refresh (CavFindings *self)
{
  CavPlanRunner *runner;
  CavPlanState state;
  CavPlan *plan;
  GPtrArray *findings;

  if (self->document == NULL)
    return;
  runner = cav_document_get_runner (self->document);
  state = cav_plan_runner_get_state (runner);
  plan = cav_plan_runner_get_plan (runner);
  show_age (self, state, plan);
  /* While the next plan is being made, what is listed stays: it would flicker otherwise. */
  if (state == CAV_PLAN_STATE_STALE && plan != NULL)
    return;
  findings = cav_project_create_findings (cav_document_get_project (self->document),
                                          state == CAV_PLAN_STATE_CURRENT ? plan : NULL);
  if (cav_project_has_lumber (cav_document_get_project (self->document)))
    cav_project_join_layout_findings (
        findings, cav_board_runner_get_layout (cav_document_get_board_runner (self->document)));
  take_findings (self, findings);
}

static void
row_activated_cb (CavFindings *self, GtkListBoxRow *row)
{
  int index = gtk_list_box_row_get_index (row);

  if (index >= 0)
    cav_findings_activate (self, (guint)index);
}

/* Class */

static void
set_document (CavFindings *self, CavDocument *document)
{
  if (!g_set_object (&self->document, document))
    return;
  g_signal_group_set_target (self->project_signals,
                             document != NULL ? cav_document_get_project (document) : NULL);
  g_signal_group_set_target (self->runner_signals,
                             document != NULL ? cav_document_get_runner (document) : NULL);
  g_signal_group_set_target (self->board_signals,
                             document != NULL ? cav_document_get_board_runner (document) : NULL);
  refresh (self);
}

static void
cav_findings_get_property (GObject *object, guint id, GValue *value, GParamSpec *spec)
{
  CavFindings *self = CAV_FINDINGS (object);

  if (id == PROP_DOCUMENT)
    g_value_set_object (value, self->document);
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, spec);
}

static void
cav_findings_set_property (GObject *object, guint id, const GValue *value, GParamSpec *spec)
{
  if (id == PROP_DOCUMENT)
    set_document (CAV_FINDINGS (object), g_value_get_object (value));
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, spec);
}

static void
cav_findings_dispose (GObject *object)
{
  CavFindings *self = CAV_FINDINGS (object);

  g_clear_object (&self->project_signals);
  g_clear_object (&self->runner_signals);
  g_clear_object (&self->board_signals);
  g_clear_object (&self->document);
  g_clear_pointer (&self->group, gtk_widget_unparent);
  G_OBJECT_CLASS (cav_findings_parent_class)->dispose (object);
}

static void
cav_findings_finalize (GObject *object)
{
  g_ptr_array_unref (CAV_FINDINGS (object)->findings);
  G_OBJECT_CLASS (cav_findings_parent_class)->finalize (object);
}

/* A scrolled window asks for the height without a width, and would get that of lines that are not
 * broken: the height is for the width that there is. */
static void
cav_findings_measure (GtkWidget *widget,
                      GtkOrientation orientation,
                      int for_size,
                      int *minimum,
                      int *natural,
                      int *minimum_baseline,
                      int *natural_baseline)
{
  GtkWidget *child = gtk_widget_get_first_child (widget);

  if (orientation == GTK_ORIENTATION_VERTICAL && for_size < 0)
    {
      int least;

      gtk_widget_measure (child, GTK_ORIENTATION_HORIZONTAL, -1, &least, NULL, NULL, NULL);
      for_size = MAX (MAX (gtk_widget_get_width (widget), COLUMN_WIDTH), least);
    }
  gtk_widget_measure (child, orientation, for_size, minimum, natural, minimum_baseline,
                      natural_baseline);
}

static void
cav_findings_size_allocate (GtkWidget *widget, int width, int height, int baseline)
{
  gtk_widget_allocate (gtk_widget_get_first_child (widget), width, height, baseline, NULL);
}

static GtkSizeRequestMode
cav_findings_get_request_mode (GtkWidget *widget)
{
  return GTK_SIZE_REQUEST_HEIGHT_FOR_WIDTH;
}

static void
cav_findings_class_init (CavFindingsClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->get_property = cav_findings_get_property;
  object_class->set_property = cav_findings_set_property;
  object_class->dispose = cav_findings_dispose;
  object_class->finalize = cav_findings_finalize;

  properties[PROP_DOCUMENT] = g_param_spec_object ("document", NULL, NULL, CAV_TYPE_DOCUMENT,
                                                   G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPERTIES, properties);

  signals[SHOW_FINDING] = g_signal_new ("show-finding", CAV_TYPE_FINDINGS, G_SIGNAL_RUN_LAST, 0,
                                        NULL, NULL, NULL, G_TYPE_NONE, 1, G_TYPE_POINTER);

  widget_class->measure = cav_findings_measure;
  widget_class->size_allocate = cav_findings_size_allocate;
  widget_class->get_request_mode = cav_findings_get_request_mode;
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/org/cavetto/Cavetto/cav-findings.ui");
  gtk_widget_class_bind_template_child (widget_class, CavFindings, group);
  gtk_widget_class_bind_template_child (widget_class, CavFindings, stack);
  gtk_widget_class_bind_template_child (widget_class, CavFindings, list);
  gtk_widget_class_bind_template_child (widget_class, CavFindings, age);
  gtk_widget_class_bind_template_callback (widget_class, row_activated_cb);
}

static void
cav_findings_init (CavFindings *self)
{
  self->findings = cav_finding_list_new ();
  gtk_widget_init_template (GTK_WIDGET (self));
  self->project_signals = g_signal_group_new (CAV_TYPE_PROJECT);
  g_signal_group_connect_object (self->project_signals, "changed", G_CALLBACK (refresh), self,
                                 G_CONNECT_SWAPPED);
  self->runner_signals = g_signal_group_new (CAV_TYPE_PLAN_RUNNER);
  g_signal_group_connect_object (self->runner_signals, "planned", G_CALLBACK (refresh), self,
                                 G_CONNECT_SWAPPED);
  g_signal_group_connect_object (self->runner_signals, "notify::state", G_CALLBACK (refresh), self,
                                 G_CONNECT_SWAPPED);
  self->board_signals = g_signal_group_new (CAV_TYPE_BOARD_RUNNER);
  g_signal_group_connect_object (self->board_signals, "laid", G_CALLBACK (refresh), self,
                                 G_CONNECT_SWAPPED);
  g_signal_connect_object (cav_settings_get (), "changed::" CAV_SETTING_UNIT,
                           G_CALLBACK (fill_list), self, G_CONNECT_SWAPPED);
}

guint
cav_findings_get_count (CavFindings *self)
{
  g_return_val_if_fail (CAV_IS_FINDINGS (self), 0);

  return self->findings->len;
}

void
cav_findings_activate (CavFindings *self, guint nth)
{
  g_autoptr (CavFinding) finding = NULL;
  CavProject *project;

  g_return_if_fail (CAV_IS_FINDINGS (self));
  g_return_if_fail (nth < self->findings->len && self->document != NULL);

  /* A copy: choosing a cut may bring another list. */
  finding = cav_finding_copy (g_ptr_array_index (self->findings, nth));
  project = cav_document_get_project (self->document);
  if (finding->cut >= 0 && (guint)finding->cut < cav_project_get_cut_count (project))
    cav_selection_choose_cut (cav_document_get_selection (self->document), (guint)finding->cut);
  if (is_of_lumber (finding))
    gtk_widget_activate_action (GTK_WIDGET (self), "win.show-lumber", "(si)", finding->code,
                                finding->item);
  else if (is_of_frame (self, finding))
    gtk_widget_activate_action (GTK_WIDGET (self), "win.show-frame", "s", finding->code);
  else if (leads_somewhere (self, finding))
    g_signal_emit (self, signals[SHOW_FINDING], 0, finding);
}
