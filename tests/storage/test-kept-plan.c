/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "storage/cav-kept-plan.h"

#include <glib/gstdio.h>
#include <string.h>
#include <utime.h>

#include "storage-test.h"

/* A project that is planned in no time, as a request. */
typedef struct
{
  char *folder; /* nothing in it yet, not even itself */
  CavProject *project;
  CavPlanRequest request;
} Fixture;

static void
update_request (Fixture *self)
{
  g_autoptr (GError) error = NULL;

  g_assert_true (
      cav_project_get_plan_request (self->project, CAV_EFFORT_THOROUGH, &self->request, &error));
  g_assert_no_error (error);
}

static void
set_up (Fixture *self, gconstpointer data)
{
  g_autofree char *parent = storage_test_make_folder ();
  g_autoptr (GBytes) bytes = storage_test_bytes (
      "<cavetto version=\"1\" unit=\"mm\"><blank width=\"45\" thickness=\"22\"/>"
      "<rails count=\"4\" length=\"1480\"/><cuts>"
      "<rabbet corner=\"back-inside\" width=\"6\" depth=\"10\"/></cuts></cavetto>");
  g_autoptr (GError) error = NULL;

  self->folder = g_build_filename (parent, "plans", NULL);
  self->project = cav_storage_project_from_bytes (bytes, "fern", &error);
  g_assert_no_error (error);
  update_request (self);
}

static void
tear_down (Fixture *self, gconstpointer data)
{
  g_autofree char *parent = g_path_get_dirname (self->folder);

  if (g_file_test (self->folder, G_FILE_TEST_EXISTS))
    storage_test_remove_folder (self->folder);
  storage_test_remove_folder (parent);
  g_free (self->folder);
  g_object_unref (self->project);
}

static CavPlan *
make (Fixture *self)
{
  g_autoptr (GError) error = NULL;
  CavPlan *plan = cav_kept_plan_make (&self->request, self->folder, &error);

  g_assert_no_error (error);
  g_assert_true (plan->usable);
  return plan;
}

/* (transfer full) The names of what is kept. */
static GPtrArray *
list (Fixture *self)
{
  GPtrArray *names = g_ptr_array_new_with_free_func (g_free);
  g_autoptr (GDir) dir = g_dir_open (self->folder, 0, NULL);
  const char *name;

  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL)
    g_ptr_array_add (names, g_strdup (name));
  return names;
}

static void
assert_kept (Fixture *self, guint n)
{
  g_autoptr (GPtrArray) names = list (self);

  g_assert_cmpuint (names->len, ==, n);
}

static char *
dup_only (Fixture *self)
{
  g_autoptr (GPtrArray) names = list (self);

  g_assert_cmpuint (names->len, ==, 1);
  return g_build_filename (self->folder, (char *)g_ptr_array_index (names, 0), NULL);
}

/* What is recalled makes the same plan file, to the last byte. */
static void
test_recalled (Fixture *self, gconstpointer data)
{
  g_autoptr (CavPlan) none = cav_kept_plan_recall (&self->request, self->folder);
  g_autoptr (CavPlan) plan = make (self);
  g_autoptr (CavPlan) again = cav_kept_plan_recall (&self->request, self->folder);
  g_autoptr (GBytes) one = cav_storage_plan_to_bytes (plan, NULL);
  g_autoptr (GBytes) other = NULL;

  g_assert_null (none);
  g_assert_nonnull (again);
  other = cav_storage_plan_to_bytes (again, NULL);
  g_assert_true (g_bytes_equal (one, other));
  assert_kept (self, 1);
}

/* Everything that a plan depends on makes it another one. */
static void
test_key (Fixture *self, gconstpointer data)
{
  g_autoptr (CavPlan) plan = make (self);
  g_autoptr (CavShop) shop = cav_shop_copy (self->request.shop);
  g_autoptr (CavRegion) region = cav_region_new_box (0, 0, 44, 21);
  CavPlanRequest rows[6];

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    rows[i] = self->request;
  rows[0].blank.width += 1e-9;
  rows[1].blank.thickness += 1;
  rows[2].rails++;
  rows[3].length += 0.001;
  rows[4].profile = region;
  shop->rates.metre += 0.01;
  rows[5].shop = shop;
  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    g_assert_null (cav_kept_plan_recall (&rows[i], self->folder));
  g_clear_pointer (&plan, cav_plan_unref);
  plan = cav_kept_plan_recall (&self->request, self->folder);
  g_assert_nonnull (plan);
}

/* Quick plans are made for the screen and kept nowhere. */
static void
test_quick (Fixture *self, gconstpointer data)
{
  self->request.effort = CAV_EFFORT_QUICK;
  g_autoptr (CavPlan) plan = make (self);

  assert_kept (self, 0);
}

