/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "sections.h"

#include <math.h>

#define CORNER(kind_, corner_, ...)                                                                \
  {                                                                                                \
    .kind = CAV_CUT_##kind_, .anchor = CAV_ANCHOR_CORNER, .place = CAV_CORNER_##corner_,           \
    .numbers                                                                                       \
        = { __VA_ARGS__ }                                                                          \
  }
#define SIDE(kind_, side_, ...)                                                                    \
  {                                                                                                \
    .kind = CAV_CUT_##kind_, .anchor = CAV_ANCHOR_SIDE, .place = CAV_SIDE_##side_,                 \
    .numbers                                                                                       \
        = { __VA_ARGS__ }                                                                          \
  }
#define W [CAV_CUT_WIDTH]
#define D [CAV_CUT_DEPTH]
#define AT [CAV_CUT_POSITION]
#define RABBET(w_, d_) CORNER (RABBET, BACK_INSIDE, W = (w_), D = (d_))
#define FLUTE(position_, w_, d_)                                                                   \
  {                                                                                                \
    .kind = CAV_CUT_GROOVE, .anchor = CAV_ANCHOR_SIDE, .place = CAV_SIDE_FACE,                     \
    .form = CAV_FORM_ROUND,                                                                        \
    .numbers                                                                                       \
        = { AT = (position_),                                                                      \
            W = (w_),                                                                              \
            D = (d_) }                                                                             \
  }

/* clang-format off */
static const Section sections[] = {
  { "rabbet", 45, 20, 1, { RABBET (6, 10) } },
  { "rabbet-cove", 45, 22, 2, { RABBET (6, 10), CORNER (COVE, FACE_INSIDE, W = 9.5, D = 9.5) } },
  { "steps", 60, 25, 2,
    { RABBET (6, 10), CORNER (STEPS, FACE_INSIDE, [CAV_CUT_COUNT] = 3, [CAV_CUT_RUN] = 9,
                              [CAV_CUT_RISE] = 3.5) } },
  { "bead", 50, 20, 2,
    { RABBET (6, 9), { .kind = CAV_CUT_BEAD, .anchor = CAV_ANCHOR_SIDE, .place = CAV_SIDE_FACE,
                       .form = CAV_FORM_FLUSH,
                       .numbers = { AT = 12, W = 6.4, [CAV_CUT_QUIRK_WIDTH] = 3 } } } },
  { "ogee", 50, 22, 2,
    { RABBET (6, 10), { .kind = CAV_CUT_OGEE, .anchor = CAV_ANCHOR_CORNER,
                        .place = CAV_CORNER_FACE_INSIDE, .form = CAV_FORM_RECTA,
                        .numbers = { W = 8, D = 8, [CAV_CUT_SHARE] = 0.5 } } } },
  { "chamfers", 40, 20, 3,
    { RABBET (6, 10), CORNER (CHAMFER, FACE_INSIDE, W = 3, D = 3),
      CORNER (CHAMFER, FACE_OUTSIDE, W = 5, D = 5) } },
  { "bevel", 55, 22, 2,
    { RABBET (7, 8), SIDE (BEVEL, FACE, [CAV_CUT_START_HEIGHT] = 8, [CAV_CUT_END_HEIGHT] = 0) } },
  { "wide-hollow", 80, 25, 2, { RABBET (7, 9), SIDE (COVE, FACE, AT = 42, W = 50, D = 8) } },
  { "t-slot", 50, 25, 2,
    { RABBET (6, 10), { .kind = CAV_CUT_DRAWN, .anchor = CAV_ANCHOR_FREE } } },
  { "sight-strip", 16, 14, 3,
    { RABBET (5, 6), CORNER (ROUND, FACE_INSIDE, W = 6.35, D = 6.35),
      CORNER (ROUND, FACE_OUTSIDE, W = 6.35, D = 6.35) } },
  { "deep-l", 30, 45, 2, { RABBET (16, 30), CORNER (ROUND, FACE_INSIDE, W = 6.35, D = 6.35) } },
  { "inches", 44.45, 19.05, 3,
    { RABBET (6.35, 9.525), CORNER (ROUND, FACE_OUTSIDE, W = 6.35, D = 6.35),
      CORNER (COVE, FACE_INSIDE, W = 6.35, D = 6.35) } },
  { "flutes", 60, 20, 4, { RABBET (6, 10), FLUTE (18, 6.4, 3.2), FLUTE (30, 6.4, 3.2),
                           FLUTE (42, 6.4, 3.2) } },
  { "back-bevel", 60, 22, 3,
    { RABBET (6, 8), CORNER (CHAMFER, BACK_OUTSIDE, W = 18, D = 12),
      CORNER (COVE, FACE_INSIDE, W = 12.7, D = 9.5) } },
  { "eight", 75, 28, 8,
    { RABBET (6, 12), CORNER (COVE, FACE_INSIDE, W = 9.5, D = 9.5),
      CORNER (ROUND, FACE_OUTSIDE, W = 6.35, D = 6.35), FLUTE (22, 6.4, 3.2),
      SIDE (COVE, FACE, AT = 44, W = 24, D = 5), CORNER (CHAMFER, BACK_OUTSIDE, W = 3, D = 3),
      SIDE (GROOVE, OUTSIDE, AT = 12, W = 3.2, D = 4),
      SIDE (GROOVE, BACK, AT = 48, W = 6.4, D = 3) } },
};
/* clang-format on */

