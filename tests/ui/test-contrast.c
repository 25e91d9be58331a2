/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-settings.h"
#include "app/cav-sheets-window.h"
#include "app/cav-shop-window.h"
#include "app/cav-start-window.h"
#include "app/cav-window.h"
#include "drawing/cav-palette.h"
#include "ui-test.h"

#include <math.h>

/*
 * Words as they come out of the renderer, with every style sheet and opacity on them: each label is
 * drawn at many times its size, so that strokes are wider than a pixel; its ground is the colour
 * that it has most of, its ink the one that stands out most. WCAG 2.2, 1.4.3: 4.5, or 3 from 24
 * pixels on, or 18.66 where they are bold. What cannot be used is exempt.
 */
#define ENLARGED 4

typedef struct
{
  GdkTexture *texture;
  guint32 *pixels;
  int width;
  int height;
} Picture;

static CavColour
to_colour (guint32 pixel)
{
  return (CavColour){ pixel >> 16 & 0xff, pixel >> 8 & 0xff, pixel & 0xff };
}

/* That part of what the window shows, enlarged. */
static Picture
take_part (GtkWidget *root, const graphene_rect_t *part)
{
  g_autoptr (GdkPaintable) paintable = gtk_widget_paintable_new (root);
  GtkSnapshot *snapshot = gtk_snapshot_new ();
  g_autoptr (GskRenderNode) node = NULL;
  Picture picture = { .width = (int)ceil (part->size.width) * ENLARGED,
                      .height = (int)ceil (part->size.height) * ENLARGED };
  graphene_rect_t view = GRAPHENE_RECT_INIT (0, 0, (float)picture.width, (float)picture.height);

  gtk_snapshot_scale (snapshot, ENLARGED, ENLARGED);
  gtk_snapshot_translate (snapshot, &GRAPHENE_POINT_INIT (-part->origin.x, -part->origin.y));
  gdk_paintable_snapshot (paintable, snapshot, gdk_paintable_get_intrinsic_width (paintable),
                          gdk_paintable_get_intrinsic_height (paintable));
  node = gtk_snapshot_free_to_node (snapshot);
  if (node == NULL)
    return picture;
  picture.texture
      = gsk_renderer_render_texture (gtk_native_get_renderer (GTK_NATIVE (root)), node, &view);
  picture.pixels = g_new0 (guint32, (gsize)picture.width * (gsize)picture.height);
  gdk_texture_download (picture.texture, (guchar *)picture.pixels, (gsize)picture.width * 4);
  return picture;
}

static void
clear_picture (Picture *picture)
{
  g_clear_object (&picture->texture);
  g_clear_pointer (&picture->pixels, g_free);
}

static guint32
find_ground (const Picture *picture)
{
  g_autoptr (GHashTable) counts = g_hash_table_new (NULL, NULL);
  guint32 ground = 0;
  guint most = 0;

  for (int i = 0; i < picture->width * picture->height; i++)
    {
      gpointer key = GUINT_TO_POINTER (picture->pixels[i]);
      guint count = GPOINTER_TO_UINT (g_hash_table_lookup (counts, key)) + 1;

      g_hash_table_insert (counts, key, GUINT_TO_POINTER (count));
      if (count > most)
        {
          most = count;
          ground = picture->pixels[i];
        }
    }
  return ground;
}

static double
measure_contrast (const Picture *picture)
{
  CavColour ground = to_colour (find_ground (picture));
  double most = 1.0;

  for (int i = 0; i < picture->width * picture->height; i++)
    most = fmax (most, cav_colour_get_contrast (to_colour (picture->pixels[i]), ground));
  return most;
}

static gboolean
is_large (GtkWidget *label)
{
  PangoContext *context = gtk_widget_get_pango_context (label);
  const PangoFontDescription *font = pango_context_get_font_description (context);
  double size = pango_font_description_get_size (font) / (double)PANGO_SCALE;

  if (!pango_font_description_get_size_is_absolute (font))
    size *= 96.0 / 72.0;
  return size >= 24.0
         || (size >= 18.66 && pango_font_description_get_weight (font) >= PANGO_WEIGHT_BOLD);
}

/* Cut to what is seen: a list that can be scrolled shows parts of its rows. */
static gboolean
find_part (GtkWidget *label, GtkWidget *root, graphene_rect_t *out_part)
{
  graphene_rect_t bounds;

  if (!gtk_widget_compute_bounds (label, root, out_part))
    return FALSE;
  for (GtkWidget *widget = label; widget != NULL; widget = gtk_widget_get_parent (widget))
    if (gtk_widget_compute_bounds (widget, root, &bounds)
        && !graphene_rect_intersection (out_part, &bounds, out_part))
      return FALSE;
  return out_part->size.width >= 6 && out_part->size.height >= 8;
}

/* (nullable) */
static const char *
get_words (GtkWidget *widget)
{
  if (GTK_IS_LABEL (widget))
    return gtk_label_get_text (GTK_LABEL (widget));
  return GTK_IS_TEXT (widget) ? gtk_editable_get_text (GTK_EDITABLE (widget)) : NULL;
}

/* A dot may lie between what is seen and what is not. */
static gboolean
has_words (GtkWidget *widget)
{
  for (const char *at = get_words (widget); at != NULL && *at != '\0'; at = g_utf8_next_char (at))
    if (g_unichar_isalnum (g_utf8_get_char (at)))
      return TRUE;
  return FALSE;
}

