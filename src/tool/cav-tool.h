/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "drawing/cav-drawing.h"
#include "project/cav-length.h"
#include "project/cav-project.h"

G_BEGIN_DECLS

/* What the program tells the shell. */
typedef enum
{
  CAV_EXIT_FINE = 0,
  CAV_EXIT_WRONG = 1,  /* the molding cannot be made like this */
  CAV_EXIT_FAILED = 2, /* a file or the command line itself */
} CavExit;

/* The options that commands share, one bit each. */
typedef enum
{
  CAV_OPTION_OUTPUT = 1 << 0,
  CAV_OPTION_SHOP = 1 << 1,
  CAV_OPTION_UNIT = 1 << 2,
  CAV_OPTION_PAPER = 1 << 3,
  CAV_OPTION_BLANK = 1 << 4,
  CAV_OPTION_RAILS = 1 << 5,
  CAV_OPTION_LENGTH = 1 << 6,
  CAV_OPTION_SECTION = 1 << 7,
  CAV_OPTION_LAYOUT = 1 << 8,
  CAV_OPTION_SIZE = 1 << 9,
  CAV_OPTION_SIDE = 1 << 10,
} CavOption;

/* What stood on the command line, checked. */
typedef struct
{
  char *file;   /* the operand */
  char **more;  /* (nullable) what followed it, of a command that takes more */
  char *output; /* (nullable) "-" is standard output */
  char *shop;   /* (nullable) a shop file */
  CavUnit unit;
  CavPaper paper;
  CavSheetLayout layout;
  gboolean has_blank;
  CavBlank blank;
  int rails;         /* 4 where not given */
  double length;     /* mm, 3200 where not given */
  int pixels_across; /* 1600 × 1200 where not given */
  int pixels_down;
  int side; /* pixels, 256 where not given */
  gboolean section;
  gboolean help;
} CavArguments;

typedef struct
{
  const char *name;
  const char *operand;     /* for the usage line */
  const char *summary;     /* one line for the list of commands */
  const char *description; /* paragraphs for its own help */
  guint options;           /* CavOption bits that it knows */
  guint required;          /* those of them that must be given */
  gboolean takes_more;     /* more operands like the first */
  CavExit (*run) (const CavArguments *arguments, GError **error);
} CavCommand;

extern const CavCommand cav_command_drawing;
extern const CavCommand cav_command_import;
extern const CavCommand cav_command_list;
extern const CavCommand cav_command_look;
extern const CavCommand cav_command_passes;
extern const CavCommand cav_command_preview;
extern const CavCommand cav_command_sheets;
extern const CavCommand cav_command_template;
extern const CavCommand cav_command_thumbnail;

/* Bad usage; its code says nothing. */
#define CAV_TOOL_ERROR (cav_tool_error_quark ())
GQuark cav_tool_error_quark (void);

/* argv[0] is the command's name. */
gboolean cav_arguments_parse (CavArguments *arguments,
                              const CavCommand *command,
                              char **argv,
                              GError **error) G_GNUC_WARN_UNUSED_RESULT;
void cav_arguments_clear (CavArguments *arguments);
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (CavArguments, cav_arguments_clear)

/* (transfer full) Help texts, made from the same tables as the parsing. */
char *cav_command_create_help (const CavCommand *command) G_GNUC_WARN_UNUSED_RESULT;
char *cav_tool_create_help (const CavCommand *const *commands) G_GNUC_WARN_UNUSED_RESULT;

/* Which of endings (NULL-terminated, each with its dot) file has, or -1 with an error that lists
 * them. "-" has the first one. */
int cav_tool_find_ending (const char *file, const char *const *endings, GError **error);
/* The end of a command: writes what it made to --output. (nullable) bytes: NULL where it could not
 * be made; then the error is there already, and gets the name of the file. */
CavExit cav_tool_write (const CavArguments *arguments, GBytes *bytes, GError **error);
/* Opens the project of the command line, with the shop of --shop where that is given. */
CavProject *cav_tool_load_project (const CavArguments *arguments,
                                   GError **error) G_GNUC_WARN_UNUSED_RESULT;
/* The picture that the project points to: an image surface, or NULL where it points to none. Errors
 * say what is wrong with the file. */
gboolean cav_tool_load_picture (const CavArguments *arguments,
                                CavProject *project,
                                cairo_surface_t **out_picture,
                                GError **error) G_GNUC_WARN_UNUSED_RESULT;
/* How sheets are shown, as the command line asks for it. The date is this day, or that of
 * SOURCE_DATE_EPOCH where that is set, so that the same input gives the same bytes; it lives until
 * the program ends. */
CavSheetOptions cav_tool_get_sheet_options (const CavArguments *arguments);
/* Plans what is printed and milled; the error names the file. */
CavPlan *cav_tool_plan (const CavArguments *arguments,
                        CavProject *project,
                        GError **error) G_GNUC_WARN_UNUSED_RESULT;

/* The same for what can do without a plan: NULL where there is none. */
CavPlan *cav_tool_plan_if_possible (const CavArguments *arguments,
                                    CavProject *project) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
