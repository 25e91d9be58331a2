/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-file-watch.h"

/* A program that writes a file in several steps is let finish, ms. */
#define CALM_DELAY 150
/* Device and inode tell a file from a copy of it that keeps its size and time. Where a file system
 * has no inodes they are 0. */
#define STAMP_ATTRIBUTES                                                                           \
  G_FILE_ATTRIBUTE_ETAG_VALUE "," G_FILE_ATTRIBUTE_STANDARD_SIZE ",unix::device,unix::inode,"      \
                              "time::modified,time::modified-usec,time::modified-nsec"

struct _CavFileWatch
{
  GObject parent_instance;

  /* Owned */
  GFile *file;           /* nullable */
  char *stamp;           /* nullable */
  char *found;           /* nullable, the stamp that was found last */
  GFileMonitor *monitor; /* nullable: not every file system has them */
  GCancellable *cancellable;

  /* State */
  CavFileState state;
  guint paused;
  guint calm_source;
};

G_DEFINE_FINAL_TYPE (CavFileWatch, cav_file_watch, G_TYPE_OBJECT)

enum
{
  PROP_STATE = 1,
  N_PROPERTIES,
};

static GParamSpec *properties[N_PROPERTIES];

static void
set_state (CavFileWatch *self, CavFileState state)
{
  if (state == self->state)
    return;
  self->state = state;
  g_object_notify_by_pspec (G_OBJECT (self), properties[PROP_STATE]);
}

static char *
create_stamp (GFileInfo *info)
{
  return g_strdup_printf (
      "%s/%" G_GOFFSET_FORMAT "/%u/%" G_GUINT64_FORMAT "/%u", g_file_info_get_etag (info),
      g_file_info_get_size (info),
      g_file_info_get_attribute_uint32 (info, G_FILE_ATTRIBUTE_UNIX_DEVICE),
      g_file_info_get_attribute_uint64 (info, G_FILE_ATTRIBUTE_UNIX_INODE),
      g_file_info_get_attribute_uint32 (info, G_FILE_ATTRIBUTE_TIME_MODIFIED_NSEC));
}

/* found (nullable, transfer full): NULL where the file is gone. */
static void
compare (CavFileWatch *self, char *found)
{
  gboolean new_to_us = g_strcmp0 (found, self->found) != 0;

  g_free (self->found);
  self->found = found;
  if (self->stamp == NULL)
    self->stamp = g_strdup (found);
  if (g_strcmp0 (found, self->stamp) == 0)
    set_state (self, CAV_FILE_SAME);
  else if (new_to_us)
    set_state (self, found == NULL ? CAV_FILE_GONE : CAV_FILE_CHANGED);
}

static void
queried_cb (GObject *source, GAsyncResult *result, gpointer user_data)
{
  CavFileWatch *self = user_data;
  g_autoptr (GError) error = NULL;
  g_autoptr (GFileInfo) info = g_file_query_info_finish (G_FILE (source), result, &error);

  /* Cancelled: self may be gone. */
  if (g_error_matches (error, G_IO_ERROR, G_IO_ERROR_CANCELLED))
    return;
  if (info != NULL)
    compare (self, create_stamp (info));
  else if (g_error_matches (error, G_IO_ERROR, G_IO_ERROR_NOT_FOUND))
    compare (self, NULL);
}

static gboolean
calm_cb (gpointer user_data)
{
  CavFileWatch *self = user_data;

  self->calm_source = 0;
  if (self->paused == 0 && self->file != NULL)
    g_file_query_info_async (self->file, STAMP_ATTRIBUTES, G_FILE_QUERY_INFO_NONE,
                             G_PRIORITY_DEFAULT, self->cancellable, queried_cb, self);
  return G_SOURCE_REMOVE;
}

static void
look_again (CavFileWatch *self)
{
  if (self->paused == 0 && self->calm_source == 0)
    self->calm_source = g_timeout_add (CALM_DELAY, calm_cb, self);
}

