/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <cairo.h>
#include <glib.h>

G_BEGIN_DECLS

/* For cairo's functions that write to a stream: appends to closure, a GByteArray. */
cairo_status_t
cav_byte_stream_append_cb (void *closure, const unsigned char *data, unsigned int length);

G_END_DECLS
