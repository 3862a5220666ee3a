#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""test-verbs.py CLI ROOT (TAP): each verb on the example of the format's description: answer, exit status, JSON.

Outside judges: python3-jsonschema for the shapes; 49 CFR 393.108 (working load limit tables) for what gear is worth; the example's own
results, computed by a script outside the program, for its sums, run lengths and angles."""

import os
import sys

import jsonschema

from console import Console, changed, drop, put, read
from tap import Tap

MOVE = "2026-11-25/01"
TEXT = {"type": "string", "minLength": 1}
PROBLEMS = {
    "type": "object", "required": ["problems"], "additionalProperties": False,
    "properties": {"problems": {"type": "array", "items": {
        "type": "object", "required": ["path", "line", "value", "expected", "severity"], "additionalProperties": False,
        "properties": {"path": {"type": "string"}, "line": {"type": ["integer", "null"]}, "value": {"type": ["string", "null"]}, "expected": TEXT,
                       "severity": {"enum": ["error", "warning"]}}}}}}
GEAR = {
    "type": "object", "required": ["gear"], "additionalProperties": False,
    "properties": {"gear": {"type": "array", "items": {
        "type": "object", "required": ["id", "kind", "in_use", "because", "citation", "steps"], "additionalProperties": False,
        "properties": {"id": TEXT, "kind": {"enum": ["chain", "binder", "strap", "connector"]}, "count": {"type": "integer", "minimum": 2},
                       "wll_lb": {"type": ["number", "null"]}, "wll_kg": {"type": ["number", "null"]}, "in_use": {"type": "boolean"}, "because": TEXT,
                       "citation": TEXT, "steps": {"type": "array", "items": TEXT, "minItems": 1}},
        "oneOf": [{"required": ["wll_lb"]}, {"required": ["wll_kg"]}]}}}}
PROPOSED = {
    "type": "object", "required": ["plans", "unplanned"], "additionalProperties": False,
    "properties": {"plans": {"type": "array"}, "unplanned": {"type": "array", "items": {
        "type": "object", "required": ["move", "because", "cures"], "additionalProperties": False,
        "properties": {"move": TEXT, "because": TEXT, "cures": {"type": "array", "items": TEXT}}}}}}


def read_text(path):
    """A file's text."""
    with open(path, encoding="utf-8") as file:
        return file.read()


class Case:
    """What every check needs."""

    def __init__(self, program, root):
        self.tap, self.console = Tap(), Console(program)
        self.fleet_path = os.path.join(root, "tests/data/example-fleet.json")
        self.plan_path = os.path.join(root, "tests/data/example-plan.json")
        self.fleet, self.plan = read(self.fleet_path), read(self.plan_path)
        schema = read(root, "data/schema/fairlead-plan-1.schema.json")
        self.plan_schema = jsonschema.Draft202012Validator(schema)

    def fits(self, schema, document, name):
        """One result: the document is of that shape."""
        judge = schema if hasattr(schema, "iter_errors") else jsonschema.Draft202012Validator(schema)
        wrong = ["no JSON"] if document is None else ["%s: %s" % (list(e.absolute_path), e.message) for e in judge.iter_errors(document)]
        return self.tap.check(not wrong, name, *wrong[:5])

    def judged(self, fleet, plan, *words):
        """check on changed documents."""
        return self.console.run("check", self.console.write("fleet.json", fleet), self.console.write("plan.json", plan), *words)


def check_check_fleet(case):
    """check-fleet."""
    tap, console = case.tap, case.console
    said = console.run("check-fleet", case.fleet_path)
    tap.check(said.status == 0 and not said.error and "may be used, 0 errors, 0 warnings" in said.text, "check-fleet of the example", said.about())
    tap.check("1 machine," in said.text and "6 chains" in said.text, "it says what is in it", said.about())
    said = console.run("check-fleet", case.fleet_path, "--json")
    tap.check(said.status == 0 and said.document() == {"problems": []}, "check-fleet --json of the example", said.about())
    odd = console.write("odd.json", changed(case.fleet, put(5, "machines", 0, "weigth_lb")))
    said = console.run("check-fleet", odd)
    tap.check(said.status == 0 and not said.error and "machines[0].weigth_lb" in said.text and "0 errors, 1 warning" in said.text,
              "a misspelt key is a warning, and no error", said.about())
    said = console.run("check-fleet", odd, "--json")
    case.fits(PROBLEMS, said.document(), "its JSON has the shape of the description")
    problem = said.document()["problems"][0]
    tap.check(problem["path"] == "machines[0].weigth_lb" and problem["severity"] == "warning" and problem["line"] > 1, "and its path", problem)
    bad = console.write("bad.json", changed(case.fleet, put(3, "machines", 0, "weight_lb"), put("P-99", "moves", 0, "driver")))
    said = console.run("check-fleet", bad, "--json")
    case.fits(PROBLEMS, said.document(), "the JSON of two errors")
    paths = [p["path"] for p in said.document()["problems"]]
    tap.check(said.status == 2 and paths == ["machines[0].weight_lb", "moves[0].driver"] and len(said.lines) == 2,
              "two errors: both told, status 2, a line on standard error for each", said.about())
    said = console.run("rate", odd)
    tap.check(said.status == 0 and said.lines == [odd + ": 1 warning; fairlead-cli check-fleet lists it"], "other verbs count warnings", said.about())


