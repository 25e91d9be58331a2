#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Frames that nobody should ask for, from outside: test-frames.py TOP CAVETTO"""
import atexit
import os
import shutil
import struct
import subprocess
import sys
import tempfile
import xml.etree.ElementTree as ElementTree
import zlib

TOP, CAVETTO = sys.argv[1], os.path.abspath(sys.argv[2])
sys.dont_write_bytecode = True
sys.path.insert(0, os.path.join(TOP, "tests", "support"))
import tap  # noqa: E402

SECONDS = float(os.environ.get("CAV_SECONDS", 120))
SVG = "{http://www.w3.org/2000/svg}"
FOLDER = tempfile.mkdtemp(prefix="cavetto-frames-")
atexit.register(shutil.rmtree, FOLDER, ignore_errors=True)


def at(name):
    return os.path.join(FOLDER, name)


def write(name, data):
    with open(at(name), "wb") as file:
        file.write(data if isinstance(data, bytes) else data.encode())
    return at(name)


def frame(measures="", attributes="", title="Fern", notes="", rabbet='width="6" depth="10"'):
    def escape(text):
        return text.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;")

    return write("frame.cavetto",
                 '<?xml version="1.0" encoding="UTF-8"?>\n<cavetto version="2" unit="mm">\n'
                 f'<title>{escape(title)}</title>\n<notes>{escape(notes)}</notes>\n'
                 '<blank width="45" thickness="22"/>\n<wood id="ash-white"/>\n'
                 '<rails count="4" length="1480"/>\n<cuts>\n'
                 f'<rabbet corner="back-inside" {rabbet}/>\n</cuts>\n'
                 f'<frame {attributes}><measures {measures}/></frame>\n</cavetto>\n')


def run(*arguments):
    done = subprocess.run([CAVETTO, *arguments], stdin=subprocess.DEVNULL, capture_output=True,
                          timeout=SECONDS, check=False)
    tap.true(done.returncode in (0, 1, 2), f"{arguments} ended with {done.returncode}: {done.stderr}")
    return done


def succeed(*arguments):
    done = run(*arguments)
    tap.equal(done.stderr, b"", f"{arguments} on standard error:")
    tap.equal(done.returncode, 0, f"exit status of {arguments}:")
    return done.stdout


def refuse(arguments, status, *says):
    """One sentence, and nothing written."""
    done = run(*arguments)
    message = done.stderr.decode()
    tap.equal(done.returncode, status, f"exit status of {arguments} ({message!r}):")
    tap.true(message.startswith("cavetto: ") and message.count("\n") == 1, f"{message!r}")
    for part in says:
        tap.contains(message, part, f"{arguments}:")
    tap.true(not os.path.exists(arguments[-1]), f"{arguments}: something was written")