/* Cut short, written over, changed bit by bit: searched again, and kept anew. */
static void
test_damaged (Fixture *self, gconstpointer data)
{
  g_autoptr (CavPlan) plan = make (self);
  g_autofree char *path = dup_only (self);
  g_autofree char *whole = NULL;
  gsize length;

  g_assert_true (g_file_get_contents (path, &whole, &length, NULL));
  for (gsize i = 0; i <= length; i++)
    {
      g_autoptr (CavPlan) again = NULL;
      g_autofree char *other = g_memdup2 (whole, length);

      g_assert_true (g_file_set_contents (path, whole, (gssize)i, NULL));
      again = cav_kept_plan_recall (&self->request, self->folder);
      g_assert_cmpint (again != NULL, ==, i == length);
      if (i == length)
        break;
      other[i] = (char)(other[i] ^ 0x41);
      g_assert_true (g_file_set_contents (path, other, (gssize)length, NULL));
      again = cav_kept_plan_recall (&self->request, self->folder);
      g_assert_null (again);
    }
  g_assert_true (g_file_set_contents (path, "not a plan", -1, NULL));
  {
    g_autoptr (CavPlan) made = make (self);
    g_autoptr (CavPlan) again = cav_kept_plan_recall (&self->request, self->folder);

    g_assert_nonnull (again);
  }
}

/* A plan of one project under the name of another is not taken for it. */
static void
test_wrong_name (Fixture *self, gconstpointer data)
{
  g_autoptr (CavPlan) plan = make (self);
  g_autofree char *first = dup_only (self);
  g_autofree char *bytes = NULL;
  gsize length;
  g_autoptr (GPtrArray) names = NULL;

  g_assert_true (g_file_get_contents (first, &bytes, &length, NULL));
  self->request.length += 1;
  g_clear_pointer (&plan, cav_plan_unref);
  plan = make (self);
  names = list (self);
  g_assert_cmpuint (names->len, ==, 2);
  for (guint i = 0; i < names->len; i++)
    {
      g_autofree char *path
          = g_build_filename (self->folder, (char *)g_ptr_array_index (names, i), NULL);

      if (!g_str_equal (path, first))
        g_assert_true (g_file_set_contents (path, bytes, (gssize)length, NULL));
    }
  g_assert_null (cav_kept_plan_recall (&self->request, self->folder));
}

/* Where nothing can be kept there is a plan all the same. */
static void
test_no_folder (Fixture *self, gconstpointer data)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (CavPlan) plan = cav_kept_plan_make (&self->request, "/dev/null/plans", &error);

  g_assert_no_error (error);
  g_assert_true (plan->usable);
}

/* The ones that were not used for longest go. */
static void
test_many (Fixture *self, gconstpointer data)
{
  g_autoptr (CavPlan) plan = make (self);
  g_autofree char *path = dup_only (self);

  for (int i = 0; i < 230; i++)
    {
      g_autofree char *name = g_strdup_printf ("%s/%03d.plan", self->folder, i);
      struct utimbuf times = { 1000 + i, 1000 + i };

      g_assert_true (g_file_set_contents (name, "x", 1, NULL));
      g_assert_cmpint (utime (name, &times), ==, 0);
    }
  cav_kept_plan_keep (&self->request, plan, self->folder);
  assert_kept (self, 200);
  g_assert_true (g_file_test (path, G_FILE_TEST_EXISTS));
  for (int i = 0; i < 230; i++)
    {
      g_autofree char *name = g_strdup_printf ("%s/%03d.plan", self->folder, i);

      g_assert_cmpint (g_file_test (name, G_FILE_TEST_EXISTS), ==, i >= 31);
    }
}

/* What a write that was broken off long ago has left goes with the old plans. */
static void
test_half (Fixture *self, gconstpointer data)
{
  g_autoptr (CavPlan) plan = make (self);
  g_autofree char *half = g_build_filename (self->folder, ".cavetto-abcdef", NULL);
  struct utimbuf times = { 1000, 1000 };

  g_assert_true (g_file_set_contents (half, "x", 1, NULL));
  cav_kept_plan_keep (&self->request, plan, self->folder);
  g_assert_true (g_file_test (half, G_FILE_TEST_EXISTS));
  g_assert_cmpint (utime (half, &times), ==, 0);
  cav_kept_plan_keep (&self->request, plan, self->folder);
  g_assert_false (g_file_test (half, G_FILE_TEST_EXISTS));
  assert_kept (self, 1);
}

int
main (int argc, char **argv)
{
  storage_test_init (&argc, &argv);
#define ADD(name, function)                                                                        \
  g_test_add ("/storage/kept-plan/" name, Fixture, NULL, set_up, function, tear_down)
  ADD ("recalled", test_recalled);
  ADD ("key", test_key);
  ADD ("quick", test_quick);
  ADD ("damaged", test_damaged);
  ADD ("wrong-name", test_wrong_name);
  ADD ("no-folder", test_no_folder);
  ADD ("many", test_many);
  ADD ("half", test_half);
  return g_test_run ();
}
