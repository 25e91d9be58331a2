/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <glib-object.h>

#include "boards/cav-lumber.h"
#include "frame/cav-frame.h"
#include "milling/cav-planner.h"
#include "shop/cav-wood.h"

G_BEGIN_DECLS

/* Parts of a document, as "changed" names them. */
typedef enum
{
  CAV_PART_TEXTS = 1 << 0,
  CAV_PART_SECTION = 1 << 1, /* blank and cuts */
  CAV_PART_WOOD = 1 << 2,
  CAV_PART_RAILS = 1 << 3,
  CAV_PART_SHOP = 1 << 4,
  CAV_PART_FRAME = 1 << 5,
  CAV_PART_BOARDS = 1 << 6,
} CavProjectPart;
#define CAV_PART_ALL 0x7fu

/*
 * The document: blank, cuts, wood, rails, frame, lumber, the shop it is planned for, notes. Profile
 * and frame are worked out when they are asked for, and kept until something changes.
 *
 * Every edit is a step that can be undone; edits between begin and end are one. Emits
 *   "changed" (guint parts)  after every edit, also inside a step, with bits of CavProjectPart
 *   "history"                when what can be undone or redone, or whether there is something to
 *                            save, has changed
 *
 * What getters lend (cuts, texts, shop) is good until the next change.
 */
#define CAV_TYPE_PROJECT (cav_project_get_type ())
G_DECLARE_FINAL_TYPE (CavProject, cav_project, CAV, PROJECT, GObject)

CavProject *cav_project_new (void) G_GNUC_WARN_UNUSED_RESULT;
/* (transfer full) Another project with the same content and no history, to be read in another
 * thread; cheap, for the parts are shared. */
CavProject *cav_project_copy_snapshot (CavProject *self) G_GNUC_WARN_UNUSED_RESULT;
/* Becomes what other is: another document, saved, without a history. */
void cav_project_load (CavProject *self, CavProject *other);
/* The same as one step that can be undone. */
void cav_project_replace (CavProject *self, CavProject *other, const char *name);

/*
 * Steps. Begin and end nest; the outermost begin names the step ("move cove"). A step that changes
 * nothing leaves none. Abandon goes back to how things were at the begin that it answers. While a
 * step is open nothing is undone or redone.
 */
void cav_project_begin (CavProject *self, const char *name);
void cav_project_end (CavProject *self);
void cav_project_abandon (CavProject *self);
gboolean cav_project_is_in_step (CavProject *self);
/* FALSE where there was nothing to do. */
gboolean cav_project_undo (CavProject *self);
gboolean cav_project_redo (CavProject *self);
/* (nullable) The name of the step as it was given, in the user's language and fit to stand within
 * a sentence; NULL where there is none. */
const char *cav_project_get_undo_name (CavProject *self);
const char *cav_project_get_redo_name (CavProject *self);
/* Whether the content differs from what was saved or loaded last; a new project is not modified. */
gboolean cav_project_is_modified (CavProject *self);
void cav_project_mark_saved (CavProject *self);
/* For what was saved from a snapshot while editing went on: saved is that snapshot. */
void cav_project_mark_saved_as (CavProject *self, CavProject *saved);

const char *cav_project_get_title (CavProject *self);
void cav_project_set_title (CavProject *self, const char *title);
const char *cav_project_get_notes (CavProject *self);
void cav_project_set_notes (CavProject *self, const char *notes);
CavBlank cav_project_get_blank (CavProject *self);
void cav_project_set_blank (CavProject *self, CavBlank blank);
/* (nullable) NULL: no wood chosen yet. */
const CavWood *cav_project_get_wood (CavProject *self);
void cav_project_set_wood (CavProject *self, const CavWood *wood);
int cav_project_get_rails (CavProject *self);
double cav_project_get_length (CavProject *self);
/* Number of rails and their total length, mm. */
void cav_project_set_rails (CavProject *self, int rails, double length);
const CavShop *cav_project_get_shop (CavProject *self);
/* (transfer none) copied. */
void cav_project_set_shop (CavProject *self, const CavShop *shop);

/* Whether a frame was set; else the settings are usual ones, and number and length of the rails
 * stand in for it. */
gboolean cav_project_has_frame (CavProject *self);
const CavFrameSettings *cav_project_get_frame_settings (CavProject *self);
/* (transfer none) (nullable) copied; NULL: no frame. Only what cav_frame_settings_check() lets
 * pass. */
void cav_project_set_frame_settings (CavProject *self, const CavFrameSettings *settings);
const CavLumber *cav_project_get_lumber (CavProject *self);
/* (transfer none) copied. At least one frame, and boards and joined projects that
 * cav_board_explain() and cav_board_job_explain() are content with. */
void cav_project_set_lumber (CavProject *self, const CavLumber *lumber);

guint cav_project_get_cut_count (CavProject *self);
const CavCut *cav_project_get_cut (CavProject *self, guint index);
/* (transfer none) copied. */
void cav_project_add_cut (CavProject *self, const CavCut *cut);
/* index from 0 to the number of cuts. */
void cav_project_insert_cut (CavProject *self, guint index, const CavCut *cut);
void cav_project_set_cut (CavProject *self, guint index, const CavCut *cut);
void cav_project_remove_cut (CavProject *self, guint index);
/* (transfer none) All cuts, CavCut; not to be changed. */
const GPtrArray *cav_project_get_cuts (CavProject *self);
/* Many at once, as one step; arrays of CavCut are copied, indices may come in any order. */
void cav_project_add_cuts (CavProject *self, const GPtrArray *cuts);
void cav_project_set_cuts (CavProject *self, const guint *indices, const GPtrArray *cuts);
void cav_project_remove_cuts (CavProject *self, const guint *indices, guint n_indices);
/* All of them; what is no longer there goes. */
void cav_project_replace_cuts (CavProject *self, const GPtrArray *cuts);

/* (transfer none) evaluated when something changed. */
const CavProfile *cav_project_get_profile (CavProject *self);
/* (transfer none) What follows from the frame's settings, the profile and the wood; evaluated when
 * one of them changed. Also where no frame was set. */
const CavFrame *cav_project_get_frame (CavProject *self);
/* The rails that are milled, and their length together (mm): of the frames, where one was set and
 * is possible; else as cav_project_set_rails() has it. */
void cav_project_get_milled_rails (CavProject *self, int *out_rails, double *out_length);
/* What is to be planned; profile and shop are the project's, so that the request holds until it
 * changes. Error where the profile is not sound. */
gboolean cav_project_get_plan_request (CavProject *self,
                                       CavEffort effort,
                                       CavPlanRequest *out_request,
                                       GError **error);
/* (transfer full) plans; error also where the profile is not sound. */
CavPlan *
cav_project_plan (CavProject *self, CavEffort effort, GError **error) G_GNUC_WARN_UNUSED_RESULT;
/* (transfer full) all that is wrong or worth a look, also in frame and (nullable) plan. */
GPtrArray *cav_project_create_findings (CavProject *self,
                                        const CavPlan *plan) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
