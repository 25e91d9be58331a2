#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Sheets for the shop from outside: test-sheets.py TOP CAVETTO"""
import csv
import io
import os
import re
import resource
import signal
import subprocess
import sys
import time

TOP = sys.argv[1]
sys.dont_write_bytecode = True
sys.path[:0] = [os.path.join(TOP, "tests", "support"), os.path.join(TOP, "tests", "tool")]
import tap  # noqa: E402
from outside import (  # noqa: E402
    RABBET, as_nobody, at, open_program, project, read, refuse, run, succeed, write)

SHEETS = ["cutting-list.csv", "cutting-list.pdf", "drawing.pdf", "job-sheet.pdf", "pass-sheet.pdf",
          "template.pdf", "template.svg"]
# Sheets carry the day.
os.environ["SOURCE_DATE_EPOCH"] = "1740787200"


def fern(title="Fern", cuts=RABBET):
    """A project that is planned in no time."""
    return write("fern.cavetto", project(cuts, title=title))


def get_pages(name):
    """Number of pages, and size of the first one in points."""
    info = subprocess.run(["pdfinfo", at(name)], capture_output=True, check=True).stdout.decode()
    size = re.search(r"Page size: +([0-9.]+) x ([0-9.]+)", info)
    return int(re.search(r"Pages: +(\d+)", info)[1]), float(size[1]), float(size[2])


@tap.test("/tool/sheets/one-file")
def test_one_file():
    succeed("sheets", fern(), "-o", at("all.pdf"))
    succeed("sheets", fern(), "-o", at("folder"))
    pages = sum(get_pages(os.path.join("folder", name))[0] for name in SHEETS
                if name.endswith(".pdf"))
    tap.equal(get_pages("all.pdf")[0], pages)
    # The same input gives the same bytes.
    succeed("sheets", fern(), "-o", at("again.pdf"))
    tap.true(read("all.pdf") == read("again.pdf"), "the files differ")
    tap.equal(succeed("sheets", fern(), "-o", "-"), read("all.pdf"))


@tap.test("/tool/sheets/plan-is-kept")
def test_kept_plan():
    """Searched once, then proved: the same bytes, and damage to what is kept changes nothing."""
    cache = os.path.join(os.environ["XDG_CACHE_HOME"], "cavetto", "plans")
    name = write("kept.cavetto", project(RABBET, blank='width="47" thickness="21"'))
    before = set(os.listdir(cache)) if os.path.isdir(cache) else set()
    succeed("sheets", name, "-o", at("first.pdf"))
    kept = set(os.listdir(cache)) - before
    tap.equal(len(kept), 1, "plans kept:")
    succeed("sheets", name, "-o", at("second.pdf"))
    tap.true(read("first.pdf") == read("second.pdf"), "the plan from the cache makes other sheets")
    path = os.path.join(cache, kept.pop())
    with open(path, "rb") as file:
        data = file.read()
    for bad in (b"", data[:-9], data.replace(b"rip", b"rap"), b"<plan/>"):
        with open(path, "wb") as file:
            file.write(bad)
        succeed("sheets", name, "-o", at("third.pdf"))
        tap.true(read("first.pdf") == read("third.pdf"), "damage in the cache makes other sheets")
    # Where nothing can be kept there are sheets all the same.
    succeed("sheets", name, "-o", at("fourth.pdf"), environment={"XDG_CACHE_HOME": "/dev/null"})
    tap.true(read("first.pdf") == read("fourth.pdf"), "without a cache there are other sheets")


@tap.test("/tool/sheets/folder")
def test_folder():
    succeed("sheets", fern(), "-o", at("new"))
    tap.equal(sorted(os.listdir(at("new"))), SHEETS)
    # Into a folder that is there, beside what is in it.
    write("new/other.txt", "stays")
    succeed("sheets", fern("Other"), "-o", at("new"))
    tap.equal(sorted(os.listdir(at("new"))), sorted(SHEETS + ["other.txt"]))
    tap.equal(read("new/other.txt"), b"stays")


@tap.test("/tool/sheets/nothing-half-written")
def test_interrupted():
    def limit():
        signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
        resource.setrlimit(resource.RLIMIT_FSIZE, (4096, 4096))

    # No file may grow beyond 4096 bytes: like a disk that is full after the first ones.
    refuse(["sheets", fern(), "-o", at("limited")], 2, "limited", preexec_fn=limit)
    tap.true(not os.path.exists(at("limited")), "a folder was left behind")
    os.mkdir(at("old"))
    write("old/pass-sheet.pdf", "old")
    refuse(["sheets", fern(), "-o", at("old")], 2, "old", preexec_fn=limit)
    tap.equal(os.listdir(at("old")), ["pass-sheet.pdf"])
    tap.equal(read("old/pass-sheet.pdf"), b"old")
    refuse(["sheets", fern(), "-o", at("limited.pdf")], 2, "limited.pdf", preexec_fn=limit)
    tap.true(not os.path.exists(at("limited.pdf")), "a file was left behind")


