/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-canvas-private.h"

#include <glib/gi18n.h>
#include "app/cav-cut-edit.h"
#include "app/cav-length-text.h"
#include "project/cav-path-edit.h"

#define ZOOM_STEP 1.25

static void
zoom_in_cb (GtkWidget *widget, const char *name, GVariant *parameter)
{
  cav_canvas_zoom_middle (CAV_SECTION_CANVAS (widget), ZOOM_STEP);
}

static void
zoom_out_cb (GtkWidget *widget, const char *name, GVariant *parameter)
{
  cav_canvas_zoom_middle (CAV_SECTION_CANVAS (widget), 1 / ZOOM_STEP);
}

static void
zoom_fit_cb (GtkWidget *widget, const char *name, GVariant *parameter)
{
  cav_canvas_fit (CAV_SECTION_CANVAS (widget));
}

static void
delete_cb (GtkWidget *widget, const char *name, GVariant *parameter)
{
  cav_cut_edit_delete (CAV_SECTION_CANVAS (widget)->document);
}

static void
duplicate_cb (GtkWidget *widget, const char *name, GVariant *parameter)
{
  CavSectionCanvas *self = CAV_SECTION_CANVAS (widget);
  CavProject *project = cav_canvas_get_project (self);
  g_autoptr (GPtrArray) cuts = cav_cut_edit_copy_chosen (self->document);
  g_autoptr (GPtrArray) copies
      = cav_arrange_duplicate (cuts, &self->drawn_blank, 4 * cav_length_text_get_step ());
  g_autoptr (GArray) indices = g_array_new (FALSE, FALSE, sizeof (guint));
  guint first = cav_project_get_cut_count (project);

  cav_project_begin (project, C_ ("step", "duplicate"));
  cav_project_add_cuts (project, copies);
  cav_project_end (project);
  for (guint i = 0; i < copies->len; i++)
    {
      guint index = first + i;

      g_array_append_val (indices, index);
    }
  cav_selection_set_cuts (cav_canvas_get_selection (self), (const guint *)(gpointer)indices->data,
                          indices->len);
}

static void
mirror_across_cb (GtkWidget *widget, const char *name, GVariant *parameter)
{
  cav_cut_edit_mirror (CAV_SECTION_CANVAS (widget)->document, CAV_MIRROR_ACROSS);
}

static void
mirror_through_cb (GtkWidget *widget, const char *name, GVariant *parameter)
{
  cav_cut_edit_mirror (CAV_SECTION_CANVAS (widget)->document, CAV_MIRROR_THROUGH);
}

static void
copy_cb (GtkWidget *widget, const char *name, GVariant *parameter)
{
  cav_canvas_copy (CAV_SECTION_CANVAS (widget));
}

static void
cut_cb (GtkWidget *widget, const char *name, GVariant *parameter)
{
  CavSectionCanvas *self = CAV_SECTION_CANVAS (widget);

  cav_canvas_copy (self);
  cav_cut_edit_delete (self->document);
}

static void
paste_cb (GtkWidget *widget, const char *name, GVariant *parameter)
{
  cav_canvas_paste (CAV_SECTION_CANVAS (widget));
}

static void
choose_all_cb (GtkWidget *widget, const char *name, GVariant *parameter)
{
  CavSectionCanvas *self = CAV_SECTION_CANVAS (widget);
  g_autoptr (GArray) indices = g_array_new (FALSE, FALSE, sizeof (guint));

  for (guint i = 0; i < self->cuts->len; i++)
    g_array_append_val (indices, i);
  cav_selection_set_cuts (cav_canvas_get_selection (self), (const guint *)(gpointer)indices->data,
                          indices->len);
}

static void
choose_none_cb (GtkWidget *widget, const char *name, GVariant *parameter)
{
  cav_selection_clear_cuts (cav_canvas_get_selection (CAV_SECTION_CANVAS (widget)));
}

/* The cut under the pointer, by its index: for lists of what lies over each other. */
static void
choose_cb (GtkWidget *widget, const char *name, GVariant *parameter)
{
  cav_selection_choose_cut (cav_canvas_get_selection (CAV_SECTION_CANVAS (widget)),
                            g_variant_get_uint32 (parameter));
}

