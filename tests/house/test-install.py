#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Installs into a folder of its own and runs what is there: test-install.py TOP BUILD"""
import atexit
import glob
import os
import re
import shutil
import subprocess
import sys
import tempfile

TOP, BUILD = os.path.abspath(sys.argv[1]), os.path.abspath(sys.argv[2])
sys.dont_write_bytecode = True
sys.path.insert(0, os.path.join(TOP, "tests", "support"))
import tap  # noqa: E402

ROOT = tempfile.mkdtemp(prefix="cavetto-install-")
atexit.register(shutil.rmtree, ROOT, ignore_errors=True)
ID = "org.cavetto.Cavetto"

# What has to arrive, below the prefix.
EXPECTED = [
    "bin/cavetto",
    f"share/applications/{ID}.desktop",
    "share/bash-completion/completions/cavetto",
    f"share/dbus-1/services/{ID}.service",
    "share/doc/cavetto/guide/index.html",
    "share/fish/vendor_completions.d/cavetto.fish",
    f"share/glib-2.0/schemas/{ID}.gschema.xml",
    f"share/icons/hicolor/scalable/apps/{ID}.svg",
    "share/icons/hicolor/scalable/mimetypes/application-x-cavetto+xml.svg",
    f"share/icons/hicolor/symbolic/apps/{ID}-symbolic.svg",
    "share/man/man1/cavetto.1",
    f"share/metainfo/{ID}.metainfo.xml",
    f"share/mime/packages/{ID}.mime.xml",
    f"share/thumbnailers/{ID}.thumbnailer",
    "share/zsh/site-functions/_cavetto",
]


def run(*command, **environment):
    clean = {name: value for name, value in os.environ.items()
             if name not in ("DISPLAY", "WAYLAND_DISPLAY", "GSETTINGS_SCHEMA_DIR")}
    return subprocess.run(command, stdin=subprocess.DEVNULL, capture_output=True, text=True,
                          check=False, timeout=120, env={**clean, "HOME": ROOT, **environment})


def must(*command, **environment):
    done = run(*command, **environment)
    tap.equal(done.returncode, 0, f"{command}: {done.stdout} {done.stderr}:")
    return done.stdout


def prefix():
    """Where the files are: the build may have any prefix."""
    found = glob.glob(f"{ROOT}/**/bin/cavetto", recursive=True)
    tap.equal(len(found), 1, f"programs below {ROOT}:")
    return os.path.dirname(os.path.dirname(found[0]))


def at(name):
    return os.path.join(prefix(), name)


def read(name):
    with open(at(name), encoding="utf-8") as file:
        return file.read()


@tap.test("/install/everything-arrives")
def test_files():
    must("meson", "install", "-C", BUILD, "--no-rebuild", "--destdir", ROOT)
    missing = [name for name in EXPECTED if not os.path.isfile(at(name))]
    tap.equal(missing, [], "missing:")
    empty = [os.path.join(folder, name) for folder, _, names in os.walk(ROOT) for name in names
             if os.path.getsize(os.path.join(folder, name)) == 0]
    tap.equal(empty, [], "empty:")


@tap.test("/install/nothing-else-arrives")
def test_no_more():
    """What stands in no list here is there by accident, but for what comes in numbers."""
    many = re.compile(r"^share/(locale/\w+/LC_MESSAGES/cavetto\.mo|doc/cavetto/.*)$")
    arrived = {os.path.relpath(os.path.join(folder, name), prefix())
               for folder, _, names in os.walk(prefix()) for name in names}
    more = {name for name in arrived if not many.match(name)} - set(EXPECTED)
    tap.equal(more, set(), "unexpected:")


@tap.test("/install/texts-are-translated")
def test_languages():
    with open(os.path.join(TOP, "po", "LINGUAS"), encoding="utf-8") as file:
        languages = [word for line in file for word in line.split("#")[0].split()]
    for language in languages:
        tap.true(os.path.getsize(at(f"share/locale/{language}/LC_MESSAGES/cavetto.mo")) > 0, language)


