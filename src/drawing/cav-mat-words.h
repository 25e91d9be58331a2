/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "drawing/cav-drawing.h"
#include "frame/cav-frame.h"

G_BEGIN_DECLS

/* (transfer full) Where the window of a mat (0: the front one) lies in its board, for whoever cuts
 * it: "60 all around", "60 left and right, 54 at the top, 64 at the bottom". */
char *cav_words_describe_mat_borders (const CavFrame *frame,
                                      int mat,
                                      const CavSheetOptions *options) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
