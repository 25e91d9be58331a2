# SPDX-License-Identifier: GPL-3.0-or-later
"""The program as a shell has it, with files to feed it: for tests that are called with TOP CAVETTO."""
import atexit
import functools
import os
import re
import shutil
import subprocess
import sys
import tempfile

import tap

TOP, CAVETTO = sys.argv[1], os.path.abspath(sys.argv[2])
EXAMPLES = os.path.join(TOP, "docs", "examples")
DEMOS = ["plain-steps", "cove-and-bead", "wide-scoop"]
# Somebody who is neither root nor the owner of anything here.
NOBODY = 65534
# Longest that anything here may take.
SECONDS = float(os.environ.get("CAV_SECONDS", 120))

# The command line needs no display, and without one no window can open here.
for name in ("DISPLAY", "WAYLAND_DISPLAY"):
    os.environ.pop(name, None)

FOLDER = tempfile.mkdtemp(prefix="cavetto-test-")
# Plans that were found before are not those of these tests.
os.environ["XDG_CACHE_HOME"] = os.path.join(FOLDER, "cache")
atexit.register(shutil.rmtree, FOLDER, ignore_errors=True)
os.chmod(FOLDER, 0o755)


def at(name):
    return os.path.join(FOLDER, name)


def write(name, text):
    data = text if isinstance(text, bytes) else text.encode()
    with open(at(name), "wb") as file:
        file.write(data)
    return at(name)


def read(name):
    with open(at(name), "rb") as file:
        return file.read()


def demo(name):
    return os.path.join(EXAMPLES, name + ".cavetto")


def fern():
    """A project that is planned in no time: a rabbet and nothing else."""
    return write("fern.cavetto", project(RABBET))


@functools.lru_cache(maxsize=None)
def planned(name, ending):
    """The plan of a demo as the bytes of a file, made once."""
    file = "planned-" + name + ending
    tap.equal(succeed("passes", demo(name), "-o", at(file)), b"")
    return read(file)


def run(*arguments, program=CAVETTO, environment=None, **options):
    return subprocess.run(
        [program, *arguments], stdin=subprocess.DEVNULL, capture_output=True, timeout=SECONDS,
        env={**os.environ, **(environment or {})}, check=False, **options)


def succeed(*arguments, **options):
    done = run(*arguments, **options)
    tap.equal(done.stderr, b"", f"{arguments} on standard error:")
    tap.equal(done.returncode, 0, f"exit status of {arguments}:")
    return done.stdout


def refuse(arguments, status, *says, **options):
    """One line on standard error that says all of that, nothing on standard output."""
    done = run(*arguments, **options)
    message = done.stderr.decode()
    tap.equal(done.returncode, status, f"exit status of {arguments} ({message!r}):")
    tap.equal(done.stdout, b"", f"{arguments} on standard output:")
    tap.true(message.startswith("cavetto: ") and message.endswith("\n") and message.count("\n") == 1
             and len(message) < 700, f"not one line: {message!r}")
    tap.true(not re.search(r"[\x00-\x09\x0b-\x1f\x7f]", message), f"control characters: {message!r}")
    for part in says:
        tap.contains(message, part, f"{arguments}:")
    return message


def project(cuts="", blank='width="45" thickness="22"', extra="", version="1", title="Fern"):
    return (f'<?xml version="1.0" encoding="UTF-8"?>\n<cavetto version="{version}" unit="mm">\n'
            f'<title>{title}</title>\n<blank {blank}/>\n<rails count="4" length="1480"/>\n'
            f'<cuts>\n{cuts}</cuts>\n{extra}</cavetto>\n')


RABBET = '<rabbet corner="back-inside" width="6" depth="10"/>\n'
SHOP = ('<shop version="1" unit="mm">\n'
        '<blade id="rip" diameter="254" kerf="3.2" height="75" tilt="45" bite="80" grind="flat"/>\n'
        '</shop>\n')


