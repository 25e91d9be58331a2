#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Tests on texts for people: test-words.py TOP

Every text goes through gettext. What a script can tell is whether a file with marked texts is listed
for the translators, and whether a literal that reads like words of a language is marked."""
import glob
import os
import re
import sys

TOP = sys.argv[1]
sys.dont_write_bytecode = True
sys.path.insert(0, os.path.join(TOP, "tests", "support"))
import tap  # noqa: E402

# A comment, a chain of literals, a character, or anything else.
TOKEN = re.compile(
    r"/\*.*?\*/|//[^\n]*"
    r'|(?P<text>"(?:\\.|[^"\\\n])*"(?:\s*"(?:\\.|[^"\\\n])*")*)'
    r"|'(?:\\.|[^'\\])+'|[A-Za-z_]\w*|\s+|.", re.DOTALL)
# Their arguments are for translators: the marks themselves, and calls that take plurals or contexts.
MARKS = {"_", "N_", "C_", "NC_", "ngettext", "g_dngettext", "g_dpgettext2"}
# Their arguments are for programmers, for files or for style sheets.
INWARD = {"g_debug", "g_error", "g_warning", "g_critical", "g_warn_if_fail", "g_test_message",
          "cav_scene_begin_layer", "add_property", "gtk_widget_add_css_class", "g_signal_connect",
          "g_date_time_format", "__attribute__", "g_object_new", "g_param_spec_string",
          "gtk_widget_class_bind_template_child_full", "g_str_equal", "strcmp", "g_strsplit",
          "gtk_widget_class_set_css_name"}
# Two words at least, of letters, with a blank between: a key, an id or a format has none.
WORDS = re.compile(r"[A-Za-z’'\-]{2,}[,;:.]? +(0 +)?[A-Za-z’'\-]{2,}")
# Literals that read like words but are none of the user's language, each with its reason.
ALLOWED = {
    # Sources of figures, which the project's papers quote as they are printed.
    "src/milling/cav-caution.c": r"29 CFR|California|manuals in|common practice|no source|school shop"
                                 r"|general tables|speeds by",
    "src/shop/cav-wood.c": r"Wood Handbook|table 5-3",
    # Names of the rules that a plan is proved by, for debugging.
    "src/milling/cav-proof.c": r"severed piece|support (before|after)|weak web",
    # In English in every file: the reason in a plan, and a comment for the program alone.
    "src/storage/cav-plan-xml.c": r"no tool reaches",
    "src/storage/cav-recovery.c": r"cavetto-recovery|original=",
    # Words of XML and SVG.
    "src/storage/cav-svg-viewport.c": r"xMidYMid meet",
    "src/storage/cav-xml-write.c": r"<\?xml",
    # Names of options.
    "src/tool/cav-arguments.c": r"--help +0 +--version",
}


def read(path):
    with open(os.path.join(TOP, path), encoding="utf-8") as file:
        return file.read()


def sources():
    for path in sorted(glob.glob(os.path.join(TOP, "src", "*", "*.[ch]"))):
        yield os.path.relpath(path, TOP)


def unmarked(text):
    """The literals that read like words and are in no call that marks them or keeps them inward."""
    found, calls, last = [], [], ""
    for token in TOKEN.finditer(re.sub(r"(?m)^#include .*$", "", text)):
        word = token.group()
        if word.isspace() or word.startswith(("/*", "//")):
            continue
        if word == "(":
            calls.append(last)
        elif word == ")" and calls:
            calls.pop()
        elif token.group("text"):
            plain = "".join(re.findall(r'"((?:\\.|[^"\\])*)"', word))
            plain = re.sub(r"\\.", " ", re.sub(r"%[-+0-9.*]*l*[a-z]", "0", plain))
            if WORDS.search(plain) and not MARKS & set(calls) and not INWARD & set(calls):
                found.append(plain.strip())
        last = word
    return found


@tap.test("/house/words/marks-are-told-from-others")
def test_unmarked():
    for text, expected in [
            ('f (_ ("Two words"));', []),
            ('f ("Two words");', ["Two words"]),
            ('f ("two %s", "words");', []),
            ('g_debug ("Two words");', []),
            ('/* "Two words" */ f (1);', []),
            ('f (g_dngettext (GETTEXT_PACKAGE, "%u long word", "%u long words", n));', []),
            ('f (C_ ("a context", "Two words"), "not so");', ["not so"]),
            ('f (_ ("Two "\n "words"), "but " "these");', ["but these"]),
            ('#include "two words.h"\n', [])]:
        tap.equal(unmarked(text), expected, text)


@tap.test("/house/words/every-text-is-marked")
def test_marked():
    complaints = []
    checked = 0
    for path in sources():
        checked += 1
        leave = ALLOWED.get(path, "$.")
        complaints += [f"{path}: “{text}”" for text in unmarked(read(path))
                       if not re.search(leave, text)]
    tap.true(not complaints, "\n".join(complaints))
    tap.true(checked > 300, f"only {checked} files were read")
    for path, leave in ALLOWED.items():
        tap.true(any(re.search(leave, text) for text in unmarked(read(path))),
                 f"{path} needs no leave any more")


@tap.test("/house/words/windows-are-marked")
def test_windows():
    """Labels, titles and tips of windows that hold words say that they are translatable."""
    complaints = []
    texts = re.compile(
        r'<(property|attribute) name="(label|title|subtitle|tooltip-text|description|placeholder-text'
        r'|text|menu-label)"([^>]*)>([^<]+)<')
    checked = 0
    for path in sorted(glob.glob(os.path.join(TOP, "ui", "*.ui"))):
        for _, name, attributes, text in texts.findall(read(path)):
            checked += 1
            if re.search(r"[A-Za-z]{2}", text) and text != "Cavetto" \
                    and 'translatable="yes"' not in attributes:
                complaints.append(f"{os.path.basename(path)}: {name} “{text}”")
    tap.true(not complaints, "\n".join(complaints))
    tap.true(checked > 100, f"only {checked} texts were found")


@tap.test("/house/words/files-are-listed-for-translators")
def test_potfiles():
    listed = [line for line in read("po/POTFILES.in").splitlines() if not line.startswith("#")]
    wanted = [path for path in sources() if "<glib/gi18n" in read(path)]
    for path in sorted(glob.glob(os.path.join(TOP, "ui", "*"))):
        path = os.path.relpath(path, TOP)
        if path.endswith((".desktop.in", ".metainfo.xml.in", ".gschema.xml")) \
                or path.endswith(".ui") and 'translatable="yes"' in read(path):
            wanted.append(path)
    tap.equal(sorted(set(wanted) - set(listed)), [], "not in po/POTFILES.in:")
    tap.equal(sorted(set(listed) - set(wanted)), [], "without a text in po/POTFILES.in:")
    tap.equal(len(listed), len(set(listed)), "lines that stand twice:")


@tap.test("/house/words/marks-are-known-where-they-are-used")
def test_includes():
    """Below the window the domain is named in every call, so that a room works in any program."""
    for path in sources():
        text = read(path)
        if "<glib/gi18n" in text:
            wanted = "<glib/gi18n.h>" if path.startswith(os.path.join("src", "app")) \
                else "<glib/gi18n-lib.h>"
            tap.contains(text, wanted, path)


sys.exit(tap.run())
