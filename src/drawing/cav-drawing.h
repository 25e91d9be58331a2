/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <cairo.h>

#include "boards/cav-board-layout.h"
#include "drawing/cav-machine-view.h"
#include "drawing/cav-palette.h"
#include "project/cav-length.h"
#include "project/cav-project.h"

G_BEGIN_DECLS

typedef enum
{
  CAV_PAPER_A4,
  CAV_PAPER_LETTER,
} CavPaper;

/* How the pass sheet is laid out. */
typedef enum
{
  CAV_SHEET_LAYOUT_PAGES, /* as many setups as fit on a page */
  CAV_SHEET_LAYOUT_STRIP, /* 100 mm wide, as long as it takes */
  CAV_SHEET_LAYOUT_CARDS, /* a setup a page, as large as it fits */
} CavSheetLayout;

/* How figures and pages are shown. */
typedef struct
{
  CavUnit unit;
  int denominator; /* of inch fractions, e.g. 64 */
  CavPaper paper;
  const char *date; /* nullable, shown as it is */
  CavSheetLayout layout;
  CavBoardLayout *boards; /* nullable, as they are laid out for the plan: saves doing it anew */
} CavSheetOptions;

/* Finest fraction of an inch where nobody asks for another. */
#define CAV_SHEET_DENOMINATOR 64

/* A place to draw in. Letters and lines keep their size in millimetres, the wood fills the rest. */
typedef struct
{
  double x, y, width, height; /* where, in the context's units */
  double per_mm;              /* of these units; 0 means 1: a context in millimetres */
} CavDrawBox;

/* Draws one pass in the machine's view, against the feed: table below, fence at the left, tool, the
 * rail before in pale and after in full, fence (as people measure it) and height as dimensions. */
void cav_draw_pass (cairo_t *cr,
                    const CavPlan *plan,
                    guint setup,
                    guint pass,
                    CavDrawBox box,
                    CavLight light,
                    const CavMachineLook *look);

/* Whole files in memory, so that the caller can write them atomically. (transfer full) */
GBytes *cav_pass_sheet_create_pdf (CavProject *project,
                                   const CavPlan *plan,
                                   const CavSheetOptions *options,
                                   GError **error) G_GNUC_WARN_UNUSED_RESULT;
/* The drawing for whom the frame is for: front, section, preview, materials. (nullable) picture:
 * what the frame is made around. Errors: CAV_DRAWING_ERROR, also where the frame is not possible.
 */
GBytes *cav_frame_drawing_create_svg (CavProject *project,
                                      cairo_surface_t *picture,
                                      const CavSheetOptions *options,
                                      GError **error) G_GNUC_WARN_UNUSED_RESULT;
GBytes *cav_frame_drawing_create_pdf (CavProject *project,
                                      cairo_surface_t *picture,
                                      const CavSheetOptions *options,
                                      GError **error) G_GNUC_WARN_UNUSED_RESULT;
GBytes *cav_frame_drawing_create_png (CavProject *project,
                                      cairo_surface_t *picture,
                                      const CavSheetOptions *options,
                                      GError **error) G_GNUC_WARN_UNUSED_RESULT;
GBytes *cav_section_drawing_create_svg (CavProject *project,
                                        const CavSheetOptions *options,
                                        GError **error) G_GNUC_WARN_UNUSED_RESULT;
GBytes *cav_section_drawing_create_pdf (CavProject *project,
                                        const CavSheetOptions *options,
                                        GError **error) G_GNUC_WARN_UNUSED_RESULT;
GBytes *cav_section_drawing_create_png (CavProject *project,
                                        const CavSheetOptions *options,
                                        GError **error) G_GNUC_WARN_UNUSED_RESULT;

/* Template at full size: both ends of a rail, a sanding block, bars to check the print by. With a
 * (nullable) plan it is the prepared blank and shows the centre lines of cutters. */
GBytes *cav_template_create_pdf (CavProject *project,
                                 const CavPlan *plan,
                                 const CavSheetOptions *options,
                                 GError **error) G_GNUC_WARN_UNUSED_RESULT;
GBytes *cav_template_create_svg (CavProject *project,
                                 const CavPlan *plan,
                                 const CavSheetOptions *options,
                                 GError **error) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
