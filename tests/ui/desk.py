# SPDX-License-Identifier: GPL-3.0-or-later
"""The program as its user has it: assistive technology (AT-SPI) finds what is in the window, xdotool
moves the pointer and types. Needs a display and a session bus (in-window.sh), and the system's own
Python for pyatspi. Nothing here sleeps for a time that is hoped to be enough: everything is asked for
until it is so, or until the deadline."""
import os
import signal
import subprocess
import time

# A warning is fatal to the program, not to the one who looks at it.
DEBUG = os.environ.pop("G_DEBUG", "")
import pyatspi  # noqa: E402

SECONDS = float(os.environ.get("CAV_SECONDS", 60))


def wait(find, what, seconds=SECONDS):
    """Asks again and again until find gives something; what it waited for is in the complaint."""
    end, last = time.time() + seconds, None
    while time.time() < end:
        try:
            last = find()
            if last:
                return last
        except Exception as error:  # an object that has just gone, a bus that is slow
            last = error
        time.sleep(0.02)
    shot = os.environ.get("CAV_SHOT")  # to see why
    if shot:
        subprocess.run(["import", "-window", "root", f"{shot}-{int(end)}.png"], check=False)
    raise AssertionError(f"waited in vain for {what} (last: {last!r})")


def look(find, tries=20):
    """What find gives, asked again where something has gone while it was looked at: a page may be
    built anew at any moment."""
    for left in range(tries, 0, -1):
        try:
            return find()
        except Exception:
            if left == 1:
                raise
            time.sleep(0.05)


def xdo(*arguments):
    done = subprocess.run(["xdotool", *map(str, arguments)], capture_output=True, text=True)
    return done.stdout


def state(thing):
    return thing.getState()


def extents(thing):
    box = thing.queryComponent().getExtents(pyatspi.WINDOW_COORDS)
    return box.x, box.y, box.width, box.height


def every(thing, role):
    """All things of a role below, in order."""
    found = []
    for child in thing:
        if child.getRoleName() == role:
            found.append(child)
        found += every(child, role)
    return found


def is_shown(thing):
    """GTK 4.8 says of windows alone whether they are showing; what is not on the page has no size."""
    if not state(thing).contains(pyatspi.STATE_VISIBLE):
        return False
    try:
        return min(extents(thing)[2:]) > 0
    except NotImplementedError:  # pages of a stack have no extents
        return True


def descend(thing, role, name):
    """The first thing below of that role and with name in its name. Pages and panels that are not
    shown are not gone into: a user cannot either, and they are large."""
    for i in range(thing.childCount):
        child = thing.getChildAtIndex(i)
        if child is None:
            continue
        child_role = child.getRoleName()
        if child_role == role and name in child.name and is_shown(child):
            return child
        if child_role == "filler" and not is_shown(child):
            continue
        found = descend(child, role, name)
        if found is not None:
            return found
    return None


