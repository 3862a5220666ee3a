#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Checks the checker: selftest.py [FLEET PLAN] (TAP).

The example plan must agree in every number; each mutation of it, left with
its old results, must be caught for the right reason; and the checker's own
tables and beams must give published and hand-computed values.
"""

import copy
import math
import os
import subprocess
import sys
import tempfile

from opinion import bend, gear, tables, vehicle
from opinion.compare import busy
from opinion.judge import Opinion
from opinion.quantity import BadInput
import statics_selftest
from second_opinion import disagreements, load
from tap import Tap

HERE = os.path.dirname(os.path.abspath(__file__))
DATA = os.path.join(HERE, os.pardir, "data")


def find(records, name):
    """The record of that id."""
    return next(r for r in records if r["id"] == name)


def tie(plan, number):
    """The tie-down of that number."""
    return next(t for t in plan["tie_downs"] if t["no"] == number)


# Each mutation: (name, what a disagreement must say, change of fleet, plan).

def unmarked_chain(fleet, plan):
    """3/8 unmarked counts 2,650 lb (393.108(d)); enough is then missing."""
    tie(plan, 1)["chain"] = "C-3/8-20 #1"


def one_removed(fleet, plan):
    """Three tie-downs are not four (393.130(c)(1))."""
    plan["tie_downs"] = [t for t in plan["tie_downs"] if t["no"] != 4]
    plan["results"]["tie_downs"] = [t for t in plan["results"]["tie_downs"]
                                    if t["no"] != 4]


def heavier(fleet, plan):
    """26,500 lb wants 13,250 lb, 13,200 are there (393.106(d))."""
    find(fleet["machines"], "R-03")["weight_lb"] = 26500


def weaker_binder(fleet, plan):
    """The weakest part decides (393.108(a))."""
    find(fleet["binders"], "B-11")["wll_lb"] = 5400


def gear_twice(fleet, plan):
    """One chain cannot be in two places."""
    tie(plan, 2)["chain"] = "C-041"


def hook_too_big(fleet, plan):
    """A hook that needs 3.1 in does not go into 3 in."""
    find(fleet["chains"], "C-043")["hook_needs_in"] = 3.1


def chain_too_short(fleet, plan):
    """88.3 in needed, 7 ft are 84."""
    find(fleet["chains"], "C-041")["length_ft"] = 7


def wrong_share(fleet, plan):
    """A direct tie-down counts half (393.106(d)(1))."""
    plan["results"]["tie_downs"][0]["counts_lb"] = 6600


def forged_verdict(fleet, plan):
    """Short, but called compliant."""
    find(fleet["machines"], "R-03")["weight_lb"] = 60000
    for record in plan["results"]["sums"]:
        record.update(weight_lb=60000, need_lb=30000)


def bent_link(fleet, plan):
    """A bent link puts a chain out (common practice, no source)."""
    find(fleet["chains"], "C-041")["inspections"].append(
        {"date": "2026-11-20", "by": "P-01", "findings": [{"kind": "bent"}]})


def lever_run(fleet, plan):
    """A run of 44.3 in is too short for a binder that needs 50."""
    find(fleet["binders"], "B-12")["needs_run_in"] = 50


def blade_free(fleet, plan):
    """The blade lowered and held (393.130(b)(1))."""
    plan["tie_downs"] = [t for t in plan["tie_downs"] if t["no"] != 5]
    del plan["results"]["tie_downs"][4]


def joint_free(fleet, plan):
    """Without its lock four tie-downs in front and four behind."""
    find(fleet["machines"], "R-03")["locks"][0]["fitted"] = False


def all_rearward(fleet, plan):
    """All four pull one way: nothing holds against rearward."""
    for number, anchor in ((1, "P4R"), (2, "P4L")):
        tie(plan, number).update(anchors=[anchor])
    for number, name in ((3, "P1R"), (4, "P1L")):
        tie(plan, number).update(anchors=[name])
    point = find(fleet["machines"], "R-03")["tie_points"]
    find(point, "RL")["x_in"] = find(point, "RR")["x_in"] = 100


def weak_anchor(fleet, plan):
    """An anchor's rating governs where it is the least (393.108(a))."""
    find(fleet["trailers"], "T-3")["anchor_rows"][0]["rated_wll_lb"] = 4000


