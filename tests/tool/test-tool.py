#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Tests of the whole program from outside: test-tool.py TOP CAVETTO"""
import os
import re
import struct
import subprocess
import sys
import time
import zlib
import xml.etree.ElementTree as ElementTree

TOP = sys.argv[1]
sys.dont_write_bytecode = True
sys.path[:0] = [os.path.join(TOP, "tests", "support"), os.path.join(TOP, "tests", "tool")]
import tap  # noqa: E402
from outside import (  # noqa: E402
    DEMOS, EXAMPLES, FOLDER, RABBET, SECONDS, SHOP, STEPS, at, demo, fern, outline,
    planned, project, read, refuse, run, succeed, write)


# Help and usage


@tap.test("/tool/help/lists-what-there-is")
def test_help():
    text = succeed("--help").decode()
    for command in ("passes", "import", "look", "drawing", "preview", "template", "list", "sheets",
                    "thumbnail"):
        tap.contains(text, f"\n  {command} ")
        own = succeed(command, "--help").decode()
        tap.true(own.startswith(f"Usage: cavetto {command} "), own)
        tap.contains(own, "--help")
        tap.true(all(len(line) <= 96 for line in own.splitlines()), own)
    tap.equal(succeed("-h"), text.encode())


@tap.test("/tool/help/names-every-option")
def test_option_help():
    for command, options in [("passes", ["-o", "--shop", "--unit", "--paper", "--layout"]),
                             ("sheets", ["-o", "--shop", "--unit", "--paper", "--layout"]),
                             ("template", ["-o", "--shop", "--unit", "--paper"]),
                             ("list", ["-o", "--shop", "--unit", "--paper"]),
                             ("drawing", ["-o", "--section", "--unit", "--paper"]),
                             ("look", ["--shop", "--unit"]),
                             ("preview", ["-o", "--size"]),
                             ("thumbnail", ["-o", "--side"]),
                             ("import", ["-o", "--blank", "--shop", "--rails", "--length"])]:
        text = succeed(command, "--help").decode()
        tap.equal(sorted(re.findall(r"^  (-\S+)", text, re.MULTILINE)), sorted(options + ["--help"]))


@tap.test("/tool/help/version")
def test_version():
    tap.true(re.fullmatch(rb"cavetto \d+\.\d+\.\d+\n", succeed("--version")), "version")


@tap.test("/tool/usage/is-refused-with-a-hint")
def test_usage():
    steps = write("usage.svg", outline(STEPS))
    out = at("usage.cavetto")
    refuse([], 2, "a command is missing", "no display", "cavetto --help")
    refuse([demo("plain-steps")], 2, "no display", "cavetto --help")
    refuse(["plane"], 2, "no command “plane”", "cavetto --help")
    refuse(["passes"], 2, "FILE is missing", "cavetto passes --help")
    refuse(["passes", ""], 2, "FILE is missing")
    refuse(["passes", "a", "b"], 2, "“b” is one too many")
    refuse(["passes", demo("plain-steps"), "--unit", "ell"], 2, "--unit is mm or in")
    refuse(["passes", demo("plain-steps"), "--paper", "a5"], 2, "a4 or letter")
    refuse(["passes", demo("plain-steps"), "--blank", "3x3"], 2, "--blank")
    refuse(["passes", demo("plain-steps"), "-o"], 2, "-o")
    refuse(["passes", demo("plain-steps"), "-o", ""], 2, "name of a file")
    refuse(["passes", demo("plain-steps"), "-o", at("x.doc")], 2, "x.doc", ".txt, .xml, .pdf")
    refuse(["passes", demo("plain-steps"), "-o", at("xml")], 2, ".txt, .xml, .pdf")
    refuse(["preview", demo("plain-steps"), "-o", at("x.png"), "--size", "0x9"], 2, "--size is")
    refuse(["preview", demo("plain-steps")], 2, "-o OUT is missing")
    refuse(["thumbnail", demo("plain-steps")], 2, "-o OUT is missing")
    for side in ("0", "15", "2049", "-1", "1e2", "nan", "128x128", "99999999999999999999"):
        refuse(["thumbnail", demo("plain-steps"), "-o", at("x.png"), "--side", side], 2, "--side is")
    refuse(["drawing", demo("plain-steps"), "--section"], 2, "-o OUT is missing")
    refuse(["drawing", demo("plain-steps"), "--section", "-o", at("x.txt")], 2, ".svg, .pdf, .png")
    refuse(["import", steps], 2, "-o OUT is missing")
    for option, value, says in [("--rails", "0", "from 1"), ("--rails", "2.5", "whole number"),
                                ("--rails", "-1", "from 1"), ("--rails", "99999999999", "from 1"),
                                ("--rails", "nan", "whole number"),
                                ("--length", "0", "less than 1 mm"),
                                ("--length", "-5", "less than 1 mm"), ("--length", "nan", "nan"),
                                ("--length", "inf", "inf"), ("--length", "", "missing"),
                                ("--blank", "60", "width x thickness"),
                                ("--blank", "60x", "missing"), ("--blank", "0x22", "less than 0.1 mm"),
                                ("--blank", "60x-2", "less than 0.1 mm"), ("--blank", "nanx22", "nan"),
                                ("--blank", "60x1e9", "e9"), ("--blank", "60x501", "500")]:
        refuse(["import", steps, option, value, "-o", out], 2, option, says)
    tap.true(not os.path.exists(out), "something was written")


