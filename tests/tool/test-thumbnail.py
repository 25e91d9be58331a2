#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Thumbnails of good and of hostile files: test-thumbnail.py TOP CAVETTO"""
import os
import resource
import signal
import struct
import subprocess
import sys
import zlib

TOP = sys.argv[1]
sys.dont_write_bytecode = True
sys.path[:0] = [os.path.join(TOP, "tests", "support"), os.path.join(TOP, "tests", "tool")]
import tap  # noqa: E402
from outside import (  # noqa: E402
    CAVETTO, FOLDER, RABBET, at, bad_projects, project, read, refuse, succeed, write)


def pixels_of(png):
    """Rows of (red, green, blue) of an 8-bit picture as cairo writes it."""
    width, height, depth, kind = struct.unpack(">IIBB", png[16:26])
    tap.equal((depth, kind), (8, 2), "kind of PNG:")
    at_byte, data = 8, b""
    while at_byte < len(png):
        length, = struct.unpack(">I", png[at_byte:at_byte + 4])
        if png[at_byte + 4:at_byte + 8] == b"IDAT":
            data += png[at_byte + 8:at_byte + 8 + length]
        at_byte += 12 + length
    data = zlib.decompress(data)
    row = 1 + 3 * width
    tap.equal(len(data), row * height, "bytes of picture:")
    before, rows = bytes(row - 1), []
    for y in range(height):
        before = unfilter(data[y * row], data[y * row + 1:(y + 1) * row], before)
        rows.append([tuple(before[i:i + 3]) for i in range(0, len(before), 3)])
    return rows


def unfilter(kind, line, above):
    """A row of a PNG (RFC 2083, 6)."""
    out = bytearray()
    for i, value in enumerate(line):
        left = out[i - 3] if i >= 3 else 0
        up, corner = above[i], above[i - 3] if i >= 3 else 0
        guess = left + up - corner
        nearest = min((left, up, corner), key=lambda one: abs(guess - one))
        out.append((value + (0, left, up, (left + up) // 2, nearest)[kind]) % 256)
    return bytes(out)


@tap.test("/tool/thumbnail/shows-wood-where-wood-is")
def test_thumbnail():
    # A blank of 40 x 20, half of its width taken away above the middle.
    path = write("half.cavetto", project('<rabbet corner="face-inside" width="20" depth="10"/>\n',
                                         blank='width="40" thickness="20"'))
    for side in (16, 128, 333):
        png = succeed("thumbnail", path, "-o", "-", "--side", str(side))
        rows = pixels_of(png)
        tap.equal((len(rows), len(rows[0])), (side, side), "size:")
    # As laid out: 6 % of air at either side; the blank takes half of the height.
    def at_wood(x, y):
        return rows[round(333 * (0.5 - 0.22 + 0.44 * y))][round(333 * (0.06 + 0.88 * x))]
    tap.equal(rows[2][2], (255, 255, 255), "paper:")
    for x, y in ((0.75, 0.2), (0.25, 0.8), (0.9, 0.9)):
        red, green, blue = at_wood(x, y)
        tap.true(red > green > blue and red - blue > 10, f"no wood at {x}, {y}: {at_wood(x, y)}")
    red, green, blue = at_wood(0.25, 0.2)
    tap.true(max(red, green, blue) - min(red, green, blue) < 10, "there is wood in the waste")


@tap.test("/tool/thumbnail/takes-addresses-and-any-name")
def test_thumbnail_address():
    path = write("a fern.cavetto", project(RABBET))
    plain = succeed("thumbnail", path, "-o", "-")
    tap.equal(struct.unpack(">II", plain[16:24]), (256, 256))
    tap.equal(succeed("thumbnail", "file://" + path.replace(" ", "%20"), "-o", at("tmp.XYZ")), b"")
    tap.true(read("tmp.XYZ") == plain, "two thumbnails differ")
    for address, says in [("file://%00", ""), ("file:", ""), ("file:///no/fern.cavetto", "no such"),
                          ("https://cavetto.example/fern.cavetto", "no such"),
                          (FOLDER, "no such"), ("/dev/zero", "no such")]:
        refuse(["thumbnail", address, "-o", at("never.png")], 2, says)
    os.mkfifo(at("pipe.cavetto"))
    refuse(["thumbnail", at("pipe.cavetto"), "-o", at("never.png")], 2, "pipe.cavetto")
    tap.true(not os.path.exists(at("never.png")), "something was written")


@tap.test("/tool/thumbnail/knows-sections-that-cannot-be-milled")
def test_thumbnail_unsound():
    for cuts in ('<groove side="face" position="20" width="5" depth="22"/>\n',
                 '<rabbet corner="back-inside" width="45" depth="22"/>\n', ""):
        png = succeed("thumbnail", write("odd.cavetto", project(cuts)), "-o", "-")
        tap.true(png.startswith(b"\x89PNG"), cuts)
    for blank in ('width="500" thickness="1"', 'width="1" thickness="500"'):
        png = succeed("thumbnail", write("odd.cavetto", project("", blank=blank)), "-o", "-")
        tap.true(png.startswith(b"\x89PNG"), blank)


@tap.test("/tool/thumbnail/refuses-what-is-hostile")
def test_thumbnail_hostile():
    folder = os.path.join(TOP, "tests", "data", "bad")
    bad = [os.path.join(folder, name) for name in sorted(os.listdir(folder))
           if name.startswith("project-") and not name.endswith(".errors")]
    bad += [write(name + ".cavetto", text) for name, text, _ in bad_projects()]
    tap.true(len(bad) > 40, "hardly any bad file")
    for path in bad:
        refuse(["thumbnail", path, "-o", at("never.png"), "--side", "128"], 2, os.path.basename(path))
    tap.true(not os.path.exists(at("never.png")), "something was written")


@tap.test("/tool/thumbnail/ends-in-time")
def test_thumbnail_time():
    # As many points as a path may have that is still read, and all of them cross one another.
    points = "".join(f'<line x="{5 + i % 30 + (i % 7) / 10}" y="{22 - (i % 13) / 3}"/>'
                     for i in range(19_900))
    path = write("comb.cavetto", project(f'<drawn><start x="3" y="22"/>{points}</drawn>'))
    folder = at("thumbnails")
    os.makedirs(folder)
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    done = subprocess.run([CAVETTO, "thumbnail", path, "-o", os.path.join(folder, "comb.png")],
                          stdin=subprocess.DEVNULL, capture_output=True, check=False)
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    used = after.ru_utime - before.ru_utime + after.ru_stime - before.ru_stime
    tap.true(used < 12, f"{used} seconds of the processor")
    # Ended by the system, or done in time on a fast machine; nothing is left half way.
    tap.true(done.returncode in (0, -signal.SIGXCPU), f"{done}")
    tap.equal(os.listdir(folder), ["comb.png"] if done.returncode == 0 else [], "files:")


sys.exit(tap.run())
