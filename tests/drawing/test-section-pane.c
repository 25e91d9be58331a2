/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/cav-section-pane.h"

#include <math.h>

#include "drawing-samples.h"
#include "drawing-tools.h"
#include "drawing/cav-cut-measure.h"
#include "drawing/cav-section-overlay.h"

#define WIDTH 900
#define HEIGHT 520
/* By so much cairo itself shades the edge of a line otherwise when it clips. */
#define ROUNDING 16

typedef struct
{
  CavLight light;
  double device;
} Case;

static guint32
get_tone (CavTone tone, CavLight light)
{
  CavColour colour = cav_tone_get_colour (tone, light);

  return ((guint32)colour.red << 16) | ((guint32)colour.green << 8) | colour.blue;
}

/* How far apart two colours are, the greatest of three channels. */
static int
get_difference (guint32 a, guint32 b)
{
  int most = 0;

  for (int shift = 0; shift <= 16; shift += 8)
    most = MAX (most, ABS ((int)(a >> shift & 255) - (int)(b >> shift & 255)));
  return most;
}

static CavPane
make_pane (const CavBlank *blank, const Case *row)
{
  return (CavPane){ .view = cav_view_fit (blank, WIDTH, HEIGHT, 90),
                    .width = WIDTH,
                    .height = HEIGHT,
                    .device = row->device,
                    .light = row->light };
}

static CavSectionContent
make_content (CavProject *project)
{
  return (CavSectionContent){ .blank = cav_project_get_blank (project),
                              .profile = cav_project_get_profile (project)->region,
                              .unit = CAV_UNIT_MM };
}

static cairo_surface_t *
draw (const CavPane *pane, const CavSectionContent *content, const CavSectionOverlay *overlay)
{
  cairo_surface_t *surface = cav_pane_create_surface (pane);
  cairo_surface_t *grain = cav_grain_create_surface (&content->blank, pane);
  cairo_t *cr = cairo_create (surface);

  cav_section_pane_draw_ground (cr, pane, content);
  cav_section_pane_draw_wood (cr, pane, content, grain);
  cav_section_pane_draw_rulers (cr, pane, content->unit);
  for (guint i = 0; overlay != NULL && i < cav_section_overlay_get_part_count (overlay); i++)
    cav_section_overlay_draw_part (cr, pane, overlay, i);
  g_assert_cmpint (cairo_status (cr), ==, CAIRO_STATUS_SUCCESS);
  cairo_destroy (cr);
  cairo_surface_destroy (grain);
  cairo_surface_flush (surface);
  return surface;
}

static void
keep (cairo_surface_t *surface, const char *name, const Case *row)
{
  g_autofree char *file = g_strdup_printf (
      "%s-%s-%g.png", name, row->light == CAV_LIGHT_DAY ? "day" : "night", row->device);
  g_autofree char *path = g_test_build_filename (G_TEST_BUILT, file, NULL);

  g_assert_cmpint (cairo_surface_write_to_png (surface, path), ==, CAIRO_STATUS_SUCCESS);
}

static guint32
look_at (cairo_surface_t *surface, const CavPane *pane, double x, double y)
{
  return tool_get_colour (surface, (int)floor (x * pane->device), (int)floor (y * pane->device));
}

/* The blank's edge, the wood and the ground are where the view says, to the device pixel. */
static void
test_places (gconstpointer data)
{
  const Case *row = data;
  g_autoptr (CavProject) project = sample_project_new ();
  CavSectionContent content = make_content (project);
  CavPane pane = make_pane (&content.blank, row);
  cairo_surface_t *surface = draw (&pane, &content, NULL);
  CavBox box = cav_view_box_to_pixels (&pane.view, (CavBox){ 0, 0, 60, 22 });
  guint32 ground = get_tone (CAV_TONE_GROUND, row->light);
  guint32 outline = get_tone (CAV_TONE_OUTLINE, row->light);
  guint32 waste = get_tone (CAV_TONE_WASTE, row->light);
  CavPoint inside = cav_view_to_pixel (&pane.view, CAV_POINT (30, 11));
  double middle = (box.y0 + box.y1) / 2;

  keep (surface, "section", row);
  g_assert_cmpint (cairo_image_surface_get_width (surface), ==, (int)(WIDTH * row->device));
  /* Outside, on the edge (the right side is uncut), inside. */
  g_assert_cmpint (get_difference (look_at (surface, &pane, box.x1 + 3, middle), ground), <, 30);
  g_assert_cmpint (
      get_difference (look_at (surface, &pane, box.x1 - 0.5 / row->device, middle), outline), <,
      60);
  g_assert_cmpint (get_difference (look_at (surface, &pane, inside.x, inside.y), ground), >, 20);
  /* In the rabbet, 6.35 by 9.5 at the back and inside, there is no wood. */
  inside = cav_view_to_pixel (&pane.view, CAV_POINT (3, 4.7));
  g_assert_cmpint (get_difference (look_at (surface, &pane, inside.x, inside.y), waste), <, 24);
  cairo_surface_destroy (surface);
}

