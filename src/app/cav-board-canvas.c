/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-board-canvas.h"

#include <glib/gi18n.h>
#include <math.h>

#include "app/cav-length-text.h"
#include "app/cav-letters.h"
#include "app/cav-light.h"
#include "app/cav-settings.h"
#include "drawing/cav-board-map.h"

/* Pixels for a millimetre of the drawing: its smallest letters have to be read. */
#define PIXELS 3.6
#define MARGIN 12
#define LEAST_HEIGHT 60
#define NATURAL_WIDTH 720
#define ZOOM_MAX 8.0
/* What an arrow key moves a rail by, mm, and with Shift. */
#define STEP 10.0
#define FINE_STEP 1.0

struct _CavBoardCanvas
{
  GtkWidget parent_instance;

  /* Owned */
  CavBoardLayout *layout;
  CavBoardMap *map; /* for the width of now */
  CavScene *scene;  /* likewise */
  double width;     /* that they were made for, mm */

  /* State */
  double zoom;
  CavPoint pointer; /* pixels of the view, wherever that has scrolled to */
  int chosen_job;
  int chosen_frame; /* -1: none */
  int chosen_rail;
  gboolean is_dragging;
  CavPoint start; /* of the drag, pixels */
  CavBoardHit grabbed;
  CavBox ghost; /* mm of the drawing */
};

enum
{
  WISHED,
  FREED,
  N_SIGNALS,
};

static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (CavBoardCanvas, cav_board_canvas, GTK_TYPE_WIDGET)

static void
forget_drawing (CavBoardCanvas *self)
{
  g_clear_pointer (&self->map, cav_board_map_free);
  g_clear_pointer (&self->scene, cav_scene_free);
}

static const CavPlacedPiece *
find_chosen (CavBoardCanvas *self, CavBoardHit *out_place)
{
  if (self->layout == NULL || self->chosen_frame < 0)
    return NULL;
  return cav_board_find_rail (self->layout, self->chosen_job, self->chosen_frame, self->chosen_rail,
                              out_place);
}

/* The words that a screen reader has for the choice. */
static void
describe (CavBoardCanvas *self)
{
  CavBoardHit place;
  const CavPlacedPiece *piece = find_chosen (self, &place);
  g_autofree char *text = NULL;

  if (piece != NULL)
    {
      g_autofree char *label = cav_piece_dup_label (self->layout, piece);
      g_autofree char *board
          = cav_laid_board_dup_name (g_ptr_array_index (self->layout->boards, place.board));

      text = g_strdup_printf (piece->pinned ? _ ("Rail %d, %s: %s, strip %d, held there")
                                            : _ ("Rail %d, %s: %s, strip %d"),
                              piece->number, label, board, place.strip + 1);
    }
  else if (self->layout != NULL)
    text = cav_layout_dup_totals (self->layout, cav_settings_get_length_style ());
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION,
                                  text != NULL ? text : "", -1);
}

