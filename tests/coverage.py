#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Prints how many lines of each room the tests ran: coverage.py TOP BUILD"""
import collections
import json
import os
import subprocess
import sys


def main(top, build):
    output = os.path.join(build, "coverage.json")
    subprocess.run(
        ["gcovr", "--root", top, "--filter", os.path.join(top, "src") + os.sep,
         "--json-summary", output, build],
        check=True, stdin=subprocess.DEVNULL, stdout=subprocess.DEVNULL)
    with open(output, encoding="utf-8") as file:
        files = json.load(file)["files"]
    rooms = collections.defaultdict(lambda: [0, 0])
    for entry in files:
        room = entry["filename"].split("/")[1]
        rooms[room][0] += entry["line_covered"]
        rooms[room][1] += entry["line_total"]
    for room, (covered, total) in sorted(rooms.items()):
        print(f"{room:10} {100 * covered / max(total, 1):5.1f} % of {total} lines")


if __name__ == "__main__":
    main(*sys.argv[1:])
