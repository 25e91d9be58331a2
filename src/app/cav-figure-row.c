/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-figure-row-private.h"

#include <glib/gi18n.h>
#include <math.h>
#include <string.h>

#include "geometry/cav-tolerance.h"

/* Behind these a text goes on: no complaint before the next character. */
#define UNFINISHED "+-−–/.,⁄≈ "

G_DEFINE_ABSTRACT_TYPE_WITH_PRIVATE (CavFigureRow, cav_figure_row, ADW_TYPE_PREFERENCES_ROW)

enum
{
  PROP_0,
  PROP_VALUE,
  PROP_MINIMUM,
  PROP_MAXIMUM,
  PROP_VALID,
  N_PROPS,
};

enum
{
  APPLIED,
  TYPED,
  N_SIGNALS,
};

static GParamSpec *properties[N_PROPS];
static guint signals[N_SIGNALS];

CavFigureRowPrivate *
cav_figure_row_get_private (CavFigureRow *self)
{
  return cav_figure_row_get_instance_private (self);
}

static gboolean
is_same (double a, double b)
{
  return fabs (a - b) <= CAV_TOLERANCE_POINT;
}

gboolean
cav_figure_row_is_pending (CavFigureRow *self)
{
  CavFigureRowPrivate *priv = cav_figure_row_get_private (self);

  return g_strcmp0 (gtk_editable_get_text (GTK_EDITABLE (priv->entry)), priv->shown) != 0;
}

/* The state of the text: what one sees, what assistive technology says, what the property says. */

static void
show_message (CavFigureRow *self, const char *message)
{
  CavFigureRowPrivate *priv = cav_figure_row_get_private (self);

  if (message != NULL)
    {
      gtk_label_set_text (priv->message, message);
      gtk_accessible_update_property (GTK_ACCESSIBLE (priv->entry),
                                      GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, message, -1);
    }
  else
    gtk_accessible_reset_property (GTK_ACCESSIBLE (priv->entry),
                                   GTK_ACCESSIBLE_PROPERTY_DESCRIPTION);
  gtk_widget_set_visible (priv->trouble, message != NULL);
}

static void
set_valid (CavFigureRow *self, gboolean valid, const char *message)
{
  CavFigureRowPrivate *priv = cav_figure_row_get_private (self);
  GtkWidget *entry = GTK_WIDGET (priv->entry);

  if (message != NULL)
    gtk_widget_add_css_class (entry, "error");
  else
    gtk_widget_remove_css_class (entry, "error");
  gtk_accessible_update_state (GTK_ACCESSIBLE (entry), GTK_ACCESSIBLE_STATE_INVALID,
                               valid ? GTK_ACCESSIBLE_INVALID_FALSE : GTK_ACCESSIBLE_INVALID_TRUE,
                               -1);
  show_message (self, message);
  if (priv->valid == valid)
    return;
  priv->valid = valid;
  g_object_notify_by_pspec (G_OBJECT (self), properties[PROP_VALID]);
}

static gboolean
check_range (CavFigureRow *self, double value, GError **error)
{
  CavFigureRowPrivate *priv = cav_figure_row_get_private (self);
  CavFigureRowClass *klass = CAV_FIGURE_ROW_GET_CLASS (self);
  g_autofree char *minimum = NULL;
  g_autofree char *maximum = NULL;

  if (isfinite (value) && value >= priv->minimum - CAV_TOLERANCE_POINT
      && value <= priv->maximum + CAV_TOLERANCE_POINT)
    return TRUE;
  minimum = klass->format_with_unit (self, priv->minimum);
  maximum = klass->format_with_unit (self, priv->maximum);
  /* Translators: the range of a number, each end with its unit */
  g_set_error (error, G_IO_ERROR, G_IO_ERROR_INVALID_ARGUMENT, _ ("Enter a value from %s to %s."),
               minimum, maximum);
  return FALSE;
}

static gboolean
parse (CavFigureRow *self, const char *text, double *out_value, GError **error)
{
  return CAV_FIGURE_ROW_GET_CLASS (self)->parse (self, text, out_value, error)
         && check_range (self, *out_value, error);
}

/* TRUE where a text may only be the beginning of what is meant: "2" on the way to 240, too. */
static gboolean
is_unfinished (CavFigureRow *self, const char *text)
{
  const char *last;
  double value;

  if (*text == '\0')
    return TRUE;
  last = g_utf8_find_prev_char (text, text + strlen (text));
  if (strspn (text, "0123456789") == strlen (text)
      && CAV_FIGURE_ROW_GET_CLASS (self)->parse (self, text, &value, NULL))
    return value < cav_figure_row_get_private (self)->minimum;
  return last != NULL && g_utf8_strchr (UNFINISHED, -1, g_utf8_get_char (last)) != NULL;
}