static void
check_label (GtkWidget *label, GtkWidget *root, guint *inout_n)
{
  double least = is_large (label) ? 3.0 : 4.5;
  double contrast;
  graphene_rect_t part;
  Picture picture;

  if (!find_part (label, root, &part))
    return;
  picture = take_part (root, &part);
  if (picture.texture != NULL)
    {
      contrast = measure_contrast (&picture);
      (*inout_n)++;
      if (contrast < least)
        {
          g_test_message ("“%s” has a contrast of %.2f, %.1f is needed", get_words (label),
                          contrast, least);
          g_test_fail ();
        }
    }
  clear_picture (&picture);
}

static void
check_words (GtkWidget *widget, GtkWidget *root, guint *inout_n)
{
  if (!gtk_widget_get_mapped (widget) || !gtk_widget_is_sensitive (widget))
    return;
  if (has_words (widget))
    check_label (widget, root, inout_n);
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    check_words (child, root, inout_n);
}

/* least: words that there are at the least, so that nothing passes by showing nothing. */
static void
check_window (GtkWindow *window, guint least)
{
  guint n = 0;

  gtk_test_widget_wait_for_draw (GTK_WIDGET (window));
  ui_test_settle ();
  gtk_test_widget_wait_for_draw (GTK_WIDGET (window));
  check_words (GTK_WIDGET (window), GTK_WIDGET (window), &n);
  g_test_message ("%u words looked at", n);
  g_assert_cmpuint (n, >=, least);
  gtk_window_destroy (window);
  ui_test_settle ();
}

static void
wait_for_plan (CavDocument *document)
{
  CavPlanRunner *runner = cav_document_get_runner (document);

  ui_test_wait_for (cav_plan_runner_get_state (runner) != CAV_PLAN_STATE_STALE);
}

static void
test_page (gconstpointer page)
{
  g_autoptr (CavDocument) document = ui_test_open_example ("cove-and-bead.cavetto");
  CavWindow *window = cav_window_new (ui_test_get_application (), document);

  gtk_window_set_default_size (GTK_WINDOW (window), 1200, 1000);
  gtk_window_present (GTK_WINDOW (window));
  gtk_widget_activate_action (GTK_WIDGET (window), "win.show-page", "s", page);
  wait_for_plan (document);
  check_window (GTK_WINDOW (window), 20);
}

static void
test_pass (void)
{
  g_autoptr (CavDocument) document = ui_test_open_example ("cove-and-bead.cavetto");
  CavWindow *window = cav_window_new (ui_test_get_application (), document);

  gtk_window_set_default_size (GTK_WINDOW (window), 1200, 1000);
  gtk_window_present (GTK_WINDOW (window));
  wait_for_plan (document);
  cav_selection_set_pass (cav_document_get_selection (document), 2);
  check_window (GTK_WINDOW (window), 20);
}

static void
test_start (void)
{
  GtkWindow *window = cav_start_window_new (ui_test_get_application ());

  gtk_window_present (window);
  check_window (window, 20);
}

static void
test_shop (void)
{
  g_autoptr (CavDocument) document = ui_test_open_example ("cove-and-bead.cavetto");
  GtkWindow *window = GTK_WINDOW (cav_shop_window_new (document, NULL));

  gtk_window_present (window);
  check_window (window, 20);
}

static void
test_sheets (void)
{
  g_autoptr (CavDocument) document = ui_test_open_example ("cove-and-bead.cavetto");
  CavSheetsWindow *window = cav_sheets_window_new (document, NULL);

  gtk_window_present (GTK_WINDOW (window));
  cav_plan_runner_start (cav_document_get_runner (document));
  ui_test_wait_for (cav_sheets_window_get_pages (window)->len > 0);
  check_window (GTK_WINDOW (window), 15);
}

/* The desktop's wish for high contrast comes from the environment: ADW_DEBUG_HIGH_CONTRAST. */
static void
test_mode (void)
{
  const char *wish = g_getenv ("ADW_DEBUG_HIGH_CONTRAST");

  g_assert_cmpint (adw_style_manager_get_high_contrast (adw_style_manager_get_default ()), ==,
                   wish != NULL && g_str_equal (wish, "1"));
  g_assert_cmpint (adw_style_manager_get_dark (adw_style_manager_get_default ()), ==,
                   g_getenv ("CAV_TEST_DARK") != NULL);
}

int
main (int argc, char *argv[])
{
  ui_test_init (&argc, &argv);
  adw_style_manager_set_color_scheme (adw_style_manager_get_default (),
                                      g_getenv ("CAV_TEST_DARK") != NULL
                                          ? ADW_COLOR_SCHEME_FORCE_DARK
                                          : ADW_COLOR_SCHEME_FORCE_LIGHT);
  g_settings_set_string (cav_settings_get (), CAV_SETTING_UNIT, "mm");
  g_test_add_func ("/ui/contrast/mode", test_mode);
  g_test_add_data_func ("/ui/contrast/molding", "molding", test_page);
  g_test_add_data_func ("/ui/contrast/frame", "frame", test_page);
  g_test_add_data_func ("/ui/contrast/lumber", "lumber", test_page);
  g_test_add_func ("/ui/contrast/pass", test_pass);
  g_test_add_func ("/ui/contrast/shop", test_shop);
  g_test_add_func ("/ui/contrast/sheets", test_sheets);
  g_test_add_func ("/ui/contrast/start", test_start);
  return g_test_run ();
}
