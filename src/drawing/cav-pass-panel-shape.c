/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/cav-pass-panel-private.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#include "drawing/cav-machine-view.h"

#define PAD CAV_PANEL_PAD
#define LINE CAV_PANEL_LINE
/* The gap between a large figure and what follows, in which fonts have room for descenders. */
#define FIGURE_GAP(figure) (0.33 * (figure) + 0.6)
#define LEAST_PICTURE 26.0
#define LARGEST_PICTURE 42.0
#define LEAST_FIGURE_WIDTH 30.0
#define LARGEST_FIGURE 9.6
/* Between figures beside each other, lest whole inches and the next fraction are read as one. */
#define FIGURES_APART 9.0
/* Panels from this width on have everything beside each other, where it has room there. */
#define WIDE 150.0
#define LEAST_WORDS 56.0                            /* width of a column of words */
#define WORDS_STEP 12.0                             /* by which it grows where they are many */
#define TIGHT_WORDS 0.75                            /* of that, beside a long header */
#define LEAST_WIDE_PICTURE 60.0                     /* width of a picture in a wide panel */
#define FLAT_PICTURE (CAV_PASS_SHEET_PICTURE - 4.0) /* height of a picture in a wide panel */

/* Figures */

static double
get_figure_width (const CavPassSheet *sheet, double mm, double height)
{
  gboolean about;
  g_autofree char *text = cav_pass_sheet_format_figure (sheet, mm, &about);

  return cav_lettering_get_width (sheet->lettering, text, height, TRUE);
}

/* Width of the wider one of fence and height. */
static double
measure_pass (const CavPassSheet *sheet, const CavSetup *setup, const CavPass *pass, double height)
{
  double fence;

  cav_pass_get_measure (sheet->plan, setup, pass, &fence);
  return fmax (get_figure_width (sheet, fence, height),
               get_figure_width (sheet, pass->height, height));
}

