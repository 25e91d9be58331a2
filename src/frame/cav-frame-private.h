/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "frame/cav-frame.h"

G_BEGIN_DECLS

/* The parts of cav_frame_new(). Each fill needs those before it; each check adds what is wrong with
 * what has been filled to the findings. */
void cav_frame_fill_sizes (CavFrameSizes *sizes,
                           const CavFrameSettings *settings,
                           const CavProfile *profile);
void cav_frame_fill_package (CavPackage *package,
                             const CavFrameSizes *sizes,
                             const CavFrameSettings *settings);
void cav_frame_fill_rails (CavFrameRails *rails,
                           const CavFrameSizes *sizes,
                           const CavFrameSettings *settings,
                           const CavProfile *profile);
void cav_frame_fill_mitres (CavFrameMitres *mitres,
                            const CavFrameSizes *sizes,
                            const CavFrameSettings *settings,
                            const CavWood *wood);
void cav_frame_fill_weights (CavFrame *frame, const CavProfile *profile);
void cav_frame_fill_advice (CavFrame *frame);
void cav_frame_check_sizes (CavFrame *frame);
void cav_frame_check_package (CavFrame *frame);
void cav_frame_check_work (CavFrame *frame);

G_END_DECLS