@tap.test("/tool/sheets/killed")
def test_killed():
    """Ended at any moment, it leaves each sheet as it was before or as it is afterwards."""
    def state():
        return {name: read(os.path.join("killed", name)) for name in SHEETS}
    succeed("sheets", fern("After"), "-o", at("killed"))
    after = state()
    succeed("sheets", fern("Before"), "-o", at("killed"))
    before = state()
    name = fern("After")
    start = time.monotonic()
    succeed("sheets", name, "-o", at("elsewhere"))
    whole = time.monotonic() - start
    kills = 0
    for i in range(12):
        process = subprocess.Popen([sys.argv[2], "sheets", name, "-o", at("killed")],
                                   stderr=subprocess.DEVNULL)
        try:
            process.wait(whole * (0.4 + 0.06 * i))
        except subprocess.TimeoutExpired:
            process.kill()
        kills += process.wait() == -signal.SIGKILL
        for sheet, data in state().items():
            tap.true(data in (before[sheet], after[sheet]), f"half of {sheet}")
    tap.true(kills > 0, "nothing was killed")


@tap.test("/tool/sheets/leftovers")
def test_leftovers():
    """What a killed run has left long ago goes with the next run, and nothing that is not its own."""
    def leave(folder, names, seconds):
        os.makedirs(at(folder))
        for name in names + [""]:
            path = os.path.join(folder, name)
            if name:
                write(path, "half")
            os.utime(at(path), (seconds, seconds))
    leave("left/.sheets-abcdef", ["pass-sheet.pdf", ".cavetto-ghijkl"], 1000)
    leave("left/.sheets-theirs", ["notes.txt"], 1000)
    leave("left/.sheets-now000", ["pass-sheet.pdf"], time.time())
    leave("left/.sheets-longer", [], 1000)
    os.rename(at("left/.sheets-longer"), at("left/.sheets-longer-name"))
    succeed("sheets", fern(), "-o", at("left"))
    tap.equal(sorted(set(os.listdir(at("left"))) - set(SHEETS)),
              [".sheets-longer-name", ".sheets-now000", ".sheets-theirs"])
    tap.equal(read("left/.sheets-theirs/notes.txt"), b"half")


@tap.test("/tool/sheets/no-permission")
def test_no_permission():
    os.mkdir(at("closed"), 0o555)
    who = {"program": open_program(), **as_nobody()}
    refuse(["sheets", fern(), "-o", at("closed")], 2, "closed", **who)
    refuse(["sheets", fern(), "-o", at("closed/inner")], 2, "inner", **who)
    tap.equal(os.listdir(at("closed")), [])
    refuse(["sheets", fern(), "-o", at("no/such/folder")], 2, "no/such/folder")
    refuse(["sheets", fern(), "-o", write("file.txt", "x")], 2, "file.txt")


@tap.test("/tool/sheets/full-disk")
def test_full_disk():
    os.symlink("/dev/full", at("full.pdf"))
    for command in ("sheets", "template", "list"):
        refuse([command, fern(), "-o", at("full.pdf")], 2, "full.pdf")


@tap.test("/tool/sheets/missing-fonts")
def test_no_fonts():
    """Where no font is installed there are no letters to draw: pages, or a sentence, no crash."""
    os.makedirs(at("fonts"), exist_ok=True)
    setting = write("fonts.conf", '<?xml version="1.0"?>\n<!DOCTYPE fontconfig SYSTEM "fonts.dtd">\n'
                    f'<fontconfig><dir>{at("fonts")}</dir><cachedir>{at("fonts")}</cachedir>'
                    '</fontconfig>\n')
    os.environ["FONTCONFIG_FILE"] = setting
    try:
        done = run("sheets", fern(), "-o", at("letterless.pdf"))
    finally:
        del os.environ["FONTCONFIG_FILE"]
    tap.true(done.returncode in (0, 1, 2), f"exit status {done.returncode}")
    if done.returncode == 0:
        tap.true(get_pages("letterless.pdf")[0] > 3, "too few pages")
    else:
        tap.contains(done.stderr.decode(), "font")
        tap.true(not os.path.exists(at("letterless.pdf")), "half a file")


