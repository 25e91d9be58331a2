/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <glib/gi18n.h>
#include <math.h>

#include "app/cav-canvas-private.h"
#include "app/cav-length-text.h"
#include "geometry/cav-tolerance.h"
#include "project/cav-path-edit.h"

/* The bulge that a line gets when it becomes an arc, as a share of its length. */
#define FIRST_BULGE 0.2
/* What bulges less, mm, is a line. */
#define FLAT 0.005

static CavPoint
get_end (const CavPath *path)
{
  guint n_segments = cav_path_get_segment_count (path);

  return n_segments == 0 ? cav_path_get_start (path)
                         : cav_path_get_segment (path, n_segments - 1)->to;
}

static CavPoint
snap (CavSectionCanvas *self, CavPoint pixel)
{
  return cav_snapper_point (self->drag.snapper, cav_canvas_to_wood (self, pixel),
                            cav_canvas_get_snap (self), &self->drag.snap);
}

gboolean
cav_path_tool_closes (CavSectionCanvas *self)
{
  CavPoint first;

  if (self->path == NULL || cav_path_get_segment_count (self->path) < 1)
    return FALSE;
  first = cav_view_to_pixel (&self->view, cav_path_get_start (self->path));
  return cav_point_near (first, self->pointer, 1.5 * CAV_CANVAS_TOLERANCE);
}

static void
begin_path (CavSectionCanvas *self, CavPoint pixel)
{
  self->drag.deed = CAV_DEED_PATH;
  self->drag.snapper
      = cav_snapper_new (cav_canvas_get_project (self), NULL, 0, cav_length_text_get_step ());
  self->path = cav_path_new ();
  cav_path_move_to (self->path, snap (self, pixel));
  self->path_next = cav_segment_line (get_end (self->path), get_end (self->path));
  cav_canvas_set_figure (self, FALSE, g_strdup (_ ("Click for the next corner, drag for an arc.")));
}

