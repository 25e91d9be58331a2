/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "storage/cav-lumber-xml.h"

#include <glib/gi18n-lib.h>
#include <string.h>

#include "storage/cav-xml-write.h"

/* Far more than a workshop holds; what is read is also laid out. */
#define MOST_ROWS 1000
#define MOST_SPANS 1000
#define MOST_PINS 10000
#define MOST_JOINED 50
/* In whatever money. */
#define MOST_PRICE 1e7

#define AT(field) G_STRUCT_OFFSET (CavLumber, field)

typedef struct
{
  const char *name;
  gsize offset;
} Field;

/* Lengths, mm. */
static const Field lengths[] = {
  { "kerf", AT (kerf) },
  { "jointing", AT (jointing) },
  { "strip-extra", AT (strip_extra) },
  { "planing", AT (planing) },
  { "resaw-kerf", AT (resaw_kerf) },
  { "resaw-planing", AT (resaw_planing) },
  { "square-extra", AT (square_extra) },
  { "spare", AT (spare) },
  { "test", AT (test) },
  { "shortest", AT (shortest) },
  { "useful", AT (useful) },
};

static const Field booleans[] = {
  { "resaw", AT (resaw) },
  { "glue-up", AT (glue_up) },
  { "square-first", AT (square_first) },
};

#undef AT
#define AT(field) G_STRUCT_OFFSET (CavBoardPin, field)

static const Field pin_counts[] = {
  { "frame", AT (frame) }, { "rail", AT (rail) },   { "board", AT (board) },
  { "copy", AT (copy) },   { "strip", AT (strip) }, { "layer", AT (layer) },
};

#undef AT

static gboolean
read_length (
    const CavXml *xml, const xmlNode *node, const char *name, double *inout_value, GError **error)
{
  return cav_xml_optional_number (xml, node, name, 0.0, CAV_BOARD_MAX, inout_value, error);
}

static gboolean
fail_too_many (const CavXml *xml, const xmlNode *node, int most, GError **error)
{
  return cav_xml_fail (xml, node, CAV_STORAGE_ERROR_TOO_LARGE, error,
                       _ ("more than %d elements <%s>; keep fewer"), most,
                       (const char *)node->name);
}

/* Boards */

static gboolean
span_cb (const CavXml *xml, xmlNode *child, gpointer data, GError **error)
{
  static const char *const names[] = { "from", "to", "low", "high", NULL };
  CavBoard *board = data;
  CavBoardSpan span = { .clear = cav_xml_is (child, "clear") };

  if (!span.clear && !cav_xml_is (child, "defect"))
    return cav_xml_fail_unknown_child (xml, child, error);
  if (board->spans->len == MOST_SPANS)
    return fail_too_many (xml, child, MOST_SPANS, error);
  if (!cav_xml_check_attributes (xml, child, names, error)
      || !cav_xml_foreach_child (xml, child, NULL, NULL, error)
      || !cav_xml_require_number (xml, child, "from", 0.0, CAV_BOARD_MAX, &span.from, error)
      || !cav_xml_require_number (xml, child, "to", 0.0, CAV_BOARD_MAX, &span.to, error)
      || !read_length (xml, child, "low", &span.low, error)
      || !read_length (xml, child, "high", &span.high, error))
    return FALSE;
  cav_board_add_span (board, span);
  return TRUE;
}

static gboolean
read_basis (const CavXml *xml, const xmlNode *node, CavBoard *board, GError **error)
{
  g_autofree char *word = cav_xml_dup_attribute (node, "basis");

  if (word == NULL || cav_price_basis_from_string (word, &board->basis))
    return TRUE;
  return cav_xml_fail_word (xml, node, "basis", error);
}

static gboolean
require_size (
    const CavXml *xml, const xmlNode *node, const char *name, double *out_value, GError **error)
{
  return cav_xml_require_number (xml, node, name, CAV_BOARD_MIN, CAV_BOARD_MAX, out_value, error);
}

static gboolean
read_board_numbers (const CavXml *xml, const xmlNode *node, CavBoard *board, GError **error)
{
  return require_size (xml, node, "length", &board->length, error)
         && require_size (xml, node, "width", &board->width, error)
         && require_size (xml, node, "thickness", &board->thickness, error)
         && cav_xml_optional_integer (xml, node, "count", 0, CAV_BOARD_MAX_COUNT, &board->count,
                                      error)
         && cav_xml_optional_boolean (xml, node, "planed", &board->planed, error)
         && cav_xml_optional_number (xml, node, "price", 0.0, MOST_PRICE, &board->price, error)
         && read_basis (xml, node, board, error)
         && read_length (xml, node, "end-trim", &board->end_trim, error);
}