/* A hairline of the grid is one device pixel wide and has one colour. */
static void
test_crisp (gconstpointer data)
{
  const Case *row = data;
  g_autoptr (CavProject) project = sample_project_new_plain (60, 22);
  CavSectionContent content = make_content (project);
  CavPane pane = make_pane (&content.blank, row);
  cairo_surface_t *surface;
  guint32 main_line = get_tone (CAV_TONE_GRID_MAIN, row->light);
  guint32 ground = get_tone (CAV_TONE_GROUND, row->light);
  double x;
  int n_lines = 0;

  pane.view = (CavView){ 10.3, 120.37, 400.71 };
  surface = draw (&pane, &content, NULL);
  /* The line of x = 70 mm, right of the blank. */
  x = pane.view.x + 70 * pane.view.scale;
  for (int i = (int)((x - 4) * row->device); i < (int)((x + 4) * row->device); i++)
    if (tool_get_colour (surface, i, (int)(480.3 * row->device)) == main_line)
      n_lines++;
    else
      g_assert_cmphex (tool_get_colour (surface, i, (int)(480.3 * row->device)), ==, ground);
  g_assert_cmpint (n_lines, ==, 1);
  cairo_surface_destroy (surface);
}

static void
test_leftover (gconstpointer data)
{
  const Case *row = data;
  g_autoptr (CavProject) project = sample_project_new ();
  g_autoptr (CavRegion) leftover = cav_region_new_box (18, 19.5, 21, 22);
  g_autoptr (GPtrArray) findings = cav_finding_list_new ();
  CavSectionContent content = make_content (project);
  CavPane pane = make_pane (&content.blank, row);
  CavFinding *finding = cav_finding_new (CAV_FINDING_CAUTION, "leftover", "No tool reaches here.");
  CavFinding *note = cav_finding_new (CAV_FINDING_NOTE, "note", "Good to know.");
  cairo_surface_t *surface;
  CavPoint mark;
  CavPoint place;
  guint32 tone = get_tone (CAV_TONE_MARK, row->light);

  cav_finding_set_place (finding, CAV_POINT (19.5, 20.7));
  cav_finding_set_place (note, CAV_POINT (50, 10));
  g_ptr_array_add (findings, finding);
  g_ptr_array_add (findings, note);
  content.leftover = leftover;
  content.findings = findings;
  surface = draw (&pane, &content, NULL);
  keep (surface, "leftover", row);
  g_assert_true (cav_section_pane_get_mark (&pane, finding, &mark));
  g_assert_cmpint (get_difference (look_at (surface, &pane, mark.x - 6, mark.y + 6.2), tone), <,
                   40);
  /* The glow reaches out of the leftover, into what was waste. */
  place = cav_view_to_pixel (&pane.view, CAV_POINT (18, 20.7));
  g_assert_cmpint (get_difference (look_at (surface, &pane, place.x - 4, place.y),
                                   get_tone (CAV_TONE_WASTE, row->light)),
                   >, 8);
  cairo_surface_destroy (surface);
}

static CavHandle
make_handle (CavHandleKind kind, double x, double y, double dx, double dy)
{
  return (CavHandle){ .kind = kind, .point = { x, y }, .direction = { dx, dy } };
}

