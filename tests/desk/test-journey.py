# SPDX-License-Identifier: GPL-3.0-or-later
"""A morning in the real window: open, pick, plan, stop, plan the day, take a cure, print to PDF, save, meet a bad fleet.

What is expected of the demo day stands in data/demo/README.md: thirteen of its fourteen moves can be planned, 10 cannot."""

import json
import os
import shutil
import subprocess
import sys
import tempfile

from desk import Atspi, Desk, Tap, has, wait

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
    assert "Pages:           2" in said, said
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
    status = Tap().run([opens, picks_by_keyboard, plans_a_move, selects_tie_downs, stops, plans_the_day, shows_the_trouble, takes_a_cure, exports,
                        saves, refuses_a_bad_fleet, quits])
finally:
    desk.stop()
    shutil.rmtree(folder)
sys.exit(status)
