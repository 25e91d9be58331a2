/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "storage/cav-xml.h"

#include <string.h>

#include "storage-test.h"

static GError *
parse_error (const char *text, gssize length, CavXmlFlags flags)
{
  GError *error = NULL;
  g_autoptr (GBytes) bytes = g_bytes_new (text, length < 0 ? strlen (text) : (gsize)length);
  g_autoptr (CavXml) xml = cav_xml_parse (bytes, "a.xml", flags, &error);

  g_assert_true ((xml == NULL) == (error != NULL));
  return error;
}

static void
assert_refused (const char *text, CavStorageError code, const char *part)
{
  g_autoptr (GError) error = parse_error (text, -1, CAV_XML_STRICT);

  storage_test_assert_error (error, code, part);
}

static void
assert_taken (const char *text, CavXmlFlags flags)
{
  g_autoptr (GError) error = parse_error (text, -1, flags);

  g_assert_no_error (error);
}

static void
test_well_formed (void)
{
  assert_taken ("<a/>", CAV_XML_STRICT);
  assert_taken ("\xef\xbb\xbf<a/>", CAV_XML_STRICT);
  assert_taken ("<?xml version=\"1.0\"?><a>&lt;&#65;</a>", CAV_XML_STRICT);
  assert_taken ("<?xml version='1.0' encoding='utf-8'?><a b='\xc3\xa4'/>", CAV_XML_STRICT);
  assert_taken ("<?xml version=\"1.0\" encoding=\"US-ASCII\"?><a/>", CAV_XML_STRICT);
  assert_taken ("<!-- ==================================================================== -->"
                "<a><![CDATA[<<<===>>>]]></a><?x ===================================== ?>",
                CAV_XML_STRICT);
}

static void
test_not_xml (void)
{
  assert_refused ("", CAV_STORAGE_ERROR_NOT_XML,
                  "a.xml:1: not readable as XML (the file is empty)");
  assert_refused ("hello", CAV_STORAGE_ERROR_NOT_XML, "a.xml:1: not readable as XML (Start tag");
  assert_refused ("<a>\n<b>\n</a>", CAV_STORAGE_ERROR_NOT_XML, "a.xml:3:");
  assert_refused ("<a b='1' b='2'/>", CAV_STORAGE_ERROR_NOT_XML, "redefined");
  assert_refused ("<a>", CAV_STORAGE_ERROR_NOT_XML, "a.xml:1:");
  assert_refused ("<a b='", CAV_STORAGE_ERROR_NOT_XML, "a.xml:1:");
  assert_refused ("<!-- open", CAV_STORAGE_ERROR_NOT_XML, "a.xml:1:");
  assert_refused ("<a>&lurking;</a>", CAV_STORAGE_ERROR_NOT_XML, "lurking");
  assert_refused ("<a/>\xff", CAV_STORAGE_ERROR_NOT_XML, "not UTF-8");
  assert_refused ("<?xml version=\"1.0\" encoding=\"ISO-8859-1\"?><a/>", CAV_STORAGE_ERROR_NOT_XML,
                  "not UTF-8");
  assert_refused ("<?xml version=\"1.0\" encoding=\"UTF-7\"?><a/>", CAV_STORAGE_ERROR_NOT_XML,
                  "not UTF-8");
  assert_refused ("<?xml encoding ?><a/>", CAV_STORAGE_ERROR_NOT_XML, "a.xml:1:");
  assert_refused ("<?xml encoding=\"x?><a/>", CAV_STORAGE_ERROR_NOT_XML, "a.xml:1:");
  assert_refused ("<?xml version=\"1.0\" <a/>", CAV_STORAGE_ERROR_NOT_XML, "a.xml:1:");

  g_autoptr (GError) error = parse_error ("<a>\0</a>", 8, CAV_XML_STRICT);
  storage_test_assert_error (error, CAV_STORAGE_ERROR_NOT_XML, "not UTF-8");
}

