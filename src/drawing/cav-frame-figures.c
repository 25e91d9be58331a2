/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/cav-frame-figures.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#include "drawing/cav-words-private.h"
#include "frame/cav-stock-size.h"
#include "geometry/cav-number-text.h"

typedef struct
{
  const CavFrame *frame;
  const CavSheetOptions *options;
  GPtrArray *lines;
} Lister;

static Lister
start (const CavFrame *frame, const CavSheetOptions *options)
{
  return (Lister){ frame, options, g_ptr_array_new_with_free_func (g_free) };
}

G_GNUC_PRINTF (2, 3)
static void
add (const Lister *self, const char *format, ...)
{
  va_list arguments;

  va_start (arguments, format);
  g_ptr_array_add (self->lines, g_strdup_vprintf (format, arguments));
  va_end (arguments);
}

const char *
cav_words_get_pair (CavRailPair which)
{
  switch (which)
    {
    case CAV_RAILS_TOP_BOTTOM:
      return _ ("Rails, top and bottom");
    case CAV_RAILS_LEFT_RIGHT:
      return _ ("Rails, left and right");
    case CAV_RAILS_ALL:
      return _ ("Rails");
    }
  g_return_val_if_reached ("");
}

const char *
cav_words_get_rail (int rail, int n_rails)
{
  static const char *const names[] = { NC_ ("which rail", "top"), NC_ ("which rail", "right"),
                                       NC_ ("which rail", "bottom"), NC_ ("which rail", "left") };

  return n_rails == 4 ? g_dpgettext2 (GETTEXT_PACKAGE, "which rail", names[rail % 4]) : NULL;
}

char *
cav_words_format_size (const CavFrame *frame, CavSize size, const CavSheetOptions *options)
{
  g_autofree char *width = cav_words_format_unit (size.width, options);
  g_autofree char *height = cav_words_format_unit (size.height, options);

  if (frame->settings.sides != 4)
    return g_strdup_printf (_ ("%s across"), width);
  return g_strdup_printf ("%s × %s", width, height);
}

static char *
format (const Lister *self, double mm)
{
  return cav_words_format_unit (mm, self->options);
}

/* Of wood to prepare. */
static char *
format_up (const Lister *self, double mm)
{
  return cav_words_format_up (mm, self->options);
}

static char *
format_mark (const Lister *self, double mm)
{
  return format (self, cav_words_round_place (mm, self->options->unit));
}

/* Rails */

static void
add_lengths (const Lister *self)
{
  for (int i = 0; i < self->frame->rails.n_groups; i++)
    {
      const CavRailGroup *group = &self->frame->rails.groups[i];
      g_autofree char *outer = format (self, group->long_point);
      g_autofree char *line = format (self, group->rabbet_line);
      g_autofree char *inner = format (self, group->short_point);

      add (self,
           /* Translators: which rails, how many, and their lengths. */
           _ ("%s: %d of %s at the long point, %s at the rabbet, %s at the short point."),
           cav_words_get_pair (group->which), group->count, outer, line, inner);
    }
}

static void
add_sawing (const Lister *self)
{
  g_autofree char *mitre = cav_words_format_degrees (self->frame->rails.mitre);

  add (self, _ ("Mitre both ends at %s°, face up, the sight edge toward the short point."), mitre);
  if (self->frame->rails.n_groups > 1)
    /* Common practice, no source. */
    add (self, "%s",
         _ ("First one end of every rail, then the other end against a stop at the long point: the "
            "longer pair first, so that one that comes out short still makes a shorter rail."));
  else
    add (self, "%s",
         _ ("First one end of every rail, then the other end against a stop at the long point that "
            "stays where it is."));
}

static void
add_molding (const Lister *self)
{
  const CavFrameRails *rails = &self->frame->rails;
  g_autofree char *exact = format_up (self, rails->molding);
  g_autofree char *cut = format_up (self, rails->molding_cut);
  g_autofree char *rule = format_up (self, rails->molding_rule);

  add (self,
       _ ("Molding: %s of long points, %s with kerfs and trimmed ends. The rule of thumb, once "
          "around the glass and two widths for each corner, says %s."),
       exact, cut, rule);
}

