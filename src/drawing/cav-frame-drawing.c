/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <glib/gi18n-lib.h>
#include <math.h>

#include "drawing/cav-drawing-sheet-private.h"
#include "drawing/cav-drawing.h"
#include "drawing/cav-frame-elevation.h"
#include "drawing/cav-frame-figures.h"
#include "drawing/cav-frame-section.h"
#include "drawing/cav-preview.h"
#include "drawing/cav-sheet-private.h"
#include "drawing/cav-title-block.h"

/* On the page, mm. */
#define AIR 5.0
#define CAPTION 7.0
/* Height that the preview keeps at least. */
#define PREVIEW_LEAST 30.0
/* Of the words on upright paper; they need less where they are few. */
#define WORDS_HIGH 36.0
/* From line to line of the words, and how many lines of the note are shown at most. */
#define WORDS_STEP (CAV_LETTER_NOTE * CAV_LETTER_LEADING)
#define NOTE_MOST 12
/* A frame is not drawn larger than it is, its section is. */
#define ELEVATION_MOST 1.0
#define SECTION_MOST 2.0

typedef struct
{
  CavScene *scene;
  CavProject *project;
  const CavFrame *frame;
  const CavProfile *profile;
  const CavSheetOptions *options;
  cairo_surface_t *picture;
  gboolean is_wide; /* the paper lies on its long side */
  CavBox border;
  CavBox elevation; /* areas within it */
  CavBox section;
  CavBox preview;
  CavBox words;
  const CavDrawingScale *elevation_scale;
  const CavDrawingScale *section_scale;
} Sheet;

static CavLengthStyle
get_length_style (const Sheet *self)
{
  return (CavLengthStyle){ self->options->unit, self->options->denominator };
}

/* The elevation to a scale, around the origin. */
static CavFrameElevation
get_elevation (const Sheet *self, const CavDrawingScale *scale)
{
  return (CavFrameElevation){ .scene = self->scene,
                              .frame = self->frame,
                              .scale = scale->value,
                              .style = get_length_style (self) };
}

/* Largest scale of the series at which the elevation stands in an area with its sizes and caption;
 * the smallest where none does. */
static const CavDrawingScale *
find_elevation_scale (const Sheet *self, CavBox area)
{
  const CavDrawingScale *scale = cav_drawing_scale_get_first (ELEVATION_MOST);

  for (;;)
    {
      const CavDrawingScale *next = cav_drawing_scale_get_next (scale);
      CavFrameElevation elevation = get_elevation (self, scale);
      CavBox extent = cav_frame_elevation_get_extent (&elevation);

      if (next == NULL
          || (cav_box_get_width (extent) <= cav_box_get_width (area)
              && cav_box_get_height (extent) + CAPTION <= cav_box_get_height (area)))
        return scale;
      scale = next;
    }
}

static CavBox
get_section_extent (const Sheet *self, const CavDrawingScale *scale)
{
  return cav_frame_section_get_extent (self->scene, self->frame, self->profile, scale->value,
                                       get_length_style (self));
}

/* How much higher the section's area would have to be. */
static double
get_section_lack (const Sheet *self, const CavDrawingScale *scale)
{
  return cav_box_get_height (get_section_extent (self, scale)) + CAPTION
         - cav_box_get_height (self->section);
}

/* The greatest scale at which the section stands in its area, made so much higher; NULL where none
 * is: names and figures do not shrink with the wood. */
static const CavDrawingScale *
find_section_scale (const Sheet *self, double more)
{
  const CavDrawingScale *scale = cav_drawing_scale_get_first (SECTION_MOST);

  for (; scale != NULL; scale = cav_drawing_scale_get_next (scale))
    if (cav_box_get_width (get_section_extent (self, scale)) <= cav_box_get_width (self->section)
        && get_section_lack (self, scale) <= more)
      return scale;
  return NULL;
}

/* Where it is lowest, for an area that it fits at no scale. */
static const CavDrawingScale *
find_lowest_section_scale (const Sheet *self)
{
  const CavDrawingScale *best = cav_drawing_scale_get_first (SECTION_MOST);

  for (const CavDrawingScale *scale = best; scale != NULL;
       scale = cav_drawing_scale_get_next (scale))
    if (get_section_lack (self, scale) < get_section_lack (self, best))
      best = scale;
  return best;
}

/* What the elevation can do without at its scale. */
static double
get_elevation_spare (const Sheet *self)
{
  CavFrameElevation elevation = get_elevation (self, self->elevation_scale);
  CavBox extent = cav_frame_elevation_get_extent (&elevation);

  return fmax (0, cav_box_get_height (self->elevation) - CAPTION - cav_box_get_height (extent));
}

