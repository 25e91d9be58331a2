/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "profile/cav-finding.h"

CavFinding *
cav_finding_new (CavFindingSeverity severity, const char *code, const char *format, ...)
{
  g_return_val_if_fail (code != NULL, NULL);
  g_return_val_if_fail (format != NULL, NULL);

  CavFinding *finding = g_new0 (CavFinding, 1);
  finding->severity = severity;
  finding->code = g_strdup (code);
  finding->cut = -1;
  finding->item = -1;

  va_list arguments;
  va_start (arguments, format);
  finding->message = g_strdup_vprintf (format, arguments);
  va_end (arguments);
  return finding;
}

CavFinding *
cav_finding_copy (const CavFinding *finding)
{
  g_return_val_if_fail (finding != NULL, NULL);

  CavFinding *copy = g_memdup2 (finding, sizeof *finding);
  copy->code = g_strdup (finding->code);
  copy->message = g_strdup (finding->message);
  return copy;
}

void
cav_finding_free (CavFinding *finding)
{
  if (finding == NULL)
    return;
  g_free (finding->code);
  g_free (finding->message);
  g_free (finding);
}

/* A place that is no place is left out rather than passed on. */
void
cav_finding_set_place (CavFinding *finding, CavPoint place)
{
  g_return_if_fail (finding != NULL);

  if (!cav_point_is_finite (place))
    return;
  finding->has_place = TRUE;
  finding->place = place;
}

GPtrArray *
cav_finding_list_new (void)
{
  return g_ptr_array_new_with_free_func ((GDestroyNotify)cav_finding_free);
}

gboolean
cav_finding_list_has_wrong (const GPtrArray *findings)
{
  g_return_val_if_fail (findings != NULL, FALSE);

  for (guint i = 0; i < findings->len; i++)
    {
      const CavFinding *finding = g_ptr_array_index (findings, i);
      if (finding->severity == CAV_FINDING_WRONG)
        return TRUE;
    }
  return FALSE;
}