static void
look_at_text (CavFigureRow *self, gboolean is_final)
{
  CavFigureRowPrivate *priv = cav_figure_row_get_private (self);
  const char *text = gtk_editable_get_text (GTK_EDITABLE (priv->entry));
  g_autoptr (GError) error = NULL;

  if (!cav_figure_row_is_pending (self))
    {
      set_valid (self, TRUE, NULL);
      return;
    }
  if (parse (self, text, &priv->pending, &error))
    {
      set_valid (self, TRUE, NULL);
      g_signal_emit (self, signals[TYPED], 0, priv->pending);
      return;
    }
  set_valid (self, FALSE, is_final || !is_unfinished (self, text) ? error->message : NULL);
}

static void
fill_entry (CavFigureRow *self)
{
  CavFigureRowPrivate *priv = cav_figure_row_get_private (self);
  CavFigureRowClass *klass = CAV_FIGURE_ROW_GET_CLASS (self);

  g_free (priv->shown);
  priv->shown = priv->mixed ? g_strdup ("") : klass->format (self, priv->value);
  priv->is_filling = TRUE;
  gtk_editable_set_text (GTK_EDITABLE (priv->entry), priv->shown);
  gtk_editable_set_position (GTK_EDITABLE (priv->entry), -1);
  priv->is_filling = FALSE;
  gtk_entry_set_placeholder_text (priv->entry, priv->mixed ? _ ("various") : NULL);
  set_valid (self, TRUE, NULL);
}

/* Somebody has entered a value. */
static void
enter (CavFigureRow *self, double value)
{
  CavFigureRowPrivate *priv = cav_figure_row_get_private (self);
  gboolean is_other = priv->mixed || !is_same (value, priv->value);

  if (is_other)
    {
      priv->value = value;
      priv->mixed = FALSE;
    }
  fill_entry (self);
  if (!is_other)
    return;
  g_object_ref (self);
  g_object_notify_by_pspec (G_OBJECT (self), properties[PROP_VALUE]);
  g_signal_emit (self, signals[APPLIED], 0, value);
  g_object_unref (self);
}

void
cav_figure_row_step (CavFigureRow *self, double steps, gboolean fine)
{
  CavFigureRowPrivate *priv = cav_figure_row_get_private (self);
  double size = CAV_FIGURE_ROW_GET_CLASS (self)->get_step (self, fine);

  if (cav_figure_row_is_pending (self) ? !priv->valid : priv->mixed)
    return;
  enter (self,
         CLAMP (cav_figure_row_get_typed (self) + steps * size, priv->minimum, priv->maximum));
}

gboolean
cav_figure_row_give_up (CavFigureRow *self)
{
  CavFigureRowPrivate *priv = cav_figure_row_get_private (self);

  if (!cav_figure_row_is_pending (self))
    return FALSE;
  fill_entry (self);
  /* Whoever followed what was typed follows back. */
  if (!priv->mixed)
    g_signal_emit (self, signals[TYPED], 0, priv->value);
  return TRUE;
}

/* Callbacks */

static void
text_changed_cb (CavFigureRow *self)
{
  if (!cav_figure_row_get_private (self)->is_filling)
    look_at_text (self, FALSE);
}

static void
activate_cb (CavFigureRow *self)
{
  if (cav_figure_row_apply (self))
    gtk_editable_select_region (GTK_EDITABLE (cav_figure_row_get_private (self)->entry), 0, -1);
}

static void
focus_leave_cb (CavFigureRow *self)
{
  CavFigureRowPrivate *priv = cav_figure_row_get_private (self);

  /* An entry that was emptied and left has not been given a number. */
  if (*gtk_editable_get_text (GTK_EDITABLE (priv->entry)) == '\0')
    fill_entry (self);
  else
    cav_figure_row_apply (self);
}

/* Class */

static void
label_entry (CavFigureRow *self)
{
  CavFigureRowPrivate *priv = cav_figure_row_get_private (self);
  const char *title = adw_preferences_row_get_title (ADW_PREFERENCES_ROW (self));
  const char *unit = CAV_FIGURE_ROW_GET_CLASS (self)->get_unit (self);
  g_autofree char *label
      = *unit != '\0' ? g_strdup_printf ("%s, %s", title, unit) : g_strdup (title);

  /* Not empty, or it would be called by the name of its class. */
  gtk_label_set_text (priv->unit, *unit != '\0' ? unit : "\302\240");
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, title, -1);
  gtk_accessible_update_property (GTK_ACCESSIBLE (priv->entry), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  label, -1);
}

