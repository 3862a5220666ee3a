# SPDX-License-Identifier: GPL-3.0-or-later
"""The real window, driven through the accessibility bus: found by role and name, waited for by condition, never by place or time."""

import os
import signal
import subprocess
import sys
import time

import gi

gi.require_version("Atspi", "2.0")
from gi.repository import Atspi, GLib  # noqa: E402  (the version comes first)

# A call to a busy program waits this long for its answer (ms): its default of under a second is too short for a sanitized build.
Atspi.set_timeout(30000, 120000)

DEADLINE = 240  # seconds until a condition counts as never coming true (a sanitized build on a busy machine is slow); not a measure of anything
LOOK_AGAIN = 40  # milliseconds between two looks at a condition


class Missing(Exception):
    """A condition did not come true."""


class Tap:
    """Counts and prints results in the Test Anything Protocol."""

    def __init__(self):
        self.count = self.failed = 0

    def check(self, holds, name, *why):
        self.count += 1
        self.failed += not holds
        print("%s %d - %s" % ("ok" if holds else "not ok", self.count, name))
        for line in () if holds else why:
            print("# %s" % line)
        sys.stdout.flush()

    def run(self, steps):
        """Each step is a function; what it raises is its failure, and the steps after it are not taken."""
        for step in steps:
            try:
                step()
                self.check(True, step.__doc__)
            except (Missing, AssertionError, GLib.Error) as error:
                self.check(False, step.__doc__, *str(error).splitlines())
                break
        print("1..%d" % self.count)
        return 1 if self.failed or not self.count else 0


def wait(condition, what):
    """The first true value of `condition`; Missing after the deadline. The bus is heard meanwhile."""
    context = GLib.MainContext.default()
    end = time.monotonic() + DEADLINE
    while True:
        began = time.monotonic()
        try:
            value = condition()
        except GLib.Error:  # what was looked at is gone: look again
            value = None
        if value:
            return value
        if time.monotonic() > end:
            raise Missing("never: %s" % what)
        # A look keeps the program busy with answers: it gets as long for its own work before the next one.
        pause = max(LOOK_AGAIN, int(1000 * (time.monotonic() - began)))
        over = []
        GLib.timeout_add(pause, lambda: over.append(True))  # None: once
        while not over:
            context.iteration(True)


def children(node):
    for index in range(node.get_child_count()):
        child = node.get_child_at_index(index)
        if child is not None:
            yield child


def walk(node):
    """The node and all below it, depth first."""
    yield node
    for child in children(node):
        yield from walk(child)


def has(node, state):
    return node.get_state_set().contains(state)


def showing(node):
    return has(node, Atspi.StateType.SHOWING)


class Desk:
    """One running program and its accessible tree."""

    def __init__(self, program, *arguments):
        environment = dict(os.environ)
        if "ASAN_OPTIONS" in environment:  # whole stacks, so that what the toolkit never frees is told from what we do not
            environment["ASAN_OPTIONS"] += ":fast_unwind_on_malloc=0"
        self.process = subprocess.Popen([program, *arguments], env=environment)
        self.root = wait(self._application, "the program on the accessibility bus")

    def _application(self):
        if self.process.poll() is not None:
            raise Missing("the program ended with status %d" % self.process.returncode)
        for application in children(Atspi.get_desktop(0)):
            if application.get_process_id() == self.process.pid:
                return application
        return None

    def find_now(self, role, name=None, hidden=False, under=None):
        """The first node of a role whose name is, or is accepted by, `name`; None."""
        for node in walk(under or self.root):
            if node.get_role_name() != role or not (hidden or showing(node)):
                continue
            if name is None or (name(node.get_name()) if callable(name) else node.get_name() == name):
                return node
        return None

    def find(self, role, name=None, hidden=False):
        return wait(lambda: self._alive() and self.find_now(role, name, hidden), "%s %s" % (role, name if isinstance(name, str) else ""))

    def gone(self, role, name):
        wait(lambda: self._alive() and self.find_now(role, name) is None, "no %s %s any more" % (role, name))

    def _alive(self):
        if self.process.poll() is not None:
            raise Missing("the program ended with status %d" % self.process.returncode)
        return True

    def label(self, accept, what):
        """The text of the first label that `accept` takes."""
        return wait(lambda: self._alive() and next((n.get_name() for n in walk(self.root)
                                                    if n.get_role_name() == "label" and showing(n) and accept(n.get_name())), None), what)

    def verdict(self, accept, what):
        """How the selected move stands, as soon as `accept` takes it."""
        def now():
            self._alive()
            for node in walk(self.root):
                if node.get_description() == "How the selected move stands" and accept(node.get_name()):
                    return node.get_name()
            return None
        return wait(now, what)

    def press(self, role, name, within=None):
        """Does what a button is for, once it can be pressed; `within` a role that holds it."""
        def ready():
            under = self._alive() and within and self.find_now(within)
            if within and not under:
                return None
            node = self.find_now(role, name, under=under or None)
            return node if node and has(node, Atspi.StateType.SENSITIVE) else None
        wait(ready, "%s %s to press" % (role, name)).get_action_iface().do_action(0)

    def rows(self, name):
        """The rows of a table, each as the list of its cells' texts."""
        table = self.find("table", name)
        grid = table.get_table_iface()
        return [[grid.get_accessible_at(row, column).get_name() for column in range(grid.get_n_columns())] for row in range(grid.get_n_rows())]

    def selected_row(self, name):
        """The index of the selected row of a table; None."""
        grid = self.find("table", name).get_table_iface()
        return next((row for row in range(grid.get_n_rows()) if has(grid.get_accessible_at(row, 0), Atspi.StateType.SELECTED)), None)

    @staticmethod
    def key(name, *modifiers):
        """Types a key: key ("p", "Control"). The window with the keyboard gets it."""
        mask = sum(MODIFIERS[modifier] for modifier in modifiers)
        if mask:
            Atspi.generate_keyboard_event(mask, None, Atspi.KeySynthType.LOCKMODIFIERS)
        Atspi.generate_keyboard_event(KEYS[name] if name in KEYS else ord(name), None, Atspi.KeySynthType.SYM)
        if mask:
            Atspi.generate_keyboard_event(mask, None, Atspi.KeySynthType.UNLOCKMODIFIERS)

    def quit(self):
        """Waits until the program has ended by itself; its exit status."""
        wait(lambda: self.process.poll() is not None, "the end of the program")
        return self.process.returncode

    def stop(self):
        if self.process.poll() is None:
            self.process.send_signal(signal.SIGTERM)
            self.process.wait()


# X11 keysyms (X.Org, keysymdef.h) and modifier masks (X.h).
KEYS = {"Return": 0xFF0D, "Escape": 0xFF1B, "Right": 0xFF53, "Left": 0xFF51, "Down": 0xFF54, "Up": 0xFF52, "F1": 0xFFBE, "F6": 0xFFC3}
MODIFIERS = {"Shift": 1, "Control": 4}
