#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Files that are not what they should be, places that cannot be written to: test-bad-files.py TOP
CAVETTO"""
import os
import subprocess
import sys
import time

TOP = sys.argv[1]
sys.dont_write_bytecode = True
sys.path[:0] = [os.path.join(TOP, "tests", "support"), os.path.join(TOP, "tests", "tool")]
import tap  # noqa: E402
from outside import (  # noqa: E402
    CAVETTO, FOLDER, RABBET, SECONDS, SHOP, STEPS, as_nobody, at, bad_projects,
    fern, open_program, outline, project, read, refuse, run, succeed, write)


# Files that are not what they should be


@tap.test("/tool/bad-input/projects")
def test_bad_projects():
    for name, text, says in bad_projects():
        path = write(name + ".cavetto", text)
        begin = time.monotonic()
        for command in (["passes", path, "-o", at("never.xml")], ["look", path],
                        ["drawing", path, "--section", "-o", at("never.svg")]):
            refuse(command, 2, name + ".cavetto", says)
        tap.true(time.monotonic() - begin < SECONDS / 2, f"{name} takes too long")
        tap.true(not os.path.exists(at("never.xml")) and not os.path.exists(at("never.svg")),
                 f"{name}: something was written")


@tap.test("/tool/bad-input/line-is-named")
def test_line():
    text = project(RABBET + '<rabbet corner="back-inside" width="nan" depth="2"/>\n')
    line = text[:text.index("nan")].count("\n") + 1
    path = write("line.cavetto", text)
    refuse(["look", path], 2, "line.cavetto", str(line))


@tap.test("/tool/bad-input/missing-and-unreadable")
def test_missing():
    for command in ("passes", "look"):
        refuse([command, at("missing.cavetto")], 2, "missing.cavetto")
        refuse([command, FOLDER], 2, os.path.basename(FOLDER))
        refuse([command, at("missing/fern.cavetto")], 2, "missing/fern.cavetto")
    refuse(["drawing", at("missing.cavetto"), "--section", "-o", at("never.svg")], 2, "missing")
    path = write("secret.cavetto", project(RABBET))
    os.chmod(path, 0)
    refuse(["look", path], 2, "secret.cavetto", program=open_program(), **as_nobody())


@tap.test("/tool/bad-input/shops")
def test_bad_shops():
    for name, text, status, says in [
            ("empty-shop", '<shop version="1" unit="mm"></shop>\n', None, "tool"),
            ("no-such-grind", SHOP.replace('"flat"', '"round"'), 2, "round"),
            ("twice", SHOP.replace("</shop>", SHOP.split("\n")[1] + "</shop>"), 2, "rip"),
            ("negative-kerf", SHOP.replace('"3.2"', '"-3.2"'), 2, "kerf"),
            ("nan-kerf", SHOP.replace('"3.2"', '"nan"'), 2, "kerf"),
            ("newer-shop", SHOP.replace('"1"', '"99"'), 2, "newer version"),
            ("a-project", project(RABBET), 2, ""),
            ("no-xml", "blade: rip\n", 2, "")]:
        path = write(name + ".xml", text)
        done = run("passes", fern(), "--shop", path, "-o", at("never.xml"))
        tap.true(done.returncode in ([status] if status else [1, 2]), f"{name}: {done}")
        refuse(["passes", fern(), "--shop", path], done.returncode, name + ".xml", says)
        tap.true(not os.path.exists(at("never.xml")), f"{name}: something was written")
    refuse(["passes", fern(), "--shop", at("missing.xml")], 2, "missing.xml")
    refuse(["look", fern(), "--shop", at("missing.xml")], 2, "missing.xml")


@tap.test("/tool/bad-input/odd-names-stay-on-one-line")
def test_odd_names():
    for name in (b"a\nb.cavetto", b"\x1b[31mred.cavetto", b"\xff\xfe.cavetto", "ä½.cavetto".encode()):
        refuse(["look", os.path.join(FOLDER.encode(), name)], 2, ".cavetto")


# Places that cannot be written to


def outputs(folder):
    svg = write("steps.svg", outline(STEPS))
    return [(["passes", fern(), "-o", os.path.join(folder, "plan.xml")], "plan.xml"),
            (["passes", fern(), "-o", os.path.join(folder, "plan.pdf")], "plan.pdf"),
            (["passes", fern(), "-o", os.path.join(folder, "plan.txt")], "plan.txt"),
            (["drawing", fern(), "--section", "-o", os.path.join(folder, "part.svg")], "part.svg"),
            (["import", svg, "-o", os.path.join(folder, "new.cavetto")], "new.cavetto")]


@tap.test("/tool/writing/no-such-folder")
def test_no_folder():
    for command, name in outputs(at("nowhere")):
        refuse(command, 2, name)
    tap.true(not os.path.exists(at("nowhere")), "a folder was made")


@tap.test("/tool/writing/no-permission-keeps-the-old-file")
def test_no_permission():
    folder = at("locked")
    os.makedirs(folder, exist_ok=True)
    commands = outputs(folder)
    for _, name in commands:
        write(os.path.join("locked", name), "what was there")
    os.chmod(folder, 0o555)
    for command, name in commands:
        refuse(command, 2, name, program=open_program(), **as_nobody())
        tap.equal(read(os.path.join("locked", name)), b"what was there", name)
    tap.equal(sorted(os.listdir(folder)), sorted(name for _, name in commands))
    os.chmod(folder, 0o755)


@tap.test("/tool/writing/full-disk")
def test_full_disk():
    if not os.path.exists("/dev/full"):
        raise AssertionError("this system has no /dev/full")
    with open("/dev/full", "wb") as full:
        for command in (["passes", fern()], ["look", fern()], ["--help"],
                        ["passes", "--help"], ["--version"],
                        ["drawing", fern(), "--section", "-o", "-"]):
            done = subprocess.run([CAVETTO, *command], stdin=subprocess.DEVNULL, stdout=full,
                                  stderr=subprocess.PIPE, timeout=SECONDS, check=False)
            tap.equal(done.returncode, 2, f"{command}:")
            tap.contains(done.stderr.decode(), "standard output", f"{command}:")
            tap.equal(done.stderr.count(b"\n"), 1, f"{command}:")
    for name, arguments in [("x.xml", ["passes", fern()]),
                            ("x.svg", ["drawing", fern(), "--section"])]:
        link = at(name)
        os.symlink("/dev/full", link)
        refuse([*arguments, "-o", link], 2, name)
        tap.true(os.path.islink(link), "the link is gone")
        os.unlink(link)


@tap.test("/tool/writing/nothing-is-left-behind")
def test_no_litter():
    folder = at("clean")
    os.makedirs(folder, exist_ok=True)
    for command, name in outputs(folder):
        succeed(*command)
        tap.true(os.path.getsize(os.path.join(folder, name)) > 100, name)
    tap.equal(sorted(os.listdir(folder)), sorted(name for _, name in outputs(folder)))


sys.exit(tap.run())
