#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Whole errands in the real window: test-flows.py TOP CAVETTO"""
import glob
import os
import re
import shutil
import subprocess
import sys
import tempfile
import xml.etree.ElementTree as tree

TOP, CAVETTO = os.path.abspath(sys.argv[1]), os.path.abspath(sys.argv[2])
sys.dont_write_bytecode = True
sys.path.insert(0, os.path.join(TOP, "tests", "support"))
sys.path.insert(0, os.path.join(TOP, "tests", "ui"))
import tap  # noqa: E402
from desk import Program, every, extents, wait, xdo  # noqa: E402

FOLDER = tempfile.mkdtemp(prefix="cavetto-flows-")
UNSAVED = os.path.join(os.environ["XDG_STATE_HOME"], "cavetto", "unsaved")


def at(name):
    return os.path.join(FOLDER, name)


def read(name):
    with open(at(name), "rb") as file:
        return file.read()


def cuts_in(path):
    """{kind: [attributes]} of a project file."""
    cuts = {}
    for element in tree.parse(path).iter():
        kind = element.tag.rsplit("}", 1)[-1]
        if kind in ("rabbet", "cove"):
            cuts.setdefault(kind, []).append(element.attrib)
    return cuts


def begin():
    """Nothing that the test before may have left, if it failed, comes up in the next."""
    shutil.rmtree(UNSAVED, ignore_errors=True)


def kept():
    """The files of unsaved work that a crash would leave."""
    if not os.path.isdir(UNSAVED):
        return []
    return [os.path.join(UNSAVED, name) for name in sorted(os.listdir(UNSAVED))
            if name.endswith(".cavetto")]


def setups_of(program):
    """What the strip of passes says of each setup."""
    strip = program.find("filler", "Passes")
    return strip and [label.name for label in every(strip, "label") if "Setup" in label.name]


def wait_plan(program):
    """The setups, as soon as there is nothing more to be planned."""
    wait(lambda: setups_of(program) and not program.find("label", "Planning"), "the plan")
    return setups_of(program)


def canvas_of(program):
    return program.wait_for("panel", "Section of the molding")


def wait_words(program, *words):
    """Until the canvas tells assistive technology about what is chosen in these words."""
    canvas = canvas_of(program)
    try:
        wait(lambda: all(word in canvas.description for word in words), f"{words} to be chosen")
    except AssertionError as error:
        raise AssertionError(f"{error}: {canvas.description}") from None


def choose_kind(program, letter, name):
    program.focus()
    program.wait_focus("panel", "Section of the molding")
    program.keys(letter)
    program.wait_pressed(name)


def draw_rabbet(program, let_go=True):
    """With its letter and the pointer, from within the blank towards its corner."""
    choose_kind(program, "r", "Rabbet")
    canvas = program.wait_steady("panel", "Section of the molding")
    program.drag(canvas, (0.45, 0.45), (0.35, 0.4), let_go)


def save_as(program, name, title):
    program.save_as("Save the project", at(name.removesuffix(".cavetto")), ".cavetto")
    program.wait_frame(title)


