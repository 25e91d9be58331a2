/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <glib/gi18n-lib.h>
#include <math.h>

#include "drawing/cav-dimension.h"
#include "drawing/cav-drawing.h"
#include "drawing/cav-frame-figures.h"
#include "drawing/cav-frame-section.h"
#include "drawing/cav-preview.h"
#include "drawing/cav-relief.h"
#include "drawing/cav-sheet-private.h"
#include "drawing/cav-title-block.h"

/* The sheet, mm: margins by ISO 5457, room for binding at the left. */
#define MARGIN_LEFT 20.0
#define MARGIN 10.0
#define AIR 5.0
#define BLOCK_HEIGHT (3 * CAV_TITLE_BLOCK_ROW)
#define LANE 7.0
#define FIRST_LANE 9.0
/* What the dimensions of the elevation take beside and below it. */
#define LANES (FIRST_LANE + 2 * LANE + 4.0)
#define CAPTION 7.0
/* Height that the preview keeps at least. */
#define PREVIEW_LEAST 30.0
/* The longest name of a size with its figure, in any language. */
#define LONG_NAME 55.0
/* From line to line of the words, mm, and how many lines of the note are shown at most. */
#define WORDS_STEP (CAV_LETTER_NOTE * CAV_LETTER_LEADING)
#define NOTE_MOST 12
#define PNG_DOTS_PER_INCH 200.0
/* A step on the face that is drawn as an edge, mm, or a bend, as a difference of slopes. */
#define EDGE_STEP 0.4
#define EDGE_BEND 0.35
#define EDGE_SAMPLES 900

typedef struct
{
  double value;
  const char *text;
} Scale;

/* ISO 5455. */
static const Scale scales[] = {
  { 2, "2:1" },    { 1, "1:1" },     { 0.5, "1:2" },   { 0.2, "1:5" },
  { 0.1, "1:10" }, { 0.05, "1:20" }, { 0.02, "1:50" }, { 0.01, "1:100" },
};

typedef struct
{
  CavScene *scene;
  CavProject *project;
  const CavFrame *frame;
  const CavProfile *profile;
  const CavSheetOptions *options;
  cairo_surface_t *picture;
  CavBox inner;     /* the sheet's frame */
  CavBox elevation; /* areas within it */
  CavBox section;
  CavBox preview;
  CavBox words;
  const Scale *elevation_scale;
  const Scale *section_scale;
} Sheet;

static CavLengthStyle
get_length_style (const Sheet *self)
{
  return (CavLengthStyle){ self->options->unit, self->options->denominator };
}

static double
box_width (CavBox box)
{
  return box.x1 - box.x0;
}

static double
box_height (CavBox box)
{
  return box.y1 - box.y0;
}

static CavBox
get_frame_bounds (const CavFrame *frame)
{
  CavFrameFace face;

  cav_frame_face_init (&face, frame->settings.sides, frame->sizes.outside);
  return cav_frame_face_get_bounds (&face);
}

/* Largest scale of the series at which the elevation with its dimensions fits; the smallest where
 * none does. A frame is never drawn larger than it is. */
static const Scale *
find_elevation_scale (const CavFrame *frame, CavBox area)
{
  CavBox bounds = get_frame_bounds (frame);

  for (guint i = 1; i < G_N_ELEMENTS (scales); i++)
    if (box_width (bounds) * scales[i].value + LANES <= box_width (area)
        && box_height (bounds) * scales[i].value + LANES + CAPTION <= box_height (area))
      return &scales[i];
  return &scales[G_N_ELEMENTS (scales) - 1];
}

/* The greatest scale at which the section stands in its area; NULL where none is: names and figures
 * do not shrink with the wood. */
static const Scale *
find_section_scale (const Sheet *self)
{
  for (guint i = 0; i < G_N_ELEMENTS (scales); i++)
    {
      CavBox extent = cav_frame_section_get_extent (self->scene, self->frame, self->profile,
                                                    scales[i].value, get_length_style (self));

      if (box_width (extent) <= box_width (self->section)
          && box_height (extent) + CAPTION <= box_height (self->section))
        return &scales[i];
    }
  return NULL;
}