@tap.test("/install/program-works-without-a-display")
def test_program():
    tap.contains(must(at("bin/cavetto"), "--help"), "\n  passes ")
    demo = os.path.join(TOP, "docs", "examples", "plain-steps.cavetto")
    tap.contains(must(at("bin/cavetto"), "passes", demo), "Setup 1 ")
    done = run(at("bin/cavetto"), demo)
    tap.equal(done.returncode, 2, "a window without a display:")
    tap.contains(done.stderr, "no display")


@tap.test("/install/desktop-knows-projects")
def test_mime_type():
    must("update-mime-database", at("share/mime"))
    demo = os.path.join(TOP, "docs", "examples", "plain-steps.cavetto")
    nameless = os.path.join(ROOT, "nameless")
    shutil.copy(demo, nameless)
    for path in (demo, nameless):
        told = must("gio", "info", "-a", "standard::content-type,standard::icon", path,
                    XDG_DATA_DIRS=at("share") + ":/usr/share", GIO_USE_VFS="local")
        tap.contains(told, "standard::content-type: application/x-cavetto+xml", path)
        tap.contains(told, "application-x-cavetto+xml", path)
    tap.true(os.path.isfile(at("share/icons/hicolor/scalable/mimetypes/"
                               "application-x-cavetto+xml.svg")), "no icon")


def key(name, word):
    found = re.search(rf"^{word}=(.*)$", read(name), re.MULTILINE)
    tap.true(found, f"{name} has no {word}")
    return found[1]


@tap.test("/install/thumbnailer-does-as-it-says")
def test_thumbnailer():
    name = f"share/thumbnailers/{ID}.thumbnailer"
    tap.equal(key(name, "MimeType"), "application/x-cavetto+xml;")
    tap.equal(key(name, "TryExec"), "cavetto")
    demo = os.path.join(TOP, "docs", "examples", "plain-steps.cavetto")
    values = {"%s": "128", "%o": os.path.join(ROOT, "thumb.png"), "%u": "file://" + demo}
    command = [values.get(word, word) for word in key(name, "Exec").split()]
    tap.true("%u" not in command and "file://" + demo in command, "no address")
    must(*command, PATH=at("bin") + ":" + os.environ["PATH"])
    with open(values["%o"], "rb") as file:
        tap.equal(file.read(24)[16:], (128).to_bytes(4, "big") * 2, "size of the picture:")


@tap.test("/install/bus-and-desktop-file-agree")
def test_activation():
    desktop = f"share/applications/{ID}.desktop"
    tap.equal(key(desktop, "DBusActivatable"), "true")
    tap.equal(key(desktop, "MimeType"), "application/x-cavetto+xml;")
    tap.equal(key(desktop, "Icon"), ID)
    service = f"share/dbus-1/services/{ID}.service"
    tap.equal(key(service, "Name"), ID)
    program, word = key(service, "Exec").split()
    tap.equal(ROOT + program, at("bin/cavetto"), "program of the service:")
    tap.equal(word, "--gapplication-service")


@tap.test("/install/manual-opens")
def test_manual():
    text = must("mandoc", "-T", "ascii", at("share/man/man1/cavetto.1"))
    tap.contains(text, "cavetto passes fern.cavetto")


@tap.test("/install/guide-is-whole")
def test_guide():
    folder = at("share/doc/cavetto/guide")
    written = os.path.join(TOP, "docs", "guide")
    pages = {name[:-3] + ".html" for name in os.listdir(written) if name.endswith(".md")}
    tap.equal({name for name in os.listdir(folder) if name.endswith(".html")}, pages, "pages:")
    for page in pages:
        pictures = re.findall(r'src="([^"]+)"', read("share/doc/cavetto/guide/" + page))
        missing = [name for name in pictures if not os.path.isfile(os.path.join(folder, name))]
        tap.equal(missing, [], f"{page}: missing:")


@tap.test("/install/settings-compile")
def test_schema():
    must("glib-compile-schemas", "--strict", at("share/glib-2.0/schemas"))
    told = must("gsettings", "--schemadir", at("share/glib-2.0/schemas"), "list-keys", ID,
                GSETTINGS_BACKEND="memory")
    tap.true({"unit", "paper"} <= set(told.split()), told)


sys.exit(tap.run())
