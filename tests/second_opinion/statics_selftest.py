# SPDX-License-Identifier: GPL-3.0-or-later
"""Checks of the second opinion's statics and legal weights: published values
and hand calculations, and forged results that must be caught."""

import copy
import math

from opinion import balance, bearing, friction, road
from opinion.body import Pull


class Block:
    """A body by hand: 1,000 lb on four corners, 40 in by 20, middle at the
    origin, center of gravity 30 in up."""

    def __init__(self, mu, pulls=(), shared=()):
        self.weight = 1000.0
        self.centre = (0.0, 0.0, 30.0)
        self.contacts = [((x, y, 0.0), mu) for x in (20, -20)
                         for y in (10, -10)]
        self.pulls = list(pulls)
        self.shared = list(shared)


def _pull(at, along, limit, *more):
    length = math.sqrt(sum(a * a for a in along))
    legs = [(at, tuple(a / length for a in along))]
    return Pull(None, legs + list(more), limit)


def check_bounds(tap):
    """Blocks that slide and tip, elementary statics."""
    def near(got, want, what, slack=1e-6):
        tap.ok(got is not None and abs(got - want) < slack, what, [str(got)])
    near(balance.upper_bound(Block((0.3, 0.3)), "forward"), 0.3,
         "no tie-downs: slides at c = mu")
    # Tips over its side at half the width over the height: 10/30.
    near(balance.upper_bound(Block((0.9, 0.9)), "left"), 1 / 3,
         "no tie-downs: tips at c = b/h")
    near(balance.upper_bound(Block((0.02, 0.3)), "forward"), 0.02,
         "a wheel that rolls has its own friction lengthwise")
    near(balance.upper_bound(Block((0.02, 0.3)), "right"), 0.3,
         "and the deck's sideways", 1e-3)
    # One level pull of 100 lb at the height of the center: 0.1 g.
    back = _pull((20, 0, 30), (-1, 0, 0), 100.0)
    near(balance.upper_bound(Block((0, 0), [back]), "forward"), 0.1,
         "a pull through the center holds its limit")
    near(balance.upper_bound(Block((0.3, 0.3), [back]), "forward"), 0.4,
         "and friction adds to it")
    # Two of them that share a rating of 150 lb: 0.15 g.
    two = [_pull((20, y, 30), (-1, 0, 0), 100.0) for y in (5, -5)]
    near(balance.upper_bound(Block((0, 0), two, [
        (150.0, [(0, 1), (1, 1)])]), "forward"), 0.15,
         "a shared rating limits the sum")
    # 45 degrees down at the center's height: N grows, so does friction:
    # (cos + mu sin) T / W + mu.
    down = _pull((0, 0, 30), (-1, 0, -1), 200.0)
    near(balance.upper_bound(Block((0.2, 0.2), [down]), "forward"),
         0.2 * math.sqrt(0.5) * 1.2 + 0.2,
         "a slanting pull presses it down too")
    # Over a load from side to side: the legs' sideways parts cancel.
    over = _pull((0, 10, 30), (0, 1, -1), 100.0,
                 ((0, -10, 30), (0, -math.sqrt(0.5), -math.sqrt(0.5))))
    near(balance.upper_bound(Block((0, 0), [over]), "left"), 0.0,
         "an over tie-down alike on both sides holds nothing sideways")
    near(balance.upper_bound(Block((0, 0), [over]), "up"),
         0.2 * math.sqrt(0.5), "and holds down with both legs")
    high = Block((0.3, 0.3))
    high.centre = (25.0, 0.0, 30.0)
    tap.ok(not balance.stands(high) and balance.stands(Block((0, 0)))
           and balance.upper_bound(high, "forward") is None,
           "a center of gravity beyond its contacts falls over")


def check_cone(tap):
    """Inside and round the cone differ by cos(pi / 64) at most."""
    inner = balance.upper_bound(Block((0.3, 0.3)), "forward")
    outer = balance.upper_bound(Block((0.3, 0.3)), "forward", True)
    tap.ok(0 < outer - inner <= 0.3 * (1 / math.cos(math.pi / 64) - 1) + 1e-9,
           "64 sides leave 0.12 percent of friction", ["%r" % outer])
    back = _pull((20, 0, 30), (-1, 0, 0), 100.0)
    block = Block((0, 0), [back])
    tap.ok(balance.unbalanced(block, "forward", 0.08, [80.0]) < 1e-9
           and balance.unbalanced(block, "forward", 0.08, [70.0]) > 0.003,
           "tensions that balance, and that do not")


