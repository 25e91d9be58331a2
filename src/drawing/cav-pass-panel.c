/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <string.h>

#include "drawing/cav-machine-view.h"
#include "drawing/cav-pass-hints.h"
#include "drawing/cav-pass-sheet-private.h"

/* Within a panel, mm. */
#define PAD 2.0
#define HEADER 13.4
#define BADGE 9.5
#define LONG_BADGE 18.0
#define TICK 4.4
#define TICK_STEP 5.6
#define TICKS_IN_ROW 4
#define CHANGE 1.4 /* over the lines that say what changes */
#define CHANGE_LINES 2
#define HINT_LINES 2
#define CAUTION_LINES 6u
#define SIDE 4.0 /* height of the words for the sides and for what changes */
#define SIDE_LINE (SIDE * 1.6)
#define LINE (CAV_LETTER_SMALL * CAV_LETTER_LEADING)
/* Of a large figure: its label above, and the gap to what follows, in which fonts have room for
 * accents and descenders. */
#define LABEL_ROOM(figure) (CAV_LETTER_SMALL + 1.5 + 0.28 * (figure))
#define FIGURE_GAP(figure) (0.33 * (figure) + 0.6)
#define LEAST_PICTURE 26.0
#define LEAST_FIGURE_WIDTH 34.0
#define LARGEST_FIGURE 9.6
/* Between figures beside each other, lest whole inches and the next fraction are read as one. */
#define FIGURES_APART 9.0
#define CAUTION_SIGN 4.6
/* Panels narrower than this have a ladder under the setting that stays, not beside it. */
#define WIDE 150.0
#define FIXED 46.0 /* width for the setting that stays, beside a ladder */
#define LARGEST_PICTURE 42.0
/* Panels narrower than this have their boxes in two rows. */
#define NARROW 95.0

static const CavTextStyle small = { .height = CAV_LETTER_SMALL, .ink = CAV_INK_BLACK };
static const CavTextStyle small_grey = { .height = CAV_LETTER_SMALL, .ink = CAV_INK_GREY };
static const CavTextStyle side = { .height = SIDE, .ink = CAV_INK_BLACK };
static const CavTextStyle side_bold = { .height = SIDE, .bold = TRUE, .ink = CAV_INK_BLACK };

/* How a panel's body is divided. */
typedef struct
{
  double header; /* height */
  double body;   /* height of picture and figures */
  double below;  /* height of the words under them */
  double figures_width;
  double figures_height;
  gboolean figures_below; /* the picture, not beside it */
  gboolean in_row;        /* there: fence and height beside each other */
  gboolean ladder_below;  /* the setting that stays */
  guint columns;          /* of a ladder */
} Shape;

static double
get_figure_width (const CavPassSheet *sheet, double mm, double height)
{
  gboolean about;
  g_autofree char *text = cav_pass_sheet_format_figure (sheet, mm, &about);

  return cav_lettering_get_width (sheet->lettering, text, height, TRUE);
}

static double
measure_figures (const CavPassSheet *sheet, double height)
{
  double width = 0;

  for (guint i = 0; i < sheet->plan->setups->len; i++)
    {
      const CavSetup *setup = g_ptr_array_index (sheet->plan->setups, i);

      for (guint j = 0; j < setup->passes->len; j++)
        {
          const CavPass *pass = g_ptr_array_index (setup->passes, j);
          double fence;

          cav_pass_get_measure (sheet->plan, setup, pass, &fence);
          width = fmax (width, get_figure_width (sheet, fence, height));
          width = fmax (width, get_figure_width (sheet, pass->height, height));
        }
    }
  return width;
}

void
cav_pass_panel_fit_figures (CavPassSheet *sheet)
{
  double room = fmin ((sheet->panel_width - 2 * PAD) / 2 - FIGURES_APART, 42);
  double at_one = measure_figures (sheet, 1);

  sheet->figure = CAV_LETTER_FIGURE;
  if (at_one > 0)
    sheet->figure = CLAMP (room / at_one, CAV_LETTER_FIGURE, LARGEST_FIGURE);
  sheet->figure_width = at_one * sheet->figure;
}