static void
cav_figure_row_constructed (GObject *object)
{
  CavFigureRow *self = CAV_FIGURE_ROW (object);

  G_OBJECT_CLASS (cav_figure_row_parent_class)->constructed (object);
  g_signal_connect (self, "notify::title", G_CALLBACK (label_entry), NULL);
  cav_figure_row_refresh (self);
}

static void
cav_figure_row_dispose (GObject *object)
{
  CavFigureRowPrivate *priv = cav_figure_row_get_private (CAV_FIGURE_ROW (object));
  GtkWidget *child = gtk_list_box_row_get_child (GTK_LIST_BOX_ROW (object));

  /* Leaving the window takes the focus away, which is not to enter anything. */
  priv->is_filling = TRUE;
  if (child != NULL)
    gtk_list_box_row_set_child (GTK_LIST_BOX_ROW (object), NULL);
  G_OBJECT_CLASS (cav_figure_row_parent_class)->dispose (object);
}

static void
cav_figure_row_finalize (GObject *object)
{
  g_free (cav_figure_row_get_private (CAV_FIGURE_ROW (object))->shown);
  G_OBJECT_CLASS (cav_figure_row_parent_class)->finalize (object);
}

static void
cav_figure_row_get_property (GObject *object, guint id, GValue *value, GParamSpec *pspec)
{
  CavFigureRowPrivate *priv = cav_figure_row_get_private (CAV_FIGURE_ROW (object));

  switch (id)
    {
    case PROP_VALUE:
      g_value_set_double (value, priv->value);
      break;
    case PROP_MINIMUM:
      g_value_set_double (value, priv->minimum);
      break;
    case PROP_MAXIMUM:
      g_value_set_double (value, priv->maximum);
      break;
    case PROP_VALID:
      g_value_set_boolean (value, priv->valid);
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
    }
}

static void
cav_figure_row_set_property (GObject *object, guint id, const GValue *value, GParamSpec *pspec)
{
  CavFigureRow *self = CAV_FIGURE_ROW (object);
  CavFigureRowPrivate *priv = cav_figure_row_get_private (self);

  switch (id)
    {
    case PROP_VALUE:
      cav_figure_row_set_value (self, g_value_get_double (value));
      break;
    case PROP_MINIMUM:
      priv->minimum = g_value_get_double (value);
      break;
    case PROP_MAXIMUM:
      priv->maximum = g_value_get_double (value);
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
    }
}

static void
cav_figure_row_class_init (CavFigureRowClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  const GParamFlags flags = G_PARAM_READWRITE | G_PARAM_EXPLICIT_NOTIFY | G_PARAM_STATIC_STRINGS;

  object_class->constructed = cav_figure_row_constructed;
  object_class->dispose = cav_figure_row_dispose;
  object_class->finalize = cav_figure_row_finalize;
  object_class->get_property = cav_figure_row_get_property;
  object_class->set_property = cav_figure_row_set_property;

  properties[PROP_VALUE]
      = g_param_spec_double ("value", NULL, NULL, -G_MAXDOUBLE, G_MAXDOUBLE, 0.0, flags);
  properties[PROP_MINIMUM]
      = g_param_spec_double ("minimum", NULL, NULL, -G_MAXDOUBLE, G_MAXDOUBLE, 0.0, flags);
  properties[PROP_MAXIMUM]
      = g_param_spec_double ("maximum", NULL, NULL, -G_MAXDOUBLE, G_MAXDOUBLE, 1000.0, flags);
  properties[PROP_VALID]
      = g_param_spec_boolean ("valid", NULL, NULL, TRUE, G_PARAM_READABLE | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPS, properties);

  signals[APPLIED] = g_signal_new ("applied", CAV_TYPE_FIGURE_ROW, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                   NULL, G_TYPE_NONE, 1, G_TYPE_DOUBLE);
  signals[TYPED] = g_signal_new ("typed", CAV_TYPE_FIGURE_ROW, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                 NULL, G_TYPE_NONE, 1, G_TYPE_DOUBLE);

  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/org/cavetto/Cavetto/cav-figure-row.ui");
  gtk_widget_class_bind_template_child_private (widget_class, CavFigureRow, entry);
  gtk_widget_class_bind_template_child_private (widget_class, CavFigureRow, unit);
  gtk_widget_class_bind_template_child_private (widget_class, CavFigureRow, trouble);
  gtk_widget_class_bind_template_child_private (widget_class, CavFigureRow, message);
  gtk_widget_class_bind_template_callback (widget_class, text_changed_cb);
  gtk_widget_class_bind_template_callback (widget_class, activate_cb);
  gtk_widget_class_bind_template_callback (widget_class, focus_leave_cb);
  cav_figure_row_bind_input (widget_class);
}