/* What the elevation can do without: its frame at its scale, and room above a low one, where the
 * names of its sizes stand that are longer than it is high. */
static double
get_elevation_spare (const Sheet *self)
{
  double high = box_height (get_frame_bounds (self->frame)) * self->elevation_scale->value;
  double needed = high + LANES + CAPTION + (high < LONG_NAME ? 2.0 * LONG_NAME : 0.0);

  return fmax (0, box_height (self->elevation) - needed);
}

/* Where figures stand in many lanes, the preview below gives way, or else the elevation above. */
static void
choose_section_scale (Sheet *self)
{
  gboolean wide = self->preview.y0 > self->section.y1;
  double spare
      = wide ? fmax (0, box_height (self->preview) - PREVIEW_LEAST) : get_elevation_spare (self);

  self->section_scale = find_section_scale (self);
  if (self->section_scale == NULL && wide)
    {
      self->section.y1 += spare;
      self->preview.y0 += spare;
    }
  else if (self->section_scale == NULL)
    {
      self->section.y0 -= spare;
      self->elevation.y1 -= spare;
    }
  if (self->section_scale == NULL)
    self->section_scale = find_section_scale (self);
  if (self->section_scale == NULL)
    self->section_scale = &scales[G_N_ELEMENTS (scales) - 1];
}

/* Lying: elevation left, section and preview right; words left of the title block. */
static void
lay_out_wide (Sheet *self)
{
  CavBox in = cav_box_grow (self->inner, -AIR);
  double block = self->inner.y1 - BLOCK_HEIGHT;
  double middle = in.x0 + box_width (in) * 0.465;
  double split = in.y0 + (block - AIR - in.y0) * 0.58;

  self->elevation = cav_box (in.x0, in.y0, middle - AIR, block - AIR);
  self->section = cav_box (middle + AIR, in.y0, in.x1, split);
  self->preview = cav_box (middle + AIR, split + AIR, in.x1, block - AIR);
  self->words
      = cav_box (in.x0, block + 2, self->inner.x1 - CAV_TITLE_BLOCK_WIDTH - AIR, in.y1 + AIR - 2);
}

/* Upright: elevation on top, then section beside preview, words above the title block. */
static void
lay_out_tall (Sheet *self)
{
  CavBox in = cav_box_grow (self->inner, -AIR);
  double block = self->inner.y1 - BLOCK_HEIGHT;
  double words = block - 36;
  double split = in.y0 + (words - in.y0) * 0.60;
  double middle = in.x0 + box_width (in) * 0.68;

  self->elevation = cav_box (in.x0, in.y0, in.x1, split - AIR);
  self->section = cav_box (in.x0, split, middle - AIR, words - AIR);
  self->preview = cav_box (middle, split, in.x1, words - AIR);
  self->words = cav_box (in.x0, words, in.x1, block - 2);
}

static void
lay_out (Sheet *self, double width, double height)
{
  self->inner = cav_box (MARGIN_LEFT, MARGIN, width - MARGIN, height - MARGIN);
  if (width > height)
    lay_out_wide (self);
  else
    lay_out_tall (self);
  self->elevation_scale = find_elevation_scale (self->frame, self->elevation);
}

static void
draw_caption (CavScene *scene, const char *name, const Scale *scale, CavPoint point)
{
  const CavTextStyle style = { .height = CAV_LETTER_VALUE, .bold = TRUE, .ink = CAV_INK_BLACK };
  g_autofree char *text = g_strdup_printf ("%s, %s", name, scale->text);

  cav_scene_add_text (scene, text, point, &style);
}

static void
draw_outline (const Sheet *self, CavSize size, CavPoint shift, CavPoint middle, CavStyleName style)
{
  CavFrameFace face;
  CavPoint points[CAV_FRAME_SIDES_MAX];
  double scale = self->elevation_scale->value;

  cav_frame_face_init (&face, self->frame->settings.sides, size);
  for (int i = 0; i < face.sides; i++)
    {
      CavPoint corner = cav_frame_face_get_corner (&face, i, 0.0);

      points[i] = CAV_POINT (middle.x + (corner.x + shift.x) * scale,
                             middle.y + (corner.y + shift.y) * scale);
    }
  cav_scene_add_polygon (self->scene, points, (guint)face.sides, style);
}

