#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Boards on the command line, from outside: test-boards.py TOP CAVETTO"""
import os
import subprocess
import sys

sys.dont_write_bytecode = True
sys.path.insert(0, os.path.join(sys.argv[1], "tests", "support"))
sys.path.insert(0, os.path.dirname(os.path.abspath(__file__)))
import tap  # noqa: E402
from outside import RABBET, at, project, refuse, run, succeed, write  # noqa: E402

BOARD = '<board name="Loft" length="2400" width="120" thickness="27" basis="board" price="21"/>'


def fern(name, lumber, title="Fern"):
    text = project(RABBET, extra=f"<lumber {lumber}</lumber>\n", version="2")
    return write(name, text.replace("<title>Fern<", f"<title>{title}<"))


def text_of(pdf):
    done = subprocess.run(["pdftotext", "-layout", at(pdf), "-"], capture_output=True, check=True)
    return done.stdout.decode()


@tap.test("/boards/list/shows-boards-pieces-and-offcuts")
def test_list():
    file = fern("one.cavetto", f'order="running">{BOARD}')
    text = succeed("list", file).decode()
    for part in ("Loft: 2400 × 120 × 27 mm", "cost 21.00", "No fewer boards will do, and no others cost less", "Offcuts",
                 "trial cuts" if "trial cuts" in text else "any rail", "Loft, strip"):
        tap.contains(text, part)
    succeed("list", file, "-o", at("one.pdf"))
    tap.contains(text_of("one.pdf"), "Loft")


@tap.test("/boards/list/two-projects-share-the-boards-of-the-first")
def test_two():
    first = fern("first.cavetto", f'order="free" test="0">{BOARD}', "Hall")
    second = fern("second.cavetto", 'order="free" test="0" frames="2">', "Stair")
    text = succeed("list", first, second).decode()
    tap.equal(text.count(", Hall"), 4, text)
    tap.equal(text.count(", Stair"), 8, text)
    succeed("list", first, second, "-o", at("two.pdf"))
    drawn = text_of("two.pdf")
    tap.contains(drawn, "Hall")
    tap.contains(drawn, "Stair")
    # The first one's file is not touched by that.
    tap.true(b"joined" not in open(first, "rb").read(), "the project was changed")


@tap.test("/boards/list/a-second-project-that-cannot-be-read")
def test_two_refused():
    first = fern("first.cavetto", f'order="free">{BOARD}')
    refuse(["list", first, at("nowhere.cavetto")], 2, "nowhere.cavetto")
    bad = write("bad.cavetto", "<cavetto")
    refuse(["list", first, bad], 2, "bad.cavetto")
    refuse(["look", first, first], 2, "only one FILE")


@tap.test("/boards/look/what-is-wrong-with-the-lumber")
def test_look():
    for name, lumber, says in [
            ("short", '><board length="200" width="120" thickness="27"/>', "longest piece"),
            ("thin", '><board length="2400" width="120" thickness="9"/>', "too thin"),
            ("narrow", '><board length="2400" width="20" thickness="27"/>', "too narrow"),
            ("knots", '><board length="2400" width="120" thickness="27">'
                      '<defect from="0" to="2400"/></board>', "no clear stretch"),
            ("buy", '><board length="200" width="120" thickness="27"/><stock length="2400" '
                    'width="120" thickness="27" count="0" basis="board" price="18"/>',
             "2400 × 120 × 27 mm for 18.00")]:
        done = run("look", fern(name + ".cavetto", lumber))
        tap.equal(done.returncode, 1, done.stdout.decode())
        tap.contains(done.stdout.decode(), says)
    # A list of prices and no board yet: what is to be bought is said, and nothing is wrong.
    begun = run("look", fern("none.cavetto",
                             '><stock length="2400" width="120" thickness="27" count="0"/>'))
    tap.equal(begun.returncode, 0, begun.stdout.decode())
    tap.contains(begun.stdout.decode(), "no boards yet")
    tap.contains(begun.stdout.decode(), "1 × 2400 × 120 × 27 mm")
    free = run("look", fern("price.cavetto",
                            '><board length="2400" width="120" thickness="27"/>'
                            '<board length="200" width="120" thickness="27" basis="board" '
                            'price="5"/>'))
    tap.equal(free.returncode, 0, free.stdout.decode())
    tap.contains(free.stdout.decode(), "without a price: 1")
    # Who names no price at all is shown no cost that could be too little.
    none = run("look", fern("no-price.cavetto",
                            '><board length="2400" width="120" thickness="27"/>'))
    tap.true("price" not in none.stdout.decode(), none.stdout.decode())


@tap.test("/boards/look/no-lumber-is-no-trouble")
def test_look_without():
    done = succeed("look", write("plain.cavetto", project(RABBET)))
    tap.true(b"oard" not in done, done)


@tap.test("/boards/sheets/the-table-has-the-boards-too")
def test_sheets():
    path = fern("csv.cavetto", '><board name="Plank" length="2400" width="120" thickness="27"/>')
    succeed("sheets", path, "-o", at("csv-sheets"))
    with open(os.path.join(at("csv-sheets"), "cutting-list.csv"), encoding="utf-8") as file:
        tap.contains(file.read(), "Plank")


sys.exit(tap.run())
