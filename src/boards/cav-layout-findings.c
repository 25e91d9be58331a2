/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "boards/cav-layout-private.h"

#include "geometry/cav-number-text.h"
#include "shop/cav-wood.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

/* More rows than this with the same trouble are counted, not listed. */
#define ROWS_LISTED 5

static char *
dup_row_name (const CavBoard *board, guint row)
{
  return board->name[0] != '\0' ? g_strdup_printf (_ ("Board “%s”"), board->name)
                                : g_strdup_printf (_ ("Board %u"), row + 1);
}

/* Speaks of a row of boards, or of a job. */
static void
add_finding_of (CavBoardLayout *layout, CavFinding *finding, int item)
{
  finding->item = item;
  cav_layout_add_finding (layout, finding);
}

/* Of several jobs it is said which one is meant. */
static void
add_finding_of_job (CavBoardLayout *layout, CavFinding *finding, guint index)
{
  const CavBoardJob *job = g_ptr_array_index (layout->jobs, index);

  if (layout->jobs->len > 1 && job->name[0] != '\0')
    {
      g_autofree char *message = finding->message;

      /* Translators: the name of a project, and what is to say of it. */
      finding->message = g_strdup_printf (_ ("%s: %s"), job->name, message);
    }
  add_finding_of (layout, finding, (int)index);
}

static void
check_jobs (CavBoardLayout *layout)
{
  for (guint i = 0; i < layout->jobs->len; i++)
    {
      const CavBoardJob *job = g_ptr_array_index (layout->jobs, i);
      g_autofree char *reason = cav_board_job_explain (job);

      if (reason == NULL)
        continue;
      add_finding_of (layout,
                      job->name[0] != '\0'
                          ? cav_finding_new (
                              CAV_FINDING_WRONG, "lumber-job",
                              /* Translators: the name of a project, and what is wrong with it. */
                              _ ("%s: %s"), job->name, reason)
                          : cav_finding_new (CAV_FINDING_WRONG, "lumber-job", "%s", reason),
                      (int)i);
    }
}

/* Whether a board is good for none of the families. What it lacks is told of the first of them. */
static gboolean
is_unfit (const CavLumber *lumber,
          const CavBoard *board,
          const CavDemand *demand,
          CavUnfit *out_unfit)
{
  for (guint f = 0; f < demand->families->len; f++)
    {
      const CavStripFamily *family = &g_array_index (demand->families, CavStripFamily, f);
      CavUnfit unfit = cav_sawing_judge (lumber, board, family);

      if (unfit == CAV_UNFIT_NOT)
        return FALSE;
      if (f == 0)
        *out_unfit = unfit;
    }
  return demand->families->len > 0;
}

/* A sentence about the board of that name. */
static char *
explain_unfit (const char *name,
               const CavLumber *lumber,
               const CavBoard *board,
               const CavStripFamily *family,
               CavUnfit unfit)
{
  switch (unfit)
    {
    case CAV_UNFIT_NOT:
      return NULL;
    case CAV_UNFIT_WOOD:
      return g_strdup_printf (_ ("%s is of another wood than the molding."), name);
    case CAV_UNFIT_THIN:
      return g_strdup_printf (
          _ ("%s is too thin: planed it has %s mm, and the blank needs %s mm. Glue strips up, or "
             "take thicker boards."),
          name, CAV_NUMBER_TEXT ("%.4g", MAX (cav_sawing_get_net_thickness (lumber, board), 0.0)),
          CAV_NUMBER_TEXT ("%.4g", family->thickness));
    case CAV_UNFIT_NARROW:
      return g_strdup_printf (
          _ ("%s is too narrow for one strip of %s mm beside its jointed edge."), name,
          CAV_NUMBER_TEXT ("%.4g", family->width));
    case CAV_UNFIT_LAYERS:
      return g_strdup_printf (
          _ ("%s is too thin to be resawn into two layers of %s mm and opened like a book."), name,
          CAV_NUMBER_TEXT ("%.4g", family->thickness));
    case CAV_UNFIT_DEFECTS:
      return g_strdup_printf (_ ("%s has no clear stretch of %s mm between trimmed ends and "
                                 "defects; shorter pieces are not milled."),
                              name, CAV_NUMBER_TEXT ("%.4g", MAX (lumber->shortest, 1.0)));
    }
  return NULL;
}