def check_road(tap):
    """Bridge formula B, the printed table; 23 CFR 658.17 (read)."""
    table = {3: {9: 42500, 10: 43500, 12: 45000, 16: 48000,
                                 20: 51000, 24: 54000, 32: 60000},
             4: {12: 50000, 14: 51500, 16: 52500, 20: 55500, 28: 60500,
                 35: 65500, 36: 66000, 39: 68000},
             5: {16: 58000, 24: 63000, 32: 68000, 51: 80000},
             6: {20: 66000, 28: 71000, 43: 80000},
             7: {24: 74000, 32: 78500, 34: 80000}, 8: {28: 82000}}
    wrong = [(n, feet) for n, row in table.items()
             for feet, pounds in row.items()
             if road.formula(feet, n) != pounds]
    tap.ok(not wrong, "bridge formula: cells of the printed table", wrong)
    cases = [([0, 40], 20000), ([0, 41], 34000), ([0, 96], 34000),
             ([0, 48, 96], 34000), ([0, 98], 38000), ([0, 49, 98], 42000),
             ([0, 108], 39000), ([0, 120], 40000), ([0, 500], 40000),
             ([0, 50, 380, 430], 66000), ([0, 50, 382, 432], 68000),
             ([0], 20000)]
    wrong = [(places, road.limit(places)) for places, pounds in cases
             if road.limit(places)[1] != pounds]
    tap.ok(not wrong, "single, tandem, 8 to 9 ft, 36 ft exception", wrong)


class _Standing:
    """A load for the bearing: contacts 0 to 100 in, 1,000 lb at x."""

    def __init__(self, x, spans):
        self.is_machine, self.weight, self._x = True, 1000.0, x
        self.record = {"contacts": [{} for _ in spans]}
        self._spans = [(a, b, 0.0) for a, b in spans]

    def contact_spans(self):
        """As of a load."""
        return self._spans

    def centre_of_gravity_x(self):
        """As of a load."""
        return self._x


def check_bearing(tap):
    """A footing: even, trapezoid, triangle; two axles: the lever."""
    def most(x, spans, span):
        return bearing.most_on(bearing.lines(_Standing(x, spans)), span)
    track = [(0.0, 100.0)]
    tap.ok(abs(most(50, track, 50) - 500) < 1e-6,
           "in the middle of a track: half of it bears half")
    # A sixth off: a triangle, three quarters of it on the heavy half.
    tap.ok(abs(most(100 * 2 / 3, track, 50) - 750) < 1e-4,
           "a sixth off: a triangle, three quarters on half")
    # 20 in from the edge: 3 x 20 = 60 in bear all.
    tap.ok(abs(most(80, track, 60) - 1000) < 1e-4,
           "beyond: three times the distance to the edge bears all")
    axles = [(0.0, 1e-3), (100.0, 100.001)]
    tap.ok(abs(most(80, axles, 50) - 800) < 0.1, "two axles: the lever")


def check_friction(tap):
    """What stands in the written table, its gaps and the mats."""
    tap.ok(friction.of_deck("steel_drum", "steel", "wet") == 0.10
           and friction.of_deck("rubber_tires", "wood", "dry") == 0.30
           and friction.of_deck("steel_tracks", None, "dry") == 0.15
           and friction.of_deck(None, "wood", "dry") == 0.25
           and friction.of_deck(None, None, "frost") == 0.05,
           "friction: cells, an unknown surface, an unknown running gear")
    tap.ok(friction.state_of({}) == "wet", "a move that says nothing is wet")


def check_judged(tap, disagreements, fleet, judged):
    """With the program's own answers: every force number, forged, is seen;
    a tension too."""
    lines = disagreements(fleet, judged)
    tap.ok(not lines, "a judged plan agrees, forces and all", lines)
    results = judged["results"]
    tap.ok(results.get("force") and results.get("tensions"),
           "and has forces and tensions")
    missed = []
    for record in results["force"]:
        if record["method"] != "load_sharing" and "capacity_g" in record:
            forged = copy.deepcopy(judged)
            index = results["force"].index(record)
            forged["results"]["force"][index]["capacity_g"] += 0.003
            if not disagreements(fleet, forged):
                missed.append(record)
    tap.ok(not missed, "each force number moved by 0.003 g is noticed",
           map(str, missed))
    forged = copy.deepcopy(judged)
    pulling = [r for r in forged["results"]["tensions"]
               if r.get("tension_lb", 0) > 100 and r["friction"] == "none"]
    pulling[0]["tension_lb"] -= 60
    tap.ok(any("does not balance" in line
               for line in disagreements(fleet, forged)),
           "a tension that is 60 lb off no longer balances")


def check_all(tap):
    """All that need no program."""
    check_bounds(tap)
    check_cone(tap)
    check_road(tap)
    check_bearing(tap)
    check_friction(tap)
