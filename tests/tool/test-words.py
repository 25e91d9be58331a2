#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""The command line in the languages that it has: test-words.py TOP CAVETTO CATALOGUES"""
import csv
import gettext
import os
import re
import subprocess
import sys
import xml.etree.ElementTree as ElementTree

TOP = sys.argv[1]
CATALOGUES = os.path.abspath(sys.argv[3])
sys.dont_write_bytecode = True
sys.path[:0] = [os.path.join(TOP, "tests", "support"), os.path.join(TOP, "tests", "tool")]
import tap  # noqa: E402
from outside import STEPS, at, demo, fern, outline, read, run, succeed, write  # noqa: E402

# A word that the help of each language has, and a caution.
LANGUAGES = {
    "de_DE": ("Befehle:", "Vorsicht"),
    "es_ES": None,
    "fr_FR": None,
}
# Of the table of passes, as they stand in the program.
HEADS = ("Pass", "Down", "At fence", "Fence", "measured", "Height", "Chips", "Layer")


def language(name):
    """The environment of a user of that language. The locale is made here, so that none need be."""
    locales = at("locales")
    os.makedirs(locales, exist_ok=True)
    if not os.path.isdir(os.path.join(locales, f"{name}.UTF-8")):
        subprocess.run(["localedef", "-i", name, "-f", "UTF-8",
                        os.path.join(locales, f"{name}.UTF-8")], check=True, capture_output=True)
    return {"LOCPATH": locales, "LC_ALL": f"{name}.UTF-8", "LANGUAGE": "",
            "CAVETTO_LOCALE_DIR": CATALOGUES}


def is_there(name):
    return os.path.exists(os.path.join(CATALOGUES, name[:2], "LC_MESSAGES", "cavetto.mo"))


@tap.test("/tool/words/german-is-spoken")
def test_german():
    help_text, caution = LANGUAGES["de_DE"]
    tap.contains(succeed("--help", environment=language("de_DE")).decode(), help_text)
    text = succeed("passes", demo("cove-and-bead"), environment=language("de_DE")).decode()
    for word in ("Zurichten", "Kreissäge", "Frästisch", "Anschlag", caution):
        tap.contains(text, word)
    tap.true("Table saw" not in text and "fence" not in text, text)


@tap.test("/tool/words/every-language-is-spoken")
def test_all():
    english = succeed("passes", demo("cove-and-bead"))
    for name in LANGUAGES:
        tap.true(is_there(name), f"no catalogue for {name} in {CATALOGUES}")
        told = succeed("passes", demo("cove-and-bead"), environment=language(name)).decode()
        tap.true(told != english.decode(), f"{name} is English")
        tap.true("Table saw" not in told and "Worth a look" not in told, told)


@tap.test("/tool/words/columns-stay-columns")
def test_columns():
    """Whatever the words are, heads stand apart and lines keep to the width of a terminal."""
    for name in LANGUAGES:
        for command in (["passes", demo("cove-and-bead")], ["list", demo("cove-and-bead")],
                        ["passes", "--help"], ["sheets", "--help"], ["--help"]):
            text = succeed(*command, environment=language(name)).decode()
            for line in text.splitlines():
                tap.true(len(line) <= 110, f"{name}: {line}")
        text = succeed("passes", demo("cove-and-bead"), environment=language(name)).decode()
        words = gettext.translation("cavetto", CATALOGUES, [name])
        heads = [words.pgettext("column", head) for head in HEADS]
        lines = text.splitlines()
        first = next(i for i, line in enumerate(lines) if line.startswith("   1  "))
        tap.equal(lines[first - 1].split(), " ".join(heads).split(), f"{name}, heads:")


@tap.test("/tool/words/figures-have-the-mark-of-the-language")
def test_marks():
    """A comma in what is read, where the language and the locale have one; a point in tables for
    spreadsheets, whose cells a comma parts."""
    def figures(text, mark):
        return re.findall(rf"\d\{mark}\d", text)
    for name, mark in (("de_DE", ","), ("es_ES", ","), ("fr_FR", ","), ("de_CH", "."),
                       ("es_MX", "."), ("en_US", ".")):
        environment = language(name)
        other = "." if mark == "," else ","
        for command in ("passes", "list"):
            text = succeed(command, demo("cove-and-bead"), "--unit", "mm",
                           environment=environment).decode()
            tap.true(len(figures(text, mark)) > 5, f"{name}: {command} has no figures with {mark}")
            # Names of tools are words of the language, wherever it is spoken.
            if name in LANGUAGES:
                tap.equal(figures(text, other), [], f"{name}, {command}:")
        succeed("drawing", demo("cove-and-bead"), "-o", at("mark.svg"), environment=environment)
        words = " ".join(" ".join(element.itertext())
                         for element in ElementTree.parse(at("mark.svg")).iter()
                         if element.tag.endswith("}text"))
        tap.true(figures(words, mark), f"{name}: no figure with {mark} in {words}")
        succeed("list", demo("cove-and-bead"), "--unit", "mm", "-o", at("mark.csv"),
                environment=environment)
        rows = list(csv.reader(read("mark.csv").decode().splitlines()))
        tap.true(all(len(row) == 9 for row in rows), f"{name}: {rows}")
        numbers = [cell for row in rows[1:] for cell in row[2:5] if cell]
        tap.true(all(float(cell) > 0 for cell in numbers), f"{name}: {numbers}")


@tap.test("/tool/words/files-stay-as-they-are")
def test_files():
    """No word of a language goes into a project, a shop or a plan file, nor into a picture's ids."""
    svg = write("steps.svg", outline(STEPS))
    for name in LANGUAGES:
        for number, arguments in enumerate([["passes", fern(), "-o", "OUT.xml"],
                                            ["import", svg, "-o", "OUT.cavetto"]]):
            kept = []
            for environment in (None, language(name)):
                file = f"{number}-{len(kept)}-{name}-{arguments[-1]}"
                succeed(*arguments[:-1], at(file), environment=environment)
                kept.append(read(file))
            tap.true(kept[0] == kept[1], f"{name}: {arguments} differs")
        ids = []
        for environment in (None, language(name)):
            succeed("drawing", demo("plain-steps"), "-o", at("ids.svg"), environment=environment)
            ids.append([element.get("id") for element in ElementTree.parse(at("ids.svg")).iter()
                        if element.get("id")])
        tap.equal(ids[0], ids[1], f"{name}, ids:")
        tap.true(len(ids[0]) > 5, "hardly an id was found")


@tap.test("/tool/words/bad-input-is-told-in-the-language")
def test_errors():
    done = run("passes", at("none.cavetto"), environment=language("de_DE"))
    tap.equal(done.returncode, 2)
    tap.contains(done.stderr.decode(), "nicht lesbar")


sys.exit(tap.run())
