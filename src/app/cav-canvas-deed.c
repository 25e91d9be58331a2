/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <glib/gi18n.h>
#include <math.h>

#include "app/cav-canvas-private.h"
#include "app/cav-cut-edit.h"
#include "app/cav-length-text.h"
#include "project/cav-arrange.h"

/*
 * What a press on the section becomes. Each deed is one step of the project: it is opened at the
 * first movement, so that a click leaves none, and everything is worked out anew from what was at
 * the begin, so that nothing adds up.
 */

void
cav_deed_clear (CavSectionCanvas *self)
{
  g_clear_pointer (&self->drag.before, cav_cut_free);
  g_clear_pointer (&self->drag.all_before, g_ptr_array_unref);
  g_clear_pointer (&self->drag.indices, g_array_unref);
  g_clear_pointer (&self->drag.snapper, cav_snapper_free);
  g_clear_object (&self->drag.stage);
  self->drag = (CavDrag){ .deed = CAV_DEED_NONE, .held = -1 };
  if (self->fit_waits)
    gtk_widget_queue_allocate (GTK_WIDGET (self));
}

typedef enum
{
  STEP_MOVE,
  STEP_RESIZE,
  STEP_DRAW,
} Step;

/* What is done to the cut, or to several where it is NULL. (transfer full) */
static char *
dup_step_name (Step step, const CavCut *cut)
{
  const char *kind = cut != NULL ? cav_cut_kind_get_word (cut->kind) : NULL;

  switch (step)
    {
    case STEP_MOVE:
      /* Translators: as in “Undo move cove”; %s is a kind of cut. */
      return kind != NULL ? g_strdup_printf (C_ ("step", "move %s"), kind)
                          : g_strdup (C_ ("step", "move cuts"));
    case STEP_RESIZE:
      return kind != NULL ? g_strdup_printf (C_ ("step", "resize %s"), kind)
                          : g_strdup (C_ ("step", "resize cuts"));
    case STEP_DRAW:
      return kind != NULL ? g_strdup_printf (C_ ("step", "draw %s"), kind)
                          : g_strdup (C_ ("step", "draw cuts"));
    }
  g_return_val_if_reached (NULL);
}

static void
begin_step (CavSectionCanvas *self, Step step, const CavCut *cut)
{
  g_autofree char *name = dup_step_name (step, cut);

  cav_project_begin (cav_canvas_get_project (self), name);
  self->drag.in_step = TRUE;
}

static void
end_step (CavSectionCanvas *self)
{
  if (self->drag.in_step)
    cav_project_end (cav_canvas_get_project (self));
  self->drag.in_step = FALSE;
}

void
cav_deed_abandon (CavSectionCanvas *self)
{
  gboolean in_step = self->drag.in_step;

  if (self->drag.deed == CAV_DEED_PATH)
    {
      cav_path_tool_abandon (self);
      return;
    }
  if (self->drag.deed == CAV_DEED_NONE)
    return;
  cav_canvas_close_entry (self);
  cav_deed_clear (self);
  if (in_step)
    cav_project_abandon (cav_canvas_get_project (self));
  cav_canvas_set_figure (self, FALSE, NULL);
  cav_canvas_update_hover (self);
}

void
cav_deed_finish (CavSectionCanvas *self)
{
  gboolean drawn = self->drag.deed == CAV_DEED_DRAW && self->drag.has_cut;

  end_step (self);
  cav_deed_clear (self);
  if (!self->is_refused)
    cav_canvas_set_figure (self, FALSE, NULL);
  if (drawn)
    cav_selection_set_kind (cav_canvas_get_selection (self), CAV_NO_KIND);
  cav_canvas_update_words (self);
}

static void
press_to_choose (CavSectionCanvas *self)
{
  CavSelection *selection = cav_canvas_get_selection (self);
  CavDrag *drag = &self->drag;

  drag->hit = cav_section_hit (&self->drawn_blank, self->shapes, cav_canvas_get_handles (self),
                               &self->view, drag->begin, CAV_CANVAS_TOLERANCE);
  if (drag->hit.kind != CAV_HIT_CUT || drag->shift)
    return;
  /* What is chosen already stays so, for it may be moved together. */
  if (!cav_selection_has_cut (selection, drag->hit.index))
    cav_selection_choose_cut (selection, drag->hit.index);
}

