#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""The whole job by keyboard alone, as assistive technology hears of it: test-keyboard.py TOP CAVETTO

Nothing here moves the pointer or presses by an action: keys go to the window, and what has the focus is
asked for on the way."""
import glob
import os
import shutil
import subprocess
import sys
import tempfile

TOP, CAVETTO = os.path.abspath(sys.argv[1]), os.path.abspath(sys.argv[2])
sys.dont_write_bytecode = True
sys.path.insert(0, os.path.join(TOP, "tests", "support"))
sys.path.insert(0, os.path.join(TOP, "tests", "ui"))
import tap  # noqa: E402
from desk import Program, state, wait  # noqa: E402
import pyatspi  # noqa: E402

FOLDER = tempfile.mkdtemp(prefix="cavetto-keyboard-")
START, SAVE, SHEETS, PRINT = ("Begin a frame", "Save the project", "Sheets for the shop",
                              "Print")


def find_focus(thing):
    for child in thing:
        if child is None:
            continue
        try:
            if state(child).contains(pyatspi.STATE_FOCUSED):
                return child
        except Exception:  # it has gone
            continue
        found = find_focus(child)
        if found is not None:
            return found
    return None


def pdfs():
    """Where GTK may put what is printed: it names the file itself."""
    found = glob.glob(os.path.join(FOLDER, "**", "*.pdf"), recursive=True)
    return set(found + glob.glob(os.path.join(os.environ["HOME"], "**", "*.pdf"), recursive=True))


def focus_of(program, title):
    frame = program.frame(title)
    return frame and find_focus(frame)


def tab_to(program, role, name, title, key="Tab", most=40):
    """Key by key, until what has the focus is called so."""
    seen = []
    for _ in range(most):
        here = focus_of(program, title)
        if here is not None and here.getRoleName() == role and name in here.name:
            return here
        before = here
        seen.append(here.name if here is not None else None)
        program.keys(key, title=title)
        wait(lambda: focus_of(program, title) not in (None, before), f"{key} to go on from {seen}", 10)
    raise AssertionError(f"{key} does not come to {name!r}: {seen}")


def type_into(program, name, text, title):
    tab_to(program, "text", name, title)
    program.keys("ctrl+a", title=title)
    program.type(text, title=title)


@tap.test("/ui/keyboard/whole-job")
def test_whole_job():
    # What is printed to a file lands in the folder that one is in.
    os.chdir(FOLDER)
    program = Program(CAVETTO)
    project = os.path.join(FOLDER, "fern.cavetto")
    try:
        program.point_away()

        # The picture's size and its mat, then a molding: in that order.
        program.wait_frame(START)
        wait(lambda: focus_of(program, START) is not None, "a place to begin")
        type_into(program, "Width", "240", START)
        program.keys("Tab", title=START)
        type_into(program, "Height", "300", START)
        program.keys("Tab", title=START)
        mat = wait(lambda: focus_of(program, START), "the mat")
        tap.true(mat.getRoleName() == "combo box" and "Mat" in mat.name, f"after height: {mat.name}")
        program.keys("Tab", title=START)
        border = wait(lambda: focus_of(program, START), "its border")
        tap.true(border.getRoleName() == "text" and "Border" in border.name,
                 f"after the mat: {border.name}")
        program.keys("Tab", title=START)
        tile = wait(lambda: focus_of(program, START), "the first molding")
        tap.true("Flat" in tile.name, f"after the border: {tile.name}")
        # What can be chosen says what it costs.
        tile = tab_to(program, "table cell", "Stepped", START)
        wait(lambda: "minute" in tile.name and "setup" in tile.name, "its setups and minutes")
        program.keys("Return", title=START)

        # The molding and its passes.
        program.wait_frame("Stepped")
        program.focus("Stepped")
        program.wait_focus("panel", "Section of the molding", "Stepped")
        canvas = program.wait_for("panel", "Section of the molding", "Stepped")
        wait(lambda: "cuts" in canvas.description, "words of what is drawn")
        program.wait_for("label", "Setup 1", "Stepped")
        wait(lambda: not program.find("label", "Planning", "Stepped"), "the plan")
        program.keys("alt+Page_Down", title="Stepped")
        program.wait_for("label", "Pass 1 of", "Stepped")
        program.keys("alt+Page_Down", title="Stepped")
        program.wait_for("label", "Pass 2 of", "Stepped")
        program.keys("Escape", title="Stepped")

        # Canvas items have names and values: a cut is chosen, moved, and moved back.
        program.focus("Stepped")
        program.wait_focus("panel", "Section of the molding", "Stepped")
        program.keys("Page_Down", title="Stepped")
        wait(lambda: "none chosen" not in canvas.description and "mm" in canvas.description,
             "a cut and its figures to be told")
        cut = canvas.description
        program.keys("Right", title="Stepped")
        wait(lambda: canvas.description != cut, f"another figure than in {cut!r}")
        program.keys("ctrl+z", title="Stepped")
        wait(lambda: canvas.description == cut, "the figure of before")
        program.keys("Escape", title="Stepped")

        # The other pages.
        program.keys("alt+2", title="Stepped")
        program.wait_for("push button", "Cut through", "Stepped")
        program.keys("alt+3", title="Stepped")
        program.wait_for("panel", "Rails on the boards", "Stepped")
        program.keys("alt+1", title="Stepped")

        # Kept in a file.
        program.keys("ctrl+s", title="Stepped")
        program.save_as(SAVE, project.removesuffix(".cavetto"), ".cavetto")
        with open(project, encoding="utf-8") as file:
            text = file.read()
        tap.true('width="240"' in text and 'height="300"' in text, "the picture's size in the file")

        # The sheets, printed to a file.
        program.keys("ctrl+shift+p", title="fern")
        program.wait_frame(SHEETS)
        program.wait_for("label", "Page 1 of", SHEETS)
        program.keys("ctrl+p", title=SHEETS)
        # GTK's dialog: where there is no printer it begins with the one that writes a file.
        program.wait_x_window(PRINT)
        wait(lambda: focus_of(program, PRINT) is not None, "the dialog to be ready")
        before = pdfs()
        wait(lambda: program.find_chosen("table row", PRINT), "a printer that is chosen")
        program.keys("alt+p", title=PRINT)
        wait(lambda: pdfs() - before, "the printed file")
        printed = (pdfs() - before).pop()
        wait(lambda: open(printed, "rb").read().rstrip().endswith(b"%%EOF"), "the whole of it")
        pages = subprocess.run(["pdftotext", "-layout", printed, "-"], capture_output=True, text=True,
                               check=True).stdout
        # The title that nobody wrote has followed the file's name.
        tap.true("fern" in pages and "Setup 1" in pages, f"passes on the page: {pages[:200]}")
    finally:
        program.kill()


status = tap.run()
shutil.rmtree(FOLDER, ignore_errors=True)
sys.exit(status)
