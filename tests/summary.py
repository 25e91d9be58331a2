#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Counts the subtests of a test run: summary.py TESTLOG.json STATUS

TESTLOG.json is meson's log, one test program a line; STATUS is what `meson test` returned. The last
line printed is "N passed, N failed, N skipped". Exit status 1 where anything failed, where nothing
passed, or where STATUS says so.
"""
import json
import re
import sys

RESULT = re.compile(r"^\s*(not )?ok \d+\b(.*)$")
DIRECTIVE = re.compile(r"#\s*(SKIP|TODO)\b", re.IGNORECASE)


def count_lines(text):
    """The results of the TAP lines in text: passed, failed, skipped."""
    passed = failed = skipped = 0
    for line in text.splitlines():
        match = RESULT.match(line)
        if not match:
            continue
        directive = DIRECTIVE.search(match.group(2))
        if directive:
            skipped += 1
        elif match.group(1):
            failed += 1
        else:
            passed += 1
    return passed, failed, skipped


def count_program(entry):
    """The results of one test program; one that breaks off or is stopped has failed."""
    passed, failed, skipped = count_lines(entry.get("stdout") or "")
    result = entry["result"]
    if result == "SKIP" and not (passed or failed or skipped):
        return 0, 0, 1
    if result not in ("OK", "SKIP", "EXPECTEDFAIL") and not failed:
        failed += 1
    return passed, failed, skipped


def main(log, status):
    totals = [0, 0, 0]
    try:
        with open(log, encoding="utf-8") as lines:
            entries = [json.loads(line) for line in lines if line.strip()]
    except OSError:
        entries = []
    for entry in entries:
        counts = count_program(entry)
        if counts[1]:
            print(f"failed: {entry['name']}")
        totals = [a + b for a, b in zip(totals, counts)]
    if status != "0" and not totals[1]:
        totals[1] = 1
    print(f"{totals[0]} passed, {totals[1]} failed, {totals[2]} skipped")
    return 1 if totals[1] or not totals[0] else 0


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
