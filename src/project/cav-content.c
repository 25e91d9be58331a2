/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "project/cav-content-private.h"

#include <string.h>

#include "geometry/cav-same.h"

static void
clear_cut_cb (gpointer data)
{
  CavCut *cut = data;

  g_clear_pointer (&cut->path, cav_path_free);
}

static void
unref_cut_cb (gpointer cut)
{
  g_atomic_rc_box_release_full (cut, clear_cut_cb);
}

static gpointer
ref_cut_cb (gconstpointer cut, gpointer user_data)
{
  return g_atomic_rc_box_acquire ((gpointer)cut);
}

/* (transfer full) A copy that can be shared. */
static CavCut *
new_shared_cut (const CavCut *cut)
{
  CavCut *shared = g_atomic_rc_box_dup (sizeof *cut, (gpointer)cut);

  if (cut->path != NULL)
    shared->path = cav_path_copy (cut->path);
  return shared;
}

static void
clear_shared_cb (gpointer data)
{
  CavShared *shared = data;

  shared->destroy (shared->value);
}

/* (transfer full) takes value. */
static CavShared *
shared_new (gpointer value, GDestroyNotify destroy)
{
  CavShared *shared = g_atomic_rc_box_new (CavShared);

  *shared = (CavShared){ value, destroy };
  return shared;
}

static void
shared_unref (CavShared *shared)
{
  g_atomic_rc_box_release_full (shared, clear_shared_cb);
}

static void
clear_content_cb (gpointer data)
{
  CavContent *content = data;

  g_ref_string_release (content->title);
  g_ref_string_release (content->notes);
  g_ptr_array_unref (content->cuts);
  shared_unref (content->shop);
  shared_unref (content->frame);
  shared_unref (content->lumber);
}

CavContent *
cav_content_new (void)
{
  CavContent *content = g_atomic_rc_box_new0 (CavContent);

  content->title = g_ref_string_new ("");
  content->notes = g_ref_string_new ("");
  content->cuts = g_ptr_array_new_with_free_func (unref_cut_cb);
  content->shop = shared_new (cav_shop_new_default (), (GDestroyNotify)cav_shop_free);
  content->frame = shared_new (cav_frame_settings_new (), (GDestroyNotify)cav_frame_settings_free);
  content->lumber = shared_new (cav_lumber_new (), (GDestroyNotify)cav_lumber_free);
  content->blank = (CavBlank){ .width = 50.0, .thickness = 25.0 };
  /* A frame of four rails, enough for one around an A3 sheet. */
  content->rails = 4;
  content->length = 3200.0;
  return content;
}

CavContent *
cav_content_ref (const CavContent *content)
{
  return g_atomic_rc_box_acquire ((gpointer)content);
}

void
cav_content_unref (const CavContent *content)
{
  if (content != NULL)
    g_atomic_rc_box_release_full ((gpointer)content, clear_content_cb);
}

CavContent *
cav_content_copy (const CavContent *content)
{
  CavContent *copy = g_atomic_rc_box_dup (sizeof *content, (gpointer)content);

  g_ref_string_acquire (copy->title);
  g_ref_string_acquire (copy->notes);
  g_ptr_array_ref (copy->cuts);
  g_atomic_rc_box_acquire (copy->shop);
  g_atomic_rc_box_acquire (copy->frame);
  g_atomic_rc_box_acquire (copy->lumber);
  return copy;
}

static gboolean
texts_equal (const GRefString *a, const GRefString *b)
{
  return a == b || strcmp (a, b) == 0;
}

static gboolean
cuts_equal (const GPtrArray *a, const GPtrArray *b)
{
  if (a == b)
    return TRUE;
  if (a->len != b->len)
    return FALSE;
  for (guint i = 0; i < a->len; i++)
    {
      const CavCut *one = g_ptr_array_index (a, i);
      const CavCut *other = g_ptr_array_index (b, i);

      if (one != other && !cav_cut_equal (one, other))
        return FALSE;
    }
  return TRUE;
}