static void
redraw (CavBoardCanvas *self)
{
  g_clear_pointer (&self->scene, cav_scene_free);
  describe (self);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

static double
get_pixels (CavBoardCanvas *self)
{
  return PIXELS * cav_letters_get_size (GTK_WIDGET (self));
}

static double
get_drawing_width (CavBoardCanvas *self, int width)
{
  return MAX (width - 2 * MARGIN, 100) / get_pixels (self);
}

static void
ensure_map (CavBoardCanvas *self, int width)
{
  const double wanted = get_drawing_width (self, width);

  if (self->layout == NULL || (self->map != NULL && fabs (wanted - self->width) < 0.01))
    return;
  forget_drawing (self);
  self->width = wanted;
  self->map = cav_board_map_new (self->layout, wanted, TRUE);
}

static void
ensure_scene (CavBoardCanvas *self)
{
  CavBoardHit place;
  const CavPlacedPiece *piece = find_chosen (self, &place);

  if (self->scene != NULL || self->map == NULL)
    return;
  self->scene = cav_scene_new (self->width, MAX (self->map->height, 1.0));
  cav_board_map_draw (self->map, self->layout, self->scene, 0, self->map->faces->len, 0.0,
                      cav_settings_get_length_style ().unit, piece != NULL ? piece->stick : -1);
}

static CavPoint
to_drawing (CavBoardCanvas *self, double x, double y)
{
  return CAV_POINT ((x - MARGIN) / get_pixels (self), (y - MARGIN) / get_pixels (self));
}

/* Dragging */

static void
choose (CavBoardCanvas *self, const CavPlacedPiece *piece)
{
  self->chosen_job = piece != NULL ? piece->job : 0;
  self->chosen_frame = piece != NULL ? piece->frame : -1;
  self->chosen_rail = piece != NULL ? piece->rail : -1;
  redraw (self);
}

static void
drag_begin_cb (GtkGestureDrag *drag, double x, double y, CavBoardCanvas *self)
{
  gtk_widget_grab_focus (GTK_WIDGET (self));
  self->start = CAV_POINT (x, y);
  ensure_map (self, gtk_widget_get_width (GTK_WIDGET (self)));
  if (self->map == NULL
      || !cav_board_map_hit (self->map, self->layout, to_drawing (self, x, y), &self->grabbed)
      || self->grabbed.piece == NULL || self->grabbed.piece->kind != CAV_PIECE_RAIL)
    {
      gtk_gesture_set_state (GTK_GESTURE (drag), GTK_EVENT_SEQUENCE_DENIED);
      choose (self, NULL);
      return;
    }
  choose (self, self->grabbed.piece);
}

/* Where the rail would come to lie; FALSE beside the strips. */
static gboolean
find_target (CavBoardCanvas *self, double x, double y, CavBoardHit *out_hit, double *out_from)
{
  const CavPlacedPiece *piece = self->grabbed.piece;

  if (!cav_board_map_hit (self->map, self->layout, to_drawing (self, x, y), out_hit))
    return FALSE;
  *out_from = MAX (round (out_hit->at - (self->grabbed.at - piece->from)), 0.0);
  return TRUE;
}

static void
drag_update_cb (GtkGestureDrag *drag, double dx, double dy, CavBoardCanvas *self)
{
  CavBoardHit target;
  double from;

  if (hypot (dx, dy) < 4.0 && !self->is_dragging)
    return;
  gtk_gesture_set_state (GTK_GESTURE (drag), GTK_EVENT_SEQUENCE_CLAIMED);
  self->is_dragging = FALSE;
  if (self->map != NULL && self->grabbed.piece != NULL
      && find_target (self, self->start.x + dx, self->start.y + dy, &target, &from))
    {
      double before;
      double length;

      cav_board_get_reach (self->layout, &self->grabbed, &before, &length);
      self->ghost = cav_board_map_get_piece_box (self->map, self->layout,
                                                 cav_board_map_find_face (self->map, &target),
                                                 target.strip, from - before, length);
      self->is_dragging = TRUE;
    }
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

static void
wish (CavBoardCanvas *self, const CavPlacedPiece *piece, const CavBoardHit *place, double from)
{
  const CavLaidBoard *board = cav_board_layout_get_board (self->layout, (guint)place->board);
  CavBoardPin pin = { .frame = piece->frame,
                      .rail = piece->rail,
                      .board = board->row,
                      .copy = board->copy,
                      .strip = place->strip,
                      .layer = place->layer,
                      .from = from };

  g_signal_emit (self, signals[WISHED], 0, piece->job, &pin);
}

static void
drag_end_cb (GtkGestureDrag *drag, double dx, double dy, CavBoardCanvas *self)
{
  CavBoardHit target;
  double from;
  const gboolean was_dragging = self->is_dragging;
  const CavPlacedPiece *piece = self->grabbed.piece;

  self->is_dragging = FALSE;
  if (was_dragging && piece != NULL
      && find_target (self, self->start.x + dx, self->start.y + dy, &target, &from))
    wish (self, piece, &target, from);
  self->grabbed.piece = NULL;
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

/* Another finger, or the window that goes: the rail stays where it lies. GTK tells of the end after
 * this. */
static void
drag_cancel_cb (GtkGesture *drag, GdkEventSequence *sequence, CavBoardCanvas *self)
{
  self->is_dragging = FALSE;
  self->grabbed.piece = NULL;
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

/* Keys */

static void
choose_next (CavBoardCanvas *self, int direction)
{
  CavBoardHit place;
  const CavPlacedPiece *piece = find_chosen (self, &place);
  const int n = self->layout != NULL ? self->layout->totals.pieces : 0;
  int number = piece != NULL ? piece->number : direction > 0 ? 0 : n + 1;

  for (number += direction; number >= 1 && number <= n; number += direction)
    {
      piece = cav_board_find_number (self->layout, number, &place);
      if (piece != NULL && piece->kind == CAV_PIECE_RAIL)
        {
          choose (self, piece);
          return;
        }
    }
}

static gboolean
move_chosen (CavBoardCanvas *self, double along, int across)
{
  CavBoardHit place;
  const CavPlacedPiece *piece = find_chosen (self, &place);

  if (piece == NULL || (across != 0 && !cav_board_step_across (self->layout, &place, across)))
    return FALSE;
  wish (self, piece, &place, MAX (piece->from + along, 0.0));
  return TRUE;
}

static gboolean
key_pressed_cb (GtkEventControllerKey *key,
                guint value,
                guint code,
                GdkModifierType state,
                CavBoardCanvas *self)
{
  const gboolean moves = (state & GDK_ALT_MASK) != 0;
  const double step = (state & GDK_SHIFT_MASK) != 0 ? FINE_STEP : STEP;
  CavBoardHit place;

  switch (value)
    {
    case GDK_KEY_Left:
    case GDK_KEY_Right:
      if (moves)
        return move_chosen (self, value == GDK_KEY_Left ? -step : step, 0);
      choose_next (self, value == GDK_KEY_Left ? -1 : 1);
      return TRUE;
    case GDK_KEY_Up:
    case GDK_KEY_Down:
      return moves && move_chosen (self, 0.0, value == GDK_KEY_Up ? 1 : -1);
    case GDK_KEY_Delete:
    case GDK_KEY_BackSpace:
      if (find_chosen (self, &place) == NULL)
        return FALSE;
      g_signal_emit (self, signals[FREED], 0, self->chosen_job, self->chosen_frame,
                     self->chosen_rail);
      return TRUE;
    case GDK_KEY_Escape:
      if (self->chosen_frame < 0)
        return FALSE;
      choose (self, NULL);
      return TRUE;
    default:
      return FALSE;
    }
}

/* What a piece is, for whoever points at it. */
static gboolean
query_tooltip_cb (CavBoardCanvas *self, int x, int y, gboolean by_keyboard, GtkTooltip *tooltip)
{
  CavBoardHit hit;

  if (by_keyboard || self->map == NULL
      || !cav_board_map_hit (self->map, self->layout, to_drawing (self, x, y), &hit)
      || hit.piece == NULL)
    return FALSE;
  g_autofree char *label = cav_piece_dup_label (self->layout, hit.piece);
  g_autofree char *length = cav_length_text_new (hit.piece->length);
  g_autofree char *from = cav_length_text_new (hit.piece->from);
  /* Translators: number and name of a piece, its length, where it begins on its board */
  g_autofree char *text
      = g_strdup_printf (_ ("%d %s\n%s long, from %s"), hit.piece->number, label, length, from);
  gtk_tooltip_set_text (tooltip, text);
  return TRUE;
}

/* Zooming */

static int
get_height (CavBoardCanvas *self, double width)
{
  g_autoptr (CavBoardMap) map = NULL;

  if (self->layout == NULL)
    return LEAST_HEIGHT;
  map = cav_board_map_new (self->layout, get_drawing_width (self, (int)width), TRUE);
  return MAX (LEAST_HEIGHT, (int)ceil (map->height * get_pixels (self)) + 2 * MARGIN);
}

/* What is at a place of the view stays there while all grows. The adjustment would learn the new
 * size with the next frame, and go no further than the old one until then. */
static void
scroll_along (GtkAdjustment *adjustment, double place, double before, double after)
{
  double value = gtk_adjustment_get_value (adjustment);

  gtk_adjustment_set_upper (adjustment, fmax (after, gtk_adjustment_get_page_size (adjustment)));
  gtk_adjustment_set_value (adjustment, (value + place) * after / before - place);
}

/* place: of the view, pixels. */
static void
zoom_at (CavBoardCanvas *self, GtkWidget *view, double zoom, CavPoint place)
{
  GtkScrolledWindow *scrolled = GTK_SCROLLED_WINDOW (view);
  double width = gtk_widget_get_width (view);
  double before = width * self->zoom;
  double after;

  self->zoom = CLAMP (zoom, 1.0, ZOOM_MAX);
  after = width * self->zoom;
  gtk_widget_set_size_request (GTK_WIDGET (self), self->zoom > 1.001 ? (int)after : -1, -1);
  if (width <= 0)
    return;
  scroll_along (gtk_scrolled_window_get_hadjustment (scrolled), place.x, before, after);
  scroll_along (gtk_scrolled_window_get_vadjustment (scrolled), place.y, get_height (self, before),
                get_height (self, after));
}

static GtkWidget *
get_view (CavBoardCanvas *self)
{
  return gtk_widget_get_ancestor (GTK_WIDGET (self), GTK_TYPE_SCROLLED_WINDOW);
}

/* A wheel that is turned does not say where the pointer is. */
static void
pointed_cb (GtkEventControllerMotion *motion, double x, double y, CavBoardCanvas *self)
{
  GtkWidget *view = get_view (self);

  if (view != NULL)
    gtk_widget_translate_coordinates (GTK_WIDGET (self), view, x, y, &self->pointer.x,
                                      &self->pointer.y);
}

static gboolean
scrolled_cb (GtkEventControllerScroll *scroll, double dx, double dy, CavBoardCanvas *self)
{
  const GdkModifierType state
      = gtk_event_controller_get_current_event_state (GTK_EVENT_CONTROLLER (scroll));
  GtkWidget *view = get_view (self);

  if ((state & GDK_CONTROL_MASK) == 0 || view == NULL)
    return FALSE;
  zoom_at (self, view, self->zoom * pow (1.15, -dy), self->pointer);
  return TRUE;
}

/* Widget */

static GtkSizeRequestMode
cav_board_canvas_get_request_mode (GtkWidget *widget)
{
  return GTK_SIZE_REQUEST_HEIGHT_FOR_WIDTH;
}

static void
cav_board_canvas_measure (GtkWidget *widget,
                          GtkOrientation orientation,
                          int for_size,
                          int *minimum,
                          int *natural,
                          int *minimum_baseline,
                          int *natural_baseline)
{
  CavBoardCanvas *self = CAV_BOARD_CANVAS (widget);
  const int width = for_size > 0 ? for_size : NATURAL_WIDTH;

  if (orientation == GTK_ORIENTATION_HORIZONTAL)
    {
      *minimum = 300;
      *natural = NATURAL_WIDTH;
      return;
    }
  *minimum = get_height (self, width);
  *natural = *minimum;
}

static void
cav_board_canvas_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  CavBoardCanvas *self = CAV_BOARD_CANVAS (widget);
  const int width = gtk_widget_get_width (widget);
  const int height = gtk_widget_get_height (widget);
  const CavLight light = cav_light_get_current ();
  cairo_t *cr = gtk_snapshot_append_cairo (snapshot,
                                           &GRAPHENE_RECT_INIT (0, 0, (float)width, (float)height));

  ensure_map (self, width);
  ensure_scene (self);
  cairo_translate (cr, MARGIN, MARGIN);
  cairo_scale (cr, get_pixels (self), get_pixels (self));
  if (self->scene != NULL)
    cav_scene_render_in (self->scene, cr, light);
  if (self->is_dragging)
    {
      const CavColour pencil = cav_tone_get_colour (CAV_TONE_PENCIL, light);

      cairo_rectangle (cr, self->ghost.x0, self->ghost.y0, self->ghost.x1 - self->ghost.x0,
                       self->ghost.y1 - self->ghost.y0);
      cairo_set_source_rgba (cr, pencil.red / 255.0, pencil.green / 255.0, pencil.blue / 255.0,
                             0.25);
      cairo_fill_preserve (cr);
      cairo_set_source_rgb (cr, pencil.red / 255.0, pencil.green / 255.0, pencil.blue / 255.0);
      cairo_set_line_width (cr, 0.5);
      cairo_stroke (cr);
    }
  cairo_destroy (cr);
  if (gtk_widget_has_visible_focus (widget))
    gtk_snapshot_render_focus (snapshot, gtk_widget_get_style_context (widget), 1, 1, width - 2,
                               height - 2);
}

static void
cav_board_canvas_dispose (GObject *object)
{
  CavBoardCanvas *self = CAV_BOARD_CANVAS (object);

  forget_drawing (self);
  g_clear_pointer (&self->layout, cav_board_layout_unref);
  G_OBJECT_CLASS (cav_board_canvas_parent_class)->dispose (object);
}

static void
cav_board_canvas_class_init (CavBoardCanvasClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->dispose = cav_board_canvas_dispose;
  widget_class->get_request_mode = cav_board_canvas_get_request_mode;
  widget_class->measure = cav_board_canvas_measure;
  widget_class->snapshot = cav_board_canvas_snapshot;
  gtk_widget_class_set_css_name (widget_class, "boards");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_GROUP);
  signals[WISHED] = g_signal_new ("wished", CAV_TYPE_BOARD_CANVAS, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                  NULL, G_TYPE_NONE, 2, G_TYPE_INT, G_TYPE_POINTER);
  signals[FREED] = g_signal_new ("freed", CAV_TYPE_BOARD_CANVAS, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                 NULL, G_TYPE_NONE, 3, G_TYPE_INT, G_TYPE_INT, G_TYPE_INT);
}

static void
cav_board_canvas_init (CavBoardCanvas *self)
{
  GtkGesture *drag = gtk_gesture_drag_new ();
  GtkEventController *key = gtk_event_controller_key_new ();
  GtkEventController *motion = gtk_event_controller_motion_new ();
  GtkEventController *scroll
      = gtk_event_controller_scroll_new (GTK_EVENT_CONTROLLER_SCROLL_VERTICAL);

  self->zoom = 1.0;
  self->chosen_frame = -1;
  self->chosen_rail = -1;
  gtk_widget_set_has_tooltip (GTK_WIDGET (self), TRUE);
  g_signal_connect (self, "query-tooltip", G_CALLBACK (query_tooltip_cb), NULL);
  g_signal_connect (motion, "enter", G_CALLBACK (pointed_cb), self);
  g_signal_connect (motion, "motion", G_CALLBACK (pointed_cb), self);
  gtk_widget_add_controller (GTK_WIDGET (self), motion);
  g_signal_connect (scroll, "scroll", G_CALLBACK (scrolled_cb), self);
  gtk_widget_add_controller (GTK_WIDGET (self), scroll);
  gtk_widget_set_focusable (GTK_WIDGET (self), TRUE);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("Rails on the boards"), -1);
  g_signal_connect (drag, "drag-begin", G_CALLBACK (drag_begin_cb), self);
  g_signal_connect (drag, "drag-update", G_CALLBACK (drag_update_cb), self);
  g_signal_connect (drag, "drag-end", G_CALLBACK (drag_end_cb), self);
  g_signal_connect (drag, "cancel", G_CALLBACK (drag_cancel_cb), self);
  gtk_widget_add_controller (GTK_WIDGET (self), GTK_EVENT_CONTROLLER (drag));
  g_signal_connect (key, "key-pressed", G_CALLBACK (key_pressed_cb), self);
  gtk_widget_add_controller (GTK_WIDGET (self), key);
  cav_letters_watch (G_CALLBACK (gtk_widget_queue_resize), GTK_WIDGET (self));
  cav_light_watch (G_CALLBACK (gtk_widget_queue_draw), self);
}

void
cav_board_canvas_set_layout (CavBoardCanvas *self, CavBoardLayout *layout)
{
  g_return_if_fail (CAV_IS_BOARD_CANVAS (self));

  if (layout != NULL)
    cav_board_layout_ref (layout);
  g_clear_pointer (&self->layout, cav_board_layout_unref);
  self->layout = layout;
  self->grabbed.piece = NULL;
  self->is_dragging = FALSE;
  forget_drawing (self);
  describe (self);
  gtk_widget_queue_resize (GTK_WIDGET (self));
}

double
cav_board_canvas_get_zoom (CavBoardCanvas *self)
{
  g_return_val_if_fail (CAV_IS_BOARD_CANVAS (self), 1.0);

  return self->zoom;
}

void
cav_board_canvas_set_zoom (CavBoardCanvas *self, double zoom)
{
  GtkWidget *view;

  g_return_if_fail (CAV_IS_BOARD_CANVAS (self));

  view = get_view (self);
  if (view != NULL)
    zoom_at (self, view, zoom,
             CAV_POINT (gtk_widget_get_width (view) / 2.0, gtk_widget_get_height (view) / 2.0));
}
