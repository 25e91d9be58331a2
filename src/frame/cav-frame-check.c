/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "frame/cav-frame-private.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#include "frame/cav-stock-size.h"
#include "geometry/cav-number-text.h"
#include "geometry/cav-tolerance.h"

/* Less wood than this outside the rabbet splits when points are driven; common practice, no
 * source. */
#define WALL_LEAST 6.0
/* A lip that covers less shows a line of light when the glass slips; common practice, no source. */
#define COVER_LEAST 1.5
/* Deeper empty room behind the package is filled with card; common practice, no source. */
#define SPARE_MOST 8.0
/* Glass is sold up to 32 × 40 in for frames (framers' pages, no standard); beyond, acrylic. */
#define GLASS_LONG 1016.0
/* A gap in the mitre that is seen from where one reads; common practice, no source. */
#define GAP_SEEN 0.3
/* A wire under 15 degrees pulls with twice the weight and more. */
#define WIRE_LEAST 15.0
/* Table 4-2 of the Wood Handbook goes from 5 to 95 %. */
#define HUMIDITY_LEAST 5.0
#define HUMIDITY_MOST 95.0

#define TEXT(value) CAV_NUMBER_TEXT ("%.5g", value)

#define ADD(frame, severity, code, ...)                                                            \
  g_ptr_array_add ((frame)->findings, cav_finding_new (CAV_FINDING_##severity, code, __VA_ARGS__))

/* The sizes of a thing, where one of them is too small to be any. */
static gboolean
is_none (CavSize size)
{
  return !(size.width > 0.0 && size.height > 0.0);
}

static void
check_openings (CavFrame *frame)
{
  const CavFrameSizes *sizes = &frame->sizes;

  if (sizes->molding <= 0.0)
    ADD (frame, WRONG, "frame-no-molding",
         _ ("The molding has no wood, so the frame has no size: draw its section first."));
  else if (is_none (sizes->glass) || is_none (sizes->sight))
    ADD (frame, WRONG, "frame-no-opening",
         _ ("Nothing is left to look through: the sight opening is %s mm by %s mm. Make the frame "
            "larger "
            "or the molding narrower than %s mm."),
         TEXT (sizes->sight.width), TEXT (sizes->sight.height), TEXT (sizes->molding));
}

static void
check_lip (CavFrame *frame)
{
  const CavFrameSizes *sizes = &frame->sizes;

  if (sizes->lip <= 0.0)
    {
      ADD (frame, CAUTION, "frame-no-lip",
           _ ("The molding has no rabbet, so nothing holds the glass: add a rabbet at the back and "
              "inside, or glue a strip there."));
      return;
    }
  if (sizes->molding - sizes->lip < WALL_LEAST)
    ADD (
        frame, CAUTION, "frame-thin-wall",
        _ ("Beside the rabbet there is %s mm of wood: points may split it. Leave %s mm or more, or "
           "hold the package with turn buttons."),
        TEXT (sizes->molding - sizes->lip), TEXT (WALL_LEAST));
  if (sizes->least_cover <= 0.0)
    ADD (frame, WRONG, "frame-no-cover",
         _ ("The lip of %s mm does not cover the allowance of %s mm: pushed to one side, the "
            "package "
            "shows its edge at the other. Make the rabbet wider or the allowance smaller."),
         TEXT (sizes->lip), TEXT (frame->settings.allowance));
  else if (sizes->least_cover < COVER_LEAST)
    ADD (frame, CAUTION, "frame-little-cover",
         _ ("Pushed into a corner, the package is covered by %s mm only on the other two sides: "
            "make "
            "the rabbet wider or the allowance smaller."),
         TEXT (sizes->least_cover));
}

static void
check_mats (CavFrame *frame)
{
  const CavFrameSizes *sizes = &frame->sizes;
  const CavFrameSettings *settings = &frame->settings;
  const CavBorders *shown = &sizes->shown;
  CavSize last = sizes->windows[settings->n_mats - 1];
  CavSize first = sizes->windows[0];

  if (is_none (last))
    {
      ADD (frame, WRONG, "frame-no-window",
           _ ("An overlap of %s mm on each side leaves no window over a picture of %s mm by %s mm: "
              "make "
              "the overlap smaller."),
           TEXT (settings->overlap), TEXT (sizes->picture.width), TEXT (sizes->picture.height));
      return;
    }
  if (first.width >= sizes->glass.width || first.height >= sizes->glass.height)
    ADD (frame, WRONG, "frame-window-too-large",
         _ ("The mat's window of %s mm by %s mm is larger than its blank of %s mm by %s mm: take a "
            "smaller "
            "picture, fewer reveals or a larger frame."),
         TEXT (first.width), TEXT (first.height), TEXT (sizes->glass.width),
         TEXT (sizes->glass.height));
  else if (fmin (fmin (shown->left, shown->right), fmin (shown->top, shown->bottom)) <= 0.0)
    ADD (frame, CAUTION, "frame-window-covered",
         _ ("The lip reaches over the edge of the mat's window: widen the borders to more than %s "
            "mm."),
         TEXT (sizes->cover));
}

static void
check_picture (CavFrame *frame)
{
  const CavFrameSizes *sizes = &frame->sizes;

  if (sizes->picture.width > sizes->glass.width + CAV_TOLERANCE_POINT
      || sizes->picture.height > sizes->glass.height + CAV_TOLERANCE_POINT)
    ADD (frame, WRONG, "frame-picture-too-large",
         _ ("The picture of %s mm by %s mm does not go behind glass of %s mm by %s mm: trim it, or "
            "choose "
            "a larger frame."),
         TEXT (sizes->picture.width), TEXT (sizes->picture.height), TEXT (sizes->glass.width),
         TEXT (sizes->glass.height));
  else if (!frame->settings.floated && frame->settings.n_mats == 0
           && (sizes->picture.width < sizes->sight.width
               || sizes->picture.height < sizes->sight.height))
    ADD (frame, CAUTION, "frame-picture-small",
         _ ("The picture of %s mm by %s mm leaves a gap in the sight opening of %s mm by %s mm: "
            "give it a "
            "mat, or float it on a board."),
         TEXT (sizes->picture.width), TEXT (sizes->picture.height), TEXT (sizes->sight.width),
         TEXT (sizes->sight.height));
}

static void
check_sheets (CavFrame *frame)
{
  const CavFrameSizes *sizes = &frame->sizes;
  double longest = fmax (sizes->glass.width, sizes->glass.height);

  if (frame->settings.n_mats > 0 && !frame->settings.floated
      && cav_stock_size_find_sheet (CAV_STOCK_BOARD, sizes->glass.width, sizes->glass.height)
             == NULL)
    ADD (frame, CAUTION, "frame-mat-not-sold",
         _ ("No sheet of mat board is sold from which %s mm by %s mm can be cut: join it, or frame "
            "without a mat."),
         TEXT (sizes->glass.width), TEXT (sizes->glass.height));
  if (frame->settings.glazing == CAV_GLAZING_GLASS && longest > GLASS_LONG)
    ADD (frame, CAUTION, "frame-glass-large",
         _ ("Glass %s mm long is heavy and breaks easily: take acrylic, or thicker glass by the "
            "glazier's advice."),
         TEXT (longest));
}

void
cav_frame_check_sizes (CavFrame *frame)
{
  check_openings (frame);
  if (cav_finding_list_has_wrong (frame->findings))
    return;
  check_lip (frame);
  if (frame->settings.n_mats > 0 && !frame->settings.floated)
    check_mats (frame);
  check_picture (frame);
  check_sheets (frame);
}

static void
check_depth (CavFrame *frame)
{
  const CavPackage *package = &frame->package;
  double depth = frame->sizes.rabbet_depth;

  if (package->stands_out > 0.0)
    g_ptr_array_add (
        frame->findings,
        cav_finding_new (frame->settings.stands_out ? CAV_FINDING_NOTE : CAV_FINDING_WRONG,
                         "frame-package-deep",
                         _ ("The package is %s mm deep and the rabbet %s mm: it stands out of the "
                            "back by %s mm. Deepen the rabbet, take thinner sheets, or hold the "
                            "package with offset clips and let it stand out."),
                         TEXT (package->depth), TEXT (depth), TEXT (package->stands_out)));
  else if (package->spare < 0.0)
    ADD (frame, CAUTION, "frame-no-room-for-points",
         _ ("Behind the package %s mm are left, and points want %s mm: deepen the rabbet by %s mm "
            "or "
            "take a thinner backing."),
         TEXT (depth - package->depth), TEXT (frame->settings.point_room), TEXT (-package->spare));
  else if (package->spare > SPARE_MOST)
    ADD (frame, NOTE, "frame-package-shallow",
         _ ("The package leaves %s mm of the rabbet empty: fill it with card, so that the points "
            "hold "
            "it tight."),
         TEXT (package->spare));
}

void
cav_frame_check_package (CavFrame *frame)
{
  const CavFrameSettings *settings = &frame->settings;
  gboolean glazed = settings->glazing != CAV_GLAZING_NONE;

  if (frame->package.n_layers == 0)
    ADD (frame, NOTE, "frame-no-package",
         _ ("There is no package: neither glass, mat, picture nor backing has a thickness."));
  else if (frame->sizes.rabbet_depth > 0.0)
    check_depth (frame);
  /* Guide to preservation matting and framing, Library of Congress: what hangs touches no glass. */
  if (glazed && settings->spacer <= 0.0 && (settings->floated || settings->n_mats == 0))
    ADD (frame, CAUTION, "frame-glass-touches",
         _ ("The picture lies against the glass: put a spacer between them, or a mat."));
}

static void
check_rails (CavFrame *frame)
{
  const CavFrameRails *rails = &frame->rails;
  double shortest = rails->groups[0].long_point;

  for (int i = 1; i < rails->n_groups; i++)
    shortest = fmin (shortest, rails->groups[i].long_point);
  if (rails->together > 1 && rails->together == frame->settings.sides)
    ADD (frame, CAUTION, "frame-short-rail",
         _ ("A rail of %s mm is too short to mill by itself: mill all rails in one strip of %s mm "
            "and cut them apart after the last pass."),
         TEXT (shortest), TEXT (rails->strip));
  else if (rails->together > 1)
    ADD (frame, CAUTION, "frame-short-rail",
         g_dngettext (GETTEXT_PACKAGE,
                      "A rail of %s mm is too short to mill by itself: mill %d rail in one strip "
                      "of %s mm and cut them apart after the last pass.",
                      "A rail of %s mm is too short to mill by itself: mill %d rails in one strip "
                      "of %s mm and cut them apart after the last pass.",
                      (gulong)rails->together),
         TEXT (shortest), rails->together, TEXT (rails->strip));
  if (rails->strip < frame->settings.safe_length)
    ADD (frame, CAUTION, "frame-short-strip",
         _ ("Even all rails together make a strip of %s mm only: mill one of %s mm and keep the "
            "rest "
            "for tests."),
         TEXT (rails->strip), TEXT (frame->settings.safe_length));
}

static void
check_wood (CavFrame *frame)
{
  const CavFrameSettings *settings = &frame->settings;
  const CavClimate *climates[] = { &settings->shop, &settings->dry, &settings->damp };

  if (frame->wood == NULL)
    {
      ADD (frame, NOTE, "frame-no-wood",
           _ ("No wood is chosen: its weight and its movement are left out."));
      return;
    }
  if (frame->wood->density <= 0.0)
    ADD (frame, NOTE, "frame-no-density",
         _ ("No density is published for %s: the weight is that of the package alone."),
         cav_wood_get_name (frame->wood));
  for (guint i = 0; i < G_N_ELEMENTS (climates); i++)
    if (climates[i]->humidity < HUMIDITY_LEAST || climates[i]->humidity > HUMIDITY_MOST)
      {
        ADD (frame, NOTE, "frame-air-beyond-table",
             _ ("A humidity of %s %% lies outside the published table, which goes from 5 to 95 %%: "
                "take its gap for a guess."),
             TEXT (climates[i]->humidity));
        break;
      }
  if (frame->mitres.season_gap > GAP_SEEN)
    {
      double dry = frame->mitres.dry.gap;
      double damp = frame->mitres.damp.gap;

      ADD (frame, CAUTION, "frame-season-gap",
           (fabs (dry) > fabs (damp) ? dry : damp) < 0.0
               ? _ ("Over the year the mitres open by up to %s mm at the sight edge: read the "
                    "advice on the mitres.")
               : _ ("Over the year the mitres open by up to %s mm at the outside: read the advice "
                    "on the mitres."),
           CAV_NUMBER_TEXT ("%.2f", frame->mitres.season_gap));
    }
}

static void
check_hanging (CavFrame *frame)
{
  const CavFrameSettings *settings = &frame->settings;

  if (settings->wire && settings->hangers != 2)
    ADD (frame, NOTE, "frame-wire-hangers",
         _ ("A wire runs between two hangers; with %d the load is worked out as if each had a hook "
            "of its own."),
         settings->hangers);
  else if (settings->wire && !(settings->wire_angle > 0.0))
    ADD (frame, WRONG, "frame-wire-level",
         _ ("A level wire holds nothing: give it some slack, 30 degrees or more above level."));
  else if (settings->wire && settings->wire_angle < WIRE_LEAST)
    ADD (
        frame, CAUTION, "frame-wire-flat",
        _ ("At %s degrees the wire pulls each hanger with %s times the weight: give it more slack, "
           "30 degrees or more, or hang the frame on two hooks."),
        TEXT (settings->wire_angle), TEXT (cav_wire_get_tension (settings->wire_angle)));
}

void
cav_frame_check_work (CavFrame *frame)
{
  check_rails (frame);
  check_wood (frame);
  check_hanging (frame);
}