static GPtrArray *
create_passes (const CavPassSheet *sheet, const CavPassGroup *group)
{
  GPtrArray *passes = g_ptr_array_new ();

  for (guint i = 0; i < group->count; i++)
    g_ptr_array_add (passes, (gpointer)cav_pass_group_get_pass (sheet->plan, group, i));
  return passes;
}

/* (transfer full) the cautions' words in lines; a line that begins one has its bit. */
static GPtrArray *
wrap_cautions (const CavPassSheet *sheet, const CavPassGroup *group, double width, GArray *starts)
{
  guint cautions = cav_pass_group_get_cautions (sheet->plan, group);
  GPtrArray *lines = g_ptr_array_new_with_free_func (g_free);

  for (guint i = 0; i < CAV_N_CAUTIONS; i++)
    if ((cautions & (1u << i)) != 0)
      {
        g_autoptr (GPtrArray) more
            = cav_lettering_wrap (sheet->lettering, cav_words_get_caution ((CavCaution)(1u << i)),
                                  CAV_LETTER_SMALL, FALSE, width - 2 * PAD - CAUTION_SIGN - 0.6, 2);

        if (starts != NULL)
          g_array_append_val (starts, lines->len);
        g_ptr_array_extend_and_steal (lines, g_steal_pointer (&more));
      }
  if (lines->len <= CAUTION_LINES)
    return lines;
  /* All of them stand in full among the notes. */
  g_ptr_array_set_size (lines, CAUTION_LINES - 1);
  if (starts != NULL)
    g_array_append_val (starts, lines->len);
  g_ptr_array_add (lines, g_strdup ("More cautions stand at the end"));
  return lines;
}

/* What changes: the sacrificial fence, the settings, the steps of a ladder. */
static GPtrArray *
wrap_changes (const CavPassSheet *sheet, const CavPassGroup *group, double width)
{
  const CavSetup *setup = cav_pass_sheet_get_setup (sheet, group);
  const CavPass *pass = cav_pass_group_get_pass (sheet->plan, group, 0);
  const char *board
      = cav_words_get_board (cav_pass_find_board (sheet->plan, group->setup, group->first));
  g_autofree char *change = cav_words_describe_change (
      sheet->plan, setup, cav_pass_group_get_before (sheet->plan, group), pass, sheet->options);
  g_autofree char *ladder = group->ladder != CAV_LADDER_NONE
                                ? cav_words_describe_ladder (sheet->plan, group, sheet->options)
                                : NULL;
  const char *const texts[] = { board, change, ladder, cav_words_get_release (pass) };
  GPtrArray *lines = g_ptr_array_new_with_free_func (g_free);

  for (guint i = 0; i < G_N_ELEMENTS (texts); i++)
    if (texts[i] != NULL)
      {
        g_autoptr (GPtrArray) more = cav_lettering_wrap (sheet->lettering, texts[i], SIDE, TRUE,
                                                         width - 2 * PAD, CHANGE_LINES);

        g_ptr_array_extend_and_steal (lines, g_steal_pointer (&more));
      }
  return lines;
}

/* A trial is asked for where a setup begins: its first pass sets what the others are moved from. */
static GPtrArray *
wrap_hint (const CavPassSheet *sheet, const CavPassGroup *group, double width)
{
  g_autofree char *trial = group->first > 0
                               ? NULL
                               : cav_words_describe_trial (
                                   sheet->plan, cav_pass_sheet_get_setup (sheet, group),
                                   cav_pass_group_get_pass (sheet->plan, group, 0), sheet->options);

  if (trial == NULL)
    return g_ptr_array_new_with_free_func (g_free);
  return cav_lettering_wrap (sheet->lettering, trial, CAV_LETTER_SMALL, FALSE, width - 2 * PAD,
                             HINT_LINES);
}

static double
get_block_height (const CavPassSheet *sheet)
{
  return LABEL_ROOM (sheet->figure) + sheet->figure + FIGURE_GAP (sheet->figure);
}

static double
get_picture_scale (const CavPassSheet *sheet,
                   const CavPassGroup *group,
                   double width,
                   double height)
{
  g_autoptr (GPtrArray) passes = create_passes (sheet, group);

  if (width < 10 || height < LEAST_PICTURE)
    return 0;
  return cav_machine_view_get_scale (sheet->plan, cav_pass_sheet_get_setup (sheet, group),
                                     (const CavPass *const *)passes->pdata, passes->len, width,
                                     height);
}

