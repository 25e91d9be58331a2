/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <glib/gi18n.h>
#include <math.h>

#include "app/cav-canvas-private.h"
#include "app/cav-letters.h"
#include "app/cav-light.h"
#include "app/cav-settings.h"
#include "drawing/cav-cut-measure.h"
#include "drawing/cav-pass-pane.h"

/* Pixels that the plate at the pointer gives way for an entry. */
#define ENTRY_ROOM 64.0

void
cav_canvas_queue_base (CavSectionCanvas *self)
{
  cav_tile_sheet_queue_all (self->sheet);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

void
cav_canvas_queue_box (CavSectionCanvas *self, CavBox box, double reach)
{
  CavBox pixels = cav_view_box_to_pixels (&self->view, box);

  cav_tile_sheet_queue_box (self->sheet, (CavBox){ pixels.x0 - reach, pixels.y0 - reach,
                                                   pixels.x1 + reach, pixels.y1 + reach });
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

void
cav_canvas_forget_pictures (CavSectionCanvas *self)
{
  g_clear_pointer (&self->grain, cairo_surface_destroy);
  for (guint i = 0; i < G_N_ELEMENTS (self->rulers); i++)
    g_clear_pointer (&self->rulers[i], gsk_render_node_unref);
  cav_canvas_queue_base (self);
}

static CavPane
get_pane (CavSectionCanvas *self)
{
  GtkWidget *widget = GTK_WIDGET (self);

  return (CavPane){ .view = self->view,
                    .width = gtk_widget_get_width (widget),
                    .height = gtk_widget_get_height (widget),
                    .device = gtk_widget_get_scale_factor (widget),
                    .letters = cav_letters_get_size (widget),
                    .light = cav_light_get_current () };
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

/* Rings and words take as long as all else that a window shows: the first frame has plain wood. */
static void
draw_fully_cb (gpointer user_data)
{
  CavSectionCanvas *self = CAV_SECTION_CANVAS (user_data);

  self->plain_idle = 0;
  self->is_full = TRUE;
  cav_canvas_queue_base (self);
}

static void
draw_section (CavSectionCanvas *self, cairo_t *cr)
{
  CavSectionContent content = get_content (self);

  if (self->grain == NULL && self->is_full)
    self->grain = cav_grain_create_surface (&content.blank, &self->pane);
  cav_section_pane_draw_ground (cr, &self->pane, &content);
  cav_section_pane_draw_wood (cr, &self->pane, &content, self->grain);
}

static void
draw_pass (CavSectionCanvas *self, cairo_t *cr)
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

  cav_pass_pane_draw (cr, &self->pane, &content);
}

static void
draw_base_cb (cairo_t *cr, CavBox part, gpointer user_data)
{
  CavSectionCanvas *self = CAV_SECTION_CANVAS (user_data);

  if (cav_canvas_is_drawable (self))
    draw_section (self, cr);
  else
    draw_pass (self, cr);
}

static void
draw_ground_cb (cairo_t *cr, CavBox part, gpointer user_data)
{
  CavSectionCanvas *self = CAV_SECTION_CANVAS (user_data);
  CavSectionContent content = get_content (self);

  cav_section_pane_draw_ground (cr, &self->pane, &content);
}

/* A pass is seen with table and fence, as far as the pane goes. */
static CavBox
get_area (CavSectionCanvas *self)
{
  CavSectionContent content = get_content (self);

  if (!cav_canvas_is_drawable (self))
    return (CavBox){ 0, 0, self->pane.width, self->pane.height };
  return cav_section_pane_get_area (&self->pane, &content);
}

static void
update_pane (CavSectionCanvas *self)
{
  CavPane pane = get_pane (self);

  if (cav_pane_equal (&pane, &self->pane))
    return;
  self->pane = pane;
  cav_tile_sheet_set_size (self->sheet, pane.width, pane.height, pane.device);
  cav_canvas_forget_pictures (self);
}

/* (transfer full) A part of the rulers. */
static GskRenderNode *
create_ruler (CavSectionCanvas *self, CavBox box)
{
  CavPane strip
      = { .width = box.x1 - box.x0, .height = box.y1 - box.y0, .device = self->pane.device };
  cairo_surface_t *surface = cav_pane_create_surface (&strip);
  cairo_t *cr = cairo_create (surface);
  GskRenderNode *node;

  cairo_translate (cr, -box.x0, -box.y0);
  cav_section_pane_draw_rulers (cr, &self->pane, cav_settings_get_length_style ().unit);
  cairo_destroy (cr);
  node = cav_tile_sheet_create_node (surface, box.x0, box.y0, box);
  cairo_surface_destroy (surface);
  return node;
}

static void
snapshot_rulers (CavSectionCanvas *self, GtkSnapshot *snapshot)
{
  /* With the line at their edge. */
  double breadth = cav_pane_get_ruler (&self->pane) + 1;

  if (self->rulers[0] == NULL)
    self->rulers[0] = create_ruler (self, (CavBox){ 0, 0, self->pane.width, breadth });
  if (self->rulers[1] == NULL && self->pane.height > breadth)
    self->rulers[1] = create_ruler (self, (CavBox){ 0, breadth, breadth, self->pane.height });
  for (guint i = 0; i < G_N_ELEMENTS (self->rulers); i++)
    if (self->rulers[i] != NULL)
      gtk_snapshot_append_node (snapshot, self->rulers[i]);
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

/* Each part in a node no larger than it, so that GTK paints little anew. */
static void
snapshot_overlay (CavSectionCanvas *self, GtkSnapshot *snapshot, const CavSectionOverlay *overlay)
{
  for (guint i = 0; i < cav_section_overlay_get_part_count (overlay); i++)
    {
      cairo_surface_t *record = cairo_recording_surface_create (CAIRO_CONTENT_COLOR_ALPHA, NULL);
      cairo_t *cr = cairo_create (record);
      double x, y, width, height;

      cav_section_overlay_draw_part (cr, &self->pane, overlay, i);
      cairo_destroy (cr);
      cairo_recording_surface_ink_extents (record, &x, &y, &width, &height);
      if (width > 0 && height > 0)
        {
          graphene_rect_t bounds
              = GRAPHENE_RECT_INIT ((float)floor (x), (float)floor (y), (float)(ceil (width) + 1),
                                    (float)(ceil (height) + 1));

          cr = gtk_snapshot_append_cairo (snapshot, &bounds);
          cairo_set_source_surface (cr, record, 0, 0);
          cairo_paint (cr);
          cairo_destroy (cr);
        }
      cairo_surface_destroy (record);
    }
}

static void
add_overlay (CavSectionCanvas *self, GtkSnapshot *snapshot)
{
  g_autoptr (GArray) shapes = g_array_new (FALSE, FALSE, sizeof (CavOverlayShape));
  g_autoptr (GArray) measures = create_measures (self);
  g_autoptr (CavRegion) proposed = NULL;
  gboolean at_rest = self->drag.deed == CAV_DEED_NONE || self->drag.deed == CAV_DEED_PRESSED;
  gboolean focused = gtk_widget_has_focus (GTK_WIDGET (self));
  CavSectionOverlay overlay = { .blank = self->drawn_blank,
                                .names = { [CAV_SIDE_BACK] = C_ ("side", "back, to the wall"),
                                           [CAV_SIDE_FACE] = C_ ("side", "face"),
                                           /* Translators: what follows the comma is left away
                                            * where there is no room, as at the back. */
                                           [CAV_SIDE_INSIDE] = C_ ("side", "inside, sight edge"),
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
  if (cav_canvas_is_typing (self))
    overlay.figure_at.y -= ENTRY_ROOM;
  if (at_rest && self->proposal != NULL)
    {
      proposed = cav_cut_create_region (self->proposal, &self->drawn_blank, NULL);
      add_shape (shapes, proposed, CAV_SHAPE_PROPOSED);
      overlay.has_place = TRUE;
      cav_proposal_get_place (self->proposal, &self->drawn_blank, &overlay.place_from,
                              &overlay.place_to);
    }
  else if (at_rest && self->is_lit)
    {
      overlay.has_place = TRUE;
      overlay.place_from = overlay.place_to = self->lit;
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
  snapshot_overlay (self, snapshot, &overlay);
}

/* The first frame. It is seen once, and needs no pixels that are kept. */
static void
snapshot_plain (CavSectionCanvas *self, GtkSnapshot *snapshot)
{
  CavBox all = { 0, 0, self->pane.width, self->pane.height };
  cairo_t *cr = gtk_snapshot_append_cairo (
      snapshot, &GRAPHENE_RECT_INIT (0, 0, (float)all.x1, (float)all.y1));

  draw_base_cb (cr, all, self);
  cairo_destroy (cr);
  if (self->plain_idle == 0)
    self->plain_idle = g_idle_add_once (draw_fully_cb, self);
}

void
cav_canvas_snapshot (CavSectionCanvas *self, GtkSnapshot *snapshot)
{
  GtkWidget *widget = GTK_WIDGET (self);

  if (gtk_widget_get_width (widget) <= 0 || gtk_widget_get_height (widget) <= 0)
    return;
  update_pane (self);
  if (!self->is_full)
    {
      snapshot_plain (self, snapshot);
      return;
    }
  cav_tile_sheet_set_area (self->sheet, get_area (self));
  cav_tile_sheet_snapshot (self->sheet, snapshot, draw_ground_cb, draw_base_cb, self);
  if (!cav_canvas_is_drawable (self))
    return;
  snapshot_rulers (self, snapshot);
  add_overlay (self, snapshot);
}
