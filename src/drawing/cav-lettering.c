/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/cav-lettering.h"

#include <string.h>

/* Measures are taken at this size and scaled down: rounding then is far below what is seen. */
#define MEASURE_SIZE 200.0
/* Words that stand together may be wider than each alone, by this share of their height. */
#define SLACK 0.15
#define ELLIPSIS "…"
#define NO_BREAK_SPACE 0xa0
/* Texts whose widths are remembered, more than all sheets of a project have. */
#define MOST_WIDTHS 8192

struct _CavLettering
{
  PangoContext *context;
  PangoLayout *layouts[2]; /* regular and bold, at MEASURE_SIZE */
  double capital;          /* height of capitals and figures as a share of the em */
};

static void
set_font (PangoLayout *layout, double size, gboolean bold)
{
  PangoFontDescription *font = pango_font_description_new ();

  pango_font_description_set_family_static (font, CAV_LETTERING_FAMILY);
  pango_font_description_set_weight (font, bold ? PANGO_WEIGHT_BOLD : PANGO_WEIGHT_NORMAL);
  pango_font_description_set_absolute_size (font, size * PANGO_SCALE);
  pango_layout_set_font_description (layout, font);
  pango_font_description_free (font);
}

/* Ligatures would make one text differ between screen, paper and search. */
static void
set_up_layout (PangoLayout *layout)
{
  g_autoptr (PangoAttrList) attributes = pango_attr_list_new ();

  pango_attr_list_insert (attributes, pango_attr_font_features_new ("liga=0, clig=0"));
  pango_layout_set_attributes (layout, attributes);
  pango_layout_set_single_paragraph_mode (layout, TRUE);
  /* A sheet runs from left to right; words of other scripts turn within it. */
  pango_layout_set_auto_dir (layout, FALSE);
}

static void
set_up_context (PangoContext *context)
{
  cairo_font_options_t *options = cairo_font_options_create ();

  cairo_font_options_set_hint_style (options, CAIRO_HINT_STYLE_NONE);
  cairo_font_options_set_hint_metrics (options, CAIRO_HINT_METRICS_OFF);
  cairo_font_options_set_antialias (options, CAIRO_ANTIALIAS_GRAY);
  pango_cairo_context_set_font_options (context, options);
  cairo_font_options_destroy (options);
  pango_cairo_context_set_resolution (context, 72.0);
  pango_context_set_round_glyph_positions (context, FALSE);
}

/* Widths at MEASURE_SIZE by text, regular and bold. The same words stand on every page and are
 * measured for each of several layouts; to shape them takes longer than all the rest of it. As
 * pango has fonts of its own for each thread, so has this. */
typedef struct
{
  GHashTable *widths[2];
} Measures;

static void
measures_free (gpointer data)
{
  Measures *measures = data;

  for (int i = 0; i < 2; i++)
    g_hash_table_unref (measures->widths[i]);
  g_free (measures);
}

static GHashTable *
get_widths (gboolean bold)
{
  static GPrivate of_thread = G_PRIVATE_INIT (measures_free);
  Measures *measures = g_private_get (&of_thread);

  if (measures == NULL)
    {
      measures = g_new0 (Measures, 1);
      for (int i = 0; i < 2; i++)
        measures->widths[i] = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_free);
      g_private_set (&of_thread, measures);
    }
  return measures->widths[bold ? 1 : 0];
}

/* In mm at MEASURE_SIZE. */
static double
measure (CavLettering *self, const char *text, gboolean bold)
{
  GHashTable *widths = get_widths (bold);
  double *width = g_hash_table_lookup (widths, text);

  if (width == NULL)
    {
      PangoLayout *layout = self->layouts[bold ? 1 : 0];
      PangoRectangle logical;

      pango_layout_set_text (layout, text, -1);
      pango_layout_get_extents (layout, NULL, &logical);
      width = g_new (double, 1);
      *width = (double)logical.width / PANGO_SCALE;
      if (g_hash_table_size (widths) >= MOST_WIDTHS)
        g_hash_table_remove_all (widths);
      g_hash_table_insert (widths, g_strdup (text), width);
    }
  return *width;
}