@tap.test("/tool/sheets/what-cannot-be-milled")
def test_impossible():
    two = '<groove side="face" position="22" width="4" depth="22"/>\n'
    refuse(["sheets", fern(cuts=two), "-o", at("two.pdf")], 1)
    refuse(["template", fern(cuts=two), "-o", at("two.svg")], 1, "look")
    tap.true(not os.path.exists(at("two.pdf")), "a sheet of what cannot be milled")
    # A blank with nothing to cut away is a plan without a pass.
    succeed("sheets", fern(cuts=""), "-o", at("none.pdf"))
    text = subprocess.run(["pdftotext", at("none.pdf"), "-"], capture_output=True, check=True)
    tap.contains(text.stdout.decode(), "Nothing to mill")


@tap.test("/tool/sheets/titles")
def test_titles():
    for title in ("w" * 300, "\u05de\u05e1\u05d2\u05e8\u05ea &lt;&amp;"):
        succeed("sheets", fern(title), "-o", at("titles.pdf"))
        tap.true(get_pages("titles.pdf")[0] > 3, "too few pages")


@tap.test("/tool/passes/layouts")
def test_layouts():
    succeed("passes", fern(), "--layout", "strip", "-o", at("strip.pdf"))
    pages, width, height = get_pages("strip.pdf")
    tap.equal(pages, 1)
    tap.true(abs(width - 100 / 25.4 * 72) < 0.1, f"{width} points")
    tap.true(height > 2 * width, f"{height} points")
    succeed("passes", fern(), "--layout", "cards", "--paper", "letter", "-o", at("cards.pdf"))
    tap.equal(get_pages("cards.pdf")[1:], (792.0, 612.0))
    refuse(["passes", fern(), "--layout", "round", "-o", at("x.pdf")], 2, "strip", "cards", "round")


@tap.test("/tool/template/files")
def test_template():
    succeed("template", fern(), "-o", at("end.svg"))
    tap.contains(read("end.svg").decode(), 'id="left-hand-end"')
    succeed("template", fern(), "-o", at("end.pdf"))
    tap.equal(get_pages("end.pdf")[0], 1)
    refuse(["template", fern(), "-o", at("end.png")], 2, ".svg, .pdf")
    tap.true(not os.path.exists(at("end.png")), "a file that nobody asked for")


@tap.test("/tool/list/files")
def test_list():
    text = succeed("list", fern()).decode()
    tap.contains(text, "Rails")
    for unit, heading in (("mm", "length mm"), ("in", "length in")):
        succeed("list", fern(), "--unit", unit, "-o", at("list.csv"))
        data = read("list.csv").decode()
        rows = list(csv.reader(io.StringIO(data, newline=""), strict=True))
        tap.equal(rows[0][2], heading)
        tap.true(all(len(row) == len(rows[0]) for row in rows), f"{rows}")
        tap.equal(data.count("\r\n"), len(rows))
        rails = next(row for row in rows if row[1] == "Rails")
        tap.equal(rails[0], "4")
        length = float(rails[2]) * (25.4 if unit == "in" else 1)
        tap.true(abs(length - 370) < 0.01, f"{rails}")
    succeed("list", fern(), "-o", at("list.pdf"))
    tap.equal(get_pages("list.pdf")[0], 1)


@tap.test("/tool/list/demos")
def test_list_of_demos():
    """Mats, boards and costs, too, as another program reads them; the sums are those of the table."""
    for demo in ("plain-steps", "cove-and-bead", "wide-scoop"):
        for unit in ("mm", "in"):
            example = os.path.join(TOP, "docs", "examples", f"{demo}.cavetto")
            succeed("list", example, "--unit", unit, "-o", at("demo.csv"))
            rows = list(csv.reader(io.StringIO(read("demo.csv").decode(), newline=""), strict=True))
            tap.true(all(len(row) == len(rows[0]) for row in rows), f"{rows}")
            text = succeed("list", example, "--unit", unit).decode()
            for head, pattern in (("weight kg", r"Together (\d+\.\d\d) kg"),
                                  ("cost", r"Cost (\d+\.\d\d)")):
                place = rows[0].index(head)
                total = sum(float(row[place]) for row in rows[1:] if row[place])
                said = re.search(pattern, text)
                tap.true(said is not None, f"no {head} in {text}")
                # Each row is rounded to a hundredth.
                tap.true(abs(total - float(said[1])) < 0.006 * len(rows), f"{total}: {said[0]}")


sys.exit(tap.run())