/* The ladder of a wide panel has as many columns as make it little higher than the picture; in a
 * narrow one that is long they fill the width. */
static guint
find_columns (const CavPassSheet *sheet, const CavPassGroup *group, double width)
{
  double room = width < WIDE ? width - 2 * PAD : width - FIXED - 80;
  double height = CAV_PASS_SHEET_PICTURE + (sheet->roomy ? 46 : 20);
  guint most = 1;

  while (most < group->count && cav_pass_ladder_get_width (sheet, group, most + 1) <= room)
    most++;
  if (width < WIDE)
    return cav_pass_ladder_is_long (group) ? most : 1;
  for (guint columns = 1; columns < most; columns++)
    if (cav_pass_ladder_measure (sheet, group, columns) <= height)
      return columns;
  return most;
}

/* A wide panel has picture, fixed setting and ladder beside each other; a narrow one the settings
 * under each other, beside the picture where the ladder is short, else below it. */
static void
shape_ladder (const CavPassSheet *sheet, const CavPassGroup *group, double width, Shape *shape)
{
  double ladder;
  double ladder_width;

  shape->columns = find_columns (sheet, group, width);
  ladder = cav_pass_ladder_measure (sheet, group, shape->columns);
  ladder_width = cav_pass_ladder_get_width (sheet, group, shape->columns);
  shape->ladder_below = width < WIDE;
  shape->figures_below = shape->ladder_below && cav_pass_ladder_is_long (group);
  if (shape->ladder_below)
    {
      shape->figures_width = fmax (fmax (sheet->figure_width, ladder_width), LEAST_FIGURE_WIDTH);
      shape->figures_height = get_block_height (sheet) + LINE + ladder;
      shape->body = shape->figures_height + (shape->figures_below ? CAV_PASS_SHEET_PICTURE : 0);
      return;
    }
  shape->figures_width = FIXED + ladder_width;
  shape->body = fmax (ladder, CAV_PASS_SHEET_PICTURE);
}

/* Height that the picture of a rail lying flat fills below which figures stand in a row. */
static double
get_flat_height (const CavPassSheet *sheet, const CavPassGroup *group, double width)
{
  g_autoptr (GPtrArray) passes = create_passes (sheet, group);

  return cav_machine_view_get_height (sheet->plan, cav_pass_sheet_get_setup (sheet, group),
                                      (const CavPass *const *)passes->pdata, passes->len, width);
}

/* Figures of one pass beside the picture of a rail on edge, below that of one that lies flat. */
static void
shape_single (
    const CavPassSheet *sheet, const CavPassGroup *group, double width, double body, Shape *shape)
{
  double column = fmax (sheet->figure_width, LEAST_FIGURE_WIDTH);
  double inner = width - 2 * PAD;
  gboolean in_row = sheet->figure_width <= inner / 2 - FIGURES_APART + 0.1;
  double stacked = 2 * get_block_height (sheet) + LINE;
  double row = in_row ? get_block_height (sheet) + LINE : stacked;
  double flat = CLAMP (get_flat_height (sheet, group, inner), LEAST_PICTURE,
                       sheet->roomy ? LARGEST_PICTURE : LEAST_PICTURE);
  gboolean fits_beside = inner - column - PAD > 44;
  double beside;
  double below;

  shape->body = fmax (body, fmax (stacked, CAV_PASS_SHEET_PICTURE));
  beside = fits_beside ? get_picture_scale (sheet, group, inner - column - PAD, shape->body) : 0;
  below = get_picture_scale (sheet, group, inner, fmax (shape->body - row, flat));
  shape->figures_below = below > beside;
  if (shape->figures_below)
    shape->body = fmax (body, row + flat);
  shape->in_row = in_row;
  shape->figures_width = column;
  shape->figures_height = row;
}

