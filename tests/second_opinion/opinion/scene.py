# SPDX-License-Identifier: GPL-3.0-or-later
"""Where the loads stand and where the runs go; inches in the trailer frame.

x forward from the rear edge of the main deck, y to the left from the
centreline, z up from the main deck.
"""

import math

from . import bend, gear, tables
from .quantity import BadInput, inches, needed, pounds


def by_id(fleet, kind, name, what):
    """The record of that id; BadInput where the fleet has none."""
    for record in fleet.get(kind, []):
        if record.get("id") == name:
            return record
    raise BadInput("%s %s is not in the fleet" % (what, name))


def anchors_of(trailer):
    """Anchors by id, the rows expanded: P1L is the rearmost on the left."""
    result = {}
    for anchor in trailer.get("anchors") or []:
        result[anchor["id"]] = anchor
    for row in trailer.get("anchor_rows") or []:
        for index in range(int(row["count"])):
            for side in row["sides"]:
                name = "%s%d%s" % (row["id"], index + 1, side[0].upper())
                sign = 1 if side == "left" else -1
                result[name] = dict(
                    row, id=name, x_in=inches(row, "first_x")
                    + index * inches(row, "spacing", 0.0),
                    y_in=sign * inches(row, "y"), z_in=inches(row, "z"))
                for key in ("x_ft", "x_mm", "x_m", "y_ft", "y_mm", "y_m",
                            "z_ft", "z_mm", "z_m"):
                    result[name].pop(key, None)
    return result


def point(record):
    """(x, y, z) of a record, inches."""
    return tuple(needed(inches(record, axis), "%s of %s"
                        % (axis, record.get("id", "a point")))
                 for axis in "xyz")


def _override(record, position):
    """The record as it is in a position: overriding keys, any unit."""
    if position is None:
        return record
    result = dict(record)
    for key, value in position.items():
        if key in ("id", "name"):
            continue
        stem = key.rsplit("_", 1)[0]
        for old in [k for k in result if k == key
                    or (k.rsplit("_", 1)[0] == stem
                        and k.rsplit("_", 1)[-1] in ("in", "ft", "mm", "m",
                                                     "lb", "kg"))]:
            del result[old]
        result[key] = dict(record.get("basis") or {}, **value) \
            if key == "basis" else value
    return result


def _part(span, stretch):
    """Part (0 to 1) of a contact's length on a stretch of deck."""
    low, high = max(span[0], stretch[0]), min(span[1], stretch[1])
    if span[1] - span[0] < 1e-9:
        return 1.0 if high >= low - 1e-9 else 0.0
    return max(0.0, high - low) / (span[1] - span[0])


