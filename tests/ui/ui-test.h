/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "app/cav-application.h"
#include "app/cav-document.h"

G_BEGIN_DECLS

/* What every test in a window begins with: GTK, libadwaita, our resources, and an application of
 * no fame. Call it in place of g_test_init (). */
void ui_test_init (int *argc, char ***argv);
/* (transfer none) */
GtkApplication *ui_test_get_application (void);

/* A document with one of the examples in it: "plain-steps.cavetto". */
CavDocument *ui_test_open_example (const char *name) G_GNUC_WARN_UNUSED_RESULT;

/* Lets the main loop run until all that waits has been done. */
void ui_test_settle (void);

/* Shows widget in a window until it has been drawn. (transfer none) Destroy the window after. */
GtkWindow *ui_test_show (GtkWidget *widget, int width, int height);

/* (transfer none) The controller of that type at the widget; fails where there is none. */
GtkEventController *ui_test_get_controller (GtkWidget *widget, GType type);
/* (transfer none) (nullable) The first widget of that type in root, or root itself. */
GtkWidget *ui_test_find (GtkWidget *root, GType type);

/* Drops a reference and waits until the object is gone, as a worker may hold one for as long as it
 * takes to notice that nobody waits for it. Fails when something keeps it. */
#define ui_test_finalize(object) ui_test_finalize_ (G_OBJECT (object), G_STRLOC)
void ui_test_finalize_ (GObject *object, const char *place);

/* (transfer full) What labels below root say that does not fit into their places. */
GPtrArray *ui_test_find_cut_words (GtkWidget *root) G_GNUC_WARN_UNUSED_RESULT;
/* Saves what the widget's window shows as a PNG picture. */
void ui_test_take_picture (GtkWidget *widget, const char *file_name);

/* When what is waited for is given up, on the clock of g_get_monotonic_time (): after forty
 * seconds, which is long for a machine that has much else to do, or after CAV_SECONDS. */
gint64 ui_test_get_deadline (void);

/* Lets the main loop run until the condition holds; fails at the deadline. */
#define ui_test_wait_for(condition)                                                                \
  G_STMT_START                                                                                     \
  {                                                                                                \
    gint64 end_ = ui_test_get_deadline ();                                                         \
    while (!(condition) && g_get_monotonic_time () < end_)                                         \
      if (!g_main_context_iteration (NULL, FALSE))                                                 \
        g_usleep (1000);                                                                           \
    g_assert_true (condition);                                                                     \
  }                                                                                                \
  G_STMT_END

G_END_DECLS
