/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "profile/cav-cut.h"

#include <glib/gi18n-lib.h>
#include <string.h>

/* What every kind of cut is made from. Ranges are wide on purpose: whether a cut fits its blank is
 * the profile's to find. */

#define LENGTH(number, name, label, minimum, usual)                                                \
  {                                                                                                \
    number, name, label, TRUE, minimum, CAV_BLANK_MAX, usual, FALSE                                \
  }
#define OPTIONAL_LENGTH(number, name, label, minimum, usual)                                       \
  {                                                                                                \
    number, name, label, TRUE, minimum, CAV_BLANK_MAX, usual, TRUE                                 \
  }
#define WIDTH(usual) LENGTH (CAV_CUT_WIDTH, "width", NC_ ("number of a cut", "Width"), 0.1, usual)
#define DEPTH(usual) LENGTH (CAV_CUT_DEPTH, "depth", NC_ ("number of a cut", "Depth"), 0.1, usual)
#define SHIFTS                                                                                     \
  OPTIONAL_LENGTH (CAV_CUT_SHIFT_X, "shift-x", NC_ ("number of a cut", "Shift along x"),           \
                   -CAV_BLANK_MAX, 0.0),                                                           \
      OPTIONAL_LENGTH (CAV_CUT_SHIFT_Y, "shift-y", NC_ ("number of a cut", "Shift along y"),       \
                       -CAV_BLANK_MAX, 0.0)
#define CORNER_ONLY (1u << CAV_ANCHOR_CORNER)
#define SIDE_ONLY (1u << CAV_ANCHOR_SIDE)
#define FREE_ONLY (1u << CAV_ANCHOR_FREE)

static const CavCutNumberInfo rabbet_numbers[] = { WIDTH (6.0), DEPTH (10.0), SHIFTS };
static const CavCutNumberInfo steps_numbers[] = {
  { CAV_CUT_COUNT, "count", NC_ ("number of a cut", "Steps"), FALSE, 1.0, 20.0, 3.0, FALSE },
  LENGTH (CAV_CUT_RUN, "run", NC_ ("number of a cut", "Run of each"), 0.1, 5.0),
  LENGTH (CAV_CUT_RISE, "rise", NC_ ("number of a cut", "Rise of each"), 0.1, 3.0),
  SHIFTS,
};
static const CavCutNumberInfo groove_numbers[] = {
  LENGTH (CAV_CUT_POSITION, "position", NC_ ("number of a cut", "Position"), 0.0, 25.0),
  WIDTH (6.0),
  DEPTH (3.0),
  SHIFTS,
};
static const CavCutNumberInfo cove_numbers[] = {
  OPTIONAL_LENGTH (CAV_CUT_POSITION, "position", NC_ ("number of a cut", "Position"), 0.0, 25.0),
  WIDTH (9.5),
  DEPTH (9.5),
  SHIFTS,
};
static const CavCutNumberInfo round_numbers[] = { WIDTH (6.35), DEPTH (6.35), SHIFTS };
static const CavCutNumberInfo chamfer_numbers[] = { WIDTH (3.0), DEPTH (3.0), SHIFTS };
static const CavCutNumberInfo bevel_numbers[] = {
  LENGTH (CAV_CUT_START_HEIGHT,
          "start-height",
          NC_ ("number of a cut", "Height at the start"),
          0.0,
          6.0),
  LENGTH (CAV_CUT_END_HEIGHT, "end-height", NC_ ("number of a cut", "Height at the end"), 0.0, 0.0),
};
static const CavCutNumberInfo bead_numbers[] = {
  OPTIONAL_LENGTH (CAV_CUT_POSITION, "position", NC_ ("number of a cut", "Position"), 0.0, 25.0),
  WIDTH (6.4),
  OPTIONAL_LENGTH (
      CAV_CUT_QUIRK_WIDTH, "quirk-width", NC_ ("number of a cut", "Width of the quirk"), 0.0, 1.6),
  OPTIONAL_LENGTH (
      CAV_CUT_QUIRK_DEPTH, "quirk-depth", NC_ ("number of a cut", "Depth of the quirk"), 0.0, 0.0),
  SHIFTS,
};
static const CavCutNumberInfo ogee_numbers[] = {
  WIDTH (12.0),
  DEPTH (12.0),
  { CAV_CUT_SHARE, "share", NC_ ("number of a cut", "Share of the first arc"), FALSE, 0.1, 0.9, 0.5,
    TRUE },
  SHIFTS,
};

