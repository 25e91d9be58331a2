/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/cav-machine-view.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#include "drawing/cav-dimension.h"
#include "drawing/cav-drawing.h"
#include "drawing/cav-pass-group.h"
#include "drawing/cav-words-private.h"
#include "geometry/cav-unit.h"
#include "milling/cav-placement.h"

/* On the page, mm. */
#define FENCE 5.2 /* what is shown of the fence */
#define SACRIFICIAL 5.2
#define TABLE 2.6
#define BELOW 7.6  /* under the table, for the fence's dimension */
#define BESIDE 8.5 /* right of everything, for the height's */
#define ABOVE 1.0
#define RING_SPACING 3.2
#define LARGEST_MARK 6.5
#define TABLE_HATCH 1.5
#define FENCE_HATCH 2.2
#define UNLIMITED 1e4
/* Wood may be drawn up to this many times its size. */
#define LARGEST_SCALE 2.5

typedef struct
{
  CavScene *scene;
  const CavPlan *plan;
  const CavSetup *setup;
  const CavPass *const *passes; /* one, or those of a ladder */
  guint n_passes;
  const CavPass *pass; /* the last of them: where the tool stands at the end */
  const CavMachineLook *look;
  CavBox box;
  CavTransform placed; /* from the blank to (u, v) */
  CavTransform map;    /* from (u, v) to the page */
  CavTransform whole;  /* from the blank to the page */
  double scale;
  double reach;        /* greatest u that is shown, mm of wood */
  double height;       /* greatest v */
  gboolean has_board;  /* a sacrificial fence */
  gboolean has_pocket; /* the router table's fence opens for the cutter */
} View;

static double
to_x (const View *view, double u)
{
  return view->map.x0 + u * view->scale;
}

static double
to_y (const View *view, double v)
{
  return view->map.y0 - v * view->scale;
}

/* What of the tool is shown: above the table, not far beyond the wood, and no more inside the fence
 * than the board there is wide. */
static CavRegion *
create_tool (const View *view)
{
  g_autoptr (CavRegion) window
      = cav_region_new_box (-SACRIFICIAL / view->scale, 0, view->reach, view->height);
  g_autoptr (CavRegion) swept = cav_region_transformed (view->pass->swept, view->placed);
  CavRegion *shown = cav_region_intersection (swept, window, NULL);

  return shown != NULL ? shown : cav_region_new_empty ();
}

/* How much of wood and tool there is to show, and how large it may be in a box. */
static void
lay_out (View *view, CavBox box)
{
  g_autoptr (CavRegion) before = cav_region_transformed (view->passes[0]->before, view->placed);
  g_autoptr (CavRegion) swept = cav_region_transformed (view->pass->swept, view->placed);
  CavBox wood = cav_region_get_bounds (before);
  CavBox tool = cav_region_get_bounds (swept);
  double left = FENCE + SACRIFICIAL;
  /* Room beside and below grows with the figures that stand there. */
  double more = view->look->letters - CAV_LETTER_SMALL;
  double beside = view->look->unfigured ? 2 : BESIDE + more;
  double below = view->look->unfigured ? 0.5 : BELOW + more;

  if (cav_region_is_empty (before))
    wood = cav_box (0, 0, 1, 1);
  if (cav_region_is_empty (swept))
    tool = wood;
  view->box = box;
  view->has_board = cav_pass_has_board (view->setup, view->pass);
  view->has_pocket = !view->has_board && tool.x0 < -0.01;
  view->reach = fmax (wood.x1 + 1, fmin (tool.x1, wood.x1 * 1.3 + 8));
  view->height = fmax (wood.y1, fmin (fmax (tool.y1, view->pass->height), wood.y1 * 1.3 + 8)) + 0.5;
  view->scale = fmin ((box.x1 - box.x0 - left - beside) / view->reach,
                      (box.y1 - box.y0 - TABLE - below - ABOVE) / view->height);
  view->scale
      = CLAMP (view->scale, 1e-3, view->look->scale > 0 ? view->look->scale : LARGEST_SCALE);
  if (view->look->centred)
    {
      box.x0 += fmax (box.x1 - box.x0 - left - beside - view->reach * view->scale, 0) / 2;
      view->box.x0 = box.x0;
    }
  view->map
      = (CavTransform){ view->scale, 0, box.x0 + left, 0, -view->scale, box.y1 - below - TABLE };
  view->whole = cav_transform_compose (view->placed, view->map);
}