static void
test_doctype (void)
{
  static const char *const public_type
      = "<!DOCTYPE a PUBLIC \"-//X//Y\" \"http://example.invalid/a.dtd\"><a/>";
  static const char *const bomb
      = "<?xml version=\"1.0\"?>\n<!DOCTYPE a [\n<!ENTITY x \"xxxxxxxxxx\">\n"
        "<!ENTITY y \"&x;&x;&x;&x;&x;&x;&x;&x;&x;&x;\">\n]>\n<a>&y;</a>";
  static const char *const outside
      = "<!DOCTYPE a [<!ENTITY x SYSTEM \"file:///etc/passwd\">]><a>&x;</a>";

  assert_refused (public_type, CAV_STORAGE_ERROR_NOT_XML, "document type declarations");
  assert_taken (public_type, CAV_XML_ALLOW_DOCTYPE);
  assert_refused (bomb, CAV_STORAGE_ERROR_NOT_XML, "a.xml:2: not readable as XML (document type");
  assert_refused (outside, CAV_STORAGE_ERROR_NOT_XML, "document type declarations");

  g_autoptr (GError) error = parse_error (bomb, -1, CAV_XML_ALLOW_DOCTYPE);
  storage_test_assert_error (error, CAV_STORAGE_ERROR_NOT_XML, "document type declarations");
}

/* The name of a file and what stands in it stay on one line. */
static void
test_one_line (void)
{
  GError *error = NULL;
  g_autoptr (GBytes) bytes = storage_test_bytes ("<a");
  g_autoptr (CavXml) xml = cav_xml_parse (bytes, "b\nad\x01.xml", CAV_XML_STRICT, &error);

  g_assert_null (xml);
  storage_test_assert_error (error, CAV_STORAGE_ERROR_NOT_XML, "b ad .xml:1:");
  g_error_free (error);

  g_autofree char *shown
      = cav_xml_dup_printable_value ("\xc3\xa4\n5678901234567890123456789012345678901234567890");
  g_assert_cmpstr (shown, ==, "\xc3\xa4 56789012345678901234567890123456789012...");
}

typedef struct
{
  const char *desc;
  const char *before;
  const char *unit; /* repeated */
  guint times;
  const char *after;
  const char *message;
} Heap;

/* All of these are refused at once; without the guard some would take minutes. */
static void
test_heaps (void)
{
  static const Heap rows[] = {
    { "attributes", "<a ", "b='' ", 65, "/>", "too many attributes" },
    { "many more attributes", "<a ", "b='' ", 200000, "/>", "too many attributes" },
    { "attributes on many lines", "<a\n", "b=''\n", 65, "/>", "a.xml:66:" },
    { "namespaces", "<a>", "<b xmlns:c=''/>", 201, "</a>", "too many namespaces" },
    { "depth", "", "<a>", 65, "", "nested too deeply" },
    { "elements", "<a>", "<b/>", 500001, "</a>", "too many elements" },
    { "references", "<a>", "&lt;", 500001, "</a>", "too many elements" },
    { "references in a value", "<a b='", "&lt;", 500001, "'/>", "too many elements" },
    { "comments", "<a>", "<!---->", 500001, "</a>", "too many elements" },
    { "instructions", "<a>", "<?b?>", 500001, "</a>", "too many elements" },
    { "bytes", "<a>", "0123456789", 1000000, "</a>", "larger than 10 MB" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      GString *text = g_string_new (rows[i].before);

      g_test_message ("%s", rows[i].desc);
      for (guint k = 0; k < rows[i].times; k++)
        g_string_append (text, rows[i].unit);
      g_string_append (text, rows[i].after);
      assert_refused (text->str, CAV_STORAGE_ERROR_TOO_LARGE, rows[i].message);
      g_string_free (text, TRUE);
    }
}

/* Just inside the limits everything passes. */
static void
test_just_inside (void)
{
  g_autoptr (GString) text = g_string_new ("<a>");

  for (int i = 0; i < 63; i++)
    g_string_append (text, "<b>");
  g_string_append (text, "<c ");
  for (int i = 0; i < 40; i++)
    g_string_append_printf (text, "b%d='>' ", i);
  g_string_append (text, "/>");
  for (int i = 0; i < 63; i++)
    g_string_append (text, "</b>");
  for (int i = 0; i < 1000; i++)
    g_string_append (text, "<b/><b></b>");
  g_string_append (text, "</a>");
  assert_taken (text->str, CAV_XML_STRICT);
}

int
main (int argc, char *argv[])
{
  storage_test_init (&argc, &argv);
  g_test_add_func ("/storage/xml/well-formed", test_well_formed);
  g_test_add_func ("/storage/xml/not-xml", test_not_xml);
  g_test_add_func ("/storage/xml/doctype", test_doctype);
  g_test_add_func ("/storage/xml/one-line", test_one_line);
  g_test_add_func ("/storage/xml/heaps", test_heaps);
  g_test_add_func ("/storage/xml/just-inside", test_just_inside);
  return g_test_run ();
}
