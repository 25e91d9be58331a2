/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "storage/cav-xml.h"

#include <glib/gi18n-lib.h>
#include <libxml/parser.h>
#include <math.h>
#include <string.h>

#include "storage/cav-number.h"
#include "storage/cav-xml-guard.h"

#define LONGEST_SHOWN_VALUE 40

/* What the parser's callbacks leave behind; hangs on the parser context, so that nothing is
 * shared between threads. */
typedef struct
{
  gboolean allow_doctype;
  char *message; /* the first complaint */
  int line;
} ParseState;

#if LIBXML_VERSION >= 21200
typedef const xmlError CavXmlError;
#else
typedef xmlError CavXmlError;
#endif

static void
error_cb (void *data, CavXmlError *complaint)
{
  xmlParserCtxt *parser = data;
  ParseState *state = parser->_private;

  if (state->message != NULL || complaint->level < XML_ERR_ERROR)
    return;
  state->message = cav_xml_dup_printable_name (complaint->message != NULL ? complaint->message
                                                                          : _ ("unknown fault"));
  state->line = complaint->line;
}

static void
internal_subset_cb (void *data,
                    const xmlChar *name,
                    const xmlChar *public_id,
                    const xmlChar *system_id)
{
  xmlParserCtxt *parser = data;
  ParseState *state = parser->_private;

  /* "[" begins declarations inside the document: that is where entities come from. */
  if (state->allow_doctype && *parser->input->cur != '[')
    return;
  if (state->message == NULL)
    {
      state->message = g_strdup (_ ("document type declarations are not allowed"));
      state->line = parser->input->line;
    }
  xmlStopParser (parser);
}

char *
cav_xml_dup_printable_name (const char *file_name)
{
  char *shown = g_filename_display_name (file_name);

  g_strchomp (shown);
  for (char *at = shown; *at != '\0'; at++)
    if (g_ascii_iscntrl (*at))
      *at = ' ';
  return shown;
}

char *
cav_xml_dup_printable_value (const char *value)
{
  g_autofree char *shown = cav_xml_dup_printable_name (value);

  if (g_utf8_strlen (shown, -1) <= LONGEST_SHOWN_VALUE)
    return g_steal_pointer (&shown);
  g_autofree char *beginning = g_utf8_substring (shown, 0, LONGEST_SHOWN_VALUE);
  return g_strconcat (beginning, "...", NULL);
}

static void
set_not_xml (GError **error, const char *name, int line, const char *what)
{
  g_set_error (error, CAV_STORAGE_ERROR, CAV_STORAGE_ERROR_NOT_XML,
               _ ("%s:%d: not readable as XML (%s); choose another file or mend this one"), name,
               MAX (line, 1), what);
}

/* The encoding that the XML declaration names, or NULL. (transfer full) */
static char *
dup_declared_encoding (const char *data, gsize length)
{
  if (length < 5 || memcmp (data, "<?xml", 5) != 0)
    return NULL;
  const char *end = g_strstr_len (data, (gssize)MIN (length, 500), "?>");
  if (end == NULL)
    return NULL;
  const char *word = g_strstr_len (data, end - data, "encoding");
  if (word == NULL)
    return NULL;
  const char *open = word + strcspn (word, "\"'?");
  if (*open == '?')
    return NULL;
  const char *close = memchr (open + 1, *open, (gsize)(end - open - 1));
  return close == NULL ? NULL : g_strndup (open + 1, (gsize)(close - open - 1));
}

static gboolean
check_bytes (const char *data, gsize length, const char *name, GError **error)
{
  if (length == 0)
    {
      set_not_xml (error, name, 1, _ ("the file is empty"));
      return FALSE;
    }
  if (length > CAV_STORAGE_MAX_BYTES)
    {
      g_set_error (
          error, CAV_STORAGE_ERROR, CAV_STORAGE_ERROR_TOO_LARGE,
          _ ("%s: larger than %d MB; make the drawing in it simpler or choose another file"), name,
          CAV_STORAGE_MAX_MEGABYTES);
      return FALSE;
    }

  /* Only in UTF-8 does the guard see what the parser will see. */
  g_autofree char *encoding = dup_declared_encoding (data, length);
  if (!g_utf8_validate_len (data, length, NULL)
      || (encoding != NULL && g_ascii_strcasecmp (encoding, "UTF-8") != 0
          && g_ascii_strcasecmp (encoding, "US-ASCII") != 0
          && g_ascii_strcasecmp (encoding, "ASCII") != 0))
    {
      set_not_xml (error, name, 1, _ ("the text is not UTF-8"));
      return FALSE;
    }

  int line;
  const char *wrong = cav_xml_guard_check (data, length, &line);
  if (wrong != NULL)
    {
      g_set_error (error, CAV_STORAGE_ERROR, CAV_STORAGE_ERROR_TOO_LARGE,
                   _ ("%s:%d: %s; make the drawing in it simpler or choose another file"), name,
                   line, wrong);
      return FALSE;
    }
  return TRUE;
}

