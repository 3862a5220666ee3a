# SPDX-License-Identifier: GPL-3.0-or-later
"""Legal weights of axles, groups and gross: 23 USC 127, 23 CFR 658.17
(read), truck and trailer in one frame [A37]."""

import math

from .quantity import inches

SINGLE_LB, TANDEM_LB, GROSS_LB = 20000.0, 34000.0, 80000.0
SINGLE_IN, TANDEM_IN, SPECIAL_IN = 40.0, 96.0, 108.0
SPECIAL_LB = {2: 38000.0, 3: 42000.0}       # over 8 and under 9 ft
TANDEM_PAIR_LB, TANDEM_PAIR_IN = 68000.0, 36 * 12.0
HAIR = 1e-6                                 # inches


def half_down(value):
    """The nearest whole number, exact halves down."""
    return math.ceil(value - 0.5 - 1e-9)


def formula(feet, axles):
    """Bridge formula B to the nearest 500 lb, exact halves down."""
    raw = 500.0 * (feet * axles / (axles - 1) + 12 * axles + 36)
    return 500.0 * half_down(raw / 500.0)


def limit(places):
    """(rule, pounds) for consecutive axles at these places, inches."""
    spread, count = max(places) - min(places), len(places)
    if spread <= SINGLE_IN + HAIR:
        return "axle_legal", SINGLE_LB
    if spread <= TANDEM_IN + HAIR:
        return "axle_legal", TANDEM_LB
    if spread < SPECIAL_IN - HAIR and count in SPECIAL_LB:
        return "bridge_formula", SPECIAL_LB[count]
    pounds = formula(half_down(spread / 12.0), count)
    if count == 2:
        pounds = min(pounds, 2 * SINGLE_LB)     # the table from 10 ft on
    if _two_tandems(places):
        pounds = max(pounds, TANDEM_PAIR_LB)
    return "bridge_formula", pounds


def _two_tandems(places):
    """Two consecutive tandems, 36 ft and more from first to last."""
    if len(places) != 4:
        return False
    a, b, c, d = sorted(places)
    return d - a >= TANDEM_PAIR_IN - HAIR and all(
        SINGLE_IN + HAIR < gap <= TANDEM_IN + HAIR
        for gap in (b - a, d - c))


class Road:
    """over: {rule: [(text, sure)]} of what is over its legal weight."""

    def __init__(self, scene, vehicle):
        self.axles = _axles(scene, vehicle)
        self.known = bool(self.axles) and all(
            load is not None for _, load, _ in self.axles)
        self.whole = vehicle.coupling is None or scene.truck is not None
        self.over = {"axle_legal": [], "bridge_formula": [],
                     "gross_legal": []}
        if self.known:
            self._groups()
        self._over("gross_legal", "gross", vehicle.gross, GROSS_LB)

    def _over(self, rule, name, load, most):
        if load > most * (1 + 1e-9):
            self.over[rule].append("%s: %.1f lb of %.1f lb"
                                   % (name, load, most))

    def _groups(self):
        for first in range(len(self.axles)):
            for last in range(first, len(self.axles)):
                part = self.axles[first:last + 1]
                rule, most = limit([x for x, _, _ in part])
                self._over(rule, "%s to %s" % (part[0][2], part[-1][2]),
                           sum(load for _, load, _ in part), most)


def _axles(scene, vehicle):
    """[(x, load, name)] from the front, trailer frame."""
    loads = {line.name: line.load for line in vehicle.lines}
    result = []

    def add(prefix, axles, shift):
        order = sorted(axles, key=lambda a: -inches(a, "x"))
        for index, axle in enumerate(order):
            name = "%s %d" % (prefix, index + 1)
            result.append((inches(axle, "x") + shift, loads.get(name), name))
    truck = scene.truck
    if vehicle.coupling and truck and truck.get("coupling"):
        add("truck", truck["axles"], inches(vehicle.coupling, "x")
            - inches(truck["coupling"], "x"))
    add("trailer", scene.trailer["axles"], 0.0)
    return sorted(result, key=lambda axle: -axle[0])
