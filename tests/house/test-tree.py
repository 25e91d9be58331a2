#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Tests on the tree itself: test-tree.py TOP"""
import os
import re
import sys

TOP = sys.argv[1]
sys.dont_write_bytecode = True
sys.path.insert(0, os.path.join(TOP, "tests", "support"))
import tap  # noqa: E402

# What a room may include from itself on down, and which outside libraries it may see. The same
# table stands in DEVELOPERS.md, and a test below holds the two together.
KNOWS = {
    "geometry": set(),
    "profile": {"geometry"},
    "shop": {"geometry"},
    "frame": {"profile", "shop"},
    "milling": {"profile", "shop"},
    "boards": {"frame", "milling"},
    "project": {"boards"},
    "storage": {"project"},
    "drawing": {"project"},
    "tool": {"storage", "drawing"},
    "app": {"tool"},
}
LIBRARIES = {
    "geometry": {"glib", "geos"},
    "profile": {"glib"},
    "shop": {"glib"},
    "frame": {"glib"},
    "milling": {"glib"},
    "boards": {"glib", "glpk"},
    "project": {"glib", "gobject"},
    "storage": {"glib", "gobject", "libxml2"},
    "drawing": {"glib", "gobject", "cairo", "pango", "libxml2"},
    "tool": {"glib", "gobject", "cairo", "pixbuf"},
    "app": {"glib", "gobject", "cairo", "pango", "pixbuf", "gtk", "libadwaita"},
}
OUTSIDE = [
    ("glib", re.compile(r"^(glib\.h|glib/.*|gmodule\.h)$")),
    ("gobject", re.compile(r"^(glib-object\.h|gobject/.*)$")),
    ("gtk", re.compile(r"^(gtk|gdk|gsk|graphene|gio)/.*$|^graphene\.h$")),
    ("libadwaita", re.compile(r"^adwaita\.h$")),
    ("geos", re.compile(r"^geos_c\.h$")),
    ("glpk", re.compile(r"^glpk\.h$")),
    ("libxml2", re.compile(r"^libxml/.*$")),
    ("cairo", re.compile(r"^cairo(-pdf|-svg)?\.h$")),
    ("pixbuf", re.compile(r"^gdk-pixbuf/.*$")),
    ("pango", re.compile(r"^pango/.*$")),
]
# C, its library and POSIX, which belong to nobody.
STANDARD = re.compile(
    r"^(assert|complex|ctype|errno|fcntl|float|inttypes|langinfo|limits|locale|malloc|math|setjmp|signal"
    r"|stdarg|stdatomic|stdbool|stddef|stdint|stdio|stdlib|string|strings|time|unistd|pthread|sys/\w+"
    r"|immintrin|xmmintrin|emmintrin)\.h$")
INCLUDE = re.compile(r'^\s*#\s*include\s+([<"])([^>"]+)[>"]', re.MULTILINE)
TOP_LEVEL = {"README.md", "DEVELOPERS.md", "LICENSE", "meson.build", "src", "ui", "icons", "tests",
             "po", "docs"}
SPDX = "SPDX-License-Identifier: GPL-3.0-or-later"
# Files that hold data in a form without comments, or the words of others.
NO_LICENCE_LINE = re.compile(r"(^LICENSE|^tests/fuzz/corpus/(clipboard|length|path|structured|trace)/.*|\.png|\.pdf|\.json|\.txt|\.bin|\.supp)$")


def walk(*folders):
    for folder in folders:
        for root, names, files in os.walk(os.path.join(TOP, folder)):
            names[:] = [name for name in names if name != "__pycache__"]
            for file in files:
                yield os.path.relpath(os.path.join(root, file), TOP)


def read(path):
    with open(os.path.join(TOP, path), encoding="utf-8") as file:
        return file.read()


def sources(*folders):
    return sorted(path for path in walk(*folders) if path.endswith((".c", ".h")))


def all_below(room):
    """The rooms that room may know: those it names, and what they know."""
    known = {room}
    for other in KNOWS[room]:
        known |= all_below(other)
    return known


