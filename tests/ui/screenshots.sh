#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# Usage: sh tests/ui/screenshots.sh BUILD FOLDER [LOCALE [frame|lumber|windows|pages]]
# Pictures of the windows in every state, at one and at two pixels a unit, to be looked at. LOCALE, as
# in de_DE, takes them in its language; the locale is made here ("" is English). The last word takes
# some of them. It fails where a text of a widget is cut off, and names it. ONCE=1 leaves out those
# at two pixels; LETTERS=200 has letters twice as large.
set -eu
top=$(cd "$(dirname "$0")/../.." && pwd)
build=$(cd "$1" && pwd)
mkdir -p "$2"
folder=$(cd "$2" && pwd)
ninja -C "$build" tests/ui/ui-screenshots ui/gschemas.compiled >/dev/null
export GSK_RENDERER=cairo GDK_DEBUG=gl-disable,default-settings GDK_BACKEND=x11
export GSETTINGS_BACKEND=memory GSETTINGS_SCHEMA_DIR="$build/ui" LC_ALL=C.UTF-8 GTK_A11Y=test
if [ -n "${3:-}" ]; then
  case $3 in
    en_*) ;; # what the texts are in
    *) ninja -C "$build" "po/${3%%_*}/LC_MESSAGES/cavetto.mo" >/dev/null ;;
  esac
  locales=$(mktemp -d)
  trap 'rm -rf "$locales"' EXIT
  localedef -i "$3" -f UTF-8 "$locales/$3.UTF-8"
  export LOCPATH="$locales" LC_ALL="$3.UTF-8" LANGUAGE= CAVETTO_LOCALE_DIR="$build/po"
fi
export CAV_EXAMPLES="$top/docs/examples"
SCREEN=2600x1500 sh "$top/tests/ui/in-window.sh" "$build/tests/ui/ui-screenshots" "$folder" \
  "${PREFIX:-}" ${4:-}
[ "${ONCE:-}" ] || GDK_SCALE=2 SCREEN=5200x3000 sh "$top/tests/ui/in-window.sh" \
  "$build/tests/ui/ui-screenshots" "$folder" 2x- ${4:-}