/* A word that stands upright in the middle of a box, where it fits. */
static gboolean
name_upright (CavScene *scene, CavBox box, const char *word)
{
  const CavTextStyle style = {
    .height = CAV_LETTER_SMALL, .ink = CAV_INK_BLACK, .align = CAV_ALIGN_MIDDLE, .turned = TRUE
  };
  CavPoint middle
      = CAV_POINT ((box.x0 + box.x1) / 2 + CAV_LETTER_SMALL * 0.42, (box.y0 + box.y1) / 2);
  CavBox room = cav_scene_get_text_box (scene, word, middle, &style);

  if (room.y0 <= box.y0 + 1 || room.y1 >= box.y1 - 1)
    return FALSE;
  cav_scene_add_text (scene, word, middle, &style);
  return TRUE;
}

/* Where the opening for the cutter ends, on the page. */
static double
get_pocket_top (const View *view)
{
  return fmax (to_y (view, view->pass->height) - 1.5, to_y (view, view->height));
}

static void
draw_machine (const View *view)
{
  CavScene *scene = view->scene;
  double face = to_x (view, 0);
  double table = to_y (view, 0);
  double top = to_y (view, view->height);
  CavBox fence = cav_box (view->box.x0, top, face, table);
  CavBox board = cav_box (face - SACRIFICIAL, top, face, table);
  CavBox solid = fence;
  double right = to_x (view, view->reach) + 2;

  if (view->has_board || view->has_pocket)
    solid.x1 = board.x0;
  if (view->has_board)
    fence.x1 = board.x0;
  cav_scene_add_box (scene, fence, CAV_STYLE_FENCE);
  if (!name_upright (scene, solid, C_ ("machine view", "fence")))
    cav_scene_add_hatch (scene, solid, FENCE_HATCH, FALSE);
  if (view->has_pocket)
    cav_scene_add_box (scene, cav_box (board.x0, get_pocket_top (view), face, table),
                       CAV_STYLE_BLANK);
  if (view->has_board)
    {
      cav_scene_add_box (scene, board, CAV_STYLE_SACRIFICIAL);
      board.y1 = fmin (board.y1, to_y (view, view->pass->height));
      name_upright (scene, board, C_ ("machine view", "sacrificial"));
    }
  cav_scene_add_hatch (scene, cav_box (view->box.x0, table, right, table + TABLE), TABLE_HATCH,
                       TRUE);
}

/* All that the tool has milled so far of what it passes through, in the blank's coordinates. */
static CavRegion *
create_milled (const CavPlan *plan, const CavSetup *setup, const CavPass *pass, double progress)
{
  CavTransform placed = cav_placement_get_transform (&plan->blank, pass->down, pass->against);
  g_autoptr (CavRegion) swept = cav_region_transformed (pass->swept, placed);
  CavBox bounds = cav_region_get_bounds (swept);
  double half = fmax (bounds.x1 - pass->fence, pass->fence - bounds.x0) * progress;
  g_autoptr (CavRegion) window
      = setup->machine == CAV_MACHINE_ROUTER
            ? cav_region_new_box (pass->fence - half, bounds.y0, pass->fence + half, bounds.y1)
            : cav_region_new_box (bounds.x0, bounds.y0, bounds.x1,
                                  bounds.y0 + (bounds.y1 - bounds.y0) * progress);
  g_autoptr (CavRegion) seen = cav_region_intersection (swept, window, NULL);

  return seen == NULL ? cav_region_new_empty ()
                      : cav_region_transformed (seen, cav_placement_get_inverse (
                                                          &plan->blank, pass->down, pass->against));
}

CavRegion *
cav_machine_view_create_rail (const CavPlan *plan,
                              const CavSetup *setup,
                              const CavPass *pass,
                              double progress)
{
  g_autoptr (CavRegion) milled = NULL;
  CavRegion *rail;

  if (progress >= 1)
    return cav_region_ref (pass->after);
  if (progress <= 0 || cav_region_is_empty (pass->swept))
    return cav_region_ref (pass->before);
  milled = create_milled (plan, setup, pass, progress);
  rail = cav_region_difference (pass->before, milled, NULL);
  return rail != NULL ? rail : cav_region_ref (pass->before);
}

static void
draw_wood (const View *view, const CavRegion *rail, CavEndMark mark)
{
  cav_end_grain_draw (view->scene, rail, &view->plan->blank, view->whole, RING_SPACING);
  mark.size = fmin (mark.size, LARGEST_MARK / view->scale);
  cav_end_mark_draw (view->scene, mark, view->whole);
}

