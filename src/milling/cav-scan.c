/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "milling/cav-scan.h"

#include <math.h>

#define MICRONS 1000.0
#define OPEN (1 << 29)
/* Depth of what fills up a tool: no wood makes it count. */
#define FILLING (OPEN + OPEN / 2)

/* Tools and lines are compared so many samples at a time, which compilers make vector instructions
 * of, wide ones where the processor has them. */
#define LANES 8
#if defined(__x86_64__) && defined(__GNUC__) && !defined(__clang__)
#define WIDE __attribute__ ((target_clones ("avx2", "default")))
#else
#define WIDE
#endif

static gint32
to_microns (double height)
{
  return (gint32)(height * MICRONS + (height < 0 ? -0.5 : 0.5));
}

CavScanLine *
cav_scan_line_new (const CavLowerLine *line, double reach, int margin)
{
  CavScanLine *scan = g_new0 (CavScanLine, 1);
  g_autofree double *heights = NULL;
  int size;

  scan->n = (int)floor (reach / CAV_SCAN_STEP + 0.5) + 1;
  scan->margin = margin + 8;
  size = scan->n + 2 * scan->margin;
  scan->heights = g_new (gint32, (guint)size + LANES);
  scan->mirrored = g_new (gint32, (guint)size + LANES);
  heights = g_new (double, scan->n);
  cav_lower_line_sample (line, CAV_SCAN_STEP, scan->n, heights);
  for (int i = 0; i < size + LANES; i++)
    scan->heights[i] = scan->mirrored[i] = OPEN;
  for (int i = 0; i < scan->n; i++)
    if (heights[i] < CAV_LOWER_LINE_OPEN)
      scan->heights[scan->margin + i] = to_microns (heights[i]);
  for (int i = 0; i < size; i++)
    scan->mirrored[i] = scan->heights[size - 1 - i];
  scan->n_grounded = g_new0 (gint32, (guint)size + 1);
  for (int i = 0; i < size; i++)
    scan->n_grounded[i + 1] = scan->n_grounded[i] + (scan->heights[i] <= 0);
  return scan;
}

void
cav_scan_line_free (CavScanLine *line)
{
  if (line == NULL)
    return;
  g_free (line->heights);
  g_free (line->mirrored);
  g_free (line->n_grounded);
  g_free (line);
}

CavScanTool *
cav_scan_tool_new (const CavToolTop *top)
{
  CavScanTool *tool = g_new0 (CavScanTool, 1);
  double rim = top->r[top->n_points - 1];
  int j = 0;

  tool->n = (int)floor (rim / CAV_SCAN_STEP) + 1;
  tool->depths = cav_scan_depths_new ((guint)tool->n);
  for (int i = 0; i < tool->n; i++)
    {
      double d = i * CAV_SCAN_STEP, z;

      while (j < top->n_points - 1 && top->r[j] < d)
        j++;
      z = top->z[j];
      if (j > 0 && top->r[j] - top->r[j - 1] > 1e-12 && d < top->r[j])
        z = top->z[j - 1]
            + (d - top->r[j - 1]) / (top->r[j] - top->r[j - 1]) * (top->z[j] - top->z[j - 1]);
      tool->depths[i] = to_microns (z);
      if (z < CAV_SCAN_STEP && tool->n_flat == i)
        tool->n_flat = i + 1;
    }
  return tool;
}

void
cav_scan_tool_free (CavScanTool *tool)
{
  if (tool == NULL)
    return;
  g_free (tool->depths);
  g_free (tool);
}

/* Least of a[i] + b[i], for n that is a multiple of LANES. */
WIDE static gint32
get_least (const gint32 *restrict a, const gint32 *restrict b, int n)
{
  gint32 least = 2 * OPEN - 1;

  for (int i = 0; i < n / LANES * LANES; i++)
    least = MIN (least, a[i] + b[i]);
  return least;
}

/* How many a[i] + b[i] lie below limit, for n that is a multiple of LANES. */
WIDE static int
count_below (const gint32 *restrict a, const gint32 *restrict b, int n, gint32 limit)
{
  int count = 0;

  for (int i = 0; i < n / LANES * LANES; i++)
    count += a[i] + b[i] < limit;
  return count;
}

/* Room for whole lanes. */
static guint
fill_up (guint n)
{
  return (n + LANES - 1) / LANES * LANES;
}

gint32 *
cav_scan_depths_new (guint n)
{
  gint32 *depths = g_new (gint32, fill_up (n));

  for (guint i = n; i < fill_up (n); i++)
    depths[i] = FILLING;
  return depths;
}

/* How many samples of a tool lie over the line and its margins, on either side of sample i, filled
 * up to whole lanes. */
static int
get_overlap (
    const CavScanLine *line, const CavScanTool *tool, int i, gboolean mirrored, int *out_at)
{
  int size = line->n + 2 * line->margin;
  int at = mirrored ? size - 1 - (line->margin + i) : line->margin + i;

  *out_at = at;
  return at < 0 || at >= size ? 0 : (int)fill_up ((guint)MIN (tool->n, size - at));
}

gboolean
cav_scan_is_blocked (const CavScanLine *line, const CavScanTool *tool, int i)
{
  int size = line->n + 2 * line->margin, at = line->margin + i;
  int from = CLAMP (at - tool->n_flat + 1, 0, size), to = CLAMP (at + tool->n_flat, 0, size);

  return line->n_grounded[to] > line->n_grounded[from];
}

double
cav_scan_get_tip (const CavScanLine *line, const CavScanTool *tool, int i)
{
  int at, n = get_overlap (line, tool, i, FALSE, &at);
  gint32 least = n > 0 ? get_least (&line->heights[at], tool->depths, n) : OPEN, other;

  n = get_overlap (line, tool, i, TRUE, &at);
  other = n > 0 ? get_least (&line->mirrored[at], tool->depths, n) : OPEN;
  least = MIN (least, other);
  return least >= OPEN ? CAV_LOWER_LINE_OPEN : least / MICRONS;
}

double
cav_scan_get_contact (
    const CavScanLine *line, const CavScanTool *tool, int i, double tip, double slack)
{
  gint32 limit;
  int at, n = get_overlap (line, tool, i, FALSE, &at), count;

  if (tip + slack >= OPEN / MICRONS)
    return 0;
  limit = to_microns (tip + slack);
  count = n > 0 ? count_below (&line->heights[at], tool->depths, n, limit) : 0;
  n = get_overlap (line, tool, i, TRUE, &at);
  count += n > 0 ? count_below (&line->mirrored[at], tool->depths, n, limit) : 0;
  return count * CAV_SCAN_STEP;
}

double
cav_scan_get_side (const CavScanLine *line, const CavScanTool *tool, int i)
{
  int at, n = get_overlap (line, tool, i, TRUE, &at);
  gint32 least = n > 0 ? get_least (&line->mirrored[at], tool->depths, n) : OPEN;

  return least >= OPEN / 2 ? CAV_LOWER_LINE_OPEN : least / MICRONS;
}

double
cav_scan_get_side_contact (
    const CavScanLine *line, const CavScanTool *tool, int i, double distance, double slack)
{
  int at, n = get_overlap (line, tool, i, TRUE, &at);

  if (n <= 0 || distance >= CAV_LOWER_LINE_OPEN)
    return 0;
  return count_below (&line->mirrored[at], tool->depths, n,
                      (gint32)lround ((distance + slack) * MICRONS))
         * CAV_SCAN_STEP;
}