def other_yard(fleet, plan):
    """Gear of another yard is not on hand."""
    fleet["yards"].append({"id": "SOUTH", "name": "South yard"})
    find(fleet["chains"], "C-041")["kept_at"] = "SOUTH"


def wrong_coupling(fleet, plan):
    """A ball does not take a lunette ring."""
    fleet["trucks"][0]["coupling"]["kind"] = "ball"


def weak_axle(fleet, plan):
    """14,114.7 lb on 14,000."""
    find(fleet["trailers"], "T-3")["axles"][0]["rated_lb"] = 14000


def moved(fleet, plan):
    """A place further forward loads the coupling."""
    plan["loads"][0]["rear_in"] = 13


def small_binder(fleet, plan):
    """A binder for 5/16 in on 3/8 in chain."""
    find(fleet["binders"], "B-14")["chain_sizes"] = ["1/4", "5/16"]


def hoses_hit(fleet, plan):
    """A run through a keep-clear box."""
    find(fleet["machines"], "R-03")["keep_clear"].append(
        {"name": "valve block", "min": {"x_in": -20, "y_in": 30, "z_in": 5},
         "max": {"x_in": 8, "y_in": 60, "z_in": 28}})


def tall(fleet, plan):
    """Height of deck and machine."""
    find(fleet["machines"], "R-03")["height_in"] = 121


MUTATIONS = [
    (unmarked_chain, "tie-down 1: wll_lb: theirs 6600, ours 2650"),
    (unmarked_chain, "sum"), (one_removed, "count (law)"),
    (heavier, "aggregate (law)"),
    (weaker_binder, "limited_by: theirs chain C-041, ours binder B-11"),
    (gear_twice, "gear C-041: used by tie-downs [1, 2]"),
    (hook_too_big, "hook needs 3.10 in"),
    (chain_too_short, "is 84.0 in of 88.3 in needed"),
    (wrong_share, "tie-down 1: counts_lb: theirs 6600, ours 3300"),
    (forged_verdict, "verdict: theirs compliant, ours not_compliant"),
    (bent_link, "out_of_use (practice)"),
    (lever_run, "binder B-12 needs 50.0 in"),
    (blade_free, "implements (law)"), (joint_free, "articulation (practice)"),
    (all_rearward, "nothing holds rearward"),
    (weak_anchor, "ours anchor P11R"), (other_yard, "not on hand"),
    (wrong_coupling, "ball to lunette"),
    (weak_axle, "14114.7 on a rating of 14000.0"),
    (moved, "tie-down axle coupling: load_lb"),
    (small_binder, "binder B-14 is not made for C-044"),
    (hoses_hit, "runs through valve block"),
    (tall, "sizes: height_in: theirs 155, ours 156"),
]


def check_mutations(tap, fleet, plan):
    """Each mutation gives a line that says what it should."""
    for change, says in MUTATIONS:
        changed = copy.deepcopy((fleet, plan))
        change(*changed)
        lines = disagreements(*changed)
        if says == "sum":
            says = "tie-down load 0: have_lb: theirs 13200, ours 11225"
        tap.ok(any(says in line for line in lines), "caught: %s (%s)"
               % (change.__doc__.strip().rstrip("."), says),
               lines or ["no disagreement"])


def check_forgery(tap, fleet, plan):
    """Every number of the results, moved by one step, is noticed."""
    def forge(record, key):
        before = record[key]
        record[key] = "B-99" if isinstance(before, str) else before + 0.2
        found = bool(disagreements(fleet, plan))
        record[key] = before
        return found
    results = plan["results"]
    records = results["tie_downs"] + results["sums"] + results["axles"] \
        + [results["sizes"]]
    missed = [(key, record) for record in records for key in record
              if key not in ("no", "load", "axle") and not forge(record, key)]
    tap.ok(not missed, "each forged number of the results is noticed",
           map(str, missed))


def metric(value):
    """A document with all _lb and _in as _kg and _mm."""
    if isinstance(value, list):
        return [metric(v) for v in value]
    if not isinstance(value, dict):
        return value
    result = {}
    for key, inner in value.items():
        if key.endswith("_lb") and inner is not None:
            result[key[:-3] + "_kg"] = inner * 0.45359237
        elif key.endswith("_in") and not isinstance(inner, str) \
                and inner is not None:
            result[key[:-3] + "_mm"] = inner * 25.4
        elif key.endswith("_ft"):
            result[key[:-3] + "_m"] = inner * 0.3048
        else:
            result[key] = metric(inner)
    return result