class Program:
    """One run of the program."""

    def __init__(self, cavetto, *arguments):
        self.process = subprocess.Popen([cavetto, *arguments], stdin=subprocess.DEVNULL,
                                        env={**os.environ, "G_DEBUG": DEBUG})
        self.found = {}
        self.tree = wait(self.find_tree, "the program on the bus")

    def find_tree(self):
        for one in pyatspi.Registry.getDesktop(0):
            if one and one.get_process_id() == self.process.pid and one.childCount:
                return one
        return None

    # Finding

    def frame(self, title):
        """The window with title in its title."""
        for one in self.tree:
            if one is not None and title in one.name:
                return one
        return None

    def wait_frame(self, title):
        return wait(lambda: self.frame(title), f"a window with {title!r} in its title")

    def find(self, role, name, title="Cavetto", panel=""):
        """The first thing that is shown, of that role and with name in its name, or None; below a
        panel of the side column, where one is named."""
        if panel:
            below = self.find("filler", panel, title)
            return below and descend(below, role, name)
        known = self.found.get((role, name, title))
        try:
            if known and name in known.name and is_shown(known):
                return known
        except Exception:  # it has gone
            pass
        frame = self.frame(title)
        found = frame and look(lambda: descend(frame, role, name))
        self.found[role, name, title] = found
        return found

    def wait_for(self, role, name, title="Cavetto", panel=""):
        return wait(lambda: self.find(role, name, title, panel), f"a {role} called {name!r}")

    def wait_gone(self, role, name, title="Cavetto"):
        wait(lambda: not self.find(role, name, title), f"no more {role} called {name!r}")

    def is_usable(self, role, name, title="Cavetto"):
        thing = self.find(role, name, title)
        return thing is not None and state(thing).contains(pyatspi.STATE_SENSITIVE)

    def wait_usable(self, role, name, title="Cavetto"):
        wait(lambda: self.is_usable(role, name, title), f"{name!r} to be usable")
        return self.wait_for(role, name, title)

    def wait_pressed(self, name):
        def is_pressed():
            thing = self.find("push button", name)
            return thing is not None and state(thing).contains(pyatspi.STATE_PRESSED)
        wait(is_pressed, f"{name!r} to be down")

    def wait_focus(self, role, name, title="Cavetto"):
        def has_focus():
            thing = self.find(role, name, title)
            return thing is not None and state(thing).contains(pyatspi.STATE_FOCUSED)
        wait(has_focus, f"{name!r} to have the focus")

    def find_chosen(self, role, title):
        """The first thing of a role that is chosen, as the row of a list."""
        frame = self.frame(title)
        return frame and look(lambda: next(
            (one for one in every(frame, role)
             if state(one).contains(pyatspi.STATE_SELECTED)), None))

    # Doing

    def x_window(self, title):
        """The X window with title in its title."""
        windows = xdo("search", "--onlyvisible", "--pid", self.process.pid, "--name", title).split()
        return windows[-1] if windows else None

    def wait_x_window(self, title):
        return wait(lambda: self.x_window(title), f"an X window {title!r}")

    def focus(self, title="Cavetto"):
        """No window manager gives the focus back when a dialog closes."""
        window = self.wait_x_window(title)

        def focused():
            xdo("windowfocus", window)
            return xdo("getwindowfocus").strip() == window
        wait(focused, f"the focus for {title!r}")

    def keys(self, *keys, title="Cavetto"):
        self.focus(title)
        xdo("key", "--delay", 20, *keys)

    def type(self, text, title="Cavetto"):
        self.focus(title)
        xdo("type", "--delay", 15, text)

    def point(self, thing, x, y, title="Cavetto"):
        """The point of the screen at x, y (parts of its size) of a thing."""
        lines = xdo("getwindowgeometry", "--shell", self.wait_x_window(title)).split()
        place = dict(line.split("=") for line in lines)
        frame = extents(self.wait_frame(title))
        # The X window has a border for the shadow, which the extents leave out.
        border = (int(place["WIDTH"]) - frame[2]) // 2
        box = extents(thing)
        return (int(place["X"]) + border + box[0] + round(box[2] * x),
                int(place["Y"]) + border + box[1] + round(box[3] * y))

    def drag(self, thing, start, end, let_go=True):
        """With the pointer, in steps as a hand makes them."""
        from_x, from_y = self.point(thing, *start)
        to_x, to_y = self.point(thing, *end)
        steps = ["mousemove", from_x, from_y, "sleep", 0.05, "mousedown", 1]
        for i in range(1, 9):
            steps += ["mousemove", from_x + (to_x - from_x) * i // 8,
                      from_y + (to_y - from_y) * i // 8, "sleep", 0.01]
        xdo(*steps, *(["mouseup", 1] if let_go else []))

    @staticmethod
    def let_go():
        """The button that a drag has left down: it is down for the next program, too."""
        xdo("mouseup", 1)

    @staticmethod
    def point_away():
        """Out of the window, for what is done without a pointer."""
        xdo("mousemove", 1275, 1015)

    def wait_steady(self, role, name, title="Cavetto", panel="", seconds=SECONDS):
        """The thing, as soon as it stays where it is: a window that has just come is still moving,
        and so is what is in it."""
        def steady():
            thing = self.find(role, name, title, panel)
            places = []
            for _ in range(4):
                places.append((self.point(thing, 0, 0, title), self.point(thing, 1, 1, title)))
                time.sleep(0.05)
            return thing if places.count(places[0]) == len(places) else None
        return wait(steady, f"a {role} called {name!r} that stays in its place", seconds)

    def click_into(self, role, name, title="Cavetto", panel=""):
        """Clicks on an entry until it has the focus."""
        def try_once():
            thing = self.wait_steady(role, name, title, panel)
            xdo("mousemove", *self.point(thing, 0.5, 0.5, title), "click", 1)
            time.sleep(0.1)
            return state(thing).contains(pyatspi.STATE_FOCUSED)
        wait(try_once, f"the focus in {name!r}")

    def click(self, role, name, title="Cavetto", until=None):
        """Clicks on what has no action of its own, as a row of a list, and again if what should
        come of it (until) has not come after a while: the first click may meet a window that is not
        ready for it."""
        def try_once():
            if until and until():
                return True
            thing = self.wait_steady(role, name, title, seconds=5)
            xdo("mousemove", *self.point(thing, 0.5, 0.5, title), "sleep", 0.1, "click", 1)
            return wait(until, "the click to be seen", 5) if until else True
        wait(try_once, f"a click on {name!r} to do something")

    def press(self, role, name, title="Cavetto"):
        """Presses a button by its action, as assistive technology does."""
        self.wait_usable(role, name, title).queryAction().doAction(0)

    def save_as(self, dialog, path, ending):
        """Answers a dialog that asks where to save; the ending stands there already, or is added.
        What was typed is looked at before it is sent, and sent again where nothing comes of it."""
        def text():
            entry = self.wait_for("text", "Name:", dialog).queryText()
            return entry.getText(0, entry.characterCount)

        def type_once():
            self.keys("ctrl+a", title=dialog)
            self.type(path, title=dialog)
            return wait(lambda: text() == path, f"{path} in {dialog!r}", 5)

        def save_once():
            if not os.path.exists(path + ending):
                self.keys("Return", title=dialog)
            return wait(lambda: os.path.exists(path + ending), f"{path + ending} to be written", 8)
        wait(type_once, f"{path} to be typed into {dialog!r}")
        wait(save_once, f"{path + ending} to be saved")
        wait(lambda: not self.frame(dialog), f"{dialog!r} to go")

    # The end

    def is_running(self):
        return self.process.poll() is None

    def leave(self, key="ctrl+q", title="Cavetto"):
        """Ends the program by a key; the exit status. Pressed again where nothing comes of it: a
        dialog that has just gone may have taken the focus, and the key, with it."""
        def try_once():
            if self.is_running():
                self.keys(key, title=title)
            return wait(lambda: not self.is_running(), "the program to end", 8)
        wait(try_once, f"{key} to end the program", 3 * SECONDS)
        return self.process.returncode

    def kill(self):
        """As a crash would end it."""
        if self.is_running():
            os.kill(self.process.pid, signal.SIGKILL)
        self.process.wait()
