/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <glib/gi18n-lib.h>
#include <math.h>

#include "drawing/cav-drawing-sheet-private.h"
#include "drawing/cav-drawing.h"
#include "drawing/cav-section-view.h"
#include "drawing/cav-sheet-private.h"
#include "drawing/cav-title-block.h"
#include "geometry/cav-tolerance.h"

/* On the page, mm. */
#define CUT_INDENT 3.0 /* of the second line of a cut */
#define AIR 4.0        /* between the drawing and what is around it */
/* Sections up to this size, mm, may be drawn at 5:1, others at 2:1. */
#define TINY 30.0
#define TINY_MOST 5.0
#define USUAL_MOST 2.0

static gboolean
fits (CavBox extent, CavBox area)
{
  return cav_box_get_width (extent) <= cav_box_get_width (area)
         && cav_box_get_height (extent) <= cav_box_get_height (area);
}

static CavPoint
get_centred_origin (CavBox extent, CavBox area)
{
  return CAV_POINT ((area.x0 + area.x1 - extent.x0 - extent.x1) / 2,
                    (area.y0 + area.y1 - extent.y0 - extent.y1) / 2);
}

/* The view at the largest scale of the series that fits. */
static CavSectionView *
create_view (CavScene *scene,
             CavProject *project,
             CavBox area,
             const CavSheetOptions *options,
             const char **out_scale)
{
  CavBlank blank = cav_project_get_blank (project);
  gboolean is_tiny = fmax (blank.width, blank.thickness) <= TINY;
  const CavDrawingScale *scale = cav_drawing_scale_get_first (is_tiny ? TINY_MOST : USUAL_MOST);

  for (;;)
    {
      const CavDrawingScale *next = cav_drawing_scale_get_next (scale);
      g_autoptr (CavSectionView) view = cav_section_view_new (scene, project, scale->value, FALSE,
                                                              options->unit, options->denominator);

      *out_scale = scale->text;
      if (next == NULL || fits (view->extent, area))
        return g_steal_pointer (&view);
      scale = next;
    }
}

static char *
format_blank (CavProject *project, const CavSheetOptions *options)
{
  CavBlank blank = cav_project_get_blank (project);
  g_autofree char *width
      = cav_length_format_bare (blank.width, options->unit, options->denominator);
  g_autofree char *thickness
      = cav_length_format (blank.thickness, options->unit, options->denominator);

  return g_strdup_printf ("%s × %s", width, thickness);
}

static void
draw_title_block (CavScene *scene,
                  CavProject *project,
                  const CavSheetOptions *options,
                  const char *scale,
                  CavPoint corner)
{
  const CavWood *wood = cav_project_get_wood (project);
  g_autofree char *title = cav_sheet_dup_title (project);
  g_autofree char *blank = format_blank (project, options);
  const CavTitleCell cells[] = {
    { 0, 0, 112, C_ ("title block", "Title"), title, TRUE },
    { 112, 0, 38, C_ ("title block", "Scale"), scale, TRUE },
    { 0, 1, 75, C_ ("title block", "Drawing"), _ ("Section of the rail"), FALSE },
    { 75, 1, 75, C_ ("title block", "Blank, width × thickness"), blank, FALSE },
    { 0, 2, 75, C_ ("title block", "Wood"),
      wood != NULL ? cav_wood_get_name (wood) : C_ ("wood", "not chosen"), FALSE },
    { 75, 2, 37, C_ ("title block", "Measures in"), cav_unit_get_word (options->unit), FALSE },
    { 112, 2, 38, C_ ("title block", "Date"), options->date != NULL ? options->date : "–", FALSE },
  };

  cav_title_block_draw (scene, cells, G_N_ELEMENTS (cells), corner);
}

