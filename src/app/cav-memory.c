/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-memory.h"

#include <gtk/gtk.h>

#ifdef __GLIBC__
#include <malloc.h>
#endif

/* Nothing is given back while somebody works: it would only be asked for again. Milliseconds. */
#define QUIET 1500
/* Longer than a frame takes, milliseconds. */
#define A_FRAME 300
/* By itself, the C library makes eight pools a processor and keeps in each what it ever needed: the
 * search for a plan starts many short threads. One pool more than that of the window is as fast. */
#define MOST_POOLS 2

void
cav_memory_share_pools (void)
{
#ifdef M_ARENA_MAX
  mallopt (M_ARENA_MAX, MOST_POOLS);
#endif
}

static guint quiet_source;

/* Cairo keeps what it shared with the X server to hand over a part of a window, the largest part so
 * far, and lets go of it after a window that was handed over whole. A renderer that begins anew
 * paints the whole. */
static void
paint_windows_whole (void)
{
  GListModel *windows = gtk_window_get_toplevels ();

  for (guint i = 0; i < g_list_model_get_n_items (windows); i++)
    {
      g_autoptr (GtkWidget) window = g_list_model_get_item (windows, i);
      GskRenderer *renderer = gtk_native_get_renderer (GTK_NATIVE (window));

      if (!GSK_IS_CAIRO_RENDERER (renderer) || !gtk_widget_get_mapped (window))
        continue;
      gsk_renderer_unrealize (renderer);
      gsk_renderer_realize (renderer, gtk_native_get_surface (GTK_NATIVE (window)), NULL);
      gtk_widget_queue_draw (window);
    }
}

static gboolean
give_back_cb (gpointer user_data)
{
  quiet_source = 0;
#ifdef __GLIBC__
  malloc_trim (0);
#endif
  return G_SOURCE_REMOVE;
}

/* What a frame needed is free when it has been painted. */
static gboolean
quiet_cb (gpointer user_data)
{
  paint_windows_whole ();
  quiet_source = g_timeout_add_full (G_PRIORITY_LOW, A_FRAME, give_back_cb, NULL, NULL);
  return G_SOURCE_REMOVE;
}

void
cav_memory_give_back_soon (void)
{
  g_clear_handle_id (&quiet_source, g_source_remove);
  quiet_source = g_timeout_add_full (G_PRIORITY_LOW, QUIET, quiet_cb, NULL, NULL);
}