@tap.test("/tool/usage/a-name-can-begin-with-a-dash")
def test_dash():
    write("-fern.cavetto", project(RABBET))
    succeed("look", "--", "-fern.cavetto", cwd=FOLDER)
    refuse(["look", "-fern.cavetto"], 2, "look", cwd=FOLDER)


# Import


@tap.test("/tool/import/steps-come-back")
def test_import():
    svg = write("steps.svg", outline(STEPS))
    tap.equal(succeed("import", svg, "-o", at("steps.cavetto")), b"")
    tree = ElementTree.parse(at("steps.cavetto")).getroot()
    tap.equal(tree.get("version"), "1")
    tap.equal(tree.find("title").text, "steps")
    tap.equal(dict(tree.find("blank").attrib), {"width": "60", "thickness": "25"})
    tap.equal(dict(tree.find("rails").attrib), {"count": "4", "length": "3200"})
    tap.equal([cut.tag for cut in tree.find("cuts")], ["drawn", "drawn"])
    tap.true(tree.find("shop") is not None, "no copy of a shop")


@tap.test("/tool/import/options-are-kept")
def test_import_options():
    svg = write("steps.svg", outline(STEPS))
    shop = write("shop.xml", SHOP)
    succeed("import", svg, "--blank", "2 3/4in x 30", "--shop", shop, "--rails", "6", "--length",
            "4,5 cm + 4 in", "-o", at("options.cavetto"))
    tree = ElementTree.parse(at("options.cavetto")).getroot()
    tap.equal(dict(tree.find("blank").attrib), {"width": "69.85", "thickness": "30"})
    tap.equal(dict(tree.find("rails").attrib), {"count": "6", "length": "146.6"})
    tap.equal([tool.get("id") for tool in tree.find("shop") if tool.get("id")], ["rip"])


@tap.test("/tool/import/arcs-stay-arcs")
def test_import_arcs():
    svg = write("arc.svg", outline("M6 25V16H0V9.5A9.5 9.5 0 0 0 9.5 0H60V25Z"))
    succeed("import", svg, "-o", at("arc.cavetto"))
    tap.contains(read("arc.cavetto").decode(), "<arc ")


@tap.test("/tool/import/bad-pictures-are-refused")
def test_import_refusals():
    out = at("never.cavetto")
    for name, text, says in [
            ("open", outline("M 0,0 L 60,0 60,25"), "close"),
            ("bow", outline("M 0,0 L 60,25 60,5 0,25 Z"), "crosses itself"),
            ("outside", outline("M 0,0 L 70,0 70,25 0,25 Z"), "--blank"),
            ("no-units", outline(STEPS, 'viewBox="0 0 60 25"'), ""),
            ("percent", outline(STEPS, 'width="100%" height="100%" viewBox="0 0 60 25"'), ""),
            ("no-path", outline("").replace('<path d=""/>', ""), ""),
            ("nan", outline("M 0,0 L nan,0 60,25 Z"), ""),
            ("huge-number", outline("M 0,0 L 1e999,0 60,25 Z"), ""),
            ("empty", "", ""),
            ("not-xml", "a picture of a fern\n", ""),
            ("a-project", project(RABBET), ""),
            ("shouting", outline("M 0,0 L 60,0 60,25 X"), "")]:
        svg = write(name + ".svg", text)
        refuse(["import", svg, "-o", out], 2, name + ".svg", says)
    refuse(["import", at("missing.svg"), "-o", out], 2, "missing.svg")
    tap.true(not os.path.exists(out), "something was written")


