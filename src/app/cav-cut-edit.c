/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-cut-edit.h"

#include <glib/gi18n.h>

#include "app/cav-cut-words.h"

GArray *
cav_cut_edit_get_chosen (CavDocument *document)
{
  CavSelection *selection;
  guint count;
  GArray *indices = g_array_new (FALSE, FALSE, sizeof (guint));

  g_return_val_if_fail (CAV_IS_DOCUMENT (document), indices);

  selection = cav_document_get_selection (document);
  count = cav_project_get_cut_count (cav_document_get_project (document));
  for (guint i = 0; i < cav_selection_get_cut_count (selection); i++)
    {
      guint index = cav_selection_get_cut (selection, i);

      if (index < count)
        g_array_append_val (indices, index);
    }
  return indices;
}

GPtrArray *
cav_cut_edit_copy_chosen (CavDocument *document)
{
  g_autoptr (GArray) indices = NULL;
  GPtrArray *cuts = g_ptr_array_new_with_free_func ((GDestroyNotify)cav_cut_free);

  g_return_val_if_fail (CAV_IS_DOCUMENT (document), cuts);

  indices = cav_cut_edit_get_chosen (document);
  for (guint i = 0; i < indices->len; i++)
    g_ptr_array_add (cuts, cav_cut_copy (cav_project_get_cut (cav_document_get_project (document),
                                                              g_array_index (indices, guint, i))));
  return cuts;
}

void
cav_cut_edit_replace_chosen (CavDocument *document, const GPtrArray *cuts, const char *name)
{
  g_autoptr (GArray) indices = NULL;
  CavProject *project;

  g_return_if_fail (CAV_IS_DOCUMENT (document));
  g_return_if_fail (cuts != NULL && name != NULL);

  indices = cav_cut_edit_get_chosen (document);
  g_return_if_fail (indices->len == cuts->len);
  if (indices->len == 0)
    return;
  project = cav_document_get_project (document);
  cav_project_begin (project, name);
  cav_project_set_cuts (project, (const guint *)indices->data, cuts);
  cav_project_end (project);
}

static const CavCut *
get_cut (const GPtrArray *cuts, guint nth)
{
  return g_ptr_array_index (cuts, nth);
}

static gboolean
are_still_there (CavProject *project, const GArray *indices, const GPtrArray *cuts)
{
  for (guint i = 0; i < indices->len; i++)
    {
      guint index = g_array_index (indices, guint, i);

      if (index >= cav_project_get_cut_count (project)
          || !cav_cut_equal (cav_project_get_cut (project, index), get_cut (cuts, i)))
        return FALSE;
    }
  return TRUE;
}

/* (transfer full) */
static char *
dup_number_step (const GPtrArray *cuts, CavCutNumber number)
{
  const CavCut *cut = get_cut (cuts, 0);

  if (cuts->len > 1)
    return g_strdup (C_ ("step", "change cuts"));
  /* Translators: the label of a number, and a kind of cut. */
  return g_strdup_printf (C_ ("step", "change “%s” of %s"),
                          cav_cut_words_get_number (cut, cav_cut_words_find_number (cut, number)),
                          cav_cut_kind_get_word (cut->kind));
}

void
cav_cut_edit_set_number (CavDocument *document,
                         const GArray *indices,
                         const GPtrArray *cuts,
                         CavCutNumber number,
                         double value)
{
  g_autoptr (GPtrArray) changed = g_ptr_array_new_with_free_func ((GDestroyNotify)cav_cut_free);
  g_autofree char *name = NULL;
  CavProject *project;

  g_return_if_fail (CAV_IS_DOCUMENT (document));
  g_return_if_fail (indices != NULL && cuts != NULL && indices->len == cuts->len);

  project = cav_document_get_project (document);
  if (cuts->len == 0 || !are_still_there (project, indices, cuts))
    return;
  for (guint i = 0; i < cuts->len; i++)
    {
      CavCut *cut = cav_cut_copy (get_cut (cuts, i));

      cut->numbers[number] = value;
      g_ptr_array_add (changed, cut);
    }
  name = dup_number_step (changed, number);
  cav_project_begin (project, name);
  cav_project_set_cuts (project, (const guint *)(gpointer)indices->data, changed);
  cav_project_end (project);
}

void
cav_cut_edit_set_place (CavDocument *document, const CavCutPlace *place)
{
  g_autoptr (GPtrArray) cuts = NULL;
  g_autofree char *name = NULL;
  CavBlank blank;

  g_return_if_fail (CAV_IS_DOCUMENT (document) && place != NULL);

  cuts = cav_cut_edit_copy_chosen (document);
  g_return_if_fail (cuts->len == 1);
  blank = cav_project_get_blank (cav_document_get_project (document));
  cav_cut_place_move (place, g_ptr_array_index (cuts, 0), &blank);
  name = g_strdup_printf (C_ ("step", "change place of %s"),
                          cav_cut_kind_get_word (get_cut (cuts, 0)->kind));
  cav_cut_edit_replace_chosen (document, cuts, name);
}

void
cav_cut_edit_set_form (CavDocument *document, CavCutForm form)
{
  g_autoptr (GPtrArray) cuts = NULL;
  g_autofree char *name = NULL;

  g_return_if_fail (CAV_IS_DOCUMENT (document));

  cuts = cav_cut_edit_copy_chosen (document);
  g_return_if_fail (cuts->len == 1);
  ((CavCut *)g_ptr_array_index (cuts, 0))->form = form;
  name = g_strdup_printf (C_ ("step", "change form of %s"),
                          cav_cut_kind_get_word (get_cut (cuts, 0)->kind));
  cav_cut_edit_replace_chosen (document, cuts, name);
}

void
cav_cut_edit_delete (CavDocument *document)
{
  g_autoptr (GArray) indices = NULL;
  CavProject *project;

  g_return_if_fail (CAV_IS_DOCUMENT (document));

  indices = cav_cut_edit_get_chosen (document);
  if (indices->len == 0)
    return;
  project = cav_document_get_project (document);
  /* Nobody is to look at a cut that is not there. */
  cav_selection_clear_cuts (cav_document_get_selection (document));
  cav_project_begin (project,
                     indices->len == 1 ? C_ ("step", "delete cut") : C_ ("step", "delete cuts"));
  cav_project_remove_cuts (project, (const guint *)indices->data, indices->len);
  cav_project_end (project);
}

void
cav_cut_edit_mirror (CavDocument *document, CavMirror mirror)
{
  g_autoptr (GPtrArray) cuts = NULL;
  g_autoptr (GPtrArray) mirrored = NULL;
  CavBlank blank;

  g_return_if_fail (CAV_IS_DOCUMENT (document));

  cuts = cav_cut_edit_copy_chosen (document);
  blank = cav_project_get_blank (cav_document_get_project (document));
  mirrored = cav_arrange_mirror (cuts, &blank, mirror);
  cav_cut_edit_replace_chosen (document, mirrored, C_ ("step", "mirror"));
}

void
cav_cut_edit_align (CavDocument *document, CavAlignment align)
{
  g_autoptr (GPtrArray) cuts = NULL;
  g_autoptr (GPtrArray) aligned = NULL;
  CavBlank blank;

  g_return_if_fail (CAV_IS_DOCUMENT (document));

  cuts = cav_cut_edit_copy_chosen (document);
  blank = cav_project_get_blank (cav_document_get_project (document));
  aligned = cav_arrange_align (cuts, &blank, align);
  cav_cut_edit_replace_chosen (document, aligned, C_ ("step", "align"));
}
