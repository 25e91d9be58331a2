/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/cav-frame-section.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#include "drawing/cav-dimension.h"
#include "geometry/cav-tolerance.h"

/* On the page, mm. */
#define LANE 6.5
#define FIRST_LANE 7.5
#define LANES_MOST 8  /* that a dimension moves outward */
#define LINE_ROOM 0.4 /* around its line */
#define STUB 20.0     /* of the package, beyond the sight edge */
#define HATCH 2.0
#define LEADER 6.0
#define NAME_STEP (CAV_LETTER_NOTE * CAV_LETTER_LEADING)

typedef struct
{
  CavScene *scene;
  const CavFrame *frame;
  const CavProfile *profile;
  double scale;
  CavPoint origin;
  CavTransform map;
  CavLengthStyle style;
  GArray *texts; /* CavBox of the dimensions so far */
  GArray *lines;
  double wall; /* x of the rabbet's wall, of the sight edge and of the outside, in the blank */
  double sight;
  double outer;
} Section;

static CavPoint
map (const Section *self, double x, double y)
{
  return cav_transform_point (self->map, CAV_POINT (x, y));
}

static void
section_init (Section *self,
              CavScene *scene,
              const CavFrame *frame,
              const CavProfile *profile,
              double scale,
              CavPoint origin,
              CavLengthStyle style)
{
  CavBox bounds = cav_region_get_bounds (profile->region);

  *self = (Section){ .scene = scene,
                     .frame = frame,
                     .profile = profile,
                     .scale = scale,
                     .origin = origin,
                     .style = style,
                     .texts = g_array_new (FALSE, FALSE, sizeof (CavBox)),
                     .lines = g_array_new (FALSE, FALSE, sizeof (CavBox)),
                     .sight = bounds.x0,
                     .outer = bounds.x1,
                     .wall = bounds.x0 + frame->sizes.lip };
  self->map = (CavTransform){ scale, 0,      origin.x,
                              0,     -scale, origin.y + profile->blank.thickness * scale };
}

static double
get_ledge (const Section *self)
{
  return self->frame->sizes.rabbet_depth + cav_region_get_bounds (self->profile->region).y0;
}

static char *
format (const Section *self, double mm)
{
  return cav_length_format_bare (round (mm * 1e4) / 1e4, self->style.unit, self->style.denominator);
}

static void
draw_wood (const Section *self)
{
  CavBox bounds = cav_region_get_bounds (self->profile->region);
  CavPoint a = map (self, bounds.x0, bounds.y1);
  CavPoint b = map (self, bounds.x1, bounds.y0);

  cav_scene_begin_titled_layer (self->scene, "section-wood", _ ("Section of the rail"),
                                _ ("End grain, hatched."));
  cav_scene_begin_clip (self->scene, self->profile->region, self->map);
  cav_scene_add_hatch (self->scene, cav_box (a.x, a.y, b.x, b.y), HATCH, TRUE);
  cav_scene_end_clip (self->scene);
  cav_scene_add_region (self->scene, self->profile->region, self->map, CAV_STYLE_OUTLINE);
  cav_scene_end_layer (self->scene);
}

/* Where a layer's edge is: the package stands in the middle of its allowance. */
static double
get_edge (const Section *self)
{
  return self->wall - self->frame->settings.allowance / 2.0;
}

static void
draw_layers (const Section *self)
{
  const CavPackage *package = &self->frame->package;

  cav_scene_begin_titled_layer (self->scene, "section-package", _ ("Package"),
                                _ ("Glass, mats, picture and backing in the rabbet."));
  for (int i = 0; i < package->n_layers; i++)
    {
      const CavPackageLayer *layer = &package->layers[i];
      double top = get_ledge (self) - layer->from;
      CavPoint a = map (self, get_edge (self), top);
      CavPoint b = map (self, self->sight, top - layer->thickness);
      gboolean narrow = layer->kind == CAV_LAYER_SPACER;

      cav_scene_add_box (self->scene, cav_box (narrow ? b.x : b.x - STUB, a.y, a.x, b.y),
                         layer->kind == CAV_LAYER_GLAZING ? CAV_STYLE_GLASS : CAV_STYLE_SHEET);
    }
  cav_scene_end_layer (self->scene);
}

/* Names stand in a column left of the package, front layer on top, each with a line to its layer.
 */
