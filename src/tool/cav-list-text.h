/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "boards/cav-board-layout.h"
#include "project/cav-length.h"

G_BEGIN_DECLS

/* (transfer full) The rails on their boards, for people. */
char *cav_list_text_create (const CavBoardLayout *layout, CavUnit unit) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