CavXml *
cav_xml_parse (GBytes *bytes, const char *name, CavXmlFlags flags, GError **error)
{
  gsize length;
  const char *data = g_bytes_get_data (bytes, &length);
  g_autofree char *shown = cav_xml_dup_printable_name (name);
  ParseState state = { .allow_doctype = (flags & CAV_XML_ALLOW_DOCTYPE) != 0 };

  if (!check_bytes (data, length, shown, error))
    return NULL;

  xmlParserCtxt *parser = xmlNewParserCtxt ();
  parser->_private = &state;
  parser->sax->serror = error_cb;
  parser->sax->internalSubset = internal_subset_cb;
  parser->sax->externalSubset = NULL;
  xmlDoc *doc = xmlCtxtReadMemory (parser, data, (int)length, NULL, "UTF-8",
                                   XML_PARSE_NONET | XML_PARSE_NOCDATA | XML_PARSE_BIG_LINES);
  xmlFreeParserCtxt (parser);

  if (doc == NULL || state.message != NULL)
    {
      xmlFreeDoc (doc);
      set_not_xml (error, shown, state.line,
                   state.message != NULL ? state.message : C_ ("file", "broken"));
      g_free (state.message);
      return NULL;
    }

  CavXml *xml = g_new0 (CavXml, 1);
  xml->name = g_steal_pointer (&shown);
  xml->doc = doc;
  return xml;
}

void
cav_xml_free (CavXml *xml)
{
  if (xml == NULL)
    return;
  xmlFreeDoc (xml->doc);
  g_free (xml->name);
  g_free (xml);
}

xmlNode *
cav_xml_get_root (const CavXml *xml)
{
  return xmlDocGetRootElement (xml->doc);
}

gboolean
cav_xml_fail (const CavXml *xml,
              const xmlNode *node,
              CavStorageError code,
              GError **error,
              const char *format,
              ...)
{
  va_list arguments;

  va_start (arguments, format);
  g_autofree char *message = g_strdup_vprintf (format, arguments);
  va_end (arguments);
  g_set_error (error, CAV_STORAGE_ERROR, (int)code, "%s:%ld: %s", xml->name,
               MAX (xmlGetLineNo (node), 1), message);
  return FALSE;
}

gboolean
cav_xml_fail_with (const CavXml *xml, const xmlNode *node, GError *cause, GError **error)
{
  CavStorageError code = cause->domain == CAV_STORAGE_ERROR ? (CavStorageError)cause->code
                                                            : CAV_STORAGE_ERROR_CONTENT;

  cav_xml_fail (xml, node, code, error, "%s", cause->message);
  g_error_free (cause);
  return FALSE;
}

gboolean
cav_xml_is (const xmlNode *node, const char *name)
{
  return node->ns == NULL && strcmp ((const char *)node->name, name) == 0;
}

gboolean
cav_xml_has (const xmlNode *node, const char *name)
{
  return xmlHasNsProp (node, BAD_CAST name, NULL) != NULL;
}

char *
cav_xml_dup_attribute (const xmlNode *node, const char *name)
{
  xmlChar *value = xmlGetNoNsProp (node, BAD_CAST name);
  char *copy = g_strdup ((const char *)value);

  xmlFree (value);
  return copy;
}

void
cav_xml_take_attribute (const xmlNode *node, const char *name, char **inout_text)
{
  char *text = cav_xml_dup_attribute (node, name);

  if (text == NULL)
    return;
  g_free (*inout_text);
  *inout_text = text;
}

static gboolean
check_version (const CavXml *xml, const xmlNode *root, const char *kind, int newest, GError **error)
{
  double version;
  g_autofree char *text = cav_xml_require_text (xml, root, "version", error);

  if (text == NULL)
    return FALSE;
  if (!cav_number_parse (text, &version) || version < 1
      || (version <= newest && fabs (version - round (version)) > 0.0))
    {
      g_autofree char *shown = cav_xml_dup_printable_value (text);
      return cav_xml_fail (xml, root, CAV_STORAGE_ERROR_CONTENT, error,
                           _ ("the version is \"%s\"; write a whole number from 1 to %d"), shown,
                           newest);
    }
  if (version > newest)
    return cav_xml_fail (
        xml, root, CAV_STORAGE_ERROR_NEWER, error,
        _ ("this %s was made by a newer version of Cavetto; update Cavetto to open it"), kind);
  return TRUE;
}