def png(width, height, cut=False):
    def chunk(kind, data):
        body = kind + data
        return struct.pack(">I", len(data)) + body + struct.pack(">I", zlib.crc32(body))

    rows = b"".join(b"\0" + os.urandom(3 * 40) for _ in range(40))
    whole = (b"\x89PNG\r\n\x1a\n"
             + chunk(b"IHDR", struct.pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0))
             + chunk(b"IDAT", zlib.compress(rows)) + chunk(b"IEND", b""))
    return whole[:len(whole) // 2] if cut else whole


@tap.test("/tool/frames/sizes-beyond-all-frames")
def test_sizes():
    for measures in ('picture-width="0"', 'picture-width="1e9"', 'picture-height="-5"',
                     'picture-width="nan"', 'border-left="1e300"', 'allowance="inf"'):
        name = measures.split("=")[0]
        for command in ("preview", "drawing"):
            refuse([command, frame(measures), "-o", at("never.svg")], 2, name, "frame.cavetto")
    # The least and the most that a file may ask for are drawn.
    for measures in ('picture-width="5" picture-height="5"',
                     'picture-width="10000" picture-height="10000"',
                     'picture-width="5" picture-height="10000"'):
        for ending in (".svg", ".png", ".pdf"):
            for command in ("preview", "drawing"):
                done = run(command, frame(measures, 'mats="0"'), "-o", at("extreme" + ending))
                tap.true(done.returncode in (0, 1), f"{measures}: {done.stderr}")
                if done.returncode == 0:
                    tap.true(os.path.getsize(at("extreme" + ending)) > 500, f"{measures}")


@tap.test("/tool/frames/molding-without-a-lip-or-all-lip")
def test_lip():
    for rabbet in ('width="45" depth="10"', 'width="200" depth="10"', 'width="6" depth="200"'):
        done = run("look", frame(rabbet=rabbet))
        tap.true(done.stdout, f"{rabbet}: nothing is said")
        for command in ("preview", "drawing"):
            drawn = run(command, frame(rabbet=rabbet), "-o", at("lip.svg"))
            tap.true(drawn.returncode == 0 or drawn.stderr.count(b"\n") == 1, f"{drawn}")


@tap.test("/tool/frames/window-larger-than-its-sheet")
def test_window():
    file = frame('picture-width="300" picture-height="300" width="200" height="200"',
                 'start="glass" mats="1"')
    done = run("look", file)
    tap.equal(done.returncode, 1)
    tap.contains(done.stdout.decode(), "wrong")
    # What is wrong is still shown, so that it can be seen.
    for command in ("preview", "drawing"):
        drawn = run(command, file, "-o", at("window.svg"))
        tap.true(drawn.returncode == 0 or drawn.stderr.count(b"\n") == 1, f"{drawn}")
        if drawn.returncode == 0:
            ElementTree.parse(at("window.svg"))


@tap.test("/tool/frames/package-deeper-than-the-rabbet")
def test_deep():
    text = run("look", frame('backing-thickness="30"')).stdout.decode()
    tap.contains(text, "wrong")
    tap.contains(text, "rabbet")


@tap.test("/tool/frames/pictures-that-are-none")
def test_pictures():
    write("text.png", "no image at all\n")
    write("cut.png", png(40, 40, cut=True))
    write("empty.jpg", b"")
    write("wide.png", png(30000, 30000))
    os.makedirs(at("folder.png"), exist_ok=True)
    for name, says in (("text.png", "no image"), ("cut.png", "cut short"), ("empty.jpg", "no image"),
                       ("wide.png", "30000"), ("folder.png", "not there"),
                       ("gone/fern.png", "not there")):
        file = frame(attributes=f'picture-file="{name}"')
        for command in ("preview", "drawing"):
            refuse([command, file, "-o", at("never.png")], 2, os.path.basename(name), says)
    write("whole.png", png(40, 40))
    file = frame(attributes='picture-file="whole.png"')
    succeed("preview", file, "-o", at("whole.svg"))
    tap.equal(ElementTree.parse(at("whole.svg")).getroot().tag, SVG + "svg")


TITLES = ["<script>alert(1)</script>", "\"quoted\" 'twice' & co. ]]>", "إطار للصورة", "🌿 frame 👩‍🎨",
          "w" * 300, "a\tb"]


@tap.test("/tool/frames/titles-stay-text")
def test_titles():
    for title in TITLES:
        file = frame(title=title, notes=title)
        for command in ("preview", "drawing"):
            succeed(command, file, "-o", at("title.svg"))
            tree = ElementTree.parse(at("title.svg")).getroot()
            tap.true(all(node.tag.startswith(SVG) for node in tree.iter()), "foreign elements")
            tap.true(not any("script" in node.tag for node in tree.iter()), "a script")
            tap.true(not any(name.lower().startswith("on") for node in tree.iter()
                             for name in node.attrib), "a handler")
            tap.equal(tree.find(SVG + "title").text.split(), title.split())
            succeed(command, file, "-o", at("title.pdf"))
            succeed(command, file, "-o", at("title.png"))
        found = subprocess.run(["pdfinfo", at("title.pdf")], capture_output=True, check=True)
        tap.contains(found.stdout.decode(), title.split()[0][:40])


sys.exit(tap.run())