def check_units(tap, fleet, plan):
    """The same documents in metric units: the same opinion."""
    choices = {k: v for k, v in plan.items() if k != "results"}
    lines = disagreements(metric(fleet), dict(metric(choices),
                                              results=plan["results"]))
    tap.ok(not lines, "metric documents give the same opinion", lines)


def check_forward_half_turn(tap, fleet, plan):
    """A fleet whose machine is drawn the other way round, facing forward
    (x mirrored about its middle, sides swapped), is the same scene."""
    fleet, plan = copy.deepcopy((fleet, plan))
    machine = find(fleet["machines"], "R-03")

    def turn(record):
        record["x_in"] = 234 - record["x_in"]
        record["y_in"] = -record.get("y_in", 0)
    for record in machine["tie_points"] + machine["contacts"] + [
            machine["center_of_gravity"], machine["articulation"]]:
        turn(record)
    for box in machine["solids"] + machine["keep_clear"]:
        turn(box["min"])
        turn(box["max"])
    plan["loads"][0]["facing"] = "forward"
    lines = disagreements(fleet, plan)
    tap.ok(not lines, "half turn of the machine's frame: the same scene",
           lines)


def check_published(tap, fleet):
    """Values from outside."""
    def chain(**keys):
        return gear.worth(gear.Piece("C", "chain", dict(
            {"id": "C", "length_ft": 20}, **keys))).pounds

    def strap(width, *cuts, **keys):
        return gear.worth(gear.Piece("S", "strap", dict(
            {"id": "S", "width_in": width, "inspections": [
                {"date": "2026-01-01", "findings": [
                    {"kind": "cut", "size_in": c} for c in cuts]}]},
            **keys))).pounds
    # 49 CFR 393.108: cells at the corners of the table, marks, unmarked.
    for size, mark, pounds in (("1/4", "3", 1300), ("1/4", "1000", 4300),
                               ("5/16", "70", 4700), ("5/16", "80", 4500),
                               ("3/8", "43", 5400), ("3/8", None, 2650),
                               ("7/16", "7", 8750), ("5/8", "10", 22600)):
        tap.ok(chain(size_in=size, mark=mark) == pounds,
               "393.108: %s in marked %s is %d lb" % (size, mark, pounds))
    tap.ok(chain(size_in="7/16", mark="80") is None,
           "393.108 has no 7/16 in grade 80: not known")
    tap.ok(chain(size_in="3/8", mark="70", tag_wll_lb=6500,
                 tag_legible=True) == 6500, "393.108(b): the tag wins")
    tap.ok(chain(size_in="3/8", mark=None, tag_wll_lb=6600,
                 tag_legible=False) == 2650, "an illegible tag is none")
    tap.ok(chain(size_mm=10, mark="70") == 6600, "10 mm is 3/8 in")
    # Webbing by width (393.108) and damage limits (state training slides).
    tap.ok(strap(4) == 4000 and strap(1.75) == 1750, "393.108: webbing")
    tap.ok(strap(4, 0.75) == 4000 and strap(4, 0.76) == 0
           and strap(4, 0.5, 0.3) == 0 and strap(3, 0.625) == 3000
           and strap(2, 0.38) == 0, "webbing damage limits, summed")
    tap.ok(strap(4, 0.25, tag_wll_lb=5400, tag_legible=True) == 5400,
           "a legible tag counts on a strap")
    # Counts of 393.110 as in public worked examples.
    counts = [tables.count_by_length(12 * feet, 5000, blocked)
              for feet, blocked in ((15, False), (25, False), (12, False),
                                    (22, False), (20, False), (40, False),
                                    (20, True), (40, True), (10, False))]
    tap.ok(counts == [3, 4, 3, 4, 3, 5, 2, 4, 2], "393.110: counts by length",
           [str(counts)])
    tap.ok(tables.count_by_length(60, 1100, False) == 1
           and tables.count_by_length(60, 1101, False) == 2,
           "393.110(b): 5 ft, 1,100 lb and more")