@tap.test("/tool/import/a-million-points-end-soon")
def test_import_million():
    points = " ".join(f"{i % 7}.{i % 10},{i % 23}" for i in range(1_000_000))
    svg = write("million.svg", outline("M 0,0 L " + points + " Z"))
    begin = time.monotonic()
    refuse(["import", svg, "-o", at("never.cavetto")], 2, "million.svg")
    tap.true(time.monotonic() - begin < SECONDS / 2, "it takes too long")


@tap.test("/tool/import/blank-too-small-is-refused")
def test_import_small_blank():
    svg = write("steps.svg", outline(STEPS))
    refuse(["import", svg, "--blank", "50x25", "-o", at("never.cavetto")], 2, "steps.svg",
           "50 x 25 mm", "larger blank (--blank)")
    tap.true(not os.path.exists(at("never.cavetto")), "something was written")


# The demo projects


@tap.test("/tool/demos/follow-the-schemas")
def test_schemas():
    for file, schema in [(demo(name), "project.rng") for name in DEMOS] + [
            (os.path.join(EXAMPLES, "hobby-shop.xml"), "shop.rng")]:
        done = run("--noout", "--nonet", "--relaxng", os.path.join(TOP, "docs", schema), file,
                   program="xmllint")
        tap.equal(done.returncode, 0, done.stderr.decode())


@tap.test("/tool/demos/hold-their-package")
def test_packages():
    # Glass, one mat of 1.4, sheet and hinges, backing board, and room for the points (common
    # practice).
    package = 2.0 + 1.4 + 0.6 + 3.0 + 2.0
    for name in DEMOS:
        cuts = ElementTree.parse(demo(name)).getroot().find("cuts")
        rabbet = [cut for cut in cuts.findall("rabbet") if cut.get("corner") == "back-inside"][0]
        tap.true(float(rabbet.get("depth")) >= package, f"{name}: the rabbet is too shallow")
        tap.true(float(rabbet.get("width")) >= 6.0, f"{name}: the rabbet is too narrow")


@tap.test("/tool/demos/hobby-shop-is-the-one-built-in")
def test_default_shop():
    svg = write("steps.svg", outline(STEPS))
    succeed("import", svg, "-o", at("default.cavetto"))
    built_in = ElementTree.parse(at("default.cavetto")).getroot().find("shop")
    file = ElementTree.parse(os.path.join(EXAMPLES, "hobby-shop.xml")).getroot()
    tap.equal([(tool.tag, tool.attrib) for tool in file],
              [(tool.tag, tool.attrib) for tool in built_in])


# Passes


@tap.test("/tool/passes/demos-are-planned")
def test_demos():
    for name in DEMOS:
        text = planned(name, ".txt").decode()
        title = ElementTree.parse(demo(name)).getroot().find("title").text
        tap.true(text.startswith(title + "\n"), f"{name} does not begin with its title")
        for part in ("Prepare ", "Lay out ", "Setup 1 ", "Totals ", "By hand ", "manuals"):
            tap.contains(text, part, name)
        tap.true(all(len(line) <= 100 for line in text.splitlines()), f"{name} is too wide")
        tap.true(not re.search(r"[\x00-\x09\x0b-\x1f\x7f]|\bnan\b|\binf\b", text), f"{name}: {text}")


@tap.test("/tool/passes/plan-file-says-the-same-as-the-table")
def test_plan_file():
    for name in DEMOS:
        text = planned(name, ".txt").decode()
        plan = ElementTree.fromstring(planned(name, ".xml"))
        setups = plan.findall("setup")
        passes = plan.findall("setup/pass")
        tap.true(passes, f"{name} has no passes")
        totals = re.search(r"(\d+) setups?, (\d+) pass(?:es)?, ([\d.]+) minutes", text)
        tap.equal((int(totals[1]), int(totals[2])), (len(setups), len(passes)), name)
        tap.true(abs(float(totals[3]) - float(plan.find("minutes").get("total"))) < 0.051, name)
        side = "(back|face|inside|outside)"
        rows = re.findall(rf"^ +(\d+)  {side} +{side} ", text, re.MULTILINE)
        tap.equal([(down, against) for _, down, against in rows],
                  [(one.get("down"), one.get("against")) for one in passes], name)
        tap.equal([int(number) for number, _, _ in rows], list(range(1, len(passes) + 1)), name)


@tap.test("/tool/passes/demos-enter-the-profile-nowhere")
def test_gouge():
    for name in DEMOS:
        text = planned(name, ".txt").decode()
        deepest = float(re.search(r"deepest that any pass enters the profile is ([\d.]+) mm", text)[1])
        tap.true(deepest <= 0.02, f"{name}: {deepest}")


