/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "storage/cav-path-xml.h"

#include "geometry/cav-tolerance.h"
#include "storage/cav-outline-builder.h"
#include "storage/cav-xml-write.h"

#include <glib/gi18n-lib.h>

/* How far the ends of an arc may lie from where its angles put them, mm. */
#define ARC_SLACK (2.0 * CAV_TOLERANCE_CHORD)

typedef struct
{
  CavPath *path;
  gboolean started;
  guint n_segments;
  CavPoint point;
} PathReader;

static gboolean
read_coordinate (
    const CavXml *xml, const xmlNode *node, const char *name, double *out_value, GError **error)
{
  return cav_xml_require_number (xml, node, name, -CAV_COORDINATE_MAX, CAV_COORDINATE_MAX,
                                 out_value, error);
}

static gboolean
read_point (const CavXml *xml, const xmlNode *node, CavPoint *out_point, GError **error)
{
  return read_coordinate (xml, node, "x", &out_point->x, error)
         && read_coordinate (xml, node, "y", &out_point->y, error);
}

static gboolean
read_start (const CavXml *xml, const xmlNode *node, PathReader *reader, GError **error)
{
  static const char *const names[] = { "x", "y", NULL };

  if (reader->started)
    return cav_xml_fail (xml, node, CAV_STORAGE_ERROR_CONTENT, error,
                         _ ("<start> stands twice; a path has one beginning"));
  if (!cav_xml_check_attributes (xml, node, names, error)
      || !read_point (xml, node, &reader->point, error))
    return FALSE;
  reader->started = TRUE;
  cav_path_move_to (reader->path, reader->point);
  return TRUE;
}

static gboolean
read_line (const CavXml *xml, const xmlNode *node, PathReader *reader, GError **error)
{
  static const char *const names[] = { "x", "y", NULL };

  if (!cav_xml_check_attributes (xml, node, names, error)
      || !read_point (xml, node, &reader->point, error))
    return FALSE;
  cav_path_line_to (reader->path, reader->point);
  return TRUE;
}

static gboolean
read_arc (const CavXml *xml, const xmlNode *node, PathReader *reader, GError **error)
{
  static const char *const names[]
      = { "x", "y", "centre-x", "centre-y", "rx", "ry", "rotation", "start", "sweep", NULL };
  CavSegment arc = { .kind = CAV_SEGMENT_ARC, .from = reader->point };

  if (!cav_xml_check_attributes (xml, node, names, error) || !read_point (xml, node, &arc.to, error)
      || !read_coordinate (xml, node, "centre-x", &arc.centre.x, error)
      || !read_coordinate (xml, node, "centre-y", &arc.centre.y, error)
      || !cav_xml_require_number (xml, node, "rx", CAV_TOLERANCE_POINT, CAV_COORDINATE_MAX, &arc.rx,
                                  error)
      || !cav_xml_require_number (xml, node, "ry", CAV_TOLERANCE_POINT, CAV_COORDINATE_MAX, &arc.ry,
                                  error)
      || !cav_xml_require_number (xml, node, "rotation", -720, 720, &arc.rotation, error)
      || !cav_xml_require_number (xml, node, "start", -720, 720, &arc.start, error)
      || !cav_xml_require_number (xml, node, "sweep", -360, 360, &arc.sweep, error))
    return FALSE;

  CavSegment again
      = cav_segment_arc (arc.centre, arc.rx, arc.ry, arc.rotation, arc.start, arc.sweep);
  if (!cav_point_near (again.from, arc.from, ARC_SLACK)
      || !cav_point_near (again.to, arc.to, ARC_SLACK))
    return cav_xml_fail (
        xml, node, CAV_STORAGE_ERROR_CONTENT, error,
        _ ("the ends of <arc> do not lie where its angles say; correct its numbers"));
  cav_path_append (reader->path, &arc);
  reader->point = arc.to;
  return TRUE;
}

static gboolean
segment_cb (const CavXml *xml, xmlNode *child, gpointer data, GError **error)
{
  PathReader *reader = data;

  if (!cav_xml_foreach_child (xml, child, NULL, NULL, error))
    return FALSE;
  if (cav_xml_is (child, "start"))
    return read_start (xml, child, reader, error);
  if (!cav_xml_is (child, "line") && !cav_xml_is (child, "arc"))
    return cav_xml_fail_unknown_child (xml, child, error);
  if (!reader->started)
    return cav_xml_fail (xml, child, CAV_STORAGE_ERROR_CONTENT, error,
                         _ ("the path does not begin; put <start x=\"\" y=\"\"/> before it"));
  if (++reader->n_segments > CAV_OUTLINE_MAX_SEGMENTS)
    return cav_xml_fail (xml, child, CAV_STORAGE_ERROR_TOO_LARGE, error,
                         _ ("a path of more than %d pieces; draw it with fewer"),
                         CAV_OUTLINE_MAX_SEGMENTS);
  return cav_xml_is (child, "line") ? read_line (xml, child, reader, error)
                                    : read_arc (xml, child, reader, error);
}

CavPath *
cav_path_xml_read (const CavXml *xml, const xmlNode *node, GError **error)
{
  g_autoptr (CavPath) path = cav_path_new ();
  PathReader reader = { .path = path };

  if (!cav_xml_foreach_child (xml, node, segment_cb, &reader, error))
    return NULL;
  if (cav_path_get_segment_count (path) == 0)
    {
      cav_xml_fail (xml, node, CAV_STORAGE_ERROR_CONTENT, error,
                    _ ("<%s> has no path; add <start>, <line> and <arc>"),
                    (const char *)node->name);
      return NULL;
    }
  cav_path_close (path);
  return g_steal_pointer (&path);
}

static void
write_point (GString *text, int depth, const char *name, CavPoint point)
{
  cav_xml_write_begin (text, depth, name);
  cav_xml_write_number (text, "x", point.x);
  cav_xml_write_number (text, "y", point.y);
}

void
cav_path_xml_write (GString *text, int depth, const CavPath *path)
{
  write_point (text, depth, "start", cav_path_get_start (path));
  cav_xml_write_end (text);
  for (guint i = 0; i < cav_path_get_segment_count (path); i++)
    {
      const CavSegment *segment = cav_path_get_segment (path, i);
      gboolean is_arc = segment->kind == CAV_SEGMENT_ARC;

      write_point (text, depth, is_arc ? "arc" : "line", segment->to);
      if (is_arc)
        {
          cav_xml_write_number (text, "centre-x", segment->centre.x);
          cav_xml_write_number (text, "centre-y", segment->centre.y);
          cav_xml_write_number (text, "rx", segment->rx);
          cav_xml_write_number (text, "ry", segment->ry);
          cav_xml_write_number (text, "rotation", segment->rotation);
          cav_xml_write_number (text, "start", segment->start);
          cav_xml_write_number (text, "sweep", segment->sweep);
        }
      cav_xml_write_end (text);
    }
}