static double
measure_figures (const CavPassSheet *sheet, double height)
{
  double width = 0;

  for (guint i = 0; i < sheet->plan->setups->len; i++)
    {
      const CavSetup *setup = g_ptr_array_index (sheet->plan->setups, i);

      for (guint j = 0; j < setup->passes->len; j++)
        width = fmax (width,
                      measure_pass (sheet, setup, g_ptr_array_index (setup->passes, j), height));
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

char *
cav_panel_dup_label (const CavPassSheet *sheet, const char *label, double mm)
{
  gboolean about;
  g_autofree char *figure = cav_pass_sheet_format_figure (sheet, mm, &about);

  return about ? g_strconcat (label, " ≈", NULL) : g_strdup (label);
}

char *
cav_panel_dup_bite (const CavPassSheet *sheet, const CavPassGroup *group)
{
  g_autofree char *bite
      = cav_length_format_bare (cav_pass_group_get_bite (sheet->plan, group), sheet->options->unit,
                                sheet->options->denominator);

  return g_strdup_printf (group->count > 1 ? _ ("Bite up to %s") : _ ("Bite %s deep"), bite);
}

char *
cav_panel_dup_at (const CavPassSheet *sheet, const CavPassGroup *group)
{
  g_autofree char *figure
      = cav_length_format_bare (cav_pass_group_get_pass (sheet->plan, group, 0)->height,
                                sheet->options->unit, sheet->options->denominator);

  return g_strdup_printf (_ ("at height %s"), figure);
}

static double
get_small_width (const CavPassSheet *sheet, const char *text)
{
  return cav_lettering_get_width (sheet->lettering, text, CAV_LETTER_SMALL, FALSE) + 0.3;
}

/* Of a large figure and the label over it. */
static double
measure_labelled (const CavPassSheet *sheet, const char *label, double mm)
{
  g_autofree char *whole = cav_panel_dup_label (sheet, label, mm);

  return fmax (get_figure_width (sheet, mm, sheet->figure), get_small_width (sheet, whole));
}

/* Width of the column of large figures: those of a pass, or the one that stays beside a ladder. */
static double
measure_column (const CavPassSheet *sheet, const CavPassGroup *group)
{
  const CavSetup *setup = cav_pass_sheet_get_setup (sheet, group);
  const CavPass *pass = cav_pass_group_get_pass (sheet->plan, group, 0);
  g_autofree char *bite = cav_panel_dup_bite (sheet, group);
  double width = fmax (LEAST_FIGURE_WIDTH, get_small_width (sheet, bite));
  double fence;
  CavMeasure measure = cav_pass_get_measure (sheet->plan, setup, pass, &fence);

  if (group->ladder != CAV_LADDER_FENCE)
    width = fmax (width, measure_labelled (sheet, cav_words_get_measure (measure), fence));
  if (group->ladder != CAV_LADDER_HEIGHT)
    width = fmax (width, measure_labelled (sheet, _ ("Height"), pass->height));
  if (cav_pass_ladder_turns (sheet, group))
    {
      g_autofree char *at = cav_panel_dup_at (sheet, group);

      width = fmax (width, get_small_width (sheet, at));
    }
  return width;
}

double
cav_panel_get_block_height (const CavPassSheet *sheet)
{
  return CAV_PANEL_LABEL (sheet->figure) + sheet->figure + FIGURE_GAP (sheet->figure);
}

double
cav_panel_get_fixed_height (const CavPassSheet *sheet, const CavPassGroup *group)
{
  return cav_panel_get_block_height (sheet) + LINE
         + (cav_pass_ladder_turns (sheet, group) ? LINE : 0) + 1;
}

GPtrArray *
cav_panel_create_passes (const CavPassSheet *sheet, const CavPassGroup *group)
{
  GPtrArray *passes = g_ptr_array_new ();

  for (guint i = 0; i < group->count; i++)
    g_ptr_array_add (passes, (gpointer)cav_pass_group_get_pass (sheet->plan, group, i));
  return passes;
}

/* Pictures */

static double
get_picture_scale (const CavPassSheet *sheet,
                   const CavPassGroup *group,
                   double width,
                   double height)
{
  g_autoptr (GPtrArray) passes = cav_panel_create_passes (sheet, group);

  if (width < 10 || height < LEAST_PICTURE)
    return 0;
  return cav_machine_view_get_scale (sheet->plan, cav_pass_sheet_get_setup (sheet, group),
                                     (const CavPass *const *)passes->pdata, passes->len, width,
                                     height);
}

/* Height that the picture of a rail lying flat fills below which figures stand in a row. */
static double
get_flat_height (const CavPassSheet *sheet, const CavPassGroup *group, double width)
{
  g_autoptr (GPtrArray) passes = cav_panel_create_passes (sheet, group);

  return cav_machine_view_get_height (sheet->plan, cav_pass_sheet_get_setup (sheet, group),
                                      (const CavPass *const *)passes->pdata, passes->len, width);
}

static double
get_picture_width (const CavPassSheet *sheet, const CavPassGroup *group, double height)
{
  g_autoptr (GPtrArray) passes = cav_panel_create_passes (sheet, group);

  return cav_machine_view_get_width (sheet->plan, cav_pass_sheet_get_setup (sheet, group),
                                     (const CavPass *const *)passes->pdata, passes->len, height);
}

/* Shapes of narrow panels */

/* The settings stand under each other, beside the picture where the ladder is short, else below it,
 * where they fill the width. */
static void
shape_narrow_ladder (const CavPassSheet *sheet,
                     const CavPassGroup *group,
                     double width,
                     CavPanelShape *shape)
{
  gboolean is_long = cav_pass_ladder_is_long (group);
  guint columns = 1;

  while (is_long && columns < group->count
         && cav_pass_ladder_get_width (sheet, group, columns + 1) <= width - 2 * PAD)
    columns++;
  shape->columns = columns;
  shape->ladder_below = TRUE;
  shape->figures_below = is_long;
  shape->figures_width
      = fmax (measure_column (sheet, group), cav_pass_ladder_get_width (sheet, group, columns));
  shape->figures_height
      = cav_panel_get_fixed_height (sheet, group) + cav_pass_ladder_measure (sheet, group, columns);
  shape->body = shape->figures_height + (is_long ? CAV_PASS_SHEET_PICTURE : 0);
}

/* Figures of one pass beside the picture of a rail on edge, below that of one that lies flat. */
static void
shape_narrow_single (const CavPassSheet *sheet,
                     const CavPassGroup *group,
                     double width,
                     double body,
                     CavPanelShape *shape)
{
  const CavPass *pass = cav_pass_group_get_pass (sheet->plan, group, 0);
  double figure
      = measure_pass (sheet, cav_pass_sheet_get_setup (sheet, group), pass, sheet->figure);
  double column = measure_column (sheet, group);
  double inner = width - 2 * PAD;
  double block = cav_panel_get_block_height (sheet);
  gboolean in_row = figure <= inner / 2 - FIGURES_APART + 0.1;
  double stacked = 2 * block + LINE;
  double row = in_row ? block + LINE : stacked;
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

/* Shapes of wide panels: picture, figures and words beside each other. Only the picture stands
 * under the header; figures begin at the top, and words below the boxes to tick. */

double
cav_panel_get_badge_width (const CavPassGroup *group)
{
  return group->count > 1 ? 18.0 : CAV_PANEL_BADGE;
}

static double
measure_header (const CavPassSheet *sheet, const CavPassGroup *group)
{
  const CavPass *pass = cav_pass_group_get_pass (sheet->plan, group, 0);

  return cav_panel_get_badge_width (group) + 2 * PAD
         + fmax (cav_lettering_get_width (sheet->lettering, cav_words_get_down (pass->down),
                                          CAV_PANEL_SIDE, TRUE),
                 cav_lettering_get_width (sheet->lettering, cav_words_get_against (pass->against),
                                          CAV_PANEL_SIDE, FALSE));
}

/* Divides the width: the picture as wide as height lets it be, if that leaves enough for words. */
static void
share_width (const CavPassSheet *sheet,
             const CavPassGroup *group,
             double width,
             double words,
             CavPanelShape *shape)
{
  double free = width - 2 * PAD - shape->figures_width - PAD;
  double room = free - (words > 0 ? words + PAD : 0);
  /* How the rail lies must be read whole; the words give way for it a little. */
  double most = free - (words > 0 ? words * TIGHT_WORDS + PAD : 0);

  shape->picture_width = fmin (get_picture_width (sheet, group, shape->body), room);
  shape->zone_width = fmin (fmax (shape->picture_width, measure_header (sheet, group)),
                            fmax (most, shape->picture_width));
  shape->words_width
      = words > 0 ? width - 4 * PAD - shape->figures_width - shape->zone_width : width - 2 * PAD;
}

static void
fit_words (const CavPassSheet *sheet, const CavPassGroup *group, CavPanelShape *shape)
{
  shape->body = fmax (shape->body, shape->words_top
                                       + cav_panel_measure_words (sheet, group, shape->words_width)
                                       - shape->header);
}

/* With a picture as large as a body of that height lets it be; words may make it higher. */
static CavPanelShape
divide_single (const CavPassSheet *sheet,
               const CavPassGroup *group,
               double width,
               double body,
               double words,
               const CavPanelShape *shape)
{
  CavPanelShape divided = *shape;

  divided.body = body;
  share_width (sheet, group, width, words, &divided);
  fit_words (sheet, group, &divided);
  return divided;
}

/* As low as it can be. Words that would be higher than a page take from the picture's width, not
 * from the header's above it. */
static CavPanelShape
divide_low (const CavPassSheet *sheet,
            const CavPassGroup *group,
            double width,
            double body,
            const CavPanelShape *shape)
{
  double zone = fmax (LEAST_WIDE_PICTURE, measure_header (sheet, group));
  double most = width - 4 * PAD - shape->figures_width - zone;
  CavPanelShape divided = divide_single (sheet, group, width, body, LEAST_WORDS, shape);

  for (double words = LEAST_WORDS + WORDS_STEP;
       words <= most && sheet->room > 0 && divided.header + divided.body + PAD > sheet->room;
       words += WORDS_STEP)
    divided = divide_single (sheet, group, width, body, words, shape);
  return divided;
}

/* FALSE where the words have no room. */
static gboolean
shape_wide_single (const CavPassSheet *sheet,
                   const CavPassGroup *group,
                   double width,
                   double height,
                   CavPanelShape *shape)
{
  double figures = CAV_PANEL_TOP + 2 * cav_panel_get_block_height (sheet) + LINE;
  double least = fmax (figures - shape->header, FLAT_PICTURE);
  double body = height - shape->header - PAD;
  double longest = cav_panel_get_longest_word (sheet, group);
  gboolean two_rows
      = sheet->n_pieces > CAV_PANEL_TICKS_IN_ROW && sheet->n_pieces <= 2 * CAV_PANEL_TICKS_IN_ROW;
  CavPanelShape larger;

  shape->words_beside = TRUE;
  shape->words_top = CAV_PANEL_TICKS + (two_rows ? CAV_PANEL_TICK_STEP : 0);
  shape->figures_width = measure_column (sheet, group) + PAD;
  *shape = divide_low (sheet, group, width, least, shape);
  if (shape->words_width < longest)
    return FALSE;
  if (body <= shape->body)
    return TRUE;
  /* A larger picture leaves less to the words, which then may not fit any more. */
  larger = divide_single (sheet, group, width, body, LEAST_WORDS, shape);
  if (larger.body <= body + 0.01 && larger.words_width >= longest)
    *shape = larger;
  return TRUE;
}

/* Where the words of a wide ladder stand. */
typedef enum
{
  WORDS_BESIDE, /* at the right of all */
  WORDS_UNDER,  /* the picture alone, which high ladders stand beside */
  WORDS_BELOW,  /* all, over the whole width */
  N_WORDS,
} WordsPlace;

/* A ladder in so many columns; FALSE where that leaves no room for header, picture or words. */
static gboolean
shape_wide_ladder (const CavPassSheet *sheet,
                   const CavPassGroup *group,
                   double width,
                   guint columns,
                   WordsPlace place,
                   CavPanelShape *shape)
{
  double ladder = CAV_PANEL_TOP + cav_pass_ladder_measure (sheet, group, columns);

  shape->columns = columns;
  shape->words_beside = place == WORDS_BESIDE;
  shape->words_top = CAV_PANEL_TOP;
  shape->fixed_width = measure_column (sheet, group) + 2 * PAD;
  shape->figures_width
      = shape->fixed_width + cav_pass_ladder_get_width (sheet, group, columns) + PAD;
  shape->body = place == WORDS_UNDER ? FLAT_PICTURE : fmax (ladder - shape->header, FLAT_PICTURE);
  share_width (sheet, group, width, place == WORDS_BESIDE ? LEAST_WORDS : 0, shape);
  if (shape->picture_width
          < fmin (get_picture_width (sheet, group, shape->body), LEAST_WIDE_PICTURE)
      || shape->zone_width < measure_header (sheet, group))
    return FALSE;
  shape->below = PAD;
  if (place == WORDS_UNDER)
    /* All the width that is left, for words as for the picture. */
    shape->words_width = shape->zone_width = width - 3 * PAD - shape->figures_width;
  if (shape->words_width < cav_panel_get_longest_word (sheet, group))
    return FALSE;
  if (place == WORDS_BESIDE)
    fit_words (sheet, group, shape);
  else
    shape->below += cav_panel_measure_words (sheet, group, shape->words_width);
  if (place == WORDS_UNDER)
    {
      shape->body = fmax (shape->body, ladder + PAD - shape->header - shape->below);
      shape->picture_width
          = fmin (shape->zone_width, get_picture_width (sheet, group, shape->body));
    }
  return TRUE;
}

/* The lowest of all ways; FALSE where none has room. */
static gboolean
find_wide_ladder (const CavPassSheet *sheet,
                  const CavPassGroup *group,
                  double width,
                  CavPanelShape *shape)
{
  double best = G_MAXDOUBLE;

  for (guint columns = 1; columns <= group->count; columns++)
    for (int place = 0; place < N_WORDS; place++)
      {
        CavPanelShape attempt = *shape;

        if (!shape_wide_ladder (sheet, group, width, columns, (WordsPlace)place, &attempt)
            || attempt.body + attempt.below >= best - 1)
          continue;
        best = attempt.body + attempt.below;
        *shape = attempt;
      }
  return shape->columns > 0;
}

/* Of the words below picture and figures. */
static double
measure_below (const CavPassSheet *sheet, const CavPassGroup *group, double width)
{
  return PAD + cav_panel_measure_words (sheet, group, width - 2 * PAD);
}

/* Where figures stand below their pictures, the words of panels beside each other get the same
 * height: pictures and figures then stand on one line, as far as this one has room for it. */
static void
shape_narrow (const CavPassSheet *sheet,
              const CavPassGroup *group,
              double width,
              double height,
              double below,
              CavPanelShape *shape)
{
  CavPanelShape least;
  CavPanelShape level;

  shape->words_width = width - 2 * PAD;
  shape->below = measure_below (sheet, group, width);
  if (group->ladder != CAV_LADDER_NONE)
    {
      shape_narrow_ladder (sheet, group, width, shape);
      return;
    }
  least = level = *shape;
  shape_narrow_single (sheet, group, width, 0, &least);
  shape_narrow_single (sheet, group, width, height - shape->header - shape->below, shape);
  if (!shape->figures_below)
    return;
  level.below = fmax (level.below, fmin (below, height - level.header - least.body));
  shape_narrow_single (sheet, group, width, height - level.header - level.below, &level);
  if (level.figures_below)
    *shape = level;
}

double
cav_pass_panel_measure_below (const CavPassSheet *sheet, const CavPassGroup *group, double width)
{
  return width < WIDE ? measure_below (sheet, group, width) : 0;
}

CavPanelShape
cav_panel_shape_find (
    const CavPassSheet *sheet, const CavPassGroup *group, double width, double height, double below)
{
  gboolean is_ladder = group->ladder != CAV_LADDER_NONE;
  CavPanelShape shape = { .header = CAV_PANEL_HEADER, .below = PAD };
  CavPanelShape wide = { .header = CAV_PANEL_HEADER, .below = PAD, .wide = TRUE };

  if (width >= WIDE
      && (is_ladder ? find_wide_ladder (sheet, group, width, &wide)
                    : shape_wide_single (sheet, group, width, height, &wide)))
    shape = wide;
  else
    shape_narrow (sheet, group, width, height, below, &shape);
  shape.body = fmax (shape.body, height - shape.header - shape.below);
  if (shape.wide && is_ladder && !shape.words_beside)
    {
      /* Nothing but the figures stands beside the picture, which grows with the body. */
      shape.picture_width = fmin (get_picture_width (sheet, group, shape.body),
                                  width - 3 * PAD - shape.figures_width);
      shape.zone_width = fmax (shape.zone_width, shape.picture_width);
    }
  return shape;
}

double
cav_pass_panel_measure (const CavPassSheet *sheet, const CavPassGroup *group, double width)
{
  CavPanelShape shape = cav_panel_shape_find (sheet, group, width, 0, 0);

  return shape.header + shape.body + shape.below;
}
