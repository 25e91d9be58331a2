#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""The program and its desktop, the session bus and the web browser: test-desktop.py TOP CAVETTO
SERVICE. Runs itself once more on a bus that knows the service."""
import os
import re
import shutil
import subprocess
import sys
import tempfile

TOP, CAVETTO, SERVICE = sys.argv[1], os.path.abspath(sys.argv[2]), sys.argv[3]
ID = "org.cavetto.Cavetto"
INSIDE = "CAV_DESKTOP_FOLDER"

if INSIDE not in os.environ:
    folder = tempfile.mkdtemp(prefix="cavetto-desktop-")
    services = os.path.join(folder, "dbus-1", "services")
    os.makedirs(services)
    with open(SERVICE, encoding="utf-8") as file:
        lines = file.read().splitlines()
    # The program that is tested stands in for the one that is installed; what follows it stays.
    lines = [f"Exec={CAVETTO} {line.split(' ', 1)[1]}" if line.startswith("Exec=") else line
             for line in lines]
    with open(os.path.join(services, ID + ".service"), "w", encoding="utf-8") as file:
        file.write("\n".join(lines) + "\n")
    # As in in-window.sh: what the bus starts has no part in what is said here.
    os.dup2(1, 3)
    status = subprocess.run(
        ["dbus-run-session", "--", "sh", "-c", 'exec "$@" >&3 3>&-', "sh", sys.executable,
         *sys.argv], check=False, stdout=subprocess.DEVNULL, pass_fds=(3,),
        env={**os.environ, INSIDE: folder,
             "XDG_DATA_DIRS": folder + ":" + os.environ.get("XDG_DATA_DIRS",
                                                            "/usr/local/share:/usr/share")}).returncode
    shutil.rmtree(folder, ignore_errors=True)
    sys.exit(status)

sys.dont_write_bytecode = True
sys.path.insert(0, os.path.join(TOP, "tests", "support"))
sys.path.insert(0, os.path.join(TOP, "tests", "ui"))
import tap  # noqa: E402
from desk import Program, descend, wait  # noqa: E402

FOLDER = os.environ[INSIDE]
APPLICATIONS = os.path.join(os.environ["XDG_DATA_HOME"], "applications")
SEEN = os.path.join(FOLDER, "seen")
DEMO = os.path.join(TOP, "docs", "examples", "plain-steps.cavetto")


def run(*command):
    return subprocess.run(command, stdin=subprocess.DEVNULL, capture_output=True, text=True,
                          check=False, timeout=60)


def windows():
    """Titles of the program's windows, whoever started it."""
    done = run("xdotool", "search", "--onlyvisible", "--name", "Cavetto|Begin a frame")
    return [run("xdotool", "getwindowname", one).stdout.strip() for one in done.stdout.split()]


def is_on_bus():
    done = run("gdbus", "call", "--session", "--dest", "org.freedesktop.DBus", "--object-path",
               "/org/freedesktop/DBus", "--method", "org.freedesktop.DBus.NameHasOwner", ID)
    return "true" in done.stdout


def quit_program():
    run("gapplication", "action", ID, "quit")
    wait(lambda: not is_on_bus(), "the program to end")


@tap.test("/desktop/bus/starts-the-program-for-a-project")
def test_activation():
    tap.true(not is_on_bus(), "the program runs already")
    tap.true(ID in run("gdbus", "call", "--session", "--dest", "org.freedesktop.DBus",
                       "--object-path", "/org/freedesktop/DBus", "--method",
                       "org.freedesktop.DBus.ListActivatableNames").stdout, "no such service")
    done = run("gapplication", "launch", ID, DEMO)
    tap.equal(done.returncode, 0, done.stderr)
    try:
        wait(lambda: any("plain-steps" in title for title in windows()), "a window with the project")
    finally:
        quit_program()


@tap.test("/desktop/bus/starts-the-program-without-a-project")
def test_activation_bare():
    done = run("gapplication", "launch", ID)
    tap.equal(done.returncode, 0, done.stderr)
    try:
        wait(windows, "a window")
    finally:
        quit_program()


def use_browser(script):
    """Makes a program of that shell script the one that shows web pages; None takes it away."""
    shutil.rmtree(APPLICATIONS, ignore_errors=True)
    os.makedirs(APPLICATIONS)
    if script is None:
        return
    browser = os.path.join(FOLDER, "browser.sh")
    with open(browser, "w", encoding="utf-8") as file:
        file.write("#!/bin/sh\n" + script + "\n")
    os.chmod(browser, 0o755)
    with open(os.path.join(APPLICATIONS, "browser.desktop"), "w", encoding="utf-8") as file:
        file.write(f"[Desktop Entry]\nType=Application\nName=Browser\nExec={browser} %u\n"
                   "MimeType=text/html;\n")
    with open(os.path.join(APPLICATIONS, "mimeapps.list"), "w", encoding="utf-8") as file:
        file.write("[Default Applications]\ntext/html=browser.desktop\n")


def read_seen():
    if not os.path.exists(SEEN):
        return None
    with open(SEEN, encoding="utf-8") as file:
        return file.read().strip()


@tap.test("/desktop/guide/key-opens-it-in-the-browser")
def test_guide():
    use_browser(f'echo "$1" >"{SEEN}.new"; mv "{SEEN}.new" "{SEEN}"')
    program = Program(CAVETTO, DEMO)
    try:
        program.wait_frame("Cavetto")
        program.keys("F1")
        address = wait(read_seen, "the browser to be called")
        with open(re.sub("^file://", "", address), encoding="utf-8") as file:
            tap.contains(file.read(), "<h1>Guide to Cavetto</h1>")
        tap.equal(program.leave(), 0, "exit status:")
    finally:
        program.kill()


def find_dialog(program, words):
    """The window with a label of these words; dialogs have no title."""
    for frame in program.tree:
        if frame and descend(frame, "label", words):
            return frame
    return None


@tap.test("/desktop/guide/says-when-nothing-can-show-it")
def test_no_browser():
    # No other folder of applications is looked into, whatever this machine has.
    use_browser(None)
    kept = os.environ["XDG_DATA_DIRS"]
    bare = os.path.join(FOLDER, "bare")
    os.makedirs(bare)
    for name in ("icons", "mime", "glib-2.0", "themes", "fonts"):
        if os.path.isdir("/usr/share/" + name):
            os.symlink("/usr/share/" + name, os.path.join(bare, name))
    os.environ["XDG_DATA_DIRS"] = bare
    program = Program(CAVETTO, DEMO)
    os.environ["XDG_DATA_DIRS"] = kept
    try:
        program.wait_frame("Cavetto")
        program.keys("F1")
        words = "No program that shows web pages"
        dialog = wait(lambda: find_dialog(program, words), "a sentence")
        tap.contains(descend(dialog, "label", words).name, "index.html")
        descend(dialog, "push button", "Close").queryAction().doAction(0)
        wait(lambda: not find_dialog(program, words), "the dialog to close")
        tap.equal(program.leave(), 0, "exit status:")
    finally:
        program.kill()


sys.exit(tap.run())
