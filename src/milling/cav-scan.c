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
#define PRAGMA(words) _Pragma (#words)
#define UNROLLED PRAGMA (GCC unroll 8)
#else
#define WIDE
#define UNROLLED
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
  scan->wood_from = scan->margin;
  scan->wood_to = scan->margin + scan->n;
  while (scan->wood_from < scan->wood_to && scan->heights[scan->wood_from] == OPEN)
    scan->wood_from++;
  while (scan->wood_to > scan->wood_from && scan->heights[scan->wood_to - 1] == OPEN)
    scan->wood_to--;
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

static inline void
set_depth (CavScanTool *tool, int i, double z)
{
  gint32 *axis = &tool->across[tool->n - 1];

  axis[i] = axis[-i] = to_microns (z);
  if (z < CAV_SCAN_STEP && tool->n_flat == i)
    tool->n_flat = i + 1;
}

CavScanTool *
cav_scan_tool_new (const CavToolTop *top)
{
  CavScanTool *tool = g_new0 (CavScanTool, 1);
  int last = top->n_points - 1, i = 0;

  tool->n = (int)floor (top->r[last] / CAV_SCAN_STEP) + 1;
  tool->across = cav_scan_depths_new (2 * (guint)tool->n - 1);
  for (int j = 0; i < tool->n; j++)
    {
      double r1 = top->r[j], z = top->z[j], r0 = j > 0 ? top->r[j - 1] : r1;
      double width = r1 - r0, rise = j > 0 ? z - top->z[j - 1] : 0;

      /* Up to this point of the top; on it and past the last, as deep as that. */
      for (; i < tool->n && i * CAV_SCAN_STEP < r1 && width > 1e-12; i++)
        set_depth (tool, i, top->z[j - 1] + (i * CAV_SCAN_STEP - r0) / width * rise);
      for (; i < tool->n && (i * CAV_SCAN_STEP <= r1 || j == last); i++)
        set_depth (tool, i, z);
    }
  return tool;
}

void
cav_scan_tool_free (CavScanTool *tool)
{
  if (tool == NULL)
    return;
  g_free (tool->depths);
  g_free (tool->across);
  g_free (tool);
}

/* Least of a[i] + b[i], for n that is a multiple of LANES. */
WIDE static gint32
get_least (const gint32 *restrict a, const gint32 *restrict b, int n)
{
  gint32 least = 2 * OPEN - 1;

  UNROLLED
  for (int i = 0; i < n / LANES * LANES; i++)
    least = MIN (least, a[i] + b[i]);
  return least;
}

/* How many a[i] + b[i] lie below limit, for n that is a multiple of LANES. */
WIDE static int
count_below (const gint32 *restrict a, const gint32 *restrict b, int n, gint32 limit)
{
  int count = 0;

  UNROLLED
  for (int i = 0; i < n / LANES * LANES; i++)
    count += a[i] + b[i] < limit;
  return count;
}

static int
fill_up (int n)
{
  return (n + LANES - 1) / LANES * LANES;
}

/* Room for whole lanes, wherever the first begins. */
gint32 *
cav_scan_depths_new (guint n)
{
  guint room = (guint)fill_up ((int)n) + LANES;
  gint32 *depths = g_new (gint32, room);

  for (guint i = n; i < room; i++)
    depths[i] = FILLING;
  return depths;
}

/* Samples of a line and those of a tool that stand over each other, in whole lanes. */
typedef struct
{
  const gint32 *heights;
  const gint32 *depths;
  int n;
} Overlap;

/* n depths that begin over sample at of the heights, which have wood between from and to. */
static Overlap
get_overlap (const gint32 *heights, int from, int to, const gint32 *depths, int n, int at)
{
  int first = MAX (from - at, 0), shared = MIN (n, to - at) - first;

  return shared <= 0 ? (Overlap){ heights, depths, 0 }
                     : (Overlap){ heights + at + first, depths + first, fill_up (shared) };
}

/* What a tool that comes from below has over the wood of a line. An axis outside of the margins,
 * where no tool of that width was expected, has nothing. */
static Overlap
get_overlap_across (const CavScanLine *line, const CavScanTool *tool, int i)
{
  int axis = line->margin + i;

  if (axis < 0 || axis >= line->n + 2 * line->margin)
    return (Overlap){ line->heights, tool->across, 0 };
  return get_overlap (line->heights, line->wood_from, line->wood_to, tool->across, 2 * tool->n - 1,
                      axis - tool->n + 1);
}

/* What a tool that comes from the side has beside the wood, from sample i down. */
static Overlap
get_overlap_below (const CavScanLine *line, const CavScanTool *tool, int i)
{
  int size = line->n + 2 * line->margin, at = size - 1 - (line->margin + i);

  if (at < 0)
    return (Overlap){ line->mirrored, tool->depths, 0 };
  return get_overlap (line->mirrored, size - line->wood_to, size - line->wood_from, tool->depths,
                      tool->n, at);
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
  Overlap overlap = get_overlap_across (line, tool, i);
  gint32 least = get_least (overlap.heights, overlap.depths, overlap.n);

  return least >= OPEN ? CAV_LOWER_LINE_OPEN : least / MICRONS;
}

double
cav_scan_get_contact (
    const CavScanLine *line, const CavScanTool *tool, int i, double tip, double slack)
{
  Overlap overlap = get_overlap_across (line, tool, i);
  gint32 limit;
  int count;

  if (tip + slack >= OPEN / MICRONS || overlap.n == 0)
    return 0;
  limit = to_microns (tip + slack);
  count = count_below (overlap.heights, overlap.depths, overlap.n, limit);
  /* The axis itself counts on either side. */
  count += line->heights[line->margin + i] + tool->across[tool->n - 1] < limit;
  return count * CAV_SCAN_STEP;
}

double
cav_scan_get_side (const CavScanLine *line, const CavScanTool *tool, int i)
{
  Overlap overlap = get_overlap_below (line, tool, i);
  gint32 least = get_least (overlap.heights, overlap.depths, overlap.n);

  return least >= OPEN / 2 ? CAV_LOWER_LINE_OPEN : least / MICRONS;
}

double
cav_scan_get_side_contact (
    const CavScanLine *line, const CavScanTool *tool, int i, double distance, double slack)
{
  Overlap overlap = get_overlap_below (line, tool, i);

  if (distance >= CAV_LOWER_LINE_OPEN)
    return 0;
  return count_below (overlap.heights, overlap.depths, overlap.n,
                      (gint32)lround ((distance + slack) * MICRONS))
         * CAV_SCAN_STEP;
}
