/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "shop/cav-wood.h"

#include <glib/gi18n-lib.h>
#include <string.h>

/*
 * Figures of the USDA Forest Products Laboratory, Wood Handbook, FPL-GTR-190 (2010).
 *
 * The change coefficients are those of table 13-5, per 1 % of moisture between 6 and 14 %. They
 * equal equation 13-3 taken from 10 %: 1 / (3000 / S - 20), with S the shrinkage from green to
 * oven-dry in percent, table 4-3; coefficients that were recalled have been checked against it.
 * Densities follow from the specific gravity at 12 % (table 5-3) by equation 4-12.
 */
#define DENSITY(gravity) CAV_WOOD_DENSITY (gravity)

#define READ "Wood Handbook FPL-GTR-190: coefficients table 13-5;"
#define QUOTED "Wood Handbook FPL-GTR-190: coefficients table 13-5, as others quote it;"
#define RECALLED                                                                                   \
  "Wood Handbook FPL-GTR-190: coefficients table 13-5, from memory, agree with equation 13-3;"
#define DENSITY_QUOTED " density table 5-3, as others quote it"
#define DENSITY_RECALLED " density table 5-3, from memory"
#define DENSITY_MISSING " no density in table 5-3"

/* By id. */
static const CavWood woods[] = {
  { "alder-red", NC_ ("wood", "Alder, red"), DENSITY (0.41), 0.00151, 0.00256,
    READ DENSITY_QUOTED },
  { "apple", NC_ ("wood", "Apple"), 0.0, 0.00205, 0.00376, READ DENSITY_MISSING },
  { "ash-black", NC_ ("wood", "Ash, black"), DENSITY (0.49), 0.00172, 0.00274,
    READ DENSITY_QUOTED },
  { "ash-white", NC_ ("wood", "Ash, white"), DENSITY (0.60), 0.00169, 0.00274,
    READ DENSITY_QUOTED },
  { "aspen-quaking", NC_ ("wood", "Aspen, quaking"), DENSITY (0.38), 0.00119, 0.00234,
    READ DENSITY_QUOTED },
  { "baldcypress", NC_ ("wood", "Baldcypress"), DENSITY (0.46), 0.00130, 0.00216,
    RECALLED DENSITY_RECALLED },
  { "basswood-american", NC_ ("wood", "Basswood, American"), DENSITY (0.37), 0.00230, 0.00330,
    READ DENSITY_QUOTED },
  { "beech-american", NC_ ("wood", "Beech, American"), DENSITY (0.64), 0.00190, 0.00431,
    READ DENSITY_QUOTED },
  { "birch-paper", NC_ ("wood", "Birch, paper"), DENSITY (0.55), 0.00219, 0.00304,
    READ DENSITY_QUOTED },
  { "birch-yellow", NC_ ("wood", "Birch, yellow"), DENSITY (0.62), 0.00256, 0.00338,
    READ DENSITY_QUOTED },
  { "butternut", NC_ ("wood", "Butternut"), DENSITY (0.38), 0.00116, 0.00223, READ DENSITY_QUOTED },
  { "cherry-black", NC_ ("wood", "Cherry, black"), DENSITY (0.50), 0.00126, 0.00248,
    READ DENSITY_QUOTED },
  { "chestnut-american", NC_ ("wood", "Chestnut, American"), DENSITY (0.43), 0.00116, 0.00234,
    READ DENSITY_QUOTED },
  { "cottonwood-eastern", NC_ ("wood", "Cottonwood, eastern"), DENSITY (0.40), 0.00133, 0.00327,
    READ DENSITY_QUOTED },
  { "douglas-fir-coast", NC_ ("wood", "Douglas-fir, coast"), DENSITY (0.48), 0.00165, 0.00267,
    QUOTED DENSITY_QUOTED },
  { "elm-american", NC_ ("wood", "Elm, American"), DENSITY (0.50), 0.00144, 0.00338,
    READ DENSITY_QUOTED },
  { "fir-white", NC_ ("wood", "Fir, white"), DENSITY (0.39), 0.00112, 0.00245,
    READ DENSITY_RECALLED },
  { "hickory-pecan", NC_ ("wood", "Hickory, pecan"), DENSITY (0.66), 0.00169, 0.00315,
    READ DENSITY_QUOTED },
  { "incense-cedar", NC_ ("wood", "Incense-cedar"), DENSITY (0.37), 0.00112, 0.00180,
    RECALLED DENSITY_RECALLED },
  { "maple-bigleaf", NC_ ("wood", "Maple, bigleaf"), DENSITY (0.48), 0.00126, 0.00248,
    READ DENSITY_QUOTED },
  { "maple-red", NC_ ("wood", "Maple, red"), DENSITY (0.54), 0.00137, 0.00289,
    READ DENSITY_QUOTED },
  { "maple-silver", NC_ ("wood", "Maple, silver"), DENSITY (0.47), 0.00102, 0.00252,
    READ DENSITY_QUOTED },
  { "maple-sugar", NC_ ("wood", "Maple, sugar (hard)"), DENSITY (0.63), 0.00165, 0.00353,
    READ DENSITY_QUOTED },
  { "oak-red", NC_ ("wood", "Oak, red"), DENSITY (0.63), 0.00158, 0.00369, READ DENSITY_QUOTED },
  { "oak-white", NC_ ("wood", "Oak, white"), DENSITY (0.68), 0.00180, 0.00365,
    READ DENSITY_QUOTED },
  { "pine-eastern-white", NC_ ("wood", "Pine, eastern white"), DENSITY (0.35), 0.00071, 0.00212,
    QUOTED DENSITY_RECALLED },
  { "pine-loblolly", NC_ ("wood", "Pine, loblolly"), DENSITY (0.51), 0.00165, 0.00259,
    RECALLED DENSITY_QUOTED },
  { "pine-longleaf", NC_ ("wood", "Pine, longleaf"), DENSITY (0.59), 0.00176, 0.00263,
    QUOTED DENSITY_RECALLED },
  { "pine-ponderosa", NC_ ("wood", "Pine, ponderosa"), DENSITY (0.40), 0.00133, 0.00216,
    RECALLED DENSITY_QUOTED },
  { "pine-sugar", NC_ ("wood", "Pine, sugar"), DENSITY (0.36), 0.00099, 0.00194,
    RECALLED DENSITY_RECALLED },
  { "redcedar-eastern", NC_ ("wood", "Redcedar, eastern"), DENSITY (0.47), 0.00106, 0.00162,
    RECALLED DENSITY_RECALLED },
  { "sassafras", NC_ ("wood", "Sassafras"), DENSITY (0.46), 0.00137, 0.00216,
    READ DENSITY_RECALLED },
  { "spruce-engelmann", NC_ ("wood", "Spruce, Engelmann"), DENSITY (0.35), 0.00130, 0.00248,
    RECALLED DENSITY_QUOTED },
  { "spruce-sitka", NC_ ("wood", "Spruce, Sitka"), DENSITY (0.40), 0.00148, 0.00263,
    RECALLED DENSITY_QUOTED },
  { "sweetgum", NC_ ("wood", "Sweetgum"), DENSITY (0.52), 0.00183, 0.00365, READ DENSITY_RECALLED },
  { "sycamore-american", NC_ ("wood", "Sycamore, American"), DENSITY (0.49), 0.00172, 0.00296,
    READ DENSITY_RECALLED },
  { "walnut-black", NC_ ("wood", "Walnut, black"), DENSITY (0.55), 0.00190, 0.00274,
    READ DENSITY_RECALLED },
  { "yellow-poplar", NC_ ("wood", "Yellow-poplar"), DENSITY (0.42), 0.00158, 0.00289,
    RECALLED DENSITY_RECALLED },
};

const char *
cav_wood_get_name (const CavWood *wood)
{
  g_return_val_if_fail (wood != NULL, NULL);
  return g_dpgettext2 (GETTEXT_PACKAGE, "wood", wood->name);
}

guint
cav_wood_get_count (void)
{
  return G_N_ELEMENTS (woods);
}

const CavWood *
cav_wood_get (guint index)
{
  g_return_val_if_fail (index < G_N_ELEMENTS (woods), NULL);
  return &woods[index];
}

const CavWood *
cav_wood_find (const char *id)
{
  for (guint i = 0; id != NULL && i < G_N_ELEMENTS (woods); i++)
    if (strcmp (woods[i].id, id) == 0)
      return &woods[i];
  return NULL;
}
