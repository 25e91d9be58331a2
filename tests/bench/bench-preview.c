/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How long the preview takes to paint once and to light again, by the processor's clock:
 * bench-preview PROJECT... */
#include <stdio.h>
#include <time.h>

#include "drawing/cav-preview.h"
#include "storage/cav-storage.h"

#define WIDTH 1920
#define HEIGHT 1080
#define ROUNDS 36

static double
get_milliseconds (void)
{
  struct timespec now;

  clock_gettime (CLOCK_THREAD_CPUTIME_ID, &now);
  return (double)now.tv_sec * 1e3 + (double)now.tv_nsec / 1e6;
}

static int
compare_cb (gconstpointer a, gconstpointer b)
{
  double first = *(const double *)a;
  double second = *(const double *)b;

  return (first > second) - (first < second);
}

static void
measure (const char *file, CavProject *project, const CavFrameSettings *settings)
{
  const CavProfile *profile = cav_project_get_profile (project);
  g_autoptr (CavFrame) frame = cav_frame_new (settings, profile, cav_project_get_wood (project));
  double rounds[ROUNDS];
  double start = get_milliseconds ();
  g_autoptr (CavPreview) preview = cav_preview_new (frame, profile, NULL, NULL, WIDTH, HEIGHT);
  double made = get_milliseconds ();

  if (preview == NULL)
    {
      printf ("%s: the frame is not possible\n", file);
      return;
    }
  for (int i = 0; i < ROUNDS; i++)
    {
      double from = get_milliseconds ();

      cav_preview_shade (preview, i * 360.0 / ROUNDS, settings->light_height);
      rounds[i] = get_milliseconds () - from;
    }
  qsort (rounds, ROUNDS, sizeof rounds[0], compare_cb);
  g_autofree char *name = g_path_get_basename (file);
  printf ("%-28s %2d sides, light at %2.0f: painted in %6.1f ms, lit in %5.2f ms (worst %5.2f)\n",
          name, settings->sides, settings->light_height, made - start, rounds[ROUNDS / 2],
          rounds[ROUNDS - 1]);
}

int
main (int argc, char **argv)
{
  for (int i = 1; i < argc; i++)
    {
      g_autoptr (GError) error = NULL;
      g_autoptr (CavProject) project = cav_storage_load_project (argv[i], &error);
      g_autoptr (CavFrameSettings) settings = cav_frame_settings_new ();

      if (project == NULL)
        {
          fprintf (stderr, "%s\n", error->message);
          return 1;
        }
      measure (argv[i], project, settings);
      settings->light_height = 15;
      measure (argv[i], project, settings);
      settings->sides = 8;
      measure (argv[i], project, settings);
    }
  return 0;
}