static void
check_boards (CavBoardLayout *layout, const CavLumber *lumber, const CavDemand *demand)
{
  guint unlisted = 0;
  guint listed = 0;

  for (guint i = 0; i < lumber->boards->len; i++)
    {
      const CavBoard *board = g_ptr_array_index (lumber->boards, i);
      g_autofree char *name = dup_row_name (board, i);
      g_autofree char *wrong = cav_board_explain (board);
      g_autofree char *reason = NULL;

      CavUnfit unfit = CAV_UNFIT_NOT;

      if (wrong == NULL && is_unfit (lumber, board, demand, &unfit))
        reason = explain_unfit (name, lumber, board,
                                &g_array_index (demand->families, CavStripFamily, 0), unfit);
      if (wrong == NULL && reason == NULL)
        continue;
      if (++listed > ROWS_LISTED)
        {
          unlisted++;
          continue;
        }
      if (wrong != NULL)
        add_finding_of (layout,
                        cav_finding_new (CAV_FINDING_WRONG, "lumber-board",
                                         _ ("%s cannot be used: %s"), name, wrong),
                        (int)i);
      else
        add_finding_of (
            layout, cav_finding_new (CAV_FINDING_NOTE, "lumber-board-unfit", "%s", reason), (int)i);
    }
  if (unlisted > 0)
    cav_layout_add_finding (
        layout,
        cav_finding_new (CAV_FINDING_NOTE, "lumber-boards-unfit",
                         g_dngettext (GETTEXT_PACKAGE, "%u more board in the list cannot be used.",
                                      "%u more boards in the list cannot be used.", unlisted),
                         unlisted));
}

static const char *
get_order_words (CavGrainOrder order)
{
  switch (order)
    {
    case CAV_GRAIN_FREE:
      return C_ ("order of the rails", "with the rails in no order");
    case CAV_GRAIN_PAIRS:
      return C_ ("order of the rails", "with opposite rails side by side");
    case CAV_GRAIN_RUNNING:
      return C_ ("order of the rails", "with the grain running on around three corners");
    case CAV_GRAIN_BOOK:
      return C_ ("order of the rails", "with all corners matched from a resawn strip");
    }
  return "";
}

static char *
list_missing (const CavBoardLayout *layout)
{
  guint rails = 0;
  guint others;
  double length = 0.0;

  for (guint i = 0; i < layout->missing->len; i++)
    {
      const CavPlacedPiece *piece = &g_array_index (layout->missing, CavPlacedPiece, i);

      rails += piece->kind == CAV_PIECE_RAIL;
      length += piece->length;
    }
  others = layout->missing->len - rails;

  g_autofree char *rail_words
      = g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%u rail", "%u rails", rails), rails);
  g_autofree char *other_words = g_strdup_printf (
      g_dngettext (GETTEXT_PACKAGE, "%u test or spare length", "%u test or spare lengths", others),
      others);
  const char *metres = CAV_NUMBER_TEXT ("%.2f", length / 1000.0);

  if (rails > 0 && others > 0)
    /* Translators: “3 rails” and “2 test or spare lengths”, and their length together. */
    return g_strdup_printf (_ ("%s and %s, %s m of strip together"), rail_words, other_words,
                            metres);
  return g_strdup_printf (_ ("%s, %s m of strip together"), rails > 0 ? rail_words : other_words,
                          metres);
}