/* Lying: elevation left, section and preview right; words left of the title block. */
static void
lay_out_wide (Sheet *self)
{
  CavBox in = cav_box_grow (self->border, -AIR);
  CavPoint block = cav_drawing_sheet_get_block (self->border);
  double middle = in.x0 + cav_box_get_width (in) * 0.465;
  double split = in.y0 + (block.y - AIR - in.y0) * 0.58;

  self->elevation = cav_box (in.x0, in.y0, middle - AIR, block.y - AIR);
  self->section = cav_box (middle + AIR, in.y0, in.x1, split);
  self->preview = cav_box (middle + AIR, split + AIR, in.x1, block.y - AIR);
  self->words = cav_box (in.x0, block.y + 2, block.x - AIR, in.y1 + AIR - 2);
}

/* Upright: elevation on top, then section beside preview, words above the title block. */
static void
lay_out_tall (Sheet *self)
{
  CavBox in = cav_box_grow (self->border, -AIR);
  CavPoint block = cav_drawing_sheet_get_block (self->border);
  double words = block.y - WORDS_HIGH;
  double split = in.y0 + (words - in.y0) * 0.60;
  double middle = in.x0 + cav_box_get_width (in) * 0.68;

  self->elevation = cav_box (in.x0, in.y0, in.x1, split - AIR);
  self->section = cav_box (in.x0, split, middle - AIR, words - AIR);
  self->preview = cav_box (middle, split, in.x1, words - AIR);
  self->words = cav_box (in.x0, words, in.x1, block.y - 2);
}

/* On a new page, which lies or stands. */
static void
lay_out (Sheet *self, double width, double height)
{
  g_clear_pointer (&self->scene, cav_scene_free);
  self->scene = cav_scene_new (width, height);
  self->is_wide = width > height;
  self->border = cav_drawing_sheet_get_border (width, height);
  if (self->is_wide)
    lay_out_wide (self);
  else
    lay_out_tall (self);
  self->elevation_scale = find_elevation_scale (self, self->elevation);
}

static void
draw_caption (CavScene *scene, const char *name, const CavDrawingScale *scale, CavPoint corner)
{
  const CavTextStyle style = { .height = CAV_LETTER_VALUE, .bold = TRUE, .ink = CAV_INK_BLACK };
  g_autofree char *text = g_strdup_printf ("%s, %s", name, scale->text);

  cav_scene_add_text (scene, text, CAV_POINT (corner.x, corner.y + CAV_LETTER_VALUE), &style);
}

/* By how much a stretch has to move to lie between two limits. */
static double
get_shift (double from, double to, double low, double high)
{
  return fmax (low - from, 0) - fmax (to - high, 0);
}

/* The frame in the middle of its area, or as near to it as its names let it be. */
static CavPoint
place_elevation (const Sheet *self)
{
  CavFrameElevation elevation = get_elevation (self, self->elevation_scale);
  CavBox core = cav_frame_elevation_get_core (&elevation);
  CavBox extent = cav_frame_elevation_get_extent (&elevation);
  CavBox area = self->elevation;
  CavPoint middle;

  area.y0 += CAPTION;
  middle = CAV_POINT ((area.x0 + area.x1 - core.x0 - core.x1) / 2.0,
                      (area.y0 + area.y1 - core.y0 - core.y1) / 2.0);
  middle.x += get_shift (middle.x + extent.x0, middle.x + extent.x1, area.x0, area.x1);
  middle.y += get_shift (middle.y + extent.y0, middle.y + extent.y1, area.y0, area.y1);
  return middle;
}

static void
draw_elevation (const Sheet *self)
{
  CavFrameElevation elevation = get_elevation (self, self->elevation_scale);

  elevation.middle = place_elevation (self);
  cav_scene_begin_titled_layer (self->scene, "elevation", _ ("Front elevation"),
                                _ ("The frame from the front; the rabbet opening is dashed."));
  draw_caption (self->scene, C_ ("view", "Front"), self->elevation_scale,
                CAV_POINT (self->elevation.x0, self->elevation.y0));
  cav_frame_elevation_draw_frame (&elevation, self->profile);
  cav_scene_end_layer (self->scene);
  cav_scene_begin_titled_layer (self->scene, "elevation-dimensions", _ ("Dimensions of the front"),
                                _ ("Sight, rabbet and outside sizes."));
  cav_frame_elevation_draw_sizes (&elevation);
  cav_scene_end_layer (self->scene);
}