@tap.test("/ui/flows/draw-type-undo-choose-save-reopen")
def test_whole_errand():
    begin()
    program = Program(CAVETTO)
    try:
        # The first start greets; an empty blank is one of the things to begin with.
        program.wait_frame("Begin a frame")
        program.click("list item", "An empty blank", "Begin a frame",
                      until=lambda: program.frame("New molding"))
        wait_words(program, "0 cuts")
        draw_rabbet(program)
        wait_words(program, "Rabbet")
        program.wait_frame("• New molding")

        # A cove with nothing but the keyboard; it takes a corner that is free.
        program.point_away()
        choose_kind(program, "c", "Cove")
        program.keys("Return")
        wait_words(program, "Cove")

        # Its number, typed into the row as a sum with another unit.
        program.click_into("text", "Width, mm", panel="Chosen cuts")
        program.keys("ctrl+a")
        program.type("1/4 in + 2")
        program.keys("Return")
        wait_words(program, "Cove", "8.35")

        program.keys("ctrl+z")
        wait(lambda: "8.35" not in canvas_of(program).description, "the number to be undone")
        program.keys("ctrl+shift+z")
        wait_words(program, "Cove", "8.35")

        # The planner has found a way, and its passes have names.
        program.press("push button", "Setup 1, pass 1")
        program.wait_pressed("Setup 1, pass 1")
        wait_words(program, "Pass 1 at its machine")

        program.keys("ctrl+s")
        save_as(program, "first.cavetto", "first – Cavetto")
        tap.equal(program.leave("ctrl+w"), 0, "exit status:")
    finally:
        program.kill()

    cuts = cuts_in(at("first.cavetto"))
    tap.equal({kind: len(some) for kind, some in cuts.items()}, {"rabbet": 1, "cove": 1})
    tap.equal(float(cuts["cove"][0]["width"]), 8.35)

    again = Program(CAVETTO, at("first.cavetto"))
    try:
        again.wait_frame("first – Cavetto")
        wait_words(again, "2 cuts")
        again.keys("ctrl+shift+s")
        save_as(again, "second.cavetto", "second – Cavetto")
        # All but the title, which nobody wrote and which follows the file's name.
        tap.equal(read("second.cavetto").replace(b"<title>second<", b"<title>first<"),
                  read("first.cavetto"), "saved again:")
        tap.equal(again.leave(), 0, "exit status:")
    finally:
        again.kill()
    tap.equal(kept(), [], "unsaved work left behind:")


@tap.test("/ui/flows/comes-back-after-a-crash")
def test_recovery():
    begin()
    shutil.copy(os.path.join(TOP, "docs", "examples", "plain-steps.cavetto"), at("mine.cavetto"))
    before = read("mine.cavetto")
    drawn = cuts_in(at("mine.cavetto"))["rabbet"]
    program = Program(CAVETTO, at("mine.cavetto"))
    try:
        program.wait_frame("mine – Cavetto")
        program.point_away()
        choose_kind(program, "r", "Rabbet")
        program.keys("Return")
        wait_words(program, "Rabbet")
        wait(lambda: kept() and len(cuts_in(kept()[0])["rabbet"]) == len(drawn) + 1,
             "the work to be kept")
        # In the middle of the next one the program dies.
        draw_rabbet(program, let_go=False)
        program.kill()
        program.let_go()
    finally:
        program.kill()
    tap.equal(read("mine.cavetto"), before, "the file itself:")

    again = Program(CAVETTO)
    try:
        again.wait_frame("Open unsaved work?")
        again.press("push button", "Open", "Open unsaved work?")
        again.wait_frame("• mine")
        canvas = canvas_of(again)
        wait(lambda: "4 cuts" in canvas.description, "the cut that was not saved")
        again.keys("ctrl+s")
        again.wait_frame("mine – Cavetto")
        wait(lambda: not again.frame("•"), "the mark to go")
        tap.equal(len(cuts_in(at("mine.cavetto"))["rabbet"]), len(drawn) + 1, "rabbets saved:")
        wait(lambda: not kept(), "what is saved to be kept no longer")
        tap.equal(again.leave(), 0, "exit status:")
    finally:
        again.kill()


@tap.test("/ui/flows/shop-loses-a-cutter-and-gets-it-back")
def test_shop():
    begin()
    shutil.copy(os.path.join(TOP, "docs", "examples", "cove-and-bead.cavetto"), at("shop.cavetto"))
    program = Program(CAVETTO, at("shop.cavetto"))
    try:
        program.wait_frame("shop – Cavetto")
        program.wait_for("push button", "Setup 1, pass 1")
        # Quick or thorough, whichever is shown when it is looked at: both use the cutter.
        tap.contains(" ".join(wait_plan(program)), "Round-over, radius 6.35")

        program.keys("ctrl+t")
        program.press("push button", "Remove Round-over, radius 6.35", title="Shop")
        wait(lambda: not program.find("push button", "Remove Round-over, radius 6.35", "Shop"),
             "the cutter to go")
        wait(lambda: "Round-over, radius 6.35" not in " ".join(wait_plan(program)), "another plan")

        program.press("push button", "Undo", title="Shop")
        program.wait_for("push button", "Remove Round-over, radius 6.35", title="Shop")
        wait(lambda: "Round-over, radius 6.35" in " ".join(wait_plan(program)),
             "a plan with the cutter")
        program.press("push button", "Close", title="Shop")
        wait(lambda: not program.frame("Shop"), "the shop's window to close")
        tap.equal(program.leave(), 0, "exit status:")
        tap.equal(kept(), [], "unsaved work left behind:")
    finally:
        program.kill()


