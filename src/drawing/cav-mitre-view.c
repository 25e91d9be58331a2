/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/cav-mitre-view.h"

#include "geometry/cav-number-text.h"
#include "geometry/cav-unit.h"

#include <glib/gi18n-lib.h>
#include <math.h>

/* On the page, mm. */
#define SMALLEST 60.0
#define SPACE 6.0
#define PLOT_SHARE 0.42
#define CORNER_SHARE 0.58
/* Of the rails, in widths beyond the mitre. */
#define REACH 1.6
/* What a gap takes of the box that enlarges it. */
#define GAP_SHARE 0.3
#define N_LINES 5

static CavPoint
turn (CavPoint point, CavPoint pivot, double degrees)
{
  double sine = sin (CAV_RADIANS (degrees));
  double cosine = cos (CAV_RADIANS (degrees));
  double x = point.x - pivot.x;
  double y = point.y - pivot.y;

  return CAV_POINT (pivot.x + cosine * x - sine * y, pivot.y + sine * x + cosine * y);
}

void
cav_mitre_corner_init (
    CavMitreCorner *corner, int sides, double width, double reach, double degrees)
{
  double run = cav_mitre_get_run (width, sides);
  CavPoint toe = CAV_POINT (0, 0);
  CavPoint heel = CAV_POINT (-run, width);
  CavPoint along = turn (CAV_POINT (reach, 0), toe, 360.0 / sides);
  CavPoint pivot = degrees > 0.0 ? heel : toe;

  corner->first[0] = CAV_POINT (-run - reach, 0);
  corner->first[1] = toe;
  corner->first[2] = heel;
  corner->first[3] = CAV_POINT (-run - reach, width);
  /* The second rail is the first one seen in the mitre as in a mirror: as far along, beyond the
   * same run. */
  corner->second[0] = CAV_POINT (along.x * (reach + run) / reach, along.y * (reach + run) / reach);
  corner->second[1] = toe;
  corner->second[2] = heel;
  corner->second[3] = CAV_POINT (heel.x + along.x, heel.y + along.y);
  for (int i = 0; i < 4; i++)
    corner->second[i] = turn (corner->second[i], pivot, degrees);
  corner->open[0] = degrees > 0.0 ? toe : heel;
  corner->open[1] = degrees > 0.0 ? corner->second[1] : corner->second[2];
}

/* (transfer full) How wide it is, in hundredths of a millimetre or thousandths of an inch. */
static char *
format_width (double mm, CavUnit unit)
{
  char text[G_ASCII_DTOSTR_BUF_SIZE];

  if (unit == CAV_UNIT_MM)
    cav_number_format (text, sizeof text, "%.2f", fabs (mm));
  else
    cav_number_format (text, sizeof text, "%.3f", fabs (mm) / CAV_INCH);
  return g_strdup (text);
}

char *
cav_gap_format (double mm, CavUnit unit)
{
  g_autofree char *width = format_width (mm, unit);

  return g_strdup_printf ("%s %s", width, unit == CAV_UNIT_MM ? "mm" : "in");
}

char *
cav_gap_format_signed (double mm, CavUnit unit)
{
  const CavLengthStyle style = { unit, CAV_LENGTH_DECIMAL };
  g_autofree char *width = format_width (mm, unit);

  /* What is written as nought has no sign. */
  return g_strconcat (mm <= -cav_length_style_get_rounding (style) ? "\342\210\222" : "", width,
                      NULL);
}

static void
write_note (CavScene *scene, const char *text, double x, double y, double width, gboolean bold)
{
  const CavTextStyle style
      = { .height = CAV_LETTER_NOTE, .bold = bold, .ink = bold ? CAV_INK_BLACK : CAV_INK_GREY };

  cav_scene_add_text_within (scene, text, CAV_POINT (x, y), &style, width);
}

static CavPoint
place (CavTransform map, CavPoint point)
{
  return cav_transform_point (map, point);
}

/* Wood, and lines along it between the outside and the sight edge, as a molding's edges run. */
static void
draw_rail (CavScene *scene, const CavPoint *rail, CavTransform map)
{
  CavPoint points[4];

  for (int i = 0; i < 4; i++)
    points[i] = place (map, rail[i]);
  cav_scene_add_polygon (scene, points, 4, CAV_STYLE_WOOD);
  for (int i = 1; i < N_LINES; i++)
    {
      double share = (double)i / N_LINES;
      CavPoint from = CAV_POINT (points[0].x + share * (points[3].x - points[0].x),
                                 points[0].y + share * (points[3].y - points[0].y));
      CavPoint to = CAV_POINT (points[1].x + share * (points[2].x - points[1].x),
                               points[1].y + share * (points[2].y - points[1].y));

      cav_scene_add_line (scene, from, to, CAV_STYLE_RING);
    }
  for (int i = 0; i < 3; i++)
    cav_scene_add_line (scene, points[i], points[i + 1], CAV_STYLE_OUTLINE);
}

static void
draw_corner (CavScene *scene, const CavMitreCorner *corner, CavTransform map)
{
  draw_rail (scene, corner->first, map);
  draw_rail (scene, corner->second, map);
}