@tap.test("/tool/passes/demos-fit-the-hobby-shop")
def test_hobby_shop():
    shop = os.path.join(EXAMPLES, "hobby-shop.xml")
    text = succeed("passes", demo("wide-scoop"), "--shop", shop).decode()
    tap.contains(text, "Hobby shop")
    tap.true("thicker than the limit" not in text, text)
    for name in DEMOS:
        tap.true("thicker than the limit" not in planned(name, ".txt").decode(), name)


@tap.test("/tool/passes/same-bytes-every-time")
def test_same_bytes():
    for name in DEMOS:
        succeed("passes", demo(name), "-o", at("second.xml"))
        tap.true(planned(name, ".xml") == read("second.xml"), f"{name}: two plan files differ")
    for ending in (".pdf", ".txt"):
        succeed("passes", fern(), "-o", at("first" + ending))
        succeed("passes", fern(), "-o", at("second" + ending))
        tap.true(read("first" + ending) == read("second" + ending), f"two {ending} differ")


@tap.test("/tool/passes/text-goes-where-it-is-told")
def test_text_output():
    text = succeed("passes", fern())
    tap.equal(succeed("passes", fern(), "-o", "-"), text)
    tap.equal(succeed("passes", fern(), "--output=" + at("steps.TXT")), b"")
    tap.equal(read("steps.TXT"), text)


@tap.test("/tool/passes/inches-are-fractions")
def test_inches():
    text = succeed("passes", fern(), "--unit", "in").decode()
    tap.contains(text, " in")
    tap.true(re.search(r"\d/(2|4|8|16|32|64)\b", text), text)
    tap.contains(text, "1/64 inch")


@tap.test("/tool/passes/sheet-is-a-pdf-of-that-paper")
def test_sheet():
    for paper, size in [("a4", (842, 595)), ("letter", (792, 612))]:
        succeed("passes", fern(), "--paper", paper, "-o", at("sheet.pdf"))
        tap.true(read("sheet.pdf").startswith(b"%PDF-"), "not a PDF")
        info = run("-box", at("sheet.pdf"), program="pdfinfo").stdout.decode()
        found = re.search(r"Page size:\s+([\d.]+) x ([\d.]+)", info)
        tap.true(found, info)
        got = sorted((round(float(found[1])), round(float(found[2]))), reverse=True)
        tap.true(all(abs(a - b) <= 1 for a, b in zip(got, size)), f"{paper}: {got}")


@tap.test("/tool/passes/another-shop")
def test_other_shop():
    shop = write("saw-only.xml", SHOP)
    succeed("passes", fern(), "--shop", shop, "-o", at("saw.xml"))
    plan = ElementTree.parse(at("saw.xml")).getroot()
    tap.equal({setup.get("tool") for setup in plan.findall("setup")}, {"rip"})


# Look and drawing


@tap.test("/tool/look/demos-are-sound")
def test_look():
    for name in DEMOS:
        text = succeed("look", demo(name)).decode()
        tap.true(not re.search(r"^wrong", text, re.MULTILINE), f"{name}: {text}")


@tap.test("/tool/look/wrong-is-exit-1")
def test_look_wrong():
    cut_through = '<groove side="face" position="20" width="5" depth="22"/>\n'
    broken = write("broken.cavetto", project(cut_through))
    done = run("look", broken)
    tap.equal(done.returncode, 1)
    tap.equal(done.stderr, b"")
    lines = done.stdout.decode().splitlines()
    tap.true(lines[0].startswith("wrong    "), lines)
    order = ["wrong", "caution", "note"]
    words = [line.split()[0] for line in lines]
    tap.equal(words, sorted(words, key=order.index))
    refuse(["passes", broken], 1, "broken.cavetto")
    nothing = write("nothing.cavetto",
                    project('<rabbet corner="back-inside" width="45" depth="22"/>\n'))
    tap.equal(run("look", nothing).returncode, 1)
    refuse(["passes", nothing, "-o", at("nothing.xml")], 1, "nothing.cavetto")
    tap.true(not os.path.exists(at("nothing.xml")), "something was written")


