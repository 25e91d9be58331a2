/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <glib/gi18n-lib.h>
#include <math.h>

#include "drawing/cav-drawing.h"
#include "drawing/cav-end-grain.h"
#include "drawing/cav-machine-view.h"
#include "drawing/cav-pass-words.h"
#include "drawing/cav-sheet-private.h"
#include "drawing/cav-template-private.h"
#include "geometry/cav-unit.h"

/*
 * Parts at full size, laid out in rows on as many pages as they need. A part that is larger than
 * the paper gets a page of its own size: full size comes first.
 */

#define MARGIN 10.0
#define HEAD 21.0
#define GAP 10.0
#define BAR 3.0         /* height of a check bar */
#define BARS 34.0       /* of both with the room around them */
#define TAB 9.0         /* width of a flap to glue on */
#define SLANT 3.0       /* of its ends */
#define LEAST_SLANT 0.6 /* a name that asks for less stands beside its flap */
#define NAME 6.0        /* over a part */
#define BLOCK 14.0      /* wood of a sanding block over the molding's highest point */
#define FLANK 0.25      /* columns at the very edges say nothing about the face, mm */
#define STEP 0.05

static const CavTextStyle note = { .height = CAV_LETTER_SMALL, .ink = CAV_INK_BLACK };
static const CavTextStyle bold = { .height = CAV_LETTER_LARGE, .bold = TRUE, .ink = CAV_INK_BLACK };

/* The parts */

static const char *
get_name (CavTemplatePart part)
{
  switch (part)
    {
    case CAV_TEMPLATE_RIGHT_END:
      return _ ("Right-hand end");
    case CAV_TEMPLATE_LEFT_END:
      return _ ("Left-hand end");
    case CAV_TEMPLATE_BLOCK:
      return _ ("Sanding block");
    }
  g_return_val_if_reached ("");
}

static const char *
get_id (CavTemplatePart part)
{
  static const char *const ids[] = { "right-hand-end", "left-hand-end", "sanding-block" };

  return ids[part];
}

/* Lowest place of the molding's upper side. */
static double
find_low (const CavRegion *profile, const CavBlank *blank)
{
  const CavTransform over = { 1, 0, 0, 0, -1, blank->thickness };
  g_autoptr (CavRegion) turned = cav_region_transformed (profile, over);
  CavBox box = cav_region_get_bounds (profile);
  g_autoptr (CavEnvelope) envelope
      = cav_envelope_new (turned, box.x0 + FLANK, box.x1 - FLANK, STEP);
  double depth = 0;

  for (int i = 0; i < envelope->n_columns; i++)
    if (envelope->heights[i] < CAV_ENVELOPE_OPEN / 2)
      depth = fmax (depth, envelope->heights[i]);
  return blank->thickness - depth;
}

static CavRegion *
dup_upper_piece (const CavRegion *region)
{
  CavRegion *best = NULL;

  for (guint i = 0; i < cav_region_get_piece_count (region); i++)
    {
      CavRegion *piece = cav_region_dup_piece (region, i);

      if (best == NULL || cav_region_get_area (piece) > cav_region_get_area (best))
        {
          g_clear_pointer (&best, cav_region_unref);
          best = piece;
        }
      else
        cav_region_unref (piece);
    }
  return best != NULL ? best : cav_region_new_empty ();
}

CavRegion *
cav_template_create_block (const CavRegion *profile, const CavBlank *blank, double paper)
{
  CavBox box = cav_region_get_bounds (profile);
  g_autoptr (CavRegion) above = NULL;
  g_autoptr (CavRegion) grown = NULL;
  g_autoptr (CavRegion) rest = NULL;

  if (cav_region_is_empty (profile))
    return cav_region_new_empty ();
  above = cav_region_new_box (box.x0, find_low (profile, blank), box.x1, box.y1 + BLOCK);
  grown = cav_region_offset (profile, paper, NULL);
  rest = cav_region_difference (above, grown != NULL ? grown : profile, NULL);
  return rest != NULL ? dup_upper_piece (rest) : cav_region_new_empty ();
}

