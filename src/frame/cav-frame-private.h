/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <glib.h>

/* A number as text with a point, whatever the locale, for messages; lives until the block ends. */
#define CAV_NUMBER_TEXT(format, value)                                                             \
  g_ascii_formatd ((char[G_ASCII_DTOSTR_BUF_SIZE]){ 0 }, G_ASCII_DTOSTR_BUF_SIZE, format, value)
