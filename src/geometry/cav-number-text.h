/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <glib.h>

/* A number for a sentence, with a decimal point in every locale; it lives as long as the block. */
#define CAV_NUMBER_TEXT(format, value)                                                             \
  g_ascii_formatd ((char[G_ASCII_DTOSTR_BUF_SIZE]){ 0 }, G_ASCII_DTOSTR_BUF_SIZE, format, value)