/* The largest map that puts the corner into a box. */
static CavTransform
fit (const CavMitreCorner *corner, CavBox box)
{
  CavBox bounds
      = cav_box (corner->first[1].x, corner->first[1].y, corner->first[1].x, corner->first[1].y);
  double scale;

  for (int i = 0; i < 8; i++)
    {
      CavPoint point = i < 4 ? corner->first[i] : corner->second[i - 4];

      bounds = cav_box (fmin (bounds.x0, point.x), fmin (bounds.y0, point.y),
                        fmax (bounds.x1, point.x), fmax (bounds.y1, point.y));
    }
  scale = fmin ((box.x1 - box.x0) / (bounds.x1 - bounds.x0),
                (box.y1 - box.y0) / (bounds.y1 - bounds.y0));
  return (CavTransform){ scale, 0,     (box.x0 + box.x1 - scale * (bounds.x0 + bounds.x1)) / 2.0,
                         0,     scale, (box.y0 + box.y1 - scale * (bounds.y0 + bounds.y1)) / 2.0 };
}

/* How many times larger, in round steps, so that the gap is seen in a box of this size. */
static double
choose_times (double gap, double room)
{
  static const double STEPS[] = { 50, 20, 10, 5, 2, 1 };

  for (guint i = 0; i < G_N_ELEMENTS (STEPS); i++)
    if (gap * STEPS[i] <= GAP_SHARE * room)
      return STEPS[i];
  return 1;
}

/* The open end in a box of its own, so much larger than the corner beside it. */
static void
draw_enlarged (CavScene *scene,
               const char *id,
               const char *title,
               const CavFrame *frame,
               double degrees,
               double scale,
               CavBox box,
               CavUnit unit)
{
  double width = frame->sizes.molding;
  double gap = cav_mitre_get_gap (width, frame->settings.sides, degrees);
  double times
      = choose_times (fabs (gap) * scale, fmin (box.x1 - box.x0, box.y1 - box.y0 - 2 * SPACE));
  CavBox window = cav_box (box.x0, box.y0 + SPACE, box.x1, box.y1 - SPACE);
  g_autofree char *figure = cav_gap_format (gap, unit);
  g_autofree char *note = NULL;
  g_autoptr (CavRegion) clip = cav_region_new_box (window.x0, window.y0, window.x1, window.y1);
  CavMitreCorner corner;
  CavTransform map = { times * scale, 0, 0, 0, times * scale, 0 };

  cav_mitre_corner_init (&corner, frame->settings.sides, width, REACH * width, degrees);
  map.x0 = (window.x0 + window.x1) / 2.0 - map.xx * (corner.open[0].x + corner.open[1].x) / 2.0;
  map.y0 = (window.y0 + window.y1) / 2.0 - map.yy * (corner.open[0].y + corner.open[1].y) / 2.0;
  if (fabs (gap) < 0.005)
    note = g_strdup_printf (C_ ("gap", "closed, %.0f:1"), times);
  else
    note = g_strdup_printf (gap > 0 ? _ ("%s at the outside, %.0f:1")
                                    : _ ("%s at the sight edge, %.0f:1"),
                            figure, times);
  cav_scene_begin_titled_layer (scene, id, title, note);
  write_note (scene, title, box.x0, box.y0 + CAV_LETTER_NOTE + 1.0, box.x1 - box.x0, TRUE);
  cav_scene_begin_clip (scene, clip, (CavTransform){ 1, 0, 0, 0, 1, 0 });
  draw_corner (scene, &corner, map);
  cav_scene_end_clip (scene);
  cav_scene_add_box (scene, window, CAV_STYLE_SHAPE);
  write_note (scene, note, box.x0, box.y1 - 1.0, box.x1 - box.x0, FALSE);
  cav_scene_end_layer (scene);
}

/* What both do together, at worst: the saw may open either end, so it adds to the season. */
static double
get_worst (const CavFrame *frame, double season)
{
  double saw = frame->mitres.joint_degrees;

  return season < 0.0 ? season - saw : season + saw;
}

CavScene *
cav_mitre_view_create_scene (
    const CavFrame *frame, double humidity, double width, double height, CavUnit unit)
{
  CavScene *scene;
  CavMitreCorner corner;
  double season;
  double across = width * CORNER_SHARE;
  double down;

  g_return_val_if_fail (frame != NULL, NULL);

  if (!frame->possible || width < SMALLEST || height < SMALLEST)
    return NULL;
  scene = cav_scene_new (width, height);
  cav_scene_set_title (scene, _ ("Corner of the frame"),
                       _ ("The mitre with its gap drawn to scale."));
  season = cav_frame_mitres_get_degrees (&frame->mitres, humidity);
  down = height * (frame->mitres.has_seasons ? 1.0 - PLOT_SHARE : 1.0) - SPACE;
  cav_mitre_corner_init (&corner, frame->settings.sides, frame->sizes.molding,
                         REACH * frame->sizes.molding, get_worst (frame, season));
  CavTransform map = fit (&corner, cav_box (0, SPACE, across - SPACE, down));
  cav_scene_begin_titled_layer (scene, "corner", _ ("Corner"),
                                _ ("Saw and season together, at worst."));
  write_note (scene, _ ("Saw and season together, to scale"), 0, CAV_LETTER_NOTE + 1.0,
              across - SPACE, TRUE);
  draw_corner (scene, &corner, map);
  cav_scene_end_layer (scene);
  draw_enlarged (scene, "by-saw", _ ("By the saw"), frame, frame->mitres.joint_degrees, map.xx,
                 cav_box (across, 0, width, down / 2.0 - SPACE / 2.0), unit);
  if (!frame->mitres.has_seasons)
    return scene;

  g_autofree char *title = g_strdup_printf (_ ("By the season, at %.0f %%"), humidity);
  draw_enlarged (scene, "by-season", title, frame, season, map.xx,
                 cav_box (across, down / 2.0 + SPACE / 2.0, width, down), unit);
  cav_gap_plot_draw (scene, frame, cav_box (0, down + SPACE, width, height), humidity, unit);
  return scene;
}