/* The profile's arrises as lines that run around the frame: where the face steps or bends. */
static void
draw_arrises (const Sheet *self, CavPoint middle)
{
  g_autoptr (CavRelief) relief = cav_relief_new (self->profile, EDGE_SAMPLES);
  int last = 0;

  for (int i = 1; relief != NULL && i < EDGE_SAMPLES; i++)
    {
      double at = i * relief->width / EDGE_SAMPLES;
      CavSize size = self->frame->sizes.outside;

      if (fabsf (relief->heights[i] - relief->heights[i - 1]) < EDGE_STEP
          && fabsf (relief->slopes[i] - relief->slopes[i - 1]) < EDGE_BEND)
        continue;
      /* Lines nearer than this on paper would run together. */
      if ((i - last) * relief->width / EDGE_SAMPLES * self->elevation_scale->value < 0.6)
        continue;
      last = i;
      size.width -= 2.0 * at;
      size.height -= 2.0 * at;
      draw_outline (self, size, CAV_POINT (0, 0), middle, CAV_STYLE_THIN_RULE);
    }
}

static void
draw_mitres (const Sheet *self, CavPoint middle)
{
  CavFrameFace face;
  double scale = self->elevation_scale->value;

  cav_frame_face_init (&face, self->frame->settings.sides, self->frame->sizes.outside);
  for (int i = 0; i < face.sides; i++)
    {
      CavPoint a = cav_frame_face_get_corner (&face, i, 0.0);
      CavPoint b = cav_frame_face_get_corner (&face, i, self->frame->sizes.molding);

      cav_scene_add_line (self->scene, CAV_POINT (middle.x + a.x * scale, middle.y + a.y * scale),
                          CAV_POINT (middle.x + b.x * scale, middle.y + b.y * scale),
                          CAV_STYLE_THIN_RULE);
    }
}

static void
draw_size (const Sheet *self, const char *name, double mm, CavPoint middle, int lane, gboolean tall)
{
  CavBox bounds = get_frame_bounds (self->frame);
  CavLengthStyle style = get_length_style (self);
  double scale = self->elevation_scale->value;
  double half = mm / 2.0 * scale;
  double edge = (tall ? middle.x + bounds.x1 * scale : middle.y + bounds.y1 * scale);
  double from = tall ? middle.y : middle.x;
  g_autofree char *figure = cav_length_format_bare (mm, style.unit, style.denominator);
  g_autofree char *text = g_strdup_printf ("%s %s", name, figure);
  const CavDimension dimension = { .upright = tall,
                                   .from = from - half,
                                   .to = from + half,
                                   .line = edge + FIRST_LANE + lane * LANE,
                                   .start_from = edge,
                                   .start_to = edge,
                                   .text = text,
                                   .height = CAV_LETTER_VALUE,
                                   .beyond_low = tall };

  cav_dimension_draw (self->scene, &dimension);
}

/* Of a rectangle both sizes, of another frame the length of a side, measured at the one below. */
static void
draw_sizes (const Sheet *self, CavPoint middle)
{
  const CavFrameSizes *sizes = &self->frame->sizes;
  const CavFrameRails *rails = &self->frame->rails;

  if (rails->n_groups == 1)
    {
      draw_size (self, C_ ("size of a frame", "sight"), rails->groups[0].short_point, middle, 0,
                 FALSE);
      draw_size (self, C_ ("size of a frame", "rabbet"), rails->groups[0].rabbet_line, middle, 1,
                 FALSE);
      draw_size (self, C_ ("size of a frame", "outside"), rails->groups[0].long_point, middle, 2,
                 FALSE);
      return;
    }
  for (int tall = 0; tall < 2; tall++)
    {
      draw_size (self, C_ ("size of a frame", "sight"),
                 tall ? sizes->sight.height : sizes->sight.width, middle, 0, tall);
      draw_size (self, C_ ("size of a frame", "rabbet"),
                 tall ? sizes->rabbet.height : sizes->rabbet.width, middle, 1, tall);
      draw_size (self, C_ ("size of a frame", "outside"),
                 tall ? sizes->outside.height : sizes->outside.width, middle, 2, tall);
    }
}