def check_bend(tap):
    """Over the left edge of a deck 102 in wide; the side unfolded gives a
    straight line, so the bend parts 24 in as 31.95 to 10.20."""
    deck = [((0, -51, -1e4), (288, 51, 0))]
    up, down = math.hypot(11, 30), math.hypot(2, 10)
    path, lies = bend.over_edge((100, 40, 30), (124, 53, -10), deck)
    want = (100 + 24 * up / (up + down), 51, 0)
    tap.ok(lies == "bends" and math.dist(path[1], want) < 1e-6,
           "bend over the edge where the unfolded side says", [str(path)])
    length = math.dist(path[0], path[1]) + math.dist(path[1], path[2])
    tap.ok(abs(length - math.hypot(24, up + down)) < 1e-6,
           "and as long as the straight line on it", [str(length)])
    tap.ok(bend.over_edge((100, 20, 30), (124, 50, 0), deck)[1]
           == "straight", "a pocket in the top of the rail: no bend")


def check_by_hand(tap, fleet, plan):
    """Beams, boxes and times by hand."""
    # 1,000 lb at 2 of a beam on supports 10 and 0: 200 and 800.
    tap.ok(vehicle.two_supports([(1000, 2)], 10, 0) == (200, 800),
           "beam: 200 and 800 lb")
    # A load behind the rear support lifts the front one: -100 and 1,100.
    tap.ok(vehicle.two_supports([(1000, -1)], 10, 0) == (-100, 1100),
           "beam: a load behind lifts the front")
    tap.ok(abs(bend.inside((0, 0, 0), (4, 0, 0), (1, -1, -1),
                                 (2, 1, 1)) - 0.25) < 1e-12
           and bend.inside((0, 2, 0), (4, 2, 0), (1, -1, -1),
                                 (2, 1, 1)) == 0, "boxes: through and by")
    check_bend(tap)
    night = {"date": "2026-11-25", "depart": "22:00", "back": "03:00"}
    first, last = busy({}, night)
    tap.ok(last - first == 5 * 60 + 30, "back before depart is the next day")
    over = copy.deepcopy(plan)
    over["tie_downs"] = [dict(tie(over, 1), kind="over", through=["RL"],
                              anchors=["P11L", "P11R"])]
    del over["tie_downs"][0]["machine_point"]
    opinion = Opinion(fleet, over)
    tap.ok(opinion.counts(opinion.scene.runs[0]) == 6600,
           "393.106(d)(3): over to the other side counts in full")
    aside = opinion.held(opinion.scene.loads[0], "right")
    over["tie_downs"] = [dict(over["tie_downs"][0], through=["RL", "RR"])]
    opinion = Opinion(fleet, over)
    load_ = opinion.scene.loads[0]
    tap.ok(aside > 0 and opinion.held(load_, "left") < 1e-6
           and opinion.held(load_, "right") < 1e-6
           and opinion.held(load_, "up") > 0,
           "over from side to side alike holds down, not sideways: the two "
           "pulls of one tension cancel")
    over["tie_downs"][0]["anchors"] = ["P11L", "P9L"]
    opinion = Opinion(fleet, over)
    tap.ok(opinion.counts(opinion.scene.runs[0]) == 3300,
           "393.106(d)(2): back to the same side counts half")


def check_worth(tap, fleet, plan):
    """Ratings that are shared, and gear that is out of use."""
    fleet, plan = copy.deepcopy((fleet, plan))
    point = find(find(fleet["machines"], "R-03")["tie_points"], "RL")
    point.update(rated_wll_lb=6000, takes=2)
    tie(plan, 2).update(machine_point="RL")
    worth = Opinion(fleet, plan)
    tap.ok([worth.wll(r) for r in worth.scene.runs[:3]] == [3000, 3000, 6600],
           "a shared rating of 6,000 lb leaves each of two 3,000")
    point["rating_is"] = "each"
    worth = Opinion(fleet, plan)
    tap.ok(worth.wll(worth.scene.runs[0]) == 6000,
           "a rating for each stays whole")
    tie(plan, 1).update(anchors=["P11L"])
    find(fleet["trailers"], "T-3")["anchor_rows"][0]["takes"] = 2
    worth = Opinion(fleet, plan)
    tap.ok(worth.wll(worth.scene.runs[0]) == 4000,
           "two on an anchor of 8,000 lb have 4,000 each")
    find(fleet["binders"], "B-13")["inspections"] = [
        {"date": "2026-11-02", "findings": [{"kind": "bent"}]}]
    tie(plan, 4).pop("chain")
    tie(plan, 4).pop("binder")
    tie(plan, 4)["strap"] = "S-04"
    worth = Opinion(fleet, plan)
    tap.ok(worth.wll(worth.scene.runs[2]) == 0
           and worth.counts(worth.scene.runs[2]) == 0,
           "a bent binder: worth nothing")
    run = worth.scene.runs[3]
    tap.ok(abs(run.needs() - run.length() - 12) < 1e-9
           and worth.wll(run) == 5400, "a strap needs its run and a tail")