void
cav_deed_press (CavSectionCanvas *self, CavPoint pixel, gboolean shift)
{
  CavDrag *drag = &self->drag;

  if (drag->deed == CAV_DEED_PATH)
    {
      cav_path_tool_press (self, pixel);
      return;
    }
  cav_canvas_enter_typed (self);
  cav_deed_abandon (self);
  cav_canvas_set_figure (self, FALSE, NULL);
  *drag = (CavDrag){ .deed = self->space_held ? CAV_DEED_PAN : CAV_DEED_PRESSED,
                     .shift = shift,
                     .begin = pixel,
                     .begin_wood = cav_canvas_to_wood (self, pixel),
                     .now = pixel,
                     .held = -1 };
  if (self->space_held)
    return;
  if (cav_selection_get_kind (cav_canvas_get_selection (self)) == CAV_CUT_DRAWN)
    cav_path_tool_press (self, pixel);
  else if (cav_selection_get_kind (cav_canvas_get_selection (self)) == CAV_NO_KIND)
    press_to_choose (self);
}

static void
begin_handle (CavSectionCanvas *self)
{
  CavDrag *drag = &self->drag;
  const GArray *handles = cav_canvas_get_handles (self);
  guint index;

  if (handles == NULL || drag->hit.index >= handles->len
      || !cav_selection_get_single_cut (cav_canvas_get_selection (self), &index))
    return;
  drag->handle = g_array_index (handles, CavHandle, drag->hit.index);
  drag->held = (int)drag->hit.index;
  drag->cut = index;
  drag->before = cav_cut_copy (cav_project_get_cut (cav_canvas_get_project (self), index));
  drag->snapper
      = cav_snapper_new (cav_canvas_get_project (self), &index, 1, cav_length_text_get_step ());
  begin_step (self, drag->handle.kind == CAV_HANDLE_MOVE ? STEP_MOVE : STEP_RESIZE, drag->before);
  drag->deed = CAV_DEED_HANDLE;
}

static void
begin_move (CavSectionCanvas *self)
{
  CavDrag *drag = &self->drag;

  drag->indices = cav_cut_edit_get_chosen (self->document);
  drag->all_before = cav_cut_edit_copy_chosen (self->document);
  if (drag->all_before->len == 0
      || !cav_arrange_get_bounds (drag->all_before, &self->drawn_blank, &drag->bounds))
    return;
  drag->snapper = cav_snapper_new (cav_canvas_get_project (self),
                                   (const guint *)(gpointer)drag->indices->data, drag->indices->len,
                                   cav_length_text_get_step ());
  begin_step (self, STEP_MOVE,
              drag->all_before->len == 1 ? g_ptr_array_index (drag->all_before, 0) : NULL);
  drag->deed = CAV_DEED_MOVE;
}

static void
begin_draw (CavSectionCanvas *self)
{
  CavDrag *drag = &self->drag;

  drag->snapper
      = cav_snapper_new (cav_canvas_get_project (self), NULL, 0, cav_length_text_get_step ());
  /* Places for the cut are those of the section without it. */
  drag->stage = cav_project_copy_snapshot (cav_canvas_get_project (self));
  /* The stroke begins where something holds, too. */
  drag->begin_wood = cav_snapper_point (drag->snapper, drag->begin_wood, cav_canvas_get_snap (self),
                                        &drag->snap);
  drag->deed = CAV_DEED_DRAW;
}

static void
begin_deed (CavSectionCanvas *self)
{
  CavDrag *drag = &self->drag;

  if (cav_selection_get_kind (cav_canvas_get_selection (self)) != CAV_NO_KIND)
    begin_draw (self);
  else if (drag->hit.kind == CAV_HIT_HANDLE)
    begin_handle (self);
  else if (drag->hit.kind == CAV_HIT_CUT && !drag->shift)
    begin_move (self);
  else
    drag->deed = CAV_DEED_BAND;
}

