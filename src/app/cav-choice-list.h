/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <adwaita.h>

G_BEGIN_DECLS

/** Has the lines of a row's list made when the list is first opened: a list of woods is more
 * widgets than all else beside it. Once for a row, which need not have its choices yet. */
void cav_choice_list_make_later (AdwComboRow *row);

G_END_DECLS
