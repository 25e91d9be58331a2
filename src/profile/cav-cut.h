/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "profile/cav-blank.h"

G_BEGIN_DECLS

typedef enum
{
  CAV_CUT_RABBET,
  CAV_CUT_STEPS,
  CAV_CUT_GROOVE,
  CAV_CUT_COVE,
  CAV_CUT_ROUND,
  CAV_CUT_CHAMFER,
  CAV_CUT_BEVEL,
  CAV_CUT_BEAD,
  CAV_CUT_OGEE,
  CAV_CUT_DRAWN,
} CavCutKind;
#define CAV_N_CUT_KINDS 10

/* The numbers that cuts are made from; which of them a kind has stands in its description, what
 * they mean there in cav-cut-region.c. */
typedef enum
{
  CAV_CUT_WIDTH,        /* along x at a corner, along the side on a side */
  CAV_CUT_DEPTH,        /* into the wood */
  CAV_CUT_POSITION,     /* of the middle along a side, from its low end (x = 0 or y = 0) */
  CAV_CUT_COUNT,        /* number of steps */
  CAV_CUT_RUN,          /* of each step, along x */
  CAV_CUT_RISE,         /* of each step, along y */
  CAV_CUT_START_HEIGHT, /* of a bevel, taken off at the side's low end */
  CAV_CUT_END_HEIGHT,   /* of a bevel, taken off at the side's high end */
  CAV_CUT_QUIRK_WIDTH,
  CAV_CUT_QUIRK_DEPTH, /* from the bead's top; 0: down to its middle */
  CAV_CUT_SHARE,       /* 0.1 to 0.9: the first arc's part of an ogee */
  CAV_CUT_SHIFT_X, /* of the whole cut, into the blank from the anchor, along x; along a side from
                      its low end */
  CAV_CUT_SHIFT_Y, /* the same along y */
} CavCutNumber;
#define CAV_N_CUT_NUMBERS 13

typedef enum
{
  CAV_ANCHOR_CORNER,
  CAV_ANCHOR_SIDE,
  CAV_ANCHOR_FREE, /* a drawn cut stands in the blank's own coordinates */
} CavAnchorKind;

typedef enum
{
  CAV_FORM_PLAIN,
  CAV_FORM_FLAT,    /* groove: flat bottom */
  CAV_FORM_ROUND,   /* groove: round bottom (half circle of the width) */
  CAV_FORM_FLUSH,   /* bead level with the side */
  CAV_FORM_PROUD,   /* bead standing free: the side beside it is lowered to the bead's middle */
  CAV_FORM_RECTA,   /* ogee hollow at its end on the back or face, then round */
  CAV_FORM_REVERSA, /* ogee round at its end on the back or face, then hollow */
} CavCutForm;
#define CAV_N_CUT_FORMS 7

typedef struct
{
  CavCutKind kind;
  CavAnchorKind anchor;
  CavCorner corner; /* where anchor is a corner */
  CavSide side;     /* where anchor is a side */
  CavCutForm form;
  double numbers[CAV_N_CUT_NUMBERS]; /* those a kind does not have are 0 */
  CavPath *path;                     /* closed; drawn cuts only */
} CavCut;

/* One number of a kind of cut. */
typedef struct
{
  CavCutNumber number;
  const char *name;   /* in files, e.g. "width" */
  const char *label;  /* for people, untranslated */
  gboolean is_length; /* else a plain number */
  double minimum;
  double maximum;
  double usual;      /* value of a fresh cut; also what a file means that leaves it out where
                        optional */
  gboolean optional; /* may be left out of a file */
} CavCutNumberInfo;

/* What a kind of cut is made from. */
typedef struct
{
  CavCutKind kind;
  const char *name;  /* in files, e.g. "rabbet" */
  const char *label; /* for people, untranslated */
  guint anchors;     /* bits 1 << CavAnchorKind */
  const CavCutForm *forms;
  guint n_forms; /* the first is the usual one */
  const CavCutNumberInfo *numbers;
  guint n_numbers;
} CavCutInfo;

const CavCutInfo *cav_cut_kind_get_info (CavCutKind kind);
/* For people, as it stands within a sentence, in their language: "rabbet", "drawn shape". */
const char *cav_cut_kind_get_word (CavCutKind kind);
gboolean cav_cut_kind_from_string (const char *string, CavCutKind *out_kind);
const char *cav_cut_form_to_string (CavCutForm form);
gboolean cav_cut_form_from_string (const char *string, CavCutForm *out_form);

/* A cut with usual numbers at the first anchor that its kind knows. */
CavCut *cav_cut_new (CavCutKind kind) G_GNUC_WARN_UNUSED_RESULT;
CavCut *cav_cut_new_at_corner (CavCutKind kind, CavCorner corner) G_GNUC_WARN_UNUSED_RESULT;
CavCut *cav_cut_new_on_side (CavCutKind kind, CavSide side) G_GNUC_WARN_UNUSED_RESULT;
/* (transfer none) path is copied. */
CavCut *cav_cut_new_drawn (const CavPath *path) G_GNUC_WARN_UNUSED_RESULT;
CavCut *cav_cut_copy (const CavCut *cut) G_GNUC_WARN_UNUSED_RESULT;
void cav_cut_free (CavCut *cut);
gboolean cav_cut_equal (const CavCut *a, const CavCut *b);

/* The frame that a cut's shape is drawn in, as it lies in the blank, shifts included: at a corner
 * the corner is (0, 0) and x and y run into the wood; on a side x runs along it from its low end
 * and y into the wood; a drawn cut has the blank's own. */
CavTransform cav_cut_get_frame (const CavCut *cut, const CavBlank *blank);
/* How far the back, the face or the cut's side reaches along x of that frame, mm. */
double cav_cut_get_run (const CavCut *cut, const CavBlank *blank);

/* What the cut takes away, before it is clipped to the blank: exact lines and arcs. Errors
 * (CAV_PROFILE_ERROR) name the number at fault in a sentence. */
CavRegion *cav_cut_create_region (const CavCut *cut,
                                  const CavBlank *blank,
                                  GError **error) G_GNUC_WARN_UNUSED_RESULT;

typedef enum
{
  CAV_PROFILE_ERROR_RANGE = 1,
  CAV_PROFILE_ERROR_ANCHOR,
  CAV_PROFILE_ERROR_PATH,
} CavProfileError;
#define CAV_PROFILE_ERROR (cav_profile_error_quark ())
GQuark cav_profile_error_quark (void);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CavCut, cav_cut_free)

G_END_DECLS