static void
draw_elevation (const Sheet *self)
{
  const CavFrameSizes *sizes = &self->frame->sizes;
  const CavFrameSettings *settings = &self->frame->settings;
  CavBox bounds = get_frame_bounds (self->frame);
  double scale = self->elevation_scale->value;
  CavPoint middle = CAV_POINT (self->elevation.x0 + (box_width (self->elevation) - LANES) / 2.0
                                   - (bounds.x0 + bounds.x1) / 2.0 * scale,
                               self->elevation.y0 + CAPTION
                                   + (box_height (self->elevation) - LANES - CAPTION) / 2.0
                                   - (bounds.y0 + bounds.y1) / 2.0 * scale);
  CavPoint shift = CAV_POINT ((sizes->borders.left - sizes->borders.right) / 2.0,
                              (sizes->borders.top - sizes->borders.bottom) / 2.0);

  cav_scene_begin_titled_layer (self->scene, "elevation", _ ("Front elevation"),
                                _ ("The frame from the front; the rabbet opening is dashed."));
  draw_caption (self->scene, C_ ("view", "Front"), self->elevation_scale,
                CAV_POINT (self->elevation.x0, self->elevation.y0 + CAV_LETTER_VALUE));
  draw_arrises (self, middle);
  draw_mitres (self, middle);
  draw_outline (self, sizes->rabbet, CAV_POINT (0, 0), middle, CAV_STYLE_HIDDEN);
  for (int i = 0; i < settings->n_mats && !settings->floated; i++)
    draw_outline (self, sizes->windows[i], shift, middle, CAV_STYLE_THIN_RULE);
  draw_outline (self, sizes->sight, CAV_POINT (0, 0), middle, CAV_STYLE_OUTLINE);
  draw_outline (self, sizes->outside, CAV_POINT (0, 0), middle, CAV_STYLE_OUTLINE);
  cav_scene_end_layer (self->scene);
  cav_scene_begin_titled_layer (self->scene, "elevation-dimensions", _ ("Dimensions of the front"),
                                _ ("Sight, rabbet and outside sizes."));
  draw_sizes (self, middle);
  cav_scene_end_layer (self->scene);
}

static void
draw_section (Sheet *self)
{
  CavLengthStyle style = get_length_style (self);
  CavBox extent = cav_frame_section_get_extent (self->scene, self->frame, self->profile,
                                                self->section_scale->value, style);
  CavPoint origin
      = CAV_POINT ((self->section.x0 + self->section.x1 - extent.x0 - extent.x1) / 2.0,
                   (self->section.y0 + CAPTION + self->section.y1 - extent.y0 - extent.y1) / 2.0);

  cav_scene_begin_titled_layer (self->scene, "section-caption", _ ("Caption of the section"),
                                _ ("What is shown, and to which scale."));
  draw_caption (self->scene, C_ ("view", "Section"), self->section_scale,
                CAV_POINT (self->section.x0, self->section.y0 + CAV_LETTER_VALUE));
  cav_scene_end_layer (self->scene);
  cav_frame_section_draw (self->scene, self->frame, self->profile, self->section_scale->value,
                          origin, style);
}

static char *
format_length (const Sheet *self, double mm)
{
  CavLengthStyle style = get_length_style (self);

  return cav_length_format (mm, style.unit, style.denominator);
}

static char *
format_size (const Sheet *self, CavSize size)
{
  CavLengthStyle style = get_length_style (self);
  g_autofree char *width = cav_length_format_bare (size.width, style.unit, style.denominator);
  g_autofree char *height = format_length (self, size.height);

  return g_strdup_printf ("%s × %s", width, height);
}

/* max_lines 0: any number. */
static void
add_words (const Sheet *self, GPtrArray *lines, const char *text, guint max_lines)
{
  g_autofree char *clean = cav_lettering_clean (text);
  g_autoptr (GPtrArray) more = NULL;

  if (*clean == '\0')
    return;
  more = cav_lettering_wrap (cav_scene_get_lettering (self->scene), clean, CAV_LETTER_NOTE, FALSE,
                             box_width (self->words), max_lines);
  g_ptr_array_extend_and_steal (lines, g_steal_pointer (&more));
}

