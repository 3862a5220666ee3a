# SPDX-License-Identifier: GPL-3.0-or-later
"""Everything in our windows that can take the keyboard has a name, in each state that shows other things.

What is asked: a name for whatever can be operated (WCAG 2.1, success criterion 4.1.2)."""

import sys

from desk import Atspi, Desk, Tap, has, walk

PROGRAM, DEMO = sys.argv[1:3]
# The toolkit's own popups for type-ahead, which it does not name and shows in a window of their own.
OWN_OF_TOOLKIT = ("window",)

desk = Desk(PROGRAM, "--day", "2026-11-25", DEMO)


def windows():
    return [node for node in walk(desk.root) if node.get_parent() == desk.root and node.get_role_name() not in OWN_OF_TOOLKIT]


def path(node):
    steps = []
    while node is not None and node != desk.root:
        steps.append("%s '%s'" % (node.get_role_name(), node.get_name()))
        node = node.get_parent()
    return " < ".join(steps)


def audit(least):
    """No focusable without a name, and so many of them at least: an empty tree proves nothing."""
    focusables = [node for window in windows() for node in walk(window) if has(node, Atspi.StateType.FOCUSABLE)]
    nameless = [path(node) for node in focusables if not (node.get_name() or "").strip()]
    assert not nameless, "without a name:\n" + "\n".join(nameless)
    assert len(focusables) >= least, "only %d can take the keyboard" % len(focusables)


def without_plans():
    """without plans"""
    desk.verdict(lambda text: text == "No plan yet", "an unplanned move")
    audit(40)


def with_a_plan():
    """with a plan: the drawing, the tie-downs, the findings"""
    desk.press("push button", "Plan")
    desk.verdict(lambda text: text.startswith("Stands"), "a verdict")
    audit(80)
    drawing = desk.find("drawing area")
    assert "5 tie-downs" in drawing.get_description(), drawing.get_description()


def with_forces():
    """with the tables of forces and tensions, and the steps of a finding"""
    desk.key("2", "Control")
    desk.find("table", "Forces")
    audit(80)
    desk.key("3", "Control")
    desk.find("table", "Tensions")
    desk.find("toggle button", lambda name: name.startswith("How it comes about: ")).get_action_iface().do_action(0)
    audit(80)
    desk.key("1", "Control")
    desk.find("table", "Tie-downs")


def without_a_way():
    """with a move that cannot be planned: reasons, cures, the news"""
    for _ in range(9):
        desk.key("Down", "Control")
    desk.label(lambda text: text.startswith("RL-11"), "the move that cannot be planned")
    desk.press("push button", "Plan")
    desk.verdict(lambda text: text == "Cannot be planned", "its verdict")
    audit(60)


def with_trailers():
    """with the trailers compared"""
    desk.key("t", "Control")
    desk.find("table", "Trailers")
    desk.label(lambda text: text.startswith("Trailers for 2026-11-25/10:"), "the comparison")
    audit(80)
    desk.press("push button", "Cancel", within="dialog")
    desk.gone("table", "Trailers")


def with_help():
    """with the help"""
    desk.key("F1")
    desk.find("frame", "Fairlead Help")
    audit(60)


try:
    status = Tap().run([without_plans, with_a_plan, with_forces, without_a_way, with_trailers, with_help])
finally:
    desk.stop()
sys.exit(status)