static void
cav_figure_row_init (CavFigureRow *self)
{
  CavFigureRowPrivate *priv = cav_figure_row_get_private (self);

  priv->maximum = 1000.0;
  priv->valid = TRUE;
  gtk_widget_init_template (GTK_WIDGET (self));
}

double
cav_figure_row_get_value (CavFigureRow *self)
{
  g_return_val_if_fail (CAV_IS_FIGURE_ROW (self), 0.0);

  return cav_figure_row_get_private (self)->value;
}

double
cav_figure_row_get_typed (CavFigureRow *self)
{
  CavFigureRowPrivate *priv;

  g_return_val_if_fail (CAV_IS_FIGURE_ROW (self), 0.0);

  priv = cav_figure_row_get_private (self);
  return priv->valid && cav_figure_row_is_pending (self) ? priv->pending : priv->value;
}

void
cav_figure_row_set_value (CavFigureRow *self, double value)
{
  CavFigureRowPrivate *priv;

  g_return_if_fail (CAV_IS_FIGURE_ROW (self));
  g_return_if_fail (isfinite (value));

  priv = cav_figure_row_get_private (self);
  if (!priv->mixed && is_same (priv->value, value))
    return;
  priv->value = value;
  priv->mixed = FALSE;
  if (priv->shown != NULL)
    fill_entry (self);
  g_object_notify_by_pspec (G_OBJECT (self), properties[PROP_VALUE]);
}

void
cav_figure_row_set_range (CavFigureRow *self, double minimum, double maximum)
{
  CavFigureRowPrivate *priv;

  g_return_if_fail (CAV_IS_FIGURE_ROW (self));
  g_return_if_fail (minimum <= maximum);

  priv = cav_figure_row_get_private (self);
  priv->minimum = minimum;
  priv->maximum = maximum;
  if (cav_figure_row_is_pending (self))
    look_at_text (self, FALSE);
}

void
cav_figure_row_set_mixed (CavFigureRow *self)
{
  CavFigureRowPrivate *priv;

  g_return_if_fail (CAV_IS_FIGURE_ROW (self));

  priv = cav_figure_row_get_private (self);
  if (priv->mixed)
    return;
  priv->mixed = TRUE;
  fill_entry (self);
}

gboolean
cav_figure_row_is_mixed (CavFigureRow *self)
{
  g_return_val_if_fail (CAV_IS_FIGURE_ROW (self), FALSE);

  return cav_figure_row_get_private (self)->mixed;
}

gboolean
cav_figure_row_is_valid (CavFigureRow *self)
{
  g_return_val_if_fail (CAV_IS_FIGURE_ROW (self), FALSE);

  return cav_figure_row_get_private (self)->valid;
}

gboolean
cav_figure_row_apply (CavFigureRow *self)
{
  CavFigureRowPrivate *priv;

  g_return_val_if_fail (CAV_IS_FIGURE_ROW (self), FALSE);

  priv = cav_figure_row_get_private (self);
  if (priv->is_filling || !cav_figure_row_is_pending (self))
    return TRUE;
  look_at_text (self, TRUE);
  if (!priv->valid)
    return FALSE;
  enter (self, priv->pending);
  return TRUE;
}

void
cav_figure_row_set_message (CavFigureRow *self, const char *message)
{
  g_return_if_fail (CAV_IS_FIGURE_ROW (self));

  set_valid (self, message == NULL, message);
}

const char *
cav_figure_row_get_message (CavFigureRow *self)
{
  CavFigureRowPrivate *priv;

  g_return_val_if_fail (CAV_IS_FIGURE_ROW (self), NULL);

  priv = cav_figure_row_get_private (self);
  return gtk_widget_get_visible (priv->trouble) ? gtk_label_get_text (priv->message) : NULL;
}

GtkEditable *
cav_figure_row_get_editable (CavFigureRow *self)
{
  g_return_val_if_fail (CAV_IS_FIGURE_ROW (self), NULL);

  return GTK_EDITABLE (cav_figure_row_get_private (self)->entry);
}

void
cav_figure_row_refresh (CavFigureRow *self)
{
  g_return_if_fail (CAV_IS_FIGURE_ROW (self));

  label_entry (self);
  fill_entry (self);
}
