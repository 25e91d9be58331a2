/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "fuzz-target.h"
#include "storage/cav-clipboard.h"

/* Text from anywhere is pasted; whatever cuts come out of it are copied and pasted again: the same
 * text. */
int
LLVMFuzzerTestOneInput (const guint8 *data, gsize size)
{
  g_autofree char *text = g_strndup ((const char *)data, size);
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) cuts = cav_clipboard_cuts_from_text (text, &error);
  g_autoptr (GPtrArray) again = NULL;
  g_autofree char *copied = NULL;
  g_autofree char *recopied = NULL;

  cav_fuzz_check_outcome (cuts != NULL, error);
  if (cuts == NULL)
    return 0;
  g_assert_cmpuint (cuts->len, <=, CAV_CLIPBOARD_MOST_CUTS);
  copied = cav_clipboard_cuts_to_text (cuts);
  again = cav_clipboard_cuts_from_text (copied, &error);
  g_assert_no_error (error);
  recopied = cav_clipboard_cuts_to_text (again);
  g_assert_cmpstr (copied, ==, recopied);
  return 0;
}
