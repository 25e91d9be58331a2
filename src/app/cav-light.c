/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-light.h"

#include <adwaita.h>

CavLight
cav_light_get_current (void)
{
  AdwStyleManager *style = adw_style_manager_get_default ();
  gboolean is_strong = adw_style_manager_get_high_contrast (style);

  if (adw_style_manager_get_dark (style))
    return is_strong ? CAV_LIGHT_NIGHT_STRONG : CAV_LIGHT_NIGHT;
  return is_strong ? CAV_LIGHT_DAY_STRONG : CAV_LIGHT_DAY;
}

void
cav_light_watch (GCallback callback, gpointer object)
{
  AdwStyleManager *style = adw_style_manager_get_default ();

  g_return_if_fail (callback != NULL);
  g_return_if_fail (G_IS_OBJECT (object));

  g_signal_connect_object (style, "notify::dark", callback, object, G_CONNECT_SWAPPED);
  g_signal_connect_object (style, "notify::high-contrast", callback, object, G_CONNECT_SWAPPED);
}