/* (transfer full) */
static CavBoard *
read_board (const CavXml *xml, xmlNode *node, GError **error)
{
  static const char *const names[] = { "name", "count", "length", "width",    "thickness", "planed",
                                       "wood", "price", "basis",  "end-trim", NULL };
  g_autoptr (CavBoard) board = cav_board_new ();
  g_autofree char *reason = NULL;

  if (!cav_xml_check_attributes (xml, node, names, error)
      || !read_board_numbers (xml, node, board, error)
      || !cav_xml_foreach_child (xml, node, span_cb, board, error))
    return NULL;
  cav_xml_take_attribute (node, "name", &board->name);
  cav_xml_take_attribute (node, "wood", &board->wood);
  reason = cav_board_explain (board);
  if (reason != NULL)
    {
      cav_xml_fail (xml, node, CAV_STORAGE_ERROR_CONTENT, error, "%s", reason);
      return NULL;
    }
  return g_steal_pointer (&board);
}

/* Pins */

static gboolean
read_pin (const CavXml *xml, xmlNode *node, GArray *pins, GError **error)
{
  static const char *const names[]
      = { "frame", "rail", "board", "copy", "strip", "layer", "from", NULL };
  CavBoardPin pin = { 0 };

  if (pins->len == MOST_PINS)
    return fail_too_many (xml, node, MOST_PINS, error);
  if (!cav_xml_check_attributes (xml, node, names, error)
      || !cav_xml_foreach_child (xml, node, NULL, NULL, error)
      || !cav_xml_require_number (xml, node, "from", 0.0, CAV_BOARD_MAX, &pin.from, error))
    return FALSE;
  for (guint i = 0; i < G_N_ELEMENTS (pin_counts); i++)
    if (!cav_xml_optional_integer (xml, node, pin_counts[i].name, 0, CAV_BOARD_MAX_COUNT,
                                   &G_STRUCT_MEMBER (int, &pin, pin_counts[i].offset), error))
      return FALSE;
  g_array_append_val (pins, pin);
  return TRUE;
}

/* Other projects on the pile */

static gboolean
joined_child_cb (const CavXml *xml, xmlNode *child, gpointer data, GError **error)
{
  static const char *const names[] = { "length", NULL };
  CavBoardJob *job = data;

  if (cav_xml_is (child, "pin"))
    return read_pin (xml, child, job->pins, error);
  if (!cav_xml_is (child, "rail"))
    return cav_xml_fail_unknown_child (xml, child, error);
  if (job->n_rails == CAV_JOB_MAX_RAILS)
    return fail_too_many (xml, child, CAV_JOB_MAX_RAILS, error);
  if (!cav_xml_check_attributes (xml, child, names, error)
      || !cav_xml_foreach_child (xml, child, NULL, NULL, error)
      || !require_size (xml, child, "length", &job->long_points[job->n_rails], error))
    return FALSE;
  job->n_rails++;
  return TRUE;
}

static gboolean
read_order (const CavXml *xml, const xmlNode *node, CavGrainOrder *inout_order, GError **error)
{
  g_autofree char *word = cav_xml_dup_attribute (node, "order");

  if (word == NULL || cav_grain_order_from_string (word, inout_order))
    return TRUE;
  return cav_xml_fail_word (xml, node, "order", error);
}

static gboolean
read_joined_numbers (const CavXml *xml, const xmlNode *node, CavBoardJob *job, GError **error)
{
  job->face = job->width;
  return cav_xml_optional_number (xml, node, "face", 0.0, CAV_BOARD_MAX, &job->face, error)
         && cav_xml_optional_number (xml, node, "mitre", 0.0, CAV_JOB_MAX_MITRE, &job->mitre, error)
         && cav_xml_optional_integer (xml, node, "frames", 1, CAV_JOB_MAX_FRAMES, &job->frames,
                                      error)
         && read_order (xml, node, &job->order, error)
         && cav_xml_optional_integer (xml, node, "run-start", 0, CAV_JOB_MAX_RAILS - 1,
                                      &job->run_start, error)
         && cav_xml_optional_boolean (xml, node, "square-first", &job->square_first, error)
         && read_length (xml, node, "square-extra", &job->square_extra, error)
         && read_length (xml, node, "spare", &job->spare, error)
         && read_length (xml, node, "test", &job->test, error);
}

