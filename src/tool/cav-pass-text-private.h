/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "drawing/cav-drawing.h"

G_BEGIN_DECLS

typedef struct
{
  GString *out;
  CavProject *project;
  const CavPlan *plan;
  CavSheetOptions options; /* unit and fractions; the words are those of the pass sheet */
  guint n_cautions;
  CavCaution cautions[CAV_N_CAUTIONS]; /* in the order in which they are first met */
} CavPassText;

/* Adds a heading and the text beside it. */
void cav_pass_text_append_head (CavPassText *self, const char *head, const char *format, ...)
    G_GNUC_PRINTF (3, 4);
/* (transfer full) minutes to a tenth. */
char *cav_pass_text_format_minutes (double minutes) G_GNUC_WARN_UNUSED_RESULT;

/* Setups and passes as a table; numbers the cautions on its way. */
void cav_pass_table_append (CavPassText *self);

G_END_DECLS