/* "Drawn shape: width 9, depth 10" */
static char *
describe_shape (const CavCut *cut, const CavSheetOptions *options)
{
  CavBox bounds = cav_path_get_bounds (cut->path);
  g_autofree char *width
      = cav_length_format_bare (bounds.x1 - bounds.x0, options->unit, options->denominator);
  g_autofree char *depth
      = cav_length_format_bare (bounds.y1 - bounds.y0, options->unit, options->denominator);

  return g_strdup_printf (_ ("Drawn shape: width %s, depth %s"), width, depth);
}

static const char *const number_names[CAV_N_CUT_NUMBERS]
    = { NC_ ("number of a cut in a line", "width"),
        NC_ ("number of a cut in a line", "depth"),
        NC_ ("number of a cut in a line", "position"),
        NC_ ("number of a cut in a line", "steps"),
        NC_ ("number of a cut in a line", "run of each"),
        NC_ ("number of a cut in a line", "rise of each"),
        NC_ ("number of a cut in a line", "height at the start"),
        NC_ ("number of a cut in a line", "height at the end"),
        NC_ ("number of a cut in a line", "width of the quirk"),
        NC_ ("number of a cut in a line", "depth of the quirk"),
        NC_ ("number of a cut in a line", "share of the first arc"),
        NC_ ("number of a cut in a line", "shift along x"),
        NC_ ("number of a cut in a line", "shift along y") };

/* "Rabbet, back inside: width 6.35, depth 9.5" */
static char *
describe_cut (const CavCut *cut, const CavSheetOptions *options)
{
  const CavCutInfo *info = cav_cut_kind_get_info (cut->kind);
  const char *place = cut->anchor == CAV_ANCHOR_CORNER ? cav_corner_get_word (cut->corner)
                                                       : cav_side_get_word (cut->side);
  GString *text;

  if (cut->anchor == CAV_ANCHOR_FREE && cut->path != NULL)
    return describe_shape (cut, options);
  text = g_string_new (g_dpgettext2 (GETTEXT_PACKAGE, "cut", info->label));

  g_string_append_printf (text, ", %s", place);
  for (guint i = 0, n = 0; i < info->n_numbers; i++)
    {
      const CavCutNumberInfo *number = &info->numbers[i];
      double value = cut->numbers[number->number];
      const char *label = g_dpgettext2 (GETTEXT_PACKAGE, "number of a cut in a line",
                                        number_names[number->number]);
      g_autofree char *figure = NULL;

      if ((number->optional && fabs (value) < CAV_TOLERANCE_POINT)
          || (number->number == CAV_CUT_POSITION && cut->anchor != CAV_ANCHOR_SIDE))
        continue;
      figure = cav_length_format_bare (value, number->is_length ? options->unit : CAV_UNIT_MM,
                                       options->denominator);
      /* No line breaks within a figure. */
      g_string_append_printf (text, "%s %s ", n++ == 0 ? ":" : ",", label);
      for (const char *c = figure; *c != '\0'; c++)
        g_string_append_len (text, *c == ' ' ? "\302\240" : c, *c == ' ' ? 2 : 1);
    }
  return g_string_free (text, FALSE);
}

/* The numbers that the section is made from, beside the title block. A line is kept for saying how
 * many more there are. */
