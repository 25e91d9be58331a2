/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <glib.h>
#include <string.h>

/* The door that a fuzzing engine knocks at. */
int LLVMFuzzerTestOneInput (const guint8 *data, gsize size);

/* Either there is a result, or an error whose message is one line for people. */
static inline void
cav_fuzz_check_outcome (gboolean done, const GError *error)
{
  g_assert_true (done == (error == NULL));
  if (error == NULL)
    return;
  g_assert_true (g_utf8_validate (error->message, -1, NULL));
  g_assert_cmpstr (error->message, !=, "");
  g_assert_null (strchr (error->message, '\n'));
}
