#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""The man page and what shells complete, compared with the program's help: test-manual.py TOP CAVETTO"""
import os
import re
import subprocess
import sys

TOP, CAVETTO = sys.argv[1], os.path.abspath(sys.argv[2])
sys.dont_write_bytecode = True
sys.path.insert(0, os.path.join(TOP, "tests", "support"))
import tap  # noqa: E402

PAGE = os.path.join(TOP, "docs", "cavetto.1")
TOOL = os.path.join(TOP, "src", "tool")


def run(*command, **options):
    return subprocess.run(command, stdin=subprocess.DEVNULL, capture_output=True, text=True,
                          check=False, timeout=60, **options)


def help_of(*command):
    done = run(CAVETTO, *command, "--help")
    tap.equal(done.returncode, 0, done.stderr)
    return done.stdout


def options_in(text):
    """What begins a line of a list of options."""
    return set(re.findall(r"^  (-\S+)", text, re.MULTILINE))


def commands():
    """{command: its options}, from the program itself."""
    listed = help_of().split("Commands:\n")[1].split("\n\n")[0]
    found = {name: options_in(help_of(name)) for name in re.findall(r"^  (\w+) ", listed, re.M)}
    tap.true(len(found) > 5, f"hardly a command: {found}")
    return found


def read(path):
    with open(path, encoding="utf-8") as file:
        return file.read()


@tap.test("/manual/page/is-well-formed")
def test_lint():
    done = run("mandoc", "-T", "lint", "-W", "style", PAGE)
    tap.equal(done.stdout + done.stderr, "", "mandoc:")


@tap.test("/manual/page/knows-each-command-with-its-options")
def test_page():
    text = read(PAGE)
    for name, options in commands().items():
        part = re.search(rf"^\.Ss {name} .*?(?=^\.S[sh] )", text, re.MULTILINE | re.DOTALL)
        tap.true(part, f"{name} is not in the man page")
        line = re.search(r"^Options:\n(\.Fl .*) \.$", part[0], re.MULTILINE)
        tap.true(line, f"{name} has no line of options")
        named = {"-" + one for one in re.findall(r"Fl (-?\w+)", line[1])}
        tap.equal(named, options - {"--help"}, f"options of {name}:")
    told = set(re.findall(r"^\.Ss (\w+)", text, re.MULTILINE))
    tap.equal(told, set(commands()), "commands of the man page:")


@tap.test("/manual/page/explains-each-option")
def test_page_options():
    listed = re.search(r"^\.Sh OPTIONS\n(.*?)^\.Sh", read(PAGE), re.MULTILINE | re.DOTALL)[1]
    explained = {"-" + name for name in re.findall(r"^\.It Fl (-?\w+)", listed, re.MULTILINE)}
    tap.equal(explained, set().union(*commands().values()) | options_in(help_of()), "explained:")


def complete(*words):
    """What bash offers for the last of the words."""
    script = ('source "$0"; COMP_WORDS=("$@"); COMP_CWORD=$(($# - 1)); _cavetto; '
              'printf "%s\\n" "${COMPREPLY[@]}"')
    done = run("bash", "--norc", "-c", script, os.path.join(TOOL, "cavetto.bash"), *words, cwd=TOP)
    tap.equal(done.stderr, "", f"bash on {words}:")
    return set(done.stdout.split())


@tap.test("/manual/bash/offers-commands-and-options")
def test_bash():
    known = commands()
    tap.true(complete("cavetto", "") >= set(known), "a command is missing")
    tap.equal(complete("cavetto", "p"), {"passes", "preview", "po"})
    tap.equal(complete("cavetto", "-"), {"--help", "--version"})
    for name, options in known.items():
        tap.equal(complete("cavetto", name, "-"), options, f"options of {name}:")
    tap.equal(complete("cavetto", "plane", "-"), set())


@tap.test("/manual/bash/offers-values-and-files")
def test_bash_values():
    tap.equal(complete("cavetto", "passes", "--unit", ""), {"mm", "in"})
    tap.equal(complete("cavetto", "passes", "--paper", "l"), {"letter"})
    tap.equal(complete("cavetto", "passes", "--shop", "docs/examples/h"),
              {"docs/examples/hobby-shop.xml"})
    tap.equal(complete("cavetto", "look", "docs/examples/w"),
              {"docs/examples/wide-scoop.cavetto"})
    tap.equal(complete("cavetto", "look", "docs/examples/h"), set())
    for option, values in [("--unit", {"mm", "in"}), ("--paper", {"a4", "letter"}),
                           ("--layout", {"page", "strip", "cards"})]:
        said = re.search(rf"^  {option} (\S+)", help_of("passes"), re.MULTILINE)[1]
        tap.equal(set(said.split("|")), values, f"the program on {option}:")
        tap.equal(complete("cavetto", "passes", option, ""), values, f"bash on {option}:")
        for shell in ("cavetto.fish", "_cavetto"):
            listed = re.search(rf"{option[1:]}\b.*?[('](\w+(?: \w+)+)[)']",
                               read(os.path.join(TOOL, shell)).replace(" -l ", " --"))
            tap.true(listed, f"{shell} has no values of {option}")
            tap.equal(set(listed[1].split()), values, f"{shell} on {option}:")


def check_table(shell, rows):
    """rows: (command, names of its options) as the file of a shell has them."""
    known = {name: {"output" if option == "-o" else option.lstrip("-") for option in options}
             - {"help"} for name, options in commands().items()}
    tap.equal({name: set(options.split()) for name, options in rows}, known, f"{shell}:")


@tap.test("/manual/fish/has-the-same-table")
def test_fish():
    text = read(os.path.join(TOOL, "cavetto.fish"))
    check_table("fish", re.findall(r"^__cavetto_command (\w+) '[^']+' (.*)$", text, re.MULTILINE))
    for option in set().union(*commands().values()) - {"-o", "--help"}:
        tap.contains(text, f" -l {option[2:]} ", "cavetto.fish:")


@tap.test("/manual/zsh/has-the-same-table")
def test_zsh():
    text = read(os.path.join(TOOL, "_cavetto"))
    rows = [(name, options.replace("$", "")) for name, options in
            re.findall(r"^  (\w+)\) _arguments (.*) \$(?:file|picture) ;;$", text, re.MULTILINE)]
    check_table("zsh", rows)
    tap.equal(set(re.findall(r"^  '(\w+):", text, re.MULTILINE)), set(commands()), "zsh:")
    for option in set().union(*commands().values()) - {"--help"}:
        tap.contains(text, f"'{option}[", "_cavetto:")


sys.exit(tap.run())
