# SPDX-License-Identifier: GPL-3.0-or-later
"""A morning in the real window: open, pick, plan, stop, plan the day, take a cure, print to PDF, save, meet a bad fleet.

What is expected of the demo day stands in data/demo/README.md: thirteen of its fourteen moves can be planned, 10 cannot."""

import json
import os
import shutil
import subprocess
import sys
import tempfile

from desk import Atspi, Desk, Tap, children, has, showing, wait, walk

PROGRAM, DEMO = sys.argv[1:3]
DAY = "2026-11-25"
BAD = """{
 "format": "fairlead-fleet/1", "name": "Bad",
 "yards": [{"id": "Y"}],
 "machines": [
  {"id": "M-1", "kind": "loader", "weight_lb": 3, "length_in": 200, "width_in": 80, "height_in": 100, "yard": "NOWHERE"}
 ]
}
"""

def says_how(name):
    """The name of what opens the steps of a finding."""
    return name.startswith("How it comes about: ")


def texts_in(node):
    """The labels that are shown below a node."""
    return [below.get_name() for below in walk(node) if below.get_role_name() == "label" and showing(below)]


folder = tempfile.mkdtemp(prefix="fairlead-journey.")
fleet = os.path.join(folder, "fleet.json")
card = os.path.join(folder, "card.pdf")
plans = os.path.join(folder, "plans.json")
bad = os.path.join(folder, "bad.json")
shutil.copy(DEMO, fleet)
with open(bad, "w", encoding="utf-8") as file:
    file.write(BAD)
with open(DEMO, encoding="utf-8") as file:
    MOVES = [move for move in json.load(file)["moves"] if move["date"] == DAY]

desk = Desk(PROGRAM, "--day", DAY, fleet)


def frame():
    return desk.find("frame", lambda name: name.startswith("Quillmere"))


def opens():
    """the day's moves are listed, none planned"""
    frame()
    wait(lambda: len(desk.rows("Moves of the day")) == len(MOVES), "a row for each move")
    for row in desk.rows("Moves of the day"):
        assert row[2].startswith("No plan yet"), row
    assert len(MOVES) == 14, len(MOVES)


def picks_by_keyboard():
    """the arrow keys pick a move"""
    wait(lambda: has(desk.find("table", "Moves of the day"), Atspi.StateType.FOCUSED) or desk.selected_row("Moves of the day") == 0, "the list")
    desk.key("Down")
    wait(lambda: desk.selected_row("Moves of the day") == 1, "the second move selected")
    desk.key("Down")
    desk.label(lambda text: text.startswith("TL-10"), "the third move's heading")


def plans_a_move():
    """Ctrl+Return plans it, and the verdict is told"""
    desk.key("Return", "Control")
    verdict = desk.verdict(lambda text: text.startswith("Stands"), "a verdict")
    row = desk.rows("Moves of the day")[2]
    assert row[2].startswith(verdict), (verdict, row)
    assert len(desk.rows("Tie-downs")) >= 4, desk.rows("Tie-downs")


def selects_tie_downs():
    """F6 goes to the drawing, Right picks a tie-down there and in the table"""
    desk.key("F6")
    drawing = desk.find("drawing area", "Drawing of the load on its trailer")
    wait(lambda: has(drawing, Atspi.StateType.FOCUSED), "the drawing with the keyboard")
    desk.key("Right")
    wait(lambda: drawing.get_description().startswith("Tie-down 1,"), "the first tie-down told")
    assert desk.selected_row("Tie-downs") == 0
    desk.key("Right")
    wait(lambda: desk.selected_row("Tie-downs") == 1, "the second tie-down in the table")
    desk.key("Left")
    wait(lambda: drawing.get_description().startswith("Tie-down 1,"), "back to the first")