static void
stop (CavFileWatch *self)
{
  g_cancellable_cancel (self->cancellable);
  g_clear_object (&self->cancellable);
  g_clear_handle_id (&self->calm_source, g_source_remove);
  if (self->monitor != NULL)
    g_file_monitor_cancel (self->monitor);
  g_clear_object (&self->monitor);
  g_clear_object (&self->file);
  g_clear_pointer (&self->stamp, g_free);
  g_clear_pointer (&self->found, g_free);
}

static void
cav_file_watch_get_property (GObject *object, guint id, GValue *value, GParamSpec *spec)
{
  CavFileWatch *self = CAV_FILE_WATCH (object);

  if (id == PROP_STATE)
    g_value_set_int (value, (int)self->state);
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, spec);
}

static void
cav_file_watch_dispose (GObject *object)
{
  stop (CAV_FILE_WATCH (object));
  G_OBJECT_CLASS (cav_file_watch_parent_class)->dispose (object);
}

static void
cav_file_watch_class_init (CavFileWatchClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);

  object_class->get_property = cav_file_watch_get_property;
  object_class->dispose = cav_file_watch_dispose;
  properties[PROP_STATE]
      = g_param_spec_int ("state", NULL, NULL, CAV_FILE_SAME, CAV_FILE_GONE, CAV_FILE_SAME,
                          G_PARAM_READABLE | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPERTIES, properties);
}

static void
cav_file_watch_init (CavFileWatch *self)
{
}

CavFileWatch *
cav_file_watch_new (void)
{
  return g_object_new (CAV_TYPE_FILE_WATCH, NULL);
}

void
cav_file_watch_set_file (CavFileWatch *self, GFile *file, const char *stamp)
{
  g_autoptr (GFile) kept = NULL;
  g_autofree char *kept_stamp = g_strdup (stamp);

  g_return_if_fail (CAV_IS_FILE_WATCH (self));
  g_return_if_fail (file == NULL || G_IS_FILE (file));
  g_set_object (&kept, file);
  stop (self);
  set_state (self, CAV_FILE_SAME);
  if (kept == NULL)
    return;
  self->file = g_steal_pointer (&kept);
  self->stamp = g_strdup (kept_stamp);
  self->found = g_steal_pointer (&kept_stamp);
  self->cancellable = g_cancellable_new ();
  self->monitor = g_file_monitor_file (self->file, G_FILE_MONITOR_WATCH_MOVES, NULL, NULL);
  if (self->monitor != NULL)
    g_signal_connect_object (self->monitor, "changed", G_CALLBACK (look_again), self,
                             G_CONNECT_SWAPPED);
  look_again (self);
}

CavFileState
cav_file_watch_get_state (CavFileWatch *self)
{
  g_return_val_if_fail (CAV_IS_FILE_WATCH (self), CAV_FILE_SAME);
  return self->state;
}

const char *
cav_file_watch_get_stamp (CavFileWatch *self)
{
  g_return_val_if_fail (CAV_IS_FILE_WATCH (self), NULL);
  return self->stamp;
}

void
cav_file_watch_pause (CavFileWatch *self)
{
  g_return_if_fail (CAV_IS_FILE_WATCH (self));
  self->paused++;
}

void
cav_file_watch_resume (CavFileWatch *self)
{
  g_return_if_fail (CAV_IS_FILE_WATCH (self));
  g_return_if_fail (self->paused > 0);
  self->paused--;
  look_again (self);
}

void
cav_file_watch_accept (CavFileWatch *self)
{
  g_return_if_fail (CAV_IS_FILE_WATCH (self));
  g_free (self->stamp);
  self->stamp = g_strdup (self->found);
  set_state (self, CAV_FILE_SAME);
}

char *
cav_file_stamp (GFile *file)
{
  g_autoptr (GFileInfo) info
      = g_file_query_info (file, STAMP_ATTRIBUTES, G_FILE_QUERY_INFO_NONE, NULL, NULL);

  return info != NULL ? create_stamp (info) : NULL;
}