def check_include(path, room, form, name):
    """A sentence on what is wrong with an include, or None."""
    if form == '"':
        other = name.split("/")[0]
        if "/" not in name:
            return f"{path}: “{name}” is included without its room"
        if other not in all_below(room):
            return f"{path}: {room} may not know {other} (“{name}”)"
        if other != room and "-private" in name:
            return f"{path}: “{name}” is private to {other}"
        return None
    if STANDARD.match(name):
        return None
    for library, pattern in OUTSIDE:
        if pattern.match(name):
            if library in LIBRARIES[room]:
                return None
            return f"{path}: {room} may not know {library} (<{name}>)"
    return f"{path}: <{name}> belongs to no library that a room may know"


def check_no_complaints(complaints):
    complaints = [complaint for complaint in complaints if complaint]
    tap.true(not complaints, "\n".join(complaints))


@tap.test("/house/rooms-are-known")
def test_rooms():
    rooms = {name for name in os.listdir(os.path.join(TOP, "src"))
             if os.path.isdir(os.path.join(TOP, "src", name))}
    tap.equal(rooms, set(KNOWS), "folders of src:")
    tap.equal(set(LIBRARIES), set(KNOWS))


@tap.test("/house/includes-follow-the-arrows")
def test_includes():
    checked = 0
    complaints = []
    for path in sources("src"):
        room = path.split(os.sep)[1]
        for form, name in INCLUDE.findall(read(path)):
            complaints.append(check_include(path, room, form, name))
            checked += 1
    check_no_complaints(complaints)
    tap.true(checked > 50, f"only {checked} includes were found")


@tap.test("/house/wrong-includes-are-found")
def test_include_check():
    for room, form, name in [("geometry", '"', "profile/cav-cut.h"),
                             ("drawing", '"', "storage/cav-storage.h"),
                             ("storage", '"', "drawing/cav-drawing.h"),
                             ("milling", '"', "project/cav-project.h"),
                             ("tool", '"', "geometry/cav-region-private.h"),
                             ("shop", '"', "cav-shop.h"),
                             ("profile", "<", "geos_c.h"),
                             ("milling", "<", "glib-object.h"),
                             ("tool", "<", "gtk/gtk.h"),
                             ("drawing", "<", "adwaita.h")]:
        tap.true(check_include("x.c", room, form, name), f"{room} may include {name}")
    for room, form, name in [("tool", '"', "geometry/cav-path.h"), ("milling", "<", "math.h"),
                             ("geometry", "<", "geos_c.h"),
                             ("geometry", '"', "geometry/cav-region-private.h")]:
        tap.equal(check_include("x.c", room, form, name), None)


@tap.test("/house/meson-gives-a-room-no-more-than-its-libraries")
def test_meson():
    names = {"glib": "glib_dep", "gobject": "gobject_dep", "geos": "geos_dep", "glpk": "glpk_dep",
             "libxml2": "xml_dep", "cairo": "cairo_dep", "pango": "pango_dep", "pixbuf": "pixbuf_dep",
             "gtk": "(gtk|print)_dep", "libadwaita": "adwaita_dep"}
    complaints = []
    for room in KNOWS:
        text = read(f"src/{room}/meson.build")
        for library, dependency in names.items():
            if re.search(rf"\b{dependency}\b", text) and library not in LIBRARIES[room]:
                complaints.append(f"src/{room}/meson.build: {dependency}")
        for other in KNOWS:
            if re.search(rf"\b{other}_dep\b", text) and other not in all_below(room):
                complaints.append(f"src/{room}/meson.build: {other}_dep")
    check_no_complaints(complaints)


@tap.test("/house/arrows-in-the-docs-are-these")
def test_documented_arrows():
    rows = dict(re.findall(r"^\| `(\w+)` \| ([^|]*?) \|", read("DEVELOPERS.md"), re.MULTILINE))
    for room, known in KNOWS.items():
        words = set(re.findall(r"\w+", rows.get(room, "").lower()))
        tap.equal(words & set(KNOWS), known, f"{room} in DEVELOPERS.md:")
        libraries = {name for name, _ in OUTSIDE} - {"glib", "gobject"}
        tap.equal(words & libraries, LIBRARIES[room] & libraries, f"{room} in DEVELOPERS.md:")