static gboolean
read_joined (const CavXml *xml, xmlNode *node, CavLumber *lumber, GError **error)
{
  static const char *const names[]
      = { "name",         "file",         "wood",   "width", "thickness",
          "face",         "mitre",        "frames", "order", "run-start",
          "square-first", "square-extra", "spare",  "test",  NULL };
  g_autoptr (CavLumber) usual = cav_lumber_new ();
  g_autoptr (CavBoardJob) job = cav_board_job_new (usual, "", 0.0, 0.0, 0.0);
  g_autofree char *reason = NULL;

  if (lumber->joined->len == MOST_JOINED)
    return fail_too_many (xml, node, MOST_JOINED, error);
  if (!cav_xml_check_since (xml, node, 3, error)
      || !cav_xml_check_attributes (xml, node, names, error)
      || !require_size (xml, node, "width", &job->width, error)
      || !require_size (xml, node, "thickness", &job->thickness, error)
      || !read_joined_numbers (xml, node, job, error)
      || !cav_xml_foreach_child (xml, node, joined_child_cb, job, error))
    return FALSE;
  cav_xml_take_attribute (node, "name", &job->name);
  cav_xml_take_attribute (node, "file", &job->file);
  cav_xml_take_attribute (node, "wood", &job->wood);
  reason = cav_board_job_explain (job);
  if (reason != NULL)
    return cav_xml_fail (xml, node, CAV_STORAGE_ERROR_CONTENT, error, "%s", reason);
  g_ptr_array_add (lumber->joined, g_steal_pointer (&job));
  return TRUE;
}

static gboolean
lumber_child_cb (const CavXml *xml, xmlNode *child, gpointer data, GError **error)
{
  CavLumber *lumber = data;
  GPtrArray *rows = cav_xml_is (child, "board")   ? lumber->boards
                    : cav_xml_is (child, "stock") ? lumber->stock
                                                  : NULL;

  if (cav_xml_is (child, "pin"))
    return read_pin (xml, child, lumber->pins, error);
  if (cav_xml_is (child, "joined"))
    return read_joined (xml, child, lumber, error);
  if (rows == NULL)
    return cav_xml_fail_unknown_child (xml, child, error);
  if (rows->len == MOST_ROWS)
    return fail_too_many (xml, child, MOST_ROWS, error);
  CavBoard *board = read_board (xml, child, error);
  if (board == NULL)
    return FALSE;
  g_ptr_array_add (rows, board);
  return TRUE;
}

/* (transfer container) */
static GPtrArray *
create_names (void)
{
  GPtrArray *names = g_ptr_array_new ();

  g_ptr_array_add (names, (gpointer) "frames");
  g_ptr_array_add (names, (gpointer) "order");
  g_ptr_array_add (names, (gpointer) "run-start");
  for (guint i = 0; i < G_N_ELEMENTS (lengths); i++)
    g_ptr_array_add (names, (gpointer)lengths[i].name);
  for (guint i = 0; i < G_N_ELEMENTS (booleans); i++)
    g_ptr_array_add (names, (gpointer)booleans[i].name);
  g_ptr_array_add (names, NULL);
  return names;
}

CavLumber *
cav_lumber_xml_read (const CavXml *xml, xmlNode *node, GError **error)
{
  g_autoptr (CavLumber) lumber = cav_lumber_new ();
  g_autoptr (GPtrArray) names = create_names ();

  if (!cav_xml_check_attributes (xml, node, (const char *const *)names->pdata, error)
      || !cav_xml_optional_integer (xml, node, "frames", 1, CAV_JOB_MAX_FRAMES, &lumber->frames,
                                    error)
      || !read_order (xml, node, &lumber->order, error)
      || !cav_xml_optional_integer (xml, node, "run-start", 0, CAV_FRAME_SIDES_MAX - 1,
                                    &lumber->run_start, error))
    return NULL;
  for (guint i = 0; i < G_N_ELEMENTS (lengths); i++)
    if (!read_length (xml, node, lengths[i].name,
                      &G_STRUCT_MEMBER (double, lumber, lengths[i].offset), error))
      return NULL;
  for (guint i = 0; i < G_N_ELEMENTS (booleans); i++)
    if (!cav_xml_optional_boolean (xml, node, booleans[i].name,
                                   &G_STRUCT_MEMBER (gboolean, lumber, booleans[i].offset), error))
      return NULL;
  if (!cav_xml_foreach_child (xml, node, lumber_child_cb, lumber, error))
    return NULL;
  return g_steal_pointer (&lumber);
}

/* Writing */

static void
write_span (GString *text, int depth, const CavBoardSpan *span)
{
  cav_xml_write_begin (text, depth, span->clear ? "clear" : "defect");
  cav_xml_write_number (text, "from", span->from);
  cav_xml_write_number (text, "to", span->to);
  cav_xml_write_number (text, "low", span->low);
  cav_xml_write_number (text, "high", span->high);
  cav_xml_write_end (text);
}

