/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "storage/cav-svg-path.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

#include "storage/cav-number.h"
#include "storage/cav-svg-viewport.h"

#define MOST_ARGUMENTS 7

typedef struct
{
  const char *data;
  const char *at;
  CavOutlineBuilder *builder;
  CavPoint control; /* last control point, for S and T */
  char previous;    /* last command, upper case; 0 before the first */
} Reader;

static gboolean
is_space (char c)
{
  return c == ' ' || c == '\t' || c == '\n' || c == '\r' || c == '\f';
}

static void
skip_space (Reader *reader)
{
  while (is_space (*reader->at))
    reader->at++;
}

static void
skip_separator (Reader *reader)
{
  skip_space (reader);
  if (*reader->at == ',')
    {
      reader->at++;
      skip_space (reader);
    }
}

static gboolean
fail (const Reader *reader, GError **error, const char *what)
{
  g_set_error (error, CAV_STORAGE_ERROR, CAV_STORAGE_ERROR_CONTENT,
               _ ("path data broken at character %ld: %s; save the drawing anew"),
               (long)(reader->at - reader->data) + 1, what);
  return FALSE;
}

static int
count_arguments (char command)
{
  switch (g_ascii_toupper (command))
    {
    case 'Z':
      return 0;
    case 'H':
    case 'V':
      return 1;
    case 'M':
    case 'L':
    case 'T':
      return 2;
    case 'S':
    case 'Q':
      return 4;
    case 'C':
      return 6;
    case 'A':
      return 7;
    default:
      return -1;
    }
}

/* The flags of an arc are one figure each and need no separator behind them. */
static gboolean
read_flag (Reader *reader, double *out_value, GError **error)
{
  if (*reader->at != '0' && *reader->at != '1')
    return fail (reader, error, _ ("an arc's flag is neither 0 nor 1"));
  *out_value = *reader->at++ - '0';
  return TRUE;
}

static gboolean
read_arguments (Reader *reader, char command, double *arguments, GError **error)
{
  int n_arguments = count_arguments (command);
  gboolean is_arc = g_ascii_toupper (command) == 'A';

  for (int i = 0; i < n_arguments; i++)
    {
      if (i > 0)
        skip_separator (reader);
      if (is_arc && (i == 3 || i == 4))
        {
          if (!read_flag (reader, &arguments[i], error))
            return FALSE;
        }
      else if (!cav_number_scan (&reader->at, &arguments[i]))
        return fail (reader, error, _ ("a number is missing"));
      else if (fabs (arguments[i]) > CAV_SVG_LARGEST_NUMBER)
        return fail (reader, error, _ ("the number before it is too large"));
    }
  return TRUE;
}

static gboolean
draw_quadratic (Reader *reader, CavPoint control, CavPoint to, GError **error)
{
  CavPoint from = reader->builder->point;
  CavPoint control1 = CAV_POINT (from.x + 2.0 / 3.0 * (control.x - from.x),
                                 from.y + 2.0 / 3.0 * (control.y - from.y));
  CavPoint control2
      = CAV_POINT (to.x + 2.0 / 3.0 * (control.x - to.x), to.y + 2.0 / 3.0 * (control.y - to.y));

  reader->control = control;
  return cav_outline_builder_curve_to (reader->builder, control1, control2, to, error);
}

static gboolean
draw_cubic (Reader *reader, CavPoint control1, CavPoint control2, CavPoint to, GError **error)
{
  reader->control = control2;
  return cav_outline_builder_curve_to (reader->builder, control1, control2, to, error);
}

/* The last control point mirrored at the pen, where a command of the same family came before. */
static CavPoint
reflected_control (const Reader *reader, const char *family)
{
  CavPoint from = reader->builder->point;

  if (reader->previous == '\0' || strchr (family, reader->previous) == NULL)
    return from;
  return CAV_POINT (2.0 * from.x - reader->control.x, 2.0 * from.y - reader->control.y);
}

/* A command with its arguments made absolute. */
static gboolean
draw (Reader *reader, char command, const double *a, CavPoint base, GError **error)
{
  CavOutlineBuilder *builder = reader->builder;
  CavPoint from = builder->point;

#define POINT(i) CAV_POINT (base.x + a[i], base.y + a[(i) + 1])
  switch (command)
    {
    case 'M':
      cav_outline_builder_move_to (builder, POINT (0));
      return TRUE;
    case 'L':
      return cav_outline_builder_line_to (builder, POINT (0), error);
    case 'H':
      return cav_outline_builder_line_to (builder, CAV_POINT (base.x + a[0], from.y), error);
    case 'V':
      return cav_outline_builder_line_to (builder, CAV_POINT (from.x, base.y + a[0]), error);
    case 'C':
      return draw_cubic (reader, POINT (0), POINT (2), POINT (4), error);
    case 'S':
      return draw_cubic (reader, reflected_control (reader, "CS"), POINT (0), POINT (2), error);
    case 'Q':
      return draw_quadratic (reader, POINT (0), POINT (2), error);
    case 'T':
      return draw_quadratic (reader, reflected_control (reader, "QT"), POINT (0), error);
    case 'A':
      return cav_outline_builder_arc_to (builder, a[0], a[1], a[2], a[3] > 0.5, a[4] > 0.5,
                                         POINT (5), error);
    default:
      return cav_outline_builder_close (builder, error);
    }
#undef POINT
}

/* One command letter with its arguments, and the repeats that follow without a letter. */
static gboolean
read_command (Reader *reader, GError **error)
{
  double arguments[MOST_ARGUMENTS] = { 0.0 };
  char command = *reader->at;

  if (count_arguments (command) < 0)
    return fail (reader, error, _ ("no command of a path"));
  if (reader->previous == '\0' && g_ascii_toupper (command) != 'M')
    return fail (reader, error, _ ("a path begins with M"));
  reader->at++;

  do
    {
      CavPoint base = g_ascii_islower (command) ? reader->builder->point : CAV_POINT (0.0, 0.0);

      skip_space (reader);
      if (!read_arguments (reader, command, arguments, error)
          || !draw (reader, g_ascii_toupper (command), arguments, base, error))
        return FALSE;
      reader->previous = g_ascii_toupper (command);
      if (reader->previous == 'M') /* further pairs are lines */
        command = command == 'm' ? 'l' : 'L';
      skip_separator (reader);
    }
  while (count_arguments (command) > 0 && *reader->at != '\0' && !g_ascii_isalpha (*reader->at));
  return TRUE;
}

gboolean
cav_svg_path_draw (const char *data, CavOutlineBuilder *builder, GError **error)
{
  Reader reader = { .data = data, .at = data, .builder = builder };

  builder->start = builder->point = CAV_POINT (0.0, 0.0);
  skip_space (&reader);
  while (*reader.at != '\0')
    if (!read_command (&reader, error))
      return FALSE;
  cav_outline_builder_finish (builder);
  return TRUE;
}