/* (transfer full) (element-type utf8) The materials in lines, and the note in what they leave of
 * max_lines; a note that is longer is cut. */
static GPtrArray *
wrap_words (const Sheet *self, guint max_lines)
{
  g_autoptr (GPtrArray) materials = cav_frame_figures_list_materials (self->frame, self->options);
  GPtrArray *lines = g_ptr_array_new_with_free_func (g_free);

  for (guint i = 0; i < materials->len; i++)
    add_words (self, lines, g_ptr_array_index (materials, i), 0);
  if (lines->len < max_lines)
    add_words (self, lines, cav_project_get_notes (self->project),
               MIN (max_lines - lines->len, NOTE_MOST));
  return lines;
}

/* Lines that the words' place holds below their heading. */
static guint
get_room_for_words (const Sheet *self)
{
  return (guint)fmax (floor (box_height (self->words) / WORDS_STEP) - 1.0, 0.0);
}

/* Gives the words so much of the front's place; FALSE where the front would have to shrink. */
static gboolean
move_words (Sheet *self, double height)
{
  Sheet moved = *self;

  moved.words.y0 -= height;
  moved.elevation.y1 -= height;
  if (find_elevation_scale (self->frame, moved.elevation) != self->elevation_scale)
    return FALSE;
  *self = moved;
  return TRUE;
}

/* Many words take from the front's place, line by line, as long as the front keeps its scale. */
static void
make_room_for_words (Sheet *self)
{
  g_autoptr (GPtrArray) lines = wrap_words (self, G_MAXUINT);

  /* On upright paper the section lies between. */
  if (self->words.y0 - self->elevation.y1 > 2.0 * AIR + 2.0)
    return;
  while (lines->len > get_room_for_words (self) && move_words (self, WORDS_STEP))
    ;
}

static void
draw_words (const Sheet *self)
{
  const CavTextStyle style = { .height = CAV_LETTER_NOTE, .ink = CAV_INK_BLACK };
  const CavTextStyle heading = { .height = CAV_LETTER_NOTE, .bold = TRUE, .ink = CAV_INK_BLACK };
  double y = self->words.y0 + CAV_LETTER_NOTE;
  const guint room = get_room_for_words (self);
  g_autoptr (GPtrArray) lines = wrap_words (self, room);

  cav_scene_begin_titled_layer (self->scene, "materials", _ ("Materials and note"),
                                _ ("Wood, finish, sheets, weight, and what was noted."));
  cav_scene_add_text (self->scene, _ ("Materials"), CAV_POINT (self->words.x0, y), &heading);
  for (guint i = 0; i < MIN (lines->len, room); i++)
    {
      y += WORDS_STEP;
      cav_scene_add_text (self->scene, g_ptr_array_index (lines, i), CAV_POINT (self->words.x0, y),
                          &style);
    }
  cav_scene_end_layer (self->scene);
}

static void
draw_title_block (const Sheet *self)
{
  g_autofree char *title = cav_sheet_dup_title (self->project);
  g_autofree char *scale
      = g_strdup_printf (/* Translators: two scales, like 1:5. */ _ ("front %s, section %s"),
                         self->elevation_scale->text, self->section_scale->text);
  const CavFrameRails *rails = &self->frame->rails;
  g_autofree char *side = format_length (self, rails->groups[0].long_point);
  g_autofree char *outside
      = rails->n_groups == 2
            ? format_size (self, self->frame->sizes.outside)
            : g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%d side of %s", "%d sides of %s",
                                            (gulong)rails->n_places),
                               rails->n_places, side);
  const CavTitleCell cells[] = {
    { 0, 0, 122, C_ ("title block", "Title"), title, TRUE },
    { 122, 0, 28, C_ ("title block", "Sheet"), NULL, FALSE },
    { 0, 1, 75, C_ ("title block", "Drawing"), _ ("Picture frame"), FALSE },
    { 75, 1, 75, C_ ("title block", "Outside"), outside, FALSE },
    { 0, 2, 75, C_ ("title block", "Scale"), scale, FALSE },
    { 75, 2, 37, C_ ("title block", "Measures in"), cav_unit_get_word (self->options->unit),
      FALSE },
    { 112, 2, 38, C_ ("title block", "Date"),
      self->options->date != NULL ? self->options->date : "–", FALSE },
  };

  cav_title_block_draw (
      self->scene, cells, G_N_ELEMENTS (cells),
      CAV_POINT (self->inner.x1 - CAV_TITLE_BLOCK_WIDTH, self->inner.y1 - BLOCK_HEIGHT));
}

