#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# Usage: sh tests/milling/random-plans.sh BUILD [PLANS [SEED]]
# Plans random sections in random shops and holds the tests' own checker against every plan, in
# portions with seeds of their own, one for each processor at a time. 10,000 sound sections unless
# another count is given; that takes hours. Prints each portion, its seed and what broke a rule;
# exit status 0 where nothing did. One portion again: the program with --seed and CAV_RANDOM_PLANS
# as they are printed.
set -eu

build=$(cd "$1" && pwd)
wanted=${2:-10000}
seed=${3:-20261126}
portion=250
jobs=$(nproc)
program=$build/tests/milling/test-milling-plans-random
ninja -C "$build" tests/milling/test-milling-plans-random >/dev/null
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT

# run_portion NUMBER: a seed as the test framework writes it, from ours and the portion's number.
run_portion () {
  name=$(printf 'R02S%08x%08x%08x%08x' "$seed" "$1" 2654435769 $((seed ^ $1)))
  status=0
  CAV_RANDOM_PLANS=$portion "$program" --seed "$name" >"$folder/$1.txt" 2>&1 || status=$?
  sound=$(sed -n 's/^# \([0-9]*\) of [0-9]* sections were sound.*/\1/p' "$folder/$1.txt")
  echo "${sound:-0} $status" >"$folder/$1.count"
  echo "portion $1: seed $name, CAV_RANDOM_PLANS=$portion, ${sound:-0} planned, status $status"
  [ "$status" -eq 0 ] || grep -v '^ok' "$folder/$1.txt" | tail -n 40
}

sum_up () {
  cat "$folder"/*.count | awk '{ planned += $1; if ($2 != 0) bad++ }
    END { print planned + 0, bad + 0 }'
}

number=0
planned=0
bad=0
while [ "$planned" -lt "$wanted" ]; do
  running=
  while [ "$(echo "$running" | wc -w)" -lt "$jobs" ]; do
    number=$((number + 1))
    run_portion "$number" &
    running="$running $!"
  done
  # shellcheck disable=SC2086
  wait $running
  before=$planned
  read -r planned bad <<SUMS
$(sum_up)
SUMS
  if [ "$planned" -eq "$before" ]; then
    echo "nothing could be planned in these portions; seed $seed" >&2
    exit 1
  fi
done
echo "$planned random sections planned, seed $seed: $bad portions with a broken rule"
[ "$bad" -eq 0 ]