static double
get_ink_height (CavLettering *self, const char *text)
{
  PangoRectangle ink;

  pango_layout_set_text (self->layouts[0], text, -1);
  pango_layout_get_extents (self->layouts[0], &ink, NULL);
  return (double)ink.height / PANGO_SCALE;
}

CavLettering *
cav_lettering_new (void)
{
  CavLettering *self = g_new0 (CavLettering, 1);

  self->context = pango_font_map_create_context (pango_cairo_font_map_get_default ());
  set_up_context (self->context);
  for (int i = 0; i < 2; i++)
    {
      self->layouts[i] = pango_layout_new (self->context);
      set_up_layout (self->layouts[i]);
      set_font (self->layouts[i], MEASURE_SIZE, i == 1);
    }
  self->capital = MIN (get_ink_height (self, "1"), get_ink_height (self, "H")) / MEASURE_SIZE;
  /* A font without figures, or none at all, still has to give a size. */
  if (!(self->capital > 0.3 && self->capital < 1.5))
    self->capital = 0.7;
  return self;
}

void
cav_lettering_free (CavLettering *self)
{
  if (self == NULL)
    return;
  for (int i = 0; i < 2; i++)
    g_object_unref (self->layouts[i]);
  g_object_unref (self->context);
  g_free (self);
}

double
cav_lettering_get_font_size (CavLettering *self, double height)
{
  g_return_val_if_fail (self != NULL, height);

  return height / self->capital;
}

double
cav_lettering_get_width (CavLettering *self, const char *text, double height, gboolean bold)
{
  g_return_val_if_fail (self != NULL && text != NULL, 0);

  return measure (self, text, bold) * height / self->capital / MEASURE_SIZE;
}

/* Marks that turn the direction of writing could carry over into what stands beside them. */
static gboolean
is_direction_mark (gunichar c)
{
  return c == 0x200e || c == 0x200f || c == 0x061c || (c >= 0x202a && c <= 0x202e)
         || (c >= 0x2066 && c <= 0x2069);
}

char *
cav_lettering_clean (const char *text)
{
  g_autofree char *valid = g_utf8_make_valid (text != NULL ? text : "", -1);
  GString *line = g_string_new (NULL);

  for (const char *p = valid; *p != '\0'; p = g_utf8_next_char (p))
    {
      gunichar c = g_utf8_get_char (p);

      if (c == NO_BREAK_SPACE)
        g_string_append_unichar (line, c);
      else if (g_unichar_isspace (c) || c == 0x2028 || c == 0x2029)
        {
          if (line->len > 0 && line->str[line->len - 1] != ' ')
            g_string_append_c (line, ' ');
        }
      else if (!g_unichar_iscntrl (c) && !is_direction_mark (c) && c < 0x110000 && c != 0xfffe
               && c != 0xffff)
        g_string_append_unichar (line, c);
    }
  return g_strchomp (g_string_free (line, FALSE));
}

/* Byte offsets in text at which it may be cut without tearing a letter and its marks apart. */
static GArray *
create_cuts (CavLettering *self, const char *text)
{
  GArray *cuts = g_array_new (FALSE, FALSE, sizeof (gsize));
  const PangoLogAttr *attributes;
  int n_attributes = 0;
  int i = 0;

  pango_layout_set_text (self->layouts[0], text, -1);
  attributes = pango_layout_get_log_attrs_readonly (self->layouts[0], &n_attributes);
  for (const char *p = text; i < n_attributes; p = g_utf8_next_char (p), i++)
    {
      gsize offset = (gsize)(p - text);

      if (attributes[i].is_cursor_position)
        g_array_append_val (cuts, offset);
      if (*p == '\0')
        break;
    }
  return cuts;
}

