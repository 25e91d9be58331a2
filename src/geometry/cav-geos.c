/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "geometry/cav-geos-private.h"

#include <string.h>

typedef struct
{
  GEOSContextHandle_t handle;
  char message[160];
} Context;

static void
context_free (gpointer data)
{
  Context *context = data;

  GEOS_finish_r (context->handle);
  g_free (context);
}

static GPrivate thread_context = G_PRIVATE_INIT (context_free);

static void
error_cb (const char *message, void *data)
{
  Context *context = data;

  g_strlcpy (context->message, message, sizeof context->message);
}

static Context *
get_context (void)
{
  Context *context = g_private_get (&thread_context);

  if (context == NULL)
    {
      context = g_new0 (Context, 1);
      context->handle = GEOS_init_r ();
      GEOSContext_setErrorMessageHandler_r (context->handle, error_cb, context);
      g_private_set (&thread_context, context);
    }
  return context;
}

GEOSContextHandle_t
cav_geos_context (void)
{
  return get_context ()->handle;
}

const char *
cav_geos_get_message (void)
{
  return get_context ()->message;
}

GEOSGeometry *
cav_geos_ring (GEOSContextHandle_t geos, const CavPoint *points, guint n_points)
{
  g_autofree double *buffer = g_new (double, 2 * (n_points + 1));
  GEOSCoordSequence *sequence;

  for (guint i = 0; i <= n_points; i++)
    {
      buffer[2 * i] = points[i % n_points].x;
      buffer[2 * i + 1] = points[i % n_points].y;
    }
  sequence = GEOSCoordSeq_copyFromBuffer_r (geos, buffer, n_points + 1, 0, 0);
  return sequence == NULL ? NULL : GEOSGeom_createLinearRing_r (geos, sequence);
}
