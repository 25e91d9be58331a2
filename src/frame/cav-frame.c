/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "frame/cav-frame.h"

#include "frame/cav-frame-private.h"

static void
fill_corrections (CavFrame *frame)
{
  const CavDryFitFrame fit = { .sides = frame->settings.sides,
                               .allowance = frame->settings.allowance,
                               .outside_width = frame->sizes.outside.width,
                               .outside_height = frame->sizes.outside.height,
                               .molding = frame->sizes.molding };

  g_array_unref (frame->corrections);
  frame->corrections = cav_dry_fit_create_corrections (&frame->settings.dry_fit, &fit);
}

/* Sizes first: without an opening there is nothing to measure. */
static void
fill (CavFrame *frame, const CavProfile *profile)
{
  const CavFrameSettings *settings = &frame->settings;

  cav_frame_fill_sizes (&frame->sizes, settings, profile);
  cav_frame_check_sizes (frame);
  cav_frame_fill_package (&frame->package, &frame->sizes, settings);
  cav_frame_check_package (frame);
  frame->possible = frame->sizes.molding > 0.0 && frame->sizes.sight.width > 0.0
                    && frame->sizes.sight.height > 0.0 && frame->sizes.glass.width > 0.0
                    && frame->sizes.glass.height > 0.0;
  if (!frame->possible)
    return;
  cav_frame_fill_rails (&frame->rails, &frame->sizes, settings, profile);
  cav_frame_fill_mitres (&frame->mitres, &frame->sizes, settings, frame->wood);
  cav_frame_fill_weights (frame, profile);
  cav_frame_check_work (frame);
  cav_frame_fill_advice (frame);
  fill_corrections (frame);
}

CavFrame *
cav_frame_new (const CavFrameSettings *settings, const CavProfile *profile, const CavWood *wood)
{
  g_return_val_if_fail (settings != NULL && profile != NULL, NULL);

  CavFrame *frame = g_new0 (CavFrame, 1);
  g_autoptr (GError) error = NULL;
  frame->settings = *settings;
  frame->settings.picture_file = g_strdup (settings->picture_file);
  frame->wood = wood;
  frame->corrections = g_array_new (FALSE, FALSE, sizeof (CavCorrection));
  frame->advice = g_ptr_array_new_with_free_func (g_free);
  frame->findings = cav_finding_list_new ();
  if (cav_frame_settings_check (settings, &error))
    fill (frame, profile);
  else
    g_ptr_array_add (frame->findings,
                     cav_finding_new (CAV_FINDING_WRONG, "frame-range", "%s", error->message));
  return frame;
}

void
cav_frame_free (CavFrame *frame)
{
  if (frame == NULL)
    return;
  cav_frame_settings_clear (&frame->settings);
  g_free (frame->rails.places);
  g_array_unref (frame->corrections);
  g_ptr_array_unref (frame->advice);
  g_ptr_array_unref (frame->findings);
  g_free (frame);
}
