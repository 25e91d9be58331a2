/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "drawing/cav-preview.h"
#include "drawing/cav-relief.h"
#include "drawing/cav-wood-look.h"

G_BEGIN_DECLS

/* Light that comes from everywhere, as a share of what falls on a surface that faces the viewer. */
#define CAV_AMBIENT 0.56f
/* The core of mat board, seen in the bevel. */
#define CAV_MAT_CORE 0xfbfaf6
/* Shadow where two things meet, whatever the light: how dark, and over which distance, mm. */
#define CAV_CONTACT 0.22
#define CAV_CONTACT_WALL 9.0
#define CAV_CONTACT_MAT 4.0
/* The same around a floated sheet, which lies near its ground. */
#define CAV_CONTACT_SHEET 0.3
#define CAV_CONTACT_FLOAT 1.6

/* How one place across a rail throws the light back: of the wood's own colour, in 1/256, and a
 * highlight over it. */
typedef struct
{
  guint16 scale;
  guint8 add[3];
} CavShade;

/* Pixels first to last - 1 of a row. */
typedef struct
{
  int row;
  int first;
  int last;
} CavSpan;

/* A pixel that two surfaces share: what is painted over what is there already. */
typedef struct
{
  int at;
  guint16 shade;
  guint16 share; /* of this surface, in 1/256 */
  guint32 colour;
} CavSeam;

/*
 * Flat surfaces that face the viewer keep their colour under any light, but for shadows; they have
 * shade 0. Shades of bevels (one for each side) and rails (n_samples for each) follow.
 */
struct _CavPreview
{
  int width;
  int height;
  double scale; /* pixels for each mm */
  CavFrameSettings settings;
  CavFrameSizes sizes;
  CavFrameFace face; /* the outside */
  CavFrameFace windows[CAV_MATS_MAX];
  CavFrameFace image; /* the picture with its hidden edges */
  double mat_height;  /* of what lies in the rabbet, above the wall */
  CavRelief *relief;
  CavGloss gloss;
  guint32 *colours; /* without light */
  guint16 *shades;
  GArray *spans;      /* CavSpan of pixels whose shade is not 0 */
  GArray *wall_spans; /* CavSpan of the wall */
  GArray *mat_spans;  /* CavSpan of what the frame surrounds */
  GArray *seams;      /* CavSeam, of mitres and of the wood's edges */
  CavShade *table;
  int n_table;
  cairo_surface_t *surface;
};

static inline CavPoint
cav_preview_get_point (const CavPreview *self, double x, double y)
{
  return CAV_POINT ((x - self->width / 2.0) / self->scale, (y - self->height / 2.0) / self->scale);
}

/* How far the shadow reaches that the edge of a mat throws into its window, mm: the thicker the
 * mat, the farther. */
static inline double
cav_preview_get_window_contact (const CavMat *mat)
{
  return 0.8 + 0.6 * mat->thickness;
}

static inline guint32
cav_pack_colour (float red, float green, float blue)
{
  guint r = (guint)(CLAMP (red, 0.0f, 1.0f) * 255.0f + 0.5f);
  guint g = (guint)(CLAMP (green, 0.0f, 1.0f) * 255.0f + 0.5f);
  guint b = (guint)(CLAMP (blue, 0.0f, 1.0f) * 255.0f + 0.5f);

  return r << 16 | g << 8 | b;
}

/* The two parts of cav_preview_new(). */
void cav_preview_paint_frame (CavPreview *self,
                              const CavFrame *frame,
                              const CavProfile *profile,
                              const CavFrameGrain *grain);
void cav_preview_paint_flat (CavPreview *self, cairo_surface_t *picture);

/* Lamp as cav_preview_shade() sees it. */
typedef struct
{
  double x; /* toward the lamp: on the wall, length 1 */
  double y;
  double sine; /* of its height */
  double cosine;
} CavLamp;

CavLamp cav_lamp_get (double angle, double height);
/* Width of the edge of a shadow that is thrown from so far above the ground. */
double cav_lamp_get_softness (const CavRelief *relief, CavLamp lamp, double above);
/* Light and highlight of every place across side k's rail; n_samples shades. */
void cav_preview_fill_rail_shades (const CavRelief *relief,
                                   const CavGloss *gloss,
                                   CavPoint across,
                                   CavLamp lamp,
                                   CavShade *out_shades);
CavShade cav_preview_get_bevel_shade (CavPoint across, CavLamp lamp);
/* Darkens what the frame keeps the lamp from. */
void cav_preview_paint_shadows (CavPreview *self, CavLamp lamp, guint32 *pixels, int stride);

G_END_DECLS