/* Layout */

typedef struct
{
  CavTemplatePart part;
  CavBox box; /* on its page, with name and flaps */
} Place;

typedef struct
{
  GArray *places; /* Place */
  double width;
  double height;
} Page;

typedef struct
{
  CavProject *project;
  const CavPlan *plan; /* (nullable) */
  const CavSheetOptions *options;
  const CavRegion *profile;
  CavBlank blank;
  CavRegion *block;
  CavEndMark mark;
  GPtrArray *centres; /* CavTemplateCentre */
  GPtrArray *pages;   /* Page */
  double paper_width;
  double paper_height;
  gboolean endless; /* one page as high as it takes */
} Template;

static void
page_free (gpointer data)
{
  Page *page = data;

  g_array_unref (page->places);
  g_free (page);
}

/* Room under the parts for the list of centre lines. */
static double
get_list_height (const Template *self)
{
  return self->centres->len == 0
             ? 0
             : (self->centres->len + 1) * CAV_LETTER_SMALL * CAV_LETTER_LEADING + 4;
}

static void
get_size (const Template *self, CavTemplatePart part, double *out_width, double *out_height)
{
  if (part == CAV_TEMPLATE_BLOCK)
    {
      CavBox box = cav_region_get_bounds (self->block);

      *out_width = fmax (box.x1 - box.x0, 46);
      *out_height = NAME + box.y1 - box.y0;
      return;
    }
  *out_width = self->blank.width + 2 * TAB + 12;
  *out_height = NAME + self->blank.thickness + TAB + 16;
}

static Page *
add_page (Template *self)
{
  Page *page = g_new0 (Page, 1);

  page->places = g_array_new (FALSE, FALSE, sizeof (Place));
  page->width = self->paper_width;
  page->height = self->paper_height;
  g_ptr_array_add (self->pages, page);
  return page;
}

/* In rows from the left; a row that does not fit goes to the next page. */
static void
lay_out (Template *self)
{
  double foot = BARS + get_list_height (self) + MARGIN;
  Page *page = add_page (self);
  double x = MARGIN;
  double y = MARGIN + HEAD;
  double row = 0;

  for (int i = 0; i < CAV_N_TEMPLATE_PARTS; i++)
    {
      Place place = { .part = (CavTemplatePart)i };
      double width;
      double height;

      get_size (self, place.part, &width, &height);
      if (place.part == CAV_TEMPLATE_BLOCK && cav_region_is_empty (self->block))
        continue;
      if (x > MARGIN && x + width > page->width - MARGIN)
        {
          x = MARGIN;
          y += row + GAP;
          row = 0;
        }
      if (y + height > page->height - foot && page->places->len > 0 && !self->endless)
        {
          page = add_page (self);
          x = MARGIN;
          y = MARGIN + HEAD;
          row = 0;
        }
      place.box = cav_box (x, y, x + width, y + height);
      g_array_append_val (page->places, place);
      page->width = fmax (page->width, x + width + MARGIN);
      page->height = fmax (page->height, y + height + foot);
      x += width + GAP;
      row = fmax (row, height);
    }
}

/* Drawing */

/* Full size: one millimetre is one millimetre; ends and block keep their lower left corner. */
static CavTransform
get_map (const Template *self, const Place *place)
{
  double left = place->box.x0 + TAB + 6;
  double foot = place->box.y0 + NAME + TAB + self->blank.thickness;

  if (place->part == CAV_TEMPLATE_LEFT_END)
    return (CavTransform){ -1, 0, left + self->blank.width, 0, -1, foot };
  if (place->part == CAV_TEMPLATE_BLOCK)
    {
      CavBox box = cav_region_get_bounds (self->block);

      return (CavTransform){ 1, 0, place->box.x0 - box.x0, 0, -1, place->box.y0 + NAME + box.y1 };
    }
  return (CavTransform){ 1, 0, left, 0, -1, foot };
}

