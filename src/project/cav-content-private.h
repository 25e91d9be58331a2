/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "project/cav-project.h"

G_BEGIN_DECLS

/* A part that moments share, counted atomically. */
typedef struct
{
  gpointer value;
  GDestroyNotify destroy;
} CavShared;

/*
 * All that a document says, at one moment. Never changed once made: an edit copies it, takes new
 * parts where it differs and shares the rest, so that a history of many moments stays small and a
 * moment can be read by another thread while the next is made. Counts are atomic.
 */
typedef struct
{
  /* Shared */
  GRefString *title;
  GRefString *notes;
  GPtrArray *cuts;   /* CavCut, each counted */
  CavShared *shop;   /* CavShop */
  CavShared *frame;  /* CavFrameSettings; usual ones where has_frame is FALSE */
  CavShared *lumber; /* CavLumber */

  /* Borrowed from the table of woods, which never goes away */
  const CavWood *wood;

  /* State */
  CavBlank blank;
  int rails;
  double length;
  gboolean has_frame;
} CavContent;

CavContent *cav_content_new (void) G_GNUC_WARN_UNUSED_RESULT;
CavContent *cav_content_ref (const CavContent *content) G_GNUC_WARN_UNUSED_RESULT;
void cav_content_unref (const CavContent *content);
/* What differs, as bits of CavProjectPart. Parts that are shared are not looked into. */
guint cav_content_compare (const CavContent *a, const CavContent *b);

/* The first moment of an edit: the same, to be changed by what follows before it is shared.
 * (transfer full) */
CavContent *cav_content_copy (const CavContent *content) G_GNUC_WARN_UNUSED_RESULT;
void cav_content_take_text (GRefString **field, const char *text);
/* (transfer full) value. */
void cav_content_take_shared (CavShared **field, gpointer value, GDestroyNotify destroy);
/* (nullable) settings: none. */
void cav_content_set_frame (CavContent *content, const CavFrameSettings *settings);
/* Takes the places of n_removed cuts from index on. (transfer none) copied; (nullable) added. */
void cav_content_splice (
    CavContent *content, guint index, guint n_removed, const CavCut *const *added, guint n_added);

/* Puts new cuts in the places of others; indices are in range. */
void cav_content_set_cuts (CavContent *content,
                           const guint *indices,
                           const CavCut *const *cuts,
                           guint n_cuts);
void cav_content_remove_cuts (CavContent *content, const guint *indices, guint n_indices);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CavContent, cav_content_unref)

G_END_DECLS
