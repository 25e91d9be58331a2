/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "app/cav-document.h"
#include "drawing/cav-preview.h"

G_BEGIN_DECLS

/* A frame on the wall, painted for one size; light falls on it when it is drawn. */
typedef struct
{
  CavPreview *preview; /* (nullable) owned */
  char *message;       /* (nullable) owned: why there is none, or what is wrong with the picture */
  CavFrameGrain grain; /* where its rails lie on the boards */
  int width;           /* device pixels */
  int height;
} CavFramePainting;

void cav_frame_painting_free (CavFramePainting *painting);

/* Paints what the document holds now, on a worker thread; callback comes on this one. */
void cav_frame_painting_start (
    GObject *source, CavDocument *document, int width, int height, GAsyncReadyCallback callback);
/* (transfer full) */
CavFramePainting *cav_frame_painting_finish (GAsyncResult *result) G_GNUC_WARN_UNUSED_RESULT;
/* Where the rails of the document's frame lie now. */
void cav_frame_painting_find_grain (CavDocument *document, CavFrameGrain *out_grain);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CavFramePainting, cav_frame_painting_free)

G_END_DECLS
