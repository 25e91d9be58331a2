#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# Usage: sh tests/ui/pictures.sh BUILD
# Makes the pictures of README.md (docs/pictures) and of the user guide (docs/guide/pictures) anew.
# Needs pdftoppm (poppler-utils) and convert (imagemagick).
set -eu
top=$(cd "$(dirname "$0")/../.." && pwd)
build=$(cd "$1" && pwd)
scratch=$(mktemp -d)
trap 'rm -rf "$scratch"' EXIT
demos=$top/docs/examples
cavetto=$build/src/app/cavetto
guide=$top/docs/guide/pictures
mkdir -p "$top/docs/pictures" "$guide"
ninja -C "$build" src/app/cavetto tests/ui/guide-pictures ui/gschemas.compiled >/dev/null
# So that sheets do not change with the day.
SOURCE_DATE_EPOCH=1795651200
export SOURCE_DATE_EPOCH

# keep FROM TO [CONVERT-OPTION...]: few colours are enough for drawings and keep the files small.
keep () {
  from=$1
  to=$2
  shift 2
  /usr/bin/convert "$from" -strip "$@" -colors 128 "PNG8:$to"
}

# The window.
(
  export GSK_RENDERER=cairo GDK_DEBUG=gl-disable,default-settings GDK_BACKEND=x11 GTK_A11Y=test
  export GSETTINGS_BACKEND=memory GSETTINGS_SCHEMA_DIR="$build/ui" LC_ALL=C.UTF-8
  export CAV_EXAMPLES="$demos"
  sh "$top/tests/ui/in-window.sh" "$build/tests/ui/guide-pictures" "$scratch" >/dev/null 2>&1
)
for picture in "$scratch"/window-*.png; do
  keep "$picture" "$guide/$(basename "$picture")" -resize '1000x1000>'
done

# The cuts, each alone on a blank, as the section drawing has them: within the frame of the sheet,
# above the title block.
draw_cut () {
  cat >"$scratch/$1.cavetto" <<END
<cavetto version="1" unit="mm">
  <blank width="44" thickness="24"/>
  <rails count="4" length="2000"/>
  <cuts>$2</cuts>
</cavetto>
END
  "$cavetto" drawing "$scratch/$1.cavetto" --section -o "$scratch/$1.png"
  keep "$scratch/$1.png" "$guide/$1.png" -crop 2000x1100+220+110 +repage -trim \
    -bordercolor white -border 10 -resize 50%
}
draw_cut cut-rabbet '<rabbet corner="back-inside" width="6" depth="10"/>'
draw_cut cut-steps '<steps corner="face-inside" count="3" run="6" rise="3"/>'
draw_cut cut-groove '<groove side="face" position="14" width="6" depth="4"/>
  <groove side="face" position="30" width="6" depth="4" form="round"/>'
draw_cut cut-cove '<cove corner="face-inside" width="14" depth="12"/>
  <cove side="face" position="31" width="16" depth="5"/>'
draw_cut cut-round '<round corner="face-outside" width="9.5" depth="9.5"/>'
draw_cut cut-chamfer '<chamfer corner="face-outside" width="8" depth="6"/>'
draw_cut cut-bevel '<bevel side="face" start-height="9" end-height="1"/>'
draw_cut cut-bead '<bead side="face" position="12" width="9.6" quirk-width="2.4" quirk-depth="4.8"/>
  <bead corner="face-outside" width="9.6" quirk-width="2.4" quirk-depth="4.8"/>'
draw_cut cut-ogee '<ogee corner="face-inside" width="18" depth="12"/>
  <ogee corner="face-outside" width="18" depth="12" form="reversa"/>'
draw_cut cut-drawn '<drawn><start x="0" y="24"/><line x="0" y="15"/>
  <arc x="12" y="15" centre-x="6" centre-y="15" rx="6" ry="6" rotation="0" start="180" sweep="180"/>
  <line x="20" y="24"/><line x="0" y="24"/></drawn>'

# The machines, each on a card of a pass sheet. $1 the picture, $2 the project, $3 words on the card;
# the first page is none.
draw_card () {
  "$cavetto" passes "$2" --layout cards -o "$scratch/cards.pdf"
  page=2
  until pdftotext -f $page -l $page "$scratch/cards.pdf" - | grep -q "$3"; do
    page=$((page + 1))
  done
  pdftoppm -scale-to 800 -f $page -l $page -png -singlefile "$scratch/cards.pdf" "$scratch/card"
  keep "$scratch/card.png" "$guide/$1.png" -bordercolor '#888888' -border 1
}
draw_card machine-saw "$demos/wide-scoop.cavetto" "Blade upright"
draw_card machine-coving "$demos/wide-scoop.cavetto" "Fence at"
draw_card machine-router "$demos/wide-scoop.cavetto" "Router table"
draw_card machine-tilt "$scratch/cut-bevel.cavetto" "Tilt"

# The sheets.
"$cavetto" sheets "$demos/cove-and-bead.cavetto" -o "$scratch/sheets"
for sheet in "$scratch"/sheets/*.pdf; do
  name=$(basename "$sheet" .pdf)
  # The first page of the pass sheet tells of the tools, the second shows passes.
  case $name in
    pass-sheet) page=2 ;;
    *) page=1 ;;
  esac
  pdftoppm -scale-to 800 -f $page -l $page -png -singlefile "$sheet" "$scratch/$name"
  keep "$scratch/$name.png" "$guide/sheet-$name.png" -bordercolor '#888888' -border 1
done

# README.md.
cp "$guide/window-molding.png" "$top/docs/pictures/molding.png"
"$cavetto" preview "$demos/cove-and-bead.cavetto" -o "$scratch/frame.png"
keep "$scratch/frame.png" "$top/docs/pictures/frame.png" -resize '1000x1000>'
"$cavetto" passes "$demos/wide-scoop.cavetto" -o "$scratch/passes.pdf"
pdftoppm -r 80 -f 2 -l 2 -png -singlefile "$scratch/passes.pdf" "$scratch/passes"
keep "$scratch/passes.png" "$top/docs/pictures/passes.png" -resize '1000x1000>'
ls -l "$top/docs/pictures" "$guide"
