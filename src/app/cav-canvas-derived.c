/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-canvas-private.h"

#include "geometry/cav-tolerance.h"

/* A stretch of leftover belongs to a place of the plan that is no farther away, mm. */
#define PLACE_REACH 1.0
/* How far lines, glow and corners reach beyond a shape, and a finding's mark beyond its place,
 * pixels. */
#define LINE_REACH 14.0
#define MARK_REACH 36.0

/* What of the section has to be drawn anew */

static void
queue_region (CavSectionCanvas *self, const CavRegion *region)
{
  if (region != NULL && !cav_region_is_empty (region))
    cav_canvas_queue_box (self, cav_region_get_bounds (region), LINE_REACH);
}

static void
queue_marks (CavSectionCanvas *self)
{
  for (guint i = 0; self->findings != NULL && i < self->findings->len; i++)
    {
      const CavFinding *finding = g_ptr_array_index (self->findings, i);

      if (finding->has_place)
        cav_canvas_queue_box (
            self,
            (CavBox){ finding->place.x, finding->place.y, finding->place.x, finding->place.y },
            MARK_REACH);
    }
}

static void
unref_shape (gpointer shape)
{
  if (shape != NULL)
    cav_region_unref (shape);
}

/* Cuts that are as they were keep the shape that they have. */
static void
fill_shapes (CavSectionCanvas *self, gboolean same_blank, GPtrArray *cuts, GPtrArray *shapes)
{
  CavProject *project = cav_canvas_get_project (self);
  CavBlank blank = cav_project_get_blank (project);

  for (guint i = 0; i < cav_project_get_cut_count (project); i++)
    {
      const CavCut *cut = cav_project_get_cut (project, i);

      if (same_blank && i < self->cuts->len
          && cav_cut_equal (cut, g_ptr_array_index (self->cuts, i)))
        {
          g_ptr_array_add (cuts, g_steal_pointer (&g_ptr_array_index (self->cuts, i)));
          g_ptr_array_add (shapes, g_steal_pointer (&g_ptr_array_index (self->shapes, i)));
          continue;
        }
      g_ptr_array_add (cuts, cav_cut_copy (cut));
      g_ptr_array_add (shapes, cav_cut_create_region (cut, &blank, NULL));
      queue_region (self, g_ptr_array_index (shapes, i));
    }
}

void
cav_canvas_update_shapes (CavSectionCanvas *self)
{
  CavProject *project = cav_canvas_get_project (self);
  CavBlank blank = cav_project_get_blank (project);
  gboolean is_sound = cav_profile_is_sound (cav_project_get_profile (project));
  gboolean same_blank
      = self->cuts != NULL
        && cav_point_near (CAV_POINT (blank.width, blank.thickness),
                           CAV_POINT (self->drawn_blank.width, self->drawn_blank.thickness),
                           CAV_TOLERANCE_POINT);
  GPtrArray *cuts = g_ptr_array_new_with_free_func ((GDestroyNotify)cav_cut_free);
  GPtrArray *shapes = g_ptr_array_new_with_free_func (unref_shape);

  fill_shapes (self, same_blank, cuts, shapes);
  /* Those that are left over have changed or gone. */
  for (guint i = 0; self->shapes != NULL && i < self->shapes->len; i++)
    queue_region (self, g_ptr_array_index (self->shapes, i));
  g_clear_pointer (&self->cuts, g_ptr_array_unref);
  g_clear_pointer (&self->shapes, g_ptr_array_unref);
  self->cuts = cuts;
  self->shapes = shapes;
  self->has_handles = FALSE;
  /* Where wood falls off, the section changes far from the cut that did it. */
  if (!same_blank || !is_sound || !self->was_sound)
    cav_canvas_queue_base (self);
  self->was_sound = is_sound;
  gtk_widget_queue_draw (GTK_WIDGET (self));
  if (same_blank)
    return;
  self->drawn_blank = blank;
  g_clear_pointer (&self->grain, cairo_surface_destroy);
  if (self->is_fitted)
    cav_canvas_fit (self);
}

static gboolean
is_at_place (const CavPlan *plan, const CavRegion *piece)
{
  for (guint i = 0; i < plan->places->len; i++)
    {
      const CavLeftoverPlace *place = g_ptr_array_index (plan->places, i);

      if (cav_region_contains (piece, place->place)
          || cav_region_get_distance (piece, place->place) <= PLACE_REACH)
        return TRUE;
    }
  return FALSE;
}

/* (nullable) What the plan leaves beyond the limit, in the section's coordinates. */
static CavRegion *
create_leftover (const CavPlan *plan)
{
  g_autoptr (GPtrArray) pieces = g_ptr_array_new_with_free_func ((GDestroyNotify)cav_region_unref);
  g_autoptr (CavRegion) all = NULL;

  if (plan->leftover == NULL)
    return NULL;
  for (guint i = 0; i < cav_region_get_piece_count (plan->leftover); i++)
    {
      CavRegion *piece = cav_region_dup_piece (plan->leftover, i);

      if (is_at_place (plan, piece))
        g_ptr_array_add (pieces, piece);
      else
        cav_region_unref (piece);
    }
  if (pieces->len == 0)
    return NULL;
  all = cav_region_union_all ((CavRegion *const *)pieces->pdata, pieces->len, NULL);
  return all == NULL
             ? NULL
             : cav_region_transformed (all, cav_transform_translation (-plan->carrier_inside, 0));
}

/* An old plan is never shown on a section that has changed since. */
void
cav_canvas_update_plan (CavSectionCanvas *self)
{
  CavPlanRunner *runner = cav_document_get_runner (self->document);
  CavPlan *plan = cav_plan_runner_get_state (runner) == CAV_PLAN_STATE_CURRENT
                      ? cav_plan_runner_get_plan (runner)
                      : NULL;

  queue_region (self, self->leftover);
  queue_marks (self);
  g_clear_pointer (&self->leftover, cav_region_unref);
  g_clear_pointer (&self->findings, g_ptr_array_unref);
  if (plan != NULL)
    self->leftover = create_leftover (plan);
  self->findings = cav_project_create_findings (cav_canvas_get_project (self), plan);
  queue_region (self, self->leftover);
  queue_marks (self);
  /* What a pass leaves is no part of the section. */
  if (!cav_canvas_is_drawable (self))
    cav_canvas_queue_base (self);
}

const GArray *
cav_canvas_get_handles (CavSectionCanvas *self)
{
  guint index;

  if (self->has_handles)
    return self->handles;
  g_clear_pointer (&self->handles, g_array_unref);
  self->has_handles = TRUE;
  if (cav_selection_get_single_cut (cav_canvas_get_selection (self), &index)
      && index < self->cuts->len)
    self->handles = cav_handle_list_new (g_ptr_array_index (self->cuts, index), &self->drawn_blank);
  if (self->handles == NULL || self->focused_handle >= (int)self->handles->len)
    self->focused_handle = -1;
  return self->handles;
}
