/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/cav-sheet-private.h"
#include "geometry/cav-unit.h"

#include <glib/gi18n-lib.h>

void
cav_paper_get_size (CavPaper paper, double *out_width, double *out_height)
{
  *out_width = paper == CAV_PAPER_LETTER ? 11 * CAV_INCH : 297;
  *out_height = paper == CAV_PAPER_LETTER ? 8.5 * CAV_INCH : 210;
}

char *
cav_sheet_dup_title (CavProject *project)
{
  g_autofree char *title = cav_lettering_clean (cav_project_get_title (project));

  return *title != '\0' ? g_steal_pointer (&title) : g_strdup (_ ("Untitled project"));
}

const char *
cav_unit_get_word (CavUnit unit)
{
  return unit == CAV_UNIT_INCH ? _ ("inches") : _ ("millimetres");
}