static void
draw_cuts (CavScene *scene, CavProject *project, const CavSheetOptions *options, CavBox box)
{
  const CavTextStyle heading = { .height = CAV_LETTER_NOTE, .bold = TRUE, .ink = CAV_INK_BLACK };
  const CavTextStyle style = { .height = CAV_LETTER_NOTE, .ink = CAV_INK_BLACK };
  CavLettering *lettering = cav_scene_get_lettering (scene);
  double step = CAV_LETTER_NOTE * CAV_LETTER_LEADING;
  double y = box.y0 + CAV_LETTER_NOTE;
  guint n_cuts = cav_project_get_cut_count (project);
  guint n_left = (guint)((box.y1 - box.y0) / step) - 1;

  if (n_cuts == 0)
    return;
  cav_scene_begin_layer (scene, "cuts");
  cav_scene_add_text (scene, _ ("Cuts"), CAV_POINT (box.x0, y), &heading);
  for (guint i = 0; i < n_cuts; i++)
    {
      g_autofree char *text = describe_cut (cav_project_get_cut (project, i), options);
      g_autoptr (GPtrArray) lines = cav_lettering_wrap (lettering, text, style.height, FALSE,
                                                        box.x1 - box.x0 - CUT_INDENT, 2);

      if (lines->len + (i + 1 < n_cuts ? 1 : 0) > n_left)
        {
          g_autofree char *more = g_strdup_printf (
              g_dngettext (GETTEXT_PACKAGE, "and %u more", "and %u more", n_cuts - i), n_cuts - i);

          cav_scene_add_text (scene, more, CAV_POINT (box.x0, y + step), &style);
          break;
        }
      for (guint j = 0; j < lines->len; j++)
        {
          y += step;
          cav_scene_add_text (scene, g_ptr_array_index (lines, j),
                              CAV_POINT (box.x0 + (j > 0 ? CUT_INDENT : 0), y), &style);
        }
      n_left -= lines->len;
    }
  cav_scene_end_layer (scene);
}

CavScene *
cav_section_drawing_create_scene (CavProject *project, const CavSheetOptions *options)
{
  double width;
  double height;
  CavScene *scene;
  CavBox border;
  CavBox area;
  CavPoint block;
  g_autoptr (CavSectionView) view = NULL;
  const char *scale;
  g_autofree char *title = cav_sheet_dup_title (project);
  g_autofree char *blank = format_blank (project, options);
  g_autofree char *description = NULL;

  cav_paper_get_size (options->paper, &width, &height);
  scene = cav_scene_new (width, height);
  border = cav_drawing_sheet_get_border (width, height);
  block = cav_drawing_sheet_get_block (border);
  area = cav_box (border.x0 + AIR, border.y0 + AIR, border.x1 - AIR, block.y - AIR);
  view = create_view (scene, project, area, options, &scale);
  description = g_strdup_printf (_ ("Section of the rail at %s, blank %s, measures in %s."), scale,
                                 blank, cav_unit_get_word (options->unit));
  cav_scene_set_title (scene, title, description);
  cav_drawing_sheet_draw (scene);
  cav_section_view_draw (view, get_centred_origin (view->extent, area), options->unit,
                         options->denominator);
  draw_title_block (scene, project, options, scale, block);
  draw_cuts (scene, project, options,
             cav_box (border.x0 + AIR, block.y + 1, block.x - AIR, border.y1 - 1));
  return scene;
}

GBytes *
cav_section_drawing_create_svg (CavProject *project, const CavSheetOptions *options, GError **error)
{
  g_autoptr (CavScene) scene = NULL;

  g_return_val_if_fail (CAV_IS_PROJECT (project) && options != NULL, NULL);

  scene = cav_section_drawing_create_scene (project, options);
  return cav_scene_create_svg (scene, error);
}

GBytes *
cav_section_drawing_create_pdf (CavProject *project, const CavSheetOptions *options, GError **error)
{
  g_autoptr (GPtrArray) pages = NULL;
  g_autofree char *title = NULL;

  g_return_val_if_fail (CAV_IS_PROJECT (project) && options != NULL, NULL);

  pages = g_ptr_array_new_with_free_func ((GDestroyNotify)cav_scene_free);
  g_ptr_array_add (pages, cav_section_drawing_create_scene (project, options));
  title = cav_sheet_dup_title (project);
  return cav_scene_create_pdf (pages, title, _ ("Section of the rail"), options->date, error);
}

GBytes *
cav_section_drawing_create_png (CavProject *project, const CavSheetOptions *options, GError **error)
{
  g_autoptr (CavScene) scene = NULL;

  g_return_val_if_fail (CAV_IS_PROJECT (project) && options != NULL, NULL);

  scene = cav_section_drawing_create_scene (project, options);
  return cav_scene_create_png (scene, CAV_DRAWING_DOTS_PER_INCH, error);
}
