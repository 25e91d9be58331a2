/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "milling/cav-feed.h"

#include "milling/cav-placement.h"

#include <math.h>
#include <string.h>

#define EQUALISING_TRIALS 7
/* Rounding of the rows against exact areas. */
#define BITE_MARGIN 0.998
/* What several feeds take between them may be less than what one takes, by films that count as gone
 * (share, and mm²). */
#define SUM_MARGIN 0.01
#define SUM_MARGIN_LEAST 0.5

/* Placements of one tool between nothing and the whole, by a whole number of grid steps. */
typedef struct
{
  CavRailStore *store;
  CavTask *task;
  int config;
  CavSide down;
  CavFence fence;
  gboolean sideways;
  double distance;
  double height;
  double layer;    /* thickest that one feed may take upward */
  int n;           /* steps from the first to the last setting */
  guint64 rail;    /* key of the rail before all feeds */
  double *removed; /* from it by each setting, below 0 where not known */
} Range;

static CavFeed
get_feed (const Range *range, int at)
{
  double step = range->task->shop->limits.step, back = (range->n - at) * step;
  CavFeed feed = { range->distance, range->height };

  if (at == range->n)
    return feed;
  if (range->sideways)
    feed.fence = cav_snap (feed.fence - back, step);
  else
    feed.height = cav_snap (feed.height - back, step);
  return feed;
}

/* (nullable) */
static const CavCandidate *
get_placement (const Range *range, int at)
{
  CavFeed feed = get_feed (range, at);
  int candidate = cav_task_place (range->task, range->config, range->down, range->fence, feed.fence,
                                  feed.height);

  return candidate >= 0 ? cav_task_candidate (range->task, candidate) : NULL;
}

/* The rail after one setting, NULL where it takes nothing or may not be done. */
static const CavRail *
get_next (const Range *range, const CavRail *rail, int at)
{
  const CavCandidate *placement = get_placement (range, at);
  const CavRail *next = NULL;

  if (placement != NULL)
    cav_rail_store_step (range->store, rail, placement, &next);
  return next;
}

/* What one setting takes from a rail: TRUE where it keeps to the bite. */
static gboolean
keeps_to_bite (const Range *range, const CavRail *rail, int at, double bite, double *out_removed)
{
  double *known = rail->key == range->rail ? &range->removed[at] : out_removed;
  const CavCandidate *placement;
  const CavRail *next;
  const CavStep *step;

  if (known != out_removed && *known >= 0)
    {
      *out_removed = *known;
      return *known <= bite;
    }
  placement = get_placement (range, at);
  *out_removed = 0;
  if (placement == NULL)
    return TRUE;
  if (cav_rail_store_weigh (range->store, rail, placement, out_removed))
    {
      *known = *out_removed;
      return *out_removed <= bite;
    }
  step = cav_rail_store_step (range->store, rail, placement, &next);
  if (step->n_passes > 0)
    *out_removed = (double)step->removed;
  return step->n_passes == 0
         || ((double)step->removed <= bite && (double)step->layer <= range->layer);
}

/* Greatest setting above one that takes nothing, up to last, that keeps to the bite, or that one;
 * more takes more, and often in proportion. */
static int
find_setting (const Range *range, const CavRail *rail, int from, int last, double bite)
{
  int low = from, high = last;
  double low_removed = 0, high_removed = 0, removed;

  if (keeps_to_bite (range, rail, last, bite, &high_removed))
    return last;
  for (int i = 0; high - low > 1; i++)
    {
      int at = low + (high - low) / 2;

      /* By proportion, but for every third time, which gets on where that does not. */
      if (i % 3 != 2 && high_removed - low_removed > 1e-6)
        at = low
             + (int)floor ((high - low) * (bite - low_removed) / (high_removed - low_removed)
                           + (i % 3) * 1.0);
      at = CLAMP (at, low + 1, high - 1);
      if (keeps_to_bite (range, rail, at, bite, &removed))
        {
          low = at;
          low_removed = removed;
        }
      else
        {
          high = at;
          high_removed = removed;
        }
    }
  return low;
}

/* As much as fits in each feed, up to setting last. Returns the number of feeds, or 0 where that
 * cannot be done in so many. */
static int
split_by (
    const Range *range, const CavRail *rail, int last, double bite, int most, int *out_settings)
{
  int n = 0, at = -1;

  while (at < last && n < most)
    {
      int setting = find_setting (range, rail, at, last, bite);
      const CavRail *next;

      if (setting == at)
        return 0;
      next = get_next (range, rail, setting);
      if (next != NULL)
        {
          rail = next;
          out_settings[n++] = setting;
        }
      else if (setting == last)
        /* Nothing is left below a light last feed: what comes before it is enough. */
        return last < range->n ? n : 0;
      at = setting;
    }
  return at == last ? n : 0;
}