def outline(path, size='width="60mm" height="25mm" viewBox="0 0 60 25"', before=""):
    return (f'<?xml version="1.0"?>\n{before}<svg xmlns="http://www.w3.org/2000/svg" {size}>'
            f'<path d="{path}"/></svg>\n')


STEPS = "M 6,25 L 60,25 60,0 38,0 38,4 24,4 24,8 10,8 10,11 0,11 0,15 6,15 Z"


def as_nobody():
    """Options that run the program as somebody without rights, where we are root. A program that
    counts its own lines would complain that it cannot; it gets a place of its own for that."""
    if os.geteuid() != 0:
        return {}
    os.makedirs(at("counts"), exist_ok=True)
    os.chmod(at("counts"), 0o777)
    return {"user": NOBODY, "group": NOBODY, "extra_groups": [],
            "environment": {"GCOV_PREFIX": at("counts")}}


def open_program():
    """A copy that anybody may run, wherever the build folder stands."""
    if not os.path.exists(at("cavetto")):
        shutil.copy(CAVETTO, at("cavetto"))
        os.chmod(at("cavetto"), 0o755)
    return at("cavetto")


def bomb():
    names = "\n".join(f'<!ENTITY e{i + 1} "{("&e%d;" % i) * 10}">' for i in range(9))
    return f'<?xml version="1.0"?>\n<!DOCTYPE x [<!ENTITY e0 "fern">\n{names}]>\n'


def bad_projects():
    points = "".join(f'<line x="{i % 40}" y="{i % 20}"/>' for i in range(1_000_000))
    return [
        ("empty", "", ""),
        ("not-xml", "passes, please\n", ""),
        ("cut-short", project(RABBET)[:120], ""),
        ("something-else", "<html><body/></html>\n", "html"),
        ("a-shop", SHOP, "shop"),
        ("newer", project(RABBET, version="99"), "newer version"),
        ("version-of-words", project(RABBET, version="new"), ""),
        ("unknown-element", project(RABBET + "<dovetail/>\n"), "dovetail"),
        ("unknown-attribute", project(RABBET.replace("/>", ' hue="red"/>')), "hue"),
        ("missing-attribute", project('<rabbet corner="back-inside" width="6"/>'), "depth"),
        ("missing-blank", project(RABBET).replace("<blank", "<!--").replace('22"/>', '22 -->', 1),
         "blank"),
        ("nan", project(RABBET.replace('"6"', '"nan"')), "width"),
        ("infinite", project(RABBET.replace('"6"', '"INF"')), "width"),
        ("far-too-large", project(RABBET.replace('"6"', '"1e400"')), "width"),
        ("comma", project(RABBET.replace('"6"', '"6,5"')), "width"),
        ("negative", project(RABBET.replace('"6"', '"-6"')), "width"),
        ("blank-of-nothing", project(RABBET, blank='width="0" thickness="22"'), "width"),
        ("negative-blank", project(RABBET, blank='width="45" thickness="-22"'), "thickness"),
        ("no-rails", project(RABBET).replace('count="4"', 'count="0"'), "count"),
        ("half-a-rail", project(RABBET).replace('count="4"', 'count="1.5"'), "count"),
        ("no-length", project(RABBET).replace('length="1480"', 'length="0"'), "length"),
        ("unknown-wood", project(RABBET, extra='<wood id="cork"/>'), "cork"),
        ("million-points", project(f'<drawn><start x="0" y="0"/>{points}</drawn>'), ""),
        ("entity-bomb", bomb() + project("&e9;").split("\n", 1)[1], ""),
        ("outer-entity", '<?xml version="1.0"?>\n<!DOCTYPE x [<!ENTITY f SYSTEM "file:///etc/passwd">'
         ']>\n' + project("&f;").split("\n", 1)[1], ""),
        ("not-utf-8", project(RABBET).encode().replace(b"Fern", b"F\xffrn"), ""),
        ("nul", project(RABBET).encode().replace(b"Fern", b"F\0rn"), ""),
        ("deep", "<a>" * 100_000, ""),
    ]
