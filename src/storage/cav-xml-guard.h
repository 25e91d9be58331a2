/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/*
 * A look over raw bytes before the parser sees them. libxml2 compares each attribute of an
 * element with all others and each prefix with all namespaces in scope, so that a file of a few
 * megabytes can keep it busy for minutes; and its trees take twenty times the file. One pass,
 * linear in length. Returns NULL or what is wrong (static) and its line.
 */
const char *cav_xml_guard_check (const char *data, gsize length, int *out_line);

G_END_DECLS
