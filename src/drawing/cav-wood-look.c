/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/cav-wood-look.h"

#include <math.h>
#include <string.h>

#include "drawing/cav-noise.h"

#define RGB(r, g, b)                                                                               \
  {                                                                                                \
    (r) / 255.0f, (g) / 255.0f, (b) / 255.0f                                                       \
  }

typedef struct
{
  const char *prefix; /* of the wood's id */
  CavWoodLook look;
} Entry;

static const CavWoodLook plain = {
  .early = RGB (226, 205, 170),
  .late = RGB (206, 180, 140),
  .pore = RGB (160, 130, 96),
  .ring = 3.5f,
  .late_share = 0.35f,
  .late_edge = 0.3f,
  .pores = 0.15f,
  .pore_width = 0.3f,
  .pore_length = 6,
  .mottle = 0.3f,
};

/* The first prefix that fits counts. */
static const Entry entries[] = {
  { "ash-black",
    { .early = RGB (196, 168, 128),
      .late = RGB (172, 140, 100),
      .pore = RGB (112, 84, 56),
      .ring = 2.4f,
      .late_share = 0.5f,
      .late_edge = 0.8f,
      .pores = 0.75f,
      .ring_porous = 0.95f,
      .pore_width = 0.45f,
      .pore_length = 7,
      .mottle = 0.35f } },
  { "ash",
    { .early = RGB (236, 222, 194),
      .late = RGB (224, 204, 170),
      .pore = RGB (166, 136, 98),
      .ring = 3.0f,
      .late_share = 0.55f,
      .late_edge = 0.8f,
      .pores = 0.85f,
      .ring_porous = 0.97f,
      .pore_width = 0.5f,
      .pore_length = 7,
      .mottle = 0.25f } },
  { "oak-white",
    { .early = RGB (206, 174, 128),
      .late = RGB (184, 148, 102),
      .pore = RGB (134, 102, 66),
      .ring = 2.6f,
      .late_share = 0.55f,
      .late_edge = 0.7f,
      .pores = 0.65f,
      .ring_porous = 0.85f,
      .pore_width = 0.45f,
      .pore_length = 9,
      .ray = 0.75f,
      .ray_width = 0.6f,
      .ray_length = 22,
      .ray_shine = 0.27f,
      .mottle = 0.35f } },
  { "oak",
    { .early = RGB (208, 164, 124),
      .late = RGB (186, 134, 96),
      .pore = RGB (116, 72, 48),
      .ring = 3.0f,
      .late_share = 0.5f,
      .late_edge = 0.7f,
      .pores = 0.9f,
      .ring_porous = 0.85f,
      .pore_width = 0.5f,
      .pore_length = 10,
      .ray = 0.6f,
      .ray_width = 0.5f,
      .ray_length = 12,
      .ray_shine = 0.3f,
      .mottle = 0.35f } },
  { "walnut",
    { .early = RGB (124, 88, 62),
      .late = RGB (88, 60, 42),
      .pore = RGB (48, 32, 26),
      .ring = 4.5f,
      .late_share = 0.5f,
      .late_edge = 0.3f,
      .pores = 0.6f,
      .ring_porous = 0.4f,
      .pore_width = 0.4f,
      .pore_length = 9,
      .streak = 0.55f,
      .streak_width = 14,
      .mottle = 0.5f } },
  { "butternut",
    { .early = RGB (200, 160, 114),
      .late = RGB (170, 126, 84),
      .pore = RGB (110, 78, 50),
      .ring = 4.5f,
      .late_share = 0.4f,
      .late_edge = 0.4f,
      .pores = 0.55f,
      .ring_porous = 0.5f,
      .pore_width = 0.4f,
      .pore_length = 9,
      .streak = 0.2f,
      .streak_width = 16,
      .mottle = 0.4f } },
  { "cherry",
    { .early = RGB (194, 134, 94),
      .late = RGB (170, 106, 70),
      .pore = RGB (92, 44, 26),
      .ring = 4.0f,
      .late_share = 0.3f,
      .late_edge = 0.45f,
      .pores = 0.12f,
      .pore_width = 0.25f,
      .pore_length = 5,
      .ray = 0.25f,
      .ray_width = 0.25f,
      .ray_length = 2.5f,
      .ray_shine = 0.35f,
      .streak = 0.12f,
      .streak_width = 3,
      .mottle = 0.45f } },
  { "maple",
    { .early = RGB (240, 224, 194),
      .late = RGB (224, 200, 162),
      .pore = RGB (190, 156, 116),
      .ring = 3.2f,
      .late_share = 0.14f,
      .late_edge = 0.9f,
      .pores = 0.10f,
      .pore_width = 0.2f,
      .pore_length = 3,
      .ray = 0.45f,
      .ray_width = 0.25f,
      .ray_length = 2.0f,
      .ray_shine = 0.25f,
      .curl = 0.35f,
      .mottle = 0.3f } },
  { "birch",
    { .early = RGB (232, 208, 170),
      .late = RGB (212, 180, 138),
      .pore = RGB (176, 140, 100),
      .ring = 3.4f,
      .late_share = 0.2f,
      .late_edge = 0.5f,
      .pores = 0.18f,
      .pore_width = 0.25f,
      .pore_length = 4,
      .curl = 0.3f,
      .mottle = 0.5f } },
  { "yellow-poplar",
    { .early = RGB (222, 216, 174),
      .late = RGB (204, 196, 150),
      .pore = RGB (138, 140, 108),
      .ring = 5.0f,
      .late_share = 0.2f,
      .late_edge = 0.5f,
      .pores = 0.10f,
      .pore_width = 0.2f,
      .pore_length = 4,
      .streak = 0.7f,
      .streak_width = 22,
      .mottle = 0.5f } },
  { "beech",
    { .early = RGB (222, 182, 144),
      .late = RGB (204, 158, 118),
      .pore = RGB (150, 100, 68),
      .ring = 3.6f,
      .late_share = 0.25f,
      .late_edge = 0.4f,
      .pores = 0.10f,
      .pore_width = 0.2f,
      .pore_length = 3,
      .ray = 0.8f,
      .ray_width = 0.35f,
      .ray_length = 3,
      .ray_shine = 0.2f,
      .mottle = 0.25f } },
  { "sycamore",
    { .early = RGB (216, 178, 142),
      .late = RGB (196, 152, 114),
      .pore = RGB (140, 92, 62),
      .ring = 3.6f,
      .late_share = 0.25f,
      .late_edge = 0.4f,
      .pores = 0.1f,
      .pore_width = 0.2f,
      .pore_length = 3,
      .ray = 0.95f,
      .ray_width = 0.6f,
      .ray_length = 5,
      .ray_shine = 0.35f,
      .mottle = 0.3f } },
  { "hickory",
    { .early = RGB (216, 180, 136),
      .late = RGB (184, 140, 96),
      .pore = RGB (120, 82, 52),
      .ring = 2.8f,
      .late_share = 0.5f,
      .late_edge = 0.6f,
      .pores = 0.7f,
      .ring_porous = 0.7f,
      .pore_width = 0.4f,
      .pore_length = 8,
      .streak = 0.25f,
      .streak_width = 18,
      .mottle = 0.4f } },
  { "elm",
    { .early = RGB (196, 158, 116),
      .late = RGB (166, 124, 84),
      .pore = RGB (106, 72, 46),
      .ring = 3.4f,
      .late_share = 0.55f,
      .late_edge = 0.6f,
      .pores = 0.75f,
      .ring_porous = 0.8f,
      .pore_width = 0.4f,
      .pore_length = 7,
      .mottle = 0.45f } },
  { "chestnut",
    { .early = RGB (196, 160, 116),
      .late = RGB (166, 126, 84),
      .pore = RGB (104, 74, 46),
      .ring = 3.4f,
      .late_share = 0.5f,
      .late_edge = 0.7f,
      .pores = 0.85f,
      .ring_porous = 0.9f,
      .pore_width = 0.5f,
      .pore_length = 11,
      .mottle = 0.35f } },
  { "sassafras",
    { .early = RGB (200, 168, 118),
      .late = RGB (170, 134, 88),
      .pore = RGB (110, 80, 50),
      .ring = 3.4f,
      .late_share = 0.5f,
      .late_edge = 0.7f,
      .pores = 0.75f,
      .ring_porous = 0.9f,
      .pore_width = 0.45f,
      .pore_length = 10,
      .mottle = 0.35f } },
  { "alder",
    { .early = RGB (212, 164, 122),
      .late = RGB (194, 142, 100),
      .pore = RGB (140, 92, 60),
      .ring = 4.0f,
      .late_share = 0.25f,
      .late_edge = 0.3f,
      .pores = 0.1f,
      .pore_width = 0.2f,
      .pore_length = 3,
      .mottle = 0.35f } },
  { "apple",
    { .early = RGB (200, 148, 112),
      .late = RGB (176, 118, 84),
      .pore = RGB (110, 66, 44),
      .ring = 2.6f,
      .late_share = 0.3f,
      .late_edge = 0.4f,
      .pores = 0.08f,
      .pore_width = 0.2f,
      .pore_length = 3,
      .streak = 0.3f,
      .streak_width = 10,
      .mottle = 0.6f } },
  { "sweetgum",
    { .early = RGB (190, 148, 118),
      .late = RGB (168, 122, 92),
      .pore = RGB (104, 72, 54),
      .ring = 4.0f,
      .late_share = 0.25f,
      .late_edge = 0.3f,
      .pores = 0.08f,
      .pore_width = 0.2f,
      .pore_length = 3,
      .streak = 0.4f,
      .streak_width = 12,
      .mottle = 0.6f } },
  { "aspen",
    { .early = RGB (238, 228, 206),
      .late = RGB (224, 208, 178),
      .pore = RGB (190, 168, 134),
      .ring = 4.0f,
      .late_share = 0.2f,
      .late_edge = 0.3f,
      .mottle = 0.35f } },
  { "cottonwood",
    { .early = RGB (230, 214, 186),
      .late = RGB (210, 188, 154),
      .pore = RGB (164, 136, 102),
      .ring = 5.0f,
      .late_share = 0.25f,
      .late_edge = 0.3f,
      .pores = 0.15f,
      .pore_width = 0.25f,
      .pore_length = 4,
      .mottle = 0.4f } },
  { "basswood",
    { .early = RGB (238, 222, 192),
      .late = RGB (226, 204, 168),
      .pore = RGB (196, 168, 130),
      .ring = 4.0f,
      .late_share = 0.15f,
      .late_edge = 0.3f,
      .mottle = 0.2f } },
  { "pine-eastern",
    { .early = RGB (240, 216, 168),
      .late = RGB (214, 164, 106),
      .pore = RGB (170, 112, 62),
      .ring = 4.0f,
      .late_share = 0.18f,
      .late_edge = 0.5f,
      .mottle = 0.2f } },
  { "pine-l",
    { .early = RGB (240, 208, 148),
      .late = RGB (190, 116, 58),
      .pore = RGB (140, 80, 36),
      .ring = 4.6f,
      .late_share = 0.36f,
      .late_edge = 0.85f,
      .mottle = 0.2f } },
  { "pine",
    { .early = RGB (242, 214, 158),
      .late = RGB (206, 140, 76),
      .pore = RGB (150, 92, 46),
      .ring = 4.4f,
      .late_share = 0.24f,
      .late_edge = 0.75f,
      .mottle = 0.2f } },
  { "douglas-fir",
    { .early = RGB (232, 182, 128),
      .late = RGB (180, 100, 58),
      .pore = RGB (130, 66, 36),
      .ring = 2.6f,
      .late_share = 0.34f,
      .late_edge = 0.85f,
      .mottle = 0.2f } },
  { "spruce",
    { .early = RGB (242, 224, 184),
      .late = RGB (216, 178, 124),
      .pore = RGB (170, 126, 80),
      .ring = 2.2f,
      .late_share = 0.2f,
      .late_edge = 0.5f,
      .mottle = 0.15f } },
  { "fir",
    { .early = RGB (238, 216, 178),
      .late = RGB (206, 164, 114),
      .pore = RGB (160, 116, 74),
      .ring = 3.0f,
      .late_share = 0.25f,
      .late_edge = 0.6f,
      .mottle = 0.15f } },
  { "redcedar",
    { .early = RGB (198, 110, 84),
      .late = RGB (160, 72, 58),
      .pore = RGB (236, 206, 160),
      .ring = 2.6f,
      .late_share = 0.25f,
      .late_edge = 0.5f,
      .streak = 0.4f,
      .streak_width = 12,
      .mottle = 0.5f } },
  { "incense-cedar",
    { .early = RGB (206, 152, 112),
      .late = RGB (172, 110, 76),
      .pore = RGB (120, 70, 46),
      .ring = 2.8f,
      .late_share = 0.22f,
      .late_edge = 0.6f,
      .mottle = 0.3f } },
  { "baldcypress",
    { .early = RGB (222, 186, 132),
      .late = RGB (176, 124, 76),
      .pore = RGB (120, 80, 48),
      .ring = 3.0f,
      .late_share = 0.28f,
      .late_edge = 0.7f,
      .mottle = 0.35f } },
};

