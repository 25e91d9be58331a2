#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""The user guide, as it is written and as pages of HTML: test-guide.py TOP BUILD"""
import os
import re
import sys
from html.parser import HTMLParser

TOP, BUILD = os.path.abspath(sys.argv[1]), os.path.abspath(sys.argv[2])
sys.dont_write_bytecode = True
sys.path.insert(0, os.path.join(TOP, "tests", "support"))
import tap  # noqa: E402

SOURCE = os.path.join(TOP, "docs", "guide")
MADE = os.path.join(BUILD, "docs", "guide")
EMPTY = {"meta", "img", "br", "hr"}


def read(*path):
    with open(os.path.join(*path), encoding="utf-8") as file:
        return file.read()


def names(folder, ending):
    return {name[:-len(ending)] for name in os.listdir(folder) if name.endswith(ending)}


class Page(HTMLParser):
    """What a page holds; complains about what is not closed."""

    def __init__(self, text):
        super().__init__()
        self.open, self.links, self.pictures, self.headings = [], [], [], []
        self.feed(text)
        self.close()
        tap.equal(self.open, [], "left open:")

    def handle_starttag(self, tag, attributes):
        values = dict(attributes)
        if tag == "a":
            self.links.append(values["href"])
        if tag == "img":
            self.pictures.append((values["src"], values.get("alt", "")))
        if tag in ("h1", "h2", "h3"):
            self.headings.append(tag)
        if tag not in EMPTY:
            self.open.append(tag)

    def handle_endtag(self, tag):
        if tag in EMPTY:  # <img />
            return
        tap.equal(self.open and self.open.pop(), tag, "closed:")


def pages():
    found = {name: Page(read(MADE, name + ".html")) for name in names(MADE, ".html")}
    tap.true(len(found) > 5, f"hardly a page in {MADE}")
    return found


@tap.test("/guide/every-page-is-made")
def test_pages():
    tap.equal(set(pages()), names(SOURCE, ".md"), "pages:")
    for name, page in pages().items():
        tap.equal(page.headings[0], "h1", name)
        tap.equal(page.headings.count("h1"), 1, name)
        tap.true("h3" not in page.headings or "h2" in page.headings, name)


@tap.test("/guide/every-link-leads-somewhere")
def test_links():
    for name, page in pages().items():
        for link in page.links:
            tap.true(re.fullmatch(r"[a-z]+\.html", link), f"{name}: {link}")
            tap.true(os.path.isfile(os.path.join(MADE, link)), f"{name}: {link}")
    for name in names(SOURCE, ".md"):
        for link in re.findall(r"(?<!!)\[[^]]+\]\(([^)]+)\)", read(SOURCE, name + ".md")):
            tap.true(os.path.isfile(os.path.join(SOURCE, link)), f"{name}.md: {link}")


@tap.test("/guide/one-gets-from-page-to-page")
def test_way():
    found = pages()
    listed = re.findall(r"^\d+\. \[[^]]+\]\((\w+)\.md\)", read(SOURCE, "index.md"), re.MULTILINE)
    tap.equal(set(listed), set(found) - {"index"}, "contents:")
    order = ["index"] + listed
    for before, after in zip(order, order[1:]):
        tap.true(after + ".html" in found[before].links, f"{before} does not lead to {after}")
        tap.true(before + ".html" in found[after].links, f"{after} does not lead back to {before}")


@tap.test("/guide/every-picture-is-there-described-and-used")
def test_pictures():
    used = set()
    for name, page in pages().items():
        for picture, words in page.pictures:
            tap.true(os.path.getsize(os.path.join(MADE, picture)) > 1000, f"{name}: {picture}")
            tap.true(len(words) > 5, f"{name}: {picture} has no description")
            used.add(os.path.basename(picture)[:-4])
    tap.equal(used, names(os.path.join(SOURCE, "pictures"), ".png"), "pictures:")


@tap.test("/guide/every-cut-is-shown")
def test_cuts():
    enum = re.search(r"\{([^}]*)\} CavCutKind;", read(TOP, "src", "profile", "cav-cut.h"))[1]
    kinds = [kind.lower() for kind in re.findall(r"CAV_CUT_([A-Z]+),", enum)]
    tap.equal(len(kinds), 10, f"{kinds}:")
    text = read(SOURCE, "cuts.md")
    for kind in kinds:
        tap.true(re.search(rf"^## {kind.capitalize()} \([A-Z]\)$", text, re.MULTILINE), kind)
        tap.contains(text, f"(pictures/cut-{kind}.png)")


@tap.test("/guide/keys-are-those-of-the-program")
def test_keys():
    table = re.search(r"\} KEYS\[\] = \{(.*?)\n\};", read(TOP, "src", "app",
                                                        "cav-application-actions.c"), re.DOTALL)[1]
    keys = [key for line in table.splitlines() for key in re.findall(r'"([^"]+)"', line)[1:]]
    tap.true(len(keys) > 10, f"hardly a key: {keys}")
    text = read(SOURCE, "keys.md")
    for key in keys:
        if key == "<Control>y":  # a second key for what has one
            continue
        said = key.replace("<Control>", "Ctrl+").replace("<Alt>", "Alt+").replace("<Shift>", "Shift+")
        said = said.replace("question", "?").replace("Page_", "Page ")
        said = re.sub(r"\+([a-z])$", lambda match: "+" + match[1].upper(), said)
        tap.true(said in text, f"{key} is not in keys.md as {said}")
    palette = dict(re.findall(r'<property name="title" translatable="yes">(\w+)</property>\s*'
                              r'<property name="accelerator">(\w)</property>', read(TOP, "ui", "keys.ui")))
    tap.true(len(palette) >= 10, f"{palette}")
    for name, key in palette.items():
        tap.contains(text, f"| {key.upper()} | {name.lower()} |")


sys.exit(tap.run())