/* The paper the way round that gives the larger elevation. */
static void
choose_paper (Sheet *self, double *out_width, double *out_height)
{
  double width;
  double height;
  const Scale *lying;

  cav_paper_get_size (self->options->paper, &width, &height);
  lay_out (self, width, height);
  lying = self->elevation_scale;
  lay_out (self, height, width);
  if (self->elevation_scale->value > lying->value)
    {
      *out_width = height;
      *out_height = width;
      return;
    }
  lay_out (self, width, height);
  *out_width = width;
  *out_height = height;
}

CavScene *
cav_frame_drawing_create_scene (CavProject *project,
                                cairo_surface_t *picture,
                                const CavSheetOptions *options,
                                GError **error)
{
  Sheet self = { .project = project,
                 .frame = cav_project_get_frame (project),
                 .profile = cav_project_get_profile (project),
                 .options = options,
                 .picture = picture };
  double width;
  double height;
  g_autofree char *title = cav_sheet_dup_title (project);

  if (!self.frame->possible)
    {
      g_set_error_literal (
          error, CAV_DRAWING_ERROR, CAV_DRAWING_ERROR_FAILED,
          _ ("the frame has no size that could be drawn; see what is wrong with it"));
      return NULL;
    }
  choose_paper (&self, &width, &height);
  self.scene = cav_scene_new (width, height);
  cav_scene_set_title (self.scene, title,
                       _ ("Drawing of a picture frame: front, section, preview and materials."));
  make_room_for_words (&self);
  cav_scene_begin_titled_layer (self.scene, "sheet", _ ("Sheet"), _ ("The paper and its border."));
  cav_scene_add_box (self.scene, cav_box (0, 0, width, height), CAV_STYLE_PAPER);
  cav_scene_add_box (self.scene, self.inner, CAV_STYLE_SHEET_FRAME);
  cav_scene_end_layer (self.scene);
  choose_section_scale (&self);
  draw_elevation (&self);
  draw_section (&self);
  cav_preview_add_to_scene (self.scene, "preview", self.frame, self.profile, NULL, picture,
                            self.preview);
  draw_words (&self);
  draw_title_block (&self);
  return self.scene;
}

GBytes *
cav_frame_drawing_create_svg (CavProject *project,
                              cairo_surface_t *picture,
                              const CavSheetOptions *options,
                              GError **error)
{
  g_return_val_if_fail (CAV_IS_PROJECT (project) && options != NULL, NULL);

  g_autoptr (CavScene) scene = cav_frame_drawing_create_scene (project, picture, options, error);
  return scene != NULL ? cav_scene_create_svg (scene, error) : NULL;
}

GBytes *
cav_frame_drawing_create_pdf (CavProject *project,
                              cairo_surface_t *picture,
                              const CavSheetOptions *options,
                              GError **error)
{
  g_return_val_if_fail (CAV_IS_PROJECT (project) && options != NULL, NULL);

  CavScene *scene = cav_frame_drawing_create_scene (project, picture, options, error);
  g_autofree char *title = cav_sheet_dup_title (project);
  if (scene == NULL)
    return NULL;
  g_autoptr (GPtrArray) pages = g_ptr_array_new_with_free_func ((GDestroyNotify)cav_scene_free);
  g_ptr_array_add (pages, scene);
  return cav_scene_create_pdf (pages, title, _ ("Picture frame"), options->date, error);
}

GBytes *
cav_frame_drawing_create_png (CavProject *project,
                              cairo_surface_t *picture,
                              const CavSheetOptions *options,
                              GError **error)
{
  g_return_val_if_fail (CAV_IS_PROJECT (project) && options != NULL, NULL);

  g_autoptr (CavScene) scene = cav_frame_drawing_create_scene (project, picture, options, error);
  return scene != NULL ? cav_scene_create_png (scene, PNG_DOTS_PER_INCH, error) : NULL;
}
