/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>

#include "drawing/cav-preview-private.h"
#include "geometry/cav-unit.h"

/* The lamp is a window, not a point: half of its size, as a share of the way to it. */
#define LAMP_SIZE 0.13
/* Edge of a shadow where it begins, mm. */
#define SOFT_EDGE 0.8

CavLamp
cav_lamp_get (double angle, double height)
{
  double around = CAV_RADIANS (angle);
  double up = CAV_RADIANS (CLAMP (height, 5.0, 90.0));

  return (CavLamp){ sin (around), -cos (around), sin (up), cos (up) };
}

static guint8
get_highlight (double strength, float tint)
{
  return (guint8)CLAMP (strength * tint * 255.0, 0.0, 255.0);
}

/* Brightness of a place with normal (x, y, z), 1 for one that faces the viewer in full light. */
static double
get_light (double x, double y, double z, CavLamp lamp, double light)
{
  double facing = x * lamp.x * lamp.cosine + y * lamp.y * lamp.cosine + z * lamp.sine;

  return (1.0 - CAV_AMBIENT) * fmax (facing, 0.0) / lamp.sine * light;
}

/* Blinn's highlight: how near the normal is to half way between lamp and viewer. */
static double
get_shine (double x, double y, double z, CavLamp lamp, const CavGloss *gloss)
{
  double half_x = lamp.x * lamp.cosine;
  double half_y = lamp.y * lamp.cosine;
  double half_z = lamp.sine + 1.0;
  double length = sqrt (half_x * half_x + half_y * half_y + half_z * half_z);
  double near = (x * half_x + y * half_y + z * half_z) / length;

  return gloss->shine * pow (fmax (near, 0.0), gloss->hardness);
}

/* A rail's surface rises by slope for each mm toward the middle, so it leans outward by that. */
void
cav_preview_fill_rail_shades (const CavRelief *relief,
                              const CavGloss *gloss,
                              CavPoint across,
                              CavLamp lamp,
                              CavShade *out_shades)
{
  double toward = across.x * lamp.x + across.y * lamp.y;
  double flat = fmax (fabs (toward) * lamp.cosine, 1e-6);
  g_autofree float *light = g_new (float, relief->n_samples);

  cav_relief_fill_shadow (relief, lamp.sine / flat, toward < 0.0, LAMP_SIZE, light);
  for (int i = 0; i < relief->n_samples; i++)
    {
      double slope = relief->slopes[i];
      double z = 1.0 / sqrt (1.0 + slope * slope);
      double x = across.x * slope * z;
      double y = across.y * slope * z;
      double value = CAV_AMBIENT * relief->open_sky[i] * (0.75 + 0.25 * z)
                     + get_light (x, y, z, lamp, light[i]);
      double shine = get_shine (x, y, z, lamp, gloss) * (0.25 + 0.75 * light[i]);

      out_shades[i].scale = (guint16)CLAMP (value * gloss->scatter * 256.0, 0.0, 511.0);
      out_shades[i].add[0] = get_highlight (shine, gloss->tint.red);
      out_shades[i].add[1] = get_highlight (shine, gloss->tint.green);
      out_shades[i].add[2] = get_highlight (shine, gloss->tint.blue);
    }
}

/* The bevel of a mat's window leans toward the middle by 45 degrees. */
CavShade
cav_preview_get_bevel_shade (CavPoint across, CavLamp lamp)
{
  double value
      = CAV_AMBIENT * 0.94
        + get_light (-across.x * G_SQRT2 / 2, -across.y * G_SQRT2 / 2, G_SQRT2 / 2, lamp, 1.0);

  return (CavShade){ .scale = (guint16)CLAMP (value * 256.0, 0.0, 290.0) };
}

/* Four pixels at once; the compilers that we know make vector instructions of it. */
typedef float Four __attribute__ ((vector_size (16)));
typedef gint32 FourWhole __attribute__ ((vector_size (16)));

static inline Four
four (float value)
{
  return (Four){ value, value, value, value };
}

static inline Four
select_four (FourWhole which, Four yes, Four no)
{
  return (Four)(((FourWhole)yes & which) | ((FourWhole)no & ~which));
}

static inline Four
least_four (Four a, Four b)
{
  return select_four (a < b, a, b);
}

