#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# Usage: sh tests/fuzz/run.sh SECONDS [TARGET...]
# Builds the fuzz targets with clang, libFuzzer and the address and undefined-behaviour sanitizers
# into build-fuzz/, and lets each run for that long on one core. What crashes stays there as a file
# crash-...; the corpus that grows stays there too. Ends with a line for each target.
set -eu

PATH=${PATH:-/usr/local/sbin:/usr/local/bin:/usr/sbin:/usr/bin:/sbin:/bin}
export PATH
top=$(cd "$(dirname "$0")/../.." && pwd)
. "$top/src/install.sh"

seconds=${1:-}
case $seconds in
  '' | *[!0-9]*)
    echo "Usage: sh tests/fuzz/run.sh SECONDS [TARGET...]" >&2
    exit 2
    ;;
esac
shift
[ $# -gt 0 ] || set -- clipboard length path outline shop project structured trace

install_build_tools
# shellcheck disable=SC2046
install_packages $(missing_commands clang:clang llvm-symbolizer:llvm
  find /usr/lib -name 'libclang_rt.fuzzer*' 2>/dev/null | grep -q . || printf 'libclang-rt-14-dev ')

build=$top/build-fuzz
CC=clang
export CC
build_in "$build" -Dc_args=-fsanitize=fuzzer-no-link -Db_sanitize=address,undefined -Db_lundef=false

# Lists are cut off by the engine's own limits of memory; slabs would hide leaks.
G_SLICE=always-malloc
G_DEBUG=fatal-warnings
UBSAN_OPTIONS=halt_on_error=1:print_stacktrace=1
LSAN_OPTIONS=suppressions=$top/tests/lsan.supp:print_suppressions=0
export G_SLICE G_DEBUG UBSAN_OPTIONS LSAN_OPTIONS

status=0
cd "$build"
for target in "$@"; do
  seeds=$top/tests/fuzz/corpus/$target
  dictionary=$top/tests/fuzz/$target.dict
  grown=$build/grown/$target
  mkdir -p "$grown"
  set -- "$grown"
  [ ! -d "$seeds" ] || set -- "$@" "$seeds"
  case $target in
    clipboard) set -- -dict="$top/tests/fuzz/project.dict" "$@" ;;
    project | shop) set -- "$@" "$top/docs/examples" "$top/tests/data/bad" ;;
    outline) set -- "$@" "$top/tests/data/bad" ;;
  esac
  [ ! -f "$dictionary" ] || set -- -dict="$dictionary" "$@"
  if ! "$build/tests/fuzz/fuzz-$target" -max_total_time="$seconds" -max_len=20000 -timeout=20 \
    -rss_limit_mb=2048 -print_final_stats=1 "$@" </dev/null >"$build/fuzz-$target.txt" 2>&1; then
    status=1
    tail -40 "$build/fuzz-$target.txt"
  fi
  runs=$(sed -n 's/^stat::number_of_executed_units: *//p' "$build/fuzz-$target.txt")
  peak=$(sed -n 's/^stat::peak_rss_mb: *//p' "$build/fuzz-$target.txt")
  echo "$target: ${runs:-?} runs in $seconds s, at most ${peak:-?} MB"
done
exit $status
