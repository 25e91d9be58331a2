/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "storage/cav-xml-guard.h"

#include <glib/gi18n-lib.h>
#include <string.h>

#include "storage/cav-xml.h"

typedef struct
{
  const char *at;
  const char *end;
  int line;
  guint items;
  guint namespaces;
  int depth;
} Guard;

static gboolean
looking_at (const Guard *guard, const char *word)
{
  gsize length = strlen (word);

  return (gsize)(guard->end - guard->at) >= length && memcmp (guard->at, word, length) == 0;
}

static void
step (Guard *guard)
{
  if (*guard->at == '\n')
    guard->line++;
  guard->at++;
}

static void
skip_past (Guard *guard, const char *word)
{
  while (guard->at < guard->end && !looking_at (guard, word))
    step (guard);
  guard->at = MIN (guard->at + strlen (word), guard->end);
}

static void
skip_quoted (Guard *guard)
{
  char quote = *guard->at;

  step (guard);
  while (guard->at < guard->end && *guard->at != quote)
    {
      if (*guard->at == '&')
        guard->items++;
      step (guard);
    }
  if (guard->at < guard->end)
    guard->at++;
}

/* From "<" past ">". */
static const char *
check_tag (Guard *guard)
{
  gboolean closes = looking_at (guard, "</");
  gboolean empty = FALSE;
  guint attributes = 0;

  while (guard->at < guard->end && *guard->at != '>')
    {
      empty = FALSE;
      if (*guard->at == '"' || *guard->at == '\'')
        {
          skip_quoted (guard);
          continue;
        }
      if (*guard->at == '=' && ++attributes > CAV_XML_MAX_ATTRIBUTES)
        return _ ("too many attributes in one element");
      if (looking_at (guard, "xmlns") && ++guard->namespaces > CAV_XML_MAX_NAMESPACES)
        return _ ("too many namespaces");
      empty = *guard->at == '/';
      step (guard);
    }
  if (guard->at < guard->end)
    guard->at++;

  guard->items += 1 + attributes;
  guard->depth += closes ? -1 : empty ? 0 : 1;
  return guard->depth > CAV_XML_MAX_DEPTH ? _ ("elements nested too deeply") : NULL;
}

static const char *
check_markup (Guard *guard)
{
  if (looking_at (guard, "<!--"))
    skip_past (guard, "-->");
  else if (looking_at (guard, "<![CDATA["))
    skip_past (guard, "]]>");
  else if (looking_at (guard, "<?"))
    skip_past (guard, "?>");
  else if (looking_at (guard, "<!"))
    skip_past (guard, ">"); /* the parser decides */
  else
    return check_tag (guard);
  guard->items++;
  return NULL;
}

const char *
cav_xml_guard_check (const char *data, gsize length, int *out_line)
{
  Guard guard = { .at = data, .end = data + length, .line = 1 };
  const char *wrong = NULL;

  while (wrong == NULL && guard.at < guard.end)
    {
      if (*guard.at == '<')
        wrong = check_markup (&guard);
      else
        {
          if (*guard.at == '&')
            guard.items++;
          step (&guard);
        }
      if (wrong == NULL && guard.items > CAV_XML_MAX_ITEMS)
        wrong = _ ("too many elements and attributes");
    }
  *out_line = guard.line;
  return wrong;
}
