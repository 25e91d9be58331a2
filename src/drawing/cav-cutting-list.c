/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/cav-cutting-list.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#include "drawing/cav-mat-words.h"
#include "drawing/cav-piece-words.h"
#include "drawing/cav-words-private.h"

static void
item_free (gpointer data)
{
  CavListItem *item = data;

  g_free (item->what);
  g_free (item->material);
  g_free (item->note);
  g_free (item);
}

void
cav_cutting_list_free (CavCuttingList *list)
{
  if (list == NULL)
    return;
  g_ptr_array_unref (list->items);
  g_free (list);
}

void
cav_cutting_list_add (CavCuttingList *list, const CavListItem *item)
{
  CavListItem *copy;

  g_return_if_fail (list != NULL && item != NULL);

  copy = g_memdup2 (item, sizeof *item);
  copy->what = g_strdup (item->what != NULL ? item->what : "");
  copy->material = g_strdup (item->material != NULL ? item->material : "");
  copy->note = g_strdup (item->note != NULL ? item->note : "");
  g_ptr_array_add (list->items, copy);
  list->weight += item->weight;
  list->cost += item->cost;
}

/* What the list is made from. */
typedef struct
{
  CavCuttingList *list;
  CavProject *project;
  const CavSheetOptions *options;
  const CavFrame *frame; /* (nullable) where none was set, or it is not possible */
  const char *wood;
  CavBlank blank; /* to prepare */
  int frames;
} Maker;

static void
add (const Maker *self, CavListItem item)
{
  cav_cutting_list_add (self->list, &item);
}

/* In a table, lines may break anywhere. */
static char *
let_break (const char *held)
{
  g_auto (GStrv) parts = g_strsplit (held, CAV_STAY, -1);

  return g_strjoinv (" ", parts);
}

static char *
format (const Maker *self, double mm)
{
  g_autofree char *held = cav_words_format_unit (mm, self->options);

  return let_break (held);
}

/* What is cut off before milling; the rails come out of these pieces. */
static void
add_blanks (const Maker *self, const CavPlan *plan)
{
  g_autoptr (GArray) pieces = cav_words_list_pieces (self->project, plan, self->options);

  for (guint i = 0; i < pieces->len; i++)
    {
      const CavMilledPiece *piece = &g_array_index (pieces, CavMilledPiece, i);
      g_autofree char *note = cav_words_describe_parting (piece);

      add (self, (CavListItem){ .kind = CAV_LIST_BLANKS,
                                .what = (char *)_ ("Blank to prepare"),
                                .material = (char *)self->wood,
                                .count = piece->count,
                                .length = cav_words_round_up (piece->length, self->options->unit),
                                .width = self->blank.width,
                                .thickness = self->blank.thickness,
                                .note = note });
    }
}

static void
add_frame_rails (const Maker *self)
{
  const CavFrameRails *rails = &self->frame->rails;
  double all = 0;

  for (int i = 0; i < rails->n_groups; i++)
    all += rails->groups[i].count * rails->groups[i].mean;
  for (int i = 0; i < rails->n_groups; i++)
    {
      const CavRailGroup *group = &rails->groups[i];
      g_autofree char *line = format (self, group->rabbet_line);
      g_autofree char *shorter = format (self, group->short_point);
      g_autofree char *mitre = cav_words_format_degrees (rails->mitre);
      g_autofree char *note = g_strdup_printf (_ ("long point; at the rabbet %s, short point %s, "
                                                  "mitre %s°"),
                                               line, shorter, mitre);
      double share = all > 0 ? group->count * group->mean / all : 0;

      add (self, (CavListItem){ .kind = CAV_LIST_RAILS,
                                .what = (char *)cav_words_get_pair (group->which),
                                .material = (char *)self->wood,
                                .count = group->count * self->frames,
                                .length = group->long_point,
                                .width = self->blank.width,
                                .thickness = self->blank.thickness,
                                .weight = self->frame->weights.wood * share * self->frames,
                                .note = note });
    }
}

