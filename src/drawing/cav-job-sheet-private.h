/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "drawing/cav-drawing.h"
#include "drawing/cav-text-sheet.h"

G_BEGIN_DECLS

/* The job sheet while it is written. */
typedef struct
{
  CavProject *project;
  const CavPlan *plan;   /* (nullable) */
  const CavFrame *frame; /* (nullable) where none was set, or it is not possible */
  const CavSheetOptions *options;
  CavBlank blank; /* to prepare */
  GArray *pieces; /* CavMilledPiece, to prepare */
  CavTextSheet *sheet;
  guint number;         /* of the last heading */
  gboolean is_numbered; /* pieces have the numbers of a layout that holds them all */
} CavJob;

CavJob cav_job_begin (CavProject *project, const CavPlan *plan, const CavSheetOptions *options);
void cav_job_heading (CavJob *job, const char *text);
void cav_job_step (CavJob *job, const char *format, ...) G_GNUC_PRINTF (2, 3);
/* (transfer full) a length with its unit. */
char *cav_job_format (const CavJob *job, double mm) G_GNUC_WARN_UNUSED_RESULT;
/* A number to a tenth, in buffer of G_ASCII_DTOSTR_BUF_SIZE. */
const char *cav_job_format_tenth (double value, char *buffer);

/* From the mitres on, in cav-job-frame.c. */
void cav_job_add_mitres (CavJob *job);
void cav_job_add_dry_fit (CavJob *job);
void cav_job_add_glue (CavJob *job);
void cav_job_add_finish (CavJob *job);
void cav_job_add_fit_up (CavJob *job);
void cav_job_add_hang (CavJob *job);

/* Which rail comes from where, where there are boards. */
void cav_job_add_boards (CavJob *job);

G_END_DECLS
