/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "drawing/cav-sheets.h"

G_BEGIN_DECLS

/* What holds of every page for the shop, whatever is on it. */

/* No text leaves the page, lies on another, or is smaller than 3 mm (a drawing's may be). Texts at
 * fault are named. */
void sheet_check_page (CavScene *scene, CavSheet sheet, guint page);
/* All pages of one sheet. */
void sheet_check (CavSheet sheet,
                  CavProject *project,
                  const CavPlan *plan,
                  const CavSheetOptions *options);

/* (transfer full) "" for the words of the sources, then every language that there is a catalogue
 * for: CAV_LANGUAGES names them, CAV_CATALOGUES is their folder. */
GStrv sheet_check_list_languages (void) G_GNUC_WARN_UNUSED_RESULT;
/* What is drawn from now on has words of that language. */
void sheet_check_use_language (const char *language);

/* Every caution of the plan stands on the pass sheet in full, and what always holds on each of its
 * pages, in the language in use. */
void
sheet_check_cautions (CavProject *project, const CavPlan *plan, const CavSheetOptions *options);

G_END_DECLS