@tap.test("/ui/flows/a-click-into-a-number-takes-the-whole-of-it")
def test_click_into_number():
    """The picture's size is typed over what stands there, with a click for each number."""
    begin()
    title = "Begin a frame"
    program = Program(CAVETTO)
    try:
        program.wait_frame(title)
        for name, figure in (("Width", "240"), ("Height", "320")):
            program.click_into("text", name, title)
            entry = program.find("text", name, title)
            text = entry.queryText()
            wait(lambda text=text: text.getNSelections() == 1
                 and text.getSelection(0) == (0, text.characterCount), f"all of {name}")
            program.type(figure, title=title)
            wait(lambda text=text, figure=figure: text.getText(0, text.characterCount) == figure,
                 f"{figure} for the {name}")
        tap.equal(program.leave(title=title), 0, "exit status:")
    finally:
        program.kill()


@tap.test("/ui/flows/sheets-are-seen-and-saved")
def test_sheets():
    """The preview: another sheet, another layout, the next page, and what is shown as a file."""
    begin()
    title = "Sheets for the shop"
    program = Program(CAVETTO, os.path.join(TOP, "docs", "examples", "plain-steps.cavetto"))
    try:
        program.wait_frame("plain-steps – Cavetto")
        wait_plan(program)
        program.point_away()
        program.keys("ctrl+shift+p")
        program.wait_frame(title)

        def words():
            page = program.find("image", "Page 1 of", title)
            return page.description if page else ""

        def choose(sheet, word):
            program.click("list item", sheet, title, until=lambda: word in words())
        choose("Job sheet", "Choose and rest the wood")
        choose("Template", "100 mm exactly")
        choose("Pass sheet", "Setup 1 of")
        tap.contains(words(), "manuals, local rules and trained practice come first")
        program.wait_for("label", "Page 1 of", title)
        n_pages = int(program.find("label", "Page 1 of", title).name.split()[-1])
        tap.true(n_pages > 1, f"{n_pages} pages")

        # Page after page, with a key and back with a button.
        program.keys("Page_Down", title=title)
        program.wait_for("label", f"Page 2 of {n_pages}", title)
        program.press("push button", "Page before", title)
        program.wait_for("label", f"Page 1 of {n_pages}", title)

        # A strip has one page, however long.
        program.click("combo box", "Layout", title,
                      until=lambda: program.find("label", "Strip", title))
        program.keys("Down", "Return", title=title)
        program.wait_for("image", "Page 1 of 1", title)

        program.keys("ctrl+s", title=title)
        program.save_as("Save the pass sheet", at("strip"), ".pdf")
        info = subprocess.run(["pdfinfo", at("strip.pdf")], capture_output=True, text=True,
                              check=True).stdout
        size = re.search(r"Page size: +([0-9.]+) x ([0-9.]+)", info)
        tap.equal(re.search(r"Pages: +(\d+)", info)[1], "1")
        tap.true(abs(float(size[1]) - 100 / 25.4 * 72) < 0.1, f"{size[0]}")

        program.keys("Escape", title=title)
        wait(lambda: not program.frame(title), "the sheets' window to close")
        tap.equal(program.leave(), 0, "exit status:")
    finally:
        program.kill()


