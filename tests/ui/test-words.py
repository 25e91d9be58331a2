#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""The real window in another language: test-words.py TOP CAVETTO CATALOGUES"""
import os
import re
import subprocess
import sys
import tempfile

TOP, CAVETTO = sys.argv[1], os.path.abspath(sys.argv[2])
LOCALES = tempfile.mkdtemp(prefix="cavetto-locales-")
subprocess.run(["localedef", "-i", "de_DE", "-f", "UTF-8", os.path.join(LOCALES, "de_DE.UTF-8")],
               check=True, capture_output=True)
os.environ.update(LOCPATH=LOCALES, LC_ALL="de_DE.UTF-8", LANGUAGE="",
                  CAVETTO_LOCALE_DIR=os.path.abspath(sys.argv[3]))
sys.dont_write_bytecode = True
sys.path.insert(0, os.path.join(TOP, "tests", "support"))
sys.path.insert(0, os.path.join(TOP, "tests", "ui"))
import tap  # noqa: E402
from desk import Program, every, wait  # noqa: E402


@tap.test("/ui/words/the-window-speaks-german")
def test_german():
    program = Program(CAVETTO, os.path.join(TOP, "docs", "examples", "plain-steps.cavetto"))
    try:
        # From the code, from the templates, and of a file that is in English.
        program.wait_frame("plain-steps")
        program.wait_for("panel", "Querschnitt der Leiste")
        program.wait_for("filler", "Durchgänge")
        program.wait_for("label", "Einrichtung 1: ")
        tap.true(not program.find("panel", "Section of the molding"), "the canvas is in English")
        # Figures have the comma of the language, in labels and where they are typed.
        strip = program.find("filler", "Durchgänge")
        words = wait(lambda: [label.name for label in every(strip, "label")
                              if re.search(r"\d,\d", label.name)], "a figure with a comma")
        tap.true(not any(re.search(r"\d\.\d", word) for word in words), f"{words}")
    finally:
        program.process.kill()
        program.process.wait()


sys.exit(tap.run())
