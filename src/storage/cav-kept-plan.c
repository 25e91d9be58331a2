/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "storage/cav-kept-plan.h"

#include <fcntl.h>
#include <glib/gstdio.h>
#include <string.h>
#include <sys/stat.h>

#include "milling/cav-retrace.h"
#include "storage/cav-storage.h"

#define ENDING ".plan"
/* The key, so that a file says itself what it is for, a sum that tells damage, and the trace. */
#define FILE_TYPE "(ss" CAV_TRACE_TYPE ")"
#define FILE_FORM "(&s&s@" CAV_TRACE_TYPE ")"
#define MOST_PLANS 200
#define MOST_BYTES 1000000

char *
cav_kept_plan_dup_folder (void)
{
  return g_build_filename (g_get_user_cache_dir (), "cavetto", "plans", NULL);
}

/* (transfer full) */
static char *
get_folder (const char *folder)
{
  return folder != NULL ? g_strdup (folder) : cav_kept_plan_dup_folder ();
}

/* The key */

static void
add_numbers (GChecksum *sum, const double *numbers, gsize n)
{
  for (gsize i = 0; i < n; i++)
    {
      guint64 bits;

      memcpy (&bits, &numbers[i], sizeof bits);
      bits = GUINT64_TO_LE (bits);
      g_checksum_update (sum, (const guchar *)&bits, sizeof bits);
    }
}

static void
add_whole (GChecksum *sum, guint64 number)
{
  guint64 bits = GUINT64_TO_LE (number);

  g_checksum_update (sum, (const guchar *)&bits, sizeof bits);
}

static void
add_region (GChecksum *sum, const CavRegion *region)
{
  guint n_rings = cav_region_get_ring_count (region);

  add_whole (sum, n_rings);
  for (guint ring = 0; ring < n_rings; ring++)
    {
      const CavPath *path = cav_region_get_ring (region, ring);
      guint n = cav_path_get_segment_count (path);

      add_whole (sum, n);
      for (guint i = 0; i < n; i++)
        {
          const CavSegment *s = cav_path_get_segment (path, i);
          const double numbers[]
              = { s->from.x, s->from.y, s->to.x,     s->to.y,  s->centre.x, s->centre.y,
                  s->rx,     s->ry,     s->rotation, s->start, s->sweep };

          add_whole (sum, s->kind);
          add_numbers (sum, numbers, G_N_ELEMENTS (numbers));
        }
    }
}

/* Another program may find another plan: the version, and the file that is being run. */
static void
add_program (GChecksum *sum)
{
  struct stat self;

  g_checksum_update (sum, (const guchar *)CAV_VERSION, -1);
  if (stat ("/proc/self/exe", &self) != 0)
    return;
  add_whole (sum, (guint64)self.st_size);
  add_whole (sum, (guint64)self.st_mtim.tv_sec);
  add_whole (sum, (guint64)self.st_mtim.tv_nsec);
}

/* (transfer full) */
static char *
create_key (const CavPlanRequest *request)
{
  g_autoptr (GChecksum) sum = g_checksum_new (G_CHECKSUM_SHA256);
  g_autoptr (GBytes) shop = cav_storage_shop_to_bytes (request->shop);
  const double numbers[] = { request->blank.width, request->blank.thickness, request->length };
  gsize length;
  const guchar *data = g_bytes_get_data (shop, &length);

  add_program (sum);
  add_numbers (sum, numbers, G_N_ELEMENTS (numbers));
  add_whole (sum, (guint64)request->rails);
  add_region (sum, request->profile);
  g_checksum_update (sum, data, (gssize)length);
  return g_strdup (g_checksum_get_string (sum));
}

/* (transfer full) */
static char *
create_path (const char *folder, const char *key)
{
  g_autofree char *name = g_strconcat (key, ENDING, NULL);

  return g_build_filename (folder, name, NULL);
}

/* Recalling */

/* (transfer full) */
static char *
create_sum (GVariant *trace)
{
  g_autoptr (GVariant) plain = g_variant_get_normal_form (trace);

  return g_compute_checksum_for_data (G_CHECKSUM_SHA256, g_variant_get_data (plain),
                                      g_variant_get_size (plain));
}

