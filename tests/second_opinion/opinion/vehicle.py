# SPDX-License-Identifier: GPL-3.0-or-later
"""Axle and coupling loads by beam statics, and the sizes of the outfit."""

from .quantity import inches, pounds

class Support:
    """A coupling or a group of axles that shares its load."""

    def __init__(self, axles):
        shares = [float(a.get("share") or 1.0) for a in axles]
        self.axles = axles
        self.parts = [s / sum(shares) for s in shares]
        self.x = sum(inches(a, "x") * p for a, p in zip(axles, self.parts))


def groups(axles):
    """Supports from the front; axles without a group stand alone [A19]."""
    named = {}
    for axle in axles:
        name = ("group", axle["group"]) if axle.get("group") else id(axle)
        named.setdefault(name, []).append(axle)
    return sorted((Support(g) for g in named.values()), key=lambda s: -s.x)


def two_supports(loads, front_x, rear_x):
    """(front, rear) reactions to [(pounds, x)] on a beam."""
    front = sum(w * (x - rear_x) for w, x in loads) / (front_x - rear_x)
    return front, sum(w for w, _ in loads) - front


def _spread(supports, loads):
    """Reaction of each support, or None where statics cannot tell."""
    if len(supports) == 1:
        return [sum(w for w, _ in loads)]
    if len(supports) != 2:
        return None
    return list(two_supports(loads, supports[0].x, supports[1].x))


class Point(Support):
    """A coupling as a support."""

    def __init__(self, x):              # pylint: disable=super-init-not-called
        self.axles, self.parts, self.x = [], [], x


class Axle:
    """One line of the axle result; load None where it cannot be told."""

    def __init__(self, name, load, rated):
        self.name = name
        self.load = load
        self.rated = rated
        self.share_pct = None


def _number(prefix, axles):
    """Names by place from the front."""
    order = sorted(axles, key=lambda a: -inches(a, "x"))
    return {id(a): "%s %d" % (prefix, i + 1) for i, a in enumerate(order)}


def _axle_lines(prefix, axles, supports, reactions):
    """Tare plus the part of its support's reaction, for each axle."""
    names = _number(prefix, axles)
    lines = []
    for index, support in enumerate(supports):
        for axle, part in zip(support.axles, support.parts):
            load = None if reactions is None else \
                pounds(axle, "tare") + reactions[index] * part
            lines.append(Axle(names[id(axle)], load, pounds(axle, "rated")))
    return sorted(lines, key=lambda line: line.name)


class Vehicle:
    """Axle lines, trailer's and whole gross weight."""

    def __init__(self, scene):
        self.scene = scene
        self.coupling = scene.trailer.get("coupling")
        self.cargo = sum(load.weight for load in scene.loads)
        self.trailer_gross = self.trailer_tare() + self.cargo
        self.truck_tare = 0.0 if scene.truck is None else \
            sum(pounds(a, "tare") for a in scene.truck["axles"])
        self.gross = self.trailer_gross + self.truck_tare
        self.coupling_load = None
        self.lines = []
        self._trailer()
        self._truck()

    def trailer_tare(self):
        """Tare as entered, else the sum of what stands on the ground."""
        tare = pounds(self.scene.trailer, "tare")
        if tare is not None:
            return tare
        return sum(pounds(a, "tare") for a in self.scene.trailer["axles"]) \
            + (pounds(self.coupling, "tare") or 0.0 if self.coupling else 0.0)

    def _trailer(self):
        loads = [(load.weight, load.centre_of_gravity_x())
                 for load in self.scene.loads]
        axles = self.scene.trailer["axles"]
        supports = groups(axles)
        if self.coupling:
            supports = [Point(inches(self.coupling, "x"))] + supports
        known = all(x is not None for _, x in loads)
        reactions = _spread(supports, loads) if known else None
        if self.coupling:
            self._coupling_line(reactions)
        self.lines += _axle_lines("trailer", axles, supports, reactions)

    def _coupling_line(self, reactions):
        tare = pounds(self.coupling, "tare")
        if reactions is not None and tare is not None:
            self.coupling_load = reactions[0] + tare
        rated = [pounds(c, "rated_vertical")
                 for c in (self.coupling, (self.scene.truck or {})
                           .get("coupling")) if c]
        known = [r for r in rated if r is not None]
        line = Axle("coupling", self.coupling_load,
                    min(known) if known else None)
        if self.coupling_load is not None:
            line.share_pct = 100.0 * self.coupling_load / self.trailer_gross
        self.lines.append(line)

    def _truck(self):
        truck = self.scene.truck
        if truck is None:
            return
        supports = groups(truck["axles"])
        reactions = None
        if not self.coupling:
            reactions = [0.0] * len(supports)
        elif self.coupling_load is not None and truck.get("coupling"):
            reactions = _spread(supports, [(self.coupling_load, inches(
                truck["coupling"], "x"))])
        self.lines += _axle_lines("truck", truck["axles"], supports,
                                  reactions)

    def sizes(self):
        """height, width, length in inches, gross in pounds [A18]."""
        deck = self.scene.trailer["deck"]
        zones = deck.get("zones") or []
        half = inches(deck, "width") / 2
        left, right = half, -half
        height = inches(deck, "height")
        rear = min([0.0] + [inches(z, "x0") for z in zones]
                   + [inches(a, "x") for a in self.scene.trailer["axles"]])
        for load in self.scene.loads:
            rear = min(rear, load.rear)
            side = inches(load.record, "width") / 2
            left = max(left, load.left + side)
            right = min(right, load.left - side)
            height = max(height, inches(deck, "height") + load.z
                         + inches(load.record, "height"))
        front = self._front()
        return {"height": height, "width": left - right,
                "length": None if front is None else front - rear,
                "gross": self.gross}

    def _front(self):
        """Foremost x in the trailer frame."""
        deck = self.scene.trailer["deck"]
        ends = [inches(deck, "length")] + [load.front()
                                           for load in self.scene.loads]
        ends += [inches(z, "x1") for z in deck.get("zones") or []]
        ends += [inches(a, "x") for a in self.scene.trailer["axles"]]
        truck = self.scene.truck
        if self.coupling:
            front = None if truck is None else inches(truck, "front_x")
            if front is None:
                return None                     # ends nobody knows where
            ends.append(inches(self.coupling, "x") + front
                        - inches(truck["coupling"], "x"))
        return max(ends)