/* Tenths of the grid, right and up. */
static void
nudge_cb (GtkWidget *widget, const char *name, GVariant *parameter)
{
  double tenth = cav_length_text_get_step () / 10;
  int x;
  int y;

  g_variant_get (parameter, "(ii)", &x, &y);
  cav_deed_nudge (CAV_SECTION_CANVAS (widget), x * tenth, y * tenth);
}

/* The cut of the chosen kind at the place that the pointer is at; a drawn one begins there. */
static void
draw_here_cb (GtkWidget *widget, const char *name, GVariant *parameter)
{
  CavSectionCanvas *self = CAV_SECTION_CANVAS (widget);
  int kind = (int)g_variant_get_uint32 (parameter);

  cav_selection_set_kind (cav_canvas_get_selection (self), kind);
  if (kind != CAV_CUT_DRAWN)
    cav_deed_draw_at_once (self);
  else if (self->has_pointer)
    cav_deed_press (self, self->pointer, FALSE);
}

static void
insert_point_cb (GtkWidget *widget, const char *name, GVariant *parameter)
{
  cav_path_tool_insert_point (CAV_SECTION_CANVAS (widget));
}

static void
remove_point_cb (GtkWidget *widget, const char *name, GVariant *parameter)
{
  cav_path_tool_remove_point (CAV_SECTION_CANVAS (widget));
}

static void
toggle_arc_cb (GtkWidget *widget, const char *name, GVariant *parameter)
{
  cav_path_tool_toggle_arc (CAV_SECTION_CANVAS (widget));
}

static void
menu_cb (GtkWidget *widget, const char *name, GVariant *parameter)
{
  CavSectionCanvas *self = CAV_SECTION_CANVAS (widget);
  const GArray *handles = cav_canvas_get_handles (self);
  CavPoint pixel
      = CAV_POINT (gtk_widget_get_width (widget) / 2.0, gtk_widget_get_height (widget) / 2.0);

  if (handles != NULL && handles->len > 0)
    pixel = cav_view_to_pixel (
        &self->view,
        g_array_index (handles, CavHandle,
                       self->focused_handle >= 0 ? (guint)self->focused_handle : handles->len - 1)
            .point);
  cav_canvas_open_menu (self, pixel);
}

void
cav_canvas_update_actions (CavSectionCanvas *self)
{
  static const char *const for_chosen[]
      = { "canvas.delete", "canvas.duplicate", "canvas.mirror-across", "canvas.mirror-through",
          "canvas.copy",   "canvas.cut",       "canvas.choose-none",   "canvas.nudge" };
  static const char *const for_section[]
      = { "canvas.paste",    "canvas.choose-all", "canvas.zoom-in",
          "canvas.zoom-out", "canvas.zoom-fit",   "canvas.draw-here" };
  GtkWidget *widget = GTK_WIDGET (self);
  gboolean drawable = cav_canvas_is_drawable (self);
  gboolean chosen = drawable && cav_selection_get_cut_count (cav_canvas_get_selection (self)) > 0;

  for (guint i = 0; i < G_N_ELEMENTS (for_chosen); i++)
    gtk_widget_action_set_enabled (widget, for_chosen[i], chosen);
  for (guint i = 0; i < G_N_ELEMENTS (for_section); i++)
    gtk_widget_action_set_enabled (widget, for_section[i], drawable);
}

typedef struct
{
  const char *name;
  const char *parameter;
  GtkWidgetActionActivateFunc activate;
} Action;

static const Action actions[] = {
  { "canvas.zoom-in", NULL, zoom_in_cb },
  { "canvas.zoom-out", NULL, zoom_out_cb },
  { "canvas.zoom-fit", NULL, zoom_fit_cb },
  { "canvas.delete", NULL, delete_cb },
  { "canvas.duplicate", NULL, duplicate_cb },
  { "canvas.mirror-across", NULL, mirror_across_cb },
  { "canvas.mirror-through", NULL, mirror_through_cb },
  { "canvas.copy", NULL, copy_cb },
  { "canvas.cut", NULL, cut_cb },
  { "canvas.paste", NULL, paste_cb },
  { "canvas.choose-all", NULL, choose_all_cb },
  { "canvas.choose-none", NULL, choose_none_cb },
  { "canvas.choose", "u", choose_cb },
  { "canvas.nudge", "(ii)", nudge_cb },
  { "canvas.draw-here", "u", draw_here_cb },
  { "canvas.insert-point", NULL, insert_point_cb },
  { "canvas.remove-point", NULL, remove_point_cb },
  { "canvas.toggle-arc", NULL, toggle_arc_cb },
  { "canvas.menu", NULL, menu_cb },
};

