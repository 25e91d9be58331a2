/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "plan-checker.h"

#include <glib.h>
#include <libxml/parser.h>
#include <math.h>

/* From a CavPlan and from a plan file. */

static void
add_blade (CheckPlan *plan, const CavBlade *source)
{
  CheckTool *tool = check_plan_add_blade (plan, source->id, source->diameter, source->kerf);

  tool->height = source->height;
  tool->tilt = source->tilt;
  tool->bite = source->bite;
}

static void
add_cutter (CheckPlan *plan, const CavCutter *source)
{
  CheckTool *tool = check_plan_add_cutter (plan, source->id, NULL, 0);

  for (guint i = 0; i < source->silhouette->len; i++)
    {
      CavSilhouettePoint from = g_array_index (source->silhouette, CavSilhouettePoint, i);
      CheckPoint point = { from.r, from.z };

      g_array_append_val (tool->silhouette, point);
    }
  tool->length = source->length;
  tool->bite = source->bite;
  tool->speed = source->speed;
  if (source->has_pilot)
    {
      tool->pilot_radius = source->pilot_radius;
      tool->pilot_length = source->pilot_length;
    }
}

static void
add_shop (CheckPlan *plan, const CavShop *shop)
{
  const CavRates *rates = &shop->rates;

  for (guint i = 0; i < shop->blades->len; i++)
    add_blade (plan, g_ptr_array_index (shop->blades, i));
  for (guint i = 0; i < shop->cutters->len; i++)
    add_cutter (plan, g_ptr_array_index (shop->cutters, i));
  plan->step = shop->limits.step;
  plan->push_gap = shop->limits.push_gap;
  plan->cove_layer = shop->limits.cove_layer;
  plan->leftover_limit = shop->limits.leftover;
  plan->rates = (CheckRates){
    rates->saw_setup,    rates->tilt_setup,    rates->cove_setup, rates->blade_change,
    rates->router_setup, rates->router_return, rates->turn,       rates->move,
    rates->metre,        rates->cove_metre,    rates->rail,       rates->scrape_metre,
    rates->hand_volume,  rates->hand_surface,
  };
}

static void
add_profile (CheckPlan *plan, const CavRegion *region)
{
  for (guint r = 0; r < cav_region_get_ring_count (region); r++)
    {
      guint n;
      const CavPoint *points = cav_region_get_ring_points (region, r, &n);
      GArray *ring = g_array_new (FALSE, FALSE, sizeof (CheckPoint));

      for (guint i = 0; i < n; i++)
        {
          CheckPoint point = { points[i].x, points[i].y };

          g_array_append_val (ring, point);
        }
      g_ptr_array_add (plan->profile, ring);
    }
}

static CheckSide
read_side (CavSide side)
{
  switch (side)
    {
    case CAV_SIDE_BACK:
      return CHECK_SIDE_BACK;
    case CAV_SIDE_FACE:
      return CHECK_SIDE_FACE;
    case CAV_SIDE_INSIDE:
      return CHECK_SIDE_INSIDE;
    case CAV_SIDE_OUTSIDE:
    default:
      return CHECK_SIDE_OUTSIDE;
    }
}

static void
add_setup (CheckPlan *plan, const CavSetup *source)
{
  CheckMachine machine = CHECK_MACHINE_ROUTER;
  CheckSetup *setup;

  if (source->machine == CAV_MACHINE_SAW)
    machine = CHECK_MACHINE_SAW;
  else if (source->machine == CAV_MACHINE_COVE)
    machine = CHECK_MACHINE_COVE;
  setup = check_plan_add_setup (plan, machine, source->tool);
  setup->tilt = machine == CHECK_MACHINE_SAW ? source->tilt : 0;
  setup->angle = machine == CHECK_MACHINE_COVE ? source->angle : 0;
  for (guint p = 0; p < source->passes->len; p++)
    {
      const CavPass *pass = g_ptr_array_index (source->passes, p);

      check_setup_add_pass (setup, read_side (pass->down), read_side (pass->against), pass->fence,
                            pass->height);
      g_array_index (setup->passes, CheckPass, p).removes = pass->removes;
    }
}