static void
draw_section (const Sheet *self)
{
  CavBox extent = get_section_extent (self, self->section_scale);
  CavPoint origin
      = CAV_POINT ((self->section.x0 + self->section.x1 - extent.x0 - extent.x1) / 2.0,
                   (self->section.y0 + CAPTION + self->section.y1 - extent.y0 - extent.y1) / 2.0);

  cav_scene_begin_titled_layer (self->scene, "section-caption", _ ("Caption of the section"),
                                _ ("What is shown, and to which scale."));
  draw_caption (self->scene, C_ ("view", "Section"), self->section_scale,
                CAV_POINT (self->section.x0, self->section.y0));
  cav_scene_end_layer (self->scene);
  cav_frame_section_draw (self->scene, self->frame, self->profile, self->section_scale->value,
                          origin, get_length_style (self));
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
                             cav_box_get_width (self->words), max_lines);
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
  return (guint)fmax (floor (cav_box_get_height (self->words) / WORDS_STEP) - 1.0, 0.0);
}

/* Gives the words so much of the front's place; FALSE where the front would have to shrink. */
static gboolean
move_words (Sheet *self, double height)
{
  Sheet moved = *self;

  moved.words.y0 -= height;
  moved.elevation.y1 -= height;
  if (find_elevation_scale (self, moved.elevation) != self->elevation_scale)
    return FALSE;
  *self = moved;
  return TRUE;
}

/* Many words take from the front's place, line by line, as long as the front keeps its scale. */
static void
make_room_for_words (Sheet *self)
{
  g_autoptr (GPtrArray) lines = wrap_words (self, G_MAXUINT);

  while (lines->len > get_room_for_words (self) && move_words (self, WORDS_STEP))
    ;
}

/* What words, heading and note leave of their place. */
static double
get_words_spare (const Sheet *self)
{
  g_autoptr (GPtrArray) lines = wrap_words (self, G_MAXUINT);

  return fmax (0, cav_box_get_height (self->words) - (lines->len + 1.1) * WORDS_STEP);
}

/* Lying: the preview below gives way. */
static void
make_room_above_preview (Sheet *self)
{
  double lack;

  self->section_scale
      = find_section_scale (self, fmax (0, cav_box_get_height (self->preview) - PREVIEW_LEAST));
  if (self->section_scale == NULL)
    return;
  lack = get_section_lack (self, self->section_scale);
  self->section.y1 += lack;
  self->preview.y0 += lack;
}

/* Upright: few words below give way first, then the elevation above, which takes a smaller scale
 * where it must. */
static void
make_room_below_elevation (Sheet *self)
{
  const CavDrawingScale *usual = self->elevation_scale;
  double below = get_words_spare (self);
  double lack;

  for (const CavDrawingScale *scale = usual; scale != NULL && self->section_scale == NULL;
       scale = cav_drawing_scale_get_next (scale))
    {
      self->elevation_scale = scale;
      self->section_scale = find_section_scale (self, below + get_elevation_spare (self));
    }
  if (self->section_scale == NULL)
    {
      self->elevation_scale = usual;
      return;
    }
  lack = get_section_lack (self, self->section_scale);
  below = fmin (below, lack);
  self->words.y0 += below;
  self->section.y1 += below;
  self->preview.y1 += below;
  self->section.y0 -= lack - below;
  self->elevation.y1 -= lack - below;
}

/* Where its figures stand in many lanes, the section needs more than its place. */
static void
choose_section_scale (Sheet *self)
{
  self->section_scale = find_section_scale (self, 0);
  if (self->section_scale != NULL)
    return;
  if (self->is_wide)
    make_room_above_preview (self);
  else
    make_room_below_elevation (self);
  if (self->section_scale == NULL)
    self->section_scale = find_lowest_section_scale (self);
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

  cav_title_block_draw (self->scene, cells, G_N_ELEMENTS (cells),
                        cav_drawing_sheet_get_block (self->border));
}

/* The paper the way round that gives the larger elevation. */
static void
choose_paper (Sheet *self)
{
  double width;
  double height;
  const CavDrawingScale *lying;

  cav_paper_get_size (self->options->paper, &width, &height);
  lay_out (self, width, height);
  lying = self->elevation_scale;
  lay_out (self, height, width);
  if (self->elevation_scale->value <= lying->value)
    lay_out (self, width, height);
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
  g_autofree char *title = cav_sheet_dup_title (project);

  if (!self.frame->possible)
    {
      g_set_error_literal (
          error, CAV_DRAWING_ERROR, CAV_DRAWING_ERROR_FAILED,
          _ ("the frame has no size that could be drawn; see what is wrong with it"));
      return NULL;
    }
  choose_paper (&self);
  cav_scene_set_title (self.scene, title,
                       _ ("Drawing of a picture frame: front, section, preview and materials."));
  if (self.is_wide)
    make_room_for_words (&self);
  choose_section_scale (&self);
  cav_drawing_sheet_draw (self.scene);
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
  return scene != NULL ? cav_scene_create_png (scene, CAV_DRAWING_DOTS_PER_INCH, error) : NULL;
}
