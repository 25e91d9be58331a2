/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "frame/cav-dry-fit.h"
#include "frame/cav-frame-settings.h"
#include "frame/cav-mitre.h"
#include "frame/cav-moisture.h"
#include "profile/cav-profile.h"
#include "shop/cav-wood.h"

G_BEGIN_DECLS

typedef struct
{
  double width;
  double height;
} CavSize;

/* Distances from a window to the edges around it. */
typedef struct
{
  double left;
  double right;
  double top;
  double bottom;
} CavBorders;

/*
 * All sizes of the frame. Where it has not four sides they are those of the inner touching circle,
 * width and height alike, and cav_frame_get_side() gives the side. With c the allowance, r the lip,
 * W the molding's width: rabbet = glass + c, sight = rabbet - 2 r, outside = rabbet + 2 (W - r)
 * (for four sides: woodshop tip sheet 65, 2003, has the same sum).
 */
typedef struct
{
  double molding; /* width of the profile, W */
  double lip;     /* width of the rabbet, r; 0 without one */
  double rabbet_depth;
  CavSize picture;
  CavSize windows[CAV_MATS_MAX]; /* of the mats, front one first */
  CavBorders borders;            /* as they came out, front window to the edge of the glass */
  CavBorders shown;              /* what is seen of them, package in the middle of the rabbet */
  CavSize visible;               /* what is seen of the picture */
  CavSize glass;                 /* and of every sheet of the package */
  CavSize rabbet;
  CavSize sight;
  CavSize outside;
  double cover;       /* of the lip on the package, in the middle: r - c / 2 */
  double least_cover; /* package pushed to one side: r - c */
} CavFrameSizes;

/* Rails that are alike. */
typedef struct
{
  CavRailPair which;
  int count;
  double long_point;  /* outside */
  double rabbet_line; /* at the rabbet's wall: what the glass needs */
  double short_point; /* at the sight edge */
  double mean;        /* through the section's centroid: length for volume and weight */
} CavRailGroup;

/* Where a rail is cut from its strip, from the strip's end. */
typedef struct
{
  int strip;
  int rail; /* 0 is the top one, then clockwise as the frame hangs */
  double from;
  double to;
} CavRailPlace;

/* A full kerf, 1/8 in. */
#define CAV_KERF_USUAL 3.175

typedef struct
{
  double mitre; /* of each end, degrees from square */
  CavRailGroup groups[2];
  int n_groups;
  double molding;       /* length of molding: all long points */
  double molding_cut;   /* the same with a kerf for each cut and trim at both ends */
  double molding_rule;  /* the trade's rule: around the glass, and two widths for each corner */
  int together;         /* rails that are milled in one strip, so that none is too short */
  double strip;         /* length of that strip */
  CavRailPlace *places; /* owned, as many as sides */
  int n_places;
} CavFrameRails;

typedef enum
{
  CAV_LAYER_GLAZING,
  CAV_LAYER_SPACER, /* a narrow strip, at the edge alone */
  CAV_LAYER_MAT,
  CAV_LAYER_PICTURE,
  CAV_LAYER_BACKING,
} CavLayerKind;

/* Front to back. */
typedef struct
{
  CavLayerKind kind;
  const char *name; /* "glass", "mat", untranslated, of the context "layer of the package" */
  double thickness;
  double from; /* its front, behind the rabbet's ledge */
} CavPackageLayer;
#define CAV_PACKAGE_LAYERS_MAX (4 + CAV_MATS_MAX)

typedef struct
{
  CavPackageLayer layers[CAV_PACKAGE_LAYERS_MAX];
  int n_layers;
  double depth;      /* of all layers */
  double needed;     /* with room for the points */
  double stands_out; /* beyond the back, 0 where it does not */
  double spare;      /* room left behind what is needed, negative where that is missing */
} CavPackage;

/* Wood and mitres in one kind of air. */
typedef struct
{
  CavClimate climate;
  double moisture; /* percent */
  double fraction; /* change of width since the mitres were cut */
  double degrees;  /* each corner opens by, positive at the toe (outside) */
  double gap;      /* mm, with the sign of degrees */
} CavSeason;

typedef struct
{
  double humidity; /* relative, percent */
  double moisture;
  double gap; /* mm, positive at the toe */
} CavGapPoint;
#define CAV_GAP_POINTS 17 /* humidity from 10 to 90 % in steps of 5 */

typedef struct
{
  double length;        /* of each cut */
  double run;           /* long point over the rail at one end */
  double joint_degrees; /* by saw error in one corner: both cuts */
  double joint_gap;
  double last_degrees; /* in the last corner, the others closed: all cuts */
  double last_gap;
  double pair_degrees; /* by unequal opposite rails, shared by all corners; four sides only */
  double pair_gap;
  double pair_step;     /* the same, all of it at the last corner */
  gboolean has_seasons; /* the wood is known */
  CavSeason dry;
  CavSeason damp;
  double season_gap; /* the larger of both, without sign */
  CavGapPoint points[CAV_GAP_POINTS];
} CavFrameMitres;

typedef struct
{
  double wood_volume; /* mm³ */
  double wood;        /* kg; 0 where the density is not published */
  double glazing;
  double mats;
  double picture;
  double backing;
  double total;
  double hanger_load;  /* N, on each hanger */
  double wire_tension; /* N in the wire, 0 without one */
  int points;          /* in all */
  double point_spacing;
  double finish_area;   /* all of the wood's surface but the mitres, mm² */
  double face_area;     /* what is seen from the front and the sides */
  double finish_amount; /* ml for each coat over all the surface */
} CavFrameWeights;

/* What follows from settings, molding and wood. */
typedef struct
{
  CavFrameSettings settings; /* a copy */
  const CavWood *wood;       /* (nullable) borrowed; woods live for ever */
  gboolean possible; /* sizes, rails, mitres and weights hold; else there is only what is wrong */
  CavFrameSizes sizes;
  CavFrameRails rails;
  CavPackage package;
  CavFrameMitres mitres;
  CavFrameWeights weights;
  GArray *corrections; /* CavCorrection, of the dry fit */
  GPtrArray *advice;   /* char *, sentences on mitres and seasons */
  GPtrArray *findings; /* CavFinding */
} CavFrame;

/* Never fails: what is wrong stands in the findings. (nullable) wood. */
CavFrame *cav_frame_new (const CavFrameSettings *settings,
                         const CavProfile *profile,
                         const CavWood *wood) G_GNUC_WARN_UNUSED_RESULT;
void cav_frame_free (CavFrame *frame);

/* The side of a frame of equal sides whose inner touching circle has this diameter:
 * d tan (180 / n). */
double cav_frame_get_side (double diameter, int sides);
/* From the window of a mat (0: the front one) to the edges of the board that it is cut in. */
CavBorders cav_frame_get_mat_borders (const CavFrame *frame, int mat);

/* What the seasons open at some humidity, between the points of the plot, mm and degrees with their
 * sign; beyond its ends as at them, 0 where the wood is not known. */
double cav_frame_mitres_get_gap (const CavFrameMitres *mitres, double humidity);
double cav_frame_mitres_get_degrees (const CavFrameMitres *mitres, double humidity);

/* Tension of a wire over one hook, for each newton that hangs: 1 / (2 sin angle), angle in degrees
 * above level; infinite for a level wire. */
double cav_wire_get_tension (double angle);

/* Newtons for each kilogram: standard gravity. */
#define CAV_GRAVITY 9.80665

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CavFrame, cav_frame_free)

G_END_DECLS
