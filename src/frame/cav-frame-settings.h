/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* What the sizes of a frame are worked out from. */
typedef enum
{
  CAV_FRAME_START_PICTURE, /* the picture, its mats and their borders */
  CAV_FRAME_START_GLASS,   /* a sheet of glass at hand */
  CAV_FRAME_START_RABBET,  /* the rabbet opening of a frame that is there */
  CAV_FRAME_START_OUTSIDE, /* the outside that is wanted */
} CavFrameStart;

typedef enum
{
  CAV_GLAZING_NONE,
  CAV_GLAZING_GLASS,
  CAV_GLAZING_ACRYLIC,
} CavGlazing;

typedef enum
{
  CAV_BACKING_NONE,
  CAV_BACKING_CARD,
  CAV_BACKING_FOAM,
  CAV_BACKING_HARDBOARD,
  CAV_BACKING_PLYWOOD,
} CavBacking;

/* How the rail lies in the tree: growth rings along its width, or square to it. */
typedef enum
{
  CAV_SAWN_FLAT,
  CAV_SAWN_QUARTER,
} CavSawn;

typedef enum
{
  CAV_FINISH_BARE,
  CAV_FINISH_OIL,
  CAV_FINISH_WAX,
  CAV_FINISH_VARNISH,
  CAV_FINISH_BLACK,
  CAV_FINISH_WHITE,
  CAV_FINISH_GILT,
} CavFinish;

/* Air that wood settles in. */
typedef struct
{
  double temperature; /* degrees Celsius */
  double humidity;    /* relative, percent */
} CavClimate;

/* One sheet of mat board with its window. */
typedef struct
{
  double reveal;    /* what shows of it inside the mat before it; of the front mat unused */
  double thickness; /* mm; cav_mat_get_thickness() has those of the usual plies */
  guint32 colour;   /* 0xRRGGBB */
} CavMat;

#define CAV_MATS_MAX 3

/* What was measured on the frame put together without glue; each group counts where it was
 * measured at all. */
typedef struct
{
  gboolean has_gaps; /* between the glass and the rabbet's walls, negative where it did not go in */
  double gap_left;
  double gap_right;
  double gap_top;
  double gap_bottom;
  gboolean has_diagonals;  /* of the outside */
  double diagonal_falling; /* from top left to bottom right */
  double diagonal_rising;  /* from bottom left to top right */
  gboolean has_corner;     /* an open mitre */
  gboolean last_corner;    /* the others are closed, all of the error shows in this one */
  double open_heel;        /* gap at the sight edge */
  double open_toe;         /* gap at the outside */
} CavDryFit;

/*
 * All that a person decides about a frame but for its molding and its wood: what a project stores.
 * Lengths are mm. A frame of four sides is a rectangle; one of another number has equal sides, and
 * its widths are those of the circle that touches all sides from within (across the flats where the
 * number is even); heights mean nothing then.
 */
typedef struct
{
  /* Sizes */
  CavFrameStart start;
  int sides;
  double picture_width;
  double picture_height;
  double width; /* of glass, rabbet opening or outside, as start says */
  double height;
  double allowance; /* how much wider the rabbet opening is than the glass, in each direction */

  /* Mats, the front one first. A border runs from the front mat's window to its edge. */
  int n_mats;
  CavMat mats[CAV_MATS_MAX];
  double border_left;
  double border_right;
  double border_top;
  double border_bottom;
  double overlap;       /* of the rearmost mat on the picture, on each side */
  gboolean bevelled;    /* windows cut at 45 degrees */
  gboolean floated;     /* the picture lies on a board without a mat, its edges free */
  double float_margin;  /* board around a floated picture, to the glass's edge */
  guint32 float_colour; /* of that board, 0xRRGGBB */

  /* Package, front to back */
  CavGlazing glazing;
  double glazing_thickness;
  double glazing_density; /* kg/m³ */
  double spacer;          /* between glass and mat or picture */
  double picture_thickness;
  CavBacking backing;
  double backing_thickness;
  double backing_density; /* kg/m³ */
  double point_room;      /* behind the package, for the points that hold it */
  gboolean stands_out;    /* the package may reach beyond the back */

  /* Wood and mitres */
  CavSawn sawn;
  CavClimate shop;    /* where the mitres are cut */
  CavClimate dry;     /* the driest season where the frame hangs */
  CavClimate damp;    /* the dampest */
  double saw_error;   /* of each mitre cut, degrees */
  double pair_error;  /* by which opposite rails differ */
  double safe_length; /* shortest strip to feed past a tool */
  CavFinish finish;
  int coats;

  /* Hanging */
  int hangers;
  gboolean wire;     /* a wire between two hangers; else each hangs on a hook of its own */
  double wire_angle; /* of the wire above level, degrees */

  /* Looks */
  guint32 wall_colour; /* 0xRRGGBB */
  double light_angle;  /* where light comes from, degrees clockwise from the top */
  double light_height; /* above the wall, degrees */
  gboolean reflection; /* of the glass */
  char *picture_file;  /* (nullable) owned */

  CavDryFit dry_fit;
} CavFrameSettings;

