#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""test-bad-input.py CLI ROOT (TAP): whatever is handed in, the answer is a clear line (file, line, path, value, what was expected) and status 2,
or, where the document is valid and something is missing in the world, an answer with status 1. Nothing crashes, and standard output stays
empty where there is no answer.

The documents start from the example of the format's description; each is spoilt in one place."""

import json
import os
import random
import stat
import sys

from console import Console, changed, drop, line_of, put, read
from tap import Tap

MOVE = "2026-11-25/01"


def holds(line, parts):
    """True if the parts stand in the line, one after the other."""
    at = 0
    for part in parts:
        at = line.find(part, at)
        if at < 0:
            return False
        at += len(part)
    return True


class Case:
    """What every check needs."""

    def __init__(self, program, root):
        self.tap, self.console = Tap(), Console(program)
        self.fleet_path = os.path.join(root, "tests/data/example-fleet.json")
        self.plan_path = os.path.join(root, "tests/data/example-plan.json")
        self.fleet, self.plan = read(self.fleet_path), read(self.plan_path)

    def verbs(self, path):
        """Every verb with `path` as its fleet."""
        return [["check-fleet", path], ["rate", path], ["propose", path, "--move", MOVE], ["propose", path, "--date", "2026-11-25"],
                ["check", path, self.plan_path], ["card", path, self.plan_path, "-o", "never.pdf"]]

    def refused(self, words, parts, name):
        """One result: status 2, nothing on standard output (but for check-fleet's own answer), one line that holds the parts in order."""
        said = self.console.run(*words)
        good = said.status == 2 and (words[0] == "check-fleet" or not said.out) and any(holds(line, parts) for line in said.lines)
        good = good and not os.path.exists(self.console.path("never.pdf"))
        return self.tap.check(good, name, "expected %s" % (parts,), said.about())