static void
draw_names (const Section *self, gboolean draw, CavBox *extent)
{
  const CavPackage *package = &self->frame->package;
  const CavTextStyle text_style
      = { .height = CAV_LETTER_NOTE, .ink = CAV_INK_BLACK, .align = CAV_ALIGN_END };
  double x = map (self, self->sight, 0).x - STUB;
  double middle = map (self, 0, get_ledge (self) - package->depth / 2.0).y;
  double y = middle - (package->n_layers - 1) * NAME_STEP / 2.0;

  for (int i = 0; i < package->n_layers; i++, y += NAME_STEP)
    {
      const CavPackageLayer *layer = &package->layers[i];
      double at = map (self, 0, get_ledge (self) - layer->from - layer->thickness / 2.0).y;
      g_autofree char *figure = format (self, layer->thickness);
      g_autofree char *text = g_strdup_printf (
          "%s %s", g_dpgettext2 (GETTEXT_PACKAGE, "layer of the package", layer->name), figure);
      CavPoint point = CAV_POINT (x - LEADER - 1.0, y + CAV_LETTER_NOTE / 2.0);
      CavBox box = cav_scene_get_text_box (self->scene, text, point, &text_style);

      extent->x0 = fmin (extent->x0, box.x0);
      extent->y0 = fmin (extent->y0, box.y0);
      extent->y1 = fmax (extent->y1, box.y1);
      if (!draw)
        continue;
      cav_scene_add_text (self->scene, text, point, &text_style);
      cav_scene_add_line (self->scene, CAV_POINT (x - LEADER, y), CAV_POINT (x + 1.5, at),
                          CAV_STYLE_DIMENSION);
    }
}

static gboolean
overlaps_any (const GArray *boxes, CavBox box)
{
  for (guint i = 0; i < boxes->len; i++)
    if (cav_box_overlaps (g_array_index (boxes, CavBox, i), box))
      return TRUE;
  return FALSE;
}

/* Its room, lane by lane outward until no text lies on another's text or line. */
static CavDimensionRoom
find_room (const Section *self, CavDimension *dimension, double step)
{
  CavDimensionRoom room = cav_dimension_get_room (self->scene, dimension);

  for (int i = 0; i < LANES_MOST && fabs (step) > 0; i++)
    {
      CavBox line = cav_box_grow (room.line, LINE_ROOM);

      if (!overlaps_any (self->texts, room.text) && !overlaps_any (self->lines, room.text)
          && !overlaps_any (self->texts, line))
        break;
      dimension->line += step;
      room = cav_dimension_get_room (self->scene, dimension);
    }
  return room;
}

/* from and to as the line runs on the page; step: how it may move, mm, 0 where it stays. */
static void
add_named_dimension (const Section *self,
                     CavDimension dimension,
                     double mm,
                     const char *name,
                     double step,
                     gboolean draw,
                     CavBox *extent)
{
  g_autofree char *figure = format (self, mm);
  g_autofree char *text = name != NULL ? g_strdup_printf ("%s %s", name, figure) : NULL;
  CavDimensionRoom room;

  if (!(mm > 0.05))
    return;
  dimension.text = text != NULL ? text : figure;
  dimension.height = CAV_LETTER_VALUE;
  room = find_room (self, &dimension, step);
  const CavBox line = cav_box_grow (room.line, LINE_ROOM);
  g_array_append_val (self->texts, room.text);
  g_array_append_val (self->lines, line);
  const CavBox boxes[] = { room.text, room.line, room.extensions[0], room.extensions[1] };
  for (guint i = 0; i < G_N_ELEMENTS (boxes); i++)
    *extent = cav_box_join (*extent, boxes[i]);
  if (draw)
    cav_dimension_draw (self->scene, &dimension);
}

static void
add_dimension (const Section *self,
               CavDimension dimension,
               double mm,
               double step,
               gboolean draw,
               CavBox *extent)
{
  add_named_dimension (self, dimension, mm, NULL, step, draw, extent);
}

static CavDimension
across (
    const Section *self, double from, double to, double line, double start_from, double start_to)
{
  return (CavDimension){ .from = map (self, from, 0).x,
                         .to = map (self, to, 0).x,
                         .line = line,
                         .start_from = map (self, 0, start_from).y,
                         .start_to = map (self, 0, start_to).y };
}

/* low and high are heights in the blank; the page runs down. */
static CavDimension
upright (
    const Section *self, double low, double high, double line, double start_low, double start_high)
{
  return (CavDimension){ .upright = TRUE,
                         .from = map (self, 0, high).y,
                         .to = map (self, 0, low).y,
                         .line = line,
                         .start_from = map (self, start_high, 0).x,
                         .start_to = map (self, start_low, 0).x,
                         .beyond_low = TRUE };
}

/* Top of the wood over the rabbet. */
static double
get_lip_top (const Section *self)
{
  double top = get_ledge (self);

  for (guint ring = 0; ring < cav_region_get_ring_count (self->profile->region); ring++)
    {
      guint n_points = 0;
      const CavPoint *points = cav_region_get_ring_points (self->profile->region, ring, &n_points);

      for (guint i = 0; i < n_points; i++)
        if (points[i].x <= self->wall + CAV_TOLERANCE_POINT)
          top = fmax (top, points[i].y);
    }
  return top;
}

/* How far the lip lies over the package, which stands in the middle of its allowance. */
static void
add_cover (const Section *self, double line, gboolean draw, CavBox *extent)
{
  CavDimension cover
      = across (self, self->sight, get_edge (self), line, get_lip_top (self), get_lip_top (self));

  cover.beyond_low = TRUE;
  add_named_dimension (self, cover, self->frame->sizes.cover,
                       /* Translators: of the lip over the package; a length follows. */
                       C_ ("dimension", "cover"), -LANE, draw, extent);
}