void
cav_path_tool_press (CavSectionCanvas *self, CavPoint pixel)
{
  self->drag.begin = pixel;
  self->drag.now = pixel;
  self->drag.is_down = TRUE;
  if (self->path == NULL)
    {
      begin_path (self, pixel);
      return;
    }
  self->path_next = cav_segment_line (get_end (self->path), cav_path_tool_closes (self)
                                                                ? cav_path_get_start (self->path)
                                                                : snap (self, pixel));
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

/* A segment bent through a point: as the first one of a path of two. */
static CavSegment
bend (CavSegment line, CavPoint through)
{
  g_autoptr (CavPath) path = cav_path_new ();
  g_autoptr (CavPath) bent = NULL;

  cav_path_move_to (path, line.from);
  cav_path_line_to (path, line.to);
  cav_path_close (path);
  if (cav_path_get_segment_count (path) < 2)
    return line;
  bent = cav_path_edit_bend_through (path, 0, through);
  return bent != NULL ? *cav_path_get_segment (bent, 0) : line;
}

void
cav_path_tool_drag (CavSectionCanvas *self, CavPoint pixel)
{
  CavSegment line = cav_segment_line (self->path_next.from, self->path_next.to);

  if (hypot (pixel.x - self->drag.begin.x, pixel.y - self->drag.begin.y) < 2 * CAV_CANVAS_THRESHOLD
      || cav_point_near (line.from, line.to, CAV_TOLERANCE_POINT))
    return;
  self->path_next = bend (line, cav_canvas_to_wood (self, pixel));
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

void
cav_path_tool_release (CavSectionCanvas *self, CavPoint pixel)
{
  CavPoint start;

  self->drag.is_down = FALSE;
  if (self->path == NULL
      || cav_point_near (self->path_next.from, self->path_next.to, CAV_TOLERANCE_POINT))
    return;
  cav_path_append (self->path, &self->path_next);
  start = cav_path_get_start (self->path);
  self->path_next = cav_segment_line (get_end (self->path), get_end (self->path));
  if (cav_point_near (get_end (self->path), start, CAV_TOLERANCE_POINT))
    cav_path_tool_finish (self);
  else
    cav_canvas_set_figure (self, FALSE, NULL);
}

void
cav_path_tool_hover (CavSectionCanvas *self, CavPoint pixel)
{
  char *length;
  char *height;
  CavPoint end;
  CavPoint to;

  /* While the button is down the pointer bends what the press has put. */
  if (self->path == NULL || self->drag.is_down)
    return;
  end = get_end (self->path);
  to = cav_path_tool_closes (self) ? cav_path_get_start (self->path) : snap (self, pixel);
  self->path_next = cav_segment_line (end, to);
  length = cav_length_text_new_bare (fabs (to.x - end.x));
  height = cav_length_text_new_bare (fabs (to.y - end.y));
  cav_canvas_set_figure (self, FALSE,
                         cav_path_tool_closes (self)
                             ? g_strdup (_ ("Click to close the outline."))
                             : g_strdup_printf ("↔ %s   ↕ %s", length, height));
  g_free (length);
  g_free (height);
}

static CavPath *
copy_without_last (const CavPath *path)
{
  CavPath *shorter = cav_path_new ();

  cav_path_move_to (shorter, cav_path_get_start (path));
  for (guint i = 0; i + 1 < cav_path_get_segment_count (path); i++)
    cav_path_append (shorter, cav_path_get_segment (path, i));
  return shorter;
}

gboolean
cav_path_tool_step_back (CavSectionCanvas *self)
{
  CavPath *shorter;

  if (self->path == NULL)
    return FALSE;
  if (cav_path_get_segment_count (self->path) == 0)
    {
      cav_path_tool_abandon (self);
      return TRUE;
    }
  shorter = copy_without_last (self->path);
  cav_path_free (self->path);
  self->path = shorter;
  cav_path_tool_hover (self, self->pointer);
  return TRUE;
}

static void
clear (CavSectionCanvas *self)
{
  g_clear_pointer (&self->path, cav_path_free);
  self->path_next = (CavSegment){ 0 };
  cav_deed_clear (self);
}

void
cav_path_tool_finish (CavSectionCanvas *self)
{
  CavProject *project;
  g_autoptr (CavPath) closed = NULL;
  g_autoptr (CavCut) cut = NULL;
  g_autoptr (GError) error = NULL;
  guint index;

  if (self->path == NULL)
    return;
  closed = cav_path_copy (self->path);
  cav_path_close (closed);
  if (!cav_path_edit_check (closed, &error))
    {
      cav_canvas_set_figure (self, TRUE, g_strdup (error->message));
      return;
    }
  project = cav_canvas_get_project (self);
  cut = cav_cut_new_drawn (closed);
  index = cav_project_get_cut_count (project);
  clear (self);
  cav_canvas_set_figure (self, FALSE, NULL);
  cav_project_begin (project, C_ ("step", "draw outline"));
  cav_project_add_cut (project, cut);
  cav_project_end (project);
  cav_selection_choose_cut (cav_canvas_get_selection (self), index);
  cav_selection_set_kind (cav_canvas_get_selection (self), CAV_NO_KIND);
}

void
cav_path_tool_abandon (CavSectionCanvas *self)
{
  if (self->path == NULL)
    return;
  clear (self);
  cav_canvas_set_figure (self, FALSE, NULL);
  cav_canvas_update_hover (self);
}

/* The drawn cut that alone is chosen; FALSE where it is another kind. */
static gboolean
find_drawn (CavSectionCanvas *self, guint *out_index, const CavPath **out_path)
{
  const CavCut *cut;

  if (!cav_selection_get_single_cut (cav_canvas_get_selection (self), out_index)
      || *out_index >= self->cuts->len)
    return FALSE;
  cut = g_ptr_array_index (self->cuts, *out_index);
  *out_path = cut->path;
  return cut->kind == CAV_CUT_DRAWN && cut->path != NULL;
}

/* The handle that the keyboard or the pointer is at, of a kind; NULL where there is none. */
static const CavHandle *
find_handle (CavSectionCanvas *self, CavHandleKind kind)
{
  const GArray *handles = cav_canvas_get_handles (self);
  int index = self->hover.kind == CAV_HIT_HANDLE ? (int)self->hover.index : self->focused_handle;
  const CavHandle *handle;

  if (handles == NULL || index < 0 || index >= (int)handles->len)
    return NULL;
  handle = &g_array_index (handles, CavHandle, index);
  return handle->kind == kind ? handle : NULL;
}

/* The segment that is meant, and where on it. */
static gboolean
find_segment (CavSectionCanvas *self, const CavPath *path, guint *out_segment, CavPoint *out_point)
{
  const CavHandle *handle = find_handle (self, CAV_HANDLE_BULGE);

  if (handle != NULL)
    {
      *out_segment = handle->index;
      *out_point = handle->point;
      return TRUE;
    }
  return self->has_pointer
         && cav_path_edit_find_segment (path, cav_canvas_to_wood (self, self->pointer),
                                        1.5 * CAV_CANVAS_TOLERANCE / self->view.scale, out_segment,
                                        out_point);
}

/* Takes the path. FALSE, and nothing is changed, where it is NULL or encloses nothing. */
static gboolean
put_path (CavSectionCanvas *self, guint index, CavPath *path, const char *step)
{
  CavProject *project = cav_canvas_get_project (self);
  g_autoptr (CavPath) owned = path;
  g_autoptr (CavCut) cut = NULL;
  g_autoptr (GError) error = NULL;

  if (path == NULL)
    return FALSE;
  if (!cav_path_edit_check (path, &error))
    {
      cav_canvas_set_figure (self, TRUE, g_strdup (error->message));
      return FALSE;
    }
  cut = cav_cut_new_drawn (path);
  cav_project_begin (project, step);
  cav_project_set_cut (project, index, cut);
  cav_project_end (project);
  return TRUE;
}

gboolean
cav_path_tool_finds_segment (CavSectionCanvas *self)
{
  const CavPath *path;
  CavPoint point;
  guint index;
  guint segment;

  return find_drawn (self, &index, &path) && find_segment (self, path, &segment, &point);
}

gboolean
cav_path_tool_finds_point (CavSectionCanvas *self)
{
  const CavPath *path;
  guint index;

  return find_drawn (self, &index, &path) && find_handle (self, CAV_HANDLE_POINT) != NULL;
}

gboolean
cav_path_tool_insert_point (CavSectionCanvas *self)
{
  const CavPath *path;
  CavPoint point;
  guint index;
  guint segment;

  return find_drawn (self, &index, &path) && find_segment (self, path, &segment, &point)
         && put_path (self, index, cav_path_edit_insert_point (path, segment, point),
                      C_ ("step", "insert point"));
}

gboolean
cav_path_tool_remove_point (CavSectionCanvas *self)
{
  const CavHandle *handle = find_handle (self, CAV_HANDLE_POINT);
  const CavPath *path;
  guint index;

  return handle != NULL && find_drawn (self, &index, &path)
         && put_path (self, index, cav_path_edit_remove_point (path, handle->index),
                      C_ ("step", "remove point"));
}

gboolean
cav_path_tool_toggle_arc (CavSectionCanvas *self)
{
  const CavPath *path;
  const CavSegment *chord;
  CavPoint point;
  guint index;
  guint segment;

  if (!find_drawn (self, &index, &path) || !find_segment (self, path, &segment, &point))
    return FALSE;
  if (fabs (cav_path_edit_get_bulge (path, segment)) > FLAT)
    return put_path (self, index, cav_path_edit_straighten (path, segment),
                     C_ ("step", "straighten"));
  chord = cav_path_get_segment (path, segment);
  return put_path (self, index,
                   cav_path_edit_set_bulge (
                       path, segment, FIRST_BULGE * cav_point_distance (chord->from, chord->to)),
                   C_ ("step", "bend"));
}
