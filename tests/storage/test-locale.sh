#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# Usage: test-locale.sh PROGRAM...
# Runs test programs where the decimal mark is a comma: in a German locale made for the occasion.
set -eu

folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
trap 'exit 1' HUP INT TERM

# Without localedef or the sources of the locale this fails, and so does the test.
localedef -i de_DE -f UTF-8 "$folder/de_DE.UTF-8"
# Messages of the C library stay English, for the tests compare them.
unset LANGUAGE LC_ALL
LOCPATH=$folder LANG=de_DE.UTF-8 LC_MESSAGES=C CAV_TEST_COMMA=1
export LOCPATH LANG LC_MESSAGES CAV_TEST_COMMA

[ $# -gt 0 ]
for program; do
  "$program" >"$folder/output" 2>&1 || {
    cat "$folder/output"
    echo "$program fails in a locale with a decimal comma"
    exit 1
  }
done