@tap.test("/tool/drawing/section-in-three-forms")
def test_drawing():
    for name in DEMOS:
        for ending, magic in [(".svg", b"<?xml"), (".pdf", b"%PDF-"), (".png", b"\x89PNG")]:
            tap.equal(succeed("drawing", demo(name), "--section", "-o", at("section" + ending)), b"")
            tap.true(read("section" + ending).startswith(magic), f"{name}{ending}")
    tree = ElementTree.fromstring(succeed("drawing", demo("wide-scoop"), "--section", "-o", "-"))
    tap.true(tree.get("width").endswith("mm"), tree.attrib)
    paths = [node.get("d") for node in tree.iter("{http://www.w3.org/2000/svg}path")]
    tap.true(any(re.search("[Aa]", path) for path in paths), "the hollow is not an arc")


# A PNG of 2 x 2 pixels; what is wrong with copies of it is made from it.
def png(width=2, height=2):
    def chunk(kind, data):
        body = kind + data
        return struct.pack(">I", len(data)) + body + struct.pack(">I", zlib.crc32(body))
    rows = b"".join(b"\0" + b"\x30\xa0\x40" * 2 for _ in range(2))
    return (b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", struct.pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0))
            + chunk(b"IDAT", zlib.compress(rows)) + chunk(b"IEND", b""))


@tap.test("/tool/drawing/frame-in-three-forms")
def test_frame_drawing():
    for name in DEMOS:
        for ending, magic in [(".svg", b"<?xml"), (".pdf", b"%PDF-"), (".png", b"\x89PNG")]:
            tap.equal(succeed("drawing", demo(name), "-o", at("frame" + ending)), b"")
            tap.true(read("frame" + ending).startswith(magic), f"{name}{ending}")
    tree = ElementTree.fromstring(succeed("drawing", demo("wide-scoop"), "-o", "-"))
    groups = [node.get("id") for node in tree.iter("{http://www.w3.org/2000/svg}g")]
    for group in ("elevation", "section-wood", "preview", "materials", "title-block"):
        tap.true(group in groups, f"{group} is not in {groups}")


@tap.test("/tool/preview/in-three-forms")
def test_preview():
    for name in DEMOS:
        for ending, magic in [(".svg", b"<?xml"), (".pdf", b"%PDF-"), (".png", b"\x89PNG")]:
            tap.equal(succeed("preview", demo(name), "-o", at("hung" + ending)), b"")
            tap.true(read("hung" + ending).startswith(magic), f"{name}{ending}")
    succeed("preview", demo("wide-scoop"), "-o", at("small.png"), "--size", "320x200")
    tap.equal(struct.unpack(">II", read("small.png")[16:24]), (320, 200))
    again = succeed("preview", demo("wide-scoop"), "-o", "-", "--size", "320x200")
    tap.true(again == read("small.png"), "two previews differ")


# Another locale


def german():
    """The environment of a locale with a decimal comma, made here so that none need be there."""
    locales = at("locales")
    if not os.path.isdir(locales):
        os.makedirs(locales)
        subprocess.run(["localedef", "-i", "de_DE", "-f", "UTF-8", os.path.join(locales, "de_DE.UTF-8")],
                       check=True, capture_output=True)
    return {"LOCPATH": locales, "LC_ALL": "de_DE.UTF-8", "LANGUAGE": "de"}


@tap.test("/tool/locale/it-is-in-force")
def test_locale_in_force():
    done = run("-c", "import locale; locale.setlocale(locale.LC_ALL, ''); "
               "print(locale.localeconv()['decimal_point'])", program=sys.executable,
               environment=german())
    tap.equal(done.stdout, b",\n", done.stderr)


@tap.test("/tool/locale/same-bytes")
def test_locale():
    svg = write("steps.svg", outline(STEPS.replace("38", "38.25")))
    for number, arguments in enumerate([
            ["passes", fern(), "-o", "OUT.xml"],
            ["passes", fern(), "-o", "OUT.txt"],
            ["passes", fern(), "--unit", "in", "-o", "OUT.txt"],
            ["passes", fern(), "-o", "OUT.pdf"],
            ["drawing", demo("wide-scoop"), "--section", "-o", "OUT.svg"],
            ["import", svg, "--blank", "60.5x25,5", "--length", "1000.5", "-o", "OUT.cavetto"]]):
        files = []
        for environment in ({"LC_ALL": "C"}, german()):
            name = f"{number}-{len(files)}-{arguments[-1]}"
            succeed(*arguments[:-1], at(name), environment=environment)
            files.append(read(name))
        tap.true(files[0] == files[1], f"{arguments} differs")
    for command in (["--help"], ["passes", "--help"], ["look", fern()]):
        tap.equal(run(*command, environment=german()).stdout, run(*command).stdout, f"{command}:")


sys.exit(tap.run())
