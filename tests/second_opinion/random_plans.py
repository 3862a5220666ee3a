#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""random_plans.py CLI [--count N] [--seed S] [--only K] [--keep DIR] [--all]
                   [--no-propose] EXAMPLE_FLEET EXAMPLE_PLAN [DEMO_FLEET]   (TAP)

Changes the example and the demo day's plans at random, has the console
program judge them, and compares its results with the second opinion, number
by number.  Plan K of seed S is the same on every machine; --only K makes
that one alone, --keep DIR leaves the documents of each that disagrees,
--all prints every disagreement, --no-propose leaves the planner out.
"""

import argparse
import collections
import copy
import json
import os
import random
import sys

import scratch
from cli import Cli, stands
from mutations import found, mutate
from opinion.quantity import BadInput
from second_opinion import disagreements, load
from tap import Tap

DAY = "2026-11-25"
SHOWN = 12                # disagreements printed in full


# What a long run must have met.
WANTED = {"over", "shared point", "shared anchor", "article",
          "several loads", "blocked", "mat", "steel_drum", "steel_tracks",
          "rubber_tires", "rubber_tracks", "dry", "wet", "frost",
          "working upper_bound", "breaking upper_bound",
          "working load_sharing", "breaking load_sharing", "tensions",
          "house rules"}


def seen(fleet, plan):
    """The kinds of things that are in one judged plan."""
    result = set()
    move = found(fleet, "moves", plan["move"])
    result.add(move.get("deck_state") or "no deck state")
    if fleet.get("house_rules"):
        result.add("house rules")
    if len(plan["loads"]) > 1:
        result.add("several loads")
    for choice in plan["loads"]:
        result |= {key for key in ("article", "mat") if choice.get(key)}
        if choice.get("blocked_forward"):
            result.add("blocked")
        if "machine" in choice:
            machine = found(fleet, "machines", choice["machine"])
            result |= {c.get("running_gear", machine.get("running_gear",
                                                         "no gear"))
                       for c in machine.get("contacts") or []}
    direct = [t for t in plan["tie_downs"] if t["kind"] == "direct"]
    if len(direct) < len(plan["tie_downs"]):
        result.add("over")
    if _twice((t.get("load", 0), t["machine_point"]) for t in direct):
        result.add("shared point")
    if _twice(a for t in plan["tie_downs"] for a in t["anchors"]):
        result.add("shared anchor")
    results = plan["results"]
    if results.get("tensions"):
        result.add("tensions")
    return result | {"%s %s" % (r["level"], r["method"])
                     for r in results.get("force") or []
                     if r.get("capacity_g") is not None}


def _twice(things):
    return max(collections.Counter(things).values(), default=0) > 1


class Tally:
    """What became of the plans."""

    def __init__(self):
        self.compliant = self.other = self.refused = 0
        self.bad = []
        self.seen = collections.Counter()
        self.reasons = []

    def notice(self, fleet, plan):
        """Counts what the judged plans had in them."""
        self.seen.update(seen(fleet, plan))

    def judged(self):
        """How many were judged at all."""
        return self.compliant + self.other


def bases(cli, words, tap):
    """[(fleet, plan)] to change: the example, the demo day's plans, and as
    often plans from scratch (None)."""
    result = [(load(words.example_fleet), load(words.example_plan))] * 4
    if words.demo_fleet is None:
        return result
    demo = load(words.demo_fleet)
    if not words.no_propose:
        _, day, error = cli.run("propose", words.demo_fleet, "--date", DAY,
                                "--json")
        if tap.ok(day is not None and day.get("plans"),
                  "the demo day's plans to start from", [error]):
            result += [(demo, plan) for plan in day["plans"]]
    return result + [(demo, None)] * len(result)


def one(cli, tally, base, number, words):
    """Changes, judges and compares one plan."""
    fleet, plan = copy.deepcopy(base)
    chance = random.Random("%d/%d" % (words.seed, number))
    if plan is None:
        plan = scratch.plan(chance, fleet)
        changes = ["from scratch"]
    else:
        plan.pop("results", None)
        changes = []
    if changes == [] or chance.random() < 0.5:
        changes += mutate(chance, fleet, plan)
    fleet_path = cli.write("fleet.json", fleet)
    status, judged, error = cli.check(fleet_path, plan)
    label = "plan %d of seed %d (%s)" % (number, words.seed,
                                         ", ".join(changes))
    if status == 2:
        tally.refused += 1
        tally.reasons.append("%s: %s" % (label, error.strip()[:200]))
        if error.strip() == "" or words.only is not None:
            tally.bad.append("%s: refused: %s" % (label, error.strip()))
        return
    if status not in (0, 1) or judged is None or "results" not in judged:
        tally.bad.append("%s: exit status %d: %s" % (label, status,
                                                     error[:300]))
        return
    good = stands(judged["results"])
    if judged["results"].get("verdict") == "compliant":
        tally.compliant += 1
    else:
        tally.other += 1
    tally.notice(fleet, judged)
    try:
        lines = disagreements(fleet, judged)
    except BadInput as problem:
        lines = ["bad input passed: %s" % problem]
    if status != (0 if good else 1):
        lines.append("exit status %d for %s" % (
            status, judged["results"].get("verdict")))
    if lines:
        tally.bad += ["%s: %s" % (label, line) for line in lines]
        keep(words.keep, number, fleet, judged)


def keep(folder, number, fleet, judged):
    """Leaves the documents of a disagreement."""
    if folder is None:
        return
    os.makedirs(folder, exist_ok=True)
    for name, document in (("fleet", fleet), ("plan", judged)):
        with open(os.path.join(folder, "%s-%d.json" % (name, number)), "w",
                  encoding="utf-8") as stream:
            json.dump(document, stream, indent=1)


def arguments():
    """The command line."""
    parser = argparse.ArgumentParser(description="Random plans against the "
                                     "second opinion (TAP).")
    parser.add_argument("cli")
    parser.add_argument("example_fleet")
    parser.add_argument("example_plan")
    parser.add_argument("demo_fleet", nargs="?")
    parser.add_argument("--count", type=int, default=150)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--only", type=int)
    parser.add_argument("--keep")
    parser.add_argument("--no-propose", action="store_true",
                        help="without the planner's plans")
    parser.add_argument("--all", action="store_true",
                        help="print every disagreement")
    return parser.parse_args()


def main():
    """Runs all."""
    words = arguments()
    cli, tap, tally = Cli(words.cli), Tap(), Tally()
    start = bases(cli, words, tap)
    numbers = range(words.count) if words.only is None else [words.only]
    for number in numbers:
        one(cli, tally, start[number % len(start)], number, words)
    tap.ok(not tally.bad, "%d plans judged alike" % tally.judged(),
           tally.bad[:None if words.all else SHOWN]
           + ["%d lines in all" % len(tally.bad)])
    print("# seed %d: %d compliant, %d not, %d refused" % (
        words.seed, tally.compliant, tally.other, tally.refused))
    for reason in tally.reasons[:SHOWN]:
        print("# refused: " + reason)
    if words.only is None:
        tap.ok(tally.refused <= len(numbers) // 10,
               "at most a tenth of the documents are refused",
               ["%d of %d" % (tally.refused, len(numbers))])
        tap.ok(tally.compliant > 0 and tally.other > 0,
               "some comply and some do not")
        missing = sorted(WANTED - set(tally.seen))
        tap.ok(not missing or words.count < 100,
               "the plans have all kinds of things in them", missing)
    for what, count in sorted(tally.seen.items()):
        print("# %4d with %s" % (count, what))
    return tap.done()


if __name__ == "__main__":
    sys.exit(main())
