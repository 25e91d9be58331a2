/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-selection.h"

#include "profile/cav-cut.h"

#include <string.h>

struct _CavSelection
{
  GObject parent_instance;

  /* Owned */
  GArray *cuts; /* guint, rising */

  /* State */
  int pass;
  double progress;
  gboolean is_playing;
  int kind;
};

G_DEFINE_FINAL_TYPE (CavSelection, cav_selection, G_TYPE_OBJECT)

enum
{
  PROP_KIND = 1,
  PROP_PASS,
  PROP_PLAYING,
  PROP_PROGRESS,
  N_PROPERTIES,
};

enum
{
  CUTS_CHANGED,
  N_SIGNALS,
};

static GParamSpec *properties[N_PROPERTIES];
static guint signals[N_SIGNALS];

static int
compare_indices (gconstpointer a, gconstpointer b)
{
  guint first = *(const guint *)a;
  guint second = *(const guint *)b;

  return first < second ? -1 : first > second;
}

static gboolean
is_same (const GArray *a, const GArray *b)
{
  return a->len == b->len
         && (a->len == 0 || memcmp (a->data, b->data, a->len * sizeof (guint)) == 0);
}

/* (transfer full) */
static void
take_cuts (CavSelection *self, GArray *cuts)
{
  gboolean same = is_same (self->cuts, cuts);

  g_array_unref (self->cuts);
  self->cuts = cuts;
  if (!same)
    g_signal_emit (self, signals[CUTS_CHANGED], 0);
}

static void
cav_selection_get_property (GObject *object, guint id, GValue *value, GParamSpec *spec)
{
  CavSelection *self = CAV_SELECTION (object);

  switch (id)
    {
    case PROP_KIND:
      g_value_set_int (value, self->kind);
      break;
    case PROP_PASS:
      g_value_set_int (value, self->pass);
      break;
    case PROP_PLAYING:
      g_value_set_boolean (value, self->is_playing);
      break;
    case PROP_PROGRESS:
      g_value_set_double (value, self->progress);
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, spec);
    }
}

static void
cav_selection_set_property (GObject *object, guint id, const GValue *value, GParamSpec *spec)
{
  CavSelection *self = CAV_SELECTION (object);

  switch (id)
    {
    case PROP_KIND:
      cav_selection_set_kind (self, g_value_get_int (value));
      break;
    case PROP_PASS:
      cav_selection_set_pass (self, g_value_get_int (value));
      break;
    case PROP_PLAYING:
      cav_selection_set_playing (self, g_value_get_boolean (value));
      break;
    case PROP_PROGRESS:
      cav_selection_set_progress (self, g_value_get_double (value));
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, spec);
    }
}

static void
cav_selection_finalize (GObject *object)
{
  CavSelection *self = CAV_SELECTION (object);

  g_array_unref (self->cuts);
  G_OBJECT_CLASS (cav_selection_parent_class)->finalize (object);
}

static void
cav_selection_class_init (CavSelectionClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);

  object_class->get_property = cav_selection_get_property;
  object_class->set_property = cav_selection_set_property;
  object_class->finalize = cav_selection_finalize;

  properties[PROP_KIND]
      = g_param_spec_int ("kind", NULL, NULL, CAV_NO_KIND, CAV_N_CUT_KINDS - 1, CAV_NO_KIND,
                          G_PARAM_READWRITE | G_PARAM_EXPLICIT_NOTIFY | G_PARAM_STATIC_STRINGS);
  properties[PROP_PROGRESS]
      = g_param_spec_double ("progress", NULL, NULL, 0, 1, 1,
                             G_PARAM_READWRITE | G_PARAM_EXPLICIT_NOTIFY | G_PARAM_STATIC_STRINGS);
  properties[PROP_PLAYING]
      = g_param_spec_boolean ("playing", NULL, NULL, FALSE,
                              G_PARAM_READWRITE | G_PARAM_EXPLICIT_NOTIFY | G_PARAM_STATIC_STRINGS);
  properties[PROP_PASS]
      = g_param_spec_int ("pass", NULL, NULL, CAV_NO_PASS, G_MAXINT, CAV_NO_PASS,
                          G_PARAM_READWRITE | G_PARAM_EXPLICIT_NOTIFY | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPERTIES, properties);
  signals[CUTS_CHANGED] = g_signal_new ("cuts-changed", CAV_TYPE_SELECTION, G_SIGNAL_RUN_LAST, 0,
                                        NULL, NULL, NULL, G_TYPE_NONE, 0);
}

static void
cav_selection_init (CavSelection *self)
{
  self->cuts = g_array_new (FALSE, FALSE, sizeof (guint));
  self->pass = CAV_NO_PASS;
  self->progress = 1;
  self->kind = CAV_NO_KIND;
}

CavSelection *
cav_selection_new (void)
{
  return g_object_new (CAV_TYPE_SELECTION, NULL);
}

guint
cav_selection_get_cut_count (CavSelection *self)
{
  g_return_val_if_fail (CAV_IS_SELECTION (self), 0);
  return self->cuts->len;
}