static inline Four
most_four (Four a, Four b)
{
  return select_four (a > b, a, b);
}

/* A slice of the frame as its shadow falls on one level: the slice's outline (or that of the hole
 * in it) shifted away from the lamp. */
typedef struct
{
  float sharp;                      /* 1 over the width of its soft edge */
  float reach[CAV_FRAME_SIDES_MAX]; /* how far its sides are from the frame's middle, mm */
} Caster;

/* Width of a shadow's edge: the lamp's size over the way, and enough that neighbouring slices run
 * into each other at corners. */
double
cav_lamp_get_softness (const CavRelief *relief, CavLamp lamp, double above)
{
  double between = relief->top / CAV_RELIEF_SLICES * lamp.cosine / lamp.sine;

  return SOFT_EDGE + 0.7 * between + 2.0 * LAMP_SIZE * above / lamp.sine;
}

static int
collect_casters (const CavPreview *self, CavLamp lamp, double level, gboolean hole, Caster *casters)
{
  const CavFrameFace *face = &self->face;
  int n_casters = 0;

  for (int k = 0; k < CAV_RELIEF_SLICES; k++)
    {
      const CavReliefSlice *slice = &self->relief->slices[k];
      double above = slice->height - level;
      double way = above * lamp.cosine / lamp.sine;
      Caster *caster = &casters[n_casters];

      if (above <= 0.0)
        continue;
      n_casters++;
      caster->sharp = (float)(1.0 / cav_lamp_get_softness (self->relief, lamp, above));
      for (int i = 0; i < face->sides; i++)
        caster->reach[i]
            = (float)(face->reach[i] - (hole ? slice->inner : slice->outer)
                      - (face->across[i].x * lamp.x + face->across[i].y * lamp.y) * way);
    }
  return n_casters;
}

/* The sides of the frame as a row of pixels meets them: those that run along it, and those that it
 * crosses. */
typedef struct
{
  int n_level;
  int level[CAV_FRAME_SIDES_MAX];
  int n_slanting;
  int slanting[CAV_FRAME_SIDES_MAX];
  float across[CAV_FRAME_SIDES_MAX];  /* of the slanting ones, in their order */
  float each[CAV_FRAME_SIDES_MAX];    /* 1 over that */
  float upright[CAV_FRAME_SIDES_MAX]; /* by the side's number */
} Sides;

static void
fill_sides (Sides *sides, const CavFrameFace *face)
{
  sides->n_level = 0;
  sides->n_slanting = 0;
  for (int i = 0; i < face->sides; i++)
    {
      float across = (float)face->across[i].x;

      sides->upright[i] = (float)face->across[i].y;
      if (fabsf (across) < 1e-6f)
        {
          sides->level[sides->n_level++] = i;
          continue;
        }
      sides->across[sides->n_slanting] = across;
      sides->each[sides->n_slanting] = 1.0f / across;
      sides->slanting[sides->n_slanting++] = i;
    }
}

/* Part of a row; it is empty where it ends before it begins. */
typedef struct
{
  float from;
  float to;
} Stretch;

/* A caster's outline as one row meets it: sides that run along the row keep their depth, the others
 * lose across[i] for each mm. */
typedef struct
{
  float flat;
  float sharp;
  float rest[CAV_FRAME_SIDES_MAX]; /* of the slanting sides */
  Stretch touched; /* by the outline, edges and all: beyond it no light is lost, or all of it */
  Stretch inner;   /* within its edges: here all is lost, or none */
} RowCaster;

/* Where the outline is at least so deep. */
static Stretch
find_deeper (const RowCaster *row, const Sides *sides, float limit)
{
  Stretch stretch = { -1e9f, 1e9f };

  if (row->flat < limit)
    return (Stretch){ 1e9f, -1e9f };
  for (int i = 0; i < sides->n_slanting; i++)
    {
      float end = (row->rest[i] - limit) * sides->each[i];

      if (sides->across[i] > 0.0f)
        stretch.to = MIN (stretch.to, end);
      else
        stretch.from = MAX (stretch.from, end);
    }
  return stretch;
}

