/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-toast.h"

AdwToast *
cav_toast_new (const char *text)
{
  g_autofree char *escaped = NULL;

  g_return_val_if_fail (text != NULL, NULL);

  escaped = g_markup_escape_text (text, -1);
  return adw_toast_new (escaped);
}