/* What all passes but the last have turned into chips, and what the last one has so far. */
static CavRegion *
create_chips (const View *view, const CavRegion *rail)
{
  g_autoptr (CavRegion) cut = cav_region_difference (view->passes[0]->before, rail, NULL);
  g_autoptr (CavRegion) swept = cav_region_ref (view->pass->swept);

  for (guint i = 0; i + 1 < view->n_passes; i++)
    {
      CavRegion *more = cav_region_union (swept, view->passes[i]->swept, NULL);

      if (more == NULL)
        continue;
      cav_region_unref (swept);
      swept = more;
    }
  return cut != NULL ? cav_region_intersection (cut, swept, NULL) : NULL;
}

/* Where one pass of a ladder ends and the next begins. */
static void
draw_layers (const View *view)
{
  for (guint i = 0; i + 1 < view->n_passes; i++)
    {
      g_autoptr (CavRegion) layer
          = cav_region_intersection (view->passes[i]->before, view->passes[i]->swept, NULL);

      if (layer != NULL)
        cav_scene_add_region (view->scene, layer, view->whole, CAV_STYLE_LAYER);
    }
}

static void
draw_tool (const View *view, const CavRegion *tool, const CavRegion *rail)
{
  g_autoptr (CavRegion) chips = create_chips (view, rail);

  cav_scene_add_region (view->scene, tool, view->map, CAV_STYLE_TOOL);
  if (chips != NULL)
    cav_scene_add_region (view->scene, chips, view->whole, CAV_STYLE_CHIPS);
  draw_layers (view);
}

static void
draw_wood_and_tool (const View *view, CavEndMark mark)
{
  CavScene *scene = view->scene;
  g_autoptr (CavRegion) tool = create_tool (view);
  g_autoptr (CavRegion) rail
      = cav_machine_view_create_rail (view->plan, view->setup, view->pass, view->look->progress);

  cav_scene_add_region (scene, view->passes[0]->before, view->whole, CAV_STYLE_BEFORE);
  /* Done, nothing may hide what is cut; before that the tool stands behind the wood. */
  if (view->look->progress >= 1)
    draw_wood (view, rail, mark);
  draw_tool (view, tool, rail);
  if (view->look->progress < 1)
    draw_wood (view, rail, mark);
  cav_scene_add_region (scene, rail, view->whole, CAV_STYLE_OUTLINE);
  cav_scene_add_region (scene, tool, view->map, CAV_STYLE_TOOL_OUTLINE);
  cav_scene_add_line (scene, CAV_POINT (view->box.x0, to_y (view, 0)),
                      CAV_POINT (to_x (view, view->reach) + 2, to_y (view, 0)), CAV_STYLE_TABLE);
}

/* A value as it stands in a picture: the sign of what was rounded away is with the large figure. */
static char *
format_value (double mm, CavUnit unit, int denominator)
{
  gboolean about;

  return cav_words_format_figure (mm, unit, denominator, &about);
}

/* Puts the value where there is room in the picture, or leaves it to the large figure beside. */
static void
draw_within (const View *view, CavDimension *dimension)
{
  for (int i = 0; i < 2; i++)
    {
      CavBox room;

      dimension->beyond_low = (i == 0) == dimension->upright;
      room = cav_dimension_get_room (view->scene, dimension).text;
      if (room.x0 >= view->box.x0 && room.x1 <= view->box.x1 && room.y0 >= view->box.y0
          && room.y1 <= view->box.y1)
        {
          cav_dimension_draw (view->scene, dimension);
          return;
        }
    }
  dimension->text = "";
  cav_dimension_draw (view->scene, dimension);
}

static void
draw_fence_figure (const View *view)
{
  double figure;
  g_autofree char *text = NULL;
  CavDimension dimension = { .from = to_x (view, 0), .height = view->look->letters };

  cav_pass_get_measure (view->plan, view->setup, view->pass, &figure);
  text = format_value (figure, view->look->unit, view->look->denominator);
  dimension.to = to_x (view, figure);
  dimension.line = view->box.y1 - 2.0;
  dimension.start_from = to_y (view, 0);
  dimension.start_to = to_y (view, 0);
  dimension.text = text;
  draw_within (view, &dimension);
}

/* Where along u the tool is highest. */
static double
get_crown (const View *view)
{
  const CavBlade *blade = cav_shop_find_blade (view->plan->shop, view->setup->tool);
  double kerf = blade != NULL ? blade->kerf : 0;
  double tilt = CAV_RADIANS (view->setup->tilt);

  if (view->setup->machine != CAV_MACHINE_SAW)
    return view->pass->fence;
  /* The near corner of a blade that leans away is its highest, the far one of one that leans in. */
  if (view->setup->tilt > CAV_SETTING_SAME)
    return view->pass->fence + view->pass->height * tan (tilt);
  return view->pass->fence + kerf / cos (tilt) + view->pass->height * tan (tilt);
}

