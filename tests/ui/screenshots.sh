#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# Usage: sh tests/ui/screenshots.sh BUILD FOLDER
# Pictures of the window in every state, at one and at two pixels a unit, to be looked at.
set -eu
top=$(cd "$(dirname "$0")/../.." && pwd)
build=$(cd "$1" && pwd)
mkdir -p "$2"
folder=$(cd "$2" && pwd)
ninja -C "$build" tests/ui/ui-screenshots ui/gschemas.compiled >/dev/null
export GSK_RENDERER=cairo GDK_DEBUG=gl-disable,default-settings GDK_BACKEND=x11
export GSETTINGS_BACKEND=memory GSETTINGS_SCHEMA_DIR="$build/ui" LC_ALL=C.UTF-8 GTK_A11Y=test
export CAV_EXAMPLES="$top/docs/examples"
SCREEN=2600x1500 sh "$top/tests/ui/in-window.sh" "$build/tests/ui/ui-screenshots" "$folder"
[ "${ONCE:-}" ] || GDK_SCALE=2 SCREEN=5200x3000 sh "$top/tests/ui/in-window.sh" \
  "$build/tests/ui/ui-screenshots" "$folder" 2x-
