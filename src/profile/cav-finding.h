/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "geometry/cav-point.h"

G_BEGIN_DECLS

/* Something that is wrong or worth a look, in the one form that all rooms use. */
typedef enum
{
  CAV_FINDING_NOTE,    /* good to know */
  CAV_FINDING_CAUTION, /* can hurt or disappoint; nothing forbids it */
  CAV_FINDING_WRONG,   /* cannot be made or used like this */
} CavFindingSeverity;

typedef struct
{
  CavFindingSeverity severity;
  char *code;    /* stable, e.g. "profile-in-pieces" */
  char *message; /* a sentence: what, where, what to do */
  gboolean has_place;
  CavPoint place; /* in the blank's coordinates */
  int cut;        /* index of the cut it speaks of, or -1 */
  int item;       /* row of whatever else it speaks of (boards, joined projects), or -1 */
} CavFinding;

CavFinding *cav_finding_new (CavFindingSeverity severity, const char *code, const char *format, ...)
    G_GNUC_PRINTF (3, 4) G_GNUC_WARN_UNUSED_RESULT;
CavFinding *cav_finding_copy (const CavFinding *finding) G_GNUC_WARN_UNUSED_RESULT;
void cav_finding_free (CavFinding *finding);
void cav_finding_set_place (CavFinding *finding, CavPoint place);

/* (transfer full) An empty list of findings that frees what it holds. */
GPtrArray *cav_finding_list_new (void) G_GNUC_WARN_UNUSED_RESULT;
gboolean cav_finding_list_has_wrong (const GPtrArray *findings);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CavFinding, cav_finding_free)

G_END_DECLS