def check_rate(case):
    """rate: 49 CFR 393.108, tables of working load limits, and (d) for what is unmarked."""
    tap, console = case.tap, case.console
    said = console.run("rate", case.fleet_path, "--json")
    document = said.document()
    tap.check(said.status == 0 and not said.error, "rate --json", said.about())
    if not case.fits(GEAR, document, "its JSON has the shape of the description"):
        return
    gear = {piece["id"]: piece for piece in document["gear"]}
    asked = [piece["id"] for kind in ("chains", "binders", "straps", "connectors") for piece in case.fleet[kind]]
    tap.check(sorted(gear) == sorted(asked) and len(document["gear"]) == len(asked), "every record once", sorted(gear))
    tap.check(gear["C-041"]["wll_lb"] == 6600, "a 3/8 in chain of grade 70: 6,600 lb", gear["C-041"])
    tap.check(gear["C-3/8-20"]["wll_lb"] == 2650 and gear["C-3/8-20"]["count"] == 6, "six unmarked 3/8 in chains: 2,650 lb", gear["C-3/8-20"])
    tap.check(gear["B-15"]["wll_lb"] == 5400 and gear["B-15"]["kind"] == "binder", "a binder by its mark", gear["B-15"])
    said = console.run("rate", case.fleet_path)
    row = [line for line in said.text.splitlines() if line.split()[:1] == ["C-041"]]
    tap.check(len(row) == 1 and "6,600 lb" in row[0] and "in use" in row[0] and "grade 70" in row[0] and "49 CFR 393.108" in row[0],
              "for people: worth, state, why and the citation", said.about())
    bent = [{"date": "2026-11-20", "findings": [{"kind": "bent"}]}]
    changes = [put(bent, "chains", 0, "inspections"), drop("binders", 0, "wll_lb"), put("metric", "units")]
    path = console.write("worn.json", changed(case.fleet, *changes))
    said = console.run("rate", path, "--json")
    gear = {piece["id"]: piece for piece in said.document()["gear"]}
    case.fits(GEAR, said.document(), "the JSON in metric units")
    tap.check(gear["C-041"]["in_use"] is False and "bent" in gear["C-041"]["because"], "a bent link puts a chain out of use", gear["C-041"])
    tap.check(gear["B-11"]["wll_kg"] is None, "a binder that nobody looked at: worth not known", gear["B-11"])
    tap.check(gear["C-042"]["wll_kg"] == 2994, "6,600 lb are 2,994 kg (0.45359237 kg a pound)", gear["C-042"])
    said = console.run("rate", path)
    tap.check("OUT OF USE" in said.text and "NOT KNOWN" in said.text and "1 out of use, 1 of unknown worth" in said.text, "both in words",
              said.about())


def check_propose(case):
    """propose: the plan is the judged one, whatever way it is put out."""
    tap, console = case.tap, case.console
    said = console.run("propose", case.fleet_path, "--move", MOVE, "--json")
    answer = said.document()
    tap.check(said.status == 0 and not said.error, "propose --move --json", said.about())
    if not case.fits(PROPOSED, answer, "its JSON has the shape of the description") or len(answer["plans"]) != 1:
        tap.check(False, "one plan", said.about())
        return
    plan = answer["plans"][0]
    case.fits(case.plan_schema, plan, "the plan fits the published schema")
    tap.check(answer["unplanned"] == [] and plan["move"] == MOVE and plan["results"]["verdict"] == "compliant", "it is compliant", said.about())
    judged = case.judged(case.fleet, {k: v for k, v in plan.items() if k != "results"}, "--json")
    tap.check(judged.document() == plan and judged.status == 0, "check says the same of it", judged.about())
    day = console.run("propose", case.fleet_path, "--date", "2026-11-25", "--json")
    tap.check(day.out == said.out and day.status == 0, "a day with that move alone is the same answer", day.about())
    check_propose_files(case, plan)
    words = console.run("propose", case.fleet_path, "--move", MOVE)
    tap.check(words.status == 0 and "compliant" in words.text and "Sums" in words.text and "Tie-downs" in words.text, "for people", words.about())