static void
draw_height_figure (const View *view)
{
  g_autofree char *text
      = format_value (view->pass->height, view->look->unit, view->look->denominator);
  CavDimension dimension = { .upright = TRUE, .height = view->look->letters, .text = text };

  dimension.from = to_y (view, view->pass->height);
  dimension.to = to_y (view, 0);
  dimension.line = to_x (view, view->reach) + 6.2 + view->look->letters - CAV_LETTER_SMALL;
  dimension.start_from = fmin (to_x (view, get_crown (view)), dimension.line - 2);
  dimension.start_to = to_x (view, view->reach);
  draw_within (view, &dimension);
}

double
cav_machine_view_get_mark_size (const CavPlan *plan)
{
  return CLAMP (0.16 * fmin (plan->blank.width, plan->blank.thickness) + 2, 1, 12);
}

static const CavMachineLook sheet_look
    = { .denominator = CAV_SHEET_DENOMINATOR, .letters = CAV_LETTER_SMALL, .progress = 1 };

static View
begin_view (const CavPlan *plan,
            const CavSetup *setup,
            const CavPass *const *passes,
            guint n_passes,
            CavBox box,
            const CavMachineLook *look)
{
  View view = { .plan = plan,
                .setup = setup,
                .passes = passes,
                .n_passes = n_passes,
                .pass = passes[n_passes - 1],
                .look = look };

  view.placed = cav_placement_get_transform (&plan->blank, passes[0]->down, passes[0]->against);
  lay_out (&view, box);
  return view;
}

double
cav_machine_view_get_scale (const CavPlan *plan,
                            const CavSetup *setup,
                            const CavPass *const *passes,
                            guint n_passes,
                            double width,
                            double height)
{
  return begin_view (plan, setup, passes, n_passes, cav_box (0, 0, width, height), &sheet_look)
      .scale;
}

double
cav_machine_view_get_height (const CavPlan *plan,
                             const CavSetup *setup,
                             const CavPass *const *passes,
                             guint n_passes,
                             double width)
{
  View view
      = begin_view (plan, setup, passes, n_passes, cav_box (0, 0, width, UNLIMITED), &sheet_look);

  return view.height * view.scale + TABLE + BELOW + ABOVE;
}

double
cav_machine_view_get_width (const CavPlan *plan,
                            const CavSetup *setup,
                            const CavPass *const *passes,
                            guint n_passes,
                            double height)
{
  View view
      = begin_view (plan, setup, passes, n_passes, cav_box (0, 0, UNLIMITED, height), &sheet_look);

  return FENCE + SACRIFICIAL + view.reach * view.scale + BESIDE;
}

void
cav_machine_view_draw_passes (CavScene *scene,
                              const CavPlan *plan,
                              const CavSetup *setup,
                              const CavPass *const *passes,
                              guint n_passes,
                              CavEndMark mark,
                              CavBox box,
                              const CavMachineLook *look)
{
  View view;

  g_return_if_fail (scene != NULL && plan != NULL && setup != NULL && n_passes > 0);

  view = begin_view (plan, setup, passes, n_passes, box, look);
  view.scene = scene;
  draw_machine (&view);
  draw_wood_and_tool (&view, mark);
  if (look->unfigured)
    return;
  draw_fence_figure (&view);
  draw_height_figure (&view);
}

void
cav_draw_pass (cairo_t *cr,
               const CavPlan *plan,
               guint setup_index,
               guint pass_index,
               CavDrawBox box,
               CavLight light,
               const CavMachineLook *look)
{
  double per_mm = box.per_mm > 0 ? box.per_mm : 1;
  CavBox area = cav_box (0, 0, box.width / per_mm, box.height / per_mm);
  g_autoptr (CavScene) scene = NULL;
  const CavSetup *setup;
  const CavPass *pass;

  g_return_if_fail (cr != NULL && plan != NULL && setup_index < plan->setups->len);
  setup = g_ptr_array_index (plan->setups, setup_index);
  g_return_if_fail (pass_index < setup->passes->len);
  pass = g_ptr_array_index (setup->passes, pass_index);

  /* Without room for a fence there is no picture. */
  if (!(area.x1 > FENCE + SACRIFICIAL + BESIDE + 2 && area.y1 > TABLE + BELOW + ABOVE + 2))
    return;
  scene = cav_scene_new (area.x1, area.y1);
  cav_machine_view_draw_passes (
      scene, plan, setup, &pass, 1,
      cav_end_mark_find (plan->profile, cav_machine_view_get_mark_size (plan)), area, look);
  cairo_save (cr);
  cairo_translate (cr, box.x, box.y);
  cairo_scale (cr, per_mm, per_mm);
  cav_scene_render_in (scene, cr, light);
  cairo_restore (cr);
}