static const char *
get_rail_word (const CavFrameRails *rails, int rail, char number[8])
{
  const char *word = cav_words_get_rail (rail, rails->n_places);

  g_snprintf (number, 8, "%d", rail + 1);
  return word != NULL ? word : number;
}

static char *
describe_strip (const Lister *self, int strip)
{
  const CavFrameRails *rails = &self->frame->rails;
  g_autoptr (GString) text = g_string_new (NULL);

  for (int i = 0; i < rails->n_places; i++)
    {
      const CavRailPlace *place = &rails->places[i];
      g_autofree char *from = format_mark (self, place->from);
      g_autofree char *to = format_mark (self, place->to);
      char number[8];

      if (place->strip != strip)
        continue;
      if (text->len > 0)
        g_string_append (text, ", ");
      g_string_append_printf (
          text,
          /* Translators: which rail of a strip, and between which places its long point lies. */
          C_ ("rail in a strip", "%s %s to %s"), get_rail_word (rails, place->rail, number), from,
          to);
    }
  return g_string_free (g_steal_pointer (&text), FALSE);
}

static void
add_strips (const Lister *self)
{
  const CavFrameRails *rails = &self->frame->rails;
  g_autofree char *strip = format_up (self, rails->strip);
  g_autofree char *safe = format (self, self->frame->settings.safe_length);

  if (rails->together < 2)
    return;
  add (
      self,
      _ ("Mill them together in strips of %s, for nothing under %s goes past a tool; cut the rails "
         "apart after the last pass, long points from the strip's end:"),
      strip, safe);
  for (int i = 0; i <= rails->places[rails->n_places - 1].strip; i++)
    {
      g_autofree char *places = describe_strip (self, i);

      /* Translators: the number of a strip, and the rails in it. */
      add (self, _ ("Strip %d: %s."), i + 1, places);
    }
}

GPtrArray *
cav_frame_figures_list_strips (const CavFrame *frame, const CavSheetOptions *options)
{
  g_return_val_if_fail (frame != NULL && frame->possible && options != NULL, NULL);

  Lister self = start (frame, options);
  add_strips (&self);
  return self.lines;
}

GPtrArray *
cav_frame_figures_list_rails (const CavFrame *frame, const CavSheetOptions *options)
{
  g_return_val_if_fail (frame != NULL && frame->possible && options != NULL, NULL);

  Lister self = start (frame, options);
  add_lengths (&self);
  add_sawing (&self);
  add_molding (&self);
  add_strips (&self);
  if (frame->rails.together < 2)
    {
      g_autofree char *safe = format (&self, frame->settings.safe_length);

      add (&self, _ ("Each rail may be milled by itself; nothing under %s goes past a tool."),
           safe);
    }
  return self.lines;
}

/* Package */

static gboolean
has_mats (const CavFrame *frame)
{
  return frame->settings.n_mats > 0 && !frame->settings.floated;
}

static char *
format_size (const Lister *self, CavSize size)
{
  return cav_words_format_size (self->frame, size, self->options);
}

static void
add_windows (const Lister *self)
{
  for (int i = 0; i < self->frame->settings.n_mats; i++)
    {
      g_autofree char *size = format_size (self, self->frame->sizes.windows[i]);

      /* Translators: which mat from the front, and the size of its window. */
      add (self, _ ("Mat %d: window %s."), i + 1, size);
    }
}

static void
add_shown (const Lister *self)
{
  const CavBorders *shown = &self->frame->sizes.shown;
  g_autofree char *left = format (self, shown->left);
  g_autofree char *right = format (self, shown->right);
  g_autofree char *top = format (self, shown->top);
  g_autofree char *bottom = format (self, shown->bottom);

  if (self->frame->settings.sides != 4)
    add (self, _ ("Of the front mat %s is seen all round."), left);
  else
    add (self, _ ("Of the front mat is seen: left %s, right %s, top %s, bottom %s."), left, right,
         top, bottom);
}

static void
add_board (const Lister *self)
{
  CavSize glass = self->frame->sizes.glass;
  const CavStockSize *sheet
      = cav_stock_size_find_sheet (CAV_STOCK_BOARD, glass.width, glass.height);

  if (sheet != NULL)
    /* Translators: "32 × 40 in", as mat board is sold. */
    add (self, _ ("Each mat is cut from a sheet of %s."), sheet->name);
  else
    add (self, "%s", _ ("No sheet of mat board that is sold is large enough."));
}

