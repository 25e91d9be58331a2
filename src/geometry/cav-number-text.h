/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* How numbers stand in what people read: with the decimal mark of the language that the sentences
 * are in, where the locale writes it too. Files have a point, and are not written with these. */
char cav_number_get_mark (void);

/* g_ascii_formatd() with that mark. Returns buffer. */
const char *cav_number_format (char *buffer, int size, const char *format, double value);

/* (transfer full) With so many decimals at most; zeros at the end, which say nothing, are left
 * out. */
char *cav_number_create (double value, int decimals) G_GNUC_WARN_UNUSED_RESULT;

/* A number for a sentence; it lives as long as the block. */
#define CAV_NUMBER_TEXT(format, value)                                                             \
  cav_number_format ((char[G_ASCII_DTOSTR_BUF_SIZE]){ 0 }, G_ASCII_DTOSTR_BUF_SIZE, format, value)

G_END_DECLS
