/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <adwaita.h>
#include <glib/gi18n.h>

#include "app/cav-canvas-private.h"
#include "app/cav-settings.h"
#include "drawing/cav-cut-measure.h"
#include "drawing/cav-pass-pane.h"

/* A stretch of leftover belongs to a place of the plan that is no farther away, mm. */
#define PLACE_REACH 1.0
/* Pixels that the plate at the pointer gives way for an entry. */
#define ENTRY_ROOM 64.0

void
cav_canvas_queue_base (CavSectionCanvas *self)
{
  self->has_fresh_base = FALSE;
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

void
cav_canvas_forget_pictures (CavSectionCanvas *self)
{
  g_clear_pointer (&self->grain, cairo_surface_destroy);
  g_clear_pointer (&self->ground, cairo_surface_destroy);
  g_clear_pointer (&self->base, gsk_render_node_unref);
  cav_canvas_queue_base (self);
}

static void
unref_shape (gpointer shape)
{
  if (shape != NULL)
    cav_region_unref (shape);
}

/* Cuts that are as they were keep the shape that they have. */
void
cav_canvas_update_shapes (CavSectionCanvas *self)
{
  CavProject *project = cav_canvas_get_project (self);
  CavBlank blank = cav_project_get_blank (project);
  guint n_cuts = cav_project_get_cut_count (project);
  gboolean same_blank
      = self->cuts != NULL
        && cav_point_near (CAV_POINT (blank.width, blank.thickness),
                           CAV_POINT (self->drawn_blank.width, self->drawn_blank.thickness), 1e-9);
  GPtrArray *cuts = g_ptr_array_new_with_free_func ((GDestroyNotify)cav_cut_free);
  GPtrArray *shapes = g_ptr_array_new_with_free_func (unref_shape);

  for (guint i = 0; i < n_cuts; i++)
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
    }
  g_clear_pointer (&self->cuts, g_ptr_array_unref);
  g_clear_pointer (&self->shapes, g_ptr_array_unref);
  self->cuts = cuts;
  self->shapes = shapes;
  self->has_handles = FALSE;
  if (!same_blank)
    {
      self->drawn_blank = blank;
      g_clear_pointer (&self->grain, cairo_surface_destroy);
      g_clear_pointer (&self->ground, cairo_surface_destroy);
      if (self->is_fitted)
        cav_canvas_fit (self);
    }
  cav_canvas_queue_base (self);
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

  g_clear_pointer (&self->leftover, cav_region_unref);
  g_clear_pointer (&self->findings, g_ptr_array_unref);
  if (plan != NULL)
    self->leftover = create_leftover (plan);
  self->findings = cav_project_create_findings (cav_canvas_get_project (self), plan);
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

static CavPane
get_pane (CavSectionCanvas *self)
{
  GtkWidget *widget = GTK_WIDGET (self);

  return (CavPane){ .view = self->view,
                    .width = gtk_widget_get_width (widget),
                    .height = gtk_widget_get_height (widget),
                    .device = gtk_widget_get_scale_factor (widget),
                    .light = adw_style_manager_get_dark (adw_style_manager_get_default ())
                                 ? CAV_LIGHT_NIGHT
                                 : CAV_LIGHT_DAY };
}

static CavSectionContent
get_content (CavSectionCanvas *self)
{
  return (CavSectionContent){
    .blank = self->drawn_blank,
    .profile = cav_project_get_profile (cav_canvas_get_project (self))->region,
    .leftover = self->leftover,
    .findings = self->findings,
    .unit = cav_settings_get_length_style ().unit,
  };
}

/* (transfer full) A node that paints the surface. The software renderer copies a texture as a whole
 * before it draws any of it; a surface it draws from as it is. */
static GskRenderNode *
create_node (cairo_surface_t *surface, const CavPane *pane)
{
  graphene_rect_t bounds = GRAPHENE_RECT_INIT (0, 0, (float)pane->width, (float)pane->height);
  GskRenderNode *node = gsk_cairo_node_new (&bounds);
  cairo_t *cr = gsk_cairo_node_get_draw_context (node);

  cairo_set_operator (cr, CAIRO_OPERATOR_SOURCE);
  cairo_set_source_surface (cr, surface, 0, 0);
  cairo_pattern_set_filter (cairo_get_source (cr), CAIRO_FILTER_NEAREST);
  cairo_paint (cr);
  cairo_destroy (cr);
  return node;
}

/* The rings take as long as all else that a window shows: the first frame has plain wood. */
static void
draw_grain_cb (gpointer user_data)
{
  CavSectionCanvas *self = CAV_SECTION_CANVAS (user_data);

  self->grain_idle = 0;
  self->wants_grain = TRUE;
  cav_canvas_queue_base (self);
}

static void
update_grain (CavSectionCanvas *self, const CavPane *pane)
{
  if (self->grain != NULL)
    return;
  if (self->wants_grain)
    self->grain = cav_grain_create_surface (&self->drawn_blank, pane);
  else if (self->grain_idle == 0)
    self->grain_idle = g_idle_add_once (draw_grain_cb, self);
}

static void
draw_section (CavSectionCanvas *self, cairo_t *cr, const CavPane *pane)
{
  CavSectionContent content = get_content (self);

  if (self->ground == NULL)
    {
      cairo_t *ground_cr;

      self->ground = cav_pane_create_surface (pane);
      ground_cr = cairo_create (self->ground);
      cav_section_pane_draw_ground (ground_cr, pane, &content);
      cairo_destroy (ground_cr);
    }
  update_grain (self, pane);
  cairo_set_operator (cr, CAIRO_OPERATOR_SOURCE);
  cairo_set_source_surface (cr, self->ground, 0, 0);
  cairo_pattern_set_filter (cairo_get_source (cr), CAIRO_FILTER_NEAREST);
  cairo_paint (cr);
  cairo_set_operator (cr, CAIRO_OPERATOR_OVER);
  cav_section_pane_draw_wood (cr, pane, &content, self->grain);
  cav_section_pane_draw_rulers (cr, pane, content.unit);
}

static void
draw_pass (CavSectionCanvas *self, cairo_t *cr, const CavPane *pane)
{
  CavPlanRunner *runner = cav_document_get_runner (self->document);
  CavSelection *selection = cav_canvas_get_selection (self);
  CavLengthStyle style = cav_settings_get_length_style ();
  CavPassContent content = {
    .plan = cav_plan_runner_get_plan (runner),
    .pass = cav_selection_get_pass (selection),
    .progress = cav_selection_get_progress (selection),
    .is_stale = cav_plan_runner_get_state (runner) != CAV_PLAN_STATE_CURRENT,
    .unit = style.unit,
    .denominator = style.denominator > 0 ? style.denominator : CAV_SHEET_DENOMINATOR,
    .stale_words = _ ("The section has changed since; a new plan is being made."),
    .none_words = _ ("There is no such pass any more."),
  };

  cav_pass_pane_draw (cr, pane, &content);
}

static void
update_base (CavSectionCanvas *self)
{
  CavPane pane = get_pane (self);
  cairo_surface_t *surface;
  cairo_t *cr;

  if (!cav_pane_equal (&pane, &self->pane))
    {
      g_clear_pointer (&self->grain, cairo_surface_destroy);
      g_clear_pointer (&self->ground, cairo_surface_destroy);
      self->pane = pane;
      self->has_fresh_base = FALSE;
    }
  if (self->has_fresh_base && self->base != NULL)
    return;
  surface = cav_pane_create_surface (&pane);
  cr = cairo_create (surface);
  if (cav_selection_get_pass (cav_canvas_get_selection (self)) == CAV_NO_PASS)
    draw_section (self, cr, &pane);
  else
    draw_pass (self, cr, &pane);
  cairo_destroy (cr);
  g_clear_pointer (&self->base, gsk_render_node_unref);
  self->base = create_node (surface, &pane);
  cairo_surface_destroy (surface);
  self->has_fresh_base = TRUE;
}

static void
add_shape (GArray *shapes, const CavRegion *region, CavShapeRole role)
{
  CavOverlayShape shape = { region, role };

  if (region != NULL)
    g_array_append_val (shapes, shape);
}

static void
add_chosen (CavSectionCanvas *self, GArray *shapes, CavSectionOverlay *overlay)
{
  CavSelection *selection = cav_canvas_get_selection (self);
  gboolean dragged = self->drag.deed == CAV_DEED_HANDLE || self->drag.deed == CAV_DEED_MOVE
                     || (self->drag.deed == CAV_DEED_DRAW && self->drag.has_cut);
  CavBox all = { 1e9, 1e9, -1e9, -1e9 };

  for (guint i = 0; i < cav_selection_get_cut_count (selection); i++)
    {
      guint index = cav_selection_get_cut (selection, i);
      const CavRegion *shape
          = index < self->shapes->len ? g_ptr_array_index (self->shapes, index) : NULL;
      CavBox box;

      if (shape == NULL)
        continue;
      add_shape (shapes, shape, dragged ? CAV_SHAPE_DRAWN : CAV_SHAPE_SELECTED);
      box = cav_region_get_bounds (shape);
      all = (CavBox){ MIN (all.x0, box.x0), MIN (all.y0, box.y0), MAX (all.x1, box.x1),
                      MAX (all.y1, box.y1) };
    }
  overlay->has_bounds = all.x1 > all.x0;
  overlay->bounds = all;
}

/* (transfer full) (nullable) */
static GArray *
create_measures (CavSectionCanvas *self)
{
  CavLengthStyle style = cav_settings_get_length_style ();
  gboolean dragged = self->drag.deed == CAV_DEED_HANDLE && self->drag.handle.n_numbers > 0;
  guint index;

  if (!cav_selection_get_single_cut (cav_canvas_get_selection (self), &index)
      || index >= self->shapes->len || g_ptr_array_index (self->shapes, index) == NULL)
    return NULL;
  return cav_section_measure_cut (g_ptr_array_index (self->cuts, index),
                                  g_ptr_array_index (self->shapes, index), &self->drawn_blank,
                                  style.unit, style.denominator,
                                  dragged ? (int)self->drag.handle.numbers[0] : -1);
}

static void
draw_overlay (CavSectionCanvas *self, cairo_t *cr)
{
  g_autoptr (GArray) shapes = g_array_new (FALSE, FALSE, sizeof (CavOverlayShape));
  g_autoptr (GArray) measures = create_measures (self);
  g_autoptr (CavRegion) proposed = NULL;
  gboolean at_rest = self->drag.deed == CAV_DEED_NONE || self->drag.deed == CAV_DEED_PRESSED;
  gboolean focused = gtk_widget_has_focus (GTK_WIDGET (self));
  CavSectionOverlay overlay = { .blank = self->drawn_blank,
                                .names = { [CAV_SIDE_BACK] = C_ ("side", "back, to the wall"),
                                           [CAV_SIDE_FACE] = C_ ("side", "face"),
                                           [CAV_SIDE_INSIDE] = C_ ("side", "sight edge"),
                                           [CAV_SIDE_OUTSIDE] = C_ ("side", "outside") },
                                .handles = cav_canvas_get_handles (self),
                                .hovered_handle = -1,
                                .held_handle = self->drag.held,
                                .focused_handle = focused ? self->focused_handle : -1,
                                .measures = measures,
                                .has_pointer = self->has_pointer,
                                .pointer = self->pointer,
                                .path = self->path,
                                .next = self->path_next,
                                .closes = cav_path_tool_closes (self),
                                .figure = self->figure,
                                .figure_at = self->pointer,
                                .is_refused = self->is_refused };

  /* The plate stands over the entry while a number is typed. */
  if (gtk_widget_get_visible (self->entry))
    overlay.figure_at.y -= ENTRY_ROOM;
  if (at_rest && self->proposal != NULL)
    {
      proposed = cav_cut_create_region (self->proposal, &self->drawn_blank, NULL);
      add_shape (shapes, proposed, CAV_SHAPE_PROPOSED);
      overlay.has_place = TRUE;
      cav_proposal_get_place (self->proposal, &self->drawn_blank, &overlay.place_from,
                              &overlay.place_to);
    }
  if (at_rest && self->hover.kind == CAV_HIT_CUT && self->hover.index < self->shapes->len)
    add_shape (shapes, g_ptr_array_index (self->shapes, self->hover.index), CAV_SHAPE_HOVERED);
  if (at_rest && self->hover.kind == CAV_HIT_HANDLE)
    overlay.hovered_handle = (int)self->hover.index;
  add_chosen (self, shapes, &overlay);
  if (!at_rest && self->drag.deed != CAV_DEED_PAN)
    overlay.snap = &self->drag.snap;
  if (self->drag.deed == CAV_DEED_BAND)
    {
      overlay.has_band = TRUE;
      overlay.band = (CavBox){ MIN (self->drag.begin.x, self->drag.now.x),
                               MIN (self->drag.begin.y, self->drag.now.y),
                               MAX (self->drag.begin.x, self->drag.now.x),
                               MAX (self->drag.begin.y, self->drag.now.y) };
    }
  overlay.shapes = (const CavOverlayShape *)(gpointer)shapes->data;
  overlay.n_shapes = shapes->len;
  cav_section_overlay_draw (cr, &self->pane, &overlay);
}

void
cav_canvas_snapshot (CavSectionCanvas *self, GtkSnapshot *snapshot)
{
  GtkWidget *widget = GTK_WIDGET (self);
  int width = gtk_widget_get_width (widget);
  int height = gtk_widget_get_height (widget);
  graphene_rect_t bounds = GRAPHENE_RECT_INIT (0, 0, (float)width, (float)height);

  if (width <= 0 || height <= 0)
    return;
  update_base (self);
  gtk_snapshot_append_node (snapshot, self->base);
  if (cav_canvas_is_drawable (self))
    {
      cairo_t *cr = gtk_snapshot_append_cairo (snapshot, &bounds);

      draw_overlay (self, cr);
      cairo_destroy (cr);
    }
}
