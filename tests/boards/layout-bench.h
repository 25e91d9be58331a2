/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "boards/cav-board-layout.h"

G_BEGIN_DECLS

/* A pile and what is wanted from it. */
typedef struct
{
  CavLumber *lumber;
  GPtrArray *jobs; /* CavBoardJob */
} Bench;

/* Without trial cuts. */
Bench bench_new (void);
void bench_clear (Bench *bench);
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Bench, bench_clear)

/* (transfer none) Whose ends need no trimming. */
CavBoard *add_board (Bench *bench, double length, double width, double thickness, int number);
/* (transfer none) A rectangular frame from blanks of 40 x 20 mm. */
CavBoardJob *add_job (Bench *bench, double width, double height);
/* A layout that the checker is content with. */
CavBoardLayout *lay (const Bench *bench) G_GNUC_WARN_UNUSED_RESULT;

/* (nullable) */
const CavFinding *find_finding (const CavBoardLayout *layout, const char *code);
/* The words that a finding has for people; "" where there is no such finding. */
const char *get_message (const CavBoardLayout *layout, const char *code);

#define assert_finding(layout, code, words)                                                        \
  G_STMT_START                                                                                     \
  {                                                                                                \
    g_test_message ("%s", get_message (layout, code));                                             \
    g_assert_nonnull (find_finding (layout, code));                                                \
    g_assert_nonnull (strstr (get_message (layout, code), words));                                 \
  }                                                                                                \
  G_STMT_END

G_END_DECLS
