#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""test-teach.py CLI ROOT (TAP): what is shown is enough to check a figure by hand: steps of findings and of ratings, forces, tensions.

Outside judges: python3-jsonschema for the shapes; 49 CFR 393.108 for what gear is worth; the direction cosines of elementary statics
(cos of the deck angle times cos or sin of the plan angle) for the component sums; 49 CFR 393.102(a) for the accelerations."""

import math
import os
import re
import sys

import jsonschema

from console import Console, changed, drop, put, read
from tap import Tap

STEP = "        - "
# 49 CFR 393.102(a)(1) and (a)(2), by level; rearward 0.5 g at both is the text.
WANTED = {"working": {"forward": 0.435, "rearward": 0.5, "left": 0.25, "right": 0.25}, "breaking": {"forward": 0.8, "rearward": 0.5, "left": 0.5, "right": 0.5}}
WAYS = {"forward": "forward", "rearward": "rearward", "left": "to the left", "right": "to the right"}


class Case:
    """What every check needs: the example, judged once in both ways."""

    def __init__(self, program, root):
        self.tap, self.console = Tap(), Console(program)
        self.fleet_path = os.path.join(root, "tests/data/example-fleet.json")
        self.plan_path = os.path.join(root, "tests/data/example-plan.json")
        self.fleet, self.plan = read(self.fleet_path), read(self.plan_path)
        self.schema = jsonschema.Draft202012Validator(read(root, "data/schema/fairlead-plan-1.schema.json"))
        self.said = self.console.run("check", self.fleet_path, self.plan_path)
        self.document = self.console.run("check", self.fleet_path, self.plan_path, "--json").document()
        self.results = self.document["results"]

    def rate(self, *changes):
        """rate of a changed example: the pieces by id, and what was said to people."""
        path = self.console.write("gear.json", changed(self.fleet, *changes))
        return {piece["id"]: piece for piece in self.console.run("rate", path, "--json").document()["gear"]}, self.console.run("rate", path)


def block_of(text, heading):
    """The lines of a section of the text: from its heading to the next line that is not indented."""
    lines = text.splitlines()
    start = next((i for i, line in enumerate(lines) if line.startswith(heading)), None)
    if start is None:
        return []
    end = next((i for i in range(start + 1, len(lines)) if not lines[i].startswith(" ")), len(lines))
    return lines[start + 1:end]


def check_findings(case):
    """Each finding with need and have, and its steps beneath, whatever its verdict."""
    tap, text = case.tap, case.said.text
    findings = case.results["findings"]
    steps = [step for finding in findings for step in finding.get("steps", [])]
    tap.check(len(steps) >= 10, "findings have steps", len(steps))
    tap.check(all(STEP + step in text.splitlines() for step in steps), "every step of the document stands in the text",
              [step for step in steps if STEP + step not in text.splitlines()][:3])
    tap.check(all(finding["text"] in text for finding in findings), "every finding stands in the text, met ones too")
    tap.check(not [e.message for e in case.schema.iter_errors(case.document)], "the document fits the published schema")
    order = [text.find(heading) for heading in ("Cautions:", "Sums", "Forces,", "Tensions", "Notes", "Met")]
    tap.check(order == sorted(order) and order[0] > 0, "cautions first, what is met last", order)
    short = case.console.write("short.json", changed(case.plan, put(case.plan["tie_downs"][:3], "tie_downs")))
    said = case.console.run("check", case.fleet_path, short)
    lines = said.text.splitlines()
    at = next(i for i, line in enumerate(lines) if "aggregate_wll" in line)
    tap.check(lines.index("Stands against it") < at < next(i for i, line in enumerate(lines) if line.startswith("Cautions")),
              "a shortfall stands before the cautions", said.about())
    tap.check("need 11,000 lb, have 9,900 lb; known from: scale ticket 2026-03-02" in said.text, "with what the figures are known from", said.about())


def check_brief(case):
    """--brief leaves out how the figures come about; the document stays whole."""
    tap, console = case.tap, case.console
    said = console.run("check", case.fleet_path, case.plan_path, "--brief")
    tap.check(said.status == case.said.status and STEP not in said.text and "Forces" not in said.text and "Sums" in said.text and "Tie-downs" in said.text,
              "check --brief", said.about())
    count = sum(f["verdict"] == "met" for f in case.results["findings"])
    tap.check("Also: %d met" % count in said.text, "it counts what is met", said.about())
    said = console.run("check", case.fleet_path, case.plan_path, "--brief", "--json")
    tap.check(said.document() == case.document, "check --brief --json is the whole document", said.about())
    said = console.run("propose", case.fleet_path, "--move", "2026-11-25/01", "--brief")
    whole = console.run("propose", case.fleet_path, "--move", "2026-11-25/01")
    tap.check(STEP not in said.text and STEP in whole.text and "Sums" in said.text, "propose --brief", said.about())
    said = console.run("rate", case.fleet_path, "--brief")
    whole = console.run("rate", case.fleet_path)
    rows = [line for line in whole.text.splitlines() if not line.startswith(STEP)]
    tap.check(said.text.splitlines() == rows and STEP in whole.text, "rate --brief is rate without its steps", said.about())
    for words in (("card", case.fleet_path, case.plan_path, "-o", "x.pdf"), ("check-fleet", case.fleet_path)):
        said = console.run(*words, "--brief")
        tap.check(said.status == 2 and not said.out, "%s knows no --brief" % words[0], said.about())


# ── forces ──


def rows_of(case):
    """The force table of the text: {(level, friction, case): line}."""
    rows = {}
    for line in block_of(case.said.text, "Forces,"):
        found = re.match(r" +R-03 +(working|breaking) +(dry|wet|frosty|no friction) +(forward|rearward|to the left|to the right) ", line)
        if found:
            rows[found.groups()] = line
    return rows


def lengthwise(tie):
    """Direction cosine along the trailer."""
    return math.cos(math.radians(tie["deck_angle_deg"])) * math.cos(math.radians(tie["plan_angle_deg"]))


def across(tie):
    """Direction cosine across."""
    return math.cos(math.radians(tie["deck_angle_deg"])) * math.sin(math.radians(tie["plan_angle_deg"]))


def check_forces(case):
    """The force table is there, agrees with the document, and its component sums with the cosines of the angles."""
    tap, rows = case.tap, rows_of(case)
    tap.check(len(rows) == 16, "four directions, two levels, with friction and without", list(rows))
    tap.check("Engineering advice" in case.said.text and "competent person" in case.said.text, "it says that this is advice")
    wrong = [f for f in case.results["force"] if abs(f["demand_g"] - WANTED[f["level"]][f["case"]]) > 1e-9]
    tap.check(not wrong, "what is wanted is 49 CFR 393.102(a)", wrong)
    words = {"none": "no friction", "frost": "frosty"}
    for force in case.results["force"]:
        line = rows.get((force["level"], words.get(force["friction"], force["friction"]), WAYS[force["case"]]), "")
        figure = ("%.3f" % force["capacity_g"]).rstrip("0").rstrip(".") + " g" if "capacity_g" in force else "not settled"
        tap.check(figure in line, "%s %s %s: %s" % (force["level"], force["friction"], force["case"], force["method"]), figure, line)
    check_cosines(case)
    check_bounds(case)


def check_cosines(case):
    """By hand: tie-downs 1 and 2 pull rearward, 3 and 4 forward, each to its own side (example-plan.json)."""
    ties = {tie["no"]: tie for tie in case.results["tie_downs"]}
    weight = case.results["sums"][0]["weight_lb"]
    expected = {"forward": [(3, lengthwise), (4, lengthwise)], "rearward": [(1, lengthwise), (2, lengthwise)]}
    sums = {f["case"]: f["capacity_g"] for f in case.results["force"] if f["method"] == "component_sum" and f["friction"] == "none"}
    for way, parts in expected.items():
        by_hand = sum(ties[no]["wll_lb"] * cosine(ties[no]) for no, cosine in parts) / weight
        case.tap.check(abs(sums[way] - by_hand) < 0.002, "component sum %s by the angles shown" % way, sums[way], by_hand)
    both = sum(ties[no]["wll_lb"] * across(ties[no]) for no in (1, 2, 3, 4)) / weight
    case.tap.check(abs(sums["left"] + sums["right"] - both) < 0.003, "component sums to the sides by the angles shown", sums, both)


def check_bounds(case):
    """Load sharing never above the upper bound; tie-downs at their limit by number; what one carries over its limit is its use."""
    tap, results = case.tap, case.results
    by = {(f["level"], f["friction"], f["case"], f["method"]): f for f in results["force"]}
    wrong = [key for key, f in by.items() if key[3] == "load_sharing" and "capacity_g" in f
             and f["capacity_g"] > by[key[:3] + ("upper_bound",)]["capacity_g"] + 0.0011]
    tap.check(not wrong and any(key[3] == "load_sharing" for key in by), "load sharing is never above the upper bound", wrong)
    numbers = {tie["no"] for tie in case.plan["tie_downs"]}
    named = [f["at_limit"] for f in results["force"] if "at_limit" in f]
    tap.check(named and all(set(n) <= numbers for n in named), "tie-downs at their limit are the plan's", named)
    limits = {tie["no"]: tie["wll_lb"] for tie in results["tie_downs"]}
    off = [t for t in results["tensions"] if t["level"] == "working" and abs(t["use"] - t["tension_lb"] / limits[t["no"]]) > 0.001]
    tap.check(results["tensions"] and not off, "use is tension over limit", off)
    lines = block_of(case.said.text, "Tensions")
    worst = max((t for t in results["tensions"] if t["level"] == "working"), key=lambda t: t["use"])
    figure = "{:,.0f} lb".format(worst["tension_lb"])
    tap.check(any(figure in line for line in lines) and len(lines) == 17, "the greatest tension stands in the table", figure, lines)
    tap.check(not re.search(r"\bnan\b|\binf\b|∞", case.said.text, re.IGNORECASE), "no number that is none")


def check_unjudged(case):
    """Without a center of gravity no upper bound and no sharing: said in words, a dash in the table."""
    path = case.console.write("vague.json", changed(case.fleet, drop("machines", 0, "center_of_gravity")))
    said = case.console.run("check", path, case.plan_path)
    lines = block_of(said.text, "Forces,")
    case.tap.check("center_of_gravity" in said.text and not [line for line in lines if "at least" in line] and "Tensions" not in said.text,
                   "no center of gravity: the finding says so", said.about())
    case.tap.check(not re.search(r"\bnan\b|\binf\b|∞", said.text, re.IGNORECASE), "and no number that is none", said.about())


# ── rate ──


def has(piece, *parts):
    """Whether one step of a piece has all the parts."""
    return any(all(part in step for part in parts) for step in piece["steps"])


def check_rate(case):
    """Values of the table: 49 CFR 393.108 (3/8 in: grade 70 6,600 lb, grade 30 2,650 lb; 4 in webbing 4,000 lb); .108(a), (b), (d)."""
    tap = case.tap
    hooks = [{"hook": "grab", "wll_lb": 5400}, {"hook": "grab", "wll_lb": None}]
    gear, said = case.rate()
    tap.check(all(piece["steps"] for piece in gear.values()), "every piece has steps")
    tap.check(has(gear["C-041"], "Mark", '"70"', "grade 70", "49 CFR 393.108(b)") and has(gear["C-041"], "row 3/8", "grade 70", "6,600 lb", "49 CFR 393.108"),
              "a marked chain: what was read, row and column", gear["C-041"])
    tap.check(has(gear["C-3/8-20"], "looked for, none", "grade 30", "49 CFR 393.108(d)") and has(gear["C-3/8-20"], "row 3/8", "grade 30", "2,650 lb"),
              "an unmarked chain counts as grade 30", gear["C-3/8-20"])
    tap.check(all(STEP + step in said.text.splitlines() for piece in gear.values() for step in piece["steps"]), "the text has every step", said.about())
    gear, _ = case.rate(put("70", "chains", 0, "mark"), put(7100, "chains", 0, "tag_wll_lb"), put(True, "chains", 0, "tag_legible"))
    tap.check(has(gear["C-041"], "Tag: legible, 7,100 lb") and not has(gear["C-041"], "Table"), "a legible tag comes before the table", gear["C-041"])
    gear, _ = case.rate(put(7100, "chains", 0, "tag_wll_lb"), put(False, "chains", 0, "tag_legible"))
    tap.check(has(gear["C-041"], "Tag: not legible") and has(gear["C-041"], "row 3/8"), "one that cannot be read does not count", gear["C-041"])
    gear, _ = case.rate(put(hooks, "chains", 0, "ends"), drop("chains", 0, "hook"))
    tap.check(has(gear["C-041"], "Hook: rated 5,400 lb") and has(gear["C-041"], "Hook: looked at, no mark", "2,650 lb")
              and has(gear["C-041"], "weakest", "49 CFR 393.108(a)", "2,650 lb") and gear["C-041"]["wll_lb"] == 2650, "two hooks: the weaker counts", gear["C-041"])
    found = [{"date": "2026-11-20", "findings": [{"kind": "repair", "repair_link": "clevis", "wll_lb": 6000}]}]
    gear, _ = case.rate(put(found, "chains", 0, "inspections"))
    tap.check(has(gear["C-041"], "clevis", "accepts") and has(gear["C-041"], "rated 6,000 lb") and gear["C-041"]["wll_lb"] == 6000, "an accepted repair link joins",
              gear["C-041"])


def check_out(case):
    """Out of use and not known: the last step says so and why."""
    tap = case.tap
    bolt = [{"date": "2026-11-20", "findings": [{"kind": "repair", "repair_link": "bolt"}]}]
    cuts = [{"date": "2026-11-20", "findings": [{"kind": "cut", "size_in": 0.5}, {"kind": "burned", "size_in": 0.3125}]}]
    gear, _ = case.rate(put(bolt, "chains", 0, "inspections"), put(cuts, "straps", 0, "inspections"), drop("binders", 0, "wll_lb"))
    strap = case.fleet["straps"][0]["id"]
    tap.check(has(gear["C-041"], "bolt", "does not accept") and "out of use" in gear["C-041"]["steps"][-1], "a bolt for a link", gear["C-041"])
    tap.check(has(gear[strap], "cut", "0.5 in") and has(gear[strap], "add up to 0.813 in") and "out of use" in gear[strap]["steps"][-1],
              "cuts across a strap are added up: 1/2 + 5/16 in = 0.8125 in", gear[strap])
    tap.check(has(gear["B-11"], "nobody has looked"), "a binder that nobody looked at", gear["B-11"])
    many = [{"date": "2026-11-20", "findings": [{"kind": "bent"}] * 60}]
    gear, said = case.rate(put(many, "chains", 0, "inspections"))
    tap.check("out of use" in gear["C-041"]["steps"][-1] and said.status == 0, "sixty findings: the result keeps its place", len(gear["C-041"]["steps"]))


def main(arguments):
    """Runs all."""
    case = Case(arguments[1], arguments[2])
    for check in (check_findings, check_brief, check_forces, check_unjudged, check_rate, check_out):
        check(case)
    return case.tap.end()


if __name__ == "__main__":
    sys.exit(main(sys.argv))
