/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <glib/gi18n.h>

#include "app/cav-canvas-private.h"
#include "app/cav-cut-words.h"
#include "project/cav-path-edit.h"

/* More cuts than this under one place are not listed. */
#define MOST_LISTED 8

/* Cuts that lie over each other under the pointer, to choose from. */
static void
add_cuts_below (CavSectionCanvas *self, GMenu *menu, const GArray *below)
{
  g_autoptr (GMenu) section = g_menu_new ();

  for (guint i = 0; i < MIN (below->len, MOST_LISTED); i++)
    {
      guint index = g_array_index (below, guint, i);
      g_autofree char *words = cav_canvas_describe_cut (g_ptr_array_index (self->cuts, index));
      g_autoptr (GMenuItem) item = g_menu_item_new (words, NULL);

      g_menu_item_set_action_and_target (item, "canvas.choose", "u", index);
      g_menu_append_item (section, item);
    }
  g_menu_append_section (menu, _ ("Choose"), G_MENU_MODEL (section));
}

/* A point can go, a piece can get one or be bent; elsewhere there is nothing to offer. */
static void
add_path_edits (CavSectionCanvas *self, GMenu *menu)
{
  g_autoptr (GMenu) section = g_menu_new ();

  if (cav_path_tool_finds_point (self))
    g_menu_append (section, _ ("Remove this point"), "canvas.remove-point");
  else if (cav_path_tool_finds_segment (self))
    {
      g_menu_append (section, _ ("Insert a point here"), "canvas.insert-point");
      g_menu_append (section, _ ("Bend or straighten"), "canvas.toggle-arc");
    }
  else
    return;
  g_menu_append_section (menu, NULL, G_MENU_MODEL (section));
}

static void
add_edits (GMenu *menu)
{
  g_autoptr (GMenu) clipboard = g_menu_new ();
  g_autoptr (GMenu) section = g_menu_new ();

  g_menu_append (clipboard, _ ("Cut out"), "canvas.cut");
  g_menu_append (clipboard, _ ("Copy"), "canvas.copy");
  g_menu_append (clipboard, _ ("Paste"), "canvas.paste");
  g_menu_append_section (menu, NULL, G_MENU_MODEL (clipboard));
  g_menu_append (section, _ ("Duplicate"), "canvas.duplicate");
  g_menu_append (section, _ ("Mirror inside and outside"), "canvas.mirror-across");
  g_menu_append (section, _ ("Mirror face and back"), "canvas.mirror-through");
  g_menu_append (section, _ ("Delete"), "canvas.delete");
  g_menu_append_section (menu, NULL, G_MENU_MODEL (section));
}

/* Only kinds that have a place under the pointer are offered. */
static void
add_kinds (CavSectionCanvas *self, GMenu *menu, CavPoint pixel)
{
  g_autoptr (GMenu) kinds = g_menu_new ();
  CavPoint point = cav_canvas_to_wood (self, pixel);

  for (int kind = 0; kind < CAV_N_CUT_KINDS; kind++)
    {
      g_autoptr (CavCut) cut = NULL;
      g_autoptr (GMenuItem) item = NULL;

      if (kind != CAV_CUT_DRAWN)
        {
          cut = cav_proposal_at (cav_canvas_get_project (self), (CavCutKind)kind, point,
                                 20 / self->view.scale);
          if (cut == NULL)
            continue;
        }
      item = g_menu_item_new (cav_cut_words_get_kind ((CavCutKind)kind), NULL);
      g_menu_item_set_action_and_target (item, "canvas.draw-here", "u", (guint32)kind);
      g_menu_append_item (kinds, item);
    }
  if (g_menu_model_get_n_items (G_MENU_MODEL (kinds)) > 0)
    g_menu_append_submenu (menu, _ ("New cut here"), G_MENU_MODEL (kinds));
}

static void
add_views (GMenu *menu)
{
  g_autoptr (GMenu) section = g_menu_new ();

  g_menu_append (section, _ ("Choose all"), "canvas.choose-all");
  g_menu_append (section, _ ("Fit the blank"), "canvas.zoom-fit");
  g_menu_append_section (menu, NULL, G_MENU_MODEL (section));
}

static GMenuModel *
create_menu (CavSectionCanvas *self, CavPoint pixel)
{
  CavSelection *selection = cav_canvas_get_selection (self);
  g_autoptr (GArray) below
      = cav_section_hit_cuts (self->shapes, &self->view, pixel, CAV_CANVAS_TOLERANCE);
  GMenu *menu = g_menu_new ();

  if (below->len > 0 && !cav_selection_has_cut (selection, g_array_index (below, guint, 0))
      && self->hover.kind != CAV_HIT_HANDLE)
    cav_selection_choose_cut (selection, g_array_index (below, guint, 0));
  if (below->len > 1)
    add_cuts_below (self, menu, below);
  add_path_edits (self, menu);
  add_kinds (self, menu, pixel);
  add_edits (menu);
  add_views (menu);
  return G_MENU_MODEL (menu);
}

static gboolean
after_menu_cb (gpointer user_data)
{
  CavSectionCanvas *self = CAV_SECTION_CANVAS (user_data);

  self->menu_open = self->menu != NULL && gtk_widget_get_visible (self->menu);
  return G_SOURCE_REMOVE;
}

/* A menu closes before it does what was chosen. */
static void
closed_cb (CavSectionCanvas *self)
{
  g_idle_add_full (G_PRIORITY_DEFAULT_IDLE, after_menu_cb, g_object_ref (self), g_object_unref);
}

void
cav_canvas_open_menu (CavSectionCanvas *self, CavPoint pixel)
{
  GdkRectangle at = { (int)pixel.x, (int)pixel.y, 1, 1 };
  g_autoptr (GMenuModel) menu = NULL;

  self->has_pointer = TRUE;
  self->pointer = pixel;
  self->menu_open = TRUE;
  cav_canvas_update_hover (self);
  menu = create_menu (self, pixel);
  if (self->menu == NULL)
    {
      self->menu = gtk_popover_menu_new_from_model (menu);
      gtk_popover_set_has_arrow (GTK_POPOVER (self->menu), FALSE);
      gtk_widget_set_halign (self->menu, GTK_ALIGN_START);
      gtk_widget_set_parent (self->menu, GTK_WIDGET (self));
      g_signal_connect_swapped (self->menu, "closed", G_CALLBACK (closed_cb), self);
    }
  else
    gtk_popover_menu_set_menu_model (GTK_POPOVER_MENU (self->menu), menu);
  gtk_popover_set_pointing_to (GTK_POPOVER (self->menu), &at);
  gtk_popover_popup (GTK_POPOVER (self->menu));
}