static void
fill_row_caster (RowCaster *row, const Sides *sides, const Caster *caster, float y)
{
  row->flat = 1e9f;
  row->sharp = caster->sharp;
  for (int i = 0; i < sides->n_level; i++)
    {
      int side = sides->level[i];

      row->flat = MIN (row->flat, caster->reach[side] - sides->upright[side] * y);
    }
  for (int i = 0; i < sides->n_slanting; i++)
    {
      int side = sides->slanting[i];

      row->rest[i] = caster->reach[side] - sides->upright[side] * y;
    }
  row->touched = find_deeper (row, sides, -0.5f / row->sharp);
  row->inner = find_deeper (row, sides, 0.5f / row->sharp);
}

/* How deep four pixels lie in the outline, from the side that is nearest. */
static inline Four
get_depths (const RowCaster *row, const Sides *sides, Four x)
{
  Four depth = four (row->flat);

  for (int i = 0; i < sides->n_slanting; i++)
    depth = least_four (depth, four (row->rest[i]) - four (sides->across[i]) * x);
  return depth;
}

static inline guint32
darken (guint32 colour, guint scale)
{
  guint32 odd = colour & 0xff00ff;
  guint32 even = colour & 0x00ff00;

  return ((odd * scale >> 8) & 0xff00ff) | ((even * scale >> 8) & 0x00ff00);
}

/* All casters of a row. */
typedef struct
{
  Sides sides;
  RowCaster casters[CAV_RELIEF_SLICES];
  int n_casters;
  gboolean hole;
  int last; /* the caster that kept all light away the last time: likely it does so again */
} ShadowRow;

static inline gboolean
is_within (Stretch stretch, Four x)
{
  return x[0] > stretch.from && x[3] < stretch.to;
}

static inline gboolean
is_beyond (Stretch stretch, Four x)
{
  return x[3] < stretch.from || x[0] > stretch.to;
}

/* The outline has no hollows: where both ends of four pixels are dark, so is what lies between. */
static inline gboolean
is_all_dark (const RowCaster *caster, gboolean hole, Four x)
{
  return hole ? is_beyond (caster->touched, x) : is_within (caster->inner, x);
}

static inline gboolean
is_all_light (const RowCaster *caster, gboolean hole, Four x)
{
  return hole ? is_within (caster->inner, x) : is_beyond (caster->touched, x);
}

/* Of all slices the one that hides most counts: they are one piece of wood. */
static inline Four
get_dark (ShadowRow *row, Four x)
{
  const gboolean hole = row->hole;
  Four dark = four (0.0f);

  if (is_all_dark (&row->casters[row->last], hole, x))
    return four (1.0f);
  for (int k = 0; k < row->n_casters; k++)
    {
      const RowCaster *caster = &row->casters[k];

      if (is_all_light (caster, hole, x))
        continue;
      if (is_all_dark (caster, hole, x))
        {
          row->last = k;
          return four (1.0f);
        }

      Four depth = get_depths (caster, &row->sides, x);
      Four covered = four (0.5f) + (hole ? -depth : depth) * four (caster->sharp);

      dark = most_four (dark, least_four (covered, four (1.0f)));
    }
  return dark;
}

static void
darken_span (const CavPreview *self, const CavSpan *span, ShadowRow *shadow, guint32 *row)
{
  const float most = 256.0f * (1.0f - CAV_AMBIENT);
  float step = (float)(1.0 / self->scale);
  float start = (float)cav_preview_get_point (self, span->first + 0.5, 0.0).x;

  for (int x = span->first; x < span->last; x += 4)
    {
      float from = start + step * (float)(x - span->first);
      Four places = { from, from + step, from + 2 * step, from + 3 * step };
      Four dark = get_dark (shadow, places);

      for (int i = 0; i < MIN (4, span->last - x); i++)
        if (dark[i] > 0.003f)
          row[x + i] = darken (row[x + i], 256 - (guint)(dark[i] * most));
    }
}

/* Cuts a stretch of a row down to where across · point <= reach, for one side. */
static void
clip_stretch (CavPoint across, double reach, double y, double *from, double *to)
{
  double rest = reach - across.y * y;

  if (fabs (across.x) < 1e-9)
    {
      if (rest < 0.0)
        *to = *from;
    }
  else if (across.x > 0.0)
    *to = fmin (*to, rest / across.x);
  else
    *from = fmax (*from, rest / across.x);
}