def check_propose_files(case, plan):
    """-o: PLAN for a move, {"plans"} for a day."""
    tap, console = case.tap, case.console
    said = console.run("propose", case.fleet_path, "--move", MOVE, "-o", "move.json")
    tap.check(said.status == 0 and read(console.path("move.json")) == plan and "Written: move.json" in said.text, "-o of a move is the plan",
              said.about())
    said = console.run("propose", case.fleet_path, "--date", "2026-11-25", "-o", "day.json", "--json")
    tap.check(said.status == 0 and read(console.path("day.json")) == {"plans": [plan]} and said.document()["plans"] == [plan],
              "-o of a day is {plans}, beside the whole answer on standard output", said.about())
    said = console.run("check", case.fleet_path, "day.json", "--json")
    tap.check(said.status == 0 and said.document() == {"plans": [plan], "clashes": []}, "check of a list answers with a list", said.about())


def check_unplanned(case):
    """No plan: status 1, why, and what would cure it."""
    tap, console = case.tap, case.console
    none = changed(case.fleet, *[put([], kind) for kind in ("chains", "binders", "straps", "connectors")])
    path = console.write("none.json", none)
    said = console.run("propose", path, "--move", MOVE, "--json")
    case.fits(PROPOSED, said.document(), "without gear: JSON")
    tap.check(said.status == 1 and said.document()["plans"] == [] and said.document()["unplanned"][0]["move"] == MOVE
              and "chains" in said.document()["unplanned"][0]["cures"][0], "without gear: status 1, and chains would cure it", said.about())
    bare = changed(case.fleet, *[drop("trailers", 0, key) for key in ("anchors", "anchor_rows") if key in case.fleet["trailers"][0]])
    path = console.write("bare.json", bare)
    console.write("kept.json", "before")
    said = console.run("propose", path, "--move", MOVE, "-o", "kept.json")
    tap.check(said.status == 1 and "because: " in said.text and "Not written: kept.json" in said.text and read_text(console.path("kept.json")) == "before",
              "a trailer without anchors, for people: why; -o writes nothing and what was there stays", said.about())
    said = console.run("propose", path, "--date", "2026-11-25", "-o", "empty.json")
    tap.check(said.status == 1 and read(console.path("empty.json")) == {"plans": []} and "0 of 1 moves planned" in said.text,
              "a day of which nothing could be planned: an empty list", said.about())
    said = console.run("check", case.fleet_path, "empty.json")
    tap.check(said.status == 2 and "at least one plan" in said.error and not said.out, "which is nothing to judge", said.about())


def check_check(case):
    """check: the example's results were computed by a script outside the program."""
    tap = case.tap
    said = case.console.run("check", case.fleet_path, case.plan_path, "--json")
    document = said.document()
    tap.check(said.status == 0 and not said.error, "check --json of the example", said.about())
    if not case.fits(case.plan_schema, document, "it fits the published schema"):
        return
    results, expected = document["results"], case.plan["results"]
    tap.check({k: v for k, v in document.items() if k != "results"} == {k: v for k, v in case.plan.items() if k != "results"},
              "the choices come back as they were")
    for key in ("verdict", "house"):
        tap.check(results[key] == expected[key], "%s: %s" % (key, expected[key]), results[key])
    for mine, theirs in zip(results["tie_downs"], expected["tie_downs"]):
        same = all(mine.get(k) == v or (isinstance(v, (int, float)) and abs(mine[k] - v) <= 0.11) for k, v in theirs.items())
        tap.check(same, "tie-down %d: run, length, angles, worth" % theirs["no"], mine, theirs)
    tap.check(results["sums"][0]["need"] == 11000 if "need" in results["sums"][0] else results["sums"][0]["need_lb"] == 11000,
              "half of 22,000 lb is needed, 49 CFR 393.106(d)", results["sums"])
    check_forged(case, document)
    said = case.console.run("check", case.fleet_path, case.plan_path)
    tap.check(said.status == 0 and "need 11,000 lb" in said.text and "have 13,200 lb" in said.text and "42.7°" in said.text,
              "for people: the sums, the angles", said.about())


