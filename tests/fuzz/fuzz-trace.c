/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "fuzz-target.h"

#include "milling/cav-retrace.h"
#include "storage/cav-storage.h"

/*
 * What is kept of a plan, as the file holds it or as text of the same type, for a molding that is
 * always the same. Whatever comes of it has been proved, and leads to itself again. The sum that
 * guards the file is left out, for whoever can write the file can write a sum.
 */

#define GOUGE_MOST 0.02

static const char molding[]
    = "<cavetto version=\"1\" unit=\"mm\"><blank width=\"45\" thickness=\"22\"/>"
      "<rails count=\"4\" length=\"1480\"/><cuts>"
      "<rabbet corner=\"back-inside\" width=\"6\" depth=\"10\"/>"
      "<bevel side=\"face\" start-height=\"0\" end-height=\"6\"/></cuts></cavetto>";

/* Made once: the engine asks thousands of times a second. */
static const CavPlanRequest *
get_request (void)
{
  static CavPlanRequest request;
  static CavProject *project;
  g_autoptr (GBytes) bytes = NULL;
  g_autoptr (GError) error = NULL;

  if (project != NULL)
    return &request;
  bytes = g_bytes_new_static (molding, strlen (molding));
  project = cav_storage_project_from_bytes (bytes, "molding", &error);
  g_assert_no_error (error);
  g_assert_true (cav_project_get_plan_request (project, CAV_EFFORT_THOROUGH, &request, &error));
  g_assert_no_error (error);
  return &request;
}

/* (nullable) (transfer full) */
static GVariant *
read_trace (const guint8 *data, gsize size)
{
  const GVariantType *type = G_VARIANT_TYPE (CAV_TRACE_TYPE);
  g_autoptr (GVariant) trace = NULL;

  /* The toolkit's reader of such text takes proper text for granted. */
  if (g_utf8_validate ((const char *)data, (gssize)size, NULL))
    trace = g_variant_parse (type, (const char *)data, (const char *)data + size, NULL, NULL);
  if (trace != NULL)
    return g_steal_pointer (&trace);
  g_autoptr (GBytes) bytes = g_bytes_new (data, size);

  return g_variant_ref_sink (g_variant_new_from_bytes (type, bytes, FALSE));
}

int
LLVMFuzzerTestOneInput (const guint8 *data, gsize size)
{
  const CavPlanRequest *request = get_request ();
  g_autoptr (GVariant) trace = read_trace (data, size);
  g_autoptr (CavPlan) plan = cav_planner_retrace (request, trace);
  g_autoptr (CavPlan) again = NULL;
  g_autoptr (GVariant) written = NULL;
  g_autoptr (GVariant) rewritten = NULL;

  if (plan == NULL)
    return 0;
  g_assert_true (plan->usable);
  g_assert_cmpfloat (plan->gouge, <=, GOUGE_MOST);
  written = cav_plan_create_trace (plan);
  again = cav_planner_retrace (request, written);
  g_assert_nonnull (again);
  rewritten = cav_plan_create_trace (again);
  g_assert_true (g_variant_equal (written, rewritten));
  return 0;
}