static Shape
find_shape (const CavPassSheet *sheet, const CavPassGroup *group, double width, double height)
{
  g_autoptr (GPtrArray) changes = wrap_changes (sheet, group, width);
  g_autoptr (GPtrArray) hint = wrap_hint (sheet, group, width);
  g_autoptr (GPtrArray) cautions = wrap_cautions (sheet, group, width, NULL);
  Shape shape = { .header = HEADER };
  double body;

  shape.below = CHANGE + changes->len * SIDE_LINE + (hint->len + cautions->len) * LINE + PAD;
  body = height - shape.header - shape.below;
  if (group->ladder != CAV_LADDER_NONE)
    shape_ladder (sheet, group, width, &shape);
  else
    shape_single (sheet, group, width, body, &shape);
  shape.body = fmax (shape.body, body);
  return shape;
}

double
cav_pass_panel_measure (const CavPassSheet *sheet, const CavPassGroup *group, double width)
{
  Shape shape = find_shape (sheet, group, width, 0);

  return shape.header + shape.body + shape.below;
}

/* Drawing */

static double
draw_badge (CavScene *scene, const CavPassGroup *group, CavPoint corner)
{
  guint last = group->number + group->count - 1;
  g_autofree char *text = group->count > 1 ? g_strdup_printf ("%u–%u", group->number, last)
                                           : g_strdup_printf ("%u", group->number);
  double width = group->count > 1 ? LONG_BADGE : BADGE;
  const CavTextStyle style
      = { .height = group->count > 1 || last >= 10 ? CAV_LETTER_LARGE : CAV_LETTER_TOOL,
          .bold = TRUE,
          .ink = CAV_INK_WHITE,
          .align = CAV_ALIGN_MIDDLE };
  CavTextStyle fitting = style;

  if (last >= 100)
    fitting.height = CAV_LETTER_SMALL;
  cav_scene_add_box (scene, cav_box (corner.x, corner.y, corner.x + width, corner.y + BADGE),
                     CAV_STYLE_BADGE);
  cav_scene_add_text (scene, text,
                      CAV_POINT (corner.x + width / 2, corner.y + (BADGE + fitting.height) / 2),
                      &fitting);
  return width;
}

/* A box to tick for each rail, from the right; one for all of them where they are many. Returns the
 * width that is used. */
static double
draw_ticks (const CavPassSheet *sheet, CavScene *scene, double right, double top, int most)
{
  int rails = sheet->plan->rails;
  int shown = rails <= 2 * most ? rails : 1;
  int columns = MIN (shown, most);
  g_autofree char *words = g_strdup_printf ("all %d", rails);
  double width = columns * TICK_STEP;

  for (int i = 0; i < shown; i++)
    {
      double x = right - (columns - i % most) * TICK_STEP + TICK_STEP - TICK;
      double y = top + (i / most) * TICK_STEP;

      cav_scene_add_box (scene, cav_box (x, y, x + TICK, y + TICK), CAV_STYLE_TICK_BOX);
    }
  if (rails > 2 * most)
    {
      CavTextStyle style = small;

      style.align = CAV_ALIGN_END;
      cav_scene_add_text (scene, words, CAV_POINT (right - width - 1, top + 4), &style);
      width += cav_lettering_get_width (sheet->lettering, words, small.height, FALSE) + 1;
    }
  return width;
}

static void
draw_header (const CavPassSheet *sheet, CavScene *scene, const CavPassGroup *group, CavBox box)
{
  const CavPass *pass = cav_pass_group_get_pass (sheet->plan, group, 0);
  /* The boxes of a ladder stand beside its settings. */
  double ticks = group->ladder == CAV_LADDER_NONE
                     ? draw_ticks (sheet, scene, box.x1 - PAD, box.y0 + PAD,
                                   box.x1 - box.x0 < NARROW ? TICKS_IN_ROW / 2 : TICKS_IN_ROW)
                     : 0;
  double badge = draw_badge (scene, group, CAV_POINT (box.x0, box.y0));
  double x = box.x0 + badge + PAD;
  double room = box.x1 - PAD - ticks - 1 - x;

  cav_scene_add_text_within (scene, cav_words_get_down (pass->down),
                             CAV_POINT (x, box.y0 + 1.4 + SIDE), &side_bold, room);
  cav_scene_add_text_within (scene, cav_words_get_against (pass->against),
                             CAV_POINT (x, box.y0 + 1.4 + SIDE + SIDE_LINE), &side, room);
}