guint
cav_selection_get_cut (CavSelection *self, guint nth)
{
  g_return_val_if_fail (CAV_IS_SELECTION (self), 0);
  g_return_val_if_fail (nth < self->cuts->len, 0);
  return g_array_index (self->cuts, guint, nth);
}

gboolean
cav_selection_has_cut (CavSelection *self, guint index)
{
  g_return_val_if_fail (CAV_IS_SELECTION (self), FALSE);
  return g_array_binary_search (self->cuts, &index, compare_indices, NULL);
}

gboolean
cav_selection_get_single_cut (CavSelection *self, guint *out_index)
{
  g_return_val_if_fail (CAV_IS_SELECTION (self), FALSE);
  if (self->cuts->len != 1)
    return FALSE;
  if (out_index != NULL)
    *out_index = g_array_index (self->cuts, guint, 0);
  return TRUE;
}

void
cav_selection_set_cuts (CavSelection *self, const guint *indices, guint n_indices)
{
  GArray *cuts;

  g_return_if_fail (CAV_IS_SELECTION (self));
  g_return_if_fail (indices != NULL || n_indices == 0);
  cuts = g_array_sized_new (FALSE, FALSE, sizeof (guint), n_indices);
  if (n_indices > 0)
    g_array_append_vals (cuts, indices, n_indices);
  g_array_sort (cuts, compare_indices);
  take_cuts (self, cuts);
}

void
cav_selection_choose_cut (CavSelection *self, guint index)
{
  cav_selection_set_cuts (self, &index, 1);
}

void
cav_selection_toggle_cut (CavSelection *self, guint index)
{
  GArray *cuts;
  guint at;

  g_return_if_fail (CAV_IS_SELECTION (self));
  cuts = g_array_copy (self->cuts);
  if (g_array_binary_search (cuts, &index, compare_indices, &at))
    g_array_remove_index (cuts, at);
  else
    g_array_append_val (cuts, index);
  g_array_sort (cuts, compare_indices);
  take_cuts (self, cuts);
}

void
cav_selection_clear_cuts (CavSelection *self)
{
  cav_selection_set_cuts (self, NULL, 0);
}

void
cav_selection_limit_cuts (CavSelection *self, guint count)
{
  g_return_if_fail (CAV_IS_SELECTION (self));
  for (guint i = 0; i < self->cuts->len; i++)
    if (g_array_index (self->cuts, guint, i) >= count)
      {
        g_autoptr (GArray) all = g_array_ref (self->cuts);

        cav_selection_set_cuts (self, (const guint *)(void *)all->data, i);
        return;
      }
}

int
cav_selection_get_pass (CavSelection *self)
{
  g_return_val_if_fail (CAV_IS_SELECTION (self), CAV_NO_PASS);
  return self->pass;
}

void
cav_selection_set_pass (CavSelection *self, int pass)
{
  g_return_if_fail (CAV_IS_SELECTION (self));
  g_return_if_fail (pass >= CAV_NO_PASS);
  if (pass == self->pass)
    return;
  self->pass = pass;
  if (pass != CAV_NO_PASS)
    cav_selection_set_kind (self, CAV_NO_KIND);
  g_object_notify_by_pspec (G_OBJECT (self), properties[PROP_PASS]);
}

double
cav_selection_get_progress (CavSelection *self)
{
  g_return_val_if_fail (CAV_IS_SELECTION (self), 1);
  return self->progress;
}

void
cav_selection_set_progress (CavSelection *self, double progress)
{
  g_return_if_fail (CAV_IS_SELECTION (self));
  g_return_if_fail (progress >= 0 && progress <= 1);
  self->progress = progress;
  g_object_notify_by_pspec (G_OBJECT (self), properties[PROP_PROGRESS]);
}

gboolean
cav_selection_is_playing (CavSelection *self)
{
  g_return_val_if_fail (CAV_IS_SELECTION (self), FALSE);
  return self->is_playing;
}

void
cav_selection_set_playing (CavSelection *self, gboolean is_playing)
{
  g_return_if_fail (CAV_IS_SELECTION (self));
  if (is_playing == self->is_playing)
    return;
  self->is_playing = is_playing;
  g_object_notify_by_pspec (G_OBJECT (self), properties[PROP_PLAYING]);
}

int
cav_selection_get_kind (CavSelection *self)
{
  g_return_val_if_fail (CAV_IS_SELECTION (self), CAV_NO_KIND);
  return self->kind;
}

void
cav_selection_set_kind (CavSelection *self, int kind)
{
  g_return_if_fail (CAV_IS_SELECTION (self));
  g_return_if_fail (kind >= CAV_NO_KIND && kind < CAV_N_CUT_KINDS);
  if (kind == self->kind)
    return;
  self->kind = kind;
  if (kind != CAV_NO_KIND)
    cav_selection_set_pass (self, CAV_NO_PASS);
  g_object_notify_by_pspec (G_OBJECT (self), properties[PROP_KIND]);
}
