/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "sections.h"

#include <math.h>

/* The light last pass of surfaces that show, as the user chooses. */

/* Something of the profile that shows has to be this long, mm, and stands so much under a sweep. */
#define SHOWN_LEAST 0.7
#define TOUCH 0.03

/* TRUE where nothing of the profile stands over a place, toward the face. */
static gboolean
is_open_upward (const CavPlan *plan, CavPoint place)
{
  for (double y = place.y + 0.06; y < plan->blank.thickness; y += 0.1)
    if (cav_region_contains (plan->profile, CAV_POINT (place.x, y)))
      return FALSE;
  return TRUE;
}

/* Length of finished outline that a pass leaves and that is seen from the face. */
static double
get_shown_length (const CavPlan *plan, const CavPass *pass)
{
  double shown = 0;

  for (guint ring = 0; ring < cav_region_get_ring_count (plan->profile); ring++)
    {
      guint n;
      const CavPoint *points = cav_region_get_ring_points (plan->profile, ring, &n);

      for (guint i = 0; i < n; i++)
        {
          CavPoint p = points[i], q = points[(i + 1) % n];
          double length = cav_point_distance (p, q);

          for (double at = 0.05; at < length; at += 0.1)
            {
              CavPoint over = { p.x + at / length * (q.x - p.x) + TOUCH * (q.y - p.y) / length,
                                p.y + at / length * (q.y - p.y) - TOUCH * (q.x - p.x) / length };

              if (cav_region_contains (pass->swept, over) && over.x > 0
                  && over.x < plan->blank.width && over.y < plan->blank.thickness
                  && is_open_upward (plan, over))
                shown += MIN (0.1, length);
            }
        }
    }
  return shown;
}

/* TRUE where a pass only goes a little on from the one before it, or takes no more than that. */
static gboolean
is_light (const CavPlan *plan, const CavPass *before, const CavPass *pass)
{
  double light = plan->shop->limits.light_layer + 1e-6;

  if (pass->bite <= light || pass->height <= light)
    return TRUE;
  if (before == NULL || before->down != pass->down || before->against != pass->against)
    return FALSE;
  return (fabs (before->fence - pass->fence) < 1e-6 && pass->height - before->height <= light
          && pass->height > before->height)
         || (fabs (before->height - pass->height) < 1e-6 && pass->fence - before->fence <= light
             && pass->fence > before->fence);
}

/* TRUE where the next pass goes on with what this one began. */
static gboolean
goes_on (const CavPass *pass, const CavPass *next)
{
  return next != NULL && next->down == pass->down && next->against == pass->against
         && ((fabs (next->fence - pass->fence) < 1e-6 && next->height > pass->height)
             || (fabs (next->height - pass->height) < 1e-6 && next->fence > pass->fence));
}

static guint
count_heavy (const CavPlan *plan)
{
  guint n_heavy = 0;

  for (guint i = 0; i < plan->setups->len; i++)
    {
      const CavSetup *setup = g_ptr_array_index (plan->setups, i);

      for (guint j = 0; j < setup->passes->len; j++)
        {
          const CavPass *pass = g_ptr_array_index (setup->passes, j);
          const CavPass *before = j > 0 ? g_ptr_array_index (setup->passes, j - 1) : NULL;
          const CavPass *next
              = j + 1 < setup->passes->len ? g_ptr_array_index (setup->passes, j + 1) : NULL;

          n_heavy += !goes_on (pass, next) && !is_light (plan, before, pass)
                     && get_shown_length (plan, pass) > SHOWN_LEAST;
        }
    }
  return n_heavy;
}

typedef struct
{
  const char *section;
  SectionShop shop;
  CavEffort effort;
  gboolean usually_heavy; /* some surface that shows ends with more where nobody asks */
} Row;

static const Row rows[] = {
  { "rabbet-cove", SECTION_SHOP_DEFAULT, CAV_EFFORT_QUICK, TRUE },
  { "rabbet-cove", SECTION_SHOP_ROUTER, CAV_EFFORT_QUICK, FALSE },
  { "steps", SECTION_SHOP_SAW, CAV_EFFORT_QUICK, FALSE },
  { "eight", SECTION_SHOP_DEFAULT, CAV_EFFORT_QUICK, TRUE },
  { "rabbet-cove", SECTION_SHOP_DEFAULT, CAV_EFFORT_THOROUGH, TRUE },
};

static void
test_finish (gconstpointer data)
{
  const Row *row = data;
  g_autoptr (CavProfile) profile = section_create_profile (section_find (row->section));
  g_autoptr (CavShop) shop = section_shop_create (row->shop);
  g_autoptr (CavPlan) usual = section_plan (profile, shop, row->effort, NULL);

  g_assert_false (shop->light_finish);
  shop->light_finish = TRUE;
  g_autoptr (CavPlan) light = section_plan (profile, shop, row->effort, NULL);
  g_autofree char *complaints = section_check (light);

  g_test_message ("usual: %.2f minutes, %u heavy; light: %.2f minutes, %u heavy", usual->minutes,
                  count_heavy (usual), light->minutes, count_heavy (light));
  g_assert_cmpstr (complaints, ==, "");
  g_assert_true (light->usable);
  if (row->usually_heavy)
    g_assert_cmpuint (count_heavy (usual), >, 0);
  g_assert_cmpuint (count_heavy (light), ==, 0);
  /* A light feed more here and there, and nothing else. */
  g_assert_cmpfloat (light->minutes_hand, <=, usual->minutes_hand + 0.01);
  g_assert_cmpfloat (light->minutes, <=, 1.4 * usual->minutes);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *path = g_strdup_printf (
          "/milling/finish/%s/%s/%s", rows[i].section, section_shop_get_name (rows[i].shop),
          rows[i].effort == CAV_EFFORT_QUICK ? "quick" : "thorough");

      g_test_add_data_func (path, &rows[i], test_finish);
    }
  return g_test_run ();
}