int
cav_xml_get_version (const CavXml *xml)
{
  g_autofree char *text = cav_xml_dup_attribute (cav_xml_get_root (xml), "version");
  double version;

  return text != NULL && cav_number_parse (text, &version) ? (int)version : 1;
}

gboolean
cav_xml_check_root (
    const CavXml *xml, const char *name, const char *kind, int newest, GError **error)
{
  xmlNode *root = cav_xml_get_root (xml);

  if (!cav_xml_is (root, name))
    {
      g_autofree char *shown = cav_xml_dup_printable_value ((const char *)root->name);
      return cav_xml_fail (xml, root, CAV_STORAGE_ERROR_WRONG_KIND, error,
                           _ ("not a %s: it begins with <%s>, not with <%s>; choose another file"),
                           kind, shown, name);
    }
  if (!check_version (xml, root, kind, newest, error))
    return FALSE;

  g_autofree char *unit = cav_xml_require_text (xml, root, "unit", error);
  if (unit == NULL)
    return FALSE;
  if (strcmp (unit, "mm") != 0)
    {
      g_autofree char *shown = cav_xml_dup_printable_value (unit);
      return cav_xml_fail (xml, root, CAV_STORAGE_ERROR_CONTENT, error,
                           _ ("the unit is \"%s\"; files are in millimetres, unit=\"mm\""), shown);
    }
  return TRUE;
}

gboolean
cav_xml_check_attributes (const CavXml *xml,
                          const xmlNode *node,
                          const char *const *names,
                          GError **error)
{
  for (const xmlAttr *attribute = node->properties; attribute != NULL; attribute = attribute->next)
    if (attribute->ns != NULL || !g_strv_contains (names, (const char *)attribute->name))
      {
        g_autofree char *shown = cav_xml_dup_printable_value ((const char *)attribute->name);
        return cav_xml_fail (xml, node, CAV_STORAGE_ERROR_CONTENT, error,
                             _ ("<%s> has an unknown attribute \"%s\"; take it out"),
                             (const char *)node->name, shown);
      }
  return TRUE;
}

gboolean
cav_xml_fail_unknown_child (const CavXml *xml, const xmlNode *child, GError **error)
{
  g_autofree char *shown = cav_xml_dup_printable_value ((const char *)child->name);

  return cav_xml_fail (xml, child, CAV_STORAGE_ERROR_CONTENT, error,
                       _ ("unknown element <%s> in <%s>; take it out"), shown,
                       (const char *)child->parent->name);
}

gboolean
cav_xml_fail_word (const CavXml *xml, const xmlNode *node, const char *name, GError **error)
{
  g_autofree char *word = cav_xml_dup_attribute (node, name);
  g_autofree char *shown = cav_xml_dup_printable_value (word);

  return cav_xml_fail (xml, node, CAV_STORAGE_ERROR_CONTENT, error,
                       _ ("%s=\"%s\" of <%s> is not known; choose one that the format describes"),
                       name, shown, (const char *)node->name);
}

gboolean
cav_xml_check_first (const CavXml *xml, const xmlNode *node, GError **error)
{
  for (const xmlNode *before = node->prev; before != NULL; before = before->prev)
    if (before->type == XML_ELEMENT_NODE && cav_xml_is (before, (const char *)node->name))
      return cav_xml_fail (xml, node, CAV_STORAGE_ERROR_CONTENT, error,
                           _ ("<%s> stands twice; keep one"), (const char *)node->name);
  return TRUE;
}

gboolean
cav_xml_check_since (const CavXml *xml, const xmlNode *node, int version, GError **error)
{
  return cav_xml_get_version (xml) >= version
         || cav_xml_fail (xml, node, CAV_STORAGE_ERROR_CONTENT, error,
                          _ ("<%s> belongs to files of version %d; write version=\"%d\" at the "
                             "beginning"),
                          (const char *)node->name, version, version);
}

static gboolean
is_passed_over (const xmlNode *node)
{
  return node->type == XML_COMMENT_NODE || node->type == XML_PI_NODE || xmlIsBlankNode (node);
}

