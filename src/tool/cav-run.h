/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* Whether the command line asks for something that needs no window: a command, or an option. */
gboolean cav_tool_takes (int argc, char *argv[]);

/* Does what the command line says, without a display, and returns the program's exit status: 0
 * fine, 1 the molding cannot be made like this, 2 a file or the command line itself. What it does
 * not know it refuses with a sentence on the standard error stream. The locale is set before. */
int cav_tool_run (int argc, char *argv[]);

G_END_DECLS