class Load:
    """One machine or article of the plan, placed."""

    def __init__(self, fleet, trailer, choice, index):
        self.index = index
        self.is_machine = "machine" in choice
        kind = "machine" if self.is_machine else "article"
        self.id = choice.get(kind)
        base = by_id(fleet, kind + "s", self.id, kind)
        name = choice.get("position")
        position = None
        if name is not None:
            position = next((p for p in base.get("positions") or []
                             if p["id"] == name), None)
            if position is None and name != "normal":
                raise BadInput("%s has no position %s" % (self.id, name))
        self.record = _override(base, position)
        self.choice = choice
        self.weight = needed(pounds(self.record, "weight"),
                             "weight of %s" % self.id)
        self.length = needed(inches(self.record, "length"),
                             "length of %s" % self.id)
        self.x_min = inches(self.record, "x_min", 0.0)
        self.x_max = inches(self.record, "x_max", self.x_min + self.length)
        self.rear = needed(inches(choice, "rear"), "rear of %s" % self.id)
        self.left = inches(choice, "left", 0.0)
        facing = choice.get("facing")
        if facing not in ("forward", "rearward"):
            raise BadInput("facing of %s is %r, expected forward or rearward"
                           % (self.id, facing))
        self.forward = facing == "forward"
        self.z = 0.0
        self.zone = self._zone(trailer)
        self.z = inches(self.zone or {}, "z", 0.0)
        self.points = {p["id"]: p for p in self.record.get("tie_points")
                       or []}

    def heavy(self):
        """True for a machine of 10,000 lb and up [A23]."""
        return self.is_machine and \
            self.weight >= tables.HEAVY_LB * (1 - 1e-9)

    def front(self):
        """x of its forward end."""
        return self.rear + self.x_max - self.x_min

    def place(self, xyz):
        """A point of the machine frame in the trailer frame."""
        x, y, z = xyz
        if self.forward:
            return (self.rear + x - self.x_min, self.left + y, self.z + z)
        return (self.rear + self.x_max - x, self.left - y, self.z + z)

    def contact_spans(self):
        """[(x0, x1, y)] of its contacts on the deck."""
        result = []
        for contact in self.record.get("contacts") or []:
            half = inches(contact, "length", 0.0) / 2
            x, y, _ = self.place((inches(contact, "x"), inches(contact, "y"),
                                  0.0))
            result.append((x - half, x + half, y))
        return result

    def _zone(self, trailer):
        """What it stands on, None where the main deck [A15]."""
        spans = self.contact_spans() or [(self.rear, self.front(), 0.0)]
        deck = trailer["deck"]
        zones = deck.get("zones") or []
        edges = [(inches(z, "x0"), inches(z, "x1")) for z in zones]
        parts = [(sum(_part(span, z) for span in spans), -i)
                 for i, z in enumerate(edges)]
        most = max(parts, default=(0.0, 0))
        on_main = sum(_part(span, (0.0, inches(deck, "length")))
                      for span in spans) - sum(
                          _part(span, (max(0.0, z[0]), min(
                              inches(deck, "length"), z[1])))
                          for span in spans for z in edges)
        return zones[-most[1]] if most[0] > on_main + 1e-9 else None

    def centre_of_gravity_x(self):
        """x of its weight on the trailer, None where nobody knows it."""
        centre = self.record.get("center_of_gravity") or {}
        x = inches(centre, "x")
        if x is None and not self.is_machine:
            return (self.rear + self.front()) / 2       # [A26]
        return None if x is None else self.place((x, 0.0, 0.0))[0]

    def centre_of_gravity(self):
        """Its place on the trailer, None where nobody knows it."""
        centre = self.record.get("center_of_gravity") or {}
        x, z = inches(centre, "x"), inches(centre, "z")
        if x is None or z is None:
            return None
        return self.place((x, inches(centre, "y", 0.0), z))

    def rolls(self):
        """True on wheels or drums, False on tracks or as an article, None
        where nobody says what it stands on."""
        if not self.is_machine:
            return False
        kinds = {c.get("running_gear") for c in self.record.get("contacts")
                 or []} | {self.record.get("running_gear")}
        if kinds & {"rubber_tires", "steel_drum"}:
            return True
        return False if kinds & {"rubber_tracks", "steel_tracks"} else None

    def boxes(self, kind):
        """[(name, min, max)] of solids or keep_clear boxes, placed."""
        result = []
        for box in self.record.get(kind) or []:
            a, b = self.place(point(box["min"])), self.place(point(box["max"]))
            result.append((box.get("name", "box"),
                           tuple(map(min, a, b)), tuple(map(max, a, b))))
        return result