/* How far the ends of flaps are set back, so that a name stays between them. */
static double
get_slant (double length, double name_width)
{
  /* Where the letters end, away from the fold. */
  double reach = (TAB / 2 - 1 + note.height) / TAB;

  return CLAMP ((length - name_width - 1.5) / (2 * reach), LEAST_SLANT, SLANT);
}

/* Flaps at the sides and on top, to be folded over the rail. */
static void
draw_tabs (CavScene *scene, CavBox blank, double name_width)
{
  double slant = get_slant (blank.y1 - blank.y0, name_width);
  const CavPoint left[] = { { blank.x0, blank.y0 },
                            { blank.x0 - TAB, blank.y0 + slant },
                            { blank.x0 - TAB, blank.y1 - slant },
                            { blank.x0, blank.y1 } };
  const CavPoint right[] = { { blank.x1, blank.y0 },
                             { blank.x1 + TAB, blank.y0 + slant },
                             { blank.x1 + TAB, blank.y1 - slant },
                             { blank.x1, blank.y1 } };
  const CavPoint top[] = { { blank.x0, blank.y0 },
                           { blank.x0 + SLANT, blank.y0 - TAB },
                           { blank.x1 - SLANT, blank.y0 - TAB },
                           { blank.x1, blank.y0 } };

  cav_scene_add_polygon (scene, left, G_N_ELEMENTS (left), CAV_STYLE_TAB);
  cav_scene_add_polygon (scene, right, G_N_ELEMENTS (right), CAV_STYLE_TAB);
  cav_scene_add_polygon (scene, top, G_N_ELEMENTS (top), CAV_STYLE_TAB);
}

/* Width of the longer name of the two side flaps. */
static double
measure_names (CavScene *scene)
{
  CavLettering *lettering = cav_scene_get_lettering (scene);

  return fmax (
      cav_lettering_get_width (lettering, C_ ("side in a sentence", "inside"), note.height, FALSE),
      cav_lettering_get_width (lettering, C_ ("side in a sentence", "outside"), note.height,
                               FALSE));
}

/* In the flaps, or beside those of a thin blank that are too short for it. */
static void
name_tabs (CavScene *scene, CavBox blank, gboolean inside_left, double name_width)
{
  CavTextStyle style = note;
  double x = (blank.x0 + blank.x1) / 2;
  double y = (blank.y0 + blank.y1) / 2;
  gboolean within = get_slant (blank.y1 - blank.y0, name_width) > LEAST_SLANT;
  double left = within ? blank.x0 - TAB / 2 + 1 : blank.x0 - TAB - 1.2;
  double right = within ? blank.x1 + TAB / 2 + 1 : blank.x1 + TAB + 1.2 + note.height;

  cav_scene_add_text (scene, C_ ("side in a sentence", "face"),
                      CAV_POINT (blank.x0 + 4, blank.y0 - TAB / 2 + 1), &style);
  style.align = CAV_ALIGN_MIDDLE;
  cav_scene_add_text (scene, C_ ("side in a sentence", "back"),
                      CAV_POINT (x, blank.y1 + 1.6 + style.height), &style);
  style.turned = TRUE;
  cav_scene_add_text (scene,
                      inside_left ? C_ ("side in a sentence", "inside")
                                  : C_ ("side in a sentence", "outside"),
                      CAV_POINT (left, y), &style);
  cav_scene_add_text (scene,
                      inside_left ? C_ ("side in a sentence", "outside")
                                  : C_ ("side in a sentence", "inside"),
                      CAV_POINT (right, y), &style);
}

static void
draw_centres (const Template *self, CavScene *scene, CavTransform map)
{
  for (guint i = 0; i < self->centres->len; i++)
    {
      const CavTemplateCentre *centre = g_ptr_array_index (self->centres, i);

      cav_scene_add_line (scene, cav_transform_point (map, centre->from),
                          cav_transform_point (map, centre->to), CAV_STYLE_CENTRE);
    }
}