/* (nullable) (transfer full) */
static GVariant *
load_trace (const char *path, const char *key)
{
  struct stat about;
  char *data;
  gsize length;
  g_autoptr (GBytes) bytes = NULL;
  g_autoptr (GVariant) file = NULL;
  g_autofree char *right_sum = NULL;
  const char *written;
  const char *sum;
  GVariant *trace = NULL;

  if (stat (path, &about) != 0 || !S_ISREG (about.st_mode) || about.st_size > MOST_BYTES
      || !g_file_get_contents (path, &data, &length, NULL))
    return NULL;
  bytes = g_bytes_new_take (data, length);
  file = g_variant_ref_sink (g_variant_new_from_bytes (G_VARIANT_TYPE (FILE_TYPE), bytes, FALSE));
  if (!g_variant_is_normal_form (file))
    return NULL;
  g_variant_get (file, FILE_FORM, &written, &sum, &trace);
  right_sum = create_sum (trace);
  if (!g_str_equal (written, key) || !g_str_equal (sum, right_sum))
    g_clear_pointer (&trace, g_variant_unref);
  return trace;
}

CavPlan *
cav_kept_plan_recall (const CavPlanRequest *request, const char *folder)
{
  g_autofree char *place = get_folder (folder);
  g_autofree char *key = NULL;
  g_autofree char *path = NULL;
  g_autoptr (GVariant) trace = NULL;
  CavPlan *plan;

  g_return_val_if_fail (request != NULL, NULL);

  key = create_key (request);
  path = create_path (place, key);
  trace = load_trace (path, key);
  plan = trace != NULL ? cav_planner_retrace (request, trace) : NULL;
  if (plan != NULL)
    (void)utimensat (AT_FDCWD, path, NULL, 0);
  return plan;
}

/* Keeping */

typedef struct
{
  char *path;
  gint64 used;
} Kept;

static void
kept_free (gpointer data)
{
  Kept *kept = data;

  g_free (kept->path);
  g_free (kept);
}

static int
compare_used (gconstpointer a, gconstpointer b)
{
  const Kept *one = *(Kept *const *)a;
  const Kept *other = *(Kept *const *)b;

  return (one->used > other->used) - (one->used < other->used);
}

static void
clear_old (const char *folder)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  g_autoptr (GPtrArray) all = g_ptr_array_new_with_free_func (kept_free);
  const char *name;

  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *path = g_build_filename (folder, name, NULL);
      struct stat about;

      if (cav_storage_clear_temporary (folder, name) || !g_str_has_suffix (name, ENDING)
          || stat (path, &about) != 0)
        continue;
      Kept *kept = g_new0 (Kept, 1);

      kept->path = g_steal_pointer (&path);
      kept->used = about.st_mtim.tv_sec;
      g_ptr_array_add (all, kept);
    }
  g_ptr_array_sort (all, compare_used);
  for (guint i = 0; i + MOST_PLANS < all->len; i++)
    g_unlink (((Kept *)g_ptr_array_index (all, i))->path);
}

void
cav_kept_plan_keep (const CavPlanRequest *request, const CavPlan *plan, const char *folder)
{
  g_autofree char *place = get_folder (folder);
  g_autofree char *key = NULL;
  g_autofree char *path = NULL;
  g_autofree char *sum = NULL;
  g_autoptr (GVariant) trace = NULL;
  g_autoptr (GVariant) file = NULL;
  g_autoptr (GError) error = NULL;

  g_return_if_fail (request != NULL && plan != NULL && plan->usable);

  if (g_mkdir_with_parents (place, 0700) != 0)
    return;
  key = create_key (request);
  path = create_path (place, key);
  trace = cav_plan_create_trace (plan);
  sum = create_sum (trace);
  file = g_variant_ref_sink (g_variant_new ("(ss@" CAV_TRACE_TYPE ")", key, sum, trace));
  if (!cav_storage_write (path, g_variant_get_data (file), g_variant_get_size (file), &error))
    g_debug ("no plan is kept: %s", error->message);
  clear_old (place);
}

CavPlan *
cav_kept_plan_make (const CavPlanRequest *request, const char *folder, GError **error)
{
  const CavPlan *kept;
  CavPlan *plan;

  g_return_val_if_fail (request != NULL, NULL);

  if (request->effort != CAV_EFFORT_THOROUGH)
    return cav_planner_plan (request, error);
  plan = cav_kept_plan_recall (request, folder);
  kept = plan;
  plan
      = plan != NULL ? cav_planner_prefer_known (request, plan) : cav_planner_plan (request, error);
  if (plan != NULL && plan->usable && plan != kept)
    cav_kept_plan_keep (request, plan, folder);
  return plan;
}