guint
section_get_count (void)
{
  return G_N_ELEMENTS (sections);
}

const Section *
section_get (guint index)
{
  return &sections[index];
}

const Section *
section_find (const char *name)
{
  for (guint i = 0; i < G_N_ELEMENTS (sections); i++)
    if (g_str_equal (sections[i].name, name))
      return &sections[i];
  g_error ("There is no section %s.", name);
}

/* A slot with a wider one below it, in a face at y = 25: no tool of the stock shops gets there. */
static CavPath *
create_t_slot (void)
{
  CavPath *path = cav_path_new ();

  static const CavPoint points[] = { { 27, 26 }, { 27, 22 }, { 23, 22 }, { 23, 18 },
                                     { 37, 18 }, { 37, 22 }, { 33, 22 }, { 33, 26 } };

  cav_path_move_to (path, points[0]);
  for (guint i = 1; i < G_N_ELEMENTS (points); i++)
    cav_path_line_to (path, points[i]);
  cav_path_close (path);
  return path;
}

CavCut *
section_cut_create (const SectionCut *from)
{
  CavCut *cut;

  if (from->kind == CAV_CUT_DRAWN)
    {
      g_autoptr (CavPath) path = create_t_slot ();

      return cav_cut_new_drawn (path);
    }
  if (from->anchor == CAV_ANCHOR_CORNER)
    cut = cav_cut_new_at_corner (from->kind, (CavCorner)from->place);
  else
    cut = cav_cut_new_on_side (from->kind, (CavSide)from->place);
  if (from->form != CAV_FORM_PLAIN)
    cut->form = from->form;
  for (guint i = 0; i < CAV_N_CUT_NUMBERS; i++)
    cut->numbers[i] = from->numbers[i];
  return cut;
}

CavProfile *
section_create_profile (const Section *section)
{
  g_autoptr (GPtrArray) cuts = g_ptr_array_new_with_free_func ((GDestroyNotify)cav_cut_free);
  CavBlank blank = { section->width, section->thickness };
  CavProfile *profile;

  for (guint i = 0; i < section->n_cuts; i++)
    g_ptr_array_add (cuts, section_cut_create (&section->cuts[i]));
  profile = cav_profile_new (&blank, cuts);
  if (!cav_profile_is_sound (profile))
    g_error ("The section %s is not sound: %s", section->name,
             profile->findings->len > 0
                 ? ((CavFinding *)g_ptr_array_index (profile->findings, 0))->message
                 : "no finding");
  return profile;
}