static void
add_cover (const Lister *self)
{
  const CavFrameSizes *sizes = &self->frame->sizes;
  g_autofree char *middle = format (self, sizes->cover);
  g_autofree char *least = format (self, fmax (sizes->least_cover, 0.0));

  if (sizes->lip > 0.0)
    add (self, _ ("The lip covers %s of the sheets, %s where they are pushed away from it."),
         middle, least);
}

static void
add_depth (const Lister *self)
{
  const CavPackage *package = &self->frame->package;
  g_autofree char *depth = format (self, package->depth);
  g_autofree char *rabbet = format (self, self->frame->sizes.rabbet_depth);
  g_autofree char *room = format (self, self->frame->settings.point_room);
  g_autofree char *rest = format (self, fabs (package->spare));
  g_autofree char *out = format (self, package->stands_out);

  if (package->stands_out > 0.0)
    add (self, _ ("The package is %s deep and stands %s out of a rabbet of %s."), depth, out,
         rabbet);
  else if (package->spare < 0.0)
    add (self, _ ("The package is %s deep, points want %s, and the rabbet is %s: %s is missing."),
         depth, room, rabbet, rest);
  else
    add (self, _ ("The package is %s deep, points want %s, and the rabbet is %s: %s is left."),
         depth, room, rabbet, rest);
}

GPtrArray *
cav_frame_figures_list_package (const CavFrame *frame, const CavSheetOptions *options)
{
  g_return_val_if_fail (frame != NULL && frame->possible && options != NULL, NULL);

  Lister self = start (frame, options);
  g_autofree char *sheets = format_size (&self, frame->sizes.glass);

  add (&self, _ ("Glass, mats and backing: %s."), sheets);
  if (has_mats (frame))
    {
      add_windows (&self);
      add_shown (&self);
      add_board (&self);
    }
  add_cover (&self);
  add_depth (&self);
  return self.lines;
}

/* Weight */

static const char *
put (char *buffer, const char *number_format, double value)
{
  return cav_number_format (buffer, G_ASCII_DTOSTR_BUF_SIZE, number_format, value);
}

static void
add_masses (const Lister *self)
{
  const CavFrameWeights *weights = &self->frame->weights;
  char wood[G_ASCII_DTOSTR_BUF_SIZE];
  char glazing[G_ASCII_DTOSTR_BUF_SIZE];
  char mats[G_ASCII_DTOSTR_BUF_SIZE];
  char backing[G_ASCII_DTOSTR_BUF_SIZE];
  char total[G_ASCII_DTOSTR_BUF_SIZE];

  add (self,
       _ ("Wood %s kg, glazing %s kg, mats and picture %s kg, backing %s kg: together %s kg."),
       put (wood, "%.2f", weights->wood), put (glazing, "%.2f", weights->glazing),
       put (mats, "%.2f", weights->mats + weights->picture),
       put (backing, "%.2f", weights->backing), put (total, "%.2f", weights->total));
}

static void
add_hangers (const Lister *self)
{
  const CavFrameSettings *settings = &self->frame->settings;
  const CavFrameWeights *weights = &self->frame->weights;
  g_autofree char *angle = cav_words_format_degrees (settings->wire_angle);
  char load[G_ASCII_DTOSTR_BUF_SIZE];

  put (load, "%.1f", weights->hanger_load / CAV_GRAVITY);
  if (weights->wire_tension > 0.0)
    add (self, _ ("A wire at %s° above level pulls each hanger with %s kg."), angle, load);
  else
    add (self,
         g_dngettext (GETTEXT_PACKAGE, "%d hanger carries %s kg.", "%d hangers carry %s kg each.",
                      (gulong)settings->hangers),
         settings->hangers, load);
}

static void
add_points (const Lister *self)
{
  const CavFrameWeights *weights = &self->frame->weights;
  g_autofree char *spacing = cav_words_format_unit (round (weights->point_spacing), self->options);

  if (self->frame->package.stands_out > 0.0)
    return;
  add (self,
       g_dngettext (GETTEXT_PACKAGE, "%d point, about %s apart, one near each corner.",
                    "%d points, about %s apart, one near each corner.", (gulong)weights->points),
       weights->points, spacing);
}