static const CavCutForm plain_forms[] = { CAV_FORM_PLAIN };
static const CavCutForm groove_forms[] = { CAV_FORM_FLAT, CAV_FORM_ROUND };
static const CavCutForm bead_forms[] = { CAV_FORM_FLUSH, CAV_FORM_PROUD };
static const CavCutForm ogee_forms[] = { CAV_FORM_RECTA, CAV_FORM_REVERSA };

#define KIND(kind, name, label, anchors, forms, numbers)                                           \
  [kind] = {                                                                                       \
    kind, name, label, anchors, forms, G_N_ELEMENTS (forms), numbers, G_N_ELEMENTS (numbers)       \
  }

static const CavCutInfo kinds[CAV_N_CUT_KINDS] = {
  KIND (CAV_CUT_RABBET,
        NC_ ("cut in a sentence", "rabbet"),
        NC_ ("cut", "Rabbet"),
        CORNER_ONLY,
        plain_forms,
        rabbet_numbers),
  KIND (CAV_CUT_STEPS,
        NC_ ("cut in a sentence", "steps"),
        NC_ ("cut", "Steps"),
        CORNER_ONLY,
        plain_forms,
        steps_numbers),
  KIND (CAV_CUT_GROOVE,
        NC_ ("cut in a sentence", "groove"),
        NC_ ("cut", "Groove"),
        SIDE_ONLY,
        groove_forms,
        groove_numbers),
  KIND (CAV_CUT_COVE,
        NC_ ("cut in a sentence", "cove"),
        NC_ ("cut", "Cove"),
        CORNER_ONLY | SIDE_ONLY,
        plain_forms,
        cove_numbers),
  KIND (CAV_CUT_ROUND,
        NC_ ("cut in a sentence", "round"),
        NC_ ("cut", "Round"),
        CORNER_ONLY,
        plain_forms,
        round_numbers),
  KIND (CAV_CUT_CHAMFER,
        NC_ ("cut in a sentence", "chamfer"),
        NC_ ("cut", "Chamfer"),
        CORNER_ONLY,
        plain_forms,
        chamfer_numbers),
  KIND (CAV_CUT_BEVEL,
        NC_ ("cut in a sentence", "bevel"),
        NC_ ("cut", "Bevel"),
        SIDE_ONLY,
        plain_forms,
        bevel_numbers),
  KIND (CAV_CUT_BEAD,
        NC_ ("cut in a sentence", "bead"),
        NC_ ("cut", "Bead"),
        CORNER_ONLY | SIDE_ONLY,
        bead_forms,
        bead_numbers),
  KIND (CAV_CUT_OGEE,
        NC_ ("cut in a sentence", "ogee"),
        NC_ ("cut", "Ogee"),
        CORNER_ONLY,
        ogee_forms,
        ogee_numbers),
  [CAV_CUT_DRAWN]
  = { CAV_CUT_DRAWN, "drawn", NC_ ("cut", "Drawn"), FREE_ONLY, plain_forms, 1, NULL, 0 },
};

static const char *const form_names[CAV_N_CUT_FORMS]
    = { "plain", "flat", "round", "flush", "proud", "recta", "reversa" };

const CavCutInfo *
cav_cut_kind_get_info (CavCutKind kind)
{
  g_return_val_if_fail ((guint)kind < CAV_N_CUT_KINDS, NULL);
  return &kinds[kind];
}

const char *
cav_cut_kind_get_word (CavCutKind kind)
{
  g_return_val_if_fail ((guint)kind < CAV_N_CUT_KINDS, NULL);
  if (kind == CAV_CUT_DRAWN)
    return C_ ("cut in a sentence", "drawn shape");
  return g_dpgettext2 (GETTEXT_PACKAGE, "cut in a sentence", kinds[kind].name);
}

gboolean
cav_cut_kind_from_string (const char *string, CavCutKind *out_kind)
{
  g_return_val_if_fail (out_kind != NULL, FALSE);

  for (int i = 0; string != NULL && i < CAV_N_CUT_KINDS; i++)
    if (strcmp (string, kinds[i].name) == 0)
      {
        *out_kind = (CavCutKind)i;
        return TRUE;
      }
  return FALSE;
}

const char *
cav_cut_form_to_string (CavCutForm form)
{
  g_return_val_if_fail ((guint)form < CAV_N_CUT_FORMS, NULL);
  return form_names[form];
}

gboolean
cav_cut_form_from_string (const char *string, CavCutForm *out_form)
{
  g_return_val_if_fail (out_form != NULL, FALSE);

  for (int i = 0; string != NULL && i < CAV_N_CUT_FORMS; i++)
    if (strcmp (string, form_names[i]) == 0)
      {
        *out_form = (CavCutForm)i;
        return TRUE;
      }
  return FALSE;
}