static void
draw_end (const Template *self, CavScene *scene, const Place *place)
{
  CavTransform map = get_map (self, place);
  gboolean inside_left = place->part == CAV_TEMPLATE_RIGHT_END;
  CavPoint a = cav_transform_point (map, CAV_POINT (0, 0));
  CavPoint b = cav_transform_point (map, CAV_POINT (self->blank.width, self->blank.thickness));
  CavBox blank = cav_box (fmin (a.x, b.x), b.y, fmax (a.x, b.x), a.y);
  g_autoptr (CavRegion) whole = cav_blank_create_region (&self->blank);
  double name_width = measure_names (scene);

  draw_tabs (scene, blank, name_width);
  cav_scene_add_region (scene, whole, map, CAV_STYLE_BLANK);
  cav_scene_add_region (scene, self->profile, map, CAV_STYLE_SHAPE);
  draw_centres (self, scene, map);
  cav_end_mark_draw (scene, self->mark, map);
  name_tabs (scene, blank, inside_left, name_width);
}

static void
draw_part (const Template *self, CavScene *scene, const Place *place)
{
  cav_scene_begin_layer (scene, get_id (place->part));
  cav_scene_add_text_within (scene, get_name (place->part),
                             CAV_POINT (place->box.x0, place->box.y0 + bold.height), &bold,
                             place->box.x1 - place->box.x0);
  if (place->part == CAV_TEMPLATE_BLOCK)
    cav_scene_add_region (scene, self->block, get_map (self, place), CAV_STYLE_SHAPE);
  else
    draw_end (self, scene, place);
  cav_scene_end_layer (scene);
}

/* A bar of a length that anybody can check, with its divisions. */
static void
draw_bar (CavScene *scene, CavPoint corner, double length, double division, const char *text)
{
  cav_scene_add_box (scene, cav_box (corner.x, corner.y, corner.x + length, corner.y + BAR),
                     CAV_STYLE_BAR);
  for (double x = division; x < length - division / 2; x += division)
    cav_scene_add_line (scene, CAV_POINT (corner.x + x, corner.y + BAR),
                        CAV_POINT (corner.x + x, corner.y + BAR + 1.5), CAV_STYLE_BLANK);
  cav_scene_add_text (scene, text, CAV_POINT (corner.x + length + 3, corner.y + BAR), &note);
}

static void
draw_bars (const Template *self, CavScene *scene, const Page *page)
{
  double y = page->height - MARGIN - 24;

  cav_scene_begin_layer (scene, "check-bars");
  draw_bar (scene, CAV_POINT (MARGIN, y), 100, 10, _ ("100 mm exactly"));
  draw_bar (scene, CAV_POINT (MARGIN, y + 10), 4 * CAV_INCH, CAV_INCH / 4, _ ("4 in exactly"));
  cav_scene_end_layer (scene);
}

static void
draw_list (const Template *self, CavScene *scene, const Page *page)
{
  const double line = CAV_LETTER_SMALL * CAV_LETTER_LEADING;
  double y = page->height - MARGIN - BARS - get_list_height (self) + 6;

  if (self->centres->len == 0)
    return;
  cav_scene_add_text (scene, _ ("Centre lines of cutters, by the side that lies on the table:"),
                      CAV_POINT (MARGIN, y), &note);
  for (guint i = 0; i < self->centres->len; i++)
    {
      const CavTemplateCentre *centre = g_ptr_array_index (self->centres, i);
      g_autofree char *text = cav_template_describe_centre (centre, self->options);

      y += line;
      cav_scene_add_text_within (scene, text, CAV_POINT (MARGIN, y), &note,
                                 page->width - 2 * MARGIN);
    }
}