CheckPlan *
check_plan_from_plan (const CavPlan *source)
{
  CheckPlan *plan = check_plan_new ();

  plan->width = source->blank.width;
  plan->thickness = source->blank.thickness;
  plan->rails = source->rails;
  plan->length = source->length;
  add_shop (plan, source->shop);
  add_profile (plan, source->profile);
  for (guint s = 0; s < source->setups->len; s++)
    add_setup (plan, g_ptr_array_index (source->setups, s));
  plan->leftover_area = source->leftover_area;
  plan->leftover_thickness = source->leftover_thickness;
  for (guint i = 0; i < source->places->len; i++)
    {
      const CavLeftoverPlace *from = g_ptr_array_index (source->places, i);
      CheckPlace place = { from->place.x, from->place.y, from->thickness };

      g_array_append_val (plan->places, place);
    }
  plan->minutes = source->minutes;
  plan->minutes_setups = source->minutes_setups;
  plan->minutes_passes = source->minutes_passes;
  plan->minutes_hand = source->minutes_hand;
  return plan;
}

/* A reader that goes wrong once and then gives zeros; the first thing that was wrong is kept. */
typedef struct
{
  GError *error;
} Reader;

static double
read_number (Reader *reader, const xmlNode *node, const char *name, double otherwise)
{
  xmlChar *text = xmlGetProp (node, (const xmlChar *)name);
  char *end = NULL;
  double value = otherwise;

  if (text != NULL)
    {
      value = g_ascii_strtod ((const char *)text, &end);
      if (end == (const char *)text || *end != '\0')
        value = NAN;
    }
  if (!isfinite (value))
    {
      if (reader->error == NULL)
        g_set_error (&reader->error, G_FILE_ERROR, G_FILE_ERROR_INVAL,
                     "line %ld: <%s> has no figure %s", xmlGetLineNo (node),
                     (const char *)node->name, name);
      value = 0;
    }
  xmlFree (text);
  return value;
}

static char *
read_text (const xmlNode *node, const char *name)
{
  xmlChar *text = xmlGetProp (node, (const xmlChar *)name);
  char *copy = g_strdup (text != NULL ? (const char *)text : "");

  xmlFree (text);
  return copy;
}

static int
read_word (Reader *reader, const xmlNode *node, const char *name, const char *const *words)
{
  g_autofree char *text = read_text (node, name);

  for (int i = 0; words[i] != NULL; i++)
    if (g_str_equal (words[i], text))
      return i;
  if (reader->error == NULL)
    g_set_error (&reader->error, G_FILE_ERROR, G_FILE_ERROR_INVAL, "line %ld: %s is “%s”",
                 xmlGetLineNo (node), name, text);
  return 0;
}

static gboolean
is_element (const xmlNode *node, const char *name)
{
  return node->type == XML_ELEMENT_NODE && g_str_equal ((const char *)node->name, name);
}

static GArray *
read_points (Reader *reader, const xmlNode *parent, const char *x, const char *y)
{
  GArray *points = g_array_new (FALSE, FALSE, sizeof (CheckPoint));

  for (const xmlNode *node = parent->children; node != NULL; node = node->next)
    if (is_element (node, "point"))
      {
        CheckPoint point
            = { read_number (reader, node, x, NAN), read_number (reader, node, y, NAN) };

        g_array_append_val (points, point);
      }
  return points;
}

static void
read_tools (Reader *reader, CheckPlan *plan, const xmlNode *parent)
{
  for (const xmlNode *node = parent->children; node != NULL; node = node->next)
    {
      g_autofree char *id = node->type == XML_ELEMENT_NODE ? read_text (node, "id") : NULL;
      CheckTool *tool;

      if (is_element (node, "blade"))
        {
          tool = check_plan_add_blade (plan, id, read_number (reader, node, "diameter", NAN),
                                       read_number (reader, node, "kerf", NAN));
          tool->height = read_number (reader, node, "height", NAN);
          tool->tilt = read_number (reader, node, "tilt", NAN);
        }
      else if (is_element (node, "cutter"))
        {
          g_autoptr (GArray) points = read_points (reader, node, "r", "z");

          tool = check_plan_add_cutter (plan, id, NULL, 0);
          g_array_append_vals (tool->silhouette, points->data, points->len);
          tool->length = read_number (reader, node, "length", NAN);
          tool->speed = read_number (reader, node, "speed", NAN);
          tool->pilot_radius = read_number (reader, node, "pilot-radius", 0);
          tool->pilot_length = read_number (reader, node, "pilot-length", 0);
        }
      else
        continue;
      tool->bite = read_number (reader, node, "bite", NAN);
    }
}