/* The package's depth, and under it what the rabbet has left, or lacks. */
static void
add_depths (const Section *self, double x, gboolean draw, CavBox *extent)
{
  const CavPackage *package = &self->frame->package;
  double bottom = cav_region_get_bounds (self->profile->region).y0;
  double back = get_ledge (self) - package->depth;
  CavDimension depth = upright (self, back, get_ledge (self), x, 0, 0);
  CavDimension rest = upright (self, fmin (back, bottom), fmax (back, bottom), x, 0, 0);

  if (!(package->depth > 0.0))
    return;
  depth.start_from = depth.start_to = x;
  add_dimension (self, depth, package->depth, 0, draw, extent);
  rest.start_from = x;
  rest.start_to = map (self, back > bottom ? self->wall : self->sight, 0).x;
  rest.beyond_low = FALSE;
  if (back > bottom)
    add_named_dimension (self, rest, back - bottom,
                         /* Translators: depth left behind the package; a length follows. */
                         C_ ("dimension", "spare"), 0, draw, extent);
  else
    {
      rest.start_to = x;
      rest.start_from = map (self, self->wall, 0).x;
      add_named_dimension (self, rest, bottom - back,
                           /* Translators: the package stands out behind; a length follows. */
                           C_ ("dimension", "out"), 0, draw, extent);
    }
}

static void
add_dimensions (const Section *self, gboolean draw, CavBox *extent)
{
  CavBox bounds = cav_region_get_bounds (self->profile->region);
  const CavFrameSizes *sizes = &self->frame->sizes;
  const CavPackage *package = &self->frame->package;
  double low = map (self, 0, fmin (bounds.y0, get_ledge (self) - package->depth)).y;
  double high = map (self, 0, bounds.y1).y;
  double right = map (self, bounds.x1, 0).x;
  double x = map (self, self->sight, 0).x;

  add_dimension (
      self, upright (self, bounds.y0, bounds.y1, right + FIRST_LANE + LANE, bounds.x1, bounds.x1),
      bounds.y1 - bounds.y0, 0, draw, extent);
  CavDimension rabbet
      = upright (self, bounds.y0, get_ledge (self), right + FIRST_LANE, bounds.x1, self->wall);
  /* Above stands the extension line of the whole thickness. */
  rabbet.beyond_low = FALSE;
  add_dimension (self, rabbet, sizes->rabbet_depth, 0, draw, extent);
  add_depths (self, x - STUB / 2.0, draw, extent);
  /* Those across give way to the upright ones. */
  add_dimension (self,
                 across (self, self->sight, self->wall, high - FIRST_LANE, get_lip_top (self),
                         get_lip_top (self)),
                 sizes->lip, -LANE, draw, extent);
  add_cover (self, high - FIRST_LANE - LANE, draw, extent);
  add_dimension (self,
                 across (self, self->sight, bounds.x1, low + FIRST_LANE, bounds.y0, bounds.y0),
                 sizes->molding, LANE, draw, extent);
}

static void
section_clear (Section *self)
{
  g_clear_pointer (&self->texts, g_array_unref);
  g_clear_pointer (&self->lines, g_array_unref);
}

CavBox
cav_frame_section_get_extent (CavScene *scene,
                              const CavFrame *frame,
                              const CavProfile *profile,
                              double scale,
                              CavLengthStyle style)
{
  Section self;

  section_init (&self, scene, frame, profile, scale, CAV_POINT (0, 0), style);
  CavBox extent = cav_box (map (&self, self.sight, 0).x - STUB, 0, profile->blank.width * scale,
                           profile->blank.thickness * scale);
  draw_names (&self, FALSE, &extent);
  add_dimensions (&self, FALSE, &extent);
  section_clear (&self);
  return extent;
}

void
cav_frame_section_draw (CavScene *scene,
                        const CavFrame *frame,
                        const CavProfile *profile,
                        double scale,
                        CavPoint origin,
                        CavLengthStyle style)
{
  Section self;
  CavBox extent = { 0 };

  g_return_if_fail (scene != NULL && frame != NULL && profile != NULL);

  section_init (&self, scene, frame, profile, scale, origin, style);
  draw_wood (&self);
  draw_layers (&self);
  cav_scene_begin_titled_layer (scene, "section-names", _ ("Layers of the package"),
                                _ ("What each is, and how thick."));
  draw_names (&self, TRUE, &extent);
  cav_scene_end_layer (scene);
  cav_scene_begin_titled_layer (
      scene, "section-dimensions", _ ("Dimensions of the section"),
      _ ("Lip and cover, width and thickness, depth of rabbet and package."));
  add_dimensions (&self, TRUE, &extent);
  cav_scene_end_layer (scene);
  section_clear (&self);
}