const CavWoodLook *
cav_wood_look_get (const CavWood *wood)
{
  for (guint i = 0; wood != NULL && i < G_N_ELEMENTS (entries); i++)
    if (strncmp (wood->id, entries[i].prefix, strlen (entries[i].prefix)) == 0)
      return &entries[i].look;
  return &plain;
}

static float
get_lightness (CavTint tint)
{
  return 0.3f * tint.red + 0.59f * tint.green + 0.11f * tint.blue;
}

/* Wood that is wet by oil or varnish is deeper and warmer: light goes further into it. */
static CavTint
deepen (CavTint bare, float power)
{
  return (CavTint){ powf (bare.red, 1.0f + 0.55f * power), powf (bare.green, 1.0f + 0.85f * power),
                    powf (bare.blue, 1.0f + 1.25f * power) };
}

/* Leaf is laid in squares of 80 mm that overlap; each is a little different. */
static CavTint
gild (CavTint bare, float along, float across)
{
  const CavTint leaf = RGB (214, 170, 84);
  const CavTint clay = RGB (150, 74, 44);
  float square = floorf (along / 76.0f);
  float seam = fabsf (along / 76.0f - square);
  float worn = cav_noise_get (along * 0.35f, across * 0.9f, 3.0f);
  CavTint tint = cav_tint_mix (leaf, bare, 0.06f);
  float tone = 0.94f + 0.12f * cav_noise_hash ((gint32)square, 7, 0);

  tint = cav_tint_mix (tint, clay, worn > 0.86f ? (worn - 0.86f) * 3.0f : 0.0f);
  tint = cav_tint_mix (tint, clay, seam < 0.006f ? 0.35f : 0.0f);
  return (CavTint){ tint.red * tone, tint.green * tone, tint.blue * tone };
}

