/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/*
 * Writing XML: indented by two spaces a level, one element a line. An element is begun, given
 * attributes, and then either ended at once or opened, filled and closed. Characters that XML
 * cannot hold become U+FFFD.
 */
void cav_xml_write_declaration (GString *text);
void cav_xml_write_begin (GString *text, int depth, const char *name);
void cav_xml_write_attribute (GString *text, const char *name, const char *value);
/* The shortest decimal that reads back as the same bits. */
void cav_xml_write_number (GString *text, const char *name, double value);
void cav_xml_write_rounded (GString *text, const char *name, double value, int decimals);
void cav_xml_write_boolean (GString *text, const char *name, gboolean value);
void cav_xml_write_end (GString *text);
void cav_xml_write_open (GString *text);
void cav_xml_write_close (GString *text, int depth, const char *name);
/* A whole element that holds content alone. */
void cav_xml_write_text (GString *text, int depth, const char *name, const char *content);

G_END_DECLS
