/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "check-section.h"

#include <math.h>

#define FAR 1e18F

CheckGrid *
check_grid_new (double x0, double y0, double x1, double y1, double pixel)
{
  CheckGrid *grid = g_new0 (CheckGrid, 1);

  /* One pixel of nothing all around, so that an edge of the box is an edge. */
  grid->nx = (int)ceil ((x1 - x0) / pixel) + 2;
  grid->ny = (int)ceil ((y1 - y0) / pixel) + 2;
  grid->x0 = x0 - pixel;
  grid->y0 = y0 - pixel;
  grid->pixel = pixel;
  grid->set = g_new0 (guint8, (gsize)grid->nx * (gsize)grid->ny);
  return grid;
}

void
check_grid_free (CheckGrid *grid)
{
  if (grid == NULL)
    return;
  g_free (grid->set);
  g_free (grid);
}

void
check_grid_draw (CheckGrid *grid, const CheckSection *section)
{
  const GArray *lines = section->ruling->lines;
  double top = g_array_index (lines, double, lines->len - 1);

  for (int iy = 0; iy < grid->ny; iy++)
    {
      double y = grid->y0 + (iy + 0.5) * grid->pixel;

      if (y < 0 || y >= top)
        continue;
      guint row = check_ruling_find (section->ruling, y);

      for (guint i = 0; i < check_section_count (section, row); i++)
        {
          CheckSpan span = check_section_get (section, row, i);
          int first = (int)ceil ((span.a - grid->x0) / grid->pixel - 0.5);
          int last = (int)floor ((span.b - grid->x0) / grid->pixel - 0.5);

          for (int ix = MAX (first, 0); ix <= MIN (last, grid->nx - 1); ix++)
            grid->set[(gsize)iy * (gsize)grid->nx + (gsize)ix] = 1;
        }
    }
}

/* Squared distances along one line: the lower envelope of parabolas (Felzenszwalb and
 * Huttenlocher, Distance transforms of sampled functions, 2012). */
static void
transform_line (const float *f, float *d, int n, int *v, float *z)
{
  int k = 0;

  v[0] = 0;
  z[0] = -FAR;
  z[1] = FAR;
  for (int q = 1; q < n; q++)
    {
      float s;

      for (;;)
        {
          int p = v[k];

          s = ((f[q] + (float)q * (float)q) - (f[p] + (float)p * (float)p))
              / (2.0F * (float)(q - p));
          if (s > z[k] || k == 0)
            break;
          k--;
        }
      if (s <= z[k])
        {
          v[k] = q;
          continue;
        }
      k++;
      v[k] = q;
      z[k] = s;
      z[k + 1] = FAR;
    }
  k = 0;
  for (int q = 0; q < n; q++)
    {
      while (z[k + 1] < (float)q)
        k++;
      d[q] = (float)(q - v[k]) * (float)(q - v[k]) + f[v[k]];
    }
}

float *
check_grid_get_distance (const CheckGrid *grid, guint8 value)
{
  gsize n = (gsize)grid->nx * (gsize)grid->ny;
  float *distance = g_new (float, n);
  int longest = MAX (grid->nx, grid->ny);
  g_autofree float *f = g_new (float, longest);
  g_autofree float *d = g_new (float, longest);
  g_autofree float *z = g_new (float, longest + 1);
  g_autofree int *v = g_new (int, longest);

  /* Along the columns first, all of them at once: nothing but counting, down and up. */
  for (int ix = 0; ix < grid->nx; ix++)
    f[ix] = 1e6F;
  for (int iy = 0; iy < grid->ny; iy++)
    for (int ix = 0; ix < grid->nx; ix++)
      {
        gsize at = (gsize)iy * (gsize)grid->nx + (gsize)ix;

        f[ix] = grid->set[at] == value ? 0 : f[ix] + 1;
        distance[at] = f[ix];
      }
  for (int iy = grid->ny - 2; iy >= 0; iy--)
    for (int ix = 0; ix < grid->nx; ix++)
      {
        gsize at = (gsize)iy * (gsize)grid->nx + (gsize)ix;

        distance[at] = MIN (distance[at], distance[at + (gsize)grid->nx] + 1);
      }
  for (int iy = 0; iy < grid->ny; iy++)
    {
      float *line = distance + (gsize)iy * (gsize)grid->nx;

      for (int ix = 0; ix < grid->nx; ix++)
        f[ix] = line[ix] * line[ix];
      transform_line (f, d, grid->nx, v, z);
      for (int ix = 0; ix < grid->nx; ix++)
        line[ix] = d[ix] > 9e11F ? 1e9F : sqrtf (d[ix]) * (float)grid->pixel;
    }
  return distance;
}

int *
check_grid_label (const CheckGrid *grid, int *out_count)
{
  gsize n = (gsize)grid->nx * (gsize)grid->ny;
  int *labels = g_new0 (int, n);
  int count = 0;
  g_autoptr (GArray) stack = g_array_new (FALSE, FALSE, sizeof (gsize));

  for (gsize start = 0; start < n; start++)
    {
      if (grid->set[start] == 0 || labels[start] != 0)
        continue;
      labels[start] = ++count;
      g_array_append_val (stack, start);
      while (stack->len > 0)
        {
          gsize at = g_array_index (stack, gsize, stack->len - 1);
          int ix = (int)(at % (gsize)grid->nx);
          int iy = (int)(at / (gsize)grid->nx);

          g_array_set_size (stack, stack->len - 1);
          for (int jy = MAX (iy - 1, 0); jy <= MIN (iy + 1, grid->ny - 1); jy++)
            for (int jx = MAX (ix - 1, 0); jx <= MIN (ix + 1, grid->nx - 1); jx++)
              {
                gsize next = (gsize)jy * (gsize)grid->nx + (gsize)jx;

                if (grid->set[next] == 0 || labels[next] != 0)
                  continue;
                labels[next] = count;
                g_array_append_val (stack, next);
              }
        }
    }
  *out_count = count;
  return labels;
}

double
check_section_get_thickness (const CheckSection *section)
{
  CheckMeasure measure = check_section_measure (section);

  if (measure.x1 < measure.x0)
    return 0;

  double width = measure.x1 - measure.x0;
  double height = measure.y1 - measure.y0;

  /* A box says enough of what is flat. */
  if (fmin (width, height) <= 0.3)
    return fmin (width, height);

  double pixel = fmax (0.02, fmax (width, height) / 1000.0);
  g_autoptr (CheckGrid) grid
      = check_grid_new (measure.x0, measure.y0, measure.x1, measure.y1, pixel);
  g_autofree float *distance = NULL;
  double greatest = 0;

  check_grid_draw (grid, section);
  distance = check_grid_get_distance (grid, 0);
  for (gsize i = 0; i < (gsize)grid->nx * (gsize)grid->ny; i++)
    greatest = fmax (greatest, distance[i]);
  /* The nearest pixel outside has its middle half a pixel beyond the edge. */
  return fmax (2.0 * greatest - pixel, 0);
}
