#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# Usage: with-locales.sh "LOCALE..." COMMAND [ARGUMENT...]
# Runs a command where these locales are there, in UTF-8, made for the occasion.
set -eu
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
for locale in $1; do
  localedef -i "$locale" -f UTF-8 "$folder/$locale.UTF-8"
done
shift
LOCPATH=$folder
export LOCPATH
"$@"