static void
add_plain_rails (const Maker *self)
{
  int rails;
  double length;

  cav_project_get_milled_rails (self->project, &rails, &length);
  add (self, (CavListItem){
                 .kind = CAV_LIST_RAILS,
                 .what = (char *)_ ("Rails"),
                 .material = (char *)self->wood,
                 .count = rails,
                 .length = rails > 0 ? length / rails : 0,
                 .width = self->blank.width,
                 .thickness = self->blank.thickness,
                 .note = (char *)_ ("all rails together over their number; no frame is set") });
}

static void
add_spare (const Maker *self)
{
  const CavLumber *lumber = cav_project_get_lumber (self->project);
  const CavListItem item = { .kind = CAV_LIST_SPARE,
                             .material = (char *)self->wood,
                             .count = 1,
                             .width = self->blank.width,
                             .thickness = self->blank.thickness };
  CavListItem trial = item;
  CavListItem spare = item;

  trial.what = (char *)_ ("Blank for trial cuts");
  trial.length = lumber->test;
  trial.note = (char *)_ ("goes through every pass before the rails");
  spare.what = (char *)_ ("Spare molding");
  spare.length = lumber->spare;
  if (trial.length > 0)
    add (self, trial);
  if (spare.length > 0)
    add (self, spare);
}

static void
add_glazing (const Maker *self)
{
  const CavFrame *frame = self->frame;
  gboolean acrylic = frame->settings.glazing == CAV_GLAZING_ACRYLIC;

  if (frame->settings.glazing == CAV_GLAZING_NONE)
    return;
  add (self,
       (CavListItem){
           .kind = CAV_LIST_GLAZING,
           .what = (char *)(acrylic ? _ ("Acrylic") : _ ("Glass")),
           .material = (char *)(acrylic ? C_ ("layer of the package", "acrylic")
                                        : C_ ("layer of the package", "glass")),
           .count = self->frames,
           .length = frame->sizes.glass.width,
           .width = frame->sizes.glass.height,
           .thickness = frame->settings.glazing_thickness,
           .weight = frame->weights.glazing * self->frames,
           .note
           = (char *)(acrylic ? ""
                              : _ ("Wear gloves, and rub the sharp splinters off its edges.")) });
}

/* Board that is left around the window, as a measure to compare mats by: in a frame of equal sides
 * all areas are the same share of their squares. */
static double
get_mat_measure (const CavFrame *frame, int index)
{
  const CavFrameSizes *sizes = &frame->sizes;
  double area = sizes->glass.width * sizes->glass.height
                - sizes->windows[index].width * sizes->windows[index].height;

  return fmax (area, 0.0) * frame->settings.mats[index].thickness;
}

/* Its share of what the frame's mats weigh together. */
static double
get_mat_weight (const CavFrame *frame, int index)
{
  double all = 0.0;

  for (int i = 0; i < frame->settings.n_mats; i++)
    all += get_mat_measure (frame, i);
  return all > 0.0 ? frame->weights.mats * get_mat_measure (frame, index) / all : 0.0;
}

static void
add_mats (const Maker *self)
{
  const CavFrame *frame = self->frame;

  for (int i = 0; i < frame->settings.n_mats && !frame->settings.floated; i++)
    {
      g_autofree char *what = frame->settings.n_mats > 1
                                  ? g_strdup_printf (_ ("Mat %d from the front"), i + 1)
                                  : g_strdup (_ ("Mat"));
      g_autofree char *width = format (self, frame->sizes.windows[i].width);
      g_autofree char *height = format (self, frame->sizes.windows[i].height);
      g_autofree char *held = cav_words_describe_mat_borders (frame, i, self->options);
      g_autofree char *borders = let_break (held);
      g_autofree char *note = g_strdup_printf (
          /* Translators: a size, and where the window lies: “60 all around”. */
          frame->settings.bevelled ? _ ("window %s × %s, bevelled; %s") : _ ("window %s × %s; %s"),
          width, height, borders);

      add (self, (CavListItem){ .kind = CAV_LIST_MAT,
                                .what = what,
                                .material = (char *)_ ("mat board"),
                                .count = self->frames,
                                .length = frame->sizes.glass.width,
                                .width = frame->sizes.glass.height,
                                .thickness = frame->settings.mats[i].thickness,
                                .weight = get_mat_weight (frame, i) * self->frames,
                                .note = note });
    }
}