typedef struct
{
  guint key;
  GdkModifierType state;
  const char *action;
} Key;

static const Key keys[] = {
  { GDK_KEY_plus, 0, "canvas.zoom-in" },
  { GDK_KEY_plus, GDK_SHIFT_MASK, "canvas.zoom-in" },
  { GDK_KEY_equal, 0, "canvas.zoom-in" },
  { GDK_KEY_KP_Add, 0, "canvas.zoom-in" },
  { GDK_KEY_minus, 0, "canvas.zoom-out" },
  { GDK_KEY_KP_Subtract, 0, "canvas.zoom-out" },
  { GDK_KEY_plus, GDK_CONTROL_MASK, "canvas.zoom-in" },
  { GDK_KEY_equal, GDK_CONTROL_MASK, "canvas.zoom-in" },
  { GDK_KEY_minus, GDK_CONTROL_MASK, "canvas.zoom-out" },
  { GDK_KEY_Home, 0, "canvas.zoom-fit" },
  { GDK_KEY_0, GDK_CONTROL_MASK, "canvas.zoom-fit" },
  { GDK_KEY_BackSpace, 0, "canvas.delete" },
  { GDK_KEY_KP_Delete, 0, "canvas.delete" },
  { GDK_KEY_Delete, 0, "canvas.delete" },
  { GDK_KEY_d, GDK_CONTROL_MASK, "canvas.duplicate" },
  { GDK_KEY_m, GDK_CONTROL_MASK, "canvas.mirror-across" },
  { GDK_KEY_m, GDK_CONTROL_MASK | GDK_SHIFT_MASK, "canvas.mirror-through" },
  { GDK_KEY_c, GDK_CONTROL_MASK, "canvas.copy" },
  { GDK_KEY_x, GDK_CONTROL_MASK, "canvas.cut" },
  { GDK_KEY_v, GDK_CONTROL_MASK, "canvas.paste" },
  { GDK_KEY_a, GDK_CONTROL_MASK, "canvas.choose-all" },
  { GDK_KEY_a, GDK_CONTROL_MASK | GDK_SHIFT_MASK, "canvas.choose-none" },
  { GDK_KEY_Insert, 0, "canvas.insert-point" },
  { GDK_KEY_Delete, GDK_SHIFT_MASK, "canvas.remove-point" },
  { GDK_KEY_Insert, GDK_SHIFT_MASK, "canvas.toggle-arc" },
  { GDK_KEY_Menu, 0, "canvas.menu" },
  { GDK_KEY_F10, GDK_SHIFT_MASK, "canvas.menu" },
};

static void
add_nudge (GtkWidgetClass *klass, guint key, guint keypad_key, int x, int y)
{
  const guint both[] = { key, keypad_key };

  for (guint i = 0; i < G_N_ELEMENTS (both); i++)
    {
      gtk_widget_class_add_binding_action (klass, both[i], 0, "canvas.nudge", "(ii)", 10 * x,
                                           10 * y);
      gtk_widget_class_add_binding_action (klass, both[i], GDK_SHIFT_MASK, "canvas.nudge", "(ii)",
                                           x, y);
    }
}

void
cav_canvas_class_add_actions (GtkWidgetClass *klass)
{
  for (guint i = 0; i < G_N_ELEMENTS (actions); i++)
    gtk_widget_class_install_action (klass, actions[i].name, actions[i].parameter,
                                     actions[i].activate);
  for (guint i = 0; i < G_N_ELEMENTS (keys); i++)
    gtk_widget_class_add_binding_action (klass, keys[i].key, keys[i].state, keys[i].action, NULL);
  add_nudge (klass, GDK_KEY_Left, GDK_KEY_KP_Left, -1, 0);
  add_nudge (klass, GDK_KEY_Right, GDK_KEY_KP_Right, 1, 0);
  add_nudge (klass, GDK_KEY_Up, GDK_KEY_KP_Up, 0, 1);
  add_nudge (klass, GDK_KEY_Down, GDK_KEY_KP_Down, 0, -1);
}