/* What is wrong with the section as it now stands comes before the numbers. */
static void
show_figure (CavSectionCanvas *self, const CavCut *cut)
{
  const CavProfile *profile = cav_project_get_profile (cav_canvas_get_project (self));

  if (!cav_profile_is_sound (profile))
    for (guint i = 0; i < profile->findings->len; i++)
      {
        const CavFinding *finding = g_ptr_array_index (profile->findings, i);

        if (finding->severity == CAV_FINDING_WRONG)
          {
            cav_canvas_set_figure (self, TRUE, g_strdup (finding->message));
            return;
          }
      }
  cav_canvas_set_figure (self, FALSE, cut != NULL ? cav_canvas_figure_cut (cut) : NULL);
}

static void
drag_handle (CavSectionCanvas *self, CavPoint point)
{
  CavDrag *drag = &self->drag;
  /* The handle goes as far as the pointer went, wherever in it it was taken hold of. */
  CavPoint to = CAV_POINT (drag->handle.point.x + point.x - drag->begin_wood.x,
                           drag->handle.point.y + point.y - drag->begin_wood.y);
  g_autoptr (CavCut) cut = cav_snapper_drag (drag->snapper, drag->before, &drag->handle, to,
                                             cav_canvas_get_snap (self), &drag->snap);

  cav_project_set_cut (cav_canvas_get_project (self), drag->cut, cut);
  show_figure (self, cut);
}

static void
drag_move (CavSectionCanvas *self, CavPoint point)
{
  CavDrag *drag = &self->drag;
  CavPoint asked = CAV_POINT (point.x - drag->begin_wood.x, point.y - drag->begin_wood.y);
  CavPoint delta = cav_snapper_move (drag->snapper, drag->bounds, asked, cav_canvas_get_snap (self),
                                     &drag->snap);
  g_autoptr (GPtrArray) moved
      = cav_arrange_move (drag->all_before, &self->drawn_blank, delta.x, delta.y);

  cav_project_set_cuts (cav_canvas_get_project (self), (const guint *)(gpointer)drag->indices->data,
                        moved);
  show_figure (self, moved->len == 1 ? g_ptr_array_index (moved, 0) : NULL);
}

static void
put_drawn (CavSectionCanvas *self, const CavCut *cut)
{
  CavProject *project = cav_canvas_get_project (self);
  CavDrag *drag = &self->drag;

  if (drag->has_cut)
    {
      cav_project_set_cut (project, drag->cut, cut);
      return;
    }
  begin_step (self, STEP_DRAW, cut);
  drag->cut = cav_project_get_cut_count (project);
  drag->has_cut = TRUE;
  cav_project_add_cut (project, cut);
  cav_selection_choose_cut (cav_canvas_get_selection (self), drag->cut);
}

static void
take_drawn_back (CavSectionCanvas *self)
{
  CavDrag *drag = &self->drag;

  if (!drag->has_cut)
    return;
  drag->has_cut = FALSE;
  drag->in_step = FALSE;
  cav_project_abandon (cav_canvas_get_project (self));
}

/* Whether a stroke began near enough to the blank to mean a place of it. */
static gboolean
began_at_blank (CavSectionCanvas *self)
{
  CavPoint begin = self->drag.begin_wood;
  double reach = CAV_CANVAS_PROPOSAL_REACH / self->view.scale;

  return begin.x > -reach && begin.x < self->drawn_blank.width + reach && begin.y > -reach
         && begin.y < self->drawn_blank.thickness + reach;
}