static void
add_spacers (const Maker *self)
{
  const CavFrame *frame = self->frame;
  const CavSize glass = frame->sizes.glass;
  const int sides = frame->settings.sides;
  g_autofree char *cover = format (self, frame->sizes.cover);
  /* Translators: a length, over which the lip covers the glass. */
  g_autofree char *note
      = g_strdup_printf (_ ("behind the glass, along its edges, narrower than %s"), cover);

  if (frame->settings.spacer <= 0)
    return;
  add (self, (CavListItem){ .kind = CAV_LIST_SPACER,
                            .what = (char *)_ ("Spacer strip"),
                            .count = self->frames,
                            .length = sides == 4 ? 2 * (glass.width + glass.height)
                                                 : sides * cav_frame_get_side (glass.width, sides),
                            .thickness = frame->settings.spacer,
                            .note = note });
}

static void
add_backing (const Maker *self)
{
  static const char *const names[]
      = { NULL, NC_ ("layer of the package", "card"), NC_ ("layer of the package", "foam board"),
          NC_ ("layer of the package", "hardboard"), NC_ ("layer of the package", "plywood") };
  const CavFrame *frame = self->frame;

  if (frame->settings.backing == CAV_BACKING_NONE)
    return;
  add (self,
       (CavListItem){ .kind = CAV_LIST_BACKING,
                      .what = (char *)_ ("Backing"),
                      .material = (char *)g_dpgettext2 (GETTEXT_PACKAGE, "layer of the package",
                                                        names[frame->settings.backing]),
                      .count = self->frames,
                      .length = frame->sizes.glass.width,
                      .width = frame->sizes.glass.height,
                      .thickness = frame->settings.backing_thickness,
                      .weight = frame->weights.backing * self->frames });
}

static void
add_hardware (const Maker *self)
{
  const CavFrame *frame = self->frame;
  g_autofree char *spacing = format (self, round (frame->weights.point_spacing));
  g_autofree char *load = cav_length_format_bare (
      round (frame->weights.hanger_load / CAV_GRAVITY * 10) / 10, CAV_UNIT_MM, 1);
  g_autofree char *points = g_strdup_printf (_ ("about %s apart"), spacing);
  g_autofree char *angle = cav_words_format_degrees (frame->settings.wire_angle);
  g_autofree char *hangers
      = frame->weights.wire_tension > 0
            ? g_strdup_printf (_ ("each carries %s kg because of the wire's angle, %s° above "
                                  "level; take them for four times that"),
                               load, angle)
            : g_strdup_printf (_ ("each carries %s kg; take them for four times that"), load);

  if (frame->weights.points > 0)
    add (self, (CavListItem){ .kind = CAV_LIST_POINTS,
                              .what = (char *)_ ("Points"),
                              .count = frame->weights.points * self->frames,
                              .note = points });
  if (frame->settings.hangers > 0)
    add (self, (CavListItem){ .kind = CAV_LIST_HANGERS,
                              .what = (char *)_ ("Hangers"),
                              .count = frame->settings.hangers * self->frames,
                              .note = hangers });
}

CavCuttingList *
cav_cutting_list_new (CavProject *project, const CavPlan *plan, const CavSheetOptions *options)
{
  Maker self = { .project = project, .options = options };
  const CavWood *wood;

  g_return_val_if_fail (CAV_IS_PROJECT (project) && options != NULL, NULL);

  wood = cav_project_get_wood (project);
  self.list = g_new0 (CavCuttingList, 1);
  self.list->items = g_ptr_array_new_with_free_func (item_free);
  self.frame = cav_project_has_frame (project) ? cav_project_get_frame (project) : NULL;
  if (self.frame != NULL && !self.frame->possible)
    self.frame = NULL;
  self.wood = wood != NULL ? cav_wood_get_name (wood) : _ ("wood");
  self.blank = plan != NULL && plan->usable ? plan->blank : cav_project_get_blank (project);
  self.frames = MAX (cav_project_get_lumber (project)->frames, 1);
  add_blanks (&self, plan);
  if (self.frame == NULL)
    {
      add_plain_rails (&self);
      add_spare (&self);
      return self.list;
    }
  add_frame_rails (&self);
  add_spare (&self);
  add_glazing (&self);
  add_mats (&self);
  add_spacers (&self);
  add_backing (&self);
  add_hardware (&self);
  return self.list;
}
