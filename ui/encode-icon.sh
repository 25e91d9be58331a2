#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# Usage: encode-icon.sh ENCODER ICON.svg SIZE OUTPUT
# Draws a symbolic icon at a size ahead of time, so that the window needs no reader of SVG.
set -eu
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
"$1" "$2" "$3x$3" -o "$folder"
mv "$folder"/*.symbolic.png "$4"
