/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <libxml/tree.h>

#include "storage/cav-storage.h"

G_BEGIN_DECLS

/*
 * Reading XML that nobody vouches for. A document is refused before it is parsed where it is
 * too large, is not UTF-8, or holds more elements, attributes or levels than any file of ours,
 * and while it is parsed where it declares entities. Nothing is fetched from anywhere.
 */

/* Elements, attributes and references of one document, all together. */
#define CAV_XML_MAX_ITEMS 500000
#define CAV_XML_MAX_ATTRIBUTES 64
#define CAV_XML_MAX_NAMESPACES 200
#define CAV_XML_MAX_DEPTH 64

typedef enum
{
  CAV_XML_STRICT = 0,
  /* A document type that only points to a public definition is passed over. Pictures have it. */
  CAV_XML_ALLOW_DOCTYPE = 1 << 0,
} CavXmlFlags;

typedef struct
{
  char *name; /* of the file, fit for one line of a message */
  xmlDoc *doc;
} CavXml;

/* (transfer full) name is what messages call the bytes. */
CavXml *cav_xml_parse (GBytes *bytes, const char *name, CavXmlFlags flags, GError **error)
    G_GNUC_WARN_UNUSED_RESULT;
void cav_xml_free (CavXml *xml);
xmlNode *cav_xml_get_root (const CavXml *xml);

/* File names and values as they may stand in a one-line message. (transfer full) */
char *cav_xml_dup_printable_name (const char *file_name);
char *cav_xml_dup_printable_value (const char *value);

/* Sets "name:line: message". Always returns FALSE. */
gboolean cav_xml_fail (const CavXml *xml,
                       const xmlNode *node,
                       CavStorageError code,
                       GError **error,
                       const char *format,
                       ...) G_GNUC_PRINTF (5, 6);

/* Sets "name:line: " and the message of cause, which is freed (transfer full); keeps the code of
 * a storage error, else CONTENT. Always returns FALSE. */
gboolean cav_xml_fail_with (const CavXml *xml, const xmlNode *node, GError *cause, GError **error);

/* Checks that the root is <name>, of a version from 1 to newest, in millimetres; kind says what
 * such a file is. */
gboolean cav_xml_check_root (
    const CavXml *xml, const char *name, const char *kind, int newest, GError **error);
/* Of a root that has been checked. */
int cav_xml_get_version (const CavXml *xml);
/* Refuses attributes that are not in the NULL-terminated list. */
gboolean cav_xml_check_attributes (const CavXml *xml,
                                   const xmlNode *node,
                                   const char *const *names,
                                   GError **error);

typedef gboolean (*CavXmlChildFunc) (const CavXml *xml,
                                     xmlNode *child,
                                     gpointer data,
                                     GError **error);
/* Calls func for each child element; other content than comments and white space is refused.
 * func NULL: there may be no children. */
gboolean cav_xml_foreach_child (
    const CavXml *xml, const xmlNode *node, CavXmlChildFunc func, gpointer data, GError **error);
/* These complain of a child that is none of those that may be there, and of an attribute's value
 * that is none of the words that may stand there. Both always return FALSE. */
gboolean cav_xml_fail_unknown_child (const CavXml *xml, const xmlNode *child, GError **error);
gboolean
cav_xml_fail_word (const CavXml *xml, const xmlNode *node, const char *name, GError **error);
/* Whether this is the first element of its name in its parent: there may be one. */
gboolean cav_xml_check_first (const CavXml *xml, const xmlNode *node, GError **error);
/* Whether the document is of the version that brought this element, or of a later one. */
gboolean cav_xml_check_since (const CavXml *xml, const xmlNode *node, int version, GError **error);

/* Elements and attributes of ours are in no namespace. */
gboolean cav_xml_is (const xmlNode *node, const char *name);
gboolean cav_xml_has (const xmlNode *node, const char *name);
/* (transfer full) (nullable) */
char *cav_xml_dup_attribute (const xmlNode *node, const char *name);
/* Puts the attribute into a field that owns its text, which stays where the attribute is missing.
 */
void cav_xml_take_attribute (const xmlNode *node, const char *name, char **inout_text);
/* (transfer full) The text inside an element that holds nothing else. */
char *cav_xml_dup_text (const CavXml *xml, const xmlNode *node, GError **error);

/* (transfer full) NULL with an error where the attribute is missing. */
char *
cav_xml_require_text (const CavXml *xml, const xmlNode *node, const char *name, GError **error);
/* A number from minimum to maximum. */
gboolean cav_xml_require_number (const CavXml *xml,
                                 const xmlNode *node,
                                 const char *name,
                                 double minimum,
                                 double maximum,
                                 double *out_value,
                                 GError **error);
/* The same; *inout_value stays where the attribute is missing. */
gboolean cav_xml_optional_number (const CavXml *xml,
                                  const xmlNode *node,
                                  const char *name,
                                  double minimum,
                                  double maximum,
                                  double *inout_value,
                                  GError **error);
/* Both for a whole number. */
gboolean cav_xml_require_integer (const CavXml *xml,
                                  const xmlNode *node,
                                  const char *name,
                                  int minimum,
                                  int maximum,
                                  int *out_value,
                                  GError **error);
gboolean cav_xml_optional_integer (const CavXml *xml,
                                   const xmlNode *node,
                                   const char *name,
                                   int minimum,
                                   int maximum,
                                   int *inout_value,
                                   GError **error);
/* "yes" or "no". */
gboolean cav_xml_optional_boolean (const CavXml *xml,
                                   const xmlNode *node,
                                   const char *name,
                                   gboolean *inout_value,
                                   GError **error);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CavXml, cav_xml_free)

G_END_DECLS