gboolean
cav_xml_foreach_child (
    const CavXml *xml, const xmlNode *node, CavXmlChildFunc func, gpointer data, GError **error)
{
  for (xmlNode *child = node->children; child != NULL; child = child->next)
    {
      if (is_passed_over (child))
        continue;
      if (child->type != XML_ELEMENT_NODE)
        return cav_xml_fail (xml, node, CAV_STORAGE_ERROR_CONTENT, error,
                             _ ("text in <%s>, where none belongs; take it out"),
                             (const char *)node->name);
      if (func == NULL)
        return cav_xml_fail_unknown_child (xml, child, error);
      if (!func (xml, child, data, error))
        return FALSE;
    }
  return TRUE;
}

char *
cav_xml_dup_text (const CavXml *xml, const xmlNode *node, GError **error)
{
  for (xmlNode *child = node->children; child != NULL; child = child->next)
    if (child->type == XML_ELEMENT_NODE)
      {
        cav_xml_fail_unknown_child (xml, child, error);
        return NULL;
      }

  xmlChar *content = xmlNodeGetContent (node);
  char *copy = g_strdup (content != NULL ? (const char *)content : "");
  xmlFree (content);
  return copy;
}

char *
cav_xml_require_text (const CavXml *xml, const xmlNode *node, const char *name, GError **error)
{
  char *text = cav_xml_dup_attribute (node, name);

  if (text == NULL)
    cav_xml_fail (xml, node, CAV_STORAGE_ERROR_CONTENT, error,
                  _ ("<%s> lacks the attribute \"%s\"; add it"), (const char *)node->name, name);
  return text;
}

gboolean
cav_xml_require_number (const CavXml *xml,
                        const xmlNode *node,
                        const char *name,
                        double minimum,
                        double maximum,
                        double *out_value,
                        GError **error)
{
  double value;
  g_autofree char *text = cav_xml_require_text (xml, node, name, error);

  if (text == NULL)
    return FALSE;
  g_autofree char *shown = cav_xml_dup_printable_value (text);
  if (!cav_number_parse (text, &value))
    return cav_xml_fail (xml, node, CAV_STORAGE_ERROR_CONTENT, error,
                         _ ("%s=\"%s\" of <%s> is not a number; write it like 12.5"), name, shown,
                         (const char *)node->name);
  if (value < minimum || value > maximum)
    {
      g_autoptr (GString) least = g_string_new (NULL);
      g_autoptr (GString) most = g_string_new (NULL);

      cav_number_append (least, minimum);
      cav_number_append (most, maximum);
      return cav_xml_fail (xml, node, CAV_STORAGE_ERROR_CONTENT, error,
                           _ ("%s=\"%s\" of <%s> is out of range; choose a number from %s to %s"),
                           name, shown, (const char *)node->name, least->str, most->str);
    }
  *out_value = value;
  return TRUE;
}

gboolean
cav_xml_optional_number (const CavXml *xml,
                         const xmlNode *node,
                         const char *name,
                         double minimum,
                         double maximum,
                         double *inout_value,
                         GError **error)
{
  return !cav_xml_has (node, name)
         || cav_xml_require_number (xml, node, name, minimum, maximum, inout_value, error);
}

gboolean
cav_xml_require_integer (const CavXml *xml,
                         const xmlNode *node,
                         const char *name,
                         int minimum,
                         int maximum,
                         int *out_value,
                         GError **error)
{
  double value;

  if (!cav_xml_require_number (xml, node, name, minimum, maximum, &value, error))
    return FALSE;
  if (fabs (value - round (value)) > 0.0)
    return cav_xml_fail (xml, node, CAV_STORAGE_ERROR_CONTENT, error,
                         _ ("%s of <%s> is not a whole number; write it without a fraction"), name,
                         (const char *)node->name);
  *out_value = (int)value;
  return TRUE;
}

gboolean
cav_xml_optional_integer (const CavXml *xml,
                          const xmlNode *node,
                          const char *name,
                          int minimum,
                          int maximum,
                          int *inout_value,
                          GError **error)
{
  return !cav_xml_has (node, name)
         || cav_xml_require_integer (xml, node, name, minimum, maximum, inout_value, error);
}

gboolean
cav_xml_optional_boolean (
    const CavXml *xml, const xmlNode *node, const char *name, gboolean *inout_value, GError **error)
{
  g_autofree char *text = cav_xml_dup_attribute (node, name);

  if (text == NULL)
    return TRUE;
  if (strcmp (text, "yes") != 0 && strcmp (text, "no") != 0)
    {
      g_autofree char *shown = cav_xml_dup_printable_value (text);
      return cav_xml_fail (
          xml, node, CAV_STORAGE_ERROR_CONTENT, error,
          _ ("%s=\"%s\" of <%s> says neither \"yes\" nor \"no\"; write one of them"), name, shown,
          (const char *)node->name);
    }
  *inout_value = strcmp (text, "yes") == 0;
  return TRUE;
}
