/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "boards/cav-lumber.h"

G_BEGIN_DECLS

/* Which two pieces of molding lie beside each other as one. */
typedef enum
{
  CAV_ABREAST_NONE,   /* each alone */
  CAV_ABREAST_STRIPS, /* in neighbouring strips */
  CAV_ABREAST_LAYERS, /* in two layers of a resawn strip */
} CavAbreast;

/* Jobs whose blanks come from the same strips. */
typedef struct
{
  double width;     /* of a strip as it is ripped */
  double thickness; /* of the blank */
  const char *wood; /* borrowed from a job; empty: any */
  CavAbreast abreast;
  double least_kerf; /* along a strip, of the jobs' pieces */
} CavStripFamily;

/* One strip as it comes off the board. */
typedef struct
{
  int family;
  double low;   /* of its lower edge, from the board's */
  double width; /* with all its plies */
  double ply;   /* width of each of them, as it is ripped */
  int plies;    /* glued up from so many strips side by side */
  int layers;   /* resawn into so many */
} CavSawnStrip;

/* A clear stretch that takes pieces; wide ones go over two lanes. */
typedef struct
{
  int family;
  gboolean wide;
  int strip;
  int layer;
  int second_strip; /* of the other lane, where wide */
  int second_layer;
  double from;
  double to;
} CavClearPlace;

/* One way of ripping a board. */
typedef struct
{
  GArray *strips; /* CavSawnStrip, from the lower edge up */
  GArray *places; /* CavClearPlace */
} CavSawing;

void cav_sawing_free (CavSawing *sawing);

/* (transfer full) CavSawing: how such a board can be ripped for these families; none where it gives
 * them nothing. */
GPtrArray *cav_sawing_list (const CavLumber *lumber,
                            const CavBoard *board,
                            const CavStripFamily *families,
                            int n_families) G_GNUC_WARN_UNUSED_RESULT;

/* A stretch along a board. */
typedef struct
{
  double from;
  double to;
} CavStretch;

/* (transfer full) CavStretch: where a strip between those edges is sound, from left to right, what
 * is shorter than least left out. */
GArray *cav_sawing_list_clear (const CavBoard *board, double low, double high, double least)
    G_GNUC_WARN_UNUSED_RESULT;
/* Takes from..to out of stretches. */
void cav_stretches_cut (GArray *stretches, double from, double to);

/* Why a board gives a family nothing. */
typedef enum
{
  CAV_UNFIT_NOT,
  CAV_UNFIT_WOOD,
  CAV_UNFIT_THIN,
  CAV_UNFIT_NARROW,
  CAV_UNFIT_LAYERS,  /* too thin to be resawn and opened */
  CAV_UNFIT_DEFECTS, /* no clear stretch is long enough to be milled */
} CavUnfit;

CavUnfit
cav_sawing_judge (const CavLumber *lumber, const CavBoard *board, const CavStripFamily *family);
/* How thick the board is when it has been planed. */
double cav_sawing_get_net_thickness (const CavLumber *lumber, const CavBoard *board);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CavSawing, cav_sawing_free)

G_END_DECLS
