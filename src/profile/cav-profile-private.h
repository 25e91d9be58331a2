/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "profile/cav-profile.h"

G_BEGIN_DECLS

/* A number for a sentence, with a decimal point in every locale; it lives as long as the block. */
#define CAV_NUMBER_TEXT(format, value)                                                             \
  g_ascii_formatd ((char[G_ASCII_DTOSTR_BUF_SIZE]){ 0 }, G_ASCII_DTOSTR_BUF_SIZE, format, value)

/* Adds to the findings where the wood of a section is thinner than CAV_WALL_THIN. */
#define CAV_WALL_THIN 2.0
void cav_profile_check_walls (const CavRegion *region, GPtrArray *findings);

G_END_DECLS