@tap.test("/ui/flows/a-wheel-with-ctrl-brings-the-boards-closer")
def test_wheel_on_boards():
    """With Ctrl it zooms in on what is at the pointer, and out again; with Shift it moves the page."""
    begin()
    program = Program(CAVETTO, os.path.join(TOP, "docs", "examples", "plain-steps.cavetto"))
    boards = "panel", "Rails on the boards"
    place = 0.7, 0.3

    def box():
        return extents(program.wait_for(*boards))

    def turn(button, clicks, seen, what, *held):
        """Again where nothing comes of it: the window may not have been ready. The key is let go
        of in the same breath."""
        def turn_once():
            xdo("mousemove", *pointer, "sleep", 0.1, *(("keydown", *held) if held else ()),
                "click", "--repeat", clicks, "--delay", 30, button,
                *(("keyup", *held) if held else ()))
            return wait(seen, what, 5)
        wait(turn_once, what)

    def check_held():
        x = program.point(program.wait_steady(*boards), *place)[0]
        tap.true(abs(x - pointer[0]) < 5, f"what was at {pointer[0]} has gone to {x}")

    try:
        program.wait_frame("plain-steps – Cavetto")
        program.keys("alt+3")
        pointer = program.point(program.wait_steady(*boards), *place)
        width = box()[2]
        turn(4, 1, lambda: box()[2] > 1.1 * width, "wider boards", "ctrl")
        check_held()
        turn(4, 14, lambda: box()[2] > 6 * width, "boards far beyond the page", "ctrl")
        check_held()
        wide, left = box()[2], box()[0]
        turn(5, 1, lambda: box()[0] < left, "the page to move", "shift")
        turn(4, 1, lambda: box()[0] == left, "the page to move back", "shift")
        tap.equal(box()[2], wide, "width after a wheel without Ctrl:")
        turn(5, 3, lambda: box()[2] < 0.8 * wide, "narrower boards", "ctrl")
        check_held()
        program.keys("ctrl+0")
        wait(lambda: box()[2] == width, "the boards as wide as the page")
        tap.equal(program.leave(), 0, "exit status:")
    finally:
        program.kill()


def new_pdf(before):
    """What has come since, whole; GTK puts it into its folder under a name of its own."""
    def find():
        for path in pdfs() - before:
            with open(path, "rb") as file:
                if file.read().rstrip().endswith(b"%%EOF"):
                    return path
        return None
    return wait(find, "the printed file")


def pdfs():
    return set(glob.glob(os.path.join(FOLDER, "*.pdf"))
               + glob.glob(os.path.join(os.environ["HOME"], "**", "*.pdf"), recursive=True))


def print_pages(program, title):
    """Through GTK's dialog, which begins with a printer: where there is none, one to a file."""
    before = pdfs()
    program.keys("ctrl+p", title=title)
    program.wait_x_window("Print")
    wait(lambda: program.find_chosen("table row", "Print"), "a printer that is chosen")
    program.keys("alt+p", title="Print")
    path = new_pdf(before)
    wait(lambda: not program.frame("Print"), "the dialog to close")
    return path


def ask(program, *arguments):
    return subprocess.run([program, *arguments], capture_output=True, text=True, check=True).stdout


@tap.test("/ui/flows/sheets-are-printed")
def test_printing():
    """Paper and unit are chosen, the pages printed to a file through GTK's own dialog; the next run
    begins with what was chosen in this one."""
    begin()
    title = "Sheets for the shop"
    os.chdir(FOLDER)
    os.environ["GSETTINGS_BACKEND"] = "keyfile"
    for run in range(2):
        program = Program(CAVETTO, os.path.join(TOP, "docs", "examples", "plain-steps.cavetto"))
        try:
            program.wait_frame("plain-steps – Cavetto")
            wait_plan(program)
            program.point_away()
            program.keys("ctrl+shift+p")
            program.wait_frame(title)
            program.wait_for("image", "Page 1 of", title)
            if run == 0:
                program.click("combo box", "Paper", title,
                              until=lambda: program.find("label", "US Letter", title))
                program.keys("Down", "Down", "Return", title=title)
                program.click("combo box", "Unit", title,
                              until=lambda: program.find("label", "Decimal inches", title))
                program.keys("End", "Up", "Return", title=title)
            wait(lambda: "All figures but tool names" in program.find(
                "image", "Page 1 of", title).description, "the pages in inches")
            printed = print_pages(program, title)
            info = ask("pdfinfo", printed)
            text = ask("pdftotext", printed, "-")
            tap.contains(info, "792 x 612 pts (letter)")
            tap.contains(text, "1 33/64")
            tap.contains(text, "Setup 1 of 1")
            tap.contains(ask("pdffonts", printed), "yes yes yes")
            tap.contains(info, f"Pages:           {text.count(chr(12))}")
            os.remove(printed)
            program.keys("Escape", title=title)
            wait(lambda: not program.frame(title), "the sheets' window to close")
            tap.equal(program.leave(), 0, "exit status:")
        finally:
            program.kill()


status = tap.run()
shutil.rmtree(FOLDER, ignore_errors=True)
sys.exit(status)
