/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "sections.h"

#include "storage/cav-storage.h"

/* Every demo project is planned with its own shop and with the default one, and the tests' own
 * checker finds nothing against the plans. */

typedef struct
{
  const char *name;
  gboolean default_shop;
  CavEffort effort;
} Demo;

static const Demo demos[] = {
  { "plain-steps", FALSE, CAV_EFFORT_THOROUGH },   { "plain-steps", TRUE, CAV_EFFORT_QUICK },
  { "cove-and-bead", FALSE, CAV_EFFORT_THOROUGH }, { "cove-and-bead", TRUE, CAV_EFFORT_QUICK },
  { "wide-scoop", FALSE, CAV_EFFORT_THOROUGH },    { "wide-scoop", TRUE, CAV_EFFORT_QUICK },
};

static void
test_demo (gconstpointer data)
{
  const Demo *demo = data;
  g_autoptr (GError) error = NULL;
  g_autofree char *base = g_strconcat (demo->name, ".cavetto", NULL);
  g_autofree char *file
      = g_test_build_filename (G_TEST_DIST, "..", "..", "docs", "examples", base, NULL);
  g_autoptr (CavProject) project = cav_storage_load_project (file, &error);
  g_autoptr (CavShop) shop = cav_shop_new_default ();
  g_autoptr (CavPlan) plan = NULL;
  g_autofree char *complaints = NULL;

  g_assert_no_error (error);
  if (demo->default_shop)
    cav_project_set_shop (project, shop);
  plan = cav_project_plan (project, demo->effort, &error);
  g_assert_no_error (error);
  g_assert_true (plan->usable);
  g_assert_cmpfloat (plan->gouge, <=, 0.02);
  complaints = section_check (plan);
  g_assert_cmpstr (complaints, ==, "");
  if (demo->effort == CAV_EFFORT_THOROUGH)
    {
      g_autoptr (CavPlan) quick = cav_project_plan (project, CAV_EFFORT_QUICK, &error);

      g_assert_no_error (error);
      g_assert_cmpuint (plan->places->len, ==, 0);
      /* A quick plan may be cheap because it leaves more than the limit. */
      if (quick->places->len == 0)
        g_assert_cmpfloat (plan->minutes, <=, quick->minutes + 1e-9);
    }
  /* The scoop's own shop has no cutter for it. */
  if (g_str_equal (demo->name, "wide-scoop") && !demo->default_shop)
    {
      gboolean across = FALSE;

      for (guint i = 0; i < plan->setups->len; i++)
        across |= ((CavSetup *)g_ptr_array_index (plan->setups, i))->machine == CAV_MACHINE_COVE;
      g_assert_true (across);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (demos); i++)
    {
      g_autofree char *path = g_strdup_printf ("/milling/demos/%s/%s", demos[i].name,
                                               demos[i].default_shop ? "default-shop" : "own-shop");

      g_test_add_data_func (path, &demos[i], test_demo);
    }
  return g_test_run ();
}