static void
drag_draw (CavSectionCanvas *self, CavPoint point)
{
  CavDrag *drag = &self->drag;
  CavPoint to = cav_snapper_point (drag->snapper, point, cav_canvas_get_snap (self), &drag->snap);
  CavCutKind kind = (CavCutKind)cav_selection_get_kind (cav_canvas_get_selection (self));
  g_autoptr (CavCut) cut = began_at_blank (self)
                               ? cav_proposal_from_drag (drag->stage, kind, drag->begin_wood, to)
                               : NULL;
  g_autoptr (CavRegion) shape = NULL;
  g_autoptr (GError) error = NULL;

  if (cut == NULL)
    {
      take_drawn_back (self);
      cav_canvas_set_figure (
          self, TRUE, g_strdup (_ ("Begin on the blank or at its edge, and draw into the wood.")));
      return;
    }
  shape = cav_cut_create_region (cut, &self->drawn_blank, &error);
  if (shape == NULL)
    {
      take_drawn_back (self);
      cav_canvas_set_figure (self, TRUE, g_strdup (error->message));
      return;
    }
  put_drawn (self, cut);
  show_figure (self, cut);
}

void
cav_deed_drag (CavSectionCanvas *self, CavPoint pixel)
{
  CavDrag *drag = &self->drag;
  CavPoint point = cav_canvas_to_wood (self, pixel);

  if (drag->deed == CAV_DEED_PAN)
    {
      cav_canvas_pan (self, pixel.x - drag->now.x, pixel.y - drag->now.y);
      drag->now = pixel;
      return;
    }
  drag->now = pixel;
  if (drag->deed == CAV_DEED_PATH)
    {
      cav_path_tool_drag (self, pixel);
      return;
    }
  if (cav_canvas_is_typing (self))
    return;
  if (drag->deed == CAV_DEED_PRESSED
      && hypot (pixel.x - drag->begin.x, pixel.y - drag->begin.y) >= CAV_CANVAS_THRESHOLD)
    {
      g_clear_pointer (&self->proposal, cav_cut_free);
      begin_deed (self);
    }
  if (drag->deed == CAV_DEED_HANDLE)
    drag_handle (self, point);
  else if (drag->deed == CAV_DEED_MOVE)
    drag_move (self, point);
  else if (drag->deed == CAV_DEED_DRAW)
    drag_draw (self, point);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

/* A click while a kind is chosen makes the cut that proposed itself. */
static void
click_to_draw (CavSectionCanvas *self)
{
  CavDrag *drag = &self->drag;

  cav_canvas_update_hover (self);
  if (self->proposal == NULL)
    {
      cav_canvas_set_figure (
          self, TRUE, g_strdup (_ ("Click on the blank: at a corner, at an edge or on a ledge.")));
      return;
    }
  drag->deed = CAV_DEED_DRAW;
  put_drawn (self, self->proposal);
}

/* The middle of what is chosen; FALSE where nothing is. */
static gboolean
find_chosen (CavSectionCanvas *self, CavPoint *out_middle)
{
  g_autoptr (GPtrArray) chosen = cav_cut_edit_copy_chosen (self->document);
  CavBox box;

  if (chosen->len == 0 || !cav_arrange_get_bounds (chosen, &self->drawn_blank, &box))
    return FALSE;
  *out_middle = CAV_POINT ((box.x0 + box.x1) / 2.0, (box.y0 + box.y1) / 2.0);
  return TRUE;
}

void
cav_deed_draw_at_once (CavSectionCanvas *self)
{
  CavCutKind kind = (CavCutKind)cav_selection_get_kind (cav_canvas_get_selection (self));
  CavProject *project = cav_canvas_get_project (self);
  g_autoptr (CavCut) cut = NULL;
  CavPoint chosen;

  cav_canvas_update_hover (self);
  cut = self->proposal != NULL ? cav_cut_copy (self->proposal)
                               : cav_proposal_at_free_place (
                                   project, kind, find_chosen (self, &chosen) ? &chosen : NULL);
  cav_deed_abandon (self);
  if (cut == NULL)
    return;
  self->drag.deed = CAV_DEED_DRAW;
  put_drawn (self, cut);
  cav_deed_finish (self);
}

static void
click_to_choose (CavSectionCanvas *self)
{
  CavSelection *selection = cav_canvas_get_selection (self);
  CavDrag *drag = &self->drag;

  if (drag->hit.kind == CAV_HIT_HANDLE)
    {
      self->focused_handle = (int)drag->hit.index;
      gtk_widget_queue_draw (GTK_WIDGET (self));
    }
  else if (drag->hit.kind == CAV_HIT_CUT && drag->shift)
    cav_selection_toggle_cut (selection, drag->hit.index);
  else if (drag->hit.kind == CAV_HIT_CUT)
    cav_selection_choose_cut (selection, drag->hit.index);
  else if (!drag->shift)
    cav_selection_clear_cuts (selection);
}

static void
choose_band (CavSectionCanvas *self)
{
  CavSelection *selection = cav_canvas_get_selection (self);
  CavDrag *drag = &self->drag;
  g_autoptr (GArray) indices
      = cav_section_hit_band (self->shapes, &self->view,
                              (CavBox){ drag->begin.x, drag->begin.y, drag->now.x, drag->now.y });

  if (drag->shift)
    {
      for (guint i = 0; i < cav_selection_get_cut_count (selection); i++)
        {
          guint index = cav_selection_get_cut (selection, i);
          gboolean known = FALSE;

          for (guint j = 0; j < indices->len && !known; j++)
            known = g_array_index (indices, guint, j) == index;
          if (!known)
            g_array_append_val (indices, index);
        }
    }
  cav_selection_set_cuts (selection, (const guint *)(gpointer)indices->data, indices->len);
}

void
cav_deed_release (CavSectionCanvas *self, CavPoint pixel)
{
  CavDrag *drag = &self->drag;

  if (drag->deed == CAV_DEED_PATH)
    {
      cav_path_tool_release (self, pixel);
      return;
    }
  /* While a number is typed the deed ends with it. */
  if (cav_canvas_is_typing (self))
    return;
  if (drag->deed == CAV_DEED_PRESSED)
    {
      if (cav_selection_get_kind (cav_canvas_get_selection (self)) != CAV_NO_KIND)
        click_to_draw (self);
      else
        click_to_choose (self);
    }
  else if (drag->deed == CAV_DEED_BAND)
    choose_band (self);
  cav_deed_finish (self);
}

static void
nudge_handle (CavSectionCanvas *self, guint index, double dx, double dy)
{
  CavProject *project = cav_canvas_get_project (self);
  const GArray *handles = cav_canvas_get_handles (self);
  int focused = self->focused_handle;
  CavHandle handle = g_array_index (handles, CavHandle, focused);
  g_autoptr (CavCut) cut
      = cav_handle_drag (g_ptr_array_index (self->cuts, index), &handle, &self->drawn_blank,
                         CAV_POINT (handle.point.x + dx, handle.point.y + dy));

  begin_step (self, handle.kind == CAV_HANDLE_MOVE ? STEP_MOVE : STEP_RESIZE, cut);
  cav_project_set_cut (project, index, cut);
  end_step (self);
  self->focused_handle = focused;
}

void
cav_deed_nudge (CavSectionCanvas *self, double dx, double dy)
{
  CavProject *project = cav_canvas_get_project (self);
  g_autoptr (GArray) indices = NULL;
  g_autoptr (GPtrArray) cuts = NULL;
  g_autoptr (GPtrArray) moved = NULL;
  guint index;

  if (self->drag.deed != CAV_DEED_NONE)
    return;
  if (self->focused_handle >= 0 && cav_canvas_get_handles (self) != NULL
      && self->focused_handle >= 0
      && cav_selection_get_single_cut (cav_canvas_get_selection (self), &index))
    {
      nudge_handle (self, index, dx, dy);
      return;
    }
  indices = cav_cut_edit_get_chosen (self->document);
  cuts = cav_cut_edit_copy_chosen (self->document);
  if (cuts->len == 0)
    return;
  moved = cav_arrange_move (cuts, &self->drawn_blank, dx, dy);
  begin_step (self, STEP_MOVE, cuts->len == 1 ? g_ptr_array_index (cuts, 0) : NULL);
  cav_project_set_cuts (project, (const guint *)(gpointer)indices->data, moved);
  end_step (self);
}