@tap.test("/house/files-that-the-docs-speak-of-are-there")
def test_documented_files():
    checked = 0
    for document in ("README.md", "DEVELOPERS.md"):
        for path in re.findall(r"`((?:src|tests|docs|profile|shop|project|milling|tool)/[\w./-]+)`",
                               read(document)):
            checked += 1
            if path.split("/")[0] in KNOWS:
                path = "src/" + path
            if "NAME" not in path and "FILE" not in path and "ROOM" not in path:
                tap.true(os.path.exists(os.path.join(TOP, path)), f"{document}: {path} is missing")
    tap.true(checked > 5, "hardly any file is spoken of")


@tap.test("/house/every-file-names-its-licence")
def test_licence_lines():
    files = [path for path in walk("src", "tests", "docs", "ui", "icons", "po")
             if not NO_LICENCE_LINE.search(path) and os.sep + "bad" + os.sep not in path]
    files += ["meson.build", ".clang-format", ".editorconfig", ".ci/run"]
    files = [path for path in files if not path.endswith((".md", ".clang-format", ".editorconfig"))]
    missing = [path for path in files if SPDX not in "\n".join(read(path).splitlines()[:3])]
    tap.equal(missing, [], "without licence line:")
    tap.true(len(files) > 50, "hardly any files were found")


@tap.test("/house/every-test-is-registered")
def test_registration():
    complaints = []
    for path in walk("tests"):
        folder, file = os.path.split(path)
        match = re.match(r"test-(.*)\.(c|py)$", file)
        if not match:
            continue
        text = read(os.path.join(folder, "meson.build"))
        if not re.search(rf"'({re.escape(match.group(1))}|{re.escape(file)})'", text):
            complaints.append(f"{path} is not in its meson.build")
    check_no_complaints(complaints)


@tap.test("/house/every-source-is-built")
def test_sources_are_listed():
    complaints = []
    for path in sources("src"):
        folder, file = os.path.split(path)
        if file.endswith(".c") and f"'{file}'" not in read(os.path.join(folder, "meson.build")):
            complaints.append(f"{path} is not in its meson.build")
    check_no_complaints(complaints)


@tap.test("/house/lists-in-meson-are-in-order")
def test_order():
    for room in KNOWS:
        match = re.search(r"_sources = files\((.*?)\)", read(f"src/{room}/meson.build"), re.DOTALL)
        names = re.findall(r"'([^']+)'", match.group(1)) if match else []
        by_stem = sorted(names, key=lambda name: name[:-2])
        tap.true(names in (by_stem, sorted(names)), f"src/{room}/meson.build: {names}")


@tap.test("/house/no-toolkit-below-the-window")
def test_no_toolkit():
    tap.equal([path for path in sources("src")
               if not path.startswith(os.path.join("src", "app"))
               and re.search(r"<(gtk/|adwaita|gdk/|gsk/)", read(path))], [])


@tap.test("/house/top-level-is-as-laid-out")
def test_top_level():
    names = {name for name in os.listdir(TOP)
             if not name.startswith(".") and not re.match(r"build", name)}
    tap.equal(names - TOP_LEVEL, set(), "not in the layout:")
    for name in ("README.md", "DEVELOPERS.md", "LICENSE", "meson.build", "src", "tests", "docs"):
        tap.true(name in names, f"{name} is missing")


@tap.test("/house/headers-are-guarded-and-own-header-comes-first")
def test_headers():
    complaints = []
    for path in sources("src"):
        text = read(path)
        if path.endswith(".h"):
            if "#pragma once" not in text:
                complaints.append(f"{path}: no #pragma once")
            continue
        own = path[len("src" + os.sep):-1] + "h"
        if os.path.exists(os.path.join(TOP, "src", own)):
            first = INCLUDE.search(text)
            stem = own.replace(os.sep, "/")[:-2]
            if not first or first.group(2) not in (f"{stem}.h", f"{stem}-private.h"):
                complaints.append(f"{path}: its own header is not the first")
    check_no_complaints(complaints)


sys.exit(tap.run())
