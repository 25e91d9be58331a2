/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "storage/cav-svg-transform.h"

#include <math.h>
#include <string.h>

#include "geometry/cav-unit.h"
#include "storage/cav-number.h"

#define MOST_NUMBERS 6
/* What enlarges more than this, or leaves less than this of an area, is no way to draw. */
#define LARGEST_PART 1e12
#define LEAST_DETERMINANT 1e-12

static void
skip_space (const char **at)
{
  while (g_ascii_isspace (**at))
    (*at)++;
}

static void
skip_separators (const char **at)
{
  while (g_ascii_isspace (**at) || **at == ',')
    (*at)++;
}

/* "(" numbers ")" */
static gboolean
read_numbers (const char **at, double *numbers, int *out_n)
{
  int n = 0;

  skip_space (at);
  if (**at != '(')
    return FALSE;
  (*at)++;
  skip_space (at);
  while (**at != ')')
    {
      if (n == MOST_NUMBERS || !cav_number_scan (at, &numbers[n++]))
        return FALSE;
      skip_separators (at);
    }
  (*at)++;
  *out_n = n;
  return TRUE;
}

static CavTransform
rotation_about (double degrees, double x, double y)
{
  CavTransform there = cav_transform_translation (-x, -y);
  CavTransform turn = cav_transform_rotation (degrees);
  CavTransform back = cav_transform_translation (x, y);

  return cav_transform_compose (cav_transform_compose (there, turn), back);
}

static gboolean
make_transform (const char *word, gsize length, const double *v, int n, CavTransform *out)
{
#define IS(name) (length == strlen (name) && strncmp (word, name, length) == 0)
  *out = cav_transform_identity ();
  if (IS ("matrix") && n == 6)
    *out = (CavTransform){ v[0], v[2], v[4], v[1], v[3], v[5] };
  else if (IS ("translate") && (n == 1 || n == 2))
    *out = cav_transform_translation (v[0], n == 2 ? v[1] : 0.0);
  else if (IS ("scale") && (n == 1 || n == 2))
    *out = cav_transform_scale (v[0], n == 2 ? v[1] : v[0]);
  else if (IS ("rotate") && (n == 1 || n == 3))
    *out = rotation_about (v[0], n == 3 ? v[1] : 0.0, n == 3 ? v[2] : 0.0);
  else if (IS ("skewX") && n == 1)
    out->xy = tan (CAV_RADIANS (v[0]));
  else if (IS ("skewY") && n == 1)
    out->yx = tan (CAV_RADIANS (v[0]));
  else
    return FALSE;
  return TRUE;
#undef IS
}

/* A map that is finite and flattens nothing. */
static gboolean
is_usable (const CavTransform *map)
{
  const double parts[] = { map->xx, map->xy, map->x0, map->yx, map->yy, map->y0 };

  for (guint i = 0; i < G_N_ELEMENTS (parts); i++)
    if (!isfinite (parts[i]) || fabs (parts[i]) > LARGEST_PART)
      return FALSE;
  return fabs (map->xx * map->yy - map->xy * map->yx) > LEAST_DETERMINANT;
}

gboolean
cav_svg_transform_parse (const char *text, CavTransform *out_transform)
{
  CavTransform whole = cav_transform_identity ();

  skip_separators (&text);
  while (*text != '\0')
    {
      const char *word = text;
      double numbers[MOST_NUMBERS];
      int n;
      CavTransform part;

      while (g_ascii_isalpha (*text))
        text++;
      gsize length = (gsize)(text - word);
      if (!read_numbers (&text, numbers, &n) || !make_transform (word, length, numbers, n, &part))
        return FALSE;
      /* The list is nested from left to right: the last one meets the points first. */
      whole = cav_transform_compose (part, whole);
      if (!is_usable (&whole))
        return FALSE;
      skip_separators (&text);
    }
  *out_transform = whole;
  return TRUE;
}
