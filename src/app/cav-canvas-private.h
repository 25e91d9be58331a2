/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "app/cav-scroll.h"
#include "app/cav-section-canvas.h"
#include "app/cav-tile-sheet.h"
#include "drawing/cav-section-hit.h"
#include "drawing/cav-section-overlay.h"
#include "drawing/cav-section-pane.h"
#include "project/cav-arrange.h"
#include "project/cav-proposal.h"

G_BEGIN_DECLS

/* What the pointer is at. */
typedef enum
{
  CAV_DEED_NONE,
  CAV_DEED_PRESSED, /* on something, not moved yet */
  CAV_DEED_HANDLE,  /* dragging a handle of the one chosen cut */
  CAV_DEED_MOVE,    /* moving all chosen cuts */
  CAV_DEED_DRAW,    /* drawing out a new cut */
  CAV_DEED_BAND,    /* rubber band */
  CAV_DEED_PAN,
  CAV_DEED_PATH, /* placing points of a drawn cut; goes on between presses */
} CavDeed;

/* Pixels within which the pointer means something. */
#define CAV_CANVAS_TOLERANCE 6.0
/* Pixels that a press has to move before it is a drag. */
#define CAV_CANVAS_THRESHOLD 3.0

/* How far from the blank a new cut still proposes itself, pixels. */
#define CAV_CANVAS_PROPOSAL_REACH 60.0

typedef struct
{
  CavDeed deed;
  CavHit hit;            /* what was pressed on */
  gboolean shift;        /* was held then */
  CavPoint begin;        /* pixels */
  CavPoint begin_wood;   /* the same in the blank's coordinates, whatever the view does since */
  CavPoint now;          /* pixels */
  CavHandle handle;      /* being dragged */
  int held;              /* its index, or -1 */
  guint cut;             /* index of the cut that is dragged or drawn */
  gboolean has_cut;      /* the drawn cut is in the project */
  CavCut *before;        /* the dragged cut as it was; owned, nullable */
  GPtrArray *all_before; /* the moved cuts as they were; owned, nullable */
  GArray *indices;       /* guint, of these; owned, nullable */
  CavBox bounds;         /* of these */
  CavSnapper *snapper;   /* owned, nullable */
  CavProject *stage;     /* the section before the drawn cut; owned, nullable */
  CavSnap snap;
  gboolean in_step; /* a step of the project is open */
  gboolean is_down; /* the button, while a path is drawn */
} CavDrag;

struct _CavSectionCanvas
{
  GtkWidget parent_instance;

  /* Owned */
  CavDocument *document;
  GtkWidget
      *entry; /* box with a label and an entry for a typed number; child, made when first used */
  GtkWidget *menu; /* popover; child, made when first used */
  /* From when the menu opens until what was chosen in it is done */
  gboolean menu_open;

  /* Pictures, made again when something of them changes (cav-canvas-picture.c). */
  CavTileSheet *sheet;      /* the section or the pass */
  GskRenderNode *rulers[2]; /* nullable; the level one and the upright one */
  cairo_surface_t *grain;   /* nullable */
  CavPane pane;             /* of these */
  gboolean is_full;         /* with rings, rulers and words; not so the first frame */
  guint plain_idle;         /* that ends this */
  CavBlank drawn_blank;
  gboolean was_sound; /* what is drawn is all that the cuts leave */

  /* Derived from the project, kept until it changes. */
  GPtrArray *cuts;      /* CavCut, copies that shapes belong to */
  GPtrArray *shapes;    /* CavRegion, nullable */
  GPtrArray *findings;  /* CavFinding; nullable */
  CavRegion *leftover;  /* nullable */
  GArray *handles;      /* CavHandle of the one chosen cut; nullable */
  gboolean has_handles; /* they are those of the cut as it stands */

  /* View */
  CavView view;
  gboolean is_fitted; /* nobody has zoomed or moved it */
  gboolean fit_waits; /* until a drag ends: the canvas has another size since */
  double pinch_scale;
  CavScrollHabit scroll_habit;

  /* Pointer and keyboard */
  CavDrag drag;
  gboolean has_pointer;
  CavPoint pointer;
  GdkModifierType modifiers;
  gboolean space_held;
  CavHit hover;
  gboolean is_lit;      /* until the pointer comes */
  CavPoint lit;         /* where what is worth a look is */
  CavCut *proposal;     /* under the pointer while a kind is chosen; nullable */
  int focused_handle;   /* of the chosen cut, or -1 */
  CavPath *path;        /* of a drawn cut in progress; nullable */
  CavSegment path_next; /* from its end to the pointer */
  char *figure;         /* nullable */
  gboolean is_refused;  /* figure says why something cannot be */
  CavHandle typed;      /* whose number is being typed */
  guint typed_cut;
};

/* Shorthand. */
CavProject *cav_canvas_get_project (CavSectionCanvas *self);
CavSelection *cav_canvas_get_selection (CavSectionCanvas *self);
/* TRUE where there is a document and the section is shown, not a pass. */
gboolean cav_canvas_is_drawable (CavSectionCanvas *self);
CavPoint cav_canvas_to_wood (CavSectionCanvas *self, CavPoint pixel);
/* Tolerance of snapping, mm; 0 while Alt is held or snapping is turned off. */
double cav_canvas_get_snap (CavSectionCanvas *self);
void cav_canvas_set_figure (CavSectionCanvas *self, gboolean is_refused, char *figure);

