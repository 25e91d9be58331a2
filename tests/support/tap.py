# SPDX-License-Identifier: GPL-3.0-or-later
"""Tests in Python that meson can read: functions in a list, one TAP line each."""
import sys
import traceback

TESTS = []


def test(path):
    """Registers the function below as the test of that path."""
    def register(function):
        TESTS.append((path, function))
        return function
    return register


def equal(got, expected, what=""):
    if got != expected:
        raise AssertionError(f"{what} got {got!r}, expected {expected!r}")


def true(condition, what):
    if not condition:
        raise AssertionError(what)


def contains(text, part, what=""):
    if part not in text:
        raise AssertionError(f"{what} no {part!r} in {text!r}")


def run():
    """Runs all tests in order and returns the exit status."""
    failed = 0
    print("TAP version 13")
    print(f"1..{len(TESTS)}")
    for number, (path, function) in enumerate(TESTS, 1):
        try:
            function()
        except Exception:  # a test that breaks has failed; the others still run
            failed += 1
            # Where the protocol is read, its comments are not shown: what went wrong has to be.
            print(f"{path}: {traceback.format_exc()}", file=sys.stderr, flush=True)
            print(f"not ok {number} {path}", flush=True)
        else:
            print(f"ok {number} {path}", flush=True)
    return 1 if failed else 0