static void
add_surface (const Lister *self)
{
  const CavFrameWeights *weights = &self->frame->weights;
  char volume[G_ASCII_DTOSTR_BUF_SIZE];
  char all[G_ASCII_DTOSTR_BUF_SIZE];
  char seen[G_ASCII_DTOSTR_BUF_SIZE];
  char amount[G_ASCII_DTOSTR_BUF_SIZE];

  add (self,
       _ ("Wood in the finished rails: %s cm³. Its surface is %s m², of which %s m² is seen."),
       put (volume, "%.0f", weights->wood_volume * 1e-3),
       put (all, "%.2f", weights->finish_area * 1e-6),
       put (seen, "%.2f", weights->face_area * 1e-6));
  if (weights->finish_amount > 0.0 && self->frame->settings.coats > 0)
    add (self, _ ("A coat over all of it takes about %s ml."),
         put (amount, "%.0f", weights->finish_amount));
}

GPtrArray *
cav_frame_figures_list_weight (const CavFrame *frame, const CavSheetOptions *options)
{
  g_return_val_if_fail (frame != NULL && frame->possible && options != NULL, NULL);

  Lister self = start (frame, options);
  add_masses (&self);
  add_hangers (&self);
  add_points (&self);
  add_surface (&self);
  return self.lines;
}

/* Materials */

static const char *
get_finish_words (CavFinish finish)
{
  static const char *const words[]
      = { NC_ ("finish", "none"),      NC_ ("finish", "oil"),         NC_ ("finish", "wax"),
          NC_ ("finish", "varnish"),   NC_ ("finish", "black paint"), NC_ ("finish", "white paint"),
          NC_ ("finish", "leaf, gold") };

  return g_dpgettext2 (GETTEXT_PACKAGE, "finish",
                       words[finish < G_N_ELEMENTS (words) ? finish : 0]);
}

static char *
format_finish (const CavFrameSettings *settings)
{
  const char *words = get_finish_words (settings->finish);

  if (settings->finish == CAV_FINISH_BARE || settings->coats < 1)
    return g_strdup_printf (_ ("finish: %s"), words);
  return g_strdup_printf (
      g_dngettext (GETTEXT_PACKAGE, "%s, %d coat", "%s, %d coats", (gulong)settings->coats), words,
      settings->coats);
}

/* "210 × 297 mm", as short as a drawing wants it. */
static char *
format_sheet (const Lister *self, CavSize size)
{
  if (self->frame->settings.sides != 4)
    return format_size (self, size);

  g_autofree char *width
      = cav_length_format_bare (size.width, self->options->unit, self->options->denominator);
  g_autofree char *height
      = cav_length_format (size.height, self->options->unit, self->options->denominator);

  return g_strdup_printf ("%s × %s", width, height);
}

static void
add_wood (const Lister *self)
{
  const CavFrame *frame = self->frame;
  g_autofree char *finish = format_finish (&frame->settings);

  add (self,
       frame->settings.sawn == CAV_SAWN_QUARTER ? _ ("Wood: %s, quarter sawn; %s")
                                                : _ ("Wood: %s, flat sawn; %s"),
       frame->wood != NULL ? cav_wood_get_name (frame->wood) : C_ ("wood", "not chosen"), finish);
}

static void
add_sheets (const Lister *self)
{
  const CavFrame *frame = self->frame;
  g_autofree char *glass = format_sheet (self, frame->sizes.glass);
  char weight[G_ASCII_DTOSTR_BUF_SIZE];

  if (frame->wood != NULL && frame->wood->density > 0.0)
    add (self, _ ("Sheets: %s; about %s kg in all"), glass,
         put (weight, "%.1f", frame->weights.total));
  else
    add (self, _ ("Sheets: %s"), glass);
}

GPtrArray *
cav_frame_figures_list_materials (const CavFrame *frame, const CavSheetOptions *options)
{
  g_return_val_if_fail (frame != NULL && frame->possible && options != NULL, NULL);

  Lister self = start (frame, options);
  add_wood (&self);
  add_sheets (&self);
  for (int i = 0; has_mats (frame) && i < frame->settings.n_mats; i++)
    {
      g_autofree char *size = format_sheet (&self, frame->sizes.windows[i]);

      add (&self, _ ("Mat %d: window %s"), i + 1, size);
    }
  return self.lines;
}