def check_files(case):
    """Files that are no fleet: every verb says so in one line."""
    console = case.console
    os.mkdir(console.path("folder"))
    console.write("empty.json", b"")
    console.write("blank.json", b" \n\n")
    console.write("binary.json", bytes(range(256)) * 40)
    console.write("latin.json", '{"name": "Ca\xf1o"}'.encode("latin-1"))
    console.write("brackets.json", b"[" * 80000)
    console.write("objects.json", b'{"a":' * 80000)
    text = open(case.fleet_path, "rb").read()
    console.write("truncated.json", text[:len(text) // 2])
    console.write("two.json", text + text)
    console.write("huge-number.json", text.replace(b'"weight_lb": 22000', b'"weight_lb": 1e999'))
    console.write("nan.json", text.replace(b'"weight_lb": 22000', b'"weight_lb": NaN'))
    expected = {
        "gone.json": ["gone.json: ", "no such file"], "folder": ["folder: ", "is a folder"], "empty.json": ["empty.json: ", "empty document"],
        "blank.json": ["blank.json:", "empty"], "binary.json": ["binary.json: ", "binary"], "latin.json": ["latin.json:", "UTF-8"],
        "brackets.json": ["brackets.json:1: ", "at most 64 deep"], "objects.json": ["objects.json:1: ", "at most 64 deep"],
        "truncated.json": ["truncated.json:%d: " % line_of(text[:len(text) // 2 + 1].decode() + "\0", "\0"), "ends inside"],
        "two.json": ["two.json:", "nothing after the end"],
        "huge-number.json": ["huge-number.json:%d: " % line_of(text.decode(), '"weight_lb": 22000'), "machines[0].weight_lb", "1e999"],
        "nan.json": ["nan.json:%d: " % line_of(text.decode(), '"weight_lb": 22000'), "machines[0].weight_lb"],
        "/dev/zero": ["/dev/zero: ", "device"], "": ['"": ', "no such file"]}
    for name, parts in expected.items():
        for words in case.verbs(name):
            case.refused(words, parts, "%s: %s" % (" ".join(words[:1]), name or "an empty name"))
    for name in ("gone.json", "folder", "empty.json", "binary.json", "brackets.json", "truncated.json"):
        case.refused(["check", case.fleet_path, name], expected[name], "check with %s as its plan" % name)
        case.refused(["card", case.fleet_path, name, "-o", "never.pdf"], expected[name], "card with %s as its plan" % name)


def check_unreadable(case):
    """A file that this user may not read."""
    path = case.console.write("closed.json", "{}")
    os.chmod(path, 0)
    if os.geteuid() == 0:
        case.tap.skip("a file without permission", "the superuser may read everything")
    else:
        case.refused(["rate", path], [path, "may not read"], "a file without permission")
    os.chmod(path, stat.S_IRUSR | stat.S_IWUSR)


def check_json_of_files(case):
    """check-fleet --json answers for files, too: a document with a problem."""
    for name in ("gone.json", "folder", "empty.json", "binary.json", "brackets.json"):
        said = case.console.run("check-fleet", name, "--json")
        document = said.document()
        good = said.status == 2 and document is not None and len(document["problems"]) >= 1 and len(said.lines) >= 1
        good = good and all(p["severity"] == "error" and p["expected"] for p in document["problems"])
        case.tap.check(good, "check-fleet --json: %s" % name, said.about())
    for words in (["rate", "gone.json", "--json"], ["propose", "binary.json", "--move", MOVE, "--json"], ["check", case.fleet_path, "empty.json", "--json"]):
        said = case.console.run(*words)
        case.tap.check(said.status == 2 and not said.out and said.lines, "%s --json with nothing to say: standard output stays empty" % words[0],
                       said.about())


ANCHOR = {"id": "P1L", "x_in": 40, "y_in": 48, "z_in": 0, "fitting": "d_ring"}

# What is wrong, the change, the path and the value of the line.
FLEETS = [
    ("another format", put("fairlead-fleet/9", "format"), "format", '"fairlead-fleet/9"'),
    ("a duplicate id", put("C-041", "chains", 1, "id"), "chains[1].id", '"C-041"'),
    ("an id of another kind of gear", put("C-041", "binders", 0, "id"), "binders[0].id", '"C-041"'),
    ("a trailer with a yard's id", put("NORTH", "trailers", 0, "id"), "trailers[0].id", '"NORTH"'),
    ("a reserved sign in an id", put("C#1", "chains", 0, "id"), "chains[0].id", '"C#1"'),
    ("a dangling yard", put("SOUTH", "machines", 0, "yard"), "machines[0].yard", '"SOUTH"'),
    ("a dangling home of gear", put("T-9", "binders", 0, "kept_at"), "binders[0].kept_at", '"T-9"'),
    ("a dangling machine", put("R-99", "moves", 0, "machine"), "moves[0]", '"R-99"'),
    ("a dangling trailer", put("T-99", "moves", 0, "trailer"), "moves[0].trailer", '"T-99"'),
    ("a dangling truck", put("K-99", "moves", 0, "truck"), "moves[0].truck", '"K-99"'),
    ("a dangling driver", put("P-99", "moves", 0, "driver"), "moves[0].driver", '"P-99"'),
    ("colliding anchors", put([ANCHOR], "trailers", 0, "anchors"), "trailers[0].anchor_rows[0]", "P1L"),
    ("two anchors of one id", put([dict(ANCHOR, id="Q1"), dict(ANCHOR, id="Q1")], "trailers", 0, "anchors"), "trailers[0].anchors[1].id", '"Q1"'),
    ("two tie points of one id", put("RR", "machines", 0, "tie_points", 0, "id"), "machines[0].tie_points[1].id", '"RR"'),
    ("an implement without its tie points", put([], "machines", 0, "tie_points"), "machines[0].implements[0].tie_points[0]", '"BL"'),
    ("a negative weight", put(-22000, "machines", 0, "weight_lb"), "machines[0].weight_lb", "-22000"),
    ("a weight of nothing", put(0, "machines", 0, "weight_lb"), "machines[0].weight_lb", "0"),
    ("a 3 lb loader", put(3, "machines", 0, "weight_lb"), "machines[0].weight_lb", "3"),
    ("a machine as heavy as a ship", put(1e8, "machines", 0, "weight_lb"), "machines[0].weight_lb", ""),
    ("a 3 in trailer", put(3, "trailers", 0, "deck", "length_in"), "trailers[0].deck.length", "3"),
    ("a deck 3 in wide", put(3, "trailers", 0, "deck", "width_in"), "trailers[0].deck.width_in", "3"),
    ("a negative chain", put(-16, "chains", 0, "length_ft"), "chains[0].length_ft", "-16"),
    ("a binder of absurd worth", put(1e9, "binders", 0, "wll_lb"), "binders[0].wll_lb", ""),
    ("an unknown mark", put("99", "chains", 0, "mark"), "chains[0].mark", '"99"'),
    ("an unknown size", put("5/9", "chains", 0, "size_in"), "chains[0].size_in", '"5/9"'),
    ("a size that is no number", put("thick", "chains", 0, "size_in"), "chains[0].size_in", '"thick"'),
    ("both units given", put(9979, "machines", 0, "weight_kg"), "machines[0].weight_kg", "9979"),
    ("no unit given", lambda f: f["chains"][0].update(length=f["chains"][0].pop("length_ft")), "chains[0].length", "length_ft"),
    ("a text for a number", put("heavy", "machines", 0, "weight_lb"), "machines[0].weight_lb", '"heavy"'),
    ("a number for a text", put(7, "machines", 0, "kind"), "machines[0].kind", "7"),
    ("an object for a list", put({}, "chains"), "chains", "{}"),
    ("a text for a record", put("C-041", "chains", 0), "chains[0]", '"C-041"'),
    ("a day that is none", put("2026-02-30", "moves", 0, "date"), "moves[0].date", '"2026-02-30"'),
    ("a time that is none", put("25:00", "moves", 0, "depart"), "moves[0].depart", '"25:00"'),
    ("an unknown running gear", put("hover", "machines", 0, "contacts", 0, "running_gear"), "machines[0].contacts[0].running_gear", '"hover"'),
    ("an unknown house rule", put("be_careful", "house_rules", 0, "rule"), "house_rules[0].rule", '"be_careful"'),
    ("a house rule that asks for nothing", put(0, "house_rules", 0, "wll_lb"), "house_rules[0].wll_lb", "0"),
    ("no weight", drop("machines", 0, "weight_lb"), "machines[0].weight", ""),
    ("no length of a chain", drop("chains", 0, "length_ft"), "chains[0].length", ""),
    ("no name", drop("name"), "name", ""),
    ("a rule book that is not there", put("mars-1", "rule_book"), "rule_book", '"mars-1"'),
    ("a rule book by a path", put("../rules/us-49cfr393", "rule_book"), "rule_book", '"../rules/us-49cfr393"'),
]


def check_fleets(case):
    """A fleet that does not hold: the path and the value, by two verbs."""
    for name, change, path, value in FLEETS:
        text = json.dumps(changed(case.fleet, change), indent=1)
        case.console.write("bad.json", text)
        case.refused(["check-fleet", "bad.json"], ["bad.json:", path, value], name)
        case.refused(["propose", "bad.json", "--move", MOVE, "--json"], ["bad.json:", path, value], name + ", to propose")


def check_lines(case):
    """The line is that of the value."""
    text = open(case.fleet_path, encoding="utf-8").read()
    for old, new, path in (('"weight_lb": 22000', '"weight_lb": 3', "machines[0].weight_lb"), ('"mark": "70"', '"mark": "99"', "chains[0].mark"),
                           ('"wll_lb": 5000', '"wll_lb": 0', "house_rules[0].wll_lb"), ('"driver": "P-02"', '"driver": "x"', "moves[0].driver")):
        case.console.write("bad.json", text.replace(old, new, 1))
        case.refused(["rate", "bad.json"], ["bad.json:%d: %s: " % (line_of(text, old), path)], "the line of %s" % path)
    twice = text.replace('"weight_lb": 22000', '"weight_lb": 22000,\n   "weight_lb": 21000', 1)
    case.console.write("bad.json", twice)
    case.refused(["rate", "bad.json"], ["bad.json:%d: " % line_of(twice, '"weight_lb": 21000'), "weight_lb"], "a key twice in one object")


# What is wrong, the change, the path and the value of the line.
PLANS = [
    ("another format", put("fairlead-fleet/1", "format"), "format", '"fairlead-fleet/1"'),
    ("a move that is not there", put("2026-11-25/77", "move"), "move", '"2026-11-25/77"'),
    ("a trailer that is not there", put("T-77", "trailer"), "trailer", '"T-77"'),
    ("a truck that is not there", put("K-77", "truck"), "truck", '"K-77"'),
    ("a machine that is not there", put("R-77", "loads", 0, "machine"), "loads[0].machine", '"R-77"'),
    ("a position that is not there", put("upside down", "loads", 0, "position"), "loads[0].position", '"upside down"'),
    ("a point that is not there", put("XX", "tie_downs", 1, "machine_point"), "tie_downs[1].machine_point", '"XX"'),
    ("an anchor that is not there", put(["P99L"], "tie_downs", 1, "anchors"), "tie_downs[1].anchors[0]", '"P99L"'),
    ("a chain that is not there", put("C-777", "tie_downs", 2, "chain"), "tie_downs[2].chain", '"C-777"'),
    ("a chain by a binder's number", put("B-11", "tie_downs", 2, "chain"), "tie_downs[2].chain", '"B-11"'),
    ("one of several without its number", put("C-3/8-20", "tie_downs", 2, "chain"), "tie_downs[2].chain", '"C-3/8-20"'),
    ("the seventh of six", put("C-3/8-20 #7", "tie_downs", 2, "chain"), "tie_downs[2].chain", '"C-3/8-20 #7"'),
    ("a binder that is not there", put("B-777", "tie_downs", 2, "binder"), "tie_downs[2].binder", '"B-777"'),
    ("a connector that is not there", put([{"id": "SH-9", "at": "point"}], "tie_downs", 2, "connectors"), "tie_downs[2].connectors[0].id", '"SH-9"'),
    ("an implement that is not there", put("implement:HOE", "tie_downs", 4, "purpose"), "tie_downs[4].purpose", '"HOE"'),
    ("a facing that is none", put("sideways", "loads", 0, "facing"), "loads[0].facing", '"sideways"'),
    ("a load beyond the loads", put(3, "tie_downs", 0, "load"), "tie_downs[0].load", "3"),
    ("two tie-downs of one number", put(1, "tie_downs", 1, "no"), "tie_downs[1].no", "1"),
    ("both units", put(254, "loads", 0, "rear_mm"), "loads[0].rear_mm", "254"),
    ("no place", drop("loads", 0, "rear_in"), "loads[0].rear", ""),
    ("a place beyond the horizon", put(1e300, "loads", 0, "rear_in"), "loads[0].rear_in", ""),
    ("no loads", put([], "loads"), "loads", ""),
    ("chain and strap in one tie-down", put("S-04", "tie_downs", 0, "strap"), "tie_downs[0]", ""),
]


def check_plans(case):
    """A plan that does not hold, alone and in a list; all that is wrong is told."""
    for name, change, path, value in PLANS:
        plan = changed(case.plan, change)
        case.console.write("bad.json", plan)
        case.refused(["check", case.fleet_path, "bad.json", "--json"], ["bad.json:", path, value], name)
        case.console.write("list.json", {"plans": [plan]})
        case.refused(["card", case.fleet_path, "list.json", "-o", "never.pdf"], ["list.json:", "plans[0]." + path, value], name + ", in a list")
    bad = changed(case.plan, put("C-777", "tie_downs", 0, "chain"), put("P99L", "tie_downs", 1, "anchors", 0))
    text = json.dumps(bad, indent=1)
    case.console.write("bad.json", text)
    said = case.console.run("check", case.fleet_path, "bad.json")
    starts = ["bad.json:%d: tie_downs[0].chain: " % line_of(text, '"C-777"'), "bad.json:%d: tie_downs[1].anchors[0]: " % line_of(text, '"P99L"')]
    case.tap.check(said.status == 2 and len(said.lines) == 2 and all(line.startswith(s) for line, s in zip(said.lines, starts)),
                   "two things that are not there: a line for each, with its line", said.about())
    case.console.write("list.json", {"plans": [case.plan, case.plan]})
    case.refused(["check", case.fleet_path, "list.json"], ["list.json: plans[1].move", MOVE, "no plan before it"], "two plans of one move")
    said = case.console.run("check", "gone.json", "gone-too.json")
    case.tap.check(said.status == 2 and [line.split(":")[0] for line in said.lines] == ["gone.json", "gone-too.json"],
                   "fleet and plan missing: both are told", said.about())


def check_questions(case):
    """A move or a day that is not there names those that are."""
    case.refused(["propose", case.fleet_path, "--move", "x"], [case.fleet_path, "x", "it has " + MOVE], "a move that is not there")
    case.refused(["propose", case.fleet_path, "--date", "2031-01-01"], [case.fleet_path, "2031-01-01", "2026-11-25"], "a day without moves")
    case.refused(["propose", case.fleet_path, "--date", "tomorrow"], [case.fleet_path, "tomorrow", "2026-11-25"], "a day that is none")


def check_missing_things(case):
    """Valid documents of a world in which something is missing: an answer, status 1."""
    points = [put([], "machines", 0, "tie_points"), put([], "machines", 0, "implements")]
    anchors = [drop("trailers", 0, "anchor_rows")] if "anchor_rows" in case.fleet["trailers"][0] else []
    anchors += [drop("trailers", 0, "anchors")] if "anchors" in case.fleet["trailers"][0] else []
    gear = [put([], kind) for kind in ("chains", "binders", "straps", "connectors")]
    move, day = ["--move", MOVE], ["--date", "2026-11-25"]
    for name, words, changes in (("no tie points", move, points), ("no tie points", day, points), ("no anchors", move, anchors), ("no anchors", day, anchors),
                                 ("no gear", day, gear), ("none of the three", move, points + anchors + gear)):
        case.console.write("poor.json", changed(case.fleet, *changes))
        said = case.console.run("propose", "poor.json", *words, "--json")
        document = said.document()
        good = said.status == 1 and document is not None and document["plans"] == [] and len(document["unplanned"]) == 1
        case.tap.check(good and document["unplanned"][0]["because"], "%s, %s: no plan, and why" % (name, words[0]), said.about())
    case.console.write("poor.json", changed(case.fleet, *gear))
    said = case.console.run("rate", "poor.json", "--json")
    case.tap.check(said.status == 0 and said.document() == {"gear": []}, "no gear to rate: an empty list", said.about())


def check_spoilt_bytes(case):
    """A document with a few bytes changed at random (a fixed seed): whatever comes of it, no signal and no other status."""
    chance, text = random.Random(20261125), open(case.fleet_path, "rb").read()
    wrong = []
    for round_ in range(60):
        spoilt = bytearray(text)
        for _ in range(chance.randint(1, 4)):
            at = chance.randrange(len(spoilt))
            spoilt[at:at + chance.randint(0, 3)] = bytes(chance.choice(b'{}[]",:0123456789eE+-.\\\n\xc3\x00nullx') for _ in range(chance.randint(0, 3)))
        case.console.write("spoilt.json", bytes(spoilt))
        said = case.console.run("check-fleet", "spoilt.json", "--json")
        document = said.document()
        good = document is not None and said.status in (0, 2)
        if not good or (said.status == 2) != any(p["severity"] == "error" for p in document["problems"]):
            wrong.append("round %d: %s" % (round_, said.about()))
    case.tap.check(not wrong, "sixty documents with spoilt bytes", *wrong[:3])


def main(arguments):
    """Runs all."""
    case = Case(arguments[1], arguments[2])
    for check in (check_files, check_unreadable, check_json_of_files, check_fleets, check_lines, check_plans, check_questions, check_missing_things,
                  check_spoilt_bytes):
        check(case)
    return case.tap.end()


if __name__ == "__main__":
    sys.exit(main(sys.argv))
