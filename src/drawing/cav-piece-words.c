/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/cav-piece-words.h"

#include <glib/gi18n-lib.h>

#include "drawing/cav-sheets.h"
#include "drawing/cav-words-private.h"

GArray *
cav_words_list_pieces (CavProject *project, const CavPlan *plan, const CavSheetOptions *options)
{
  g_autoptr (CavBoardLayout) layout = NULL;

  g_return_val_if_fail (CAV_IS_PROJECT (project) && options != NULL, NULL);

  layout = cav_sheets_lay_out_boards (project, plan, options);
  return cav_project_list_milled_pieces (project, layout);
}

int
cav_words_count_pieces (const GArray *pieces)
{
  int count = 0;

  for (guint i = 0; i < pieces->len; i++)
    count += g_array_index (pieces, CavMilledPiece, i).count;
  return count;
}

static gboolean
has_rails (const GArray *pieces, gboolean several)
{
  for (guint i = 0; i < pieces->len; i++)
    if ((g_array_index (pieces, CavMilledPiece, i).rails > 1) == several)
      return TRUE;
  return FALSE;
}

gboolean
cav_words_has_several (const GArray *pieces)
{
  return has_rails (pieces, TRUE);
}

/* (transfer full) */
static char *
describe_piece (const CavMilledPiece *piece, const CavSheetOptions *options)
{
  g_autofree char *length = cav_words_format_up (piece->length, options);
  g_autofree char *words = g_strdup_printf (
      g_dngettext (GETTEXT_PACKAGE, "%d piece of %s", "%d pieces of %s", (gulong)piece->count),
      piece->count, length);

  if (piece->rails == 1)
    return g_steal_pointer (&words);
  if (piece->count == 1)
    /* Translators: “1 piece of 2400 mm”, and how many rails come out of it. */
    return g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%s with %d rail in it",
                                         "%s with %d rails in it", (gulong)piece->rails),
                            words, piece->rails);
  /* Translators: “2 pieces of 800 mm”, and how many rails come out of each. */
  return g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%s with %d rail in each",
                                       "%s with %d rails in each", (gulong)piece->rails),
                          words, piece->rails);
}

static void
append_spare (GString *text, const CavLumber *lumber, const CavSheetOptions *options)
{
  g_autofree char *trial = cav_words_format_up (lumber->test, options);
  g_autofree char *spare = cav_words_format_up (lumber->spare, options);

  if (lumber->test > 0)
    g_string_append_printf (text, _ ("; 1 spare piece of %s for trial cuts"), trial);
  else
    g_string_append (text, _ ("; a spare piece for trial cuts"));
  if (lumber->spare > 0)
    g_string_append_printf (text, _ ("; 1 piece of %s as spare molding"), spare);
}

char *
cav_words_describe_pieces (const GArray *pieces,
                           CavProject *project,
                           const CavSheetOptions *options)
{
  GString *text = g_string_new (NULL);

  g_return_val_if_fail (CAV_IS_PROJECT (project), g_string_free (text, FALSE));

  for (guint i = 0; i < pieces->len; i++)
    {
      g_autofree char *piece = describe_piece (&g_array_index (pieces, CavMilledPiece, i), options);

      g_string_append_printf (text, "%s%s", i > 0 ? ", " : "", piece);
    }
  append_spare (text, cav_project_get_lumber (project), options);
  return g_string_free (text, FALSE);
}

const char *
cav_words_get_parting (const GArray *pieces)
{
  if (!has_rails (pieces, TRUE))
    return _ ("Each is one rail: cut it off square before milling, mitre it after the last pass.");
  if (!has_rails (pieces, FALSE))
    return _ ("Rails stay in one length until the last pass is done; the mitres cut them apart.");
  return _ (
      "A piece with several rails stays in one length until the last pass is done; the mitres "
      "cut them apart. Each other piece is one rail: cut it off square before milling, mitre "
      "it after the last pass.");
}

char *
cav_words_describe_parting (const CavMilledPiece *piece)
{
  if (piece->rails == 1)
    return g_strdup (_ ("one rail, cut off square before milling, mitred after the last pass"));
  return g_strdup_printf (
      g_dngettext (GETTEXT_PACKAGE, "%d rail, cut apart by the mitres after the last pass",
                   "%d rails, cut apart by the mitres after the last pass", (gulong)piece->rails),
      piece->rails);
}