static void
write_board (GString *text, int depth, const char *element, const CavBoard *board)
{
  cav_xml_write_begin (text, depth, element);
  cav_xml_write_attribute (text, "name", board->name);
  cav_xml_write_number (text, "count", board->count);
  cav_xml_write_number (text, "length", board->length);
  cav_xml_write_number (text, "width", board->width);
  cav_xml_write_number (text, "thickness", board->thickness);
  cav_xml_write_boolean (text, "planed", board->planed);
  cav_xml_write_attribute (text, "wood", board->wood);
  cav_xml_write_attribute (text, "basis", cav_price_basis_to_string (board->basis));
  cav_xml_write_number (text, "price", board->price);
  cav_xml_write_number (text, "end-trim", board->end_trim);
  if (board->spans->len == 0)
    {
      cav_xml_write_end (text);
      return;
    }
  cav_xml_write_open (text);
  for (guint i = 0; i < board->spans->len; i++)
    write_span (text, depth + 1, &g_array_index (board->spans, CavBoardSpan, i));
  cav_xml_write_close (text, depth, element);
}

static void
write_pin (GString *text, int depth, const CavBoardPin *pin)
{
  cav_xml_write_begin (text, depth, "pin");
  for (guint i = 0; i < G_N_ELEMENTS (pin_counts); i++)
    cav_xml_write_number (text, pin_counts[i].name,
                          G_STRUCT_MEMBER (int, pin, pin_counts[i].offset));
  cav_xml_write_number (text, "from", pin->from);
  cav_xml_write_end (text);
}

static void
write_joined (GString *text, int depth, const CavBoardJob *job)
{
  cav_xml_write_begin (text, depth, "joined");
  cav_xml_write_attribute (text, "name", job->name);
  if (job->file[0] != '\0')
    cav_xml_write_attribute (text, "file", job->file);
  cav_xml_write_attribute (text, "wood", job->wood);
  cav_xml_write_number (text, "width", job->width);
  cav_xml_write_number (text, "thickness", job->thickness);
  cav_xml_write_number (text, "face", job->face);
  cav_xml_write_number (text, "mitre", job->mitre);
  cav_xml_write_number (text, "frames", job->frames);
  cav_xml_write_attribute (text, "order", cav_grain_order_to_string (job->order));
  cav_xml_write_number (text, "run-start", job->run_start);
  cav_xml_write_boolean (text, "square-first", job->square_first);
  cav_xml_write_number (text, "square-extra", job->square_extra);
  cav_xml_write_number (text, "spare", job->spare);
  cav_xml_write_number (text, "test", job->test);
  cav_xml_write_open (text);
  for (int i = 0; i < job->n_rails; i++)
    {
      cav_xml_write_begin (text, depth + 1, "rail");
      cav_xml_write_number (text, "length", job->long_points[i]);
      cav_xml_write_end (text);
    }
  for (guint i = 0; i < job->pins->len; i++)
    write_pin (text, depth + 1, &g_array_index (job->pins, CavBoardPin, i));
  cav_xml_write_close (text, depth, "joined");
}

void
cav_lumber_xml_write (GString *text, int depth, const CavLumber *lumber)
{
  cav_xml_write_begin (text, depth, "lumber");
  cav_xml_write_number (text, "frames", lumber->frames);
  cav_xml_write_attribute (text, "order", cav_grain_order_to_string (lumber->order));
  cav_xml_write_number (text, "run-start", lumber->run_start);
  for (guint i = 0; i < G_N_ELEMENTS (lengths); i++)
    cav_xml_write_number (text, lengths[i].name,
                          G_STRUCT_MEMBER (double, lumber, lengths[i].offset));
  for (guint i = 0; i < G_N_ELEMENTS (booleans); i++)
    cav_xml_write_boolean (text, booleans[i].name,
                           G_STRUCT_MEMBER (gboolean, lumber, booleans[i].offset));
  cav_xml_write_open (text);
  for (guint i = 0; i < lumber->boards->len; i++)
    write_board (text, depth + 1, "board", g_ptr_array_index (lumber->boards, i));
  for (guint i = 0; i < lumber->stock->len; i++)
    write_board (text, depth + 1, "stock", g_ptr_array_index (lumber->stock, i));
  for (guint i = 0; i < lumber->pins->len; i++)
    write_pin (text, depth + 1, &g_array_index (lumber->pins, CavBoardPin, i));
  for (guint i = 0; i < lumber->joined->len; i++)
    write_joined (text, depth + 1, g_ptr_array_index (lumber->joined, i));
  cav_xml_write_close (text, depth, "lumber");
}
