#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# Usage: sh src/run.sh [PROJECT]
# Installs what is missing, builds into build/, and opens PROJECT (a demo project where none is
# given) in the window. Where there is no display it does the main job: prints the passes and writes
# pass sheet, plan file and section drawing.
set -eu

PATH=${PATH:-/usr/local/sbin:/usr/local/bin:/usr/sbin:/usr/bin:/sbin:/bin}
export PATH
top=$(cd "$(dirname "$0")/.." && pwd)
. "$top/src/install.sh"

case ${1:-} in
  -h | --help)
    echo "Usage: sh src/run.sh [PROJECT]"
    exit 0
    ;;
esac
project=${1:-$top/docs/examples/cove-and-bead.cavetto}
if [ ! -f "$project" ]; then
  echo "run.sh: there is no project file $project; give the name of a .cavetto file" >&2
  exit 2
fi

install_build_tools
# In a shell of its own: it builds in the C locale, the window comes in the language of the user.
(build_in "$top/build")
export CAVETTO_LOCALE_DIR="$top/build/po"

cavetto=$top/build/src/app/cavetto
if [ -n "${WAYLAND_DISPLAY:-}${DISPLAY:-}" ]; then
  exec "$cavetto" "$project"
fi
name=$(basename "$project")
out=$top/build/out
stem=$out/${name%.*}
mkdir -p "$out"

"$cavetto" passes "$project" -o "$stem-passes.txt"
cat "$stem-passes.txt"
"$cavetto" passes "$project" -o "$stem-passes.pdf"
"$cavetto" passes "$project" -o "$stem-plan.xml"
"$cavetto" drawing "$project" --section -o "$stem-section.svg"

cat <<END

Written:
  pass sheet       $stem-passes.pdf
  the table above  $stem-passes.txt
  plan file        $stem-plan.xml
  section          $stem-section.svg
The program itself is $cavetto
END