/* Everything that an overlay can hold, at once. */
static void
test_overlay (gconstpointer data)
{
  const Case *row = data;
  g_autoptr (CavProject) project = sample_project_new ();
  CavSectionContent content = make_content (project);
  CavPane pane = make_pane (&content.blank, row);
  const CavCut *cut = cav_project_get_cut (project, 0);
  g_autoptr (CavRegion) chosen = cav_cut_create_region (cut, &content.blank, NULL);
  g_autoptr (CavCut) drawn = cav_cut_new_on_side (CAV_CUT_COVE, CAV_SIDE_OUTSIDE);
  g_autoptr (CavRegion) ghost = NULL;
  g_autoptr (GArray) handles = g_array_new (FALSE, FALSE, sizeof (CavHandle));
  g_autoptr (GArray) measures
      = cav_section_measure_cut (cut, chosen, &content.blank, CAV_UNIT_MM, 64, CAV_CUT_DEPTH);
  const CavHandle all[] = { make_handle (CAV_HANDLE_NUMBER, 6.35, 4.75, 1, 0),
                            make_handle (CAV_HANDLE_NUMBER, 3.2, 9.5, 0, 1),
                            make_handle (CAV_HANDLE_SIZE, 6.35, 9.5, 0, 0),
                            make_handle (CAV_HANDLE_MOVE, 3.2, 4.75, 0, 0),
                            make_handle (CAV_HANDLE_POINT, 30, 6, 0, 0),
                            make_handle (CAV_HANDLE_BULGE, 34, 6, 0, 0) };
  CavSnap snap = { .x = { .kind = CAV_SNAP_BLANK_THIRD, .from = { 40, -2 }, .to = { 40, 24 } } };
  CavOverlayShape shapes[2];
  CavSectionOverlay overlay = { .blank = content.blank,
                                .names = { "back, to the wall", "face", "sight edge", "outside" },
                                .handles = handles,
                                .hovered_handle = 2,
                                .held_handle = -1,
                                .focused_handle = 0,
                                .measures = measures,
                                .snap = &snap,
                                .has_place = TRUE,
                                .place_from = { 60, 22 },
                                .place_to = { 60, 22 },
                                .has_pointer = TRUE,
                                .pointer = { 800, 180 },
                                .has_bounds = TRUE,
                                .bounds = { 0, 0, 6.35, 9.5 },
                                .figure = "9.5 × 4.2",
                                .figure_at = { 800, 180 } };
  cairo_surface_t *surface;
  cairo_surface_t *bare;
  CavPoint at;

  g_strlcpy (snap.x.label, "third", sizeof snap.x.label);
  g_array_append_vals (handles, all, G_N_ELEMENTS (all));
  drawn->numbers[CAV_CUT_POSITION] = 11;
  drawn->numbers[CAV_CUT_WIDTH] = 9.5;
  drawn->numbers[CAV_CUT_DEPTH] = 4.2;
  ghost = cav_cut_create_region (drawn, &content.blank, NULL);
  shapes[0] = (CavOverlayShape){ chosen, CAV_SHAPE_SELECTED };
  shapes[1] = (CavOverlayShape){ ghost, CAV_SHAPE_DRAWN };
  overlay.shapes = shapes;
  overlay.n_shapes = 2;
  bare = draw (&pane, &content, NULL);
  surface = draw (&pane, &content, &overlay);
  keep (surface, "overlay", row);
  /* Each handle is there. */
  for (guint i = 0; i < G_N_ELEMENTS (all); i++)
    {
      at = cav_view_to_pixel (&pane.view, all[i].point);
      g_assert_cmpint (
          get_difference (look_at (surface, &pane, at.x, at.y), look_at (bare, &pane, at.x, at.y)),
          >, 4);
    }
  /* Nothing leads from the corner that is lit up to the word beside the edge. */
  for (int x = 813; x < 845; x++)
    g_assert_cmphex (look_at (surface, &pane, x, 165), ==, look_at (bare, &pane, x, 165));
  cairo_surface_destroy (surface);
  cairo_surface_destroy (bare);
}

/* Whether a pixel of the box was changed by what was drawn over the section. */
static gboolean
is_touched (cairo_surface_t *surface, cairo_surface_t *bare, const CavPane *pane, CavBox box)
{
  for (int y = (int)(box.y0 * pane->device); y < (int)(box.y1 * pane->device); y++)
    for (int x = (int)(box.x0 * pane->device); x < (int)(box.x1 * pane->device); x++)
      if (tool_get_colour (surface, x, y) != tool_get_colour (bare, x, y))
        return TRUE;
  return FALSE;
}

/* A long sentence, or what something snapped to, wherever the pointer is: a plate that is cut by
 * the edge of the canvas would have pixels there. */
