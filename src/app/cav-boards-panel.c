/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-boards-panel.h"

#include <glib/gi18n.h>

#include "app/cav-board-row.h"
#include "app/cav-lumber-edit.h"
#include "app/cav-settings.h"

/* So many rows are there at once, which is more than a column shows; the others are made while
 * nothing else is to be done, for so long at a time, us. */
#define AT_ONCE 12
#define PATIENCE 4000

struct _CavBoardsPanel
{
  CavDocumentPanel parent_instance;

  /* Owned */
  GPtrArray *rows; /* CavBoardRow, borrowed from the group */

  /* Children */
  AdwPreferencesGroup *group;
  GtkWidget *add;

  /* State */
  gboolean is_stock;
  guint filling; /* source, while rows are wanting */
};

G_DEFINE_FINAL_TYPE (CavBoardsPanel, cav_boards_panel, CAV_TYPE_DOCUMENT_PANEL)

enum
{
  PROP_STOCK = 1,
  N_PROPERTIES,
};

static GParamSpec *properties[N_PROPERTIES];

/* (nullable) */
static CavProject *
get_project (CavBoardsPanel *self)
{
  return cav_document_panel_get_project (CAV_DOCUMENT_PANEL (self));
}

static GPtrArray *
get_boards (CavBoardsPanel *self, const CavLumber *lumber)
{
  return self->is_stock ? lumber->stock : lumber->boards;
}

static void
edited_cb (CavBoardsPanel *self, CavBoardRow *row)
{
  CavLumber *lumber;
  guint index;

  if (get_project (self) == NULL || !g_ptr_array_find (self->rows, row, &index))
    return;
  lumber = cav_lumber_edit_begin (get_project (self));
  GPtrArray *boards = get_boards (self, lumber);
  cav_board_free (g_ptr_array_index (boards, index));
  g_ptr_array_index (boards, index) = cav_board_row_dup_board (row);
  cav_lumber_edit_end (get_project (self), lumber, C_ ("step", "change of a board"));
}

static void
removed_cb (CavBoardsPanel *self, CavBoardRow *row)
{
  CavLumber *lumber;
  guint index;

  if (get_project (self) == NULL || !g_ptr_array_find (self->rows, row, &index))
    return;
  lumber = cav_lumber_edit_begin (get_project (self));
  if (self->is_stock)
    g_ptr_array_remove_index (lumber->stock, index);
  else
    cav_lumber_edit_remove_board (lumber, index);
  /* The row may not go while its own button is being clicked. */
  g_object_ref (row);
  cav_lumber_edit_end (get_project (self), lumber, C_ ("step", "removal of a board"));
  gtk_widget_grab_focus (self->add);
  g_object_unref (row);
}

static void
add_row (CavBoardsPanel *self)
{
  CavBoardRow *row = cav_board_row_new (self->is_stock);

  g_signal_connect_swapped (row, "edited", G_CALLBACK (edited_cb), self);
  g_signal_connect_swapped (row, "removed", G_CALLBACK (removed_cb), self);
  adw_preferences_group_add (self->group, GTK_WIDGET (row));
  g_ptr_array_add (self->rows, row);
}

/* (nullable) of the document. */
static const GPtrArray *
list_boards (CavBoardsPanel *self)
{
  return get_project (self) != NULL ? get_boards (self, cav_project_get_lumber (get_project (self)))
                                    : NULL;
}

/* At least as many rows as are wanted, if there are boards for them. */
static void
make_rows (CavBoardsPanel *self, guint wanted)
{
  const GPtrArray *boards = list_boards (self);

  while (boards != NULL && self->rows->len < MIN (boards->len, wanted))
    {
      const guint i = self->rows->len;

      add_row (self);
      cav_board_row_show (g_ptr_array_index (self->rows, i), g_ptr_array_index (boards, i), i + 1);
    }
}

static gboolean
fill_cb (gpointer user_data)
{
  CavBoardsPanel *self = user_data;
  const GPtrArray *boards = list_boards (self);
  const gint64 end = g_get_monotonic_time () + PATIENCE;

  do
    make_rows (self, self->rows->len + 1);
  while (boards != NULL && self->rows->len < boards->len && g_get_monotonic_time () < end);
  if (boards != NULL && self->rows->len < boards->len)
    return G_SOURCE_CONTINUE;
  self->filling = 0;
  return G_SOURCE_REMOVE;
}

static void
cav_boards_panel_show_project (CavDocumentPanel *panel, CavProject *project)
{
  CavBoardsPanel *self = CAV_BOARDS_PANEL (panel);
  const GPtrArray *boards = get_boards (self, cav_project_get_lumber (project));

  while (self->rows->len > boards->len)
    {
      adw_preferences_group_remove (self->group,
                                    g_ptr_array_index (self->rows, self->rows->len - 1));
      g_ptr_array_remove_index (self->rows, self->rows->len - 1);
    }
  for (guint i = 0; i < self->rows->len; i++)
    cav_board_row_show (g_ptr_array_index (self->rows, i), g_ptr_array_index (boards, i), i + 1);
  make_rows (self, AT_ONCE);
  if (self->rows->len < boards->len && self->filling == 0)
    self->filling = g_idle_add_full (G_PRIORITY_LOW, fill_cb, self, NULL);
}