/* One number of the settings, for files, rows and checks. */
typedef struct
{
  const char *name;   /* in files, e.g. "border-left" */
  const char *label;  /* for people, untranslated */
  gsize offset;       /* of the double in CavFrameSettings */
  gboolean is_length; /* else degrees, percent, kg/m³ */
  double minimum;
  double maximum;
  double usual;
} CavFrameNumberInfo;

/* Every double of the settings. */
const CavFrameNumberInfo *cav_frame_settings_get_numbers (guint *out_n_numbers);
double cav_frame_settings_get_number (const CavFrameSettings *settings,
                                      const CavFrameNumberInfo *number);
void cav_frame_settings_set_number (CavFrameSettings *settings,
                                    const CavFrameNumberInfo *number,
                                    double value);

/* An A4 print upright behind one mat, glass 2 mm, four sides. Nothing is owned yet. */
void cav_frame_settings_init_usual (CavFrameSettings *settings);
CavFrameSettings *cav_frame_settings_new (void) G_GNUC_WARN_UNUSED_RESULT;
CavFrameSettings *
cav_frame_settings_copy (const CavFrameSettings *settings) G_GNUC_WARN_UNUSED_RESULT;
/* Frees what the struct holds, not itself. */
void cav_frame_settings_clear (CavFrameSettings *settings);
void cav_frame_settings_free (CavFrameSettings *settings);
/* The same bits in every number, the same words. */
gboolean cav_frame_settings_equal (const CavFrameSettings *a, const CavFrameSettings *b);
/* (transfer none) path is copied. */
void cav_frame_settings_set_picture_file (CavFrameSettings *settings, const char *path);
/* FALSE with CAV_FRAME_ERROR_RANGE where a number is not finite or beyond its range, or a word is
 * none; the message names it. */
gboolean cav_frame_settings_check (const CavFrameSettings *settings, GError **error);

typedef enum
{
  CAV_FRAME_ERROR_RANGE = 1,
} CavFrameError;
#define CAV_FRAME_ERROR (cav_frame_error_quark ())
GQuark cav_frame_error_quark (void);

#define CAV_FRAME_SIDES_MIN 3
#define CAV_FRAME_SIDES_MAX 12
#define CAV_COATS_MAX 12
#define CAV_HANGERS_MAX 8

/* The words that stand in files: "picture", "glass", "rabbet", "outside" and so on; NULL for what
 * is none. */
const char *cav_frame_start_to_string (CavFrameStart start);
gboolean cav_frame_start_from_string (const char *string, CavFrameStart *out_start);
const char *cav_glazing_to_string (CavGlazing glazing);
gboolean cav_glazing_from_string (const char *string, CavGlazing *out_glazing);
const char *cav_backing_to_string (CavBacking backing);
gboolean cav_backing_from_string (const char *string, CavBacking *out_backing);
const char *cav_sawn_to_string (CavSawn sawn);
gboolean cav_sawn_from_string (const char *string, CavSawn *out_sawn);
const char *cav_finish_to_string (CavFinish finish);
gboolean cav_finish_from_string (const char *string, CavFinish *out_finish);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CavFrameSettings, cav_frame_settings_free)
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (CavFrameSettings, cav_frame_settings_clear)

G_END_DECLS