static double
get_longest_missing (const CavBoardLayout *layout, const CavDemand *demand)
{
  double longest = 0.0;

  for (guint i = 0; i < layout->missing->len; i++)
    {
      const int stick = g_array_index (layout->missing, CavPlacedPiece, i).stick;

      longest
          = MAX (longest, ((const CavStick *)g_ptr_array_index (demand->sticks, stick))->length);
    }
  return longest;
}

static double
get_longest_board (const CavLumber *lumber)
{
  double longest = 0.0;

  for (guint i = 0; i < lumber->boards->len; i++)
    {
      const CavBoard *board = g_ptr_array_index (lumber->boards, i);
      g_autofree char *reason = cav_board_explain (board);

      if (reason == NULL)
        longest = MAX (longest, board->length - 2.0 * board->end_trim);
    }
  return longest;
}

static void
explain_missing (CavBoardLayout *layout, const CavLumber *lumber, const CavDemand *demand)
{
  g_autofree char *list = list_missing (layout);
  const double longest = get_longest_missing (layout, demand);

  cav_layout_add_finding (layout,
                          cav_finding_new (CAV_FINDING_WRONG, "lumber-missing",
                                           layout->missing_proved
                                               ? _ ("The boards are not enough: %s do not fit.")
                                               : _ ("No place was found on these boards for %s."),
                                           list));
  if (lumber->boards->len > 0 && longest > get_longest_board (lumber))
    cav_layout_add_finding (
        layout,
        cav_finding_new (CAV_FINDING_WRONG, "lumber-too-short",
                         _ ("The longest piece takes %s mm of strip in one length, and the longest "
                            "board gives %s mm between its trimmed ends."),
                         CAV_NUMBER_TEXT ("%.0f", ceil (longest)),
                         CAV_NUMBER_TEXT ("%.0f", MAX (floor (get_longest_board (lumber)), 0.0))));
}

/* A list that nobody has begun is not a wrong one: it says what it is to hold. */
static void
ask_for_boards (CavBoardLayout *layout)
{
  g_autofree char *list = layout->missing->len > 0 ? list_missing (layout) : NULL;

  if (list != NULL)
    cav_layout_add_finding (
        layout, cav_finding_new (CAV_FINDING_NOTE, "lumber-no-boards",
                                 /* Translators: “3 rails, 1.20 m of strip together”. */
                                 _ ("There are no boards yet: add those that you have at hand. "
                                    "They are to give %s."),
                                 list));
  else
    cav_layout_add_finding (layout,
                            cav_finding_new (CAV_FINDING_NOTE, "lumber-no-boards",
                                             _ ("There are no boards yet: add those that you "
                                                "have at hand.")));
}

static void
suggest_purchase (CavBoardLayout *layout, const CavLumber *lumber)
{
  g_autoptr (GString) list = g_string_new (NULL);

  if (layout->purchases->len == 0)
    {
      if (lumber->stock->len > 0)
        cav_layout_add_finding (
            layout, cav_finding_new (CAV_FINDING_NOTE, "lumber-buy-nothing",
                                     _ ("Nothing on the list of what can be bought would "
                                        "hold what is missing.")));
      return;
    }
  for (guint i = 0; i < layout->purchases->len; i++)
    {
      const CavPurchase *purchase = &g_array_index (layout->purchases, CavPurchase, i);
      const CavBoard *board = g_ptr_array_index (lumber->stock, purchase->row);

      if (i > 0)
        g_string_append (list, ", ");
      g_string_append_printf (list, _ ("%d × %s × %s × %s mm"), purchase->count,
                              CAV_NUMBER_TEXT ("%.5g", board->length),
                              CAV_NUMBER_TEXT ("%.5g", board->width),
                              CAV_NUMBER_TEXT ("%.5g", board->thickness));
    }
  if (layout->has_purchase_cost)
    cav_layout_add_finding (
        layout,
        cav_finding_new (
            CAV_FINDING_NOTE, "lumber-buy",
            /* Translators: a list of boards and what they cost. */
            _ ("What is missing would come out of: %s for %s. It is the cheapest that was found."),
            list->str, CAV_NUMBER_TEXT ("%.2f", layout->purchase_cost)));
  else
    cav_layout_add_finding (
        layout, cav_finding_new (
                    CAV_FINDING_NOTE, "lumber-buy",
                    _ ("What is missing would come out of: %s. It is the cheapest that was found."),
                    list->str));
}