def second_move(fleet, plan, depart):
    """The same gear for another machine on another move of the day."""
    fleet, plan = copy.deepcopy((fleet, plan))
    for kind, name in (("machines", "R-03"), ("moves", "2026-11-25/01"),
                       ("trailers", "T-3"), ("trucks", "K-2")):
        other = dict(find(fleet[kind], name), id=name + "b")
        fleet[kind].append(other)
    fleet["moves"][-1].update(machine="R-03b", trailer="T-3b", truck="K-2b",
                              driver="P-01", depart=depart, back="15:00")
    for record in fleet["binders"]:
        record["kept_at"] = "NORTH"
    again = dict(plan, move="2026-11-25/01b", trailer="T-3b", truck="K-2b",
                 loads=[dict(plan["loads"][0], machine="R-03b")])
    return disagreements(fleet, {"plans": [plan, again]})


def check_day(tap, fleet, plan):
    """Gear shared by two plans of a day."""
    lines = second_move(fleet, plan, "11:29")
    tap.ok(any("gear C-041 also in plan" in line for line in lines)
           and len(lines) == 10, "gear out at the same time: 10 clashes",
           lines)
    tap.ok(second_move(fleet, plan, "11:30") == [],
           "gear back and turned round is free again")


def check_bad_input(tap, fleet, plan):
    """Bad references are refused, and the exit status says so."""
    for number, (key, value) in enumerate((("chain", "C-999"),
                                           ("anchors", ["Q1L"]),
                                           ("machine_point", "ZZ"),
                                           ("chain", "C-3/8-20 #7"))):
        bad = copy.deepcopy(plan)
        bad["tie_downs"][0][key] = value
        try:
            disagreements(fleet, bad)
            refused = False
        except BadInput:
            refused = True
        tap.ok(refused, "bad input %d: %s %s" % (number, key, value))
    script = os.path.join(HERE, "second_opinion.py")
    with tempfile.NamedTemporaryFile("w", suffix=".json") as broken:
        broken.write("{")
        broken.flush()
        for words, status in (([], 2), ([broken.name, broken.name], 2),
                              (["/nonexistent", broken.name], 2)):
            done = subprocess.run([sys.executable, script] + words,
                                  stdout=subprocess.PIPE,
                                  stderr=subprocess.PIPE, check=False)
            tap.ok(done.returncode == status and done.stderr != b"",
                   "exit status %d for %d bad words" % (status, len(words)))


def main(arguments):
    """Runs all."""
    paths = arguments[1:] or [os.path.join(DATA, "example-fleet.json"),
                              os.path.join(DATA, "example-plan.json")]
    fleet, plan = load(paths[0]), load(paths[1])
    tap = Tap()
    lines = disagreements(fleet, plan)
    tap.ok(not lines, "the example plan agrees in all results", lines)
    opinion = Opinion(fleet, plan)
    tap.ok(opinion.findings == [], "nothing stands against the example",
           map(str, opinion.findings))
    check_mutations(tap, fleet, plan)
    check_forgery(tap, fleet, plan)
    check_units(tap, fleet, plan)
    check_forward_half_turn(tap, fleet, plan)
    check_published(tap, fleet)
    check_by_hand(tap, fleet, plan)
    check_worth(tap, fleet, plan)
    check_day(tap, fleet, plan)
    check_bad_input(tap, fleet, plan)
    statics_selftest.check_all(tap)
    return tap.done()


if __name__ == "__main__":
    sys.exit(main(sys.argv))
