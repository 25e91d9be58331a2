/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "storage/cav-storage.h"
#include "tool/cav-tool.h"

#include <glib/gi18n-lib.h>
#include <string.h>

static gboolean
has_ending (const char *file, const char *ending)
{
  gsize length = strlen (file);
  gsize n = strlen (ending);

  return length > n && g_ascii_strcasecmp (file + length - n, ending) == 0;
}

int
cav_tool_find_ending (const char *file, const char *const *endings, GError **error)
{
  g_autofree char *all = NULL;

  if (strcmp (file, "-") == 0)
    return 0;
  for (int i = 0; endings[i] != NULL; i++)
    if (has_ending (file, endings[i]))
      return i;
  all = g_strjoinv (", ", (char **)endings);
  g_set_error (error, CAV_TOOL_ERROR, 0,
               _ ("%s: its ending does not say what to write; give it one of %s"), file, all);
  return -1;
}

CavExit
cav_tool_write (const CavArguments *arguments, GBytes *bytes, GError **error)
{
  gsize length;
  const void *data;

  if (bytes == NULL)
    {
      g_prefix_error (error, "%s: ", arguments->file);
      return CAV_EXIT_WRONG;
    }
  data = g_bytes_get_data (bytes, &length);
  return cav_storage_write (arguments->output, data, length, error) ? CAV_EXIT_FINE
                                                                    : CAV_EXIT_FAILED;
}
