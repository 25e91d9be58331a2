#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# Usage: guide.sh CMARK STYLE FOLDER PAGE.md...
# Makes a page of HTML in FOLDER from each page of the user guide, with links from one to the next in
# the order given; the first is the one with the contents. CMARK is cmark-gfm, STYLE a style sheet
# that goes into each page, so that a page needs nothing but its pictures.
set -eu
cmark=$1
style=$2
folder=$3
shift 3

name_of () {
  basename "$1" .md
}

title_of () {
  sed -n 's/^# //p' "$1" | head -n 1
}

link_to () {
  printf '<a href="%s.html">%s</a>' "$(name_of "$1")" "$2"
}

# $1 the first page, $2 the page before, $3 this one, $4 the one after; any of them may be empty.
make_page () {
  title=$(title_of "$3")
  cat <<END
<!DOCTYPE html>
<!-- SPDX-License-Identifier: GPL-3.0-or-later -->
<html lang="en">
<head>
<meta charset="UTF-8">
<meta name="viewport" content="width=device-width">
<title>$title – Cavetto</title>
<style>
$(cat "$style")
</style>
</head>
<body>
END
  links="<nav aria-label=\"Pages of the guide\">"
  [ -z "$2" ] || links="$links$(link_to "$2" "← $(title_of "$2")")"
  [ "$1" = "$3" ] || [ "$1" = "$2" ] || links="$links $(link_to "$1" "Contents")"
  [ -z "$4" ] || links="$links $(link_to "$4" "$(title_of "$4") →")"
  links="$links</nav>"
  echo "$links"
  echo '<main>'
  # Pages link to one another as Markdown, for whoever reads them where the source is shown.
  "$cmark" --unsafe -e table "$3" | sed 's/\(href="[a-z-]*\)\.md\([#"]\)/\1.html\2/g'
  echo '</main>'
  echo "$links"
  echo '</body>'
  echo '</html>'
}

first=$1
before=
while [ $# -gt 0 ]; do
  make_page "$first" "$before" "$1" "${2:-}" >"$folder/$(name_of "$1").html"
  before=$1
  shift
done