/* The stretch of a row that lies in the frame's outline after each side was moved outward. */
static void
find_stretch (const CavFrameFace *face, const double *moves, double y, double *from, double *to)
{
  *from = -1e6;
  *to = 1e6;
  for (int i = 0; i < face->sides; i++)
    clip_stretch (face->across[i], face->reach[i] + moves[i], y, from, to);
}

static int
get_column (const CavPreview *self, double x)
{
  return (int)CLAMP (x * self->scale + self->width / 2.0, -1e6, 1e6);
}

/* A lamp and what stands in its way to one level. */
typedef struct
{
  Caster casters[CAV_RELIEF_SLICES];
  int n_casters;
  gboolean hole;
  double moves[CAV_FRAME_SIDES_MAX]; /* how far beyond each side darkness can reach */
} Shadow;

/* Shadow falls away from the lamp: on the wall outward from the sides that face away from it, in
 * the opening inward from those that face it. */
static void
fill_shadow (Shadow *shadow, const CavPreview *self, CavLamp lamp, double level, gboolean hole)
{
  double above = fmax (self->relief->top - level, 0.0);
  double way = above * lamp.cosine / lamp.sine;
  double soft = 0.5 * cav_lamp_get_softness (self->relief, lamp, above);

  shadow->hole = hole;
  shadow->n_casters = collect_casters (self, lamp, level, hole, shadow->casters);
  for (int i = 0; i < self->face.sides; i++)
    {
      double toward = self->face.across[i].x * lamp.x + self->face.across[i].y * lamp.y;

      shadow->moves[i] = hole ? -self->relief->width - soft - fmax (toward, 0.0) * way
                              : soft + fmax (-toward, 0.0) * way;
    }
}

/* Casters that leave all of the row alone are left out. */
static void
fill_shadow_row (ShadowRow *row, const Shadow *shadow, float y)
{
  row->n_casters = 0;
  row->hole = shadow->hole;
  row->last = 0;
  for (int k = 0; k < shadow->n_casters; k++)
    {
      RowCaster *caster = &row->casters[row->n_casters];

      fill_row_caster (caster, &row->sides, &shadow->casters[k], y);
      if (row->hole || caster->touched.from < caster->touched.to)
        row->n_casters++;
    }
}

static void
darken_part (const CavPreview *self,
             const CavSpan *span,
             int first,
             int last,
             ShadowRow *shadow,
             guint32 *row)
{
  CavSpan part = { span->row, MAX (span->first, first), MIN (span->last, last) };

  if (part.first < part.last)
    darken_span (self, &part, shadow, row);
}

static void
darken_spans (
    const CavPreview *self, const GArray *spans, const Shadow *shadow, guint32 *pixels, int stride)
{
  ShadowRow shadow_row;
  int row_of_shadow = -1;

  fill_sides (&shadow_row.sides, &self->face);
  for (guint i = 0; i < spans->len; i++)
    {
      const CavSpan *span = &g_array_index (spans, CavSpan, i);
      guint32 *row = pixels + (gsize)span->row * (gsize)stride;
      double y = cav_preview_get_point (self, 0.0, span->row + 0.5).y;
      double from;
      double to;

      if (span->row != row_of_shadow)
        fill_shadow_row (&shadow_row, shadow, (float)y);
      row_of_shadow = span->row;
      if (shadow_row.n_casters == 0)
        continue;
      find_stretch (&self->face, shadow->moves, y, &from, &to);
      if (!shadow->hole)
        darken_part (self, span, get_column (self, from) - 1, get_column (self, to) + 2,
                     &shadow_row, row);
      else if (from >= to)
        darken_part (self, span, span->first, span->last, &shadow_row, row);
      else
        {
          darken_part (self, span, span->first, get_column (self, from) + 2, &shadow_row, row);
          darken_part (self, span, get_column (self, to) - 1, span->last, &shadow_row, row);
        }
    }
}

void
cav_preview_paint_shadows (CavPreview *self, CavLamp lamp, guint32 *pixels, int stride)
{
  Shadow shadow;

  fill_shadow (&shadow, self, lamp, 0.0, FALSE);
  darken_spans (self, self->wall_spans, &shadow, pixels, stride);
  fill_shadow (&shadow, self, lamp, self->mat_height, TRUE);
  darken_spans (self, self->mat_spans, &shadow, pixels, stride);
}