def opens_steps():
    """F6 goes on to the findings, Return opens how a figure comes about and closes it again"""
    desk.key("F6")
    wait(lambda: has(desk.find("table", "Tie-downs"), Atspi.StateType.FOCUSED), "the table with the keyboard")
    desk.key("F6")
    findings = desk.find("list box", "Findings")
    row = wait(lambda: next((node for node in children(findings) if has(node, Atspi.StateType.FOCUSED)), None), "a finding with the keyboard")
    while desk.find_now("toggle button", says_how, under=row) is None:
        desk.key("Down")
        old = row
        row = wait(lambda: next((node for node in children(findings) if has(node, Atspi.StateType.FOCUSED) and node != old), None), "the next finding")
    how = desk.find_now("toggle button", says_how, under=row)
    assert not has(how, Atspi.StateType.EXPANDED) and has(how, Atspi.StateType.FOCUSABLE)
    before = texts_in(row)
    desk.key("Return")
    wait(lambda: has(how, Atspi.StateType.EXPANDED), "the steps open")
    steps = wait(lambda: texts_in(row)[len(before):], "the steps")
    assert all(steps) and any(character.isdigit() for step in steps for character in step), steps
    desk.key("Return")
    wait(lambda: not has(how, Atspi.StateType.EXPANDED) and texts_in(row) == before, "the steps closed")


def shows_forces():
    """Ctrl+2 and Ctrl+3 show forces and tensions, with their caution and without a figure that is none; Ctrl+1 goes back"""
    desk.key("2", "Control")
    rows = wait(lambda: desk.find_now("table", "Forces") and desk.rows("Forces"), "the forces")
    assert len(rows) == 16 and len({tuple(row[:3]) for row in rows}) == 16, rows
    assert {row[2] for row in rows} == {"forward", "rearward", "to the left", "to the right"}, rows
    assert all(row[3].endswith(" g") for row in rows), rows
    desk.label(lambda text: text.startswith("Engineering advice") and "competent person" in text, "what they are worth")
    desk.key("3", "Control")
    tensions = wait(lambda: desk.find_now("table", "Tensions") and desk.rows("Tensions"), "the tensions")
    assert len(tensions) >= 4 and all(len(row) == 7 for row in tensions), tensions
    assert any(" lb, " in cell and cell.endswith(" %") for row in tensions for cell in row), tensions
    assert not any(bad in cell.lower() for row in rows + tensions for cell in row for bad in ("nan", "inf", "∞")), rows + tensions
    wait(lambda: has(desk.find("table", "Tensions"), Atspi.StateType.FOCUSED), "the tensions with the keyboard")
    desk.key("Down")
    wait(lambda: desk.find("drawing area").get_description().startswith("Tie-down %s," % tensions[1][2]), "the tie-down of the row in the drawing")
    desk.key("1", "Control")
    wait(lambda: has(desk.find("table", "Tie-downs"), Atspi.StateType.FOCUSED), "the tie-downs again")


def stops():
    """planning the day shows its progress, and Escape stops it"""
    desk.press("push button", "Plan the Day")
    desk.find("progress bar", "Progress of planning")
    desk.key("Escape")
    desk.label(lambda text: text.startswith("Stopped"), "what became of it")
    desk.gone("progress bar", "Progress of planning")
    assert desk.rows("Moves of the day")[2][2].startswith("Stands"), "the plan made before is gone"


def plans_the_day():
    """the day is planned while the window answers"""
    desk.press("push button", "Plan the Day")
    bar = desk.find("progress bar", "Progress of planning")
    desk.key("j", "Control")
    box = desk.find("check box", "Only what needs attention")
    wait(lambda: has(box, Atspi.StateType.CHECKED), "the filter on")
    assert desk.find_now("progress bar", "Progress of planning") or bar, "the day was planned before the window answered"
    desk.label(lambda text: text.startswith("13 of 14 moves are planned. %s/10 cannot be planned: " % DAY), "the day's result")
    states = [row[2].split("\n")[0] for row in desk.rows("Moves of the day")]
    assert sum(state.startswith("Stands") for state in states) == 13, states
    assert states[9] == "Cannot be planned", states