def check_forged(case, document):
    """Results that are handed in are not believed."""
    forged = changed(document, put([], "tie_downs"))
    said = case.judged(case.fleet, forged, "--json")
    case.tap.check(said.status == 1 and said.document()["results"]["verdict"] == "not_compliant", "a forged verdict is not believed", said.about())


def check_against(case):
    """What stands against a plan: status 1 and which, by standing."""
    tap = case.tap
    short = changed(case.plan, put(case.plan["tie_downs"][:3], "tie_downs"))
    said = case.judged(case.fleet, short)
    first = said.text.index("Stands against it") if "Stands against it" in said.text else -1
    tap.check(said.status == 1 and "NOT COMPLIANT" in said.text and 0 < first < said.text.index("Sums") and "need 11,000 lb, have 9,900 lb" in said.text
              and "49 CFR 393.106(d)" in said.text, "short of the law: first, with need, have and citation", said.about())
    unknown = changed(case.fleet, drop("binders", 0, "wll_lb"))
    said = case.judged(unknown, case.plan, "--json")
    tap.check(said.status == 1 and said.document()["results"]["verdict"] == "incomplete", "a binder that nobody looked at: incomplete, status 1",
              said.about())
    house = changed(case.fleet, put([{"rule": "min_wll_each", "wll_lb": 7000}], "house_rules"))
    said = case.judged(house, case.plan, "--json")
    tap.check(said.status == 1 and said.document()["results"]["verdict"] == "compliant" and said.document()["results"]["house"] == "short",
              "a house rule not met: status 1", said.about())
    excepted = changed(case.plan, put([{"rule": "min_wll_each", "subject": "tie-down %d" % no, "reason": "short way", "by": "P-01"} for no in (1, 2, 3, 4)], "exceptions"))
    said = case.judged(house, excepted, "--json")
    tap.check(said.status == 0 and said.document()["results"]["house"] == "excepted", "an exception by name: status 0", said.about())
    vague = changed(case.fleet, drop("machines", 0, "center_of_gravity"))
    said = case.judged(vague, case.plan, "--json")
    unknown = [f["rule"] for f in said.document()["results"]["findings"] if f["verdict"] == "unknown"]
    tap.check(said.status == 1 and said.document()["results"]["verdict"] == "incomplete" and {"axle_rating", "force"} <= set(unknown)
              and all(rule == "force" or rule.startswith("axle_") for rule in unknown),
              "no center of gravity: axle loads and forces are not known, and nothing else is made up", said.about(), unknown)


def check_lists(case):
    """A file with several plans: the worst decides; what two of them both hold is told."""
    tap, console = case.tap, case.console
    second = dict(case.fleet["moves"][0], id="2026-11-25/02", depart="10:00", back="12:00")
    later = dict(second, depart="13:00", back="15:00")
    both = {"plans": [case.plan, dict(case.plan, move="2026-11-25/02")]}
    said = case.judged(changed(case.fleet, put([case.fleet["moves"][0], later], "moves")), both, "--json")
    tap.check(said.status == 0 and len(said.document()["plans"]) == 2 and said.document()["clashes"] == [], "two plans, one after the other",
              said.about())
    said = case.judged(changed(case.fleet, put([case.fleet["moves"][0], second], "moves")), both, "--json")
    tap.check(said.status == 1 and "chain C-041: 2026-11-25/01 and 2026-11-25/02" in said.document()["clashes"], "at one time: they clash, status 1",
              said.about())
    said = console.run("check", "fleet.json", "plan.json")
    tap.check(said.status == 1 and "Held twice at one time" in said.text and said.text.count("Sums") == 2, "in words too", said.about())
    bad = {"plans": [case.plan, dict(case.plan, move="2026-11-25/02", tie_downs=[])]}
    said = case.judged(changed(case.fleet, put([case.fleet["moves"][0], later], "moves")), bad, "--json")
    tap.check(said.status == 1 and [p["results"]["verdict"] for p in said.document()["plans"]] == ["compliant", "not_compliant"],
              "one good, one not: both judged, status 1", said.about())


def main(arguments):
    """Runs all."""
    case = Case(arguments[1], arguments[2])
    for check in (check_check_fleet, check_rate, check_propose, check_unplanned, check_check, check_against, check_lists):
        check(case)
    return case.tap.end()


if __name__ == "__main__":
    sys.exit(main(sys.argv))