static void
suggest_changes (CavBoardLayout *layout)
{
  if (layout->has_easier)
    cav_layout_add_finding (
        layout,
        cav_finding_new (
            CAV_FINDING_NOTE, "lumber-order",
            /* Translators: with the rails in no order, with opposite rails side by side ... */
            _ ("Everything would fit %s."), get_order_words (layout->easier)));
  if (layout->narrower > 0.0)
    cav_layout_add_finding (
        layout,
        cav_finding_new (CAV_FINDING_NOTE, "lumber-narrower",
                         _ ("Everything would fit if the blank were %s mm wide or less, the "
                            "rails as long as they are."),
                         CAV_NUMBER_TEXT ("%.5g", layout->narrower)));
}

/* Which corners of a frame do not match, in words for the order that was laid. */
static void
name_corners (CavBoardLayout *layout)
{
  for (guint i = 0; i < layout->jobs->len; i++)
    {
      const CavBoardJob *job = g_ptr_array_index (layout->jobs, i);
      g_autofree char *wrong = cav_board_job_explain (job);
      g_autofree char *corner = NULL;

      if (wrong != NULL)
        continue;
      if (cav_stick_get_order (job) != job->order)
        add_finding_of_job (
            layout,
            cav_finding_new (
                CAV_FINDING_CAUTION, "lumber-odd-rails",
                g_dngettext (GETTEXT_PACKAGE,
                             "A frame of %d rail has no opposite ones: it was laid %s.",
                             "A frame of %d rails has no opposite ones: it was laid %s.",
                             (gulong)job->n_rails),
                job->n_rails, get_order_words (cav_stick_get_order (job))),
            i);
      if (cav_stick_get_order (job) != CAV_GRAIN_RUNNING)
        continue;
      corner = cav_board_job_dup_corner_name (job, cav_stick_get_start (job));
      add_finding_of_job (
          layout,
          cav_finding_new (
              CAV_FINDING_NOTE, "lumber-corner",
              job->n_rails == 4
                  ? _ ("The grain runs on around every corner but one: %s as the frame hangs.")
                  : _ ("The grain runs on around every corner but one: %s."),
              corner),
          i);
    }
}

/* A wood that none of the boards is of. */
static void
check_woods (CavBoardLayout *layout, const CavLumber *lumber)
{
  for (guint i = 0; i < layout->jobs->len && lumber->boards->len > 0; i++)
    {
      const CavBoardJob *job = g_ptr_array_index (layout->jobs, i);
      const CavWood *wood = cav_wood_find (job->wood);
      gboolean found = job->wood[0] == '\0';

      for (guint b = 0; b < lumber->boards->len && !found; b++)
        {
          const char *other = ((const CavBoard *)g_ptr_array_index (lumber->boards, b))->wood;

          found = other[0] == '\0' || strcmp (other, job->wood) == 0;
        }
      if (!found)
        add_finding_of_job (layout,
                            cav_finding_new (CAV_FINDING_WRONG, "lumber-wood",
                                             _ ("No board at hand is of the molding's wood, %s."),
                                             wood != NULL ? cav_wood_get_name (wood) : job->wood),
                            i);
    }
}

