/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "frame/cav-frame-private.h"

#include <glib/gi18n-lib.h>
#include <math.h>

static void
add_layer (CavPackage *package, CavLayerKind kind, const char *name, double thickness)
{
  if (!(thickness > 0.0))
    return;
  package->layers[package->n_layers++] = (CavPackageLayer){ kind, name, thickness, package->depth };
  package->depth += thickness;
}

static const char *
get_glazing_name (CavGlazing glazing)
{
  return glazing == CAV_GLAZING_ACRYLIC ? NC_ ("layer of the package", "acrylic")
                                        : NC_ ("layer of the package", "glass");
}

static const char *
get_backing_name (CavBacking backing)
{
  static const char *const names[]
      = { NC_ ("layer of the package", "backing"), NC_ ("layer of the package", "card"),
          NC_ ("layer of the package", "foam board"), NC_ ("layer of the package", "hardboard"),
          NC_ ("layer of the package", "plywood") };

  return backing < G_N_ELEMENTS (names) ? names[backing] : names[0];
}

void
cav_frame_fill_package (CavPackage *package,
                        const CavFrameSizes *sizes,
                        const CavFrameSettings *settings)
{
  if (settings->glazing != CAV_GLAZING_NONE)
    add_layer (package, CAV_LAYER_GLAZING, get_glazing_name (settings->glazing),
               settings->glazing_thickness);
  add_layer (package, CAV_LAYER_SPACER, NC_ ("layer of the package", "spacer"), settings->spacer);
  for (int i = 0; i < settings->n_mats && !settings->floated; i++)
    add_layer (package, CAV_LAYER_MAT, NC_ ("layer of the package", "mat"),
               settings->mats[i].thickness);
  add_layer (package, CAV_LAYER_PICTURE, NC_ ("layer of the package", "picture"),
             settings->picture_thickness);
  if (settings->backing != CAV_BACKING_NONE)
    add_layer (package, CAV_LAYER_BACKING, get_backing_name (settings->backing),
               settings->backing_thickness);

  package->needed = package->depth + settings->point_room;
  package->spare = sizes->rabbet_depth - package->needed;
  package->stands_out = fmax (package->depth - sizes->rabbet_depth, 0.0);
}