static char *
cut_text (const char *text, gsize length)
{
  g_autofree char *head = g_strchomp (g_strndup (text, length));

  return g_strconcat (head, ELLIPSIS, NULL);
}

char *
cav_lettering_ellipsize (
    CavLettering *self, const char *text, double height, gboolean bold, double width)
{
  g_autoptr (GArray) cuts = NULL;
  guint low = 0;
  guint high;

  g_return_val_if_fail (self != NULL && text != NULL, NULL);

  if (cav_lettering_get_width (self, text, height, bold) <= width)
    return g_strdup (text);
  if (cav_lettering_get_width (self, ELLIPSIS, height, bold) > width)
    return g_strdup ("");
  cuts = create_cuts (self, text);
  high = cuts->len;
  /* The most that fits: cuts before low do, the one at high does not. */
  while (high > low + 1)
    {
      guint middle = low + (high - low) / 2;
      g_autofree char *attempt = cut_text (text, g_array_index (cuts, gsize, middle));

      if (cav_lettering_get_width (self, attempt, height, bold) <= width)
        low = middle;
      else
        high = middle;
    }
  return cut_text (text, low < cuts->len ? g_array_index (cuts, gsize, low) : 0);
}

GPtrArray *
cav_lettering_wrap (CavLettering *self,
                    const char *text,
                    double height,
                    gboolean bold,
                    double width,
                    guint max_lines)
{
  GPtrArray *lines = g_ptr_array_new_with_free_func (g_free);
  g_auto (GStrv) words = NULL;
  g_autoptr (GString) line = g_string_new (NULL);
  double blank;
  double used = 0;

  g_return_val_if_fail (self != NULL && text != NULL, lines);

  words = g_strsplit (text, " ", -1);
  blank = cav_lettering_get_width (self, " ", height, bold);
  for (guint i = 0; words[i] != NULL; i++)
    {
      double word = cav_lettering_get_width (self, words[i], height, bold);

      if (line->len == 0 || used + blank + word <= width - SLACK * height)
        {
          used = line->len == 0 ? word : used + blank + word;
          g_string_append_printf (line, "%s%s", line->len == 0 ? "" : " ", words[i]);
          continue;
        }
      if (max_lines > 0 && lines->len + 1 == max_lines)
        {
          g_autofree char *rest = g_strjoinv (" ", &words[i]);

          /* All that is left goes into the last line, which is shortened below. */
          g_string_append_printf (line, " %s", rest);
          break;
        }
      g_ptr_array_add (lines, cav_lettering_ellipsize (self, line->str, height, bold, width));
      g_string_assign (line, words[i]);
      used = word;
    }
  if (line->len > 0)
    g_ptr_array_add (lines, cav_lettering_ellipsize (self, line->str, height, bold, width));
  for (guint i = 0; i < lines->len; i++)
    {
      char *held = g_ptr_array_index (lines, i);
      g_auto (GStrv) parts = g_strsplit (held, "\302\240", -1);

      lines->pdata[i] = g_strjoinv (" ", parts);
      g_free (held);
    }
  return lines;
}

PangoLayout *
cav_lettering_create_layout (CavLettering *self, cairo_t *cr)
{
  PangoLayout *layout;

  g_return_val_if_fail (self != NULL && cr != NULL, NULL);

  layout = pango_cairo_create_layout (cr);
  set_up_context (pango_layout_get_context (layout));
  set_up_layout (layout);
  pango_layout_context_changed (layout);
  return layout;
}

void
cav_lettering_show (CavLettering *self,
                    PangoLayout *layout,
                    cairo_t *cr,
                    const char *text,
                    double height,
                    gboolean bold)
{
  g_return_if_fail (self != NULL && layout != NULL && text != NULL);

  /* The fonts that a layout holds know how the page is turned. */
  pango_cairo_update_layout (cr, layout);
  set_font (layout, height / self->capital, bold);
  pango_layout_set_text (layout, text, -1);
  pango_cairo_show_layout_line (cr, pango_layout_get_line_readonly (layout, 0));
}
