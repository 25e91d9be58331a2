#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# Usage: sh tests/run.sh [--coverage | --sanitize]
# Installs what the tests need, builds with warnings as errors, runs every test, and ends with
# "N passed, N failed, N skipped". Exit status 0 only where something passed and nothing failed.
set -eu

PATH=${PATH:-/usr/local/sbin:/usr/local/bin:/usr/sbin:/usr/bin:/sbin:/bin}
export PATH
top=$(cd "$(dirname "$0")/.." && pwd)
. "$top/src/install.sh"

build=$top/build-tests
coverage=
set_option=-Dwerror=true
case ${1:-} in
  '') ;;
  --coverage)
    build=$top/build-coverage
    coverage=yes
    # The planner's threads count the same lines.
    set_option="$set_option -Db_coverage=true -Dbuildtype=debug -Dc_args=-fprofile-update=atomic"
    ;;
  --sanitize)
    build=$top/build-sanitize
    set_option="$set_option -Db_sanitize=address,undefined -Db_lundef=false"
    ;;
  *)
    echo "Usage: sh tests/run.sh [--coverage | --sanitize]" >&2
    exit 2
    ;;
esac

install_build_tools
# shellcheck disable=SC2046
install_packages $(missing_commands python3:python3 xmllint:libxml2-utils pdftotext:poppler-utils \
  rsvg-convert:librsvg2-bin chromium:chromium xvfb-run:xvfb xauth:xauth dbus-run-session:dbus xdotool:xdotool \
  desktop-file-validate:desktop-file-utils appstreamcli:appstream mandoc:mandoc \
  localedef:libc-bin ${coverage:+gcovr:gcovr}
  [ -e /usr/libexec/at-spi-bus-launcher ] || printf 'at-spi2-core '
  /usr/bin/python3 -c 'import pyatspi' 2>/dev/null || printf 'python3-pyatspi gir1.2-atspi-2.0 '
  [ -e /usr/share/i18n/locales/de_DE ] || printf 'locales ')

# shellcheck disable=SC2086
build_in "$build" $set_option

status=0
# Time limits are for what hangs, not for a machine that has other work.
meson test -C "$build" --no-rebuild --print-errorlogs --timeout-multiplier 3 </dev/null >"$build/tests.txt" 2>&1 \
  || status=$?
python3 "$top/tests/summary.py" "$build/meson-logs/testlog.json" "$status" >"$build/summary.txt" \
  || failed=yes
[ -z "${failed:-}" ] || cat "$build/tests.txt"
[ -z "$coverage" ] || python3 "$top/tests/coverage.py" "$top" "$build"
cat "$build/summary.txt"
[ -z "${failed:-}" ]
