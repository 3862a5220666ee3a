#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""cli_agreement.py CLI FLEET DATE (TAP): the console program's plans for a
day, and its judgement of them, held against the second opinion."""

import sys

import statics_selftest
from cli import Cli, stands
from opinion.quantity import BadInput
from second_opinion import disagreements, load
from tap import Tap


def lines_of(fleet, document):
    """Disagreements, bad input as one of them."""
    try:
        return disagreements(fleet, document)
    except BadInput as error:
        return [str(error)]


def check_day(tap, fleet, date, status, day):
    """All moves of the day are answered for, and the exit status fits."""
    plans, left = day.get("plans", []), day.get("unplanned", [])
    answered = sorted([p.get("move") for p in plans]
                      + [u.get("move") for u in left])
    asked = sorted(m["id"] for m in fleet["moves"] if m["date"] == date)
    tap.ok(answered == asked, "every move of the day is planned or explained",
           ["asked: %s" % asked, "answered: %s" % answered])
    tap.ok(all(u.get("because") for u in left),
           "every move without a plan says why")
    good = not left and all(stands(p.get("results", {})) for p in plans)
    tap.ok(status == (0 if good else 1), "exit status of propose: %d"
           % status)
    poor = ["%s: %s" % (p["move"], p.get("results", {}).get("verdict"))
            for p in plans if not stands(p.get("results", {}))]
    tap.ok(plans and not poor, "every proposed plan may go", poor)
    return plans


def check_plans(tap, cli, fleet_path, fleet, plans):
    """Each plan by itself: propose's results, then check's."""
    for plan in plans:
        name = plan.get("move")
        lines = lines_of(fleet, plan)
        tap.ok(not lines, "second opinion on %s as proposed" % name, lines)
        status, judged, error = cli.check(fleet_path, plan)
        if not tap.ok(judged is not None and "results" in judged,
                      "check answers for %s" % name, [error]):
            continue
        tap.ok(status == (0 if stands(judged["results"]) else 1),
               "exit status of check for %s: %d" % (name, status))
        lines = lines_of(fleet, judged)
        tap.ok(not lines, "second opinion on %s as judged" % name, lines)
        tap.ok(judged["results"] == plan.get("results"),
               "%s judged again gives the same results" % name)


def check_forged(tap, cli, fleet_path, fleet, plans):
    """Results handed in are not believed: a forged plan is judged anew."""
    if not plans:
        return
    most = max(plans, key=lambda p: len(p["tie_downs"]))
    plan = dict(most, tie_downs=most["tie_downs"][:1])
    status, judged, error = cli.run(
        "check", fleet_path, cli.write("forged.json", plan), "--json")
    tap.ok(status == 1 and judged is not None
           and judged["results"]["verdict"] == "not_compliant",
           "one tie-down with the results of all: not compliant", [error])
    lines = lines_of(fleet, plan)
    tap.ok(any("verdict" in line for line in lines),
           "and the second opinion sees the forgery", lines)


def main(arguments):
    """Runs all."""
    cli, fleet_path, date = Cli(arguments[1]), arguments[2], arguments[3]
    tap, fleet = Tap(), load(fleet_path)
    status, day, error = cli.run("propose", fleet_path, "--date", date,
                                 "--json")
    if tap.ok(day is not None, "propose answers for %s" % date, [error]):
        plans = check_day(tap, fleet, date, status, day)
        lines = lines_of(fleet, {"plans": plans})
        tap.ok(not lines, "second opinion on the whole day", lines)
        check_plans(tap, cli, fleet_path, fleet, plans)
        check_forged(tap, cli, fleet_path, fleet, plans)
        with_forces = [p for p in plans if p["results"].get("tensions")]
        if tap.ok(with_forces, "some plan of the day has force answers"):
            statics_selftest.check_judged(tap, disagreements, fleet,
                                          with_forces[0])
    return tap.done()


if __name__ == "__main__":
    sys.exit(main(sys.argv))