def shows_the_trouble():
    """Show goes to the move that cannot be planned, and its reasons and cures are told"""
    desk.press("push button", "Show")
    desk.verdict(lambda text: text == "Cannot be planned", "the verdict")
    desk.label(lambda text: text == "Why not", "the reasons")
    desk.label(lambda text: "articulation lock" in text.lower(), "the lock")
    desk.label(lambda text: text == "What would help", "the cures")


def takes_a_cure():
    """a cure that has a plan is taken, and undone"""
    take = desk.find("push button", lambda name: name.startswith("Take this: "))
    take.get_action_iface().do_action(0)
    desk.verdict(lambda text: text.startswith("Stands"), "the other plan's verdict")
    desk.key("z", "Control")
    desk.label(lambda text: text.startswith("Undone: "), "what was undone")
    desk.verdict(lambda text: not text.startswith("Stands"), "no plan any more")


def choose_file(button, path):
    """Types a path into the file chooser that is open and presses its button."""
    chooser = desk.find("file chooser")
    entry = wait(lambda: desk.find_now("text", under=chooser), "where the path is typed")
    Atspi.EditableText.set_text_contents(entry, path)
    desk.press("push button", button, within="file chooser")


def exports():
    """Ctrl+E writes the card of the selected move as PDF"""
    desk.key("Up", "Control")
    desk.label(lambda text: text.startswith("GR-32"), "the move before")
    desk.key("e", "Control")
    choose_file("Export", card)
    desk.label(lambda text: text.startswith("The card is in "), "where the card is")
    said = subprocess.run(["pdfinfo", card], stdout=subprocess.PIPE, text=True, check=True).stdout
    pages = int(next(line.split()[1] for line in said.splitlines() if line.startswith("Pages:")))
    assert pages >= 2, said  # two sides; many tie-downs take more
    text = subprocess.run(["pdftotext", card, "-"], stdout=subprocess.PIPE, text=True, check=True).stdout
    assert "GR-32" in text and "DRAFT" in text, text[:400]


def saves():
    """Ctrl+S writes all plans with their results"""
    desk.key("s", "Control")
    choose_file("Save", plans)
    desk.label(lambda text: text.startswith("The plans are in "), "where the plans are")
    with open(plans, encoding="utf-8") as written:
        saved = json.load(written)["plans"]
    assert len(saved) == 13, len(saved)
    assert all(plan["results"]["verdict"] == "compliant" for plan in saved), [plan["results"]["verdict"] for plan in saved]


def refuses_a_bad_fleet():
    """a bad fleet is explained line by line, and the good one stays"""
    desk.key("o", "Control")
    desk.find("file chooser")
    desk.key("/")
    choose_file("Open", bad)
    desk.find("dialog", "Problems")
    desk.label(lambda text: text == "bad.json cannot be opened", "what is wrong")
    problems = desk.rows("Problems")
    where = {row[2]: row for row in problems}
    assert where["machines[0].weight_lb"][1] == "5" and where["machines[0].weight_lb"][3] == "3", problems
    assert where["machines[0].yard"][3] == '"NOWHERE"', problems
    desk.press("push button", "Close", within="dialog")
    desk.gone("dialog", "Problems")
    frame()
    assert len(desk.rows("Moves of the day")) == 14


def quits():
    """Ctrl+Q ends the program"""
    desk.key("q", "Control")
    assert desk.quit() == 0, desk.process.returncode


try:
    status = Tap().run([opens, picks_by_keyboard, plans_a_move, selects_tie_downs, opens_steps, shows_forces, stops, plans_the_day, shows_the_trouble, takes_a_cure, exports,
                        saves, refuses_a_bad_fleet, quits])
finally:
    desk.stop()
    shutil.rmtree(folder)
sys.exit(status)
