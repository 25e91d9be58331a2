#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Spacing stands on a grid, and letters come in few sizes: test-scale.py TOP"""
import glob
import os
import re
import sys

TOP = sys.argv[1]
sys.dont_write_bytecode = True
sys.path.insert(0, os.path.join(TOP, "tests", "support"))
import tap  # noqa: E402

# Between and around widgets, pixels.
GRID = {"0", "3", "6", "9", "12", "18", "24"}
# Letters of widgets, besides the theme's own classes (caption, heading, title).
SIZES = {"0.9em", "1em", "1.15em"}
UI = re.compile(r'name="(?:margin-\w+|(?:row-|column-)?spacing)">(\d+)<')
CSS = re.compile(r"^\s*(?:padding|margin)[\w-]*: ([^;]+);", re.MULTILINE)
CODE = [re.compile(r"gtk_box_new \(GTK_ORIENTATION_\w+, (\d+)\)"),
        re.compile(r"set_(?:margin_\w+|(?:row_|column_)?spacing) \([^;]*, (\d+)\);"),
        re.compile(r'"(?:margin-\w+|(?:row-|column-)?spacing)", (\d+)')]
LETTERS = re.compile(r"Text(?:Style)? (?:const )?\w+\s*=\s*\{[^}]*?\.(?:size|height) = ([\d.]+)",
                     re.DOTALL)


def texts(pattern):
    for path in sorted(glob.glob(os.path.join(TOP, pattern))):
        with open(path, encoding="utf-8") as file:
            yield os.path.relpath(path, TOP), file.read()


def off_grid(path, text):
    """What of a text of ours is not on the grid."""
    if path.endswith(".ui"):
        found = UI.findall(text)
    elif path.endswith(".css"):
        found = [re.sub("px$", "", length) for value in CSS.findall(text) for length in value.split()]
    else:
        found = [number for pattern in CODE for number in pattern.findall(text)]
    return len(found), [f"{path}: {number}" for number in found if number not in GRID]


@tap.test("/house/spacing-is-on-the-grid")
def test_spacing():
    count, strays = 0, []
    for pattern in ("ui/*.ui", "ui/*.css", "src/app/*.c"):
        for path, text in texts(pattern):
            n_found, wrong = off_grid(path, text)
            count += n_found
            strays += wrong
    tap.equal(strays, [])
    tap.true(count > 60, f"only {count} lengths were found")


@tap.test("/house/spacing-off-the-grid-is-found")
def test_spacing_fails():
    for path, text in (("a.ui", '<property name="margin-top">7</property>'),
                       ("a.css", ".x {\n  padding: 6px 8px;\n}"),
                       ("a.c", "gtk_box_new (GTK_ORIENTATION_VERTICAL, 5);"),
                       ("a.c", "gtk_widget_set_margin_end (box, 10);")):
        tap.equal(len(off_grid(path, text)[1]), 1, text)
    tap.equal(LETTERS.findall("const CavPenText style = { .tone = T, .size = 9.5, .x = X };"),
              ["9.5"])


@tap.test("/house/letters-come-in-few-sizes")
def test_sizes():
    found = {size for _, text in texts("ui/*.css")
             for size in re.findall(r"font-size: ([^;]+);", text)}
    tap.equal(found - SIZES, set())
    tap.true(found, "no size was found")
    # What is drawn takes its sizes by name, from the pen and from the palette.
    strays = [f"{path}: {size}" for path, text in texts("src/drawing/*.c")
              for size in LETTERS.findall(text)]
    tap.equal(strays, [])
    for header, name, most in (("src/drawing/cav-pen-private.h", r"CAV_PEN_[A-Z]+ [\d.]+", 4),
                               ("src/drawing/cav-palette.h",
                                r"CAV_LETTER_(?!LEADING)[A-Z]+ [\d.]+", 8)):
        names = [found for _, text in texts(header) for found in re.findall(f"#define {name}", text)]
        tap.true(0 < len(names) <= most, f"{header}: {names}")


sys.exit(tap.run())
