/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "frame/cav-frame.h"

#include <math.h>

#include "frame/cav-frame-private.h"

static CavSize
grow (CavSize size, double by)
{
  return (CavSize){ size.width + by, size.height + by };
}

/* A frame of equal sides knows one measure alone. */
static CavSize
get_size (double width, double height, int sides)
{
  return (CavSize){ width, sides == 4 ? height : width };
}

/* From the rearmost mat, whose window lies on the picture, to the front one. */
static void
fill_windows (CavFrameSizes *sizes, const CavFrameSettings *settings)
{
  CavSize window = grow (sizes->picture, -2.0 * settings->overlap);

  for (int i = settings->n_mats - 1; i >= 0; i--)
    {
      sizes->windows[i] = window;
      if (i > 0)
        window = grow (window, 2.0 * settings->mats[i].reveal);
    }
}

static gboolean
has_mats (const CavFrameSettings *settings)
{
  return settings->n_mats > 0 && !settings->floated;
}

/* What the package's sheets have to measure for this picture. */
static CavSize
get_wanted_glass (const CavFrameSizes *sizes, const CavFrameSettings *settings)
{
  if (settings->floated)
    return grow (sizes->picture, 2.0 * settings->float_margin);
  if (!has_mats (settings))
    return sizes->picture;
  if (settings->sides != 4)
    return grow (sizes->windows[0], 2.0 * settings->border_left);
  return (CavSize){ sizes->windows[0].width + settings->border_left + settings->border_right,
                    sizes->windows[0].height + settings->border_top + settings->border_bottom };
}

static CavSize
get_glass (const CavFrameSizes *sizes, const CavFrameSettings *settings)
{
  CavSize given = get_size (settings->width, settings->height, settings->sides);

  switch (settings->start)
    {
    case CAV_FRAME_START_GLASS:
      return given;
    case CAV_FRAME_START_RABBET:
      return grow (given, -settings->allowance);
    case CAV_FRAME_START_OUTSIDE:
      return grow (given, -settings->allowance - 2.0 * (sizes->molding - sizes->lip));
    case CAV_FRAME_START_PICTURE:
      break;
    }
  return get_wanted_glass (sizes, settings);
}

/* Shares what is left beside the window as the wanted borders are to each other. */
static void
share (double room, double first, double second, double *out_first, double *out_second)
{
  double sum = first + second;

  *out_first = sum > 0.0 ? room * first / sum : room / 2.0;
  *out_second = room - *out_first;
}

static void
fill_borders (CavFrameSizes *sizes, const CavFrameSettings *settings)
{
  CavSize inner = has_mats (settings) ? sizes->windows[0] : sizes->picture;
  CavBorders *borders = &sizes->borders;
  gboolean even = settings->sides != 4 || !has_mats (settings);

  share (sizes->glass.width - inner.width, even ? 1.0 : settings->border_left,
         even ? 1.0 : settings->border_right, &borders->left, &borders->right);
  share (sizes->glass.height - inner.height, even ? 1.0 : settings->border_top,
         even ? 1.0 : settings->border_bottom, &borders->top, &borders->bottom);
  sizes->shown = (CavBorders){ borders->left - sizes->cover, borders->right - sizes->cover,
                               borders->top - sizes->cover, borders->bottom - sizes->cover };
}

static CavSize
get_visible (const CavFrameSizes *sizes, const CavFrameSettings *settings)
{
  CavSize most = has_mats (settings) ? sizes->windows[settings->n_mats - 1] : sizes->picture;

  return (CavSize){ fmin (most.width, sizes->sight.width),
                    fmin (most.height, sizes->sight.height) };
}

/* Width of the molding, and how far its lip stands over the package, both from the wood and not
 * from the blank, which may have lost its edges. */
static void
fill_molding (CavFrameSizes *sizes, const CavProfile *profile)
{
  CavBox bounds = cav_region_get_bounds (profile->region);
  double width = 0.0;

  sizes->molding = fmax (bounds.x1 - bounds.x0, 0.0);
  if (!cav_profile_get_rabbet (profile, &width, &sizes->rabbet_depth))
    {
      sizes->rabbet_depth = 0.0;
      return;
    }
  sizes->lip = fmax (width - bounds.x0, 0.0);
  sizes->rabbet_depth -= fmax (bounds.y0, 0.0);
}

void
cav_frame_fill_sizes (CavFrameSizes *sizes,
                      const CavFrameSettings *settings,
                      const CavProfile *profile)
{
  fill_molding (sizes, profile);
  sizes->cover = sizes->lip - settings->allowance / 2.0;
  sizes->least_cover = sizes->lip - settings->allowance;
  sizes->picture = get_size (settings->picture_width, settings->picture_height, settings->sides);
  if (has_mats (settings))
    fill_windows (sizes, settings);
  sizes->glass = get_glass (sizes, settings);
  sizes->rabbet = grow (sizes->glass, settings->allowance);
  sizes->sight = grow (sizes->rabbet, -2.0 * sizes->lip);
  sizes->outside = grow (sizes->sight, 2.0 * sizes->molding);
  sizes->visible = get_visible (sizes, settings);
  fill_borders (sizes, settings);
}

double
cav_frame_get_side (double diameter, int sides)
{
  g_return_val_if_fail (sides >= CAV_FRAME_SIDES_MIN, 0.0);
  return cav_mitre_get_run (diameter, sides);
}

CavBorders
cav_frame_get_mat_borders (const CavFrame *frame, int mat)
{
  CavBorders borders = { 0 };

  g_return_val_if_fail (frame != NULL && mat >= 0 && mat < frame->settings.n_mats, borders);

  /* Windows lie one around the other, with the same reveal on all sides. */
  double across = (frame->sizes.windows[0].width - frame->sizes.windows[mat].width) / 2.0;
  double upright = (frame->sizes.windows[0].height - frame->sizes.windows[mat].height) / 2.0;

  borders = frame->sizes.borders;
  borders.left += across;
  borders.right += across;
  borders.top += upright;
  borders.bottom += upright;
  return borders;
}
