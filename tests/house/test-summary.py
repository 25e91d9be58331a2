#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Tests on how a run is counted: a failure that goes unseen would be worse than none found."""
import json
import os
import subprocess
import sys
import tempfile

TOP = sys.argv[1]
sys.dont_write_bytecode = True
sys.path.insert(0, os.path.join(TOP, "tests", "support"))
import tap  # noqa: E402


def summarise(entries, status="0"):
    """Last line and exit status for a log of those (result, stdout)."""
    with tempfile.TemporaryDirectory() as folder:
        log = os.path.join(folder, "testlog.json")
        with open(log, "w", encoding="utf-8") as file:
            for result, stdout in entries:
                file.write(json.dumps({"name": "x", "result": result, "stdout": stdout}) + "\n")
        done = subprocess.run(
            [sys.executable, os.path.join(TOP, "tests", "summary.py"), log, status],
            capture_output=True, text=True, check=False)
    return done.stdout.splitlines()[-1], done.returncode


@tap.test("/house/summary/counts-subtests")
def test_counts():
    tap.equal(summarise([("OK", "1..2\nok 1 /a\nok 2 /b # SKIP no display\n"),
                         ("OK", "ok 1 /c\n")]),
              ("2 passed, 0 failed, 1 skipped", 0))


@tap.test("/house/summary/counts-failures")
def test_failures():
    tap.equal(summarise([("FAIL", "ok 1 /a\nnot ok 2 /b\n")], "1"),
              ("1 passed, 1 failed, 0 skipped", 1))


@tap.test("/house/summary/crash-is-a-failure")
def test_crash():
    tap.equal(summarise([("ERROR", "ok 1 /a\nBail out! ERROR:x.c:1\n")], "1"),
              ("1 passed, 1 failed, 0 skipped", 1))
    tap.equal(summarise([("TIMEOUT", "ok 1 /a\n")], "1"), ("1 passed, 1 failed, 0 skipped", 1))


@tap.test("/house/summary/status-is-believed")
def test_status():
    tap.equal(summarise([("OK", "ok 1 /a\n")], "3"), ("1 passed, 1 failed, 0 skipped", 1))


@tap.test("/house/summary/no-test-is-a-failure")
def test_nothing():
    tap.equal(summarise([]), ("0 passed, 0 failed, 0 skipped", 1))


@tap.test("/house/summary/words-are-no-results")
def test_words():
    tap.equal(summarise([("OK", "ok, here we go\n# not ok 1\nok 1 /a\n")]),
              ("1 passed, 0 failed, 0 skipped", 0))


sys.exit(tap.run())