/* The same number of feeds with smaller bites. */
static int
split_evenly (const Range *range, const CavRail *rail, int last, double bite, int *out_settings)
{
  int n = split_by (range, rail, last, bite, CAV_FEEDS_MAX, out_settings), trial[CAV_FEEDS_MAX];
  double low, high = bite, all;

  if (n < 2)
    return n;
  keeps_to_bite (range, rail, last, bite, &all);
  all -= fmax (SUM_MARGIN * all, SUM_MARGIN_LEAST);
  low = bite / n / 2;
  for (int i = 0; i < EQUALISING_TRIALS; i++)
    {
      double middle = (low + high) / 2;
      /* So many small bites never add up to all of it. */
      int m = n * middle < all ? 0 : split_by (range, rail, last, middle, n, trial);

      if (m == n)
        {
          memcpy (out_settings, trial, sizeof (int) * (gsize)n);
          high = middle;
        }
      else
        low = middle;
    }
  return n;
}

/* TRUE where a step goes no further into the wood than a light one: upward, or from the side. */
static gboolean
is_light (const CavLimits *limits, const CavStep *step, double height)
{
  double light = limits->light_layer + 1e-6;

  return ((double)step->layer > 0 && (double)step->layer <= light)
         || (double)step->removed <= light * height;
}

/* What the last of some feeds does. */
static const CavStep *
get_last_step (const Range *range, const CavRail *rail, const int *settings, int n)
{
  const CavStep *step = NULL;

  for (int i = 0; i < n; i++)
    {
      const CavRail *next = NULL;

      step = cav_rail_store_step (range->store, rail, get_placement (range, settings[i]), &next);
      rail = next != NULL ? next : rail;
    }
  return step;
}

/* The last feed light: across the blade and where the user wants it so in any case, else where the
 * others take the rest in one feed less. */
static int
split_lightly (
    const Range *range, const CavRail *rail, double bite, gboolean always, int n, int *out_settings)
{
  int last = range->n
             - (int)floor (range->task->shop->limits.light_layer / range->task->shop->limits.step
                           + 1e-6);
  int trial[CAV_FEEDS_MAX], m;
  double removed;

  if (last < 0 || (n >= 2 && out_settings[n - 2] >= last))
    return n;
  m = split_evenly (range, rail, last, bite, trial);
  if (m == 0 || (m + 1 > n && !always) || m + 1 > CAV_FEEDS_MAX)
    return n;
  for (int i = 0; i < m; i++)
    {
      rail = get_next (range, rail, trial[i]);
      if (rail == NULL)
        return n;
    }
  if (!keeps_to_bite (range, rail, range->n, bite, &removed)
      || get_next (range, rail, range->n) == NULL)
    return n;
  memcpy (out_settings, trial, sizeof (int) * (gsize)m);
  out_settings[m] = range->n;
  return m + 1;
}

int
cav_feed_split (CavRailStore *store,
                CavTask *task,
                const CavRail *rail,
                int candidate,
                CavFence fence,
                CavFeed *out_feeds)
{
  const CavCandidate *c = cav_task_candidate (task, candidate);
  const CavConfig *config = cav_task_config (task, c->config);
  const CavTool *tool = cav_task_tool (task, config->tool);
  double step = task->shop->limits.step, bite = tool->bite * BITE_MARGIN;
  Range range = { .store = store,
                  .task = task,
                  .config = c->config,
                  .down = c->down,
                  .fence = fence,
                  .distance = c->fence[fence],
                  .height = c->height,
                  .rail = rail->key };
  g_autofree double *removed = NULL;
  gboolean always = config->machine == CAV_MACHINE_COVE || task->shop->light_finish, shows;
  int settings[CAV_FEEDS_MAX], n;

  /* Rows and columns round the thickness by a little. */
  range.layer = config->machine == CAV_MACHINE_COVE     ? task->shop->limits.cove_layer + 1e-6
                : config->machine == CAV_MACHINE_ROUTER ? tool->diameter
                                                        : G_MAXDOUBLE;
  range.sideways = config->machine == CAV_MACHINE_ROUTER && !tool->widens;
  range.n = (int)floor ((range.sideways ? c->fence[fence] + tool->diameter / 2 : c->height) / step
                        + 1e-6)
            - 1;
  range.n = MAX (range.n, 0);
  range.removed = removed = g_new (double, range.n + 1);
  for (int i = 0; i <= range.n; i++)
    removed[i] = -1;
  n = split_evenly (&range, rail, range.n, bite, settings);
  shows = config->machine == CAV_MACHINE_COVE || cav_candidate_shows (task, c);
  if (shows && n >= (always ? 1 : 2)
      && !(task->shop->light_finish
           && is_light (&task->shop->limits, get_last_step (&range, rail, settings, n), c->height)))
    n = split_lightly (&range, rail, bite, always, n, settings);
  for (int i = 0; i < n; i++)
    out_feeds[i] = get_feed (&range, settings[i]);
  return n;
}
