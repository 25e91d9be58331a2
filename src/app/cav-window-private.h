/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "app/cav-window.h"

G_BEGIN_DECLS

struct _CavWindow
{
  AdwApplicationWindow parent_instance;

  /* Owned */
  CavDocument *document;
  GMenu *edit_section;   /* undo and redo, with what they would undo and redo */
  GMenu *recent_section; /* files */

  /* Template widgets */
  AdwToastOverlay *toasts;
  AdwViewStack *stack;
  AdwBin *narrow;
  AdwViewSwitcher *switcher;
  GtkInfoBar *file_bar;
  GtkLabel *file_bar_label;
  GtkLabel *name_label;
  GtkWidget *file_bar_keep;
  GtkWidget *file_bar_reload;
  GtkWidget *file_bar_save;
  GtkMenuButton *main_menu_button;
  GtkMenuButton *sheets_menu_button;
  GtkWidget *redo_button;
  GtkWidget *saving_spinner;
  GtkWidget *undo_button;
  GtkBox *content;
  AdwSqueezer *squeezer;
  GtkWidget *no_room;      /* what the header has where the names of the pages do not fit */
  AdwViewSwitcherBar *bar; /* that has them then; made when first used */
  GMenuModel *main_menu;
  GMenuModel *sheets_menu;

  /* State */
  gboolean close_when_saved;
  gboolean close_when_chosen; /* where to save */
  gboolean close_for_good;    /* asked and answered */
  gulong first_frame;         /* handler, until there was one */
  guint first_idle;           /* what is done after it */
  guint bar_idle;             /* that moves the names of the pages */
  int sheet_to_save;          /* while its file is asked for */
  guint play_source;
  int play_pass;    /* that the film is at */
  double play_time; /* since the pass began, seconds */
};

/* cav-window-actions.c */
void cav_window_class_install_actions (GtkWidgetClass *widget_class);
/* What can be done now; after every change of the document, the selection or the plan. */
void cav_window_update_actions (CavWindow *self);
/* What somebody is typing in a row counts as entered, before the document goes anywhere. */
void cav_window_enter_typed (CavWindow *self);

/* cav-window-files.c */
void cav_window_ask_to_open (CavWindow *self);
void cav_window_open_uri (CavWindow *self, const char *uri);
void cav_window_save (CavWindow *self);
void cav_window_ask_where_to_save (CavWindow *self);
void cav_window_load_again (CavWindow *self);
/* Asks what to do with unsaved work, then closes. */
void cav_window_ask_before_closing (CavWindow *self);
void cav_window_update_recent (CavWindow *self);

/* cav-window-sheets.c */
void cav_window_export_section (CavWindow *self, const char *ending);
void cav_window_import_outline (CavWindow *self, gboolean whole);
/* id is what the actions of a sheet have after "win.print-" and "win.save-". */
void cav_window_print_sheet (CavWindow *self, const char *id);
void cav_window_save_sheet (CavWindow *self, const char *id);
void cav_window_save_plan (CavWindow *self);
/* The pages as they will be printed. */
void cav_window_show_sheets (CavWindow *self);

/* cav-window-passes.c */
void cav_window_step_pass (CavWindow *self, int by);
void cav_window_toggle_play (CavWindow *self);
void cav_window_stop_play (CavWindow *self);

G_END_DECLS