/* The sign of what was rounded away stands with the label: the figure is to be set as it is. */
static void
draw_figure (const CavPassSheet *sheet,
             CavScene *scene,
             const char *label,
             double mm,
             CavPoint corner,
             double width)
{
  const CavTextStyle figure = { .height = sheet->figure, .bold = TRUE, .ink = CAV_INK_BLACK };
  gboolean about;
  g_autofree char *text = cav_pass_sheet_format_figure (sheet, mm, &about);
  g_autofree char *whole = g_strconcat (label, about ? " ≈" : "", NULL);

  cav_scene_add_text_within (scene, whole, CAV_POINT (corner.x, corner.y + small_grey.height + 0.4),
                             &small_grey, width);
  cav_scene_add_text (scene, text,
                      CAV_POINT (corner.x, corner.y + LABEL_ROOM (figure.height) + figure.height),
                      &figure);
}

static void
draw_bite (const CavPassSheet *sheet,
           CavScene *scene,
           const CavPassGroup *group,
           CavPoint corner,
           double width)
{
  g_autofree char *bite
      = cav_length_format_bare (cav_pass_group_get_bite (sheet->plan, group), sheet->options->unit,
                                sheet->options->denominator);
  g_autofree char *text
      = g_strdup_printf (group->count > 1 ? "Bite up to %s" : "Bite %s deep", bite);

  cav_scene_add_text_within (scene, text, CAV_POINT (corner.x, corner.y + small_grey.height + 0.4),
                             &small_grey, width);
}

/* Fence, height and bite under each other, or in a row with the bite below. */
static void
draw_figures (const CavPassSheet *sheet,
              CavScene *scene,
              const CavPassGroup *group,
              CavPoint corner,
              double width,
              gboolean in_row)
{
  const CavSetup *setup = cav_pass_sheet_get_setup (sheet, group);
  const CavPass *pass = cav_pass_group_get_pass (sheet->plan, group, 0);
  double block = get_block_height (sheet);
  CavPoint height = in_row ? CAV_POINT (corner.x + width / 2 + 1, corner.y)
                           : CAV_POINT (corner.x, corner.y + block);
  double fence;
  CavMeasure measure = cav_pass_get_measure (sheet->plan, setup, pass, &fence);

  draw_figure (sheet, scene, cav_words_get_measure (measure), fence, corner,
               in_row ? width / 2 - 1 : width);
  draw_figure (sheet, scene, "Height", pass->height, height, in_row ? width / 2 - 1 : width);
  if (in_row)
    cav_scene_add_line (scene, CAV_POINT (height.x - 4, corner.y + 1),
                        CAV_POINT (height.x - 4, corner.y + block - 1), CAV_STYLE_THIN_RULE);
  draw_bite (sheet, scene, group, CAV_POINT (corner.x, corner.y + (in_row ? block : 2 * block)),
             width);
}

/* The setting that stays, and beside or below it those that climb. */
static void
draw_ladder (const CavPassSheet *sheet,
             CavScene *scene,
             const CavPassGroup *group,
             CavPoint corner,
             const Shape *shape)
{
  const CavSetup *setup = cav_pass_sheet_get_setup (sheet, group);
  const CavPass *pass = cav_pass_group_get_pass (sheet->plan, group, 0);
  double block = get_block_height (sheet);
  CavPoint ladder = shape->ladder_below ? CAV_POINT (corner.x, corner.y + block + LINE)
                                        : CAV_POINT (corner.x + FIXED, corner.y);
  double room = shape->ladder_below ? shape->figures_width : FIXED - PAD;
  double fence;
  CavMeasure measure = cav_pass_get_measure (sheet->plan, setup, pass, &fence);

  if (group->ladder == CAV_LADDER_HEIGHT)
    draw_figure (sheet, scene, cav_words_get_measure (measure), fence, corner, room);
  else
    draw_figure (sheet, scene, "Height", pass->height, corner, room);
  draw_bite (sheet, scene, group, CAV_POINT (corner.x, corner.y + block), room);
  cav_pass_ladder_draw (sheet, scene, group, ladder, shape->columns);
}

