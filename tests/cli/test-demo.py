#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""test-demo.py CLI ROOT (TAP): the demo day from the fleet document to the cards, as data/demo/run --cards goes.

Outside judges: python3-jsonschema for the plans; poppler (pdfinfo, pdftotext) for the cards."""

import os
import subprocess
import sys

import jsonschema

from console import Console, read
from tap import Tap

DAY = "2026-11-25"


def gear_of(plan):
    """Unit numbers of all gear of a plan, each as often as it is named."""
    for tie in plan["tie_downs"]:
        yield from (tie[key] for key in ("chain", "strap", "binder") if key in tie)
        yield from (connector["id"] for connector in tie.get("connectors", []))


def check_day(tap, console, fleet, schema):
    """Plans of the day; the answer's own words."""
    path = os.path.join(fleet[0])
    said = console.run("propose", path, "--date", DAY, "--json", "-o", "plans.json")
    answer = said.document()
    if not tap.check(answer is not None and not said.error, "propose --date answers", said.about()):
        return []
    plans, left = answer["plans"], answer["unplanned"]
    asked = sorted(move["id"] for move in fleet[1]["moves"] if move["date"] == DAY)
    tap.check(len(asked) == 14 and sorted([p["move"] for p in plans] + [u["move"] for u in left]) == asked, "all 14 moves are answered for")
    tap.check(len(plans) >= 12 and left, "most can be planned, and one on purpose cannot", [u["move"] for u in left])
    tap.check(all(u["because"] and isinstance(u["cures"], list) for u in left), "what cannot says why", left)
    stands = all(p["results"]["verdict"] == "compliant" and p["results"]["house"] in ("met", "excepted") for p in plans)
    tap.check(said.status == 1 and stands, "status 1 for the one without a plan; all others stand", said.about())
    wrong = [(p["move"], error.message) for p in plans for error in schema.iter_errors(p)]
    tap.check(not wrong, "every plan fits the published schema", wrong[:3])
    twice = [plan["move"] for plan in plans if len(set(gear_of(plan))) != len(list(gear_of(plan)))]
    tap.check(not twice, "no plan uses a piece of gear twice", twice)
    tap.check(read(console.path("plans.json")) == {"plans": plans}, "-o holds the same plans")
    again = console.run("propose", path, "--date", DAY, "--json")
    tap.check(again.out == said.out, "planned again: the same bytes")
    return plans


def check_judged(tap, console, fleet, plans):
    """The plans of the file, judged again."""
    said = console.run("check", fleet[0], "plans.json", "--json")
    tap.check(said.status == 0 and said.document() == {"plans": plans, "clashes": []}, "check says the same of all, and nothing clashes", said.about())
    said = console.run("check", fleet[0], "plans.json")
    tap.check(said.status == 0 and said.text.count("Sums") == len(plans), "for people", said.about())


def pdf_text(path):
    """The words of a PDF, by poppler."""
    return subprocess.run(["pdftotext", "-layout", path, "-"], stdout=subprocess.PIPE, check=True).stdout.decode("utf-8")


def pdf_pages(path):
    """The number of pages of a PDF, by poppler."""
    text = subprocess.run(["pdfinfo", path], stdout=subprocess.PIPE, check=True).stdout.decode("utf-8")
    return int([line.split()[1] for line in text.splitlines() if line.startswith("Pages:")][0])


def check_cards(tap, console, fleet, plans):
    """One file a move in a folder; all in one file; the same bytes again."""
    os.mkdir(console.path("cards"))
    said = console.run("card", fleet[0], "plans.json", "-o", "cards/")
    names = sorted(plan["move"].replace("/", "-") + ".pdf" for plan in plans)
    tap.check(said.status == 0 and not said.error and sorted(os.listdir(console.path("cards"))) == names, "a card a move, and nothing else", said.about())
    wrong, pages = [], 0
    for plan in plans:
        path = console.path("cards", plan["move"].replace("/", "-") + ".pdf")
        text = pdf_text(path)
        pages += pdf_pages(path)
        ids = [plan["trailer"]] + [load.get("machine") or load["article"] for load in plan["loads"]]
        wrong += [(plan["move"], word) for word in ids + ["DRAFT"] if word not in text]
        wrong += [(plan["move"], pdf_pages(path))] if pdf_pages(path) < 2 else []
    tap.check(not wrong, "each has two sides, says DRAFT and names its units", wrong[:5])
    said = console.run("card", fleet[0], "plans.json", "-o", "all.pdf", "--json")
    listed = said.document()
    tap.check(said.status == 0 and [card["move"] for card in listed["cards"]] == [plan["move"] for plan in plans]
              and {card["path"] for card in listed["cards"]} == {"all.pdf"} and pdf_pages(console.path("all.pdf")) == pages, "all in one file", said.about())
    os.mkdir(console.path("again"))
    console.run("card", fleet[0], "plans.json", "-o", "again")
    same = all(open(console.path("cards", name), "rb").read() == open(console.path("again", name), "rb").read() for name in names)
    tap.check(same, "the same cards again: the same bytes; a folder needs no slash")


def check_poor_card(tap, console, fleet, plans):
    """The card of a plan that does not stand is a draft that says so; status 1."""
    plan = max(plans, key=lambda p: len(p["tie_downs"]))
    console.write("poor.json", dict(plan, tie_downs=plan["tie_downs"][:1]))
    said = console.run("card", fleet[0], "poor.json", "-o", "poor.pdf")
    tap.check(said.status == 1 and "NOT COMPLIANT" in said.text and "Stands against it" in said.text and "Written: poor.pdf" in said.text,
              "a plan that does not stand: status 1, and which", said.about())
    tap.check("NOT COMPLIANT" in pdf_text(console.path("poor.pdf")), "and its card says so")


def check_gear(tap, console, fleet):
    """What the demo has on purpose: damaged pieces, unmarked ones, a strap that lost its tag."""
    said = console.run("rate", fleet[0], "--json")
    gear = said.document()["gear"]
    out = [piece["because"] for piece in gear if not piece["in_use"]]
    tap.check(said.status == 0 and all(any(word in text for text in out) for word in ("bent", "stretched", "bolt", "cuts")), "damage of four kinds", out)
    counted = sum(piece.get("count", 1) for piece in gear if piece["kind"] == "chain")
    tap.check(counted >= 80, "at least 80 chains", counted)
    worth = [piece["wll_lb"] for piece in gear if piece["kind"] == "chain" and "no mark" in piece["because"]]
    tap.check(2650 in worth, "an unmarked 3/8 in chain counts 2,650 lb (49 CFR 393.108(d))", worth)


def main(arguments):
    """Runs all."""
    tap, console = Tap(), Console(arguments[1])
    path = os.path.join(arguments[2], "data/demo/fleet.json")
    fleet = (path, read(path))
    schema = jsonschema.Draft202012Validator(read(arguments[2], "data/schema/fairlead-plan-1.schema.json"))
    said = console.run("check-fleet", path)
    tap.check(said.status == 0 and "0 errors" in said.text, "the demo fleet may be used", said.about())
    check_gear(tap, console, fleet)
    plans = check_day(tap, console, fleet, schema)
    if plans:
        check_judged(tap, console, fleet, plans)
        check_cards(tap, console, fleet, plans)
        check_poor_card(tap, console, fleet, plans)
    return tap.end()


if __name__ == "__main__":
    sys.exit(main(sys.argv))
