#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# Usage: sh tests/ui/pictures.sh BUILD
# Makes the pictures of README.md anew, in docs/pictures: the window with a cut chosen, the frame as
# it would hang, a page of a pass sheet. Needs pdftoppm (poppler-utils) and convert (imagemagick).
set -eu
top=$(cd "$(dirname "$0")/../.." && pwd)
build=$(cd "$1" && pwd)
out=$top/docs/pictures
scratch=$(mktemp -d)
trap 'rm -rf "$scratch"' EXIT
mkdir -p "$out"
demo=$top/docs/examples/cove-and-bead.cavetto
cavetto=$build/src/app/cavetto
ninja -C "$build" src/app/cavetto >/dev/null
ONCE=1 sh "$top/tests/ui/screenshots.sh" "$build" "$scratch" >/dev/null 2>&1
"$cavetto" preview "$demo" -o "$scratch/frame.png"
"$cavetto" passes "$top/docs/examples/wide-scoop.cavetto" -o "$scratch/passes.pdf"
pdftoppm -r 80 -f 2 -l 2 -png "$scratch/passes.pdf" "$scratch/passes"
# Few colours are enough for drawings and keep the files small.
for picture in molding:cut-chosen.png frame:frame.png passes:passes-2.png; do
  /usr/bin/convert "$scratch/${picture#*:}" -strip -resize '1000x1000>' -colors 128 \
    "PNG8:$out/${picture%%:*}.png"
done
ls -l "$out"
