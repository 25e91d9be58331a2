/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <cairo.h>

#include "drawing/cav-lettering.h"
#include "drawing/cav-palette.h"
#include "geometry/cav-region.h"

G_BEGIN_DECLS

/*
 * What is on a page, before anybody knows whether it becomes PDF, SVG, PNG or pixels of a window:
 * paths of lines and true arcs, texts and layers, in the order in which they are painted.
 * Millimetres, origin at the top left, y down.
 */
typedef struct _CavScene CavScene;

typedef enum
{
  CAV_ALIGN_START,
  CAV_ALIGN_MIDDLE,
  CAV_ALIGN_END,
} CavAlign;

/* How a text stands; the point it is put at is on its baseline. */
typedef struct
{
  double height; /* of capitals and figures */
  gboolean bold;
  CavInk ink;
  CavAlign align;
  gboolean turned; /* reads from bottom to top */
} CavTextStyle;

CavScene *cav_scene_new (double width, double height) G_GNUC_WARN_UNUSED_RESULT;
void cav_scene_free (CavScene *self);
double cav_scene_get_width (const CavScene *self);
double cav_scene_get_height (const CavScene *self);
/* Enlarges all that is on the page and the page with it; widths of lines stay. */
void cav_scene_enlarge (CavScene *self, double factor);
void cav_scene_set_title (CavScene *self, const char *title, const char *description);
/* (transfer none) */
CavLettering *cav_scene_get_lettering (CavScene *self);

/* Layers have a name (an XML id, given once) and may hold layers and clips. */
void cav_scene_begin_layer (CavScene *self, const char *id);
/* The same with a title and a (nullable) description for people, which are cleaned. */
void cav_scene_begin_titled_layer (CavScene *self,
                                   const char *id,
                                   const char *title,
                                   const char *description);
void cav_scene_end_layer (CavScene *self);
/* Until the end, only what lies in the region (mapped onto the page) is painted. */
void cav_scene_begin_clip (CavScene *self, const CavRegion *region, CavTransform map);
void cav_scene_end_clip (CavScene *self);

void cav_scene_add_path (CavScene *self, const CavPath *path, CavStyleName style);
void cav_scene_add_region (CavScene *self,
                           const CavRegion *region,
                           CavTransform map,
                           CavStyleName style);
void cav_scene_add_line (CavScene *self, CavPoint from, CavPoint to, CavStyleName style);
void cav_scene_add_box (CavScene *self, CavBox box, CavStyleName style);
void
cav_scene_add_polygon (CavScene *self, const CavPoint *points, guint n_points, CavStyleName style);
/* One colour of a gradient, at a share of the way. */
typedef struct
{
  double share;
  CavColour colour;
  double clear; /* how much of what lies below shows through: 0 nothing, 1 all */
} CavStop;

/* Paints a polygon in colours that change along the line between two points; in the first of them
 * where there is one alone. Colours are what they are in any light. */
void cav_scene_add_gradient (CavScene *self,
                             const CavPoint *points,
                             guint n_points,
                             CavPoint from,
                             CavPoint to,
                             const CavStop *stops,
                             guint n_stops);
/* Paints an image surface (kept by reference, not to be changed afterwards) into a box. */
void cav_scene_add_image (CavScene *self, cairo_surface_t *surface, CavBox box);
/* Lines at 45 degrees over the whole box; rising to the right or falling. */
void cav_scene_add_hatch (CavScene *self, CavBox box, double spacing, gboolean rising);
/* text is taken as it is, so clean it first where somebody else wrote it. */
void
cav_scene_add_text (CavScene *self, const char *text, CavPoint point, const CavTextStyle *style);
/* The same, cleaned, and shortened to width. */
void cav_scene_add_text_within (
    CavScene *self, const char *text, CavPoint point, const CavTextStyle *style, double width);
/* The number of the page among those that are printed together: "Page 3 of 12", or short "3 of 12".
 * A page has one at most, which can be set anew until the page is painted; a page without any stays
 * without. */
void cav_scene_add_page_number (CavScene *self,
                                guint number,
                                guint count,
                                gboolean is_short,
                                CavPoint point,
                                const CavTextStyle *style);
void cav_scene_number_page (CavScene *self, guint number, guint count);

/* The box that a text takes: its full width, from a little below the baseline to the top of its
 * capitals. */
CavBox cav_scene_get_text_box (CavScene *self,
                               const char *text,
                               CavPoint point,
                               const CavTextStyle *style);
/* All texts that stand on the page, for layout and for tests. */
guint cav_scene_get_text_count (const CavScene *self);
CavBox cav_scene_get_text (const CavScene *self,
                           guint index,
                           const char **out_text,
                           const CavTextStyle **out_style);

/* The back ends. cr has millimetres as its unit. */
void cav_scene_render (CavScene *self, cairo_t *cr);
/* The same in the colours of a screen. */
void cav_scene_render_in (CavScene *self, cairo_t *cr, CavLight light);
GBytes *cav_scene_create_svg (CavScene *self, GError **error) G_GNUC_WARN_UNUSED_RESULT;
GBytes *cav_scene_create_png (CavScene *self,
                              double dots_per_inch,
                              GError **error) G_GNUC_WARN_UNUSED_RESULT;
/* An array of CavScene, one a page. (nullable) date as it is shown; a day of the form 2025-01-31
 * also becomes the file's date, which else is that of SOURCE_DATE_EPOCH or a fixed one, so that
 * the same drawing gives the same bytes. */
GBytes *cav_scene_create_pdf (const GPtrArray *pages,
                              const char *title,
                              const char *subject,
                              const char *date,
                              GError **error) G_GNUC_WARN_UNUSED_RESULT;

typedef enum
{
  CAV_DRAWING_ERROR_FAILED = 1, /* a back end gave up: no memory, a page without size */
} CavDrawingError;
#define CAV_DRAWING_ERROR (cav_drawing_error_quark ())
GQuark cav_drawing_error_quark (void);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CavScene, cav_scene_free)

static inline CavBox
cav_box (double x0, double y0, double x1, double y1)
{
  return (CavBox){ .x0 = x0, .y0 = y0, .x1 = x1, .y1 = y1 };
}

static inline double
cav_box_get_width (CavBox box)
{
  return box.x1 - box.x0;
}

static inline double
cav_box_get_height (CavBox box)
{
  return box.y1 - box.y0;
}

static inline CavBox
cav_box_grow (CavBox box, double by)
{
  return cav_box (box.x0 - by, box.y0 - by, box.x1 + by, box.y1 + by);
}

/* The least box around two. */
static inline CavBox
cav_box_join (CavBox a, CavBox b)
{
  return cav_box (MIN (a.x0, b.x0), MIN (a.y0, b.y0), MAX (a.x1, b.x1), MAX (a.y1, b.y1));
}

static inline gboolean
cav_box_overlaps (CavBox a, CavBox b)
{
  return a.x0 < b.x1 && b.x0 < a.x1 && a.y0 < b.y1 && b.y0 < a.y1;
}

G_END_DECLS