static gboolean
has_layers (const CavBoardLayout *layout)
{
  for (guint b = 0; b < layout->boards->len; b++)
    {
      const CavLaidBoard *board = g_ptr_array_index (layout->boards, b);

      for (guint s = 0; s < board->strips->len; s++)
        {
          const CavLaidStrip *strip = g_ptr_array_index (board->strips, s);

          if (strip->used && strip->lanes->len > 1)
            return TRUE;
        }
    }
  return FALSE;
}

/* Rails that would be too short to be milled one by one. */
static void
check_short (CavBoardLayout *layout, const CavLumber *lumber)
{
  for (guint i = 0; i < layout->jobs->len; i++)
    {
      const CavBoardJob *job = g_ptr_array_index (layout->jobs, i);
      double shortest = G_MAXDOUBLE;

      for (int r = 0; r < job->n_rails && r < CAV_JOB_MAX_RAILS; r++)
        shortest = MIN (shortest, job->long_points[r]);
      if (!(shortest > 0.0) || shortest >= lumber->shortest)
        continue;
      cav_layout_add_finding (
          layout, cav_finding_new (
                      CAV_FINDING_CAUTION, "lumber-short-rails",
                      _ ("Rails of %s mm are too short to be milled one by one: mill them in one "
                         "length and cut it apart afterwards."),
                      CAV_NUMBER_TEXT ("%.4g", shortest)));
    }
}

static void
tell_proof (CavBoardLayout *layout)
{
  const int boards = (int)layout->boards->len;

  if (layout->missing->len > 0 || boards == 0)
    return;
  if (!layout->boards_proved)
    cav_layout_add_finding (
        layout,
        cav_finding_new (
            CAV_FINDING_NOTE, "lumber-gap",
            g_dngettext (
                GETTEXT_PACKAGE,
                "%d board was found to be enough; that fewer than %d would not do is proved.",
                "%d boards were found to be enough; that fewer than %d would not do is proved.",
                (gulong)boards),
            boards, layout->least_boards));
}

/* The row of the first board that nobody said a price for; -1 where there is none. */
static int
find_unpriced (const CavBoardLayout *layout)
{
  for (guint b = 0; b < layout->boards->len; b++)
    {
      const CavLaidBoard *board = g_ptr_array_index (layout->boards, b);

      if (!board->has_cost)
        return board->row;
    }
  return -1;
}

static gboolean
has_prices (const CavLumber *lumber)
{
  for (guint i = 0; i < lumber->boards->len; i++)
    if (((const CavBoard *)g_ptr_array_index (lumber->boards, i))->basis != CAV_PRICE_UNKNOWN)
      return TRUE;
  return FALSE;
}

void
cav_layout_find_wrong (CavBoardLayout *layout,
                       const CavLayoutRequest *request,
                       const CavDemand *demand)
{
  const CavLumber *lumber = request->lumber;

  check_jobs (layout);
  if (lumber->boards->len == 0)
    ask_for_boards (layout);
  check_boards (layout, lumber, demand);
  check_woods (layout, lumber);
  if (layout->missing->len > 0)
    {
      if (lumber->boards->len > 0)
        explain_missing (layout, lumber, demand);
      suggest_purchase (layout, lumber);
      suggest_changes (layout);
    }
  tell_proof (layout);
  if (lumber->boards->len > 0)
    name_corners (layout);
  check_short (layout, lumber);
  if (has_layers (layout))
    cav_layout_add_finding (
        layout,
        cav_finding_new (CAV_FINDING_CAUTION, "lumber-resaw",
                         _ ("Strips are resawn: a band saw does it best. On the table saw "
                            "follow its manual, with push block and featherboard, and leave it "
                            "where the blade does not reach through.")));
  /* Where no board has a price, no cost is shown. */
  if (layout->totals.without_price > 0 && has_prices (lumber))
    add_finding_of (layout,
                    cav_finding_new (CAV_FINDING_NOTE, "lumber-price",
                                     _ ("Boards without a price: %d; the cost shown is not "
                                        "the whole cost."),
                                     layout->totals.without_price),
                    find_unpriced (layout));
}