static void
draw_caution_sign (CavScene *scene, CavPoint foot)
{
  const CavPoint corners[]
      = { { foot.x + 1.9, foot.y - 3.3 }, { foot.x + 3.8, foot.y }, { foot.x, foot.y } };

  cav_scene_add_polygon (scene, corners, G_N_ELEMENTS (corners), CAV_STYLE_CAUTION);
  cav_scene_add_line (scene, CAV_POINT (foot.x + 1.9, foot.y - 2.3),
                      CAV_POINT (foot.x + 1.9, foot.y - 1.2), CAV_STYLE_CAUTION);
  cav_scene_add_line (scene, CAV_POINT (foot.x + 1.9, foot.y - 0.85),
                      CAV_POINT (foot.x + 1.9, foot.y - 0.45), CAV_STYLE_CAUTION);
}

static void
draw_words (const CavPassSheet *sheet,
            CavScene *scene,
            const CavPassGroup *group,
            CavPoint corner,
            double width)
{
  g_autoptr (GPtrArray) changes = wrap_changes (sheet, group, width);
  g_autoptr (GPtrArray) hint = wrap_hint (sheet, group, width);
  g_autoptr (GArray) starts = g_array_new (FALSE, FALSE, sizeof (guint));
  g_autoptr (GPtrArray) cautions = wrap_cautions (sheet, group, width, starts);
  CavPoint foot = CAV_POINT (corner.x, corner.y + CHANGE + SIDE - SIDE_LINE);

  for (guint i = 0; i < changes->len; i++)
    {
      foot.y += SIDE_LINE;
      cav_scene_add_text (scene, g_ptr_array_index (changes, i), foot, &side_bold);
    }
  foot.y += 0.4;
  for (guint i = 0; i < hint->len; i++)
    {
      foot.y += LINE;
      cav_scene_add_text (scene, g_ptr_array_index (hint, i), foot, &small);
    }
  for (guint i = 0, next = 0; i < cautions->len; i++)
    {
      foot.y += LINE;
      while (next < starts->len && g_array_index (starts, guint, next) < i)
        next++;
      if (next < starts->len && g_array_index (starts, guint, next) == i)
        draw_caution_sign (scene, foot);
      cav_scene_add_text (scene, g_ptr_array_index (cautions, i),
                          CAV_POINT (foot.x + CAUTION_SIGN + 0.6, foot.y), &small);
    }
}

void
cav_pass_panel_draw (const CavPassSheet *sheet,
                     CavScene *scene,
                     const CavPassGroup *group,
                     CavBox box)
{
  double width = box.x1 - box.x0;
  Shape shape = find_shape (sheet, group, width, box.y1 - box.y0);
  g_autoptr (GPtrArray) passes = create_passes (sheet, group);
  CavBox picture = cav_box (box.x0 + PAD, box.y0 + shape.header, box.x1 - PAD,
                            box.y0 + shape.header + shape.body);
  CavPoint figures = CAV_POINT (box.x1 - PAD - shape.figures_width, picture.y0);
  const CavMachineLook look = { .unit = sheet->options->unit,
                                .denominator = sheet->options->denominator,
                                .letters = CAV_LETTER_SMALL,
                                .progress = 1 };

  if (shape.figures_below)
    {
      picture.y1 -= shape.figures_height;
      figures = CAV_POINT (picture.x0, picture.y1);
    }
  else
    picture.x1 = figures.x - PAD;
  cav_scene_add_box (scene, box, CAV_STYLE_PANEL);
  draw_header (sheet, scene, group, box);
  cav_machine_view_draw_passes (scene, sheet->plan, cav_pass_sheet_get_setup (sheet, group),
                                (const CavPass *const *)passes->pdata, passes->len, sheet->mark,
                                picture, &look);
  if (group->ladder != CAV_LADDER_NONE)
    draw_ladder (sheet, scene, group, figures, &shape);
  else
    draw_figures (sheet, scene, group, figures,
                  shape.figures_below ? width - 2 * PAD : shape.figures_width,
                  shape.figures_below && shape.in_row);
  draw_words (sheet, scene, group, CAV_POINT (box.x0 + PAD, box.y0 + shape.header + shape.body),
              width);
}