static void
read_setup (Reader *reader, CheckPlan *plan, const xmlNode *parent)
{
  static const char *const machines[] = { "saw", "cove", "router", NULL };
  static const char *const sides[] = { "back", "face", "inside", "outside", NULL };
  g_autofree char *tool = read_text (parent, "tool");
  CheckMachine machine = (CheckMachine)read_word (reader, parent, "machine", machines);
  CheckSetup *setup = check_plan_add_setup (plan, machine, tool);

  if (machine == CHECK_MACHINE_SAW)
    setup->tilt = read_number (reader, parent, "tilt", 0);
  if (machine == CHECK_MACHINE_COVE)
    setup->angle = read_number (reader, parent, "angle", NAN);
  for (const xmlNode *node = parent->children; node != NULL; node = node->next)
    if (is_element (node, "pass"))
      {
        CheckPass pass = {
          (CheckSide)read_word (reader, node, "down", sides),
          (CheckSide)read_word (reader, node, "against", sides),
          read_number (reader, node, "fence", NAN),
          read_number (reader, node, "height", NAN),
          read_number (reader, node, "removes", NAN),
        };

        g_array_append_val (setup->passes, pass);
      }
}

static void
read_leftover (Reader *reader, CheckPlan *plan, const xmlNode *parent)
{
  plan->leftover_area = read_number (reader, parent, "area", NAN);
  plan->leftover_thickness = read_number (reader, parent, "thickness", NAN);
  plan->leftover_limit = read_number (reader, parent, "limit", NAN);
  for (const xmlNode *node = parent->children; node != NULL; node = node->next)
    if (is_element (node, "place"))
      {
        CheckPlace place
            = { read_number (reader, node, "x", NAN), read_number (reader, node, "y", NAN),
                read_number (reader, node, "thickness", NAN) };

        g_array_append_val (plan->places, place);
      }
}

static void
read_plan (Reader *reader, CheckPlan *plan, const xmlNode *root)
{
  plan->rails = (int)read_number (reader, root, "rails", NAN);
  plan->length = read_number (reader, root, "length", NAN);
  plan->step = read_number (reader, root, "step", NAN);
  for (const xmlNode *node = root->children; node != NULL; node = node->next)
    {
      if (is_element (node, "blank"))
        {
          plan->width = read_number (reader, node, "width", NAN);
          plan->thickness = read_number (reader, node, "thickness", NAN);
        }
      else if (is_element (node, "profile"))
        g_ptr_array_add (plan->profile, read_points (reader, node, "x", "y"));
      else if (is_element (node, "tools"))
        read_tools (reader, plan, node);
      else if (is_element (node, "setup"))
        read_setup (reader, plan, node);
      else if (is_element (node, "leftover"))
        read_leftover (reader, plan, node);
      else if (is_element (node, "minutes"))
        {
          plan->minutes = read_number (reader, node, "total", NAN);
          plan->minutes_setups = read_number (reader, node, "setups", NAN);
          plan->minutes_passes = read_number (reader, node, "passes", NAN);
          plan->minutes_hand = read_number (reader, node, "hand", NAN);
        }
    }
}

CheckPlan *
check_plan_from_file (const char *file_name, GError **error)
{
  xmlDoc *doc = xmlReadFile (file_name, NULL, XML_PARSE_NONET);
  g_autoptr (CheckPlan) plan = check_plan_new ();
  Reader reader = { NULL };
  const xmlNode *root;

  if (doc == NULL)
    {
      g_set_error (error, G_FILE_ERROR, G_FILE_ERROR_INVAL, "%s is not XML", file_name);
      return NULL;
    }
  root = xmlDocGetRootElement (doc);
  if (root == NULL || !is_element (root, "plan"))
    g_set_error (&reader.error, G_FILE_ERROR, G_FILE_ERROR_INVAL, "not a plan");
  else
    read_plan (&reader, plan, root);
  xmlFreeDoc (doc);
  if (reader.error != NULL)
    {
      g_propagate_prefixed_error (error, reader.error, "%s: ", file_name);
      return NULL;
    }
  return g_steal_pointer (&plan);
}