const char *
section_shop_get_name (SectionShop shop)
{
  static const char *const names[] = { "default", "saw", "router", "grooving" };

  return names[shop];
}

CavShop *
section_shop_create (SectionShop shop)
{
  switch (shop)
    {
    case SECTION_SHOP_SAW:
      return cav_shop_new_saw_only ();
    case SECTION_SHOP_ROUTER:
      return cav_shop_new_router_only ();
    case SECTION_SHOP_GROOVING:
      return cav_shop_new_grooving ();
    case SECTION_SHOP_DEFAULT:
    case SECTION_N_SHOPS:
    default:
      return cav_shop_new_default ();
    }
}

CavPlan *
section_plan (const CavProfile *profile, const CavShop *shop, CavEffort effort, GError **error)
{
  CavPlanRequest request = {
    .blank = profile->blank,
    .profile = profile->region,
    .shop = shop,
    .rails = 4,
    .length = 3200,
    .effort = effort,
  };

  return cav_planner_plan (&request, error);
}

/* What each pass says of pieces that come off. */
static void
compare_flags (GString *text, const CavPlan *plan, const CheckReport *report)
{
  guint number = 0;

  for (guint s = 0; s < plan->setups->len; s++)
    {
      const CavSetup *setup = g_ptr_array_index (plan->setups, s);

      for (guint p = 0; p < setup->passes->len && number < report->passes->len; p++, number++)
        {
          const CavPass *pass = g_ptr_array_index (setup->passes, p);
          const CheckPassFigures *figures
              = &g_array_index (report->passes, CheckPassFigures, number);

          /* Whether a crumb is dust is a matter of a pixel: only what is plain is compared. */
          if (!pass->severs && figures->severs && figures->severed > 1.0)
            g_string_append_printf (text, "pass %u severs %.2f mm² and does not say so\n",
                                    number + 1, figures->severed);
          if (pass->severs && figures->severed < 0.05)
            g_string_append_printf (text, "pass %u says that it severs, and nothing comes off\n",
                                    number + 1);
          if (!pass->frees_rail != !figures->frees_rail)
            g_string_append_printf (text, "pass %u frees the rail: says %d, is %d\n", number + 1,
                                    pass->frees_rail, figures->frees_rail);
        }
    }
}

char *
section_check (const CavPlan *plan)
{
  g_autoptr (CheckPlan) check = check_plan_from_plan (plan);
  g_autoptr (CheckReport) report = check_plan_run (check);
  g_autofree char *rules = check_report_to_string (report);
  GString *text = g_string_new (rules);
  double removed = 0;
  double sum;

  for (guint s = 0; s < plan->setups->len; s++)
    {
      const CavSetup *setup = g_ptr_array_index (plan->setups, s);

      for (guint p = 0; p < setup->passes->len; p++)
        removed += ((CavPass *)g_ptr_array_index (setup->passes, p))->removes;
    }
  /* The plan's own figures, but for what comes off, of which it says nothing. What a sweep may
   * take of the profile (0.02 deep) is in the sum twice. */
  sum = cav_region_get_area (plan->profile) + removed + report->severed + plan->leftover_area;
  if (fabs (sum - report->blank_area) > 0.3 + 0.002 * report->blank_area)
    g_string_append_printf (text,
                            "profile, removed %.2f, severed %.2f and leftover %.2f are %.2f in "
                            "all, the blank %.2f\n",
                            removed, report->severed, plan->leftover_area, sum, report->blank_area);
  compare_flags (text, plan, report);
  if (plan->gouge > 0.02 + 1e-6)
    g_string_append_printf (text, "the plan says that it gouges by %.3f\n", plan->gouge);
  return g_string_free (text, FALSE);
}
