#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Tests on the catalogues: test-languages.py TOP

Each language is complete, in order, and agrees with the texts as they stand now."""
import glob
import os
import re
import subprocess
import sys
import tempfile

TOP = sys.argv[1]
sys.dont_write_bytecode = True
sys.path.insert(0, os.path.join(TOP, "tests", "support"))
import tap  # noqa: E402

FOLDER = tempfile.mkdtemp(prefix="cavetto-languages-")
LANGUAGES = ["de", "es", "fr"]
# The keywords of GLib's macros, as meson's preset has them.
KEYWORDS = ["_", "N_", "C_:1c,2", "NC_:1c,2", "g_dcgettext:2", "g_dngettext:2,3", "g_dpgettext2:2c,3",
            "ngettext:1,2"]


def run(*command):
    done = subprocess.run(command, capture_output=True, text=True, check=False, cwd=TOP,
                          env={**os.environ, "LC_ALL": "C.UTF-8"})
    tap.true(done.returncode == 0, f"{command}: {done.stderr}")
    return done.stdout + done.stderr


def template():
    """The texts as they stand now."""
    path = os.path.join(FOLDER, "cavetto.pot")
    if not os.path.exists(path):
        with open(os.path.join(TOP, "po", "POTFILES.in"), encoding="utf-8") as file:
            files = [line.strip() for line in file if not line.startswith("#")]
        run("xgettext", "--from-code=UTF-8", "--add-comments", "--output", path,
            *[f"--keyword={keyword}" for keyword in KEYWORDS], *files)
    return path


def catalogue(language):
    return os.path.join(TOP, "po", f"{language}.po")


def entries(path):
    """[(context, text, plural, [translations])] of a catalogue."""
    found, entry, field = [], {}, None
    with open(path, encoding="utf-8") as file:
        for line in [*file, "\n"]:
            if not line.strip():
                if entry.get("msgid"):
                    found.append((entry.get("msgctxt"), entry["msgid"], entry.get("msgid_plural"),
                                  [text for name, text in entry.items()
                                   if name.startswith("msgstr")]))
                entry = {}
            match = re.match(r'(msg\w+(?:\[\d\])?) "(.*)"$', line)
            if match:
                field = match.group(1)
                entry[field] = match.group(2)
            elif line.startswith('"'):
                entry[field] += line.strip()[1:-1]
    return found


@tap.test("/languages/are-those-that-are-listed")
def test_listed():
    with open(os.path.join(TOP, "po", "LINGUAS"), encoding="utf-8") as file:
        listed = [word for line in file if not line.startswith("#") for word in line.split()]
    tap.equal(listed, sorted(os.path.basename(path)[:-3]
                             for path in glob.glob(os.path.join(TOP, "po", "*.po"))))
    tap.equal(listed, LANGUAGES)


@tap.test("/languages/compile-and-keep-their-placeholders")
def test_compile():
    for language in LANGUAGES:
        out = run("msgfmt", "--check", "--statistics", "-o", os.path.join(FOLDER, "x.mo"),
                  catalogue(language))
        tap.true("warning" not in out, out)


@tap.test("/languages/are-complete")
def test_complete():
    """Nothing is left untranslated, and nothing was guessed, against the texts as they are now."""
    for language in LANGUAGES:
        merged = os.path.join(FOLDER, f"{language}.po")
        run("msgmerge", "--quiet", "--no-fuzzy-matching", "-o", merged, catalogue(language),
            template())
        missing = [text for _, text, _, translations in entries(merged) if "" in translations]
        tap.equal(missing, [], f"{language}, untranslated:")
        with open(catalogue(language), encoding="utf-8") as file:
            tap.true("#, fuzzy" not in file.read(), f"{language} has guesses")


@tap.test("/languages/keep-the-ends-of-texts")
def test_ends():
    """Blanks at the ends, dots of menus and mnemonics, which show where they are wanting."""
    for language in LANGUAGES:
        for context, text, _, translations in entries(catalogue(language)):
            for other in translations:
                where = f"{language}, [{context}] {text!r}: {other!r}"
                tap.equal(other.endswith(" "), text.endswith(" "), where)
                tap.equal(other.endswith("…"), text.endswith("…"), where)
                tap.equal(bool(re.search(r"(^|[^\w])_\w", other)),
                          bool(re.search(r"(^|[^\w])_\w", text)), where)


@tap.test("/languages/mnemonics-of-one-window-differ")
def test_mnemonics():
    """Of the texts of one .ui file, and of the dialogs that one file asks with."""
    for language in LANGUAGES:
        merged = run("msgmerge", "--quiet", "--no-fuzzy-matching", "-o", "-", catalogue(language),
                     template())
        letters = {}
        for block in merged.split("\n\n"):
            match = re.search(r'^msgstr "([^"]*(?:^|[^\w])?_(\w)[^"]*)"$', block, re.MULTILINE)
            if not match or "_(" in match.group(1):
                continue
            for path in set(re.findall(r"(?:ui|src/app)/[\w.-]+", block)):
                letters.setdefault(path, []).append(match.group(2).lower())
        for path, found in letters.items():
            tap.equal(sorted(found), sorted(set(found)), f"{language}, {path}:")


sys.exit(tap.run())
