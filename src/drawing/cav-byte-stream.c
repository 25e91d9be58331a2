/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/cav-byte-stream-private.h"

cairo_status_t
cav_byte_stream_append_cb (void *closure, const unsigned char *data, unsigned int length)
{
  g_byte_array_append (closure, data, length);
  return CAIRO_STATUS_SUCCESS;
}