CavTint
cav_finish_get_tint (CavFinish finish, CavTint bare, float along, float across)
{
  const CavTint black = RGB (34, 32, 31);
  const CavTint white = RGB (240, 237, 230);
  float grain = get_lightness (bare);

  switch (finish)
    {
    case CAV_FINISH_OIL:
      return deepen (bare, 0.42f);
    case CAV_FINISH_WAX:
      return deepen (bare, 0.2f);
    case CAV_FINISH_VARNISH:
      return deepen (bare, 0.55f);
    case CAV_FINISH_BLACK:
      return cav_tint_mix (black, bare, 0.05f + 0.04f * grain);
    case CAV_FINISH_WHITE:
      return cav_tint_mix (white, bare, 0.06f);
    case CAV_FINISH_GILT:
      return gild (bare, along, across);
    case CAV_FINISH_BARE:
      break;
    }
  return bare;
}

CavGloss
cav_finish_get_gloss (CavFinish finish)
{
  static const CavGloss glosses[] = {
    [CAV_FINISH_BARE] = { 0.02f, 6, 1, { 1, 1, 1 } },
    [CAV_FINISH_OIL] = { 0.10f, 14, 1, { 1, 0.98f, 0.94f } },
    [CAV_FINISH_WAX] = { 0.16f, 10, 1, { 1, 0.98f, 0.94f } },
    [CAV_FINISH_VARNISH] = { 0.38f, 48, 1, { 1, 1, 0.98f } },
    [CAV_FINISH_BLACK] = { 0.22f, 22, 1, { 1, 1, 1 } },
    [CAV_FINISH_WHITE] = { 0.12f, 18, 1, { 1, 1, 1 } },
    [CAV_FINISH_GILT] = { 0.85f, 12, 0.62f, { 1, 0.86f, 0.54f } },
  };

  return glosses[finish < G_N_ELEMENTS (glosses) ? finish : CAV_FINISH_BARE];
}