static void
test_plates_stay_within (gconstpointer data)
{
  const Case *row = data;
  static const double PLACES[][2]
      = { { 60, 60 },        { 460, 40 },   { 895, 300 },        { 40, HEIGHT },
          { WIDTH, HEIGHT }, { -400, 200 }, { WIDTH + 400, -90 } };
  g_autoptr (CavProject) project = sample_project_new ();
  CavSectionContent content = make_content (project);
  CavPane pane = make_pane (&content.blank, row);
  cairo_surface_t *bare = draw (&pane, &content, NULL);

  for (guint i = 0; i < G_N_ELEMENTS (PLACES); i++)
    {
      CavPoint at = CAV_POINT (PLACES[i][0], PLACES[i][1]);
      CavPoint wood = cav_view_to_wood (&pane.view, at);
      CavSnap snap = { .x = { .kind = CAV_SNAP_CUT_EDGE, .from = wood, .to = wood },
                       .y = { .kind = CAV_SNAP_CUT_EDGE, .from = wood, .to = wood } };
      CavSectionOverlay overlay
          = { .blank = content.blank,
              .hovered_handle = -1,
              .held_handle = -1,
              .focused_handle = -1,
              .snap = &snap,
              .figure
              = "This is no length. Enter one like 9.5 mm, 3/8 in or 12 - 3.2, or go on with "
                "the pointer; what was typed is forgotten then, and the cut stays as it is.",
              .figure_at = at,
              .is_refused = TRUE };
      cairo_surface_t *surface;

      g_strlcpy (snap.x.label, "middle of the cove", sizeof snap.x.label);
      g_strlcpy (snap.y.label, "edge of the bead", sizeof snap.y.label);
      surface = draw (&pane, &content, &overlay);
      keep (surface, "plates", row);
      g_assert_true (is_touched (surface, bare, &pane,
                                 (CavBox){ CAV_PANE_RULER, CAV_PANE_RULER, WIDTH, HEIGHT }));
      g_assert_false (is_touched (
          surface, bare, &pane,
          (CavBox){ CAV_PANE_RULER + 1, CAV_PANE_RULER + 1, CAV_PANE_RULER + 3, HEIGHT }));
      g_assert_false (is_touched (surface, bare, &pane,
                                  (CavBox){ WIDTH - 2, CAV_PANE_RULER + 1, WIDTH, HEIGHT }));
      g_assert_false (is_touched (
          surface, bare, &pane,
          (CavBox){ CAV_PANE_RULER + 1, CAV_PANE_RULER + 1, WIDTH, CAV_PANE_RULER + 3 }));
      g_assert_false (is_touched (surface, bare, &pane,
                                  (CavBox){ CAV_PANE_RULER + 1, HEIGHT - 2, WIDTH, HEIGHT }));
      cairo_surface_destroy (surface);
    }
  cairo_surface_destroy (bare);
}

/* The wood, square by square, as a canvas draws what has changed. */
static cairo_surface_t *
draw_in_squares (const CavPane *pane, const CavSectionContent *content, int side)
{
  cairo_surface_t *surface = cav_pane_create_surface (pane);
  cairo_t *cr = cairo_create (surface);

  for (int y = 0; y < HEIGHT; y += side)
    for (int x = 0; x < WIDTH; x += side)
      {
        cairo_save (cr);
        cairo_rectangle (cr, x, y, side, side);
        cairo_clip (cr);
        cav_section_pane_draw_ground (cr, pane, content);
        cav_section_pane_draw_wood (cr, pane, content, NULL);
        cairo_restore (cr);
      }
  g_assert_cmpint (cairo_status (cr), ==, CAIRO_STATUS_SUCCESS);
  cairo_destroy (cr);
  cairo_surface_flush (surface);
  return surface;
}

/* What is drawn in parts is, to a shade, what is drawn at once: no outline is torn at their edges.
 */
static void
test_parts (gconstpointer data)
{
  const Case *row = data;
  g_autoptr (CavProject) project = sample_project_new ();
  CavSectionContent content = make_content (project);
  CavPane pane = make_pane (&content.blank, row);
  cairo_surface_t *whole = draw_in_squares (&pane, &content, WIDTH);
  cairo_surface_t *parts = draw_in_squares (&pane, &content, 32);
  guint32 ground = look_at (whole, &pane, WIDTH - 2, HEIGHT - 2);
  guint inked = 0;

  for (int y = 0; y < HEIGHT * row->device; y++)
    for (int x = 0; x < WIDTH * row->device; x++)
      {
        guint32 at_once = tool_get_colour (whole, x, y);

        inked += at_once != ground;
        g_assert_cmpint (get_difference (at_once, tool_get_colour (parts, x, y)), <=, ROUNDING);
      }
  g_assert_cmpuint (inked, >, 50000);
  cairo_surface_destroy (whole);
  cairo_surface_destroy (parts);
}

static const Case cases[] = {
  { CAV_LIGHT_DAY, 1 }, { CAV_LIGHT_DAY, 2 }, { CAV_LIGHT_NIGHT, 1 }, { CAV_LIGHT_NIGHT, 2 }
};

int
main (int argc, char **argv)
{
  static const struct
  {
    const char *name;
    GTestDataFunc test;
  } tests[] = { { "places", test_places },     { "crisp", test_crisp },
                { "leftover", test_leftover }, { "overlay", test_overlay },
                { "parts", test_parts },       { "plates-stay-within", test_plates_stay_within } };

  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (tests); i++)
    for (guint j = 0; j < G_N_ELEMENTS (cases); j++)
      {
        g_autofree char *path
            = g_strdup_printf ("/drawing/section-pane/%s/%s-%g", tests[i].name,
                               cases[j].light == CAV_LIGHT_DAY ? "day" : "night", cases[j].device);

        g_test_add_data_func (path, &cases[j], tests[i].test);
      }
  return g_test_run ();
}