guint
cav_content_compare (const CavContent *a, const CavContent *b)
{
  guint parts = 0;

  if (a == b)
    return 0;
  if (!texts_equal (a->title, b->title) || !texts_equal (a->notes, b->notes))
    parts |= CAV_PART_TEXTS;
  if (!cav_same (a->blank.width, b->blank.width)
      || !cav_same (a->blank.thickness, b->blank.thickness) || !cuts_equal (a->cuts, b->cuts))
    parts |= CAV_PART_SECTION;
  if (a->wood != b->wood)
    parts |= CAV_PART_WOOD;
  if (a->rails != b->rails || !cav_same (a->length, b->length))
    parts |= CAV_PART_RAILS;
  if (a->shop != b->shop && !cav_shop_equal (a->shop->value, b->shop->value))
    parts |= CAV_PART_SHOP;
  if (a->has_frame != b->has_frame
      || (a->frame != b->frame && !cav_frame_settings_equal (a->frame->value, b->frame->value)))
    parts |= CAV_PART_FRAME;
  if (a->lumber != b->lumber && !cav_lumber_equal (a->lumber->value, b->lumber->value))
    parts |= CAV_PART_BOARDS;
  return parts;
}

void
cav_content_take_text (GRefString **field, const char *text)
{
  GRefString *taken = g_ref_string_new (text);

  g_ref_string_release (*field);
  *field = taken;
}

void
cav_content_take_shared (CavShared **field, gpointer value, GDestroyNotify destroy)
{
  shared_unref (*field);
  *field = shared_new (value, destroy);
}

void
cav_content_set_frame (CavContent *content, const CavFrameSettings *settings)
{
  /* Copied before the old ones go: settings may be part of them. */
  CavFrameSettings *copy
      = settings != NULL ? cav_frame_settings_copy (settings) : cav_frame_settings_new ();

  cav_content_take_shared (&content->frame, copy, (GDestroyNotify)cav_frame_settings_free);
  content->has_frame = settings != NULL;
}

void
cav_content_splice (
    CavContent *content, guint index, guint n_removed, const CavCut *const *added, guint n_added)
{
  GPtrArray *cuts = g_ptr_array_new_full (content->cuts->len + n_added, unref_cut_cb);

  for (guint i = 0; i < index; i++)
    g_ptr_array_add (cuts, ref_cut_cb (g_ptr_array_index (content->cuts, i), NULL));
  for (guint i = 0; i < n_added; i++)
    g_ptr_array_add (cuts, new_shared_cut (added[i]));
  for (guint i = index + n_removed; i < content->cuts->len; i++)
    g_ptr_array_add (cuts, ref_cut_cb (g_ptr_array_index (content->cuts, i), NULL));
  g_ptr_array_unref (content->cuts);
  content->cuts = cuts;
}

void
cav_content_set_cuts (CavContent *content,
                      const guint *indices,
                      const CavCut *const *cuts,
                      guint n_cuts)
{
  GPtrArray *next = g_ptr_array_copy (content->cuts, ref_cut_cb, NULL);

  for (guint i = 0; i < n_cuts; i++)
    {
      unref_cut_cb (g_ptr_array_index (next, indices[i]));
      g_ptr_array_index (next, indices[i]) = new_shared_cut (cuts[i]);
    }
  g_ptr_array_unref (content->cuts);
  content->cuts = next;
}

void
cav_content_remove_cuts (CavContent *content, const guint *indices, guint n_indices)
{
  g_autofree gboolean *goes = g_new0 (gboolean, content->cuts->len);
  GPtrArray *next = g_ptr_array_new_with_free_func (unref_cut_cb);

  for (guint i = 0; i < n_indices; i++)
    goes[indices[i]] = TRUE;
  for (guint i = 0; i < content->cuts->len; i++)
    if (!goes[i])
      g_ptr_array_add (next, ref_cut_cb (g_ptr_array_index (content->cuts, i), NULL));
  g_ptr_array_unref (content->cuts);
  content->cuts = next;
}