/* cav-canvas-picture.c */
void cav_canvas_forget_pictures (CavSectionCanvas *self);
void cav_canvas_queue_base (CavSectionCanvas *self);
/* A part of the section has changed, in the blank's coordinates, and what lies within reach of it,
 * pixels. */
void cav_canvas_queue_box (CavSectionCanvas *self, CavBox box, double reach);
void cav_canvas_snapshot (CavSectionCanvas *self, GtkSnapshot *snapshot);

/* cav-canvas-derived.c */
void cav_canvas_update_shapes (CavSectionCanvas *self);
void cav_canvas_update_plan (CavSectionCanvas *self);
const GArray *cav_canvas_get_handles (CavSectionCanvas *self);

/* cav-canvas-view.c */
void cav_canvas_fit (CavSectionCanvas *self);
void cav_canvas_zoom (CavSectionCanvas *self, double factor, CavPoint pixel);
void cav_canvas_zoom_middle (CavSectionCanvas *self, double factor);
void cav_canvas_pan (CavSectionCanvas *self, double dx, double dy);
void cav_canvas_add_view_controllers (CavSectionCanvas *self);

/* cav-canvas-pointer.c */
void cav_canvas_add_pointer_controllers (CavSectionCanvas *self);
void cav_canvas_update_hover (CavSectionCanvas *self);

/* cav-canvas-deed.c */
void cav_deed_press (CavSectionCanvas *self, CavPoint pixel, gboolean shift);
void cav_deed_drag (CavSectionCanvas *self, CavPoint pixel);
void cav_deed_release (CavSectionCanvas *self, CavPoint pixel);
/* Draws a cut of the chosen kind, not a drawn one, without a stroke: at the pointer, or where there
 * is a free place. */
void cav_deed_draw_at_once (CavSectionCanvas *self);
/* Keeps what has been done so far. */
void cav_deed_finish (CavSectionCanvas *self);
void cav_deed_abandon (CavSectionCanvas *self);
void cav_deed_clear (CavSectionCanvas *self);
/* Moves all chosen cuts, or the focused handle, by so much. One step. */
void cav_deed_nudge (CavSectionCanvas *self, double dx, double dy);

/* cav-canvas-path.c */
void cav_path_tool_press (CavSectionCanvas *self, CavPoint pixel);
void cav_path_tool_drag (CavSectionCanvas *self, CavPoint pixel);
void cav_path_tool_release (CavSectionCanvas *self, CavPoint pixel);
void cav_path_tool_hover (CavSectionCanvas *self, CavPoint pixel);
gboolean cav_path_tool_step_back (CavSectionCanvas *self);
void cav_path_tool_finish (CavSectionCanvas *self);
void cav_path_tool_abandon (CavSectionCanvas *self);
gboolean cav_path_tool_closes (CavSectionCanvas *self);
/* Edits of the path of the one chosen cut, at the focused or hovered handle or at the pointer. */
/* Whether a piece, and whether a point, of the drawn cut that is chosen is under the pointer or at
 * the keyboard: what can be done there. */
gboolean cav_path_tool_finds_segment (CavSectionCanvas *self);
gboolean cav_path_tool_finds_point (CavSectionCanvas *self);
gboolean cav_path_tool_insert_point (CavSectionCanvas *self);
gboolean cav_path_tool_remove_point (CavSectionCanvas *self);
gboolean cav_path_tool_toggle_arc (CavSectionCanvas *self);

/* cav-canvas-keys.c */
void cav_canvas_add_key_controllers (CavSectionCanvas *self);

/* cav-canvas-actions.c */
void cav_canvas_class_add_actions (GtkWidgetClass *klass);
void cav_canvas_update_actions (CavSectionCanvas *self);

/* cav-canvas-menu.c */
void cav_canvas_open_menu (CavSectionCanvas *self, CavPoint pixel);

/* cav-canvas-clipboard.c */
void cav_canvas_copy (CavSectionCanvas *self);
void cav_canvas_paste (CavSectionCanvas *self);

/* cav-canvas-entry.c */
gboolean cav_canvas_is_typing (CavSectionCanvas *self);
/* text is what was typed so far; FALSE where no number can be typed now. */
gboolean cav_canvas_open_entry (CavSectionCanvas *self, const char *text);
void cav_canvas_close_entry (CavSectionCanvas *self);
void cav_canvas_enter_typed (CavSectionCanvas *self);
void cav_canvas_place_entry (CavSectionCanvas *self);

/* cav-canvas-words.c */
void cav_canvas_update_words (CavSectionCanvas *self);
/* (transfer full) "Cove at the inside of the face, 9.5 wide, 9.5 deep". */
char *cav_canvas_describe_cut (const CavCut *cut) G_GNUC_WARN_UNUSED_RESULT;
/* (transfer full) The numbers of a cut for the plate at the pointer. */
char *cav_canvas_figure_cut (const CavCut *cut) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