class Run:
    """One tie-down of the plan: its gear, its ends and its path."""

    def __init__(self, fleet, scene, choice):
        self.no = choice["no"]
        self.choice = choice
        self.load = scene.load(choice.get("load", 0), self.no)
        self.purpose = choice.get("purpose", "machine")
        self.over = choice.get("kind") == "over"
        self.anchors = [scene.anchor(name, self.no)
                        for name in choice.get("anchors") or []]
        if len(self.anchors) != (2 if self.over else 1):
            raise BadInput("tie-down %s has %d anchors"
                           % (self.no, len(self.anchors)))
        self.line = self._gear(fleet, "chain") or self._gear(fleet, "strap")
        if self.line is None:
            raise BadInput("tie-down %s has neither chain nor strap"
                           % self.no)
        self.binder = self._gear(fleet, "binder")
        self.connectors = [(gear.find(fleet, c["id"]), c.get("at", "point"))
                           for c in choice.get("connectors") or []]
        self.edge_path = None
        self.points = []
        self.path = self._path()
        self.lies = "straight"
        if not self.over:
            self.path, self.lies = bend.over_edge(
                self.path[0], self.path[1], bend.decks(scene.trailer))

    def _gear(self, fleet, kind):
        name = self.choice.get(kind)
        return None if name is None else gear.find(fleet, name)

    def pieces(self):
        """All gear of the tie-down."""
        return [p for p in [self.line, self.binder] if p is not None] \
            + [p for p, _ in self.connectors]

    def _path(self):
        """Straight from end to end; a direct run starts at the machine."""
        if not self.over:
            self.points = [self._machine_point(self.choice["machine_point"])]
            return [self.load.place(point(self.points[0])),
                    point(self.anchors[0])]
        middle = [self.load.place(xyz) for xyz in self._through()]
        return [point(self.anchors[0])] + middle + [point(self.anchors[1])]

    def _machine_point(self, name):
        if name not in self.load.points:
            raise BadInput("tie-down %s: %s has no point %s"
                           % (self.no, self.load.id, name))
        return self.load.points[name]

    def _through(self):
        """Machine-frame points an over tie-down passes."""
        through = self.choice.get("through")
        if isinstance(through, str):
            for implement in self.load.record.get("implements") or []:
                for path in implement.get("over_paths") or []:
                    if path["id"] == through:
                        self.edge_path = path
                        return [point(p) for p in path["points"]]
            through = [through]
        if not through:
            raise BadInput("tie-down %s goes over nothing" % self.no)
        self.points = [self._machine_point(name) for name in through]
        return [point(p) for p in self.points]

    def length(self):
        """Run in inches along the path."""
        return sum(math.dist(a, b)
                   for a, b in zip(self.path, self.path[1:]))

    def legs(self):
        """Unit vectors from the machine towards each anchor (or the edge
        over which the run bends)."""
        pairs = [(self.path[0], self.path[1])]
        if self.over:
            pairs = [(self.path[1], self.path[0]),
                     (self.path[-2], self.path[-1])]
        result = []
        for start, end in pairs:
            length = math.dist(start, end)
            if length < 1e-9:
                raise BadInput("tie-down %s has no length" % self.no)
            result.append(tuple((e - s) / length
                                for s, e in zip(start, end)))
        return result

    def angles(self):
        """[(deck angle, plan angle)] in degrees, the worse leg first."""
        pairs = [(math.degrees(math.asin(min(1.0, abs(u[2])))),
                  math.degrees(math.atan2(abs(u[1]), abs(u[0]))))
                 for u in self.legs()]
        return sorted(pairs, key=lambda p: -max(30 - p[0], p[0] - 45, 0))

    def held(self, direction):
        """Component against a direction of its unit tension, over all legs."""
        total = sum(-sum(u * d for u, d in zip(leg, direction))
                    for leg in self.legs())
        return max(0.0, total)

    def needs(self, allowance=0.0):
        """Length of chain or strap needed [A1] to [A3]."""
        total = self.length() + tables.TAIL_IN
        if self.line.kind == "chain":
            total += allowance + sum(tables.HOOK_BACK_IN
                         for end in gear.ends(self.line.record)
                         if gear.goes_back(end))
        if self.binder is not None:
            record = self.binder.record
            total += inches(record, "take_up", tables.TAKE_UP_IN.get(
                record.get("kind"), max(tables.TAKE_UP_IN.values())))
        return total

    def share(self):
        """Part of the WLL that counts, 49 CFR 393.106(d) [A12]."""
        if not self.over:
            return tables.SHARE_DIRECT
        a, b = (point(anchor)[1] for anchor in self.anchors)
        return tables.SHARE_OTHER_SIDE if a * b < 0 \
            else tables.SHARE_SAME_SIDE


class Scene:
    """A plan with everything it names found and placed."""

    def __init__(self, fleet, plan):
        self.fleet = fleet
        self.plan = plan
        self.move = by_id(fleet, "moves", plan.get("move"), "move")
        self.trailer = by_id(fleet, "trailers", plan.get("trailer"),
                             "trailer")
        self.truck = None if plan.get("truck") is None else \
            by_id(fleet, "trucks", plan["truck"], "truck")
        self.anchors = anchors_of(self.trailer)
        self.loads = [Load(fleet, self.trailer, choice, index)
                      for index, choice in enumerate(plan["loads"])]
        self.runs = [Run(fleet, self, choice)
                     for choice in plan.get("tie_downs") or []]

    def allowance(self):
        """How much more chain the house wants in every run, inches."""
        return sum(inches(rule, "length", 0.0)
                   for rule in self.fleet.get("house_rules") or []
                   if rule.get("rule") == "chain_allowance")

    def load(self, index, no):
        """The load of a tie-down."""
        if not isinstance(index, int) or not 0 <= index < len(self.loads):
            raise BadInput("tie-down %s: there is no load %r" % (no, index))
        return self.loads[index]

    def anchor(self, name, no):
        """The anchor of a tie-down."""
        if name not in self.anchors:
            raise BadInput("tie-down %s: %s has no anchor %s"
                           % (no, self.trailer["id"], name))
        return self.anchors[name]

    def runs_for(self, load, purpose="machine"):
        """The tie-downs of one load and purpose."""
        return [r for r in self.runs
                if r.load is load and r.purpose == purpose]
