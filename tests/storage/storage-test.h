/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "storage/cav-storage.h"

/* What the tests of this room share. The folders come from the build: CAV_TEST_DATA, CAV_DOCS. */

/* Takes the locale of the environment, and fails where the C library does not have it; with
 * CAV_TEST_COMMA set, also where its decimal mark is not a comma. Then g_test_init(). */
void storage_test_init (int *argc, char ***argv);

GBytes *storage_test_bytes (const char *text);
/* Asserts that bytes are valid by docs/schema. */
void storage_test_assert_valid (GBytes *bytes, const char *schema);
/* The same question without an assertion. */
gboolean storage_test_is_valid (GBytes *bytes, const char *schema);
/* Asserts that error is of this room, has that code, and is one line that contains part. */
void storage_test_assert_error (const GError *error, CavStorageError code, const char *part);
/* Asserts the same path, bit for bit. */
void storage_test_assert_same_path (const CavPath *a, const CavPath *b);
/* The same bits, the sign of zero included. */
gboolean storage_test_same_bits (double a, double b);
/* (transfer full) A new folder for one test, and what takes it away with all its files. */
char *storage_test_make_folder (void);
void storage_test_remove_folder (const char *folder);