static void
draw_head (const Template *self, CavScene *scene, const Page *page)
{
  const CavTextStyle title = { .height = CAV_LETTER_TOOL, .bold = TRUE, .ink = CAV_INK_BLACK };
  g_autofree char *name = cav_sheet_dup_title (self->project);
  g_autofree char *whole = g_strdup_printf (
      /* Translators: a project, in the head of its sheet. */ _ ("%s, template at full size"),
      name);
  double width = page->width - 2 * MARGIN;

  cav_scene_add_text_within (scene, whole, CAV_POINT (MARGIN, MARGIN + title.height), &title,
                             width);
  cav_scene_add_text_within (
      scene, _ ("Print at 100 %, not fitted to the page; measure both bars before use."),
      CAV_POINT (MARGIN, MARGIN + title.height + 6), &note, width);
  cav_scene_add_text_within (
      scene, _ ("Ends as you see them, rail face up, its inside (sight edge) toward you."),
      CAV_POINT (MARGIN, MARGIN + title.height + 11), &note, width);
}

static void
draw_number (CavScene *scene, const Page *page, guint number, guint count)
{
  CavTextStyle style = note;

  style.align = CAV_ALIGN_END;
  style.bold = TRUE;
  cav_scene_add_page_number (scene, number, count, FALSE,
                             CAV_POINT (page->width - MARGIN, page->height - MARGIN), &style);
}

static CavScene *
create_page (const Template *self, guint index)
{
  const Page *page = g_ptr_array_index (self->pages, index);
  CavScene *scene = cav_scene_new (page->width, page->height);
  g_autofree char *title = cav_sheet_dup_title (self->project);

  cav_scene_set_title (scene, title, _ ("Template at full size"));
  draw_head (self, scene, page);
  for (guint i = 0; i < page->places->len; i++)
    draw_part (self, scene, &g_array_index (page->places, Place, i));
  draw_list (self, scene, page);
  draw_bars (self, scene, page);
  if (!self->endless)
    draw_number (scene, page, index + 1, self->pages->len);
  return scene;
}

static void
init_profile (Template *self)
{
  if (self->plan != NULL && self->plan->usable)
    {
      self->profile = self->plan->profile;
      self->blank = self->plan->blank;
      return;
    }
  self->profile = cav_project_get_profile (self->project)->region;
  self->blank = cav_project_get_blank (self->project);
}

GPtrArray *
cav_template_create_scenes (CavProject *project,
                            const CavPlan *plan,
                            const CavSheetOptions *options,
                            gboolean endless)
{
  GPtrArray *scenes = g_ptr_array_new_with_free_func ((GDestroyNotify)cav_scene_free);
  Template self = { .project = project, .plan = plan, .options = options, .endless = endless };

  g_return_val_if_fail (CAV_IS_PROJECT (project) && options != NULL, scenes);

  cav_paper_get_size (options->paper, &self.paper_width, &self.paper_height);
  init_profile (&self);
  self.block = cav_template_create_block (self.profile, &self.blank, CAV_SANDPAPER);
  self.mark = cav_end_mark_find (
      self.profile, CLAMP (0.16 * fmin (self.blank.width, self.blank.thickness) + 2, 1, 8));
  self.centres = cav_template_find_centres (plan);
  self.pages = g_ptr_array_new_with_free_func (page_free);
  lay_out (&self);
  for (guint i = 0; i < self.pages->len; i++)
    g_ptr_array_add (scenes, create_page (&self, i));
  g_ptr_array_unref (self.pages);
  g_ptr_array_unref (self.centres);
  cav_region_unref (self.block);
  return scenes;
}

GBytes *
cav_template_create_pdf (CavProject *project,
                         const CavPlan *plan,
                         const CavSheetOptions *options,
                         GError **error)
{
  g_autoptr (GPtrArray) scenes = cav_template_create_scenes (project, plan, options, FALSE);
  g_autofree char *title = cav_sheet_dup_title (project);

  return cav_scene_create_pdf (scenes, title, _ ("Template at full size"), options->date, error);
}

GBytes *
cav_template_create_svg (CavProject *project,
                         const CavPlan *plan,
                         const CavSheetOptions *options,
                         GError **error)
{
  g_autoptr (GPtrArray) scenes = cav_template_create_scenes (project, plan, options, TRUE);

  return cav_scene_create_svg (g_ptr_array_index (scenes, 0), error);
}