static void
set_stock (CavBoardsPanel *self, gboolean is_stock)
{
  const char *label = is_stock ? _ ("Add a board that can be bought") : _ ("Add a board");

  self->is_stock = is_stock;
  adw_preferences_group_set_title (self->group,
                                   is_stock ? _ ("Boards for sale") : _ ("Boards at hand"));
  gtk_widget_set_tooltip_text (self->add, label);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->add), GTK_ACCESSIBLE_PROPERTY_LABEL, label,
                                  -1);
  cav_document_panel_refresh (CAV_DOCUMENT_PANEL (self));
}

static void
cav_boards_panel_get_property (GObject *object, guint id, GValue *value, GParamSpec *spec)
{
  CavBoardsPanel *self = CAV_BOARDS_PANEL (object);

  if (id == PROP_STOCK)
    g_value_set_boolean (value, self->is_stock);
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, spec);
}

static void
cav_boards_panel_set_property (GObject *object, guint id, const GValue *value, GParamSpec *spec)
{
  CavBoardsPanel *self = CAV_BOARDS_PANEL (object);

  if (id == PROP_STOCK)
    set_stock (self, g_value_get_boolean (value));
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, spec);
}

static void
cav_boards_panel_dispose (GObject *object)
{
  g_clear_handle_id (&CAV_BOARDS_PANEL (object)->filling, g_source_remove);
  G_OBJECT_CLASS (cav_boards_panel_parent_class)->dispose (object);
}

static void
cav_boards_panel_finalize (GObject *object)
{
  g_ptr_array_unref (CAV_BOARDS_PANEL (object)->rows);
  G_OBJECT_CLASS (cav_boards_panel_parent_class)->finalize (object);
}

static void
cav_boards_panel_class_init (CavBoardsPanelClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  CavDocumentPanelClass *panel_class = CAV_DOCUMENT_PANEL_CLASS (klass);

  panel_class->parts = CAV_PART_BOARDS;
  panel_class->show_project = cav_boards_panel_show_project;
  object_class->get_property = cav_boards_panel_get_property;
  object_class->set_property = cav_boards_panel_set_property;
  object_class->dispose = cav_boards_panel_dispose;
  object_class->finalize = cav_boards_panel_finalize;

  properties[PROP_STOCK] = g_param_spec_boolean (
      "stock", NULL, NULL, FALSE, G_PARAM_READWRITE | G_PARAM_CONSTRUCT | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPERTIES, properties);
}

static void
cav_boards_panel_init (CavBoardsPanel *self)
{
  self->rows = g_ptr_array_new ();
  self->add = gtk_button_new_from_icon_name ("list-add-symbolic");
  gtk_widget_set_valign (self->add, GTK_ALIGN_CENTER);
  gtk_widget_add_css_class (self->add, "flat");
  g_signal_connect_swapped (self->add, "clicked", G_CALLBACK (cav_boards_panel_add), self);
  self->group = ADW_PREFERENCES_GROUP (adw_preferences_group_new ());
  adw_preferences_group_set_header_suffix (self->group, self->add);
  gtk_box_append (GTK_BOX (self), GTK_WIDGET (self->group));
}

/* Boards come in lots, each with a name and knots of its own. */
void
cav_boards_panel_add (CavBoardsPanel *self)
{
  g_return_if_fail (CAV_IS_BOARDS_PANEL (self));

  CavLumber *lumber;
  GPtrArray *boards;
  CavBoard *board;
  CavBlank blank;

  if (get_project (self) == NULL)
    return;
  blank = cav_project_get_blank (get_project (self));
  lumber = cav_lumber_edit_begin (get_project (self));
  boards = get_boards (self, lumber);
  board = boards->len > 0 ? cav_board_copy (g_ptr_array_index (boards, boards->len - 1))
                          : cav_lumber_create_board (lumber, &blank);
  if (self->is_stock && boards->len == 0)
    board->count = 0;
  board->name[0] = '\0';
  g_array_set_size (board->spans, 0);
  g_ptr_array_add (boards, board);
  cav_lumber_edit_end (get_project (self), lumber, C_ ("step", "another board"));
  make_rows (self, G_MAXUINT);
  /* Its figures are what comes next. */
  if (self->rows->len > 0)
    adw_expander_row_set_expanded (g_ptr_array_index (self->rows, self->rows->len - 1), TRUE);
}

void
cav_boards_panel_show_row (CavBoardsPanel *self, int row)
{
  g_return_if_fail (CAV_IS_BOARDS_PANEL (self));

  if (row >= 0)
    make_rows (self, (guint)row + 1);
  if (row < 0 || row >= (int)self->rows->len)
    {
      gtk_widget_grab_focus (self->add);
      return;
    }
  adw_expander_row_set_expanded (g_ptr_array_index (self->rows, row), TRUE);
  gtk_widget_child_focus (g_ptr_array_index (self->rows, row), GTK_DIR_TAB_FORWARD);
}
